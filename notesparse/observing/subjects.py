"""A statement whose subject nobody could read: it is of no plant that was told of before (guide 1.1).

`1: 8 trifs. 2: 9 trifs. The borders are podded`, `the tallest has blooms`, `the other two had no bloom`: what stands
before the verb is who has it, and where that is not understood the last plant does not get it.
"""

from __future__ import annotations

from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.observing.uncounted import DENIED, ENDS, around
from notesparse.span import Span

_VERBS = frozenset({"has", "have", "had", "is", "are", "were", "was", "'s", "'ve", "got", "show", "shows", "showed"})
_STANDS_FOR = frozenset("it that they this these those there he she which who you i we".split())
_WITH_THE_VERB = frozenset("does do did still also just really now only even already all both has have had".split())
_WHY = "whose this is was not understood"


def leave_out(ctx: Context) -> None:
    """Takes such statements from the plants that they were given to."""
    for visit in ctx.visits:
        for plant in list(visit.plants):
            for s in [s for s in plant.sightings if not s.copied and not s.group and _nobodys(ctx, s.span)]:
                plant.sightings.remove(s)
                for span in s.spans:
                    ctx.mark_span(span, UNREAD, _WHY)
            for key in ("stated_v", "stated_r"):
                for e in [e for e in plant.facts.get(key, []) if not (e.copied or e.group) and _nobodys(ctx, e.span)]:
                    plant.facts[key].remove(e)
                    ctx.mark_span(e.span, UNREAD, _WHY)
                if not plant.facts.get(key, [True]):
                    del plant.facts[key]
            if not plant.named and plant.empty and not any(a.plant is plant for a in ctx.asks):
                visit.plants.remove(plant)


def _nobodys(ctx: Context, said: Span) -> bool:
    """Whether nothing but a verb stands between it and unread words that begin the clause."""
    pieces = ctx.lattice.pieces
    at = next(i for i, p in enumerate(pieces) if p.span.start >= said.start)
    verb = at - 1
    while verb > 0 and ctx.lattice.filler[verb] and pieces[verb].text not in _VERBS:
        verb -= 1
    if verb < 1 or pieces[verb].text not in _VERBS or ctx.use[verb] == EVIDENCE:
        return False
    first = around(ctx, at, ENDS | {","})[0]
    while verb > first and pieces[verb - 1].text in _WITH_THE_VERB:
        verb -= 1  # it does have a bloom
    subject = range(first, verb)
    if any(pieces[i].text in DENIED for i in subject):
        return False  # asked where the denial is
    if not subject or pieces[verb - 1].text in _STANDS_FOR or any(ctx.use[i] == EVIDENCE for i in subject):
        return False
    return any(ctx.use[i] in {UNREAD, "weak"} and pieces[i].form == "word" for i in subject)
