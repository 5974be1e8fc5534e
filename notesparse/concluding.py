"""From drafts to an outcome: what was answered, the stages, what is still to be asked.

Answers come in where their questions arise: which plant is meant, then the facts of each plant, then what stands against
what. After each of these steps the record is staged anew, so that a later question is about what is known by then.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from notesparse.asking.given import Given
from notesparse.asking.restage import Plant, Restaging, Standing
from notesparse.asking.weigh import After, Open, Weighed, weigh
from notesparse.doubts.instead import Instead, Words
from notesparse.facts import FieldStage, Staged, Stated
from notesparse.observing import clashes, compare, field_called, odd_dates
from notesparse.observing.account import partition, settle_uses, unread_spans
from notesparse.observing.answering import OF_DRAFTS, OF_VISITS, on_plant, on_visit, redraw, redrawn, tried
from notesparse.observing.draft import Ask, PlantDraft, StatedDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.page_titles import titles_are_filler
from notesparse.observing.settle import settle
from notesparse.observing.settling.settled import Settled
from notesparse.observing.tallies import counted_up
from notesparse.options import Options
from notesparse.outcome import (
    Answer,
    ByHand,
    Correction,
    Finding,
    Note,
    Outcome,
    PlantRecord,
    Question,
    StatedRecord,
    TallyRecord,
    Unapplied,
    Unread,
    Visit,
)
from notesparse.outcome import Step as Shown
from notesparse.span import Span

Stages = list[list[tuple[Staged, Staged]]]


class Conclusion:
    """The drafts of a note on their way to an outcome, with the answers that were given."""

    def __init__(
        self,
        ctx: Context,
        visits: list[VisitDraft],
        options: Options,
        answers: Sequence[Answer],
        hand: Sequence[ByHand],
        instead: Words,
    ) -> None:
        self.ctx, self.visits, self.options, self.instead = ctx, visits, options, instead
        self.given = Given(answers, instead.back)
        self.rule = options.counting_rule
        self.asks: list[Ask] = []
        self.answered: list[tuple[Open, int | str]] = []
        self.meant: list[Weighed] = []  # answered questions of which plant is meant, as they were
        self.told: dict[tuple[int, int | None, str], str] = {}  # (visit, plant, key) -> confirmed, corrected
        self.unapplied: list[Unapplied] = []
        self._scratch: Context | None = None
        self._who_is_meant()
        self.settled = [[settle(ctx, p) for p in _live(v)] for v in visits]
        _ask_lots(ctx, visits)
        self.staged = self._stage()
        self._take([a for a in ctx.asks if not _of_drafts(a)])
        for value in hand:
            self._set(value)
        self._compare()
        self._what_is_asked_no_more()

    # the steps -----------------------------------------------------------------------------------------------------

    def _who_is_meant(self) -> None:
        """Answers that say which plant is meant, before any plant is settled."""
        for ask in [a for a in self.ctx.asks if _of_drafts(a)]:
            found = self.given.take(ask.rule, ask.span, _label(ask), ask.choices)
            where = self._where(ask)
            if found is None or where is None or ask.plant is None:
                if where is not None:
                    self.asks.append(ask)
                continue
            changes = found.values
            # what the other choices would make is told as of now: afterwards there is no such plant any more
            self.settled = [[settle(self._aside(), p) for p in _live(v)] for v in self.visits]
            self.staged = self._stage()
            opened = self._open(ask)
            stands = redraw(where, redrawn(where, ask.plant, changes, ask.span))
            for other in self.ctx.asks:
                if other.plant is ask.plant and stands is not None:
                    other.plant = stands
            ask.plant = stands
            if opened is not None:
                self.meant += weigh([replace(opened, answer=found.answer, always=True)], self.staged)

    def _take(self, asks: Iterable[Ask]) -> bool:
        """Keeps the asks, and carries out the answers that were given to them; whether there was one."""
        any_taken = False
        for ask in asks:
            found = self.given.take(ask.rule, ask.span, _label(ask), ask.choices)
            if found is None and self._by_habit(ask):
                any_taken = True
                continue
            opened = self._open(ask) if found is not None else None
            if found is None or opened is None:
                self.asks.append(ask)
                continue
            any_taken = True
            self._carry_out(ask, opened, found.values)
            self.answered.append((opened, found.answer))
        if any_taken:
            self.staged = self._stage()
        return any_taken

    def _by_habit(self, ask: Ask) -> bool:
        """Whether a setting answers the question: it is not asked then, and the setting is named as what is assumed."""
        value = getattr(self.options, ask.habit, "ask") if ask.habit and ask.habit != "counting_rule" else "ask"
        opened = self._open(ask) if value in ask.habits else None
        if opened is None:
            return False
        at = ask.habits.index(value)
        self._carry_out(ask, opened, ask.choices[at][1], told=False)
        name = ask.habit.replace("_", " ")
        self.ctx.assume(ask.rule, ask.span, f"{ask.choices[at][0]}: so by the setting {name}, {value}")
        return True

    def _carry_out(self, ask: Ask, opened: Open, changes: Mapping[str, Any], told: bool = True) -> None:
        k, i = opened.visit, opened.plant
        self.rule = changes.get("counting_rule", self.rule)
        if i is not None:
            for j, new in self._read_otherwise(ask, k, i, changes).items():
                self.settled[k][j] = new
                for key in changes if told else ():
                    self.told.setdefault((k, j, key), "confirmed")
        else:
            on_visit(self.visits[k], ask.span, changes)
            for key in changes if told else ():
                self.told.setdefault((k, None, key), "confirmed")

    def _compare(self) -> None:
        """What stands against what: each kind of question is put to the record as the answers before it left it."""
        v, rule = self.visits, self.options.counting_rule
        finders: tuple[Callable[[Stages], list[Ask]], ...] = (
            lambda st: compare.nodes_habit(v, self.settled, self.options.node_start),
            lambda st: compare.too_young(v, self.settled, st),
            lambda st: compare.counting_habit(v, self.settled, st, rule),
            lambda st: clashes.ask(v, self.settled, st, self.asks, self.ctx.lattice.text),
            lambda st: compare.stated_against_computed(v, self.settled, st, self.asks),
            lambda st: compare.statements_differ(v),
            lambda st: compare.tallies_differ(v),
            lambda st: field_called.ask(v, self.settled, st, self._fields(), self.asks),
            lambda st: compare.more_than_all(v),
            lambda st: compare.fewer_than_all(v),
            lambda st: compare.tallies_against_plants(v, st),
            lambda st: compare.going_back(v, st, self.ctx.note_date),
            lambda st: odd_dates.ask(v, st, self.ctx.note_date),
        )
        for find in finders:
            self._take(find(self.staged.stages))

    def _fields(self) -> list[FieldStage]:
        return [self.staged.field(k, {}) for k in range(len(self.visits))]

    def _set(self, value: ByHand) -> None:
        """A value set by hand goes over what was read; what was read stays visible as corrected."""
        k = self._visit_of(value)
        if k is None:
            self.unapplied.append(Unapplied(value, "the note has no such visit any more"))
            return
        if value.plant is None:
            visit = self.visits[k]
            entry = visit.head.get(value.key)
            before = visit.name if value.key == "field" else entry.value if entry else None
            span = (visit.name_span if value.key == "field" else entry.span if entry else None) or Span(0, 0)
            on_visit(visit, span, {value.key: value.value})
            self.told[k, None, value.key] = "corrected"
            self._put_right(span, value.key, before, value.value)
            return
        i = next(
            (i for i, p in enumerate(_live(self.visits[k])) if (p.label, p.stop) == (value.plant, value.stop)), None
        )
        if i is None:
            self.unapplied.append(Unapplied(value, f"the note has no plant {value.plant} any more"))
            return
        old = self.settled[k][i]
        new = on_plant(old, {value.key: value.value}, None)
        new.derived = [key for key in new.derived if key != value.key]
        self.settled[k][i] = new
        self.told[k, i, value.key] = "corrected"
        self._put_right(old.spans.get(value.key, Span(0, 0)), value.key, old.values.get(value.key), value.value)
        plant = _live(self.visits[k])[i]
        self.asks = [a for a in self.asks if not (a.plant is plant and a.key == value.key)]
        self.staged = self._stage()

    def _put_right(self, span: Span, key: str, before: Any, after: Any) -> None:
        if before != after:
            text = f"by hand: {key} is {_told(after)}, not {_told(before)}"
            self.ctx.corrected.append(Correction("by hand", span, text))

    def _what_is_asked_no_more(self) -> None:
        """Answers to what this version of the program does not ask: the person's word stands, or it is told why not."""
        changed = False
        for answer in self.given.left:
            here = self.instead.there(answer.span)
            if answer.rule in SETTLED_WHILE_READING and here in self.ctx.pins:
                continue
            places = [
                (k, i)
                for k, row in enumerate(self.settled)
                for i, (p, s) in enumerate(zip(_live(self.visits[k]), row, strict=True))
                if p.label == answer.plant and any(span.overlaps(here) for span in s.spans.values())
            ]
            keys = set(answer.values)
            if len(places) != 1 or keys & (OF_DRAFTS | OF_VISITS | {"tally", "percent", "of", "counting_rule"}):
                self.unapplied.append(Unapplied(answer, "this is not asked any more"))
                continue
            k, i = places[0]
            self.settled[k][i] = on_plant(self.settled[k][i], answer.values, here)
            for key in keys:
                self.told.setdefault((k, i, key), "confirmed")
            changed = True
        if changed:
            self.staged = self._stage()

    # what would stand -----------------------------------------------------------------------------------------------

    def _stage(self) -> Restaging:
        standings = [self._standing(v, row) for v, row in zip(self.visits, self.settled, strict=True)]
        return Restaging(standings, self.rule, self.options.strict_top)

    def _standing(self, v: VisitDraft, row: list[Settled]) -> Standing:
        plants = tuple(Plant(s.facts(), s.stands) for s in row)
        return Standing(plants, tuple(counted_up(t) for t in v.tallies), stated_of(v)[0], v.stands, v.by_count)

    def _where(self, ask: Ask) -> VisitDraft | None:
        """The visit that an ask is about; None where its plant is none (any more)."""
        for v in self.visits:
            if ask.plant is not None and any(p is ask.plant for p in v.plants):
                return None if ask.plant.dropped else v
        if ask.plant is not None:
            return None
        return next((v for v in self.visits if v is ask.visit), self.visits[0] if self.visits else None)

    def _open(self, ask: Ask) -> Open | None:
        visit = self._where(ask)
        if visit is None:
            return None
        k = next(k for k, v in enumerate(self.visits) if v is visit)
        i = next((i for i, p in enumerate(_live(visit)) if p is ask.plant), None) if ask.plant is not None else None
        choices = tuple((reading, changes, self._after(ask, k, i, changes)) for reading, changes in ask.choices)
        label, stop = (ask.plant.label, ask.plant.stop) if ask.plant is not None else (None, None)
        about = (ask.rule, ask.span, ask.text, choices, k, i, label, stop)
        return Open(*about, ask.taken, ask.always, ask.key, ask.habit, ask.habits)

    def _after(self, ask: Ask, k: int, i: int | None, changes: Mapping[str, Any]) -> After:
        if i is None:
            if not changes:
                return After({})
            visit = tried(self.visits[k], ask.span, changes)
            plants = self.staged.visits[k].plants
            tallies = tuple(counted_up(t) for t in visit.tallies)
            return After({}, (), Standing(plants, tallies, stated_of(visit)[0], visit.stands, visit.by_count))
        if OF_DRAFTS & set(changes) and ask.plant is not None:
            return self._if_meant(self.visits[k], ask.plant, changes, ask.span)
        otherwise = self._read_otherwise(ask, k, i, changes)
        return After({j: Plant(s.facts(), s.stands) for j, s in otherwise.items()})

    def _read_otherwise(self, ask: Ask, k: int, i: int, changes: Mapping[str, Any]) -> dict[int, Settled]:
        """The plants that an answer is about: the one, or all that are counted like it."""
        row = self.settled[k]
        out = {i: on_plant(row[i], changes, ask.span)}
        if ask.all_alike:
            for j, more in compare.alike(row, i, changes).items():
                out[j] = on_plant(row[j], more, None)
        for j, plant in enumerate(_live(self.visits[k])) if ask.also else ():
            if any(plant is other for other in ask.also):
                out[j] = on_plant(row[j], changes, None)
        return out

    def _if_meant(self, visit: VisitDraft, plant: PlantDraft, changes: Mapping[str, Any], span: Span) -> After:
        live = _live(visit)
        new: dict[int, Plant | None] = {}
        added: list[Plant] = []
        asked: Plant | None = None
        for old, drawn in redrawn(visit, plant, changes, span):
            settled = settle(self._aside(), drawn) if drawn is not None else None
            made = Plant(settled.facts(), settled.stands) if settled is not None else None
            at = next((i for i, p in enumerate(live) if p is old), None)
            if at is not None:
                new[at] = made
            elif made is not None:
                added.append(made)
            asked = asked or made
        return After(new, tuple(added), None, asked)

    def _aside(self) -> Context:
        """A context whose questions and remarks nobody reads, for trying."""
        if self._scratch is None:
            self._scratch = copy.copy(self.ctx)
        self._scratch.asks, self._scratch.assumptions, self._scratch.unread = [], [], []
        return self._scratch

    def _visit_of(self, value: ByHand) -> int | None:
        names = [v.name for v in self.visits]
        if value.visit < len(names) and names[value.visit] == value.field:
            return value.visit
        same = [k for k, name in enumerate(names) if name == value.field]
        return same[0] if len(same) == 1 else None

    # what came of it -------------------------------------------------------------------------------------------------

    def weighed(self) -> list[Weighed]:
        """The questions, the open ones first. An answered one makes what the record holds now."""
        opens = [o for o in map(self._open, self.asks) if o is not None]
        for opened, answer in self.answered:
            now = tuple(
                (reading, changes, After({}) if at == answer else after)
                for at, (reading, changes, after) in enumerate(opened.choices)
            )
            opens.append(replace(opened, choices=now, answer=answer, always=True))
        return weigh(opens, self.staged) + self.meant


