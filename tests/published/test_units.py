"""Conversions against NIST Special Publication 811, Guide for the Use of the SI, Appendix B.8.

The appendix prints exact factors in bold and rounds the others to seven digits. The rows for
ft/min and lb/h, and the formulas of temperature, are quoted from memory.
"""

import pytest

from cardgen.units import convert

EXACT = [
    ("ft", "m", 0.3048),
    ("mi", "m", 1_609.344),
    ("NM", "m", 1_852.0),
    ("mph", "m/s", 0.44704),
    ("mph", "km/h", 1.609344),
    ("ft/min", "m/s", 0.00508),
    ("hPa", "Pa", 100.0),
]

# from, to, factor, half a unit of its last digit
ROUNDED = [
    ("kt", "m/s", 5.144444e-01, 5e-8),
    ("km/h", "m/s", 2.777778e-01, 5e-8),
    ("lb", "kg", 4.535924e-01, 5e-8),
    ("lb/h", "kg/h", 4.535924e-01, 5e-8),
    ("gal/h", "L/h", 3.785412, 5e-7),  # the appendix's litres in a U.S. gallon
    ("inHg", "Pa", 3.386389e03, 5e-4),  # "inch of mercury, conventional"
    ("deg", "rad", 1.745329e-02, 5e-9),
]


@pytest.mark.parametrize(("source", "target", "factor"), EXACT)
def test_exact_factor(source, target, factor):
    assert convert(1.0, source, target) == pytest.approx(factor, rel=1e-15)


@pytest.mark.parametrize(("source", "target", "factor", "half_digit"), ROUNDED)
def test_rounded_factor(source, target, factor, half_digit):
    assert convert(1.0, source, target) == pytest.approx(factor, abs=half_digit)


@pytest.mark.parametrize("celsius", [-60.0, -40.0, 0.0, 15.0, 100.0])
def test_temperature_formulas(celsius):
    # T/K = t/C + 273.15; t/C = (t/F - 32) / 1.8; T/K = (t/F + 459.67) / 1.8
    fahrenheit = 1.8 * celsius + 32
    assert convert(celsius, "C", "K") == pytest.approx(celsius + 273.15, rel=1e-15)
    assert convert(celsius, "C", "F") == pytest.approx(fahrenheit, abs=1e-12)
    assert convert(fahrenheit, "F", "K") == pytest.approx((fahrenheit + 459.67) / 1.8, rel=1e-14)
