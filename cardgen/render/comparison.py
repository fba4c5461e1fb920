"""The page of a comparison: both sides of each table, with what changed marked. It stands alone."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from cardgen.document.comparison import Compared, Comparison, Moved
from cardgen.document.record import Document, Table
from cardgen.render.templates import Templates
from cardgen.words.comparing import Teller, Told


class Sides(NamedTuple):
    """A table before and after, and the cells of it that moved by identifier."""

    before: Table | None
    after: Table | None
    moved: dict[str, Moved]


def comparison_page(
    templates: Templates,
    comparison: Comparison,
    documents: Mapping[str, tuple[Document | None, Document | None]],
) -> str:
    """Return the page of a comparison.

    Parameters
    ----------
    templates : Templates
    comparison : Comparison
    documents : mapping of str to tuple
        Those of each aircraft before and after, by registration.
    """
    teller = Teller(templates.language, comparison)
    compared = {one.registration: one for one in comparison.aircraft}
    aircraft = [
        (one, list(_sides(one, compared[one.aircraft[0]], *documents[one.aircraft[0]])))
        for one in teller.aircraft()
    ]
    return templates.render(
        "comparison.html", teller=teller, comparison=comparison, aircraft=aircraft
    )


def _sides(
    told: Told, compared: Compared, before: Document | None, after: Document | None
) -> Iterator[Sides]:
    """Yield the tables of an aircraft that changed, in the order of what is told of them."""
    for table in told.tables:
        moved = {one.id: one for one in compared.cells if one.table == table.id}
        old, new = (one.table(table.id) if one else None for one in (before, after))
        yield Sides(old, new, moved)
