"""The committed pages in headless Chromium, from the file system."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.conftest import ROOT

pytestmark = pytest.mark.xdist_group("browser")

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
SITE = ROOT / "site"
PAGES = sorted(path.relative_to(SITE).as_posix() for path in SITE.rglob("*.html"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as play:
        running = play.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def opened(browser: Browser) -> Iterator[Page]:
    page = browser.new_page()
    yield page
    page.close()


def url(name: str) -> str:
    return (SITE / name).as_uri()


@pytest.mark.parametrize("width", [360, 1440])
@pytest.mark.parametrize("name", PAGES)
def test_a_page_opens_offline_and_does_not_scroll_sideways(browser, name, width):
    with browser.new_context(offline=True, viewport={"width": width, "height": 800}) as context:
        page = context.new_page()
        asked, wrong = [], []
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("requestfailed", lambda request: wrong.append(request.url))
        page.goto(url(name))
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert all(one.startswith(("file:", "data:")) for one in asked)
        assert wrong == []


def test_a_wide_table_scrolls_in_its_own_frame(browser):
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.goto(url("ZZ-DUA/index.html"))
    wide = page.evaluate(
        "[...document.querySelectorAll('.frame')].filter(f => f.scrollWidth > f.clientWidth).length"
    )
    assert wide > 0
    page.close()


def test_links_between_pages_lead_somewhere():
    import re

    for name in PAGES:
        text = (SITE / name).read_text()
        for target in re.findall(r'(?:href|src)="([^"#:]+)', text):
            if target.startswith("data"):
                continue
            path = (SITE / name).parent / target
            assert path.exists() or Path(target).suffix == ".pdf", (name, target)


def test_a_number_says_where_it_comes_from(opened):
    opened.goto(url("ZZ-DUC/index.html"))
    bar = opened.locator("#origin")
    opened.locator("#speeds td[data-origin]").first.click()
    assert "page S12-3 of Vortex generators SUP-12" in bar.inner_text()
    opened.locator("#true-airspeed td[data-origin]").first.hover()
    assert "TAS from CAS" in bar.inner_text()
