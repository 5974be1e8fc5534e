"""Shares: six of ten, 60 percent, half of them (guide 4.16)."""

from __future__ import annotations

from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, tallies
from notesparse.observing.finding import findings
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking import counted, exceptions, groups, numbering
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.clause_ends import close_tally, end_clause
from notesparse.observing.walking.lengths import read_length
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.observing.walking.share_behind import share_behind
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.text.lattice import Edge

_LISTED = cue_page("walking/shares")
_COMMON = cue_page("shared")

_FEWEST_PLANTS = 2
_WHICH = frozenset(_LISTED.rows("which"))
_NOT = _LISTED.words("not")


def doing(words: str) -> bool:
    """`blooming`, `podded`: said of plants."""
    last = words.lower().split()[-1]
    return last.endswith(("ing", "in", "ed"))


def sized(w: Listener, nxt: Phrase | None, mark: bool, k: int) -> bool:
    """`half the plants have 1/2 inch pods`: a size before the thing."""
    return nxt is not None and nxt.rule == "length" and not mark and w.in_clause(k, {"pods", "seeds"}) is not None


def _has_so_many(nxt: Phrase | None, links: set[str]) -> bool:
    """`half the plants have five trifs`."""
    return nxt is not None and nxt.form in tallies.LEAVES_COUNTED and bool(links & {"HAS", "AT", "WITH"})


def _the_second(w: Listener, span: Span) -> bool:
    """`Pulled two. One has ... The other ...`: the second of them, where the first was told like a plant."""
    ctx, visit = w.ctx, w.ctx.visit
    if visit is None or ctx.sample != 2 or visit.tallies or [p.label for p in visit.plants] != ["1"]:
        return False
    ctx.begin(["2"], span)
    return True


def _seen_elsewhere(w: Listener, ph: Phrase) -> bool:
    """`5 plants 8 trifs, drive-in forty 5 plants 9 trifs`: plants were counted and told of, and before this number stand
    words that nobody understood."""
    ctx = w.ctx
    told = ctx.visit is not None and bool(ctx.visit.plants or ctx.visit.tallies)
    if ctx.sample is None or not told or ctx.explicit or numbers_of(ph)[0] < _FEWEST_PLANTS:
        return False
    i = ph.start
    while i and ctx.lattice.pieces[i - 1].form == "word" and ctx.use[i - 1] != EVIDENCE:
        i -= 1
    heads = i == 0 or ctx.lattice.pieces[i - 1].form in {"nl", "mark"}
    return heads and any(not ctx.lattice.filler[x] for x in range(i, ph.start))


def _looked_at(w: Listener, ph: Phrase, k: int) -> int | None:
    """Where the words begin that say that so many plants were looked at; None where they close `10 plants pulled | six of
    those`."""
    before = w.segments[k - 1].phrase if k else None
    if before is not None and before.rule == "sampled":
        return None
    edges = w.ctx.lattice.edges
    cues = (
        i for i in range(max(0, ph.start - 5), ph.start) for e in edges[i] if e.kind == "SAMPLED" and e.end == ph.start
    )
    return next(cues, None)


def _lie_lower(nxt: Phrase | None, ph: Phrase) -> bool:
    """The words right behind say where on the plant they are: organs, and no plants."""
    return nxt is not None and nxt.rule == "place" and nxt.form == "lower" and nxt.start == ph.end


def _an_inch(ph: Phrase, nxt: Phrase) -> bool:
    """A part of an inch, before a seed or a pod."""
    part, of = numbers_of(ph)[:2]
    return nxt.form in {"seed_yes", "bean_yes", "pod_yes"} and of in {2, 4, 8, 16, 32} and 0 < part < of


