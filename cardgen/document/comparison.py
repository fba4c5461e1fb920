"""The record of a comparison: what two states of a fleet print differently, and why.

Only plain data, as in `cardgen.document.record`: terminal, Markdown, HTML and
JSON are made from it alone.
"""

from dataclasses import dataclass
from typing import Literal

from cardgen.document.record import Cell, Finding, Message, Quantity, State

VERSION = 1  # of this record, and of its JSON Schema

Words = str | Message
Known = str | Quantity | None


@dataclass(frozen=True, slots=True)
class Refigured:
    """One thing that an edit changed.

    Attributes
    ----------
    name : str
        The figure's identifier, without ``given/``; of a key that is no
        figure, the keys that lead to it.
    before, after : str or Quantity, optional
        None where there was, or is, none.
    what : str
        Whether it is the figure, the page that it names, or another key.
    """

    name: str
    before: Known
    after: Known
    what: Literal["figure", "page", "key"] = "figure"


@dataclass(frozen=True, slots=True)
class Edit:
    """What was edited at one line of a definition; at one page of a paper, between two sites.

    Attributes
    ----------
    changes : tuple of Refigured
    file : str
        Nothing between two sites.
    line : int
        In the newer file; of what is gone, in the older one.
    paper : str
    page : str
    aircraft : tuple of str
        Those whose card it is a part of.
    """

    changes: tuple[Refigured, ...]
    file: str = ""
    line: int = 0
    paper: str = ""
    page: str = ""
    aircraft: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Moved:
    """A cell that is printed differently.

    Attributes
    ----------
    id : str
        ``table/row/column``, and ``/beside`` for the small figure.
    table : str
    title : Message
        Of the table.
    row, column : str
        Their identifiers.
    headed : tuple
        What the row is headed with.
    heading : Message
        Of the column.
    before, after : Cell, optional
        Without origin; None where the card has no such cell.
    subject : str
        The V-speed or marking that the row is about, if any.
    worse : str
        The name of the rule by which it is for the worse, if any.
    grave : int
        Of those for the worse: less stands before more.
    edits : tuple of int
        Which edits moved it, by their place in the comparison, from 1.
    by_program : bool
        Whether no edit moved it, and the two states are of two versions of the program.
    """

    id: str
    table: str
    title: Message
    row: str
    column: str
    headed: tuple[Words, ...]
    heading: Message
    before: Cell | None
    after: Cell | None
    subject: str = ""
    worse: str = ""
    grave: int = 0
    edits: tuple[int, ...] = ()
    by_program: bool = False

    @property
    def numbers(self) -> tuple[Quantity | None, Quantity | None]:
        """The number before, and after, where there was or is one."""
        old, new = (cell.quantity if cell else None for cell in (self.before, self.after))
        return old, new


@dataclass(frozen=True, slots=True)
class Reworded:
    """Something that the card says outside the cells; None where it says nothing."""

    subject: Message
    before: Words | None
    after: Words | None


@dataclass(frozen=True, slots=True)
class Compared:
    """One aircraft of which something is printed differently.

    Attributes
    ----------
    registration : str
    type : str
    state : str
        Whether the card changed, or is new or gone.
    was : str
        The registration before, where another.
    cells : tuple of Moved
        Those for the worse first.
    said : tuple of Reworded
    found, settled : tuple of Finding
        Warnings that are new, and those that are gone.
    accepted : tuple of Finding
        Warnings that are accepted and were not.
    signature : tuple of str
        The state of the signature before and after, where it fell.
    """

    registration: str
    type: str
    state: Literal["changed", "added", "gone"] = "changed"
    was: str = ""
    cells: tuple[Moved, ...] = ()
    said: tuple[Reworded, ...] = ()
    found: tuple[Finding, ...] = ()
    settled: tuple[Finding, ...] = ()
    accepted: tuple[Finding, ...] = ()
    signature: tuple[State, State] | None = None

    @property
    def is_empty(self) -> bool:
        """Whether nothing of it is printed differently."""
        more = self.said or self.found or self.settled or self.accepted or self.signature
        return self.state == "changed" and not (self.was or self.cells or more)


@dataclass(frozen=True, slots=True)
class Side:
    """A state of a fleet: what the command calls it, and the version of the program."""

    name: str
    cardgen: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two states of a fleet: what was edited, and what is printed differently because of it.

    Attributes
    ----------
    base, head : Side
    edits : tuple of Edit
    aircraft : tuple of Compared
        Only those of which something is printed differently.
    unused : tuple of str
        The files of types that no aircraft is of any longer.
    """

    base: Side
    head: Side
    edits: tuple[Edit, ...] = ()
    aircraft: tuple[Compared, ...] = ()
    unused: tuple[str, ...] = ()
    version: int = VERSION

    @property
    def is_changed(self) -> bool:
        """Whether anything is printed differently."""
        return bool(self.aircraft)

    @property
    def is_worse(self) -> bool:
        """Whether any change is for the worse."""
        return any(cell.worse for one in self.aircraft for cell in one.cells)
