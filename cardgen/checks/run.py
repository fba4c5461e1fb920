"""Running all rules over a fleet."""

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Protocol

# Importing a subject registers its rules.
from cardgen.airframe.aircraft import Aircraft
from cardgen.checks import calibration, cruise, markings, paper, speeds, stall, units
from cardgen.checks.rule import (
    OF_AIRCRAFT,
    OF_AIRFRAME,
    OF_FLEET,
    Finding,
    Rule,
    Severity,
    findings,
    tell,
)
from cardgen.definition.fleet import AircraftDefinition, Fleet, merged
from cardgen.definition.model import AirframeDefinition, TypeDefinition
from cardgen.definition.places import Fault
from cardgen.document import record
from cardgen.document.record import Message

SUBJECTS = (speeds, markings, calibration, stall, cruise, units, paper)


class Says(Protocol):
    """A language, which puts messages into sentences."""

    def say(self, message: Message) -> str:
        """Return a message's sentence."""


def all_rules() -> tuple[Rule, ...]:
    """Return every rule."""
    return (*OF_AIRCRAFT, *OF_AIRFRAME, *OF_FLEET)


def check(fleet: Fleet, today: datetime.date) -> tuple[Finding, ...]:
    """Run every rule on a fleet.

    Parameters
    ----------
    fleet : Fleet
    today : date
        The day that manuals and bench cards are held against.

    Returns
    -------
    tuple of Finding
        In order of place; what a type says is found once, not once for each
        airframe.
    """
    found: list[Finding] = [*findings(OF_FLEET, fleet)]
    for name, definition in fleet.types.items():
        found += _accepting(definition.accepted, check_type(name, definition))
    for aircraft in fleet.aircraft:
        found += check_airframe(aircraft, today)
    found += _unknown_acceptances(fleet)
    once = {(one.place, one.rule.name, repr(one.message)): one for one in found}
    return tuple(once[key] for key in sorted(once))


def check_type(name: str, definition: TypeDefinition) -> Iterator[Finding]:
    """Run the rules on what a manual says."""
    bare = AirframeDefinition.model_construct(
        registration="", type=name, supplements=[], remarks=[], accepted={}
    )
    return findings(OF_AIRCRAFT, Aircraft(merged(definition, bare)))


def check_airframe(definition: AircraftDefinition, today: datetime.date) -> Iterable[Finding]:
    """Run the rules on what is said of one airframe; on all, where supplements change it."""
    aircraft = Aircraft(definition)
    found = [*findings(OF_AIRFRAME, aircraft, today)]
    if definition.airframe.supplements:
        found += findings(OF_AIRCRAFT, aircraft)
    accepted = {**definition.type.accepted, **definition.airframe.accepted}
    return _accepting(accepted, found)


def errors(found: Iterable[Finding], language: Says) -> list[Fault]:
    """Return the findings that forbid a card, as faults of the definitions."""
    return [
        Fault(one.place, f"{language.say(one.message)} ({one.rule.name})")
        for one in found
        if one.severity is Severity.ERROR
    ]


def of_aircraft(found: Iterable[Finding], definition: AircraftDefinition) -> list[Finding]:
    """Return the findings that stand in the files of one aircraft."""
    files = {definition.airframe.place.file, definition.type.place.file}
    return [one for one in found if one.place.file in files]


def findings_of(
    found: Iterable[Finding], definition: AircraftDefinition
) -> tuple[record.Finding, ...]:
    """Return what the checks warn of in the files of one aircraft, as its document says it.

    An error forbids a document, and a note is for the report only.
    """
    return tuple(
        record.Finding(one.rule.name, one.severity.value, one.message, one.accepted or "")
        for one in of_aircraft(found, definition)
        if one.severity is Severity.WARNING
    )


def of_faults(faults: Iterable[Fault]) -> list[Finding]:
    """Return faults of the definitions as findings, so that one report has both."""
    return [
        Finding(UNREADABLE, fault.place, Message("finding-definition", {"said": fault.message}))
        for fault in faults
    ]


def _accepting(accepted: dict[str, str], found: Iterable[Finding]) -> Iterator[Finding]:
    """Mark what the definition accepts; an error cannot be accepted."""
    for one in found:
        reason = accepted.get(one.rule.name)
        takes = reason is not None and one.severity is not Severity.ERROR
        yield replace(one, accepted=reason) if takes else one


def _unknown_acceptances(fleet: Fleet) -> Iterator[Finding]:
    """Find acceptances of rules that there are not, or that cannot be accepted."""
    known = {one.name for one in all_rules() if one.severity is not Severity.ERROR}
    groups: list[TypeDefinition | AirframeDefinition] = [*fleet.types.values()]
    groups += [one.airframe for one in fleet.aircraft]
    for group in groups:
        for name in group.accepted:
            if name not in known:
                yield Finding(
                    _ACCEPTANCE,
                    *tell(group.place_of("accepted"), "finding-acceptance", rule=name),
                )


_ACCEPTANCE = Rule("acceptance", Severity.ERROR, "look-acceptance", "cardgen", lambda: iter(()))
UNREADABLE = Rule("definition", Severity.ERROR, "look-definition", "cardgen", lambda: iter(()))
