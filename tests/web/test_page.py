"""The page without a browser: what each address gives, what is kept, what is refused."""

from __future__ import annotations

import re
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from notesparse.answers.file import read_entries
from notesparse.season.look import fields

NOTE = "Willow Draw\np1 15tf pods 3/4 in 3rd node down\np2 15tf three quarter inch pods top four\n"
ADDRESSES = ["/", "/notes", "/stack", "/season", "/help"]


def kept(client: Any, text: str = NOTE, date: str = "2026-08-05") -> str:
    done = client.post("/keep", data={"text": text, "date": date}, follow_redirects=False)
    assert done.status_code == 303, done.text
    return str(done.headers["location"]).split("?")[0]


def key(page: str) -> str:
    return re.search(r'name="key" value="([^"]+)"', page)[1]  # type: ignore[index]


def test_looking_keeps_nothing(client: Any) -> None:
    page = client.post("/look", data={"text": NOTE, "date": "2026-08-05"}).text
    assert "V15" in page and "three quarters of an inch" in page
    assert client.desk.names() == []


def test_a_kept_note_is_a_file_and_a_visit_of_the_season(client: Any) -> None:
    where = kept(client)
    (name,) = client.desk.names()
    assert where == f"/note/{name}" and name.startswith("2026-08-05_willow-draw-")
    assert (Path(client.desk.notes) / name).read_text(encoding="utf-8") == NOTE
    assert [(f.name, f.visits[0].v) for f in fields(client.desk.log())] == [("Willow Draw", "V15")]


def test_a_double_tap_makes_one_record(client: Any) -> None:
    assert kept(client) == kept(client)
    assert len(client.desk.names()) == 1
    assert len(fields(client.desk.log())[0].visits) == 1


def test_what_is_typed_is_never_rewritten(client: Any) -> None:
    text = "Low Ladder\r\n\t“p1” 8 trifs – ✿ top 2\r\n\r\nSent from my phone  \r\n"
    kept(client, text)
    (name,) = client.desk.names()
    assert (Path(client.desk.notes) / name).read_bytes() == text.replace("\r\n", "\n").encode()


def test_a_question_is_answered_with_a_button_and_undone(client: Any) -> None:
    where = kept(client)
    page = client.get(where).text
    assert "three quarter inch pods</mark>" in page and "pods of 3/4 in" in page
    done = client.post(f"{where}/settle", data={"key": key(page), "do": "1"}).text
    assert "No question is open." in done and "R4" in done
    answers = Path(client.desk.notes) / f"{client.desk.names()[0].removesuffix('.txt')}.answers.toml"
    assert [e.reading for e in read_entries(str(answers))] == ["pods of 3/4 in"]
    assert fields(client.desk.log())[0].visits[0].open_questions == 0
    undone = client.post(f"{where}/settle", data={"do": "undo"}).text
    assert "Question 1 of 1" in undone
    assert fields(client.desk.log())[0].visits[0].open_questions == 1


def test_something_else_skip_and_back(client: Any) -> None:
    where = kept(client)
    page = client.get(where).text
    wrong = client.post(f"{where}/settle", data={"key": key(page), "do": "other", "value-pod_mm": "long"})
    assert wrong.status_code == 422 and "long" in wrong.text and 'role="alert"' in wrong.text
    assert "Type a value first" in client.post(f"{where}/settle", data={"key": key(page), "do": "other"}).text
    skipped = client.post(f"{where}/settle", data={"key": key(page), "do": "skip"}).text
    assert "1 question skipped, and still open." in skipped
    told = client.post(f"{where}/settle", data={"key": key(page), "do": "other", "value-pod_mm": "1/2 in"}).text
    assert "No question is open." in told


def test_an_answer_that_comes_twice_counts_once(client: Any) -> None:
    where = kept(client)
    data = {"key": key(client.get(where).text), "do": "1"}
    client.post(f"{where}/settle", data=data)
    client.post(f"{where}/settle", data={**data, "do": "0"})  # a second telephone, on an old page
    plants = client.desk.sitting(client.desk.names()[0]).outcomes[0].visits[0].plants
    assert plants[1].facts.pod_mm == pytest.approx(19.05)


