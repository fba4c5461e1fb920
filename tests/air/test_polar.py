"""Polars: what is refused, ends, ties, and that no point between two is better."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.air.bounds import OutOfBoundsError
from cardgen.air.polar import at_weight, least_sink, speed_to_fly

SPEED = np.array([20.0, 25.0, 30.0, 40.0])
NO_NUMBER = "nan m/s is not a number; expected a number"
SINK = np.array([0.7, 0.6, 0.75, 1.4])


def test_a_tangent_at_the_first_or_last_point_says_so():
    assert speed_to_fly(SPEED, SINK, sinking=-0.55).is_end is False
    assert speed_to_fly(SPEED, SINK, sinking=9.0).is_end
    assert speed_to_fly(SPEED, np.array([0.5, 0.9, 1.4, 3.0])).is_end
    assert least_sink(SPEED, np.array([0.5, 0.9, 1.4, 3.0])).is_end
    assert not least_sink(SPEED, SINK).is_end


def test_the_glide_at_least_sink_is_as_far_as_it_is_fast_for_each_metre_of_height():
    found = least_sink(SPEED, SINK)
    assert found.ratio == pytest.approx(25.0 / 0.6)


def test_of_points_as_good_the_fastest_is_flown():
    speed, sink = np.array([20.0, 22.0, 25.0, 30.0]), np.array([0.7, 0.6, 0.6, 0.72])
    assert least_sink(speed, sink).speed == 25.0
    assert (
        speed_to_fly(np.array([20.0, 25.0, 30.0, 31.0]), np.array([0.6, 0.6, 0.72, 0.9])).speed
        == 30.0
    )


@pytest.mark.parametrize("sinking", [-0.6, -0.61, -5.0])
def test_air_that_rises_as_fast_as_the_least_sink_has_no_tangent(sinking):
    assert speed_to_fly(SPEED, SINK, sinking=sinking) is None


@pytest.mark.parametrize(("headwind", "known"), [(39.9, True), (40.0, False), (50.0, False)])
def test_a_headwind_as_fast_as_the_polar_has_no_tangent(headwind, known):
    assert (speed_to_fly(SPEED, SINK, headwind=headwind) is not None) is known


def test_little_headway_is_better_than_none():
    """Into 29.5 m/s the point at 30 makes 0.5 for 0.1 of sink, that at 40 10.5 for 5.0."""
    found = speed_to_fly(SPEED, np.array([0.7, 0.6, 0.1, 5.0]), headwind=29.5)
    assert (found.speed, found.ratio) == (30.0, pytest.approx(5.0))


def test_points_that_make_no_headway_are_not_flown():
    found = speed_to_fly(SPEED, SINK, headwind=26.0)
    assert (found.speed, found.sink) == (40.0, 1.4)
    assert found.ratio == pytest.approx((40.0 - 26.0) / 1.4)


@pytest.mark.parametrize(
    ("speed", "sink", "said"),
    [
        ([20.0, 25.0], [0.7, 0.0], "sink 0 m/s is not above 0 m/s"),
        ([20.0, 25.0], [0.7, np.nan], "sink nan m/s is not a number; expected a number"),
        ([0.0, 25.0], [0.7, 0.6], "speed 0 m/s is not above 0 m/s"),
        ([25.0, 25.0], [0.7, 0.6], "the speeds of a polar do not rise"),
    ],
)
@pytest.mark.parametrize("question", [least_sink, speed_to_fly])
def test_what_is_no_polar_is_refused(question, speed, sink, said):
    with pytest.raises(OutOfBoundsError, match=f"^{said}$"):
        question(np.array(speed), np.array(sink))


def test_a_wind_and_air_that_are_no_numbers_are_refused():
    with pytest.raises(OutOfBoundsError, match=f"^headwind {NO_NUMBER}$"):
        speed_to_fly(SPEED, SINK, headwind=np.nan)
    with pytest.raises(OutOfBoundsError, match=f"^sinking air {NO_NUMBER}$"):
        speed_to_fly(SPEED, SINK, sinking=np.nan)


def test_a_weight_ratio_above_nothing():
    with pytest.raises(OutOfBoundsError, match="weight ratio"):
        at_weight(25.0, 0.6, 0.0)


@given(
    steps=st.lists(st.floats(0.5, 10.0), min_size=2, max_size=8),
    sinks=st.lists(st.floats(0.3, 6.0), min_size=9, max_size=9),
    headwind=st.floats(-20.0, 14.0),
    sinking=st.floats(0.0, 4.0),
)
def test_nothing_between_two_points_leads_farther(steps, sinks, headwind, sinking):
    speed = 15.0 + np.cumsum(steps)
    sink = np.array(sinks[: len(speed)])
    found = speed_to_fly(speed, sink, headwind, sinking)
    fine = np.linspace(speed[0], speed[-1], 1001)
    ratio = (fine - headwind) / (np.interp(fine, speed, sink) + sinking)
    assert found.ratio >= np.max(ratio) - 1e-6 * abs(np.max(ratio))
    assert found.speed in speed
