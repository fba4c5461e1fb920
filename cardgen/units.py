"""Units of measurement and the conversions between them.

Every factor is the exact ratio that defines the unit, kept as a fraction. A
new unit is one new entry in `UNITS`.
"""

import functools
import math
from fractions import Fraction
from typing import Literal, NamedTuple, get_args

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Values = float | Array


class Unit(NamedTuple):
    """A unit: what it measures, and how it becomes SI as ``(value + offset) * factor``."""

    quantity: str
    factor: Fraction
    offset: Fraction = Fraction(0)


_INCH_OF_MERCURY = Fraction("3386.389")  # at 0 C, NIST SP 811 Appendix B.8
_US_GALLON = Fraction("0.003785411784")  # 231 cubic inches

UNITS: dict[str, Unit] = {
    "m/s": Unit("speed", Fraction(1)),
    "kt": Unit("speed", Fraction(1852, 3600)),
    "mph": Unit("speed", Fraction("1609.344") / 3600),
    "km/h": Unit("speed", Fraction(1000, 3600)),
    "ft/min": Unit("speed", Fraction("0.3048") / 60),
    "m": Unit("length", Fraction(1)),
    "ft": Unit("length", Fraction("0.3048")),
    "NM": Unit("length", Fraction(1852)),
    "km": Unit("length", Fraction(1000)),
    "mi": Unit("length", Fraction("1609.344")),
    "K": Unit("temperature", Fraction(1)),
    "C": Unit("temperature", Fraction(1), Fraction("273.15")),
    "F": Unit("temperature", Fraction(5, 9), Fraction("459.67")),
    "kg": Unit("weight", Fraction(1)),
    "lb": Unit("weight", Fraction("0.45359237")),
    "Pa": Unit("pressure", Fraction(1)),
    "hPa": Unit("pressure", Fraction(100)),
    "inHg": Unit("pressure", _INCH_OF_MERCURY),
    "m3": Unit("volume", Fraction(1)),
    "L": Unit("volume", Fraction(1, 1000)),
    "gal": Unit("volume", _US_GALLON),
    "m3/s": Unit("volume flow", Fraction(1)),
    "L/h": Unit("volume flow", Fraction(1, 3_600_000)),
    "gal/h": Unit("volume flow", _US_GALLON / 3600),
    "kg/s": Unit("mass flow", Fraction(1)),
    "kg/h": Unit("mass flow", Fraction(1, 3600)),
    "lb/h": Unit("mass flow", Fraction("0.45359237") / 3600),
    "rad": Unit("angle", Fraction(1)),
    "deg": Unit("angle", Fraction(math.pi) / 180),
}

SpeedUnit = Literal["kt", "mph", "km/h"]
AIRSPEED_UNITS: tuple[SpeedUnit, ...] = get_args(SpeedUnit)
"""What manuals give airspeeds in, and what indicators read."""

SI: dict[str, str] = {
    unit.quantity: name for name, unit in UNITS.items() if unit.factor == 1 and unit.offset == 0
}


def units_of(quantity: str) -> tuple[str, ...]:
    """Return the names of the units that measure a quantity.

    Examples
    --------
    >>> units_of("weight")
    ('kg', 'lb')
    """
    return tuple(name for name, unit in UNITS.items() if unit.quantity == quantity)


def convert(value: Values, source: str, target: str) -> Values:
    """Convert a value from one unit to another of the same quantity.

    Parameters
    ----------
    value : float or array
        In `source`.
    source, target : str
        Keys of `UNITS`.

    Returns
    -------
    float or array
        In `target`, of the shape of `value`.

    Raises
    ------
    ValueError
        If the units measure different quantities.

    Notes
    -----
    The international knot is 1852 m/h and the international mile 1609.344 m,
    both exactly (NIST SP 811, Appendix B).

    Examples
    --------
    >>> convert(100.0, "kt", "km/h")
    185.2
    >>> convert(100.0, "C", "F")
    212.0
    """
    if source == target:
        return value
    numerator, denominator, offset = _steps(source, target)
    return value * numerator / denominator + offset


def convert_difference(value: Values, source: str, target: str) -> Values:
    """Convert a difference of two values, to which a scale's zero point does not matter.

    Examples
    --------
    >>> convert_difference(10.0, "C", "F")
    18.0
    """
    numerator, denominator, _ = _steps(source, target)
    return value * numerator / denominator


def ratio(source: str, target: str) -> tuple[float, float]:
    """Return what `convert` multiplies with and divides by, for units whose zeros are one.

    Examples
    --------
    >>> ratio("kt", "km/h")
    (463.0, 250.0)
    """
    numerator, denominator, _ = _steps(source, target)
    return numerator, denominator


def to_si(value: Values, unit: str) -> Values:
    """Convert a value from `unit` to the SI unit of its quantity.

    Examples
    --------
    >>> to_si(1000.0, "ft")
    304.8
    """
    return convert(value, unit, SI[UNITS[unit].quantity])


def from_si(value: Values, unit: str) -> Values:
    """Convert a value from the SI unit of its quantity to `unit`.

    Examples
    --------
    >>> from_si(304.8, "ft")
    1000.0
    """
    return convert(value, SI[UNITS[unit].quantity], unit)


@functools.cache
def _steps(source: str, target: str) -> tuple[float, float, float]:
    """Return what to multiply with, to divide by and to add."""
    a, b = UNITS[source], UNITS[target]
    if a.quantity != b.quantity:
        raise ValueError(
            f"{source} measures {a.quantity} and {target} measures {b.quantity}; "
            "one cannot become the other"
        )
    ratio = a.factor / b.factor
    offset = a.offset * ratio - b.offset
    return float(ratio.numerator), float(ratio.denominator), float(offset)
