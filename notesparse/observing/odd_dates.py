"""Days of planting and of coming up that do not go with the visit, or with each other (guide 8)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from notesparse.facts import Staged
from notesparse.observing.draft import Ask, Entry, VisitDraft
from notesparse.staging.scale import rank, whole_stage

_FIRST_FLOWER = 25, 95  # days from planting to R1: asked beyond (guide 8)
_LEAF = 2.5  # days that a leaf takes at the least, counted from planting (common practice, no source)
_SEED_LEAVES = 3  # V stages of grace, for leaves that were made in the seed (common practice, no source)


def ask(visits: list[VisitDraft], stages: list[list[tuple[Staged, Staged]]], note_date: str | None = None) -> list[Ask]:
    """A planting date that no soybean of this stage has, and one that lies behind the day it came up."""
    out = []
    for v, of_visit in zip(visits, stages, strict=True):
        planted, emerged, seen = v.head.get("planted"), v.head.get("emerged"), v.head.get("date")
        today = seen.value if seen is not None else note_date
        if planted is not None and today is not None and _odd(v, of_visit, _days(planted.value, today)):
            out.append(_ask_planted(v, planted, _days(planted.value, today)))
        elif planted is not None and emerged is not None and _days(planted.value, emerged.value) < 0:
            text = f"Up {emerged.value}, and planted {planted.value}: which day is right?"
            choices: list[tuple[str, dict[str, object]]] = [
                (f"up {emerged.value}", {"planted": None}),
                (f"planted {planted.value}", {"emerged": None}),
            ]
            whole = planted.span.cover(emerged.span)
            out.append(Ask("8", whole, text, choices, None, 0, "planted", always=True, visit=v))
    return out


def _days(first: str, last: str) -> int:
    return (date.fromisoformat(last) - date.fromisoformat(first)).days


def _odd(v: VisitDraft, of_visit: list[tuple[Staged, Staged]], days: int) -> bool:
    """Whether the plants are too far on for so many days, or only begin to flower so late."""
    leaves = max((rank(by_leaves.stage) for by_leaves, _ in of_visit if by_leaves.stage), default=0)
    reached = max(_reached(v, of_visit), default=0)
    soonest, latest = _FIRST_FLOWER
    late = reached == rank("R1") and days > latest
    return days < 0 or late or leaves > _SEED_LEAVES + days / _LEAF or (reached > 0 and days < soonest)


def _reached(v: VisitDraft, of_visit: list[tuple[Staged, Staged]]) -> Iterator[int]:
    """The ranks of the R stages that are told, of plants, of shares of plants and of the field."""
    told = [by_organs.stage for _, by_organs in of_visit] + [t.what for t in v.tallies]
    told += [s.value if isinstance(s.value, str) else s.value[0] for s in v.stated if s.letter == "r"]
    whole = (whole_stage(stage) for stage in told if stage is not None)
    yield from (rank(stage) for stage in whole if stage is not None and stage[:1] == "R")


def _ask_planted(v: VisitDraft, planted: Entry, days: int) -> Ask:
    iso = planted.value
    other = date.fromisoformat(iso)
    guess = other.replace(month=5) if other.month != 5 else other
    no = (f"no, {guess.isoformat()}", {"planted": guess.isoformat()}) if guess != other else ("no", {"planted": None})
    text = f"Planted {iso}, {days} days before this visit: is that date right?"
    return Ask(
        "8", planted.span, text, [(f"yes, {iso}", {"planted": iso}), no], None, 0, "planted", always=True, visit=v
    )
