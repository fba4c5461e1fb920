"""What a manual's corrections come to, by gear and static source; worked by hand beside each."""

import math

import pytest

from cardgen.definition.places import Figure

UP = {"gear": "up", "ias": [50, 100, 200], "add to ias": [4, 0, -4]}
DOWN = {"gear": "down", "ias": [50, 100], "cas": [56, 102]}
FORTY = {"flaps": 40, "cas": [46, 102], "subtract from cas": [6, 2]}


def test_corrections_are_added_or_subtracted_at_the_points_and_linear_between(make):
    """At 75 kt, halfway from +4 to 0, +2; at 150, -2. CAS 74 is halfway from 46 to 102."""
    plain = make(calibration=[UP, DOWN, FORTY])
    assert [plain.cas_from_ias(ias) for ias in (50.0, 75.0, 150.0)] == [54.0, 77.0, 148.0]
    assert plain.ias_from_cas(74.0, "40") == 70.0
    assert plain.cas_from_ias(40.0, "40") == 46.0
    assert math.isnan(plain.cas_from_ias(39.9, "40"))


def test_a_gear_has_its_own_table(make):
    plain = make(calibration=[DOWN, UP, FORTY])
    assert plain.cas_from_ias(50.0, gear="up") == 54.0
    assert plain.cas_from_ias(50.0, gear="down") == 56.0
    assert plain.cas_from_ias(50.0) == 54.0  # flaps are in: usually so is the gear
    assert plain.cas_from_ias(70.0, "40", gear="down") == plain.cas_from_ias(70.0, "40") == 74.0


def test_with_landing_flaps_the_gear_is_usually_down(make):
    up, down = ({**one, "flaps": 40} for one in (UP, DOWN))
    plain = make(calibration=[up, down])
    assert plain.cas_from_ias(50.0, "40") == 56.0


def test_no_table_of_another_gear_is_taken(make):
    plain = make(calibration=[DOWN])
    assert math.isnan(plain.cas_from_ias(60.0, gear="up"))
    assert plain.cas_from_ias(50.0) == 56.0  # not said, and there is no other


def test_a_v_speed_goes_through_the_table_of_its_gear(make):
    speeds = {"VLE": {"ias": 100}, "VX": {"ias": 100, "gear": "down"}, "VY": {"ias": 100}}
    plain = make(calibration=[UP, DOWN, FORTY], speeds=speeds)

    def cas(name):
        (entry,) = plain.definition.speeds[name]
        return plain.entry_cas(entry, "0", plain.gear_of(name, entry))

    assert [cas(name) for name in ("VLE", "VX", "VY")] == [102.0, 102.0, 100.0]


ALTERNATE = {"static source": "alternate"}


@pytest.mark.parametrize(
    "alternate",
    [
        {"ias": [64, 116], "normal ias": [60, 110]},
        {"ias": [64, 116], "subtract from ias": [4, 6], "gives": "normal IAS"},
        {"ias": [64, 116], "add to ias": [-4, -6], "gives": "normal IAS"},
    ],
)
def test_the_normal_sources_ias_goes_through_its_table(make, alternate):
    """64 is 60, which is CAS 63.2; 116 is 110, which is 109.6; 90 is 85, which is 86.2.

    The normal table bends at 100: that is 64 + 52 * 40 / 50 = 105.6 on the alternate source.
    """
    plain = make(calibration=[{"ias": [50, 100, 200], "cas": [54, 100, 196]},
                              {**ALTERNATE, **alternate}])  # fmt: skip
    for ias, cas in ((64.0, 63.2), (90.0, 86.2), (105.6, 100.0), (116.0, 109.6)):
        assert plain.cas_from_ias(ias, source="alternate") == pytest.approx(cas)
        assert plain.ias_from_cas(cas, source="alternate") == pytest.approx(ias)


def test_where_the_normal_table_does_not_reach_there_is_no_value(make):
    """On the normal source only 50 to 100 kt are known: 54.5 to 106.5 on the alternate one."""
    tables = [
        {"ias": [50, 100], "cas": [54, 100]},
        {**ALTERNATE, "ias": [24, 134], "normal ias": [20, 126]},
    ]
    plain = make(calibration=tables)
    low, high = (24 + 110 * (one - 20) / 106 for one in (50, 100))
    assert plain.cas_from_ias(low + 0.001, source="alternate") == pytest.approx(54.0, abs=0.01)
    assert plain.cas_from_ias(high - 0.001, source="alternate") == pytest.approx(100.0, abs=0.01)
    assert math.isnan(plain.cas_from_ias(low - 0.001, source="alternate"))
    assert math.isnan(plain.cas_from_ias(high + 0.001, source="alternate"))


