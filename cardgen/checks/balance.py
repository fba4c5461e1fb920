"""Fuel against the drag that it is burnt for, which a glide tells.

Without an engine weight over the glide ratio is the drag. At the speed of best glide half of it
comes of lift, which goes with the square of weight over speed, and half does not, which goes with
the square of speed. Drag times TAS is what comes of the fuel's heat.
"""

import dataclasses
import math
import statistics
from collections.abc import Iterator

import numpy as np

from cardgen.air import atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.gliding import ratio_of
from cardgen.checks.cruise import oats
from cardgen.checks.fitting import stand_off
from cardgen.checks.likely import step_of
from cardgen.checks.rule import OF_TABLES, Severity, Told, digits, entered, rule, tell
from cardgen.definition.cruise import Cruise, cell_at, set_at
from cardgen.definition.places import Figure
from cardgen.document.record import Unit
from cardgen.units import Array, convert, to_si

_KILOGRAMS = {"gal/h": 2.73, "L/h": 0.72, "lb/h": 0.4536, "kg/h": 1.0}  # petrol, an hour
_HEAT = 43e6  # J/kg, of petrol and kerosene alike: textbooks, from memory
_KEROSENE = 0.80 / 0.72  # as heavy as petrol
_SHARES = {"turbine": (0.1, 0.32)}  # of the heat that moves the aircraft; small turbines waste
_FINE = 0.01  # of such a part; no finer does a parabola tell a drag
_SHARE = (0.2, 0.385)  # the same by piston engines; a propeller that stands makes it look more


@dataclasses.dataclass(frozen=True)
class _Flight:
    """What a table and a glide say, in the figures of the manual, and in which units."""

    flows: list[Figure]
    true: list[Figure]
    tas: Array
    densities: Array  # of that at sea level
    ratio: float
    best: float  # CAS of best glide at the maximum weight
    weights: tuple[float, float]  # the maximum, and of the table
    fuel: str
    speed: str
    speed_of_best: str
    weight: str
    denser: float

    def share(self) -> float:
        """Return what part of the fuel's heat moves the aircraft."""
        return statistics.median(map(float, self.shares()))

    def shares(self) -> Array:
        """Return the same of each row."""
        tas = np.asarray(to_si(self.tas, self.speed))
        best = float(to_si(self.best, self.speed_of_best))
        maximum, now = (float(convert(one, self.weight, "kg")) * 9.80665 for one in self.weights)
        fast = tas**2 * self.densities / best**2
        drag = (maximum * fast + now**2 / maximum / fast) / (2 * self.ratio)
        burnt = np.array(self.flows, dtype=float) * _KILOGRAMS[self.fuel] * self.denser / 3600
        return np.asarray(drag * tas / (burnt * _HEAT))

    def otherwise(self) -> Iterator[tuple[str, "_Flight"]]:
        """The same in other units, with what is another."""
        yield from ((unit, dataclasses.replace(self, fuel=unit)) for unit in _KILOGRAMS)
        yield from ((unit, dataclasses.replace(self, weight=unit)) for unit in ("kg", "lb"))
        yield from ((unit, dataclasses.replace(self, speed=unit)) for unit in ("kt", "mph", "km/h"))


@rule(
    "fuel-by-drag",
    Severity.WARNING,
    "look-units",
    "textbooks of flight mechanics, from memory",
    OF_TABLES,
)
def fuel_goes_with_drag(aircraft: Aircraft) -> Iterator[Told]:
    """Of a fuel's heat a fifth to three eighths moves an aircraft, less with a turbine."""
    low, high = _SHARES.get(aircraft.kind, _SHARE)
    for cruise in aircraft.definition.cruise:
        flight = _flight(aircraft, cruise)
        if flight is None or low <= (share := flight.share()) <= high:
            continue
        likely = [unit for unit, one in flight.otherwise() if low <= one.share() <= high]
        yield tell(
            flight.flows[0].place,
            "finding-fuel-by-drag-unit" if likely else "finding-fuel-by-drag",
            flow=entered(flight.flows[0], flight.fuel),
            share=digits(100 * share, 2),
            low=digits(100 * low),
            high=digits(100 * high),
            **({"unit": Unit(likely[0])} if likely else {}),
        )


