"""The head of a visit: which field, which day, planted, emerged, variety, group, rows, stop (guide 4.19, 4.22)."""

from __future__ import annotations

from datetime import date, timedelta

from notesparse.language.cues import cue_page
from notesparse.observing.dates import Day, day_stands_first, read_day
from notesparse.observing.draft import Entry, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context, edges_of, numbers_of
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import at_a_place
from notesparse.observing.naming.sites import told_behind_it
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.span import Span
from notesparse.text.lattice import Edge

_LISTED = cue_page("observing/headers")
_COMMON = cue_page("shared")

_DRILLED_INCHES = "7.5"  # the usual spacing of a drill
_HOW_SOWN = _LISTED.words("how_sown")


def order_of_dates(ctx: Context) -> None:
    """Where one date of the page can only have the day first (22/7/06), so have the others (12/5/06)."""
    if ctx.day_first:
        return
    dates = [p for p in ctx.lattice.pieces if p.form == "dmy"]
    shows = day_stands_first([p.text for p in dates], base(ctx))
    if shows is None:
        return
    if len({mark for p in dates for mark in p.text if mark in "./"}) > 1:
        return  # 22.8.2016 on one page, and 6/9/16 on another
    ctx.day_first = True
    span = next(p.span for p in dates if p.text == shows)
    if len(dates) > 1:
        ctx.assume("4.19", span, "the day stands before the month, in the other dates of this note too")


def base(ctx: Context) -> date | None:
    """The day of the note, which its other days are near to."""
    return date.fromisoformat(ctx.note_date) if ctx.note_date else None


def same_name(a: str | None, b: str | None) -> bool:
    def plain(x: str | None) -> str:
        words = "".join(c if c.isalnum() else " " for c in (x or "").casefold()).split()
        words = words[:-1] if len(words) > 1 and words[-1] == "s" else words  # Whistler's the R4
        return " ".join(w for w in words if w not in {"the", "field"})

    return plain(a) == plain(b)


def open_visit(ctx: Context, name: Name, span: Span) -> None:
    """A field is named: a new visit, the name of the unnamed one, or back to one of the day."""
    if ctx.line_date is not None:
        _open_dated(ctx, name, span)
        return
    if name.cue != "daily":
        now = ctx.visit
        for v in ctx.visits:
            if same_name(v.name, name.text):
                own = now.head.get("date") if now is not None and now.name is None and now.empty else None
                old = v.head.get("date")
                if now is not None and own is not None and (old is None or old.value != own.value):
                    now.name, now.name_span = name.text, span
                    return
                if v is not ctx.visit:
                    _leave(ctx)
                    ctx.visit = v
                    live = [p for p in v.plants if not p.dropped]
                    ctx.stop = live[-1].stop if live else None
                else:
                    ctx.leave_plants()
                return
    current = ctx.visit
    was_cue = ctx.lattice.original(name.cue_start, name.start).lower().startswith(_WAS_AT)
    was_cue = was_cue or _told_before(ctx, name)
    bare = current is not None and not (current.plants or current.tallies or current.stated)
    if current is not None and current.name is None and (bare or was_cue):
        current.name, current.name_span = name.text, span
        ctx.leave_plants() if was_cue else None
        return
    again = _counted_anew(current) if was_cue and current is not None else None
    _begin(ctx, VisitDraft(name.text, span))
    if again is not None and current is not None and ctx.visit is not None:
        hand_over(current, ctx.visit, again)  # plant one ... plant one ... That was Levee Sixty
        ctx.leave_plants()


_FOR_TOLD_BEFORE = _COMMON.words("being")


def _told_before(ctx: Context, name: Name) -> bool:
    """`thats Beaver Dam btw`, `all of that was at the trestle forty`: the field of what stands before its name."""
    at, i = ctx.lattice.at, name.start - 1
    while at(i) in _TO_IT:
        i -= 1
    if at(i) == "thats" or (at(i), at(i - 1)) == ("'s", "that"):
        return True
    return at(i) in _FOR_TOLD_BEFORE and told_behind_it(at, i)


