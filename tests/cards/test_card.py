import math
import re

import pytest

from cardgen.cards.card import make_document
from cardgen.cards.cells import as_given
from cardgen.cards.conversions import conversion_tables
from cardgen.document.record import Computed, Entered
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.reader import DASH, Card, Table


@pytest.fixture(scope="module")
def cards():
    return {name: Card(one) for name, one in documents_of(DEMO).items()}


def all_tables(cards):
    for card in cards.values():
        yield from card.tables
    yield from map(Table, conversion_tables())


def test_every_row_has_a_cell_for_each_column(cards):
    for table in all_tables(cards):
        assert len({column.name for column in table.columns}) == len(table.columns), table.name
        for row in table.rows:
            assert len(row) == len(table.columns), table.name


def test_every_number_knows_its_origin(cards):
    for table in all_tables(cards):
        for row in table.rows:
            for cell in row[table.stub :]:
                for one in (cell, *([cell.also] if cell.also else [])):
                    stub_like = table.name == "speed-units"
                    assert one.value is None or one.origin is not None or stub_like, one


def test_an_entered_figure_is_printed_as_it_stands_on_its_line(cards, aircraft):
    lines = {
        path.relative_to(DEMO).as_posix(): path.read_text().splitlines()
        for path in DEMO.rglob("*.yaml")
    }
    seen = 0
    for name, card in cards.items():
        places = {name: place for place, name in aircraft[name].identifiers.items()}
        for table in card.tables:
            for row in table.rows:
                for cell in row:
                    if isinstance(cell.origin, Entered):
                        place = places[cell.origin.figure]
                        line = lines[place.file][place.line - 1]
                        figures = re.findall(r"[-+]?[\d.]+(?: to [\d.]+)?", line)
                        assert cell.text.replace("−", "-").replace(",", "") in figures
                        assert cell.origin.page
                        seen += 1
    assert seen > 500


def test_every_identifier_stands_once_and_names_what_there_is(cards):
    """Cells by table, row and column; what was copied; and what formulas say they took."""
    for card in cards.values():
        document = card.of
        cells = [
            f"{table.id}/{row.id}/{column.id}"
            for table in document.tables
            for row in table.rows
            for column in table.columns
        ]
        given = [one.id for one in document.given]
        assert len(set(cells)) == len(cells)
        assert len(set(given)) == len(given)
        sources = {
            one.source
            for table in document.tables
            for row in table.rows
            for cell in row.cells
            for origin in (cell.origin,)
            if isinstance(origin, Computed)
            for one in origin.inputs
            if one.source
        }
        for source in sources:
            assert any(f"{one}/".startswith(f"{source}/") for one in (*given, *cells)), source
        entered = {
            cell.origin.figure
            for table in document.tables
            for row in table.rows
            for cell in row.cells
            if isinstance(cell.origin, Entered)
        }
        assert entered <= set(given)
        assert "speeds/VNE/indicated" in cells or "speeds/VMO/indicated" in cells
    assert "speeds/VFE/flaps-10/indicated" in [
        f"speeds/{row.id}/indicated" for row in cards["ZZ-DUA"].of.table("speeds").rows
    ]


def test_a_gap_is_a_dash_and_has_no_value(cards):
    for table in all_tables(cards):
        for row in table.rows:
            for cell in row:
                assert (cell.text == DASH) <= (cell.value is None)
                assert cell.value is None or math.isfinite(cell.value)


def text_of(table, *names):
    return next(
        row for row in table.rows if tuple(cell.text for cell in row[: len(names)]) == names
    )


def test_an_mph_indicator_has_maxima_down_and_minima_up(cards):
    """151 kt is 173.77 mph, 38 kt is 43.73 mph."""
    speeds = cards["ZZ-DUA"].table("speeds")
    assert text_of(speeds, "VNE", "173")[4].text == "151"
    assert text_of(speeds, "VS0", "44")[4].text == "38"


def test_a_bench_card_never_raises_a_maximum_and_all_else_goes_through_it(cards):
    """ZZ-DUB's indicator shows 152.9 kt at 151 kt, 78.5 kt at 79 kt, and 36 kt at 38 kt."""
    speeds = cards["ZZ-DUB"].table("speeds")
    assert text_of(speeds, "VNE", "151")[4].text == "151"
    assert text_of(speeds, "VFE", "78")[4].text == "79"
    assert text_of(speeds, "VS0", "36")[4].text == "38"
    stall = cards["ZZ-DUB"].table("stall")
    assert [row[1].text for row in stall.rows if row[0].text == "2310"] == ["43", "39", "36"]


def test_stall_below_the_tables_prints_cas_alone_and_its_block_says_so(cards):
    table = cards["ZZ-DUC"].table("stall")
    row = text_of(table, "1700")
    assert (row[1].text, row[2].text) == ("", "43")
    assert table.columns[1].heading == "IAS kt"
    assert table.columns[2].heading == "CAS kt"
    assert "blank" in table.blocks[0].heading


def test_the_manuals_stall_table_is_printed_as_entered(cards):
    row = text_of(cards["ZZ-TUA"].table("stall"), "3900")
    assert [cell.text for cell in row[1::2]] == ["65", "71", "80", "97"]
    assert all(isinstance(cell.origin, Entered) for cell in row[1:])


def test_a_limit_by_weight_between_the_manuals_is_computed_and_rounded_down(cards):
    _, shown, cas = text_of(cards["ZZ-DUC"].table("manoeuvring"), "2100")
    assert isinstance(shown.origin, Computed)
    assert float(cas.text) <= 94 * math.sqrt(2100 / 2310)


def test_a_missing_input_leaves_its_table_off_with_a_line(aircraft, fleet, definitions):
    from cardgen.airframe.aircraft import Aircraft
    from cardgen.definition.fleet import read_fleet

    path = definitions / "types/whimbrel-200r.yaml"
    text = path.read_text()
    start, end = text.index("cruise:"), text.index("\nglide:")
    path.write_text(text[:start] + text[end:])
    changed = next(a for a in read_fleet(definitions).aircraft if a.registration == "ZZ-WHA")
    card = Card(make_document(Aircraft(changed), fleet.school))
    assert card.table("cruise") is None
    assert card.gaps["Cruise"] == "the definition has no cruise table"


def test_a_speed_is_said_in_the_form_that_the_manual_gives_it(aircraft):
    def said(registration, name):
        one = aircraft[registration]
        return [ENGLISH.say(as_given(one, entry)) for entry in one.definition.speeds[name]]

    assert said("ZZ-DUA", "VS0") == ["38 kt IAS"]
    assert said("ZZ-WTR", "VNE") == ["251 km/h IAS", "286 km/h TAS"]
    assert said("ZZ-PHN", "MMO") == ["Mach 0.52"]
    assert said("ZZ-PHN", "VREF") == ["1.3 times VS0"]
