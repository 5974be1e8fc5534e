"""Pictures of typed pages, drawn here and read with tesseract: the record is what counts, not the text."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from notesparse.cli.app import app
from tests.typed.drawn import BY_HAND, TYPED, as_bytes, by_hand, draw, font_file, photo, scan
from tests.typed.ready import needs_tesseract

pytestmark = needs_tesseract
ROOT = Path(__file__).resolve().parents[2]
FONT = next((f for f in TYPED if font_file(f)), None)
needs_font = pytest.mark.skipif(FONT is None, reason="no typewriter font on this computer")

TABLE = """\
Creek Bottom     7/14/2026     planted 5/9

plant    trifs    nodes    pods
1        11       12       1/4"
2        10       11       none
3        12       13       3/4"

stink bugs 3 per 25 sweeps
"""
PROSE = """\
Creek bottom. Plant 1 has 11 trifs, flowers at the top two
nodes, no pods yet. Plant 2 has 10 trifs and flowers on the
third node down. Plant 3 has 12 trifs, flowers at the top,
pods 1/4 inch on the second node down. Soil dry two inches
down.
"""


def read(*args: str) -> Result:
    return CliRunner().invoke(app, ["read", *args])


def record(path: Path) -> dict[str, Any]:
    done = read(str(path), "--json")
    assert done.exit_code == 0, done.stderr
    return json.loads(done.stdout)


def facts(one: dict[str, Any], *keys: str) -> list[tuple[Any, ...]]:
    return [tuple(plant[key] for key in keys) for plant in one["visits"][0]["plants"]]


def blotted() -> Any:
    """A page on which a blot lies over half of a figure, that of the trifoliates of plant 1."""
    from PIL import ImageDraw, ImageFont

    assert FONT is not None
    text = "Creek bottom\n\nplant 1: 18 trifs, flowers at the top node\nplant 2: 16 trifs, no flowers\n"
    page = draw(text, FONT, size=40)
    letter = ImageFont.truetype(str(font_file(FONT)), 40).getlength("0")
    x, y = 80 + 10 * letter, 80 + 2 * 58
    ImageDraw.Draw(page).rectangle((x + 0.05 * letter, y + 10, x + 0.95 * letter, y + 26), fill=40)
    return page


@needs_font
@pytest.mark.parametrize("drawn", [scan, photo])
def test_the_record_of_a_table_is_that_of_its_text(drawn: Any, tmp_path: Path) -> None:
    assert FONT is not None
    path = tmp_path / "2026-07-14_creek.png"
    drawn(TABLE, FONT, 3).save(path)
    one = record(path)
    assert one["visits"][0]["field"] == "Creek Bottom"
    assert one["visits"][0]["planted"] == "2026-05-09"
    assert facts(one, "plant", "trifoliates", "nodes", "pod_mm", "r_stage") == [
        ("1", 11, 12, 6.35, "R3"),
        ("2", 10, 11, None, None),
        ("3", 12, 13, 19.05, "R4"),
    ]
    assert [(f["name"], f["value"], f["unit"]) for f in one["visits"][0]["findings"]] == [
        ("stink bug", 3, "per 25 sweeps")
    ]


@needs_font
def test_what_the_record_says_of_a_page(tmp_path: Path) -> None:
    assert FONT is not None
    path = tmp_path / "2026-07-14_creek.jpg"
    draw(PROSE, FONT, skew=2.0, shadow=0.5, blur=0.8).save(path, quality=80)
    one = record(path)
    assert one["sha256"] == hashlib.sha256(path.read_bytes()).hexdigest()
    assert one["source"] == str(path) and one["note_date"] == "2026-07-14"
    typed = one["typed"]
    assert typed["engine"].startswith("tesseract ") and typed["pages"] == 1
    assert typed["angle"] == pytest.approx(-2.0, abs=0.3)
    a, b = one["visits"][0]["plants"][0]["spans"]["trifoliates"]
    assert "11" in typed["text"][a:b]
    assert facts(one, "plant", "trifoliates", "v_stage", "r_stage") == [
        ("1", 11, "V11", "R2"),
        ("2", 10, "V10", "R1"),
        ("3", 12, "V12", "R3"),
    ]


@needs_font
def test_what_a_page_of_a_typed_page_says(tmp_path: Path) -> None:
    """It speaks of reading, not of hearing."""
    path = tmp_path / "blot.png"
    blotted().save(path)
    told = " ".join(read(str(path)).stdout.split())
    assert re.search(r"Read from a typed page by tesseract [\w.]+: 1 page, \d places? not read clearly", told)
    assert "heard" not in told.lower() and "hearing" not in told.lower()
    assert re.search(r"was read, .*line 3 of blot\.png", told)


@needs_font
@pytest.mark.parametrize(
    ("program", "says"),
    [
        (None, "Typed pages are read with tesseract, and it is not on this computer: apt-get install tesseract-ocr"),
        (
            "#!/bin/sh\ncase $1 in --version) echo tesseract 5.3.0;; "
            "*) printf 'List of available languages (1):\\nosd\\n';; esac\n",
            "Typed pages are read with tesseract's English data, and it is not on this computer",
        ),
    ],
)
def test_where_the_recogniser_is_missing_it_is_told_what_to_install(
    program: str | None, says: str, tmp_path: Path
) -> None:
    """In a process of its own, with a PATH on which there is no tesseract, or one without English."""
    assert FONT is not None
    (tmp_path / "a.txt").write_text("plant 1 eleven trifs\n")
    draw(TABLE, FONT).save(tmp_path / "page.png")
    place = tmp_path / "bin"
    place.mkdir()
    if program is not None:
        (place / "tesseract").write_text(program)
        (place / "tesseract").chmod(0o755)
    done = subprocess.run(
        [sys.executable, "-m", "notesparse", "read", "a.txt", "page.png", "--json"],
        cwd=tmp_path,
        env={**os.environ, "PATH": str(place), "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 1
    assert [json.loads(line)["source"] for line in done.stdout.splitlines()] == ["a.txt"]
    assert says in done.stderr and "Traceback" not in done.stderr


@needs_font
def test_all_pages_of_a_file_are_one_note(tmp_path: Path) -> None:
    assert FONT is not None
    path = tmp_path / "two.tif"
    first, second = TABLE.split("3        12")[0], "plant 7    13 trifs    14 nodes\n"
    draw(first, FONT).save(path, save_all=True, append_images=[draw(second, FONT)])
    one = record(path)
    assert one["typed"]["pages"] == 2
    assert facts(one, "plant", "trifoliates") == [("1", 11), ("2", 10), ("7", 13)]


@needs_font
def test_a_damaged_figure_is_asked(tmp_path: Path) -> None:
    """A blot over half of a figure: whatever it is read as, somebody is asked."""
    path = tmp_path / "blot.png"
    blotted().save(path)
    one = record(path)
    asked = [q for q in one["questions"] if q["plant"] == "1" or "line 3 of blot.png" in q["ask"]]
    assert asked and asked[0]["rule"] == "typed"
    assert "line 3 of blot.png" in asked[0]["ask"]


@needs_font
def test_an_answer_beside_the_picture_settles_it(tmp_path: Path) -> None:
    from notesparse.answers.entry import entry_of, values_of_choice
    from notesparse.answers.file import change, place_for
    from notesparse.answers.reading import read_answered
    from notesparse.record.store import load

    path = tmp_path / "blot.png"
    blotted().save(path)
    before = read_answered(load(str(path)))
    question = next(q for q in before.questions if q.rule == "typed")
    last = len(question.choices) - 1
    change(
        place_for(str(path)),
        [entry_of(before, question, values_of_choice(question, last), question.choices[last].reading)],
    )
    assert (tmp_path / "blot.answers.toml").exists()
    after = record(path)
    assert [q["answer"] for q in after["questions"] if q["rule"] == "typed" and q["span"] == list(question.span)] == [
        last
    ]
    assert not after["unapplied"]


@pytest.mark.parametrize("font", BY_HAND)
def test_handwriting_is_refused_with_the_reason(font: str, tmp_path: Path) -> None:
    if font_file(font) is None:
        pytest.skip(f"{font} is not on this computer")
    path = tmp_path / "hand.png"
    by_hand(PROSE, font, 1).save(path)
    done = read(str(path), "--json")
    assert done.exit_code == 1 and done.stdout == ""
    assert "hand.png: this page is not read: it looks written by hand" in done.stderr


@needs_font
def test_other_files_are_read_beside_a_refused_one(tmp_path: Path) -> None:
    assert FONT is not None
    (tmp_path / "a.txt").write_text("plant 1 eleven trifs\n")
    draw(TABLE, FONT).save(tmp_path / "c.png")
    (tmp_path / "b.png").write_bytes(b"\x89PNG\r\n\x1a\n and no more")
    done = read(*(str(tmp_path / f) for f in ("a.txt", "b.png", "c.png")), "--json")
    assert done.exit_code == 1
    assert [Path(json.loads(line)["source"]).name for line in done.stdout.splitlines()] == ["a.txt", "c.png"]
    assert done.stderr.count("\n") == 1 and "b.png: " in done.stderr


def test_an_empty_page_is_refused(tmp_path: Path) -> None:
    from PIL import Image

    path = tmp_path / "white.png"
    Image.new("L", (900, 700), 250).save(path)
    done = read(str(path))
    assert done.exit_code == 1 and "no writing is found on it" in done.stderr
    assert as_bytes(Image.new("L", (9, 9)))  # the drawing itself works
