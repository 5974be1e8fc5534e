"""The walk over the chosen segments: which room gets which phrase, and what the words between them mean."""

from __future__ import annotations

from bisect import bisect_left

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing import countlist, headers, leaves, listfix, organs, revise, tallies
from notesparse.observing.dates import read_day
from notesparse.observing.draft import Ask
from notesparse.observing.finding import findings, findopen
from notesparse.observing.fold import (
    EVIDENCE,
    FILLER,
    NO_THING_SO_LONG,
    NO_THING_THERE,
    NOTHING_TO_TURN,
    UNREAD,
    Context,
    edges_of,
    numbers_of,
)
from notesparse.observing.paper import forms
from notesparse.observing.paper.read_table import read_table
from notesparse.observing.shown import meaning, reasons, repairs, tied, wording
from notesparse.observing.walking import counted as counted_plants
from notesparse.observing.walking import exceptions, numbering, said_once, together
from notesparse.observing.walking.asked_each import answers_of_each
from notesparse.observing.walking.bars import bar, past_the_cue, read_cue, unbars
from notesparse.observing.walking.branches_too import branches_too
from notesparse.observing.walking.clause_ends import clear_waiting, end_clause
from notesparse.observing.walking.corrections import read_correction, read_not_number
from notesparse.observing.walking.count_rows import count_rows
from notesparse.observing.walking.cue_behind import cue_behind
from notesparse.observing.walking.day import read_date
from notesparse.observing.walking.field_names import another_field, give_back, open_name, open_pair
from notesparse.observing.walking.groups import all_but, left_out, read_group
from notesparse.observing.walking.heads_of_each import days_in_order, of_the_named
from notesparse.observing.walking.in_order import counts_in_order
from notesparse.observing.walking.labels import ordinal_label, read_label, whose_was_missed
from notesparse.observing.walking.lengths import read_length
from notesparse.observing.walking.like_another_field import but_what_differs
from notesparse.observing.walking.like_at_stop import like_at_stop
from notesparse.observing.walking.like_the_form_before import like_the_form_before, variety_again
from notesparse.observing.walking.like_there import like_a_plant_there
from notesparse.observing.walking.listed_together import go_on_with_the_listed
from notesparse.observing.walking.listening import LINKS, ORGANS, OWN, Listener
from notesparse.observing.walking.loose_numbers import read_none, read_number
from notesparse.observing.walking.moved import exchange_named, to_another
from notesparse.observing.walking.named_behind import in_pairs, named_behind
from notesparse.observing.walking.neither import neither, none_of_these
from notesparse.observing.walking.next_in_order import next_by_number, next_in_order
from notesparse.observing.walking.node_start import nodes_from
from notesparse.observing.walking.none_longer import none_longer
from notesparse.observing.walking.nth_pod import nth_pod
from notesparse.observing.walking.of_weeds import of_a_weed
from notesparse.observing.walking.on_all import of_all_told_of, on_all_of_them
from notesparse.observing.walking.one_each import one_each
from notesparse.observing.walking.only_these import by_their_numbers, listed, only_these, the_only_one
from notesparse.observing.walking.organs.of_whom import on_branches
from notesparse.observing.walking.organs.read import read_organ
from notesparse.observing.walking.owned import find_owner, leave_owner
from notesparse.observing.walking.placed_lines import place_of_the_line
from notesparse.observing.walking.places import read_place, there
from notesparse.observing.walking.recounted import recounted
from notesparse.observing.walking.ripe_pods import ripe_pods_of_each
from notesparse.observing.walking.share_behind import of_the_share, share_behind
from notesparse.observing.walking.shares import a_plant_at, read_share
from notesparse.observing.walking.sizes_under_a_head import answer_of_a_plant, sizes_under_a_head
from notesparse.observing.walking.skipped import left_out as left_out_plants
from notesparse.observing.walking.skipped import of_the_hurt, read_lost, skip_current, skip_label
from notesparse.observing.walking.so_many_from import so_many_from
from notesparse.observing.walking.spots import new_stop, read_where, side_of_the_stop
from notesparse.observing.walking.spread_lines import going_on
from notesparse.observing.walking.stage_words import of_this_plant, read_stage
from notesparse.observing.walking.they_do import not_on, they_do
from notesparse.observing.walking.those import those
from notesparse.observing.walking.under_a_head import under_a_head
from notesparse.observing.walking.values_in_turn import values_in_turn
from notesparse.observing.walking.which_fields import of_which_fields
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, Segment
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/walk")

