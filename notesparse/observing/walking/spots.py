"""Places in the field: a stop, or where a stage holds."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing import organs
from notesparse.observing.draft import Place
from notesparse.observing.finding import findings
from notesparse.observing.fold import EVIDENCE, EXCEPT, UNREAD, numbers_of
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.stage_words import is_whole_field
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/spots")
_COMMON = cue_page("shared")

_SMALL = _LISTED.words("small")
_LONGEST_STOP = 4  # words for a place in the field
_EXCEPT = EXCEPT | {"besides"}


def bare_place(w: Listener, ph: Phrase) -> bool:
    """A place that nothing else is said of: `N end` in the head of a visit, and no `combination on the gate is`."""
    pieces = w.ctx.lattice.pieces
    j = ph.end
    while j < len(pieces) and ((pieces[j].form == "mark" and pieces[j].text in ",:-)") or pieces[j].text == "first"):
        j += 1
    after = (
        j >= len(pieces)
        or pieces[j].form == "nl"
        or j > ph.end
        or w.hard_end(j)
        or (w.ctx.lattice.known[j] and not w.ctx.lattice.filler[j])
    )
    i = ph.start - 1
    while i >= 0 and (w.ctx.lattice.filler[i] or pieces[i].form == "mark"):
        i -= 1
    return after and (i < 0 or w.ctx.use[i] != UNREAD or w.ctx.lattice.known[i])


def new_stop(w: Listener, i: int, k: int) -> bool:
    """`mid: 1) 7tf`: a word before a colon, and the labels begin anew: a stop."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    end = _stop_on_a_line(w, i)
    if end is not None:
        start = i + 1 + (pieces[i + 1].form == "mark")
        ctx.here()
        ctx.leave_plants()
        ctx.stop, ctx.tally = ctx.lattice.written(start, end), None
        ctx.mark(i, end, EVIDENCE)
        w.resume_at, w.line_head = end, False
        return True
    part = pieces[i].text in name_words().terrain and ctx.lattice.at(i + 1) == ":"
    if ctx.stop is not None and part and i and pieces[i - 1].form == "nl":
        ctx.leave_plants()  # Hilltop: ..., and under it Draw: ...
        ctx.stop = ctx.lattice.original(i, i + 1)
        ctx.mark(i, i + 2, EVIDENCE)
        w.resume_at = i + 2
        return True
    if ctx.stop is not None and i and w.hard_end(i - 1) and i + 2 < len(pieces) and w.hard_end(i + 1):
        nxt = next((s.phrase for s in w.segments[k + 1 :] if s.start == i + 2), None)
        if nxt is None or nxt.rule != "label":
            return False
        ctx.leave_plants()  # north end. plant one ... middle. plant three ...
        ctx.stop = ctx.lattice.original(i, i + 1)
        ctx.mark(i, i + 1, EVIDENCE)
        return True
    if (
        not w.line_head
        or (i and pieces[i - 1].form != "nl")
        or i + 2 >= len(pieces)
        or pieces[i + 1].text != ":"
        or ctx.visit is None
    ):
        return False
    nxt = next((s.phrase for s in w.segments[k + 1 :] if s.start == i + 2), None)
    if nxt is None or nxt.rule != "label" or not ctx.visit.plants:
        return False
    first = ctx.visit.plants[0].label
    if first not in {str(n) for n in numbers_of(nxt)} | set(
        map(str, nxt.path[0][1].means if nxt.form == "bare" else ())
    ):
        return False
    ctx.leave_plants()
    ctx.stop = ctx.lattice.original(i, i + 1)
    ctx.mark(i, i + 2, EVIDENCE)
    w.line_head = False
    return True


def side_of_the_stop(w: Listener, end: int) -> int:
    """Where `middle`, `(west)`, `- creek end` ends that stands alone behind `Stop 2`, whose number ends at piece `end`; 0
    where it does not."""
    lattice = w.ctx.lattice
    i = end + (lattice.at(end) in _BESIDE)
    side = i < len(lattice.pieces) and any(e.kind == "COMPASS" and e.end == i + 1 for e in lattice.edges[i])
    last = i + 1 if side else _end_of_the_field(w, i)
    if not last or not w.ends_at(last + (lattice.at(last) == ")")):
        return 0
    w.ctx.mark(end, last, EVIDENCE)
    return last


def _end_of_the_field(w: Listener, i: int) -> int:
    """Where `creek end`, `the pond side` ends that begins at piece i; 0 where no such place does."""
    pieces = w.ctx.lattice.pieces
    i += w.ctx.lattice.at(i) == "the"
    words = all(p.form == "word" for p in pieces[i : i + 2])
    return i + 2 if words and w.ctx.lattice.at(i + 1) in _SIDES and i not in w.names else 0


