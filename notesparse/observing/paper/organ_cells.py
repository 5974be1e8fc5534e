"""Cells under heads of flowers, pods and seeds: signs, nodes, sizes, counts, words (guide 4.21)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from notesparse.language.columns import column_words, head_tokens
from notesparse.observing import organs
from notesparse.observing.draft import Ask, Entry, Length, Place, PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.organs import MM
from notesparse.observing.paper.heads import Column
from notesparse.observing.sizes import LONGEST_POD, LONGEST_SEED
from notesparse.span import Span

if TYPE_CHECKING:
    from notesparse.observing.paper.cells import Reader
    from notesparse.text.lattice import Edge
from notesparse.language.cues import cue_page

_LISTED = cue_page("paper/organ_cells")
_COMMON = cue_page("shared")

_LONGEST_RANGE = 8  # nodes
_MOST_NODES = 28
_MOST_TOP = 6
_LONGEST_PLACE = 5  # pieces of a place at a cell's end
_SHORTEST = 2
_SURE_MM = 3  # a length from here up is no fraction of an inch
_BELOW_MM = 3
_TIMES = 4
_FELT = _COMMON.words("felt")
_UNITS = frozenset({"INCH", "MM", "CM"})
_JOINED = _COMMON.words("and") | {"."}
_UNIT = {"in": MM, "mm": Fraction(1), "cm": Fraction(10), "16": MM / 16, "8": MM / 8, "4": MM / 4}


_FOR_ORGAN = _LISTED.words("for_organ")


def organ(reader: Reader, column: Column, number: int, a: int, b: int, sign: str | None) -> str | None:
    ctx = reader.ctx
    tail = _place_behind(reader, a, b)
    if tail is not None:  # full, t4;  3/16 (4th)
        cut, place = tail
        done = organ(reader, replace(column, cell_place=place), number, a, cut, reader.sign(a, cut))
        ctx.mark(cut, b, UNREAD if done else EVIDENCE, done or "")
        return done
    span = ctx.span(a, b)
    what = column.what[0]
    lone = b == a + 1 and ctx.lattice.pieces[a].form == "int" and int(ctx.lattice.pieces[a].text) > 0
    if column.where or (column.high and lone and column.by_node is None and column.unit is None):
        return _where(reader, column, number, a, b, sign)
    if sign == "x" and not column.codes:
        for w in column.what:
            for s in organs.look(ctx, w, True, span):
                _head_place(reader, s, column)
        p = ctx.plants[-1]
        ctx.mark(a, b, EVIDENCE)
        if reader.signs.get(number, set()) <= _FOR_ORGAN:
            ctx.assume("4.21", span, f"“{reader.text(a, b)}” is a check mark: the column has no other sign for yes")
            return None
        ctx.ask(
            Ask(
                "4.21",
                span,
                f"Does “{reader.text(a, b)}” mean that plant {p.label} has {what}, or none?",
                [(f"has {what}", {what: True}), (f"no {what}", {what: False})],
                p,
                0,
                what,
            )
        )
        return None
    if sign == "gone" and what == "flowers":
        for s in organs.look(ctx, what, False, span):
            s.past = True
        ctx.mark(a, b, EVIDENCE)
        return None
    if sign in {"no", "yes"}:
        for w in column.what:
            for s in organs.look(ctx, w, sign == "yes", span):
                _head_place(reader, s, column)
                if sign == "yes" and w == "seeds" and any(ctx.lattice.pieces[i].text in _FELT for i in column.pieces):
                    s.fill = Entry("partial", span)  # can feel seed: y (guide 4.13)
        ctx.mark(a, b, EVIDENCE)
        return None
    top = _top_in_short(reader, a, b)
    if top is not None:
        for s in organs.look(ctx, what, True, span):
            s.places = [top]
        ctx.mark(a, b, EVIDENCE)
        return None
    if what == "seeds" and any(w.means == "fill" for w in column_words().heads.get(head_tokens(reader.text(a, b)), ())):
        for s in organs.look(ctx, what, True, span):  # fills it
            s.fill = Entry("full", span)
            _head_place(reader, s, column)
        ctx.mark(a, b, EVIDENCE)
        return None
    hedged = a
    while hedged < b and (
        {e.kind for e in ctx.lattice.edges[hedged]} & {"HEDGE"} or ctx.lattice.pieces[hedged].text in "~"
    ):
        hedged += 1
    if (
        column.by_node is not None
        and hedged + 1 < b
        and (ctx.lattice.pieces[hedged].text == "+" or reader.sign(hedged, hedged + 1) == "yes")
    ):
        hedged += ctx.lattice.pieces[hedged + 1].glued  # +3: there, at node 3
    if hedged < b and column.by_node is not None and _node(reader, column, number, hedged, b, span):
        ctx.mark(a, b, EVIDENCE)
        return None
    if hedged < b and what in {"pods", "seeds"}:
        done = _length(reader, column, number, a, hedged, b)
        if done is not None:
            return done or None
    elif hedged < b:
        got = reader.whole(number, hedged, b)
        if (
            got is not None
            and (got[1] == b or (ctx.lattice.pieces[got[1]].text in {"?", "+"} and got[1] + 1 == b))
            and got[0] <= 60
        ):
            for s in organs.look(ctx, what, got[0] > 0, span):
                _head_place(reader, s, column)
            ctx.mark(a, b, EVIDENCE)
            return None
    return _words(reader, column, a, b)


def _place_behind(reader: Reader, a: int, b: int) -> tuple[int, tuple[str, tuple[int, ...], tuple[int, int]]] | None:
    """`, t4`, `(4th)`, `, 2nd dn` at a cell's end, behind a size or a word: where that ends, and the place."""
    pieces = reader.ctx.lattice.pieces
    end = b - (pieces[b - 1].text == ")")
    k = end
    while k > a + 1 and end - k < _LONGEST_PLACE and pieces[k - 1].text not in {",", "(", ";", "@"}:
        k -= 1
    short = k == a + 1 and end - a > _SHORTEST and pieces[end - 2].text == "t"  # no mark before it: 1 t4
    k = end - 2 if short else k
    if not short and (k <= a + 1 or pieces[k - 1].text not in {",", "(", ";", "@"}):
        return _ordinal_behind_a_size(reader, a, b)
    cut = k if short else k - 1
    if cut <= a or k >= end or any(e.kind in {"ORD", "TOP"} and e.end <= cut for e in reader.ctx.lattice.edges[a]):
        return None  # 1st, 2nd; top, 3rd: two places
    if end == k + 2 and pieces[k].text in {"t", "top"} and pieces[k + 1].form == "int":
        n = int(pieces[k + 1].text)
        return (cut, ("top_n", (n,), (k, end))) if 1 <= n <= _MOST_TOP else None
    for e in reader.ctx.lattice.edges[k]:
        down = e.end < end and all(
            any(x.kind in {"DOWN", "NODE", "NODES"} for x in reader.ctx.lattice.edges[i]) for i in range(e.end, end)
        )
        numbered = e.kind == "ORD" or (e.kind == "INT" and down)
        if numbered and (e.end == end or down) and 1 <= int(e.means) <= _MOST_NODES:
            return cut, ("ord_down", (int(e.means),), (k, end))
    return None


