"""Bars on sheets: beside exactly what changed since a card was signed, and words on every sheet."""

from dataclasses import replace
from pathlib import Path

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.record import Document, Signature
from cardgen.render.pdf import write_aircraft_pdfs
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.review.records import record_of, released, written
from tests.render.printed import Sheet, sheets, texts

DAY = "2026-03-02"
SHOWN = ("indicated", "cas")  # the columns of limits on a card


@pytest.fixture
def changed(make, tmp_path) -> tuple[Document, Document]:
    """A card as it was signed, and as it is since."""

    def document(**keys) -> Document:
        return marked(make_document(make(**keys), read_fleet(tmp_path).school))

    before = document()
    after = document(speeds={"VNO": {"ias": 139}, "VS1": {"ias": 52, "cas": 56}})
    record = record_of(before, "P. Pipit", "", DAY)
    signature = Signature(record.by, record.date, record.figures, record.card)
    head = replace(after.head, signatures=(signature,))
    return before, released(replace(after, head=head), [(DAY, written(record), "")])


def bars(sheet: Sheet) -> list[tuple[float, float, float, float]]:
    """The upright bars of a sheet below its head: wider than any rule, higher than a line."""
    return [
        (left, top, right, bottom)
        for left, top, right, bottom in sheet.shapes
        if 0.3 < right - left < 0.7 and bottom - top > 2.0 and top > 32.0
    ]


def before_bar(sheet: Sheet, bar: tuple[float, float, float, float]) -> str:
    """The word that ends at the left of a bar."""
    left, top, _, bottom = bar
    word = ""
    for letter in sorted(sheet.letters, key=lambda one: -one.right):
        if top < letter.base < bottom and left - 2.0 < letter.right < left + 0.2:
            word, left = letter.text + word, letter.left
    return word.split()[-1]


def figures(document: Document) -> dict[str, str]:
    """The figures of a card's list of limits by row and column, as whole numbers."""
    table = document.table("speeds")
    limits = next(block for block in table.blocks if block.id == "limits")
    at = [n for n, column in enumerate(table.columns) if column.id in SHOWN]
    return {
        f"{row.id}/{n}": f"{row.cells[n].quantity.value:.0f}"
        for row in limits.rows
        for n in at
        if row.cells[n].quantity
    }


def test_bars_stand_beside_exactly_the_figures_that_changed(changed, tmp_path: Path, only):
    only("card.pdf", sheets=["sheet-speeds"])
    old, new = map(figures, changed)
    others = sorted(new[name] for name in new if new[name] != old[name])
    assert len(others) == 4
    for document, expected in zip(changed, ([], others), strict=True):
        folder = tmp_path / document.marks.card
        folder.mkdir()
        write_aircraft_pdfs(folder, Templates(), document)
        first = sheets(folder / "card.pdf")[0]
        assert sorted(before_bar(first, bar) for bar in bars(first)) == expected


def test_every_sheet_says_what_changed_and_by_which_manual_it_is_valid(changed, tmp_path, only):
    only("card.pdf", "strip.pdf")
    write_aircraft_pdfs(tmp_path, Templates(), changed[1])
    for kind in ("card.pdf", "strip.pdf"):
        pages = texts(tmp_path / kind)
        assert pages
        for page in pages:
            assert "OUT OF DATE" in page
            assert f"Changed since {DAY}: VNO, VS1" in page
            assert "Valid with Manual M-1, revision 1" in page
