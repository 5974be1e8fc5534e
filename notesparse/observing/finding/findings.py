"""Anything else a scout records: insects, disease, weeds, stand, soil, damage, height, weather (guide 4.20).

`take` looks whether a stretch of findings begins at a segment, reads it, and puts what it says into the visit.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing.draft import FindingDraft, VisitDraft
from notesparse.observing.finding import leafcolour
from notesparse.observing.finding.findopen import begins, later_number, may_open, strange
from notesparse.observing.finding.findseen import not_seen, passed_by, says_something
from notesparse.observing.finding.findwords import Item
from notesparse.observing.finding.stretch import Stretch, resume
from notesparse.observing.finding.units import text_at, tidy
from notesparse.observing.finding.whereabouts import place
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.naming.names import Name
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment
from notesparse.span import Span
from notesparse.text.columns import WIDE

_LISTED = cue_page("finding/findings")

_ANNOUNCED = 3  # words and more that tell of going to a field


def _announces(ctx: Context, s: Segment, names: dict[int, Name]) -> bool:
    """`about the beans down on Sycamore flat`: words that lead to a field's name, and no lodging."""
    over = (name for name in names.values() if name.cue == "go" and name.cue_start <= s.start < name.start)
    return any(
        name.start - name.cue_start >= _ANNOUNCED and ctx.lattice.at(s.start) in {"bean", "beans"} for name in over
    )


def take(ctx: Context, segments: list[Segment], k: int, names: dict[int, Name]) -> int | None:
    """Read findings from segment k on; the piece at which to go on, or None where no finding begins."""
    s = segments[k]
    rule = s.phrase.rule if s.phrase is not None else None
    if not may_open(ctx, s, rule) or _announces(ctx, s, names):
        return None
    leaf = leafcolour.read(ctx.lattice, s.start) if rule not in {"trif", "topleaf", "scars"} else None
    if leaf is not None and not strange(s):
        item, end = leaf
        stretch = Stretch(ctx.lattice, segments, k, names)
        stretch.cur, stretch.end = item, s.start
        stretch.items.append(item)
        stretch._use(s.start, end)
        stretch.resume(end)
    else:
        stretch = Stretch(ctx.lattice, segments, k, names)
        if not begins(stretch, rule):
            return later_number(ctx, segments, k, stretch) if rule == "numlist" else None
        stretch.read()
    if not any(says_something(ctx, i) for i in stretch.items):
        return _nothing_said(ctx, stretch)
    ctx.mark(s.start, stretch.end, FILLER)
    for a, b in stretch.used:
        if b <= stretch.end:
            ctx.mark(a, b, EVIDENCE)
    for item in stretch.items:
        why = not_seen(ctx, item) if says_something(ctx, item) else "nothing said of it"
        if not why:
            none_here = passed_by(ctx, item)
            if none_here is not None:
                item.value, item.start = 0, min(item.start, none_here[0])
                ctx.mark(*none_here, EVIDENCE)
            _put(ctx, item)
        elif why != "nothing said of it" or item.kind not in {"insect", "weed"}:  # weeds: foxtail
            ctx.mark(item.start, stretch.end if item is stretch.items[-1] else item.end, UNREAD, why)
    return resume(segments, k, stretch.end)


def _nothing_said(ctx: Context, st: Stretch) -> int | None:
    """`bug check`: passed over where the stretch holds nothing but the word for all insects or weeds."""
    if not st.items or any(i.kind not in {"insect", "weed"} for i in st.items):
        return None
    for i in st.items:
        ctx.mark(i.start, i.end, FILLER)
    return st.items[-1].end


def _put(ctx: Context, item: Item) -> None:
    span = ctx.span(item.start, item.end)
    f = add(ctx, item.kind, item.name, span)
    if item.unit == "same":
        _same(ctx, f)
    else:
        f.value, f.unit = item.value, item.unit
    f.where = item.where or f.where
    if item.kind == "weather" and item.value is None:
        f.where = words(ctx, item.start, item.end)
    if item.replaced is not None:
        ctx.corrected.append(Correction("4.17", span, f"{item.replaced} replaced by {item.value}"))
    if item.assumed:
        ctx.assume("4.20", span, item.assumed)


