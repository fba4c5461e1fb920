import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.airframe.cruise import interpolated
from cardgen.airframe.curve import Curve

STATED = {"speed": "kt", "altitude": "ft", "temperature": "C", "weight": "lb"}


def test_an_aircraft_is_what_its_definition_says(make):
    plain = make()
    assert plain.registration == "T-EST"
    assert plain.kind == "single-engine"
    assert plain.flaps == ("0", "20", "40")
    assert plain.maximum_weight == 2000
    assert plain.indicator_unit == plain.units.speed == "kt"


def test_an_indicator_has_the_manuals_unit_unless_the_airframe_says_another(make):
    assert make(units={**STATED, "speed": "mph"}).indicator_unit == "mph"
    assert make(airframe={"indicator": {"unit": "km/h"}}).indicator_unit == "km/h"


# -- the indicator and the calibration tables ----------------------------------------------


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


@pytest.mark.parametrize("cas", [43.99, 79.01, 0.0, 500.0])
def test_nothing_is_extrapolated_on_the_way_back(aircraft, cas):
    assert math.isnan(aircraft["ZZ-DUC"].ias_from_cas(cas, "35"))


def test_a_flap_setting_without_a_table_has_no_value(aircraft):
    assert math.isnan(aircraft["ZZ-DUC"].cas_from_ias(60.0, "35", "alternate"))
    assert math.isnan(aircraft["ZZ-DUC"].ias_from_cas(60.0, "35", "alternate"))


@pytest.mark.parametrize("speeds", [np.array([60, 70]), np.array([[60.0, 70.0, 80.0]])])
def test_without_a_table_every_value_of_an_array_is_missing(aircraft, speeds):
    """Whole knots as well, though whole numbers know no missing value."""
    for function in (aircraft["ZZ-DUC"].cas_from_ias, aircraft["ZZ-DUC"].ias_from_cas):
        found = function(speeds, "35", "alternate")
        assert found.shape == speeds.shape
        assert np.isnan(found).all()


def test_a_table_that_names_no_flaps_is_for_flaps_retracted(make):
    plain = make(calibration=[{"ias": [50, 100, 200], "cas": [54, 100, 196]}])
    assert plain.calibration() is plain.calibration("0")
    assert plain.calibration().given is plain.definition.calibration[0]
    assert plain.calibration("20") is None
    assert plain.cas_from_ias(150.0) == pytest.approx(148.0)


def test_each_static_source_has_its_own_table(aircraft):
    dunlin = aircraft["ZZ-DUA"]
    assert dunlin.calibration("0", "alternate").page == "5-8"
    assert dunlin.calibration("0", "normal").page == dunlin.calibration().page == "5-7"
    assert dunlin.cas_from_ias(100.0, "0", "alternate") == 93.0
    assert dunlin.ias_from_cas(93.0, "0", "alternate") == 100.0


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


# -- the CAS of a V-speed ------------------------------------------------------------------


def entry(one, name):
    return one.definition.speeds[name][0]


def test_the_manuals_own_cas_of_a_speed_comes_before_the_table(make):
    plain = make(speeds={"VNO": {"ias": 140, "cas": 137}})
    assert plain.entry_cas(entry(plain, "VNO")) == 137.0


def test_the_ias_of_a_speed_goes_through_the_table_of_its_flaps(make):
    """At an IAS of 70 kt the tables say 72.4 kt with flaps 0 and 74 kt with flaps 40."""
    plain = make(speeds={"VREF": {"ias": 70, "flaps": 40}, "VR": {"ias": 70}})
    assert plain.entry_cas(entry(plain, "VR")) == pytest.approx(72.4)
    assert plain.entry_cas(entry(plain, "VR"), "40") == pytest.approx(74.0)
    assert plain.entry_cas(entry(plain, "VREF")) == pytest.approx(74.0)
    assert plain.entry_cas(entry(plain, "VREF"), "0") == pytest.approx(74.0)


def test_a_multiple_of_vs0_is_one_of_the_landing_stall_speed_at_its_weight(make):
    plain = make(
        speeds={
            "VS0": {"ias": 40, "cas": 46},
            "VS1": [{"ias": 50, "cas": 54}, {"flaps": 20, "ias": 45, "cas": 50}],
            "VREF": [{"times VS0": 1.3}, {"times VS0": 1.3, "weight": 1500}],
        }
    )
    heavy, light = plain.definition.speeds["VREF"]
    assert plain.entry_cas(heavy) == pytest.approx(1.3 * 46, rel=1e-12)
    assert plain.entry_cas(light) == pytest.approx(1.3 * 46 * math.sqrt(0.75), rel=1e-12)


