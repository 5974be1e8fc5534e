"""Plants spoken of again by how they were told of: `those two are still flowering`, `the 11 has quarter inch pods, the other
one has flowers`, `pods on the last two` (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import owners, stages
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.by_place import SO_MANY, number_at
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase, phrases_at

_LISTED = cue_page("walking/those")
_COMMON = cue_page("shared")

_ONES = _COMMON.words("plant") | _COMMON.words("plants") | {"one", "ones"}
_ARE = _LISTED.words("are")
_HAS = _LISTED.words("has")
_FAR = 12  # pieces
_ON = _COMMON.words("of")


def told_together(w: Listener, many: int) -> list[PlantDraft] | None:
    """The last so many plants that one saying was of."""
    groups: dict[int, list[PlantDraft]] = {}
    for p in w.ctx.living():
        starts = {s.span.start for s in p.sightings} | {e.span.start for es in p.facts.values() for e in es}
        for start in starts:
            groups.setdefault(start, []).append(p)
    fit = [start for start, plants in groups.items() if len(plants) == many]
    return groups[max(fit)] if fit else None


def those(w: Listener, i: int) -> int | None:
    """At piece i `those two`, `the 11`, `the other one` is what something is said of: where that begins."""
    at = w.ctx.lattice.at
    if not (i == 0 or w.ctx.lattice.pieces[i - 1].form in {"mark", "nl"} or at(i - 1) in {"and", "but"}):
        return None
    of_stage = _of_that_stage(w, i)
    if of_stage is not None and not of_stage[0]:
        bar(w, Phrase(i, of_stage[1], "past", "past", (), 0.0), "whose this is was not understood")
        return of_stage[1]
    got = _those(w, i) or _of_that_count(w, i) or of_stage or _the_other_one(w, i)
    if got is None:
        return None
    plants, end = got
    w.called_so += plants if got is of_stage else []
    spoken_of = w.ctx.last_what
    clear_waiting(w)
    w.ctx.close()
    w.ctx.plants, w.ctx.explicit, w.ctx.group, w.ctx.last_what = plants, True, None, spoken_of
    w.ctx.statements.clear()
    w.ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _those(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`those two are`, `these three have`."""
    got = _so_many_of_these(w, i)
    return got if got is not None and len(got[0]) > 1 and w.ctx.lattice.at(got[1]) in _ARE else None


def _so_many_of_these(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`those two`, `these three`: the last so many that one saying was of."""
    at = w.ctx.lattice.at
    if at(i) not in {"those", "these"}:
        return None
    number = number_at(w, i + 1)
    many = int(number.means) if number is not None else SO_MANY.get(at(i + 1))
    plants = told_together(w, many) if many is not None else None
    return (plants, number.end if number is not None else i + 2) if plants else None


def _of_that_count(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`the 11 has`: the one plant of which so many leaves were counted."""
    at = w.ctx.lattice.at
    number = number_at(w, i + 1) if at(i) == "the" else None
    if number is None or at(number.end) not in _HAS | {"one"}:
        return None
    end = number.end + (at(number.end) == "one")
    counted = [(p, e) for p in w.ctx.living() for k in ("trifoliates", "nodes") if (e := p.last(k)) is not None]
    fit = [p for p, e in counted if e.value == number.means]
    several = len({e.value for _, e in counted}) > 1
    return (fit, end) if len(fit) == 1 and several and at(end) in _HAS else None


def _of_that_stage(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`the R7 one has a brown pod`, `the R6 ones`: the plants that were called so, where some were called otherwise; none
    where it cannot be told which they are."""
    at = w.ctx.lattice.at
    if at(i) != "the" or not 1 < len(w.ctx.living()):
        return None
    for ph in phrases_at(w.ctx.lattice, i + 1):
        if ph.rule != "stage" or at(ph.end) not in _ONES:
            continue
        said = {f"stated_{k}": v for k, v in (stages.read_stage(ph) or {}).items()}
        called = [
            p for p in w.ctx.living() if any((e := p.last(k)) is not None and e.value == v for k, v in said.items())
        ]
        others = len(called) < len(w.ctx.living())
        one = at(ph.end) in {"one", "plant"}
        end = ph.end + 1 + (at(ph.end + 1) in {"=", ":", "-"})
        return (called if others and (len(called) == 1) == one else []), end
    return None


def _the_other_one(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`the other one has`: of two plants that were named together."""
    at, ctx = w.ctx.lattice.at, w.ctx
    if at(i) != "the" or at(i + 1) != "other" or len(ctx.plants) != 1 or not ctx.explicit:
        return None
    end = i + 2 + (at(i + 2) in _ONES)
    live = ctx.living()
    here = next((n for n, p in enumerate(live) if p is ctx.plants[0]), None)
    if here is None or at(end) not in _HAS or len(live) <= _PAIR:
        return None
    beside = [live[n] for n in (here - 1, here + 1) if 0 <= n < len(live) and live[n].line == live[here].line]
    last_two = [p for p in beside if live[-2:] in ([p, live[here]], [live[here], p])]
    return (last_two, end) if last_two else None


_PAIR = 2


def on_those(w: Listener, ph: Phrase) -> owners.Owners | None:
    """`R6 for those three`, `blooms on those two, top node`, `pods on the last two`: behind what is said of them."""
    at = w.ctx.lattice.at
    for i in range(ph.end, min(ph.end + _FAR, len(w.ctx.use) - 2)):
        if w.hard_end(i):
            return None
        if at(i) not in _ON:
            continue
        row = at(i) in {"on", "for"} and ph.rule != "stage"  # R2 on the first three, R1 on the last two: five plants
        got = _so_many_of_these(w, i + 1) or (_first_or_last(w, i + 1) if row else None)
        if got is not None and (w.ends_at(got[1]) or at(got[1]) in {"and", "but"}):
            return owners.Owners(i, got[1], got[0])
    return None


def _first_or_last(w: Listener, i: int) -> tuple[list[PlantDraft], int] | None:
    """`the last two`, `the first three plants`: by where they stand in the row."""
    at = w.ctx.lattice.at
    end = i + (at(i) == "the")
    which = at(end)
    number = number_at(w, end + 1) if which in {"first", "last"} else None
    live = w.ctx.visit.plants if w.ctx.visit is not None else []
    row = [p for p in live if not p.dropped]
    if number is None or not 1 < int(number.means) < len(row) or not any(p.named or p.counted for p in row):
        return None
    many, end = int(number.means), number.end
    end += at(end) in _ONES
    return row[:many] if which == "first" else row[-many:], end