def test_ten_telephones_at_once_lose_nothing(client: Any) -> None:
    def one(n: int) -> str:
        return kept(client, f"Field {n}\np1 {n + 3} trifs\n", "2026-07-01")

    with ThreadPoolExecutor(10) as pool:
        list(pool.map(one, range(10)))
    assert len(client.desk.names()) == 10
    assert len(fields(client.desk.log())) == 10


def test_two_who_change_one_note_both_keep_their_text(client: Any) -> None:
    where = kept(client)
    was = re.search(r'name="was" value="([^"]+)"', client.get(f"{where}/edit").text)[1]  # type: ignore[index]
    assert client.post(f"{where}/edit", data={"text": NOTE + "one", "was": was}).status_code == 200
    second = client.post(f"{where}/edit", data={"text": NOTE + "two", "was": was})
    assert second.status_code == 409
    assert NOTE + "one" in second.text and NOTE + "two" in second.text
    assert (Path(client.desk.notes) / client.desk.names()[0]).read_text(encoding="utf-8") == NOTE + "one"


HOSTILE = 'Low Ladder <script>alert(1)</script>\np1 8 trifs"><img src=x onerror=alert(1)> & pods\n'


def test_a_note_with_markup_stays_text(client: Any) -> None:
    pages = [client.post("/look", data={"text": HOSTILE}).text]
    where = kept(client, HOSTILE, "2026-07-01")
    pages += [client.get(p).text for p in (where, f"{where}/edit", "/notes", "/season", "/stack", "/notes?q=<script>")]
    pages += [client.get("/field/1").text, client.get("/report.html").text]
    for page in pages:
        assert "<script>alert" not in page and "<img src=x" not in page


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 303),
        ({"origin": "http://127.0.0.1:8765", "sec-fetch-site": "same-origin"}, 303),
        ({"host": "evil.example"}, 400),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "null"}, 403),
        ({"sec-fetch-site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site"}, 403),
    ],
)
def test_who_may_send(client: Any, headers: dict[str, str], status: int) -> None:
    done = client.post("/keep", data={"text": NOTE}, headers=headers, follow_redirects=False)
    assert done.status_code == status
    assert len(client.desk.names()) == (status == 303)


def test_a_secret_address_is_wanted_where_there_is_one(desk: Any) -> None:
    from starlette.testclient import TestClient

    from notesparse.web.app import make_app

    with TestClient(make_app(desk, ["192.0.2.7"], "/secret"), base_url="http://192.0.2.7:8765") as outside:
        assert outside.get("/").status_code == 404
        assert outside.get("/secretive/").status_code == 404
        page = outside.get("/secret/")
        assert page.status_code == 200 and 'action="/secret/keep"' in page.text
        assert outside.get("/secret/static/page.css").status_code == 200
        done = outside.post("/secret/keep", data={"text": NOTE}, follow_redirects=False)
        assert done.headers["location"].startswith("/secret/note/")
        assert outside.get(done.headers["location"]).status_code == 200


@pytest.mark.parametrize("path", ADDRESSES)
def test_every_page_has_its_headers_and_asks_nothing_of_others(client: Any, path: str) -> None:
    page = client.get(path)
    assert page.status_code == 200
    assert "default-src 'none'" in page.headers["content-security-policy"]
    assert page.headers["x-content-type-options"] == "nosniff"
    assert not re.findall(r'(?:src|href|action)="(?:https?:)?//', page.text)
    assert "No treatment is advised here: label, local rules, licensed adviser decide." in page.text
    assert "style=" not in page.text and "<style" not in page.text and "onclick" not in page.text


def test_the_first_page_is_small(client: Any) -> None:
    page = client.get("/").text
    parts = re.findall(r'(?:src|href)="(/static/[^"]+)"', page)
    assert len(parts) == 3
    assert len(page) + sum(len(client.get(p).content) for p in parts) < 100_000


