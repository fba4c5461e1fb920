"""The air that tables are made for: altitudes, and temperatures or differences from standard."""

import math
from dataclasses import dataclass

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import last_row
from cardgen.cards.cells import Inputs, any_blank, as_entered, given, heading, taking
from cardgen.definition.model import Air
from cardgen.definition.places import Figure, Place
from cardgen.document.record import Cell, Column, Message, Quantity, Row
from cardgen.units import Array, convert, convert_difference

WARMEST, COLDEST = 40.0, -60.0  # K from standard; nothing beyond is tabulated
COLDEST_OAT = -55.0  # C; nor anything colder than this, or than the above where that is warmer
_USUAL_OAT = ("-20", "-10", "0", "10", "20", "30", "40")  # C
_USUAL_ISA = ("-20", "-10", "0", "10", "20", "30")  # K


@dataclass(frozen=True)
class Warmth:
    """A temperature that a column of a table is for: outside air, or its difference from standard.

    Attributes
    ----------
    figure : Figure
        In the manual's unit of temperature.
    by_isa : bool
    """

    figure: Figure
    by_isa: bool

    @property
    def id(self) -> str:
        """The identifier of the column."""
        return f"{'isa' if self.by_isa else 'oat'}-{self.figure:g}"

    def heading(self, unit: str) -> Message:
        """Return the heading of the column."""
        quantity = as_entered(self.figure, unit)
        if not self.by_isa:
            return heading("oat", oat=quantity)
        return isa_heading(self.figure)

    def oat(self, aircraft: Aircraft, altitude: float) -> float:
        """Return the outside air temperature at an altitude, in the manual's unit."""
        if not self.by_isa:
            return float(self.figure)
        return float(aircraft.standard_temperature(altitude)) + float(self.figure)


def isa_heading(deviation: Figure) -> Message:
    """Return a difference from the standard atmosphere as a heading."""
    if float(deviation) == 0.0:
        return Message("isa")
    bare = deviation.text.lstrip("+")
    signed = f"+{bare}" if deviation > 0 else bare
    return heading("isa-deviation", deviation=Quantity(float(deviation), entered=signed))


def levels(aircraft: Aircraft, air: Air) -> list[Figure]:
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
    return [one for one in air.altitude if float(one) <= top]


def warmths(aircraft: Aircraft, air: Air) -> list[Warmth]:
    """Return the temperatures of a school, or what suits the kind, that occur at some altitude."""
    if air.oat or air.isa:
        wanted = [*(Warmth(one, False) for one in air.oat), *(Warmth(one, True) for one in air.isa)]
    else:
        by_isa = aircraft.kind == "turbine"
        texts = _USUAL_ISA if by_isa else _USUAL_OAT
        wanted = [Warmth(_usual(aircraft, text, by_isa), by_isa) for text in texts]
    heights = levels(aircraft, air)
    return [one for one in wanted if any(occurs(aircraft, float(level), one) for level in heights)]


def is_any(aircraft: Aircraft, air: Air) -> bool:
    """Whether any of a school's altitudes and temperatures is worth tabulating for a type."""
    return bool(levels(aircraft, air) and warmths(aircraft, air))


def _usual(aircraft: Aircraft, text: str, by_isa: bool) -> Figure:
    """Return a usual temperature as a figure in the manual's unit."""
    value, unit = float(text), aircraft.units.temperature
    own = convert_difference(value, "K", unit) if by_isa else convert(value, "C", unit)
    return Figure(f"{float(own):g}", Place("", 1, 1))


def occurs(aircraft: Aircraft, altitude: float, warmth: Warmth) -> bool:
    """Whether air of a temperature occurs at an altitude, so that a figure is worth its place."""
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


def air_inputs(aircraft: Aircraft, altitude: Figure, warmth: Warmth) -> Inputs:
    """Return altitude and temperature as a formula takes them."""
    units = aircraft.units
    name = "isa" if warmth.by_isa else "oat"
    return (
        taking("pressure-altitude", as_entered(altitude, units.altitude)),
        taking(name, as_entered(warmth.figure, units.temperature)),
    )


def altitude_row(aircraft: Aircraft, level: Figure, cells: list[Cell], under: str = "") -> Row:
    """Return a row that is entered by a pressure altitude."""
    stub = given(float(level), aircraft.units.altitude, level.text)
    return Row(f"{under}altitude-{level:g}", (stub, *cells))


def altitude_column(aircraft: Aircraft) -> Column:
    """Return the column of pressure altitudes."""
    return Column("altitude", Message("column-pressure-altitude"), aircraft.units.altitude)


def blanks_said(rows: list[Row]) -> list[Message]:
    """Say why cells are blank, where any are."""
    return [Message("note-blank-air")] if any_blank(rows) else []