_TO_IT = _LISTED.words("to_it")


def open_unnamed(ctx: Context) -> None:
    """`last field.`: a visit whose field is not named yet."""
    _begin(ctx, VisitDraft())


def _begin(ctx: Context, visit: VisitDraft) -> None:
    _leave(ctx)
    if ctx.page_date is not None:
        visit.head["date"] = Entry(*ctx.page_date, copied=True)
    ctx.visits.append(visit)
    ctx.visit = visit


_FIRST_LABELS = _COMMON.words("first_label")


def _counted_anew(visit: VisitDraft) -> int | None:
    """Where the plants of a visit are counted from one again, at the same stop; None where they are not."""
    firsts = [p for p in visit.plants if p.named and not p.dropped and p.label.casefold() in _FIRST_LABELS]
    if len(firsts) < 2 or firsts[-1].stop != firsts[0].stop or visit.plants[-1] is firsts[-1]:
        return None
    return firsts[-1].span.start


def part_from(ctx: Context, visit: VisitDraft, name: Span) -> VisitDraft:
    """Another visit, right behind `visit`, with all that stands behind its name and the questions about it."""
    later = VisitDraft(" ".join(name.of(ctx.lattice.text).split()), name)
    hand_on(ctx, visit, later, name.start)
    ctx.visits.insert(ctx.visits.index(visit) + 1, later)
    ctx.mark_span(name, EVIDENCE)
    return later


def hand_on(ctx: Context, visit: VisitDraft, later: VisitDraft, start: int) -> None:
    """What stands behind `start`, and what is asked of it, goes to the later visit, up to where the field of the first one is
    named again (`Back at Ferry Landing, 3 loopers a foot`)."""
    hand_over(visit, later, start)
    for ask in ctx.asks:
        if ask.visit is visit and ask.span.start >= start:
            ask.visit = later
    again = _named_again(ctx, visit, start)
    if again is None:
        return
    hand_over(later, visit, again)
    for ask in ctx.asks:
        if ask.visit is later and ask.span.start >= again:
            ask.visit = visit


def _named_again(ctx: Context, visit: VisitDraft, start: int) -> int | None:
    """Where the visit's name was read again behind character `start`."""
    if visit.name_span is None:
        return None
    pieces = ctx.lattice.pieces
    own = [p.text for p in pieces if visit.name_span.start <= p.span.start < visit.name_span.end]
    for i, p in enumerate(pieces):
        here = p.span.start > start and [x.text for x in pieces[i : i + len(own)]] == own
        if here and all(ctx.use[k] == EVIDENCE for k in range(i, i + len(own))):
            return p.span.start
    return None


def hand_over(visit: VisitDraft, later: VisitDraft, start: int) -> None:
    """What stands behind `start` goes from the one visit to the other."""
    later.plants += [p for p in visit.plants if p.span.start >= start]
    later.tallies += [t for t in visit.tallies if t.span.start >= start]
    later.stated += [s for s in visit.stated if s.span.start >= start]
    later.findings += [f for f in visit.findings if f.span.start >= start]
    visit.plants = [p for p in visit.plants if p.span.start < start]
    visit.tallies = [t for t in visit.tallies if t.span.start < start]
    visit.stated = [s for s in visit.stated if s.span.start < start]
    visit.findings = [f for f in visit.findings if f.span.start < start]
    for key in [k for k, entry in visit.head.items() if entry.span.start >= start]:
        later.head[key] = visit.head.pop(key)


_WAS_AT = _LISTED.phrases("was_at")


def on_the_same_day(ctx: Context) -> None:
    """A date at the head of a walk is that of the fields walked after it, where these have none (guide 4.22)."""
    day: Entry | None = None
    for visit in ctx.visits:
        own = visit.head.get("date")
        if own is not None:
            day = own
        elif day is not None and visit.name is not None and (visit.plants or visit.tallies or visit.stated):
            visit.head["date"] = Entry(day.value, day.span, copied=True)


