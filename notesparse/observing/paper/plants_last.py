"""Lines that name their plants at the end, behind dots, a dash, a gap or in brackets (guide 4.7, 4.21).

`14 trifs, pods 1" at third node down ...... plants 1, 2 and 5` over `13 trifs, no pods ... plant 3`: what a line says is
said of the plants at its end, and never of those at the end of the line above it.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import labels_of, read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/plants_last")

_FEWEST = 2  # lines
_FEWEST_DOTS = 2
_SEEN = frozenset({"TRIF", "NODES", "FLOWER", "POD", "SEED", "BEAN", "BROWN", "UNI", "COT", "R", "V"})
_LEADS = frozenset({".", "…", "_", "-", "–", "—", "=", ">", ":", "(", "[", ","})
_CLOSES = frozenset({")", "]", ".", ";", ","})
_JOINED = _LISTED.words("joined")
_SAME = frozenset(_LISTED.phrases("same"))
_PLANTS = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {"no"}


def find_plants_last(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[Grid]:
    """All runs of such lines; `taken` are the lines of tables that were found."""
    out: list[Grid] = []
    run: list[tuple[Line, Row, bool]] = []
    told = None  # the line above the run
    for line in [*lines, None]:
        if line is not None and line.blank:
            continue
        got = _row(lattice, line) if line is not None and line.number not in taken else None
        if got is not None and line is not None:
            run.append((line, *got))
            continue
        if (len(run) >= _FEWEST or _led(lattice, run)) and _are_plants(run) and not _ends_with_a_plant(lattice, told):
            first, last = run[0][0], run[-1][0]
            rows = [row for _, row, _ in run]
            head = [i for x, row, _ in run for i in range(row.cells[0][0][1], x.end)]
            out.append(Grid([Column(["note"])], rows, head, first.start, last.end, first.number, last.number))
        run, told = [], line
    return out


def _led(lattice: Lattice, run: Sequence[tuple[Line, Row, bool]]) -> bool:
    """One line alone, with dots or a wide gap before its plants."""
    return any(named and row.label is not None and lattice.pieces[row.label[0]].gap > WIDE for _, row, named in run)


def _are_plants(run: Sequence[tuple[Line, Row, bool]]) -> bool:
    """Whether the plants are surely plants: figures with no word for one count up from one, each named once, and some share a line."""
    labels = [name.casefold() for _, row, _ in run for name in row.labels]
    if all(named for *_, named in run):
        return True
    if len(set(labels)) != len(labels):
        return False
    if all(x.isalpha() for x in labels):
        return any(named for *_, named in run)
    numbers = sorted(int(x) for x in labels if x.isdigit())
    return numbers == list(range(1, len(labels) + 1)) and (len(labels) > len(run) or any(named for *_, named in run))


def _row(lattice: Lattice, line: Line) -> tuple[Row, bool] | None:
    """The row of a line, and whether a word says that its labels are plants."""
    end = line.end
    while end > line.start and lattice.at(end - 1) in _CLOSES:
        end -= 1
    for s in range(line.start + 1, end):
        word = _says_plant(lattice, s)
        before = _before(lattice, line.start, s)
        if not (word and lattice.at(s - 1) not in _JOINED) and (
            word or before is None or not _dotted(lattice, before, s)
        ):
            continue
        begin = s + _past_the_word(lattice, s)
        labels = labels_of(lattice, begin, end) if begin < end else None
        stop = before if before is not None else s
        if labels is None or not _says_something(lattice, line.start, stop):
            continue
        return Row(labels[0], (s, end), {0: [(line.start, stop)]}), word
    return None


def _says_plant(lattice: Lattice, i: int) -> bool:
    named = any(e.kind == "PLANT" and e.how == "exact" for e in lattice.edges[i])
    numbered = (
        lattice.at(i) == "nos" or (lattice.at(i) in {"no", "#"} and lattice.at(i + 1) == ".") or lattice.at(i) == "#"
    )
    return named or numbered


def _past_the_word(lattice: Lattice, s: int) -> int:
    """How many pieces of `nos.`, which no label of a row begins with."""
    return (1 + (lattice.at(s + 1) == ".")) if lattice.at(s) == "nos" else 0


def _before(lattice: Lattice, start: int, s: int) -> int | None:
    """Where the dots, the dash or the bracket before piece s begin; a gap alone has no pieces."""
    k = s
    while k > start and lattice.at(k - 1) in _LEADS:
        k -= 1
    return k if start < k and (k < s or lattice.pieces[s].gap >= WIDE) else None


def _dotted(lattice: Lattice, k: int, s: int) -> bool:
    """Dots, or a drawn line, before a figure."""
    pieces = lattice.pieces
    between = lattice.text[pieces[k - 1].span.end : pieces[s].span.start].strip()
    return len(between) >= _FEWEST_DOTS and not set(between) - set("._-–> ")


def _says_something(lattice: Lattice, a: int, b: int) -> bool:
    """Words of the trade that no label begins and that name no plant."""
    pieces = range(a, b)
    label = read_label(lattice, a, b)
    if label is not None and label[2]:
        return False
    if lattice.original(a, b).casefold() in _SAME:
        return True
    if any(lattice.pieces[i].form in {"dmy", "big"} or _says_plant(lattice, i) for i in pieces):
        return False
    staged = any(p.rule == "stage" and p.end <= b for p in phrases_at(lattice, a))
    return staged or any(e.kind in _SEEN and e.end <= b for i in pieces for e in lattice.edges[i])


def _ends_with_a_plant(lattice: Lattice, line: Line | None) -> bool:
    """`plant 1` alone, or at the end of the line above: each line is of the plant that was named before it."""
    if line is None:
        return False
    for s in range(max(line.start, line.end - 3), line.end):
        if lattice.at(s) in _PLANTS and labels_of(lattice, s, line.end) is not None:
            return True
    return False
