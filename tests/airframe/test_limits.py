"""Which speed limit holds at an altitude: fixed, in TAS, by Mach number or in rows."""

import math

import pytest

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.limits import (
    crossover_altitude,
    falls_with_altitude,
    highest_limit,
    last_row,
    limit_at,
    most_shown,
    not_widened,
    shown_limit,
)
from cardgen.definition.places import DefinitionError
from cardgen.units import from_si, to_si

TURBINE = {"VNO": None, "VNE": None, "VMO": {"ias": 190}, "MMO": {"mach": 0.4}}
# 0 to 10 000 ft, out of order on purpose; IAS, of which the plain type's table makes CAS.
BY_ALTITUDE = {
    "VNE": [
        {"altitude": 10000, "ias": 120},
        {"altitude": 0, "ias": 160},
        {"altitude": 4000, "ias": 150},
    ]
}


def cas_of_tas(tas: float, feet: float) -> float:
    """CAS, kt, of a TAS in standard air."""
    metres = to_si(feet, "ft")
    pressure, temperature = atmosphere.pressure(metres), atmosphere.temperature(metres)
    return from_si(airspeed.cas_from_tas(to_si(tas, "kt"), pressure, temperature), "kt")


def cas_of_mach(mach: float, feet: float) -> float:
    """CAS, kt, of a Mach number."""
    return from_si(airspeed.cas_from_mach(mach, atmosphere.pressure(to_si(feet, "ft"))), "kt")


# -- one airspeed for all altitudes --------------------------------------------------------


def test_a_single_vne_holds_at_every_altitude(make):
    """180 kt IAS lies four fifths of the way from 100 to 200, which are 100 and 196 kt CAS."""
    plain = make()
    assert not falls_with_altitude(plain)
    for altitude in (-1000.0, 0.0, 20_000.0):
        limit = limit_at(plain, altitude)
        assert limit.name == "VNE"
        assert limit.entry is plain.definition.speeds["VNE"][0]
        assert limit.cas == pytest.approx(100 + 0.8 * 96)


# -- VNE in TAS ----------------------------------------------------------------------------

TAS_FROM_8000 = {"VNE": [{"ias": 180, "cas": 177}, {"tas": 180, "from altitude": 8000}]}


def test_a_limit_in_tas_holds_wherever_it_gives_less(make):
    """180 kt TAS is some 160 kt CAS at 8000 ft, where air has 0.79 of its sea-level density.

    It is 177 kt CAS, the fixed limit, at some 1100 ft, and more below: below the altitude that the
    manual names it from it binds all the same.
    """
    plain = make(speeds=TAS_FROM_8000)
    fixed, in_tas = plain.definition.speeds["VNE"]
    assert falls_with_altitude(plain)
    assert limit_at(plain, 0.0).entry is fixed
    assert limit_at(plain, 0.0).cas == 177.0
    assert limit_at(plain, 4000.0).entry is in_tas
    assert limit_at(plain, 8000.0).entry is in_tas
    assert limit_at(plain, 8000.0).cas == pytest.approx(180 * math.sqrt(0.786), rel=0.005)
    for altitude in (8000.0, 15_000.0):
        assert limit_at(plain, altitude).cas == pytest.approx(cas_of_tas(180, altitude))


def test_the_lowest_of_the_limits_holds(make):
    """220 kt TAS is above 177 kt CAS at 8000 ft and below it at 20 000 ft."""
    plain = make(speeds={"VNE": [{"ias": 180, "cas": 177}, {"tas": 220, "from altitude": 8000}]})
    assert limit_at(plain, 8000.0).cas == 177.0
    assert limit_at(plain, 20_000.0).cas == pytest.approx(cas_of_tas(220, 20_000.0))


def test_a_limit_in_tas_is_lower_in_the_warm(make):
    """CAS of a TAS goes, but for a little compressibility, with the root of the density."""
    plain = make(speeds=TAS_FROM_8000)
    standard = 15.0 - 1.9812 * 10
    cold, warm = (limit_at(plain, 10_000.0, standard + change).cas for change in (-20.0, 20.0))
    assert cold > limit_at(plain, 10_000.0).cas > warm
    assert limit_at(plain, 10_000.0, standard).cas == pytest.approx(limit_at(plain, 10_000.0).cas)
    ratio = math.sqrt((standard + 273.15 + 20) / (standard + 273.15 - 20))
    assert cold / warm == pytest.approx(ratio, rel=2e-3)