_GOES_ON = _LISTED.words("goes_on")


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
    """All segments, one after the other."""
    ctx = w.ctx
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
        if (
            s.start + 2 in w.names
            and ctx.lattice.pieces[s.start].form == "int"
            and ctx.lattice.at(s.start + 1) in {".", ")"}
        ):
            ctx.mark(s.start, s.start + 1, FILLER)  # 1) Stave Mill: the number of the list
            w.resume_at = s.start + 1
            k += 1
            continue
        then = w.other_times.get(s.start)
        if then is not None and not w.barred:
            clear_waiting(w)
            ctx.mark(s.start, then, UNREAD, "another time")
            counted_plants.cut(w, then)  # was R2 last week, now | it has pods
            w.resume_at = then
            k += 1
            continue
        not_ours = w.not_ours.get(s.start)
        if not_ours is not None:
            clear_waiting(w)
            ctx.mark(s.start, not_ours[0], UNREAD, not_ours[1])
            counted_plants.cut(w, not_ours[0])
            w.resume_at = not_ours[0]
            k += 1
            continue
        if s.start in w.now_said and not w.barred:
            ctx.mark(s.start, w.now_said[s.start], FILLER)
            w.resume_at = w.now_said[s.start]
            k += 1
            continue
        placed = place_of_the_line(w, s.start, k)
        if placed is not None:
            counted_plants.cut(w, placed)
            w.resume_at = placed
            k += 1
            continue
        table = w.tables.get(s.start)
        if table is not None:
            end_clause(w, k)
            read_table(ctx, table)
            go_on_with_the_listed(w, table)
            w.resume_at = table.end
            w.at_head = w.at_head and (ctx.visit is None or ctx.visit.empty)
            k += 1
            continue
        name = w.names.get(s.start)
        if name is not None and findopen.rather(ctx.lattice, name):
            name = w.names.pop(s.start) and None
        if name is not None:
            open_name(w, name, k)
            numbering.number_named(w, name.start)
            k += 1
            continue
        line = w.form.get(s.start)
        if line is not None and not any(line.start <= n.start < line.end for n in w.names.values()):
            at = forms.take(ctx, line)
            if at is not None:
                clear_waiting(w)
                w.at_head = w.line_head = w.after_name = False
                w.resume_at = at
                k += 1
                continue
        if s.start not in ctx.struck and (not w.barred or past_the_cue(w, s)):
            end = findings.take(ctx, w.segments, k, w.names)
            if end is not None:
                revise.hurt(ctx, s.start)
                clear_waiting(w)
                if ctx.places and not ctx.open:
                    ctx.name_nothing()  # the bottom ones are tore up, no flowers
                w.barred = None
                w.resume_at = end
                w.line_head = w.after_name = False
                k += 1
                continue
        once = said_once.take(w, s.start) if not w.barred and ctx.said_once is None else None
        if once is not None:
            clear_waiting(w)
            w.resume_at = once
            k += 1
            continue
        if not w.barred and s.start not in ctx.struck:
            cue_behind(w, k)
            numbering.number_by_the_last(w, k)
            named_so = neither(w, s.start) or none_of_these(w, s.start) or they_do(w, s.start) or not_on(w, s.start)
            if named_so is not None:
                w.resume_at = named_so
                k += 1
                continue
            at = listfix.the_counts(ctx, s.start)
            at = recounted(w, s.start) if at is None else at
            at = exchange_named(w, s.start) if at is None else at
            at = count_rows(w, s.start) if at is None else at
            at = those(w, s.start) if at is None else at
            at = listed(w, s.start) if at is None else at
            at = counted_plants.named(w, s.start) if at is None else at
            at = exceptions.several(w, s.start) if at is None else at
            at = only_these(w, s.start) if at is None else at
            at = the_only_one(w, s.start) if at is None else at
            at = by_their_numbers(w, s.start) if at is None else at
            at = next_by_number(w, s.start) if at is None else at
            at = next_in_order(w, s.start) if at is None else at
            at = like_at_stop(w, s.start) if at is None else at
            at = left_out_plants(w, s.start) if at is None else at
            at = exceptions.that_one(w, s.start) if at is None else at
            at = counts_in_order(w, s.start) if at is None else at
            at = ripe_pods_of_each(w, s.start) if at is None else at
            at = answers_of_each(w, s.start) if at is None else at
            at = under_a_head(w, s.start) if at is None else at
            at = sizes_under_a_head(w, s.start) if at is None else at
            at = none_longer(w, s.start) if at is None else at
            at = answer_of_a_plant(w, s.start) if at is None else at
            at = values_in_turn(w, s.start) if at is None else at
            at = so_many_from(w, s.start) if at is None else at
            if at is not None:
                clear_waiting(w)
                w.resume_at = at
                k += 1
                continue
        fixed = listfix.put_right(ctx, s.start) if not w.barred and w.begins(s.start) else None
        if fixed is not None:
            clear_waiting(w)
            w.resume_at = fixed
            k += 1
            continue
        if not w.barred and counts_may_begin(w, s):
            end = countlist.counted_list(ctx, s.start)
            if end is not None:
                clear_waiting(w)
                w.at_head = w.line_head = w.after_name = False
                w.resume_at = end
                k += 1
                continue
        if s.phrase is None:
            loose(w, s.start, k)
            k += 1
            continue
        if s.phrase.form == "n_all" and numbering.all_numbered(w, k):
            k += 1
            continue
        phrase(w, s.phrase, k)
        if s.phrase.form in {"n_plants", "n_all"} or s.phrase.rule == "sampled":
            numbering.number_them(w, k)
        k += 1
    end_clause(w, len(w.segments))


