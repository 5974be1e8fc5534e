"""Numbers and none without a noun of their own."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, owners, revise, tallies
from notesparse.observing.draft import PlantDraft, TallyDraft
from notesparse.observing.finding import findings
from notesparse.observing.fold import EVIDENCE, FILLER, NOTHING_TO_TURN, UNREAD, numbers_of
from notesparse.observing.series_heads import PLACES
from notesparse.observing.walking import counted, groups, left_out_class, one_or_other, said_once
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.corrections import move_span
from notesparse.observing.walking.count_rows import plants_named
from notesparse.observing.walking.equals import is_as_another
from notesparse.observing.walking.listening import OWN, Listener
from notesparse.observing.walking.noun_behind import noun_behind
from notesparse.observing.walking.organs.of_whom import none_of_all, says_none
from notesparse.observing.walking.other_talk import of_other_talk
from notesparse.observing.walking.places import none_before
from notesparse.observing.walking.said_over import said_over
from notesparse.observing.walking.stage_words import counted_stages
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/loose_numbers")
_COMMON = cue_page("shared")


def read_none(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    nxt, _links, mark = w.ahead(k)
    other = nxt is not None and _just_another(w, ph, nxt, w.only_organ())
    near = nxt is not None and not mark and not other and nxt.start - ph.end <= 3
    if nxt is not None and nxt.rule in {"flowers", "pods", "seeds", "state"} and near:
        if says_none(w, ph.start) and none_of_all(w, ph.start, nxt.rule):
            ctx.close()
            ctx.group, ctx.group_n, ctx.group_span = "none", None, span
            return True
        w.negative = (span, ph.start, ph.end)
        return True
    if nxt is not None and nxt.rule == "stage" and not mark and nxt.start - ph.end <= 2:  # nothing at V10 yet
        ctx.mark(ph.start, nxt.end, UNREAD, "a stage that is not reached, or not of this field")
        w.resume_at = nxt.end
        return "barred"
    if nxt is not None and nxt.rule == "place" and nxt.form in {"main_stem"} and ctx.last_what:
        w.negative = (span, ph.start, ph.end)
        return True
    if (
        nxt is not None
        and nxt.rule == "place"
        and ctx.last_what in {"flowers", "pods", "seeds"}
        and ctx.plants
        and not mark
    ):
        organs.look(ctx, ctx.last_what, False, span)
        return True
    if nxt is not None and nxt.rule == "place" and _of_the_share(w, nxt):
        return True  # 8 of 12 blooming, none in the top two
    if nxt is not None and nxt.rule == "place" and not mark and nxt.start - ph.end <= 2:
        after = w.in_clause(k, {"flowers", "pods", "seeds"})
        if after is not None and w.joined(ctx.span(ph.start, ph.end).end, after.start):
            w.negative = (span, ph.start, ph.end)
            return True
        w.ctx.mark_span(span.cover(ctx.span(nxt.start, nxt.end)), UNREAD, NOTHING_TO_TURN)
        w.resume_at = nxt.end
        return "barred"
    if none_on(w, ph):
        return True
    what = w.only_organ()
    fresh = bool(ctx.plants) and ctx.explicit and not ctx.plants[-1].sightings
    ends = nxt is None or mark or nxt.rule == "label" or _just_another(w, ph, nxt, what)
    if what and fresh and ends:
        organs.look(ctx, what, False, span)
        ctx.close()
        return True
    if fresh and ends and ctx.plants[-1].empty and _ripe_before(w):
        leaves.put(ctx, "mature_pods", "none", span)  # #1 one pod has turned. #2 none have
        return True
    return False


def _ripe_before(w: Listener) -> bool:
    """Of the plant before nothing was told but its ripe pods."""
    before = [p for p in w.ctx.living() if p is not w.ctx.plants[-1]][-1:]
    return any("mature_pods" in p.facts and not p.sightings for p in before)


def _just_another(w: Listener, ph: Phrase, nxt: Phrase, what: str | None) -> bool:
    """`plant two has none, just a bloom`: what it has instead."""
    words = {p.text for p in w.ctx.lattice.pieces[ph.end : nxt.start + 1]}
    return nxt.rule in {"flowers", "pods", "seeds"} and nxt.rule != what and bool(words & {"just", "only", "but"})


def _of_the_share(w: Listener, place: Phrase) -> bool:
    """The place that follows says where none of the plants of a share bears something."""
    t = w.ctx.tally
    return t is not None and t.what is not None and not w.ctx.plants and none_before(w, place, t.span) is not None


_WHICH = _LISTED.words("which")


def none_on(w: Listener, ph: Phrase) -> bool:
    """`bl on 1 and 3, none on 2`: plants of the note that have none of what was spoken of last."""
    ctx = w.ctx
    pieces, visit = ctx.lattice.pieces, ctx.visit
    if visit is None or ctx.last_what not in {"flowers", "pods", "seeds"} or ph.end + 1 >= len(pieces):
        return False
    named_ones = counted.none_on(w, ph.end)
    if named_ones is not None:
        return _none_told(w, ph, *named_ones)
    if pieces[ph.end].text not in {"on", "in"} and pieces[ph.end].form != "int":
        return False
    end = ph.end + (pieces[ph.end].form != "int")
    others = _others_without(w, end)
    if others is not None:
        left, end = others
        return _none_told(w, ph, left, end)
    known = {p.label: p for p in visit.plants if not p.dropped}
    for named, stop in reversed(owners.listed(ctx, end)):
        if known.keys() >= set(named):
            return _none_told(w, ph, [known[label] for label in named], stop)
    return False


def _none_told(w: Listener, ph: Phrase, plants: list[PlantDraft], end: int) -> bool:
    """None of what was told last, on these plants; the words as far as `end` are of it."""
    ctx = w.ctx
    if ctx.last_what is None:
        return False
    span = ctx.span(ph.start, end)
    ctx.plants, ctx.explicit = plants, True
    organs.look(ctx, ctx.last_what, False, span)
    ctx.mark(ph.start, end, EVIDENCE)
    ctx.leave_plants()
    w.resume_at = end
    return True


def _others_without(w: Listener, at: int) -> tuple[list[PlantDraft], int] | None:
    """`flowers on 1 and 3, none on the others`: the plants of which none was told, and where the words end."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    i = at + (at < len(pieces) and pieces[at].text == "the")
    if i >= len(pieces) or pieces[i].text not in {"others", "rest"} or not w.ends_at(i + 1):
        return None
    told = {id(p) for p in ctx.living() if any(s.what == ctx.last_what for s in p.sightings)}
    left = [p for p in ctx.living() if id(p) not in told]
    return (left, i + 1) if told and left else None