def test_without_a_normal_table_of_its_flaps_and_gear_there_is_none(make):
    tables = [UP, {**ALTERNATE, "gear": "down", "ias": [60, 90], "normal ias": [58, 87]}]
    assert make(calibration=tables).calibration(source="alternate") is None


@pytest.mark.parametrize(
    "card",
    [
        {"indicated": [50, 150], "true": [52, 147]},
        {"indicated": [50, 150], "add to indicated": [+2, -3]},
        {"indicated": [50, 150], "subtract from indicated": [-2, 3]},
        {"true": [52, 147], "add to true": [-2, 3]},
        {"true": [52, 147], "subtract from true": [2, -3]},
    ],
)
def test_a_bench_card_means_the_same_in_every_form(make, card):
    """At 100 kt shown, halfway: 99.5 kt."""
    plain = make(airframe={"instrument correction": card})
    assert plain.ias_from_indicated(100.0) == pytest.approx(99.5)
    assert plain.indicated_from_ias(147.0) == pytest.approx(150.0)


# -- stall speeds at several weights -------------------------------------------------------------


def test_a_stall_speed_given_at_a_weight_is_used_for_it_and_from_the_next_heavier(make):
    given = [{"ias": 50, "cas": 54}, {"ias": 45, "cas": 49, "weight": 1600}]
    plain = make(speeds={"VS1": given})
    assert plain.stall_cas("0", 2000, 0.0) == 54.0
    assert plain.stall_cas("0", 1600, 0.0) == 49.0
    assert plain.stall_cas("0", 1601, 0.0) == pytest.approx(54 * math.sqrt(1601 / 2000))
    assert plain.stall_cas("0", 1200, 60.0) == pytest.approx(49 * math.sqrt(1200 / 1600 * 2))


def test_above_the_heaviest_weight_that_one_is_given_for_there_is_none(make):
    plain = make(speeds={"VS1": {"ias": 45, "cas": 49, "weight": 1600}})
    assert math.isnan(plain.stall_cas("0", 2000, 0.0))


def test_the_stall_tables_rows_without_bank_serve_as_well(make):
    """The row in IAS is 45 kt with flaps 20, which its table makes 50 kt CAS."""
    stall = {
        "bank": [0, 60],
        "rows": [
            {"flaps": 0, "gear": "down", "weight": 2000, "cas": [57, 81]},
            {"flaps": 20, "weight": 1800, "ias": [45, 65]},
        ],
    }
    plain = make(stall=stall)
    assert plain.stall_cas("0", 2000, 0.0, "down") == 57.0
    assert plain.stall_cas("0", 500, 0.0, "down") == pytest.approx(28.5)
    assert plain.stall_cas("0", 2000, 0.0) == 54.0  # VS1, which says nothing of the gear
    assert plain.stall_cas("0", 2000, 0.0, "up") == 54.0
    assert plain.stall_cas("20", 450, 0.0) == pytest.approx(25.0)
    assert math.isnan(plain.stall_cas("20", 2000, 0.0))


def test_a_speed_that_no_table_brings_to_cas_is_passed_over(make):
    """45 kt with flaps up is below the table; the next heavier one is known."""
    given = [{"ias": 50, "cas": 54}, {"ias": 45, "weight": 1600}]
    plain = make(speeds={"VS1": given})
    assert plain.stall_cas("0", 1600, 0.0) == pytest.approx(54 * math.sqrt(0.8))


def test_the_manuals_points_are_kept_as_they_were_typed(make):
    plain = make(calibration=[{**UP, "ias": [50.5, 100, 200]}])
    table = plain.calibration()
    assert all(isinstance(one, Figure) for one in (*table.ias, *table.cas))
    assert [one.text for one in table.cas] == ["54.5", "100", "196"]


NORMAL = {"ias": [50, 60, 100], "cas": [52, 61, 99]}


def by_normal(make, ias: list[float], normal: list[float]):
    plain = make(calibration=[NORMAL, {**ALTERNATE, "ias": ias, "normal ias": normal}])
    return next((one for one in plain.calibrations if one.static_source == "alternate"), None)


