"""Indicated to calibrated airspeed and back, for each flap setting and static source."""

import math
from dataclasses import replace

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.cards.cells import computed, entered, given, heading, taking
from cardgen.cards.indicated import (
    beyond_at_any_altitude,
    calibration_source,
    differs,
    gear_input,
    speed,
)
from cardgen.definition.model import School
from cardgen.definition.names import slug
from cardgen.document.record import Block, Cell, Column, Input, Message, Row, Table, Unit


def calibration_table(aircraft: Aircraft, school: School) -> Table:
    """Return CAS for what the indicator shows."""
    tables = tables_in_order(aircraft)
    unit = aircraft.units.speed
    rows = [
        Row(
            f"indicated-{shown:g}",
            (
                given(shown, aircraft.indicator_unit),
                *(_cas(aircraft, shown, table) for table in tables),
            ),
        )
        for shown in indicated_steps(aircraft)
    ]
    return Table(
        "calibration",
        Message("title-calibration"),
        heading("how-calibration", unit=Unit(unit)),
        (
            Column("indicated", Message("column-ias"), aircraft.indicator_unit, shown=True),
            *_columns(aircraft, tables, "group-cas", unit),
        ),
        (Block("", None, tuple(row for row in rows if _has_value(row))),),
        notes=(_gap(tables), *_remarks(aircraft, tables)),
    )


def indicated_table(aircraft: Aircraft, school: School) -> Table:
    """Return what the indicator shows for a CAS."""
    tables = tables_in_order(aircraft)
    unit = aircraft.indicator_unit
    low = min(float(table.curve.y[0]) for table in tables)
    high = max(float(table.curve.y[-1]) for table in tables)
    rows = [
        Row(
            f"cas-{cas:g}",
            (
                given(cas, aircraft.units.speed),
                *(_indicated(aircraft, cas, table) for table in tables),
            ),
        )
        for cas in _steps(low, high)
    ]
    columns = _columns(aircraft, tables, "group-indicate", unit)
    return Table(
        "indicated",
        Message("title-indicated"),
        heading("how-indicated", unit=Unit(unit)),
        (
            Column("cas", Message("column-cas"), aircraft.units.speed),
            *(replace(column, shown=True) for column in columns),
        ),
        (Block("", None, tuple(row for row in rows if _has_value(row))),),
        notes=(_gap(tables),),
    )


def _gap(tables: list[Calibrated]) -> Message:
    """Say what a dash means, and brackets."""
    down = any(table.gear == "down" for table in tables)
    return Message("note-table-ends-and-limit" + ("-gear" if down else ""))


def _indicated(aircraft: Aircraft, cas: float, table: Calibrated) -> Cell:
    shown = float(aircraft.indicated_from_ias(table.curve.back(cas)))
    at = calibration_source(aircraft, table.flaps, table.static_source, table.gear)
    inputs = (taking("cas", speed(cas, aircraft), at), *setting_inputs(aircraft, table))
    beyond = beyond_at_any_altitude(aircraft, shown, table.flaps, table.gear)
    unit = aircraft.indicator_unit
    return computed(shown, unit, "indicated-from-calibrated", inputs, beyond=beyond)


def indicated_steps(aircraft: Aircraft) -> list[float]:
    """Return round indications over all that the calibration tables and bench card cover."""
    return _steps(*_indicated_range(aircraft, tables_in_order(aircraft)))


def tables_in_order(aircraft: Aircraft) -> list[Calibrated]:
    """Return the calibration tables in order of flap setting, normal static source first."""
    sources = (NORMAL, ALTERNATE)

    def place(table: Calibrated) -> tuple[int, int]:
        return sources.index(table.static_source), aircraft.flaps.index(table.flaps)

    return sorted(aircraft.calibrations, key=place)


def _columns(aircraft: Aircraft, tables: list[Calibrated], group: str, unit: str) -> list[Column]:
    return [
        Column(
            column_id(aircraft, table),
            _setting(aircraft, table),
            unit,
            heading(group, unit=Unit(unit)),
        )
        for table in tables
    ]


def column_id(aircraft: Aircraft, table: Calibrated) -> str:
    """Return the identifier of the column of a calibration table."""
    gear = f"-gear-{table.gear}" if table.gear else ""
    return f"flaps-{slug(table.flaps)}-{table.static_source}{gear}"