_BEFORE_WITH_IT = _COMMON.words("flower")


def with_it(w: Listener, ph: Phrase, nxt: Phrase) -> bool:
    """`11 w/ flower top node`, `10 flower node 7`: a count of leaves, and one flower."""
    pieces = w.ctx.lattice.pieces
    said = [pieces[x].text for x in range(ph.end, nxt.start)]
    return "w" in said or (not said and pieces[nxt.start].text in _BEFORE_WITH_IT)


def there_is(w: Listener, ph: Phrase) -> bool:
    before = [p.text for p in w.ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]]
    return (
        before[-1:] in (["found"], ["see"], ["got"], ["theres"])
        or before == ["there", "'s"]
        or before == ["there", "is"]
    )


def last_one(w: Listener, ph: Phrase, k: int) -> bool:
    """`First one 9 trifs. ... Last one ten`: the plant after the one before."""
    pieces = w.ctx.lattice.pieces
    if pieces[ph.start].text != "one" or not ph.start or pieces[ph.start - 1].text != "last" or w.ctx.label_count < 2:
        return False
    nxt, _, mark = w.ahead(k)
    return (
        w.clause_is_fresh(k)
        and not mark
        and nxt is not None
        and nxt.rule in OWN | {"stage", "same", "bareint", "label"}
    )


_HAD = _COMMON.words("being_or_having") | _COMMON.words("showing") | _COMMON.words("with")


