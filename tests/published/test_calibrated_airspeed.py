"""Calibrated, equivalent and true airspeed against their definitions, tables and real air.

The definitions are those of 14 CFR 1.1. The table of subsonic flow is that of NACA Report 1135,
Equations, Tables, and Charts for Compressible Flow (1953), whose ratios at a ratio of specific
heats of 1.4 are four decimals. The real air is CoolProp's, brought to rest without heat or
friction: it knows of neither an ideal gas nor a ratio of specific heats.
"""

from functools import cache
from typing import Any

import numpy as np
import pytest

from cardgen.air.airspeed import (
    eas_from_cas,
    impact_pressure_from_mach,
    mach_from_impact_pressure,
    tas_from_cas,
    total_temperature,
)
from cardgen.air.atmosphere import (
    SEA_LEVEL_DENSITY,
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_SPEED_OF_SOUND,
    SEA_LEVEL_TEMPERATURE,
    density,
    pressure,
    temperature,
)
from cardgen.units import from_si, to_si

SPEEDS = to_si(np.arange(10.0, 660.0, 10.0), "kt")


def test_calibrated_is_true_airspeed_in_standard_air_at_sea_level():
    # 14 CFR 1.1, "calibrated airspeed".
    found = tas_from_cas(SPEEDS, SEA_LEVEL_PRESSURE, SEA_LEVEL_TEMPERATURE)
    np.testing.assert_allclose(found, SPEEDS, rtol=1e-12)


def test_equivalent_is_calibrated_airspeed_in_standard_air_at_sea_level():
    # 14 CFR 1.1, "equivalent airspeed".
    np.testing.assert_allclose(eas_from_cas(SPEEDS, SEA_LEVEL_PRESSURE), SPEEDS, rtol=1e-12)


@pytest.mark.parametrize("feet", [0.0, 8_000.0, 25_000.0, 45_000.0])
@pytest.mark.parametrize("deviation", [-30.0, 0.0, 30.0])
def test_true_is_equivalent_airspeed_over_the_root_of_the_density_ratio(feet, deviation):
    # 14 CFR 1.1, "true airspeed".
    p, t = pressure(to_si(feet, "ft")), temperature(to_si(feet, "ft")) + deviation
    cas = to_si(np.arange(60.0, 251.0, 10.0), "kt")
    true = eas_from_cas(cas, p) * (SEA_LEVEL_DENSITY / density(p, t)) ** 0.5
    np.testing.assert_allclose(tas_from_cas(cas, p, t), true, rtol=1e-12)


def test_speed_of_sound_at_sea_level_in_knots():
    # 661.48 kt in airspeed and Mach number tables of the standard atmosphere; from memory.
    assert from_si(SEA_LEVEL_SPEED_OF_SOUND, "kt") == pytest.approx(661.48, abs=0.005)


# Mach number; static over total pressure; static over total temperature. NACA Report 1135.
SUBSONIC_FLOW = [
    (0.05, 0.9983, 0.9995),
    (0.10, 0.9930, 0.9980),
    (0.15, 0.9844, 0.9955),
    (0.20, 0.9725, 0.9921),
    (0.24, 0.9607, 0.9886),
    (0.50, 0.8430, 0.9524),
    (0.60, 0.7840, 0.9328),
    (0.64, 0.7591, 0.9243),
    (0.82, 0.6430, 0.8815),
    (0.90, 0.5913, 0.8606),
    (0.95, 0.5595, 0.8471),
]
HALF_DIGIT = 0.00005


@pytest.mark.parametrize("static_pressure", [SEA_LEVEL_PRESSURE, 20_000.0])
@pytest.mark.parametrize(("mach", "pressures", "temperatures"), SUBSONIC_FLOW)
def test_impact_pressure_and_total_temperature_of_the_table(
    mach, pressures, temperatures, static_pressure
):
    total = static_pressure + impact_pressure_from_mach(mach, static_pressure)
    assert static_pressure / total == pytest.approx(pressures, abs=HALF_DIGIT)
    assert 250.0 / total_temperature(250.0, mach) == pytest.approx(temperatures, abs=HALF_DIGIT)


