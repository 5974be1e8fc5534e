"""Pieces to a lattice of typed edges: every sense of every word, multi-word form, number shape and repair.

An edge says: from this piece up to that one, the note may mean this kind of thing. Costs compare repairs; an exact
reading is free.
"""

from __future__ import annotations

from notesparse.language.vocabulary import Vocabulary
from notesparse.text import match
from notesparse.text.bean_labels import bean_labels
from notesparse.text.counted_beans import counted_beans
from notesparse.text.damaged import damaged
from notesparse.text.figures import decimal, figures, roman
from notesparse.text.lettered import lettered
from notesparse.text.marks import mark
from notesparse.text.net import Edge, Net
from notesparse.text.pictures import pictures
from notesparse.text.scan import Piece
from notesparse.text.spellings import in_place, spellings
from notesparse.text.spoken import spoken
from notesparse.text.words import word
from notesparse.text.written_on import written_on

__all__ = ["Edge", "Lattice"]


class Lattice(Net):
    """All edges of one note, found piece by piece."""

    def __init__(self, text: str, pieces: list[Piece], words: Vocabulary) -> None:
        super().__init__(text, pieces)
        for i, p in enumerate(pieces):
            if p.form == "word" and not (p.text in words.trie or p.text in words.never or p.text in words.singles):
                said = match.number_slip(p.text)
                if said is not None:
                    self.slips[i] = self.put_right[i] = said
        for i, p in enumerate(pieces):
            if p.form == "dmy":
                self.add(i, i + 1, "DMY", p.text)
                self.known[i] = True
            elif p.form != "nl":
                _piece(self, i, words)
        _mark_slips(self)
        _inside_a_word(self)
        pictures(self)
        lettered(self)
        bean_labels(self)
        counted_beans(self)
        written_on(self)


def _piece(net: Net, i: int, words: Vocabulary) -> None:
    """All edges that begin at one piece."""
    p = net.pieces[i]
    spellings(net, i, words)
    in_place(net, i)
    if p.form == "mark":
        mark(net, i)
    elif p.form == "word":
        roman(net, i)
        word(net, i, words)
        spoken(net, i)
    elif p.form == "int":
        figures(net, i)
    elif p.form in {"dec", "big"}:
        decimal(net, i)
    if p.form in {"int", "word"} or p.text in "|!":
        damaged(net, i, words)
    net.known[i] = net.known[i] or bool(net.edges[i]) or net.filler[i]


_STEM = 3  # letters: `p3trif` and `pl3` are a plant and its number


def _inside_a_word(net: Net) -> None:
    """`tri1foliates`: a figure between letters that stand together and mean nothing behind it is no number."""
    for i in range(1, len(net.pieces) - 1):
        before, p, behind = net.pieces[i - 1 : i + 2]
        stuck = p.form == "int" and p.glued and behind.glued and before.form == behind.form == "word"
        if stuck and len(before.text) >= _STEM and len(behind.text) >= _STEM and not net.edges[i + 1]:
            net.edges[i] = [e for e in net.edges[i] if e.kind not in {"INT", "ORD"}]


def _mark_slips(net: Net) -> None:
    """A number of misspelled words is a repair, and shown as one."""
    for i in net.slips:
        for at in range(max(0, i - 4), i + 1):
            net.edges[at] = [
                e._replace(cost=e.cost + 0.3, how="near 0.80")
                if e.end > i and e.kind in {"INT", "ORD", "FRAC", "DEC", "YEAR"} and e.how == "number"
                else e
                for e in net.edges[at]
            ]
            net.known[at] = net.known[at] or any(e.end > i for e in net.edges[at])
