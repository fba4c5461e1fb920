"""Printed sheets, from documents and templates."""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from markupsafe import Markup

from cardgen.document.record import Document, Message, Shared
from cardgen.layout.code import address_of, modules
from cardgen.layout.content import Content, Remembering
from cardgen.layout.formats import FORMATS, SHARED, Format, back_shift
from cardgen.layout.measures import Sizes
from cardgen.layout.placed import Page
from cardgen.layout.sheets import planned
from cardgen.layout.speeds import SWATCHES
from cardgen.render import PdfError
from cardgen.render.code import draw_code
from cardgen.render.drawings import drawings, drawn, swatch
from cardgen.render.imposition import two_up
from cardgen.render.press import Press
from cardgen.render.stamp import stamped
from cardgen.render.tags import finish
from cardgen.render.templates import Templates

__all__ = ["PdfError", "aircraft_pdfs", "tables_pdf"]

_TOKEN = re.compile(r"--print-(limit|table|caption): *([\d.]+)(?:rem|pt);")


def aircraft_pdfs(
    templates: Templates, document: Document, press: Press | None = None
) -> Iterator[tuple[str, bytes]]:
    """Yield all that is printed for one aircraft: for each of `FORMATS` its file's name and bytes.

    Parameters
    ----------
    templates : Templates
    document : Document
    press : Press, optional
        What lays pages out, and counts them.

    Raises
    ------
    PdfError
        If Pango is not installed.
    """
    press = press or Press(templates.own)
    names = drawings(templates, document).keys()
    content = Content(document, _remembering(templates), names, bool(templates.picture))
    made: dict[str, bytes] = {}
    for one in FORMATS:
        if one.two_up_of:
            made[one.file] = _two_up(made[one.two_up_of], one, templates, document)
        else:
            made[one.file] = _card(one, press, templates, document, content)
        yield one.file, made[one.file]


def tables_pdf(templates: Templates, shared: Shared, press: Press | None = None) -> bytes:
    """Return the sheets of the tables that serve every aircraft; see `aircraft_pdfs`."""
    content = Content(shared, _remembering(templates), pictured=bool(templates.picture))
    html = _drawing(templates, {}, {})
    return _pdf(SHARED, press or Press(templates.own), templates, content, html)


class Planned(NamedTuple):
    """A format's pages by the message of their sheet's title, and what draws one."""

    by_sheet: dict[str, list[Page]]
    html: Callable[[Page], str]


def pages_of(
    one: Format, templates: Templates, document: Document, marked: frozenset[str]
) -> Planned:
    """Return the pages of a format, with a bar beside some cells, before they are laid out."""
    names = drawings(templates, document).keys()
    content = Content(document, _remembering(templates), names, marked=marked)
    sheets = planned(one, content, _sizes(templates))
    by_sheet = {pages[0].sheet: pages for pages in sheets}
    return Planned(by_sheet, _html(one, templates, document))


def _remembering(templates: Templates) -> Remembering:
    return Remembering(templates.language.code, templates.language.wordings)


def _card(
    one: Format, press: Press, templates: Templates, document: Document, content: Content
) -> bytes:
    return _pdf(one, press, templates, content, _html(one, templates, document))


def _html(one: Format, templates: Templates, document: Document) -> Callable[[Page], str]:
    """Return what draws a page of a document."""
    pictures = drawings(templates, document, grey=one.night, alone=True)
    swatches = {name: swatch(templates, name, grey=one.night, alone=True) for name in SWATCHES}
    return _drawing(templates, {**pictures, **_code(templates, document)}, swatches)


def _drawing(
    templates: Templates, drawn: Mapping[str, Markup], swatches: Mapping[str, Markup]
) -> Callable[[Page], str]:
    return lambda page: templates.render("card.html", page=page, drawings=drawn, swatches=swatches)


def _code(templates: Templates, document: Document) -> dict[str, Markup]:
    """Return the code of a card, if it has one; it is black, so that it can be read."""
    address = address_of(document)
    if not address:
        return {}
    title = Message("sheet-code", {"address": address})
    return {"code": drawn(templates, draw_code(modules(address)), title, grey=True)}


def _two_up(card: bytes, one: Format, templates: Templates, document: Document) -> bytes:
    school = document.head.school
    return two_up(
        card,
        one.papers[school.paper],
        back_shift(school.punch_edge),
        templates.language.say(one.title, name=document.head.registration),
    )


def _pdf(
    one: Format,
    press: Press,
    templates: Templates,
    content: Content,
    html: Callable[[Page], str],
) -> bytes:
    sizes = _sizes(templates)
    pdf = press.printed(
        html,
        lambda misses: planned(one, content, sizes, misses),
        lambda pdf: finish(pdf, content.name),
    )
    return stamped(pdf, content.document.cardgen)


def _sizes(templates: Templates) -> Sizes:
    """Return the sizes of type that a school's ``tokens.css`` sets."""
    tokens = {name: float(size) for name, size in _TOKEN.findall(templates.render("tokens.css"))}
    return Sizes(**tokens)
