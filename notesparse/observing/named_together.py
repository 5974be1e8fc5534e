"""Fields that are named in one list, of which only the last is told of: which of them is meant is asked (guide 1.2)."""

from __future__ import annotations

import copy

from notesparse.language.cues import cue_page
from notesparse.observing.draft import Ask, VisitDraft
from notesparse.observing.fold import Context
from notesparse.span import Span

_COMMON = cue_page("shared")

_EACH = _COMMON.words("all_or_each")


def ask(ctx: Context) -> None:
    """`Looked at Amber Mill and Slate Mill this morning. R5.`: of which of them is it told, where one is told of and the
    other is not? `All R5` is told of each."""
    for group in _lists(ctx):
        last = group[-1]
        told = sorted([*(s.span for s in last.stated), *(t.span for t in last.tallies)])
        empty = [v for v in group if v.empty]
        if not empty or not told or last.name_span is None or told[0].start < last.name_span.end:
            continue
        if last.name is not None and last.name in ctx.lattice.text[last.name_span.end : told[0].start]:
            continue  # Looked at Amber Mill and Slate Mill. Slate Mill R5
        if _of_all(ctx, told[0]):
            for visit in empty:
                visit.stated += [copy.copy(s) for s in last.stated if s.span == told[0]]
                visit.tallies += [copy.copy(t) for t in last.tallies if t.span == told[0]]
            continue
        words = f"{empty[0].name} and {last.name} were named together. Of which of them is this told?"
        choices: list[tuple[str, dict[str, object]]] = [(f"{last.name} alone", {}), ("each of them", {})]
        ctx.ask(Ask("1.2", last.name_span.cover(told[0]), words, choices, None, 0, None, always=True, visit=last))


def _lists(ctx: Context) -> list[list[VisitDraft]]:
    """Fields that are named in one list, nothing but `and` and commas between."""
    groups: list[list[VisitDraft]] = []
    for visit in ctx.visits:
        before = groups[-1][-1].name_span if groups else None
        here = visit.name_span
        between = ctx.lattice.text[before.end : here.start] if before and here and before.end < here.start else "-"
        words = between.lower().replace(",", " and ").replace("&", " and ").split()
        if groups and words and set(words) <= {"and", "the"}:
            groups[-1].append(visit)
        else:
            groups.append([visit])
    return [g for g in groups if len(g) > 1]


def _of_all(ctx: Context, told: Span) -> bool:
    """`All R3`, `both at R3`, `R3 on all but Gooseberry`."""
    pieces = ctx.lattice.pieces
    before = [p.text for p in pieces if p.span.end <= told.start][-3:]
    behind = [p.text for p in pieces if p.span.start >= told.end][:2]
    return bool(_EACH & set(before)) or (behind[:1] in (["on"], ["in"], ["at"]) and bool(_EACH & set(behind)))
