"""Figures that no aircraft has: out of any physical range, in whatever unit.

The ranges are wide. They keep slips of a whole digit, and what the formulas
cannot take, away from everything behind; finer rules are in `cardgen.checks`.
"""

from collections.abc import Iterable, Iterator

from cardgen.definition.model import (
    Air,
    AirframeDefinition,
    Calibration,
    Cruise,
    Grid,
    SpeedEntry,
    Stall,
    Supplement,
    TypeDefinition,
    Units,
)
from cardgen.definition.places import Fault, Figure
from cardgen.units import convert

# quantity: lowest, highest, in this unit
RANGES: dict[str, tuple[float, float, str]] = {
    "speed": (15, 600, "kt"),
    "wind": (1, 100, "kt"),
    "altitude": (-1_500, 60_000, "ft"),
    "oat": (-100, 70, "C"),
    "isa": (-80, 80, "K"),
    "weight": (100, 1_000_000, "lb"),
    "Mach number": (0.1, 0.95, ""),
    "multiple": (1, 2, ""),
    "bank": (0, 80, "deg"),
    "glide ratio": (1, 100, ""),
    "fuel flow": (0.1, 10_000, ""),
    "power": (1, 150, ""),
    "setting": (0, 100_000, ""),
    "correction": (-50, 50, ""),
}

Named = tuple[str, Figure, str]  # key, figure, quantity


def out_of_range(figures: Iterable[Named], units: Units) -> Iterator[Fault]:
    """Find figures outside the range of their quantity, given the units that they are in."""
    own = {
        "speed": units.speed,
        "wind": units.speed,
        "altitude": units.altitude,
        "oat": units.temperature,
        "weight": units.weight,
    }
    ranges: dict[str, tuple[float, float]] = {}
    for key, figure, quantity in figures:
        if quantity not in ranges:
            ranges[quantity] = _in(own.get(quantity, ""), *RANGES[quantity])
        low, high = ranges[quantity]
        if not low - 1e-9 <= figure <= high + 1e-9:
            said = f"{key}: found {figure.text[:20]}, expected {low:.8g} to {high:.8g} "
            yield Fault(figure.place, (said + own.get(quantity, "")).rstrip())


def _in(own: str, low: float, high: float, unit: str) -> tuple[float, float]:
    """Return a range in a unit; as it is for a pure number."""
    if not own:
        return low, high
    return float(convert(low, unit, own)), float(convert(high, unit, own))


def of_type(definition: TypeDefinition) -> Iterator[Named]:
    """Return every figure of a type, with its key and quantity."""
    weights = definition.weights
    for weight in (weights.maximum, *weights.others):
        yield "weight", weight, "weight"
    if definition.glide is not None:
        yield "ratio", definition.glide.ratio, "glide ratio"
    if definition.crosswind is not None:
        yield "demonstrated", definition.crosswind.demonstrated, "wind"
    yield from _of_statement(definition)


def of_supplement(supplement: Supplement) -> Iterator[Named]:
    """Return every figure of a supplement; it speaks the units of its type."""
    yield from _of_statement(supplement)


def of_bench_card(airframe: AirframeDefinition) -> Iterator[Named]:
    """Return the corrections of an airframe's indicator."""
    bench = airframe.instrument_correction
    for figure in bench.correction if bench else ():
        yield "correction", figure, "correction"


def of_grid(grid: Grid, units: Units) -> Iterator[Fault]:
    """Find what a school tabulates, for a type of these units, that is out of range."""
    speeds = ((key, one, "speed") for key in ("ias", "tas") for one in getattr(grid, key))
    yield from out_of_range(speeds, _stated(grid, units))
    for part in filter(None, (grid, grid.between)):
        air = [(key, one, key) for key in ("altitude", "oat", "isa") for one in getattr(part, key)]
        yield from out_of_range(air, _stated(part, units))


def _stated(air: Air, units: Units) -> Units:
    """Return the units of a type with those that a grid states in their place."""
    stated = air.units.model_dump(exclude_none=True) if air.units else {}
    return units.model_copy(update=stated)


def _of_statement(said: TypeDefinition | Supplement) -> Iterator[Named]:
    for entries in said.speeds.values():
        for entry in entries:
            yield from _of_speed(entry)
    for table in said.calibration:
        yield from _of_calibration(table)
    if said.markings is not None:
        for name in type(said.markings).model_fields:
            marking = getattr(said.markings, name)
            for key in ("from_", "to", "at"):
                figure = getattr(marking, key, None)
                if figure is not None:
                    yield key.rstrip("_"), figure, "speed"
    if said.stall is not None:
        yield from _of_stall(said.stall)
    if said.cruise is not None:
        yield from _of_cruise(said.cruise)


def _of_speed(entry: SpeedEntry) -> Iterator[Named]:
    quantities = {
        "ias": "speed",
        "cas": "speed",
        "tas": "speed",
        "mach": "Mach number",
        "times_VS0": "multiple",
        "weight": "weight",
        "altitude": "altitude",
        "from_altitude": "altitude",
    }
    for name, quantity in quantities.items():
        figure = getattr(entry, name)
        if figure is not None:
            yield name.replace("_", " "), figure, quantity


def _of_calibration(table: Calibration) -> Iterator[Named]:
    yield from (("ias", figure, "speed") for figure in table.ias)
    yield from (("cas", figure, "speed") for figure in table.cas)


def _of_stall(stall: Stall) -> Iterator[Named]:
    yield "weight", stall.weight, "weight"
    yield from (("bank", figure, "bank") for figure in stall.bank)
    for row in stall.rows:
        yield from (("ias", figure, "speed") for figure in row.ias or ())
        yield from (("cas", figure, "speed") for figure in row.cas)
        if row.weight is not None:
            yield "weight", row.weight, "weight"


def _of_cruise(cruise: Cruise) -> Iterator[Named]:
    quantities = {"tas": "speed", "ias": "speed", **{name: name for name in RANGES}}
    if cruise.weight is not None:
        yield "weight", cruise.weight, "weight"
    for row in cruise.rows:
        for name, figure in zip(cruise.columns, row, strict=False):
            yield name, figure, quantities.get(name, "setting")
