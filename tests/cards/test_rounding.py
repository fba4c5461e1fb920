import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.cards.rounding import NOISE, printed, rounded
from cardgen.definition.speeds import Sense

values = st.floats(-1e5, 1e5)


@given(values, st.integers(0, 2))
def test_a_printed_maximum_is_never_above(value, decimals):
    assert rounded(value, Sense.MAXIMUM, decimals) <= value + 2 * NOISE
    assert rounded(value, Sense.MAXIMUM, decimals) > value - 10.0**-decimals - 2 * NOISE


@given(values, st.integers(0, 2))
def test_a_printed_minimum_is_never_below(value, decimals):
    assert rounded(value, Sense.MINIMUM, decimals) >= value - 2 * NOISE
    assert rounded(value, Sense.MINIMUM, decimals) < value + 10.0**-decimals + 2 * NOISE


@given(values)
def test_all_else_goes_to_the_nearest(value):
    assert abs(rounded(value) - value) <= 0.5 + 2 * NOISE


@pytest.mark.parametrize(
    ("value", "sense", "decimals", "text"),
    [
        (1.3 * 70, Sense.MINIMUM, 0, "91"),
        (93.0 - 1e-13, Sense.MAXIMUM, 0, "93"),
        (48.000001, Sense.MINIMUM, 0, "49"),
        (47.999999, Sense.MAXIMUM, 0, "47"),
        (69.5, Sense.TARGET, 0, "70"),
        (70.5, Sense.TARGET, 0, "71"),
        (-4.5, Sense.TARGET, 0, "−5"),
        (-0.2, Sense.TARGET, 0, "0"),
        (29.915, Sense.TARGET, 2, "29.92"),
        (100_000_000.5, Sense.TARGET, 0, "100000001"),
    ],
)
def test_cases(value, sense, decimals, text):
    assert printed(value, sense, decimals) == text


def test_whole_numbers_to_the_nearest_unless_told_otherwise():
    assert rounded(93.27) == 93.0
    assert printed(93.27) == "93"
    assert rounded(93.27, Sense.MAXIMUM) == 93.0
    assert rounded(93.27, Sense.MINIMUM) == 94.0
