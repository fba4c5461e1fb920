"""Laying sheets out, each in type as large as fits on its page.

What a page has room for is known only once it is laid out, so a sheet is laid
out small, measured, and laid out again. WeasyPrint tells no sizes; they are
read from its boxes, here and nowhere else.
"""

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

MILLIMETRE = 96 / 25.4  # CSS pixels
SMALLEST, LARGEST = 9.06, 11.8  # pt; digits of a table, by which all other type is set
TIGHTEST, EASY, LOOSEST = 1.06, 1.2, 1.5  # from row to row, to the type
_EMPTY = 1.06  # what there is room for, to what is used: above this, a larger fit is tried
_STEP = 0.97  # to the next smaller type, where a guess was too large
_PARTS = 6  # of a table, at the most
_GAP = 2.2  # mm between a sheet's head or foot and what stands between them


class PdfError(Exception):
    """The system library that lays out pages is missing."""


@dataclass(frozen=True)
class Page:
    """What a sheet is laid out on: sizes in mm, type in pt, and its place among the sheets."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    name: str = ""
    type: float = SMALLEST
    lead: float = TIGHTEST
    narrow: bool = False
    flow: bool = False
    parts: int = 1
    number: int = 1
    of: int = 1


@dataclass(frozen=True)
class Fit:
    """How a sheet is made to fill its page.

    Attributes
    ----------
    head, foot : float
        What they add to the margins, mm.
    type : float
        Size of a table's digits, pt.
    lead : float
        From row to row, to the type.
    drawn : bool
        Whether there is room for the chart.
    narrow : bool
        Whether cells stand closer and their small figures are smaller.
    flow : bool
        Whether it goes on to further pages, with all parts below one another.
    parts : int
        In how many parts, below one another, tables of many columns stand.
    pages : int
        How many pages it took.
    """

    head: float
    foot: float
    type: float = SMALLEST
    lead: float = TIGHTEST
    drawn: bool = False
    narrow: bool = False
    flow: bool = False
    parts: int = 1
    pages: int = 1

    def on(self, page: Page) -> Page:
        """Return a page of this fit."""
        return replace(
            page,
            top=page.top + self.head,
            bottom=page.bottom + self.foot,
            type=self.type,
            lead=self.lead,
            narrow=self.narrow,
            flow=self.flow,
            parts=self.parts,
        )


@dataclass(frozen=True)
class Sheet:
    """A sheet of its own: what renders it, and how high it is with a chart, if it may have one.

    Attributes
    ----------
    html : callable
        Takes a `Page` and whether to draw the chart.
    chart : float
        Height of the chart to its width; 0 where there is none.
    """

    html: Callable[[Page, bool], str]
    chart: float = 0.0


class Press:
    """Lays out HTML; remembers the fonts."""

    def __init__(self) -> None:
        try:
            import weasyprint
            from weasyprint.text.fonts import FontConfiguration
        except OSError as error:
            raise PdfError(
                f"WeasyPrint cannot load the system library Pango ({error}); on Debian: "
                "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
            ) from error
        self._html = weasyprint.HTML
        self._fonts = FontConfiguration()

    def lay_out(self, html: str) -> Any:
        """Return a WeasyPrint document."""
        return self._html(string=html).render(font_config=self._fonts, pdf_variant="pdf/ua-1")


def laid_out(
    page: Page, sheets: Sequence[Sheet], fits: Sequence[Fit] | None = None
) -> tuple[bytes, list[Fit]]:
    """Return a PDF of sheets, numbered through, and how each was fitted.

    Parameters
    ----------
    page : Page
        With the margins that are kept clear; a sheet's head and foot come on top.
    sheets : sequence of Sheet
    fits : sequence of Fit, optional
        How sheets of like content were fitted, which spares measuring these.
    """
    press = Press()
    counts = [fit.pages for fit in fits] if fits else [1] * len(sheets)
    while True:
        numbered = [
            replace(page, number=number, of=sum(counts))
            for number in itertools.accumulate(counts[:-1], initial=1)
        ]
        fits = fits or [_guess(press, *one) for one in zip(sheets, numbered, strict=True)]
        done = [_settled(press, *one) for one in zip(sheets, numbered, fits, strict=True)]
        documents, fits = [document for document, _ in done], [fit for _, fit in done]
        if counts == (counts := [len(document.pages) for document in documents]):
            break
    pages = [page for document in documents for page in document.pages]
    pdf: bytes = documents[0].copy(pages).write_pdf(pdf_variant="pdf/ua-1")
    return pdf, fits


def _guess(press: Press, sheet: Sheet, page: Page) -> Fit:
    """Return a fit that fills the page, from how high a sheet is in the smallest type."""
    small = replace(page, top=page.top + 14.0, bottom=page.bottom + 16.0)
    measured = press.lay_out(sheet.html(small, False))
    head, foot, used = _heights(measured.pages[0])
    head, foot = head + _GAP, foot + _GAP
    if len(measured.pages) > 1:
        return Fit(head, foot)
    room = page.height - page.top - page.bottom - head - foot
    chart = sheet.chart * (page.width - page.left - page.right) + _GAP
    drawn = bool(sheet.chart) and used + chart < room
    spare = (room - (chart if drawn else 0.0)) / used
    size = min(max(SMALLEST * spare * TIGHTEST / EASY, SMALLEST), LARGEST)
    lead = min(max(TIGHTEST * spare * SMALLEST / size, TIGHTEST), LOOSEST)
    return Fit(head, foot, size, lead, drawn)


def _settled(press: Press, sheet: Sheet, page: Page, fit: Fit) -> tuple[Any, Fit]:
    """Return a sheet laid out by a fit, or by the next smaller one that puts it on one page.

    Where that leaves much of the page empty, one larger fit is tried.
    """
    best: tuple[Any, Fit] | None = None
    while True:
        document = press.lay_out(sheet.html(fit.on(page), fit.drawn))
        too_high, too_wide = len(document.pages) > 1, _too_wide(document)
        head, foot, _ = _heights(document.pages[0])
        if head + _GAP > fit.head + 0.1 or foot + _GAP > fit.foot + 0.1:  # a line more than before
            fit = replace(fit, head=head + _GAP, foot=foot + _GAP)
        elif too_wide > 1.0 and fit.flow and not fit.narrow:
            fit = replace(fit, narrow=True)
        elif too_wide > 1.0 and fit.flow and fit.parts < _PARTS:
            fit = replace(fit, flow=False, narrow=False, parts=fit.parts + 1)
        elif fit.flow or not (too_high or too_wide > 1.0):
            fit = replace(fit, pages=len(document.pages))
            larger = _larger(fit, page, document)
            if best or fit.flow or larger == fit:
                return document, fit
            best, fit = (document, fit), larger
        elif best and too_high:
            return best
        elif (fit.type, fit.lead) == (SMALLEST, TIGHTEST):
            fit = replace(fit, flow=True, drawn=False)
        elif too_high:
            size, lead = max(fit.type * _STEP, SMALLEST), max(fit.lead * _STEP, TIGHTEST)
            fit = replace(fit, type=size, lead=lead)
        else:
            size = max(fit.type / too_wide, SMALLEST)
            lead = TIGHTEST if size == fit.type else min(fit.lead * fit.type / size, LOOSEST)
            fit = replace(fit, type=size, lead=lead)


def _larger(fit: Fit, page: Page, document: Any) -> Fit:
    """Return a fit for what a page has left; the same one if that is little."""
    used = _heights(document.pages[0])[2]
    spare = (page.height - page.top - page.bottom - fit.head - fit.foot) / used
    if spare < _EMPTY:
        return fit
    size = min(fit.type * spare, LARGEST)
    return replace(fit, type=size, lead=min(fit.lead * spare * fit.type / size, LOOSEST))


def _heights(page: Any) -> tuple[float, float, float]:
    """Return how high, in mm, a page's head, foot, and what stands between them are."""
    margins = {box.at_keyword: box for box in page._page_box.children if hasattr(box, "at_keyword")}
    head, foot = (margins[f"@{edge}-center"].children[0] for edge in ("top", "bottom"))
    (html,) = (box for box in page._page_box.children if box.element_tag == "html")
    return tuple(box.margin_height() / MILLIMETRE for box in (head, foot, html))


def _too_wide(document: Any) -> float:
    """Return how much wider a first page's tables are than there is room; 1 where they fit."""
    boxes = document.pages[0]._page_box.descendants()
    parts = [
        float(table.width) / float(box.width + 0.5)
        for box in boxes
        for table in getattr(box, "children", ())
        if getattr(table, "is_table_wrapper", False)
    ]
    return max([1.0, *parts])
