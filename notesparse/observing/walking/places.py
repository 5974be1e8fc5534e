"""Places on the stem: top node, third down, node 11."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, tallies
from notesparse.observing.draft import Place, Sighting, TallyDraft
from notesparse.observing.fold import EVIDENCE, EXCEPT, NO_THING_THERE, NOTHING_TO_TURN, UNREAD, numbers_of
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.observing.walking.share_behind import of_the_place
from notesparse.reading.parse import Phrase
from notesparse.reading.unfit.organs.sizes import is_longest
from notesparse.span import Span

_LISTED = cue_page("walking/places")
_COMMON = cue_page("shared")

_TOPS = frozenset({"up_top", "bare_top", "top_n", "top_two", "top_four", "top_1", "ord_down"})


def _past_bloom(w: Listener) -> bool:
    """What was spoken of last are flowers that are gone."""
    ctx = w.ctx
    last = (
        ctx.open[0] if ctx.open else ctx.plants[-1].sightings[-1] if ctx.plants and ctx.plants[-1].sightings else None
    )
    return last is not None and last.what == "flowers" and last.past


def _said_of_others(w: Listener, t: TallyDraft, ph: Phrase) -> bool:
    """`14 carried a tan pod, the other six are green top to bottom`: between the share and the place something else is
    told, or other plants are named."""
    lattice = w.ctx.lattice
    i = ph.start - 1
    while i >= 0 and lattice.pieces[i].span.start >= t.span.end:
        if any(e.kind in {"GREEN", "OTHER", "REST"} for e in lattice.edges[i]):
            return True
        i -= 1
    return False


def near_top(ph: Phrase, span: Span) -> bool:
    """One of the two uppermost nodes, where flowers are R2."""
    numbers = organs.place(ph, span).numbers
    return (
        ph.form in {"top_1", "up_top", "below_top", "all_up"}
        or (ph.form in {"top_n", "top_two"} and (numbers or (2,))[0] <= 2)
        or (ph.form == "ord_down" and numbers[0] <= 2)
    )


_FEW = 4  # pieces between the numbers and the place


def _behind_numbers(w: Listener, i: int) -> bool:
    """`all 5 plants flowering. 2 and 4 at the top node`: numbers that nobody read stand before the place."""
    at, use, edges = w.ctx.lattice.at, w.ctx.use, w.ctx.lattice.edges
    for k in range(i - 1, max(1, i - _FEW), -1):
        both = at(k) in {"and", "&"} and all(any(e.kind == "INT" for e in edges[x]) for x in (k - 1, k + 1))
        if both and use[k - 1] == use[k + 1] == UNREAD:
            return True
    return False


def read_place(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    nxt, links, mark = w.ahead(k)
    f = ph.form
    if ctx.lattice.at(ph.end) in _BARE and (f in _LAST_OF or f in _BY_NUMBER) and w.ends_at(ph.end + 1):
        w.passed = organs.place(ph, span)  # top node bare, the one under it has a bloom
        ctx.mark(ph.start, ph.end + 1, UNREAD, "a place where nothing is")
        w.resume_at = ph.end + 1
        return "barred"
    if f == "node_n" and _so_many_in_all(w, ph, k):
        return bool(leaves.count(ctx, "nodes", numbers_of(ph)[0], span))  # A/ nd 14; pd 3/4
    if f == "lower" and _of_a_scar(w, ph):
        return "filler"  # counting the scar on the bottom
    if f in _TOPS and ctx.open and ctx.open[0].present and (at := _excepting(w, ph)) is not None:
        w.negative = (ctx.span(at, at + 1), at, ph.start)  # flowers everywhere except the top two
    before = w.segments[k - 1].phrase if k else None
    if before is not None and before.rule == "stage" and before.end == ph.start and _past_bloom(w):
        return False  # past bloom, full seed up top: no place of flowers
    if near_top(ph, span) and of_the_place(w, ph, span, k):
        return True
    t = ctx.tally
    if (
        t is not None
        and t.what is None
        and t.count is not None
        and (f in _TOPS or f in {"all_up", "lower"})
        and (nxt is None or mark or nxt.rule not in ORGANS | {"stage"})
        and ctx.here().tallies
        and ctx.here().tallies[-1].what in {"R1", "R2"}
    ):
        if f == "lower" and not t.exclusive and ctx.here().tallies[-1].what == "R1":
            ctx.mark_span(t.span.cover(span), UNREAD, "of the share before it, or of other plants")
            ctx.tally = None  # 10 plants, 6 blooming, 3 had one down low
            return "barred"
        tallies.of_the_same(ctx, span)  # 20 of 20 blooming, 10 of them in the top two nodes
    if t is not None and t.what is not None and _behind_numbers(w, ph.start):
        bar(w, ph, "whose this is was not understood")
        return "barred"
    if t is not None and t.what is not None and (not ctx.plants or not ctx.open):
        pl = organs.place(ph, span)
        none = none_before(w, ph, t.span)
        if none is not None:
            return _none_of_the_share(w, t, ph, none)
        if t.what == "R1" and near_top(ph, span) and not t.negative:
            t.what = "R2"
        elif t.what == "R3" and f == "lower":
            t.what = "R1"
        elif t.what == "R7" and f == "all_up" and _said_of_others(w, t, ph):
            return "filler"
        elif t.what == "R7" and f == "all_up":
            t.what = "R8"  # 1 of 8 was brown top to bottom
        t.span = t.span.cover(span)
        return True
    if t is not None and t.what is None and f in {"lower"} and t.exclusive:
        earlier = list(ctx.here().tallies)
        if earlier and earlier[-1].what in {"R2", "R1"}:
            t.what = "R1"
            t.span = t.span.cover(span)
            ctx.here().tallies.append(t)
            for x in earlier:
                x.exclusive = True
            return True
    if f == "node_of":  # flower at node 11 of 14
        nodes = numbers_of(ph)[1]
        told = ctx.need_plants(span)[-1].last("nodes")
        if told is None and not leaves.count(ctx, "nodes", nodes, span):
            return False
        if told is not None and told.value != nodes:
            return False
    if f == "bare_top":
        if ctx.open and ctx.open_end == ph.start and (nxt is None or w.ends_at(ph.end)):
            organs.attach_place(ctx, Place("up_top", (), span), ctx.open)
            return True
        return "filler"
    if (
        f == "no_n"
        and not (links & {"HAS"} and nxt is not None and nxt.rule in {"flowers", "pods", "seeds"})
        and not w.at_before(ph)
        and not (ctx.open and ctx.open[0].what in {"flowers", "pods"} and w.at_before(ph))
    ):
        return False
    if w.negative is not None and f in {"main_stem", "branch"} and ctx.last_what:
        said, a, b = w.negative
        w.negative = None
        ctx.mark(a, b, EVIDENCE)
        organs.look(ctx, ctx.last_what, False, said.cover(span))
        return True
    if w.negative is not None and ctx.open and ctx.open[0].present and ph.start - w.negative[2] <= 2:
        _, a, b = w.negative
        w.negative = None
        if f not in {"main_stem", "branch", "lower"} and (ctx.open[0].places or whole_top(ph, ctx.open[0].what)):
            ctx.mark(a, b, EVIDENCE)  # touching down low, not up top; pods, not in the top four
            w.passed = organs.place(ph, span)
            if not ctx.open[0].places:
                organs.attach_place(ctx, Place("lower", (), span), ctx.open)
            return True
        ctx.mark(a, ph.end, UNREAD, NOTHING_TO_TURN)
        return "barred"
    if w.negative is not None and mark and not ctx.open:
        _, a, b = w.negative  # nothing up top, flowers down low
        ctx.mark(a, ph.end, UNREAD, NOTHING_TO_TURN)
        w.negative = None
        return "barred"
    ripe = bool(ctx.statements) and ctx.statements[-1].kind == "mature_pods"
    apart = _behind_the_stem(w, ph) if f == "branch" and not ripe and not _said_of_the_branch(w, ph, nxt) else None
    if apart is not None:
        while (
            ctx.statements
            and ctx.statements[-1].kind in {"trifoliates", "nodes"}
            and (ctx.statements[-1].span.start >= ctx.lattice.pieces[apart].span.start)
        ):
            ctx.statements.pop().undo()
        ctx.lengths, ctx.places, w.number = [], [], None
        ctx.mark(apart, ph.end, UNREAD, "on branches only: no evidence for a stage")
        return "barred"
    if (
        f == "branch"
        and not ctx.open
        and ctx.statements
        and ctx.statements[-1].kind in {"trifoliates", "nodes"}
        and ctx.statements[-1].span.start >= w.clause_from
        and w.joined(ctx.statements[-1].span.end, ph.start)
    ):
        last = ctx.statements.pop()  # 3 trifs on the branch
        last.undo()
        w.ctx.mark_span(last.span.cover(span), UNREAD, "on branches only: no evidence for a stage")
        return "barred"
    if _of_the_damage(w, ph, k):
        ctx.mark(ph.start, ph.end, UNREAD, NO_THING_THERE)
        return "barred"
    pl = Place("node_n", (numbers_of(ph)[0],), span) if f == "node_of" else organs.place(ph, span)
    if f == "rel_down":
        pl = below_that(w, pl)
        if pl.form == "rel_down":
            return False  # below what?
    nxt = _behind_its_length(w, nxt, links) or nxt
    forward = nxt is not None and nxt.rule in {"flowers", "pods", "seeds"} and (bool(links & {"HAS"}) or not ctx.open)
    if f == "lower" and ph.end < len(ctx.lattice.pieces) and any(e.kind == "LEAF" for e in ctx.lattice.edges[ph.end]):
        return "filler"
    if (
        (f == "lower" or _only_there(w, ph))
        and ctx.open
        and ctx.open[0].present is False
        and any(x.form in {"up_top", "top_n", "top_two", "top_four", "top_1", "near_top"} for x in ctx.open[0].places)
    ):
        for s2 in organs.look(ctx, ctx.open[0].what, True, span):
            s2.places.append(pl)
        ctx.open_end = ph.end
        return True
    if (
        f == "lower"
        and ctx.open
        and ctx.open[0].present
        and ph.end < len(ctx.lattice.pieces)
        and ctx.lattice.pieces[ph.end].text in {"ones", "one"}
        and any(x.form in _TOPS for x in ctx.open[0].places)
    ):
        for s3 in organs.look(ctx, ctx.open[0].what, True, span):  # top pods a half inch, bottom ones an inch
            s3.places.append(pl)
        ctx.open_end = ph.end
        return True
    if (
        f == "branch"
        and ctx.statements
        and ctx.statements[-1].kind == "mature_pods"
        and (not ctx.open or ctx.statements[-1].span.start > ctx.open[0].span.start)
    ):
        last = ctx.statements.pop()
        last.undo()
        w.ctx.mark_span(last.span.cover(span), UNREAD, "on branches only: no evidence for a stage")
        return "barred"
    if f == "branch" and (until := _said_of_the_branch(w, ph, nxt)):
        ctx.mark(ph.start, until, UNREAD, "on branches only: no evidence for a stage")
        w.resume_at = until
        return "barred"
    if f == "branch" and ctx.open and nxt is not None and nxt.rule in ORGANS and not mark and w.begins(ph.start):
        ctx.mark(ph.start, nxt.end, UNREAD, "on branches only: no evidence for a stage")
        w.resume_at = nxt.end
        return "barred"
    if (
        forward
        and mark
        and ctx.open
        and ctx.open[0].present
        and ctx.open_end >= ph.start - 2
        and nxt is not None
        and nxt.form in {"seed_no", "pod_no", "fl_no"}
    ):
        forward = False  # a pod on the second node down, with no seed
    if forward and mark and _in_those_pods(w, ph, nxt):
        ctx.places.append(pl)  # pods of 31 mm in the top four, with seeds of 3 mm in them
        forward = False
    if (
        ctx.open
        and f in _TOPS
        and any(x.form == "lower" and "only" in x.span.of(ctx.lattice.text).lower() for x in ctx.open[0].places)
    ):
        ctx.mark(ph.start, ph.end, UNREAD, NO_THING_THERE)  # seed down low only, up top they're flat
        return "barred"
    if _of_what_follows(w, ph, nxt):
        ctx.close()  # top pods 1/2 in, bottom pods 1 1/2
        ctx.places.append(pl)
        return True
    if _and_there(w, ph, nxt, mark, k):
        ctx.close()  # bloom at the second node down, and at the top node a pod
        ctx.places.append(pl)
        return True
    if w.said_elsewhere(nxt):
        ctx.close()  # seed down low only, up in the top four they're flat
        ctx.places.append(pl)
        return True
    if f == "lower" and ctx.open and ctx.open[0].tentative and _ones_behind(w, ph):
        for s4 in ctx.open:  # beans only in the low ones
            s4.tentative = False
    if f in _TOPS and nxt is not None and nxt.rule in {"length", "date"} and not mark and low_and_sized(ctx.open):
        ctx.close()  # low pods 3/4, top four 1/4
        ctx.places.append(pl)
        return True
    if nxt is not None and is_longest(ctx.lattice, nxt) and ctx.open and ctx.open[0].length is not None and not mark:
        ctx.close()  # pods an inch down low, in the top four the longest is 3/8
        ctx.places.append(pl)
        return True
    leads = forward and links & {"HAS"} and ("COMMA" in ctx.link or mark or fresh_place(w, k))
    if ctx.open and not (leads and not (mark and nxt is not None and nxt.rule in ORGANS and _placed_itself(w, nxt))):
        ctx.open = both_of(w, ph) or _of_their_pods(w, ph) or ctx.open
        organs.attach_place(ctx, pl, ctx.open)
        ctx.open_end = ph.end
        return True
    if ctx.explicit and not ctx.open and _has_one(w, ph):
        for seen in organs.look(ctx, str(ctx.last_what or w.only_organ()), True, span):
            seen.places.append(pl)  # couldn't find a flower. Third has one at the sixth node down
        ctx.open_end = ph.end
        return True
    if f == "main_stem" and not ctx.open:
        return True
    sized = nxt is not None and nxt.rule == "length" and not mark and w.in_clause(k, {"pods", "seeds"}) is not None
    if ctx.plants or forward or sized or ctx.group:
        ctx.places.append(pl)
        return True
    return False


_FEWEST = 5  # nodes of a plant that is told by its count


def _so_many_in_all(w: Listener, ph: Phrase, k: int) -> bool:
    """`node 14` right behind the plant's label and before a mark: how many it has."""
    ctx = w.ctx
    before = w.segments[k - 1].phrase if k else None
    labelled = before is not None and before.rule == "label" and before.end >= ph.start - 1
    apart = ctx.lattice.at(ph.end) in {";", ",", "-", "/"} or w.hard_end(min(ph.end, len(ctx.lattice.pieces) - 1))
    alone = not ctx.open and len(ctx.plants) == 1 and ctx.plants[0].last("nodes") is None and ctx.plants[0].empty
    return labelled and apart and alone and numbers_of(ph)[0] >= _FEWEST


