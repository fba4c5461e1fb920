"""How an aircraft glides: the ratio of a glide, and its polar at a weight."""

from typing import NamedTuple

import numpy as np

from cardgen.air import polar as air
from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.gliding import Glide, Polar
from cardgen.definition.places import Figure
from cardgen.units import Array, to_si


def ratio_of(aircraft: Aircraft, glide: Glide) -> float:
    """Return distance over height: as the manual gives it, or else of its distance for a height."""
    if glide.ratio is not None:
        return float(glide.ratio)
    assert glide.distance is not None
    assert glide.for_height is not None
    distance = to_si(float(glide.distance), aircraft.units.far)
    return float(distance / to_si(float(glide.for_height), aircraft.units.high))


def altitude_of(polar: Polar) -> float:
    """Return the pressure altitude of a polar, in the manual's unit."""
    return 0.0 if polar.altitude is None else float(polar.altitude)


class Points(NamedTuple):
    """A polar at a weight, at its own altitude in standard air: TAS rising, and sink, m/s."""

    speed: Array
    sink: Array


def points(aircraft: Aircraft, polar: Polar, weight: Figure | None) -> Points | None:
    """Return a polar at a weight, or as it is given where none is named.

    None where the calibration table reaches less than two of its points.

    Notes
    -----
    Speed and sink by the square root of the ratio of weights; see
    `cardgen.air.polar.at_weight`.
    """
    speed = np.asarray(to_si(_tas(aircraft, polar), aircraft.units.speed))
    assert aircraft.units.sink is not None
    sink = np.asarray(to_si(np.array(polar.sink), aircraft.units.sink))
    known = ~np.isnan(speed)
    if known.sum() < 2:
        return None
    ratio = weight / polar.weight if weight and polar.weight else 1.0
    found = air.at_weight(speed[known], sink[known], float(ratio))
    return Points(*map(np.asarray, found))


def _tas(aircraft: Aircraft, polar: Polar) -> Array:
    """Return the true airspeeds of a polar, in the manual's unit; not a number where unknown."""
    if polar.tas is not None:
        return np.array(polar.tas)
    if polar.cas is not None:
        cas = np.array(polar.cas)
    else:
        ias = np.array(polar.ias)
        cas = np.asarray(aircraft.cas_from_ias(ias, polar.flaps))
    altitude = altitude_of(polar)
    air_there = float(aircraft.standard_temperature(altitude))
    return np.asarray(aircraft.tas_from_cas(cas, altitude, air_there))


def weights_of(aircraft: Aircraft, polar: Polar) -> list[Figure | None]:
    """Return the weights that a polar serves, heaviest first; none of a polar without a weight.

    Of polars that differ only in their weight each serves the weights up to
    its own from the next lighter, and the heaviest those above it too.
    """
    if polar.weight is None:
        return [None]
    rivals = [
        (one.weight, one)
        for one in aircraft.definition.type.polar
        if one.weight is not None and _alike(one, polar)
    ]
    limits = aircraft.definition.type.weights
    wanted = sorted({limits.maximum, *limits.others, *dict(rivals)}, reverse=True)
    return [one for one in wanted if _serving(rivals, one) is polar]


def _alike(one: Polar, other: Polar) -> bool:
    return all(getattr(one, key) == getattr(other, key) for key in ("flaps", "altitude", "when"))


def _serving(polars: list[tuple[Figure, Polar]], weight: Figure) -> Polar:
    """Return the polar for a weight: the next heavier, or else the heaviest."""
    heavier = [(known, polar) for known, polar in polars if known >= weight]
    return min(heavier, key=_weight, default=max(polars, key=_weight))[1]


def _weight(known: tuple[Figure, Polar]) -> Figure:
    return known[0]
