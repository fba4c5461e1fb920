"""The record of a pilot's next aircraft: what it has otherwise than the one flown so far.

Only plain data, as in `cardgen.document.record`: page and sheet are made from it alone.
"""

from dataclasses import dataclass

from cardgen.document.record import Message, Paper, Quantity, School

VERSION = 1  # of this record, and of its JSON Schema

Shown = Message | Quantity | None


@dataclass(frozen=True, slots=True)
class Flown:
    """One of the two: what its card says of itself."""

    registration: str
    type: str
    indicator_unit: str
    manual: Paper
    mark: str = ""
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Told:
    """A difference as an instructor would say it, and the rule that found it.

    Attributes
    ----------
    rule : str
    said : Message
    danger : float
        By which they stand in order: by how much of it a figure differs, times the rule's weight.
    """

    rule: str
    said: Message
    danger: float


@dataclass(frozen=True, slots=True)
class Line:
    """A figure of both, and by how much the second differs; None where one has none.

    Attributes
    ----------
    name : Message
    first, second : Message or Quantity, optional
    more : Quantity, optional
        The second less the first, in the second's unit.
    differs : bool
        Whether the two are printed differently, or one has none.
    """

    name: Message
    first: Shown
    second: Shown
    more: Quantity | None = None
    differs: bool = False


@dataclass(frozen=True, slots=True)
class Beside:
    """Figures of one kind, side by side."""

    id: str
    title: Message
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Transition:
    """From one aircraft to another: what to mind first, and all figures side by side."""

    school: School
    first: Flown
    second: Flown
    told: tuple[Told, ...]
    beside: tuple[Beside, ...]
    version: int = VERSION
    cardgen: str = ""
