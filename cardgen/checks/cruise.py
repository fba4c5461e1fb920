"""The cruise table against itself and against the green arc."""

import itertools
import math
from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.figures import chosen_to, in_cas, last_place
from cardgen.checks.likely import step_of
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_TABLES,
    Severity,
    Told,
    about,
    digits,
    entered,
    rule,
    tell,
)
from cardgen.definition.cruise import (
    POWER,
    Cruise,
    Row,
    air_column,
    axes,
    cell_at,
    held_temperature,
    set_at,
    temperature,
)
from cardgen.definition.places import Figure
from cardgen.units import convert

_PAGE = "look-cruise"
_RESULTS = ("power", "tas", "fuel flow")


def _lines(cruise: Cruise, along: str) -> Iterator[list[Row]]:
    """Return rows that differ in one axis only, in its order."""
    others = [name for name in axes(cruise) if name != along]
    groups: dict[tuple[Figure, ...], list[Row]] = {}
    for row in cruise.rows:
        groups.setdefault(tuple(set_at(cruise, row, name) for name in others), []).append(row)
    for rows in groups.values():
        yield sorted(rows, key=lambda row: set_at(cruise, row, along))


@rule("cruise-row-twice", Severity.ERROR, _PAGE, COMMON_PRACTICE, OF_TABLES)
def no_row_stands_twice(aircraft: Aircraft) -> Iterator[Told]:
    """No two rows are for the same altitude, temperature and setting."""
    for cruise in aircraft.definition.cruise:
        seen: set[tuple[Figure, ...]] = set()
        entered_by = axes(cruise)
        for row in cruise.rows:
            key = tuple(set_at(cruise, row, name) for name in entered_by)
            if key in seen:
                first = next(one for one in row if one is not None)
                yield tell(first.place, "finding-cruise-row-twice")
            seen.add(key)


