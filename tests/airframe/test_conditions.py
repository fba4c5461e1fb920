"""A figure under a condition in words, such as a glider on tow, stands beside those in general.

It is printed with its condition and takes the place of no other figure, since a case does not know
whether it is so. Common practice: the lines of a manual's table of limitations.
"""

import pytest

from cardgen.airframe.limits import highest_limit, limit_at
from cardgen.cards.card import make_document
from cardgen.cards.indicated import beyond_at_any_altitude
from cardgen.definition.fleet import read_fleet
from cardgen.lessons.lines import limit_passed
from cardgen.lessons.reckoning import Case, reckon
from cardgen.words.english import ENGLISH
from tests.plain import TYPE

VGS = {"when": "vortex generators fitted"}
TOW = {"when": "glider on tow"}
WEIGHTS = {"weights": {"maximum": 2000, "others": [1600]}}


def either_way(*entries):
    """The entries as they stand, and turned round: which one comes first is chance."""
    return pytest.mark.parametrize("entries", [[*entries], [*reversed(entries)]])


@pytest.fixture
def document(make, tmp_path):
    return lambda **given: make_document(make(**given), read_fleet(tmp_path).school)


def figures(document, table: str, column: str) -> list[float | None]:
    found = document.table(table)
    at = [one.id for one in found.columns].index(column)
    cells = [row.cells[at] for row in found.rows]
    return [cell.quantity.value if cell.quantity else None for cell in cells]


@either_way({"ias": 47, "cas": 51, **VGS}, {"ias": 50, "cas": 54})
def test_a_stall_is_reckoned_from_the_figure_in_general(make, document, entries):
    plain = make(speeds={"VS1": entries})
    assert plain.stall_cas("0", 2000.0, 0.0) == 54.0
    assert [one.cas for one in plain.stall_speeds if one.flaps == "0"] == [54.0]
    assert plain.stall_entries["0"].cas == 54.0
    card = document(speeds={"VS1": entries}, **WEIGHTS)
    assert figures(card, "stall", "bank-0-cas")[:2] == pytest.approx([54.0, 48.299], abs=1e-3)
    worked = reckon(card, Case("ias", 80.0, "0", weight=2000.0))
    assert worked.values["stall_speed"] == 50.0


@either_way({"ias": 40, "cas": 46, "when": "aft CG"}, {"ias": 43, "cas": 49, "when": "forward CG"})
def test_where_each_stall_has_a_condition_the_highest_is_taken(make, document, entries):
    assert make(speeds={"VS0": entries}).stall_cas("40", 2000.0, 0.0) == 49.0
    worked = reckon(document(speeds={"VS0": entries}), Case("ias", 80.0, "40", weight=2000.0))
    assert worked.values["stall_speed"] == 43.0


@either_way({"ias": 130, "when": "tips fitted"}, {"ias": 110})
def test_a_manoeuvring_speed_by_weight_is_reckoned_from_the_figure_in_general(document, entries):
    card = document(speeds={"VA": entries}, **WEIGHTS)
    heavy, light = figures(card, "manoeuvring", "indicated")
    assert heavy == 110.0
    assert 97 < light < 99  # by the root of 1600 / 2000


@either_way({"ias": 130, "when": "tips fitted"}, {"ias": 120, "when": "tips off"})
def test_where_each_manoeuvring_speed_has_a_condition_the_lowest_is_taken(document, entries):
    card = document(speeds={"VA": entries}, **WEIGHTS)
    assert figures(card, "manoeuvring", "indicated")[0] == 120.0


@either_way({"ias": 180}, {"ias": 110, **TOW})
def test_a_limit_under_a_condition_bounds_no_table(make, entries):
    plain = make(speeds={"VNE": entries, "VNO": None})
    limit = limit_at(plain, 0.0)
    assert limit is not None
    assert limit.value == highest_limit(plain) == 180.0
    assert not beyond_at_any_altitude(plain, 150.0, "0")
    assert beyond_at_any_altitude(plain, 181.0, "0")


