"""Load factor and speed ratio: there and back, arrays and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.air.bounds import OutOfBoundsError
from cardgen.air.load import load_factor, speed_ratio

unhurried = settings(deadline=None)
ratios = st.floats(0.1, 10.0)


@unhurried
@given(st.floats(0.01, 1.5))
def test_bank_and_back(bank):
    assert np.arccos(1.0 / load_factor(bank)) == pytest.approx(bank, rel=1e-9)


@unhurried
@given(ratios, ratios)
def test_lift_goes_with_the_square_of_the_speed(weight, load):
    assert speed_ratio(weight, load) ** 2 == pytest.approx(weight * load, rel=1e-12)
    assert speed_ratio(1.0 / weight, 1.0 / load) * speed_ratio(weight, load) == pytest.approx(1.0)


def test_level_flight_at_the_known_weight_changes_nothing():
    assert load_factor(0.0) == 1.0
    assert speed_ratio(1.0, 1.0) == 1.0


def test_load_factor_grows_with_bank():
    assert np.all(np.diff(load_factor(np.radians(np.arange(0.0, 90.0, 0.5)))) > 0)


def test_arrays_are_many_scalars():
    banks, weights = np.radians(np.arange(0.0, 85.0, 5.0)), np.linspace(0.6, 1.1, 17)
    loads = load_factor(banks)
    np.testing.assert_allclose(loads, [load_factor(float(b)) for b in banks], rtol=1e-14)
    pairs = zip(weights, loads, strict=True)
    alone = [speed_ratio(float(w), float(n)) for w, n in pairs]
    np.testing.assert_allclose(speed_ratio(weights, loads), alone, rtol=1e-14)
    assert speed_ratio(weights[:, np.newaxis], loads).shape == (17, 17)


NAN = float("nan")

REFUSALS = [
    (load_factor, (-0.1,), "bank -0.1 rad is below 0 rad"),
    (load_factor, (np.pi / 2,), "bank 1.5708 rad is not below 1.5708 rad"),
    (load_factor, (60.0,), "bank 60 rad is not below 1.5708 rad"),  # degrees for radians
    (load_factor, (NAN,), "bank nan rad is not a number"),
    (load_factor, (np.array([0.1, 2.0]),), "bank 2 rad is not below 1.5708 rad"),
    (speed_ratio, (0.0, 1.0), "weight ratio 0 is not above 0"),
    (speed_ratio, (-1.0, 1.0), "weight ratio -1 is not above 0"),
    (speed_ratio, (NAN, 1.0), "weight ratio nan is not a number"),
    (speed_ratio, (1.0, 0.0), "load factor 0 is not above 0"),
    (speed_ratio, (1.0, -2.0), "load factor -2 is not above 0"),
    (speed_ratio, (1.0, NAN), "load factor nan is not a number"),
    (speed_ratio, (np.array([1.0, -1.0]), 1.0), "weight ratio -1 is not above 0"),
]


@pytest.mark.parametrize(("function", "inputs", "said"), REFUSALS)
def test_refusal_names_the_value_and_the_bound(function, inputs, said):
    with pytest.raises(OutOfBoundsError, match=said):
        function(*inputs)
