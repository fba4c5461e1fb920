"""Cruise performance as the manual gives it, and between its rows."""

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.air import (
    Level,
    Warmth,
    air_inputs,
    altitude_column,
    altitude_row,
    grid_of,
    isa_heading,
    levels,
    occurs,
    warmths,
)
from cardgen.cards.cells import as_entered, computed, entered, given, heading, taking
from cardgen.definition.cruise import held_temperature, temperature
from cardgen.definition.cruise import settings as set_by
from cardgen.definition.identifiers import slug
from cardgen.definition.model import Cruise, CruiseGrid, School
from cardgen.definition.places import Figure
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
    Row,
    Table,
    Unit,
    Value,
)
from cardgen.units import convert

_UNITS = {"rpm": "rpm", "manifold pressure": "inHg", "torque": "%", "N1": "%", "power": "%"}
_STUB_UNITS = {**_UNITS, "rpm": ""}  # beside their own names


def cruise_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return the manual's cruise rows, side by side for each temperature; None for a glider."""
    cruise = aircraft.definition.cruise
    title = Message("title-cruise")
    if aircraft.kind == "glider":
        return None
    if cruise is None:
        return Gap("cruise", title, Message("missing-cruise"))
    air = next((name for name in ("isa", "oat") if name in cruise.columns), None)
    settings = set_by(cruise)
    results = [name for name in cruise.columns if name not in ("altitude", air, *settings)]
    temperatures: list[Figure | None] = [None]
    if air:
        temperatures = [*sorted({_at(cruise, row, air) for row in cruise.rows})]
    return Table(
        "cruise",
        title,
        Message("how-cruise"),
        (
            *_stub_columns(aircraft, settings),
            *(
                Column(
                    f"{slug(name)}-{air or 'all'}" + (f"-{at:g}" if at is not None else ""),
                    heading(f"column-{slug(name)}-of", unit=Unit(_unit(aircraft, name))),
                    _unit(aircraft, name),
                    _temperature(aircraft, air, at),
                    main=name == "tas",
                )
                for at in temperatures
                for name in results
            ),
        ),
        tuple(
            Block(
                f"altitude-{altitude:g}",
                None,
                tuple(_rows(aircraft, cruise, altitude, settings, air, temperatures, results)),
            )
            for altitude in sorted({_at(cruise, row, "altitude") for row in cruise.rows})
        ),
        stub=1 + len(settings),
        notes=(_as_given(aircraft, cruise),),
    )


def _rows(
    aircraft: Aircraft,
    cruise: Cruise,
    altitude: Figure,
    settings: list[str],
    air: str | None,
    temperatures: list[Figure | None],
    results: list[str],
) -> list[Row]:
    here = [row for row in cruise.rows if _at(cruise, row, "altitude") == altitude]
    found: dict[tuple[Figure, ...], list[list[Figure]]] = {}
    for row in here:
        found.setdefault(tuple(_at(cruise, row, name) for name in settings), []).append(row)
    lines = []
    for setting, rows in found.items():
        cells = _stub(aircraft, settings, altitude, setting)
        for at in temperatures:
            same = [one for one in rows if air is None or _at(cruise, one, air) == at]
            for name in results:
                cells.append(
                    entered(aircraft, _at(cruise, same[0], name), cruise, _unit(aircraft, name))
                    if same
                    else DASH
                )
        lines.append(Row(_row_id(altitude, settings, setting), tuple(cells)))
    return lines


def _stub(
    aircraft: Aircraft, settings: list[str], altitude: Figure, setting: tuple[Figure, ...]
) -> list[Cell]:
    head = given(float(altitude), aircraft.units.altitude, altitude.text)
    return [
        head,
        *(
            given(float(figure), _STUB_UNITS.get(name, ""), figure.text)
            for name, figure in zip(settings, setting, strict=True)
        ),
    ]


def _row_id(altitude: Figure, settings: list[str], setting: tuple[Figure, ...]) -> str:
    return "/".join((f"altitude-{altitude:g}", *_setting_ids(settings, setting)))


def _setting_ids(settings: list[str], setting: tuple[Figure, ...]) -> list[str]:
    return [f"{slug(name)}-{at:g}" for name, at in zip(settings, setting, strict=True)]


def _at(cruise: Cruise, row: list[Figure], name: str) -> Figure:
    return row[cruise.columns.index(name)]


def _stub_columns(aircraft: Aircraft, settings: list[str]) -> list[Column]:
    """Return the columns that a cruise table is entered by."""
    return [
        Column("altitude", Message("column-pressure-altitude"), aircraft.units.altitude),
        *(
            Column(slug(name), Message(f"column-{slug(name)}"), _STUB_UNITS.get(name, ""))
            for name in settings
        ),
    ]


