"""Pieces to a lattice of typed edges: every sense of every word, multi-word form, number shape and repair.

An edge says: from this piece up to that one, the note may mean this kind of thing. Costs compare repairs; an exact
reading is free.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any, NamedTuple

from notesparse.language.vocabulary import Trie, Vocabulary
from notesparse.text import match, numbers
from notesparse.text.scan import Piece


class Edge(NamedTuple):
    """`kind` of the pieces up to `end` (exclusive). `how` is exact, sound, near, figure, split or number."""

    end: int
    kind: str
    means: Any
    cost: float
    how: str


_LONE_FIGURES = {"S": 5, "B": 8, "Z": 2, "l": 1, "I": 1, "|": 1, "G": 6}
_FIGURE_LETTERS = str.maketrans("lI|OoSBZ", "11100582")
_DATE = re.compile(r"\d{1,2}([-/])\d{1,2}\1(?:\d{2}|\d{4})")
SOUND, NEAR, FIGURE = 0.6, 0.7, 0.4
_NOT_UNIT = frozenset(
    "the a an it them there this that all every each my both pod pods top upper field front back at full".split()
)
_PARTS = frozenset("quarter quarters half eighth eighths sixteenth sixteenths sixteens eights ths".split())
_SLIPPED = frozenset("md bd mf nf ns ed rf ef rs td tj yh rh ht tg thh ndd rdd nt sr ts".split())  # 2md, 3ed, 4yh
_AFTER_ORDINAL = frozenset("node nodes nd nds nod down dn from frm plant plt one node's".split())
_PICTURED = frozenset("🌸🌼🌺🌷💐🌹🏵💮🪻🌻")
_LETTERS = frozenset("abcdefghjklm")
_ROWISH = frozenset({Fraction(15, 2), 10, 15, 20, 22, 30, 36, 38, 40, 7, 19})


class Lattice:
    """All edges of one note. `edges[i]` lists those that begin at piece i; `soft[i]` is the cost of passing piece i by inside
    a phrase (None: a phrase may not pass it); `known[i]` tells whether any sense was found."""

    def __init__(self, text: str, pieces: list[Piece], words: Vocabulary) -> None:
        self.text = text
        self.pieces = pieces
        n = len(pieces)
        self.edges: list[list[Edge]] = [[] for _ in range(n)]
        self.soft: list[float | None] = [None] * n
        self.filler = [False] * n
        self.known = [False] * n
        self.slips: dict[int, str] = {}  # pieces that are misspelled number words
        for i, p in enumerate(pieces):
            if p.form == "word" and not (p.text in words.trie or p.text in words.never or p.text in words.singles):
                said = match.number_slip(p.text)
                if said is not None:
                    self.slips[i] = said
        for i in range(n):
            self._piece(i, words)
        self._mark_slips()
        self._blossoms()

    def _blossoms(self) -> None:
        """A picture of a flower is the word where a place, a count or a `no` stands beside it; elsewhere it only adorns."""
        for i, p in enumerate(self.pieces):
            if p.text not in _PICTURED:
                continue
            if self._at(i - 1) in _PICTURED and i:
                continue
            line = range(
                next(
                    (k + 1 for k in range(i, -1, -1) if self.pieces[k].form == "nl" or self.pieces[k].text in ",;"), 0
                ),
                i,
            )
            if any(e.kind == "FLOWER" and self.pieces[k].text not in _PICTURED for k in line for e in self.edges[k]):
                continue
            k = i + 1
            while self._at(k) in _PICTURED:
                k += 1
            behind = {e.kind for e in self.edges[k]} if k < len(self.pieces) else set()
            if "FLOWER" in behind:
                continue
            before = {e.kind for e in self.edges[i - 1]} if i and self.pieces[i - 1].form != "nl" else set()
            if before & {"NO", "NONE", "NOT", "TRIF", "TRIPS", "NODES", "NODE", "ALMOST", "BARE"} or (
                behind & {"TOP", "UPTOP", "LOW", "ORD", "ALLTHEWAY", "TIP", "NONE"}
                and any(
                    e.kind in {"PLANT", "PLETTER", "TRIF", "NODES", "LETTER", "INT"}
                    for j in line
                    for e in self.edges[j]
                )
            ):
                self.edges[i] = [Edge(i + 1, "FLOWER", "flower", 0.0, "exact")]
                self.known[i], self.soft[i] = True, None

    def original(self, i: int, j: int) -> str:
        """The user's own characters of pieces i to j."""
        return self.text[self.pieces[i].span.start : self.pieces[j - 1].span.end]

    # one piece -------------------------------------------------------------------------------------------------

    def _piece(self, i: int, words: Vocabulary) -> None:
        pieces, out = self.pieces, self.edges[i]
        p = pieces[i]
        if p.form == "nl":
            return
        if p.form == "dmy":
            out.append(Edge(i + 1, "DMY", p.text, 0.0, "number"))
            self.known[i] = True
            return
        node: Trie | None = words.trie
        j = i
        damaged = False
        while node is not None and j < len(pieces):
            q = pieces[j]
            if q.form == "nl":
                break
            if q.text == "-" and j > i and q.text not in node:
                j += 1  # tri-foliates
                continue
            step, end = node.get(q.text), j + 1
            if step is None:
                step, end = self._damaged_step(node, j, words)
                damaged = damaged or step is not None
            node = step
            if node is None:
                break
            j = end
            for kind, means, _, sound, cost in node.get("", ()):
                if damaged:
                    if kind != "FILLER":
                        out.append(Edge(j, kind, means, FIGURE, "figure"))
                elif kind == "FILLER":
                    if j == i + 1:
                        self.filler[i] = True
                        self.soft[i] = 0.05
                    else:
                        out.append(Edge(j, "FILLER", "", 0.0, "exact"))
                else:
                    out.append(
                        Edge(
                            j,
                            kind,
                            means,
                            (SOUND if cost is None else cost) if sound else 0.0,
                            "sound" if sound else "exact",
                        )
                    )
        if (
            p.text == "in"
            and not p.glued
            and self._at(i + 1) in _NOT_UNIT
            and not (
                i
                and (
                    pieces[i - 1].form == "dec" or pieces[i - 1].text in _PARTS or (i > 1 and pieces[i - 2].text == "/")
                )
            )
        ):
            out[:] = [e for e in out if e.kind != "INCH"]  # 5 in the top four: no inches
        if (
            p.text == "or"
            and i
            and pieces[i - 1].form == "int"
            and (i < 2 or pieces[i - 2].text not in {"v", "b", "be", "vee", "r"})
        ):
            out[:] = [e for e in out if e.kind != "RSOUND"]  # 3 or 4
        if p.text in {"of", "but", "except"}:
            self.soft[i] = None
        if self.filler[i] and any(e.kind == "INTSOUND" for e in out):
            self.soft[i] = 0.7  # for, to: a number may hide here
        if (
            p.text in {"sw", "sws"}
            and i
            and pieces[i - 1].form == "int"
            and (p.glued or (i > 1 and pieces[i - 2].text == "/"))
        ):
            out.append(Edge(i + 1, "SWEEP", "sweep", 0.0, "exact"))  # 3/25sw
        if p.form == "mark":
            self._mark(i)
        elif p.form == "word":
            self._word(i, words)
        self._number(i)
        if p.form in {"int", "word"} or p.text in "|!":
            self._damaged(i, words)
        self.known[i] = self.known[i] or bool(out) or self.filler[i]

    def _damaged_step(self, node: Trie, j: int, words: Vocabulary) -> tuple[Trie | None, int]:
        """A damaged word inside a form of several words: bean 1eaf beetle, node frorn top."""
        pieces = self.pieces
        if pieces[j].glued or pieces[j].form not in {"int", "word"}:
            return None, j
        k = j + 1
        while k < len(pieces) and pieces[k].glued and pieces[k].form in {"int", "word"}:
            k += 1
        run = self.original(j, k)
        if len(run) < 3 or run.isdigit() or run.lower() in words.singles:
            return None, j
        for word in match.damaged_words(run):
            step = node.get(word)
            if step is not None:
                return step, k
        return None, j

    def _mark(self, i: int) -> None:
        p = self.pieces[i]
        self.known[i] = True
        if (
            p.text == "@"
            and self._organ_before(i)
            and i + 1 < len(self.pieces)
            and self.pieces[i + 1].form == "int"
            and len(self.pieces[i + 1].text) <= 2
        ):
            self.edges[i].append(Edge(i + 1, "ATMARK", "at", 0.0, "exact"))  # fl @ 2
        if p.text in ",;":
            self.soft[i] = 0.5
        elif p.text in ":()=~>_|" or not p.text.isascii():
            self.soft[i] = 0.15
        elif p.text == "-":
            self.soft[i] = 0.2
            after = self.pieces[i + 1] if i + 1 < len(self.pieces) else None
            if (
                i
                and p.gap == 1
                and (after is None or after.form == "nl" or after.gap >= 2 or (after.text in ",;" and after.glued))
                and any(
                    e.kind in {"FLOWER", "POD", "SEED"} and e.end == i and e.how == "exact" for e in self.edges[i - 1]
                )
            ):
                self.edges[i].append(Edge(i + 1, "NONE", "none", 0.0, "exact"))  # fl -   pp -
        elif p.text == "." and (
            (self._at(i + 1) == "." and self._glued(i + 1)) or (p.glued and self._at(i - 1) == ".")
        ):
            self.soft[i] = 0.1  # dots that lead the eye over a gap
        elif p.text == ".":
            before = self.pieces[i - 1] if i else None
            if before is not None and p.glued and before.form == "word" and match.is_abbreviation(before.text):
                self.soft[i] = 0.05
        elif p.text in "'\"":
            self.soft[i] = 0.3
            before = self.pieces[i - 1] if i else None
            after = self.pieces[i + 1] if i + 1 < len(self.pieces) else None
            alone = after is None or after.form == "nl" or after.gap >= 2
            figure = (
                before is not None
                and not p.glued
                and p.gap == 1
                and (before.form == "dec" or (before.form == "int" and self._at(i - 2) == "/"))
            )
            if p.text == '"' and figure:
                self.edges[i] = [Edge(i + 1, "INCH", "inch", 0.1, "exact")]  # 3/16 "
            elif p.text == '"' and alone and (before is None or before.form == "nl" or not p.glued):
                self.edges[i] = [Edge(i + 1, "DITTOMARK", "same", 0.0, "exact")]

    def _organ_before(self, i: int) -> bool:
        """A flower, pod, seed or size on the same line, not far before piece i, or a cell that begins here."""
        for k in range(i - 1, max(-1, i - 9), -1):
            if self.pieces[k].form == "nl":
                break
            if any(e.kind in {"FLOWER", "POD", "SEED", "FRAC", "DEC", "INCH", "MM", "CM"} for e in self.edges[k]):
                return True
        return False

    def _word(self, i: int, words: Vocabulary) -> None:
        p = self.pieces[i]
        w = p.text
        out = self.edges[i]
        if (
            w == "t"
            and self._glued(i + 1)
            and self._at(i + 1) in {"1", "2", "3", "4"}
            and not self._glued(i + 2)
            and i
            and any(
                e.kind in {"FLOWER", "POD", "SEED"}
                for k in range(max(0, i - 2), i)
                for e in self.edges[k]
                if e.end in {i, i - 1}
            )
        ):
            out[:] = [Edge(i + 1, "TOP", "top", 0.1, "split")]  # fl t2: on the top two
            return
        if len(w) == 1 and w in _LETTERS:
            out.append(
                Edge(i + 1, "LETTER", w, 0.6 if w == "l" and self._after_plant(i) else 0.1, "exact")
            )  # plant l is plant 1
        if w in words.singles or numbers.is_number_word(w) or numbers.ordinal(w) is not None:
            return
        if any(e.how != "sound" for e in out):
            return
        if not p.glued and match.is_plant(w) and self._before_label(i):
            out.append(Edge(i + 1, "PLANT", "plant", 0.2, "near 0.80"))
            return
        if not p.glued and not (
            i + 1 < len(self.pieces) and self.pieces[i + 1].glued and self.pieces[i + 1].form == "int"
        ):
            for sense in words.glued.get(w, ()):
                out.append(Edge(i + 1, sense[0], sense[1], 0.1, "split"))
            if any(e.how == "split" for e in out):
                return
            for sense, nearness in match.near(w, words):
                if sense[0] == "FILLER":
                    continue
                out.append(Edge(i + 1, sense[0], sense[1], NEAR + 0.5 * (1 - nearness), f"near {nearness:.2f}"))

    def _before_label(self, i: int) -> bool:
        """A number, a letter or an ordinal beside the word: plnat 1, first palnt."""
        if i + 1 < len(self.pieces) and (
            self.pieces[i + 1].form == "int"
            or self.pieces[i + 1].text == "#"
            or numbers.is_number_word(self.pieces[i + 1].text)
        ):
            return True
        return bool(i) and (
            numbers.ordinal(self.pieces[i - 1].text) is not None
            or self.pieces[i - 1].text in {"st", "nd", "rd", "th", "next", "per", "a", "each", "/"}
        )

    # numbers ---------------------------------------------------------------------------------------------------

    def _number(self, i: int) -> None:
        p = self.pieces[i]
        if p.form == "int":
            self._digits(i)
        elif p.form in {"dec", "big"}:
            self._decimal(i)
        elif p.form == "word":
            self._spoken(i)

    def _at(self, j: int) -> str:
        return self.slips.get(j) or self.pieces[j].text if j < len(self.pieces) else ""

    def _mark_slips(self) -> None:
        """A number of misspelled words is a repair, and shown as one."""
        for i in self.slips:
            for at in range(max(0, i - 4), i + 1):
                self.edges[at] = [
                    e._replace(cost=e.cost + 0.3, how="near 0.80")
                    if e.end > i and e.kind in {"INT", "ORD", "FRAC", "DEC", "YEAR"} and e.how == "number"
                    else e
                    for e in self.edges[at]
                ]
                self.known[at] = self.known[at] or any(e.end > i for e in self.edges[at])

    def _glued(self, j: int) -> bool:
        return j < len(self.pieces) and self.pieces[j].glued

    def _fraction_end(self, i: int) -> tuple[int, Fraction, float, str] | None:
        """`3/16`, `3-16s`, `3 16ths`, `3/ 16` at piece i: (end, value, cost, how)."""
        p = self.pieces[i]
        if p.form != "int" or len(p.text) > 2 or p.text == "0":
            return None
        top = int(p.text)
        sep = self._at(i + 1)
        if sep in {"/", "\\"} and i + 2 < len(self.pieces) and self.pieces[i + 2].form == "int":
            low = self._at(i + 2)
            if low in {"2", "3", "4", "8", "16", "32", "64"} and top < int(low):
                end = i + 3
                if self._at(end) in {"ths", "th", "s", "nds", "rds", "rd"} and self._glued(end):
                    end += 1
                return end, Fraction(top, int(low)), 0.0, "exact"
        if sep == "-" and self._at(i + 2) in {"4", "8", "16"} and top < int(self._at(i + 2)) and top % 2:
            end = i + 3
            if self._at(end) in {"s", "ths", "th", "'s"} and self._glued(end):
                return end + 1, Fraction(top, int(self._at(i + 2))), 0.3, "sound"
            if self._at(i + 2) == "16":
                return end, Fraction(top, 16), 0.9, "sound"
        if sep in {"4", "8", "16"} and self.pieces[i + 1].form == "int" and top < int(sep) and not self._glued(i + 1):
            if self._at(i + 2) in {"ths", "th"} and self._glued(i + 2):
                return i + 3, Fraction(top, int(sep)), 0.3, "sound"
        return None

    def _digits(self, i: int) -> None:
        p, out = self.pieces[i], self.edges[i]
        nxt = self._at(i + 1)
        value = int(p.text) if len(p.text) < 10 else None
        if value is None:
            return
        if nxt in _SLIPPED and self._glued(i + 1) and len(p.text) <= 2 and self._at(i + 2) in _AFTER_ORDINAL:
            out.append(Edge(i + 2, "ORD", value, 0.3, "near 0.50"))  # 2md node down
        if nxt in {"st", "nd", "rd", "th"} and self._glued(i + 1) and len(p.text) <= 2:
            out.append(Edge(i + 2, "ORD", value, 0.0, "number"))
            if nxt == "th" and value in {8, 16} and self._at(i - 1) in {"an", "a", "and", "the", "on"}:
                out.append(Edge(i + 2, "FRAC", Fraction(1, value), 0.2, "sound"))
            if value <= 31:
                pass
        else:
            out.append(Edge(i + 1, "INT", value, 0.0, "number"))
        if nxt in {"k", "thousand"}:
            out.append(Edge(i + 2, "INT", value * 1000, 0.0, "number"))
        if nxt == "'" and self._glued(i + 1):
            pass
        frac = self._fraction_end(i)
        if frac:
            end, f, cost, how = frac
            out.append(Edge(end, "FRAC", f, cost, how))
        # 1 1/4, 1-1/4, one and a half in figures
        at = i + 1
        if self._at(at) in {"-", "&", "and"}:
            at += 1
        if at < len(self.pieces) and value <= 40 and self.pieces[at].form == "int":
            more = self._fraction_end(at)
            if more and more[3] == "exact":
                out.append(Edge(more[0], "FRAC", value + more[1], 0.0, "exact"))
        if (at < len(self.pieces) and self._at(at) in {"a", "one"}) or self._at(at) == "half":
            self._and_fraction(i, i + 1, Fraction(value))
        if len(p.text) == 2 and self._short_year(i):
            out.append(Edge(i + 1, "YEAR", value + (1900 if value >= 69 else 2000), 0.0, "number"))
        if len(p.text) == 4 and 1950 <= value <= 2099:
            out.append(Edge(i + 1, "YEAR", value, 0.0, "number"))
        if len(p.text) == 2 and self._at(i - 1) == "'" and i:
            pass
        if (value < 10 and nxt == "quarter") or nxt == "quarters":
            low = 4
            if value in {1, 3}:
                out.append(
                    Edge(i + 2, "FRAC", Fraction(value, low), 0.1, "spoken quarter" if nxt == "quarter" else "exact")
                )
        if (
            value < 16
            and self._at(i + 1) == "-"
            and self._at(i + 2) in {"quarter", "quarters", "half", "eighth", "eighths"}
        ):
            low = numbers.part(self._at(i + 2)) or 1
            if value < low:
                out.append(Edge(i + 3, "FRAC", Fraction(value, low), 0.1, "exact"))

    def _short_year(self, i: int) -> bool:
        """`14 Sep 10`, `AUG 26 92` at the end of a line or of a cell: two figures of a year."""
        after = self.pieces[i + 1] if i + 1 < len(self.pieces) else None
        if (
            after is not None
            and after.form != "nl"
            and after.gap < 2
            and not (after.form == "mark" and after.text in ".,;)")
        ):
            return False
        if i < 2 or self.pieces[i].glued:
            return False
        k = i - 1
        if self.pieces[k].text in {".", ","}:
            k -= 1
        before = {e.kind for e in self.edges[k]}
        if "MONTH" in before:
            k -= 1
            return k >= 0 and (self.pieces[k].form == "int" or self.pieces[k].text in {"st", "nd", "rd", "th"})
        if self.pieces[k].form == "int" or self.pieces[k].text in {"st", "nd", "rd", "th"}:
            k -= 1 if self.pieces[k].form == "int" else 2
            if k >= 0 and self.pieces[k].text == ".":
                k -= 1
            return k >= 0 and any(e.kind == "MONTH" for e in self.edges[k])
        return False

    def _decimal(self, i: int) -> None:
        p, out = self.pieces[i], self.edges[i]
        if p.form == "big":
            out.append(Edge(i + 1, "INT", int(p.text.replace(",", "")), 0.0, "number"))
            return
        if p.text.startswith(".") and i and p.glued and self.pieces[i - 1].text in {"r", "v"}:
            out.append(Edge(i + 1, "INT", int(p.text[1:]), 0.0, "number"))  # R.3
            return
        value = Fraction("0" + p.text if p.text.startswith(".") else p.text)
        whole, _, tail = p.text.partition(".")
        out.append(
            Edge(
                i + 1,
                "DEC",
                value,
                0.6 if tail == "16" and whole in {"1", "3", "5", "7", "9", "11", "13", "15"} else 0.0,
                "number",
            )
        )
        if tail in {"16", "8", "4"} and whole in {"1", "3", "5", "7", "9", "11", "13", "15"} and int(whole) < int(tail):
            end = i + 1
            if self._at(end) in {"s", "'s", "th", "ths", "b", "set"} and (self._glued(end) or self._at(end) == "set"):
                end += 1
            if tail == "16" or end > i + 1:
                out.append(Edge(end, "FRAC", Fraction(int(whole), int(tail)), 0.3, "sound"))

    def _spoken(self, i: int) -> None:
        out = self.edges[i]
        w = self._at(i)
        o = numbers.ordinal(w)
        if o is not None:
            out.append(Edge(i + 1, "ORD", o, 0.0, "number"))
        if w == "half":
            nxt = self._at(i + 1)
            if nxt == "a" and self._at(i + 2) == "dozen":
                out.append(Edge(i + 3, "INT", 6, 0.0, "number"))
            end = i + 1
            if nxt in {"a", "an"}:
                end += 1
            out.append(Edge(i + 1, "FRAC", Fraction(1, 2), 0.0, "number"))
            if end > i + 1:
                out.append(Edge(end, "FRAC", Fraction(1, 2), 0.05, "number"))
        if w in {"quarter", "qtr", "quater"}:
            out.append(Edge(i + 1, "FRAC", Fraction(1, 4), 0.0, "number"))
        if (w in {"eighth", "8th"} and self._at(i + 1) in {"inch", "of", "in"}) or (
            w == "eighth" and self._at(i - 1) == "an"
        ):
            out.append(Edge(i + 1, "FRAC", Fraction(1, 8), 0.0, "number"))
        if w in {"a", "couple"}:
            k = i + 1 if w == "a" else i
            if self._at(k) == "couple":
                end = k + 2 if self._at(k + 1) in {"of", "a"} else k + 1
                out.append(Edge(end, "INT", 2, 0.0, "couple"))
            if w == "a" and self._at(k) == "dozen":
                out.append(Edge(k + 1, "INT", 12, 0.0, "number"))
            if w == "a" and self._at(k) == "pair":
                out.append(Edge(k + 1, "INT", 2, 0.0, "number"))
            if w == "a" and self._at(k) in {"half", "quarter"}:
                out.append(Edge(k + 1, "FRAC", Fraction(1, numbers.part(self._at(k)) or 1), 0.0, "number"))
            if w == "a" and self._at(k) == "third" and self._at(k + 1) == "of":
                out.append(Edge(k + 1, "FRAC", Fraction(1, 3), 0.0, "number"))
            if w == "a":
                return
        if w == "an" and self._at(i + 1) in {"eighth"}:
            out.append(Edge(i + 2, "FRAC", Fraction(1, 8), 0.0, "number"))
        if w == "dozen":
            out.append(Edge(i + 1, "INT", 12, 0.0, "number"))
        if w in {"nineteen", "twenty"}:
            for k in (i + 3, i + 2):
                tail = numbers.words_to_number(tuple(self._at(x) for x in range(i + 1, k)))
                if tail is not None and tail.denominator == 1 and 10 <= tail <= 99:
                    out.append(Edge(k, "YEAR", (1900 if w == "nineteen" else 2000) + int(tail), 0.0, "number"))
                    break
        if not (numbers.is_number_word(w) or w in {"point", "oh"}):
            return
        run: list[str] = []
        j = i
        while j < len(self.pieces) and len(run) < 8:
            t = self._at(j)
            if t == "-" and run and self._glued(j):
                j += 1
                continue
            if not (numbers.is_number_word(t) or t in {"and", "point", "oh"}):
                break
            if self.pieces[j].form == "nl":
                break
            run.append(t)
            j += 1
            value = numbers.words_to_number(tuple(run))
            if value is None:
                continue
            if value.denominator == 1:
                out.append(Edge(j, "INT", int(value), 0.0, "number"))
                if 1950 <= value <= 2099 and len(run) >= 3:
                    out.append(Edge(j, "YEAR", int(value), 0.0, "number"))
            else:
                out.append(Edge(j, "DEC", value, 0.0, "number"))
            if value.denominator == 1:
                self._after_number(i, j, value, run)

    def _after_number(self, i: int, j: int, value: Fraction, run: list[str]) -> None:
        """What may follow a spoken number: three sixteenths, twenty first, two dozen, one and a half."""
        out = self.edges[i]
        k = j + 1 if self._at(j) == "-" and self._glued(j) else j
        nxt = self._at(k)
        part = numbers.part(nxt)
        if part and value < part and len(run) == 1:
            if part == 8 and nxt == "eight" and self._at(k + 1) != "inch":
                part = None
        if (
            part
            and value < part
            and len(run) == 1
            and not (
                nxt in {"third", "fourth", "eighth", "half", "eight"}
                and value > 1
                and self._at(k + 1) not in {"inch", "in", "inches", "of", '"'}
            )
        ):
            how = "number"
            if nxt in {"quarter", "qtr", "quater"} and value > 1 and k == j:
                how = "spoken quarter"  # three quarter inch pods: one size, or three pods of a quarter?
            if nxt in {"eights", "eight", "sixteens"}:
                how = "sound"
            out.append(Edge(k + 1, "FRAC", value / part, 0.0 if how != "sound" else 0.2, how))
        tens = int(value) if value < 100 else 0
        o = numbers.ordinal(nxt)
        if o is not None and o < 10 and tens >= 20 and tens % 10 == 0 and len(run) == 1:
            out.append(Edge(k + 1, "ORD", tens + o, 0.0, "number"))
        if nxt == "dozen":
            out.append(Edge(k + 1, "INT", int(value) * 12, 0.0, "number"))
        if nxt == "hundred" and 10 < value < 100:
            out.append(Edge(k + 1, "INT", int(value) * 100, 0.0, "number"))
        if nxt == "and":
            self._and_fraction(i, j, value)

    def _and_fraction(self, i: int, j: int, whole: Fraction) -> None:
        """`and a half`, `and three quarters` after a whole number that ends at piece j."""
        k = j
        if self._at(k) in {"and", "&"}:
            k += 1
        if self._at(k) in {"a", "an", "one"}:
            k += 1
            part = numbers.part(self._at(k))
            if part:
                self.edges[i].append(Edge(k + 1, "FRAC", whole + Fraction(1, part), 0.0, "number"))
            return
        if self._at(k) == "half":
            self.edges[i].append(Edge(k + 1, "FRAC", whole + Fraction(1, 2), 0.1, "number"))
            return
        if numbers.is_number_word(self._at(k)):
            top = numbers.words_to_number((self._at(k),))
            part = numbers.part(self._at(k + 1))
            if top and part and top < part:
                self.edges[i].append(Edge(k + 2, "FRAC", whole + top / part, 0.0, "number"))

    # damaged figures and letters --------------------------------------------------------------------------------

    def _after_plant(self, i: int) -> bool:
        """Whether a word for a plant ends just before piece i."""
        return any(e.end == i and e.kind == "PLANT" for k in range(max(0, i - 4), i) for e in self.edges[k])

    def _damaged_date(self, i: int) -> None:
        """`8-2-9l`, `9-3-O8`: a date with letters for figures."""
        pieces = self.pieces
        j = i + 1
        while (
            j < len(pieces)
            and pieces[j].glued
            and j < i + 9
            and (pieces[j].form in {"int", "word"} or pieces[j].text in {"-", "/", "|"})
        ):
            j += 1
        run = self.original(i, j)
        plain = run.translate(_FIGURE_LETTERS)
        if plain != run and _DATE.fullmatch(plain):
            self.edges[i].append(Edge(j, "DMY", plain.replace("/", "-"), FIGURE, "figure"))

    def _damaged(self, i: int, words: Vocabulary) -> None:
        """Old paper: l, I, | for 1; O for 0; S for 5; B for 8; a figure inside a word."""
        pieces = self.pieces
        stage = (
            i > 0
            and pieces[i].form == "int"
            and pieces[i - 1].text in {"v", "r"}
            and not (pieces[i - 1].glued and pieces[i - 2].form in {"int", "word"})
        )
        if pieces[i].glued and i and pieces[i - 1].form in {"int", "word"} and not stage:
            return
        j = i + 1
        while j < len(pieces) and pieces[j].glued and (pieces[j].form in {"int", "word"} or pieces[j].text == "|"):
            j += 1
        run = self.original(i, j)
        self._damaged_date(i)
        figure = match.damaged_figure(run)
        if figure is None:  # l0t, S/8
            k = j - 1
            while figure is None and k > i:
                if pieces[k].form == "word" and pieces[k].text in words.singles:
                    figure = match.damaged_figure(self.original(i, k))
                    j = k if figure is not None else j
                k -= 1
            if (
                figure is None
                and run in _LONE_FIGURES
                and ((self._at(j) == "/" and self._glued(j)) or self._after_plant(i))
            ):
                figure = _LONE_FIGURES[run]
        if figure is not None:
            self.edges[i].append(Edge(j, "INT", figure, FIGURE, "figure"))
            self.known[i] = True
            # l/2, 3/l6
            if self._at(j) == "/" and j + 1 < len(pieces):
                k = j + 2
                while k < len(pieces) and pieces[k].glued and pieces[k].form in {"int", "word"} and k < j + 3:
                    if pieces[k].text in {"ths", "in"}:
                        break
                    k += 1
                low = match.damaged_figure(self.original(j + 1, k))
                if low is None and self._at(j + 1).isdigit():
                    low, k = int(self._at(j + 1)), j + 2
                if low in {2, 4, 8, 16, 32} and figure < low:
                    self.edges[i].append(Edge(k, "FRAC", Fraction(figure, low), FIGURE, "figure"))
        elif run.isdigit() and self._at(j) == "/" and j + 1 < len(pieces) and len(run) <= 2:
            k = j + 2
            while k < len(pieces) and pieces[k].glued and pieces[k].form in {"int", "word"} and k < j + 3:
                k += 1
            low = match.damaged_figure(self.original(j + 1, k))
            if low in {2, 4, 8, 16, 32} and int(run) < low:
                self.edges[i].append(Edge(k, "FRAC", Fraction(int(run), low), FIGURE, "figure"))
        if (len(run) >= 3 or run.lower() == "f1") and not run.isdigit():
            for word in match.damaged_words(run):
                senses = words.singles.get(word)
                if senses and word != run.lower():
                    for s in senses:
                        if s[0] != "FILLER":
                            self.edges[i].append(Edge(j, s[0], s[1], FIGURE, "figure"))
                    break