def _same(ctx: Context, f: FindingDraft) -> None:
    """`aphids same`: the count of the last finding of that name."""
    earlier = [
        g
        for v in ctx.visits
        for g in v.findings
        if g is not f and (g.kind, g.name) == (f.kind, f.name) and g.value is not None
    ]
    f.value, f.unit = (earlier[-1].value, earlier[-1].unit) if earlier else (None, None)
    if not earlier:
        f.where = "same"


_FOR_BESIDE_STOP = _LISTED.words("for_beside_stop")


def beside_stop(ctx: Context, segments: list[Segment], k: int, names: dict[int, Name]) -> int:
    """`stop two down by the pump`, `Stop 1, lane end     1.  4 tri`: the place of the stop; the piece at which to go on."""
    end = segments[k].end
    st = Stretch(ctx.lattice, segments, k, names)
    j = end
    while text_at(ctx.lattice, j) in _FOR_BESIDE_STOP and j < end + 3:
        j += 1
    if j >= len(st.pieces) or st.stops_place(j):
        return end
    said = place(ctx.lattice, j, st.stops_place, after_value=False)
    named = ctx.visit is not None and ctx.visit.name is not None
    over = (_before_a_label(st, j) if named else None) or (said[0] if said is not None else None)
    if over is None:
        return end
    ctx.mark(j, over, EVIDENCE)
    return resume(segments, k, over)


_LONGEST_PLACE = 4  # words


def _before_a_label(st: Stretch, i: int) -> int | None:
    """`lane end     1.  4 tri`, `hog lot corner: plant 1`: where the words from piece i up to a label end, behind a colon or
    a gap."""
    j = i
    while j < len(st.pieces) and j - i < _LONGEST_PLACE and st.pieces[j].form == "word" and st.phrase(j) != "label":
        if j > i and st.pieces[j].gap >= WIDE:
            return None
        j += 1
    parted = j < len(st.pieces) and j > i and (st.pieces[j].gap >= WIDE or text_at(st.lattice, j) == ":")
    after = j + (text_at(st.lattice, j) == ":")
    return j if parted and st.phrase(after) == "label" else None


def add(ctx: Context, kind: str, name: str | None, span: Span) -> FindingDraft:
    """A finding of the visit that is being spoken of; `scratch that` takes it back."""
    visit = ctx.here()
    f = FindingDraft(kind, name, None, None, None, span)
    ctx.open = []
    visit.findings.append(f)
    ctx.finding = f
    ctx.said("finding", span, lambda: visit.findings.remove(f) if f in visit.findings else None)
    return f


_ON_IT = frozenset(_LISTED.phrases("on_it"))


def settle(visits: Iterable[VisitDraft]) -> None:
    """Counts plant by plant: where two plants or more have a count of one thing, the plant is the place of each."""
    for visit in visits:
        rows: dict[tuple[str, str | None], list[tuple[FindingDraft, str]]] = {}
        for f in visit.findings:
            owner = next((p for p in reversed(visit.plants) if p.named and p.span.start <= f.span.start), None)
            if (
                owner is not None
                and f.value is not None
                and f.kind in {"insect", "disease", "defoliation", "height", "weed"}
                and (f.unit in {None, "%", "in", "per plant"})
            ):
                rows.setdefault((f.kind, f.name), []).append((f, owner.label))
        for found in rows.values():
            if len({label for _, label in found}) >= 2:
                for f, label in found:
                    if f.where != f"plant {label}":
                        f.where = f"plant {label}" + (f", {f.where}" if f.where and f.where not in _ON_IT else "")


def words(ctx: Context, start: int, end: int) -> str:
    """The scout's own words of pieces start to end."""
    return ctx.lattice.written(start, end)


def number_value(ph: Phrase) -> Any:
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "INTSOUND", "DEC", "FRAC", "ORD"}]
    return nums[0] if len(nums) == 1 else nums


def percent_value(ph: Phrase) -> Any:
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "INTSOUND"}]
    return nums[0] if len(nums) == 1 else nums[:2]
