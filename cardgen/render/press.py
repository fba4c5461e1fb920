"""WeasyPrint: pages of HTML laid out, counted, and written as one PDF."""

import re
from collections.abc import Callable, Sequence
from importlib.resources import files
from pathlib import Path
from typing import Any

from cardgen.layout.placed import Page
from cardgen.render.own import fetcher, refusal

_TRIES = 8  # of a sheet that is too high, each planned smaller than the one before
_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_OF_EVERY_ELEMENT = re.compile(r"^\*?::(?=(footnote|note|marker)\b)", re.MULTILINE)


class PdfError(Exception):
    """The system library that lays out pages is missing."""


class Press:
    """Lays out HTML, one page at a time; remembers the fonts, and the styles that pages share.

    Parameters
    ----------
    own : Path, optional
        The school's own folder, which layout may read beside ours.

    Attributes
    ----------
    pages : int
        How many pages it was given.
    layouts : int
        How often it has laid one out.
    """

    def __init__(self, own: Path | None = None) -> None:
        try:
            import weasyprint
            from weasyprint.text.fonts import FontConfiguration
        except OSError as error:
            raise PdfError(
                f"WeasyPrint cannot load the system library Pango ({error}); on Debian: "
                "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
            ) from error
        self._own, self._fetcher = own, fetcher(weasyprint, own)
        self._html = _frugal(weasyprint)
        self._css = weasyprint.CSS
        self._fonts = FontConfiguration()
        self._styles: dict[str, Any] = {}
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
        pdf = _written([document for documents in made for document in documents])
        self._heed_refusals()  # a drawing is read when it is drawn
        return pdf

    def _laid_out(self, html: str) -> Any:
        self.layouts += 1
        styles = [self._parsed(style) for style in _STYLE.findall(html)]
        page = self._html(string=_STYLE.sub("", html), url_fetcher=self._fetcher)
        made = page.render(stylesheets=styles, font_config=self._fonts, pdf_variant="pdf/ua-1")
        self._heed_refusals()
        return made

    def _heed_refusals(self) -> None:
        for url in self._fetcher.refused:
            raise refusal(url, self._own)

    def _parsed(self, style: str) -> Any:
        if style not in self._styles:
            self._styles[style] = self._css(
                string=style, font_config=self._fonts, url_fetcher=self._fetcher
            )
        return self._styles[style]


def _frugal(weasyprint: Any) -> Any:
    """Return WeasyPrint's HTML that makes no footnotes and markers for each element.

    Its own style has six of them for every element there is, each with a style of its own, which
    takes a tenth of a page's time; here only items of lists have any.
    """
    style = files(weasyprint).joinpath("css", "html5_ua.css").read_text("utf-8")
    own = [weasyprint.CSS(string=_OF_EVERY_ELEMENT.sub("li::", style))]

    class Frugal(weasyprint.HTML):  # type: ignore[misc]
        def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
            return own

    return Frugal


def _written(documents: Sequence[Any]) -> bytes:
    pages = [page for document in documents for page in document.pages]
    pdf: bytes = documents[0].copy(pages).write_pdf(pdf_variant="pdf/ua-1")
    return pdf
