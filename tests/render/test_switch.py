"""The switch of units: every converted figure is Python's rounding of the document's value."""

import itertools
import random
from collections.abc import Iterator
from dataclasses import replace

import pytest
from playwright.sync_api import Page

from cardgen.document.record import Cell, Column, Document, Message, Quantity, Table
from cardgen.document.rounding import rounded
from cardgen.render.page import aircraft_page
from cardgen.render.sentences import SPEED_UNITS
from cardgen.render.tables import narrowed
from cardgen.render.templates import Templates
from cardgen.units import convert
from cardgen.words.english import ENGLISH
from cardgen.words.language import Segment
from cardgen.words.numbers import grouped, number, symbol
from tests.render.conftest import REGISTRATIONS, unfold
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("browser switch")

# What each cell of a page says: its label, its number, what was put beside it, its small number.
READ = """() => [...document.querySelectorAll('section.table table')].map((table) => {
  const said = (one) => (one ? one.textContent : '');
  const rows = [...table.querySelectorAll('tbody tr:not(.block)')];
  return rows.map((row) => [...row.cells].map((cell) => {
    const texts = [...cell.childNodes].filter((node) => node.nodeType === 3);
    const small = cell.querySelector(':scope > small:not(.added)');
    return [
      said(cell.querySelector('.label')).trim(),
      texts.map((node) => node.data).join('').trim() || said(cell.querySelector('a')),
      said(cell.querySelector(':scope > small.added')).trim(),
      said(small),
    ];
  }));
})"""
HEADS = """() => Object.fromEntries([...document.querySelectorAll('.table')].map((section) => {
  const said = (what) => [...section.querySelectorAll(what)].map((one) => one.textContent);
  return [section.id, {
    title: said('h2'), how: said('.how'), example: said('.example'),
    blocks: said('tr.block'), columns: said('thead th'), notes: said('.note:not(.made)'),
  }];
}))"""


def switch(page: Page, unit: str) -> None:
    page.locator(f'input[name=unit][value="{unit}"]').check()


@pytest.fixture
def opened(desk, pages, registration):
    desk.goto((pages / registration / "index.html").as_uri())
    return desk


def in_unit(quantity: Quantity, to: str) -> Quantity:
    """Return a speed in another unit, rounded by its own sense when it is printed."""
    high = quantity.high
    return replace(
        quantity,
        value=convert(quantity.value, quantity.unit, to),
        high=None if high is None else convert(high, quantity.unit, to),
        unit=to,
        entered="",
    )


def is_converted(quantity: Quantity | None, to: str) -> bool:
    return quantity is not None and quantity.unit in SPEED_UNITS and to not in ("", quantity.unit)


def expected_cell(cell: Cell, column: Column, to: str) -> list[str]:
    added, stays = "", column.shown
    if is_converted(cell.quantity, to):
        other = in_unit(cell.quantity, to)
        if stays:
            added = f"/{number(other)}"
        else:
            cell = replace(cell, quantity=other)
    small = cell.beside
    if small and is_converted(small.quantity, to):
        small = replace(small, quantity=in_unit(small.quantity, to))
    text = ENGLISH.figure(cell, column)
    return [
        ENGLISH.label(cell, column),
        f"({text})" if cell.beyond else text,
        added,
        ENGLISH.figure(small) if small else "",
    ]


def expected(card: Document, to: str) -> Iterator[list[list[list[str]]]]:
    for table in in_the_pages_order(card):
        shown = narrowed(ENGLISH, table)
        yield [
            [
                expected_cell(cell, column, to)
                for cell, column in zip(row.cells, shown.columns, strict=True)
            ]
            for row in shown.rows
        ]


def in_the_pages_order(card: Document) -> list[Table]:
    first = ["speeds", "markings", "altitude-limits"]
    tables = {table.id: table for table in card.tables}
    return [tables[name] for name in sorted(tables, key=lambda name: name not in first)]


@pytest.mark.parametrize("registration", some("pages in other units", REGISTRATIONS, ["ZZ-DUA"]))
def test_every_cell_is_pythons_rounding_of_its_value_in_each_unit(opened, documents, registration):
    card = documents[registration]
    before, heads = opened.evaluate(READ), opened.locator("main").inner_text()
    assert before == list(expected(card, ""))
    changed = 0
    for to in SPEED_UNITS:
        switch(opened, to)
        after = opened.evaluate(READ)
        for table, said, wanted in zip(
            in_the_pages_order(card), after, expected(card, to), strict=True
        ):
            assert said == wanted, (table.id, to)
        differing = sum(old != new for old, new in zip(before, after, strict=True))
        assert opened.locator(".converted").count() == differing
        changed += differing
    assert changed > 10
    switch(opened, "")
    assert opened.evaluate(READ) == before
    assert opened.locator("main").inner_text() == heads


def sentence(message: Message, to: str, converted: bool = True) -> str:
    """Return what a page says of a message in a unit."""
    segments = ENGLISH.segments(message)
    return "".join(part(segment, to) if converted else segment.text for segment in segments)


def part(segment: Segment, to: str) -> str:
    quantity = segment.quantity
    if quantity is None:
        other = segment.unit in SPEED_UNITS and segment.form != "shown"
        return to if other else segment.text
    if not is_converted(quantity, to):
        return segment.text
    said = number(in_unit(quantity, to))
    if segment.form == "shown":
        return f"{segment.text} ({said} {to})"
    return said if segment.form == "number" else f"{said} {to}"


def heading(column: Column, to: str, grouped_columns: bool) -> str:
    converted = column.unit in SPEED_UNITS and not column.shown
    said = sentence(column.heading, to, converted)
    if column.large:  # what its large figures are, and its small ones
        pair = (sentence(one, to, converted) for one in (column.large, column.beside))
        return " ".join([said, *pair])
    if not column.unit or grouped_columns:
        return said
    return f"{said} {to if converted else symbol(column.unit)}"


