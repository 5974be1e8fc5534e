"""Lengths: of a pod, a seed, or of something else."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, tallies
from notesparse.observing.draft import Entry, Place, Sighting
from notesparse.observing.fold import EVIDENCE, UNREAD, edges_of
from notesparse.observing.sizes import LONGEST_POD
from notesparse.observing.walking.clause_ends import orphans
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.places import low_and_sized
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/lengths")

_NEAR = 4  # pieces between the pods and a length in miles, which was heard for mils


def read_length(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    nxt, links, mark = w.ahead(k)
    units = [e.kind for _, e in ph.path if e.kind in {"INCH", "MM", "CM", "FOOT", "MILSOUND"}]
    if ph.start < ctx.form_aside:
        return False  # rain? .4
    if _watered(w, ph):
        ctx.mark(ph.start, ph.end, UNREAD, "water that is put on")
        return "barred"
    if units == ["INCH"] and between_rows(w, ph, k):
        ctx.here().head["row_spacing_in"] = Entry(
            next(float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC"}), span
        )
        return True
    if "FOOT" in units:
        if w.number is not None and not ctx.open:
            return False
        return False
    if not units and w.brown_context() and (share := _share(ph)) is not None:
        return bool(leaves.put(ctx, "mature_pods_percent", share, span))
    length = organs.read_length(ph, span)
    if length is None:
        return False
    if length.high > LONGEST_POD:
        return False
    if not (nxt is not None and nxt.rule in {"pods", "seeds"} and not mark) and tallies.long_as_that(ctx, length):
        return True
    takes_left = (
        bool(ctx.open)
        and ctx.open[0].what in {"pods", "seeds"}
        and ctx.open[0].present is not False
        and (ctx.open[0].length is None or ctx.correcting is not None)
    )
    head_next = (
        nxt is not None
        and nxt.rule in {"pods", "seeds"}
        and (
            nxt.form in {"pod_yes", "seed_yes", "bean_yes", "pod_flat"}
            or (nxt.form == "in_pod" and bool(edges_of(nxt, "SEED", "BEAN")))  # with 4 mm seed in it
        )
        and not mark
        and not links & {"BUT"}
    )
    adjacent_right = head_next and nxt is not None and nxt.start - ph.end <= 1
    adjacent_left = takes_left and ctx.open_end >= ph.start - 1
    if "MILSOUND" in units and not (adjacent_right or _said_of_it(w, ph)):
        return False
    if adjacent_left and takes_left and not length.spoken_quarter and ctx.open_end == ph.start:
        organs.attach_length(ctx, length, ctx.open)
        ctx.open_end = ph.end
        return True
    if ctx.correcting is not None and ctx.open and ctx.open[0].length is not None:
        organs.attach_length(ctx, length, ctx.open)
        return True
    if head_next and adjacent_right:
        if not (adjacent_left and nxt is not None and nxt.rule != ctx.open[0].what and nxt.rule == "seeds"):
            ctx.lengths = [length]
            return True
    if takes_left:
        organs.attach_length(ctx, length, ctx.open)
        ctx.open_end = ph.end
        return True
    if low_and_sized(ctx.open) and nxt is not None and nxt.rule == "place" and nxt.form != "lower" and not mark:
        ctx.close()  # pods 3/4 down low and 1/4 in the top four
        ctx.lengths = [length]
        return True
    node = _nth_node(w, ph)
    if node is not None:  # pod 1/8 in. at the top node, 1/4 in. second, 1/2 in. third
        what = ctx.open[0].what
        ctx.close()
        ctx.lengths = [length]
        organs.attach_place(ctx, node[0], organs.look(ctx, what, True, span))
        ctx.mark(ph.end, node[1], EVIDENCE)
        w.resume_at = ctx.open_end = node[1]
        return True
    if _of_another_place(w, nxt, mark):  # pods 1/4 at the top node, 3/4 third node down
        what = ctx.open[0].what
        ctx.close()
        ctx.lengths = [length]
        organs.look(ctx, what, True, span)
        ctx.open_end = ph.end
        return True
    if (
        ctx.open
        and ctx.open[0].what == "pods"
        and ctx.open[0].length is not None
        and ctx.open[0].present
        and not head_next
    ):
        if nxt is not None and nxt.rule == "label" and edges_of(nxt, "ANOTHER") and not mark:
            ctx.lengths = [length]
            return True
        return False
    if ctx.open and ctx.open[0].what == "seeds" and ctx.open[0].present is False and not head_next and ctx.explicit:
        for s2 in organs.look(ctx, "pods", True, span):
            s2.length = length
        ctx.open_end = ph.end
        return True
    if _as_long(w, ph) and (said := _told_of_the_one_before(w)) is not None:
        ctx.lengths = [length]  # on the second it measured 22 mm
        for s in organs.look(ctx, said.what, True, span):
            s.places = s.places or ([] if w.in_clause(k, {"place"}) is not None else list(said.places))
        ctx.open_end = ph.end
        return True
    if ctx.plants:
        whole = ctx.lengths and ctx.places and ctx.lengths[0].span.start < ctx.places[0].span.start
        if whole and ctx.correcting is not None:
            ctx.lengths = [*ctx.lengths, length]  # 18 mm second node down, no wait, 20 mm third node down
            return True
        if whole and not head_next:
            orphans(w)  # 1/2 in. in the top four, 1 in. at the bottom: the first pair is whole
        ctx.lengths = [length]
        return True
    if head_next:
        ctx.lengths = [length]
        return True
    return False


_PUT = _LISTED.words("put")
_DOWN = _LISTED.words("down")
_ROUND = _LISTED.words("round")
_EACH = _LISTED.words("each")
_PUTTING = _LISTED.words("putting")


def _watered(w: Listener, ph: Phrase) -> bool:
    """`she's putting down eight tenths this round`, `an inch a pass`: what a pivot puts on; `putting on half inch pods` are
    pods."""
    at = w.ctx.lattice.at
    if at(ph.end) in _EACH and at(ph.end + 1) in _ROUND:
        return True
    if at(ph.start - 1) not in _DOWN or at(ph.start - 2) not in _PUT or at(ph.start - 3) not in _PUTTING:
        return False
    behind = w.ctx.lattice.edges[ph.end] if ph.end < len(w.ctx.lattice.edges) else []
    return not any(e.kind in {"POD", "SEED"} for e in behind)


_IT = _LISTED.words("it")
_MEASURED = _LISTED.words("measured")


def _as_long(w: Listener, ph: Phrase) -> bool:
    """`(plant 2) it measured 22 mm`, `they are an inch`: the length of what was spoken of last, on another plant."""
    at, i = w.ctx.lattice.at, ph.start - 1
    while at(i) in _MEASURED:
        i -= 1
    return at(i) in _IT or at(i + 1) in {"it's", "its"}


def _told_of_the_one_before(w: Listener) -> Sighting | None:
    """The pod or seed with a length of the plant before this one, of which nothing is told yet."""
    ctx = w.ctx
    here = ctx.plants[0] if len(ctx.plants) == 1 and ctx.explicit and ctx.visit is not None else None
    if here is None or ctx.visit is None or any(s.what in {"pods", "seeds"} for s in here.sightings if not s.group):
        return None
    told = [s for p in ctx.visit.plants if p is not here and not p.dropped for s in p.sightings if not s.copied]
    last = max(told, key=lambda s: s.span.start, default=None)
    sized = last is not None and last.what in {"pods", "seeds"} and last.present and last.length is not None
    return last if sized else None


def _of_another_place(w: Listener, nxt: Phrase | None, mark: bool) -> bool:
    said = w.ctx.open[0] if w.ctx.open else None
    if said is None or said.what not in {"pods", "seeds"} or not said.present or said.length is None:
        return False
    stem = nxt is not None and nxt.rule == "place" and nxt.form not in {"main_stem", "branch"}
    return stem and not mark and any(x.form not in {"main_stem", "branch"} for x in said.places)


def _nth_node(w: Listener, ph: Phrase) -> tuple[Place, int] | None:
    """`1/4 in. second` behind a pod whose node was counted from the top: the next node, and where the words end."""
    ctx = w.ctx
    said = ctx.open[0] if ctx.open else None
    if said is None or said.what not in {"pods", "seeds"} or not said.present or said.length is None:
        return None
    if not any(x.form in {"top_1", "ord_down", "num_down"} for x in said.places) or ph.end >= len(ctx.lattice.pieces):
        return None
    nth = max((e for e in ctx.lattice.edges[ph.end] if e.kind == "ORD"), key=lambda e: e.end, default=None)
    if nth is None or not w.ends_at(nth.end):
        return None
    return Place("ord_down", (int(nth.means),), ctx.span(ph.end, nth.end)), nth.end


_ROAD = _LISTED.words("road")


def _said_of_it(w: Listener, ph: Phrase) -> bool:
    """`pods were about six miles`: heard for mils, right behind the pods or seeds; and no miles of a road."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    if ph.end < len(pieces) and pieces[ph.end].text in _ROAD:
        return False
    near = bool(ctx.open) and 0 <= ph.start - ctx.open_end <= _NEAR and ctx.open[0].what in {"pods", "seeds"}
    return near and not any(
        pieces[x].text in {"and", "."} or pieces[x].form == "nl" for x in range(ctx.open_end, ph.start)
    )


