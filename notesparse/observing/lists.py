"""Values listed plant by plant in order: `plants 1 to 12 in order: trifs 7 8 7 ...`, in lines or in prose (guide
4.21)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.fold import numbers_of
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.keyed_cells import apply_codes
from notesparse.observing.paper.keys import Sign
from notesparse.observing.paper.row_labels import DAMAGED
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice
from notesparse.text.struck import struck_out

_COMMON = cue_page("shared")
_LISTED = cue_page("observing/lists")

_WORDED = frozenset({*ORGANS, "top_leaf", "unifoliates", "emerged"})
_STAGES = frozenset({"stage", "r", "v"})
_LONGEST_STRIKE = 12  # pieces
FEWEST, MOST = 3, 60  # plants of a list
_LONGEST_HEAD = 14  # pieces
_LONGEST_PART = 6  # pieces of one plant's words
_LONGEST_UNREADABLE = 4  # pieces of `[...]`
_BETWEEN = _LISTED.words("between")
_HAVE = _COMMON.words("having")
_NAMES_THEM = _LISTED.words("names_them")
_SIGNS = {"no", "yes", "x", "nothing", "unreadable", "same"}


def find_lists(
    lattice: Lattice,
    lines: Sequence[Line],
    taken: set[int],
    keys: dict[str, Column],
    figure: Column | None = None,
    signs: Sequence[Sign] = (),
) -> list[Grid]:
    """All lists of a note; `taken` are the pieces of its tables.

    `figure` is what bare figures are where the key of the page says so, and `signs` are the key's other signs.
    """
    out: list[Grid] = []
    line_of = {i: line.number for line in lines for i in range(line.start, line.end)}
    i = 0
    while i < len(lattice.pieces):
        plants = any(e.kind in {"PLANT", "PLETTER"} and e.cost < 0.9 for e in lattice.edges[i])
        headed = not plants and _headed_range(lattice, i) is not None
        if i in taken or not (plants or headed or lattice.pieces[i].text == "on"):
            i += 1
            continue
        grid = _list_at(lattice, i, taken, keys, figure, signs)
        if grid is None:
            i += 1
            continue
        a, b = line_of[grid.start], line_of[grid.end - 1]
        whole = lines[a].start == grid.start and lines[b].end == grid.end
        grid.first, grid.last = (a, b) if whole else (a + 1, b) if lines[b].end == grid.end else (a + 1, b - 1)
        apply_codes(lattice, grid, signs)
        out.append(grid)
        i = grid.end
    return out


def _list_at(
    lattice: Lattice,
    i: int,
    taken: set[int],
    keys: dict[str, Column],
    figure: Column | None,
    signs: Sequence[Sign],
) -> Grid | None:
    told = frozenset(s.text for s in signs if s.column is None)
    ranges = [p for p in phrases_at(lattice, i) if p.rule == "label" and p.form == "plant_range"]
    label = max(
        ((i, p.end, *numbers_of(p)[:2]) for p in ranges),
        key=lambda r: r[1],
        default=_bare_range(lattice, i) or _headed_range(lattice, i),
    )
    if label is None:
        return None
    begin, stop, low, high = label
    n = high - low + 1
    if not FEWEST <= n <= MOST:
        return None
    rows = [Row((str(k),), (begin, stop), {}) for k in range(low, high + 1)]
    columns: list[Column] = []
    head: list[int] = list(range(begin, stop))
    unread: list[tuple[int, int, str]] = []
    start, end = i, stop
    before = _head_before(lattice, begin, keys)
    before = None if before is not None and before.what == ["stop"] else before  # North end, plants 1 to 5
    if not ranges and before is None:
        return None
    at = stop
    while at < len(lattice.pieces):
        k = _between(lattice, at, head if not columns else [])
        got = (before, k) if before is not None and not columns else _head_at(lattice, k, keys, n)
        if got is None and figure is not None and not columns:
            got = replace(figure, pieces=[]), k
        if got is None:
            break
        column, a = got
        if a < len(lattice.pieces) and lattice.pieces[a].glued and lattice.at(a - 1) in {"r", "v"}:
            break  # plants 1-4 R4, 3/4" pods
        if any(lattice.pieces[x].text in _HAVE for x in range(stop, a)) and (
            lattice.pieces[a].text == "," or lattice.pieces[a - 1].text == "."
        ):
            break  # plants 1-3 have a brown pod. 4 & 5 none
        if lattice.at(a - 1) in _NAMES_THEM and column.what[0] in ORGANS:
            break  # flwrs top 2 nds on 1, 2, 4 and 6
        values, b = _values(lattice, a, taken, told, column.what[0] in _STAGES)
        if column.what[0] in _WORDED and len(values) != n:
            values, b = _parts(lattice, a, n) or (values, b)
        if len(values) < FEWEST or (
            len(values) < n and column.what[0] in ORGANS and _some_of(lattice, values, low, high)
        ):
            break
        columns.append(column)
        head += column.pieces
        if len(values) == n:
            for row, value in zip(rows, values, strict=True):
                row.cells[len(columns) - 1] = [value]
        else:
            unread.append((values[0][0], values[-1][1], f"{len(values)} figures for {n} plants"))
        if before is not None and len(columns) == 1 and column.pieces:
            start = min(start, min(column.pieces))
        at = end = b
    if not columns:
        return None
    return Grid(columns, rows, head, start, end, 0, 0, unread)


def _some_of(lattice: Lattice, values: Sequence[tuple[int, int]], low: int, high: int) -> bool:
    """`blooming: 1, 2 and 4`: some of the plants by their numbers, and no values."""
    if any(lattice.pieces[a].form != "int" or b != a + 1 for a, b in values):
        return False
    numbers = [int(lattice.pieces[a].text) for a, _ in values]
    return low <= numbers[0] and numbers[-1] <= high and all(a < b for a, b in pairwise(numbers))


def _bare_range(lattice: Lattice, i: int) -> tuple[int, int, int, int] | None:
    """`trifs on 1 thru 4 were`: the numbers behind the word at piece i, as (start, end, low, high)."""
    p = lattice.pieces
    if p[i].text != "on" or i + 3 >= len(p) or p[i + 1].form != "int" or p[i + 3].form != "int":
        return None
    through = p[i + 2].text == "-" or any(e.kind == "THRU" for e in lattice.edges[i + 2])
    return (i, i + 4, int(p[i + 1].text), int(p[i + 3].text)) if through else None


_FEWEST_LEAVES = 5
_LEAVES = frozenset({"NODES", "TRIF"})


def _headed_range(lattice: Lattice, i: int) -> tuple[int, int, int, int] | None:
    """`nodes 1 to 4: 12 13 11 12` at the head of a sentence: as many counts as the range has plants, and no nodes from 1 to
    4; the range as (start, end, low, high)."""
    p = lattice.pieces
    if i + 5 >= len(p) or p[i + 1].text != "1" or p[i + 4].text != ":" or p[i + 3].form != "int":
        return None
    if not any(e.kind in _LEAVES and e.end == i + 1 and e.how == "exact" for e in lattice.edges[i]):
        return None
    opens = i == 0 or p[i - 1].form == "nl" or p[i - 1].text in {".", ";"}
    if not opens or not (p[i + 2].text in {"-", "to"} or any(e.kind == "THRU" for e in lattice.edges[i + 2])):
        return None
    high = int(p[i + 3].text)
    values, end = values_at(lattice, i + 5)
    over = end >= len(p) or p[end].form in {"nl", "mark"}
    counts = all(p[a].form == "int" and int(p[a].text) >= _FEWEST_LEAVES for a, _ in values)
    return (i + 1, i + 4, 1, high) if over and counts and len(values) == high else None


_CODES_ALONE = _LISTED.words("codes_alone")


def _between(lattice: Lattice, k: int, head: list[int]) -> int:
    """Past `in order, left to right:` and line ends; the words go to the head."""
    while k < len(lattice.pieces):
        p = lattice.pieces[k]
        if p.form == "nl" or (p.form == "mark" and p.text in ".,;:-=()"):
            k += 1
        elif p.text in _BETWEEN:
            head.append(k)
            k += 1
        else:
            break
    return k


def _parts(lattice: Lattice, a: int, n: int) -> tuple[list[tuple[int, int]], int] | None:
    """`top, top, 2nd dn, none`, `no no top` up to the end of the line: as many parts between commas, or words with nothing
    between, as there are plants."""
    b = a
    while b < len(lattice.pieces) and lattice.pieces[b].form != "nl":
        b += 1
    if b - a == n and all(_says_it(lattice, i) for i in range(a, b)):
        return [(i, i + 1) for i in range(a, b)], b
    commas = [i for i in range(a, b) if lattice.pieces[i].text in {",", ";"}]
    parts = [(x, y) for x, y in zip([a, *(i + 1 for i in commas)], [*commas, b], strict=True)]
    if len(parts) != n or any(not 0 < y - x <= _LONGEST_PART for x, y in parts):
        return None
    return parts, b


def _head_at(lattice: Lattice, k: int, keys: dict[str, Column], n: int = 0) -> tuple[Column, int] | None:
    """The longest head at piece k that values follow: (column, where the values begin)."""
    best: tuple[Column, int] | None = None
    if k < len(lattice.pieces) and lattice.pieces[k].text in _CODES_ALONE:  # in order: VE, V1, VC
        later = next((x for x in range(k + 1, min(k + 3 * n, len(lattice.pieces))) if lattice.at(x) == "v"), None)
        got = read_heads(lattice, [range(later, later + 1)], keys) if later is not None else []
        if len(got) == 1 and got[0].known and len(_values(lattice, k, set(), codes=True)[0]) == n:
            return replace(got[0], pieces=[]), k
    for b in range(k + 1, min(k + _LONGEST_HEAD, len(lattice.pieces) - 1) + 1):
        if lattice.pieces[b - 1].form == "nl":
            break
        got = read_heads(lattice, [range(k, b)], keys)
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
            continue
        a = _past_the_same_order(lattice, b)
        got[0].pieces += range(b, a)
        while (
            a < len(lattice.pieces)
            and lattice.pieces[a].text in {":", "=", "-", "."}
            and not (lattice.pieces[a].text == "-" and a + 1 < len(lattice.pieces) and lattice.pieces[a + 1].gap)
        ):
            a += 1
        codes = got[0].what[0] in _STAGES
        values = len(_values(lattice, a, set(), codes=codes)[0])
        if values >= FEWEST:
            best = (got[0], a)
            if values == n:
                break  # flowers | y y n y n y
        elif a < len(lattice.pieces) and lattice.pieces[a].form == "nl" and n > FEWEST:
            below = _values(lattice, a + 1, set(), codes=codes)[0]
            best = (got[0], a + 1) if len(below) == n else best  # the values on the line below their head
        elif a > b and got[0].what[0] in _WORDED and _parts(lattice, a, n) is not None:
            best = (got[0], a)
    return best


def _says_it(lattice: Lattice, i: int) -> bool:
    """The word at piece i says by itself what there is of a plant: `no`, `top`, `rolled`."""
    sign = column_words().cells.get(lattice.at(i)) in _SIGNS and lattice.pieces[i].form == "word"
    return sign or any(e.kind in _ALONE and e.how == "exact" and e.end == i + 1 for e in lattice.edges[i])


_ALONE = frozenset({"TOP", "LOW", "ROLLED", "OPEN"})


def _past_the_same_order(lattice: Lattice, i: int) -> int:
    """Where `, same order`, `(in the same order)` ends that stands at piece i; i where it does not."""
    k = i
    while k < len(lattice.pieces) and lattice.at(k) in {",", "(", "in", "the", "same"}:
        k += 1
    if k == i or lattice.at(k) != "order":
        return i
    return k + 1 + (lattice.at(k + 1) == ")")


def _head_before(lattice: Lattice, i: int, keys: dict[str, Column]) -> Column | None:
    """`trifs on plants 1 to 12 in order: 7 8 7`: the head that stands before the plants."""
    for a in range(max(0, i - _LONGEST_HEAD), i):
        if any(
            lattice.pieces[k].form == "nl" or (lattice.pieces[k].text in ".;" and lattice.soft[k] is None)
            for k in range(a, i)
        ):
            continue
        got = read_heads(lattice, [range(a, i)], keys)
        if len(got) == 1 and got[0].known and not got[0].unknown and not got[0].label:
            return None if got[0].what == ["nodes"] and _tells_where(lattice, a) else got[0]
    return None


def _tells_where(lattice: Lattice, i: int) -> bool:
    """`longest pod seen, upper four nodes, plants 1 to 6 in order`: the nodes at piece i are a place, and no count."""
    before = lattice.edges[i - 1] if i else []
    return any(e.kind in {"INT", "ORD", "TOP", "TOPSOUND", "LOW"} for e in before)


def _values(
    lattice: Lattice, a: int, taken: set[int], told: frozenset[str] = frozenset(), codes: bool = False
) -> tuple[list[tuple[int, int]], int]:
    """Figures and signs one after the other, with commas or blanks between; and where they end. `told`: signs of the
    key.

    `codes`: stage codes are values too.
    """
    pieces = lattice.pieces
    out: list[tuple[int, int]] = []
    begun: int | None = None  # a struck-out figure goes with the one that stands for it
    k = end = a
    while k < len(pieces) and k not in taken:
        if (pieces[k].text in {",", "and", "&"} and out) or (
            pieces[k].form == "nl" and out and pieces[k - 1].text == ","
        ):
            k += 1
            continue
        struck = struck_out(pieces[k : k + _LONGEST_STRIKE]).get(0) if pieces[k].text.startswith(("xx", "~")) else None
        if struck is not None and k + struck < len(pieces) and pieces[k + struck].form in {"int", "dec"}:
            begun, k = k, k + struck
        first, begun = (k, None) if begun is None else (begun, None)
        edges = [e for e in lattice.edges[k] if e.kind in {"INT", "DEC", "FRAC"} and e.cost < 0.6]
        longest = max((e.end for e in edges), default=k)
        sign = column_words().cells.get(squeeze(pieces[k].text))
        if pieces[k].text == "o" and pieces[k].form == "word" and sign in {"no"} and longest <= k + 1:
            break
        code = codes and pieces[k].text in {"r", "v"} and k + 1 < len(pieces) and pieces[k + 1].form == "int"
        if code or (codes and pieces[k].text in _CODES_ALONE):
            if any(pieces[x].form == "int" and y == x + 1 for x, y in out[1:]):
                return [], a  # plants 1-4 R5, 5 and 6 R6
            out.append((k, k + 1 + code))
            k = end = k + 1 + code
        elif pieces[k].text in told:
            out.append((k, k + 1))
            k = end = k + 1
        elif longest > k and pieces[k].text not in {"a", "no"}:
            if longest < len(pieces) and pieces[longest].glued and pieces[longest].text in told:
                longest += 1  # 4+
            out.append((first, longest))
            k = end = longest
        elif _lone_damaged(lattice, k):
            out.append((k, k + 1))
            k = end = k + 1
        elif out and (shut := _unreadable(lattice, k)) > k:
            out.append((k, shut))
            k = end = shut
        elif sign in _SIGNS and pieces[k].text not in ".;:" and (pieces[k].form == "mark" or len(pieces[k].text) <= 4):
            out.append((k, k + 1))
            k = end = k + 1
        else:
            break
        if k < len(pieces) and pieces[k].text in {"-", "/"} and pieces[k].glued:
            return [], a
    if out and end < len(pieces) and pieces[end].form == "word" and end > a + 1 and pieces[end].glued:
        return [], a
    if out and end < len(pieces) and any(e.kind in _ORGAN_NOUNS and e.how == "exact" for e in lattice.edges[end]):
        while out and pieces[out[-1][0]].form == "word":
            out.pop()  # all V8, no open | flowers
        end = out[-1][1] if out else a
    return out, end


def _lone_damaged(lattice: Lattice, k: int) -> bool:
    """`4  4  S  4`: a letter that old paper has for a figure, alone between two figures or between one and the line's end."""
    stuck = lattice.glued(k) and lattice.at(k - 1) != "\n"
    if lattice.original(k, k + 1) not in DAMAGED or stuck:
        return False
    a, b = k - 1 - (lattice.at(k - 1) == ","), k + 1 + (lattice.at(k + 1) == ",")
    before, after = (lattice.pieces[x].form if 0 <= x < len(lattice.pieces) else "nl" for x in (a, b))
    return {before, after} <= {"int", "nl"} and "int" in {before, after} and not lattice.glued(b)


