"""Anything else a scout records: insects, disease, weeds, stand, soil, damage, height, weather (guide 4.20)."""

from __future__ import annotations

from typing import Any

from notesparse.observing.draft import FindingDraft
from notesparse.observing.fold import Context, edges_of
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment
from notesparse.span import Span

KINDS = {"INSECT": "insect", "DISEASE": "disease", "WEED": "weed", "DAMAGE": "damage", "DEFOL": "defoliation", "STANDWORD": "stand",
         "WEATHER": "weather", "OTHERFIND": "other", "LEAFTURN": "leaf", "LEAFDROP": "leaf"}
GENERIC = {"insect", "disease", "weed"}


def tidy(value: Any) -> Any:
    """A number without needless decimals."""
    f = float(value)
    return int(f) if f == int(f) else round(f, 4)


def add(ctx: Context, kind: str, name: str | None, span: Span) -> FindingDraft:
    visit = ctx.here()
    f = FindingDraft(kind, name, None, None, None, span)
    ctx.open = []
    visit.findings.append(f)
    ctx.finding = f
    ctx.said("finding", span, lambda: visit.findings.remove(f) if f in visit.findings else None)
    return f


def head(ctx: Context, ph: Phrase, span: Span, number: Any, number_span: Span | None, negative: Span | None) -> bool:
    """A word that names a finding, with the number or `no` just before it."""
    edge = ph.path[0][1]
    kind = KINDS[edge.kind]
    name = str(edge.means)
    if kind in {"defoliation", "stand"}:
        name_or_none: str | None = None
    elif kind in GENERIC and name in GENERIC | {"grass", "broadleaf"} and name in GENERIC:
        name_or_none = None
    else:
        name_or_none = name
    if kind == "defoliation" and ctx.finding is not None and ctx.finding.kind == "defoliation" and ctx.finding.span.end <= span.start \
            and ctx.finding.value is not None and ctx.finding.unit == "%" and number is None and ctx.link >= {"OFX"}:
        return True
    f = add(ctx, kind, name_or_none, span)
    if negative is not None:
        f.value, f.span = 0, f.span.cover(negative)
    elif number is not None and number_span is not None:
        set_value(ctx, f, number, number_span, None)
    return True


def set_value(ctx: Context, f: FindingDraft, value: Any, span: Span, unit: str | None) -> None:
    if ctx.correcting is not None and f.value is not None:
        ctx.corrected.append(Correction("4.17", f.span, f"{f.value} replaced by {value}"))
        ctx.correcting = None
    f.value = value
    f.unit = unit or f.unit
    f.span = f.span.cover(span)


def per_unit(ph: Phrase, ctx: Context) -> str:
    n = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "INTSOUND", "FRAC", "DEC"}]
    count = f"{n[0]} " if n and n[0] != 1 else ""
    if ph.form == "per_sweep":
        return f"per {count}sweeps" if count else "per sweep"
    if ph.form == "per_foot":
        row = bool(edges_of(ph, "ROWFOOT", "ROWW"))
        return f"per {count}ft of row" if row and count else "per foot of row" if row else f"per {count}ft" if count else "per foot"
    return {"per_sqfoot": "per square foot", "per_plant": "per plant", "per_cloth": "per drop cloth", "per_leaf": "per leaf"}[ph.form]


def words(ctx: Context, start: int, end: int) -> str:
    return " ".join(ctx.lattice.original(start, end).split())


def percent_value(ph: Phrase) -> Any:
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "INTSOUND"}]
    return nums[0] if len(nums) == 1 else nums[:2]


def number_value(ph: Phrase) -> Any:
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "INTSOUND", "DEC", "FRAC", "ORD"}]
    return nums[0] if len(nums) == 1 else nums


def moisture(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ctx.finding
    if ph.form == "soil" and f is not None and f.kind == "soil moisture":
        return True
    if ph.form == "soil_state" and f is not None and f.kind == "soil moisture":
        f.span = f.span.cover(span)
        f.where = ctx.lattice.text[f.span.start : f.span.end]
        return True
    f = add(ctx, "soil moisture", None, span)
    f.where = words(ctx, ph.start, ph.end) if ph.form != "soil" else None
    return True


def height(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ctx.finding
    if ph.form == "body_high":
        if f is not None and f.kind == "weed":
            f.where = (f"{f.where}, " if f.where else "") + words(ctx, ph.start, ph.end)
            f.span = f.span.cover(span)
            return True
        f = add(ctx, "height", None, span)
        f.where = words(ctx, ph.start, ph.end)
        return True
    from notesparse.observing.organs import read_length

    inner = Phrase(ph.start, ph.end, "length", "len_unit", tuple((i, e) for i, e in ph.path if e.kind not in {"HEIGHTWORD"}), 0.0)
    length = read_length(inner, span)
    if length is None or not isinstance(length.mm, float | tuple):
        return False
    value, unit = length_value(ph)
    if f is not None and f.kind == "weed" and f.value is None:
        set_value(ctx, f, value, span, unit)
        return True
    g = add(ctx, "height", None, span)
    g.value, g.unit = value, unit
    return True


def length_value(ph: Phrase) -> tuple[Any, str | None]:
    """A length in the scout's own unit."""
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "FRAC", "DEC"}]
    units = [e.means for _, e in ph.path if e.kind in {"INCH", "MM", "CM", "FOOT", "MILSOUND"}]
    if any(e.kind == "ANINCH" for _, e in ph.path):
        nums, units = [1, *nums], ["in"]
        return (nums[0] + (nums[1] if len(nums) > 1 else 0)), "in"
    unit = str(units[-1]) if units else None
    return (nums[0] if len(nums) == 1 else nums[:2] if nums else None), unit


def where(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ctx.finding
    if f is None:
        return False
    text = words(ctx, ph.start, ph.end)
    f.where = f"{f.where}, {text}" if f.where else text
    f.span = f.span.cover(span)
    return True


def followed_by_head(segments: list[Segment], at: int) -> bool:
    for s in segments[at + 1 : at + 4]:
        if s.phrase is not None:
            return s.phrase.rule == "findhead"
    return False
