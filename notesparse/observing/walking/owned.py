"""Plants that are named behind what is said of them: whose what is being said is (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs, owners
from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, EXCEPT
from notesparse.observing.walking import counted, numbering
from notesparse.observing.walking.by_place import SO_MANY, number_at, places, told_last
from notesparse.observing.walking.listening import OWN, Listener
from notesparse.observing.walking.those import on_those
from notesparse.reading.parse import Phrase, segment
from notesparse.span import Span

_LISTED = cue_page("walking/owned")
_COMMON = cue_page("shared")

_ONLY = _LISTED.words("only")
_ONLY_ON = _COMMON.words("only")
_FEWEST = 3
_SPEAKS = OWN | {"noneword", "stage", "length", "place"}


def find_owner(w: Listener, ph: Phrase, span: Span, k: int) -> None:
    """Looks, where something begins to be said, for the plants that are named behind it."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    shares = ph.rule in {"percent", "ratio", "podshare"} and counted.counted(w)
    speaks = (
        ph.rule in _SPEAKS
        or shares
        or (ph.rule in {"percent", "ratio"} and ctx.last_what == "mature")  # 60% brown on p1, 40% on p2
        or (w.behind and (ph.rule in {"bareint", "ratio", "percent"} or ph.form == "md"))
    )
    if _asked_of_all(w, ph, k):
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, span
        return
    if w.owned is not None or not (speaks or "brown" in ph.form):
        return
    on_one = (
        _but_for(w, ph) or _of_all_at_the_end(w, ph, k) or (None if _begins(w, ph.start) else _on_a_plant(w, ph, k))
    )
    if on_one is None and not (speaks and (_begins(w, ph.start) or _of_several(w, ph))):
        return
    w.owned = on_one or (
        _the_others(w, ph)
        or on_those(w, ph)
        or _all_so_many(w, ph, k)
        or _by_place(w, ph)
        or owners.ahead(ctx, ph.start, w.behind, surely=ph.rule == "topleaf")
        or _named_at_once(w, ph)
        or _run_behind(w, ph)
        or (put_right_on(w, ph.end) if ctx.correcting is not None else None)
    )
    w.behind = w.behind or w.owned is not None
    if w.owned is not None:
        what = ctx.last_what
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = w.owned.plants, True, None
        told = w.in_clause(k, {"flowers", "pods", "seeds"})
        if ph.rule in {"length", "place"} and what and (told is None or told.start > w.owned.start):
            organs.look(ctx, what, True, span)  # pods 1/4 in on p1, 1/2 in on p2
    elif w.owned_to > 0 and w.line_head and any(p.form == "nl" for p in pieces[w.owned_to : ph.start]):
        ctx.leave_plants()  # a new line is not said of the plant that was named at the end of the one before
        w.owned_to = -1


def _but_for(w: Listener, ph: Phrase) -> owners.Owners | None:
    """`plants 1 thru 4: 9 trifs, flowers at the top node except on 3`: the others of the plants that were named together;
    those that are named have none where no place and no size is told."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if not ctx.explicit or len(ctx.plants) < 2 or ctx.group is not None or ph.rule not in _ORGANS:
        return None
    for i in range(ph.end, min(ph.end + _NEAR, len(ctx.use))):
        if w.hard_end(i) or at(i) == "and" or (at(i) == "," and at(i + 1) not in EXCEPT | {"not"}):
            return None
        but = i + (at(i) == "but" and at(i + 1) == "not")
        if at(but) not in EXCEPT and not (at(but) == "not" and at(but + 1) in {"in", "on"} and i > ph.end + 1):
            continue
        got = counted.numbers_at(w, but + 1 + (at(but + 1) in {"for", "in", "on"}), _PREFIX)
        run = {p.label: p for p in ctx.plants}
        if got is None or at(i - 1) == "all" or not set(got[0]) < set(run) or not _said_out(w, got[1]):
            return None
        if i == ph.end and ph.form in _SAID_BARE:
            ctx.except_for = [run[x] for x in got[0]]
        return owners.Owners(i, got[1], [p for x, p in run.items() if x not in got[0]])
    return None


def _said_out(w: Listener, i: int) -> bool:
    """The sentence ends at piece i, or something else is told behind its comma: not what these have instead."""
    behind = w.ctx.lattice.kinds(i + 1)
    return w.hard_end_or_over(i) or (w.ctx.lattice.at(i) == "," and bool(behind & {"FLOWER", "NO", "POD", "SEED"}))


_SAID_BARE = frozenset({"fl_no", "fl_yes", "pod_no", "pod_yes", "seed_no", "seed_yes"})
_FOR_THE_OTHERS = _COMMON.words("rest") | {"other"}


def _the_others(w: Listener, ph: Phrase) -> owners.Owners | None:
    """`R6 on 1, 3 and 4 and R5 on the other two`, `R5 for the rest`: the plants of which no stage was told yet."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ph.rule != "stage" or at(ph.end) not in {"on", "for"} or ctx.visit is None:
        return None
    i = ph.end + 1 + (at(ph.end + 1) == "the")
    if at(i) not in _FOR_THE_OTHERS:
        return None
    end, many = i + 1, None
    if at(i) in {"other", "remaining"}:
        number = number_at(w, end)
        many = int(number.means) if number is not None else SO_MANY.get(at(end), 1)
        end = number.end if number is not None else end + (at(end) in SO_MANY or at(end) == "one")
    key = f"stated_{ph.form[0] if ph.form[0] in 'rv' else 'r'}"
    named = [p for p in ctx.visit.plants if not p.dropped]
    left = [p for p in named if p.last(key) is None]
    if not left or len(left) == len(named) or not owners.ends(ctx, end) or many not in {None, len(left)}:
        return None
    return owners.Owners(ph.end, end, left)


