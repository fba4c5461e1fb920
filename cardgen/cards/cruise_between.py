"""Cruise between the manual's rows, and how far a unit of fuel carries."""

import math
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.cruise import interpolated
from cardgen.cards.air import (
    Level,
    Warmth,
    air_inputs,
    altitude_column,
    altitude_row,
    grid_of,
    levels,
    occurs,
    warmths,
)
from cardgen.cards.cells import as_entered, computed, heading, taking
from cardgen.cards.cruise import Given, Setting, tables_of
from cardgen.definition.cruise import (
    Row,
    air_column,
    cell_at,
    held_temperature,
    set_at,
    temperature,
)
from cardgen.definition.model import CruiseGrid, School
from cardgen.definition.places import Figure
from cardgen.document import record
from cardgen.document.record import (
    BLANK,
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Input,
    Message,
    Quantity,
    Table,
    Unit,
)
from cardgen.units import convert


def cruise_at_tables(aircraft: Aircraft, school: School) -> list[Table | Gap]:
    """Return TAS and fuel flow between the manual's rows, at the school's altitudes and air."""
    tables = tables_of(aircraft)
    grid = grid_of(aircraft, school)
    air = grid.between if grid else None
    if tables and air is None:
        missing = heading("missing-cruise-altitudes", kind=Message(f"kind-{aircraft.kind}"))
        return [Gap("cruise-at", Message("title-cruise-at"), missing)]
    return [_at_table(one, air) for one in tables if air]


def _at_table(of: Given, grid: CruiseGrid) -> Table | Gap:
    settings = dict.fromkeys(map(of.setting_of, of.cruise.rows))
    across = _across(of, grid)
    blocks = [_between_block(of, grid, across, setting) for setting in settings]
    blocks = [block for block in blocks if block.rows]
    name, title = of.id("cruise-at"), of.title("cruise-at")
    if not blocks:
        return Gap(name, title, Message("missing-cruise-between"))
    flows = "fuel flow" in of.cruise.columns
    return Table(
        name,
        title,
        Message("how-cruise-at-fuel" if flows else "how-cruise-at"),
        (altitude_column(of.aircraft, grid), *_between_columns(of, across, flows)),
        tuple(blocks),
        notes=(of.note("note-between-rows"), *of.dashes("note-not-available-beside")),
    )


def _across(of: Given, grid: CruiseGrid) -> list[Warmth | None]:
    """Return the temperatures to read at; None for the one that the manual's rows hold for."""
    return [*warmths(of.aircraft, grid)] if temperature(of.cruise) else [None]


def _between_columns(of: Given, across: list[Warmth | None], flows: bool) -> Iterator[Column]:
    unit, fuel = of.tas_unit, of.aircraft.units.fuel_flow or ""
    group = heading("group-tas-and-fuel", unit=Unit(unit), fuel=Unit(fuel))
    for warmth in across:
        yield Column(
            warmth.id if warmth else "held",
            warmth.heading(of.aircraft.units.temperature) if warmth else _held(of),
            unit,
            group if flows else heading("group-tas-only", unit=Unit(unit)),
            heading("unit", unit=Unit(unit)) if flows else None,
            heading("unit", unit=Unit(fuel)) if flows else None,
            fuel if flows else "",
        )


def _held(of: Given) -> Message:
    """Name the one temperature that the manual's rows hold for, if it says."""
    held = held_temperature(of.cruise)
    return of.temperature(*held) if held else Message("column-manual-air")


def _between_block(
    of: Given, grid: CruiseGrid, across: list[Warmth | None], setting: Setting
) -> Block:
    """Return the rows of a power setting that hold anything."""
    under = "/".join(of.setting_ids(setting))
    rows = []
    for level in levels(of.aircraft, grid):
        cells = [_between(of, level, warmth, setting) for warmth in across]
        if any(cell.quantity is not None for cell in cells):
            rows.append(altitude_row(level, cells, f"{under}/" if under else ""))
    return Block(under, of.setting_said(setting), tuple(rows))


