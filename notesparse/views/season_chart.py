"""The season as a chart: V and R by date, for one field or all, with how sure they are; SVG that prints in black and white."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from notesparse.errors import InputError
from notesparse.season.consistency import in_doubt
from notesparse.season.look import Seen
from notesparse.season.standing import Standing
from notesparse.staging.scale import R_CODES, v_number
from notesparse.views.wording import day

_MARKERS = ("o", "s", "^", "D", "v", "P", "X", "*")
_LINES = ("-", "--", "-.", ":")
_NAMED = 12  # more fields than this are drawn without a legend: the table beside the chart names them
_WIDE, _HIGH = 7.6, 5.6  # inches


def season_chart(fields: Sequence[Standing]) -> str:
    """An SVG of all fields' visits: V above, R below. With one field, the range of its plants, and the days on which the
    next stages are likely. Raises `InputError` where the drawing library is missing, or no visit has a day and a stage."""
    told = [s for s in fields if any(seen.day and (seen.v or seen.r in R_CODES) for seen in s.visits)]
    if not told:
        raise InputError("There is nothing to draw: no visit has a day and a stage.")
    figure, (upper, lower) = _figure()
    for at, stands in enumerate(told):
        style = {"marker": _MARKERS[at % len(_MARKERS)], "linestyle": _LINES[at % len(_LINES)], "color": "black"}
        _draw_v(upper, stands, style, alone=len(told) == 1)
        _draw_r(lower, stands, style, alone=len(told) == 1)
    upper.set_ylabel("V stage (unrolled trifoliates)" if _one_rule(told) else "V stage")
    upper.yaxis.get_major_locator().set_params(integer=True)
    upper.set_ylim(bottom=0)
    lower.set_ylabel("R stage")
    lower.set_yticks(range(len(R_CODES) + 1), ["none", *R_CODES])
    lower.set_ylim(-0.4, len(R_CODES) + 0.4)
    if 1 < len(told) <= _NAMED:
        upper.legend(loc="upper left", fontsize=8, frameon=False)
    for axes in (upper, lower):
        axes.grid(True, linewidth=0.3, color="0.7")
        axes.spines[["top", "right"]].set_visible(False)
    if any(s.in_doubt for s in told):
        lower.set_xlabel("ringed, with ?: does not go with another visit", fontsize=8)
    _dates(lower)
    return _svg(figure, told)


def _one_rule(told: Sequence[Standing]) -> bool:
    return {seen.counting_rule for s in told for seen in s.visits if seen.v} <= {"open-trifoliates"}


def _figure() -> Any:
    try:
        import matplotlib
        from matplotlib.backends.backend_svg import FigureCanvasSVG
        from matplotlib.figure import Figure
    except ImportError:
        raise InputError('Charts need one more library: python -m pip install "notesparse[report]"') from None
    matplotlib.rcParams["svg.hashsalt"] = "season"  # the same drawing, byte for byte
    matplotlib.rcParams["svg.fonttype"] = "none"  # text stays text
    figure = Figure(figsize=(_WIDE, _HIGH), layout="constrained")
    FigureCanvasSVG(figure)
    return figure, figure.subplots(2, 1, sharex=True)


def _draw_v(axes: Any, stands: Standing, style: dict[str, Any], alone: bool) -> None:
    seen = [s for s in stands.visits if s.day and s.v and s.v[1:].isdigit()]
    if not seen:
        return
    days, counts = [s.day for s in seen], [v_number(str(s.v)) for s in seen]
    axes.plot(days, counts, label=stands.name, linewidth=1, markersize=5, markerfacecolor="white", **style)
    doubted = in_doubt([d for d in stands.doubts if d.kind == "nodes"])
    _ring(axes, [(s.day, count) for s, count in zip(seen, counts, strict=True) if s.id in doubted])
    if alone:
        for s, count in zip(seen, counts, strict=True):
            low, high = (v_number(code) if code else count for code in (s.least[0], s.most[0]))
            axes.plot([s.day, s.day], [low, high], color="black", linewidth=3, alpha=0.35, solid_capstyle="butt")
            axes.annotate(str(s.v), (s.day, count), textcoords="offset points", xytext=(6, -10), fontsize=8)


def _draw_r(axes: Any, stands: Standing, style: dict[str, Any], alone: bool) -> None:
    seen = [s for s in stands.visits if s.day and s.r]
    if not seen:
        return
    axes.plot(
        [s.day for s in seen],
        [_height(str(s.r)) for s in seen],
        label=stands.name,
        linewidth=1,
        markersize=5,
        markerfacecolor="white",
        **style,
    )
    doubted = in_doubt([d for d in stands.doubts if d.kind != "nodes"])
    _ring(axes, [(s.day, _height(str(s.r))) for s in seen if s.id in doubted])
    if not alone:
        return
    for s in seen:
        low, high = (_height(code) if code else _height(str(s.r)) for code in (s.least[1], s.most[1]))
        axes.plot([s.day, s.day], [low, high], color="black", linewidth=3, alpha=0.35, solid_capstyle="butt")
        axes.annotate(_sure(s), (s.day, _height(str(s.r))), textcoords="offset points", xytext=(6, -10), fontsize=8)
    for w in stands.windows:
        if w.stage in R_CODES:
            at = _height(w.stage)
            axes.plot([w.first, w.last], [at, at], color="black", linewidth=1, linestyle=":", marker="|", markersize=8)
            axes.plot([w.likely], [at], color="black", marker="x", markersize=5, linestyle="none")


def _ring(axes: Any, points: Sequence[tuple[Any, int]]) -> None:
    """A ring and a `?` about the points of visits that do not go with another one."""
    for day_, height in points:
        axes.plot([day_], [height], marker="o", markersize=13, markerfacecolor="none", color="black", linewidth=0)
        axes.annotate("?", (day_, height), textcoords="offset points", xytext=(-13, 5), fontsize=10, weight="bold")


def _sure(seen: Seen) -> str:
    return f"{seen.r}{'?' if seen.open_moving else ''}"


def _height(stage: str) -> int:
    return R_CODES.index(stage) + 1 if stage in R_CODES else 0


def _dates(axes: Any) -> None:
    from matplotlib.dates import AutoDateLocator, ConciseDateFormatter

    locator = AutoDateLocator(minticks=4, maxticks=9)
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(locator))


def describe(fields: Sequence[Standing]) -> str:
    """The chart in words: every visit with its stages, and what is forecast."""
    parts = []
    for stands in fields:
        seen = [
            f"{day(s.date)} {' '.join(code for code in (s.v, s.r if s.r in R_CODES else None) if code)}"
            + (" (does not go with another visit)" if s.id in stands.in_doubt else "")
            for s in stands.visits
            if s.date and (s.v or s.r in R_CODES)
        ]
        later = [f"{w.stage} between {day(w.first)} and {day(w.last)}" for w in stands.windows if w.stage in R_CODES]
        parts.append(f"{stands.name}: {', '.join(seen)}" + (f"; likely {', '.join(later)}" if later else "") + ".")
    return " ".join(parts)


def _svg(figure: Any, told: Sequence[Standing]) -> str:
    """The drawing with a title and a description that a screen reader finds."""
    title = f"V and R stages by date: {', '.join(s.name for s in told)}"
    held = io.StringIO()
    figure.savefig(held, format="svg", metadata={"Date": None, "Creator": None, "Title": title})
    text = held.getvalue()
    head, body = text[text.index("<svg") :].split(">", 1)
    named = f' role="img" aria-label={quoteattr(title)}'
    return f"{head}{named}>\n <desc>{escape(describe(told))}</desc>{body}"
