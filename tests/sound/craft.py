"""One invented aircraft: a wing, flaps, a static port and perhaps engines, in SI.

Nothing here is fitted to an aircraft that exists. Every figure follows from the few that a `Craft`
is made of: stall from wing loading and CL max, climb and glide and cruise from a drag polar and a
propeller, indicated airspeed from a static port whose error is linear in CL.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from .air import RHO0, Air, G, air, tas_of_cas


@dataclass(frozen=True)
class Flap:
    """A flap setting: what the wing lifts in it, and how the indicator errs in it."""

    name: str
    cl_max: float
    low_error: float  # of IAS against CAS at the stall, as a part of it
    high_error: float  # the same at the highest speed of the setting


@dataclass(frozen=True)
class Engine:
    """An engine and its propeller."""

    kind: str  # fixed, constant, turbocharged, turboprop
    power: float  # W
    rpm: float
    efficiency: float
    best_speed: float  # m/s, from which on the propeller is at its best
    consumption: float  # kg of fuel a joule
    critical: float = 0.0  # m, up to which full power is had
    fuel_density: float = 0.72  # kg a litre; motor and aviation petrol, from memory

    def available(self, here: Air) -> float:
        """Return the power that is had at full throttle.

        Piston: Gagg and Ferrar, SAE 1934, as textbooks quote it. Turboprop: flat rated, then
        with the density to the power 0.8 (common practice).
        """
        if self.kind == "turboprop":
            return self.power * min(1.0, (here.sigma / air(self.critical).sigma) ** 0.8)
        top = self.critical if self.kind == "turbocharged" else 0.0
        ratio = here.sigma / air(top).sigma
        return self.power * min(1.0, ratio - (1 - ratio) / 7.55)

    def thrust_power(self, power: float, tas: float) -> float:
        short = max(0.0, 1 - tas / self.best_speed)
        return power * self.efficiency * (1 - short**2)


@dataclass(frozen=True)
class Craft:
    """What an aircraft is made of."""

    kind: str
    mass: float  # kg, the most
    loading: float  # kg/m2, at that mass
    aspect: float
    oswald: float
    drag: float  # CD0, clean
    idle_drag: float  # what a dead propeller adds to it
    flaps: tuple[Flap, ...]
    load_factor: float
    cruise_speed: float = 0.0  # VC, m/s CAS
    never_exceed: float = 0.0  # VNE or VMO, m/s CAS
    flap_speeds: tuple[float, ...] = ()  # VF of each setting after the first
    engine: Engine | None = None
    engines: int = 0
    gear_drag: float = 0.0  # CD0 of a gear that can be raised; none where fixed
    alternate: float = 0.0  # what the alternate source adds to the square of IAS, in CAS squared

    @property
    def area(self) -> float:
        return self.mass / self.loading

    def stall(self, setting: int = 0, mass: float = 0, bank: float = 0) -> float:
        """Return the CAS of the stall."""
        load = (mass or self.mass) * G / self.area / math.cos(math.radians(bank))
        return math.sqrt(2 * load / (RHO0 * self.flaps[setting].cl_max))

    def top(self, setting: int) -> float:
        """Return the highest speed of a flap setting."""
        return self.flap_speeds[setting - 1] if setting else self.never_exceed

    def ias(self, cas: float, setting: int = 0) -> float:
        """Return what an indicator without error of its own shows.

        The static port errs by a part of the dynamic pressure that is linear in CL, so the
        square of IAS is linear in the square of CAS (NASA RP-1046 has such curves).
        """
        a, b = self._error(setting)
        return math.sqrt(a * cas**2 + b)

    def cas(self, ias: float, setting: int = 0) -> float:
        a, b = self._error(setting)
        return math.sqrt((ias**2 - b) / a)

    def alternate_ias(self, cas: float, setting: int = 0) -> float:
        return math.sqrt(self.ias(cas, setting) ** 2 + self.alternate * cas**2)

    def cas_of_alternate(self, ias: float, setting: int = 0) -> float:
        a, b = self._error(setting)
        return math.sqrt((ias**2 - b) / (a + self.alternate))

    def _error(self, setting: int) -> tuple[float, float]:
        flap, low, high = self.flaps[setting], self.stall(setting), self.top(setting)
        shown_low, shown_high = low * (1 + flap.low_error), high * (1 + flap.high_error)
        a = (shown_high**2 - shown_low**2) / (high**2 - low**2)
        return a, shown_low**2 - a * low**2

    def drag_power(self, tas: float, here: Air, mass: float = 0, more_drag: float = 0) -> float:
        weight, pressure = (mass or self.mass) * G, here.density * tas**2 / 2
        lift = weight / (pressure * self.area)
        coefficient = self.drag + more_drag + lift**2 / (math.pi * self.aspect * self.oswald)
        # Flow begins to part near the stall: in shape as wind tunnels show it, from memory.
        coefficient += 0.015 * min(lift / self.flaps[0].cl_max, 1) ** 10
        return coefficient * pressure * self.area * tas

    def glide(self, mass: float = 0, more_drag: float | None = None) -> tuple[float, float]:
        """Return the CAS of the best glide, and its ratio."""
        drag = self.idle_drag if more_drag is None else more_drag
        slow = self.stall(0, mass)
        speed = _best(lambda cas: -self.sink(cas, mass, 0, drag) / cas, slow, 3 * slow)
        return speed, speed / self.sink(speed, mass, 0, drag)

    def sink(self, cas: float, mass: float = 0, height: float = 0, more_drag: float = 0) -> float:
        """Return the speed of descent without power, as a positive number."""
        here = air(height)
        power = self.drag_power(tas_of_cas(cas, here), here, mass, more_drag)
        return power / ((mass or self.mass) * G)

    def least_sink(self, mass: float = 0) -> float:
        """Return the CAS of the least sink."""
        slow = self.stall(0, mass)
        return _best(lambda cas: -self.sink(cas, mass), slow, 2 * slow)

    def climb_rate(
        self, cas: float, height: float, running: int = 0, mass: float = 0, more: float = 0
    ) -> float:
        here = air(height)
        tas = tas_of_cas(cas, here)
        assert self.engine is not None
        each = self.engine.thrust_power(self.engine.available(here), tas)
        power = each * (running or self.engines)
        return (power - self.drag_power(tas, here, mass, more)) / ((mass or self.mass) * G)

    def best_rate(self, height: float, running: int = 0, more: float = 0) -> float:
        """Return the CAS at which it climbs fastest."""
        return _best(lambda cas: self.climb_rate(cas, height, running, 0, more), *self._climbs())

    def best_angle(self, height: float, running: int = 0, more: float = 0) -> float:
        """Return the CAS at which it climbs most steeply."""
        here = air(height)
        return _best(
            lambda cas: self.climb_rate(cas, height, running, 0, more) / tas_of_cas(cas, here),
            *self._climbs(),
        )

    def _climbs(self) -> tuple[float, float]:
        """Return the speeds between which a climb is flown, clear of the stall (practice)."""
        return 1.2 * self.stall(), 2.6 * self.stall()

    def level_speed(self, power: float, height: float, isa: float = 0, mass: float = 0) -> float:
        """Return the TAS that a power of all engines gives, on the fast side; 0 for none."""
        assert self.engine is not None
        here = air(height, isa)

        def spare(tas: float) -> float:
            return self.engine.thrust_power(power, tas) - self.drag_power(tas, here, mass)

        slow = tas_of_cas(1.2 * self.stall(0, mass), here)
        start = max((slow + step for step in range(0, 200, 4)), key=spare)
        if spare(start) <= 0:
            return 0.0
        return _falls_through(spare, start, 350.0)

    def full_speed(self) -> float:
        """Return the CAS of level flight at sea level with all power, VH."""
        assert self.engine is not None
        return self.level_speed(self.engine.power * self.engines, 0)


def _best(of: Callable[[float], float], low: float, high: float) -> float:
    """Return where a curve of one hill is highest: roughly, then finely about there."""
    for steps in (60, 40, 40):
        step = (high - low) / steps
        best = max((low + step * n for n in range(steps + 1)), key=of)
        low, high = max(low, best - step), min(high, best + step)
    return best


def _falls_through(of: Callable[[float], float], low: float, high: float) -> float:
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if of(middle) > 0 else (low, middle)
    return low


def with_limits(craft: Craft, cruise: float, dive: float, flaps: Sequence[float]) -> Craft:
    """Return an aircraft with its structural speeds, which are told from what it is made of."""
    return replace(craft, cruise_speed=cruise, never_exceed=dive, flap_speeds=tuple(flaps))
