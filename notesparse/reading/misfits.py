"""Phrases that the words around them rule out: forms of the grammar that fit, and are not meant."""

from __future__ import annotations

from collections.abc import Callable

from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit import counts, heads, labels, organs, stages
from notesparse.text.lattice import Lattice

Misfit = Callable[[Lattice, Phrase], bool]


def misfits(lattice: Lattice, p: Phrase) -> bool:
    """Whether a phrase is ruled out by what stands in it or beside it."""
    return any(rule(lattice, p) for rule in _ALWAYS) or any(rule(lattice, p) for rule in _BY_FORM.get(p.form, ()))


_ALWAYS: tuple[Misfit, ...] = (
    organs.answer,
    organs.full_bloom,
    organs.none_of,
    organs.comma_inside,
    heads.in_the_thirties,
    organs.seed_of_weight,
    organs.written_as_a_disease,
    organs.trips_somewhere,
    counts.noun_of_next,
    counts.in_bloom,
)
_BY_FORM: dict[str, tuple[Misfit, ...]] = {
    "plant_range": (labels.loose_dash, labels.so_many_plants, labels.verb_between),
    "plant_list": (labels.so_many_plants, labels.verb_between),
    "md": (
        labels.loose_dash,
        counts.sweeps,
        heads.of_the_pod,
        heads.ten_four,
        labels.on_plants,
        counts.one_of_shares,
        counts.had_something,
    ),
    "mdy": (labels.loose_dash,),
    "wd_md": (labels.loose_dash,),
    "n_slash_m": (counts.sweeps,),
    "same_n": (labels.like_count, labels.ditto_and_next),
    "same_last": (labels.before_ordinal,),
    "ord_up": (organs.no_node_up,),
    "r1": (stages.no_stage_heard, stages.a_name_of_letters),
    "green": (organs.green_beans,),
    "seed_no": (organs.none_in_the_beans, organs.none_then_comma),
    "seed_yes": (organs.short_for_a_disease,),
    "findhead": (organs.short_for_seeds,),
    "see_alone": (organs.disease_shows,),
    "seed_small": (organs.disease_shows,),
    "seed_frac": (organs.of_the_crop,),
    "n_in_m": (counts.not_shared,),
    "run_together": (heads.apart,),
    "month_day": (heads.words_between,),
    "day_month": (heads.words_between,),
    "day_month_yy": (heads.apart,),
    "month_day_yy": (heads.apart,),
    "cue_n": (counts.before_unit,),
    "planted_nn": (heads.before_count, heads.pods_and_no_day),
    "planted": (heads.pods_and_no_day,),
    "emerged_nn": (heads.before_count, heads.up_there),
    "v_r": (stages.questioned,),
    "half": (counts.half_inch,),
    "page_n": (heads.no_page,),
    "plant_n": (
        labels.page,
        labels.listed,
        labels.so_many_plants,
        labels.so_tall,
        labels.no_bean_label,
        labels.verb_between,
        labels.behind_an_ordinal,
    ),
    "trif_nr": (organs.on_the_leaf, counts.has_its_number),
    "trif_n": (labels.of_the_label,),
    "n_plants": (labels.apart_from_plant,),
    "n_of_m": (organs.node_of, counts.of_nodes),
    "first_n": (labels.no_plants,),
    "last_n": (labels.no_plants,),
    "fl_past": (organs.left_elsewhere,),
    "plant_ord": (labels.parted,),
    "plant_letter": (labels.letters_of_many,),
    "sampled": (labels.no_sample,),
    "rows_s": (heads.not_glued_s,),
    "rows": (heads.rows_apart,),
    "uni_bare": (organs.where_on_the_leaf,),
    "name": (stages.how_it_came_up,),
    "trif_ord_bare": (organs.ordinal_apart, organs.place_on_the_leaf, organs.share_behind),
    "v1": (stages.several, stages.a_name_of_letters),
    "next_n": (labels.so_many_at_once,),
    "n_same": (labels.said_of_one,),
    "numlist": (counts.told_between,),
    "stop_n": (counts.decimal,),
    "plant_commas": (labels.not_all_commas, labels.so_many_plants, labels.verb_between),
    "r_half": (stages.half_of_others,),
    "goto": (organs.seed_starts,),
    "bean_group": (heads.not_said_of_beans,),
    "frac_doing": (counts.no_doing,),
    "group_all": (labels.either_or,),
    "planned_for": (labels.plan_for_plant,),
    "fl_count": (counts.first_so_many, counts.on_so_many),
    "pod_count": (counts.first_so_many, counts.on_so_many),
    "top_1": (counts.and_between,),
    "top_n": (counts.and_between,),
    "fl_no": (organs.none_then_comma,),
    "pod_no": (organs.none_then_comma,),
    "next_one": (labels.one_more_leaf,),
    "nodes_colon": (organs.no_colon,),
    "node_n": (organs.colon,),
    "group_others": (labels.not_others,),
    "pod_int": (counts.without_them, counts.of_something, counts.on_so_many),
    "pod_frac": (counts.share_podded,),
    "all_but": (counts.but_no_plants,),
    "n_but": (counts.but_no_plants,),
    "emerged": (heads.up_there,),
    "not_up": (organs.not_up_top,),
    "nodes_n": (organs.on_so_many_nodes, counts.has_its_number),
    "nodes_range": (organs.on_so_many_nodes,),
}
