"""Tables that serve every aircraft."""

from collections.abc import Sequence

import numpy as np

from cardgen.air import atmosphere, wind
from cardgen.cards.table import Block, Cell, Column, Table, computed, given
from cardgen.definition.speeds import Sense
from cardgen.units import convert, from_si, to_si

_ANGLE = "Crosswind by angle between wind and runway"
_ALTITUDES = (*range(-1000, 1000, 500), *range(1000, 20001, 1000))


def conversion_tables() -> tuple[Table, ...]:
    """Return the tables for all aircraft together."""
    return (
        speed_units_table(),
        *pressure_altitude_tables(),
        standard_atmosphere_table(),
        density_altitude_table(),
        crosswind_table(),
        time_table(),
    )


def speed_units_table() -> Table:
    """Return knots, miles and kilometres an hour, each from each."""
    units = ("kt", "mph", "km/h")
    blocks = []
    for start in units:
        rows = []
        for value in range(10, 301, 10):
            cells = [
                computed(
                    float(convert(float(value), start, unit)), "unit", {"speed": f"{value} {start}"}
                )
                if unit != start
                else given(float(value))
                for unit in (start, *(unit for unit in units if unit != start))
            ]
            rows.append(_in_order(cells, start, units))
        blocks.append(Block(f"From {start}", tuple(rows)))
    return Table(
        "speed-units",
        "Knots, mph and km/h",
        "Find the speed in the unit you have; read across for the others.",
        tuple(Column(unit, unit, main=True) for unit in units),
        tuple(blocks),
        stub=0,
    )


def _in_order(cells: list[Cell], start: str, units: Sequence[str]) -> tuple[Cell, ...]:
    by_unit = dict(zip((start, *(unit for unit in units if unit != start)), cells, strict=True))
    return tuple(by_unit[unit] for unit in units)


def pressure_altitude_tables() -> tuple[Table, Table]:
    """Return what to add to the indicated altitude, by altimeter setting."""
    return (
        _setting_table("inHg", [28.0 + 0.1 * n for n in range(30)], 2, "29.92"),
        _setting_table("hPa", [float(hpa) for hpa in range(950, 1051, 4)], 0, "1013"),
    )


def _setting_table(unit: str, settings: list[float], decimals: int, standard: str) -> Table:
    rows = []
    for setting in settings:
        pressure = to_si(setting, unit)
        metres = atmosphere.pressure_altitude_from_setting(0.0, pressure)
        said = f"{setting:.{decimals}f}"
        inputs = {"altimeter setting": f"{said} {unit}"}
        rows.append(
            (
                given(setting, said),
                computed(float(from_si(metres, "ft")), "pressure altitude", inputs),
                computed(float(metres), "pressure altitude", inputs),
            )
        )
    return Table(
        f"pressure-altitude-{unit.lower()}",
        f"Pressure altitude by altimeter setting, {unit}",
        "Find the altimeter setting; add the correction beside it to the altitude shown.",
        (
            Column("setting", "Setting", unit),
            Column("ft", "Add", "ft", main=True),
            Column("m", "Add", "m"),
        ),
        (Block("", tuple(rows)),),
        notes=(f"With {standard} {unit} set, the altimeter shows pressure altitude itself.",),
    )


def standard_atmosphere_table() -> Table:
    """Return temperature and pressure of the standard atmosphere."""
    rows = []
    for feet in _ALTITUDES:
        metres = to_si(float(feet), "ft")
        inputs = {"pressure altitude": f"{feet} ft"}
        kelvin = float(atmosphere.temperature(metres))
        pascal = float(atmosphere.pressure(metres))
        rows.append(
            (
                given(float(feet), f"{feet:,}".replace("-", "−")),
                *(
                    computed(
                        float(from_si(kelvin, unit)), "standard temperature", inputs, decimals=1
                    )
                    for unit in ("C", "F")
                ),
                computed(float(from_si(pascal, "hPa")), "standard pressure", inputs, decimals=1),
                computed(float(from_si(pascal, "inHg")), "standard pressure", inputs, decimals=2),
            )
        )
    return Table(
        "standard-atmosphere",
        "Standard atmosphere",
        "Find the pressure altitude; read the standard temperature and pressure across.",
        (
            Column("altitude", "Pressure altitude", "ft"),
            Column("C", "Temperature", "°C", main=True),
            Column("F", "Temperature", "°F"),
            Column("hPa", "Pressure", "hPa", main=True),
            Column("inHg", "Pressure", "inHg"),
        ),
        (Block("", tuple(rows)),),
    )