def _asked_of_all(w: Listener, ph: Phrase, k: int) -> bool:
    """`p1 9 tf p2 10 tf p3 9 tf. any bloom? no`: a question of its own behind the last plant, of what was told of none."""
    at = w.ctx.lattice.at
    if ph.rule not in {"flowers", "pods", "seeds"} or at(ph.start - 1) != "any":
        return False
    live = w.ctx.living()
    if len(live) < 2:
        return False
    asks = (
        "?" in {at(i) for i in range(ph.start, ph.end + 1)}
        and ph.start > 1
        and (w.hard_end(ph.start - 2) or at(ph.start - 2) == ".")
    )
    end = min((i for i in w.names if i > ph.start), default=len(w.ctx.use))
    later = any(s.phrase is not None and s.phrase.rule == "label" for s in w.segments[k + 1 :] if s.start < end)
    return asks and not later and not any(s.what == ph.rule for p in live for s in p.sightings)


def _by_place(w: Listener, ph: Phrase) -> owners.Owners | None:
    """`half inch on the first one, five eighths on the other`: of the plants that were counted."""
    there, at = counted.in_a_row(w), w.ctx.lattice.at
    if not there:
        return None
    row = [p.label for p in there]
    for i in range(ph.end - (at(ph.end - 1) == "on") + (at(ph.end) == ","), min(ph.end + _SOON, len(w.ctx.use) - 1)):
        if w.ends_at(i) or at(i) == ",":
            return None
        got = places(w, i + 1, row, told_last(w), led=True) if at(i) in {"on", "for", "in"} else None
        if got is not None and (owners.ends(w.ctx, got[1]) or at(got[1]) in {"and", "but"}):
            w.turn = [*w.turn, *got[0]]
            return owners.Owners(max(i, ph.end), got[1], [p for p in there if p.label in got[0]])
    return None


_SOON = 8  # pieces


def _all_so_many(w: Listener, ph: Phrase, k: int) -> owners.Owners | None:
    """`8 trifs on both plants there, plant 1 no bloom`: all of the plants, which are told of by their numbers afterwards."""
    ctx, at = w.ctx, w.ctx.lattice.at
    for i in range(ph.end, min(ph.end + _FAR, len(ctx.use) - 1)):
        if w.ends_at(i):
            return None
        if at(i) != "on" or at(i + 1) not in {"both", "all"}:
            continue
        number = number_at(w, i + 2)
        many = 2 if at(i + 1) == "both" else int(number.means) if number is not None else 0
        end = number.end if number is not None else i + 2
        if at(end) not in {"plants", "plts"} or not numbering.labels_follow(w, k, many):
            return None
        made = ctx.begin([str(n) for n in range(1, many + 1)], ctx.span(i, end + 1))
        return owners.Owners(i, end + 1, made)
    return None


_FAR = 12  # pieces


def leave_owner(w: Listener, owned: owners.Owners) -> None:
    """The walk has come to the plants' names. A phrase that goes over their end is taken apart there
    (`on plant two and ten on plant three`: ten is no plant)."""
    w.ctx.mark(owned.start, owned.end, EVIDENCE)
    _only_on(w, owned)
    w.resume_at, w.owned_to, w.owned = owned.end, owned.end, None
    for k, s in enumerate(w.segments):
        if s.start < owned.end < s.end:
            lists = w.rivals[owned.end :]
            w.segments[k + 1 : k + 1] = segment(w.ctx.lattice, lists, owned.end, s.end)
            break


