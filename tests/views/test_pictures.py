"""Charts and pictures: the same drawing from the same record, with text for those who do not see it."""

from __future__ import annotations

import sqlite3
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from notesparse.errors import InputError
from notesparse.flow import read
from notesparse.record.lines import to_dict
from notesparse.record.status import open_keys
from notesparse.season.look import fields
from notesparse.season.standing import standing
from notesparse.views.plant_picture import beside, plant_picture
from notesparse.views.season_chart import describe, season_chart

SVG = "{http://www.w3.org/2000/svg}"


def plant(text: str) -> dict[str, Any]:
    return to_dict(read(text, date="2026-08-01"))["visits"][0]["plants"][0]


def words(svg: str) -> list[str]:
    return [e.text or "" for e in ET.fromstring(svg).iter(f"{SVG}text")]


def test_a_plant_is_drawn_node_by_node() -> None:
    svg = plant_picture(plant("p1 five trifs, flowers top two nodes"))
    root = ET.fromstring(svg)
    assert root.attrib["role"] == "img"
    assert root.find(f"{SVG}title").text == "Plant 1"  # type: ignore[union-attr]
    assert root.find(f"{SVG}desc").text == (  # type: ignore[union-attr]
        "Plant 1, V5, R2. 6 nodes on the main stem. Flowers at node 1-2 from the top."
    )
    assert words(svg).count("open flower") == 2
    assert [w for w in words(svg) if w.isdigit()] == ["1", "2", "3", "4", "5", "6"]
    assert words(svg)[-1] == "unifoliate node"


def test_what_was_not_counted_is_not_drawn() -> None:
    svg = plant_picture(plant("p1 pods 1/2 in third node down"))
    assert "nodes below: not counted" in words(svg)
    assert "pod 1/2 in" in words(svg)
    assert [w for w in words(svg) if w.isdigit()] == ["1", "2", "3", "4"]


def test_nothing_is_drawn_at_a_node_that_nobody_named() -> None:
    svg = plant_picture(plant("p1 six trifs, flowers on branches only"))
    assert not any("flower" in w and "no open" not in w for w in words(svg)[1:])


@pytest.mark.parametrize("text", ["p1 30 nodes", "p1 not up yet", "p1 no trifs, unifoliates open", "p1 <b>V6</b> & R1"])
def test_any_plant_gives_a_sound_drawing(text: str) -> None:
    record = to_dict(read(text, date="2026-08-01"))
    for visit in record["visits"]:
        for one in visit["plants"]:
            ET.fromstring(plant_picture(one))


def test_several_plants_stand_beside_each_other() -> None:
    record = to_dict(read("p1 5 trifs. p2 6 trifs. p3 7 trifs. p4 5 trifs. p5 6 trifs", date="2026-08-01"))
    root = ET.fromstring(beside([plant_picture(p) for p in record["visits"][0]["plants"]]))
    places = [(one.attrib["x"], one.attrib["y"]) for one in root.findall(f"{SVG}svg")]
    assert len(set(places)) == 5


def test_the_chart_is_the_same_drawing_twice_and_says_what_it_shows(demo: sqlite3.Connection) -> None:
    pytest.importorskip("matplotlib")
    stands = [standing(f) for f in fields(demo) if f.name == "Limekiln"]
    svg = season_chart(stands)
    assert svg == season_chart(stands)
    root = ET.fromstring(svg)
    assert root.attrib["role"] == "img" and "Limekiln" in root.attrib["aria-label"]
    told = root.find(f"{SVG}desc").text or ""  # type: ignore[union-attr]
    for seen in stands[0].visits:
        if seen.v:
            assert seen.v in told
    assert "likely R7 between" in told
    assert "http" not in svg.replace("http://www.w3.org", "").replace("http://purl.org", "").replace(
        "http://creativecommons.org", ""
    )


def test_colour_carries_nothing(demo: sqlite3.Connection) -> None:
    """Black and grey only: fields are told apart by mark and line."""
    pytest.importorskip("matplotlib")
    import re

    svg = season_chart([standing(f) for f in fields(demo) if f.id is not None])
    shades = set(re.findall(r"#[0-9a-f]{6}", svg))
    assert all(c[1:3] == c[3:5] == c[5:7] for c in shades), shades


def test_a_log_without_stages_has_no_chart() -> None:
    pytest.importorskip("matplotlib")
    with pytest.raises(InputError, match="nothing to draw"):
        season_chart([])


def test_what_a_question_can_change_bears_a_mark() -> None:
    record = to_dict(read("p1 ten or eleven trifs, flowers top two\np2 12 trifs, flowers top node", date="2026-08-01"))
    one, two = record["visits"][0]["plants"]
    asked = plant_picture(one, still_open=open_keys(record, 0, one))
    assert words(asked)[0] == "Plant 1   V10?, R2" and "? how many nodes" in words(asked)
    assert not any("?" in w for w in words(plant_picture(two, still_open=open_keys(record, 0, two))))


def test_visits_that_do_not_go_together_are_ringed_in_the_chart(demo: sqlite3.Connection) -> None:
    """The demo season's misread: Barn Lot, 5 August, against the visits before and after it."""
    stands = [standing(f) for f in fields(demo)]
    barn = next(s for s in stands if s.name == "Barn Lot")
    svg = season_chart([barn])
    assert [t.text for t in ET.fromstring(svg).iter(f"{SVG}text") if t.text == "?"] == ["?"] * 3
    assert "ringed, with ?" in svg and describe([barn]).count("does not go with another visit") == 3
    sound = next(s for s in stands if s.visits and not s.doubts)
    assert "ringed" not in season_chart([sound])
