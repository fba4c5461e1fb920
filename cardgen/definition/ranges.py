"""Figures that no aircraft has: out of any physical range, in whatever unit.

The ranges are wide. They keep slips of a whole digit, and what the formulas
cannot take, away from everything behind; finer rules are in `cardgen.checks`.
"""

from collections.abc import Iterable, Iterator

from cardgen.definition.gliding import Glide, Polar
from cardgen.definition.model import (
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
    "named weight": (1, 1_000_000, "lb"),
    "Mach number": (0.1, 0.95, ""),
    "multiple": (1, 2, ""),
    "bank": (0, 80, "deg"),
    "glide ratio": (1, 100, ""),
    "distance": (0.05, 1_000, "NM"),
    "height": (10, 60_000, "ft"),
    "sink": (0.1, 50, "m/s"),
    "fuel flow": (0.1, 10_000, ""),
    "power": (1, 150, ""),
    "setting": (0, 100_000, ""),
    "correction": (-50, 50, ""),
}

# key, figure, quantity, which may end with a unit of the figure's own: "wind in m/s"
Named = tuple[str, Figure, str]


def out_of_range(figures: Iterable[Named], units: Units) -> Iterator[Fault]:
    """Find figures outside the range of their quantity, given the units that they are in."""
    own = {
        "speed": units.speed,
        "wind": units.speed,
        "altitude": units.altitude,
        "oat": units.temperature,
        "weight": units.weight,
        "named weight": units.weight,
        "distance": units.far,
        "height": units.altitude,
        "sink": units.sink or "m/s",
    }
    ranges: dict[str, tuple[float, float]] = {}
    for key, figure, quantity in figures:
        if quantity not in ranges:
            name, _, unit = quantity.partition(" in ")
            own[quantity] = unit or own.get(name, "")
            ranges[quantity] = _in(own[quantity], *RANGES[name])
        low, high = ranges[quantity]
        if not low - 1e-9 <= figure <= high + 1e-9:
            said = f"{key}: found {figure.text[:20]}, expected {low:.8g} to {high:.8g} "
            yield Fault(figure.place, (said + own[quantity]).rstrip())


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
    for name, figure in weights.names.items():
        yield name, figure, "named weight"
    for glide in definition.glide:
        yield from _of_glide(glide)
    for polar in definition.polar:
        yield from _of_polar(polar)
    if definition.crosswind is not None:
        unit = definition.crosswind.unit or definition.units.speed
        yield "demonstrated", definition.crosswind.demonstrated, f"wind in {unit}"
    yield from _of_statement(definition)


def _of_glide(glide: Glide) -> Iterator[Named]:
    quantities = {
        "ratio": "glide ratio",
        "distance": "distance",
        "for_height": "height",
        "ias": "speed",
        "cas": "speed",
        "sink": "sink",
        "weight": "weight",
    }
    for name, quantity in quantities.items():
        figure = getattr(glide, name)
        if figure is not None:
            yield name.replace("_", " "), figure, quantity


def _of_polar(polar: Polar) -> Iterator[Named]:
    for name, row in polar.rows.items():
        yield from ((name, figure, "speed") for figure in row)
    yield from (("sink", figure, "sink") for figure in polar.sink)
    for name in ("weight", "altitude"):
        figure = getattr(polar, name)
        if figure is not None:
            yield name, figure, name


def of_supplement(supplement: Supplement) -> Iterator[Named]:
    """Return every figure of a supplement; it speaks the units of its type."""
    yield from _of_statement(supplement)


def of_bench_card(airframe: AirframeDefinition) -> Iterator[Named]:
    """Return the corrections of an airframe's indicator."""
    bench = airframe.instrument_correction
    for figure in bench.correction if bench else ():
        yield "correction", figure, "correction"


def of_grid(grid: Grid) -> Iterator[Named]:
    """Return what a school tabulates for a kind of aircraft."""
    for key in ("ias", "tas"):
        yield from ((key, figure, "speed") for figure in getattr(grid, key))
    for part in (grid, grid.cruise):
        if part is not None:
            yield from (("altitude", figure, "altitude") for figure in part.altitude)
            yield from (("oat", figure, "oat") for figure in part.oat)
            yield from (("isa", figure, "isa") for figure in part.isa)


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
