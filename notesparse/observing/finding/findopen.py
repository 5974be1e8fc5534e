"""Whether a stretch of findings begins at a segment: cheap looks first, then what stands before a head (guide 4.20)."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing.finding import units
from notesparse.observing.finding.degrees import outdoors
from notesparse.observing.finding.findwords import CAUSES, FELT, HEADS, MEASURES, PLANTS_LOST, Item
from notesparse.observing.finding.moisture import of_the_grain, on_the_meter
from notesparse.observing.finding.rainfall import fell
from notesparse.observing.finding.stretch import Stretch, resume
from notesparse.observing.finding.units import longest, text_at
from notesparse.observing.finding.whereabouts import lies_at, place
from notesparse.observing.fold import UNREAD, Context
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import before_plants, traded
from notesparse.reading.parse import Segment
from notesparse.text.columns import WIDE
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("finding/findopen")

_OPENERS = {
    "findhead",
    "moisture",
    "height",
    "bareint",
    "numlist",
    "percent",
    "length",
    "ratio",
    "noneword",
    "per",
    "where",
    "date",
    "place",
    "filler",
    "name",
    "sampled",
}
_COUNTED_NOUNS = _LISTED.words("counted_nouns")
_OF_A_WEED = _LISTED.words("of_a_weed")
_BEHIND_RATHER = _LISTED.words("behind_rather")


def rather(lattice: Lattice, name: Name) -> bool:
    """`Waterhemp 2-4 in.`, `grain moisture 13%`: a head with its measure is a finding, and no field's name."""
    i = name.start
    kinds = ("INSECT", "DISEASE", "WEED", "DEFOL", "OTHERFIND", "LEAFDROP", "LEAFTURN", "DAMAGE", "WEATHER")
    edge = longest(lattice, i, *kinds, sound=False)
    if of_the_grain(lattice, i) is not None:
        return True
    if edge is None:
        return False
    announced = name.cue in {"field", "fieldno"}
    if edge.kind == "WEATHER":
        return (
            edge.means in MEASURES
            and edge.end == name.end
            and units.number(lattice, name.end) is not None
            and name.cue not in {"field", "fieldno"}
        )
    if edge.kind == "WEED" and edge.end == name.end and not announced and text_at(lattice, name.end) in _OF_A_WEED:
        return True
    if edge.kind == "WEED" and edge.end + 1 == name.end and not announced and text_at(lattice, edge.end) in _OF_A_WEED:
        return True  # waterhemp comin 1-2in
    k = units.over_doubt(lattice, edge.end)
    many = units.amount(lattice, k)
    counted = many is not None and (units.per(lattice, many.end) is not None or edge.means == "grain moisture")
    if edge.end == name.end and not counted and traded(lattice, i) and before_plants(lattice, name.end):
        return False
    if edge.kind in {"INSECT", "DISEASE"} and edge.end == name.end and not announced:
        return True
    if edge.kind in {"INSECT", "DISEASE", "WEED"} and not announced and lies_at(lattice, edge.end) == name.end:
        side = lattice.original(name.end - 1, name.end)
        return edge.kind == "DISEASE" or side.islower()  # Frogeye S slope, aphids north hill
    if edge.kind == "DISEASE" and edge.end + 1 == name.end and text_at(lattice, edge.end) in {"lower", "upper", "low"}:
        return not announced  # Septoria lower 1/3
    if edge.kind == "WEED" and not announced and text_at(lattice, edge.end) == "'s":
        return True  # Pigweed's four foot tall
    if edge.kind == "DAMAGE" and edge.end < name.end:
        after = text_at(lattice, name.end)
        told = edge.means in CAUSES and name.cue not in {"again", "field", "fieldno", "go"} and after in _BEHIND_RATHER
        return told or units.percent(lattice, name.end) is not None
    if (
        edge.kind == "OTHERFIND"
        and edge.end == i + 1
        and edge.means not in {"grain moisture", "nodules", "canopy closure"}
    ):
        return False
    return units.percent(lattice, k) is not None or units.length(lattice, k) is not None or counted