def test_a_limit_in_mach_number_is_the_same_cas_at_every_temperature(make):
    turbine = make(speeds=TURBINE, kind="turbine")
    high = crossover_altitude(turbine) + 5000.0
    assert (
        limit_at(turbine, high, -60.0) == limit_at(turbine, high, 20.0) == limit_at(turbine, high)
    )


def test_of_equal_limits_the_first_is_named(make):
    """The two differ in the seventh decimal, which is no difference."""
    twice = {
        "VNE": [
            {"ias": 180, "cas": 177.0000001, "when": "doors on"},
            {"ias": 180, "cas": 177, "when": "doors off"},
        ]
    }
    assert limit_at(make(speeds=twice), 0.0).entry.when == "doors on"


# -- VMO and MMO ---------------------------------------------------------------------------


def test_vmo_gives_way_to_mmo_at_the_crossover_altitude(make):
    turbine = make(speeds=TURBINE, kind="turbine")
    assert falls_with_altitude(turbine)
    crossover = crossover_altitude(turbine)
    vmo = 100 + 0.9 * 96  # 190 kt IAS through the table
    assert cas_of_mach(0.4, crossover) == pytest.approx(vmo)
    below, above = limit_at(turbine, crossover - 10.0), limit_at(turbine, crossover + 10.0)
    assert (below.name, below.cas) == ("VMO", pytest.approx(vmo))
    assert (above.name, above.cas) == ("MMO", pytest.approx(cas_of_mach(0.4, crossover + 10.0)))


def test_crossover_altitude_speaks_the_manuals_unit(make):
    metric = {"speed": "kt", "altitude": "m", "weight": "lb"}
    in_feet = crossover_altitude(make(speeds=TURBINE, kind="turbine"))
    in_metres = crossover_altitude(make(speeds=TURBINE, kind="turbine", units=metric))
    assert in_metres == pytest.approx(0.3048 * in_feet)


def test_without_both_vmo_and_mmo_there_is_no_crossover(make):
    assert math.isnan(crossover_altitude(make()))
    only_airspeeds = {**TURBINE, "MMO": {"ias": 185}}
    assert math.isnan(crossover_altitude(make(speeds=only_airspeeds, kind="turbine")))


# -- limits in rows by altitude ------------------------------------------------------------


def interpolated(rows):
    return [{**rows[0], "between": "interpolate"}, *rows[1:]]


def test_between_two_rows_by_altitude_the_lower_holds(make):
    plain = make(speeds=BY_ALTITUDE)
    assert falls_with_altitude(plain)
    for altitude, ias, row in (
        (-500, 160, 0),  # the first row holds below itself
        (0, 160, 0),
        (1, 150, 4000),  # between two rows the lower
        (3999, 150, 4000),
        (4000, 150, 4000),
        (4001, 120, 10_000),
        (10_000, 120, 10_000),
    ):
        limit = limit_at(plain, float(altitude))
        found = limit.name, limit.value, limit.entry.altitude
        assert found == ("VNE", ias, row), altitude
        assert limit.cas == pytest.approx(100 + (ias - 100) * 0.96)


def test_a_limit_that_rises_with_altitude_is_the_lower_row_too(make):
    rows = [{"altitude": 0, "ias": 120}, {"altitude": 4000, "ias": 160}]
    assert limit_at(make(speeds={"VNE": rows}), 3999.0).value == 120


def test_rows_by_altitude_are_linear_where_the_manual_says_to_interpolate(make):
    plain = make(speeds={"VNE": interpolated(BY_ALTITUDE["VNE"])})
    for altitude, ias in ((0, 160), (2000, 155), (4000, 150), (7000, 135), (10_000, 120)):
        limit = limit_at(plain, float(altitude))
        assert limit.cas == pytest.approx(100 + (ias - 100) * 0.96), altitude
    assert limit_at(plain, -500.0).value == 160
    assert limit_at(plain, 10_001.0) is None


def test_an_interpolated_limit_has_the_origin_of_the_nearest_row(make):
    plain = make(speeds={"VNE": interpolated(BY_ALTITUDE["VNE"])})
    altitudes = (0.0, 1900.0, 2100.0, 6900.0, 7100.0)
    nearest = [limit_at(plain, altitude).entry.altitude for altitude in altitudes]
    assert nearest == [0, 0, 4000, 4000, 10_000]


def test_rows_by_altitude_stand_beside_a_limit_for_all_altitudes(make):
    rows = [{"ias": 155, "cas": 152}, *BY_ALTITUDE["VNE"]]
    plain = make(speeds={"VNE": rows})
    assert limit_at(plain, 0.0).cas == 152.0
    assert limit_at(plain, 10_000.0).cas == pytest.approx(119.2)