def _share(ph: Phrase) -> float | None:
    """`ten percent of pods brown on p1, p2 a quarter`: a fraction without a unit, in percent."""
    fractions = [float(e.means) for _, e in ph.path if e.kind == "FRAC"]
    return round(100 * fractions[0], 1) if len(fractions) == 1 and 0 < fractions[0] < 1 else None


_PARTING = frozenset({"-", "–", "—", "/", ",", ";", "|"})


def between_rows(w: Listener, ph: Phrase, k: int) -> bool:
    """`planted May 12 15 inch`, `Cedar - 30 in. - gr. 3.4`: a row spacing behind the planting date, or in a head."""
    values = [float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC"}]
    if len(values) != 1 or values[0] not in {7.5, 10, 15, 20, 22, 30, 36, 38}:
        return False
    j = k - 1
    while (
        j >= 0
        and w.segments[j].phrase is None
        and (w.ctx.lattice.pieces[w.segments[j].start].text in {"in", "on", ",", "-", "a"})
    ):
        j -= 1
    before = w.segments[j].phrase if j >= 0 else None
    nxt, _, mark = w.ahead(k)
    if before is not None and before.rule == "name" and nxt is not None and w.at_head:
        parted = w.ctx.lattice.at(ph.start - 1) in _PARTING and w.ctx.lattice.at(ph.end) in _PARTING
        return parted and nxt.rule in {"planted", "emerged", "maturity", "variety"}
    return (
        before is not None
        and before.rule in {"planted", "emerged", "variety", "maturity"}
        and (nxt is None or mark or nxt.rule in {"label", "date", "stop", "planted", "emerged", "maturity"})
    )
