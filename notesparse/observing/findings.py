"""Anything else a scout records: insects, disease, weeds, stand, soil, damage, height, weather (guide 4.20).

`take` looks whether a stretch of findings begins at a segment, reads it, and puts what it says into the visit.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from notesparse.observing import leafcolour, units
from notesparse.observing.draft import FindingDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.names import Name
from notesparse.observing.stretch import CAUSES, GENERIC, HEADS, MEASURES, Item, Stretch
from notesparse.observing.units import longest, text_at, tidy
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment
from notesparse.text.lattice import Lattice
from notesparse.span import Span

_OPENERS = {"findhead", "moisture", "height", "bareint", "numlist", "percent", "length", "ratio", "noneword", "per", "where", "date", "place", "filler", "name", "sampled"}
_WISHES = frozenset({"use", "need", "needs", "want", "wants", "hope", "hoping", "chance", "forecast", "calling", "after", "before", "since", "warning", "praying",
                     "waiting", "wait", "when", "if"})
_TIMES = frozenset({"after", "before", "since", "from"})
_FORECAST = frozenset({"warning", "forecast", "watch", "advisory", "forecasted", "expected", "tonight", "tomorrow", "coming"})
_BROAD = {"stand", "population", "plant count", "hoop count", "thousandth of an acre", "uniform stand"}


def take(ctx: Context, segments: list[Segment], k: int, names: dict[int, Name]) -> int | None:
    """Read findings from segment k on; the piece at which to go on, or None where no finding begins."""
    s = segments[k]
    rule = s.phrase.rule if s.phrase is not None else None
    if not _may_open(ctx, s, rule):
        return None
    leaf = leafcolour.read(ctx.lattice, s.start) if rule not in {"trif", "topleaf", "scars"} else None
    if leaf is not None and not _strange(ctx, s):
        item, end = leaf
        stretch = Stretch(ctx.lattice, segments, k, names)
        stretch.cur, stretch.end = item, s.start
        stretch.items.append(item)
        stretch._use(s.start, end)
        stretch.resume(end)
    else:
        stretch = Stretch(ctx.lattice, segments, k, names)
        if not _begins(stretch, rule):
            return _later_number(ctx, segments, k, stretch) if rule == "numlist" else None
        stretch.read()
    items = [i for i in stretch.items if _says_something(ctx, stretch, i)]
    if not items:
        return _nothing_said(ctx, stretch, rule)
    why = _not_seen(ctx, items[0], stretch)
    if why:
        ctx.mark(items[0].start, stretch.end, UNREAD, why)
        return _resume(segments, k, stretch.end)
    ctx.mark(s.start, stretch.end, FILLER)
    for a, b in stretch.used:
        if b <= stretch.end:
            ctx.mark(a, b, EVIDENCE)
    for item in items:
        _put(ctx, item)
    return _resume(segments, k, stretch.end)


def rather(lattice: Lattice, i: int) -> bool:
    """`Waterhemp 2-4 in.`, `grain moisture 13%`: a head with its measure is a finding, and no field's name."""
    edge = longest(lattice, i, "INSECT", "DISEASE", "WEED", "DEFOL", "OTHERFIND", "LEAFDROP", "LEAFTURN", sound=False)
    if edge is None or edge.kind == "OTHERFIND" and edge.end == i + 1 and edge.means not in {"grain moisture", "nodules", "canopy closure"}:
        return False
    k = units.over_doubt(lattice, edge.end)
    many = units.amount(lattice, k)
    return bool(units.percent(lattice, k) or units.length(lattice, k) or many and (units.per(lattice, many.end) or edge.means == "grain moisture"))


def _may_open(ctx: Context, s: Segment, rule: str | None) -> bool:
    """Cheap looks first: most segments begin no finding."""
    if rule is not None and rule not in _OPENERS:
        if rule in {"seeds", "pods", "flowers"} and _counted_head(ctx.lattice, s):
            return True
        kinds = {e.kind for e in ctx.lattice.edges[s.start]}
        return bool(kinds & {"LEAFTURN", "LEAFDROP"}) or rule in {"state", "topleaf", "emergence"} and "LEAF" in kinds or rule == "pods" and s.phrase is not None and s.phrase.form == "pod_yes"
    return bool(ctx.lattice.edges[s.start])


