"""Lines that begin with where in the field a plant stood: `NW corner ....  13 trif.  pod 1/2 in.`, `middle ...  14 trif`
(guide 4.7, 4.19)."""

from __future__ import annotations

from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.clause_ends import end_clause
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.text.columns import WIDE
from notesparse.text.lattice import Lattice

_LISTED = cue_page("walking/placed_lines")
_COMMON = cue_page("shared")

_FEWEST = 3  # lines, one under another
_TOLD = frozenset({"TRIF", "NODE", "NODES", "FLOWER", "POD", "SEED", "BEAN", "R", "V"})


def placed_lines(lattice: Lattice) -> dict[int, int]:
    """The first piece of each such line -> where the words for the place end; nothing where fewer than three lines,
    one under another, are so, or where they tell nothing of plants."""
    out: dict[int, int] = _counted_anew(lattice) | places_alone(lattice) | places_in_a_row(lattice)
    group: dict[int, int] = {}
    told = 0
    start = 0
    for i in range(len(lattice.pieces) + 1):
        if i < len(lattice.pieces) and lattice.pieces[i].form != "nl":
            continue
        end = _place_end(lattice, start, i)
        if end:
            group[start] = end
            told += any(e.kind in _TOLD for k in range(end, i) for e in lattice.edges[k])
        if not end or i == len(lattice.pieces):
            if len(group) >= _FEWEST and told >= _FEWEST:
                out |= group
            group, told = {}, 0
        start = i + 1
    return out


_AT = _COMMON.words("beside")
_PARTS = _COMMON.words("part_of_a_field")
_LONGEST = 4  # words for a place
_PLACES = frozenset({"FIELDNOUN", "WHEREWORD", "COMPASS", "LOW", "TOP"})


def _counted_anew(lattice: Lattice) -> dict[int, int]:
    """`N. end      p1  12 tf`, and further down `By tower    p1  13 tf`, under the name of the field: the plants are counted
    from one at each place."""
    pieces = lattice.pieces
    found: dict[int, int] = {}
    start = next((i + 1 for i, p in enumerate(pieces) if p.form == "nl"), len(pieces))
    while start < len(pieces):
        stop = next((x for x in range(start, len(pieces)) if pieces[x].form == "nl"), len(pieces))
        end = _place_of(lattice, start, stop)
        if end and any(p.form == "plant_n" and _first(p) for p in phrases_at(lattice, end + (lattice.at(end) == ":"))):
            found[start] = end
        start = stop + 1
    indented = all(pieces[i].column > 0 for i in found)
    return found if len(found) > 1 and indented else {}


_FIELD = _COMMON.words("field")
_WORDS = 2  # of a place


def places_alone(lattice: Lattice) -> dict[int, int]:
    """`North gate` alone on a line, and set in under it plants from 1 on, or counted on, further down `East pond` in the same way: places
    in the field that the head of the page names with the word for a field, and no fields of their own."""
    pieces = lattice.pieces
    ends = [i for i, p in enumerate(pieces) if p.form == "nl"]
    lines = [(a + 1, b) for a, b in pairwise([-1, *ends, len(pieces)])]
    told = [(a, b) for a, b in lines if a < b]
    if not told or not any(lattice.at(i) in _FIELD for i in range(*told[0])):
        return {}
    found: dict[int, int] = {}
    for (a, b), (x, y) in pairwise(told[1:]):
        words = [lattice.original(i, i + 1) for i in range(a, b)]
        if b - a > _LONGEST or len(words) < _WORDS or not all(_is_place(lattice, i) for i in range(a, b)):
            continue
        set_in = pieces[x].column > pieces[a].column
        labels = [p for p in phrases_at(lattice, x) if p.form == "plant_n"]
        if set_in and y - x > _WORDS and any(found or _first(p) for p in labels):
            found[a] = b
    return found if len(found) > 1 else {}


_PARTED = frozenset({";", "/", ".", "\n"})
_PLANT = _COMMON.words("plant") | _COMMON.words("number") | {"p"}
_SECOND = _LISTED.table("second", str)


