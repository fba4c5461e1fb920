"""Ground speed in head- and tailwinds."""

import math

import numpy as np

from cardgen.air.wind import wind_triangle
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.table import Block, Cell, Column, Table, computed, given
from cardgen.units import convert, from_si, to_si

_WINDS = {"kt": (-30, -20, -10, 10, 20, 30), "km/h": (-40, -20, -10, 10, 20, 40)}


def ground_speed_table(aircraft: Aircraft) -> Table:
    """Return ground speed by TAS and wind along the course.

    Winds are reported in knots, so that an mph indicator's card has knots here.
    """
    unit = "km/h" if aircraft.units.speed == "km/h" else "kt"
    winds = _WINDS[unit]
    rows = []
    for tas in _speeds(aircraft, unit):
        cells = [_cell(tas, wind, unit) for wind in winds]
        rows.append((given(tas), *cells))
    return Table(
        "ground-speed",
        "Ground speed",
        f"Find the TAS, {unit}, at the left; read ground speed under the wind along the course.",
        (
            Column("tas", "TAS", unit),
            *(
                Column(
                    f"{_named(wind)} {abs(wind)}", f"{abs(wind)}", unit, f"{_named(wind)}, {unit}"
                )
                for wind in winds
            ),
        ),
        (Block("", tuple(rows)),),
        notes=("Wind along the course; a crosswind takes a little more.",),
    )


def _cell(tas: float, wind: int, unit: str) -> Cell:
    blows_from = math.pi if wind > 0 else 0.0
    held = wind_triangle(to_si(tas, unit), 0.0, blows_from, to_si(float(abs(wind)), unit))
    value = float(from_si(held.ground_speed, unit))
    return computed(value, "ground speed", {"TAS": f"{tas:g} {unit}", "wind": f"{wind:+d} {unit}"})


def _speeds(aircraft: Aircraft, unit: str) -> list[float]:
    """Return round true airspeeds from slow flight to the fastest that is indicated."""
    table = aircraft.calibration()
    cas = [float(x) for x in table.cas] if table else [60.0, 120.0]
    low, high = (convert(x, aircraft.units.speed, unit) for x in (cas[0] * 1.3, cas[-1]))
    step = next(size for size in (10.0, 20.0, 25.0, 50.0) if (high - low) / size <= 9)
    return list(np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step)


def _named(wind: int) -> str:
    return "Tailwind" if wind > 0 else "Headwind"
