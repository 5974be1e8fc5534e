"""The page to read first: a note to its outcome, step by step.

text -> pieces -> lattice -> phrases -> segments -> drafts -> facts -> stages -> questions -> outcome
"""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import replace

from notesparse.concluding import SETTLED_WHILE_READING, conclude
from notesparse.doubts.asked import read_doubting
from notesparse.doubts.carried import carried_back
from notesparse.doubts.instead import Behind, Instead, Words
from notesparse.language.cache import known_words
from notesparse.observing import (
    fewer_told,
    headers,
    left_over,
    named_together,
    nobodys,
    parts_of_field,
    repeats,
    restarted,
    same_sample,
    stops_made,
    subjects,
    tallies,
    uncounted,
    unread_heads,
    unseen_turns,
    unturned,
)
from notesparse.observing.draft import VisitDraft
from notesparse.observing.finding import findings
from notesparse.observing.fold import FILLER, UNREAD, Context
from notesparse.observing.naming.find import find_names
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.numbered import no_years
from notesparse.observing.owner_first import owner_first
from notesparse.observing.paper.goes_on import remarks_between
from notesparse.observing.paper.side_by_side import unfolded
from notesparse.observing.paper.signs_meant import meant
from notesparse.observing.paper.table import Table
from notesparse.observing.paper.tables import find_tables
from notesparse.observing.series import coded_plants, mark_series
from notesparse.observing.shown import wording
from notesparse.observing.walking.elsewhere import elsewhere, printed
from notesparse.observing.walking.like_another_field import still_alike
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.placed_lines import placed_lines, places_alone, places_in_a_row
from notesparse.observing.walking.then_and_now import gone_from
from notesparse.observing.walking.walk import walk
from notesparse.options import Options
from notesparse.outcome import Answer, ByHand, Doubt, Note, Outcome
from notesparse.reading.parse import Phrase, Segment, phrases_at, segment
from notesparse.span import Span
from notesparse.text.aligned import aligned
from notesparse.text.dotted import dotted
from notesparse.text.lattice import Lattice
from notesparse.text.mended import mended
from notesparse.text.said_marks import said_marks
from notesparse.text.scan import scan
from notesparse.text.slips import slips_put_right
from notesparse.text.struck import struck_out
from notesparse.text.struck_words import struck_in_words


def read(
    text: str,
    *,
    source: str = "-",
    sha256: str = "",
    date: str | None = None,
    options: Options | None = None,
    answers: Sequence[Answer] = (),
    by_hand: Sequence[ByHand] = (),
    doubts: Sequence[Doubt] = (),
    before: MutableMapping[str, Outcome] | None = None,
) -> Outcome:
    """Read one note. Never raises for what stands in the note: what cannot be read is in the outcome.

    `answers` are those of the person who saw the plants, `by_hand` values that a person set; what of them fits the note
    no more changes nothing, and is told in the outcome. `doubts` are words that a recogniser was not sure of: where
    another hearing of them makes another record, it is asked. `before` holds what was read in an earlier call, and
    takes what is read in this one: a note of many doubts is read many times, and after an answer mostly the same again.
    """
    note = Note(text, source, sha256, date)
    settings = options or Options()

    def read_once(instead: Instead, given: Sequence[Answer]) -> Outcome:
        if before is None:
            return _read_once(note, settings, given, by_hand, instead)
        key = repr((note, settings, tuple(given), tuple(by_hand), instead.words))
        if key not in before:
            before[key] = _read_once(note, settings, given, by_hand, instead)
        return before[key]

    return read_doubting(note, doubts, answers, read_once)