def _temperature(aircraft: Aircraft, air: str | None, at: Figure | None) -> Message:
    if at is None:
        return Message("group-cruise")
    quantity = as_entered(at, aircraft.units.temperature)
    if air == "oat":
        return heading("oat", oat=quantity)
    return isa_heading(at)


def _unit(aircraft: Aircraft, name: str) -> str:
    units = {
        "tas": aircraft.units.speed,
        "ias": aircraft.units.speed,
        "fuel flow": aircraft.units.fuel_flow or "",
        "power": "%",
        **_STUB_UNITS,
    }
    return units.get(name, "")


def _as_given(aircraft: Aircraft, cruise: Cruise) -> Message:
    """Say that the table is the manual's, with its weight and page where it has them."""
    name, values = _at_weight(aircraft, cruise, "note-as-manual")
    if cruise.page:
        name, values = f"{name}-page", {**values, "page": cruise.page}
    return Message(name, values)


def _at_weight(aircraft: Aircraft, cruise: Cruise, name: str) -> tuple[str, dict[str, Value]]:
    if cruise.weight is None:
        return name, {}
    return f"{name}-weight", {"weight": as_entered(cruise.weight, aircraft.units.weight)}


def cruise_at_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return TAS and fuel flow between the manual's rows, at the school's altitudes and air."""
    cruise = aircraft.definition.cruise
    grid = grid_of(aircraft, school)
    title = Message("title-cruise-at")
    if cruise is None:
        return None
    air = grid.between if grid else None
    if air is None:
        kind = Message(f"kind-{aircraft.kind}")
        return Gap("cruise-at", title, heading("missing-cruise-altitudes", kind=kind))
    settings = set_by(cruise)
    combinations = dict.fromkeys(
        tuple(_at(cruise, row, name) for name in settings) for row in cruise.rows
    )
    across = _across(aircraft, cruise, air)
    blocks = [
        _between_block(aircraft, air, across, dict(zip(settings, one, strict=True)))
        for one in combinations
    ]
    blocks = [block for block in blocks if block.rows]
    if not blocks:
        return Gap("cruise-at", title, Message("missing-cruise-between"))
    flows = "fuel flow" in cruise.columns
    return Table(
        "cruise-at",
        title,
        Message("how-cruise-at-fuel" if flows else "how-cruise-at"),
        (altitude_column(aircraft, air), *_between_columns(aircraft, cruise, across, flows)),
        tuple(blocks),
        notes=(Message(*_at_weight(aircraft, cruise, "note-between-rows")),),
    )


def _across(aircraft: Aircraft, cruise: Cruise, grid: CruiseGrid) -> list[Warmth | None]:
    """Return the temperatures to read at; None for the one that the manual's rows hold for."""
    return [*warmths(aircraft, grid)] if temperature(cruise) else [None]


def _between_columns(
    aircraft: Aircraft, cruise: Cruise, across: list[Warmth | None], flows: bool
) -> list[Column]:
    unit, fuel = aircraft.units.speed, aircraft.units.fuel_flow or ""
    group = heading("group-tas-and-fuel", unit=Unit(unit), fuel=Unit(fuel))
    return [
        Column(
            warmth.id if warmth else "held",
            warmth.heading(aircraft.units.temperature) if warmth else _held(aircraft, cruise),
            unit,
            group if flows else heading("group-tas-only", unit=Unit(unit)),
            heading("unit", unit=Unit(unit)) if flows else None,
            heading("unit", unit=Unit(fuel)) if flows else None,
            fuel if flows else "",
        )
        for warmth in across
    ]


def _held(aircraft: Aircraft, cruise: Cruise) -> Message:
    """Name the one temperature that the manual's rows hold for, if it says."""
    held = held_temperature(cruise)
    return _temperature(aircraft, *held) if held else Message("column-manual-air")


def _between_block(
    aircraft: Aircraft,
    grid: CruiseGrid,
    across: list[Warmth | None],
    setting: dict[str, Figure],
) -> Block:
    """Return the rows of a power setting that hold anything."""
    names, values = list(setting), tuple(setting.values())
    under = "/".join(_setting_ids(names, values))
    rows = []
    for level in levels(aircraft, grid):
        cells = [_between(aircraft, level, warmth, setting) for warmth in across]
        if any(cell.quantity is not None for cell in cells):
            rows.append(altitude_row(level, cells, f"{under}/" if under else ""))
    return Block(under, _setting(names, values), tuple(rows))


