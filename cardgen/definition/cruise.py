"""How a manual's cruise table is entered: which of its columns are set, and which come of them."""

import itertools
from collections.abc import Sequence

from cardgen.definition.model import CRUISE_SETTINGS, Cruise
from cardgen.definition.places import Figure


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