def _counted_head(lattice: Lattice, s: Segment) -> bool:
    """`14 bean leaf beetles` where the plant's words would have it `14 beans`."""
    many = units.number(lattice, s.start)
    edge = longest(lattice, many.end, *HEADS, sound=False) if many is not None else None
    return edge is not None and edge.end > s.end


def _strange(ctx: Context, s: Segment) -> bool:
    """A leaf word that is part of a plant's own statement."""
    return s.phrase is not None and s.phrase.rule in {"trif", "topleaf", "scars", "place"} and s.phrase.form not in {"lower"}


def _begins(st: Stretch, rule: str | None) -> bool:
    """Whether a finding can begin here: a head, soil, a height, or a count, a `no` or a place that stands before one."""
    lat, i = st.lattice, st.end
    if i in st.cues:
        return False
    if rule == "pods" and not st._longer_head(i):
        return _pods_hurt(st)
    if st.head(i) is not None:
        return True
    if rule in {"moisture", "height"} or longest(lat, i, "SOILWORD", "SOILSTATE", "BODYHIGH", sound=False) is not None:
        return True
    if longest(lat, i, "HEIGHTWORD", sound=False) is not None:
        return True
    text = text_at(lat, i)
    edge = longest(lat, i, "NO", "NONE", sound=False)
    if edge is not None or text in {"know", "knew"}:
        end = edge.end if edge is not None else i + 1
        head = st.next_head(end)
        return head is not None and HEADS[head[1].kind] not in {"stand", "weather"}
    if longest(lat, i, "SWEEP", sound=False) is not None:
        return _head_within(st, i + 1, 12)
    said = units.per(lat, i)
    if said is not None and "sweep" in str(said.unit) and (rule == "per" or units.number(lat, i) is not None):
        return _head_within(st, said.end, 4)
    if st._plants_in(i) is not None:
        return True
    part = units.share(lat, i) or units.percent(lat, i)
    if part is not None:
        k = part.end
        while text_at(lat, k) in {"of", "the"}:
            k += 1
        head = st.next_head(k)
        if head is not None and HEADS[head[1].kind] in {"leaf", "defoliation", "damage", "disease", "weed", "other"}:
            return True
    length = units.length(lat, i)
    if length is not None and length.tall:
        return True
    values, end = units.counts(lat, i)
    if values:
        head = st.next_head(end)
        if text_at(lat, end) in {"and", "&", ","} and len(values) == 1 and _hot(st, values[0].value, end + 1):
            st.cur = Item("weather", "hot" if values[0].value >= 85 else "degrees", i, end, told=True)
            st.items.append(st.cur)
            st._use(i, end)
            return True
        if head is None:
            return _moisture_of_grain(st, values, end)
        kind = HEADS[head[1].kind]
        if kind == "stand" and len(values) == 1 and isinstance(values[0].value, int) and values[0].value >= 1000:
            return True
        return kind in {"insect", "weed"} or kind == "weather" and head[1].means == "degrees" or kind == "stand" and str(head[1].means).startswith("plants per") or (
            kind == "damage" and units.per(lat, head[1].end) is not None)
    if rule == "where" and st.phrase(i) == "where":
        assert st.at[i].phrase is not None
        end = st.at[i].phrase.end  # type: ignore[union-attr]
        many, after = units.counts(lat, end)
        return st.next_head(after if many else end) is not None
    return False


def _later_number(ctx: Context, segments: list[Segment], k: int, st: Stretch) -> int | None:
    """`6:45, seventy one degrees`: the last number of a row alone stands before a head."""
    s = segments[k]
    for j, e in (s.phrase.path[1:] if s.phrase is not None else ()):
        if e.end == s.end and st.next_head(e.end) is not None:
            ctx.mark(s.start, j, UNREAD, "a number with nothing to count")
            return _resume(segments, k, j)
    return None


def _head_within(st: Stretch, k: int, reach: int) -> bool:
    for j in range(k, min(k + reach, len(st.pieces))):
        edge = st.head(j)
        if edge is not None:
            return HEADS[edge.kind] == "insect"
        if st.stops(j):
            return False
    return False