def conclude(
    ctx: Context,
    note: Note,
    visits: list[VisitDraft],
    options: Options,
    answers: Sequence[Answer] = (),
    by_hand: Sequence[ByHand] = (),
    instead: Words | None = None,
) -> Outcome:
    """The outcome of a note from its drafts. Answers are about the note's own text, of which `instead` is read."""
    c = Conclusion(ctx, visits, options, answers, by_hand, instead or Instead(note.text, {}))
    questions = tuple(_question(w, i, note.text) for i, w in enumerate(c.weighed(), 1))
    done = tuple(_visit(c, k, note) for k in range(len(visits)))
    settle_uses(ctx)
    titles_are_filler(ctx)
    evidence = [p.span for i, p in enumerate(ctx.lattice.pieces) if ctx.use[i] == EVIDENCE]
    unread = [*unread_spans(ctx)]
    for u in ctx.unread:
        if not any(u.span.overlaps(x.span) for x in unread):
            unread.append(u)
    unread.sort(key=lambda u: u.span)
    parts = partition(note.text, evidence, [u.span for u in unread])
    return Outcome(
        note,
        done,
        questions,
        tuple(sorted(ctx.assumptions, key=lambda a: a.span)),
        tuple(sorted(ctx.corrected, key=lambda c: c.span)),
        tuple(Unread(s, s.of(note.text), _why(unread, s)) for s in parts[2]),
        tuple(ctx.repairs),
        parts[0],
        parts[1],
        tuple(Shown(s, s.of(note.text), form, means, used, why) for s, form, means, used, why in ctx.steps),
        tuple(c.unapplied),
    )


