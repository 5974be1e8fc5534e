"""Sizes, stages or ripe shares in a row, as many as the plants beside them, a value for each in order: `pods 3/16, 1/4, 1/4,
5/16 on plants 1 thru 4`, `R3, R3, R4 on plants 1 to 3` (guide 4.7, 4.21).

The last or the first of the row is not said of all of them. Where there are more plants or fewer, the row is unread.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import organs
from notesparse.observing.draft import Length, PlantDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.leaves import put
from notesparse.observing.stages import read_stage
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut, numbers_at
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import phrases_at
from notesparse.span import Span

_LISTED = cue_page("walking/values_in_turn")
_COMMON = cue_page("shared")

_ORGAN = {"POD": "pods", "SEED": "seeds", "BEAN": "seeds"}
_SAID_OF = _COMMON.words("biggest") | _COMMON.words("being") | {"-", ":", "=", "the"}
_BEFORE = _COMMON.words("of")
_JOIN = _COMMON.words("and")
_SIZED = frozenset({"len_unit", "len_bare", "len_an_inch", "len_a_metric", "len_metric_and", "len_inch_and"})
_STAGES = frozenset({"r1", "v1"})
_PLANT = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {"p", "the"}
_WHOLE = 3  # from here on a bare number is no fraction of an inch


@dataclass(frozen=True, slots=True)
class _Value:
    start: int
    end: int
    length: Length | None = None
    stage: dict[str, Any] | None = None
    share: float | None = None
    ripe: int | None = None


def values_in_turn(w: Listener, i: int) -> int | None:
    """At piece i such a row begins: gives each plant its own, and tells where the words end."""
    ctx = w.ctx
    opens = w.begins(i) or w.after_name or _behind_its_plants(w, i)
    if not opens or ctx.tally is not None or ctx.correcting is not None:
        return None
    under = _under_a_ripe_head(w, i)
    if under is not None:
        return _given(w, i, None, *under)
    counts = _ripe_counts(w, i)
    if counts is not None:
        return _given(w, i, None, *counts)
    what, k = _organ_at(w, i)
    values, k = _row(w, k)
    if len(values) < _FEWEST:
        return None
    behind, k = _organ_at(w, k)
    what = what or behind
    ripe = max((e.end for e in ctx.lattice.edges[k] if e.kind == "BROWN"), default=0) if k < len(ctx.use) else 0
    k = max(k, ripe)
    if (values[0].share is not None) != bool(ripe) or (values[0].length is not None and what is None):
        return None
    got = _plants(w, i, k) or (_of_the_run(w, i, k, len(values)) if values[0].stage is not None else None)
    if got is None:
        return None
    return _given(w, i, what, values, *got)


def _given(w: Listener, i: int, what: str | None, values: list[_Value], plants: list[str], end: int) -> int:
    ctx = w.ctx
    clear_waiting(w)
    if len(plants) != len(values):
        ctx.leave_plants()
        ctx.mark(i, end, UNREAD, f"{len(values)} values for {len(plants)} plants")
    else:
        for plant, value in zip(_drafts(w, plants, ctx.span(i, end)), values, strict=True):
            _put(w, plant, what, value)
        ctx.mark(_back_to_the_label(w, i), i, FILLER)
        ctx.mark(i, end, EVIDENCE)
        ctx.leave_plants()
    cut(w, end)
    return end


_FEWEST = 2


def _ripe_counts(w: Listener, i: int) -> tuple[list[_Value], list[str], int] | None:
    """`2, 2 and 1 brown pods on plants 1, 2 and 3`, `2 0 1 brown pods on 1, 2, 3` at piece i: how many each has."""
    lattice, at = w.ctx.lattice, w.ctx.lattice.at
    out: list[_Value] = []
    k = end = i
    while (number := number_at(w, k)) is not None:
        out.append(_Value(k, number.end, ripe=int(number.means)))
        k = end = number.end
        while at(k) in _JOIN:
            k += 1
    if len(out) < _FEWEST or end >= len(w.ctx.use):
        return None
    ripe = max((e.end for e in lattice.edges[end] if e.kind == "BROWN" and e.how == "exact"), default=0)
    on = max((e.end for e in lattice.edges[ripe] if e.kind == "POD"), default=0) if 0 < ripe < len(w.ctx.use) else 0
    on -= on > 0 and at(on - 1) in _BEFORE
    got = numbers_at(w, on + 1, _PLANT) if on and at(on) in _BEFORE else None
    return (out, *got) if got is not None and len(got[0]) >= _FEWEST and w.ends_at(got[1]) else None


def _under_a_ripe_head(w: Listener, i: int) -> tuple[list[_Value], list[str], int] | None:
    """`Mature pods on five plants: 38 of 40, 40 of 42, ...` at piece i: the shares, the plants and where the words end."""
    lattice, at = w.ctx.lattice, w.ctx.lattice.at
    ripe = max((e.end for e in lattice.edges[i] if e.kind == "BROWN" and e.how == "exact"), default=0)
    k = max((e.end for e in lattice.edges[ripe] if e.kind == "POD"), default=0) if 0 < ripe < len(w.ctx.use) else 0
    if not k:
        return None
    k -= at(k - 1) in _BEFORE
    labels: list[str] | None = None
    many = number_at(w, k + 1 + (at(k + 1) == "the")) if at(k) in _BEFORE else None
    if many is not None and at(many.end) in _PLANTS:
        labels, k = [str(n) for n in range(1, int(many.means) + 1)], many.end + 1
    elif at(k) in _BEFORE and at(k + 1) in _PLANT:
        got = numbers_at(w, k + 1, _PLANT)
        labels, k = got if got is not None else (None, k)
    elif at(k) in {"by", "per"} and at(k + 1) == "plant":
        k += 2
    values, end = _row(w, k + 1) if at(k) in {":", "-", "="} else ([], k)
    if len(values) < _FEWEST or values[0].share is None or not w.ends_at(end):
        return None
    return values, labels or [str(n) for n in range(1, len(values) + 1)], end


_PLANTS = _COMMON.words("plants")


def _behind_its_plants(w: Listener, i: int) -> bool:
    """Right before piece i stands the label of the plants in hand, of which nothing was told yet."""
    ctx = w.ctx
    if not ctx.explicit or len(ctx.plants) < _FEWEST or not all(p.empty for p in ctx.plants):
        return False
    i = _back_to_the_label(w, i)
    return i > 0 and w.joined(ctx.plants[-1].span.end, i)


_BETWEEN = _LISTED.words("between")


def _back_to_the_label(w: Listener, i: int) -> int:
    """Over `in order:` before piece i."""
    while i > 0 and w.ctx.lattice.at(i - 1) in _BETWEEN:
        i -= 1
    return i


def _plants(w: Listener, i: int, k: int) -> tuple[list[str], int] | None:
    """The plants named behind the row at piece k, or those in hand, and where their names end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(k) in _BEFORE and at(k + 1) in _PLANT:
        got = numbers_at(w, k + 1, _PLANT)
        if got is None or len(got[0]) < _FEWEST or not w.ends_at(got[1]):
            return None
        return got
    if not _behind_its_plants(w, i) or not w.ends_at(k):
        return None
    return [p.label for p in ctx.plants], k