_BARE = _LISTED.words("bare")
_LAST_OF = {"top_1": 1, "top_two": 2, "top_four": 4, "below_top": 2}
_BY_NUMBER = frozenset({"top_n", "ord_down", "num_down", "fig_down", "ords_down", "nums_down", "thru_down"})


def below_that(w: Listener, pl: Place) -> Place:
    """`the node below that`: counted on from the place that was told last of this plant; as it is, where there is none."""
    ctx = w.ctx
    told = [
        *([w.passed] if w.passed is not None else []),
        *ctx.places,
        *(x for s in (ctx.plants[-1].sightings if ctx.plants else []) for x in s.places),
    ]
    last = max(told, key=lambda x: x.span.start, default=None)
    if last is None:
        return pl
    if last.form in _LAST_OF or (last.form in _BY_NUMBER and last.numbers):
        at = _LAST_OF.get(last.form) or max(last.numbers)
        return Place("ords_down", tuple(at + x for x in pl.numbers), pl.span)
    if last.form in {"node_n", "ord_node", "no_n"} and last.numbers:
        return Place("nodes_nn", tuple(last.numbers[0] - x for x in pl.numbers), pl.span)
    return Place("lower", (), pl.span) if last.form in {"lower", "mid_plant"} else pl


def _and_there(w: Listener, ph: Phrase, nxt: Phrase | None, mark: bool, k: int) -> bool:
    """`, and at the top node a pod`: of what follows, where that has no place of its own."""
    if nxt is None or mark or nxt.rule not in {"flowers", "pods", "seeds"} or nxt.start - ph.end > 1 or not w.ctx.open:
        return False
    at = w.ctx.lattice.at
    i = _led(w, ph, set())
    own = any(s.phrase is not None and s.phrase.rule == "place" for s in w.segments[k + 1 : k + 5])
    return at(i) == "and" and at(i + 1) in {"at", "on"} and at(ph.end) in {"a", "an", "one"} and not own


