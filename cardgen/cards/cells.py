"""Cells of tables: figures as they were entered, and figures that a formula gave."""

import math
from collections.abc import Iterable

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.formulas import FORMULAS
from cardgen.definition.corrections import AltimeterCard
from cardgen.definition.group import Group
from cardgen.definition.model import SpeedEntry
from cardgen.definition.places import Figure, Span
from cardgen.document.record import (
    BLANK,
    DASH,
    Cell,
    Column,
    Computed,
    Entered,
    Input,
    Message,
    Quantity,
    Row,
    Value,
)
from cardgen.document.rounding import Sense, kept

Inputs = tuple[Input, ...]


def as_entered(figure: Figure, unit: str, sense: Sense = "target") -> Quantity:
    """Return a figure as it was entered; its sense is for who converts it."""
    high = kept(float(figure.high)) if isinstance(figure, Span) else None
    return Quantity(kept(float(figure)), unit, high, figure.text, sense)


def said(words: str | Message | None) -> Cell:
    """Return a cell of words, entered or our own; a blank one where there are none."""
    return Cell(said=words) if words else BLANK


def given(value: float, unit: str = "", text: str = "") -> Cell:
    """Return a cell with a value that a table is entered by."""
    return Cell(Quantity(kept(value), unit, entered=text))


def paper_of(aircraft: Aircraft, group: Group) -> str:
    """Return the identifier of the paper that a group was read from."""
    supplements = aircraft.definition.airframe.supplements
    for number, supplement in enumerate(supplements, start=1):
        if group.document == supplement.document:
            return f"supplement-{number}"
    if group.document:
        return "manual"
    return "altimeter-card" if isinstance(group, AltimeterCard) else "bench-card"


def entered(
    aircraft: Aircraft,
    figure: Figure,
    group: Group,
    unit: str,
    beside: Cell | None = None,
    sense: Sense = "target",
) -> Cell:
    """Return a cell with a figure as it was entered, in a group that names its page."""
    page: str | None = getattr(group, "page", None)
    origin = Entered(aircraft.identifiers[figure.place], paper_of(aircraft, group), page or "")
    return Cell(as_entered(figure, unit, sense), origin=origin, beside=beside)


def source(aircraft: Aircraft, figure: Figure | None) -> str:
    """Return the identifier of a figure that was copied; nothing for one that was not."""
    return aircraft.identifiers.get(figure.place, "") if isinstance(figure, Figure) else ""


def computed(
    value: float,
    unit: str,
    formula: str,
    inputs: Inputs,
    sense: Sense = "target",
    decimals: int = 0,
    beside: Cell | None = None,
    beyond: bool = False,
    high: float | None = None,
) -> Cell:
    """Return a cell with a computed value, rounded on the safe side; a dash where there is none.

    With `high` it is a range, up to that.
    """
    assert formula in FORMULAS, formula
    if math.isnan(value) or (high is not None and math.isnan(high)):
        return Cell(beside=beside, beyond=beyond) if beside or beyond else DASH
    upper = None if high is None else kept(high)
    quantity = Quantity(kept(value), unit, upper, sense=sense, decimals=decimals)
    return Cell(quantity, origin=Computed(formula, inputs), beside=beside, beyond=beyond)


def any_blank(rows: Iterable[Row]) -> bool:
    """Whether a cell is left blank where it stands for something."""
    return any(cell is BLANK for row in rows for cell in row.cells)


def reading(value: float, unit: str, decimals: int | None = None) -> Quantity:
    """Return a quantity as an input is read: to some decimals, or with all that it has.

    Examples
    --------
    >>> [reading(value, "kt").decimals for value in (86.0, 86.25)], reading(86.25, "kt", 1).decimals
    ([0, 2], 1)
    """
    value = kept(value)
    if decimals is None:
        decimals = len(f"{value:.6g}".partition(".")[2])
    return Quantity(value, unit, decimals=decimals)


def taking(name: str, value: Value, origin: str = "") -> Input:
    """Return what a formula takes, and the identifier of what it came from."""
    return Input(name, value, origin)


def heading(name: str, **values: Value) -> Message:
    """Return a heading's or a sentence's message."""
    return Message(name, values)


def words_column(name: str) -> Column:
    """Return a column of words, headed by its own name."""
    return Column(name, Message(f"column-{name}"), words=True)


def as_given(aircraft: Aircraft, entry: SpeedEntry) -> Message:
    """Return a V-speed in the form that the manual gives it."""
    unit = aircraft.units.speed
    if entry.times_VS0 is not None and entry.ias is None:
        return heading("given-times-VS0", times=as_entered(entry.times_VS0, ""))
    for name, figure in (("ias", entry.ias), ("tas", entry.tas), ("cas", entry.cas)):
        if figure is not None:
            return heading(f"given-{name}", speed=as_entered(figure, unit))
    assert entry.mach is not None
    return heading("given-mach", mach=as_entered(entry.mach, ""))
