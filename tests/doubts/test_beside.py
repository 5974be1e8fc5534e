"""The file beside a heard note: what it may hold, and where its doubts stand in a note that was changed."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path
from typing import Any

import pytest

from notesparse import Doubt, InputError, Span
from notesparse.answers.heard import GONE, NO_TEXT, Beside, Fitted, beside_of, fit_heard, place_beside, read_heard
from notesparse.answers.reading import read_answered
from notesparse.record.store import load
from tests.properties.laws import check_outcome

TEXT = "plant 3 fifteen trifs flowers top two nodes\n[inaudible]\nplant 4 fourteen trifs\n"


def told(**more: Any) -> dict[str, Any]:
    return {
        "source": "walk.wav",
        "sha256": "ab" * 32,
        "note_sha256": hashlib.sha256(TEXT.encode()).hexdigest(),
        "model": "base",
        "doubts": [{"span": [8, 15], "others": ["sixteen"], "where": "0:01.4 of walk.wav", "how": "heard"}],
        "utterances": [
            {"span": [0, 43], "start": 0.5, "end": 4.0, "refused": None},
            {"span": [44, 55], "start": 6.0, "end": 9.5, "refused": "mostly noise"},
            {"span": [56, 78], "start": 10, "end": 12},
        ],
        "text": TEXT,
        **more,
    }


def beside(**more: Any) -> Beside:
    return beside_of(told(**more), "walk.heard.json")


def fitted(note: str, **more: Any) -> Fitted:
    return fit_heard(beside(**more), note, hashlib.sha256(note.encode()).hexdigest())


def note_in(folder: Path, text: str = TEXT, **more: Any) -> Path:
    note = folder / "2026-07-14_walk.txt"
    note.write_bytes(text.encode())
    (folder / "2026-07-14_walk.heard.json").write_text(json.dumps(told(**more)), encoding="utf-8")
    return note


def test_it_lies_beside_the_note() -> None:
    assert place_beside("notes/2026-07-14_walk.txt") == str(Path("notes/2026-07-14_walk.heard.json"))
    assert place_beside("walk") == "walk.heard.json"


def test_the_note_is_read_with_it(tmp_path: Path) -> None:
    outcome = read_answered(load(str(note_in(tmp_path))))
    record = check_outcome(outcome, TEXT)
    assert [(q["rule"], q["quote"]) for q in record["questions"]] == [("heard", "fifteen")]
    heard = record["heard"]
    assert {key: heard[key] for key in ("source", "model", "changed")} == {
        "source": "walk.wav",
        "model": "base",
        "changed": False,
    }
    assert heard["refused"] == [{"start": 6, "end": 9.5, "span": [44, 55], "why": "mostly noise"}]
    assert {"text", "note_sha256"}.isdisjoint(heard)
    assert [(u["quote"], u["why"]) for u in record["unread"]] == [("inaudible", "not heard: mostly noise")]


def test_another_note_of_the_same_stem_is_told_that_it_is_not_its_own(tmp_path: Path) -> None:
    from notesparse.views.page import page

    note = note_in(tmp_path, note="2026-07-14_walk.txt")
    other = note.with_suffix(".md")
    other.write_text("plant 3 fifteen trifs, the other notebook\n", encoding="utf-8")
    outcome = read_answered(load(str(other)))
    assert (outcome.questions, outcome.heard) == ((), None)
    said = "it is of 2026-07-14_walk.txt, another note that lies here too: nothing of it was asked of this one"
    assert [u.why for u in outcome.unapplied] == [said]
    assert f"(2026-07-14_walk.heard.json): {said}" in " ".join(page(outcome).split())
    assert len(read_answered(load(str(note))).questions) == 1
    note.write_bytes(f"well {TEXT}".encode())  # changed, and still its own by its name
    assert len(read_answered(load(str(note))).questions) == 1


@pytest.mark.parametrize("change", ["", "well "])
def test_a_note_that_was_renamed_keeps_its_doubts(tmp_path: Path, change: str) -> None:
    note = note_in(tmp_path, text=change + TEXT, note="walk.txt")  # no walk.txt lies there
    assert [q.quote for q in read_answered(load(str(note))).questions] == ["fifteen"]


def test_a_copy_under_another_ending_has_the_same_doubts(tmp_path: Path) -> None:
    note = note_in(tmp_path, note="2026-07-14_walk.txt")
    copy = note.with_suffix(".md")
    copy.write_bytes(TEXT.encode())
    assert [q.quote for q in read_answered(load(str(copy))).questions] == ["fifteen"]


def test_a_note_without_one_has_no_such_key(tmp_path: Path) -> None:
    note = note_in(tmp_path)
    note.with_name("2026-07-14_walk.heard.json").unlink()
    assert "heard" not in check_outcome(read_answered(load(str(note))), TEXT)


def test_what_the_listener_writes_is_what_is_read(tmp_path: Path) -> None:
    """More keys than are known here stay in the record."""
    more: dict[str, Any] = {"seconds": 12.3, "by": "two", "weak": False, "model": None, "refused": []}
    outcome = read_answered(load(str(note_in(tmp_path, **more))))
    record = check_outcome(outcome, TEXT)
    assert {key: record["heard"][key] for key in more} == more


CHANGED = [
    ("well " + TEXT, "fifteen", 13),
    (TEXT.replace("plant 4", "plant 4 had"), "fifteen", 8),
    (TEXT.replace("flowers", "flowers and pods"), "fifteen", 8),
    (TEXT.replace("fifteen", "about fifteen"), "fifteen", 14),
    (TEXT.replace("[inaudible]\n", ""), "fifteen", 8),
    ("plant 2 fifteen trifs\n" + TEXT, "fifteen", 30),
]


@pytest.mark.parametrize(("text", "words", "at"), CHANGED)
def test_doubts_are_found_again_by_the_words_around_them(text: str, words: str, at: int) -> None:
    found = fitted(text)
    assert [(d.span.of(text), d.span.start) for d in found.doubts] == [(words, at)]
    assert (found.lost, found.told["changed"]) == ((), True)
    for one in found.told["utterances"]:
        span = one["span"]
        assert span is None or text[slice(*span)] in TEXT


@pytest.mark.parametrize(
    "text",
    [
        TEXT.replace("fifteen", "sixteen"),
        "fifteen",  # the same word alone may be another one
        "no day for a walk\n",
    ],
)
def test_a_doubt_whose_words_are_gone_is_told_of(text: str) -> None:
    found = fitted(text)
    assert found.doubts == ()
    assert [(u.given, u.why) for u in found.lost] == [
        (Doubt(Span(0, 0), ("sixteen",), "0:01.4 of walk.wav"), f"{GONE} (“fifteen”)")
    ]


def test_without_its_text_a_changed_note_is_told_of() -> None:
    found = fitted("well " + TEXT, text="")
    assert (found.doubts, [u.why for u in found.lost]) == ((), [NO_TEXT])


def test_a_lost_doubt_is_on_the_page_and_in_the_record(tmp_path: Path) -> None:
    from notesparse.views.page import page

    text = TEXT.replace("fifteen", "seven")
    outcome = read_answered(load(str(note_in(tmp_path, text))))
    record = check_outcome(outcome, text)
    assert record["unapplied"] == [
        {"plant": None, "values": {"words": ["sixteen"]}, "span": None, "why": f"{GONE} (“fifteen”)"}
    ]
    told = " ".join(page(outcome).split())
    assert "The note was changed since" in told
    assert "or “sixteen” (0:01.4 of walk.wav): the note has changed, and these words are gone" in told


def test_a_long_note_that_is_another_one_is_given_up_soon() -> None:
    old, new = " ".join(f"a{n}" for n in range(9000)), " ".join(f"b{n}" for n in range(9000))
    found = fit_heard(Beside(beside().told, old, "", (Doubt(Span(0, 2), (), ""),)), new, "x")
    assert len(found.lost) == 1


FAULTS: list[tuple[dict[str, Any], str]] = [
    ({"source": 5}, "source is missing, or is no text."),
    ({"note": 5}, "note is missing, or is no text."),
    ({"note_sha256": None}, "note_sha256 is missing, or is no text."),
    ({"form": 2}, "is of form 2, and this version knows form 1 only."),
    ({"doubts": {}}, "doubts is missing, or is no list."),
    ({"doubts": [5]}, "doubts[0] should be an object, as {...}."),
    ({"doubts": [{"span": [8], "others": [], "where": ""}]}, "doubts[0].span should be [start, end] in characters"),
    ({"doubts": [{"span": [True, 9], "others": [], "where": ""}]}, "doubts[0].span should be [start, end]"),
    ({"doubts": [{"span": [9, 8], "others": [], "where": ""}]}, "doubts[0].span should be [start, end]"),
    ({"doubts": [{"others": [], "where": ""}]}, "doubts[0].span is missing, or is no list."),
    ({"doubts": [{"span": [8, 15], "others": [5], "where": ""}]}, "doubts[0].others should be a list of texts."),
    ({"doubts": [{"span": [8, 15], "others": []}]}, "doubts[0].where is missing, or is no text."),
    ({"doubts": [{"span": [8, 15], "others": [], "where": "", "how": "seen"}]}, "how should be one of heard, typed."),
    ({"utterances": [{"span": None, "start": 3, "end": 2}]}, "utterances[0] should begin before it ends"),
    ({"utterances": [{"span": None, "start": "3", "end": 2}]}, "utterances[0].start is missing, or is no number."),
    ({"refused": [{"start": 1, "end": 2, "span": None}]}, "refused[0].why is missing, or is no text."),
    ({"seconds": "12"}, "seconds is missing, or is no number."),
    ({"seconds": None}, "seconds is missing, or is no number."),
    ({"seconds": -1}, "seconds should be the length of the recording, 0 or more."),
    ({"seconds": float("nan")}, "is no JSON (NaN is no number there)"),
    ({"by": 5}, "by is missing, or is no text."),
    ({"weak": "no"}, "weak is missing, or is no truth value."),
    ({"model": 5}, "model is missing, or is no text."),
    ({"utterances": [{"start": 0, "end": 2, "repairs": 5}]}, "utterances[0].repairs is missing, or is no list."),
    ({"utterances": [{"start": 0, "end": 2, "repairs": [5]}]}, "utterances[0].repairs[0] should be an object"),
    ({"utterances": [{"start": 0, "end": 2, "repairs": [{}]}]}, "utterances[0].repairs[0].start is missing"),
]


@pytest.mark.parametrize(("more", "says"), FAULTS)
def test_a_broken_file_is_refused_with_the_place(tmp_path: Path, more: dict[str, Any], says: str) -> None:
    note = note_in(tmp_path, **more)
    with pytest.raises(InputError) as fault:
        read_answered(load(str(note)))
    assert str(tmp_path / "2026-07-14_walk.heard.json") in str(fault.value)
    assert says in str(fault.value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("{", "is no JSON"),
        ("[]", "the whole should be an object"),
        ("", "the file is empty"),
        ("[" * 9999, "is no JSON"),
        ('{"more": 1e999}', "is no JSON (1e999 is no number there)"),
    ],
)
def test_a_file_of_something_else_is_refused(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "walk.heard.json"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match=re.escape(says)):
        read_heard(str(path))


def test_a_text_that_is_none_is_refused() -> None:
    with pytest.raises(InputError, match="text is missing, or is no text"):
        beside(text=5)


def test_a_doubt_behind_the_end_of_the_note_is_told_of(tmp_path: Path) -> None:
    far = [{"span": [800, 900], "others": ["ten"], "where": "", "how": "heard"}]
    outcome = read_answered(load(str(note_in(tmp_path, doubts=far))))
    assert [u.why for u in outcome.unapplied] == ["it lies outside of the note"]
    assert [d["span"] for d in check_outcome(outcome, TEXT)["heard"]["doubts"]] == [None]


def test_a_piece_of_speech_behind_the_end_of_the_note_has_no_place_in_it(tmp_path: Path) -> None:
    far = [{"span": [56, 4000], "start": 0, "end": 2, "refused": "mostly noise"}]
    record = check_outcome(read_answered(load(str(note_in(tmp_path, utterances=far)))), TEXT)
    assert [u["span"] for u in record["heard"]["utterances"]] == [None]
    assert [(r["span"], r["why"]) for r in record["heard"]["refused"]] == [(None, "mostly noise")]
