"""Labels: the plant that what follows is said of (guide 4.7)."""

from __future__ import annotations

from copy import deepcopy

from notesparse.language.cues import cue_page
from notesparse.observing import organs, revise, stages, tallies
from notesparse.observing.draft import Ask, PlantDraft
from notesparse.observing.fold import EVIDENCE, EXCEPT, FILLER, Context, edges_of, numbers_of, one_label
from notesparse.observing.walking import counted, groups
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.by_place import places, told_last
from notesparse.observing.walking.clause_ends import orphans_before_label
from notesparse.observing.walking.listening import OWN, Listener
from notesparse.observing.walking.other_talk import going_on
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/labels")


def _told_of(w: Listener, label: str) -> bool:
    """The plant was named before, or is the next one."""
    visit = w.ctx.visit
    if visit is None or not visit.plants:
        return label == "1" and w.ctx.sample is not None  # three plants. The first had ...
    return visit.plant(label) is not None or w.ctx.next_label() == label


def _of_the_counted(w: Listener, ph: Phrase, row: list[str]) -> bool | str:
    """`Two plants. ... the other has none`, `the next one`: one of the plants that were counted, and no new one."""
    ctx = w.ctx
    got = places(w, ph.start, row, told_last(w), led=True)
    if got is None:
        bar(w, ph, "which of the plants is not said")
        return "barred"
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = [p for p in ctx.living() if p.label in got[0]], True, None
    w.turn = [*w.turn, *got[0]]
    return True


def _said_of_all(w: Listener) -> bool:
    """`no pods on any. Wait no, plant three has one`: what was said last is of all plants, and no plant had a wrong label."""
    live = w.ctx.living()
    said = [(e.span.end, e.group) for p in live for key in ("trifoliates", "nodes") if (e := p.last(key)) is not None]
    said += [(s.span.end, s.group) for p in live for s in p.sightings]
    return max(said, default=(0, False))[1]


def _slip_of_the_tongue(w: Listener, labels: list[str], k: int) -> int | None:
    """`Plant four two trifs. Plant four, wait that's plant five, two trifs`: the plant was told of before, and the label is
    put right at once; where the right one begins."""
    there = w.ctx.visit.plant(labels[0]) if w.ctx.visit is not None and len(labels) == 1 else None
    if there is None or there.empty or w.ctx.correcting is not None:
        return None
    cue = False
    for s in w.segments[k + 1 : k + _SLIP]:
        if s.phrase is None and w.ctx.lattice.at(s.start) in {",", "-"}:
            continue
        if s.phrase is None:
            return None
        if s.phrase.rule == "label" and cue:
            other = [str(n) for n in numbers_of(s.phrase)]
            return s.start if s.phrase.form == "plant_n" and other != labels else None
        if s.phrase.rule != "correct" or s.phrase.form not in {"cue", "cue_n"}:
            return None
        cue = True
    return None


_SLIP = 6  # phrases between the wrong label and the right one


_FOR_LINE_OF_HOW_MANY = _COMMON.words("plants") | {"stalks"}


def _line_of_how_many(w: Listener, ph: Phrase) -> bool:
    """`plants: 5`, `number of plants = 4` on a line of its own, before any plant: so many were looked at."""
    pieces = w.ctx.lattice.pieces
    if ph.form != "plant_n" or w.ctx.plants or (w.ctx.visit is not None and w.ctx.visit.plants):
        return False
    alone = ph.end == len(pieces) or pieces[ph.end].form == "nl"
    if not alone or (ph.start and pieces[ph.start - 1].form != "nl"):
        return False
    words = {pieces[x].text for x in range(ph.start, ph.end)}
    return bool(words & _FOR_LINE_OF_HOW_MANY and words & {":", "=", "?"}) and numbers_of(ph)[0] > 1


_BEHIND_READ_LABEL = _LISTED.words("behind_read_label")
_BEFORE_READ_LABEL = frozenset(_LISTED.phrases("before_read_label"))


