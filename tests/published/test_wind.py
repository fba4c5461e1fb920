"""Wind against common practice and triangles solved by hand."""

import numpy as np
import pytest

from cardgen.air.wind import wind_components, wind_triangle
from cardgen.units import from_si, to_si


def _hold(tas, course, wind_from, wind):
    """Heading, degrees, and ground speed, kt, of a course and wind in degrees and knots."""
    held = wind_triangle(
        to_si(tas, "kt"), to_si(course, "deg"), to_si(wind_from, "deg"), to_si(wind, "kt")
    )
    return from_si(held.heading, "deg"), from_si(held.ground_speed, "kt")


@pytest.mark.parametrize(("wind_from", "ground_speed"), [(90.0, 140.0), (270.0, 160.0)])
def test_headwind_takes_what_a_tailwind_gives(wind_from, ground_speed):
    # Common practice: ground speed is true airspeed less headwind, or plus tailwind.
    heading, found = _hold(150.0, 90.0, wind_from, 10.0)
    assert found == pytest.approx(ground_speed, rel=1e-12)
    assert heading == pytest.approx(90.0, abs=1e-9)


# Angle off the nose; the rule's share of the wind; the rule less the exact share. Common practice.
CLOCK_RULE = [
    (30.0, 0.5, 0.000),
    (45.0, 0.7, -0.007),
    (60.0, 0.9, 0.034),
]


@pytest.mark.parametrize(("angle", "share", "error"), CLOCK_RULE)
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_crosswind_clock_rule(angle, share, error, side):
    wind = wind_components(to_si(180.0 + side * angle, "deg"), 1.0, to_si(180.0, "deg"))
    assert share - side * wind.crosswind == pytest.approx(error, abs=0.0005)


# Course 090, true airspeed 100 kt. Each crosswind is 60 kt from the right, so the nose stands
# arcsin(60 / 100) = 36.870 degrees into it and sqrt(100^2 - 60^2) = 80 kt is left along the course.
# - wind straight across, 60 kt from 180: 80 kt over the ground
# - 61 kt, of which 11 kt ahead (11^2 + 60^2 = 61^2): 80 - 11 = 69 kt
# - 61 kt, of which 11 kt behind: 80 + 11 = 91 kt
BESIDE = np.degrees(np.arctan2(60.0, 11.0))
TRIANGLES = [
    (180.0, 60.0, 80.0),
    (90.0 + BESIDE, 61.0, 69.0),
    (270.0 - BESIDE, 61.0, 91.0),
]


@pytest.mark.parametrize(("wind_from", "wind", "ground_speed"), TRIANGLES)
def test_wind_triangle_by_hand(wind_from, wind, ground_speed):
    heading, found = _hold(100.0, 90.0, wind_from, wind)
    assert heading == pytest.approx(126.870, abs=0.0005)
    assert found == pytest.approx(ground_speed, rel=1e-12)


def test_wind_from_the_left_turns_the_nose_left():
    # The first triangle above in a mirror, across north: 010 less 36.870 degrees.
    heading, found = _hold(100.0, 10.0, 280.0, 60.0)
    assert heading == pytest.approx(333.130, abs=0.0005)
    assert found == pytest.approx(80.0, rel=1e-12)
