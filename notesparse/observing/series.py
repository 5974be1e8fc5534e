"""Bare labels: in a series, numbers and letters at the head of each item are plants (guide 4.7)."""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.observing.by_ordinal import in_turn
from notesparse.observing.counting import COUNTED, counted_off, counting_up, named
from notesparse.observing.day_heads import mark_days
from notesparse.observing.series_heads import (
    JOINING,
    MOST_LETTERS,
    PLANTS,
    Head,
    bracket_open,
    item_heads,
    read_head,
    rising,
)
from notesparse.reading.parse import phrases_at
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("observing/series")
_COMMON = cue_page("shared")

_COUNTED = COUNTED | {"DITTOMARK"}


def _follows(a: tuple[str, ...], b: tuple[str, ...]) -> bool:
    x, y = a[-1], b[0]
    if x.isdigit() and y.isdigit():
        return int(y) == int(x) + 1
    return len(x) == 1 and len(y) == 1 and x.isalpha() and y.isalpha() and ord(y.lower()) == ord(x.lower()) + 1


_OF_A_NAME = frozenset(
    {"FIELDNOUN", "COMPASS", "LETTER", "LOW", "TOP", "UPTOP", "WHEREWORD", "LONG", "OTHERCROP", "MM"}
)  # MM: `mill`, which is heard for mil


def _numbered_fields(lattice: Lattice, chain: list[Head]) -> bool:
    """`1) Stave Mill 70% podded` over `2) Church: R4`: every item of the list begins with a name, so it goes from field to
    field."""
    if len(chain) < 2 or not all(h.line_head and len(h.labels) == 1 for h in chain):
        return False
    nouns = 0
    for h in chain:
        at = h.end + (lattice.at(h.end) == "the")
        if at >= len(lattice.pieces) or lattice.pieces[at].form != "word" or lattice.filler[at]:
            return False
        exact = {e.kind for e in lattice.edges[at] if e.how == "exact"}
        longer = any(e.how == "exact" and e.end > at + 1 for e in lattice.edges[at])
        if longer or exact - _OF_A_NAME or not lattice.original(at, at + 1)[:1].isupper():
            return False
        nouns += (not exact or "FIELDNOUN" in exact) and _told_of_a_field(lattice, at)
    return 2 * nouns >= len(chain)


_TELLS_OF_A_FIELD = frozenset({"R", "V", "PCT", "STAGENAME", "OUTOF", "OF", "PLETTER", "PLANT"})


def _told_of_a_field(lattice: Lattice, i: int) -> bool:
    """Behind the words of a name, on the same line: a colon, a stage, a share, or plants of its own."""
    k = i + 1
    while k < min(i + 4, len(lattice.pieces)) and lattice.pieces[k].form == "word":
        k += 1
        if lattice.pieces[k - 1].text in {"plant", "plants", "one"}:
            return False  # 1. Short plant 5 trifs
    if k < len(lattice.pieces) and lattice.at(k) in {":", "-"}:
        return True
    said = {e.kind for x in range(i + 1, min(i + 6, len(lattice.pieces))) for e in lattice.edges[x] if e.how == "exact"}
    return bool(said & _TELLS_OF_A_FIELD)


def _inside_a_label(lattice: Lattice, i: int) -> bool:
    """`plants one two and three`: the second number is of the label that has begun."""
    k = i
    while k and (
        lattice.at(k - 1) in {"and", ","}
        or (len(lattice.at(k - 1)) == 1 and lattice.at(k - 1).isalpha())  # plants A, B and C
        or any(e.kind == "INT" for e in lattice.edges[k - 1])
    ):
        k -= 1
    letters = len(lattice.at(i)) == 1 and lattice.at(i).isalpha()
    return 0 < k < i and (letters or lattice.at(i - 1) not in {","}) and lattice.at(k - 1) in {"plants", "plts"}