def _ordinal_behind_a_size(
    reader: Reader, a: int, b: int
) -> tuple[int, tuple[str, tuple[int, ...], tuple[int, int]]] | None:
    """`3/16 4th` under a head of pods: the size, and the node."""
    edges = reader.ctx.lattice.edges
    sizes = {e.end for e in edges[a] if e.kind in {"FRAC", "DEC"}}
    for k in range(max(a + 1, b - 2), b):
        node = next((e for e in edges[k] if e.kind == "ORD" and e.end == b), None)
        if node is not None and k in sizes and 1 <= int(node.means) <= _MOST_NODES:
            return k, ("ord_down", (int(node.means),), (k, b))
    return None


def _where(reader: Reader, column: Column, number: int, a: int, b: int, sign: str | None) -> str | None:
    """A place of the plant, in words or as a bare node (`9`: from which end is told or asked as in prose)."""
    ctx = reader.ctx
    what = column.what[0]
    if sign == "no":
        ctx.mark(a, b, FILLER)
        return "nothing said"
    span = ctx.span(a, b)
    if column.by_node is not None and _node(reader, column, number, a, b, span):
        ctx.mark(a, b, EVIDENCE)
        return None
    if column.by_node == "down" and any(e.kind == "TOP" and e.end == b for e in ctx.lattice.edges[a]):
        for s in organs.look(ctx, what, True, span):  # top, under a head of nodes
            s.places = [Place("ord_down", (1,), span)]
        ctx.mark(a, b, EVIDENCE)
        return None
    if b == a + 1 and ctx.lattice.pieces[a].form == "int":
        for s in organs.look(ctx, what, True, span):
            s.places = [Place("node_n", (int(ctx.lattice.pieces[a].text),), span)]
        ctx.mark(a, b, EVIDENCE)
        return None
    return _words(reader, Column(what=[what]), a, b)


