"""Blocks that look like a table and were not understood as one: prose must not take their cells for facts of a plant.

Lines of bare figures and signs in columns say nothing without their heads. Where no table claims them they are unread,
together with the heads over them (guide 1.4).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import read_heads
from notesparse.observing.paper.letter_keys import letters_paired
from notesparse.observing.paper.places_down import without_the_day
from notesparse.observing.paper.row_labels import labels_of, read_label
from notesparse.observing.paper.rows import Grid
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, apart, cut_at
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/guard")

WHY = "a table whose heads are not understood"
_FEWEST_CELLS = 3
_FEWEST_SIGNS = 5  # single letters and signs at a line's end
_FEWEST_STROKES = 3
_FEWEST_COMMAS = 2
_THINGS = frozenset({"TRIF", "NODES", "FLOWER", "POD", "SEED", "BEAN", "BROWN", "R", "V", "UNI", "FIELDNOUN"})
_FEWEST_LINES = 2
_FEWEST_HANGING = 2  # cells of a row with words, next to the block
_MOST_HEADS = 3  # lines of heads over a block
_SHARE = 0.6  # of the cells of a line that are bare
_LONGEST = 3  # pieces of a bare cell
_LONGEST_SIZE = 7  # 1 3/4"
_LONGEST_HEAD = 14  # pieces of a head in words
_MEASURED = frozenset({"trifoliates", "nodes", "flowers", "pods", "seeds", "brown"})
_OF_VISITS = _LISTED.words("of_visits")


def find_strange(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[tuple[int, int]]:
    """The first and last line of each such block; `taken` are the lines of tables."""
    out: list[tuple[int, int]] = []
    k = 0
    while k < len(lines):
        if not bare_line(lattice, lines[k], taken):
            k += 1
            continue
        last, n, m = k, 1, k + 1
        while m < len(lines) and m <= last + 2:
            if bare_line(lattice, lines[m], taken):
                last, n = m, n + 1
            elif not _ruled(lattice, lines[m]) and not (m not in taken and _opens(lattice, lines[m])):
                break
            m += 1
        if n >= _FEWEST_LINES:
            while last + 1 < len(lines) and (
                _hangs_on(lattice, lines[last + 1], taken) or _same_bars(lattice, lines[last], lines[last + 1], taken)
            ):
                last += 1
            first = k
            while first and (
                _hangs_on(lattice, lines[first - 1], taken)
                or _same_bars(lattice, lines[first], lines[first - 1], taken)
            ):
                first -= 1
            out.append((_with_heads(lattice, lines, first, taken), last))
        k = last + 1
    return out


def _cells(lattice: Lattice, line: Line) -> list[Cell]:
    pieces = lattice.pieces[line.start : line.end]
    texts = [p.text for p in pieces]
    strokes = any(p.text == "|" and p.glued and q.text == "|" for q, p in itertools.pairwise(pieces))
    mark = next((m for m in "|;" if texts.count(m) >= 2 and not (m == "|" and strokes)), None)
    tight = sum(p.text == "," and q.glued for p, q in itertools.pairwise(pieces))
    if mark is None and tight >= _FEWEST_CELLS and tight == texts.count(","):
        mark = ","  # plant,A,B,C
    return cut_at(lattice.pieces, line.start, line.end, mark) if mark is not None else list(line.cells)


def _of_a_finding(lattice: Lattice, line: Line) -> bool:
    """`stink bugs per 25 sweeps    1    0    3    0`: prose reads its counts, unless they stand under an average."""
    units = {"PER", "SWEEP", "FOOT", "PLANT", "PCT"}
    heads = [p for p in phrases_at(lattice, line.start) if p.rule == "findhead"]
    first = line.cells[0]
    told = any(e.kind in units for i in range(line.start, first.end) for e in lattice.edges[i])
    return bool(heads) and told and len(line.cells) > 1


def bare_line(lattice: Lattice, line: Line, taken: set[int]) -> bool:
    if line.blank or line.number in taken or _ruled(lattice, line) or _of_a_finding(lattice, line):
        return False
    cells = _cells(lattice, line)
    bare = [c for c in cells if _bare(lattice, c)]
    figures = sum(lattice.pieces[c.start].form in {"int", "dec"} or lattice.pieces[c.start].text in "rv" for c in bare)
    if len(cells) < _FEWEST_CELLS or (figures < 1 and len(bare) < _FEWEST_CELLS):
        return False
    if all(_says_so(lattice, line, c) for c in bare) and any(lattice.pieces[c.start].text in "rv" for c in bare):
        return False  # #1   13 trif   V14   R3
    return len(bare) == len(cells) or (len(cells) > _FEWEST_CELLS and len(bare) >= _SHARE * len(cells))


def _says_so(lattice: Lattice, line: Line, c: Cell) -> bool:
    """A stage by its code, or the label of the row: needs no head."""
    if any(p.rule == "stage" and p.end == c.end for p in phrases_at(lattice, c.start)):
        return True
    label = read_label(lattice, line.start, line.end) if c.start == line.start else None
    return label is not None and label[1] == c.end


def _bare(lattice: Lattice, c: Cell) -> bool:
    """A figure, a sign, a stage code: nothing that names what it is of."""
    sized = any(p.form in {"int", "dec"} for p in lattice.pieces[c.start : c.end])
    longest = _LONGEST_SIZE if sized else _LONGEST
    if c.end - c.start > longest and any(p.text not in "|/\\" for p in lattice.pieces[c.start : c.end]):
        return False
    if squeeze(lattice.original(c.start, c.end)) in column_words().cells or lattice.coded.get(c.start) == c.end:
        return True  # -, W1
    pieces = lattice.pieces[c.start : c.end]
    if all(p.text in "|/\\" for p in pieces):
        return True  # strokes
    if len(pieces) <= 2 and pieces[0].text in {"r", "v"}:
        return True
    if len(pieces) == 2 and pieces[0].form == "int" and pieces[1].glued and len(pieces[1].text) == 1:
        return True  # 5r, 4+
    return all(p.form in {"int", "dec", "mark"} for p in pieces) or (len(pieces) == 1 and len(pieces[0].text) == 1)


def _hangs_on(lattice: Lattice, line: Line, taken: set[int]) -> bool:
    """A row of the block with words in it: a label at its head, then cells."""
    if line.blank or line.number in taken or len(_cells(lattice, line)) < _FEWEST_HANGING:
        return False
    return read_label(lattice, line.start, line.end) is not None


def _same_bars(lattice: Lattice, a: Line, b: Line, taken: set[int]) -> bool:
    """Whether line b is parted by as many drawn lines as line a of the block."""
    if b.blank or b.number in taken:
        return False
    bars = [sum(p.text == "|" for p in lattice.pieces[x.start : x.end]) for x in (a, b)]
    return bars[0] == bars[1] >= _FEWEST_HANGING


def _ruled(lattice: Lattice, line: Line) -> bool:
    return not line.blank and all(p.text in "-_=|+*." for p in lattice.pieces[line.start : line.end])


_BEHIND_NUMBERED = _COMMON.words("ordinal_tails") | {"ths"}
_BEFORE_NUMBERED = _LISTED.words("before_numbered")


def _numbered(lattice: Lattice, i: int) -> bool:
    """A figure of a head: `1st trif`, `R2?`, `top 4`."""
    after = lattice.pieces[i + 1] if i + 1 < len(lattice.pieces) else None
    if after is not None and after.glued and after.text in _BEHIND_NUMBERED:
        return True
    before = lattice.pieces[i - 1].text if i else ""
    return before in _BEFORE_NUMBERED or (
        before in {"r", "v"} and lattice.pieces[i].glued and after is not None and after.text == "?"
    )


def _opens(lattice: Lattice, line: Line) -> bool:
    """`Flowers:` alone on a line: what the rows under it are of."""
    if line.blank or len(line.cells) != 1 or lattice.pieces[line.end - 1].text != ":":
        return False
    got = read_heads(lattice, [range(line.start, line.end)])
    return len(got) == 1 and bool(got[0].what)


_NEAR = 3  # lines below a table that its key may stand at


def lost_keys(lattice: Lattice, lines: Sequence[Line], grids: Sequence[Grid], taken: set[int]) -> set[int]:
    """Lines under a table that begin with a sign of its cells and go on in words: a key, and no plant of its own."""
    out: set[int] = set()
    for grid in grids:
        signs = {
            lattice.pieces[a].text
            for row in grid.rows
            for cells in row.cells.values()
            for a, b in cells
            if b == a + 1 and lattice.pieces[a].form == "mark"
        }
        for n in range(grid.last + 1, min(grid.last + 1 + _NEAR, len(lines))):
            line = lines[n]
            if line.blank or n in taken or line.end - line.start < 2:
                continue
            if lattice.pieces[line.start].text in signs and lattice.pieces[line.start + 1].form == "word":
                out.add(n)
    return out


def heads_alone(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[tuple[int, int]]:
    """Heads known word for word with lines of cells under them that no table took: first and last line of each."""
    out: list[tuple[int, int]] = []
    k = 0
    while k < len(lines):
        if k in taken or not _all_heads(lattice, lines[k]):
            k += 1
            continue
        last = k
        while last + 1 < len(lines) and last + 1 not in taken:
            line = lines[last + 1]
            if line.blank or (len(_cells(lattice, line)) < _FEWEST_HANGING and not _ruled(lattice, line)):
                break
            last += 1
        if last > k:
            out.append((k, last))
        k = last + 1
    return out


def _all_heads(lattice: Lattice, line: Line) -> bool:
    """Three or more cells, each of them a head of a table and nothing else."""
    if line.blank or len(_cells(lattice, line)) < _FEWEST_CELLS:
        return False
    things = 0
    for c in _cells(lattice, line):
        texts = [lattice.pieces[i].text for i in range(c.start, c.end)]
        if any(lattice.pieces[i].form in {"dmy", "dec", "big"} for i in range(c.start, c.end)):
            return False
        if labels_of(lattice, c.start, c.end) is not None and lattice.pieces[c.start].form == "word":
            things += 1
            continue
        if set(texts) <= _OF_VISITS:
            continue
        if any(lattice.pieces[i].form == "int" for i in range(c.start, c.end)):
            return False
        got = read_heads(lattice, [range(c.start, c.end)])
        if len(got) != 1 or not got[0].known or got[0].unknown:
            return False
        things += 1
    return things >= _FEWEST_HANGING


def _with_heads(lattice: Lattice, lines: Sequence[Line], first: int, taken: set[int]) -> int:
    """The line where the heads over a block begin."""
    k = first
    while k > 0 and first - k < _MOST_HEADS:
        line = lines[k - 1]
        if not line.blank and line.number not in taken and _opens(lattice, line):
            k -= 1
            continue
        if line.blank or line.number in taken:
            break
        if len(_cells(lattice, line)) < 2 and not _ruled(lattice, line) and not _aside(lattice, line):
            break
        if any(e.kind in {"MONTH", "FIELDCUE"} for i in range(line.start, line.end) for e in lattice.edges[i]):
            break
        pieces = lattice.pieces[line.start : line.end]
        ints = sum(p.form == "int" and not _numbered(lattice, i) for i, p in enumerate(pieces, line.start))
        if ints or any(p.form in {"dec", "dmy", "big"} for p in pieces):
            break
        k -= 1
    return k


def _aside(lattice: Lattice, line: Line) -> bool:
    """`(16ths of an inch)` alone on a line under the heads: what belongs to one of them."""
    return lattice.pieces[line.start].text == "(" and lattice.pieces[line.end - 1].text == ")"


def doubtful(lattice: Lattice, lines: Sequence[Line], grids: Sequence[Grid], aside: set[int]) -> set[int]:
    """The lines of grids that go on, with no blank line between, in rows that they do not hold, and of those rows.

    A layout that explains only a part of a block is not the block's layout.
    """
    taken = {n for g in grids for n in range(g.first, g.last + 1)} | aside
    out: set[int] = set()
    for g in grids:
        more = _run(lattice, lines, g.last + 1, 1, taken) | _run(lattice, lines, g.first - 1, -1, taken)
        if more:
            out |= more | set(range(g.first, g.last + 1))
    return out


def signs_alone(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> set[int]:
    """Lines that end in a row of single letters and signs (`trif 1   o o o r r`), or that strokes part into bare figures
    and signs (`13 / 14 / gone / 5/8 / no`): nobody can tell what they say without their key or head."""
    out: set[int] = set()
    for line in lines:
        if line.blank or line.number in taken:
            continue
        if letters_paired(lattice, line):
            out.add(line.number)  # 8 b   9 t: letters that no key explains
            continue
        k = line.end
        while k > line.start and len(lattice.pieces[k - 1].text) == 1 and not lattice.pieces[k - 1].glued:
            k -= 1
        row = range(k, line.end)
        letters = {lattice.pieces[i].text for i in row if lattice.pieces[i].form == "word"}
        if len(row) >= _FEWEST_SIGNS and letters and len({lattice.pieces[i].text for i in row}) < len(row):
            out.add(line.number)
            continue
        strokes = [i for i in range(line.start + 1, line.end - 1) if lattice.pieces[i].text == "/"]
        strokes = [i for i in strokes if lattice.pieces[i].gap and lattice.pieces[i + 1].gap]
        if len(strokes) >= _FEWEST_STROKES:
            own = [i for i in range(line.start, line.end) if not lattice.pieces[i].glued]
            named = any(e.kind in _THINGS and e.how == "exact" for i in own for e in lattice.edges[i])
            if not named and read_label(lattice, line.start, line.end) is not None:
                out.add(line.number)
    return out


def heads_in_words(lattice: Lattice, lines: Sequence[Line], held: set[int], strange: set[int]) -> list[tuple[int, int]]:
    """`longest pod on the top 4 nodes, inches`, `node of the top bloom, counting down` over rows: cells that say how a thing
    was measured or counted, and of what no value is told. No plant has a pod for that."""
    out: list[tuple[int, int]] = []
    for line in lines:
        if line.blank or read_label(lattice, line.start, line.end) is not None:
            continue
        below = [x for x in lines[line.number + 1 : line.number + 2 + _NEAR] if not x.blank]
        lost = any(x.number in strange for x in below[:2])
        if not lost and not any(read_label(lattice, x.start, x.end) or _some_bare(lattice, x) for x in below):
            continue
        for c in line.cells:
            part = _says_how(lattice, c.start, c.end, lost)
            if part is not None and held.isdisjoint(range(*part)):
                out.append(part)
    return out


def _some_bare(lattice: Lattice, line: Line) -> bool:
    return sum(_bare(lattice, c) for c in _cells(lattice, line)) >= _FEWEST_HANGING


def _says_how(lattice: Lattice, a: int, b: int, lost: bool) -> tuple[int, int] | None:
    """The words of a cell that are a head with its unit, its measure or how its nodes are counted, without a day before or
    behind them; over a table that nobody could read a place is enough."""
    a, b = without_the_day(lattice, a, b)
    own = lattice.pieces[a:b]
    if not own or b - a > _LONGEST_HEAD or any(p.form in {"dec", "dmy", "big"} for p in own):
        return None
    if any(p.text in {"inch", '"'} for p in own) or any(
        own[k].form == "int" and not _of_a_place(lattice, a + k) for k in range(b - a)
    ):
        return None  # pods an inch long
    got = read_heads(lattice, [range(a, b)])
    if any(c.unknown or c.label for c in got) or not any(set(c.what) & _MEASURED for c in got):
        return None
    how = any(c.unit or c.measure or c.by_node or (lost and c.place) for c in got)
    return (a, b) if how else None


_BEHIND_OF_A_PLACE = _COMMON.words("top") | _COMMON.words("ordinal_tails") | {"ths", "upper"}


def _of_a_place(lattice: Lattice, i: int) -> bool:
    """A figure that counts nodes of a place, or says in what an inch is parted."""
    return _numbered(lattice, i) or lattice.at(i + 1) in _BEHIND_OF_A_PLACE


def stroked_rows(lattice: Lattice, lines: Sequence[Line], taken: set[int], strange: set[int]) -> set[int]:
    """`4 / 11 / 3 / 4` over `5 / 10 / no pods`, `1/11/y` over `2/12/n`: rows parted by strokes whose heads are not told.
    Words in one of them say nothing of a plant that is the first figure."""
    marked = [n for n, line in enumerate(lines) if not line.blank and _stroked(lattice, line)]
    rows = {n for n in marked if n - 1 in marked or n + 1 in marked}
    lost = {n for n in rows if n not in taken or n in strange}
    heads = {
        k
        for n in lost
        for k in (n - 2, n - 1, n + 1, n + 2)
        if 0 <= k < len(lines) and _heads_in_strokes(lattice, lines[k])
    }
    return (lost | heads) - taken


def barred_pairs(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> set[int]:
    """`1 | 8` over `2 | 7`: a label and a bare figure with a drawn line between, under a head that was not understood."""
    rows = {n for n, line in enumerate(lines) if n not in taken and not line.blank and _barred_pair(lattice, line)}
    rows = {n for n in rows if {n - 1, n + 1} & rows}
    heads = {n - 1 for n in rows if n and n - 1 not in rows | taken and not lines[n - 1].blank}
    return rows | {n for n in heads if any(lattice.at(i) == "|" for i in range(lines[n].start, lines[n].end))}


def _barred_pair(lattice: Lattice, line: Line) -> bool:
    pieces = lattice.pieces[line.start : line.end]
    if not _LONGEST <= len(pieces) <= _LONGEST + _FEWEST_HANGING or pieces[0].form != "int" or pieces[1].text != "|":
        return False
    return all(p.form in {"int", "dec"} or p.text in "/-" for p in pieces[2:])


def _heads_in_strokes(lattice: Lattice, line: Line) -> bool:
    """`PL / TRI / POD IN. / WHERE`: words parted by strokes, and no figure."""
    own = lattice.pieces[line.start : line.end]
    strokes = sum(p.text == "/" for p in own)
    return strokes >= _FEWEST_COMMAS and not any(p.form in {"int", "dec", "dmy", "big"} for p in own)


def _stroked(lattice: Lattice, line: Line) -> bool:
    """A line of a figure, a stroke, another figure, a stroke, with blanks around them or with no figure behind."""
    pieces = lattice.pieces[line.start : line.end]
    if [p.form for p in pieces[:4]] != ["int", "mark", "int", "mark"] or pieces[1].text + pieces[3].text != "//":
        return False
    return bool(pieces[1].gap and pieces[3].gap) or (len(pieces) > _LONGEST and pieces[4].form != "int")


def listed_heads(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> set[int]:
    """`pods/plt, longest, seed` over `A  38, 1 3/4, touching`: heads with commas between, which no table took, and their rows."""
    out: set[int] = set()
    for line in lines[:-1]:
        commas = _commas(lattice, line)
        if commas < _FEWEST_COMMAS or line.number in taken or line.number in out:
            continue
        if any(lattice.pieces[i].form in {"int", "dec", "dmy", "big"} for i in range(line.start, line.end)):
            continue
        got = [read_heads(lattice, [range(c.start, c.end)]) for c in cut_at(lattice.pieces, line.start, line.end, ",")]
        if 2 * sum(
            any(h.what or h.measure for h in heads) and not any(h.unknown for h in heads) for heads in got
        ) < len(got):
            continue
        rows: set[int] = set()
        for row in lines[line.number + 1 :]:
            label = None if row.blank else read_label(lattice, row.start, row.end)
            if label is None or row.number in taken or not (_commas(lattice, row) == commas or rows):
                break
            rows.add(row.number)
        if len(rows) >= _FEWEST_LINES:
            out |= rows | {line.number}
    return out


def _commas(lattice: Lattice, line: Line) -> int:
    return sum(lattice.pieces[i].text == "," for i in range(line.start, line.end))


def more_rows(lattice: Lattice, lines: Sequence[Line], grids: Sequence[Grid], taken: set[int]) -> set[int]:
    """Lines right under a table with a cell under each of its heads, one of them bare, that it did not take: rows of no plant."""
    out: set[int] = set()
    for g in grids:
        extents = [(c.left, c.right) for c in g.columns if c.pieces]
        if len(extents) < _FEWEST_HANGING or g.first > g.last:
            continue
        for line in lines[g.last + 1 :]:
            if line.blank or line.number in taken or len(line.cells) != len(extents):
                break
            under = [apart((c.left, c.right), x) == 0 for c, x in zip(line.cells, extents, strict=True)]
            if not all(under) or not any(_bare(lattice, c) for c in line.cells):
                break
            out.add(line.number)
    return out


def _run(lattice: Lattice, lines: Sequence[Line], at: int, step: int, taken: set[int]) -> set[int]:
    out: set[int] = set()
    while 0 <= at < len(lines) and bare_line(lattice, lines[at], taken):
        out.add(at)
        at += step
    return out


def above(lattice: Lattice, lines: Sequence[Line], strange: set[int], ran: set[int]) -> set[int]:
    """Lines of figures right over a strange block that were taken for a row of values under a head, with that head."""
    out: set[int] = set()
    for first, _ in runs_of(strange):
        k = first - 1
        while (
            k >= 0 and bare_line(lattice, lines[k], set()) and not ran.isdisjoint(range(lines[k].start, lines[k].end))
        ):
            out.add(k)
            k -= 1
        if k < first - 1 and k >= 0 and not lines[k].blank:
            if not ran.isdisjoint(range(lines[k].start, lines[k].end)):
                out.add(k)
    return out


def after(lattice: Lattice, lines: Sequence[Line], ran: set[int], taken: set[int]) -> set[int]:
    """Rows of figures right under such a line that nobody took."""
    out: set[int] = set()
    for line in lines[:-1]:
        if not line.blank and not ran.isdisjoint(range(line.start, line.end)):
            out |= _run(lattice, lines, line.number + 1, 1, taken)
    return out


def runs_of(numbers: set[int]) -> list[tuple[int, int]]:
    """The first and last of each run of line numbers."""
    out: list[tuple[int, int]] = []
    for n in sorted(numbers):
        if out and out[-1][1] == n - 1:
            out[-1] = out[-1][0], n
        else:
            out.append((n, n))
    return out