def _between(of: Given, level: Level, warmth: Warmth | None, setting: Setting) -> Cell:
    """Return TAS and fuel flow at an altitude, in its air, with a power setting held."""
    altitude, units = float(level), of.aircraft.units
    at = dict(zip(of.settings, map(float, setting), strict=True))
    if warmth is not None:
        if not occurs(of.aircraft, altitude, warmth):
            return BLANK
        at["oat"] = warmth.oat(of.aircraft, altitude)
        at["isa"] = at["oat"] - float(of.aircraft.standard_temperature(altitude))
    found = interpolated(of.cruise, {**at, "altitude": altitude})
    if found is None or math.isnan(found["tas"]):
        return DASH
    inputs = (
        taking("pressure-altitude", level.quantity, of.source),
        *(air_inputs(level, warmth)[1:] if warmth else ()),
        *of.setting_inputs(setting),
    )
    fuel = None
    if "fuel flow" in found:
        flow = units.fuel_flow or ""
        fuel = computed(found["fuel flow"], flow, "cruise", inputs, "minimum", 1)
    return computed(found["tas"], of.tas_unit, "cruise", inputs, beside=fuel)


# -- distance on fuel ------------------------------------------------------------------------------

ECONOMY_WINDS = (-20, -10, 0, 10, 20)


def economy_tables(aircraft: Aircraft, school: School) -> list[Table | Gap]:
    """Return distance on a unit of fuel in still air and in winds along the course."""
    return [_economy_table(one) for one in tables_of(aircraft)]


def _economy_table(of: Given) -> Table | Gap:
    name, title = of.id("economy"), of.title("economy")
    if "fuel flow" not in of.cruise.columns:
        return Gap(name, title, Message("missing-fuel-flow"))
    rows = _nearest_standard(of)
    fuel = (of.aircraft.units.fuel_flow or "").split("/")[0]
    unit = f"NM/{fuel}"
    return Table(
        name,
        title,
        heading("how-economy", fuel=Unit(fuel)),
        (
            *of.stub_columns(),
            *(
                Column(_wind_id(wind), _wind(wind), unit, heading("group-economy", unit=Unit(unit)))
                for wind in ECONOMY_WINDS
            ),
        ),
        tuple(
            Block(
                f"altitude-{altitude:g}",
                None,
                tuple(
                    _economy_row(of, row, unit)
                    for row in rows
                    if set_at(of.cruise, row, "altitude") == altitude
                ),
            )
            for altitude in sorted({set_at(of.cruise, row, "altitude") for row in rows})
        ),
        stub=1 + len(of.settings),
        notes=(Message("note-economy"), *of.dashes("note-not-available")),
    )


def _nearest_standard(of: Given) -> list[Row]:
    """Return for each altitude and setting the row nearest standard temperature."""
    found: dict[tuple[Figure, ...], Row] = {}
    for row in of.cruise.rows:
        key = (set_at(of.cruise, row, "altitude"), *of.setting_of(row))
        if key not in found or _off_standard(of, row) < _off_standard(of, found[key]):
            found[key] = row
    return list(found.values())


def _off_standard(of: Given, row: Row) -> float:
    air = air_column(of.cruise)
    if air is None:
        return 0.0
    if air == "isa":
        return abs(set_at(of.cruise, row, air))
    altitude = float(set_at(of.cruise, row, "altitude"))
    return abs(set_at(of.cruise, row, air) - float(of.aircraft.standard_temperature(altitude)))


def _wind_id(wind: int) -> str:
    return f"{'tailwind' if wind > 0 else 'headwind'}-{abs(wind)}" if wind else "still"


def _wind(wind: int) -> Message:
    if wind == 0:
        return Message("still")
    return heading("tail" if wind > 0 else "head", wind=Quantity(abs(wind)))


def _economy_row(of: Given, row: Row, unit: str) -> record.Row:
    altitude, setting = set_at(of.cruise, row, "altitude"), of.setting_of(row)
    cells = (
        *of.stub(altitude, setting),
        *(_economy(of, row, wind, unit) for wind in ECONOMY_WINDS),
    )
    return record.Row(of.row_id(altitude, setting), cells)


def _economy(of: Given, row: Row, wind: int, unit: str) -> Cell:
    tas, fuel = cell_at(of.cruise, row, "tas"), cell_at(of.cruise, row, "fuel flow")
    if tas is None or fuel is None:
        return DASH
    flow = of.aircraft.units.fuel_flow or ""
    knots = float(convert(float(tas), of.tas_unit, "kt"))
    known = of.aircraft.identifiers
    inputs: tuple[Input, ...] = (
        taking("tas", as_entered(tas, of.tas_unit), known[tas.place]),
        taking("wind", _signed(wind)),
        taking("fuel-flow", as_entered(fuel, flow), known[fuel.place]),
    )
    decimals = 1 if flow == "gal/h" else 2
    value = (knots + wind) / float(fuel)
    return computed(value, unit, "fuel-economy", inputs, "maximum", decimals)


def _signed(wind: int) -> Quantity:
    return Quantity(float(wind), "kt", entered=f"{wind:+d}")
