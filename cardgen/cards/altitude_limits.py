"""The speed limit by altitude, for aircraft whose limit is a TAS or a Mach number somewhere."""

import math

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import Limit, crossover_altitude, falls_with_altitude, limit_at
from cardgen.cards.indicated import indicated_column, shown_as_entered, shown_at_cas, speed
from cardgen.cards.table import (
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Table,
    computed,
    entered,
    given,
    words,
)
from cardgen.definition.model import School
from cardgen.definition.speeds import Sense


def altitude_limits_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return the highest speed to indicate at each altitude; None where altitude is all one."""
    if not falls_with_altitude(aircraft):
        return None
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None:
        return Gap("Limit by altitude", f"the school gives no altitudes for {aircraft.kind}")
    altitudes = {float(level): given(float(level), level.text) for level in grid.altitude}
    crossover = crossover_altitude(aircraft)
    if not math.isnan(crossover):
        altitudes[crossover] = _crossover(aircraft, crossover)
    rows = [_row(aircraft, level, altitudes[level]) for level in sorted(altitudes)]
    notes = ["Rounded down. For standard air: where it is warmer, a TAS limit is met at less."]
    if any(row[2].text == DASH for row in rows):
        notes.append("A dash: the manual's tables do not reach there, so that no limit is known.")
    if not math.isnan(crossover):
        notes.append("The altitude that is not round is where VMO and MMO meet.")
    return Table(
        "altitude-limits",
        "Limit by altitude",
        "Find the pressure altitude at the left, or the next higher one; do not fly faster than "
        "the speed beside it.",
        (
            Column("altitude", "Pressure altitude", aircraft.units.altitude),
            indicated_column(aircraft, "limit"),
            Column("cas", "CAS", aircraft.units.speed),
            Column("by", "Set by", words=True),
        ),
        (Block("", tuple(rows)),),
        notes=tuple(notes),
    )


def _crossover(aircraft: Aircraft, altitude: float) -> Cell:
    vmo, mmo = (aircraft.definition.speeds[name][0] for name in ("VMO", "MMO"))
    inputs = {"VMO": f"{speed(aircraft.entry_cas(vmo), aircraft)} CAS", "MMO": f"{mmo.mach}"}
    return computed(altitude, "crossover altitude", inputs, Sense.MAXIMUM)


def _row(aircraft: Aircraft, altitude: float, heading: Cell) -> tuple[Cell, ...]:
    limit = limit_at(aircraft, altitude)
    if limit is None:
        return heading, words(DASH), words(DASH), words("")
    shown, cas = _cells(aircraft, limit, altitude)
    return heading, shown, cas, words(_set_by(aircraft, limit))


def _cells(aircraft: Aircraft, limit: Limit, altitude: float) -> tuple[Cell, Cell]:
    entry, maximum = limit.entry, Sense.MAXIMUM
    at = {"pressure altitude": f"{altitude:.0f} {aircraft.units.altitude}"}
    if limit.quantity == "tas":
        formula, inputs = "limit by TAS", {"TAS": speed(limit.value, aircraft), **at}
    elif limit.quantity == "mach":
        formula, inputs = "limit by Mach", {"Mach": f"{limit.value:g}", **at}
    elif entry.altitude is not None and entry.altitude != altitude:
        formula, inputs = "limit by altitude", at
    elif entry.ias is not None:
        shown = shown_as_entered(aircraft, entry.ias, entry, maximum)
        if entry.cas is not None:
            return shown, entered(entry.cas, entry)
        inputs = {"IAS": speed(float(entry.ias), aircraft)}
        return shown, computed(limit.cas, "calibrated airspeed", inputs, maximum)
    else:
        formula, inputs = "indicated from calibrated", at
    shown = shown_at_cas(aircraft, limit.cas, maximum, formula, inputs)
    return Cell(shown.text, shown.value, shown.origin), computed(
        limit.cas, formula, inputs, maximum
    )


def _set_by(aircraft: Aircraft, limit: Limit) -> str:
    if limit.quantity == "tas":
        return f"{limit.name}, TAS {limit.value:g} {aircraft.units.speed}"
    if limit.quantity == "mach":
        return f"{limit.name} {limit.value:g}"
    return limit.name
