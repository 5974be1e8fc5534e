"""Signs of the key in running rows, where they were not read: the words that they stand for in their place (guide 4.21).

`key: b = bloom, o = no bloom, u2 = upper two nodes` over `1  10t  b u2`: where the first reading leaves signs of the key
unread, the rows are read once more with the key's own words, and that reading is taken where it leaves less unread. So is
a footnote under such rows: `p2 9 trif +` over `+ bloom at the top node`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from notesparse.lazy import pattern
from notesparse.observing.fold import FILLER
from notesparse.observing.paper.explained import find_explained
from notesparse.observing.paper.keys import OPENERS, Sign, read_signs, told
from notesparse.observing.paper.row_labels import read_label
from notesparse.span import Span
from notesparse.text.columns import Line, lines_of
from notesparse.text.lattice import Lattice

_MEASURED = pattern(
    r"\b(?:mm|cm|in(?=\.|,|$)|inch|inches|\d+ths?|pct|percent|number|no\. of|node of|counted)\b|[%\"]", re.I
)
_MARKS = frozenset("*+^†‡§")
_SHORTEST = 2  # pieces that a footnote says
_MAY_EXPLAIN = pattern(
    r"(?mi)^[ \t(\[]*(?:(?:key|codes?|legend|signs|marks)\b[ \t:]*)?(?:[-*+^†‡§/][ \t]*|[xo][ \t]+)[^\W\d]"
)


def meant(lattice: Lattice, open_: Sequence[Span], held: Sequence[Span], use: Sequence[str]) -> dict[Span, str | None]:
    """Other words for the signs of the rows, and none for the key; empty where no sign is among what was left unread, asked
    about or passed over (`use`, piece by piece), or where tables (`held`) read some of them. A sign with a figure (`t4`)
    counts as open: prose takes it for a count."""
    if "=" not in lattice.text and not _MAY_EXPLAIN.search(lattice.text):
        return {}
    lines = [x for x in lines_of(lattice.text, lattice.pieces) if not x.blank]
    keys = {x.number: signs for x in lines if (signs := read_signs(lattice, x)[0] or _footnote(lattice, x))}
    told_of = {e.line: e.signs for e in find_explained(lattice, lines) if e.signs and not e.legends}
    keys |= {at: signs for at, signs in told_of.items() if not any(s.suffix or s.figure or s.absent for s in signs)}
    words = {lattice.written(*s.at): lattice.written(*s.meaning) for own in keys.values() for s in own}
    if not words or any(_MEASURED.search(w) for w in words.values()):
        return {}
    rows = [x for x in lines if x.number not in keys and _a_row(lattice, x)]
    found = [(span, said) for row in rows for span, said in _signs_in(lattice, row, words)]
    if any(span.inside(held) for span, _ in found):
        return {}  # a table reads its cells by the key itself
    counted = any(said[-1:].isdigit() and not said.isdigit() for _, said in found)
    passed = [p.span for p, what in zip(lattice.pieces, use, strict=True) if what == FILLER]
    if not counted and not any(span.overlaps(u) for span, _ in found for u in (*open_, *passed)):
        return {}
    out: dict[Span, str | None] = {span: f" {words[said]}" for span, said in found}
    for line in lines:
        if line.number in keys:
            whole = lattice.at(line.start) in OPENERS or keys[line.number][0].at[0] - line.start <= 1
            if not whole:
                return {}
            out |= dict.fromkeys(_told_in(lattice, line, keys[line.number]), "")
    return dict(sorted(out.items()))


def _footnote(lattice: Lattice, line: Line) -> list[Sign]:
    """`+ bloom at the top node` on a line of its own: the mark, and what it says."""
    a, b = line.start + 1, line.end
    while b > a and lattice.at(b - 1) in {".", ";"}:
        b -= 1
    if lattice.at(line.start) not in _MARKS or b - a < _SHORTEST or not told(lattice, a, b):
        return []
    return [Sign(lattice.at(line.start), (line.start, a), (a, b), None)]


def _told_in(lattice: Lattice, line: Line, signs: Sequence[Sign]) -> list[Span]:
    """The line of a key; only its signs with their meanings where it holds others that nobody understood."""
    pieces = lattice.pieces
    parted = sum(pieces[i].text == "=" for i in range(line.start, line.end)) > len(signs)
    bounds = [(s.at[0], s.meaning[1]) for s in signs] if parted else [(line.start, line.end)]
    return [Span(pieces[a].span.start, pieces[b - 1].span.end) for a, b in bounds]


def _a_row(lattice: Lattice, line: Line) -> bool:
    got = read_label(lattice, line.start, line.end)
    return got is not None and got[1] < line.end


def _signs_in(lattice: Lattice, line: Line, words: dict[str, str]) -> list[tuple[Span, str]]:
    """The signs that stand by themselves in a row, behind its label."""
    got = read_label(lattice, line.start, line.end)
    begin = got[1] if got is not None else line.start
    start, end = lattice.pieces[begin].span.start, lattice.pieces[line.end - 1].span.end
    out: list[tuple[Span, str]] = []
    for m in re.finditer(r"[^\s,;]+", lattice.text[start:end]):
        said = m[0].rstrip(".") if m[0] not in words else m[0]
        if said in words:
            out.append((Span(start + m.start(), start + m.start() + len(said)), said))
    return out
