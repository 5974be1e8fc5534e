"""The report: one file that needs nothing else, true to the notes, with cautions that nothing leaves out."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import pytest
from typer.testing import CliRunner

from notesparse.cli.app import app
from notesparse.season.log import connect
from notesparse.season.look import fields, note_of
from notesparse.views.marked_note import evidence, marked_note

pytest.importorskip("jinja2")
pytest.importorskip("matplotlib")


def made(tmp_path: Path, log: Path, *words: str) -> str:
    out = tmp_path / "page.html"
    done = CliRunner().invoke(app, ["report", *words, "--season", str(log), "-o", str(out)])
    assert done.exit_code == 0, done.output
    return out.read_text(encoding="utf-8")


class _Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [str(v) for k, v in attrs if k in {"src", "href", "xlink:href"} and not str(v).startswith("#")]
        self.found += [tag] if tag in {"script", "link", "iframe"} else []


FORMS = [(), ("Barn Lot",), ("--day", "2026-08-26"), ("Wagon Gate", "--day", "2026-07-27")]


@pytest.mark.parametrize("words", FORMS, ids=lambda w: " ".join(w) or "season")
def test_a_report_needs_nothing_else_and_has_the_cautions(
    tmp_path: Path, demo_file: Path, words: tuple[str, ...]
) -> None:
    page = made(tmp_path, demo_file, *words)
    links = _Links()
    links.feed(page)
    assert links.found == []
    assert "No treatment is advised here: label, local rules, licensed adviser decide." in page
    if "What this stage usually brings up" in page:
        assert "It is not a recommendation to apply anything." in page


def test_a_report_is_the_same_twice(tmp_path: Path, demo_file: Path) -> None:
    assert made(tmp_path, demo_file) == made(tmp_path, demo_file)


def test_a_visit_has_its_stage_plants_questions_and_note(tmp_path: Path, demo_file: Path) -> None:
    page = made(tmp_path, demo_file, "Wagon Gate", "--day", "2026-07-27")
    text = unescape(re.sub(r"<[^>]+>", "", page))
    for said in ("V16", "R3", "fewer than ten", "node 3: 3/16 in", "Has plant 4 15 or 16 trifoliates?", "Go back"):
        assert said in text, said
    assert page.count("<article") == 1 and page.count('role="img"') == 5


def test_the_misread_of_the_season_is_on_the_page(tmp_path: Path, demo_file: Path) -> None:
    assert "15 new nodes in 21 days" in made(tmp_path, demo_file, "Barn Lot")


def test_every_note_stands_whole_and_marked(demo_file: Path) -> None:
    log = connect(str(demo_file))
    for field in fields(log):
        for seen in field.visits:
            note = note_of(log, seen.note)
            html = marked_note(note.text, note.record)
            bare = unescape(re.sub(r"<sup>.*?</sup>|<[^>]+>", "", html))
            assert bare == note.text
            read = "".join(re.findall(r'<mark class="(?:read|asked)">(.*?)</mark>', html, re.DOTALL))
            assert read or not evidence(note.record)


def test_hostile_words_stay_words(tmp_path: Path) -> None:
    note = tmp_path / "2026-07-01_x.txt"
    note.write_text('Low Ladder\np1 8 trifs <script>alert(1)</script> pods & "flowers"\n', encoding="utf-8")
    log = tmp_path / "s.db"
    assert CliRunner().invoke(app, ["keep", str(note), "--season", str(log)]).exit_code == 0
    page = made(tmp_path, log, "Low Ladder")
    assert "<script" not in page
    assert "<script>alert(1)</script>" in unescape(re.sub(r"<[^>]+>", "", page))


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("Nowhere",), "No field 'Nowhere'"),
        (("--day", "2026-01-01"), "Nothing was visited on 2026-01-01"),
        (("--day", "soon"), "is no date"),
    ],
)
def test_what_is_not_there_is_said(tmp_path: Path, demo_file: Path, words: tuple[str, ...], says: str) -> None:
    done = CliRunner().invoke(app, ["report", *words, "--season", str(demo_file), "-o", str(tmp_path / "x.html")])
    assert done.exit_code in {1, 2} and says in done.output
    assert not (tmp_path / "x.html").exists()
