"""The standard atmosphere: there and back, its layers, arrays and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.air import atmosphere as isa
from cardgen.air.bounds import OutOfBoundsError
from cardgen.units import to_si

# A hair inside the model, so that no rounding on the way back can leave it.
altitudes = st.floats(isa.LOWEST_ALTITUDE + 1e-6, isa.HIGHEST_ALTITUDE - 1e-6)
qnhs = st.floats(80_000.0, 110_000.0)
MICROMETRE = 1e-6
unhurried = settings(deadline=None)


@unhurried
@given(altitudes)
def test_pressure_and_back(altitude):
    found = isa.pressure_altitude(isa.pressure(altitude))
    assert found == pytest.approx(altitude, rel=0, abs=MICROMETRE)


@unhurried
@given(st.floats(isa.pressure(19_999.0), isa.pressure(-4_999.0)))
def test_pressure_altitude_and_back(pressure):
    assert isa.pressure(isa.pressure_altitude(pressure)) == pytest.approx(pressure, rel=1e-9)


@unhurried
@given(altitudes)
def test_density_altitude_in_standard_air_is_pressure_altitude(altitude):
    found = isa.density_altitude(altitude, isa.temperature(altitude))
    assert found == pytest.approx(altitude, rel=0, abs=MICROMETRE)


@unhurried
@given(st.floats(0.0, 15_000.0), st.floats(-40.0, 40.0))
def test_standard_air_at_the_density_altitude_has_the_density(altitude, deviation):
    air = isa.temperature(altitude) + deviation
    equal = isa.density_altitude(altitude, air)
    found = isa.density(isa.pressure(equal), isa.temperature(equal))
    assert found == pytest.approx(isa.density(isa.pressure(altitude), air), rel=1e-9)


@unhurried
@given(st.floats(-2_000.0, 18_000.0), qnhs)
def test_altimeter_setting_and_back(indicated, qnh):
    altitude = isa.pressure_altitude_from_setting(indicated, qnh)
    found = isa.indicated_altitude_from_pressure_altitude(altitude, qnh)
    assert found == pytest.approx(indicated, rel=0, abs=MICROMETRE)


@unhurried
@given(qnhs)
def test_on_an_aerodrome_at_sea_level_the_setting_is_the_pressure(qnh):
    altitude = isa.pressure_altitude_from_setting(0.0, qnh)
    assert isa.pressure(altitude) == pytest.approx(qnh, rel=1e-9)


@unhurried
@given(altitudes, st.floats(-40.0, 40.0))
def test_isa_deviation_and_back(altitude, deviation):
    found = isa.isa_deviation(altitude, isa.temperature(altitude) + deviation)
    assert found == pytest.approx(deviation, rel=0, abs=1e-9)


@pytest.mark.parametrize("function", [isa.temperature, isa.pressure])
def test_no_step_at_the_tropopause(function):
    below = function(np.nextafter(isa.TROPOPAUSE, 0.0))
    above = function(np.nextafter(isa.TROPOPAUSE, 1e6))
    assert below == pytest.approx(above, rel=1e-12)


def test_no_step_at_the_tropopause_on_the_way_back():
    edge = isa.pressure(isa.TROPOPAUSE)
    found = isa.pressure_altitude(edge * np.array([1 - 1e-12, 1.0, 1 + 1e-12]))
    np.testing.assert_allclose(found, isa.TROPOPAUSE, rtol=0, atol=MICROMETRE)
    warm = isa.density_altitude(isa.TROPOPAUSE, isa.TROPOPAUSE_TEMPERATURE * (1 + 1e-12))
    cold = isa.density_altitude(isa.TROPOPAUSE, isa.TROPOPAUSE_TEMPERATURE * (1 - 1e-12))
    assert warm == pytest.approx(isa.TROPOPAUSE, rel=0, abs=MICROMETRE)
    assert cold == pytest.approx(isa.TROPOPAUSE, rel=0, abs=MICROMETRE)


def test_air_carries_the_air_above_it():
    # Hydrostatic balance, dp/dh = -rho g, by central differences, across the tropopause as well.
    heights, step = np.arange(-4_999.0, 19_999.0, 10.0), 0.5
    slope = (isa.pressure(heights + step) - isa.pressure(heights - step)) / (2 * step)
    weight = isa.density(isa.pressure(heights), isa.temperature(heights)) * isa.GRAVITY
    np.testing.assert_allclose(slope, -weight, rtol=1e-7)


def test_pressure_falls_all_the_way_up():
    assert np.all(np.diff(isa.pressure(np.arange(-5_000.0, 20_000.1, 1.0))) < 0)


def test_isothermal_above_the_tropopause():
    heights = np.arange(11_000.0, 20_001.0, 500.0)
    np.testing.assert_allclose(isa.temperature(heights), 216.65, rtol=1e-15)


def test_warm_air_is_thin_air():
    air = isa.temperature(1_000.0) + np.arange(-40.0, 40.1, 1.0)
    assert np.all(np.diff(isa.density_altitude(1_000.0, air)) > 0)


ALTITUDES = np.linspace(-4_000.0, 18_000.0, 12)
PRESSURES = np.linspace(8_000.0, 110_000.0, 12)
TEMPERATURES = np.linspace(210.0, 320.0, 12)
SETTINGS = np.linspace(90_000.0, 109_000.0, 12)

CALLS = [
    (isa.temperature, (ALTITUDES,)),
    (isa.pressure, (ALTITUDES,)),
    (isa.pressure_altitude, (PRESSURES,)),
    (isa.pressure_altitude_from_setting, (ALTITUDES, SETTINGS)),
    (isa.indicated_altitude_from_pressure_altitude, (ALTITUDES, SETTINGS)),
    (isa.density, (PRESSURES, TEMPERATURES)),
    (isa.density_altitude, (np.linspace(0.0, 15_000.0, 12), np.linspace(300.0, 220.0, 12))),
    (isa.isa_deviation, (ALTITUDES, TEMPERATURES)),
    (isa.speed_of_sound, (TEMPERATURES,)),
]


@pytest.mark.parametrize(("function", "inputs"), CALLS)
def test_arrays_are_many_scalars(function, inputs):
    one_by_one = [function(*map(float, row)) for row in zip(*inputs, strict=True)]
    np.testing.assert_allclose(function(*inputs), one_by_one, rtol=1e-13, atol=1e-9)


REFUSALS = [
    # altitudes outside the model
    (isa.temperature, (-5_001.0,), "pressure altitude -5001 m is below -5000 m"),
    (isa.temperature, (20_001.0,), "pressure altitude 20001 m is above 20000 m"),
    (isa.pressure, (-5_001.0,), "pressure altitude -5001 m is below -5000 m"),
    (isa.pressure, (20_001.0,), "pressure altitude 20001 m is above 20000 m"),
    (isa.pressure_altitude, (5_000.0,), "pressure altitude 20575.4 m is above 20000 m"),
    (isa.pressure_altitude, (180_000.0,), "pressure altitude -5121.54 m is below -5000 m"),
    (
        isa.pressure_altitude_from_setting,
        (20_000.0, 100_000.0),
        "pressure altitude 20110.9 m is above 20000 m",
    ),
    (
        isa.pressure_altitude_from_setting,
        (-4_900.0, 103_000.0),
        "pressure altitude -5038.51 m is below -5000 m",
    ),
    (
        isa.indicated_altitude_from_pressure_altitude,
        (20_001.0, 100_000.0),
        "pressure altitude 20001 m is above 20000 m",
    ),
    (isa.density_altitude, (20_001.0, 220.0), "pressure altitude 20001 m is above 20000 m"),
    (isa.density_altitude, (19_900.0, 260.0), "density altitude 21056.7 m is above 20000 m"),
    (isa.density_altitude, (-4_900.0, 250.0), "density altitude .* m is below -5000 m"),
    (isa.isa_deviation, (-5_001.0, 300.0), "pressure altitude -5001 m is below -5000 m"),
    # air that is not there
    (isa.pressure_altitude, (0.0,), "static pressure 0 Pa is not above 0 Pa"),
    (isa.density, (-1.0, 300.0), "static pressure -1 Pa is not above 0 Pa"),
    # at or below absolute zero
    (isa.density, (100_000.0, 0.0), "air temperature 0 K is not above 0 K"),
    (isa.density_altitude, (0.0, -1.0), "air temperature -1 K is not above 0 K"),
    (isa.isa_deviation, (0.0, -1.0), "air temperature -1 K is not above 0 K"),
    (isa.speed_of_sound, (0.0,), "air temperature 0 K is not above 0 K"),
    # settings that no altimeter could be given
    (
        isa.pressure_altitude_from_setting,
        (0.0, 79_999.0),
        "altimeter setting 79999 Pa is below 80000 Pa",
    ),
    (
        isa.pressure_altitude_from_setting,
        (0.0, 110_001.0),
        "altimeter setting 110001 Pa is above 110000 Pa",
    ),
    (
        isa.indicated_altitude_from_pressure_altitude,
        (0.0, 79_999.0),
        "altimeter setting 79999 Pa is below 80000 Pa",
    ),
    (
        isa.indicated_altitude_from_pressure_altitude,
        (0.0, 110_001.0),
        "altimeter setting 110001 Pa is above 110000 Pa",
    ),
    (
        isa.indicated_altitude_from_pressure_altitude,
        (0.0, 29.92),  # inches of mercury where pascals belong
        "altimeter setting 29.92 Pa is below 80000 Pa",
    ),
]


@pytest.mark.parametrize(("function", "inputs", "said"), REFUSALS)
def test_refusal_names_the_value_and_the_bound(function, inputs, said):
    with pytest.raises(OutOfBoundsError, match=said):
        function(*inputs)


@pytest.mark.parametrize(("function", "inputs"), CALLS)
def test_refusal_of_what_is_not_a_number(function, inputs):
    for place in range(len(inputs)):
        one = [float(values[0]) for values in inputs]
        one[place] = float("nan")
        with pytest.raises(OutOfBoundsError, match=r"nan.* is not a number"):
            function(*one)


@pytest.mark.parametrize(("function", "inputs"), CALLS)
def test_one_bad_value_spoils_an_array(function, inputs):
    for place in range(len(inputs)):
        spoiled = [np.array(values) for values in inputs]
        spoiled[place][7] = -1e6
        with pytest.raises(OutOfBoundsError, match=r"-\S+ \w+ is (below|not above)"):
            function(*spoiled)


def test_the_bounds_themselves_belong_to_the_model():
    ends = np.array([isa.LOWEST_ALTITUDE, isa.HIGHEST_ALTITUDE])
    np.testing.assert_allclose(isa.temperature(ends), [320.65, 216.65], rtol=1e-12)
    for setting in (80_000.0, 110_000.0):
        assert isa.indicated_altitude_from_pressure_altitude(
            isa.pressure_altitude(setting), setting
        ) == pytest.approx(0.0, abs=MICROMETRE)


def test_sea_level():
    assert isa.temperature(0.0) == to_si(15.0, "C")
    assert isa.pressure(0.0) == to_si(1013.25, "hPa")
    assert isa.pressure_altitude(101_325.0) == 0.0
