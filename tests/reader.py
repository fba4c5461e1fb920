"""A document's tables as their reader sees them: every cell a text, in English."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from cardgen.document import record
from cardgen.document.record import Computed, Document, Entered
from cardgen.words.english import ENGLISH

DASH = "–"


@dataclass(frozen=True)
class Cell:
    """What a cell prints, and the number behind it."""

    of: record.Cell
    column: record.Column | None

    @property
    def text(self) -> str:
        return ENGLISH.figure(self.of, self.column)

    @property
    def value(self) -> float | None:
        return self.of.quantity.value if self.of.quantity else None

    @property
    def label(self) -> str:
        return ENGLISH.label(self.of, self.column) if self.column else ""

    @property
    def origin(self) -> Entered | Computed | None:
        return self.of.origin

    @property
    def beyond(self) -> bool:
        return self.of.beyond

    @property
    def also(self) -> "Cell | None":
        return Cell(self.of.beside, None) if self.of.beside else None


@dataclass(frozen=True)
class Column:
    """A column's identifier and its words."""

    of: record.Column

    @property
    def name(self) -> str:
        return self.of.id

    @property
    def unit(self) -> str:
        return self.of.unit

    @property
    def words(self) -> bool:
        return self.of.words

    @property
    def heading(self) -> str:
        return ENGLISH.say(self.of.heading)

    @property
    def group(self) -> str:
        return ENGLISH.text(self.of.group)

    @property
    def also(self) -> str:
        return ENGLISH.text(self.of.beside)


@dataclass(frozen=True)
class Block:
    """A block's heading and its rows of cells."""

    heading: str
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True)
class Table:
    """A table in words."""

    of: record.Table

    @property
    def name(self) -> str:
        return self.of.id

    @property
    def stub(self) -> int:
        return self.of.stub

    @property
    def title(self) -> str:
        return ENGLISH.say(self.of.title)

    @property
    def how(self) -> str:
        return ENGLISH.say(self.of.how)

    @property
    def notes(self) -> tuple[str, ...]:
        return tuple(map(ENGLISH.say, self.of.notes))

    @cached_property
    def columns(self) -> tuple[Column, ...]:
        return tuple(map(Column, self.of.columns))

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        return tuple(
            Block(
                ENGLISH.text(block.heading),
                tuple(tuple(map(Cell, row.cells, self.of.columns)) for row in block.rows),
            )
            for block in self.of.blocks
        )

    @property
    def rows(self) -> Iterator[tuple[Cell, ...]]:
        for block in self.blocks:
            yield from block.rows


@dataclass(frozen=True)
class Card:
    """A document's tables in words."""

    of: Document

    @cached_property
    def tables(self) -> tuple[Table, ...]:
        return tuple(map(Table, self.of.tables))

    def table(self, name: str) -> Table | None:
        return next((table for table in self.tables if table.name == name), None)

    @property
    def gaps(self) -> dict[str, str]:
        """What is left off, by its title, and why."""
        return {ENGLISH.say(one.title): ENGLISH.say(one.missing) for one in self.of.gaps}