def test_a_multiple_of_a_stall_speed_that_is_not_given_has_no_value(make):
    plain = make(speeds={"VS0": {"flaps": 20, "ias": 45}, "VREF": {"times VS0": 1.3}})
    assert math.isnan(plain.entry_cas(entry(plain, "VREF")))
    assert math.isnan(plain.approach_cas(2000))


def test_a_mach_number_alone_has_no_cas(make):
    speeds = {"VNO": None, "VNE": None, "VMO": {"ias": 190}, "MMO": {"mach": 0.4}}
    plain = make(speeds=speeds, kind="turbine")
    assert math.isnan(plain.entry_cas(entry(plain, "MMO")))


# -- stall, manoeuvring and approach at a weight -------------------------------------------


def test_stall_speeds_are_known_for_the_flap_settings_that_the_manual_gives_them_for(make):
    """VS1 is with flaps retracted and VS0 with flaps down where the manual does not say."""
    speeds = {"VS0": {"ias": 40}, "VS1": [{"ias": 50}, {"flaps": 20, "ias": 45}]}
    found = make(speeds=speeds).stall_entries
    assert list(found) == ["0", "20", "40"]  # in the order of the flap settings
    assert [one.ias for one in found.values()] == [50, 45, 40]
    assert list(make(speeds={"VS0": {"flaps": 20, "ias": 45}}).stall_entries) == ["0", "20"]


def test_a_stall_speed_in_ias_goes_through_the_table_of_the_flap_setting(make):
    """VS0 is 55 kt IAS, which is 60 kt CAS with flaps 40 and 58.6 kt with flaps 0."""
    plain = make(speeds={"VS0": {"ias": 55}})
    assert plain.stall_cas("40", 2000, 0.0) == pytest.approx(60.0)
    assert plain.stall_cas("40", 500, 0.0) == pytest.approx(30.0)


def test_a_stall_speed_given_at_a_weight_is_known_at_that_weight(make):
    plain = make(speeds={"VS1": {"ias": 50, "cas": 54, "weight": 1600}})
    assert plain.stall_cas("0", 1600, 0.0) == 54.0
    assert plain.stall_cas("0", 400, 0.0) == pytest.approx(27.0)


def test_of_two_stall_speeds_for_one_flap_setting_that_of_the_heavier_weight_is_held_against(make):
    given = [{"ias": 45, "cas": 48, "weight": 1600}, {"ias": 50, "cas": 54}]
    assert make(speeds={"VS1": given}).stall_entries["0"].cas == 54


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


def test_a_manoeuvring_speed_without_a_weight_is_for_the_maximum_weight(make):
    plain = make(speeds={"VO": {"ias": 110, "cas": 108}})
    assert plain.manoeuvring_cas(2000, "VO") == 108.0
    assert plain.manoeuvring_cas(500, "VO") == pytest.approx(54.0)
    assert plain.anchor(2000, "VO") is entry(plain, "VO")


def test_without_a_manoeuvring_speed_there_is_none(make):
    plain = make()
    assert plain.anchor(1500, "VA") is None
    assert math.isnan(plain.manoeuvring_cas(1500))


def test_approach_speed_keeps_its_margin_over_the_stall_at_every_weight(make):
    """VREF is 70 kt IAS, which is 74 kt CAS with flaps 40 and 72.4 kt with flaps 0."""
    plain = make(speeds={"VREF": {"ias": 70}})
    assert plain.approach_cas(2000) == pytest.approx(74.0)
    assert plain.approach_cas(1500) == pytest.approx(74 * math.sqrt(0.75))
    for weight in (1200, 1800, 2000):
        margin = plain.approach_cas(weight) / plain.stall_cas("40", weight, 0.0)
        assert margin == pytest.approx(74 / 46)


def test_an_approach_speed_given_at_a_weight_is_known_at_that_weight(make):
    plain = make(speeds={"VREF": {"ias": 70, "weight": 1600}})
    assert plain.approach_cas(1600) == pytest.approx(74.0)
    assert plain.approach_cas(1200) == pytest.approx(74 * math.sqrt(0.75))
    assert math.isnan(plain.approach_cas(2000))


def test_approach_speed_comes_from_the_next_heavier_weight_of_the_manual(make):
    """70 and 64 kt IAS are 74 and 68.4 kt CAS with flaps 40."""
    given = [{"ias": 70, "weight": 2000}, {"ias": 64, "weight": 1600}]
    plain = make(speeds={"VREF": given})
    assert plain.approach_cas(1601) == pytest.approx(74 * math.sqrt(1601 / 2000))
    assert plain.approach_cas(1600) == pytest.approx(68.4)
    assert plain.approach_cas(1200) == pytest.approx(68.4 * math.sqrt(0.75))
    assert math.isnan(plain.approach_cas(2001))


