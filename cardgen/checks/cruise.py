"""The cruise table against itself and against the green arc."""

import itertools
from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.checks.speeds import pairs
from cardgen.definition.cruise import axes
from cardgen.definition.model import Cruise
from cardgen.definition.places import Figure
from cardgen.units import convert

_PAGE = "look-cruise"


def _lines(cruise: Cruise, along: str) -> Iterator[list[list[Figure]]]:
    """Return rows that differ in one axis only, in its order."""
    others = [cruise.columns.index(name) for name in axes(cruise) if name != along]
    column = cruise.columns.index(along)
    groups: dict[tuple[Figure, ...], list[list[Figure]]] = {}
    for row in cruise.rows:
        groups.setdefault(tuple(row[i] for i in others), []).append(row)
    for rows in groups.values():
        yield sorted(rows, key=lambda row: row[column])


@rule("cruise-row-twice", Severity.ERROR, _PAGE, COMMON_PRACTICE)
def no_row_stands_twice(aircraft: Aircraft) -> Iterator[Told]:
    """No two rows are for the same altitude, temperature and setting."""
    cruise = aircraft.definition.cruise
    if cruise is None:
        return
    seen: set[tuple[Figure, ...]] = set()
    keys = [cruise.columns.index(name) for name in axes(cruise)]
    for row in cruise.rows:
        key = tuple(row[i] for i in keys)
        if key in seen:
            yield tell(row[0].place, "finding-cruise-row-twice")
        seen.add(key)


@rule("cruise-power", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def more_power_gives_more(aircraft: Aircraft) -> Iterator[Told]:
    """Along a power setting, TAS, fuel flow and power do not fall."""
    cruise = aircraft.definition.cruise
    if cruise is None:
        return
    settings = [name for name in axes(cruise) if name not in ("altitude", "isa", "oat")]
    results = [name for name in ("power", "tas", "fuel flow") if name in cruise.columns]
    for setting in settings:
        for rows in _lines(cruise, setting):
            for low, high in itertools.pairwise(rows):
                for name in results:
                    column = cruise.columns.index(name)
                    if high[column] < low[column]:
                        yield tell(
                            high[column].place,
                            "finding-cruise-power",
                            column=name,
                            here=entered(high[column]),
                            less=entered(low[column]),
                            setting=setting,
                        )


@rule("cruise-smooth", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def cells_lie_between_their_neighbours(aircraft: Aircraft) -> Iterator[Told]:
    """Along altitude and temperature a result stays near the line through its neighbours."""
    cruise = aircraft.definition.cruise
    if cruise is None:
        return
    for along in ("altitude", "isa", "oat"):
        if along not in cruise.columns:
            continue
        column = cruise.columns.index(along)
        for rows in _lines(cruise, along):
            for a, b, c in zip(rows, rows[1:], rows[2:], strict=False):
                if not a[column] < b[column] < c[column]:
                    continue  # the same row twice, which is an error of its own
                share = (b[column] - a[column]) / (c[column] - a[column])
                for name in ("power", "tas", "fuel flow"):
                    if name in cruise.columns:
                        yield from _stands_off(cruise, name, share, a, b, c)


def _stands_off(
    cruise: Cruise,
    name: str,
    share: float,
    a: list[Figure],
    b: list[Figure],
    c: list[Figure],
) -> Iterator[Told]:
    i = cruise.columns.index(name)
    expected = a[i] + share * (c[i] - a[i])
    if abs(b[i] - expected) > max(0.04 * expected, 2.0 if name != "fuel flow" else 0.3):
        yield tell(
            b[i].place,
            "finding-cruise-smooth",
            column=name,
            here=entered(b[i]),
            expected=digits(expected, 3),
        )


@rule("cruise-in-green", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def cruise_is_flown_in_the_green_arc(aircraft: Aircraft) -> Iterator[Told]:
    """TAS in cruise, as CAS in that air, lies between VS1 and VNO or VMO."""
    cruise = aircraft.definition.cruise
    ends = pairs(aircraft, "VNO") or pairs(aircraft, "VMO")
    if cruise is None or not cruise.rows or not ends:
        return
    if not {"isa", "oat"} & set(cruise.columns):
        return
    clean = aircraft.stall_entries.get(aircraft.flaps[0])
    low = 1.1 * aircraft.entry_cas(clean) if clean is not None else 0.0
    high = aircraft.entry_cas(ends[0][1])
    columns = {name: np.array(column, dtype=float) for name, column in _columns(cruise)}
    oat = columns.get("oat")
    if oat is None:
        oat = aircraft.standard_temperature(columns["altitude"]) + columns["isa"]
    cas = np.asarray(aircraft.cas_from_tas(columns["tas"], columns["altitude"], oat))
    at = cruise.columns.index("tas")
    for row, one in zip(cruise.rows, cas, strict=True):
        if not low <= one <= high:
            yield tell(
                row[at].place,
                "finding-cruise-in-green",
                tas=entered(row[at]),
                cas=about(one),
                low=about(low),
                high=about(high),
            )


def _columns(cruise: Cruise) -> Iterator[tuple[str, tuple[Figure, ...]]]:
    return zip(cruise.columns, zip(*cruise.rows, strict=True), strict=True)


@rule("fuel-unit", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def fuel_flow_fits_the_speed(aircraft: Aircraft) -> Iterator[Told]:
    """A unit of fuel carries the aircraft a distance that aircraft fly on it."""
    cruise = aircraft.definition.cruise
    if cruise is None or "fuel flow" not in cruise.columns:
        return
    unit = aircraft.units.fuel_flow or ""
    low, high = {
        "gal/h": (1.5, 40.0),
        "L/h": (0.4, 10.0),
        "lb/h": (0.2, 7.0),
        "kg/h": (0.5, 15.0),
    }[unit]
    tas, fuel = cruise.columns.index("tas"), cruise.columns.index("fuel flow")
    for row in cruise.rows:
        knots = float(convert(float(row[tas]), aircraft.units.speed, "kt"))
        if row[fuel] <= 0 or not low <= knots / row[fuel] <= high:
            yield tell(
                row[fuel].place,
                "finding-fuel-unit",
                flow=entered(row[fuel], unit),
                tas=entered(row[tas]),
            )
            return  # one row tells of all
