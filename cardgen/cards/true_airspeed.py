"""True airspeed over pressure altitude and outside air temperature."""

import math
from collections.abc import Callable
from functools import partial

import numpy as np

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.air import (
    Level,
    Warmth,
    air_inputs,
    altitude_column,
    altitude_row,
    blanks_said,
    grid_of,
    is_any,
    levels,
    mesh,
    occurs,
    warmths,
)
from cardgen.cards.cells import computed, heading, reading, taking
from cardgen.cards.indicated import beyond_limit, calibration_source, speed
from cardgen.definition.model import Grid, School
from cardgen.definition.places import Figure
from cardgen.document.record import (
    BLANK,
    Block,
    Cell,
    Column,
    Gap,
    Input,
    Message,
    Quantity,
    Row,
    Table,
    Unit,
    Value,
)
from cardgen.document.rounding import kept
from cardgen.units import Array, convert, convert_difference, to_si

_BEYOND = Message("note-beyond")


def true_airspeed_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return a grid of TAS for each reference speed of the school."""
    grid = grid_of(aircraft, school)
    title = Message("title-true-airspeed")
    if grid is None:
        return Gap("true-airspeed", title, _missing(aircraft, "reference-speeds"))
    if not is_any(aircraft, grid):
        return Gap("true-airspeed", title, Message("missing-air"))
    unit = aircraft.indicator_unit
    known, left_off = _known(aircraft, grid)
    if not known:
        return Gap("true-airspeed", title, Message("missing-reference-in-table"))
    blocks = [_block(aircraft, grid, shown, cas) for shown, cas in known]
    rows = [row for block in blocks for row in block.rows]
    cells = [cell for row in rows for cell in row.cells]
    notes = [Message("note-flaps-up-pressure-altitude"), *_warming(aircraft, grid)]
    notes += blanks_said(rows)
    if any(cell.beyond for cell in cells):
        notes.append(_BEYOND)
    if any(cell.is_dash for cell in cells):
        notes.append(Message("note-sonic"))
    if left_off:
        quantities = tuple(reading(shown, unit) for shown in left_off)
        notes.append(heading("note-left-off", speeds=quantities))
    return Table(
        "true-airspeed",
        title,
        heading("how-true-airspeed", unit=Unit(unit)),
        (
            altitude_column(aircraft, grid),
            *(
                _air_columns(aircraft, grid, "group-tas", unit)
                if _one_unit(aircraft)
                else _air_columns(aircraft, grid, "group-tas-pair", unit, "kt")
            ),
        ),
        tuple(blocks),
        notes=tuple(notes),
    )


def _known(aircraft: Aircraft, grid: Grid) -> tuple[list[tuple[float, float]], list[float]]:
    """Return reference speeds with their CAS, and those that the calibration does not reach."""
    pairs = [
        (shown, aircraft.cas_from_indicated(shown))
        for shown in round_speeds(aircraft, grid, grid.ias)
    ]
    known = [pair for pair in pairs if not math.isnan(pair[1])]
    return known, [shown for shown, cas in pairs if math.isnan(cas)]


def _missing(aircraft: Aircraft, what: str) -> Message:
    return heading(f"missing-{what}", kind=Message(f"kind-{aircraft.kind}"))


def round_speeds(aircraft: Aircraft, grid: Grid, speeds: list[Figure]) -> list[float]:
    """Return speeds of the school's grid, made round where the indicator has another unit."""
    unit = (grid.units and grid.units.speed) or aircraft.units.speed
    if aircraft.indicator_unit == unit:
        return list(dict.fromkeys(float(one) for one in speeds))
    known = np.array(speeds, dtype=float)
    converted = np.asarray(convert(known, unit, aircraft.indicator_unit))
    return list(dict.fromkeys(float(one) for one in 5.0 * np.round(converted / 5.0)))


def _block(aircraft: Aircraft, grid: Grid, shown: float, cas: float) -> Block:
    altitude, oat = mesh(aircraft, grid)
    tas = np.asarray(aircraft.tas_from_cas(cas, altitude, np.nan_to_num(oat)))
    rows = [
        altitude_row(
            level,
            [
                BLANK
                if math.isnan(oat[i, j])
                else _cell(aircraft, float(tas[i, j]), shown, cas, level, air, float(oat[i, j]))
                for j, air in enumerate(warmths(aircraft, grid))
            ],
            f"indicated-{shown:g}/",
        )
        for i, level in enumerate(levels(aircraft, grid))
    ]
    return Block(f"indicated-{shown:g}", _heading(aircraft, shown, cas), tuple(rows))


def _by_air(
    aircraft: Aircraft,
    grid: Grid,
    name: str,
    title: Message,
    cell: Callable[[Level, Warmth], Cell],
) -> Block:
    """Return a block with a cell for each of the school's altitudes and temperatures."""
    across = warmths(aircraft, grid)
    rows = [
        altitude_row(level, [cell(level, air) for air in across], f"{name}/")
        for level in levels(aircraft, grid)
    ]
    return Block(name, title, tuple(rows))


