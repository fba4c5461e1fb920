import pytest

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.reckoning import RESULTS, Case, reckon
from cardgen.units import convert, from_si, to_si


def test_the_whole_way_from_indicator_to_ground(aircraft):
    case = Case("ias", 120.0, "0", "normal", 5500.0, 12.0, (240.0, 18.0), 280.0)
    worked = reckon(aircraft["ZZ-WHB"], case).values
    assert worked["instrument_correction"] == pytest.approx(2.0)
    cas = 119 + (138 - 119) * 2 / 20  # the manual's table between 120 and 140, at 122
    assert worked["calibrated_airspeed"] == pytest.approx(cas)
    tas = airspeed.tas_from_cas(
        to_si(cas, "kt"), atmosphere.pressure(to_si(5500.0, "ft")), to_si(12.0, "C")
    )
    assert worked["true_airspeed"] == pytest.approx(float(from_si(tas, "kt")))
    assert worked["headwind"] == pytest.approx(18 * 0.766044443)  # cos 40 deg, from tables
    assert worked["crosswind"] == pytest.approx(-18 * 0.642787610)  # sin 40 deg, from the left
    assert 270 < worked["heading"] < 280
    assert worked["ground_speed"] < worked["true_airspeed"]


@pytest.mark.parametrize("registration", ["ZZ-DUA", "ZZ-DUB", "ZZ-WHB", "ZZ-TUA"])
def test_from_tas_and_cas_back_to_what_to_indicate(aircraft, registration):
    one = aircraft[registration]
    forth = reckon(one, Case("ias", 110.0, "0", "normal", 8000.0, -5.0)).values
    for known, name in (("cas", "calibrated_airspeed"), ("tas", "true_airspeed")):
        back = reckon(one, Case(known, forth[name], "0", "normal", 8000.0, -5.0)).values
        for result in RESULTS[:9]:
            assert back[result] == pytest.approx(forth[result], rel=1e-9, abs=1e-9), result


def test_speeds_are_in_the_indicators_unit(aircraft):
    worked = reckon(aircraft["ZZ-DUA"], Case("ias", convert(90.0, "kt", "mph"), "0"))
    assert worked.units["speed"] == "mph"
    assert worked.values["calibrated_airspeed"] == pytest.approx(convert(88.0, "kt", "mph"))


def test_what_has_no_value_is_none_with_a_sentence(aircraft):
    worked = reckon(aircraft["ZZ-DUA"], Case("ias", 30.0, "0", "normal", 1000.0, 10.0))
    assert worked.values["indicated_airspeed"] == 30.0
    assert worked.values["calibrated_airspeed"] is None
    assert worked.values["true_airspeed"] is None
    assert worked.values["density_altitude"] is not None
    assert "lies outside the calibration table for flaps 0" in worked.notes[0]


def test_a_wind_that_cannot_be_held_leaves_heading_and_ground_speed_out(aircraft):
    case = Case("ias", 60.0, "0", "normal", 0.0, 15.0, (90.0, 80.0), 0.0)
    worked = reckon(aircraft["ZZ-TUA"], Case(**{**case.__dict__, "speed": 70.0}))
    assert worked.values["crosswind"] == pytest.approx(80.0)
    assert worked.values["heading"] is None
    assert worked.values["ground_speed"] is None
    assert "cannot be held" in worked.notes[0]
