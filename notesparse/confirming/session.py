"""One sitting over some notes: the questions in order, answers kept at once, skip, back, undo. No keys, no screen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from notesparse.answers.entry import Entry, entry_of, hand_entry, same_matter, values_of_choice
from notesparse.answers.file import change, entries_beside, place_for, read_entries
from notesparse.answers.reading import read_answered
from notesparse.lazy import dataclass
from notesparse.options import Options
from notesparse.outcome import Outcome, Question
from notesparse.record.store import NoteFile
from notesparse.span import Span

Key = tuple[int, Span, str, str | None]
"""A question, whatever its number is by now: the note's place in the sitting, the words, the rule, the plant."""


@dataclass(frozen=True, slots=True)
class Turn:
    """What is to be asked now."""

    note: int
    outcome: Outcome
    question: Question
    key: Key


@dataclass(frozen=True, slots=True)
class Done:
    """One step that can be undone: what was put into which file, and what was taken out of it."""

    key: Key | None
    path: str
    added: tuple[Entry, ...]
    taken_out: tuple[Entry, ...]


class Before(dict[str, Outcome]):
    """What was read of one note in this sitting, under its hearings and answers; the oldest go first."""

    MOST = 130  # two rounds of all readings of a note (`doubts/asked.py`)

    def __setitem__(self, key: str, outcome: Outcome) -> None:
        while len(self) >= self.MOST:
            del self[next(iter(self))]
        super().__setitem__(key, outcome)


