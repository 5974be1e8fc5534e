"""Dates: of the page, of a visit, of a planting, or of something else (guide 4.19, 4.22)."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.observing import headers, tallies
from notesparse.observing.dates import long_after, read_day
from notesparse.observing.fold import FILLER, UNREAD, numbers_of
from notesparse.observing.walking.bars import bar, bar_back, read_cue
from notesparse.observing.walking.heads_of_each import day_of_each, of_another_sowing
from notesparse.observing.walking.lengths import read_length
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.observing.walking.one_or_other import looks_like_a_day
from notesparse.observing.walking.places import read_place
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.text.lattice import Edge

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/day")

_NODES = 9  # an ordinal above it is sooner a day
_SOWN = _LISTED.words("sown")


def planted_before(w: Listener, ph: Phrase) -> int | None:
    """What was planted or sprayed stands between the word for it, at this piece, and its day: no day of a visit."""
    pieces = w.ctx.lattice.pieces
    for i in range(ph.start - 1, max(-1, ph.start - 8), -1):
        if pieces[i].form not in {"word", "int", "dec"}:
            return None
        if pieces[i].text in _SOWN:
            return i if i < ph.start - 1 else None
    return None


def _day_of_another(w: Listener, ph: Phrase) -> bool:
    """`Coon Run 8/8 ...`, and on the next line `Gooseneck 8/8 pods 1 in`: the day that another visit has."""
    day = read_day(ph, headers.base(w.ctx), w.ctx.day_first) if w.after_name else None
    return day is not None and any("date" in v.head and v.head["date"].value == day.iso for v in w.ctx.visits)


_SUBJECT = _LISTED.words("subject")
_COUNTED_OFF = _LISTED.words("counted_off")

_AGAIN = _LISTED.words("again")
_WAS_SEEN = _LISTED.words("was_seen")
_NEXT_LOOK = 10  # pieces of the sentence behind, in which the word for the new look stands


_FOR_LOOKED_AGAIN = _COMMON.words("this_time")


def _looked_again(w: Listener, ph: Phrase) -> bool:
    """`On the 14th half of these were blooming. Pulled three again`: a day at the head of a sentence of what was, and the
    next sentence is of a new look."""
    pieces = w.ctx.lattice.pieces
    end = next((i for i in range(ph.end, len(pieces)) if w.hard_end(i)), len(pieces))
    if not any(p.text in _WAS_SEEN for p in pieces[ph.end : end]):
        return False
    behind = next((i for i in range(end + 1, len(pieces)) if w.hard_end(i)), len(pieces))
    words = [p.text for p in pieces[end + 1 : min(behind, end + _NEXT_LOOK)]]
    this_time = any(a == "this" and b in _FOR_LOOKED_AGAIN for a, b in pairwise(words))
    return bool(_AGAIN & set(words)) or this_time


def _was_so_on(w: Listener, ph: Phrase) -> bool:
    """`on 9/15 it was 20% brown`, behind plants of the visit or before a new look: the day that what was so is of."""
    pieces = w.ctx.lattice.pieces
    start = ph.start
    while start and pieces[start - 1].text in {"the", "back", "out"}:
        start -= 1
    if not start or pieces[start - 1].text != "on" or not w.begins(start - 1):
        return False
    if _looked_again(w, ph):
        return True
    if not w.ctx.living():
        return False
    i = ph.end
    while i < len(pieces) and pieces[i].text in _SUBJECT:
        i += 1
    return i > ph.end and i < len(pieces) and pieces[i].text in {"was", "were", "had"}


_CALLED = _LISTED.words("called")
_SEEN_SINCE = frozenset({"label", "ratio", "percent", "stage", "trif"})


_FOR_CALLED_ON = _LISTED.words("for_called_on")


def _called_on(w: Listener, ph: Phrase, k: int) -> bool:
    """`I wrote R2 down on the 8th. p1 pods half an inch`: what was called so on that day, before what is seen now."""
    at = w.ctx.lattice.at
    i = ph.start - 1
    while at(i) in _FOR_CALLED_ON:
        i -= 1
    said = next((s.phrase for s in reversed(w.segments[:k]) if s.phrase is not None), None)
    if "on" not in {at(x) for x in range(i + 1, ph.start)} or said is None or said.rule != "stage" or said.end != i + 1:
        return False
    verb = any(at(x) in _CALLED for x in range(w.sentence_start(said.start), said.start))
    behind = any(s.phrase is not None and s.phrase.rule in _SEEN_SINCE for s in w.segments[k + 1 :])
    day = read_day(ph, headers.base(w.ctx), w.ctx.day_first) if verb and behind else None
    return day is not None and day.iso != w.ctx.note_date


_EVENT_BEFORE = _LISTED.words("event_before")


def _of_an_event(w: Listener, ph: Phrase) -> bool:
    """`the hail of June 18`, `since that frost on 5/18`: the day of what came over the field (guide 4.22)."""
    lattice = w.ctx.lattice
    i = ph.start - 1
    while i > 0 and lattice.at(i) in {":", "-", "="}:
        i -= 1
    if lattice.at(i) == "loss" and i < ph.start:
        return True  # date of loss: July 3
    i = ph.start - 1
    while i > 0 and lattice.at(i) in {"on", "the", "back"}:
        i -= 1
    if lattice.at(i) in _WORK or _one_more_of_them(w, ph):
        return True  # sprayed July 3
    i = ph.start - 1 - (lattice.at(ph.start - 1) == "the")  # came through on the 27th
    if i < 1 or lattice.pieces[i].text not in {"of", "on", "from"}:
        return False
    if lattice.at(i) == "on" and _came_by(w, i):
        return True
    if lattice.at(i - 1) in _PART_OF_A_DAY and _came_that_day(w, i - 1):
        return True
    for a in range(max(0, i - 3), i):
        if any(e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" and e.end == i for e in lattice.edges[a]):
            bare = ph.form == "ord_day"  # rain on the fifth
            return bare or lattice.pieces[i].text == "of" or (a > 0 and lattice.pieces[a - 1].text in _EVENT_BEFORE)
    return False


_AND_ON = _LISTED.words("and_on")
_EVENTS = frozenset({"DAMAGE", "WEATHER", "PASTCUE"})
_WORK = _LISTED.words("work")
_BEFORE_ONE_MORE_OF_THEM = _LISTED.words("before_one_more_of_them")


def _one_more_of_them(w: Listener, ph: Phrase) -> bool:
    """`hail of July 3 and July 9`, `hailed July 3rd and again July 9`: a second day of what the first is the day of."""
    at, i = w.ctx.lattice.at, ph.start - 1
    while i > 0 and at(i) in _AND_ON:
        i -= 1
    if "and" not in {at(x) for x in range(i + 1, ph.start)} and "&" not in {at(x) for x in range(i + 1, ph.start)}:
        return False
    first = next((s.phrase for s in w.segments if s.end == i + 1 and s.phrase is not None), None)
    if first is None or first.rule != "date":
        return False
    before = first.start - 1
    while before > 0 and at(before) in _BEFORE_ONE_MORE_OF_THEM:
        before -= 1
    if at(before) in _WORK:
        return True
    return any(
        e.kind in _EVENTS and e.how == "exact" and e.end == before + 1
        for a in range(max(0, before - 2), before + 1)
        for e in w.ctx.lattice.edges[a]
    )


_PART_OF_A_DAY = _COMMON.words("part_of_a_day") | {"week", "weekend"}


def _came_that_day(w: Listener, i: int) -> bool:
    """`killing frost, night of Sept 28`: weather or damage stands in the same sentence before the night at piece i, and
    nothing of the beans."""
    edges = w.ctx.lattice.edges
    kinds = {e.kind for k in range(w.sentence_start(i), i) for e in edges[k] if e.how == "exact"}
    return bool(kinds & {"DAMAGE", "WEATHER"}) and not kinds & {"PLANT", "TRIF", "R", "V", "FLOWER", "POD"}


_CAME = _LISTED.words("came")


def _came_by(w: Listener, i: int) -> bool:
    """`Hail came through on June 28`, `a storm hit it on the 3rd`: weather or damage, and its verb, in the sentence before
    the `on` at piece i."""
    lattice = w.ctx.lattice
    start = w.sentence_start(i)
    verbs = [k for k in range(start, i) if lattice.at(k) in _CAME]
    kinds = {e.kind for k in range(start, verbs[0] if verbs else start) for e in lattice.edges[k] if e.how == "exact"}
    return bool(kinds & {"DAMAGE", "WEATHER"}) and not kinds & {"PLANT", "TRIF", "R", "V", "FLOWER", "POD"}


def _came_over(w: Listener, ph: Phrase) -> bool:
    """`hail last night`: weather or damage stands right before the day."""
    edges = w.ctx.lattice.edges
    return any(
        e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" and e.end == ph.start
        for a in range(max(0, ph.start - 4), ph.start)
        for e in edges[a]
    )


_FAR = 60  # days from the note's own, set by hand: what lies further off is no day of a walk


def _plants_sooner(w: Listener, ph: Phrase) -> bool:
    """`Cobble Draw 1-5 all R3` in July: figures that rise, with a dash, and no day near that of the note."""
    if ph.form != "md" or len(ph.path) != 3 or ph.path[1][1].kind == "SLASH" or w.ctx.note_date is None:
        return False
    a, b = (int(e.means) for _, e in (ph.path[0], ph.path[2]))
    day = read_day(ph, headers.base(w.ctx), w.ctx.day_first)
    own = date.fromisoformat(w.ctx.note_date)
    return a < b and day is not None and abs((date.fromisoformat(day.iso) - own).days) > _FAR


def _heads_rows(w: Listener, organ: Phrase) -> bool:
    """`SALT HOUSE  9/25  brown pods`, and below it `1  38 of 40` or `p1 38 of 40`: the head of a page, its day and what the
    rows tell of."""
    pieces, i = w.ctx.lattice.pieces, organ.end
    while i < min(organ.end + _LONGEST_HEAD, len(pieces)) and pieces[i].form == "word":
        i += 1  # brown pods by count
    if i + 2 >= len(pieces) or pieces[i].form != "nl":
        return False
    if pieces[i + 1].form == "int":
        return pieces[i + 1].text in {"1", "2"} and not pieces[i + 2].glued
    row = _at_piece(w, i + 1)
    if row is None or row.form != "plant_n" or numbers_of(row)[:1] not in ([1], [2]):
        return False
    told = _at_piece(w, row.end)
    return told is not None and told.rule in _ANSWERS


def _at_piece(w: Listener, i: int) -> Phrase | None:
    return next((s.phrase for s in w.segments if s.start == i), None)


_ANSWERS = frozenset({"ratio", "percent", "noneword", "place", "bareint"})
_LONGEST_HEAD = 3  # words behind what the rows tell of


_LOOKED_AT = _LISTED.words("looked_at")
_BESIDE_LOOKED_AT = _LISTED.words("beside_looked_at")
_TOPIC = 4  # words of what was looked at


def _what_was_looked_at(w: Listener, start: int) -> int | None:
    """`Anvil Ridge 9/27 counted pods`, `9/27 looking at blooms`, `9/27 pods counted`: where the line ends, if from piece
    `start` on it says what was looked at that day, and nothing else."""
    lattice = w.ctx.lattice
    over = start
    while over < len(lattice.pieces) and lattice.pieces[over].form == "word":
        over += 1
    words = [lattice.at(i) for i in range(start, over)]
    if not (_LOOKED_AT & set(words[:2]) or words[:2] == ["looked", "at"]) or len(words) > _TOPIC or not w.ends_at(over):
        return None
    told = [i for i in range(start, over) if lattice.at(i) not in _LOOKED_AT | _BESIDE_LOOKED_AT]
    organ = len(told) == 1 and any(e.kind in {"FLOWER", "POD", "SEED", "SEEDG"} for e in lattice.edges[told[0]])
    return over if organ else None


_BEFORE_READ_DATE = _COMMON.words("until")
_BEHIND_READ_DATE = _LISTED.words("behind_read_date")


def read_date(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    if _the_odd_one(w, ph):
        one = Phrase(ph.start, ph.end, "ratio", "other_one", (), 0.0)
        return tallies.start(ctx, one, span) is not None
    if looks_like_a_day(w, ph):
        return True
    if _plants_sooner(w, ph):
        return False
    if day_of_each(w, ph, span):
        return True
    nxt, links, mark = w.ahead(k)
    if ph.form == "today" and nxt is not None and nxt.form in {"day_month", "month_day", "day_month_year"}:
        return True  # today is the twentieth of august
    if ph.form == "yesterday" and _came_over(w, ph):
        return False  # hail last night at Mullein Bottom
    sown = planted_before(w, ph)
    if sown is not None:
        return headers.planted_so_deep(ctx, sown, ph, span)  # or it is replanted the low end 5/20
    if of_another_sowing(w, ph):
        return False
    if w.count_of is not None and ph.form == "md" and ph.path[1][1].kind == "SLASH" and ctx.visit is not None:
        a, b = numbers_of(ph)[:2]
        if 0 <= a <= b and b > 1 and ctx.visit.name is not None and not ctx.visit.tallies:  # Pod count / Dahl 4/10
            return tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "n_slash_m", ph.path, 0.0), span) is not None
    topic = _what_was_looked_at(w, ph.end) if w.after_name and nxt is not None and not mark else None
    if topic is not None:
        ctx.mark(ph.end, topic, FILLER)
        w.resume_at = topic
    if ph.form == "md" and nxt is not None and not mark and len(ph.path) == 3:
        a, b = (int(e.means) for _, e in (ph.path[0], ph.path[2]))
        slash = ph.path[1][1].kind == "SLASH"
        said_at = "AT" in links or ctx.lattice.pieces[nxt.start].text in {"at", "@"}
        positive = nxt.form in {"fl_yes", "pod_yes", "n_brown", "seed_yes"} or (nxt.rule == "stage" and said_at)
        if not slash and positive and a <= b and b >= 2 and nxt.start - ph.end <= 2 and not w.after_name:
            ctx.here()
            day = read_day(ph, headers.base(ctx), ctx.day_first)
            slash = ctx.pins.get(span) == f"{a} of {b} plants"  # so it was answered: read on as a share
            ctx.ask(tallies.plants_or_day(span, "-", a, b, day.iso if day else None, date_first=True))
        organ = nxt.form in {"seed_yes", "bean_yes", "pod_yes"} and nxt.start == ph.end
        if slash and organ and ctx.explicit and ctx.plants and b in {2, 4, 8, 16, 32} and a < b:
            edge = Edge(ph.end, "FRAC", Fraction(a, b), 0.0, "exact")  # r5 not touching top 4, 1/4 seed
            return read_length(w, Phrase(ph.start, ph.end, "length", "len_bare", ((ph.start, edge),), 0.0), span, k)
        share = slash and positive and a <= b and b >= 2 and nxt.start - ph.end <= 2
        if share and topic is None and not _day_of_another(w, ph) and not (w.after_name and _heads_rows(w, nxt)):
            fake = Phrase(ph.start, ph.end, "ratio", "n_slash_m", ph.path, 0.0)
            named = w.after_name
            t = tallies.start(ctx, fake, span)
            if t is not None and named and ctx.page_date is None:
                day = read_day(ph, headers.base(ctx), ctx.day_first)
                t.of = b
                if day is not None and ctx.note_date is not None and long_after(day.iso, ctx.note_date):
                    return True  # no note is written weeks before its day
                ctx.ask(tallies.plants_or_day(span, "/", a, b, day.iso if day else None))
            return True
    if ph.form == "md" and len(ph.path) == 3 and not w.at_head:
        a, b = (int(e.means) for _, e in (ph.path[0], ph.path[2]))
        if (
            ph.path[1][1].kind == "SLASH"
            and b in {2, 4, 8, 16}
            and a < b
            and not w.after_name
            and not w.line_head
            and (ctx.plants or ctx.open)
        ):  # 3/8 amid pods is no date
            fake = Phrase(
                ph.start,
                ph.end,
                "length",
                "len_bare",
                ((ph.start, Edge(ph.end, "FRAC", Fraction(a, b), 0.0, "exact")),),
                0.0,
            )
            return read_length(w, fake, span, k)
    if ph.form == "ord_day" and _one_more_node(w, ph, k):
        return read_place(w, Phrase(ph.start, ph.end, "place", "ord_down", ph.path, 0.0), span, k)
    if ph.form == "ord_day" and _a_node(w, ph, k):
        return read_place(w, Phrase(ph.start, ph.end, "place", "ord_node", ph.path, 0.0), span, k)
    if ph.form in {"today", "yesterday"} and ph.end in w.names and headers.entry_date(ctx, ph, span):
        return True  # now today Toad Hollow
    if ph.form == "today" and not w.at_head and ph.start and ctx.use[ph.start - 1] != UNREAD and w.name_after(k):
        return "filler"  # V7 today at Hickory Run
    before = ph.start - 1
    while before > 0 and ctx.lattice.pieces[before].text == "the":
        before -= 1
    if (before >= 0 and ctx.lattice.pieces[before].text in _BEFORE_READ_DATE) or (
        ph.form in {"today", "yesterday"} and not (w.at_head or w.after_name or w.begins(ph.start))
    ):
        return False  # the day of something else
    if _of_the_weather(w, ph, nxt):
        return False  # (7/18 rain .8) Oxbow 7/20
    if _of_an_event(w, ph) or (ph.form == "ord_day" and w.ctx.lattice.at(ph.end) in _COUNTED_OFF):
        return False
    if _called_on(w, ph, k):
        bar_back(w, ph, k, "another time")
        bar(w, ph, "another time")
        return "barred"
    if _was_so_on(w, ph):
        bar(w, ph, "another time")
        return "barred"
    if ctx.correcting is not None and headers.correct_date(ctx, ph, span, w.clause_from):
        return True
    if (
        ph.form == "ord_day"
        and not w.ends_at(ph.end)
        and not (nxt is not None and nxt.rule in {"label", "planted", "emerged", "stop", "rows", "maturity"})
        and (ph.end not in w.names)
        and not (
            w.after_name
            and ph.start > 1
            and ctx.lattice.pieces[ph.start - 2].text == "on"
            and ph.end < len(ctx.lattice.pieces)
            and (ctx.lattice.filler[ph.end] or ctx.lattice.pieces[ph.end].text in _BEHIND_READ_DATE)
        )
    ):
        return False  # the 13th row
    if ph.form == "weekday" and ctx.lattice.pieces[ph.start].text == "last" and not stands_alone(w, ph, nxt):
        return read_cue(w, Phrase(ph.start, ph.end, "past", "past", ph.path, ph.cost), span, k)  # last monday it was R2
    k_before = ph.start - 1
    if k_before >= 0 and ctx.lattice.pieces[k_before].form == "word" and ctx.use[k_before] == UNREAD:
        w.line_head = False  # rotary hoed June 10: the date of something else
    if _of_other_work(w, ph):
        w.line_head = False
    behind = w.names.get(ph.end)  # R2, today Tanner Hill most 8 tf
    if behind is not None and behind.cue == "comma" and headers.entry_date(ctx, ph, span):
        return True
    if w.line_head and not w.after_name and ph.rule == "date" and w.name_after(k) and headers.entry_date(ctx, ph, span):
        w.at_head = True
        return True
    if headers.of_all_named(ctx, ph, span):
        return True  # Did Chestnut, Lighthouse and Behind the Church yesterday.
    after, opens = w.after_name or _a_sentence_of_its_own(w, ph), _over_plants(w, ph)
    used = headers.take_date(ctx, ph, span, at_head=w.at_head, line_head=w.line_head, after_name=after, opens=opens)
    if used and (ctx.visit is None or ctx.visit.empty):
        w.at_head = True
    if not used and ph.form in {"weekday", "today", "yesterday", "ord_day"}:
        return "filler" if ph.form == "today" else False
    return used


def _a_sentence_of_its_own(w: Listener, ph: Phrase) -> bool:
    """`... Field is tower hill. August fifth.`: the day of a visit that has none, told at the end."""
    at, visit = w.ctx.lattice.at, w.ctx.visit
    alone = at(ph.start - 1) in {".", ";"} and w.hard_end(ph.start - 1) and (at(ph.end) in {".", ""})
    full = ph.form not in {"ord_day", "weekday", "today", "yesterday"} and len(w.ctx.visits) == 1
    return alone and full and visit is not None and "date" not in visit.head


def _over_plants(w: Listener, ph: Phrase) -> bool:
    """`20 July 2012` on a line of its own, between plants above it and plants below: the day of those below it."""
    pieces = w.ctx.lattice.pieces
    alone = (ph.start == 0 or pieces[ph.start - 1].form == "nl") and ph.form not in {"today", "yesterday", "weekday"}
    end = ph.end
    while end < len(pieces) and pieces[end].text in _MARKS:
        end += 1
    if not alone or end >= len(pieces) or pieces[end].form != "nl" or not w.ctx.living():
        return False
    while end < len(pieces) and pieces[end].form == "nl":
        end += 1
    table = next((t for at, t in w.tables.items() if at == end), None)
    below = next((s.phrase for s in w.segments if s.start == end), None)
    return (table is not None and table.grid is not None) or (below is not None and below.rule == "label")


_MARKS = frozenset({".", ":", ",", "-", ")"})


def _of_other_work(w: Listener, ph: Phrase) -> bool:
    """`Mowed the ditch July 10.`: a line that begins with what was done, and that nobody knows, and ends with its day."""
    pieces = w.ctx.lattice.pieces
    first = ph.start
    while first and pieces[first - 1].form == "word":
        first -= 1
    opens = first < ph.start - 1 and (first == 0 or pieces[first - 1].form == "nl" or pieces[first - 1].text == ".")
    return opens and pieces[first].text.endswith("ed") and w.ctx.use[first] == UNREAD and w.ends_at(ph.end)


def _the_odd_one(w: Listener, ph: Phrase) -> bool:
    """`Two of the three are R4, the third is R3`: the one that is left of those that were counted."""
    told = w.ctx.visit.tallies if w.ctx.visit is not None and not w.ctx.plants else []
    last = told[-1] if told else None
    if last is None or last.of is None or last.count is None or ph.form != "ord_day":
        return False
    return w.ctx.lattice.at(ph.start - 1) == "the" and last.of == last.count + 1 == numbers_of(ph)[0]


def _a_node(w: Listener, ph: Phrase, k: int) -> bool:
    """`2 10t fl 3rd`, `pods 1/4 on 3rd`: an ordinal right behind what a plant bears, or behind its size, is the node."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    if not ctx.plants or not ctx.explicit or w.line_head or not w.ends_at(ph.end) or numbers_of(ph)[0] > _NODES:
        return False
    at = ph.start
    if at > 1 and pieces[at - 1].text == "the" and pieces[at - 2].text == "at":
        at -= 2
    elif at and pieces[at - 1].text in {"at", "@", "on"}:
        at -= 1
    before = next((s.phrase for s in reversed(w.segments[:k]) if s.end <= at), None)
    if before is None or before.end != at:
        return False
    sized = before.rule == "length"
    return sized or (before.rule in ORGANS and pieces[ph.start - 1].text != "on")


