"""How many cells are computed of an aircraft's tables: where values are multiplied, is a bound.

A figure that was copied makes a cell or two, and a file has a bound of figures; but a few hundred
altitudes, temperatures and speeds would make millions, which nobody reads and no page holds.
"""

from collections.abc import Iterator, Sequence
from math import prod
from typing import TYPE_CHECKING

from cardgen.definition.cruise import Cruise, cell_at
from cardgen.definition.group import Group
from cardgen.definition.model import CruiseGrid, Grid, School, Supplement, TypeDefinition
from cardgen.definition.places import Fault, Figure, Place

if TYPE_CHECKING:
    from cardgen.definition.fleet import AircraftDefinition

MOST_ENTRIES = 200  # of a speed, calibration or stall table, as they may be typed
_OF_A_POLAR = 25  # cells that are computed of one at a weight
MOST_CELLS = 5_000  # that are computed of one thing; a page that is printed has some 500


def too_large(aircraft: "AircraftDefinition", school: School) -> Iterator[Fault]:
    """Find what would make too many cells of an aircraft's tables."""
    grid = school.grid(aircraft.airframe.type, aircraft.type.kind)
    if grid is not None:
        yield from _speeds(grid)
        if grid.between is not None:
            yield from _cruise(grid.between, aircraft.cruise)
    yield from _stalls(aircraft, school.stall_banks)
    yield from _polars(aircraft)


def too_many(said: TypeDefinition | Supplement) -> Iterator[Fault]:
    """Find lists that are too long once each flap setting that is named in one has its entry."""
    lists: dict[str, Sequence[Group]] = {**said.speeds, **said.other_speeds}
    lists |= {"calibration": said.calibration, "altimeter correction": said.altimeter_correction}
    if said.stall is not None:
        lists["stall"] = said.stall.rows
    for name, entries in lists.items():
        if len(entries) > MOST_ENTRIES:
            counted = f"found {len(entries)}, one for each flap setting that is named"
            yield Fault(entries[0].place, f"{name}: {counted}, expected {MOST_ENTRIES} at most")


def _polars(aircraft: "AircraftDefinition") -> Iterator[Fault]:
    """Find too many weights that polars serve, each of which has a table of speeds to fly."""
    polars, limits = aircraft.type.polar, aircraft.type.weights
    weights = {limits.maximum, *limits.others, *(one.weight for one in polars if one.weight)}
    cases = {(one.flaps, one.altitude, one.when) for one in polars}
    for place in [one.place for one in polars][:1]:
        counts = {"polars": len(cases), "weights": len(weights), "cells of each": _OF_A_POLAR}
        yield from _too_many(place, "polar: ", counts)


def _speeds(grid: Grid) -> Iterator[Fault]:
    speeds = {"ias and tas" if grid.tas else "ias": len(grid.ias) + len(grid.tas)}
    yield from _too_many(grid.place, "", {**speeds, **_air(grid)})


def _cruise(air: CruiseGrid, tables: Sequence[Cruise]) -> Iterator[Fault]:
    settings = sum(len({_setting(one, row) for row in one.rows}) for one in tables)
    yield from _too_many(air.place, "cruise: ", {**_air(air), "power settings": settings})


def _setting(table: Cruise, row: list[Figure | None]) -> tuple[Figure | None, ...]:
    return tuple(cell_at(table, row, name) for name in table.set_columns)


def _stalls(aircraft: "AircraftDefinition", banks: Sequence[Figure]) -> Iterator[Fault]:
    stall, limits = aircraft.stall, aircraft.type.weights
    usual = {"VS0": aircraft.type.flaps[-1], "VS1": aircraft.type.flaps[0]}
    named = [(name, one) for name in usual for one in aircraft.speeds.get(name, [])]
    entries = [one for _, one in named]
    rows = stall.rows if stall else []
    weights = {stall.weight_of(row) for row in rows} if stall else set()
    weights |= {one.weight for one in entries if one.weight}
    weights |= {limits.maximum, *limits.others}
    settings = {(one.flaps or usual["VS1"], one.gear) for one in rows}
    settings |= {(one.flaps or usual[name], one.gear) for name, one in named}
    counts = {
        "settings of flaps and gear": len(settings),
        "weights": len(weights),
        "angles of bank": len({float(one) for one in (*(stall.bank if stall else ()), *banks)}),
    }
    for place in [one.place for one in (stall, *entries) if one][:1]:
        yield from _too_many(place, "stall speeds: ", counts)


def _air(air: Grid | CruiseGrid) -> dict[str, int]:
    return {"altitude": len(air.altitude), "isa" if air.isa else "oat": len(air.isa or air.oat)}


def _too_many(place: Place, what: str, counts: dict[str, int]) -> Iterator[Fault]:
    cells = prod(max(count, 1) for count in counts.values())
    if cells > MOST_CELLS:
        found = " times ".join(f"{count} {name}" for name, count in counts.items() if count)
        said = f"{what}found {found}, which are {cells:,} cells, expected at most {MOST_CELLS:,}"
        yield Fault(place, said)
