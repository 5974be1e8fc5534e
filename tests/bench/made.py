"""Notes of three sizes, growing notes, and a bare Lark parse of the same phrases to measure against."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from lark import Lark, Token

from notesparse.flow import _segments
from notesparse.language.cache import known_words
from notesparse.language.grammar import ReadyTokens
from notesparse.observing.paper.tables import find_tables
from notesparse.text.lattice import Lattice
from notesparse.text.scan import scan
from notesparse.text.struck import struck_out

GOLDEN = Path(__file__).parents[1] / "golden"
NOTE_DATE = "2026-07-14"
SIZES = {15: (8, 25), 60: (48, 76)}


@lru_cache(maxsize=1)
def _prose() -> list[str]:
    """Agreed notes that are told, not tabulated."""
    names = [
        f
        for f in sorted(GOLDEN.glob("*.gold.json"))
        if json.loads(f.read_text("utf-8"))["style"] in {"dictated", "texted", "findings", "late-season"}
    ]
    return [f.with_name(f.name.replace(".gold.json", ".txt")).read_text("utf-8") for f in names]


@cache
def notes(words: int) -> tuple[str, ...]:
    """Some notes of about so many words; those of 400 are several notes of a day on one page."""
    if words in SIZES:
        low, high = SIZES[words]
        found = [t for t in _prose() if low <= len(t.split()) <= high]
        assert len(found) >= 8, (words, len(found))
        return tuple(found)
    pages, page = [], ""
    for text in _prose() * 4:
        page += text.strip() + "\n\n"
        if len(page.split()) >= words:
            pages.append(page)
            page = ""
    return tuple(pages[:12])


def chosen_kinds(text: str) -> list[list[str]]:
    """The token kinds of each phrase that the program chose in a note."""
    pieces = scan(text)
    lattice = Lattice(text, pieces, known_words())
    segments = _segments(lattice, find_tables(lattice), struck_out(pieces), {}, None)[0]
    return [[edge.kind for _, edge in s.phrase.path] for s in segments if s.phrase is not None and s.phrase.path]


END = "END_OF_PHRASE"


def bare_parser(texts: tuple[str, ...]) -> tuple[Lark, list[list[Token]]]:
    """A Lark LALR parser of just the phrases seen in these notes, and the ready-made tokens of each note."""
    seen = [chosen_kinds(t) for t in texts]
    forms = sorted({tuple(phrase) for note in seen for phrase in note})
    rules = "\n    | ".join(f"{' '.join(form)} {END} -> form_{i}" for i, form in enumerate(forms))
    kinds = sorted({k for form in forms for k in form})
    parser = Lark(
        f"start: phrase+\nphrase: {rules}\n%declare {END} {' '.join(kinds)}\n", parser="lalr", lexer=ReadyTokens
    )
    tokens = [[Token(k, k) for phrase in note for k in (*phrase, END)] for note in seen]
    return parser, [t for t in tokens if t]


def walk(size: int) -> str:
    """A walk of one field, plant after plant, on lines."""
    out, total, k = [], 0, 1
    while total < size:
        line = f"plant {k} {5 + k % 7} trifs, flowers top two nodes, looks good\n"
        out.append(line)
        total += len(line)
        k += 1
    return "".join(out)[:size]


def breath(size: int) -> str:
    """The same in one line."""
    return walk(size).replace("\n", ",")


def chat(size: int) -> str:
    return ("the dog ran off over there again and the phone rang, " * (size // 50 + 1))[:size]


def pages(size: int) -> str:
    """Whole notes of many days under each other."""
    text = "\n\n".join(_prose()) + "\n\n"
    return (text * (size // len(text) + 1))[:size]


def labels_again(size: int) -> str:
    """One label said over and over: a question for each pair that differs."""
    line = "plant 1 eleven trifs flowers top two nodes, the dog ran off "
    return (line * (size // len(line) + 1))[:size]


GROWING: dict[str, Callable[[int], str]] = {
    "walk": walk,
    "breath": breath,
    "chat": chat,
    "pages": pages,
    "labels again": labels_again,
}


def record(text: str) -> Any:
    from notesparse import read

    return read(text, date=NOTE_DATE)
