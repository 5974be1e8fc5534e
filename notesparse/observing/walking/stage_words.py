"""Stage codes: of a plant, of the field, or of no plant at all."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import headers, revise, stages, tallies
from notesparse.observing.draft import TallyDraft
from notesparse.observing.finding.findings import percent_value
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.claims import claimed, its_day
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.other_stops import stops_left
from notesparse.observing.walking.share_behind import counted_out, of_the_share, share_answered
from notesparse.observing.walking.stages_to_come import expected, field_to_come
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/stage_words")
_COMMON = cue_page("shared")
_STRIKING = _COMMON.words("strike")


def _struck_by_name(w: Listener, ph: Phrase) -> bool:
    """`R4, strike the R4`: what was said is taken back by its own name."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    at = ph.start - 1
    while at >= 0 and pieces[at].text in {"the", "that", "this"}:
        at -= 1
    if at < 0 or at == ph.start - 1 or pieces[at].text not in _STRIKING:
        return False
    value = stages.read_stage(ph) or {}
    for said in reversed(ctx.statements):
        key = said.kind.removeprefix("stated_")
        if said.kind.startswith("stated_") and key in value and said.plant is not None:
            told = said.plant.last(said.kind)
            if told is not None and told.value == value[key]:
                said.undo()
                ctx.statements.remove(said)
                ctx.corrected.append(Correction("4.17", said.span, "taken back"))
                ctx.mark(at, ph.end, EVIDENCE)
                return True
    return False


_SAY = _LISTED.words("say")


def _id_say(w: Listener, ph: Phrase, k: int) -> bool:
    """`Plant 4 ... Plant 5 a tan pod. I'd say R7.`: a sentence of its own behind the last plant, where no plant was called
    a stage: of the field."""
    ctx, at, i = w.ctx, w.ctx.lattice.at, ph.start
    while i and at(i - 1) in _SAY:
        i -= 1
    said = {at(x) for x in range(i, ph.start)}
    opens = i > 0 and (at(i - 1) in {".", ";"} or ctx.lattice.pieces[i - 1].form == "nl")
    if "say" not in said or not opens or not w.ends_at(ph.end) or len(ctx.living()) < _FEW:
        return False
    called = any(p.last("stated_r") or p.last("stated_v") for p in ctx.living())
    later = any(s.phrase is not None and s.phrase.rule == "label" for s in w.segments[k + 1 :])
    return not called and not later


def _found_since(w: Listener, share: Span, k: int) -> bool:
    """`18% on the border rows and five percent inside, frogeye on the upper leaves, field is R two`: a share of leaves."""
    for s in reversed(w.segments[:k]):
        if w.ctx.lattice.pieces[s.start].span.start < share.end:
            return False
        if s.phrase is not None and s.phrase.rule == "findhead":
            return True
    return False


_FEW = 2  # plants
_BEFORE_READ_STAGE = _COMMON.words("at") | {"for"}