class Sitting:
    """The notes, what is open in them, and what was done so far.

    `answers` is the file that all answers go to; without it each note has its own file beside it.
    """

    def __init__(
        self,
        notes: Sequence[NoteFile],
        options: Options | None = None,
        date: str | None = None,
        answers: str | None = None,
    ) -> None:
        self.notes = list(notes)
        self._before = [Before() for _ in self.notes]
        self.options, self._date, self._answers = options or Options(), date, answers
        self.outcomes = self._all()
        self.skipped: set[Key] = set()
        self.done: list[Done] = []
        self._trail: list[Key] = []  # the questions that were shown, for the way back
        self._again: Key | None = None  # a question to be shown again

    def _read(self, k: int) -> Outcome:
        return read_answered(self.notes[k], self._date, self.options, self._answers, before=self._before[k])

    def _all(self) -> list[Outcome]:
        return [self._read(k) for k in range(len(self.notes))]

    # what is next ---------------------------------------------------------------------------------------------------

    def turns(self) -> list[Turn]:
        """All open questions in the order they are asked: first those that can change a field's stage."""
        rows = [turn for k in range(len(self.notes)) for turn in self._of(k) if turn.question.answer is None]
        return sorted(rows, key=lambda turn: not turn.question.moves_field)

    def next(self) -> Turn | None:
        """The question to show now; None when there is none left that was not skipped."""
        again, self._again = self._again, None
        if again is not None:
            turn = next((t for t in self._of(again[0]) if t.key == again), None)
            if turn is not None:
                self._shown(turn)
                return turn
        turn = next((t for t in self.turns() if t.key not in self.skipped), None)
        if turn is not None:
            self._shown(turn)
        return turn

    def _shown(self, turn: Turn) -> None:
        if not self._trail or self._trail[-1] != turn.key:
            self._trail.append(turn.key)

    def _of(self, note: int) -> Iterator[Turn]:
        outcome = self.outcomes[note]
        for q in outcome.questions:
            yield Turn(note, outcome, q, (note, q.span, q.rule, q.plant))

    @property
    def left(self) -> int:
        """How many open questions are still to be shown."""
        return sum(t.key not in self.skipped for t in self.turns())

    # what is done ---------------------------------------------------------------------------------------------------

    def choose(self, turn: Turn, at: int) -> Turn:
        """Answers with a choice; the answer is in its file when this returns. Gives the question as it stands then."""
        question = turn.question
        return self._answer(turn, values_of_choice(question, at), question.choices[at].reading)

    def tell(self, turn: Turn, values: Mapping[str, Any]) -> Turn:
        """Answers with other values than those of the choices."""
        return self._answer(turn, values, None)

    def choose_alike(self, turn: Turn, at: int) -> Turn:
        """Answers all open questions of the same habit in this note with the same choice."""
        added = [
            entry_of(
                turn.outcome, turn.question, values_of_choice(turn.question, at), turn.question.choices[at].reading
            )
        ]
        for other in self._of(turn.note):
            q = other.question
            if q.habit and q.habit == turn.question.habit and q.answer is None and q != turn.question:
                if at < len(q.choices):
                    added.append(entry_of(other.outcome, q, values_of_choice(q, at), q.choices[at].reading))
        return self._put(turn, added)

    def _answer(self, turn: Turn, values: Mapping[str, Any], reading: str | None) -> Turn:
        return self._put(turn, [entry_of(turn.outcome, turn.question, values, reading)])

    def _put(self, turn: Turn, added: Sequence[Entry]) -> Turn:
        self._keep(turn.note, turn.key, added)
        self.skipped.discard(turn.key)
        stands = next((t for t in self._of(turn.note) if t.key[1:3] == turn.key[1:3]), None)
        return stands if stands is not None else turn

    def set_by_hand(self, note: int, visit: int, plant: str | None, stop: str | None, key: str, value: Any) -> None:
        """Sets a value of the record by hand; it is in its file when this returns."""
        outcome = self.outcomes[note]
        was = value_of(outcome, visit, plant, stop, key)
        self._keep(note, None, [hand_entry(outcome, visit, plant, stop, key, value, was)])

    def _keep(self, note: int, key: Key | None, added: Sequence[Entry]) -> None:
        file = self.notes[note]
        path = self._answers or place_for(file.source)
        kept = read_entries(path) if self._answers else entries_beside(file.source)
        old = [e for e in kept if e.is_of(file.source, file.sha256) and any(same_matter(e, new) for new in added)]
        gone = change(path, added, old)
        self.done.append(Done(key, path, tuple(added), tuple(gone)))
        self.outcomes[note] = self._read(note)

    def use(self, options: Options) -> None:
        """Reads on with other options: a habit that is kept answers its questions in all the notes."""
        self.options = options
        self.outcomes = self._all()

    def skip(self, turn: Turn) -> None:
        """Leaves a question open, and does not show it again in this sitting."""
        self.skipped.add(turn.key)

    def back(self) -> bool:
        """Goes back to the question before; whether there is one."""
        if len(self._trail) < 2:
            return False
        self._trail.pop()
        self._again = self._trail[-1]
        self.skipped.discard(self._again)
        return True

    def again(self) -> bool:
        """Shows the last question once more; whether there was one."""
        self._again = self._trail[-1] if self._trail else None
        return self._again is not None

    def undo(self) -> bool:
        """Takes the last answer back, in its file too; whether there was one."""
        if not self.done:
            return False
        last = self.done.pop()
        change(last.path, last.taken_out, last.added)
        self.outcomes = self._all()
        if last.key is not None:
            self._again = last.key
        return True

    @property
    def answered(self) -> int:
        """How many answers were given in this sitting (and not taken back)."""
        return sum(len(step.added) for step in self.done)

    @property
    def files(self) -> list[str]:
        """The files that hold them."""
        return list(dict.fromkeys(step.path for step in self.done))


def value_of(outcome: Outcome, visit: int, plant: str | None, stop: str | None, key: str) -> Any:
    """The value that the record holds now, of a plant or of the visit's head."""
    v = outcome.visits[visit]
    if plant is None:
        return getattr(v, key, None)
    return next((getattr(p.facts, key, None) for p in v.plants if (p.label, p.stop) == (plant, stop)), None)
