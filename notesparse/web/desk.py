"""What the page works on: notes as files in one folder, their answers beside them, and the season log.

The same files as on the command line: whatever is settled here is settled there. One desk serves all tabs and telephones; a
lock lets one of them write at a time.
"""

from __future__ import annotations

import hashlib
import os
import re
import sqlite3
import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from notesparse import __version__
from notesparse.answers.reading import read_answered
from notesparse.confirming.session import Sitting, Turn
from notesparse.errors import InputError
from notesparse.lazy import dataclass, pattern
from notesparse.options import Options
from notesparse.outcome import Outcome
from notesparse.record.store import NoteFile, from_bytes, load, write_whole
from notesparse.season.keep import Kept, keep
from notesparse.season.log import connect

MOST = 200_000  # bytes of one note
_WORDS = pattern(r"[^a-z0-9]+")
_NAME = pattern(r"[\w][\w .()+,'-]{0,120}")


class Changed(InputError):
    """Somebody else changed the note meanwhile; `text` is how it stands now."""

    def __init__(self, text: str) -> None:
        super().__init__("The note was changed by somebody else meanwhile. Both texts are below; nothing is lost.")
        self.text = text


@dataclass(frozen=True, slots=True)
class Listed:
    """A note of the folder, in one line."""

    name: str
    day: str | None
    fields: tuple[str, ...]
    stages: tuple[str, ...]
    open_questions: int
    unread: int


