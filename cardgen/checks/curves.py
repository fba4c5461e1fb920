"""Rows of figures that lie on a curve: calibrations, polars, altimeter tables, rows by altitude."""

import itertools
import statistics
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.fitting import stand_off
from cardgen.checks.likely import meant, step_of
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_TABLES,
    Severity,
    Told,
    digits,
    entered,
    rule,
    tell,
)
from cardgen.definition.corrections import Calibration, corrected
from cardgen.definition.places import Figure
from cardgen.units import Array


class Curve(NamedTuple):
    """Two rows of a table: at what, and which figures; what these are by which they are held."""

    name: str
    x: list[Figure]
    printed: list[Figure]
    y: Array
    steps: Array
    bases: list[Array]


def _columns(x: Array, *powers: float) -> Array:
    """Return powers of a row, scaled to its middle."""
    scaled = x / statistics.median(map(float, x))
    return np.column_stack([scaled**power for power in powers])


def _told(curve: Curve, free: int = 3) -> Iterator[Told]:
    """Tell of figures that stand off the curve of the others, and what they were misread for."""
    y, steps = curve.y, curve.steps
    for off in stand_off(curve.bases, y, steps, max(1, len(y) // 8), free):
        figure, step = curve.printed[off.number], float(steps[off.number])
        expected = float(figure) + off.expected - float(y[off.number])
        likely = meant(figure, expected, 1.5 * step)
        at = curve.x[off.number]
        misread = None if likely else _at_meant(curve, off.number)
        if misread:
            yield tell(
                at.place,
                "finding-curve-at",
                here=entered(at),
                meant=misread,
                figure=entered(figure),
            )
            continue
        yield tell(
            figure.place,
            "finding-curve-meant" if likely else "finding-curve",
            name=curve.name,
            at=entered(at),
            here=entered(figure),
            expected=digits(expected, 3),
            **({"meant": likely} if likely else {}),
        )


def _at_meant(curve: Curve, n: int) -> str | None:
    """Return the figure that a row is entered by, if another makes the curve smooth again."""
    others = [k for k in range(len(curve.x)) if k != n]
    x, y = ([row[k] for k in others] for row in (curve.x, [float(one) for one in curve.y]))
    order = np.argsort(y)
    at = np.interp(float(curve.y[n]), np.array(y)[order], np.array(x, dtype=float)[order])
    gaps = [b - a for a, b in itertools.pairwise(sorted(float(one) for one in x))]
    return meant(curve.x[n], float(at), 0.2 * min(gaps)) if gaps and min(gaps) > 0 else None


# -- calibrations ----------------------------------------------------------------------------------


def _calibration(table: Calibration) -> Curve:
    """Return what a table's second row makes of its first.

    A static source errs by a part of the dynamic pressure that is linear in the lift coefficient
    (NASA RP-1046), so by a V + b / V, about; the second set lets it bend once more.
    """
    _, beside = table.form
    x = [one for one, _ in table.pairs]
    printed = [other for _, other in table.pairs]
    y = np.array([corrected(one, beside, other) for one, other in table.pairs], dtype=float)
    at = np.array(x, dtype=float)
    steps = np.full(len(x), step_of(printed) if beside in ("cas", "normal_ias") else 1.0)
    steps = np.minimum(steps, 1.0) if max(steps) > 1 else steps
    bases = [_columns(at, 0, 1, -1), _columns(at, 0, 1, -1, 2)]
    return Curve(beside.replace("_", " "), x, printed, y, steps, bases)


@rule(
    "calibration-curve",
    Severity.WARNING,
    "look-calibration",
    "NASA RP-1046, chapter 5 (from memory)",
    OF_TABLES,
)
def calibrations_are_smooth(aircraft: Aircraft) -> Iterator[Told]:
    """A calibration table lies on a curve, within the rounding of its figures."""
    seen = set()
    for table in aircraft.calibrations:
        if table.place not in seen and len(table.given.pairs) > 5:
            seen.add(table.place)
            yield from _told(_calibration(table.given))


@rule("altimeter-curve", Severity.WARNING, "look-calibration", COMMON_PRACTICE, OF_TABLES)
def altimeter_tables_are_smooth(aircraft: Aircraft) -> Iterator[Told]:
    """An altimeter's table rises or falls smoothly with airspeed."""
    for table in aircraft.definition.altimeter_correction:
        x = [one for one, _ in table.pairs]
        printed = [other for _, other in table.pairs]
        if len(x) > 5:
            at = np.array(x, dtype=float)
            y = np.array(printed, dtype=float)
            steps = np.full(len(x), step_of(printed))
            name = table.form[1].replace("_", " ")
            yield from _told(Curve(name, x, printed, y, steps, [_columns(at, 0, 1, 2)]))


# -- polars ----------------------------------------------------------------------------------------


@rule("polar-curve", Severity.WARNING, "look-glide-speeds", COMMON_PRACTICE, OF_TABLES)
def polars_are_smooth(aircraft: Aircraft) -> Iterator[Told]:
    """Sink lies on a curve over airspeed: of the cube, the inverse and what is between."""
    for polar in aircraft.definition.type.polar:
        for row in polar.rows.values():
            if len(row) < 7:
                continue
            at = np.array(row, dtype=float)
            y = np.array(polar.sink, dtype=float)
            bases = [
                _columns(at, 3, 1, -1),
                _columns(at, 3, 2, 1, 0, -1),
                _columns(at, 3, 2, 1, 0, -1, -3),
            ]
            steps = np.maximum(step_of(polar.sink), 0.0125 * y)  # polars are drawn from flights
            yield from _told(Curve("sink", list(row), list(polar.sink), y, steps, bases))


@rule("polar-bends", Severity.WARNING, "look-glide-speeds", COMMON_PRACTICE, OF_TABLES)
def polars_bend_one_way(aircraft: Aircraft) -> Iterator[Told]:
    """Sink lies a little below the line between its neighbours, and at the end above that of two.

    Where laminar flow ends a polar may have a kink, of 8 %.
    """
    for polar in aircraft.definition.type.polar:
        for row in polar.rows.values():
            for n in range(1, len(row)):
                before, after = (n - 1, n + 1) if n + 1 < len(row) else (n - 2, n - 1)
                if before < 0:
                    continue
                share = (row[n] - row[before]) / (row[after] - row[before])
                line = polar.sink[before] + share * (polar.sink[after] - polar.sink[before])
                ends = n + 1 == len(row)
                low, high = (0.92 * line, 1.5 * line) if ends else (0.8 * line, 1.08 * line)
                slack = step_of(polar.sink)
                if not low - slack <= polar.sink[n] <= high + slack:
                    yield tell(
                        polar.sink[n].place,
                        "finding-polar-bends",
                        here=entered(polar.sink[n]),
                        at=entered(row[n]),
                        low=digits(low, 2),
                        high=digits(high, 2),
                    )
                    break


# -- rows by altitude ------------------------------------------------------------------------------


@rule("speed-by-altitude", Severity.WARNING, "look-altitude", COMMON_PRACTICE)
def speeds_by_altitude_are_smooth(aircraft: Aircraft) -> Iterator[Told]:
    """A speed that is given at five altitudes or more changes smoothly with altitude."""
    for name, entries in aircraft.definition.speeds.items():
        for key in ("ias", "cas"):
            rows = [
                (entry.altitude, figure)
                for entry in entries
                if entry.altitude is not None and (figure := getattr(entry, key)) is not None
            ]
            if len(rows) < 5:
                continue
            x, printed = ([row[n] for row in rows] for n in (0, 1))
            at = np.array(x, dtype=float)
            y = np.array(printed, dtype=float)
            middle = float(np.abs(at).max()) or 1.0
            basis = np.column_stack([(at / middle) ** power for power in (0, 1, 2)])
            many = len(rows) > 5
            bases, free = ([basis[:, :2], basis], 2) if many else ([basis[:, :2]], 3)
            yield from _told(Curve(name, x, printed, y, np.full(len(y), 1.0), bases), free)