_TO_A_LENGTH = _COMMON.words("towards_a_length")


def _closes_a_bracket(lattice: Lattice, h: Head) -> bool:
    """`(pod 7/8" nd 3), pl 2`: the bracket behind the figure is one that was opened on the line, and no label's."""
    marked = any(lattice.at(x) == ")" for x in range(h.start, h.end + 1))
    return marked and lattice.at(h.start - 1) != "(" and bracket_open(lattice, h.start)  # (3) is a label


_HEADS_A_LIST = frozenset({"TRIF", "NODES"})


def _goes_on_a_list(lattice: Lattice, i: int) -> bool:
    """`trifs 9, 10, 11, 12. fl top`: counts with commas between them behind their noun, and no labels; `pods on 1, 3. None
    on 2`: the end of a list of plants, and no head of what follows."""
    if lattice.at(i - 1) != "," or lattice.pieces[i].form != "int":
        return False
    ends = lattice.at(i + 1) in {".", ";"} and i + 2 < len(lattice.pieces) and lattice.pieces[i + 2].form == "word"
    while i > 1 and lattice.at(i - 1) == "," and lattice.pieces[i - 2].form == "int":
        i -= 2
    if ends and lattice.at(i - 1) == "on" and lattice.at(i - 3) not in {".", ")"}:
        return True
    i -= lattice.at(i - 1) in {":", "-", "="}
    return i > 0 and any(e.kind in _HEADS_A_LIST and e.end == i and e.how == "exact" for e in lattice.edges[i - 1])


