"""What is painted on an airspeed indicator, in its own unit, and the scale that it is drawn to."""

import math
from dataclasses import dataclass

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.places import Figure
from cardgen.units import convert

ARCS = ("white", "green", "yellow")
LINES = ("red_line", "blue_line", "red_radial", "yellow_triangle")
_NAMED_BY = {  # the V-speed that a line stands for: the first of these that the aircraft has
    "red_line": ("VNE", "VMO"),
    "blue_line": ("VYSE",),
    "red_radial": ("VMC",),
    "yellow_triangle": ("approach",),
}
_SMALLER = {10: (5, 5), 20: (10, 5), 50: (50, 10)}  # middle and small divisions of a step


@dataclass(frozen=True)
class Shown:
    """The markings of an indicator.

    Attributes
    ----------
    unit : str
        What the indicator reads.
    arcs : dict of str to (float, float)
        In order of `ARCS`.
    lines : dict of str to float
    names : dict of str to str
        The V-speed that each line stands for, where it has one.
    flaps : tuple of (str, float)
        Flap settings with a limit of their own above the white arc, slowest first.
    """

    unit: str
    arcs: dict[str, tuple[float, float]]
    lines: dict[str, float]
    names: dict[str, str]
    flaps: tuple[tuple[str, float], ...]

    @property
    def description(self) -> str:
        """All of it in words, such as a screen reader speaks."""
        said = [f"{name} arc {low:.0f} to {high:.0f}" for name, (low, high) in self.arcs.items()]
        said += [f"flaps {setting} to {speed:.0f}" for setting, speed in self.flaps]
        said += [_spoken(name, speed) for name, speed in self.lines.items()]
        return f"{'; '.join(said)} {self.unit}"


@dataclass(frozen=True)
class Scale:
    """The numbers along an indicator's scale, from `first` to `last`."""

    first: int
    last: int
    step: int

    def part(self, speed: float) -> float:
        """Return how far along the scale a speed lies, from 0 to 1."""
        return (speed - self.first) / (self.last - self.first)

    @property
    def divisions(self) -> list[tuple[int, str]]:
        """Speeds at which the scale has a tick, with the tick's rank."""
        middle, small = _SMALLER[self.step]
        return [
            (
                speed,
                "major" if speed % self.step == 0 else "middle" if speed % middle == 0 else "minor",
            )
            for speed in range(self.first, self.last + 1, small)
        ]


def shown_markings(aircraft: Aircraft) -> Shown | None:
    """Return what is painted on an aircraft's indicator, or None without markings.

    Arcs are painted by the manual's IAS, so that a bench card moves none of them.
    """
    markings = aircraft.definition.markings
    if markings is None:
        return None
    given = {name: getattr(markings, name) for name in (*ARCS, *LINES)}
    arcs = {
        name: (_on_scale(aircraft, given[name].from_), _on_scale(aircraft, given[name].to))
        for name in ARCS
        if given[name] is not None
    }
    lines = {name: _on_scale(aircraft, given[name].at) for name in LINES if given[name] is not None}
    if not arcs and not lines:
        return None
    speeds = aircraft.definition.speeds
    names = {line: next((name for name in _NAMED_BY[line] if name in speeds), "") for line in lines}
    return Shown(aircraft.indicator_unit, arcs, lines, names, _flap_limits(aircraft, arcs))


def scale_for(shown: Shown) -> Scale:
    """Return round numbers that enclose every marking."""
    speeds = [*shown.lines.values(), *(end for ends in shown.arcs.values() for end in ends)]
    lowest, highest = min(speeds), max(speeds)
    step = next(size for size in (10, 20, 50) if (highest - lowest) / size <= 10)
    first = step * max(0, math.floor(lowest / step))
    return Scale(first, step * math.ceil((highest + step / 4) / step), step)


def _on_scale(aircraft: Aircraft, ias: Figure) -> float:
    return float(convert(float(ias), aircraft.units.speed, aircraft.indicator_unit))


def _flap_limits(
    aircraft: Aircraft, arcs: dict[str, tuple[float, float]]
) -> tuple[tuple[str, float], ...]:
    if "white" not in arcs:
        return ()
    limits = [
        (entry.flaps, _on_scale(aircraft, entry.ias))
        for entry in aircraft.definition.speeds.get("VFE", [])
        if entry.flaps is not None and entry.ias is not None
    ]
    above = [limit for limit in limits if limit[1] > arcs["white"][1] + 0.5]
    return tuple(sorted(above, key=lambda limit: limit[1]))


def _spoken(line: str, speed: float) -> str:
    name = {"red_radial": "lower red line"}.get(line, line.replace("_", " "))
    return f"{name} {speed:.0f}"
