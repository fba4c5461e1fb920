"""Figures of a table held against a smooth curve or surface through all of them.

A table that was measured or computed is smooth to within its rounding. One that is not so, but
becomes so when a few of its figures are left out, has slips in these. One that is smooth in no way
that is known here, such as one with a bend of its own, is left alone.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from cardgen.units import Array

SMOOTH = 0.95  # of a figure's rounding step, studentized: half a step, and what curves take
_WELL = 0.78
_OFF = 1.15  # the same of a figure in doubt


class Off(NamedTuple):
    """A figure that stands off: its number, and what the others make of it."""

    number: int
    expected: float


class _Fit:
    """Functions fitted to figures, which are rounded to one after division by their steps."""

    def __init__(self, basis: Array, y: Array) -> None:
        u, s, self._v = np.linalg.svd(basis, full_matrices=False)
        kept = s > 1e-9 * s[0]
        self._u, self._s, self._v = u[:, kept], s[kept], self._v[kept]
        self._y = self._u.T @ y
        self.freedom = len(y) - len(self._s)
        left = np.clip(1 - np.einsum("ij,ij->i", self._u, self._u), 1e-12, None)
        self.residuals: Array = (y - self._u @ self._y) / np.sqrt(left)

    def at(self, basis: Array) -> tuple[float, float]:
        """Return the value at another figure, and how much of a step it may be off by itself."""
        along = (self._v @ basis) / self._s
        return float(along @ self._y), float(along @ along)

    def is_smooth_within(self, steps: float) -> bool:
        """Whether nothing but rounding is left."""
        return bool(np.abs(self.residuals).max() <= steps)

    def says_something(self, free: int) -> bool:
        """Whether there are so many figures that not every one could be taken up."""
        return self.freedom >= max(free, 0.2 * len(self.residuals))


def stand_off(
    bases: Sequence[Array], y: Array, steps: Array | float, most: int, free: int = 3
) -> list[Off]:
    """Return the figures of a table in doubt; none where it is smooth, or smooth in no known way.

    Parameters
    ----------
    bases : sequence of array
        Smooth functions at each figure, from the strictest set to the loosest.
    y : array
        The figures.
    steps : float or array
        What they are rounded to.
    most : int
        How many at the most may be in doubt.
    free : int
        How many more figures there must be than functions.
    """
    weights = np.broadcast_to(1 / np.asarray(steps), y.shape)
    fits = []
    for basis in bases:
        fit = _Fit(basis * weights[:, None], y * weights)
        if fit.says_something(free):
            if fit.is_smooth_within(_WELL):
                return []
            fits.append((basis, fit))
    for basis, fit in fits:
        found = _left_out(basis * weights[:, None], y * weights, fit, most, free)
        if found:
            return [Off(k, value / float(weights[k])) for k, value in found]
    return []


def _left_out(basis: Array, y: Array, fit: _Fit, most: int, free: int) -> list[tuple[int, float]]:
    """Leave out the worst figures, one after another, until the rest is smooth."""
    kept, out = np.arange(len(y)), []
    for _ in range(most):
        worst = int(np.abs(fit.residuals).argmax())
        out.append(int(kept[worst]))
        kept = np.delete(kept, worst)
        fit = _Fit(basis[kept], y[kept])
        if not fit.says_something(free):
            return []
        if fit.is_smooth_within(SMOOTH):
            found = [(k, *fit.at(basis[k])) for k in out]
            clear = all(abs(y[k] - at) > _OFF * np.sqrt(1 + loose) for k, at, loose in found)
            return [(k, at) for k, at, _ in found] if clear else []
    return []
