"""The whole print-out, the plants, the field: exact pictures, and what must be said."""

from __future__ import annotations

import dataclasses

import pytest

from notesparse.facts import PlantFacts, Staged, Stated, Tally
from notesparse.outcome import Finding, PlantRecord, StatedRecord, TallyRecord, Visit
from notesparse.record.caution import CAUTION
from notesparse.span import Span
from notesparse.views.assumptions import assumptions
from notesparse.views.cells import width_of
from notesparse.views.explain import explain
from notesparse.views.field import field, title
from notesparse.views.findings import findings
from notesparse.views.page import page
from notesparse.views.plants import plants
from tests.record import made

NONE = Staged(None, None)

PAGE = """\
2026-07-14_creek-bottom.txt
1 question to settle, 1 place not understood

Creek bottom, 14 Jul 2026
maturity group 3.8, 30-inch rows

   V10   reached by 2 of 3 plants, 67 %, 95 % interval 21 to 94 %
   R2    reached by 3 of 3 plants, 100 %, 95 % interval 44 to 100 %

   The plants run from V9 to V12, the middle one V10; from R2 to R3, the
     middle one R2. Average of the V numbers 10.3: not the field's stage.
   3 plants only: fewer than ten say little about a whole field.
   You tallied 6 of 10 with flowers, 60 %.
   You called it R2, which agrees.
   V is the number of unrolled trifoliates (rule open-trifoliates).
   This may still change: see question 1.

Plants
   plant  trif.  flowers  pods        V     R   decided by
   1          9  1                    V9    R2  trifoliates, flowers
   2        10?           3: 3/16 in  V10?  R3  trifoliates, pod length, pods
   3         12  1-2                  V12   R2  trifoliates, flowers
   Places are nodes from the top, 1 being the top node. ? waits for an answer.

Also recorded
   insect  stink bug  3 per 25 sweeps

To settle: 1 question

Question 1   plant 2, line 3

   plant 2 ten or eleven trifs, pods on the third node down 3/16
           ^^^^^^^^^^^^^^^^^^^

   How many unrolled trifoliates does plant 2 have?

   a  10   plant V10, field V10   recorded for now
   b  11   plant V11, field V11

The note as it was read
"""

AFTER = """\

Taken in the usual sense
   A length with no unit is taken to be inches.
     "3/16" on line 3
   Nodes from the top are as the scout counts them.
     "flowers top two nodes" on line 4

Put right in the note
   13 replaced by 12.
     "thirteen trifs" on line 4

Not understood, and not in the record
   line 5: "deer been in here" (no known word)

No treatment is advised here: label, local rules, licensed adviser decide.
"""


def test_the_picture_of_a_page() -> None:
    text = page(made.creek())
    assert text.startswith(PAGE)
    assert text.endswith(AFTER)


def test_a_page_fits_eighty_columns_without_colour_and_says_the_same_with_it() -> None:
    for outcome in (made.creek(), made.bare(), made.nothing()):
        bare = page(outcome)
        assert max(map(width_of, bare.splitlines())) <= 78
        assert "\x1b" not in bare
        assert page(outcome, paint=lambda part, text: text) == bare


def test_the_caution_stands_once_and_can_wait_for_the_end() -> None:
    assert page(made.bare()).count(CAUTION) == 1
    assert CAUTION not in page(made.bare(), caution=False)
    assert all(word in CAUTION for word in ("label", "local rules", "licensed adviser"))


def test_what_is_open_is_said_at_the_top() -> None:
    assert page(made.nothing()).splitlines()[:3] == [
        "2026-07-14_creek-bottom.txt",
        "",
        "No visit to a soybean field was found in this note.",
    ]
    assert page(made.bare()).splitlines()[1] == "1 place not understood"
    outcome = made.creek()
    answered = dataclasses.replace(outcome.questions[0], answer=0)
    settled = page(dataclasses.replace(outcome, questions=(answered,), unread=()))
    assert settled.splitlines()[1] == ""
    assert "Settled" in settled


def test_a_note_of_nothing_is_said_to_be_one() -> None:
    assert "No visit to a soybean field was found in this note." in page(made.nothing())
    text = page(made.bare())
    assert "Field not named, no date" in text
    assert "V -   not known: no leaves counted and no V stage stated" in text
    assert "R -   not known: nothing said of flowers, pods, seeds or ripe pods" in text


def plant(label: str, v: Staged = NONE, r: Staged = NONE, stop: str | None = None, **facts: object) -> PlantRecord:
    return PlantRecord(label, stop, PlantFacts(**facts), v, r, {})  # type: ignore[arg-type]


