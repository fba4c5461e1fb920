"""The parts of a card: cells that know their origin, rows, tables, notes."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cardgen.cards.formulas import FORMULAS
from cardgen.cards.rounding import printed
from cardgen.definition.group import Group
from cardgen.definition.places import Figure
from cardgen.definition.speeds import Sense

DASH = "–"
Inputs = dict[str, str]


@dataclass(frozen=True)
class Entered:
    """A figure that was copied from a document."""

    file: str
    line: int
    document: str
    page: str | None


@dataclass(frozen=True)
class Computed:
    """A figure that a formula gave."""

    formula: str
    inputs: Inputs


@dataclass(frozen=True)
class Cell:
    """One printed number, or words.

    Attributes
    ----------
    text : str
        As printed.
    value : float, optional
        The number before rounding; None for words and for a gap.
    origin : Entered or Computed, optional
        Where the number comes from.
    also : Cell, optional
        The same quantity said another way, printed small beside it.
    label : str
        What the number is, where it is not what its column says, such as TAS.
    beyond : bool
        Whether the number is past what the aircraft has been shown to do.
    """

    text: str
    value: float | None = None
    origin: Entered | Computed | None = None
    also: "Cell | None" = None
    label: str = ""
    beyond: bool = False


@dataclass(frozen=True)
class Column:
    """A column of a table.

    Attributes
    ----------
    name : str
        Unique in the table; heads the column in data files.
    heading : str
        As printed; with the unit behind it, unless the column stands in a group.
    unit : str
    group : str
        Printed once above neighbouring columns of one group.
    also : str
        What the small figures of the column are.
    main : bool
        The column that is flown by.
    words : bool
        The column holds words, not numbers.
    """

    name: str
    heading: str
    unit: str = ""
    group: str = ""
    also: str = ""
    main: bool = False
    words: bool = False


@dataclass(frozen=True)
class Block:
    """Rows under one heading, such as a flap setting; the heading may be empty."""

    heading: str
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True)
class Table:
    """A table of a card.

    Attributes
    ----------
    name : str
        Short, for file names and links.
    title : str
    how : str
        The reading rule: find ..., read ... across.
    columns : tuple of Column
    blocks : tuple of Block
        Each row has a cell for each column.
    stub : int
        How many leading columns are row headings.
    notes : tuple of str
    """

    name: str
    title: str
    how: str
    columns: tuple[Column, ...]
    blocks: tuple[Block, ...]
    stub: int = 1
    notes: tuple[str, ...] = ()

    @property
    def rows(self) -> Iterator[tuple[Cell, ...]]:
        """All rows, whatever block they stand in."""
        for block in self.blocks:
            yield from block.rows


@dataclass(frozen=True)
class Gap:
    """A table that is left off a card, and what was missing for it."""

    title: str
    missing: str


def words(text: str) -> Cell:
    """Return a cell of words."""
    return Cell(text)


def entered(figure: Figure, group: Group, also: Cell | None = None) -> Cell:
    """Return a cell with a figure as it was entered, in a group that names its page."""
    page: str | None = getattr(group, "page", None)
    origin = Entered(figure.place.file, figure.place.line, group.document, page)
    return Cell(figure.text.replace("-", "−"), float(figure), origin, also)


def computed(
    value: float,
    formula: str,
    inputs: Inputs,
    sense: Sense = Sense.TARGET,
    decimals: int = 0,
    also: Cell | None = None,
) -> Cell:
    """Return a cell with a computed value, rounded on the safe side; a dash where there is none."""
    assert formula in FORMULAS, formula
    if math.isnan(value):
        return Cell(DASH, also=also)
    return Cell(printed(value, sense, decimals), value, Computed(formula, inputs), also)


def given(value: float, text: str | None = None) -> Cell:
    """Return a cell with a value that a table is entered by."""
    return Cell(text.replace("-", "−") if text is not None else printed(value), value)
