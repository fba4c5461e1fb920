"""The speed limit of an aircraft at an altitude, where it changes with altitude."""

from dataclasses import dataclass

import numpy as np

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.curve import Curve
from cardgen.definition.model import SpeedEntry
from cardgen.units import from_si, to_si

LIMITS = ("VNE", "VMO", "MMO")


@dataclass(frozen=True)
class Limit:
    """One of the limits that hold at an altitude; `cas` is in the manual's unit."""

    name: str
    entry: SpeedEntry
    cas: float


def falls_with_altitude(aircraft: Aircraft) -> bool:
    """Whether the manual limits speed by more than one airspeed for all altitudes."""
    entries = _entries(aircraft)
    return any(one.tas or one.mach or one.altitude is not None for _, one in entries)


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
        None where the manual gives none for the altitude.

    Notes
    -----
    A limit in TAS or Mach number becomes CAS by NASA RP-1046 at the pressure
    of ICAO Doc 7488. Limits by altitude are linear between the
    altitudes that the manual gives.
    """
    limits = [
        Limit(name, entry, _cas(aircraft, entry, altitude, oat))
        for name, entry in _entries(aircraft)
        if entry.altitude is None and altitude >= float(entry.from_altitude or -np.inf)
    ]
    limits += _by_altitude(aircraft, altitude)
    known = [limit for limit in limits if not np.isnan(limit.cas)]
    return min(known, key=lambda limit: round(limit.cas, 6), default=None)


def crossover_altitude(aircraft: Aircraft) -> float:
    """Return the pressure altitude, in the manual's unit, at which VMO and MMO meet.

    Not a number for an aircraft without both.
    """
    speeds = aircraft.definition.speeds
    if not ("VMO" in speeds and "MMO" in speeds) or speeds["MMO"][0].mach is None:
        return float("nan")
    cas = to_si(aircraft.entry_cas(speeds["VMO"][0]), aircraft.units.speed)
    metres = airspeed.crossover_altitude(cas, float(speeds["MMO"][0].mach))
    return float(from_si(metres, aircraft.units.altitude))


def _entries(aircraft: Aircraft) -> list[tuple[str, SpeedEntry]]:
    speeds = aircraft.definition.speeds
    return [(name, entry) for name in LIMITS for entry in speeds.get(name, [])]


def _cas(aircraft: Aircraft, entry: SpeedEntry, altitude: float, oat: float | None) -> float:
    if entry.mach is not None:
        pressure = atmosphere.pressure(to_si(altitude, aircraft.units.altitude))
        cas = airspeed.cas_from_mach(float(entry.mach), pressure)
        return float(from_si(cas, aircraft.units.speed))
    if entry.tas is not None:
        air = aircraft.standard_temperature(altitude) if oat is None else oat
        return float(aircraft.cas_from_tas(float(entry.tas), altitude, air))
    return aircraft.entry_cas(entry)


def _by_altitude(aircraft: Aircraft, altitude: float) -> list[Limit]:
    """Return the limit that the manual tabulates over altitude, if it does."""
    found = []
    for name in LIMITS:
        given = [
            (float(one.altitude), one)
            for one in aircraft.definition.speeds.get(name, [])
            if one.altitude is not None and one.ias is not None
        ]
        if len(given) > 1:
            given.sort(key=lambda pair: pair[0])
            levels = [level for level, _ in given]
            ias = Curve(levels, [float(one.ias or 0.0) for _, one in given]).at(altitude)
            nearest = min(given, key=lambda pair: abs(pair[0] - altitude))[1]
            found.append(Limit(name, nearest, float(aircraft.cas_from_ias(ias))))
    return found
