"""What each of the two marks is made of, and what leaves it as it is."""

import json
import re
import shutil
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace

import pytest
import yaml

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.definition.renewing import nodes
from cardgen.document.record import Cell, Document, Marks
from cardgen.review.marks import card_mark, figures_mark, marked
from tests.conftest import DEMO, documents_of
from tests.sampling import some
from tests.sound.test_manuals import MANUALS, NAMES


@pytest.fixture
def document() -> Document:
    return documents_of(DEMO)["ZZ-WHB"]


def marks(document: Document) -> tuple[str, str]:
    return card_mark(document), figures_mark(document)


def with_cell(document: Document, at: str, change) -> Document:
    """A document in which one cell is another."""
    name, row_id, column_id = re.fullmatch(r"([^/]+)/(.+)/([^/]+)", at).groups()
    seen = 0

    def changed(table):
        nonlocal seen
        columns = [column.id for column in table.columns]
        blocks = []
        for block in table.blocks:
            rows = []
            for row in block.rows:
                cells = list(row.cells)
                if (table.id, row.id) == (name, row_id):
                    cells[columns.index(column_id)] = change(cells[columns.index(column_id)])
                    seen += 1
                rows.append(replace(row, cells=tuple(cells)))
            blocks.append(replace(block, rows=tuple(rows)))
        return replace(table, blocks=tuple(blocks))

    found = replace(document, tables=tuple(map(changed, document.tables)))
    assert seen == 1
    return found


def test_a_mark_is_two_groups_of_four(document):
    for mark in marks(document):
        assert re.fullmatch(r"[0-9A-F]{4}-[0-9A-F]{4}", mark)
    assert marked(document).marks == Marks(*marks(document))


def test_order_and_wording_change_no_mark(document):
    """Tables and rows the other way round, other notes and reading rules, another layout."""
    turned = replace(
        document,
        tables=tuple(
            replace(
                table,
                how=document.tables[0].how,
                example=None,
                blocks=tuple(replace(block, rows=block.rows[::-1]) for block in table.blocks[::-1]),
            )
            for table in document.tables[::-1]
        ),
        given=document.given[::-1],
    )
    assert marks(turned) == marks(document)


@pytest.mark.parametrize(
    "change",
    [
        lambda cell: replace(cell, beyond=not cell.beyond),
        lambda cell: replace(cell, quantity=replace(cell.quantity, unit="mph")),
        lambda cell: replace(cell, quantity=replace(cell.quantity, value=cell.quantity.value + 1)),
        lambda cell: replace(cell, quantity=replace(cell.quantity, decimals=1)),
        lambda cell: Cell(),
    ],
    ids=["bracket", "unit", "digit", "decimals", "dash"],
)
@pytest.mark.parametrize(
    "at",
    [
        "true-airspeed/indicated-90/altitude-10000/oat-20",
        "stall/flaps-40/weight-2500/bank-45-indicated",
        "speeds/VNE/indicated",
    ],
)
def test_one_cell_changes_the_cards_mark_and_not_the_figures(document, at, change):
    other = with_cell(document, at, change)
    assert card_mark(other) != card_mark(document)
    assert figures_mark(other) == figures_mark(document)


@pytest.mark.parametrize("part", ["registration", "type", "kind", "serial", "indicator_unit"])
def test_one_fact_of_the_head_changes_the_cards_mark(document, part):
    other = replace(document, head=replace(document.head, **{part: "other"}))
    assert card_mark(other) != card_mark(document)
    assert figures_mark(other) == figures_mark(document)


def test_a_remark_a_notice_and_a_revision_change_the_cards_mark(document):
    head = document.head
    manual = replace(head.manual, revision="4")
    for other, figures_too in (
        (replace(head, remarks=(*head.remarks, "Another.")), False),
        (replace(head, school=replace(head.school, notice="Another.")), False),
        (replace(head, papers=(manual, *head.papers[1:])), True),
    ):
        changed = replace(document, head=other)
        assert card_mark(changed) != card_mark(document)
        assert (figures_mark(changed) != figures_mark(document)) == figures_too


