"""What a card says of itself before any figure, and every figure that was copied for it."""

from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.cells import as_entered, as_given, paper_of
from cardgen.definition.identifiers import Copied, Worded, copied, worded
from cardgen.definition.model import School
from cardgen.document import record
from cardgen.document.record import Asked, Change, Given, Head, Pair, Paper, Signature, Units


def publisher(school: School) -> record.School:
    """Return who publishes, and on what paper."""
    return record.School(
        school.name,
        school.web_address or "",
        school.notice or "",
        school.paper,
        school.punch_edge,
    )


def head_of(aircraft: Aircraft, school: School) -> Head:
    """Return what a card says of itself before any figure."""
    airframe, units = aircraft.definition.airframe, aircraft.units
    return Head(
        aircraft.registration,
        aircraft.definition.type.name,
        aircraft.kind,
        airframe.serial or "",
        aircraft.indicator_unit,
        Units(
            units.speed,
            units.altitude,
            units.temperature,
            units.weight,
            units.fuel_flow or "",
            units.sink or "",
        ),
        publisher(school),
        tuple(_papers(aircraft)),
        tuple(_changes(aircraft)),
        tuple(airframe.remarks),
        tuple(
            Signature(one.by, f"{one.date}", one.figures, one.card or "", one.role or "")
            for one in airframe.sign_off
        ),
        asked_by(school),
        pairs=tuple(
            one for one in pairs_of(school) if aircraft.registration in (one.first, one.second)
        ),
    )


def pairs_of(school: School) -> tuple[Pair, ...]:
    """Return the pairs that a school names."""
    return tuple(Pair(one.from_, one.to) for one in school.pairs)


def asked_by(school: School) -> Asked:
    """Return what a school asks of signatures; for each of its roles a person at the least."""
    signing = school.signing
    if signing is None:
        return Asked()
    names = max(int(signing.names or 1), len(signing.roles))
    return Asked(names, tuple(signing.roles), int(signing.months or 0))


def _papers(aircraft: Aircraft) -> Iterator[Paper]:
    manual, airframe = aircraft.definition.type.manual, aircraft.definition.airframe
    date = f"{manual.date}" if manual.date else ""
    yield Paper("manual", manual.title, manual.number or "", manual.revision or "", date)
    for number, one in enumerate(airframe.supplements, start=1):
        date = f"{one.date}" if one.date else ""
        yield Paper(f"supplement-{number}", one.title, one.number, one.revision or "", date)
    cards = {
        "bench-card": airframe.instrument_correction,
        "altimeter-card": airframe.altimeter_correction,
    }
    for name, card in cards.items():
        if card is not None:
            yield Paper(name, card.page or "", date=f"{card.date}" if card.date else "")


def _changes(aircraft: Aircraft) -> Iterator[Change]:
    for change in aircraft.definition.changes:
        before = tuple(as_given(aircraft, entry) for entry in change.before)
        yield Change(paper_of(aircraft, change.supplement), change.speed, before)


def given_of(aircraft: Aircraft) -> Iterator[Given]:
    """Yield what was copied for an aircraft: words that figures hold for, then every figure."""
    definition = aircraft.definition.type
    units = definition.units
    facts = {
        "type": definition.name,
        "kind": definition.kind,
        "flaps": ", ".join(definition.flaps),
        "units": ", ".join(filter(None, (units.speed, units.altitude, units.temperature,
                                         units.weight, units.fuel_flow, units.distance,
                                         units.sink))),
        "indicator": aircraft.indicator_unit,
    }  # fmt: skip
    for name, words in facts.items():
        yield Given(f"given/{name}", words, "manual" if name != "indicator" else "")
    given: list[Worded | Copied] = [*worded(aircraft.definition), *copied(aircraft.definition)]
    for one in given:
        page: str | None = getattr(one.group, "page", None)
        value = one.words if isinstance(one, Worded) else as_entered(one.figure, one.unit)
        yield Given(one.id, value, paper_of(aircraft, one.group), page or "")
