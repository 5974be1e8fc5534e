"""Facts of one plant that cannot all hold: the staging core says so, and here it is asked which do (guide 5.6)."""

from __future__ import annotations

from typing import Any

from notesparse.facts import Staged
from notesparse.observing.draft import Ask, PlantDraft, VisitDraft
from notesparse.observing.settling.settled import Settled
from notesparse.span import cover_all

_GO_TOGETHER = {
    "trifoliates": ("nodes",),
    "nodes": ("trifoliates",),
    "seeds": ("seed_mm", "seed_fill", "seeds_from_top"),
    "pods": ("pod_mm", "pods_from_top", "pods_full_length"),
    "flowers": ("flowers_from_top",),
}
"""What else goes with a fact that is left out."""


def ask(
    visits: list[VisitDraft],
    settled: list[list[Settled]],
    stages: list[list[tuple[Staged, Staged]]],
    known: list[Ask],
    text: str,
) -> list[Ask]:
    """A question for every plant without a stage because its facts speak against each other, if none is asked of them
    already: `not up, 4 trifs`, `one brown pod, no pods`."""
    out: list[Ask] = []
    for v, row, of_visit in zip(visits, settled, stages, strict=True):
        live = [p for p in v.plants if not p.dropped]
        for p, s, (by_leaves, by_organs) in zip(live, row, of_visit, strict=True):
            for staged in (by_leaves, by_organs):
                keys = [k for k in staged.decided_by if k in s.spans]
                stated = "stated_r" in keys  # asked where stages are compared
                if staged.clash and keys and not stated and not _asked(p, keys, [*known, *out]):
                    _add(out, Ask("5.6", *_words(p, s, staged, keys, text), p, 0, keys[0], always=True, visit=v))
    return out


def _words(
    p: PlantDraft, s: Settled, staged: Staged, keys: list[str], text: str
) -> tuple[Any, str, list[tuple[str, dict[str, Any]]]]:
    """The words, the question and its choices: neither, or the one fact without the other."""
    choices: list[tuple[str, dict[str, Any]]] = [("not known", {})]
    if len(keys) == 1:
        choices.append((f"“{s.spans[keys[0]].of(text)}” is wrong", {keys[0]: None}))
    for key in keys[:2] if len(keys) > 1 else []:
        others = [k for other in keys if other != key for k in (other, *_GO_TOGETHER.get(other, ()))]
        gone = {k: None for k in others if k in s.values and k != key}
        said = s.spans[key].of(text)
        choices.append((f"“{said}” is right", gone))
    why = staged.why.removesuffix(": to be asked")
    return cover_all(s.spans[k] for k in keys), f"Plant {p.label}: {why}. Which is right?", choices


def _asked(p: PlantDraft, keys: list[str], known: list[Ask]) -> bool:
    """Whether something is asked of these facts of the plant, or of its stage."""
    return any(
        (a.plant is p or any(p is other for other in a.also)) and (a.key in keys or a.rule in {"4.15", "5.6"})
        for a in known
    )


def _add(out: list[Ask], new: Ask) -> None:
    """The same words said of several plants are asked of once."""
    for same in out:
        if same.plant and new.plant and (same.span, same.choices) == (new.span, new.choices):
            same.also = (*same.also, new.plant)
            labels = [p.label for p in (same.plant, *same.also)]
            why = new.text.removeprefix(f"Plant {new.plant.label}")
            same.text = f"Plants {', '.join(labels[:-1])} and {labels[-1]}{why}"
            return
    out.append(new)