_BESIDE = frozenset({",", "-", "(", ":"})
_SIDES = _LISTED.words("sides")


def _stop_on_a_line(w: Listener, i: int) -> int | None:
    """`Stop: Knob`, a line of its own at piece i: where the words for the place end."""
    pieces = w.ctx.lattice.pieces
    if (i and pieces[i - 1].form != "nl") or not any(e.kind == "STOP" for e in w.ctx.lattice.edges[i]) or w.barred:
        return None
    start = i + 1
    marked = start < len(pieces) and pieces[start].text in {":", "-", "=", "–"}
    start += marked
    if start in w.names:
        return None  # Site: Quonset 20, the field
    end = start
    while end < len(pieces) and pieces[end].form in {"word", "int"} and end - start < _LONGEST_STOP:
        end += 1
    over = end >= len(pieces) or pieces[end].form == "nl"
    return end if marked and over and end > start else None


def _lags(w: Listener, at: int, end: int) -> bool:
    """`North end is behind, R2`: how it differs stands between the part of the field and its stage."""
    words = [p.text for p in w.ctx.lattice.pieces[at:end]]
    lists = name_words()
    return len(words) > 1 and words[0] in lists.lag_verbs and set(words[1:]) <= lists.lagging


def _heads_the_note(w: Listener, ph: Phrase) -> bool:
    """`north end: plant 1 10 trifs`: the head of the first line, where no field was named."""
    return w.ctx.visit is None and ph.start == 0 and w.ctx.lattice.at(ph.end) == ":"


def _under_such_a_head(w: Listener, ph: Phrase) -> bool:
    """Only stages of parts of the field were told of the visit, and this line has such a head too."""
    visit, pieces = w.ctx.visit, w.ctx.lattice.pieces
    if visit is None or visit.plants or not visit.stated or any(x.where is None for x in visit.stated):
        return False
    return pieces[ph.start - 1].form == "nl" and w.ctx.lattice.at(ph.end) == ":"