@pytest.mark.parametrize(("mach", "pressures", "temperatures"), SUBSONIC_FLOW)
def test_mach_number_of_the_table(mach, pressures, temperatures):
    # Between half a digit more and half a digit less of pressure lies the Mach number of the row.
    def found(ratio):
        return mach_from_impact_pressure(1.0 / ratio - 1.0, 1.0)

    assert found(pressures + HALF_DIGIT) <= mach <= found(pressures - HALF_DIGIT)


class RealAir:
    """CoolProp's air, which takes seconds to be loaded: by one process, when a test asks."""

    def __init__(self) -> None:
        import CoolProp

        self.state = CoolProp.AbstractState("HEOS", "Air")
        self.still, self.moved = CoolProp.PT_INPUTS, CoolProp.PSmass_INPUTS

    def at_rest(self, p, t) -> Any:
        self.state.update(self.still, p, t)
        return self.state

    def compressed(self, p, entropy) -> Any:
        self.state.update(self.moved, p, entropy)
        return self.state

    def impact_pressure(self, speed, p, t):
        """Rise of pressure that brings the air from a speed to rest at constant entropy."""
        air = self.at_rest(p, t)
        enthalpy, entropy = air.hmass(), air.smass()
        rise = air.rhomass() * speed**2 / 2
        for _ in range(20):
            air = self.compressed(p + rise, entropy)
            step = (enthalpy + speed**2 / 2 - air.hmass()) * air.rhomass()  # dh = dp / rho
            rise += step
            if abs(step) < 1e-9 * rise:
                return rise
        raise AssertionError("the impact pressure did not settle")

    def speed(self, impact_pressure, p, t):
        """Speed of the air that a rise of pressure brings to rest at constant entropy."""
        air = self.at_rest(p, t)
        enthalpy, entropy = air.hmass(), air.smass()
        return (2 * (self.compressed(p + impact_pressure, entropy).hmass() - enthalpy)) ** 0.5

    def density(self, p, t):
        return self.at_rest(p, t).rhomass()


real_air = cache(RealAir)


def _flights():
    """Pressure altitudes to 25,000 ft with temperatures within 40 K of the standard."""
    for feet in range(0, 25_001, 2_500):
        for celsius in (-40, -30, -20, -10, 0, 10, 20, 30, 40, 45):
            altitude, air = to_si(feet, "ft"), to_si(celsius, "C")
            if abs(air - temperature(altitude)) <= 40:
                yield pressure(altitude), air


@pytest.mark.xdist_group("real air")
@pytest.mark.parametrize("knots", [60, 80, 100, 120, 150, 200, 250])
def test_true_airspeed_in_real_air(knots):
    cas = to_si(float(knots), "kt")
    air = real_air()
    impact = air.impact_pressure(cas, SEA_LEVEL_PRESSURE, SEA_LEVEL_TEMPERATURE)
    p, t = np.array(list(_flights())).T
    real = [air.speed(impact, *state) for state in zip(p, t, strict=True)]
    # That air is no ideal gas, and its heats no constants, is worth 0.03 % here.
    np.testing.assert_allclose(tas_from_cas(cas, p, t), real, rtol=0.001)


@pytest.mark.xdist_group("real air")
@pytest.mark.parametrize("knots", [60, 120, 250])
def test_equivalent_airspeed_in_real_air(knots):
    cas = to_si(float(knots), "kt")
    air = real_air()
    impact = air.impact_pressure(cas, SEA_LEVEL_PRESSURE, SEA_LEVEL_TEMPERATURE)
    sea_level = air.density(SEA_LEVEL_PRESSURE, SEA_LEVEL_TEMPERATURE)
    for p, t in _flights():
        real = air.speed(impact, p, t) * (air.density(p, t) / sea_level) ** 0.5
        assert eas_from_cas(cas, p) == pytest.approx(real, rel=0.001)
