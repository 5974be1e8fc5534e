"""Why one reading goes before another: what phrases cost, and what it costs to leave a piece unread."""

from __future__ import annotations

from notesparse.reading.phrase import Phrase
from notesparse.text.lattice import Lattice

# Reasons, in the order of their weight. A reading that covers more of the note with fewer repairs and fewer pieces
# wins.
UNREAD_WORD, UNUSED_WORD, UNUSED_NUMBER, PHRASE = 2.5, 2.4, 3.0, 1.0
WIDE_GAP = 0.25  # a phrase that runs over a gap of four blanks or more (columns)

_WEAK = {  # phrases that say little by themselves: better as a part of another
    "bareint": 1.6,
    "numlist": 1.65,
    "noneword": 0.6,
    "yesno": 0.2,
    "past": 0.3,
    "plan": 0.3,
    "goto": 0.25,
    "group": -0.5,
    "dittomark": -0.6,
    "same": 0.1,
    "correct": 0.1,
    "call": -0.15,  # before three words that carry nothing: all in all
    "where": 0.2,
    "per": 0.6,
    "sampled": 0.1,
    "fieldcue": 0.2,
    "filler": -0.7,
}
_WEAK_FORMS = {
    "bare_top": 1.8,
    "no_n": 0.5,
    "plus_rolled": 0.2,
    "open_n": 0.4,
    "see_alone": 0.5,
    "small_alone": 0.7,
    "ord_day": 1.5,
    "md": 0.2,
    "ord_node": 0.3,
    "n_plants": 0.8,
    "weekday": 0.4,
    "main_stem": 0.2,
    "main": 0.2,
    "len_bare": 0.6,
    "len_a_metric": -0.9,  # likewise: a, mm
    "pod_int": 0.85,
    "pod_int_range": 0.85,
    "up": 0.6,
    "green": 0.2,
    "turning": 0.2,
    "brown": 0.2,
    "full": 0.1,
    "lots": 0.4,
    "half": 0.3,
    "less_half": -0.3,
    "none_without": -0.9,
    "plant_the_ord": -0.9,
    "one_more": -0.8,
    "n_slash_m": 0.5,
    "n_in_m": 0.1,
    "nums_down": 0.2,
    "top_two": 0.3,
    "the_v_r": 0.1,
    "trif_nr": 0.35,
    "trif_ord_bare": 0.3,
    "soil_state": 0.2,
    "soil": 0.5,
    "rows": 0.2,
    "top_open": 0.1,
    "cot_up": 0.1,
    "next_n": 0.3,
    "seed_count": 0.25,
    "pod_count": 0.15,
    "bean_yes": 0.1,
    "in_pod": 0.3,
    "mid_plant": 0.2,
    "num_down": 0.1,
    "cue_n": -0.05,
    "fl_count": 0.2,
    "n_same": 0.6,
    "list_same": 0.3,
    "range_same": 0.3,
    "group_both": -0.3,
    "v_r": -0.5,
    "the_v": 0.7,
    "brown_head": 0.1,
    "n_brown": 0.1,
    "plant_range": 0.1,
    "md_planted": 0.2,
    "r_range": 0.1,
    "lower": 0.1,
    "n_plus_rolled": 0.1,
    "same_also": -1.2,  # over the small words that it is made of
    "same_letter": 0.3,
    "same_row_letter": -0.3,
    "other_n": 0.1,
    "name": 0.1,
    "r_half": 0.2,
    "v_half": 0.2,
    "ord_up": 0.1,
    "pod_match": 0.1,
    "day_month": 0.2,
    "weekday_alone": 0.4,
    "trif_range": 0.05,
    "awaited": -0.8,  # over the small words that it is made of
}


def phrase_cost(p: Phrase) -> float:
    return PHRASE + p.cost + _WEAK.get(p.rule, 0.0) + _WEAK_FORMS.get(p.form, 0.0)


def skip_cost(lattice: Lattice, i: int) -> float:
    """What it costs to leave piece i outside all phrases."""
    p = lattice.pieces[i]
    if lattice.edges[i] and lattice.edges[i][0].kind == "BARE":
        return 5.0
    if p.form == "mark" and lattice.edges[i] and lattice.edges[i][0].kind in {"FLOWER", "NONE", "LIKE"}:
        return UNUSED_WORD  # a picture of a flower that stands for the word, a sign that stands for `like`
    if p.form in {"nl", "mark"}:
        if (
            p.text == "#"
            and i + 1 < len(lattice.pieces)
            and lattice.pieces[i + 1].glued
            and lattice.pieces[i + 1].form == "int"
        ):
            return UNUSED_WORD  # #2 flowers
        return {"*": 1.5, '"': 0.6, "#": 0.3, "%": 0.3, "/": 0.3, "&": 0.3, "+": 0.3}.get(p.text, 0.0)
    if lattice.filler[i]:
        return 0.3
    if p.form in {"int", "dec", "big", "dmy"}:
        return UNUSED_NUMBER
    if any(e.kind in {"INT", "ORD", "FRAC"} and e.how != "sound" for e in lattice.edges[i]):
        return UNUSED_NUMBER
    return UNUSED_WORD if lattice.known[i] else UNREAD_WORD
