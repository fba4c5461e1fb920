"""The geometry of the airspeed indicator's face; its drawing is ``templates/dial.svg``."""

import math
from dataclasses import dataclass

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.model import Markings
from cardgen.definition.places import Figure
from cardgen.units import convert

RADIUS = 100.0
_FIRST, _SWEEP = 30.0, 300.0  # deg clockwise from the top: where the scale begins, and its span


@dataclass(frozen=True)
class Tick:
    """A line of the scale, with a number on the long ones."""

    angle: float
    number: str


@dataclass(frozen=True)
class Arc:
    """An arc between two radii, as an SVG path."""

    name: str
    path: str


@dataclass(frozen=True)
class Line:
    """A line across the scale."""

    name: str
    angle: float


@dataclass(frozen=True)
class Dial:
    """All that the drawing needs."""

    unit: str
    ticks: tuple[Tick, ...]
    arcs: tuple[Arc, ...]
    lines: tuple[Line, ...]
    description: str


_ARCS = {"white": (70.0, 76.0), "green": (78.0, 86.0), "yellow": (78.0, 86.0)}
_LINES = ("red_line", "blue_line", "red_radial", "yellow_triangle")


def draw_dial(aircraft: Aircraft) -> Dial | None:
    """Return the dial of an aircraft, to its own scale, or None without markings."""
    markings = aircraft.definition.markings
    if markings is None:
        return None
    speeds = {name: _shown(aircraft, figures) for name, figures in _figures(markings).items()}
    highest = max(max(ends) for ends in speeds.values())
    lowest = min(min(ends) for ends in speeds.values())
    step = next(size for size in (10, 20, 50) if (highest - lowest) / size <= 10)
    first = step * max(0, math.floor(lowest / step))
    last = step * math.ceil((highest + step / 4) / step)
    scale = _Scale(first, last)
    return Dial(
        aircraft.indicator_unit,
        tuple(
            Tick(scale.angle(speed), f"{speed}" if speed % step == 0 else "")
            for speed in range(first, last + 1, step // 2)
        ),
        tuple(
            Arc(name, _path(scale.angle(ends[0]), scale.angle(ends[1]), *_ARCS[name]))
            for name, ends in speeds.items()
            if name in _ARCS
        ),
        tuple(Line(name, scale.angle(ends[0])) for name, ends in speeds.items() if name in _LINES),
        "; ".join(
            f"{name.replace('_', ' ')} {' to '.join(f'{end:.0f}' for end in ends)}"
            for name, ends in speeds.items()
        ),
    )


@dataclass(frozen=True)
class _Scale:
    first: float
    last: float

    def angle(self, speed: float) -> float:
        """Return degrees clockwise from the top."""
        return round(_FIRST + _SWEEP * (speed - self.first) / (self.last - self.first), 2)


def _figures(markings: Markings) -> dict[str, list[Figure]]:
    found = {}
    for name in (*_ARCS, *_LINES):
        marking = getattr(markings, name)
        if marking is not None:
            found[name] = [marking.from_, marking.to] if name in _ARCS else [marking.at]
    return found


def _shown(aircraft: Aircraft, figures: list[Figure]) -> list[float]:
    """Return the marking's ends on this indicator's scale: arcs are painted by the manual's IAS."""
    return [
        float(convert(float(x), aircraft.units.speed, aircraft.indicator_unit)) for x in figures
    ]


def _path(start: float, end: float, inner: float, outer: float) -> str:
    large = int(end - start > 180)
    (a, b), (c, d) = _point(start, outer), _point(end, outer)
    (e, f), (g, h) = _point(end, inner), _point(start, inner)
    return (
        f"M{a} {b}A{outer:g} {outer:g} 0 {large} 1 {c} {d}"
        f"L{e} {f}A{inner:g} {inner:g} 0 {large} 0 {g} {h}Z"
    )


def _point(angle: float, radius: float) -> tuple[float, float]:
    turned = math.radians(angle)
    return round(radius * math.sin(turned), 2), round(-radius * math.cos(turned), 2)
