"""Findings: words -> what is recorded; what is never a finding; what is kept unread (guide 4.20)."""

from __future__ import annotations

from typing import Any

import pytest

from notesparse import read
from notesparse.outcome import Outcome

DATE = "2026-07-20"
Row = tuple[str, str | None, Any, str | None, str | None]


def note(text: str) -> Outcome:
    return read(text, date=DATE)


def rows(text: str) -> list[Row]:
    """(kind, name, value, unit, where) of all findings of a note, in order."""
    return [(f.kind, f.name, f.value, f.unit, f.where) for v in note(text).visits for f in v.findings]


def unread(text: str) -> list[str]:
    return [u.quote for u in note(text).unread]


SB, BLB, APHID = "stink bug", "bean leaf beetle", "aphid"

SAID: list[tuple[str, list[Row]]] = [
    # counts and their units, before the head and after it
    ("3 stink bugs per 25 sweeps", [("insect", SB, 3, "per 25 sweeps", None)]),
    ("BLB 1/ft", [("insect", BLB, 1, "per foot", None)]),
    ("Bean leaf beetles  2 / ft. of row", [("insect", BLB, 2, "per foot of row", None)]),
    ("leafhoppers 2/sweep", [("insect", "leafhopper", 2, "per sweep", None)]),
    ("leafhoppers 1.5 per sweep", [("insect", "leafhopper", 1.5, "per sweep", None)]),
    ("Aphids, 10 or so per plt", [("insect", APHID, 10, "per plant", None)]),
    ("thrips 4 per leaflet", [("insect", "thrips", 4, "per leaflet", None)]),
    ("Grasshoppers 1 or 2 to the sq. yd.", [("insect", "grasshopper", [1, 2], "per square yard", None)]),
    ("slugs a couple per square foot", [("insect", "slug", 2, "per square foot", None)]),
    ("two stink bugs in three foot of row on the drop cloth", [("insect", SB, 2, "per 3 ft of row", None)]),
    ("nine stink bugs in twenty five sweeps", [("insect", SB, 9, "per 25 sweeps", None)]),
    ("frogeye lesions 2 per leaflet", [("disease", "frogeye leaf spot", 2, "per leaflet", None)]),
    ("10% of pods have stink bug damage", [("damage", "puncture", 10, "%", None)]),
    (
        "north end 3 stink bugs per 25 sweeps south end 7",
        [("insect", SB, 3, "per 25 sweeps", "north end"), ("insect", SB, 7, "per 25 sweeps", "south end")],
    ),
    ("giant ragweed 14 in at the corner", [("weed", "giant ragweed", 14, "in", "at the corner")]),
    ("beans 24 to 28 inches", [("height", None, [24, 28], "in", None)]),
    # several counts
    ("aphids 20 30 15 a plant", [("insect", APHID, [20, 30, 15], "per plant", None)]),
    ("aphids 20 30 15 a plant, averages 22", [("insect", APHID, 22, "per plant", None)]),
    ("sweeps 2 0 3 1 stink bugs per 25", [("insect", SB, [2, 0, 3, 1], "per 25 sweeps", None)]),
    ("Sweeps were six, four and five stink bugs per twenty five.", [("insect", SB, [6, 4, 5], "per 25 sweeps", None)]),
    (
        "stink bugs four two and five in three sets of twenty five sweeps",
        [("insect", SB, [4, 2, 5], "per 25 sweeps", None)],
    ),
    (
        "6 stink bugs, 2 green cloverworms and 14 bean leaf beetles per 25 sweeps",
        [
            ("insect", SB, 6, "per 25 sweeps", None),
            ("insect", "green cloverworm", 2, "per 25 sweeps", None),
            ("insect", BLB, 14, "per 25 sweeps", None),
        ],
    ),
    (
        "per 25 sweeps: 3 stink bugs, 12 bean leaf beetles",
        [("insect", SB, 3, "per 25 sweeps", None), ("insect", BLB, 12, "per 25 sweeps", None)],
    ),
    (
        "Bean leaf beetles about a dozen and stink bugs 4 per 25 sweeps",
        [("insect", BLB, 12, "per 25 sweeps", None), ("insect", SB, 4, "per 25 sweeps", None)],
    ),
    (
        "aphids: p1 20, p2 35, p3 10",
        [
            ("insect", APHID, 20, None, "plant 1"),
            ("insect", APHID, 35, None, "plant 2"),
            ("insect", APHID, 10, None, "plant 3"),
        ],
    ),
    # none
    ("no bugs", [("insect", None, 0, None, None)]),
    ("aphids are gone", [("insect", APHID, 0, None, None)]),
    ("no sign of rust", [("disease", "soybean rust", 0, None, None)]),
    ("didn't see any aphids", [("insect", APHID, 0, None, None)]),
    ("lodging none", [("damage", "lodging", 0, None, None)]),
    ("no bugs to speak of", [("insect", None, 0, None, None)]),
    (
        "no rust, no frogeye",
        [("disease", "soybean rust", 0, None, None), ("disease", "frogeye leaf spot", 0, None, None)],
    ),
    # percentages and places
    ("defol 10% top 15% bottom", [("defoliation", None, 10, "%", "top"), ("defoliation", None, 15, "%", "bottom")]),
    (
        "Defoliation eight percent in the canopy but twenty percent on the end rows",
        [("defoliation", None, 8, "%", "in the canopy"), ("defoliation", None, 20, "%", "end rows")],
    ),
    (
        "ten percent defoliation on the outside rows none in the middle",
        [("defoliation", None, 10, "%", "outside rows"), ("defoliation", None, 0, None, "in the middle")],
    ),
    ("15 to 20 percent defoliation", [("defoliation", None, [15, 20], "%", None)]),
    ("defol 15", [("defoliation", None, 15, "%", None)]),
    (
        "hail took 30 percent of the leaves",
        [("damage", "hail", None, None, None), ("defoliation", None, 30, "%", None)],
    ),
    ("white mold 4 percent, east side", [("disease", "white mold", 4, "%", "east side")]),
    ("velvetleaf thick by the tile intake", [("weed", "velvetleaf", None, None, "by the tile intake")]),
    ("lambsquarters 4 inches tall between the drills", [("weed", "lambsquarters", 4, "in", "between the drills")]),
    ("spider mites on 4 of 10 plants", [("insect", "spider mite", None, None, "on 4 of 10 plants")]),
    ("2 of 10 plants cut off", [("damage", "cut off", None, None, "2 of 10 plants")]),
    # weeds: height and density are two
    (
        "Kochia 8 in tall, 2 per square yard",
        [("weed", "kochia", 8, "in", None), ("weed", "kochia", 2, "per square yard", None)],
    ),
    ("pigweed 2 in, foxtail 4 in", [("weed", "pigweed", 2, "in", None), ("weed", "foxtail", 4, "in", None)]),
    ("Waterhemp 2-4 in. in the skips", [("weed", "waterhemp", [2, 4], "in", "in the skips")]),
    ("couple marestail", [("weed", "marestail", 2, None, None)]),
    # stand
    ("nineteen plants in three feet", [("stand", None, 19, "plants in 3 ft", None)]),
    ("18 plts in 3 ft", [("stand", None, 18, "plants in 3 ft", None)]),
    ("Stand 7 to the ft.", [("stand", None, 7, "plants per foot", None)]),
    ("Stand 24 in 3 ft, 25 in 3 ft, 22 in 3 ft.", [("stand", None, [24, 25, 22], "plants in 3 ft", None)]),
    ("Stand, plants in 10 ft of row:   38   41   36", [("stand", None, [38, 41, 36], "plants in 10 ft", None)]),
    ("stand 118k", [("stand", None, 118000, None, None)]),
    ("112k stand", [("stand", None, 112000, None, None)]),
    ("Stand 98,000", [("stand", None, 98000, None, None)]),
    ("Stand is one twenty eight", [("stand", None, 128, None, None)]),
    ("four to five plants a foot", [("stand", None, [4, 5], "plants per foot", None)]),
    ("Stand was 8 to the foot, now 5", [("stand", None, 5, "plants per foot", None)]),
    (
        "stand is eighty one plants in seventeen and a half feet on the west end sixty four on the knob",
        [("stand", None, 81, "plants in 17.5 ft", "west end"), ("stand", None, 64, "plants in 17.5 ft", "knob")],
    ),
    (
        "Stand 6 per ft on the east side, 3 per ft on the west",
        [("stand", None, 6, "plants per foot", "east side"), ("stand", None, 3, "plants per foot", "west")],
    ),
    # soil, weather, height
    ("Soil dry to 4 in", [("soil moisture", None, None, None, "dry to 4 in")]),
    ('dry dirt 3" down', [("soil moisture", None, None, None, 'dry 3" down')]),
    ("probe moist at 12, dry at 24", [("soil moisture", None, None, None, "moist at 12, dry at 24")]),
    ("ground is tacky", [("soil moisture", None, None, None, "tacky")]),
    ("dirt is cracked an inch wide", [("soil moisture", None, None, None, "cracked an inch wide")]),
    ("gauge had 1.2", [("weather", "rain gauge", 1.2, "in", None)]),
    ("gauge had an inch and a quarter", [("weather", "rain gauge", 1.25, "in", None)]),
    ("0.6 inches of rain", [("weather", "rain", 0.6, "in", None)]),
    ("sw wind hot 91", [("weather", "southwest wind", None, None, "sw wind hot 91")]),
    ("91 degrees", [("weather", "degrees", 91, "degrees", None)]),
    ("beans 5 in tall", [("height", None, 5, "in", None)]),
    ("Beans stand thirty inches tall", [("height", None, 30, "in", None)]),
    ("knee high", [("height", None, None, None, "knee high")]),
    ('height 22"', [("height", None, 22, "in", None)]),
    # leaves, grain, the rest
    ("leaves 80% yellow", [("leaf", "leaf yellowing", 80, "%", None)]),
    ("lvs half off", [("leaf", "leaf drop", 50, "%", None)]),
    ("half the leaves are yellow", [("leaf", "leaf yellowing", 50, "%", None)]),
    ("Leaves all down except the low spot", [("leaf", "leaf drop", None, None, "except the low spot")]),
    ("leaf drop 20%", [("leaf", "leaf drop", 20, "%", None)]),
    ("tester said 13.6", [("other", "grain moisture", 13.6, None, None)]),
    ("tested thirteen point two", [("other", "grain moisture", 13.2, None, None)]),
    ("grain? 12.4 moisture", [("other", "grain moisture", 12.4, None, None)]),
    ("canopy 70 percent closed", [("other", "canopy closure", 70, "%", None)]),
    ("nodules 12 per plant", [("other", "nodules", 12, "per plant", None)]),
    # damage: what did it and what it did are one
    ("cupped leaves NE corner looks like drift", [("damage", "drift", None, None, "NE corner")]),
    ("chlorosis on the sand 3 or 4 acres of it", [("damage", "chlorosis", [3, 4], "acres", "the sand")]),
    ("V3 overall. deer hammered the nw corner again", [("damage", "deer", None, None, "nw corner")]),
    # corrections
    ("3 stink bugs per 25 sweeps no make that 4", [("insect", SB, 4, "per 25 sweeps", None)]),
    ("defoliation 15%, make that 20%", [("defoliation", None, 20, "%", None)]),
    ("aphids were 300 a plant last week, now 40", [("insect", APHID, 40, "per plant", None)]),
]