def _unreadable(lattice: Lattice, k: int) -> int:
    """Where `[blot]`, `(torn)` at piece k ends; k where there is none."""
    if lattice.pieces[k].text not in {"[", "("}:
        return k
    for end in range(k + 2, min(k + _LONGEST_UNREADABLE, len(lattice.pieces)) + 1):
        if column_words().cells.get(squeeze(lattice.original(k, end))) == "unreadable":
            return end
    return k


_ORGAN_NOUNS = frozenset({"FLOWER", "POD", "SEED", "BEAN", "BUD"})
_NAMES_A_PLANT = frozenset({"PLANT", "PLETTER", "HASH", "NUMBERW"})


def numbered_plant(lattice: Lattice, i: int) -> tuple[str, int] | None:
    """`plant 1`, `p1`, `#1` at piece i, as they are spelt: the label, and where it ends."""
    edges = lattice.edges
    said = (e.end for e in edges[i] if e.kind in _NAMES_A_PLANT and e.how == "exact") if i < len(edges) else ()
    at = max(said, default=0)
    if not i < at < len(edges):
        return None
    numbers = [e for e in edges[at] if e.kind == "INT" and e.how == "number"]
    number = max(numbers, key=lambda e: e.end, default=None)
    return (str(number.means), number.end) if number is not None else None


def values_at(lattice: Lattice, a: int) -> tuple[list[tuple[int, int]], int]:
    """The row of figures and signs that begins at piece a, and where it ends."""
    return _values(lattice, a, set())
