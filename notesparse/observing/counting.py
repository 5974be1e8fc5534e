"""Labels that count up without a mark between: `one unis open two same three first trif open` (guide 4.7)."""

from __future__ import annotations

from collections.abc import Iterator

from notesparse.language.cues import cue_page
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("observing/counting")

_SEEN = {
    "FLOWER",
    "NO",
    "POD",
    "SEED",
    "BEAN",
    "BUD",
    "UNI",
    "COT",
    "SAME",
    "DITTO",
    "SAMEAS",
    "EMERGED",
    "V",
    "R",
    "STAGENAME",
}
_SEEN_OF_A_PLANT = {
    "SAME",
    "DITTO",
    "SAMEAS",
    "EMERGED",
    "V",
    "R",
    "STAGENAME",
    "NO",
    "UNI",
    "COT",
}  # what no count stands before
_LEAVES = {"TRIF", "TRIPS", "TRYSOUND", "NODE", "NODES"}
COUNTED = {
    "TRIF",
    "TRIPS",
    "NODE",
    "NODES",
    "PCT",
    "INCH",
    "MM",
    "CM",
    "FOOT",
    "OF",
    "OUTOF",
    "SLASH",
    "MONTH",
    "SCAR",
    "SAMPLED",
    "PLANT",
    "INSECT",
    "WEED",
    "OTHER",
    "ROWSUFFIX",
    "DASH",
}
_NOT_AFTER = {"TOP", "NODE", "NODES", "PLANT", "STOP", "V", "R", "OF", "OUTOF", "HEDGE", "MONTH", "AND", "NO", "NOT"}
_LABELS = {"PLETTER", "NUMBERW", "HASH", "NODOT", "ONE", "ALLOF", "SAMPLED"}
_LONGER = {"INT", "ORD", "DEC", "FRAC", "PLANT"}  # P1. 3, for Pl. 3
_LONGEST_PLANT = 3  # pieces of a word for it: P1ant, P1.
_IS = _LISTED.words("is")


def _number(lattice: Lattice, i: int, value: int) -> Edge | None:
    """The edge at piece i that says this number, no part of a longer one."""
    if any(e.end > i and e.kind in _LONGER for e in (lattice.edges[i - 1] if i else ())):
        return None
    fit = [e for e in lattice.edges[i] if e.kind == "INT" and e.means == value]
    if not fit:
        return None
    first = min(fit, key=lambda e: e.end)
    inside = i > 0 and lattice.pieces[i - 1].form == "word"
    if inside and any(e.kind in {"FRAC", "DEC"} and e.end > first.end for e in lattice.edges[i]):
        return None  # had pods 1 1/2 inches long
    return first


def _kinds(lattice: Lattice, i: int) -> set[str]:
    return {e.kind for e in lattice.edges[i]} if 0 <= i < len(lattice.pieces) else set()


def _counts_leaves(lattice: Lattice, i: int) -> bool:
    """A number or an ordinal before a leaf or a node begins at piece i."""
    if not 0 <= i < len(lattice.pieces):
        return False
    return any(e.kind in {"INT", "ORD"} and _kinds(lattice, e.end) & _LEAVES for e in lattice.edges[i])


def _opens(lattice: Lattice, i: int, told: bool) -> bool:
    """Something seen begins at piece i. After a plant that is labelled in full (`told`), no organ that the number
    may count."""
    pieces = lattice.pieces
    if i >= len(pieces) or (pieces[i].form != "word" and not _counts_leaves(lattice, i)):
        return False
    if _kinds(lattice, i) & COUNTED and not _counts_leaves(lattice, i):
        return False
    if _counts_leaves(lattice, i) or (pieces[i].text in _IS and not pieces[i].glued):
        return True
    if _kinds(lattice, i) & {"ONLY", "STILL", "YET"} and _kinds(lattice, i + 1) & {"EMERGED", "UNI", "COT"}:
        return True
    return bool(_kinds(lattice, i) & (_SEEN_OF_A_PLANT if told else _SEEN))


