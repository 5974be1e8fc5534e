"""What is stated against what is computed, and habits of counting: asked once, not once a plant (guide 4.9, 4.15,
7)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from notesparse.facts import Stage, Staged
from notesparse.observing.draft import Ask, PlantDraft, TallyDraft, VisitDraft
from notesparse.observing.settling.settled import Settled
from notesparse.observing.tallies import counted_up
from notesparse.span import cover_all
from notesparse.staging.scale import agrees, rank, said, whole_stage
from notesparse.staging.tallies import tallied_stage

RULES = ("open-trifoliates", "open-nodes", "developed-trifoliates")
_SHIFT = {"open-trifoliates": 0, "open-nodes": 1, "developed-trifoliates": -1}


_YOUNG = frozenset({"VE", "VC", "V1", "V2"})  # guide 8: asked where R1 has begun


def _live(v: VisitDraft) -> list[PlantDraft]:
    return [p for p in v.plants if not p.dropped]


def nodes_habit(visits: list[VisitDraft], settled: list[list[Settled]], start: str = "ask") -> list[Ask]:
    """Nodes that are not trifoliates + 1; `start` is where the scout starts to count them, if that is known."""
    out = []
    for v, row in zip(visits, settled, strict=True):
        both = [
            (p, s)
            for p, s in zip(_live(v), row, strict=True)
            if "trifoliates" in s.values and "nodes" in s.values and not {"nodes", "trifoliates"} & set(s.derived)
        ]
        off = [(p, s) for p, s in both if s.values["nodes"] != s.values["trifoliates"] + 1]
        if not off:
            continue
        habit = (
            start != "unifoliate"
            and len(both) > 1
            and all(s.values["nodes"] == s.values["trifoliates"] + 2 for _, s in both)
        )
        for p, s in off[:1] if habit else off:
            t, n = s.values["trifoliates"], s.values["nodes"]
            span = s.spans["trifoliates"].cover(s.spans["nodes"])
            choices: list[tuple[str, dict[str, object]]] = []
            if n == t + 2:
                choices.append((f"{t} trifoliates; the cotyledon node was counted too", {"trifoliates": t, "nodes": n}))
            else:
                choices.append((f"{t} trifoliates, {n} nodes as written", {"trifoliates": t, "nodes": n}))
            choices.append((f"{t} trifoliates, so {t + 1} nodes", {"trifoliates": t, "nodes": t + 1}))
            choices.append((f"{n} nodes, so {n - 1} trifoliates", {"trifoliates": n - 1, "nodes": n}))
            text = (
                "In this note nodes are two more than trifoliates: was the cotyledon node counted?"
                if habit
                else f"Plant {p.label} has {t} trifoliates and {n} nodes; nodes should be one more. Which is right?"
            )
            rule = "7.2" if habit else "4.9"
            starts = ("cotyledon" if n == t + 2 else "", "unifoliate" if habit else "", "")
            kind = "node_start" if n == t + 2 else ""
            ask = Ask(rule, span, text, choices, p, 0, "nodes", visit=v, all_alike=habit, habit=kind, habits=starts)
            out.append(ask)
    return out


def alike(row: list[Settled], i: int, changes: Mapping[str, Any]) -> dict[int, dict[str, Any]]:
    """What an answer about plant `i` says of the other plants whose nodes are as many more than their trifoliates."""
    t, n = row[i].values.get("trifoliates"), row[i].values.get("nodes")
    if t is None or n is None:
        return {}
    out: dict[int, dict[str, Any]] = {}
    for j, s in enumerate(row):
        other = s.values.get("trifoliates")
        if (
            j == i
            or other is None
            or s.values.get("nodes") != other + n - t
            or {"nodes", "trifoliates"} & set(s.derived)
        ):
            continue
        moved = {
            key: changes[key] - row[i].values[key]
            for key in ("trifoliates", "nodes")
            if isinstance(changes.get(key), int)
        }
        out[j] = {key: s.values[key] + by for key, by in moved.items()}
    return out


def too_young(
    visits: list[VisitDraft], settled: list[list[Settled]], stages: list[list[tuple[Staged, Staged]]]
) -> list[Ask]:
    """Flowers or pods on plants of two trifoliates or fewer (guide 8): asked once a visit, on the first of them."""
    out = []
    for v, row, staged in zip(visits, settled, stages, strict=True):
        young = [
            (p, s)
            for p, s, (sv, sr) in zip(_live(v), row, staged, strict=True)
            if sv.stage in _YOUNG and sv.basis == "counted" and sr.basis == "seen" and str(sr.stage).startswith("R")
        ]
        if not young:
            continue
        p, s = young[0]
        key = "trifoliates" if "trifoliates" in s.spans else "nodes"
        if key not in s.spans:
            continue
        n = s.values[key]
        more = f" (and {len(young) - 1} more plants like it)" if len(young) > 1 else ""
        text = f"Plant {p.label} has {n} {key}{more} and yet flowers or pods: is that a count of {key}?"
        choices: list[tuple[str, dict[str, object]]] = [(f"yes, {n} {key}", {key: n}), ("not known", {key: None})]
        out.append(Ask("8", s.spans[key], text, choices, p, 0, key, always=True, visit=v))
    return out


def counting_habit(
    visits: list[VisitDraft], settled: list[list[Settled]], stages: list[list[tuple[Staged, Staged]]], rule: str
) -> list[Ask]:
    """A V stated beside a count shows which rule the scout uses: asked once for the note (guide 7.1)."""
    for v, row, st in zip(visits, settled, stages, strict=True):
        for p, s, (vs, _) in zip(_live(v), row, st, strict=True):
            stated = s.values.get("stated_v")
            if not isinstance(stated, str) or vs.basis != "counted" or vs.stage is None:
                continue
            t = s.values.get("trifoliates")
            whole = whole_stage(stated)
            if t is None or whole is None or not whole[1:].isdigit() or whole == vs.stage:
                continue
            shift = int(whole[1:]) - t
            fits = [r for r in RULES if _SHIFT[r] == shift]
            if not fits:
                continue
            choices: list[tuple[str, dict[str, object]]] = [
                (f"{t} trifoliates are {vs.stage} ({rule})", {"counting_rule": rule})
            ]
            choices += [(f"{t} trifoliates are {whole} ({r})", {"counting_rule": r}) for r in fits if r != rule]
            span = s.spans["trifoliates"].cover(s.spans["stated_v"])
            return [
                Ask(
                    "7.1",
                    span,
                    f"{t} trifoliates are called {whole}: by which rule is V counted in this note?",
                    choices,
                    p,
                    0,
                    "counting_rule",
                    always=True,
                    visit=v,
                    habit="counting_rule",
                    habits=tuple(str(changes["counting_rule"]) for _, changes in choices),
                )
            ]
    return []


def stated_against_computed(
    visits: list[VisitDraft],
    settled: list[list[Settled]],
    stages: list[list[tuple[Staged, Staged]]],
    known: list[Ask],
) -> list[Ask]:
    """A plant's stated stage that differs from what its evidence gives (guide 4.15)."""
    out = []
    habit: int | None = None
    for v, row, st in zip(visits, settled, stages, strict=True):
        for p, s, (vs, rs) in zip(_live(v), row, st, strict=True):
            for letter, staged, basis in (("v", vs, "counted"), ("r", rs, "seen")):
                key = f"stated_{letter}"
                stated = s.values.get(key)
                if (
                    isinstance(stated, str)
                    and staged.stage is None
                    and staged.decided_by
                    and set(staged.decided_by) & set(s.spans) - {key}
                    and letter == "r"
                ):
                    if not any(a.plant is p for a in known):
                        out.append(
                            Ask(
                                "4.15",
                                s.spans[key],
                                f"Plant {p.label} is called {stated}, but {staged.why}. Which is right?",
                                [("not known", {}), (f"{stated}, as stated", {key: stated, "stands": letter})],
                                p,
                                0,
                                key,
                                always=True,
                                visit=v,
                            )
                        )
                    continue
                if stated is None or staged.stage is None or staged.basis != basis:
                    continue
                if agrees(stated, staged.stage):
                    continue
                if letter == "v":
                    whole = whole_stage(stated) if isinstance(stated, str) else None
                    t = s.values.get("trifoliates")
                    if whole and t is not None and whole[1:].isdigit() and int(whole[1:]) - t in {1, -1}:
                        if habit is None:
                            habit = int(whole[1:]) - t
                        if habit == int(whole[1:]) - t:
                            continue  # asked once as the counting rule
                span = s.spans[key]
                for other in staged.decided_by:
                    if other in s.spans and abs(s.spans[other].start - span.end) < 60:
                        span = span.cover(s.spans[other])
                out.append(
                    Ask(
                        "4.15",
                        span,
                        f"Plant {p.label} is called {said(stated)}, and what was seen gives {_none(staged.stage)}. Which is right?",
                        [
                            (f"{_none(staged.stage)}, as seen", {key: stated}),
                            (
                                f"{said(stated)}, as stated: what was seen is left aside",
                                {key: stated, "stands": letter},
                            ),
                        ],
                        p,
                        0,
                        key,
                        always=True,
                        visit=v,
                    )
                )
    return out


