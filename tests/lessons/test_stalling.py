"""The stall of a case: as the tables print it, and by the rule of the square root."""

import math

import pytest

from cardgen.document.record import Document
from cardgen.lessons.lines import line
from cardgen.lessons.reckoning import Case, Reckoning, reckon
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of


def stalled(card: Document, flaps: str, gear: str, weight: float, bank: float) -> Reckoning:
    return reckon(card, Case("ias", 100.0, flaps, gear=gear, weight=weight, bank=bank))


@pytest.mark.parametrize(
    "registration", sorted(path.stem.upper() for path in (DEMO / "fleet").iterdir())
)
def test_every_cell_of_the_stall_table_is_what_the_case_is_reckoned_to(registration):
    """The same question put to a table and to a case has one answer."""
    card = documents_of(DEMO)[registration]
    table = card.table("stall")
    asked = 0
    for row in table.rows:
        setting, *gear, weight = row.id.split("/")
        flaps = setting.removeprefix("flaps-")
        for column, cell in list(zip(table.columns, row.cells, strict=True))[1:]:
            _, bank, kind = column.id.split("-")
            at = "".join(gear).removeprefix("gear-"), float(weight.removeprefix("weight-"))
            worked = stalled(card, flaps, *at, float(bank)).stall
            said = line(ENGLISH, worked[0 if kind == "indicated" else 1]).number
            printed = ENGLISH.figure(cell).strip("()") or "–"
            assert said == printed, (row.id, column.id)
            asked += 1
    assert asked >= 32


def test_the_working_of_a_stall_in_a_bank_is_that_of_the_board(make):
    """VS1 60 at 2500 lb; at 1600 lb and 60 degrees it is 60 x 0.8 x 1.41421, by hand."""
    speeds = {"VS1": {"cas": 60, "weight": 2500}, "VNE": {"ias": 200}}
    card = _document(make(speeds=speeds, calibration=[{"ias": [20, 300], "cas": [20, 300]}]))
    worked = stalled(card, "0", "", 1600.0, 60.0)
    assert worked.values["stall_calibrated"] == pytest.approx(67.8823, abs=1e-4)
    assert worked.values["load_factor"] == pytest.approx(2.0)
    assert worked.values["stall_margin"] == pytest.approx(100 - 67.8823, abs=1e-4)
    assert ENGLISH.text(worked.stall[0].working) == "60 × √(1600 ÷ 2500) × √2.000 = 67.9 kt"
    assert line(ENGLISH, worked.stall[0]).number == "68"  # a minimum goes up
    assert line(ENGLISH, worked.stall[2]).number == "+32"  # 32.1, and down
    assert line(ENGLISH, worked.stall[2]).reason == "1.47 times the stall speed in CAS"


def test_above_the_heaviest_weight_no_stall_is_known(make):
    speeds = {"VS1": {"cas": 60, "weight": 2000}, "VNE": {"ias": 200}}
    worked = stalled(_document(make(speeds=speeds)), "0", "", 2400.0, 0.0)
    assert worked.values["stall_speed"] is None
    assert line(ENGLISH, worked.stall[0]).number == "–"
    assert worked.stall[0].working is None


@pytest.mark.parametrize(
    ("entries", "flaps", "weight", "said"),
    [
        # The maximum weight is 2,600 lb.
        ([{"cas": 60, "weight": 2000}], "0", 2400.0, ["note-no-stall-so-heavy"]),
        ([{"cas": 60, "weight": 2000}], "0", 2700.0, ["note-too-heavy", "note-no-stall-so-heavy"]),
        ([{"cas": 60, "weight": 2600}], "0", 2700.0, ["note-too-heavy"]),
        ([{"cas": 60, "weight": 2600}], "10", 2400.0, ["note-no-stall"]),
        ([{"cas": 40, "weight": 2600}], "0", 2400.0, ["note-stall-in-cas"]),
        ([{"cas": 60, "weight": 2600}], "0", 2600.0, []),
    ],
)
def test_why_no_stall_is_known_and_that_an_aircraft_is_too_heavy_is_said(
    make, entries, flaps, weight, said
):
    speeds = {"VS1": entries, "VNE": {"ias": 200}}
    aircraft = make(speeds=speeds, weights={"maximum": 2600, "others": []})
    worked = stalled(_document(aircraft), flaps, "", weight, 0.0)
    stalls = [one for one in worked.notes if "stall" in one.id or "heavy" in one.id]
    assert [one.id for one in stalls] == said


def _document(aircraft) -> Document:
    from tests.lessons.test_reckoning import BARE, reckonable

    return reckonable(aircraft, BARE)


def test_without_a_weight_no_stall_is_reckoned():
    card = documents_of(DEMO)["ZZ-DUA"]
    worked = reckon(card, Case("ias", 100.0, "0"))
    assert worked.stall == []
    assert worked.values["stall_speed"] is None


def test_the_limits_in_force_are_those_of_the_setting_lowest_first():
    card = documents_of(DEMO)["ZZ-TUA"]  # VNE 203, VFE 120 at flaps 35, VLE 140
    worked = reckon(card, Case("ias", 130.0, "35", gear="down", pressure_altitude=3000.0))
    found = [(one.speed, math.floor(one.limit.value)) for one in worked.in_force]
    assert found == [("VFE", 120), ("VLE", 140), ("VNE", 203)]
    assert [one.speed for one in worked.in_force if one.is_passed] == ["VFE"]


def test_the_table_of_the_gear_is_read_both_ways(make):
    """IAS 100 is CAS 98 with the gear up and 95 with it down, whichever way it is asked."""
    tables = [
        {"gear": gear, "ias": [40, 100, 200], "cas": [40, cas, 200]}
        for gear, cas in (("up", 98), ("down", 95))
    ]
    card = _document(make(calibration=tables))
    for gear, cas in (("up", 98.0), ("down", 95.0)):
        there = reckon(card, Case("ias", 100.0, "0", gear=gear)).values
        back = reckon(card, Case("cas", cas, "0", gear=gear)).values
        assert there["calibrated_airspeed"] == pytest.approx(cas)
        assert back["indicated_airspeed"] == pytest.approx(100.0)