def _sample_behind(w: Listener, ph: Phrase, value: object) -> int | None:
    """`six had a bloom in the top two, the other four lower, that's out of ten`: of how many, told behind in the same
    sentence."""
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    begins = w.begins(ph.start) or any(n.end == ph.start for n in w.names.values())
    if not isinstance(value, int) or value < 2 or not begins:
        return None
    if ph.end >= len(pieces) or not (
        pieces[ph.end].text in _HAD or {e.kind for e in edges[ph.end]} & {"FLOWER", "POD"}
    ):
        return None
    for i in range(ph.end, len(pieces) - 1):
        if w.hard_end(i):
            return None
        out_of = pieces[i].text == "of" and pieces[i - 1].text == "out"
        total = pieces[i].text in {"that's", "thats"} or (
            pieces[i].text in {"'s", "so"} and pieces[i - 1].text in {"that", ","}
        )
        if not (out_of or total):
            continue
        found = [e for e in edges[i + 1] if e.kind == "INT" and e.cost < 0.9]
        got = max(found, key=lambda e: e.end, default=None)
        if got is None or int(got.means) <= value:
            continue
        plants = got.end < len(pieces) and bool({e.kind for e in edges[got.end]} & {"PLANT"})
        if out_of or plants:
            return int(got.means)
    return None


def _of_leaves(w: Listener) -> bool:
    """The last share was of trifoliates: `7 had one trifoliate, 3 had two`."""
    told = w.ctx.visit.tallies if w.ctx.visit is not None and not w.ctx.plants else []
    return bool(told) and (told[-1].what or "").startswith("V") and told[-1].of is not None


def _there_is_one(w: Listener, ph: Phrase, span: Span, nxt: Phrase | None) -> bool:
    """`no pods. wait, there's one on the third node down`: one of what was said not to be there; `no pods up top but
    there's one at the sixth node`: one elsewhere."""
    ctx, at = w.ctx, w.ctx.lattice.at
    there = at(ph.start - 1) == "theres" or (at(ph.start - 1) in {"'s", "is", "was"} and at(ph.start - 2) == "there")
    seen = ctx.plants[-1].sightings if len(ctx.plants) == 1 else []
    if not seen or seen[-1].present is not False:
        return False
    down = nxt if nxt is not None and nxt.rule == "goto" and at(nxt.start) == "down" else None
    if down is not None:  # there's one down at the fifth node
        nxt = next((s.phrase for s in w.segments if s.start > down.start and s.phrase is not None), None)
    elsewhere = there or at(ph.start - 1) in {"but", "just", "only"}
    if seen[-1].places and elsewhere and nxt is not None and nxt.rule == "place":
        ctx.close()
        ctx.open = organs.look(ctx, seen[-1].what, True, span)
        ctx.open_end = ph.end
        if down is not None:
            ctx.mark(down.start, down.end, FILLER)
            w.resume_at = nxt.start
        return True
    if not there or seen[-1].places:
        return False
    said = seen.pop()
    ctx.corrected.append(Correction("4.17", said.span, f"{said.what} put right"))
    ctx.correcting = None
    organs.look(ctx, said.what, True, span)
    ctx.open_end = ph.end
    return True


def _one_of_two(w: Listener, ph: Phrase, value: object, nxt: Phrase | None, links: set[str], mark: bool) -> bool:
    """`Pulled two. One has 12 trifs and ...`: the first of the two, told like a plant; `the other` is the second."""
    ctx, visit = w.ctx, w.ctx.visit
    told = visit is not None and (visit.plants or visit.tallies)
    if value != 1 or ctx.sample != 2 or told or ctx.tally is not None or nxt is None or mark:
        return False
    if "HAS" not in links or nxt.rule not in OWN | {"length"} or not w.begins(ph.start):
        return False
    ctx.begin(["1"], ctx.span(ph.start, ph.end))
    return True