def test_each_figure_that_was_copied_is_in_the_figures_mark(document):
    mark = figures_mark(document)
    for n, one in enumerate(document.given):
        without = replace(document, given=document.given[:n] + document.given[n + 1 :])
        assert (figures_mark(without) != mark) == (one.paper != ""), one.id


# -- from the files ------------------------------------------------------------------------------


def made(definitions, registration: str = "ZZ-DUA") -> Document:
    fleet = read_fleet(definitions)
    (one,) = (one for one in fleet.aircraft if one.registration == registration)
    return make_document(Aircraft(one), fleet.school)


def test_a_new_column_of_the_schools_changes_the_card_and_no_signature(definitions):
    before = made(definitions)
    path = definitions / "school.yaml"
    path.write_text(path.read_text().replace("oat: [-20, -10, 0, 10, 20, 30, 40]",
                                             "oat: [-20, -10, 0, 5, 10, 20, 30, 40]"))  # fmt: skip
    after = made(definitions)
    assert card_mark(after) != card_mark(before)
    assert figures_mark(after) == figures_mark(before)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("VNE: {ias: 151, cas: 147, page: 2-3}", "VNE: {ias: 151, cas: 146, page: 2-3}"),
        ("VNE: {ias: 151, cas: 147, page: 2-3}", "VNE: {ias: 151, cas: 147, page: 2-4}"),
        ('revision: "6"', 'revision: "7"'),
    ],
)
def test_a_figure_a_page_or_a_revision_of_the_manual_changes_the_signatures_mark(
    definitions, old, new
):
    before = made(definitions)
    path = definitions / "types/dunlin-160.yaml"
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, new))
    assert figures_mark(made(definitions)) != figures_mark(before)


def reworded(text: str) -> Iterator[str]:
    """Yield a definition with each of its texts another, but pages, which stand beside figures."""
    for node in nodes(yaml.compose(text)):
        if isinstance(node, yaml.MappingNode):
            values = [value for key, value in node.value if key.value != "page"]
        else:
            values = node.value if isinstance(node, yaml.SequenceNode) else []
        for one in values:
            if isinstance(one, yaml.ScalarNode) and one.tag.endswith(":str"):
                start, end = one.start_mark.index, one.end_mark.index
                yield f"{text[:start]}{json.dumps(one.value + ' too')}{text[end:]}"


@pytest.mark.parametrize(
    "name", some("manuals, each word of them changed", NAMES, ["tlebund-2", "gnelopf-200"])
)
def test_each_word_of_a_manual_that_is_printed_is_in_both_marks(tmp_path, name):
    for folder in ("types", "fleet"):
        (tmp_path / folder).mkdir()
    school = yaml.safe_load((MANUALS / "school.yaml").read_text("utf-8"))
    del school["reference speeds by type"]  # of types that are not here
    (tmp_path / "school.yaml").write_text(yaml.safe_dump(school), "utf-8")
    shutil.copy(MANUALS / name / "airframe.yaml", tmp_path / "fleet")
    path, text = tmp_path / "types" / f"{name}.yaml", (MANUALS / name / "type.yaml").read_text()
    registration = yaml.safe_load((MANUALS / name / "airframe.yaml").read_text())["registration"]
    path.write_text(text)
    before, tried = made(tmp_path, registration), 0
    for other in reworded(text):
        path.write_text(other)
        with suppress(DefinitionError):
            after = made(tmp_path, registration)
            if replace(after, given=()) != replace(before, given=()):
                assert card_mark(after) != card_mark(before), other
                assert figures_mark(after) != figures_mark(before), other
                tried += 1
    assert tried > 2


def test_a_comment_and_the_order_of_keys_change_nothing_at_all(definitions):
    before = made(definitions)
    path = definitions / "types/dunlin-160.yaml"
    text = path.read_text()
    start, end = text.index("crosswind:"), len(text)
    moved = text[start:end].splitlines()[0]
    text = f"# A comment.\n\n{moved}\n" + text.replace(f"{moved}\n", "")
    path.write_text(text.replace("VNE: {ias: 151, cas: 147,", "VNE: {cas: 147, ias: 151,"))
    assert made(definitions) == before
