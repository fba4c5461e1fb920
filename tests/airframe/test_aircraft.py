import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.airframe.curve import Curve


def test_tables_are_exact_at_their_points_and_linear_between(aircraft):
    dunlin = aircraft["ZZ-DUC"]
    table = dunlin.calibration("35")
    for ias, cas in zip(table.ias, table.cas, strict=True):
        assert dunlin.cas_from_ias(float(ias), "35") == cas
        assert dunlin.ias_from_cas(float(cas), "35") == ias
    assert dunlin.cas_from_ias(50.0, "35") == pytest.approx((50 + 57) / 2)


@pytest.mark.parametrize("ias", [35.99, 80.01, 0.0, 500.0])
def test_nothing_is_extrapolated(aircraft, ias):
    assert math.isnan(aircraft["ZZ-DUC"].cas_from_ias(ias, "35"))


def test_a_flap_setting_without_a_table_has_no_value(aircraft):
    assert math.isnan(aircraft["ZZ-DUC"].cas_from_ias(60.0, "35", "alternate"))


def test_instrument_correction_is_added_to_what_the_indicator_shows(aircraft):
    """The bench card says +2 at an indicated 50 kt."""
    assert aircraft["ZZ-DUB"].ias_from_indicated(50.0) == pytest.approx(52.0)
    assert aircraft["ZZ-DUB"].indicated_from_ias(52.0) == pytest.approx(50.0)


def test_an_mph_indicator_shows_miles(aircraft):
    """100 kt is 185.2 km/h, and 185.2 / 1.609344 mph (NIST SP 811)."""
    assert aircraft["ZZ-DUA"].indicated_from_ias(100.0) == pytest.approx(185.2 / 1.609344)


@given(indicated=st.floats(46.0, 150.0))
@pytest.mark.parametrize("registration", ["ZZ-DUB", "ZZ-DUC"])
def test_ias_to_cas_and_back(aircraft, registration, indicated):
    one = aircraft[registration]
    cas = one.cas_from_ias(one.ias_from_indicated(indicated))
    assert one.indicated_from_ias(one.ias_from_cas(cas)) == pytest.approx(indicated, rel=1e-12)


def test_curves_take_arrays():
    curve = Curve([40, 60, 80], [46, 62, 80])
    np.testing.assert_allclose(curve.at(np.array([40.0, 50.0, 80.0, 81.0])), [46, 54, 80, np.nan])


def test_stall_speed_grows_with_the_square_root_of_weight_and_load_factor(aircraft):
    """Worked by hand: 50 kt CAS at 2310 lb; at half the weight and 60 deg, n = 2, the same 50."""
    dunlin = aircraft["ZZ-DUA"]
    assert dunlin.stall_cas("0", 2310, 0) == 50.0
    assert dunlin.stall_cas("0", 1155, 60) == pytest.approx(50.0)
    assert dunlin.stall_cas("0", 2310, 60) == pytest.approx(50.0 * math.sqrt(2))


def test_manoeuvring_speed_comes_from_the_next_heavier_weight_of_the_manual(aircraft):
    dunlin = aircraft["ZZ-DUA"]
    assert dunlin.manoeuvring_cas(2310) == 94.0
    assert dunlin.manoeuvring_cas(2100) == pytest.approx(94.0 * math.sqrt(2100 / 2310))
    assert dunlin.manoeuvring_cas(1900) == 85.0
    assert dunlin.manoeuvring_cas(1700) == pytest.approx(85.0 * math.sqrt(1700 / 1900))
    assert math.isnan(dunlin.manoeuvring_cas(2400))


def test_cruise_is_exact_at_the_rows(aircraft):
    dunlin = aircraft["ZZ-DUA"]
    table = dunlin.definition.cruise
    for row in table.rows:
        at = dict(zip(table.columns, row, strict=True))
        found = dunlin.cruise(**{name: float(at[name]) for name in ("altitude", "rpm", "isa")})
        assert found == {name: float(at[name]) for name in ("power", "tas", "fuel flow")}


def test_cruise_between_the_rows_is_read_one_axis_after_another(aircraft):
    """Worked by hand from four rows: 2000 and 4000 ft, 2600 and 2450 rpm, ISA."""
    found = aircraft["ZZ-DUA"].cruise(altitude=3000, rpm=2525, isa=0)
    assert found["tas"] == pytest.approx(((113 + 106) / 2 + (113 + 105) / 2) / 2)
    assert found["fuel flow"] == pytest.approx(((9.0 + 7.7) / 2 + (8.6 + 7.4) / 2) / 2)


@pytest.mark.parametrize(
    "at",
    [
        {"altitude": 1999, "rpm": 2600, "isa": 0},
        {"altitude": 10001, "rpm": 2600, "isa": 0},
        {"altitude": 4000, "rpm": 2700, "isa": 0},
        {"altitude": 4000, "rpm": 2600, "isa": 21},
    ],
)
def test_cruise_has_no_value_outside_the_table(aircraft, at):
    assert aircraft["ZZ-DUA"].cruise(**at) is None


def test_a_setting_that_is_not_given_at_an_altitude_has_no_value_there(aircraft):
    """The twin's 2500 rpm and 24 inHg are in the table to 4000 ft only."""
    at = {"rpm": 2500, "manifold pressure": 24, "isa": 0}
    assert aircraft["ZZ-TUA"].cruise(altitude=4000, **at) is not None
    assert aircraft["ZZ-TUA"].cruise(altitude=5000, **at) is None