def _of_its_pods(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`First plant had 60 pods on it and 45 of 60 were tan`: so many of the pods that were counted on the plant."""
    n = numbers_of(ph)
    brown = w.in_clause(k, {"state"})
    whole = organs.all_counted(w.ctx, ph) if len(n) == 2 and len(w.ctx.plants) == 1 else None
    if whole != n[-1] or n[0] > n[-1] or brown is None or brown.form not in {"brown", "n_brown"}:
        return False
    leaves.put(
        w.ctx, "mature_pods_percent", round(100.0 * n[0] / n[1], 1), span.cover(w.ctx.span(brown.start, brown.end))
    )
    w.ctx.mark(ph.start, brown.end, EVIDENCE)
    w.resume_at = brown.end
    return True


_ONE_PLANT = _COMMON.words("plant") | _COMMON.words("number") | {"p"}


def _of_the_plant_behind(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`40 of 44 brown plant 1`, `40 of 44 brown on p1`: so many of the pods of the plant that is named behind."""
    ctx, at = w.ctx, w.ctx.lattice.at
    brown = w.segments[k + 1].phrase if k + 1 < len(w.segments) else None
    if brown is None or brown.form not in {"brown", "pods_brown"} or (ctx.explicit and ctx.plants):
        return False
    on = brown.end + (at(brown.end) in {"on", "for"})
    number = number_at(w, on + 1) if at(on) in _ONE_PLANT else None
    n = numbers_of(ph)
    if number is None or not n[0] <= n[-1] or not n[-1] or not (w.ends_at(number.end) or at(number.end) == ","):
        return False
    ctx.close()
    known = ctx.visit.plant(str(number.means)) if ctx.visit is not None else None
    if known is None:
        ctx.begin([str(number.means)], ctx.span(on, number.end))
    else:
        ctx.plants, ctx.explicit, ctx.group = [known], True, None
    leaves.put(ctx, "mature_pods_percent", round(100.0 * n[0] / n[-1], 1), span.cover(ctx.span(brown.start, brown.end)))
    ctx.leave_plants()
    ctx.mark(ph.start, number.end, EVIDENCE)
    w.resume_at = number.end
    return True


def a_plant_at(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`a plant R1 by the road`: one plant of that stage, as in `one plant R1`."""
    ctx = w.ctx
    if ctx.lattice.at(ph.start) != "a" or ctx.explicit or ctx.tally is not None or not w.begins(ph.start):
        return False
    nxt, _links, mark = w.ahead(k)
    return nxt is not None and nxt.rule == "stage" and not mark and tallies.of_so_many(ctx, 1, span)


def read_share(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    if (
        ph.form == "n_slash_m"
        and w.after_name
        and ctx.page_date is None
        and numbers_of(ph)[0] <= 12
        and 31 < numbers_of(ph)[-1] < 40
    ):
        return False  # Dutch Oven 7/32: a date that is none
    nxt, links, mark = w.ahead(k)
    if nxt is not None and nxt.rule == "name" and not mark:  # most of the plants at Dutch Oven are R3
        named = next(j for j in range(k + 1, len(w.segments)) if w.segments[j].phrase is nxt)
        nxt, links, mark = w.ahead(named)
    if ph.form == "n_plants" and _seen_elsewhere(w, ph):
        bar(w, ph, "so many plants: where they stand was not understood")
        return "barred"
    if ph.form == "other_one" and _the_second(w, span):
        return True
    if ph.form == "n_slash_m" and ctx.explicit and nxt is not None and nxt.start == ph.end and _an_inch(ph, nxt):
        part = Fraction(*numbers_of(ph)[:2])  # r5 not touching top 4, 1/4 seed
        edge = Edge(ph.end, "FRAC", part, 0.0, "exact")
        return read_length(w, Phrase(ph.start, ph.end, "length", "len_bare", ((ph.start, edge),), 0.0), span, k)
    if (
        ctx.last_what == "seeds"
        and ctx.open
        and {"pod", "cavity"} & {p.text for p in ctx.lattice.pieces[ph.end : ph.end + 3]}
    ):
        return False  # seed fills 3/4 of the pod
    if ph.rule == "percent":
        value = findings.percent_value(ph)
        if ctx.plants and w.brown_context() and (nxt is None or nxt.rule not in ORGANS | {"stage"}):
            leaves.put(ctx, "mature_pods_percent", float(value if not isinstance(value, list) else value[0]), span)
            return True
        if nxt is None or (
            nxt.rule not in ORGANS | {"stage", "emergence"}
            and not _has_so_many(nxt, links)
            and not (nxt.rule == "call" and w.in_clause(k, ORGANS | {"stage"}))
        ):
            return False
    if (
        ph.form == "n_of_m"
        and ctx.last_what == "pods"
        and ctx.open
        and nxt is not None
        and nxt.form in {"brown", "n_brown"}
        and len(numbers_of(ph)) == 2
        and (ctx.explicit or numbers_of(ph)[1] > 12)
    ):
        n = numbers_of(ph)  # pods on the main stem: 22 of 30 brown
        leaves.put(ctx, "mature_pods_percent", round(100.0 * n[0] / n[1], 1), span)
        ctx.mark(nxt.start, nxt.end, EVIDENCE)
        w.resume_at = nxt.end
        return True
    if ph.form == "n_of_m" and _of_the_plant_behind(w, ph, span, k):
        return True
    if ph.form == "n_of_m" and _of_its_pods(w, ph, span, k):
        return True
    if ph.form in _PARTED and ctx.explicit and len(ctx.plants) == 1 and nxt is not None and nxt.form == "brown":
        n = numbers_of(ph)  # 1: 38 of 40 brown
        own = ctx.plants[0].empty if ph.form == "n_of_m" else False
        if nxt.start == ph.end and (own or _of_the_line(w, ph)) and n[0] <= n[1]:
            leaves.put(ctx, "mature_pods_percent", round(100.0 * n[0] / n[1], 1), span)
            ctx.mark(nxt.start, nxt.end, EVIDENCE)
            w.resume_at = nxt.end
            return True
    if ph.form == "n_of_them" and ctx.explicit and ctx.last_what == "pods" and _lie_lower(nxt, ph):
        return True  # no pods in the top four, couple of them down low
    if ph.form == "n_of_them" and (at := _looked_at(w, ph, k)) is not None:
        ctx.leave_plants()
        ctx.mark(at, ph.start, EVIDENCE)
        return tallies.sampled(ctx, ph, span)  # looked at ten of em and eight had
    if ph.form == "n_of_them" and ctx.explicit and ctx.plants and all(p.empty for p in ctx.plants):
        return _so_many_of_them(w, ph, span)
    if ph.form == "n_of_them" and ctx.plants and nxt is not None and nxt.form in {"brown", "n_brown"} and not mark:
        whole = organs.all_counted(ctx, ph)
        if whole is not None and numbers_of(ph)[0] <= whole:  # 40 pods, 12 of them brown
            leaves.put(ctx, "mature_pods_percent", round(100.0 * numbers_of(ph)[0] / whole, 1), span)
            ctx.mark(nxt.start, nxt.end, EVIDENCE)
            w.resume_at = nxt.end
            return True
    if (
        ph.form in {"n_of_m"}
        and ctx.explicit
        and ctx.plants
        and ctx.last_what in {"mature", None}
        and w.brown_context()
        and (nxt is None or nxt.rule not in {"stage", "flowers"})
        and not _had_one(w, ph, nxt)
    ):
        n = numbers_of(ph)
        leaves.put(ctx, "mature_pods_percent", round(100.0 * n[0] / n[1], 1), span)
        return True
    if ph.form == "half" and ctx.plants and ctx.explicit and w.brown_context() and (nxt is None or mark):
        leaves.put(ctx, "mature_pods_percent", 50.0, span)  # pods brown: plant 1 half
        return True
    if (
        ph.form == "half"
        and not (nxt is not None and nxt.rule == "call" and w.in_clause(k, ORGANS | {"stage"}))
        and (nxt is None or nxt.rule not in ORGANS | {"stage", "emergence", "findhead"})
        and not _has_so_many(nxt, links)
        and not sized(w, nxt, mark, k)
    ):
        return "filler"
    if ph.form in {"n_of_m", "n_slash_m"} and nxt is not None and nxt.form == "pod_yes" and nxt.start == ph.end:
        if ctx.lattice.pieces[nxt.start].text in {"pod", "pods"}:
            return False  # 2 of 3 pods: no share of the plants
    if (
        ph.form == "n_plants"
        and nxt is not None
        and nxt.rule == "stage"
        and not mark
        and not ctx.explicit
        and (
            not any(
                s.start == nxt.end and s.phrase is not None and s.phrase.rule == "bareint"
                for s in w.segments[k : k + 6]
            )
        )
    ):
        return tallies.of_so_many(ctx, numbers_of(ph)[0], span)  # 3 plants R5, 2 plants R4, the rest R3
    if (
        ph.form == "n_plants"
        and nxt is not None
        and nxt.form in {"fl_yes", "pod_yes", "seed_yes"}
        and not mark
        and ("HAS" in links or doing(ctx.lattice.original(nxt.start, nxt.end)))
        and not ctx.explicit
        and ctx.sample is None
        and numbers_of(ph)[0] > 1
    ):
        return tallies.of_so_many(ctx, numbers_of(ph)[0], span)  # two plants had flowers and the other eight didn't
    if ph.form == "other_n" and (nxt is None or mark):
        behind = ph.end
        while behind < len(ctx.lattice.pieces) and ctx.lattice.pieces[behind].text in _NOT:
            behind += 1
        if behind > ph.end and tallies.the_others_not(ctx, numbers_of(ph)):
            ctx.mark(ph.start, behind, EVIDENCE)
            w.resume_at = behind
            return True
    if ph.form == "most" and nxt is not None and nxt.rule in {"trif", "nodes"} and not ctx.explicit:
        ctx.field_clause = ctx.clause  # most 8 trifs
        return True
    if (
        ph.form in {"lots", "less_half", "most"}
        and (nxt is None or nxt.rule not in ORGANS | {"stage", "emergence"})
        and not (nxt is not None and nxt.rule == "call" and w.in_clause(k, ORGANS))
    ):
        return "filler"
    if ph.form == "most" and ctx.explicit and ctx.plants and nxt is not None and nxt.rule == "pods" and not mark:
        if nxt.form in {"pod_len", "pod_frac", "pod_inch"} or w.in_clause(k, {"length"}) is not None:
            return "filler"  # plant 1 most of the pods run a quarter inch
    if ph.form == "most" and nxt is not None and nxt.start == ph.end and nxt.form in {"pod_yes", "seed_yes"}:
        if ctx.lattice.pieces[nxt.start].text.endswith("s") and not mark:
            bar(w, ph, "most of the pods, or of the plants: which is not said")
            return "barred"  # most pods half full
    if ph.form == "lots" and ((ctx.explicit and ctx.plants) or (ctx.tally is not None and ctx.tally.what is None)):
        return "filler"
    if ph.form == "lots" and _counted_behind(w, nxt, k):
        return "filler"  # a few plants in bloom, 2 of 30
    if ph.form == "other_n" and _partly_brown(w, ph, span, k):
        return True
    if ph.form == "other_n" and ctx.visit is not None and not ctx.visit.tallies:
        if counted.the_others(w, nxt, numbers_of(ph)):
            return True
        if _the_other_has(w, ph, span):
            return True
        spoken_of = exceptions.said_last(w)
        missing = _not_told_of(w, numbers_of(ph)[0])
        if missing:
            there = [p for p in counted.counted(w) if p.label in missing]
            if there:
                ctx.close()
                ctx.plants, ctx.explicit, ctx.group = there, True, None
            else:
                ctx.begin(missing, span)
            if nxt is not None and nxt.rule == "place" and nxt.start <= ph.end + 2 and spoken_of in ORGANS:
                ctx.open = organs.look(ctx, spoken_of, True, span)  # the other two at the top node
            return True
        if ctx.explicit and nxt is not None and nxt.rule != "place":
            return False
        end_clause(w, k)
        bar(w, ph, "the others of a share that is not understood")
        return "barred"
    if (
        ph.form in {"n_of_m", "n_slash_m"}
        and (nxt is None or ((mark or _gap_behind(w, ph.end)) and nxt.rule not in ORGANS | {"stage"}))
        and (tallies.of_the_most(ctx, ph, span, w.clause_from) or tallies.of_the_stage(ctx, ph, span, w.clause_from))
    ):
        return True
    if ph.form == "all_but" and len(numbers_of(ph)) == 1 and ctx.living():
        but = groups.left_out(w, next(i for i, e in ph.path if e.kind == "BUT"), ctx.living())
        if but is not None:
            groups.all_but(w, ph.start, *but)  # all but the first one are flowering
            return True
        at = next(i for i, e in ph.path if e.kind in {"INT", "INTSOUND"})
        left = numbers_of(ph)[0]
        told = left >= len(ctx.living()) or (ctx.lattice.at(ph.end), ctx.lattice.at(ph.end + 1)) in _WHICH
        if ctx.lattice.pieces[at].form != "int" and not (told and str(left) in {p.label for p in ctx.living()}):
            bar(w, ph, "all but some: which ones is not said")
            return "barred"
        one = [p for p in ctx.living() if p.label == str(left)]
        if told and one and ctx.open and w.ends_at(ph.end) and ctx.open[0].present is not None:
            groups.all_but(w, ph.start, one, ph.end)
            ctx.plants, ctx.explicit = one, ctx.lattice.at(ph.end) == ","  # , which is done flowering
            return True
        return groups.excepted(w, [str(left)], at, ph.end, span) is not None
    if ph.form == "n_all" and w.begins(ph.start) and numbering.labels_follow(w, k, numbers_of(ph)[0]):
        ctx.begin([str(n) for n in range(1, numbers_of(ph)[0] + 1)], span)
        return True
    leaves_of_all = ph.form == "n_all" and nxt is not None and nxt.form == "trif_n" and nxt.start == ph.end
    leaves_of_all = leaves_of_all and not any(s.phrase is not None and s.phrase.rule == "label" for s in w.segments[k:])
    if ph.form in {"all_plants", "n_all"} and not (ctx.explicit or leaves_of_all) and groups.counted_of_all(w, k):
        return True
    close_tally(w)
    if (
        ph.form
        in {
            "n_of_m",
            "n_slash_m",
            "n_in_m",
            "n_of_them",
            "half",
            "half_of_n",
            "less_half",
            "most",
            "lots",
            "other_n",
            "pct",
            "pct_of_n",
            "pct_range",
            "all_plants",
            "none_without",
            "all_but",
            "n_but",
            "frac",
            "frac_doing",
            "frac_of_n",
            "n_all",
        }
        and not ctx.explicit
    ):
        ctx.leave_plants()
    if (
        ph.form == "n_plants"
        and ctx.explicit
        and numbers_of(ph)[0] > 1
        and w.begins(ph.start)
        and (mark or nxt is None)
    ):
        ctx.leave_plants()  # p1 R3. 10 plants, 7 flowering
    t = tallies.start(ctx, ph, span)
    if t is None and ph.form in {"all_but", "n_but"} and nxt is not None and not mark and nxt.rule in ORGANS:
        bar(w, ph, "all but some: of how many is not said")
        return "barred"
    if t is None:
        return True if ph.form == "n_plants" else False
    return True


_PARTED = frozenset({"n_of_m", "n_slash_m"})


def _of_the_line(w: Listener, ph: Phrase) -> bool:
    """`p5   R7, 10 of 40 brown`: in the sentence that begins a line with the plant, its pods are counted, and no plants."""
    pieces, at = w.ctx.lattice.pieces, w.ctx.lattice.at
    label = w.ctx.lattice.first_from(w.ctx.plants[0].span.start)
    heads = (label == 0 or pieces[label - 1].form == "nl") and not any(e.kind == "PLANT" for _, e in ph.path)
    return heads and not any(
        pieces[i].form == "nl" or (at(i) in {".", ";"} and w.hard_end(i)) for i in range(label, ph.start)
    )


def _partly_brown(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`12 of 20 had 95 percent of the pods brown, the other 8 had 60`: the others have a smaller share of brown pods."""
    ctx, (nxt, links, mark) = w.ctx, w.ahead(k)
    last = ctx.visit.tallies[-1] if ctx.visit is not None and ctx.visit.tallies else None
    if last is None or last.what != "R8" or nxt is None or nxt.rule != "percent" or mark or not links & {"HAS", "AT"}:
        return False
    high = max((float(e.means) for _, e in nxt.path if e.kind in {"INT", "DEC"}), default=0.0)
    if not 0 < high < _MATURE or not w.ends_at(nxt.end) or tallies.start(ctx, ph, span) is None or ctx.tally is None:
        return False
    t, ctx.tally = ctx.tally, None
    t.what, t.exclusive, t.span = "R7", True, span.cover(ctx.span(nxt.start, nxt.end))
    last.exclusive = True
    ctx.here().tallies.append(t)
    ctx.mark(ph.start, nxt.end, EVIDENCE)
    w.resume_at = nxt.end
    return True


_MATURE = 95.0  # percent of the pods, from which on a plant is at R8


_WIDE = 3  # blanks


def _gap_behind(w: Listener, end: int) -> bool:
    """`R7  8 of 10          leaves mostly down`: something else stands behind a gap."""
    return end < len(w.ctx.lattice.pieces) and w.ctx.lattice.pieces[end].gap >= _WIDE


def _counted_behind(w: Listener, organ: Phrase | None, k: int) -> bool:
    """What some of them have is counted behind it: `some plants podded (3 of 20)`."""
    at = next((j for j in range(k + 1, len(w.segments)) if w.segments[j].phrase is organ), None)
    return organ is not None and at is not None and organ.rule in ORGANS and share_behind(w, at) is not None


def _so_many_of_them(w: Listener, ph: Phrase, span: Span) -> bool:
    """`Plant four ten of them trifoliates`, `plant four has ten of them`: leaves of this plant, and no share of plants."""
    ctx = w.ctx
    kinds = {e.kind for e in ctx.lattice.edges[ph.end]} if ph.end < len(ctx.lattice.pieces) else set()
    key = "trifoliates" if "TRIF" in kinds else "nodes" if kinds & {"NODES", "NODE"} else w.series_key()
    if key not in {"trifoliates", "nodes"} or leaves.count(ctx, key, numbers_of(ph)[0], span) is None:
        return False
    if kinds & {"TRIF", "NODES", "NODE"}:
        ctx.mark(ph.start, ph.end + 1, EVIDENCE)
        w.resume_at = ph.end + 1
    return True


_FOR_HAD_ONE = _COMMON.words("having_or_with")


def _had_one(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """`two of the ten I shook had a tan pod`: plants have a pod, and pods do not."""
    if nxt is None or nxt.form not in {"n_brown", "pods_brown"}:
        return False
    between = {p.text for p in w.ctx.lattice.pieces[ph.end : nxt.start + 1]}
    return bool(between & _FOR_HAD_ONE) and bool(between & {"a", "one"})


def _not_told_of(w: Listener, n: int) -> list[str]:
    """`pulled 4 ... 1 and 3 both 6 trifs, the other two have 7`: the labels of so many plants that were not told of;
    `1 and 2 have blooms ..., the other two`: the next ones, where nobody said how many there are."""
    ctx = w.ctx
    if ctx.visit is None or ctx.visit.tallies:
        return []
    told = {p.label for p in ctx.visit.plants if not p.dropped and not (p.counted and p.empty)}
    if ctx.sample is None and n < _SEVERAL and len(told) > 1 and told == {str(k) for k in range(1, len(told) + 1)}:
        return [str(len(told) + k) for k in range(1, n + 1)] if {p.label for p in ctx.plants} == told else []
    if ctx.sample is None or ctx.sample_visit != len(ctx.visits):
        return []
    missing = [str(k) for k in range(1, ctx.sample + 1) if str(k) not in told]
    return missing if len(missing) == n and len(told) + n == ctx.sample else []


_SEVERAL = 6


def _the_other_has(w: Listener, ph: Phrase, span: Span) -> bool:
    """`Pulled 2 plants, first has 5 trifs and the other 6`: how many leaves it has."""
    ctx = w.ctx
    what, n = exceptions.said_last(w), numbers_of(ph)[0]
    one = [p.label for p in ctx.living()] == ["1"] and ctx.sample == 2
    if not one or n == 1 or what not in {"trifoliates", "nodes"} or not w.ends_at(ph.end):
        return False
    ctx.begin(["2"], span)
    leaves.count(ctx, what, n, span)
    return True
