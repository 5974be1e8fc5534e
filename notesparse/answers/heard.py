"""What lies beside a note that was made from a recording: its source, its pieces of speech, and its doubts.

`walk.heard.json` beside `walk.txt`, as `listening/keeping.py` writes it: one JSON object, with the text as it was
recognised, so that the doubts of a note that was changed since are found again by the words around them.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from math import isfinite
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass, pattern
from notesparse.outcome import DOUBTED, Doubt, Outcome, Unapplied, Unread
from notesparse.record.store import load
from notesparse.span import Span

ENDING = ".heard.json"
FORM = 1
GONE = "the note has changed, and these words are gone: nothing of this doubt was asked"
OF_ANOTHER = "it is of {}, another note that lies here too: nothing of it was asked of this one"
NO_TEXT = "the note has changed, and the file beside it does not tell what was heard: nothing of this doubt was asked"

_MOST_WORDS = 4000
"""Beyond so many words that were changed, the rest is not compared word by word: it would take too long."""
_PIECE = pattern(r"\s+|\w+|[^\w\s]")


@dataclass(frozen=True, slots=True)
class Beside:
    """One such file: what it tells of the recording, and the text that was recognised with its SHA-256 as a note."""

    told: Mapping[str, Any]
    text: str
    note_sha256: str
    doubts: tuple[Doubt, ...]
    note: str | None = None  # the name of that note, where the file tells it

    def is_of(self, note: str, text: str, sha256: str) -> bool:
        """Whether it belongs to this note: `walk.txt` and `walk.md` have one place beside them. By name, hash or text;
        a note that was renamed, so that no other of the name lies there, keeps its doubts."""
        if self.note in (None, Path(note).name) or self.note_sha256 == sha256 or self.text == text:
            return True
        return not os.path.exists(Path(note).with_name(str(self.note)))


def place_beside(note: str) -> str:
    """The file that lies beside a note, there or not."""
    path = Path(note)
    stem = path.name[: -len(path.suffix)] if path.suffix else path.name
    return str(path.with_name(stem + ENDING))


def heard_beside(note: str) -> Beside | None:
    """What lies beside a note; None where there is no such file. Raises `InputError` where it is broken."""
    path = place_beside(note)
    return read_heard(path) if os.path.exists(path) else None


def read_heard(path: str) -> Beside:
    """The file at `path`. Raises `InputError` with the place of what is wrong: no doubt is left out in silence."""
    text = load(path, "list of doubts").text
    import json

    try:
        data = json.loads(text, parse_float=_number, parse_constant=_number)
    except (ValueError, RecursionError) as fault:
        raise InputError(f"{path}: is no JSON ({fault}); mend that place, or take the file away.") from None
    return beside_of(data, path)


def _number(digits: str) -> float:
    """Python reads NaN and 1e999 too, but a record that holds them is no JSON for other programs."""
    if not isfinite(value := float(digits)):
        raise ValueError(f"{digits} is no number there")
    return value


def beside_of(data: Any, path: str) -> Beside:
    """What such a file holds, checked; `path` is for the messages. What is not known here is kept as it is."""
    whole = _Part(path, "", data)
    if whole.has("form") and whole.of("form", int) != FORM:
        raise InputError(f"{path}: is of form {data['form']!r}, and this version knows form {FORM} only.")
    whole.of("source", str)
    whole.of("sha256", str)
    for key, kind in _MAY_STAND.items():
        if whole.has(key):
            whole.of(key, kind, may_miss=key == "model")
    if whole.has("seconds") and not 0 <= data["seconds"] < float("inf"):
        raise InputError(f"{path}: seconds should be the length of the recording, 0 or more.")
    for part in whole.parts("utterances"):
        _check_time(part)
        part.span("span", may_miss=True)
        part.of("refused", str, may_miss=True)
        for change in part.parts("repairs") if part.has("repairs") else ():
            _check_time(change)
            change.of("heard", str)
            change.of("taken", str)
    for part in whole.parts("refused") if whole.has("refused") else ():
        _check_time(part)
        part.span("span", may_miss=True)
        part.of("why", str)
    doubts = tuple(_doubt(part) for part in whole.parts("doubts"))
    told = {key: value for key, value in data.items() if key not in ("form", "note", "note_sha256", "text")}
    told["doubts"] = [{"span": list(d.span), "others": list(d.others), "where": d.where, "how": d.how} for d in doubts]
    told["utterances"] = [{"span": None, "refused": None, **one} for one in data["utterances"]]
    told.setdefault(
        "refused",
        [
            {"start": one["start"], "end": one["end"], "span": one["span"], "why": one["refused"]}
            for one in told["utterances"]
            if one["refused"] is not None
        ],
    )
    text = whole.of("text", str) if whole.has("text") else ""
    note = Path(whole.of("note", str)).name if whole.has("note") else None
    return Beside(told, text, whole.of("note_sha256", str), doubts, note or None)


@dataclass(frozen=True, slots=True)
class _Part:
    """One object of the file, and where it stands in it."""

    path: str
    where: str
    data: Any

    def __post_init__(self) -> None:
        if not isinstance(self.data, dict):
            raise InputError(f"{self.path}: {self.where or 'the whole'} should be an object, as {{...}}.")

    def has(self, key: str) -> bool:
        return key in self.data

    def of(self, key: str, kind: type, may_miss: bool = False) -> Any:
        value = self.data.get(key)
        if value is None and may_miss:
            return None
        fits = isinstance(value, (int, float) if kind is float else kind)
        if not fits or (isinstance(value, bool) and kind is not bool):
            raise InputError(f"{self.path}: {self._called(key)} is missing, or is no {_KINDS[kind]}.")
        return value

    def parts(self, key: str) -> Iterator[_Part]:
        for at, one in enumerate(self.of(key, list)):
            yield _Part(self.path, f"{self._called(key)}[{at}]", one)

    def span(self, key: str, may_miss: bool) -> Span | None:
        ends = self.of(key, list, may_miss)
        if ends is None:
            return None
        if len(ends) != 2 or any(type(end) is not int for end in ends) or not 0 <= ends[0] <= ends[1]:
            raise InputError(f"{self.path}: {self._called(key)} should be [start, end] in characters of the note.")
        return Span(*ends)

    def _called(self, key: str) -> str:
        return f"{self.where}.{key}" if self.where else key


_KINDS: dict[type, str] = {str: "text", int: "whole number", float: "number", list: "list", bool: "truth value"}
_MAY_STAND: dict[str, type] = {"seconds": float, "by": str, "weak": bool, "model": str, "text": str}
"""What a file may hold besides, as the page and the record rest on it."""


def _doubt(part: _Part) -> Doubt:
    span = part.span("span", may_miss=False)
    assert span is not None
    others = part.of("others", list)
    if not all(isinstance(other, str) for other in others):
        raise InputError(f"{part.path}: {part.where}.others should be a list of texts.")
    how = part.of("how", str) if part.has("how") else "heard"
    if how not in DOUBTED:
        raise InputError(f"{part.path}: {part.where}.how should be one of {', '.join(sorted(DOUBTED))}.")
    return Doubt(span, tuple(others), part.of("where", str), how)


def _check_time(part: _Part) -> None:
    start, end = part.of("start", float), part.of("end", float)
    if not 0 <= start <= end < float("inf"):
        raise InputError(f"{part.path}: {part.where} should begin before it ends, in seconds from the start.")


@dataclass(frozen=True, slots=True)
class Fitted:
    """What of such a file fits a note, and the doubts that fit it no more."""

    told: Mapping[str, Any]
    doubts: tuple[Doubt, ...]
    lost: tuple[Unapplied, ...] = ()


def fit_heard(beside: Beside, text: str, sha256: str) -> Fitted:
    """Doubts and pieces of speech at their places in the note, which may have been changed since."""
    if beside.note_sha256 == sha256 or beside.text == text:
        inside = _moved(beside.told, lambda span: span if span.end <= len(text) else None)
        return Fitted({**inside, "changed": False}, beside.doubts)
    found = _finder(beside.text, text)
    doubts: list[Doubt] = []
    lost: list[Unapplied] = []
    for doubt in beside.doubts:
        span = found(doubt.span)
        if span is not None:
            doubts.append(replace(doubt, span=span))
        else:
            was = " ".join(doubt.span.of(beside.text).split())
            why = f"{GONE} (“{was}”)" if was else NO_TEXT if not beside.text else GONE
            lost.append(Unapplied(replace(doubt, span=Span(0, 0)), why))

    return Fitted({**_moved(beside.told, found), "changed": True}, tuple(doubts), tuple(lost))


def _moved(told: Mapping[str, Any], there: Callable[[Span], Span | None]) -> dict[str, Any]:
    """What was told, with its spans as they stand in the note; null where they stand there no more."""

    def moved(part: Mapping[str, Any]) -> dict[str, Any]:
        span = there(Span(*part["span"])) if part.get("span") is not None else None
        return {**part, "span": list(span) if span is not None else None}

    return {**told, **{key: [moved(one) for one in told[key]] for key in ("doubts", "utterances", "refused")}}


def _finder(old: str, new: str) -> Callable[[Span], Span | None]:
    """Where a stretch of the old text stands in the new one, if it stands there unchanged; by the words around it."""
    same: list[tuple[int, int, int]] = []  # (start in the old text, start in the new one, length)
    a, b = [m.group() for m in _PIECE.finditer(old)], [m.group() for m in _PIECE.finditer(new)]
    first = 0
    while first < min(len(a), len(b)) and a[first] == b[first]:
        first += 1
    last = 0
    while last < min(len(a), len(b)) - first and a[-1 - last] == b[-1 - last]:
        last += 1
    starts_a, starts_b = _starts(a), _starts(b)
    blocks = [(0, 0, first)]
    if max(len(a), len(b)) - first - last <= _MOST_WORDS:
        middle = SequenceMatcher(None, a[first : len(a) - last], b[first : len(b) - last], autojunk=False)
        blocks += [(first + m.a, first + m.b, m.size) for m in middle.get_matching_blocks() if m.size]
    blocks.append((len(a) - last, len(b) - last, last))
    for at_a, at_b, size in blocks:
        same.append((starts_a[at_a], starts_b[at_b], starts_a[at_a + size] - starts_a[at_a]))

    def found(span: Span) -> Span | None:
        for at_a, at_b, length in same:
            beside = old[at_a : span.start] + old[span.end : at_a + length]  # a word by itself may be another one
            if at_a <= span.start < span.end <= at_a + length and re.search(r"\w", beside):
                return Span(span.start - at_a + at_b, span.end - at_a + at_b)
        return None

    return found


def _starts(pieces: Sequence[str]) -> list[int]:
    out = [0]
    for piece in pieces:
        out.append(out[-1] + len(piece))
    return out


def of_another(note: str, name: str) -> Unapplied:
    """That the file beside a note is of the note `name`, and so was left aside."""
    return Unapplied(Doubt(Span(0, 0), (), Path(place_beside(note)).name), OF_ANOTHER.format(name))


def with_heard(outcome: Outcome, fitted: Fitted) -> Outcome:
    """The outcome with how it was heard; words that stand for a refused piece of speech say why it was refused."""
    refused = [(Span(*one["span"]), one["why"]) for one in fitted.told["refused"] if one.get("span") is not None]
    return replace(
        outcome,
        heard=fitted.told,
        unapplied=(*fitted.lost, *outcome.unapplied),
        unread=tuple(
            Unread(u.span, u.quote, next((f"not heard: {why}" for s, why in refused if u.span.overlaps(s)), u.why))
            for u in outcome.unread
        ),
    )
