"""Words that bar what follows: another time, a plan, another crop, a field that was not looked at."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import revise
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.stages import read_stage
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.listening import OWN, Listener
from notesparse.reading.parse import Phrase, Segment
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/bars")

_WAS = frozenset(_LISTED.phrases("was"))
_OF_OTHERS = "planned, expected or said by somebody else"


def bar(w: Listener, ph: Phrase, why: str) -> None:
    clear_waiting(w)
    w.barred = why
    w.barred_from = ph.start
    w.barred_limit = 0
    run = ph.end
    while run < len(w.ctx.lattice.pieces) and not w.hard_end(run):
        run += 1
    if run - ph.end > 30:  # no stops in this note: a cue reaches some words, not to the end
        w.barred_limit = ph.end + 6
    w.ctx.mark(ph.start, ph.end, UNREAD, why)


def bar_back(w: Listener, ph: Phrase, k: int, why: str) -> None:
    """A trailing `by friday`: what was said since the clause began is no observation either."""
    ctx = w.ctx
    start = _whose_it_is(w, ph, _since_what_was_seen(w, ph, w.clause_start(k)))
    words = [p.text for p in ctx.lattice.pieces[: ph.end] if p.span.start >= start and p.form == "word"]
    first = next((x for x in words[:2] if x in {"was", "were", "had"}), "")
    for s in list(ctx.statements):
        if s.span.start >= start and (s.kind.startswith("stated") or first in {"was", "were", "had"}):
            s.undo()
            ctx.statements.remove(s)
    plants = ctx.visit.plants if ctx.visit is not None else []
    for q in list(plants):
        if q.empty and not q.named and q.span.start >= start:
            plants.remove(q)  # they were 20% brown last tuesday: of no plant
            ctx.plants = [x for x in ctx.plants if x is not q]
    for i, p in enumerate(ctx.lattice.pieces):
        if start <= p.span.start < ctx.lattice.pieces[ph.end - 1].span.end and p.form != "nl" and i < ph.end:
            if ctx.use[i] != EVIDENCE or not evidence_of_plants(w, i):
                ctx.mark(i, i + 1, UNREAD, why)


_SOMEBODY = _LISTED.words("somebody")
_NEAR = 7  # pieces between who will do something and the day of it


def _whose_it_is(w: Listener, ph: Phrase, start: int) -> int:
    """`river flat is R8 they're cutting it tomorrow`: the sentence of the cue begins with who will do it."""
    pieces = w.ctx.lattice.pieces
    for i in range(ph.start - 1, max(0, ph.start - _NEAR), -1):
        if pieces[i].span.start <= start or pieces[i].form != "word":
            return start
        if pieces[i].text in _SOMEBODY:
            return pieces[i].span.start
    return start


_FAR = 16  # pieces: a note without stops, whose clause is not the sentence of the cue


def _since_what_was_seen(w: Listener, ph: Phrase, start: int) -> int:
    """In a note without stops the sentence of the cue begins behind what was last seen of a plant."""
    pieces = w.ctx.lattice.pieces
    if sum(start <= p.span.start for p in pieces[: ph.start]) <= _FAR:
        return start
    seen = [i for i in range(ph.start) if pieces[i].span.start >= start and evidence_of_plants(w, i)]
    if not seen:
        return start
    if ph.start - seen[-1] <= 2:  # R2 last week
        said = [s.span.start for s in w.ctx.statements if s.span.start >= start]
        return max(said, default=start)
    return pieces[seen[-1]].span.end


def evidence_of_plants(w: Listener, i: int) -> bool:
    at = w.ctx.lattice.pieces[i].span
    visit = w.ctx.visit
    if visit is None:
        return False
    spans = [e.span for p in visit.plants for es in p.facts.values() for e in es] + [
        x for p in visit.plants for s in p.sightings for x in s.spans
    ]
    spans += (
        [p.span for p in visit.plants]
        + [t.span for t in visit.tallies]
        + [f.span for f in visit.findings]
        + ([visit.name_span] if visit.name_span else [])
    )
    spans += [e.span for e in visit.head.values()]
    return any(s.start <= at.start < s.end for s in spans)


def unbars(w: Listener, ph: Phrase) -> bool:
    if (
        w.barred_limit
        and ph.start >= w.barred_limit
        and ph.rule not in {"stage", "where", "length", "place", "findhead"}
    ):
        w.barred = None
        return True
    if ph.rule == "label" and w.barred == "another time" and _had_then(w, ph):
        return False
    if ph.rule == "label" and w.barred == _OF_OTHERS and _thought_of(w, ph):
        return False
    if ph.rule == "label" and ph.form in {"plant_n", "bare", "plant_ord", "plant_range", "plant_letter"}:
        w.barred = None
        return True
    if (
        w.barred == "another time"
        and now_before(w, ph.start)
        and ph.rule in OWN | {"ratio", "stage", "percent", "sampled"}
    ):
        w.barred = None  # was R2 on monday, now 7 of 10 ...
        return True
    if w.barred == _OF_OTHERS and ph.rule in {"ratio", "percent", "group"} and _behind_but(w, ph.start):
        w.barred = None
        return True
    if w.barred == _OF_OTHERS and ph.rule in OWN | {"length", "place"} and _seen_behind_but(w, ph.start):
        w.barred = None
        return True
    if w.barred == _OF_OTHERS and ph.rule in {"stage", "call"} and _but_i(w, ph.start):
        w.barred = None
        return True
    if w.barred == _OF_OTHERS and ph.rule == "call" and _a_machine_needs(w, ph.start):
        w.barred = None
        return True
    if w.barred == _OF_OTHERS and ph.rule in {"stage", "correct"} and _i_said(w, ph):
        w.barred = None
        w.ctx.correcting = w.ctx.span(w.barred_from, ph.start)
        return True
    if (
        ph.rule == "seeds"
        and ph.form == "bean_yes"
        and w.barred == "another crop"
        and ("COMMA" in w.ctx.link or "BUT" in w.ctx.link)
    ):
        w.barred = None
        return True
    return False


_FOR_BUT_I = _LISTED.words("for_but_i")


def _but_i(w: Listener, i: int) -> bool:
    """`the landlord says R3 but I'd call it R2`: who writes has seen it."""
    words = [p.text for p in w.ctx.lattice.pieces[max(0, i - 6) : i]]
    return "but" in words and bool(_FOR_BUT_I & set(words[words.index("but") :]))


_MACHINES = _LISTED.words("machines")
_HAS_IT = _LISTED.words("has_it_called")


def _a_machine_needs(w: Listener, i: int) -> bool:
    """`the combine needs two belts | call the field R five`: in talk without stops, what a machine needs is no plan for the
    field."""
    at = w.ctx.lattice.at
    machine = at(w.barred_from - 1) in _MACHINES or at(w.barred_from - 2) in _MACHINES
    return machine and i - w.barred_from > 2 and at(i - 1) not in _HAS_IT


_NO_CHANGE = _LISTED.words("no_change")


def _i_said(w: Listener, ph: Phrase) -> bool:
    """`I said R4 and it's not, make that R5`, `I told you R4, it's really R3`: what I said myself is put right."""
    at, start = w.ctx.lattice.at, w.sentence_start(ph.start)
    words = [at(i) for i in range(start, ph.start)]
    if not {"said", "told"} & set(words) or at(w.barred_from) not in {"said", "i", "told"} or "i" not in words:
        return False
    before = [s.phrase for s in w.segments if s.phrase is not None and w.barred_from <= s.start < ph.start]
    staged = [p for p in before if p.rule == "stage"]
    if len(staged) != 1 or w.ctx.visit is None:
        return False
    between = range(staged[0].end, ph.start)  # put that down as R5 instead
    if ph.rule != "correct" and any(at(i) in _NO_CHANGE or i in w.names for i in between):
        return False
    said = read_stage(staged[0]) or {}
    stands = {(s.letter, s.value) for s in w.ctx.visit.stated}
    return bool(said) and all(one in stands for one in said.items())  # and not what I said of another field


def _behind_but(w: Listener, i: int) -> bool:
    """`dad says it's V4 but half of em have five`: who counts has seen it."""
    pieces = w.ctx.lattice.pieces
    while i and (w.ctx.lattice.filler[i - 1] or pieces[i - 1].text in {"about", "only", "maybe"}):
        i -= 1
        if pieces[i].text == "but":
            return True
    return i > 0 and pieces[i - 1].text == "but"


_NOT_SEEN = _LISTED.words("not_seen")


def _seen_behind_but(w: Listener, i: int) -> bool:
    """`thought it was R4, but the longest pod is 5/8`: what was expected, and behind the `but` what was seen."""
    words = [p.text for p in w.ctx.lattice.pieces[w.barred_from : i]]
    return "but" in words and not set(words[len(words) - words[::-1].index("but") :]) & _NOT_SEEN


_BEHIND_THOUGHT_OF = _COMMON.words("being_or_having")


def _thought_of(w: Listener, label: Phrase) -> bool:
    """`thought plant 2 had seed`: what was thought of the plant that stands right behind."""
    cue = max((e.end for e in w.ctx.lattice.edges[w.barred_from] if e.kind == "PLANCUE"), default=0)
    had = w.ctx.lattice.at(label.end) in _BEHIND_THOUGHT_OF
    return had and cue <= label.start <= cue + 1


def _had_then(w: Listener, label: Phrase) -> bool:
    """`last week p1 had 7 trifs.`: the sentence begins with its time, and the plant stands right behind."""
    pieces = w.ctx.lattice.pieces
    cue = max((e.end for e in w.ctx.lattice.edges[w.barred_from] if e.kind == "PASTCUE"), default=0)
    begins = w.barred_from == w.sentence_start(w.barred_from)
    had = label.end < len(pieces) and pieces[label.end].text in {"had", "was", "were"}
    return begins and had and cue <= label.start <= cue + 1


_BEFORE_NOW_BEFORE = _LISTED.words("before_now_before")


def now_before(w: Listener, i: int) -> bool:
    """`was R2 on Monday, now ...`, `today it's ...`: what follows was seen."""
    while i > 0 and w.ctx.lattice.pieces[i - 1].text in _BEFORE_NOW_BEFORE:
        i -= 1
    return i > 0 and w.ctx.lattice.pieces[i - 1].text in {"now", "today"}


def past_the_cue(w: Listener, s: Segment) -> bool:
    """In a note without stops a cue reaches some words, not to the end."""
    return (
        bool(w.barred_limit)
        and s.start >= w.barred_limit
        and s.phrase is not None
        and s.phrase.rule in {"ratio", "bareint", "percent", "noneword"}
    )


def _on_the_day(w: Listener, day: Phrase) -> bool:
    i = day.start - 1
    while i > 0 and w.ctx.lattice.pieces[i].text in {"the", "back"}:
        i -= 1
    return w.ctx.lattice.pieces[i].text == "on"


_TO = _LISTED.words("to")


def _leads_to_a_name(w: Listener, at: int) -> bool:
    """`next door at Milk House`, `across the lane to granary lot`: the way to a field that is named at once."""
    pieces = w.ctx.lattice.pieces
    while at < len(pieces) and at not in w.names and pieces[at].text in _TO:
        at += 1
    return at in w.names and pieces[at - 1].text in _TO


def _lies_there(w: Listener, ph: Phrase) -> bool:
    """`Pivot Five across the road, plants one and two`: where the field lies whose name stands right before."""
    if w.ctx.lattice.at(ph.end - 1) in _COMMON.words("mine"):
        return False  # the field by the tracks isn't ours, R4
    behind = ph.end < len(w.ctx.lattice.pieces) and w.ctx.lattice.pieces[ph.end].text in {",", ":", "-"}
    return behind and any(name.end == ph.start for name in w.names.values())


_FOR_THOSE_WERE = _LISTED.words("for_those_were")
_BEFORE_THOSE_WERE = _LISTED.words("before_those_were")


def _those_were(w: Listener, ph: Phrase) -> bool:
    """`those were`, `that was all`, right before the words for another field or crop."""
    at, i = w.ctx.lattice.at, ph.start - 1
    while at(i) in _FOR_THOSE_WERE:
        i -= 1
    return at(i) in {"was", "were"} and at(i - 1) in _BEFORE_THOSE_WERE and at(i - 2) != "of"


_IS = _COMMON.words("being") | _COMMON.words("looking")
_GROWN = _LISTED.words("grown")
_OUT = _LISTED.words("out")
_GOES_ON = _LISTED.words("goes_on")
_IN_IT = _LISTED.words("in_it")
_FAR_TO_IS = 7  # pieces between the crop and its verb
_FAR_TO_GROWN = 4


_BEFORE_TOLD_OF_THE_CROP = _LISTED.words("before_told_of_the_crop")


def _told_of_the_crop(w: Listener, ph: Phrase) -> int | None:
    """`cotton across the turn row is squaring eleven bollworms ...`: in talk without marks, where what is told of the other
    crop ends; None where it goes on, or where it is not sure."""
    at, pieces = w.ctx.lattice.at, w.ctx.lattice.pieces
    verb = next(
        (i for i in range(ph.end, min(ph.end + _FAR_TO_IS, len(pieces))) if at(i) in _IS or w.hard_end(i)), None
    )
    if verb is None or w.hard_end(verb):
        return None
    end = next((i + 1 for i in range(verb + 1, min(verb + 1 + _FAR_TO_GROWN, len(pieces))) if at(i) in _GROWN), None)
    while end is not None and at(end) in _OUT | _GROWN:
        end += 1
    if end is None or end >= len(pieces) or w.hard_end(end) or pieces[end].form == "mark" or at(end) in _GOES_ON:
        return None
    told = next((s.phrase for s in w.segments if s.start == end and s.phrase is not None), None)
    if told is not None and told.rule in OWN | {"stage", "length", "place"}:
        return None  # corn is head high R2
    later = range(end, min(end + _FAR, len(pieces)))
    return None if any(at(i) in _IN_IT and at(i - 1) in _BEFORE_TOLD_OF_THE_CROP for i in later) else end


_RETURNING = _LISTED.words("returning")


def _and_return(w: Listener, i: int) -> bool:
    """`I'd call it R1 and be back in a week`: what stands before the `and` was seen."""
    at, k = w.ctx.lattice.at, i - 1
    while k > 0 and at(k) in _RETURNING:
        k -= 1
    return k < i - 1 and at(k) == "and"


_IT = _LISTED.words("it")


def _found_behind(w: Listener, i: int) -> bool:
    """`too early for that water hemp is two inches`: in talk without marks, what was found stands at piece i with its verb."""
    heads = (e.end for e in w.ctx.lattice.edges[i] if e.kind in {"WEED", "INSECT", "DISEASE"} and e.how == "exact")
    end = max(heads, default=i) if i < len(w.ctx.lattice.pieces) else i
    return end > i and w.ctx.lattice.at(end) in _IS


_WONT = _LISTED.words("wont")
_REASONS = _LISTED.words("reasons")


def _not_counted(w: Listener, cue: Phrase) -> int | None:
    """`got clipped off so I won't count that one there's foxtail in the rows`: in talk without marks, where it ends that a
    plant is not counted, unless the reason is told behind it."""
    at = w.ctx.lattice.at
    if at(cue.end) not in {"count", "use"} or at(cue.end + 1) not in _IT:
        return None
    end = cue.end + 2 + (at(cue.end + 2) in {"one", "plant"})
    return None if w.ends_at(end) or at(end) in _REASONS else end


def read_cue(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    means = str(ph.path[0][1].means)
    text = ctx.lattice.original(ph.start, ph.end).lower()
    if ph.rule == "othercrop":
        kind = ph.path[0][1].kind
        if kind != "OTHERCROP" and (_leads_to_a_name(w, ph.end) or _lies_there(w, ph)):
            return "filler"
        why = "another crop" if kind == "OTHERCROP" else "not this field"
        if kind != "OTHERCROP" and _those_were(w, ph):
            revise.not_ours(ctx, span, why)  # those were the neighbor's rows
        over = _told_of_the_crop(w, ph) if kind == "OTHERCROP" else None
        if over is not None:
            clear_waiting(w)
            ctx.mark(ph.start, over, UNREAD, why)
            w.resume_at = over
            return "barred"
        bar(w, ph, why)
        return "barred"
    if ph.rule == "past":
        if text in _WAS:
            later = w.in_clause(k, {"past"}) or w.in_clause(k, {"date"})
            said = ctx.lattice.original(later.start, later.end).lower() if later is not None else ""
            if later is not None and (later.form == "today" or said in _WAS):
                later = None  # three stops were V7, the other one was V6
            if later is not None and any(ph.end <= i < later.start for i in w.names):
                later = None  # all of them were R5 and Crooked Mile I won't see till thursday
            nxt, _, _ = w.ahead(k, 3)
            what = {"stage", "date", "past", "flowers", "pods"}
            if later is not None and later.rule == "date" and _on_the_day(w, later) and ctx.living():
                what |= {"percent", "podshare", "ratio"}  # was 20% brown on the 15th
            if later is None or nxt is None or nxt.rule not in what:
                return "filler"
            bar(w, ph, "another time")
            return "barred"
        if text in {"since"}:
            bar(w, ph, "another time")
            return "barred"
        bar_back(w, ph, k, "another time")
        bar(w, ph, "another time")
        return "barred"
    if w.in_clause(k, {"correct"}) is not None and (w.ahead(k)[0] or ph).form == "n_not_n":
        return "filler"  # plant 1 should be 9 not 10
    if means == "back" and not _and_return(w, ph.start):
        bar_back(w, ph, k, "not yet seen")
    if text.endswith(" for") and ctx.lattice.at(ph.end) in _IT and _found_behind(w, ph.end + 1):
        clear_waiting(w)
        ctx.mark(ph.start, ph.end + 1, UNREAD, _OF_OTHERS)
        w.resume_at = ph.end + 1
        return "barred"
    over = _not_counted(w, ph) if text in _WONT else None
    if over is not None:
        clear_waiting(w)
        ctx.mark(ph.start, over, UNREAD, _OF_OTHERS)
        w.resume_at = over
        return "barred"
    bar(w, ph, _OF_OTHERS)
    return "barred"
