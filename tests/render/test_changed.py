"""Bars on sheets: beside exactly what changed since a card was signed, and words on every sheet."""

import subprocess
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.record import Document, Signature
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.review.records import record_of, released, written
from tests.render.printed import Cell, sheets, texts
from tests.render.writing import write_aircraft_pdfs

DAY = "2026-03-02"
DOTS = 10  # to a mm
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


def with_bars(path: Path) -> list[str]:
    """What stands in the cells of the first sheet at whose right there is a bar, as it is seen."""
    command = ["pdftoppm", "-r", f"{DOTS * 25.4}", "-gray", "-l", "1", path]
    _, size, _, pixels = subprocess.run(command, capture_output=True, check=True).stdout.split(
        b"\n", 3
    )
    width, height = map(int, size.split())
    picture = np.frombuffer(pixels, np.uint8).reshape(height, width)
    return sorted(cell.text for cell in sheets(path)[0].cells() if has_bar(picture, cell))


def has_bar(picture: np.ndarray, cell: Cell) -> bool:
    """Whether a dark column as high as the digits stands at the right of a cell's words."""
    if not cell.text.isdigit():
        return False
    right, base = max(one.right for one in cell.letters), cell.letters[-1].base
    rows = slice(round((base - 2.0) * DOTS), round((base + 0.5) * DOTS))
    columns = slice(round((right + 0.1) * DOTS), round((right + 1.8) * DOTS))
    dark = (picture[rows, columns] < 100).all(axis=0)
    return dark.sum() >= 0.3 * DOTS  # wider than any rule


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
        assert with_bars(folder / "card.pdf") == expected


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
