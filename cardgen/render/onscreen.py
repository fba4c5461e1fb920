"""Printed sheets drawn into a page that stands alone: the very HTML that is laid out as PDF.

Such a page may ask nothing of a network, and its policy allows no style but its own, by a hash: so
the face is part of it, with the letters that are used, and what elements have for a style of their
own stands in the one style, once for all that have the same.
"""

import re
from base64 import b64encode
from collections.abc import Callable, Iterator
from html import unescape
from io import BytesIO
from itertools import zip_longest
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlparse

from markupsafe import Markup

from cardgen.document.record import Document
from cardgen.layout.formats import FORMATS
from cardgen.layout.placed import Page
from cardgen.render.pdf import pages_of
from cardgen.render.templates import Templates
from cardgen.render.variables import settled

_CARD = FORMATS[0]
_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_BODY = re.compile(r"<body>(.*)</body>", re.DOTALL)
_OWN = re.compile(r' style="([^"]*)"')
_BOOKMARK = re.compile(r"bookmark-[a-z]+: *(\"[^\"]*\"|[^;\"]*);? *")
_HEADING = re.compile(r"(?<=</)h([12])(?=>)|(?<=<)h([12])(?=[ >])")
_FACE = re.compile(r"@font-face *\{.*?\}", re.DOTALL)
_URL = re.compile(r'url\("(file:[^"]*)"\)')
_PAPER = re.compile(r"@page *\{.*?\}", re.DOTALL)
_TAGS = re.compile(r"<[^>]*>")
_DEEPER = 3  # by which headings of a sheet are those of a part of a page
_OWN_MARK = 'data-own="{}"'  # four times, a selector as strong as an element's own style
_BULLET = "•"  # that a style puts before remarks


class Pair(NamedTuple):
    """A sheet's page before and after; nothing where there is none."""

    before: Markup | None
    after: Markup | None


class OnScreen:
    """Sheets drawn one after the other, and the style that all of them need.

    Parameters
    ----------
    templates : Templates
    """

    def __init__(self, templates: Templates) -> None:
        self._templates = templates
        self._card = ""
        self._measures: dict[str, int] = {}
        self._own: dict[str, int] = {}
        self._letters = {_BULLET}

    def pairs(self, before: Document, after: Document, marked: frozenset[str]) -> Iterator[Pair]:
        """Yield those pages of two cards beside each other on which a cell is marked.

        Parameters
        ----------
        before, after : Document
        marked : frozenset of str
            The cells, by identifier.
        """
        old, new = (
            pages_of(_CARD, self._templates, document, marked) for document in (before, after)
        )
        for name in dict.fromkeys((*new.by_sheet, *old.by_sheet)):
            sides = (one.by_sheet.get(name, ()) for one in (old, new))
            for was, now in zip_longest(*sides):
                if any(page and page.is_marked for page in (was, now)):
                    yield Pair(self._drawn(was, old.html), self._drawn(now, new.html))

    def _drawn(self, page: Page | None, html: Callable[[Page], str]) -> Markup | None:
        """Return a sheet's page, if there is one, as a part of another page."""
        if page is None:
            return None
        whole = html(page)
        self._card, measures = settled(_STYLE.findall(whole))
        number = self._measures.setdefault(measures, len(self._measures))
        (body,) = _BODY.findall(whole)
        self._letters.update(unescape(_TAGS.sub("", body)))
        body = _HEADING.sub(lambda found: _deeper(found[1] or found[2]), body)
        body = _OWN.sub(self._class, body)
        width = self._numbered(f"width: {page.width - page.left - page.right:g}mm")
        return Markup(f'<div class="printed measures-{number}"{width}>{body}</div>')

    def _class(self, found: re.Match[str]) -> str:
        """Return what stands for an element's own style, but for what only PDFs have."""
        style = _BOOKMARK.sub("", unescape(found[1])).strip(" ;")
        return self._numbered(style) if style else ""

    def _numbered(self, style: str) -> str:
        return f" {_OWN_MARK.format(self._own.setdefault(style, len(self._own)))}"

    def style(self) -> str:
        """Return the style of all that was drawn, which holds for sheets alone."""
        faces = [_embedded(one, self._letters) for one in _FACE.findall(self._card)]
        measures = (
            _within(f".measures-{number}", style) for style, number in self._measures.items()
        )
        own = (f"{f'[{_OWN_MARK.format(n)}]' * 4} {{ {one} }}" for one, n in self._own.items())
        return "\n".join([*faces, _within(".printed", self._card), *measures, *own])


def _deeper(level: str) -> str:
    return f"h{int(level) + _DEEPER}"


def _within(place: str, style: str) -> str:
    """Return a sheet's style for a part of a page only."""
    inner = _PAPER.sub("", _FACE.sub("", style))
    inner = re.sub(r"^(html|body)(?= *\{)", "&", inner, flags=re.MULTILINE)
    inner = re.sub(r"(?<![\w.-])h([12])(?![\w-])", lambda found: _deeper(found[1]), inner)
    lines = (line.strip() for line in inner.splitlines())
    return "\n".join([f"{place} {{", *filter(None, lines), "}"])


def _embedded(face: str, letters: set[str]) -> str:
    """Return a face with its file in it, of which only some letters are kept."""
    return _URL.sub(lambda found: f'url("{_subset(found[1], letters)}") format("woff2")', face)


def _subset(url: str, letters: set[str]) -> str:
    """Return a face with some letters and its slashed zero only; it is not kerned, as in layout."""
    from fontTools import subset

    options = subset.Options(flavor="woff2", hinting=False)
    options.drop_tables = [*options.drop_tables, "GDEF", "GPOS", "meta"]
    options.layout_features, options.name_IDs = ["zero"], ["*"]
    subsetter = subset.Subsetter(options)
    subsetter.populate(text="".join(sorted(letters)))
    written = BytesIO()
    with subset.load_font(Path(unquote(urlparse(url).path)), options) as font:
        subsetter.subset(font)
        subset.save_font(font, written, options)
    return f"data:font/woff2;base64,{b64encode(written.getvalue()).decode()}"
