"""Cases that are flown: settings, speeds and air that an instructor would ask of."""

import math
from collections.abc import Iterator

import numpy as np

from cardgen.air import atmosphere
from cardgen.document.record import Bound, Curve, Message, Value
from cardgen.lessons.curves import NORMAL
from cardgen.lessons.limits import Flying, passed
from cardgen.lessons.practice.kinds import Draw
from cardgen.units import convert, convert_difference, from_si, to_si

_LIMITS = ("VNO", "VMO", "VNE")  # what flaps retracted are flown up to: the first that there is
_CRUISING = 0.4  # of the way from the slowest to the fastest: slower nobody cruises


def tables(draw: Draw, source: str = NORMAL) -> Iterator[Curve]:
    """Yield the calibration tables of a static source."""
    yield from (one for one in draw.document.basis.calibration if one.static_source == source)


def stall(draw: Draw, flaps: str, weight: float | None = None) -> Bound | None:
    """Return the stall speed of a flap setting at a weight, or the next heavier one given."""
    basis = draw.document.basis
    here = basis.weights[0] if weight is None else weight
    known = [
        one
        for one in basis.stall
        if one.flaps == flaps and one.weight is not None and one.weight >= here
    ]
    return min(known, key=lambda one: one.weight or 0.0, default=None)


def flown(draw: Draw, table: Curve) -> tuple[float, float]:
    """Return between which indications a setting is flown: above the stall, below its limits."""
    flaps, source, gear = table.flaps, table.static_source, table.gear
    low, high = _reach(draw, table)
    slowest = stall(draw, flaps)
    if slowest is not None and slowest.cas is not None:
        low = float(np.fmax(low, draw.chain.shown_at_cas(slowest.cas, flaps, source, gear)))
    known = [one for one in draw.document.basis.bounds if one.speed in _LIMITS]
    known.sort(key=lambda one: _LIMITS.index(one.speed))
    for one in known[:1]:
        if one.quantity in ("ias", "cas"):
            high = min(high, draw.chain.own(one.value))
    while high > low and _is_limited(draw, table, high):
        high -= 1.0
    return low + 1.0, high - 1.0


def _reach(draw: Draw, table: Curve) -> tuple[float, float]:
    """Return between which indications a table and the bench card reach."""
    bench = draw.document.basis.bench
    ends = [draw.chain.shown_at_ias(ias) for ias in (table.x[0], table.x[-1])]
    if bench is None:
        return ends[0], ends[1]
    at_bench = bench.x[0], bench.x[-1]
    low, high = (own if math.isnan(end) else end for end, own in zip(ends, at_bench, strict=True))
    return low, high


def _is_limited(draw: Draw, table: Curve, shown: float) -> bool:
    gear = table.gear or "up"
    flying = Flying(shown, math.nan, table.flaps, gear, None, None, table.static_source)
    return any(one.binding for one in passed(draw.chain, flying))


def pointer(draw: Draw, table: Curve, cruising: bool = False) -> float:
    """Return a whole indication at which a setting is flown; not a number where there is none."""
    low, high = flown(draw, table)
    if cruising:
        low += _CRUISING * (high - low)
    if math.isnan(low) or math.floor(high) < math.ceil(low):
        return math.nan
    return draw.whole(low, high)


def said(draw: Draw, table: Curve) -> Message:
    """Return what a table holds for: flaps, and gear where that is said."""
    several = len(draw.document.basis.flaps) > 1
    name = "practice-setting" + ("-flaps" if several else "") + ("-gear" if table.gear else "")
    values: dict[str, Value] = {"flaps": table.flaps}
    if table.gear:
        values["gear"] = Message(f"gear-{table.gear}")
    return Message(name, values)


def air(draw: Draw, most: float = math.inf) -> tuple[float, float]:
    """Return a pressure altitude and a temperature, round and as they occur."""
    levels = draw.document.basis.levels or (0.0, 10_000.0)
    step = 500 if draw.manual.altitude == "ft" else 200
    altitude = draw.whole(max(levels[0], step), min(levels[-1], most), step)
    off = draw.whole(-20.0, 20.0, 5)
    degrees = convert_difference(off, "K", draw.manual.temperature)
    oat = standard(draw, altitude) + float(degrees)
    return altitude, 5.0 * round(oat / 5.0)


def standard(draw: Draw, altitude: float) -> float:
    """Return the standard temperature at a pressure altitude."""
    kelvin = atmosphere.temperature(to_si(altitude, draw.manual.altitude))
    return float(from_si(kelvin, draw.manual.temperature))


def factor(draw: Draw, altitude: float, oat: float) -> float:
    """Return TAS over CAS without compressibility."""
    pressure = atmosphere.pressure(to_si(altitude, draw.manual.altitude))
    density = atmosphere.density(pressure, to_si(oat, draw.manual.temperature))
    standard_density = atmosphere.density(atmosphere.pressure(0.0), atmosphere.temperature(0.0))
    return math.sqrt(float(standard_density) / float(density))


def thousands(draw: Draw, altitude: float) -> float:
    """Return an altitude in thousands of feet."""
    return float(convert(altitude, draw.manual.altitude, "ft")) / 1000.0
