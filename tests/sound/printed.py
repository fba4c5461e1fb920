"""A craft's figures as its manual prints them: in its units, rounded as manuals round."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from .air import UNITS
from .craft import Craft
from .designs import manoeuvring

Figures = dict[str, float]


@dataclass(frozen=True)
class Printed:
    """A craft seen through the units and the habits of its manual.

    What a maker chooses, such as a limit or a climb speed, is chosen as a multiple of `step` in
    IAS, and its CAS is what the calibration then says. What is measured is rounded to one.
    """

    craft: Craft
    speed: str
    altitude: str
    weight: str
    step: int = 1

    def shown(self, cas: float, setting: int = 0) -> int:
        """Return the IAS at a CAS in m/s, rounded to one."""
        return round(self.craft.ias(cas, setting) / UNITS[self.speed])

    def stall(self, setting: int = 0, mass: float = 0, bank: float = 0) -> Figures:
        cas = self.craft.stall(setting, mass, bank)
        return {"ias": self.shown(cas, setting), "cas": round(cas / UNITS[self.speed])}

    def most(self, cas: float, setting: int = 0) -> Figures:
        """Return a speed that is not to be exceeded, so rounded down."""
        return self._chosen(cas, setting, lambda steps: math.floor(steps + 1e-9))

    def least(self, cas: float, setting: int = 0) -> Figures:
        """Return a speed that is at least so much, so rounded up."""
        return self._chosen(cas, setting, lambda steps: math.ceil(steps - 1e-9))

    def target(self, cas: float, setting: int = 0) -> Figures:
        return self._chosen(cas, setting, round)

    def _chosen(self, cas: float, setting: int, rounding) -> Figures:
        unit = UNITS[self.speed]
        ias = rounding(self.craft.ias(cas, setting) / unit / self.step) * self.step
        return {"ias": ias, "cas": round(self.craft.cas(ias * unit, setting) / unit)}

    def manoeuvring(self, mass: float = 0) -> Figures:
        """Return VA, which is not less than VS root n (14 CFR 23.335(c)), so rounded up."""
        return self.least(manoeuvring(self.craft, mass))

    def calibrated(self, shown: Iterable[float], setting: int = 0) -> list[int]:
        unit = UNITS[self.speed]
        return [round(self.craft.cas(ias * unit, setting) / unit) for ias in shown]

    def of_alternate(self, shown: Iterable[float], setting: int = 0) -> list[int]:
        unit = UNITS[self.speed]
        return [round(self.craft.cas_of_alternate(ias * unit, setting) / unit) for ias in shown]

    def mass(self, weight: float) -> float:
        return weight * UNITS[self.weight]

    def weigh(self, part: float) -> int:
        """Return a part of the highest mass as a weight, a multiple of 10 or 50."""
        whole = self.craft.mass * part / UNITS[self.weight]
        step = 50 if self.weight == "lb" else 10
        return round(whole / step) * step

    def height(self, altitude: float) -> float:
        return altitude * UNITS[self.altitude]

    def speed_of(self, metres_a_second: float) -> int:
        return round(metres_a_second / UNITS[self.speed])
