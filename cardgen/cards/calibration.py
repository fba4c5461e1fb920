"""Indicated to calibrated airspeed and back, for each flap setting and static source."""

import math
from dataclasses import replace

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.cards.indicated import beyond_flap_limit, differs, speed
from cardgen.cards.table import Block, Cell, Column, Table, computed, entered, given
from cardgen.definition.model import Calibration

_GAP = "A dash: the manual's table does not reach there. In brackets: above the limit."


def calibration_table(aircraft: Aircraft) -> Table:
    """Return CAS for what the indicator shows."""
    tables = _tables(aircraft)
    unit = aircraft.indicator_unit
    rows = []
    for shown in indicated_steps(aircraft):
        rows.append((given(shown), *(_cas(aircraft, shown, table) for table in tables)))
    return Table(
        "calibration",
        "Calibrated airspeed",
        f"Find what the indicator shows at the left; read CAS, {aircraft.units.speed}, under the "
        "flap setting and static source.",
        (
            Column("indicated", "Indicator shows" if differs(aircraft) else "IAS", unit),
            *_columns(aircraft, tables, "CAS", aircraft.units.speed),
        ),
        (Block("", tuple(row for row in rows if _has_value(row))),),
        notes=(_GAP, *_remarks(aircraft, tables)),
    )


def indicated_table(aircraft: Aircraft) -> Table:
    """Return what the indicator shows for a CAS."""
    tables = _tables(aircraft)
    unit = aircraft.indicator_unit
    low = min(float(table.cas[0]) for table in tables)
    high = max(float(table.cas[-1]) for table in tables)
    rows = []
    for cas in _steps(low, high):
        cells = []
        for table in tables:
            flaps = table.flaps or aircraft.flaps[0]
            ias = aircraft.ias_from_cas(cas, flaps, table.static_source)
            shown = float(aircraft.indicated_from_ias(ias))
            inputs = {"CAS": speed(cas, aircraft), **_setting(aircraft, table)}
            cell = computed(shown, "indicated from calibrated", inputs)
            cells.append(replace(cell, beyond=beyond_flap_limit(aircraft, shown, table.flaps)))
        rows.append((given(cas), *cells))
    return Table(
        "indicated",
        "Airspeed to indicate",
        f"Find the CAS wanted at the left; read what the indicator must show, {unit}, under the "
        "flap setting and static source.",
        (Column("cas", "CAS", aircraft.units.speed), *_columns(aircraft, tables, "Indicate", unit)),
        (Block("", tuple(row for row in rows if _has_value(row))),),
        notes=(_GAP,),
    )


def indicated_steps(aircraft: Aircraft) -> list[float]:
    """Return round indications over all that the calibration tables and bench card cover."""
    return _steps(*_indicated_range(aircraft, _tables(aircraft)))


def _tables(aircraft: Aircraft) -> list[Calibration]:
    """Return the calibration tables in order of flap setting, normal static source first."""
    order = [(flaps, source) for source in (NORMAL, ALTERNATE) for flaps in aircraft.flaps]
    found = (aircraft.calibration(flaps, source) for flaps, source in order)
    return [table for table in found if table is not None]


def _columns(aircraft: Aircraft, tables: list[Calibration], what: str, unit: str) -> list[Column]:
    columns = []
    for table in tables:
        setting = _setting(aircraft, table)
        heading = ", ".join(f"{name} {value}" for name, value in setting.items()) or "no flaps"
        retracted = setting.get("flaps", aircraft.flaps[0]) == aircraft.flaps[0]
        short = "Alternate static" if "static source" in setting and retracted else _named(setting)
        columns.append(Column(heading, short, unit, f"{what}, {unit}"))
    return columns


def _named(setting: dict[str, str]) -> str:
    """Name a flap setting and static source shortly."""
    flaps = f"flaps {setting['flaps']}" if "flaps" in setting else ""
    source = "alternate static" if "static source" in setting else ""
    said = ", ".join(part for part in (flaps, source) if part) or "all"
    return said[0].upper() + said[1:]


def _setting(aircraft: Aircraft, table: Calibration) -> dict[str, str]:
    setting = {}
    if len(aircraft.flaps) > 1:
        setting["flaps"] = table.flaps or aircraft.flaps[0]
    if table.static_source == ALTERNATE:
        setting["static source"] = ALTERNATE
    return setting


def _cas(aircraft: Aircraft, shown: float, table: Calibration) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    beyond = beyond_flap_limit(aircraft, shown, table.flaps)
    for at, cas in zip(table.ias, table.cas, strict=True):
        if float(at) == ias and not differs(aircraft):
            return replace(entered(cas, table), beyond=beyond)
    value = float(aircraft.cas_from_ias(ias, table.flaps, table.static_source))
    inputs = _setting(aircraft, table)
    if not math.isnan(ias):
        inputs = {"IAS": speed(ias, aircraft, None if ias == round(ias) else 1), **inputs}
    cell = computed(value, "calibrated airspeed", inputs)
    return replace(cell, beyond=beyond and cell.value is not None)


def _indicated_range(aircraft: Aircraft, tables: list[Calibration]) -> tuple[float, float]:
    ends = np.array([(float(table.ias[0]), float(table.ias[-1])) for table in tables], dtype=float)
    shown = np.asarray(aircraft.indicated_from_ias(ends))
    if np.all(np.isnan(shown)):
        return float(ends.min()), float(ends.max())
    correction = aircraft.definition.airframe.instrument_correction
    if correction is not None:  # the bench card may end before the manual's table does
        known = np.array([correction.indicated[0], correction.indicated[-1]], dtype=float)
        return float(np.nanmin([*shown.flat, known[0]])), float(np.nanmax([*shown.flat, known[1]]))
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


def _has_value(row: tuple[Cell, ...]) -> bool:
    return any(cell.value is not None for cell in row[1:])


def _remarks(aircraft: Aircraft, tables: list[Calibration]) -> list[str]:
    remarks = []
    for table in tables:
        if table.when:
            remarks.append(f"{_named(_setting(aircraft, table))}: {table.when}.")
    return remarks