def mark_series(lattice: Lattice, skip_lines: set[int]) -> set[int]:
    """Put BARE edges where a series of bare labels stands; returns the pieces that are such labels."""
    heads = [h for h in (read_head(lattice, i, line) for i, line in item_heads(lattice)) if h]
    coded = _coded(lattice)
    if skip_lines:
        line_no, at = 0, {}
        for i, p in enumerate(lattice.pieces):
            at[i] = line_no
            line_no += p.form == "nl"
        heads = [h for h in heads if at[h.start] not in skip_lines]
        coded = {i: end for i, end in coded.items() if at[i] not in skip_lines}
    chains: list[list[Head]] = []
    values = _runs_of_values(lattice) | mark_days(lattice)
    heads = [
        h
        for h in heads
        if h.start not in values
        and (h.sure or lattice.at(h.end) != "per")  # leafhoppers, 2 per sweep
        and not (lattice.at(h.end) in PLANTS and lattice.at(h.end + 1) in _TO_A_LENGTH)  # 5 plants to the foot
        and not _values_of_plants(lattice, h)
        and not _counted_down(lattice, h)
        and not _rest_of_a_share(lattice, h)
        and not _inside_a_label(lattice, h.start)
        and not _closes_a_bracket(lattice, h)
        and not _goes_on_a_list(lattice, h.start)
    ]
    marked = {g.end for g in heads if g.labels[0].isdigit() and lattice.at(g.end - 1) in {".", ")"}}
    for h in heads:
        counted = (
            h.end < len(lattice.pieces)
            and h.end == h.start + 1
            and any(
                e.kind in _COUNTED
                for e in lattice.edges[h.end]
                if e.end == h.end + 1 or e.kind in {"SAMPLED", "INSECT"}  # 1 green stink bug
            )
        )
        counted = counted and not _owns(lattice, h)
        if counted and h.start in marked:
            continue  # 1.  1 tri
        ended = h.end >= len(lattice.pieces) or lattice.pieces[h.end].form == "nl"
        if counted and not h.sure and lattice.pieces[h.end].glued:
            continue
        for chain in chains:
            if (
                _follows(chain[-1].labels, h.labels)
                or _in_between(chain, h)
                or _slipped(chain, h, heads)
                or _left_out(lattice, chain, h)
                or _the_missing(chain, h)
            ):
                if counted and not h.sure and not (h.line_head and chain[-1].line_head):
                    continue
                chain.append(h)
                break
        else:
            if ended and not h.sure:
                continue
            if counted and not h.sure:
                if h.labels != ("1",):
                    continue
            chains.append([h])
    beside = _second_column(lattice, heads)
    if beside:
        chains.append(beside)
    loose = counting_up(
        lattice,
        {i for i, _ in item_heads(lattice)},
        {
            h.start
            for chain in chains
            for h in chain
            if len(chain) > 2 or (len(chain) > 1 and chain[0].labels[0].lower() in {"1", "a"})
        },
    )
    loose = named(lattice) or [x for x in loose if not _inside_a_label(lattice, x[0])]
    if loose:
        chains.append([Head(*label, False, False) for label in loose])
    taken = {h.start for chain in chains for h in chain if len(chain) > 1}
    off = [run for run in counted_off(lattice) if not taken & {start for start, _, _ in run}]
    chains += [[Head(*label, False, False) for label in run] for run in off]
    ordinals = [] if skip_lines else in_turn(lattice)
    if ordinals:
        told = {start for start, _, _ in ordinals}
        chains = [chain for chain in chains if not any(h.start in told for h in chain)]
        chains.append([Head(*label, False, False) for label in ordinals])
    counted_up = {start for run in [loose, *off, ordinals] for start, _, _ in run}
    out: set[int] = set()
    for chain in chains:
        first = chain[0].labels[0]
        sure = any(h.sure for h in chain)
        good = len(chain) >= 2 and (
            first.lower() in {"1", "a"} or sure or len(chain) >= 3 or any(len(h.labels) > 1 for h in chain)
        )
        if not good and len(chain) == 2 and first == "2":
            good = _one_before(lattice, chain[0].start) is not None
        if not good and len(chain) == 1 and sure and first.lower() in {"1", "a"}:
            good = True
        if not good and len(first) == 1 and first.lower() in _SECOND and _lettered_before(lattice, chain):
            good = True  # Plant a, 6 trifs. b like a. c, 7 trifs
        if (
            not good
            and len(chain) == 1
            and chain[0].line_head
            and first.isdigit()
            and (sure or (len(chain[0].labels) > 1 and _listed(lattice, chain[0])))
        ):
            good = _of_a_plant(lattice, chain[0].end)  # 3) 11 trifs
        if not good and len(chain) == 1 and _the_next_behind(lattice, chain[0]):
            good = True  # one had seed at the third node, the next had pods
        if not good and len(chain) == 1 and len(chain[0].labels) == 1 and _is_so(lattice, chain[0]):
            good = True  # 2 is V3, 5 is V5
        if not good and len(chain) == 1 and len(chain[0].labels) > 1 and _counted_of_all(lattice, chain[0]):
            good = True  # Acorn Flat. 1-5 9 trifs
        if not good and len(chain) == 1 and _the_others(lattice, chain[0]):
            good = True  # plants 1, 3 and 4 have a brown pod. 2 and 5 pods all green
        if not good and chain[0].start not in counted_up:
            continue
        if chain[0].start not in counted_up and (_after_a_count(lattice, chain) or _only_counts(lattice, chain)):
            continue
        if _numbered_fields(lattice, chain):
            continue
        if first == "2" and len(chain[0].labels) == 1:
            one = _one_before(lattice, chain[0].start)
            if one is not None:
                lattice.edges[one] = [Edge(one + 1, "BARE", ("1",), 0.0, "exact")]
                out.add(one)
        for h in chain:
            if h.start and lattice.pieces[h.start - 1].text == ".":
                lattice.soft[h.start - 1] = None
            lattice.edges[h.start] = [Edge(h.end, "BARE", h.labels, 0.0, "exact")]
            lattice.known[h.start] = True
            out.add(h.start)
    for i, end in coded.items():
        lattice.edges[i] = [Edge(end, "BARE", (lattice.original(i, lattice.coded[i]),), 0.0, "exact")]
        lattice.known[i] = True
        out.add(i)
    if out:
        lattice.changed()
    return out


