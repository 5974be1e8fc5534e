"""A phrase of flowers, pods, seeds or their state, as the walk meets it: the steps that are asked in order."""

from __future__ import annotations

from collections.abc import Callable

from notesparse.observing import organs
from notesparse.observing.draft import Sighting
from notesparse.observing.fold import EVIDENCE, EXCEPT
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.organs.behind_a_no import behind_a_no, none_of_the_group, of_the_crop
from notesparse.observing.walking.organs.group_behind import of_a_group_behind
from notesparse.observing.walking.organs.of_whom import answered_for_each, take_all, take_the_others
from notesparse.observing.walking.organs.so_many import further_along, of_a_share_that_waits, of_the_share_before
from notesparse.observing.walking.organs.states import no_state, seed_in_its_pod, state
from notesparse.observing.walking.organs.untold import (
    all_but_some,
    asked_and_untold,
    denial_of_a_denial,
    left_over_before,
    none_bigger_than,
    none_so_big,
    only_spoken_of,
    which_is_not_said,
)
from notesparse.reading.parse import Phrase
from notesparse.span import Span


def read_organ(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    """What a phrase of flowers, pods, seeds or their state says: the first step that knows decides, else it was seen."""
    for step in _STEPS:
        done = step(w, ph, span, k)
        if done is not None:
            return done
    return _seen(w, ph, span)


def _seen(w: Listener, ph: Phrase, span: Span) -> bool:
    """On the plants in hand."""
    ctx = w.ctx
    handler = {
        "flowers": organs.flowers,
        "pods": organs.pods,
        "seeds": organs.seeds,
        "state": organs.state,
        "podshare": organs.podshare,
    }[ph.rule]
    low = _but_down_low(w, ph) if ph.form in {"pod_no", "fl_no", "seed_no"} and ctx.explicit and ctx.plants else None
    if low is not None:  # no pods except at the bottom
        organs.attach_place(ctx, organs.place(low, ctx.span(low.start, low.end)), organs.look(ctx, ph.rule, True, span))
        ctx.mark(ph.end, low.end, EVIDENCE)
        w.resume_at = ctx.open_end = low.end
        return True
    used = handler(ctx, ph, span)
    if used and ctx.except_for and ctx.open and ctx.open[0].present is not None:
        for p in ctx.except_for:  # all but 3 are blooming
            p.sightings.append(Sighting(ph.rule, not ctx.open[0].present, [span], clause=ctx.clause))
        ctx.except_for = []
    ctx.open_end = ph.end
    return used


_STEPS: tuple[Callable[[Listener, Phrase, Span, int], bool | str | None], ...] = (
    asked_and_untold,
    none_so_big,
    which_is_not_said,
    denial_of_a_denial,
    all_but_some,
    only_spoken_of,
    none_bigger_than,
    left_over_before,
    of_the_share_before,
    of_a_share_that_waits,
    answered_for_each,
    take_all,
    take_the_others,
    of_a_group_behind,
    further_along,
    behind_a_no,
    of_the_crop,
    none_of_the_group,
    no_state,
    state,
    seed_in_its_pod,
)
"""In this order: a step may rest on what the ones before it let pass."""


def _but_down_low(w: Listener, ph: Phrase) -> Phrase | None:
    """The place behind `no pods except`: these it has."""
    at = ph.end + 1
    if w.ctx.lattice.at(ph.end) not in EXCEPT - {"but", "save"}:
        return None
    behind = next((s.phrase for s in w.segments if s.start >= at and s.phrase is not None), None)
    near = behind is not None and behind.rule == "place" and behind.start <= at + 2
    return behind if near and behind is not None and w.ends_at(behind.end) else None
