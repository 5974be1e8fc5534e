"""The page in a real browser: a small telephone, no script, dark, keys alone, a program that dies, and faults planted on purpose."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from tests.web.conftest import ROOT, Served

Error = pytest.importorskip("playwright.sync_api").Error

pytestmark = [pytest.mark.slow, pytest.mark.filterwarnings("ignore")]
AXE = (Path(__file__).parent / "axe.min.js").read_text(encoding="utf-8")  # axe-core 4.14.1, MPL-2.0
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
NOTE = "Willow Draw 8/5\np1 15tf pods 3/4 3rd node down\np2 15tf three quarter inch pods top four\np3 14tf flours third no down"
PHONE = {"viewport": {"width": 320, "height": 640}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}


@pytest.fixture
def open_page(chromium: Any, served: Served) -> Iterator[Any]:
    """``open_page("season", **of_the_context)``; complaints of the browser and requests to elsewhere are kept."""
    contexts = []

    def go(path: str = "", **how: Any) -> Any:
        context = chromium.new_context(**({"viewport": {"width": 1000, "height": 800}} | how))
        contexts.append(context)
        page = context.new_page()
        page.complaints, page.foreign = [], []
        page.on("console", lambda m: page.complaints.append(m.text) if m.type == "error" else None)
        page.on("pageerror", lambda e: page.complaints.append(str(e)))
        page.on(
            "request", lambda r: page.foreign.append(r.url) if not r.url.startswith((served.url, "data:")) else None
        )
        page.goto(served.url + path)
        return page

    yield go
    for context in contexts:
        context.close()


def faults(page: Any) -> list[str]:
    """What axe finds against WCAG 2.2 AA, as `rule: element`."""
    page.wait_for_load_state("load")  # an element is there before the style sheet is
    page.evaluate(AXE)
    found = page.evaluate("tags => axe.run(document, {runOnly: tags})", TAGS)
    return [f"{v['id']}: {n['html'][:90]}" for v in found["violations"] for n in v["nodes"]]


def until(page: Any, truth: str, *arg: Any) -> None:
    """Waits till an expression is true on the page: what a script does after an event is not there at once."""
    for _ in range(200):
        with suppress(Error):  # in the middle of going to another page there is nothing to ask
            if page.evaluate(truth, *arg):
                return
        page.wait_for_timeout(50)
    raise AssertionError(f"never true: {truth}")


FOCUS = "document.activeElement && document.activeElement.id"
DRAFT = "t => Object.keys(localStorage).some(k => localStorage.getItem(k) === t)"


def keep(page: Any, text: str = NOTE) -> None:
    page.fill("#text", text)
    page.click("text=Keep this note")
    page.wait_for_selector("#work")
    page.wait_for_load_state("load")  # the script that hears the keys is there only now


def fill_season(page: Any) -> None:
    """Some notes of the demo season."""
    page.goto(page.url.split("/", 3)[0] + "//" + page.url.split("/", 3)[2] + "/stack")
    names = ["2026-06-12_hazel-piece", "2026-07-14_hazel-piece", "2026-08-05_willow-draw", "2026-07-27_wagon-gate"]
    page.set_input_files("#files", [str(ROOT / "demo_notes" / f"{n}.txt") for n in names])
    page.click("text=Take them in")
    page.wait_for_selector("text=Settle them one after another")


PAGES = ["", "notes", "stack", "season", "field/1", "help"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_any_page(open_page: Any, scheme: str) -> None:
    page = open_page(color_scheme=scheme, **PHONE)
    root = page.url
    fill_season(page)
    for path in PAGES:
        page.goto(root + path)
        assert faults(page) == [], path
    page.goto(root)
    page.fill("#text", NOTE)
    page.click("text=Only look")
    page.wait_for_selector(".noted")
    assert faults(page) == []
    page.click("text=Keep this note")
    page.wait_for_selector(".card")
    assert faults(page) == []
    page.click("text=Change the note's text")
    page.wait_for_selector("#text")
    assert faults(page) == []
    assert page.foreign == [] and page.complaints == []


@pytest.mark.parametrize(
    ("fault", "rule"),
    [
        ("document.querySelector('label').remove()", "label"),
        ("document.querySelector('h1').style.color = '#eee'", "color-contrast"),
        ("document.documentElement.removeAttribute('lang')", "html-has-lang"),
        ("document.querySelector('button').textContent = ''", "button-name"),
    ],
)
def test_axe_finds_a_planted_fault(open_page: Any, fault: str, rule: str) -> None:
    page = open_page(**PHONE)
    page.evaluate(fault)
    assert any(found.startswith(rule) for found in faults(page))


def test_a_small_telephone(open_page: Any) -> None:
    """WCAG 1.4.10 and 2.5.5: nothing runs over 320 px, and what is pressed is 44 px or more."""
    page = open_page(**PHONE)
    root = page.url
    fill_season(page)
    for path in PAGES:
        page.goto(root + path)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, path
    page.goto(root)
    keep(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    boxes = page.eval_on_selector_all(
        "button, nav a, a.go, summary, textarea, input:not([type=hidden])",
        "all => all.map(e => [e.outerHTML.slice(0, 60), e.getBoundingClientRect().width, e.getBoundingClientRect().height])",
    )
    small = [b for b in boxes if b[2] and (b[2] < 44 or b[1] < 44)]
    assert small == []
    assert page.evaluate("parseFloat(getComputedStyle(document.querySelector('button')).fontSize)") >= 16
    assert "user-scalable" not in page.content() and "maximum-scale" not in page.content()


def test_twice_the_text_and_wide_spacing_lose_nothing(open_page: Any) -> None:
    """WCAG 1.4.4 and 1.4.12."""
    page = open_page(viewport={"width": 1280, "height": 900}, bypass_csp=True)
    keep(page)
    page.add_style_tag(
        content="html{font-size:212%} *{line-height:1.5!important;letter-spacing:.12em!important;word-spacing:.16em!important}"
    )
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280
    cut = page.eval_on_selector_all(
        "button, .noted, li, p", "all => all.filter(e => e.scrollWidth > e.clientWidth + 2 && e.clientWidth).length"
    )
    assert cut == 0


def test_without_script_all_of_it_works(open_page: Any) -> None:
    page = open_page(java_script_enabled=False)
    page.fill("#text", NOTE)
    page.click("text=Only look")
    assert "three quarters of an inch" in page.inner_text("#reading")
    page.click("text=Keep this note")
    page.locator(".choice").nth(1).click()
    assert "No question is open." in page.inner_text("#work")
    page.click("text=Undo the last answer")
    assert "Question 1 of 1" in page.inner_text(".card")


def test_reading_begins_after_a_pause_and_never_rewrites_what_is_typed(open_page: Any) -> None:
    page = open_page()
    page.focus("#text")
    page.keyboard.insert_text("plant 1 eleven trifs ")  # as a dictating keyboard does
    page.keyboard.insert_text("flowers top two nodes")
    page.wait_for_selector("#reading .stage")
    assert page.inner_text("#reading .stages").split() == ["V11", "R2"]
    assert page.input_value("#text") == "plant 1 eleven trifs flowers top two nodes"
    assert page.evaluate("document.activeElement.id") == "text"
    assert page.complaints == []


def test_a_pasted_note_comes_whole(open_page: Any) -> None:
    page = open_page()
    text = "Low Ladder\n• “p1” 8 trifs – flowers ½ ✿\n\nSent from my phone"
    page.evaluate(
        "t => { const b = document.getElementById('text'); b.focus(); document.execCommand('insertText', false, t) }",
        text,
    )
    page.click("text=Keep this note")
    page.wait_for_selector("#work")
    page.click("text=Change the note's text")
    assert page.input_value("#text") == text


def test_a_draft_survives_a_reload_and_a_dead_program(open_page: Any, served: Served) -> None:
    page = open_page()
    page.fill("#text", "half a note")
    until(page, DRAFT, "half a note")
    page.reload()
    assert page.input_value("#text") == "half a note"
    page.fill("#text", "half a note, and more")
    until(page, DRAFT, "half a note, and more")
    served.stop()
    page.wait_for_selector("#gone:not([hidden])")
    assert "does not answer" in page.inner_text("#gone")
    served.start()
    page.goto(served.url)
    assert page.input_value("#text") == "half a note, and more"
    page.click("text=Keep this note")
    page.wait_for_selector("#work")
    page.wait_for_load_state()
    page.goto(served.url)
    assert page.input_value("#text") == ""  # it is kept now


def test_a_killed_program_loses_no_answer(open_page: Any, served: Served) -> None:
    page = open_page()
    keep(page)
    page.locator(".choice").nth(1).click()
    page.wait_for_selector("text=No question is open.")
    here = page.url
    served.stop()
    served.start()
    page.goto(here)
    assert "No question is open." in page.inner_text("#work")


def test_two_tabs_keep_two_drafts(open_page: Any, served: Served) -> None:
    one = open_page()
    one.fill("#text", "the first")
    until(one, DRAFT, "the first")
    two = one.context.new_page()
    two.goto(served.url)
    two.fill("#text", "the second")
    until(two, DRAFT, "the second")
    for tab, text in ((one, "the first"), (two, "the second")):
        tab.reload()
        assert tab.input_value("#text") == text


def test_keys_alone(open_page: Any) -> None:
    page = open_page()
    page.keyboard.press("Tab")
    until(page, 'document.activeElement.className === "skip"')
    page.keyboard.press("Enter")
    keep(page, "Low Ladder\np1 ten or eleven trifs\np2 nine or ten trifs")
    page.keyboard.press("b")
    page.wait_for_selector("text=Question 2 of 2")
    until(page, FOCUS + ' === "h-card"')  # the next question is read out
    page.keyboard.press("a")
    page.wait_for_selector("text=No question is open.")
    page.keyboard.press("u")
    page.wait_for_selector("text=Question 2 of 2")
    until(page, FOCUS + ' === "h-card"')
    for _ in range(12):
        page.keyboard.press("Tab")
        box = page.evaluate(
            "() => { const e = document.activeElement, r = e.getBoundingClientRect(), s = getComputedStyle(e);"
            " return [e.tagName, s.outlineStyle, document.elementFromPoint(r.x + r.width / 2, r.y + r.height / 2) !== null] }"
        )
        assert box[0] == "BODY" or (box[1] != "none" and box[2]), box


def test_a_double_press_keeps_one_note(open_page: Any, served: Served) -> None:
    page = open_page()
    page.fill("#text", NOTE)
    page.dblclick("text=Keep this note")
    page.wait_for_selector("#work")
    page.goto(served.url + "notes")
    assert "1 note" in page.inner_text("[role=status]")


def test_touching_a_mark_shows_what_it_says(open_page: Any) -> None:
    page = open_page(**PHONE)
    keep(page)
    page.locator("a.mark.read", has_text="flours").tap()
    said = page.locator("li:target")
    said.wait_for()
    assert "read as flower: sounds alike" in said.inner_text()


def test_meaning_is_not_by_colour(open_page: Any) -> None:
    """WCAG 1.4.1: the marks differ in their lines."""
    page = open_page()
    keep(page, NOTE + "\np4 hydraulics leaking")
    lines = page.eval_on_selector_all(".legend .mark", "all => all.map(e => getComputedStyle(e).borderBottomStyle)")
    assert len(lines) == len(set(lines)) == 3


def test_sideways_and_upright(open_page: Any) -> None:
    for size in ({"width": 640, "height": 320}, {"width": 320, "height": 640}):
        page = open_page(viewport=size)
        assert page.locator("text=Keep this note").count() == 1
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_the_stack_is_settled_note_after_note(open_page: Any) -> None:
    page = open_page()
    fill_season(page)
    page.click("text=Settle them one after another")
    page.wait_for_selector(".card")
    first = page.inner_text("h1")
    page.wait_for_load_state("load")
    for _ in range(60):
        if not page.locator(".choice").count():
            break
        page.keyboard.press("a")
        page.wait_for_timeout(400)
    page.wait_for_selector("text=No question is open")
    page.keyboard.press("n")
    until(page, "was => document.querySelector('h1') && document.querySelector('h1').innerText !== was", first)
    page.wait_for_selector(".card")
