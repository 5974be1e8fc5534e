"""A phrase that the walk meets: whose it is, which room reads it, and what becomes of its words."""

from __future__ import annotations

from notesparse.observing import headers
from notesparse.observing.dates import read_day
from notesparse.observing.draft import Ask
from notesparse.observing.fold import EVIDENCE, FILLER, NO_THING_SO_LONG, NO_THING_THERE, NOTHING_TO_TURN, UNREAD
from notesparse.observing.shown import meaning, reasons, repairs, tied, wording
from notesparse.observing.walking import counted as counted_plants
from notesparse.observing.walking.bars import unbars
from notesparse.observing.walking.dispatch import dispatch
from notesparse.observing.walking.listening import ORGANS, OWN, Listener
from notesparse.observing.walking.loose_words import loose
from notesparse.observing.walking.moved import to_another
from notesparse.observing.walking.of_weeds import of_a_weed
from notesparse.observing.walking.owned import find_owner
from notesparse.reading.parse import Phrase


def phrase(w: Listener, ph: Phrase, k: int) -> None:
    ctx = w.ctx
    span = ctx.span(ph.start, ph.end)
    if w.barred and not unbars(w, ph):
        ctx.mark(ph.start, ph.end, UNREAD, w.barred)
        return
    if w.negative is not None and ph.start - w.negative[2] > 3:
        _, a, b = w.negative
        ctx.mark(a, b, UNREAD, NOTHING_TO_TURN)
        w.negative = None
    if ph.rule == "filler" and ph.end == ph.start + 1 and ctx.lattice.pieces[ph.start].text in w.key_signs:
        loose(w, ph.start, k)
        return
    if of_a_weed(w, ph) or (ph.rule in ORGANS and to_another(w, ph)):
        return
    find_owner(w, ph, span, k)
    if ph.rule in {"flowers", "pods", "seeds", "state", "trif", "nodes", "stage"}:
        counted_plants.of_them_all(w, ph)
    used = dispatch(w, ph, span, k)
    took = "evidence" if used is True else "filler" if used == "filler" else "unread"
    ctx.steps.append((span, wording(ph.form), meaning(ph), took, reasons(ph, w.rivals)))
    if took != "unread":
        ctx.repairs += repairs(ctx, ph)
    rival = tied(ph, w.rivals) if used is True else None
    if rival is not None:
        ctx.ask(
            Ask(
                "1.4",
                span,
                f"These words can be read in two ways: {wording(ph.form)}, or {wording(rival.form)}. Which is meant?",
                [(wording(ph.form), {}), (wording(rival.form), {})],
                always=True,
            )
        )
    if used is True:
        if ph.rule in {"trif", "nodes"} and w.negative is not None and w.negative[2] <= ph.start:
            ctx.mark(w.negative[1], w.negative[2], UNREAD, NOTHING_TO_TURN)
            w.negative = None  # eleven no twelve trifs and pods: the no is of no pods
        ctx.mark(ph.start, ph.end, EVIDENCE)
        if ph.rule in OWN | {"stage", "label"}:
            w.at_head = False
        if ph.rule not in {"correct"}:
            ctx.link = set()
    elif used == "filler":
        ctx.mark(ph.start, ph.end, FILLER)
    elif used is False:
        ctx.mark(ph.start, ph.end, UNREAD, why(w, ph))
    if ph.rule not in {"date", "stop", "where", "weekday", "goto"}:
        w.after_name = w.after_name and ph.rule in {"planted", "emerged", "rows", "maturity"}
    if ph.rule not in {"date", "filler"}:
        w.line_head = False


def why(w: Listener, ph: Phrase) -> str:
    if ph.rule == "date" and w.ctx.note_date is None and read_day(ph, headers.base(w.ctx), w.ctx.day_first) is None:
        return "a day whose year is not told: give the date of the note"
    return {
        "stage": "a stage that is not reached, or not of this field",
        "date": "the date of something else",
        "trif": "more than a soybean plant has",
        "nodes": "more than a soybean plant has",
        "length": NO_THING_SO_LONG,
        "place": NO_THING_THERE,
        "ratio": "a share of nothing named",
        "percent": "a share of nothing named",
    }.get(ph.rule, "out of place")
