"""The page's addresses: write and look, keep, settle, season, old notes. Every answer is a whole page, with or without script."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.templating import Jinja2Templates

from notesparse.asking.values import Refused, from_words
from notesparse.errors import InputError
from notesparse.lazy import pattern
from notesparse.record.caution import CAUTION
from notesparse.record.store import load
from notesparse.season import fieldnames
from notesparse.season.forecast import backtest
from notesparse.season.keep import new_step
from notesparse.season.log import writing
from notesparse.season.look import Field, fields, note_of
from notesparse.season.standing import last_day, standing, upto
from notesparse.season.upcoming import WHOSE, cautions, upcoming
from notesparse.views.report import Part, Visited, report
from notesparse.views.season import before, short, span
from notesparse.views.season_chart import describe, season_chart
from notesparse.views.wording import day, many, percent
from notesparse.web import shown
from notesparse.web.desk import MOST, Changed, Desk
from notesparse.web.guard import Guard

_HERE = Path(__file__).parent
_MOST_AT_ONCE = 20_000_000  # bytes of one stack of old notes
_DAY = pattern(r"\d{4}-\d{2}-\d{2}")


def make_app(desk: Desk, hosts: Iterable[str] = ("127.0.0.1", "localhost"), prefix: str = "") -> Any:
    """The page as an ASGI application. `hosts` are the names it answers to, `prefix` the secret part of its address."""
    templates = Jinja2Templates(directory=str(_HERE / "templates"))
    templates.env.globals |= {"caution": CAUTION, "span": span, "before": before, "whose": WHOSE, "says": cautions()}
    templates.env.filters |= {"day": day, "short": short, "many": many, "percent": percent}
    pages = Pages(desk, templates)
    routes = [
        Route("/", pages.write),
        Route("/look", pages.look, methods=["POST"]),
        Route("/keep", pages.keep, methods=["POST"]),
        Route("/notes", pages.notes),
        Route("/note/{name}", pages.note, name="note"),
        Route("/note/{name}/edit", pages.edit, methods=["GET", "POST"]),
        Route("/note/{name}/settle", pages.settle, methods=["POST"]),
        Route("/season", pages.season),
        Route("/field/{field:int}", pages.field, name="field"),
        Route("/names", pages.names, methods=["POST"]),
        Route("/chart.svg", pages.chart),
        Route("/report.html", pages.report),
        Route("/stack", pages.stack, methods=["GET", "POST"]),
        Route("/help", pages.help),
        Mount("/static", StaticFiles(directory=str(_HERE / "static")), name="static"),
    ]
    app = Starlette(routes=routes, exception_handlers={InputError: pages.refused, HTTPException: pages.not_found})
    return Guard(app, hosts, _MOST_AT_ONCE, prefix)


class Pages:
    """One method for each address."""

    def __init__(self, desk: Desk, templates: Jinja2Templates) -> None:
        self.desk, self.templates = desk, templates

    def _page(self, request: Request, template: str, status: int = 200, **values: Any) -> Response:
        return self.templates.TemplateResponse(
            request, template, {"root": request.scope.get("root_path", ""), **values}, status_code=status
        )

    def _to(self, request: Request, path: str) -> Response:
        return RedirectResponse(f"{request.scope.get('root_path', '')}{path}", 303)

    async def refused(self, request: Request, fault: Exception) -> Response:
        """What could not be done, in a sentence."""
        status = 413 if "too long" in str(fault) else 400
        return self._page(request, "message.html", status, title="That did not work", told=str(fault))

    async def not_found(self, request: Request, fault: Exception) -> Response:
        """An address that there is not."""
        status = fault.status_code if isinstance(fault, HTTPException) else 500
        return self._page(request, "message.html", status, title="There is nothing here", told="Begin again below.")

    # writing --------------------------------------------------------------------------------------------------------

    async def write(self, request: Request) -> Response:
        """The text box."""
        return self._page(request, "write.html", text="", date="", most=MOST)

    async def look(self, request: Request) -> Response:
        """What would be read, kept nowhere."""
        text, date = await _typed(request)
        if not text.strip():
            return self._page(request, "write.html", text=text, date=date or "", most=MOST)
        outcome = await run_in_threadpool(self.desk.look, text, date)
        return self._page(request, "write.html", text=text, date=date or "", most=MOST, **_reading(outcome))

    async def keep(self, request: Request) -> Response:
        """Keeps the note, and goes on to it."""
        text, date = await _typed(request)
        if not text.strip():
            return self._page(request, "write.html", 400, text=text, date=date or "", most=MOST, empty=True)
        name = await run_in_threadpool(self.desk.save, text, date)
        return self._to(request, f"/note/{name}?kept=1")

    # one note -------------------------------------------------------------------------------------------------------

    def note(self, request: Request) -> Response:
        """A kept note: the open question, what was understood, the plants."""
        return self._note(request, request.path_params["name"])

    def _note(self, request: Request, name: str, status: int = 200, fault: str = "", typed: str = "") -> Response:
        sitting, turn = self.desk.turn(name)
        outcome = sitting.outcomes[0]
        return self._page(
            request,
            "note.html",
            status,
            name=name,
            kept="kept" in request.query_params,
            card=shown.card(sitting, turn) if turn is not None else None,
            skipped=len(sitting.turns()) if turn is None else 0,
            undo=bool(sitting.done),
            fault=fault,
            typed=typed,
            then=request.query_params.get("then", ""),
            following=self._following(name) if "then" in request.query_params else "",
            **_reading(outcome, turn.question.span if turn is not None else None),
        )

    def _following(self, name: str) -> str:
        """The next note of the stack that has an open question."""
        waiting = [one.name for one in self.desk.listed() if one.open_questions and one.name != name]
        return waiting[0] if waiting else ""

    async def edit(self, request: Request) -> Response:
        """The note's own text, to be changed."""
        name = request.path_params["name"]
        if request.method == "GET":
            now = load(self.desk.path(name))
            return self._page(request, "edit.html", name=name, text=now.text, was=now.sha256, other="")
        form = await request.form(max_files=0, max_part_size=4 * MOST)
        text, was = _lines(str(form.get("text", ""))), str(form.get("was", ""))
        try:
            await run_in_threadpool(self.desk.edit, name, text, was)
        except Changed as fault:
            now = load(self.desk.path(name))
            return self._page(request, "edit.html", 409, name=name, text=text, was=now.sha256, other=fault.text)
        return self._to(request, f"/note/{name}?kept=1")

    async def settle(self, request: Request) -> Response:
        """One press on a card."""
        name = request.path_params["name"]
        form = await request.form(max_files=0)
        key, do = str(form.get("key", "")), str(form.get("do", ""))
        choice = int(do) if do.isdigit() else None
        values: dict[str, Any] | None = None
        if do == "other":
            values = {}
            for given, said in form.items():
                if given.startswith("value-") and str(said).strip():
                    try:
                        values[given.removeprefix("value-")] = from_words(
                            given.removeprefix("value-"), str(said).strip()
                        )
                    except Refused as fault:
                        return await run_in_threadpool(self._note, request, name, 422, str(fault), str(said))
            if not values:
                return await run_in_threadpool(self._note, request, name, 422, "Type a value first.", "")
        await run_in_threadpool(self.desk.settle, name, key, do, choice, values)
        then = "?then=stack" if form.get("then") == "stack" else ""
        return self._to(request, f"/note/{name}{then}#h-card")  # the next question, where no script takes one there

    def notes(self, request: Request) -> Response:
        """All notes, and a search over their words."""
        query = request.query_params.get("q", "")[:200]
        return self._page(request, "notes.html", query=query, notes=self.desk.listed(query))

    async def stack(self, request: Request) -> Response:
        """Old notes dropped in together, and a table of what is open in all of them."""
        refused: list[str] = []
        if request.method == "POST":
            async with request.form(max_files=1000, max_part_size=4 * MOST) as form:
                for file in form.getlist("files"):
                    if isinstance(file, str) or not file.filename:
                        continue
                    data = await file.read(MOST + 1)
                    try:
                        if len(data) > MOST:
                            raise InputError(f"{file.filename}: is longer than {MOST:,} bytes.")
                        await run_in_threadpool(self.desk.put, file.filename, data)
                    except InputError as fault:
                        refused.append(str(fault))
        notes = await run_in_threadpool(self.desk.listed)
        return self._page(request, "stack.html", 400 if refused else 200, notes=notes, refused=refused)

    # the season -----------------------------------------------------------------------------------------------------

    def _fields(self) -> tuple[Any, list[Field]]:
        log = self.desk.log()
        return log, fields(log)

    def season(self, request: Request) -> Response:
        """All fields."""
        log, found = self._fields()
        on = _day(request) or last_day(found) or datetime.date.min
        pairs = [(f.id, s) for f in found if (s := standing(f, on)).visits]
        stands = [s for _, s in pairs]
        return self._page(
            request,
            "season.html",
            on=on,
            stands=pairs,
            alike=fieldnames.look_alike(log),
            doubts=[d.ask for s in stands for d in s.doubts],
            drawn=any(s.v or s.r for s in stands),
            about=describe(stands),
        )

    def field(self, request: Request) -> Response:
        """One field: visits, what is next, what comes up."""
        _, found = self._fields()
        field = _of(found, request.path_params["field"])
        on = _day(request) or last_day([field]) or datetime.date.min
        stands = standing(field, on)
        return self._page(
            request,
            "field.html",
            id=field.id,
            on=on,
            s=stands,
            coming=upcoming(field, on),
            tried=backtest([upto(field, on)]),
            drawn=bool(stands.v or stands.r),
            about=describe([stands]),
            here={seen.id: Path(seen.note).name for seen in stands.visits if Path(seen.note).name in self.desk.names()},
        )

    async def names(self, request: Request) -> Response:
        """Two names are one field, or two."""
        form = await request.form(max_files=0)
        one, two = str(form.get("one", "")), str(form.get("two", ""))
        await run_in_threadpool(self._name, one, two, form.get("do") == "join")
        return self._to(request, "/season")

    def _name(self, one: str, two: str, joined: bool) -> None:
        log = self.desk.log()
        with writing(log):
            if not joined:
                fieldnames.part(log, one, two)
            elif len({fieldnames.known(log, one), fieldnames.known(log, two)} - {None}) == 2:
                fieldnames.join(log, one, two, new_step(log, "join"))
        log.close()

    def chart(self, request: Request) -> Response:
        """The chart as a picture of its own."""
        _, found = self._fields()
        wanted = request.query_params.get("field", "")
        told = [_of(found, int(wanted))] if wanted.isdigit() else [f for f in found if f.id is not None]
        svg = season_chart([standing(f, _day(request)) for f in told])
        policy = {"content-security-policy": "default-src 'none'; style-src 'unsafe-inline'"}
        return Response(svg, media_type="image/svg+xml", headers=policy)

    def report(self, request: Request) -> Response:
        """The report of a field, of a day, or of the season, to be saved."""
        log, found = self._fields()
        wanted, day_ = request.query_params.get("field", ""), _day(request)
        chosen = [_of(found, int(wanted))] if wanted.isdigit() else found
        on = day_ or last_day(chosen) or datetime.date.min
        parts = []
        for f in chosen:
            stands = standing(f, on)
            seen = [v for v in reversed(stands.visits) if wanted]
            visits = [Visited(v, note_of(log, v.note)) for v in seen]
            if stands.visits:
                parts.append(Part(stands, upcoming(f, on) if f.id is not None else [], visits))
        if not parts:
            raise InputError("Nothing is kept yet.")
        title = parts[0].stands.name if wanted else "Season"
        page = "".join(report(title, parts, backtest([upto(f, on) for f in chosen]), overview=not wanted))
        headers = {
            "content-disposition": f'attachment; filename="{re.sub(r"[^a-z0-9]+", "-", title.casefold())}.html"',
            "content-security-policy": "default-src 'none'; style-src 'unsafe-inline'",
        }
        return HTMLResponse(page, headers=headers)

    def help(self, request: Request) -> Response:
        """What can be said, and what the marks mean."""
        from notesparse.spoken.card import card

        return self._page(request, "help.html", topics=card())


