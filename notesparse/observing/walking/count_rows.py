"""Counts told of several plants in one sentence: `3 and 4 both 8, 5 one more than 2`, `9 trifs on 1 and 4, 8 on the rest`,
`11 on the first and 12 on the second` (guide 4.7, 4.8).

Read only where the words by words reading would lose a plant: a count of several plants, one told by that of another
plant, plants behind their counts.
"""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, EXCEPT
from notesparse.observing.walking.by_place import number_at, places, told_last
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut, in_a_row
from notesparse.observing.walking.equals import is_a_label
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/count_rows")
_COMMON = cue_page("shared")

_A_PLANT = _LISTED.words("a_plant")
_HAS = (
    _COMMON.words("being_or_having")
    | _COMMON.words("with")
    | _COMMON.words("all")
    | _COMMON.words("each")
    | {"-", ":", "=", "at"}
)
_VERBS = _COMMON.words("being_or_having") | {"both"}
_EACH = _LISTED.words("each")
_OPENS = _LISTED.words("opens")
_ON = _LISTED.words("on")
_JOINS = _LISTED.words("joins")
_NOUN = {"TRIF": "trifoliates", "NODES": "nodes"}
_THAN = _LISTED.table("than", int)
_BEFORE = ""
_OTHERS = _COMMON.words("rest")
_RUN = _COMMON.words("through")
_MOST_ROWS, _LONGEST_RUN = 12, 40


@dataclass(frozen=True, slots=True)
class _Row:
    """`count` leaves on plants of `labels`, told by the pieces `told`, or so many more than the plant `than` has (_BEFORE:
    the one told of before); the words end at piece `end`."""

    labels: tuple[str, ...]
    count: int
    told: tuple[int, int]
    end: int
    noun: str | None
    behind: bool  # the plants stand behind the count
    than: str | None = None
    in_turn: bool = False  # the plant that comes next


def count_rows(w: Listener, i: int) -> int | None:
    """At piece i such a sentence begins: puts its counts, and tells where it ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    opens = i == 0 or ctx.lattice.pieces[i - 1].form in {"mark", "nl"} or at(i - 1) in _OPENS or w.after_name
    opens = opens or i == w.counted_to
    if not opens or ctx.tally is not None or _of_a_finding(w, i):
        return None
    start, head = _head(w, i)
    rows = _each_in_turn(w, start) or _rows(w, start)
    rows = rows[: next((n for n, r in enumerate(rows) if _like_a_plant(w, r, rows[:n])), len(rows))]
    if not rows:
        return None
    noun = head or next((r.noun for r in rows if r.noun), None) or _counted_before(w)
    if noun is None or not _worth_it(rows):
        return None
    end = rows[-1].end
    if not (w.ends_at(end) or at(end) in _JOINS | {"with", "then"} | _OF_ALL) or _said_over(w, end):
        return None
    given = _given(w, rows, noun)
    if given is None:
        return None
    clear_waiting(w)
    ctx.close()
    for row, value in given:
        known = {p.label: p for p in ctx.living()}
        new = [x for x in row.labels if x not in known]
        made = {p.label: p for p in ctx.begin(new, ctx.span(i, row.end))} if new else {}
        ctx.plants, ctx.explicit, ctx.group = [(known | made)[x] for x in row.labels], True, None
        leaves.count(ctx, noun, value, ctx.span(*row.told))
        for p in made.values():
            p.named_behind = row.behind
        ctx.mark(i, row.end, EVIDENCE)
        i = row.end
    w.behind = w.behind or rows[-1].behind
    cut(w, end)
    return end


def _like_a_plant(w: Listener, row: _Row, before: list[_Row]) -> bool:
    """`p2 10 trifs, p3 = 1`: the number behind the sign is a plant's."""
    if row.noun is not None or w.ctx.lattice.at(row.told[0] - 1) != "=":
        return False
    return is_a_label(w, row.count, {x: r.count for r in before for x in r.labels})


def _said_over(w: Listener, i: int) -> bool:
    """`plant 2 has five no six trifs`: behind the no the count is said anew."""
    again = next((s.phrase for s in w.segments if s.start == i + 1), None)
    return w.ctx.lattice.at(i) == "no" and again is not None and again.rule in {"trif", "nodes"}


