"""True airspeed over pressure altitude and outside air temperature."""

import math
from dataclasses import replace

import numpy as np

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.indicated import beyond_limit, speed
from cardgen.cards.rounding import printed
from cardgen.cards.table import DASH, Block, Cell, Column, Gap, Table, computed, given
from cardgen.definition.model import Grid, School
from cardgen.definition.places import Figure
from cardgen.definition.speeds import Sense
from cardgen.units import Array, convert, convert_difference, to_si

_SONIC = "A dash: as fast as sound there, for which nothing is computed."
_BEYOND = "In brackets: faster than the limit there."


def true_airspeed_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return a grid of TAS for each reference speed of the school."""
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None:
        return Gap("True airspeed", f"the school gives no reference speeds for {aircraft.kind}")
    unit = aircraft.indicator_unit
    left_off, blocks = [], []
    for shown in round_speeds(aircraft, grid.ias):
        cas = aircraft.cas_from_indicated(shown)
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
    notes += _warming(aircraft, grid)
    if any(cell.beyond for block in blocks for row in block.rows for cell in row):
        notes.append(_BEYOND)
    if any(cell.text == DASH for block in blocks for row in block.rows for cell in row):
        notes.append(_SONIC)
    if not _one_unit(aircraft):
        notes.append("Large figures are in the indicator's unit; small figures are knots.")
    if left_off:
        notes.append(f"Left off, outside the calibration table: {', '.join(left_off)} {unit}.")
    return Table(
        "true-airspeed",
        "True airspeed",
        f"Find what the indicator shows, then the pressure altitude at the left; read TAS, {unit}, "
        "under the outside air temperature.",
        (
            Column("altitude", "Pressure altitude", aircraft.units.altitude),
            *_oat_columns(
                aircraft,
                grid,
                f"TAS, {unit}, by outside air temperature",
                unit,
                "" if _one_unit(aircraft) else "kt",
            ),
        ),
        tuple(blocks),
        notes=tuple(notes),
    )


def round_speeds(aircraft: Aircraft, speeds: list[Figure]) -> list[float]:
    """Return speeds of the school, made round in the indicator's unit."""
    if aircraft.indicator_unit == aircraft.units.speed:
        return list(dict.fromkeys(float(one) for one in speeds))
    known = np.array(speeds, dtype=float)
    converted = np.asarray(convert(known, aircraft.units.speed, aircraft.indicator_unit))
    return list(dict.fromkeys(float(one) for one in 5.0 * np.round(converted / 5.0)))


def _block(aircraft: Aircraft, grid: Grid, shown: float, cas: float) -> Block:
    altitude, oat = _mesh(grid)
    tas = np.asarray(aircraft.tas_from_cas(cas, altitude, oat))
    rows = tuple(
        (
            given(float(level), _grouped(level)),
            *(
                _cell(aircraft, float(tas[i, j]), shown, cas, level, air)
                for j, air in enumerate(grid.oat)
            ),
        )
        for i, level in enumerate(grid.altitude)
    )
    return Block(_heading(aircraft, shown, cas), rows)


def _cell(
    aircraft: Aircraft, tas: float, shown: float, cas: float, altitude: Figure, oat: Figure
) -> Cell:
    units = aircraft.units
    inputs = {"CAS": speed(cas, aircraft, 1), **_air(aircraft, altitude, oat)}
    own = float(convert(tas, units.speed, aircraft.indicator_unit))
    knots = None
    if not _one_unit(aircraft):
        knots = computed(float(convert(tas, units.speed, "kt")), "true airspeed", inputs)
    cell = computed(own, "true airspeed", inputs, also=knots)
    return replace(cell, beyond=beyond_limit(aircraft, shown, cas, float(altitude), float(oat)))


def _grouped(level: Figure) -> str:
    text = f"{float(level):,.10g}" if abs(float(level)) >= 10_000 else level.text
    return text.replace("-", "−")


