"""Pulled, dug, sampled: how plants were taken, and which of these words are none."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/labels/samples")
_COMMON = cue_page("shared")


def label_cut(lattice: Lattice, p: Phrase) -> bool:
    """`cut off dead plant four four trifs`: the plant is the next one; `ten plants down one row`: how they were taken."""
    if text(lattice, p.end - 1) == "down" and "row" in {text(lattice, p.end), text(lattice, p.end + 1)}:
        return True
    return p.end > p.start + 1 and text(lattice, p.end - 1) == "plant" and "INT" in kinds(lattice, p.end)


_BEHIND_SOME_OF_THEM = _COMMON.words("them")


def some_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`ten plants pulled seven of them flowering`: seven are a share of the ten."""
    return _of_them(lattice, p.end)


def _of_them(lattice: Lattice, i: int) -> bool:
    """`of them`, `of 'em` at piece i."""
    return text(lattice, i) == "of" and text(lattice, i + 1 + (text(lattice, i + 1) == "'")) in _BEHIND_SOME_OF_THEM


_BEHIND_SKIPPED_A_LEAF = _COMMON.words("the_or_a")


def skipped_a_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`wait, I skipped a leaf, make that twelve`: no field that was skipped."""
    if text(lattice, p.start) not in {"skipped", "skip", "missed"} or p.end != p.start + 1:
        return False
    at = p.end + (text(lattice, p.end) in _BEHIND_SKIPPED_A_LEAF)
    return bool(kinds(lattice, at) & {"LEAF", "TRIF", "NODE", "NODES"})


_SAMPLE = _LISTED.words("sample")
_FEWEST_PODS = 5  # that are counted


def sample_of_pods(lattice: Lattice, p: Phrase) -> bool:
    """`hand sample 20 pods, 14 brown`: so many pods, and no plant 20; `sample 3 pods 1/4 in.`, `sample 5 ... sample 6 pods` are
    plants."""
    if text(lattice, p.start) not in _SAMPLE or not kinds(lattice, p.end) & {"POD"}:
        return False
    many = next((int(e.means) for _, e in p.path if e.kind == "INT"), 0)
    behind = p.end + 1
    over = behind >= len(lattice.pieces) or lattice.pieces[behind].form in {"mark", "nl"}
    alone = sum(x.text in _SAMPLE for x in lattice.pieces) == 1
    return many >= _FEWEST_PODS and over and alone


_BEFORE_OF_A_SPLIT = _LISTED.words("before_of_a_split")


def of_a_split(lattice: Lattice, p: Phrase) -> bool:
    """`a hail-split one`, `a split one`: how the pod is, and no plants that were split open."""
    split = lattice.at(p.start) == "split" and lattice.pieces[p.end - 1].text == "one"
    return split and lattice.at(p.start - 1) in _BEFORE_OF_A_SPLIT


def no_sample(lattice: Lattice, p: Phrase) -> bool:
    """`I pulled`; `the plant I pulled had seven`; `3 4 sampled`; `I took 40 minutes`."""
    if any(e.how == "figure" for _, e in p.path):
        return True
    if "took" in {text(lattice, p.start), text(lattice, p.start + 1)} and not kinds(lattice, p.end) & {"PLANT", "BEAN"}:
        return True  # I took 40 minutes
    by_hand = "pulled" in {text(lattice, p.start), text(lattice, p.start + 1)} and p.path[-1][1].kind == "INT"
    if by_hand and "WEED" in kinds(lattice, p.end):
        return True  # pulled 20 waterhemp by hand
    first = p.path[0][1]
    parted = text(lattice, first.end) in {",", ":", ";", "-", "."}
    if first.kind == "SAMPLED" and parted and kinds(lattice, p.start - 1) & {"PLANT", "INT"}:
        return True  # 15 plants looked at, 9 have ...; looked at 15 plts: 9 have ...
    if first.kind == "SAMPLED":
        return any("HAS" in kinds(lattice, x) for x in range(first.end, p.path[-1][0]))
    return first.kind == "INT" and "INT" in kinds(lattice, p.end) and not _before_some_of_them(lattice, p.end)


def _before_some_of_them(lattice: Lattice, i: int) -> bool:
    """`twelve plants pulled | nine of them at R three`: the next number is a share of those that were pulled."""
    return any(e.kind == "INT" and _of_them(lattice, e.end) for e in lattice.edges[i])


_WHO_LOOKS = _LISTED.words("who_looks")


def dug_to_look(lattice: Lattice, p: Phrase) -> bool:
    """`dug up a plant, 6 nodes`: no damage."""
    return own_digging(lattice, p.start, p.end)


_BEHIND_OWN_DIGGING = _LISTED.words("behind_own_digging")


def own_digging(lattice: Lattice, start: int, end: int) -> bool:
    """`dug up a plant`, `I dug up two plants`: the scout's own sample."""
    if text(lattice, start) != "dug":
        return False
    i = start - 1
    while text(lattice, i) in _WHO_LOOKS:
        i -= 1
    if i >= 0 and lattice.pieces[i].form not in {"mark", "nl"}:
        return False  # coons dug up plants
    a = end + (text(lattice, end) in _BEHIND_OWN_DIGGING)
    many = next((e.end for e in lattice.edges[a] if e.kind == "INT"), a) if a < len(lattice.edges) else a
    return many > end and bool(kinds(lattice, many) & {"PLANT", "PLANTSND"} or text(lattice, many) == "roots")


_SAMPLED_OF = _LISTED.words("sampled_of")
_GONE = _LISTED.words("gone")
_SHORTLY = 5  # pieces behind the numbers


def sent_in(lattice: Lattice, p: Phrase) -> bool:
    """`Tissue samples 1 thru 4 sent in`, `samples 1 and 2 to the lab`: what went to a laboratory, and no plants."""
    if not text(lattice, p.start).startswith(("sample", "specimen")):
        return False
    behind: list[str] = []
    for i in range(p.end, min(p.end + _SHORTLY, len(lattice.pieces))):
        if lattice.pieces[i].form == "nl" or text(lattice, i) in {".", ",", ";", ":"}:
            break
        behind.append(text(lattice, i))
    return text(lattice, p.start - 1) in _SAMPLED_OF or bool(_GONE & set(behind))
