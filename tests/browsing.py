"""A browser, of which a process of tests has one, and the windows that pages are opened in."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, ViewportSize, sync_playwright

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
DESK, PHONE = ViewportSize(width=1440, height=900), ViewportSize(width=360, height=800)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as play:
        running = play.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A new visitor on a desk's screen."""
    with browser.new_context(viewport=DESK) as made:
        yield made