def behind_a_place(lattice: Lattice, i: int) -> bool:
    """`bloom top node 2 11 trifs`: a node that is told already stands before piece i."""
    node = _kinds(lattice, i - 1) & {"NODE", "NODES"}
    return bool(node and _kinds(lattice, i - 2) & {"TOP", "ORD", "INT", "UPTOP"})


def _label(lattice: Lattice, i: int, want: int, told: bool) -> tuple[int, tuple[str, ...]] | None:
    """A label at piece i: its end and the plants it names (`four through eight` names five)."""
    if (not behind_a_place(lattice, i) and _kinds(lattice, i - 1) & _NOT_AFTER) or (
        lattice.pieces[i].glued and i and lattice.pieces[i - 1].form != "nl"
    ):
        return None
    e = _number(lattice, i, want)
    if e is None:
        return None
    if e.end < len(lattice.pieces) and _kinds(lattice, e.end) & {"THRU", "DASH"}:
        for last in range(want + 1, want + 40):
            far = _number(lattice, e.end + 1, last) if e.end + 1 < len(lattice.pieces) else None
            if far is not None and _opens(lattice, far.end, told):
                return far.end, tuple(str(n) for n in range(want, last + 1))
    if _opens(lattice, e.end, told):
        return e.end, (str(want),)
    labels, end = [str(want)], e.end  # 8 9 and 10 have nine
    while end < len(lattice.pieces) and len(labels) < 40:
        while lattice.pieces[end].text in {",", "and", "&", "n", "+"} and end + 1 < len(lattice.pieces):
            end += 1
        more = _number(lattice, end, want + len(labels))
        if more is None:
            break
        labels.append(str(want + len(labels)))
        end = more.end
        if lattice.pieces[end - 1].form != "mark" and _opens(lattice, end, told):
            return end, tuple(labels)
    return None


def _named_by(e: Edge, i: int) -> bool:
    """The word that names a plant ends right before its number at piece i."""
    return e.end == i and e.kind in {"PLANT", "NUMBERW", "HASH"}


def _told(lattice: Lattice) -> Iterator[tuple[int, int]]:
    """Labels in full (plant 3, number three): (piece of the number, number)."""
    for i in range(1, len(lattice.pieces)):
        if any(_named_by(e, i) for k in range(max(0, i - _LONGEST_PLANT), i) for e in lattice.edges[k]):
            values = [e.means for e in lattice.edges[i] if e.kind == "INT"]
            if values:
                yield i, int(values[0])


def named(lattice: Lattice) -> list[tuple[int, int, tuple[str, ...]]]:
    """`bean A ... bean B`, `BEAN 1 - 4 TRI`: labels in order behind the word for a bean, as (start, end, plants)."""
    out: list[tuple[int, int, tuple[str, ...]]] = []
    pieces = lattice.pieces
    for i in range(len(pieces) - 1):
        label = pieces[i + 1]
        if "BEAN" not in _kinds(lattice, i) or pieces[i].text.endswith("s") or (label.glued and label.form == "word"):
            continue
        single = label.form == "word" and len(label.text) == 1
        number = next((str(e.means) for e in lattice.edges[i + 1] if e.kind == "INT" and e.end == i + 2), None)
        said = lattice.original(i + 1, i + 2) if single else number
        want = ("1", "a") if not out else (_next(out[-1][2][0]),)
        if said is None or said.lower() not in want:
            continue
        end = i + 2
        if (
            end < len(pieces)
            and pieces[end].text in {"-", ":", ".", ")", "="}
            and (end + 1 >= len(pieces) or not pieces[end + 1].glued)
        ):
            end += 1
        out.append((i, end, (said,)))
    return out if len(out) >= 2 else []


def _next(label: str) -> str:
    return str(int(label) + 1) if label.isdigit() else chr(ord(label.lower()) + 1)


