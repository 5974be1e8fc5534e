"""Counts by class: `R2   IIII   4`, `no fl. I 1`, tick marks and gates of five (guide 4.16, 4.21)."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass, pattern
from notesparse.observing.draft import Ask, TallyDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.organs import read_length
from notesparse.observing.stages import read_stage
from notesparse.observing.tallies import by_length
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.span import Span
from notesparse.text.columns import Line, under
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/ticks")

_NO_CLASS = {
    "not_up",
    "fl_no",
    "fl_buds",
    "pod_no",
    "seed_no",
    "no_brown",
    "none_brown",
    "pods_all_green",
    "pods_green",
    "green",
}
_CLASS = {
    "fl_yes": "R1",
    "pod_yes": "R3",
    "pod_flat": "R4",
    "seed_yes": "R5",
    "bean_yes": "R5",
    "full": "R6",
    "n_brown": "R7",
    "brown": "R7",
    "pods_brown": "R7",
    "all_brown": "R8",
    "cot_up": "VE",
    "uni_open": "VC",
    "uni_bare": "VC",
}
_GATE = pattern(r"(?:tttt|t{4,5}|h{4,5}|hh|m[nh]|\+{4}|-?(?:ht|th)+-?|(?:[|/il1]{4}[\\/-]))", re.I)
_FEWEST = 2  # classes of a list
_TICK = pattern(r"[|il1!/t]", re.I)


@dataclass(frozen=True, slots=True)
class Class:
    """One line: `what` was counted (None: no open flower), at pieces [start, end); the ticks and the figure."""

    start: int
    end: int
    what: str | None
    ticks: int | None
    figure: int | None
    anywhere: bool = False  # those of the other classes are counted in it too
    odd: bool = False  # words stand in it that say nothing of the trade


def count_ticks(text: str) -> int | None:
    """How many strokes: `|||| ||` 6, `tttt` 5 (a gate), `IIII` 4. None if it is no run of strokes."""
    n = 0
    for run in text.split():
        if set(run) == {"/"}:  # strokes of a pen that leans
            n += len(run)
            continue
        rest = run
        while rest:
            gate = _GATE.match(rest)
            if gate and len(gate[0]) > 1:
                n += 5
                rest = rest[gate.end() :]
            elif _TICK.match(rest) and rest[0] not in "/":
                n += 1
                rest = rest[1:]
            else:
                return None
    return n or None


def find_classes(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[tuple[int, int, list[Class]]]:
    """Runs of two or more lines that each name a class and count it."""
    out: list[tuple[int, int, list[Class]]] = []
    run: list[Class] = []
    first = last = -1
    counted = _so_many_plants(lattice)
    for line in [*lines, None]:
        got = None if line is None or line.blank or line.number in taken else read_class(lattice, line)
        beside = [] if got is not None or line is None or line.number in taken else classes_beside(lattice, line)
        if beside and line is not None:
            out.append((line.number, line.number, beside))
            continue
        if got is None and line is not None and not line.blank and {"R1", "R2", "R3", "R7"} & {c.what for c in run}:
            got = _none_of_these(lattice, line)
        if got is not None and line is not None and run and _other_scale(run, got):
            if len(run) >= _FEWEST and len({c.what for c in run}) == len(run):
                out.append((first, last, run))
            run = []  # V classes over R classes: each adds up for itself
        if got is not None and line is not None:
            if not run:
                first = line.number
            run.append(got)
            last = line.number
            continue
        if line is not None and line.blank and run:
            continue
        alone = len(run) == 1 and counted and run[0].what is not None and run[0].ticks is not None and not run[0].odd
        if (
            (len(run) >= _FEWEST or alone)
            and len({c.what for c in run}) == len(run)
            and (any(c.ticks is not None for c in run) or all(c.what != "" for c in run))
        ):
            out.append((first, last, run))
        run = []
    return out


def over_columns(lattice: Lattice, lines: Sequence[Line], first: int, last: int) -> int | None:
    """The line of words in columns right over classes whose strokes stand under two or more of them
    (`East      West` over `R3   ||||   ||`): each column counts for itself, and their sum says nothing."""
    at = next((n for n in range(first - 1, max(-1, first - 3), -1) if not lines[n].blank), None)
    if at is None or len(lines[at].cells) < _FEWEST:
        return None
    stub = max((x.cells[0].right for x in lines[first : last + 1] if not x.blank), default=0)
    heads = [
        (c.left, c.right) for c in lines[at].cells if lattice.pieces[c.start].form in {"word", "dmy"} and c.left >= stub
    ]
    stroked: set[int] = set()
    split = 0
    for line in lines[first : last + 1]:
        if line.blank or lattice.pieces[line.end - 1].form == "int":
            continue  # R2   ||||  |   5: the figure tells what the strokes are in all
        runs = [c for c in line.cells[1:] if _is_stroke(lattice.original(c.start, c.end))]
        where = under([(c.left, c.right) for c in runs], heads) if len(heads) >= _FEWEST and runs else []
        found = {n for n in where if n is not None}
        stroked |= found
        split += len(found) >= _FEWEST
    return at if split and len(stroked) >= _FEWEST else None


_CLASS_HEADS = _LISTED.words("class_heads")


def head_over(lattice: Lattice, lines: Sequence[Line], first: int) -> Line | None:
    """`stage   ticks   no.` right over classes: the line that says what stands in their columns."""
    line = lines[first - 1] if first else None
    if line is None or line.blank or len(line.cells) < _FEWEST:
        return None
    words = [lattice.at(i) for i in range(line.start, line.end) if lattice.pieces[i].form != "mark"]
    return line if words and all(w in _CLASS_HEADS for w in words) else None


def _so_many_plants(lattice: Lattice) -> bool:
    """Whether the note says how many plants were looked at: `20 plants`."""
    return any(
        e.kind == "INT" and any(x.kind == "PLANT" for x in lattice.edges[e.end])
        for i in range(len(lattice.pieces))
        for e in lattice.edges[i]
        if e.end < len(lattice.pieces)
    )


def classes_beside(lattice: Lattice, line: Line) -> list[Class]:
    """`R2  ///      R3  ///// /      R4  /`, `10 plts:  R2 = IIIIII (6),  R1 = III (3)`, `Otter Bar, 8 pulled: R3 IIIII I, R2
    II.`: several classes with their strokes on one line, and nothing else behind its head."""
    if line.blank:
        return []
    whole = _classes_from(lattice, line, line.start)
    if whole or not _STROKES.search(lattice.original(line.start, line.end)):
        return whole
    for first in range(line.start + 1, min(line.end, line.start + _LONGEST_HEAD)):
        if _ends_a_head(lattice, first) and (found := _classes_from(lattice, line, first)):
            return found
    return []


_STROKES = pattern(r"(?<![\w/|])(?:I{2,}|/{2,}|\|{2,})(?![\w/|])")
_LONGEST_HEAD = 9  # pieces of the head of such a line


def _ends_a_head(lattice: Lattice, i: int) -> bool:
    """`10 plts: |`, `Otter Bar, 8 pulled |`, `Otter Bar - |`: classes may begin at piece i."""
    if lattice.at(i - 1) in {":", "-", ","}:
        return not lattice.pieces[i].glued
    taken = any(e.kind in {"PLANT", "SAMPLED"} and e.end == i for x in {i - 1, max(0, i - 2)} for e in lattice.edges[x])
    return taken or lattice.pieces[i].gap >= _WIDE


def _classes_from(lattice: Lattice, line: Line, first: int) -> list[Class]:
    """The classes from piece `first` to the end of the line or of the sentence; none where anything else stands there."""
    stops = (i for i in range(first, line.end) if lattice.at(i) == "." and lattice.soft[i] is None)
    over = next(stops, line.end)
    starts = [first]
    for i in range(first + 1, over):
        last = i - 1
        while last > first and lattice.at(last) in _AFTER_A_COUNT:
            last -= 1
        behind = _is_stroke(lattice.at(last)) or (
            lattice.pieces[last].form == "int" and (lattice.pieces[i].gap > 1 or last < i - 1)
        )
        if behind and lattice.pieces[i].form == "word" and not _is_stroke(lattice.at(i)):
            starts.append(i)
    if len(starts) < _FEWEST:
        return []
    found = []
    for a, b in pairwise([*starts, over]):
        end = b
        while end > a + 1 and lattice.at(end - 1) in {",", ";"}:
            end -= 1
        c = read_class(lattice, Line(line.number, a, end, ()))
        if c is None or c.ticks is None:
            return []
        found.append(c)
    return found if len({c.what for c in found}) == len(found) else []


_AFTER_A_COUNT = frozenset({",", ";", ")"})


def _is_stroke(text: str) -> bool:
    return bool(text) and count_ticks(text) is not None


_BEFORE_NONE_OF_THESE = _COMMON.words("none") | {"neither", "not"}


def _none_of_these(lattice: Lattice, line: Line) -> Class | None:
    """`none  |||  3` under R1 and R2: so many with no open flower."""
    if lattice.pieces[line.start].text not in _BEFORE_NONE_OF_THESE:
        return None
    begin = line.start + 1 + (line.start + 1 < line.end and lattice.pieces[line.start + 1].text == "yet")
    if begin >= line.end or (lattice.pieces[line.start].text == "not" and begin == line.start + 1):
        return None
    tail = line.end - 1
    ticks = count_ticks(lattice.original(begin, line.end))
    if lattice.pieces[tail].form != "int":
        return Class(line.start, line.end, None, ticks, None) if ticks is not None else None
    strokes = lattice.original(begin, tail).strip(" (=-:") if tail > begin else ""
    as_ticks = count_ticks(strokes) if strokes else None
    if strokes and as_ticks is None:
        return None
    return Class(line.start, line.end, None, as_ticks, int(lattice.pieces[tail].text))


def _other_scale(run: Sequence[Class], c: Class) -> bool:
    """Whether a class is of the other scale than those before it: stems after flowers, or flowers after stems."""
    before = {x.what[0] for x in run if x.what}
    own = c.what[0] if c.what else "R"
    if c.what is None and {x.what for x in run} <= {"VE", "VC"}:
        return False  # not up
    return bool(before) and own not in before


def read_class(lattice: Lattice, line: Line) -> Class | None:
    """A line that is a class with its count and nothing else."""
    pieces = lattice.pieces
    best: tuple[Phrase, str | None] | None = None
    for ph in phrases_at(lattice, line.start):
        if ph.end > line.end or (best is not None and ph.end <= best[0].end):
            continue
        what = class_of(ph)
        if what != "":
            best = (ph, what)
    told = _described(lattice, line)
    odd = told is not None and told[2]
    if told is not None:
        what, k, _ = told
        best = None
    elif best is None:
        opened = _opened(lattice, line) or _place_first(lattice, line)
        if opened is None:
            return None
        what, k = opened
    else:
        what, k = best[1], best[0].end
    anywhere = any(pieces[x].text in _ANYWHERE for x in range(line.start, k))
    begin = k
    what, k = placed(lattice, line, what, k)
    while (
        k < line.end
        and pieces[k].text in {".", ":", "-", "=", ",", "–"}
        and not (pieces[k].text == "-" and pieces[k].glued and pieces[k].form != "mark")
    ):
        k += 1
    parted = (k > begin and pieces[k - 1].text in {":", "="}) or (k < line.end and pieces[k].gap >= 1)
    if k >= line.end or not parted:
        return None
    figure = None
    end = line.end
    while end > k and pieces[end - 1].text in {".", ")"}:
        end -= 1
    if pieces[end - 1].text in {"plants", "plts", "pl"} and end - 1 > k:
        end -= 1
    tail = end - 1
    if (
        pieces[tail].form == "int"
        and len(pieces[tail].text) <= 3
        and (tail == k or not pieces[tail].glued or pieces[tail - 1].text in "(=-")
    ):
        strokes = lattice.original(k, tail).strip(" (=-") if tail > k else ""
        as_ticks = count_ticks(strokes) if strokes else None
        if strokes and as_ticks is None:
            return None
        figure = int(pieces[tail].text)
        if strokes == "|" and figure != 1:
            as_ticks = None  # VC | 12: a drawn line
        if as_ticks is None and set(pieces[tail].text) == {"1"} and len(pieces[tail].text) > 1:
            return None  # 11: two strokes, or eleven?
        return Class(line.start, line.end, what, as_ticks, figure, anywhere, odd)
    ticks = count_ticks(lattice.original(k, end))
    return Class(line.start, line.end, what, ticks, None, anywhere, odd) if ticks is not None else None


_ANYWHERE = _LISTED.words("anywhere")
_MOST_ODD = 2  # words of a description that say nothing
_WIDE = 3  # blanks before the strokes


_FOR_DESCRIBED = _COMMON.words("at") | {"the"}


def _described(lattice: Lattice, line: Line) -> tuple[str | None, int, bool] | None:
    """`beans felt in pods, top 4 nodes     ||||| |||     8`, `Full bloom (R2)    IIIII`: a class told in several words, a
    wide gap, and its strokes; the class, where its words end, and whether any of them say nothing."""
    pieces = lattice.pieces
    end = next((i for i in range(line.start + 1, line.end) if pieces[i].gap >= _WIDE), None)
    if end is None or end < line.start + _FEWEST or count_ticks(_without_figure(lattice, end, line.end)) is None:
        return None
    said: list[str | None] = []
    place: str | None = None
    odd = passed = 0
    i = line.start
    while i < end:
        if pieces[i].text in _FOR_DESCRIBED:
            i += 1
            continue
        if pieces[i].text == "no" and pieces[i + 1].text == "such":
            i += 3  # bloom in top two, no such pod: those that are not in the class above
            continue
        here = [p for p in phrases_at(lattice, i) if p.end <= end and (_class_by_size(p) != "" or p.rule == "place")]
        if not here:
            word = pieces[i].form == "word" and pieces[i].text not in _SMALL
            odd += word and not lattice.filler[i]
            passed += word
            i += 1
            continue
        ph = max(here, key=lambda p: (p.end, _class_by_size(p) != ""))
        if ph.rule == "stage" and ph.start > line.start and pieces[ph.start - 1].text == "(":
            return class_of(ph), end, False
        if ph.rule == "place":
            place = _reached(ph) or place
        else:
            said.append(_class_by_size(ph))
        i = ph.end
    if not said or odd > _MOST_ODD:
        return None
    there = max((x for x in said if x), default=None)
    return (place or there if there == "R1" else there), end, passed > 0


def _class_by_size(ph: Phrase) -> str | None:
    """The class of `pod 3/16 or better`, too: what plants have reached whose pods are so long."""
    if ph.form not in {"pod_frac", "pod_len", "pod_inch", "len_bare", "len_unit"}:
        return class_of(ph)
    length = read_length(ph, Span(0, 0))
    what = by_length(length) if length is not None else ""
    return what if what in {"R3", "R4"} else ""


def strokes_alone(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> set[int]:
    """Lines that end in strokes behind a gap, of which no class was understood: no plant is described there."""
    out: set[int] = set()
    for line in lines:
        if line.blank or line.number in taken or any(p.rule == "findhead" for p in phrases_at(lattice, line.start)):
            continue
        if _runs_of_strokes(lattice, line) >= _FEWEST:
            out.add(line.number)
            continue
        gap = next((i for i in range(line.start + 1, line.end) if lattice.pieces[i].gap >= _WIDE), None)
        if gap is None or lattice.pieces[line.start].form != "word" or _of_so_many(lattice, line.start, gap):
            continue
        strokes = _without_figure(lattice, gap, line.end)
        if (count_ticks(strokes) or 0) >= _FEWEST and not strokes.strip().isdigit():
            out.add(line.number)
    return out


def _runs_of_strokes(lattice: Lattice, line: Line) -> int:
    """How often words have two strokes or more behind them: `no bloom  ///   some  ////`; none where strokes part what is
    told: `p1 / 12tf ||| p2 / 11tf ||| bugs none`."""
    own = lattice.original(line.start, line.end)
    runs = list(re.finditer(r"[^\W\d_]{2,}[ :=-]+(/{2,}|\|{2,})(?![\w\d])", own))
    parting = bool(runs) and len({m[1] for m in runs}) == 1 and bool(own[runs[-1].end() :].strip(" .,"))
    return 0 if parting else len(runs)


def _of_so_many(lattice: Lattice, a: int, b: int) -> bool:
    """`in bloom of the 25   ||||   4`: a share, which prose reads."""
    return any(lattice.pieces[i].text == "of" for i in range(a, b)) and lattice.pieces[b - 1].form == "int"


_SMALL = _LISTED.words("small")


def _without_figure(lattice: Lattice, a: int, b: int) -> str:
    """The strokes at pieces [a, b), without the figure behind them."""
    figure = b - 1 > a and lattice.pieces[b - 1].form == "int" and lattice.pieces[b - 1].gap > 0
    return lattice.original(a, b - figure)


def _opened(lattice: Lattice, line: Line) -> tuple[str | None, int] | None:
    """`none open`, `open, low only`: what is counted are flowers."""
    first = next((e for e in lattice.edges[line.start] if e.kind == "OPEN" and e.how == "exact"), None)
    if first is not None:
        return "R1", first.end
    if any(e.kind in {"NONE", "NO", "NOT"} for e in lattice.edges[line.start]) and line.start + 1 < line.end:
        then = next((e for e in lattice.edges[line.start + 1] if e.kind == "OPEN" and e.how == "exact"), None)
        if then is not None:
            return None, then.end
    return None


def _place_first(lattice: Lattice, line: Line) -> tuple[str | None, int] | None:
    """`top two nodes in bloom`: the place stands before the flowers."""
    for ph in sorted(phrases_at(lattice, line.start), key=lambda p: -p.end):
        what = _reached(ph) if ph.rule == "place" else None
        if what is None or ph.end >= line.end:
            continue
        for said in phrases_at(lattice, ph.end):
            if said.end <= line.end and class_of(said) == "R1":
                return what, said.end
    return None


def _reached(place: Phrase) -> str | None:
    """The stage of an open flower at a place; None where the place does not tell."""
    numbers = [int(e.means) for _, e in place.path if e.kind in {"INT", "ORD"}]
    if place.form in {"top_1", "top_two", "bare_top", "below_top"} or (
        place.form in {"top_n", "ord_down"} and numbers and numbers[0] <= 2
    ):
        return "R2"
    return "R1" if place.form in {"lower", "ord_down", "num_down"} else None


def placed(lattice: Lattice, line: Line, what: str | None, k: int) -> tuple[str | None, int]:
    """`bloom, low only`, `bloom top two nds`: the place tells which stage the class has reached."""
    if k < line.end and lattice.pieces[k].text == "only" and lattice.pieces[k].gap < 2:
        k += 1
    if k < line.end and lattice.pieces[k].gap < 2:  # brown pod on main stem
        at = k + (lattice.pieces[k].text == "on" and k + 1 < line.end)
        stems = [p.end for p in phrases_at(lattice, at) if p.form == "main_stem" and p.end <= line.end]
        k = max(stems, default=k)
    if what != "R1":
        return what, k
    a = k
    while a < line.end and lattice.pieces[a].text in {",", "(", "at", "on", "in", "-"} and lattice.pieces[a].gap < 2:
        a += 1
    places = (
        [
            p
            for p in phrases_at(lattice, a)
            if p.rule == "place" and p.end <= line.end and all(lattice.pieces[x].gap < 2 for x in range(a, p.end))
        ]
        if a < line.end and lattice.pieces[a].gap < 2
        else []
    )
    if not places:
        return what, k
    ph = max(places, key=lambda p: p.end)
    end = ph.end
    while end < line.end and lattice.pieces[end].text in {")", "only"}:
        end += 1
    reached = _reached(ph)
    return (reached, end) if reached is not None else (what, k)


def class_of(ph: Phrase) -> str | None:
    """The stage that a class stands for; None: no open flower; an empty string: no class."""
    if ph.rule == "stage":
        value = read_stage(ph)
        code = next(iter(value.values())) if value else None
        return code.split()[-1].split(".")[0] if isinstance(code, str) else ""
    if ph.form in _NO_CLASS:
        return None
    if ph.form == "share_brown":
        share = next((e.means for _, e in ph.path if e.kind in {"INT", "DEC"}), 0)
        return "R8" if share >= 95 else "R7"
    return _CLASS.get(ph.form, "")


def read_classes(ctx: Context, classes: Sequence[Class]) -> None:
    """The classes as an exclusive list of tallies; where strokes and figure differ it is asked."""
    visit = ctx.here()
    ctx.leave_plants()
    counts = [min(x for x in (c.ticks, c.figure) if x is not None) for c in classes]
    shown = [c.figure if c.figure is not None else c.ticks or 0 for c in classes]
    of = ctx.sample if ctx.sample is not None and ctx.sample >= max(counts) else sum(shown)
    named = any(c.what is not None for c in classes)
    exclusive = len(classes) > 1 and not any(c.anywhere for c in classes)
    for c, n in zip(classes, counts, strict=True):
        span = ctx.span(c.start, c.end)
        ctx.mark(c.start, c.end, EVIDENCE)
        if c.what is not None:
            visit.tallies.append(TallyDraft(c.what, n, of, None, span, exclusive=exclusive))
        elif not named:
            visit.tallies.append(TallyDraft("R1", n, of, None, span, negative=True))
        if c.ticks is not None and c.figure is not None and c.ticks != c.figure:
            low, high = sorted((c.ticks, c.figure))
            names = {c.ticks: "strokes", c.figure: "figure"}
            ctx.ask(
                Ask(
                    "4.21",
                    span,
                    f"{c.ticks} strokes stand beside the figure {c.figure}: which is right?",
                    [
                        (f"{low} (the {names[low]})", {"tally": f"{low} of {of}"}),
                        (f"{high} (the {names[high]})", {"tally": f"{high} of {of}"}),
                    ],
                    None,
                    0,
                    "tally",
                    always=True,
                    visit=visit,
                )
            )
    if (
        ctx.sample is not None
        and of == ctx.sample
        and sum(shown) != of
        and len(classes) > 1
        and not any(c.anywhere for c in classes)
        and not any(c.ticks != c.figure and c.ticks and c.figure for c in classes)
    ):
        span = ctx.span(classes[0].start, classes[-1].end)
        ctx.ask(
            Ask(
                "4.21",
                span,
                f"The classes add up to {sum(shown)}, and {of} plants are said to be looked at. Which is right?",
                [(f"of {of}", {"of": of}), (f"of {sum(shown)}", {"of": sum(shown)})],
                None,
                0,
                "tally",
                always=True,
                visit=visit,
            )
        )