def table(*rows: PlantRecord) -> list[str]:
    return plants(made.outcome("", made.visit(plants=rows)), 0)


def test_plants_stand_under_their_stop() -> None:
    v5 = Staged("V5", "counted", ("trifoliates",))
    assert table(
        plant("1", v5, stop="1", trifoliates=5),
        plant("2", v5, stop="1", trifoliates=5),
        plant("1", v5, stop="north end", trifoliates=5),
    ) == [
        "   plant  trif.  V   decided by",
        "   stop 1",
        "   1          5  V5  trifoliates",
        "   2          5  V5  trifoliates",
        "   north end",
        "   1          5  V5  trifoliates",
    ]


def test_late_plants() -> None:
    assert table(
        plant("1", r=Staged("R5", "seen", ("seeds",)), pods=True, seeds=True, seeds_from_top=(2,), seed_fill="partial"),
        plant("2", r=Staged("R7", "seen", ("mature_pods",)), mature_pods="one"),
        plant("3", r=Staged("R8", "seen", ("mature_pods_percent",)), mature_pods_percent=96.0),
        plant("4", r=Staged("R4", "stated", ("stated_r",)), pods_full_length=True, pods_from_top=()),
        plant("5", r=Staged("none", "seen", ("flowers",)), flowers=False, pods=False),
    ) == [
        "   plant  flowers  pods                      seeds     ripe  R   decided by",
        "   1               yes                       2: apart        R5  seeds",
        "   2                                                   one   R7  ripe pods",
        "   3                                                   96 %  R8  ripe pods",
        "   4               none up top: full length                  R4  as stated",
        "   5      no       no                                        -   flowers",
        "   Places are nodes from the top, 1 being the top node. - under R: no open",
        "   flower yet.",
    ]


def test_young_plants_and_counted_nodes() -> None:
    assert table(
        plant("1", Staged("VC", "counted", ("unifoliates",)), emerged=True, unifoliates="unrolled"),
        plant("2", Staged("V4", "counted", ("trifoliates",)), trifoliates=4, nodes=5, top_leaf="rolled"),
        plant("3", emerged=False),
    ) == [
        "   plant  leaves      trif.  nodes  V   decided by",
        "   1      unif. open                VC  unifoliate leaves",
        "   2      top rolled      4      5  V4  trifoliates",
        "   3      not up",
    ]


def test_a_crowded_table_still_fits() -> None:
    crowded = plant(
        "a plant of a long name",
        Staged("V14", "counted", ("trifoliates", "nodes")),
        Staged("R6", "seen", ("seed_fill", "seeds_from_top", "pods_from_top")),
        trifoliates=14,
        nodes=16,
        top_leaf="rolled",
        flowers_from_top=(1, 3, 5),
        pods_from_top=(1, 2, 3, 4),
        pod_mm=(25.0, 32.0),
        pods_full_length=True,
        seeds_from_top=(1, 2, 4),
        seed_mm=(6.35, 7.9375),
        seed_fill="full",
        mature_pods_percent=12.5,
        inch_lengths=frozenset({"seed_mm"}),
    )
    lines = table(crowded)
    assert max(map(width_of, lines)) <= 78
    told = " ".join(" ".join(lines).split())
    assert all(words in told for words in ("V14", "R6", "12", "touching"))


def said(**changes: object) -> str:
    return "\n".join(field(made.outcome("x" * 20, made.visit(**changes)), 0))


STATED = (StatedRecord(Stated(r="R3"), Span(0, 2)),)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"field_stage": made.field_stage(r="R3", basis_r="stated"), "stated": STATED}, "R3    as you stated it"),
        (
            {
                "field_stage": made.field_stage(r="R1", basis_r="tallies", reached_r_percent=60.0),
                "tallies": (TallyRecord(Tally("R1", percent=60.0), Span(0, 2)),),
            },
            "R1    by your tally: 60 % of the plants",
        ),
        (
            {"field_stage": made.field_stage(r="R2", basis_r="plants", plants=2, staged_r=2), "stated": STATED},
            "You called it R3, which differs from R2.",
        ),
        (
            {"stated": (StatedRecord(Stated(r=("R3", "R4")), Span(0, 2)),)},
            "R -   between the two: you called it R3 to R4",
        ),
        (
            {"field_stage": made.field_stage(r="R2"), "stated": (StatedRecord(Stated(r="early R2"), Span(0, 2)),)},
            "You called it early R2, which agrees.",
        ),
        (
            {"tallies": (TallyRecord(Tally("R3", 2.0, 10.0), Span(0, 2)),)},
            "R -   not known: less than half of the plants in the tally",
        ),
        (
            {"stated": (StatedRecord(Stated(v="V7"), Span(0, 2), "behind the pond"),)},
            "A part of the field, behind the pond: you called it V7.",
        ),
        (
            {"field_stage": made.field_stage(r="none", basis_r="plants", plants=4, staged_r=4, reached_r_percent=75.0)},
            "R -   no open flower yet: 3 of 4 plants, 75 %",
        ),
        (
            {
                "field_stage": made.field_stage(
                    "V5",
                    basis_v="plants",
                    plants=12,
                    staged_v=10,
                    reached_v_percent=60.0,
                    interval_v_percent=(31.3, 83.2),
                )
            },
            "V5    reached by 6 of 10 plants, 60 %, 95 % interval 31 to 83 %; 2 plants\n"
            "         left out, nothing to tell V by",
        ),
        (
            {"field_stage": made.field_stage("V6", basis_v="plants", counting_rule="open-nodes", plants=1)},
            "(rule open-nodes)",
        ),
        ({"plants": (plant("1", Staged(None, None, ("emerged",))),)}, "V -   not known yet: what the note says"),
    ],
)
def test_what_the_field_rests_on(changes: dict[str, object], words: str) -> None:
    assert words in said(**changes)