def test_above_the_last_row_there_is_no_limit(make):
    plain = make(speeds=BY_ALTITUDE)
    assert limit_at(plain, 10_001.0) is None
    assert last_row(plain).altitude == 10_000
    assert last_row(make()) is None


def test_the_limit_that_ends_first_is_the_last_row(make):
    rows = {"VNE": BY_ALTITUDE["VNE"], "VMO": [{"altitude": 9000, "ias": 150}]}
    turbine = make(speeds={**TURBINE, **rows, "MMO": {"mach": 0.5}, "VNE": None}, kind="turbine")
    assert last_row(turbine).altitude == 9000


def test_a_row_alone_holds_up_to_its_altitude(make):
    plain = make(speeds={"VNE": {"altitude": 4000, "ias": 150}})
    assert limit_at(plain, 4000.0).cas == pytest.approx(148.0)
    assert limit_at(plain, 3999.0).cas == pytest.approx(148.0)
    assert limit_at(plain, 4001.0) is None


def test_above_a_table_by_altitude_no_other_limit_takes_its_place(make):
    """VMO ends at 10,000 ft; MMO alone would allow more than any manual said."""
    rows = [{"altitude": 0, "ias": 160}, {"altitude": 10000, "ias": 120}]
    turbine = make(speeds={**TURBINE, "VMO": rows}, kind="turbine")
    assert limit_at(turbine, 10_000.0).cas == pytest.approx(119.2)
    assert limit_at(turbine, 10_001.0) is None
    assert math.isnan(crossover_altitude(turbine))


@pytest.mark.parametrize("ias", [120, 180])
def test_an_entry_in_ias_and_tas_limits_both(make, ias):
    """At 8,000 ft 180 kt TAS is some 160 kt CAS; 120 kt IAS is below and 180 above that."""
    plain = make(speeds={"VNE": {"ias": ias, "tas": 180}})
    limit = limit_at(plain, 8000.0)
    assert limit.quantity == ("ias" if ias == 120 else "tas")
    assert limit.cas == pytest.approx(min(100 + 0.96 * (ias - 100), cas_of_tas(180, 8000.0)))


def test_a_tas_by_altitude_is_linear_and_a_cas_where_the_manual_says_so(make):
    for quantity, cas in (("tas", cas_of_tas(190, 5000.0)), ("cas", 190.0)):
        rows = [{"altitude": 0, quantity: 200}, {"altitude": 10000, quantity: 180}]
        given = rows if quantity == "tas" else interpolated(rows)
        limit = limit_at(make(speeds={"VNE": given}), 5000.0)
        assert (limit.quantity, limit.value) == (quantity, 190.0)
        assert limit.cas == pytest.approx(cas)
    assert limit_at(make(speeds={"VNE": rows}), 5000.0).value == 180.0


def test_a_limit_outside_the_calibration_table_leaves_no_other_to_fly_by(make):
    """The table ends at 200 kt IAS: whether 210 is below the TAS limit is not known."""
    plain = make(speeds={"VNE": [{"ias": 210}, {"tas": 400, "from altitude": 3000}]})
    assert limit_at(plain, 10_000.0) is None


def test_vmo_and_mmo_that_do_not_meet_have_no_crossover(make):
    slow = make(speeds={**TURBINE, "VMO": {"ias": 110, "cas": 60}, "MMO": {"mach": 0.9}},
                kind="turbine")  # fmt: skip
    assert math.isnan(crossover_altitude(slow))
    unknown = make(speeds={**TURBINE, "VMO": {"ias": 210}}, kind="turbine")
    assert math.isnan(crossover_altitude(unknown))


@pytest.mark.parametrize(
    "speeds",
    [
        {"VMO": [{"ias": 190}, {"ias": 180, "from altitude": 5000}]},
        {"MMO": [{"mach": 0.4, "when": "doors on"}, {"mach": 0.38, "when": "doors off"}]},
        {"VMO": {"ias": 190, "from altitude": 5000}},
        {"MMO": {"mach": 0.4, "from altitude": 5000}},
        {"VMO": {"ias": 190, "altitude": 5000}},
    ],
)
def test_only_limits_for_all_altitudes_have_a_crossover(make, speeds):
    assert math.isnan(crossover_altitude(make(speeds={**TURBINE, **speeds}, kind="turbine")))