def counts_may_begin(w: Listener, s: Segment) -> bool:
    """At the head of a clause or behind a name, with no plant spoken of on this line."""
    ctx = w.ctx
    if (ctx.explicit and ctx.plants and ctx.plants[-1].line == ctx.line) or s.start in ctx.struck:
        return False
    if s.phrase is not None and s.phrase.rule in {"date", "label", "filler", "correct", "call", "average"}:
        return False
    if ctx.tally is not None and ctx.tally.what is None:
        return False  # 5 | w/ fl in top 2
    if counted_plants.counted(w):
        return False  # 5 plants, R5 on 1 and 2: their numbers
    pieces = ctx.lattice.pieces
    i = s.start - 1
    while i >= 0 and (ctx.lattice.filler[i] or pieces[i].text in {"with", "had", "have"}):
        i -= 1
    return (
        i < 0
        or pieces[i].form in {"nl", "mark"}
        or w.after_name
        or any(n.end == i + 1 for n in w.names.values())
        or ctx.sample is not None
    )


_FOR_FOLDED_AFTER_ALL = _COMMON.words("being") | {"still"}


def _folded_after_all(w: Listener, i: int) -> bool:
    """`P3 unis flat, no wait, P3 was folded too`: the unifoliates again, where nothing else of the plant may be rolled."""
    ctx = w.ctx
    rolled = any(e.kind == "ROLLED" and e.how == "exact" for e in ctx.lattice.edges[i])
    if not rolled or not ctx.explicit or len(ctx.plants) != 1 or ctx.plants[0].last("trifoliates") is not None:
        return False
    said = {ctx.lattice.at(x) for x in range(max(0, i - 3), i)} & _FOR_FOLDED_AFTER_ALL
    if not said or ctx.plants[0].last("unifoliates") is None:
        return False
    leaves.put(ctx, "unifoliates", "rolled", ctx.span(i, i + 1))
    ctx.mark(i, i + 1, EVIDENCE)
    return True


