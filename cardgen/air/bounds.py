"""Refusal of inputs that mean nothing."""

import math

import numpy as np

from cardgen.units import Values


class OutOfBoundsError(ValueError):
    """A value lies outside the bounds within which a formula holds."""


def require(
    name: str,
    values: Values,
    unit: str,
    *,
    least: float = -np.inf,
    most: float = np.inf,
    above: float = -np.inf,
    below: float = np.inf,
) -> Values:
    """Return the values unchanged, or raise where one of them is out of bounds.

    Parameters
    ----------
    name : str
        What the values are, as the message should say it.
    values : float or array
        In `unit`.
    unit : str
        For the message only; empty for a pure number.
    least, most : float
        Bounds that belong to the range.
    above, below : float
        Bounds that do not.

    Raises
    ------
    OutOfBoundsError
        Naming the value that is farthest out of bounds, and the bound. A value
        that is not a number is out of any bounds.

    Examples
    --------
    >>> require("bank", 1.0, "rad", least=0.0, below=1.5)
    1.0
    >>> require("speed", -5.0, "m/s", least=0.0)
    Traceback (most recent call last):
    cardgen.air.bounds.OutOfBoundsError: speed -5 m/s is below 0 m/s
    """
    low, high = (values, values) if isinstance(values, float) else (np.min(values), np.max(values))
    if low < least:
        raise OutOfBoundsError(_said(name, low, "is below", least, unit))
    if high > most:
        raise OutOfBoundsError(_said(name, high, "is above", most, unit))
    if low <= above:
        raise OutOfBoundsError(_said(name, low, "is not above", above, unit))
    if high >= below:
        raise OutOfBoundsError(_said(name, high, "is not below", below, unit))
    if math.isnan(low):
        raise OutOfBoundsError(
            f"{name} nan {unit}".rstrip() + " is not a number; expected a number"
        )
    return values


def _said(name: str, value: float, where: str, bound: float, unit: str) -> str:
    return f"{name} {value:.6g} {unit}".rstrip() + f" {where} {bound:.6g} {unit}".rstrip()
