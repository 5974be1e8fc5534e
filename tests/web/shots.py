"""The pictures of the page in the README: `python -m tests.web.shots`."""

from __future__ import annotations

import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.web.conftest import ARGS, CHROMIUM, ROOT, Served

HERE = Path(__file__).parent / "shown"
NOTE = "Willow Draw 8/5\np1 15tf pods 3/4 3rd node down\np2 15tf three quarter inch pods top four\np3 14tf flours third no down"


def main() -> None:
    HERE.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as place, sync_playwright() as play:
        served = Served(Path(place))
        browser = play.chromium.launch(executable_path=CHROMIUM, args=ARGS)
        phone = browser.new_page(viewport={"width": 360, "height": 760})
        phone.goto(served.url)
        phone.fill("#text", NOTE)
        phone.click("text=Keep this note")
        phone.wait_for_selector(".card")
        phone.evaluate("document.querySelector('h1').scrollIntoView()")
        phone.screenshot(path=HERE / "phone.png")
        desk = browser.new_page(viewport={"width": 900, "height": 640})
        desk.goto(served.url + "stack")
        desk.set_input_files("#files", [str(f) for f in sorted((ROOT / "demo_notes").glob("*.txt"))])
        desk.click("text=Take them in")
        desk.wait_for_selector("text=Settle them one after another")
        desk.goto(served.url + "season?on=2026-08-30")
        desk.wait_for_load_state("networkidle")
        desk.screenshot(path=HERE / "desk.png")
        browser.close()
        served.stop()


if __name__ == "__main__":
    main()
