"""The walk over the chosen segments: which room takes a stretch of them, and which phrases and loose words are left."""

from __future__ import annotations

from notesparse.observing import revise
from notesparse.observing.walking import counted as counted_plants
from notesparse.observing.walking import numbering, together
from notesparse.observing.walking.clause_ends import end_clause
from notesparse.observing.walking.field_names import give_back, open_name, open_pair
from notesparse.observing.walking.like_another_field import but_what_differs
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.loose_words import loose
from notesparse.observing.walking.named_behind import in_pairs, named_behind
from notesparse.observing.walking.owned import leave_owner
from notesparse.observing.walking.phrases import phrase
from notesparse.observing.walking.stretches import STRETCHES
from notesparse.observing.walking.which_fields import of_which_fields
from notesparse.reading.parse import Segment


def walk(w: Listener) -> None:
    steps(w)
    give_back(w)
    but_what_differs(w)
    together.share(w.ctx, w.together)
    together.of_every_field(w.ctx)
    of_which_fields(w.ctx)
    revise.settle_targets(w.ctx)
    revise.leave_out_the_hurt(w.ctx)
    counted_plants.leave_out_the_untold(w)


def steps(w: Listener) -> None:
    """All segments, one after the other: a room may take a whole stretch; what is left are phrases and loose words."""
    behind = named_behind(w)
    opened: set[int] = set()
    pairs = in_pairs(w)
    k = 0
    while k < len(w.segments):
        s = w.segments[k]
        if s.start < w.resume_at:
            k += 1
            continue
        if s.start in pairs and s.start not in opened:
            opened |= {s.start, *open_pair(w, pairs[s.start], s.start)}
            k += w.resume_at > s.start
            continue
        if s.start in behind and s.start not in opened:
            open_name(w, behind[s.start], k)  # R2 at Schultz
            opened |= {s.start, behind[s.start].start}
        if s.start in opened and s.start in w.names:
            k += 1
            continue
        if w.owned is not None and s.start >= w.owned.start:
            leave_owner(w, w.owned)
            continue
        if not any(take(w, s, k) for take in STRETCHES):
            _phrase_or_loose(w, s, k)
        k += 1
    end_clause(w, len(w.segments))


def _phrase_or_loose(w: Listener, s: Segment, k: int) -> None:
    if s.phrase is None:
        loose(w, s.start, k)
    elif s.phrase.form != "n_all" or not numbering.all_numbered(w, k):
        phrase(w, s.phrase, k)
        if s.phrase.form in {"n_plants", "n_all"} or s.phrase.rule == "sampled":
            numbering.number_them(w, k)
