"""The standard atmosphere and airspeeds in it, in SI, a second time and on their own.

ICAO Doc 7488 to 20 km; subsonic isentropic relations between CAS and TAS (NASA RP-1046).
"""

import math
from typing import NamedTuple

G = 9.80665
GAS = 287.05287
T0, P0 = 288.15, 101_325.0
RHO0 = P0 / (GAS * T0)
A0 = math.sqrt(1.4 * GAS * T0)
LAPSE, TROPOPAUSE = -0.0065, 11_000.0

UNITS = {
    "kt": 1852 / 3600,
    "mph": 1609.344 / 3600,
    "km/h": 1 / 3.6,
    "m/s": 1.0,
    "ft": 0.3048,
    "m": 1.0,
    "lb": 0.45359237,
    "kg": 1.0,
    "ft/min": 0.3048 / 60,
}
"""What one of each is in SI; exact by definition (NIST SP 811)."""


class Air(NamedTuple):
    """The air at one place."""

    temperature: float
    pressure: float
    density: float
    sound: float

    @property
    def sigma(self) -> float:
        return self.density / RHO0


def air(height: float, isa: float = 0) -> Air:
    """Return the air at a pressure altitude in m, so much warmer than standard."""
    standard = T0 + LAPSE * min(height, TROPOPAUSE)
    pressure = P0 * (standard / T0) ** (-G / (LAPSE * GAS))
    if height > TROPOPAUSE:
        pressure *= math.exp(-G * (height - TROPOPAUSE) / (GAS * standard))
    temperature = standard + isa
    return Air(
        temperature,
        pressure,
        pressure / (GAS * temperature),
        math.sqrt(1.4 * GAS * temperature),
    )


def tas_of_cas(cas: float, here: Air) -> float:
    impact = P0 * ((1 + 0.2 * (cas / A0) ** 2) ** 3.5 - 1)
    return here.sound * math.sqrt(5 * ((impact / here.pressure + 1) ** (2 / 7) - 1))


def cas_of_tas(tas: float, here: Air) -> float:
    impact = here.pressure * ((1 + 0.2 * (tas / here.sound) ** 2) ** 3.5 - 1)
    return A0 * math.sqrt(5 * ((impact / P0 + 1) ** (2 / 7) - 1))


def crossover(cas: float, mach: float) -> float:
    """Return the pressure altitude in m at which a CAS is a Mach number, by halving."""
    low, high = 0.0, 20_000.0
    for _ in range(60):
        middle = (low + high) / 2
        here = air(middle)
        low, high = (middle, high) if tas_of_cas(cas, here) < mach * here.sound else (low, middle)
    return low
