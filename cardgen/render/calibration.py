"""What to add to the indication to have CAS, drawn over the indication.

The drawing is ``templates/calibration.svg``.
"""

import math
from dataclasses import dataclass

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, Aircraft
from cardgen.cards.indicated import differs
from cardgen.definition.model import Calibration
from cardgen.render.axes import DASHES, Axis, axis, polyline
from cardgen.units import Array, convert

WIDTH, HEIGHT = 360.0, 190.0
SHAPE = HEIGHT / WIDTH
_LEFT, _RIGHT, _BOTTOM = 34.0, 346.0, 160.0
_LETTER, _SAMPLE, _ROW = 6.1, 24.0, 15.0  # of the names above the chart


@dataclass(frozen=True)
class Curve:
    """One calibration table: its line, its points, and its name with a sample above the chart."""

    name: str
    path: str
    points: tuple[tuple[float, float], ...]
    dash: str
    alternate: bool
    name_x: float
    name_y: float


@dataclass(frozen=True)
class CalibrationChart:
    """All that the drawing needs; `zero` is where no error lies."""

    x: Axis
    y: Axis
    x_title: str
    y_title: str
    zero: float
    curves: tuple[Curve, ...]
    description: str


def draw_calibration(aircraft: Aircraft) -> CalibrationChart | None:
    """Return the calibration curves of an aircraft, all in its indicator's unit.

    None where the indicator's bench card reaches none of the manual's tables.
    """
    found = [(table, *_error(aircraft, table)) for table in aircraft.definition.calibration]
    found = [one for one in found if len(one[1]) > 1]
    if not found:
        return None
    unit = aircraft.indicator_unit
    named = [(_name(aircraft, table), table, shown, error) for table, shown, error in found]
    places, rows = _places([name for name, *_ in named])
    every_x = np.concatenate([shown for _, _, shown, _ in named])
    every_y = np.concatenate([error for *_, error in named])
    x = axis(float(every_x.min()), float(every_x.max()), _LEFT, _RIGHT, 9)
    low, high = min(-0.5, float(every_y.min())), max(0.5, float(every_y.max()))
    y = axis(low, high, _BOTTOM, 8.0 + _ROW * rows, 7)
    curves = [
        Curve(
            name,
            polyline(x, y, zip(shown, error, strict=True)),
            tuple((x.at(a), y.at(b)) for a, b in zip(shown, error, strict=True)),
            DASHES[n % len(DASHES)],
            table.static_source == ALTERNATE,
            *place,
        )
        for n, ((name, table, shown, error), place) in enumerate(zip(named, places, strict=True))
    ]
    shows = "Indicator shows" if differs(aircraft) else "IAS"
    said = "; ".join(
        f"{name}: add {_signed(error[0])} at {shown[0]:.0f}, {_signed(error[-1])} at "
        f"{shown[-1]:.0f}"
        for name, _, shown, error in named
    )
    return CalibrationChart(
        x, y, f"{shows}, {unit}", f"CAS less {'what it shows' if differs(aircraft) else 'IAS'}, "
        f"{unit}", y.at(0.0), tuple(curves), f"What to add for CAS, {unit}. {said}",
    )  # fmt: skip


def _error(aircraft: Aircraft, table: Calibration) -> tuple[Array, Array]:
    """Return indications and what to add to them, at every point where the curve bends."""
    bench = aircraft.definition.airframe.instrument_correction
    bends = np.array(bench.indicated if bench else [], dtype=float)
    between = aircraft.cas_from_ias(
        aircraft.ias_from_indicated(bends), table.flaps, table.static_source
    )
    nodes = np.asarray(aircraft.indicated_from_ias(np.array(table.ias, dtype=float)))
    shown, first = np.unique(np.concatenate([nodes, bends]), return_index=True)
    cas = np.concatenate([np.array(table.cas, dtype=float), np.asarray(between)])[first]
    cas = np.asarray(convert(cas, aircraft.units.speed, aircraft.indicator_unit))
    known = ~np.isnan(cas + shown)
    return shown[known], (cas - shown)[known]


def _name(aircraft: Aircraft, table: Calibration) -> str:
    setting = table.flaps or aircraft.flaps[0]
    flaps = f"flaps {setting}" if len(aircraft.flaps) > 1 else "no flaps"
    if table.static_source != ALTERNATE:
        return flaps
    return "alternate static" if setting == aircraft.flaps[0] else f"alternate, {flaps}"


def _places(names: list[str]) -> tuple[list[tuple[float, float]], int]:
    """Set names in rows above the chart; return where each begins, and how many rows."""
    places, x, row = [], _LEFT, 0
    for name in names:
        width = _SAMPLE + 4 + _LETTER * len(name) + 8
        if x + width > WIDTH and x > _LEFT:
            x, row = _LEFT, row + 1
        places.append((round(x, 2), 10.0 + _ROW * row))
        x += width
    return places, row + 1


def _signed(value: float) -> str:
    return "0" if math.isclose(value, 0.0, abs_tol=0.05) else f"{value:+.1f}".replace("-", "−")