def test_rows_in_ias_are_read_in_ias_though_they_give_cas_too(make):
    """Between 160 and 120 kt IAS is 140, by the table 138.4 kt CAS; between the CAS is 132.5."""
    rows = [{"altitude": 0, "ias": 160, "cas": 150}, {"altitude": 10000, "ias": 120, "cas": 115}]
    limit = limit_at(make(speeds={"VNE": interpolated(rows)}), 5000.0)
    assert (limit.quantity, limit.cas) == ("ias", pytest.approx(138.4))
    limit = limit_at(make(speeds={"VNE": rows}), 10_000.0)
    assert (limit.quantity, limit.cas) == ("ias", 115.0)


def test_below_the_altitude_that_an_airspeed_begins_at_there_is_none(make):
    plain = make(speeds={"VNE": {"ias": 180, "from altitude": 8000}})
    assert limit_at(plain, 7999.0) is None
    assert limit_at(plain, 8000.0).quantity == "ias"


# -- what the indicator may show -------------------------------------------------------------------


def bench(correction: int, unit: str = "kt") -> dict:
    """An airframe whose indicator reads one thing off throughout, by its bench card."""
    card = {"page": "bench card", "indicated": [20, 300], "correction": [correction] * 2}
    return {"instrument correction": card, "indicator": {"unit": unit}}


@pytest.mark.parametrize(("correction", "shown"), [(5, 175.0), (0, 180.0), (-5, 180.0)])
def test_a_bench_card_only_tightens_a_limit_in_ias(make, correction, shown):
    plain = make(airframe=bench(correction))
    (entry,) = plain.definition.speeds["VNE"]
    assert shown_limit(plain, entry) == pytest.approx(shown)
    assert most_shown(plain, limit_at(plain, 0.0)) == pytest.approx(shown)
    assert highest_limit(plain) == pytest.approx(shown)


def test_a_limit_is_shown_in_the_indicators_unit(make):
    """180 kt are 207.1 mph, by the definitions of the two miles."""
    plain = make(airframe={"indicator": {"unit": "mph"}})
    (entry,) = plain.definition.speeds["VNE"]
    assert shown_limit(plain, entry) == pytest.approx(180 * 1852 / 1609.344)


def test_a_limit_in_cas_goes_through_the_table_of_its_flaps_and_the_bench_card(make):
    """By the table 148 kt CAS are 150 kt IAS, which the pointer shows as 148; 5 of that as 153."""
    plain = make(speeds={"VNE": {"cas": 148}}, airframe=bench(2))
    (entry,) = plain.definition.speeds["VNE"]
    assert shown_limit(plain, entry) == pytest.approx(148.0)
    widened = make(speeds={"VNE": {"cas": 148}}, airframe=bench(-3))
    assert shown_limit(widened, widened.definition.speeds["VNE"][0]) == pytest.approx(153.0)
    flaps = make(speeds={"VFE": {"flaps": 40, "cas": 74}})  # half way from 46 to 102
    assert shown_limit(flaps, flaps.definition.speeds["VFE"][0]) == pytest.approx(70.0)


def test_a_limit_in_tas_or_mach_is_not_shown_at_all_altitudes(make):
    plain = make(speeds=TAS_FROM_8000)
    assert math.isnan(shown_limit(plain, plain.definition.speeds["VNE"][1]))
    assert math.isnan(highest_limit(make(speeds={"VNE": {"tas": 180}})))


def test_what_may_be_shown_at_a_limit_by_tas_goes_through_table_and_bench_card(make):
    plain = make(speeds=TAS_FROM_8000, airframe=bench(4))
    limit = limit_at(plain, 9000.0)
    assert limit.quantity == "tas"
    ias = 100 + (limit.cas - 100) / 96 * 100
    assert most_shown(plain, limit) == pytest.approx(ias - 4)


@pytest.mark.parametrize(("correction", "shown"), [(5, 135.0), (-5, 140.0)])
def test_between_rows_a_bench_card_widens_nothing_either(make, correction, shown):
    """Half way from 160 at sea level to 120 at 10,000 ft, where the manual interpolates."""
    rows = [{"altitude": 0, "ias": 160}, {"altitude": 10000, "ias": 120}]
    plain = make(speeds={"VNE": interpolated(rows)}, airframe=bench(correction))
    assert most_shown(plain, limit_at(plain, 5000.0)) == pytest.approx(shown)


def test_the_highest_limit_is_the_highest_of_those_that_hold_from_the_ground(make):
    """Of rows by altitude the fastest; not one that begins higher up, nor one that is not shown."""
    assert highest_limit(make(speeds=BY_ALTITUDE)) == pytest.approx(160.0)
    later = {"VNE": [{"ias": 150}, {"ias": 190, "from altitude": 5000}]}
    assert highest_limit(make(speeds=later)) == pytest.approx(150.0)
    tas = {"VNE": [{"tas": 180}, {"ias": 150}]}
    assert highest_limit(make(speeds=tas)) == pytest.approx(150.0)
    turbine = make(speeds=TURBINE, kind="turbine")
    assert highest_limit(turbine) == pytest.approx(190.0)


