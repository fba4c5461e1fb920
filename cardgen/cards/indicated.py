"""Cells that say what the airspeed indicator of the aircraft will show."""

import math
from dataclasses import replace

from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.airframe.limits import limit_at
from cardgen.cards.rounding import printed
from cardgen.cards.table import Cell, Column, Inputs, computed, entered
from cardgen.definition.group import Group
from cardgen.definition.places import Figure
from cardgen.definition.speeds import Sense
from cardgen.units import convert


def differs(aircraft: Aircraft) -> bool:
    """Whether the indicator shows something else than the manual's IAS."""
    return (
        aircraft.indicator_unit != aircraft.units.speed
        or aircraft.definition.airframe.instrument_correction is not None
    )


def indicated_column(aircraft: Aircraft, name: str = "indicated") -> Column:
    """Return the column of what the indicator shows."""
    heading = "Indicator shows" if differs(aircraft) else "IAS"
    return Column(name, heading, aircraft.indicator_unit, main=True)


def shown_at_ias(aircraft: Aircraft, ias: float, sense: Sense) -> Cell:
    """Return what the indicator shows at an IAS of the manual."""
    value = _not_widened(aircraft, ias, sense)
    return computed(value, "indicated airspeed", {"IAS": speed(ias, aircraft)}, sense)


def _not_widened(aircraft: Aircraft, ias: float, sense: Sense) -> float:
    """Return what the indicator shows, but let a bench card only tighten what the manual says."""
    shown = float(aircraft.indicated_from_ias(ias))
    manual = float(convert(ias, aircraft.units.speed, aircraft.indicator_unit))
    if sense is Sense.MAXIMUM:
        return min(shown, manual)
    return max(shown, manual) if sense is Sense.MINIMUM else shown


def beyond_limit(aircraft: Aircraft, shown: float, cas: float, altitude: float, oat: float) -> bool:
    """Whether an airspeed is above the limit at an altitude, in CAS or as the limit is printed."""
    limit = limit_at(aircraft, altitude, oat)
    if limit is None:
        return False
    most = _not_widened(aircraft, float(aircraft.ias_from_cas(limit.cas)), Sense.MAXIMUM)
    return cas > limit.cas + 1e-9 or shown > most + 1e-9


def beyond_flap_limit(aircraft: Aircraft, shown: float, flaps: str | None) -> bool:
    """Whether an indication is above the lowest limit for a flap setting."""
    retracted = flaps in (None, aircraft.flaps[0])
    limits = [
        _not_widened(aircraft, float(entry.ias), Sense.MAXIMUM)
        for name in (("VNE", "VMO") if retracted else ("VFE", "VNE", "VMO"))
        for entry in aircraft.definition.speeds.get(name, [])
        if entry.ias is not None and (name != "VFE" or entry.flaps == flaps)
    ]
    return any(shown > limit + 1e-9 for limit in limits)


def shown_as_entered(
    aircraft: Aircraft, ias: Figure, group: Group, sense: Sense, also: Cell | None = None
) -> Cell:
    """Return an IAS of the manual as entered, or what this indicator shows at it."""
    if not differs(aircraft):
        return entered(ias, group, also)
    return replace(shown_at_ias(aircraft, float(ias), sense), also=also)


def shown_at_cas(
    aircraft: Aircraft,
    cas: float,
    sense: Sense,
    formula: str,
    inputs: Inputs,
    flaps: str | None = None,
    source: str = NORMAL,
) -> Cell:
    """Return what the indicator shows at a computed CAS, with the CAS beside it.

    Where the calibration table or the bench card does not reach, the cell has
    a dash and its CAS.
    """
    ias = float(aircraft.ias_from_cas(cas, flaps, source))
    beside = computed(cas, formula, inputs, sense)
    inputs = inputs if math.isnan(cas) else {**inputs, "CAS": speed(cas, aircraft, 1)}
    return computed(_not_widened(aircraft, ias, sense), formula, inputs, sense, also=beside)


def speed(value: float, aircraft: Aircraft, decimals: int | None = None) -> str:
    """Return a speed in the manual's unit as an input is written."""
    number = printed(value, decimals=decimals) if decimals is not None else f"{value:g}"
    return f"{number} {aircraft.units.speed}"