def test_points_of_the_normal_source_are_figures_at_the_places_that_they_come_from(make):
    """70 of the normal source is 61 + 10 * 38 / 40; its bend at 60 stands at 64 here."""
    table = by_normal(make, [54, 74, 104], [50, 70, 100])
    assert [one.text for one in table.cas] == ["52", "70.5", "99"]
    assert [float(one) for one in table.ias] == [54.0, 74.0, 104.0]
    assert [one.place for one in table.cas] == [one[1].place for one in table.given.readings]
    assert list(table.curve.x) == pytest.approx([54, 64, 74, 104])
    assert list(table.curve.y) == pytest.approx([52, 61, 70.5, 99])


def test_points_that_the_normal_table_does_not_reach_are_none(make):
    """Of 40, 60 and 120 only 60 is on it; the curve goes to its ends all the same."""
    table = by_normal(make, [44, 64, 124], [40, 60, 120])
    assert [(float(a), one.text) for a, one in zip(table.ias, table.cas, strict=True)] == [
        (64.0, "61")
    ]
    assert list(table.curve.x) == pytest.approx([54, 64, 104])
    assert list(table.curve.y) == pytest.approx([52, 61, 99])


def test_where_no_point_is_on_the_normal_table_its_ends_are_the_points(make):
    """From 40 to 120 all of it lies between two points; they stand where the table stands."""
    table = by_normal(make, [44, 124], [40, 120])
    assert [one.text for one in table.ias] == ["54", "104"]
    assert [one.text for one in table.cas] == ["52", "99"]
    assert {one.place for one in (*table.ias, *table.cas)} == {table.place}


def test_a_table_apart_from_the_normal_one_is_none(make):
    assert by_normal(make, [34, 44], [30, 40]) is None


def test_tables_of_one_setting_stand_with_the_usual_gears_first(make):
    """One that holds for either is as usual; the rest stand as the manual has them."""
    plain = make(calibration=[DOWN, FORTY, UP])
    assert [(one.flaps, one.gear) for one in plain.calibrations] == [
        ("40", ""),
        ("0", "up"),
        ("0", "down"),
    ]
    assert plain.calibration().place_of("ias") == plain.definition.calibration[2].place_of("ias")
    assert plain.calibration().place_of("ias") != plain.calibration().place


def test_computed_points_have_six_decimals(make):
    """63.2 of the normal source is 61 + 3.2 * 38 / 40 = 64.04; 61.1111111 is 62.055555545."""
    table = by_normal(make, [64, 74, 104], [61.1111111, 63.2, 100])
    assert [one.text for one in table.cas] == ["62.055556", "64.04", "99"]


def test_a_stall_speed_is_that_of_the_gear_asked_for_or_else_of_the_usual_one(make):
    """With flaps up the gear usually is: where nothing is asked that comes first, with flaps down
    the other; where there is one only, that.
    """
    rows = [
        {"flaps": 0, "gear": "down", "cas": [56]},
        {"flaps": 0, "gear": "up", "cas": [55]},
        {"flaps": 40, "gear": "up", "cas": [48]},
        {"flaps": 40, "gear": "down", "cas": [47]},
        {"flaps": 20, "gear": "down", "cas": [51]},
    ]
    stall = {"weight": 2000, "bank": [0], "rows": rows}
    plain = make({"VS0": None, "VS1": None}, stall=stall)
    assert plain.stall_cas("0", 2000, 0.0, "down") == 56.0
    assert plain.stall_cas("0", 2000, 0.0) == 55.0
    assert plain.stall_cas("40", 2000, 0.0) == plain.stall_anchor("40", 2000).cas == 47.0
    assert plain.stall_cas("20", 2000, 0.0) == plain.stall_anchor("20", 2000).cas == 51.0
    assert math.isnan(plain.stall_cas("20", 2000, 0.0, "up"))


def test_a_row_of_the_stall_table_goes_through_the_table_of_its_gear(make):
    """50 kt IAS are 56 kt CAS with the gear down, 54 with it up. VS1 is of either, and is 54."""
    stall = {"weight": 2000, "bank": [0], "rows": [{"gear": "down", "ias": [50]}]}
    plain = make(calibration=[UP, DOWN, FORTY], stall=stall)
    assert plain.stall_cas("0", 2000, 0.0, "down") == 56.0