def places_in_a_row(lattice: Lattice) -> dict[int, int]:
    """`Oxbow ; N gate - a 9t, b 10t ; ditch - a 8t, b 9t`: behind the name of the field places in small letters, and at each
    of them the plants are counted from the first again. A name of its own has a capital."""
    pieces = lattice.pieces
    if not pieces or not lattice.original(0, 1)[:1].isupper():
        return {}
    starts = [i + 1 for i, p in enumerate(pieces) if (p.form == "nl" or p.text in _PARTED) and i + 1 < len(pieces)]
    found: dict[int, int] = {}
    for start, behind in pairwise([*starts, len(pieces)]):
        end = _place_before_plants(lattice, start)
        if end and _from_the_first(lattice, end + 1, behind):
            found[start] = end
    return found if len(found) > 1 else {}


def _place_before_plants(lattice: Lattice, start: int) -> int:
    """Where the words for a place end that a dash or a colon stands behind; 0 where there are none."""
    end = start
    while end < len(lattice.pieces) and lattice.at(end) not in {"-", ":", "–"} and end - start < _LONGEST:
        end += 1
    if not start < end < len(lattice.pieces) or lattice.at(end) not in {"-", ":", "–"}:
        return 0
    small = all(lattice.original(i, i + 1).islower() or len(lattice.at(i)) <= _WORDS for i in range(start, end))
    words = [i for i in range(start, end) if lattice.at(i) not in {*_AT, "the"}]
    placed = all(_is_place(lattice, i) or lattice.at(i) in name_words().terrain for i in words)
    placed = placed or any(e.kind == "WHEREWORD" and e.end == end for e in lattice.edges[start])
    return end if small and words and placed else 0


def _from_the_first(lattice: Lattice, i: int, behind: int) -> bool:
    """`p1 9t, p2 10t`: at piece i the first plant's label, and the second one's before piece `behind`."""
    i += lattice.at(i) in _PLANT
    second = _SECOND.get(lattice.at(i))
    return second is not None and any(
        lattice.at(k) == second and (lattice.at(k - 1) in {",", *_PLANT} or second == "b") for k in range(i + 1, behind)
    )


def _is_place(lattice: Lattice, i: int) -> bool:
    return lattice.at(i) in _PARTS or any(e.kind in _PLACES and e.how == "exact" for e in lattice.edges[i])


def _first(label: Phrase) -> bool:
    return [int(e.means) for _, e in label.path if e.kind == "INT"] == [1]


def _place_of(lattice: Lattice, start: int, stop: int) -> int:
    """Where the words for a place end that stand before a gap or a colon; 0 where none do."""
    end = start + 1
    while end < min(stop, start + _LONGEST) and lattice.pieces[end].gap < WIDE and lattice.at(end) != ":":
        end += 1
    if end >= stop or end - start > _LONGEST or not (lattice.at(end) == ":" or lattice.pieces[end].gap >= WIDE):
        return 0
    words = [i for i in range(start, end) if lattice.at(i) not in {*_AT, "the", "."}]
    if not words or (
        lattice.at(start) not in _AT and lattice.original(start, start + 1)[:1].isupper() and len(words) < 2
    ):
        return 0
    return end if all(_is_place(lattice, i) or len(lattice.at(i)) == 1 for i in words) else 0


def _place_end(lattice: Lattice, start: int, stop: int) -> int:
    """Behind the place at the head of a line, with dots, a colon or a wide gap behind it; 0 where there is none."""
    if start >= stop:
        return 0
    ends = [e.end for e in lattice.edges[start] if e.kind == "WHEREWORD" and e.how == "exact"]
    ends += [start + 1] if lattice.at(start) in name_words().terrain else []
    end = max((e for e in ends if e < stop), default=0)
    if not end:
        return 0
    between = lattice.text[lattice.pieces[end - 1].span.end : lattice.pieces[end].span.start]
    parted = ".." in between or len(between) >= WIDE or lattice.at(end) == ":"
    return end if parted else 0


def place_of_the_line(w: Listener, i: int, k: int) -> int | None:
    """At piece i begins such a line: the stop of what follows; where to go on."""
    end = w.placed.get(i)
    if end is None:
        return None
    ctx = w.ctx
    end_clause(w, k)
    ctx.here()
    ctx.leave_plants()
    ctx.stop, ctx.tally = ctx.lattice.written(i, end), None
    ctx.mark(i, end, EVIDENCE)
    w.line_head = w.at_head = w.after_name = False
    return end