@pytest.mark.parametrize(("vmc", "lowest"), [(66.0, 66.0), (80.0, 74.0), (40.0, 74 * 0.5**0.5)])
def test_a_lighter_twin_is_not_flown_slower_than_vmc(make, vmc, lowest):
    """14 CFR 23.73, before Amendment 23-64: VREF is at least VMC. What the manual gives stands."""
    speeds = {name: {"ias": 90} for name in ("VSSE", "VX", "VY", "VXSE", "VYSE", "best glide")}
    twin = make(
        kind="multi-engine",
        speeds={**speeds, "VREF": {"ias": 70}, "VMC": {"ias": 70, "cas": vmc}},
    )
    assert twin.approach_cas(2000) == pytest.approx(74.0)
    assert twin.approach_cas(1000) == pytest.approx(lowest)


def test_without_vref_there_is_no_approach_speed(make):
    assert math.isnan(make().approach_cas(2000))


# -- true airspeed in the manual's units ---------------------------------------------------

METRIC = {"speed": "km/h", "altitude": "m", "temperature": "F", "weight": "kg"}


@pytest.mark.parametrize(
    ("units", "cas", "altitude", "oat"),
    [(STATED, 100.0, 10_000.0, -5.0), (METRIC, 185.2, 3048.0, 23.0)],
)
def test_true_airspeed_in_the_manuals_units(make, units, cas, altitude, oat):
    """100 kt CAS at 10 000 ft and -5 C. The density ratio is 0.6877 / 0.9307 = 0.7390.

    Of an incompressible 116.33 kt, the compressibility correction takes a little.
    """
    plain = make(units=units)
    tas = plain.tas_from_cas(cas, altitude, oat)
    assert tas / cas == pytest.approx(1.1633, rel=2e-3)
    assert tas / cas < 1.1633
    assert plain.cas_from_tas(tas, altitude, oat) == pytest.approx(cas, rel=1e-12)


def test_a_speed_without_cas_has_no_true_airspeed_and_spoils_no_other(make):
    plain = make()
    found = plain.tas_from_cas(np.array([np.nan, 100.0]), 10_000.0, -5.0)
    assert np.isnan(found[0])
    assert found[1] == plain.tas_from_cas(100.0, 10_000.0, -5.0)
    assert math.isnan(plain.tas_from_cas(math.nan, 10_000.0, -5.0))


def test_standard_temperature_falls_1_98_degrees_each_1000_feet(make):
    plain = make()
    assert plain.standard_temperature(0.0) == pytest.approx(15.0)
    assert plain.standard_temperature(10_000.0) == pytest.approx(15 - 6.5 * 3.048)
    assert make(units=METRIC).standard_temperature(2000.0) == pytest.approx(1.8 * 2 + 32)


# -- cruise --------------------------------------------------------------------------------


def test_cruise_is_exact_at_the_rows(aircraft):
    (table,) = aircraft["ZZ-DUA"].definition.cruise
    for row in table.rows:
        at = dict(zip(table.columns, row, strict=True))
        found = interpolated(table, {name: float(at[name]) for name in ("altitude", "rpm", "isa")})
        assert found == {name: float(at[name]) for name in ("power", "tas", "fuel flow")}


def test_cruise_between_the_rows_is_read_one_axis_after_another(aircraft):
    """Worked by hand from four rows: 2000 and 4000 ft, 2600 and 2450 rpm, ISA."""
    (table,) = aircraft["ZZ-DUA"].definition.cruise
    found = interpolated(table, {"altitude": 3000, "rpm": 2525, "isa": 0})
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
    assert interpolated(aircraft["ZZ-DUA"].definition.cruise[0], at) is None


def test_a_setting_that_is_not_given_at_an_altitude_has_no_value_there(aircraft):
    """The twin's 2500 rpm and 24 inHg are in the table to 4000 ft only."""
    at = {"rpm": 2500, "manifold pressure": 24, "isa": 0}
    (table,) = aircraft["ZZ-TUA"].definition.cruise
    assert interpolated(table, {"altitude": 4000, **at}) is not None
    assert interpolated(table, {"altitude": 5000, **at}) is None


# -- the flaps that a speed holds for --------------------------------------------------------------


