"""The record of what one page teaches, with an aircraft's own figures.

Only plain data, as in `cardgen.document.record`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from cardgen.document.record import Gap, Message, Quantity

Cells = tuple[Quantity | None, ...]


@dataclass(frozen=True, slots=True)
class Slider:
    """What a reader may move, from where to where, by which steps, and where it stands first.

    Attributes
    ----------
    name : str
        A message ``slider-<name>`` names it.
    first, last, step, at : float
    unit : str
    names : tuple of Message
        What stands at each step, where that is no number.
    """

    name: str
    first: float
    last: float
    step: float
    at: float
    unit: str = ""
    names: tuple[Message, ...] = ()

    @property
    def stands(self) -> Message | Quantity:
        """Where it stands first, as one says it."""
        if self.names:
            return self.names[round(self.at)]
        is_direction = self.unit == "deg"
        return Quantity(self.at, self.unit, entered=f"{self.at:03.0f}" if is_direction else "")


@dataclass(frozen=True, slots=True)
class Told:
    """What a drawing comes to where its sliders stand.

    Attributes
    ----------
    said : tuple of Message
    drawn : dict of str to tuple of float
        What its parts are drawn at.
    labels : dict of str to Quantity or Message
        The numbers in it.
    """

    said: tuple[Message, ...]
    drawn: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    labels: Mapping[str, Quantity | Message] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Figures:
    """A small table of what a drawing comes to in some places.

    Attributes
    ----------
    title, corner : Message
    columns : tuple of Message or Quantity
    rows : tuple
        Of each row its heading, and a quantity or None for each column.
    """

    title: Message
    corner: Message
    columns: tuple[Message | Quantity, ...]
    rows: tuple[tuple[Message | Quantity, Cells], ...]


@dataclass(frozen=True, slots=True, weakref_slot=True)
class Lesson:
    """A drawing that moves, and what is said beside it of this aircraft.

    Attributes
    ----------
    id : str
    sliders : tuple of Slider
    given : dict of str to float
        What it is reckoned from beside the sliders.
    told : Told
        What it comes to as it is printed.
    most : tuple of float
        Up to which values it is drawn.
    still : tuple of float
        What is drawn whatever the sliders.
    said : tuple of Message
        What is said of this aircraft, whatever the sliders.
    figures : Figures, optional
    """

    id: str
    sliders: tuple[Slider, ...]
    given: dict[str, float]
    told: Told
    most: tuple[float, ...] = ()
    still: tuple[float, ...] = ()
    said: tuple[Message, ...] = ()
    figures: Figures | None = None


@dataclass(frozen=True, slots=True)
class Link:
    """A figure of the way from the pointer to the ground.

    `way` is what is added, or nothing where the figure is an airspeed.
    """

    name: Message
    quantity: Quantity
    way: str = ""


@dataclass(frozen=True, slots=True, weakref_slot=True)
class Teaching:
    """All that one page teaches of an aircraft.

    Attributes
    ----------
    own : Message
        The speed that it begins with, and the case.
    way : tuple of Link
    lessons : tuple of Lesson
    gaps : tuple of Gap
        Lessons that its figures do not reach for.
    """

    own: Message
    way: tuple[Link, ...]
    lessons: tuple[Lesson, ...]
    gaps: tuple[Gap, ...] = ()
