"""The scale that an indicator's markings are drawn to, and the markings in words."""

import functools
import math
from dataclasses import dataclass

from cardgen.document.record import Arc, FlapLimit, Markings, Message, Quantity, Radial
from cardgen.document.rounding import senses_of_mark
from cardgen.words.language import Language

_SMALLER = {10: (5, 5), 20: (10, 5), 50: (50, 10)}  # middle and small divisions of a step


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
    def divisions(self) -> dict[str, list[int]]:
        """Speeds at which the scale has a tick, by the tick's rank."""
        middle, small = _SMALLER[self.step]
        ranks: dict[str, list[int]] = {"major": [], "middle": [], "minor": []}
        for speed in range(self.first, self.last + 1, small):
            whole, half = speed % self.step == 0, speed % middle == 0
            ranks["major" if whole else "middle" if half else "minor"].append(speed)
        return ranks


def scale_for(markings: Markings) -> Scale:
    """Return round numbers that enclose every marking."""
    speeds = [line.at for line in markings.lines]
    speeds += [end for arc in markings.arcs for end in (arc.low, arc.high)]
    lowest, highest = min(speeds), max(speeds)
    step = next(size for size in (10, 20, 50) if (highest - lowest) / size <= 10)
    first = step * max(0, math.floor(lowest / step))
    return Scale(first, step * math.ceil((highest + step / 4) / step), step)


def described(language: Language, markings: Markings, unit: str) -> str:
    """Return all markings in words, such as a screen reader speaks."""
    every: list[Arc | FlapLimit | Radial] = []
    every += [*markings.arcs, *markings.flaps, *markings.lines, *markings.tightened]
    *most, last = every
    return listed(language, [*(_spoken(one) for one in most), _spoken(last, unit)])


def listed(language: Language, said: list[Message]) -> str:
    """Return sentences after one another."""
    return language.say(
        functools.reduce(
            lambda before, then: Message("drawing-and", {"before": before, "then": then}), said
        )
    )


def _spoken(one: Arc | FlapLimit | Radial, unit: str = "") -> Message:
    match one:
        case Arc(name, low, high):
            below, above = senses_of_mark(name)
            ends = {"low": Quantity(low, sense=below), "high": Quantity(high, unit, sense=above)}
            return Message("drawing-arc", {"arc": Message(f"drawing-{name}"), **ends})
        case FlapLimit(flaps, at):
            return Message(
                "drawing-flaps-to", {"flaps": flaps, "speed": Quantity(at, unit, sense="maximum")}
            )
        case Radial(name, at, of, called):
            sense = "target" if called else senses_of_mark(name)[0]
            return Message(f"drawing-{name}", {"speed": Quantity(at, unit, sense=sense), "of": of})


def arc_of(markings: Markings, name: str) -> Arc:
    """Return the arc of a name."""
    return next(arc for arc in markings.arcs if arc.name == name)


def is_symbol(speed: str) -> bool:
    """Whether a V-speed is known by its symbol, which drawings have room for."""
    return speed.isupper()
