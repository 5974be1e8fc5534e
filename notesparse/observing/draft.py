"""What is being put together while a note is read. Drafts change; what leaves `settle` does not."""

from __future__ import annotations

import copy
from dataclasses import field
from typing import Any

from notesparse.lazy import dataclass
from notesparse.span import Span


@dataclass(slots=True)
class Entry:
    """A value with its words. `copied` facts (same as plant 2) give way to what is said of the plant itself."""

    value: Any
    span: Span
    copied: bool = False
    group: bool = False  # said of several plants at once
    place: str | None = None


@dataclass(slots=True)
class Place:
    """A place as said: its form (top_n, ord_down, node_n, ...) and numbers."""

    form: str
    numbers: tuple[int, ...]
    span: Span


@dataclass(slots=True)
class Length:
    """A length as said, in mm: (low, high) or one number. `inches` tells which form of a published limit it is held
    against."""

    mm: float | tuple[float, float]
    inches: bool
    span: Span
    bare: str | None = None  # "fraction", "whole", "column" (like the others of its column): no unit was said
    under: float | None = None  # "just shy of": the length that is not quite reached
    spoken_quarter: bool = False  # "three quarter inch": one size, or three pods?
    count: int | None = None

    @property
    def high(self) -> float:
        """The upper end, in mm."""
        return self.mm[1] if isinstance(self.mm, tuple) else self.mm


@dataclass(frozen=True, slots=True)
class SaidOnce:
    """What the bare numbers behind the labels are: pods or seeds, millimetres in their unit, where on the plant."""

    what: str
    mm: float
    inches: bool
    places: tuple[Place, ...]
    span: Span


@dataclass(slots=True)
class Sighting:
    """One statement about flowers, pods or seeds of a plant."""

    what: str  # flowers, pods, seeds
    present: bool | None
    spans: list[Span]
    places: list[Place] = field(default_factory=list)
    length: Length | None = None
    fill: Entry | None = None  # partial, full, almost
    full_length: Entry | None = None
    tiny: Span | None = None
    match_head: Span | None = None
    in_pod: bool = False  # seeds said to be in a pod
    with_pods: bool = False  # pods full: pods and seeds at once
    tentative: bool = False  # "beans" that may be the crop
    past: bool = False
    buds: bool = False  # buds were named, and not that there are only buds
    copied: bool = False
    put_right: bool = False  # said to put right what was said before of the same thing
    group: bool = False
    branch: bool = False
    clause: int = 0
    sound_no: Span | None = None  # "now pods": no, or now?
    count_int: Length | None = None
    qty_one: bool = False
    length_put_right: Span | None = None  # by these words; a place behind them goes over the one before

    @property
    def span(self) -> Span:
        return Span(min(s.start for s in self.spans), max(s.end for s in self.spans))


@dataclass(slots=True)
class Ask:
    """A question while it is being put together: choices are (reading, {key: value}); the taken one is recorded."""

    rule: str
    span: Span
    text: str
    choices: list[tuple[str, dict[str, Any]]]
    plant: PlantDraft | None = None
    taken: int = 0
    key: str | None = None
    always: bool = False  # ask though no key changes (a plant's label, a target that does not exist)
    visit: VisitDraft | None = None
    all_alike: bool = False  # a habit of the whole table: the answer holds for every plant that is like this one
    habit: str = ""  # the setting that would answer it, and so need not ask
    habits: tuple[str, ...] = ()  # what each choice says of that habit
    also: tuple[PlantDraft, ...] = ()  # plants that the same words speak of: the answer is theirs too


@dataclass(slots=True)
class PlantDraft:
    label: str
    span: Span
    stop: str | None = None
    facts: dict[str, list[Entry]] = field(default_factory=dict)
    sightings: list[Sighting] = field(default_factory=list)
    asks: list[Ask] = field(default_factory=list)
    dropped: bool = False  # skipped, dead, taken back
    named: bool = True  # the note gave the label
    line: int = 0
    every: bool = False  # stands for all plants that the visit names later
    named_behind: bool = False  # named behind what was said of it first
    counted: bool = False  # one of so many that were counted, its number named further on

    def put(self, key: str, value: Any, span: Span, *, group: bool = False, copied: bool = False) -> Entry:
        entry = Entry(value, span, copied, group)
        self.facts.setdefault(key, []).append(entry)
        return entry

    def last(self, key: str) -> Entry | None:
        entries = self.facts.get(key)
        return entries[-1] if entries else None

    @property
    def empty(self) -> bool:
        return not self.facts and not self.sightings


@dataclass(slots=True)
class TallyDraft:
    what: str | None
    count: float | None
    of: float | None
    percent: float | None
    span: Span
    more_than_half: bool | None = None
    exclusive: bool = False
    negative: bool = False
    lots: bool = False
    stops: bool = False
    even: bool = False  # half and half: of two stages that follow
    called: bool = False  # the stage was named: 6 R6, 8 R5


@dataclass(slots=True)
class FindingDraft:
    kind: str
    name: str | None
    value: Any
    unit: str | None
    where: str | None
    span: Span


@dataclass(slots=True)
class StatedDraft:
    letter: str  # v or r
    value: Any
    span: Span
    where: str | None = None
    average: bool = False


@dataclass(slots=True)
class VisitDraft:
    name: str | None = None
    name_span: Span | None = None
    head: dict[str, Entry] = field(
        default_factory=dict
    )  # date, planted, emerged, variety, maturity_group, row_spacing_in
    plants: list[PlantDraft] = field(default_factory=list)
    tallies: list[TallyDraft] = field(default_factory=list)
    stated: list[StatedDraft] = field(default_factory=list)
    findings: list[FindingDraft] = field(default_factory=list)
    asks: list[Ask] = field(default_factory=list)
    stands: frozenset[str] = frozenset()  # scales (v, r) of which the stated stage stands, as was answered
    by_count: frozenset[str] = frozenset()  # scales of which the tallies decide, though plants are described

    @property
    def empty(self) -> bool:
        return not (self.plants or self.tallies or self.stated or self.findings)

    def plant(self, label: str, stop: str | None = None) -> PlantDraft | None:
        for p in reversed(self.plants):
            if p.label.casefold() == label.casefold() and (stop is None or p.stop == stop) and not p.dropped:
                return p
        return None

    def told_of(self, p: PlantDraft) -> list[PlantDraft]:
        """The plant and, before it, what was told of it under the same label: `1 8tf`, and further down `1 and 3 no bloom`."""
        key = p.label.casefold(), p.stop
        return [q for q in self.plants if q is not p and not q.dropped and (q.label.casefold(), q.stop) == key] + [p]


def merged(p: PlantDraft, what: str) -> list[Sighting]:
    """The sightings of a kind: what is said of the plant itself goes over what was copied."""
    seen = [s for s in p.sightings if s.what == what and not s.tentative]
    own = [s for s in seen if not s.copied]
    base = [s for s in seen if s.copied]
    if not own or not base:
        return own or base
    if own[-1].present is False:
        return own
    last, old = own[-1], base[-1]
    if old.present and last.present:
        last = copy.copy(last)
        last.spans = list(last.spans)
        own = [*own[:-1], last]
        last.length = last.length or (old.length if last.count_int is None else None)  # same but pods 14
        last.places = last.places or old.places
        last.fill = last.fill or old.fill
        last.full_length = last.full_length or old.full_length
        last.count_int = last.count_int or old.count_int
        last.in_pod = last.in_pod or old.in_pod
    return own
