"""Wind: components, triangles, arrays and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.air.bounds import OutOfBoundsError
from cardgen.air.wind import wind_components, wind_triangle

directions = st.floats(0.0, 2 * np.pi, exclude_max=True)
unhurried = settings(deadline=None)


@unhurried
@given(directions, directions, st.floats(0.0, 100.0))
def test_components_make_up_the_wind(wind_from, course, speed):
    headwind, crosswind = wind_components(wind_from, speed, course)
    assert np.hypot(headwind, crosswind) == pytest.approx(speed, rel=1e-12)
    back = course + np.arctan2(crosswind, headwind)
    assert speed * np.sin(back) == pytest.approx(speed * np.sin(wind_from), abs=1e-10)
    assert speed * np.cos(back) == pytest.approx(speed * np.cos(wind_from), abs=1e-10)


@pytest.mark.parametrize(
    ("wind_from", "headwind", "crosswind"),
    [(0.0, 10.0, 0.0), (90.0, 0.0, 10.0), (180.0, -10.0, 0.0), (270.0, 0.0, -10.0)],
)
def test_signs_of_the_components(wind_from, headwind, crosswind):
    found = wind_components(np.radians(wind_from), 10.0, 0.0)
    assert found.headwind == pytest.approx(headwind, abs=1e-12)
    assert found.crosswind == pytest.approx(crosswind, abs=1e-12)


@unhurried
@given(st.floats(20.0, 250.0), directions, directions, st.floats(0.0, 0.95))
def test_air_plus_wind_is_ground(tas, course, wind_from, share):
    # Vectors as (north, east): motion through the air, and of the air, add to that over the ground.
    wind = share * tas
    held = wind_triangle(tas, course, wind_from, wind)
    north = tas * np.cos(held.heading) - wind * np.cos(wind_from)
    east = tas * np.sin(held.heading) - wind * np.sin(wind_from)
    assert north == pytest.approx(held.ground_speed * np.cos(course), abs=1e-9)
    assert east == pytest.approx(held.ground_speed * np.sin(course), abs=1e-9)


@unhurried
@given(st.floats(20.0, 250.0), directions)
def test_still_air_changes_nothing(tas, course):
    held = wind_triangle(tas, course, 1.0, 0.0)
    assert held.ground_speed == tas
    assert held.heading == pytest.approx(course, abs=1e-12)


@unhurried
@given(st.floats(20.0, 250.0), directions, directions, st.floats(0.0, 0.95))
def test_a_heading_lies_on_the_compass(tas, course, wind_from, share):
    assert 0.0 <= wind_triangle(tas, course, wind_from, share * tas).heading < 2 * np.pi


def test_a_hair_left_of_north_is_north():
    # A breath of wind from the left, too faint to turn the nose by one bit of a full circle.
    assert wind_triangle(50.0, 0.0, np.radians(270.0), 1e-20).heading == 0.0


def test_any_way_along_the_course_is_enough():
    assert wind_triangle(50.0, 0.0, 0.0, 49.5).ground_speed == pytest.approx(0.5)


def test_out_and_home_in_a_wind_takes_longer_than_in_none():
    for wind_from in np.radians(np.arange(0.0, 360.0, 15.0)):
        out = wind_triangle(50.0, 0.0, wind_from, 10.0).ground_speed
        home = wind_triangle(50.0, np.pi, wind_from, 10.0).ground_speed
        assert 1 / out + 1 / home > 2 / 50.0


TAS = np.linspace(30.0, 120.0, 9)
COURSES = np.linspace(0.1, 6.1, 9)
WINDS_FROM = np.linspace(6.0, 0.2, 9)
WINDS = np.linspace(0.0, 25.0, 9)


def test_arrays_are_many_scalars():
    together = wind_triangle(TAS, COURSES, WINDS_FROM, WINDS)
    rows = zip(TAS, COURSES, WINDS_FROM, WINDS, strict=True)
    alone = [wind_triangle(*map(float, row)) for row in rows]
    np.testing.assert_allclose(together.heading, [held.heading for held in alone], rtol=1e-14)
    np.testing.assert_allclose(
        together.ground_speed, [held.ground_speed for held in alone], rtol=1e-14
    )


def test_a_crosswind_table_broadcasts():
    angles, speeds = np.radians(np.arange(0.0, 91.0, 10.0)), np.arange(0.0, 21.0, 5.0)
    table = wind_components(angles[:, np.newaxis], speeds, 0.0)
    assert table.headwind.shape == table.crosswind.shape == (10, 5)
    np.testing.assert_allclose(table.crosswind[3], 0.5 * speeds, rtol=1e-12)


NAN = float("nan")
NONE = ": no heading holds this course"
NO_WAY = ": the headwind leaves no way along this course"

REFUSALS = [
    ((-1.0, 0.0, 0.0, 0.0), "true airspeed -1 m/s is below 0 m/s"),
    ((50.0, 0.0, 0.0, -1.0), "wind speed -1 m/s is below 0 m/s"),
    ((NAN, 0.0, 0.0, 5.0), "true airspeed nan m/s is not a number; expected a number"),
    ((50.0, 0.0, 0.0, NAN), "wind speed nan m/s is not a number; expected a number"),
    ((50.0, NAN, 0.0, 5.0), "course nan rad is not a number; expected a number"),
    ((50.0, 0.0, NAN, 5.0), "wind direction nan rad is not a number; expected a number"),
    # winds that no heading holds
    ((50.0, 0.0, np.pi / 2, 51.0), f"crosswind 51 m/s is above the true airspeed 50 m/s{NONE}"),
    ((50.0, 0.0, -np.pi / 2, 51.0), f"crosswind 51 m/s is above the true airspeed 50 m/s{NONE}"),
    ((50.0, 0.0, 0.0, 51.0), f"ground speed -1 m/s is not above 0 m/s{NO_WAY}"),
    ((50.0, 0.0, 0.0, 50.0), f"ground speed 0 m/s is not above 0 m/s{NO_WAY}"),
    ((0.0, 0.0, 0.0, 0.0), f"ground speed 0 m/s is not above 0 m/s{NO_WAY}"),
]


@pytest.mark.parametrize(("inputs", "said"), REFUSALS)
def test_refusal_names_the_value_and_the_bound(inputs, said):
    with pytest.raises(OutOfBoundsError, match=f"^{said}$"):
        wind_triangle(*inputs)


def test_components_refuse_a_wind_below_nothing():
    with pytest.raises(OutOfBoundsError, match="wind speed -1 m/s is below 0 m/s"):
        wind_components(0.0, -1.0, 0.0)


def test_one_bad_wind_spoils_an_array():
    with pytest.raises(OutOfBoundsError, match="crosswind 60 m/s is above"):
        wind_triangle(50.0, 0.0, np.pi / 2, np.array([10.0, 60.0, 20.0]))


def test_a_crosswind_as_strong_as_the_airspeed_needs_a_tailwind():
    # Straight across, nothing is left along the course; a little from behind, a little is.
    with pytest.raises(OutOfBoundsError, match=r"ground speed .* is not above 0 m/s"):
        wind_triangle(50.0, 0.0, np.pi / 2, 50.0)
    assert wind_triangle(50.0, 0.0, np.radians(100.0), 50.0).ground_speed > 0
