"""The words that name findings, where a stretch of them ends, and one finding while it is put together."""

from __future__ import annotations

from dataclasses import field
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.finding import units
from notesparse.observing.finding.units import Amount, longest, text_at
from notesparse.observing.naming.names import Name
from notesparse.reading.parse import Segment
from notesparse.reading.unfit.labels.samples import own_digging
from notesparse.reading.unfit.organs.findings import down_there
from notesparse.text.lattice import Edge, Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("finding/findwords")

HEADS = {
    "INSECT": "insect",
    "DISEASE": "disease",
    "WEED": "weed",
    "DAMAGE": "damage",
    "DEFOL": "defoliation",
    "STANDWORD": "stand",
    "WEATHER": "weather",
    "OTHERFIND": "other",
    "LEAFTURN": "leaf",
    "LEAFDROP": "leaf",
}
GENERIC = {"insect", "disease", "weed"}
COUNTED = {"insect", "weed"}
PLANTS_LOST = {"dead plants"}  # damage that is counted: three dead plants
MEASURES = {"rain", "rain gauge", "downpour", "shower", "sprinkle", "degrees", "heat index"}
FELT = {"wind", "dew"}  # weather of which a scout says that there is none
CAUSES = {
    "deer",
    "hail",
    "frost",
    "drift",
    "herbicide burn",
    "wind damage",
    "cattle",
    "rabbit",
    "groundhog",
    "lightning",
    "flooding",
    "compaction",
    "drought stress",
    "hog damage",
    "bird damage",
    "turkey damage",
    "raccoon",
    "vole",
    "sand blasting",
    "cold injury",
    "fire",
}
BY_INSECTS = frozenset(
    """aborted pods|broke off|clipped|cut off|damage|damaged seed|dead plants|defoliation|honeydew|hopper burn|leaf damage|
    missing plants|pod feeding|puncture|split stem|stem girdling|stippling|topped|tunneled stem|uprooted|webbing|
    windowpaning""".replace("\n    ", "").split("|")
)
"""Damage that insects do: beside one it tells what it did."""
ADJECTIVES = _LISTED.words("adjectives")
LINKS = _LISTED.words("links")
STRONG = {
    "label",
    "trif",
    "nodes",
    "topleaf",
    "scars",
    "emergence",
    "flowers",
    "pods",
    "seeds",
    "state",
    "podshare",
    "stage",
    "group",
    "stop",
    "planted",
    "emerged",
    "maturity",
    "rows",
    "notvisited",
    "othercrop",
    "plan",
    "past",
    "skipit",
    "call",
    "variety",
    "goto",
    "sampled",
    "date",
    "ratio",
    "place",
    "name",
}
NONES = _COMMON.words("none") | _COMMON.words("no") | {"clean", "gone"}


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
    past: bool = False  # said of another day
    closed: bool = False  # what follows is no count of it
    overall: bool = False  # said of the whole field: another share may follow, of a part
    plant: str | None = None
    assumed: str | None = None

    @property
    def where(self) -> str | None:
        return ", ".join(self.wheres) or None


_FOR_STOPS = _LISTED.words("for_stops")


