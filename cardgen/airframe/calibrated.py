"""A manual's calibration table as IAS beside CAS, in whichever form it is printed."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from cardgen.airframe.curve import Curve
from cardgen.definition.corrections import Calibration
from cardgen.definition.places import Figure, Place

_Number = TypeVar("_Number", bound=float)
_NOISE = 1e-9  # what floating-point arithmetic leaves between two points that are one


@dataclass(frozen=True)
class Calibrated:
    """A calibration table, read as IAS and CAS.

    Attributes
    ----------
    given : Calibration
        As the manual prints it.
    flaps, static_source, gear : str
        What it holds for; `gear` is empty where it holds for either.
    ias, cas : list of Figure
        The manual's points; a figure that is not printed stands at the place
        of the one that it was computed from.
    curve : Curve
        CAS over IAS, at every point where it bends.
    """

    given: Calibration
    flaps: str
    static_source: str
    gear: str
    ias: list[Figure]
    cas: list[Figure]
    curve: Curve

    @property
    def place(self) -> Place:
        """Where the table stands."""
        return self.given.place

    @property
    def page(self) -> str | None:
        """The page of the table."""
        return self.given.page

    @property
    def when(self) -> str | None:
        """Conditions of the table."""
        return self.given.when

    @property
    def is_printed(self) -> bool:
        """Whether the manual itself prints IAS beside CAS."""
        return self.given.form == ("ias", "cas")

    def place_of(self, key: str) -> Place:
        """Where the value of a key stands, or the table where it has none."""
        return self.given.place_of(key)


def calibrated(table: Calibration, setting: tuple[str, str, str]) -> Calibrated:
    """Read a table that needs no other; see `by_normal_source`."""
    ias, cas = _columns(table.readings)
    return Calibrated(table, *setting, ias, cas, Curve(ias, cas))


def by_normal_source(
    table: Calibration, setting: tuple[str, str, str], normal: Calibrated | None
) -> Calibrated | None:
    """Read a table of the normal source's IAS, and that in the normal source's table.

    None where that has no part in common with it.
    """
    if normal is None:
        return None
    pairs = table.readings
    first = Curve(*_columns(pairs))
    points = [(float(ias), float(normal.curve.at(float(one)))) for ias, one in pairs]
    for ias, cas in np.transpose([first.back(normal.curve.x), normal.curve.y]):
        if not any(abs(ias - known) < _NOISE for known, _ in points):
            points.append((float(ias), float(cas)))
    known = sorted(point for point in points if not np.isnan(point).any())
    reached = [
        (ias, _figure(float(cas), one.place))
        for ias, one in pairs
        if not np.isnan(cas := normal.curve.at(float(one)))
    ]
    if len(known) < 2:
        return None
    place = table.place
    ends = [(_figure(ias, place), _figure(cas, place)) for ias, cas in (known[0], known[-1])]
    return Calibrated(table, *setting, *_columns(reached or ends), Curve(*_columns(known)))


def chosen(tables: Iterable[Calibrated], flaps: str, source: str, gear: str) -> Calibrated | None:
    """Return the table that says it holds for a gear, or else one that holds for either."""
    found = [one for one in tables if (one.flaps, one.static_source) == (flaps, source)]
    fitting = [one for one in found if not gear or one.gear in (gear, "")]
    return max(fitting, key=lambda one: one.gear == gear, default=None)


def _columns(pairs: Sequence[tuple[_Number, _Number]]) -> tuple[list[_Number], list[_Number]]:
    return [one for one, _ in pairs], [other for _, other in pairs]


def _figure(value: float, place: Place) -> Figure:
    """Return a computed number as a figure at the place of what it was computed from."""
    return Figure(str(round(value, 6)).removesuffix(".0"), place)