_BEFORE_AN_ADJECTIVE = _LISTED.words("before_an_adjective")


def _behind_its_length(w: Listener, nxt: Phrase | None, links: set[str]) -> Phrase | None:
    """`the third one down has a 1/4 inch pod`: the pod, behind its length."""
    if nxt is None or nxt.rule != "length" or not links & {"HAS"}:
        return None
    behind = next((s.phrase for s in w.segments if s.start == nxt.end), None)
    return behind if behind is not None and behind.rule in {"pods", "seeds"} else None


def there(w: Listener, i: int) -> bool:
    """`seed 2 mm, 3rd node from top, pods 30 mm there`: at piece i stands that something is where something else of the
    plant was told to be."""
    ctx = w.ctx
    if ctx.lattice.at(i) != "there" or not ctx.open or len(ctx.plants) != 1 or i >= len(ctx.use):
        return False
    said = ctx.open[0]
    sized = said.length is not None or any(
        s.start == i + 1 and s.phrase is not None and s.phrase.rule == "length" for s in w.segments
    )
    told = [w.passed] if w.passed is not None and w.passed.span.start > ctx.plants[0].span.start else []
    told += [x for s in ctx.plants[0].sightings if all(s is not o for o in ctx.open) for x in s.places]
    last = max(told, key=lambda x: x.span.start, default=None)
    behind = next((s.phrase for s in w.segments if s.start >= i + 1 and s.phrase is not None), None)
    over = w.ends_at(i + 1) or (behind is not None and behind.rule == "label" and behind.start == i + 1)
    flower = said.what == "flowers" and over and ctx.open_end == i
    if not (flower or (said.what in {"pods", "seeds"} and sized)) or not said.present or said.places or last is None:
        return False
    organs.attach_place(ctx, Place(last.form, last.numbers, ctx.span(i, i + 1)), ctx.open)
    ctx.mark(i, i + 1, EVIDENCE)
    ctx.open_end = i + 1
    return True


