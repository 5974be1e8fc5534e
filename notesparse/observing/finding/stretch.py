"""A stretch of a note that tells of findings: heads, counts, units and places in the scout's own order (guide 4.20).

`6 stink bugs, 2 cloverworms and 14 bean leaf beetles per 25 sweeps on the end rows, defoliation 10% top 15% bottom`.
The stretch ends where the note goes over to plants, stages, another field, or words that belong to no finding.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.finding import absorbed, at_stops, leafcolour, moisture, units
from notesparse.observing.finding.findcounts import Counts, another_of_the_acre
from notesparse.observing.finding.findwords import (
    ADJECTIVES,
    BY_INSECTS,
    CAUSES,
    COUNTED,
    FELT,
    GENERIC,
    HEADS,
    LINKS,
    MEASURES,
    NONES,
    Item,
)
from notesparse.observing.finding.rainfall import OF_A_DAY
from notesparse.observing.finding.thinned import thinned
from notesparse.observing.finding.units import longest, text_at
from notesparse.observing.finding.whereabouts import PREPOSITIONS, bare_place, looked_at, place, side_of
from notesparse.reading.parse import Segment
from notesparse.text.columns import WIDE
from notesparse.text.lattice import Edge

_COMMON = cue_page("shared")
_LISTED = cue_page("finding/stretch")

_RUNS = _LISTED.words("runs")
_NOT_THERE = _COMMON.words("none")
_ELSEWHERE = _LISTED.words("elsewhere")
_GROWN = frozenset({"insect", "disease", "weed", "defoliation", "damage"})
_TWICE = frozenset({"defoliation", "insect", "stand"})
_TOO = _LISTED.words("too")
_OF_THEN = _LISTED.words("of_then")
_FOR_STEP = _COMMON.words("seen")
_FOR_OVERALL = _LISTED.words("for_overall")
_BEHIND_NOTHING = _LISTED.words("behind_nothing")
_FOR_NOTHING = _COMMON.words("none") | {"no"}
_BEHIND_DONE_BY = _LISTED.words("behind_done_by")
_FOR_WORDS = _LISTED.words("for_words")


class Stretch(Counts):
    """Reads findings from segment k on."""

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

    def _step(self, j: int) -> int | None:
        lat, text = self.lattice, text_at(self.lattice, j)
        edge = self.head(j)
        if edge is not None and not (self.hard(j) or j in self.cues):
            return self._head(j, edge)
        if self.cur is not None and self.cur.value is None and not self.hard(j) and self.phrase(j) == "label":
            series = self._plant_by_plant(j)
            if series is not None:
                return series
        series = self._on_each_plant(j) if self.cur is not None and not self.hard(j) else None
        if series is not None:
            return series
        some = self.some_of(j) if self.cur is None else None
        if some is not None:
            self.places.append((lat.written(j, some), j, some))
            return some
        if self.cur is not None and self.cur.name == "leaf yellowing" and not self.hard(j):
            falls = leafcolour.falls_too(lat, j)
            if falls is not None:
                item, fallen = falls
                item.wheres = item.wheres or (list(self.cur.wheres) if item.value is None else [])
                self.cur, self.sep = item, None
                self.items.append(item)
                return self._use(j, fallen)
        if self.cur is not None and self._overall(j):
            self.cur.overall = True
            return self._use(j, j + 1)
        behind = self._before_counts(j) if self.cur is not None else None
        if behind is not None:
            return behind
        spot = self._at_its_stop(j) if self.cur is not None and self.sep is None else None
        if spot is not None:
            return spot
        now = thinned(lat, j) if self.cur is not None and self.cur.kind == "stand" else None
        if now is not None and self.cur is not None:
            self.later = self.cur.value is not None
            return self._use(j, now)
        nook = bare_place(lat, j) if self.cur is not None and self.cur.value is not None else None
        if nook is not None and self.cur is not None and not self.cur.wheres and not self.hard(j):
            self.cur.wheres.append(lat.written(j, nook))  # 25% on the ends, 5% inside
            return self._use(j, nook)
        if self.stops(j):
            return None
        p = self.pieces[j]
        if (p.form == "mark" and text not in "%\"'/≈½¼¾") or (text == "/" and units.per(lat, j) is None):
            if text in {",", "-"} or text == ":":
                self.sep = text if text != ":" else None
            return j + 1
        listed = self._on_plants(j)
        if listed is not None and self.cur is not None:
            self.cur.wheres.append(lat.written(j, listed))
            return self._use(j, listed)
        rule = self.phrase(j)
        if rule == "correct":
            nxt = self.at[j].end
            if self.cur is None or self.cur.value is None:
                return None
            inside = [e.means for _, e in self.at[j].phrase.path if e.kind == "INT"]  # type: ignore[union-attr]
            if inside:
                self.cur.replaced, self.cur.value = self.cur.value, inside[-1]
                return self._use(j, longest(lat, nxt, "PCT").end if longest(lat, nxt, "PCT") else nxt)  # type: ignore[union-attr]
            if units.amount(lat, nxt) is None:
                return None
            self.correcting = True
            return self._use(j, nxt)
        if rule == "average" and self._of_leaves(j):
            return None  # no bugs averaging about four trifs
        if rule == "average" and self.cur is not None:
            self.average = True
            return self._use(j, self.at[j].end)
        if rule == "same":
            if self.cur is None or self.cur.value is not None:
                return None
            if text == "like" and self._so_many_by(j + 1):
                return self._use(j, j + 1)  # beetles everywhere like 6 a foot
            self.cur.unit, self.cur.value = "same", "same"
            return self._use(j, self.at[j].end)
        if (
            rule in {"date", "past"}
            and text not in {"was", "were", "had"}
            and not (units.length(lat, j) or units.percent(lat, j) or self._plants_in(j))
        ):
            return self._when(j, rule)
        if self.cur is not None and text in _FOR_STEP and text_at(lat, j + 1) in {"?", "=", ":"}:
            return self._use(j, j + 2)  # insects seen? none
        for reader in (
            self._share_of,
            self._stand,
            self._measure,
            self._per,
            self._count,
            self._nothing,
            self._ground,
            self._body,
            self._place,
        ):
            end = reader(j)
            if end is not None:
                return end if end >= 0 else None
        return self._words(j)

    def _so_many_by(self, j: int) -> bool:
        """`6 a foot`, `15 per 25 sweeps` at piece j."""
        many = units.amount(self.lattice, j)
        return many is not None and units.per(self.lattice, many.end) is not None

    def _before_counts(self, j: int) -> int | None:
        """Words between a finding and its counts, and those of the plants or flowers that it is on."""
        lat, cur = self.lattice, self.cur
        if cur is None or cur.value is not None:
            return None
        listed = at_stops.counts_behind(lat, j)
        if listed is not None:
            start, where = listed
            cur.wheres += [where] if where is not None else []
            return self._use(j, start)
        saw = at_stops.who_saw(lat, j) if cur.kind in COUNTED else None
        if saw is not None:
            return self._use(j, saw)
        end = at_stops.visits_flowers(lat, j) if cur.kind == "insect" else None
        end = end or at_stops.on_some_plants(lat, j, cur)
        if end is not None:
            cur.wheres.append(lat.written(j, end))
            return self._use(j, end)
        return None

    def _at_its_stop(self, j: int) -> int | None:
        """`stand 6 per ft st 1, 4 per ft st 2`, `crusting bad stop 2`: the stop of what was found, and how it is at others."""
        cur, here = self.cur, at_stops.stop_behind(self.lattice, j)
        if cur is None or here is None or cur.wheres or self.pieces[j - 1].form == "nl":
            return None
        if cur.value is None and cur.name in MEASURES and text_at(self.lattice, j) == "point":
            return None  # rain gauge had point six
        end, where = here
        if self.phrase(end + (text_at(self.lattice, end) in {",", ";"})) == "label":
            return None  # aphids 10 per plant stop 2, p1 8 tf
        cur.wheres.append(where)
        end = self._use(j, end)
        while cur.value is not None and (more := at_stops.at_another_stop(self.lattice, end, cur)) is not None:
            stop, value, where = more
            self.cur = Item(cur.kind, cur.name, end, stop, value, cur.unit, [where], head_end=cur.head_end)
            self.items.append(self.cur)
            end = self._use(end, stop)
        return end

    def _of_leaves(self, j: int) -> bool:
        """An average of trifoliates or nodes begins at piece j: it is none of animals."""
        k = self.at[j].end
        while k in self.at and (self.lattice.filler[k] or self.phrase(k) is None) and k < self.at[j].end + 3:
            k += 1
        return self.phrase(k) in {"trif", "nodes", "stage"}

    def _overall(self, j: int) -> bool:
        """`defoliation ten percent overall, twenty five on the end rows`: no word of the field's stage."""
        lat, cur = self.lattice, self.cur
        if text_at(lat, j) != "overall" or cur is None or cur.kind != "defoliation" or cur.value is None:
            return False
        k = j + 1
        while text_at(lat, k) in _FOR_OVERALL:
            k += 1
        more = units.amount(lat, k)
        return k > j + 1 and more is not None and (more.end >= len(self.pieces) or not self.hard(more.end))

    def _when(self, j: int, rule: str) -> int | None:
        """A day or a time: of hail or rain it is when it fell; a count of last week is none of today."""
        cur = self.cur
        if cur is None:
            return None
        end = self.at[j].end
        if rule == "past" and text_at(self.lattice, j - 1) in {",", "("} and text_at(self.lattice, end) in _OF_THEN:
            return None  # 3 per 25 sweeps, last week it was nine
        if rule == "past" and cur.kind not in {"damage", "weather"}:
            if cur.value is None and cur.kind != "soil moisture":
                return None
            cur.past = True
        if rule == "date":
            if (
                self.dated is cur
                and self.lattice.pieces[j - 1].form == "word"
                and text_at(self.lattice, j - 1) not in _TOO
            ):
                return None  # hail of July 3, inspected 7/11: the day of the walk
            self.dated = cur
            end += text_at(self.lattice, end) in OF_A_DAY  # hail sat nite
        return self._use(j, end)

    # heads ----------------------------------------------------------------------------------------------------------

    def _head(self, j: int, edge: Edge) -> int | None:
        kind = HEADS[edge.kind]
        name: str | None = str(edge.means)
        if (
            kind in {"defoliation"}
            or (kind in GENERIC and name in GENERIC)
            or (kind == "stand" and name in {"stand", "population", "plant count"})
        ):
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
        whose = at_stops.young(self.lattice, j, cur) if cur is not None and kind == "insect" and not self.sep else None
        if whose is not None and cur is not None:
            cur.name, cur.head_end = whose, edge.end
            return self._use(j, edge.end)
        if cur is not None and self._joins(cur, kind, name):
            if cur.kind == "damage" and ((name in CAUSES and cur.name not in CAUSES) or self.link):
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
            return (
                (not measured and cur.value is None)
                or (name == "degrees" and cur.value is None)
                or (name in MEASURES and cur.name in MEASURES)
            )
        if cur.kind == kind and cur.value is None and not cur.wheres and cur.name is None and kind in GENERIC:
            return True  # weeds: foxtail
        if cur.kind == kind and cur.name == name and cur.value is None and not self.sep:
            return True
        if cur.kind == kind == "defoliation" and not self.sep and not cur.wheres and cur.head_end == 0:
            return True  # five percent of the leaf is chewed
        if cur.kind == kind == "stand" and cur.value is None:
            return True
        if cur.kind == kind == "damage" and (self.link or not self.sep) and cur.value is None:
            return True
        if cur.kind in {"leaf", "damage", "disease"} and kind == "damage" and self.link and cur.kind != "damage":
            return False
        if cur.kind == "insect" and kind == "damage" and not self.sep and (name is None or name in BY_INSECTS):
            return True
        if cur.kind == "disease" and kind == "disease" and (name in {None, "lesion"}) and not self.sep:
            return True
        return cur.kind == "other" and kind == "other" and cur.name == name and cur.value is None

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
        told = head is not None and (HEADS[head[1].kind] not in {"stand", "weather"} or head[1].means in FELT)
        if head is not None and told and (edge is None or edge.kind == "NO"):
            self.negative = j
            self.used.append((j, end))
            return end
        cur = self.cur
        if cur is None or nosound is not None:
            return None
        where = place(lat, end, self.stops_place, after_value=True)
        apart = self.sep is not None or text_at(lat, j - 1) in {"but", "and"}
        if cur.wheres and apart and text in _NOT_THERE and cur.kind in _GROWN:
            rest = end + (text_at(lat, end) in {"the", "on"}) + (text_at(lat, end + 1) == "the")
            there = (rest + 1, lat.written(end, rest + 1)) if text_at(lat, rest) in _ELSEWHERE else where
            if there is not None:  # frogeye on the west side, none on the north end
                self.cur = Item(cur.kind, cur.name, j, end, 0, None, [there[1]], head_end=cur.head_end)
                self.items.append(self.cur)
                self.sep = None
                return self._use(j, there[0])
        closes = (
            end >= len(self.pieces)
            or self.stops(end)
            or self.pieces[end].form == "mark"
            or text_at(lat, end) in _BEHIND_NOTHING
            or (edge is not None and edge.kind == "NONE" and self.head(end) is not None)
        )
        if (
            cur.value is None
            and cur.kind in {"insect", "weed", "disease", "defoliation", "damage"}
            and not cur.closed
            and (closes or where is not None)
            and not (cur.kind == "damage" and text == "gone")
        ):
            cur.value = 0
            return self._use(j, end)
        if where is not None and cur.value is not None and text in _FOR_NOTHING:
            self.cur = Item(cur.kind, cur.name, j, end, 0)
            self.items.append(self.cur)
            return self._use(j, end)
        return None

    def _ground(self, j: int) -> int | None:
        if (
            self.cur is not None
            and self.cur.kind == "other"
            and self.cur.name == "grain moisture"
            and longest(self.lattice, j, "SOILWORD", sound=False)
        ):
            return self._use(j, j + 1)
        grain = moisture.of_the_grain(self.lattice, j)
        if grain is not None:  # shatter 2 beans a foot, moist. 13.8
            self.cur = Item("other", "grain moisture", j, grain.end, grain.value, grain.unit)
            self.items.append(self.cur)
            self.sep = None
            return self._use(j, grain.end)
        said = moisture.ground(
            self.lattice,
            j,
            self.stops_place,
            fresh=self.cur is None or self.sep is not None or not self.pieces[j - 1].text.isascii(),
        )
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
            words = self.lattice.written(j, edge.end)
            if self.cur is not None and self.cur.kind == "weed" and not self.sep:
                self.cur.wheres.append(words)
            else:
                self.cur = Item("height", None, j, edge.end, wheres=[words])
                self.items.append(self.cur)
            return self._use(j, edge.end)
        edge = longest(self.lattice, j, "HEIGHTWORD")
        if edge is not None and (self.cur is None or self.sep is not None or self.lattice.pieces[j].gap >= WIDE):
            k = units.over_doubt(self.lattice, edge.end)
            if text_at(self.lattice, k) == "." and self.lattice.soft[k] is not None:
                k = units.over_doubt(self.lattice, k + 1)  # Ht. 34 in.
            while text_at(self.lattice, k) in _RUNS:
                k = units.over_doubt(self.lattice, k + 1)
            said = units.length(self.lattice, k)
            if said is None:
                return None
            self.cur = Item("height", None, j, said.end, said.value, said.unit)
            self.items.append(self.cur)
            return self._use(j, said.end)
        return None

    def _on_plants(self, j: int) -> int | None:
        """`stink bugs on 1 and 3`: plants by their numbers, and no counts; where they end."""
        cur = self.cur
        if cur is None or cur.value is not None or cur.kind not in {"insect", "disease"} or self.sep:
            return None
        if text_at(self.lattice, j) != "on":
            return None
        k, many = j + 1, 0
        while (edge := longest(self.lattice, k, "INT", sound=False)) is not None:
            many, end = many + 1, edge.end
            k = end
            while text_at(self.lattice, k) in {",", "and", "&"}:
                k += 1
            if k == end:
                break
        closes = many > 1 and (end >= len(self.pieces) or self.pieces[end].form == "nl" or self.hard(end))
        return end if closes else None

    def _place(self, j: int) -> int | None:
        cur = self.cur
        if self._done_by(j):
            return None
        said = place(self.lattice, j, self.stops_place, after_value=cur is not None)
        if said is None and cur is not None and cur.value is None and cur.kind in {"insect", "disease"}:
            some = looked_at(self.lattice, j)
            said = (some, self.lattice.written(j, some)) if some is not None else None
        if said is None:
            return None
        end, words = said
        if cur is None:
            self.places.append((words, j, end))
            return end
        if cur.kind == "soil moisture" and cur.wheres:
            cur.wheres[0] = f"{cur.wheres[0]} {self.lattice.written(j, end)}"
        elif cur.kind == "height":
            return -1
        elif cur.value is not None and (cur.wheres or self.sep == ",") and self._another(cur, j, end, words):
            return self.end  # 3 on the north end, south end 7
        elif cur.wheres and self._other_side(cur, j, end, words):
            return self.end  # frogeye on the west side, north end none
        else:
            cur.wheres.append(words)
        self.sep = None
        return self._use(j, end)

    def _as_much_elsewhere(self, j: int) -> bool:
        """`12% up high and 25% underneath`: at piece j the same again, as much of it at another place."""
        cur = self.cur
        if cur is None or cur.value in (None, 0) or not cur.wheres or cur.kind not in _TWICE:
            return False
        at = units.over_doubt(self.lattice, j)
        share = cur.unit == "%"
        many = units.percent(self.lattice, at) if share else units.number(self.lattice, at)
        if many is not None and cur.kind == "stand" and not another_of_the_acre(cur, many.value):
            return False
        if many is None or self.next_head(many.end) is not None:
            return False
        where = place(self.lattice, many.end, self.stops_place, after_value=True)
        return where is not None and self._closes(where[0])

    def _another_stand(self, j: int) -> bool:
        """`nine plants in three feet by the road and eleven in three feet on the back side`: at piece j another count."""
        many = units.number(self.lattice, j) if self.cur is not None and self.cur.kind == "stand" else None
        of = units.per(self.lattice, many.end) if many is not None else None
        row = of is not None and any(x in str(of.unit) for x in ("ft", "foot"))
        return row and self.cur is not None and self.cur.value is not None

    def _done_by(self, j: int) -> bool:
        """`broke off by the deer`, `clipped by a rabbit`: who did it, and no place."""
        if self.cur is None or self.cur.kind != "damage" or text_at(self.lattice, j) != "by":
            return False
        doer = self.head(j + 1 + (text_at(self.lattice, j + 1) in _BEHIND_DONE_BY))
        if doer is None or doer.kind != "DAMAGE":
            return False
        k = doer.end
        goes_on = k < len(self.pieces) and self.pieces[k].form == "word" and not self.stops(k)
        return not goes_on or self.lattice.filler[k] or text_at(self.lattice, k) in PREPOSITIONS | {"and", "but", "so"}

    def _other_side(self, cur: Item, j: int, end: int, words: str) -> bool:
        """`frogeye west side, north end 10%`, `aphids 20 on the west side, north end - none`: another side of the field, with
        what was found there."""
        if self.sep is None or cur.kind not in _GROWN or not (side_of(words) and side_of(cur.wheres[-1])):
            return False
        k = end + (text_at(self.lattice, end) in {"-", ":", "has", "had"})
        if text_at(self.lattice, k) in _NOT_THERE and self._closes(k + 1):
            value, unit, stop = 0, None, k + 1
        else:
            share = units.percent(self.lattice, k) if cur.value is None else None
            if share is None or not self._closes(share.end):
                return False
            value, unit, stop = share.value, "%", share.end
        self.cur = Item(cur.kind, cur.name, j, stop, value, unit, [words], head_end=cur.head_end)
        self.items.append(self.cur)
        self._use(j, stop)
        return True

    def _another(self, cur: Item, j: int, end: int, words: str) -> bool:
        """Whether a place opens a second count of the same thing."""
        many = units.amount(self.lattice, units.over_doubt(self.lattice, end))
        long = units.length(self.lattice, end)
        if long is not None and long.unit == cur.unit and cur.kind == "weed":
            many = long  # waterhemp 6 in, in the skip 12 in
        elif long is not None or words.startswith("between"):
            return False  # pigweed 4 in, between rows 2 and 3
        if many is None or self.next_head(many.end) is not None:
            return False
        if self.stops(end) or not self._closes(many.end):
            return False
        pct = longest(self.lattice, many.end, "PCT", sound=False)
        stop = pct.end if pct is not None else many.end
        self.cur = Item(cur.kind, cur.name, j, stop, many.value, cur.unit, [words], head_end=cur.head_end)
        self.items.append(self.cur)
        self._use(j, stop)
        return True

    def _words(self, j: int) -> int | None:
        """Words that carry no value: part of the finding, or the end of the stretch."""
        if not self.lattice.known[j] and self.pieces[j].form == "word" and self._unit_and_dot(j):
            return None  # moist at 4in. truck is stuck
        text = text_at(self.lattice, j)
        if self.cur is not None and self.cur.name == "grain moisture" and self.cur.value is not None:
            meter = moisture.on_the_meter(self.lattice, j)  # grain moisture 14.2 with the hand tester
            if meter is not None:
                return self._use(j, meter)
        if text in {"of", "from"} and self.cur is not None and self.cur.kind in {"damage", "weather"}:
            at = j + 2 if text_at(self.lattice, j + 1) == "the" else j + 1
            if self.phrase(at) == "date" or self.phrase(j + 1) == "date":
                return self._use(j, j + 1)  # the hail of July 8 took about 10% of the leaf
        hedge = longest(self.lattice, j, "HEDGE", sound=False)
        if hedge is not None and self.cur is not None and self.cur.value is None and not self.stops(j):
            if units.percent(self.lattice, hedge.end) or units.amount(self.lattice, hedge.end):
                return hedge.end  # defoliation I'd say twelve percent
        if text in {"and", "&", "but"} and (self._as_much_elsewhere(j + 1) or self._another_stand(j + 1)):
            return j + 1
        if text == "but" and text_at(self.lattice, j + 1) in _NOT_THERE and self.cur is not None and self.cur.wheres:
            return j + 1  # lodging on the west end but none on the rest
        if text in {"and", "&"} and self.cur is not None and at_stops.of_the_weed_too(self.lattice, j + 1, self.cur):
            return j + 1
        if text in LINKS and self.cur is not None:
            self.link = text
        if (
            text in {"now", "today"}
            and self.cur is not None
            and (self.cur.kind == "stand" or self.cur.past)
            and self.cur.value is not None
        ):
            self.later = True
            return j + 1
        if self.cur is None:
            quiet = (
                self.lattice.filler[j]
                or text in ADJECTIVES
                or text in absorbed.DEGREE | _FOR_WORDS
                or longest(self.lattice, j, "BEAN", "SOILWORD", "HEDGE", "LEAF", sound=False)
            )
            return j + 1 if quiet else None
        run = absorbed.run(
            self.lattice,
            j,
            self.stops,
            self.head,
            comma=self.sep is not None and self.pieces[j - 1].form == "mark",
            kind=self.cur.kind,
            clause_from=self.items[0].start,
        )
        if run is None:
            return None
        end, told = run
        if told:
            self.cur.told = True
            self._use(j, end)
        return end

    def _unit_and_dot(self, j: int) -> bool:
        """`4in.` ends before piece j."""
        dotted = j > 1 and text_at(self.lattice, j - 1) == "." and self.pieces[j - 1].glued
        return dotted and longest(self.lattice, j - 2, "INCH", "FOOT", "MM", "CM", sound=False) is not None

    def _finish(self) -> None:
        """Counts of one thing in one unit, told apart by no place, are one list."""
        out: list[Item] = []
        for item in self.items:
            last = out[-1] if out else None
            alike = (
                last is not None
                and (last.kind, last.name, last.unit) == (item.kind, item.name, item.unit)
                and not last.wheres
                and not item.wheres
            )
            if (
                last is not None
                and alike
                and item.value not in (None, 0)
                and last.value not in (None, 0)
                and not isinstance(item.value, list)
            ):
                last.value = [*(last.value if isinstance(last.value, list) else [last.value]), item.value]
                last.end = item.end
                continue
            out.append(item)
        self.items = out


def resume(segments: list[Segment], k: int, end: int) -> int:
    """Where a phrase reaches over the end of the stretch, its other pieces are read one by one."""
    for j in range(k, min(k + 200, len(segments))):
        s = segments[j]
        if s.start < end < s.end:
            segments[j + 1 : j + 1] = [Segment(i, i + 1, None) for i in range(end, s.end)]
            break
        if s.start >= end:
            break
    return end
