"""Answers by voice to the questions of `notesparse confirm`: what was heard is shown, and taken once it is accepted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

import typer

from notesparse.lazy import dataclass

if TYPE_CHECKING:
    from notesparse.listening.answers import Ear
    from notesparse.listening.heard import Recording
    from notesparse.outcome import Question
    from notesparse.spoken.answers import Answered

STEPS = {
    "skip": ("s", "skip"),
    "unknown": ("s", "not known, the question stays open"),
    "back": ("p", "back"),
    "undo": ("u", "undo"),
    "stop": ("q", "stop"),
}
_FREE = frozenset({"field", "variety", "plant", "same_as", "words", "tally", "of", "date", "planted", "emerged_on"})
"""Facts that are words or several numbers: an answer of the small grammar is one of their choices, or nothing."""


@dataclass(frozen=True, slots=True)
class Meant:
    """What an answer would do: the key that does the same, or values in the place of the choices; and in words."""

    key: str
    shown: str
    values: Mapping[str, Any] | None = None


def meant(question: Question, answer: Answered) -> Meant | None:
    """What a heard answer means to a question; None: it is none of its answers, or more than one."""
    from notesparse.outcome import LETTERS

    if answer.kind in STEPS:
        return Meant(*STEPS[answer.kind])
    if answer.kind == "letter":
        at = LETTERS.find(str(answer.value))
        return _choice(question, at) if 0 <= at < len(question.choices) else None
    bare = answer.kind == "number" and not str(answer.value).partition("/")[2]
    return _by_value(question, _typed(answer), bare)


def _choice(question: Question, at: int) -> Meant:
    from notesparse.outcome import LETTERS

    return Meant(LETTERS[at], f"{LETTERS[at]}  {question.choices[at].reading}")


def _typed(answer: Answered) -> str:
    """The answer as it would be typed."""
    if answer.kind in ("number", "length") and answer.value is not None:
        amount, unit = answer.value, answer.unit or ""
        if unit == "ft":
            amount, unit = 12 * amount, "in"
        return f"{amount} {unit}".strip()
    return str(answer.value or answer.kind)


def _by_value(question: Question, words: str, bare: bool) -> Meant | None:
    """The one choice that has this value; else the value itself, where the question is about one fact only. A `bare`
    whole number is no length: the unit has to be said."""
    from notesparse.asking.values import Refused, from_words, other_keys
    from notesparse.views.wording import KEYS, made

    values = {}
    for key in other_keys(question):
        if bare and key.endswith("_mm"):
            continue
        try:
            values[key] = from_words(key, words)
        except Refused:
            continue
    alike = [
        at
        for at, choice in enumerate(question.choices)
        if any(
            e.key in values and type(e.value) is type(values[e.key]) and e.value == values[e.key] for e in choice.edits
        )
    ]
    if len(alike) == 1:
        return _choice(question, alike[0])
    keys = other_keys(question)
    if alike or len(keys) != 1 or keys[0] in _FREE or values.get(keys[0]) is None:
        return None
    key = keys[0]
    return Meant("o", f"{KEYS.get(key, key.replace('_', ' '))}: {made(key, values[key])}", values)


class Voice:
    """Gives keys for what is said. `keys`: the keyboard is there too; Space listens, Enter takes what was heard."""

    def __init__(self, ear: Ear, sounds: Iterator[Recording], keys: bool) -> None:
        self._ear, self._sounds, self.keys = ear, sounds, keys
        self.told: Mapping[str, Any] | None = None  # the values that go with the key `o`

    def key(self, question: Question) -> str:
        """The key of an accepted answer, or one that was pressed."""
        self.told = None
        heard: Meant | None = None
        if self.keys:
            print("   Space: speak")
        while True:
            if self.keys:
                key = typer.getchar()
                if heard is not None and key in ("\r", "\n"):
                    break
                if key != " ":
                    return key
            recording = next(self._sounds, None)
            if recording is None:
                print("   There are no more recordings.")
                return "q"
            said = self._ear.hear(recording)
            answer = said.answer
            if answer is None:
                guess = f" (“{' '.join(said.words)}”?)" if said.words else ""
                print(f"   {said.why[:1].upper()}{said.why[1:]}{guess}: nothing is taken. Say the answer again.")
                heard = None
                continue
            if heard is not None and answer.kind == "yes":
                break
            if heard is not None and answer.kind == "no":
                print("   Not taken. Say the answer again.")
                heard = None
                continue
            heard = meant(question, answer)
            words = " ".join(said.words)
            if heard is None:
                print(f"   Heard “{words}”: that is no answer to this question, or more than one. Say the letter.")
            else:
                print(
                    f"   Heard “{words}”:  {heard.shown}   Right? {'Enter, or ' if self.keys else ''}“yes”, takes it."
                )
        assert heard is not None
        self.told = heard.values
        return heard.key


def voice(folder: str | None) -> Voice:
    """Answers from the microphone, or from the recordings of a folder. Raises `InputError` where there is no way to."""
    from notesparse.listening.answers import Ear, recordings

    if folder is not None:
        sounds = recordings(folder)
        return Voice(Ear(), sounds, keys=False)
    from notesparse.listening.microphone import answers

    sounds = answers()
    return Voice(Ear(), sounds, keys=True)
