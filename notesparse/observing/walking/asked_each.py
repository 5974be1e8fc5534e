"""`Any brown pods? Plant 1 no, 2 no, 3 yes`, `Blooms? 1 yes, 2 no`: a question, and what each plant answers to it;
`Flowers? Only on 2`, `Pods? Just plant three`: a question, and the plants that it is true of."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.lists import numbered_plant
from notesparse.observing.walking.count_rows import plants_named
from notesparse.observing.walking.listening import Listener
from notesparse.span import Span

_LISTED = cue_page("walking/asked_each")
_COMMON = cue_page("shared")

_ANSWERS = _LISTED.table("answers", bool)
_ASKS = _LISTED.words("asks")
_AFTER_LABEL = _COMMON.words("having") | {"-", ":", "="}
_BETWEEN = _COMMON.words("and") | {".", "/", ";"}
_OF_THEM = _LISTED.ordered("of_them")
_ORGAN = {"FLOWER": "flowers", "POD": "pods", "SEED": "seeds", "BEAN": "seeds"}
_FEWEST = 2  # plants; one by itself is read as prose


def answers_of_each(w: Listener, i: int) -> int | None:
    """Puts the answers to the question at piece i; where they end, None where there is no such question."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    asked = _question(w, i)
    if asked is None:
        return None
    what, k = asked
    found: list[tuple[str, int, int, bool]] = []
    while (one := _answer(w, k)) is not None:
        found.append(one)
        k = one[2]
        while k < len(pieces) and (pieces[k].text in _BETWEEN or pieces[k].form == "nl"):
            k += 1
    if not found:
        return _true_of(w, i, what, k)
    if len(found) < _FEWEST or len({label for label, *_ in found}) < len(found):
        return None
    for label, start, end, yes in found:
        there = ctx.visit.plant(label) if ctx.visit is not None else None
        span = ctx.span(start, end)
        _put(w, there if there is not None else ctx.begin([label], span)[0], what, yes, span)
    ctx.mark(i, found[-1][2], EVIDENCE)
    ctx.leave_plants()
    return found[-1][2]


_YES = _COMMON.words("yes")
_ONLY = _COMMON.words("only")
_ON = _LISTED.words("on")
_HAVE_THEM = _LISTED.words("have_them")
_UNSAID = "on which plants was not understood"


def _true_of(w: Listener, i: int, what: str, k: int) -> int | None:
    """Behind the question at piece i, from piece k on: the plants that have it; the others have it not where it is said
    that only these do."""
    ctx, at = w.ctx, w.ctx.lattice.at
    live = ctx.living()
    said = {at(k)} & (_YES | _ONLY | _ON | {"not"})
    start = k
    while at(k) in _YES | _ONLY | _ON | {"not", ","}:
        said.add(at(k))
        k += 1
    got = plants_named(w, k)
    if got is None or len(live) < _FEWEST:
        return None
    end = got[1]
    while at(end) in _HAVE_THEM | _ONLY:
        said.add(at(end))
        end += 1
    known = [p for p in live if p.label in got[0]]
    if len(known) != len(got[0]) or not w.ends_at(end) or not (said or at(start) in {"plant", "plants", "p", "#"}):
        return None
    if "not" in said:
        ctx.mark(i, start, UNREAD, _UNSAID)
    others = [p for p in live if p not in known] if said & _ONLY else []
    for plants, yes in ((known, "not" not in said), (others, False)):
        for p in plants:
            _put(w, p, what, yes, ctx.span(start, end))
    ctx.mark(start if "not" in said else i, end, EVIDENCE)
    ctx.leave_plants()
    return end


def _question(w: Listener, i: int) -> tuple[str, int] | None:
    """What is asked for at piece i, and where its answers begin."""
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    if "?" not in w.ctx.lattice.said or not (w.begins(i) or w.after_name):
        return None
    while i < len(pieces) and pieces[i].text in _ASKS:
        i += 1
    ripe = max((e.end for e in edges[i] if e.kind == "BROWN" and e.how == "exact"), default=0) if i < len(edges) else 0
    i = ripe or i
    heads = [e for e in edges[i] if e.kind in _ORGAN and e.how == "exact"] if i < len(edges) else []
    head = max(heads, key=lambda e: e.end, default=None)
    if head is None or (ripe and head.kind != "POD"):
        return None
    end = head.end + (head.end < len(pieces) and pieces[head.end].text in {"open", "yet", "showing"})
    if end >= len(pieces) or pieces[end].text != "?":
        return None
    return ("mature" if ripe else _ORGAN[head.kind]), end + 1


def _answer(w: Listener, k: int) -> tuple[str, int, int, bool] | None:
    """A plant and its answer at piece k: label, start, end, and whether it is yes."""
    pieces = w.ctx.lattice.pieces
    named, start = numbered_plant(w.ctx.lattice, k), k
    if named is None and k + 1 < len(pieces) and any(e.kind in {"PLANT", "PLETTER"} for e in w.ctx.lattice.edges[k]):
        k += 1  # a row of labels was seen in the numbers
    if named is None and k < len(pieces) and pieces[k].form == "int":
        named = pieces[k].text, k + 1
    if named is None:
        return None
    label, at = named
    while at < len(pieces) and pieces[at].text in _AFTER_LABEL:
        at += 1
    if at >= len(pieces) or pieces[at].text not in _ANSWERS:
        return None
    end = at + 1
    if tuple(p.text for p in pieces[end : end + len(_OF_THEM)]) == _OF_THEM:
        end += len(_OF_THEM)
    if (
        end < len(pieces)
        and pieces[end].form not in {"mark", "nl", "int"}
        and numbered_plant(w.ctx.lattice, end) is None
    ):
        return None  # 3 yes half an inch: more is said of it
    return label, start, end, _ANSWERS[pieces[at].text]


def _put(w: Listener, plant: PlantDraft, what: str, yes: bool, span: Span) -> None:
    ctx = w.ctx
    if what == "mature":
        plant.put("mature_pods", "one" if yes else "none", span)
        return
    ctx.close()
    ctx.plants, ctx.explicit = [plant], True
    organs.look(ctx, what, yes, span)
