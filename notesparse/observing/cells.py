"""What one cell of a table says under its head: figures, signs, places, the same again, and free words (guide 4.21)."""

from __future__ import annotations

import copy
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from notesparse.language.columns import column_words, squeeze
from notesparse.language.unroll import Step
from notesparse.observing import findings, leaves, organs
from notesparse.observing.draft import Ask, Entry, Length, Place, PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.heads import ORGANS, Column
from notesparse.observing.organs import MM
from notesparse.outcome import Correction
from notesparse.reading.parse import phrases_at, segment
from notesparse.span import Span

LONGEST_POD, LONGEST_SEED = 100.0, 20.0  # mm, guide section 8: beyond it is no such thing
_UNIT = {"in": MM, "mm": Fraction(1), "cm": Fraction(10), "16": MM / 16, "8": MM / 8, "4": MM / 4}
_UNIT_KINDS = {"INCH": "in", "MM": "mm", "CM": "cm"}
_DAMAGED = {"l": "1", "I": "1", "i": "1", "|": "1", "!": "1", "o": "0", "O": "0", "q": "9", "s": "5", "S": "5", "b": "6", "B": "83", "g": "9", "G": "6", "z": "2", "Z": "2",
            "A": "4", "T": "7", "}": "3", "&": "8"}
_NO_RULES = {"label", "stop", "date", "planted", "emerged", "rows", "maturity", "variety", "goto", "fieldcue", "notvisited", "bareint", "numlist", "sampled", "ratio"}


@dataclass(slots=True)
class Said:
    """What a cell put into its plant: for `same again` below it."""

    entries: list[tuple[str, Entry]] = field(default_factory=list)
    sightings: list[Sighting] = field(default_factory=list)
    asks: list[Ask] = field(default_factory=list)
    nothing: str = ""  # why there is nothing to say again
    words: tuple[int, int] | None = None  # free words, which are read anew of the next plant

    @property
    def empty(self) -> bool:
        return not self.entries and not self.sightings


