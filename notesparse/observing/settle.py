"""What was seen of one plant, to facts: counts, organs with their places and sizes, what contradicts itself."""

from __future__ import annotations

from notesparse.observing.draft import PlantDraft, merged
from notesparse.observing.fold import Context
from notesparse.observing.settling.organs import organ
from notesparse.observing.settling.questions import ask_clash, clash
from notesparse.observing.settling.settled import Settled


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
    _ripe_pods(p, out)
    _counts(ctx, out)
    for what in ("flowers", "pods", "seeds"):
        seen = merged(p, what)
        if seen:
            organ(ctx, p, out, what, seen)
    return out


def _ripe_pods(p: PlantDraft, out: Settled) -> None:
    """The share of ripe pods says whether there is one."""
    share, some = out.values.get("mature_pods_percent"), out.values.get("mature_pods")
    if share is None or some is None:
        return
    own = not all(e.copied or e.group for e in p.facts["mature_pods"])
    if some == "none" and share > 0 and own:
        return  # no brown pods, half the pods are brown: asked where the stages are known
    del out.values["mature_pods"]
    out.spans.pop("mature_pods", None)


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