def loose(w: Listener, i: int, k: int) -> None:
    """A piece that no phrase took: a mark, a filler, a known word out of place, or a word that is not known."""
    ctx = w.ctx
    p = ctx.lattice.pieces[i]
    struck = ctx.struck.get(i)
    if struck is not None:  # what was struck out is put right, and is no evidence
        ctx.corrected.append(Correction("4.21", ctx.span(i, struck), "struck out"))
        ctx.mark(i, struck, FILLER)
        w.resume_at = struck
        return
    if _folded_after_all(w, i):
        return
    if p.text == "either" and k and w.ends_at(i + 1):
        before = w.segments[k - 1].phrase
        if before is not None and before.form.endswith("_no"):
            ctx.mark(i, i + 1, FILLER)  # no flowers either
            return
    if p.text == "s" and p.glued and k > 1 and ctx.lattice.at(i - 1) == "'":
        label = w.segments[k - 2].phrase
        if label is not None and label.rule == "label" and label.end == i - 1:
            ctx.mark(i, i + 1, FILLER)  # plant 1's top leaf
            return
    if p.text in w.key_signs and not p.glued:
        ctx.mark(i, i + 1, UNREAD, "a sign of the key that is not read here")  # r = next leaf rolled, in `1  3t r`
        return
    if p.form == "nl" and i and ctx.lattice.pieces[i - 1].text in _GOES_ON:
        ctx.mark(i, i + 1, FILLER)  # plant 3 has 12 trifs and / pods 1/4 inch: one sentence, broken by the paper's edge
        return
    if p.form == "nl":
        end_clause(w, k)
        ctx.line += 1
        w.line_head = True
        w.after_name = False
        ctx.mark(i, i + 1, FILLER)
        after = next((s.phrase for s in w.segments[k + 1 : k + 2]), None)
        if after is not None and after.rule == "correct" and ctx.plants:
            return  # no wait, there is a flower: of the plant on the line before
        if ctx.line_labels or not ctx.explicit:
            ctx.close()
        if ctx.line_labels and ctx.explicit:
            if ctx.plants and all(q.empty for q in ctx.plants):
                ctx.label_lines = True
            elif not ctx.label_lines and i not in going_on(w):
                ctx.leave_plants()
        return
    if w.hard_end(i):
        end_clause(w, k)
        ctx.mark(i, i + 1, FILLER)
        return
    if p.form == "word" and (new_stop(w, i, k) or (not w.barred and there(w, i))):
        return
    but = left_out(w, i, ctx.living()) if ctx.open and ctx.open[0].group and not w.barred else None
    if but is not None and w.ends_at(but[1]):
        all_but(w, i, *but)  # none are blooming except the first
        return
    if p.form == "mark":
        if p.text == ";" and w.barred == "another time":
            w.barred = None  # was R1 last Friday; one bloom, 4th node down
        ctx.mark(i, i + 1, UNREAD if w.barred else FILLER, w.barred or "")
        if p.text in ",:(":
            ctx.link.discard("HAS")
            if p.text == ",":
                ctx.link.add("COMMA")
        return
    if not w.barred and p.text in {"with", "w"} and _of_the_counted(w, k):
        w.barred, w.barred_from, w.barred_limit = "seen on plants that were only counted", i, 0
    if w.barred:
        ctx.mark(i, i + 1, UNREAD, w.barred)
        return
    kinds = {e.kind for e in ctx.lattice.edges[i]}
    ctx.link |= kinds & LINKS
    w.after_name = w.after_name and ctx.lattice.filler[i]
    denied = _denied_verb(w, i) if "NOT" in kinds else 0
    if denied:
        ctx.mark(i, denied, UNREAD, "no known word")  # can't decide, with a bloom at the top
        w.resume_at = denied
        return
    bare = p.text in {"without", "w/o"} and w.ends_at(i + 1)  # eleven without, flowers top two
    if kinds & {"NONE", "NO", "NOT"} and not bare:
        w.negative = (ctx.span(i, i + 1), i, i + 1)
    if "BEAN" in kinds and (w.ahead(k)[0] or Phrase(0, 0, "", "", (), 0.0)).rule in {"stage", "call"}:
        ctx.mark(i, i + 1, FILLER)  # the beans are at R4
    elif ctx.lattice.filler[i] or kinds & {
        "COUNTING",
        "HEDGE",
        "ONLY",
        "YET",
        "STILL",
        "FEW",
        "HAS",
        "BUT",
        "AND",
        "FILLER",
        "SOMEW",
        "SAMPLED",
        "IN",
        "AT",
        "LONG",
        "EARLY",
    }:
        ctx.mark(i, i + 1, FILLER)
    elif kinds & {
        "PLANT",
        "BEAN",
        "ONE",
        "LEAF",
        "ROWS",
        "TOP",
        "OR",
        "TO",
        "OF",
        "AS",
        "FIELDNOUN",
        "R",
        "V",
        "THE",
        "ALMOST",
        "NODE",
        "NODES",
        "OPEN",
        "PLUS",
        "LIKE",
        "LAST",
        "UPW",
        "MORE",
        "EVERYW",
        "ALLPL",
        "STOP",
        "PER",
        "NUMBERW",
    }:
        noun = "FIELDNOUN" in kinds and w.at_head
        headed = ctx.lattice.at(i - 1) == "the" and ctx.lattice.at(i + 1) in {":", "-"} and p.text not in _ANY_FIELD
        called = noun and (ctx.lattice.original(i, i + 1)[:1].isupper() or headed)  # in the wedge: plant 1 ...
        told = kinds & {"ALMOST", "OPEN"} or called  # 8/28 Oxbow top 4 nodes: a field's name, most likely
        ctx.mark(i, i + 1, UNREAD if told else "weak", "a known word out of place")
    elif p.form in {"int", "dec", "big", "dmy"}:
        ctx.mark(i, i + 1, UNREAD, "a number with nothing to count")
    else:
        if not ctx.lattice.known[i] and ctx.tally is not None and ctx.tally.what is None:
            _let_go(w, i)  # half have dropped, pods brown
            return
        ctx.mark(i, i + 1, UNREAD, "no known word" if not ctx.lattice.known[i] else "a known word out of place")


