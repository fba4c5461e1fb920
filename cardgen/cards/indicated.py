"""Cells that say what the airspeed indicator of the aircraft will show."""

import math
from dataclasses import replace

from cardgen.airframe.aircraft import NORMAL, Aircraft
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
    """Return what the indicator shows; a maximum is never raised by the bench card."""
    shown = float(aircraft.indicated_from_ias(ias))
    if sense is Sense.MAXIMUM:
        return min(shown, float(convert(ias, aircraft.units.speed, aircraft.indicator_unit)))
    return shown


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
    number = f"{value:.{decimals}f}" if decimals is not None else f"{value:g}"
    return f"{number} {aircraft.units.speed}"