def _visit(c: Conclusion, k: int, note: Note) -> Visit:
    v = c.visits[k]
    row, stages = c.settled[k], c.staged.stages[k]
    plants = tuple(
        PlantRecord(p.label, p.stop, row[i].facts(), *stages[i], row[i].spans, tuple(row[i].derived), _told_of(c, k, i))
        for i, p in enumerate(_live(v))
    )
    head = {key: e.value for key, e in v.head.items()}
    spans = {key: e.span for key, e in v.head.items()}
    if v.name_span is not None:
        spans["field"] = v.name_span
    return Visit(
        v.name,
        head.get("date") or note.date,
        head.get("planted"),
        head.get("emerged"),
        head.get("variety"),
        head.get("maturity_group"),
        head.get("row_spacing_in"),
        plants,
        tuple(TallyRecord(counted_up(t), t.span) for t in v.tallies),
        tuple(stated_of(v)[1]),
        tuple(Finding(f.kind, f.name, f.value, f.unit, f.where, f.span) for f in v.findings),
        c.staged.field(k, {}),
        spans,
        _told_of(c, k, None),
    )


def _told_of(c: Conclusion, k: int, i: int | None) -> dict[str, str]:
    return {key: how for (visit, plant, key), how in sorted(c.told.items(), key=repr) if (visit, plant) == (k, i)}


def _live(v: VisitDraft) -> list[PlantDraft]:
    return [p for p in v.plants if not p.dropped]


def _of_drafts(ask: Ask) -> bool:
    return any(OF_DRAFTS & set(changes) for _, changes in ask.choices)


def _label(ask: Ask) -> str | None:
    return ask.plant.label if ask.plant is not None else None


def _told(value: Any) -> str:
    return "not known" if value is None else " to ".join(map(str, value)) if isinstance(value, tuple) else str(value)


SETTLED_WHILE_READING = frozenset({"1.4", "4.16"})
"""Rules whose questions may turn on how the words are read: an answer to one of them is known to the reading."""


def stated_of(visit: VisitDraft) -> tuple[Stated, list[StatedRecord]]:
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
        f"q{number}",
        o.rule,
        o.span,
        o.span.of(text),
        o.visit,
        o.label,
        o.text,
        w.choices,
        o.taken,
        o.answer,
        w.moves_field and o.answer is None,
        o.stop,
        o.key,
        o.habit,
        o.habits,
    )
