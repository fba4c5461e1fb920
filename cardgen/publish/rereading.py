"""The figures to read again when a manual or a supplement is revised."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from cardgen.definition.fleet import AircraftDefinition, Fleet, type_alone
from cardgen.definition.identifiers import Copied, copied, short
from cardgen.definition.places import Place
from cardgen.definition.shown import escaped
from cardgen.publish.pages import Pages, order, pages_in
from cardgen.words.language import Language
from cardgen.words.numbers import symbol


class Copy(NamedTuple):
    """A figure to read again: the document and page that it stands on, and whose it is."""

    document: str
    page: str
    aircraft: tuple[str, ...]
    figure: Copied


def numbers_of(fleet: Fleet) -> list[str]:
    """Return the numbers of all manuals and supplements."""
    return list(dict.fromkeys(number for one in fleet.aircraft for number in _papers(one).values()))


def _papers(definition: AircraftDefinition) -> dict[str, str]:
    """Return the numbers of an aircraft's manual and supplements by what groups call them."""
    manual = definition.type.manual
    papers = {one.document: one.number for one in definition.airframe.supplements}
    return {manual.document: manual.number or manual.title, **papers}


def labels_of(fleet: Fleet) -> set[str]:
    """Return what definitions have for pages, as it is written there."""
    return {_page(one) for subject in _subjects(fleet) for one in copied(subject)} - {""}


def to_reread(fleet: Fleet, revised: Sequence[Pages], number: str | None = None) -> list[Copy]:
    """Return the figures that were copied from pages, and those that name no page.

    Parameters
    ----------
    fleet : Fleet
    revised : sequence of Pages
    number : str, optional
        The number of the manual or supplement that they are pages of; of all where left out.

    Returns
    -------
    list of Copy
        In order of document, page, aircraft and file; a figure that several aircraft
        share stands there once.
    """
    copies: dict[tuple[Place, str], Copy] = {}
    for subject in _subjects(fleet):
        papers = _papers(subject)
        for one in copied(subject):
            document, page = one.group.document, _page(one)
            if _revised(page, revised) and number in (None, papers.get(document)):
                key = one.figure.place, one.id
                sharing = copies[key].aircraft if key in copies else ()
                names = (*sharing, subject.registration) if subject.registration else sharing
                copies[key] = Copy(document, page, names, one)
    return sorted(copies.values(), key=_order)


def _subjects(fleet: Fleet) -> Iterator[AircraftDefinition]:
    """Yield the types, of which a supplement may hide a figure, and the aircraft."""
    for name, definition in fleet.types.items():
        yield type_alone(name, definition)
    yield from fleet.aircraft


def _page(one: Copied) -> str:
    return getattr(one.group, "page", None) or ""


def _revised(page: str, revised: Sequence[Pages]) -> bool:
    return not page or any(one.meet(other) for one in pages_in(page) for other in revised)


def _order(one: Copy) -> tuple[object, ...]:
    return one.document, not one.page, order(one.page), one.aircraft, one.figure.figure.place


def as_text(
    found: Iterable[Copy], revised: Sequence[Pages], folder: Path, language: Language
) -> str:
    """Return figures to read again for a terminal: by page, and by the aircraft that share them."""
    lines, seen = [], []
    for (document, page), on_page in groupby(found, key=lambda one: (one.document, one.page)):
        seen += pages_in(page)
        name = document or language.say("report-bench-card")
        heading = "report-page" if page else "report-no-page"
        values = {"page": page} if page else {}
        lines.append(language.say(heading, document=name, **values))
        for aircraft, figures in groupby(on_page, key=lambda one: one.aircraft):
            lines.append(f"  {', '.join(aircraft)}" if aircraft else "")
            lines += (f"    {_figure(one.figure, folder)}" for one in figures)
    met = {one.text for one in revised if any(one.meet(other) for other in seen)}
    for page in dict.fromkeys(one.text for one in revised if one.text not in met):
        lines.append(language.say("report-no-figure", page=page))
    return escaped("\n".join(filter(None, lines)))


def _figure(one: Copied, folder: Path) -> str:
    value = " ".join(filter(None, (one.figure.text, symbol(one.unit))))
    return f"{folder / str(one.figure.place)}: {short(one.id)} {value}"
