"""IAS and CAS in each other's place: tables of one aircraft err to the same side."""

import itertools
import math
from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.checks.figures import last_place
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.definition.cruise import air_column, cell_at, held_temperature, set_at
from cardgen.definition.places import Figure
from cardgen.units import convert, from_si, to_si

_PAGE = "look-calibration"
_ROUNDED = 1.1  # units, of IAS and of the table's CAS, and a little of the table's line


def _error(table: Calibrated) -> float:
    """Return what is to be added to IAS at the lowest speed of a table."""
    return float(table.cas[0] - table.ias[0])


@rule("calibration-side", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def tables_err_to_the_same_side(aircraft: Aircraft) -> Iterator[Told]:
    """At its lowest speed a table errs to the side that the table for flaps up does."""
    clean = aircraft.calibration()
    for table in aircraft.calibrations:
        if clean is None or table is clean or table.static_source != NORMAL:
            continue
        here, there = _error(table), _error(clean)
        if here * there < 0 and min(abs(here), abs(there)) >= 1:
            yield tell(
                table.cas[0].place,
                "finding-calibration-side",
                ias=entered(table.ias[0]),
                cas=entered(table.cas[0]),
                clean_ias=entered(clean.ias[0]),
                clean_cas=entered(clean.cas[0]),
            )


@rule("speeds-exchanged", Severity.WARNING, "look-speeds", "14 CFR 1.1, calibrated airspeed")
def no_two_speeds_are_each_other_turned(aircraft: Aircraft) -> Iterator[Told]:
    """With flaps alike, IAS and CAS of no speed are CAS and IAS of another, but for rounding."""
    given = [
        (name, aircraft.flaps_of(name, entry), entry.ias, entry.cas)
        for name, entries in aircraft.definition.speeds.items()
        for entry in entries
        if entry.ias is not None and entry.cas is not None
    ]
    for (name, flaps, ias, cas), (other, *beside) in itertools.permutations(given, 2):
        if beside == [flaps, cas, ias] and _is_turned(aircraft, ias, cas):
            yield tell(
                ias.place,
                "finding-speeds-exchanged",
                speed=name,
                ias=entered(ias),
                cas=entered(cas),
                other=other,
            )


def _is_turned(aircraft: Aircraft, ias: Figure, cas: Figure) -> bool:
    """Whether the table for flaps up says that the error is to the other side."""
    clean, rounding = aircraft.calibration(), last_place(ias)
    if abs(ias - cas) <= rounding:
        return False
    more = float(clean.curve.at(float(ias))) - ias if clean is not None else math.nan
    return not more * (cas - ias) > 0


@rule(
    "stall-by-calibration",
    Severity.WARNING,
    "look-stall",
    "FAA-H-8083-25B, chapter 5, load factors",
)
def stalls_in_ias_come_of_one_cas(aircraft: Aircraft) -> Iterator[Told]:
    """By the calibration, IAS of a stall row are CAS that go with the root of the load factor.

    Each IAS, and what the table makes of it, may be off by half a unit.
    """
    stall = aircraft.definition.stall
    for row in stall.rows if stall else ():
        assert stall is not None
        table = aircraft.calibration(row.flaps, gear=row.gear or "")
        if table is None or row.cas is not None:
            continue
        level = []
        for ias, bank in zip(row.ias or (), stall.bank, strict=False):
            root = math.sqrt(math.cos(math.radians(bank)))
            level.append((float(table.curve.at(float(ias))) * root, root, ias, bank))
        known = [one for one in level if one[0] == one[0]]
        if len(known) < 2:
            continue
        low, high = min(known), max(known)
        if high[0] - low[0] > _ROUNDED * (low[1] + high[1]) * last_place(low[2]):
            yield tell(
                high[2].place,
                "finding-stall-by-calibration",
                ias=entered(high[2]),
                bank=entered(high[3], "deg"),
                found=about(high[0], 1),
                other=entered(low[2]),
                other_bank=entered(low[3], "deg"),
                other_found=about(low[0], 1),
            )


@rule("alternate-side", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def the_alternate_source_reads_high(aircraft: Aircraft) -> Iterator[Told]:
    """On an alternate source in the cabin the pressure is lower, and so an IAS is less CAS."""
    for table in aircraft.calibrations:
        if table.static_source != ALTERNATE:
            continue
        if table.given.is_by_normal_source:
            yield from _reads_low(table)
            continue
        normal = np.asarray(
            aircraft.cas_from_ias(np.array(table.ias, dtype=float), table.flaps, gear=table.gear)
        )
        more = np.array(table.cas, dtype=float) - normal
        known = more[~np.isnan(more)]
        if len(known) and known.mean() > 0.5:
            worst = int(np.nanargmax(more))
            yield tell(
                table.cas[worst].place,
                "finding-alternate-side",
                ias=entered(table.ias[worst]),
                cas=entered(table.cas[worst]),
                normal=about(float(normal[worst])),
            )


def _reads_low(table: Calibrated) -> Iterator[Told]:
    """Tell of a table of the alternate source by which the normal one shows more."""
    pairs = table.given.readings
    if sum(normal - ias for ias, normal in pairs) > 0.5 * len(pairs):
        ias, normal = max(pairs, key=lambda pair: pair[1] - pair[0])
        yield tell(
            table.given.pairs[0][1].place,
            "finding-alternate-reads-low",
            ias=entered(ias),
            normal=entered(normal),
        )


@rule(
    "altimeter-side",
    Severity.WARNING,
    _PAGE,
    "NASA RP-1046, chapter 5 (from memory): both instruments err by one static pressure",
)
def altimeter_and_airspeed_err_to_one_side(aircraft: Aircraft) -> Iterator[Told]:
    """Where the static pressure is too low, altimeter and airspeed indicator both read high.

    An error of airspeed is one of pressure, and that one of altitude: V dV / g at sea level.
    """
    for table in aircraft.definition.altimeter_correction:
        ias = np.array([one for one, _ in table.to_add], dtype=float)
        more = np.array([one for _, one in table.to_add], dtype=float)
        cas = np.asarray(aircraft.cas_from_ias(ias, table.flaps or None, table.static_source))
        units = aircraft.units
        fast, off = (np.asarray(to_si(one, units.speed)) for one in (ias, cas - ias))
        by_speed = np.asarray(from_si(np.nan_to_num(fast * off) / 9.80665, units.altitude))
        least = float(convert(10.0, "ft", units.altitude))
        if float(more @ by_speed) < -len(ias) * least**2:
            worst = int(np.abs(more).argmax())
            yield tell(
                table.pairs[worst][1].place,
                "finding-altimeter-side",
                ias=entered(table.pairs[worst][0]),
                altitude=about(float(more[worst])),
                expected=about(float(by_speed[worst])),
            )


@rule("cruise-ias", Severity.WARNING, "look-cruise", "14 CFR 1.1, true airspeed")
def ias_and_tas_of_cruise_agree(aircraft: Aircraft) -> Iterator[Told]:
    """IAS in cruise is what TAS makes it in that air, within 4 %."""
    for cruise in aircraft.definition.cruise:
        if "ias" not in cruise.columns:
            continue
        air, held = air_column(cruise), held_temperature(cruise)
        for row in cruise.rows:
            ias, tas = cell_at(cruise, row, "ias"), cell_at(cruise, row, "tas")
            if ias is None or tas is None:
                continue
            altitude = float(set_at(cruise, row, "altitude"))
            name, warmth = (air, set_at(cruise, row, air)) if air else held or ("isa", 0.0)
            standard = 0.0 if name == "oat" else float(aircraft.standard_temperature(altitude))
            own = float(
                convert(float(tas), cruise.tas_unit or aircraft.units.speed, aircraft.units.speed)
            )
            cas = float(aircraft.cas_from_tas(own, altitude, standard + float(warmth)))
            expected = float(aircraft.ias_from_cas(cas))
            if abs(ias - expected) > 0.04 * expected or cas != cas:
                yield tell(
                    ias.place,
                    "finding-cruise-ias",
                    ias=entered(ias),
                    tas=entered(tas),
                    expected=digits(expected, 3),
                )
