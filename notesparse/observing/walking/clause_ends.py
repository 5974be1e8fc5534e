"""The end of a clause: what still waits for its noun is used, or shown as unread."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs, revise
from notesparse.observing.draft import Sighting
from notesparse.observing.fold import EVIDENCE, FILLER, NOTHING_TO_TURN, UNREAD
from notesparse.observing.sizes import LONGEST_SEED
from notesparse.observing.walking import exceptions
from notesparse.observing.walking.listening import Listener
from notesparse.outcome import Correction
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/clause_ends")

_NOT = _COMMON.words("does_not") | _COMMON.words("is_not") | {"not"}


def clear_waiting(w: Listener) -> None:
    if w.number is not None:
        _, _, a, b = w.number
        w.ctx.mark(a, b, UNREAD, "a number with nothing to count")
        w.number = None
    if w.negative is not None:
        said, a, b = w.negative
        w.negative = None
        what = the_other_not(w, a)
        if what is not None:
            organs.look(w.ctx, what, False, said)
            w.ctx.mark(a, b, EVIDENCE)
        else:
            w.ctx.mark(a, b, UNREAD, NOTHING_TO_TURN)


_FOR_THE_OTHER_NOT = _COMMON.words("being_or_having") | {",", "just", "s"}


def the_other_not(w: Listener, at: int) -> str | None:
    """`first two blooming, third one's not`, `3 not`: of a plant of which nothing else is said, what was seen of the
    plants before is not there."""
    ctx = w.ctx
    visit, pieces = ctx.visit, ctx.lattice.pieces
    if visit is None or not ctx.explicit or len(ctx.plants) != 1 or pieces[at].text not in _NOT:
        return None
    here = ctx.plants[0]
    label_end = next((x for x in range(at, -1, -1) if pieces[x].span.start < here.span.end), 0)
    if any(pieces[x].text not in _FOR_THE_OTHER_NOT for x in range(label_end + 1, at)):
        return None
    before = [p for p in visit.plants if p is not here and not p.dropped and p.sightings]
    if not here.empty or not before or not before[-1].sightings[-1].present:
        return None
    last = before[-1].sightings[-1]
    plain = last.length is None and last.fill is None and not last.places
    return last.what if plain and last.what in {"flowers", "pods", "seeds"} else None


def end_clause(w: Listener, k: int) -> None:
    ctx = w.ctx
    if w.barred:
        w.barred = None
    clear_waiting(w)
    if ctx.places or ctx.lengths:
        orphans(w)
    if w.otherwise:
        exceptions.settle(w, w.segments[k].start if k < len(w.segments) else len(ctx.lattice.pieces))
    ctx.open = []
    if k < len(w.segments):
        w.clause_from = ctx.lattice.pieces[w.segments[k].start].span.end
    ctx.clause += 1
    ctx.link = set()
    ctx.correcting = None
    ctx.taking_back = None
    ctx.group = None
    ctx.group_n = None
    ctx.except_for = []
    close_tally(w)
    if ctx.star is not None and not any(p.named for p in ctx.plants):
        ctx.explicit = False  # what follows the line with the star is another plant
    ctx.star = None
    ctx.finding = None
    for s, a, b in ctx.tentative:
        drop_tentative(w, s, a, b)
    ctx.tentative = []


def drop_tentative(w: Listener, s: Sighting, a: int, b: int) -> None:
    if not s.tentative:
        return
    for v in w.ctx.visits:
        for p in v.plants:
            if s in p.sightings:
                p.sightings.remove(s)
        v.plants[:] = [p for p in v.plants if p.named or not p.empty]
    here = w.ctx.visit.plants if w.ctx.visit is not None else []
    if any(all(p is not q for q in here) for p in w.ctx.plants):
        w.ctx.leave_plants()  # what comes next is of no plant that is gone
    if s in w.ctx.open:
        w.ctx.open.remove(s)
    w.ctx.mark(a, b, FILLER)


def _of_an_unknown_word(w: Listener) -> bool:
    """`plant 4 sedd 3/16`, `Back tire low.`: the length or the place of something that nobody could read."""
    lattice = w.ctx.lattice
    starts = {x.span.start for x in w.ctx.lengths} | {p.span.start for p in w.ctx.places if p.form == "lower"}
    before = [i - 1 for i, p in enumerate(lattice.pieces) if i and p.span.start in starts]
    if any(lattice.pieces[i].form == "word" and not lattice.known[i] and not lattice.filler[i] for i in before):
        return True
    deep = [i - 1 for i in before if w.ctx.lengths and lattice.at(i) in _SO_DEEP]
    return any(lattice.pieces[i].form == "word" and w.ctx.use[i] == UNREAD for i in deep)  # hit moisture at 3 in


_SO_DEEP = _LISTED.words("so_deep")


def orphans(w: Listener) -> None:
    """Places and lengths with nothing named: of what was spoken of last on the plant, or before it."""
    ctx = w.ctx
    if (w.cell is not None and amid_words(w)) or _of_an_unknown_word(w):
        ctx.name_nothing()
        return
    what = ctx.last_what if ctx.last_what in {"pods", "seeds", "flowers"} else None
    plants = ctx.plants
    if (
        what is None
        and plants
        and not ctx.lengths
        and "mature_pods" in plants[-1].facts
        and plants[-1].facts["mature_pods"][-1].span.start >= w.clause_from
    ):
        for x in ctx.places:  # a brown pod near the base: its place is not recorded (guide 4.21)
            ctx.mark_span(x.span, EVIDENCE)
        ctx.places = []
        return
    if plants and what is None and ctx.visit is not None:
        earlier = [s.what for p in ctx.visit.plants for s in p.sightings]
        what = earlier[-1] if earlier else None
        if ctx.lengths and what == "flowers":
            what = None
    what = _what_was_barred(w) or what
    if ctx.lengths and plants and {"emerged", "unifoliates"} & set(plants[-1].facts) and what is None:
        ctx.name_nothing()  # the hook is an inch under
        return
    here = bool(plants) and ctx.explicit and plants[-1].span.start >= w.clause_from
    if (
        any(x.bare for x in ctx.lengths)
        and not here
        and not (ctx.explicit and any(s.clause >= ctx.clause - 1 for p in plants for s in p.sightings))
    ):
        what = None  # a figure with no unit far from any plant: sample ran 12.4
    if ctx.lengths and what in {None, "flowers"}:
        what = "pods" if here and ctx.finding is None else None
    if what == "seeds" and any(x.high > LONGEST_SEED for x in ctx.lengths):
        what = "pods"  # no beans in there yet. plant two's are an inch long
    recent = any(s.clause >= ctx.clause - 1 for p in plants for s in p.sightings)
    if what and not ctx.lengths and any(x.form == "top_1" for x in ctx.places) and leaf_told(w):
        what = None  # eight trifs, top one's cupped
    if ctx.places and not ctx.lengths and not here and (ctx.finding is not None or not recent):
        what = None
    if plants and what and ctx.correcting is not None and (ctx.lengths or ctx.places):
        old = revise.last_of(ctx, what)
        if old and (all(s.length is not None for s in old) or not ctx.lengths):  # make that half inch
            if ctx.lengths:
                organs.attach_length(ctx, ctx.lengths[-1], old)
            for pl in ctx.places:
                organs.attach_place(ctx, pl, old)
            ctx.places, ctx.lengths, ctx.open = [], [], []
            return
    if ctx.correcting is not None:
        _put_right(w, ctx.correcting)
    if plants and what and (ctx.lengths or ctx.places):
        spans = [x.span for x in ctx.places] + [x.span for x in ctx.lengths]
        organs.look(ctx, what, True, Span(min(s.start for s in spans), max(s.end for s in spans)))
        ctx.open = []
        return
    ctx.name_nothing()


def _put_right(w: Listener, cue: Span) -> None:
    """`plant 2 18 mm second node down no wait 20 mm third node down`: what stands before the cue gives way to what stands
    behind it."""
    for waiting in (w.ctx.lengths, w.ctx.places):
        old = [x for x in waiting if x.span.end <= cue.start]
        if old and len(old) < len(waiting):
            w.ctx.corrected += [Correction("4.17", x.span, "replaced by what follows") for x in old]
            del waiting[: len(old)]


_ORGANS = {"FLOWER": "flowers", "POD": "pods", "PODG": "pods", "SEED": "seeds", "SEEDG": "seeds"}
_REACH = 24  # pieces from the place back to the words that were barred


def _what_was_barred(w: Listener) -> str | None:
    """`if the bloom was one higher I'd call it R2 but it's third node down`: the bloom is at the third node, though what was
    told of it is no evidence."""
    ctx = w.ctx
    if not ctx.places or ctx.lengths:
        return None
    at = ctx.lattice.first_from(ctx.places[0].span.start)
    for i in range(at - 1, max(0, at - _REACH), -1):
        if w.hard_end(i) or ctx.use[i] == EVIDENCE:
            return None
        told = [_ORGANS[e.kind] for e in ctx.lattice.edges[i] if e.kind in _ORGANS and e.how == "exact"]
        if told and ctx.use[i] == UNREAD:
            return told[0]
    return None


def leaf_told(w: Listener) -> bool:
    """Leaves were counted last: `top one` is a leaf."""
    last = w.ctx.statements[-1] if w.ctx.statements else None
    return last is not None and last.kind == "trifoliates" and last.span.start >= w.clause_from


def amid_words(w: Listener) -> bool:
    """In a table cell a place beside other words (deer nipped the tip) is not that of another cell."""
    lattice = w.ctx.lattice
    return any(
        s.phrase.rule == "findhead"
        if s.phrase is not None
        else lattice.pieces[s.start].form == "word" and not lattice.filler[s.start]
        for s in w.segments
    )


def close_tally(w: Listener) -> None:
    t = w.ctx.tally
    if t is not None and t.what is None and w.count_of is not None and t.of is not None and not w.ctx.plants:
        t.what, w.ctx.tally = w.count_of, None
        w.ctx.here().tallies.append(t)
    elif t is not None and t.what is None:
        w.ctx.tally = None
        for i, p in enumerate(w.ctx.lattice.pieces):  # a share of nothing named
            if t.span.start <= p.span.start < t.span.end and w.ctx.use[i] == EVIDENCE:
                w.ctx.mark(i, i + 1, UNREAD, "a share of nothing named")


def orphans_before_label(w: Listener) -> None:
    clear_waiting(w)
    if w.ctx.places or w.ctx.lengths:
        orphans(w)
    for s, a, b in w.ctx.tentative:
        drop_tentative(w, s, a, b)
    w.ctx.tentative = []
