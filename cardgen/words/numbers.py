"""Numbers and units as they are printed: grouping, the minus sign, the degree sign."""

import functools

from cardgen.document.record import Quantity
from cardgen.document.rounding import rounded

DASH = "–"
MINUS = "−"
SYMBOLS = {"C": "°C", "F": "°F", "deg": "°", "min": "min"}  # where a unit's name is not printed
CLOSE = {"deg"}  # units that stand close to their number


@functools.lru_cache(20_000)  # a page, its files and its marks all say the same numbers
def number(quantity: Quantity) -> str:
    """Return a quantity's number as printed: as it was entered, or rounded by its sense.

    Examples
    --------
    >>> number(Quantity(-4.6, "kt")), number(Quantity(10500.5, "ft", entered="10500.5"))
    ('−5', '10,500.5')
    >>> number(Quantity(70.0, "kt", high=80.0)), number(Quantity(93.9, "kt", sense="maximum"))
    ('70–80', '93')
    """
    if quantity.entered:
        return grouped(quantity.entered)
    low = _one(quantity.value, quantity)
    return low if quantity.high is None else f"{low}{DASH}{_one(quantity.high, quantity)}"


def _one(value: float, quantity: Quantity) -> str:
    return grouped(f"{rounded(value, quantity.sense, quantity.decimals):.{quantity.decimals}f}")


def grouped(text: str) -> str:
    """Return digits with commas from five before the point on, and a true minus sign.

    Examples
    --------
    >>> grouped("-500"), grouped("10000"), grouped("9500.25")
    ('−500', '10,000', '9500.25')
    """
    sign = MINUS if text.startswith("-") else "+" if text.startswith("+") else ""
    whole, point, part = text.lstrip("+-").partition(".")
    if len(whole) > 4 and whole.isdigit():
        whole = f"{int(whole):,}"
    return f"{sign}{whole}{point}{part}"


def typed(quantity: Quantity) -> str:
    """Return a quantity as a definition's file holds it, where it can be searched for.

    Examples
    --------
    >>> typed(Quantity(-10001.0, "ft", entered="-10001"))
    '-10001 ft'
    """
    value = rounded(quantity.value, quantity.sense, quantity.decimals)
    said = quantity.entered or f"{value:.{quantity.decimals}f}"
    return f"{said} {quantity.unit}".rstrip()


def symbol(unit: str) -> str:
    """Return a unit as it is printed."""
    return SYMBOLS.get(unit, unit)


def with_unit(quantity: Quantity, close: bool = False) -> str:
    """Return a quantity's number and unit.

    Examples
    --------
    >>> with_unit(Quantity(120.0, "kt")), with_unit(Quantity(30.0, "deg"))
    ('120 kt', '30°')
    >>> with_unit(Quantity(15.0, "C")), with_unit(Quantity(15.0, "C"), close=True)
    ('15 °C', '15°C')
    """
    if not quantity.unit:
        return number(quantity)
    gap = "" if close or quantity.unit in CLOSE else " "
    return f"{number(quantity)}{gap}{symbol(quantity.unit)}"