class Words:
    """The words of a stretch from segment k on, and what has been read of it so far."""

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
        self.dated: Item | None = None  # the finding whose day was told
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
        if form == "see_alone" and text_at(self.lattice, j) in _FOR_STOPS:
            return False  # white mold starting by the trees
        if form == "lots" and self.phrase(self.at[j].end) in {"pods", "flowers", "seeds", "stage", "emergence"}:
            return True  # lots of them podded
        if form == "n_of_them" and self._of_the_head(j):
            return False
        if form in {
            "up",
            "the_v",
            "half",
            "less_half",
            "most",
            "lots",
            "weekday",
            "today",
            "yesterday",
            "ord_day",
            "small_alone",
        } or (rule == "past" and text_at(self.lattice, j) in {"was", "were", "had"}):
            return False
        if (
            rule == "past"
            and self.cur is not None
            and (
                (self.cur.kind in {"damage", "weather"} and (self.link or text_at(self.lattice, j) == "last"))
                or (self.cur.value is not None and self.cur.kind in COUNTED | {"disease", "defoliation"})
                or self.cur.kind == "soil moisture"
            )
        ):
            return False
        if rule == "date" and (
            (form == "md" and (units.length(self.lattice, j) or units.percent(self.lattice, j)))
            or (self.cur is not None and self.cur.kind in {"damage", "weather"})
        ):
            return False
        if rule == "state" and self.cur is not None and self.cur.kind == "other":
            return False
        if rule in {"ratio", "sampled"} and (self._plants_in(j) is not None or self._on_so_many(j)):
            return False
        if rule == "place" and form in {"lower", "up_top", "mid_plant", "near_top", "bare_top", "top_1"}:
            return False
        if rule in {"pods", "seeds", "flowers", "emergence", "nodes", "trif"} and self._longer_head(j):
            return False
        return True

    def _on_so_many(self, j: int) -> bool:
        """`bean leaf beetles, one in ten plants`: a count of animals, and no share of plants."""
        if self.cur is None or self.cur.kind != "insect" or self.cur.value is not None or self.form(j) != "n_in_m":
            return False
        many = units.number(self.lattice, j)
        of = units.per(self.lattice, many.end) if many is not None else None
        return of is not None and (of.unit or "").endswith("plants") and self._head_just_before(j)

    def _head_just_before(self, j: int) -> bool:
        return self.cur is not None and j - self.cur.head_end <= 2

    def _of_the_head(self, j: int) -> bool:
        """`marestail a couple of em on the terrace`: right behind the animal or weed, and nothing of the beans follows."""
        cur, behind = self.cur, self.at[j].end
        if cur is None or cur.kind not in COUNTED or cur.value is not None or j - cur.end > 1:
            return False
        close = j == cur.end or text_at(self.lattice, cur.end) == ","
        return close and self.phrase(behind) not in STRONG

    def stops_place(self, j: int) -> bool:
        """The same for the words of a place: `on the pods`, `in the beans` are places."""
        if self.phrase(j) in {"pods", "seeds", "flowers", "othercrop", "place"} and self.form(j) in {
            "pod_yes",
            "bean_yes",
            "seed_yes",
            "fl_yes",
            "othercrop",
            "lower",
        }:
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
        if edge is not None and edge.kind == "DAMAGE" and own_digging(self.lattice, j, edge.end):
            return None
        if edge is not None and edge.kind == "DAMAGE" and down_there(self.lattice, j, edge.end):
            return None
        if edge is not None and edge.end > j + 1 and text_at(self.lattice, edge.end - 1) == "plant":
            if edge.end < len(self.pieces) and any(e.kind == "INT" for e in self.lattice.edges[edge.end]):
                return None  # cut off dead plant four: the next plant
        if edge is not None and edge.kind == "STANDWORD":
            before = text_at(self.lattice, j - 1)
            tall = units.length(self.lattice, units.over_doubt(self.lattice, edge.end))
            if before in {"beans", "bean"} or (tall is not None and tall.tall):
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
        values, end = units.counts(self.lattice, j)
        if not values:
            return None
        many = values[0] if len(values) == 1 else Amount(end, [v.value for v in values])
        k = many.end
        if longest(self.lattice, k, "PLANT", sound=False) is None and not (
            self.cur is not None and self.cur.kind == "stand"
        ):
            return None
        unit = units.plants_in(self.lattice, k)
        plants = longest(self.lattice, k, "PLANT", sound=False)
        if unit is None and len(values) > 1 and plants is not None and self._head_just_before(j):
            unit = Amount(plants.end, None)  # 1/1000 ac hoop: 98, 104, 71 plants
        return (many, unit) if unit is not None else None

    def _use(self, a: int, b: int) -> int:
        self.used.append((a, b))
        self.end = max(self.end, b)
        if self.cur is not None:
            self.cur.end = max(self.cur.end, b)
        return b
