"""Words at the head of a line or a sentence that were not understood, where the note goes from field to field and something is told of
a field right behind them: that is of another field, and asked (guide 1.2).

Names are found before anything is read (`naming/`). `mangelwurzel p1 10 trif`, between lines that begin with fields,
would otherwise give its plants to the field of the line above, with nothing but a word unread to tell of it.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words, name_words
from notesparse.lazy import dataclass
from notesparse.observing.draft import Ask, VisitDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.headers import part_from
from notesparse.observing.naming.laid_out import TURNS_ANYWHERE
from notesparse.span import Span

_LISTED = cue_page("observing/unread_heads")
_COMMON = cue_page("shared")

_MOST = 5  # words of such a head
_FIELDS = 2  # named fields of a note that goes from field to field
_FIRST = _COMMON.words("first")
_MARKS = frozenset({":", "-", "–", ",", ".", "(", "#", "*"})
_TALK = _LISTED.ordered("talk")
_NOT_OURS = frozenset({"another crop", "not this field", "another time", "a field that was not looked at"})


@dataclass(frozen=True, slots=True)
class _Told:
    """Something that is told of a field, and the visit that it was given to."""

    span: Span
    visit: VisitDraft


def ask(ctx: Context) -> None:
    """Each such head becomes the name of a visit, and a question."""
    at = 0
    while at < len(ctx.visits):
        visit = ctx.visits[at]
        at += 1
        if visit.name is None:
            continue
        several = len({v.name for v in ctx.visits if v.name}) >= _FIELDS
        for told in _told(visit):
            head = _head(ctx, told)
            if head is None or not _behind_its_name(visit, head) or not _may_tell(ctx, told, head):
                continue
            if several or _told_twice(ctx, told, head) or _turned_to(ctx, told, head):
                _begin(ctx, visit, head, told.span)
                break


def _told(visit: VisitDraft) -> list[_Told]:
    """What is told of the field, in order; of plants only the first ones of a count."""
    spans = [t.span for t in visit.tallies] + [s.span for s in visit.stated]
    spans += [entry.span for key, entry in visit.head.items() if key != "date" and not entry.copied]
    spans += [p.span for p in visit.plants if p.label.casefold() in _FIRST and not p.dropped]
    return [_Told(span, visit) for span in sorted([*spans, *(f.span for f in visit.findings)])]


def _may_tell(ctx: Context, told: _Told, head: Span) -> bool:
    """`Wexler: 50 aphids a plant`: what was found tells of another field only behind a title and a mark."""
    found = next((f for f in told.visit.findings if f.span == told.span), None)
    if found is None:
        return True
    text = ctx.lattice.text
    between = text[head.end : told.span.start].strip()
    words = head.of(text).replace("'s", "").split()
    if between == "," and len(words) == 1 and found.value is None:
        return False  # Bummer, hail again
    return between in {":", "-", ",", "--", "–"} and all(w[0].isupper() or w[0].isdigit() for w in words)


def _behind_its_name(visit: VisitDraft, head: Span) -> bool:
    return visit.name_span is not None and visit.name_span.end <= head.start


def _head(ctx: Context, told: _Told) -> Span | None:
    """The words at the head of the line or the sentence, up to what is told."""
    pieces = ctx.lattice.pieces
    end = ctx.lattice.first_from(told.span.start)
    while end and (pieces[end - 1].text in _MARKS or pieces[end - 1].form == "nl"):
        end -= 1
    start = end
    while start and not ctx.lattice.opens(start) and ctx.use[start - 1] != EVIDENCE:
        start -= 1
    turn = _past_the_turn(ctx, start, end)
    if turn > start:
        return ctx.span(turn, end) if turn < end and _may_be_a_name(ctx, turn, end) else None
    listed = start < end and pieces[start].text == "," and _told_twice(ctx, told, ctx.span(start + 1, end))
    if listed and _shows(ctx, start + 1, end):
        return ctx.span(start + 1, end) if _may_be_a_name(ctx, start + 1, end) else None
    if start == end or not ctx.lattice.opens(start):
        return None
    if (
        start
        and pieces[start - 1].form != "nl"
        and not (_shows(ctx, start, end) or _told_twice(ctx, told, ctx.span(start, end)))
    ):
        return None
    while start < end and (
        pieces[start].form == "mark" or _said_nothing(ctx, start) or pieces[start].text in TURNS_ANYWHERE
    ):
        start += 1
    return ctx.span(start, end) if start < end and _may_be_a_name(ctx, start, end) else None


def _past_the_turn(ctx: Context, a: int, b: int) -> int:
    """Behind `last one`, `then the`, `now over at`: two words and more that turn to another field."""
    pieces, lists = ctx.lattice.pieces, name_words()
    start = next((k for k in range(a, b) if pieces[k].text in TURNS_ANYWHERE), b)
    end = start + 1
    while end < b and pieces[end].text in lists.turn_on:
        end += 1
    return end if start < b and end - start > 1 else a


def _shows(ctx: Context, a: int, b: int) -> bool:
    """In a sentence: words with capitals, or a noun of places among them; somebody's (Lloyd's rental)."""
    lattice = ctx.lattice
    owner = next((k for k in range(a + 1, b) if lattice.pieces[k].text == "'s"), b)
    words = [k for k in range(a, owner) if lattice.pieces[k].form == "word"]
    written = all(lattice.original(k, k + 1)[0].isupper() for k in words) and not lattice.text.isupper()
    return written or any(e.kind == "FIELDNOUN" and e.how == "exact" for k in words for e in lattice.edges[k])


def _told_twice(ctx: Context, told: _Told, head: Span) -> bool:
    """`Oak forty, six of ten in bloom. Turkey foot, ninety percent are in bloom`: the field had its own already, and a
    capital begins the words."""
    return head.of(ctx.lattice.text)[:1].isupper() and _told_before(told.visit, head)


def _told_before(visit: VisitDraft, head: Span) -> bool:
    """A share or a stage of the field, between its name and the head."""
    begun = visit.name_span.end if visit.name_span is not None else head.start
    before = [*(t.span for t in visit.tallies), *(s.span for s in visit.stated)]
    return any(begun <= span.start < head.start for span in before)


def _turned_to(ctx: Context, told: _Told, head: Span) -> bool:
    """`mill lot R4. okay long forty plant one 9 trifs`: a turn before the words, their first plant behind them, and before
    the turn what was told of the field."""
    pieces = ctx.lattice.pieces
    at = ctx.lattice.first_from(head.start)
    first = any(p.span == told.span for p in told.visit.plants)
    return first and at > 0 and pieces[at - 1].text in TURNS_ANYWHERE and _told_before(told.visit, head)


def _said_nothing(ctx: Context, k: int) -> bool:
    """A word that carries nothing, before the others."""
    return (
        ctx.use[k] == FILLER and ctx.lattice.filler[k] and ctx.lattice.pieces[k].text not in name_words().before_a_noun
    )


def _may_be_a_name(ctx: Context, a: int, b: int) -> bool:
    """A few words, of which one at least was not understood, and that are no way of talking."""
    pieces, lists = ctx.lattice.pieces, name_words()
    words = [k for k in range(a, b) if pieces[k].form in {"word", "int"}]
    unread = [
        k for k in words if ctx.use[k] in {UNREAD, "weak"} and pieces[k].form == "word" and len(pieces[k].text) > 1
    ]
    if not unread or len(words) > _MOST or any(ctx.why.get(k) in _NOT_OURS for k in words):
        return False
    first, last = pieces[a].text, pieces[b - 1].text
    if first in claim_words().people or (
        first in lists.never_first and (b - a == 1 or first not in lists.opens_a_head)
    ):
        return False
    if b - a > 1 and last in lists.never_last:
        return False
    return not any(pieces[k].text.endswith(_TALK) for k in unread)


def _begin(ctx: Context, visit: VisitDraft, head: Span, told: Span) -> None:
    """Another visit, with all that stands behind the head, and the question whether it is one."""
    later = part_from(ctx, visit, head)
    text = " ".join(head.of(ctx.lattice.text).split())
    choices: list[tuple[str, dict[str, object]]] = [(text, {"field": text}), (f"{visit.name}", {"field": visit.name})]
    words = f"“{text}” was not understood. Is it another field, of which the words behind it are told?"
    ctx.ask(Ask("1.2", head.cover(told), words, choices, None, 0, "field", always=True, visit=later))
