"""The page of a comparison: what changed, and the sheets before and after. It stands alone."""

import hashlib
from base64 import b64encode
from collections.abc import Mapping
from typing import NamedTuple

from markupsafe import Markup

from cardgen.document.comparison import Compared, Comparison
from cardgen.document.record import Document
from cardgen.render.onscreen import OnScreen, Pair
from cardgen.render.templates import Templates
from cardgen.words.comparing import Teller, Told

DRAWN = 10  # changes, each of one aircraft or of several alike, whose sheets are drawn
_LINES = 100  # of a table that are told one by one


class Shown(NamedTuple):
    """What changed of some aircraft alike, the sheets of the first, and if all of it is told."""

    told: Told
    pairs: list[Pair]
    whole: bool


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
    screen = OnScreen(templates)
    aircraft = [
        Shown(told, _pairs(screen, compared[told.aircraft[0]], *documents[told.aircraft[0]]), True)
        if n < DRAWN
        else Shown(told, [], False)
        for n, told in enumerate(teller.aircraft())
    ]
    style = templates.render("comparison.css") + screen.style()
    return templates.render(
        "comparison.html",
        teller=teller,
        aircraft=aircraft,
        drawn=DRAWN,
        more=max(0, len(aircraft) - DRAWN),
        most_lines=_LINES,
        style=Markup(style),
        hash=f"sha256-{b64encode(hashlib.sha256(style.encode()).digest()).decode()}",
    )


def _pairs(
    screen: OnScreen, compared: Compared, before: Document | None, after: Document | None
) -> list[Pair]:
    """Return the sheets of an aircraft on which something changed, where it has both."""
    if before is None or after is None:
        return []
    marked = frozenset(one.id.removesuffix("/beside") for one in compared.cells)
    return list(screen.pairs(before, after, marked))
