"""What a PDF tells a screen reader, made whole.

WeasyPrint tags what stands on a page, but names no scope of headings, forgets
headings that span columns or stand over a block of rows and what stands in the
margins, and gives the places of figures in pixels from the top.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pydyf

_POINTS = 0.75  # a CSS pixel


@dataclass(frozen=True, slots=True)
class _Cell:
    """A cell of a table and the columns and rows that it covers."""

    element: pydyf.Dictionary
    columns: range
    rows: range
    group: pydyf.Dictionary
    heads: bool

    @property
    def is_heading(self) -> bool:
        return bool(self.element["S"] == "/TH")


def finish(pdf: pydyf.PDF, name: str, duplex: str = "/Simplex") -> None:
    """Make the tags of a PDF whole, before it is written.

    Parameters
    ----------
    pdf : pydyf.PDF
        Tagged, by WeasyPrint.
    name : str
        What its identifiers begin with, so that PDFs can be joined.
    duplex : str
        How the sheets are meant to be printed, for the print dialogue.
    """
    root = _at(pdf, pdf.catalog["StructTreeRoot"])
    _hang_margins(pdf)
    headings = _Headings(pdf, name)
    for element in _walked(pdf, root):
        if element["S"] == "/Table":
            headings.name_one(list(_cells(pdf, element)))
        elif element["S"] == "/Figure":
            _place(pdf, element)
    root["IDTree"] = headings.tree()
    pdf.catalog.pop("Names", None)  # places of tables, which nothing links to
    pdf.catalog["ViewerPreferences"]["Duplex"] = duplex


def _hang_margins(pdf: pydyf.PDF) -> None:
    """Let what stands in the margins be read, which WeasyPrint tags and leaves out of the tree."""
    for one in pdf.objects:
        if isinstance(one, pydyf.Dictionary) and one.get("S") == "/NonStruct":
            around = _at(pdf, one["P"])
            if one.reference not in around["K"]:
                around["K"].append(one.reference)


def _at(pdf: pydyf.PDF, reference: bytes) -> Any:
    """Return what a reference points to."""
    return pdf.objects[int(reference.split()[0])]


def _kids(pdf: pydyf.PDF, element: pydyf.Dictionary, *kinds: str) -> Iterator[pydyf.Dictionary]:
    """Yield the tags within one: those of some kinds, or all."""
    for kid in element["K"]:
        if isinstance(kid, bytes):  # other than a mark on the page
            one = _at(pdf, kid)
            if not kinds or one["S"] in kinds:
                yield one


def _walked(pdf: pydyf.PDF, element: pydyf.Dictionary) -> Iterator[pydyf.Dictionary]:
    """Yield all tags within one."""
    for kid in _kids(pdf, element):
        yield kid
        yield from _walked(pdf, kid)


def _place(pdf: pydyf.PDF, figure: pydyf.Dictionary) -> None:
    """Turn a figure's place from pixels below the top to points above the bottom."""
    left, top, right, bottom = (x * _POINTS for x in figure["A"]["BBox"])
    height = _at(pdf, figure["Pg"])["MediaBox"][3]
    figure["A"]["BBox"] = pydyf.Array([left, height - bottom, right, height - top])


class _Headings:
    """Says of each cell of each table which headings it stands under."""

    def __init__(self, pdf: pydyf.PDF, name: str) -> None:
        self._pdf = pdf
        self._name = name
        self._named: list[pydyf.Dictionary] = []

    def name_one(self, cells: list[_Cell]) -> None:
        headings = [cell for cell in cells if cell.is_heading]
        for heading in headings:
            across = heading.heads or len(heading.columns) > 1
            heading.element["A"]["Scope"] = "/Column" if across else "/Row"
            heading.element["ID"] = pydyf.String(f"{self._name}-{len(self._named):06}")
            self._named.append(heading.element)
        for cell in cells:
            if not cell.is_heading:
                over = [one.element["ID"] for one in headings if _stands_under(cell, one)]
                cell.element["A"]["Headers"] = pydyf.Array(over)

    def tree(self) -> bytes:
        """Return a reference to the tree of all that are named."""
        parts = [part for one in self._named for part in (one["ID"], one.reference)]
        tree = pydyf.Dictionary({"Names": pydyf.Array(parts)})
        self._pdf.add_object(tree)
        reference: bytes = tree.reference
        return reference


def _stands_under(cell: _Cell, heading: _Cell) -> bool:
    if heading.heads:
        return _meet(cell.columns, heading.columns)
    if heading.group is not cell.group:
        return False
    return len(heading.columns) > 1 or _meet(cell.rows, heading.rows)


def _meet(one: range, other: range) -> bool:
    return one.start < other.stop and other.start < one.stop


def _cells(pdf: pydyf.PDF, table: pydyf.Dictionary) -> Iterator[_Cell]:
    """Yield the cells of a table in their places on its grid."""
    taken: set[tuple[int, int]] = set()
    row = 0
    for group in _kids(pdf, table, "/THead", "/TBody"):
        for line in _kids(pdf, group, "/TR"):
            column = 0
            for element in _kids(pdf, line, "/TH", "/TD"):
                while (row, column) in taken:
                    column += 1
                columns = range(column, column + element["A"].get("ColSpan", 1))
                rows = range(row, row + element["A"].get("RowSpan", 1))
                taken.update((r, c) for r in rows for c in columns)
                yield _Cell(element, columns, rows, group, group["S"] == "/THead")
            row += 1
