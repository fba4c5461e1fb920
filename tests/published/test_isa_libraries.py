"""The standard atmosphere against two general-purpose libraries.

`ambiance` computes the ICAO Standard Atmosphere (Doc 7488, 3rd edition, 1993) and `fluids` the
U.S. Standard Atmosphere, 1976; the two standards are one below 32 km. Both take geometric height,
ours is geopotential, so the heights are converted with the standards' own Earth radius.
"""

import numpy as np
import pytest

from cardgen.air.atmosphere import (
    GAS_CONSTANT,
    SEA_LEVEL_PRESSURE,
    density,
    pressure,
    speed_of_sound,
    temperature,
)

pytestmark = pytest.mark.xdist_group("libraries of the atmosphere")  # slow to load: once

EARTH_RADIUS = 6_356_766.0  # m, of both standards

# The 1976 standard defines its gas constant by 8314.32 J/(kmol K) and 28.9644 kg/kmol, the ICAO
# manual prints 287.05287 J/(kg K): the two differ by 7e-7.
GAS_CONSTANT_1976 = 8_314.32 / 28.9644
DISAGREEMENT = GAS_CONSTANT_1976 / GAS_CONSTANT - 1
ARITHMETIC = 1e-12


def _geometric(height):
    return EARTH_RADIUS * height / (EARTH_RADIUS - height)


# `ambiance` starts each layer from the pressure that the manual prints at its base, in six digits:
# 177 687 Pa at -5 km, exactly 101 325 Pa at sea level, 22 632.0 Pa at 11 km.
LAYERS = [
    (np.linspace(-5_000.0, -10.0, 500), 0.5 / 177_687),
    (np.linspace(0.0, 10_990.0, 1_100), 1e-9),
    (np.linspace(11_010.0, 19_990.0, 899), 0.05 / 22_632.0),
]


@pytest.mark.parametrize(("heights", "rounding"), LAYERS)
def test_icao_standard_atmosphere(heights, rounding):
    from ambiance import Atmosphere

    theirs = Atmosphere(_geometric(heights))
    ours, air = pressure(heights), temperature(heights)
    np.testing.assert_allclose(air, theirs.temperature, rtol=ARITHMETIC)
    np.testing.assert_allclose(speed_of_sound(air), theirs.speed_of_sound, rtol=ARITHMETIC)
    np.testing.assert_allclose(ours, theirs.pressure, rtol=rounding)
    np.testing.assert_allclose(density(ours, air), theirs.density, rtol=rounding)


def test_us_standard_atmosphere_1976():
    from fluids.atmosphere import ATMOSPHERE_1976

    heights = np.arange(-600.0, 20_001.0, 50.0)  # the library begins at -610 m
    theirs = [ATMOSPHERE_1976(z) for z in _geometric(heights)]
    ours, air = pressure(heights), temperature(heights)
    np.testing.assert_allclose(air, [a.T for a in theirs], rtol=ARITHMETIC)

    # Sound goes with the root of the gas constant; the logarithm of pressure with its inverse.
    sound = speed_of_sound(air) * (1 + DISAGREEMENT) ** 0.5
    np.testing.assert_allclose(sound, [a.v_sonic for a in theirs], rtol=1e-9)
    corrected = SEA_LEVEL_PRESSURE * (ours / SEA_LEVEL_PRESSURE) ** (1 / (1 + DISAGREEMENT))
    np.testing.assert_allclose(corrected, [a.P for a in theirs], rtol=1e-9)
    np.testing.assert_allclose(
        density(corrected, air) / (1 + DISAGREEMENT), [a.rho for a in theirs], rtol=1e-9
    )


def test_the_two_standards_differ_only_by_their_gas_constants():
    from fluids.atmosphere import ATMOSPHERE_1976

    heights = np.arange(0.0, 20_001.0, 50.0)
    theirs = np.array([ATMOSPHERE_1976(z).P for z in _geometric(heights)])
    worst = np.max(np.abs(pressure(heights) / theirs - 1))
    depth = np.log(SEA_LEVEL_PRESSURE / pressure(20_000.0))
    assert worst == pytest.approx(DISAGREEMENT * depth, rel=1e-3)
