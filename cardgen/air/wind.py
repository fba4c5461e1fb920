"""What the wind leaves of a true airspeed over the ground."""

from typing import NamedTuple

import numpy as np

from cardgen.air.bounds import OutOfBoundsError, require
from cardgen.units import Values


class WindComponents(NamedTuple):
    """A wind as it acts along and across a course, m/s."""

    headwind: Values  # negative for a tailwind
    crosswind: Values  # positive from the right


class WindTriangle(NamedTuple):
    """A course held in a wind."""

    heading: Values  # rad, 0 to below 2 pi
    ground_speed: Values  # m/s


def wind_components(wind_from: Values, wind_speed: Values, course: Values) -> WindComponents:
    """Headwind and crosswind components of a wind on a course or runway.

    Parameters
    ----------
    wind_from : float or array
        Direction that the wind blows from, rad.
    wind_speed : float or array
        m/s, not negative.
    course : float or array
        rad, from the same north as `wind_from`.

    Returns
    -------
    WindComponents
        Headwind (negative for a tailwind) and crosswind (positive from the
        right), m/s.

    Raises
    ------
    OutOfBoundsError
        If the wind speed is negative.

    Notes
    -----
    The wind resolved along and across the course: cosine and sine of the angle
    between them.

    Examples
    --------
    >>> wind = wind_components(np.radians(60.0), 10.0, np.radians(30.0))
    >>> round(float(wind.headwind), 3), round(float(wind.crosswind), 3)
    (8.66, 5.0)
    """
    require("wind speed", wind_speed, "m/s", least=0.0)
    require("wind direction", wind_from, "rad")
    require("course", course, "rad")
    angle = wind_from - course
    return WindComponents(wind_speed * np.cos(angle), wind_speed * np.sin(angle))


def wind_triangle(
    tas: Values, course: Values, wind_from: Values, wind_speed: Values
) -> WindTriangle:
    """Heading and ground speed that hold a course in a wind.

    Parameters
    ----------
    tas : float or array
        True airspeed, m/s, not negative.
    course : float or array
        Course to hold, rad.
    wind_from : float or array
        Direction that the wind blows from, rad.
    wind_speed : float or array
        m/s, not negative.

    Returns
    -------
    WindTriangle
        Heading, rad, and ground speed along the course, m/s.

    Raises
    ------
    OutOfBoundsError
        If the crosswind is more than the true airspeed can lean against, or
        the headwind leaves no speed along the course.

    Notes
    -----
    The law of sines for the correction angle; the along-course parts of air
    and wind, added, for the ground speed.

    Examples
    --------
    >>> held = wind_triangle(150.0, 0.0, 0.0, 10.0)
    >>> round(float(held.ground_speed), 9)
    140.0
    """
    require("true airspeed", tas, "m/s", least=0.0)
    headwind, crosswind = wind_components(wind_from, wind_speed, course)
    lacking = np.asarray(np.abs(crosswind) - tas)
    if np.any(lacking > 0.0):
        worst = lacking.argmax()
        across, through = (
            np.broadcast_to(one, lacking.shape).flat[worst] for one in (np.abs(crosswind), tas)
        )
        raise OutOfBoundsError(
            f"crosswind {across:.6g} m/s is above the true airspeed {through:.6g} m/s: "
            "no heading holds this course"
        )
    ground_speed = np.sqrt(tas**2 - crosswind**2) - headwind
    if np.any(ground_speed <= 0.0):
        raise OutOfBoundsError(
            f"ground speed {np.min(ground_speed):.6g} m/s is not above 0 m/s: "
            "the headwind leaves no way along this course"
        )
    correction = np.arcsin(np.divide(crosswind, np.maximum(tas, np.finfo(float).tiny)))
    heading = (course + correction) % (2 * np.pi)
    heading = np.where(heading < 2 * np.pi, heading, 0.0)[()]  # a hair left of north rounds up
    return WindTriangle(heading, ground_speed)
