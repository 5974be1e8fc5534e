"""A value for each of several plants, in order: `plants one through four are ten, eleven, eleven and twelve trifs`."""

from __future__ import annotations

from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COUNTS = {"trif_n": "trifoliates", "nodes_n": "nodes", "share_brown": "mature_pods_percent"}


def one_each(w: Listener, ph: Phrase, span: Span, k: int) -> bool:
    """Give each plant of the label its own count, where as many counts as plants stand between the label and the
    noun."""
    ctx = w.ctx
    if ph.form == "trif_nr":
        return _two_behind(w, ph, span)
    key = _COUNTS.get(ph.form)
    if key is None or ctx.group is not None or any(p.facts for p in ctx.plants):
        return False
    so_many: int | None = None
    if not numbers_of(ph):
        return False
    values: list[tuple[int, Span]] = [(numbers_of(ph)[0], span)]
    first = ph.start
    for s in reversed(w.segments[:k]):
        if s.phrase is None:
            if w.hard_end(s.start):
                return False
        elif s.phrase.rule in {"bareint", "numlist"} and len(numbers_of(s.phrase)) == len(s.phrase.path):
            here = ctx.span(s.start, s.end)
            values[:0] = [(n, here) for n in numbers_of(s.phrase)]
            first = s.start
        elif s.phrase.rule == "label":
            break
        elif s.phrase.form in {"n_plants", "sampled"} and not ctx.plants:
            so_many = numbers_of(s.phrase)[0]
            break
        elif s.phrase.rule not in {"filler", "past", "where"}:  # p3 and p4 by the pond: 10 and 11 tf
            return False
    if len(values) < 2 or len(values) != (so_many if so_many is not None else len(ctx.plants)):
        return False
    plants = ctx.plants or ctx.begin([str(n + 1) for n in range(len(values))], span)
    for plant, (n, where) in zip(plants, values, strict=True):
        ctx.plants = [plant]
        if key == "mature_pods_percent":
            leaves.put(ctx, key, float(n), where)
        elif leaves.count(ctx, key, n, where) is None:
            ctx.plants = plants
            return False
    ctx.plants = plants
    ctx.mark(first, ph.end, EVIDENCE)
    return True


def _two_behind(w: Listener, ph: Phrase, span: Span) -> bool:
    """`plants 1 and 2: trifs 10 and 11`: two plants that were named together, and two counts behind the noun."""
    ctx, at = w.ctx, w.ctx.lattice.at
    two = ctx.group is None and ctx.explicit and len(ctx.plants) == 2 and not any(p.facts for p in ctx.plants)
    second = number_at(w, ph.end + 1) if two and at(ph.end) in {"and", "&"} else None
    if second is None:
        return False
    ends = w.ends_at(second.end) or at(second.end) == "," or "PLANT" in ctx.lattice.kinds(second.end)
    if not ends:
        return False
    plants = ctx.plants
    values = (numbers_of(ph)[0], span), (int(second.means), ctx.span(ph.end + 1, second.end))
    for plant, (n, where) in zip(plants, values, strict=True):
        ctx.plants = [plant]
        leaves.count(ctx, "trifoliates", n, where)
    ctx.plants, w.resume_at = plants, second.end
    ctx.mark(ph.start, second.end, EVIDENCE)
    return True
