"""Figures that look as if they were copied in another unit."""

import math
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, entered, rule, tell
from cardgen.definition.cruise import set_at
from cardgen.document.record import Unit

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
