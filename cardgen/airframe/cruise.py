"""Interpolation of a manual's cruise table."""

import math
from collections.abc import Mapping, Sequence

from cardgen.definition.cruise import Cruise, axes

_NOISE = 1e-9  # what floating-point arithmetic leaves between a temperature and a table's end


def interpolated(cruise: Cruise, at: Mapping[str, float]) -> dict[str, float] | None:
    """Read a cruise table between its rows.

    Parameters
    ----------
    cruise : Cruise
        The table.
    at : mapping of str to float
        A value for each of the table's axes (`axes`), in the manual's units.

    Returns
    -------
    dict of str to float, or None
        The columns that are not axes; None where the table does not reach. Not
        a number where the manual gives no figure in a row that is read.

    Raises
    ------
    KeyError
        If `at` leaves out an axis of the table.

    Notes
    -----
    Linear in one axis after another, in the order altitude, temperature,
    setting, as pilots are taught to read such tables. Each bracketing row is
    looked for among the rows that the manual has there, so a setting beyond
    those that are given at an altitude has no value there.
    """
    names = axes(cruise)
    rows = [[math.nan if one is None else float(one) for one in row] for row in cruise.rows]
    row = _read(rows, [(cruise.columns.index(name), at[name]) for name in names])
    if row is None:
        return None
    return {name: row[n] for n, name in enumerate(cruise.columns) if name not in names}


def _read(rows: list[list[float]], at: Sequence[tuple[int, float]]) -> list[float] | None:
    """Interpolate in the first axis, reading each of its two brackets in the others."""
    if not at:
        return rows[0]
    (column, wanted), rest = at[0], at[1:]
    given = {row[column] for row in rows}
    wanted = next((value for value in given if math.isclose(value, wanted, abs_tol=_NOISE)), wanted)
    below = max((value for value in given if value <= wanted), default=None)
    above = min((value for value in given if value >= wanted), default=None)
    if below is None or above is None:
        return None
    low = _read([row for row in rows if row[column] == below], rest)
    if below == above or low is None:
        return low
    high = _read([row for row in rows if row[column] == above], rest)
    if high is None:
        return None
    share = (wanted - below) / (above - below)
    return [before + share * (high[n] - before) for n, before in enumerate(low)]
