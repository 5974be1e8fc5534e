"""A stretch of a note that tells of findings: heads, counts, units and places in the scout's own order (guide 4.20).

`6 stink bugs, 2 cloverworms and 14 bean leaf beetles per 25 sweeps on the end rows, defoliation 10% top 15% bottom`.
The stretch ends where the note goes over to plants, stages, another field, or words that belong to no finding.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from notesparse.observing import absorbed, moisture, units
from notesparse.observing.names import Name
from notesparse.observing.units import Amount, longest, text_at
from notesparse.observing.whereabouts import place
from notesparse.reading.parse import Segment
from notesparse.text.lattice import Edge, Lattice

HEADS = {"INSECT": "insect", "DISEASE": "disease", "WEED": "weed", "DAMAGE": "damage", "DEFOL": "defoliation", "STANDWORD": "stand",
         "WEATHER": "weather", "OTHERFIND": "other", "LEAFTURN": "leaf", "LEAFDROP": "leaf"}
GENERIC = {"insect", "disease", "weed"}
COUNTED = {"insect", "weed"}
MEASURES = {"rain", "rain gauge", "downpour", "shower", "sprinkle", "degrees", "heat index"}
CAUSES = {"deer", "hail", "frost", "drift", "herbicide burn", "wind damage", "cattle", "rabbit", "groundhog", "lightning", "flooding", "compaction",
          "drought stress", "hog damage", "bird damage", "turkey damage", "raccoon", "vole", "sand blasting", "cold injury", "fire"}
ADJECTIVES = frozenset({"live", "big", "little", "small", "adult", "adults", "baby", "fresh", "old", "tiny", "winged", "large", "new", "more", "total", "the", "of",
                        "those", "other", "odd", "few", "some", "young", "newly", "hatched", "stray", "single", "or", "so", "about", "real", "visible",
                        "any", "much", "escaped", "scattered", "real"})
LINKS = frozenset({"from", "off", "looks", "look", "looking", "like", "due", "by"})
STRONG = {"label", "trif", "nodes", "topleaf", "scars", "emergence", "flowers", "pods", "seeds", "state", "podshare", "stage", "group", "stop", "planted",
          "emerged", "maturity", "rows", "notvisited", "othercrop", "plan", "past", "skipit", "call", "variety", "goto", "sampled", "date", "ratio", "place",
          "name"}
NONES = frozenset({"none", "no", "zero", "nil", "nada", "gone", "zip", "zilch", "0", "clean"})


@dataclass(slots=True)
class Item:
    """One finding while its words are being put together; pieces [start, end)."""

    kind: str
    name: str | None
    start: int
    end: int
    value: Any = None
    unit: str | None = None
    wheres: list[str] = field(default_factory=list)
    told: bool = False  # said in words (thick, bad, here and there)
    replaced: Any = None
    head_end: int = 0
    closed: bool = False  # what follows is no count of it
    plant: str | None = None
    assumed: str | None = None

    @property
    def where(self) -> str | None:
        return ", ".join(self.wheres) or None


class Stretch:
    """Reads findings from piece `start` on."""

    def __init__(self, lattice: Lattice, segments: list[Segment], k: int, names: dict[int, Name]) -> None:
        self.lattice = lattice
        self.pieces = lattice.pieces
        self.at = {s.start: s for s in segments[k : k + 80]}
        self.names = names
        self.cues = {n.cue_start for n in names.values()}
        self.items: list[Item] = []
        self.used: list[tuple[int, int]] = []
        self.cur: Item | None = None
        self.pending: tuple[Any, str | None, int, int] | None = None  # a count that stands before its head
        self.negative: int | None = None  # piece of a `no` that stands before its head
        self.places: list[tuple[str, int, int]] = []  # places said before the head
        self.unit: str | None = None  # said for all counts of the stretch
        self.sweeps = False
        self.sep: str | None = None
        self.link: str | None = None
        self.correcting = False
        self.average = False
        self.later = False
        self.end = segments[k].start

    # looking --------------------------------------------------------------------------------------------------------

    def hard(self, j: int) -> bool:
        p = self.pieces[j]
        return p.form == "nl" or (p.form == "mark" and p.text in ".;!" and self.lattice.soft[j] is None)

    def phrase(self, j: int) -> str | None:
        s = self.at.get(j)
        return s.phrase.rule if s is not None and s.phrase is not None else None

    def form(self, j: int) -> str:
        s = self.at.get(j)
        return s.phrase.form if s is not None and s.phrase is not None else ""

    def stops(self, j: int) -> bool:
        """Whether the note goes over to something else at piece j."""
        if j >= len(self.pieces) or self.hard(j) or j in self.names or j in self.cues:
            return True
        rule = self.phrase(j)
        if rule not in STRONG:
            return False
        form = self.form(j)
        if form in {"up", "the_v", "half", "most", "lots", "weekday", "today", "yesterday", "ord_day"} or rule == "past" and text_at(self.lattice, j) in {"was", "were", "had"}:
            return False
        if rule == "past" and self.cur is not None and self.cur.kind in {"damage", "weather"} and (self.link or text_at(self.lattice, j) == "last"):
            return False
        if rule == "date" and (form == "md" and (units.length(self.lattice, j) or units.percent(self.lattice, j)) or self.cur is not None and self.cur.kind in {
                "damage", "weather"}):
            return False
        if rule == "state" and self.cur is not None and self.cur.kind == "other":
            return False
        if rule in {"ratio", "sampled"} and self._plants_in(j) is not None:
            return False
        if rule == "place" and form in {"lower", "up_top", "mid_plant", "near_top", "bare_top", "top_1"}:
            return False
        if rule in {"pods", "seeds", "flowers", "emergence", "nodes", "trif"} and self._longer_head(j):
            return False
        return True

    def stops_place(self, j: int) -> bool:
        """The same for the words of a place: `on the pods`, `in the beans` are places."""
        if self.phrase(j) in {"pods", "seeds", "flowers", "othercrop", "place"} and self.form(j) in {"pod_yes", "bean_yes", "seed_yes", "fl_yes", "othercrop", "lower"}:
            return False
        return self.stops(j)

    def head(self, j: int) -> Edge | None:
        """The word at piece j that names a finding."""
        if j >= len(self.pieces) or j in self.names:
            return None
        p = self.pieces[j]
        if p.glued and j and self.pieces[j - 1].form in {"int", "word"}:
            return None
        s = self.at.get(j)
        edge: Edge | None = None
        if s is not None and s.phrase is not None and s.phrase.rule == "findhead":
            edge = s.phrase.path[0][1]
        else:
            edge = longest(self.lattice, j, *HEADS, sound=False)
            if edge is not None and self.phrase(j) in STRONG - {"name"} and s is not None and s.end >= edge.end:
                edge = None
        if edge is not None and edge.kind == "STANDWORD":
            before = text_at(self.lattice, j - 1)
            tall = units.length(self.lattice, units.over_doubt(self.lattice, edge.end))
            if before in {"beans", "bean"} or tall is not None and tall.tall:
                return None
        return edge

    def _longer_head(self, j: int) -> bool:
        """`14 bean leaf beetles`: a head that reaches further than the plant's words at piece j."""
        s = self.at[j]
        many = units.number(self.lattice, j)
        edge = longest(self.lattice, many.end if many is not None else j, *HEADS, sound=False)
        return edge is not None and edge.end > s.end

    def next_head(self, j: int) -> tuple[int, Edge] | None:
        """The head at piece j, or after an adjective or two."""
        for k in range(j, min(j + 3, len(self.pieces))):
            edge = self.head(k)
            if edge is not None:
                return k, edge
            if k >= len(self.pieces) or self.stops(k) or text_at(self.lattice, k) not in ADJECTIVES:
                return None
        return None

    def _plants_in(self, j: int) -> tuple[Amount, Amount] | None:
        """`18 plts in 3 ft`, `four to five plants a foot`, `8 to the foot` of a stand."""
        many = units.amount(self.lattice, j)
        if many is None:
            return None
        k = many.end
        if longest(self.lattice, k, "PLANT", sound=False) is None and not (self.cur is not None and self.cur.kind == "stand"):
            return None
        unit = units.plants_in(self.lattice, k)
        return (many, unit) if unit is not None else None

    # reading --------------------------------------------------------------------------------------------------------

    def read(self) -> int:
        """Read on; the end of the stretch (a piece) is returned. Nothing was found where `items` is empty."""
        return self.resume(self.end)

    def resume(self, j: int) -> int:
        """Read on from piece j."""
        guard = 0
        while j < len(self.pieces) and guard < 160:
            guard += 1
            nxt = self._step(j)
            if nxt is None:
                break
            j = nxt
        self._finish()
        return self.end

    def _use(self, a: int, b: int) -> int:
        self.used.append((a, b))
        self.end = max(self.end, b)
        if self.cur is not None:
            self.cur.end = max(self.cur.end, b)
        return b

    def _step(self, j: int) -> int | None:  # noqa: C901 - one paragraph a kind of word
        lat, text = self.lattice, text_at(self.lattice, j)
        edge = self.head(j)
        if edge is not None and not (self.hard(j) or j in self.cues):
            return self._head(j, edge)
        if self.stops(j):
            return None
        p = self.pieces[j]
        if p.form == "mark" and text not in "%\"'/≈½¼¾" or text == "/" and units.per(lat, j) is None:
            if text in {",", "-"} or text == ":":
                self.sep = text if text != ":" else None
            return j + 1
        rule = self.phrase(j)
        if rule == "correct":
            nxt = self.at[j].end
            if self.cur is None or units.amount(lat, nxt) is None:
                return None
            self.correcting = True
            return self._use(j, nxt)
        if rule == "average" and self.cur is not None:
            self.average = True
            return self._use(j, self.at[j].end)
        if rule == "same":
            if self.cur is None or self.cur.value is not None:
                return None
            self.cur.unit, self.cur.value = "same", "same"
            return self._use(j, self.at[j].end)
        if rule in {"date", "past"} and not (units.length(lat, j) or units.percent(lat, j) or self._plants_in(j)):
            return self._use(j, self.at[j].end) if self.cur is not None else None
        for reader in (self._share_of, self._stand, self._measure, self._per, self._count, self._nothing, self._ground, self._body, self._place):
            nxt = reader(j)
            if nxt is not None:
                return nxt if nxt >= 0 else None
        return self._words(j)

    # heads ----------------------------------------------------------------------------------------------------------

    def _head(self, j: int, edge: Edge) -> int | None:
        kind = HEADS[edge.kind]
        name: str | None = str(edge.means)
        if kind in {"defoliation"} or kind in GENERIC and name in GENERIC or kind == "stand" and name in {"stand", "population", "plant count"}:
            name = None
        cur = self.cur
        if kind == "stand" and str(edge.means).startswith("plants per "):  # 118k plants per acre
            if self.pending is not None:
                value, _, a, _ = self.pending
                self.pending = None
                self.cur = Item("stand", None, a, edge.end, value, str(edge.means))
                self.items.append(self.cur)
                return self._use(a, edge.end)
            if cur is not None and cur.kind == "stand":
                cur.unit = str(edge.means)
                return self._use(j, edge.end)
            return None
        if cur is not None and self._joins(cur, kind, name):
            if cur.kind == "damage" and (name in CAUSES and cur.name not in CAUSES or self.link):
                cur.name = name
            elif cur.name is None and cur.kind == kind:
                cur.name = name
            if cur.kind == "insect" and kind == "damage":
                cur.closed = True
            self.link = None
            return self._use(j, edge.end)
        item = Item(kind, name, j, edge.end, head_end=edge.end)
        if self.negative is not None:
            item.value, item.start = 0, self.negative
            self.used.append((self.negative, self.negative + 1))
            self.negative = None
        elif self.pending is not None:
            value, unit, a, b = self.pending
            item.value, item.unit, item.start = value, unit, a
            self.used.append((a, b))
            self.pending = None
        for said, a, b in self.places:
            item.wheres.append(said)
            item.start = min(item.start, a)
            self.used.append((a, b))
        self.places = []
        self.cur = item
        self.items.append(item)
        self.sep = self.link = None
        self.later = self.correcting = self.average = False
        return self._use(j, edge.end)

    def _joins(self, cur: Item, kind: str, name: str | None) -> bool:
        """Whether a second head tells more of the same finding."""
        if self.pending is not None or self.negative is not None:
            return False
        if cur.kind == kind == "weather":
            measured = cur.name in MEASURES or name in MEASURES
            return not measured and cur.value is None or name == "degrees" and cur.value is None or name in MEASURES and cur.name in MEASURES
        if cur.kind == kind and cur.value is None and not cur.wheres and cur.name is None and kind in GENERIC:
            return True  # weeds: foxtail
        if cur.kind == kind and cur.name == name and cur.value is None and not self.sep:
            return True
        if cur.kind == kind == "stand" and cur.value is None:
            return True
        if cur.kind == kind == "damage" and (self.link or not self.sep) and cur.value is None:
            return True
        if cur.kind in {"leaf", "damage", "disease"} and kind == "damage" and self.link and cur.kind != "damage":
            return False
        if cur.kind == "insect" and kind == "damage" and not self.sep and name not in CAUSES:
            return True
        if cur.kind == "disease" and kind == "disease" and (name in {None, "lesion"}) and not self.sep:
            return True
        return cur.kind == "other" and kind == "other" and cur.name == name and cur.value is None

    # counts and units -----------------------------------------------------------------------------------------------

    def _share_of(self, j: int) -> int | None:
        """`half the leaves yellow`, `topped a third of the outside rows`, `1 in 5`, `1 of 3`."""
        lat = self.lattice
        part = units.share(lat, j)
        if part is None:
            one = units.number(lat, j)
            if one is None or text_at(lat, one.end) not in {"in", "of"} or self.cur is None or self.cur.kind not in {"damage", "disease"}:
                return None
            of = units.number(lat, one.end + 1)
            if of is None or not 0 < one.value < of.value or units.per(lat, one.end) is not None or longest(lat, of.end, *units.UNITS, "SWEEP", sound=False):
                return None
            part = Amount(of.end, round(100 * one.value / of.value), "%")
        elif longest(lat, part.end, *units.UNITS, sound=False) or text_at(lat, part.end) in {"an", "a"}:
            return None
        cur = self.cur
        after = part.end
        while text_at(lat, after) in {"of", "the"}:
            after += 1
        nxt = self.head(after)
        if nxt is not None and HEADS[nxt.kind] in {"leaf", "defoliation"}:
            self.pending = (part.value, "%", j, part.end)
            return after
        if cur is not None and cur.value is None and cur.kind in {"leaf", "damage", "disease", "defoliation"} and not cur.closed:
            cur.value, cur.unit = part.value, "%"
            return self._use(j, after)
        return None

    def _stand(self, j: int) -> int | None:
        said = self._plants_in(j)
        cur = self.cur
        if said is None:
            only = units.plants_in(self.lattice, j) if cur is not None and cur.kind == "stand" and cur.value is None else None
            if only is None or cur is None or longest(self.lattice, j, "PLANT", sound=False) is None:
                return None
            cur.unit = only.unit  # stand, plants in 10 ft of row: 38 41 36
            return self._use(j, only.end)
        many, unit = said
        if cur is not None and cur.kind == "stand" and (cur.value is None or self.later):
            if cur.value is not None:
                cur.replaced = cur.value
            cur.value, cur.unit = many.value, unit.unit
        else:
            self.cur = Item("stand", None, j, unit.end, many.value, unit.unit)
            self.items.append(self.cur)
        self.later = False
        self.sep = None
        return self._use(j, unit.end)

    def _measure(self, j: int) -> int | None:
        """A percentage, an area or a length."""
        lat, cur = self.lattice, self.cur
        said = units.percent(lat, j)
        if said is not None:
            head = self.next_head(said.end)
            if head is not None and HEADS[head[1].kind] in {"defoliation", "leaf", "damage", "disease", "weed", "other"} and (
                    cur is None or cur.value is not None or self.sep or cur.kind not in {"defoliation", "disease", "leaf", "damage", "other"}):
                self.pending = (said.value, "%", j, said.end)
                return said.end
            if cur is None or cur.kind not in {"defoliation", "disease", "leaf", "damage", "other", "weed", "insect", "weather", "stand"}:
                return -1
            return self._put(j, said)
        said = units.area(lat, j)
        if said is not None and cur is not None and cur.kind in {"damage", "weed", "disease"}:
            return self._put(j, said)
        said = units.length(lat, j)
        if said is None:
            return None
        if cur is not None and (cur.kind in {"weed", "height", "damage", "insect"} and (cur.kind != "insect" or not said.tall) or cur.kind == "weather" and cur.name in MEASURES):
            if cur.kind == "weed" and cur.value is not None and cur.unit is not None and not cur.unit.startswith("per"):
                return -1 if not self.correcting else self._put(j, said)
            return self._put(j, said)
        if said.tall:
            self.cur = Item("height", None, j, said.end, said.value, said.unit)
            self.items.append(self.cur)
            return self._use(j, said.end)
        return -1 if cur is not None else None

    def _put(self, j: int, said: Amount) -> int:
        cur = self.cur
        assert cur is not None
        if self.correcting and cur.value is not None:
            cur.replaced, cur.value, cur.unit = cur.value, said.value, said.unit or cur.unit
            self.correcting = False
        elif cur.value is None or self.average:
            cur.value, cur.unit = said.value, said.unit or cur.unit
            self.average = False
        else:
            self.cur = Item(cur.kind, cur.name, j, said.end, said.value, said.unit)
            self.items.append(self.cur)
        self.sep = None
        return self._use(j, said.end)

    def _per(self, j: int) -> int | None:
        lat, cur = self.lattice, self.cur
        said = units.per(lat, j)
        if said is None or said.unit is None:
            edge = longest(lat, j, "SWEEP")
            if edge is not None and (cur is None or cur.kind == "insect"):
                self.sweeps = True
                self.used.append((j, edge.end))
                return self._use(j, edge.end) if cur is not None else edge.end
            return None
        unit = said.unit
        if unit.startswith("per ") and unit[4:].isdigit():
            if not self.sweeps and text_at(lat, said.end) not in {"", ".", ","} and not self.stops(said.end):
                return None
            unit = f"{unit} sweeps" if self.sweeps else unit
        if cur is None:
            if "sweep" in unit:
                self.unit, self.sweeps = unit, True
                self.used.append((j, said.end))
                return said.end
            return None
        if cur.kind == "stand" and cur.value is not None:
            cur.unit = cur.unit or units.stand_unit(unit)
            return self._use(j, said.end)
        if cur.value is None and "sweep" in unit and cur.kind == "insect":
            self.unit = unit
            return self._use(j, said.end)
        if cur.value is None or cur.kind in {"defoliation", "height", "weather", "leaf"}:
            return None
        if cur.unit is None:
            cur.unit = unit
            for earlier in reversed(self.items[:-1]):
                if earlier.kind != cur.kind or earlier.unit is not None or earlier.value is None:
                    break
                if earlier.value != 0:
                    earlier.unit = unit
        return self._use(j, said.end)

    def _count(self, j: int) -> int | None:
        """One count or several, of the head before it or the head after it."""
        lat, cur = self.lattice, self.cur
        values, end = units.counts(lat, j)
        if not values:
            return None
        head = self.next_head(end)
        before = cur is not None and self._takes(cur)
        if cur is None and head is not None and head[1].kind == "STANDWORD" and len(values) == 1 and isinstance(values[0].value, int) and values[0].value >= 1000:
            self.pending = (values[0].value, None, j, end)  # 112k stand
            return end
        if head is not None and HEADS[head[1].kind] in COUNTED | {"weather", "damage"} and (HEADS[head[1].kind] != "weather" or head[1].means == "degrees"):
            kind = HEADS[head[1].kind]
            if kind == "damage" and units.per(lat, head[1].end) is None:
                return -1
            apart = self.sep is not None and lat.pieces[values[0].end - 1].span.end <= lat.pieces[head[0]].span.start
            if before and cur is not None and cur.kind == "weather" and head[1].means == "degrees":
                before = False
            if kind == "weather":
                values, start = values[-1:], self._start_of_last(values, j)
                self.pending = (values[0].value, "degrees", start, end)
                return end
            if not before or apart:
                if before and len(values) > 1 and cur is not None:
                    self._give(cur, values[:-1], j, self._start_of_last(values, j))
                    values, j = values[-1:], self._start_of_last(values, j)
                value = values[0].value if len(values) == 1 else [v.value for v in values]
                self.pending = (value, self.unit, j, end)
                return end
            if before and cur is not None and len(values) > 1:
                last = self._start_of_last(values, j)
                self._give(cur, values[:-1], j, last)
                self.pending = (values[-1].value, self.unit, last, end)
                return end
            return -1
        if cur is None:
            return None
        if self.correcting or self.average or self.later and cur.kind == "stand":
            if self.correcting or self.later:
                cur.replaced = cur.value
            cur.value = values[-1].value if len(values) == 1 else [v.value for v in values]
            self.correcting = self.average = self.later = False
            return self._use(j, end)
        if before:
            k = end
            while text_at(lat, k) in {"or", "so", "each", "total", "of", "them", "ones", "'em", "ish", "at", "most"} and not self.stops(k):
                k += 1
            if not self._closes(k):
                return -1
            self._give(cur, values, j, end)
            return max(k, end) if k == end or text_at(lat, k) not in {"so", "or"} else end
        if cur.value is not None and cur.kind in COUNTED | {"stand", "defoliation", "disease"}:
            end = values[0].end
            unit = units.per(lat, end)
            where = place(lat, end, self.stops_place, after_value=True)
            if unit is not None and (cur.kind != "stand" or "ft" in str(unit.unit) or "foot" in str(unit.unit)) or where is not None and cur.unit is not None and cur.wheres:
                self.cur = Item(cur.kind, cur.name, j, end, values[0].value, None if unit is not None else cur.unit)
                self.items.append(self.cur)
                return self._use(j, end)
        return -1

    def _start_of_last(self, values: list[Amount], j: int) -> int:
        k = values[-2].end if len(values) > 1 else j
        while text_at(self.lattice, k) in {",", "and", "&", "then"} and len(values) > 1:
            k += 1
        return k

    def _takes(self, cur: Item) -> bool:
        """Whether a bare number can be the count of this finding."""
        if cur.value is not None or cur.closed:
            return False
        return cur.kind in {"insect", "weed", "stand", "defoliation"} or cur.kind == "other" and cur.name in {
            "grain moisture", "nodules", "test weight", "yield", "canopy closure"} or cur.kind == "weather" and cur.name in MEASURES

    def _closes(self, k: int) -> bool:
        """Whether a count ends at piece k: a boundary, a unit, a place, or words that carry no number's noun."""
        lat = self.lattice
        if k >= len(self.pieces) or self.stops(k) or self.pieces[k].form == "mark":
            return True
        if units.per(lat, k) is not None or self.head(k) is not None or self.phrase(k) in {"correct", "average"}:
            return True
        if text_at(lat, k) in {"and", "but", "with", "which", "moisture", "percent", "today", "yet", "now", "so"}:
            return True
        if self.cur is not None and self.cur.kind == "other":
            return True
        return place(lat, k, self.stops_place, after_value=True) is not None

    def _give(self, cur: Item, values: list[Amount], a: int, b: int) -> None:
        cur.value = values[0].value if len(values) == 1 else [v.value for v in values]
        if cur.kind == "stand" and len(values) == 2 and values[0].value in {1, 2} and isinstance(values[1].value, int) and 10 <= values[1].value <= 99:
            cur.value = 100 * values[0].value + values[1].value  # one twenty eight
        if cur.kind == "defoliation" and cur.unit is None:
            cur.unit, cur.assumed = "%", "Leaf area lost with no unit: percent."
        if cur.kind == "weather" and cur.name in MEASURES - {"degrees", "heat index"} and cur.unit is None:
            cur.unit, cur.assumed = "in", "Rain with no unit: inches."
        cur.unit = cur.unit or self.unit
        self.sep = None
        self._use(a, b)

    # none, soil, heights, places, words ----------------------------------------------------------------------------

    def _nothing(self, j: int) -> int | None:
        lat, text = self.lattice, text_at(self.lattice, j)
        edge = longest(lat, j, "NO", "NONE", sound=False)
        nosound = longest(lat, j, "NOSOUND") if text in {"know", "knew"} else None
        edge = edge or nosound
        if edge is None and text not in NONES:
            return None
        end = edge.end if edge is not None else j + 1
        head = self.next_head(end)
        if head is not None and HEADS[head[1].kind] not in {"stand", "weather"} and (edge is None or edge.kind == "NO"):
            self.negative = j
            self.used.append((j, end))
            return end
        cur = self.cur
        if cur is None or nosound is not None:
            return None
        where = place(lat, end, self.stops_place, after_value=True)
        closes = end >= len(self.pieces) or self.stops(end) or self.pieces[end].form == "mark" or text_at(lat, end) in {"and", "but", "yet", "seen", "found", "there"}
        if cur.value is None and cur.kind in {"insect", "weed", "disease", "defoliation", "damage"} and not cur.closed and (closes or where is not None) and not (
                cur.kind == "damage" and text == "gone"):
            cur.value = 0
            return self._use(j, end)
        if where is not None and cur.value is not None and text in {"none", "nothing", "no", "zero"}:
            self.cur = Item(cur.kind, cur.name, j, end, 0)
            self.items.append(self.cur)
            return self._use(j, end)
        return None

    def _ground(self, j: int) -> int | None:
        if self.cur is not None and self.cur.kind == "other" and self.cur.name == "grain moisture" and longest(self.lattice, j, "SOILWORD", sound=False):
            return self._use(j, j + 1)
        said = moisture.ground(self.lattice, j, self.stops_place, fresh=self.cur is None or self.sep is not None)
        if said is None:
            return None
        end, where = said
        if self.head(end) is not None and where is None:
            return None
        if where is None:
            return None
        self.cur = Item("soil moisture", None, j, end, wheres=[where])
        self.items.append(self.cur)
        self.sep = None
        return self._use(j, end)

    def _body(self, j: int) -> int | None:
        edge = longest(self.lattice, j, "BODYHIGH")
        if edge is not None:
            words = " ".join(self.lattice.original(j, edge.end).split())
            if self.cur is not None and self.cur.kind == "weed" and not self.sep:
                self.cur.wheres.append(words)
            else:
                self.cur = Item("height", None, j, edge.end, wheres=[words])
                self.items.append(self.cur)
            return self._use(j, edge.end)
        edge = longest(self.lattice, j, "HEIGHTWORD")
        if edge is not None and (self.cur is None or self.sep is not None):
            k = units.over_doubt(self.lattice, edge.end)
            while text_at(self.lattice, k) in {"is", "'s", "of", "was", "on", "beans"}:
                k = units.over_doubt(self.lattice, k + 1)
            said = units.length(self.lattice, k)
            if said is None:
                return None
            self.cur = Item("height", None, j, said.end, said.value, said.unit)
            self.items.append(self.cur)
            return self._use(j, said.end)
        return None

    def _place(self, j: int) -> int | None:
        cur = self.cur
        said = place(self.lattice, j, self.stops_place, after_value=cur is not None)
        if said is None:
            return None
        end, words = said
        if cur is None:
            self.places.append((words, j, end))
            return end
        if cur.kind == "soil moisture" and cur.wheres:
            cur.wheres[0] = f"{cur.wheres[0]} {' '.join(self.lattice.original(j, end).split())}"
        elif cur.kind == "height":
            return -1
        else:
            cur.wheres.append(words)
        self.sep = None
        return self._use(j, end)

    def _words(self, j: int) -> int | None:
        """Words that carry no value: part of the finding, or the end of the stretch."""
        text = text_at(self.lattice, j)
        if text in LINKS and self.cur is not None:
            self.link = text
        if text == "now" and self.cur is not None and self.cur.kind == "stand" and self.cur.value is not None:
            self.later = True
            return j + 1
        if self.cur is None:
            quiet = self.lattice.filler[j] or text in ADJECTIVES or text in absorbed.DEGREE | {"were", "was", "had", "is", "are", "ran", "got", "i", "we", "made", "gave"} or longest(self.lattice, j, "BEAN", "SOILWORD", "HEDGE", "LEAF", sound=False)
            return j + 1 if quiet else None
        run = absorbed.run(self.lattice, j, self.stops, self.head, comma=self.sep is not None, kind=self.cur.kind, clause_from=self.items[0].start)
        if run is None:
            return None
        end, told = run
        if told:
            self.cur.told = True
            self._use(j, end)
        return end

    def _finish(self) -> None:
        """Counts of one thing in one unit, told apart by no place, are one list."""
        out: list[Item] = []
        for item in self.items:
            last = out[-1] if out else None
            alike = last is not None and (last.kind, last.name, last.unit) == (item.kind, item.name, item.unit) and not last.wheres and not item.wheres
            if last is not None and alike and item.value not in (None, 0) and last.value not in (None, 0) and not isinstance(item.value, list):
                last.value = [*(last.value if isinstance(last.value, list) else [last.value]), item.value]
                last.end = item.end
                continue
            out.append(item)
        self.items = out
