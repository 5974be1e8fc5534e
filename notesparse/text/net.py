"""The edges of a note while they are being found: what the passes of `lattice.py` share."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from functools import wraps
from typing import Any, NamedTuple, TypeVar, TypeVarTuple

from notesparse.text.scan import Piece

SOUND, NEAR, FIGURE = 0.6, 0.7, 0.4  # costs of a mis-hearing, a near spelling, a damaged figure


class Edge(NamedTuple):
    """`kind` of the pieces up to `end` (exclusive). `how` is exact, sound, near, figure, split or number."""

    end: int
    kind: str
    means: Any
    cost: float
    how: str


class Words(dict[int, str]):
    """The word or mark at each piece; empty before the note and past its end."""

    def __missing__(self, at: int) -> str:
        return ""


class Net:
    """All edges of one note. `edges[i]` lists those that begin at piece i; `soft[i]` is the cost of passing piece i by
    inside a phrase (None: a phrase may not pass it); `known[i]` tells whether any sense was found."""

    def __init__(self, text: str, pieces: list[Piece]) -> None:
        n = len(pieces)
        self.text = text
        self.pieces = pieces
        self.said = frozenset(p.text for p in pieces)  # what need not be looked for is not in it
        self.starts = [p.span.start for p in pieces]
        self.edges: list[list[Edge]] = [[] for _ in range(n)]
        self.soft: list[float | None] = [None] * n
        self.filler = [False] * n
        self.known = [False] * n
        self.slips: dict[int, str] = {}  # pieces that are misspelled number words
        # Asked for at every turn of the reading, and so the look-up itself, with no function of ours around it: the word
        # or mark at a piece, and the same with a misspelled number word put right.
        self.put_right = Words(enumerate(p.text for p in pieces))
        self.word: Callable[[int], str] = Words(self.put_right).__getitem__
        self.at: Callable[[int], str] = self.put_right.__getitem__
        self.coded: dict[int, int] = {}  # pieces where a label of letters and a figure begins, with where it ends
        self.found: dict[Any, Any] = {}  # what was found and would be found again: phrases at a piece, heads, amounts
        self._kinds: dict[int, frozenset[str]] = {}

    def first_from(self, character: int) -> int:
        """The first piece that begins at or behind a character of the note."""
        return bisect_left(self.starts, character)

    def kinds(self, i: int) -> frozenset[str]:
        """The kinds of all that may begin at piece i; none before the note and past its end."""
        of = self._kinds.get(i)
        if of is None:
            of = frozenset(e.kind for e in self.edges[i]) if 0 <= i < len(self.edges) else frozenset()
            self._kinds[i] = of
        return of

    def changed(self) -> None:
        """To be said where edges were changed: what was found before is looked for again."""
        self.found.clear()
        self._kinds.clear()

    def original(self, i: int, j: int) -> str:
        """The user's own characters of pieces i to j."""
        return self.text[self.pieces[i].span.start : self.pieces[j - 1].span.end]

    def written(self, i: int, j: int) -> str:
        """The same on one line, with one blank between words."""
        return " ".join(self.original(i, j).split())

    def opens(self, i: int) -> bool:
        """A line or a sentence begins at piece i: what stands before is its end, and not the stop of a short form."""
        before = self.pieces[i - 1] if i else None
        return before is None or before.form == "nl" or (before.text in {".", ";"} and self.soft[i - 1] is None)

    def glued(self, j: int) -> bool:
        return 0 <= j < len(self.pieces) and self.pieces[j].glued

    def add(self, i: int, end: int, kind: str, means: Any, cost: float = 0.0, how: str = "number") -> None:
        self.edges[i].append(Edge(end, kind, means, cost, how))

    def piece(self, j: int) -> Piece | None:
        """Piece j, if the note has one."""
        return self.pieces[j] if 0 <= j < len(self.pieces) else None

    def run_end(self, i: int, *, marks: str = "", longest: int | None = None) -> int:
        """The end of the words, figures and `marks` that stand together with no blank from piece i on."""
        j = i + 1
        while (
            j < len(self.pieces)
            and self.pieces[j].glued
            and (longest is None or j < i + longest)
            and (self.pieces[j].form in {"int", "word"} or self.pieces[j].text in tuple(marks))
        ):
            j += 1
        return j


Lattice = TypeVar("Lattice", bound=Net)
At = TypeVarTuple("At")
Answer = TypeVar("Answer")


def once(ask: Callable[[Lattice, *At], Answer]) -> Callable[[Lattice, *At], Answer]:
    """For what many rooms ask of the same piece: it is found out once, and again only where edges were changed. The answer
    is shared: leave it as it is."""

    @wraps(ask)
    def asked(lattice: Lattice, *at: *At) -> Answer:
        key = (ask, *at)
        try:
            answer: Answer = lattice.found[key]
        except KeyError:
            answer = lattice.found[key] = ask(lattice, *at)
        return answer

    return asked