def _one_on(w: Listener, ph: Phrase, value: object) -> bool:
    """`no flowers on the first two, one on the third`: what was spoken of, on plants that were told of."""
    ctx, what = w.ctx, w.ctx.last_what
    if value != 1 or what not in {"flowers", "pods", "seeds"} or ctx.lattice.at(ph.end) not in {"on", "in"}:
        return False
    got = plants_named(w, ph.end + 1)
    there = [p for p in ctx.living() if got is not None and p.label in got[0]]
    told = any(s.what == what for p in there for s in p.sightings)
    if got is None or told or len(there) != len(got[0]) or not (w.ends_at(got[1]) or ctx.lattice.at(got[1]) == "and"):
        return False
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = there, True, None
    ctx.open = organs.look(ctx, what, True, ctx.span(ph.start, got[1]))
    ctx.open_end = got[1]
    ctx.mark(ph.start, got[1], EVIDENCE)
    w.resume_at = got[1]
    return True


_LEAF_CLASSES = tallies.LEAVES_COUNTED | {"uni_open", "uni_bare", "uni_rolled", "cot_up"}


def _class_of_leaves(w: Listener, ph: Phrase, nxt: Phrase, links: set[str]) -> bool:
    """`ten plants: 4 first trif open, 5 unis open, 1 cots only`: so many plants of each."""
    if w.ctx.sample is None or w.ctx.plants or nxt.form not in _LEAF_CLASSES or not (w.begins(ph.start)):
        return False
    return nxt.start == ph.end or "WITH" in links


_BEHIND_MEASURED = _COMMON.words("is_or_has")


def _measured(w: Listener, ph: Phrase, value: object, nxt: Phrase | None) -> bool:
    """`1 is half inch 2 is 3/4 inch`: a plant by its number that nobody could place, and its size; of no other plant."""
    figure = isinstance(value, int) and w.ctx.lattice.pieces[ph.start].form == "int" and ph.end == ph.start + 1
    said = w.ctx.lattice.at(ph.end) in _BEHIND_MEASURED
    return figure and said and nxt is not None and nxt.rule == "length" and nxt.start == ph.end + 1


_OVER_THERE = _LISTED.words("over_there")
_FOR_SEEN_OVER_THERE = _COMMON.words("over_there")


def _seen_over_there(w: Listener, i: int) -> bool:
    """`six over there`, `eight here`: so many of what was counted along the row, at a place in the field."""
    at = w.ctx.lattice.at
    end = i + (at(i) in _FOR_SEEN_OVER_THERE)
    return at(end) in _OVER_THERE and w.ends_at(end + 1) and bool(w.ctx.visit and w.ctx.visit.findings)


_IT_WAS = _COMMON.words("being_or_having")


def _numbered_plant(w: Listener, ph: Phrase, value: object, span: Span, nxt: Phrase | None) -> bool:
    """`Wait, 2 was 11`, `correction, 1 has 8 trifs`: a plant by its number, of which what follows is put right."""
    if not isinstance(value, int) or w.ctx.lattice.at(ph.end) not in _IT_WAS or nxt is None:
        return False
    if nxt.rule == "past" and nxt.start == ph.end:
        nxt = next((s.phrase for s in w.segments if s.start == nxt.end), None)
    told = nxt is not None and nxt.rule in OWN | {"bareint", "stage", "length", "noneword", "percent", "ratio"}
    return told and revise.back_to(w.ctx, str(value), span)


