"""Cells that say what the airspeed indicator of the aircraft will show."""

import math
from dataclasses import replace

from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.airframe.limits import limit_at
from cardgen.cards.cells import Inputs, computed, entered, heading, reading, source, taking
from cardgen.definition.group import Group
from cardgen.definition.model import SpeedEntry
from cardgen.definition.places import Figure
from cardgen.document.record import Cell, Column, Input, Message, Quantity
from cardgen.document.rounding import Sense
from cardgen.units import convert


def differs(aircraft: Aircraft) -> bool:
    """Whether the indicator shows something else than the manual's IAS."""
    return (
        aircraft.indicator_unit != aircraft.units.speed
        or aircraft.definition.airframe.instrument_correction is not None
    )


def shown_heading(aircraft: Aircraft) -> Message:
    """Return the heading of what the indicator shows."""
    return heading("column-indicator-shows" if differs(aircraft) else "column-ias")


def indicated_column(aircraft: Aircraft, name: str = "indicated") -> Column:
    """Return the column of what the indicator shows."""
    return Column(name, shown_heading(aircraft), aircraft.indicator_unit, main=True, shown=True)


def shown_at_ias(aircraft: Aircraft, ias: Figure, sense: Sense) -> Cell:
    """Return what the indicator shows at an IAS of the manual."""
    value = _not_widened(aircraft, float(ias), sense)
    inputs = (taking("ias", speed(float(ias), aircraft), source(aircraft, ias)),)
    return computed(value, aircraft.indicator_unit, "indicated-airspeed", inputs, sense)


def _not_widened(aircraft: Aircraft, ias: float, sense: Sense) -> float:
    """Return what the indicator shows, but let a bench card only tighten what the manual says."""
    shown = float(aircraft.indicated_from_ias(ias))
    manual = float(convert(ias, aircraft.units.speed, aircraft.indicator_unit))
    if sense == "maximum":
        return min(shown, manual)
    return max(shown, manual) if sense == "minimum" else shown


def beyond_limit(aircraft: Aircraft, shown: float, cas: float, altitude: float, oat: float) -> bool:
    """Whether an airspeed is above the limit at an altitude, in CAS or as the limit is printed."""
    limit = limit_at(aircraft, altitude, oat)
    if limit is None:
        return False
    most = _not_widened(aircraft, float(aircraft.ias_from_cas(limit.cas)), "maximum")
    return cas > limit.cas + 1e-9 or shown > most + 1e-9


def beyond_flap_limit(aircraft: Aircraft, shown: float, flaps: str | None) -> bool:
    """Whether an indication is above the lowest limit for a flap setting."""
    retracted = flaps in (None, aircraft.flaps[0])
    limits = [
        _not_widened(aircraft, float(entry.ias), "maximum")
        for name in (("VNE", "VMO") if retracted else ("VFE", "VNE", "VMO"))
        for entry in aircraft.definition.speeds.get(name, [])
        if entry.ias is not None and (name != "VFE" or entry.flaps == flaps)
    ]
    return any(shown > limit + 1e-9 for limit in limits)


def shown_as_entered(
    aircraft: Aircraft, ias: Figure, group: Group, sense: Sense, beside: Cell | None = None
) -> Cell:
    """Return an IAS of the manual as entered, or what this indicator shows at it."""
    if not differs(aircraft):
        return entered(aircraft, ias, group, aircraft.indicator_unit, beside, sense=sense)
    return replace(shown_at_ias(aircraft, ias, sense), beside=beside)


def shown_at_cas(
    aircraft: Aircraft,
    cas: float,
    sense: Sense,
    formula: str,
    inputs: Inputs,
    flaps: str | None = None,
    static_source: str = NORMAL,
) -> Cell:
    """Return what the indicator shows at a computed CAS, with the CAS beside it.

    Where the calibration table or the bench card does not reach, the cell has
    a dash and its CAS.
    """
    ias = float(aircraft.ias_from_cas(cas, flaps, static_source))
    beside = computed(cas, aircraft.units.speed, formula, inputs, sense)
    if not math.isnan(cas) and all(one.name != "cas" for one in inputs):
        table = calibration_source(aircraft, flaps, static_source)
        inputs = (*inputs, taking("cas", speed(cas, aircraft, 1), table))
    shown = _not_widened(aircraft, ias, sense)
    return computed(shown, aircraft.indicator_unit, formula, inputs, sense, beside=beside)


def speed(value: float, aircraft: Aircraft, decimals: int | None = None) -> Quantity:
    """Return a speed in the manual's unit as an input is read."""
    return reading(value, aircraft.units.speed, decimals)


def cas_input(aircraft: Aircraft, name: str, cas: float, entry: SpeedEntry) -> Input:
    """Return a V-speed in CAS as a formula takes it, from the figure that gives it."""
    figure = next((one for one in (entry.cas, entry.ias, entry.times_VS0) if one is not None), None)
    return taking(name, speed(cas, aircraft, None if entry.cas else 1), source(aircraft, figure))


def calibration_source(aircraft: Aircraft, flaps: str | None, static_source: str = NORMAL) -> str:
    """Return the identifier that the figures of a calibration table begin with."""
    table = aircraft.calibration(flaps, static_source)
    return source(aircraft, table.ias[0]).rsplit("/", 2)[0] if table else ""
