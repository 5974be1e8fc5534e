"""One kept answer, or one value set by hand, as it stands in an answers file; and where in a note it belongs.

An entry holds the whole line that its words stand in. While the note is unchanged (same SHA-256) the line's number finds
it; in a changed note the same line must still stand there, once: else the entry fits no more, and is told of.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from pathlib import PurePath
from typing import Any

from notesparse.asking.given import values_of
from notesparse.asking.values import Refused, checked_all
from notesparse.lazy import dataclass
from notesparse.outcome import Answer, ByHand, Outcome, Question, Unapplied
from notesparse.span import Span

NOT_KNOWN = "not known"
"""Stands in the file for a value of which nothing is known: TOML has no null."""


@dataclass(frozen=True, slots=True)
class Entry:
    """An answer (`kind` answer), or a value set by hand (`kind` value). `number` is the line's, from 1."""

    kind: str
    note: str  # the note's file name
    sha256: str  # of the note's bytes when it was answered
    values: Mapping[str, Any]
    plant: str | None = None
    # an answer
    rule: str = ""
    line: str = ""
    number: int = 0
    words: str = ""
    nth: int = 1  # which occurrence of the words in the line
    asked: str = ""
    reading: str | None = None
    # a value set by hand
    visit: int = 0  # from 1
    field_name: str | None = None
    stop: str | None = None
    was: Any = None
    where: str = field(default="", compare=False)  # file and line of the entry, for messages

    @property
    def about(self) -> tuple[Any, ...]:
        """What it answers: two entries about the same contradict each other if their values differ."""
        if self.kind == "answer":
            return (self.kind, self.sha256, self.number, self.words, self.nth, self.rule, self.plant)
        return (self.kind, self.sha256, self.visit, self.field_name, self.plant, self.stop, *sorted(self.values))

    def is_of(self, name: str, sha256: str) -> bool:
        """Whether it belongs to the note of this name and hash: by the hash, or by the name where the note changed."""
        return self.sha256 == sha256 or self.note == PurePath(name).name


def entry_of(outcome: Outcome, question: Question, values: Mapping[str, Any], reading: str | None) -> Entry:
    """The entry that keeps an answer to a question of this outcome."""
    text = outcome.note.text
    start, end = _lines_around(text, question.span)
    line = text[start:end]
    nth = 1 + _before(line, question.quote, question.span.start - start)
    return Entry(
        "answer",
        PurePath(outcome.note.source).name,
        outcome.note.sha256,
        values_of(values),
        question.plant,
        rule=question.rule,
        line=line,
        number=text.count("\n", 0, start) + 1,
        words=question.quote,
        nth=nth,
        asked=question.ask,
        reading=reading,
    )


def values_of_choice(question: Question, at: int) -> dict[str, Any]:
    """All that a choice sets, the inner keys included."""
    return values_of({edit.key: edit.value for edit in question.choices[at].edits})


def hand_entry(
    outcome: Outcome, visit: int, plant: str | None, stop: str | None, key: str, value: Any, was: Any
) -> Entry:
    """The entry that keeps a value set by hand; `visit` counts from 0."""
    return Entry(
        "value",
        PurePath(outcome.note.source).name,
        outcome.note.sha256,
        values_of({key: value}),
        plant,
        visit=visit + 1,
        field_name=outcome.visits[visit].field,
        stop=stop,
        was=was,
    )


def same_matter(one: Entry, two: Entry) -> bool:
    """Whether two entries of one note answer the same question, or set the same value."""
    if one.kind != two.kind:
        return False
    if one.kind == "value":
        return (one.visit, one.plant, one.stop, sorted(one.values)) == (
            two.visit,
            two.plant,
            two.stop,
            sorted(two.values),
        )
    return (one.number, one.line, one.words, one.nth, one.rule, one.plant) == (
        *(two.number, two.line, two.words, two.nth, two.rule, two.plant),
    )


@dataclass(frozen=True, slots=True)
class Fitting:
    """What of the kept entries goes into the reading of one note, and what does not fit it any more."""

    answers: tuple[Answer, ...] = ()
    by_hand: tuple[ByHand, ...] = ()
    misfits: tuple[Unapplied, ...] = ()


def fit(entries: Sequence[Entry], text: str, name: str, sha256: str) -> Fitting:
    """The entries of one note, each at its place in the note's text."""
    answers: list[Answer] = []
    by_hand: list[ByHand] = []
    misfits: list[Unapplied] = []
    ours = list({_whole(e): e for e in entries if e.is_of(name, sha256)}.values())
    for e in ours:
        given, why = _given(e, text, sha256)
        rivals = [o for o in ours if o.about == e.about and dict(o.values) != dict(e.values)]
        if rivals and why is None:
            why = "it is answered twice, and the two differ: answer it again, or take one of them out"
        if why is not None:
            misfits.append(Unapplied(given, why))
        elif isinstance(given, Answer):
            answers.append(given)
        else:
            by_hand.append(given)
    return Fitting(tuple(answers), tuple(by_hand), tuple(misfits))


def _whole(e: Entry) -> tuple[Any, ...]:
    return (*e.about, repr(dict(e.values)))


def _given(e: Entry, text: str, sha256: str) -> tuple[Answer | ByHand, str | None]:
    """The answer or value, and why it does not fit (None: it fits)."""
    why = _refused(e)
    if e.kind == "value":
        key, value = next(iter(e.values.items()))
        return ByHand(e.visit - 1, e.field_name, e.plant, key, _frozen(value), e.stop), why
    span = _place(e, text, same=e.sha256 == sha256)
    if span is None:
        why = f'the note has changed, and the words "{e.words}" are gone from their line' if why is None else why
    return Answer(span or Span(0, 0), e.rule, e.values, e.reading, e.plant), why


def _refused(e: Entry) -> str | None:
    try:
        checked_all(e.values)
    except Refused as fault:
        return str(fault)
    return None


def _place(e: Entry, text: str, same: bool) -> Span | None:
    """Where the words stand in the note; None where their line is gone, or stands there more than once."""
    starts = _starts(text, e.line)
    if same or len(starts) > 1:
        starts = [s for s in starts if text.count("\n", 0, s) + 1 == e.number]
    if len(starts) != 1:
        return None
    at = -1
    for _ in range(e.nth):
        at = e.line.find(e.words, at + 1)
        if at < 0:
            return None
    return Span(starts[0] + at, starts[0] + at + len(e.words)) if e.words else None


def _starts(text: str, line: str) -> list[int]:
    """Where `line` (one whole line, or several) begins in the note."""
    found, at = [], text.find(line)
    while line and at >= 0:
        end = at + len(line)
        if (at == 0 or text[at - 1] == "\n") and (end == len(text) or text[end] in "\r\n"):
            found.append(at)
        at = text.find(line, at + 1)
    return found


def _lines_around(text: str, span: Span) -> tuple[int, int]:
    """The whole lines that a span touches, without the last line end."""
    start = text.rfind("\n", 0, span.start) + 1
    end = text.find("\n", max(span.end - 1, span.start))
    end = len(text) if end < 0 else end
    return start, end - 1 if text[start:end].endswith("\r") else end


def _before(line: str, words: str, offset: int) -> int:
    """How often the words begin in the line before the offset."""
    count, at = 0, line.find(words)
    while 0 <= at < offset:
        count, at = count + 1, line.find(words, at + 1)
    return count


def _frozen(value: Any) -> Any:
    return tuple(_frozen(item) for item in value) if isinstance(value, list) else value
