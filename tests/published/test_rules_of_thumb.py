"""How far the trade's rules of thumb lie from the exact values.

Each rule is common practice. Each test states the rule's error and would fail if the exact value
moved either way.
"""

import numpy as np
import pytest

from cardgen.air.airspeed import tas_from_cas
from cardgen.air.atmosphere import density_altitude, pressure, pressure_altitude, temperature
from cardgen.units import convert_difference, from_si, to_si


def _true_over_calibrated(feet):
    """True over calibrated airspeed at 100 kt calibrated in the standard atmosphere."""
    altitude, cas = to_si(feet, "ft"), to_si(100.0, "kt")
    return tas_from_cas(cas, pressure(altitude), temperature(altitude)) / cas


# Altitude, ft; two per cent per 1,000 ft less the exact rise, percentage points.
TWO_PER_CENT = [
    (1_000, 0.5),
    (5_000, 2.3),
    (10_000, 3.8),
    (15_000, 4.2),
    (18_000, 3.9),
]


@pytest.mark.parametrize(("feet", "error"), TWO_PER_CENT)
def test_true_airspeed_grows_two_per_cent_per_1000_ft(feet, error):
    exact = 100 * (_true_over_calibrated(float(feet)) - 1)
    assert 2 * feet / 1_000 - exact == pytest.approx(error, abs=0.05)


def test_two_per_cent_overstates_by_a_little_over_four_points_at_most():
    feet = np.arange(0.0, 18_001.0, 100.0)
    error = 2 * feet / 1_000 - 100 * (_true_over_calibrated(feet) - 1)
    assert error.min() == pytest.approx(0.0, abs=1e-9)
    assert error.max() == pytest.approx(4.2, abs=0.05)


def test_true_airspeed_really_grows_one_and_a_half_to_two_per_cent_per_1000_ft():
    feet = np.arange(1_000.0, 18_001.0, 1_000.0)
    per_thousand = 100 * (_true_over_calibrated(feet) - 1) / (feet / 1_000)
    assert per_thousand[0] == pytest.approx(1.47, abs=0.005)
    assert per_thousand[-1] == pytest.approx(1.78, abs=0.005)
    assert np.all(np.diff(per_thousand) > 0)


# Setting, inHg; 1,000 ft for each inch below 29.92 less the exact altitude, ft. The second agrees
# with 14 CFR Part 43, Appendix E, Table IV, which has 893 ft where the rule has 980 (from memory).
INCH_PER_THOUSAND = [(28.9, 62), (30.9, -87)]


@pytest.mark.parametrize(("setting", "error"), INCH_PER_THOUSAND)
def test_an_inch_of_mercury_is_1000_ft(setting, error):
    exact = from_si(pressure_altitude(to_si(setting, "inHg")), "ft")
    assert 1_000 * (29.92 - setting) - exact == pytest.approx(error, abs=0.5)


# Departure from standard temperature, K; 120 ft for each less the exact rise at sea level, ft.
DENSITY_ALTITUDE = [(-30, 206), (-20, 79), (-10, 12), (10, 39), (20, 125), (30, 254)]


@pytest.mark.parametrize(("deviation", "error"), DENSITY_ALTITUDE)
def test_density_altitude_rises_120_ft_per_degree(deviation, error):
    exact = from_si(density_altitude(0.0, temperature(0.0) + deviation), "ft")
    assert 120 * deviation - exact == pytest.approx(error, abs=0.5)


@pytest.mark.parametrize("feet", [0.0, 5_000.0, 10_000.0])
def test_density_altitude_exactly_rises_118_6_ft_per_degree_at_standard_temperature(feet):
    # By hand: 1 / (L (g / (R L) - 1)) = 1 / (0.0019812 K/ft * 4.25588) = 118.6 ft/K.
    altitude, step = to_si(feet, "ft"), 0.01
    standard = temperature(altitude)
    rise = density_altitude(altitude, standard + step) - density_altitude(altitude, standard - step)
    assert convert_difference(rise, "m", "ft") / (2 * step) == pytest.approx(118.6, abs=0.05)
