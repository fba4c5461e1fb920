"""A worked example of each main table, with the aircraft's own numbers."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from cardgen.cards.card import Card
from cardgen.cards.table import DASH, Block, Cell, Column, Table


class _Example(NamedTuple):
    """A number in the middle of a table, and all that heads it."""

    table: Table
    block: Block
    row: tuple[Cell, ...]
    column: Column
    cell: Cell

    @property
    def given(self) -> str:
        """What heads the row, with its unit."""
        return f"{self.row[0].text} {self.table.columns[0].unit}".rstrip()

    @property
    def found(self) -> str:
        """The number with its unit."""
        return f"{self.cell.text} {self.column.unit}"


def worked_examples(card: Card) -> dict[str, str]:
    """Return a sentence for each of the main tables, by name, that reads one of its numbers."""
    found = {}
    for name, say in _SAYINGS.items():
        table = card.table(name)
        example = _example(table) if table else None
        if example:
            found[name] = say(example)
    return found


def _example(table: Table) -> _Example | None:
    rows = [(block, row) for block in _middle_first(table.blocks) for row in block.rows]
    known = [(block, row) for block, row in rows if any(map(_is_plain, row[table.stub :]))]
    if not known:
        return None
    block, row = known[sum(one is known[0][0] for one, _ in known) // 2]
    across = zip(table.columns, row, strict=True)
    pairs = [(column, cell) for column, cell in list(across)[table.stub :] if _is_plain(cell)]
    column, cell = pairs[(len(pairs) - 1) // 2]
    return _Example(table, block, row, column, cell)


def _middle_first(blocks: Sequence[Block]) -> list[Block]:
    middle = len(blocks) // 2
    return [*blocks[middle:], *blocks[:middle]]


def _is_plain(cell: Cell) -> bool:
    return cell.value is not None and cell.text != DASH and not cell.beyond


def _calibration(one: _Example) -> str:
    at = f"IAS {one.given}"
    if one.table.columns[0].heading != "IAS":
        at = f"the indicator showing {one.given}"
    setting = "" if one.column.heading == "All" else f", {one.column.heading.lower()}"
    return f"With {at}{setting}: CAS is {one.found}."


def _stall(one: _Example) -> str:
    bank = one.column.heading
    turn = "wings level" if bank == "0°" else f"at {bank} of bank"
    flaps = f", {one.block.heading.lower()}" if one.block.heading else ""
    cas = f", which is {one.column.also[:3]} {one.cell.also.text}" if one.cell.also else ""
    unit = f" {one.column.also[3:].strip()}" if cas else ""
    return f"At {one.given}{flaps}, {turn}: it stalls at {one.found} as indicated{cas}{unit}."


def _true_airspeed(one: _Example) -> str:
    knots = f", which is {one.cell.also.text} kt" if one.cell.also else ""
    return (
        f"{one.block.heading}, pressure altitude {one.given}, {one.column.heading} outside: "
        f"TAS is {one.found}{knots}."
    )


def _ground_speed(one: _Example) -> str:
    wind = one.column.group.split(",")[0].lower()
    return (
        f"TAS {one.given} with {one.column.heading} {one.column.unit} of {wind}: "
        f"ground speed is {one.found}."
    )


def _crosswind_limit(one: _Example) -> str:
    return f"{one.given} off the runway: a wind of {one.found} blows {one.table.title}."


_SAYINGS: dict[str, Callable[[_Example], str]] = {
    "calibration": _calibration,
    "stall": _stall,
    "true-airspeed": _true_airspeed,
    "ground-speed": _ground_speed,
    "crosswind-limit": _crosswind_limit,
}