@rule("cruise-power", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def more_power_gives_more(aircraft: Aircraft) -> Iterator[Told]:
    """Along a power setting, TAS, fuel flow and power do not fall.

    TAS rises where a tenth of the setting's rise, or a third of that of RPM, is a step of it.
    """
    for cruise in aircraft.definition.cruise:
        settings = [name for name in axes(cruise) if name in (*POWER, "power")]
        results = [name for name in _RESULTS if name in cruise.columns and name not in settings]
        for setting, name in itertools.product(settings, results):
            for rows in _lines(cruise, setting):
                given = [
                    (set_at(cruise, row, setting), one)
                    for row in rows
                    if (one := cell_at(cruise, row, name)) is not None
                ]
                part = (0.3 if setting == "rpm" else 0.1) if name == "tas" else 0.0
                step = step_of([one for _, one in given]) if given else 1.0
                for (less, low), (more, high) in itertools.pairwise(given):
                    rise = part * (more / less - 1) * low if less > 0 else 0.0
                    if high < low or (high == low and rise >= step > 0):
                        yield tell(
                            high.place,
                            "finding-cruise-power",
                            column=name,
                            here=entered(high),
                            less=entered(low),
                            setting=setting,
                        )


@rule("cruise-smooth", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def cells_lie_between_their_neighbours(aircraft: Aircraft) -> Iterator[Told]:
    """Along altitude and temperature a result lies between its neighbours, or near their line.

    Where power is limited, as by full throttle, results bend, but do not leave their neighbours.
    """
    for cruise in aircraft.definition.cruise:
        results = [name for name in _RESULTS if name in cruise.columns]
        for along in ("altitude", temperature(cruise)):
            for rows in _lines(cruise, along) if along else ():
                for three in zip(rows, rows[1:], rows[2:], strict=False):
                    a, b, c = (set_at(cruise, row, along or "") for row in three)
                    if not a < b < c:
                        continue  # the same row twice, which is an error of its own
                    for name in results:
                        cells = [cell_at(cruise, row, name) for row in three]
                        yield from _stands_off(name, (b - a) / (c - a), *cells)


def _stands_off(
    name: str, share: float, a: Figure | None, b: Figure | None, c: Figure | None
) -> Iterator[Told]:
    if a is None or b is None or c is None:
        return
    expected = a + share * (c - a)
    slack = max(0.04 * expected, 2.0 if name != "fuel flow" else 0.3)
    if not min(a, c) - slack <= b <= max(a, c) + slack:
        yield tell(
            b.place,
            "finding-cruise-smooth",
            column=name,
            here=entered(b),
            expected=digits(expected, 3),
        )


@rule("cruise-in-green", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def cruise_is_flown_within_the_limits(aircraft: Aircraft) -> Iterator[Told]:
    """TAS in cruise, as CAS in that air, lies above the stall and not above VNE or VMO.

    Above VNO it may be flown in smooth air.
    """
    low, high = _least(aircraft), _most(aircraft)
    for cruise in aircraft.definition.cruise:
        known = [
            (tas, float(set_at(cruise, row, "altitude")), oat)
            for row, oat in zip(cruise.rows, oats(aircraft, cruise), strict=True)
            if (tas := cell_at(cruise, row, "tas")) is not None and oat is not None
        ]
        speeds, altitudes, airs = np.array(known, dtype=float).reshape(-1, 3).T
        own = convert(speeds, cruise.tas_unit or aircraft.units.speed, aircraft.units.speed)
        found = np.asarray(aircraft.cas_from_tas(own, altitudes, airs))
        for (tas, _, _), one in zip(known, found, strict=True):
            if not low <= one <= high + last_place(tas):
                yield tell(
                    tas.place,
                    "finding-cruise-in-green",
                    tas=entered(tas),
                    cas=about(one),
                    low=about(low),
                    high=about(high),
                )


def _least(aircraft: Aircraft) -> float:
    """Return the least stall in CAS that is known with flaps up, at any weight."""
    clean = [one.calibrated for one in aircraft.stall_speeds if one.flaps == aircraft.flaps[0]]
    return min((one for one in clean if not math.isnan(one)), default=0.0)


def _most(aircraft: Aircraft) -> float:
    """Return the highest of VNE or VMO in CAS, at any altitude, before it was rounded down."""
    known = [
        one.value + one.slack + chosen_to(aircraft, name, entry)
        for name in ("VNE", "VMO")
        for entry in aircraft.definition.speeds.get(name, [])
        if (one := in_cas(aircraft, name, entry)) is not None
    ]
    return max(known, default=math.inf)


def oats(aircraft: Aircraft, cruise: Cruise) -> list[float | None]:
    """Return the outside air temperature that each row holds for, where the manual says."""
    air, held = air_column(cruise), held_temperature(cruise)
    name, figure = (air, None) if air else held or ("", None)
    said = [set_at(cruise, row, air) if air else figure for row in cruise.rows]
    if name != "isa":
        return [*said]
    altitudes = [float(set_at(cruise, row, "altitude")) for row in cruise.rows]
    standard = np.asarray(aircraft.standard_temperature(np.array(altitudes)))
    return [float(one) + (more or 0.0) for one, more in zip(standard, said, strict=True)]


@rule("fuel-unit", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def fuel_flow_fits_the_speed(aircraft: Aircraft) -> Iterator[Told]:
    """A unit of fuel carries the aircraft a distance that aircraft fly on it."""
    unit = aircraft.units.fuel_flow or ""
    sparing = 2.0 if aircraft.kind == "glider" else 1.0  # with an engine
    for cruise in aircraft.definition.cruise:
        if "fuel flow" not in cruise.columns:
            continue
        low, high = {
            "gal/h": (1.5, 40.0),
            "L/h": (0.4, 10.0),
            "lb/h": (0.2, 7.0),
            "kg/h": (0.5, 15.0),
        }[unit]
        for row in cruise.rows:
            tas, flow = cell_at(cruise, row, "tas"), cell_at(cruise, row, "fuel flow")
            if tas is None or flow is None:
                continue
            knots = float(convert(float(tas), cruise.tas_unit or aircraft.units.speed, "kt"))
            if flow <= 0 or not low <= knots / flow <= high * sparing:
                yield tell(
                    flow.place,
                    "finding-fuel-unit",
                    flow=entered(flow, unit),
                    tas=entered(tas),
                )
                return  # one row tells of all


@rule("cruise-by-fuel", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def more_fuel_flies_faster(aircraft: Aircraft) -> Iterator[Told]:
    """In one air, a row of more fuel is no slower, nor faster than by 1.6 times as large a part.

    Power goes with the cube of speed where drag is of the air, and with less where it is of lift;
    2 % is left to how the engine is set.
    """
    for cruise in aircraft.definition.cruise:
        air, rows = air_column(cruise), cruise.rows
        by_air: dict[object, list[tuple[Figure, Figure]]] = {}
        for row in rows:
            flow, tas = (cell_at(cruise, row, n) if n in cruise.columns else None for n in _FLOWN)
            if flow is not None and tas is not None and min(flow, tas) > 0:
                here = set_at(cruise, row, "altitude"), set_at(cruise, row, air) if air else 0
                by_air.setdefault(here, []).append((flow, tas))
        for cells in by_air.values():
            for (less, slow), (more, fast) in itertools.combinations(sorted(cells), 2):
                rounding = last_place(less) / less + last_place(slow) / slow
                ratio = more / less
                faster = ratio > 1.03 and fast / slow > 1.03 * ratio**1.6 + rounding
                if faster or fast / slow < 0.98 - rounding:
                    yield tell(
                        fast.place,
                        "finding-cruise-by-fuel",
                        fast=entered(fast),
                        more=entered(more),
                        slow=entered(slow),
                        less=entered(less),
                    )


_FLOWN = ("fuel flow", "tas")
