"""The paper behind the figures: revisions, dates, pages."""

import datetime
from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_AIRFRAME,
    OF_FLEET,
    Severity,
    Told,
    entered,
    rule,
    tell,
)
from cardgen.definition.fleet import Fleet
from cardgen.definition.group import Group
from cardgen.definition.model import Manual, Supplement
from cardgen.definition.places import Place
from cardgen.units import convert

BENCH_CARD_AGE = datetime.timedelta(days=731)


@rule("page-named", Severity.WARNING, "look-page", COMMON_PRACTICE)
def every_group_names_its_page(aircraft: Aircraft) -> Iterator[Told]:
    """Speeds, markings and tables say on which page they were found."""
    definition = aircraft.definition
    said = [
        *definition.speeds.values(),
        *definition.other_speeds.values(),
        definition.markings,
        definition.calibration,
        definition.altimeter_correction,
        definition.stall,
        *definition.cruise,
        *definition.type.glide,
        *definition.type.polar,
        definition.type.crosswind,
        definition.type.maximum_operating_altitude,
    ]
    for group in _with_a_page(said):
        if getattr(group, "page", None) is None:
            yield tell(group.place, "finding-page-named")


def _with_a_page(said: object) -> Iterator[Group]:
    """Yield the groups that have a page of their own, however deep in a statement."""
    if isinstance(said, list):
        for one in said:
            yield from _with_a_page(one)
    elif isinstance(said, Group) and "page" in type(said).model_fields:
        yield said
    elif isinstance(said, Group):
        yield from _with_a_page([getattr(said, name) for name in type(said).model_fields])


@rule("manual-date", Severity.NOTE, "look-manual-date", COMMON_PRACTICE, OF_AIRFRAME)
def the_manual_is_not_from_the_future(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """Manual and supplements are dated today or before, or were issued ahead of their day."""
    for group in _papers(aircraft):
        if group.date is not None and group.date > today:
            yield _in_future(group.place_of("date"), group.date)


def _in_future(place: Place, date: datetime.date) -> Told:
    return tell(place, "finding-date-in-future", date=str(date))


def _papers(aircraft: Aircraft) -> list[Manual | Supplement]:
    return [aircraft.definition.type.manual, *aircraft.definition.airframe.supplements]


@rule("bench-card-age", Severity.NOTE, "look-bench-card", COMMON_PRACTICE, OF_AIRFRAME)
def the_bench_card_is_recent(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """An instrument correction is at most 24 months old, and says how old it is."""
    bench = aircraft.definition.airframe.instrument_correction
    if bench is None:
        return
    if bench.date is None:
        yield tell(bench.place, "finding-bench-card-age-no-date")
    elif bench.date > today:
        yield _in_future(bench.place_of("date"), bench.date)
    elif today - bench.date > BENCH_CARD_AGE:
        yield tell(bench.place_of("date"), "finding-bench-card-age", date=str(bench.date))


@rule("bench-card-size", Severity.WARNING, "look-bench-card", COMMON_PRACTICE, OF_AIRFRAME)
def the_bench_card_is_small(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """An instrument correction is at most 10 kt, in the indicator's unit."""
    bench = aircraft.definition.airframe.instrument_correction
    for figure in bench.differences if bench else ():
        if abs(figure) > convert(10.0, "kt", aircraft.indicator_unit):
            yield tell(figure.place, "finding-bench-card-size", correction=entered(figure))


@rule("sign-off-age", Severity.WARNING, "look-revisions", COMMON_PRACTICE, OF_AIRFRAME)
def the_sign_off_is_younger_than_the_manual(
    aircraft: Aircraft, today: datetime.date
) -> Iterator[Told]:
    """A card was signed after its manual and supplements were last revised, and not ahead."""
    for signed in aircraft.definition.airframe.sign_off:
        if signed.date > today:
            yield _in_future(signed.place_of("date"), signed.date)
        for paper in _papers(aircraft):
            if paper.date is not None and paper.date > signed.date:
                yield tell(
                    signed.place_of("date"),
                    "finding-sign-off-age",
                    signed=str(signed.date),
                    title=paper.title,
                    number=paper.number or "",
                    date=str(paper.date),
                )


@rule("type-unused", Severity.NOTE, "look-fleet-folder", COMMON_PRACTICE, OF_FLEET)
def every_type_is_used(fleet: Fleet) -> Iterator[Told]:
    """Each type has an airframe."""
    used = {aircraft.airframe.type for aircraft in fleet.aircraft}
    for name, definition in fleet.types.items():
        if name not in used:
            yield tell(definition.place, "finding-type-unused", type=name)


@rule("bench-card-range", Severity.NOTE, "look-bench-card", COMMON_PRACTICE, OF_AIRFRAME)
def the_bench_card_covers_the_limits(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """An instrument correction reaches each limit, which else has no indication."""
    bench = aircraft.definition.airframe.instrument_correction
    if bench is None:
        return
    for name in ("VS0", "VS1", "VFE", "VNO", "VNE", "VMO"):
        for entry in aircraft.definition.speeds.get(name, []):
            if entry.ias is not None and np.isnan(aircraft.indicated_from_ias(float(entry.ias))):
                yield tell(
                    bench.place_of(bench.form[0]),
                    "finding-bench-card-range",
                    speed=name,
                    ias=entered(entry.ias),
                )
