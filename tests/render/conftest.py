"""The demo's pages, built once without PDFs, and a browser to open them in."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.conftest import DEMO

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


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site without its PDFs; tests that use it belong to the group `browser`."""
    from cardgen.publish.build import build

    out = tmp_path_factory.mktemp("pages") / "site"
    build(DEMO, out, lambda done, total, what: None, pdfs=False)
    return out


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as play:
        running = play.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A new visitor on a desk's screen."""
    with browser.new_context(viewport={"width": 1440, "height": 900}) as made:
        yield made


@pytest.fixture
def desk(context: BrowserContext) -> Page:
    return context.new_page()


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    with browser.new_context(viewport={"width": 360, "height": 800}) as made:
        yield made.new_page()
