"""Labels and groups of plants: what looks like a label and is none."""

from __future__ import annotations

from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.heads import before_count, no_page
from notesparse.text.lattice import Lattice

_MANY = frozenset({"plants", "plts"})


def loose_dash(lattice: Lattice, p: Phrase) -> bool:
    """`4 - 7 trifs`: a dash with blanks is no range of plants, and no date."""
    pieces = lattice.pieces
    return any(
        e.kind == "DASH" and not (pieces[at].glued and at + 1 < len(pieces) and pieces[at + 1].glued)
        for at, e in p.path
    )


def so_many_at_once(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven`: the next plant, and no eleven plants."""
    return any(text(lattice, x) == "one" for x in range(p.start, p.path[-1][0])) or (
        any(e.kind == "INT" and int(e.means) > 10 for _, e in p.path)
    )


def not_all_commas(lattice: Lattice, p: Phrase) -> bool:
    """`plant one, two, three all have nine trifs`, and no `plant 1 12 13`."""
    pieces = [at for at, e in p.path if e.kind in {"INT", "INTSOUND"}]
    ends = [e.end for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    apart = all(text(lattice, end) == "," and nxt == end + 1 for end, nxt in zip(ends, pieces[1:], strict=False))
    return not apart or text(lattice, p.end) not in {
        "all",
        "each",
        "both",
        "have",
        "had",
        "are",
        "were",
        "same",
        "at",
        ":",
    }


def said_of_one(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven, same on the flowers`: a count, and no plant eleven."""
    return text(lattice, p.start - 1) == "one" or text(lattice, p.end) in {"on", "for"}


def before_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`same as the first`: which plant it is like is said behind it."""
    i = p.end
    while text(lattice, i) in {"the", "on"}:
        i += 1
    said = {text(lattice, x) for x in range(p.start, p.end)}
    return bool(said & {"as", "like"}) and "ORD" in kinds(lattice, i)


def like_count(lattice: Lattice, p: Phrase) -> bool:
    """`like thirty percent`, `like 1/4 in`: about so much, and no plant."""
    return p.path[0][1].kind == "LIKE" and (
        before_count(lattice, p) or (text(lattice, p.end) == "/" and lattice.pieces[p.end].glued)
    )


def listed(lattice: Lattice, p: Phrase) -> bool:
    """`plants, 4 R3`; `1 plant: 4 trifs`: what is counted stands behind the mark."""
    before = p.start - 1
    return any(
        text(lattice, at) == "," or (text(lattice, at) == ":" and before >= 0 and lattice.pieces[before].form == "int")
        for at in range(p.start, p.path[-1][0])
    )


def so_many_plants(lattice: Lattice, p: Phrase) -> bool:
    """`split 10 plants: 4 R3, 6 R2`; `plants 3 of 10`."""
    i = p.start
    if text(lattice, i) not in _MANY:
        return False
    if kinds(lattice, p.end) & {"OF", "OUTOF"}:
        return True
    counted = any(e.kind == "INT" and e.end == i for j in range(max(0, i - 3), i) for e in lattice.edges[j])
    return counted and text(lattice, i - 2) not in {"/", "-"}


def so_tall(lattice: Lattice, p: Phrase) -> bool:
    """`height of plants 24 in.`, `plants 30" tall`: how tall they are, and no plant 24."""
    if not kinds(lattice, p.end) & {"INCH", "CM", "FOOT"}:
        return False
    of = {text(lattice, i) for i in range(max(0, p.start - 3), p.start)} & {"height", "ht", "tall", "high"}
    return text(lattice, p.start) in _MANY or bool(of) or text(lattice, p.end + 1) in {"tall", "high"}


def no_plants(lattice: Lattice, p: Phrase) -> bool:
    """`first three plants`, `last two V5`: so many plants, and no leaves or nodes."""
    if (
        (p.path[0][1].kind == "ORD" and p.path[0][1].means != 1)
        or not 2 <= int(p.path[1][1].means) <= 40
        or p.path[1][1].kind == "INTSOUND"
    ):
        return True
    return not (p.path[-1][1].kind in {"PLANT", "ONE"} or kinds(lattice, p.end) & {"R", "V", "HAS", "STAGENAME"})


def parted(lattice: Lattice, p: Phrase) -> bool:
    """`the eighteenth, first plant`."""
    return p.path[1][0] > p.path[0][1].end


def letters_of_many(lattice: Lattice, p: Phrase) -> bool:
    return text(lattice, p.start) in _MANY


def no_sample(lattice: Lattice, p: Phrase) -> bool:
    """`I pulled`; `the plant I pulled had seven`; `3 4 sampled`."""
    if any(e.how == "figure" for _, e in p.path):
        return True
    first = p.path[0][1]
    if first.kind == "SAMPLED":
        return any("HAS" in kinds(lattice, x) for x in range(first.end, p.path[-1][0]))
    return first.kind == "INT" and "INT" in kinds(lattice, p.end)


def no_bean_label(lattice: Lattice, p: Phrase) -> bool:
    """`Bean three, seed an eighth`: a plant; `beans 3` are not."""
    if p.path[0][1].kind != "BEAN" or len(p.path) > 2:
        return False
    before = lattice.pieces[p.start - 1] if p.start else None
    begins = before is None or before.form in {"nl", "mark"}
    return not (begins and text(lattice, p.start) == "bean" and text(lattice, p.end) in {",", ":", "has", "had"})


def page(lattice: Lattice, p: Phrase) -> bool:
    """`MG 3.1      p. 2`: a page's number."""
    return text(lattice, p.start) == "p" and text(lattice, p.start + 1) == "." and not no_page(lattice, p)
