"""What was seen of one plant, to facts: counts, organs with their places and sizes, what contradicts itself."""

from __future__ import annotations

from notesparse.observing.draft import PlantDraft, merged
from notesparse.observing.fold import Context
from notesparse.observing.settling.organs import organ
from notesparse.observing.settling.questions import ask, ask_clash, clash
from notesparse.observing.settling.settled import Settled

__all__ = ["Settled", "settle"]


def settle(ctx: Context, p: PlantDraft) -> Settled:
    """All facts of a plant. Questions go to `ctx`."""
    out = Settled()
    for key, entries in p.facts.items():
        use = [e for e in entries if not e.copied] or entries
        if not use:
            continue
        if clash(use):
            ask_clash(ctx, p, key, use)
        out.put(key, use[0].value, use[0].span)
    if out.values.get("mature_pods_percent") is not None and out.values.get("mature_pods") == "one":
        del out.values["mature_pods"]
        out.spans.pop("mature_pods", None)
    _counts(ctx, out)
    for what in ("flowers", "pods", "seeds"):
        seen = merged(p, what)
        if seen:
            organ(ctx, p, out, what, seen)
    _contradiction(ctx, p, out)
    return out


def _counts(ctx: Context, out: Settled) -> None:
    """Nodes from trifoliates, or trifoliates from nodes (guide 4.9)."""
    t, n = out.values.get("trifoliates"), out.values.get("nodes")
    if t is not None and n is None:
        out.put("nodes", t + 1, out.spans["trifoliates"], derived=True)
    elif n is not None and t is None and n >= 1:
        cotyledon = ctx.node_start == "cotyledon" and n >= 2
        out.put("trifoliates", n - 2 if cotyledon else n - 1, out.spans["nodes"], derived=True)
        told = (
            "nodes are counted from the cotyledon node, by the setting node_start: two trifoliates less than nodes"
            if cotyledon
            else "nodes are counted from the unifoliate node: one trifoliate less than nodes"
        )
        ctx.assume("4.9", out.spans["nodes"], told)


def _contradiction(ctx: Context, p: PlantDraft, out: Settled) -> None:
    """Seed but no pods (guide 5.6)."""
    if out.values.get("seeds") is True and out.values.get("pods") is False:
        ask(
            ctx,
            p,
            "5.6",
            out.spans["seeds"].cover(out.spans["pods"]),
            f"Plant {p.label} is said to have seed but no pods. Which is right?",
            [
                ("not known", {}),
                ("it has pods", {"pods": True}),
                ("it has no seed", {"seeds": False, "seed_mm": None, "seed_fill": None, "seeds_from_top": None}),
            ],
            "pods",
            always=True,
        )