def read_label(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    f = ph.form
    another = bool(edges_of(ph, "ANOTHER")) and bool(ctx.lengths)
    if not another:
        orphans_before_label(w)
    nums = numbers_of(ph)
    if _line_of_how_many(w, ph):
        ctx.sample, ctx.sample_visit = nums[0], max(len(ctx.visits), 1)
        return True
    if ctx.star is not None and ctx.plants:
        label = one_label(ctx.lattice, ph)
        there = ctx.visit.plant(label) if ctx.visit is not None and label is not None else None
        if there is None and label is not None and ctx.lattice.at(ph.start - 1) == "*":
            ctx.star = None  # *plant 3 10 trifs, where no plant 3 was told of
        else:
            if there is not None:
                ctx.plants, ctx.explicit = [there], True  # *p5 96%
            return True
    if f == "plant_the_ord" and not _told_of(w, str(nums[0])):
        return False
    if f in {"plant_n", "plant_ord", "plant_the_ord"}:
        labels = [str(nums[0])]
    elif f == "plant_letter":
        labels = [ctx.lattice.original(ph.path[-1][0], ph.path[-1][1].end)]
    elif f == "plant_letters":
        labels = [ctx.lattice.original(at, e.end) for at, e in ph.path if e.kind == "LETTER"]
    elif f == "plant_range":
        labels = (
            [str(n) for n in range(nums[0], nums[1] + 1)]
            if nums[0] < nums[1] <= nums[0] + 60
            else [str(n) for n in nums]
        )
    elif f in {"plant_list", "plant_commas"}:
        labels = [str(n) for n in nums]
    elif f == "bare":
        labels = list(ph.path[0][1].means)
        if w.line_head:
            ctx.line_labels = True
    elif f == "next_one" and ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text in _BEHIND_READ_LABEL:
        return "filler"
    elif f == "next_one" and going_on(w, ph):
        bar(w, ph, "where the walk goes on to")
        return "barred"
    elif f == "next_one" and "last" in span.of(ctx.lattice.text).lower() and _last_of_the_counted(w, ph, span):
        return True
    elif f == "next_one" and (row := counted.in_a_row(w)):
        return _of_the_counted(w, ph, [p.label for p in row])
    elif f == "next_one":
        labels = [ctx.next_label()]
        if (
            not ctx.here().plants
            and not edges_of(ph, "PLANT", "ONE")
            and ctx.lattice.original(ph.start, ph.end).lower() in _BEFORE_READ_LABEL
        ):
            return "filler"
    elif f == "first_n" and len(ctx.living()) >= int(ph.path[1][1].means) and _opens_what_is_told(w, k):
        ctx.close()  # first two blooming, third one's not: plants described before
        ctx.plants, ctx.explicit, ctx.group = ctx.living()[: int(ph.path[1][1].means)], True, None
        ctx.statements.clear()
        return True
    elif f == "first_n" and _on_the_first(w, ph):
        return True
    elif f in {"first_n", "last_n"}:
        if f == "first_n" and ctx.here().plants and (w.begins(ph.start) or after_all_told(w, k)):
            bar(w, ph, "which of the plants is not said")  # plant 1 V7. The first three have no blooms
            return "barred"
        if (f == "first_n" and ctx.here().plants) or (f == "last_n" and not ctx.here().plants):
            return False
        first = int(ctx.next_label()) if ctx.next_label().isdigit() else 1
        labels = [str(first + i) for i in range(int(ph.path[1][1].means))]
    elif f == "next_n":
        first = int(ctx.next_label()) if ctx.next_label().isdigit() else 1
        labels = [str(first + i) for i in range(nums[0])] if nums[0] <= 40 else []
    else:
        return False
    if not labels:
        return False
    old = _put_right_behind(w, labels, k)
    if old is not None:
        ctx.close()
        ctx.plants, ctx.explicit, ctx.correcting = [old], True, span  # oops Quarry p3 was 13tf not 14
        return True
    at = _slip_of_the_tongue(w, labels, k)
    if at is not None:
        ctx.corrected.append(Correction("4.17", span, f"plant {labels[0]} is another plant"))
        ctx.mark(ph.start, at, FILLER)
        w.resume_at = at
        return True
    tallies.leave_out(ctx, len(labels), ph.start)
    said = groups.excepted(w, labels, ph.start, ph.end, span)
    if said:
        return True if said == "put right" else "filler"
    if (
        not ctx.explicit
        and len(ctx.plants) == 1
        and len(labels) == 1
        and ph.start
        and ctx.lattice.pieces[ph.start - 1].text in {"on", "of", "for"}
        and (ctx.statements and ctx.statements[-1].span.start >= w.clause_from and f in {"plant_n", "plant_letter"})
    ):
        p = ctx.plants[-1]  # pods at the third node on plant 6
        p.label, p.named, p.span = labels[0], True, span
        ctx.explicit = True
        return True
    if (
        not ctx.explicit
        and len(ctx.plants) == 1
        and len(labels) > 1
        and ctx.visit is not None
        and len(ctx.visit.plants) == 1
        and ph.start
        and "on" in {ctx.lattice.pieces[ph.start - 1].text, ctx.lattice.original(ph.start, ph.end).split()[0].lower()}
        and ctx.statements
        and ctx.statements[-1].span.start >= w.clause_from
    ):
        only = ctx.plants[0]  # pods on plants 3 and 5
        only.label, only.named, only.span = labels[0], True, span
        for label in labels[1:]:
            twin = deepcopy(only)
            twin.label = label
            ctx.visit.plants.append(twin)
        ctx.plants = list(ctx.visit.plants)
        ctx.explicit = True
        ctx.open = []
        return True
    if (
        len(labels) == 1
        and f in {"plant_n", "plant_ord", "plant_letter", "bare"}
        and (puts_right(w, k) or said_wrong(w, ph, k))
        and revise.back_to(ctx, labels[0], span)
    ):
        return True
    last = ctx.plants or (ctx.visit.plants[-1:] if ctx.visit is not None else [])
    if (
        f in {"plant_n", "plant_ord"}
        and ph.start
        and ctx.lattice.pieces[ph.start - 1].text in {"on", "of", "for"}
        and len(ctx.plants) == 1
        and ctx.plants[0].label == labels[0]
        and ctx.open
    ):
        return True  # three quarter inch pods third node down on plant four
    if ctx.correcting is not None and _words_between(w, ctx.correcting, ph.start):
        ctx.correcting = None  # hang on theres a wasp on my sleeve okay plant four
    if ctx.correcting is not None and last and len(labels) == 1 and not _said_of_all(w):
        misnamed = last[-1].label
        last[-1].label = labels[0]
        ctx.corrected.append(Correction("4.17", last[-1].span, f"plant {misnamed} is plant {labels[0]}"))
        ctx.correcting = None
        return True
    if w.line_head and f in {"plant_n", "plant_letter", "plant_range", "plant_list", "plant_commas"}:
        ctx.line_labels = True
    moved = ctx.lengths if another else []
    earlier = ctx.plants[-1].sightings[-1:] if another and ctx.plants else []
    joined = named_together(w, ph)
    ctx.begin(labels, span)
    ctx.plants = [*joined, *ctx.plants]
    if moved and earlier:
        for s in organs.look(ctx, earlier[0].what, True, moved[0].span.cover(span)):
            s.length, s.places = moved[0], list(earlier[0].places)
    two_labels(w, ph, span, k, nums)
    ctx.statements.clear()
    _but_for(w, ph)
    return True


def _but_for(w: Listener, ph: Phrase) -> None:
    """`plants one through five except three have pods`: what follows is of the others."""
    ctx = w.ctx
    at = ph.end + (ctx.lattice.at(ph.end) == ",")
    many = len(ctx.plants) > 2 and at < len(ctx.lattice.pieces) and ctx.lattice.pieces[at].text in EXCEPT - {"but"}
    got = counted.numbers_at(w, at + 1) if many else None
    out = [p for p in ctx.plants if got is not None and p.label in got[0] and p.empty]
    if got is None or len(out) != len(got[0]) or len(out) >= len(ctx.plants):
        return
    ctx.plants = [p for p in ctx.plants if p not in out]
    for p in out:
        p.dropped = True
    ctx.mark(ph.end, got[1], EVIDENCE)
    w.resume_at = got[1]


_AND = _COMMON.words("and") | {"n"}


def named_together(w: Listener, ph: Phrase) -> list[PlantDraft]:
    """`p3 and p4 R6`: plants named one behind the other, before anything is said of them."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    i = ph.start - 1
    i -= i > 0 and pieces[i].text == "the"
    of_all = ctx.lattice.at(ph.end) in {"all", "both", "each"} or _marked_alike(w, ph)
    side_by_side = of_all and pieces[i].text not in _AND | {","}
    i += side_by_side  # p1 p2 p3 all 9tf, #1 #2 no fl
    joined = side_by_side or (i > 0 and pieces[i].text in _AND | {","})
    if not ctx.explicit or not ctx.plants or ctx.statements or i < 1 or not joined:
        return []
    if any(not p.empty or p.dropped for p in ctx.plants) or pieces[i].form == "nl" or _found_on_it(w):
        return []
    i -= pieces[i - 1].text == ","  # p1, p2, and p3
    last = ctx.plants[-1].span
    if pieces[i - 1].span.end != last.end:
        return []
    named = list(ctx.plants)
    for p in reversed(ctx.visit.plants[: -len(named)] if ctx.visit else []):  # p1, p2 and p3
        between = ctx.lattice.text[p.span.end : named[0].span.start]
        if not p.empty or p.dropped or between.strip() not in {",", "" if side_by_side else ","}:
            break
        named.insert(0, p)
    return named


def _marked_alike(w: Listener, ph: Phrase) -> bool:
    """`p1 p2`, `#1 #2`: the label before has the same sign, and what is said behind them is no number alone."""
    ctx = w.ctx
    if not ctx.plants or not edges_of(ph, "PLETTER", "HASH") or w.ends_at(ph.end):
        return False
    sign = ctx.lattice.original(ph.start, ph.start + 1)
    behind = next((s.phrase for s in w.segments if s.start == ph.end), None)
    told = behind is not None and behind.rule in OWN | {"stage", "same"}
    return told and ctx.plants[-1].span.of(ctx.lattice.text).startswith(sign)


def _found_on_it(w: Listener) -> bool:
    """`a moth on plant 2, plant 3 9 trifs`: something was found on the plants before, and that is all that is told of
    them."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    found = ctx.visit.findings[-1:] if ctx.visit is not None else []
    here = [i for i, p in enumerate(pieces) if p.span.start >= ctx.plants[0].span.start][:1]
    if not found or not here:
        return False
    i = here[0]
    while (
        i > 0
        and ctx.lattice.at(i) not in _ON_A_PLANT
        and (pieces[i].form == "int" or ctx.lattice.at(i) in _AND | {",", "the"} or _plant_word(w, i))
    ):
        i -= 1
    return ctx.lattice.at(i) in _ON_A_PLANT and found[0].span.start >= pieces[w.sentence_start(i)].span.start


def _plant_word(w: Listener, i: int) -> bool:
    return any(e.kind in {"PLANT", "PLETTER", "HASH"} for e in w.ctx.lattice.edges[i])


_ON_A_PLANT = _COMMON.words("beside") | {"of"}
_MAKES = _COMMON.words("change")
_WRONG = _COMMON.words("miscounted")
_REACH = 16  # pieces from a label to the word that says it was told wrong before


def said_wrong(w: Listener, ph: Phrase, k: int) -> bool:
    """`so make plant two R5`, `plant three is twelve trips i miscounted it`, `p1 s/b 11tf`, `p4 no wait there's one`:
    a plant of the visit, described before, of which what follows is put right."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    nums = numbers_of(ph)
    there = ctx.visit.plant(str(nums[0])) if ctx.visit is not None and nums else None
    nxt, _, mark = w.ahead(k)
    if there is None or there.empty or nxt is None:
        return False
    if nxt.rule == "correct" and nxt.start <= ph.end + 1:
        return True
    told = nxt.rule in OWN | {"stage", "length", "bareint", "past"}
    if ph.start and pieces[ph.start - 1].text in _MAKES and told and not mark:
        ctx.mark(ph.start - 1, ph.start, FILLER)
        if nxt.rule == "stage":
            _no_longer(w, there.label, nxt)
        return True
    if [p.text for p in pieces[ph.end : ph.end + 3]] == ["s", "/", "b"] and told:
        ctx.mark(ph.end, ph.end + 3, FILLER)
        return True
    labels = [s.start for s in w.segments[k + 1 : k + 12] if s.phrase is not None and s.phrase.rule == "label"]
    end = min([ph.end + _REACH, len(pieces), *labels])
    behind = next((i for i in range(ph.end, end) if w.hard_end(i)), end)
    start = max(w.sentence_start(ph.start), ph.start - 8)
    before = range(start, ph.start)
    off = any(pieces[i].text == "off" and pieces[i - 1].text in {"was", "am", "'m"} for i in before if i)
    return told and (off or any(pieces[i].text in _WRONG for i in (*before, *range(ph.end, behind))))


def _no_longer(w: Listener, label: str, stage: Phrase) -> None:
    """What plant two was called, where it was named twice before: it is called otherwise now."""
    ctx = w.ctx
    drafts = [p for p in ctx.visit.plants if p.label == label] if ctx.visit is not None else []
    for letter in stages.read_stage(stage) or {}:
        for p in drafts[:-1]:
            for e in p.facts.pop(f"stated_{letter}", []):
                ctx.corrected.append(Correction("4.17", e.span, f"{e.value} put right"))


def puts_right(w: Listener, k: int) -> bool:
    """After `correction`, or before `was 12 not 11`, a plant named again is one described before."""
    nxt, _links, _ = w.ahead(k)
    if nxt is not None and nxt.rule == "past":  # plant two was 12 not 11
        nxt, _, _ = w.ahead(next(i for i, s in enumerate(w.segments) if s.phrase is nxt))
    if w.ctx.correcting is not None:
        return nxt is not None and nxt.rule in OWN | {"stage", "length", "bareint", "correct"}
    for s in w.segments[k + 1 : k + 9]:
        if s.phrase is None:
            if w.hard_end(s.start):
                return False
        elif s.phrase.form == "n_not_n":
            return True
        elif s.phrase.form in {"r_not_yet", "v_not_yet", "name_not_yet"}:
            return s.phrase.path[0][1].kind == "NOT" and nxt is not None and nxt.rule == "stage" and nxt is not s.phrase
        elif s.phrase.rule == "label":
            return False
    return False


_FOR_TWO_LABELS = _LISTED.words("for_two_labels")


def two_labels(w: Listener, ph: Phrase, span: Span, k: int, nums: list[int]) -> None:
    """`plant three for ten trifs`: a filler, or plants three and four? (guide 4.7)"""
    ctx = w.ctx
    i = ph.end
    pieces = ctx.lattice.pieces
    if ph.form != "plant_n" or i >= len(pieces) or pieces[i].text not in _FOR_TWO_LABELS or not nums:
        return
    value = 4 if pieces[i].text in {"for", "fore"} else 2
    nxt, _, mark = w.ahead(k)
    if nxt is None or mark or nxt.rule not in {"trif", "nodes"} or nxt.start != i + 1 or value != nums[0] + 1:
        return
    whole = span.cover(ctx.span(i, nxt.end))
    p = ctx.plants[-1]
    ctx.ask(
        Ask(
            "4.7",
            whole,
            f"Is this plant {p.label} alone, or plants {p.label} and {value}?",
            [
                (f"plant {p.label} alone", {"plant": p.label}),
                (f"plants {p.label} and {value}", {"plant": [p.label, str(value)]}),
            ],
            p,
            0,
            "plant",
            always=True,
        )
    )


def counted_before(ctx: Context) -> bool:
    plants = ctx.visit.plants if ctx.visit is not None else []
    return bool(plants) and bool({"trifoliates", "nodes"} & set(plants[-1].facts))


def and_another(ctx: Context, i: int) -> bool:
    """`second and third trifoliates open`: two leaves, and no plants."""
    edges = ctx.lattice.edges
    return (
        i + 1 < len(edges)
        and ctx.lattice.pieces[i].text in {"and", "or", "to", "&"}
        and any(e.kind == "ORD" for e in edges[i + 1])
    )


def _opens_what_is_told(w: Listener, k: int) -> bool:
    return w.clause_is_fresh(k) or after_all_told(w, k)


def _on_the_first(w: Listener, ph: Phrase) -> bool:
    """`not a bloom on the first four`: what was just said is of the first plants described, and of no other."""
    ctx, n = w.ctx, int(ph.path[1][1].means)
    words = {p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]}
    live = ctx.living()
    if "on" not in words or not ctx.open or len(live) < n or ctx.group is not None:
        return False
    said = ctx.open[:1]
    for p in live:
        p.sightings = [s for s in p.sightings if s not in ctx.open]
    ctx.open = []
    for p in live[:n]:
        twin = deepcopy(said[0])
        twin.group = True
        p.sightings.append(twin)
        ctx.open.append(twin)
    ctx.leave_plants()
    return True


def after_all_told(w: Listener, k: int) -> bool:
    """In a note without stops: what was said of the plant before is complete."""
    before = next((s.phrase for s in reversed(w.segments[:k]) if not _only_leads_on(w, s)), None)
    return before is not None and before.rule in OWN | {"stage", "same", "place"}


def _only_leads_on(w: Listener, s: Segment) -> bool:
    """A hum, or the `and then the` before the next plant."""
    if s.phrase is not None:
        return s.phrase.rule == "filler"
    return w.ctx.lattice.at(s.start) in _LEADS_ON


_LEADS_ON = _LISTED.words("leads_on")


def _told_at_once(w: Listener, ph: Phrase, nxt: Phrase) -> bool:
    """`and then the fifth nine trifs`: what the next plant has stands right behind, and behind `and` it is no place."""
    lattice = w.ctx.lattice
    led = ph.start - (lattice.at(ph.start - 1) == "the")
    if lattice.at(led - 1) != "and":
        return True
    counted = nxt.rule in {"trif", "nodes", "stage", "same", "topleaf", "emergence"}
    return counted and not any(lattice.pieces[x].form == "mark" for x in range(ph.end, nxt.start))


def whose_was_missed(w: Listener, ph: Phrase) -> bool:
    """`plant 2 ten trifs and then the third whatever it has`: the ordinal of the next plant, that could not be placed; what
    is told behind it is not surely of the plant before."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if not ctx.explicit or not ctx.plants or str(numbers_of(ph)[0]) != ctx.next_label():
        return False
    if at(ph.start - 1) != "the" or at(ph.start - 2) not in {"then", "and", ",", "."}:
        return False
    return not w.ends_at(ph.end)


def _behind_a_comma(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """`First plant 5 trifs, second 6 trifs`: the next one, where a count or a stage of its own follows at once."""
    pieces = w.ctx.lattice.pieces
    at = ph.start - 1
    then = False
    while at > 0 and pieces[at].text in _LEADS_ON | {"a"}:
        then = then or pieces[at].text == "then"
        at -= 1
    ordinals = w.ctx.plants and any(
        e.kind == "ORD"
        for i, p in enumerate(pieces)
        for e in w.ctx.lattice.edges[i]
        if p.span.start == w.ctx.plants[-1].span.start
    )
    if at < 0 or pieces[at].text != "," or nxt is None:
        return False
    bare = nxt.rule == "bareint" and nxt.start == ph.end and counted_before(w.ctx)  # first nine trifs, second ten
    return bare or (bool(ordinals) and (nxt.rule in {"trif", "nodes", "stage", "same"} or (then and nxt.rule in OWN)))


def ordinal_label(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`Fourth, five trifs`: an ordinal at the head of an item counts on from the label before."""
    ctx = w.ctx
    n = numbers_of(ph)[0]
    nxt, _, _ = w.ahead(k)
    if ctx.visit is None or not ctx.visit.plants:
        first = nxt is not None and nxt.rule in OWN | {"stage"} and _counts_on(w, ph, k)
        if first:
            ctx.begin([str(n)], span)
        return first
    if nxt is not None and nxt.rule == "past":  # the second was the same as the first
        nxt, _, _ = w.ahead(next(i for i, s in enumerate(w.segments) if s.phrase is nxt))
    dot = ctx.lattice.at(ph.start - 1) in {".", ";"}  # bloom 5th nd dn. 2nd 9 trif
    if ctx.correcting is not None and _told_anew(w, ph, nxt, str(n)) and revise.back_to(ctx, str(n), span):
        return True
    follows = (
        dot or (nxt is not None and after_all_told(w, k) and _told_at_once(w, ph, nxt)) or _behind_a_comma(w, ph, nxt)
    )
    if not w.clause_is_fresh(k) and not (ctx.next_label() == str(n) and follows):
        return False
    last = ctx.next_label()
    has = ph.end < len(ctx.lattice.edges) and any(e.kind == "HAS" for e in ctx.lattice.edges[ph.end])
    has_one = has and ctx.last_what is not None and ctx.lattice.pieces[ph.end + 1].text in {"one", "some"}
    then = OWN | {"stage", "same", "dittomark", "bareint"} | ({"place"} if has_one else set())
    if nxt is None or nxt.rule not in then or and_another(ctx, ph.end):
        return False
    described = has_one and any(p.label == str(n) for p in ctx.living())
    if not described and (not last.isdigit() or not int(last) <= n <= int(last) + (9 if has else 1)):
        return False
    if nxt.rule == "bareint" and not has and not (w.series_key() or counted_before(ctx)):
        return False
    ctx.begin([str(n)], span)
    return True


def _counts_on(w: Listener, ph: Phrase, k: int) -> bool:
    """`pulled 3. 1st: beans 1/8, 2nd: ...`: the ordinal heads a line or a clause, and the next one heads one further on:
    plants, and no days of the month."""
    n = numbers_of(ph)[0]

    def heads(at: int) -> bool:
        return at == 0 or w.ctx.lattice.at(at - 1) in {"\n", ".", ",", ";", "-", "/"}

    def ordinal(p: Phrase | None) -> bool:
        return p is not None and (p.form == "ord_day" or (p.rule == "bareint" and p.path[0][1].kind == "ORD"))

    behind = (s.phrase for s in w.segments[k + 1 :] if s.phrase is not None and ordinal(s.phrase))
    then = next(behind, None)
    return heads(ph.start) and then is not None and numbers_of(then)[0] == n + 1 and heads(then.start)


def _told_anew(w: Listener, ph: Phrase, nxt: Phrase | None, label: str) -> bool:
    """`sorry, 3rd has 8`: behind a word of correction the ordinal of a plant told of before, and what it has."""
    has = ph.end < len(w.ctx.lattice.edges) and any(e.kind == "HAS" for e in w.ctx.lattice.edges[ph.end])
    return has and nxt is not None and nxt.rule in OWN | {"bareint", "stage"} and _told_of(w, label)


def _words_between(w: Listener, cue: Span, at: int) -> bool:
    """Words that are not understood stand between a word of correction and piece `at`."""
    lattice, i = w.ctx.lattice, at - 1
    strange = 0
    while i >= 0 and lattice.pieces[i].span.start >= cue.end:
        strange += lattice.pieces[i].form == "word" and not lattice.filler[i]
        i -= 1
    return strange > 2


def _put_right_behind(w: Listener, labels: list[str], k: int) -> PlantDraft | None:
    """`p3 was 13tf not 14`: a plant of this visit, not the last, that has the number behind the not."""
    ctx = w.ctx
    old = ctx.visit.plant(labels[0]) if ctx.visit is not None and len(labels) == 1 else None
    if old is None or (ctx.plants and ctx.plants[-1] is old):
        return None
    had = {e.value for key in ("trifoliates", "nodes") for e in [old.last(key)] if e is not None}
    i = w.segments[k].end
    while i + 1 < len(ctx.use) and not w.hard_end(i):
        if ctx.lattice.at(i) == "not" and any(e.means in had for e in ctx.lattice.edges[i + 1] if e.kind == "INT"):
            return old
        i += 1
    return None


def _last_of_the_counted(w: Listener, ph: Phrase, span: Span) -> bool:
    """`9 out of 10 at R2, last one's R1`: one of the plants that were counted."""
    visit = w.ctx.visit
    if w.ctx.explicit or visit is None or not visit.tallies or not visit.tallies[-1].of:
        return False
    return tallies.start(w.ctx, Phrase(ph.start, ph.end, "ratio", "other_one", ph.path, 0.0), span) is not None