def coded_plants(lattice: Lattice) -> set[int]:
    """`#E4 11 trifs` over `#E5 10 trifs`: codes behind the sign for a number, two and more of them with something of a plant
    behind each; they are no names of fields."""
    found = {i: end for i, end in lattice.coded.items() if i and lattice.at(i - 1) == "#"}
    within = [end for end in found.values() if end < len(lattice.pieces) and lattice.pieces[end].form != "nl"]
    told = sum(_of_a_plant(lattice, end + (lattice.at(end) in {":", "-", ","})) for end in within)
    return set(found) if told > 1 else set()


def _coded(lattice: Lattice) -> dict[int, int]:
    """`E1 - 9 trifs` over `E2 - 8 trifs`, `K9 R4` behind plants K7 and K8: where labels of letters and a figure stand at
    the head of an item without a word for a plant, and where the item goes on."""
    out: dict[int, int] = {}
    counted = False
    for i, _ in item_heads(lattice):
        end = lattice.coded.get(i)
        if end is None or (i and lattice.at(i - 1) == "#"):
            continue
        after = end + (lattice.at(end) in {":", "-", ")", ",", "."})
        out[i] = after
        staged = after < len(lattice.pieces) and {e.kind for e in lattice.edges[after]} & {"R", "V", "STAGENAME"}
        counted = counted or any(e.kind == "LETTER" for e in lattice.edges[i])
        counted = counted or (not staged and _of_a_plant(lattice, after))
    return out if counted else {}


_HAS = _COMMON.words("being_or_having") | _COMMON.words("showing") | _COMMON.words("with")
_TO_THE_NEXT = 40  # pieces


_BEHIND_THE_NEXT_BEHIND = _LISTED.words("behind_the_next_behind")


def _the_next_behind(lattice: Lattice, h: Head) -> bool:
    """`Of the tops, one had beans at the third joint, the next had pods`: the first of plants that are told in turn."""
    if h.labels != ("1",) or lattice.at(h.start) != "one" or lattice.at(h.end) not in _HAS:
        return False
    for i in range(h.end, min(h.end + _TO_THE_NEXT, len(lattice.pieces) - 2)):
        if lattice.at(i) == "the" and lattice.at(i + 1) == "next":
            return lattice.at(i + 2 + (lattice.at(i + 2) in _BEHIND_THE_NEXT_BEHIND)) in _HAS
    return False


def _second_column(lattice: Lattice, heads: list[Head]) -> list[Head]:
    """`1.  7 trif, no bloom          5.  6 trif`: labels behind a wide gap, on the lines of labels that they go on from."""
    pieces = lattice.pieces
    first = [h for h in heads if h.line_head and h.labels[0].isdigit() and lattice.at(h.end - 1) in {".", ")"}]
    numbers_ = [int(h.labels[0]) for h in first]
    if len(first) < 2 or numbers_ != list(range(1, len(first) + 1)):
        return []
    out: list[Head] = []
    for i, p in enumerate(pieces[:-2]):
        behind = p.form == "int" and p.gap >= _WIDE and pieces[i + 1].text == lattice.at(first[0].end - 1)
        if behind and pieces[i + 1].glued and not pieces[i + 2].glued and pieces[i - 1].form != "nl":
            out.append(Head(i, i + 2, (p.text,), True, False))
    follow = list(range(len(first) + 1, len(first) + len(out) + 1))
    return out if len(out) > 1 and [int(h.labels[0]) for h in out] == follow else []


_WIDE = 4  # blanks between two columns of a page


_BEHIND_REST_OF_A_SHARE = _LISTED.words("behind_rest_of_a_share")


