"""The season on a terminal: all fields, one field's visits and what is next, and what a stage brings up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date as Date

from notesparse.record.caution import CAUTION
from notesparse.season.forecast import Tried
from notesparse.season.keep import Kept
from notesparse.season.look import Seen
from notesparse.season.standing import Standing
from notesparse.season.upcoming import WHOSE, Upcoming
from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.grid import grid
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import day, many


def kept(one: Kept, paint: Paint = plain) -> list[str]:
    """What became of one note, with what changed under it."""
    lines = [f"{paint('quiet', one.how.ljust(9))} {safe(one.name)}"]
    return lines + [f"          {line}" for text in one.what for line in fold(text, WIDTH - 10)]


def overview(
    fields: Sequence[Standing],
    alike: Sequence[tuple[str, str]],
    tried: Sequence[Tried],
    on: Date,
    width: int = WIDTH,
    paint: Paint = plain,
) -> list[str]:
    """All fields, a row each; then what does not go together, and names that look alike."""
    rows = [
        (
            safe(s.name),
            short(s.last.date) if s.last else "no day",
            (s.v.v or "-") if s.v else "-",
            _r(s.r_shown),
            before(s),
            short(s.come_back[1]) if s.come_back else "",
            f"{s.overdue} d" if s.overdue else "",
            f"{s.next_stage.stage} {span(s.next_stage.first, s.next_stage.last)}" if s.next_stage else "",
            _open(s),
        )
        for s in fields
    ]
    heads = ("field", "seen", "V", "R", "before", "back by", "late", "next stage", "?")
    lines = [
        paint("title", f"{many(len(fields), 'field')} as of {day(on)}"),
        "",
        *grid(heads, rows, width=width, paint=paint),
        "   ? counts open questions, and visits that do not go together.",
    ]
    lines += doubts([d.ask for s in fields for d in s.doubts], width, paint)
    lines += names(alike, width, paint)
    lines += backtest(tried, width)
    return [*lines, "", paint("quiet", CAUTION)]


def before(s: Standing) -> str:
    """`V8 none`: the stages of the visit before the last one."""
    return " ".join(code for code in (s.before.v, s.before.r) if code) if s.before else ""


def doubts(asks: Sequence[str], width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Visits that do not go together, as questions."""
    if not asks:
        return []
    lines = ["", paint("asked", f"Do not go together: {many(len(asks), 'question')}")]
    for ask in asks:
        lines += fold(ask, width, "   ", "     ")
    lines += fold(
        "To settle one, put its value right with notesparse confirm --all NOTE, and keep the note again.", width, "   "
    )
    return lines


