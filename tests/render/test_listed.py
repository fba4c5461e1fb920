"""Without scripts a list below each table says where its numbers come from.

What it says is held against the origins in the documents.
"""

import re

import pytest

from cardgen.document.record import Cell, Column, Computed, Document, Entered, Row, Table
from cardgen.render.tables import narrowed
from cardgen.words.english import ENGLISH
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("browser listed")

NAMES = ["ZZ-DUA", "ZZ-DUB", "ZZ-PHN", "ZZ-TUA", "ZZ-WHB", "ZZ-WTR", "conversions"]
READ = """() => Object.fromEntries(
  [...document.querySelectorAll("section.table[id]")].map((section) => [section.id,
    [...section.querySelectorAll("noscript .from div")].map((line) => [
      line.querySelector("dt").firstChild.data, line.querySelector("dt small")?.textContent || "",
      line.querySelector("dd").textContent])]))"""


@pytest.fixture
def unscripted(browser):
    with browser.new_context(java_script_enabled=False) as context:
        yield context.new_page()


@pytest.fixture(params=some("pages without scripts", NAMES, ["ZZ-WHB", "conversions"]))
def place(request) -> str:
    return request.param


def says(line: str, origin: Entered | Computed) -> bool:
    """Whether a sentence is the one of an origin: its formula and what that takes, or its page.

    What it takes is said by name, or with its value too.
    """
    if isinstance(origin, Entered):
        page = f"page {origin.page} of " if origin.page else ""
        return line.startswith("Entered: ") and page in line
    taken = [
        rf"{re.escape(ENGLISH.say(f'input-{one.name}'))}"
        rf"( {re.escape(ENGLISH.say('several', parts=one.value))})?(, |\. |$)"
        for one in origin.inputs
    ]
    formula = ENGLISH.say(f"formula-{origin.formula}")
    return line.startswith(f"Computed: {formula}") and all(re.search(one, line) for one in taken)


def unsaid(table: Table, lines: list[list[str]]) -> list[str]:
    """Return the numbers of which no line says where they come from.

    Where a line is of some rows only, the number's is one of them.
    """

    def said(cell: Cell, row: Row, block: str, column: Column) -> bool:
        heading, group = ENGLISH.text(column.heading), ENGLISH.text(column.group)
        names = [ENGLISH.text(row.cells[0].said) or ENGLISH.figure(row.cells[0]), block]
        return any(
            says(line, cell.origin)
            and heading in columns
            and group in columns
            and (not rows or any(name and name in rows for name in names))
            for columns, rows, line in lines
        )

    return [
        f"{table.id}/{row.id}/{column.id}"
        for block in table.blocks
        for row in block.rows
        for column, cell in zip(table.columns, row.cells, strict=True)
        if cell.origin is not None
        and cell.quantity is not None
        and not said(cell, row, ENGLISH.text(block.heading), column)
    ]


def test_of_every_number_a_line_below_its_table_says_where_it_comes_from(
    unscripted, pages, documents, shared, place
):
    document = documents.get(place, shared)
    unscripted.goto((pages / place / "index.html").as_uri())
    found = unscripted.evaluate(READ)
    for table in document.tables:
        assert unsaid(narrowed(ENGLISH, table), found[table.id]) == []
        assert len(found[table.id]) <= 16, table.id  # short enough to be read
    if isinstance(document, Document):
        assert unscripted.locator("noscript a[href$='card.json']").count() == 0
