"""Marks: what it costs a phrase to pass one by, and the few that mean something by themselves."""

from __future__ import annotations

from itertools import pairwise, takewhile

from notesparse.language.cues import cue_page
from notesparse.text import match
from notesparse.text.net import Edge, Net
from notesparse.text.scan import Piece

_LISTED = cue_page("text/marks")
_COMMON = cue_page("shared")

_OF_ALL = _LISTED.words("of_all")
_SAID_FIRST = _LISTED.words("said_first")
_ORGANS = frozenset({"FLOWER", "POD", "SEED"})
_NEAR_AN_ORGAN = _ORGANS | {"FRAC", "DEC", "INCH", "MM", "CM"}


def mark(net: Net, i: int) -> None:
    """The mark at piece i."""
    p = net.pieces[i]
    net.known[i] = True
    if p.text == "@":
        _at_a_node(net, i)
    if p.text in ",;":
        net.soft[i] = 0.5
    elif p.text in ":()=~>_|" or not p.text.isascii():
        net.soft[i] = 0.15
        if p.text == "=":
            _like_another(net, i)
    elif p.text == "-":
        net.soft[i] = 0.2
        _dash(net, i)
    elif p.text == ".":
        _dot(net, i)
    elif p.text in "'\"":
        net.soft[i] = 0.3
        if p.text == '"':
            _double_stroke(net, i)


def _like_another(net: Net, i: int) -> None:
    """`p4 = p2`, `#3 = #1`, `plant 3 = plant 1`: between two plants it says that the one is like the other."""
    after = net.piece(i + 1)
    if after is None or i < _LABEL or net.pieces[i - 1].form not in {"int", "word"}:
        return
    if after.text == net.at(i - _LABEL) and after.text in _OF_A_LABEL:
        net.add(i, i + 1, "LIKE", "same", 0.0, "exact")


_LABEL = 2  # pieces of a plant's label: p2, #2, plant 2
_OF_A_LABEL = _COMMON.words("plant") | _COMMON.words("number") | {"p"}


def _at_a_node(net: Net, i: int) -> None:
    """`fl @ 2`"""
    after = net.piece(i + 1)
    if after is not None and after.form == "int" and len(after.text) <= 2 and organ_before(net, i):
        net.add(i, i + 1, "ATMARK", "at", 0.0, "exact")


def organ_before(net: Net, i: int) -> bool:
    """A flower, pod, seed or size on the same line, not far before piece i, or a cell that begins here."""
    for k in range(i - 1, max(-1, i - 9), -1):
        if net.pieces[k].form == "nl":
            break
        if any(e.kind in _NEAR_AN_ORGAN for e in net.edges[k]):
            return True
    return False


def _dash(net: Net, i: int) -> None:
    """A dash behind an organ, at a cell's end, says that there is none: `fl -   pp -`."""
    after = net.piece(i + 1)
    k = i - 1 if i > 1 and net.pieces[i - 1].text in {":", "="} else i  # pd: -
    if (
        i
        and (net.pieces[i].gap == 1 or k < i)
        and (after is None or after.form == "nl" or after.gap >= 2 or (after.text in ",;" and after.glued))
        and any(e.kind in _ORGANS and e.end == k and e.how == "exact" for e in net.edges[k - 1])
    ):
        net.add(i, i + 1, "NONE", "none", 0.0, "exact")
        if k < i:
            net.soft[k] = 0.0


_WEEKDAYS = _LISTED.words("weekdays")
_MONTHS = _LISTED.words("months")


def _dot(net: Net, i: int) -> None:
    p = net.pieces[i]
    if (net.at(i + 1) == "." and net.glued(i + 1)) or (p.glued and net.at(i - 1) == "."):
        net.soft[i] = 0.1  # dots that lead the eye over a gap
        return
    before = net.piece(i - 1)
    if p.glued and net.at(i - 1) == "no" and _counts(net, i + 1):
        net.edges[i - 1] = [Edge(i + 1, "FILLER", "", 0.0, "exact")]
        return
    if before is not None and p.glued and before.form == "word" and match.is_abbreviation(before.text):
        if not _sentence_after(net, i):
            net.soft[i] = 0.05


_COUNTED = _LISTED.words("counted")


def _counts(net: Net, i: int) -> bool:
    """`No. in bloom of 25 = 14`: the number of them, and no denial; a figure stands on its line."""
    if net.at(i) not in _COUNTED or not net.pieces[i].gap or net.original(i, i + 1)[:1].isupper():
        return False
    if i > 2 and net.pieces[i - 3].form != "nl" and net.at(i - 3) not in {".", ":", ";", ","}:
        return False  # any pods? no. in bloom though
    line = [p.text if p.form != "int" else "#" for p in takewhile(_on_the_line, net.pieces[i:])]
    return any({a, b} in ({"of", "#"}, {":", "#"}, {"=", "#"}) for a, b in pairwise(line))


def _on_the_line(p: Piece) -> bool:
    return p.form != "nl" and p.text not in {".", ";"}


def _an_answer(net: Net, i: int) -> bool:
    """`bl. none`, `pd. none, sd. none`: nothing more is said behind the none at piece i."""
    after = net.piece(i + 1)
    return net.at(i) == "none" and (
        after is None or after.form == "nl" or after.text in {",", ";", "."} or after.gap > 1
    )


def _sentence_after(net: Net, i: int) -> bool:
    """`eight tf. River Bottom: plant 1 ...`: a small abbreviation that ends a sentence, since a capital follows."""
    after = net.piece(i + 1)
    day = net.pieces[i - 1].text in _WEEKDAYS and i > 1 and net.pieces[i - 2].form == "word"
    if after is None or after.form != "word" or after.glued or not (net.original(i - 1, i).islower() or day):
        return False
    word = net.original(i + 1, i + 2)
    if word in _SAID_FIRST and after.gap:
        return True  # water over the rd. oh & Dry Run has waterhemp
    if word in _OF_ALL and after.gap and not _an_answer(net, i + 1):
        return True  # pods 8mm second nd dn. all 3 still blooming
    if day and after.text[:3] in _MONTHS:
        return False  # came by Fri. July 8
    return len(word) > 1 and word[0].isupper() and word[1:].islower()


def _double_stroke(net: Net, i: int) -> None:
    """Inches behind a figure (3/16 "), or the same again in a cell of its own."""
    p, before, after = net.pieces[i], net.piece(i - 1), net.piece(i + 1)
    if (
        before is not None
        and not p.glued
        and p.gap == 1
        and (before.form == "dec" or (before.form == "int" and net.at(i - 2) == "/"))
    ):
        net.edges[i] = [Edge(i + 1, "INCH", "inch", 0.1, "exact")]
    elif net.at(i - 1) == net.at(i + 1) == "-" and p.glued and net.glued(i + 1):  # pl 4   -"-
        net.edges[i - 1] = [Edge(i + 2, "DITTOMARK", "same", 0.0, "exact")]
    elif (after is None or after.form == "nl" or after.gap >= 2) and (
        before is None or before.form == "nl" or not p.glued
    ):
        net.edges[i] = [Edge(i + 1, "DITTOMARK", "same", 0.0, "exact")]
