"""Ground speed and crosswind."""

import itertools
import math
from dataclasses import replace

import numpy as np

from cardgen.air.wind import wind_components, wind_triangle
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.cells import as_entered, computed, given, heading, reading, source, taking
from cardgen.definition.model import Crosswind, School
from cardgen.document.record import (
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Message,
    Quantity,
    Row,
    Table,
    Unit,
)
from cardgen.document.rounding import kept
from cardgen.units import convert, from_si, to_si

_WINDS = (-30, -20, -10, 10, 20, 30)  # kt, as winds are reported, on every card


def ground_speed_table(aircraft: Aircraft, school: School) -> Table:
    """Return ground speed by TAS and wind along the course.

    Winds are in knots, as they are reported. So are TAS and ground speed, but
    on a card in km/h.
    """
    unit = "km/h" if aircraft.indicator_unit == "km/h" else "kt"
    rows = [
        Row(f"tas-{tas:g}", (given(tas, unit), *(_cell(tas, wind, unit) for wind in _WINDS)))
        for tas in _speeds(aircraft, unit)
    ]
    notes = [Message("note-along-the-course")]
    if any(cell.is_dash for row in rows for cell in row.cells):
        notes.append(Message("note-headwind-as-fast"))
    return Table(
        "ground-speed",
        Message("title-ground-speed"),
        heading("how-ground-speed", unit=Unit(unit)),
        (
            Column("tas", Message("column-tas"), unit),
            *(
                Column(
                    f"{wind_name(wind)}-{abs(wind)}",
                    wind_heading(abs(wind), unit),
                    unit,
                    Message(f"group-{wind_name(wind)}"),
                )
                for wind in _WINDS
            ),
        ),
        (Block("", None, tuple(rows)),),
        notes=tuple(notes),
    )


def wind_heading(wind: int, unit: str) -> Message:
    """Return a wind in knots, with a card's own unit beside it where that is another."""
    quantity = Quantity(float(wind), "kt")
    if unit == "kt":
        return heading("wind", wind=quantity)
    own = Quantity(kept(float(convert(float(wind), "kt", unit))), unit)
    return heading("wind-both", wind=quantity, own=own)


def _cell(tas: float, wind: int, unit: str) -> Cell:
    if to_si(tas, unit) <= to_si(float(-wind), "kt"):
        return DASH
    blows_from = math.pi if wind > 0 else 0.0
    held = wind_triangle(to_si(tas, unit), 0.0, blows_from, to_si(float(abs(wind)), "kt"))
    value = float(from_si(held.ground_speed, unit))
    inputs = (
        taking("tas", reading(tas, unit)),
        taking("wind", Quantity(float(wind), "kt", entered=f"{wind:+d}")),
    )
    return computed(value, unit, "ground-speed", inputs)


def _speeds(aircraft: Aircraft, unit: str) -> list[float]:
    """Return round true airspeeds from slow flight to the fastest that is indicated."""
    table = aircraft.calibration()
    cas = [float(x) for x in table.cas] if table else [60.0, 120.0]
    low, high = (convert(x, aircraft.units.speed, unit) for x in (cas[0] * 1.3, cas[-1]))
    sizes = (digit * 10.0**power for power in itertools.count(1) for digit in (1.0, 2.0, 2.5, 5.0))
    step = next(size for size in sizes if (high - low) / size <= 9)
    return list(np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step)


def wind_name(wind: int) -> str:
    """Return whether a wind along the course, a tailwind above nought, is a tail or a headwind."""
    return "tailwind" if wind > 0 else "headwind"


ANGLES = tuple(range(10, 91, 10))
WINDS = tuple(range(5, 41, 5))


def crosswind_limit_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return the wind speed at which the crosswind is the demonstrated one, by angle."""
    crosswind = aircraft.definition.type.crosswind
    if crosswind is None:
        title = Message("title-crosswind-limit-short")
        return Gap("crosswind-limit", title, Message("missing-crosswind"))
    unit = "kt"
    demonstrated = _demonstrated(aircraft, crosswind)
    at = source(aircraft, crosswind.demonstrated)
    rows = []
    for angle in ANGLES:
        value = demonstrated / math.sin(math.radians(angle))
        inputs = (
            taking("demonstrated-crosswind", reading(demonstrated, unit), at),
            taking("angle", _degrees(angle)),
        )
        found = computed(value, unit, "wind-limit", inputs, "maximum")
        rows.append(Row(f"angle-{angle}", (given(angle, "deg"), found)))
    said = as_entered(crosswind.demonstrated, crosswind_unit(aircraft, crosswind), "maximum")
    return Table(
        "crosswind-limit",
        heading("title-crosswind-limit", crosswind=said),
        Message("how-crosswind-limit"),
        (
            Column("angle", Message("column-angle")),
            Column("wind", Message("column-wind"), unit),
        ),
        (Block("", None, tuple(rows)),),
        notes=(heading("note-crosswind-limit", crosswind=said),),
    )


def _degrees(angle: int) -> Quantity:
    return Quantity(float(angle), "deg")


def crosswind_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return crosswind components, those beyond the demonstrated one marked."""
    crosswind = aircraft.definition.type.crosswind
    if crosswind is None:
        return None
    unit = "kt"
    demonstrated = _demonstrated(aircraft, crosswind)
    said = as_entered(crosswind.demonstrated, crosswind_unit(aircraft, crosswind), "maximum")
    rows = []
    for speed in WINDS:
        cells = []
        for angle in ANGLES:
            parts = wind_components(math.radians(angle), float(speed), 0.0)
            inputs = (
                taking("wind", Quantity(float(speed), unit)),
                taking("angle", _degrees(angle)),
            )
            across = float(parts.crosswind)
            cell = computed(across, unit, "wind-components", inputs, "minimum")
            cells.append(replace(cell, beyond=across > demonstrated + 1e-9))
        rows.append(Row(f"wind-{speed}", (given(float(speed), unit), *cells)))
    return Table(
        "crosswind",
        Message("title-crosswind"),
        Message("how-crosswind"),
        (
            Column("wind", Message("column-wind"), unit),
            *(
                Column(
                    f"angle-{angle}",
                    heading("angle", angle=_degrees(angle)),
                    unit,
                    heading("group-crosswind", unit=Unit(unit)),
                )
                for angle in ANGLES
            ),
        ),
        (Block("", None, tuple(rows)),),
        notes=(heading("note-crosswind", crosswind=said),),
    )


def _demonstrated(aircraft: Aircraft, crosswind: Crosswind) -> float:
    """Return the demonstrated crosswind in knots."""
    unit = crosswind_unit(aircraft, crosswind)
    return float(convert(float(crosswind.demonstrated), unit, "kt"))


def crosswind_unit(aircraft: Aircraft, crosswind: Crosswind) -> str:
    """Return the unit that the manual gives the demonstrated crosswind in."""
    return crosswind.unit or aircraft.units.speed
