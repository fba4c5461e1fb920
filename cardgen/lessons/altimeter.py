"""From what the altimeter shows to pressure altitude, by the curves of a document."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from cardgen.air import atmosphere
from cardgen.document.record import Curve, Document
from cardgen.lessons.curves import read
from cardgen.units import from_si, to_si


@dataclass(frozen=True)
class Altimeter:
    """What an altimeter shows, in the manual's unit, and the pressure that is set on it, in Pa."""

    shown: float
    setting: float


@dataclass(frozen=True)
class Altitude:
    """What an altimeter's reading comes to, in the manual's unit.

    Attributes
    ----------
    instrument, position : float
        What to add for the bench card, and for the manual's table; not a number
        where these do not reach.
    pressure_altitude : float
    tables : tuple of Curve
        Those that the position error was read from; two where the altitude lies
        between theirs, none where the manual has none for the static source.
    """

    instrument: float
    position: float
    pressure_altitude: float
    tables: tuple[Curve, ...]


def altitude_of(
    document: Document, altimeter: Altimeter, ias: float, flaps: str, source: str
) -> Altitude:
    """Return what an altimeter's reading comes to at an IAS of the manual and in a setting."""
    bench = document.basis.altimeter_bench
    instrument = read(bench, altimeter.shown) - altimeter.shown if bench else 0.0
    here = altimeter.shown + instrument
    tables = tuple(_around(tables_of(document, flaps, source), here))
    position = _position(tables, ias, here) if tables else 0.0
    if not tables and any(one.static_source == source for one in document.basis.altimeter):
        position = math.nan
    pressure_altitude = math.nan
    if not math.isnan(here + position):
        unit = document.head.units.altitude
        metres = to_si(here + position, unit)
        metres = atmosphere.pressure_altitude_from_setting(metres, altimeter.setting)
        pressure_altitude = float(from_si(metres, unit))
    return Altitude(instrument, position, pressure_altitude, tables)


def tables_of(document: Document, flaps: str, source: str) -> list[Curve]:
    """Return the tables for a flap setting and static source, or else those for every setting."""
    found = [one for one in document.basis.altimeter if one.static_source == source]
    own = [one for one in found if one.flaps == flaps]
    return own or [one for one in found if not one.flaps]


def _around(tables: list[Curve], altitude: float) -> Iterator[Curve]:
    """Yield the table that holds at an altitude, or those of the altitudes around it."""
    yield from (one for one in tables if one.altitude is None)
    levels = {one.altitude: one for one in tables if one.altitude is not None}
    below = max((level for level in levels if level <= altitude), default=None)
    above = min((level for level in levels if level >= altitude), default=None)
    if below is not None and above is not None:
        yield from dict.fromkeys((levels[below], levels[above]))


def _position(tables: tuple[Curve, ...], ias: float, altitude: float) -> float:
    """Return what tables say to add at an IAS, linear between the altitudes of two."""
    added = [read(one, ias) for one in tables]
    if len(tables) == 1:
        return added[0]
    return float(np.interp(altitude, [one.altitude or 0.0 for one in tables], added))
