"""Counts, shares, lengths and units of findings: which head they belong to (guide 4.20)."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing.finding import units
from notesparse.observing.finding.findwords import CAUSES, COUNTED, GENERIC, HEADS, MEASURES, PLANTS_LOST, Item, Words
from notesparse.observing.finding.rainfall import hour
from notesparse.observing.finding.units import Amount, longest, text_at
from notesparse.observing.finding.whereabouts import place
from notesparse.text.lattice import Edge, Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("finding/findcounts")

_THINNEST = {"square met": 10, "square yard": 8, "square f": 1.5, "yard": 6, "foot": 1.5, "ft": 1.5}  # a stand of beans


_OF_AN_ACRE = 1000  # plants and more


def another_of_the_acre(cur: Item, value: Any) -> bool:
    """`stand 70k on the hill, 118k in the bottom`: two stands of so many to the acre."""
    both = (cur.value, value)
    return cur.kind == "stand" and all(isinstance(n, int) and n >= _OF_AN_ACRE for n in both)


_FOR_OF_LEAVES = _LISTED.words("for_of_leaves")
_FOR_OF_LEAVES_2 = _COMMON.words("leaf") | {"leaf"}


def _of_leaves(lattice: Lattice, k: int) -> int | None:
    """The end of `of the leaves`, `of the leaf area`."""
    j = k
    while text_at(lattice, j) in _FOR_OF_LEAVES and j < k + 3:
        j += 1
    if j == k or text_at(lattice, j) not in _FOR_OF_LEAVES_2:
        return None
    j += 1
    if text_at(lattice, j) in {"area", "surface", "tissue"}:
        j += 1
    return j


_PODS = _COMMON.words("pod")


def _of_pods(lattice: Lattice, k: int) -> int | None:
    """The end of `of the pods`."""
    j = k
    while text_at(lattice, j) in _FOR_OF_LEAVES and j < k + 3:
        j += 1
    said = j > k or text_at(lattice, k - 1) == "of"
    return j + 1 if said and text_at(lattice, j) in _PODS else None


_CROP = _COMMON.words("soybeans") | _COMMON.words("plants") | {"crop"}
_JOINING = _LISTED.words("joining")
_FEWEST_PLANTS = 2
_CUT = _LISTED.words("cut")
_TOOK = _LISTED.words("took")
_BEANS = _COMMON.words("seed")


def _plants(labels: list[str]) -> str:
    return f"plant {labels[0]}" if len(labels) == 1 else "plants " + " and ".join(labels)


def _hundreds(said: list[Any]) -> int | None:
    """A stand as it is talked: `one twenty eight`, `one oh five`."""
    if not all(isinstance(n, int) for n in said) or said[0] not in {1, 2}:
        return None
    low, high = (10, 99) if len(said) == 2 else (1, 9)
    if (len(said) == 3 and said[1] != 0) or not low <= said[-1] <= high:
        return None
    return 100 * int(said[0]) + int(said[-1])


def _each_of_hundreds(said: list[Any]) -> list[Any]:
    """Stands in a row as they are talked: `one thirty, one forty and one twenty eight thousand`."""
    out: list[Any] = []
    k = 0
    while k < len(said):
        whole = _hundreds(said[k : k + 2]) if len(said) > k + 1 else None
        out.append(said[k] if whole is None else whole)
        k += 1 if whole is None else 2
    last = out[-1]
    if isinstance(last, int) and last >= 100_000 and all(isinstance(n, int) and 10 <= n < 1000 for n in out[:-1]):
        out[:-1] = [1000 * n for n in out[:-1]]
    return out


_EATEN = _COMMON.words("eaten")
_FOR_LABELS_ON = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {"no", "p"}
_FOR_SOME_OF = _COMMON.words("being_or_having") | _COMMON.words("with")
_BEHIND_COUNT = _LISTED.words("behind_count")
_FOR_COUNT = _LISTED.words("for_count")
_FOR_CLOSES = _LISTED.words("for_closes")
_BEHIND_RAIN = _LISTED.words("behind_rain")


_WHOLE = 100  # percent
_BESIDE = _LISTED.words("beside")
_HEDGES = _LISTED.words("hedges")


class Counts(Words):
    """Counts of one stretch. A reader gives the piece to go on at, None for nothing, -1 where the stretch ends."""

    def _plant_by_plant(self, j: int) -> int | None:
        """`aphids: p1 20, p2 35, p3 10`: a count for each plant."""
        lat, cur = self.lattice, self.cur
        assert cur is not None
        found: list[tuple[str, Any, int, int]] = []
        k = j
        while self.phrase(k) == "label":
            label = self.at[k].phrase
            assert label is not None
            numbers = [e.means for _, e in label.path if e.kind in {"INT", "ORD"}]
            many = units.number(lat, units.over_doubt(lat, label.end))
            if len(numbers) != 1 or many is None or self.phrase(many.end) in {"trif", "nodes", "pods"}:
                break
            found.append((str(numbers[0]), many.value, k, many.end))
            k = many.end
            while text_at(lat, k) in {",", ";", "and"} and not self.hard(k):
                k += 1
        if len(found) < 2:
            return None
        self.items.remove(cur)
        for n, (label_, value, a, b) in enumerate(found):
            item = Item(
                cur.kind,
                cur.name,
                cur.start if n == 0 else a,
                b,
                value,
                wheres=[f"plant {label_}"],
                head_end=cur.head_end,
            )
            self.items.append(item)
            self.used.append((a, b))
        self.cur = self.items[-1]
        self.end = found[-1][3]
        return self.end

    def _on_each_plant(self, j: int) -> int | None:
        """`aphids, forty on plant one, ninety on plant two, none on three or four`: a count and the plants that bear it."""
        lat, cur = self.lattice, self.cur
        if cur is None or cur.kind != "insect" or cur.wheres:
            return None
        found: list[tuple[str, Any, int, int]] = []
        k = j
        first = self._labels_on(j) if cur.value is not None else None
        if cur.value is not None and first is None:
            return None
        if first is not None:  # forty aphids on plant one, ninety on plant two
            found.append((_plants(first[0]), cur.value, j, first[1]))
            k = self._past_marks(first[1])
        while True:
            k = units.over_doubt(lat, k)
            many = units.amount(lat, k) or self._seen_as_a_label(k)
            none = longest(lat, k, "NONE", "NO", sound=False) if many is None else None
            end = many.end if many is not None else none.end if none is not None else k
            got = self._labels_on(end) if end > k else None
            if got is None:
                break
            labels, stop = got
            found.append((_plants(labels), many.value if many is not None else 0, k, stop))
            k = self._past_marks(stop)
        if len(found) < _FEWEST_PLANTS:
            return None
        self.items.remove(cur)
        for n, (where, value, a, b) in enumerate(found):
            start, unit = (cur.start, cur.unit or self.unit) if n == 0 else (a, self.unit)
            self.items.append(Item(cur.kind, cur.name, start, b, value, unit, [where], head_end=cur.head_end))
            self.used.append((a, b))
        self.cur = self.items[-1]
        self.end = found[-1][3]
        return self.end

    def _seen_as_a_label(self, k: int) -> Amount | None:
        """`podworms: 1 on plant 2, 2 on plant 5`: a count that stands where a label might."""
        bare = longest(self.lattice, k, "BARE", sound=False)
        if bare is None or len(bare.means) != 1 or not str(bare.means[0]).isdigit():
            return None
        return Amount(bare.end, int(bare.means[0])) if text_at(self.lattice, bare.end) == "on" else None

    def _past_marks(self, k: int) -> int:
        while text_at(self.lattice, k) in {",", ";", "and", "but"} and not self.hard(k):
            k += 1
        return k

    def _labels_on(self, i: int) -> tuple[list[str], int] | None:
        """`on plant two`, `on three or four`: the labels, and where they end."""
        lat = self.lattice
        if text_at(lat, i) != "on":
            return None
        i += 1
        while text_at(lat, i) in _FOR_LABELS_ON:
            i += 1
        labels: list[str] = []
        while i < len(self.pieces):
            bare = longest(lat, i, "BARE", sound=False)
            one = units.number(lat, i) if bare is None else None
            if bare is not None:
                labels += [str(x) for x in bare.means]
                end = bare.end
            elif one is not None and isinstance(one.value, int):
                labels.append(str(one.value))
                end = one.end
            elif len(lat.original(i, i + 1)) == 1 and lat.original(i, i + 1).isupper():
                labels.append(lat.original(i, i + 1))
                end = i + 1
            else:
                return None
            goes_on = text_at(lat, end) in {"or", "and", "&"} and units.number(lat, end + 1) is not None
            if not goes_on or text_at(lat, units.number(lat, end + 1).end) == "on":  # type: ignore[union-attr]
                return labels, end
            i = end + 1
        return None

    def _share_of(self, j: int) -> int | None:
        """`half the leaves yellow`, `topped a third of the outside rows`, `1 in 5`, `1 of 3`."""
        lat = self.lattice
        part = units.share(lat, j)
        if part is None:
            one = units.number(lat, j)
            if (
                one is None
                or text_at(lat, one.end) not in {"in", "of"}
                or self.cur is None
                or self.cur.kind not in {"damage", "disease"}
            ):
                return None
            of = units.number(lat, one.end + 1)
            if (
                of is None
                or not 0 < one.value < of.value
                or units.per(lat, one.end) is not None
                or longest(lat, of.end, *units.UNITS, "SWEEP", sound=False)
            ):
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
        if (
            cur is not None
            and cur.value is None
            and cur.kind in {"leaf", "damage", "disease", "defoliation"}
            and not cur.closed
        ):
            cur.value, cur.unit = part.value, "%"
            return self._use(j, after)
        return None

    def some_of(self, j: int) -> int | None:
        """The end of `2 of 10 plants` before a head: so many of the plants that were looked at."""
        lat = self.lattice
        one = units.number(lat, j)
        of = units.number(lat, one.end + 1) if one is not None and text_at(lat, one.end) in {"of", "/"} else None
        if one is None or of is None or not one.value < of.value:
            return None
        plant = longest(lat, of.end, "PLANT", sound=False)
        if plant is None and text_at(lat, one.end) == "/" and one.value <= 12 and of.value <= 31:
            return None  # Elm 8/20 stem borer
        end = plant.end if plant is not None else of.end
        k = end
        while text_at(lat, k) in _FOR_SOME_OF:
            k += 1
        head = self.next_head(k)
        return end if head is not None and HEADS[head[1].kind] in {"damage", "disease", "insect", "weed"} else None

    def _plants_cut(self, j: int) -> int | None:
        """`cutworm, 2 cut plts in 50 ft`, `took 3 plants in 20 ft`: so many plants that the animal took, in so much of a row."""
        lat, cur = self.lattice, self.cur
        eats = cur is not None and (cur.kind == "insect" or cur.name in CAUSES) and cur.value is None
        many = units.number(lat, j) if eats else None
        took = text_at(lat, j - 1) in _TOOK
        if many is None or cur is None or (text_at(lat, many.end) not in _CUT and not took):
            return None
        plant = longest(lat, many.end + (text_at(lat, many.end) in _CUT), "PLANT", sound=False)
        of = units.per(lat, plant.end) if plant is not None else None
        if of is None or of.unit is None:
            return None
        cur.value, cur.unit = many.value, f"cut plants in {of.unit.removeprefix('per ')}"
        return self._use(j, of.end)

    def _stand(self, j: int) -> int | None:
        cut = self._plants_cut(j)
        if cut is not None:
            return cut
        said = self._plants_in(j)
        cur = self.cur
        if said is None:
            only = (
                units.plants_in(self.lattice, j)
                if cur is not None and cur.kind == "stand" and cur.value is None
                else None
            )
            if only is None or cur is None or longest(self.lattice, j, "PLANT", sound=False) is None:
                return None
            cur.unit = only.unit  # stand, plants in 10 ft of row: 38 41 36
            return self._use(j, only.end)
        many, unit = said
        weed = self.head(unit.end + 1) if text_at(self.lattice, unit.end) == "of" else None
        if weed is not None and weed.kind == "WEED":  # 4 plants to the yard of waterhemp
            self.pending = (many.value, units.weed_unit(unit.unit or ""), j, unit.end)
            return unit.end + 1
        if cur is not None and cur.kind == "weed" and self._of_the_weed(many, unit):
            if cur.value is not None:
                cur = self.cur = Item("weed", cur.name, j, unit.end)
                self.items.append(cur)
            cur.value, cur.unit = many.value, units.weed_unit(unit.unit or "")
        elif cur is not None and cur.kind == "stand" and (cur.value is None or self.later):
            if cur.value is not None:
                cur.replaced = cur.value
            cur.value, cur.unit = many.value, unit.unit
        else:
            self.cur = Item("stand", None, j, unit.end, many.value, unit.unit)
            self.items.append(self.cur)
        self.later = False
        self.sep = None
        return self._use(j, unit.end)

    def _of_the_weed(self, many: Amount, unit: Amount) -> bool:
        """`morning glory 4 plants per square meter`: of the weed, behind a comma where no beans stand so thin."""
        if self.cur is not None and self.cur.value == 0:
            return False
        if self.sep is None:
            return True
        stretch = unit.value if isinstance(unit.value, int) else 1
        fewest = next((n for word, n in _THINNEST.items() if word in (unit.unit or "")), None)
        most = many.highest
        return fewest is not None and most < fewest * stretch

    def _ends_before_rain(self, end: int, rain: int) -> bool:
        """`ragweed 10 in. gauge had 0.8`, `dry down 2 in. rain 0.5`: what stands right before the length is so long, and the
        stop of `in.` ends the sentence."""
        cur = self.cur
        if cur is None or cur.value is not None or cur.kind not in {"weed", "height", "soil moisture"} or self.sep:
            return False
        return text_at(self.lattice, end - 1) == "." or any(
            units.amount(self.lattice, x) is not None for x in (rain, rain + 1)
        )

    def _of_what_follows(self, j: int, head: Edge) -> bool:
        """`frogeye up top and 15% defoliation`: a share behind `and` is of the other thing that follows, where that has none."""
        lat = self.lattice
        k = j - 1
        while text_at(lat, k) in _HEDGES:
            k -= 1
        cur = self.cur
        if text_at(lat, k) not in _BESIDE or cur is None:
            return False
        if HEADS[head.kind] == cur.kind and (
            cur.name is None or head.means == cur.name or head.means in GENERIC | {"damage"}
        ):
            return False  # hail and 15% damage
        return units.amount(lat, head.end) is None

    def _measure(self, j: int) -> int | None:
        """A percentage, an area or a length."""
        lat, cur = self.lattice, self.cur
        said = units.percent(lat, j) or (
            units.share(lat, j) if cur is not None and cur.kind in {"damage", "insect"} else None
        )
        if said is not None:
            leaf = _of_leaves(lat, said.end)
            if leaf is not None and (
                cur is None or cur.kind in {"damage", "insect"}
            ):  # hail took 30 percent of the leaves
                self.cur = Item("defoliation", None, j, leaf, said.value, "%")
                self.items.append(self.cur)
                return self._use(j, leaf)
            if text_at(lat, said.end) in _EATEN and (cur is None or cur.kind == "insect") and not said.share:
                self.cur = Item("defoliation", None, j, said.end + 1, said.value, "%")
                self.items.append(self.cur)
                return self._use(j, said.end + 1)  # grasshoppers on the ends, 10% gone there
            pods = _of_pods(lat, said.end)
            if pods is not None and cur is not None and cur.kind in {"insect", "damage", "disease", "defoliation"}:
                if cur.kind in {"insect", "disease"} or cur.value is not None:  # beetles on 5 percent of the pods
                    self.cur = Item("damage", "pod feeding" if cur.kind == "insect" else cur.name, j, pods)
                    self.items.append(self.cur)
                elif cur.kind == "defoliation":  # feeding on 5 percent of the pods
                    cur.kind, cur.name = "damage", "pod feeding"
                self.cur.value, self.cur.unit = said.value, "%"  # type: ignore[union-attr]
                self.cur.wheres.append("pods")  # type: ignore[union-attr]
                return self._use(j, pods)
            if said.share:
                said = None
        if said is not None and cur is not None and cur.kind == "stand" and cur.value is not None:
            return -1  # stand 110k, 20% gone
        if said is not None:
            head = self.next_head(said.end)
            if (
                head is not None
                and HEADS[head[1].kind] in {"defoliation", "leaf", "damage", "disease", "weed", "other"}
                and (
                    cur is None
                    or cur.value is not None
                    or self.sep
                    or cur.kind not in {"defoliation", "disease", "leaf", "damage", "other"}
                    or self._of_what_follows(j, head[1])
                )
            ):
                self.pending = (said.value, "%", j, said.end)
                return said.end
            if cur is None or cur.kind not in {
                "defoliation",
                "disease",
                "leaf",
                "damage",
                "other",
                "weed",
                "insect",
                "weather",
                "stand",
            }:
                return -1
            return self._put(j, said)
        said = units.area(lat, j)
        if said is not None and cur is not None and cur.kind in {"damage", "weed", "disease"}:
            return self._put(j, said)
        said = units.length(lat, j)
        if said is None:
            return None
        k = said.end + 1 if text_at(lat, said.end) == "of" else said.end
        rain = self.head(k)
        if (
            rain is not None
            and rain.kind == "WEATHER"
            and rain.means in MEASURES - {"degrees"}
            and not (k == said.end and self._ends_before_rain(said.end, rain.end))
        ):  # 0.6 inches of rain
            self.pending = (said.value, said.unit, j, said.end)
            return k
        of_the_crop = text_at(lat, j - 1) in _CROP and not said.tall and longest(lat, said.end, "ROWS") is None
        if of_the_crop and cur is not None and cur.kind == "weed":  # 2 waterhemp in 100 ft. plants 14 in.
            self.cur = Item("height", None, j - 1, said.end, said.value, said.unit)
            self.items.append(self.cur)
            return self._use(j - 1, said.end)
        if cur is not None and cur.kind == "height" and cur.value is not None and not self.correcting:
            behind = self.next_head(said.end)
            if behind is not None and HEADS[behind[1].kind] in {"weed", "insect"}:  # beans 24 in tall, 3 in weeds
                self.pending = (said.value, said.unit, j, said.end)
                return said.end
            if not {text_at(lat, x) for x in range(cur.end, j)} <= _JOINING:
                return -1  # 14 inches tall with 30 inch rows
        if cur is not None and (
            (cur.kind in {"weed", "height", "damage", "insect"} and (cur.kind != "insect" or not said.tall))
            or (cur.kind == "weather" and cur.name in MEASURES - {"degrees", "heat index"})
        ):
            if cur.kind == "weed" and cur.value is not None and cur.unit is not None and not cur.unit.startswith("per"):
                return -1 if not (self.correcting or self._as_tall_elsewhere(cur, said)) else self._put(j, said)
            return self._put(j, said)
        if said.tall:
            self.cur = Item("height", None, j, said.end, said.value, said.unit)
            self.items.append(self.cur)
            return self._use(j, said.end)
        return -1 if cur is not None else None

    def _as_tall_elsewhere(self, cur: Item, said: Amount) -> bool:
        """`pigweed 4 in on the hill, 8 in in the bottom`: the height of the same weed at another place."""
        if self.sep != "," or not cur.wheres or said.unit != cur.unit:
            return False
        if longest(self.lattice, said.end, "POD", "SEED", sound=False) or text_at(self.lattice, said.end + 1) in _PODS:
            return False
        return place(self.lattice, said.end, self.stops_place, after_value=True) is not None

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
        if cur.kind == "stand":  # stand per 3 ft: 19, 22, 17
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
        if len(values) > 1 and cur is not None and cur.kind == "stand" and longest(lat, end, "PCT") is not None:
            values, end = values[:-1], values[-2].end  # stand 110k, 20% gone
        if (
            cur is not None
            and cur.closed
            and (end >= len(self.pieces) or self.stops(end) or self.pieces[end].form == "mark")
        ):
            return self._use(j, end)  # cutworm clipped a couple
        wind = cur is not None and cur.kind == "weather" and cur.name not in MEASURES and len(values) == 1
        if wind and (self._ends(end) or text_at(lat, end) in _BEHIND_COUNT):
            return self._use(j, end)  # wind sw 15: the words are kept as they are
        rain = cur is not None and cur.kind == "weather" and cur.name in MEASURES - {"degrees", "heat index"}
        if cur is not None and rain and cur.value is None and isinstance(values[0].value, int) and len(values) == 1:
            if hour(lat, cur.head_end or cur.end, j, end):
                return self._use(j, end)
        animal = self._animal_before(values, end)
        if animal is not None:
            return animal
        lost = self._beans_lost(values, end)
        if lost is not None:
            return self._put(j, lost)
        if cur is not None and cur.kind == "stand" and self._two_stands(cur, values, j, end):
            return self.end
        head = self.next_head(end)
        spots = cur is not None and cur.kind == "disease" and cur.value is None and units.per(lat, end) is not None
        before = cur is not None and (self._takes(cur) or spots)
        if (
            cur is None
            and head is not None
            and head[1].kind == "STANDWORD"
            and len(values) == 1
            and isinstance(values[0].value, int)
            and values[0].value >= 1000
        ):
            self.pending = (values[0].value, None, j, end)  # 112k stand
            return end
        if (
            head is not None
            and (HEADS[head[1].kind] in COUNTED | {"weather", "damage"} or head[1].means == "nodules")
            and (HEADS[head[1].kind] != "weather" or head[1].means == "degrees")
        ):
            kind = HEADS[head[1].kind]
            if kind == "damage" and head[1].means not in PLANTS_LOST and units.per(lat, head[1].end) is None:
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
        if self.correcting or self.average or self.later:
            cur.past = False
            if self.correcting or self.later:
                cur.replaced = cur.value
            cur.value = values[-1].value if len(values) == 1 else [v.value for v in values]
            self.correcting = self.average = self.later = False
            return self._use(j, end)
        if before:
            if cur.kind == "stand" and text_at(lat, end) in {"plants", "plts"} and self.phrase(end) is None:
                end += 1  # stand is 118k plants
            k = end
            while text_at(lat, k) in _FOR_COUNT and not self.stops(k):
                k += 1
            too_much = cur.kind == "defoliation" and any(v.highest > _WHOLE for v in values)  # defol 120
            if too_much or not self._closes(k):
                return -1
            self._give(cur, values, j, end)
            return max(k, end) if k == end or text_at(lat, k) not in {"so", "or"} else end
        if cur.value is not None and cur.kind in COUNTED | {"stand", "defoliation", "disease"}:
            end = values[0].end
            unit = units.per(lat, end)
            where = place(lat, end, self.stops_place, after_value=True)
            if (unit is not None and (cur.kind != "stand" or "ft" in str(unit.unit) or "foot" in str(unit.unit))) or (
                where is not None
                and (cur.unit is not None or another_of_the_acre(cur, values[0].value))
                and (cur.wheres or cur.overall)
            ):
                self.cur = Item(cur.kind, cur.name, j, end, values[0].value, None if unit is not None else cur.unit)
                self.items.append(self.cur)
                return self._use(j, end)
        return -1

    def _animal_before(self, values: list[Amount], end: int) -> int | None:
        """`slugs are chewing on it, three per square foot`: the count is of the animals, and no share of the leaves."""
        of, cur = units.per(self.lattice, end), self.cur
        if (
            of is None
            or of.unit is None
            or cur is None
            or cur.kind not in {"defoliation", "damage"}
            or cur.value is not None
        ):
            return None
        before = next((x for x in reversed(self.items) if x.kind == "insect"), None)
        if before is None or before.value is not None or len(values) != 1 or cur.name in PLANTS_LOST:
            return None
        before.value, before.unit = values[0].value, of.unit
        self.items.remove(cur)
        self.cur = before
        return self._use(values[0].end - 1, of.end)

    def _beans_lost(self, values: list[Amount], end: int) -> Amount | None:
        """`shatter, 1 bean/sq ft`, `about two beans a square foot`: what lies on the ground."""
        lat, cur = self.lattice, self.cur
        of = units.per(lat, end + 1) if text_at(lat, end) in _BEANS else None
        area = of is not None and of.unit is not None and any(w in of.unit for w in ("square", "foot", "ft"))
        if of is None or not area or cur is None or cur.kind != "damage" or len(values) != 1:
            return None
        return Amount(of.end, values[0].value, f"beans {of.unit}")

    def _two_stands(self, cur: Item, values: list[Amount], j: int, end: int) -> bool:
        """`stand 120k, 85k in the bottom`: the second is the count of that place."""
        where = place(self.lattice, end, self.stops_place, after_value=True) if len(values) == 2 else None
        if where is None or cur.value is not None or cur.wheres or text_at(self.lattice, j - 1) == "by":
            return False
        first = values[0].end
        if text_at(self.lattice, first) not in {",", ";", "but"}:
            return False
        cur.value = values[0].value
        self._use(j, first)
        self.cur = Item(
            "stand", None, first + 1, where[0], values[1].value, cur.unit, [where[1]], head_end=cur.head_end
        )
        self.items.append(self.cur)
        self._use(first + 1, where[0])
        return True

    def _ends(self, k: int) -> bool:
        return k >= len(self.pieces) or self.stops(k) or self.pieces[k].form == "mark"

    def _start_of_last(self, values: list[Amount], j: int) -> int:
        k = values[-2].end if len(values) > 1 else j
        while text_at(self.lattice, k) in {",", "and", "&", "then"} and len(values) > 1:
            k += 1
        return k

    def _takes(self, cur: Item) -> bool:
        """Whether a bare number can be the count of this finding."""
        if cur.value is not None or cur.closed:
            return False
        return (
            cur.kind in {"insect", "weed", "stand", "defoliation"}
            or (
                cur.kind == "other"
                and cur.name in {"grain moisture", "nodules", "test weight", "yield", "canopy closure", "soil test"}
            )
            or (cur.kind == "weather" and cur.name in MEASURES)
        )

    def _closes(self, k: int) -> bool:
        """Whether a count ends at piece k: a boundary, a unit, a place, or words that carry no number's noun."""
        lat = self.lattice
        if k >= len(self.pieces) or self.stops(k) or self.pieces[k].form == "mark":
            return True
        if units.per(lat, k) is not None or self.head(k) is not None or self.phrase(k) in {"correct", "average"}:
            return True
        if text_at(lat, k) == "on" and text_at(lat, k + 1) in {"it", "that", "this"}:
            return True  # aphids 150 on it plant two
        if text_at(lat, k) == "after" and self.next_head(k + 1 + (text_at(lat, k + 1) == "the")) is not None:
            return True  # stand 88k after the hail
        if text_at(lat, k) in _FOR_CLOSES:
            return True
        if self.cur is not None and self.cur.kind == "other":
            return True
        if (
            self.cur is not None
            and self.cur.kind == "weather"
            and (
                text_at(lat, k) in _BEHIND_RAIN
                or longest(lat, k, "WEEKDAY", "TODAY", "YESTERDAY", "PASTCUE", sound=False) is not None
            )
        ):
            return True  # rain .4 sunday, gauge said point eight overnight
        return place(lat, k, self.stops_place, after_value=True) is not None

    def _give(self, cur: Item, values: list[Amount], a: int, b: int) -> None:
        cur.value = values[0].value if len(values) == 1 else [v.value for v in values]
        if cur.kind == "stand" and len(values) in {2, 3}:
            cur.value = _hundreds([v.value for v in values]) or cur.value
        if cur.kind == "stand" and isinstance(cur.value, list) and len(values) > 1:
            cur.value = _each_of_hundreds(cur.value)
        if cur.kind == "defoliation" and cur.unit is None:
            cur.unit, cur.assumed = "%", "Leaf area lost with no unit: percent."
        if cur.kind == "weather" and cur.name == "degrees":
            cur.unit = "degrees"
        if cur.kind == "weather" and cur.name in MEASURES - {"degrees", "heat index"} and cur.unit is None:
            cur.unit, cur.assumed = "in", "Rain with no unit: inches."
        cur.unit = cur.unit or self.unit
        self.sep = None
        self._use(a, b)
