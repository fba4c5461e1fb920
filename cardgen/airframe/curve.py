"""A table from a manual as a curve: linear between its points, nothing outside them."""

from collections.abc import Sequence

import numpy as np

from cardgen.units import Array, Values


class Curve:
    """Two rows of figures, both strictly rising.

    Parameters
    ----------
    x, y : sequence of float
        Of equal length, two or more.

    Examples
    --------
    >>> curve = Curve([40, 60], [46, 62])
    >>> float(curve.at(50.0)), float(curve.back(62.0)), float(curve.at(70.0))
    (54.0, 60.0, nan)
    """

    def __init__(self, x: Sequence[float], y: Sequence[float]) -> None:
        self.x: Array = np.array(x)
        self.y: Array = np.array(y)

    def at(self, x: Values) -> Values:
        """Return y at x: exact at the points, not a number outside them."""
        return np.interp(x, self.x, self.y, left=np.nan, right=np.nan)

    def back(self, y: Values) -> Values:
        """Return x at y: exact at the points, not a number outside them."""
        return np.interp(y, self.y, self.x, left=np.nan, right=np.nan)