def _open_dated(ctx: Context, name: Name, span: Span) -> None:
    """`8/21 Bramble Ford: ...` down a page: the date before the name is that entry's, and entries of a field share
    its head (guide 4.22)."""
    iso, day_span = ctx.line_date or ("", span)
    ctx.line_date = None
    ctx.page_date = (iso, day_span)
    first = ctx.visit
    if first is not None and len(ctx.visits) == 1 and _only_found(first):
        first.name, first.name_span = name.text, span
        first.head["date"] = Entry(iso, day_span)
        return
    _leave(ctx)
    older: VisitDraft | None = None
    for v in ctx.visits:
        if same_name(v.name, name.text):
            older = v
            had = v.head.get("date")
            if had is not None and had.value == iso:
                ctx.visit = v
                return
    visit = VisitDraft(
        name.text, span, {k: e for k, e in older.head.items() if k != "date"} if older is not None else {}
    )
    visit.head["date"] = Entry(iso, day_span)
    ctx.visits.append(visit)
    ctx.visit = visit


def _only_found(visit: VisitDraft) -> bool:
    """`ok it's hot out here` over `July 8, Pump House`: what was found before the page names its first field and day."""
    told = visit.plants or visit.tallies or visit.stated
    return visit.name is None and not told and "date" not in visit.head


def day_of_column(ctx: Context, ph: Phrase, span: Span) -> bool:
    """The date over a column of a table: a visit of the same field, which shares its head."""
    day = read_day(ph, base(ctx), ctx.day_first)
    if day is None:
        return False
    now = ctx.here()
    if not now.empty:
        _leave(ctx)
        now = VisitDraft(now.name, now.name_span, {k: e for k, e in now.head.items() if k != "date"})
        ctx.visits.append(now)
        ctx.visit = now
    now.head["date"] = Entry(day.iso, span)
    return True


def visit_of_row(ctx: Context, name: Name, span: Span, ph: Phrase, day_span: Span) -> bool:
    """A row of a table that names its field and its day: the visit of both, begun or gone on with."""
    day = read_day(ph, base(ctx), ctx.day_first)
    if day is None:
        return False
    now = ctx.visit
    had = now.head.get("date") if now is not None else None
    free = had is None or had.copied or had.value == day.iso
    if now is not None and now.empty and (now.name is None or same_name(now.name, name.text)) and free:
        now.name, now.name_span = name.text, span
        now.head["date"] = Entry(day.iso, day_span)
        return True
    ctx.line_date = (day.iso, day_span)
    _open_dated(ctx, name, span)
    return True


def of_all_named(ctx: Context, ph: Phrase, span: Span) -> bool:
    """Several fields were named in a row and nothing is told of any of them yet: the day is that of all (guide 4.22)."""
    named = [v for v in ctx.visits if v.name is not None]
    day = read_day(ph, base(ctx), ctx.day_first) if len(named) > 1 else None
    if day is None or ctx.page_date is not None or any(not v.empty or v.head for v in ctx.visits):
        return False
    ctx.page_date = (day.iso, span)
    for v in named:
        v.head["date"] = Entry(day.iso, span)
    return True


def entry_date(ctx: Context, ph: Phrase, span: Span) -> bool:
    """A date at a line's head whose field is named behind it: it waits for the name; not where that field is the first, and
    nothing but the weather was told before it."""
    visit = ctx.visit
    if visit is None or (visit.name is None and (visit.empty or (len(ctx.visits) == 1 and only_weather(visit)))):
        return False
    day = read_day(ph, base(ctx), ctx.day_first)
    if day is None:
        return False
    ctx.line_date = (day.iso, span)
    return True