@pytest.mark.parametrize(("text", "want"), SAID, ids=[t for t, _ in SAID])
def test_words_to_findings(text: str, want: list[Row]) -> None:
    def plain(r: Row) -> Row:
        where = r[4]
        for lead in ("in the ", "on the ", "the "):
            where = where.removeprefix(lead) if where else where
        return (*r[:4], where)

    assert [plain(r) for r in rows(text)] == [plain(r) for r in want]
    assert unread(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "might get rain friday",
        "beans need rain",
        "forecast calls for rain",
        "frost warning out for thursday",
        "will check for aphids friday",
        "threshold is 250 aphids",
        "spray for aphids at 250 per plant",
        "corn has 3 rootworm beetles a plant",
        "neighbor has waterhemp head high",
        "4 whitetails bedded in the draw",
        "so its a stand if the crust lets go",
        "my coffee went cold",
        "aphids were 300 a plant last week",
    ],
)
def test_never_a_finding_and_never_gone(text: str) -> None:
    assert rows(text) == []
    assert unread(text)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("row 5 waterhemp", "row 5"),
        ("15 rows of waterhemp by the road", "15 rows"),
        ("6:45, seventy one degrees", "6:45"),
        ("aphids 3 miles away", "3 miles away"),
    ],
)
def test_a_number_of_something_else_stays_unread(text: str, number: str) -> None:
    assert any(number in u for u in unread(text))
    assert all(r[2] in {None, 71} for r in rows(text))


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("5 blb per 20 sweeps. auger quit again", ["auger quit again"]),
        ("downy mildew, few spots. ditch running over", ["ditch running over"]),
        ("no aphids and the truck died on the way home", ["the truck died on the way home"]),
        ("frogeye on the lower third. boss can decide", ["boss can decide"]),
    ],
)
def test_a_remark_beside_a_finding_is_kept_whole(text: str, left: list[str]) -> None:
    got = unread(text)
    assert len(got) == 1 and left[0] in got[0]


