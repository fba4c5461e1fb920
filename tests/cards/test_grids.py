"""What a school tabulates: by type beside by kind, and in units of its own.

By definition a foot is 0.3048 m, a knot 1.852 km/h, and 50 °F and 10 °C are one temperature, as
are differences of 18 °F and 10 °C. So a grid in one set of units and the same in the other must
give the very same speeds.
"""

import pytest

from cardgen.cards.altitude_limits import altitude_limits_table
from cardgen.cards.card import make_document
from cardgen.cards.cruise_between import cruise_at_tables
from cardgen.cards.true_airspeed import (
    airspeed_for_tas_table,
    factor_table,
    rule_of_thumb_table,
    true_airspeed_table,
)
from cardgen.definition.fleet import read_fleet
from cardgen.definition.group import validated
from cardgen.definition.model import School
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from tests.definition.test_fleet import faults, spoil
from tests.reader import Table

METRIC = {"speed": "km/h", "altitude": "m", "temperature": "C", "weight": "kg"}
OWN = "ias: [185.2], tas: [277.8], altitude: [304.8, 3048], oat: [-10, 10]"
STATED = (
    "units: {speed: kt, altitude: ft, temperature: F}, "
    "ias: [100], tas: [150], altitude: [1000, 10000], oat: [14, 50]"
)
BY_ISA = {
    "isa: [-10, 10]": OWN.replace("oat", "isa"),
    "isa: [-18, +18]": STATED.replace("oat: [14, 50]", "isa: [-18, +18]"),
}
CALIBRATION = [{"ias": [60, 400], "cas": [64, 396]}]
SPEEDS = {
    "VS0": {"ias": 70},
    "VS1": {"ias": 80},
    "VFE": {"flaps": 40, "ias": 150},
    "VNO": {"ias": 250},
    "VNE": [{"ias": 300}, {"tas": 320, "from altitude": 3000}],
}


def school(grid: str, types: str = "{}") -> School:
    text = f"name: A\nreference speeds: {{single-engine: {{{grid}}}}}\n"
    text += f"reference speeds by type: {types}\n"
    return validated(School, parse_yaml(text.encode(), "school.yaml"))


@pytest.fixture
def metric(make):
    return make(speeds=SPEEDS, units=METRIC, calibration=CALIBRATION, weights={"maximum": 900})


TABLES = (true_airspeed_table, factor_table, rule_of_thumb_table)


def speeds(table: Table) -> list[list[float | None]]:
    return [[cell.value for cell in row[1:]] for row in table.rows]


@pytest.mark.parametrize("make_table", TABLES, ids=lambda one: one.__name__)
@pytest.mark.parametrize("pair", [(OWN, STATED), tuple(BY_ISA.values())], ids=["oat", "isa"])
def test_a_grid_in_units_of_its_own_gives_the_same_figures(make, make_table, pair):
    """The indicator reads knots, so that both have their reference speed of 100 kt round."""
    found = []
    for grid in pair:
        knots = make(
            speeds=SPEEDS,
            units=METRIC,
            calibration=CALIBRATION,
            weights={"maximum": 900},
            airframe={"indicator": {"unit": "kt"}},
        )
        found.append(speeds(Table(make_table(knots, school(grid)))))
    own, stated = found
    assert own
    for row, other in zip(own, stated, strict=True):
        assert row == pytest.approx(other, abs=2e-6)


def test_a_table_stands_in_the_units_that_its_grid_states(metric):
    table = Table(factor_table(metric, school(STATED)))
    assert [row[0].text for row in table.rows] == ["1000", "10,000"]
    assert table.columns[0].unit == "ft"
    assert [one.heading for one in table.columns[1:]] == ["14°F", "50°F"]
    (low, _), *_ = (tuple(row[1:]) for row in table.rows)
    inputs = {one.name: one.value for one in low.origin.inputs}
    assert (inputs["pressure-altitude"].entered, inputs["pressure-altitude"].unit) == ("1000", "ft")
    assert (inputs["oat"].entered, inputs["oat"].unit) == ("14", "F")


