"""Heads over several lines: which cells stand over one another, and the columns that they make (guide 4.21)."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import ORGANS, Column, read_heads, split_line
from notesparse.text.columns import Cell, Line, apart
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/stacked")
_COMMON = cue_page("shared")

SEEN = tuple([w] for w in ORGANS)  # columns of one organ each
_HEIGHT = ("HEIGHTWORD", "height")
_MOST_PIECES = 48  # of a line with heads


def stacked(lines: Sequence[Line]) -> list[list[Cell]]:
    """The cells of a head over several lines, those that stand over one another put together, from left to right."""
    groups: list[list[Cell]] = []
    for line in lines:
        for cell in line.cells:
            hit = [g for g in groups if any(apart((c.left, c.right), (cell.left, cell.right)) == 0 for c in g)]
            if not hit:
                groups.append([cell])
            else:
                hit[0].append(cell)
                for g in hit[1:]:
                    hit[0].extend(g)
                    groups.remove(g)
    for g in groups:
        g.sort(key=lambda c: c.start)
    groups = [part for g in groups for part in _under_one(g, lines)]
    groups.sort(key=lambda g: min(c.left for c in g[-1:]))
    return groups


def _under_one(group: list[Cell], lines: Sequence[Line]) -> list[list[Cell]]:
    """`Pods on top 4` over `number   longest`: a head over several others is a part of each of them."""
    last = [c for c in group if c in lines[-1].cells]
    above = [c for c in group if c not in last]
    if len(last) < 2 or not above:
        return [group]
    out: list[list[Cell]] = []
    for cell in last:
        mine = [
            c
            for c in above
            if apart((c.left, c.right), (cell.left, cell.right)) == 0
            or all(c not in line.cells or sum(x in above for x in line.cells) == 1 for line in lines)
        ]
        out.append([*mine, cell])
    return out


_ALL = _COMMON.words("all_or_each")
_OF_BOTH = _LISTED.words("of_both")


def at_its_node(lattice: Lattice, got: list[Column], columns: Sequence[Column]) -> None:
    """`pod   at node`: a head of nodes alone says where the thing of the column before it was; `node of both` and `their node`
    where the things of the two columns before it were."""
    node = len(got) == 1 and got[0].by_node and got[0].what in ([], ["nodes"]) and not got[0].unknown
    if not (node and columns and columns[-1].what in SEEN):
        return
    got[0].what, got[0].where = list(columns[-1].what), True
    if _OF_BOTH & {lattice.pieces[i].text for i in got[0].pieces}:
        organs = list(itertools.takewhile(lambda c: c.what in SEEN, reversed(columns)))
        got[0].what = list(dict.fromkeys(w for c in reversed(organs) for w in c.what))


def at_their_place(lattice: Lattice, cells: Sequence[Cell], got: list[Column], columns: Sequence[Column]) -> bool:
    """`pod, mm   seed, mm   (both on top four nodes)`, `pods, in.   (top four)`: a place in brackets, or of both, is that of
    the things of the columns before it."""
    only = len(got) == 1 and got[0].place is not None and not (got[0].what or got[0].unknown or got[0].unit)
    words = [lattice.at(i) for c in cells for i in range(c.start, c.end)]
    every = bool(_ALL & set(words[:2]))
    if not only or not (words[0] in {"(", "["} or every):
        return False
    things = list(itertools.takewhile(lambda c: c.what in SEEN, reversed(columns)))
    if not things or (every and len(things) == 1):
        return False
    for c in things if every else things[:1]:
        c.place = c.place or got[0].place
    return True


def head_columns(lattice: Lattice, lines: Sequence[Line], keys: dict[str, Column]) -> list[Column] | None:
    """The columns of a head that stands on these lines; None if it is no head."""
    columns: list[Column] = []
    if any(line.end - line.start > _MOST_PIECES for line in lines):
        return None
    groups = stacked(lines)
    for group in groups:
        got = read_heads(lattice, [range(c.start, c.end) for c in group], keys, bare_measure=True)
        if len(group) > 1 and [c.what for c in got] in ([["seeds"], ["fill"]], [["pods"], ["brown"]]):
            got = got[1:]  # seed over touch, pod over brown
            got[0].pieces = [i for c in group for i in range(c.start, c.end)]
            got[0].left, got[0].right = min(c.left for c in group), max(c.right for c in group)
        if len(got) == 1 and not got[0].what and got[0].measure and columns and not got[0].unknown:
            before = columns[-1]  # no. of pods   longest of those
            if before.what in (["pods"], ["seeds"]):
                got[0].what, got[0].place = list(before.what), got[0].place or before.place
        if [c.what for c in got] == [["plant"], ["finding"]] and len(group) == 1 and got[1].finding == _HEIGHT:
            got = got[1:]  # plant height
            got[0].pieces = list(range(group[0].start, group[0].end))
            got[0].left, got[0].right = group[0].left, group[0].right
        if (
            len(got) == 1
            and lone_node(lattice, got[0])
            and columns
            and columns[-1].what in SEEN
            and (columns[-1].measure or columns[-1].unit)
        ):
            got[0].what, got[0].where = list(columns[-1].what), True  # longest pod   node
        if len(got) == 1 and got[0].percent and not (got[0].what or got[0].unknown):
            ripe = next((c for c in reversed(columns) if c.what != ["total"]), None)
            if ripe is not None and ripe.what == ["brown"]:
                got[0].what = ["brown"]  # pods   brown   %; brown   of   %
                ripe.count = True
        at_its_node(lattice, got, columns)
        if group is groups[-1] and at_their_place(lattice, group, got, columns):
            continue
        if len(got) == 1:
            if any(c in g for g in groups if g is not group for c in group):  # a head over several stands over each
                got[0].left, got[0].right = group[-1].left, group[-1].right
            columns.append(got[0])
            continue
        if not got and len(group) == 1 and columns and is_where(lattice, group[0]) and columns[-1].what[:1] in SEEN:
            columns.append(where_column(group[0], columns[-1]))
            continue
        stroke = any(lattice.pieces[i].text in {"/", "of"} for c in group for i in range(c.start, c.end))
        if [c.what for c in got] in ([["brown"], ["total"]], *([[["brown"], ["pods"]]] if stroke else [])):
            got[0].count = True
            columns.append(got[0])  # mature pods / total pods: the cell says 14 / 32
            got[0].pieces = [i for c in group for i in range(c.start, c.end)]
            got[0].left, got[0].right = min(c.left for c in group), max(c.right for c in group)
            continue
        if len(group) != 1:
            columns.append(_strange(lattice, group))
            continue
        if (
            not got
            and columns
            and columns[-1].what == ["brown"]
            and all(lattice.pieces[i].text in {"of", "out"} for i in range(group[0].start, group[0].end))
        ):
            columns.append(
                Column(["total"], list(range(group[0].start, group[0].end)), group[0].left, group[0].right)
            )  # ripe pods   of
            continue
        if not got and columns and any(lattice.pieces[i].form == "word" for i in range(group[0].start, group[0].end)):
            columns.append(_strange(lattice, group))  # lvs: words that name nothing that is recorded
            continue
        parts = split_line(lattice, group[0].start, group[0].end, keys)
        if not parts:
            return None
        columns += parts
    known = [c for c in columns if c.known and not c.unknown]
    things = [c for c in known if not c.label]
    if not things or (len(known) < 2 and not _strong(things[0])):
        return None
    strange = sum(bool(c.unknown) for c in columns)
    cornered = (
        columns[0].label or columns[0].what == ["stop"] or _like_a_name(lattice, columns[0])
    )  # RIVER LOT, Mill Pond over the labels
    if strange and len(known) < 3 and not (strange == 1 and len(known) == 2 and cornered):
        return None
    if sum(len(c.unknown) for c in columns) > 3:
        return None
    return columns


def _like_a_name(lattice: Lattice, c: Column) -> bool:
    """A head that is not understood, all in capitals, or of several words with a capital each."""
    words = [lattice.original(i, i + 1) for i in c.pieces if lattice.pieces[i].form == "word"]
    titled = len(words) > 1 and all(w[:1].isupper() or w == "'s" for w in words)
    return bool(c.unknown) and bool(words) and (titled or all(w.isupper() for w in words))


def _strange(lattice: Lattice, group: Sequence[Cell]) -> Column:
    """A head over two lines that is not understood: its cells stay unread."""
    own = [i for c in group for i in range(c.start, c.end)]
    words = [i for i in own if lattice.pieces[i].form != "mark"][:1]
    return Column([], own, min(c.left for c in group), max(c.right for c in group), unknown=words or own[:1])


_FOR_LONE_NODE = _LISTED.words("for_lone_node")


def lone_node(lattice: Lattice, c: Column) -> bool:
    """`node` and no more: one node, and no count of them."""
    texts = {lattice.pieces[i].text for i in c.pieces}
    return c.what == ["nodes"] and texts <= _FOR_LONE_NODE and not (c.count or c.measure)


def is_where(lattice: Lattice, cell: Cell) -> bool:
    """`Where`, `where at`: the place on the plant."""
    texts = [lattice.pieces[i].text for i in range(cell.start, cell.end)]
    return bool({"where", "place"} & set(texts)) and len(texts) <= 3


def where_column(cell: Cell, before: Column) -> Column:
    """The column that says where on the plant the thing of the column before it was."""
    return Column(list(before.what), list(range(cell.start, cell.end)), cell.left, cell.right, where=True)


def _strong(c: Column) -> bool:
    """A head that can stand alone over labelled rows: it says a unit or a place."""
    if c.what == ["brown"] and c.count:
        return True
    return c.unit is not None or c.place is not None or c.percent or c.by_node is not None or c.of is not None
