"""Ground speed, crosswind and glide."""

import itertools
import math
from dataclasses import replace

import numpy as np

from cardgen.air.wind import wind_components, wind_triangle
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.rounding import printed
from cardgen.cards.table import DASH, Block, Cell, Column, Gap, Table, computed, given, words
from cardgen.definition.model import Crosswind
from cardgen.definition.speeds import Sense
from cardgen.units import convert, from_si, to_si

_WINDS = {"kt": (-30, -20, -10, 10, 20, 30), "km/h": (-40, -20, -10, 10, 20, 40)}


def ground_speed_table(aircraft: Aircraft) -> Table:
    """Return ground speed by TAS and wind along the course.

    Winds are reported in knots, so that an mph indicator's card has knots here.
    """
    unit = wind_unit(aircraft)
    winds = _WINDS[unit]
    rows = []
    for tas in _speeds(aircraft, unit):
        cells = [_cell(tas, wind, unit) for wind in winds]
        rows.append((given(tas), *cells))
    notes = ["Wind along the course; a crosswind takes a little more."]
    if any(cell.text == DASH for row in rows for cell in row):
        notes.append("A dash: the headwind is as fast as the aircraft.")
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
        notes=tuple(notes),
    )


def _cell(tas: float, wind: int, unit: str) -> Cell:
    if to_si(tas, unit) <= to_si(float(-wind), unit):
        return words(DASH)
    blows_from = math.pi if wind > 0 else 0.0
    held = wind_triangle(to_si(tas, unit), 0.0, blows_from, to_si(float(abs(wind)), unit))
    value = float(from_si(held.ground_speed, unit))
    return computed(value, "ground speed", {"TAS": f"{tas:g} {unit}", "wind": f"{wind:+d} {unit}"})


def _speeds(aircraft: Aircraft, unit: str) -> list[float]:
    """Return round true airspeeds from slow flight to the fastest that is indicated."""
    table = aircraft.calibration()
    cas = [float(x) for x in table.cas] if table else [60.0, 120.0]
    low, high = (convert(x, aircraft.units.speed, unit) for x in (cas[0] * 1.3, cas[-1]))
    sizes = (digit * 10.0**power for power in itertools.count(1) for digit in (1.0, 2.0, 2.5, 5.0))
    step = next(size for size in sizes if (high - low) / size <= 9)
    return list(np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step)


def _named(wind: int) -> str:
    return "Tailwind" if wind > 0 else "Headwind"


ANGLES = tuple(range(10, 91, 10))
WINDS = tuple(range(5, 41, 5))


def wind_unit(aircraft: Aircraft) -> str:
    """Return the unit of wind on this card: knots, as winds are reported, or km/h."""
    return "km/h" if aircraft.indicator_unit == "km/h" else "kt"


def crosswind_limit_table(aircraft: Aircraft) -> Table | Gap:
    """Return the wind speed at which the crosswind is the demonstrated one, by angle."""
    crosswind = aircraft.definition.type.crosswind
    if crosswind is None:
        return Gap("Crosswind", "the definition gives no demonstrated crosswind")
    unit = wind_unit(aircraft)
    demonstrated = _demonstrated(aircraft, crosswind)
    rows = []
    for angle in ANGLES:
        value = demonstrated / math.sin(math.radians(angle))
        inputs = {"demonstrated crosswind": f"{demonstrated:g} {unit}", "angle": f"{angle}°"}
        rows.append(
            (given(angle, f"{angle}°"), computed(value, "wind limit", inputs, Sense.MAXIMUM))
        )
    return Table(
        "crosswind-limit",
        f"{_said(aircraft, crosswind)} across",
        "Find the angle between wind and runway, or the next greater, at the left; beside it is "
        "the wind speed at which the crosswind is the greatest that was demonstrated.",
        (Column("angle", "Angle"), Column("wind", "Wind", unit)),
        (Block("", tuple(rows)),),
        notes=(
            f"{_said(aircraft, crosswind)} across is the demonstrated crosswind; a limit only "
            "where the manual says so.",
        ),
    )


def crosswind_table(aircraft: Aircraft) -> Table | None:
    """Return crosswind components, those beyond the demonstrated one marked."""
    crosswind = aircraft.definition.type.crosswind
    if crosswind is None:
        return None
    unit = wind_unit(aircraft)
    demonstrated = _demonstrated(aircraft, crosswind)
    rows = []
    for speed in WINDS:
        cells = []
        for angle in ANGLES:
            parts = wind_components(math.radians(angle), float(speed), 0.0)
            inputs = {"wind": f"{speed} {unit}", "angle": f"{angle}°"}
            across = float(parts.crosswind)
            cell = computed(across, "wind components", inputs, Sense.MINIMUM)
            cells.append(replace(cell, beyond=float(cell.text) > demonstrated))
        rows.append((given(float(speed)), *cells))
    return Table(
        "crosswind",
        "Crosswind",
        "Find the wind speed, or the next greater, at the left; read the crosswind under the angle "
        "between wind and runway, or the next greater.",
        (
            Column("wind", "Wind", unit),
            *(
                Column(f"{angle}", f"{angle}°", unit, f"Crosswind, {unit}, by angle to the runway")
                for angle in ANGLES
            ),
        ),
        (Block("", tuple(rows)),),
        notes=(
            f"Rounded up. In brackets: more than the demonstrated {_said(aircraft, crosswind)}.",
        ),
    )


def _demonstrated(aircraft: Aircraft, crosswind: Crosswind) -> float:
    return float(convert(float(crosswind.demonstrated), aircraft.units.speed, wind_unit(aircraft)))


def _said(aircraft: Aircraft, crosswind: Crosswind) -> str:
    """Return the demonstrated crosswind as entered, or in this card's unit rounded down."""
    unit = wind_unit(aircraft)
    if unit == aircraft.units.speed:
        return f"{crosswind.demonstrated.text} {unit}"
    return f"{printed(_demonstrated(aircraft, crosswind), Sense.MAXIMUM)} {unit}"


def glide_table(aircraft: Aircraft) -> Table | Gap:
    """Return glide distance by height."""
    glide = aircraft.definition.type.glide
    if glide is None:
        return Gap("Glide distance", "the definition gives no glide ratio")
    unit = aircraft.units.altitude
    far = "NM" if unit == "ft" else "km"
    heights = range(1000, 10001, 1000) if unit == "ft" else range(300, 3001, 300)
    rows = []
    for height in heights:
        value = float(convert(height * float(glide.ratio), unit, far))
        inputs = {"height": f"{height} {unit}", "glide ratio": glide.ratio.text}
        rows.append(
            (given(float(height)), computed(value, "glide distance", inputs, Sense.MAXIMUM, 1))
        )
    return Table(
        "glide",
        "Glide distance",
        "Find the height above the ground, or the next lower, at the left; beside it is how far "
        "the aircraft glides in still air at its best glide speed.",
        (Column("height", "Height", unit), Column("distance", "Glide", far)),
        (Block("", tuple(rows)),),
        notes=(f"Glide ratio {glide.ratio}, still air, rounded down.",),
    )
