"""A figure or a letter beside the word for a plant: its label or not."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.heads import no_page
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/labels/figures")
_COMMON = cue_page("shared")
_MANY = _COMMON.words("plants")


def apart_from_plant(lattice: Lattice, p: Phrase) -> bool:
    """`tf 8, plt 2: ...`: the number is of what stands before it, and a label follows."""
    at, end = p.path[-1][0], p.path[-1][1].end
    marked = kinds(lattice, end) & {"HASH", "NODOT"} or kinds(lattice, at) & {"NUMBERW"}  # 95, plant # 3
    while kinds(lattice, end) & {"HASH", "NODOT", "NUMBERW"}:
        end += 1
    if "INT" not in kinds(lattice, end):
        return False
    return bool(marked) or (text(lattice, at - 1) in {",", ";"} and text(lattice, at) not in _MANY)


def label_behind(lattice: Lattice, p: Phrase) -> bool:
    """`are two plant three`, `6/9 pl 5/16`: the plant is the next one, or a planting."""
    at, end = p.path[-1][0], p.path[-1][1].end
    if text(lattice, at) in _MANY:  # bottom eighty plants 1 and 2
        listed = "INT" in kinds(lattice, end) and text(lattice, end + 1) in {"and", "&", "thru", "through", "-"}
        return listed and text(lattice, end) in {"1", "one"} and "INT" in kinds(lattice, end + 2)
    if not kinds(lattice, end) & {"INT", "INTSOUND"}:
        return False
    return text(lattice, at) in {"plant", "bean"} or text(lattice, end + 1) in {"/", "-"}


_FOR_OF_THE_LABEL = _COMMON.words("being") | {":", "at"}


def of_the_label(lattice: Lattice, p: Phrase) -> bool:
    """`plt 2: tf x 9`: the number of the plant."""
    if p.path[0][1].kind != "INT" or not p.start:
        return False
    if text(lattice, p.start - 1) == "p" and lattice.pieces[p.start].glued:
        return True  # p1 trifs was 8
    labelled = bool(kinds(lattice, p.start - 1) & {"PLANT", "PLETTER", "HASH"})
    if labelled and p.path[0][1].means == 1 and p.end == p.start + 2 and text(lattice, p.start + 1).endswith("s"):
        return True  # plant one trifs too curled to see
    said = p.end
    while text(lattice, said) in _FOR_OF_THE_LABEL:
        said += 1
    if said > p.end and "INT" in kinds(lattice, said) and labelled:
        return True  # plant three trifs are at nine
    return text(lattice, p.path[0][1].end) == ":" and labelled


def plan_for_plant(lattice: Lattice, p: Phrase) -> bool:
    """`plan to nine trifs`: heard for plant two, and no plan."""
    if [text(lattice, x) for x in range(p.start, p.end)] != ["plan", "to"]:
        return False
    return (
        any(
            e.kind == "INT" and kinds(lattice, e.end) & {"TRIF", "TRIPS", "NODE", "NODES"} for e in lattice.edges[p.end]
        )
        if p.end < len(lattice.edges)
        else False
    )


_BEFORE_SO_TALL = _LISTED.words("before_so_tall")


def so_tall(lattice: Lattice, p: Phrase) -> bool:
    """`height of plants 24 in.`, `plants 30" tall`: how tall they are, and no plant 24."""
    if not kinds(lattice, p.end) & {"INCH", "CM", "FOOT"}:
        return False
    of = {text(lattice, i) for i in range(max(0, p.start - 3), p.start)} & _BEFORE_SO_TALL
    return text(lattice, p.start) in _MANY or bool(of) or text(lattice, p.end + 1) in {"tall", "high"}


_I_DO = _LISTED.words("i_do")


def i_who_talks(lattice: Lattice, p: Phrase) -> bool:
    """`second plant I get nine trifs`: who counts, and no plant I."""
    return text(lattice, p.end - 1) == "i" and text(lattice, p.end) in _I_DO


def bean_by_number(lattice: Lattice, p: Phrase) -> bool:
    """`bn2 .22`: a bean with its number at it is a plant, and no seed."""
    k = p.start + 1
    figure = lattice.pieces[k] if k < len(lattice.pieces) else None
    return text(lattice, p.start) in {"bn", "bean"} and figure is not None and figure.form == "int" and figure.glued


def no_bean_label(lattice: Lattice, p: Phrase) -> bool:
    """`Bean three, seed an eighth`: a plant; `beans 3` are not."""
    if p.path[0][1].kind != "BEAN" or len(p.path) > 2:
        return False
    before = lattice.pieces[p.start - 1] if p.start else None
    begins = before is None or before.form in {"nl", "mark"}
    glued = lattice.pieces[p.start + 1].glued and not text(lattice, p.start).endswith("s")  # bn1 .25 pod
    told = text(lattice, p.start) == "bean" and text(lattice, p.end) in {",", ":", "has", "had"}
    return not (begins and (glued or told))


_WHOSE = _LISTED.words("whose")
_BEHIND_A_THRESHOLD = _COMMON.words("being") | {":", "=", "for", "to"}


def a_threshold(lattice: Lattice, p: Phrase) -> bool:
    """`our number is 20 so we hold off`, `the number to spray is 250`: from how many on something is done, and no plant."""
    first = p.path[0][1]
    if first.kind != "NUMBERW" or text(lattice, p.start - 1) not in _WHOSE:
        return False
    return text(lattice, first.end) in _BEHIND_A_THRESHOLD


def page(lattice: Lattice, p: Phrase) -> bool:
    """`MG 3.1      p. 2`: a page's number."""
    return text(lattice, p.start) == "p" and text(lattice, p.start + 1) == "." and not no_page(lattice, p)


def letter_behind_a_label(lattice: Lattice, p: Phrase) -> bool:
    """`3  P 45  bloom`, `#3  n9`: the row has its label, and the letter behind it is a sign of what the figure is; `3  p1` is
    the first plant of stop 3."""
    at = next((i for i in range(p.start, p.end) if text(lattice, i) in {"p", "n"}), p.end)
    if at == p.end:
        return False
    if lattice.original(at, at + 1) == "n" and not (at + 1 < p.end and lattice.pieces[at + 1].glued):
        return False  # pl 1 n 2 flowering
    numbers = [text(lattice, i) for i in range(at, p.end) if lattice.pieces[i].form == "int"]
    head = at
    while head and lattice.pieces[head - 1].form != "nl":
        head -= 1
    before = [
        text(lattice, i) for i in range(head, at) if text(lattice, i) not in {"#", ".", ")", ":", "plant", "pl", "plt"}
    ]
    return len(before) == 1 and before[0].isdigit() and bool(numbers) and numbers[0] not in {"1", before[0]}


def a_share(lattice: Lattice, p: Phrase) -> bool:
    """`pulled one plant ninety percent of the pods brown`: so many percent, and no label."""
    return "PCT" in kinds(lattice, p.end)


def nought(lattice: Lattice, p: Phrase) -> bool:
    """`P0 Miller`, `p0 ten trifs`: no plant goes by nought."""
    return text(lattice, p.end - 1) == "0" and "PLETTER" in {e.kind for _, e in p.path}
