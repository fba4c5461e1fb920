"""Cruise performance as the manual gives it."""

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.cruise import axes
from cardgen.cards.table import DASH, Block, Cell, Column, Gap, Table, entered, given, words
from cardgen.definition.model import Cruise
from cardgen.definition.places import Figure

_HEADINGS = {"tas": "TAS", "ias": "IAS", "fuel flow": "Fuel", "power": "Power"}
_SETTINGS = {"rpm": "", "manifold pressure": "inHg", "torque": "torque", "N1": "% N1"}


def cruise_table(aircraft: Aircraft) -> Table | Gap:
    """Return the manual's cruise rows, side by side for each temperature."""
    cruise = aircraft.definition.cruise
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
            *(
                Column(name, name[0].upper() + name[1:], _SETTINGS.get(name, ""))
                for name in settings
            ),
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
                f"{_text(altitude)} {aircraft.units.altitude}",
                tuple(_rows(cruise, altitude, settings, air, temperatures, results)),
            )
            for altitude in sorted({_at(cruise, row, "altitude") for row in cruise.rows})
        ),
        stub=len(settings),
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
        cells = [given(float(figure), figure.text) for figure in setting]
        for at in temperatures:
            same = [one for one in rows if air is None or _at(cruise, one, air) == at]
            for name in results:
                cells.append(entered(_at(cruise, same[0], name), cruise) if same else words(DASH))
        lines.append(tuple(cells))
    return lines


def _at(cruise: Cruise, row: list[Figure], name: str) -> Figure:
    return row[cruise.columns.index(name)]


def _text(figure: Figure) -> str:
    return f"{float(figure):,.0f}"


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


def _notes(aircraft: Aircraft, cruise: Cruise) -> tuple[str, ...]:
    weight = f" at {cruise.weight.text} {aircraft.units.weight}" if cruise.weight else ""
    page = f", page {cruise.page}" if cruise.page else ""
    return (f"As the manual gives it{weight}{page}. ISA is the standard temperature.",)
