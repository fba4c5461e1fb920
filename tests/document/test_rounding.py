import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.document.record import Quantity
from cardgen.document.rounding import NOISE, kept, rounded
from cardgen.words.numbers import number

values = st.floats(-1e5, 1e5)


@given(values, st.integers(0, 2))
def test_a_printed_maximum_is_never_above(value, decimals):
    assert rounded(value, "maximum", decimals) <= value + 2 * NOISE
    assert rounded(value, "maximum", decimals) > value - 10.0**-decimals - 2 * NOISE


@given(values, st.integers(0, 2))
def test_a_printed_minimum_is_never_below(value, decimals):
    assert rounded(value, "minimum", decimals) >= value - 2 * NOISE
    assert rounded(value, "minimum", decimals) < value + 10.0**-decimals + 2 * NOISE


@given(values)
def test_all_else_goes_to_the_nearest(value):
    assert abs(rounded(value) - value) <= 0.5 + 2 * NOISE


@pytest.mark.parametrize(
    ("value", "sense", "decimals", "text"),
    [
        (1.3 * 70, "minimum", 0, "91"),
        (93.0 - 1e-13, "maximum", 0, "93"),
        (48.000001, "minimum", 0, "49"),
        (47.999999, "maximum", 0, "47"),
        (69.5, "target", 0, "70"),
        (70.5, "target", 0, "71"),
        (-4.5, "target", 0, "−5"),
        (-0.2, "target", 0, "0"),
        (29.915, "target", 2, "29.92"),
        (100_000_000.5, "target", 0, "100,000,001"),
    ],
)
def test_cases(value, sense, decimals, text):
    assert number(Quantity(value, sense=sense, decimals=decimals)) == text
    assert f"{rounded(value, sense, decimals):,.{decimals}f}".replace("-", "−") == text


def test_whole_numbers_to_the_nearest_unless_told_otherwise():
    assert rounded(93.27) == 93.0
    assert number(Quantity(93.27)) == "93"
    assert rounded(93.27, "maximum") == 93.0
    assert rounded(93.27, "minimum") == 94.0


@pytest.mark.parametrize(
    ("value", "wanted"), [(0.6, 1.0), (0.5, 1.0), (0.4, 0.0), (-0.6, -1.0), (-0.4, 0.0), (1.5, 2.0)]
)
def test_a_target_below_one_keeps_its_sign_and_nothing_is_below_nothing(value, wanted):
    found = rounded(value)
    assert found == wanted
    assert math.copysign(1.0, found) == (-1.0 if wanted < 0 else 1.0)


def test_a_document_keeps_six_decimals_and_no_negative_nothing():
    assert kept(93.86211449999) == 93.862114
    assert kept(-1e-9) == 0.0
    assert math.copysign(1.0, kept(-1e-9)) == 1.0
