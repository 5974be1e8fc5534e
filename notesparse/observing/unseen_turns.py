"""A field of which the same is told a second time, behind words that were not understood: another field may have been named
there, and it is asked (guide 1.2).

`Hogback R3. Finally got into Candlestick, R2, aphids 50 a plant`: a name that no rule of `naming/` sees would give its
stage and its bugs to the field before. What stands in that sentence, and behind it, is kept off the field before.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words, name_words
from notesparse.lazy import dataclass
from notesparse.observing.draft import Ask, StatedDraft, TallyDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.observing.headers import hand_on, part_from
from notesparse.span import Span

_LISTED = cue_page("observing/unseen_turns")
_COMMON = cue_page("shared")

_FEWEST = 2  # words that were not understood, where none of them has a capital
_LONGEST = 4  # words of a name
_FIRST = _COMMON.words("first")
_NOT_OURS = frozenset({"another crop", "not this field", "another time", "a field that was not looked at"})
_PUT_RIGHT = _LISTED.words("put_right")
_WAYS = _LISTED.words("ways")


@dataclass(frozen=True, slots=True)
class _Turn:
    """Where another field may begin: its name, if one shows, and what is told of it first."""

    start: int
    name: Span | None
    told: Span


def ask(ctx: Context) -> None:
    """Each such sentence, and what stands behind it, becomes a visit of its own, and a question."""
    at = 0
    while at < len(ctx.visits):
        visit = ctx.visits[at]
        at += 1
        named = visit.name is not None and visit.name_span is not None
        turn = _turn(ctx, visit) or _walked_there(ctx, visit) if named else None
        if turn is not None:
            _begin(ctx, visit, turn)


def _turn(ctx: Context, visit: VisitDraft) -> _Turn | None:
    told: list[StatedDraft | TallyDraft] = sorted([*visit.stated, *visit.tallies], key=lambda one: one.span)
    for n, later in enumerate(told):
        before = [one for one in told[:n] if _differ(one, later)]
        turn = _begun_between(ctx, visit, before[-1].span, later.span) if before else None
        if turn is None and n and not before and isinstance(later, StatedDraft):
            turn = _begun_between(ctx, visit, told[n - 1].span, later.span)
            if turn is not None and (turn.name is None or not _right_before(ctx, turn.name, later.span)):
                turn = None
        if turn is not None:
            return turn
    return None


def _walked_there(ctx: Context, visit: VisitDraft) -> _Turn | None:
    """`Blue Gate R1. Going home I cut through the Gravelly place and pulled three. Plant 1 had ten trifs`: the first plants
    of a field of which other things are told, behind a sentence that was not understood and has a name's capitals."""
    plants = [p for p in visit.plants if not p.dropped]
    told = sorted([*(s.span for s in visit.stated), *(t.span for t in visit.tallies)])
    firsts = [plants[0].span] if plants and plants[0].label.casefold() in _FIRST else []
    for first in sorted([*firsts, *told[1:]]):
        before = [
            t for t in told if visit.name_span is not None and visit.name_span.end <= t.start and t.end <= first.start
        ]
        turn = _sentence_before(ctx, visit, before[-1], first) if before else None
        if turn is not None:
            return turn
    return None


def _sentence_before(ctx: Context, visit: VisitDraft, told: Span, first: Span) -> _Turn | None:
    pieces = ctx.lattice.pieces
    end = ctx.lattice.first_from(first.start)
    if not end or not ctx.lattice.opens(end):
        return None
    start = end - 1
    while start and pieces[start - 1].span.start >= told.end and not ctx.lattice.opens(start):
        start -= 1
    said = [k for k in range(start, end) if pieces[k].form == "word"]
    strange = [k for k in said if _strange(ctx, k)]
    whole = all(ctx.use[k] != EVIDENCE for k in said) and pieces[start].span.start >= told.end
    name = _title(ctx, [k for k in strange if k > start], start) if whole else None
    if name is None or _named_again(visit, {pieces[k].text for k in said}):
        return None
    return _Turn(pieces[start].span.start, name, first)


def _right_before(ctx: Context, name: Span, told: Span) -> bool:
    """`Did walk Candlestick, V6`: nothing but a mark and words that carry nothing stands between."""
    between = [k for k, p in enumerate(ctx.lattice.pieces) if name.end <= p.span.start < told.start]
    return all(ctx.lattice.pieces[k].form == "mark" or ctx.lattice.filler[k] for k in between)


