"""A count told anew, by the plant's number: `p5 I had down as 13 but it's 15`, `miscounted 2, it's 10, which makes 5
eleven`, `p2 at Skunk Hollow should be 7 not 8` (guide 4.17)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves
from notesparse.observing.draft import PlantDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut
from notesparse.observing.walking.listening import Listener
from notesparse.outcome import Correction

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/recounted")

_A_PLANT = (
    _COMMON.words("plant")
    | _COMMON.words("plants")
    | _COMMON.words("number")
    | _COMMON.words("for_on_the")
    | {"no", "p"}
)
_HAD = _LISTED.rows("had")
_SHOULD = _LISTED.rows("should")
_WRONG = _COMMON.words("miscounted")
_IT_IS = _LISTED.words("it_is")
_THOUGH = _LISTED.words("though")
_KEYS = ("trifoliates", "nodes")
_NOUN = {"TRIF": "trifoliates", "NODES": "nodes"}


_BEFORE_RECOUNTED = _LISTED.words("before_recounted")
_FOR_RECOUNTED = _LISTED.words("for_recounted")
_BEHIND_RECOUNTED = _LISTED.words("behind_recounted")


def recounted(w: Listener, i: int) -> int | None:
    """Puts the count that begins to be told anew at piece i; where its words end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    opens = i == 0 or ctx.lattice.pieces[i - 1].form in {"mark", "nl"} or at(i - 1) in _BEFORE_RECOUNTED
    if ctx.visit is None or not opens:
        return None
    wrong = at(i) in _WRONG
    makes = at(i) in _FOR_RECOUNTED and at(i + 1) in {"makes", "puts", "make"}
    got = _plant_at(w, i + wrong + 2 * makes)
    if got is None:
        return None
    label, visit, k = got
    new = _value(w, k, wrong=wrong, makes=makes)
    if new is None:
        return None
    value, noun, end = new
    key = noun or next((x for p in reversed(visit.plants) for x in _KEYS if p.last(x) is not None), None)
    plant = visit.plant(label)
    if key is None or not (w.ends_at(end) or at(end) in _BEHIND_RECOUNTED):
        return None
    if plant is None or (visit is not ctx.visit and plant.last(key) is None):
        if visit is not ctx.visit or makes:
            return None
        plant = ctx.begin([label], ctx.span(i, k))[0]
    clear_waiting(w)
    _put(w, visit, plant, key, value, i, end)
    cut(w, end)
    return end


def _put(w: Listener, visit: VisitDraft, plant: PlantDraft, key: str, value: int, i: int, end: int) -> None:
    ctx = w.ctx
    old, span = plant.last(key), ctx.span(i, end)
    if visit is ctx.visit:
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = [plant], True, None
    if old is None:
        leaves.count(ctx, key, value, span)
    elif old.value != value:
        ctx.corrected.append(Correction("4.17", old.span, f"{old.value} replaced by {value}"))
        ctx.asks = [a for a in ctx.asks if not (a.plant is plant and a.key == key)]
        old.value, old.span = value, span
    ctx.mark(i, end, EVIDENCE)


def _plant_at(w: Listener, i: int) -> tuple[str, VisitDraft, int] | None:
    """`p2`, `2`, `p2 at Skunk Hollow`: the label, its visit, and where the words end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    while at(i) in _A_PLANT:
        i += 1
    bare = next((e for e in ctx.lattice.edges[i] if e.kind == "BARE"), None) if i < len(ctx.use) else None
    if bare is not None and len(bare.means) == 1:
        label, k = str(bare.means[0]), bare.end
    elif (number := number_at(w, i)) is not None:
        label, k = str(number.means), number.end
    else:
        return None
    visit = ctx.visit
    name = w.names.get(k + 1) if at(k) in {"at", "in", "on"} else None
    if name is not None:
        visit = next((v for v in ctx.visits if (v.name or "").casefold() == name.text.casefold()), None)
        k = name.end
    return (label, visit, k) if visit is not None else None


def _value(w: Listener, i: int, *, wrong: bool, makes: bool) -> tuple[int, str | None, int] | None:
    """The new count behind the plant: its value, its noun and where it ends."""
    at = w.ctx.lattice.at
    k = i
    if makes:
        k += at(k) == "at"
        return _count(w, k)
    said = _words(w, k, _HAD)
    if said is not None:
        old = number_at(w, said)
        if old is None:
            return None
        k = old.end + (_noun(w, old.end) is not None)
        return _count(w, _past(w, k)) if at(k) in _IT_IS or _words(w, k, _SHOULD) else None
    should = _words(w, k, _SHOULD)
    if should is not None:
        return _count(w, should)
    while wrong and at(k) in _THOUGH:
        k += 1
    return _count(w, _past(w, k)) if wrong and at(k) in _IT_IS else None


def _past(w: Listener, k: int) -> int:
    """Past `but it's`, `, should be`."""
    while w.ctx.lattice.at(k) in _IT_IS:
        k += 1
    return _words(w, k, _SHOULD) or k


def _count(w: Listener, k: int) -> tuple[int, str | None, int] | None:
    at = w.ctx.lattice.at
    number = number_at(w, k)
    if number is None:
        return None
    noun = _noun(w, number.end)
    end = number.end + (noun is not None)
    if at(end) in {"not", "instead"} or (at(end) == "," and at(end + 1) == "not"):
        old = number_at(w, end + 1 + (at(end) == ",") + (at(end + 1) == "of"))
        if old is None:
            return None
        end = old.end
    return int(number.means), noun, end


def _noun(w: Listener, i: int) -> str | None:
    edges = w.ctx.lattice.edges[i] if i < len(w.ctx.use) else []
    return next((_NOUN[e.kind] for e in edges if e.kind in _NOUN and e.end == i + 1), None)


def _words(w: Listener, i: int, forms: tuple[tuple[str, ...], ...]) -> int | None:
    """Where one of these runs of words ends, if it begins at piece i."""
    for form in forms:
        if all(w.ctx.lattice.at(i + n) == word for n, word in enumerate(form)):
            return i + len(form)
    return None
