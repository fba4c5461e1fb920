"""An aircraft's page on a slow phone: first paint, and a keystroke to new figures.

Each as a ratio to a blank page with one field, opened in turn with it in one run, under a processor
that is slowed to a quarter. Of each the lower quartile of many is taken, since what else the
machine does only adds to that; a first paint, which begins with a new process, varies most.
"""

from pathlib import Path
from statistics import quantiles

import pytest
from playwright.sync_api import Browser, Page

from cardgen.publish.build import build
from tests.conftest import DEMO, STRESS

ROUNDS, KEYED, KEYS = 28, 4, 8  # all pages in turn; keys in each fourth round, eight of them
SLOWER = 4
PAUSE = 200  # ms between two keys, in which what follows a key is done
PAINT, KEY = 4.0, 2.0  # times a blank page
BLANK = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Blank</title>
<script src="blank.js" defer></script></head>
<body><section id="reckon"><form><input type="number" name="speed" value="100"></form>
<ol class="way"><li>100</li></ol></section></body></html>
"""
ECHO = """
const field = document.querySelector("input"), told = document.querySelector(".way");
field.addEventListener("input", () => {
  const line = document.createElement("li");
  line.textContent = field.value;
  told.replaceChildren(line);
});
"""
# From when a key went down to after the frame that has what it changed.
WATCH = """
() => {
let down = 0, told;
window.after = () => new Promise((done) => { told = done; });
addEventListener("keydown", (event) => { down = event.timeStamp; }, true);
new MutationObserver(() => {
  if (!down) return;
  const began = down;
  down = 0;
  requestAnimationFrame(() => setTimeout(() => told(performance.now() - began)));
}).observe(
  document.querySelector("#reckon .way"), { childList: true, characterData: true, subtree: true },
);
}"""
PAINTED = """new Promise((done) => new PerformanceObserver((list) => {
  const found = list.getEntries().find((one) => one.name === "first-contentful-paint");
  if (found) done(found.startTime);
}).observe({ type: "paint", buffered: true }))"""


@pytest.fixture(scope="module")
def opened(tmp_path_factory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("speed")
    (folder / "index.html").write_text(BLANK)
    (folder / "blank.js").write_text(ECHO)
    build(STRESS, folder / "stress", pdfs=False)
    build(DEMO, folder / "demo", pdfs=False)
    return {
        "blank": folder / "index.html",
        "demo": folder / "demo" / "ZZ-TUA" / "index.html",
        "stress": next((folder / "stress").glob("ZZ-*/index.html")),
    }


def slowed(page: Page) -> None:
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})


def keystrokes(page: Page) -> list[float]:
    page.evaluate(WATCH)
    page.evaluate("() => { location.hash = '#reckon'; }")  # opens the panel where it is folded
    page.locator("#reckon [name=speed]:visible").focus()
    taken = []
    for _ in range(KEYS):
        page.evaluate("() => { window.answered = after(); }")
        page.keyboard.press("ArrowUp")
        taken.append(page.evaluate("answered"))
        page.wait_for_timeout(PAUSE)
    return taken


def measured(browser: Browser, paths: dict[str, Path]) -> tuple[dict[str, float], dict[str, float]]:
    """Return the first paint, and the keystroke, of each page in milliseconds."""
    paints: dict[str, list[float]] = {name: [] for name in paths}
    keys: dict[str, list[float]] = {name: [] for name in paths}
    for count in range(ROUNDS):
        for name, path in paths.items():
            with browser.new_context(viewport={"width": 360, "height": 680}) as visitor:
                page = visitor.new_page()
                slowed(page)
                page.goto(path.as_uri())
                paints[name].append(page.evaluate(PAINTED))
                if count % KEYED == 0:
                    keys[name] += keystrokes(page)
    paint, key = (
        {name: quantiles(one)[0] for name, one in each.items()} for each in (paints, keys)
    )
    return paint, key


@pytest.mark.long
def test_a_page_paints_and_answers_a_key_nearly_as_fast_as_a_blank_one(
    browser, opened, record_property
):
    paints, keys = measured(browser, opened)
    for name in ("demo", "stress"):
        paint, key = paints[name] / paints["blank"], keys[name] / keys["blank"]
        said = f"{name}: first paint {paint:.2f}, a key {key:.2f} of a blank page's"
        record_property("measured", said)
        assert paint <= PAINT, said
        assert key <= KEY, said
