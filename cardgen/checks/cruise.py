"""The cruise table against itself and against the green arc."""

import itertools
from collections.abc import Iterator

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.cruise import axes
from cardgen.checks.rule import Severity, rule
from cardgen.checks.speeds import pairs
from cardgen.definition.model import Cruise
from cardgen.definition.places import Fault, Figure
from cardgen.units import convert

_PAGE = "the cruise performance in section 5 of the manual"


def _lines(cruise: Cruise, along: str) -> Iterator[list[list[Figure]]]:
    """Return rows that differ in one axis only, in its order."""
    others = [cruise.columns.index(name) for name in axes(cruise) if name != along]
    column = cruise.columns.index(along)
    groups: dict[tuple[Figure, ...], list[list[Figure]]] = {}
    for row in cruise.rows:
        groups.setdefault(tuple(row[i] for i in others), []).append(row)
    for rows in groups.values():
        yield sorted(rows, key=lambda row: row[column])


@rule("cruise-row-twice", Severity.ERROR, _PAGE, "common practice")
def no_row_stands_twice(aircraft: Aircraft) -> Iterator[Fault]:
    """No two rows are for the same altitude, temperature and setting."""
    cruise = aircraft.definition.cruise
    if cruise is None:
        return
    seen: set[tuple[Figure, ...]] = set()
    keys = [cruise.columns.index(name) for name in axes(cruise)]
    for row in cruise.rows:
        key = tuple(row[i] for i in keys)
        if key in seen:
            yield Fault(row[0].place, "a row for these conditions stands above already")
        seen.add(key)


@rule("cruise-power", Severity.WARNING, _PAGE, "common practice")
def more_power_gives_more(aircraft: Aircraft) -> Iterator[Fault]:
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
                        yield Fault(
                            high[column].place,
                            f"{name} is {high[column]} here and {low[column]} at less {setting}; "
                            "expected it to rise",
                        )


@rule("cruise-smooth", Severity.WARNING, _PAGE, "common practice")
def cells_lie_between_their_neighbours(aircraft: Aircraft) -> Iterator[Fault]:
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
) -> Iterator[Fault]:
    i = cruise.columns.index(name)
    expected = a[i] + share * (c[i] - a[i])
    if abs(b[i] - expected) > max(0.04 * expected, 2.0 if name != "fuel flow" else 0.3):
        yield Fault(
            b[i].place, f"{name} is {b[i]}; the rows on either side make it about {expected:.3g}"
        )


@rule("cruise-in-green", Severity.WARNING, _PAGE, "common practice")
def cruise_is_flown_in_the_green_arc(aircraft: Aircraft) -> Iterator[Fault]:
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
    try:
        cas = np.asarray(aircraft.cas_from_tas(columns["tas"], columns["altitude"], oat))
    except ValueError as error:
        yield Fault(cruise.place_of("rows"), f"a row means nothing: {error}")
        return
    at = cruise.columns.index("tas")
    for row, one in zip(cruise.rows, cas, strict=True):
        if not low <= one <= high:
            yield Fault(
                row[at].place,
                f"TAS {row[at]} is CAS {one:.0f} here; expected between {low:.0f} and {high:.0f}",
            )


def _columns(cruise: Cruise) -> Iterator[tuple[str, tuple[Figure, ...]]]:
    return zip(cruise.columns, zip(*cruise.rows, strict=True), strict=True)


@rule("fuel-unit", Severity.WARNING, _PAGE, "common practice")
def fuel_flow_fits_the_speed(aircraft: Aircraft) -> Iterator[Fault]:
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
            yield Fault(
                row[fuel].place,
                f"fuel flow {row[fuel]} {unit} at TAS {row[tas]}; is the unit right?",
            )
            return  # one row tells of all
