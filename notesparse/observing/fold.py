"""What reading a note has put together so far: its drafts of visits and plants, what each piece was used for, what is asked.

`Context` keeps what a listener keeps: which field, which plant, which thing is being spoken of, and what was said last.
The walk goes from phrase to phrase (`walking/walk.py`), and each kind of phrase writes into it from its own module:
`leaves`, `organs`, `tallies`, `headers`, `finding/findings`, `revise`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.draft import (
    Ask,
    FindingDraft,
    Length,
    Place,
    PlantDraft,
    SaidOnce,
    Sighting,
    StatedDraft,
    TallyDraft,
    VisitDraft,
)
from notesparse.observing.naming.names import Name
from notesparse.outcome import Assumption, Correction, Repair, Unread
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("observing/fold")

EVIDENCE, FILLER, UNREAD = "evidence", "filler", "unread"
OF_THE_UNREAD = "the same as what cannot be read"
OF_NO_HEAD = "under a column head that is not understood"
NOTHING_TO_TURN = "a negation with nothing to turn round"
NO_THING_THERE = "nothing named at this place"
NO_THING_SO_LONG = "a length of nothing named"
HEADS = {"flowers", "pods", "seeds"}


@dataclass(slots=True)
class Statement:
    """One thing said, so that it can be taken back or put right: its kind, its words, and how to undo it."""

    kind: str
    span: Span
    undo: Callable[[], None]
    plant: PlantDraft | None
    put: Callable[[int], None] | None = None  # gives it another number


EXCEPT = _LISTED.words("except")


@dataclass(slots=True)
class Context:
    """Everything that the walk remembers."""

    lattice: Lattice
    note_date: str | None
    day_first: bool
    counting_rule: str
    node_start: str = "ask"  # where the scout starts to count nodes
    visits: list[VisitDraft] = field(default_factory=list)
    visit: VisitDraft | None = None
    stop: str | None = None
    plants: list[PlantDraft] = field(default_factory=list)
    explicit: bool = False  # the plant has a label in the note
    line_labels: bool = False  # labels stand at line heads
    open: list[Sighting] = field(default_factory=list)
    open_end: int = -1  # piece where the last phrase of the open sighting ended
    places: list[Place] = field(default_factory=list)
    lengths: list[Length] = field(default_factory=list)
    clause: int = 0
    line: int = 0
    link: set[str] = field(default_factory=set)
    correcting: Span | None = None
    taking_back: Span | None = None
    star: Span | None = None
    statements: list[Statement] = field(default_factory=list)
    tally: TallyDraft | None = None
    sample: int | None = None
    sample_visit: int = -1
    sampled: list[tuple[VisitDraft, int, Span]] = field(default_factory=list)  # so many plants were counted, in words
    group: str | None = None  # all, none, rest: the next fact is of all plants of the visit
    group_span: Span | None = None
    group_n: int | None = None
    every: bool = False  # what is said next, before any plant is named, is of all that will be
    said_once: SaidOnce | None = None  # what the bare numbers behind the labels are
    except_for: list[PlantDraft] = field(default_factory=list)  # all but these: they have it not
    last_what: str | None = None
    likes: list[tuple[VisitDraft, VisitDraft, Span]] = field(
        default_factory=list
    )  # a field, the one it is like, the words
    rows_before: tuple[Any, ...] | None = None  # the visit of the last table, and what its rows said
    page_date: tuple[str, Span] | None = None
    form: bool = False  # the note is a form: its lines speak of one plant
    form_aside: int = -1  # piece up to which a line of the form speaks of something else than the plant
    form_organ: str | None = None  # what the form asks of plant after plant
    pod_unit: tuple[float, bool] | None = (
        None  # millimetres in the unit of the page's bare pods; whether it is of inches
    )
    pod_place: Place | None = None  # where on the plant the page says that they all were
    at_node: str | None = None  # how the page's key counts the nodes behind an @: down, up
    line_date: tuple[str, Span] | None = None  # a date at a line's head that waits for its field
    asks: list[Ask] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
    corrected: list[Correction] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    use: list[str] = field(default_factory=list)  # per piece
    why: dict[int, str] = field(default_factory=dict)
    finding: FindingDraft | None = None
    repairs: list[Repair] = field(default_factory=list)
    steps: list[tuple[Span, str, str, str, tuple[str, ...]]] = field(default_factory=list)
    label_count: int = 0
    same_targets: list[tuple[PlantDraft, str, Span]] = field(default_factory=list)
    field_clause: int = -1  # clause in which a field statement was announced
    label_lines: bool = False  # a label stands on a line of its own, and what it has on the lines below
    pods_brown_head: bool = False  # a heading said that the numbers are percent of brown pods
    tentative: list[tuple[Sighting, int, int]] = field(default_factory=list)
    hurt: list[tuple[FindingDraft, PlantDraft]] = field(
        default_factory=list
    )  # damage of a plant of which nothing else was said
    struck: dict[int, int] = field(default_factory=dict)  # struck-out stretches: first piece -> end
    pins: dict[Span, str] = field(default_factory=dict)  # how words are to be read, as was answered

    # accounting ----------------------------------------------------------------------------------------------------

    def span(self, i: int, j: int) -> Span:
        p = self.lattice.pieces
        return Span(p[i].span.start, p[j - 1].span.end)

    def mark(self, i: int, j: int, use: str, why: str = "") -> None:
        for k in range(i, j):
            self.use[k] = use
            if why:
                self.why[k] = why
            elif use != UNREAD:
                self.why.pop(k, None)

    def mark_span(self, span: Span, use: str, why: str = "") -> None:
        """Mark the pieces that begin inside a span."""
        first = self.lattice.first_from(span.start)
        self.mark(first, max(first, self.lattice.first_from(span.end)), use, why)

    def assume(self, rule: str, span: Span, text: str) -> None:
        a = Assumption(rule, span, text)
        if a not in self.assumptions:
            self.assumptions.append(a)

    def ask(self, ask: Ask) -> None:
        ask.visit = ask.visit or self.visit
        self.asks.append(ask)

    # where we are ---------------------------------------------------------------------------------------------------

    def here(self) -> VisitDraft:
        """The visit that is being spoken of (made on first need)."""
        if self.visit is None:
            self.visit = VisitDraft()
            self.visits.append(self.visit)
        return self.visit

    def close(self) -> None:
        """What was spoken of is done: the next place or length needs a thing of its own."""
        self.open = []
        self.name_nothing()

    def name_nothing(self) -> None:
        """Places and lengths that nothing was named for are shown as unread."""
        for place in self.places:
            self.mark_span(place.span, UNREAD, NO_THING_THERE)
        for length in self.lengths:
            self.mark_span(length.span, UNREAD, NO_THING_SO_LONG)
        self.places, self.lengths = [], []

    def leave_plants(self) -> None:
        self.close()
        self.plants = []
        self.explicit = False

    def begin(self, labels: list[str], span: Span, *, named: bool = True) -> list[PlantDraft]:
        """Start one or more plants."""
        if named:
            self.close()
        self.open = []
        self.group = None
        self.finding = None
        visit = self.here()
        made = []
        for label in labels:
            there = next((p for p in visit.plants if p.counted and p.empty and p.label == label), None)
            p = there if there is not None else PlantDraft(label, span, self.stop, named=named, line=self.line)
            p.span, p.counted = span, p.counted and there is None  # pulled four. trifs on 1 thru 4 were 10, 11, 11, 12
            if there is None:
                visit.plants.append(p)
            made.append(p)
        self.plants = made
        self.explicit = named
        self.tally = None
        self.last_what = None
        if named:
            self.label_count += 1
        return made

    def next_label(self) -> str:
        visit = self.here()
        same_stop = [p for p in visit.plants if p.stop == self.stop]
        for p in reversed(same_stop):
            if p.label.isdigit():
                return str(int(p.label) + 1)
            if len(p.label) == 1 and p.label.isalpha():
                return chr(ord(p.label) + 1)
        return "1"

    def living(self) -> list[PlantDraft]:
        """The plants of the visit that a saying about all of them is of: not the ones of which nothing else could be
        said (cut off)."""
        live = [p for p in self.visit.plants if not p.dropped] if self.visit else []
        if all(p.empty for p in live):
            return live
        asked = {id(a.plant) for a in self.asks if a.plant is not None}  # 77 trifs: there, and only the count is open
        return [p for p in live if not p.empty or p.counted or p is live[-1] or not p.named or id(p) in asked]

    def need_plants(self, span: Span, fresh_key: str | None = None) -> list[PlantDraft]:
        """The plants that a fact belongs to; a note that names none describes plant 1, 2, ... line by line."""
        if self.group is not None and self.visit is not None and self.visit.plants:
            live = self.living()
            if self.group_n is not None and self.group_n < len(live):
                live = live[-self.group_n :]
            if live:
                return live
        if not self.plants:
            begun = self.begin([self.next_label()], span, named=False)
            begun[0].every, self.every = self.every, False
            return begun
        if not self.explicit and self._one_a_line() and not self.correcting and not self.taking_back:
            return self.begin([self.next_label()], span, named=False)
        if not self.explicit and fresh_key and not self.correcting and not self.taking_back:
            p = self.plants[-1]
            if fresh_key in p.facts:
                return self.begin([self.next_label()], span, named=False)
        return self.plants

    def _one_a_line(self) -> bool:
        """Whether a new line has begun where each line before it described a plant of its own."""
        plants = self.visit.plants if self.visit is not None else []
        if self.form or len(plants) < 2 or self.line <= plants[-1].line:
            return False
        return not (plants[-1].named or plants[-2].named) and plants[-2].line == plants[-1].line - 1

    def said(self, kind: str, span: Span, undo: Callable[[], None], put: Callable[[int], None] | None = None) -> None:
        self.statements.append(Statement(kind, span, undo, self.plants[-1] if self.plants else None, put))


def numbers_of(phrase: Phrase) -> list[int]:
    """The whole numbers of a phrase, in order."""
    return [int(e.means) for _, e in phrase.path if e.kind in {"INT", "INTSOUND", "ORD", "ORDSOUND", "NODEFIG"}]


def one_label(lattice: Lattice, phrase: Phrase) -> str | None:
    """The label of a phrase that names one plant: `plant 3`, `plant B`, a bare `C` in a series."""
    if phrase.form == "bare":
        names = phrase.path[0][1].means
        return str(names[0]) if len(names) == 1 else None
    if phrase.form == "plant_letter":
        return lattice.original(phrase.path[-1][0], phrase.path[-1][1].end)
    numbers = numbers_of(phrase)
    return str(numbers[0]) if len(numbers) == 1 else None


def edges_of(phrase: Phrase, *kinds: str) -> list[tuple[int, Edge]]:
    return [(i, e) for i, e in phrase.path if e.kind in kinds]


__all__ = [
    "EVIDENCE",
    "FILLER",
    "HEADS",
    "UNREAD",
    "Context",
    "Name",
    "StatedDraft",
    "Statement",
    "edges_of",
    "numbers_of",
    "one_label",
]
