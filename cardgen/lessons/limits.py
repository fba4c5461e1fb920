"""Which limits a case passes: by the very figures that the cards print."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from cardgen.air import airspeed, atmosphere, load
from cardgen.document.record import Bound, Quantity
from cardgen.document.rounding import kept
from cardgen.lessons.curves import NORMAL, Chain, read
from cardgen.units import from_si, to_si

AT_ALTITUDE = ("VNE", "VMO", "MMO")  # the speeds that limit all flight
QUANTITIES = ("ias", "cas", "tas", "mach")
IN_WORDS = ("VNO", "VA", "VO", "VRA", "VB", "VLO", "VW", "VT")  # said, never bracketed
_BY_WEIGHT = ("VA", "VO")
_SET = ("VFE", "VLE")  # that hold with flaps or gear out
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
    static_source : str
    weight : float, optional
        In the manual's unit.
    """

    shown: float
    cas: float
    flaps: str
    gear: str = ""
    altitude: float | None = None
    oat: float | None = None
    static_source: str = NORMAL
    weight: float | None = None


@dataclass(frozen=True)
class Passed:
    """A limit that a case passes, or that is in force in it.

    Attributes
    ----------
    speed : str
    limit : Quantity
        What the indicator may show, or the limit in CAS where that is not known.
    binding : bool
        Whether it is in force in the case; others hold in rough air, for full
        use of the controls, or while something moves.
    bound : Bound
    as_cas : bool
        Whether the limit is in CAS.
    is_passed : bool
    """

    speed: str
    limit: Quantity
    binding: bool
    bound: Bound
    as_cas: bool = False
    is_passed: bool = True


def passed(chain: Chain, flying: Flying) -> list[Passed]:
    """Return the limits that a case passes, those in force first."""
    found = [*_in_force(chain, flying), *_in_words(chain, flying)]
    known = [_limit(chain, flying, *one) for one in found]
    return sorted((one for one in known if one.is_passed), key=lambda one: not one.binding)


def in_force(chain: Chain, flying: Flying) -> list[Passed]:
    """Return the limits in force in a case that are known in it, the lowest first."""
    known = [_limit(chain, flying, *one) for one in _in_force(chain, flying)]
    known = [one for one in known if not math.isnan(one.limit.value)]
    return sorted(known, key=lambda one: one.limit.value)


def _in_force(chain: Chain, flying: Flying) -> Iterator[tuple[Bound, float, bool]]:
    """Yield bounds that hold in a case, each in CAS: at its altitude, with its flaps and gear."""
    basis = chain.document.basis
    for bound in _in_general(chain):
        if (
            (bound.speed in AT_ALTITUDE and bound.altitude is None and _reaches(bound, flying))
            or (bound.speed == "VFE" and bound.flaps == flying.flaps != basis.flaps[0])
            or (bound.speed == "VLE" and flying.gear == "down")
        ):
            yield bound, _cas(chain, bound, flying), True
    for name in AT_ALTITUDE:
        yield from ((*one, True) for one in _by_altitude(chain, name, flying))


def _in_general(chain: Chain) -> Iterator[Bound]:
    """Yield the bounds but those under a condition in words, which no case says is so."""
    return (one for one in chain.document.basis.bounds if not one.when)


def _reaches(bound: Bound, flying: Flying) -> bool:
    """Whether a limit holds as low as a case; a TAS holds below the altitude it is named from."""
    if bound.from_altitude is None or bound.quantity == "tas":
        return True
    return flying.altitude is not None and flying.altitude >= bound.from_altitude


def _in_words(chain: Chain, flying: Flying) -> Iterator[tuple[Bound, float, bool]]:
    """Yield the highest figure of each speed that is said only, or that at a weight.

    Then those that hold under a condition in words.
    """
    own = [
        one.speed
        for one in chain.document.basis.bounds
        if one.sense == "maximum" and one.speed not in (*AT_ALTITUDE, *IN_WORDS, *_SET)
    ]
    for name in dict.fromkeys((*IN_WORDS, *own)):
        bounds = [
            one
            for one in _in_general(chain)
            if one.speed == name and one.altitude is None and _reaches(one, flying)
        ]
        light = _at_weight(chain, bounds, flying.weight) if name in _BY_WEIGHT else None
        moving = sorted({one.gear for one in bounds} - {flying.gear or None})
        highest = (
            max((one for one in bounds if one.gear == gear), key=lambda one: one.value)
            for gear in moving
        )
        for one in highest if light is None else [light]:
            yield one, _cas(chain, one, flying), False
        yield from ((*one, False) for one in _by_altitude(chain, name, flying))
    for one in chain.document.basis.bounds:
        if (
            one.when
            and one.sense == "maximum"
            and one.altitude is None
            and _reaches(one, flying)
            and one.flaps in ("", flying.flaps)
            and one.gear in ("", flying.gear)
        ):
            yield one, _cas(chain, one, flying), False


def _at_weight(chain: Chain, bounds: Sequence[Bound], weight: float | None) -> Bound | None:
    """Return a manoeuvring speed at a weight, as the card has it; None where none is known there.

    From the next heavier weight that it is given for, times the square root of
    the ratio of weights (FAA-H-8083-25B, chapter 5); where only given weights
    are approved, that of the next lighter one.
    """
    basis = chain.document.basis
    given = [(basis.weights[0] if one.weight is None else one.weight, one) for one in bounds]
    if weight is None or not given:
        return None
    if bounds[0].speed in basis.only_approved:
        lighter = [of for of, _ in given if of <= weight]
        held = max(lighter) if lighter else min(of for of, _ in given)
        return min((one for of, one in given if of == held), key=lambda one: one.value)
    heavier = [(of, one) for of, one in given if of >= weight and one.cas is not None]
    if not heavier:
        return None
    known, one = min(heavier, key=lambda pair: (pair[0], pair[1].value))
    if known == weight or one.cas is None:
        return one
    cas = kept(float(one.cas * load.speed_ratio(weight / known, 1.0)))
    return replace(one, quantity="cas", value=cas, cas=cas, weight=weight)