def factor_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return TAS over CAS without compressibility, and what leaving it out costs."""
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None:
        return Gap("TAS factor", f"the school gives no altitudes for {aircraft.kind}")
    units = aircraft.units
    altitude, oat = _mesh(grid)
    factor = _density_factor(aircraft, altitude, oat)
    rows = tuple(
        (
            given(float(level), _grouped(level)),
            *(
                computed(
                    float(factor[i, j]), "density factor", _air(aircraft, level, air), decimals=3
                )
                for j, air in enumerate(grid.oat)
            ),
        )
        for i, level in enumerate(grid.altitude)
    )
    return Table(
        "tas-factor",
        "TAS factor",
        "Find the pressure altitude at the left; multiply CAS by the factor under the outside air "
        "temperature.",
        (
            Column("altitude", "Pressure altitude", units.altitude),
            *_oat_columns(aircraft, grid, "TAS ÷ CAS by outside air temperature", ""),
        ),
        (Block("", rows),),
        notes=tuple(_compressibility(aircraft, grid)),
    )


def _compressibility(aircraft: Aircraft, grid: Grid) -> list[str]:
    """Say how far the factor is off at the most, over the school's reference speeds."""
    altitude, oat = _mesh(grid)
    factor = _density_factor(aircraft, altitude, oat)
    worst, where = 0.0, 0.0
    for shown in round_speeds(aircraft, grid.ias):
        cas = aircraft.cas_from_indicated(shown)
        if not math.isnan(cas):
            off = float(np.nanmax(factor * cas - aircraft.tas_from_cas(cas, altitude, oat)))
            if off > worst:
                worst, where = off, cas
    if not worst:
        return []
    most = printed(worst, Sense.MINIMUM, 1)
    return [
        f"Leaves compressibility out: gives up to {most} {aircraft.units.speed} too much in this "
        f"table, at CAS {speed(where, aircraft, 0)}."
    ]


def rule_of_thumb_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return how far 2 % for each 1,000 ft is off, cell by cell."""
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None:
        return Gap("Rule of thumb", f"the school gives no reference speeds for {aircraft.kind}")
    unit = aircraft.indicator_unit
    blocks = []
    for shown in round_speeds(aircraft, grid.ias):
        cas = aircraft.cas_from_indicated(shown)
        if not math.isnan(cas):
            rows = tuple(_rule_row(aircraft, grid, cas, level) for level in grid.altitude)
            blocks.append(Block(_heading(aircraft, shown, cas), rows))
    return Table(
        "rule-of-thumb",
        "How far the rule of thumb is off",
        "CAS plus 2 % for each 1,000 ft, less the exact TAS: find what the indicator shows and the "
        f"pressure altitude at the left; read {unit} under the outside air temperature.",
        (
            Column("altitude", "Pressure altitude", aircraft.units.altitude),
            *_oat_columns(aircraft, grid, f"Rule less exact, {unit}", unit),
        ),
        tuple(blocks),
        notes=("Plus: the rule gives too much. Minus: too little. The rule knows no temperature.",),
    )


def _rule_row(aircraft: Aircraft, grid: Grid, cas: float, level: Figure) -> tuple[Cell, ...]:
    thousands = float(convert(float(level), aircraft.units.altitude, "ft")) / 1000.0
    cells = []
    for air in grid.oat:
        exact = float(aircraft.tas_from_cas(cas, float(level), float(air)))
        off = float(
            convert(
                cas * (1 + 0.02 * thousands) - exact, aircraft.units.speed, aircraft.indicator_unit
            )
        )
        inputs = {"CAS": speed(cas, aircraft, 1), **_air(aircraft, level, air)}
        cell = computed(off, "rule of thumb", inputs)
        cells.append(replace(cell, text=f"+{cell.text}") if off > 0 and cell.text != "0" else cell)
    return given(float(level), _grouped(level)), *cells


def airspeed_for_tas_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return what to indicate to make good a TAS."""
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None or not grid.tas:
        return Gap("Airspeed for a TAS", f"the school gives no tas for {aircraft.kind}")
    unit = aircraft.indicator_unit
    blocks = []
    for tas in round_speeds(aircraft, grid.tas):
        rows = tuple(_tas_row(aircraft, grid, tas, level) for level in grid.altitude)
        blocks.append(Block(f"TAS {tas:g} {unit}", rows))
    return Table(
        "airspeed-for-tas",
        "Airspeed for a TAS",
        "Find the TAS wanted, then the pressure altitude at the left; read what to indicate under "
        "the outside air temperature.",
        (
            Column("altitude", "Pressure altitude", aircraft.units.altitude),
            *_oat_columns(aircraft, grid, f"Indicate, {unit}", unit),
        ),
        tuple(blocks),
        notes=(f"Flaps and gear up. A dash: outside the calibration table. {_BEYOND}",),
    )


