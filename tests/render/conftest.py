"""The demo's pages, built once without PDFs, and a browser to open them in."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from playwright.sync_api import Browser, Page, ViewportSize

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import Fleet
from cardgen.document.data import from_json
from cardgen.document.record import Document, Shared
from cardgen.review.marks import marked
from tests.browsing import DESK, PHONE
from tests.conftest import DEMO

REGISTRATIONS = sorted(path.stem.upper() for path in (DEMO / "fleet").iterdir())
FEW = ["ZZ-WTR"]  # whose page is the shortest


@pytest.fixture(scope="session")
def documents(pages: Path) -> dict[str, Document]:
    """The demo fleet's documents by registration, as they stand beside its pages."""
    return {
        name: from_json((pages / name / "card.json").read_text("utf-8"), Document)
        for name in REGISTRATIONS
    }


@pytest.fixture(scope="session")
def shared(pages: Path) -> Shared:
    """The demo's tables that serve every aircraft."""
    return from_json((pages / "conversions" / "conversions.json").read_text("utf-8"), Shared)


def fresh(fleet: Fleet, registration: str) -> Document:
    """Make the document of one aircraft of a fleet."""
    one = next(each for each in fleet.aircraft if each.registration == registration)
    return marked(make_document(Aircraft(one), fleet.school))


class Visit(NamedTuple):
    """A page that was opened without a network, what it asked for then, and what went wrong."""

    page: Page
    asked: tuple[str, ...]
    wrong: tuple[str, ...]


@pytest.fixture(scope="session")
def visit(browser: Browser, pages: Path) -> Iterator[Callable[[str], Visit]]:
    """Opens each page once, for tests that leave it as they found it."""
    found: dict[str, Visit] = {}

    with browser.new_context(offline=True) as context:

        def opened(name: str) -> Visit:
            if name not in found:
                page, asked, wrong = context.new_page(), [], []
                page.on("request", lambda request: asked.append(request.url))
                page.on("requestfailed", lambda request: wrong.append(request.url))
                page.on("pageerror", lambda error: wrong.append(str(error)))
                page.goto((pages / name).as_uri())
                found[name] = Visit(page, tuple(asked), tuple(wrong))
            return found[name]

        yield opened


def sized(page: Page, width: int) -> None:
    """Give a page a width, and let its tables settle in it."""
    page.bring_to_front()  # pages behind others are drawn once a second
    page.set_viewport_size({"width": width, "height": 800})
    page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")


def unfold(page: Page) -> None:
    """Open all folds of a narrow page."""
    page.evaluate("document.querySelectorAll('.folded button.fold').forEach((one) => one.click())")
    assert page.locator("section.folded").count() == 0


@pytest.fixture(scope="session")
def plain(browser: Browser) -> Iterator[Page]:
    """A page that one test after another opens its pages in."""
    with browser.new_context() as made:
        yield made.new_page()


def as_new(page: Page, size: ViewportSize) -> Iterator[Page]:
    """Lend a page that stands as a new one does, and forget what was kept in it."""
    page.bring_to_front()
    page.set_viewport_size(size)
    yield page
    page.evaluate("localStorage.clear()")
    page.emulate_media(media="null", color_scheme="null")
    page.mouse.move(-1, -1)
    page.goto("about:blank")


@pytest.fixture
def desk(plain: Page) -> Iterator[Page]:
    """A page on a desk's screen."""
    yield from as_new(plain, DESK)


@pytest.fixture
def phone(plain: Page) -> Iterator[Page]:
    yield from as_new(plain, PHONE)