def counting_up(lattice: Lattice, heads: set[int], taken: set[int]) -> list[tuple[int, int, tuple[str, ...]]]:
    """The labels of the note's chain, as (start, end, plants); none where there is no chain."""
    told = dict(_told(lattice))
    chain: list[tuple[int, int, tuple[str, ...]]] = []
    want, after_told, i = 1, False, 0
    while i < len(lattice.pieces):
        if i in told:
            at = i + 1
            if at + 1 < len(lattice.pieces) and _kinds(lattice, at) & {"THRU", "DASH"}:
                told[i] = max([told[i], *(int(e.means) for e in lattice.edges[at + 1] if e.kind == "INT")])
            if any(str(told[i]) in labels for _, _, labels in chain):
                return []  # the number was no label after all
            want, after_told = told[i] + 1, True
            i += 1
            continue
        if (
            lattice.pieces[i].form == "nl"
            and not after_told
            and len(chain) < 3
            and not (i + 1 < len(lattice.pieces) and _label(lattice, i + 1, want, False))
        ):
            chain, want = [], 1
        found = _label(lattice, i, want, after_told) if i not in taken else None
        if found is None:
            i += 1
            continue
        end, labels = found
        if want == 1 and i not in heads and not _reaches(lattice, end, 2, 4):
            i += 1
            continue
        chain.append((i, end, labels))
        want = int(labels[-1]) + 1
        i = end
    return chain if len(chain) >= (2 if after_told else 3) else []


def _reaches(lattice: Lattice, start: int, want: int, last: int) -> bool:
    """The labels `want` to `last` follow one another behind piece start."""
    for i in range(start, len(lattice.pieces)):
        found = _label(lattice, i, want, False)
        if found is not None:
            return want >= last or _reaches(lattice, found[0], want + 1, last)
    return False


def counted_off(lattice: Lattice) -> list[list[tuple[int, int, tuple[str, ...]]]]:
    """`mckees 1 8tf 2 8tf 3 9tf`, `mckees 1 r2 2 r2 3 r3`: line by line, numbers from one up that each stand before a
    count of leaves or a stage. Stages that are all different may be told of so many plants each."""
    out: list[list[tuple[int, int, tuple[str, ...]]]] = []
    here: list[tuple[int, str]] = []
    for i in range(len(lattice.pieces) + 1):
        if i == len(lattice.pieces) or lattice.pieces[i].form == "nl":
            stages = [stage for _, stage in here if stage]
            up = [lattice.at(x) for x, _ in here] == [str(n) for n in range(1, len(here) + 1)]
            if len(here) > 1 and up and (not stages or len(set(stages)) < len(stages) == len(here)):
                out.append([(x, x + 1, (lattice.at(x),)) for x, _ in here])
            here = []
        elif (
            (said := _figure_before(lattice, i)) is not None
            and not _kinds(lattice, i - 1) & (_NOT_AFTER | _LABELS)
            and not (lattice.at(i - 1) == "." and _kinds(lattice, i - 2) & _LABELS)  # plant no. 1
        ):
            here.append((i, said))
    return out


def _figure_before(lattice: Lattice, i: int) -> str | None:
    """`1 8tf`, `1 r2`: a figure, a gap, and a count of leaves ("") or a stage; None where it stands before neither."""
    pieces = lattice.pieces
    if i + 2 >= len(pieces) or pieces[i].form != "int" or pieces[i + 1].glued:
        return None
    if pieces[i + 1].form == "int" and _kinds(lattice, i + 2) & _LEAVES:
        return ""
    if pieces[i + 1].text in {"r", "v"} and pieces[i + 2].form == "int" and pieces[i + 2].glued:
        return pieces[i + 1].text + pieces[i + 2].text
    return None


_WIDE = 3  # blanks between a name and the labels beside it
_LABEL_MARKS = frozenset({"-", ".", ")"})


def numbered_below(lattice: Lattice, i: int) -> bool:
    """`Lot 7       1 - R6`, and on the next line `2 - R6`; `Stop 1, gate     1.  4 tri` over `2.  5 tri`: a figure and its
    mark behind a gap, gone on with below."""
    own, mark = lattice.pieces[i], lattice.at(i + 1)
    if own.form != "int" or own.gap < _WIDE or mark not in _LABEL_MARKS or lattice.glued(i + 2):
        return False
    if lattice.glued(i + 1) == (mark == "-"):
        return False  # 1-4, 1 . 4
    below = next((k + 1 for k in range(i, len(lattice.pieces)) if lattice.pieces[k].form == "nl"), len(lattice.pieces))
    return lattice.at(below) == str(int(lattice.at(i)) + 1) and lattice.at(below + 1) == mark