@rule(
    "row-by-drag",
    Severity.WARNING,
    "look-cruise",
    "textbooks of flight mechanics, from memory",
    OF_TABLES,
)
def rows_make_as_much_of_fuel(aircraft: Aircraft) -> Iterator[Told]:
    """What part of a fuel's heat moves the aircraft goes smoothly with altitude and flow."""
    for cruise in aircraft.definition.cruise:
        flight = _flight(aircraft, cruise)
        if flight is None or len(flight.flows) < 5:
            continue
        flows = np.array(flight.flows, dtype=float)
        y = np.log(flight.shares())
        steps = step_of(flight.flows) / flows + 3 * step_of(flight.true) / flight.tas + _FINE
        a, p = np.log(flight.densities), np.log(flows / flows.mean())
        ones = np.ones(len(flows))
        bases = [np.column_stack([ones, a, p]), np.column_stack([ones, a, p, a * p, a * a, p * p])]
        for off in stand_off(bases, y, steps, max(1, len(y) // 10)):
            n = off.number
            expected = float(flight.tas[n]) * math.exp((off.expected - float(y[n])) / 3)
            yield tell(
                flight.true[n].place,
                "finding-row-by-drag",
                tas=entered(flight.true[n]),
                flow=entered(flight.flows[n], flight.fuel),
                expected=digits(expected, 3),
            )


def _flight(aircraft: Aircraft, cruise: Cruise) -> _Flight | None:
    units, kind = aircraft.units, aircraft.definition.type
    ratio = max((ratio_of(aircraft, glide) for glide in kind.glide), default=0.0)
    best = _best(aircraft)
    if not ratio or math.isnan(best) or not units.fuel_flow or "fuel flow" not in cruise.columns:
        return None
    rows = [
        (flow, tas, set_at(cruise, row, "altitude"), oat)
        for row, oat in zip(cruise.rows, oats(aircraft, cruise), strict=True)
        if (flow := cell_at(cruise, row, "fuel flow")) and (tas := cell_at(cruise, row, "tas"))
        if flow > 0
    ]
    if not rows:
        return None
    flows = [row[0] for row in rows]
    speeds, heights = (np.array([row[n] for row in rows], dtype=float) for n in (1, 2))
    standard = np.asarray(aircraft.standard_temperature(heights))
    known = zip(standard, (row[3] for row in rows), strict=True)
    warm = np.array([std if oat is None else oat for std, oat in known], dtype=float)
    pressure = atmosphere.pressure(to_si(heights, units.altitude))
    density = atmosphere.density(pressure, to_si(warm, units.temperature))
    maximum = float(aircraft.maximum_weight)
    volume = kind.kind == "turbine" and units.fuel_flow in ("gal/h", "L/h")
    return _Flight(
        flows,
        [row[1] for row in rows],
        speeds,
        np.asarray(density) / 1.225,
        ratio,
        best,
        (maximum, float(cruise.weight or maximum)),
        units.fuel_flow,
        cruise.tas_unit or units.speed,
        units.speed,
        units.weight,
        _KEROSENE if volume else 1.0,
    )


def _best(aircraft: Aircraft) -> float:
    """Return the speed of best glide in CAS at the maximum weight; not a number if unknown."""
    known = [
        aircraft.entry_cas(entry, aircraft.flaps_of("best glide", entry))
        / math.sqrt(aircraft.weight_of(entry) / aircraft.maximum_weight)
        for entry in aircraft.definition.speeds.get("best glide", [])
        if entry.tas is None and entry.mach is None
    ]
    found = [one for one in known if one == one]
    return statistics.median(found) if found else math.nan