def _node(reader: Reader, column: Column, number: int, a: int, b: int, span: Span) -> bool:
    """A figure under a head that says `node from top`."""
    ctx = reader.ctx
    numbers: list[int] = []
    k = a
    while k < b:
        past = _past_the_top(reader, k, b) if column.by_node == "down" else k
        if past > k:
            numbers.append(1)
            k = past
            continue
        e = _number_at(reader, k, b)
        if e is not None and int(e.means) <= 30:
            numbers.append(int(e.means))
            k = e.end
            last = _last_of_range(reader, numbers[-1], k, b)
            if last is not None:
                numbers += range(numbers[-1] + 1, int(last.means) + 1)
                k = last.end
            elif e.kind == "ORD" and k + 1 < b and ctx.lattice.pieces[k].text == "/":
                k += 1  # 1st/2nd
            continue
        if ctx.lattice.pieces[k].text in column.node_signs:
            k += 1
            continue
        if numbers and (ctx.lattice.pieces[k].text in _JOINED or any(e.kind == "LOW" for e in ctx.lattice.edges[k])):
            k += 1  # 2nd, low: the highest ones decide
            continue
        got = reader.whole(number, k, b)
        if got is None or numbers:
            return False
        numbers, k = [got[0]], got[1]
    if not numbers or 0 in numbers:
        return False
    form = ("ord_down" if len(numbers) == 1 else "ords_down") if column.by_node == "down" else "ord_up"
    places = [Place("ord_up", (n,), span) for n in numbers] if form == "ord_up" else [Place(form, tuple(numbers), span)]
    said_no = {
        w for w in column.what if any(x.what == w and x.present is False for p in ctx.plants for x in p.sightings)
    }
    told = (
        [w for w in column.what if w not in said_no] if len(column.what) > 1 and len(ctx.plants) == 1 else column.what
    )
    for w in told or column.what:  # pod 3.6, seed -, node of both 4: of the pod
        for s in organs.look(ctx, w, True, span):
            s.places = list(places)
    return True


def _past_the_top(reader: Reader, k: int, b: int) -> int:
    """`top`, `top node`, `top, 3rd` where nodes are counted from the top: the first of them; `top 2` tells two."""
    edges = reader.ctx.lattice.edges
    if not any(e.kind == "TOP" and e.end == k + 1 for e in edges[k]):
        return k
    end = k + 1
    if end < b and any(e.kind in {"NODE", "NODES"} and e.end == end + 1 for e in edges[end]):
        end += 1
    return k if end < b and any(e.kind in {"INT", "ORD"} for e in edges[end]) else end


def _number_at(reader: Reader, k: int, b: int) -> Edge | None:
    """`2`, `2nd`: the number of a node at piece k of a cell that ends at piece b."""
    return next((e for e in reader.ctx.lattice.edges[k] if e.kind in {"INT", "ORD"} and e.end <= b), None)


def _last_of_range(reader: Reader, first: int, k: int, b: int) -> Edge | None:
    """`1-3`, `1st to 3rd`: the last node of a range."""
    if k + 1 >= b or reader.ctx.lattice.pieces[k].text not in {"-", "to", "thru"}:
        return None
    last = _number_at(reader, k + 1, b)
    return last if last is not None and first < int(last.means) <= first + _LONGEST_RANGE else None


def _head_place(reader: Reader, s: Sighting, column: Column) -> None:
    """The place that the head names is the place of every cell under it."""
    if column.cell_place is not None:
        form, numbers, at = column.cell_place
        s.places = s.places or [Place(form, numbers, reader.ctx.span(*at))]
        return
    ph = column.place
    if ph is not None and not s.places:
        s.places.append(organs.place(ph, reader.ctx.span(ph.start, ph.end)))
        if column.in_pods and s.what == "seeds" and s.present:
            for pod in organs.look(reader.ctx, "pods", True, s.span):
                pod.places = list(s.places)