def _cell(
    aircraft: Aircraft,
    tas: float,
    shown: float,
    cas: float,
    altitude: Level,
    air: Warmth,
    oat: float,
) -> Cell:
    units = aircraft.units
    inputs = (_cas_input(aircraft, cas), *air_inputs(altitude, air))
    own = float(convert(tas, units.speed, aircraft.indicator_unit))
    knots = None
    if not _one_unit(aircraft):
        knots = computed(float(convert(tas, units.speed, "kt")), "kt", "true-airspeed", inputs)
    beyond = beyond_limit(aircraft, shown, cas, float(altitude), oat)
    unit = aircraft.indicator_unit
    return computed(own, unit, "true-airspeed", inputs, beside=knots, beyond=beyond)


def _cas_input(aircraft: Aircraft, cas: float) -> Input:
    return taking("cas", speed(cas, aircraft, 1), calibration_source(aircraft, None))


def factor_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return TAS over CAS without compressibility, and what leaving it out costs."""
    grid = grid_of(aircraft, school)
    title = Message("title-tas-factor")
    if grid is None:
        return Gap("tas-factor", title, _missing(aircraft, "altitudes"))
    if not is_any(aircraft, grid):
        return Gap("tas-factor", title, Message("missing-air"))
    factor = _density_factor(aircraft, *mesh(aircraft, grid))
    rows = [
        altitude_row(
            level,
            [
                _factor(aircraft, float(factor[i, j]), level, air)
                for j, air in enumerate(warmths(aircraft, grid))
            ],
        )
        for i, level in enumerate(levels(aircraft, grid))
    ]
    return Table(
        "tas-factor",
        title,
        Message("how-tas-factor"),
        (
            altitude_column(aircraft, grid),
            *_air_columns(aircraft, grid, "group-factor", ""),
        ),
        (Block("", None, tuple(rows)),),
        notes=(*_compressibility(aircraft, grid), *blanks_said(rows)),
    )


def _factor(aircraft: Aircraft, factor: float, level: Level, air: Warmth) -> Cell:
    if math.isnan(factor):
        return BLANK
    inputs = air_inputs(level, air)
    return computed(factor, "", "density-factor", inputs, decimals=3)


def _compressibility(aircraft: Aircraft, grid: Grid) -> list[Message]:
    """Say how far the factor is off at the most, over the school's reference speeds."""
    altitude, oat = mesh(aircraft, grid)
    factor = _density_factor(aircraft, altitude, oat)
    worst, where = 0.0, 0.0
    for _, cas in _known(aircraft, grid)[0]:
        exact = aircraft.tas_from_cas(cas, altitude, np.nan_to_num(oat))
        off = float(np.nanmax(factor * cas - exact, initial=0.0))
        if off > worst:
            worst, where = off, cas
    if not worst:
        return []
    most = Quantity(kept(worst), aircraft.units.speed, sense="minimum", decimals=1)
    return [heading("note-compressibility", most=most, cas=speed(where, aircraft, 0))]


def rule_of_thumb_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return how far 2 % for each 1,000 ft is off, cell by cell."""
    grid = grid_of(aircraft, school)
    title = Message("title-rule-of-thumb")
    if grid is None:
        return Gap("rule-of-thumb", title, _missing(aircraft, "reference-speeds"))
    if not is_any(aircraft, grid):
        return Gap("rule-of-thumb", title, Message("missing-air"))
    unit = aircraft.indicator_unit
    blocks = [
        _by_air(
            aircraft,
            grid,
            f"indicated-{shown:g}",
            _heading(aircraft, shown, cas),
            partial(_rule, aircraft, cas),
        )
        for shown, cas in _known(aircraft, grid)[0]
    ]
    return Table(
        "rule-of-thumb",
        title,
        heading("how-rule-of-thumb", unit=Unit(unit)),
        (
            altitude_column(aircraft, grid),
            *_air_columns(aircraft, grid, "group-rule", unit, form="signed"),
        ),
        tuple(blocks),
        notes=(Message("note-rule-of-thumb"), *blanks_said(_rows(blocks))),
    )


def _rows(blocks: list[Block]) -> list[Row]:
    return [row for block in blocks for row in block.rows]


def _rule(aircraft: Aircraft, cas: float, level: Level, air: Warmth) -> Cell:
    if not occurs(aircraft, float(level), air):
        return BLANK
    units = aircraft.units
    thousands = float(convert(float(level), units.altitude, "ft")) / 1000.0
    exact = float(aircraft.tas_from_cas(cas, float(level), air.oat(aircraft, float(level))))
    off = cas * (1 + 0.02 * thousands) - exact
    own = float(convert(off, units.speed, aircraft.indicator_unit))
    inputs = (_cas_input(aircraft, cas), *air_inputs(level, air))
    return computed(own, aircraft.indicator_unit, "rule-of-thumb", inputs)


def airspeed_for_tas_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return what to indicate to make good a TAS."""
    grid = grid_of(aircraft, school)
    title = Message("title-airspeed-for-tas")
    if grid is None or not grid.tas:
        return Gap("airspeed-for-tas", title, _missing(aircraft, "tas"))
    if not is_any(aircraft, grid):
        return Gap("airspeed-for-tas", title, Message("missing-air"))
    unit = aircraft.indicator_unit
    blocks = [
        _by_air(
            aircraft,
            grid,
            f"tas-{tas:g}",
            heading("block-tas", tas=reading(tas, unit)),
            partial(_to_indicate, aircraft, tas),
        )
        for tas in round_speeds(aircraft, grid, grid.tas)
    ]
    return Table(
        "airspeed-for-tas",
        title,
        Message("how-airspeed-for-tas"),
        (
            altitude_column(aircraft, grid),
            *_air_columns(aircraft, grid, "group-indicate", unit, shown=True),
        ),
        tuple(blocks),
        notes=(Message("note-flaps-up-table-ends"), _BEYOND, *blanks_said(_rows(blocks))),
    )