_AND_AT = _LISTED.words("and_at")


def _one_more_node(w: Listener, ph: Phrase, k: int) -> bool:
    """`bloom at the second node from the top and also on the fourth`: the next place of what the plant bears, counted from
    the top like the one before it; at the end of what is said of it."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    if not ctx.plants or not ctx.open or w.line_head or not w.ends_at(ph.end) or numbers_of(ph)[0] > _NODES:
        return False
    at = ph.start
    while at and pieces[at - 1].text in _AND_AT:
        at -= 1
    joined = {p.text for p in pieces[at : ph.start]} & {"and", "also", "too"}
    before = next((s.phrase for s in reversed(w.segments[:k]) if s.end <= at), None)
    there = before is not None and before.end == at and before.form in {"ord_down", "num_down", "top_1"}
    return (
        bool(joined) and there and max(numbers_of(before) or [1]) < numbers_of(ph)[0] if before is not None else False
    )


def stands_alone(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """A day that heads what follows: a mark, a line's end or a plant comes next."""
    pieces = w.ctx.lattice.pieces
    if not (w.at_head and (w.line_head or w.after_name)):
        return False
    return (ph.end < len(pieces) and pieces[ph.end].form in {"nl", "mark"}) or (
        nxt is not None and nxt.start == ph.end and nxt.rule in {"label", "planted", "stop"}
    )


def _of_the_weather(w: Listener, ph: Phrase, nxt: Phrase | None) -> bool:
    """A day that rain or hail stands behind, where another day heads the note further on."""
    pieces = w.ctx.lattice.pieces
    if (
        nxt is None
        or nxt.rule != "findhead"
        or nxt.start - ph.end > 1
        or not any(e.kind == "WEATHER" for _, e in nxt.path)
    ):
        return False
    end = next((i for i in range(ph.end, len(pieces)) if pieces[i].form == "nl"), len(pieces))
    later = [s.phrase for s in w.segments if s.phrase is not None and ph.end <= s.start < end]
    return any(p.rule == "date" for p in later)
