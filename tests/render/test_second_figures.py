"""A second figure has a heading of its own, and none stands beside a dash: on page and in print."""

import itertools
import re

import pytest

from cardgen.document.data import from_json
from cardgen.document.record import Document, Shared
from cardgen.words.english import ENGLISH
from tests.render.conftest import REGISTRATIONS
from tests.render.printed import sheets
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("print")  # so that a PDF is read once

UNITS = {"kt", "mph", "km/h", "gal/h", "L/h", "lb/h", "kg/h", "cross", "head"}
KINDS = ["card.pdf", "strip.pdf", "pocket.pdf"]
CELL = re.compile(r"<t([dh])\b[^>]*>(.*?)</t[dh]>", re.S)
TAG = re.compile(r"<[^>]*>")


def plain(markup: str) -> str:
    return " ".join(TAG.sub("", markup).split())


def tables(folder, name: str):
    if name == "conversions":
        return from_json((folder / name / "conversions.json").read_text("utf-8"), Shared).tables
    return from_json((folder / name / "card.json").read_text("utf-8"), Document).tables


@pytest.mark.parametrize("name", [*REGISTRATIONS, "conversions"])
def test_a_column_of_two_figures_says_what_each_is(pages, name):
    """In the documents: both headings, and never a figure beside a dash."""
    seen = 0
    for table in tables(pages, name):
        for at, column in enumerate(table.columns):
            cells = [row.cells[at] for row in table.rows]
            seconds = [one for one in cells if one.beside and one.beside.quantity]
            seen += bool(seconds)
            assert bool(seconds) <= bool(column.large and column.beside), (table.id, column.id)
            assert not any(one.is_dash and one.beside.quantity for one in seconds), table.id
            if seconds:
                said = {ENGLISH.say(column.large), ENGLISH.say(column.beside)}
                assert len(said) == 2, table.id
                assert said <= UNITS, table.id
    assert seen or name not in ("ZZ-DUA", "conversions")


@pytest.mark.parametrize("name", [*REGISTRATIONS, "conversions"])
def test_on_pages_no_small_figure_is_without_a_heading_or_beside_a_dash(pages, name):
    text = (pages / name / "index.html").read_text("utf-8")
    for table in re.findall(r'<table class="figures.*?</table>', text, re.S):
        if re.search(r'id="(?:speeds|markings)-table"', table):  # what is small there is words
            continue
        small = [
            inner
            for kind, inner in CELL.findall(table.partition("</thead>")[2])
            if kind == "d" and re.search(r"<small>[−\d]", inner)
        ]
        assert not any(re.match(r"\(?–", plain(inner)) for inner in small)
        if small:
            assert table.partition("</thead>")[0].count('class="pair"') > 1, plain(table)[:60]


@pytest.mark.parametrize(
    "which",
    some(
        "sheets with two figures",
        [" ".join(one) for one in itertools.product(REGISTRATIONS, KINDS)],
        ["ZZ-TUA card.pdf", "ZZ-WTR card.pdf", "ZZ-PHN pocket.pdf", "ZZ-WHB strip.pdf"],
    ),
)
def test_in_print_no_figure_stands_beside_a_dash_or_another_without_units(built, which):
    """Two figures in one cell only where its heading names two; else each has a cell to itself."""
    for page in sheets(built / which.replace(" ", "/")):
        cells = list(page.cells())
        pairs = [cell for cell in cells if not cell.heading and two_figures(cell)]
        assert not any(cell.text.startswith("–") for cell in pairs), page.text[:60]
        if pairs:
            heads = [cell.text for cell in cells if cell.heading]
            named = [text for text in heads if sum(unit in text for unit in UNITS) > 1]
            assert named, (page.text[:60], pairs[0].text)


def two_figures(cell) -> bool:
    """Whether numbers of two weights or colours stand in a cell: a large one and a small one."""
    looks = {(one.font, one.colour) for one in cell.letters if one.text.isdigit()}
    return len(looks) > 1 and bool(re.search(r"[\d–] ?[\d−]", cell.text))