@dataclass(slots=True)
class Reader:
    """Reads the cells of one table into the current visit."""

    ctx: Context
    root: Step
    known: dict[int, list[Fraction]]  # by column: the clean figures, to judge damaged ones by
    signs: dict[int, set[str]] = field(default_factory=dict)  # by column: the signs that stand in it ("words" for anything else)
    _source: tuple[int, int] | None = None  # the words that the same-again cell stands for

    # looking at pieces -------------------------------------------------------------------------------------------------

    def text(self, a: int, b: int) -> str:
        return self.ctx.lattice.original(a, b)

    def sign(self, a: int, b: int) -> str | None:
        return column_words().cells.get(squeeze(self.text(a, b)))

    def amount(self, a: int, b: int) -> tuple[Fraction, int, str] | None:
        """The figure at piece a: (value, where it ends, how it was read)."""
        best = None
        for e in self.ctx.lattice.edges[a]:
            if e.kind in {"INT", "DEC", "FRAC"} and e.end <= b and (best is None or (e.end, -e.cost) > (best.end, -best.cost)):
                best = e
        if best is None:
            return None
        return Fraction(best.means), best.end, "exact" if best.how in {"exact", "number"} else best.how

    def unit_at(self, a: int, b: int) -> tuple[str, int] | None:
        if a >= b:
            return None
        for e in sorted(self.ctx.lattice.edges[a], key=lambda e: -e.end):
            if e.kind in _UNIT_KINDS and e.end <= b:
                return _UNIT_KINDS[e.kind], e.end
        return None

    # one cell ------------------------------------------------------------------------------------------------------------

    def cell(self, column: Column, number: int, a: int, b: int, plants: list[PlantDraft], above: Said | None, by_label: dict[str, Said]) -> Said:
        """Read pieces [a, b) under a head. `above` is what the same column said of the plant before, `by_label` of each plant."""
        ctx = self.ctx
        ctx.plants, ctx.explicit = plants, True
        ctx.close()
        ctx.group, ctx.correcting, ctx.finding, ctx.last_what, ctx.link = None, None, None, None, set()
        p = plants[0]
        before = {key: list(es) for key, es in p.facts.items()}
        seen, asked = list(p.sightings), list(ctx.asks)
        ctx.mark(a, b, UNREAD, "not understood in this column")
        said = Said()
        said.nothing = self._cell(column, number, a, b, p, above, by_label) or ""
        if column.what == ["note"]:
            source = self._source
            said.words = source if source is not None else (a, b)
        ctx.close()
        for key, entries in p.facts.items():
            said.entries += [(key, e) for e in entries if not any(e is x for x in before.get(key, []))]
        said.sightings = [s for s in p.sightings if not any(s is x for x in seen)]
        said.asks = [q for q in ctx.asks if q.plant is p and not any(q is x for x in asked)]
        ctx.steps.append((ctx.span(a, b), "cell", ", ".join(column.what) or "?", "unread" if said.nothing else "evidence", ()))
        return said

    def _cell(self, column: Column, number: int, a: int, b: int, p: PlantDraft, above: Said | None, by_label: dict[str, Said]) -> str | None:
        """Returns why the cell says nothing, if so."""
        ctx = self.ctx
        self._source = None
        a = self.struck(a, b)
        if a >= b:
            return "struck out"
        span = ctx.span(a, b)
        sign = self.sign(a, b)
        if sign == "unreadable" or (ctx.lattice.pieces[a].text in "[(" and self.sign(a, self._bracket(a, b)) == "unreadable" and self._bracket(a, b) == b):
            ctx.mark(a, b, UNREAD, "cannot be read in the note")
            return "cannot be read"
        if sign == "same":
            return self.again(above, p, span, a, b)
        code = column.codes.get(squeeze(self.text(a, b)))
        if code is not None:
            return self.coded(column, number, code, span, a, b, p)
        if sign == "nothing":
            ctx.mark(a, b, FILLER)
            return "nothing said"
        other = self.like(a, b)
        if other is not None:
            label, end = other
            source = by_label.get(label.casefold())
            if source is None:
                ctx.same_targets.append((p, label, ctx.span(a, end)))
                ctx.mark(a, end, EVIDENCE)
            else:
                self.again(source, p, ctx.span(a, end), a, end)
            if end < b:
                self.walk(end, b)
            return None
        if not column.known or column.unknown and not column.finding:
            ctx.mark(a, b, UNREAD, "under a column head that is not understood")
            return "no known head"
        first = column.what[0]
        if first in {"trifoliates", "nodes"}:
            return self.count(first, number, a, b, sign)
        if first in ORGANS:
            return self.organ(column, number, a, b, sign)
        if first in {"stage", "v", "r"}:
            return self.stage(first, number, a, b)
        if first == "brown":
            return self.brown(column, number, a, b, sign)
        if first in {"top_leaf", "unifoliates", "emerged"}:
            return self.leaf(first, a, b, sign)
        if first == "scars":
            return self.scars(number, a, b, sign, p)
        if first == "finding" and column.finding is not None:
            return self.finding(column.finding, a, b, sign, p)
        self.walk(a, b)
        return None

    def _bracket(self, a: int, b: int) -> int:
        k = a
        while k < b and self.ctx.lattice.pieces[k].text not in "])":
            k += 1
        return min(k + 1, b)

    def struck(self, a: int, b: int) -> int:
        """Struck-out figures at a cell's head are corrections; returns where the cell goes on."""
        ctx = self.ctx
        pieces = ctx.lattice.pieces
        while a < b:
            end = ctx.struck.get(a)
            if end is None:
                for k in range(a + 1, b - 1):  # 13->12
                    if pieces[k].text == "-" and pieces[k + 1].text == ">" and k + 2 < b:
                        end = k + 2
            if end is None or end > b:
                return a
            ctx.corrected.append(Correction("4.21", ctx.span(a, end), "struck out"))
            ctx.mark(a, end, FILLER)
            a = end
        return a

    def like(self, a: int, b: int) -> tuple[str, int] | None:
        """`like 1`, `as B`, `same as 2`: (label, where it ends)."""
        pieces = self.ctx.lattice.pieces
        k = a
        while k < b and pieces[k].text in {"same", "as", "like", "plant", "pl", "plt", "no", ".", "#", "p"}:
            k += 1
        if k == a or k >= b or not {pieces[x].text for x in range(a, k)} & {"as", "like", "same"}:
            return None
        p = pieces[k]
        if p.form == "int" or p.form == "word" and len(p.text) == 1:
            return self.text(k, k + 1), k + 1
        return None

    def again(self, source: Said | None, p: PlantDraft, span: Span, a: int, b: int) -> str | None:
        """The same again: what the cell above said, now with this cell's own characters."""
        ctx = self.ctx
        if source is None or source.empty:
            if source is None:
                ctx.mark(a, b, UNREAD, "the same as what? Nothing stands above it")
                return "nothing above"
            ctx.mark(a, b, UNREAD if source.nothing == "cannot be read" else EVIDENCE, "the same as what cannot be read" if source.nothing == "cannot be read" else "")
            return source.nothing or None
        if source.words is not None:
            self._source = source.words
            return self.coded(Column(what=["note"]), -1, source.words, span, a, b, p)
        for q in ctx.plants:
            for key, e in source.entries:
                q.put(key, e.value, span)
            for s in source.sightings:
                q.sightings.append(respan(s, span))
            for ask in source.asks:
                ctx.ask(replace(ask, plant=q, span=span))
        ctx.mark(a, b, EVIDENCE)
        return None

    def coded(self, column: Column, number: int, code: tuple[int, int], span: Span, a: int, b: int, p: PlantDraft) -> str | None:
        """A sign that a legend explains: read the legend's words, of this plant."""
        ctx = self.ctx
        seen, asked = list(p.sightings), list(ctx.asks)
        before = {key: list(es) for key, es in p.facts.items()}
        plain = replace(column, codes={}, by_node=None)
        kept = self._source
        why = self._cell(plain, number, code[0], code[1], p, None, {})
        self._source = kept
        for q in ctx.asks:
            if q.plant is p and not any(q is x for x in asked):
                q.span = span
        for k in range(len(p.sightings)):
            s = p.sightings[k]
            if not any(s is x for x in seen):
                p.sightings[k] = respan(s, span)
        for key, es in p.facts.items():
            for e in es:
                if not any(e is x for x in before.get(key, [])):
                    e.span = span
        ctx.mark(a, b, UNREAD if why else EVIDENCE, why or "")
        return why

    # counts -----------------------------------------------------------------------------------------------------------------

    def whole(self, number: int, a: int, b: int) -> tuple[int, int, bool] | None:
        """A whole number, clean or damaged: (value, where it ends, damaged)."""
        got = self.amount(a, b)
        if got is not None and got[0].denominator == 1 and self.ctx.lattice.pieces[a].form != "dec":
            if got[2] == "exact":
                return int(got[0]), got[1], False
            if got[2] == "figure":
                return (int(got[0]), got[1], True) if self._fits(number, got[0]) else None
            return int(got[0]), got[1], False
        run = self.text(a, b)
        if not 1 <= len(run) <= 3 or any(c.isspace() for c in run):
            return None
        readings = [""]
        for c in run:
            readings = [r + d for r in readings for d in (c if c.isdigit() else _DAMAGED.get(c, ""))]
        values = sorted({int(r) for r in readings if r and self._fits(number, Fraction(int(r)))})
        return (values[0], b, True) if len(values) == 1 else None

    def _fits(self, number: int, value: Fraction) -> bool:
        """Whether a damaged figure read so lies among the clean ones of its column."""
        clean = sorted(self.known.get(number, []))
        if not clean:
            return value <= 26
        spread = max(4, (clean[-1] - clean[0]))
        return clean[0] - spread <= value <= clean[-1] + spread

    def count(self, key: str, number: int, a: int, b: int, sign: str | None) -> str | None:
        ctx = self.ctx
        if sign == "no":
            if ctx.lattice.pieces[a].text.startswith("-"):
                ctx.mark(a, b, FILLER)
                return "nothing said"
            if key == "trifoliates":
                leaves.put(ctx, key, 0, ctx.span(a, b))
                ctx.mark(a, b, EVIDENCE)
                return None
        start = a
        while a < b and ({e.kind for e in ctx.lattice.edges[a]} & {"HEDGE"} or ctx.lattice.pieces[a].text in "~(<>."):
            a += 1
        got = self.whole(number, a, b) if a < b else None
        if got is None:
            self.walk(start, b)
            return None
        n, end, damaged = got
        while end < b and ctx.lattice.pieces[end].text in {"?", ")", "+", ".", "±"} and (end + 1 == b or ctx.lattice.pieces[end].text != "+"):
            end += 1
        span = ctx.span(a, end)
        high = self._range(number, end, b)
        if high is not None and n < high[0] <= n + 4:
            span = ctx.span(a, high[1])
            plants = leaves.put(ctx, key, n, span)
            ctx.ask(Ask("4.2", span, f"Has plant {plants[-1].label} {n} or {high[0]} {key}?",
                        [(f"{m}", {key: m}) for m in range(n, high[0] + 1)], plants[-1], 0, key))
            ctx.mark(start, high[1], EVIDENCE)
            end = high[1]
        elif leaves.count(ctx, key, n, span) is None:
            ctx.mark(start, b, UNREAD, "more than a soybean plant has")
            return "refused"
        else:
            ctx.mark(start, end, EVIDENCE)
            if damaged:
                ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {n}: the column leaves no other figure")
        if end < b:
            self.walk(end, b, {"trif"} if key == "trifoliates" else {"nodes"})
        return None

    def _range(self, number: int, a: int, b: int) -> tuple[int, int] | None:
        pieces = self.ctx.lattice.pieces
        if a + 1 < b and pieces[a].text in {"-", "to", "or", "/"}:
            got = self.whole(number, a + 1, b)
            if got is not None:
                end = got[1]
                while end < b and pieces[end].text in {"?", ")"}:
                    end += 1
                return (got[0], end) if end == b else None
        return None

    def scars(self, number: int, a: int, b: int, sign: str | None, p: PlantDraft) -> str | None:
        got = self.whole(number, a, b)
        if sign == "no" or got is not None and got[0] == 0:
            self.ctx.mark(a, b, EVIDENCE)
            return None
        last = p.last("trifoliates")
        if got is None or got[1] != b or last is None or last.value + got[0] > leaves.TRIFOLIATES_REFUSE:
            return "no count of leaves to add this to"
        last.value += got[0]
        last.span = last.span.cover(self.ctx.span(a, b))
        self.ctx.mark(a, b, EVIDENCE)
        return None

    # flowers, pods, seeds ---------------------------------------------------------------------------------------------------

    def organ(self, column: Column, number: int, a: int, b: int, sign: str | None) -> str | None:  # noqa: C901 - one form of cell after another
        ctx = self.ctx
        span = ctx.span(a, b)
        what = column.what[0]
        if sign == "x" and not column.codes:
            for w in column.what:
                for s in organs.look(ctx, w, True, span):
                    self._head_place(s, column)
            p = ctx.plants[-1]
            ctx.mark(a, b, EVIDENCE)
            if self.signs.get(number, set()) <= {"x", "no", "nothing", "same"}:
                ctx.assume("4.21", span, f"“{self.text(a, b)}” is a check mark: the column has no other sign for yes")
                return None
            ctx.ask(Ask("4.21", span, f"Does “{self.text(a, b)}” mean that plant {p.label} has {what}, or none?",
                        [(f"has {what}", {what: True}), (f"no {what}", {what: False})], p, 0, what))
            return None
        if sign in {"no", "yes"}:
            for w in column.what:
                for s in organs.look(ctx, w, sign == "yes", span):
                    self._head_place(s, column)
            ctx.mark(a, b, EVIDENCE)
            return None
        hedged = a
        while hedged < b and ({e.kind for e in ctx.lattice.edges[hedged]} & {"HEDGE"} or ctx.lattice.pieces[hedged].text in "~"):
            hedged += 1
        if hedged < b and column.by_node is not None and self._node(column, number, hedged, b, span):
            ctx.mark(a, b, EVIDENCE)
            return None
        if hedged < b and what in {"pods", "seeds"}:
            done = self._length(column, number, a, hedged, b)
            if done is not None:
                return done or None
        elif hedged < b:
            got = self.whole(number, hedged, b)
            if got is not None and (got[1] == b or ctx.lattice.pieces[got[1]].text in {"?", "+"} and got[1] + 1 == b) and got[0] <= 60:
                for s in organs.look(ctx, what, got[0] > 0, span):
                    self._head_place(s, column)
                ctx.mark(a, b, EVIDENCE)
                return None
        return self._words(column, a, b)

    def _node(self, column: Column, number: int, a: int, b: int, span: Span) -> bool:
        """A figure under a head that says `node from top`."""
        ctx = self.ctx
        numbers: list[int] = []
        k = a
        while k < b:
            e = next((e for e in ctx.lattice.edges[k] if e.kind in {"INT", "ORD"} and e.end <= b), None)
            if e is not None and int(e.means) <= 30:
                numbers.append(int(e.means))
                k = e.end
                continue
            if ctx.lattice.pieces[k].text in {",", "&", "and", "+", "."} and numbers:
                k += 1
                continue
            got = self.whole(number, k, b)
            if got is None or numbers:
                return False
            numbers, k = [got[0]], got[1]
        if not numbers or 0 in numbers:
            return False
        form = ("ord_down" if len(numbers) == 1 else "ords_down") if column.by_node == "down" else "ord_up"
        if form == "ord_up" and len(numbers) > 1:
            return False
        for w in column.what:
            for s in organs.look(ctx, w, True, span):
                s.places = [Place(form, tuple(numbers), span)]
        return True

    def _head_place(self, s: Sighting, column: Column) -> None:
        """The place that the head names is the place of every cell under it."""
        ph = column.place
        if ph is not None and not s.places:
            s.places.append(organs.place(ph, self.ctx.span(ph.start, ph.end)))

    def _length(self, column: Column, number: int, start: int, a: int, b: int) -> str | None:
        """A size or a count of pods at the cell's head. None: there is none; an empty string: read."""
        ctx = self.ctx
        what = column.what[0]
        got = self.amount(a, b)
        if got is None and len(self.text(a, b)) <= 2:
            whole = self.whole(number, a, b)
            got = (Fraction(whole[0]), whole[1], "figure") if whole is not None else None
        if got is None:
            return None
        value, end, how = got
        values = [value]
        unit: str | None = None
        first_unit = self.unit_at(end, b)
        if first_unit is not None:
            unit, end = first_unit
        if end + 1 < b and ctx.lattice.pieces[end].text in {"-", "to", "or"}:
            more = self.amount(end + 1, b)
            if more is not None:
                values.append(more[0])
                end = more[1]
                second = self.unit_at(end, b)
                if second is not None:
                    unit, end = second
        if end < b and ctx.lattice.pieces[end].text in {"?", "+", "±"} and end + 1 == b:
            end = b
        if what == "seeds" and ctx.lattice.pieces[a].text == "half" and unit is None and column.unit is None:
            for s in organs.look(ctx, what, True, ctx.span(start, end)):  # half full
                s.fill = Entry("partial", ctx.span(start, end))
                self._head_place(s, column)
            ctx.mark(start, end, EVIDENCE)
            return self._after(end, b)
        nxt = ctx.lattice.pieces[end].text if end < b else ","
        if nxt not in {",", ";", "(", ".", "-"} and {e.kind for e in ctx.lattice.edges[end]} & {"POD", "SEED", "BEAN", "FLOWER", "BROWN", "PCT", "OF", "DOWN", "FROM", "NODE", "NODES", "TOP",
                                                                                          "UP", "SLASH", "PIN", "GREEN", "TOUCHING", "UPW"}:
            return None
        span = ctx.span(a, end)
        given = unit or column.unit
        plain = unit is None and all(v.denominator == 1 for v in values) and ctx.lattice.pieces[a].form != "dec"
        if given is None and plain and what == "pods" and (column.plural and not column.measure or column.count):
            for s in organs.look(ctx, what, value > 0, span):  # a count of pods
                self._head_place(s, column)
        elif value == 0 and len(values) == 1:
            for s in organs.look(ctx, what, False, span):
                self._head_place(s, column)
        elif given is None and plain and what == "pods":
            for s in organs.look(ctx, what, True, span):
                s.count_int = Length(float(value) if len(values) == 1 else (float(values[0]), float(values[1])), False, span, bare="whole")
                self._head_place(s, column)
        elif given is None and plain and what == "seeds":
            for s in organs.look(ctx, what, True, span):
                self._head_place(s, column)
        else:
            return self._sized(column, number, values, given, unit, span, start, end, b, how)
        ctx.mark(start, end, EVIDENCE)
        return self._after(end, b)

    def _sized(self, column: Column, number: int, values: list[Fraction], given: str | None, unit: str | None, span: Span,
               start: int, end: int, b: int, how: str) -> str:
        ctx = self.ctx
        what = column.what[0]
        key = "pod_mm" if what == "pods" else "seed_mm"
        factor = _UNIT[given] if given else MM if max(values) < 3 else Fraction(1)
        mm: Any = float(values[0] * factor) if len(values) == 1 else tuple(sorted(float(v * factor) for v in values[:2]))
        inches = factor not in {Fraction(1), Fraction(10)}
        high = mm[1] if isinstance(mm, tuple) else mm
        limit = LONGEST_POD if what == "pods" else LONGEST_SEED
        ask: list[tuple[str, float]] = []
        lost = self._lost_point(number, values[0]) if unit is None and len(values) == 1 else None
        if lost is not None:
            first = float(lost * factor)
            shown = format(float(lost), "g").removeprefix("0") + f" {given or 'in'}"
            ask = [(shown, first)]
            if high <= limit:
                ask.append((f"{float(values[0]):g} {given or 'in'}", high))
            if factor != 1 and float(values[0]) <= limit:
                ask.append((f"{float(values[0]):g} mm", float(values[0])))
            mm = first
        elif high > limit:
            ctx.mark(start, end, UNREAD, f"longer than a soybean {what[:-1]}")
            return "refused"
        bare = None if given else "fraction" if inches else "whole"
        for s in organs.look(ctx, what, True, span):
            s.length = Length(mm, inches, span, bare=bare)
            self._head_place(s, column)
        if ask and len(ask) > 1:
            p = ctx.plants[-1]
            text = span.of(ctx.lattice.text)
            ctx.ask(Ask("4.21", span, f"Is “{text}” of plant {p.label} a figure that has lost its decimal point?",
                        [(name, {key: v}) for name, v in ask], p, 0, key, always=True))
        if how == "figure":
            ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as a damaged figure")
        ctx.mark(start, end, EVIDENCE)
        return self._after(end, b)

    def _after(self, end: int, b: int) -> str:
        if end < b:
            self.ctx.open_end = end
            self.walk(end, b)
        return ""

    def _lost_point(self, number: int, value: Fraction) -> Fraction | None:
        """25 among .25 and .3 is likely .25: the value with its point put back, if the column has decimals and it does not fit."""
        clean = self.known.get(number, [])
        decimals = [v for v in clean if v.denominator != 1]
        if value.denominator != 1 or value == 0 or len(decimals) < 2:
            return None
        most = max(decimals)
        put_back = value / 10 ** len(str(int(value)))
        if value <= 2 * most or not min(decimals) / 3 <= put_back <= most * 3:
            return None
        return put_back

    def _words(self, column: Column, a: int, b: int) -> str | None:
        """Words under a head of flowers, pods or seeds: what they say is said of that."""
        ctx = self.ctx
        what = column.what[0]
        span = ctx.span(a, b)
        p = ctx.plants[0]
        implied: list[Sighting] = []
        for q in ctx.plants:
            s = Sighting(what, None, [span], clause=ctx.clause)
            q.sightings.append(s)
            implied.append(s)
        ctx.open, ctx.open_end, ctx.last_what = implied, a, what
        first = self.sign(a, a + 1)
        if first in {"yes", "no"} and a + 2 < b and ctx.lattice.pieces[a + 1].text in {",", ";", "-", ":", "("} and ctx.lattice.pieces[a].form == "word":
            for s in implied:  # y, top 2
                s.present = first == "yes"
            ctx.mark(a, a + 2, EVIDENCE)
            a += 2
        ordinal = next((e for e in ctx.lattice.edges[a] if e.kind == "ORD" and e.end == b), None)
        top = next((e for e in ctx.lattice.edges[a] if e.kind == "TOP" and e.end == b), None)
        if ordinal is not None or top is not None:
            for s in implied:
                s.places = [Place("ord_down", (int(ordinal.means),), span)] if ordinal is not None else [Place("top_1", (), span)]
            ctx.mark(a, b, EVIDENCE)
        else:
            ctx.mark(a, b, UNREAD, "not understood in this column")
            self.walk(a, b)
        said_no = any(x.what == what and x.present is False for x in p.sightings if not any(x is s for s in implied))
        for q, s in zip(list(ctx.plants) or [p], implied, strict=False):
            if s.places or s.length or s.fill or s.full_length or s.tiny or s.match_head or s.in_pod or s.count_int:
                if said_no and not (s.length or s.fill):
                    other = next(x for x in q.sightings if x.what == what and x.present is False and x is not s)
                    other.places = other.places or s.places  # none on the top four
                    q.sightings.remove(s)
                    continue
                s.present = s.present is not False
                if what == "seeds" or what == "pods":
                    self._head_place(s, column)
            elif s.present is None and s in q.sightings:
                q.sightings.remove(s)
        for q in ctx.plants:
            for x in q.sightings:
                if x.what == what and span.start <= x.span.start < span.end:
                    self._head_place(x, column)
        if p.sightings and any(span.start <= x.span.start < span.end for x in p.sightings) or any(
                span.start <= e.span.start < span.end for es in p.facts.values() for e in es):
            return None
        return "not understood"

    # stages, colour, leaves -----------------------------------------------------------------------------------------------------

    def stage(self, what: str, number: int, a: int, b: int) -> str | None:
        """`R6`, `RS` (R5), `6` under a head R, `V8 R3`."""
        ctx = self.ctx
        span = ctx.span(a, b)
        if what in {"v", "r"}:
            got = self.amount(a, b)
            if got is not None and got[1] == b and got[0].denominator in {1, 2}:
                n = got[0]
                if what == "v" and n.denominator == 1 and n <= 21 or what == "r" and 1 <= n < 9:
                    leaves.put(ctx, f"stated_{what}", f"{what.upper()}{float(n):g}", span)
                    ctx.mark(a, b, EVIDENCE)
                    return None
                return "no such stage"
            high = self._range(number, got[1], b) if got is not None else None
            if got is not None and high is not None and high[1] == b and high[0] > got[0]:
                leaves.put(ctx, f"stated_{what}", (f"{what.upper()}{got[0]}", f"{what.upper()}{high[0]}"), span)
                ctx.mark(a, b, EVIDENCE)
                return None
        raw = squeeze(self.text(a, b))
        if 2 <= len(raw) <= 4 and raw[0] in "rvuy" and any(not c.isdigit() for c in raw[1:]) and raw not in {"ve", "vc"} and not set(raw) & set(".,-/+"):
            return self._damaged_stage("".join(self.text(a, b).split()), number, span, a, b)
        self.walk(a, b)
        return None

    def _damaged_stage(self, raw: str, number: int, span: Span, a: int, b: int) -> str | None:
        ctx = self.ctx
        letter = "R" if raw[0] in "rR" else "V"
        readings = [""]
        for c in raw[1:]:
            readings = [r + d for r in readings for d in (c if c.isdigit() else _DAMAGED.get(c, ""))]
        values = sorted({int(r) for r in readings if r and (1 <= int(r) <= 8 if letter == "R" else int(r) <= 21)})
        clean = [v for v in self.known.get(number, [])]
        if len(values) > 1 and clean:
            middle = sorted(clean)[len(clean) // 2]
            near = min(abs(v - middle) for v in values)
            values = [v for v in values if abs(v - middle) == near]
        if len(values) != 1:
            ctx.mark(a, b, UNREAD, "a damaged figure with more than one sense")
            return "not understood"
        leaves.put(ctx, f"stated_{letter.lower()}", f"{letter}{values[0]}", span)
        ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {letter}{values[0]}: the column leaves no other stage")
        ctx.mark(a, b, EVIDENCE)
        return None

    def brown(self, column: Column, number: int, a: int, b: int, sign: str | None) -> str | None:
        """A share or a count of pods of mature colour."""
        ctx = self.ctx
        span = ctx.span(a, b)
        if sign in {"no", "yes"} or sign == "x" and not column.codes:
            if sign == "no" and column.percent and any(c.isdigit() for c in self.text(a, b)):
                leaves.put(ctx, "mature_pods_percent", 0.0, span)
            else:
                leaves.put(ctx, "mature_pods", "none" if sign == "no" else "one", span)
            ctx.mark(a, b, EVIDENCE)
            return None
        start = a
        while a < b and ({e.kind for e in ctx.lattice.edges[a]} & {"HEDGE"} or ctx.lattice.pieces[a].text in "~<>"):
            a += 1
        got = self.whole(number, a, b) if a < b else None
        if got is None and a < b:
            amount = self.amount(a, b)
            if amount is not None and amount[0].denominator == 1:
                got = (int(amount[0]), amount[1], amount[2] == "figure")
        if got is None:
            self.walk(start, b)
            return None
        n, end, damaged = got
        of = None
        if end + 1 < b and {e.kind for e in ctx.lattice.edges[end]} & {"OF", "SLASH", "OUTOF"}:
            jump = next(e.end for e in ctx.lattice.edges[end] if e.kind in {"OF", "SLASH", "OUTOF"})
            of = self.amount(jump, b)
        if of is not None and of[1] == b and of[0] >= n and of[0] > 0:
            leaves.put(ctx, "mature_pods_percent", round(100.0 * n / float(of[0]), 1), span)
            ctx.mark(start, b, EVIDENCE)
            return None
        pct = end < b and ctx.lattice.pieces[end].text == "%"
        end += pct
        while end < b and ctx.lattice.pieces[end].text in {"?", "+", "ish"}:
            end += 1
        if end < b:
            self.walk(start, b)
            return None
        if pct or column.percent:
            if n > 100:
                return "more than all"
            leaves.put(ctx, "mature_pods_percent", float(n), span)
        else:
            leaves.put(ctx, "mature_pods", "one" if n else "none", span)
        if damaged:
            ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {n}: the column leaves no other figure")
        ctx.mark(start, b, EVIDENCE)
        return None

    def leaf(self, what: str, a: int, b: int, sign: str | None) -> str | None:
        ctx = self.ctx
        kinds = {e.kind for e in ctx.lattice.edges[a] if e.end == b}
        span = ctx.span(a, b)
        if what == "emerged":
            if sign not in {"yes", "no", "x"} and not kinds & {"EMERGED", "NOTUP"}:
                self.walk(a, b)
                return None
            leaves.put(ctx, "emerged", sign in {"yes", "x"} or "EMERGED" in kinds, span)
        elif kinds & {"ROLLED", "OPEN"}:
            leaves.put(ctx, what, "rolled" if "ROLLED" in kinds else "unrolled", span)
        else:
            self.walk(a, b)
            return None
        ctx.mark(a, b, EVIDENCE)
        return None

    def finding(self, what: tuple[str, str], a: int, b: int, sign: str | None, p: PlantDraft) -> str | None:
        """Insects, disease, leaf loss counted plant by plant: one finding each."""
        ctx = self.ctx
        got = self.amount(a, b)
        end = got[1] if got is not None else a
        pct = end < b and ctx.lattice.pieces[end].text == "%"
        if sign not in {"no", "yes", "x"} and (got is None or end + pct != b):
            return "not understood in this column"
        kind = findings.KINDS[what[0]]
        f = findings.add(ctx, kind, None if kind == "defoliation" or what[1] == kind else what[1], ctx.span(a, b))
        f.value = 0 if sign == "no" else findings.tidy(got[0]) if got is not None else None
        f.unit = "%" if pct or kind == "defoliation" else None
        f.where = f"plant {p.label}"
        ctx.finding = None
        ctx.mark(a, b, EVIDENCE)
        return None

    # words -------------------------------------------------------------------------------------------------------------------------

    def walk(self, a: int, b: int, without: set[str] | frozenset[str] = frozenset()) -> None:
        """Read pieces [a, b) like prose about the current plants."""
        from notesparse.observing.walk import Walk

        ctx = self.ctx
        phrases = [[] for _ in range(a)]  # type: ignore[var-annotated]
        for i in range(a, b):
            phrases.append([ph for ph in phrases_at(ctx.lattice, i, self.root) if ph.end <= b and ph.rule not in _NO_RULES | without])
        opened, end, last = ctx.open, ctx.open_end, ctx.last_what
        class Cell(Walk):
            """A remark in a cell: a place beside other words (deer nipped the tip) is not that of another cell."""

            def _orphans(self) -> None:
                if any(s.phrase is None and ctx.lattice.pieces[s.start].form == "word" and not ctx.lattice.filler[s.start] for s in self.segments) or any(
                        s.phrase is not None and s.phrase.rule == "findhead" for s in self.segments):
                    for x in (*ctx.places, *ctx.lengths):
                        for i in range(a, b):
                            if x.span.start <= ctx.lattice.pieces[i].span.start < x.span.end:
                                ctx.mark(i, i + 1, UNREAD, "nothing named at this place")
                    ctx.places, ctx.lengths = [], []
                    return
                super()._orphans()

        walk = Cell(ctx, segment(ctx.lattice, phrases, a, b), {}, [], self.root)
        walk.at_head = walk.line_head = False
        ctx.open, ctx.open_end, ctx.last_what = opened, end, last
        walk.steps()


def respan(s: Sighting, span: Span) -> Sighting:
    """A copy of a sighting with other words."""
    c = copy.deepcopy(s)
    c.spans = [span]
    for place in c.places:
        place.span = span
    for part in (c.length, c.count_int, c.fill, c.full_length):
        if part is not None:
            part.span = span
    for name in ("tiny", "match_head", "sound_no"):
        if getattr(c, name) is not None:
            setattr(c, name, span)
    return c
