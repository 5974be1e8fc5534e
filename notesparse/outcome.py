"""The nouns that travel: what reading a note gives, all frozen, each with its place in the text."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from notesparse.facts import FieldStage, PlantFacts, Staged, Stated, Tally
from notesparse.lazy import dataclass
from notesparse.span import Span


@dataclass(frozen=True, slots=True)
class Note:
    """One text as it was read: decoded, byte-order mark removed, line ends kept."""

    text: str
    source: str = "-"
    sha256: str = ""  # of the note's bytes
    date: str | None = None  # the note's own date, ISO
    typed: Mapping[str, Any] | None = None  # how it was read from a picture of a typed page: engine, pages, angle


@dataclass(frozen=True, slots=True)
class PlantRecord:
    """One plant with its stages. `label` and `stop` (the place in the field where it stood, or None) are as written;
    `spans` gives the words behind each fact by its key, `derived` the keys of facts that no word states."""

    label: str
    stop: str | None
    facts: PlantFacts
    v: Staged
    r: Staged
    spans: Mapping[str, Span]
    derived: tuple[str, ...] = ()
    told: Mapping[str, str] = dataclasses.field(default_factory=dict)  # key -> "confirmed" or "corrected" by a person


@dataclass(frozen=True, slots=True)
class TallyRecord:
    """So many plants of so many, with its words (guide 4.16)."""

    tally: Tally
    span: Span


@dataclass(frozen=True, slots=True)
class StatedRecord:
    """A field statement; `where` names a part of the field, if it speaks only of that."""

    stated: Stated
    span: Span
    where: str | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """Anything else a scout records (guide 4.20). `kind` is insect, disease, weed, defoliation, stand, ...; `value` is
    a number, a list of numbers or None, in `unit` as the scout gave it (`per 25 sweeps`, `%`); `where` is in his words."""

    kind: str
    name: str | None
    value: float | list[float] | None
    unit: str | None
    where: str | None
    span: Span


@dataclass(frozen=True, slots=True)
class Visit:
    """One field on one day. Dates are ISO text, row spacing inches; what the note does not say is None. `spans` gives
    the words behind the values of the head, by their keys."""

    field: str | None
    date: str | None
    planted: str | None
    emerged: str | None
    variety: str | None
    maturity_group: float | None
    row_spacing_in: float | None
    plants: tuple[PlantRecord, ...]
    tallies: tuple[TallyRecord, ...]
    stated: tuple[StatedRecord, ...]  # whole-field statement first; parts of the field after it
    findings: tuple[Finding, ...]
    field_stage: FieldStage
    spans: Mapping[str, Span] = dataclasses.field(default_factory=dict)
    told: Mapping[str, str] = dataclasses.field(default_factory=dict)  # key -> "confirmed" or "corrected" by a person


@dataclass(frozen=True, slots=True)
class Edit:
    """A change to the drafted record that an answer would make: `value` for `key` of one plant (or of the visit)."""

    visit: int
    plant: str | None
    key: str
    value: Any
    stop: str | None = None


@dataclass(frozen=True, slots=True)
class Doubt:
    """A stretch of a note that a recogniser was not sure of. `others` are the other hearings (none: it was only unsure;
    an empty one: no word was said there); `where` says where the source can be looked at again ("0:12.4-0:13.1 of
    walk.wav", "line 4 of page.png"); `how` is "heard" or "typed"."""

    span: Span
    others: tuple[str, ...]
    where: str
    how: str = "heard"


DOUBTED = frozenset({"heard", "typed"})
"""How doubtful words came into a note. It stands in the place of a rule where a question is about the words themselves:
such an answer says which words hold (`words`; None: they are not known), and the note is read with them."""

LETTERS = "abcdefghijklmn"


def letter_of(at: int) -> str:
    """The letter of a choice: a to n; the letters behind them are kept for other things than choices."""
    return LETTERS[at] if at < len(LETTERS) else str(at + 1)


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer: how it reads, and what it would make: the values that change, by the keys of the record, with
    `v_stage` and `r_stage` of the plant and `field_v` and `field_r`."""

    reading: str
    makes: Mapping[str, Any]
    edits: tuple[Edit, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """One thing only the person who saw the plant can settle. `taken` is the index of the reading recorded
    meanwhile; `answer` the index of the choice that was answered, or the words of an answer that is none of them."""

    id: str
    rule: str
    span: Span
    quote: str
    visit: int
    plant: str | None
    ask: str
    choices: tuple[Choice, ...]
    taken: int = 0
    answer: int | str | None = None
    moves_field: bool = False  # an answer can change the field's stage
    stop: str | None = None
    key: str | None = None  # the fact that it is about
    habit: str = ""  # the setting that would answer it, and so need not ask
    habits: tuple[str, ...] = ()  # what each choice says of that habit

    def chosen(self, at: int) -> Answer:
        """The answer that takes the choice `at` (from 0; IndexError where there is none), to be given to `read`."""
        choice = self.choices[at]
        return Answer(self.span, self.rule, {e.key: e.value for e in choice.edits}, choice.reading, self.plant)

    def told(self, values: Mapping[str, Any]) -> Answer:
        """The answer that is none of the choices: other values, by the keys of the facts, lengths in millimetres."""
        return Answer(self.span, self.rule, dict(values), None, self.plant)


INNER_KEYS = frozenset({"stands", "by_count"})
"""Keys of an answer that are no values of the record: they say which evidence decides."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What the person who saw the plant said to a question: the values that hold. The question is found again by the
    words that were asked about (`span`), the rule, and the plant where several are asked about in the same words.
    `reading` is the choice as it read; None where the values were typed."""

    span: Span
    rule: str
    values: Mapping[str, Any]
    reading: str | None = None
    plant: str | None = None


@dataclass(frozen=True, slots=True)
class ByHand:
    """A value of the record that a person has set: of a plant (`plant`, `stop`), or of the visit's head.

    `visit` counts from 0, and `field` is the name that the visit had when the value was set: both must still fit."""

    visit: int
    field: str | None
    plant: str | None
    key: str
    value: Any
    stop: str | None = None


@dataclass(frozen=True, slots=True)
class Unapplied:
    """An answer, a value set by hand, or a doubt that fits this note no more, and why. It changes nothing."""

    given: Answer | ByHand | Doubt
    why: str


@dataclass(frozen=True, slots=True)
class Assumption:
    """What a note leaves unsaid, taken in the usual sense (guide 2.2): the rule, the words, and what was taken."""

    rule: str
    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Correction:
    """What the note itself takes back or puts right (guide 4.17): the words, and what became of them."""

    rule: str
    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Unread:
    """Words that made no value, and why (guide 1.4)."""

    span: Span
    quote: str
    why: str


@dataclass(frozen=True, slots=True)
class Repair:
    """A word read as another: `how` is sound, near, joined, split or figure; `nearness` 0 to 1."""

    span: Span
    words: str
    read_as: str
    how: str
    nearness: float


@dataclass(frozen=True, slots=True)
class Step:
    """One phrase as it was read, for `explain`: its kind, words, value, and how the choice fell."""

    span: Span
    words: str
    phrase: str
    means: str
    used: str  # evidence, filler, header, unread
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """All that a note gave. `evidence`, `filler` and the spans of `unread` together hold every character of it once.

    Questions that were answered stay in `questions`, with their `answer`; `steps` are for `notesparse explain`."""

    note: Note
    visits: tuple[Visit, ...]
    questions: tuple[Question, ...]
    assumptions: tuple[Assumption, ...]
    corrected: tuple[Correction, ...]
    unread: tuple[Unread, ...]
    repairs: tuple[Repair, ...] = ()
    evidence: tuple[Span, ...] = ()
    filler: tuple[Span, ...] = ()
    steps: tuple[Step, ...] = ()
    unapplied: tuple[Unapplied, ...] = ()
    heard: Mapping[str, Any] | None = None  # how the note was heard: recording, recognisers, pieces of speech

    def to_json(self) -> str:
        """The record as one line of JSON, by the record contract."""
        from notesparse.record.lines import to_line

        return to_line(self)

    def to_frame(self) -> Any:
        """The plants of all visits as a tidy pandas data frame, one plant a row."""
        from notesparse.record.table import to_frame

        return to_frame([self])
