"""The speed limit of an aircraft at an altitude, where it changes with altitude."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from cardgen.air import airspeed, atmosphere
from cardgen.air.bounds import OutOfBoundsError
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.curve import Curve
from cardgen.definition.model import SpeedEntry, in_general
from cardgen.definition.speeds import Sense
from cardgen.units import convert, from_si, to_si

LIMITS = ("VNE", "VMO", "MMO")
QUANTITIES = ("ias", "cas", "tas", "mach")


@dataclass(frozen=True)
class Limit:
    """One of the limits that hold at an altitude; `cas` is in the manual's unit.

    Attributes
    ----------
    name : str
        ``VNE``, ``VMO`` or ``MMO``.
    entry : SpeedEntry
        Of a limit that is given by rows of altitude, the one in force, or where
        it lies between two, the nearest.
    quantity : str
        What the manual limits: ``ias``, ``cas``, ``tas`` or ``mach``.
    value : float
        The manual's figure, or what lies between two of its figures.
    cas : float
        Not a number where the calibration table does not reach.
    """

    name: str
    entry: SpeedEntry
    quantity: str
    value: float
    cas: float


def falls_with_altitude(aircraft: Aircraft) -> bool:
    """Whether the manual limits speed by more than one airspeed for all altitudes."""
    entries = [one for name in LIMITS for one in _entries(aircraft, name)]
    return any(one.tas or one.mach or one.altitude is not None for one in entries)


def last_row(aircraft: Aircraft) -> SpeedEntry | None:
    """Return the last of a limit's rows of altitude, above which there is none; if it has any.

    The lowest, where more limits than one are given so.
    """
    given = [_rows(_entries(aircraft, name)) for name in LIMITS]
    ends = [max(rows, key=_altitude) for rows in given if rows]
    found = [(level, one) for level, one in ends if one.less is None]
    return min(found, key=_altitude, default=(None, None))[1]


def _entries(aircraft: Aircraft, name: str) -> list[SpeedEntry]:
    return in_general(aircraft.definition.speeds.get(name, []))


def _rows(entries: list[SpeedEntry]) -> list[tuple[float, SpeedEntry]]:
    """Return those that hold at an altitude, each with it, the lowest first."""
    rows = [(float(one.altitude), one) for one in entries if one.altitude is not None]
    return sorted(rows, key=_altitude)


def _altitude(row: tuple[float, SpeedEntry]) -> float:
    return row[0]


def limit_at(aircraft: Aircraft, altitude: float, oat: float | None = None) -> Limit | None:
    """Return the lowest of the limits that hold at an altitude.

    Parameters
    ----------
    aircraft : Aircraft
    altitude : float
        Pressure altitude, in the manual's unit.
    oat : float, optional
        Outside air temperature, in the manual's unit; standard where left out.

    Returns
    -------
    Limit or None
        None where the manual gives none for the altitude, and where one of
        those that hold is not known in CAS, so that it may be the lowest.

    Notes
    -----
    A limit in TAS or Mach number becomes CAS by NASA RP-1046 at the pressure
    of ICAO Doc 7488. Of limits by rows of altitude the first row holds below
    itself too, between two rows the lower holds, and above the last there is
    none unless it falls from there on; they are linear where the manual says
    so, and where they are a TAS.
    """
    limits = limits_at(aircraft, altitude, oat)
    if any(np.isnan(limit.cas) for limit in limits):
        return None
    return min(limits, key=lambda limit: round(limit.cas, 6), default=None)


def limits_at(aircraft: Aircraft, altitude: float, oat: float | None = None) -> list[Limit]:
    """Return the limits that hold at an altitude, each in CAS; see `limit_at`."""
    air = float(aircraft.standard_temperature(altitude)) if oat is None else oat
    return [
        Limit(name, entry, quantity, value, _cas(aircraft, entry, quantity, value, altitude, air))
        for name in LIMITS
        for entry, quantity, value in _given(_entries(aircraft, name), altitude)
    ]


def highest_limit(aircraft: Aircraft) -> float:
    """Return the highest that the indicator may show at any altitude, in its own unit.

    Not a number where no limit is known as indicated.
    """
    rows = [one for name in LIMITS for one in _entries(aircraft, name)]
    shown = [shown_limit(aircraft, one) for one in rows if one.from_altitude is None]
    return max((one for one in shown if not np.isnan(one)), default=math.nan)


def most_shown(aircraft: Aircraft, limit: Limit) -> float:
    """Return what the indicator may show at a limit; not a number where that is not known."""
    if limit.quantity == "ias":
        return not_widened(aircraft, limit.value, "maximum")
    return float(aircraft.indicated_from_ias(aircraft.ias_from_cas(limit.cas)))


def not_widened(aircraft: Aircraft, ias: float, sense: Sense) -> float:
    """Return what the indicator shows at a limit in IAS, which a bench card may only tighten.

    Of a maximum no more than the manual's own figure, of a minimum no less;
    not a number where the bench card does not reach.
    """
    shown = float(aircraft.indicated_from_ias(ias))
    own = float(convert(ias, aircraft.units.speed, aircraft.indicator_unit))
    if sense == "maximum":
        return float(np.minimum(shown, own))
    return float(np.maximum(shown, own)) if sense == "minimum" else shown


def shown_limit(aircraft: Aircraft, entry: SpeedEntry, gear: str = "") -> float:
    """Return what the indicator shows at a limit in IAS or CAS, but no more than was entered.

    A bench card may lower a maximum that was entered as IAS, and never raise it.
    """
    if entry.ias is not None:
        return not_widened(aircraft, float(entry.ias), "maximum")
    if entry.cas is not None:
        ias = aircraft.ias_from_cas(float(entry.cas), entry.flaps, gear=entry.gear or gear)
        return float(aircraft.indicated_from_ias(ias))
    return math.nan


def vmo_and_mmo(aircraft: Aircraft) -> tuple[SpeedEntry, SpeedEntry] | None:
    """Return VMO and MMO, where the manual gives one of each that holds at all altitudes."""
    vmo, mmo = (_entries(aircraft, name) for name in ("VMO", "MMO"))
    if len(vmo) != 1 or len(mmo) != 1 or mmo[0].mach is None:
        return None
    if any(one.altitude is not None or one.from_altitude is not None for one in (*vmo, *mmo)):
        return None
    return vmo[0], mmo[0]


def crossover_altitude(aircraft: Aircraft) -> float:
    """Return the pressure altitude, in the manual's unit, at which VMO and MMO meet.

    Not a number for an aircraft without one of each that holds at all
    altitudes, and where they meet outside the standard atmosphere.
    """
    pair = vmo_and_mmo(aircraft)
    if pair is None:
        return math.nan
    vmo, mmo = pair
    cas = to_si(aircraft.entry_cas(vmo), aircraft.units.speed)
    assert mmo.mach is not None
    try:
        metres = airspeed.crossover_altitude(cas, float(mmo.mach))
    except OutOfBoundsError:
        return math.nan
    return float(from_si(metres, aircraft.units.altitude))


def _given(entries: list[SpeedEntry], altitude: float) -> Iterator[tuple[SpeedEntry, str, float]]:
    """Yield what the manual limits of a speed at an altitude: by which entry, and how much."""
    for entry in entries:
        if entry.altitude is None:
            for quantity, value in _quantities(entry):
                # A TAS that the manual names from some altitude on is passed below it too, where
                # it gives less than the limit in IAS: when it is warm.
                if quantity == "tas" or altitude >= float(entry.from_altitude or -np.inf):
                    yield entry, quantity, value
    given = [(level, dict(_quantities(one)), one) for level, one in _rows(entries)]
    for quantity in QUANTITIES:
        rows = [(level, held[quantity], one) for level, held, one in given if quantity in held]
        if rows:
            linear = quantity == "tas" or any(one.between for one in entries)
            yield _by_rows(rows, quantity, altitude, linear)


def _by_rows(
    rows: list[tuple[float, float, SpeedEntry]], quantity: str, altitude: float, linear: bool
) -> tuple[SpeedEntry, str, float]:
    """Read rows of altitude: the first holds below itself, and above the last there is none."""
    after = next((n for n, row in enumerate(rows) if row[0] >= altitude), None)
    if after is None:
        level, value, entry = rows[-1]
        return entry, quantity, falling(entry, value, altitude - level)
    level, value, entry = rows[after]
    if after == 0 or level == altitude:
        return entry, quantity, value
    below = rows[after - 1]
    if linear:
        nearest = min(below, rows[after], key=lambda row: abs(row[0] - altitude))
        between = Curve([below[0], level], [below[1], value])
        return nearest[2], quantity, float(between.at(altitude))
    _, value, entry = min(below, rows[after], key=lambda row: row[1])
    return entry, quantity, value


def falling(entry: SpeedEntry, value: float, above: float) -> float:
    """Return what is left of a figure above its altitude; not a number where none is said."""
    if entry.less is None:
        return math.nan
    assert entry.for_each is not None
    return value - float(entry.less) * above / float(entry.for_each)


def _quantities(entry: SpeedEntry) -> Iterator[tuple[str, float]]:
    """Yield what an entry limits; CAS beside IAS says the same again."""
    for quantity in QUANTITIES:
        value = getattr(entry, quantity)
        if value is not None and not (quantity == "cas" and entry.ias is not None):
            yield quantity, float(value)


def _cas(
    aircraft: Aircraft,
    entry: SpeedEntry,
    quantity: str,
    value: float,
    altitude: float,
    oat: float,
) -> float:
    if np.isnan(value):
        return value
    if quantity == "mach":
        pressure = atmosphere.pressure(to_si(altitude, aircraft.units.altitude))
        return float(from_si(airspeed.cas_from_mach(value, pressure), aircraft.units.speed))
    if quantity == "tas":
        return float(aircraft.cas_from_tas(value, altitude, oat))
    if quantity == "cas":
        return value
    return aircraft.entry_cas(entry) if value == entry.ias else float(aircraft.cas_from_ias(value))