def _to_indicate(aircraft: Aircraft, tas: float, level: Level, air: Warmth) -> Cell:
    if not occurs(aircraft, float(level), air):
        return BLANK
    unit, oat = aircraft.indicator_unit, air.oat(aircraft, float(level))
    own = float(convert(tas, unit, aircraft.units.speed))
    cas = float(aircraft.cas_from_tas(own, float(level), oat))
    shown = float(aircraft.indicated_from_ias(aircraft.ias_from_cas(cas)))
    at = calibration_source(aircraft, None)
    inputs = (taking("tas", reading(tas, unit), at), *air_inputs(level, air))
    beyond = beyond_limit(aircraft, shown, cas, float(level), oat)
    return computed(shown, unit, "airspeed-for-tas", inputs, beyond=beyond)


def _one_unit(aircraft: Aircraft) -> bool:
    """Whether TAS is wanted in the indicator's unit only: knots, and gliders in km/h."""
    return aircraft.indicator_unit in {"kt", aircraft.units.speed}


def _density_factor(aircraft: Aircraft, altitude: Array, oat: Array) -> Array:
    """Return TAS over CAS without compressibility; not a number where no such air occurs."""
    units = aircraft.units
    pressure = atmosphere.pressure(to_si(altitude, units.altitude))
    density = atmosphere.density(pressure, to_si(np.nan_to_num(oat), units.temperature))
    factor = np.sqrt(atmosphere.SEA_LEVEL_DENSITY / density)
    return np.where(np.isnan(oat), np.nan, factor)


def _air_columns(
    aircraft: Aircraft,
    grid: Grid,
    group: str,
    unit: str,
    beside: str = "",
    form: str = "plain",
    shown: bool = False,
) -> list[Column]:
    """Return a column for each temperature, under a heading that says what is read there."""
    values: dict[str, Value] = {"unit": Unit(unit)} if unit else {}
    return [
        Column(
            warmth.id,
            warmth.heading(aircraft.units.temperature),
            unit,
            Message(f"{group}-isa" if warmth.by_isa else group, values),
            heading("unit", unit=Unit(unit)) if beside else None,
            heading("unit", unit=Unit(beside)) if beside else None,
            beside,
            form=form,
            shown=shown,
        )
        for warmth in warmths(aircraft, grid)
    ]


def _heading(aircraft: Aircraft, shown: float, cas: float) -> Message:
    values: dict[str, Value] = {
        "shown": reading(shown, aircraft.indicator_unit),
        "cas": speed(cas, aircraft, 1),
    }
    return Message("block-indicator", values)


def _warming(aircraft: Aircraft, grid: Grid) -> list[Message]:
    """Say what a probe reads too much, where the grid goes beyond Mach 0.3."""
    altitude, oat = mesh(aircraft, grid)
    warmth = to_si(np.nan_to_num(oat), aircraft.units.temperature)
    fastest, most = 0.0, 0.0
    for _, cas in _known(aircraft, grid)[0]:
        tas = np.nan_to_num(np.asarray(aircraft.tas_from_cas(cas, altitude, np.nan_to_num(oat))))
        tas = np.where(np.isnan(oat), 0.0, tas)
        mach = airspeed.mach_from_tas(to_si(tas, aircraft.units.speed), warmth)
        warmed = airspeed.total_temperature(warmth, mach) - warmth
        fastest, most = max(fastest, float(np.max(mach))), max(most, float(np.max(warmed)))
    if fastest <= 0.3:
        return []
    unit = aircraft.units.temperature
    rise = Quantity(kept(float(convert_difference(most, "K", unit))), unit, sense="minimum")
    return [heading("note-warming", mach=reading(fastest, "", 2), rise=rise)]