_FAR = 3  # pieces of a verb and what belongs to it
_SURE = _LISTED.words("sure")


def _denied_verb(w: Listener, i: int) -> int:
    """`can't decide,`, `don't rightly recall.`: a no that turns round a verb that nobody knows, before a mark, turns nothing
    behind the mark, nor does `not sure,`; where the mark stands, 0 where that is not so."""
    lattice = w.ctx.lattice
    end = i + 1
    while end < len(lattice.pieces) and lattice.pieces[end].form == "word" and end - i <= _FAR:
        end += 1
    over = end >= len(lattice.pieces) or lattice.pieces[end].form in {"mark", "nl"}
    strange = any(not lattice.known[x] and not lattice.edges[x] for x in range(i + 1, end))
    strange = strange or (lattice.at(end - 1) in _SURE and end == i + 2)
    told = any(s.phrase is not None and i < s.start < end and s.phrase.rule != "filler" for s in _from(w, i))
    return end if over and strange and not told else 0


def _from(w: Listener, i: int) -> list[Segment]:
    """The segments of the few pieces from piece i on."""
    first = bisect_left(w.segments, i, key=lambda s: s.start)
    return w.segments[first : first + _FAR + 2]


_ANY_FIELD = _COMMON.words("land") | _COMMON.words("field") | {"fields"}


def _of_the_counted(w: Listener, k: int) -> bool:
    """`8 of 10 at R3 with half inch pods`: what they have besides is of no plant by itself."""
    t, (nxt, _, mark) = w.ctx.tally, w.ahead(k)
    if t is None or t.what is None or w.ctx.explicit or t.span.start < w.clause_from or mark or nxt is None:
        return False
    return nxt.rule in {"flowers", "pods", "seeds", "podshare", "state", "length"} and not nxt.form.endswith("_no")


def _let_go(w: Listener, i: int) -> None:
    """A share whose doing is not understood is of nothing that follows up to the next mark, the next field or a hum."""
    ctx, pieces, hums = w.ctx, w.ctx.lattice.pieces, name_words().hums
    ends = (j for j in range(i, len(pieces)) if pieces[j].form in {"mark", "nl"} or pieces[j].text in hums)
    end = min([next(ends, len(pieces)), *(at for at in w.names if at > i)])
    start = next(
        (j for j in range(i, -1, -1) if ctx.tally is not None and pieces[j].span.start <= ctx.tally.span.start), i
    )
    ctx.mark(start, end, UNREAD, "a share of something that is not understood")
    ctx.tally = None
    w.resume_at = end


