"""Plants that go by a letter with a number, or a number with a letter: `pl W1`, `plant C-2`, `plant 2a` (guide 4.7).

Behind a word for a plant such a code is one label, and its figure counts nothing. At the heads of lines that count on
(`E1`, `E2`, `E3`) it may be one: what stands behind decides it there.
"""

from __future__ import annotations

from typing import NamedTuple

from notesparse.language.cues import cue_page
from notesparse.text.net import Edge, Net

_LISTED = cue_page("text/lettered")

_NEVER = _LISTED.words("never")

_LETTERS_BEHIND = frozenset("abcdef")  # plant 2a, and no plant 5R3
_LONGEST = 2  # letters, and figures
_IN_A_ROW = 3  # lines that count on


class Code(NamedTuple):
    """A code: the letters, the number and where it ends."""

    letters: str
    number: int
    end: int


def lettered(net: Net) -> None:
    """Mark the codes that are labels of plants."""
    heads: list[tuple[int, Code]] = []
    behind: list[tuple[int, Code]] = []
    for i, p in enumerate(net.pieces):
        before = net.pieces[i - 1] if i else None
        if p.form not in {"word", "int"} or _stuck(net, i):
            continue
        code = code_at(net, i)
        if before is not None and _names_a_plant(net, i - 1):
            turned = code or _number_first(net, i)
            behind += [(i, turned)] if turned is not None else []
        elif code is not None and (before is None or before.form == "nl"):
            heads.append((i, code))
    told = {(c.letters, c.number) for _, c in behind}
    by_letter = {x for x, _ in told if sum(y == x for y, _ in told) > 1}
    by_number = {n for _, n in told if sum(m == n for _, m in told) > 1}
    for i, c in behind:
        if net.pieces[i].form == "word" or c.letters in by_letter or c.number in by_number:
            _one_label(net, i, c.end)
    named = {c.letters for i, c in behind if net.pieces[i].form == "word"}
    net.coded |= _in_a_row(heads, named)
    for i in range(len(net.pieces) if named else 0):
        again = code_at(net, i) if i not in net.coded else None
        if again is not None and again.letters in named:
            _one_label(net, i, again.end)  # same as C-1


def code_at(net: Net, i: int) -> Code | None:
    """`W1`, `C-2` at piece i: the letters, a figure that stands at them, and nothing that stands at it."""
    p = net.pieces[i]
    if p.form != "word" or _stuck(net, i) or len(p.text) > _LONGEST or not p.text.isalpha() or p.text in _NEVER:
        return None
    if any(e.kind in {"BEAN", "PLANT", "STOP"} and e.end == i + 1 and e.how == "exact" for e in net.edges[i]):
        return None  # bn1: bean 1
    k = i + 1
    if net.at(k) == "-" and net.glued(k) and net.glued(k + 1):
        k += 1
    figure = net.piece(k)
    if figure is None or figure.form != "int" or not figure.glued or len(figure.text) > _LONGEST:
        return None
    if _stuck(net, k + 1) and (net.pieces[k + 1].form != "mark" or (net.at(k + 1) in "-/.'" and _stuck(net, k + 2))):
        return None
    return Code(p.text, int(figure.text), k + 1)


def _number_first(net: Net, i: int) -> Code | None:
    """`2a` at piece i."""
    p, letter = net.pieces[i], net.piece(i + 1)
    if p.form != "int" or len(p.text) > _LONGEST or letter is None or not letter.glued:
        return None
    if letter.text not in _LETTERS_BEHIND or (_stuck(net, i + 2) and net.pieces[i + 2].form != "mark"):
        return None
    return Code(letter.text, int(p.text), i + 2)


def _stuck(net: Net, i: int) -> bool:
    """Piece i stands at the one before it, and that is no line's end and no sign for a number."""
    before, p = net.piece(i - 1), net.piece(i)
    return (
        p is not None
        and p.glued
        and p.form != "nl"
        and before is not None
        and before.form != "nl"
        and before.text != "#"
    )


def _names_a_plant(net: Net, i: int) -> bool:
    return net.at(i) == "#" or any(e.kind == "PLANT" and e.end == i + 1 and e.how == "exact" for e in net.edges[i])


def _one_label(net: Net, i: int, end: int) -> None:
    """The code is a letter by which a plant goes, and none of its parts is anything else."""
    for k in range(i, end):
        net.edges[k] = []
        net.filler[k], net.soft[k], net.known[k] = False, None, True
    net.edges[i] = [Edge(end, "LETTER", net.original(i, end).casefold(), 0.0, "exact")]
    net.coded[i] = end


def _in_a_row(heads: list[tuple[int, Code]], named: set[str]) -> dict[int, int]:
    """The codes at the heads of lines that count on, three and more of them, or of letters by which plants go."""
    runs: list[list[tuple[int, Code]]] = []
    for i, c in heads:
        run = next((r for r in runs if r[-1][1].letters == c.letters and r[-1][1].number + 1 == c.number), None)
        if run is None:
            runs.append([(i, c)])
        else:
            run.append((i, c))
    good = [r for r in runs if len(r) >= _IN_A_ROW or r[0][1].letters in named]
    return {i: c.end for r in good for i, c in r}
