"""Leaves, nodes, scars and coming up, as the walk meets them."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, tallies
from notesparse.observing.fold import EVIDENCE, UNREAD, Context, numbers_of
from notesparse.observing.walking import counted as counted_plants
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.branches_too import branches_too
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.loose_words import GOES_ON
from notesparse.observing.walking.node_start import nodes_from
from notesparse.observing.walking.one_each import one_each
from notesparse.observing.walking.organs.of_whom import on_branches
from notesparse.observing.walking.share_behind import of_the_share, share_behind
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/leaf_words")
_BEHIND_UP_OF_SOMETHING = _LISTED.words("behind_up_of_something")


def up_of_something(ctx: Context, ph: Phrase) -> bool:
    """Whether `up` says nothing of the plant's emergence: more was seen of it, or it is the up of `up there`,
    `balled it up`."""
    pieces = ctx.lattice.pieces
    after = pieces[ph.end].text if ph.end < len(pieces) else ""
    before = pieces[ph.start - 1].text if ph.start else ""
    if any("trifoliates" in p.facts or "nodes" in p.facts or p.sightings for p in ctx.plants):
        return True
    return after in _BEHIND_UP_OF_SOMETHING or before in {
        "it",
        "them",
        "em",
    }


_A_PLANT = _LISTED.words("a_plant")
_OF_THEM_ALL = _LISTED.words("of_them_all")
_BEFORE_THE_COTS = _LISTED.words("before_the_cots")


def _on_one_plant(w: Listener, ph: Phrase) -> bool:
    """`V2 overall, the one plant I dug had 2 trifs`: said of that plant, and of no average."""
    ctx, i = w.ctx, ph.start
    if ctx.field_clause != ctx.clause or ctx.explicit:
        return False
    words: set[str] = set()
    while i and not w.ends_at(i - 1):
        i -= 1
        words.add(ctx.lattice.at(i))
    return bool(words & _A_PLANT) and not words & _OF_THEM_ALL


def averages(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """A count of leaves or nodes over the field: `12 nodes average`, `9 tri on most`."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    nxt, _, mark = w.ahead(k)
    if (
        rule in {"trif", "nodes"}
        and not _on_one_plant(w, ph)
        and (
            ctx.field_clause == ctx.clause
            or (nxt is not None and nxt.rule == "average" and (not mark or w.cut_short(ph, nxt)))
        )
        and (not ctx.explicit or w.in_clause(k, {"average"}, -1) or (nxt is not None and nxt.rule == "average"))
    ):
        return leaves.average(ctx, ph, span)
    if f in {"trif_avg", "nodes_avg"}:
        return leaves.average(ctx, ph, span)
    if rule == "trif" and nxt is not None and nxt.form == "most" and not ctx.explicit and not mark:
        between = [p.text for p in ctx.lattice.pieces[ph.end : nxt.start + 1]]
        if between[:1] == ["on"]:  # 9 tri on most
            ctx.mark(nxt.start, nxt.end, EVIDENCE)
            w.resume_at = nxt.end
            return leaves.average(ctx, ph, span)
    return None


def leaf_counts(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Leaves, nodes and scars of a plant."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    nxt = w.ahead(k)[0]
    if rule in {"trif", "nodes"} and [p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]] == [
        "down",
        "to",
    ]:
        return False  # eaten off down to 3 nodes
    if rule in {"trif", "nodes"} and on_branches(w, k):
        ctx.mark(ph.start, ph.end, UNREAD, "on branches only: no evidence for a stage")
        return "barred"
    if f == "trif_zero" and not ctx.plants and ctx.visit is not None and ctx.visit.tallies:
        if ctx.visit.tallies[-1].what in {"VC", "VE"} and ctx.visit.tallies[-1].span.start >= w.clause_from:
            return True  # 5 unis open no trif
    if rule == "trif" and f == "trif_n" and branches_too(w, ph):
        return "barred"
    if rule == "trif":
        if f == "open_n" and _an_open_flower(w, ph, k):
            organs.look(ctx, "flowers", True, span)
            ctx.open_end = ph.end
            return True
        if f == "open_n" and not (ctx.plants and any("trifoliates" in p.facts for p in ctx.here().plants)):
            return False
        if ctx.tally is not None and ctx.tally.what is None and w.joined(ctx.tally.span.end, ph.start):
            if tallies.finish(ctx, ph, span):
                return True
        used = counted(w, one_each(w, ph, span, k) or leaves.trif(ctx, ph, span))
        if used and w.scars and f == "trif_n":
            for p in ctx.plants:
                e = p.last("trifoliates")
                if e is not None and isinstance(e.value, int):
                    e.value += w.scars
        w.scars = 0
        return used
    if rule == "topleaf":
        if ctx.tally is not None:
            return False
        return leaves.topleaf(ctx, ph, span)
    if rule == "relative":
        return than_plant(w, ph, span)
    if (
        f == "scar_n"
        and nxt is not None
        and nxt.form == "trif_n"
        and not (ctx.plants and ctx.plants[-1].last("trifoliates"))
    ):
        w.scars = numbers_of(ph)[0]  # six scars and two good trifs
        return True
    if rule == "scars":
        return leaves.scars(ctx, ph, span)
    if rule == "nodes":
        whence = nodes_from(w, ph)
        if whence is not None:
            return counted(w, whence)
        return counted(w, one_each(w, ph, span, k) or leaves.nodes(ctx, ph, span))
    return None