def _pods_hurt(st: Stretch) -> bool:
    """`pods on the outside rows have some punctures`: pods that were hurt are a finding, and no pods of a plant."""
    from notesparse.observing.whereabouts import place

    j = st.at[st.end].end
    start = st.end
    where = place(st.lattice, j, st.stops_place, after_value=True)
    if where is not None:
        j = where[0]
    while j < len(st.pieces) and (text_at(st.lattice, j) in {"have", "has", "some", "a", "few", "with", "got", "are", "is", "that"} and not st.hard(j)):
        j += 1
    edge = st.head(j)
    if edge is None or edge.kind != "DAMAGE" or edge.means not in {"puncture", "pod feeding", "hail scar", "leaf damage", "damage"}:
        return False
    st.places.append((" ".join(st.lattice.original(start, where[0]).split()), start, where[0])) if where is not None else st.used.append((start, start + 1))
    st.end = j
    return True


def _moisture_of_grain(st: Stretch, values: list[units.Amount], end: int) -> bool:
    """`12.4 moisture`, and a bare `12.9` beside R8."""
    lat, value = st.lattice, values[0].value
    if len(values) != 1 or not isinstance(value, int | float) or not 6 <= value <= 35:
        return False
    start = st.end
    edge = longest(lat, start, "DEC", "INT")
    decimal = edge is not None and edge.kind == "DEC"
    said = text_at(lat, end) in {"moisture", "moist"} or text_at(lat, end) in {"%", "percent"} and text_at(lat, end + 1) in {"moisture", "moist"}
    if not said and not (decimal and _is_cut(st, start, end)):
        return False
    stop = end + 1 if text_at(lat, end) in {"moisture", "moist"} else end + 2 if said else end
    item = Item("other", "grain moisture", start, stop, value)
    if not said:
        item.assumed = "A bare decimal beside R8: grain moisture."
    st.cur = item
    st.items.append(item)
    st._use(start, stop)
    return True


def _hot(st: Stretch, value: Any, k: int) -> bool:
    """`88 and windy`: degrees beside a word for the weather."""
    edge = st.head(k) if k < len(st.pieces) else None
    return isinstance(value, int) and 30 <= value <= 115 and edge is not None and edge.kind == "WEATHER" and edge.means not in MEASURES


def _is_cut(st: Stretch, start: int, end: int) -> bool:
    """Whether the clause says that the beans are ripe or being cut."""
    lat = st.lattice
    near = range(max(0, start - 8), min(len(st.pieces), end + 5))
    for j in near:
        if st.hard(j) and j < start:
            continue
        if j > end and st.hard(j):
            break
        if text_at(lat, j) in {"cut", "cutting", "combine", "combining", "harvest", "harvesting", "ripe"}:
            return True
        if text_at(lat, j) in {"r", "r8", "r7"} and text_at(lat, j + 1) in {"8", "7", "eight", "seven"} and j < start:
            return True
    return False


def _says_something(ctx: Context, st: Stretch, item: Item) -> bool:
    """A head alone that names no thing (`bugs`, `stand`, `gauge`) and has no value, place or word is no finding."""
    if item.value is not None or item.wheres:
        return True
    if item.kind in GENERIC and item.name is None:
        return item.told and text_at(ctx.lattice, item.head_end) not in {"check", "count", "day", "net", "report", "counts"}
    if item.kind == "stand":
        return item.name is not None and item.name not in _BROAD
    if item.kind == "weather":
        return item.told and item.end > item.head_end or item.name not in {"degrees", "rain gauge", "heat index"} and (
            item.name not in {"hot", "cold", "cool", "warm", "calm"} or not _amid_words(ctx, item))
    if item.kind == "other":
        return item.name not in {"grain moisture", "test weight", "yield"} and (item.told or item.name not in {"color", "condition", "roots", "residue cover", "vigor"})
    return item.kind not in {"height", "soil moisture"}


def _amid_words(ctx: Context, item: Item) -> bool:
    """`my coffee went cold`: a word for the weather after a word that is not understood."""
    j = item.start - 1
    return j >= 0 and ctx.lattice.pieces[j].form == "word" and not ctx.lattice.known[j]


def _nothing_said(ctx: Context, st: Stretch, rule: str | None) -> int | None:
    generic = [i for i in st.items if i.kind in {"insect", "weed"}]
    if not generic or len(generic) != len(st.items):
        return None
    for i in generic:
        ctx.mark(i.start, i.end, FILLER)
    return generic[-1].end


