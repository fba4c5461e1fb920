"""The speed limit by altitude, for aircraft whose limit is a TAS or a Mach number somewhere."""

import math
from dataclasses import replace

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import Limit, crossover_altitude, falls_with_altitude, limit_at
from cardgen.cards.cells import (
    Inputs,
    computed,
    entered,
    given,
    heading,
    reading,
    said,
    source,
    taking,
    words_column,
)
from cardgen.cards.indicated import (
    calibration_source,
    cas_input,
    indicated_column,
    shown_as_entered,
    shown_at_cas,
    speed,
)
from cardgen.definition.model import School
from cardgen.document.record import BLANK, DASH, Block, Cell, Column, Gap, Message, Row, Table


def altitude_limits_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return the highest speed to indicate at each altitude; None where altitude is all one."""
    if not falls_with_altitude(aircraft):
        return None
    grid = school.reference_speeds.get(aircraft.kind)
    title = Message("title-altitude-limits")
    if grid is None:
        return Gap("altitude-limits", title, _no_altitudes(aircraft))
    unit = aircraft.units.altitude
    altitudes = {float(level): given(float(level), unit, level.text) for level in grid.altitude}
    crossover = crossover_altitude(aircraft)
    if not math.isnan(crossover):
        altitudes[crossover] = _crossover(aircraft, crossover)
    rows = [_row(aircraft, level, altitudes[level]) for level in sorted(altitudes)]
    notes = [Message("note-altitude-limits")]
    if any(row.cells[1].is_dash and row.cells[2].is_dash for row in rows):
        notes.append(Message("note-no-limit-known"))
    if not math.isnan(crossover):
        notes.append(Message("note-crossover"))
    return Table(
        "altitude-limits",
        title,
        Message("how-altitude-limits"),
        (
            Column("altitude", Message("column-pressure-altitude"), unit),
            indicated_column(aircraft, "limit"),
            Column("cas", Message("column-cas"), aircraft.units.speed),
            words_column("by"),
        ),
        (Block("", None, tuple(rows)),),
        notes=tuple(notes),
    )


def _no_altitudes(aircraft: Aircraft) -> Message:
    return heading("missing-altitudes", kind=Message(f"kind-{aircraft.kind}"))


def _crossover(aircraft: Aircraft, altitude: float) -> Cell:
    vmo, mmo = (aircraft.definition.speeds[name][0] for name in ("VMO", "MMO"))
    assert mmo.mach is not None
    inputs = (
        cas_input(aircraft, "vmo", aircraft.entry_cas(vmo), vmo),
        taking("mmo", reading(float(mmo.mach), ""), source(aircraft, mmo.mach)),
    )
    return computed(altitude, aircraft.units.altitude, "crossover-altitude", inputs, "maximum")


def _row(aircraft: Aircraft, altitude: float, head: Cell) -> Row:
    name = f"altitude-{altitude:.6g}" if head.origin is None else "crossover"
    limit = limit_at(aircraft, altitude)
    if limit is None:
        return Row(name, (head, DASH, DASH, BLANK))
    shown, cas = _cells(aircraft, limit, altitude)
    return Row(name, (head, shown, cas, said(_set_by(aircraft, limit))))


def _cells(aircraft: Aircraft, limit: Limit, altitude: float) -> tuple[Cell, Cell]:
    entry, unit = limit.entry, aircraft.units.speed
    inputs: Inputs = (taking("pressure-altitude", reading(altitude, aircraft.units.altitude, 0)),)
    if limit.quantity == "tas":
        formula = "limit-by-tas"
        inputs = (taking("tas", speed(limit.value, aircraft), source(aircraft, entry.tas)), *inputs)
    elif limit.quantity == "mach":
        formula = "limit-by-mach"
        mach = taking("mach", reading(limit.value, ""), source(aircraft, entry.mach))
        inputs = (mach, *inputs)
    elif entry.altitude is not None and entry.altitude != altitude:
        formula = "limit-by-altitude"
        inputs = (replace(inputs[0], source=f"given/speeds/{limit.name}"),)
    elif entry.ias is not None:
        shown = shown_as_entered(aircraft, entry.ias, entry, "maximum")
        if entry.cas is not None:
            return shown, entered(aircraft, entry.cas, entry, unit, sense="maximum")
        at = calibration_source(aircraft, entry.flaps)
        ias = taking("ias", speed(float(entry.ias), aircraft), at)
        return shown, computed(limit.cas, unit, "calibrated-airspeed", (ias,), "maximum")
    else:
        formula = "indicated-from-calibrated"
        inputs = (replace(inputs[0], source=source(aircraft, entry.cas)),)
    shown = shown_at_cas(aircraft, limit.cas, "maximum", formula, inputs)
    assert shown.beside is not None
    return replace(shown, beside=None), shown.beside


def _set_by(aircraft: Aircraft, limit: Limit) -> Message:
    if limit.quantity == "tas":
        return heading("set-by-tas", speed=limit.name, tas=speed(limit.value, aircraft))
    if limit.quantity == "mach":
        return heading("set-by-mach", speed=limit.name, mach=reading(limit.value, ""))
    return heading("set-by", speed=limit.name)
