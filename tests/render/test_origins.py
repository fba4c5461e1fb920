"""Every number of every table of the pages says where it comes from.

What the bar at the foot of the page says is held against the origins in the documents, whatever
the page uses to carry them.
"""

import html
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from cardgen.document.record import (
    Computed,
    Document,
    Entered,
    Input,
    Message,
    Paper,
    Row,
    Shared,
    Table,
)
from cardgen.render.page import aircraft_page
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("browser origins")

Cell = dict[str, Any]
Origin = Entered | Computed
NAMES = [*sorted(path.stem.upper() for path in (DEMO / "fleet").iterdir()), "conversions"]

# What the tests ask of a page: its tables' cells by row and column, and what the bar says.
SCRIPT = """
window.asked = (() => {
  const bar = document.getElementById("origin");
  const said = () => (bar.checkVisibility() ? bar.textContent : "");
  const rows = (table) =>
    [...table.tBodies].flatMap((body) => [...body.rows]).filter((row) => row.cells.length > 1);
  const figures = "table:not(.then)"; // nor those of a card that was signed before
  const tables = () => [...document.querySelectorAll(figures)].filter((one) => one.tBodies.length);
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
  const alone = (t) => {  // what else stands on the page makes each step slow, and changes none
    const own = t === null ? null : tables()[t].closest("section");
    for (const one of document.querySelectorAll("section.table")) {
      one.style.display = own && one !== own ? "none" : "";
    }
  };
  return {
    alone,
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


@pytest.fixture(
    scope="module", params=some("pages' origins", NAMES, ["ZZ-PHN", "ZZ-WTR", "conversions"])
)
def name(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture(scope="module")
def opened(browser: Browser, pages: Path, name: str) -> Iterator[Page]:
    page = open_page(browser, pages / name / "index.html")
    yield page
    page.close()


def open_page(browser: Browser, path: Path) -> Page:
    page = browser.new_page()
    page.goto(path.as_uri())
    page.evaluate(SCRIPT)
    return page


def ask(page: Page, what: str, *values: Any) -> Any:
    return page.evaluate(f"values => asked.{what}(...values)", list(values))


@pytest.fixture(scope="module")
def document(documents: dict[str, Document], shared: Shared, name: str) -> Document | Shared:
    return documents.get(name, shared)


@pytest.fixture(scope="module")
def drawn(opened: Page, document: Document | Shared) -> dict[str, list[list[Cell]]]:
    """Each table's rows of cells, with what the bar says of each."""
    titles, tables = ask(opened, "titles"), ask(opened, "everything")
    assert titles == [ENGLISH.text(table.title) for table in document.tables]
    return dict(zip((table.id for table in document.tables), tables, strict=True))


def places(drawn: dict[str, list[list[Cell]]]) -> list[list[tuple[int, int, int]]]:
    """Return for each table where its numbers are that say their origin."""
    return [
        [(t, r, c) for r, row in enumerate(rows) for c, cell in enumerate(row) if cell["said"]]
        for t, rows in enumerate(drawn.values())
    ]


def origins(row: Row) -> list[Origin]:
    """Return the origins of a row; the small number beside a dash speaks for its cell."""
    beside = [cell.beside.origin if cell.beside else None for cell in row.cells]
    found = [cell.origin or small for cell, small in zip(row.cells, beside, strict=True)]
    return [origin for origin in found if origin]


def parts_of(origin: Origin, papers: tuple[Paper, ...]) -> list[str]:
    """Return what the bar must say of an origin."""
    if isinstance(origin, Computed):
        inputs = [
            f"{ENGLISH.say(f'input-{one.name}')} {ENGLISH.say('several', parts=one.value)}"
            for one in origin.inputs
        ]
        return ["Computed: ", ENGLISH.say(f"formula-{origin.formula}"), *inputs]
    paper = next(one for one in papers if one.id == origin.paper)
    page = [f"page {origin.page} of "] if origin.page else []
    return ["Entered: ", *page, paper.title, paper.number]


def test_every_number_of_every_table_says_the_origin_that_its_data_has(document, drawn):
    papers = document.head.papers if isinstance(document, Document) else ()
    for table in document.tables:
        for row, cells in zip(table.rows, drawn[table.id], strict=True):
            told = [cell["said"] for cell in cells if cell["said"]]
            for said, origin in zip(told, origins(row), strict=True):
                parts = parts_of(origin, papers)
                assert said.startswith(parts[0])
                assert all(part in said for part in parts), (table.id, said, origin)
                assert ".yaml" not in said


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


def test_a_number_says_its_origin_when_focused_hovered_and_clicked(opened, drawn):
    for table, rows, found in zip(drawn, drawn.values(), places(drawn), strict=True):
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
        ask(opened, "alone", t)
        for key, along in (("ArrowRight", 1), ("ArrowDown", 2)):
            line = [at for at in found if at[along] == first[along] and at >= first][:12]
            assert [tuple(at) for at in ask(opened, "walked", first, key, 11)] == line
        for key, along in (("ArrowLeft", 1), ("ArrowUp", 2)):
            line = [at for at in found if at[along] == last[along] and at < last]
            assert [tuple(at) for at in ask(opened, "walked", last, key, 1)] == [last, *line[-1:]]
    ask(opened, "alone", None)


def test_real_keys_walk_too_and_escape_hides_the_bar(browser, pages, name, drawn):
    page = open_page(browser, pages / name / "index.html")  # where no pointer rests on a number
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


ODD = "{0} | [1] 'single' \"double\" </script> & \\ \ue000 {}"


