"""What one cell of a table says under its head: figures, signs, places, the same again, and free words (guide 4.21)."""

from __future__ import annotations

import copy
from dataclasses import field, replace
from fractions import Fraction

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import headers, leaves
from notesparse.observing.draft import Ask, Entry, PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, FILLER, OF_NO_HEAD, OF_THE_UNREAD, UNREAD, Context
from notesparse.observing.paper import organ_cells, stage_cells
from notesparse.observing.paper.dated_columns import day_at
from notesparse.observing.paper.field_column import OF_THE_VISIT
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.row_labels import DAMAGED
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, phrases_at, segment
from notesparse.span import Span
from notesparse.text.columns import WIDE

_LISTED = cue_page("paper/cells")

_UNIT_KINDS = {"INCH": "in", "MM": "mm", "CM": "cm"}
_NO_RULES = {
    "label",
    "stop",
    "date",
    "planted",
    "emerged",
    "rows",
    "maturity",
    "variety",
    "goto",
    "fieldcue",
    "notvisited",
    "bareint",
    "numlist",
    "sampled",
    "ratio",
}


_SAYS_NOTHING = frozenset({"", "nothing said", "nothing above", "struck out", "on branches"})


@dataclass(slots=True)
class Said:
    """What a cell put into its plant: for `same again` below it."""

    entries: list[tuple[str, Entry]] = field(default_factory=list)
    sightings: list[Sighting] = field(default_factory=list)
    asks: list[Ask] = field(default_factory=list)
    nothing: str = ""  # why there is nothing to say again
    scars: int | None = None  # so many scars, added to the leaves
    cell: tuple[int, int] | None = None  # of a finding, which is told of the next plant too
    words: tuple[int, int] | None = None  # free words, which are read anew of the next plant

    @property
    def empty(self) -> bool:
        return not self.entries and not self.sightings


_FOR_LIKE = _LISTED.words("for_like")


