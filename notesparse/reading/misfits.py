"""Phrases that the words around them rule out: forms of the grammar that fit, and are not meant."""

from __future__ import annotations

from collections.abc import Callable

from notesparse.reading.phrase import Phrase
from notesparse.text.lattice import Lattice

_COUNTED = frozenset(
    {"PCT", "TRIF", "TRIPS", "NODE", "NODES", "INCH", "MM", "CM", "FOOT", "OF", "OUTOF", "POD", "SEED", "FLOWER"}
)
_SHARED = frozenset({"FLOWER", "R", "PLANT", "HAS", "AT", "STAGENAME", "EMERGED"})
_UNITS = frozenset({"MM", "CM", "INCH", "TRIF", "TRIPS", "NODE", "NODES"})
_WHERE = frozenset({"on", "in", "by", "along", "at", "near"})
_BEFORE_A_STAGE = frozenset({"at", "is", "was", "are", "be", "call", "it", "now", "about", "still", "early", "late"})
_HOW = frozenset(
    {
        "good",
        "fair",
        "poor",
        "even",
        "uneven",
        "spotty",
        "slow",
        "ok",
        "okay",
        "great",
        "excellent",
        "bad",
        "fine",
        "rough",
        "thin",
    }
)
_MANY = frozenset({"plants", "plts"})

Misfit = Callable[[Lattice, Phrase], bool]


def misfits(lattice: Lattice, p: Phrase) -> bool:
    """Whether a phrase is ruled out by what stands in it or beside it."""
    return any(rule(lattice, p) for rule in _ALWAYS) or any(rule(lattice, p) for rule in _BY_FORM.get(p.form, ()))


def _kinds(lattice: Lattice, i: int) -> set[str]:
    return {e.kind for e in lattice.edges[i]} if 0 <= i < len(lattice.edges) else set()


def _text(lattice: Lattice, i: int) -> str:
    return lattice.pieces[i].text if 0 <= i < len(lattice.pieces) else ""


def _loose_dash(lattice: Lattice, p: Phrase) -> bool:
    """`4 - 7 trifs`: a dash with blanks is no range of plants, and no date."""
    pieces = lattice.pieces
    return any(
        e.kind == "DASH" and not (pieces[at].glued and at + 1 < len(pieces) and pieces[at + 1].glued)
        for at, e in p.path
    )


def _sweeps(lattice: Lattice, p: Phrase) -> bool:
    """`3/25sw`."""
    return "SWEEP" in _kinds(lattice, p.end)


def _before_count(lattice: Lattice, p: Phrase) -> bool:
    """`pl 1 3 mm pods`: a day with a unit behind it is none."""
    return bool(_kinds(lattice, p.end) & _COUNTED)


def _no_node_up(lattice: Lattice, p: Phrase) -> bool:
    """`third one is up`: a plant that is up, and no node."""
    return any(_text(lattice, x) in {"is", "'s", "was"} for x in range(p.start, p.end))


def _no_stage_heard(lattice: Lattice, p: Phrase) -> bool:
    """`we are seven days past`, `there are three more`: heard as R7 it would be no stage."""
    first = p.path[0][1]
    if _several(lattice, p):
        return True
    if _text(lattice, p.start) not in {"are", "our", "or"} or first.kind not in {"R", "RSOUND"}:
        return False
    if _text(lattice, p.start) == "or" and p.start and _text(lattice, p.start - 1) not in _BEFORE_A_STAGE:
        return lattice.pieces[p.start - 1].form in {"word", "int"}  # a bud or two, one or two V5s
    return _text(lattice, p.start - 1) in {"we", "you", "there", "these", "those", "here"} or (
        _text(lattice, p.end)
        in {"days", "day", "weeks", "week", "hours", "miles", "acres", "rows", "more", "left", "other"}
    )


def _several(lattice: Lattice, p: Phrase) -> bool:
    """`one or two V5s`: some plants, and no statement."""
    return _text(lattice, p.end) == "s" and lattice.pieces[p.end].glued