def may_open(ctx: Context, s: Segment, rule: str | None) -> bool:
    """Cheap looks first: most segments begin no finding."""
    if rule is not None and rule not in _OPENERS:
        if rule in {"seeds", "pods", "flowers"} and _counted_head(ctx.lattice, s):
            return True
        kinds = {e.kind for e in ctx.lattice.edges[s.start]}
        return (
            bool(kinds & {"LEAFTURN", "LEAFDROP"})
            or outdoors(ctx.lattice, s.start) is not None
            or (rule in {"state", "topleaf", "emergence"} and "LEAF" in kinds)
            or (
                (rule == "pods" and s.phrase is not None and s.phrase.form == "pod_yes")
                or (rule == "seeds" and s.phrase is not None and s.phrase.form == "bean_yes")
            )
        )
    return bool(ctx.lattice.edges[s.start]) or of_the_grain(ctx.lattice, s.start) is not None


def _counted_head(lattice: Lattice, s: Segment) -> bool:
    """`14 bean leaf beetles` where the plant's words would have it `14 beans`."""
    many = units.number(lattice, s.start)
    edge = longest(lattice, many.end, *HEADS, sound=False) if many is not None else None
    return edge is not None and edge.end > s.end


def strange(s: Segment) -> bool:
    """A leaf word that is part of a plant's own statement."""
    return (
        s.phrase is not None
        and s.phrase.rule in {"trif", "topleaf", "scars", "place"}
        and s.phrase.form not in {"lower"}
    )


def begins(st: Stretch, rule: str | None) -> bool:
    """Whether a finding can begin here: a head, soil, a height; or a count, a `no` or a place before one."""
    lat, i = st.lattice, st.end
    if i in st.cues:
        return False
    showers = fell(lat, i) or outdoors(lat, i)
    if showers is not None:
        st.cur = showers[0]
        st.items.append(st.cur)
        st.used.append((st.cur.start, i))
        st._use(i, showers[1])
        return True
    if rule == "pods" and not st._longer_head(i):
        return _pods_hurt(st)
    if rule == "seeds" and not st._longer_head(i):
        return text_at(lat, i) in {"beans", "bean"} and _bean_height(st)
    if st.head(i) is not None:
        return True
    if _tester(st):
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
        return head is not None and (HEADS[head[1].kind] not in {"stand", "weather"} or head[1].means in FELT)
    if longest(lat, i, "SWEEP", sound=False) is not None:
        return _head_within(st, i + 1, 12)
    said = units.per(lat, i)
    if said is not None and "sweep" in str(said.unit) and (rule == "per" or units.number(lat, i) is not None):
        return _head_within(st, said.end, 4)
    if st._plants_in(i) is not None:
        return True
    part = units.share(lat, i) or units.percent(lat, i)
    if part is not None:
        if _share_of_pods(st, part):
            return True
        k = part.end
        while text_at(lat, k) in {"of", "the"}:
            k += 1
        head = st.next_head(k)
        if head is not None and HEADS[head[1].kind] in {"leaf", "defoliation", "damage", "disease", "weed", "other"}:
            return True
        if part.unit == "%" and text_at(lat, k) in {"leaf", "leaves", "lvs"} and _eaten_behind(lat, k + 1):
            return True
    length = units.length(lat, units.over_doubt(lat, i + 1) if text == "stand" else i)
    if length is not None and length.tall:
        return True
    if length is not None:
        rain = st.head(length.end + 1 if text_at(lat, length.end) == "of" else length.end)
        if rain is not None and rain.kind == "WEATHER" and rain.means in MEASURES - {"degrees"}:
            return True
    if st.some_of(i) is not None or _rows_closed(st) or _to_the_foot(st):
        return True
    values, end = units.counts(lat, i)
    if values and text_at(lat, i - 1) not in _COUNTED_NOUNS and not _of_a_stage(st, i, end):
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
        return (
            kind in {"insect", "weed"}
            or head[1].means == "nodules"
            or (kind == "weather" and head[1].means == "degrees")
            or (kind == "stand" and str(head[1].means).startswith("plants per"))
            or (kind == "damage" and (head[1].means in PLANTS_LOST or units.per(lat, head[1].end) is not None))
        )
    if rule == "where" and st.phrase(i) == "where":
        assert st.at[i].phrase is not None
        end = st.at[i].phrase.end  # type: ignore[union-attr]
        many, after = units.counts(lat, end)
        return st.next_head(after if many else end) is not None or _found_at(st, i, end)
    return False


_BEARS = _COMMON.words("being_or_having") | _COMMON.words("showing") | _COMMON.words("looking") | _COMMON.words("with")
_SOME = _LISTED.words("some")


