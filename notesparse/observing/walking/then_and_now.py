"""`Plant 1 was R2 last week, now it has pods`: what was so at another time, and in the same sentence what is (guide 4.6)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.lists import numbered_plant
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/then_and_now")

_WAS = _LISTED.words("was")
_NOW = _LISTED.words("now")
_THIS = _COMMON.words("this_time")
_BEFORE = _LISTED.words("before")
_JOINTS = _COMMON.words("and") | {"-", ":", ";", "but"}
_SUBJECT = _LISTED.words("subject")
_HELD_AGAINST = _LISTED.words("held_against")
_GOES_ON = _LISTED.words("goes_on")
_THEN_WHEN = _LISTED.words("then_when")
_SHORT = 6  # pieces from `was` to its word for another time
_CHANGED = _LISTED.words("changed")
_CAME = frozenset({"DAMAGE", "WEATHER"})
_NEAR = 12  # pieces from the one time to the other


def other_times(lattice: Lattice) -> tuple[dict[int, int], dict[int, int]]:
    """The stretches of a note that tell of another time where what is seen now follows, and the words that say that it
    is now (`11 trifs today`): first piece -> end."""
    out: dict[int, int] = {}
    present: dict[int, int] = {}
    for start, end in [] if lattice.said.isdisjoint(_NOW | {"this"}) else _sentences(lattice):
        cue = next(((i, _cue_end(lattice, i)) for i in range(start, end) if _cue_end(lattice, i)), None)
        now = cue is not None and next(
            (i for i in range(cue[1], end) if _now_end(lattice, i) and not _of_then(lattice, cue[1], i)), None
        )
        if cue is None or not now:
            continue
        first, behind = cue
        present[now] = _now_end(lattice, now)
        was = next((i for i in range(start, first) if lattice.pieces[i].text in _WAS), None)
        labels = _labels(lattice, start, now)
        if was is not None and not _joined(lattice, was, first):
            out[was] = _to_the_joint(lattice, behind, now)
        elif now - behind > _NEAR or any(a >= behind for a, _ in labels[1:]) or _came_then(lattice, start, first):
            continue
        elif was is None and (content := _content_before(lattice, start, first, labels)) is not None:
            if not any(a >= behind for a, _ in labels):  # plant 1 6 trifs last week, 8 trifs this week
                out[content] = _to_the_joint(lattice, behind, now)
        elif was is None:  # last week plant 1 had 8 trifs, today 10
            inside = [(a, b) for a, b in labels if a >= behind]
            out[first] = inside[0][0] if inside else _now_end(lattice, now)
            if inside:
                out[inside[0][1]] = _now_end(lattice, now)
    told = {now: end for now, end in present.items() if out and end not in out.values()}
    return {**_asides(lattice), **gone_from(lattice), **out}, told


def _came_then(lattice: Lattice, start: int, cue: int) -> bool:
    """`Hail monday at Cinnabar, walked it today`: what came over the field on the day at piece `cue` is there now."""
    end = cue - (lattice.pieces[cue - 1].text == "on")
    near = range(max(start, end - 2), end)
    return any(e.kind in _CAME and e.how == "exact" and e.end == end for i in near for e in lattice.edges[i])


def gone_from(lattice: Lattice) -> dict[int, int]:
    """`gone from nine trifs to eleven`, `went from R2 to R4`: what was, up to and with the `to`."""
    pieces = lattice.pieces
    out: dict[int, int] = {}
    for start, end in [] if lattice.said.isdisjoint(_CHANGED) else _sentences(lattice):
        for i in range(start, end - 2):
            if pieces[i].text not in _CHANGED or pieces[i + 1].text != "from":
                continue
            to = next((k for k in range(i + 3, min(i + _NEAR, end)) if pieces[k].text == "to"), None)
            counted = to is not None and any(
                e.kind in {"INT", "FRAC"} for k in range(i + 2, to) for e in lattice.edges[k]
            )
            if to is not None and counted and _a_number_behind(lattice, to):
                out[i] = to + 1
    return out


def _a_number_behind(lattice: Lattice, to: int) -> bool:
    near = range(to + 1, min(to + 3, len(lattice.pieces)))
    return any(e.kind in {"INT", "FRAC", "DEC", "R", "V"} for k in near for e in lattice.edges[k])


def _asides(lattice: Lattice) -> dict[int, int]:
    """What was, between things that are: in brackets (`9 tri (7 last wk) bloom top 2`), or behind what was said of the
    same plant up to its own word for another time (`eight trifs it was six last time, one bloom ...`)."""
    pieces = lattice.pieces
    out: dict[int, int] = {}
    for start, end in _sentences(lattice):
        labels = _labels(lattice, start, end)
        k = start
        while k < end:
            opens = pieces[k].text in {"(", "["}
            close = next((i for i in range(k + 1, end) if pieces[i].text in ")]"), None) if opens else None
            if close is not None:
                cued = any(_cue_end(lattice, i) and not _lone_day(lattice, i) for i in range(k, close))
                if cued or pieces[k + 1].text in _WAS or _on_a_day(lattice, k, close):
                    out[k] = close + 1
                k = close + 1
                continue
            behind = _was_short(lattice, k, end) if pieces[k].text in _WAS | _HELD_AGAINST else 0
            label = max((b for _, b in labels if b <= k), default=None) if behind else None
            opens = k == start + (pieces[start].form == "nl" or pieces[start].text == ".")  # was V9 when the kid saw it
            after = k > 1 and label is None and pieces[k - 1].text in _JOINTS
            staged = after and any(e.kind == "INT" and e.end == k - 1 for e in lattice.edges[k - 2])
            if behind and (opens or staged):
                out[k] = behind  # field's R5, was R4 when we sprayed
                k = behind
                continue
            if behind and label is not None and _said_before(lattice, label, k):
                nxt = next((a for a, _ in labels if a >= behind), end)
                if not any(_cue_end(lattice, i) for i in range(behind, nxt)):
                    out[k] = behind
                    k = behind
                    continue
            k += 1
    return out


def _on_a_day(lattice: Lattice, start: int, end: int) -> bool:
    """`(R1 on the 15th)`: a day ends the brackets."""
    for i in range(start, end - 1):
        at = i + 1 + (lattice.pieces[i + 1].text == "the")
        if lattice.pieces[i].text == "on" and any(e.kind == "ORD" and e.end == end for e in lattice.edges[at]):
            return True
    return False


def _lone_day(lattice: Lattice, i: int) -> bool:
    """A weekday by itself is no other time in brackets: (friday)."""
    return lattice.pieces[i].text not in _BEFORE and not any(e.kind == "PASTCUE" for e in lattice.edges[i])


def _was_short(lattice: Lattice, was: int, end: int) -> int:
    """Behind `was`: no more than a count with its noun and a word for another time: its end, where no `and` goes on."""
    if lattice.pieces[was - 1].text in {"that", "this", "here"}:
        return 0  # that was windmill forty yesterday
    staged = max((e.end for e in lattice.edges[was + 1] if e.kind in {"R", "V"}), default=0) if was + 1 < end else 0
    when = staged + 1 if staged and lattice.at(staged + 1) in _THEN_WHEN else 0
    opens = was == 0 or lattice.pieces[was - 1].form == "nl" or lattice.pieces[was - 1].text == "."
    if when and (opens or lattice.pieces[was - 1].text in {",", "and", "but", "("}):
        return next((i for i in range(when, end) if lattice.pieces[i].text in _JOINTS), end)  # was R4 when we sprayed
    for i in range(was + 1, min(was + _SHORT, end)):
        if lattice.pieces[i].text in _JOINTS:
            return 0
        behind = _cue_end(lattice, i)
        if behind and not _lone_day(lattice, i):
            goes_on = behind < end and lattice.pieces[behind].text in _GOES_ON
            return 0 if goes_on or i == was + 1 else behind
    return 0


def _said_before(lattice: Lattice, label: int, was: int) -> bool:
    """Something was said of the plant between its name and `was`."""
    return (
        sum(
            lattice.pieces[i].form != "mark" and not lattice.filler[i] and lattice.pieces[i].text not in _SUBJECT
            for i in range(label, was)
        )
        > 1
    )


def _sentences(lattice: Lattice) -> list[tuple[int, int]]:
    pieces, out, start = lattice.pieces, [], 0
    for i in range(len(pieces) + 1):
        if i == len(pieces) or pieces[i].form == "nl" or (pieces[i].text == "." and lattice.soft[i] is None):
            out.append((start, i))
            start = i + 1
    return out


def _cue_end(lattice: Lattice, i: int) -> int:
    """Where a word for another time that begins at piece i ends; 0: there is none."""
    days = any(e.kind == "WEEKDAY" and e.end == i + 1 for e in lattice.edges[i])
    if lattice.pieces[i].text in _BEFORE or days:
        return i + 1
    if lattice.pieces[i].text in _WAS | {"since"}:
        return 0
    return max((e.end for e in lattice.edges[i] if e.kind == "PASTCUE"), default=0)


def _now_end(lattice: Lattice, i: int) -> int:
    pieces = lattice.pieces
    if pieces[i].text in _NOW:
        return i + 1
    return i + 2 if pieces[i].text == "this" and i + 1 < len(pieces) and pieces[i + 1].text in _THIS else 0


def _of_then(lattice: Lattice, behind: int, i: int) -> bool:
    """`last year this week it was R6`: the week of then."""
    return i == behind and lattice.pieces[i].text == "this"


def _labels(lattice: Lattice, start: int, end: int) -> list[tuple[int, int]]:
    """Where plants are named by a number: `plant 1`, `p1`."""
    found = [(i, numbered_plant(lattice, i)) for i in range(start, end)]
    return [(i, label[1]) for i, label in found if label is not None and label[1] <= end]


def _joined(lattice: Lattice, start: int, end: int) -> bool:
    """Another saying stands between: plant 1 was 8 trifs, plant 2 had 9 last week."""
    return any(lattice.pieces[i].text in _JOINTS for i in range(start, end - 1))


def _to_the_joint(lattice: Lattice, behind: int, now: int) -> int:
    """The end of what was: up to `, now` where nothing else stands before that."""
    alone = all(lattice.pieces[i].text in _JOINTS for i in range(behind, now))
    return _now_end(lattice, now) if alone else behind


def _content_before(lattice: Lattice, start: int, cue: int, labels: list[tuple[int, int]]) -> int | None:
    """Where what is said before the word for another time begins: behind the plant's name or a comma."""
    start = max([start, *(b for a, b in labels if b <= cue)])
    start = max([start, *(i + 1 for i in range(start, cue) if lattice.pieces[i].text in _JOINTS)])
    told = [i for i in range(start, cue) if not lattice.filler[i] and lattice.pieces[i].form != "mark"]
    return start if told else None
