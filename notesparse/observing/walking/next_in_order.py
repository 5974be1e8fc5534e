"""`Fifth, inch long pods on the fourth node`, `Three is like one`, `On three and four there aren't any pods`: the plants
that come next, by their ordinal or their number, with no word for a plant (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.counted import cut, from_one, labels_at, may_be_new, told_behind_a_comma
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import phrases_at

_LISTED = cue_page("walking/next_in_order")

_FEWEST = 2  # plants told of before
_NEAR = 5  # pieces behind the comma in which something is told
_TOLD = frozenset("POD FLOWER SEED BEAN TRIF TRIPS NODES NO NONE BROWN R V SAME ALSO DITTO UNI COT LEAF".split())
_VERBS = _LISTED.words("verbs")


def next_in_order(w: Listener, i: int) -> int | None:
    """Where what is said of the next plant begins, if its ordinal and a comma stand at piece i."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(i + 1) != "," and not any(e.kind == "ORD" and e.end == i + 1 for e in ctx.lattice.edges[i]):
        return None
    live = [p.label for p in ctx.living()]
    wanted = len(live) + 1
    nth = any(e.kind == "ORD" and e.means == wanted and e.end == i + 1 for e in ctx.lattice.edges[i])
    down = _counting_down(w, i, live)
    if down is not None:
        wanted, nth = down, True
    elif len(live) < _FEWEST or not from_one(live) or not (at(i + 1) == "," or _verb_behind(w, i)):
        return None
    if not nth:
        return None
    first = i - (at(i - 1) == "the")
    first -= at(first - 1) in {"and", "then"}
    if not (w.begins(first) or w.begins(i)):
        return None
    near = range(i + 2, min(i + 2 + _NEAR, len(ctx.use)))
    up = at(i + 1) != "," and any("UP" in e.kind for x in near for e in ctx.lattice.edges[x])
    if not up and not any(e.kind in _TOLD for x in near for e in ctx.lattice.edges[x]):
        return None
    ctx.close()
    ctx.begin([str(wanted)], ctx.span(i, i + 1))
    end = i + 1 + (at(i + 1) == ",")
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _verb_behind(w: Listener, i: int) -> bool:
    """`Fifth isn't up`: the ordinal heads a sentence, and its verb stands behind it at once."""
    verb = w.ctx.lattice.at(i + 1) in _VERBS
    return verb and (i == 0 or w.hard_end(i - 1) or w.ctx.lattice.at(i - 1) == "the")


def _counting_down(w: Listener, i: int, live: list[str]) -> int | None:
    """`Plant five, pod half an inch. Four, same. Three, pod a quarter`: told backwards; the number that comes next, before
    a comma at the head of a sentence."""
    numbers = [int(x) for x in live if x.isdigit()]
    if len(numbers) != len(live) or not numbers or w.ctx.lattice.at(i + 1) != "," or not (i and w.hard_end(i - 1)):
        return None
    falling = numbers == list(range(numbers[0], numbers[0] - len(numbers), -1)) and numbers[-1] > 1
    wanted = numbers[-1] - 1
    said = any(e.kind in {"INT", "ORD"} and e.means == wanted and e.end == i + 1 for e in w.ctx.lattice.edges[i])
    return wanted if falling and said else None


_OF_ONE = _LISTED.words("of_one")
_OF_MANY = _LISTED.words("of_many")
_THERE = _LISTED.words("there")


def _first_two(w: Listener, i: int) -> bool:
    """`One and two, pods three eighths of an inch. Three, four and five ...`: the first plants, at the head of a sentence."""
    got = labels_at(w, i)
    listed = (
        got is not None
        and len(got[0]) > 1
        and from_one(got[0])
        and "and" in {w.ctx.lattice.at(x) for x in range(i, got[1])}
    )
    return listed and got is not None and told_behind_a_comma(w, got[1])


def _rises(w: Listener, i: int, labels: list[str]) -> bool:
    """The labels count up, and may be those of new plants."""
    new = may_be_new(w, labels) or (not w.ctx.living() and _first_two(w, i))
    return new and [int(x) for x in labels] == sorted({int(x) for x in labels})