def _only_on(w: Listener, owned: owners.Owners) -> None:
    """`flowers on 1 and 3 only`, `blooms just on 2`, `the only pods are on the last two`: the other plants that were
    described have none."""
    ctx = w.ctx
    mine = {(p.stop, p.label) for p in owned.plants}
    others = [p for p in ctx.living() if (p.stop, p.label) not in mine]
    if len(others) + len(mine) < _FEWEST or not ctx.open:
        return
    seen = ctx.open[0]
    first = ctx.lattice.first_from(seen.span.start)
    at = ctx.lattice.at
    said = (
        at(owned.end) in _ONLY or at(owned.start - 1) in _ONLY_ON or [at(first - 2), at(first - 1)] == ["the", "only"]
    )
    if not said:
        return
    if not seen.present or seen.places or seen.length is not None or any(p.named_behind for p in owned.plants):
        return
    if not any(s.what == seen.what for p in others for s in p.sightings):
        for p in others:
            p.sightings.append(
                Sighting(
                    seen.what, False, [seen.span.cover(ctx.span(owned.start, owned.end + (at(owned.end) in _ONLY)))]
                )
            )
        if at(owned.end) in _ONLY:
            ctx.mark(owned.end, owned.end + 1, EVIDENCE)


def _of_several(w: Listener, ph: Phrase) -> bool:
    """`plant five seven trifs nothing blooming on three four or five`: with no mark before, and of plants that were
    described; two of them that are not the last may be nodes (plant nine 12 trifs flowers on six and seven)."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    if ph.rule not in {"flowers", "pods", "seeds"} or not ctx.explicit or not ctx.plants or ctx.visit is None:
        return False
    at = ph.end
    if at >= len(pieces) or pieces[at].text != "on":
        return False
    known = {p.label for p in ctx.visit.plants if not p.dropped}
    said = at + 1 < len(pieces) and pieces[at + 1].text in {"plants", "plts"}
    for labels, _ in reversed(owners.listed(ctx, at + 1 + said)):
        if len(labels) > 1 and known.issuperset(labels):
            return said or ph.form.endswith("_no") or len(labels) > 2 or ctx.plants[-1].label in labels
    return False


_ORGANS = frozenset({"flowers", "pods", "seeds"})
_PREFIX = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {"p"}
_NEAR = 8  # pieces


def _on_a_plant(w: Listener, ph: Phrase, k: int) -> owners.Owners | None:
    """`p1 10 trifs p2 11 trifs flowers on p1`: with no mark before, and of a plant that was described and is named so."""
    ctx, at = w.ctx, w.ctx.lattice.at
    nxt = next((s.phrase for s in w.segments[k + 1 : k + 2]), None)
    ahead = ph.rule in {"length", "place"} and nxt is not None and nxt.rule in _ORGANS
    if not (ph.rule in _ORGANS or ahead or "brown" in ph.form) or not ctx.explicit or not ctx.plants:
        return None
    others = {s.start for s in w.segments[k + 1 + ahead :] if s.phrase is not None and s.phrase.rule in _ORGANS}
    for i in range(ph.end - (at(ph.end - 1) == "on"), min(ph.end + _NEAR, len(ctx.use) - 2)):
        if w.hard_end(i) or i in others or at(i) in {",", "and", "but"}:
            return None
        if at(i) in {"on", "of", "for"} and at(i + 1) in _PREFIX:
            got = _described(w, i + 1)
            return owners.Owners(max(i, ph.end), got[1], got[0]) if got is not None else None
    return None


def _named_at_once(w: Listener, ph: Phrase) -> owners.Owners | None:
    """`plant 1 9 trifs. pods on plant 2 half inch`, `seed on P2 an eighth of an inch`: one plant, described before or the one
    that comes next, is named right behind what is said first, and more is said of it."""
    ctx, at = w.ctx, w.ctx.lattice.at
    on = ph.end - (at(ph.end - 1) == "on")
    number = number_at(w, on + 2)
    if ph.rule not in _ORGANS or at(on) != "on" or at(on + 1) not in _PREFIX or number is None or number.end != on + 3:
        return None
    described = _described(w, on + 1)
    if described is not None:
        return owners.Owners(on, described[1], described[0])
    label = [str(number.means)]
    if not ctx.explicit or not counted.may_be_new(w, label):
        return None
    return owners.Owners(on, number.end, ctx.begin(label, ctx.span(on + 1, number.end)))


_PLURAL = _COMMON.words("plants")
_LINKED = _LISTED.words("linked")


def _run_behind(w: Listener, ph: Phrase) -> owners.Owners | None:
    """`pods 3/4 inch plants 1 through 4, plant 5 was half inch`: with no `on`, before the next plant that is named."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ph.form.endswith(("_list", "_more")) or (ctx.explicit and ctx.plants and not _told_all(ctx.plants)):
        return None
    for i in range(ph.end, min(ph.end + _NEAR, len(ctx.use) - 1)):
        if w.hard_end(i) or at(i) == ",":
            return None
        if at(i) not in _PLURAL or at(i - 1) in _LINKED:
            continue
        lists = (x for x in owners.listed(ctx, i + 1) if at(x[1]) in {",", ";"} and at(x[1] + 1) in _PREFIX)
        got = next(lists, None)
        if got is None or len(got[0]) < 2:
            return None
        known = {p.label: p for p in ctx.living()}
        new = [x for x in got[0] if x not in known]
        made = {p.label: p for p in ctx.begin(new, ctx.span(i, got[1]))} if new else {}
        return owners.Owners(i, got[1], [(known | made)[x] for x in got[0]])
    return None


