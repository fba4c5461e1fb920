"""Axes of a chart; they are drawn by ``templates/axes.svg``."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

_STEPS = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 1e4)
DASHES = ("none", "8 3", "2.5 2.5", "11 3 2.5 3", "5 2 1 2", "14 4")  # that tell lines apart


@dataclass(frozen=True)
class Mark:
    """A number on an axis."""

    at: float
    text: str


@dataclass(frozen=True)
class Axis:
    """Round numbers from `first` to `last`, drawn from `start` to `end`."""

    first: float
    last: float
    step: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return where a value is drawn."""
        part = (value - self.first) / (self.last - self.first)
        return round(self.start + part * (self.end - self.start), 2)

    @property
    def marks(self) -> list[Mark]:
        """The numbers along the axis."""
        count = round((self.last - self.first) / self.step)
        values = [self.first + n * self.step for n in range(count + 1)]
        return [Mark(self.at(value), _said(value)) for value in values]


def axis(low: float, high: float, start: float, end: float, most: int) -> Axis:
    """Return an axis that encloses two values with at most so many steps.

    Examples
    --------
    >>> made = axis(43.0, 155.0, 0.0, 100.0, 8)
    >>> made.first, made.last, made.step
    (40.0, 160.0, 20.0)
    """
    step = next(size for size in _STEPS if _count(low, high, size) <= most)
    return Axis(step * math.floor(low / step), step * math.ceil(high / step), step, start, end)


def polyline(x: Axis, y: Axis, points: Iterable[tuple[float, float]]) -> str:
    """Return points in the units of two axes as an SVG path."""
    return "M" + "L".join(f"{x.at(a):.1f} {y.at(b):.1f}" for a, b in points)


def _count(low: float, high: float, step: float) -> int:
    return math.ceil(high / step) - math.floor(low / step)


def _said(value: float) -> str:
    return f"{value:,.6g}".replace("-", "−") if abs(value) >= 10_000 else _short(value)


def _short(value: float) -> str:
    return f"{value + 0.0:g}".replace("-", "−")
