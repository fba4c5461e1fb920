"""Airspeeds: there and back, arrays, order and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.air import airspeed
from cardgen.air.atmosphere import (
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_SPEED_OF_SOUND,
    pressure,
    speed_of_sound,
    temperature,
)
from cardgen.air.bounds import OutOfBoundsError
from cardgen.units import to_si

SLOWEST = to_si(30.0, "kt")
FASTEST = 0.95  # Mach number
THERE_AND_BACK = 1e-9

machs = st.floats(0.05, FASTEST)
shares = st.floats(0.0, 1.0)
unhurried = settings(deadline=None)


@st.composite
def airs(draw):
    """Pressure and temperature, sea level to 20 km, standard temperature plus or minus 40 K."""
    altitude = draw(st.floats(0.0, 20_000.0))
    return pressure(altitude), temperature(altitude) + draw(st.floats(-40.0, 40.0))


def between(share, fastest):
    """Speed from the slowest to the fastest."""
    return SLOWEST + share * (fastest - SLOWEST)


def back(value):
    return pytest.approx(value, rel=THERE_AND_BACK)


@unhurried
@given(shares, airs())
def test_calibrated_to_true_and_back(share, air):
    cas = between(share, airspeed.cas_from_mach(FASTEST, air[0]))
    assert airspeed.cas_from_tas(airspeed.tas_from_cas(cas, *air), *air) == back(cas)


@unhurried
@given(shares, airs())
def test_true_to_calibrated_and_back(share, air):
    tas = between(share, FASTEST * speed_of_sound(air[1]))
    assert airspeed.tas_from_cas(airspeed.cas_from_tas(tas, *air), *air) == back(tas)


@unhurried
@given(shares, airs())
def test_calibrated_to_equivalent_and_back(share, air):
    cas = between(share, airspeed.cas_from_mach(FASTEST, air[0]))
    assert airspeed.cas_from_eas(airspeed.eas_from_cas(cas, air[0]), air[0]) == back(cas)


@unhurried
@given(shares, airs())
def test_equivalent_to_calibrated_and_back(share, air):
    eas = between(share, airspeed.eas_from_mach(FASTEST, air[0]))
    assert airspeed.eas_from_cas(airspeed.cas_from_eas(eas, air[0]), air[0]) == back(eas)


@unhurried
@given(machs, airs())
def test_mach_number_to_everything_and_back(mach, air):
    p, t = air
    impact = airspeed.impact_pressure_from_mach(mach, p)
    assert airspeed.mach_from_impact_pressure(impact, p) == back(mach)
    assert airspeed.mach_from_cas(airspeed.cas_from_mach(mach, p), p) == back(mach)
    assert airspeed.mach_from_tas(airspeed.tas_from_mach(mach, t), t) == back(mach)
    assert airspeed.mach_from_eas(airspeed.eas_from_mach(mach, p), p) == back(mach)


@unhurried
@given(machs, airs())
def test_compressibility_takes_from_calibrated_airspeed_above_sea_level(mach, air):
    cas, eas = airspeed.cas_from_mach(mach, air[0]), airspeed.eas_from_mach(mach, air[0])
    assert eas <= cas * (1 + 1e-12)


@unhurried
@given(st.floats(0.0, 18_000.0), st.floats(0.3, 0.9))
def test_at_the_crossover_altitude_the_two_are_one_speed(altitude, mach):
    cas = airspeed.cas_from_mach(mach, pressure(altitude))
    assert airspeed.crossover_altitude(cas, mach) == pytest.approx(altitude, rel=0, abs=1e-4)


def test_below_the_crossover_altitude_the_calibrated_airspeed_is_the_slower():
    crossover = airspeed.crossover_altitude(100.0, 0.5)
    assert airspeed.mach_from_cas(100.0, pressure(crossover - 100.0)) < 0.5
    assert airspeed.mach_from_cas(100.0, pressure(crossover + 100.0)) > 0.5


def test_no_speed_is_no_speed():
    p, t = pressure(3_000.0), temperature(3_000.0)
    assert airspeed.tas_from_cas(0.0, p, t) == 0.0
    assert airspeed.cas_from_tas(0.0, p, t) == 0.0
    assert airspeed.eas_from_cas(0.0, p) == 0.0
    assert airspeed.cas_from_eas(0.0, p) == 0.0
    assert airspeed.impact_pressure_from_mach(0.0, p) == 0.0
    assert airspeed.mach_from_impact_pressure(0.0, p) == 0.0
    assert airspeed.total_temperature(t, 0.0) == t


PRESSURES = pressure(np.linspace(0.0, 15_000.0, 7))
TEMPERATURES = temperature(np.linspace(0.0, 15_000.0, 7)) + 10.0
NUMBERS = np.linspace(0.1, 0.7, 7)  # Mach
SPEEDS = np.linspace(20.0, 80.0, 7)

CALLS = [
    (airspeed.impact_pressure_from_mach, (NUMBERS, PRESSURES)),
    (airspeed.mach_from_impact_pressure, (10_000.0 * NUMBERS, PRESSURES)),
    (airspeed.impact_pressure_from_cas, (SPEEDS,)),
    (airspeed.cas_from_impact_pressure, (10_000.0 * NUMBERS,)),
    (airspeed.cas_with_blocked_static, (SPEEDS, PRESSURES, PRESSURES + 200.0)),
    (airspeed.mach_from_cas, (SPEEDS, PRESSURES)),
    (airspeed.cas_from_mach, (NUMBERS, PRESSURES)),
    (airspeed.tas_from_mach, (NUMBERS, TEMPERATURES)),
    (airspeed.mach_from_tas, (SPEEDS, TEMPERATURES)),
    (airspeed.eas_from_mach, (NUMBERS, PRESSURES)),
    (airspeed.mach_from_eas, (SPEEDS, PRESSURES)),
    (airspeed.tas_from_cas, (SPEEDS, PRESSURES, TEMPERATURES)),
    (airspeed.cas_from_tas, (SPEEDS, PRESSURES, TEMPERATURES)),
    (airspeed.eas_from_cas, (SPEEDS, PRESSURES)),
    (airspeed.cas_from_eas, (SPEEDS, PRESSURES)),
    (airspeed.total_temperature, (TEMPERATURES, NUMBERS)),
    (airspeed.crossover_altitude, (2.0 * SPEEDS + 50.0, np.linspace(0.55, 0.75, 7))),
]


@pytest.mark.parametrize(("function", "inputs"), CALLS)
def test_arrays_are_many_scalars(function, inputs):
    one_by_one = [function(*map(float, row)) for row in zip(*inputs, strict=True)]
    np.testing.assert_allclose(function(*inputs), one_by_one, rtol=1e-14)


@pytest.mark.parametrize(("function", "inputs"), CALLS)
def test_inputs_broadcast_to_a_table(function, inputs):
    first, *others = inputs
    table = function(first[:, np.newaxis], *others)
    assert table.shape == (7, 7 if others else 1)
    along = np.diag(table) if others else table[:, 0]
    np.testing.assert_allclose(along, function(*inputs), rtol=1e-14)


@pytest.mark.parametrize("knots", [30.0, 60.0, 100.0, 150.0])
def test_true_airspeed_grows_with_altitude(knots):
    altitudes = np.arange(-5_000.0, 20_001.0, 25.0)
    cas = to_si(knots, "kt")
    tas = airspeed.tas_from_cas(cas, pressure(altitudes), temperature(altitudes))
    assert np.all(np.diff(tas) > 0)


@pytest.mark.parametrize("altitude", [0.0, 5_000.0, 11_000.0, 20_000.0])
def test_true_airspeed_grows_with_temperature(altitude):
    air = temperature(altitude) + np.arange(-40.0, 40.1, 0.5)
    assert np.all(np.diff(airspeed.tas_from_cas(60.0, pressure(altitude), air)) > 0)


@pytest.mark.parametrize("altitude", [0.0, 5_000.0, 11_000.0, 20_000.0])
def test_every_airspeed_grows_with_mach_number(altitude):
    numbers = np.linspace(0.0, FASTEST, 500)
    p, t = pressure(altitude), temperature(altitude)
    assert np.all(np.diff(airspeed.impact_pressure_from_mach(numbers, p)) > 0)
    assert np.all(np.diff(airspeed.cas_from_mach(numbers, p)) > 0)
    assert np.all(np.diff(airspeed.eas_from_mach(numbers, p)) > 0)
    assert np.all(np.diff(airspeed.tas_from_mach(numbers, t)) > 0)
    assert np.all(np.diff(airspeed.total_temperature(t, numbers)) > 0)


P, T = 50_000.0, 255.0

REFUSALS = [
    # Mach number
    (airspeed.impact_pressure_from_mach, (1.0, P), "Mach number 1 is not below 1"),
    (airspeed.impact_pressure_from_mach, (-0.1, P), "Mach number -0.1 is below 0"),
    (airspeed.cas_from_mach, (1.2, P), "Mach number 1.2 is not below 1"),
    (airspeed.cas_from_mach, (-0.1, P), "Mach number -0.1 is below 0"),
    (airspeed.tas_from_mach, (1.0, T), "Mach number 1 is not below 1"),
    (airspeed.tas_from_mach, (-0.1, T), "Mach number -0.1 is below 0"),
    (airspeed.eas_from_mach, (1.0, P), "Mach number 1 is not below 1"),
    (airspeed.eas_from_mach, (-0.1, P), "Mach number -0.1 is below 0"),
    (airspeed.total_temperature, (T, 1.0), "Mach number 1 is not below 1"),
    (airspeed.total_temperature, (T, -0.1), "Mach number -0.1 is below 0"),
    # speeds below nothing
    (airspeed.mach_from_cas, (-1.0, P), "calibrated airspeed -1 m/s is below 0 m/s"),
    (airspeed.tas_from_cas, (-1.0, P, T), "calibrated airspeed -1 m/s is below 0 m/s"),
    (airspeed.eas_from_cas, (-1.0, P), "calibrated airspeed -1 m/s is below 0 m/s"),
    (airspeed.mach_from_tas, (-1.0, T), "true airspeed -1 m/s is below 0 m/s"),
    (airspeed.cas_from_tas, (-1.0, P, T), "true airspeed -1 m/s is below 0 m/s"),
    (airspeed.mach_from_eas, (-1.0, P), "equivalent airspeed -1 m/s is below 0 m/s"),
    (airspeed.cas_from_eas, (-1.0, P), "equivalent airspeed -1 m/s is below 0 m/s"),
    (airspeed.mach_from_impact_pressure, (-1.0, P), "impact pressure -1 Pa is below 0 Pa"),
    (airspeed.impact_pressure_from_cas, (-1.0,), "calibrated airspeed -1 m/s is below 0 m/s"),
    (airspeed.cas_from_impact_pressure, (-1.0,), "impact pressure -1 Pa is below 0 Pa"),
    # speeds that reach that of sound
    (
        airspeed.impact_pressure_from_cas,
        (airspeed.SEA_LEVEL_SPEED_OF_SOUND,),
        "calibrated airspeed 340.294 m/s is not below 340.294 m/s",
    ),
    (airspeed.cas_with_blocked_static, (339.0, P, P / 2), r"Mach number 1.09\S* is not below 1"),
    (airspeed.mach_from_cas, (341.0, P), "calibrated airspeed 341 m/s is not below 340.294 m/s"),
    (airspeed.mach_from_cas, (340.0, P), r"Mach number 1.309\S* is not below 1"),
    (airspeed.mach_from_tas, (340.0, T), r"Mach number 1.06\S* is not below 1"),
    (airspeed.mach_from_eas, (340.0, P), r"Mach number 1.42\S* is not below 1"),
    (airspeed.mach_from_impact_pressure, (P, P), r"Mach number 1.04\S* is not below 1"),
    (
        airspeed.cas_from_mach,
        (0.95, 150_000.0),
        r"calibrated airspeed 378.2\S* m/s is not below 340.294 m/s",
    ),
    # air that is not there
    (airspeed.impact_pressure_from_mach, (0.5, 0.0), "static pressure 0 Pa is not above 0 Pa"),
    (airspeed.mach_from_impact_pressure, (1.0, -1.0), "static pressure -1 Pa is not above 0 Pa"),
    (airspeed.mach_from_cas, (50.0, 0.0), "static pressure 0 Pa is not above 0 Pa"),
    (airspeed.cas_from_mach, (0.5, -1.0), "static pressure -1 Pa is not above 0 Pa"),
    (airspeed.eas_from_mach, (0.5, 0.0), "static pressure 0 Pa is not above 0 Pa"),
    (airspeed.mach_from_eas, (50.0, 0.0), "static pressure 0 Pa is not above 0 Pa"),
    (airspeed.cas_with_blocked_static, (50.0, 0.0, P), "static pressure 0 Pa is not above 0 Pa"),
    (
        airspeed.cas_with_blocked_static,
        (50.0, P, 0.0),
        "static pressure shut in 0 Pa is not above 0 Pa",
    ),
    # at or below absolute zero
    (airspeed.tas_from_mach, (0.5, 0.0), "air temperature 0 K is not above 0 K"),
    (airspeed.mach_from_tas, (50.0, -1.0), "air temperature -1 K is not above 0 K"),
    (airspeed.tas_from_cas, (50.0, P, -5.0), "air temperature -5 K is not above 0 K"),
    (airspeed.total_temperature, (0.0, 0.5), "air temperature 0 K is not above 0 K"),
    # speeds that never meet
    (airspeed.crossover_altitude, (0.0, 0.5), "calibrated airspeed 0 m/s is not above 0 m/s"),
    (
        airspeed.crossover_altitude,
        (341.0, 0.5),
        "calibrated airspeed 341 m/s is not below 340.294 m/s",
    ),
    (airspeed.crossover_altitude, (100.0, 0.0), "Mach number 0 is not above 0"),
    (airspeed.crossover_altitude, (100.0, 1.0), "Mach number 1 is not below 1"),
    (
        airspeed.crossover_altitude,
        (300.0, 0.5),
        r"pressure altitude -\S+ m is below -5000 m",
    ),
    (
        airspeed.crossover_altitude,
        (50.0, 0.9),
        r"pressure altitude \S+ m is above 20000 m",
    ),
]


@pytest.mark.parametrize(("function", "inputs", "said"), REFUSALS)
def test_refusal_names_the_value_and_the_bound(function, inputs, said):
    with pytest.raises(OutOfBoundsError, match=f"^{said}$"):
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
        spoiled[place][4] = -1.0
        with pytest.raises(OutOfBoundsError, match="-1"):
            function(*spoiled)


def test_the_last_speeds_below_sound_are_accepted():
    just_below = np.nextafter(SEA_LEVEL_SPEED_OF_SOUND, 0.0)
    assert airspeed.mach_from_cas(just_below * (1 - 1e-12), SEA_LEVEL_PRESSURE) < 1.0
    assert airspeed.mach_from_tas(0.999_999 * speed_of_sound(T), T) < 1.0


@pytest.mark.parametrize("altitude", [-1000.0, 0.0, 5000.0, 11_000.0, 20_000.0])
def test_what_is_subsonic_has_a_mach_number_and_what_is_not_has_none(altitude):
    """A speed is subsonic up to a hair below Mach 1, and where CAS is Mach 1 at sea level."""
    static = pressure(altitude)
    if altitude > 0:  # at sea level and below, CAS reaches the speed of sound before Mach does
        edge = airspeed.cas_from_mach(1.0 - 1e-6, static)
    else:
        edge = SEA_LEVEL_SPEED_OF_SOUND * (1.0 - 1e-6)
    assert airspeed.is_subsonic(edge, static)
    assert airspeed.mach_from_cas(edge, static) < 1.0
    assert not airspeed.is_subsonic(edge * (1.0 + 2e-6), static)
    with pytest.raises(OutOfBoundsError):
        airspeed.mach_from_cas(edge * (1.0 + 2e-6), static)


def test_the_speed_of_sound_and_no_speed_are_not_subsonic():
    """Not even under a pressure at which a Mach number would be small."""
    speeds = np.array([100.0, SEA_LEVEL_SPEED_OF_SOUND, 500.0, np.nan])
    found = airspeed.is_subsonic(speeds, 10.0 * 101_325.0)
    assert found.tolist() == [True, False, False, False]


def test_a_speed_that_is_told_subsonic_is_never_refused():
    """At the very edge, where the last bits decide."""
    static = 50_000.0
    edge = airspeed.cas_from_mach(1.0 - 2e-9, static)
    for factor in 1.0 + np.linspace(-4e-9, 4e-9, 401):
        if airspeed.is_subsonic(edge * factor, static):
            airspeed.mach_from_cas(edge * factor, static)


# -- impact pressure, and a blocked static opening


def test_an_impact_pressure_is_that_of_a_cas_and_back():
    """Total to static pressure at Mach 0.3 and 0.5 by NACA Report 1135, table I (from memory)."""
    for mach, ratio in ((0.3, 1.064430), (0.5, 1.186213)):
        cas = mach * SEA_LEVEL_SPEED_OF_SOUND
        impact = airspeed.impact_pressure_from_cas(cas)
        assert impact == pytest.approx(SEA_LEVEL_PRESSURE * (ratio - 1), rel=2e-5)
        assert airspeed.cas_from_impact_pressure(impact) == pytest.approx(cas, rel=1e-12)


def test_a_blocked_static_opening_adds_the_change_of_pressure():
    """Higher up too little, lower down too much, at the same height nothing, and never below."""
    shut_in, higher, lower = 84_000.0, 83_500.0, 84_500.0
    shown = airspeed.cas_with_blocked_static(50.0, np.array([higher, shut_in, lower]), shut_in)
    assert shown[0] < shown[1] < shown[2]
    assert shown[1] == pytest.approx(50.0, rel=1e-12)
    impact = airspeed.impact_pressure_from_cas(shown)
    assert np.diff(impact) == pytest.approx([500.0, 500.0])
    assert airspeed.cas_with_blocked_static(50.0, 80_000.0, shut_in) == 0.0


@pytest.mark.parametrize("spoiled", [(-1.0, 8e4, 8e4), (50.0, 0.0, 8e4), (50.0, 8e4, 0.0)])
def test_what_means_nothing_of_a_blocked_opening_is_refused(spoiled):
    with pytest.raises(OutOfBoundsError):
        airspeed.cas_with_blocked_static(*spoiled)
    with pytest.raises(OutOfBoundsError):
        airspeed.cas_from_impact_pressure(-1.0)