def _read_once(
    own: Note, options: Options, answers: Sequence[Answer], by_hand: Sequence[ByHand], instead: Words
) -> Outcome:
    """The outcome of the text that is read in the place of the note's own."""
    text, date = instead.text, own.date
    note = replace(own, text=text)
    vocabulary = known_words(options.words)
    pieces = aligned(slips_put_right(text, mended(dotted(said_marks(scan(text))), vocabulary), vocabulary))
    lattice = Lattice(text, pieces, vocabulary)
    page = None if isinstance(instead, Behind) else unfolded(lattice) or owner_first(lattice)
    if page is not None:
        outcome = _read_once(note, options, answers, by_hand, Behind(instead, page))
        return carried_back(outcome, note, page)
    ctx = Context(lattice, date, options.day_first, options.counting_rule, options.node_start)
    ctx.use = [FILLER] * len(pieces)
    ctx.struck = {**struck_in_words(pieces), **struck_out(pieces)}
    known = [a for a in answers if a.reading is not None and a.rule in SETTLED_WHILE_READING]
    ctx.pins = {instead.there(a.span): a.reading for a in known if a.reading is not None}
    headers.order_of_dates(ctx)
    tables = find_tables(lattice)
    segments, names, rivals = _segments(lattice, tables, ctx.struck, ctx.pins, date)
    placed = {i: end for i, end in placed_lines(lattice).items() if not any(t.start <= i < t.end for t in tables)}
    walk(Listener(ctx, segments, names, tables, rivals, placed))
    restarted.part(ctx)
    restarted.part_shares(ctx)
    restarted.part_small(ctx)
    unread_heads.ask(ctx)
    unseen_turns.ask(ctx)
    still_alike(ctx)
    named_together.ask(ctx)
    findings.settle(ctx.visits)
    nobodys.leave_out(ctx)
    uncounted.leave_out(ctx)
    subjects.leave_out(ctx)
    fewer_told.tell(ctx)
    same_sample.tell(ctx)
    stops_made.pass_over(ctx)
    tallies.close(ctx.visits)
    headers.name_the_only(ctx)
    headers.on_the_same_day(ctx)
    parts_of_field.place(ctx, ctx.visits)
    repeats.join(ctx)
    unturned.ask(ctx)
    left_over.ask(ctx)
    visits = _kept(ctx)
    outcome = conclude(ctx, note, visits, options, answers, by_hand, instead)
    words = {} if isinstance(instead, Behind) else meant(lattice, _still_open(outcome), _held(lattice, tables), ctx.use)
    if not words:
        return outcome
    said = Instead(text, words)
    again = carried_back(_read_once(note, options, answers, by_hand, Behind(instead, said)), note, said)
    better = all(b <= a for a, b in zip(_left(outcome), _left(again), strict=True))
    key = [span for span, meaning in words.items() if not meaning]
    return again if better and _plants(again, key) == _plants(outcome, key) else outcome


def _plants(outcome: Outcome, key: Sequence[Span]) -> list[list[str]]:
    """The labels of each visit's plants, but for what prose took for a plant in the lines of the key."""
    return [
        [p.label for p in v.plants if not (p.spans and all(s.inside(key) for s in p.spans.values()))]
        for v in outcome.visits
    ]


def _held(lattice: Lattice, tables: Sequence[Table]) -> list[Span]:
    """Where tables were read."""
    return [Span(lattice.pieces[t.start].span.start, lattice.pieces[t.end - 1].span.end) for t in tables if t.grid]


def _still_open(outcome: Outcome) -> list[Span]:
    return [*(u.span for u in outcome.unread), *(q.span for q in outcome.questions)]


def _left(outcome: Outcome) -> tuple[int, int]:
    """How many characters are unread, and how much is asked."""
    return sum(u.span.end - u.span.start for u in outcome.unread), len(outcome.questions)


def _kept(ctx: Context) -> list[VisitDraft]:
    """The visits that a note holds: a field that is only named, beside others that were looked at, is none, and neither
    is one word of a sentence in which nothing was read."""
    asked = {id(a.visit) for a in ctx.asks}
    visits = [v for v in ctx.visits if v.name is not None or not v.empty or v.head or id(v) in asked]
    over = [v for v in visits if id(v) not in asked and _only_a_day_over_others(visits, v)]
    full = [v for v in visits if v not in over and (not v.empty or set(v.head) - {"date"} or id(v) in asked)]
    for v in visits:
        if (
            v in full
            or v in over
            or v.name_span is None
            or not (full or (not v.head and _a_word_of_talk(ctx, v.name_span)))
        ):
            continue
        first = ctx.lattice.first_from(v.name_span.start)
        ctx.mark(first, ctx.lattice.first_from(v.name_span.end), UNREAD, "a name with nothing seen there")
        v.name = v.name if full else None
    return full or [v for v in visits if v.name is not None or v.head]


