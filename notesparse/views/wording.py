"""How values are said to a person: the trade's words and units, days with a month's name, counting from one."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from notesparse.facts import Millimetres, Places, Tally
from notesparse.record.lines import percent_of

_MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()

RULES = {
    "open-trifoliates": "V is the number of unrolled trifoliates",
    "open-nodes": "V is the number of nodes with an unrolled leaf, the unifoliate node included",
    "developed-trifoliates": "V is the number of trifoliates whose next higher leaf has unrolled",
}

KEYS = {
    "trifoliates": "trifoliates",
    "nodes": "nodes",
    "top_leaf": "top leaf",
    "emerged": "emergence",
    "unifoliates": "unifoliate leaves",
    "flowers": "flowers",
    "flowers_from_top": "flowers",
    "pods": "pods",
    "pods_from_top": "pods",
    "pod_mm": "pod length",
    "pods_full_length": "full-length pods",
    "seeds": "seeds",
    "seeds_from_top": "seeds",
    "seed_mm": "seed length",
    "seed_fill": "seed fill",
    "mature_pods": "ripe pods",
    "mature_pods_percent": "ripe pods",
    "stated_v": "as stated",
    "stated_r": "as stated",
    "words": "the words",
}

FILL = {"full": "touching", "partial": "apart"}
"""Seeds in their pod."""

TALLIED = {
    "flowers": "with flowers",
    "pods": "with pods",
    "seeds": "with seeds",
    "mature_pods": "with a pod of mature colour",
}


def day(iso: str | datetime.date, year: bool = True) -> str:
    """A date as ``14 Jul 2026``, or ``14 Jul``: no one can take the month for the day."""
    try:
        date = datetime.date.fromisoformat(iso) if isinstance(iso, str) else iso
    except ValueError:
        return str(iso)
    return f"{date.day} {_MONTHS[date.month - 1]}" + (f" {date.year}" if year else "")


def number(value: float, digits: int = 2) -> str:
    """A number with no needless decimals."""
    return f"{value:.{digits}f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)


def percent(value: float) -> str:
    """A share in whole percent; what would round to all or to none keeps a decimal."""
    whole = round(value)
    exact = abs(value - whole) < 0.05 or 0 < whole < 100
    return f"{whole} %" if exact else f"{number(value, 1)} %"


def many(count: int, thing: str) -> str:
    """``1 plant``, ``3 plants``."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def length(value: Millimetres, inches: bool) -> str:
    """A length in millimetres as the scout gave it: ``3/16 in``, ``20 mm``, ``15-20 mm``."""
    if isinstance(value, tuple):
        low, high = (_measure(end, inches) for end in value)
        return f"{low}-{high} {'in' if inches else 'mm'}"
    return f"{_measure(value, inches)} {'in' if inches else 'mm'}"


def size(value: Any) -> str:
    """A length of the JSON record (millimetres, or two of them) as it was most likely said."""
    ends = tuple(value) if isinstance(value, (tuple, list)) else value
    return length(ends, inches=_of_inches(ends))


def _measure(millimetres: float, inches: bool) -> str:
    if not inches:
        return number(float(millimetres))
    exact = millimetres / 25.4
    sixteenths = round(exact * 16)
    if abs(exact * 16 - sixteenths) > 0.05:
        return number(exact, 2)
    whole, part = divmod(sixteenths, 16)
    if not part:
        return str(whole)
    fraction = str(Fraction(part, 16))
    return f"{whole} {fraction}" if whole else fraction


def _of_inches(value: Millimetres) -> bool:
    """Whether a length was said in inches, as far as its millimetres tell: sixteenths, and no whole millimetres."""
    ends = value if isinstance(value, tuple) else (value,)
    odd = any(abs(end - round(end)) > 0.001 for end in ends)
    return odd and all(abs(end / 25.4 * 16 - round(end / 25.4 * 16)) < 0.001 for end in ends)


def places(value: Places) -> str:
    """Nodes from the top: ``1-2``, ``1, 3``, ``low``, ``none up top``."""
    if isinstance(value, str):
        return "low" if value == "lower" else value
    if not value:
        return "none up top"
    runs: list[list[int]] = []
    for node in sorted(value):
        if runs and node == runs[-1][-1] + 1:
            runs[-1].append(node)
        else:
            runs.append([node])
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def stage(value: Any) -> str:
    """A stage, or a stated range of two; ``none`` is said in words."""
    if value is None:
        return "not known"
    if isinstance(value, (tuple, list)):
        return " to ".join(str(end) for end in value)
    return "not flowering" if value == "none" else str(value)