def spoilt(table: Table) -> Table:
    """Return a table whose origins hold words that no format of data may trip over."""

    def input_of(one: Input, row: Row) -> Input:
        return replace(one, value=(f"{ODD} {row.id}", Message("input-cas")))

    def row_of(row: Row) -> Row:
        cells = []
        for cell in row.cells:
            origin = cell.origin
            if isinstance(origin, Computed):
                taken = tuple(input_of(one, row) for one in origin.inputs)
                origin = replace(origin, inputs=taken)
            elif origin is not None:
                origin = replace(origin, page=f"{ODD} {row.id}")
            cells.append(replace(cell, origin=origin))
        return replace(row, cells=tuple(cells))

    return replace(
        table,
        blocks=tuple(replace(one, rows=tuple(map(row_of, one.rows))) for one in table.blocks),
    )


def test_no_word_that_was_entered_breaks_an_origin(browser, pages, documents, tmp_path):
    card = documents["ZZ-DUC"]
    head = replace(card.head, papers=tuple(replace(one, title=ODD) for one in card.head.papers))
    odd = replace(card, head=head, tables=tuple(map(spoilt, card.tables)))
    path = tmp_path / "ZZ-DUC" / "index.html"
    path.parent.mkdir()
    path.write_text(aircraft_page(Templates(), odd), "utf-8")
    (tmp_path / "assets").symlink_to(pages / "assets")
    page = open_page(browser, path)
    for table, rows in zip(odd.tables, ask(page, "everything"), strict=True):
        for row, cells in zip(table.rows, rows, strict=True):
            told = [cell["said"] for cell in cells if cell["said"]]
            for said, origin in zip(told, origins(row), strict=True):
                assert all(part in said for part in parts_of(origin, head.papers)), said
    page.close()


# -- what the bar leads to, and how it goes --------------------------------------------------------


def main_figure(page: Page, speed: str):
    row = page.locator("#speeds-table tr", has=page.get_by_role("rowheader", name=speed))
    return row.locator("td.main").first


def test_a_speed_by_a_bench_card_names_the_manuals_page_and_the_card(desk, pages, documents):
    desk.goto((pages / "ZZ-WHB" / "index.html").as_uri())
    entry = next(one for one in documents["ZZ-WHB"].given if one.id == "given/speeds/VNO/ias")
    main_figure(desk, "VNO").click()
    said = desk.locator("#origin").inner_text()
    manual = documents["ZZ-WHB"].head.manual
    assert f"page {entry.page} of {manual.title} {manual.number}" in said
    assert said.endswith("bench card")
    desk.goto((pages / "ZZ-DUC" / "index.html").as_uri())
    main_figure(desk, "VNO").click()
    assert "bench card" not in desk.locator("#origin").inner_text()


def test_a_second_tap_on_a_figure_hides_its_origin_and_a_third_shows_it(browser, pages):
    with browser.new_context(viewport={"width": 360, "height": 800}, has_touch=True) as context:
        page = context.new_page()
        page.goto((pages / "ZZ-WHB" / "index.html").as_uri())
        bar, figure, other = page.locator("#origin"), *(main_figure(page, v) for v in ("VNE", "VA"))
        for shown in (True, False, True):
            figure.tap()
            assert bar.is_visible() is shown
            assert page.locator(".lit").count() > 0 if shown else page.locator(".lit").count() == 0
        other.tap()
        assert bar.is_visible()
        figure.tap()
        assert bar.is_visible()


def test_a_second_click_hides_it_too_where_a_pointer_rests(desk, pages):
    desk.goto((pages / "ZZ-WHB" / "index.html").as_uri())
    figure = main_figure(desk, "VNE")
    figure.click()
    figure.click()
    assert desk.locator("#origin").is_hidden()


@pytest.mark.parametrize("place", ["ZZ-WHB", "conversions"])
def test_a_formula_leads_to_its_place_among_the_formulas(desk, pages, place):
    desk.goto((pages / place / "index.html").as_uri())
    computed = desk.locator("td[data-o]")
    computed.nth(0).click()
    link = desk.locator("#origin a")
    title = link.inner_text()
    link.click()
    assert desk.url.startswith((pages / "formulas.html").as_uri() + "#")
    section = desk.locator(f"#{desk.url.rpartition('#')[2]}")
    assert section.get_by_role("heading").inner_text() == title
    assert section.bounding_box()["y"] < 900


def test_a_keyboard_reaches_the_formula_of_the_number_in_hand(desk, pages):
    desk.goto((pages / "ZZ-WHB" / "index.html").as_uri())
    main_figure(desk, "VNE").focus()
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.matches('#origin a')")
    assert desk.locator("#origin").is_visible()
    desk.keyboard.press("Escape")
    assert desk.locator("#origin").is_hidden()
    assert desk.evaluate("document.activeElement.matches('#speeds-table td.main')")


def test_every_formula_that_a_bar_names_is_a_link_that_leads_somewhere(opened, drawn, pages):
    known = html.unescape((pages / "formulas.html").read_text("utf-8"))
    found = opened.evaluate(
        """() => [...document.querySelectorAll(':is(td, th)[data-o]')].map((cell) => {
          cell.dispatchEvent(new Event('focusin', { bubbles: true }));
          const bar = document.getElementById('origin');
          return [bar.textContent.includes('Computed: '), [...bar.querySelectorAll('a')].map(
            (link) => [link.getAttribute('href'), link.textContent])];
        })"""
    )
    assert any(computed for computed, _ in found)
    for computed, links in found:
        assert bool(links) is computed
        for target, title in links:
            file, _, place = target.partition("#")
            assert file == "../formulas.html"
            assert f'id="{place}"><h2>{title}</h2>' in known
