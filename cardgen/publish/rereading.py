"""The figures to read again when a manual or a supplement is revised."""

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from cardgen.definition.fleet import AircraftDefinition, Fleet, type_alone
from cardgen.definition.identifiers import Copied, copied, short
from cardgen.definition.places import Place
from cardgen.definition.shown import escaped
from cardgen.words.language import Language
from cardgen.words.numbers import symbol

Number = tuple[tuple[str, ...], tuple[int, ...]]  # of a page: what stands between its digits, those


class Pages(NamedTuple):
    """Pages from one to another, which may be the same, as they were written."""

    text: str
    first: Number
    last: Number

    def meet(self, other: "Pages") -> bool:
        """Whether a page is among these and among others: 2-3 is never among S2-1 to S2-9."""
        return (
            self.first[0] == other.first[0]
            and self.first[1] <= other.last[1]
            and other.first[1] <= self.last[1]
        )


def pages_of(text: str) -> list[Pages]:
    """Read pages as people write them.

    Raises
    ------
    ValueError
        If there is no page, or a range has no order.

    Examples
    --------
    >>> [one.text for one in pages_of("2-3, 5-12 to 5-14")]
    ['2-3', '5-12 to 5-14']
    >>> pages_of("2-3 to S12-4")
    Traceback (most recent call last):
    ValueError: 2-3 to S12-4
    """
    return [_pages(" ".join(part.split())) for part in text.split(",")]


def _pages(text: str) -> Pages:
    first, _, last = text.partition(" to ")
    pages = Pages(text, _number(first), _number(last or first))
    if not text or pages.first[0] != pages.last[0] or pages.first > pages.last:
        raise ValueError(text)
    return pages


def _number(page: str) -> Number:
    parts = re.split(r"([0-9]+)", page.casefold().strip())
    return tuple(parts[::2]), tuple(map(int, parts[1::2]))


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
            document, page = one.group.document, getattr(one.group, "page", None) or ""
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


def _revised(page: str, revised: Sequence[Pages]) -> bool:
    return not page or any(one.meet(other) for one in _labelled(page) for other in revised)


def _labelled(page: str) -> list[Pages]:
    """Read the pages that a definition names, which may be any words."""
    try:
        return pages_of(page)
    except ValueError:
        return [Pages(page, _number(page), _number(page))]


def _order(one: Copy) -> tuple[object, ...]:
    return one.document, not one.page, _number(one.page), one.aircraft, one.figure.figure.place


def as_text(
    found: Iterable[Copy], revised: Sequence[Pages], folder: Path, language: Language
) -> str:
    """Return figures to read again for a terminal: by page, and by the aircraft that share them."""
    lines, seen = [], []
    for (document, page), on_page in groupby(found, key=lambda one: (one.document, one.page)):
        seen += _labelled(page)
        name = document or language.say("report-bench-card")
        heading = "report-page" if page else "report-no-page"
        values = {"page": page} if page else {}
        lines.append(language.say(heading, document=name, **values))
        for aircraft, figures in groupby(on_page, key=lambda one: one.aircraft):
            lines.append(f"  {', '.join(aircraft)}" if aircraft else "")
            lines += (f"    {_figure(one.figure, folder)}" for one in figures)
    for one in revised:
        if not any(one.meet(other) for other in seen):
            lines.append(language.say("report-no-figure", page=one.text))
    return escaped("\n".join(filter(None, lines)))


def _figure(one: Copied, folder: Path) -> str:
    value = " ".join(filter(None, (one.figure.text, symbol(one.unit))))
    return f"{folder / str(one.figure.place)}: {short(one.id)} {value}"
