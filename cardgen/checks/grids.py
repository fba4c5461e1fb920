"""A cruise table as a whole: whether its rows are all there, and its figures one smooth surface."""

import itertools
from collections import Counter
from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.fitting import stand_off
from cardgen.checks.likely import likeliest, meant, step_of
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, digits, entered, rule, tell
from cardgen.checks.speeds import pairs
from cardgen.definition.cruise import (
    Cruise,
    Row,
    air_column,
    cell_at,
    results,
    set_at,
    settings,
)
from cardgen.definition.places import Figure
from cardgen.units import Array, convert

_PAGE = "look-cruise"
_FALLING = ("tas", "ias", "range")  # what falls away where an aircraft nears its ceiling


class Point(NamedTuple):
    """Where a row of a cruise table lies: at which altitude, temperature and setting."""

    altitude: float
    warmth: float
    setting: tuple[Figure, ...]


def _points(aircraft: Aircraft, cruise: Cruise) -> list[Point]:
    """Return where the rows lie; a temperature as its difference from standard."""
    air, named = air_column(cruise), settings(cruise)
    altitudes = [float(set_at(cruise, row, "altitude")) for row in cruise.rows]
    warmths = [float(set_at(cruise, row, air)) if air else 0.0 for row in cruise.rows]
    if air == "oat":
        standard = np.asarray(aircraft.standard_temperature(np.array(altitudes)))
        warmths = [one - float(other) for one, other in zip(warmths, standard, strict=True)]
    chosen = [tuple(set_at(cruise, row, name) for name in named) for row in cruise.rows]
    return [Point(*one) for one in zip(altitudes, warmths, chosen, strict=True)]


# -- one smooth surface ----------------------------------------------------------------------------


def _bases(points: list[Point]) -> list[Array]:
    """Return sets of smooth functions at the points, from the strictest to the loosest.

    The first two are parabolas, then cubics, in altitude and temperature, other for each setting.
    In the third any altitude and temperature may have what it likes, such as a limit of the engine
    there, but does so for all settings alike.
    """
    a, t = (_scaled([one[n] for one in points]) for n in (0, 1))
    known = sorted({one.setting for one in points})
    each = [np.array([one.setting == which for one in points], dtype=float) for which in known]
    smooth = [*each, a, t, a * a, t * t, a * t, *(s * x for s in each[1:] for x in (a, t))]
    cubic = [*smooth, a**3, *(s * x for s in each[1:] for x in (a * a, a * t))]
    places = sorted({point[:2] for point in points})
    at = [np.array([point[:2] == place for point in points], dtype=float) for place in places]
    free = [*at, *each[1:], *(s * x for s in each[1:] for x in (a, t))]
    return [np.column_stack(columns) for columns in (smooth, cubic, free)]


def _scaled(values: list[float]) -> Array:
    low, high = min(values), max(values)
    return np.array([(2 * one - low - high) / ((high - low) or 1.0) for one in values])


class _Doubt(NamedTuple):
    """A figure that keeps its column from being smooth."""

    row: int
    column: str
    figure: Figure
    expected: float
    step: float


