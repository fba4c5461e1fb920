"""Cruise performance as the manual gives it."""

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.cruise import axes
from cardgen.cards.table import (
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Table,
    computed,
    entered,
    given,
    words,
)
from cardgen.definition.model import CRUISE_SETTINGS, Cruise, CruiseGrid, School
from cardgen.definition.places import Figure
from cardgen.definition.speeds import Sense
from cardgen.units import convert

_HEADINGS = {"tas": "TAS", "ias": "IAS", "fuel flow": "Fuel", "power": "Power"}
_SETTINGS = {"rpm": "", "manifold pressure": "inHg", "torque": "%", "N1": "%"}


def cruise_table(aircraft: Aircraft) -> Table | Gap | None:
    """Return the manual's cruise rows, side by side for each temperature; None for a glider."""
    cruise = aircraft.definition.cruise
    if aircraft.kind == "glider":
        return None
    if cruise is None:
        return Gap("Cruise", "the definition has no cruise table")
    names = axes(cruise)
    air = next((name for name in ("isa", "oat") if name in names), None)
    settings = [name for name in names if name not in ("altitude", air)]
    results = [name for name in cruise.columns if name not in names]
    temperatures: list[Figure | None] = [None]
    if air:
        temperatures = [*sorted({_at(cruise, row, air) for row in cruise.rows})]
    return Table(
        "cruise",
        "Cruise",
        "Find the pressure altitude and power setting at the left; read TAS and fuel flow under "
        "the temperature.",
        (
            *_stub_columns(aircraft, settings),
            *(
                Column(
                    f"{name} at {_temperature(aircraft, air, at)}",
                    f"{_HEADINGS[name]} {_unit(aircraft, name)}",
                    _unit(aircraft, name),
                    _temperature(aircraft, air, at) or "Cruise",
                    main=name == "tas",
                )
                for at in temperatures
                for name in results
            ),
        ),
        tuple(
            Block(
                "",
                tuple(_rows(cruise, altitude, settings, air, temperatures, results)),
            )
            for altitude in sorted({_at(cruise, row, "altitude") for row in cruise.rows})
        ),
        stub=1 + len(settings),
        notes=_notes(aircraft, cruise),
    )


def _rows(
    cruise: Cruise,
    altitude: Figure,
    settings: list[str],
    air: str | None,
    temperatures: list[Figure | None],
    results: list[str],
) -> list[tuple[Cell, ...]]:
    here = [row for row in cruise.rows if _at(cruise, row, "altitude") == altitude]
    found: dict[tuple[Figure, ...], list[list[Figure]]] = {}
    for row in here:
        found.setdefault(tuple(_at(cruise, row, name) for name in settings), []).append(row)
    lines = []
    for setting, rows in found.items():
        cells = [given(float(figure), figure.text) for figure in (altitude, *setting)]
        for at in temperatures:
            same = [one for one in rows if air is None or _at(cruise, one, air) == at]
            for name in results:
                cells.append(entered(_at(cruise, same[0], name), cruise) if same else words(DASH))
        lines.append(tuple(cells))
    return lines


def _at(cruise: Cruise, row: list[Figure], name: str) -> Figure:
    return row[cruise.columns.index(name)]


def _stub_columns(aircraft: Aircraft, settings: list[str]) -> list[Column]:
    """Return the columns that a cruise table is entered by."""
    return [
        Column("altitude", "Pressure altitude", aircraft.units.altitude),
        *(Column(name, name[0].upper() + name[1:], _SETTINGS.get(name, "")) for name in settings),
    ]


def _temperature(aircraft: Aircraft, air: str | None, at: Figure | None) -> str:
    if at is None:
        return ""
    sign = "+" if float(at) > 0 and air == "isa" else ""
    said = f"{sign}{at.text.lstrip('+').replace('-', '−')}"
    if air == "isa":
        return "ISA" if float(at) == 0 else f"ISA {said}"
    return f"{said}°{aircraft.units.temperature}"


def _unit(aircraft: Aircraft, name: str) -> str:
    units = {
        "tas": aircraft.units.speed,
        "ias": aircraft.units.speed,
        "fuel flow": aircraft.units.fuel_flow or "",
        "power": "%",
    }
    return units[name]


def _weight(aircraft: Aircraft, cruise: Cruise) -> str:
    return f" at {cruise.weight.text} {aircraft.units.weight}" if cruise.weight else ""


def _notes(aircraft: Aircraft, cruise: Cruise) -> tuple[str, ...]:
    weight = _weight(aircraft, cruise)
    page = f", page {cruise.page}" if cruise.page else ""
    return (f"As the manual gives it{weight}{page}.",)