def below_minimum_control(chain: Chain, flying: Flying) -> float:
    """Return VMC as the indicator shows it, if a case is below it; else not a number.

    That of the case's flaps, or where the manual gives none for these the highest. A bench card
    may only raise it.
    """
    found = [one for one in _in_general(chain) if one.speed == "VMC"]
    fitting = [one for one in found if one.flaps in ("", flying.flaps)] or found
    shown = (
        np.fmax(chain.shown_at_ias(one.value), chain.own(one.value))
        if one.quantity == "ias"
        else chain.shown_at_cas(_cas(chain, one, flying), one.flaps)
        for one in fitting
    )
    least = max((float(one) for one in shown if not np.isnan(one)), default=math.nan)
    return least if flying.shown < least - _NOISE else math.nan


def above_the_last_row(chain: Chain, altitude: float | None) -> Bound | None:
    """Return the last row of a limit that is given by altitude, if a case is above it."""
    for name in AT_ALTITUDE:
        rows = [one for one in _in_general(chain) if one.speed == name]
        levels = [(one.altitude, one) for one in rows if one.altitude is not None]
        if altitude is not None and levels:
            last, bound = max(levels, key=lambda level: level[0])
            if altitude > last and not bound.less_per_altitude:
                return bound
    return None


def _by_altitude(chain: Chain, name: str, flying: Flying) -> Iterator[tuple[Bound, float]]:
    """Yield what rows of altitude say at one; without an altitude, the highest of them.

    The first row holds below itself too, between two the lower holds, or what
    lies between where the manual says so and of a TAS, and above the last none.
    """
    here = flying.altitude
    for quantity in QUANTITIES:
        rows = sorted(
            (one.altitude, n, one)
            for n, one in enumerate(_in_general(chain))
            if one.speed == name and one.quantity == quantity and one.altitude is not None
        )
        if here is None and rows:
            bound = max((row[2] for row in rows), key=lambda one: one.value)
            yield bound, _cas(chain, bound, flying)
        if here is None or not rows:
            continue
        if here > rows[-1][0]:
            if rows[-1][2].less_per_altitude:
                bound = _fallen(chain, rows[-1][2], here)
                yield bound, _cas(chain, bound, flying)
            continue
        after = next(n for n, row in enumerate(rows) if row[0] >= here)
        around = [row[2] for row in rows[max(after - 1, 0) : after + 1]]
        if rows[after][0] == here or after == 0:
            bound = rows[after][2]
        elif quantity == "tas" or any(row[2].interpolate for row in rows):
            bound = _between(chain, around, here)
        else:
            bound = min(around, key=lambda one: one.value)
        yield bound, _cas(chain, bound, flying)


def _fallen(chain: Chain, last: Bound, here: float) -> Bound:
    """Return what is left of the last row's figure above its altitude."""
    value = last.value - last.less_per_altitude * (here - (last.altitude or 0.0))
    return _at(chain, last, value, here)


def _at(chain: Chain, bound: Bound, value: float, here: float) -> Bound:
    """Return a bound with another value, which holds at an altitude."""
    cas = value
    if bound.quantity == "ias":
        cas = read(chain.table(bound.flaps, gear=_gear(bound)), value)
    return replace(bound, value=value, cas=cas, altitude=here)


def _between(chain: Chain, around: Sequence[Bound], here: float) -> Bound:
    """Return what lies between two rows, as a bound of the nearer."""
    levels = [one.altitude or 0.0 for one in around]
    value = float(np.interp(here, levels, [one.value for one in around]))
    nearest = min(around, key=lambda one: abs((one.altitude or 0.0) - here))
    return nearest if value == nearest.value else _at(chain, nearest, value, here)


def _cas(chain: Chain, bound: Bound, flying: Flying) -> float:
    """Return a bound in CAS in the air of a case; not a number where that is not known."""
    units = chain.document.head.units
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


def _limit(chain: Chain, flying: Flying, bound: Bound, cas: float, binding: bool) -> Passed:
    """Return a limit as the cards print it, and whether the case is above that."""
    head = chain.document.head
    most, is_now, unit = _shown(chain, bound, cas, flying), flying.shown, head.indicator_unit
    as_cas = math.isnan(most) or math.isnan(is_now)
    if as_cas:
        most, is_now, unit = cas, flying.cas, head.units.speed
    is_passed = is_now > most + _NOISE  # not where either is not known
    limit = Quantity(kept(most), unit, sense="maximum")
    return Passed(bound.speed, limit, binding, bound, as_cas, is_passed)


def _shown(chain: Chain, bound: Bound, cas: float, flying: Flying) -> float:
    """Return what the indicator may show: of an entered IAS no more than was entered.

    Nor more than a static source that reads low shows at the limit.
    """
    gear = _gear(bound)
    most = chain.shown_at_cas(cas, bound.flaps, gear=gear)
    if bound.quantity == "ias":
        most = np.fmin(chain.shown_at_ias(bound.value), chain.own(bound.value))
    if flying.static_source == NORMAL:
        return float(most)
    return float(np.fmin(most, chain.shown_at_cas(cas, bound.flaps, flying.static_source, gear)))


def _gear(bound: Bound) -> str:
    """Return where the gear is at a limit: as it says, or as the speed itself does."""
    return bound.gear or ("down" if bound.speed in ("VLE", "VS0", "VREF") else "")
