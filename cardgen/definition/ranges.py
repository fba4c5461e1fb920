"""Figures that no aircraft has: out of any physical range, in whatever unit.

The ranges are wide. They keep slips of a whole digit, and what the formulas
cannot take, away from everything behind; finer rules are in `cardgen.checks`.
"""

from collections.abc import Iterable, Iterator

from cardgen.definition.corrections import (
    AltimeterCorrection,
    Calibration,
    is_correction,
    key_of,
)
from cardgen.definition.cruise import AIR, POWER, RESULTS, Cruise
from cardgen.definition.gliding import Glide, Polar
from cardgen.definition.model import (
    Air,
    AirframeDefinition,
    Grid,
    Markings,
    School,
    SpeedEntry,
    Supplement,
    TypeDefinition,
    Units,
    distance_unit,
)
from cardgen.definition.places import Fault, Figure, Span
from cardgen.definition.stalling import Stall
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
    "endurance": (0.1, 100, ""),
    "range": (1, 20_000, "NM"),
    "named": (-1_000_000, 1_000_000, ""),
    "correction": (-50, 50, ""),
    "altimeter correction": (-2_000, 2_000, "ft"),
}

# key, figure, quantity, which may end with a unit of the figure's own: "wind in m/s"
Named = tuple[str, Figure, str]


def out_of_range(figures: Iterable[Named], units: Units) -> Iterator[Fault]:
    """Find figures outside the range of their quantity, given the units that they are in."""
    own = {
        "speed": units.speed,
        "wind": units.speed,
        "altitude": units.altitude,
        "altimeter correction": units.altitude,
        "oat": units.temperature,
        "weight": units.weight,
        "range": distance_unit(units),
        "named weight": units.weight,
        "distance": units.far,
        "height": units.high,
        "sink": units.sink or "m/s",
    }
    ranges: dict[str, tuple[float, float]] = {}
    for key, figure, quantity in figures:
        name, _, unit = quantity.partition(" in ")
        unit = unit or own.get(name, "")
        if quantity not in ranges:
            ranges[quantity] = _in(unit, *RANGES[name])
        low, high = ranges[quantity]
        if not low - 1e-9 <= figure <= high + 1e-9:
            said = f"{key}: found {figure.text[:20]}, expected {low:.8g} to {high:.8g} "
            yield Fault(figure.place, (said + unit).rstrip())


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
    if definition.maximum_operating_altitude is not None:
        yield "altitude", definition.maximum_operating_altitude.altitude, "altitude"
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
    """Return the corrections of an airframe's indicator and altimeter."""
    for card, quantity in (
        (airframe.instrument_correction, "correction"),
        (airframe.altimeter_correction, "altimeter correction"),
    ):
        if card is not None:
            key = key_of(card.form[1])
            yield from ((key, figure, quantity) for figure in card.differences)


def of_school(school: School) -> Iterator[Fault]:
    """Find angles of bank that no table of stall speeds is for."""
    low, high, _ = RANGES["bank"]
    for one in school.stall_banks:
        if not low <= one <= high:
            said = f"stall banks: found {one.text[:20]}, expected {low:g} to {high:g}"
            yield Fault(one.place, said)


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
    for speeds in (said.speeds, said.other_speeds):
        for entries in speeds.values():
            for entry in entries:
                yield from _of_speed(entry)
    for table in said.calibration:
        yield from _of_calibration(table)
    for one in said.altimeter_correction:
        yield from _of_altimeter(one)
    if said.markings is not None:
        painted = [getattr(said.markings, name) for name in Markings.PAINTED]
        for marking in (*painted, *said.markings.other_marks):
            for key in ("from_", "to", "at"):
                figure = getattr(marking, key, None)
                if figure is not None:
                    unit = said.markings.unit
                    yield key.rstrip("_"), figure, f"speed in {unit}" if unit else "speed"
    if said.stall is not None:
        yield from _of_stall(said.stall)
    for cruise in said.cruise:
        yield from _of_cruise(cruise)


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
        "sink": "sink",
        "less": "correction",
        "for_each": "height",
    }
    for name, quantity in quantities.items():
        figure = getattr(entry, name)
        if figure is not None:
            yield name.replace("_", " "), figure, quantity
        if isinstance(figure, Span):
            yield name, figure.high, quantity


def _of_calibration(table: Calibration) -> Iterator[Named]:
    for row in table.form:
        quantity = "correction" if is_correction(row) else "speed"
        yield from ((key_of(row), figure, quantity) for figure in getattr(table, row))


def _of_altimeter(table: AltimeterCorrection) -> Iterator[Named]:
    _, beside = table.form
    if table.altitude is not None:
        yield "altitude", table.altitude, "altitude"
    for ias, figure in table.pairs:
        yield "ias", ias, "speed"
        yield key_of(beside), figure, "altimeter correction"


def _of_stall(stall: Stall) -> Iterator[Named]:
    if stall.weight is not None:
        yield "weight", stall.weight, "weight"
    yield from (("bank", figure, "bank") for figure in stall.bank)
    for row in stall.rows:
        yield from (("ias", figure, "speed") for figure in row.ias or ())
        yield from (("cas", figure, "speed") for figure in row.cas or ())
        if row.weight is not None:
            yield "weight", row.weight, "weight"


def _of_cruise(cruise: Cruise) -> Iterator[Named]:
    quantities = {
        **{name: name for name in ("altitude", *AIR, *RESULTS)},
        **dict.fromkeys(POWER, "setting"),
        "ias": "speed",
        "tas": f"speed in {cruise.tas_unit}" if cruise.tas_unit else "speed",
    }
    for name in ("weight", *AIR):
        said = getattr(cruise, name)
        if said is not None:
            yield name, said, name
    for row in cruise.rows:
        for name, figure in zip(cruise.columns, row, strict=False):
            if figure is not None:
                yield name, figure, quantities.get(name, "named")