def names(alike: Sequence[tuple[str, str]], width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Names that look alike, with what to type for each answer."""
    if not alike:
        return []
    lines = ["", paint("asked", "Names that look alike")]
    for new, old in alike:
        lines += fold(f"Is “{new}” the field “{old}”?", width, "   ")
        lines += [f'     one field:   notesparse log join "{new}" "{old}"']
        lines += [f'     two fields:  notesparse log part "{new}" "{old}"']
    return lines


def backtest(tried: Sequence[Tried], width: int = WIDTH) -> list[str]:
    """How the forecast would have done on the stages of this log."""
    if not tried:
        return []
    hit = [t for t in tried if not t.missed]
    wide = sorted(t.window.days for t in tried)[len(tried) // 2]
    apart = sorted((t.by - t.after).days for t in tried)[len(tried) // 2]
    told = (
        f"Tried on this log: {len(hit)} of {many(len(tried), 'stage')} began within the days that were forecast from the "
        f"visits before. Half of the forecasts are {many(wide, 'day')} wide or less; half of the stages began between visits "
        f"{many(apart, 'day')} apart or more, so that a narrow miss may not show."
    )
    return ["", *fold(told, width)]


def timeline(
    stands: Standing,
    tried: Sequence[Tried],
    width: int = WIDTH,
    paint: Paint = plain,
) -> list[str]:
    """One field: its visits, what does not go together, what is next."""
    head = f"{safe(stands.name)} as of {day(stands.on)}"
    doubted = stands.in_doubt
    rows = [_visit(seen, len(doubted.get(seen.id, ()))) for seen in stands.visits]
    lines = [paint("title", head), "", *grid(_VISIT, rows, right=frozenset({3}), width=width, paint=paint)]
    rules = {seen.counting_rule for seen in stands.visits if seen.v}
    lines += fold(f"V by the rule {', '.join(sorted(rules))}.", width, "   ") if rules else []
    lines += doubts([d.ask for d in stands.doubts], width, paint)
    lines += ["", paint("title", "What is next")]
    if stands.last is not None and stands.last.id in doubted:
        lines += fold(
            "The last visit does not go with another one: settle that first, for these days rest on it.", width, "   "
        )
    if stands.windows:
        soon = [(w.stage, short(w.first), short(w.likely), short(w.last), w.rests_on) for w in stands.windows]
        lines += grid(("stage", "first", "likely", "last", "rests on"), soon, width=width, paint=paint)
        sources = dict.fromkeys(source for w in stands.windows for source in w.source.split("; "))
        lines += fold(f"Intervals: {'; '.join(sources)}.", width, "   ", "     ")
    else:
        lines += ["   Nothing is forecast."]
    if stands.rate.own is not None:
        lines += fold(
            f"New nodes a day: {stands.rate.own:.2f} seen here in {many(stands.rate.visits, 'visit')}, "
            f"{stands.rate.used:.2f} used.",
            width,
            "   ",
        )
    if stands.come_back is not None:
        first, last, why = stands.come_back
        late = f" That was {many(stands.overdue, 'day')} ago." if stands.overdue else ""
        lines += fold(f"Go back {day(first)} to {day(last)}: {why}.{late}", width, "   ")
    lines += backtest(tried, width)
    return [*lines, "", paint("quiet", CAUTION)]


_VISIT = ("date", "V", "R", "plants", "V share", "R share", "to settle", "note")


def _visit(seen: Seen, in_doubt: int) -> tuple[str, ...]:
    return (
        short(seen.date) if seen.date else "no day",
        seen.v or "-",
        _r(seen.r),
        str(seen.plants) if seen.plants else "",
        _share(seen.share_v, seen.interval_v),
        _share(seen.share_r, seen.interval_r),
        str(seen.open_questions + in_doubt or ""),
        safe(seen.note.replace("\\", "/").rsplit("/", 1)[-1]),
    )


def _share(share: float | None, interval: tuple[float, float] | None) -> str:
    """`67 % (38 to 88)`."""
    if share is None:
        return ""
    return f"{share:.0f} %" + (f" ({interval[0]:.0f} to {interval[1]:.0f})" if interval else "")


def _r(stage: str | None) -> str:
    return "-" if stage is None else "none" if stage == "none" else stage


def _open(s: Standing) -> str:
    return str(s.open_questions + len(s.doubts)) if s.open_questions or s.doubts else ""


def span(first: Date, last: Date) -> str:
    """`9-13 Sep`, `29 Jul-8 Aug`."""
    if first == last:
        return short(first)
    return f"{first.day if (first.year, first.month) == (last.year, last.month) else short(first)}-{short(last)}"


def short(date: Date | str | None) -> str:
    """`5 Aug`; a season is of one year."""
    return day(date, year=False) if date is not None else ""


def upcoming(
    name: str, found: Sequence[Upcoming], says: Mapping[str, str], on: Date, width: int = WIDTH, paint: Paint = plain
) -> list[str]:
    """What a field's stage brings up on a day. The cautions of each thing always stand with it."""
    lines = [paint("title", f"{safe(name)} on {day(on)}: what this stage usually brings up")]
    if not found:
        return [*lines, "", "   Nothing of what is known here.", "", paint("quiet", CAUTION)]
    for u in found:
        lines += ["", f"   {paint('stage', u.operation.name)}", *fold(_state(u), width, "     ", "       ")]
        for check in u.check:
            lines += fold(f"check: {check}", width, "     ", "       ")
        lines += fold(f"Look at: {u.operation.look}", width, "     ", "       ")
        for published in u.operation.ranges:
            lines += fold(f"Published: {published}", width, "     ", "       ")
        lines += fold(f"Cautions: {', '.join(u.operation.cautions)}", width, "     ", "       ")
        lines += fold(f"Source: {u.operation.source}", width, "     ", "       ")
    used = dict.fromkeys(key for u in found for key in u.operation.cautions)
    lines += ["", paint("title", "Cautions")]
    wide = max(map(len, used))
    for key in used:
        lines += fold(says[key], width, f"   {key.ljust(wide)}  ", " " * (wide + 5))
    return [*lines, "", paint("quiet", CAUTION)]


def _state(u: Upcoming) -> str:
    whose = WHOSE[u.operation.plants]
    seen = f"{whose} at {_r(u.stage)} on {day(Date.fromisoformat(u.seen))}" if u.stage and u.seen else whose
    if u.state == "open":
        until = f", until {u.operation.until}" if u.operation.until else ""
        ends = f" ({span(u.ends.first, u.ends.last)})" if u.ends else ""
        return f"open{until}{ends}; {seen}"
    opens = f", {span(u.opens.first, u.opens.last)}" if u.opens else ""
    return f"from {u.operation.begins} on{opens}; {seen}"