@pytest.mark.parametrize(
    "registration", some("sentences in other units", ["ZZ-DUA", "ZZ-DUC", "ZZ-WTR"], ["ZZ-WTR"])
)
def test_sentences_and_headings_follow_and_what_the_indicator_shows_stays(
    opened, documents, registration
):
    card = documents[registration]
    for to in SPEED_UNITS:
        switch(opened, to)
        said = opened.evaluate(HEADS)
        for table in card.tables:
            found = said[table.id]
            convertible = table.id not in ("speeds", "markings")
            assert found["title"] == [sentence(table.title, to, convertible)]
            assert found["how"] == [sentence(table.how, to, convertible)]
            if table.example:
                assert found["example"] == [f"Example {sentence(table.example, to)}"]
            heads = [block.heading for block in table.blocks if block.heading]
            assert found["blocks"] == [sentence(one, to) for one in heads]
            notes = [ENGLISH.say(note) for note in table.notes]
            assert found["notes"][: len(notes)] == notes
            shown = narrowed(ENGLISH, table)
            for column in shown.columns:
                assert heading(column, to, column.group is not None) in found["columns"]


def test_the_pages_rounding_and_grouping_are_pythons(desk, pages):
    desk.goto((pages / "ZZ-DUA" / "index.html").as_uri())
    chance = random.Random(20)
    values = [chance.uniform(-300, 300) for _ in range(3000)]
    values += [whole / 8 for whole in range(-80, 81)]
    values += [off + whole for whole in (-3, 0, 91) for off in (1e-10, -1e-10, 1e-8, -1e-8)]
    values += [12345.0, -12345.6, 999999.9, 9999.5, 0.0, -0.0]
    cases = [
        [value, sense, decimals]
        for (value, sense), decimals in zip(
            itertools.product(values, ("maximum", "minimum", "target")),
            itertools.cycle((0, 1, 0, 2, 0, 3)),
            strict=False,
        )
    ]
    said = desk.evaluate(
        """(cases) => cases.map(([value, sense, decimals]) =>
          grouped(rounded(value, sense, decimals).toFixed(decimals)))""",
        cases,
    )
    for (value, sense, decimals), text in zip(cases, said, strict=True):
        assert text == grouped(f"{rounded(value, sense, decimals):.{decimals}f}"), value


def test_the_page_converts_as_python_does(desk, pages):
    desk.goto((pages / "ZZ-DUA" / "index.html").as_uri())
    factors = desk.evaluate("JSON.parse(document.querySelector('.units').dataset.factors)")
    chance = random.Random(21)
    for source, target in itertools.permutations(SPEED_UNITS, 2):
        times, by = factors[source][target]
        values = [round(chance.uniform(-400, 400), 6) for _ in range(500)]
        assert [convert(value, source, target) for value in values] == [
            value * times / by for value in values
        ]


def test_limits_of_a_table_are_rounded_down_and_minima_up(desk, pages):
    desk.goto((pages / "ZZ-DUC" / "index.html").as_uri())

    def shown(name: str) -> tuple[str, str]:
        row = desk.locator(
            "#speeds-table tbody tr", has=desk.get_by_role("rowheader", name=name, exact=True)
        )
        cell = row.first.locator("td").first
        beside = cell.locator(".added")
        small = beside.inner_text().strip() if beside.count() else ""
        return cell.inner_text().strip().removesuffix(small), small

    names = ("VNE", "VS0", "VY")
    assert [shown(name) for name in names] == [("151", ""), ("36", ""), ("74", "")]
    switch(desk, "mph")
    found = [shown(name) for name in names]  # 173.8, 41.4, 85.2
    assert found == [("151", "/173"), ("36", "/42"), ("74", "/85")]
    heads = desk.locator("#speeds-table thead").inner_text()
    assert "kt" in heads  # what the indicator shows
    assert "mph" in heads  # CAS
    assert "kt" in desk.locator("#markings .dial").first.text_content()
    cell = desk.locator("#speeds-table td:nth-child(4)").first
    cell.hover()
    assert desk.locator("#origin").inner_text().startswith("Printed: 147 kt. Entered: page")


def test_a_range_and_a_large_speed_convert_whole(desk, pages, documents, tmp_path):
    """No demo table has a range of speeds; the page can convert one all the same."""
    card = documents["ZZ-DUC"]
    table = card.table("calibration")
    block = table.blocks[0]
    spread = Quantity(100.0, "kt", high=110.5, sense="maximum", decimals=1)
    cells = (block.rows[0].cells[0], Cell(spread), *block.rows[0].cells[2:])
    row = replace(block.rows[0], cells=cells)
    odd = replace(table, blocks=(replace(block, rows=(row,)),))
    path = tmp_path / "ZZ-DUC" / "index.html"
    path.parent.mkdir()
    path.write_text(aircraft_page(Templates(), replace(card, tables=(odd,), gaps=())), "utf-8")
    (tmp_path / "assets").symlink_to(pages / "assets")
    desk.goto(path.as_uri())
    cell = desk.locator("#calibration-table tbody td").first
    assert cell.inner_text() == "100.0–110.5"
    switch(desk, "km/h")
    assert cell.inner_text() == "185.2–204.6"


def test_no_page_is_wider_than_a_phone_in_any_unit(phone, pages):
    for registration in ("ZZ-DUA", "ZZ-WTR"):
        phone.goto((pages / registration / "index.html").as_uri())
        unfold(phone)
        for to in SPEED_UNITS:
            switch(phone, to)
            assert phone.evaluate("document.documentElement.scrollWidth") == 360, (registration, to)
