"""The page to read first: a note to its outcome, step by step.

text -> pieces -> lattice -> phrases -> segments -> drafts -> facts -> stages -> questions -> outcome
"""

from __future__ import annotations

from datetime import date as Date

from notesparse.asking.restage import Restaging
from notesparse.asking.weigh import Open, Weighed, weigh
from notesparse.facts import PlantFacts, Staged, Stated
from notesparse.language.cache import compiled
from notesparse.language.unroll import Step
from notesparse.observing import headers, repeats, tallies
from notesparse.observing.account import partition, settle_uses, unread_spans
from notesparse.observing.draft import Ask, StatedDraft, VisitDraft
from notesparse.observing.finding import findings
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.naming.find import find_names
from notesparse.observing.naming.names import Name
from notesparse.observing.paper.tables import Table, find_tables
from notesparse.observing.series import mark_series
from notesparse.observing.settle import Settled, settle
from notesparse.observing.tallies import counted_up
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.walk import walk
from notesparse.options import Options
from notesparse.outcome import (
    Finding,
    Note,
    Outcome,
    PlantRecord,
    Question,
    Repair,
    StatedRecord,
    TallyRecord,
    Unread,
    Visit,
)
from notesparse.outcome import Step as Shown
from notesparse.reading.parse import Phrase, Segment, phrases_at, segment
from notesparse.span import Span
from notesparse.text.lattice import Lattice
from notesparse.text.scan import scan
from notesparse.text.struck import struck_out


def read(
    text: str, *, source: str = "-", sha256: str = "", date: str | None = None, options: Options | None = None
) -> Outcome:
    """Read one note. Never raises for what stands in the note: what cannot be read is in the outcome."""
    options = options or Options()
    note = Note(text, source, sha256, date)
    pieces = scan(text)
    words, root = compiled()
    lattice = Lattice(text, pieces, words)
    ctx = Context(lattice, date, options.day_first, options.counting_rule)
    ctx.use = [FILLER] * len(pieces)
    ctx.struck = struck_out(pieces)
    tables = find_tables(lattice)
    segments, names, rivals = _segments(lattice, tables, ctx.struck, root)
    walk(Listener(ctx, segments, names, tables, root, rivals))
    findings.settle(ctx.visits)
    tallies.close(ctx.visits)
    headers.name_the_only(ctx)
    repeats.join(ctx)
    visits = _kept(ctx)
    return _outcome(ctx, note, visits, options)


def _kept(ctx: Context) -> list[VisitDraft]:
    """The visits that a note holds: a field that is only named, beside others that were looked at, is none."""
    asked = {id(a.visit) for a in ctx.asks}
    visits = [v for v in ctx.visits if v.name is not None or not v.empty or v.head or id(v) in asked]
    full = [v for v in visits if not v.empty or set(v.head) - {"date"} or id(v) in asked]
    for v in visits:
        if full and v not in full and v.name_span is not None:
            for i, p in enumerate(ctx.lattice.pieces):
                if v.name_span.start <= p.span.start < v.name_span.end:
                    ctx.mark(i, i + 1, UNREAD, "a name with nothing seen there")
    return full or visits[:1]