def _doubts(points: list[Point], cruise: Cruise) -> Iterator[_Doubt]:
    for name in results(cruise):
        cells = [cell_at(cruise, row, name) for row in cruise.rows]
        there = [(n, cell) for n, cell in enumerate(cells) if cell is not None and cell > 0]
        figures = [cell for _, cell in there]
        if len(set(figures)) < 3:
            continue
        step = step_of(figures)
        y = np.array(figures, dtype=float)
        bases = _bases([points[n] for n, _ in there])
        for off in stand_off(bases, np.log(y), step / y, min(3, max(1, len(figures) // 10))):
            n, figure = there[off.index]
            expected = float(np.exp(off.expected))
            if not (name in _FALLING and _falls_away(points, n, figure / expected)):
                yield _Doubt(n, name, figure, expected, step)


def _falls_away(points: list[Point], n: int, share: float) -> bool:
    """Whether a point is of the least power at the highest altitude, and slower by a little."""
    lowest = min(one.setting for one in points)
    highest = max(one.altitude for one in points if one.setting == lowest)
    here = points[n]
    return 0.94 < share < 1 and here.setting == lowest and here.altitude == highest


@rule("cruise-surface", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def results_are_one_smooth_surface(aircraft: Aircraft) -> Iterator[Told]:
    """A result lies on the smooth surface through all others of its column, within rounding."""
    for cruise in aircraft.definition.cruise:
        points = _points(aircraft, cruise)
        if len(points) < 6:
            continue
        for one in _doubts(points, cruise):
            likely = meant(one.figure, one.expected, 1.5 * one.step)
            yield tell(
                one.figure.place,
                "finding-cruise-surface-meant" if likely else "finding-cruise-surface",
                column=one.column,
                here=entered(one.figure),
                expected=digits(one.expected, 3),
                **({"meant": likely} if likely else {}),
            )


# -- all rows --------------------------------------------------------------------------------------


def _entries(cruise: Cruise) -> list[str]:
    """Return the columns that every row is entered by."""
    air = air_column(cruise)
    return ["altitude", *([air] if air else []), *settings(cruise)]


@rule("cruise-axis", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def altitudes_and_settings_recur(aircraft: Aircraft) -> Iterator[Told]:
    """An altitude, temperature or setting of one row only is not another, of which a row lacks."""
    for cruise in aircraft.definition.cruise:
        names = _entries(cruise)
        rows = [tuple(set_at(cruise, row, name) for name in names) for row in cruise.rows]
        there = set(rows)
        for at, name in enumerate(names):
            counts = Counter(row[at] for row in rows)
            usual = sorted(counts.values())[len(counts) // 2]
            for row in rows if usual > 1 else ():
                if counts[row[at]] > 1:
                    continue
                lacking = [
                    level
                    for level, count in counts.items()
                    if count > 1 and (*row[:at], level, *row[at + 1 :]) not in there
                ]
                likely = likeliest(row[at], lacking)
                if likely is not None:
                    yield tell(
                        row[at].place,
                        "finding-cruise-axis",
                        column=name,
                        here=entered(row[at]),
                        likely=entered(likely),
                    )


_Key = tuple[Any, ...]  # altitude, temperature where there are several, and the settings in one


@rule("cruise-row-missing", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def no_row_is_left_out(aircraft: Aircraft) -> Iterator[Told]:
    """A table has a row for each altitude, temperature and setting that it can be flown at."""
    for cruise in aircraft.definition.cruise:
        names = _entries(cruise)
        if "oat" in names or len(names) < 2:
            continue  # temperatures differ from altitude to altitude
        split = len(names) - len(settings(cruise))
        rows: dict[_Key, Row] = {}
        for row in cruise.rows:
            key = [set_at(cruise, row, name) for name in names]
            rows[(*key[:split], tuple(key[split:]))] = row
        levels = [sorted(set(column)) for column in zip(*rows, strict=True)]
        lacking = [one for one in itertools.product(*levels) if one not in rows]
        if len(lacking) > len(rows):
            continue
        holes = [one for one in lacking if not _has_a_reason(aircraft, cruise, rows, one, levels)]
        for one in holes if len(holes) <= max(1, len(rows) // 15) else ():
            beside = next(cell for cell in rows[_beside(rows, one, levels)] if cell is not None)
            values = (*one[:split], *one[split])
            said = ", ".join(
                f"{name} {value.text}" for name, value in zip(names, values, strict=True)
            )
            yield tell(beside.place, "finding-cruise-row-missing", row=said)


def _beside(rows: dict[_Key, Row], lacking: _Key, levels: list[list[Any]]) -> _Key:
    """Return the row that is nearest to one that is lacking, by steps of the table."""

    def apart(key: _Key) -> int:
        both = zip(levels, key, lacking, strict=True)
        return sum(abs(level.index(a) - level.index(b)) for level, a, b in both)

    return min(rows, key=apart)


def _has_a_reason(
    aircraft: Aircraft,
    cruise: Cruise,
    rows: dict[_Key, Row],
    lacking: _Key,
    levels: list[list[Any]],
) -> bool:
    """Whether a row may be lacking for want of power, or as too fast or too slow a flight."""
    if not _goes_on(rows, lacking, higher=True, stronger=True):
        return True
    key = _beside(rows, lacking, levels)
    cas = _cas(aircraft, cruise, rows[key])
    fast = pairs(aircraft, "VNO") or pairs(aircraft, "VMO") or pairs(aircraft, "VRA")
    if not _goes_on(rows, lacking, higher=False, stronger=True):
        return cas is None or not fast or cas > 0.93 * aircraft.entry_cas(fast[0][1])
    clean = aircraft.stall_entries.get(aircraft.flaps[0])
    if not _goes_on(rows, lacking, higher=True, stronger=False):
        return cas is None or clean is None or cas < 1.5 * aircraft.entry_cas(clean)
    return False


def _goes_on(rows: dict[_Key, Row], lacking: _Key, *, higher: bool, stronger: bool) -> bool:
    """Whether rows go on beyond one that is lacking: higher and hotter, or lower; stronger or not.

    Air that is hotter is thinner, as air higher up is.
    """

    def beyond(key: _Key) -> bool:
        *air, setting = zip(key, lacking, strict=True)
        thinner = all(a >= b if higher else a <= b for a, b in air)
        return thinner and (setting[0] >= setting[1] if stronger else setting[0] <= setting[1])

    return any(map(beyond, rows))


def _cas(aircraft: Aircraft, cruise: Cruise, row: Row) -> float | None:
    """Return the CAS of a row, in standard air."""
    tas, altitude = cell_at(cruise, row, "tas"), float(set_at(cruise, row, "altitude"))
    if tas is None:
        return None
    own = convert(float(tas), cruise.tas_unit or aircraft.units.speed, aircraft.units.speed)
    return float(aircraft.cas_from_tas(own, altitude, aircraft.standard_temperature(altitude)))