def test_a_difference_from_standard_names_its_unit_where_it_is_not_the_manuals(metric):
    table = Table(factor_table(metric, school(BY_ISA["isa: [-18, +18]"])))
    assert [one.heading for one in table.columns[1:]] == ["ISA −18 °F", "ISA +18 °F"]


def test_speeds_of_another_unit_are_made_round_in_the_indicators(metric):
    """100 kt are 185.2 km/h, and 150 kt 277.8."""
    (block,) = Table(true_airspeed_table(metric, school(STATED))).of.blocks
    assert block.id == "indicated-185"
    (block,) = Table(airspeed_for_tas_table(metric, school(STATED))).of.blocks
    assert block.id == "tas-280"


def test_limits_by_altitude_stand_in_the_grids_unit(metric):
    """The limit of 320 km/h TAS from 3000 m up is less airspeed at 10,000 ft than below."""
    stated, own = (
        Table(altitude_limits_table(metric, school(grid))) for grid in (STATED, OWN)
    )  # fmt: skip
    assert [row[0].text for row in stated.rows] == ["1000", "10,000"]
    assert stated.columns[0].unit == "ft"
    low, high = (row[1].value for row in stated.rows)
    assert [low, high] == pytest.approx([row[1].value for row in own.rows], abs=2e-6)
    assert high < low == 300.0


def test_a_cruise_grid_is_in_the_units_of_its_grid(make):
    cruise = {
        "columns": ["altitude", "isa", "tas"],
        "rows": [[0, 0, 200], [0, 20, 210], [3048, 0, 230], [3048, 20, 240]],
    }
    plain = make(
        speeds=SPEEDS,
        units=METRIC,
        calibration=CALIBRATION,
        weights={"maximum": 900},
        cruise=cruise,
    )
    table = Table(
        cruise_at_tables(plain, school(STATED + ", cruise: {altitude: [5000], isa: [0, 18]}"))[0]
    )
    assert [[cell.text for cell in row] for row in table.rows] == [["5000", "215", "220"]]
    assert table.columns[0].unit == "ft"


def test_the_grid_of_a_type_stands_in_for_its_kinds(definitions, fleet):
    spoil(
        definitions / "school.yaml",
        "reference speeds:",
        "reference speeds by type: {dunlin-160: {ias: [77], altitude: [500], oat: [3]}}\n"
        "reference speeds:",
    )
    changed = read_fleet(definitions)
    own = changed.school.grid("dunlin-160", "single-engine")
    assert [one.text for one in own.ias] == ["77"]
    assert changed.school.grid("wheatear-15", "glider").ias == fleet.school.grid("x", "glider").ias


def test_a_grid_for_a_type_that_there_is_not_is_told(definitions):
    spoil(
        definitions / "school.yaml",
        "reference speeds:",
        "reference speeds by type: {dunlin-16: {ias: [77], altitude: [500]}}\nreference speeds:",
    )
    (found,) = faults(definitions)
    assert found.startswith(
        "school.yaml:10:28: reference speeds by type: found dunlin-16, expected one of dunlin-160,"
    )
    assert found.endswith("did you mean dunlin-160?")


def test_figures_out_of_range_are_told_in_the_grids_unit(definitions):
    spoil(
        definitions / "school.yaml",
        "  glider:\n    ias: [80, ",
        "  glider:\n    units: {altitude: ft, speed: kt}\n    ias: [8, ",
    )
    assert faults(definitions) == ["school.yaml:25:11: ias: found 8, expected 15 to 600 kt"]


def test_without_reference_speeds_a_card_has_the_rest(make):
    bare = validated(School, parse_yaml(b"name: A\n", "school.yaml"))
    document = make_document(make(), bare)
    assert document.table("speeds") is not None
    assert {"true-airspeed", "tas-factor"} <= {gap.table for gap in document.gaps}


def test_a_unit_that_is_none_is_told():
    with pytest.raises(DefinitionError, match="altitude: found the words 'feet', expected one of"):
        school("units: {altitude: feet}, ias: [60], altitude: [0]")