def _segments(
    lattice: Lattice, tables: list[Table], struck: dict[int, int], root: Step
) -> tuple[list[Segment], dict[int, Name], list[list[Phrase]]]:
    table_lines = {line for t in tables for line in range(t.first, t.last + 1)}
    bare = mark_series(lattice, table_lines)
    n = len(lattice.pieces)
    phrases = [phrases_at(lattice, i, root) for i in range(n)]
    for t in tables:  # a table is read by its columns
        for i in range(t.start, t.end):
            phrases[i] = []
        for i in range(max(0, t.start - 24), t.start):
            phrases[i] = [p for p in phrases[i] if p.end <= t.start]
    for a, b in struck.items():
        for i in range(max(0, a - 24), b):
            phrases[i] = [p for p in phrases[i] if p.end <= a]
    found = find_names(
        lattice,
        phrases,
        bare,
        table_lines,
        frozenset(t.start for t in tables if t.grid is not None and t.first > t.last),
    )
    found = [name for name in found if not any(t.start <= name.start < t.end for t in tables)]
    names = {name.start: name for name in found}
    for name in found:
        for i in range(name.cue_start, name.end):
            phrases[i] = [p for p in phrases[i] if p.end <= name.cue_start]
        for i in range(max(0, name.start - 24), name.start):
            phrases[i] = [p for p in phrases[i] if p.end <= name.start]
        phrases[name.start] = [Phrase(name.start, name.end, "name", "name_of_field", (), -1.0)]
    return segment(lattice, phrases, 0, n), names, phrases


def _opens(
    ctx: Context,
    visits: list[VisitDraft],
    settled: list[list[Settled]],
    facts: list[list[PlantFacts]],
    stages: list[list[tuple[Staged, Staged]]],
    options: Options,
) -> list[Open]:
    from notesparse.observing.compare import (
        counting_habit,
        going_back,
        nodes_habit,
        odd_dates,
        stated_against_computed,
        statements_differ,
        tallies_against_plants,
        tallies_differ,
        too_young,
    )

    asks = list(ctx.asks)
    asks += nodes_habit(visits, settled)
    asks += too_young(visits, settled, stages)
    asks += counting_habit(visits, settled, stages, options.counting_rule)
    asks += stated_against_computed(visits, settled, stages, options.counting_rule, asks)
    asks += statements_differ(visits)
    asks += tallies_differ(visits)
    asks += tallies_against_plants(visits, stages)
    asks += going_back(visits, stages, ctx.note_date)
    asks += odd_dates(visits, stages, ctx.note_date)
    out = []
    for a in asks:
        opened = _open(a, visits)
        if opened is not None and opened.visit < len(visits):
            out.append(opened)
    return out


def _open(a: Ask, visits: list[VisitDraft]) -> Open | None:
    for k, v in enumerate(visits):
        if a.plant is not None and a.plant in v.plants:
            live = [p for p in v.plants if not p.dropped]
            if a.plant not in live:
                return None
            return Open(
                a.rule,
                a.span,
                a.text,
                tuple(a.choices),
                k,
                live.index(a.plant),
                a.plant.label,
                a.plant.stop,
                a.taken,
                a.always,
                a.key,
            )
    if a.plant is not None:
        return None
    k = next((i for i, v in enumerate(visits) if v is a.visit), 0)
    return Open(a.rule, a.span, a.text, tuple(a.choices), k, None, None, None, a.taken, a.always, a.key)


def _stated(visit: VisitDraft) -> tuple[Stated, list[StatedRecord]]:
    """The statement for the whole field (the last one of each scale), and those for parts of it."""
    whole: dict[str, StatedDraft] = {}
    parts: list[StatedRecord] = []
    for s in visit.stated:
        if s.where:
            parts.append(
                StatedRecord(
                    Stated(v=s.value if s.letter == "v" else None, r=s.value if s.letter == "r" else None),
                    s.span,
                    s.where,
                )
            )
        elif s.letter not in whole or not s.average:
            whole[s.letter] = s
    stated = Stated(v=whole["v"].value if "v" in whole else None, r=whole["r"].value if "r" in whole else None)
    out = []
    if whole:
        spans = [s.span for s in whole.values()]
        out.append(StatedRecord(stated, Span(min(x.start for x in spans), max(x.end for x in spans)), None))
    return stated, [*out, *parts]