def _so_many_at_once(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven`: the next plant, and no eleven plants."""
    return any(_text(lattice, x) == "one" for x in range(p.start, p.path[-1][0])) or (
        any(e.kind == "INT" and int(e.means) > 10 for _, e in p.path)
    )


def _not_all_commas(lattice: Lattice, p: Phrase) -> bool:
    """`plant one, two, three all have nine trifs`, and no `plant 1 12 13`."""
    pieces = [at for at, e in p.path if e.kind in {"INT", "INTSOUND"}]
    ends = [e.end for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    apart = all(_text(lattice, end) == "," and nxt == end + 1 for end, nxt in zip(ends, pieces[1:], strict=False))
    return not apart or _text(lattice, p.end) not in {
        "all",
        "each",
        "both",
        "have",
        "had",
        "are",
        "were",
        "same",
        "at",
        ":",
    }


def _place_on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`a flower on the third trif`: where it is, and no count of leaves."""
    i = p.start - 1
    while _text(lattice, i) in {"the", "that", "this"}:
        i -= 1
    return _text(lattice, i) in {"on", "at", "by", "in", "from", "above", "below", "near", "of"}


def _of_the_pod(lattice: Lattice, p: Phrase) -> bool:
    """`seeds filling 3/4 of the pod`: no date."""
    return _text(lattice, p.end) == "of" and bool({"pod", "cavity"} & {_text(lattice, p.end + x) for x in (1, 2)})


def _decimal(lattice: Lattice, p: Phrase) -> bool:
    """`rain gauge had point eight`: a figure, and no stop."""
    return _text(lattice, p.start) == "point" and p.start > 0 and lattice.pieces[p.start - 1].form in {"word", "int"}


def _pods_and_no_day(lattice: Lattice, p: Phrase) -> bool:
    """`1  13 tf  pd 3/16`, `Pl 5 - one pod tan`: a label, leaves or flowers stand before it, or a dash in it."""
    if _text(lattice, p.start) not in {"pd", "pl", "p"}:
        return False
    if any(e.kind == "INT" and not lattice.pieces[at].form == "int" for at, e in p.path):
        return True
    i = p.start - 1
    while i >= 0 and lattice.pieces[i].form != "nl":
        if _kinds(lattice, i) & {"BARE", "PLANT", "PLETTER", "TRIF", "FLOWER", "NODE", "NODES", "SEED"}:
            return True
        i -= 1
    begins = i + 1 < p.start and lattice.pieces[i + 1].form == "int" and i + 2 == p.start
    return _text(lattice, p.start) == "pd" and begins


def _no_page(lattice: Lattice, p: Phrase) -> bool:
    """`p. 2` at a line's end, or on a line of its own; elsewhere it may be a plant."""
    i, j = p.start, p.end
    pieces = lattice.pieces
    ends = j >= len(pieces) or pieces[j].form in {"nl", "mark"} or pieces[j].gap >= 3
    begins = i == 0 or pieces[i - 1].form == "nl"
    if _text(lattice, i) != "p":
        return not (ends or begins)
    return not (ends and (pieces[i].gap >= 3 or begins)) or _text(lattice, i + 1) != "."


def _page(lattice: Lattice, p: Phrase) -> bool:
    """`MG 3.1      p. 2`: a page's number."""
    return _text(lattice, p.start) == "p" and _text(lattice, p.start + 1) == "." and not _no_page(lattice, p)


def _told_between(lattice: Lattice, p: Phrase) -> bool:
    """`plants one through three are nine eight and nine`: the numbers after the verb are others."""
    return any(_text(lattice, x) in {"are", "is", "had", "have", "were"} for x in range(p.start, p.end))


def _said_of_one(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven, same on the flowers`: a count, and no plant eleven."""
    return _text(lattice, p.start - 1) == "one" or _text(lattice, p.end) in {"on", "for"}


def _before_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`same as the first`: which plant it is like is said behind it."""
    i = p.end
    while _text(lattice, i) in {"the", "on"}:
        i += 1
    said = {_text(lattice, x) for x in range(p.start, p.end)}
    return bool(said & {"as", "like"}) and "ORD" in _kinds(lattice, i)


def _green_beans(lattice: Lattice, p: Phrase) -> bool:
    """`green beans filling the pod` are no pods that are still green."""
    return bool(_kinds(lattice, p.end) & {"SEED", "BEAN"})


def _like_count(lattice: Lattice, p: Phrase) -> bool:
    """`like thirty percent`, `like 1/4 in`: about so much, and no plant."""
    return p.path[0][1].kind == "LIKE" and (
        _before_count(lattice, p) or (_text(lattice, p.end) == "/" and lattice.pieces[p.end].glued)
    )


def _none_of(lattice: Lattice, p: Phrase) -> bool:
    """`flowers on none of them`."""
    at, last = p.path[-1] if p.path else (0, None)
    return (
        last is not None
        and last.kind == "NONE"
        and any(e.kind == "NONEOF" and e.end > p.end for e in lattice.edges[at])
    )


def _none_in_the_beans(lattice: Lattice, p: Phrase) -> bool:
    """`hoppers in the grass, none in the beans`."""
    at, last = p.path[-1]
    return last.kind == "BEAN" and any(_text(lattice, x) in {"in", "the"} for x in range(p.start, at))


def _not_shared(lattice: Lattice, p: Phrase) -> bool:
    """Only before what may be told of a share of plants: 6 in 10 flowering, 3 in 10 have pods."""
    i = p.end
    if i >= len(lattice.pieces):
        return True
    return not (
        any(e.kind in _SHARED and e.how == "exact" for e in lattice.edges[i])
        or _text(lattice, i) in {"are", "is", "were", "showing", "with", "podded", "podding"}
    )


def _apart(lattice: Lattice, p: Phrase) -> bool:
    """`4Jul26`, `4-Jul-26` are dates; the same with blanks are not."""
    return any(not lattice.pieces[x].glued for x in range(p.start + 1, p.end))


def _before_unit(lattice: Lattice, p: Phrase) -> bool:
    """`make that 12 mm`."""
    return (
        any(e.kind in _UNITS and e.how == "exact" for e in lattice.edges[p.end])
        if p.end < len(lattice.edges)
        else False
    )


def _questioned(lattice: Lattice, p: Phrase) -> bool:
    return "QUERY" in _kinds(lattice, p.end)


def _comma_inside(lattice: Lattice, p: Phrase) -> bool:
    """`up top, couple down low`."""
    return p.form.startswith("top_") and any(
        _text(lattice, a) in {",", ";"}
        for (_, e), (b, _) in zip(p.path, p.path[1:], strict=False)
        for a in range(e.end, b)
    )


def _half_inch(lattice: Lattice, p: Phrase) -> bool:
    """`half an inch` is no share of the plants."""
    return bool(_kinds(lattice, p.end) & {"INCH", "ANINCH"}) or (
        _text(lattice, p.end) in {"a", "an"} and "INCH" in _kinds(lattice, p.end + 1)
    )


def _listed(lattice: Lattice, p: Phrase) -> bool:
    """`plants, 4 R3`; `1 plant: 4 trifs`: what is counted stands behind the mark."""
    before = p.start - 1
    return any(
        _text(lattice, at) == ","
        or (_text(lattice, at) == ":" and before >= 0 and lattice.pieces[before].form == "int")
        for at in range(p.start, p.path[-1][0])
    )


def _so_many_plants(lattice: Lattice, p: Phrase) -> bool:
    """`split 10 plants: 4 R3, 6 R2`; `plants 3 of 10`."""
    i = p.start
    if _text(lattice, i) not in _MANY:
        return False
    if _kinds(lattice, p.end) & {"OF", "OUTOF"}:
        return True
    counted = any(e.kind == "INT" and e.end == i for j in range(max(0, i - 3), i) for e in lattice.edges[j])
    return counted and _text(lattice, i - 2) not in {"/", "-"}


def _in_the_thirties(lattice: Lattice, p: Phrase) -> bool:
    """`highs in the thirties` are no rows."""
    return (
        bool(p.path)
        and p.path[0][1].kind == "ROWWORD"
        and _text(lattice, p.start - 1) in {"the", "low", "mid", "upper", "lower", "high"}
    )


def _on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    return _text(lattice, p.path[-1][0] - 1) in {"on", "in", "at", "of"}


def _node_of(lattice: Lattice, p: Phrase) -> bool:
    """`node 11 of 14`."""
    return bool(_kinds(lattice, p.start - 1) & {"NODE", "NODES"})


def _no_plants(lattice: Lattice, p: Phrase) -> bool:
    """`first three plants`, `last two V5`: so many plants, and no leaves or nodes."""
    if (
        (p.path[0][1].kind == "ORD" and p.path[0][1].means != 1)
        or not 2 <= int(p.path[1][1].means) <= 40
        or p.path[1][1].kind == "INTSOUND"
    ):
        return True
    return not (p.path[-1][1].kind in {"PLANT", "ONE"} or _kinds(lattice, p.end) & {"R", "V", "HAS", "STAGENAME"})


def _left_elsewhere(lattice: Lattice, p: Phrase) -> bool:
    return p.path[-1][1].kind == "LEFT" and p.path[-1][0] > p.path[-2][1].end


def _parted(lattice: Lattice, p: Phrase) -> bool:
    """`the eighteenth, first plant`."""
    return p.path[1][0] > p.path[0][1].end


def _letters_of_many(lattice: Lattice, p: Phrase) -> bool:
    return _text(lattice, p.start) in _MANY


def _no_sample(lattice: Lattice, p: Phrase) -> bool:
    """`I pulled`; `the plant I pulled had seven`; `3 4 sampled`."""
    if any(e.how == "figure" for _, e in p.path):
        return True
    first = p.path[0][1]
    if first.kind == "SAMPLED":
        return any("HAS" in _kinds(lattice, x) for x in range(first.end, p.path[-1][0]))
    return first.kind == "INT" and "INT" in _kinds(lattice, p.end)


def _seed_of_weight(lattice: Lattice, p: Phrase) -> bool:
    """`4 beans per sq ft`: on the ground, and none in a pod."""
    if p.rule != "seeds":
        return False
    after = [_text(lattice, p.end + x) for x in range(4)]
    return after[0] == "per" or (after[0] in {"to", "a", "in"} and bool({"square", "sq", "foot", "ft"} & set(after)))


def _said_of_seeds(lattice: Lattice, i: int) -> bool:
    """Whether `sds` is followed by what is said of seeds: their size or filling, or that they show."""
    if _kinds(lattice, i) & {"SEE"}:
        return _text(lattice, i + 1) not in _WHERE
    return bool(_kinds(lattice, i) & {"TOUCHING", "SMALL", "INT", "FRAC", "DEC", "ALMOST", "NOT", "HALF"})


def _short_for_a_disease(lattice: Lattice, p: Phrase) -> bool:
    """`sds showing on the west side`."""
    return p.end == p.start + 1 and _text(lattice, p.start) == "sds" and not _said_of_seeds(lattice, p.end)


def _short_for_seeds(lattice: Lattice, p: Phrase) -> bool:
    """`sds touching`."""
    return p.end == p.start + 1 and _text(lattice, p.start) == "sds" and _said_of_seeds(lattice, p.end)


def _disease_shows(lattice: Lattice, p: Phrase) -> bool:
    said = "sds" in {_text(lattice, p.start), _text(lattice, p.start - 1)}
    return said and p.path[-1][1].kind == "SEE" and _text(lattice, p.end) in _WHERE


def _seed_starts(lattice: Lattice, p: Phrase) -> bool:
    """`seed just starting in the top four`, and no field that is gone to."""
    return _text(lattice, p.start).startswith("start") and _text(lattice, p.start - 1) in {
        "just",
        "seed",
        "pods",
        "only",
        "beans",
    }


def _where_on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`thrips on the unis`."""
    i = p.start - 1
    while _text(lattice, i) in {"the", "a", "some", "most"}:
        i -= 1
    return _text(lattice, i) in {"on", "of", "in", "at", "to", "under", "above"}


def _how_it_came_up(lattice: Lattice, p: Phrase) -> bool:
    """`emergence about 80%`, `emergence good`: no stage."""
    if _text(lattice, p.start) != "emergence" or p.end > p.start + 1:
        return False
    i = p.end
    while _text(lattice, i) in {"is", "was", "about", "at", "looks", "looked", "a", "bit", "pretty", "real"}:
        i += 1
    return "INT" in _kinds(lattice, i) or _text(lattice, i) in _HOW


def _rows_apart(lattice: Lattice, p: Phrase) -> bool:
    """`the east edge rows, forty mites a leaflet`; `closed on the 15s`."""
    if _text(lattice, p.start - 1) == "the" and _text(lattice, p.start - 2) == "on":
        return True
    return any(_text(lattice, x) == "," for x in range(p.start, p.end))


def _not_glued_s(lattice: Lattice, p: Phrase) -> bool:
    """`7 1/2s`: the row spacing has an s."""
    return not lattice.original(p.start, p.end).endswith("s") or float(p.path[0][1].means) not in {7.5, 10, 15}


def _of_the_crop(lattice: Lattice, p: Phrase) -> bool:
    """`bean is a 2.9`: a maturity group."""
    return p.path[0][1].kind == "BEAN" and p.path[-1][1].kind == "DEC" and not _not_said_of_beans(lattice, p)


def _not_said_of_beans(lattice: Lattice, p: Phrase) -> bool:
    """`bean is a 2.9`, and no `beans .25`."""
    return _text(lattice, p.path[-1][0] - 1) not in {"a", "are"} or bool(_kinds(lattice, p.end) & _UNITS)


def _no_bean_label(lattice: Lattice, p: Phrase) -> bool:
    """`Bean three, seed an eighth`: a plant; `beans 3` are not."""
    if p.path[0][1].kind != "BEAN" or len(p.path) > 2:
        return False
    before = lattice.pieces[p.start - 1] if p.start else None
    begins = before is None or before.form in {"nl", "mark"}
    return not (begins and _text(lattice, p.start) == "bean" and _text(lattice, p.end) in {",", ":", "has", "had"})


def _full_bloom(lattice: Lattice, p: Phrase) -> bool:
    """`beans are in full bloom`: nothing is said of seed."""
    return (
        p.rule in {"seeds", "state", "pods"}
        and _text(lattice, p.end - 1) == "full"
        and "FLOWER" in _kinds(lattice, p.end)
    )


def _answer(lattice: Lattice, p: Phrase) -> bool:
    """`fl=n pod=y`: the n is of the flowers."""
    return p.start > 0 and _text(lattice, p.start) == "n" and _text(lattice, p.start - 1) == "="


def _ordinal_apart(lattice: Lattice, p: Phrase) -> bool:
    """`11 on the third, trifoliates`."""
    return any(_text(lattice, x) == "," for x in range(p.start, p.end))


def _half_of_others(lattice: Lattice, p: Phrase) -> bool:
    """`half of them are R3 half are R2`."""
    return _text(lattice, p.end) in {"are", "is", "of", "have", "were", "the", "was"}


_ALWAYS: tuple[Misfit, ...] = (_answer, _full_bloom, _none_of, _comma_inside, _in_the_thirties, _seed_of_weight)
_BY_FORM: dict[str, tuple[Misfit, ...]] = {
    "plant_range": (_loose_dash, _so_many_plants),
    "plant_list": (_so_many_plants,),
    "md": (_loose_dash, _sweeps, _of_the_pod),
    "mdy": (_loose_dash,),
    "wd_md": (_loose_dash,),
    "n_slash_m": (_sweeps,),
    "same_n": (_like_count,),
    "same_last": (_before_ordinal,),
    "ord_up": (_no_node_up,),
    "r1": (_no_stage_heard,),
    "green": (_green_beans,),
    "seed_no": (_none_in_the_beans,),
    "seed_yes": (_short_for_a_disease,),
    "findhead": (_short_for_seeds,),
    "see_alone": (_disease_shows,),
    "seed_small": (_disease_shows,),
    "seed_frac": (_of_the_crop,),
    "n_in_m": (_not_shared,),
    "run_together": (_apart,),
    "day_month_yy": (_apart,),
    "month_day_yy": (_apart,),
    "cue_n": (_before_unit,),
    "planted_nn": (_before_count, _pods_and_no_day),
    "planted": (_pods_and_no_day,),
    "emerged_nn": (_before_count,),
    "v_r": (_questioned,),
    "half": (_half_inch,),
    "page_n": (_no_page,),
    "plant_n": (_page, _listed, _so_many_plants, _no_bean_label),
    "trif_nr": (_on_the_leaf,),
    "n_of_m": (_node_of,),
    "first_n": (_no_plants,),
    "last_n": (_no_plants,),
    "fl_past": (_left_elsewhere,),
    "plant_ord": (_parted,),
    "plant_letter": (_letters_of_many,),
    "sampled": (_no_sample,),
    "rows_s": (_not_glued_s,),
    "rows": (_rows_apart,),
    "uni_bare": (_where_on_the_leaf,),
    "name": (_how_it_came_up,),
    "trif_ord_bare": (_ordinal_apart, _place_on_the_leaf),
    "v1": (_several,),
    "next_n": (_so_many_at_once,),
    "n_same": (_said_of_one,),
    "numlist": (_told_between,),
    "stop_n": (_decimal,),
    "plant_commas": (_not_all_commas, _so_many_plants),
    "r_half": (_half_of_others,),
    "goto": (_seed_starts,),
    "bean_group": (_not_said_of_beans,),
}
