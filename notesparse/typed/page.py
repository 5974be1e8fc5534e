"""A picture of a typed page to the note that stands on it, with the words that are doubtful: the flow of this room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import PurePath
from typing import TYPE_CHECKING, Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.outcome import Doubt
from notesparse.span import Span
from notesparse.typed.agree import agree
from notesparse.typed.blots import under_blots
from notesparse.typed.deskew import askew, turned
from notesparse.typed.doubtful import doubts_of
from notesparse.typed.flatten import flatten, letter_height, to_size
from notesparse.typed.layout import lay_out, rows_of
from notesparse.typed.legible import stepping, why_refused
from notesparse.typed.picture import pages_of
from notesparse.typed.recognise import Word, recognise, recogniser
from notesparse.typed.strips import close_up

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

AGAIN = 30.0
"""Pixels of height of a small letter for the second reading: another size, so that it errs elsewhere."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A note that stood on typed pages. `about` is what the record says of how it was read."""

    text: str
    doubts: tuple[Doubt, ...]
    about: Mapping[str, Any]


def read_typed(data: bytes, name: str) -> Typed:
    """The note in a picture's bytes. Raises `InputError`, with the reason, where it cannot be read safely."""
    engine = recogniser()
    pages = pages_of(data, name)
    text, doubts, angles = "", [], []
    for number, page in enumerate(pages, 1):
        here = f"page {number} of {PurePath(name).name}" if len(pages) > 1 else PurePath(name).name
        try:
            more, doubtful, angle = _page(page, here)
        except InputError as fault:
            raise InputError(f"{name}{f', page {number}' if len(pages) > 1 else ''}: {fault}") from None
        if text:
            text += "\n"
        doubts += [replace(d, span=Span(d.span.start + len(text), d.span.end + len(text))) for d in doubtful]
        text += more
        angles.append(angle)
    angle = max(angles, key=abs)
    return Typed(
        text,
        tuple(doubts),
        {
            "engine": engine,
            "pages": len(pages),
            "angle": angle,
            "text": text,
            "doubts": [{"span": list(d.span), "others": list(d.others)} for d in doubts],
        },
    )


def _page(grey: Grey, here: str) -> tuple[str, list[Doubt], float]:
    flat = flatten(grey)
    angle = askew(flat)
    flat = turned(flat, angle)
    letter = letter_height(flat)
    page, large = to_size(flat, letter), to_size(flat, letter, AGAIN)
    now = letter_height(large)
    step = stepping(large, now) if now is not None else None
    first = recognise(page) if letter is not None else []
    _refuse(why_refused(letter, step, first))
    rows = [[_scaled(w, large.shape[0] / page.shape[0]) for w in row] for row in rows_of(first)]
    closed = close_up(large, rows)
    second = recognise(closed.page)
    _refuse(why_refused(letter, step, first, second))
    seen = under_blots(large, now or AGAIN, agree(rows, closed, second))
    laid = lay_out([[s.word for s in row] for row in seen if row])
    words = list(zip(laid.spans, [s for row in seen for s in row], strict=True))
    return laid.text, list(doubts_of(words, laid.lines, here)), angle


def _refuse(why: str | None) -> None:
    if why is not None:
        raise InputError(f"this page is not read: {why}.")


def _scaled(word: Word, times: float) -> Word:
    return replace(
        word,
        left=round(word.left * times),
        top=round(word.top * times),
        right=round(word.right * times),
        bottom=round(word.bottom * times),
    )
