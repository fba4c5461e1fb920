"""Units: there and back between all pairs, exact definitions and refusals."""

from itertools import permutations, product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.units import SI, UNITS, convert, convert_difference, from_si, to_si, units_of
from tests.sampling import examples

ALIKE = [(a, b) for a, b in permutations(UNITS, 2) if UNITS[a].quantity == UNITS[b].quantity]
UNLIKE = [(a, b) for a, b in permutations(UNITS, 2) if UNITS[a].quantity != UNITS[b].quantity]
# The largest shift of a temperature scale, 459.67, is what rounding is measured against near zero.
NEAR_ZERO = 1e-12

values = st.floats(-1e6, 1e6)


@pytest.mark.parametrize(("a", "b"), ALIKE)
@examples(5, 25)
@given(value=values)
def test_there_and_back(a, b, value):
    assert convert(convert(value, a, b), b, a) == pytest.approx(value, rel=1e-12, abs=NEAR_ZERO)
    there = convert_difference(value, a, b)
    assert convert_difference(there, b, a) == pytest.approx(value, rel=1e-12, abs=NEAR_ZERO)


@pytest.mark.parametrize(("a", "b"), ALIKE)
def test_a_difference_is_a_difference(a, b):
    change = convert(70.0, a, b) - convert(20.0, a, b)
    assert convert_difference(50.0, a, b) == pytest.approx(change, rel=1e-9)


@pytest.mark.parametrize(("a", "b"), ALIKE)
def test_arrays_are_many_scalars(a, b):
    many = np.linspace(-40.0, 250.0, 30)
    np.testing.assert_array_equal(convert(many, a, b), [convert(float(x), a, b) for x in many])


@pytest.mark.parametrize("unit", [u for u in UNITS if UNITS[u].quantity in SI])
@examples(5, 25)
@given(value=values)
def test_si_and_back(unit, value):
    assert from_si(to_si(value, unit), unit) == pytest.approx(value, rel=1e-12, abs=NEAR_ZERO)


def test_definitions_are_exact():
    assert convert(1.0, "kt", "km/h") == 1.852
    assert convert(1.0, "NM", "km") == 1.852
    assert convert(1.0, "mi", "km") == 1.609344
    assert convert(1.0, "mph", "km/h") == 1.609344
    assert convert(1.0, "ft", "m") == 0.3048
    assert convert(1.0, "lb", "kg") == 0.45359237
    assert convert(1.0, "gal/h", "L/h") == 3.785411784
    assert convert(1013.25, "hPa", "Pa") == 101_325.0
    assert convert(180.0, "deg", "rad") == np.pi


@pytest.mark.parametrize(
    ("celsius", "fahrenheit", "kelvin"),
    [(-273.15, -459.67, 0.0), (-40.0, -40.0, 233.15), (0.0, 32.0, 273.15), (100.0, 212.0, 373.15)],
)
def test_fixed_points_of_temperature(celsius, fahrenheit, kelvin):
    assert convert(celsius, "C", "F") == pytest.approx(fahrenheit, abs=1e-12)
    assert convert(fahrenheit, "F", "C") == pytest.approx(celsius, abs=1e-12)
    assert convert(celsius, "C", "K") == pytest.approx(kelvin, abs=1e-12)
    assert convert(fahrenheit, "F", "K") == pytest.approx(kelvin, abs=1e-12)


@pytest.mark.parametrize("unit", UNITS)
def test_a_unit_becomes_itself_untouched(unit):
    assert convert(0.1, unit, unit) == 0.1
    assert convert_difference(0.1, unit, unit) == 0.1


@pytest.mark.parametrize("function", [convert, convert_difference])
def test_one_quantity_does_not_become_another(function):
    for a, b in UNLIKE:
        with pytest.raises(ValueError, match=f"{a} measures .* and {b} measures"):
            function(1.0, a, b)


def test_every_unit_is_listed_under_its_quantity_alone():
    listed = [
        unit for quantity in {u.quantity for u in UNITS.values()} for unit in units_of(quantity)
    ]
    assert sorted(listed) == sorted(UNITS)
    for (a, b), quantity in product(ALIKE, SI):
        assert (a in units_of(quantity)) == (b in units_of(quantity))


@pytest.mark.parametrize("unit", SI.values())
def test_si_units_are_their_own_si(unit):
    assert to_si(3.7, unit) == from_si(3.7, unit) == 3.7
