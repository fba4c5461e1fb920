"""All that `check` finds: what the rules say, and signatures that no longer hold."""

import datetime
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.head import given_of, head_of
from cardgen.checks import run
from cardgen.checks.rule import Finding, Rule, Severity, tell
from cardgen.definition.fleet import AircraftDefinition, Fleet
from cardgen.review.marks import mark_of_figures

_SIGNATURE = Rule("signature", Severity.WARNING, "look-signature", "cardgen", lambda: iter(()))


def check(fleet: Fleet, today: datetime.date) -> tuple[Finding, ...]:
    """Run every rule on a fleet, and hold its signatures against the figures; see `run.check`."""
    return (*run.check(fleet, today), *_fallen_signatures(fleet))


def _fallen_signatures(fleet: Fleet) -> Iterator[Finding]:
    for definition in fleet.aircraft:
        signed = definition.airframe.sign_off
        if signed is not None and signed.figures != (mark := _mark(definition, fleet)):
            place = signed.place_of("figures")
            told = tell(place, "finding-signature", signed=signed.figures, mark=mark)
            yield Finding(_SIGNATURE, *told)


def _mark(definition: AircraftDefinition, fleet: Fleet) -> str:
    """Return the mark of what was copied for an aircraft, without making its document."""
    aircraft = Aircraft(definition)
    return mark_of_figures(head_of(aircraft, fleet.school).papers, tuple(given_of(aircraft)))
