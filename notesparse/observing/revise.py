"""Same again, corrections, taking back (guide 4.17, 4.18)."""

from __future__ import annotations

import copy

from notesparse.observing.draft import Ask, PlantDraft, merged
from notesparse.observing.fold import Context, numbers_of
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span


def copy_facts(source: PlantDraft, target: PlantDraft, span: Span, only: str | None = None) -> None:
    """All facts of one plant, as the other's own words say `same`."""
    for key, entries in source.facts.items():
        if only and not key.startswith(only):
            continue
        if entries:
            e = copy.copy(entries[-1])
            e.span, e.copied = span, True
            target.facts.setdefault(key, []).insert(0, e)
    copied = []
    for s in [s for what in ("flowers", "pods", "seeds") for s in merged(source, what)]:
        if only and s.what != only:
            continue
        c = copy.deepcopy(s)
        c.spans = [span]
        c.copied = True
        copied.append(c)
    target.sightings[:0] = copied


def same(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    visit = ctx.here()
    if f in {"n_same", "n_same_n"}:
        n = numbers_of(ph)[0]
        ctx.begin([str(n)], span)
        f = "same_last" if f == "n_same" else "same_n"
    plants = ctx.plants
    live = [p for p in visit.plants if not p.dropped and p not in plants]
    if not plants:
        if not live:
            return False
        plants = ctx.begin([ctx.next_label()], span, named=False)
    label: str | None = None
    if f in {"same_n", "same_ord", "same_pods"}:
        label = str(numbers_of(ph)[-1])
    elif f == "same_letter":
        label = str(next(e.means for _, e in ph.path if e.kind == "LETTER"))
    for target in plants:
        source: PlantDraft | None
        if label is not None:
            source = next((p for p in reversed(visit.plants) if p.label.casefold() == label.casefold() and not p.dropped and p is not target), None)
        else:
            first = visit.plants.index(plants[0])
            source = next((p for p in reversed(visit.plants[:first]) if not p.dropped and not p.empty), None)
        if source is None or source.empty:
            others = [p for p in visit.plants if not p.dropped and p is not target and not p.empty]
            ctx.same_targets.append((target, label or "the plant before it", span))
            del others
            return True
        copy_facts(source, target, span, "pods" if f == "same_pods" else None)
    ctx.close()
    ctx.last_what = next((s.what for s in reversed(plants[-1].sightings)), None)
    return True


def settle_targets(ctx: Context) -> None:
    """`same as plant 6` where there is no plant 6 before it (yet): asked, with the plants there are as choices."""
    for target, label, span in ctx.same_targets:
        visit = next((v for v in ctx.visits if target in v.plants), None)
        if visit is None:
            continue
        others = [p for p in visit.plants if p is not target and not p.dropped and not p.empty]
        choices: list[tuple[str, dict[str, object]]] = [("not known", {})]
        choices += [(f"as plant {p.label}", {"same_as": p.label}) for p in others[:6]]
        ctx.ask(Ask("4.18", span, f"Plant {target.label} is said to be the same as {label if not label.isalnum() else 'plant ' + label}, "
                                  "which this note does not describe. Which plant is it like?", choices, target, 0, "same_as", always=True, visit=visit))


def take_back(ctx: Context, span: Span, whole_plant: bool) -> None:
    """`scratch that`: the last statement goes, or the plant back to its label."""
    if not ctx.statements:
        return
    if whole_plant:
        plant = ctx.statements[-1].plant
        gone = []
        while ctx.statements and ctx.statements[-1].plant is plant:
            s = ctx.statements.pop()
            s.undo()
            gone.append(s.span)
        if plant is not None:
            plant.dropped = True
        if gone:
            ctx.corrected.append(Correction("4.17", Span(min(g.start for g in gone), max(g.end for g in gone)), "taken back"))
            _unmark(ctx, gone)
        ctx.leave_plants()
        return
    s = ctx.statements.pop()
    s.undo()
    ctx.asks = [a for a in ctx.asks if not a.span.overlaps(s.span)]
    ctx.corrected.append(Correction("4.17", s.span, "taken back"))
    _unmark(ctx, [s.span])
    ctx.close()


def _unmark(ctx: Context, spans: list[Span]) -> None:
    for k, p in enumerate(ctx.lattice.pieces):
        if any(s.start <= p.span.start < s.end for s in spans):
            ctx.use[k] = "unread"
            ctx.why[k] = "taken back"