def _not_seen(ctx: Context, item: Item, st: Stretch) -> str | None:
    """Rain that is hoped for, the frost of the forecast, the time after the storm: no observation of this day."""
    lat = ctx.lattice
    if item.kind == "weather" or item.kind == "damage" and item.name in {"frost", "cold injury"}:
        before = [text_at(lat, j) for j in range(max(0, item.start - 5), item.start)]
        cut = max((n + 1 for n, w in enumerate(before) if w in {".", ",", ";", "\n"}), default=0)
        words = set(before[cut:])
        if words & {"use", "need", "needs", "want", "wants", "hope", "hoping", "chance", "forecast", "calling", "praying", "radio", "supposed"}:
            return "planned, expected or said by somebody else"
        if item.kind == "weather" and item.value is None and words & _TIMES:
            return "another time"
        after = {text_at(lat, j) for j in range(item.start, min(item.end + 2, len(lat.pieces)))}
        if after & _FORECAST and item.value is None:
            return "planned, expected or said by somebody else"
    if item.kind in {"damage", "disease"} and longest(lat, item.end, "BROWN", sound=False) is not None:
        return "not a normal pod: no evidence for a stage"
    return None


def _put(ctx: Context, item: Item) -> None:
    span = ctx.span(item.start, item.end)
    f = add(ctx, item.kind, item.name, span)
    if item.unit == "same":
        _same(ctx, f)
    else:
        f.value, f.unit = item.value, item.unit
    f.where = item.where
    if item.kind == "weather" and item.value is None:
        f.where = words(ctx, item.start, item.end)
    if item.replaced is not None:
        ctx.corrected.append(Correction("4.17", span, f"{item.replaced} replaced by {item.value}"))
    if item.assumed:
        ctx.assume("4.20", span, item.assumed)


def _same(ctx: Context, f: FindingDraft) -> None:
    """`aphids same`: the count of the last finding of that name."""
    earlier = [g for v in ctx.visits for g in v.findings if g is not f and (g.kind, g.name) == (f.kind, f.name) and g.value is not None]
    f.value, f.unit = (earlier[-1].value, earlier[-1].unit) if earlier else (None, None)
    if not earlier:
        f.where = "same"


def _resume(segments: list[Segment], k: int, end: int) -> int:
    """Where a phrase reaches over the end of the stretch, its other pieces are read one by one."""
    for j in range(k, min(k + 200, len(segments))):
        s = segments[j]
        if s.start < end < s.end:
            segments[j + 1 : j + 1] = [Segment(i, i + 1, None) for i in range(end, s.end)]
            break
        if s.start >= end:
            break
    return end


def add(ctx: Context, kind: str, name: str | None, span: Span) -> FindingDraft:
    """A finding of the visit that is being spoken of; `scratch that` takes it back."""
    visit = ctx.here()
    f = FindingDraft(kind, name, None, None, None, span)
    ctx.open = []
    visit.findings.append(f)
    ctx.finding = f
    ctx.said("finding", span, lambda: visit.findings.remove(f) if f in visit.findings else None)
    return f


def settle(visits: Iterable[VisitDraft]) -> None:
    """Counts plant by plant: where two plants or more have a count of one thing, the plant is the place of each."""
    for visit in visits:
        rows: dict[tuple[str, str | None], list[tuple[FindingDraft, str]]] = {}
        for f in visit.findings:
            owner = next((p for p in reversed(visit.plants) if p.named and p.span.start <= f.span.start), None)
            if owner is not None and f.value is not None and f.kind in {"insect", "disease", "defoliation", "height", "weed"} and (f.unit in {None, "%", "in", "per plant"}):
                rows.setdefault((f.kind, f.name), []).append((f, owner.label))
        for found in rows.values():
            if len({label for _, label in found}) >= 2:
                for f, label in found:
                    f.where = f"plant {label}" + (f", {f.where}" if f.where else "")


def words(ctx: Context, start: int, end: int) -> str:
    """The scout's own words of pieces start to end."""
    return " ".join(ctx.lattice.original(start, end).split())


def number_value(ph: Phrase) -> Any:
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "INTSOUND", "DEC", "FRAC", "ORD"}]
    return nums[0] if len(nums) == 1 else nums


def percent_value(ph: Phrase) -> Any:
    nums = [tidy(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "INTSOUND"}]
    return nums[0] if len(nums) == 1 else nums[:2]