def _between(
    aircraft: Aircraft, level: Level, warmth: Warmth | None, setting: dict[str, Figure]
) -> Cell:
    """Return TAS and fuel flow at an altitude, in its air, with a power setting held."""
    altitude, units = float(level), aircraft.units
    at = {name: float(value) for name, value in setting.items()}
    if warmth is not None:
        if not occurs(aircraft, altitude, warmth):
            return BLANK
        at["oat"] = warmth.oat(aircraft, altitude)
        at["isa"] = at["oat"] - float(aircraft.standard_temperature(altitude))
    found = aircraft.cruise(altitude=altitude, **at)
    if found is None:
        return DASH
    inputs = (
        taking("pressure-altitude", level.quantity, "given/cruise"),
        *(air_inputs(level, warmth)[1:] if warmth else ()),
        *(
            taking(slug(name).lower(), as_entered(value, _UNITS.get(name, "")))
            for name, value in setting.items()
        ),
    )
    fuel = None
    if "fuel flow" in found:
        flow = units.fuel_flow or ""
        fuel = computed(found["fuel flow"], flow, "cruise", inputs, "minimum", 1)
    return computed(found["tas"], units.speed, "cruise", inputs, beside=fuel)


def _setting(names: list[str], values: tuple[Figure, ...]) -> Message | None:
    """Say a power setting as pilots do: 2400 rpm, 24 inHg."""
    parts = tuple(
        heading(f"setting-{slug(name)}", value=Quantity(float(value), entered=value.text))
        for name, value in zip(names, values, strict=True)
    )
    return Message("several", {"parts": parts}) if parts else None


ECONOMY_WINDS = (-20, -10, 0, 10, 20)


def economy_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return distance on a unit of fuel in still air and in winds along the course."""
    cruise = aircraft.definition.cruise
    title = Message("title-economy")
    if cruise is None:
        return None
    if "fuel flow" not in cruise.columns:
        return Gap("economy", title, Message("missing-fuel-flow"))
    settings = set_by(cruise)
    rows = _nearest_standard(aircraft, cruise, settings)
    fuel = (aircraft.units.fuel_flow or "").split("/")[0]
    unit = f"NM/{fuel}"
    return Table(
        "economy",
        title,
        heading("how-economy", fuel=Unit(fuel)),
        (
            *_stub_columns(aircraft, settings),
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
                    _economy_row(aircraft, cruise, row, settings, unit)
                    for row in rows
                    if _at(cruise, row, "altitude") == altitude
                ),
            )
            for altitude in sorted({_at(cruise, row, "altitude") for row in rows})
        ),
        stub=1 + len(settings),
        notes=(Message("note-economy"),),
    )


def _nearest_standard(
    aircraft: Aircraft, cruise: Cruise, settings: list[str]
) -> list[list[Figure]]:
    """Return for each altitude and setting the row nearest standard temperature."""
    found: dict[tuple[Figure, ...], list[Figure]] = {}
    for row in cruise.rows:
        key = tuple(_at(cruise, row, name) for name in ("altitude", *settings))
        if key not in found or _off_standard(aircraft, cruise, row) < _off_standard(
            aircraft, cruise, found[key]
        ):
            found[key] = row
    return list(found.values())


def _off_standard(aircraft: Aircraft, cruise: Cruise, row: list[Figure]) -> float:
    if "isa" in cruise.columns:
        return abs(_at(cruise, row, "isa"))
    if "oat" in cruise.columns:
        standard = float(aircraft.standard_temperature(float(_at(cruise, row, "altitude"))))
        return abs(_at(cruise, row, "oat") - standard)
    return 0.0


def _wind_id(wind: int) -> str:
    return f"{'tailwind' if wind > 0 else 'headwind'}-{abs(wind)}" if wind else "still"


def _wind(wind: int) -> Message:
    if wind == 0:
        return Message("still")
    return heading("tail" if wind > 0 else "head", wind=Quantity(abs(wind)))


def _economy_row(
    aircraft: Aircraft, cruise: Cruise, row: list[Figure], settings: list[str], unit: str
) -> Row:
    altitude = _at(cruise, row, "altitude")
    setting = tuple(_at(cruise, row, name) for name in settings)
    cells = (
        *_stub(aircraft, settings, altitude, setting),
        *(_economy(aircraft, cruise, row, wind, unit) for wind in ECONOMY_WINDS),
    )
    return Row(_row_id(altitude, settings, setting), cells)


def _economy(aircraft: Aircraft, cruise: Cruise, row: list[Figure], wind: int, unit: str) -> Cell:
    tas, fuel = _at(cruise, row, "tas"), _at(cruise, row, "fuel flow")
    flow = aircraft.units.fuel_flow or ""
    knots = float(convert(float(tas), aircraft.units.speed, "kt"))
    inputs: tuple[Input, ...] = (
        taking("tas", as_entered(tas, aircraft.units.speed), aircraft.identifiers[tas.place]),
        taking("wind", _signed(wind)),
        taking("fuel-flow", as_entered(fuel, flow), aircraft.identifiers[fuel.place]),
    )
    decimals = 1 if flow == "gal/h" else 2
    value = (knots + wind) / float(fuel)
    return computed(value, unit, "fuel-economy", inputs, "maximum", decimals)


def _signed(wind: int) -> Quantity:
    return Quantity(float(wind), "kt", entered=f"{wind:+d}")
