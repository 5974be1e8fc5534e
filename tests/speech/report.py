"""What speech recognition does to a note: the record of what was said against the record of what was heard.

    python -m tests.speech.report

`heard.jsonl` holds invented lines (`said`), each as two recognisers heard a synthetic voice (`heard`, by recogniser
and noise).
A disagreement is told of where the heard note has a question, or an unread part; it is silent where nothing says so.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

from notesparse import read
from notesparse.facts import PLANT_KEYS

LINES = Path(__file__).with_name("heard.jsonl")
NOTE_DATE = "2026-07-14"
HEAD = ("field", "planted", "emerged", "variety", "maturity_group", "row_spacing_in")
COLUMNS = ("lines", "said", "agree", "told", "silent wrong", "silent lost")


def record_of(text: str) -> dict[str, Any]:
    return json.loads(read(text, date=NOTE_DATE).to_json())


def facts_of(record: dict[str, Any]) -> dict[tuple[Any, ...], tuple[Any, list[int] | None]]:
    """(visit, whose, key) -> (value, span) of everything that the note says."""
    out: dict[tuple[Any, ...], tuple[Any, list[int] | None]] = {}
    for k, visit in enumerate(record["visits"]):
        for key in HEAD:
            if visit[key] is not None:
                out[k, "visit", key] = (visit[key], None)
        for p in visit["plants"]:
            for key in PLANT_KEYS:
                if p[key] is not None and key not in p["derived"]:
                    out[k, p["plant"], key] = (p[key], p["spans"].get(key))
        for t in visit["tallies"]:
            out[k, "tally", t["what"]] = ((t["count"], t["of"], t["percent"]), t["span"])
        for letter in "vr":
            if (visit["stated"] or {}).get(letter) is not None:
                out[k, "field", letter] = (visit["stated"][letter], visit["stated"]["span"])
        for f in visit["findings"]:
            out[k, "finding", f["kind"], f["name"]] = (f["value"], f["span"])
    return out


def compare(said: str, heard: str) -> tuple[Counter[str], list[str]]:
    """Counts of the facts of one line, and its silent disagreements."""
    one, record = facts_of(record_of(said)), record_of(heard)
    two = facts_of(record)
    told = [u["span"] for u in record["unread"]] + [q["span"] for q in record["questions"]]
    count: Counter[str] = Counter(lines=1, said=len(one))
    silent = []
    for key, (value, span) in two.items():
        if key in one and one[key][0] == value:
            count["agree"] += 1
        elif (span is not None and any(a < span[1] and span[0] < b for a, b in told)) or (key in one and told):
            count["told"] += 1
        elif key[1] == "finding" and key not in one and told:
            count["told"] += 1
        else:
            count["silent wrong"] += 1
            was = one.get(key, (None,))[0]
            silent.append(f"{said!r} heard {heard!r}: {'/'.join(map(str, key[1:]))} = {value!r}, said {was!r}")
    for key, (value, _) in one.items():
        if key not in two:
            count["told" if told else "silent lost"] += 1
            if not told:
                silent.append(f"{said!r} heard {heard!r}: {'/'.join(map(str, key[1:]))} = {value!r} is lost")
    return count, silent


def report() -> tuple[dict[str, Counter[str]], list[str]]:
    """Recogniser and noise -> counts, and every silent disagreement."""
    table: dict[str, Counter[str]] = {}
    silent = []
    for line in LINES.read_text(encoding="utf-8").splitlines():
        entry = json.loads(line)
        for how, heard in entry["heard"].items():
            count, cases = compare(entry["said"], heard)
            table.setdefault(how, Counter()).update(count)
            silent += [f"{how}: {case}" for case in cases]
    return table, silent


def as_text(table: dict[str, Counter[str]]) -> str:
    rows = [f"{'recogniser and noise':24}" + "".join(f"{c:>14}" for c in COLUMNS)]
    rows += [f"{how:24}" + "".join(f"{count[c]:14}" for c in COLUMNS) for how, count in table.items()]
    return "\n".join(rows)


if __name__ == "__main__":
    found, cases = report()
    print("\n".join(sorted(cases)))
    print()
    print(as_text(found))