@pytest.mark.parametrize(
    "text",
    [
        "aphids here and there, nothing to get excited about",
        "frogeye not bad",
        "no shatter that I noticed",
        "tester said 13.6 on what I shelled out by hand",
        "aphids 40 per plant, winged ones too",
    ],
)
def test_words_of_a_finding_are_no_unread_bits(text: str) -> None:
    assert len(rows(text)) == 1
    assert unread(text) == []


def test_plants_keep_their_facts_beside_findings() -> None:
    text = (
        "plant 1 11 trifs flowers top two. plant 2 12 trifs pods 1/4 third node down japanese beetles 3 per plant "
        "defoliation 12% waterhemp 18 inches in the wet hole beans are 32 inches tall"
    )
    visit = note(text).visits[0]
    assert [p.facts.trifoliates for p in visit.plants] == [11, 12]
    assert [(f.kind, f.value) for f in visit.findings] == [
        ("insect", 3),
        ("defoliation", 12),
        ("weed", 18),
        ("height", 32),
    ]


def test_counts_plant_by_plant_name_the_plant() -> None:
    text = "plant 1 11 trifs 20 aphids. plant 2 12 trifs 35 aphids. plant 3 11 trifs no aphids"
    assert rows(text) == [
        ("insect", APHID, 20, None, "plant 1"),
        ("insect", APHID, 35, None, "plant 2"),
        ("insect", APHID, 0, None, "plant 3"),
    ]


def test_a_finding_belongs_to_the_visit_it_stands_in() -> None:
    text = "Larkspur Bottom - R5 overall. 3 podworms per 25 sweeps\nTin Cup - R4 overall. no webworms"
    got = [(v.field, [f.name for f in v.findings]) for v in note(text).visits]
    assert got == [("Larkspur Bottom", ["podworm"]), ("Tin Cup", ["webworm"])]


def test_what_was_replaced_stays_visible() -> None:
    assert [c.text for c in note("defoliation 15%, make that 20%").corrected] == ["15 replaced by 20"]


def test_rain_without_a_unit_is_an_assumption() -> None:
    assert [a.rule for a in note("gauge had 1.2").assumptions] == ["4.20"]


def test_dead_plants_are_no_stand() -> None:
    assert [r[0] for r in rows("3 dead plants in 50 ft")] == ["damage"]


def test_scratch_that_takes_a_finding_back() -> None:
    assert rows("12 aphids a plant, scratch that") == []


def test_what_was_last_week_is_unread_and_what_is_now_is_recorded() -> None:
    text = "it was dry last week, wet now"
    assert [r[4] for r in rows(text)] == ["wet"]
    assert unread(text) == ["it was dry last week"]