def _none(stage: str) -> str:
    return "no open flower" if stage == "none" else stage


def statements_differ(visits: list[VisitDraft]) -> list[Ask]:
    """`overall R3. well, R2`: asked, the later one meanwhile (guide 4.15). So is `V4, most plants have five trifoliates`."""
    out = []
    for v in visits:
        for letter in "vr":
            whole = [s for s in v.stated if s.letter == letter and s.where is None]
            said_ = [s for s in whole if not s.average]
            if said_ and len({s.value for s in said_}) == 1:
                said_ = [*(s for s in whole if s.average and not _one_in_the_other(s.value, said_[0].value)), *said_]
            if len(said_) < 2 or all(s.value == said_[-1].value for s in said_):
                continue
            last = said_[-1].value
            other = next(s for s in reversed(said_) if s.value != last)  # R3 / R2 / R2
            span, first = other.span.cover(said_[-1].span), other.value
            key = f"stated_{letter}"
            out.append(
                Ask(
                    "4.15",
                    span,
                    f"The field is called {said(first)} and then {said(last)}. Which stands?",
                    [(said(last), {key: last}), (said(first), {key: first})],
                    None,
                    0,
                    key,
                    always=True,
                    visit=v,
                )
            )
    return out


def _one_in_the_other(a: Stage, b: Stage) -> bool:
    """The same stage, or one that lies in the range of the other."""
    return (isinstance(b, str) and agrees(a, b)) or (isinstance(a, str) and agrees(b, a))