class Desk:
    """The notes folder and the season log of one page."""

    def __init__(self, season: str, notes: str, options: Options | None = None) -> None:
        self.season, self.notes, self.options = season, notes, options or Options()
        Path(notes).mkdir(parents=True, exist_ok=True)
        connect(season, create=True).close()
        self._sittings: dict[str, Sitting] = {}
        self._lock = threading.RLock()

    def log(self) -> sqlite3.Connection:
        """The season log, for one request."""
        return connect(self.season, create=True)

    def look(self, text: str, date: str | None) -> Outcome:
        """A note as it would be read, kept nowhere."""
        return read_answered(from_bytes(text.encode("utf-8"), "-", date), None, self.options, "")

    # notes ----------------------------------------------------------------------------------------------------------

    def path(self, name: str) -> str:
        """The file of a note. Raises `InputError` where the name is none of this folder."""
        if not _NAME.fullmatch(name) or not name.endswith(".txt") or not os.path.isfile(os.path.join(self.notes, name)):
            raise InputError(f"There is no note {name!r}.")
        return os.path.join(self.notes, name)

    def save(self, text: str, date: str | None) -> str:
        """Keeps a new note, and gives its name. The same text of the same day is the same note: sent twice, kept once."""
        data = _checked(text)
        with self._lock:
            name = f"{_head(text, self.look(text, date), date)}-{hashlib.sha256(data).hexdigest()[:6]}.txt"
            self._write(name, text)
            self.keep(name)
            return name

    def put(self, name: str, data: bytes) -> str:
        """Keeps an uploaded note under its own name; another note of that name is not replaced."""
        note = from_bytes(data, name)
        bare = re.sub(r"[^\w .()+,'-]+", "_", Path(name.replace("\\", "/")).stem).strip(" .")[:100] or "note"
        with self._lock:
            for more in ("", *(f"-{n}" for n in range(2, 100))):
                whole = f"{bare}{more}.txt"
                place = os.path.join(self.notes, whole)
                if not os.path.exists(place):
                    self._write(whole, note.text)
                elif load(place).text != note.text:
                    continue
                self.keep(whole)
                return whole
        raise InputError(f"{name}: there are too many notes of this name.")

    def edit(self, name: str, text: str, was: str) -> None:
        """Changes a note's text. `was` is the hash of the text that the change began from; raises `Changed`."""
        _checked(text)
        with self._lock:
            now = load(self.path(name))
            if now.sha256 != was and now.text != text:
                raise Changed(now.text)
            self._write(name, text)
            self._sittings.pop(name, None)
            self.keep(name)

    def _write(self, name: str, text: str) -> None:
        with write_whole(os.path.join(self.notes, name)) as file:
            file.write(text)

    def keep(self, name: str) -> Kept:
        """Puts a note, as it is read with its answers, into the season log."""
        log = self.log()
        try:
            return keep(log, read_answered(load(self.path(name)), None, self.options), __version__)
        finally:
            log.close()

    def names(self) -> list[str]:
        """The notes of the folder, the newest day first."""
        return sorted((f.name for f in os.scandir(self.notes) if f.name.endswith(".txt") and f.is_file()), reverse=True)

    def listed(self, query: str = "", most: int = 500) -> list[Listed]:
        """The notes whose text holds all words of `query`."""
        words = query.casefold().split()
        out: list[Listed] = []
        for name in self.names():
            if len(out) >= most:
                break
            note = load(os.path.join(self.notes, name))
            if all(word in f"{name} {note.text}".casefold() for word in words):
                out.append(self._line(name, note))
        return out

    def _line(self, name: str, note: NoteFile) -> Listed:
        outcome = read_answered(note, None, self.options)
        stages = [v.field_stage for v in outcome.visits]
        return Listed(
            name,
            next((v.date for v in outcome.visits if v.date), note.date),
            tuple(v.field or "no field named" for v in outcome.visits),
            tuple(" ".join(code for code in (s.v, s.r if s.r != "none" else None) if code) or "-" for s in stages),
            sum(q.answer is None for q in outcome.questions),
            len(outcome.unread),
        )

    # questions ------------------------------------------------------------------------------------------------------

    def sitting(self, name: str) -> Sitting:
        """The sitting over a note, as it stands in its files now."""
        with self._lock:
            note = load(self.path(name))
            held = self._sittings.get(name)
            if held is None or held.notes[0].sha256 != note.sha256:
                held = self._sittings[name] = Sitting([note], self.options)
            else:
                held.use(self.options)  # somebody may have answered elsewhere
            return held

    def turn(self, name: str) -> tuple[Sitting, Turn | None]:
        """The question to show now; None when none is left that was not skipped."""
        with self._lock:
            sitting = self.sitting(name)
            return sitting, sitting.next()

    def settle(
        self, name: str, key: str, do: str, choice: int | None = None, values: Mapping[str, Any] | None = None
    ) -> None:
        """One press of a button on a question card. What is answered already, elsewhere or by a second tap, stays."""
        with self._lock:
            sitting = self.sitting(name)
            if do == "undo":
                sitting.undo()
            elif do == "back":
                sitting.back()
            else:
                turn = next((t for t in sitting.turns() if key_of(t) == key), None)
                if turn is None:
                    return
                if do == "skip":
                    sitting.skip(turn)
                elif values is not None:
                    sitting.tell(turn, values)
                elif choice is not None and 0 <= choice < len(turn.question.choices):
                    sitting.choose(turn, choice)
            self.keep(name)


def key_of(turn: Turn) -> str:
    """A question as a form sends it back: rule, words, plant."""
    q = turn.question
    return f"{q.rule}:{q.span[0]}-{q.span[1]}:{q.plant or ''}"


def _checked(text: str) -> bytes:
    data = text.encode("utf-8", "replace")
    if not text.strip():
        raise InputError("There is nothing in the note yet.")
    if len(data) > MOST:
        raise InputError(f"A note of {len(data):,} bytes is too long; {MOST:,} are the most.")
    return data


def _head(text: str, outcome: Outcome, date: str | None) -> str:
    """`2026-07-14_creek-bottom`: the day and the field, else the first words."""
    day = date or next((v.date for v in outcome.visits if v.date), None)
    field = next((v.field for v in outcome.visits if v.field), None)
    words = _WORDS.sub("-", (field or " ".join(text.split()[:3])).casefold()).strip("-")[:40] or "note"
    return f"{day}_{words}" if day else words
