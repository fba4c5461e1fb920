"""WeasyPrint: pages of HTML laid out, counted, and written as one PDF."""

import gc
import re
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pydyf

from cardgen.layout.placed import Page
from cardgen.render import PdfError
from cardgen.render.own import fetcher, refusal
from cardgen.render.variables import settled

_TRIES = 8  # of a sheet that is too high, each planned smaller than the one before
_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_FACES = re.compile(r"@font-face *\{.*?\}", re.DOTALL)
_OF_EVERY_ELEMENT = re.compile(r"^\*?::(?=(footnote|note|marker)\b)", re.MULTILINE)
_KEPT = 1_000  # pages that one engine lays out: it remembers every size of type
_STYLES = 32  # that are kept: one or two that many pages share, and those of the last pages


class Press:
    """Lays out HTML, one page at a time, and counts.

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
        self._engine = _engine(own)
        self.pages = self.layouts = 0

    def printed(
        self,
        html: Callable[[Page], str],
        plan: Callable[[Sequence[int]], list[list[Page]]],
        finish: Callable[[pydyf.PDF], None] = lambda pdf: None,
    ) -> bytes:
        """Return sheets as one PDF; one that is too high after all is planned again, smaller.

        Parameters
        ----------
        html : callable
            Renders a page.
        plan : callable
            Takes how often each sheet was too high, at first nothing, and
            returns the pages of each.
        finish : callable, optional
            Makes the PDF whole before it is written.
        """
        with _uncollected():
            pdf = _written(self._sheets(html, plan), finish)
        self._engine.heed_refusals()  # a drawing is read when it is drawn
        return pdf

    def flowing(self, html: str, finish: Callable[[pydyf.PDF], None]) -> bytes:
        """Return HTML as one PDF that runs over as many pages as it needs."""
        with _uncollected():
            pdf = _written([self._laid_out(html)], finish)
        self._engine.heed_refusals()
        return pdf

    def _sheets(
        self,
        html: Callable[[Page], str],
        plan: Callable[[Sequence[int]], list[list[Page]]],
    ) -> list[Any]:
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
        return [document for documents in made for document in documents]

    def _laid_out(self, html: str) -> Any:
        self.layouts += 1
        made = self._engine.laid_out(html)
        self._engine.heed_refusals()
        return made


class _Engine:
    """WeasyPrint, and what it need not make again for each page.

    That is its own style, the fonts of each set of faces, and the styles that
    pages share. Sets of faces are apart, since a face that differs by nothing
    but its file would stand in for another.
    """

    def __init__(self, own: Path | None) -> None:
        try:
            import weasyprint
        except OSError as error:
            raise PdfError(
                f"WeasyPrint cannot load the system library Pango ({error}); on Debian: "
                "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
            ) from error
        self._weasyprint = weasyprint
        self.own, self._fetcher = own, fetcher(weasyprint, own)
        self._html = _frugal(weasyprint)
        self._fonts: dict[str, Any] = {}
        self._parsed = lru_cache(maxsize=_STYLES)(self._parse)
        self.pages = 0

    def laid_out(self, html: str) -> Any:
        self.pages += 1
        faces = "".join(_FACES.findall(html))
        styles = [self._parsed(style, faces) for style in settled(_STYLE.findall(html))]
        page = self._html(_STYLE.sub("", html), self._fetcher)
        return page.render(
            stylesheets=styles, font_config=self._fonts_of(faces), pdf_variant="pdf/ua-1"
        )

    def heed_refusals(self) -> None:
        """Raise what layout asked to read and was refused, if anything."""
        refused, self._fetcher.refused = self._fetcher.refused, []
        for url in refused:
            raise refusal(url, self.own)

    def _parse(self, style: str, faces: str) -> Any:
        return self._weasyprint.CSS(
            string=style, font_config=self._fonts_of(faces), url_fetcher=self._fetcher
        )

    def _fonts_of(self, faces: str) -> Any:
        if faces not in self._fonts:
            self._fonts[faces] = self._weasyprint.text.fonts.FontConfiguration()
        return self._fonts[faces]


_kept = threading.local()


def _engine(own: Path | None) -> _Engine:
    """Return this thread's engine, or another one where it has laid out many pages."""
    engine: _Engine | None = getattr(_kept, "engine", None)
    if engine is None or engine.own != own or engine.pages >= _KEPT:
        engine = _kept.engine = _Engine(own)
    return engine


def _frugal(weasyprint: Any) -> Any:
    """Return WeasyPrint's HTML that makes no footnotes and markers for each element.

    Its own style has six of them for every element there is, each with a style of its own, which
    takes a tenth of a page's time; here only items of lists have any. And HTML that is well-formed
    XML too, as the sheets' own template is, is read as that, which takes a tenth of the time.
    """
    import cssselect2

    style = files(weasyprint).joinpath("css", "html5_ua.css").read_text("utf-8")
    own = [weasyprint.CSS(string=_OF_EVERY_ELEMENT.sub("li::", style))]

    class Frugal(weasyprint.HTML):  # type: ignore[misc]
        def __init__(self, string: str, fetcher: Any) -> None:
            try:
                root = ElementTree.fromstring(string.strip())
            except ElementTree.ParseError:
                super().__init__(string=string, url_fetcher=fetcher)
                return
            self.base_url = None
            self.url_fetcher = fetcher
            self.media_type = "print"
            self.wrapper_element = cssselect2.ElementWrapper.from_html_root(root)
            self.etree_element = root

        def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
            return own

    return Frugal


def _written(documents: Sequence[Any], finish: Callable[[pydyf.PDF], None]) -> bytes:
    pages = [page for document in documents for page in document.pages]
    pdf: bytes = (
        documents[0]
        .copy(pages)
        .write_pdf(pdf_variant="pdf/ua-1", finisher=lambda _, pdf: finish(pdf))
    )
    return pdf


@contextmanager
def _uncollected() -> Iterator[None]:
    """No search for garbage meanwhile: it goes through all boxes of all pages again and again."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
