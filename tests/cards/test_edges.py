"""Where a table ends: what a card says of cases that formulas and manuals do not reach."""

import pytest

from cardgen.air import atmosphere
from cardgen.cards.altitude_limits import altitude_limits_table
from cardgen.cards.card import make_document
from cardgen.cards.cruise_between import cruise_at_tables, economy_tables
from cardgen.cards.speeds import speeds_table
from cardgen.cards.stall import stall_table
from cardgen.cards.true_airspeed import factor_table, round_speeds, true_airspeed_table
from cardgen.cards.wind import crosswind_limit_table, ground_speed_table
from cardgen.definition.group import validated
from cardgen.definition.model import School
from cardgen.definition.reading import parse_yaml
from cardgen.words.english import ENGLISH
from tests.reader import DASH, Card, Table

WIDE = [{"ias": [30, 600], "cas": [30, 600]}]


def school(grid: str, kind: str = "single-engine", more: str = "") -> School:
    text = f"name: Test school\nreference speeds: {{{kind}: {{{grid}}}}}\n{more}"
    return validated(School, parse_yaml(text.encode(), "school.yaml"))


PLAIN_GRID = "ias: [60], altitude: [0], oat: [0]"


def read(make_table, aircraft, of_school=None) -> Table:
    """A table as its reader sees it, or the first of several."""
    made = make_table(aircraft, of_school or school(PLAIN_GRID))
    return Table(made[0] if isinstance(made, list) else made)


def texts(table) -> dict[str, list[str]]:
    """Each row's cells, by its heading."""
    return {row[0].text: [cell.text for cell in row[1:]] for row in table.rows}


# -- true airspeed -------------------------------------------------------------------------------


def test_a_cell_as_fast_as_sound_is_a_dash_and_the_others_stand(make):
    """At sea level 350 kt are Mach 0.53; at 41,000 ft, by ISA 0.1776 of the pressure, Mach 1.09.

    Impact over static pressure is ((1 + 0.2 * 0.529 ** 2) ** 3.5 - 1) / 0.1776 = 1.19, and that
    of Mach 1 is 1.2 ** 3.5 - 1 = 0.893.
    """
    plain = make(calibration=WIDE, speeds={"VNE": {"ias": 500}})
    table = read(
        true_airspeed_table, plain, school("ias: [350], altitude: [0, 41000], oat: [-55, 15]")
    )
    assert texts(table)["0"] == ["", "350"]  # -56 C does not occur at sea level, nor 15 up there
    assert texts(table)["41,000"] == [DASH, ""]
    assert any("fast as sound" in note for note in table.notes)


def test_a_school_whose_grid_is_too_fast_for_one_type_still_has_its_card(make):
    plain = make(calibration=WIDE, speeds={"VNE": {"ias": 500}})
    grid = "ias: [350], tas: [590], altitude: [0, 41000], oat: [-55, 15]"
    card = Card(make_document(plain, school(grid)))
    assert texts(card.table("airspeed-for-tas"))["41,000"][0] == DASH
    assert not any("fast as sound" in note for note in card.table("speeds").notes)


def test_reference_speeds_that_round_to_the_same_give_one_block(make):
    """60 and 61 kt are both 70 mph, to the nearest 5."""
    plain = make(airframe={"indicator": {"unit": "mph"}})
    grid = school("ias: [60, 61], altitude: [0], oat: [0]").reference_speeds["single-engine"]
    assert round_speeds(plain, grid, grid.ias) == [70.0]


def test_altitudes_keep_their_sign_and_their_decimals(make):
    table = read(factor_table, make(), school("ias: [60], altitude: [-500, 10500.5], oat: [0]"))
    assert [row[0].text for row in table.rows] == ["−500", "10,500.5"]


def test_without_a_known_speed_nothing_is_said_of_compressibility(make):
    table = read(factor_table, make(), school("ias: [20], altitude: [0], oat: [0]"))
    assert table.notes == ()


# -- wind ----------------------------------------------------------------------------------------

SLOW = [{"ias": [20, 60], "cas": [20, 60]}]


def test_a_headwind_as_fast_as_the_aircraft_has_a_dash(make):
    table = read(ground_speed_table, make(calibration=SLOW))
    found = texts(table)
    assert found["30"] == [DASH, "10", "20", "40", "50", "60"]
    assert found["40"] == ["10", "20", "30", "50", "60", "70"]
    assert any("fast as the aircraft" in note for note in table.notes)


def test_a_fast_aircraft_in_kmh_has_few_rows(make):
    units = {"speed": "km/h", "altitude": "m", "weight": "kg"}
    fast = make(units=units, calibration=[{"ias": [60, 900], "cas": [60, 900]}])
    assert 4 <= len(list(read(ground_speed_table, fast).rows)) <= 10


