"""Which limits a case passes: by the very figures that the cards print."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from cardgen.air import airspeed, atmosphere
from cardgen.document.record import Bound, Document, Quantity
from cardgen.document.rounding import kept
from cardgen.lessons.curves import Chain
from cardgen.units import from_si, to_si

AT_ALTITUDE = ("VNE", "VMO", "MMO")  # the speeds that limit all flight
IN_WORDS = ("VNO", "VA", "VO", "VRA", "VLO", "VW", "VT")  # said, never bracketed
_NOISE = 1e-6  # documents keep six decimals


@dataclass(frozen=True)
class Flying:
    """A case as far as limits ask: airspeeds, configuration and air.

    Attributes
    ----------
    shown : float
        What the indicator shows, in its unit; not a number where none is known.
    cas : float
        In the manual's unit; not a number where none is known.
    flaps : str
    gear : str
        ``up``, ``down``, or nothing where it was not said.
    altitude, oat : float, optional
        Pressure altitude and temperature, in the manual's units.
    """

    shown: float
    cas: float
    flaps: str
    gear: str = ""
    altitude: float | None = None
    oat: float | None = None


@dataclass(frozen=True)
class Passed:
    """A limit that a case passes.

    Attributes
    ----------
    speed : str
    limit : Quantity
        What the indicator may show, or the limit in CAS where that is not known.
    binding : bool
        Whether it is in force in the case; others hold in rough air, for full
        use of the controls, or while something moves.
    bound : Bound
    """

    speed: str
    limit: Quantity
    binding: bool
    bound: Bound


def passed(document: Document, chain: Chain, flying: Flying) -> list[Passed]:
    """Return the limits that a case passes, those in force first."""
    found = [*_in_force(document, flying), *_in_words(document, flying)]
    beyond = [_passed(document, chain, flying, *one) for one in found]
    known = [one for one in beyond if one is not None]
    return sorted(known, key=lambda one: not one.binding)


def _in_force(document: Document, flying: Flying) -> Iterator[tuple[Bound, float, bool]]:
    """Yield bounds that hold in a case, each in CAS: at its altitude, with its flaps and gear."""
    bounds = document.basis.bounds
    for bound in bounds:
        if bound.speed in AT_ALTITUDE and bound.altitude is None:
            yield bound, _cas(document, bound, flying), True
        if bound.speed == "VFE" and bound.flaps == flying.flaps != document.basis.flaps[0]:
            yield bound, _cas(document, bound, flying), True
        if bound.speed == "VLE" and flying.gear == "down":
            yield bound, _cas(document, bound, flying), True
    for name in AT_ALTITUDE:
        yield from _by_altitude(document, name, flying)


def _in_words(document: Document, flying: Flying) -> Iterator[tuple[Bound, float, bool]]:
    """Yield the highest figure of each speed that is said only; it may be lower when lighter."""
    for name in IN_WORDS:
        bounds = [one for one in document.basis.bounds if one.speed == name]
        if bounds:
            highest = max(bounds, key=lambda one: one.value)
            yield highest, _cas(document, highest, flying), False


def _by_altitude(
    document: Document, name: str, flying: Flying
) -> Iterator[tuple[Bound, float, bool]]:
    """Yield the figure between a manual's rows of altitude, where it reaches."""
    rows = [
        (one.altitude, one.cas, one)
        for one in document.basis.bounds
        if one.speed == name and one.altitude is not None and one.cas is not None
    ]
    if not rows or flying.altitude is None:
        return
    rows.sort(key=lambda row: row[0])
    levels, speeds, _ = zip(*rows, strict=True)
    cas = float(np.interp(flying.altitude, levels, speeds, left=np.nan, right=np.nan))
    nearest = min(rows, key=lambda row: abs(row[0] - (flying.altitude or 0.0)))
    if not math.isnan(cas):
        yield nearest[2], cas, True


def _cas(document: Document, bound: Bound, flying: Flying) -> float:
    """Return a bound in CAS in the air of a case; not a number where that is not known."""
    units = document.head.units
    if bound.quantity not in ("tas", "mach"):
        return math.nan if bound.cas is None else bound.cas
    if flying.altitude is None:
        return math.nan
    metres = to_si(flying.altitude, units.altitude)
    pressure = atmosphere.pressure(metres)
    if bound.quantity == "mach":
        return float(from_si(airspeed.cas_from_mach(bound.value, pressure), units.speed))
    kelvin = atmosphere.temperature(metres)
    if flying.oat is not None:
        kelvin = to_si(flying.oat, units.temperature)
    cas = airspeed.cas_from_tas(to_si(bound.value, units.speed), pressure, kelvin)
    return float(from_si(cas, units.speed))


def _passed(
    document: Document, chain: Chain, flying: Flying, bound: Bound, cas: float, binding: bool
) -> Passed | None:
    """Return a limit, if the case is above it as the cards print it."""
    most, is_now, unit = _shown(chain, bound, cas), flying.shown, document.head.indicator_unit
    if math.isnan(most) or math.isnan(is_now):
        most, is_now, unit = cas, flying.cas, document.head.units.speed
    if not is_now > most + _NOISE:  # nor where either is not known
        return None
    return Passed(bound.speed, Quantity(kept(most), unit, sense="maximum"), binding, bound)


def _shown(chain: Chain, bound: Bound, cas: float) -> float:
    """Return what the indicator may show: of an entered IAS no more than was entered."""
    if bound.quantity == "ias" and bound.altitude is None:
        return min(chain.shown_at_ias(bound.value), chain.own(bound.value))
    return chain.shown_at_cas(cas, bound.flaps)