def phrase(w: Listener, ph: Phrase, k: int) -> None:
    ctx = w.ctx
    span = ctx.span(ph.start, ph.end)
    if w.barred and not unbars(w, ph):
        ctx.mark(ph.start, ph.end, UNREAD, w.barred)
        return
    if w.negative is not None and ph.start - w.negative[2] > 3:
        _, a, b = w.negative
        ctx.mark(a, b, UNREAD, NOTHING_TO_TURN)
        w.negative = None
    if ph.rule == "filler" and ph.end == ph.start + 1 and ctx.lattice.pieces[ph.start].text in w.key_signs:
        loose(w, ph.start, k)
        return
    if of_a_weed(w, ph) or (ph.rule in ORGANS and to_another(w, ph)):
        return
    find_owner(w, ph, span, k)
    if ph.rule in {"flowers", "pods", "seeds", "state", "trif", "nodes", "stage"}:
        counted_plants.of_them_all(w, ph)
    used = dispatch(w, ph, span, k)
    took = "evidence" if used is True else "filler" if used == "filler" else "unread"
    ctx.steps.append((span, wording(ph.form), meaning(ph), took, reasons(ph, w.rivals)))
    if took != "unread":
        ctx.repairs += repairs(ctx, ph)
    rival = tied(ph, w.rivals) if used is True else None
    if rival is not None:
        ctx.ask(
            Ask(
                "1.4",
                span,
                f"These words can be read in two ways: {wording(ph.form)}, or {wording(rival.form)}. Which is meant?",
                [(wording(ph.form), {}), (wording(rival.form), {})],
                always=True,
            )
        )
    if used is True:
        if ph.rule in {"trif", "nodes"} and w.negative is not None and w.negative[2] <= ph.start:
            ctx.mark(w.negative[1], w.negative[2], UNREAD, NOTHING_TO_TURN)
            w.negative = None  # eleven no twelve trifs and pods: the no is of no pods
        ctx.mark(ph.start, ph.end, EVIDENCE)
        if ph.rule in OWN | {"stage", "label"}:
            w.at_head = False
        if ph.rule not in {"correct"}:
            ctx.link = set()
    elif used == "filler":
        ctx.mark(ph.start, ph.end, FILLER)
    elif used is False:
        ctx.mark(ph.start, ph.end, UNREAD, why(w, ph))
    if ph.rule not in {"date", "stop", "where", "weekday", "goto"}:
        w.after_name = w.after_name and ph.rule in {"planted", "emerged", "rows", "maturity"}
    if ph.rule not in {"date", "filler"}:
        w.line_head = False


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


def why(w: Listener, ph: Phrase) -> str:
    if ph.rule == "date" and w.ctx.note_date is None and read_day(ph, headers.base(w.ctx), w.ctx.day_first) is None:
        return "a day whose year is not told: give the date of the note"
    return {
        "stage": "a stage that is not reached, or not of this field",
        "date": "the date of something else",
        "trif": "more than a soybean plant has",
        "nodes": "more than a soybean plant has",
        "length": NO_THING_SO_LONG,
        "place": NO_THING_THERE,
        "ratio": "a share of nothing named",
        "percent": "a share of nothing named",
    }.get(ph.rule, "out of place")


_FOR_DISPATCH = _LISTED.words("for_dispatch")


