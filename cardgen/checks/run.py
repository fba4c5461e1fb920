"""Running all rules over a fleet."""

import datetime
import itertools
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Protocol

# Importing a subject registers its rules.
from cardgen.airframe.aircraft import Aircraft
from cardgen.checks import (
    balance,
    bench,
    calibration,
    columns,
    conditions,
    cruise,
    curves,
    exchanged,
    grids,
    lines,
    markings,
    missing,
    pairs,
    paper,
    plausible,
    speeds,
    stall,
    steps,
    units,
)
from cardgen.checks.accepting import accepting, doubtful
from cardgen.checks.rule import (
    OF_AIRCRAFT,
    OF_AIRFRAME,
    OF_FLEET,
    OF_TABLES,
    Finding,
    Rule,
    Severity,
    findings,
)
from cardgen.definition.fleet import AircraftDefinition, Fleet, type_alone
from cardgen.definition.identifiers import figures_at
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import Fault, Place
from cardgen.document import record
from cardgen.document.record import Message

SUBJECTS = (
    *(speeds, markings, calibration, stall, cruise, units, paper),
    *(balance, columns, conditions, curves, grids, missing, plausible, bench, exchanged, pairs),
    *(lines, steps),
)


class Says(Protocol):
    """A language, which puts messages into sentences."""

    def say(self, message: Message) -> str:
        """Return a message's sentence."""


def all_rules() -> tuple[Rule, ...]:
    """Return every rule."""
    return (*OF_AIRCRAFT, *OF_TABLES, *OF_AIRFRAME, *OF_FLEET)


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
    of_fleet = [replace(one, about=one.place.file) for one in findings(OF_FLEET, fleet)]
    found: dict[str, list[Finding]] = {}
    for name, definition in fleet.types.items():
        file = definition.place.file
        mine = [*check_type(name, definition), *(one for one in of_fleet if one.about == file)]
        found[file] = [*accepting(definition.accepted, mine)]
    of_types = {_said(one) for of_type in found.values() for one in of_type}
    for aircraft in fleet.aircraft:
        mine = [one for one in check_airframe(aircraft, today) if _said(one) not in of_types]
        accepted = (*aircraft.airframe.accepted, *aircraft.type.accepted)
        found[aircraft.airframe.place.file] = [*accepting(accepted, mine)]
    everything = itertools.chain(*found.values(), _acceptances(fleet, found))
    once = {(*_said(one), one.about): one for one in everything}
    return tuple(once[key] for key in sorted(once))


def _said(one: Finding) -> tuple[Place, str, str]:
    """Return what makes two findings the same to whoever reads them."""
    return one.place, one.rule.name, repr(one.message)


def check_type(name: str, definition: TypeDefinition) -> Iterator[Finding]:
    """Run the rules on what a manual says."""
    alone = type_alone(name, definition)
    found = findings([*OF_AIRCRAFT, *OF_TABLES], Aircraft(alone))
    return _at_figures(found, alone, definition.place.file)


def check_airframe(definition: AircraftDefinition, today: datetime.date) -> Iterator[Finding]:
    """Run the rules on what is said of one airframe, and on what supplements change in it."""
    aircraft = Aircraft(definition)
    found = [*findings(OF_AIRFRAME, aircraft, today)]
    if definition.airframe.supplements:
        found += findings(OF_AIRCRAFT, aircraft)
    supplements = definition.airframe.supplements
    if any(one.calibration or one.altimeter_correction or one.cruise for one in supplements):
        found += findings(OF_TABLES, aircraft)
    return _at_figures(found, definition, definition.airframe.place.file)


def _at_figures(
    found: Iterable[Finding], definition: AircraftDefinition, file: str
) -> Iterator[Finding]:
    """Say of findings what they are about, and which figures stand there."""
    found = list(found)
    at = figures_at(definition) if found else {}
    for one in found:
        yield replace(one, about=file, figures=at.get(one.place, ()))


def _acceptances(fleet: Fleet, found: dict[str, list[Finding]]) -> Iterator[Finding]:
    """Find acceptances that no longer hold, or that do not say what they hold for."""
    known = {one.name for one in all_rules() if one.severity is not Severity.ERROR}
    for name, definition in fleet.types.items():
        files = [one.airframe.place.file for one in fleet.aircraft if one.airframe.type == name]
        mine = [one for file in (definition.place.file, *files) for one in found[file]]
        yield from doubtful(definition.accepted, known, mine, type_alone(name, definition))
    for aircraft in fleet.aircraft:
        mine = found[aircraft.airframe.place.file]
        yield from doubtful(aircraft.airframe.accepted, known, mine, aircraft)


def forbids(one: Finding, strict: bool = False) -> bool:
    """Whether a finding forbids a card: an error, or in strict runs a warning not accepted."""
    warns = one.severity is Severity.WARNING and one.accepted is None
    return one.severity is Severity.ERROR or (strict and warns)


def errors(found: Iterable[Finding], language: Says, strict: bool = False) -> list[Fault]:
    """Return the findings that forbid a card, as faults of the definitions."""
    return [
        Fault(one.place, f"{language.say(one.message)} ({one.rule.name})")
        for one in found
        if forbids(one, strict)
    ]


def of_aircraft(found: Iterable[Finding], definition: AircraftDefinition) -> list[Finding]:
    """Return the findings that are about one aircraft, or its type."""
    files = {definition.airframe.place.file, definition.type.place.file}
    return [one for one in found if (one.about or one.place.file) in files]


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


UNREADABLE = Rule("definition", Severity.ERROR, "look-definition", "cardgen", lambda: iter(()))
