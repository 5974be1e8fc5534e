"""Outcomes made by hand, so that what comes after the reading can be tested without it. All of it is invented."""

from __future__ import annotations

from notesparse.facts import FieldStage, PlantFacts, Staged, Stated, Tally
from notesparse.outcome import (
    Assumption,
    Choice,
    Correction,
    Edit,
    Finding,
    Note,
    Outcome,
    PlantRecord,
    Question,
    Repair,
    StatedRecord,
    Step,
    TallyRecord,
    Unread,
    Visit,
)
from notesparse.span import Span

SHA = "0" * 64


def at(text: str, words: str, nth: int = 1) -> Span:
    """The span of the `nth` occurrence of `words`."""
    start = -1
    for _ in range(nth):
        start = text.index(words, start + 1)
    return Span(start, start + len(words))


def field_stage(v: str | None = None, r: str | None = None, **changes: object) -> FieldStage:
    values: dict[str, object] = {
        "v": v,
        "r": r,
        "basis_v": None,
        "basis_r": None,
        "plants": 0,
        "staged_v": 0,
        "staged_r": 0,
        "reached_v_percent": None,
        "reached_r_percent": None,
        "interval_v_percent": None,
        "interval_r_percent": None,
        "least": (None, None),
        "median": (None, None),
        "most": (None, None),
        "mean_v": None,
        "counting_rule": "open-trifoliates",
        **changes,
    }
    return FieldStage(**values)  # type: ignore[arg-type]


def visit(**changes: object) -> Visit:
    values: dict[str, object] = {
        "field": None,
        "date": None,
        "planted": None,
        "emerged": None,
        "variety": None,
        "maturity_group": None,
        "row_spacing_in": None,
        "plants": (),
        "tallies": (),
        "stated": (),
        "findings": (),
        "field_stage": field_stage(),
        **changes,
    }
    return Visit(**values)  # type: ignore[arg-type]


def outcome(text: str, *visits: Visit, **changes: object) -> Outcome:
    values: dict[str, object] = {
        "note": Note(text, "2026-07-14_creek-bottom.txt", SHA, "2026-07-14"),
        "visits": visits,
        "questions": (),
        "assumptions": (),
        "corrected": (),
        "unread": (),
        **changes,
    }
    return Outcome(**values)  # type: ignore[arg-type]


CREEK = (
    "Creek bottom, July 14. 30s, group 3.8\n"
    "plant 1 nine trips, flowers all the way up\n"
    "plant 2 ten or eleven trifs, pods on the third node down 3/16\n"
    "plant 3 thirteen trifs no wait 12, flowers top two nodes\n"
    "calling the field R2. six of ten flowering. 3 stink bugs per 25 sweeps, deer been in here\n"
)


