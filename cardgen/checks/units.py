"""Figures that look as if they were copied in another unit."""

from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import Severity, rule
from cardgen.checks.speeds import place_of
from cardgen.definition.places import Fault

_PAGE = "the units that the manual prints beside its figures"
_RATIOS = {"kt to mph": 1.1508, "km/h to mph": 1.6093, "km/h to kt": 1.852}


@rule("speed-unit", Severity.WARNING, _PAGE, "1 kt = 1.1508 mph = 1.852 km/h, NIST SP 811")
def speeds_are_all_in_one_unit(aircraft: Aircraft) -> Iterator[Fault]:
    """IAS and CAS of a speed are not in the ratio of two units."""
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            if entry.ias is None or entry.cas is None:
                continue
            flaps = aircraft.flaps_of(name, entry)
            expected = float(aircraft.cas_from_ias(float(entry.ias), flaps))
            wrong = max(entry.cas / expected, expected / entry.cas)
            for units, ratio in _RATIOS.items():
                if abs(wrong / ratio - 1) < 0.012:
                    yield Fault(
                        place_of(entry),
                        f"{name}: IAS {entry.ias} and CAS {entry.cas} are in the ratio of {units}; "
                        "was one copied in another unit?",
                    )


@rule("altitude-unit", Severity.WARNING, _PAGE, "1 ft = 0.3048 m, NIST SP 811")
def cruise_altitudes_fit_their_unit(aircraft: Aircraft) -> Iterator[Fault]:
    """Cruise altitudes reach above 4,000 ft, and stay below 16,000 m."""
    cruise = aircraft.definition.cruise
    if cruise is None or not cruise.rows:
        return
    altitudes = [row[cruise.columns.index("altitude")] for row in cruise.rows]
    highest = max(altitudes)
    if aircraft.units.altitude == "ft" and highest < 4_000:
        yield Fault(highest.place, f"cruise ends at {highest} ft; are the altitudes in metres?")
    if aircraft.units.altitude == "m" and highest > 16_000:
        yield Fault(highest.place, f"cruise reaches {highest} m; are the altitudes in feet?")


@rule("weight-unit", Severity.WARNING, _PAGE, "common practice")
def the_weight_fits_its_unit(aircraft: Aircraft) -> Iterator[Fault]:
    """The maximum weight is one that the kind of aircraft has, in its unit."""
    low, high = {
        "single-engine": (600, 9_000),
        "multi-engine": (2_500, 19_000),
        "glider": (500, 2_000),
        "turbine": (2_500, 60_000),
    }[aircraft.kind]
    pounds = 1.0 if aircraft.units.weight == "lb" else 2.20462
    maximum = aircraft.definition.type.weights.maximum
    if not low <= maximum * pounds <= high:
        yield Fault(
            maximum.place,
            f"a maximum weight of {maximum} {aircraft.units.weight} is unusual for a "
            f"{aircraft.kind} aircraft; is the unit right?",
        )
