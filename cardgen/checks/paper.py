"""The paper behind the figures: revisions, dates, pages."""

import datetime
from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import OF_AIRFRAME, OF_FLEET, Severity, rule
from cardgen.definition.fleet import Fleet
from cardgen.definition.group import Group
from cardgen.definition.model import Manual, Supplement
from cardgen.definition.places import Fault

BENCH_CARD_AGE = datetime.timedelta(days=731)


@rule("page-named", Severity.WARNING, "the page that the figures were read from", "common practice")
def every_group_names_its_page(aircraft: Aircraft) -> Iterator[Fault]:
    """Speeds, markings and tables say on which page they were found."""
    definition = aircraft.definition
    groups: list[Group | None] = [
        *(entry for entries in definition.speeds.values() for entry in entries),
        *definition.calibration,
        definition.stall,
        definition.cruise,
        definition.type.glide,
        definition.type.crosswind,
    ]
    for group in groups:
        if group is not None and getattr(group, "page", None) is None:
            yield Fault(group.place, "no page; expected the page that the figures were read from")


@rule(
    "manual-date", Severity.ERROR, "the revision date of the manual", "common practice", OF_AIRFRAME
)
def the_manual_is_not_from_the_future(aircraft: Aircraft, today: datetime.date) -> Iterator[Fault]:
    """Manual and supplements are dated today or before."""
    for group in _papers(aircraft):
        if group.date is not None and group.date > today:
            yield Fault(group.place_of("date"), f"dated {group.date}, which is in the future")


def _papers(aircraft: Aircraft) -> list[Manual | Supplement]:
    return [aircraft.definition.type.manual, *aircraft.definition.airframe.supplements]


@rule("bench-card-age", Severity.NOTE, "the bench card", "common practice", OF_AIRFRAME)
def the_bench_card_is_recent(aircraft: Aircraft, today: datetime.date) -> Iterator[Fault]:
    """An instrument correction is at most 24 months old, and says how old it is."""
    bench = aircraft.definition.airframe.instrument_correction
    if bench is None:
        return
    if bench.date is None:
        yield Fault(bench.place, "the instrument correction has no date")
    elif bench.date > today:
        yield Fault(bench.place_of("date"), f"dated {bench.date}, which is in the future")
    elif today - bench.date > BENCH_CARD_AGE:
        yield Fault(bench.place_of("date"), f"dated {bench.date}, more than 24 months ago")


@rule("bench-card-size", Severity.WARNING, "the bench card", "common practice", OF_AIRFRAME)
def the_bench_card_is_small(aircraft: Aircraft, today: datetime.date) -> Iterator[Fault]:
    """An instrument correction is at most 10 of the indicator's units."""
    bench = aircraft.definition.airframe.instrument_correction
    for figure in bench.correction if bench else ():
        if abs(figure) > 10:
            yield Fault(figure.place, f"a correction of {figure}; expected 10 at the most")


@rule("sign-off-age", Severity.WARNING, "the manual's revisions", "common practice", OF_AIRFRAME)
def the_sign_off_is_younger_than_the_manual(
    aircraft: Aircraft, today: datetime.date
) -> Iterator[Fault]:
    """A card was signed after its manual and supplements were last revised, and not ahead."""
    signed = aircraft.definition.airframe.sign_off
    if signed is None:
        return
    if signed.date > today:
        yield Fault(signed.place_of("date"), f"dated {signed.date}, which is in the future")
    for paper in _papers(aircraft):
        if paper.date is not None and paper.date > signed.date:
            said = f"signed on {signed.date}; {paper.title} {paper.number} is of {paper.date}"
            yield Fault(signed.place_of("date"), f"{said}, expected a sign-off after it")


@rule("type-unused", Severity.NOTE, "the fleet folder", "common practice", OF_FLEET)
def every_type_is_used(fleet: Fleet) -> Iterator[Fault]:
    """Each type has an airframe."""
    used = {aircraft.airframe.type for aircraft in fleet.aircraft}
    for name, definition in fleet.types.items():
        if name not in used:
            yield Fault(definition.place, f"no airframe is a {name}")


@rule("bench-card-range", Severity.WARNING, "the bench card", "common practice", OF_AIRFRAME)
def the_bench_card_covers_the_limits(aircraft: Aircraft, today: datetime.date) -> Iterator[Fault]:
    """An instrument correction reaches each limit, which else has no indication."""
    bench = aircraft.definition.airframe.instrument_correction
    if bench is None:
        return
    for name in ("VS0", "VS1", "VFE", "VNO", "VNE", "VMO"):
        for entry in aircraft.definition.speeds.get(name, []):
            if entry.ias is not None and np.isnan(aircraft.indicated_from_ias(float(entry.ias))):
                said = f"{name}, IAS {entry.ias}, is outside the bench card"
                yield Fault(bench.place_of("indicated"), said)
