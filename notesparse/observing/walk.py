"""The walk over the chosen segments: which room gets which phrase, and what the words between them mean."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from notesparse.observing import countlist, findings, findopen, forms, headers, leaves, listfix, organs, owners, revise, stages, tallies
from notesparse.observing.draft import Ask, Entry, Sighting
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context, edges_of, numbers_of
from notesparse.language.unroll import Step
from notesparse.observing.names import Name
from notesparse.observing.shown import meaning, reasons, repairs, wording
from notesparse.observing.tables import Table, read_table
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment
from notesparse.text.lattice import Edge
from notesparse.span import Span

_PART_OF_FIELD = {"end", "ends", "side", "half", "edge"}
_LINKS = {"HAS", "BUT", "AND", "IN", "AT", "WITH"}
_BACK_IN_BRANCH = {"branch", "wrong", "mistake"}
_ORGANS = {"flowers", "pods", "seeds", "state", "podshare"}
_OWN = {"trif", "nodes", "topleaf", "scars", "emergence"} | _ORGANS


class Walk:
    """One pass over the segments of a note."""

    def __init__(self, ctx: Context, segments: list[Segment], names: dict[int, Name], tables: list[Table], root: Step,
                 rivals: list[list[Phrase]] | None = None) -> None:
        self.rivals = rivals or []
        self.root = root
        self.tables = {t.start: t for t in tables}
        self.ctx = ctx
        self.segments = segments
        self.names = names
        self.number: tuple[Any, Span, int, int] | None = None  # a bare number that waits for its head
        self.negative: tuple[Span, int, int] | None = None
        self.at_head = True  # nothing observed yet in this visit
        self.line_head = True
        self.after_name = False
        self.barred: str | None = None  # why the words up to the next boundary are no evidence
        self.barred_from = 0
        self.groups_done: set[int] = set()
        self.clause_from = 0
        self.list_until = -1
        self.barred_limit = 0
        self.resume_at = 0
        self.where_ahead: str | None = None  # the part of the field that the next stage is of
        self.false_start = -1  # a correction of a number that had no noun yet
        self.form = forms.form_lines(ctx.lattice)
        ctx.form = bool(self.form)
        self.owned: owners.Owners | None = None  # plants named behind what is being said

    # looking around -------------------------------------------------------------------------------------------------

    def ahead(self, at: int, limit: int = 8) -> tuple[Phrase | None, set[str], bool]:
        """The next phrase in the clause, the link words before it, and whether a mark stands between."""
        links: set[str] = set()
        mark = False
        for s in self.segments[at + 1 : at + 1 + limit]:
            if s.phrase is not None:
                if s.phrase.rule == "filler":
                    continue
                return s.phrase, links, mark
            p = self.ctx.lattice.pieces[s.start]
            if p.form == "nl" or (p.text in ".;" and self.ctx.lattice.soft[s.start] is None):
                return None, links, True
            if p.form == "mark":
                mark = True
            links |= {e.kind for e in self.ctx.lattice.edges[s.start] if e.kind in _LINKS}
        return None, links, mark

    def in_clause(self, at: int, rules: set[str], step: int = 1) -> Phrase | None:
        """A phrase of these rules in the same clause, looking forward or back."""
        k = at + step
        while 0 <= k < len(self.segments):
            s = self.segments[k]
            if s.phrase is None:
                if self._hard(s.start):
                    return None
            elif s.phrase.rule == "filler":
                pass
            elif s.phrase.rule in rules:
                return s.phrase
            elif s.phrase.rule == "label":
                return None
            k += step
        return None

    def _hard(self, i: int) -> bool:
        p = self.ctx.lattice.pieces[i]
        return p.form == "nl" or (p.form == "mark" and p.text in ".;!" and self.ctx.lattice.soft[i] is None)

    # the walk -------------------------------------------------------------------------------------------------------

    def run(self) -> None:
        self.steps()
        revise.settle_targets(self.ctx)
        revise.leave_out_the_hurt(self.ctx)

    def steps(self) -> None:
        """All segments, one after the other."""
        ctx = self.ctx
        k = 0
        while k < len(self.segments):
            s = self.segments[k]
            if s.start < self.resume_at:
                k += 1
                continue
            if self.owned is not None and s.start >= self.owned.start:
                ctx.mark(self.owned.start, self.owned.end, EVIDENCE)
                self.resume_at, self.owned = self.owned.end, None
                continue
            table = self.tables.get(s.start)
            if table is not None:
                self._end_clause(k)
                read_table(ctx, table, self.root)
                self.resume_at = table.end
                self.at_head = self.at_head and (ctx.visit is None or ctx.visit.empty)
                k += 1
                continue
            name = self.names.get(s.start)
            if name is not None and findopen.rather(ctx.lattice, name):
                name = self.names.pop(s.start) and None
            if name is not None:
                self._name(name, k)
                k += 1
                continue
            line = self.form.get(s.start)
            if line is not None and not any(line.start <= n.start < line.end for n in self.names.values()):
                at = forms.take(ctx, line, self.root)
                if at is not None:
                    self._clear_waiting()
                    self.at_head = self.line_head = self.after_name = False
                    self.resume_at = at
                    k += 1
                    continue
            if s.start not in ctx.struck and (not self.barred or self._past_the_cue(s)):
                end = findings.take(ctx, self.segments, k, self.names)
                if end is not None:
                    revise.hurt(ctx, s.start)
                    self._clear_waiting()
                    self.barred = None
                    self.resume_at = end
                    self.line_head = self.after_name = False
                    k += 1
                    continue
            fixed = listfix.put_right(ctx, s.start) if not self.barred and self._begins(s.start) else None
            if fixed is not None:
                self._clear_waiting()
                self.resume_at = fixed
                k += 1
                continue
            if not self.barred and self._counts_may_begin(s):
                end = countlist.counted_list(ctx, s.start, self.root)
                if end is not None:
                    self._clear_waiting()
                    self.at_head = self.line_head = self.after_name = False
                    self.resume_at = end
                    k += 1
                    continue
            if s.phrase is None:
                self._loose(s.start, k)
                k += 1
                continue
            self._phrase(s.phrase, k)
            k += 1
        self._end_clause(len(self.segments))

    def _counts_may_begin(self, s: Segment) -> bool:
        """At the head of a clause or behind a name, with no plant spoken of on this line."""
        ctx = self.ctx
        if ctx.explicit and ctx.plants and ctx.plants[-1].line == ctx.line or s.start in ctx.struck:
            return False
        if s.phrase is not None and s.phrase.rule in {"date", "label", "filler", "correct", "call", "average"}:
            return False
        pieces = ctx.lattice.pieces
        i = s.start - 1
        while i >= 0 and (ctx.lattice.filler[i] or pieces[i].text in {"with", "had", "have"}):
            i -= 1
        return i < 0 or pieces[i].form in {"nl", "mark"} or self.after_name or any(n.end == i + 1 for n in self.names.values()) or ctx.sample is not None

    def _name(self, name: Name, k: int) -> None:
        ctx = self.ctx
        span = ctx.span(name.start, name.end)
        if not name.seen:
            self.barred = "a field that was not looked at"
            self.barred_from = name.start
            ctx.mark(name.start, name.end, UNREAD, self.barred)
            return
        if self.barred and name.cue not in {"go", "field", "fieldno", "note", "line", "sentence"}:
            ctx.mark(name.start, name.end, UNREAD, self.barred)
            return
        self._clear_waiting()
        mid = name.cue == "again" and ctx.finding is not None and not self.line_head and not self._clause_is_fresh(k)
        if mid:
            for v in ctx.visits:
                if headers.same_name(v.name, name.text) and v is not ctx.visit and ctx.visit is not None:
                    moved = [f for f in ctx.visit.findings if f.span.start >= self._clause_start(k)]
                    for f in moved:
                        ctx.visit.findings.remove(f)
                        v.findings.append(f)
                        f.where = f.where
            ctx.mark(name.start, name.end, EVIDENCE)
            return
        self.barred = None
        before = ctx.visit
        if name.cue == "line" and before is not None and before.name and name.text.lower().split()[-1] in _PART_OF_FIELD and self._closes(name.end):
            ctx.leave_plants()  # creek end, on a line of its own: a stop
            ctx.stop = name.text
            ctx.mark(name.start, name.end, EVIDENCE)
            return
        headers.open_visit(ctx, name, span)
        ctx.mark(name.start, name.end, EVIDENCE)
        if name.cue_start < name.start:
            ctx.mark(name.cue_start, name.start, FILLER)
        if ctx.visit is not before or (ctx.visit and ctx.visit.empty):
            self.at_head = True
        self.after_name = True
        ctx.steps.append((span, "field name", name.text, "evidence", (f"stands at the {name.cue}",)))

    def _clause_start(self, k: int) -> int:
        j = k - 1
        while j >= 0:
            s = self.segments[j]
            if s.phrase is None and self._hard(s.start):
                return self.ctx.lattice.pieces[s.start].span.end
            j -= 1
        return 0

    def _clause_is_fresh(self, k: int) -> bool:
        start = self._clause_start(k)
        return not any(self.ctx.lattice.pieces[s.start].span.start >= start and s.phrase is not None and s.phrase.rule not in {"goto", "fieldcue", "correct"}
                       for s in self.segments[:k])

    def _clear_waiting(self) -> None:
        if self.number is not None:
            _, _, a, b = self.number
            if self.ctx.use[a] != EVIDENCE:
                self.ctx.mark(a, b, UNREAD, "a number with nothing to count")
            self.number = None
        if self.negative is not None:
            _, a, b = self.negative
            self.ctx.mark(a, b, UNREAD, "a negation with nothing to turn round")
            self.negative = None

    def _loose(self, i: int, k: int) -> None:
        """A piece that no phrase took: a mark, a filler, a known word out of place, or a word that is not known."""
        ctx = self.ctx
        p = ctx.lattice.pieces[i]
        struck = ctx.struck.get(i)
        if struck is not None:  # what was struck out is put right, and is no evidence
            ctx.corrected.append(Correction("4.21", ctx.span(i, struck), "struck out"))
            ctx.mark(i, struck, FILLER)
            self.resume_at = struck
            return
        if p.form == "nl":
            self._end_clause(k)
            ctx.line += 1
            self.line_head = True
            self.after_name = False
            ctx.mark(i, i + 1, FILLER)
            if ctx.line_labels or not ctx.explicit:
                ctx.close()
            if ctx.line_labels and ctx.explicit:
                if ctx.plants and all(q.empty for q in ctx.plants):
                    ctx.label_lines = True
                elif not ctx.label_lines:
                    ctx.leave_plants()
            return
        if self._hard(i):
            self._end_clause(k)
            ctx.mark(i, i + 1, FILLER)
            return
        if p.form == "mark":
            ctx.mark(i, i + 1, UNREAD if self.barred else FILLER, self.barred or "")
            if p.text in ",:(":
                ctx.link.discard("HAS")
                if p.text == ",":
                    ctx.link.add("COMMA")
            return
        if self.barred:
            ctx.mark(i, i + 1, UNREAD, self.barred)
            return
        kinds = {e.kind for e in ctx.lattice.edges[i]}
        ctx.link |= kinds & _LINKS
        self.after_name = self.after_name and ctx.lattice.filler[i]
        if "NONE" in kinds or "NO" in kinds or "NOT" in kinds:
            self.negative = (ctx.span(i, i + 1), i, i + 1)
        if "BEAN" in kinds and (self.ahead(k)[0] or Phrase(0, 0, "", "", (), 0.0)).rule in {"stage", "call"}:
            ctx.mark(i, i + 1, FILLER)  # the beans are at R4
        elif ctx.lattice.filler[i] or kinds & {"COUNTING", "HEDGE", "ONLY", "YET", "STILL", "FEW", "HAS", "BUT", "AND", "FILLER", "SOMEW", "SAMPLED", "IN", "AT", "LONG", "EARLY"}:
            ctx.mark(i, i + 1, FILLER)
        elif kinds & {"PLANT", "BEAN", "ONE", "LEAF", "ROWS", "TOP", "OR", "TO", "OF", "AS", "FIELDNOUN", "R", "V", "THE", "ALMOST", "NODE", "NODES", "OPEN", "PLUS",
                      "LIKE", "LAST", "UPW", "MORE", "EVERYW", "ALLPL", "STOP", "PER", "NUMBERW"}:
            ctx.mark(i, i + 1, UNREAD if kinds & {"ALMOST", "OPEN"} else "weak", "a known word out of place")
        elif p.form in {"int", "dec", "big", "dmy"}:
            ctx.mark(i, i + 1, UNREAD, "a number with nothing to count")
        else:
            ctx.mark(i, i + 1, UNREAD, "no known word" if not ctx.lattice.known[i] else "a known word out of place")

    def _end_clause(self, k: int) -> None:
        ctx = self.ctx
        if self.barred:
            self.barred = None
        self._clear_waiting()
        if ctx.places or ctx.lengths:
            self._orphans()
        ctx.open = []
        if k < len(self.segments):
            self.clause_from = ctx.lattice.pieces[self.segments[k].start].span.end
        ctx.clause += 1
        ctx.link = set()
        ctx.correcting = None
        ctx.taking_back = None
        ctx.group = None
        ctx.group_n = None
        self._close_tally()
        ctx.star = None
        ctx.finding = None
        for s, a, b in ctx.tentative:
            self._drop_tentative(s, a, b)
        ctx.tentative = []

    def _drop_tentative(self, s: Sighting, a: int, b: int) -> None:
        if not s.tentative:
            return
        for v in self.ctx.visits:
            for p in v.plants:
                if s in p.sightings:
                    p.sightings.remove(s)
            v.plants[:] = [p for p in v.plants if p.named or not p.empty]
        if s in self.ctx.open:
            self.ctx.open.remove(s)
        self.ctx.mark(a, b, FILLER)

    def _orphans(self) -> None:
        """Places and lengths with nothing named: of what was spoken of last on the plant, or before it."""
        ctx = self.ctx
        what = ctx.last_what if ctx.last_what in {"pods", "seeds", "flowers"} else None
        plants = ctx.plants
        if what is None and plants and not ctx.lengths and "mature_pods" in plants[-1].facts and plants[-1].facts["mature_pods"][-1].span.start >= self.clause_from:
            for x in ctx.places:  # a brown pod near the base: its place is not recorded (guide 4.21)
                self._note_place(x.span)
            ctx.places = []
            return
        if plants and what is None and ctx.visit is not None:
            earlier = [s.what for p in ctx.visit.plants for s in p.sightings]
            what = earlier[-1] if earlier else None
            if ctx.lengths and what == "flowers":
                what = None
        here = bool(plants) and ctx.explicit and plants[-1].span.start >= self.clause_from
        if any(x.bare for x in ctx.lengths) and not here and not (ctx.explicit and any(s.clause >= ctx.clause - 1 for p in plants for s in p.sightings)):
            what = None  # a figure with no unit far from any plant: sample ran 12.4
        if ctx.lengths and what in {None, "flowers"}:
            what = "pods" if here and ctx.finding is None else None
        recent = any(s.clause >= ctx.clause - 1 for p in plants for s in p.sightings)
        if ctx.places and not ctx.lengths and not here and (ctx.finding is not None or not recent):
            what = None
        if plants and what and ctx.correcting is not None and (ctx.lengths or ctx.places):
            old = revise.last_of(ctx, what)
            if old and (all(s.length is not None for s in old) or not ctx.lengths):  # make that half inch
                if ctx.lengths:
                    organs.attach_length(ctx, ctx.lengths[-1], old)
                for pl in ctx.places:
                    organs.attach_place(ctx, pl, old)
                ctx.places, ctx.lengths, ctx.open = [], [], []
                return
        if plants and what and (ctx.lengths or ctx.places):
            spans = [x.span for x in (*ctx.places, *ctx.lengths)]
            organs.look(ctx, what, True, Span(min(s.start for s in spans), max(s.end for s in spans)))
            ctx.open = []
            return
        for x in (*ctx.places, *ctx.lengths):
            for i, p in enumerate(ctx.lattice.pieces):
                if x.span.start <= p.span.start < x.span.end:
                    ctx.mark(i, i + 1, UNREAD, "nothing named at this place" if x in ctx.places else "a length of nothing named")
        ctx.places, ctx.lengths = [], []

    def _note_place(self, span: Span) -> None:
        for i, p in enumerate(self.ctx.lattice.pieces):
            if span.start <= p.span.start < span.end:
                self.ctx.mark(i, i + 1, EVIDENCE)

    # one phrase -----------------------------------------------------------------------------------------------------

    def _phrase(self, ph: Phrase, k: int) -> None:
        ctx = self.ctx
        span = ctx.span(ph.start, ph.end)
        if self.barred and not self._unbars(ph, k):
            ctx.mark(ph.start, ph.end, UNREAD, self.barred)
            return
        if self.negative is not None and ph.start - self.negative[2] > 3:
            _, a, b = self.negative
            ctx.mark(a, b, UNREAD, "a negation with nothing to turn round")
            self.negative = None
        if ph.rule in _OWN | {"noneword"} and self._begins(ph.start) and self.owned is None:
            self.owned = owners.ahead(ctx, ph.start)
            if self.owned is not None:
                ctx.close()
                ctx.plants, ctx.explicit, ctx.group = self.owned.plants, True, None
        used = self._dispatch(ph, span, k)
        took = "evidence" if used is True else "filler" if used == "filler" else "unread"
        ctx.steps.append((span, wording(ph.form), meaning(ph), took, reasons(ph, self.rivals)))
        if took != "unread":
            ctx.repairs += repairs(ctx, ph)
        if used is True:
            ctx.mark(ph.start, ph.end, EVIDENCE)
            if ph.rule in _OWN | {"stage", "label"}:
                self.at_head = False
            if ph.rule not in {"correct"}:
                ctx.link = set()
        elif used == "filler":
            ctx.mark(ph.start, ph.end, FILLER)
        elif used is False:
            ctx.mark(ph.start, ph.end, UNREAD, self._why(ph))
        if ph.rule not in {"date", "stop", "where", "weekday", "goto"}:
            self.after_name = self.after_name and ph.rule in {"planted", "emerged", "rows", "maturity"}
        if ph.rule not in {"date", "filler"}:
            self.line_head = False

    def _begins(self, i: int) -> bool:
        """Only fillers stand between piece i and the mark before it."""
        pieces = self.ctx.lattice.pieces
        while i > 0 and pieces[i - 1].form == "word" and self.ctx.use[i - 1] != EVIDENCE:
            i -= 1
        return i == 0 or pieces[i - 1].form in {"nl", "mark"} or pieces[i - 1].text in {"and", "but"}

    def _why(self, ph: Phrase) -> str:
        return {"stage": "a stage that is not reached, or not of this field", "date": "the date of something else", "trif": "more than a soybean plant has",
                "nodes": "more than a soybean plant has", "length": "a length of nothing named", "place": "nothing named at this place",
                "ratio": "a share of nothing named", "percent": "a share of nothing named"}.get(ph.rule, "out of place")

    def _unbars(self, ph: Phrase, k: int) -> bool:
        if self.barred_limit and ph.start >= self.barred_limit and ph.rule not in {"stage", "where", "length", "place", "findhead"}:
            self.barred = None
            return True
        if ph.rule == "label" and ph.form in {"plant_n", "bare", "plant_ord", "plant_range", "plant_letter"}:
            self.barred = None
            return True
        if self.barred == "another time" and ph.start and self.ctx.lattice.pieces[ph.start - 1].text in {"now", "today"} and ph.rule in _OWN | {"ratio", "stage", "percent", "sampled"}:
            self.barred = None  # was R2 on monday, now 7 of 10 ...
            return True
        if ph.rule == "seeds" and ph.form == "bean_yes" and self.barred == "another crop" and ("COMMA" in self.ctx.link or "BUT" in self.ctx.link):
            self.barred = None
            return True
        return False

    def _past_the_cue(self, s: Segment) -> bool:
        """In a note without stops a cue reaches some words, not to the end."""
        return bool(self.barred_limit) and s.start >= self.barred_limit and s.phrase is not None and s.phrase.rule in {"ratio", "bareint", "percent", "noneword"}

    def _bar(self, ph: Phrase, why: str) -> None:
        self._clear_waiting()
        self.barred = why
        self.barred_from = ph.start
        self.barred_limit = 0
        run = ph.end
        while run < len(self.ctx.lattice.pieces) and not self._hard(run):
            run += 1
        if run - ph.end > 30:  # no stops in this note: a cue reaches some words, not to the end
            self.barred_limit = ph.end + 6
        self.ctx.mark(ph.start, ph.end, UNREAD, why)

    def _bar_back(self, ph: Phrase, k: int, why: str) -> None:
        """A trailing `by friday`: what was said since the clause began is no observation either."""
        ctx = self.ctx
        start = self._clause_start(k)
        for s in list(ctx.statements):
            if s.span.start >= start and s.kind.startswith("stated"):
                s.undo()
                ctx.statements.remove(s)
        for i, p in enumerate(ctx.lattice.pieces):
            if start <= p.span.start < ctx.lattice.pieces[ph.end - 1].span.end and p.form != "nl" and i < ph.end:
                if ctx.use[i] != EVIDENCE or not self._evidence_of_plants(i):
                    ctx.mark(i, i + 1, UNREAD, why)

    def _evidence_of_plants(self, i: int) -> bool:
        at = self.ctx.lattice.pieces[i].span
        visit = self.ctx.visit
        if visit is None:
            return False
        spans = [e.span for p in visit.plants for es in p.facts.values() for e in es] + [x for p in visit.plants for s in p.sightings for x in s.spans]
        spans += [p.span for p in visit.plants] + [t.span for t in visit.tallies] + [f.span for f in visit.findings] + ([visit.name_span] if visit.name_span else [])
        spans += [e.span for e in visit.head.values()]
        return any(s.start <= at.start < s.end for s in spans)

    def _dispatch(self, ph: Phrase, span: Span, k: int) -> bool | str:  # noqa: C901 - one line a rule
        ctx = self.ctx
        rule, f = ph.rule, ph.form
        nxt, links, mark = self.ahead(k)
        if rule == "label":
            return self._label(ph, span, k)
        if rule in {"past", "plan", "othercrop"}:
            return self._cue(ph, span, k)
        if rule == "notvisited":
            before = self.segments[k - 1].phrase if k else None
            if before is not None and before.rule == "label":
                return self._skip_current(ph, span, k)  # p4 skip
            if nxt is not None and nxt.rule == "label" and nxt.start - ph.end <= 1:
                self.barred = None
                ctx.close()
                self.skip_next = True
                return self._skip_label(nxt, span, k)
            self._bar(ph, "a field that was not looked at")
            return True if False else "barred"
        if rule == "goto":
            return "filler"
        if rule in {"fieldcue", "filler"}:
            return "filler"
        if rule == "lost":
            return self._lost(ph, span)
        if rule == "skipit":
            return self._skip_current(ph, span, k)
        if rule == "correct":
            return self._correct(ph, span, k)
        if rule == "call":
            ctx.field_clause = ctx.clause
            return True if nxt is not None and nxt.rule in {"stage", "average", "trif"} or self.in_clause(k, {"stage", "trif"}, -1) else "filler"
        if rule == "average" and nxt is not None and nxt.rule in _ORGANS | {"emergence"} and ctx.lattice.original(ph.start, ph.end).lower().startswith("most"):
            ctx.leave_plants()
            return bool(tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "most", ph.path, 0.0), span))
        if rule == "average":
            ctx.field_clause = ctx.clause
            said = {"trif", "nodes", "stage", "length", "height", "bareint", "ratio", "numlist"}
            return self.in_clause(k, said) is not None or self.in_clause(k, said, -1) is not None
        if rule == "group":
            return self._group(ph, span, k)
        if rule == "stop":
            ctx.here()
            ctx.leave_plants()
            ctx.stop = str(ph.path[1][1].means)
            ctx.tally = None
            self.resume_at = findings.beside_stop(ctx, self.segments, k, self.names)
            return True
        if (rule == "bareint" and ph.path[0][1].kind == "ORD" or f == "ord_day") and self._ordinal_label(ph, span, k):
            return True
        if rule == "date":
            return self._date(ph, span, k)
        if rule == "planted":
            return headers.planted(ctx, ph, span, "planted")
        if rule == "emerged":
            return headers.planted(ctx, ph, span, "emerged")
        if rule == "maturity":
            return headers.maturity(ctx, ph, span)
        if rule == "rows":
            if not self.at_head and ctx.plants and f == "rows" and edges_of(ph, "ROWSUFFIX", "ROWWORD") or (
                    ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text == "of"):  # 15 rows of waterhemp
                return False
            return headers.rows(ctx, ph, span)
        if rule == "variety":
            end = headers.variety(ctx, ph, self.segments, k)
            if end > ph.end:
                ctx.mark(ph.start, end, EVIDENCE)
                self.resume_at = end
                return True
            return False
        if rule in {"same", "dittomark"}:
            return revise.same(ctx, ph, span)
        if rule in {"trif", "nodes"} and (ctx.field_clause == ctx.clause or (nxt is not None and nxt.rule == "average" and not mark)) and (
                not ctx.explicit or self.in_clause(k, {"average"}, -1) or (nxt is not None and nxt.rule == "average")):
            return leaves.average(ctx, ph, span)
        if rule == "emergence" and ctx.tally is not None:
            if ctx.tally.what is None and tallies.finish(ctx, ph, span):
                return True
            if ctx.tally.what is not None and f == "up":
                return "filler"  # 7 of 10 got a pod up in the top four
        if rule == "emergence" and f == "cot_up" and {p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]} & {"under", "below", "beneath", "above"}:
            return False  # cut off under the cots
        if rule in {"trif", "nodes"} and self._on_branches(k):
            ctx.mark(ph.start, ph.end, UNREAD, "on branches only: no evidence for a stage")
            return "barred"
        if rule == "trif":
            if f == "open_n" and not (ctx.plants and any("trifoliates" in p.facts for p in ctx.here().plants)):
                return False
            return self._counted(leaves.trif(ctx, ph, span), span)
        if rule == "topleaf":
            if ctx.tally is not None:
                return False
            return leaves.topleaf(ctx, ph, span)
        if rule == "scars":
            return leaves.scars(ctx, ph, span)
        if rule == "nodes":
            return self._counted(leaves.nodes(ctx, ph, span), span)
        if rule == "emergence" and f == "up" and not ctx.plants:
            return "filler" if ctx.lattice.original(ph.start, ph.end).lower() == "up" else False
        if rule == "emergence" and f == "up" and any("trifoliates" in p.facts for p in ctx.plants):
            return "filler"  # 6th one rolld up
        if rule == "emergence":
            return leaves.emergence(ctx, ph, span)
        if f == "see_alone" and k and self.segments[k - 1].phrase is not None and self.segments[k - 1].phrase.rule == "stage":
            return "filler"  # R1 just barely
        if rule in _ORGANS:
            return self._organ(ph, span, k)
        if rule == "place":
            return self._place(ph, span, k)
        if rule == "length":
            return self._length(ph, span, k)
        if rule == "stage":
            return self._stage(ph, span, k)
        if f == "not_all":
            self._bar(ph, "not all of them: no number")
            return "barred"
        if rule in {"ratio", "percent"}:
            return self._ratio(ph, span, k)
        if rule == "sampled" and k and self.segments[k - 1].phrase is not None and self.segments[k - 1].phrase.rule == "label" and not edges_of(ph, "INT"):  # type: ignore[union-attr]
            return "filler"  # the first plant I pulled
        if rule == "sampled":
            ctx.leave_plants()
            return tallies.sampled(ctx, ph, span)
        if rule == "noneword":
            return self._none(ph, span, k)
        if rule == "bareint":
            return self._bareint(ph, span, k)
        if rule == "notnum":
            return self._notnum(ph, span)
        if rule == "where":
            return self._where(ph, span, k)
        if rule == "moisture":  # soil of which nothing is said
            ctx.mark(ph.start, ph.end, "weak", "nothing said of it")
            return "barred"
        return False

    def _counted(self, used: bool, span: Span) -> bool:
        self.ctx.places, self.ctx.lengths = [], []
        return used

    # labels, groups ---------------------------------------------------------------------------------------------------

    def _label(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        f = ph.form
        another = bool(edges_of(ph, "ANOTHER")) and bool(ctx.lengths)
        if not another:
            self._orphans_before_label()
        nums = numbers_of(ph)
        if f == "plant_ord" and ctx.explicit is False and not ctx.plants and edges_of(ph, "ONE") and False:
            return False
        if ctx.star is not None and ctx.plants:
            return True
        if f in {"plant_n", "plant_ord"}:
            labels = [str(nums[0])]
        elif f == "plant_letter":
            labels = [ctx.lattice.original(ph.path[-1][0], ph.path[-1][0] + 1)]
        elif f == "plant_range":
            labels = [str(n) for n in range(nums[0], nums[1] + 1)] if nums[0] < nums[1] <= nums[0] + 60 else [str(n) for n in nums]
        elif f == "plant_list":
            labels = [str(n) for n in nums]
        elif f == "bare":
            labels = list(ph.path[0][1].means)
            if self.line_head:
                ctx.line_labels = True
        elif f == "next_one" and ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text in {"to", "time", "week", "month", "year", "door"}:
            return "filler"
        elif f == "next_one":
            labels = [ctx.next_label()]
            if not ctx.here().plants and not edges_of(ph, "PLANT", "ONE") and ctx.lattice.original(ph.start, ph.end).lower() in {"next", "another", "the other", "one more"}:
                return "filler"
        elif f in {"first_n", "last_n"}:
            if f == "first_n" and ctx.here().plants or f == "last_n" and not ctx.here().plants:
                return False
            first = int(ctx.next_label()) if ctx.next_label().isdigit() else 1
            labels = [str(first + i) for i in range(int(ph.path[1][1].means))]
        elif f == "next_n":
            first = int(ctx.next_label()) if ctx.next_label().isdigit() else 1
            labels = [str(first + i) for i in range(nums[0])] if nums[0] <= 40 else []
        else:
            return False
        if not labels:
            return False
        if not ctx.explicit and len(ctx.plants) == 1 and len(labels) == 1 and ph.start and ctx.lattice.pieces[ph.start - 1].text in {"on", "of", "for"} and (
                ctx.statements and ctx.statements[-1].span.start >= self.clause_from and f in {"plant_n", "plant_letter"}):
            p = ctx.plants[-1]  # pods at the third node on plant 6
            p.label, p.named, p.span = labels[0], True, span
            ctx.explicit = True
            return True
        if len(labels) == 1 and f in {"plant_n", "plant_ord", "plant_letter", "bare"} and self._puts_right(k) and revise.back_to(ctx, labels[0], span):
            return True
        if ctx.correcting is not None and ctx.plants and len(labels) == 1:
            old = ctx.plants[-1].label
            ctx.plants[-1].label = labels[0]
            ctx.corrected.append(Correction("4.17", ctx.plants[-1].span, f"plant {old} is plant {labels[0]}"))
            ctx.correcting = None
            return True
        if self.line_head and f in {"plant_n", "plant_letter", "plant_range", "plant_list"}:
            ctx.line_labels = True
        moved = ctx.lengths if another else []
        earlier = ctx.plants[-1].sightings[-1:] if another and ctx.plants else []
        ctx.begin(labels, span)
        if moved and earlier:
            for s in organs.look(ctx, earlier[0].what, True, moved[0].span.cover(span)):
                s.length, s.places = moved[0], list(earlier[0].places)
        self._two_labels(ph, span, k, nums)
        ctx.statements.clear()
        return True

    def _puts_right(self, k: int) -> bool:
        """After `correction`, or before `was 12 not 11`, a plant named again is one described before."""
        nxt, links, _ = self.ahead(k)
        if nxt is not None and nxt.rule == "past":  # plant two was 12 not 11
            nxt, _, _ = self.ahead(next(i for i, s in enumerate(self.segments) if s.phrase is nxt))
        if self.ctx.correcting is not None:
            return nxt is not None and nxt.rule in _OWN | {"stage", "length", "bareint", "correct"}
        for s in self.segments[k + 1 : k + 9]:
            if s.phrase is None:
                if self._hard(s.start):
                    return False
            elif s.phrase.form == "n_not_n":
                return True
            elif s.phrase.form in {"r_not_yet", "v_not_yet", "name_not_yet"}:
                return s.phrase.path[0][1].kind == "NOT" and nxt is not None and nxt.rule == "stage" and nxt is not s.phrase
            elif s.phrase.rule == "label":
                return False
        return False

    def _two_labels(self, ph: Phrase, span: Span, k: int, nums: list[int]) -> None:
        """`plant three for ten trifs`: a filler, or plants three and four? (guide 4.7)"""
        ctx = self.ctx
        i = ph.end
        pieces = ctx.lattice.pieces
        if ph.form != "plant_n" or i >= len(pieces) or pieces[i].text not in {"for", "to", "two", "too", "fore"} or not nums:
            return
        value = 4 if pieces[i].text in {"for", "fore"} else 2
        nxt, _, mark = self.ahead(k)
        if nxt is None or mark or nxt.rule not in {"trif", "nodes"} or nxt.start != i + 1 or value != nums[0] + 1:
            return
        whole = span.cover(ctx.span(i, nxt.end))
        p = ctx.plants[-1]
        ctx.ask(Ask("4.7", whole, f"Is this plant {p.label} alone, or plants {p.label} and {value}?",
                    [(f"plant {p.label} alone", {"plant": p.label}), (f"plants {p.label} and {value}", {"plant": [p.label, str(value)]})],
                    p, 0, "plant", always=True))

    def _orphans_before_label(self) -> None:
        self._clear_waiting()
        if self.ctx.places or self.ctx.lengths:
            self._orphans()
        for s, a, b in self.ctx.tentative:
            self._drop_tentative(s, a, b)
        self.ctx.tentative = []

    def _skip_label(self, nxt: Phrase, span: Span, k: int) -> bool | str:
        if self._damage_ahead(k) and numbers_of(nxt):  # skip plant 2, it's cut off
            for left_out in self.ctx.begin([str(n) for n in numbers_of(nxt)], self.ctx.span(nxt.start, nxt.end)):
                left_out.dropped = True
            self.ctx.mark(nxt.start, nxt.end, EVIDENCE)
            self.resume_at = nxt.end
            return "filler"
        self.barred = "a plant that was skipped"
        self.resume_at = nxt.end
        self.ctx.mark(nxt.start, nxt.end, UNREAD, self.barred)
        self.ctx.mark(self.ctx.lattice and nxt.start, nxt.end, UNREAD, self.barred)
        for i, p in enumerate(self.ctx.lattice.pieces):
            if span.start <= p.span.start < span.end:
                self.ctx.mark(i, i + 1, UNREAD, self.barred)
        return "barred"

    def _damage_ahead(self, k: int) -> bool:
        """Before the next plant or the end of the clause it is said what happened to the plant."""
        labels = 0
        for s in self.segments[k + 1 : k + 12]:
            if s.phrase is None:
                if self._hard(s.start):
                    return False
            elif s.phrase.rule == "lost" or s.phrase.rule == "findhead" and s.phrase.path[0][1].kind == "DAMAGE":
                return True
            elif s.phrase.rule == "label":
                labels += 1
                if labels > 1:
                    return False
        return False

    def _lost(self, ph: Phrase, span: Span) -> bool:
        """`plant 2 dead`: no plant, and a finding of damage (guide 4.17)."""
        ctx = self.ctx
        if not ctx.plants or not ctx.explicit or not all(p.empty for p in ctx.plants):
            return False
        if not self._ends_at(ph.end) and ctx.lattice.pieces[ph.end].text not in {"so", "and", "skip", "skipped", "skipping"}:
            return False  # plant 2 missing the top
        findings.add(ctx, "damage", str(ph.path[0][1].means), span)
        revise.hurt(ctx, ph.start)
        return True

    def _group(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        visit = ctx.visit
        f = ph.form
        if ph.start in self.groups_done:
            return True
        if f == "group_rest":
            if visit is not None and visit.tallies:
                nxt, _, _ = self.ahead(k)
                self._close_tally()
                return bool(tallies.rest(ctx, span))
            return "filler"
        live = ctx.living()
        nums = numbers_of(ph)
        text = ctx.lattice.original(ph.start, ph.end).lower()
        behind = bool(ctx.open) and ctx.open_end >= ph.start - 1 and (ctx.lattice.pieces[ph.start - 1].text in {"on", "in", "of"} or text.startswith(("on ", "in ")))
        if f in {"group_both", "group_none"} and behind and len(live) > 1:  # pods on both, seed in neither
            if f == "group_none":
                for s in ctx.open:
                    if s.length is not None or s.fill is not None:
                        return False
                    s.present = False
            self._spread(ctx.open, live, 2 if text.endswith(("both", "neither")) else None)
            return True
        if f == "group_both":  # both R3; all flowering
            nxt, _, mark = self.ahead(k)
            if len(live) < 2 or mark or nxt is None or nxt.rule not in _OWN - {"emergence"} | {"stage"} or not self._begins(ph.start):
                return "filler"
            if nxt.start == ph.end and ctx.lattice.pieces[ph.end].text.endswith("s"):
                return "filler"  # both pods: of one plant
            ctx.group, ctx.group_span, ctx.group_n = "all", span, 2 if text == "both" else None
            ctx.close()
            return True
        if f == "group_none" and text == "neither" and ph.end < len(ctx.lattice.pieces) and any(
                e.kind in {"FLOWER", "POD", "SEED"} and e.end == ph.end + 1 for e in ctx.lattice.edges[ph.end]):
            self.negative = (span, ph.start, ph.end)  # neither flowers nor pods
            return True
        of_plants = "plant" in text or text in {"all of them", "all of these", "all of those", "every one", "every one of them", "each one", "them all", "every last one", "every single one"}
        if not live and f == "group_all" and of_plants and ctx.tally is None:
            nxt, _, mark = self.ahead(k)
            if nxt is not None and nxt.rule in _ORGANS | {"stage", "emergence"}:
                ctx.leave_plants()
                return bool(tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "all_plants", ph.path, 0.0), span))
        if not live and f == "group_n":
            nxt, _, mark = self.ahead(k)
            if nxt is not None and nxt.rule in _ORGANS | {"stage", "emergence"} and nums:
                t = tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "all_plants", ph.path, 0.0), span)
                if t is not None:
                    t.count, t.of, t.percent = float(nums[0]), float(nums[0]), 100.0
                    return True
        if not live:
            return "filler"
        n = nums[0] if nums else 2 if text.split()[-1] == "both" or {"either", "both", "neither"} & set(text.split()) else None
        if f == "group_n" and (n is None or n > len(live)):
            return "filler"
        # "on all of them" after the statement reaches back; before it, forward
        last = ctx.statements[-1] if ctx.statements else None
        nxt, _, mark = self.ahead(k)
        text = ctx.lattice.original(ph.start, ph.end).lower()
        backward = text.startswith(("on ", "of ")) or "any of" in text or text in {"all of it", "every one"} or nxt is None or nxt.rule == "label" or (
            ctx.open and ctx.open_end == ph.start)
        if backward and ctx.open and last is not None and last.kind in {"flowers", "pods", "seeds"}:
            self._spread(ctx.open, live, n)
            return True
        if backward and last is not None and last.plant is not None and last.span.start >= self._clause_start(k):
            key = last.kind
            e = last.plant.last(key)
            if e is not None and key not in {"trifoliates", "nodes"}:
                for p in live:
                    if p.last(key) is None:
                        p.put(key, e.value, e.span.cover(span), group=True)
                return True
        ctx.group = "none" if f == "group_none" else "all"
        ctx.group_span = span
        ctx.group_n = n
        ctx.close()
        return True

    def _spread(self, sightings: list[Sighting], live: list[Any], n: int | None) -> None:
        import copy

        owners = live[-n:] if n and n < len(live) else live
        source = sightings[0]
        source.group = True
        for p in owners:
            if not any(s is source or s in sightings for s in p.sightings):
                c = copy.deepcopy(source)
                c.group = True
                p.sightings.append(c)
                self.ctx.open.append(c)

    def _on_branches(self, k: int) -> bool:
        """`branches have 3 trifs`: a count of branches, not of the main stem."""
        for s in reversed(self.segments[max(0, k - 4) : k]):
            if s.phrase is None:
                p = self.ctx.lattice.pieces[s.start]
                if p.form != "word" or not self.ctx.lattice.filler[s.start] and not any(e.kind == "HAS" for e in self.ctx.lattice.edges[s.start]):
                    return False
            else:
                return s.phrase.form == "branch"
        return False

    def _leaf_before(self, ph: Phrase) -> bool:
        """Leaf edges that touch are no seeds that touch."""
        pieces = self.ctx.lattice.pieces
        for i in range(ph.start - 1, max(-1, ph.start - 9), -1):
            if pieces[i].form == "nl" or pieces[i].text in {".", ";"}:
                return False
            if any(e.kind in {"LEAF", "TRIF", "TRIPS", "UNI"} for e in self.ctx.lattice.edges[i]):
                return True
        return False

    def _hurt(self, k: int) -> bool:
        """Hail or disease in the same clause, before the next plant or the next thing seen."""
        for step in (-1, 1):
            j, seen = k + step, 0
            while 0 <= j < len(self.segments) and seen < 9:
                s = self.segments[j]
                seen += 1
                if s.phrase is None:
                    if self._hard(s.start) or self.ctx.lattice.pieces[s.start].text == ",":
                        break
                    if self.ctx.lattice.pieces[s.start].text in {"hail", "ice", "hit", "diseased", "bruised", "rotten", "dead", "moldy"}:
                        return True
                elif s.phrase.rule == "findhead" and s.phrase.path[0][1].kind in {"DAMAGE", "DISEASE"}:
                    return True
                elif s.phrase.rule in {"label", "pods", "seeds", "flowers", "podshare"}:
                    break
                j += step
        return False

    def _skip_current(self, ph: Phrase, span: Span, k: int) -> bool | str:
        """`skip it`: the plant just named is no plant."""
        ctx = self.ctx
        if not ctx.plants:
            return "filler"
        last = ctx.visit.findings[-1] if ctx.visit is not None and ctx.visit.findings else None
        if last is not None and last.kind == "damage" and last.span.start > ctx.plants[-1].span.start and all(p.empty for p in ctx.plants):
            for p in ctx.plants:
                p.dropped = True
            ctx.leave_plants()
            return "filler"  # it is told by what happened to it
        for p in ctx.plants:
            p.dropped = True
            for i, piece in enumerate(ctx.lattice.pieces):
                if p.span.start <= piece.span.start < p.span.end:
                    ctx.mark(i, i + 1, UNREAD, "a plant that was skipped")
        ctx.asks = [a for a in ctx.asks if a.plant not in ctx.plants or a.rule == "8"]
        ctx.leave_plants()
        ctx.mark(ph.start, ph.end, UNREAD, "a plant that was skipped")
        return "barred"

    def _ahead_group(self, group: Phrase) -> None:
        """`no blooms on any of them`: what is said now is of all plants of the visit."""
        ctx = self.ctx
        nums = numbers_of(group)
        ctx.group = "none" if group.form == "group_none" else "all"
        ctx.group_n = nums[0] if nums else None
        ctx.group_span = ctx.span(group.start, group.end)
        ctx.open = []
        ctx.mark(group.start, group.end, EVIDENCE)
        self.groups_done.add(group.start)

    def _group_after(self, k: int) -> Phrase | None:
        """A group named at the end of this statement: `flowers clear to the tip on all of them`."""
        for s in self.segments[k + 1 : k + 10]:
            if s.phrase is None:
                p = self.ctx.lattice.pieces[s.start]
                if p.form == "mark" or p.form == "nl" or not self.ctx.lattice.filler[s.start]:
                    return None
            elif s.phrase.form == "pod_yes" and self.segments[k].phrase is not None and self.segments[k].phrase.rule == "seeds":  # type: ignore[union-attr]
                pass
            elif s.phrase.rule == "group":
                return s.phrase if s.phrase.form in {"group_all", "group_n"} else None
            elif s.phrase.rule not in {"place", "length", "state", "filler"} or s.phrase.form in {"branch", "main_stem"}:
                return None
        return None

    def _ordinal_label(self, ph: Phrase, span: Span, k: int) -> bool:
        """`Fourth, five trifs`: an ordinal at the head of an item counts on from the label before."""
        ctx = self.ctx
        n = numbers_of(ph)[0]
        if ctx.visit is None or not ctx.visit.plants or ctx.next_label() != str(n) or not self._clause_is_fresh(k):
            return False
        nxt, _, _ = self.ahead(k)
        if nxt is None or nxt.rule not in _OWN | {"stage", "same"}:
            return False
        ctx.begin([str(n)], span)
        return True

    # cues -------------------------------------------------------------------------------------------------------------

    def _cue(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        means = str(ph.path[0][1].means)
        text = ctx.lattice.original(ph.start, ph.end).lower()
        if ph.rule == "othercrop":
            if text in {"neighbor", "neighbors"} and False:
                return False
            kind = ph.path[0][1].kind
            self._bar(ph, "another crop" if kind == "OTHERCROP" else "not this field")
            return "barred"
        if ph.rule == "past":
            if text in {"was", "were", "had been"}:
                later = self.in_clause(k, {"past"}) or self.in_clause(k, {"date"})
                later = None if later is not None and later.form == "today" else later
                nxt, _, _ = self.ahead(k, 3)
                if later is None or nxt is None or nxt.rule not in {"stage", "date", "past", "flowers", "pods"}:
                    return "filler"
                self._bar(ph, "another time")
                return "barred"
            if text in {"since"}:
                self._bar(ph, "another time")
                return "barred"
            self._bar_back(ph, k, "another time")
            self._bar(ph, "another time")
            return "barred"
        if self.in_clause(k, {"correct"}) is not None and (self.ahead(k)[0] or ph).form == "n_not_n":
            return "filler"  # plant 1 should be 9 not 10
        if means == "back":
            self._bar_back(ph, k, "not yet seen")
        self._bar(ph, "planned, expected or said by somebody else")
        return "barred"

    def _correct(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        f = ph.form
        nxt, links, mark = self.ahead(k)
        if f == "n_not_n":
            a, b = numbers_of(ph)[:2]
            return revise.put_number(ctx, b, a, span)
        if ph.start == self.false_start:  # 11, no, 12 trifs: no count of the plant was said before
            return True
        said = ctx.lattice.original(ph.start, ph.path[0][1].end).lower()
        if f in {"cue", "cue_n"} and said.startswith("no") and said.endswith(",") and not self._goes_over(nxt, f):
            self.negative = (ctx.span(ph.start, ph.start + 1), ph.start, ph.start + 1)  # pods? no, ...
            return False
        if f == "take_back" and said in {"scratch", "strike"} and not self._alone(ph):
            return False
        if f == "star" and not self.line_head and self._clause_is_fresh(k) and ctx.plants and ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].glued:
            ctx.star = span  # plant 1 11 trifs. *12 trifs
            return True
        if f == "star":
            if not self.line_head:
                return "filler"
            ctx.star = span
            visit = ctx.visit
            live = [p for p in visit.plants if not p.dropped] if visit else []
            if not live:
                return "filler"
            target = live[-1]
            for s in self.segments[k + 1 : k + 8]:
                if s.phrase is None and self._hard(s.start):
                    break
                nth = [e.means for e in ctx.lattice.edges[s.start] if e.kind == "ORD"]
                if nth and target is live[-1] and visit is not None and visit.plant(str(nth[0])) is not None and s.phrase is None:
                    target = visit.plant(str(nth[0])) or target
                    ctx.mark(s.start, next(e.end for e in ctx.lattice.edges[s.start] if e.kind == "ORD"), EVIDENCE)
                if s.phrase is not None and s.phrase.rule in {"bareint", "label"}:
                    label = str(numbers_of(s.phrase)[0]) if numbers_of(s.phrase) else ""
                    found = visit.plant(label) if visit else None
                    if found is not None:
                        target = found
            ctx.plants = [target]
            ctx.explicit = True
            return True
        if f == "take_back":
            whole = bool({ctx.lattice.pieces[s.start].text for s in self.segments[k + 1 : k + 8] if s.phrase is None} & _BACK_IN_BRANCH) or bool(
                self._branch_ahead(k))
            if nxt is not None and nxt.rule == "bareint" and nxt.path[0][1].kind == "INT" and not whole and self._ends_at(nxt.end) and ctx.statements and ctx.statements[-1].put is not None:
                ctx.correcting = span  # scratch that, 12
                return True
            if nxt is not None and nxt.rule in {"trif", "nodes", "stage"} and not whole and any(s.kind == self._kind_of(nxt) for s in ctx.statements) and not mark:
                ctx.taking_back = span
                return True
            revise.take_back(ctx, span, whole)
            if whole:
                self._reason(k)
            return True
        if f == "cue":
            if nxt is None or (nxt.rule not in {"trif", "nodes", "stage", "place", "length", "label", "flowers", "pods", "seeds", "state", "percent", "podshare",
                                                "topleaf", "date", "bareint", "correct", "emergence", "findhead", "same"}):
                return "filler"
            ctx.correcting = span
            return True
        # a bare number or ordinal after the cue
        if f == "cue_n":
            n = numbers_of(ph)[0]
            for s in reversed(ctx.statements):
                if s.put is not None:
                    ctx.corrected.append(Correction("4.17", s.span, f"replaced by {n}"))
                    s.put(n)
                    self._move_span(s, span)
                    return True
            for sight in ctx.open:
                if sight.length is not None or sight.count_int is not None:
                    return False
            if ctx.plants and ctx.plants[-1].last("mature_pods_percent"):
                e = ctx.plants[-1].last("mature_pods_percent")
                if e is not None:
                    ctx.corrected.append(Correction("4.17", e.span, f"{e.value:g} replaced by {n}"))
                    e.value, e.span = float(n), span
                    return True
            return False
        if f == "cue_ord":
            n = numbers_of(ph)[0]
            if ctx.open and ctx.open[0].places:
                for sight in ctx.open:
                    old = sight.places[-1]
                    sight.places[-1] = type(old)(old.form, (n,), span)
                    sight.spans.append(span)
                ctx.corrected.append(Correction("4.17", old.span, f"replaced by {n}"))
                return True
            return False
        return False

    def _ends_at(self, i: int) -> bool:
        pieces = self.ctx.lattice.pieces
        return i >= len(pieces) or pieces[i].form in {"mark", "nl"}

    def _alone(self, ph: Phrase) -> bool:
        """Nothing but this stands between two marks."""
        return self._ends_at(ph.end) and (not ph.start or self.ctx.lattice.pieces[ph.start - 1].form in {"mark", "nl"})

    def _goes_over(self, nxt: Phrase | None, form: str) -> bool:
        """After `no,` comes another value of what was said last."""
        ctx = self.ctx
        last = ctx.statements[-1] if ctx.statements else None
        if last is None:
            return False
        if form == "cue_n":
            return last.put is not None
        if nxt is not None and nxt.rule == "bareint":
            return last.put is not None and self._ends_at(nxt.end)
        if nxt is not None and nxt.rule == "length":
            return any(s.length is not None for s in ctx.open or revise.last_of(ctx, ctx.last_what or ""))
        return nxt is not None and nxt.rule in {"trif", "nodes", "stage"} and last.kind == self._kind_of(nxt)

    def _reason(self, k: int) -> None:
        """`scratch that, I was on a branch`: why it was taken back is no content."""
        words = [s for s in self.segments[k + 1 : k + 9]]
        for n, s in enumerate(words):
            if s.phrase is None and (self._hard(s.start) or not self.ctx.lattice.pieces[s.start].text):
                return
            if s.phrase is not None and s.phrase.form == "branch" or s.phrase is None and self.ctx.lattice.pieces[s.start].text in _BACK_IN_BRANCH:
                self.ctx.mark(words[0].start, s.end, FILLER)
                self.resume_at = s.end
                return
            if s.phrase is not None and s.phrase.rule not in {"filler", "past", "goto", "where"}:
                return

    def _move_span(self, s: Any, span: Span) -> None:
        if s.plant is not None:
            e = s.plant.last(s.kind)
            if e is not None:
                e.span = span

    def _branch_ahead(self, k: int) -> bool:
        p = self.in_clause(k, {"place"})
        return p is not None and p.form == "branch"

    def _kind_of(self, ph: Phrase) -> str:
        return {"trif": "trifoliates", "nodes": "nodes"}.get(ph.rule, "stated_r" if ph.form.startswith(("r", "name")) else "stated_v")

    # header -----------------------------------------------------------------------------------------------------------

    def _date(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        nxt, links, mark = self.ahead(k)
        if ph.form == "md" and nxt is not None and not mark and len(ph.path) == 3:
            a, b = (int(e.means) for _, e in (ph.path[0], ph.path[2]))
            slash = ph.path[1][1].kind == "SLASH"
            said_at = "AT" in links or ctx.lattice.pieces[nxt.start].text in {"at", "@"}
            positive = nxt.form in {"fl_yes", "pod_yes", "n_brown", "seed_yes"} or (nxt.rule == "stage" and said_at)
            if not slash and positive and a <= b and b >= 2 and nxt.start - ph.end <= 2 and not self.after_name:
                ctx.here()
                day = headers.read_day(ph, headers._base(ctx), ctx.day_first)
                ctx.ask(Ask("4.16", span, f"Is {a}-{b} {a} plants of {b}, or a date?",
                            [("the date", {"date": day.iso if day else None}), (f"{a} of {b} plants", {"tally": f"{a} of {b}"})], None, 0, "tally", always=True))
            if slash and positive and a <= b and b >= 2 and nxt.start - ph.end <= 2:
                fake = Phrase(ph.start, ph.end, "ratio", "n_slash_m", ph.path, 0.0)
                named = self.after_name
                t = tallies.start(ctx, fake, span)
                if t is not None and named and ctx.page_date is None:
                    whole = span
                    day = headers.read_day(ph, headers._base(ctx), ctx.day_first)
                    t.of = b
                    ctx.ask(Ask("4.16", whole, f"Is {a}/{b} {a} plants of {b}, or a date?",
                                [(f"{a} of {b} plants", {"tally": f"{a} of {b}"}), ("the date", {"date": day.iso if day else None, "tally": None})],
                                None, 0, "tally", always=True))
                return True
        if ph.form == "md" and len(ph.path) == 3 and not self.at_head:
            a, b = (int(e.means) for _, e in (ph.path[0], ph.path[2]))
            if ph.path[1][1].kind == "SLASH" and b in {2, 4, 8, 16} and a < b and not self.after_name and not self.line_head and (
                    ctx.plants or ctx.open):  # 3/8 amid pods is no date
                fake = Phrase(ph.start, ph.end, "length", "len_bare", ((ph.start, Edge(ph.end, "FRAC", Fraction(a, b), 0.0, "exact")),), 0.0)
                return self._length(fake, span, k)
        before = ph.start - 1
        while before > 0 and ctx.lattice.pieces[before].text == "the":
            before -= 1
        if before >= 0 and ctx.lattice.pieces[before].text in {"by", "until", "till", "til", "before", "after", "since"} or (
                ph.form in {"today", "yesterday"} and not (self.at_head or self.after_name or self._begins(ph.start))):
            return False  # the day of something else
        if ctx.correcting is not None and headers.correct_date(ctx, ph, span, self.clause_from):
            return True
        if ph.form == "ord_day" and not self._ends_at(ph.end) and not (nxt is not None and nxt.rule in {"label", "planted", "emerged", "stop", "rows", "maturity"}) and (
                ph.end not in self.names) and not (
                self.after_name and ph.start > 1 and ctx.lattice.pieces[ph.start - 2].text == "on" and ph.end < len(ctx.lattice.pieces) and (
                    ctx.lattice.filler[ph.end] or ctx.lattice.pieces[ph.end].text in {"and", "but"})):
            return False  # the 13th row
        if ph.form == "weekday" and ctx.lattice.pieces[ph.start].text == "last" and not self._stands_alone(ph, nxt):
            return self._cue(Phrase(ph.start, ph.end, "past", "past", ph.path, ph.cost), span, k)  # last monday it was R2
        k_before = ph.start - 1
        if k_before >= 0 and ctx.lattice.pieces[k_before].form == "word" and ctx.use[k_before] == UNREAD:
            self.line_head = False  # rotary hoed June 10: the date of something else
        if self.line_head and ph.rule == "date" and self._name_after(k) and headers.entry_date(ctx, ph, span):
            self.at_head = True
            return True
        used = headers.take_date(ctx, ph, span, at_head=self.at_head, line_head=self.line_head, after_name=self.after_name)
        if used and (ctx.visit is None or ctx.visit.empty):
            self.at_head = True
        if not used and ph.form in {"weekday", "today", "yesterday", "ord_day"}:
            return "filler" if ph.form == "today" else False
        return used

    def _stands_alone(self, ph: Phrase, nxt: Phrase | None) -> bool:
        """A day that heads what follows: a mark, a line's end or a plant comes next."""
        pieces = self.ctx.lattice.pieces
        if not (self.at_head and (self.line_head or self.after_name)):
            return False
        return ph.end < len(pieces) and pieces[ph.end].form in {"nl", "mark"} or nxt is not None and nxt.start == ph.end and nxt.rule in {"label", "planted", "stop"}

    def _name_after(self, k: int) -> bool:
        """A field is named next on this line, with no more than marks and fillers between."""
        for s in self.segments[k + 1 : k + 5]:
            if s.start in self.names:
                return self.names[s.start].seen
            p = self.ctx.lattice.pieces[s.start]
            if p.form == "nl" or not (p.form == "mark" or self.ctx.lattice.filler[s.start] or s.phrase is not None and s.phrase.rule == "filler"):
                return False
        return False

    # organs -----------------------------------------------------------------------------------------------------------

    def _organ(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        nxt, links, mark = self.ahead(k)
        if ctx.tally is not None and ctx.tally.what == "R5" and ph.form == "pod_yes" and "IN" in ctx.link and not ctx.plants:
            ctx.tally.span = ctx.tally.span.cover(span)
            return True  # 7 of 12 have seed in the pods
        if ctx.tally is None or ctx.tally.what is not None:
            tallies.counted(ctx, ph, span, self.clause_from)  # 10 plants, 3 flowering
        if ctx.tally is not None and ctx.tally.what is None:
            if ph.rule == "seeds" and self.in_clause(k, {"emergence"}) is not None:
                return "filler"  # 41 of the 50 seeds I flagged are up
            if tallies.finish(ctx, ph, span):
                ctx.open = []
                return True
        before = ctx.lattice.pieces[ph.start - 1].text if ph.start else ""
        whole = ph.form == "fl_past" and ctx.lattice.pieces[ph.start].text in {"all", "both"} and self._begins(ph.start)  # all done flowering
        if (whole or before in {"all", "both"} and self._begins(ph.start - 1)) and len(ctx.living()) > 1 and (self.line_head or not ctx.explicit or ctx.plants[-1:] and ctx.plants[-1].span.start < self.clause_from):
            ctx.close()
            ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start - (not whole), ph.end)
        group = self._group_after(k)
        if group is not None and ctx.visit is not None and any(not q.dropped for q in ctx.visit.plants):
            self._ahead_group(group)
        elif nxt is not None and not mark and nxt.rule in {"ratio", "percent"} and not ctx.explicit and ph.rule in {"flowers", "pods", "seeds"} and nxt.form in {
                "n_of_m", "pct", "half", "most", "n_of_them"} and nxt.start - ph.end <= 2:
            after = self.in_clause(k + 1, _ORGANS | {"stage"})
            if (after is None or after.start > nxt.end + 3) and tallies.start(ctx, nxt, ctx.span(nxt.start, nxt.end)) is not None and tallies.finish(ctx, ph, span):
                self.resume_at = nxt.end
                ctx.mark(ph.start, nxt.end, EVIDENCE)
                return True
        if ctx.tally is not None and ctx.tally.what is not None and ph.rule == "state" and ph.form == "full" and ctx.tally.what in {"R5", "R3"}:
            ctx.tally.what = "R6"
            ctx.tally.span = ctx.tally.span.cover(span)
            return True
        if ctx.tally is not None and ctx.tally.what == "R3" and ph.rule == "state" and ph.form in {"brown", "n_brown"}:
            ctx.tally.what = "R7"
            ctx.tally.span = ctx.tally.span.cover(span)
            return True
        if ctx.tally is not None and ctx.tally.what == "R3" and ph.form == "pod_flat":
            ctx.tally.what = "R4"
            ctx.tally.span = ctx.tally.span.cover(span)
            return True
        negative = self.negative
        if negative is not None and ph.rule in {"flowers", "pods", "seeds"}:
            self.negative = None
            ctx.mark(negative[1], negative[2], EVIDENCE)
            if ph.form in {"fl_yes", "pod_yes", "seed_yes", "seed_count", "bean_yes", "seed_small"}:
                organs.look(ctx, ph.rule, False, negative[0].cover(span))
                ctx.open_end = ph.end
                return True
        if self.number is not None and ph.rule in {"flowers", "pods", "seeds"}:
            ctx.mark(self.number[2], self.number[3], EVIDENCE)
            self.number = None
        if ph.rule == "seeds" and ph.form == "bean_yes" and nxt is not None and nxt.rule in {"height", "findhead", "moisture", "stage", "call"}:
            return "filler"
        if ctx.group == "none" and ph.rule in {"flowers", "pods", "seeds"}:
            organs.look(ctx, ph.rule, False, (ctx.group_span or span).cover(span))
            ctx.open_end = ph.end
            return True
        if ph.rule == "podshare" and self._hurt(k):
            ctx.mark(ph.start, ph.end, UNREAD, "not a normal pod: no evidence for a stage")
            return "barred"
        if ph.rule == "state" and ph.form == "full" and not (ctx.open and ctx.open[0].what in {"pods", "seeds"}) and self._leaf_before(ph):
            return False
        if ph.rule == "state" and ph.form == "green" and not (ctx.open and ctx.open[0].what in {"pods", "seeds"}) and any(
                e.kind == "MAINSTEM" for i in range(max(0, ph.start - 3), ph.start) for e in ctx.lattice.edges[i]):
            return False  # the stem is still green
        if ph.rule == "state":
            if ph.form == "pods_brown" and not ctx.plants and self._shares_follow(k):
                ctx.pods_brown_head = True
                return True
            if ph.form == "pods_brown" and ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text == ":" and nxt is not None and nxt.rule == "label":
                ctx.pods_brown_head = True
                return True
            hurt = self._hurt(k)
            used = organs.state(ctx, ph, span, hurt)
            if hurt and not used and ph.form in {"brown", "n_brown"}:
                ctx.mark(ph.start, ph.end, UNREAD, "not a normal pod: no evidence for a stage")
                return "barred"
            ctx.open_end = ph.end
            return used
        if ph.form == "pod_yes" and nxt is not None and nxt.rule == "length" and "IN" in ctx.link and ctx.open and ctx.open[0].what == "seeds":
            seeds = ctx.open  # seed of 2 mm in a pod of 3 cm: two things, and what place follows is of both
            ctx.link.discard("IN")
            if ctx.lengths:
                organs.attach_length(ctx, ctx.lengths.pop(), seeds)
            organs.pods(ctx, ph, span)
            ctx.open = [*ctx.open, *seeds]
            ctx.open_end = ph.end
            return True
        handler = {"flowers": organs.flowers, "pods": organs.pods, "seeds": organs.seeds, "state": organs.state, "podshare": organs.podshare}[ph.rule]
        used = handler(ctx, ph, span)
        ctx.open_end = ph.end
        return used

    def _shares_follow(self, k: int) -> bool:
        """`pods brown at Saltworks east - 1: 98, 2: 100`: plants and figures of which no thing is named."""
        ahead = [s.phrase for s in self.segments[k + 1 : k + 14] if s.phrase is not None and s.phrase.rule != "filler"]
        labelled = [(a, b) for a, b in zip(ahead, ahead[1:]) if a.rule == "label" and b.rule == "bareint"]
        return len(labelled) >= 2

    def _place(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        nxt, links, mark = self.ahead(k)
        f = ph.form
        t = ctx.tally
        if t is not None and t.what is not None and (not ctx.plants or not ctx.open):
            pl = organs.place(ph, span)
            if t.what == "R1" and (f in {"top_1", "up_top", "below_top", "all_up"} or f in {"top_n", "top_two"} and (pl.numbers or (2,))[0] <= 2
                                   or f == "ord_down" and pl.numbers[0] <= 2) and not t.negative:
                t.what = "R2"
            elif t.what == "R3" and f == "lower":
                t.what = "R1"
            t.span = t.span.cover(span)
            return True
        if t is not None and t.what is None and f in {"lower"} and t.exclusive:
            earlier = [x for x in ctx.here().tallies]
            if earlier and earlier[-1].what in {"R2", "R1"}:
                t.what = "R1"
                t.span = t.span.cover(span)
                ctx.here().tallies.append(t)
                for x in earlier:
                    x.exclusive = True
                return True
        if f == "bare_top":
            if ctx.open and ctx.open_end == ph.start and nxt is None:
                organs.attach_place(ctx, organs.Place("up_top", (), span), ctx.open)
                return True
            return "filler"
        if f == "no_n" and not (links & {"HAS"} and nxt is not None and nxt.rule in {"flowers", "pods", "seeds"}) and not self._at_before(ph) and not (
                ctx.open and ctx.open[0].what in {"flowers", "pods"} and self._at_before(ph)):
            return False
        if self.negative is not None and f in {"main_stem", "branch"} and ctx.last_what:
            self.negative, neg = None, self.negative
            ctx.mark(neg[1], neg[2], EVIDENCE)
            organs.look(ctx, ctx.last_what, False, neg[0].cover(span))
            return True
        if self.negative is not None and mark and not ctx.open:
            _, a, b = self.negative  # nothing up top, flowers down low
            ctx.mark(a, ph.end, UNREAD, "a negation with nothing to turn round")
            self.negative = None
            return "barred"
        if f == "branch" and not ctx.open and ctx.statements and ctx.statements[-1].kind in {"trifoliates", "nodes"} and ctx.statements[-1].span.start >= self.clause_from \
                and self._joined(ctx.statements[-1].span.end, ph.start):
            last = ctx.statements.pop()  # 3 trifs on the branch
            last.undo()
            self._unsay(last.span.cover(span), "on branches only: no evidence for a stage")
            return "barred"
        pl = organs.place(ph, span)
        forward = nxt is not None and nxt.rule in {"flowers", "pods", "seeds"} and (bool(links & {"HAS"}) or not ctx.open)
        if forward and nxt is not None and not links & {"HAS"} and mark and not ctx.open and False:
            forward = False
        if f == "lower" and ph.end < len(ctx.lattice.pieces) and any(e.kind == "LEAF" for e in ctx.lattice.edges[ph.end]):
            return "filler"
        if f == "lower" and ctx.open and ctx.open[0].present is False and any(x.form in {"up_top", "top_n", "top_two", "top_four", "top_1", "near_top"} for x in ctx.open[0].places):
            for s2 in organs.look(ctx, ctx.open[0].what, True, span):
                s2.places.append(pl)
            ctx.open_end = ph.end
            return True
        if f == "branch" and ctx.statements and ctx.statements[-1].kind == "mature_pods" and (
                not ctx.open or ctx.statements[-1].span.start > ctx.open[0].span.start):
            last = ctx.statements.pop()
            last.undo()
            self._unsay(last.span.cover(span), "on branches only: no evidence for a stage")
            return "barred"
        if f == "branch" and ctx.open and nxt is not None and nxt.rule in _ORGANS and not mark and self._begins(ph.start):
            ctx.mark(ph.start, nxt.end, UNREAD, "on branches only: no evidence for a stage")
            self.resume_at = nxt.end
            return "barred"
        if forward and mark and ctx.open and ctx.open[0].present and ctx.open_end >= ph.start - 2 and nxt is not None and nxt.form in {"seed_no", "pod_no", "fl_no"}:
            forward = False  # a pod on the second node down, with no seed
        if ctx.open and not (forward and links & {"HAS"} and ("COMMA" in ctx.link or mark or self._fresh_place(k))):
            organs.attach_place(ctx, pl, ctx.open)
            ctx.open_end = ph.end
            return True
        if f == "main_stem" and not ctx.open:
            return True
        if ctx.plants or forward or ctx.group:
            ctx.places.append(pl)
            return True
        return False

    def _unsay(self, span: Span, why: str) -> None:
        for i, piece in enumerate(self.ctx.lattice.pieces):
            if span.start <= piece.span.start < span.end:
                self.ctx.mark(i, i + 1, UNREAD, why)

    def _fresh_place(self, k: int) -> bool:
        s = self.segments[k - 1] if k else None
        return s is None or (s.phrase is None and self.ctx.lattice.pieces[s.start].form == "mark") or (s.phrase is not None and s.phrase.rule == "label")

    def _at_before(self, ph: Phrase) -> bool:
        return ph.start > 0 and self.ctx.lattice.pieces[ph.start - 1].text in {"at", "on", "to", "from", "@"}

    def _length(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        nxt, links, mark = self.ahead(k)
        units = [e.kind for _, e in ph.path if e.kind in {"INCH", "MM", "CM", "FOOT", "MILSOUND"}]
        if ph.start < ctx.form_aside:
            return False  # rain? .4
        if units == ["INCH"] and self._between_rows(ph, k):
            ctx.here().head["row_spacing_in"] = Entry(next(float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC"}), span)
            return True
        if "FOOT" in units:
            if self.number is not None and not ctx.open:
                return False
            return False
        length = organs.read_length(ph, span)
        if length is None:
            return False
        low = length.mm if isinstance(length.mm, float) else length.mm[1]
        if low > 100:
            return False
        takes_left = bool(ctx.open) and ctx.open[0].what in {"pods", "seeds"} and ctx.open[0].present is not False and (
            ctx.open[0].length is None or ctx.correcting is not None)
        head_next = nxt is not None and nxt.rule in {"pods", "seeds"} and nxt.form in {"pod_yes", "seed_yes", "bean_yes", "pod_flat"} and not mark and not links & {"BUT"}
        adjacent_right = head_next and nxt is not None and nxt.start - ph.end <= 1
        adjacent_left = takes_left and ctx.open_end >= ph.start - 1
        if adjacent_left and takes_left and not length.spoken_quarter and ctx.open_end == ph.start:
            organs.attach_length(ctx, length, ctx.open)
            ctx.open_end = ph.end
            return True
        if ctx.correcting is not None and ctx.open and ctx.open[0].length is not None:
            organs.attach_length(ctx, length, ctx.open)
            return True
        if head_next and adjacent_right and not (adjacent_left and nxt is not None and nxt.form in {"seed_yes", "bean_yes"} and "COMMA" not in ctx.link and False):
            if not (adjacent_left and nxt is not None and nxt.rule != ctx.open[0].what and nxt.rule == "seeds"):
                ctx.lengths = [length]
                return True
        if takes_left:
            organs.attach_length(ctx, length, ctx.open)
            ctx.open_end = ph.end
            return True
        if ctx.open and ctx.open[0].what == "pods" and ctx.open[0].length is not None and ctx.open[0].present and not head_next:
            if nxt is not None and nxt.rule == "label" and edges_of(nxt, "ANOTHER") and not mark:
                ctx.lengths = [length]
                return True
            return False
        if ctx.open and ctx.open[0].what == "seeds" and ctx.open[0].present is False and not head_next and ctx.explicit:
            for s2 in organs.look(ctx, "pods", True, span):
                s2.length = length
            ctx.open_end = ph.end
            return True
        if ctx.plants:
            ctx.lengths = [length]
            return True
        if head_next:
            ctx.lengths = [length]
            return True
        return False

    def _between_rows(self, ph: Phrase, k: int) -> bool:
        """`planted May 12 15 inch`: a row spacing behind the planting date."""
        values = [float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC"}]
        if len(values) != 1 or values[0] not in {7.5, 10, 15, 20, 22, 30, 36, 38}:
            return False
        j = k - 1
        while j >= 0 and self.segments[j].phrase is None and (self.ctx.lattice.pieces[self.segments[j].start].text in {"in", "on", ",", "-", "a"}):
            j -= 1
        before = self.segments[j].phrase if j >= 0 else None
        nxt, _, mark = self.ahead(k)
        return before is not None and before.rule in {"planted", "emerged", "variety", "maturity"} and (nxt is None or mark or nxt.rule in {"label", "date", "stop", "planted", "emerged", "maturity"})

    # stages and shares ------------------------------------------------------------------------------------------------

    def _stage(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        if ctx.tally is not None and ctx.tally.what is None and tallies.finish(ctx, ph, span):
            return True
        nxt, links, mark = self.ahead(k)
        if nxt is not None and nxt.form in {"r_not_yet", "v_not_yet", "name_not_yet"} and nxt.start - ph.end <= 1 and nxt.path[0][1].kind == "NOT" and revise.not_that_stage(
                ctx, stages.read_stage(ph) or {}, stages.read_stage(nxt, denied=True) or {}, span):
            ctx.mark(nxt.start, nxt.end, EVIDENCE)  # R4 not R3
            self.resume_at = nxt.end
        if ctx.finding is not None and ctx.finding.kind == "weed" and nxt is None and self._joined(ctx.finding.span.end, ph.start):
            return False  # volunteer corn in here is V7
        if ph.form == "the_v":
            before = self.segments[k - 1].phrase if k else None
            others = ctx.visit is not None and any("stated_v" in q.facts for q in ctx.visit.plants)
            if not (before is not None and before.rule == "label" and others and (nxt is None or nxt.rule == "label")):
                return False
        if self.number is not None and ctx.sample is not None and not ctx.plants:
            value, nspan, a, b = self.number
            from notesparse.observing.draft import TallyDraft

            t = TallyDraft(None, value, ctx.sample, None, nspan)
            ctx.tally = t
            if isinstance(value, int) and value <= ctx.sample and tallies.finish(ctx, ph, span):
                ctx.mark(a, b, EVIDENCE)
                self.number = None
                return True
            ctx.tally = None
        if nxt is not None and nxt.rule == "ratio" and not ctx.explicit and not mark and (
                nxt.form in {"n_of_m", "n_slash_m"} and (any(e.kind == "STOPS" for _, e in nxt.path) or links & {"AT", "IN"})
                or nxt.form in {"half", "most"} and self._closes(nxt.end)):
            t2 = tallies.start(ctx, nxt, ctx.span(nxt.start, nxt.end))
            if t2 is not None and tallies.finish(ctx, ph, span):
                self.resume_at = nxt.end
                ctx.mark(ph.start, nxt.end, EVIDENCE)
                ctx.tally = None
                return True
        if ctx.group is not None and ctx.visit is not None and ctx.visit.plants and ctx.field_clause != ctx.clause:
            return stages.state_stage(ctx, ph, span, of_field=False)
        if not ctx.explicit and self._stage_list(k):
            self.list_until = k + 1
            while self.list_until < len(self.segments) and (self.segments[self.list_until].phrase is None and not self._hard(self.segments[self.list_until].start)
                                                           or self.segments[self.list_until].phrase is not None
                                                           and self.segments[self.list_until].phrase.form == ph.form):  # type: ignore[union-attr]
                self.list_until += 1
        if k < self.list_until and not ctx.explicit:
            ctx.begin([ctx.next_label()], span, named=False)
            return stages.state_stage(ctx, ph, span, of_field=False)
        field_said = ctx.field_clause == ctx.clause or self.in_clause(k, {"call"}) is not None and (nxt is not None and nxt.rule == "call" or not ctx.explicit)
        field_said = field_said or ph.start > 0 and ctx.lattice.pieces[ph.start - 1].text in {"field", "fld"}
        of_field = field_said or not ctx.plants
        if not of_field and not ctx.explicit:
            p = ctx.plants[-1]
            of_field = not ctx.form and p.line != ctx.line and not (ph.start and ctx.lattice.pieces[ph.start - 1].text in {"?", "="})
        if not of_field and ctx.explicit and ctx.plants[-1].span.start < self.clause_from and self._chatter(k, 2):
            return False
        if of_field and not ph.form.endswith("_query") and self._chatter(k):
            return False
        where, self.where_ahead = self.where_ahead, None
        if of_field and ph.start and any(e.kind == "SOMEW" for e in ctx.lattice.edges[ph.start - 1]) and ctx.lattice.pieces[ph.start - 1].text not in {"a", "good", "first"}:
            return False  # at V3, some V4
        return stages.state_stage(ctx, ph, span, of_field=of_field, where=where if of_field else None)

    def _closes(self, i: int) -> bool:
        """The clause ends at piece i, or a mark stands there."""
        return i >= len(self.ctx.lattice.pieces) or self.ctx.lattice.pieces[i].form in {"mark", "nl"}

    def _joined(self, end: int, i: int) -> bool:
        """No mark stands between character `end` and piece i."""
        return not any(p.form in {"mark", "nl"} for p in self.ctx.lattice.pieces[:i] if p.span.start >= end)

    def _chatter(self, k: int, limit: int = 3) -> bool:
        """A code amid words that are not understood (the V8 in this truck has a tick) is no statement."""
        unknown = 0
        for step in (-1, 1):
            j = k + step
            while 0 <= j < len(self.segments):
                s = self.segments[j]
                if s.phrase is not None:
                    if s.phrase.rule in {"call", "date", "label"} or s.start in self.names:
                        return False
                    j += step
                    continue
                p = self.ctx.lattice.pieces[s.start]
                if self._hard(s.start) or p.text in ",":
                    break
                if s.start in self.names or any(n.start <= s.start < n.end for n in self.names.values()):
                    return False
                if p.form == "word" and not self.ctx.lattice.known[s.start]:
                    unknown += 1
                j += step
        return unknown >= limit

    def _close_tally(self) -> None:
        t = self.ctx.tally
        if t is not None and t.what is None:
            self.ctx.tally = None
            for i, p in enumerate(self.ctx.lattice.pieces):  # a share of nothing named
                if t.span.start <= p.span.start < t.span.end and self.ctx.use[i] == EVIDENCE:
                    self.ctx.mark(i, i + 1, UNREAD, "a share of nothing named")

    def _ratio(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        if ph.form == "n_slash_m" and self.after_name and ctx.page_date is None and numbers_of(ph)[0] <= 12 and 31 < numbers_of(ph)[-1] < 40:
            return False  # Dutch Oven 7/32: a date that is none
        nxt, links, mark = self.ahead(k)
        if ph.rule == "percent":
            value = findings.percent_value(ph)
            if ctx.plants and self._brown_context() and (nxt is None or nxt.rule not in _ORGANS | {"stage"}):
                leaves.put(ctx, "mature_pods_percent", float(value if not isinstance(value, list) else value[0]), span)
                return True
            if nxt is None or nxt.rule not in _ORGANS | {"stage", "emergence"} and not (nxt.rule == "call" and self.in_clause(k, _ORGANS | {"stage"})):
                return False
        if ph.form in {"n_of_m"} and ctx.explicit and ctx.plants and ctx.last_what in {"mature", None} and self._brown_context() and (
                nxt is None or nxt.rule not in {"stage", "flowers"}):
            n = numbers_of(ph)
            leaves.put(ctx, "mature_pods_percent", round(100.0 * n[0] / n[1], 1), span)
            return True
        if ph.form == "half" and not (nxt is not None and nxt.rule == "call" and self.in_clause(k, _ORGANS | {"stage"})) and (nxt is None or nxt.rule not in _ORGANS | {"stage", "emergence", "findhead"}):
            return "filler"
        if ph.form in {"lots", "most"} and (nxt is None or nxt.rule not in _ORGANS | {"stage", "emergence"}) and not (
                nxt is not None and nxt.rule == "call" and self.in_clause(k, _ORGANS)):
            return "filler"
        if ph.form == "lots" and (ctx.explicit and ctx.plants or ctx.tally is not None and ctx.tally.what is None):
            return "filler"
        if ph.form == "other_n" and ctx.visit is not None and not ctx.visit.tallies:
            return False
        if ph.form in {"n_of_m", "n_slash_m"} and (nxt is None or mark and nxt.rule not in _ORGANS | {"stage"}) and tallies.of_the_stage(ctx, ph, span, self.clause_from):
            return True
        self._close_tally()
        if ph.form in {"n_of_m", "n_slash_m", "n_in_m", "n_of_them", "half", "most", "lots", "other_n", "pct", "pct_range", "all_plants", "n_all"} and not ctx.explicit:
            ctx.leave_plants()
        t = tallies.start(ctx, ph, span)
        if t is None:
            return True if ph.form == "n_plants" else False
        return True

    def _pairs(self, k: int) -> list[int]:
        """The counts of a list of counted stages from segment k on: `5 R3, 4 R2, 1 R4`."""
        out: list[int] = []
        waiting: int | None = None
        for s in self.segments[k:]:
            if s.phrase is None:
                if self._hard(s.start):
                    break
                continue
            if s.phrase.rule == "bareint" and s.phrase.path[0][1].kind == "INT":
                waiting = int(s.phrase.path[0][1].means)
            elif s.phrase.rule == "stage" and waiting is not None:
                out.append(waiting)
                waiting = None
            else:
                break
        return out

    def _stage_list(self, k: int) -> bool:
        """Three stages or more in a row with nothing between: one plant each, in order."""
        ph = self.segments[k].phrase
        if ph is None or ph.form not in {"r1", "v1"}:
            return False
        run = 0
        j = k
        while j < len(self.segments):
            s = self.segments[j]
            if s.phrase is not None:
                if s.phrase.form != ph.form:
                    break
                run += 1
            elif self.ctx.lattice.pieces[s.start].text not in {",", "-", ":"}:
                break
            j += 1
        return run >= 3 and (self.list_until < k)

    def _brown_context(self) -> bool:
        visit = self.ctx.visit
        return bool(visit and any("mature_pods_percent" in p.facts or "mature_pods" in p.facts for p in visit.plants)) or self.ctx.last_what == "mature"

    # numbers, none, units -----------------------------------------------------------------------------------------------

    def _none(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        nxt, links, mark = self.ahead(k)
        if nxt is not None and nxt.rule in {"flowers", "pods", "seeds", "state"} and not mark and nxt.start - ph.end <= 3:
            self.negative = (span, ph.start, ph.end)
            return True
        if nxt is not None and nxt.rule == "place" and nxt.form in {"main_stem"} and ctx.last_what:
            self.negative = (span, ph.start, ph.end)
            return True
        if nxt is not None and nxt.rule == "place" and ctx.last_what in {"flowers", "pods", "seeds"} and ctx.plants and not mark:
            organs.look(ctx, ctx.last_what, False, span)
            return True
        if nxt is not None and nxt.rule == "place" and not mark and nxt.start - ph.end <= 2:
            after = self.in_clause(k, {"flowers", "pods", "seeds"})
            if after is not None and self._joined(ctx.span(ph.start, ph.end).end, after.start):
                self.negative = (span, ph.start, ph.end)
                return True
            self._unsay(span.cover(ctx.span(nxt.start, nxt.end)), "a negation with nothing to turn round")
            self.resume_at = nxt.end
            return "barred"
        what = self._only_organ()
        if what and ctx.plants and ctx.explicit and (nxt is None or mark or nxt.rule == "label") and not ctx.plants[-1].sightings:
            organs.look(ctx, what, False, span)
            return True
        return False

    def _only_organ(self) -> str | None:
        """The one organ that was spoken of on the plants before, the last of them first; None where there were several."""
        for p in reversed(self.ctx.visit.plants if self.ctx.visit else []):
            if p.sightings:
                whats = {s.what for s in p.sightings}
                return whats.pop() if len(whats) == 1 else None
        return None

    def _bareint(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        nxt, links, mark = self.ahead(k)
        value = findings.number_value(ph)
        if nxt is not None and nxt.form == "cue" and isinstance(value, int):
            at = next(i for i, s in enumerate(self.segments) if s.phrase is nxt)
            then, _, _ = self.ahead(at)
            if then is not None and then.rule in {"trif", "nodes"} and then.start - nxt.end <= 1 and nxt.start - ph.end <= 1:
                ctx.corrected.append(Correction("4.17", span, "put right before it was said what it counts"))
                self.false_start = nxt.start
                return "filler"
        if ctx.lattice.pieces[ph.start].text == "one" and ph.start and ctx.lattice.pieces[ph.start - 1].text in {"that", "this"}:
            return "filler"
        if nxt is not None and nxt.rule == "stage" and nxt.start - ph.end <= 2 and not mark and isinstance(value, int) and tallies.more_of_them(ctx, value, span, self.clause_from):
            return True
        if nxt is not None and nxt.rule == "stage" and not ctx.explicit and ctx.sample is None and self.number is None:
            pairs = self._pairs(k)
            if len(pairs) >= 2:  # 5 R3, 4 R2, 1 R4
                ctx.here()
                ctx.sample, ctx.sample_visit = sum(pairs), len(ctx.visits)
        if nxt is not None and nxt.rule == "place" and not mark and ctx.visit is not None and ctx.visit.tallies and not ctx.plants and isinstance(value, int):
            last = ctx.visit.tallies[-1]
            if last.of and value <= last.of and last.what in {"R1", "R2"} and last.span.start >= self.clause_from:
                from notesparse.observing.draft import TallyDraft

                ctx.tally = TallyDraft("R1", value, last.of, None, span)
                ctx.visit.tallies.append(ctx.tally)
                return True
        if nxt is not None and nxt.rule in {"emergence", "flowers", "pods", "seeds", "state"} and ctx.sample is not None and not ctx.explicit and not mark and isinstance(
                value, int) and 0 <= value <= ctx.sample:
            from notesparse.observing.draft import TallyDraft

            ctx.tally = TallyDraft(None, value, ctx.sample, None, span)
            return True
        if ctx.star is not None and ctx.plants and str(value) == ctx.plants[-1].label:
            return True
        if (ctx.correcting is not None or ctx.star is not None) and ctx.plants:
            for s in reversed(ctx.statements):
                if s.put is not None:
                    s.put(int(value))
                    ctx.corrected.append(Correction("4.17", s.span, f"replaced by {value}"))
                    ctx.correcting = None
                    self._move_span(s, span)
                    return True
        if ctx.explicit and ctx.plants and self._series_key() and ph.path[0][1].kind == "INT" and not self._at_before(ph) and (nxt is None or nxt.rule in {"label", "topleaf", "correct"} or mark):
            key = self._series_key()
            if key == "mature_pods_percent":
                if 0 <= float(value) <= 100:
                    leaves.put(ctx, key, float(value), span)
                    return True
            elif key and not ctx.plants[-1].last(key):
                return leaves.count(ctx, key, int(value), span) is not None
        if nxt is not None and not mark and nxt.rule == "stage":
            self.number = (value, span, ph.start, ph.end)
            return True
        return False

    def _series_key(self) -> str | None:
        """What bare numbers after labels are, where the plants before them say so: `2) 7 open`, `p2 97`."""
        visit = self.ctx.visit
        if visit is None or not self.ctx.plants:
            return None
        earlier = [p for p in visit.plants if p is not self.ctx.plants[-1] and not p.dropped]
        for key in ("trifoliates", "nodes", "mature_pods_percent"):
            if earlier and key in earlier[-1].facts:
                return key
        return "mature_pods_percent" if self.ctx.pods_brown_head else None

    def _notnum(self, ph: Phrase, span: Span) -> bool | str:
        ctx = self.ctx
        if ctx.statements and ctx.statements[-1].put is not None:
            ctx.corrected.append(Correction("4.17", span, f"not {numbers_of(ph)[0]}"))
            return True
        return False

    def _bare_place(self, ph: Phrase) -> bool:
        """A place that nothing else is said of: `N end` in the head of a visit, and no `combination on the gate is`."""
        pieces = self.ctx.lattice.pieces
        j = ph.end
        while j < len(pieces) and pieces[j].form == "mark" and pieces[j].text in ",:-)":
            j += 1
        after = j >= len(pieces) or pieces[j].form == "nl" or j > ph.end or self._hard(j) or self.ctx.lattice.known[j] and not self.ctx.lattice.filler[j]
        i = ph.start - 1
        while i >= 0 and (self.ctx.lattice.filler[i] or pieces[i].form == "mark"):
            i -= 1
        return after and (i < 0 or self.ctx.use[i] != UNREAD or self.ctx.lattice.known[i])

    def _where(self, ph: Phrase, span: Span, k: int) -> bool | str:
        ctx = self.ctx
        visit = ctx.visit
        pieces = ctx.lattice.pieces
        alone = (ph.start == 0 or pieces[ph.start - 1].form == "nl") and (ph.end >= len(pieces) or pieces[ph.end].form == "nl" or pieces[ph.end].text == ":")
        if visit is not None and (alone or not visit.plants and not visit.findings and not visit.tallies and self._bare_place(ph)):
            if alone:
                ctx.leave_plants()
            ctx.stop = findings.words(ctx, ph.start, ph.end)
            return True
        nxt, _, mark = self.ahead(k)
        if nxt is not None and nxt.rule == "stage" and not mark and not ctx.plants and not (
                visit is not None and visit.stated and self._joined(visit.stated[-1].span.end, ph.start)):
            self.where_ahead = findings.words(ctx, ph.start, ph.end)  # north side is R4, south side still R3
            return True
        if visit is not None and visit.stated and not ctx.plants and visit.stated[-1].where is None and visit.stated[-1].span.end <= span.start < visit.stated[-1].span.end + 30:
            visit.stated[-1].where = findings.words(ctx, ph.start, ph.end)
            return True
        return False


def entry(value: Any, span: Span) -> Entry:
    return Entry(value, span)
