"""Plants that were only counted, and are told apart by their numbers: `6 plants. Seed touching on 1, 2, 4 and 6` (guide
4.7)."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing import owners
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, EXCEPT
from notesparse.observing.walking.by_place import number_at, places, told_last
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase, segment

_LISTED = cue_page("walking/counted")
_COMMON = cue_page("shared")

MOST = 40  # plants
_FEWEST_SHARED = 3
_SMALL = _LISTED.words("small")
_RUN = _COMMON.words("through")
_JOIN = _COMMON.words("and") | _RUN
_NAMED = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {"p"}
_BEFORE = EXCEPT | _COMMON.words("for_in_on")
_APART_FROM = frozenset(_LISTED.rows("apart_from"))
_PASSED = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | _COMMON.words("for_on_the")
_HAS = _LISTED.words("has")
_FELT = _LISTED.words("felt")
_LIKEWISE = _LISTED.words("likewise")
_ONE_IS = _LISTED.words("one_is")
_TOLD = frozenset({"SEED", "BEAN", "POD", "FLOWER", "NO", "NONE", "BROWN", "ALLPL", "EVERYW", "TRIF", "R", "V"})
_UNITS = frozenset({"TRIF", "NODE", "NODES", "INCH", "MM", "CM", "PCT", "OF", "FRAC", "ROWS", "MONTH", "FOOT"})


def numbers_at(w: Listener, at: int, passed: frozenset[str] = _PASSED) -> tuple[list[str], int] | None:
    """The longest list of numbers at piece `at` that are no counts of anything, and where it ends; before the numbers may
    stand words that name a plant (`passed`)."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    while at < len(pieces) and pieces[at].text in passed:
        at += 1
    labels: list[str] = []
    end = at
    while at < len(pieces):
        found = [e for e in ctx.lattice.edges[at] if e.kind == "INT" and e.cost < 0.9]
        if not found or any(e.kind in {"FRAC", "DEC"} and e.cost < 0.9 for e in ctx.lattice.edges[at]):
            break  # except 2 and 3, 1/4 in
        got = max(found, key=lambda e: e.end)
        if at and labels and pieces[at - 1].text in _RUN and 0 < int(got.means) - int(labels[-1]) < MOST:
            labels += [str(n) for n in range(int(labels[-1]) + 1, int(got.means))]
        labels.append(str(got.means))
        at = end = got.end
        joined = at < len(pieces) and pieces[at].text in _JOIN
        while at < len(pieces) and (pieces[at].text in _JOIN or (joined and pieces[at].text in _NAMED)):
            at += 1
    if not labels or len(set(labels)) < len(labels):
        return None
    kinds = {e.kind for e in ctx.lattice.edges[end]} if end < len(pieces) else set()
    in_bloom = ctx.lattice.at(end) == "in" and ctx.lattice.at(end + 1) in {"bloom", "flower"}
    return None if kinds & _UNITS and pieces[end].form != "mark" and not in_bloom else (labels, end)


def labels_at(w: Listener, i: int, passed: frozenset[str] = frozenset()) -> tuple[list[str], int] | None:
    """The labels at piece i, seen there as one of a series (`3 and 4`) or as figures, and where they end."""
    bare = next((e for e in w.ctx.lattice.edges[i] if e.kind == "BARE"), None) if 0 <= i < len(w.ctx.use) else None
    if bare is not None:
        return list(bare.means), bare.end - (w.ctx.lattice.at(bare.end - 1) in {".", ",", ":", ")"})
    letter = w.ctx.lattice.original(i, i + 1) if 0 <= i < len(w.ctx.use) else ""
    if len(letter) == 1 and letter.isalpha() and any(p.label == letter for p in w.ctx.living()):
        return [letter], i + 1
    return numbers_at(w, i, passed)


def may_be_new(w: Listener, labels: Sequence[str]) -> bool:
    """Whether plants of these numbers may be told of now: see `owners.may_be_new`."""
    return owners.may_be_new(w.ctx, labels)


def from_one(labels: Sequence[str]) -> bool:
    """Whether the labels count up from 1: `1`, `2`, `3`."""
    return list(labels) == [str(n) for n in range(1, len(labels) + 1)]


def of_the_so_many(w: Listener, i: int) -> tuple[int, int] | None:
    """`of the five` at piece i: how many, and where it ends."""
    at = w.ctx.lattice.at
    got = number_at(w, i + 2) if i >= 0 and at(i) == "of" and at(i + 1) in {"the", "these", "those"} else None
    return (int(got.means), got.end) if got is not None else None


