"""The title of a sheet, alone on one of its first lines: `JOB SHEET`, `Pivot log`, `AG II - FIELD LAB SHEET`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.account import LOOSE
from notesparse.observing.fold import FILLER, UNREAD, Context

_LISTED = cue_page("observing/page_titles")

_SHEETS = _LISTED.words("sheets")
_FIRST = 3  # lines
_LONGEST = 6  # words


def titles_are_filler(ctx: Context) -> None:
    """A title was read as far as it can be: it is no unread word."""
    pieces = ctx.lattice.pieces
    start = lines = 0
    for i in range(len(pieces) + 1):
        if i < len(pieces) and pieces[i].form != "nl":
            continue
        if i > start:
            lines += 1
            if _a_title(ctx, start, i):
                ctx.use[start:i] = [FILLER] * (i - start)
        start = i + 1
        if lines == _FIRST:
            return


def _a_title(ctx: Context, start: int, end: int) -> bool:
    """Nothing but words, the last of them for a sheet, and no figure, finding or sentence among them."""
    line = range(start, end)
    pieces = ctx.lattice.pieces
    words = [i for i in line if pieces[i].form == "word"]
    loose = all(ctx.use[i] == FILLER or (ctx.use[i] == UNREAD and ctx.why.get(i, "") in LOOSE) for i in line)
    plain = all(pieces[i].form == "word" or pieces[i].text in "-&/" for i in line)
    return loose and plain and 1 < len(words) <= _LONGEST and pieces[words[-1]].text in _SHEETS