def _found_at(st: Stretch, i: int, end: int) -> bool:
    """`end rows have velvetleaf`, `west side is full of frogeye`: the place at piece i, up to its verb, bears what was found."""
    marked = text_at(st.lattice, end) in {":", "-"}
    if not (marked or text_at(st.lattice, end) in _BEARS) or (st.hard(end) and not marked):
        return False
    if not _opens_its_clause(st, i):
        return False  # wheat straw on the far side got burned off
    if marked and _over_plants(st, end):
        return False  # north end: frogeye, p1 R3: a stop
    k = end + 1
    while text_at(st.lattice, k) in _SOME and not st.hard(k):
        k += 1
    none = longest(st.lattice, k, "NO", sound=False)
    many, after = units.counts(st.lattice, k)
    head = st.next_head(none.end if none is not None else after if many else k)
    if head is None or HEADS[head[1].kind] not in {"insect", "disease", "weed", "damage"}:
        return False
    st.places.append((st.lattice.written(i, end), i, end))
    st.used.append((end, k))
    st.end = k
    return True


_BEFORE_OPENS_ITS_CLAUSE = _COMMON.words("our") | {"that"}


def _opens_its_clause(st: Stretch, i: int) -> bool:
    """Nothing stands before piece i in its clause but a word that joins, or the name of the field."""
    before = i - 1
    while text_at(st.lattice, before) in _BEFORE_OPENS_ITS_CLAUSE and before >= 0:
        before -= 1
    if before < 0 or st.hard(before) or st.pieces[before].form in {"mark", "nl"}:
        return True
    named = any(name.end == before + 1 for name in st.names.values())
    return named or text_at(st.lattice, before) in {"and", "but"}


def _over_plants(st: Stretch, i: int) -> bool:
    """A plant is named behind piece i on its line, or at the head of the next one."""
    ends = (x for x in range(i, len(st.pieces)) if st.pieces[x].form == "nl")
    end = next(ends, len(st.pieces))
    return any(st.phrase(x) == "label" for x in range(i, min(end + 2, len(st.pieces))) if x in st.at)


def _of_a_stage(st: Stretch, i: int, end: int) -> bool:
    """`V5: 9  V4: 6   pigwd 2"`, `R6 9, R5 1   stink bug 3`: plants of a stage, and a finding behind a gap."""
    if end >= len(st.pieces) or st.pieces[end].gap < WIDE:
        return False
    k = i - (text_at(st.lattice, i - 1) in {":", "-", "="})
    return k > 1 and st.pieces[k - 1].form == "int" and text_at(st.lattice, k - 2) in {"v", "r"}


def later_number(ctx: Context, segments: list[Segment], k: int, st: Stretch) -> int | None:
    """`6:45, seventy one degrees`: the last number of a row alone stands before a head."""
    s = segments[k]
    for j, e in s.phrase.path[1:] if s.phrase is not None else ():
        if e.end == s.end and st.next_head(e.end) is not None:
            ctx.mark(s.start, j, UNREAD, "a number with nothing to count")
            return resume(segments, k, j)
    return None


def _head_within(st: Stretch, k: int, reach: int) -> bool:
    for j in range(k, min(k + reach, len(st.pieces))):
        edge = st.head(j)
        if edge is not None:
            return HEADS[edge.kind] == "insect"
        if st.stops(j):
            return False
    return False


_FOR_HURT_HEAD = _COMMON.words("being_or_having") | _COMMON.words("showing") | _COMMON.words("with") | {"some"}


def _hurt_head(st: Stretch, k: int) -> bool:
    """Harm to pods within a word or two."""
    for j in range(k, min(k + 4, len(st.pieces))):
        edge = st.head(j)
        if edge is not None:
            return edge.kind == "DAMAGE"
        if text_at(st.lattice, j) not in _FOR_HURT_HEAD:
            return False
    return False


def _share_of_pods(st: Stretch, part: units.Amount) -> bool:
    """`10% of pods have stink bug damage`."""
    k = part.end
    while text_at(st.lattice, k) in {"of", "the"}:
        k += 1
    if text_at(st.lattice, k) not in {"pods", "pod", "pds"} or not _hurt_head(st, k + 1):
        return False
    st.pending = (part.value, "%", st.end, part.end)
    st.end = k + 1
    return True


_FOR_PODS_HURT = _LISTED.words("for_pods_hurt")


