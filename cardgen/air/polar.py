"""What the polar of a glider gives: least sink, and the speed to fly in wind and moving air."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from cardgen.air.bounds import OutOfBoundsError, require
from cardgen.air.load import speed_ratio
from cardgen.units import Array, Values

_LEVEL = 1e-9  # so near, as a share, are two points equally good


class Point(NamedTuple):
    """A point of a polar.

    Attributes
    ----------
    speed : float
        True airspeed, m/s.
    sink : float
        Through the air, m/s.
    ratio : float
        Distance over the ground for height lost, in the wind and air asked for.
    is_end : bool
        Whether it is the polar's first or last, so that a better one may lie beyond.
    """

    speed: float
    sink: float
    ratio: float
    is_end: bool


def at_weight(speed: Values, sink: Values, weight_ratio: float) -> tuple[Values, Values]:
    """Return a polar at another weight.

    Parameters
    ----------
    speed, sink : float or array
        Of its points.
    weight_ratio : float
        Weight over the weight that the polar holds for, above zero.

    Returns
    -------
    tuple of float or array
        Speed and sink, in the units given.

    Raises
    ------
    OutOfBoundsError
        If the ratio is not above zero.

    Notes
    -----
    Each point stands for one lift coefficient, and so for one glide ratio:
    speed and sink both grow with the square root of the weight
    (FAA-H-8083-13A, Glider Flying Handbook, chapter 5, from memory).

    Examples
    --------
    >>> speed, sink = at_weight(25.0, 0.75, 1.44)
    >>> float(round(speed, 9)), float(round(sink, 9))
    (30.0, 0.9)
    """
    factor = speed_ratio(weight_ratio, 1.0)
    return speed * factor, sink * factor


def least_sink(speed: Array, sink: Array) -> Point:
    """Return the point of a polar at which least height is lost for the time.

    Parameters
    ----------
    speed : array
        True airspeeds, m/s, rising.
    sink : array
        m/s, above zero, one for each speed.

    Returns
    -------
    Point
        Of several as low, the fastest, which is farthest from the stall.

    Raises
    ------
    OutOfBoundsError
        If a sink is not above zero, or the speeds do not rise.

    Notes
    -----
    Read linearly, a polar is nowhere lower than at one of its points
    (FAA-H-8083-13A, Glider Flying Handbook, chapter 4, minimum sink airspeed,
    from memory).

    Examples
    --------
    >>> least_sink(np.array([20.0, 25.0, 30.0]), np.array([0.7, 0.6, 0.75])).speed
    25.0
    """
    _require_polar(speed, sink)
    return _point(speed, sink, speed / sink, _last(sink <= np.min(sink) * (1.0 + _LEVEL)))


def speed_to_fly(
    speed: Array, sink: Array, headwind: float = 0.0, sinking: float = 0.0
) -> Point | None:
    """Return the point of a polar that leads farthest over the ground for the height.

    Parameters
    ----------
    speed : array
        True airspeeds, m/s, rising.
    sink : array
        m/s, above zero, one for each speed.
    headwind : float
        m/s; negative for a tailwind.
    sinking : float
        How fast the air sinks, m/s; negative for air that rises.

    Returns
    -------
    Point or None
        Of several as good, the fastest; None where there is none, as the air
        rises as fast as the glider sinks through it at some speed, or the
        headwind is as fast as the fastest of them.

    Raises
    ------
    OutOfBoundsError
        If a sink is not above zero, or the speeds do not rise.

    Notes
    -----
    Where the tangent to the polar touches that starts at the headwind on the
    axis of speeds and at the speed of rising air on that of sinks
    (FAA-H-8083-13A, Glider Flying Handbook, chapters 4 and 5, from memory). Between
    two points read linearly the slope from there only rises or only falls,
    so that the tangent touches at a point.

    Examples
    --------
    >>> speed, sink = np.array([20.0, 25.0, 30.0, 40.0]), np.array([0.7, 0.6, 0.75, 1.4])
    >>> [speed_to_fly(speed, sink, wind).speed for wind in (0.0, 10.0)]
    [25.0, 30.0]
    """
    _require_polar(speed, sink)
    require("headwind", headwind, "m/s")
    require("sinking air", sinking, "m/s")
    ahead, down = speed - headwind, sink + sinking
    if np.any(down <= 0.0) or not np.any(ahead > 0.0):
        return None
    ratio = ahead / down
    return _point(speed, sink, ratio, _last(ratio * (1.0 + _LEVEL) >= np.max(ratio)))


def _require_polar(speed: Array, sink: Array) -> None:
    require("sink", sink, "m/s", above=0.0)
    require("speed", speed, "m/s", above=0.0)
    if np.any(np.diff(speed) <= 0.0):
        raise OutOfBoundsError("the speeds of a polar do not rise")


def _last(good: NDArray[np.bool_]) -> int:
    return int(np.flatnonzero(good)[-1])


def _point(speed: Array, sink: Array, ratio: Array, at: int) -> Point:
    is_end = at in (0, len(speed) - 1)
    return Point(float(speed[at]), float(sink[at]), float(ratio[at]), is_end)
