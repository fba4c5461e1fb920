"""Interpolation of a manual's cruise table."""

import itertools
import math
from collections.abc import Mapping, Sequence

from cardgen.definition.model import CRUISE_SETTINGS, Cruise
from cardgen.definition.places import Figure

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
        The columns that are not axes; None where the table does not reach.

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
    order = [cruise.columns.index(name) for name in names]
    rows = [[float(figure) for figure in row] for row in cruise.rows]
    row = _read(rows, [(column, at[name]) for column, name in zip(order, names, strict=True)])
    if row is None:
        return None
    return {
        name: figure for name, figure in zip(cruise.columns, row, strict=True) if name not in names
    }


def axes(cruise: Cruise) -> list[str]:
    """Return the columns that a cruise table is entered with, in the order of reading."""
    air = temperature(cruise)
    return ["altitude", *([air] if air else []), *settings(cruise)]


def temperature(cruise: Cruise) -> str | None:
    """Return the column of temperatures, if there is more than one to read between."""
    for name in ("isa", "oat"):
        if name in cruise.columns and len(set(_column(cruise, name))) > 1:
            return name
    return None


def held_temperature(cruise: Cruise) -> tuple[str, Figure] | None:
    """Return the one temperature that all rows hold for, with its column."""
    for name in ("isa", "oat"):
        if name in cruise.columns and temperature(cruise) is None:
            return name, _column(cruise, name)[0]
    return None


def settings(cruise: Cruise) -> list[str]:
    """Return the columns that are set, and held from one altitude to the next.

    A power setting is what a manual repeats at several altitudes. What comes
    of it, such as the manifold pressure that gives 65 % power at each, is a
    result: of all sets of columns that tell the rows apart, the one whose
    values stand at the most altitudes is set; the fullest of those, with power
    itself only where nothing else serves.
    """
    known = [name for name in (*CRUISE_SETTINGS, "power") if name in cruise.columns]
    sets = [one for size in range(len(known) + 1) for one in itertools.combinations(known, size)]
    apart = [one for one in sets if _tells_apart(cruise, one)]
    usual = tuple(name for name in known if name != "power")
    best = max(apart, key=lambda one: (_repeated(cruise, one), "power" not in one, len(one)),
               default=usual)  # fmt: skip
    return [*(best if _repeated(cruise, best) else usual)]


def _column(cruise: Cruise, name: str) -> list[Figure]:
    at = cruise.columns.index(name)
    return [row[at] for row in cruise.rows]


def _tells_apart(cruise: Cruise, names: Sequence[str]) -> bool:
    air = [name for name in ("isa", "oat") if name in cruise.columns]
    keys = [_column(cruise, name) for name in ("altitude", *air, *names)]
    rows = list(zip(*keys, strict=True))
    return len(set(rows)) == len(rows)


def _repeated(cruise: Cruise, names: Sequence[str]) -> int:
    """Count the rows whose settings stand at another altitude too."""
    chosen = list(zip(*(_column(cruise, name) for name in names), strict=True)) or [()] * len(
        cruise.rows
    )
    altitudes: dict[tuple[Figure, ...], set[Figure]] = {}
    for setting, altitude in zip(chosen, _column(cruise, "altitude"), strict=True):
        altitudes.setdefault(setting, set()).add(altitude)
    return sum(len(altitudes[setting]) > 1 for setting in chosen)


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
    return [a + share * (b - a) for a, b in zip(low, high, strict=True)]