@pytest.mark.parametrize(
    ("path", "data", "status", "says"),
    [
        ("/keep", {"text": "  \n"}, 400, "nothing in the note yet"),
        ("/keep", {"text": "p1 V6", "date": "2026-06-31"}, 400, "is no date"),
        ("/keep", {"text": "x " * 150_000}, 413, "too long"),
        ("/note/..%2F..%2Fetc%2Fpasswd", None, 404, "nothing here"),
        ("/note/none.txt", None, 400, "There is no note"),
        ("/field/77", None, 400, "no such field"),
        ("/season?on=soon", None, 400, "is no date"),
        ("/nowhere", None, 404, "nothing here"),
    ],
)
def test_what_cannot_be_done_is_said(client: Any, path: str, data: Any, status: int, says: str) -> None:
    done = client.post(path, data=data) if data is not None else client.get(path)
    assert done.status_code == status and says in done.text
    assert client.desk.names() == []


def test_a_stack_of_old_notes(client: Any) -> None:
    files = [
        ("files", ("1998-07-20_back forty.txt", b"p1 ten or eleven trifs\n", "text/plain")),
        ("files", ("a/b\\1998-08-01.txt", b"Mill Forty\np1 8 trifs\n", "text/plain")),
        ("files", ("photo.txt", b"\x89PNG\x00\x00\x1a\n" * 40, "text/plain")),
    ]
    page = client.post("/stack", files=files)
    assert page.status_code == 400 and "photo.txt" in page.text
    assert client.desk.names() == ["1998-08-01.txt", "1998-07-20_back forty.txt"]
    assert "1 note with open questions." in page.text
    again = client.post("/stack", files=files[:2])
    assert again.status_code == 200 and len(client.desk.names()) == 2
    other = client.post("/stack", files=[("files", ("1998-08-01.txt", b"other", "text/plain"))])
    assert other.status_code == 200 and "1998-08-01-2.txt" in client.desk.names()


def test_search_finds_notes_by_their_words(client: Any) -> None:
    kept(client)
    kept(client, "Mill Forty\np1 8 trifs, waterhemp by the gate\n", "2026-07-01")
    assert "1 note with" in client.get("/notes?q=waterhemp gate").text
    assert "0 notes with" in client.get("/notes?q=marestail").text


def test_the_season_its_chart_and_its_report(client: Any) -> None:
    pytest.importorskip("matplotlib")
    kept(client, "Hazel Piece\np1 3 trifs\n", "2026-06-12")
    kept(client, "Hazel\np1 1 trif\n", "2026-06-03")
    kept(client, NOTE)
    page = client.get("/season").text
    assert "Is “hazel” the field “hazel piece”?" in page and "Willow Draw" in page
    assert client.get("/chart.svg").headers["content-type"].startswith("image/svg+xml")
    joined = client.post("/names", data={"one": "hazel", "two": "hazel piece", "do": "join"}).text
    assert "Is “" not in joined
    number = next(f.id for f in fields(client.desk.log()) if f.name == "Willow Draw")
    field = client.get(f"/field/{number}").text
    assert "What is next" in field and "It is not a recommendation to apply anything." in field
    report = client.get(f"/report.html?field={number}")
    assert 'filename="willow-draw.html"' in report.headers["content-disposition"] and "<h1" in report.text


def test_a_day_before_a_field_was_seen_leaves_it_out(client: Any) -> None:
    kept(client, "Aster Lane\np1 9 trifs\n", "2026-07-20")
    kept(client, "Barn Lot\np1 3 trifs\n", "2026-06-12")
    number = next(f.id for f in fields(client.desk.log()) if f.name == "Barn Lot")
    page = client.get("/season?on=2026-06-30").text
    assert "Aster Lane" not in page and f'href="/field/{number}?on=2026-06-30">Barn Lot<' in page


def test_how_many_more_plants_would_settle_it(client: Any) -> None:
    page = client.post("/look", data={"text": "p1 8 trifs. p2 8 trifs. p3 8 trifs. p4 7 trifs"}).text
    assert "Whether half of the field is at V8 is open: 4 more plants can settle it" in page


def test_a_mended_word_is_told_of(client: Any) -> None:
    page = client.post("/look", data={"text": "plant 3 eleven trips, flours third no down"}).text
    assert "read as trifoliate: sounds alike" in page