def made(key: str, value: Any) -> str:
    """A value that an answer would make: ``10 trifoliates``, ``pod length 3/4 in``, ``no flowers``."""
    if key in _OF_SEVERAL:
        return _OF_SEVERAL[key](value)
    if key in ("stated_v", "stated_r"):
        return f"stated {stage(value)}" if value is not None else "nothing stated"
    if value is None:
        return f"{_key(key)} left open"
    if key in ("trifoliates", "nodes"):
        return f"{number(value)} {key if value != 1 else key[:-1]}"
    if key in ("pod_mm", "seed_mm"):
        return f"{_key(key)} {size(value)}"
    if isinstance(value, bool):
        return _key(key) if value else f"no {_key(key)}"
    if key.endswith("_from_top"):
        where = places(value if isinstance(value, str) else tuple(value))
        if not where[0].isdigit():
            return f"{_key(key)} {where}"
        return f"{_key(key)} at node{'' if where.isdigit() else 's'} {where} from the top"
    if key == "date":
        return day(str(value))
    if key.endswith("percent"):
        return f"{_key(key)} {percent(float(value))}"
    if isinstance(value, (list, tuple)):
        return f"{_key(key)} {', '.join(str(item) for item in value)}"
    return f"{_key(key)} {number(value) if isinstance(value, (int, float)) else value}"


def tallied(tally: Tally) -> str:
    """A tally in words: ``6 of 10 with flowers, 60 %``."""
    what = TALLIED.get(tally.what, f"at {tally.what}")
    share = percent_of(tally)
    if tally.count is not None and tally.of is not None:
        of_all = f"{number(float(tally.count))} of {number(float(tally.of))}"
        return f"{of_all} {what}" + (f", {percent(share)}" if share is not None else "")
    if share is not None:
        return f"{percent(share)} {what}"
    if tally.more_than_half is not None:
        return f"{'more' if tally.more_than_half else 'less'} than half {what}"
    return f"some {what}, with no number"


def _plants(value: Mapping[str, Mapping[str, Any] | None]) -> str:
    """``plants 1, 2: 15 trifoliates, V15; no plant 60``; the stages alone where many facts come or go."""
    groups: dict[str, list[str]] = {}
    for name, facts in value.items():
        groups.setdefault(_facts(facts) if facts is not None else "", []).append(name)
    named = ((f"plant{'s' if len(names) > 1 else ''} {', '.join(names)}", said) for said, names in groups.items())
    return "; ".join(f"{names}: {said}" if said else f"no {names}" for names, said in named)


def _facts(facts: Mapping[str, Any]) -> str:
    stages = [stage(facts[key]) for key in ("v_stage", "r_stage") if facts.get(key) is not None]
    values = [made(key, value) for key, value in facts.items() if key not in ("v_stage", "r_stage")]
    return ", ".join([*(values if len(values) <= 3 else []), *stages]) or "no stage"


def _findings(value: Sequence[Mapping[str, Any]]) -> str:
    told = []
    for one in value:
        amount = one["value"] if isinstance(one["value"], list) else [one["value"]]
        numbers = "-".join(number(n) for n in amount if n is not None)
        told.append(" ".join(filter(None, (one["name"] or one["kind"], numbers, one["unit"], one["where"]))))
    return ", ".join(told) or "no such finding"


def _tallies(value: Sequence[Mapping[str, Any]]) -> str:
    return ", ".join(tallied(Tally(**one)) for one in value) or "no such share"


def _parts(value: Sequence[Mapping[str, Any]]) -> str:
    told = (f"stated {stage(one['v'] or one['r'])} {one['where']}" for one in value)
    return ", ".join(told) or "nothing stated for a part"


_OF_SEVERAL: Mapping[str, Callable[[Any], str]] = {
    "plants": _plants,
    "tallies": _tallies,
    "findings": _findings,
    "stated_parts": _parts,
    "visits": lambda value: "visits: " + ("; ".join(value) or "none"),
    "then_asked": lambda value: f"then asked: {' '.join(value)}" if value else "nothing further to ask",
    "words": lambda value: f"“{value}”" if value is not None else "the words are not known",
}
"""What an answer about the words themselves may make of more than one value."""


def _key(key: str) -> str:
    return KEYS.get(key, re.sub(r"_+", " ", key))
