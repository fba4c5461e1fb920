"""Every number of every table on the committed pages says where it comes from.

What the bar at the foot of the page says is held against the origins in card.json, whatever
the page uses to carry them.
"""

import json
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.conftest import ROOT

pytestmark = pytest.mark.xdist_group("browser")

Cell = dict[str, Any]
SITE = ROOT / "site"
DATA = sorted(
    path.relative_to(SITE).as_posix()
    for path in (*SITE.glob("*/card.json"), SITE / "conversions" / "conversions.json")
)

# What the tests ask of a page: its tables' cells by row and column, and what the bar says.
SCRIPT = """
window.asked = (() => {
  const bar = document.getElementById("origin");
  const said = () => (bar.checkVisibility() ? bar.textContent : "");
  const rows = (table) =>
    [...table.tBodies].flatMap((body) => [...body.rows]).filter((row) => row.cells.length > 1);
  const tables = () => [...document.querySelectorAll("table")].filter((one) => one.tBodies.length);
  const cell = (t, r, c) => rows(tables()[t])[r].cells[c];
  const place = (one) => {
    const at = one.closest("td, th");
    const table = one.closest("table");
    if (!at || !table) return null;
    return [tables().indexOf(table), rows(table).indexOf(at.parentElement), at.cellIndex];
  };
  const over = (one) => one.dispatchEvent(new MouseEvent("mouseover", { bubbles: true }));
  const focus = (one) => {
    if (one.tabIndex < 0) one.tabIndex = -1;
    one.focus({ preventScroll: true });
  };
  const hovered = (one) => {
    over(one);
    const number = one.tagName === "TD" && !one.matches(".words") && /\\d/.test(one.textContent);
    return { text: one.textContent, number, said: bar.hidden ? "" : bar.textContent };
  };
  const away = () => {
    document.activeElement.blur();
    over(document.querySelector("h1"));
    return said();
  };
  const middle = (one) => {
    one.scrollIntoView({ block: "center", inline: "center" });
    const box = one.getBoundingClientRect();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    return one.contains(document.elementFromPoint(x, y)) ? [x, y] : null;
  };
  const walked = (from, key, most) => {
    const seen = [from];
    focus(from);
    while (seen.length <= most) {
      const one = document.activeElement;
      one.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
      if (document.activeElement === one) break;
      seen.push(document.activeElement);
    }
    return seen.map(place);
  };
  return {
    titles: () => tables().map((one) => one.caption.textContent),
    everything: () => tables().map((one) => rows(one).map((row) => [...row.cells].map(hovered))),
    focused: (at) => [away(), (focus(cell(...at)), said())],
    middle: (at) => (away(), middle(cell(...at))),
    saidBeforeAway: () => [said(), away()][0],
    first: (t) => place(tables()[t].querySelector("tbody [tabindex='0']")),
    active: () => place(document.activeElement),
    walked: (at, key, most) => walked(cell(...at), key, most),
    said,
  };
})();
"""