def behind(w: Listener, i: int) -> tuple[list[str], int] | None:
    """`on 1, 2, 4 and 6`, `except three and seven`, at the end of a clause."""
    pieces = w.ctx.lattice.pieces
    got = numbers_at(w, i + 1) if pieces[i].text in _BEFORE or excepted(w, i + 1) else None
    return got if got is not None and (owners.ends(w.ctx, got[1]) or pieces[got[1]].text in _HAS) else None


def excepted(w: Listener, i: int) -> bool:
    """`but`, `apart from` stands before piece i."""
    at = w.ctx.lattice.at
    return at(i - 1) in EXCEPT or (at(i - 2), at(i - 1)) in _APART_FROM


_BEFORE_IN_TURN = _COMMON.words("at") | _COMMON.words("of") | {"as"}
_BEHIND_IN_TURN = _COMMON.words("plant") | _COMMON.words("plants") | {"one", "ones"}


def in_turn(w: Listener, i: int, labels: Sequence[str]) -> tuple[list[str], int] | None:
    """`the first two have`, `and the last one nothing open yet`: some of the plants of these labels, by where they stand
    in the row."""
    at = w.ctx.lattice.at
    end = i + (at(i) == "the")
    which = at(end)
    if which not in {"first", "last", "other"} or at(i - 1) in _BEFORE_IN_TURN:
        return None
    end += 1
    got = number_at(w, end)
    many = int(got.means) if got is not None else 1
    end = got.end if got is not None else end
    end += at(end) in _BEHIND_IN_TURN
    if (
        many >= len(labels)
        or (many == 1 and which == "first")
        or not (at(end) in _HAS | _LIKEWISE | _FELT or _no_more(w, end))
    ):
        return None
    if which == "other":
        others = [x for x in labels if x not in {q.label for q in w.ctx.plants}]
        named = w.ctx.explicit and len(others) == many < len(labels)
        return (others, end) if named else None
    return list(labels[:many] if which == "first" else labels[-many:]), end


def in_their_row(live: Sequence[PlantDraft]) -> dict[str, PlantDraft]:
    """The plants by their labels; of a label said twice, with counts that differ, both stand in the row (`plant two nine
    trifs, plant two ten trifs`), and the second goes by the label and a stroke."""
    row: dict[str, PlantDraft] = {}
    for p in live:
        first = row.get(p.label)
        if first is None:
            row[p.label] = p
        elif any(_differ(first, p, key) for key in ("trifoliates", "nodes")):
            row[p.label + "'"] = p
    return row


def _differ(one: PlantDraft, two: PlantDraft, key: str) -> bool:
    mine, theirs = one.last(key), two.last(key)
    return mine is not None and theirs is not None and mine.value != theirs.value


_FOR_ODD_OR_EVEN = _LISTED.table("for_odd_or_even", int)


def odd_or_even(w: Listener, i: int, many: int) -> tuple[list[str], int] | None:
    """`the odd ones have flowers`, `evens don't`: every second of so many plants."""
    at = w.ctx.lattice.at
    end = i + (at(i) == "the")
    first = _FOR_ODD_OR_EVEN.get(at(end))
    if first is None or many < _FEWEST_SHARED:
        return None
    named = at(end).endswith("s")
    end += 1
    while at(end) in {"-", "numbered", "number", "numbers", "#"}:
        end += 1
    if at(end) in {"ones", "plants", "numbers"}:
        named, end = True, end + 1
    return ([str(n) for n in range(first, many + 1, 2)], end) if named else None


def _no_more(w: Listener, i: int) -> bool:
    """Nothing, or none of what was spoken of, is told at piece i."""
    kinds = {e.kind for e in w.ctx.lattice.edges[i]} if i < len(w.ctx.use) else set()
    return bool(kinds & {"NOTHINGOPEN", "NO", "NONE", "BUD", "FLOWER", "NOTHING"})


