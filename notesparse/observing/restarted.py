"""Plants counted from one again, behind words that nobody knows: those are the name of the next field (guide 1.2, 4.7).

Names are found before anything is read (`naming/`). Where a field was named as none is named there, the labels that
begin anew still tell of it: without this its plants would be more plants of the field before.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing.draft import Ask, PlantDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.headers import hand_over, part_from
from notesparse.observing.repeats import contradict
from notesparse.span import Span, cover_all

_LISTED = cue_page("observing/restarted")
_COMMON = cue_page("shared")

_MOST = 4  # words of such a name
_FIRST = _COMMON.words("first_label")
_OUR_OWN = _COMMON.words("mine")
_INSIDE = _LISTED.words("inside")
_LIES = _COMMON.words("lying")
_ENDS = frozenset({".", ":", "-", "–", ",", ";"})


def part(ctx: Context) -> None:
    """Such plants, and all that is said behind them, become a visit of their own."""
    for visit in list(ctx.visits):
        again = _begins_again(visit)
        name = _words_before(ctx, again.span) if again is not None else None
        if again is None:
            continue
        if name is None:
            _ask_which(ctx, visit, again)
            continue
        _begin(ctx, visit, name, f"the plants are counted from {again.label} again behind it")


def _ask_which(ctx: Context, visit: VisitDraft, again: PlantDraft) -> None:
    """Plants that are counted from one again, with no word for a field before them: of another field, and asked which."""
    before = {p.label: p for p in reversed(visit.plants) if p.span.start < again.span.start}
    behind = [p for p in visit.plants if p.span.start >= again.span.start]
    if visit.name is None or not any(p.label in before and contradict(before[p.label], p) for p in behind):
        return  # plants one, two and three, no flowers: more of the same plants
    later = VisitDraft(None, None)
    hand_over(visit, later, again.span.start)
    for ask in ctx.asks:
        if ask.visit is visit and ask.span.start >= again.span.start:
            ask.visit = later
    ctx.visits.insert(ctx.visits.index(visit) + 1, later)
    text = f"The plants are counted from {again.label} again. Is this another field? Which one?"
    choices: list[tuple[str, dict[str, object]]] = [
        ("another field", {"field": None}),
        (f"{visit.name} again", {"field": visit.name}),
    ]
    ctx.ask(Ask("1.2", _all_of(later, again.span), text, choices, None, 0, "field", always=True, visit=later))


def _all_of(visit: VisitDraft, span: Span) -> Span:
    """All that was told of the plants, from `span` on."""
    told = [span]
    for p in visit.plants:
        told += [p.span, *(e.span for es in p.facts.values() for e in es), *(x for s in p.sightings for x in s.spans)]
    return cover_all(told)


def part_shares(ctx: Context) -> None:
    """`Cider Press: about half of them blooming`, where the note goes from field to field: words that nobody knows, with
    capitals, at the head of a sentence, right before a share or a stage of a field."""
    at = 0
    while at < len(ctx.visits):  # the visits that begin here are looked through in their turn
        visit = ctx.visits[at]
        at += 1
        if visit.name_span is None or sum(v.name is not None for v in ctx.visits) < 2:
            continue
        for told in sorted([*(t.span for t in visit.tallies), *(s.span for s in visit.stated)]):
            name = _title_before(ctx, told)
            if name is not None and name.start > visit.name_span.end:
                _begin(ctx, visit, name, "it stands before what is said of a field")
                break


def part_small(ctx: Context) -> None:
    """`the levee 9 of 10 in bloom. pecan row 10 of 10 R3`: the same in small letters, which is asked about."""
    at = 0
    while at < len(ctx.visits):
        visit = ctx.visits[at]
        at += 1
        for told in sorted([*(t.span for t in visit.tallies), *(s.span for s in visit.stated)]):
            name = _words_right_before(ctx, told)
            if name is None or not _told_before(visit, name.start):
                continue
            before = visit.name
            _begin(ctx, visit, name, "it stands before what is said of a field")
            text = " ".join(name.of(ctx.lattice.text).split())
            choices: list[tuple[str, dict[str, object]]] = [(text, {"field": text}), (f"{before}", {"field": before})]
            ask = f"Is “{text}” another field, of which this is told?"
            ctx.ask(Ask("1.2", name.cover(told), ask, choices, None, 0, "field", always=True, visit=ctx.visits[at]))
            break


def _told_before(visit: VisitDraft, start: int) -> bool:
    """Something was told of the field before the words, behind its name."""
    told = [t.span.start for t in visit.tallies]
    told += [s.span.start for s in visit.stated]
    told += [p.span.start for p in visit.plants]
    return visit.name_span is not None and any(visit.name_span.end <= at < start for at in told)


def _words_right_before(ctx: Context, told: Span) -> Span | None:
    """Up to three words that were not understood, right before something told, behind a mark or what was read before."""
    lattice, pieces = ctx.lattice, ctx.lattice.pieces
    end = ctx.lattice.first_from(told.start)
    start = end
    while start and pieces[start - 1].form in {"word", "int"} and ctx.use[start - 1] in {UNREAD, "weak"}:
        start -= 1
    words = range(start, end)
    lists = name_words()
    opens = start and (pieces[start - 1].text in {".", ";", ","} or pieces[start - 1].form == "nl")
    noun = start < end and any(e.kind == "FIELDNOUN" for e in lattice.edges[end - 1])
    opens = opens or (start and noun and ctx.use[start - 1] == EVIDENCE)  # on the lower leaves catfish pond V ten
    strange = [k for k in words if not lattice.known[k] and not lattice.filler[k] and pieces[k].form == "word"]
    first = pieces[start].text if words else ""
    if not 0 < len(words) < _MOST or not opens or not strange or len(words) < 2:
        return None
    talk = first in lists.never_first or first in lists.relations or pieces[end - 1].text in lists.never_last
    verb = any(pieces[k].text.endswith(("ed", "'t", "ing")) for k in words)
    return None if talk or verb else ctx.span(start, end)


def _begin(ctx: Context, visit: VisitDraft, name: Span, why: str) -> None:
    """Another visit, with all that stands behind its name."""
    later = part_from(ctx, visit, name)
    ctx.assume("1.2", name, f"“{later.name}” is a field: {why}")


def _title_before(ctx: Context, told: Span) -> Span | None:
    """Words with capitals that were not understood, at the head of a sentence and right before something told."""
    lattice, pieces = ctx.lattice, ctx.lattice.pieces
    end = ctx.lattice.first_from(told.start)
    while end and (pieces[end - 1].text in ":-–" or _small_filler(ctx, end - 1)):
        end -= 1
    start = _past_what_is_owned(ctx, end)
    while start and pieces[start - 1].form == "word" and lattice.original(start - 1, start)[0].isupper():
        start -= 1
    if not 0 < end - start <= _MOST or (
        start and pieces[start - 1].form != "nl" and pieces[start - 1].text not in ".;"
    ):
        return None
    words = range(start, end)
    unread = all(ctx.use[k] in {UNREAD, "weak"} or pieces[k].text == "'s" for k in words)
    strange = any(not lattice.known[k] for k in words)
    return ctx.span(start, end) if unread and strange and lattice.text != lattice.text.upper() else None


def _past_what_is_owned(ctx: Context, end: int) -> int:
    """`Lloyd's rental V six`: before the `'s` and the one small word that is owned."""
    pieces = ctx.lattice.pieces
    for k in (end - 1, end - 2):
        if k > 0 and pieces[k].text == "'s" and all(p.form == "word" for p in pieces[k + 1 : end]):
            return k
    return end


def _small_filler(ctx: Context, k: int) -> bool:
    """A word that carries nothing, in small letters: around, about."""
    lattice = ctx.lattice
    return ctx.use[k] == FILLER and lattice.pieces[k].form == "word" and not lattice.original(k, k + 1)[0].isupper()


def _begins_again(visit: VisitDraft) -> PlantDraft | None:
    """The plant from which the labels are those of the beginning again, two of them at least."""
    plants = [p for p in visit.plants if p.named and not p.dropped]
    if len(plants) < 4 or plants[0].label.casefold() not in _FIRST:
        return None
    first, second = plants[0], plants[1]
    for at in range(2, len(plants) - 1):
        same = plants[at].label == first.label and plants[at + 1].label == second.label
        if same and plants[at].stop == first.stop:
            return plants[at]
    return None


def _of_a_head(ctx: Context, k: int) -> bool:
    """A word of the rows, or a month with its day, at piece k."""
    kinds = {e.kind for e in ctx.lattice.edges[k] if e.how == "exact"}
    day = k + 1 < len(ctx.use) and {e.kind for e in ctx.lattice.edges[k + 1]} & {"INT", "ORD"}
    return bool(kinds & {"ROWS", "ROWWORD"} and "INCH" in _kinds_before(ctx, k)) or ("MONTH" in kinds and bool(day))


def _kinds_before(ctx: Context, k: int) -> set[str]:
    return {e.kind for e in ctx.lattice.edges[k - 1]} if k else set()


def _words_before(ctx: Context, label: Span) -> Span | None:
    """Words that were not understood, right before a label; one mark or one line's end may stand between."""
    pieces = ctx.lattice.pieces
    i = ctx.lattice.first_from(label.start) - 1
    if i >= 0 and (pieces[i].form == "nl" or pieces[i].text in _ENDS):
        i -= 1
    end = i + 1
    halves: set[int] = set()  # of co-op
    while i >= 0 and ctx.use[i] != EVIDENCE and end - i <= _MOST + 3 + len(halves):
        if pieces[i].text == "-" and pieces[i].glued and pieces[i + 1].glued and i + 1 < end:
            halves |= {i, i + 1}
        elif pieces[i].form not in {"word", "int"}:
            break
        i -= 1
    start = i + 1
    while start < end and ctx.lattice.filler[start] and pieces[start].text not in _LIES:
        start += 1
    words = range(start, end)
    unread = {UNREAD, "weak"}
    strange = [k for k in words if ctx.use[k] in unread and pieces[k].form == "word" and not ctx.lattice.filler[k]]
    if any(e.kind in {"NODE", "NODES"} and e.how == "exact" for k in words for e in ctx.lattice.edges[k]):
        return None  # third node down, 1's beans fill the pod
    if any(_of_a_head(ctx, k) for k in words):
        return None  # Thirty inch rows. Number one R5; september sixteenth plant one
    talk = [k for k in words if ctx.lattice.filler[k] and pieces[k].text not in _INSIDE and k not in halves]
    if not strange or len(set(words) - halves) > _MOST or talk or {pieces[k].text for k in strange} <= _OUR_OWN:
        return None  # wasp on my arm
    if end == start + 1 and start and pieces[start - 1].text == "the":
        start -= 1  # the wedge
    return ctx.span(start, end)
