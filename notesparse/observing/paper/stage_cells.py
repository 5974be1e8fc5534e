"""Cells under heads of stages, of ripe pods, of leaves, and of what else is counted plant by plant (guide 4.20, 4.21)."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from notesparse.language.columns import squeeze
from notesparse.observing import leaves
from notesparse.observing.draft import Ask, PlantDraft
from notesparse.observing.finding import findings
from notesparse.observing.finding.units import tidy
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import DAMAGED
from notesparse.observing.paper.ticks import count_ticks
from notesparse.reading.parse import phrases_at
from notesparse.span import Span
from notesparse.text.lattice import Lattice

if TYPE_CHECKING:
    from notesparse.observing.paper.cells import Reader
from notesparse.language.cues import cue_page

_LISTED = cue_page("paper/stage_cells")

_KIND = {
    "INSECT": "insect",
    "DISEASE": "disease",
    "DEFOL": "defoliation",
    "WEED": "weed",
    "DAMAGE": "damage",
    "HEIGHTWORD": "height",
    "LEAFTURN": "leaf",
    "LEAFDROP": "leaf",
}


def _two_stages(reader: Reader, a: int, b: int) -> tuple[int, int] | None:
    """`2/3` under R is R2 to R3, and no fraction."""
    pieces = reader.ctx.lattice.pieces
    if b != a + 3 or pieces[a].form != "int" or pieces[b - 1].form != "int" or pieces[a + 1].text not in {"/", "-"}:
        return None
    low, high = int(pieces[a].text), int(pieces[b - 1].text)
    return (low, high) if high == low + 1 else None


def stage(reader: Reader, what: str, number: int, a: int, b: int) -> str | None:
    """`R6`, `RS` (R5), `6` under a head R, `V8 R3`."""
    ctx = reader.ctx
    span = ctx.span(a, b)
    if what in {"v", "r"}:
        pair = _two_stages(reader, a, b)
        if pair is not None:
            leaves.put(ctx, f"stated_{what}", (f"{what.upper()}{pair[0]}", f"{what.upper()}{pair[1]}"), span)
            ctx.mark(a, b, EVIDENCE)
            return None
        got = reader.amount(a, b)
        if got is not None and got[1] == b and got[0].denominator in {1, 2}:
            n = got[0]
            if (what == "v" and n.denominator == 1 and n <= 21) or (what == "r" and 1 <= n < 9):
                leaves.put(ctx, f"stated_{what}", f"{what.upper()}{float(n):g}", span)
                ctx.mark(a, b, EVIDENCE)
                return None
            return "no such stage"
        high = reader.range_to(number, got[1], b) if got is not None else None
        if got is not None and high is not None and high[1] == b and high[0] > got[0]:
            leaves.put(ctx, f"stated_{what}", (f"{what.upper()}{got[0]}", f"{what.upper()}{high[0]}"), span)
            ctx.mark(a, b, EVIDENCE)
            return None
    raw = squeeze(reader.text(a, b))
    if (
        2 <= len(raw) <= 4
        and not raw.endswith("?")
        and raw[0] in "rvuy"
        and any(not c.isdigit() for c in raw[1:])
        and raw not in {"ve", "vc"}
        and not set(raw) & set(".,-/+")
        and not any(p.form == "v_r" and p.end == b for p in phrases_at(ctx.lattice, a))  # V9 R1
    ):
        return _damaged_stage(reader, "".join(reader.text(a, b).split()), number, span, a, b)
    reader.walk(a, b)
    return None


def _damaged_stage(reader: Reader, raw: str, number: int, span: Span, a: int, b: int) -> str | None:
    ctx = reader.ctx
    letter = "R" if raw[0] in "rR" else "V"
    readings = [""]
    for c in raw[1:]:
        readings = [r + d for r in readings for d in (c if c.isdigit() else DAMAGED.get(c, ""))]
    values = sorted({int(r) for r in readings if r and (1 <= int(r) <= 8 if letter == "R" else int(r) <= 21)})
    clean = list(reader.known.get(number, []))
    if len(values) > 1 and clean:
        middle = sorted(clean)[len(clean) // 2]
        near = min(abs(v - middle) for v in values)
        values = [v for v in values if abs(v - middle) == near]
    if len(values) != 1:
        ctx.mark(a, b, UNREAD, "a damaged figure with more than one sense")
        return "not understood"
    leaves.put(ctx, f"stated_{letter.lower()}", f"{letter}{values[0]}", span)
    ctx.assume(
        "4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {letter}{values[0]}: the column leaves no other stage"
    )
    ctx.mark(a, b, EVIDENCE)
    return None


def turning(reader: Reader, a: int, b: int) -> bool:
    """`yellowing` under a head of pods: whether one has reached its mature colour is asked (guide 4.14)."""
    ctx = reader.ctx
    if not any(e.kind == "TURNING" and e.end == b for e in ctx.lattice.edges[a]):
        return False
    span = ctx.span(a, b)
    plants = leaves.put(ctx, "mature_pods", "none", span)
    ctx.ask(
        Ask(
            "4.14",
            span,
            f"Has at least one pod of plant {plants[-1].label} reached its mature colour?",
            [("no, only turning", {"mature_pods": "none"}), ("yes", {"mature_pods": "one"})],
            plants[-1],
            0,
            "mature_pods",
        )
    )
    ctx.mark(a, b, EVIDENCE)
    return True


def _counted_of(reader: Reader, a: int, b: int) -> tuple[int, int] | None:
    """`14 / 32`, `14 of 32`: so many of so many pods; under this head it is no fraction of an inch."""
    pieces = reader.ctx.lattice.pieces
    k = next((i for i in range(a + 1, b - 1) if pieces[i].text in {"/", "of"}), None)
    if k is None:
        return None
    n, of = _figure_of(reader.text(a, k)), _figure_of(reader.text(k + 1, b))
    return (n, of) if n is not None and of is not None and n <= of and of > 0 else None


def _figure_of(run: str) -> int | None:
    """A whole number that may be damaged: `3O`, `l`, `O`; None where a letter of it may be more than one figure."""
    digits = [c if c.isdigit() else DAMAGED.get(c, "") for c in run]
    return int("".join(digits)) if 0 < len(run) <= 3 and all(len(d) == 1 for d in digits) else None


_ALL = 100  # percent


def brown(reader: Reader, column: Column, number: int, a: int, b: int, sign: str | None) -> str | None:
    """A share or a count of pods of mature colour."""
    ctx = reader.ctx
    span = ctx.span(a, b)
    if sign in {"no", "yes"} or (sign == "x" and not column.codes):
        if sign == "no" and (column.percent or column.of) and any(c.isdigit() for c in reader.text(a, b)):
            leaves.put(ctx, "mature_pods_percent", 0.0, span)
        else:
            leaves.put(ctx, "mature_pods", "none" if sign == "no" else "one", span)
        ctx.mark(a, b, EVIDENCE)
        return None
    if turning(reader, a, b):
        return None
    start = a
    while a < b and ({e.kind for e in ctx.lattice.edges[a]} & {"HEDGE"} or ctx.lattice.pieces[a].text in "~<>"):
        a += 1
    if sign == "all":
        leaves.put(ctx, "mature_pods_percent", 100.0, span)
        ctx.mark(start, b, EVIDENCE)
        return None
    share = _counted_of(reader, a, b)
    if share is not None:
        if not all(ctx.lattice.pieces[i].form == "int" for i in (a, b - 1)):
            ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {share[0]} of {share[1]}")
        leaves.put(ctx, "mature_pods_percent", round(100.0 * share[0] / share[1], 1), span)
        ctx.mark(start, b, EVIDENCE)
        return None
    part = _part(ctx.lattice, a, b)
    if part is not None:
        leaves.put(ctx, "mature_pods_percent", part, span)
        ctx.mark(start, b, EVIDENCE)
        return None
    if _broken_percent(reader, column, a, b):
        ctx.mark(start, b, EVIDENCE)
        return None
    got = reader.whole(number, a, b) if a < b else None
    if got is None and a < b:
        amount = reader.amount(a, b)
        if amount is not None and amount[0].denominator == 1:
            got = (int(amount[0]), amount[1], amount[2] == "figure")
    if got is None:
        reader.walk(start, b)
        return None
    n, end, damaged = got
    of = None
    if end + 1 < b and {e.kind for e in ctx.lattice.edges[end]} & {"OF", "SLASH", "OUTOF"}:
        jump = next(e.end for e in ctx.lattice.edges[end] if e.kind in {"OF", "SLASH", "OUTOF"})
        of = reader.amount(jump, b)
    if of is not None and of[1] == b and of[0] >= n and of[0] > 0:
        leaves.put(ctx, "mature_pods_percent", round(100.0 * n / float(of[0]), 1), span)
        ctx.mark(start, b, EVIDENCE)
        return None
    counted = column.of or reader.row_of
    if counted and end == b and not column.percent:
        if n > counted:
            return f"more than the {counted} that were counted"
        leaves.put(ctx, "mature_pods_percent", round(100.0 * n / counted, 1), span)
        if column.of is None:
            ctx.assume("4.21", span, f"{n} of the {counted} pods counted on this plant")
        if damaged:
            ctx.assume("4.21", span, f"“{span.of(ctx.lattice.text)}” is read as {n}: the column leaves no other figure")
        ctx.mark(start, b, EVIDENCE)
        return None
    pct = end < b and ctx.lattice.pieces[end].text == "%"
    end += pct
    while end < b and ctx.lattice.pieces[end].text in {"?", "+", "ish"}:
        end += 1
    if end < b:
        reader.walk(start, b)
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


def _broken_percent(reader: Reader, column: Column, a: int, b: int) -> bool:
    """`12 1/2 %`, `97.5` under a head of percents: a share that is no whole number."""
    amount = reader.amount(a, b) if a < b else None
    part = reader.amount(amount[1], b) if amount is not None and amount[1] < b else None
    if amount is None:
        return False
    share, end = amount[:2]
    if part is not None and share.denominator == 1 and 0 < part[0] < 1:
        share, end = share + part[0], part[1]  # 97 1/2
    sign = end < b and reader.ctx.lattice.pieces[end].text == "%"
    if share.denominator == 1 or not 0 <= share <= _ALL or end + sign != b or not (sign or column.percent):
        return False
    leaves.put(reader.ctx, "mature_pods_percent", float(share), reader.ctx.span(a, b))
    return True


_BEFORE_PART = _LISTED.words("before_part")


def _part(lattice: Lattice, a: int, b: int) -> float | None:
    """`half`, `a third`, `about 3/4`: that part of the pods, in percent, and no part of an inch."""
    while a < b and lattice.pieces[a].text in {"a", "the", "about"}:
        a += 1
    while b > a + 1 and lattice.pieces[b - 1].text in _BEFORE_PART:
        b -= 1
    if a >= b:
        return None
    if b == a + 1 and lattice.pieces[a].text == "half":
        return 50.0
    means = [e.means for e in lattice.edges[a] if e.kind == "FRAC" and e.end == b]
    return round(100.0 * float(means[0]), 1) if means and 0 < float(means[0]) < 1 else None


def folded(reader: Reader, a: int, b: int) -> bool | None:
    """Whether the words of a cell say that the leaf is rolled, or open; None where they say neither, or both."""
    edges = [e for i in range(a, b) for e in reader.ctx.lattice.edges[i] if e.end <= b]
    if any(e.kind in {"FLOWER", "POD", "SEED"} and e.how == "exact" for e in edges):
        return None  # open bloom
    kinds = {e.kind for e in edges if e.kind in {"ROLLED", "OPEN", "NO", "NOT", "NONE", "ALMOST", "HEDGE"}}
    return "ROLLED" in kinds if kinds in ({"ROLLED"}, {"OPEN"}) else None


_FOR_FIRST_TRIFOLIATE = _LISTED.table("for_first_trifoliate", int)


def first_trifoliate(reader: Reader, a: int, b: int, sign: str | None) -> str | None:
    """`+` under `1st trif. open`: one trifoliate; `o`: none yet."""
    ctx = reader.ctx
    open_or_not = _FOR_FIRST_TRIFOLIATE.get(sign or "")
    if open_or_not is None:
        reader.walk(a, b)
        return None
    leaves.put(ctx, "trifoliates", open_or_not, ctx.span(a, b))
    ctx.mark(a, b, EVIDENCE)
    return None


def leaf(reader: Reader, what: str, a: int, b: int, sign: str | None, flat: bool = False) -> str | None:
    ctx = reader.ctx
    if flat and what != "emerged" and sign in {"yes", "no"}:
        sign = "spread" if sign == "yes" else "shut"
    kinds = {e.kind for e in ctx.lattice.edges[a] if e.end == b}
    span = ctx.span(a, b)
    if what == "emerged":
        leaf_seen = sign in {"shut", "spread"} or folded(reader, a, b) is not None  # of a cotyledon: it is up
        if sign not in {"yes", "no", "x"} and not leaf_seen and not kinds & {"EMERGED", "NOTUP"}:
            reader.walk(a, b)
            return None
        leaves.put(ctx, "emerged", sign in {"yes", "x"} or leaf_seen or "EMERGED" in kinds, span)
    elif sign in {"shut", "spread"}:
        leaves.put(ctx, what, "rolled" if sign == "shut" else "unrolled", span)
    elif (open_or_not := folded(reader, a, b)) is not None:
        leaves.put(ctx, what, "rolled" if open_or_not else "unrolled", span)
    elif any(e.kind in {"FRAC", "HALF", "INT", "DEC"} for i in range(a, b) for e in ctx.lattice.edges[i]):
        ctx.mark(a, b, UNREAD, "neither rolled nor open")  # half: of a leaf, and no length
        return "not understood"
    else:
        reader.walk(a, b)
        return None
    ctx.mark(a, b, EVIDENCE)
    return None


def finding(
    reader: Reader, column: Column, what: tuple[str, str], a: int, b: int, sign: str | None, p: PlantDraft
) -> str | None:
    """Insects, disease, leaf loss, height counted plant by plant or field by field: one finding each."""
    ctx, unit = reader.ctx, column.unit
    got = reader.amount(a, b)
    strokes = _strokes(reader, a, b) if what[0] == "INSECT" else None
    if strokes is not None:
        got = Fraction(strokes), b, "exact"
    end = got[1] if got is not None else a
    tall = what[0] == "HEIGHTWORD"
    said = reader.unit_at(end, b) if got is not None and tall else None
    if said is not None:
        unit, end = said
    if tall and (got is None or unit is None):
        return "a height with no unit"
    kind = _KIND[what[0]]
    unnamed = kind in {"defoliation", "height"} or what[1] == kind
    if what[1] == kind and got is None and any(e.kind == "CLEAN" and e.end == b for e in ctx.lattice.edges[a]):
        sign = "no"  # clean, under weeds
    pct = end < b and ctx.lattice.pieces[end].text == "%"
    if sign not in {"no", "yes", "x"} and (got is None or end + pct != b):
        if what[1] == kind and any(e.kind == what[0] for e in ctx.lattice.edges[a]):
            reader.walk(a, b)  # waterhemp 3 in., under weeds
            return None
        return "not understood in this column"
    f = findings.add(ctx, kind, None if unnamed else what[1], ctx.span(a, b))
    f.value = 0 if sign == "no" else tidy(got[0]) if got is not None else None
    f.unit = "%" if pct or kind == "defoliation" else unit if tall else column.rate if f.value is not None else None
    f.where = f"plant {p.label}"
    ctx.finding = None
    ctx.mark(a, b, EVIDENCE)
    return None


def _strokes(reader: Reader, a: int, b: int) -> int | None:
    """`|||||`: how many strokes a cell is."""
    if any(reader.ctx.lattice.pieces[i].form != "mark" for i in range(a, b)):
        return None
    return count_ticks(reader.text(a, b))


def stand(reader: Reader, per: str, number: int, a: int, b: int) -> str | None:
    """Plants counted in a length of row, at the stop of this row."""
    ctx = reader.ctx
    got = reader.whole(number, a, b)
    if got is None or got[1] != b:
        return "not understood in this column"
    f = findings.add(ctx, "stand", None, ctx.span(a, b))
    f.value, f.unit = got[0], f"plants in {per}"
    f.where = ctx.stop
    ctx.finding = None
    ctx.mark(a, b, EVIDENCE)
    return None
