"""Tokens to phrases: walk the acceptor over the lattice from every piece, then choose the segmentation by named reasons.

Bounded: from one piece at most `REACH` pieces and `FRONTIER` states are followed, so the work grows with the length of
the note and no faster.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from notesparse.language.unroll import Step
from notesparse.text.lattice import Edge, Lattice

REACH = 22
FRONTIER = 48


_TOGETHER = frozenset(
    {"INT", "FRAC", "DEC", "PLANT", "PLETTER", "SAMPLED", "TRIF", "TRIPS", "NODE", "NODES", "POD", "STOP", "DATE"}
)
_FIGURES = frozenset({"INT", "FRAC", "DEC"})
_COUNTED = frozenset(
    {"PCT", "TRIF", "TRIPS", "NODE", "NODES", "INCH", "MM", "CM", "FOOT", "OF", "OUTOF", "POD", "SEED", "FLOWER"}
)  # like thirty percent
_HEARD = frozenset({"INTSOUND", "ORDSOUND"})  # a word heard for a number stands beside what it counts
_COPULA = frozenset({"is", "'s", "are", "was", "about"})


class Phrase(NamedTuple):
    """A possible phrase: pieces [start, end), its rule, the form of the rule, the edges it took, and its cost."""

    start: int
    end: int
    rule: str
    form: str
    path: tuple[tuple[int, Edge], ...]
    cost: float


# Reasons, in the order of their weight. A reading that covers more of the note with fewer repairs and fewer pieces wins.
UNREAD_WORD, UNUSED_WORD, UNUSED_NUMBER, PHRASE = 2.5, 2.4, 3.0, 1.0
WIDE_GAP = 0.25  # a phrase that runs over a gap of four blanks or more (columns)

_WEAK = {  # phrases that say little by themselves: better as a part of another
    "bareint": 1.6,
    "numlist": 1.65,
    "noneword": 0.6,
    "yesno": 0.2,
    "past": 0.3,
    "plan": 0.3,
    "goto": 0.25,
    "group": -0.5,
    "dittomark": -0.6,
    "same": 0.1,
    "correct": 0.1,
    "call": 0.0,
    "where": 0.2,
    "per": 0.6,
    "sampled": 0.1,
    "fieldcue": 0.2,
    "filler": -0.7,
}
_WEAK_FORMS = {
    "bare_top": 1.8,
    "no_n": 0.5,
    "plus_rolled": 0.2,
    "open_n": 0.4,
    "see_alone": 0.5,
    "small_alone": 0.7,
    "ord_day": 1.5,
    "md": 0.2,
    "ord_node": 0.3,
    "n_plants": 0.8,
    "weekday": 0.4,
    "main_stem": 0.2,
    "main": 0.2,
    "len_bare": 0.6,
    "pod_int": 0.85,
    "pod_int_range": 0.85,
    "up": 0.6,
    "green": 0.2,
    "turning": 0.2,
    "brown": 0.2,
    "full": 0.1,
    "lots": 0.4,
    "half": 0.3,
    "n_slash_m": 0.5,
    "n_in_m": 0.1,
    "nums_down": 0.2,
    "top_two": 0.3,
    "the_v_r": 0.1,
    "trif_nr": 0.35,
    "trif_ord_bare": 0.3,
    "soil_state": 0.2,
    "soil": 0.5,
    "rows": 0.2,
    "top_open": 0.1,
    "cot_up": 0.1,
    "next_n": 0.3,
    "seed_count": 0.25,
    "pod_count": 0.15,
    "bean_yes": 0.1,
    "in_pod": 0.3,
    "mid_plant": 0.2,
    "num_down": 0.1,
    "cue_n": -0.05,
    "fl_count": 0.2,
    "n_same": 0.6,
    "list_same": 0.3,
    "range_same": 0.3,
    "group_both": -0.3,
    "v_r": -0.5,
    "the_v": 0.7,
    "brown_head": 0.1,
    "n_brown": 0.1,
    "plant_range": 0.1,
    "md_planted": 0.2,
    "r_range": 0.1,
    "lower": 0.1,
    "n_plus_rolled": 0.1,
    "same_letter": 0.3,
    "other_n": 0.1,
    "name": 0.1,
    "r_half": 0.2,
    "ord_up": 0.1,
    "pod_match": 0.1,
    "day_month": 0.2,
    "weekday_alone": 0.4,
    "trif_range": 0.05,
}


def _allowed(form: str, path: tuple[tuple[int, Edge], ...]) -> bool:
    """Whether the values can be this form at all: R has eight stages, V about twenty, a date has a month."""
    ints = [e.means for _, e in path if e.kind in {"INT", "INTSOUND"}]
    kinds = [e.kind for _, e in path]
    if form.startswith(("r1", "r_")) or form == "the_v_r":
        nums = ints if form != "the_v_r" else ints[1:]
        if any(not 1 <= n <= 8 for n in nums):
            return False
        if any(e.kind == "DEC" and not 1 <= e.means < 9 for _, e in path):
            return False
    if form.startswith(("v1", "v_")) or form == "the_v_r":  # v_r: V, then R
        if form == "v_r" and (
            (len(ints) < 2 and not any(e.kind == "DEC" for _, e in path)) or (len(ints) == 2 and not 1 <= ints[1] <= 8)
        ):
            return False
        if ints and not 0 <= ints[0] <= 30:
            return False
        if form == "v_range" and len(ints) == 2 and ints[1] <= ints[0]:
            return False
        if any(e.kind == "DEC" and not 0 < e.means <= 30 for _, e in path):
            return False
    if form == "r_range" and len(ints) == 2 and ints[1] <= ints[0]:
        return False
    if form in {"md", "wd_md"}:
        return bool(1 <= ints[0] <= 31 and 1 <= ints[1] <= 31 and (ints[0] <= 12 or ints[1] <= 12))
    if form == "mdy":
        return bool(1 <= ints[0] <= 31 and 1 <= ints[1] <= 31)
    if form == "n_in_m":
        return int(ints[0]) < int(ints[1]) and int(ints[1]) in {3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100}
    if form == "n_slash_m" or form == "n_of_m":
        return len(ints) < 2 or bool(ints[0] <= ints[1] and ints[1] >= 2)
    if form == "r_half" and any(e.kind == "FRAC" and float(e.means) != 0.5 for _, e in path):
        return False
    if form in {"pct", "share_brown"} and "INTSOUND" in kinds:
        return False
    if form.startswith(("num_", "nums_", "plant_", "next_n")) and any(e.how == "couple" for _, e in path):
        return False
    if form == "cue_n" and ("INTSOUND" in kinds or path[1][0] > path[0][1].end + 1):
        return False
    if form == "node_of":
        return bool(1 <= ints[0] <= ints[1] and ints[1] >= 4)
    if form == "top_n" and ints and not 1 <= ints[0] <= 8:
        return False
    if form == "the_v":
        return bool(1 <= ints[0] <= 22) and path[1][1].end == path[1][0] + 1
    if form in {"plant_n", "plant_two", "plant_list"} and any(n > 400 for n in ints):
        return False
    if form == "rows":
        q = next((e.means for _, e in path if e.kind in {"INT", "DEC", "FRAC", "ROWWORD"}), 0)
        return float(q) in {7, 7.5, 10, 15, 19, 20, 22, 30, 34, 36, 38, 40}
    if form in {"group"}:
        q = next((e.means for _, e in path if e.kind in {"INT", "DEC"}), 0)
        return 0 <= float(q) <= 9.9 or 10 <= float(q) <= 79
    if form in {"group_two"}:
        return all(0 <= n <= 9 for n in ints)
    if form in {"day_month_yy", "month_day_yy", "run_together"}:
        return bool(1 <= ints[0] <= 31 and (0 <= ints[1] <= 99 or 1950 <= ints[1] <= 2099))
    if form in {"month_day", "day_month", "month_day_year", "day_month_year", "wd_month_day", "wd_day_month"}:
        days = [e.means for _, e in path if e.kind in {"INT", "ORD", "ORDSOUND"}]
        return bool(days) and 1 <= days[0] <= 31
    if form in {"wd_ord", "today_ord"}:
        return all(1 <= e.means <= 31 for _, e in path if e.kind == "ORD")
    return True


def _kinds(lattice: Lattice, i: int) -> set[str]:
    return {e.kind for e in lattice.edges[i]}


def _names_plants(lattice: Lattice, p: Phrase) -> bool:
    """`first three plants`, `last two V5`: so many plants, and no leaves or nodes."""
    if (
        (p.path[0][1].kind == "ORD" and p.path[0][1].means != 1)
        or not 2 <= int(p.path[1][1].means) <= 40
        or p.path[1][1].kind == "INTSOUND"
    ):
        return False
    return p.path[-1][1].kind in {"PLANT", "ONE"} or (
        p.end < len(lattice.pieces) and bool(_kinds(lattice, p.end) & {"R", "V", "HAS", "STAGENAME"})
    )


def phrases_at(lattice: Lattice, i: int, root: Step) -> list[Phrase]:
    """Every phrase that begins at piece i, the cheapest of each rule, form and end."""
    first = lattice.edges[i]
    if not first or (i and any(e.kind == "ATMARK" for e in lattice.edges[i - 1])):
        return []  # the figure behind @ is a node
    best: dict[tuple[int, str, str], Phrase] = {}
    frontier: list[tuple[int, Step, float, tuple[tuple[int, Edge], ...]]] = [(i, root, 0.0, ())]
    seen = 0
    pieces = lattice.pieces
    n = len(pieces)
    while frontier:
        at, step, cost, path = frontier.pop()
        seen += 1
        if seen > 600:
            break
        if at < n and at - i < REACH:
            gap = WIDE_GAP if path and pieces[at].gap >= 4 else 0.0
            for edge in lattice.edges[at]:
                nxt = step.get(edge.kind)
                if nxt is None or (path and edge.kind in _HEARD and at > path[-1][1].end + 1):
                    continue
                new_cost = cost + edge.cost + gap
                new_path = (*path, (at, edge))
                for rule, form in nxt.get("", ()):
                    key = (edge.end, rule, form)
                    old = best.get(key)
                    if (old is None or new_cost < old.cost) and _allowed(form, new_path):
                        best[key] = Phrase(i, edge.end, rule, form, new_path, new_cost)
                if len(frontier) < FRONTIER:
                    frontier.append((edge.end, nxt, new_cost, new_path))
            if path and path[-1][1].kind not in {"INTSOUND", "ORDSOUND"}:
                soft = lattice.soft[at]
                if (
                    soft is not None
                    and path[-1][1].kind in _TOGETHER
                    and pieces[at].form == "word"
                    and pieces[at].text not in _COPULA
                    and not (
                        path[-1][1].kind == "POD"
                        and len(path) > 1
                        and pieces[at].text in {"that", "has", "had", "which", "have"}
                    )
                ):
                    soft = None  # a number and its noun stand together
                if path[-1][1].kind == "PLANTSND" or (pieces[at].text == '"' and path[-1][1].kind in _FIGURES):
                    soft = None  # 2" pods
                if soft is not None and len(frontier) < FRONTIER and cost + soft < 2.5:
                    frontier.append((at + 1, step, cost + soft + gap, path))
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form in {"plant_range", "md", "mdy", "wd_md"}
            and any(
                e.kind == "DASH" and not (pieces[at].glued and at + 1 < n and pieces[at + 1].glued) for at, e in p.path
            )
        )
    }
    best = {
        k: p
        for k, p in best.items()
        if not (p.form in {"md", "n_slash_m"} and p.end < n and _kinds(lattice, p.end) & {"SWEEP"})
    }  # 3/25sw
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "same_n"
            and p.path[0][1].kind == "LIKE"
            and p.end < n
            and any(e.kind in _COUNTED for e in lattice.edges[p.end])
        )
    }
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.path
            and p.path[-1][1].kind == "NONE"
            and any(e.kind == "NONEOF" and e.end > p.end for e in lattice.edges[p.path[-1][0]])
        )
    }  # flowers on none | of them
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "seed_no"
            and p.path[-1][1].kind == "BEAN"
            and any(pieces[x].text in {"in", "the"} for x in range(i, p.path[-1][0]))
        )
    }  # hoppers in the grass, none in the beans
    best = {k: p for k, p in best.items() if not (p.form == "n_in_m" and not _shared(lattice, p.end))}
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form in {"run_together", "day_month_yy", "month_day_yy"}
            and any(not pieces[x].glued for x in range(i + 1, p.end))
        )
    }  # 4Jul26, 4-Jul-26
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "cue_n"
            and p.end < n
            and any(
                e.kind in {"MM", "CM", "INCH", "TRIF", "TRIPS", "NODE", "NODES"} and e.how == "exact"
                for e in lattice.edges[p.end]
            )
        )
    }  # make that 12 mm
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form in {"planted_nn", "emerged_nn"}
            and p.end < n
            and any(e.kind in _COUNTED for e in lattice.edges[p.end])
        )
    }  # pl 1 3 mm pods
    best = {
        k: p
        for k, p in best.items()
        if not (p.form == "v_r" and p.end < n and any(e.kind == "QUERY" for e in lattice.edges[p.end]))
    }
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form.startswith("top_")
            and any(
                pieces[a].text in ",;"
                for (_, e), (b, _) in zip(p.path, p.path[1:], strict=False)
                for a in range(e.end, b)
            )
        )
    }  # up top, couple down low
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "half"
            and p.end + 1 < n
            and (
                _kinds(lattice, p.end) & {"INCH", "ANINCH"}
                or (pieces[p.end].text in {"a", "an"} and _kinds(lattice, p.end + 1) & {"INCH"})
            )
        )
    }
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "plant_n"
            and any(
                pieces[at].text == "," or (pieces[at].text == ":" and i and pieces[i - 1].form == "int")
                for at in range(i, p.path[-1][0])
            )
        )
    }
    if (
        i
        and any(e.kind == "ROWWORD" for e in first)
        and pieces[i - 1].text in {"the", "low", "mid", "upper", "lower", "high"}
    ):
        best = {k: p for k, p in best.items() if p.path[0][1].kind != "ROWWORD"}  # highs in the thirties
    if (
        pieces[i].text in {"plants", "plts"}
        and i
        and pieces[i - 1].form == "int"
        and not (i > 1 and pieces[i - 2].text in {"/", "-"})
    ):
        best = {k: p for k, p in best.items() if p.form != "plant_n"}  # split 10 plants: 4 R3, 6 R2
    best = {
        k: p
        for k, p in best.items()
        if not (p.form == "trif_nr" and pieces[p.path[-1][0] - 1].text in {"on", "in", "at", "of"})
    }
    best = {
        k: p for k, p in best.items() if not (p.form == "n_of_m" and i and _kinds(lattice, i - 1) & {"NODE", "NODES"})
    }  # node 11 of 14
    best = {k: p for k, p in best.items() if not (p.form in {"first_n", "last_n"} and not _names_plants(lattice, p))}
    best = {
        k: p
        for k, p in best.items()
        if not (p.form == "fl_past" and p.path[-1][1].kind == "LEFT" and p.path[-1][0] > p.path[-2][1].end)
    }
    best = {
        k: p for k, p in best.items() if not (p.form == "plant_ord" and p.path[1][0] > p.path[0][1].end)
    }  # the eighteenth, first plant
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "plant_n"
            and pieces[i].text in {"plants", "plts"}
            and p.end < n
            and _kinds(lattice, p.end) & {"OF", "OUTOF"}
        )
    }
    best = {
        k: p for k, p in best.items() if not (p.form == "sampled" and any(e.how == "figure" for _, e in p.path))
    }  # I pulled
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "sampled"
            and p.path[0][1].kind == "SAMPLED"
            and any("HAS" in _kinds(lattice, x) for x in range(p.path[0][1].end, p.path[-1][0]))
        )
    }  # the plant I pulled had seven
    best = {k: p for k, p in best.items() if not (p.form == "plant_letter" and pieces[i].text in {"plants", "plts"})}
    best = {
        k: p
        for k, p in best.items()
        if not (
            p.form == "sampled"
            and p.path[0][1].kind == "INT"
            and p.end < n
            and any(e.kind == "INT" for e in lattice.edges[p.end])
        )
    }
    for edge in first:  # a longer filler: bug check, let me see
        if edge.kind == "FILLER" or (edge.kind in {"HEDGE", "FEW", "ONLY", "SOMEW", "HAS"} and edge.end > i + 1):
            best[(edge.end, "filler", "filler")] = Phrase(i, edge.end, "filler", "filler", (), 0.0)
    return list(best.values())


def _shared(lattice: Lattice, i: int) -> bool:
    """What stands at piece i may be told of a share of plants: 6 in 10 flowering, 3 in 10 have pods."""
    if i >= len(lattice.pieces):
        return False
    p = lattice.pieces[i]
    return any(
        e.kind in {"FLOWER", "R", "PLANT", "HAS", "AT", "STAGENAME", "EMERGED"} and e.how == "exact"
        for e in lattice.edges[i]
    ) or (p.text in {"are", "is", "were", "showing", "with", "podded", "podding"})


@dataclass(frozen=True, slots=True)
class Segment:
    """One stretch of the chosen reading: a phrase, or a piece that no phrase took."""

    start: int
    end: int
    phrase: Phrase | None


def phrase_cost(p: Phrase) -> float:
    return PHRASE + p.cost + _WEAK.get(p.rule, 0.0) + _WEAK_FORMS.get(p.form, 0.0)


def skip_cost(lattice: Lattice, i: int) -> float:
    """What it costs to leave piece i outside all phrases."""
    p = lattice.pieces[i]
    if lattice.edges[i] and lattice.edges[i][0].kind == "BARE":
        return 5.0
    if p.form == "mark" and lattice.edges[i] and lattice.edges[i][0].kind in {"FLOWER", "NONE"}:
        return UNUSED_WORD  # a picture of a flower that stands for the word
    if p.form in {"nl", "mark"}:
        if (
            p.text == "#"
            and i + 1 < len(lattice.pieces)
            and lattice.pieces[i + 1].glued
            and lattice.pieces[i + 1].form == "int"
        ):
            return UNUSED_WORD  # #2 flowers
        return {"*": 1.5, '"': 0.6, "#": 0.3, "%": 0.3, "/": 0.3, "&": 0.3, "+": 0.3}.get(p.text, 0.0)
    if lattice.filler[i]:
        return 0.3
    if p.form in {"int", "dec", "big", "dmy"}:
        return UNUSED_NUMBER
    if any(e.kind in {"INT", "ORD", "FRAC"} and e.how != "sound" for e in lattice.edges[i]):
        return UNUSED_NUMBER
    return UNUSED_WORD if lattice.known[i] else UNREAD_WORD


def segment(lattice: Lattice, phrases: list[list[Phrase]], start: int, end: int) -> list[Segment]:
    """The cheapest way to read pieces [start, end) as phrases and loose pieces; `phrases` has those of `start` first."""
    size = end - start
    cost = [float("inf")] * (size + 1)
    back: list[tuple[int, Phrase | None]] = [(0, None)] * (size + 1)
    cost[0] = 0.0
    for k in range(size):
        here = cost[k]
        i = start + k
        c = here + skip_cost(lattice, i)
        if c < cost[k + 1]:
            cost[k + 1] = c
            back[k + 1] = (k, None)
        for p in phrases[k]:
            e = p.end - start
            if e > size:
                continue
            c = here + phrase_cost(p)
            if c < cost[e] - 1e-9:
                cost[e] = c
                back[e] = (k, p)
    out: list[Segment] = []
    k = size
    while k:
        b, chosen = back[k]
        out.append(Segment(start + b, start + k, chosen))
        k = b
    out.reverse()
    return out