def cruise_at_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return TAS and fuel flow between the manual's rows, at the school's altitudes and OATs."""
    cruise = aircraft.definition.cruise
    grid = school.reference_speeds.get(aircraft.kind)
    if cruise is None:
        return None
    if grid is None or grid.cruise is None:
        return Gap("Cruise by OAT", f"the school gives no cruise altitudes for {aircraft.kind}")
    names = axes(cruise)
    settings = [name for name in names if name in CRUISE_SETTINGS]
    combinations = dict.fromkeys(
        tuple(_at(cruise, row, name) for name in settings) for row in cruise.rows
    )
    unit, fuel = aircraft.units.speed, aircraft.units.fuel_flow
    flows = "fuel flow" in cruise.columns
    return Table(
        "cruise-at",
        "Cruise by OAT",
        "Find the power setting, then the pressure altitude at the left; read TAS under the "
        "outside air temperature." + (" The small figure is fuel flow." if flows else ""),
        (
            Column("altitude", "Pressure altitude", aircraft.units.altitude),
            *(
                Column(
                    f"oat {oat.text}",
                    f"{oat.text.replace('-', '−')}°{aircraft.units.temperature}",
                    unit,
                    f"TAS, {unit}, and fuel flow, {fuel}" if flows else f"TAS, {unit}",
                    f"fuel flow {fuel}" if flows else "",
                )
                for oat in grid.cruise.oat
            ),
        ),
        tuple(
            Block(
                _setting(settings, combination),
                tuple(
                    _between_row(
                        aircraft, grid.cruise, level, dict(zip(settings, combination, strict=True))
                    )
                    for level in grid.cruise.altitude
                ),
            )
            for combination in combinations
        ),
        notes=(
            f"Linear between the manual's rows{_weight(aircraft, cruise)}. A dash: outside them.",
        ),
    )


def _setting(names: list[str], values: tuple[Figure, ...]) -> str:
    """Say a power setting as pilots do: 2400 rpm, 24 inHg."""
    units = {"rpm": "rpm", "manifold pressure": "inHg", "torque": "% torque", "N1": "% N1"}
    return ", ".join(
        f"{value.text} {units.get(name, name)}" for name, value in zip(names, values, strict=True)
    )


def _between_row(
    aircraft: Aircraft, grid: CruiseGrid, altitude: Figure, setting: dict[str, Figure]
) -> tuple[Cell, ...]:
    cells = [given(float(altitude), altitude.text)]
    for oat in grid.oat:
        deviation = float(oat) - float(aircraft.standard_temperature(float(altitude)))
        at = {name: float(value) for name, value in setting.items()}
        found = aircraft.cruise(altitude=float(altitude), oat=float(oat), isa=deviation, **at)
        inputs = {
            "pressure altitude": f"{altitude.text} {aircraft.units.altitude}",
            "OAT": f"{oat.text} {aircraft.units.temperature}",
            **{name: value.text for name, value in setting.items()},
        }
        if found is None:
            cells.append(words(DASH))
            continue
        fuel = None
        if "fuel flow" in found:
            fuel = computed(found["fuel flow"], "cruise", inputs, Sense.MINIMUM, 1)
        cells.append(computed(found["tas"], "cruise", inputs, also=fuel))
    return tuple(cells)


ECONOMY_WINDS = (-20, -10, 0, 10, 20)


def economy_table(aircraft: Aircraft) -> Table | Gap | None:
    """Return distance on a unit of fuel in still air and in winds along the course."""
    cruise = aircraft.definition.cruise
    if cruise is None:
        return None
    if "fuel flow" not in cruise.columns:
        return Gap("Distance on fuel", "the cruise table gives no fuel flow")
    names = axes(cruise)
    settings = [name for name in names if name in CRUISE_SETTINGS]
    rows = _nearest_standard(aircraft, cruise, settings)
    fuel = (aircraft.units.fuel_flow or "").split("/")[0]
    return Table(
        "economy",
        "Distance on fuel",
        f"Find the pressure altitude and power setting at the left; read nautical miles on one "
        f"{fuel} of fuel under the wind along the course.",
        (
            *_stub_columns(aircraft, settings),
            *(
                Column(f"wind {wind:+d}", _wind(wind), f"NM/{fuel}", f"NM/{fuel} by wind, kt")
                for wind in ECONOMY_WINDS
            ),
        ),
        tuple(
            Block(
                "",
                tuple(
                    _economy_row(aircraft, cruise, row, settings)
                    for row in rows
                    if _at(cruise, row, "altitude") == altitude
                ),
            )
            for altitude in sorted({_at(cruise, row, "altitude") for row in rows})
        ),
        stub=1 + len(settings),
        notes=("Nearest standard temperature. Rounded down. Without climb or reserve: no range.",),
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


def _wind(wind: int) -> str:
    if wind == 0:
        return "still"
    return f"{'tail' if wind > 0 else 'head'} {abs(wind)}"


def _economy_row(
    aircraft: Aircraft, cruise: Cruise, row: list[Figure], settings: list[str]
) -> tuple[Cell, ...]:
    given_at = (_at(cruise, row, name) for name in ("altitude", *settings))
    return (
        *(given(float(figure), figure.text) for figure in given_at),
        *(_economy(aircraft, cruise, row, wind) for wind in ECONOMY_WINDS),
    )


def _economy(aircraft: Aircraft, cruise: Cruise, row: list[Figure], wind: int) -> Cell:
    tas, fuel = _at(cruise, row, "tas"), _at(cruise, row, "fuel flow")
    knots = float(convert(float(tas), aircraft.units.speed, "kt"))
    inputs = {
        "TAS": f"{tas.text} {aircraft.units.speed}",
        "wind": f"{wind:+d} kt",
        "fuel flow": f"{fuel.text} {aircraft.units.fuel_flow}",
    }
    decimals = 1 if aircraft.units.fuel_flow == "gal/h" else 2
    value = (knots + wind) / float(fuel)
    return computed(value, "fuel economy", inputs, Sense.MAXIMUM, decimals)
