"""Answers files: read back as written, refused with file and line, written by several at once, whole or not at all."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesparse.answers import file as answers
from notesparse.answers.entry import Entry
from notesparse.answers.file import beside, change, place_for, read_entries
from notesparse.answers.reading import read_answered
from notesparse.errors import InputError
from notesparse.record.store import load

ROOT = Path(__file__).resolve().parents[2]
VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(0, 26),
    st.floats(0.5, 99, allow_nan=False).map(lambda x: round(x, 4)),
    st.text(min_size=1, max_size=20).filter(lambda s: s != "not known"),
    st.lists(st.integers(1, 20), max_size=4),
)
WORDS = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30)


def entry(**changes: Any) -> Entry:
    told: dict[str, Any] = {
        "kind": "answer",
        "note": "a.txt",
        "sha256": "ab" * 32,
        "values": {"trifoliates": 11},
        "plant": "1",
        "rule": "4.2",
        "line": "p1 10 or 11 trifs",
        "number": 1,
        "words": "10 or 11 trifs",
        "asked": "Has plant 1 10 or 11 trifoliates?",
        "reading": "11",
    }
    return Entry(**(told | changes))


@given(
    values=st.dictionaries(st.from_regex(r"[a-z_]{1,12}", fullmatch=True), VALUES, min_size=1, max_size=3),
    line=WORDS,
    words=WORDS,
    plant=st.none() | WORDS,
    reading=st.none() | WORDS,
    nth=st.integers(1, 5),
)
@pytest.mark.law
def test_what_is_written_is_read_back(tmp_path_factory: pytest.TempPathFactory, **changes: Any) -> None:
    path = str(tmp_path_factory.mktemp("kept") / "n.answers.toml")
    one, two = (
        entry(**changes),
        entry(
            kind="value",
            values={"trifoliates": None},
            rule="",
            line="",
            words="",
            number=0,
            asked="",
            reading=None,
            visit=2,
            field_name="Low Ladder",
            was=12,
            stop="north",
        ),
    )
    change(path, [one, two])
    assert read_entries(path) == [one, two]
    before = Path(path).read_bytes()
    change(path, [one])  # it is there already
    assert Path(path).read_bytes() == before
    assert change(path, [], [one]) == [one]
    assert read_entries(path) == [two]


def test_comments_and_order_survive(tmp_path: Path) -> None:
    path = str(tmp_path / "n.answers.toml")
    change(path, [entry(), entry(plant="2")])
    text = Path(path).read_text(encoding="utf-8").replace('plant = "2"', '# asked her by phone\nplant = "2"')
    Path(path).write_text(text, encoding="utf-8")
    change(path, [entry(plant="3")], [entry()])
    assert "# asked her by phone" in Path(path).read_text(encoding="utf-8")
    assert [e.plant for e in read_entries(path)] == ["2", "3"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("form = 1\n[[answer]\n", ": is no TOML ("),
        ("form = 2\n", ": is of form 2, and this version knows form 1 only."),
        ("[[answers]]\n", ": 'answers' means nothing here; there are [[answer]] and [[value]]."),
        ("answer = 3\n", ": answer must be a list of tables, each begun with [[answer]]."),
        (
            "# a\n\n[[answer]]\nnote = 'a'\n",
            ":3: `sets` is missing: what the answer sets, as sets = { trifoliates = 11 }.",
        ),
        ("[[answer]]\nsets = { trifoliates = 11 }\n", ":1: 'note' is missing, or is no text."),
        (
            "[[value]]\nnote='a'\nsha256='b'\nsets={nodes=1}\ncolour=3\n",
            ":1: 'colour' means nothing in an value; known ",
        ),
        ("[[value]]\nnote='a'\nsha256='b'\nvisit='1'\nsets={nodes=1}\n", ":1: 'visit' should be a whole number."),
        (
            "[[value]]\nnote='a'\nsha256='b'\nsets={nodes=1, pods=true}\n",
            ":1: a value set by hand sets one thing, and this sets 2.",
        ),
    ],
)
def test_a_broken_file_is_refused_with_its_place(tmp_path: Path, text: str, message: str) -> None:
    path = tmp_path / "n.answers.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as fault:
        read_entries(str(path))
    assert str(fault.value).startswith(str(path) + message)
    with pytest.raises(InputError):
        change(str(path), [entry()])
    assert path.read_text(encoding="utf-8") == text  # nothing was lost


def test_where_answers_are_kept(tmp_path: Path) -> None:
    note = tmp_path / "a.b.txt"
    own, folder = str(tmp_path / "a.b.answers.toml"), str(tmp_path / "answers.toml")
    assert beside(str(note)) == [own, folder]
    assert place_for(str(note)) == own
    Path(folder).write_text("", encoding="utf-8")
    assert place_for(str(note)) == folder
    Path(own).write_text("", encoding="utf-8")
    assert place_for(str(note)) == own


WRITER = """
import sys
from notesparse.answers.entry import Entry
from notesparse.answers.file import change
path, who = sys.argv[1:]
for n in range(8):
    change(path, [Entry("answer", "a.txt", "ab", {"nodes": n}, f"{who}-{n}", rule="4.2", words="w", line="w")])
"""


def test_several_at_once_lose_nothing(tmp_path: Path) -> None:
    path = str(tmp_path / "answers.toml")
    people = [subprocess.Popen([sys.executable, "-c", WRITER, path, str(who)], cwd=ROOT) for who in range(3)]
    assert [person.wait(60) for person in people] == [0, 0, 0]
    assert sorted(e.plant or "" for e in read_entries(path)) == sorted(f"{w}-{n}" for w in range(3) for n in range(8))


def test_a_write_that_fails_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "n.answers.toml"
    change(str(path), [entry()])
    before = path.read_bytes()
    monkeypatch.setattr(answers, "_table", lambda e: (_ for _ in ()).throw(MemoryError))
    with pytest.raises(MemoryError):
        change(str(path), [entry(plant="2")])
    assert path.read_bytes() == before
    assert [name for name in os.listdir(tmp_path) if name.endswith(".part")] == []


NOTE = "Willow Draw 8/5\np1 15tf three quarter inch pods top four\n"


def test_a_note_is_read_with_the_answers_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "2026-08-05_willow.txt"
    path.write_text(NOTE, encoding="utf-8")
    note = load(str(path))
    question = read_answered(note).questions[0]
    kept = entry(
        note=path.name, sha256=note.sha256, number=2, line=NOTE.splitlines()[1], words=question.quote,
        rule=question.rule, plant="1", values={"pod_mm": 19.05}, reading="pods of 3/4 in",
    )  # fmt: skip
    change(place_for(str(path)), [kept])
    after = read_answered(note)
    assert (after.questions[0].answer, after.visits[0].field_stage.r) == (1, "R4")
    assert read_answered(note, answers="").questions[0].answer is None
    path.write_text(NOTE.replace("three quarter", "half"), encoding="utf-8")
    gone = read_answered(load(str(path)))
    assert [u.why[:20] for u in gone.unapplied] == ["the note has changed"]
    assert path.read_text(encoding="utf-8") == NOTE.replace("three quarter", "half")  # a note is never changed