def _told_all(plants: list[PlantDraft]) -> bool:
    return all(not p.empty for p in plants)


def _of_all_at_the_end(w: Listener, ph: Phrase, k: int) -> owners.Owners | None:
    """`flowers top node both`, `pods half inch each`, `no pods either one`: a bare word for all plants at the end of the
    clause, where one plant or none was spoken of."""
    ctx, at = w.ctx, w.ctx.lattice.at
    nxt = next((s.phrase for s in w.segments[k + 1 : k + 2]), None)
    ahead = ph.rule in {"length", "place"} and nxt is not None and nxt.rule in _ORGANS
    if not (ph.rule in _ORGANS or ahead):
        return None
    live = list({(p.stop, p.label): p for p in reversed(ctx.living())}.values())[::-1]  # one said again is one
    if len(live) < 2 or (ctx.explicit and len(ctx.plants) > 1):
        return None
    what = nxt.rule if ahead and nxt is not None else ph.rule
    if any(s.what == what for p in live for s in p.sightings):
        return None  # p1 no flowers p2 no flowers either
    others = {s.start for s in w.segments[k + 1 + ahead :] if s.phrase is not None and s.phrase.rule in _TELLS_ANEW}
    for i in range(ph.end, min(ph.end + _NEAR + 2, len(ctx.use))):
        if at(i) in {"both", "each", "either"} or (at(i) == "all" and _begins(w, ph.start)):
            end = i + 1 + (at(i + 1) in {"one", "plants", "ones"})
            many = 2 if at(i) in {"both", "either"} else len(live)
            return owners.Owners(i, end, live) if _closes(w, end) and many == len(live) else None
        if w.hard_end(i) or i in others:
            return None
    return None


_TELLS_ANEW = _ORGANS | {"label", "trif", "nodes", "stage", "group"}


def _closes(w: Listener, i: int) -> bool:
    """Piece i ends the clause, or a size stands behind a comma there: `pods both, 1/2 in`."""
    return i >= len(w.ctx.use) or w.ends_at(i) or w.ctx.lattice.at(i) == ","


def put_right_on(w: Listener, i: int) -> owners.Owners | None:
    """`no wait, nine on plant one`, `sorry 9 tf for 1`: of which plant that was described the new value at whose end piece i
    stands is."""
    at = w.ctx.lattice.at
    if at(i) not in {"on", "for"}:
        return None
    got = _described(w, i + 1) if at(i + 1) in _PREFIX else None
    if got is None and w.ctx.lattice.pieces[i + 1 : i + 2] and w.ends_at(i + 2):
        number = number_at(w, i + 1)
        there = w.ctx.visit.plant(str(number.means)) if number is not None and w.ctx.visit is not None else None
        got = ([there], i + 2) if there is not None and not there.empty else None
    return owners.Owners(i, got[1], got[0]) if got is not None else None


def _described(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`plant one`, `plant one or plant two`, `p1 and p2` at piece i, of all of which something was told; where they end."""
    at, visit = w.ctx.lattice.at, w.ctx.visit
    got = counted.labels_at(w, i, _PREFIX)
    alone = number_at(w, i + 1)
    if alone is not None and alone.end == i + 2 and (got is None or (len(got[0]) > 1 and not w.ends_at(got[1]))):
        got = [str(alone.means)], alone.end  # on plant one third node down; on p1 and p2 has flowers
    if got is None or visit is None:
        return None
    known = [p for label in got[0] if (p := visit.plant(label)) is not None]
    if len(known) != len(got[0]) or any(p.empty for p in known):
        return None
    end = got[1]
    more = _described(w, end + 1) if at(end) in {"or", "nor", "and"} and at(end + 1) in _PREFIX else None
    if more is not None and (at(end) != "and" or w.ends_at(more[1])):
        return [*known, *more[0]], more[1]
    return known, end


def _begins(w: Listener, i: int) -> bool:
    if w.begins(i) or w.after_name or w.ctx.correcting is not None:  # no wait, nine trifs on plant one
        return True
    return w.behind and (w.ctx.lattice.pieces[i - 1].text in {"and", "but", "n"} or i == w.owned_to)