def heading(w: Listener, i: int, again: bool = False) -> tuple[list[str], int] | None:
    """`On 3 and 5 seed there`, `two's all brown`, `three four and five are`, at the head of a sentence; where the plants
    were named before, behind an `and` too."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    ends = {".", ";", ","} | ({"and", "but", "while"} if again else set())
    if i and not (pieces[i - 1].form == "nl" or pieces[i - 1].text in ends or (again and _next_has(w, i))):
        return None
    on = pieces[i].text in {"on", "in"}
    if i and pieces[i - 1].text == "," and (on or pieces[i - 1].span.end == pieces[i].span.start):
        return None
    got = numbers_at(w, i + on)
    if got is None or got[1] >= len(pieces):
        return None
    end = got[1]
    while on and end < len(pieces) and pieces[end].text in _SMALL:
        end += 1
    if end >= len(pieces):
        return None
    if not on and len(got[0]) == 1 and pieces[end].text not in _ONE_IS | ({"only", "just"} if again else set()):
        return None  # 2 are R3: so many
    told = {e.kind for e in ctx.lattice.edges[end]}
    joined = any(p.text in {"and", "&"} | _RUN for p in pieces[i : got[1]])
    if not on and joined and len(got[0]) > 1 and (told & {"R", "V"} or told_behind_a_comma(w, end)):
        return got  # one through five R5; three and four, pods half an inch
    verb = end
    while not on and verb + 1 < len(pieces) and pieces[verb].text in _LIKEWISE:
        verb += 1  # three and four only have
    said = pieces[verb].text in _HAS or (on and {e.kind for e in ctx.lattice.edges[end]} & _TOLD)
    return (got[0], got[1] if on else end) if said else None


_BEFORE_NEXT_HAS = _LISTED.words("before_next_has")


def _next_has(w: Listener, i: int) -> bool:
    """`1 has pods half inch 2 has pods one inch`: in figures, the next plant and its verb, with no mark before."""
    ctx, number = w.ctx, number_at(w, i)
    before = ctx.plants[-1].label if ctx.explicit and len(ctx.plants) == 1 and not ctx.plants[0].empty else ""
    figure = number is not None and ctx.lattice.pieces[i].form == "int" and before.isdecimal()
    named = (
        figure
        and number is not None
        and int(number.means) == int(before) + 1
        and ctx.lattice.at(i + 1) in {"has", "is"}
    )
    return named and ctx.lattice.at(i - 1) not in _BEFORE_NEXT_HAS


_BEHIND = 5  # pieces


def told_behind_a_comma(w: Listener, i: int) -> bool:
    """`one and two, pods three eighths of an inch`: at piece i a comma, and near behind it something a plant has."""
    near = range(i + 1, min(i + 1 + _BEHIND, len(w.ctx.use)))
    kinds = [{e.kind for e in w.ctx.lattice.edges[x]} for x in near]
    return w.ctx.lattice.at(i) == "," and any(k & _TOLD - {"ALLPL"} for k in kinds)


def named(w: Listener, i: int) -> int | None:
    """At piece i some of the plants that were counted are named by their numbers: where what is said of them begins."""
    ctx = w.ctx
    if not _may_name(w, i):
        return None
    there = counted(w) or (_by_number(w) if ctx.lattice.at(i) not in _NAMED | {"numbers"} else [])
    got = heading(w, i, bool(there) and not there[0].counted) if there else None
    if got is None:
        there = there or _in_the_list(w)
        row = in_a_row(w)
        got = _by_place(w, i, row) if row else None
        there = row if got is not None else there
        if got is None and there and not there[0].counted:
            twice = in_their_row(ctx.living())
            if len(twice) > len(there):
                got = in_turn(w, i, list(twice))
                return _begin_at(w, i, [twice[x] for x in got[0]], got[1]) if got is not None else None
        got = got or ((in_turn(w, i, [p.label for p in there]) or odd_or_even(w, i, len(there))) if there else None)
    in_figures = any(p.form == "int" for p in ctx.lattice.pieces[i : i + 1])
    if got is None or (got[0] == ["1"] and not (there[0].counted or in_a_row(w) or in_figures)):
        return None  # one has a flower: one of them
    plants = [p for p in there if p.label in got[0]]
    if len(plants) != len(got[0]):
        return None
    w.turn = [*w.turn, *got[0]]
    return _begin_at(w, i, plants, got[1])


def _begin_at(w: Listener, i: int, plants: list[PlantDraft], end: int) -> int:
    """What is said from piece `end` on is of these plants."""
    ctx = w.ctx
    spoken_of = ctx.last_what if ctx.lattice.at(end + 1) == "none" else None  # the other three have none
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group, ctx.tally, ctx.last_what = plants, True, None, None, spoken_of
    ctx.statements.clear()
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _by_place(w: Listener, i: int, there: list[PlantDraft]) -> tuple[list[str], int] | None:
    """Plants told by where they stand in the row, at the head of a clause; those that were counted need no verb behind."""
    return places(w, i, [p.label for p in there], told_last(w)) if w.begins(i) else None


def in_a_row(w: Listener) -> list[PlantDraft]:
    """All plants of the visit in order, where they were counted before they were told of; none where they were not."""
    there = [p for p in w.ctx.visit.plants if not p.dropped] if w.ctx.visit is not None else []
    if not any(p.counted for p in there) or not all(p.label.isdecimal() for p in there):
        return []
    first = {p.label: p for p in reversed(there)}
    return sorted(first.values(), key=lambda p: int(p.label))


def counted(w: Listener) -> list[PlantDraft]:
    """The plants of the visit that were counted, and had no label then."""
    visit = w.ctx.visit
    return [p for p in visit.plants if p.counted and not p.dropped] if visit is not None else []


_OPENS = _LISTED.words("opens") | _PASSED


def _may_name(w: Listener, i: int) -> bool:
    """A cheap look first: a number, or a word that may stand before one."""
    return w.ctx.lattice.at(i) in _OPENS or any(e.kind in {"INT", "ORD"} for e in w.ctx.lattice.edges[i])


def _by_number(w: Listener) -> list[PlantDraft]:
    """The plants that were named by their numbers: `p1 9 trifs, p2 10 trifs`; one of them may have been gone back to."""
    visit = w.ctx.visit
    there = [p for p in visit.plants if p.named and not p.dropped] if visit is not None else []
    first = {p.label: p for p in reversed(there)}
    alone = len(first) > 1 and len(there) - len(first) < 2 and all(x.isdecimal() for x in first)
    return [p for p in there if first[p.label] is p] if alone else []


def _in_the_list(w: Listener) -> list[PlantDraft]:
    """Plants that are told apart only by their place in a list: `13 nodes, 13, 12, 14`."""
    live = w.ctx.living()
    listed = len(live) > 2 and not any(p.named for p in live) and not (w.ctx.visit and w.ctx.visit.tallies)
    return live if listed and from_one([p.label for p in live]) else []


def cut(w: Listener, at: int) -> None:
    """A phrase that goes over piece `at` is taken apart there."""
    first = bisect_left(w.segments, at - _LONGEST, key=lambda s: s.start)
    for k in range(first, len(w.segments)):
        s = w.segments[k]
        if s.start >= at:
            break
        if at < s.end:
            w.segments[k + 1 : k + 1] = segment(w.ctx.lattice, w.rivals[at : s.end], at, s.end)
            break


_LONGEST = 64  # pieces of a phrase, and more


def of_them_all(w: Listener, ph: Phrase) -> None:
    """`6 plants. Past bloom`: what is said of none of the plants that were counted is said of all of them."""
    ctx = w.ctx
    there = counted(w)
    after = [p.text for p in ctx.lattice.pieces[ph.end : ph.end + 3]]
    if ph.rule == "stage" and not {"except", "but", "save"} & set(after):
        return  # of the field; R5 all but 3 and 6: of the plants
    if not there:
        return
    told = _told_behind(w, ph, there)
    if told is not None and (w.owned is None or len(w.owned.plants) < len(told.plants)):
        w.owned = told
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = told.plants, True, None
    if there and not ctx.plants and ctx.group is None and ctx.tally is None and w.owned is None:
        ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start, ph.end)


def _told_behind(w: Listener, ph: Phrase, there: list[PlantDraft]) -> owners.Owners | None:
    """`flowers on one two and four`: which of the plants, at the end of the clause that this phrase begins."""
    pieces = w.ctx.lattice.pieces
    if not w.begins(ph.start):
        return None
    for i in range(ph.end, len(pieces)):
        if w.hard_end(i) or pieces[i].text == "," or pieces[i].text in EXCEPT:
            return None
        got = behind(w, i) if pieces[i].text == "on" else None
        if got is not None and len(got[0]) > 1:
            plants = [p for p in there if p.label in got[0]]
            return owners.Owners(i, got[1], plants) if len(plants) == len(got[0]) else None
    return None


def none_on(w: Listener, at: int) -> tuple[list[PlantDraft], int] | None:
    """`none on three and five`: at piece `at` stands `on`; which plants these are, and where the words end."""
    there = counted(w)
    got = behind(w, at) if there and at < len(w.ctx.lattice.pieces) else None
    plants = [p for p in there if got is not None and p.label in got[0]]
    return (plants, got[1]) if got is not None and len(plants) == len(got[0]) else None


def the_others(w: Listener, nxt: Phrase | None, n: list[int]) -> bool:
    """`R4 on 2 and 5, the other four R3`: what follows is of the plants of which no stage was told."""
    ctx = w.ctx
    told = ("stated_r", "stated_v")
    rest = [p for p in counted(w) if not any(k in p.facts for k in told)]
    if nxt is None or nxt.rule != "stage" or not rest or len(rest) == len(counted(w)) or (n and n[0] != len(rest)):
        return False
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = rest, True, None
    return True


def leave_out_the_untold(w: Listener) -> None:
    """Of which nothing was told in the end."""
    for visit in w.ctx.visits:
        for p in visit.plants:
            if p.counted and p.empty:
                p.dropped = True