def tallies_differ(visits: list[VisitDraft]) -> list[Ask]:
    """`R1 just barely, 3 of 10`: the field is called a stage that fewer than half of the plants have reached (guide
    4.16)."""
    out = []
    for v in visits:
        stated = [s for s in v.stated if s.letter == "r" and s.where is None and isinstance(s.value, str)]
        whole = whole_stage(stated[-1].value) if stated else None
        for t in v.tallies:
            if (
                t.what != whole
                or t.exclusive
                or t.negative
                or not t.of
                or t.count is None
                or 2 * t.count >= t.of
                or t.stops
            ):
                continue
            key = "stated_r"
            out.append(
                Ask(
                    "4.16",
                    stated[-1].span.cover(t.span),
                    f"The field is called {whole}, and {t.count:g} of {t.of:g} have reached it. Which stands?",
                    [
                        (f"{whole}, as stated", {key: stated[-1].value, "stands": "r"}),
                        (f"the count: fewer than half are at {whole}", {}),
                    ],
                    None,
                    1,
                    key,
                    always=True,
                    visit=v,
                )
            )
    return out


def more_than_all(visits: list[VisitDraft]) -> list[Ask]:
    """`of the twelve, 6 were R6 and 8 were R5`: plants called one stage or another that are more than were looked at
    (guide 4.16)."""
    out = []
    for v in visits:
        called = [t for t in v.tallies if t.called and t.count is not None and t.of and not t.stops and not t.exclusive]
        letters = {(t.what or "")[:1] for t in called}
        whole = {t.of for t in called}
        total = sum(t.count or 0 for t in called)
        of = whole.pop() if len(whole) == 1 else None
        apart = of is not None and len(letters) == 1 and len({t.what for t in called}) == len(called) > 1
        if not apart or of is None or total <= of or any(t.count == of for t in called):
            continue
        if {t.what for t in called} == {"R1", "R2"}:
            continue  # 4 at R1, 3 R2 of five: those at R2 bloom too
        told = " and ".join(f"{t.count:g} at {t.what}" for t in called)
        lowest = min((t.what or "R1" for t in called), key=rank)
        text = f"{told} are more than the {of:g} plants looked at. Were those at the later stage counted twice?"
        out.append(_of_the_count(v, called, text, ("yes", {}), (f"no: the field is at {lowest}", _field_at(lowest))))
    return out


def _field_at(stage: str) -> dict[str, Any]:
    letter = stage[0].lower()
    return {f"stated_{letter}": stage, "stands": letter}