def _differ(a: StatedDraft | TallyDraft, b: StatedDraft | TallyDraft) -> bool:
    """Both tell the same kind of thing of the field as a whole."""
    if isinstance(a, StatedDraft) and isinstance(b, StatedDraft):
        return a.letter == b.letter and a.where is None and b.where is None
    if isinstance(a, TallyDraft) and isinstance(b, TallyDraft):
        return a.what == b.what and not (a.exclusive or b.exclusive or a.stops or b.stops)
    return False


def _begun_between(ctx: Context, visit: VisitDraft, before: Span, later: Span) -> _Turn | None:
    pieces = ctx.lattice.pieces
    end = ctx.lattice.first_from(later.start)
    start = end
    while start and pieces[start - 1].span.start >= before.end and not ctx.lattice.opens(start):
        start -= 1
    if visit.name_span is None or pieces[start].span.start < max(before.end, visit.name_span.end):
        return None
    said = [k for k in range(start, end) if pieces[k].form == "word"]
    strange = [k for k in said if _strange(ctx, k)]
    texts = {pieces[k].text for k in said}
    if not strange or texts & _PUT_RIGHT or texts & claim_words().people or _named_again(visit, texts):
        return None
    if any(ctx.why.get(k) in _NOT_OURS for k in said):
        return None
    name = _title(ctx, strange, start)
    if name is None and (len(strange) < _FEWEST or not texts & _WAYS):
        return None
    cut = start if ctx.lattice.opens(start) else strange[0]
    return _Turn(pieces[cut].span.start, name, later)


def _strange(ctx: Context, k: int) -> bool:
    """A word that was left unread, and is no small word and no row of strokes (IIII)."""
    text = ctx.lattice.pieces[k].text
    return ctx.use[k] in {UNREAD, "weak"} and not ctx.lattice.filler[k] and len(set(text)) > 1


def _named_again(visit: VisitDraft, texts: set[str]) -> bool:
    """The field's own name is among the words."""
    own = set((visit.name or "").casefold().replace("'s", "").split()) - {"the", "field"}
    return own <= texts


def _title(ctx: Context, strange: list[int], start: int) -> Span | None:
    """The last words with capitals among them, where a capital tells anything and is not that of a sentence's first word
    alone."""
    lattice, lists = ctx.lattice, name_words()
    if lattice.text.isupper():
        return None
    written = [k for k in strange if lattice.original(k, k + 1)[0].isupper() and lattice.pieces[k].text != "i"]
    written = [
        k for k in written if k > start or lattice.pieces[k].text not in lists.never_first | lists.moving | _WAYS
    ]
    if not written or (written == [start] and lattice.known[start]):
        return None
    end = written[-1] + 1
    a = written[-1]
    while a - 1 in written and end - a < _LONGEST:
        a -= 1
    noun = end < len(lattice.pieces) and any(e.kind == "FIELDNOUN" for e in lattice.edges[end])  # Gravelly place
    letter = (
        end < len(lattice.pieces) and len(lattice.pieces[end].text) == 1 and lattice.original(end, end + 1).isupper()
    )
    numbered = end < len(lattice.pieces) and (lattice.pieces[end].form == "int" or noun or letter)  # Unit L
    if numbered and ctx.use[end] != EVIDENCE:
        end += 1
    return ctx.span(a, end)


def _begin(ctx: Context, visit: VisitDraft, turn: _Turn) -> None:
    choices: list[tuple[str, dict[str, object]]] = []
    if turn.name is not None:
        later = part_from(ctx, visit, turn.name)
        again = [s for s in visit.findings if turn.start <= s.span.start < turn.name.start]
        visit.findings = [s for s in visit.findings if s not in again]
        later.findings[:0] = again
        words = f"Is “{later.name}” another field, of which this is told?"
        choices.append((f"{later.name}", {"field": later.name}))
        span = turn.name.cover(turn.told)
    else:
        later = VisitDraft(None, Span(turn.start, turn.told.start))
        hand_on(ctx, visit, later, turn.start)
        ctx.visits.insert(ctx.visits.index(visit) + 1, later)
        words = (
            f"Words were not understood before this, and it was told of {visit.name} before. Is it of another field?"
        )
        choices.append(("another field", {"field": None}))
        span = turn.told
    choices.append((f"{visit.name}", {"field": visit.name}))
    ctx.ask(Ask("1.2", span, words, choices, None, 0, "field", always=True, visit=later))
