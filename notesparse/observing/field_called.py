"""The stage that a field is called against the one that its plants give (guide 4.15, 6.4)."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.facts import FieldStage, Staged
from notesparse.observing.draft import Ask, StatedDraft, VisitDraft
from notesparse.observing.settling.settled import Settled
from notesparse.staging.reproductive import r_bounds
from notesparse.staging.scale import agrees, is_range, rank, said, whole_stage


def ask(
    visits: list[VisitDraft],
    settled: list[list[Settled]],
    stages: list[list[tuple[Staged, Staged]]],
    fields: Sequence[FieldStage],
    known: list[Ask],
) -> list[Ask]:
    """`V3 overall. Plant 1 five trifs, plant 2 five`: asked once a scale; what was counted stands meanwhile."""
    out = []
    for v, row, of_visit, field in zip(visits, settled, stages, fields, strict=True):
        for letter, computed, basis in (("v", field.v, field.basis_v), ("r", field.r, field.basis_r)):
            call = _called(v, letter)
            if call is None or computed is None or basis != "plants" or agrees(call.value, computed):
                continue
            staged = [(by_leaves if letter == "v" else by_organs).stage for by_leaves, by_organs in of_visit]
            among = sorted((one for one in staged if one is not None), key=rank)
            if among and rank(among[0]) <= _top(call) <= rank(among[-1]):
                continue  # field about V7, of a plant at V7 and one at V8
            if _asked(v, letter, known) or _only_a_floor(call, letter, computed, row, of_visit):
                continue
            seen = "no open flower" if computed == "none" else computed
            text = f"The field is called {said(call.value)}, and its plants give {seen}. Which stands?"
            stated = {f"stated_{letter}": call.value, "stands": letter}
            choices = [(f"{seen}, by the plants", {}), (f"{said(call.value)}, as called", stated)]
            out.append(Ask("4.15", call.span, text, choices, None, 0, f"stated_{letter}", always=True, visit=v))
    return out


def _top(call: StatedDraft) -> int:
    """The rank of the call, of a range its upper end; -1 where it is no stage of the scale."""
    end = call.value if isinstance(call.value, str) else call.value[-1]
    whole = whole_stage(end)
    return rank(whole) if whole is not None else -1


def _called(v: VisitDraft, letter: str) -> StatedDraft | None:
    """What the whole field is called, if that is one stage or one range."""
    calls = [s for s in v.stated if s.letter == letter and s.where is None and not s.average]
    return calls[-1] if calls and len({s.value for s in calls}) == 1 else None


def _asked(v: VisitDraft, letter: str, known: list[Ask]) -> bool:
    return letter in v.stands or any(
        a.visit is v and a.plant is None and a.key in {f"stated_{letter}", "tally"} for a in known
    )


def _only_a_floor(
    call: StatedDraft, letter: str, computed: str, row: list[Settled], of_visit: list[tuple[Staged, Staged]]
) -> bool:
    """`R2 overall, both flowering`: what was seen of the plants leaves room for the higher stage that the field is called."""
    whole = None if is_range(call.value) else whole_stage(said(call.value))
    if whole is None or rank(whole) <= rank(computed):
        return False
    if letter == "v":
        return not any(
            by_leaves.stage and {"trifoliates", "nodes", "stated_v"} & set(by_leaves.decided_by)
            for by_leaves, _ in of_visit
        )
    speak = [
        r_bounds(s.facts()) for s, (_, by_organs) in zip(row, of_visit, strict=True) if by_organs.stage is not None
    ]
    against = [b for b in speak if b.below is not None and rank(b.below.stage) <= rank(whole)]
    return 2 * len(against) < len(speak)
