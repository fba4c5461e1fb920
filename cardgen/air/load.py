"""Load factor, and how speeds at a given lift coefficient grow with it."""

import numpy as np

from cardgen.air.bounds import require
from cardgen.units import Values


def load_factor(bank: Values) -> Values:
    """Load factor in a level, coordinated turn.

    Parameters
    ----------
    bank : float or array
        rad, 0 to below a right angle.

    Returns
    -------
    float or array
        Lift over weight.

    Raises
    ------
    OutOfBoundsError
        If the bank is negative or a right angle or more.

    Notes
    -----
    ``n = 1 / cos(bank)``: the vertical part of the lift carries the weight
    (FAA-H-8083-25B, chapter 5, load factors in steep turns).

    Examples
    --------
    >>> round(float(load_factor(np.radians(60.0))), 9)
    2.0
    """
    require("bank", bank, "rad", least=0.0, below=np.pi / 2)
    return 1.0 / np.cos(bank)


def speed_ratio(weight_ratio: Values, load: Values) -> Values:
    """Factor on a stall or manoeuvring speed at another weight and load factor.

    Parameters
    ----------
    weight_ratio : float or array
        Weight over the weight for which the speed is known, above zero.
    load : float or array
        Load factor over that for which the speed is known, above zero.

    Returns
    -------
    float or array
        Factor on the calibrated airspeed.

    Raises
    ------
    OutOfBoundsError
        If an input is not above zero.

    Notes
    -----
    At one lift coefficient, lift grows with the square of the speed, so the
    speed grows with the square root of the lift (FAA-H-8083-25B, chapter 5).

    Examples
    --------
    >>> float(speed_ratio(1.0, 4.0))
    2.0
    """
    require("weight ratio", weight_ratio, "", above=0.0)
    require("load factor", load, "", above=0.0)
    return np.sqrt(weight_ratio * load)