def _outcome(ctx: Context, note: Note, visits: list[VisitDraft], options: Options) -> Outcome:
    settled = [[settle(ctx, p) for p in v.plants if not p.dropped] for v in visits]
    facts = [[s.facts() for s in row] for row in settled]
    _ask_lots(ctx, visits)
    statements = [_stated(v) for v in visits]
    counted = [[counted_up(t) for t in v.tallies] for v in visits]
    staged = Restaging(facts, counted, [s[0] for s in statements], options.counting_rule, options.strict_top)
    stages = staged.stages
    weighed = weigh(
        _opens(ctx, visits, settled, facts, stages, options),
        staged,
        [[tuple(s.derived) for s in row] for row in settled],
    )
    done: list[Visit] = []
    evidence: list[Span] = []
    for k, v in enumerate(visits):
        live = [p for p in v.plants if not p.dropped]
        plants = tuple(
            PlantRecord(p.label, p.stop, facts[k][i], *stages[k][i], settled[k][i].spans, tuple(settled[k][i].derived))
            for i, p in enumerate(live)
        )
        head = {key: e.value for key, e in v.head.items()}
        spans = {key: e.span for key, e in v.head.items()}
        if v.name_span is not None:
            spans["field"] = v.name_span
        done.append(
            Visit(
                v.name,
                head.get("date") or note.date,
                head.get("planted"),
                head.get("emerged"),
                head.get("variety"),
                head.get("maturity_group"),
                head.get("row_spacing_in"),
                plants,
                tuple(TallyRecord(t, d.span) for t, d in zip(counted[k], v.tallies, strict=True)),
                tuple(statements[k][1]),
                tuple(Finding(f.kind, f.name, f.value, f.unit, f.where, f.span) for f in v.findings),
                staged.field(k, {}),
                spans,
            )
        )
    settle_uses(ctx)
    for i, p in enumerate(ctx.lattice.pieces):
        if ctx.use[i] == EVIDENCE:
            evidence.append(p.span)
    unread = [*unread_spans(ctx)]
    for u in ctx.unread:
        if not any(u.span.overlaps(x.span) for x in unread):
            unread.append(u)
    unread.sort(key=lambda u: u.span)
    parts = partition(note.text, evidence, [u.span for u in unread])
    unread = [Unread(s, s.of(note.text), _why(unread, s)) for s in parts[2]]
    return Outcome(
        note,
        tuple(done),
        tuple(_question(w, i, note.text) for i, w in enumerate(weighed, 1)),
        tuple(sorted(ctx.assumptions, key=lambda a: a.span)),
        tuple(sorted(ctx.corrected, key=lambda c: c.span)),
        tuple(unread),
        _repairs(ctx),
        parts[0],
        parts[1],
        _steps(ctx),
    )


def _why(unread: list[Unread], span: Span) -> str:
    return next((u.why for u in unread if u.span.overlaps(span)), "no known word")


def _ask_lots(ctx: Context, visits: list[VisitDraft]) -> None:
    """`lots of them blooming`: no number, so asked where the stage turns on it (guide 4.16)."""
    for v in visits:
        for t in v.tallies:
            if t.lots and not v.plants:
                ctx.ask(
                    Ask(
                        "4.16",
                        t.span,
                        "How many of the plants? No number is given.",
                        [
                            ("not known", {"percent": None}),
                            ("half or more", {"percent": 50.0}),
                            ("less than half", {"percent": 25.0}),
                        ],
                        None,
                        0,
                        "percent",
                        always=True,
                        visit=v,
                    )
                )


def _question(w: Weighed, number: int, text: str) -> Question:
    o = w.open
    return Question(
        f"q{number}", o.rule, o.span, o.span.of(text), o.visit, o.label, o.text, w.choices, o.taken, None, w.moves_field
    )


def _repairs(ctx: Context) -> tuple[Repair, ...]:
    return tuple(ctx.repairs)


def _steps(ctx: Context) -> tuple[Shown, ...]:
    text = ctx.lattice.text
    return tuple(Shown(s, s.of(text), form, means, used, why) for s, form, means, used, why in ctx.steps)


def note_day(date: str | None) -> Date | None:
    """The note's own date as a date."""
    return Date.fromisoformat(date) if date else None
