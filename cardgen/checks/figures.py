"""What rules compare: speeds in one measure, and how far honest rounding may take figures apart."""

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.definition.model import SpeedEntry, printed
from cardgen.definition.places import Figure, Place, Span
from cardgen.definition.speeds import SPEEDS
from cardgen.units import convert

BY_TABLE = 1.5
"""How far rounding takes IAS and CAS of a speed from the table of both, in its last place.

Half a unit of its IAS, of its CAS and of the table's.
"""
_MEASURED = ("VS0", "VS1")
_MANY = 3  # figures tell of a habit


class Given(NamedTuple):
    """A speed as a rule compares it.

    Attributes
    ----------
    value : float
        In the unit that the rule compares in.
    figure : Figure
        What the manual prints, which the rule doubts.
    entry : SpeedEntry
    slack : float
        What rounding may have taken it off; 0 where it is the figure itself.
    """

    value: float
    figure: Figure
    entry: SpeedEntry
    slack: float = 0.0

    @property
    def place(self) -> Place:
        """Where the figure stands."""
        return self.figure.place


# -- what figures are rounded to ---------------------------------------------------------------


def last_place(figure: Figure) -> float:
    """Return a unit in the last place of a figure: 1 of 52, 0.1 of 52.5."""
    text = f"{float(figure):g}" if isinstance(figure, Span) else figure.text
    return float(10.0 ** -len(text.partition(".")[2]))


def step(figures: Iterable[Figure]) -> float:
    """Return what figures are rounded to: to 5 or 10 where all of several are multiples of it."""
    known = list(figures)
    coarse = (one for one in (10.0, 5.0) if all(figure % one == 0 for figure in known))
    finest = max(map(last_place, known), default=1.0)
    return max(finest, next(coarse, 0.0)) if len(known) >= _MANY else finest


def habit(aircraft: Aircraft, name: str) -> float:
    """Return what a manual rounds speeds to that are chosen, not measured: limits, or the others.

    Most of them tell, so that one figure that was copied wrong does not hide it.
    """
    limits = SPEEDS[name].sense == "maximum"
    found = [
        figure
        for other, entries in aircraft.definition.speeds.items()
        if (SPEEDS[other].sense == "maximum") == limits and other not in _MEASURED
        if (figure := printed(entries[0])) is not None
    ]
    rounded = sum(figure % 5 == 0 for figure in found)
    finest = max(map(last_place, found), default=1.0)
    return 5.0 if len(found) >= _MANY and rounded >= 0.8 * len(found) else finest


def chosen_to(aircraft: Aircraft, name: str, entry: SpeedEntry) -> float:
    """Return what a speed may have been rounded to when it was chosen.

    What is printed as CAS alone may have been chosen as a multiple of 5 in IAS.
    """
    return habit(aircraft, name) if entry.ias is not None else 5.0


def off_a_table(table: Calibrated, ias: Figure, cas: Figure) -> float:
    """Return how far rounding may take IAS and CAS of a speed from a table of both.

    Half a unit of its CAS and of the table's, and as much of CAS as half a unit of IAS is there.
    """
    unit = max(last_place(ias), last_place(cas))
    at = min(max(float(ias), table.ias[0] + 0.5), table.ias[-1] - 0.5)
    low, high = np.interp([at - 0.5, at + 0.5], table.curve.x, table.curve.y)
    return unit * (1.0 + 0.5 * float(high - low)) + 1e-9


# -- speeds in one measure ---------------------------------------------------------------------


def place_of(entry: SpeedEntry) -> Place:
    """Return where the figure of an entry stands."""
    figures = (entry.ias, entry.cas, entry.tas, entry.mach, entry.times_VS0)
    return next((figure.place for figure in figures if figure is not None), entry.place)


def in_cas(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Given | None:
    """Return a speed in CAS: as printed, or by the table where that reaches."""
    if entry.cas is not None:
        return Given(float(entry.cas), entry.cas, entry)
    figure = entry.ias if entry.ias is not None else entry.times_VS0
    setting = aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry)
    cas = aircraft.entry_cas(entry, *setting)
    if figure is None or math.isnan(cas):
        return None
    return Given(cas, figure, entry, BY_TABLE * last_place(entry.ias or Figure("1", figure.place)))


def in_ias(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Given | None:
    """Return a speed in IAS: as printed, or by the table where that reaches."""
    if entry.ias is not None:
        return Given(float(entry.ias), entry.ias, entry)
    if entry.cas is None:
        return None
    flaps, gear = aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry)
    ias = float(aircraft.ias_from_cas(float(entry.cas), flaps, gear=gear))
    if math.isnan(ias):
        return None
    return Given(ias, entry.cas, entry, BY_TABLE * last_place(entry.cas))


def settings(aircraft: Aircraft, name: str, entry: SpeedEntry) -> tuple[str, ...]:
    """Return the flap settings that a speed may hold for: of VR and VMC any, if none is named."""
    if entry.flaps is None and name in ("VR", "VMC"):
        return aircraft.flaps
    return (aircraft.usual_flaps(name, entry),)


def plain(aircraft: Aircraft, name: str) -> list[SpeedEntry]:
    """Return the entries of a speed that can be compared with others: no TAS, nothing in words.

    Of rows by altitude the lowest holds at the ground, where those without one hold too.
    """
    entries = [
        one
        for one in aircraft.definition.speeds.get(name, [])
        if one.tas is None and one.from_altitude is None and one.when is None
    ]
    lowest = min((one.altitude for one in entries if one.altitude is not None), default=None)
    return [one for one in entries if one.altitude in (None, lowest)]


def measures(
    aircraft: Aircraft, low: tuple[str, SpeedEntry], high: tuple[str, SpeedEntry]
) -> Iterator[tuple[Given, Given]]:
    """Yield two speeds beside each other, in each measure in which both are known.

    By the table only where the manual does not print both in one measure.
    """
    both = [(measure(aircraft, *low), measure(aircraft, *high)) for measure in (in_ias, in_cas)]
    known = [(a, b) for a, b in both if a is not None and b is not None]
    exact = [(a, b) for a, b in known if not a.slack and not b.slack]
    yield from exact or known


def knots(aircraft: Aircraft, value: float) -> float:
    """Return knots in the manual's unit."""
    return float(convert(value, "kt", aircraft.units.speed))