@either_way({"flaps": 40, "ias": 90}, {"flaps": 40, "ias": 70, "when": "with the pod"})
def test_a_flap_limit_under_a_condition_bounds_no_table(make, entries):
    plain = make(speeds={"VFE": entries})
    assert not beyond_at_any_altitude(plain, 80.0, "40")
    assert beyond_at_any_altitude(plain, 91.0, "40")


@either_way({"ias": 180}, {"ias": 110, **TOW})
def test_a_case_is_told_a_limit_with_its_condition_which_is_not_in_force(document, entries):
    card = document(speeds={"VNE": entries, "VNO": None})
    slow, between, fast = (reckon(card, Case("ias", at, "0")) for at in (110.0, 111.0, 181.0))
    assert slow.passed == []
    (one,) = between.passed
    assert not one.binding
    assert limit_passed(ENGLISH, one) == (
        "Above VNE, 110 kt: never to be exceeded. That is for: glider on tow."
    )
    assert [one.binding for one in fast.passed] == [True, False]
    assert [one.limit.value for one in between.in_force] == [180.0]


def test_with_other_flaps_or_gear_a_limit_under_a_condition_is_not_told(document):
    entries = [{"flaps": 40, "ias": 90}, {"flaps": 40, "ias": 70, "when": "with the pod"}]
    card = document(speeds={"VFE": entries})
    assert [one.bound.when for one in reckon(card, Case("ias", 80.0, "40")).passed] == [
        "with the pod"
    ]
    assert reckon(card, Case("ias", 80.0, "20")).passed == []


def test_a_limit_that_has_but_figures_with_conditions_is_in_force_by_the_lowest(document):
    entries = [{"ias": 180, "when": "day"}, {"ias": 110, **TOW}]
    card = document(speeds={"VNE": entries, "VNO": None})
    assert [one.limit.value for one in reckon(card, Case("ias", 120.0, "0")).passed] == [110.0]


# -- a supplement's


def laid_over(make, new, *of_the_type) -> list[tuple[float, str | None]]:
    """The figures of VNE and their conditions, with one of a supplement laid over the type's."""
    supplement = {"title": "Towing", "number": "S-4", "speeds": {"VNE": new}}
    plain = make(speeds={"VNE": [*of_the_type]}, airframe={"supplements": [supplement]})
    return [(float(one.ias), one.when) for one in plain.definition.speeds["VNE"]]


def test_a_supplements_figure_under_a_condition_stands_beside_the_manuals(make):
    found = laid_over(make, {"ias": 110, **TOW}, {"ias": 180})
    assert found == [(110.0, "glider on tow"), (180.0, None)]


def test_a_supplements_figure_restates_that_of_its_own_condition(make):
    found = laid_over(make, {"ias": 105, **TOW}, {"ias": 180}, {"ias": 110, **TOW})
    assert found == [(105.0, "glider on tow"), (180.0, None)]


def test_a_supplements_figure_in_general_takes_the_place_of_all(make):
    assert laid_over(make, {"ias": 150}, {"ias": 180}, {"ias": 110, **TOW}) == [(150.0, None)]


def test_a_supplements_stall_under_a_condition_leaves_the_manuals_table(make):
    stall = {"bank": [0, 30], "weight": 2000, "rows": [{"flaps": 40, "ias": [41, 44]}]}
    assert TYPE["flaps"][-1] == 40
    supplement = {
        "title": "Floats",
        "number": "S-5",
        "speeds": {"VS0": {"ias": 38, "when": "floats empty"}},
    }
    kept = make(airframe={"supplements": [supplement]}, stall=stall)
    assert kept.definition.stall is not None
    del supplement["speeds"]["VS0"]["when"]
    assert make(airframe={"supplements": [supplement]}, stall=stall).definition.stall is None