def _just_a_stage(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """`north end: R3` and no more on the line."""
    if nxt is None or nxt.rule != "stage" or nxt.start != ph.end + 1:
        return False
    return w.hard_end_or_over(nxt.end)


_BEHIND_READ_WHERE = _COMMON.words("being")


def read_where(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    pieces = ctx.lattice.pieces
    dotted = ctx.lattice.at(ph.start - 1) == "." and ctx.lattice.soft[ph.start - 1] is not None  # bl. top
    close = ctx.open and ctx.open_end == ph.start - dotted
    if pieces[ph.start].text == "top" and ph.end == ph.start + 1 and close:
        follows = w.ahead(k)[0]
        over = w.ends_at(ph.end) or (follows is not None and follows.rule == "label" and follows.start == ph.end)
        if over and ctx.open[0].present:
            organs.attach_place(ctx, Place("up_top", (), span), ctx.open)  # 9t  fl top
            return True
    beside = w.ahead(k)[0]
    if beside is not None and beside.rule == "othercrop" and beside.start == ph.end:
        return False  # the wheat stubble next door is full of volunteer
    parted = (
        (ph.start == 0 or w.hard_end(ph.start - 1) or pieces[ph.start - 1].form == "nl")
        and ph.end < len(pieces)
        and w.hard_end(ph.end)
        and any(
            s.start == ph.end + 1 and s.phrase is not None and s.phrase.rule == "label"
            for s in w.segments[k + 1 : k + 4]
        )
    )
    nxt, _, mark = w.ahead(k)
    heading = (ph.start == 0 or pieces[ph.start - 1].form == "nl") and nxt is not None and nxt.rule == "label"
    parted = parted or (heading and nxt is not None and nxt.start == ph.end and bool(ctx.stop))
    parted = parted or _labels_begin_anew(w, nxt)
    if (_heads_the_note(w, ph) or _under_such_a_head(w, ph)) and _just_a_stage(w, ph, nxt):
        w.where_ahead = findings.words(ctx, ph.start, ph.end)  # north end: R3, and under it south end: R2
        return True
    visit = ctx.here() if parted or _heads_the_note(w, ph) else ctx.visit
    behind = (  # V8 in the north half: the place of what was just stated
        visit is not None
        and bool(visit.stated)
        and visit.stated[-1].where is None
        and w.joined(visit.stated[-1].span.end, ph.start)
        and not (
            ph.end < len(pieces) and pieces[ph.end].text in _BEHIND_READ_WHERE
        )  # R2. the headlands are a stage behind
    )
    alone = parted or (
        parted
        or (
            (ph.start == 0 or pieces[ph.start - 1].form == "nl")
            and (ph.end >= len(pieces) or pieces[ph.end].form == "nl" or pieces[ph.end].text == ":")
        )
    )
    nxt, _, mark = w.ahead(k)
    before_another = nxt is not None and nxt.rule == "stage" and not mark and visit is not None and bool(visit.stated)
    if visit is not None and (
        alone
        or (
            not before_another
            and not visit.plants
            and not visit.findings
            and not visit.tallies
            and not behind
            and bare_place(w, ph)
        )
    ):
        if alone:
            ctx.leave_plants()
        ctx.stop = findings.words(ctx, ph.start, ph.end)
        return True
    nxt, _, mark = w.ahead(k)
    if behind and _excepted(w, ph):
        if nxt is None or nxt.rule != "stage" or any(w.hard_end(i) for i in range(ph.end, nxt.start)):
            return False
        w.where_ahead = findings.words(ctx, ph.start, ph.end)  # V8 everywhere but the low ground, V6 there
        return True
    if behind and is_whole_field(w, ph):
        return True  # V8 across the whole field: no part of it
    lags = nxt is not None and _lags(w, ph.end, nxt.start)
    if nxt is not None and nxt.rule == "stage" and (not mark or lags) and not ctx.plants and not behind:
        if is_whole_field(w, ph):
            return True
        w.where_ahead = findings.words(ctx, ph.start, ph.end)  # north side is R4, south side still R3
        return True
    if (
        visit is not None
        and visit.stated
        and not ctx.plants
        and not is_whole_field(w, ph)
        and visit.stated[-1].where is None
        and visit.stated[-1].span.end <= span.start < visit.stated[-1].span.end + 30
        and not any(f.span.start >= visit.stated[-1].span.end for f in visit.findings)  # R4, frogeye; north end none
        and not _strange_between(w, visit.stated[-1].span.end, ph.start)
        and not (ph.end < len(pieces) and pieces[ph.end].text in name_words().lag_verbs | _HAS)
        and (w.ends_at(ph.end) or not _sentence_between(w, visit.stated[-1].span.end, ph.start))
        and not _heads_a_stage(w, ph)
    ):
        visit.stated[-1].where = findings.words(ctx, ph.start, ph.end)
        return True
    return False


_HAS = _COMMON.words("having")


def _heads_a_stage(w: Listener, ph: Phrase) -> bool:
    """`R3.`, and on the next line `Knoll. R2`, or `R3, some frogeye. Behind the school: R2`: the place is the head of what
    stands behind it."""
    before, behind = w.ctx.lattice.at(ph.start - 1), w.ctx.lattice.at(ph.end)
    if behind not in {".", ":"} or not (before == "\n" or (before in {".", ";"} and behind == ":")):
        return False
    return any(s.start == ph.end + 1 and s.phrase is not None and s.phrase.rule == "stage" for s in w.segments)


def _sentence_between(w: Listener, since: int, until: int) -> bool:
    """`R3. East of the road at Cutler Place R4`: the place begins what is said next."""
    first = w.ctx.lattice.first_from(since)
    return any(w.hard_end(i) for i in range(first, until))


def _excepted(w: Listener, ph: Phrase) -> bool:
    """`except the sand hill`, `but in the low ground`: where the stage before does not hold."""
    pieces = w.ctx.lattice.pieces
    i = ph.start - 1
    while i >= 0 and pieces[i].text in _SMALL:
        i -= 1
    return i >= 0 and pieces[i].text in _EXCEPT


def _labels_begin_anew(w: Listener, nxt: Phrase | None) -> bool:
    """`plant two ten trifs now down in the low spot plant one ...`: the first label of the stop before, once more."""
    ctx = w.ctx
    if nxt is None or nxt.form != "plant_n" or ctx.visit is None:
        return False
    here = [p for p in ctx.visit.plants if p.stop == ctx.stop and not p.dropped]
    return len(here) > 1 and here[0].label == str(numbers_of(nxt)[0]) and here[0].named


def _strange_between(w: Listener, after: int, at: int) -> bool:
    """`R5, red crown type stuff in the low spot`, `R1. Sprayer tracks on west side`: the place is of something else, that is
    not understood or told in a sentence of its own."""
    lattice = w.ctx.lattice
    i = at - 1
    told = False
    while i >= 0 and lattice.pieces[i].span.start >= after:
        if w.hard_end(i):
            return told
        told = told or not (lattice.filler[i] or lattice.pieces[i].text in _LEADS)
        if lattice.pieces[i].form == "word" and not lattice.known[i] and not lattice.filler[i]:
            return True
        i -= 1
    return False


_LEADS = _LISTED.words("leads")
