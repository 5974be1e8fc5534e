"""`only 2 and 3 blooming`, `only the second one has a flower`: these have it, and the other plants have it not (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.counted import cut, from_one, labels_at, numbers_at, of_the_so_many
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/only_these")
_COMMON = cue_page("shared")

_DOING = frozenset({"FLOWER", "POD", "SEED", "BEAN", "BROWN"})
_HAVE = _COMMON.words("being_or_having") | _COMMON.words("with")
_ONE_HAS = _LISTED.words("one_has")
_PLANT = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number")
WHICH = "so many plants, or the plant of this number: which is not said"
_FEWEST = 3  # plants told of before; two where a word says that they are plants


_BEHIND_ONLY_THESE = _LISTED.words("behind_only_these")


def only_these(w: Listener, i: int) -> int | None:
    """At piece i stands `only`, and behind it plants by their numbers: where what they have begins."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(i) != "only" or not w.begins(i) or ctx.visit is None:
        return None
    nth = _the_nth(w, i + 1)
    said = nth is not None or at(i + 1) in _PLANT
    got = nth or numbers_at(w, i + 1)
    live = ctx.living()
    if (
        got is None
        or len(live) < _FEWEST - said
        or {p.label for p in live} != {str(n) for n in range(1, len(live) + 1)}
    ):
        return None
    said = said or (len(got[0]) == 1 and at(got[1]) in _ONE_HAS)
    end = got[1] + (at(got[1]) in _HAVE)
    end += at(end) in _BEHIND_ONLY_THESE
    kinds = {e.kind for e in ctx.lattice.edges[end]} if end < len(ctx.lattice.pieces) else set()
    named = [p for p in live if p.label in got[0]]
    if not kinds & _DOING or len(named) != len(got[0]) or len(named) >= len(live):
        return None
    if len(named) == 1 and not said:  # only 2 blooming: two of them, or the second
        stop = next((x for x in range(end, len(ctx.lattice.pieces)) if w.ends_at(x)), len(ctx.lattice.pieces))
        ctx.mark(i, stop, UNREAD, WHICH)
        return stop
    return _of_these(w, i, end, named, live)


def _of_these(w: Listener, i: int, end: int, named: list[PlantDraft], live: list[PlantDraft]) -> int:
    """What follows is of the plants that are named, and the others have it not; the words that name them are read."""
    ctx = w.ctx
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = named, True, None
    ctx.except_for = [p for p in live if p not in named]
    ctx.statements.clear()
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


_IS = _COMMON.words("being") | _COMMON.words("looking") | {"s"}
_THE_ONLY = frozenset({"only"})
_ONES = _LISTED.words("ones")
_BEARING = _LISTED.words("bearing")