def read_number(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    nxt, links, mark = w.ahead(k)
    value = findings.number_value(ph)
    if ph.start and ctx.lattice.pieces[ph.start - 1].text in PLACES and ctx.visit is not None and ctx.visit.plants:
        return False  # plant 2, 60 steps in, row 9
    if _seen_over_there(w, ph.end):
        return False
    if nxt is not None and w.owned is not None and nxt.start >= w.owned.start:
        nxt = None  # nine trifs on plant one. eight on two
    if nxt is not None and nxt.form == "past" and not mark and ctx.lattice.pieces[nxt.start].text in {"were", "was"}:
        nxt = _what_they_were(w, nxt) or nxt
    if ctx.correcting is not None and _numbered_plant(w, ph, value, span, nxt):
        return True
    if ctx.lattice.at(ph.start - 1) == "=" and is_as_another(w, value, span):
        ctx.mark(ph.start - 1, ph.start, EVIDENCE)
        return True
    if said_once.read(w, ph, span, value):
        return True
    if said_over(w, ph, span):
        return "filler"
    if value == 1 and _there_is_one(w, ph, span, nxt):
        return True
    if (nxt is None or mark) and tallies.as_many_leaves(ctx, value, span):
        return True
    if _one_of_two(w, ph, value, nxt, links, mark) or _one_on(w, ph, value):
        return True
    if _measured(w, ph, value, nxt):
        bar(w, ph, "whose this is was not understood")
        return "barred"
    another = ph.start > 0 and ctx.lattice.pieces[ph.start - 1].text == "another" and not ctx.explicit
    has_leaves = nxt is not None and nxt.form in tallies.LEAVES_COUNTED and not mark and "HAS" in links
    has_leaves = has_leaves or (nxt is not None and nxt.rule == "bareint" and "HAS" in links and _of_leaves(w))
    has_leaves = has_leaves or (nxt is not None and not mark and _class_of_leaves(w, ph, nxt, links))
    has_them = another and nxt is not None and not mark and nxt.rule in {"flowers", "pods", "seeds", "past"}
    if (has_leaves or has_them) and tallies.so_many_have(ctx, value, span, another=another):
        ctx.mark(ph.start - another, ph.start, EVIDENCE)
        return True
    if isinstance(value, int) and nxt is not None and nxt.rule == "same" and not mark and _more_like_it(w, ph, nxt):
        had = list(ctx.plants) if ctx.lattice.pieces[ph.start - 1].text == "another" else []
        ctx.begin([str(int(ctx.next_label()) + i) for i in range(value - len(had))], span)
        ctx.plants = [*had, *ctx.plants]
        return True
    if ph.start and any(e.kind == "COMPASS" for e in ctx.lattice.edges[ph.start - 1]) and not ctx.explicit:
        return False  # north 80 is at full bloom
    if ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text in _THAN and _ends_or_than(w, ph.end + 1):
        bar(w, ph, "more or fewer than another: how many is not said")
        return "barred"
    if nxt is not None and nxt.form == "cue" and isinstance(value, int):
        at = next(i for i, s in enumerate(w.segments) if s.phrase is nxt)
        then, _, _ = w.ahead(at)
        if (
            then is not None
            and then.rule in {"trif", "nodes"}
            and then.start - nxt.end <= 1
            and nxt.start - ph.end <= 1
        ):
            ctx.corrected.append(Correction("4.17", span, "put right before it was said what it counts"))
            w.false_start = nxt.start
            return "filler"
    ditto = nxt is not None and (
        nxt.rule == "dittomark" or (nxt.form == "same_last" and nxt.path[0][1].kind == "DITTO")
    )
    if nxt is not None and ditto and nxt.start == ph.end and isinstance(value, int):
        as_above = _as_above(w, value, span)
        if as_above:
            ctx.mark(nxt.start, nxt.end, EVIDENCE)  # 1. 4 tri, and under it 2. 5 "
            w.resume_at = nxt.end
            return True
    if last_one(w, ph, k):
        ctx.begin([ctx.next_label()], ctx.span(ph.start - 1, ph.end))
        ctx.mark(ph.start - 1, ph.start, EVIDENCE)
        return True
    one = ctx.lattice.pieces[ph.start].text == "one"
    if one and _one_and_one(w, ph):
        what = ctx.open[0].what if ctx.open else ctx.last_what
        ctx.begin([ctx.next_label()], span, named=False)
        then = next((s.phrase for s in w.segments[k + 1 : k + 4] if s.phrase and s.phrase.rule not in _PASSED), None)
        if what is not None and then is not None and then.rule in {"length", "place"}:
            organs.look(ctx, what, True, span)
            ctx.open_end = then.start
        return True
    if value == 1 and ctx.tally is not None and ctx.lattice.at(ph.end) == "or":
        return "filler"  # 3 have one or more brown pods
    if one and ("HAS" in ctx.link or (nxt is not None and nxt.rule == "place")) and tallies.of_the_same(ctx, span):
        return True  # four of em had one at the top two nodes
    if isinstance(value, int) and nxt is not None and nxt.rule == "bareint" and tallies.had_one(ctx, value, span, nxt):
        return True
    if (
        isinstance(value, int)
        and ctx.lattice.pieces[ph.start].form == "int"
        and groups.excepted(w, [str(value)], ph.start, ph.end, span)
    ):
        return True  # none blooming except 3
    left_out = nxt is None or mark or nxt.rule == "goto"
    if isinstance(value, int) and left_out and left_out_class.leave_out(w, ph, value):
        return True  # all ten at R3 but one
    if ctx.lattice.pieces[ph.start].text == "one" and ph.start and ctx.lattice.pieces[ph.start - 1].text in _WHICH:
        return "filler"  # no wait, that bottom one is the unifoliates
    if (
        nxt is not None
        and nxt.rule in {"stage", "podshare"}
        and nxt.start - ph.end <= 2
        and not mark
        and isinstance(value, int)
        and tallies.more_of_them(ctx, value, span, w.clause_from, ph.start)
    ):
        return True
    if isinstance(value, int) and _they_are(w, k) and tallies.more_of_them(ctx, value, span, w.clause_from, ph.start):
        return True
    if nxt is not None and nxt.rule == "stage" and not ctx.explicit and ctx.sample is None and w.number is None:
        each = counted_stages(w, k)
        if len(each) >= 2:  # 5 R3, 4 R2, 1 R4
            ctx.here()
            ctx.sample, ctx.sample_visit = sum(each), len(ctx.visits)
    if (
        nxt is not None
        and nxt.rule == "place"
        and not mark
        and ctx.visit is not None
        and ctx.visit.tallies
        and not ctx.plants
        and isinstance(value, int)
    ):
        last = ctx.visit.tallies[-1]
        if last.of and value <= last.of and last.what in {"R1", "R2"} and last.span.start >= w.clause_from:
            ctx.tally = TallyDraft("R1", value, last.of, None, span)
            ctx.visit.tallies.append(ctx.tally)
            return True
    told_behind = _sample_behind(w, ph, value) if ctx.sample is None and not ctx.explicit and not ctx.plants else None
    if told_behind is not None and nxt is not None and not mark:
        ctx.here()
        ctx.sample, ctx.sample_visit = told_behind, len(ctx.visits)
    if (
        ctx.sample is None
        and not (ctx.explicit or ctx.plants or ctx.line_labels or mark)
        and isinstance(value, int)
        and value > 1
        and nxt is not None
        and nxt.rule in {"flowers", "pods", "seeds"}
        and ctx.lattice.pieces[ph.start].form == "word"
        and ctx.lattice.pieces[ph.end].text in _HAD
        and w.begins(ph.start)
        and not (ctx.visit is not None and (ctx.visit.plants or ctx.visit.tallies))
    ):
        bar(w, ph, "so many plants: of how many is not said")
        return "barred"
    if ctx.sample is None and not ctx.explicit and _of_these(w, ph):
        tallies.take_all(ctx)
    if (
        nxt is not None
        and (
            nxt.rule in {"emergence", "flowers", "pods", "seeds", "state", "podshare"}
            or (nxt.rule == "length" and _they_are(w, k))
        )
        and ctx.sample is not None
        and not ctx.explicit
        and not mark
        and isinstance(value, int)
        and 0 <= value <= ctx.sample
    ):
        ctx.tally = TallyDraft(None, value, ctx.sample, None, span)
        return True
    if ctx.star is not None and ctx.plants and str(value) == ctx.plants[-1].label:
        return True
    if ctx.correcting is not None and ctx.open and ctx.lattice.pieces[ph.start].text == "one" and there_is(w, ph):
        organs.look(ctx, ctx.open[0].what, True, span)  # no pods, no wait there's one
        return True
    joined = ph.end + bool(links & {"AND", "BUT"})
    to_the_next = nxt is not None and nxt.rule == "label" and nxt.start == joined  # plant 5 just one and number 6 two
    if one and not w.ends_at(ph.end) and not to_the_next and (nxt is None or nxt.rule in {"bareint", "label"}):
        return False  # no wait, I counted one twice
    if (ctx.correcting is not None or ctx.star is not None) and ctx.plants:
        if ctx.star is not None and (told := _put_at_the_star(w, ph, value, span)) is not None:
            return told
        for s in reversed(ctx.statements):
            if s.put is not None:
                s.put(int(value))
                ctx.corrected.append(Correction("4.17", s.span, f"replaced by {value}"))
                ctx.correcting = None
                move_span(w, s, span)
                return True
    whole = int(value) if ph.path[0][1].kind == "INT" else None
    if whole is not None and one_or_other.or_another(w, ph, whole):
        return True
    key = w.series_key() or (noun_behind(w, ph) if ctx.explicit else None)
    if whole is not None and ctx.explicit and ctx.plants and key in {"trifoliates", "nodes"} and not w.at_before(ph):
        unsaid = not ctx.plants[-1].last(key)
        if unsaid and one_or_other.one_or_other(w, ph, key, whole):
            return True
    if (
        ctx.explicit
        and ctx.plants
        and key
        and ph.path[0][1].kind == "INT"
        and not w.at_before(ph)
        and not one_or_other.is_the_other(w, ph)
        and not _of_something_else(w, ph.end)
        and not of_other_talk(w, ph.start)
        and (
            nxt is None
            or mark
            or nxt.rule in {"label", "topleaf", "correct", "group"}
            or (nxt.rule in {"flowers", "pods", "seeds"} and links & {"HAS", "AND", "BUT"})
            or nxt.form in {"fl_no", "pod_no", "seed_no", "fl_past"}
            or (nxt.form in {"fl_yes", "pod_yes"} and (with_it(w, ph, nxt) or ctx.lattice.at(ph.start - 1) == "'s"))
        )
    ):
        if key == "mature_pods_percent":
            before = [p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]]
            if before[-1:] == ["of"]:
                if before[0] not in {"none", "0", "zero"}:
                    return False
                ctx.mark(ph.start - 2, ph.start, EVIDENCE)
                leaves.put(ctx, key, 0.0, ctx.span(ph.start - 2, ph.end))  # p3 none of 38
                return True
            told = ctx.correcting is None and ctx.plants[-1].last(key) is not None
            if 0 <= float(value) <= 100 and not told:
                leaves.put(ctx, key, float(value), span)
                return True
        elif key and (ctx.correcting is not None or not ctx.plants[-1].last(key)):
            return leaves.count(ctx, key, int(value), span) is not None
    if nxt is not None and not mark and nxt.rule == "stage":
        w.number = (value, span, ph.start, ph.end)
        return True
    return False


