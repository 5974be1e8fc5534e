"""A no that stands before, of these or of another thing; and the crop, which is no seed."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.fold import EVIDENCE, NOTHING_TO_TURN, UNREAD, numbers_of
from notesparse.observing.walking.hurt_pods import NOT_SO
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/organs/behind_a_no")
_COMMON = cue_page("shared")
_SOME = frozenset({"fl_yes", "pod_yes", "seed_yes", "seed_count", "bean_yes", "seed_small"})
_LOOKED = _LISTED.words("looked")


def _not_looked(w: Listener, start: int, end: int) -> bool:
    """`I have not opened a single pod`: nobody looked, and nothing is told."""
    return any(w.ctx.lattice.at(i) in _LOOKED for i in range(start, end))


def behind_a_no(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`did not see a flower`: the no before is of this, or has its own verb."""
    ctx = w.ctx
    nxt = w.ahead(k)[0]
    negative = w.negative
    if negative is not None and ph.form == "bean_yes" and nxt is not None and nxt.rule == "emergence":
        ctx.mark(negative[1], nxt.end, UNREAD, NOTHING_TO_TURN)
        w.negative, w.resume_at = None, nxt.end
        return "barred"  # no beans emerged yet: soybeans, and no seed
    if negative is not None and ph.rule in {"flowers", "pods", "seeds"} and _of_another_verb(w, negative, ph):
        ctx.mark(negative[1], ph.start, UNREAD, NOTHING_TO_TURN)
        w.negative = negative = None  # it doesn't count, pods 1 in.
    if negative is not None and ph.rule in {"flowers", "pods", "seeds"} and _not_looked(w, negative[2], ph.start):
        ctx.mark(negative[1], ph.end, UNREAD, NOTHING_TO_TURN)
        w.negative = None
        return "barred"
    if negative is not None and ph.rule in {"flowers", "pods", "seeds"}:
        w.negative = None
        if ph.form in _SOME or (ph.form in {"fl_count", "pod_count"} and numbers_of(ph)[:1] == [1]):
            ctx.mark(negative[1], negative[2], EVIDENCE)
            organs.look(ctx, ph.rule, False, negative[0].cover(span))
            ctx.open_end = ph.end
            return True
        ctx.mark(negative[1], negative[2], UNREAD, NOTHING_TO_TURN)
    return None


def of_the_crop(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`beans are 34 inches tall`: the crop; and a number that waited is the number of these."""
    ctx = w.ctx
    nxt = w.ahead(k)[0]
    if w.number is not None and ph.rule in {"flowers", "pods", "seeds"} and w.number[3] == ph.start:
        ctx.mark(w.number[2], w.number[3], EVIDENCE)
        w.number = None
    if (
        ph.rule == "seeds"
        and (ph.form == "bean_yes" or _the_crop_there(w, ph))
        and nxt is not None
        and nxt.rule in {"height", "findhead", "moisture", "stage", "call"}
    ):
        return "filler"
    return None


def none_of_the_group(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Behind a group of which none has it."""
    ctx = w.ctx
    if ctx.group == "none" and ph.rule in {"flowers", "pods", "seeds"}:
        organs.look(ctx, ph.rule, False, (ctx.group_span or span).cover(span))
        ctx.open_end = ph.end
        return True
    return None


_BEHIND_THE_CROP_THERE = _COMMON.words("being") | _COMMON.words("looking")


def _the_crop_there(w: Listener, ph: Phrase) -> bool:
    """`beans there are R4`: the crop of that field, and no seed that is there."""
    beans = ph.form == "seed_small" and ph.path[0][1].kind == "BEAN" and w.ctx.lattice.at(ph.end - 1) == "there"
    return beans and w.ctx.lattice.at(ph.end) in _BEHIND_THE_CROP_THERE


def _of_another_verb(w: Listener, negative: tuple[Span, int, int], ph: Phrase) -> bool:
    """`doesn't matter, pods 1 in.`: the no has its own verb, and a comma stands behind that."""
    at, pieces = w.ctx.lattice.at, w.ctx.lattice.pieces
    between = pieces[negative[2] : ph.start]
    return at(negative[1]) in NOT_SO and len(between) > 1 and between[-1].text == "," and between[0].form == "word"