def density_altitude_table() -> Table:
    """Return density altitude over pressure altitude and temperature."""
    temperatures = tuple(range(-20, 46, 5))
    rows = []
    for feet in range(0, 14001, 1000):
        metres = to_si(float(feet), "ft")
        cells = []
        for celsius in temperatures:
            found = atmosphere.density_altitude(metres, to_si(float(celsius), "C"))
            inputs = {"pressure altitude": f"{feet} ft", "OAT": f"{celsius} °C"}
            cells.append(computed(float(from_si(found, "ft")), "density altitude", inputs))
        rows.append((given(float(feet), f"{feet:,}"), *cells))
    return Table(
        "density-altitude",
        "Density altitude",
        "Find the pressure altitude at the left; read density altitude, ft, under the outside air "
        "temperature.",
        (
            Column("altitude", "Pressure altitude", "ft"),
            *(
                Column(
                    f"{celsius} C",
                    f"{celsius}°C".replace("-", "−"),
                    "ft",
                    "Density altitude, ft, by outside air temperature",
                )
                for celsius in temperatures
            ),
        ),
        (Block("", tuple(rows)),),
        notes=("Dry air; humid air lifts the density altitude a little more.",),
    )


def crosswind_table() -> Table:
    """Return crosswind and headwind components by wind speed and angle."""
    angles = tuple(range(0, 91, 10))
    rows = []
    for speed in range(5, 41, 5):
        cells = []
        for angle in angles:
            parts = wind.wind_components(np.radians(float(angle)), float(speed), 0.0)
            inputs = {"wind": f"{speed}", "angle": f"{angle}°"}
            head = computed(float(parts.headwind), "wind components", inputs, Sense.MAXIMUM)
            across = float(parts.crosswind)
            cells.append(computed(across, "wind components", inputs, Sense.MINIMUM, also=head))
        rows.append((given(float(speed)), *cells))
    return Table(
        "crosswind",
        "Crosswind and headwind",
        "Find the wind speed at the left; read the crosswind under the angle between wind and "
        "runway. The small figure is the headwind.",
        (
            Column("wind", "Wind"),
            *(Column(f"{a}", f"{a}°", "", _ANGLE, "headwind") for a in angles),
        ),
        (Block("", tuple(rows)),),
        notes=("In the unit of the wind speed. Crosswind is rounded up, headwind down.",),
    )


def time_table() -> Table:
    """Return minutes en route by distance and ground speed."""
    speeds = tuple(range(60, 241, 20))
    distances = (*range(10, 101, 10), 120, 150, 200)
    rows = []
    for distance in distances:
        cells = []
        for speed in speeds:
            inputs = {"distance": f"{distance} NM", "ground speed": f"{speed} kt"}
            cells.append(computed(60.0 * distance / speed, "time", inputs, Sense.MINIMUM))
        rows.append((given(float(distance)), *cells))
    return Table(
        "time",
        "Time en route",
        "Find the distance at the left; read minutes under the ground speed.",
        (
            Column("distance", "Distance", "NM"),
            *(Column(f"{s}", f"{s}", "min", "Minutes by ground speed, kt") for s in speeds),
        ),
        (Block("", tuple(rows)),),
        notes=("Rounded up to the whole minute.",),
    )
