"""A worked example of each main table, with the aircraft's own numbers."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from cardgen.cards.cells import heading
from cardgen.document.record import Block, Cell, Column, Message, Quantity, Row, Table, Value


class _Example(NamedTuple):
    """A number in the middle of a table, and all that heads it."""

    table: Table
    block: Block
    row: Row
    column: Column
    cell: Cell

    @property
    def given(self) -> Quantity:
        """What heads the row."""
        return _quantity(self.row.cells[0])

    @property
    def found(self) -> Quantity:
        """The number."""
        return _quantity(self.cell)

    @property
    def beside(self) -> Quantity | None:
        """The number beside it, if any."""
        return self.cell.beside.quantity if self.cell.beside else None


def with_example(table: Table) -> Table:
    """Return a table with a sentence that reads one of its numbers, where it is a main one."""
    example = _example(table) if table.id in _SAYINGS else None
    return replace(table, example=_SAYINGS[table.id](example)) if example else table


def _quantity(cell: Cell) -> Quantity:
    assert cell.quantity is not None
    return cell.quantity


def _example(table: Table) -> _Example | None:
    rows = [(block, row) for block in _middle_first(table.blocks) for row in block.rows]
    known = [(block, row) for block, row in rows if _has_plain(table, row)]
    if not known:
        return None
    block, row = known[sum(one is known[0][0] for one, _ in known) // 2]
    across = list(zip(table.columns, row.cells, strict=True))[table.stub :]
    pairs = [(column, cell) for column, cell in across if _reads(table, column, cell)]
    column, cell = pairs[(len(pairs) - 1) // 2]
    return _Example(table, block, row, column, cell)


def _middle_first(blocks: Sequence[Block]) -> list[Block]:
    middle = len(blocks) // 2
    return [*blocks[middle:], *blocks[:middle]]


def _has_plain(table: Table, row: Row) -> bool:
    """Whether a row has a number to read aloud: one of the main columns', where there are such."""
    across = list(zip(table.columns, row.cells, strict=True))[table.stub :]
    return any(_reads(table, column, cell) for column, cell in across)


def _reads(table: Table, column: Column, cell: Cell) -> bool:
    main = column.main or not any(one.main for one in table.columns)
    return main and _is_plain(cell)


def _is_plain(cell: Cell) -> bool:
    return cell.quantity is not None and not cell.beyond


def _calibration(one: _Example) -> Message:
    at = heading("example-ias", shown=one.given)
    if one.column.heading.id == "column-all":
        return heading("example-calibration", at=at, cas=one.found)
    setting = _within(one.column.heading)
    return heading("example-calibration-setting", at=at, setting=setting, cas=one.found)


def _within(message: Message) -> Message:
    """Return a heading as it stands within a sentence."""
    return replace(message, id=f"{message.id}-within")


def _stall(one: _Example) -> Message:
    assert one.column.group is not None
    bank = one.column.group.values["bank"]
    assert isinstance(bank, Quantity)
    turn = heading("example-turn", bank=bank) if bank.value else Message("example-level")
    name = "example-stall"
    values: dict[str, Value] = {"weight": one.given, "turn": turn, "found": one.found}
    if one.block.heading and "flaps" in one.block.heading.values:
        name, values = f"{name}-flaps", {**values, "flaps": _within(one.block.heading)}
    cas = one.row.cells[one.table.columns.index(one.column) + 1]
    if cas.quantity is not None:
        name, values = f"{name}-cas", {**values, "cas": cas.quantity}
    return Message(name, values)


def _true_airspeed(one: _Example) -> Message:
    assert one.block.heading is not None
    values: dict[str, Value] = {
        "at": one.block.heading,
        "altitude": one.given,
        "oat": one.column.heading,
    }
    if one.beside is None:
        return Message("example-true-airspeed", {**values, "tas": one.found})
    return Message("example-true-airspeed-kt", {**values, "tas": one.found, "knots": one.beside})


def _ground_speed(one: _Example) -> Message:
    assert one.column.group is not None
    wind = one.column.heading.values["wind"]
    kind = Message(f"{one.column.group.id}-within")
    return heading("example-ground-speed", tas=one.given, wind=wind, kind=kind, speed=one.found)


def _crosswind_limit(one: _Example) -> Message:
    return heading("example-crosswind-limit", angle=one.given, wind=one.found)


_SAYINGS: dict[str, Callable[[_Example], Message]] = {
    "calibration": _calibration,
    "stall": _stall,
    "true-airspeed": _true_airspeed,
    "ground-speed": _ground_speed,
    "crosswind-limit": _crosswind_limit,
}