def _tas_row(aircraft: Aircraft, grid: Grid, tas: float, level: Figure) -> tuple[Cell, ...]:
    own = float(convert(tas, aircraft.indicator_unit, aircraft.units.speed))
    cells = []
    for air in grid.oat:
        cas = float(aircraft.cas_from_tas(own, float(level), float(air)))
        shown = float(aircraft.indicated_from_ias(aircraft.ias_from_cas(cas)))
        inputs = {"TAS": f"{tas:g} {aircraft.indicator_unit}", **_air(aircraft, level, air)}
        cell = computed(shown, "airspeed for TAS", inputs)
        cells.append(
            replace(cell, beyond=beyond_limit(aircraft, shown, cas, float(level), float(air)))
        )
    return given(float(level), _grouped(level)), *cells


def _one_unit(aircraft: Aircraft) -> bool:
    """Whether TAS is wanted in the indicator's unit only: knots, and gliders in km/h."""
    return aircraft.indicator_unit in {"kt", aircraft.units.speed}


def _mesh(grid: Grid) -> tuple[Array, Array]:
    altitude = np.array(grid.altitude, dtype=float)[:, np.newaxis]
    return altitude, np.array(grid.oat, dtype=float)[np.newaxis, :]


def _density_factor(aircraft: Aircraft, altitude: Array, oat: Array) -> Array:
    units = aircraft.units
    pressure = atmosphere.pressure(to_si(altitude, units.altitude))
    density = atmosphere.density(pressure, to_si(oat, units.temperature))
    return np.asarray(np.sqrt(atmosphere.SEA_LEVEL_DENSITY / density))


def _air(aircraft: Aircraft, altitude: Figure, oat: Figure) -> dict[str, str]:
    units = aircraft.units
    return {
        "pressure altitude": f"{altitude.text} {units.altitude}",
        "OAT": f"{oat.text} {units.temperature}",
    }


def _oat_columns(
    aircraft: Aircraft, grid: Grid, group: str, unit: str, also: str = ""
) -> list[Column]:
    degrees = f"°{aircraft.units.temperature}"
    return [
        Column(f"oat {oat.text}", f"{oat.text.replace('-', '−')}{degrees}", unit, group, also)
        for oat in grid.oat
    ]


def _heading(aircraft: Aircraft, shown: float, cas: float) -> str:
    return f"Indicator {shown:g} {aircraft.indicator_unit}, CAS {speed(cas, aircraft, 1)}"


def _warming(aircraft: Aircraft, grid: Grid) -> list[str]:
    """Say what a probe reads too much, where the grid goes beyond Mach 0.3."""
    altitude, oat = _mesh(grid)
    warmth = to_si(oat, aircraft.units.temperature)
    fastest, most = 0.0, 0.0
    for shown in round_speeds(aircraft, grid.ias):
        cas = aircraft.cas_from_indicated(shown)
        tas = np.nan_to_num(np.asarray(aircraft.tas_from_cas(cas, altitude, oat)))
        mach = airspeed.mach_from_tas(to_si(tas, aircraft.units.speed), warmth)
        rise = airspeed.total_temperature(warmth, mach) - warmth
        fastest, most = max(fastest, float(np.max(mach))), max(most, float(np.max(rise)))
    if fastest <= 0.3:
        return []
    unit = aircraft.units.temperature
    rise_said = printed(float(convert_difference(most, "K", unit)), Sense.MINIMUM)
    return [
        f"OAT is that of still air. Above Mach 0.3 (here to {fastest:.2f}) a probe shows more, by "
        f"up to {rise_said} °{unit} here: take the ram rise off first, as the manual says."
    ]