@pytest.mark.parametrize(("count", "told"), [(1, True), (9, True), (10, False)])
def test_few_plants_are_called_few(count: int, told: bool) -> None:
    assert ("fewer than ten" in said(field_stage=made.field_stage("V5", basis_v="plants", plants=count))) == told


def test_the_head_of_a_visit() -> None:
    visit = made.visit(
        field="creek\nbottom", date="2026-07-14", planted="2026-05-09", emerged="2026-05-16", variety="A\x1b1",
        row_spacing_in=7.5,
    )  # fmt: skip
    assert title(visit) == [
        "creek bottom, 14 Jul 2026",
        "planted 9 May 2026, up 16 May 2026, variety A.1, 7.5-inch rows",
    ]


def finding(
    kind: str, name: str | None, value: float | list[float] | None, unit: str | None, where: str | None
) -> Finding:
    return Finding(kind, name, value, unit, where, Span(0, 1))


def test_findings() -> None:
    visit = made.visit(
        findings=(
            finding("defoliation", None, 15.0, "percent", "low end"),
            finding("insect", "aphid", 0.0, None, None),
            finding("insect", "stink bug", [4.0, 2.0, 5.0], "per 25 sweeps", None),
            finding("weather", None, None, None, "hot and dry"),
        )
    )
    assert findings(visit) == [
        "   defoliation             15 %                   low end",
        "   insect       aphid      none found",
        "   insect       stink bug  4, 2, 5 per 25 sweeps",
        "   weather                                        hot and dry",
    ]


def test_an_assumption_made_often_is_said_once() -> None:
    outcome = made.creek()
    again = tuple(dataclasses.replace(outcome.assumptions[0], span=Span(at, at + 5)) for at in (0, 10, 20, 30))
    lines = assumptions(dataclasses.replace(outcome, assumptions=again))
    assert lines[0] == "   A length with no unit is taken to be inches."
    assert lines[-1].endswith("and 1 more")
    assert len([line for line in lines if "inches" in line]) == 1


def test_several_visits_each_have_their_stage() -> None:
    def walk(name: str) -> Visit:
        return made.visit(field=name, field_stage=made.field_stage("V5", basis_v="plants", plants=1, staged_v=1))

    text = page(made.outcome("a\nb", walk("East"), walk("West")))
    assert text.index("East, no date") < text.index("West, no date") < text.index("The note as it was read")
    assert text.count("(rule open-trifoliates)") == 2


def test_explain_shows_phrases_repairs_and_reasons() -> None:
    text = explain(made.creek())
    for words in (
        "   nine trips         count of trifoliates  trifoliates 9",
        '       "trips" read as trifs: nearest word, nearness 0.8',
        "       because a count",
        "   deer been in here  not understood",
        "   plant 2  V10  10 unrolled trifoliates on the main stem",
        "            R3   a pod of 3/16 in at the third node from the top",
        "   field    V10  at least half of the plants",
        "Question 1   plant 2, line 3",
    ):
        assert words in text
    assert max(map(width_of, text.splitlines())) <= 78
    assert text.endswith(CAUTION + "\n")


def test_explain_finds_what_a_phrase_gave_where_the_step_does_not_say() -> None:
    outcome = made.creek()
    silent = tuple(dataclasses.replace(step, means="") for step in outcome.steps)
    text = explain(dataclasses.replace(outcome, steps=silent))
    assert "count of trifoliates  plant 1: 9 trifoliates" in text
    assert "name of a field       field Creek bottom" in text