def test_a_crosswind_is_named_as_entered_and_winds_are_in_knots(make):
    """15 mph are 13.03 kt."""
    units = {"speed": "mph", "altitude": "ft", "weight": "lb"}
    table = read(crosswind_limit_table, make(units=units, crosswind={"demonstrated": 15}))
    assert table.title == "Maximum demonstrated crosswind, 15 mph"
    assert texts(table)["90°"] == ["13"]
    assert table.columns[1].unit == "kt"


# -- limits --------------------------------------------------------------------------------------


def test_above_a_manuals_limits_by_altitude_there_is_no_row_but_a_note(make):
    rows = [{"altitude": 0, "ias": 160}, {"altitude": 10000, "ias": 120}]
    table = read(
        altitude_limits_table,
        make(speeds={"VNE": rows}),
        school("ias: [60], altitude: [5000, 12000], oat: [0]"),
    )
    assert texts(table)["5000"][0] == "120"
    assert list(texts(table)) == ["5000"]
    assert table.notes[-1] == "Not above 10,000 ft: the manual gives no limit higher."


def test_a_limit_in_cas_is_what_an_mph_indicator_shows_of_it(make):
    """147 kt CAS are 100 + 47 / 0.96 = 148.96 kt IAS by the table, which is 171.4 mph."""
    mph = {"indicator": {"unit": "mph"}}
    rows = read(speeds_table, make(airframe=mph, speeds={"VNE": {"cas": 147}})).rows
    (vne,) = (row for row in rows if row[0].text == "VNE")
    assert vne[1].text == "171"
    rows = read(speeds_table, make(airframe=mph, speeds={"VNE": {"cas": 250}})).rows
    (vne,) = (row for row in rows if row[0].text == "VNE")
    assert (vne[1].text, vne[2].text) == ("", "250 kt CAS")  # no place of the pointer is known


# -- stall ---------------------------------------------------------------------------------------


def test_all_of_the_manuals_stall_table_is_printed(make):
    """A weight that is no other's, and a flap setting that has no V-speed."""
    stall = {
        "weight": 1900,
        "bank": [0, 60],
        "rows": [
            {"flaps": 0, "ias": [50, 72], "cas": [54, 76]},
            {"flaps": 20, "ias": [45, 65], "cas": [50, 71]},
        ],
    }
    table = read(stall_table, make(stall=stall))
    banks = [column.of.group.values["bank"].value for column in table.columns[1::2]]
    assert [block.heading.partition(";")[0] for block in table.blocks] == [
        "Flaps 0", "Flaps 20", "Flaps 40"
    ]  # fmt: skip
    for block, first in zip(table.blocks[:2], (["50", "72"], ["45", "65"]), strict=True):
        rows = {row[0].text: row for row in block.rows}
        shown = [rows["1900"][1 + 2 * banks.index(bank)].text for bank in (0, 60)]
        assert shown == first
    assert [cell.text for cell in table.blocks[1].rows[0][1:3]] == [DASH, DASH]  # 2000 lb


def test_a_schools_banks_are_computed_beside_the_manuals(make):
    stall = {
        "weight": 2000,
        "bank": [0, 20],
        "rows": [{"flaps": 0, "ias": [50, 52], "cas": [54, 56]}],
    }
    of_school = school(PLAIN_GRID, more="stall banks: [0, 60]\n")
    table = read(stall_table, make(stall=stall), of_school)
    assert [column.of.group.values["bank"].value for column in table.columns[1::2]] == [0, 20, 60]


# -- cruise --------------------------------------------------------------------------------------


@pytest.mark.parametrize("feet", [1000, 3000, 7000])
def test_a_temperature_at_the_tables_very_end_is_in_it(make, feet):
    """ISA + 20 at the altitude, as its decimals are, is ISA + 20 and no hair beyond."""
    oat = float(atmosphere.temperature(feet * 0.3048)) - 273.15 + 20.0
    cruise = {"columns": ["altitude", "isa", "tas"],
              "rows": [[a, k, 100] for a in (0, 8000) for k in (-20, 20)]}  # fmt: skip
    grid = f"ias: [60], altitude: [0], oat: [0], cruise: {{altitude: [{feet}], oat: [{oat!r}]}}"
    table = read(cruise_at_tables, make(cruise=cruise), school(grid))
    assert texts(table)[str(feet)] == ["100"]


def test_cruise_without_fuel_flow_speaks_of_none(make):
    cruise = {"columns": ["altitude", "isa", "tas"], "rows": [[0, 0, 100], [0, 20, 100]]}
    grid = "ias: [60], altitude: [0], oat: [0], cruise: {altitude: [0], oat: [20]}"
    table = read(cruise_at_tables, make(cruise=cruise), school(grid))
    assert "uel" not in table.how + "".join(column.group + column.also for column in table.columns)
    assert not any("None" in column.group for column in table.columns)
    (gap,) = economy_tables(make(cruise=cruise), school(PLAIN_GRID))
    assert ENGLISH.say(gap.missing) == "the cruise table gives no fuel flow"