def _of_a_finding(w: Listener, i: int) -> bool:
    """`six mites on p1, p2 has 2`: a finding was told of in this sentence, and counts of it go on."""
    found = w.ctx.visit.findings if w.ctx.visit is not None else []
    first = w.ctx.lattice.pieces[w.sentence_start(i)].span.start
    counted = any(f.span.start >= first and f.kind in {"insect", "disease"} for f in found)
    return counted and not any(s.span.start > found[-1].span.start for s in w.ctx.statements)


_OF_ALL = _LISTED.words("of_all")


def _head(w: Listener, i: int) -> tuple[int, str | None]:
    """Past `trifs:`."""
    noun = _noun_at(w, i)
    if noun is None or w.ctx.lattice.at(i + 1) not in {":", "-", "="}:
        return i, None
    return i + 2, noun


def _counted_before(w: Listener) -> str | None:
    """What was counted on the plants that were told of."""
    earlier = [p for v in w.ctx.visits for p in v.plants if not p.dropped]
    counted = (key for p in reversed(earlier) for key in _NOUN.values() if p.last(key) is not None)
    return next(counted, None)


def _noun_at(w: Listener, i: int) -> str | None:
    edges = w.ctx.lattice.edges[i] if i < len(w.ctx.use) else []
    return next((_NOUN[e.kind] for e in edges if e.kind in _NOUN and e.end == i + 1 and e.cost < _SURE), None)


_SURE = 0.9


def _rows(w: Listener, i: int) -> list[_Row]:
    rows: list[_Row] = []
    told: set[str] = set()
    at = w.ctx.lattice.at
    while len(rows) < _MOST_ROWS:
        row = _plants_first(w, i, told) or _count_first(w, i, told)
        if row is None or told & set(row.labels):
            return rows
        rows.append(row)
        told |= set(row.labels)
        i = row.end
        if at(i) not in _JOINS:
            return rows
        while at(i) in _JOINS:
            i += 1
    return rows


def _each_in_turn(w: Listener, i: int) -> list[_Row]:
    """`plants 1-3 had 8, 8 and 9`: as many counts as plants, with no noun of their own; none where it has one."""
    at = w.ctx.lattice.at
    got = plants_named(w, i)
    if got is None or len(got[0]) < _FEWEST_IN_TURN or at(got[1]) not in _HAS:
        return []
    labels, k = got
    while at(k) in _HAS:
        k += 1
    rows: list[_Row] = []
    for label in labels:
        count = number_at(w, k)
        if count is None or _noun_at(w, count.end) is not None:
            return []
        rows.append(_Row((label,), int(count.means), (k, count.end), count.end, None, False))
        k = count.end
        while at(k) in {",", "and", "&"} and label != labels[-1]:
            k += 1
    return rows if w.ends_at(k) else []


_FEWEST_IN_TURN = 2


def _next_told(w: Listener, told: set[str]) -> str | None:
    """The label that comes next, where each plant before it was counted: `plant one nine trifs, two ten, three nine`."""
    live = [p for p in w.ctx.living() if p.label not in told]
    counted = all(p.last("trifoliates") or p.last("nodes") for p in live)
    labels = {*(p.label for p in live), *told}
    numbers = sorted(int(x) for x in labels if x.isdigit())
    in_turn = bool(live) and counted and numbers == list(range(1, len(labels) + 1))
    return str(len(labels) + 1) if in_turn and all(p.named for p in live) else None


