"""Fields that are named behind what is said of them: `R2 at Schultz, R3 at Miller's`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.walking.listening import OWN, Listener

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/named_behind")

_SAID = OWN | {"stage", "ratio", "percent", "average", "noneword"}
_NOT_SEEN = frozenset({"plan", "othercrop"})
_IN_A_LIST = _LISTED.words("in_a_list")
_DAYS = frozenset({"today", "yesterday"})
_AT = _COMMON.words("at")


def named_behind(w: Listener) -> dict[int, Name]:
    """The first piece of a clause -> the field that is named at its end."""
    found: dict[int, Name] = {}
    for name in w.names.values():
        if name.seen and _led(w, name) and _ends(w, name.end):
            at = _clause(w, name, first=all(n.start >= name.start for n in w.names.values()))
            if at is not None:
                found[at] = name
    return found


def _led(w: Listener, name: Name) -> bool:
    """`at` or `in` stands before it; of a name that was said before, or has `field` behind it, before its article."""
    at = w.ctx.lattice.at
    if name.cue == "go":
        return at(name.cue_start) in _AT
    lead = name.start - 1 - (at(name.start - 1) == "the")
    return name.cue in {"again", "field"} and at(lead) in _AT


def in_pairs(w: Listener) -> dict[int, list[Name]]:
    """The first piece of a clause -> the fields named at its end of which it tells together."""
    found: dict[int, list[Name]] = {}
    at, last = -1, -1
    for name in sorted(w.names.values(), key=lambda n: n.start):
        if name.cue != "pair":
            continue
        between = {w.ctx.lattice.at(i) for i in range(last, name.start)} if last >= 0 else {""}
        if not between <= _IN_A_LIST:
            at = _said_from(w, name.start)
        found.setdefault(at, []).append(name)
        last = name.end
    return found


def _said_from(w: Listener, i: int) -> int:
    """Where the clause begins that tells of the names at piece i: `R4 at`, `still R3 at`."""
    first = w.sentence_start(i)
    said = {s.start for s in w.segments if s.phrase is not None and s.phrase.rule == "stage"}
    at = w.ctx.lattice.at
    commas = [x for x in range(first, i) if at(x) == "," or (at(x) == "and" and x + 1 in said)]
    behind = [x + 1 for x in commas if any(x < at < i for at in said)]
    return max(behind, default=first)


_FOR_ENDS = _LISTED.words("for_ends")


def _ends(w: Listener, i: int) -> bool:
    pieces = w.ctx.lattice.pieces
    return i >= len(pieces) or pieces[i].form == "nl" or pieces[i].text in _FOR_ENDS or w.hard_end(i)


def _clause(w: Listener, name: Name, first: bool) -> int | None:
    """Where the clause before a name begins, if something is said in it of no plant by name, and no field is named."""
    pieces = w.ctx.lattice.pieces
    said: int | None = None
    for s in reversed([s for s in w.segments if s.end <= min(name.cue_start, name.start)]):
        if s.start in w.names or (s.phrase is not None and s.phrase.rule == "findhead"):
            return None
        if s.phrase is None:
            if w.hard_end(s.start) or pieces[s.start].text in {",", ";"}:
                break
        elif s.phrase.rule in _NOT_SEEN:
            return None  # the landlord says R5 at Fiddler's Bench
        elif s.phrase.rule == "date" and s.phrase.form in _DAYS:
            continue  # V7 today at Hickory Run
        elif s.phrase.rule in {"date", "planted", "emerged", "stop"} or (s.phrase.rule == "label" and not first):
            return None
        elif s.phrase.rule in _SAID or s.phrase.rule == "label":
            said = s.start
    return said
