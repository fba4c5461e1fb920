"""Cruise tables on a card: worked by hand, beside the definitions that they are made of."""

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.identifiers import copied
from cardgen.document.record import Entered, Table
from tests.cards.test_edges import school
from tests.reader import DASH, Card

GRID = (
    "ias: [60], altitude: [0], oat: [0], cruise: {altitude: [2000, 3000, 5000], oat: [0, 10, 20]}"
)
UNITS = {"speed": "kt", "altitude": "ft", "weight": "lb", "fuel flow": "gal/h", "distance": "km"}
COLUMNS = ("altitude", "rpm", "tas", "fuel flow")
ECONOMY = {
    "name": "economy",
    "page": "5-1",
    "isa": 0,
    "columns": [*COLUMNS],
    "rows": [[2000, 2300, 100, 5], [4000, 2300, "n/a", 4.8], [6000, 2300, 104, "-"]],
}
POWER = {**ECONOMY, "name": "best power", "page": "5-2", "tas unit": "mph", "columns": [*COLUMNS],
         "rows": [[2000, 2300, 115, 7.5], [4000, 2300, 117, 7.1]]}  # fmt: skip


def card(aircraft) -> Card:
    return Card(make_document(aircraft, school(GRID)))


def cells(table) -> dict[str, list[str]]:
    return {row[0].text: [one.text for one in row[table.stub :]] for row in table.rows}


def test_one_table_keeps_the_identifiers_that_it_has_without_a_name(make):
    with_name, without = (
        make(units=UNITS, cruise={name: one for name, one in ECONOMY.items() if name in kept})
        for kept in (ECONOMY, set(ECONOMY) - {"name"})
    )
    names = [[table.name for table in card(one).tables] for one in (with_name, without)]
    assert names[0] == names[1]
    assert {"cruise", "cruise-at", "economy"} <= set(names[0])
    figures = [[one.id for one in copied(of.definition)] for of in (with_name, without)]
    assert figures[0] == figures[1]
    assert "given/cruise/altitude-2000/rpm-2300/tas" in figures[0]
    assert card(with_name).table("cruise").title == "Cruise: economy"
    assert card(without).table("cruise").title == "Cruise"


def test_a_list_of_one_is_the_one(make):
    alone, listed = (card(make(units=UNITS, cruise=one)) for one in (ECONOMY, [ECONOMY]))
    assert alone.of == listed.of


def test_several_tables_are_each_named_and_their_figures_too(make):
    aircraft = make(units=UNITS, cruise=[ECONOMY, POWER])
    found = card(aircraft)
    titles = {one.name: one.title for one in found.tables if "for" in one.name}
    assert titles == {
        "cruise-for-economy": "Cruise: economy",
        "cruise-for-best-power": "Cruise: best power",
        "cruise-at-for-economy": "Cruise by OAT: economy",
        "cruise-at-for-best-power": "Cruise by OAT: best power",
        "economy-for-economy": "Distance on fuel: economy",
        "economy-for-best-power": "Distance on fuel: best power",
    }
    known = {one.id: one for one in copied(aircraft.definition)}
    tas = known["given/cruise/best-power/altitude-2000/rpm-2300/tas"]
    assert (tas.figure.text, tas.unit) == ("115", "mph")
    assert known["given/cruise/economy/isa"].figure.text == "0"


def test_a_figure_that_is_not_available_is_a_dash_and_nothing_is_read_across_it(make):
    """Fuel between 2000 and 4000 ft is there; TAS, which the manual gives at 2000 only, is not."""
    found = card(make(units=UNITS, cruise=ECONOMY))
    table = found.table("cruise")
    assert cells(table) == {"2000": ["100", "5"], "4000": [DASH, "4.8"], "6000": ["104", DASH]}
    assert "A dash: the manual gives no figure there." in table.notes
    assert cells(found.table("cruise-at")) == {"2000": ["100"]}
    assert cells(found.table("economy"))["4000"] == [DASH] * 5
    assert cells(found.table("economy"))["6000"] == [DASH] * 5


def test_tas_in_another_unit_is_read_in_it_and_carries_as_far_as_it_is(make):
    """115 mph are 115 * 1.609344 / 1.852 = 99.93 kt; on 7.5 gal/h 13.3 NM a gallon."""
    found = card(make(units=UNITS, cruise=POWER))
    table = found.table("cruise")
    assert [one.unit for one in table.columns] == ["ft", "", "mph", "gal/h"]
    assert [one.heading for one in table.columns[2:]] == ["TAS mph", "Fuel gal/h"]
    between = found.table("cruise-at")
    assert cells(between) == {"2000": ["115"], "3000": ["116"]}
    assert between.columns[1].unit == "mph"
    assert between.columns[1].heading == "ISA"
    assert cells(found.table("economy"))["2000"][2] == "13.3"


def test_endurance_range_and_columns_of_the_manuals_own_name_are_printed_as_given(make):
    cruise = {
        "oat": 15,
        "columns": ["altitude", "lever", "tas", "endurance", "range", "EGT °F"],
        "settings": ["lever"],
        "results": ["EGT °F"],
        "rows": [[2000, 1, 100, 4.50, 830, 1400], [2000, 2, 110, 3.9, 790, -5]],
    }
    found = card(make(units=UNITS, cruise=cruise))
    table = found.table("cruise")
    assert [one.heading for one in table.columns] == [
        "Pressure altitude", "lever", "TAS kt", "Endurance h", "Range km", "EGT °F"
    ]  # fmt: skip
    assert {one.group for one in table.columns[2:]} == {"15°C"}
    assert [one.text for one in next(table.rows)] == ["2000", "1", "100", "4.5", "830", "1400"]
    assert [block.heading for block in found.table("cruise-at").blocks] == ["lever 1", "lever 2"]
    assert found.gaps["Distance on fuel"] == "the cruise table gives no fuel flow"


@pytest.mark.parametrize(
    ("unit", "heading"), [("kt", "IAS kt"), ("mph", "Manual's IAS kt")], ids=["alike", "differs"]
)
def test_ias_of_the_manual_is_called_so_where_the_indicator_shows_another(make, unit, heading):
    cruise = {"columns": ["altitude", "ias", "tas"], "rows": [[2000, 95, 100]]}
    found = card(make(units=UNITS, airframe={"indicator": {"unit": unit}}, cruise=cruise))
    assert found.table("cruise").columns[1].heading == heading


def test_power_that_is_set_heads_its_rows(make):
    cruise = {
        "columns": ["altitude", "power", "rpm", "tas"],
        "settings": ["power"],
        "results": ["rpm"],
        "rows": [[2000, 65, 2300, 100], [4000, 65, 2350, 102]],
    }
    found = card(make(units=UNITS, cruise=cruise))
    assert found.table("cruise").stub == 2
    assert [block.heading for block in found.table("cruise-at").blocks] == ["65 % power"]
    assert cells(found.table("cruise-at"))["3000"] == ["101"]


def test_every_figure_of_a_table_stands_on_the_card(make):
    aircraft = make(units=UNITS, cruise=[ECONOMY, POWER])
    printed = {
        cell.origin.figure
        for table in make_document(aircraft, school(GRID)).tables
        if isinstance(table, Table)
        for row in table.rows
        for cell in row.cells
        if isinstance(cell.origin, Entered)
    }
    entered = {one.id for one in copied(aircraft.definition) if one.id.startswith("given/cruise")}
    assert entered - printed == {"given/cruise/economy/isa", "given/cruise/best-power/isa"}
