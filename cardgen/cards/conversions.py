"""Tables that serve every aircraft."""

from collections.abc import Iterable, Sequence

import numpy as np

from cardgen.air import atmosphere, wind
from cardgen.cards.cells import computed, given, heading, reading, taking
from cardgen.document.record import Block, Cell, Column, Input, Message, Quantity, Row, Table, Unit
from cardgen.document.rounding import rounded
from cardgen.units import AIRSPEED_UNITS, convert, from_si, to_si

_ALTITUDES = (*range(-1000, 1000, 500), *range(1000, 20001, 1000))


def conversion_tables() -> tuple[Table, ...]:
    """Return the tables for all aircraft together."""
    return (
        units_table("speed-units", AIRSPEED_UNITS, range(10, 301, 10)),
        *pressure_altitude_tables(),
        standard_atmosphere_table(),
        density_altitude_table(),
        crosswind_table(),
        time_table(),
        units_table("fuel-units", ("gal", "L"), (*range(1, 10), *range(10, 201, 10)), 1),
        units_table("weight-units", ("lb", "kg"), (*range(10, 100, 10), *range(100, 3001, 100))),
        units_table("distance-units", ("NM", "mi", "km"), (*range(1, 10), *range(10, 201, 10)), 1),
        units_table(
            "height-units", ("ft", "m"), (*range(100, 1000, 100), *range(1000, 20001, 1000))
        ),
    )


def units_table(
    name: str, units: Sequence[str], numbers: Iterable[int], decimals: int = 0
) -> Table:
    """Return what numbers of each of some units are in the others, side by side.

    Parameters
    ----------
    name : str
        The identifier of the table.
    units : sequence of str
        Two or more of one quantity.
    numbers : iterable of int
    decimals : int
    """
    pairs = [(start, unit) for start in units for unit in units if unit != start]
    return Table(
        name,
        Message(f"title-{name}"),
        Message("how-units"),
        (
            Column("number", Message("column-number")),
            *(
                Column(
                    f"{_part(start)}-{_part(unit)}",
                    heading("column-unit-to-unit", target=Unit(unit)),
                    unit,
                    heading("group-from-unit", source=Unit(start)),
                    shown=True,
                )
                for start, unit in pairs
            ),
        ),
        (Block("", None, tuple(_units_row(number, pairs, decimals) for number in numbers)),),
    )


def _units_row(number: int, pairs: Sequence[tuple[str, str]], decimals: int) -> Row:
    cells = [
        computed(
            float(convert(float(number), start, unit)),
            unit,
            "unit",
            (taking("number", Quantity(float(number), start)),),
            decimals=decimals,
        )
        for start, unit in pairs
    ]
    return Row(f"number-{number}", (given(float(number)), *cells))


def _part(unit: str) -> str:
    """Return a unit as a part of an identifier."""
    return unit.replace("/", "")


def pressure_altitude_tables() -> tuple[Table, Table]:
    """Return what to add to the indicated altitude, by altimeter setting."""
    return (
        _setting_table("inHg", [28.0 + 0.1 * n for n in range(30)], 2, 29.92),
        _setting_table("hPa", [float(hpa) for hpa in range(950, 1051, 4)], 0, 1013.0),
    )


def _setting_table(unit: str, settings: list[float], decimals: int, standard: float) -> Table:
    rows = []
    for setting in settings:
        pressure = to_si(setting, unit)
        metres = atmosphere.pressure_altitude_from_setting(0.0, pressure)
        quantity = reading(setting, unit, decimals)
        inputs = (taking("altimeter-setting", quantity),)
        rows.append(
            Row(
                f"setting-{rounded(setting, decimals=decimals):.{decimals}f}",
                (
                    Cell(quantity),
                    computed(float(from_si(metres, "ft")), "ft", "pressure-altitude", inputs),
                    computed(float(metres), "m", "pressure-altitude", inputs),
                ),
            )
        )
    return Table(
        f"pressure-altitude-{unit.lower()}",
        heading("title-pressure-altitude", unit=Unit(unit)),
        Message("how-pressure-altitude"),
        (
            Column("setting", Message("column-setting"), unit),
            Column("ft", Message("column-add"), "ft", main=True),
            Column("m", Message("column-add"), "m"),
        ),
        (Block("", None, tuple(rows)),),
        notes=(heading("note-standard-setting", setting=reading(standard, unit, decimals)),),
    )