def _setting(aircraft: Aircraft, table: Calibrated) -> Message:
    """Name a flap setting, gear and static source shortly."""
    flaps, source = table.flaps, table.static_source
    if table.gear:
        return setting_said(aircraft, flaps, source, table.gear)
    if source == ALTERNATE and flaps == aircraft.flaps[0]:
        return Message("column-alternate")
    if len(aircraft.flaps) == 1:
        return Message("column-all")
    if source == ALTERNATE:
        return heading("column-flaps-alternate", flaps=flaps)
    return heading("column-flaps", flaps=flaps)


def setting_inputs(aircraft: Aircraft, table: Calibrated) -> tuple[Input, ...]:
    """Return the flap setting and static source as a formula takes them, where they matter."""
    inputs = []
    if len(aircraft.flaps) > 1:
        inputs.append(taking("flaps", table.flaps))
    inputs += gear_input(aircraft, table.flaps, table.gear, table.static_source)
    if table.static_source == ALTERNATE:
        inputs.append(taking("static-source", Message("alternate")))
    return tuple(inputs)


def _cas(aircraft: Aircraft, shown: float, table: Calibrated) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    unit = aircraft.units.speed
    beyond = beyond_at_any_altitude(aircraft, shown, table.flaps, table.gear)
    for at, cas in zip(table.ias, table.cas, strict=True):
        if table.is_printed and float(at) == ias and not differs(aircraft):
            return replace(entered(aircraft, cas, table.given, unit), beyond=beyond)
    value = float(table.curve.at(ias))
    inputs = setting_inputs(aircraft, table)
    if not math.isnan(ias):
        said = speed(ias, aircraft, None if ias == round(ias) else 1)
        at_table = calibration_source(aircraft, table.flaps, table.static_source, table.gear)
        inputs = (taking("ias", said, at_table), *inputs)
    beyond = beyond and not math.isnan(value)
    return computed(value, unit, "calibrated-airspeed", inputs, beyond=beyond)


def _indicated_range(aircraft: Aircraft, tables: list[Calibrated]) -> tuple[float, float]:
    ends = np.array([(table.curve.x[0], table.curve.x[-1]) for table in tables], dtype=float)
    shown = np.asarray(aircraft.indicated_from_ias(ends))
    if np.all(np.isnan(shown)):
        return float(ends.min()), float(ends.max())
    correction = aircraft.definition.airframe.instrument_correction
    if correction is not None:  # the bench card may end before the manual's table does
        known = [float(shown) for shown, _ in correction.readings]
        return float(np.nanmin([*shown.flat, known[0]])), float(np.nanmax([*shown.flat, known[-1]]))
    return float(shown.min()), float(shown.max())


def _steps(low: float, high: float) -> list[float]:
    """Return round speeds from low to high, closer where the position error is large."""
    fine = 5 if high <= 250 else 10
    first, last = math.ceil(low / fine - 1e-9), math.floor(high / fine + 1e-9)
    speeds = [fine * n for n in range(first, last + 1)]
    return [
        float(speed)
        for speed in speeds
        if speed <= 20 * fine
        or (speed <= 40 * fine and speed % (2 * fine) == 0)
        or speed % (4 * fine) == 0
    ]


def _has_value(row: Row) -> bool:
    return any(cell.quantity is not None for cell in row.cells[1:])


def _remarks(aircraft: Aircraft, tables: list[Calibrated]) -> list[Message]:
    return [
        heading("note-when", setting=_setting_said(aircraft, table), when=table.when)
        for table in tables
        if table.when
    ]


def _setting_said(aircraft: Aircraft, table: Calibrated) -> Message:
    """Name a table's setting in a sentence of its own."""
    return setting_said(aircraft, table.flaps, table.static_source, table.gear)


def setting_said(aircraft: Aircraft, flaps: str, source: str, gear: str = "") -> Message:
    """Name a flap setting, the gear and the static source, as far as there are others."""
    if gear:
        names = "column-flaps-gear", "column-flaps-gear-alternate"
        return heading(names[source == ALTERNATE], flaps=flaps, gear=Message(f"gear-{gear}"))
    if len(aircraft.flaps) == 1:
        return Message("column-alternate" if source == ALTERNATE else "column-all")
    name = "column-flaps-alternate" if source == ALTERNATE else "column-flaps"
    return heading(name, flaps=flaps)
