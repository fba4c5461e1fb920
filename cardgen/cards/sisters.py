"""Documents of a fleet, in which what sister airframes share is made once."""

from collections.abc import Hashable
from dataclasses import replace

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.cards.head import head_of
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.model import School
from cardgen.document.record import Document, Finding

MOST = 24  # documents that are kept for their sisters


class Sisters:
    """Makes documents, one after the other.

    An airframe that only says what it is has the tables of its sisters, and
    not only such as say the same: whoever shows them can tell.

    Parameters
    ----------
    school : School
        Who publishes them.
    """

    def __init__(self, school: School) -> None:
        self._school = school
        self._made: dict[Hashable, Document] = {}

    def document(
        self, definition: AircraftDefinition, findings: tuple[Finding, ...] = ()
    ) -> Document:
        """Return the document of an aircraft; see `make_document`."""
        aircraft = Aircraft(definition)
        if _has_figures(definition):
            return make_document(aircraft, self._school, findings)
        shared = definition.airframe.type, aircraft.indicator_unit
        made = self._made.pop(shared, None)
        if made is None:
            made = make_document(aircraft, self._school, findings)
            self._made = dict(list(self._made.items())[1 - MOST :])
        self._made[shared] = made  # the last that was asked for
        return replace(made, head=head_of(aircraft, self._school), findings=findings)


def _has_figures(definition: AircraftDefinition) -> bool:
    """Whether figures were copied for this airframe alone."""
    airframe = definition.airframe
    cards = (airframe.instrument_correction, airframe.altimeter_correction)
    return bool(airframe.supplements) or any(card is not None for card in cards)
