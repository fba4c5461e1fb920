"""Rounding on the safe side, in one place for every table."""

import math
from decimal import ROUND_HALF_UP, Decimal

from cardgen.definition.speeds import Sense

NOISE = 1e-9  # of the last printed place: what floating-point arithmetic leaves behind


def rounded(value: float, sense: Sense = Sense.TARGET, decimals: int = 0) -> float:
    """Round a computed value so that flying by it errs on the safe side.

    Parameters
    ----------
    value : float
        A finite number.
    sense : Sense
        A maximum goes down, a minimum goes up, all else to the nearest, halves
        away from zero.
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
    >>> rounded(93.9, Sense.MAXIMUM), rounded(48.1, Sense.MINIMUM), rounded(69.5)
    (93.0, 49.0, 70.0)
    >>> rounded(91.00000000000001, Sense.MINIMUM)
    91.0
    """
    scaled = value * 10.0**decimals
    nearest = float(Decimal(scaled).quantize(Decimal(1), ROUND_HALF_UP))
    if sense is Sense.TARGET or abs(scaled - nearest) <= NOISE:
        # A half that noise pulled just under must still go up.
        half = Decimal(scaled + math.copysign(NOISE, scaled))
        whole = float(half.quantize(Decimal(1), ROUND_HALF_UP))
    elif sense is Sense.MAXIMUM:
        whole = math.floor(scaled)
    else:
        whole = math.ceil(scaled)
    return whole / 10.0**decimals + 0.0


def printed(value: float, sense: Sense = Sense.TARGET, decimals: int = 0) -> str:
    """Return a value as it is printed: rounded, with a true minus sign.

    Examples
    --------
    >>> printed(-4.6), printed(8.25, decimals=1)
    ('−5', '8.3')
    """
    return f"{rounded(value, sense, decimals):.{decimals}f}".replace("-", "−")
