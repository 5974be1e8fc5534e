"""Every character of a note once: evidence, filler or unread (guide 1.4)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.outcome import Unread
from notesparse.span import Span
from notesparse.text.columns import WIDE

_SIGNS = frozenset('"-✓√✔*|')  # marks that say something in a cell
_UNEXPLAINED = frozenset("+*")
LOOSE = frozenset({"no known word", "a known word out of place", "out of place"})
"""Reasons that say nothing of what the words are."""


def settle_uses(ctx: Context) -> None:
    """Loose words: a known word out of place is unread beside unread words, and filler by itself; so is a filler
    between
    unread words, so that a remark stays whole."""
    _signs_alone(ctx)
    use, pieces = ctx.use, ctx.lattice.pieces
    n = len(use)
    weak = {i for i in range(n) if use[i] == "weak"}
    for i in range(n):
        if use[i] == "weak":
            left, right = _neighbour(use, pieces, i, -1), _neighbour(use, pieces, i, 1)
            use[i] = UNREAD if UNREAD in (left, right) else FILLER
    _sentences_of_nothing(ctx, weak)
    i = 0
    while i < n:
        if use[i] != UNREAD:
            i += 1
            continue
        j = i
        k = i + 1
        while k < n:
            if use[k] == UNREAD:
                j = k
            elif (
                use[k] == FILLER
                and pieces[k].form != "nl"
                and not (pieces[k].form == "mark" and pieces[k].text in ".;")
            ):
                pass
            else:
                break
            k += 1
        for m in range(i, j + 1):
            if use[m] == FILLER:
                use[m] = UNREAD
                ctx.why.setdefault(m, ctx.why.get(i, "no known word"))
        # the fillers just before an unread word belong to the same remark
        b = i - 1
        while b >= 0 and use[b] == FILLER and pieces[b].form == "word":
            use[b] = UNREAD
            ctx.why.setdefault(b, ctx.why.get(i, "no known word"))
            b -= 1
        # and so do the fillers after it, where nothing else follows in the clause (the tire is going flat again)
        k = j + 1
        while k < n and use[k] == FILLER and pieces[k].form == "word":
            k += 1
        if (
            k >= n
            or pieces[k].form == "nl"
            or (pieces[k].form == "mark" and pieces[k].text in ".;,!)" and use[k] != EVIDENCE)
        ):
            for m in range(j + 1, k):
                use[m] = UNREAD
                ctx.why.setdefault(m, ctx.why.get(i, "no known word"))
            j = max(j, k - 1)
        i = j + 1


def _signs_alone(ctx: Context) -> None:
    """`pl 1   14 tri   +`: a sign in a cell of its own behind what was read of a plant says something, and nobody knows what."""
    pieces = ctx.lattice.pieces
    for i, p in enumerate(pieces):
        if p.form != "mark" or p.text not in _UNEXPLAINED or p.gap < WIDE or ctx.use[i] != FILLER:
            continue
        ends = i + 1 == len(pieces) or pieces[i + 1].form == "nl" or pieces[i + 1].gap >= WIDE
        if ends and i and ctx.use[i - 1] == EVIDENCE:
            ctx.mark(i, i + 1, UNREAD, "a sign that nothing explains")


def _sentences_of_nothing(ctx: Context, weak: set[int]) -> None:
    """A sentence in which nothing was read, and two known words or more stand out of place, is told of."""
    use, pieces = ctx.use, ctx.lattice.pieces
    start = 0
    for i in range(len(use) + 1):
        if i < len(use) and not (pieces[i].form == "nl" or (pieces[i].form == "mark" and pieces[i].text in ".;")):
            continue
        here = range(start, i)
        lone = weak & set(here)
        if all(use[x] == FILLER for x in here) and (len(lone) > 1 or any(_of_a_place(ctx, x) for x in lone)):
            for x in lone:
                use[x] = UNREAD
        head = next((x for x in here if _ends_a_head(ctx, x)), start)
        if head > start and all(x in weak for x in range(start, head)):
            for x in range(start, head):
                use[x] = UNREAD  # Cottonwood - all blooming
        start = i + 1


def _of_a_place(ctx: Context, i: int) -> bool:
    """`R3 all over. Stovepipe`: a word that fields are called by, alone in its sentence."""
    return (
        any(e.kind == "FIELDNOUN" and e.how == "exact" for e in ctx.lattice.edges[i])
        and len(ctx.lattice.pieces[i].text) > 1
    )


def _ends_a_head(ctx: Context, i: int) -> bool:
    """The mark between a head and what is told under it: `Levee - R3`, `Levee: R3`."""
    at = ctx.lattice.at
    return at(i) == ":" or (at(i) == "-" and not ctx.lattice.glued(i) and not ctx.lattice.glued(i + 1))


def _neighbour(use: Sequence[str], pieces: Sequence[object], i: int, step: int) -> str | None:
    k = i + step
    while 0 <= k < len(use):
        if use[k] in {EVIDENCE, UNREAD}:
            return use[k]
        if getattr(pieces[k], "form", "") == "nl" or getattr(pieces[k], "text", "") in {".", ";"}:
            return None
        k += step
    return None


def unread_spans(ctx: Context) -> list[Unread]:
    """What nobody could read, in the user's own words, with the reason."""
    out: list[Unread] = []
    pieces, use, text = ctx.lattice.pieces, ctx.use, ctx.lattice.text
    i = 0
    while i < len(use):
        if use[i] != UNREAD:
            i += 1
            continue
        j = i
        while j + 1 < len(use) and use[j + 1] == UNREAD and pieces[j + 1].form != "nl":
            j += 1
        span = Span(pieces[i].span.start, pieces[j].span.end)
        words = [k for k in range(i, j + 1) if pieces[k].form != "mark" or pieces[k].text in "%#/+?"]
        if not words:  # a sign alone in a cell
            words = [k for k in range(i, j + 1) if pieces[k].text in _SIGNS and ctx.why.get(k, "") not in LOOSE | {""}]
        if words:
            span = Span(pieces[words[0]].span.start, pieces[j].span.end)
            reasons = [ctx.why[k] for k in range(i, j + 1) if ctx.why.get(k)]
            why = next(
                (r for r in reasons if r not in {"no known word", "a known word out of place"}),
                reasons[0] if reasons else "no known word",
            )
            out.append(Unread(span, span.of(text), why))
        i = j + 1
    return out


def partition(
    text: str, evidence: Iterable[Span], unread: Iterable[Span]
) -> tuple[tuple[Span, ...], tuple[Span, ...], tuple[Span, ...]]:
    """(evidence, filler, unread): the note cut into stretches, every character in exactly one. Unread goes over
    evidence."""
    kind = bytearray(len(text))
    for s in evidence:
        kind[s.start : s.end] = b"\x01" * (s.end - s.start)
    for s in unread:
        kind[s.start : s.end] = b"\x02" * (s.end - s.start)
    parts: tuple[list[Span], list[Span], list[Span]] = ([], [], [])
    where = {1: 0, 0: 1, 2: 2}
    start = 0
    for i in range(1, len(text) + 1):
        if i == len(text) or kind[i] != kind[start]:
            parts[where[kind[start]]].append(Span(start, i))
            start = i
    return tuple(parts[0]), tuple(parts[1]), tuple(parts[2])