def _plants_first(w: Listener, i: int, before: set[str]) -> _Row | None:
    """`3 and 4 both 8`, `5 one more than 2`, behind the plants `before`; the one that comes next needs no verb."""
    at = w.ctx.lattice.at
    got = plants_named(w, i)
    if got is None:
        return None
    labels, k = got
    has = k
    while at(k) in _HAS:
        k += 1
    count = number_at(w, k)
    if count is None:
        return _told_after_all(w, labels, k) if k > has else None
    sign = _THAN.get(at(count.end))
    last = count.end + 1
    if sign is not None and len(labels) == 1 and (w.ends_at(last) or at(last) in {"and", "but", "with"}):
        return _Row(tuple(labels), sign * int(count.means), (k, last), last, None, False, _BEFORE)  # P2 one more
    if sign is not None and at(count.end + 1) == "than":
        than = plants_named(w, count.end + 2)
        if than is None or len(than[0]) > 1 or len(labels) > 1:
            return None
        return _Row(tuple(labels), sign * int(count.means), (k, than[1]), than[1], None, False, than[0][0])
    in_turn = labels == [_next_told(w, before)]
    follows = in_turn and w.ctx.lattice.pieces[i].form == "word" and i and at(i - 1) in _JOINS
    if (has == k and not follows) or sign is not None:
        return None  # 2 9 trifs: a label at the head of its line
    noun = _noun_at(w, count.end)
    behind = {e.kind for e in w.ctx.lattice.edges[count.end]} if count.end < len(w.ctx.use) else set()
    if noun is None and (behind & _MEASURED or at(count.end) in _PART or _to_another(w, count.end)):
        return None  # plant 2: 95% of pods brown; p2 10-11
    end = told = count.end + (noun is not None)
    while at(end) in _EACH | ({"again"} if in_turn else set()):
        end += 1
    return _Row(tuple(labels), int(count.means), (k, told), end, noun, False, in_turn=in_turn)


_MEASURED = frozenset({"PCT", "INCH", "MM", "CM", "FOOT", "POD", "SEED"})  # a number of these is no count of leaves
_PART = _LISTED.words("part")


def _to_another(w: Listener, i: int) -> bool:
    return w.ctx.lattice.at(i) in {"-", "–"} and number_at(w, i + 1) is not None


_COMPARED = _COMMON.words("fewer_or_more")
_FAR = 10  # pieces


def _told_after_all(w: Listener, labels: list[str], i: int) -> _Row | None:
    """`4 and 5 are a leaf ahead of that so 10`: the comparison comes to a count."""
    at, compared = w.ctx.lattice.at, False
    for k in range(i, min(i + _FAR, len(w.ctx.use))):
        if w.ends_at(k) and at(k) != ",":
            return None
        compared = compared or at(k) in _COMPARED
        if compared and at(k) in {"so", "at"}:
            count = number_at(w, k + 1)
            noun = _noun_at(w, count.end) if count is not None else None
            end = count.end + (noun is not None) if count is not None else k
            told = (k + 1, end)
            return _Row(tuple(labels), int(count.means), told, end, noun, False) if count and w.ends_at(end) else None
    return None


def _count_first(w: Listener, i: int, told: set[str]) -> _Row | None:
    """`9 trifs each on 1 thru 3`, `8 on the rest`."""
    at = w.ctx.lattice.at
    count = number_at(w, i)
    if count is None:
        return None
    noun = _noun_at(w, count.end)
    k = last = count.end + (noun is not None)
    while at(k) in _EACH:
        k += 1
    whose = _others(w, k + 1, told) or plants_named(w, k + 1) if at(k) in _ON else None
    return _Row(tuple(whose[0]), int(count.means), (i, last), whose[1], noun, True) if whose is not None else None


def plants_named(w: Listener, i: int) -> tuple[list[str], int] | None:
    """`plants 3 and 4`, `1 thru 3`, `the first`, `the second one`."""
    ctx, at = w.ctx, w.ctx.lattice.at
    k = i
    while at(k) in _A_PLANT:
        k += 1
    if k >= len(ctx.use):
        return None
    bare = next((e for e in ctx.lattice.edges[k] if e.kind == "BARE"), None)
    if bare is not None:
        return list(bare.means), bare.end
    there = [p.label for p in in_a_row(w)]
    placed = places(w, k, there, told_last(w), led=True) if there else None
    if placed is not None:
        return placed
    nth = next((e for e in ctx.lattice.edges[k] if e.kind == "ORD" and e.cost < _SURE), None)
    if nth is not None:
        one = at(nth.end) in {"one", "plant"}
        return ([str(nth.means)], nth.end + one) if one or at(k - 1) == "the" else None
    return _numbers(w, k)


