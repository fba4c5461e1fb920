"""True airspeed over pressure altitude and outside air temperature."""

import math

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.indicated import speed
from cardgen.cards.table import Block, Cell, Column, Gap, Table, computed, given
from cardgen.definition.model import Grid, School
from cardgen.definition.places import Figure
from cardgen.units import convert


def true_airspeed_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return a grid of TAS for each reference speed of the school."""
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None:
        return Gap("True airspeed", f"the school gives no reference speeds for {aircraft.kind}")
    units = aircraft.units
    unit = aircraft.indicator_unit
    left_off, blocks = [], []
    for shown in _reference_speeds(aircraft, grid):
        cas = float(aircraft.cas_from_ias(aircraft.ias_from_indicated(shown)))
        if math.isnan(cas):
            left_off.append(f"{shown:g}")
        else:
            blocks.append(_block(aircraft, grid, shown, cas))
    if not blocks:
        return Gap("True airspeed", "no reference speed lies inside the calibration table")
    notes = [
        "Flaps and gear up, normal static source. At a pressure altitude: set 29.92 inHg or "
        "1013 hPa, or correct by the altimeter setting."
    ]
    if unit != "kt":
        notes.append("Large figures are in the indicator's unit; small figures are knots.")
    if left_off:
        notes.append(f"Left off, outside the calibration table: {', '.join(left_off)} {unit}.")
    return Table(
        "true-airspeed",
        "True airspeed",
        f"Find what the indicator shows, then the pressure altitude at the left; read TAS, {unit}, "
        "under the outside air temperature.",
        (
            Column("altitude", "Pressure altitude", units.altitude),
            *(
                Column(
                    f"oat {oat.text}",
                    f"{oat.text.replace('-', '−')}°{units.temperature}",
                    unit,
                    f"TAS, {unit}, by outside air temperature",
                    "kt" if unit != "kt" else "",
                )
                for oat in grid.oat
            ),
        ),
        tuple(blocks),
        notes=tuple(notes),
    )


def _reference_speeds(aircraft: Aircraft, grid: Grid) -> list[float]:
    """Return round speeds in the indicator's unit."""
    if aircraft.indicator_unit == aircraft.units.speed:
        return [float(ias) for ias in grid.ias]
    known = np.array(grid.ias, dtype=float)
    converted = np.asarray(convert(known, aircraft.units.speed, aircraft.indicator_unit))
    return [float(speed) for speed in 5.0 * np.round(converted / 5.0)]


def _block(aircraft: Aircraft, grid: Grid, shown: float, cas: float) -> Block:
    altitude = np.array(grid.altitude, dtype=float)[:, np.newaxis]
    oat = np.array(grid.oat, dtype=float)[np.newaxis, :]
    tas = np.asarray(aircraft.tas_from_cas(cas, altitude, oat))
    rows = tuple(
        (
            given(float(level), _grouped(level)),
            *(_cell(aircraft, float(tas[i, j]), cas, level, air) for j, air in enumerate(grid.oat)),
        )
        for i, level in enumerate(grid.altitude)
    )
    said = f"Indicator {shown:g} {aircraft.indicator_unit}"
    return Block(f"{said}, CAS {speed(cas, aircraft, 1)}", rows)


def _cell(aircraft: Aircraft, tas: float, cas: float, altitude: Figure, oat: Figure) -> Cell:
    units = aircraft.units
    inputs = {
        "CAS": speed(cas, aircraft, 1),
        "pressure altitude": f"{altitude.text} {units.altitude}",
        "OAT": f"{oat.text} {units.temperature}",
    }
    own = float(convert(tas, units.speed, aircraft.indicator_unit))
    knots = None
    if aircraft.indicator_unit != "kt":
        knots = computed(float(convert(tas, units.speed, "kt")), "true airspeed", inputs)
    return computed(own, "true airspeed", inputs, also=knots)


def _grouped(level: Figure) -> str:
    return f"{float(level):,.0f}".replace("-", "−") if float(level) >= 10_000 else level.text
