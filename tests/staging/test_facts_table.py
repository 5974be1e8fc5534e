"""The table of counted plants: cells, faults by line and column, and the stages beside the rows."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from notesparse.errors import InputError
from notesparse.facts import PLANT_KEYS, PlantFacts
from notesparse.record.facts_table import ADDED, read_facts, stage_table


def one(column: str, cell: str) -> PlantFacts:
    """The facts of a row with one cell."""
    written = io.StringIO()
    csv.writer(written).writerows([["plant", column], ["1", cell]])
    (row,) = read_facts(io.StringIO(written.getvalue(), newline=""))
    return row.facts


@pytest.mark.parametrize(
    ("column", "cell", "value"),
    [
        ("trifoliates", "11", 11), ("trifoliates", " 0 ", 0), ("nodes", "12.0", 12),
        ("top_leaf", "Rolled", "rolled"), ("unifoliates", "unrolled", "unrolled"),
        ("emerged", "yes", True), ("flowers", "TRUE", True), ("pods", "n", False), ("seeds", "no", False),
        ("pods_full_length", "y", True),
        ("flowers_from_top", "1 2", (1, 2)), ("flowers_from_top", "[2, 1]", (1, 2)), ("pods_from_top", "3;4", (3, 4)),
        ("pods_from_top", "lower", "lower"), ("pods_from_top", "none", ()), ("seeds_from_top", "[]", ()),
        ("seeds_from_top", "4", (4,)),
        ("pod_mm", "6.35", 6.35), ("pod_mm", "5", 5), ("pod_mm", "8-10", (8, 10)), ("pod_mm", "8 to 10", (8, 10)),
        ("pod_mm", "[8, 10]", (8, 10)), ("seed_mm", ".5", 0.5), ("pod_mm", "5.", None),
        ("seed_fill", "partial", "partial"), ("mature_pods", "one", "one"),
        ("mature_pods_percent", "95", 95), ("mature_pods_percent", "62.5 %", 62.5), ("mature_pods_percent", "0", 0),
        ("stated_v", "V-5", "V-5"), ("stated_r", "early R5", "early R5"), ("stated_r", "R3-R4", ("R3", "R4")),
        ("stated_r", "", None),
    ],
)  # fmt: skip
def test_cells(column: str, cell: str, value: object) -> None:
    if value is None and cell:
        with pytest.raises(InputError, match="is no length"):
            one(column, cell)
    else:
        assert getattr(one(column, cell), column) == value
        assert one(column, cell).inch_lengths == frozenset()


@pytest.mark.parametrize(
    ("column", "cell", "mm"),
    [
        ("pod_in", "3/16", 4.7625), ("pod_in", "1 1/4", 31.75), ("pod_in", "0.75", 19.05), ("seed_in", "1/8", 3.175),
        ("pod_in", "1/4 to 1/2", (6.35, 12.7)), ("pod_in", "1/4-1/2", (6.35, 12.7)), ("pod_in", "1", 25.4),
    ],
)  # fmt: skip
def test_inches(column: str, cell: str, mm: object) -> None:
    facts, key = one(column, cell), column.replace("_in", "_mm")
    assert getattr(facts, key) == pytest.approx(mm)
    assert facts.inch_lengths == {key}


@pytest.mark.parametrize(
    ("column", "cell", "words"),
    [
        ("trifoliates", "eleven", "is no whole number"), ("trifoliates", "10-11", "is no whole number"),
        ("trifoliates", "-1", "is no whole number"), ("nodes", "12.5", "is no whole number"),
        ("top_leaf", "open", "can be unrolled or rolled"), ("seed_fill", "half", "can be partial or full"),
        ("mature_pods", "two", "can be one or none"),
        ("flowers", "maybe", "is neither yes nor no"), ("pods", "1", "is neither yes nor no"),
        ("flowers_from_top", "0", "is no list of nodes"), ("flowers_from_top", "top", "is no list of nodes"),
        ("flowers_from_top", "1-4", "is no list of nodes"),
        ("pod_mm", "1/2 in", "is no length"), ("pod_mm", "10-8", "is no length and no range"),
        ("pod_mm", "1-2-3", "is no length and no range"), ("pod_mm", "-3", "is no length"),
        ("pod_mm", "nan", "is no length"), ("pod_in", "1-1/4", "is no length and no range"),
        ("pod_in", "1/0", "is no length"), ("seed_in", '1/8"', "is no length"),
        ("mature_pods_percent", "120", "is no percentage"), ("mature_pods_percent", "most", "is no percentage"),
        ("stated_v", "R3", "is no V stage"), ("stated_r", "V5", "is no R stage"), ("stated_r", "R9", "is no R stage"),
        ("stated_r", "R4-R3", "is no R stage"),
    ],
)  # fmt: skip
def test_faulty_cells(column: str, cell: str, words: str) -> None:
    with pytest.raises(InputError) as raised:
        one(column, cell)
    assert str(raised.value).startswith(f"line 2, column {column}: {cell!r} {words}")


def test_all_columns_may_stand_in_any_order() -> None:
    head = [*reversed(PLANT_KEYS), "date", "plant", "stop", "field", "pod_in", "seed_in"]
    assert read_facts([",".join(head), "," * (len(head) - 1)]) == ()  # a blank row is no plant
    (row,) = read_facts([",".join(head), "," * (len(head) - 5) + "p1,,,,"])
    assert row.facts == PlantFacts()


@pytest.mark.parametrize(
    ("table", "message"),
    [
        ("", "the table is empty"),
        ("\n\n", "the table is empty"),
        ("plant,stop\n1,2\n", "line 1: no column holds a fact"),
        ("plant,leaves\n", "line 1, column 2 'leaves': no such column is known"),
        ("plant;trifoliates\n1;5\n", "line 1, column 1 'plant;trifoliates': columns are parted by commas"),
        ("plant,nodes,nodes\n", "line 1, column 3 'nodes': named twice"),
        ("plant,nodes\n1,5,6\n", "line 2: 3 cells under 2 column names"),
        ("plant,nodes\n1\n", "line 2: 1 cells under 2 column names"),
        ("pod_mm,pod_in\n6,1/4\n", "line 2, column pod_in: pod_mm has a length in inches and one in millimetres"),
        ('plant,nodes\n"1,5\n', "line 2: not a CSV table"),
    ],
)
def test_faulty_tables(table: str, message: str) -> None:
    with pytest.raises(InputError) as raised:
        stage_table(io.StringIO(table, newline=""))
    assert str(raised.value).startswith(message)


def test_all_faults_come_in_one_message() -> None:
    table = ["plant,nodes,pods", *(f"{n},x,?" for n in range(1, 16))]
    with pytest.raises(InputError) as raised:
        stage_table(table)
    lines = str(raised.value).splitlines()
    assert lines[1] == "line 2, column pods: '?' is neither yes nor no"
    assert (len(lines), lines[-1]) == (21, "and 10 more")


def test_blank_lines_do_not_shift_the_line_numbers() -> None:
    with pytest.raises(InputError, match="line 4, column nodes"):
        read_facts(["nodes\n", "11\n", "\n", "x\n"])


def test_stages_beside_the_rows() -> None:
    table = "Plant, trifoliates,flowers_from_top,pod_in,pods_from_top\nnorth 1,11,1 2,,\n2,12,,3/16,3\n3,,,,\n"
    rows = list(stage_table(io.StringIO("\ufeff" + table, newline="")))
    assert rows[0] == ["plant", "trifoliates", "flowers_from_top", "pod_in", "pods_from_top", *ADDED]
    assert rows[1][:-1] == ["north 1", "11", "1 2", "", "", "V11", "R2", "counted", "seen"]
    assert rows[2][:-1] == ["2", "12", "", "3/16", "3", "V12", "R3", "counted", "seen"]
    assert rows[2][-1] == "V: 12 unrolled trifoliates: V12; R: pod 4.76 mm (>= 3/16 in) at node 3 from the top: R3"
    assert rows[3][:-1] == ["3", "", "", "", "", "", "", "", ""]


def test_the_same_length_in_two_units() -> None:
    rows = list(stage_table(["pod_in,pod_mm", "3/16,", ",4.7625"]))
    assert [row[3] for row in rows[1:]] == ["R3", "R1"]


def test_rule_and_strictness() -> None:
    table = ["trifoliates,flowers_from_top", "5,1"]
    assert list(stage_table(table, "open-nodes"))[1][2:4] == ["V6", "R2"]
    assert list(stage_table(table, strict_top=True))[1][2:4] == ["V5", "R1"]
    with pytest.raises(InputError, match="no counting rule 'mine': it can be open-trifoliates"):
        stage_table(table, "mine")


def test_its_own_output_can_be_staged_anew() -> None:
    first = list(stage_table(["plant,trifoliates", "1,5"], "open-nodes"))
    written = io.StringIO()
    csv.writer(written).writerows(first)
    again = list(stage_table(io.StringIO(written.getvalue(), newline="")))
    assert again[0] == first[0] and (first[1][2], again[1][2]) == ("V6", "V5")


def test_rows_keep_line_and_cells(tmp_path: Path) -> None:
    path = tmp_path / "facts.csv"
    path.write_text('plant,field,trifoliates\n1,"creek\nbottom",5\n2,,6\n', encoding="utf-8")
    with path.open(encoding="utf-8", newline="") as file:
        first, second = read_facts(file)
    assert (first.line, second.line, first.cells["field"]) == (3, 4, "creek\nbottom")