def _rest_of_a_share(lattice: Lattice, h: Head) -> bool:
    """`3 of 5 at R5, 2 at R4`: so many of them, and no plant."""
    if h.line_head or h.sure or lattice.at(h.end) not in _BEHIND_REST_OF_A_SHARE:
        return False
    i = h.start - 1
    while i > 1 and lattice.pieces[i].form != "nl" and lattice.at(i) not in {".", ";"}:
        if lattice.at(i) in {"of", "/"} and lattice.pieces[i - 1].form == "int" and lattice.pieces[i + 1].form == "int":
            return lattice.at(i) == "of" or _share_of_a_class(lattice, i)
        i -= 1
    return False


def _share_of_a_class(lattice: Lattice, stroke: int) -> bool:
    """`3/5 R5`, `blooming 3/5`, `R5 3/5`: beside the figures stands what is seen, so they are no day (guide 4.16)."""
    behind, before = stroke + 2, stroke - 2
    if behind < len(lattice.pieces) and (
        lattice.at(behind) in _BEHIND_REST_OF_A_SHARE or any(e.kind in _SEEN for e in lattice.edges[behind])
    ):
        return True
    before -= before > 0 and lattice.pieces[before].form == "int" and lattice.pieces[before].glued
    return before >= 0 and any(e.kind in _SEEN for e in lattice.edges[before])


def _counted_down(lattice: Lattice, h: Head) -> bool:
    """`8 at R2` / `3 at R1` / `1 no bloom` down a page: figures that fall are counts, and no labels."""
    pieces = lattice.pieces
    if h.sure or not h.line_head or not h.labels[0].isdigit() or not h.start:
        return False
    end = h.start - 1
    start = next((k + 1 for k in range(end - 1, -1, -1) if pieces[k].form == "nl"), 0)
    above = pieces[start] if start < end else None
    if above is None or above.form != "int" or len(above.text) > 2 or (start + 1 < end and pieces[start + 1].glued):
        return False
    staged = any(p.rule in {"stage", "flowers", "pods", "seeds"} for p in phrases_at(lattice, start + 1))
    staged = staged or any(p.rule == "stage" for p in phrases_at(lattice, min(start + 2, end)))
    return int(above.text) > int(h.labels[0]) and staged


def _after_a_count(lattice: Lattice, chain: list[Head]) -> bool:
    """`12 tri, fl top 2. 11, fl low. 12, fl top 2`: bare figures behind a count with its noun count the same, and are no labels."""
    first = chain[0]
    if first.labels[0] in {"1", "2"} or any(h.sure or h.line_head for h in chain) or not first.labels[0].isdigit():
        return False
    begin = first.start
    while begin and lattice.pieces[begin - 1].form != "nl":
        begin -= 1
    return any(
        e.kind == "INT"
        and e.end < first.start
        and any(n.kind == "TRIF" and n.how == "exact" for n in lattice.edges[e.end])
        for e in lattice.edges[begin]
    )


def _only_counts(lattice: Lattice, chain: list[Head]) -> bool:
    """`1 trif` / `1 trif, 2nd still rolled` / `2 trifs` down a page: each figure is of the noun behind it."""
    lines = [
        i for i, p in enumerate(lattice.pieces) if p.form == "int" and (not i or lattice.pieces[i - 1].form == "nl")
    ]
    bare = all(h.start in lines and not h.sure and h.end == h.start + 1 for h in chain)
    return bare and all(
        any(
            e.kind in {"TRIF", "TRIPS", "NODES"} and e.how == "exact" and not _value_behind(lattice, e.end)
            for e in lattice.edges[i + 1]
        )
        for i in lines
        if i + 1 < len(lattice.edges)
    )


def _value_behind(lattice: Lattice, i: int) -> bool:
    """`1 tf? 12`, `1 tf 12`: the figure before the noun is a label."""
    pieces = lattice.pieces
    if i >= len(pieces) or any(e.kind == "ORD" for e in lattice.edges[i]):
        return False  # 1 trif 2nd still rolled
    return pieces[i].text in {"?", ":", "="} or pieces[i].form == "int"