def emergence(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Plants that are up, or their cotyledons."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    if rule == "emergence" and ctx.tally is not None:
        if ctx.tally.what is None and tallies.finish(ctx, ph, span):
            return True
        if ctx.tally.what is not None and f == "up":
            return "filler"  # 7 of 10 got a pod up in the top four
    if rule == "emergence" and f == "cot_up" and not ctx.plants and ctx.visit is not None and ctx.visit.tallies:
        if [p.text for p in ctx.lattice.pieces[ph.end : ph.end + 3]] in (
            ["on", "the", "rest"],
            ["on", "the", "others"],
        ):
            return "filler"  # 2 of 10 not up, cots on the rest
        if ctx.lattice.at(ph.start - 1) == "with" and ctx.visit.tallies[-1].what == "VE":
            return True  # 3 up with cotyledons open
    if (
        rule == "emergence"
        and f == "cot_up"
        and {p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]} & _BEFORE_THE_COTS
    ):
        return False  # cut off under the cots
    if rule == "emergence" and f == "up" and not ctx.plants:
        return "filler" if ctx.lattice.original(ph.start, ph.end).lower() == "up" else False
    if rule == "emergence" and f == "up" and up_of_something(ctx, ph):
        return "filler"  # 6th one rolld up; longest pod up there
    if rule == "emergence" and (share := share_behind(w, k)) is not None:  # cotyledons up on most
        if of_the_share(w, ph, span, share):
            return True
        bar(w, ph, "what a share of the plants has was not understood")
        return "barred"
    if rule == "emergence":
        return leaves.emergence(ctx, ph, span)
    return None


_BEFORE_THAN_PLANT = _LISTED.words("before_than_plant")
_FOR_THAN_PLANT = _LISTED.words("for_than_plant")


def than_plant(w: Listener, ph: Phrase, span: Span) -> bool:
    """`2 one more tf than 1, same pods`: the plant that it is more than, where it is named behind."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    at = ph.end
    if at < len(pieces) and pieces[at].text in {"than", "then"}:
        at += 1
    elif at and pieces[at - 1].text not in _BEFORE_THAN_PLANT:  # short of plant 2
        return leaves.relative(ctx, ph, span)
    while at < len(pieces) and pieces[at].text in _FOR_THAN_PLANT:
        at += 1
    found = [e for e in ctx.lattice.edges[at] if e.kind in {"INT", "ORD"}] if at < len(pieces) else []
    got = max(found, key=lambda e: e.end, default=None)
    if got is None or ctx.visit is None:
        return leaves.relative(ctx, ph, span)
    source = ctx.visit.plant(str(got.means))
    end = got.end
    while end < len(pieces) and pieces[end].text in {"one", "plant"}:
        end += 1
    if source is None or source in ctx.plants or not (w.ends_at(end) or pieces[end].text in GOES_ON):
        return leaves.relative(ctx, ph, span)
    if not leaves.relative(ctx, ph, span.cover(ctx.span(ph.start, end)), source):
        return False
    ctx.mark(ph.start, end, EVIDENCE)
    counted_plants.cut(w, end)
    w.resume_at = end
    return True


_A_FEW = 3  # flowers that are counted


def _an_open_flower(w: Listener, ph: Phrase, k: int) -> bool:
    """`10tf no fl. no wait there's one open 2nd node down`, `ten trifs, no flowers, wait, there's one open`: a flower, and no
    leaf."""
    ctx = w.ctx
    nxt, _, mark = w.ahead(k)
    spoken = bool(ctx.plants) and any(s.what == "flowers" for s in ctx.plants[-1].sightings)
    placed = nxt is not None and nxt.rule == "place" and nxt.form not in {"main_stem", "branch"}
    if not spoken or (placed and not mark):
        return spoken
    told = ctx.plants[-1].last("trifoliates")
    none = bool(ctx.open) and ctx.open[-1].what == "flowers" and not ctx.open[-1].present
    few = numbers_of(ph)[0] <= _A_FEW and told is not None and told.value - numbers_of(ph)[0] > _A_FEW
    return none and few and (placed or ctx.lattice.at(ph.end - 1) == "open")


def counted(w: Listener, used: bool) -> bool:
    """Behind a count of leaves or nodes, places and lengths with no noun wait no longer; `used` is handed on."""
    w.ctx.name_nothing()  # plant 1 at the sixth node down, nine trifs
    return used