def the_only_one(w: Listener, i: int) -> int | None:
    """`P1 is the only one with flowers`, `2 and 3 are the only ones blooming`: where what they have begins."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if (
        ctx.visit is None
        or ctx.lattice.said.isdisjoint(_THE_ONLY)
        or not (w.begins(i) or ctx.lattice.pieces[i - 1].form in {"mark", "nl"})
    ):
        return None
    k = i
    while at(k) in _PLANT | {"p", "no", "the"}:
        k += 1
    got = labels_at(w, k)
    if got is None or at(got[1]) not in _IS:
        return None
    end = got[1] + 1
    if at(end) != "the" or at(end + 1) not in _THE_ONLY or at(end + 2) not in _ONES:
        return None
    end += 3
    while at(end) in _BEARING:
        end += 1
    live = ctx.living()
    named = [p for p in live if p.label in got[0]]
    kinds = {e.kind for e in ctx.lattice.edges[end]} if end < len(ctx.use) else set()
    if at(end - 1) == "in":
        kinds |= {e.kind for e in ctx.lattice.edges[end - 1]}  # in bloom
    if not kinds & _DOING or len(named) != len(got[0]) or len(named) >= len(live):
        return None
    return _of_these(w, i, end, named, live)


_BLOOM = _COMMON.words("blooming")


def by_their_numbers(w: Listener, i: int) -> int | None:
    """`1 and 2 in bloom` at the head of a sentence, behind plants 1 to 4: these; and `3 in bloom`: the third of them, or
    three. Where what they have begins, or where the sentence ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    got = numbers_at(w, i, frozenset()) if w.begins(i) else None
    if got is None:
        return None
    live = ctx.living()
    figures = {str(n) for n in range(1, len(live) + 1)}
    if len(live) < 2 or {p.label for p in live} != figures or not any(p.named for p in live):
        return None
    if not set(got[0]) <= figures or at(got[1]) in _ONE_HAS:
        return None
    end = got[1] + (at(got[1]) in _HAVE)
    bloom = at(end) in _BLOOM or (at(end) in {"in", "n"} and at(end + 1) in {"bloom", "flower"})
    if not bloom or (len(got[0]) == 1 and ctx.plants and ctx.plants[-1].line == ctx.line and ctx.plants[-1].empty):
        return None
    if len(got[0]) == 1:
        if got[0] == ["1"] and not (len(ctx.plants) > 1 and at(end).endswith("ing")):
            return None  # but plants 1 thru 3: 9 trifs, one blooming
        stop = next((x for x in range(end, len(ctx.lattice.pieces)) if w.ends_at(x)), len(ctx.lattice.pieces))
        ctx.mark(i, stop, UNREAD, WHICH)
        return stop
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = [p for p in live if p.label in got[0]], True, None
    ctx.statements.clear()
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _the_nth(w: Listener, i: int) -> tuple[list[str], int] | None:
    """`the second one`, `second plant`: its label, and where it ends."""
    lattice = w.ctx.lattice
    i += lattice.at(i) == "the"
    for e in lattice.edges[i] if i < len(lattice.pieces) else ():
        if e.kind == "ORD" and lattice.at(e.end) in {"one", "plant"}:
            return [str(e.means)], e.end + 1
    return None


_ALL = _COMMON.words("all_or_each")


def listed(w: Listener, i: int) -> int | None:
    """`today 1 2 and 3 all have a bloom`, `checked 1, 2 and 3 at Hackberry`, `1 and 3 have half inch pods`: figures joined
    are plants, where none was told of before; where what they have begins."""
    ctx, at = w.ctx, w.ctx.lattice.at
    said = (
        ctx.lattice.pieces[i].form == "int" or i == 0 or at(i - 1) in {".", ":"}
    )  # One and two have pods an inch long
    if not said or not (w.begins(i) or at(i - 1) in _LOOKED):
        return None
    got = numbers_at(w, i)
    if got is None or len(got[0]) < 2 or not all(x.isdigit() for x in got[0]) or ctx.living():
        return None
    counts_up = from_one(got[0])
    rising = sorted({int(x) for x in got[0]}) == [int(x) for x in got[0]]
    end = got[1] + (at(got[1]) == "," and at(got[1] + 1) in _MANY_HAVE)
    many = _of_how_many(w, i) or ctx.sample or 0
    joined = any(at(k) in {"and", "&"} for k in range(i, end))
    at_field = counts_up and at(end) == "at" and (end + 1 in w.names or end + 2 in w.names)
    told = (at(end) in _ALL and _tells(w, end + 1)) or (at(end) in _MANY_HAVE and _tells(w, end))
    of_some = counts_up or (rising and (got[0][0] == "1" or int(got[0][-1]) <= many))
    if not joined or not (at_field or (told and of_some)):
        return None
    if ctx.sample is None and many:
        ctx.sample, ctx.sample_visit = many, len(ctx.visits)
    ctx.close()
    ctx.begin(got[0], ctx.span(i, end))
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _of_how_many(w: Listener, i: int) -> int | None:
    """`of the four, 2 and 4 have`: the number of the plants, where it stands so before piece i."""
    got = of_the_so_many(w, i - 4) if w.ctx.lattice.at(i - 1) == "," else None
    return got[0] if got is not None and got[1] == i - 1 else None


_MANY_HAVE = _LISTED.words("many_have")
_LOOKED = _LISTED.words("looked")


def _tells(w: Listener, i: int) -> bool:
    i += w.ctx.lattice.at(i) in _HAVE
    i += w.ctx.lattice.at(i) in {"a", "an"}
    kinds = {e.kind for e in w.ctx.lattice.edges[i]} if i < len(w.ctx.use) else set()
    return bool(kinds & (_DOING | {"NO", "NONE", "INT", "FRAC", "R", "V", "INCH", "STAGENAME"}))