def _of_the_run(w: Listener, i: int, k: int, many: int) -> tuple[list[str], int] | None:
    """`plants 1 thru 3: trifs 10 11 10, R2, R2, R1`: as many stages as plants are in hand."""
    ctx, at = w.ctx, w.ctx.lattice.at
    run = ctx.explicit and len(ctx.plants) == many and at(i - 1) in {",", ";"} and w.ends_at(k)
    return ([p.label for p in ctx.plants], k) if run else None


def _drafts(w: Listener, labels: list[str], span: Span) -> list[PlantDraft]:
    ctx = w.ctx
    known = {p.label: p for p in (ctx.visit.plants if ctx.visit is not None else []) if not p.dropped}
    new = [x for x in labels if x not in known]
    made = {p.label: p for p in ctx.begin(new, span)} if new else {}
    return [(known | made)[x] for x in labels]


def _put(w: Listener, plant: PlantDraft, what: str | None, value: _Value) -> None:
    ctx = w.ctx
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = [plant], True, None
    span = ctx.span(value.start, value.end)
    if value.length is not None and what is not None:
        organs.attach_length(ctx, value.length, organs.look(ctx, what, True, span))
    for letter, stage in (value.stage or {}).items():
        put(ctx, f"stated_{letter}", stage, span)
    if value.ripe is not None:
        put(ctx, "mature_pods", "one" if value.ripe else "none", span)
    if value.share is not None:
        put(ctx, "mature_pods_percent", value.share, span)