def only_weather(visit: VisitDraft) -> bool:
    """Nothing but the weather was told, and no day: `Hot out here.`, before a field is named."""
    told = visit.plants or visit.tallies or visit.stated or visit.head
    return not told and all(f.kind == "weather" for f in visit.findings)


def _leave(ctx: Context) -> None:
    ctx.leave_plants()
    ctx.stop = None
    if ctx.tally is not None and ctx.tally.what is None:
        ctx.mark_span(ctx.tally.span, UNREAD, "a share of nothing named")
    ctx.tally = None
    ctx.sample = None
    ctx.finding = None
    ctx.group = None
    ctx.statements = []


def correct_date(ctx: Context, ph: Phrase, span: Span, since: int) -> bool:
    """`planted on the eleventh, no wait the twelfth of May`: the header date said last is put right."""
    visit = ctx.visit
    said = (
        [
            (e.span.start, key)
            for key, e in visit.head.items()
            if key in {"date", "planted", "emerged"} and e.span.start >= since
        ]
        if visit
        else []
    )
    day = read_day(ph, base(ctx), ctx.day_first)
    if visit is None or not said or day is None:
        return False
    key = max(said)[1]
    old = visit.head[key]
    ctx.corrected.append(Correction("4.17", old.span, f"{key} put right"))
    ctx.asks = [a for a in ctx.asks if not a.span.overlaps(old.span)]
    visit.head[key] = Entry(day.iso, span)
    ctx.correcting = None
    return True


def take_date(
    ctx: Context, ph: Phrase, span: Span, *, at_head: bool, line_head: bool, after_name: bool, opens: bool = False
) -> bool:
    """A date in the place of a visit's date; False: it is the date of something else. One that `opens` another visit stands
    over plants that are told of behind it."""
    near = base(ctx)
    f = ph.form
    if f in {"ord_day"} and not at_head:
        return False
    if f == "weekday" and not (after_name or (at_head and line_head)):
        return False
    day = read_day(ph, near, ctx.day_first)
    if day is None:
        return False
    visit = ctx.visit
    if visit is None:
        if at_head:
            ctx.page_date = (day.iso, span)
            visit = ctx.here()
            visit.head["date"] = Entry(day.iso, span)
            return True
        return False
    had = visit.head.get("date")
    if had is None or had.copied:
        if opens and not visit.empty and not after_name:
            return _next_day(ctx, visit, Entry(day.iso, span))
        if not visit.empty and not after_name and not at_head and f not in {"today", "yesterday"}:
            return False
        visit.head["date"] = Entry(day.iso, span)
        if visit.name is None and visit.empty:
            ctx.page_date = (day.iso, span)
        return True
    if had.value == day.iso:
        return True
    if (
        visit.empty
        and had.span.of(ctx.lattice.text).lower() in {"today", "yesterday"}
        and span.start - had.span.end <= 2
    ):
        visit.head["date"] = Entry(day.iso, had.span.cover(span))  # today (8/6)
        return True
    if visit.empty and not visit.head.keys() - {"date"} and (at_head or after_name):
        return False
    if line_head or after_name or f in {"today", "yesterday"}:  # a second dated entry under one head
        nxt = VisitDraft(visit.name, visit.name_span, {k: v for k, v in visit.head.items() if k != "date"})
        nxt.head["date"] = Entry(day.iso, span)
        if after_name or f in {"today", "yesterday"}:
            one_line = visit.name is not None and "\n" not in ctx.lattice.text[had.span.end : span.start]
            if f in {"today", "yesterday"} and not after_name and not one_line:
                nxt.name, nxt.name_span, nxt.head = None, None, {"date": Entry(day.iso, span)}
            else:
                nxt.head = {"date": Entry(day.iso, span)}
        _leave(ctx)
        ctx.visits.append(nxt)
        ctx.visit = nxt
        return True
    return False


