"""Several words with one meaning: which plants, in what order, with what values."""

from __future__ import annotations

from collections.abc import Callable

from notesparse.observing import listfix
from notesparse.observing.walking import counted as counted_plants
from notesparse.observing.walking import exceptions, numbering
from notesparse.observing.walking.asked_each import answers_of_each
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.count_rows import count_rows
from notesparse.observing.walking.cue_behind import cue_behind
from notesparse.observing.walking.in_order import counts_in_order
from notesparse.observing.walking.like_at_stop import like_at_stop
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.moved import exchange_named
from notesparse.observing.walking.neither import neither, none_of_these
from notesparse.observing.walking.next_in_order import next_by_number, next_in_order
from notesparse.observing.walking.none_longer import none_longer
from notesparse.observing.walking.only_these import by_their_numbers, listed, only_these, the_only_one
from notesparse.observing.walking.recounted import recounted
from notesparse.observing.walking.ripe_pods import ripe_pods_of_each
from notesparse.observing.walking.sizes_under_a_head import answer_of_a_plant, sizes_under_a_head
from notesparse.observing.walking.skipped import left_out as left_out_plants
from notesparse.observing.walking.so_many_from import so_many_from
from notesparse.observing.walking.they_do import not_on, they_do
from notesparse.observing.walking.those import those
from notesparse.observing.walking.under_a_head import under_a_head
from notesparse.observing.walking.values_in_turn import values_in_turn
from notesparse.reading.parse import Segment


def saying(w: Listener, s: Segment, k: int) -> bool:
    """Several words with one meaning: which plants, in what order, with what values."""
    if w.barred or s.start in w.ctx.struck:
        return False
    cue_behind(w, k)
    numbering.number_by_the_last(w, k)
    for rather in _NAMED_SO:
        end = rather(w, s.start)
        if end is not None:
            w.resume_at = end
            return True
    for read in _SAYINGS:
        end = read(w, s.start)
        if end is not None:
            clear_waiting(w)
            w.resume_at = end
            return True
    return False


def _counts_put_right(w: Listener, i: int) -> int | None:
    return listfix.the_counts(w.ctx, i)


_NAMED_SO = (neither, none_of_these, they_do, not_on)
"""Where these end, what is said of the plants that they name begins."""
_SAYINGS: tuple[Callable[[Listener, int], int | None], ...] = (
    _counts_put_right,
    recounted,
    exchange_named,
    count_rows,
    those,
    listed,
    counted_plants.named,
    exceptions.several,
    only_these,
    the_only_one,
    by_their_numbers,
    next_by_number,
    next_in_order,
    like_at_stop,
    left_out_plants,
    exceptions.that_one,
    counts_in_order,
    ripe_pods_of_each,
    answers_of_each,
    under_a_head,
    sizes_under_a_head,
    none_longer,
    answer_of_a_plant,
    values_in_turn,
    so_many_from,
)
"""In this order: each gives where its words end, or None."""