def _runs_of_values(lattice: Lattice) -> set[int]:
    """`8, 8, 9, 7 and 8 trifs`: figures with nothing but commas between, that do not rise, are values and no labels."""
    pieces, out, i = lattice.pieces, set[int](), 0
    while i < len(pieces):
        run, figures, k = [], list[int](), i
        while k < len(pieces) and (figure := figure_at(lattice, k)) is not None:
            run.append(k)
            figures.append(figure)
            k += 1
            if k < len(pieces) and pieces[k].text in {",", "and", "&"}:
                k += 1 + (pieces[k].text == "," and k + 1 < len(pieces) and pieces[k + 1].text in {"and", "&"})
            else:
                break
        if len(run) >= 3 and any(b <= a for a, b in itertools.pairwise(figures)):
            out.update(run)
        i = max(k, i + 1)
    return out


def figure_at(lattice: Lattice, i: int) -> int | None:
    """A figure, or a number said as one word."""
    if lattice.pieces[i].form == "int":
        return int(lattice.pieces[i].text)
    said = [e for e in lattice.edges[i] if e.kind == "INT" and e.how == "number" and e.end == i + 1]
    return int(said[0].means) if said else None


def _values_of_plants(lattice: Lattice, h: Head) -> bool:
    """`four plants: 5, 6, 5 and 5 trifs`: as many values as plants are no labels."""
    pieces = lattice.pieces
    k = h.start - 1
    if (
        k < 2
        or pieces[k].text not in {":", ",", "-"}
        or pieces[k - 1].text not in {"plants", "plts"}
        or len(h.labels) < 2
    ):
        return False
    return any(e.kind == "INT" and e.end == k - 1 for e in lattice.edges[k - 2])


_SEEN = {
    "TRIF",
    "TRIPS",
    "NODE",
    "NODES",
    "R",
    "V",
    "FLOWER",
    "POD",
    "SEED",
    "BEAN",
    "BUD",
    "DONEFLOWER",
    "NO",
    "SAME",
    "SAMEAS",
    "DITTO",
    "STAGENAME",
    "BROWN",
    "TOUCHING",
    "COT",
    "UNI",
    "FLAT",
}


def _of_a_plant(lattice: Lattice, i: int) -> bool:
    """What stands at piece i is said of a plant: a count with its noun, a stage, an organ."""
    if i >= len(lattice.pieces):
        return False
    kinds = {e.kind for e in lattice.edges[i] if e.how == "exact"}
    if kinds & _SEEN and not kinds & {"FIELDNOUN"}:
        return True
    return any(
        e.kind in {"TRIF", "TRIPS", "NODE", "NODES", "POD", "SEED", "INCH", "MM", "CM"}
        for n in lattice.edges[i]
        if n.kind in {"INT", "FRAC", "DEC"} and n.end < len(lattice.pieces)
        for e in lattice.edges[n.end]
    )


def _owns(lattice: Lattice, h: Head) -> bool:
    """`3's`, and no feet."""
    return (lattice.at(h.end), lattice.at(h.end + 1)) == ("'", "s") and lattice.glued(h.end + 1)


_BEHIND_IS_SO = _LISTED.words("behind_is_so")


def _is_so(lattice: Lattice, h: Head) -> bool:
    """`5 is V5`, `3's pods are flat` at the head of an item: one of something, by its number, and no five of them."""
    if not h.labels[0].isdigit() or h.labels[0] == "1":
        return False
    own = _owns(lattice, h)
    if not own and lattice.at(h.end) not in {"is", "has"}:
        return False
    behind = h.end + 1 + own
    if own and lattice.at(behind) in _BEHIND_IS_SO:
        return True
    kinds = {e.kind for e in lattice.edges[behind]} if behind < len(lattice.pieces) else set()
    return bool(kinds & {"R", "V", "FLOWER", "POD", "SEED", "NO", "NONE", "INT"})