def creek() -> Outcome:
    """Three plants, one question, a correction, an assumption, a finding, a tally, a field statement, unread words."""
    text = CREEK
    first = PlantRecord(
        "1",
        None,
        PlantFacts(trifoliates=9, nodes=10, flowers=True, flowers_from_top=(1,)),
        Staged("V9", "counted", ("trifoliates",), "9 unrolled trifoliates on the main stem"),
        Staged("R2", "seen", ("flowers_from_top",), "an open flower at the top node"),
        {
            "trifoliates": at(text, "nine trips"),
            "flowers": at(text, "flowers all the way up"),
            "flowers_from_top": at(text, "flowers all the way up"),
        },
        ("nodes",),
    )
    second = PlantRecord(
        "2",
        None,
        PlantFacts(
            trifoliates=10, nodes=11, pods=True, pods_from_top=(3,), pod_mm=4.7625, inch_lengths=frozenset({"pod_mm"})
        ),
        Staged("V10", "counted", ("trifoliates",), "10 unrolled trifoliates on the main stem"),
        Staged("R3", "seen", ("pod_mm", "pods_from_top"), "a pod of 3/16 in at the third node from the top"),
        {
            "trifoliates": at(text, "ten or eleven trifs"),
            "pods": at(text, "pods on the third node down"),
            "pods_from_top": at(text, "pods on the third node down"),
            "pod_mm": at(text, "3/16"),
        },
        ("nodes",),
    )
    third = PlantRecord(
        "3",
        None,
        PlantFacts(trifoliates=12, nodes=13, flowers=True, flowers_from_top=(1, 2)),
        Staged("V12", "counted", ("trifoliates",), "12 unrolled trifoliates on the main stem"),
        Staged("R2", "seen", ("flowers_from_top",), "an open flower at the two uppermost nodes"),
        {
            "trifoliates": at(text, "12"),
            "flowers": at(text, "flowers top two nodes"),
            "flowers_from_top": at(text, "flowers top two nodes"),
        },
        ("nodes",),
    )
    stage = field_stage(
        "V10",
        "R2",
        basis_v="plants",
        basis_r="plants",
        plants=3,
        staged_v=3,
        staged_r=3,
        reached_v_percent=200 / 3,
        reached_r_percent=100.0,
        interval_v_percent=(20.8, 93.9),
        interval_r_percent=(43.8, 100.0),
        least=("V9", "R2"),
        median=("V10", "R2"),
        most=("V12", "R3"),
        mean_v=31 / 3,
    )
    walk = visit(
        field="Creek bottom",
        date="2026-07-14",
        maturity_group=3.8,
        row_spacing_in=30.0,
        plants=(first, second, third),
        tallies=(TallyRecord(Tally("flowers", 6.0, 10.0), at(text, "six of ten flowering")),),
        stated=(StatedRecord(Stated(r="R2"), at(text, "calling the field R2")),),
        findings=(Finding("insect", "stink bug", 3.0, "per 25 sweeps", None, at(text, "3 stink bugs per 25 sweeps")),),
        field_stage=stage,
        spans={"field": at(text, "Creek bottom"), "date": at(text, "July 14"), "row_spacing_in": at(text, "30s")},
    )
    asked = Question(
        "q1",
        "4.2",
        at(text, "ten or eleven trifs"),
        "ten or eleven trifs",
        0,
        "2",
        "How many unrolled trifoliates does plant 2 have?",
        (
            _ten_or_eleven(10),
            _ten_or_eleven(11),
        ),
        0,
        moves_field=True,
    )
    steps = (
        Step(at(text, "Creek bottom"), "Creek bottom", "name of a field", "field Creek bottom", "header"),
        Step(at(text, "nine trips"), "nine trips", "count of trifoliates", "trifoliates 9", "evidence", ("a count",)),
        Step(at(text, "deer been in here"), "deer been in here", "", "", "unread"),
    )
    return outcome(
        text,
        walk,
        questions=(asked,),
        assumptions=(
            Assumption("4.6", at(text, "3/16"), "a length with no unit is taken to be inches"),
            Assumption("5.3", at(text, "flowers top two nodes"), "nodes from the top are as the scout counts them"),
        ),
        corrected=(Correction("4.17", at(text, "thirteen trifs"), "13 replaced by 12"),),
        unread=(Unread(at(text, "deer been in here"), "deer been in here", "no known word"),),
        repairs=(Repair(at(text, "trips"), "trips", "trifs", "near", 0.8),),
        evidence=(
            at(text, "Creek bottom"),
            at(text, "July 14"),
            at(text, "30s, group 3.8"),
            at(text, "plant 1 nine trips, flowers all the way up"),
            at(text, "plant 2 ten or eleven trifs, pods on the third node down 3/16"),
            at(text, "plant 3"),
            at(text, "12, flowers top two nodes"),
            at(text, "calling the field R2"),
            at(text, "six of ten flowering"),
            at(text, "3 stink bugs per 25 sweeps"),
        ),
        filler=(at(text, ". 30s"), at(text, "no wait")),
        steps=steps,
    )


def _ten_or_eleven(trifoliates: int) -> Choice:
    stage = f"V{trifoliates}"
    makes = {"trifoliates": trifoliates, "v_stage": stage, "r_stage": "R3", "field_v": stage, "field_r": "R2"}
    return Choice(str(trifoliates), makes, (Edit(0, "2", "trifoliates", trifoliates),))


def bare() -> Outcome:
    """A note that says nothing of soybeans: one visit, nothing in it."""
    text = "nice evening, walked the fence"
    return outcome(text, visit(), unread=(Unread(Span(0, len(text)), text, "no known word"),))


def nothing() -> Outcome:
    """No visit at all."""
    return outcome("hello")
