"""Sheets planned from small documents made up here."""

from dataclasses import replace

import pytest

from cardgen.document.record import (
    Basis,
    Block,
    Cell,
    Column,
    Document,
    Head,
    Marks,
    Message,
    Paper,
    Quantity,
    Row,
    School,
    Signature,
    Table,
    Units,
)
from cardgen.layout.content import Content, Remembering
from cardgen.layout.font import digit
from cardgen.layout.formats import HALVES, Beside, Format, Grid, Notes, Sheet, Stack
from cardgen.layout.measures import LARGEST, LOOSEST, Sizes
from cardgen.layout.placed import PlacedBeside, PlacedGrid, stack_height
from cardgen.layout.sheets import planned
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language

SMALL = 3.0 / digit()  # mm: type whose digits are 3.0 mm high
LARGE = LARGEST * SMALL
LANGUAGE = Language("en", {**ENGLISH.wordings, "said": "{words}", "title-test": "Test"})


def said(words: str) -> Message:
    return Message("said", {"words": words})


def table(name: str, rows: int, columns: int = 3, blocks: int = 1) -> Table:
    """Return a table whose numbers have three digits."""
    cells = tuple(Cell(Quantity(100.0 + n, "kt")) for n in range(columns))
    return Table(
        name,
        said(name.capitalize()),
        said("How"),
        tuple(Column(f"c{n}", said(f"{n}"), "kt") for n in range(columns)),
        tuple(
            Block(f"b{b}", None, tuple(Row(f"b{b}/r{n}", cells) for n in range(rows)))
            for b in range(blocks)
        ),
    )


def document(*tables: Table) -> Document:
    school = School("A school", paper="letter", punch_edge="left")
    head = Head(
        registration="T-EST",
        type="A type",
        kind="glider",
        serial="1",
        indicator_unit="kt",
        units=Units("kt", "ft", "C", "lb"),
        school=school,
        papers=(Paper("manual", "Manual", "M-1", "1", "2024-01-01"),),
    )
    basis = Basis((), (), (), (), None, (), None, (), ())
    return Document(head, tables, (), basis, ())


def plan(*parts, of: Document, misses=()):
    one = Format("test.pdf", HALVES, (Sheet("title-test", tuple(parts)),), title="title-test")
    return planned(one, Content(of, LANGUAGE), Sizes(), misses)


def test_a_language_that_remembers_says_the_same():
    one = replace(table("one", 40), notes=(said("A note"),), example=said("Another"))
    form = Format("test.pdf", HALVES, (Sheet("title-test", (Grid("one"), Notes(("one",)))),))
    of = document(one, table("two", 3))
    remembering = Remembering(LANGUAGE.code, LANGUAGE.wordings)
    again = [planned(form, Content(of, remembering), Sizes()) for _ in range(2)]
    assert again == [planned(form, Content(of, LANGUAGE), Sizes())] * 2
    messages = [said(f"{n}") for n in range(500)]
    assert [remembering.say(one) for one in messages] == [f"{n}" for n in range(500)]
    cell = Cell(Quantity(3.0, "kt"))
    for column in (None, Column("a", said("A"), form="signed"), None):
        assert remembering.figure(cell, column) == LANGUAGE.figure(cell, column)


def test_a_few_rows_are_printed_in_the_largest_type_and_loosest_lead():
    (((page),),) = plan(Grid("one"), of=document(table("one", 4)))
    assert page.measures.type == pytest.approx(LARGE)
    assert page.measures.lead == pytest.approx(LOOSEST)


@pytest.mark.parametrize("rows", [24, 28, 30, 32])
def test_a_page_is_filled_but_not_beyond(rows):
    (((page),),) = plan(Grid("one"), of=document(table("one", rows)))
    high = stack_height(page.placed)
    assert high <= page.room
    larger = page.measures.type < LARGE - 0.01 or page.measures.lead < LOOSEST - 0.01
    assert larger
    assert page.room - high < 0.02 * page.room


def test_more_rows_never_have_larger_type():
    sizes = [
        plan(Grid("one"), of=document(table("one", rows)))[0][0].measures.type
        for rows in range(8, 33, 4)
    ]
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[-1] >= SMALL