def _listed(lattice: Lattice, h: Head) -> bool:
    """`1, 2 and 5 9 trifs` at a line's head: labels that rise, joined by `and`."""
    joined = any(lattice.pieces[k].text in {"and", "&", "thru", "through"} for k in range(h.start, h.end))
    return (joined or rising(lattice, h.start)) and [int(x) for x in h.labels] == sorted({int(x) for x in h.labels})


_OF_EACH = (
    _COMMON.words("being_or_having") | _COMMON.words("with") | _COMMON.words("all") | _COMMON.words("each") | {"at"}
)


def _counted_of_all(lattice: Lattice, h: Head) -> bool:
    """`1-5 9 trifs`: behind a range from 1 a count of leaves, or a stage."""
    pieces, k = lattice.pieces, h.end
    ranged = h.labels[0] == "1" and any(pieces[x].text in {"-", "thru", "through", "to"} for x in range(h.start, h.end))
    if not ranged or k + 1 >= len(pieces) or (h.start and pieces[h.start - 1].text not in {".", ":", ";"}):
        return False
    while k + 1 < len(pieces) and pieces[k].text in _OF_EACH:
        k += 1
    if "all" in {pieces[x].text for x in range(h.end, k)} and _of_a_plant(lattice, k):
        return True  # 1-4 all flowering
    if {e.kind for e in lattice.edges[k]} & {"R", "V"}:
        return k > h.end and any(e.kind == "INT" for e in lattice.edges[k + 1])  # 1 thru 5 all R3
    ends = [e.end for e in lattice.edges[k] if e.kind == "INT" and e.end < len(pieces)]
    return any(e.kind in {"TRIF", "NODES"} for end in ends for e in lattice.edges[end])


def _the_missing(chain: list[Head], h: Head) -> bool:
    """`1,3,5 R2; 2,4 R1`: the labels that are left, so that together they count from 1."""
    before = [x for one in chain for x in one.labels]
    listed = len(h.labels) > 1 or any(len(one.labels) > 1 for one in chain)
    if not listed or len(before) < 2 or not all(x.isdigit() for x in [*before, *h.labels]):
        return False
    all_of_them = sorted(int(x) for x in [*before, *h.labels])
    return all_of_them == list(range(1, len(all_of_them) + 1)) and int(h.labels[0]) < int(before[-1])


def _the_others(lattice: Lattice, h: Head) -> bool:
    """Labels joined by `and`, that are none of those that a word for plants named before them."""
    if len(h.labels) < 2 or not all(x.isdigit() for x in h.labels) or not _listed(lattice, h):
        return False
    if h.start and lattice.pieces[h.start - 1].text not in {".", ";"} and lattice.pieces[h.start - 1].form != "nl":
        return False
    told: set[int] = set()
    for i in range(h.start):
        if any(e.kind == "PLANT" and e.how == "exact" for e in lattice.edges[i]):
            k = i + 1
            while k < h.start and (lattice.pieces[k].form == "int" or lattice.pieces[k].text in JOINING):
                told |= {int(lattice.pieces[k].text)} if lattice.pieces[k].form == "int" else set()
                k += 1
    return bool(told) and not told & {int(x) for x in h.labels} and _of_a_plant(lattice, h.end)


def _slipped(chain: list[Head], h: Head, heads: list[Head]) -> bool:
    """`1 2 2 4 5` down a page: a label written twice where the next one is missing, and the one after it."""
    last, label = chain[-1], h.labels[0]
    if not (
        last.line_head
        and h.line_head
        and len(h.labels) == len(last.labels) == 1
        and label.isdigit()
        and last.labels[0].isdigit()
    ):
        return False
    if label == last.labels[0]:
        return any(x.line_head and x.start > h.start and x.labels[0] == str(int(label) + 2) for x in heads)
    return len(chain) > 1 and chain[-2].labels == last.labels and int(label) == int(last.labels[0]) + 2


