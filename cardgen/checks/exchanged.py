"""IAS and CAS in each other's place: tables of one aircraft err to the same side."""

from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.definition.cruise import air_column, cell_at, held_temperature, set_at
from cardgen.units import convert

_PAGE = "look-calibration"


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


@rule("alternate-side", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def the_alternate_source_reads_high(aircraft: Aircraft) -> Iterator[Told]:
    """On an alternate source in the cabin the pressure is lower, and so an IAS is less CAS."""
    for table in aircraft.calibrations:
        if table.static_source != ALTERNATE or table.given.is_by_normal_source:
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
