"""A cruise table as a whole: whether its rows are all there, and its figures one smooth surface."""

import itertools
import math
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.fitting import stand_off
from cardgen.checks.likely import likeliest, meant, step_of
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_TABLES,
    Severity,
    Told,
    about,
    digits,
    entered,
    rule,
    tell,
)
from cardgen.definition.cruise import (
    POWER,
    Cruise,
    air_column,
    cell_at,
    results,
    set_at,
    settings,
)
from cardgen.definition.places import Figure
from cardgen.units import Array

_PAGE = "look-cruise"
_FINE = 0.0035  # of a figure; no finer do such functions follow an engine
_DEGREES = 1.5  # that rounding may take an outside air temperature off standard's
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

    In altitude and temperature they are parabolas, then cubics, other for each setting; of small
    tables straight lines. In the last any altitude and temperature may have what it likes, such as
    a limit of the engine there, but does so for all settings alike.
    """
    a, t = _scaled([one.altitude for one in points]), _scaled([one.warmth for one in points])
    known = sorted({one.setting for one in points})
    each = [np.array([one.setting == which for one in points], dtype=float) for which in known]
    smooth = [*each, a, t, a * a, t * t, a * t, *(s * x for s in each[1:] for x in (a, t))]
    cubic = [*smooth, a**3, *(s * x for s in each[1:] for x in (a * a, a * t))]
    places = sorted({point[:2] for point in points})
    at = [np.array([point[:2] == place for point in points], dtype=float) for place in places]
    free = [*at, *each[1:], *(s * x for s in each[1:] for x in (a, t))]
    sets = [smooth, cubic, free]
    if len(points) < len(smooth) + 3:
        sets.insert(0, [*each, a, t])
    return [np.column_stack(columns) for columns in sets]


def _powered(points: list[Point], power: list[Figure]) -> Array:
    """Return smooth functions of the power, altitude and temperature."""
    a, t = _scaled([one.altitude for one in points]), _scaled([one.warmth for one in points])
    p = _scaled([math.log(one) for one in power])
    return np.column_stack([np.ones(len(points)), a, t, p, a * a, p * p, a * p, a * t])


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
        power = _power(cruise, name, [n for n, _ in there])
        if power:
            bases.append(_powered([points[n] for n, _ in there], power))
        shares = np.maximum(step / y, _FINE) + _of_others(cruise, name, [n for n, _ in there])
        for off in stand_off(bases, np.log(y), shares, min(3, max(1, len(figures) // 10))):
            n, figure = there[off.number]
            expected = float(np.exp(off.expected))
            if not (name in _FALLING and _falls_away(points, n, figure / expected)):
                yield _Doubt(n, name, figure, expected, step)


def _power(cruise: Cruise, name: str, there: list[int]) -> list[Figure]:
    """Return what tells the power of the rows, for a column of airspeeds; nothing if none does."""
    for other in ("fuel flow", "power", "torque"):
        if other in results(cruise) and name in ("tas", "ias"):
            cells = [cell_at(cruise, cruise.rows[n], other) for n in there]
            known = [cell for cell in cells if cell is not None and cell > 0]
            if len(known) == len(cells) and len(set(known)) > 2:
                return known
    return []


def _of_others(cruise: Cruise, name: str, there: list[int]) -> Array | float:
    """Return what rounding of fuel flow and TAS does to what was computed from them, in parts."""
    share: Array | float = 0.0
    for other in {"endurance": ["fuel flow"], "range": ["fuel flow", "tas"]}.get(name, []):
        cells = (
            [cell_at(cruise, cruise.rows[n], other) for n in there]
            if other in cruise.columns
            else []
        )
        known = [cell for cell in cells if cell is not None and cell > 0]
        if known and len(known) == len(cells):
            share = share + step_of(known) / np.array(known, dtype=float)
    return share


def _falls_away(points: list[Point], n: int, share: float) -> bool:
    """Whether a point is of the least power at the highest altitude, and slower by a little."""
    lowest = min(one.setting for one in points)
    highest = max(one.altitude for one in points if one.setting == lowest)
    here = points[n]
    return 0.94 < share < 1 and here.setting == lowest and here.altitude == highest


@rule("cruise-surface", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
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


@rule("cruise-axis", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def altitudes_and_settings_recur(aircraft: Aircraft) -> Iterator[Told]:
    """An altitude, temperature or setting of one row only is not another, of which a row lacks."""
    for cruise in aircraft.definition.cruise:
        names = _entries(cruise)
        split = len(names) - len(settings(cruise))
        rows = [tuple(set_at(cruise, row, name) for name in names) for row in cruise.rows]
        there, known = set(rows), Counter(row[split:] for row in rows)
        for at, name in enumerate(names):
            counts = Counter(row[at] for row in rows)
            once = [row for row in rows if counts[row[at]] == 1]
            if len(counts) < 2 or len(once) != 1 or (name == "oat" and len(counts) > 4):
                continue
            (row,) = once
            others = [(*row[:at], one, *row[at + 1 :]) for one in counts if counts[one] > 1]
            lacking = [one[at] for one in others if one not in there and known[one[split:]] > 1]
            likely = likeliest(row[at], lacking)
            if likely is None or (
                name == "altitude" and _is_at_home(aircraft, cruise, rows.index(row))
            ):
                continue
            if not _goes_on_evenly(row[at], counts):
                yield tell(
                    row[at].place,
                    "finding-cruise-axis",
                    column=name,
                    here=entered(row[at]),
                    likely=entered(likely),
                )


@rule("cruise-entry-round", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def rows_are_entered_with_round_figures(aircraft: Aircraft) -> Iterator[Told]:
    """Where nearly all altitudes are multiples of 500, one is of 100; RPM so of 50, and of 10."""
    for cruise in aircraft.definition.cruise:
        for name, (coarse, fine) in _ROUND_ENTRIES.items():
            cells = [one for row in cruise.rows if name in cruise.columns
                     if (one := cell_at(cruise, row, name)) is not None]  # fmt: skip
            odd = [one for one in cells if one % fine]
            rounded = sum(one % coarse == 0 for one in cells)
            others = [one for one in cells if one % (2 * coarse)]
            if len(others) == 1 and name == "rpm" and len(cells) >= 5 and others[0] % coarse:
                odd = others
            if len(odd) == 1 and rounded >= max(2, 0.75 * (len(cells) - 1)):
                yield tell(
                    odd[0].place,
                    "finding-row-setting",
                    column=name,
                    here=entered(odd[0]),
                    step=about(coarse),
                )


_ROUND_ENTRIES = {"altitude": (500.0, 100.0), "rpm": (50.0, 10.0)}


def _is_at_home(aircraft: Aircraft, cruise: Cruise, n: int) -> bool:
    """Whether a row's outside air is its own, and as much off standard as that of other rows.

    So it is where each altitude has temperatures of its own; at another altitude it would not be.
    """
    if air_column(cruise) != "oat":
        return False
    airs = [set_at(cruise, row, "oat") for row in cruise.rows]
    warmths = [one.warmth for one in _points(aircraft, cruise)]
    others = [one for m, one in enumerate(warmths) if m != n]
    return airs.count(airs[n]) == 1 and any(abs(one - warmths[n]) < _DEGREES for one in others)


def _goes_on_evenly(end: Figure, levels: Iterable[Figure]) -> bool:
    """Whether a figure goes on where others end, by a step that they have too."""
    others = sorted(level for level in levels if level != end)
    steps = {b - a for a, b in itertools.pairwise(others)}
    return others[0] - end in steps or end - others[-1] in steps


# -- columns against each other --------------------------------------------------------------------


@rule("fuel-by-power", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def fuel_flow_goes_with_power(aircraft: Aircraft) -> Iterator[Told]:
    """Fuel flow goes with power, or torque where that comes of the setting, within rounding."""
    for cruise in aircraft.definition.cruise:
        name = next((one for one in ("power", "torque") if one in results(cruise)), None)
        if name is None or "fuel flow" not in results(cruise):
            continue
        cells = [(cell_at(cruise, r, name), cell_at(cruise, r, "fuel flow")) for r in cruise.rows]
        both = [(p, f) for p, f in cells if p is not None and f is not None and min(p, f) > 0]
        if len({p for p, _ in both}) < 4:
            continue
        power, flow = (list(row) for row in zip(*both, strict=True))
        p, f = (np.array(row, dtype=float) for row in (power, flow))
        shares = step_of(flow) / f + step_of(power) / p
        bases = [np.column_stack([np.log(p) ** n for n in range(count)]) for count in (2, 3)]
        for off in stand_off(bases, np.log(f), shares, max(1, len(f) // 10)):
            expected = math.exp(off.expected)
            yield tell(
                flow[off.number].place,
                "finding-fuel-by-power",
                flow=entered(flow[off.number]),
                expected=digits(expected, 3),
                column=name,
                power=entered(power[off.number]),
            )


@rule("cruise-product", Severity.WARNING, _PAGE, "distance is speed times time", OF_TABLES)
def range_and_endurance_go_with_the_other_columns(aircraft: Aircraft) -> Iterator[Told]:
    """Range is TAS times endurance, endurance the fuel over its flow, but for what the climb takes.

    That changes little with altitude, and goes with the setting.
    """
    for cruise in aircraft.definition.cruise:
        points = None
        for name, powers in _PRODUCTS.items():
            if not {name, *powers} <= {*results(cruise)} or len(cruise.rows) < 5:
                continue
            points = points or _points(aircraft, cruise)
            columns = [
                [cell_at(cruise, row, one) for row in cruise.rows] for one in (name, *powers)
            ]
            there = [n for n, cells in enumerate(zip(*columns, strict=True)) if all(cells)]
            figures = [[cells[n] for n in there] for cells in columns]
            if len(there) < 5:
                continue
            logs = [np.log(np.array(one, dtype=float)) for one in figures]
            steps = [step_of(one) / np.array(one, dtype=float) for one in figures]  # type: ignore[arg-type]
            y = logs[0] - sum(p * log for p, log in zip(powers.values(), logs[1:], strict=True))
            a = _scaled([points[n].altitude for n in there])
            known = sorted({points[n].setting for n in there})
            each = [
                np.array([points[n].setting == one for n in there], dtype=float) for one in known
            ]
            bases = [np.column_stack([np.ones(len(a)), a]), np.column_stack([*each, a])]
            for off in stand_off(bases, y, sum(steps), max(1, len(y) // 10)):
                figure = figures[0][off.number]
                assert figure is not None
                yield tell(
                    figure.place,
                    "finding-cruise-product",
                    column=name,
                    here=entered(figure),
                    expected=digits(float(figure) * math.exp(off.expected - y[off.number]), 3),
                    others=", ".join(
                        f"{one} {cells[off.number]}"
                        for one, cells in zip(powers, figures[1:], strict=True)
                    ),
                )


_PRODUCTS: dict[str, dict[str, float]] = {
    "range": {"tas": 1.0, "endurance": 1.0},
    "endurance": {"fuel flow": -1.0},
}


@rule("cruise-round", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def figures_are_rounded_alike(aircraft: Aircraft) -> Iterator[Told]:
    """No figure of a column is finer than all others, which are multiples of 5, 10, 50 or 100."""
    for cruise in aircraft.definition.cruise:
        for name in ("altitude", *results(cruise)):
            cells = [
                cell for row in cruise.rows if (cell := cell_at(cruise, row, name)) is not None
            ]
            step = _round(cells)
            counts = Counter(cells)
            for cell in cells if step else ():
                if cell % step and counts[cell] == 1:
                    yield tell(
                        cell.place,
                        "finding-cruise-round",
                        column=name,
                        here=entered(cell),
                        step=about(step),
                    )


def _round(cells: list[Figure]) -> int:
    """Return what all figures but one or two are multiples of, the greatest; 0 for nothing."""
    if len(set(cells)) < 6:
        return 0
    for step in (100, 50, 10, 5):
        finer = sum(cell % step != 0 for cell in cells)
        if finer <= len(cells) // 10:
            return step if finer > 0 else 0
    return 0


@rule("settings-together", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def settings_change_together(aircraft: Aircraft) -> Iterator[Told]:
    """Where one setting goes with another in all rows but one, it does so in that one too."""
    for cruise in aircraft.definition.cruise:
        for one, other in itertools.permutations([n for n in POWER if n in cruise.columns], 2):
            groups: dict[Figure, list[Figure]] = {}
            for row in cruise.rows:
                a, b = cell_at(cruise, row, one), cell_at(cruise, row, other)
                if a is not None and b is not None:
                    groups.setdefault(a, []).append(b)
            together = [Counter(group) for group in groups.values() if len(group) > 2]
            odd = [
                (a, b, Counter(group).most_common(1)[0][0])
                for a, group in groups.items()
                for b in group
                if len(group) > 2
                and max(Counter(group).values()) == len(group) - 1
                and b != Counter(group).most_common(1)[0][0]
            ]
            known = len(cruise.rows) > 5
            if known and len(odd) == 1 and sum(len(counts) > 1 for counts in together) == 1:
                a, b, usual = odd[0]
                yield tell(
                    b.place,
                    "finding-settings-together",
                    column=other,
                    here=entered(b),
                    usual=entered(usual),
                    setting=one,
                    at=entered(a),
                )