def _left_out(lattice: Lattice, chain: list[Head], h: Head) -> bool:
    """`1 R6`, `2 R6`, `4 R5` down a page: a plant or two that nothing is written of."""
    last, label = chain[-1], h.labels[0]
    if label.isalpha():
        return _letter_left_out(lattice, chain, h)
    return (
        (len(chain) > 1 or last.labels == ("1",))
        and all(x.line_head and len(x.labels) == 1 and x.labels[0].isdigit() for x in (*chain, h))
        and 2 <= int(label) - int(last.labels[0]) <= 3
        and _of_a_plant(lattice, h.end)
    )


def _letter_left_out(lattice: Lattice, chain: list[Head], h: Head) -> bool:
    """`A 9 trifs`, `D 10 trifs` down a page: a letter or more that nothing is written of."""
    labels = [x.labels[0] for x in (*chain, h)]
    lines = all(x.line_head and len(x.labels) == 1 for x in (*chain, h))
    if not lines or not all(len(x) == 1 and x.isalpha() and x.isupper() for x in labels):
        return False
    opens = len(chain) > 1 or labels[0] == "A" or chain[0].sure
    skipped = 1 < ord(labels[-1]) - ord(labels[-2]) <= MOST_LETTERS
    return opens and skipped and _of_a_plant(lattice, h.end)


def _in_between(chain: list[Head], h: Head) -> bool:
    """`1, 2 and 5 are ...` then 3, 4, 6: an item that fills a hole of a list, or comes after its largest."""
    last = chain[-1].labels
    said = {x for c in chain for x in c.labels}
    if not all(x.isdigit() for x in (*last, *h.labels)) or h.labels[0] in said:
        return False
    numbers = [int(x) for x in said]
    want = min(set(range(1, max(numbers) + 2)) - set(numbers))
    return int(h.labels[0]) == want and any(len(c.labels) > 1 for c in chain)


_SAYS_OF_A_PLANT = _LISTED.words("says_of_a_plant")


def _lettered_before(lattice: Lattice, chain: list[Head]) -> bool:
    """`plant a` stands before the chain, and behind each of its letters begins what is said of a plant."""
    a = chr(ord(chain[0].labels[0]) - 1)
    pieces = lattice.pieces
    told = any(lattice.original(k, k + 1) == a and _labelled_plant(lattice, k) for k in range(1, chain[0].start))
    return told and all(
        h.end < len(pieces)
        and (lattice.at(h.end) in _SAYS_OF_A_PLANT or pieces[h.end].form == "int" or _of_a_plant(lattice, h.end))
        for h in chain
    )


_PLANT_WORDS = frozenset({"PLANT", "PLETTER"})
_SECOND = frozenset("bcdefgh")


def _labelled_plant(lattice: Lattice, k: int) -> bool:
    """`plant a`, `plants a and b`: the letter at piece k stands behind a word for a plant, or behind letters that do."""
    while k > 1 and lattice.at(k - 1) in JOINING and len(lattice.at(k - 2)) == 1:
        k -= 2
    return any(e.kind in _PLANT_WORDS for e in lattice.edges[k - 1])


def _one_before(lattice: Lattice, at: int) -> int | None:
    """The bare 1 that opens the series on the same line: `Copper Shed 1 beans touching ... 2 not touching`."""
    k = at - 1
    while k >= 0 and lattice.pieces[k].form != "nl":
        p = lattice.pieces[k]
        if (
            p.text == "1"
            and p.form == "int"
            and not (k + 1 < at and lattice.pieces[k + 1].text in {"/", "st", "-"})
            and not (k and lattice.pieces[k - 1].text in {"/", "-"})
        ):
            return k
        k -= 1
    return None
