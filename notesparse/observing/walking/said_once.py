"""What bare numbers are, told once for all plants: `these are all millimeters, longest pod on the top four nodes`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.draft import Length, SaidOnce
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/said_once")

_MM = {"sixteenths": 25.4 / 16, "16ths": 25.4 / 16, "eighths": 25.4 / 8, "8ths": 25.4 / 8, "inches": 25.4}
_NUMBERS = frozenset({"INT", "FRAC", "DEC", "ORD"})
_BETWEEN = _LISTED.words("between")
_LONGEST = 40  # pieces of such a sentence at most


def take(w: Listener, start: int) -> int | None:
    """The end of the sentence at piece `start` that says what the numbers behind the labels are; None: it is none."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    if (start and not w.hard_end(start - 1)) or ctx.living():
        return None
    here = range(start, min(len(pieces), start + _LONGEST))
    end = next((i for i in here if w.hard_end(i) or (pieces[i].text == ":" and _numbers_follow(w, i))), None)
    if end is None or any(start <= at < end for at in w.names):
        return None
    units = [x for i in range(start, end) if (x := _unit(w, i)) is not None]
    kinds = {e.kind for i in range(start, end) for e in ctx.lattice.edges[i] if e.how == "exact"}
    what = "pods" if "POD" in kinds else "seeds" if "SEED" in kinds else None
    if what is None or len(set(units)) != 1:
        return None
    inside = [s.phrase for s in w.segments if s.phrase is not None and start <= s.start < end]
    places = [p for p in inside if p.rule == "place"]
    held = {i for p in places for i in range(p.start, p.end)}
    counted = any(
        e.kind in _NUMBERS and i not in held and pieces[i].text not in {"one", *_MM}
        for i in range(start, end)
        for e in ctx.lattice.edges[i]
    )
    if counted or not _numbers_follow(w, end):
        return None
    said = ctx.span(start, end)
    seen = tuple(organs.place(p, ctx.span(p.start, p.end)) for p in places)
    ctx.said_once = SaidOnce(what, units[0][0], units[0][1], seen, said)
    ctx.mark(start, end, EVIDENCE)
    return end


def _unit(w: Listener, i: int) -> tuple[float, bool] | None:
    """Millimetres in the unit at piece i, and whether it is one of inches; None where no unit stands alone there."""
    before = w.ctx.lattice.edges[i - 1] if i else ()
    if any(e.kind in _NUMBERS and e.end == i for e in before):
        return None
    text = w.ctx.lattice.pieces[i].text
    if text in _MM:
        return _MM[text], True
    kinds = {e.kind for e in w.ctx.lattice.edges[i] if e.how == "exact"}
    return (1.0, False) if "MM" in kinds else (10.0, False) if "CM" in kinds else None


def _numbers_follow(w: Listener, end: int) -> bool:
    """The next that is said is a plant and a bare number."""
    after = [s.phrase for s in w.segments if s.phrase is not None and s.start >= end and s.phrase.rule != "filler"]
    return len(after) > 1 and after[0].rule == "label" and after[1].rule == "bareint"


def read(w: Listener, ph: Phrase, span: Span, value: object) -> bool:
    """A bare number right behind a plant's label, of which it was said before what it is; or one that puts it right."""
    ctx, once = w.ctx, w.ctx.said_once
    if once is None or not ctx.explicit or not ctx.plants or not isinstance(value, (int, float)):
        return False
    if ctx.correcting is not None:
        return put_right(ctx, value, span)
    i = ph.start - 1
    while i >= 0 and ctx.lattice.pieces[i].text in _BETWEEN:
        i -= 1
    label = ctx.plants[-1].span
    if i < 0 or not label.start <= ctx.lattice.pieces[i].span.start < label.end:
        return False
    for s in organs.look(ctx, once.what, True, span):
        s.places = list(once.places)
        s.spans += [p.span for p in once.places]
        s.length = Length(float(value) * once.mm, once.inches, span)
    ctx.open_end = ph.end
    return True


def put_right(ctx: Context, value: float, span: Span) -> bool:
    """`plant five is twenty two no make that twelve`: the length that was just told."""
    once = ctx.said_once
    if once is None or not ctx.open or ctx.open[0].what != once.what or ctx.open[0].length is None:
        return False
    ctx.correcting = ctx.correcting or span
    organs.attach_length(ctx, Length(float(value) * once.mm, once.inches, span), ctx.open)
    return True