def standard_atmosphere_table() -> Table:
    """Return temperature and pressure of the standard atmosphere."""
    rows = []
    for feet in _ALTITUDES:
        metres = to_si(float(feet), "ft")
        inputs = (_altitude_input(feet),)
        kelvin = float(atmosphere.temperature(metres))
        pascal = float(atmosphere.pressure(metres))
        warmth = [
            computed(float(from_si(kelvin, unit)), unit, "standard-temperature", inputs, decimals=1)
            for unit in ("C", "F")
        ]
        pressure = [
            computed(
                float(from_si(pascal, unit)), unit, "standard-pressure", inputs, decimals=decimals
            )
            for unit, decimals in (("hPa", 1), ("inHg", 2))
        ]
        rows.append(Row(f"altitude-{feet}", (given(float(feet), "ft"), *warmth, *pressure)))
    return Table(
        "standard-atmosphere",
        Message("title-standard-atmosphere"),
        Message("how-standard-atmosphere"),
        (
            Column("altitude", Message("column-pressure-altitude"), "ft"),
            Column("C", Message("column-temperature"), "C", main=True),
            Column("F", Message("column-temperature"), "F"),
            Column("hPa", Message("column-pressure"), "hPa", main=True),
            Column("inHg", Message("column-pressure"), "inHg"),
        ),
        (Block("", None, tuple(rows)),),
    )


def _altitude_input(feet: int) -> Input:
    return taking("pressure-altitude", Quantity(float(feet), "ft"))


def density_altitude_table() -> Table:
    """Return density altitude over pressure altitude and temperature."""
    temperatures = tuple(range(-20, 46, 5))
    rows = []
    for feet in range(0, 14001, 1000):
        metres = to_si(float(feet), "ft")
        cells = []
        for celsius in temperatures:
            found = atmosphere.density_altitude(metres, to_si(float(celsius), "C"))
            inputs = (_altitude_input(feet), taking("oat", Quantity(float(celsius), "C")))
            cells.append(computed(float(from_si(found, "ft")), "ft", "density-altitude", inputs))
        rows.append(Row(f"altitude-{feet}", (given(float(feet), "ft"), *cells)))
    return Table(
        "density-altitude",
        Message("title-density-altitude"),
        Message("how-density-altitude"),
        (
            Column("altitude", Message("column-pressure-altitude"), "ft"),
            *(
                Column(
                    f"oat-{celsius}",
                    heading("oat", oat=Quantity(float(celsius), "C")),
                    "ft",
                    Message("group-density-altitude"),
                )
                for celsius in temperatures
            ),
        ),
        (Block("", None, tuple(rows)),),
        notes=(Message("note-dry-air"),),
    )


def crosswind_table() -> Table:
    """Return crosswind and headwind components by wind speed and angle."""
    angles = tuple(range(0, 91, 10))
    rows = []
    for speed in range(5, 41, 5):
        cells = []
        for angle in angles:
            parts = wind.wind_components(np.radians(float(angle)), float(speed), 0.0)
            inputs = (
                taking("wind", Quantity(float(speed))),
                taking("angle", Quantity(float(angle), "deg")),
            )
            head = computed(float(parts.headwind), "", "wind-components", inputs, "maximum")
            across = float(parts.crosswind)
            cells.append(computed(across, "", "wind-components", inputs, "minimum", beside=head))
        rows.append(Row(f"wind-{speed}", (given(float(speed)), *cells)))
    return Table(
        "crosswind",
        Message("title-crosswind-headwind"),
        Message("how-crosswind-headwind"),
        (
            Column("wind", Message("column-wind")),
            *(
                Column(
                    f"angle-{angle}",
                    heading("angle", angle=Quantity(float(angle), "deg")),
                    "",
                    Message("group-wind-angle"),
                    Message("beside-crosswind"),
                    Message("beside-headwind"),
                )
                for angle in angles
            ),
        ),
        (Block("", None, tuple(rows)),),
        notes=(Message("note-wind-unit"),),
    )


def time_table() -> Table:
    """Return minutes en route by distance and ground speed."""
    speeds = tuple(range(60, 241, 20))
    rows = [_time_row(distance, speeds) for distance in (*range(10, 101, 10), 120, 150, 200)]
    return Table(
        "time",
        Message("title-time"),
        Message("how-time"),
        (
            Column("distance", Message("column-distance"), "NM"),
            *(
                Column(
                    f"speed-{speed}",
                    heading("number", number=Quantity(float(speed), "kt")),
                    "min",
                    Message("group-minutes"),
                )
                for speed in speeds
            ),
        ),
        (Block("", None, tuple(rows)),),
        notes=(Message("note-time"),),
    )


def _time_row(distance: int, speeds: Sequence[int]) -> Row:
    cells = []
    for speed in speeds:
        inputs = (
            taking("distance", Quantity(float(distance), "NM")),
            taking("ground-speed", Quantity(float(speed), "kt")),
        )
        cells.append(computed(60.0 * distance / speed, "min", "time", inputs, "minimum"))
    return Row(f"distance-{distance}", (given(float(distance), "NM"), *cells))
