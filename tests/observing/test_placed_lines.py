"""Lines that begin with a place in the field: the plant of each stands at that stop (guide 4.7, 4.19)."""

from __future__ import annotations

from notesparse.flow import read

PAGE = """Sandpit Sixty     17 Aug 94
NW corner  ...  14 trif, pod 3/4 in., 3rd node down
middle     ...  13 trif, pod 1/2 in., 2nd node down
SE corner  ...  15 trif, pod 7/8 in., 3rd node down
SW corner  ...  too wet, did not go in
"""


def test_each_line_is_a_plant_at_its_stop() -> None:
    (visit,) = read(PAGE, date="1994-08-17").visits
    assert [(p.label, p.stop, p.facts.trifoliates) for p in visit.plants] == [
        ("1", "NW corner", 14),
        ("2", "middle", 13),
        ("3", "SE corner", 15),
    ]


def test_two_such_lines_are_no_list_of_stops() -> None:
    lines = PAGE.splitlines(keepends=True)
    (visit,) = read("".join([lines[0], lines[1]]), date="1994-08-17").visits
    assert [p.facts.trifoliates for p in visit.plants] == [14]


def test_places_behind_one_another_are_stops_where_the_plants_are_counted_anew() -> None:
    note = "Stone Mill ; S gate - a 8t no fl, b 9t fl 3dn ; ditch - a 7t no fl, b 8t no fl"
    (visit,) = read(note, date="1994-08-17").visits
    assert visit.field == "Stone Mill"
    assert [(p.stop, p.label, p.facts.trifoliates) for p in visit.plants] == [
        ("S gate", "a", 8),
        ("S gate", "b", 9),
        ("ditch", "a", 7),
        ("ditch", "b", 8),
    ]