def _next_day(ctx: Context, visit: VisitDraft, day: Entry) -> bool:
    """The plants below a day on a line of its own, behind plants of the same field that have no day: another visit."""
    nxt = VisitDraft(visit.name, visit.name_span, {k: v for k, v in visit.head.items() if k != "date"})
    nxt.head["date"] = day
    _leave(ctx)
    ctx.visits.append(nxt)
    ctx.visit = nxt
    return True


def planted(ctx: Context, ph: Phrase, span: Span, key: str) -> bool:
    if key == "emerged" and ph.start and ctx.lattice.pieces[ph.start - 1].text == "back":
        return False  # pump started back up 7-30
    visit = ctx.here()
    latest = base(ctx)
    had = visit.head.get("date")
    if had is not None:
        latest = date.fromisoformat(had.value)
    if ph.form in {"planted_nn", "emerged_nn"}:
        a, b = numbers_of(ph)[:2]
        fake = Phrase(ph.start, ph.end, "date", "md", tuple((0, Edge(0, "INT", n, 0.0, "number")) for n in (a, b)), 0.0)
        day = read_day(fake, latest, ctx.day_first, latest_before=latest)
    elif ph.form == "planted_dec":
        value = edges_of(ph, "DEC")[0][0]
        text = ctx.lattice.pieces[value].text
        if text == _DRILLED_INCHES and ctx.lattice.pieces[ph.start].text.startswith("drill"):
            visit.head["row_spacing_in"] = Entry(float(text), span)  # drilled 7.5
            return True
        if ctx.lattice.at(ph.end) in {"inch", "inches", '"'} or ctx.lattice.at(ph.end + 1) == "deep":
            return False  # drilled 1.5 in deep
        a_text, _, b_text = text.partition(".")
        if not (a_text.isdigit() and b_text.isdigit()):
            return False
        if ctx.lattice.at(value - 1) in {"a", "an"}:
            visit.head["maturity_group"] = Entry(float(text), span)  # planted to a 2.9
            return True
        fake = Phrase(
            ph.start,
            ph.end,
            "date",
            "md",
            tuple((0, Edge(0, "INT", int(x), 0.0, "number")) for x in (a_text, b_text)),
            0.0,
        )
        day = read_day(fake, latest, ctx.day_first, latest_before=latest)
    else:
        form = _inner_form(ph)
        inner = Phrase(
            ph.start,
            ph.end,
            "date",
            form,
            tuple((i, e) for i, e in ph.path if e.kind not in {"PLANTED", "PLANT", "EMERGED", "QUERY"}),
            0.0,
        )
        day = read_day(inner, latest, ctx.day_first, latest_before=latest)
        if day is not None and form == "ord_day" and key == "emerged":
            day = _after_planting(ctx, visit, day, span)
    if day is None or _a_year_back(ph, day, latest):
        return False
    if ph.path[-1][1].kind == "PLANTED" and day.iso == ctx.note_date:
        return False  # 6/5 planted, on June 5: the day of the visit
    visit.head[key] = Entry(day.iso, span)
    return True


_LONGEST_AGO = 300  # days, set by hand: no field is looked at so long after it was planted


def _a_year_back(ph: Phrase, day: Day, latest: date | None) -> bool:
    """`planted 7/20` on a page of July 14: with no year said, the last such day before the visit is of another crop."""
    said = any(e.kind in {"YEAR", "DMY"} for _, e in ph.path) or ph.form == "mdy"
    return not said and latest is not None and (latest - date.fromisoformat(day.iso)).days > _LONGEST_AGO


def _after_planting(ctx: Context, visit: VisitDraft, day: Day, span: Span) -> Day:
    """`planted May 10, came up the 18th`: of the days with that number, the first one after the planting. The guide takes
    the last one before the note (4.19), which is weeks too late: said as an assumption."""
    sown, up = visit.head.get("planted"), date.fromisoformat(day.iso)
    first = date.fromisoformat(sown.value) if sown is not None else up
    for at in range(1, (up - first).days):
        near = first + timedelta(days=at)
        if near.day == up.day:
            ctx.assume("4.19", span, f"the first such day after the planting: {near.isoformat()}")
            return Day(near.isoformat())
    return day


