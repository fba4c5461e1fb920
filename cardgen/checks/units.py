"""Figures that look as if they were copied in another unit."""

import math
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, entered, rule, tell
from cardgen.definition.cruise import air_column, set_at
from cardgen.definition.places import Figure
from cardgen.document.record import Unit
from cardgen.units import convert

_PAGE = "look-units"
_RATIOS = {("kt", "mph"): 1.1508, ("km/h", "mph"): 1.6093, ("km/h", "kt"): 1.852}


@rule("speed-unit", Severity.WARNING, _PAGE, "1 kt = 1.1508 mph = 1.852 km/h, NIST SP 811")
def speeds_are_all_in_one_unit(aircraft: Aircraft) -> Iterator[Told]:
    """IAS and CAS of a speed are not in the ratio of two units."""
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            if entry.ias is None or entry.cas is None:
                continue
            flaps, gear = aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry)
            expected = float(aircraft.cas_from_ias(float(entry.ias), flaps, gear=gear))
            wrong = max(entry.cas / expected, expected / entry.cas)
            for (one, other), ratio in _RATIOS.items():
                if abs(wrong / ratio - 1) < 0.012:
                    yield tell(
                        entry.cas.place,
                        "finding-speed-unit",
                        speed=name,
                        ias=entered(entry.ias),
                        cas=entered(entry.cas),
                        one=Unit(one),
                        other=Unit(other),
                    )


@rule("altitude-unit", Severity.NOTE, _PAGE, "1 ft = 0.3048 m, NIST SP 811")
def cruise_altitudes_fit_their_unit(aircraft: Aircraft) -> Iterator[Told]:
    """Cruise altitudes reach above 4,000 ft, if there are several, and stay below 16,000 m."""
    altitudes = {
        set_at(one, row, "altitude") for one in aircraft.definition.cruise for row in one.rows
    }
    highest = max(altitudes, default=None)
    if highest is None:
        return
    if aircraft.units.altitude == "ft" and highest < 4_000 and len(altitudes) > 1:
        yield tell(highest.place, "finding-altitude-unit-low", highest=entered(highest, "ft"))
    if aircraft.units.altitude == "m" and highest > 16_000:
        yield tell(highest.place, "finding-altitude-unit-high", highest=entered(highest, "m"))


_POUNDS = {  # maximum weights by kind, lb: common practice
    "single-engine": (500, 9_000),
    "multi-engine": (2_500, 19_000),
    "glider": (400, 2_000),
    "turbine": (2_000, 60_000),
}


@rule("weight-unit", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def the_weight_fits_its_unit(aircraft: Aircraft) -> Iterator[Told]:
    """The maximum weight is one that the kind of aircraft has, in its unit."""
    low, high = _POUNDS.get(aircraft.kind, (0, math.inf))
    pounds = 1.0 if aircraft.units.weight == "lb" else 2.20462
    maximum = aircraft.definition.type.weights.maximum
    if not low <= maximum * pounds <= high:
        yield tell(
            maximum.place,
            "finding-weight-unit",
            weight=entered(maximum, aircraft.units.weight),
            kind=aircraft.kind,
        )


@rule("pilot-weight", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def a_pilot_weighs_as_much_as_people_do(aircraft: Aircraft) -> Iterator[Told]:
    """The least weight of a pilot is 45 to 125 kg, with what he wears."""
    unit = aircraft.units.weight
    for name, weight in aircraft.definition.type.weights.names.items():
        kilograms = float(convert(float(weight), unit, "kg"))
        if "pilot" in name.lower() and not 45 <= kilograms <= 125:
            yield tell(
                weight.place, "finding-pilot-weight", name=name, weight=entered(weight, unit)
            )


_APART = (  # units that do not go together: of statute miles, nautical, and metric manuals
    ("mph", ("nm", "km", "m", "kg/h", "sink kt")),
    ("kt", ("m",)),
    ("km/h", ("nm", "mi", "lb", "lb/h")),
    ("lb", ("km", "m", "kg/h")),
    ("kg", ("lb/h",)),
)


@rule("units-together", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def units_are_of_one_custom(aircraft: Aircraft) -> Iterator[Told]:
    """A manual in miles an hour has no nautical miles, and one in kilometres an hour no pounds."""
    units = aircraft.units
    there: set[str | None] = {units.altitude, units.weight, units.fuel_flow, units.distance}
    there |= {units.speed, f"sink {units.sink}"}
    found = [(one, other) for one, many in _APART for other in many if {one, other} <= there]
    for one, other in found[:1]:
        place = units.place_of("speed" if one == units.speed else "weight")
        values = {"one": Unit(one), "other": Unit(other.removeprefix("sink "))}
        yield tell(place, "finding-units-together", **values)
    if aircraft.kind == "turbine" and units.speed != "kt":
        yield tell(units.place_of("speed"), "finding-units-turbine", unit=Unit(units.speed))


@rule("temperature-lapse", Severity.WARNING, _PAGE, "ICAO Doc 7488, standard atmosphere")
def temperatures_fall_with_altitude_as_air_does(aircraft: Aircraft) -> Iterator[Told]:
    """Where each altitude has temperatures of its own, they fall as standard air does, or so."""
    for cruise in aircraft.definition.cruise:
        if air_column(cruise) != "oat":
            continue
        known: dict[Figure, list[Figure]] = {}
        for row in cruise.rows:
            known.setdefault(set_at(cruise, row, "altitude"), []).append(set_at(cruise, row, "oat"))
        low, high = min(known), max(known)
        change = sum(known[low]) / len(known[low]) - sum(known[high]) / len(known[high])
        ends = [float(aircraft.standard_temperature(float(one))) for one in (low, high)]
        own = not {*known[low]} & {*known[high]} and len(known[low]) == len(known[high])
        if own and len(known) > 2 and not 0.7 <= change / (ends[0] - ends[1]) <= 1.4:
            yield tell(
                known[high][0].place,
                "finding-temperature-lapse",
                low=entered(low, aircraft.units.altitude),
                high=entered(high, aircraft.units.altitude),
                change=about(change),
                standard=about(ends[0] - ends[1]),
            )
