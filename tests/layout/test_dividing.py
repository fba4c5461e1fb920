"""What is too much for one page: nothing is lost, nothing is left alone that belongs together."""

from dataclasses import replace

import pytest

from cardgen.document.record import Row
from cardgen.layout.content import Content, at_rows
from cardgen.layout.formats import (
    HALVES,
    Beside,
    Caption,
    Drawing,
    Format,
    Grid,
    Notes,
    Remarks,
    Sheet,
    Stack,
)
from cardgen.layout.measures import Sizes
from cardgen.layout.placed import PlacedBeside, PlacedDrawing, PlacedGrid, PlacedWords, stack_height
from cardgen.layout.sheets import planned
from tests.layout.test_sheets import LANGUAGE, document, said, table

TALL = "ladder"


def pages(*parts, of, drawings=(), divided=()):
    sheet = Sheet("title-test", tuple(parts), divided=tuple(divided))
    one = Format("test.pdf", HALVES, (sheet,), title="title-test")
    ((*found,),) = planned(one, Content(of, LANGUAGE, drawings), Sizes())
    for page in found:
        assert stack_height(page.placed) <= page.room
    return found


def ids(rows: list[Row]) -> list[str]:
    return [row.id for row in rows]


def rows_of(page) -> list[str]:
    return ids([row for grid in page.placed if isinstance(grid, PlacedGrid)
                for row in grid.table.rows])  # fmt: skip


@pytest.mark.parametrize(("start", "end"), [(0, 7), (5, 9), (7, 14), (0, 21), (20, 21)])
def test_rows_of_a_table_are_counted_over_its_blocks(start, end):
    whole = table("one", 7, blocks=3)
    part = at_rows(whole, start, end)
    assert ids(list(part.rows)) == ids(list(whole.rows))[start:end]
    assert all(block.rows for block in part.blocks)


def test_a_table_that_fits_on_a_page_is_not_divided():
    of = document(table("one", 20), table("two", 20))
    first, second = pages(Grid("one"), Grid("two"), of=of)
    assert len(rows_of(first)) == len(rows_of(second)) == 20


def test_pages_are_as_few_as_can_be_and_alike():
    """Five tables of nine rows, three to a page at the most: three and two, not three, one, one."""
    of = document(*(table(f"t{n}", 9) for n in range(5)))
    found = pages(*(Grid(f"t{n}") for n in range(5)), of=of)
    assert [len(page.placed) for page in found] in ([2, 3], [3, 2])


def test_blocks_stay_whole_and_long_ones_end_at_a_stronger_rule():
    found = pages(Grid("one"), of=document(table("one", 11, blocks=5)))
    assert [len(rows_of(page)) % 11 for page in found] == [0] * len(found)
    found = pages(Grid("one"), of=document(table("one", 83)))
    assert [len(rows_of(page)) % 5 for page in found[:-1]] == [0] * (len(found) - 1)


def test_notes_stand_with_their_tables():
    tables = [
        replace(table("one", 25), notes=(said("About one."),)),
        replace(table("two", 25), notes=(said("About two."),)),
    ]
    found = pages(Grid("one"), Grid("two"), Notes(("one", "two")), of=document(*tables))
    notes = [
        [text for one in page.placed if isinstance(one, PlacedWords) for text in one.sentences]
        for page in found
    ]
    assert notes == [["About one."], ["About two."]]


def beside(*parts) -> Beside:
    return Beside((Stack((Drawing(TALL, 22.0),), width=22.0), Stack(parts)))


def test_a_drawing_keeps_as_much_beside_it_as_there_is_room_for():
    of = document(table("one", 25), table("two", 25))
    first, second = pages(beside(Grid("one"), Grid("two")), of=of, drawings=(TALL,))
    (row,) = first.placed
    assert isinstance(row, PlacedBeside)
    assert [type(stack.placed[0]) for stack in row.stacks] == [PlacedDrawing, PlacedGrid]
    assert len(rows_of(second)) == 25


def test_a_drawing_that_is_higher_than_a_page_is_left_off_with_its_caption():
    of = document(table("one", 4))
    huge = Beside((Stack((Drawing(TALL, 100.0),), width=100.0), Stack((Grid("one"), Caption()))))
    (page,) = pages(huge, of=of, drawings=(TALL,))
    assert [type(one) for one in page.placed] == [PlacedGrid]


def test_remarks_go_on():
    remarks = tuple(f"{n}: " + "Tell the instructor before flight. " * 4 for n in range(24))
    of = document(table("one", 4))
    of = replace(of, head=replace(of.head, remarks=remarks))
    found = pages(Grid("one"), Remarks(), of=of)
    told = [
        text
        for page in found
        for one in page.placed
        if isinstance(one, PlacedWords)
        for text in one.sentences
    ]
    assert len(found) > 1
    assert told == list(remarks)


def test_a_sheet_may_be_arranged_otherwise_where_it_goes_on():
    of = document(table("one", 30), table("two", 30))
    one = (Grid("one"), Grid("two"))
    found = pages(*one, of=of, divided=reversed(one))
    assert [page.placed[0].title for page in found] == ["Two", "One"]
    (page,) = pages(*one, of=document(table("one", 3), table("two", 3)), divided=reversed(one))
    assert [grid.title for grid in page.placed] == ["One", "Two"]
