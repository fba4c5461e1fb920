"""Altimetry against 14 CFR Part 43, Appendix E, Altimeter System Test and Inspection.

Table I gives the pressure of the standard atmosphere at the altitudes of the scale error test and
the altimeter's tolerance there; Table IV gives what a barometric scale does to the pointer. The
rows are quoted from memory. They were derived from the U.S. Standard Atmosphere, which is that of
ICAO up to 32 km.
"""

import pytest

from cardgen.air.atmosphere import (
    GAS_CONSTANT,
    GRAVITY,
    indicated_altitude_from_pressure_altitude,
    pressure,
    pressure_altitude,
    pressure_altitude_from_setting,
    temperature,
)
from cardgen.units import from_si, to_si

# altitude, ft; equivalent pressure, inHg; tolerance, ft
TABLE_I = [
    (-1_000, 31.018, 20),
    (0, 29.921, 20),
    (500, 29.385, 20),
    (1_000, 28.856, 20),
    (1_500, 28.335, 25),
    (2_000, 27.821, 30),
    (3_000, 26.817, 30),
    (4_000, 25.842, 35),
    (6_000, 23.978, 40),
    (8_000, 22.225, 60),
    (10_000, 20.577, 80),
    (12_000, 19.029, 90),
    (14_000, 17.577, 100),
    (16_000, 16.216, 110),
    (18_000, 14.942, 120),
    (20_000, 13.750, 130),
    (22_000, 12.636, 140),
    (25_000, 11.104, 155),
    (30_000, 8.885, 180),
    (35_000, 7.041, 205),
    (40_000, 5.538, 230),
    (45_000, 4.355, 255),
    (50_000, 3.425, 280),
]
HALF_DIGIT = 0.0005  # inHg, of the pressures of Table I

# altimeter setting, inHg; altitude difference, ft
TABLE_IV = [
    (28.10, -1_727),
    (28.50, -1_340),
    (29.00, -863),
    (29.50, -392),
    (29.92, 0),
    (30.50, 531),
    (30.90, 893),
    (30.99, 974),
]


@pytest.mark.parametrize(("feet", "inches", "tolerance"), TABLE_I)
def test_pressure_is_that_of_table_i(feet, inches, tolerance):
    assert from_si(pressure(to_si(feet, "ft")), "inHg") == pytest.approx(inches, abs=HALF_DIGIT)


@pytest.mark.parametrize(("feet", "inches", "tolerance"), TABLE_I)
def test_pressure_altitude_is_within_a_fortieth_of_the_altimeters_tolerance(
    feet, inches, tolerance
):
    # At sea level half a digit of the table is 0.46 ft, and the tolerance there is 20 ft.
    found = from_si(pressure_altitude(to_si(inches, "inHg")), "ft")
    assert found == pytest.approx(feet, abs=tolerance / 40)


@pytest.mark.parametrize(("feet", "inches", "tolerance"), TABLE_I)
def test_pressure_altitude_is_off_by_no_more_than_the_tables_rounding(feet, inches, tolerance):
    # dh = R T / g dp / p: 0.5 ft at sea level, 3 ft at 50,000 ft.
    air = temperature(to_si(feet, "ft"))
    rounding = from_si(GAS_CONSTANT * air / GRAVITY * HALF_DIGIT / inches, "ft")
    found = from_si(pressure_altitude(to_si(inches, "inHg")), "ft")
    assert found == pytest.approx(feet, abs=rounding)


def _tolerance_iv(setting):
    # The table measures from the standard 29.9213 inHg and prints that setting as 29.92, which is
    # 1.2 ft lower; the other rows hold to half a foot.
    return 1.2 if setting == 29.92 else 0.5


@pytest.mark.parametrize(("setting", "difference"), TABLE_IV)
def test_the_pointer_moves_as_in_table_iv(setting, difference):
    shown = indicated_altitude_from_pressure_altitude(0.0, to_si(setting, "inHg"))
    assert from_si(shown, "ft") == pytest.approx(difference, abs=_tolerance_iv(setting))


@pytest.mark.parametrize(("setting", "difference"), TABLE_IV)
def test_pressure_altitude_is_the_indicated_less_the_difference_of_table_iv(setting, difference):
    # Low pressure on the scale means an aircraft higher, in the standard atmosphere, than it shows.
    indicated = 5_000.0
    found = pressure_altitude_from_setting(to_si(indicated, "ft"), to_si(setting, "inHg"))
    expected = indicated - difference
    assert from_si(found, "ft") == pytest.approx(expected, abs=_tolerance_iv(setting))