@pytest.fixture(scope="module", params=DATA)
def name(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture(scope="module")
def opened(browser: Browser, name: str) -> Iterator[Page]:
    page = open_page(browser, name)
    yield page
    page.close()


def open_page(browser: Browser, name: str) -> Page:
    page = browser.new_page()
    page.goto((SITE / name).with_name("index.html").as_uri())
    page.evaluate(SCRIPT)
    return page


def ask(page: Page, what: str, *values: Any) -> Any:
    return page.evaluate(f"values => asked.{what}(...values)", list(values))


@pytest.fixture(scope="module")
def data(name: str) -> dict[str, Any]:
    """The page's figures, as data."""
    return json.loads((SITE / name).read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def drawn(opened: Page, data: dict[str, Any]) -> dict[str, list[list[Cell]]]:
    """Each table's rows of cells, with what the bar says of each."""
    titles, tables = ask(opened, "titles"), ask(opened, "everything")
    assert titles == [table["title"] for table in data["tables"].values()]
    return dict(zip(data["tables"], tables, strict=True))


def places(drawn: dict[str, list[list[Cell]]]) -> list[list[tuple[int, int, int]]]:
    """Return for each table where its numbers are that say their origin."""
    return [
        [(t, r, c) for r, row in enumerate(rows) for c, cell in enumerate(row) if cell["said"]]
        for t, rows in enumerate(drawn.values())
    ]


def origins(row: list[Any]) -> list[dict[str, Any]]:
    """Return the origins of a row of card.json, which begins with its block's heading.

    The small number beside a dash speaks for its cell.
    """
    small = [cell[3][2] if len(cell) > 3 else None for cell in row[1:]]
    found = [cell[2] or beside for cell, beside in zip(row[1:], small, strict=True)]
    return [origin for origin in found if origin]


def holds(said: str, origin: dict[str, Any], formulas: dict[str, Any]) -> bool:
    """Whether the bar's words are those of an origin."""
    if "formula" in origin:
        parts = [formulas[origin["formula"]]["title"], *origin["inputs"].values()]
        return said.startswith("Computed: ") and all(part in said for part in parts)
    parts = [f"page {origin['page']} of ", origin["document"], f"line {origin['line']}"]
    return said.startswith("Entered: ") and all(part in said for part in parts)


def test_every_number_of_every_table_says_the_origin_that_its_data_has(data, drawn):
    for table, rows in zip(data["tables"].values(), drawn.values(), strict=True):
        for row, cells in zip(table["rows"], rows, strict=True):
            told = [cell["said"] for cell in cells if cell["said"]]
            for said, origin in zip(told, origins(row), strict=True):
                assert holds(said, origin, data["formulas"]), (table["title"], said, origin)


def silent(drawn: dict[str, list[list[Cell]]]) -> Iterator[tuple[str, str]]:
    """Return the numbers that the bar says nothing of, with their tables.

    The one figure of a row that the table is entered by has no origin, where no heading of the
    row is there to hold it.
    """
    for name, rows in drawn.items():
        for row in rows:
            found = [cell["text"] for cell in row if cell["number"] and not cell["said"]]
            if name != "speed-units" or len(found) > 1:
                yield from ((name, text) for text in found)


def test_no_number_is_silent(drawn):
    assert list(silent(drawn)) == []


def test_a_number_says_its_origin_when_focused_hovered_and_clicked(opened, drawn, data):
    for table, rows, found in zip(data["tables"], drawn.values(), places(drawn), strict=True):
        at = found[len(found) // 2]
        expected = rows[at[1]][at[2]]["said"]
        assert expected.startswith(("Entered: ", "Computed: "))
        assert ask(opened, "focused", at) == ["", expected]
        spot = ask(opened, "middle", at)
        assert spot, (table, at, "lies under something else")
        opened.mouse.move(*spot)
        assert ask(opened, "saidBeforeAway") == expected
        opened.mouse.down()
        opened.mouse.up()
        assert ask(opened, "said") == expected
        opened.keyboard.press("Escape")
        assert ask(opened, "said") == ""


def test_arrow_keys_walk_from_number_to_number(opened, drawn):
    for t, found in enumerate(places(drawn)):
        first, last = tuple(ask(opened, "first", t)), max(found)
        assert first in found
        for key, along in (("ArrowRight", 1), ("ArrowDown", 2)):
            line = [at for at in found if at[along] == first[along] and at >= first][:12]
            assert [tuple(at) for at in ask(opened, "walked", first, key, 11)] == line
        for key, along in (("ArrowLeft", 1), ("ArrowUp", 2)):
            line = [at for at in found if at[along] == last[along] and at < last]
            assert [tuple(at) for at in ask(opened, "walked", last, key, 1)] == [last, *line[-1:]]


def test_real_keys_walk_too_and_escape_hides_the_bar(browser, name, drawn):
    page = open_page(browser, name)  # where no pointer rests on a number
    first, second = places(drawn)[0][:2]
    assert ask(page, "focused", first)[1]
    page.keyboard.press("ArrowRight")
    assert tuple(ask(page, "active")) == second
    assert ask(page, "said").startswith(("Entered: ", "Computed: "))
    page.keyboard.press("ArrowLeft")
    assert tuple(ask(page, "active")) == first
    assert ask(page, "said")
    page.keyboard.press("Escape")
    assert ask(page, "said") == ""
    page.close()