def _what_they_were(w: Listener, were: Phrase) -> Phrase | None:
    """`and 4 were R5`: the stage right behind."""
    behind = next((s.phrase for s in w.segments if s.start == were.end), None)
    return behind if behind is not None and behind.rule == "stage" else None


_FOR_MORE_LIKE_IT = _LISTED.words("for_more_like_it")


def _more_like_it(w: Listener, ph: Phrase, nxt: Phrase) -> bool:
    """`then two more just like the second one`: so many plants that follow."""
    words = [p.text for p in w.ctx.lattice.pieces[ph.end : nxt.start]]
    told = w.ctx.visit is not None and any(not p.dropped and not p.empty for p in w.ctx.visit.plants)
    another = ph.start > 0 and w.ctx.lattice.pieces[ph.start - 1].text == "another"
    more = "more" in words or (another and len(w.ctx.plants) == 1 and w.ctx.plants[0].empty)
    follows = w.ctx.next_label().isdigit() and numbers_of(ph)[:1] and 1 < numbers_of(ph)[0] <= _MOST_MORE
    return told and more and bool(follows) and set(words) <= _FOR_MORE_LIKE_IT


_MOST_MORE = 12
_THAN = _COMMON.words("fewer_or_more")


def _of_something_else(w: Listener, at: int) -> bool:
    """`the combine's two counties away`: behind the number stands a word that nobody knows here."""
    lattice = w.ctx.lattice
    return (
        at < len(lattice.pieces)
        and lattice.pieces[at].form == "word"
        and not lattice.known[at]
        and not lattice.filler[at]
    )


