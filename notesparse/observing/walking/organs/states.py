"""Brown, green, full: what pods and seeds are like; and seed in a pod that has its own length."""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.draft import Entry
from notesparse.observing.fold import UNREAD
from notesparse.observing.sizes import LONG_SEED
from notesparse.observing.walking.hurt_pods import hurt_here
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.ripe_pods import asked_and_told
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_HIGH = frozenset({"up_top", "top_n", "top_two", "top_four", "top_1"})


def _full_down_low(w: Listener, nxt: Phrase | None, mark: bool) -> bool:
    """Full pods are told of a place below that of the pods that were just named."""
    said = w.ctx.open
    low = nxt is not None and not mark and nxt.form == "lower"
    return low and bool(said) and said[0].what == "pods" and any(x.form in _HIGH for x in said[0].places)


def no_state(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """A head over nothing, hurt pods, leaves and stems that are green: no state of pods or seeds."""
    ctx = w.ctx
    if ph.form == "brown_head" and not any(s.phrase is not None for s in w.segments[k + 1 :]):
        return False  # percent have a brown pod: a head over nothing
    if ph.rule == "podshare" and ph.form != "pods_all_green" and hurt_here(w, k):
        ctx.mark(ph.start, ph.end, UNREAD, "not a normal pod: no evidence for a stage")
        return "barred"
    if (
        ph.rule == "state"
        and ph.form in _OF_A_CAVITY
        and not (ctx.open and ctx.open[0].what in {"pods", "seeds"})
        and leaf_before(w, ph)
    ):
        return False
    if (
        ph.rule == "state"
        and ph.form == "green"
        and not (ctx.open and ctx.open[0].what in {"pods", "seeds"})
        and _of_the_stem(w, ph)
    ):
        return False
    return None


def _of_the_stem(w: Listener, ph: Phrase) -> bool:
    """`the stem is still green`, and not `one brown pod on the main stem plant three green pods`."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    since = ctx.plants[-1].span.start if ctx.plants else 0
    near = (i for i in range(max(0, ph.start - 3), ph.start) if pieces[i].span.start >= since)
    return any(e.kind == "MAINSTEM" for i in near for e in ctx.lattice.edges[i])


def state(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Brown, green, full: what the pods and seeds are like."""
    if ph.rule != "state":
        return None
    ctx = w.ctx
    nxt, _, mark = w.ahead(k)
    if ph.form == "pods_brown" and not ctx.plants and shares_follow(w, k):
        ctx.pods_brown_head = True
        return True
    if (
        ph.form == "pods_brown"
        and ph.end < len(ctx.lattice.pieces)
        and ctx.lattice.pieces[ph.end].text in {":", "-"}
        and nxt is not None
        and nxt.rule == "label"
    ):
        ctx.pods_brown_head = True
        return True
    if ph.form == "full" and _full_down_low(w, nxt, mark):
        ctx.close()  # flat in the top four but full down low
        for s in organs.look(ctx, "seeds", True, span):
            s.fill = Entry("full", span)
        ctx.open_end = ph.end
        return True
    if asked_and_told(w, ph, span):
        return True
    hurt = hurt_here(w, k)
    used = organs.state(ctx, ph, span, hurt)
    if hurt and not used and ph.form in {"brown", "n_brown"}:
        ctx.mark(ph.start, ph.end, UNREAD, "not a normal pod: no evidence for a stage")
        return "barred"
    ctx.open_end = ph.end
    return used


def seed_in_its_pod(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`seed of 2 mm in a pod of 3 cm`: two things, and what place follows is of both."""
    ctx = w.ctx
    nxt = w.ahead(k)[0]
    if (
        ph.form == "pod_yes"
        and nxt is not None
        and nxt.rule == "length"
        and "IN" in ctx.link
        and ctx.open
        and ctx.open[0].what == "seeds"
        and not _long_as_a_seed(w, ph, nxt)
    ):
        seeds = ctx.open  # seed of 2 mm in a pod of 3 cm: two things, and what place follows is of both
        ctx.link.discard("IN")
        if ctx.lengths:
            organs.attach_length(ctx, ctx.lengths.pop(), seeds)
        organs.pods(ctx, ph, span)
        ctx.open = [*ctx.open, *seeds]
        ctx.open_end = ph.end
        return True
    return None


_FOR_LONG_AS_A_SEED = _COMMON.words("being")


def _long_as_a_seed(w: Listener, pod: Phrase, nxt: Phrase) -> bool:
    """`seed in the pod is an eighth`, `beans in pods 1/8 inch`: the length is the seed's, which has none yet; pods with
    seed in them are longer."""
    ctx = w.ctx
    length = organs.read_length(nxt, ctx.span(nxt.start, nxt.end))
    if length is None or ctx.lengths or any(s.length is not None for s in ctx.open):
        return False
    verb = any(ctx.lattice.at(i) in _FOR_LONG_AS_A_SEED for i in range(pod.end, nxt.start))
    return verb or length.high < LONG_SEED


def shares_follow(w: Listener, k: int) -> bool:
    """`pods brown at Saltworks east - 1: 98, 2: 100`: plants and figures of which no thing is named."""
    ahead = [s.phrase for s in w.segments[k + 1 : k + 14] if s.phrase is not None and s.phrase.rule != "filler"]
    labelled = [(a, b) for a, b in itertools.pairwise(ahead) if a.rule == "label" and b.rule == "bareint"]
    return len(labelled) >= 2


_OF_A_CAVITY = frozenset({"full", "not_full"})


def leaf_before(w: Listener, ph: Phrase) -> bool:
    """Leaf edges that touch are no seeds that touch."""
    pieces = w.ctx.lattice.pieces
    for i in range(ph.start - 1, max(-1, ph.start - 9), -1):
        if pieces[i].form == "nl" or pieces[i].text in {".", ";"}:
            return False
        if any(e.kind in {"LEAF", "TRIF", "TRIPS", "UNI"} for e in w.ctx.lattice.edges[i]):
            return True
    return False