def _length(reader: Reader, column: Column, number: int, start: int, a: int, b: int) -> str | None:
    """A size or a count of pods at the cell's head. None: there is none; an empty string: read."""
    ctx = reader.ctx
    what = column.what[0]
    got = reader.amount(a, b)
    if got is None and len(reader.text(a, b)) <= 2:
        whole = reader.whole(number, a, b)
        got = (Fraction(whole[0]), whole[1], "figure") if whole is not None else None
    if got is None:
        return None
    value, end, how = got
    values = [value]
    unit: str | None = None
    first_unit = reader.unit_at(end, b)
    if first_unit is not None:
        unit, end = first_unit
    if end + 1 < b and ctx.lattice.pieces[end].text in {"-", "to", "or"}:
        more = reader.amount(end + 1, b)
        if more is not None:
            values.append(more[0])
            end = more[1]
            second = reader.unit_at(end, b)
            if second is not None:
                unit, end = second
    if end < b and ctx.lattice.pieces[end].text in {"?", "+", "±"} and end + 1 == b:
        end = b
    if what == "seeds" and ctx.lattice.pieces[a].text == "half" and unit is None and column.unit is None:
        for s in organs.look(ctx, what, True, ctx.span(start, end)):  # half full
            s.fill = Entry("partial", ctx.span(start, end))
            _head_place(reader, s, column)
        ctx.mark(start, end, EVIDENCE)
        return _after(reader, end, b)
    nxt = ctx.lattice.pieces[end].text if end < b else ","
    if nxt not in {",", ";", "(", ".", "-"} and {e.kind for e in ctx.lattice.edges[end]} & {
        "POD",
        "SEED",
        "BEAN",
        "FLOWER",
        "BROWN",
        "PCT",
        "OF",
        "DOWN",
        "FROM",
        "NODE",
        "NODES",
        "TOP",
        "UP",
        "SLASH",
        "PIN",
        "GREEN",
        "TOUCHING",
        "UPW",
    }:
        return None
    span = ctx.span(a, end)
    given = unit or column.unit
    plain = unit is None and all(v.denominator == 1 for v in values) and ctx.lattice.pieces[a].form != "dec"
    if given is None and plain and what == "pods" and ((column.plural and not column.measure) or column.count):
        for s in organs.look(ctx, what, value > 0, span):  # a count of pods
            _head_place(reader, s, column)
    elif value == 0 and len(values) == 1:
        for s in organs.look(ctx, what, False, span):
            _head_place(reader, s, column)
    elif given is None and plain and what == "pods" and _lost_point(reader, number, value) is None:
        bare = "column" if value < _INCHES_BELOW and _like_the_column(reader, number) else "whole"
        for s in organs.look(ctx, what, True, span):
            s.count_int = Length(
                float(value) if len(values) == 1 else (float(values[0]), float(values[1])), False, span, bare=bare
            )
            _head_place(reader, s, column)
    elif given is None and plain and what == "seeds":
        for s in organs.look(ctx, what, True, span):
            _head_place(reader, s, column)
    else:
        return _sized(reader, column, number, values, given, unit, span, start, end, b, how)
    ctx.mark(start, end, EVIDENCE)
    return _after(reader, end, b)


