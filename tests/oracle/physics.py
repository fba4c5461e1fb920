"""Units, air, airspeed and rounding in forty digits, each from its definition.

The atmosphere is that of ICAO Doc 7488 to 20 km, airspeeds follow the
isentropic relations of NASA RP-1046 for subsonic flow with a ratio of specific
heats of 1.4. All quantities are in SI units unless a name says otherwise.
"""

from fractions import Fraction
from functools import cache
from itertools import pairwise

import mpmath

mp = mpmath.mp.clone()  # a context of our own, so that no other test loses its precision
mp.dps = 40
Number = mp.mpf

# -- units ---------------------------------------------------------------------------------

SI = {
    "m/s": Fraction(1),
    "kt": Fraction(1852, 3600),
    "mph": Fraction("1609.344") / 3600,
    "km/h": Fraction(1000, 3600),
    "m": Fraction(1),
    "km": Fraction(1000),
    "ft": Fraction("0.3048"),
    "NM": Fraction(1852),
    "mi": Fraction("1609.344"),
    "ft/min": Fraction("0.3048") / 60,
    "L": Fraction(1, 1000),
    "gal": 231 * Fraction("0.0254") ** 3,  # cubic inches
    "kg": Fraction(1),
    "lb": Fraction("0.45359237"),
    "Pa": Fraction(1),
    "hPa": Fraction(100),
    "inHg": Fraction("3386.389"),
}


@cache
def number(text: str) -> Number:
    """Return the number that a printed or typed text says."""
    return Number(text.replace("−", "-").replace(",", "").lstrip("+"))


def convert(value: Number, source: str, target: str) -> Number:
    ratio = SI[source] / SI[target]
    return value * ratio.numerator / ratio.denominator


def kelvin(value: Number, unit: str) -> Number:
    if unit == "F":
        return (value + Number("459.67")) * 5 / 9
    return value + Number("273.15")


def from_kelvin(value: Number, unit: str) -> Number:
    if unit == "F":
        return value * 9 / 5 - Number("459.67")
    return value - Number("273.15")


# -- the standard atmosphere ---------------------------------------------------------------

T0 = Number("288.15")
P0 = Number("101325")
GRAVITY = Number("9.80665")
GAS = Number("287.05287")
LAPSE = Number("0.0065")
TROPOPAUSE = Number(11000)
RHO0 = P0 / (GAS * T0)

_EXPONENT = GRAVITY / (GAS * LAPSE)
_T11 = T0 - LAPSE * TROPOPAUSE
_P11 = P0 * (_T11 / T0) ** _EXPONENT
_RHO11 = _P11 / (GAS * _T11)
_SCALE_HEIGHT = GAS * _T11 / GRAVITY


def standard_temperature(altitude: Number) -> Number:
    return T0 - LAPSE * min(altitude, TROPOPAUSE)


@cache
def standard_pressure(altitude: Number) -> Number:
    if altitude > TROPOPAUSE:
        return _P11 * mp.exp((TROPOPAUSE - altitude) / _SCALE_HEIGHT)
    return P0 * (standard_temperature(altitude) / T0) ** _EXPONENT


def pressure_altitude(pressure: Number) -> Number:
    if pressure < _P11:
        return TROPOPAUSE - _SCALE_HEIGHT * mp.log(pressure / _P11)
    return T0 / LAPSE * (1 - (pressure / P0) ** (1 / _EXPONENT))


def density_altitude(altitude: Number, temperature: Number) -> Number:
    """Return the altitude whose standard density is that of the air given."""
    density = standard_pressure(altitude) / (GAS * temperature)
    if density < _RHO11:
        return TROPOPAUSE - _SCALE_HEIGHT * mp.log(density / _RHO11)
    return T0 / LAPSE * (1 - (density / RHO0) ** (1 / (_EXPONENT - 1)))


def density_factor(altitude: Number, temperature: Number) -> Number:
    """Return TAS over EAS."""
    return mp.sqrt(RHO0 * GAS * temperature / standard_pressure(altitude))


# -- airspeed ------------------------------------------------------------------------------

GAMMA = Number("1.4")
_POWER = GAMMA / (GAMMA - 1)


def speed_of_sound(temperature: Number) -> Number:
    return mp.sqrt(GAMMA * GAS * temperature)


_A0 = speed_of_sound(T0)


def impact_over_static(mach: Number) -> Number:
    return (1 + (GAMMA - 1) / 2 * mach**2) ** _POWER - 1


def mach_from_impact(ratio: Number) -> Number:
    mach = mp.sqrt(2 / (GAMMA - 1) * ((ratio + 1) ** (1 / _POWER) - 1))
    assert mach < 1, "the relations hold for subsonic flow only"
    return mach


@cache
def impact_pressure(cas: Number) -> Number:
    return P0 * impact_over_static(cas / _A0)


def mach_from_cas(cas: Number, altitude: Number) -> Number:
    return mach_from_impact(impact_pressure(cas) / standard_pressure(altitude))


def cas_from_mach(mach: Number, altitude: Number) -> Number:
    return _A0 * mach_from_impact(impact_over_static(mach) * standard_pressure(altitude) / P0)


def tas_from_cas(cas: Number, altitude: Number, temperature: Number) -> Number:
    return mach_from_cas(cas, altitude) * speed_of_sound(temperature)


def cas_from_tas(tas: Number, altitude: Number, temperature: Number) -> Number:
    return cas_from_mach(tas / speed_of_sound(temperature), altitude)


def crossover_altitude(cas: Number, mach: Number) -> Number:
    """Return the pressure altitude at which a CAS and a Mach number are one speed."""
    return pressure_altitude(impact_pressure(cas) / impact_over_static(mach))


def ram_rise(temperature: Number, mach: Number) -> Number:
    return temperature * (GAMMA - 1) / 2 * mach**2


# -- reading tables ------------------------------------------------------------------------

_HAIR = Number("1e-30")  # what forty digits leave behind at the end of a table


def between(points: list[tuple[Number, Number]], x: Number) -> Number | None:
    """Read a table of rising x linearly between its points; outside it there is nothing."""
    for a, y in points:
        if abs(x - a) < _HAIR:
            return y
    for (a, ya), (b, yb) in pairwise(points):
        if a < x < b:
            return ya + (yb - ya) * (x - a) / (b - a)
    return None


# -- rounding ------------------------------------------------------------------------------

NOISE = Number("1e-9")  # this near to a printable value, or to a half, is as good as there

DOWN, UP, NEAREST = "down", "up", "nearest"


def printed(value: Number, sense: str, decimals: int = 0) -> str:
    """Return a value rounded in a sense, as it is printed, with a true minus sign."""
    scaled = value * 10**decimals
    nearest = mp.floor(abs(scaled) + Number("0.5") + NOISE) * mp.sign(scaled)
    if sense == NEAREST or abs(scaled - nearest) <= NOISE:
        whole = nearest
    else:
        whole = mp.floor(scaled) if sense == DOWN else mp.ceil(scaled)
    digits = str(abs(int(whole))).rjust(decimals + 1, "0")
    sign = "−" if whole < 0 else ""
    if not decimals:
        return sign + digits
    return f"{sign}{digits[:-decimals]}.{digits[-decimals:]}"