def _pods_hurt(st: Stretch) -> bool:
    """`pods on the outside rows have some punctures`: pods that were hurt are a finding, and no pods of a plant."""
    j = st.at[st.end].end
    start = st.end
    part = units.percent(st.lattice, j)
    if part is not None and _hurt_head(st, part.end):  # pods 10% damaged
        st.pending = (part.value, "%", start, part.end)
        st.end = part.end
        return True
    where = place(st.lattice, j, st.stops_place, after_value=True)
    if where is not None:
        j = where[0]
    while j < len(st.pieces) and (text_at(st.lattice, j) in _FOR_PODS_HURT and not st.hard(j)):
        j += 1
    edge = st.head(j)
    if (
        edge is None
        or edge.kind != "DAMAGE"
        or edge.means not in {"puncture", "pod feeding", "hail scar", "leaf damage", "damage"}
    ):
        return False
    st.places.append((st.lattice.written(start, where[0]), start, where[0])) if where is not None else st.used.append(
        (start, start + 1)
    )
    st.end = j
    return True


def _moisture_of_grain(st: Stretch, values: list[units.Amount], end: int) -> bool:
    """`12.4 moisture`, and a bare `12.9` beside R8."""
    lat, value = st.lattice, values[0].value
    if len(values) != 1 or not isinstance(value, int | float) or not 6 <= value <= 35:
        return False
    start = st.end
    if text_at(lat, end) in {"/", "-"} and end + 1 < len(st.pieces) and st.pieces[end + 1].form == "int":
        return False  # Otter Run 9/29: a day
    edge = longest(lat, start, "DEC", "INT")
    decimal = edge is not None and edge.kind == "DEC"
    said = text_at(lat, end) in {"moisture", "moist"} or (
        text_at(lat, end) in {"%", "percent"} and text_at(lat, end + 1) in {"moisture", "moist"}
    )
    meter = on_the_meter(lat, end)
    ran = _ran(st, start, end)
    if not said and meter is None and ran is None and not (decimal and _is_cut(st, start, end)):
        return False
    stop = (
        meter
        if meter is not None and not said
        else end + 1
        if text_at(lat, end) in {"moisture", "moist"}
        else end + 2
        if said
        else end
    )
    before = start - 1
    while before >= 0 and text_at(lat, before) in {"?", ":", "-", "is", "at"}:
        before -= 1
    if text_at(lat, before) == "grain":
        st.used.append((before, before + 1))
        start = before
    item = Item("other", "grain moisture", start, stop, value)
    if ran is not None and not said and meter is None:
        st.used.append((ran, start))
        item.start = ran
        item.assumed = "A figure that ripe beans ran or tested: grain moisture."
    elif not said and meter is None:
        item.assumed = "A bare decimal beside R8: grain moisture."
    st.cur = item
    st.items.append(item)
    st._use(start, stop)
    return True


_BEHIND_ROWS_CLOSED = _LISTED.words("behind_rows_closed")


def _rows_closed(st: Stretch) -> bool:
    """`rows 70% closed`."""
    lat, i = st.lattice, st.end
    if text_at(lat, i) not in {"rows", "row", "middles"}:
        return False
    k = units.over_doubt(lat, i + 1)
    while text_at(lat, k) in {"are", "is"}:
        k = units.over_doubt(lat, k + 1)
    part = units.percent(lat, k) or units.share(lat, k)
    if part is None or text_at(lat, part.end) not in _BEHIND_ROWS_CLOSED:
        return False
    st.cur = Item("other", "canopy closure", i, part.end + 1, part.value, "%")
    st.items.append(st.cur)
    st._use(i, part.end + 1)
    return True


def _bean_height(st: Stretch) -> bool:
    """`beans 24 to 28 inches`: no seed and no pod is as long as that."""
    lat, i = st.lattice, st.end
    k = units.over_doubt(lat, i + 1)
    while text_at(lat, k) in {"are", "is", "at"}:
        k = units.over_doubt(lat, k + 1)
    said = units.length(lat, k)
    if (
        said is None
        or said.unit not in {"in", "ft"}
        or (st.stops(said.end) and said.end in st.at and not st.hard(said.end))
    ):
        return False
    low = said.value[0] if isinstance(said.value, list) else said.value
    if low < 8 and said.unit == "in":
        return False
    st.cur = Item("height", None, i, said.end, said.value, said.unit)
    st.items.append(st.cur)
    st._use(i, said.end)
    return True