def _sized(
    reader: Reader,
    column: Column,
    number: int,
    values: list[Fraction],
    given: str | None,
    unit: str | None,
    span: Span,
    start: int,
    end: int,
    b: int,
    how: str,
) -> str:
    ctx = reader.ctx
    what = column.what[0]
    key = "pod_mm" if what == "pods" else "seed_mm"
    lost = _lost_point(reader, number, values[0]) if unit is None and len(values) == 1 else None
    factor = _UNIT[given] if given else MM if (lost or max(values)) < _INCHES_BELOW else Fraction(1)
    mm: Any = float(values[0] * factor) if len(values) == 1 else tuple(sorted(float(v * factor) for v in values[:2]))
    inches = factor not in {Fraction(1), Fraction(10)}
    high = mm[1] if isinstance(mm, tuple) else mm
    limit = LONGEST_POD if what == "pods" else LONGEST_SEED
    ask: list[tuple[str, float]] = []
    asked = ""
    if lost is not None:
        first = float(lost * factor)
        shown = format(float(lost), "g").removeprefix("0") + f" {given or 'in'}"
        ask = [(shown, first)]
        if high <= limit:
            ask.append((f"{float(values[0]):g} {given or 'in'}", high))
        if factor != 1 and float(values[0]) <= limit:
            ask.append((f"{float(values[0]):g} mm", float(values[0])))
        mm = first
    elif given == "mm" and unit is None and _rather_inches(reader, number, values):
        inch = float(values[0] * MM)
        ask = [(f"{mm:g} mm", float(values[0])), (f"{span.of(ctx.lattice.text)} in", inch)]
        asked = "millimetres, as the head says, or inches"
    elif high > limit:
        ctx.mark(start, end, UNREAD, f"longer than a soybean {what[:-1]}")
        return "refused"
    bare = None if given else "fraction" if inches else "whole"
    at_node = _node_in_bracket(reader, column, end, b) or _top_in_short(reader, end, b)
    for s in organs.look(ctx, what, True, span):
        s.length = Length(mm, inches, span, bare=bare)
        if at_node is not None:
            s.places = [at_node]
        _head_place(reader, s, column)
    end = b if at_node is not None else end
    if ask and len(ask) > 1:
        p = ctx.plants[-1]
        text = span.of(ctx.lattice.text)
        ctx.ask(
            Ask(
                "4.21",
                span,
                f"Is “{text}” of plant {p.label} {asked or 'a figure that has lost its decimal point'}?",
                [(name, {key: v}) for name, v in ask],
                p,
                0,
                key,
                always=True,
            )
        )
    if how == "figure":
        ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as a damaged figure")
    ctx.mark(start, end, EVIDENCE)
    return _after(reader, end, b)


_INCHES_BELOW = 3  # guide 4.6


def _like_the_column(reader: Reader, number: int) -> bool:
    """A bare 2 in a column of 3, 4 and 5: whatever these are, so is the 2."""
    others = reader.known.get(number, [])
    return all(v.denominator == 1 for v in others) and any(v >= _INCHES_BELOW for v in others)


def _rather_inches(reader: Reader, number: int, values: list[Fraction]) -> bool:
    """3/4 or .5 under a head in millimetres, where the others are many times as long: the unit may have changed."""
    others = [v for v in reader.known.get(number, []) if v >= _SURE_MM]
    low = len(values) == 1 and values[0] < _BELOW_MM and values[0].denominator != 1
    return low and bool(others) and min(others) >= _TIMES * values[0]


def _node_in_bracket(reader: Reader, column: Column, end: int, b: int) -> Place | None:
    """`3/16 (4)` under a head that counts nodes: the size, and the node it is at."""
    pieces = reader.ctx.lattice.pieces
    if column.by_node is None or b != end + 3 or pieces[end].text != "(" or pieces[end + 1].form != "int":
        return None
    n = int(pieces[end + 1].text)
    if pieces[b - 1].text != ")" or not 0 < n <= _MOST_NODES:
        return None
    return Place("ord_down" if column.by_node == "down" else "ord_up", (n,), reader.ctx.span(end, b))


def _top_in_short(reader: Reader, a: int, b: int) -> Place | None:
    """`t2`, `T4` and no more, under a head of an organ: on so many top nodes."""
    pieces = reader.ctx.lattice.pieces
    if b != a + 2 or pieces[a].text not in {"t", "top"} or pieces[a + 1].form != "int":
        return None
    n = int(pieces[a + 1].text)
    return Place("top_n", (n,), reader.ctx.span(a, b)) if 1 <= n <= _MOST_TOP else None


def _after(reader: Reader, end: int, b: int) -> str:
    if end < b:
        reader.ctx.open_end = end
        reader.walk(end, b)
    return ""


def _lost_point(reader: Reader, number: int, value: Fraction) -> Fraction | None:
    """25 among .25 and .3 is likely .25, 21 among 1.8 and 2.2 is 2.1: the value with its point put back, if the column
    has decimals and it does not fit."""
    clean = reader.known.get(number, [])
    decimals = [v for v in clean if v.denominator != 1]
    if value.denominator != 1 or value == 0 or len(decimals) < 2:
        return None
    most = max(decimals)
    if value <= 2 * most:
        return None
    written = (value / Fraction(10**k) for k in range(len(str(int(value))), 0, -1))
    return next((v for v in written if min(decimals) / 3 <= v <= most * 3), None)