def planted_so_deep(ctx: Context, start: int, ph: Phrase, span: Span) -> bool:
    """`drilled about 1 inch deep on May 10`: the day of the planting word at piece `start`."""
    between = ctx.lattice.pieces[start + 1 : ph.start]
    if not all(p.form in {"int", "dec"} or p.text in _HOW_SOWN for p in between):
        return False
    if not any(e.kind == "PLANTED" and e.how == "exact" for e in ctx.lattice.edges[start]):
        return False  # sprayed
    if not planted(ctx, ph, span, "planted"):
        return False
    ctx.mark(start, start + 1, EVIDENCE)
    return True


def of_column(ctx: Context, key: str, a: int, b: int, day: Phrase | None) -> bool:
    """The rest of a visit's head in a cell at pieces [a, b): `5/19` under planted, `31-K` under variety."""
    visit, span = ctx.here(), ctx.span(a, b)
    text = ctx.lattice.written(a, b)
    if key in {"planted", "emerged"}:
        latest = date.fromisoformat(visit.head["date"].value) if "date" in visit.head else base(ctx)
        read = read_day(day, latest, ctx.day_first, latest_before=latest) if day is not None else None
        value: str | float | None = read.iso if read is not None else None
    elif key == "variety":
        value = text
    else:
        said = [float(e.means) for e in ctx.lattice.edges[a] if e.kind in {"INT", "DEC"} and e.end == b]
        value = said[0] if said and 0 < said[0] < (10 if key == "maturity_group" else 60) else None
    if value is None:
        return False
    visit.head[key] = Entry(value, span)
    return True


def _inner_form(ph: Phrase) -> str:
    kinds = [e.kind for _, e in ph.path if e.kind not in {"PLANTED", "PLANT", "EMERGED", "QUERY"}]
    if "DMY" in kinds:
        return "dmy"
    if "MONTH" in kinds:
        return "month_day"
    if "TODAY" in kinds:
        return "today"
    if "YESTERDAY" in kinds:
        return "yesterday"
    if "AGO" in kinds:
        return "days_ago"
    if "DAYNO" in kinds:
        return "day_of_year"
    if "WEEKDAY" in kinds:
        return "weekday" if len(kinds) == 1 else "wd_ord"
    if kinds.count("INT") == 3:
        return "mdy"
    if kinds.count("INT") == 2:
        return "md"
    return "ord_day"


def maturity(ctx: Context, ph: Phrase, span: Span) -> bool:
    nums = [e.means for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC"}]
    if edges_of(ph, "FRAC") and float(nums[0]) < 1:
        return False  # group 1/2: no group that there is
    if ph.form == "group_sound":
        heard = next(float(e.means) for _, e in ph.path if e.kind == "INTSOUND")
        value = heard + float(nums[0]) if float(nums[0]) < 1 else float(nums[0])  # group too point nine
    elif ph.form in {"group_two", "group_digits"}:
        value = float(f"{nums[0]}.{nums[1]}")
    else:
        value = float(nums[0])
        if value >= 10:
            value = value / 10
    ctx.here().head["maturity_group"] = Entry(value, span)
    return True


_CLOSEST, _WIDEST = 4, 48  # inches between rows (common practice, no source)


def rows(ctx: Context, ph: Phrase, span: Span) -> bool:
    value = next(float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "FRAC", "ROWWORD"})
    if ph.form == "rows_metric":
        value = round(value / (2.54 if any(e.kind == "CM" for _, e in ph.path) else 25.4), 2)
        if not _CLOSEST <= value <= _WIDEST:
            return False
    ctx.here().head["row_spacing_in"] = Entry(value, span)
    return True


_SHORT_VARIETY = _LISTED.words("short_variety")
_NO_VARIETY = _LISTED.words("no_variety")


