"""Rounding on the safe side: once here, and once in ``templates/page.js``, which is held to it."""

import math
from typing import Literal

Sense = Literal["maximum", "minimum", "target"]

DECIMALS = 6  # of a document's values: finer than any figure, coarser than a processor's whims
NOISE = 1e-9  # of the last printed place: what floating-point arithmetic leaves behind


def rounded(value: float, sense: Sense = "target", decimals: int = 0) -> float:
    """Round a computed value so that flying by it errs on the safe side.

    Parameters
    ----------
    value : float
        A finite number.
    sense : str
        A ``maximum`` goes down, a ``minimum`` goes up, a ``target`` to the
        nearest, halves away from zero.
    decimals : int
        Places after the point.

    Returns
    -------
    float

    Notes
    -----
    A value within `NOISE` of a printable one is that one: 1.3 times 70 kt is
    91 kt, though its floating-point product is a hair above.

    Examples
    --------
    >>> rounded(93.9, "maximum"), rounded(48.1, "minimum"), rounded(69.5)
    (93.0, 49.0, 70.0)
    >>> rounded(91.00000000000001, "minimum")
    91.0
    """
    scale = 10.0**decimals
    return _WAYS[sense](value * scale) / scale + 0.0


def _down(value: float) -> float:
    return math.floor(value + NOISE)


def _up(value: float) -> float:
    return math.ceil(value - NOISE)


def _nearest(value: float) -> float:
    return math.copysign(math.floor(abs(value) + 0.5 + NOISE), value)


_WAYS = {"maximum": _down, "minimum": _up, "target": _nearest}


def kept(value: float) -> float:
    """Return a value as a document keeps it, so that every reader rounds the same number.

    Examples
    --------
    >>> kept(93.86211449999)
    93.862114
    """
    return round(value, DECIMALS) + 0.0


_SENSES: dict[str, tuple[Sense, ...]] = {
    "yellow": ("maximum", "maximum"),  # caution begins early rather than late
    "red-line": ("maximum",),
    "blue-line": ("target",),
}


def senses_of_mark(name: str) -> tuple[Sense, ...]:
    """Return which way the ends of a marking may be rounded: a minimum below, a maximum above.

    Parameters
    ----------
    name : str
        Of the marking, such as ``white``, ``red-line`` or ``blue-line``.
    """
    return _SENSES.get(name, ("minimum", "maximum"))