def _falls_on(live: list[str], labels: list[str]) -> bool:
    """`Plant five ... Four ... Three ... Two and one`: the labels go on down from those before."""
    if len(labels) < _FEWEST or len(live) < _FEWEST or not all(x.isdigit() for x in [*live, *labels]):
        return False
    numbers = [int(x) for x in [*live, *labels]]
    return numbers == list(range(numbers[0], numbers[0] - len(numbers), -1)) and numbers[-1] > 0


_SAYS_WHAT = frozenset({"INT", "HEDGE", "ORD", "FRAC", "DEC", "OR"})


def _borne(w: Listener, i: int) -> bool:
    """`In 4 and 5 seed can be felt`, `on 3 and 4 there are pods`: at piece i, or behind a verb, what a plant bears."""
    i += w.ctx.lattice.at(i) in {"the", ",", "a"}
    return i < len(w.ctx.use) and bool({e.kind for e in w.ctx.lattice.edges[i]} & {"POD", "SEED", "BEAN", "FLOWER"})


def _second_word(w: Listener, i: int) -> bool:
    """`Plant one is ... Two, ...`, `Plant one has ... Two has ...`: the second plant, at the head of a sentence and in
    words, where the first was named by its number."""
    ctx = w.ctx
    first = [p for p in ctx.living() if p.label == "1" and p.named]
    return bool(first) and ctx.explicit and w.hard_end(i - 1) and ctx.lattice.pieces[i].form == "word"


def _called(w: Listener, i: int) -> bool:
    """`Plants 1-3 R2, 4 and 5 R1`: nothing but the stage of these plants stands behind their numbers, behind a stage of others."""
    staged = w.ctx.explicit and any(p.last("stated_r") or p.last("stated_v") for p in w.ctx.plants)
    return staged and any(p.rule == "stage" and w.ends_at(p.end) for p in phrases_at(w.ctx.lattice, i))


def _heads_its_own(w: Listener, i: int, end: int) -> bool:
    """`Two, every pod is green`: the number heads a sentence, and behind its comma stands what a plant has, with no number
    of its own: `Two, maybe three pods` is a count."""
    k = end + 1
    near = {e.kind for e in w.ctx.lattice.edges[k]} if k < len(w.ctx.use) else set()
    return w.hard_end(i - 1) and told_behind_a_comma(w, end) and not near & _SAYS_WHAT


def next_by_number(w: Listener, i: int) -> int | None:
    """Where what is said of them begins, if the numbers of plants that come next, or were only counted, and a verb stand at
    piece i."""
    ctx, at, pieces = w.ctx, w.ctx.lattice.at, w.ctx.lattice.pieces
    opens = i == 0 or pieces[i - 1].form in {"mark", "nl"} or at(i - 1) in {"and", "but", "while"}
    on = at(i) in {"on", "in"}
    got = labels_at(w, i + on) if opens else None
    if got is None:
        return None
    live = ctx.living()
    told = any(p.named for p in live) if live else ctx.sample is not None or _first_two(w, i)
    if not told or (ctx.visit is not None and ctx.visit.tallies):
        return None
    if not (_falls_on([p.label for p in live], got[0]) or _rises(w, i, got[0])):
        return None
    known = {p.label: p for p in live}
    new = [x for x in got[0] if x not in known]
    alone = len(got[0]) == 1
    if not new or (alone and (new != [str(len(live) + 1)] or (len(live) < _FEWEST and not _second_word(w, i)))):
        return None
    behind = at(got[1])
    if behind in {"just", "only"} and (at(got[1] + 1) in _OF_MANY or _borne(w, got[1] + 1)):
        behind = "have"  # 1, 3, 5 just have flowers; 1 and 3 only flowers up top
    verb = behind in (_OF_ONE if alone else _OF_MANY) or (behind == "'" and at(got[1] + 1) == "s")
    verb = verb or (_heads_its_own(w, i, got[1]) if alone else _called(w, got[1]))
    borne = on and not alone and _borne(w, got[1])
    if not (
        borne or (behind in _THERE and at(i) == "on") if on else verb or (not alone and told_behind_a_comma(w, got[1]))
    ):
        return None
    ctx.close()
    made = {p.label: p for p in ctx.begin(new, ctx.span(i, got[1]))}
    ctx.plants = [(known | made)[x] for x in got[0]]
    ctx.mark(i, got[1], EVIDENCE)
    cut(w, got[1])
    return got[1]
