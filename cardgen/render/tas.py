"""True airspeed over altitude at three temperatures; the drawing is ``templates/tas.svg``."""

from dataclasses import dataclass

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import limit_at
from cardgen.cards.true_airspeed import round_speeds
from cardgen.definition.model import School
from cardgen.render.axes import Axis, axis, polyline
from cardgen.units import Array, convert, convert_difference

WIDTH, HEIGHT = 360.0, 212.0
SHAPE = HEIGHT / WIDTH
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 346.0, 22.0, 182.0
_APART = 26.0  # from one indication's lines to the next; those between are not drawn
DEVIATIONS = {-20: "6 3", 0: "none", 20: "1.8 2.4"}  # from the standard atmosphere, K; their dashes


@dataclass(frozen=True)
class Line:
    """TAS at one indication and temperature."""

    path: str
    dash: str


@dataclass(frozen=True)
class Fan:
    """The lines of one indication, and its label where they start."""

    name: str
    x: float
    y: float
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Temperature:
    """How lines of one temperature are drawn."""

    name: str
    dash: str


@dataclass(frozen=True)
class TasChart:
    """All that the drawing needs."""

    x: Axis
    y: Axis
    x_title: str
    y_title: str
    fans: tuple[Fan, ...]
    temperatures: tuple[Temperature, ...]
    description: str


def draw_tas(aircraft: Aircraft, school: School) -> TasChart | None:
    """Return the lines of an aircraft, or None where the school gives no reference speeds.

    A line ends at the altitude above which its speed would be past the limit.
    """
    grid = school.reference_speeds.get(aircraft.kind)
    if grid is None:
        return None
    known = {
        shown: cas
        for shown in round_speeds(aircraft, grid.ias)
        if not np.isnan(cas := aircraft.cas_from_indicated(shown))
    }
    levels = np.linspace(float(min(grid.altitude)), float(max(grid.altitude)), 13)
    if not known or levels[0] == levels[-1]:
        return None
    lines = {
        (shown, deviation): _line(aircraft, cas, levels, deviation)
        for shown, cas in known.items()
        for deviation in DEVIATIONS
    }
    every = np.concatenate([tas for tas, _ in lines.values()])
    drawn = [shown for shown in known if len(lines[shown, 0][0]) > 1]
    if not drawn:
        return None
    unit = aircraft.indicator_unit
    x = axis(float(every.min()), float(every.max()), _LEFT, _RIGHT, 9)
    y = axis(float(levels[0]), float(levels[-1]), _BOTTOM, _TOP, 8)
    fans: list[Fan] = []
    for shown in drawn:
        start = x.at(float(lines[shown, 0][0][0]))
        if not fans or start - fans[-1].x > _APART:
            paths = tuple(
                Line(polyline(x, y, _sparse(*lines[shown, deviation])), dash)
                for deviation, dash in DEVIATIONS.items()
                if len(lines[shown, deviation][0]) > 1
            )
            fans.append(Fan(f"{shown:g}", start, y.at(float(levels[0])), paths))
    return TasChart(
        x,
        y,
        f"TAS, {unit}",
        f"Pressure altitude, {aircraft.units.altitude}",
        tuple(fans),
        tuple(Temperature(_named(aircraft, k), dash) for k, dash in DEVIATIONS.items()),
        _described(aircraft, lines),
    )


def _line(aircraft: Aircraft, cas: float, levels: Array, deviation: int) -> tuple[Array, Array]:
    """Return TAS and altitude as far up as the speed is within the limit."""
    warmer = convert_difference(float(deviation), "K", aircraft.units.temperature)
    oat = np.asarray(aircraft.standard_temperature(levels)) + warmer
    limits = [limit_at(aircraft, float(a), float(b)) for a, b in zip(levels, oat, strict=True)]
    within = np.array([limit is None or cas <= limit.cas + 1e-9 for limit in limits])
    tas = np.asarray(aircraft.tas_from_cas(np.full_like(levels, cas), levels, oat))
    within &= ~np.isnan(tas)
    last = len(levels) if within.all() else int(np.argmin(within))
    own = np.asarray(convert(tas, aircraft.units.speed, aircraft.indicator_unit))
    return own[:last], levels[:last]


def _sparse(tas: Array, altitude: Array) -> list[tuple[float, float]]:
    """Return each third point and the last: lines bend so little that no more are seen."""
    points = [(float(a), float(b)) for a, b in zip(tas, altitude, strict=True)]
    return [*points[:-1:3], points[-1]]


def _named(aircraft: Aircraft, deviation: int) -> str:
    unit = aircraft.units.temperature
    warmer = round(float(convert_difference(float(deviation), "K", unit)))
    return f"ISA {warmer:+d} °{unit}".replace("-", "−") if deviation else "ISA"


def _described(aircraft: Aircraft, lines: dict[tuple[float, int], tuple[Array, Array]]) -> str:
    unit, high = aircraft.indicator_unit, aircraft.units.altitude
    said = [
        f"{shown:g}: {tas[0]:.0f} at {levels[0]:.0f} {high}, {tas[-1]:.0f} at "
        f"{levels[-1]:.0f} {high}"
        for (shown, deviation), (tas, levels) in lines.items()
        if deviation == 0 and len(tas)
    ]
    return f"TAS, {unit}, by what the indicator shows, standard temperature. {'; '.join(said)}"
