"""Axes of a chart."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cardgen.render.shapes import Part, Shape, Words, line, short
from cardgen.words.numbers import grouped

_STEPS = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 1e4)
DASHES = ("", "8 3", "2.5 2.5", "11 3 2.5 3", "5 2 1 2", "14 4")  # that tell lines apart
TYPE = 12.0
_BELOW, _BESIDE, _DROP = 15.0, 4.0, 4.2  # where numbers stand to the ends of the rules


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
    def marks(self) -> list[tuple[float, str]]:
        """Where the numbers along the axis stand, and how they are printed."""
        count = round((self.last - self.first) / self.step)
        values = [self.first + n * self.step for n in range(count + 1)]
        return [(self.at(value), grouped(f"{value + 0.0:.10g}")) for value in values]


def axis(low: float, high: float, start: float, end: float, most: int) -> Axis:
    """Return an axis that encloses two values, or goes on from one, with at most so many steps.

    Examples
    --------
    >>> made = axis(43.0, 155.0, 0.0, 100.0, 8)
    >>> made.first, made.last, made.step
    (40.0, 160.0, 20.0)
    """
    step = next(size for size in _STEPS if _count(low, high, size) <= most)
    first, last = step * math.floor(low / step), step * math.ceil(high / step)
    return Axis(first, last if last > first else first + step, step, start, end)


def polyline(x: Axis, y: Axis, points: Iterable[tuple[float, float]]) -> str:
    """Return points in the units of two axes as a path."""
    return line((x.at(a), y.at(b)) for a, b in points)


def drawn_axes(x: Axis, y: Axis, titles: tuple[str, str], foot: float) -> Iterator[Part]:
    """Yield the rules and numbers of a chart, and the axes' titles at its foot."""
    rules = [f"M{short(x.start)} {short(at)}H{short(x.end)}" for at, _ in y.marks]
    rules += [f"M{short(at)} {short(y.start)}V{short(y.end)}" for at, _ in x.marks]
    yield Shape("rule", "".join(rules), stroke="rule", width=0.6)
    for at, said in y.marks:
        yield Words("number", said, x.start - _BESIDE, at, TYPE, 400, "end", _DROP)
    for at, said in x.marks:
        yield Words("number", said, at, y.start + _BELOW, TYPE, 400, "middle")
    across, up = titles
    yield Words("axis", across, x.end, foot, TYPE, 400, "end")
    yield Words("axis", up, 0.0, foot, TYPE, 400, "start")


def _count(low: float, high: float, step: float) -> int:
    return math.ceil(high / step) - math.floor(low / step)
