"""Polars against the closed form of a quadratic one, and handbook rules of speed to fly.

Sources: geometry, worked beside each check; FAA-H-8083-13A, Glider Flying Handbook, chapters 4
and 5 (from memory).

Of sink = a v^2 + b v + c, seen from a headwind h and air that sinks at s, the tangent touches
where the slope of the chord is that of the curve:

    (a v^2 + b v + c + s) / (v - h) = 2 a v + b
    a v^2 - 2 a h v - (b h + c + s) = 0
    v = h + sqrt(h^2 + (b h + c + s) / a)

In still air that is sqrt(c / a), and the best ratio 1 / (b + 2 sqrt(a c)). Least sink is at
-b / (2 a).
"""

import math

import numpy as np
import pytest

from cardgen.air.polar import at_weight, least_sink, speed_to_fly

A, B, C = 0.0025, -0.12, 2.1  # of sink in m/s by speed in m/s
SPEED = np.linspace(20.0, 70.0, 50_001)  # so many points that straight lines between them are it
STEP = 0.001
SINK = (A * SPEED + B) * SPEED + C


def closed_form(headwind: float, sinking: float) -> float:
    return headwind + math.sqrt(headwind**2 + (B * headwind + C + sinking) / A)


def test_least_sink_of_a_quadratic_polar():
    """By the formula above: 0.12 / 0.005 = 24 m/s, and 2.1 - 0.12^2 / 0.01 = 0.66 m/s."""
    found = least_sink(SPEED, SINK)
    assert found.speed == pytest.approx(24.0, abs=STEP)
    assert found.sink == pytest.approx(0.66, abs=1e-6)
    assert not found.is_end


def test_best_glide_of_a_quadratic_polar():
    """By the formula above: sqrt(840) = 28.983 m/s.

    sqrt(0.00525) = 0.0724569; 1 / (0.1449138 - 0.12) = 1 / 0.0249138 = 40.138.
    """
    found = speed_to_fly(SPEED, SINK)
    assert found.speed == pytest.approx(28.983, abs=0.001)
    assert found.ratio == pytest.approx(40.138, abs=0.001)


@pytest.mark.parametrize("headwind", [-15.0, -5.0, 0.0, 5.0, 15.0])
@pytest.mark.parametrize("sinking", [-0.5, 0.0, 1.0, 3.0])
def test_tangent_to_a_quadratic_polar(headwind, sinking):
    expected = closed_form(headwind, sinking)
    assert speed_to_fly(SPEED, SINK, headwind, sinking).speed == pytest.approx(expected, abs=0.002)


def test_wind_and_sinking_air_move_the_speed_as_pilots_are_taught():
    """FAA-H-8083-13A, chapter 5: faster into wind and in sinking air, slower the other way."""
    still = speed_to_fly(SPEED, SINK).speed
    assert speed_to_fly(SPEED, SINK, headwind=10.0).speed > still
    assert speed_to_fly(SPEED, SINK, headwind=-10.0).speed < still
    assert speed_to_fly(SPEED, SINK, sinking=1.0).speed > still
    assert speed_to_fly(SPEED, SINK, sinking=-0.3).speed < still


def test_air_that_almost_carries_makes_the_speed_of_least_sink_that_to_fly():
    """As rising air nears the least sink, the tangent from it lies ever flatter."""
    found = speed_to_fly(SPEED, SINK, sinking=-0.65999)
    assert found.speed == pytest.approx(least_sink(SPEED, SINK).speed, abs=0.1)


def test_a_heavier_glider_glides_as_far_but_faster():
    """FAA-H-8083-13A, chapter 5: ballast moves the polar along lines of one glide ratio.

    At 1.44 times the weight speed and sink are sqrt(1.44) = 1.2 times as high.
    """
    light, heavy = speed_to_fly(SPEED, SINK), speed_to_fly(*at_weight(SPEED, SINK, 1.44))
    assert heavy.speed / light.speed == pytest.approx(1.2)
    assert heavy.sink / light.sink == pytest.approx(1.2)
    assert heavy.ratio == pytest.approx(light.ratio)


def test_seven_points_of_it_stay_as_near_as_they_are_apart():
    """Read linearly, the tangent touches at one of the points on either side of the exact speed."""
    speed = np.array([20.0, 24.0, 28.0, 33.0, 40.0, 50.0, 60.0])
    found = speed_to_fly(speed, (A * speed + B) * speed + C, 5.0, 1.0)
    exact = closed_form(5.0, 1.0)
    beside = speed[np.searchsorted(speed, exact) - 1], speed[np.searchsorted(speed, exact)]
    assert found.speed in beside