@dataclass(slots=True)
class Reader:
    """Reads the cells of one table into the current visit."""

    ctx: Context
    known: dict[int, list[Fraction]]  # by column: the clean figures, to judge damaged ones by
    signs: dict[int, set[str]] = field(
        default_factory=dict
    )  # by column: the signs that stand in it ("words" for anything else)
    _scars: int | None = None
    row_of: int | None = None  # the pods counted on the plant of this row, from a column of its own
    _source: tuple[int, int] | None = None  # the words that the same-again cell stands for

    # looking at pieces -------------------------------------------------------------------------------------------------

    def text(self, a: int, b: int) -> str:
        return self.ctx.lattice.original(a, b)

    def sign(self, a: int, b: int) -> str | None:
        text = squeeze(self.text(a, b))
        return "nothing" if text and not text.strip("_") else column_words().cell(self.text(a, b))

    def amount(self, a: int, b: int) -> tuple[Fraction, int, str] | None:
        """The figure at piece a: (value, where it ends, how it was read)."""
        best = None
        for e in self.ctx.lattice.edges[a]:
            if (
                e.kind in {"INT", "DEC", "FRAC"}
                and e.end <= b
                and (best is None or (e.end, -e.cost) > (best.end, -best.cost))
            ):
                best = e
        if best is None:
            return None
        comma = self._decimal_comma(a, best.end, b)
        if comma is not None:
            return comma
        return Fraction(best.means), best.end, "exact" if best.how in {"exact", "number"} else best.how

    def _decimal_comma(self, a: int, end: int, b: int) -> tuple[Fraction, int, str] | None:
        """`0,6` in a cell is six tenths: a comma with no blank on either side, after one or two figures."""
        pieces = self.ctx.lattice.pieces
        if end != a + 1 or a + 2 >= b or pieces[a].form != "int" or pieces[a + 1].text != ",":
            return None
        tail = pieces[a + 2]
        if tail.form != "int" or not (pieces[a + 1].glued and tail.glued) or len(pieces[a].text) > 2:
            return None
        if len(tail.text) > 2 or (a + 3 < b and pieces[a + 3].glued and pieces[a + 3].text == ","):
            return None
        return Fraction(f"{pieces[a].text}.{tail.text}"), a + 3, "exact"

    def unit_at(self, a: int, b: int) -> tuple[str, int] | None:
        if a >= b:
            return None
        for e in sorted(self.ctx.lattice.edges[a], key=lambda e: -e.end):
            if e.kind in _UNIT_KINDS and e.end <= b:
                return _UNIT_KINDS[e.kind], e.end
        return None

    def cell(
        self,
        column: Column,
        number: int,
        a: int,
        b: int,
        plants: list[PlantDraft],
        above: Said | None,
        by_label: dict[str, Said],
    ) -> Said:
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
        self._scars = None
        said.nothing = self._cell(column, number, a, b, p, above, by_label) or ""
        said.scars = self._scars
        if column.what == ["note"]:
            source = self._source
            said.words = source if source is not None else (a, b)
        elif column.what[:1] in (["finding"], ["height"]):
            said.cell = self._source or (a, b)
        ctx.close()
        for key, entries in p.facts.items():
            said.entries += [(key, e) for e in entries if not any(e is x for x in before.get(key, []))]
        said.sightings = [s for s in p.sightings if not any(s is x for x in seen)]
        said.asks = [q for q in ctx.asks if q.plant is p and not any(q is x for x in asked)]
        silent = said.empty and not said.asks and said.scars is None and not said.nothing
        if silent and not {"note", "finding", "stand", "total", "buds", "height", *OF_THE_VISIT} & set(column.what[:1]):
            code = column.codes.get(squeeze(self.text(a, b)))
            if self.sign(*(code or (a, b))) not in {"same", "nothing"}:
                ctx.mark(a, b, UNREAD, "not understood in this column")  # nothing came of it: it must be seen
        ctx.steps.append(
            (ctx.span(a, b), "cell", ", ".join(column.what) or "?", "unread" if said.nothing else "evidence", ())
        )
        return said

    def _cell(
        self, column: Column, number: int, a: int, b: int, p: PlantDraft, above: Said | None, by_label: dict[str, Said]
    ) -> str | None:
        """Returns why the cell says nothing, if so."""
        ctx = self.ctx
        self._source = None
        a = self.struck(a, b)
        if a >= b:
            return "struck out"
        span = ctx.span(a, b)
        sign = self.sign(a, b)
        if sign == "unreadable" or (
            ctx.lattice.pieces[a].text in "[("
            and self.sign(a, self._bracket(a, b)) == "unreadable"
            and self._bracket(a, b) == b
        ):
            ctx.mark(a, b, UNREAD, "cannot be read in the note")
            return "cannot be read"
        if sign == "same":
            if column.what[:1] in (["finding"], ["height"]) and above is not None and above.cell is not None:
                self._source = above.cell
                self._finding(column, *above.cell, p)
                ctx.mark(a, b, EVIDENCE)
                return None
            if column.what == ["scars"] and above is not None and above.scars is not None:
                return self.scars(above.scars, a, b, p)
            if above is not None and above.empty and not above.nothing and {*ORGANS, "fill"} & set(column.what):
                ctx.mark(a, b, UNREAD, "the same as what is not understood")
                return "nothing above"
            return self.again(above, p, span, a, b)
        code = column.codes.get(squeeze(self.text(a, b)))
        if code is not None and not (sign in {"yes", "no"} and self.plain_words(*code)):
            of = replace(column, what=["seeds"]) if column.what == ["fill"] else column  # F = seed fills the pod
            return self.coded(of, number, code, span, a, b, p)
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
            elif column.what == ["scars"] and source.scars is not None:
                self.scars(source.scars, a, end, p)
            else:
                self.again(source, p, ctx.span(a, end), a, end)
            if end < b:
                self.walk(end, b)
            return None
        if not column.known or (column.unknown and not column.finding):
            ctx.mark(a, b, UNREAD, OF_NO_HEAD)
            return "no known head"
        first = column.what[0]
        if column.branch:
            ctx.mark(a, b, UNREAD, "seen on branches: no evidence for a stage")
            return "on branches"
        if column.beside is not None:
            return self.pair(first, column.beside, number, a, b)
        if column.what == ["trifoliates", "scars"]:
            return self.summed(column, number, a, b, p)
        if first in {"trifoliates", "nodes"}:
            return self.count(first, number, a, b, sign)
        if first == "pods" and stage_cells.turning(self, a, b):
            return None
        if first in ORGANS:
            return organ_cells.organ(self, column, number, a, b, sign)
        if first in {"stage", "v", "r"}:
            return stage_cells.stage(self, first, number, a, b)
        if first == "brown":
            return stage_cells.brown(self, column, number, a, b, sign)
        if first in {"top_leaf", "unifoliates", "emerged"}:
            return stage_cells.leaf(self, first, a, b, sign, column.flat)
        if first == "first_trif":
            return stage_cells.first_trifoliate(self, a, b, sign)
        if first == "fill":
            return organ_cells.fill(self, a, b, sign, p)
        if first == "scars":
            got = self.whole(number, a, b)
            if sign == "no" or (got is not None and got[1] == b):
                return self.scars(0 if sign == "no" or got is None else got[0], a, b, p)
            if got is not None and ctx.lattice.pieces[got[1]].gap >= WIDE:  # 3     next leaf still rolled
                self.scars(got[0], a, got[1], p)
                a = got[1]
            self.walk(a, b)
            return None
        if first in OF_THE_VISIT:
            if headers.of_column(ctx, first, a, b, day_at(ctx.lattice, a, b)):
                ctx.mark(a, b, EVIDENCE)
                return ""
            ctx.mark(a, b, UNREAD, "not understood in this column")
            return "cannot be told"
        if first == "stand" and column.per is not None:
            return stage_cells.stand(self, column.per, number, a, b)
        if first == "buds":
            ctx.mark(a, b, EVIDENCE if sign is not None or self.amount(a, b) is not None else UNREAD, "a word of buds")
            return None  # buds are no flowers: they tell of no stage
        if first == "total":
            ctx.mark(a, b, EVIDENCE if self.row_of is not None else UNREAD, "a total of nothing named")
            return None
        if first == "height" or (first == "finding" and column.finding is not None):
            return self._finding(column, a, b, p)
        self.walk(a, b)
        return None

    def _finding(self, column: Column, a: int, b: int, p: PlantDraft) -> str | None:
        what = ("HEIGHTWORD", "height") if column.what[0] == "height" or column.finding is None else column.finding
        return stage_cells.finding(self, column, what, a, b, self.sign(a, b), p)

    def plain_words(self, a: int, b: int) -> bool:
        """`✓ = seen`: a meaning that adds nothing to what the sign says by itself."""
        told = any(e.kind not in {"LETTER", "SEEN"} and e.how == "exact" for e in self.ctx.lattice.edges[a])
        return b == a + 1 and not told and not read_heads(self.ctx.lattice, [range(a, b)])

    def pair(self, first: str, second: str, number: int, a: int, b: int) -> str | None:
        """`9/10` under `tf/nd`: each figure is of its own head."""
        strokes = [i for i in range(a + 1, b - 1) if self.ctx.lattice.pieces[i].text == "/"]
        if len(strokes) != 1:
            return "not two figures"
        for what, x, y in ((first, a, strokes[0]), (second, strokes[0] + 1, b)):
            sign = self.sign(x, y)
            if what in {"trifoliates", "nodes"}:
                self.count(what, -1 - number, x, y, sign)
            elif sign != "no":
                stage_cells.stage(self, what, -1 - number, x, y)
        self.ctx.mark(strokes[0], strokes[0] + 1, EVIDENCE)
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
        while k < b and pieces[k].text in _FOR_LIKE:
            k += 1
        if k == a or k >= b or not {pieces[x].text for x in range(a, k)} & {"as", "like", "same"}:
            return None
        p = pieces[k]
        if p.form == "int" or (p.form == "word" and len(p.text) == 1):
            return self.text(k, k + 1), k + 1
        return None

    def again(self, source: Said | None, p: PlantDraft, span: Span, a: int, b: int) -> str | None:
        """The same again: what the cell above said, now with this cell's own characters."""
        ctx = self.ctx
        if source is None or source.empty:
            if source is None:
                if not any(target is p for target, _, _ in ctx.same_targets):
                    ctx.same_targets.append((p, "the plant before it", span))
                ctx.mark(a, b, EVIDENCE)
                return "nothing above"
            lost = source.nothing not in _SAYS_NOTHING
            ctx.mark(a, b, UNREAD if lost else EVIDENCE, OF_THE_UNREAD if lost else "")
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

    def footnote(
        self, column: Column, number: int, cell: tuple[int, int], words: tuple[int, int], p: PlantDraft
    ) -> None:
        """A star behind a cell: the footnote's words are said of its plant too."""
        ctx = self.ctx
        ctx.plants, ctx.explicit = [p], True
        before = len(p.sightings) + sum(len(es) for es in p.facts.values())
        folded = stage_cells.folded(self, *words)
        if folded is not None and not set(column.what) & set(ORGANS):
            leaves.put(ctx, "top_leaf", "rolled" if folded else "unrolled", ctx.span(cell[0], cell[1] + 1))
            ctx.mark(*words, EVIDENCE)
        else:
            self._cell(self._telling(column), number, *words, p, None, {})
        ctx.close()
        told = len(p.sightings) + sum(len(es) for es in p.facts.values()) > before
        ctx.mark(cell[1], cell[1] + 1, EVIDENCE if told else UNREAD, "" if told else "its footnote is not understood")

    def _telling(self, column: Column) -> Column:
        """The column that a key's words are read under: a sign for words among figures may tell of anything."""
        if set(column.what) & {"trifoliates", "nodes", "note"}:
            return Column(what=["note"])
        return replace(column, codes={}, by_node=None)

    def coded(
        self, column: Column, number: int, code: tuple[int, int], span: Span, a: int, b: int, p: PlantDraft
    ) -> str | None:
        """A sign that a legend explains: read the legend's words, of this plant."""
        ctx = self.ctx
        seen, asked = list(p.sightings), list(ctx.asks)
        before = {key: list(es) for key, es in p.facts.items()}
        organ = column.code_organs.get(squeeze(self.text(a, b))) if set(column.what) & {"note", "trifoliates"} else None
        plain = self._telling(column) if organ is None else Column(what=[organ])
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

    def whole(self, number: int, a: int, b: int) -> tuple[int, int, bool] | None:
        """A whole number, clean or damaged: (value, where it ends, damaged)."""
        got = self.amount(a, b)
        if got is not None and got[0].denominator == 1 and self.ctx.lattice.pieces[a].form != "dec":
            if got[2] == "exact":
                return int(got[0]), got[1], False
            if got[2] == "figure":
                return (int(got[0]), got[1], True) if self.fits(number, got[0]) else None
            return int(got[0]), got[1], False
        run = self.text(a, b)
        if not 1 <= len(run) <= 3 or any(c.isspace() for c in run):
            return None
        readings = [""]
        for c in run:
            readings = [r + d for r in readings for d in (c if c.isdigit() else DAMAGED.get(c, ""))]
        values = sorted({int(r) for r in readings if r and self.fits(number, Fraction(int(r)))})
        if len(values) > 1:  # B among 6, 7 and 9 is an 8, and no 3
            clean = self.known.get(number, [])
            values = [v for v in values if clean and min(clean) - 1 <= v <= max(clean) + 1]
        return (values[0], b, True) if len(values) == 1 else None

    def fits(self, number: int, value: Fraction) -> bool:
        """Whether a damaged figure read so lies among the clean ones of its column."""
        clean = sorted(self.known.get(number, []))
        if not clean:
            return value <= 26
        spread = max(Fraction(4), clean[-1] - clean[0])
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
        if end < b and {e.kind for e in ctx.lattice.edges[end]} & {"DOWN", "FROM"}:
            ctx.mark(start, b, UNREAD, "a place on the stem, under a head of counts")
            return "not a count"
        while (
            end < b
            and ctx.lattice.pieces[end].text in {"?", ")", "+", ".", "±"}
            and (end + 1 == b or ctx.lattice.pieces[end].text != "+")
        ):
            end += 1
        span = ctx.span(a, end)
        high = self.range_to(number, end, b)
        if high is not None and n < high[0] <= n + 4:
            span = ctx.span(a, high[1])
            plants = leaves.put(ctx, key, n, span)
            ctx.ask(
                Ask(
                    "4.2",
                    span,
                    f"Has plant {plants[-1].label} {n} or {high[0]} {key}?",
                    [(f"{m}", {key: m}) for m in range(n, high[0] + 1)],
                    plants[-1],
                    0,
                    key,
                )
            )
            ctx.mark(start, high[1], EVIDENCE)
            end = high[1]
        elif leaves.count(ctx, key, n, span) is None:
            ctx.mark(start, b, UNREAD, "more than a soybean plant has")
            return "refused"
        else:
            ctx.mark(start, end, EVIDENCE)
            if damaged:
                ctx.assume(
                    "4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {n}: the column leaves no other figure"
                )
        noun = {"trifoliates": "TRIF"}.get(key, "NODES")
        stop = b - (b - 1 > end and ctx.lattice.pieces[b - 1].text == ".")
        if end < b and any(e.kind == noun and e.end == stop for e in ctx.lattice.edges[end]):
            ctx.mark(end, b, EVIDENCE)  # 10 tri, in a list of counts
        elif end + 1 == b and ctx.lattice.pieces[end].glued and ctx.lattice.pieces[end].form == "word":
            ctx.mark(end, b, UNREAD, "a letter behind a figure that no key explains")
        elif end < b:
            self.walk(end, b, {"trif"} if key == "trifoliates" else {"nodes"})
        return None

    def summed(self, column: Column, number: int, a: int, b: int, p: PlantDraft) -> str | None:
        """`7 + 1`, `7 + 1 sc` under `tf + scars`: so many leaves, and so many that were there."""
        pieces = self.ctx.lattice.pieces
        plus = next((i for i in range(a + 1, b - 1) if pieces[i].text in {"+", "and", "&", "plus"}), None)
        more = self.whole(number, plus + 1, b) if plus is not None else None
        if plus is None or more is None:
            return self.count("trifoliates", number, a, b, self.sign(a, b))
        own = {pieces[i].text for i in column.pieces} | {".", ")"}
        behind = [i for i in range(more[1], b) if pieces[i].text not in own]
        if any(not any(e.kind == "SCAR" for e in self.ctx.lattice.edges[i]) for i in behind):
            self.ctx.mark(a, b, UNREAD, "leaves and something else that is not understood")
            return "not understood"
        why = self.count("trifoliates", number, a, plus, self.sign(a, plus))
        self.ctx.mark(plus, plus + 1, EVIDENCE)
        return why or self.scars(more[0], plus + 1, b, p)

    def range_to(self, number: int, a: int, b: int) -> tuple[int, int] | None:
        pieces = self.ctx.lattice.pieces
        if a + 1 < b and pieces[a].text in {"-", "to", "or", "/"}:
            got = self.whole(number, a + 1, b)
            if got is not None:
                end = got[1]
                while end < b and pieces[end].text in {"?", ")"}:
                    end += 1
                return (got[0], end) if end == b else None
        return None

    def scars(self, n: int, a: int, b: int, p: PlantDraft) -> str | None:
        """Scars are leaves that were there: they are added to those of the row."""
        last = p.last("trifoliates")
        if n and (last is None or last.value + n > leaves.TRIFOLIATES_REFUSE):
            return "no count of leaves to add this to"
        self._scars = n
        self.ctx.mark(a, b, EVIDENCE)
        if n and last is not None:
            p.facts["trifoliates"][-1] = replace(last, value=last.value + n)
            self.ctx.asks = [
                q for q in self.ctx.asks if not (q.plant is p and q.key == "trifoliates" and q.span == last.span)
            ]
        return None

    def walk(self, a: int, b: int, without: set[str] | frozenset[str] = frozenset()) -> None:
        """Read pieces [a, b) like prose about the current plants."""
        from notesparse.observing.walking.listening import Listener  # a walk reads tables, and a table walks its cells
        from notesparse.observing.walking.walk import steps

        ctx = self.ctx
        if not any(ctx.lattice.pieces[i].form == "word" for i in range(a, b)) and ctx.last_what is None:
            digits = any(ctx.lattice.pieces[i].form in {"int", "dec"} for i in range(a, b))
            ctx.mark(a, b, UNREAD if digits else FILLER, "a figure with nothing to count" if digits else "")
            return
        phrases: list[list[Phrase]] = []
        for i in range(a, b):
            phrases.append(
                [ph for ph in phrases_at(ctx.lattice, i) if ph.end <= b and ph.rule not in _NO_RULES | without]
            )
        opened, end, last = ctx.open, ctx.open_end, ctx.last_what
        listener = Listener(ctx, segment(ctx.lattice, phrases, a, b), {}, [])
        listener.at_head = listener.line_head = False
        listener.cell = (a, b)
        ctx.open, ctx.open_end, ctx.last_what = opened, end, last
        steps(listener)


def respan(s: Sighting, span: Span) -> Sighting:
    """A copy of a sighting with other words; a place that the head of its column told stays where it is told."""
    c = copy.deepcopy(s)
    c.spans = [span]
    for place in c.places:
        place.span = span if s.span.start <= place.span.start < s.span.end else place.span
    for part in (c.length, c.count_int, c.fill, c.full_length):
        if part is not None:
            part.span = span
    for name in ("tiny", "match_head", "sound_no"):
        if getattr(c, name) is not None:
            setattr(c, name, span)
    return c
