"""What a cell is called: what heads its row, and its column."""

from collections.abc import Iterator
from dataclasses import replace

from cardgen.document.record import Block, Column, Message, Row, Table, Value

# Of blocks whose heading also says what is blank in them, what names them elsewhere.
_NAMED = {
    "block-cas-only": "",
    "block-flaps-cas-only": "block-flaps",
    "block-flaps-gear-cas-only": "block-flaps-gear",
}


def row_headed(table: Table, block: Block, row: Row) -> Iterator[Message | str]:
    """Yield what heads a row: its block where that is more than a part of a list, its stub."""
    heading = None if row.subject else block.heading
    if heading and (name := _NAMED.get(heading.id, heading.id)):
        yield replace(heading, id=name)
    for at, (column, cell) in enumerate(zip(table.columns, row.cells, strict=True)):
        if at >= table.stub and column.id != "when":
            continue
        if cell.quantity is not None:
            values: dict[str, Value] = {"heading": column.heading, "number": cell.quantity}
            yield Message("compare-at", values)
        elif cell.said:
            yield cell.said


def column_headed(column: Column, small: bool) -> Message:
    """Return what heads a column, or the small figures in it."""
    named = column.beside if small and column.beside else column.heading
    if column.group is None:
        return named
    return Message("compare-column", {"group": column.group, "heading": named})
