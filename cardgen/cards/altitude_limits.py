"""The speed limit by altitude, for aircraft whose limit is a TAS or a Mach number somewhere."""

import math
from dataclasses import replace

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import (
    LIMITS,
    Limit,
    crossover_altitude,
    falls_with_altitude,
    last_row,
    limit_at,
    most_shown,
)
from cardgen.cards.air import altitude_unit, grid_of, levels
from cardgen.cards.cells import (
    Inputs,
    as_entered,
    computed,
    entered,
    heading,
    reading,
    said,
    source,
    taking,
    words_column,
)
from cardgen.cards.indicated import (
    at_cas,
    calibration_source,
    cas_input,
    indicated_column,
    shown_as_entered,
    speed,
)
from cardgen.definition.model import School
from cardgen.document.record import (
    BLANK,
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Message,
    Quantity,
    Row,
    Table,
)
from cardgen.units import convert, convert_difference, to_si


def altitude_limits_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return the highest speed to indicate at each altitude; None where altitude is all one."""
    if not falls_with_altitude(aircraft):
        return None
    grid = grid_of(aircraft, school)
    title = Message("title-altitude-limits")
    if grid is None:
        return Gap("altitude-limits", title, _no_altitudes(aircraft))
    unit = altitude_unit(aircraft, grid)
    altitudes = {float(level): Cell(level.quantity) for level in levels(aircraft, grid)}
    if not altitudes:
        return Gap("altitude-limits", title, Message("missing-air"))
    crossover = crossover_altitude(aircraft)
    if not math.isnan(crossover):
        altitudes[crossover] = _crossover(aircraft, crossover, unit)
    warm = _warmer(aircraft)
    rows = [_row(aircraft, level, altitudes[level], warm) for level in sorted(altitudes)]
    notes = [Message("note-altitude-limits-warm" if warm else "note-altitude-limits")]
    notes += _bound_below(aircraft, sorted(altitudes))
    if any(row.cells[1].is_dash and row.cells[2].is_dash for row in rows):
        notes.append(Message("note-no-limit-known"))
    if not math.isnan(crossover):
        notes.append(Message("note-crossover"))
    last = last_row(aircraft)
    if last is not None and last.altitude is not None:
        notes.append(heading("note-not-above", altitude=as_entered(last.altitude, unit)))
    return Table(
        "altitude-limits",
        title,
        Message("how-altitude-limits"),
        (
            Column("altitude", Message("column-pressure-altitude"), unit),
            indicated_column(aircraft, "limit"),
            *([_warm_column(aircraft)] if warm else []),
            Column("cas", Message("column-cas"), aircraft.units.speed),
            *([Column("mach", Message("column-mach"))] if _has_mach(aircraft) else []),
            words_column("by"),
        ),
        (Block("", None, tuple(rows)),),
        notes=tuple(notes),
    )


def _no_altitudes(aircraft: Aircraft) -> Message:
    return heading("missing-altitudes", kind=Message(f"kind-{aircraft.kind}"))


def _crossover(aircraft: Aircraft, altitude: float, unit: str) -> Cell:
    vmo, mmo = (aircraft.definition.speeds[name][0] for name in ("VMO", "MMO"))
    assert mmo.mach is not None
    inputs = (
        cas_input(aircraft, "vmo", aircraft.entry_cas(vmo), vmo),
        taking("mmo", reading(float(mmo.mach), ""), source(aircraft, mmo.mach)),
    )
    said = float(convert(altitude, aircraft.units.altitude, unit))
    return computed(said, unit, "crossover-altitude", inputs, "maximum")


WARM = 20.0  # K above standard, that a limit in TAS is tabulated for too


def _warmer(aircraft: Aircraft) -> float:
    """Return how much warmer a limit is tabulated for too: a TAS is met at less when it is warm.

    Nothing where all limits are airspeeds or Mach numbers: at a pressure
    altitude each of these is one CAS at any temperature.
    """
    entries = [one for name in LIMITS for one in aircraft.definition.speeds.get(name, [])]
    if not any(one.tas for one in entries):
        return 0.0
    return float(convert_difference(WARM, "K", aircraft.units.temperature))


def _warm_column(aircraft: Aircraft) -> Column:
    quantity = Quantity(_warmer(aircraft), aircraft.units.temperature)
    column = indicated_column(aircraft, "limit-warm")
    return replace(column, heading=heading("column-isa-warmer", warmer=quantity))


def _bound_below(aircraft: Aircraft, levels: list[float]) -> list[Message]:
    """Say where a limit in TAS binds below the altitude from which the manual names it."""
    unit, notes = aircraft.units.altitude, []
    warm = _warmer(aircraft)
    for name in LIMITS:
        for entry in aircraft.definition.speeds.get(name, []):
            if entry.tas is None or entry.from_altitude is None:
                continue
            below = [one for one in levels if one < float(entry.from_altitude)]
            for level in below:
                limit = limit_at(aircraft, level, _standard(aircraft, level) + warm)
                if limit is not None and limit.entry is entry:
                    values = {
                        "tas": as_entered(entry.tas, aircraft.units.speed),
                        "named": as_entered(entry.from_altitude, unit),
                        "altitude": reading(level, unit),
                    }
                    notes.append(heading("note-tas-binds-below", **values))
                    break
    return notes


def _standard(aircraft: Aircraft, altitude: float) -> float:
    return float(aircraft.standard_temperature(altitude))


def _row(aircraft: Aircraft, altitude: float, head: Cell, warm: float) -> Row:
    assert head.quantity is not None
    name = f"altitude-{head.quantity.value:.6g}" if head.origin is None else "crossover"
    limit = limit_at(aircraft, altitude)
    warmer = []
    if warm:
        oat = _standard(aircraft, altitude) + warm
        at = limit_at(aircraft, altitude, oat)
        warmer = [DASH if at is None else _cells(aircraft, at, altitude, oat)[0]]
    by_mach = _has_mach(aircraft)
    if limit is None:
        return Row(name, (head, DASH, *warmer, DASH, *([DASH] if by_mach else []), BLANK))
    shown, cas = _cells(aircraft, limit, altitude)
    mach = [_mach(aircraft, limit, altitude)] if by_mach else []
    return Row(name, (head, shown, *warmer, cas, *mach, said(_set_by(aircraft, limit))))


def _has_mach(aircraft: Aircraft) -> bool:
    """Whether a limit is a Mach number, so that the limit is worth having as one throughout."""
    return any(one.mach for name in LIMITS for one in aircraft.definition.speeds.get(name, []))


def _mach(aircraft: Aircraft, limit: Limit, altitude: float) -> Cell:
    """Return the limit as a Mach number: as entered, or of its CAS."""
    if limit.quantity == "mach" and limit.entry.mach is not None:
        return entered(aircraft, limit.entry.mach, limit.entry, "")
    pressure = atmosphere.pressure(to_si(altitude, aircraft.units.altitude))
    mach = float(airspeed.mach_from_cas(to_si(limit.cas, aircraft.units.speed), pressure))
    inputs = (
        taking("cas", speed(limit.cas, aircraft, 1)),
        taking("pressure-altitude", reading(altitude, aircraft.units.altitude, 0)),
    )
    return computed(mach, "", "mach", inputs, "maximum", 2)


def _cells(
    aircraft: Aircraft, limit: Limit, altitude: float, oat: float | None = None
) -> tuple[Cell, Cell]:
    entry, unit = limit.entry, aircraft.units.speed
    inputs: Inputs = (taking("pressure-altitude", reading(altitude, aircraft.units.altitude, 0)),)
    if oat is not None and limit.quantity == "tas":
        inputs = (*inputs, taking("oat", reading(oat, aircraft.units.temperature, 1)))
    if limit.quantity == "tas":
        formula = "limit-by-tas"
        inputs = (taking("tas", speed(limit.value, aircraft), source(aircraft, entry.tas)), *inputs)
    elif limit.quantity == "mach":
        formula = "limit-by-mach"
        mach = taking("mach", reading(limit.value, ""), source(aircraft, entry.mach))
        inputs = (mach, *inputs)
    elif limit.value != getattr(entry, limit.quantity):  # between two rows of the manual
        formula = "limit-by-altitude"
        inputs = (replace(inputs[0], source=f"given/speeds/{limit.name}"),)
    elif entry.ias is not None:
        shown = shown_as_entered(aircraft, entry.ias, entry, "maximum", True)
        if entry.cas is not None:
            return shown, entered(aircraft, entry.cas, entry, unit, sense="maximum")
        at = calibration_source(aircraft, entry.flaps)
        ias = taking("ias", speed(float(entry.ias), aircraft), at)
        return shown, computed(limit.cas, unit, "calibrated-airspeed", (ias,), "maximum")
    else:
        formula = "indicated-from-calibrated"
        inputs = (replace(inputs[0], source=source(aircraft, entry.cas)),)
    shown, cas = at_cas(aircraft, limit.cas, "maximum", formula, inputs)
    if limit.quantity == "ias":
        most = most_shown(aircraft, limit)
        shown = computed(most, aircraft.indicator_unit, formula, inputs, "maximum")
    return shown, cas


def _set_by(aircraft: Aircraft, limit: Limit) -> Message:
    if limit.quantity == "tas":
        return heading("set-by-tas", speed=limit.name, tas=speed(limit.value, aircraft))
    if limit.quantity == "mach":
        return heading("set-by-mach", speed=limit.name, mach=reading(limit.value, ""))
    return heading("set-by", speed=limit.name)