def _in_those_pods(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """Seeds that are told of behind a comma are in the pods whose place stands here."""
    said = w.ctx.open[0] if w.ctx.open else None
    pods = said is not None and said.what == "pods" and bool(said.present) and not said.places
    if not pods or nxt is None or nxt.rule != "seeds" or w.ctx.open_end < ph.start - 3:
        return False
    return not _placed_itself(w, nxt)


def _placed_itself(w: Listener, organ: Phrase) -> bool:
    """`(pods in the top four, there's) seed you can feel at the third node down`: its own place stands behind it."""
    behind = (s.phrase for s in w.segments if s.start >= organ.end and s.phrase is not None)
    own = next((p for p in behind if p.rule not in {"filler", "length"}), None)
    return own is not None and own.rule == "place" and w.joined(w.ctx.span(organ.start, organ.end).end, own.start)


def _of_what_follows(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """`bottom pods`, `the lower pods`: one word right before the pods that it tells apart from those before."""
    told = nxt is not None and nxt.start == ph.end == ph.start + 1 and nxt.rule in {"pods", "seeds"}
    if (
        not told
        or ph.form != "lower"
        or not w.ctx.open
        or nxt is None
        or nxt.path[0][1].kind not in {"POD", "SEED", "BEAN"}
    ):
        return False
    before = w.ctx.lattice.pieces[ph.start - 1]
    if "IN" in w.ctx.link:
        return False  # beans only in the low pods
    return before.form in {"mark", "nl"} or before.text in _BEFORE_AN_ADJECTIVE


def _led(w: Listener, ph: Phrase, more: set[str]) -> int:
    """The piece before the small words that lead to a place; -1: none."""
    i = ph.start - 1
    while i >= 0 and w.ctx.lattice.pieces[i].text in {"at", "on", "the", "@"} | more:
        i -= 1
    return i


def _only_there(w: Listener, ph: Phrase) -> bool:
    """`no flowers up top, just 5th node down`: some are there."""
    there = ph.form in {"ord_down", "num_down", "node_n", "ord_node"}
    return there and w.ctx.lattice.at(_led(w, ph, {"one"})) in {"just", "only"}


_BEFORE_HAS_ONE = _COMMON.words("having_or_with")


def _has_one(w: Listener, ph: Phrase) -> bool:
    """`has one at`: one of what was spoken of last."""
    i, at = _led(w, ph, {"up", "down"}), w.ctx.lattice.at
    ones = at(i) in {"one", "1", "some"} and at(i - 1) in _BEFORE_HAS_ONE
    return ones and (w.ctx.last_what or w.only_organ()) in {"flowers", "pods"}


def _excepting(w: Listener, ph: Phrase) -> int | None:
    """The piece of an `except` right before a place."""
    i = _led(w, ph, {"in", "for"})
    return i if w.ctx.lattice.at(i) in EXCEPT - {"but", "save"} else None


_FOR_OF_THE_DAMAGE = _LISTED.words("for_of_the_damage")


def _of_the_damage(w: Listener, ph: Phrase, k: int) -> bool:
    """`cut off at the 4th node`: where the plant is hurt, and nothing that it bears."""
    before = next((s for s in reversed(w.segments[:k]) if s.phrase is not None), None)
    if before is None or before.phrase is None or before.phrase.rule != "findhead":
        return False
    hurt = any(e.kind == "DAMAGE" for _, e in before.phrase.path)
    return hurt and all(p.text in _FOR_OF_THE_DAMAGE for p in w.ctx.lattice.pieces[before.end : ph.start])


_BETWEEN = _LISTED.words("between")


def none_before(w: Listener, ph: Phrase, since: Span) -> int | None:
    """`8 of 12 with a bloom, none of em in the top two nodes`: the piece of the none, behind the share."""
    pieces = w.ctx.lattice.pieces
    i = ph.start - 1
    while i >= 0 and pieces[i].text in _BETWEEN:
        i -= 1
    if i < 0 or pieces[i].span.start < since.end:
        return None
    none = any(e.kind in {"NONE", "NO", "NOT", "NONEOF"} and e.end <= ph.start for e in w.ctx.lattice.edges[i])
    return i if none and pieces[i].text != "nothing" else None


def _none_of_the_share(w: Listener, t: TallyDraft, ph: Phrase, none: int) -> bool | str:
    """Plants that bear something, and none of them where the stage looks: R1, where it was flowers or pods."""
    ctx = w.ctx
    w.negative = None
    if t.negative or t.what not in {"R1", "R2", "R3", "R4"} or not (ph.form == "all_up" or ph.form in _TOPS):
        ctx.mark(none, ph.end, UNREAD, NOTHING_TO_TURN)
        return "barred"
    if t.what in {"R1", "R2"} or whole_top(ph, "pods"):
        t.what = "R1"
    t.span = t.span.cover(ctx.span(none, ph.end))
    ctx.mark(none, ph.end, EVIDENCE)
    return True


def low_and_sized(seen: list[Sighting]) -> bool:
    """Pods down low whose size was told: another place has its own."""
    return (
        bool(seen)
        and seen[0].what == "pods"
        and bool(seen[0].present)
        and seen[0].length is not None
        and bool(seen[0].places)
        and all(x.form == "lower" for x in seen[0].places)
    )


_BEHIND_ONES_BEHIND = _COMMON.words("pod") | {"one", "ones"}


def _ones_behind(w: Listener, ph: Phrase) -> bool:
    pieces = w.ctx.lattice.pieces
    return ph.end < len(pieces) and pieces[ph.end].text in _BEHIND_ONES_BEHIND


def whole_top(ph: Phrase, what: str) -> bool:
    """A place that holds all the nodes that the stages look at."""
    nums = numbers_of(ph)
    if ph.form in {"top_n", "top_two"}:
        return (nums or [2])[0] >= (2 if what == "flowers" else 4)
    return ph.form in {"up_top", "bare_top", "top_four"}


def fresh_place(w: Listener, k: int) -> bool:
    s = w.segments[k - 1] if k else None
    return (
        s is None
        or (s.phrase is None and w.ctx.lattice.pieces[s.start].form == "mark")
        or (s.phrase is not None and s.phrase.rule == "label")
    )


_FOR_OF_A_SCAR = _LISTED.words("for_of_a_scar")


def _of_a_scar(w: Listener, ph: Phrase) -> bool:
    """Whether the place is that of a scar, which is counted and has none."""
    i = ph.start - 1
    while i >= 0 and w.ctx.lattice.pieces[i].text in _FOR_OF_A_SCAR:
        i -= 1
    return i >= 0 and any(
        e.kind == "SCAR" and e.end == i + 1 for j in (i - 1, i) if j >= 0 for e in w.ctx.lattice.edges[j]
    )


_ALIKE = _COMMON.words("all_or_each")
_BEFORE_A_PLACE = _LISTED.words("before_a_place")
_THEM = _COMMON.words("them") | {"it"}
_WITH = _LISTED.words("with")


def _of_their_pods(w: Listener, ph: Phrase) -> list[Sighting]:
    """`pods 1 in w/ seed 1/16, 4th nd dn`: of the pods and of the seed in them; `no seed in em, top four`: of the pods."""
    ctx, pieces, seed = w.ctx, w.ctx.lattice.pieces, w.ctx.open[0]
    plant = ctx.plants[-1] if ctx.plants else None
    pods = [s for s in plant.sightings if s.what == "pods" and s.present] if plant is not None else []
    if seed.what != "seeds" or seed.places or not pods or pods[-1].clause != seed.clause or pods[-1].places:
        return []
    sized = pods[-1].length is not None  # pod 30, seed 6, third node from top
    if seed.present is False:
        in_them = ph.start > 1 and pieces[ph.start - 1].text in _THEM and pieces[ph.start - 2].text == "in"
        return pods[-1:] if in_them or (sized and pieces[ph.start - 1].text == ",") else []
    at = w.ctx.lattice.first_from(seed.spans[0].start)
    listed = sized and at and pieces[at - 1].text == "," and ph.form in _COUNTED_DOWN
    return [*ctx.open, pods[-1]] if at and (listed or pieces[at - 1].text in _WITH) else []


_COUNTED_DOWN = frozenset({"ord_down", "num_down", "top_n", "top_1"})


def both_of(w: Listener, ph: Phrase) -> list[Sighting]:
    """`pod 1", seed 1/8", both at the 2nd node`: what the place is of, where more than the last is meant; else nothing."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    i = ph.start - 1
    while i >= 0 and pieces[i].text in _BEFORE_A_PLACE:
        i -= 1
    if i < 1 or pieces[i].text not in _ALIKE or not all(s.present for s in ctx.open):
        return []
    since = pieces[w.sentence_start(i)].span.start
    here = [s for p in ctx.plants for s in p.sightings if s.span.start >= since and s.present and not s.copied]
    if len({s.what for s in here}) > 1:
        return [s for s in here if not s.places] if any(s in here for s in ctx.open) else []
    live, what = ctx.living(), ctx.open[0].what
    if len(live) != 2 or pieces[i].text != "both":
        return []
    of_two = [
        [s for s in p.sightings if s.what == what and s.present] for p in live
    ]  # p1 pod 1/2, p2 pod 3/4, both at ...
    return [s for x in of_two for s in x] if all(len(x) == 1 and not x[0].places for x in of_two) else []


_FOR_BEHIND_THE_STEM = _COMMON.words("stem")


def _behind_the_stem(w: Listener, ph: Phrase) -> int | None:
    """`no pods on the main stem, 1in ones on a branch`, `ten trifs on the main stem and six on the branches`: where
    what is of the branch begins, behind what was said of the main stem of the same plant; None where an organ is
    named anew."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    start = max(w.sentence_start(ph.start), 0)
    floor = ctx.plants[-1].span.start if ctx.plants else 0
    stem = next(
        (
            i
            for i in range(ph.start - 1, start - 1, -1)
            if pieces[i].text in _FOR_BEHIND_THE_STEM and pieces[i].span.start >= floor
        ),
        None,
    )
    if stem is None or stem + 1 >= ph.start:
        return None
    if pieces[stem].text in {"stem", "stems"} and pieces[stem - 1].text != "main":
        return None
    at = pieces[stem + 1].span.start
    named = any(
        e.kind in {"POD", "SEED", "BEAN", "FLOWER", "BUD"}
        for i in range(stem + 1, ph.start)
        for e in ctx.lattice.edges[i]
    )
    before = bool(ctx.plants) and (ctx.plants[-1].facts or ctx.plants[-1].sightings)
    if named or not before or any(s.span.start >= at for s in ctx.open):
        return None
    return stem + 1


def _said_of_the_branch(w: Listener, ph: Phrase, nxt: Phrase | None) -> int:
    """`no pods on the main stem, branch has a 3/16 one`: the end of what is said of the branch; 0 where nothing is."""
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    has = ph.end < len(pieces) and any(e.kind == "HAS" for e in edges[ph.end])
    there = ph.end < len(pieces) and pieces[ph.end].text == "there"  # on a branch there was one over an inch
    if not (has or there) or (pieces[ph.start].text == "on" and not there) or not w.begins(ph.start):
        return 0
    for i in range(ph.end + 1, ph.end + 10):
        if i >= len(pieces) or pieces[i].form == "nl" or pieces[i].text in set(".,;"):
            return min(i, len(pieces))
    return nxt.end if nxt is not None and nxt.rule in ORGANS else 0