def test_what_is_too_much_goes_on_with_its_headings_and_loses_no_row():
    ((*pages,),) = plan(Grid("one"), of=document(table("one", 7, blocks=16)))
    assert len(pages) > 1
    found = []
    for n, page in enumerate(pages, start=1):
        assert f"{n} of {len(pages)}" in page.head.title
        assert stack_height(page.placed) <= page.room
        for grid in page.placed:
            assert grid.headings
            assert len(grid.rows) == len(grid.table.blocks)
            found += [row.id for row in grid.table.rows]
    assert found == [f"b{b}/r{n}" for b in range(16) for n in range(7)]


def test_a_block_higher_than_a_page_is_cut_between_rows():
    ((*pages,),) = plan(Grid("one"), of=document(table("one", 120)))
    found = [row.id for page in pages for grid in page.placed for row in grid.table.rows]
    assert found == [f"b0/r{n}" for n in range(120)]


def test_tables_stand_beside_one_another_unless_they_are_too_wide():
    row = Beside((Stack((Grid("one"),)), Stack((Grid("two"),))))
    (((narrow),),) = plan(row, of=document(table("one", 5, 4), table("two", 5, 3)))
    (beside,) = narrow.placed
    assert isinstance(beside, PlacedBeside)
    widths = [stack.width for stack in beside.stacks]
    assert sum(widths) + beside.between == pytest.approx(139.7 - 16.0 - 6.0)
    (((wide),),) = plan(row, of=document(table("one", 5, 12), table("two", 5, 8)))
    assert [type(one) for one in wide.placed] == [PlacedGrid, PlacedGrid]


def test_one_that_is_missing_leaves_its_place_to_the_other():
    row = Beside((Stack((Grid("one"),)), Stack((Grid("two"),))))
    (((page),),) = plan(row, of=document(table("two", 5)))
    (beside,) = page.placed
    assert [stack.width for stack in beside.stacks] == [pytest.approx(139.7 - 16.0 - 6.0)]


def test_a_table_of_too_many_columns_stands_in_parts_each_with_the_rows_headings():
    (((page),),) = plan(Grid("one"), of=document(table("one", 4, columns=31)))
    assert len(page.placed) > 1
    for grid in page.placed:
        assert sum(grid.widths) <= 139.7 - 16.0 - 6.0 + 0.001
        assert grid.table.columns[0].id == "c0"
    columns = [column.id for grid in page.placed for column in grid.table.columns[1:]]
    assert columns == [f"c{n}" for n in range(1, 31)]


def test_a_sheet_that_was_too_high_is_planned_smaller_or_on_more_pages():
    held = document(table("one", 30))
    (((first),),) = plan(Grid("one"), of=held)
    (((second),),) = plan(Grid("one"), of=held, misses=[1])
    assert stack_height(second.placed) < 0.98 * stack_height(first.placed)


@pytest.mark.parametrize(
    ("figures", "card", "said", "valid"),
    [
        ("AAAA-0000", "BBBB-0000", "Signed 2026-01-31", True),
        ("AAAA-0000", "BBBB-0001", "Signed 2026-01-31, recomputed since", True),
        ("AAAA-0001", "BBBB-0000", "OUT OF DATE", False),
        (None, None, "NOT SIGNED", False),
    ],
)
def test_a_head_says_whether_the_figures_are_signed(figures, card, said, valid):
    held = document(table("one", 4))
    signed = (Signature("One", "2026-01-31", figures, card),) if figures else ()
    held = replace(
        held,
        head=replace(held.head, signatures=signed),
        marks=Marks(card="BBBB-0000", figures="AAAA-0000"),
    )
    (((page),),) = plan(Grid("one"), of=held)
    assert (page.head.state, page.head.valid) == (said, valid)
    assert page.foot.figures.startswith("Figures BBBB-0000")


def test_holes_along_the_top_are_kept_clear():
    held = document(table("one", 4))
    school = replace(held.head.school, punch_edge="top", paper="A4")
    held = replace(held, head=replace(held.head, school=school))
    (((page),),) = plan(Grid("one"), of=held)
    assert (page.width, page.height) == (148.0, 210.0)
    assert (page.left, page.right, page.top, page.bottom) == (6.0, 6.0, 16.0, 6.0)