def test_a_speed_without_flaps_is_for_the_usual_ones(make):
    names = ("VS0", "VREF", "VS1", "VX")
    plain = make(speeds={name: [{"ias": 60}, {"ias": 60, "flaps": 20}] for name in names})
    found = {
        name: [plain.flaps_of(name, one) for one in plain.definition.speeds[name]] for name in names
    }
    assert found == {
        "VS0": ["40", "20"],
        "VREF": ["40", "20"],
        "VS1": ["0", "20"],
        "VX": ["0", "20"],
    }


def test_what_the_indicator_shows_goes_through_bench_card_and_table(make):
    """It shows 98, and 2 is to be added: 100 kt IAS, which are 100 kt CAS by the table."""
    card = {"page": "bench card", "indicated": [20, 200], "correction": [2, 2]}
    plain = make(airframe={"instrument correction": card})
    assert plain.cas_from_indicated(98.0) == pytest.approx(100.0)
    assert plain.cas_from_indicated(73.0) == pytest.approx(77.0)  # half way from 54 to 100


# -- settings that are not said --------------------------------------------------------------------


def test_the_gear_is_down_with_landing_flaps_and_up_else(make):
    plain = make()
    assert [plain.usual_gear(flaps) for flaps in plain.flaps] == ["up", "up", "down"]
    flapless = make({"VFE": None}, flaps=[0], calibration=[FLAPLESS])
    assert flapless.usual_gear("0") == "up"


def test_the_gear_is_as_a_speed_says_or_as_its_name_does(make):
    """VS0 and VREF are in the landing configuration, VLE is with the gear out (14 CFR 1.2)."""
    plain = make(speeds={"VLE": {"ias": 60}, "VREF": {"ias": 60}, "VX": {"ias": 60, "gear": "up"}})
    names = ("VS0", "VREF", "VLE", "VS1", "VX")
    found = [plain.gear_of(name, entry(plain, name)) for name in names]
    assert found == ["down", "down", "down", "", "up"]
    assert plain.gear_of("VS0", entry(plain, "VX")) == "up"


FLAPLESS = {"flaps": 0, "ias": [50, 100, 200], "cas": [54, 100, 196]}


@pytest.mark.parametrize(("flaps", "usual"), [([0], "0"), ([0, 40], None), ([0, 20, 40], None)])
def test_no_flaps_are_usual_for_a_speed_of_the_manuals_own_name(make, flaps, usual):
    tables = [{"flaps": one, "ias": [50, 200], "cas": [54, 196]} for one in flaps]
    named = {"short field": {"ias": 60}, "soft field": {"ias": 60, "flaps": 0}}
    limits = {"VFE": {"flaps": 40, "ias": 90} if 40 in flaps else None}
    plain = make(limits, flaps=flaps, calibration=tables, **{"other speeds": named})
    (unsaid,), (said,) = plain.definition.other_speeds.values()
    assert plain.flaps_of("short field", unsaid) == usual
    assert plain.flaps_of("soft field", said) == "0"


@pytest.mark.parametrize("named", ["ias", "cas"])
def test_a_range_of_speeds_is_nothing_to_reckon_from(make, named):
    """Of 60 to 65 nobody knows which is meant; the next heavier weight is known."""
    given = [{named: "60 to 65", "weight": 1600}, {"ias": 70, "cas": 74}]
    plain = make(speeds={"VREF": given})
    assert plain.anchor(1600, "VREF") is plain.definition.speeds["VREF"][1]
    assert plain.approach_cas(1600) == pytest.approx(74 * math.sqrt(0.8))


# -- where a cruise table has no figure, and where it ends -----------------------------------------


def test_a_figure_that_the_manual_leaves_out_is_none_between_rows_either(make):
    """At 8000 ft the manual gives no fuel flow, so there is none at 4000 ft; TAS there is 105."""
    cruise = {
        "columns": ["altitude", "isa", "tas", "fuel flow"],
        "rows": [[0, -20, 100, 9], [0, 0, 102, 9], [8000, -20, 110, "n/a"], [8000, 0, 112, "n/a"]],
    }
    units = {**STATED, "fuel flow": "gal/h"}
    (table,) = make(units=units, cruise=cruise).definition.cruise
    found = interpolated(table, {"altitude": 4000.0, "isa": -20.0})
    assert found["tas"] == pytest.approx(105.0)
    assert math.isnan(found["fuel flow"])
    assert interpolated(table, {"altitude": 0.0, "isa": 0.0}) == {"tas": 102.0, "fuel flow": 9.0}
    a_hair_warm = interpolated(table, {"altitude": 0.0, "isa": 5e-14})  # what subtraction leaves
    assert a_hair_warm == {"tas": 102.0, "fuel flow": 9.0}
    assert interpolated(table, {"altitude": 0.0, "isa": 0.001}) is None