def _only_a_size(reader: Reader, a: int, b: int) -> bool:
    """`1/2`, `3/8"`: a fraction, with a unit or none, and no other word in the cell."""
    ends = [e.end for e in reader.ctx.lattice.edges[a] if e.kind in {"FRAC", "DEC"}]
    end = max(ends, default=b + 1)
    return end <= b and all(e.kind in _UNITS for k in range(end, b) for e in reader.ctx.lattice.edges[k])


def _words(reader: Reader, column: Column, a: int, b: int) -> str | None:
    """Words under a head of flowers, pods or seeds: what they say is said of that."""
    ctx = reader.ctx
    what = column.what[0]
    span = ctx.span(a, b)
    p = ctx.plants[0]
    if what == "flowers" and _only_a_size(reader, a, b):
        return "a size under a head of flowers"
    implied: list[Sighting] = []
    for q in ctx.plants:
        s = Sighting(what, None, [span], clause=ctx.clause)
        q.sightings.append(s)
        implied.append(s)
    ctx.open, ctx.open_end, ctx.last_what = implied, a, what
    first = reader.sign(a, a + 1)
    if (
        first in {"yes", "no"}
        and a + 2 < b
        and ctx.lattice.pieces[a + 1].text in {",", ";", "-", ":", "("}
        and ctx.lattice.pieces[a].form == "word"
    ):
        for s in implied:  # y, top 2
            s.present = first == "yes"
        ctx.mark(a, a + 2, EVIDENCE)
        a += 2
    ordinal = next((e for e in ctx.lattice.edges[a] if e.kind == "ORD" and e.end == b), None)
    top = next((e for e in ctx.lattice.edges[a] if e.kind == "TOP" and e.end == b), None)
    if ordinal is not None or top is not None:
        for s in implied:
            s.places = (
                [Place("ord_down", (int(ordinal.means),), span)] if ordinal is not None else [Place("up_top", (), span)]
            )
        ctx.mark(a, b, EVIDENCE)
    else:
        ctx.mark(a, b, UNREAD, "not understood in this column")
        reader.walk(a, b)
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
                _head_place(reader, s, column)
        elif s.present is None and s in q.sightings:
            q.sightings.remove(s)
    for q in ctx.plants:
        for x in q.sightings:
            if x.what == what and span.start <= x.span.start < span.end:
                _head_place(reader, x, column)
    if (p.sightings and any(span.start <= x.span.start < span.end for x in p.sightings)) or any(
        span.start <= e.span.start < span.end for es in p.facts.values() for e in es
    ):
        return None
    return "not understood"


def fill(reader: Reader, a: int, b: int, sign: str | None, p: PlantDraft) -> str | None:
    """Whether the seeds touch: `y` and `n` under `beans touching`. A no of a plant without seed says nothing."""
    ctx = reader.ctx
    span = ctx.span(a, b)
    got = reader.amount(a, b)
    share = got is not None and (got[1] == b or (got[1] + 1 == b and ctx.lattice.pieces[got[1]].text == "%"))
    if got is not None and share and 0 < got[0] < (100 if got[1] < b else 1):  # 3/4 full
        for s in organs.look(ctx, "seeds", True, span):
            s.fill = Entry("partial", span)
        ctx.mark(a, b, EVIDENCE)
        return None
    if sign not in {"yes", "no", "x"} or (sign == "x" and reader.text(a, b).casefold() != "x"):
        return _words(reader, Column(what=["seeds"]), a, b)
    seeds = [s.present for s in p.sightings if s.what == "seeds"]
    if sign == "no" and True not in seeds:
        ctx.mark(a, b, EVIDENCE if seeds else UNREAD, "" if seeds else "not filled, and no seed is told of")
        return "nothing said" if seeds else None
    ctx.mark(a, b, EVIDENCE)
    for s in organs.look(ctx, "seeds", True, span):
        s.fill = Entry("full" if sign in {"yes", "x"} else "partial", span)
    return None
