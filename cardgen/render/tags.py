"""What a PDF tells a screen reader, made whole.

WeasyPrint tags what stands on a page, but names no scope of headings, forgets
headings that span columns or stand over a block of rows, and gives the places
of figures in pixels from the top.
"""

import io
from collections.abc import Iterator
from dataclasses import dataclass

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, String

_POINTS = 0.75  # a CSS pixel


@dataclass(frozen=True)
class _Cell:
    """A cell of a table and the columns and rows that it covers."""

    element: Object
    columns: range
    rows: range
    group: Object
    heads: bool

    @property
    def is_heading(self) -> bool:
        return _is_a(self.element, "TH")


def finished(pdf: bytes, name: str, duplex: str = "/Simplex") -> pikepdf.Pdf:
    """Return a PDF of WeasyPrint's with its tags made whole.

    Parameters
    ----------
    pdf : bytes
        Tagged, by WeasyPrint.
    name : str
        What its identifiers begin with, so that PDFs can be joined.
    duplex : str
        How the sheets are meant to be printed, for the print dialogue.
    """
    opened = pikepdf.open(io.BytesIO(pdf))
    document = opened.Root.StructTreeRoot.K[0]
    _Headings(name).name_all(opened, document)
    for figure in _found(document, "Figure"):
        _place(figure)
    if Name.Names in opened.Root:
        del opened.Root.Names  # places of tables, which nothing links to
    opened.Root.ViewerPreferences.Duplex = Name(duplex)
    return opened


def _kids(element: Object) -> Iterator[Object]:
    for kid in element.get(Name.K, Array()):
        if isinstance(kid, Dictionary) and Name.S in kid:
            yield kid


def _is_a(element: Object, *kinds: str) -> bool:
    return str(element.S)[1:] in kinds


def _found(element: Object, kind: str) -> Iterator[Object]:
    for kid in _kids(element):
        if _is_a(kid, kind):
            yield kid
        yield from _found(kid, kind)


def _place(figure: Object) -> None:
    """Turn a figure's place from pixels below the top to points above the bottom."""
    left, top, right, bottom = (float(x) * _POINTS for x in figure.A.BBox)
    height = float(figure.Pg.MediaBox[3])
    figure.A.BBox = Array([left, height - bottom, right, height - top])


class _Headings:
    """Says of each cell of each table which headings it stands under."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._named: list[Object] = []

    def name_all(self, opened: pikepdf.Pdf, document: Object) -> None:
        for table in _found(document, "Table"):
            self._name_one(list(_cells(table)))
        tree = Array([part for one in self._named for part in (one.ID, one)])
        opened.Root.StructTreeRoot.IDTree = opened.make_indirect(Dictionary(Names=tree))

    def _name_one(self, cells: list[_Cell]) -> None:
        headings = [cell for cell in cells if cell.is_heading]
        for heading in headings:
            across = heading.heads or len(heading.columns) > 1
            heading.element.A.Scope = Name.Column if across else Name.Row
            heading.element.ID = String(f"{self._name}-{len(self._named):06}")
            self._named.append(heading.element)
        for cell in cells:
            if not cell.is_heading:
                over = [one.element.ID for one in headings if _stands_under(cell, one)]
                cell.element.A.Headers = Array(over)


def _stands_under(cell: _Cell, heading: _Cell) -> bool:
    if heading.heads:
        return bool(set(cell.columns) & set(heading.columns))
    if heading.group.objgen != cell.group.objgen:
        return False
    return len(heading.columns) > 1 or bool(set(cell.rows) & set(heading.rows))


def _cells(table: Object) -> Iterator[_Cell]:
    """Yield the cells of a table in their places on its grid."""
    taken: set[tuple[int, int]] = set()
    row = 0
    for group in (one for one in _kids(table) if _is_a(one, "THead", "TBody")):
        for line in _found(group, "TR"):
            column = 0
            for element in (one for one in _kids(line) if _is_a(one, "TH", "TD")):
                while (row, column) in taken:
                    column += 1
                columns = range(column, column + int(element.A.get(Name.ColSpan, 1)))
                rows = range(row, row + int(element.A.get(Name.RowSpan, 1)))
                taken.update((r, c) for r in rows for c in columns)
                yield _Cell(element, columns, rows, group, _is_a(group, "THead"))
            row += 1
