"""Sheets put together: two to a side of the paper, and a fleet's in one file.

Pages are reused as they are, with their tags.
"""

import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import pikepdf
from pikepdf import Array, Dictionary, Name, Object

from cardgen.render.stamp import entitled, saved

POINTS = 72 / 25.4  # in a millimetre
Size = tuple[float, float]
_MARKS = ((0.0, 0.07), (0.48, 0.52), (0.93, 1.0))  # of the cut, as parts of the paper's height


@dataclass(frozen=True)
class _Place:
    """Where a sheet stands: on which side of which paper, and how it is moved there."""

    side: int
    turn: int
    x: float
    y: float

    def box(self, box: Object) -> Array:
        """Return where a box on the sheet comes to lie."""
        left, bottom, right, top = (self.turn * float(one) for one in box)
        (left, right), (bottom, top) = sorted((left, right)), sorted((bottom, top))
        return Array([left + self.x, bottom + self.y, right + self.x, top + self.y])


def two_up(card: bytes, paper: Size, shift: float, title: str) -> bytes:
    """Return a card's sheets two to a side of landscape paper, for both sides of it.

    Printed with a flip on the long edge and cut down the middle, each card has
    its even sheet behind its odd one, and is turned like a leaf.

    Parameters
    ----------
    card : bytes
        The card's own PDF.
    paper : (float, float)
        Its width and height, mm, on its side.
    shift : float
        How far to move what stands on a back to the left, mm, so that the edge
        with the holes is clear there too.
    title : str

    Notes
    -----
    A flip on the long edge turns landscape paper about a horizontal line: what
    lies behind the left half of the front is the left half of the back, and
    behind its top is the back's bottom. So sheet 2 stands at the left, behind
    sheet 1, and upside down.
    """
    paper = (paper[0] * POINTS, paper[1] * POINTS)
    with pikepdf.open(io.BytesIO(card)) as pdf:
        sheets = list(pdf.pages)
        forms = [_form(pdf, sheet) for sheet in sheets]
        places = [_place(paper, sheet, n, shift * POINTS) for n, sheet in enumerate(sheets)]
        sides = [_side(pdf, paper, forms, places, n) for n in range(-(-len(sheets) // 4) * 2)]
        _turn_bookmarks(pdf, sheets, [sides[place.side] for place in places])
        numbers = {sheet.obj.objgen: n for n, sheet in enumerate(sheets)}
        for element in _elements(pdf):
            number = numbers[element.Pg.objgen]
            _rehang(element, sides[places[number].side], forms[number], places[number])
        del pdf.pages[: len(sheets)]
        pdf.Root.ViewerPreferences.Duplex = Name.DuplexFlipLongEdge
        return saved(entitled(pdf, title))


def _form(pdf: pikepdf.Pdf, sheet: pikepdf.Page) -> Object:
    """Return a page as a drawing that keeps the page's key in the tree of tags."""
    form = pdf.make_indirect(sheet.as_form_xobject())
    form.StructParents = sheet.obj.StructParents
    return form


def _place(paper: Size, sheet: pikepdf.Page, number: int, shift: float) -> _Place:
    """Return a sheet's place: in the middle of its half; on a back, moved and turned round."""
    width, height = paper
    wide, high = (float(x) for x in [*sheet.mediabox][2:])
    leaf, back = divmod(number, 2)
    x = (leaf % 2 + 0.5) * width / 2 - wide / 2
    y = (height - high) / 2
    side = leaf // 2 * 2 + back
    return _Place(side, -1, x + wide + shift, y + high) if back else _Place(side, 1, x, y)


def _side(
    pdf: pikepdf.Pdf, paper: Size, forms: Sequence[Object], places: Sequence[_Place], number: int
) -> Object:
    """Add one side of the paper, with its sheets and the marks to cut by."""
    width, height = paper
    marks = "".join(f"{width / 2} {a * height} m {width / 2} {b * height} l " for a, b in _MARKS)
    drawn, used = [f"/Artifact BMC q 0.4 w {marks}S Q EMC"], Dictionary()
    for n, place in enumerate(places):
        if place.side == number:
            drawn.append(
                f"q {place.turn} 0 0 {place.turn} {place.x:.4f} {place.y:.4f} cm /S{n} Do Q"
            )
            used[f"/S{n}"] = forms[n]
    side = pdf.add_blank_page(page_size=(width, height)).obj
    side.Contents = pdf.make_stream("\n".join(drawn).encode())
    side.Resources = Dictionary(XObject=used)
    return side


def _elements(pdf: pikepdf.Pdf) -> Iterator[Object]:
    """Yield the tags on all sheets."""
    waiting = list(pdf.Root.StructTreeRoot.K[0].K)
    while waiting:
        element = waiting.pop()
        yield element
        waiting += [kid for kid in element.get(Name.K, ()) if _is_tag(kid)]


def _is_tag(kid: object) -> bool:
    return isinstance(kid, Dictionary) and Name.S in kid


def _rehang(element: Object, side: Object, form: Object, place: _Place) -> None:
    """Let a tag point into the drawing of its sheet on the paper's side."""
    element.Pg = side
    if Name.K in element:
        element.K = Array(
            kid if isinstance(kid, Object)
            else Dictionary(Type=Name.MCR, Pg=side, Stm=form, MCID=kid)
            for kid in element.K
        )  # fmt: skip
    if Name.A in element and Name.BBox in element.A:
        element.A.BBox = place.box(element.A.BBox)


def _turn_bookmarks(pdf: pikepdf.Pdf, sheets: Sequence[pikepdf.Page], to: Sequence[Object]) -> None:
    numbers = {sheet.obj.objgen: n for n, sheet in enumerate(sheets)}
    with pdf.open_outline() as outline:
        waiting = list(outline.root)
        while waiting:
            mark = waiting.pop()
            waiting += mark.children
            mark.destination = Array([to[numbers[_page_of(mark).objgen]], Name.Fit])


def _page_of(mark: pikepdf.OutlineItem) -> Object:
    assert isinstance(mark.destination, Array)
    return mark.destination[0]


def fleet_pdf(cards: Iterable[bytes], title: str) -> bytes:
    """Return several cards' sheets as one PDF, with the tags and bookmarks of all.

    Parameters
    ----------
    cards : iterable of bytes
        The cards' own PDFs, at least one.
    title : str
    """
    opened = (pikepdf.open(io.BytesIO(card)) for card in cards)
    with next(opened) as fleet:
        for one in opened:
            with one:
                _append(fleet, one)
        return saved(entitled(fleet, title))


def _append(fleet: pikepdf.Pdf, one: pikepdf.Pdf) -> None:
    """Add a card's pages, their bookmarks and their tags, whose keys go on from the fleet's."""
    start = len(fleet.pages)
    fleet.pages.extend(one.pages)
    for n in range(start, len(fleet.pages)):
        fleet.pages[n].obj.StructParents = n
    tree, more = fleet.Root.StructTreeRoot, fleet.copy_foreign(one.Root.StructTreeRoot)
    for n, marked in enumerate(list(more.ParentTree.Nums)[1::2], start=start):
        tree.ParentTree.Nums.append(n)
        tree.ParentTree.Nums.append(marked)
    for tag in more.K[0].K:
        tag.P = tree.K[0]
        tree.K[0].K.append(tag)
    tree.IDTree.Names.extend(more.IDTree.Names)
    with fleet.open_outline() as outline, one.open_outline() as added:
        outline.root.extend(_copied(fleet, mark, one, start) for mark in added.root)


def _copied(
    fleet: pikepdf.Pdf, mark: pikepdf.OutlineItem, one: pikepdf.Pdf, start: int
) -> pikepdf.OutlineItem:
    page = start + pikepdf.Page(_page_of(mark)).index
    copy = pikepdf.OutlineItem(mark.title, Array([fleet.pages[page].obj, Name.Fit]))
    copy.children.extend(_copied(fleet, child, one, start) for child in mark.children)
    return copy