def _to_the_foot(st: Stretch) -> bool:
    """`8 to the foot` with nothing named: plants (assumed), where it is all that is said."""
    lat, i = st.lattice, st.end
    many = units.amount(lat, i)
    if many is None or text_at(lat, many.end) not in {"to", "per", "a", "/"}:
        return False
    said = units.per(lat, many.end)
    if said is None or said.unit not in {"per foot", "per foot of row"} or not _alone(st, i, said.end):
        return False
    st.cur = Item(
        "stand",
        None,
        i,
        said.end,
        many.value,
        "plants per foot",
        assumed="A count to the foot with nothing named: plants.",
    )
    st.items.append(st.cur)
    st._use(i, said.end)
    return True


def _alone(st: Stretch, i: int, end: int) -> bool:
    before = i - 1
    while before >= 0 and st.lattice.filler[before]:
        before -= 1
    opens = before < 0 or st.pieces[before].form in {"nl", "mark"}
    return opens and (end >= len(st.pieces) or st.pieces[end].form in {"nl", "mark"})


def _hot(st: Stretch, value: Any, k: int) -> bool:
    """`88 and windy`: degrees beside a word for the weather."""
    edge = st.head(k) if k < len(st.pieces) else None
    return (
        isinstance(value, int)
        and 30 <= value <= 115
        and edge is not None
        and edge.kind == "WEATHER"
        and edge.means not in MEASURES
    )


_EATEN = _COMMON.words("eaten")


def _eaten_behind(lattice: Lattice, k: int) -> bool:
    """`(five percent of the leaf) is chewed`."""
    return any(text_at(lattice, x) in _EATEN for x in range(k, k + 4))


def _tester(st: Stretch) -> bool:
    """`moisture 13.2`, `grain 14.1`: a decimal of that size is the grain's moisture, and no soil's."""
    said = of_the_grain(st.lattice, st.end)
    if said is None:
        return False
    end = on_the_meter(st.lattice, said.end) or said.end
    st.cur = Item("other", "grain moisture", st.end, end, said.value, said.unit)
    st.items.append(st.cur)
    st._use(st.end, end)
    return True


_RAN = _LISTED.words("ran")
_BEFORE_RAN = _LISTED.words("before_ran")
_FOR_RAN = _LISTED.words("for_ran")


def _ran(st: Stretch, start: int, end: int) -> int | None:
    """`hand shelled ran 13.1` in a note of ripe pods: where its words begin."""
    lat = st.lattice
    k = start - 1
    while text_at(lat, k) in _FOR_RAN:
        k -= 1
    if text_at(lat, k) not in _RAN or not (
        end >= len(st.pieces) or st.pieces[end].form in {"mark", "nl"} or st.hard(end)
    ):
        return None
    ripe = any(
        e.kind == "BROWN" or (e.kind == "STAGENAME" and e.means in {"R7", "R8"}) for edges in lat.edges for e in edges
    ) or any(text_at(lat, j) == "r" and text_at(lat, j + 1) in {"7", "8"} for j in range(len(st.pieces)))
    if not ripe:
        return None
    while text_at(lat, k - 1) in _BEFORE_RAN:
        k -= 1
    if k and text_at(lat, k) not in _RAN:
        begins = st.pieces[k - 1].form in {"mark", "nl"} or st.hard(k - 1)
        return k if begins else start
    return k if k == 0 or st.pieces[k - 1].form in {"mark", "nl"} else start


_FOR_IS_CUT = _LISTED.words("for_is_cut")


def _is_cut(st: Stretch, start: int, end: int) -> bool:
    """Whether the clause says that the beans are ripe or being cut."""
    lat = st.lattice
    near = range(max(0, start - 8), min(len(st.pieces), end + 5))
    for j in near:
        if st.hard(j) and j < start:
            continue
        if j > end and st.hard(j):
            break
        if text_at(lat, j) in _FOR_IS_CUT:
            return True
        if j < start and any(e.kind == "STAGENAME" and e.means in {"R7", "R8"} for e in lat.edges[j]):
            return True  # full maturity, 12.4
        if text_at(lat, j) in {"r", "r8", "r7"} and text_at(lat, j + 1) in {"8", "7", "eight", "seven"} and j < start:
            return True
    return False
