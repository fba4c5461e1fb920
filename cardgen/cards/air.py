"""The air that tables are made for: altitudes, and temperatures or differences from standard."""

import math
from dataclasses import dataclass
from functools import partial

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import last_row
from cardgen.cards.cells import Inputs, any_blank, as_entered, heading, taking
from cardgen.definition.model import Air, Grid, School
from cardgen.definition.places import Figure, Place
from cardgen.document.once import Once
from cardgen.document.record import Cell, Column, Message, Quantity, Row
from cardgen.units import Array, convert, convert_difference

WARMEST, COLDEST = 40.0, -60.0  # K from standard; nothing beyond is tabulated
COLDEST_OAT = -55.0  # C; nor anything colder than this, or than the above where that is warmer
_USUAL_OAT = ("-20", "-10", "0", "10", "20", "30", "40")  # C
_USUAL_ISA = ("-20", "-10", "0", "10", "20", "30")  # K


def grid_of(aircraft: Aircraft, school: School) -> Grid | None:
    """Return what a school tabulates for an aircraft's type, or for its kind."""
    return school.grid(aircraft.definition.airframe.type, aircraft.kind)


class Level(float):
    """A pressure altitude in the manual's unit, which knows how the school entered it."""

    entered: Figure
    unit: str

    @property
    def quantity(self) -> Quantity:
        """The altitude in the unit that the school entered it in."""
        return as_entered(self.entered, self.unit)


def _level(entered: Figure, unit: str, own: str) -> Level:
    level = Level(convert(float(entered), unit, own))
    level.entered, level.unit = entered, unit
    return level


@dataclass(frozen=True)
class Warmth:
    """A temperature that a column of a table is for: outside air, or its difference from standard.

    Attributes
    ----------
    figure : Figure
    by_isa : bool
    unit : str
        Of the figure; the school's or the manual's.
    """

    figure: Figure
    by_isa: bool
    unit: str

    @property
    def id(self) -> str:
        """The identifier of the column."""
        return f"{'isa' if self.by_isa else 'oat'}-{self.figure:g}"

    def heading(self, own: str) -> Message:
        """Return the heading of the column, of a type whose unit of temperature is `own`."""
        if not self.by_isa:
            return heading("oat", oat=as_entered(self.figure, self.unit))
        return isa_heading(self.figure, "" if self.unit == own else self.unit)

    def oat(self, aircraft: Aircraft, altitude: float) -> float:
        """Return the outside air temperature at an altitude, in the manual's unit."""
        value, own = float(self.figure), aircraft.units.temperature
        if not self.by_isa:
            return float(convert(value, self.unit, own))
        warmer = float(convert_difference(value, self.unit, own))
        return float(aircraft.standard_temperature(altitude)) + warmer


def isa_heading(deviation: Figure, unit: str = "") -> Message:
    """Return a difference from the standard atmosphere as a heading."""
    if float(deviation) == 0.0:
        return Message("isa")
    bare = deviation.text.lstrip("+")
    signed = f"+{bare}" if deviation > 0 else bare
    return heading("isa-deviation", deviation=Quantity(float(deviation), unit, entered=signed))


def altitude_unit(aircraft: Aircraft, air: Air) -> str:
    """Return the unit that a school states its altitudes in, or the manual's."""
    return (air.units and air.units.altitude) or aircraft.units.altitude


def levels(aircraft: Aircraft, air: Air) -> list[Level]:
    """Return the altitudes of a school that a type may be flown at.

    Not above the maximum operating altitude, nor above the last altitude that
    a limit is given for.
    """
    operating, row = aircraft.definition.type.maximum_operating_altitude, last_row(aircraft)
    tops = [
        None if operating is None else operating.altitude,
        None if row is None else row.altitude,
    ]
    top = min((float(one) for one in tops if one is not None), default=math.inf)
    unit = altitude_unit(aircraft, air)
    known = [_level(one, unit, aircraft.units.altitude) for one in air.altitude]
    return [one for one in known if one <= top + 1e-9]


def warmths(aircraft: Aircraft, air: Air) -> list[Warmth]:
    """Return the temperatures of a school, or what suits the kind, that occur at some altitude."""
    unit = (air.units and air.units.temperature) or aircraft.units.temperature
    wanted = [Warmth(one, False, unit) for one in air.oat]
    wanted += [Warmth(one, True, unit) for one in air.isa]
    if not wanted:
        by_isa = aircraft.kind == "turbine"
        texts = _USUAL_ISA if by_isa else _USUAL_OAT
        wanted = [Warmth(_usual(text, by_isa, unit), by_isa, unit) for text in texts]
    heights = levels(aircraft, air)
    return [one for one in wanted if any(occurs(aircraft, float(level), one) for level in heights)]


def is_any(aircraft: Aircraft, air: Air) -> bool:
    """Whether any of a school's altitudes and temperatures is worth tabulating for a type."""
    return bool(levels(aircraft, air) and warmths(aircraft, air))


def _usual(text: str, by_isa: bool, unit: str) -> Figure:
    """Return a usual temperature as a figure in a unit."""
    value = float(text)
    own = convert_difference(value, "K", unit) if by_isa else convert(value, "C", unit)
    return Figure(f"{float(own):g}", Place("", 1, 1))


_occurring = Once[bool]()  # each table of an aircraft asks for the same air


def occurs(aircraft: Aircraft, altitude: float, warmth: Warmth) -> bool:
    """Whether air of a temperature occurs at an altitude, so that a figure is worth its place."""
    find = partial(_occurs, aircraft, altitude, warmth)
    return _occurring.of(aircraft, find, altitude, warmth)


def _occurs(aircraft: Aircraft, altitude: float, warmth: Warmth) -> bool:
    unit = aircraft.units.temperature
    standard = float(convert(float(aircraft.standard_temperature(altitude)), unit, "C"))
    oat = float(convert(warmth.oat(aircraft, altitude), unit, "C"))
    return max(COLDEST_OAT, standard + COLDEST) - 1e-9 <= oat <= standard + WARMEST + 1e-9


def mesh(aircraft: Aircraft, air: Air) -> tuple[Array, Array]:
    """Return altitudes down and outside air temperatures across; not a number where none occurs."""
    heights = levels(aircraft, air)
    oat = [
        [
            one.oat(aircraft, float(level)) if occurs(aircraft, float(level), one) else math.nan
            for one in warmths(aircraft, air)
        ]
        for level in heights
    ]
    return np.array(heights, dtype=float)[:, np.newaxis], np.array(oat, dtype=float)


def air_inputs(altitude: Level, warmth: Warmth) -> Inputs:
    """Return altitude and temperature as a formula takes them."""
    name = "isa" if warmth.by_isa else "oat"
    return (
        taking("pressure-altitude", altitude.quantity),
        taking(name, as_entered(warmth.figure, warmth.unit)),
    )


def altitude_row(level: Level, cells: list[Cell], under: str = "") -> Row:
    """Return a row that is entered by a pressure altitude."""
    return Row(f"{under}altitude-{level.entered:g}", (Cell(level.quantity), *cells))


def altitude_column(aircraft: Aircraft, air: Air) -> Column:
    """Return the column of pressure altitudes."""
    return Column("altitude", Message("column-pressure-altitude"), altitude_unit(aircraft, air))


def blanks_said(rows: list[Row]) -> list[Message]:
    """Say why cells are blank, where any are."""
    return [Message("note-blank-air")] if any_blank(rows) else []