_FOR_ENDS_OR_THAN = _LISTED.words("for_ends_or_than")


def _ends_or_than(w: Listener, at: int) -> bool:
    """`plant 2 has 1 more`, `one fewer than that`: behind the word for more the saying ends, or it tells than what."""
    return w.ends_at(at) or w.ctx.lattice.pieces[at].text in _FOR_ENDS_OR_THAN


_BEFORE_OF_THESE = _COMMON.words("them")


def _of_these(w: Listener, ph: Phrase) -> bool:
    """`7 plants V8, 3 V9. Of these 4 had blooms`: of all that were counted before."""
    before = [p.text for p in w.ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]]
    return len(before) == 2 and before[0] == "of" and before[1] in _BEFORE_OF_THESE


def _put_at_the_star(w: Listener, ph: Phrase, value: object, span: Span) -> bool | None:
    """`*p2 has 8`: the count of the plant that the line with the star names, and not that of the plant told of last."""
    ctx = w.ctx
    last = next((s.plant for s in reversed(ctx.statements) if s.put is not None), None)
    if any(last is p for p in ctx.plants):
        return None
    key = next((x for x in ("trifoliates", "nodes") if ctx.plants[-1].last(x) is not None), None)
    if key is None or not isinstance(value, int) or ph.path[0][1].kind != "INT":
        return False
    return leaves.count(ctx, key, value, span) is not None


