"""Plants that are counted first and told apart further on: `6 plants. The first two have pods`, `all 5 plants flowering.
Plant 2 ...`: they are plants 1, 2, ... from the count on (guide 4.7).
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.by_place import number_at, some_placed
from notesparse.observing.walking.counted import (
    MOST,
    behind,
    counted,
    excepted,
    heading,
    in_turn,
    numbers_at,
    odd_or_even,
)
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/numbering")
_COMMON = cue_page("shared")

_IN_TURN = frozenset({"plant_ord", "plant_the_ord", "first_n", "last_n"})
_SHARES = frozenset({"n_of_m", "n_slash_m", "n_in_m", "half", "less_half", "most", "lots", "frac"})


_BEFORE_NUMBER_THEM = _LISTED.words("before_number_them")


def number_them(w: Listener, k: int, since: int = 0) -> None:
    """At segment k so many plants were counted; where their numbers are said further on, they are plants 1, 2, ...;
    `since`: the piece where the name of their field stands, behind them."""
    ctx, ph = w.ctx, w.segments[k].phrase
    many = ctx.sample
    if many is None or not 1 < many <= MOST or ph is None or ctx.tally is not None:
        return
    if ctx.visit is not None and (ctx.visit.plants or ctx.visit.tallies):
        return
    heard = any(e.kind == "INTSOUND" for _, e in ph.path)
    if heard or ctx.lattice.at(ph.start - 1) in _BEFORE_NUMBER_THEM:
        return  # as for plants; first three plants R2, last two R1
    ahead = (i for i in w.names if i > max(ph.start, since) and not _open(w, i))
    end = min(ahead, default=len(ctx.lattice.pieces))
    if not since and end < len(ctx.use) and _of_this_field(w, ph.end, end):
        w.number_later = k
        return
    end = min([end, *(s.start for s in w.segments[k + 1 :] if s.phrase is not None and _counts_anew(s.phrase))])
    told = _told_apart(w, k, end, many)
    if told is None:
        return
    apart, by_turns, grouped = told
    all_labels = [str(n) for n in range(1, many + 1)]
    if many == _PAIR:
        if grouped or some_placed(w, ph.end, end, all_labels):
            _begin_them(w, ph, all_labels)
        return
    lists = [
        x
        for i in range(ph.end, end)
        if (x := behind(w, i) or heading(w, i) or in_turn(w, i, all_labels) or odd_or_even(w, i, many)) is not None
    ]
    named = {label for labels, _ in lists for label in labels} | apart
    placed = some_placed(w, ph.end, end, all_labels)
    listed = bool(apart) or by_turns or placed or any(len(labels) > 1 or _which_has(w, at) for labels, at in lists)
    if not listed and sum(map(int, named)) == many:
        return  # 6 plants, R2 on 1, R3 on 3, R4 on 2: how many, and not which
    if not (listed or len(named) > 2) or not all(0 < int(x) <= many for x in named):
        return
    _begin_them(w, ph, all_labels)


_SAID_AHEAD = 40  # pieces


def number_by_the_last(w: Listener, k: int) -> None:
    """`Bloom on 1, 2 & 5. Nothing on 3, 4. V8 on all five`: how many plants there are is told last, behind what some of
    them have."""
    ctx, ph, at = w.ctx, w.segments[k].phrase, w.ctx.lattice.at
    if ph is None or ph.rule not in ORGANS or ctx.sample is not None or ctx.tally is not None:
        return
    on = ph.end - (at(ph.end - 1) == "on")
    if at(on) != "on":
        return
    if ctx.visit is not None and (ctx.visit.plants or ctx.visit.tallies):
        return
    got = numbers_at(w, on + 1)
    if got is None or len(got[0]) < _PAIR or _the_others_have_none(w, ph, got) or not w.ends_at(got[1]):
        return
    stop = min([ph.end + _SAID_AHEAD, len(ctx.use) - 1, *(i for i in w.names if i > ph.start)])
    for i in range(got[1], stop):
        number = number_at(w, i + 1) if at(i) == "all" else None
        if number is None:
            continue
        many = int(number.means)
        if max(map(int, got[0])) <= many <= MOST and (w.ends_at(number.end) or at(number.end) in {"plants", "plts"}):
            ctx.sample, ctx.sample_visit = many, max(len(ctx.visits), 1)
            _begin_them(w, ph, [str(n) for n in range(1, many + 1)])
        return


_BETWEEN = _COMMON.words("and") | {".", ";", "but"}
_NOTHING = _COMMON.words("none") | {"no", "not"}


def _the_others_have_none(w: Listener, ph: Phrase, got: tuple[list[str], int]) -> bool:
    """`Bloom on 1, 2. Nothing on 3`: in the next clause the plants that have none, which make up the row from 1; taken."""
    at, i = w.ctx.lattice.at, got[1]
    while at(i) in _BETWEEN and i < got[1] + _PAIR:
        i += 1
    if i == got[1] or at(i) not in _NOTHING:
        return False
    on = next((x for x in range(i + 1, i + 4) if at(x) == "on"), 0)
    others = numbers_at(w, on + 1) if on else None
    if others is None or not w.ends_at(others[1]):
        return False
    row = sorted({int(x) for x in (*got[0], *others[0])})
    if row != list(range(1, len(got[0]) + len(others[0]) + 1)) or len(row) > MOST:
        return False
    _begin_them(w, ph, [str(n) for n in row])
    return True


def _open(w: Listener, i: int) -> bool:
    """`Two plants at Alder Fork, both R6`: the field whose name begins at piece i is the one in hand already."""
    named = w.ctx.visit.name_span if w.ctx.visit is not None else None
    return named is not None and named.start == w.ctx.lattice.pieces[i].span.start


def _told_apart(w: Listener, k: int, end: int, many: int) -> tuple[set[str], bool, bool] | None:
    """What stands behind the count, up to piece `end`: the plants that are excepted (`8 trifs on all but #4`), whether some
    are told of in turn, and whether something is said of them all; None where it speaks of other plants or of shares."""
    apart: set[str] = set()
    of_all = by_turns = grouped = False
    for s in w.segments[k + 1 :]:
        ph = s.phrase
        if s.start >= end:
            break
        if ph is None:
            continue
        if ph.rule in {"length", "date", "pods"} and _values_follow(w, ph.end):
            return None
        if ph.form in _SHARES and not _of_a_finding(w, s.start):
            return None
        if ph.rule in {"label", "stop"} and ph.form not in {"bare", "plant_commas"}:
            if of_all and ph.form in _IN_TURN and w.begins(s.start):
                by_turns = True  # six plants, 9 trifs. The first one has a flower
                continue
            label = [str(n) for n in numbers_of(ph)]
            if len(label) == 1 and (excepted(w, s.start) or label[0] in apart):
                apart.add(label[0])
            elif ph.form in _BY_PLACE or (grouped and all(int(x) <= many for x in label)):
                by_turns = by_turns or (grouped and ph.form not in _BY_PLACE)  # each has pods. number 3 has seed
            else:
                return None
        of_all = of_all or ph.form in {"trif_n", "nodes_n"}
        grouped = grouped or ph.form in _OF_EACH
    return apart, by_turns, grouped


def _counts_anew(ph: Phrase) -> bool:
    """`Then the last field, three plants`: other plants are counted."""
    return ph.rule == "sampled" or ph.form == "n_plants"


def _of_a_finding(w: Listener, i: int) -> bool:
    """`def 8% mostly loopers`: a share in a sentence that begins with what was found."""
    first = w.sentence_start(i)
    heads = {e.kind for x in range(first, i) for e in w.ctx.lattice.edges[x] if e.how == "exact"}
    return bool(heads & {"INSECT", "DISEASE", "WEED", "DEFOL", "DAMAGE", "LEAFDROP", "LEAFTURN"})


def all_numbered(w: Listener, k: int) -> bool:
    """`all 6 plants pods full length. seed felt in 1, 3 and 4`: of plants whose numbers are said further on; taken."""
    ctx, ph = w.ctx, w.segments[k].phrase
    many = numbers_of(ph)[:1] if ph is not None else []
    nxt = w.ahead(k)[0]
    if ph is None or not many or ctx.tally is not None or ctx.sample is not None or ctx.living():
        return False
    if nxt is None or nxt.rule == "stage":
        return False  # all five plants V9 except the last: so many of them
    ctx.sample, ctx.sample_visit = many[0], max(len(ctx.visits), 1)
    number_them(w, k)
    if not counted(w):
        ctx.sample = None
        return False
    ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start, ph.end)
    ctx.mark(ph.start, ph.end, EVIDENCE)
    return True


def _of_this_field(w: Listener, start: int, name: int) -> bool:
    """`Two plants out of the Sluice field`: the field that these plants are of is named behind them."""
    pieces = w.ctx.lattice.pieces
    return name - start <= _SHORTLY and all(pieces[i].form == "word" for i in range(start, name))


_SHORTLY = 5  # pieces


def number_named(w: Listener, name: int) -> None:
    """The field of the plants that were counted before its name has been named, at this piece."""
    k, w.number_later = w.number_later, None
    ph = w.segments[k].phrase if k is not None else None
    if k is not None and ph is not None and numbers_of(ph):
        w.ctx.sample, w.ctx.sample_visit = numbers_of(ph)[0], max(len(w.ctx.visits), 1)
        number_them(w, k, name)


_PAIR = 2
_BY_PLACE = frozenset({"first_n", "last_n", "next_n", "next_one", "plant_the_ord"})
_OF_EACH = frozenset({"group_all", "group_both", "group_none", "group_n"})


def _begin_them(w: Listener, ph: Phrase, labels: list[str]) -> None:
    for p in w.ctx.begin(labels, w.ctx.span(ph.start, ph.end)):
        p.counted = True
    w.counted_to = ph.end
    w.ctx.leave_plants()


_LABELS = frozenset({"plant_n", "plant_list", "plant_range", "plant_ord", "plant_the_ord"})


def labels_follow(w: Listener, k: int, many: int) -> bool:
    """`All three plants have inch pods. Plant 1 has seed, plant 2 and 3 none`: behind segment k plants of so many are told
    of by their numbers, and none was before."""
    if w.ctx.living() or not 1 < many <= MOST:
        return False
    end = min((i for i in w.names if i > w.segments[k].start), default=len(w.ctx.use))
    behind = (s.phrase for s in w.segments[k + 1 :] if s.phrase is not None and s.start < end)
    labels = {str(n) for ph in behind if ph.form in _LABELS for n in numbers_of(ph)}
    return bool(labels) and labels <= {str(n) for n in range(1, many + 1)}


_FOR_WHICH_HAS = _LISTED.words("for_which_has")
_FOR_WHICH_HAS_2 = _LISTED.words("for_which_has_2")


def _which_has(w: Listener, at: int) -> bool:
    """`no bloom on any but 6, which has one`: one plant, and no count of them (but one, which has)."""
    if w.ctx.lattice.at(at - 1) == "one":
        return False
    texts = [p.text for p in w.ctx.lattice.pieces[at : at + 3]]
    texts = texts[1:] if texts[:1] == [","] else texts
    return len(texts) > 1 and texts[0] in _FOR_WHICH_HAS and texts[1] in _FOR_WHICH_HAS_2


def _values_follow(w: Listener, i: int) -> bool:
    """`3 plants. Longest pod: 1/4, 3/8, and on the last one none`: a value for each, and not one for all."""
    if w.ctx.lattice.at(i) != "," or i + 1 >= len(w.ctx.use):
        return False
    ends = [e.end for e in w.ctx.lattice.edges[i + 1] if e.kind in {"INT", "FRAC", "DEC"}]
    return any(w.ctx.lattice.at(end) in {",", "and", "&"} for end in ends)
