"""Printed sheets, from documents and templates."""

import re
from collections.abc import Mapping
from pathlib import Path

from markupsafe import Markup

from cardgen.document.record import Document, Shared
from cardgen.layout.content import Content
from cardgen.layout.formats import FORMATS, SHARED, Format, back_shift
from cardgen.layout.measures import Sizes
from cardgen.layout.placed import Page
from cardgen.layout.sheets import planned
from cardgen.layout.speeds import SWATCHES
from cardgen.render.drawings import drawings, swatch
from cardgen.render.imposition import two_up
from cardgen.render.press import PdfError, Press
from cardgen.render.stamp import save, stamped
from cardgen.render.tags import finished
from cardgen.render.templates import Templates

__all__ = ["PdfError", "write_aircraft_pdfs", "write_tables_pdf"]

_TOKEN = re.compile(r"--print-(limit|table|caption): *([\d.]+)(?:rem|pt);")


def write_aircraft_pdfs(folder: Path, templates: Templates, document: Document) -> Press:
    """Write all that is printed for one aircraft: a file for each of `FORMATS`.

    Parameters
    ----------
    folder : Path
        Where to write them.
    templates : Templates
    document : Document

    Returns
    -------
    Press
        Which knows how often pages were laid out.

    Raises
    ------
    PdfError
        If Pango is not installed.
    """
    press = Press(templates.own)
    for one in FORMATS:
        if one.two_up_of:
            _write_two_up(folder, one, templates, document)
        else:
            _write_card(folder / one.file, one, press, templates, document)
    return press


def _write_card(
    path: Path, one: Format, press: Press, templates: Templates, document: Document
) -> None:
    drawn = drawings(templates, document, grey=one.night, alone=True)
    swatches = {name: swatch(templates, name, grey=one.night, alone=True) for name in SWATCHES}
    content = Content(document, templates.language, drawn.keys(), bool(templates.picture))
    _write(path, one, press, templates, content, drawn, swatches)


def _write_two_up(folder: Path, one: Format, templates: Templates, document: Document) -> None:
    school = document.head.school
    two_up(
        folder / one.two_up_of,
        folder / one.file,
        one.papers[school.paper],
        back_shift(school.punch_edge),
        templates.language.say(one.title, name=document.head.registration),
    )


def write_tables_pdf(path: Path, templates: Templates, shared: Shared) -> Press:
    """Write the sheets of the tables that serve every aircraft; see `write_aircraft_pdfs`."""
    press = Press(templates.own)
    content = Content(shared, templates.language, pictured=bool(templates.picture))
    _write(path, SHARED, press, templates, content, {}, {})
    return press


def _write(
    path: Path,
    one: Format,
    press: Press,
    templates: Templates,
    content: Content,
    drawn: Mapping[str, Markup],
    swatches: Mapping[str, Markup],
) -> None:
    def html(page: Page) -> str:
        return templates.render("card.html", page=page, drawings=drawn, swatches=swatches)

    sizes = _sizes(templates)
    pdf = press.printed(html, lambda misses: planned(one, content, sizes, misses))
    save(stamped(finished(pdf, content.name), content.document.cardgen), path)


def _sizes(templates: Templates) -> Sizes:
    """Return the sizes of type that a school's ``tokens.css`` sets."""
    tokens = {name: float(size) for name, size in _TOKEN.findall(templates.render("tokens.css"))}
    return Sizes(**tokens)
