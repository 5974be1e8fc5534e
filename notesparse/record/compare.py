"""What is otherwise in a note's record than it was, in lines for a person."""

from __future__ import annotations

from typing import Any

from notesparse.facts import PLANT_KEYS

_HEAD = ("field", "date", "planted", "emerged", "variety", "maturity_group", "row_spacing_in")
_MOST = 12


def differences(old: dict[str, Any], new: dict[str, Any]) -> list[str]:
    """The values that came, went or changed, the stages, and what is open or not understood; two records as dicts."""
    out: list[str] = []
    if old["sha256"] != new["sha256"]:
        out.append("the note's text has changed")
    before, after = _values(old), _values(new)
    changed = [key for key in (*before, *(k for k in after if k not in before)) if before.get(key) != after.get(key)]
    for key in changed[:_MOST]:
        out.append(f"{key}: {_said(before.get(key))}, now {_said(after.get(key))}")
    if len(changed) > _MOST:
        out.append(f"and {len(changed) - _MOST} values more")
    for name, of in (("open questions", _open), ("places not understood", _unread)):
        was, now = of(old), of(new)
        if was != now:
            out.append(f"{name}: {len(was)}, now {len(now)}" + _which(was, now))
    return out


def _values(record: dict[str, Any]) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for at, visit in enumerate(record["visits"], 1):
        head = f"visit {at} " if len(record["visits"]) > 1 else ""
        out |= {f"{head}{key}": visit[key] for key in _HEAD if visit[key] is not None}
        for plant in visit["plants"]:
            whose = f"{head}plant {plant['plant']}" + (f" at {plant['stop']}" if plant["stop"] else "")
            kept = (*PLANT_KEYS, "v_stage", "r_stage")
            out |= {f"{whose} {key}": plant[key] for key in kept if plant[key] is not None}
        for tally in visit["tallies"]:
            out[f"{head}share at {tally['what']}"] = [tally["count"], tally["of"], tally["percent"]]
        for finding in visit["findings"]:
            named = " ".join(filter(None, (finding["kind"], finding["name"], finding["where"])))
            out[f"{head}{named}"] = finding["value"] if finding["value"] is not None else "seen"
        stage = visit["field_stage"]
        out |= {f"{head}field {letter.upper()}": stage[letter] for letter in ("v", "r") if stage[letter] is not None}
    return out


def _said(value: Any) -> str:
    if value is None:
        return "nothing"
    return " ".join("-" if v is None else str(v) for v in value) if isinstance(value, list) else str(value)


def _open(record: dict[str, Any]) -> list[str]:
    return [q["quote"] for q in record["questions"] if q["answer"] is None]


def _unread(record: dict[str, Any]) -> list[str]:
    return [u["quote"] for u in record["unread"]]


def _which(was: list[str], now: list[str]) -> str:
    new = [f"“{words}”" for words in now if words not in was][:3]
    return f" ({', '.join(new)})" if new else ""