def test_a_limit_may_fall_from_its_last_row_on(make):
    """160 kt up to 4,000 ft, then 4 kt less for each 1,000 ft; so there is no last altitude."""
    rows = [{"altitude": 4000, "ias": 160, "less": 4, "for each": 1000}]
    plain = make(speeds={"VNE": rows})
    for altitude, ias in ((0, 160), (4000, 160), (6500, 150), (14_000, 120)):
        limit = limit_at(plain, float(altitude))
        assert limit.value == pytest.approx(ias)
        assert limit.cas == pytest.approx(100 + (ias - 100) * 0.96)
    assert last_row(plain) is None


@pytest.mark.parametrize("lacking", ["altitude", "less", "for each"])
def test_a_limit_falls_by_what_from_where(make, lacking):
    row = {"altitude": 4000, "ias": 160, "less": 4, "for each": 1000}
    del row[lacking]
    with pytest.raises(DefinitionError, match="less goes with for each and altitude"):
        make(speeds={"VNE": row})


@pytest.mark.parametrize(
    ("sense", "correction", "shown"),
    [
        ("minimum", 3, 60.0),
        ("minimum", -3, 63.0),
        ("maximum", 3, 57.0),
        ("maximum", -3, 60.0),
        ("target", 3, 57.0),
        ("target", -3, 63.0),
    ],
)
def test_a_bench_card_widens_neither_end(make, sense, correction, shown):
    """An indicator that needs +3 shows 57 at 60; a minimum stays at 60, a maximum does not."""
    assert not_widened(make(airframe=bench(correction)), 60.0, sense) == shown


@pytest.mark.parametrize("entry", [{"tas": 180}, {"mach": 0.3}, {"ias": 150, "altitude": 4000}])
def test_a_limit_in_tas_or_mach_or_at_an_altitude_falls_with_it(make, entry):
    assert falls_with_altitude(make(speeds={"VNE": entry}))


def test_of_limits_less_than_a_knot_apart_the_lower_holds(make):
    near = {
        "VNE": [
            {"ias": 180, "cas": 177.4, "when": "doors on"},
            {"ias": 180, "cas": 177.1, "when": "doors off"},
        ]
    }
    assert limit_at(make(speeds=near), 0.0).cas == 177.1


def test_the_last_row_may_be_at_sea_level(make):
    """That of MMO is at 0 ft, that of VMO at 1 ft, which is higher."""
    rows = {"VMO": {"altitude": 1, "ias": 150}, "MMO": {"altitude": 0, "mach": 0.3}}
    turbine = make(speeds={**TURBINE, **rows}, kind="turbine")
    assert last_row(turbine) is turbine.definition.speeds["MMO"][0]


def test_rows_of_one_altitude_may_limit_in_two_quantities(make):
    """At 10,000 ft 150 kt TAS is some 130 kt CAS, less than 140 kt IAS, by the table 138.4."""
    rows = [
        {"altitude": 10_000, "tas": 150},
        {"altitude": 10_000, "ias": 140},
        {"altitude": 0, "ias": 160},
    ]
    plain = make(speeds={"VNE": rows})
    assert limit_at(plain, 10_000.0).cas == pytest.approx(cas_of_tas(150, 10_000.0))
    assert limit_at(plain, 0.0).quantity == "tas"  # the first row holds below itself
    assert limit_at(plain, 0.0).cas == pytest.approx(150.0)


def test_a_limit_in_cas_goes_through_the_table_of_its_gear(make):
    """79 kt CAS lie half way from 56 to 102 with the gear down: 75 kt IAS; up 77 kt are 75."""
    tables = [
        {"gear": "up", "ias": [50, 100, 200], "cas": [54, 100, 196]},
        {"gear": "down", "ias": [50, 100], "cas": [56, 102]},
    ]
    speeds = {"VLE": {"cas": 79}, "VLO": {"cas": 79, "gear": "down"}, "VNO": {"cas": 77}}
    plain = make(calibration=tables, speeds=speeds)
    vle, vlo, vno = (plain.definition.speeds[name][0] for name in speeds)
    assert shown_limit(plain, vle, "down") == pytest.approx(75.0)
    assert shown_limit(plain, vlo) == shown_limit(plain, vlo, "up") == pytest.approx(75.0)
    assert shown_limit(plain, vno) == pytest.approx(75.0)