def dispatch(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    if ph.start in w.said_behind:
        return True
    nxt, _links, mark = w.ahead(k)
    if rule == "label":
        return read_label(w, ph, span, k)
    if rule in {"trif", "stage"} and on_all_of_them(w, ph, span):
        return True
    of_all_told_of(w, ph, k)
    if f == "per_plant":
        return a_plant_at(w, ph, span, k)
    if rule in {"past", "plan", "othercrop"}:
        return read_cue(w, ph, span, k)
    if rule == "notvisited":
        prior = w.segments[k - 1].phrase if k else None
        if prior is not None and prior.rule == "label":
            return skip_current(w, ph, k)  # p4 skip
        if of_the_hurt(w, ph):
            return skip_current(w, ph, k)  # p4 broke off, skipped
        if nxt is not None and nxt.rule == "label" and nxt.start - ph.end <= 1:
            w.barred = None
            ctx.close()
            return skip_label(w, nxt, span, k)
        bar(w, ph, "a field that was not looked at")
        return "barred"
    if rule in {"goto", "fieldcue"}:
        another_field(w, ph)
        return "filler"
    if rule in {"filler", "pageno"}:
        return "filler"
    if rule == "lost":
        return read_lost(w, ph, span)
    if rule == "skipit":
        return skip_current(w, ph, k)
    if rule == "correct":
        return read_correction(w, ph, span, k)
    if rule == "call":
        if not of_this_plant(w, ph, k):
            ctx.field_clause = ctx.clause
        return (
            True
            if (nxt is not None and nxt.rule in {"stage", "average", "trif"}) or w.in_clause(k, {"stage", "trif"}, -1)
            else "filler"
        )
    if (
        rule == "average"
        and nxt is not None
        and (nxt.rule in ORGANS | {"emergence"} or (nxt.rule == "stage" and nxt.form in {"r1", "the_r"} and not mark))
        and ctx.lattice.original(ph.start, ph.end).lower().startswith("most")
    ):
        ctx.leave_plants()
        return bool(tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "most", ph.path, 0.0), span))
    if rule == "average":
        ctx.field_clause = ctx.clause
        said = {"trif", "nodes", "stage", "length", "height", "bareint", "ratio", "numlist"}
        return w.in_clause(k, said) is not None or w.in_clause(k, said, -1) is not None
    if rule == "group":
        return read_group(w, ph, span, k)
    if rule == "stop":
        ctx.here()
        ctx.leave_plants()
        ctx.stop = str(ph.path[1][1].means)
        ctx.tally = None
        w.resume_at = side_of_the_stop(w, ph.end) or findings.beside_stop(ctx, w.segments, k, w.names)
        return True
    if (rule == "bareint" and ph.path[0][1].kind == "ORD") or f == "ord_day":
        if nth_pod(w, ph):
            return "barred"
        if ordinal_label(w, ph, span, k):
            return True
    if rule == "date":
        day = read_date(w, ph, span, k)
        if day is False and f == "ord_day" and whose_was_missed(w, ph):
            bar(w, ph, "whose this is was not understood")
            return "barred"
        return day
    if rule in {"planted", "emerged"} and days_in_order(w, ph):
        return True if ctx.use[ph.start] == EVIDENCE else "barred"
    if rule == "planted":
        return of_the_named(w, ph, lambda: headers.planted(ctx, ph, span, "planted"))
    if rule == "emerged":
        return of_the_named(w, ph, lambda: headers.planted(ctx, ph, span, "emerged"))
    if rule == "maturity":
        return of_the_named(w, ph, lambda: headers.maturity(ctx, ph, span))
    if rule == "rows":
        if (not w.at_head and ctx.plants and f == "rows" and edges_of(ph, "ROWSUFFIX", "ROWWORD")) or (
            ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text == "of"
        ):  # 15 rows of waterhemp
            return False
        return of_the_named(w, ph, lambda: headers.rows(ctx, ph, span))
    if rule == "variety":
        end = headers.variety(ctx, ph)
        if end > ph.end:
            ctx.mark(ph.start, end, EVIDENCE)
            w.resume_at = end
            return variety_again(w)
        return False
    if rule in {"same", "dittomark"}:
        return like_the_form_before(w, ph, span) or like_a_plant_there(w, ph, span) or revise.same(ctx, ph, span)
    if (
        rule in {"trif", "nodes"}
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
        and {p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]} & _FOR_DISPATCH
    ):
        return False  # cut off under the cots
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
        if f == "open_n" and _an_open_flower(w, k):
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
    before = w.segments[k - 1].phrase if k else None
    if f == "see_alone" and before is not None and before.rule == "stage":
        if ctx.explicit and {"feel", "felt"} & {p.text for p in ctx.lattice.pieces[ph.start : ph.end]}:
            return read_organ(
                w, Phrase(ph.start, ph.end, "seeds", "seed_small", ph.path, 0.0), span, k
            )  # R5 can feel em
        return "filler"  # R1 just barely
    if f == "share_brown" and one_each(w, ph, span, k):  # plants 1-3: 95, 90, 98 percent brown
        return True
    if f == "share_brown" and len(ctx.plants) > 1 and listed_before(ctx, ph.start):
        return False  # the last of several shares is not that of all the plants
    if f == "bean_yes" and not ctx.plants and ctx.tally is None and _the_crop_here(w, ph, k):
        return "filler"  # Oak Savanna beans: plant 1
    if rule in ORGANS:
        return read_organ(w, ph, span, k)
    if rule == "place":
        return read_place(w, ph, span, k)
    if rule == "length":
        return read_length(w, ph, span, k)
    if rule == "stage":
        return read_stage(w, ph, span, k)
    if f == "not_all":
        behind = next((j for j, s in enumerate(w.segments) if s.phrase is nxt), None) if nxt is not None else None
        if behind is not None and share_behind(w, behind) is not None:
            return "filler"  # not all blooming, about 8 of 10
        bar(w, ph, "not all of them: no number")
        return "barred"
    if rule in {"ratio", "percent"}:
        return read_share(w, ph, span, k)
    if rule == "sampled" and before is not None and before.rule == "label" and not edges_of(ph, "INT"):
        return "filler"  # the first plant I pulled
    if rule == "sampled" and nxt is not None and nxt.rule == "stage" and nxt.start == ph.end and not ctx.explicit:
        return tallies.of_so_many(ctx, numbers_of(ph)[0], span)  # 3 plts R3, 7 plts R2
    if rule == "sampled":
        ctx.leave_plants()
        return tallies.sampled(ctx, ph, span)
    if rule == "noneword":
        return read_none(w, ph, span, k)
    if rule == "bareint":
        return read_number(w, ph, span, k)
    if rule == "notnum":
        return read_not_number(w, ph, span)
    if rule == "where":
        return read_where(w, ph, span, k)
    if rule == "moisture":  # soil of which nothing is said
        ctx.mark(ph.start, ph.end, UNREAD if ph.form == "soil_state" else "weak", "nothing said of it")
        return "barred"
    return False


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
    if source is None or source in ctx.plants or not (w.ends_at(end) or pieces[end].text in _GOES_ON):
        return leaves.relative(ctx, ph, span)
    if not leaves.relative(ctx, ph, span.cover(ctx.span(ph.start, end)), source):
        return False
    ctx.mark(ph.start, end, EVIDENCE)
    counted_plants.cut(w, end)
    w.resume_at = end
    return True


