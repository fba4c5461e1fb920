"""What sheets are made of: a document or shared tables, in a language, with its drawings."""

from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import Any, TypeVar

from cardgen.document.record import (
    Cell,
    Column,
    Document,
    Message,
    School,
    Shared,
    Table,
    Value,
)
from cardgen.words.language import Language

Found = TypeVar("Found")


class Remembering(Language):
    """A language that puts a document's cells and messages into words once each.

    They are known by where they are in memory, and held, so that nothing else gets there.
    """

    @cached_property
    def _told(self) -> dict[tuple[int, int], tuple[object, str]]:
        return {}

    def say(self, message: Message | str, **values: Value) -> str:
        """Return a message's sentence, plain."""
        if isinstance(message, str):
            return super().say(message, **values)
        return self._once(message, None, super().say)

    def figure(self, cell: Cell, column: Column | None = None) -> str:
        """Return what a cell prints."""
        return self._once(cell, column, partial(super().figure, column=column))

    def _once(self, told: Any, column: Column | None, put: Callable[[Any], str]) -> str:
        key = id(told), id(column)
        if key not in self._told:
            self._told[key] = (told, column), put(told)
        return self._told[key][1]


@dataclass(frozen=True)
class Content:
    """What there is to print; `drawings` are their names.

    `marked` are the cells with a bar, where they are not those that the document says.
    """

    document: Document | Shared
    language: Language
    drawings: Collection[str] = ()
    pictured: bool = False
    marked: frozenset[str] | None = None
    known: dict[object, Any] = field(default_factory=dict, repr=False, compare=False)

    def once(self, key: object, make: Callable[[], Found]) -> Found:
        """Return what is made for a key, which is made once."""
        if key not in self.known:
            self.known[key] = make()
        found: Found = self.known[key]
        return found

    @property
    def school(self) -> School:
        """Who publishes."""
        document = self.document
        return document.school if isinstance(document, Shared) else document.head.school

    @property
    def card(self) -> Document | None:
        """The document, if it is that of an aircraft."""
        return self.document if isinstance(self.document, Document) else None

    @property
    def name(self) -> str:
        """The registration, or what shared tables are called."""
        card = self.card
        return card.head.registration if card else self.language.say("sheet-conversions")

    def table(self, name: str, first: int = 0, rows: tuple[int, int] | None = None) -> Table | None:
        """Return a table, of its first columns or of some rows only if so many are wanted."""
        return self.once(("table", name, first, rows), lambda: self._table(name, first, rows))

    def _table(self, name: str, first: int, rows: tuple[int, int] | None) -> Table | None:
        table = next((one for one in self.document.tables if one.id == name), None)
        if table and first:
            table = at_columns(table, range(first))
        return at_rows(table, *rows) if table and rows else table

    @cached_property
    def changed(self) -> frozenset[str]:
        """The cells that have a bar: those that changed since all had signed, as a rule."""
        if self.marked is not None:
            return self.marked
        return self.card.changed if self.card else frozenset()

    def named(self, name: str) -> tuple[str, ...]:
        """Return the tables of a name: it, or several that are told apart behind it."""
        every = (table.id for table in self.document.tables)
        return tuple(one for one in every if one == name or one.startswith(f"{name}-for-"))


def at_rows(table: Table, start: int, end: int) -> Table:
    """Return a table with some of its rows only, of all blocks, and the blocks that have any."""
    blocks, before = [], 0
    for block in table.blocks:
        kept = block.rows[max(0, start - before) : max(0, end - before)]
        if kept:
            blocks.append(replace(block, rows=kept))
        before += len(block.rows)
    return replace(table, blocks=tuple(blocks))


def at_columns(table: Table, kept: Collection[int]) -> Table:
    """Return a table with the columns at some places only."""
    return replace(
        table,
        columns=tuple(table.columns[n] for n in kept),
        blocks=tuple(
            replace(
                block,
                rows=tuple(
                    replace(row, cells=tuple(row.cells[n] for n in kept)) for row in block.rows
                ),
            )
            for block in table.blocks
        ),
        stub=sum(n < table.stub for n in kept),
    )