def _of_the_count(v: VisitDraft, told: list[TallyDraft], text: str, *choices: tuple[str, dict[str, Any]]) -> Ask:
    """A question about the classes of a count, as they stand in the note."""
    span = cover_all(t.span for t in told)
    key = f"stated_{(told[0].what or 'R1')[0].lower()}"
    return Ask("4.16", span, text, list(choices), None, 0, key, always=True, visit=v)


def fewer_than_all(visits: list[VisitDraft]) -> list[Ask]:
    """`ten plants. 4 at R3, 4 at R2`: two are told of nowhere, and the stage turns on them (guide 4.16)."""
    out = []
    for v in visits:
        called = sorted((t for t in v.tallies if t.called and t.exclusive), key=lambda t: rank(t.what or "R1"))
        of = called[0].of if len(called) == len(v.tallies) > 1 else None
        if not of or any(t.count is None or t.of != of for t in called):
            continue
        left = of - sum(t.count or 0 for t in called)
        turning = []
        reached = 0.0
        for t in reversed(called):
            reached += t.count or 0
            if 2 * reached < of <= 2 * (reached + left):
                turning.append(t)
        if left <= 0 or not turning:
            continue
        stage = turning[0].what or "R1"
        text = f"Of {of:g} plants the stage of {of - left:g} is told. Have the other {left:g} reached {stage}?"
        out.append(_of_the_count(v, called, text, ("no", {}), (f"yes: the field is at {stage}", _field_at(stage))))
    return out


def tallies_against_plants(visits: list[VisitDraft], stages: list[list[tuple[Staged, Staged]]]) -> list[Ask]:
    """`all ten at R3 but number 7, which is R2`: the plants that are described decide, though more were counted
    (guide 6.2)."""
    out = []
    for v, row in zip(visits, stages, strict=True):
        ranks = sorted((rank(r.stage) for _, r in row if r.stage), reverse=True)
        wider = [t for t in v.tallies if t.what and not t.stops and (t.of is None or t.of > len(ranks))]
        tallied = tallied_stage([counted_up(t) for t in wider], "R")
        if not ranks or not wider or tallied.stage is None:
            continue
        middle = ranks[(len(ranks) - 1) // 2]
        if middle >= rank(tallied.stage) and (tallied.missed is None or middle < rank(tallied.missed)):
            continue
        out.append(
            Ask(
                "4.16",
                wider[0].span,
                f"The plants that are described, and the count of more plants ({tallied.stage}), tell of different stages. Which is the field's?",
                [
                    ("the plants described", {}),
                    (f"the count: {tallied.stage}", {"tally": tallied.stage, "by_count": "r"}),
                ],
                None,
                0,
                "tally",
                always=True,
                visit=v,
            )
        )
    return out


def _highest(v: VisitDraft, row: list[tuple[Staged, Staged]]) -> int | None:
    ranks = [rank(r.stage) for _, r in row if r.stage]
    if ranks:
        return sorted(ranks)[len(ranks) // 2]
    stated = [s.value for s in v.stated if s.letter == "r" and isinstance(s.value, str) and s.where is None]
    whole = whole_stage(stated[-1]) if stated else None
    return rank(whole) if whole else None


def going_back(visits: list[VisitDraft], stages: list[list[tuple[Staged, Staged]]], note_date: str | None) -> list[Ask]:
    """Two visits of one field in one note, the later one at a lower R stage (guide section 8)."""
    out = []
    for i, v in enumerate(visits):
        for j in range(i):
            u = visits[j]
            if not v.name or (u.name or "").casefold() != v.name.casefold():
                continue
            a, b = u.head.get("date"), v.head.get("date")
            day_a, day_b = (a.value if a else note_date), (b.value if b else note_date)
            if day_a is None or day_b is None or day_a >= day_b:
                continue
            x, y = _highest(u, stages[j]), _highest(v, stages[i])
            if x is None or y is None or y >= x:
                continue
            stated = [s for s in v.stated if s.letter == "r"]
            span = stated[-1].span if stated else v.name_span
            if span is None:
                continue
            out.append(
                Ask(
                    "8",
                    span,
                    f"{v.name} was at a later R stage on {day_a} than on {day_b}. Is this right?",
                    [("yes, as written", {}), ("no", {"stated_r": None})],
                    None,
                    0,
                    "stated_r",
                    always=True,
                    visit=v,
                )
            )
    return out
