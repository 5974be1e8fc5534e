"""Stretches of a note that one room takes whole: other times, tables, names, findings, several words with one meaning."""

from __future__ import annotations

from notesparse.observing import countlist, listfix, revise
from notesparse.observing.finding import findings, findopen
from notesparse.observing.fold import FILLER, UNREAD
from notesparse.observing.paper import forms
from notesparse.observing.paper.read_table import read_table
from notesparse.observing.walking import counted as counted_plants
from notesparse.observing.walking import numbering, said_once
from notesparse.observing.walking.bars import past_the_cue
from notesparse.observing.walking.clause_ends import clear_waiting, end_clause
from notesparse.observing.walking.field_names import open_name
from notesparse.observing.walking.listed_together import go_on_with_the_listed
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.placed_lines import place_of_the_line
from notesparse.observing.walking.sayings import saying
from notesparse.reading.parse import Segment


def _of_nothing_here(w: Listener, s: Segment, k: int) -> bool:
    """The number of a list, another time, another field, a place at the head of a line: passed by."""
    ctx = w.ctx
    if (
        s.start + 2 in w.names
        and ctx.lattice.pieces[s.start].form == "int"
        and ctx.lattice.at(s.start + 1) in {".", ")"}
    ):
        ctx.mark(s.start, s.start + 1, FILLER)  # 1) Stave Mill: the number of the list
        w.resume_at = s.start + 1
        return True
    then = w.other_times.get(s.start)
    if then is not None and not w.barred:
        clear_waiting(w)
        ctx.mark(s.start, then, UNREAD, "another time")
        counted_plants.cut(w, then)  # was R2 last week, now | it has pods
        w.resume_at = then
        return True
    not_ours = w.not_ours.get(s.start)
    if not_ours is not None:
        clear_waiting(w)
        ctx.mark(s.start, not_ours[0], UNREAD, not_ours[1])
        counted_plants.cut(w, not_ours[0])
        w.resume_at = not_ours[0]
        return True
    if s.start in w.now_said and not w.barred:
        ctx.mark(s.start, w.now_said[s.start], FILLER)
        w.resume_at = w.now_said[s.start]
        return True
    placed = place_of_the_line(w, s.start, k)
    if placed is not None:
        counted_plants.cut(w, placed)
        w.resume_at = placed
        return True
    return False


def _table_name_or_form(w: Listener, s: Segment, k: int) -> bool:
    """A table, the name of a field, or a line of a form."""
    ctx = w.ctx
    table = w.tables.get(s.start)
    if table is not None:
        end_clause(w, k)
        read_table(ctx, table)
        go_on_with_the_listed(w, table)
        w.resume_at = table.end
        w.at_head = w.at_head and (ctx.visit is None or ctx.visit.empty)
        return True
    name = w.names.get(s.start)
    if name is not None and findopen.rather(ctx.lattice, name):
        name = w.names.pop(s.start) and None
    if name is not None:
        open_name(w, name, k)
        numbering.number_named(w, name.start)
        return True
    line = w.form.get(s.start)
    if line is not None and not any(line.start <= n.start < line.end for n in w.names.values()):
        at = forms.take(ctx, line)
        if at is not None:
            clear_waiting(w)
            w.at_head = w.line_head = w.after_name = False
            w.resume_at = at
            return True
    return False


def _finding(w: Listener, s: Segment, k: int) -> bool:
    """What was found of insects, weeds, diseases and damage."""
    ctx = w.ctx
    if s.start not in ctx.struck and (not w.barred or past_the_cue(w, s)):
        end = findings.take(ctx, w.segments, k, w.names)
        if end is not None:
            revise.hurt(ctx, s.start)
            clear_waiting(w)
            if ctx.places and not ctx.open:
                ctx.name_nothing()  # the bottom ones are tore up, no flowers
            w.barred = None
            w.resume_at = end
            w.line_head = w.after_name = False
            return True
    return False


def _said_once(w: Listener, s: Segment, k: int) -> bool:
    """What is said once of all that follows."""
    ctx = w.ctx
    once = said_once.take(w, s.start) if not w.barred and ctx.said_once is None else None
    if once is not None:
        clear_waiting(w)
        w.resume_at = once
        return True
    return False


def _counts(w: Listener, s: Segment, k: int) -> bool:
    """A list of counts put right, or one that begins here."""
    ctx = w.ctx
    fixed = listfix.put_right(ctx, s.start) if not w.barred and w.begins(s.start) else None
    if fixed is not None:
        clear_waiting(w)
        w.resume_at = fixed
        return True
    end = countlist.counted_list(ctx, s.start) if not w.barred and counts_may_begin(w, s) else None
    if end is not None:
        clear_waiting(w)
        w.at_head = w.line_head = w.after_name = False
        w.resume_at = end
        return True
    return False


STRETCHES = (_of_nothing_here, _table_name_or_form, _finding, _said_once, saying, _counts)
"""What may be taken whole, in this order."""


def counts_may_begin(w: Listener, s: Segment) -> bool:
    """At the head of a clause or behind a name, with no plant spoken of on this line."""
    ctx = w.ctx
    if (ctx.explicit and ctx.plants and ctx.plants[-1].line == ctx.line) or s.start in ctx.struck:
        return False
    if s.phrase is not None and s.phrase.rule in {"date", "label", "filler", "correct", "call", "average"}:
        return False
    if ctx.tally is not None and ctx.tally.what is None:
        return False  # 5 | w/ fl in top 2
    if counted_plants.counted(w):
        return False  # 5 plants, R5 on 1 and 2: their numbers
    pieces = ctx.lattice.pieces
    i = s.start - 1
    while i >= 0 and (ctx.lattice.filler[i] or pieces[i].text in {"with", "had", "have"}):
        i -= 1
    return (
        i < 0
        or pieces[i].form in {"nl", "mark"}
        or w.after_name
        or any(n.end == i + 1 for n in w.names.values())
        or ctx.sample is not None
    )
