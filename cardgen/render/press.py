"""WeasyPrint: pages of HTML laid out, counted, and written as one PDF."""

from collections.abc import Callable, Sequence
from typing import Any

from cardgen.layout.placed import Page

_TRIES = 8  # of a sheet that is too high, each planned smaller than the one before


class PdfError(Exception):
    """The system library that lays out pages is missing."""


class Press:
    """Lays out HTML, one page at a time; remembers the fonts.

    Attributes
    ----------
    pages : int
        How many pages it was given.
    layouts : int
        How often it has laid one out.
    """

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
        self.pages = self.layouts = 0

    def printed(
        self,
        html: Callable[[Page], str],
        plan: Callable[[Sequence[int]], list[list[Page]]],
    ) -> bytes:
        """Return sheets as one PDF; one that is too high after all is planned again, smaller.

        Parameters
        ----------
        html : callable
            Renders a page.
        plan : callable
            Takes how often each sheet was too high, at first nothing, and
            returns the pages of each.
        """
        misses: list[int] = []
        before: list[list[Page]] = []
        made: list[list[Any]] = []
        for _ in range(_TRIES):
            sheets = plan(misses)
            made = [
                made[n]
                if before and pages == before[n]
                else [self._laid_out(html(page)) for page in pages]
                for n, pages in enumerate(sheets)
            ]
            too_high = [any(len(one.pages) > 1 for one in documents) for documents in made]
            if not any(too_high):
                break
            misses = [
                n + high for n, high in zip(misses or [0] * len(sheets), too_high, strict=True)
            ]
            before = sheets
        self.pages += sum(map(len, made))
        return _written([document for documents in made for document in documents])

    def _laid_out(self, html: str) -> Any:
        self.layouts += 1
        return self._html(string=html).render(font_config=self._fonts, pdf_variant="pdf/ua-1")


def _written(documents: Sequence[Any]) -> bytes:
    pages = [page for document in documents for page in document.pages]
    pdf: bytes = documents[0].copy(pages).write_pdf(pdf_variant="pdf/ua-1")
    return pdf
