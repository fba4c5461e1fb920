"""What a card prints of corrections: the manual's figures as they were typed, and by which name."""

from dataclasses import replace

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.definition.group import validated
from cardgen.definition.model import School
from cardgen.definition.reading import parse_yaml
from cardgen.document.data import from_json, to_json
from cardgen.document.record import Document, Entered
from cardgen.render.calibration import draw_calibration
from cardgen.review.marks import figures_mark
from cardgen.words.english import ENGLISH
from tests.conftest import ROOT, documents_of
from tests.reader import Card

FOLDER = ROOT / "tests/definitions/corrections"
FORMS = read_fleet(FOLDER)
TABLES = ("position", "instrument", "altimeter", "altimeter-card", "stall")
SCHOOL = validated(
    School,
    parse_yaml(
        b"name: S\nreference speeds: {single-engine: {ias: [60], altitude: [0], oat: [0]}}", "s"
    ),
)


@pytest.fixture(scope="module")
def documents() -> dict[str, Document]:
    return documents_of(FOLDER)


@pytest.mark.parametrize("registration", ["ZZ-SPA", "ZZ-SPB", "ZZ-SPC", "ZZ-SPD"])
def test_each_printed_correction_is_one_that_was_copied(documents, registration):
    document = documents[registration]
    given = {one.id: one.value.entered for one in document.given if not isinstance(one.value, str)}
    printed = [
        (cell.origin.figure, cell.quantity.entered)
        for name in TABLES
        if (table := document.table(name))
        for row in table.rows
        for cell in row.cells
        if isinstance(cell.origin, Entered)
    ]
    assert printed
    assert all(given[figure] == text for figure, text in printed)


KINDS = ("add-to", "subtract-from", "normal-ias", "given/stall/", "bench/")


def corrections(document: Document) -> dict[str, int]:
    """The place of each figure that was copied of a correction or a stall speed, by its name."""
    return {
        one.id: n for n, one in enumerate(document.given) if any(kind in one.id for kind in KINDS)
    }


def test_every_correction_that_was_copied_is_printed(documents):
    """Without a bench card a stall speed in IAS stands as it was typed; the cards by those with."""
    printed = {
        cell.origin.figure
        for document in documents.values()
        for table in document.tables
        for row in table.rows
        for cell in row.cells
        if isinstance(cell.origin, Entered)
    }
    for document in documents.values():
        assert corrections(document).keys() <= printed
    assert len(corrections(documents["ZZ-SPA"])) > 50


def test_the_signatures_mark_holds_every_correction(documents):
    document = documents["ZZ-SPA"]
    marks = {figures_mark(document)}
    for at in corrections(document).values():
        given = list(document.given)
        given[at] = replace(given[at], value=replace(given[at].value, entered="7.75"))
        marks.add(figures_mark(replace(document, given=tuple(given))))
    assert len(marks) == 1 + len(corrections(document))


def test_a_card_with_corrections_is_read_back_whole(documents):
    for document in documents.values():
        assert from_json(to_json(document), Document) == document


def test_the_bench_cards_are_papers_of_their_own(documents):
    papers = {one.id: (one.title, one.date) for one in documents["ZZ-SPA"].head.papers}
    assert papers["bench-card"] == ("bench card A", "2025-03-01")
    assert papers["altimeter-card"] == ("altimeter's test sheet", "2025-03-02")
    origin = documents["ZZ-SPA"].table("altimeter-card").blocks[0].rows[0].cells[1].origin
    assert (origin.paper, origin.page) == ("altimeter-card", "altimeter's test sheet")


def test_blocks_say_flaps_gear_and_static_source(documents):
    card = Card(documents["ZZ-SPD"])
    assert [block.heading for block in card.table("position").blocks] == [
        "Flaps 0, gear up; at Manual's IAS",
        "Flaps 20; at CAS",
        "Flaps 0, gear up, alternate static; at Manual's IAS",
        "Flaps 0, gear down, alternate static; at Manual's IAS",
        "Flaps 20, alternate static; at Manual's IAS",
    ]
    assert [block.heading.partition(";")[0] for block in card.table("stall").blocks] == [
        "Flaps 0, gear up", "Flaps 0, gear down", "Flaps 20, gear down"
    ]  # fmt: skip


def test_a_stall_speed_in_ias_that_the_table_does_not_reach_says_so(documents):
    notes = Card(documents["ZZ-SPD"]).table("stall").notes
    assert any(note.startswith("A dash under CAS: the manual gives IAS only") for note in notes)


def test_where_every_stall_speed_has_a_cas_nothing_is_said_of_dashes(make):
    notes = Card(make_document(make(), SCHOOL)).table("stall").notes
    assert not any("A dash under CAS" in note for note in notes)


def test_tables_in_the_usual_form_stand_in_no_table_of_their_own(make):
    document = make_document(make(), SCHOOL)
    assert [document.table(name) for name in TABLES[:-1]] == [None] * 4


def test_a_speed_above_vle_is_bracketed_with_the_gear_down_only(documents):
    """VLE is 130; the table for gear down reaches 145, that for gear up more."""
    table = Card(documents["ZZ-SPD"]).table("calibration")
    names = [column.name for column in table.columns]
    (row,) = (row for row in table.rows if row[0].text == "140")
    beyond = {name: cell.beyond for name, cell in zip(names, row, strict=True)}
    assert beyond["flaps-0-normal-gear-down"]
    assert not beyond["flaps-0-normal-gear-up"]
    assert any("with the gear down" in note for note in table.notes)


def test_curves_are_drawn_for_each_gear_and_look_unlike(documents):
    chart = draw_calibration(ENGLISH, documents["ZZ-SPD"])
    names = {part.text for part in chart.parts if getattr(part, "kind", "") == "name"}
    assert names == {
        "flaps 0, gear up",
        "flaps 0, gear down",
        "flaps 20",
        "alternate, flaps 0, gear up",
        "alternate, flaps 0, gear down",
        "alternate, flaps 20",
    }
