"""`3 = 1` behind plants of 9 and 10 trifoliates: plant 3 is like plant 1, as no plant beside those has one (guide 4.18)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from notesparse.observing import revise
from notesparse.observing.walking.listening import Listener
from notesparse.span import Span

_FAR_BELOW = 4  # trifoliates


def is_as_another(w: Listener, number: Any, span: Span) -> bool:
    """Gives the plants just named the facts of the plant of that number, where the number is no count."""
    ctx = w.ctx
    if ctx.visit is None or not ctx.explicit or any(not p.empty for p in ctx.plants) or not is_a_label(w, number):
        return False
    source = ctx.visit.plant(str(number))
    if source is None or any(p is source for p in ctx.plants):
        return False
    for plant in ctx.plants:
        revise.copy_facts(source, plant, span)
    return True


def is_a_label(w: Listener, number: Any, counts: Mapping[str, int] | None = None) -> bool:
    """A plant of that number was told of, and every plant told of has far more leaves; `counts`: of plants told of in the
    same sentence."""
    ctx = w.ctx
    if not isinstance(number, int) or ctx.visit is None:
        return False
    source = ctx.visit.plant(str(number))
    if (source is None or source.empty) and str(number) not in (counts or {}):
        return False
    told = list((counts or {}).values())
    told += [e.value for p in ctx.living() for key in ("trifoliates", "nodes") for e in [p.last(key)] if e is not None]
    return bool(told) and all(isinstance(n, int) and n >= number + _FAR_BELOW for n in told)