def plant_next(w: Listener, k: int) -> bool:
    """A mark or a line's end, and then the label of a plant."""
    s = next((x for x in w.segments[k + 1 :] if x.phrase is not None or not w.ends_at(x.start)), None)
    return s is not None and s.start > w.segments[k].end and s.phrase is not None and s.phrase.rule == "label"


_OUR = _LISTED.words("our")


def _the_crop_here(w: Listener, ph: Phrase, k: int) -> bool:
    """`Oak Savanna beans: plant 1`, `corn is V12. beans: p1`, `oak hill beans july sixth`: the crop that is told of next."""
    nxt, _, mark = w.ahead(k)
    if w.after_name and (
        plant_next(w, k) or (nxt is not None and not mark and nxt.start == ph.end and nxt.rule in _HEADS)
    ):
        return True
    at = w.ctx.lattice.at
    first = ph.start - (at(ph.start - 1) in _OUR if ph.start else 0)
    if at(ph.end) not in {":", "-"} or not w.begins(first) or not plant_next(w, k):
        return False
    w.ctx.mark(first, ph.start, FILLER)
    return True


_HEADS = frozenset({"date", "label"})


def _an_open_flower(w: Listener, k: int) -> bool:
    """`10tf no fl. no wait there's one open 2nd node down`: a flower at that place, and no leaf."""
    ctx = w.ctx
    nxt, _, mark = w.ahead(k)
    spoken = bool(ctx.plants) and any(s.what == "flowers" for s in ctx.plants[-1].sightings)
    return spoken and not mark and nxt is not None and nxt.rule == "place" and nxt.form not in {"main_stem", "branch"}


def listed_before(ctx: Context, i: int) -> bool:
    """Another figure of the same list stands before piece i."""
    k = i - 1
    while k >= 0 and ctx.lattice.pieces[k].text in {",", "and", "&"}:
        k -= 1
    return 0 <= k < i - 1 and ctx.lattice.pieces[k].form == "int"


def counted(w: Listener, used: bool) -> bool:
    """Behind a count of leaves or nodes, places and lengths with no noun wait no longer; `used` is handed on."""
    w.ctx.name_nothing()  # plant 1 at the sixth node down, nine trifs
    return used
