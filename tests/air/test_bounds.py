"""Refusals: which values pass, and what is said of those that do not."""

import numpy as np
import pytest

from cardgen.air.bounds import OutOfBoundsError, require

NAN = float("nan")


def test_bounds_that_belong_to_the_range_and_bounds_that_do_not():
    assert require("share", 0.0, "", least=0.0, most=1.0) == 0.0
    assert require("share", 1.0, "", least=0.0, most=1.0) == 1.0
    for edge in (0.0, 1.0):
        with pytest.raises(OutOfBoundsError):
            require("share", edge, "", above=0.0, below=1.0)
    assert require("share", np.nextafter(0.0, 1.0), "", above=0.0, below=1.0) > 0.0


def test_values_come_back_as_they_went_in():
    values = np.array([1.0, 2.0])
    assert require("speed", values, "m/s", least=0.0) is values


def test_one_wrong_value_among_many_is_found_wherever_it_stands():
    for place in range(4):
        for wrong in (-1.0, 2.0, NAN):
            values = np.full(4, 0.5)
            values[place] = wrong
            with pytest.raises(OutOfBoundsError, match=f"^share {wrong:g} "):
                require("share", values, "", least=0.0, most=1.0)


def test_without_bounds_any_number_will_do_but_a_number_it_must_be():
    assert require("course", 1e300, "rad") == 1e300
    with pytest.raises(OutOfBoundsError):
        require("course", float("nan"), "rad")


@pytest.mark.parametrize(
    ("value", "unit", "bounds", "said"),
    [
        (-0.5, "m/s", {"least": 0.0}, "thing -0.5 m/s is below 0 m/s"),
        (20_001.0, "m", {"most": 20_000.0}, "thing 20001 m is above 20000 m"),
        (0.0, "K", {"above": 0.0}, "thing 0 K is not above 0 K"),
        (2.0, "rad", {"below": np.pi / 2}, "thing 2 rad is not below 1.5708 rad"),
        (1.0, "", {"below": 1.0}, "thing 1 is not below 1"),
        (NAN, "Pa", {"above": 0.0}, "thing nan Pa is not a number; expected a number"),
        (NAN, "", {}, "thing nan is not a number; expected a number"),
        (np.array([[1.0, -2.0], [-3.0, 4.0]]), "", {"least": 0.0}, "thing -3 is below 0"),
        (np.array([0.0, -2.0]), "", {"least": 0.0}, "thing -2 is below 0"),
        (np.array([1.0, 2.0, 3.0]), "", {"most": 1.0}, "thing 3 is above 1"),
        (
            np.array([NAN, -2.0]),
            "m",
            {"least": 0.0},
            "thing nan m is not a number; expected a number",
        ),
    ],
)
def test_the_message_is_a_sentence_with_the_value_that_is_farthest_out(value, unit, bounds, said):
    with pytest.raises(OutOfBoundsError) as refusal:
        require("thing", value, unit, **bounds)
    assert str(refusal.value) == said