def _only_a_day_over_others(visits: list[VisitDraft], v: VisitDraft) -> bool:
    """`7/8` on a line of its own over `Elevator Rd - 4 of 12 w/ a bloom`, under what was told of another field: the day is that
    of the fields below it, and none on which the field above was seen again."""
    at = visits.index(v)
    before, behind = visits[:at], visits[at + 1 :]
    if not v.empty or "date" not in v.head or not before or not behind or v.name_span is None:
        return False
    copied = before[-1].name_span == v.name_span
    own = [key for key, entry in v.head.items() if key != "date" and before[-1].head.get(key) is not entry]
    day = behind[0].head.get("date")
    return copied and not own and day is not None and day.span == v.head["date"].span


def _a_word_of_talk(ctx: Context, name: Span) -> bool:
    """`Later for it.`, `See you at size P.`: one word, and the sentence goes on behind it."""
    first, end = ctx.lattice.first_from(name.start), ctx.lattice.first_from(name.end)
    return end == first + 1 < len(ctx.use) and ctx.lattice.pieces[end].form not in {"mark", "nl"}


def _segments(
    lattice: Lattice, tables: list[Table], struck: dict[int, int], pins: Mapping[Span, str], day: str | None
) -> tuple[list[Segment], dict[int, Name], list[list[Phrase]]]:
    table_lines = {line for t in tables for line in range(t.first, t.last + 1)}
    bare = mark_series(lattice, table_lines)
    n = len(lattice.pieces)
    phrases = [phrases_at(lattice, i) for i in range(n)]
    for t in tables:  # a table is read by its columns
        for i in range(t.start, t.end):
            phrases[i] = []
        for i in range(max(0, t.start - 24), t.start):
            phrases[i] = [p for p in phrases[i] if p.end <= t.start]
    for a, b in struck.items():
        for i in range(max(0, a - 24), b):
            phrases[i] = [p for p in phrases[i] if p.end <= a]
    for a, b in gone_from(lattice).items():
        for i in range(a, b):
            phrases[i] = [p for p in phrases[i] if p.end <= b]
    phrases = no_years(lattice, phrases, day)
    if pins:
        phrases = [_as_answered(lattice, here, pins) for here in phrases]
    found = find_names(
        lattice,
        phrases,
        bare,
        table_lines,
        frozenset(t.start for t in tables if t.grid is not None and t.first > t.last),
        [g.name for t in tables if t.grid is not None for g in (t.grid, *t.grid.then) if g.name is not None],
    )
    no_names = remarks_between(lattice, [t.grid for t in tables if t.grid is not None]) | places_alone(lattice).keys()
    no_names |= {i for a, b in places_in_a_row(lattice).items() for i in range(a, b)}
    no_names |= coded_plants(lattice)
    no_names |= {i for a, b in (elsewhere(lattice) | printed(lattice)).items() for i in range(a, b)}
    no_names |= {i for i in range(n) if any(e.kind == "NODEFIG" for e in lattice.edges[i])}
    found = [
        name for name in found if name.start not in no_names and not any(t.start <= name.start < t.end for t in tables)
    ]
    names = {name.start: name for name in found}
    for name in found:
        for i in range(name.cue_start, name.end):
            phrases[i] = [p for p in phrases[i] if p.end <= name.cue_start]
        for i in range(max(0, name.cue_start - 24), name.cue_start):
            phrases[i] = [p for p in phrases[i] if p.end <= name.cue_start]  # the twentieth of august first one is
        phrases[name.start] = [Phrase(name.start, name.end, "name", "name_of_field", (), -1.0)]
    return segment(lattice, phrases, 0, n), names, phrases


def _as_answered(lattice: Lattice, here: list[Phrase], pins: Mapping[Span, str]) -> list[Phrase]:
    """The phrases that begin at a piece, without those of which a person has said that they mean something else."""
    pieces = lattice.pieces

    def wanted(p: Phrase) -> str | None:
        return pins.get(Span(pieces[p.start].span.start, pieces[p.end - 1].span.end))

    meant = {p.end for p in here if wording(p.form) == wanted(p)}
    return [p for p in here if p.end not in meant or wording(p.form) == wanted(p)]