def read_stage(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    if ctx.tally is not None and ctx.tally.what is None:
        if _found_since(w, ctx.tally.span, k):
            ctx.tally = None
        elif tallies.finish(ctx, ph, span):
            return True
    if w.negative is not None and ph.start - w.negative[2] <= 2 and w.lattice_joined(w.negative[2], ph.start):
        _, a, _b = w.negative  # nothing at V10 yet
        w.negative = None
        ctx.mark(a, ph.end, UNREAD, "a stage that is not reached, or not of this field")
        return "barred"
    nxt, links, mark = w.ahead(k)
    if expected(w, ph):
        ctx.mark(ph.start, ph.end, UNREAD, "a stage that is not reached, or not of this field")
        return "barred"
    if (at := claimed(w, ph)) is not None:
        end = its_day(w, ph, k)
        ctx.mark(at, end, UNREAD, "a stage that is not reached, or said by somebody else")
        w.resume_at = end
        return "barred"
    if _struck_by_name(w, ph):
        return True
    if _id_say(w, ph, k):
        ctx.leave_plants()
    if _share_behind(w, ph, span, k):
        return True
    if ctx.group == "none" and ctx.group_span is not None:  # nobody's at R3 yet
        start = ctx.lattice.first_from(ctx.group_span.start)
        ctx.mark(start, ph.end, UNREAD, "a stage that is not reached, or not of this field")
        ctx.group = None
        return "barred"
    if (until := field_to_come(w, ph)) is not None:
        ctx.mark(ph.start, until, UNREAD, "a field that was not looked at")
        w.resume_at = until
        return "barred"
    if (
        nxt is not None
        and nxt.form in {"r_not_yet", "v_not_yet", "name_not_yet"}
        and nxt.start - ph.end <= 1
        and nxt.path[0][1].kind == "NOT"
        and revise.not_that_stage(ctx, stages.read_stage(ph) or {}, stages.read_stage(nxt, denied=True) or {}, span)
    ):
        ctx.mark(nxt.start, nxt.end, EVIDENCE)  # R4 not R3
        w.resume_at = nxt.end
    if (
        ctx.finding is not None
        and ctx.finding.kind == "weed"
        and w.joined(ctx.finding.span.end, ph.start)
        and (nxt is None or mark)
    ):
        return False  # volunteer corn in here is V7
    if ph.form == "the_v":
        before = w.segments[k - 1].phrase if k else None
        others = ctx.visit is not None and any("stated_v" in q.facts for q in ctx.visit.plants)
        if not (before is not None and before.rule == "label" and others and (nxt is None or nxt.rule == "label")):
            return False
    many = len(ctx.living()) if ctx.plants and not ctx.explicit else None if ctx.plants else ctx.sample
    if w.number is not None and many is not None and many > 1:
        value, nspan, a, b = w.number
        t = TallyDraft(None, value, many, None, nspan)
        ctx.tally = t
        if isinstance(value, int) and value <= many and tallies.finish(ctx, ph, span):
            ctx.mark(a, b, EVIDENCE)
            w.number = None
            return True
        ctx.tally = None
    if (
        nxt is not None
        and nxt.form in {"group_rest", "other_n"}
        and not mark
        and (
            ctx.lattice.pieces[nxt.start - 1].text in _BEFORE_READ_STAGE
            or (nxt.start == ph.end and w.ends_at(nxt.end) and not ctx.plants)  # R2 on 7 of 10, R1 rest
        )
    ):
        if _stage_of_share(w, ph, nxt):  # V2 on 7 of 10, V3 on the rest
            return True
    if (
        nxt is not None
        and nxt.rule == "ratio"
        and not ctx.explicit
        and not mark
        and (
            (
                nxt.form in {"n_of_m", "n_slash_m", "all_but", "n_but"}
                and (
                    any(e.kind == "STOPS" for _, e in nxt.path)
                    or links & {"AT", "IN"}
                    or ctx.lattice.pieces[nxt.start - 1].text in {"on", "for"}
                )
            )
            or (nxt.form in {"half", "less_half", "most", "frac"} and w.ends_at(nxt.end))
            or (nxt.form == "n_of_m" and nxt.start == ph.end and w.ends_at(nxt.end))  # R5   14 of 20 plants
        )
    ):
        if _stage_of_share(w, ph, nxt):
            return True
    if nxt is not None and not mark and (stops := _all_stops(w, nxt)) is not None and _stage_of_share(w, ph, stops):
        return True
    left = stops_left(w, ph)
    if left is not None and _stage_of_share(w, ph, left):  # R4 at 3 of 4 stops, R3 at the other
        return True
    row = _of_the_row(w, ph)
    if row is not None and _take_the_row(w, ph, *row):  # V9 R2 on the first three plants, V8 R1 on the last two
        said = stages.state_stage(ctx, ph, span, of_field=False)
        ctx.leave_plants()
        return said
    one = nxt is not None and not ctx.explicit and len(stages.read_stage(ph) or {}) == 1
    counted = counted_out(w, ph, nxt, ph.end) if nxt is not None and one else None
    if counted is not None and of_the_share(w, ph, span, counted):
        ctx.tally = None
        return True
    answer = share_answered(w, nxt) if nxt is not None and nxt.start == ph.end + 1 and not ctx.explicit else None
    if answer is not None and ctx.field_clause != ctx.clause and w.in_clause(k, {"call"}, -1) is None:
        if _stage_of_share(w, ph, answer):
            return True
    if ctx.group is not None and ctx.visit is not None and ctx.visit.plants and ctx.field_clause != ctx.clause:
        return stages.state_stage(ctx, ph, span, of_field=False)
    if not ctx.explicit and stage_list(w, k):
        w.list_until = k + 1
        for s in w.segments[k + 1 :]:
            if (
                (w.hard_end(s.start) and w.ctx.lattice.pieces[s.start].text != ";")
                if s.phrase is None
                else s.phrase.form != ph.form
            ):
                break
            w.list_until += 1
    if k < w.list_until and not ctx.explicit:
        ctx.begin([ctx.next_label()], span, named=False)
        return stages.state_stage(ctx, ph, span, of_field=False)
    field_said = ctx.field_clause == ctx.clause or (
        w.in_clause(k, {"call"}) is not None
        and ((nxt is not None and nxt.rule == "call" and not _calls_another(w, nxt)) or not ctx.explicit)
    )
    field_said = field_said or _field_before(w, ph.start)
    field_said = field_said or ctx.lattice.at(ph.end) in {"field", "fld"}  # so that's an R five field
    field_said = field_said or _second_thought(w, ph)
    field_said = field_said or (nxt is not None and nxt.start == ph.end and is_whole_field(w, nxt))
    field_said = field_said or _of_the_named(w, ph)
    if not field_said and not ctx.plants and _heads_a_form(w, ph, k):
        ctx.begin([ctx.next_label()], span, named=False)
    of_field = field_said or not ctx.plants
    if not of_field and not ctx.explicit:
        p = ctx.plants[-1]
        of_field = (
            not ctx.form
            and p.line != ctx.line
            and not (ph.start and ctx.lattice.pieces[ph.start - 1].text in {"?", "="})
            and not _on_a_form(w, ph)
        )
    if not of_field and ctx.explicit and ctx.plants[-1].span.start < w.clause_from and chatter(w, k, 2):
        return False
    if of_field and not ph.form.endswith("_query") and chatter(w, k):
        return False
    where, w.where_ahead = w.where_ahead, None
    if (
        of_field
        and ph.start
        and any(e.kind == "SOMEW" for e in ctx.lattice.edges[ph.start - 1])
        and ctx.lattice.pieces[ph.start - 1].text not in {"a", "good", "first"}
    ):
        return False  # at V3, some V4
    if of_field and where is None:
        where = where_they_are(w, ph)
    return stages.state_stage(ctx, ph, span, of_field=of_field, where=where if of_field else None)


_SHORT = _LISTED.words("short")


def _field_before(w: Listener, i: int) -> bool:
    """`field V8`, `field about V8`, `fld. est. R3`: the field stands right before the stage, or a hedge between."""
    at = w.ctx.lattice.at
    while i:
        hedges = [
            x
            for x in range(max(0, i - _LONG_HEDGE), i)
            for e in w.ctx.lattice.edges[x]
            if e.kind == "HEDGE" and e.end == i
        ]
        if hedges:
            i = min(hedges)
        elif at(i - 1) in {"abt", "aprox"}:
            i -= 1
        elif at(i - 1) == "." and i > 1 and at(i - 2) in _SHORT:
            i -= 1
        else:
            break
    return i > 0 and at(i - 1) in {"field", "fld"}


_LONG_HEDGE = 4  # words


def _stage_of_share(w: Listener, ph: Phrase, share: Phrase) -> bool:
    """The stage is that of a share told behind it, or of the rest."""
    ctx = w.ctx
    said = ctx.span(share.start, share.end)
    of_rest = share.form in {"group_rest", "other_n"}
    t = tallies.rest(ctx, said) if of_rest else tallies.start(ctx, share, said)
    if t is None or not tallies.finish(ctx, ph, ctx.span(ph.start, ph.end)):
        return False
    w.resume_at = share.end
    ctx.mark(ph.start, share.end, EVIDENCE)
    ctx.tally = None
    return True


def _all_stops(w: Listener, group: Phrase) -> Phrase | None:
    """`R1 at all 3 stops`: a share of stops."""
    at = group.end
    stops = group.form == "group_n" and at < len(w.ctx.lattice.pieces) and bool(w.ctx.lattice.edges[at])
    if not stops or not any(e.kind == "STOPS" for e in w.ctx.lattice.edges[at]):
        return None
    return Phrase(group.start, at + 1, "ratio", "n_all", group.path, 0.0)


def _of_the_row(w: Listener, ph: Phrase) -> tuple[str, int, int] | None:
    """Behind a stage: `on the first three plants`, `on the last one`; which end, how many, and where the words end."""
    pieces, i = w.ctx.lattice.pieces, ph.end
    if i + 2 >= len(pieces) or pieces[i].text != "on":
        return None
    i += 1 + (pieces[i + 1].text == "the")
    which = pieces[i].text if i < len(pieces) else ""
    numbers = [e for e in w.ctx.lattice.edges[i + 1] if e.kind == "INT"] if i + 1 < len(pieces) else []
    if which not in {"first", "last"} or not numbers:
        return None
    number = max(numbers, key=lambda e: e.end)
    end = number.end + (number.end < len(pieces) and pieces[number.end].text in {"plants", "plant", "plts"})
    return (which, int(number.means), end) if w.ends_at(end) and 0 < number.means <= 20 else None


def _take_the_row(w: Listener, ph: Phrase, which: str, many: int, end: int) -> bool:
    """Makes those plants the ones that are spoken of: of the plants that are told, or new ones behind them."""
    ctx = w.ctx
    if ctx.explicit and ctx.plants and ctx.plants[-1].span.start >= w.clause_from:
        return False
    key = "stated_v" if ph.path[0][1].kind == "V" else "stated_r"
    live = ctx.living()
    told = [p for p in live if key in p.facts]
    if live and len(told) < len(live):
        if many > len(live):
            return False
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = live[:many] if which == "first" else live[-many:], True, None
    elif which == "first" and live:
        return False
    else:
        first = len(live) + 1
        ctx.begin([str(first + n) for n in range(many)], ctx.span(ph.end, end))
    ctx.mark(ph.end, end, EVIDENCE)
    w.resume_at = end
    return True


def of_this_plant(w: Listener, call: Phrase, k: int) -> bool:
    """`Plant 1 has 13 trifoliates and I'm calling it R4. Plant 2 ...`: in the sentence of one plant, before others;
    `pulled one: pod half an inch, calling that one R3`: in the sentence of the only one."""
    ctx = w.ctx
    pieces = ctx.lattice.pieces
    one = "one" in {p.text for p in pieces[call.start : call.end]} and len(ctx.plants) == 1 and not ctx.plants[0].empty
    if one and ctx.plants[0].span.start >= pieces[w.sentence_start(call.start)].span.start:
        return True
    if not ctx.explicit or len(ctx.plants) != 1 or "it" not in {p.text for p in pieces[call.start : call.end + 1]}:
        return False
    i = w.sentence_start(call.start)
    labels = [s for s in w.segments[k + 1 : k + 40] if s.phrase is not None and s.phrase.rule == "label"]
    return ctx.plants[0].span.start >= pieces[i].span.start and bool(labels) and _joined_by_and(w, call, i)


def _joined_by_and(w: Listener, call: Phrase, start: int) -> bool:
    return any(p.text in {"and", ","} for p in w.ctx.lattice.pieces[max(start, call.start - 3) : call.start])


_BEHIND_CALLS_ANOTHER = _COMMON.words("being") | {":", "=", "at"}


def _calls_another(w: Listener, call: Phrase) -> bool:
    """`R five so the field's R five`, `R five whole field is R five`: the field is called the stage behind it, and this
    one is the plant's."""
    end = call.end
    while w.ctx.lattice.at(end) in _BEHIND_CALLS_ANOTHER:
        end += 1
    return w.ctx.explicit and any(
        s.start == end and s.phrase is not None and s.phrase.rule == "stage" for s in w.segments
    )


_SECOND = _LISTED.words("second")


def _second_thought(w: Listener, ph: Phrase) -> bool:
    """`Overall R3. Well, R2.`: of the field again, where nothing else stands between the two and behind."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    last = ctx.visit.stated[-1] if ctx.visit is not None and ctx.visit.stated else None
    if last is None or not w.ends_at(ph.end):
        return False
    between = [p.text for p in pieces[: ph.start] if p.span.start >= last.span.end]
    return "." in between and len(between) > 1 and all(x in _SECOND for x in between)


_JOINS = frozenset({":", "-", "=", "–"})


def _share_behind(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """`R1: 50%, R2: 30%`, `R1-50% R2-30%`: the share stands behind its stage, each time."""
    ctx = w.ctx
    run = _pairs(w, k)
    if ctx.explicit or not run or (w.resume_at != ph.start and _percent_before(w, ph)):
        return False
    share = run[0]
    value = percent_value(share)
    if isinstance(value, list):
        return False
    t = TallyDraft(None, None, None, float(value), ctx.span(share.start, share.end))
    ctx.tally = t
    if not tallies.finish(ctx, ph, span):
        ctx.tally = None
        return False
    ctx.tally = None
    ctx.mark(ph.start, share.end, EVIDENCE)
    w.resume_at = share.end
    return True


def _pairs(w: Listener, k: int) -> list[Phrase]:
    """The shares of a run of stage and share, stage and share, that ends with a share; nothing where it is none."""
    pieces = w.ctx.lattice.pieces
    shares: list[Phrase] = []
    segments = [s.phrase for s in w.segments[k : k + 16] if s.phrase is not None]
    i = 0
    while i + 1 < len(segments) and segments[i].rule == "stage" and segments[i + 1].rule == "percent":
        stage, share = segments[i], segments[i + 1]
        if not all(p.text in _JOINS for p in pieces[stage.end : share.start]):
            break
        shares.append(share)
        i += 2
    if not shares:
        return []
    end = shares[-1].end
    closed = end >= len(pieces) or pieces[end].form in {"mark", "nl"} or pieces[end].text in {"and", "of"}
    begun = w.resume_at == segments[0].start  # the pair before was of this run
    whole = begun or (len(shares) > 1 and sum(v for p in shares if not isinstance(v := percent_value(p), list)) == 100)
    another = i < len(segments) and segments[i].start == end and segments[i].rule == "stage"
    return shares if closed or (whole and not another) else []  # V2 80%  V1 20%   replanted 5/28


def _percent_before(w: Listener, ph: Phrase) -> bool:
    """`50% R1 30% R2`: the shares stand before."""
    pieces = w.ctx.lattice.pieces
    return ph.start > 0 and (
        pieces[ph.start - 1].text == "%" or any(e.kind == "PCT" for e in w.ctx.lattice.edges[ph.start - 1])
    )


_FOR = _COMMON.words("at") | {"for"}
_TO_THE_MARK = 5  # pieces of what a line of a form asks
_STAGE = _COMMON.words("stage")
_WHICH_STAGE = _LISTED.words("which_stage")


def _on_a_form(w: Listener, ph: Phrase) -> bool:
    """`trifs: 12`, and lines below it `stage: R2`: a form about one plant, and the stage is that plant's."""
    at, pieces = w.ctx.lattice.at, w.ctx.lattice.pieces
    head = ph.start
    while head and ph.start - head <= _TO_THE_MARK and pieces[head - 1].form != "nl":
        head -= 1
    stage = head + (at(head) in _WHICH_STAGE)
    mark = at(stage + 1)
    if at(stage) not in _STAGE or mark not in {":", "-"} or not head or pieces[head - 1].form != "nl":
        return False
    i = head - 1
    while i and pieces[i - 1].form != "nl":
        i -= 1
    return any(at(x) == mark for x in range(i + 1, min(i + _TO_THE_MARK, head)))


_SEEN = frozenset({"POD", "FLOWER", "SEED", "BEAN", "TRIF", "NODES"})
_OF_MANY = frozenset({"label", "ratio", "percent", "numlist", "sampled", "lots", "average", "bareint", "group"})


def _heads_a_form(w: Listener, ph: Phrase, k: int) -> bool:
    """`stage: R4`, and lines below it `pods: 22 mm 3rd node down`: the same form with the stage first, and the plant's too."""
    at, pieces, edges = w.ctx.lattice.at, w.ctx.lattice.pieces, w.ctx.lattice.edges
    i, head = ph.end, ph.start if at(ph.start) in _STAGE else ph.start - 2
    if head < 1 or at(head) not in _STAGE or at(head + 1) != ":" or i + 3 > len(pieces) or at(i + 2) != ":":
        return False
    if pieces[i].form != "nl" or pieces[head - 1].form != "nl":
        return False
    if not any(e.kind in _SEEN and e.end == i + 2 for e in edges[i + 1]):
        return False
    end = next((x for x in range(i, len(pieces)) if x in w.names), len(pieces))
    if any(pieces[x].form == "int" and pieces[x + 1 + (at(x + 1) == ",")].form == "int" for x in range(i, end - 2)):
        return False  # trifs: 9, 10, 10
    for s in w.segments[k + 1 :]:
        if s.start in w.names or (s.phrase is not None and s.phrase.rule == "stage"):
            break
        if s.phrase is not None and s.phrase.rule in _OF_MANY:
            return False
    return True


def _of_the_named(w: Listener, ph: Phrase) -> bool:
    """`plant three no pods. so R3 for church bottom`: behind the stage the field is named that the note is in."""
    ctx = w.ctx
    i = ph.end + (ctx.lattice.at(ph.end) in _FOR)
    i += ctx.lattice.at(i) == "the"
    name = w.names.get(i)
    return i > ph.end and name is not None and headers.same_name(ctx.here().name, name.text)


def is_whole_field(w: Listener, ph: Phrase) -> bool:
    """`across the whole field`, `everywhere`, and no `everywhere else`: a place that is no part of the field."""
    pieces = w.ctx.lattice.pieces
    return (
        ph.rule == "where"
        and ph.path[-1][1].means == "whole field"
        and not (ph.end < len(pieces) and pieces[ph.end].text == "else")
    )


_BEFORE_WHERE_THEY_ARE = _COMMON.words("except") | {"in", "on"}


def where_they_are(w: Listener, ph: Phrase) -> str | None:
    """`except the sand hill where they're V4`: the part of the field that the stage is of."""
    pieces = w.ctx.lattice.pieces
    at = next((x for x in range(ph.start - 1, max(-1, ph.start - 5), -1) if pieces[x].text == "where"), None)
    if at is None:
        return None
    i = at
    while i and pieces[i - 1].form == "word" and pieces[i - 1].text not in _BEFORE_WHERE_THEY_ARE:
        i -= 1
    if i == at or at - i > 5:
        return None
    w.ctx.mark(i, at + 1, EVIDENCE)
    return w.ctx.lattice.original(i, at)


def chatter(w: Listener, k: int, limit: int = 3) -> bool:
    """A code amid words that are not understood (the V8 in this truck has a tick) is no statement."""
    unknown = 0
    for step in (-1, 1):
        j = k + step
        while 0 <= j < len(w.segments):
            s = w.segments[j]
            if s.phrase is not None:
                if s.phrase.rule in {"call", "date", "label"} or s.start in w.names:
                    return False
                j += step
                continue
            p = w.ctx.lattice.pieces[s.start]
            if w.hard_end(s.start) or p.text in ",":
                break
            if s.start in w.names or any(n.start <= s.start < n.end for n in w.names.values()):
                return False
            if p.form == "word" and not w.ctx.lattice.known[s.start]:
                unknown += 1
            j += step
    return unknown >= limit


_MARKS = frozenset({",", "-", ":", ";", "|"})
_A_LIST = 3  # stages


def stage_list(w: Listener, k: int) -> bool:
    """Three stages or more in a row with nothing between: one plant each, in order; two, where each of several stops has
    as many or more (`stop one V6 V6. stop two V5 V6`)."""
    ph = w.segments[k].phrase
    if ph is None or ph.form not in {"r1", "v1", "v_r"} or w.list_until >= k:
        return False
    run = _in_a_row(w, k, ph.form)
    if run >= _A_LIST:
        return True
    if run < _A_LIST - 1 or not _behind_a_stop(w, k):
        return False
    stops = (j for j, s in enumerate(w.segments) if s.phrase is not None and s.phrase.rule == "stop")
    first = [_past_marks(w, j + 1) for j in stops]
    return len(first) > 1 and all(_in_a_row(w, j, ph.form) >= _A_LIST - 1 for j in first)


def _in_a_row(w: Listener, k: int, form: str) -> int:
    """How many stages of this form stand in a row from segment k on."""
    run = 0
    for s in w.segments[k:]:
        if s.phrase is not None:
            if s.phrase.form != form:
                break
            run += 1
        elif w.ctx.lattice.pieces[s.start].text not in _MARKS:
            break
    return run


def _past_marks(w: Listener, k: int) -> int:
    while k < len(w.segments) and w.segments[k].phrase is None and w.ctx.lattice.at(w.segments[k].start) in _MARKS:
        k += 1
    return k


def _behind_a_stop(w: Listener, k: int) -> bool:
    while k and w.segments[k - 1].phrase is None and w.ctx.lattice.at(w.segments[k - 1].start) in _MARKS:
        k -= 1
    before = w.segments[k - 1].phrase if k else None
    return before is not None and before.rule == "stop"


def counted_stages(w: Listener, k: int) -> list[int]:
    """The counts of a list of counted stages from segment k on: `5 R3, 4 R2, 1 R4`."""
    out: list[int] = []
    waiting: int | None = None
    for s in w.segments[k:]:
        if s.phrase is None:
            if w.hard_end(s.start):
                break
            continue
        if s.phrase.rule == "bareint" and s.phrase.path[0][1].kind == "INT":
            waiting = int(s.phrase.path[0][1].means)
        elif s.phrase.rule == "stage" and waiting is not None:
            out.append(waiting)
            waiting = None
        else:
            break
    return out