def _of(found: list[Field], number: int) -> Field:
    field = next((f for f in found if f.id == number), None)
    if field is None:
        raise InputError("There is no such field in this season.")
    return field


def _reading(outcome: Any, asked: Any = None) -> dict[str, Any]:
    return {
        "marked": shown.marked(outcome, asked),
        "words": shown.words(outcome),
        "visits": shown.visits(outcome),
        "asks": [q.ask for q in outcome.questions if q.answer is None],
        "unread": [(u.quote, u.why) for u in outcome.unread],
        "assumed": sorted({a.text for a in outcome.assumptions}),
        "unapplied": [u.why for u in outcome.unapplied],
    }


async def _typed(request: Request) -> tuple[str, str | None]:
    form = await request.form(max_files=0, max_part_size=4 * MOST)
    date = str(form.get("date", "")).strip()
    if date and not _DAY.fullmatch(date):
        raise InputError(f"{date!r} is no date; write it as 2026-07-14.")
    if date:
        try:
            datetime.date.fromisoformat(date)
        except ValueError as fault:
            raise InputError(f"{date!r} is no date: {fault}.") from None
    return _lines(str(form.get("text", ""))), date or None


def _lines(text: str) -> str:
    """A form sends line ends as CR LF; the note keeps the LF that was typed."""
    return text.replace("\r\n", "\n")


def _day(request: Request) -> datetime.date | None:
    said = request.query_params.get("on", "")
    try:
        return datetime.date.fromisoformat(said) if said else None
    except ValueError:
        raise InputError(f"{said!r} is no date; write it as 2026-07-14.") from None