def _organ_at(w: Listener, i: int) -> tuple[str | None, int]:
    """`longest pods were` at piece i: which organ, and where the words end."""
    lattice, k, what = w.ctx.lattice, i, None
    while k < len(lattice.edges):
        organ = max(
            ((e.end, e.kind) for e in lattice.edges[k] if e.kind in _ORGAN and e.how == "exact"), default=(0, "")
        )
        if organ[0] and what is None:
            what, k = _ORGAN[organ[1]], organ[0] - (lattice.at(organ[0] - 1) in _BEFORE)
        elif lattice.at(k) in _SAID_OF:
            k += 1
        else:
            break
    return (what, k) if what is not None else (None, i)


def _row(w: Listener, i: int) -> tuple[list[_Value], int]:
    """Values of one kind with commas between, and where they end; a bare size has the unit of the next one that has one."""
    lattice = w.ctx.lattice
    out: list[_Value] = []
    k = end = i
    while (value := _value(w, k)) is not None and (not out or _alike(out[-1], value)):
        out.append(value)
        k = end = value.end
        while lattice.at(k) in _JOIN:
            k += 1
        if k == end and value.stage is None:
            break  # 1/4 1/2: no two sizes
    return _in_units(out), end


def _alike(a: _Value, b: _Value) -> bool:
    one, two = ((v.length is None, sorted(v.stage or {}), v.share is None) for v in (a, b))
    return one == two


def _in_units(values: list[_Value]) -> list[_Value]:
    """No values where a bare whole number stands among them: so many, or so long."""
    return [] if any(v.length is not None and v.length.bare == "whole" for v in values) else values


def _value(w: Listener, i: int) -> _Value | None:
    ctx = w.ctx
    if i >= len(ctx.use):
        return None
    share = _share(w, i)
    if share is not None:
        return share
    here = [p for p in phrases_at(ctx.lattice, i) if p.form in _SIZED or p.form in _STAGES]
    ph = max(here, key=lambda p: p.end, default=None)
    if ph is None:
        return None
    if ph.form in _STAGES:
        return _Value(i, ph.end, stage=read_stage(ph))
    bare = [Fraction(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC"}]
    if ph.form == "len_bare" and max(bare, default=Fraction(0)) >= _WHOLE:
        return None
    length = organs.read_length(ph, ctx.span(ph.start, ph.end))
    return _Value(i, ph.end, length=length) if length is not None else None


def _share(w: Listener, i: int) -> _Value | None:
    """`38 of 40` at piece i."""
    edges, at = w.ctx.lattice.edges, w.ctx.lattice.at
    part = max((e for e in edges[i] if e.kind == "INT" and e.how == "number"), key=lambda e: e.end, default=None)
    if part is None or at(part.end) != "of" or part.end + 1 >= len(edges):
        return None
    whole = max((e for e in edges[part.end + 1] if e.kind == "INT"), key=lambda e: e.end, default=None)
    if whole is None or not 0 <= int(part.means) <= int(whole.means) or not int(whole.means):
        return None
    return _Value(i, whole.end, share=round(100.0 * int(part.means) / int(whole.means), 1))