def _numbers(w: Listener, i: int) -> tuple[list[str], int] | None:
    """`1, 2 and 4`, `1 thru 3`; a number behind which a plant or a noun is named begins the next count."""
    at = w.ctx.lattice.at
    out: list[str] = []
    end = i
    before_comma: tuple[list[str], int] | None = None
    while (one := number_at(w, i)) is not None:
        if out and (at(one.end) in _ON | _EACH or _noun_at(w, one.end) or at(one.end) in _THAN):
            break
        run = out and at(end) in _RUN and int(out[-1]) < int(one.means) < int(out[-1]) + _LONGEST_RUN
        out += [str(n) for n in range(int(out[-1]) + 1, int(one.means))] if run else []
        out.append(str(one.means))
        i = end = one.end
        loose = at(i) == "-" and not (w.ctx.lattice.glued(i) and w.ctx.lattice.glued(i + 1))
        if at(i) not in _JOINS | _RUN or loose:
            break  # p1 - 10
        before_comma = (list(out), end) if at(i) == "," else before_comma
        while at(i) in _JOINS or (at(i) in _RUN and i == end) or (at(i) in _A_PLANT and number_at(w, i + 1)):
            i += 1  # p3 and p4
    if before_comma is not None and at(end) in _VERBS:
        return before_comma  # 9 on 1 thru 3, 4 and 5 have 10
    return (out, end) if out and len(set(out)) == len(out) else None


def _others(w: Listener, i: int, told: set[str]) -> tuple[list[str], int] | None:
    """`the rest`, `the others apart from 5`: the plants of the visit that this sentence has not told of."""
    ctx, at = w.ctx, w.ctx.lattice.at
    k = i + (at(i) == "the")
    if at(k) not in _OTHERS:
        return None
    end = k + 1
    out: list[str] = []
    skip = (at(end) in EXCEPT) or (2 if (at(end), at(end + 1)) in {("apart", "from"), ("aside", "from")} else 0)
    if skip:
        got = plants_named(w, end + int(skip))
        if got is None:
            return None
        out, end = got
    known = [p.label for p in ctx.living()]
    many = [str(n) for n in range(1, (ctx.sample or 0) + 1)]
    left = [x for x in (known if len(known) > len(told) else many) if x not in told and x not in out]
    return (left, end) if left else None


def _worth_it(rows: list[_Row]) -> bool:
    """Whether more is told than one count of each plant in its own words."""
    last_only = len(rows) > 1 and rows[-1].noun is not None and not any(r.noun for r in rows[:-1])
    several = any(len(r.labels) > 1 for r in rows)
    behind = any(r.behind for r in rows) and len(rows) > 1
    in_turn = len(rows) > 1 and rows[0].end < rows[1].told[0] and not any(r.noun for r in rows) and _bare(rows)
    return (
        all(r.in_turn for r in rows)
        or in_turn
        or last_only
        or several
        or behind
        or any(r.than is not None for r in rows)
    )


def _bare(rows: list[_Row]) -> bool:
    """The counts stand side by side, and the plants before them all."""
    return all(b.told[0] - a.end <= _FEWEST_IN_TURN for a, b in itertools.pairwise(rows))


def _given(w: Listener, rows: list[_Row], noun: str) -> list[tuple[_Row, int]] | None:
    """The count of each row; None where one is of a plant that is counted already, or of no known plant."""
    values: dict[str, int] = {}
    for p in w.ctx.living():
        e = p.last(noun)
        if e is not None and isinstance(e.value, int):
            values[p.label] = e.value
    counted = dict(values)
    out = []
    for row in rows:
        than = next(reversed(counted), None) if row.than == _BEFORE else row.than
        if any(x in values for x in row.labels) or (row.than is not None and than not in counted):
            return None
        value = row.count + (counted[than] if than is not None else 0)
        if value < 0:
            return None
        counted |= dict.fromkeys(row.labels, value)
        out.append((row, value))
    return out if all(p.label.isdigit() or not p.named for p in w.ctx.living()) else None