def variety(ctx: Context, ph: Phrase) -> int:
    """The name after `var`: up to a comma, a line's end or a wide gap. Returns the piece where it ends."""
    pieces = ctx.lattice.pieces
    k = ph.end
    point = {"."} if pieces[k - 1].text in _SHORT_VARIETY else set[str]()  # of `var.`, and of no sentence
    while k < len(pieces) and pieces[k].text in {":", "-", "#", "?", "is"} | point:
        k += 1
    start = k
    while k < len(pieces) and k - start < 6:
        p = pieces[k]
        if (
            p.form == "nl"
            or p.text in ",;"
            or (p.text == "-" and not p.glued)
            or (p.text == "." and not (k + 1 < len(pieces) and pieces[k + 1].glued))
            or (k > start and p.gap >= 3)
            or (k > start and p.gap > 1 and p.form == "word" and ctx.lattice.at(k + 1) == ":")  # Lee 74  Date: 8/11
        ):
            break
        if k > start and any(
            e.kind in {"PLANTED", "ROWS", "GROUP", "PLANT"} and e.end >= k + 1 and p.form == "word" and len(p.text) > 1
            for e in ctx.lattice.edges[k]
        ):
            break
        if k > start and (_where_it_stands(ctx, k) or _day_behind(ctx, k) or _rows_behind(ctx, k)):
            break
        k += 1
    text = ctx.lattice.original(start, k) if k > start else ""
    if start < len(pieces) and pieces[start].text in _NO_VARIETY:
        return ph.end  # variety was whatever was left on the truck; variety trial B
    if not text.strip("_ \t"):
        return ph.end  # a blank that nobody filled in
    ctx.here().head["variety"] = Entry(text, ctx.span(ph.start, k))
    return k


_AT = _COMMON.words("at") | {"out"}


def _day_behind(ctx: Context, k: int) -> bool:
    """`variety Lee 74 8/11`, `var. Essex July 14`: the day of the visit begins at piece k, and ends the line or the clause."""
    lattice = ctx.lattice
    if not any(e.kind in {"DMY", "MONTH"} for e in lattice.edges[k]) and lattice.at(k + 1) not in {"/", "-"}:
        return False
    ends = (p.end for p in phrases_at(lattice, k) if p.rule == "date" and p.form not in _LOOSE_DAYS)
    return any(
        x >= len(lattice.pieces) or lattice.pieces[x].form == "nl" or lattice.at(x) in _ENDS_A_VALUE for x in ends
    )


_LOOSE_DAYS = frozenset({"ord_day", "weekday", "today", "yesterday"})
_ENDS_A_VALUE = frozenset({",", ";", ".", "("})


def _rows_behind(ctx: Context, k: int) -> bool:
    """`variety Bluestem thirty inch rows`, `var. Lee fifteens`: at piece k begins how far apart the rows are."""
    return any(p.rule == "rows" for p in phrases_at(ctx.lattice, k))


def _where_it_stands(ctx: Context, k: int) -> bool:
    """`variety 31-K at Mill Forty`, `var 2417 on the hogback`: behind the variety the field, with its own word."""
    pieces = ctx.lattice.pieces
    if pieces[k].text not in _AT or ctx.lattice.original(k, k + 1) != pieces[k].text:
        return False
    return pieces[k - 1].form in {"int", "word"}


def name_the_only(ctx: Context) -> None:
    """A note of one unnamed visit whose field is named in passing (the hail at Tinderbox took ...)."""
    if len(ctx.visits) != 1 or ctx.visits[0].name is not None or ctx.visits[0].empty:
        return
    got = at_a_place(ctx.lattice)
    if got is None:
        return
    visit, (i, j) = ctx.visits[0], got
    visit.name, visit.name_span = ctx.lattice.original(i, j), ctx.span(i, j)
    ctx.mark(i, j, EVIDENCE)
    for f in visit.findings:
        if f.where is not None and visit.name in f.where:
            f.where = None