def _as_above(w: Listener, value: int, span: Span) -> bool:
    """A count whose noun is that of the plant before: trifoliates, or nodes."""
    ctx = w.ctx
    before = [p for p in ctx.living() if p not in ctx.plants and not p.empty]
    if not ctx.plants or not ctx.explicit or not before or any(not p.empty for p in ctx.plants):
        return False
    key = next((k for k in ("trifoliates", "nodes") if k in before[-1].facts), None)
    return key is not None and leaves.count(ctx, key, value, span) is not None


_FOR_THEY_ARE = _COMMON.words("having_or_with")
_FOR_THEY_ARE_2 = _COMMON.words("being") | {"already", "fully"}


def _they_are(w: Listener, k: int) -> bool:
    """`8 of 10 podded, 2 were all brown`, `8 of 10 blooming, 2 had pods 3/16 up top`: behind the number at segment k
    stands what so many plants are or have."""
    have = False
    for s in w.segments[k + 1 : k + 5]:
        if s.phrase is not None and s.phrase.form in {"brown", "all_brown", "n_brown"}:
            return True
        if s.phrase is not None and have:
            if s.phrase.rule in {"length", "filler"}:
                continue
            return s.phrase.rule in {"flowers", "pods", "seeds"}
        word = w.ctx.lattice.pieces[s.start].text
        if word in _FOR_THEY_ARE and s.end == s.start + 1:
            have = True
            continue
        if word not in _FOR_THEY_ARE_2 or s.end != s.start + 1:
            return False
    return False


_PASSED = {"past", "filler"}


_BEHIND_ONE_AND_ONE = _COMMON.words("being_or_having") | _COMMON.words("with") | {"at"}
_BEHIND_ONE_AND_ONE_2 = _COMMON.words("being_or_having") | _COMMON.words("with") | {"plant"}


def _one_and_one(w: Listener, ph: Phrase) -> bool:
    """`one plant had pods up top, one was half an inch down low`: the next plant, where none has a label."""
    ctx, i = w.ctx, ph.start
    pieces = ctx.lattice.pieces
    if ctx.explicit or not ctx.plants or i < 1 or pieces[i - 1].text != "," or i + 1 >= len(pieces):
        return False
    goes_on = pieces[i + 1].text in _BEHIND_ONE_AND_ONE or pieces[i + 1].form in {"int", "dec"}
    i = w.sentence_start(i)
    return goes_on and pieces[i].text == "one" and pieces[i + 1].text in _BEHIND_ONE_AND_ONE_2
