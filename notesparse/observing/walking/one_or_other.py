"""A count told as one of two where no noun stands with it: `p2 10 or 11`, `p2 10-11`, `nine trifs, ten maybe`. The
lower is taken and the choice asked (guide 4.2)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, FILLER, numbers_of
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/one_or_other")

_APART = 2  # eight or ten; more is no doubt about one count
_MARKS = frozenset(",(")
_BETWEEN = _LISTED.words("between")


def one_or_other(w: Listener, ph: Phrase, key: str, value: int) -> bool:
    """At the bare number `ph`, which counts `key`: another stands behind it as its second choice."""
    links, at = _links(w, ph.end)
    other = _number(w, at)
    if other is None or not links & {"OR", "HEDGE", "RANGE"} or (links == {"RANGE"} and other[0] < value):
        return False
    number, end = other
    if not 1 <= abs(number - value) <= _APART or not _ends(w, end):
        return False
    span = w.ctx.span(ph.start, end)
    if not leaves.between(w.ctx, key, min(value, number), max(value, number), span):
        return False
    w.ctx.mark(ph.start, end, EVIDENCE)
    w.resume_at = end
    return True


def looks_like_a_day(w: Listener, ph: Phrase) -> bool:
    """`p2 10-11`, read as a day: where the plants before had a count and this one has none, it is a count told as a
    range."""
    ctx = w.ctx
    numbers = numbers_of(ph)
    if ph.form != "md" or len(ph.path) != 3 or ph.path[1][1].kind != "DASH" or not (ctx.explicit and ctx.plants):
        return False
    key = w.series_key()
    if key not in {"trifoliates", "nodes"} or ctx.plants[-1].last(key) or not _ends(w, ph.end):
        return False
    low, high = numbers[0], numbers[-1]
    return 1 <= high - low <= _APART and leaves.between(ctx, key, low, high, ctx.span(ph.start, ph.end))


def is_the_other(w: Listener, ph: Phrase) -> bool:
    """`seven or eight of something`: the bare number `ph` is the second choice of a number that was not read."""
    ctx = w.ctx
    return (
        ph.start > 1
        and ctx.lattice.at(ph.start - 1) == "or"
        and "INT" in ctx.lattice.kinds(ph.start - 2)
        and ctx.use[ph.start - 2] != EVIDENCE
    )


def or_another(w: Listener, ph: Phrase, value: int) -> bool:
    """At the bare number `ph`: the plant has a count that was told just before, and this is its second choice."""
    ctx = w.ctx
    before = ctx.statements[-1] if ctx.statements else None
    if before is None or before.kind not in {"trifoliates", "nodes"} or before.plant is None or not ctx.plants:
        return False
    had = before.plant.last(before.kind)
    if before.plant is not ctx.plants[-1] or had is None or not isinstance(had.value, int) or had.span != before.span:
        return False
    start, links = _links_before(w, ph.start, before.span)
    hedged, end = _links(w, ph.end)
    if hedged & {"HEDGE"} and hedged <= {"HEDGE"}:
        links |= hedged
    else:
        end = ph.end
    if start is None or not links & {"OR", "HEDGE"} or not 1 <= abs(had.value - value) <= _APART or not _ends(w, end):
        return False
    low, high = sorted((had.value, value))
    before.undo()
    ctx.statements.pop()
    if not leaves.between(ctx, before.kind, low, high, before.span.cover(ctx.span(ph.start, end))):
        return False
    ctx.mark(start, ph.start, FILLER)
    ctx.mark(ph.start, end, EVIDENCE)
    w.resume_at = end
    return True


def _links(w: Listener, i: int) -> tuple[set[str], int]:
    """The words of doubt and choice from piece i on, and where they end."""
    said: set[str] = set()
    pieces = w.ctx.lattice.pieces
    while i < len(pieces):
        found = _link(w, i)
        if found is None:
            break
        said |= found[0]
        i = found[1]
    return said, i


def _link(w: Listener, i: int) -> tuple[set[str], int] | None:
    text = w.ctx.lattice.at(i)
    if text in _MARKS:
        return set(), i + 1
    if text in _BETWEEN:
        return {"RANGE"}, i + 1
    edges = [e for e in w.ctx.lattice.edges[i] if e.kind in {"OR", "HEDGE"}]
    got = max(edges, key=lambda e: e.end, default=None)
    return None if got is None else ({got.kind}, got.end)


def _links_before(w: Listener, i: int, told: Span) -> tuple[int | None, set[str]]:
    """Where the links begin that join the number at piece i with the words `told`; None where other words stand
    between."""
    pieces = w.ctx.lattice.pieces
    first = i
    while first and pieces[first - 1].span.start >= told.end:
        first -= 1
    if not first or pieces[first - 1].span.end > told.end:
        return None, set()
    links, end = _links(w, first)
    return (first, links) if end == i and "RANGE" not in links else (None, set())


def _number(w: Listener, i: int) -> tuple[int, int] | None:
    if i >= len(w.ctx.lattice.pieces):
        return None
    found = [e for e in w.ctx.lattice.edges[i] if e.kind == "INT"]
    got = max(found, key=lambda e: e.end, default=None)
    return None if got is None else (int(got.means), got.end)


_FOR_ENDS = _LISTED.words("for_ends")


def _ends(w: Listener, i: int) -> bool:
    """Nothing that the number could count stands behind it."""
    if w.ends_at(i):
        return w.ctx.lattice.at(i) not in {"-", "/", '"', "%", "#", "'"}
    if w.ctx.lattice.at(i) in _FOR_ENDS:
        return True
    label = w.ctx.lattice.kinds(i) & {"PLANT", "PLETTER", "ORD", "NUMBERW"}  # seven or eight plant four seven
    return bool(label) and any(s.start == i and s.phrase is not None and s.phrase.rule == "label" for s in w.segments)
