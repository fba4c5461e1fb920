"""The polar of a glider as the manual prints it, and the speeds that follow from it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from cardgen.air.polar import Point, least_sink, speed_to_fly
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.gliding import altitude_of, points, weights_of
from cardgen.cards.cells import (
    Inputs,
    as_entered,
    computed,
    entered,
    given,
    heading,
    said,
    taking,
)
from cardgen.cards.gliding import conditions
from cardgen.cards.indicated import (
    at_cas,
    beyond_at_any_altitude,
    beyond_limit,
    differs,
    indicated_column,
    shown_as_entered,
)
from cardgen.cards.wind import wind_heading, wind_name
from cardgen.definition.gliding import Polar
from cardgen.definition.identifiers import named_cases
from cardgen.definition.model import School
from cardgen.definition.names import slug
from cardgen.definition.places import Figure
from cardgen.document.record import (
    BLANK,
    DASH,
    Block,
    Cell,
    Column,
    Message,
    PolarCurve,
    Quantity,
    Row,
    Table,
    Unit,
)
from cardgen.document.rounding import kept
from cardgen.units import from_si, to_si

WINDS = (20, 10, 0, -10, -20, -30)  # kt, along the course; a tailwind above nought
AIR = {  # how fast the air sinks, in the manual's unit of sink; rising below nought
    "m/s": (-0.5, 0.0, 1.0, 2.0, 3.0),
    "ft/min": (-100.0, 0.0, 200.0, 400.0, 600.0),
    "kt": (-1.0, 0.0, 2.0, 4.0, 6.0),
}


# -- as printed ----------------------------------------------------------------------------------


def polar_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the polars as the manual prints them."""
    named = named_cases(aircraft.definition.type.polar)
    if not named:
        return None
    units = aircraft.units
    with_row = {name for _, polar in named for name in polar.rows}
    columns = (
        indicated_column(aircraft),
        *([Column("ias", Message("column-manual-ias"), units.speed)] * _own(aircraft, with_row)),
        *([Column("cas", Message("column-cas"), units.speed)] * ("cas" in with_row)),
        *([Column("tas", Message("column-tas"), units.speed)] * ("tas" in with_row)),
        Column("sink", Message("column-sink"), units.sink or ""),
    )
    return Table(
        "polar",
        Message("title-polar"),
        Message("how-polar"),
        columns,
        tuple(
            Block(
                case,
                conditions(aircraft, polar),
                tuple(
                    _printed(aircraft, case, polar, n, columns) for n, _ in enumerate(polar.sink)
                ),
            )
            for case, polar in named
        ),
        notes=tuple(
            heading("note-polar-page", page=page)
            for page in dict.fromkeys(polar.page for _, polar in named)
            if page
        ),
    )


def _own(aircraft: Aircraft, with_row: set[str]) -> bool:
    """Whether the manual's IAS has a column besides what the indicator shows."""
    return "ias" in with_row and differs(aircraft)


def _printed(
    aircraft: Aircraft, case: str, polar: Polar, at: int, columns: Sequence[Column]
) -> Row:
    """Return a point of a polar."""
    cells = [_shown(aircraft, polar, at)]
    for column in columns[1:]:
        row = polar.sink if column.id == "sink" else polar.rows.get(column.id)
        cells.append(entered(aircraft, row[at], polar, column.unit) if row else BLANK)
    name, row = next(iter(polar.rows.items()))
    return Row("/".join(filter(None, (case, f"{name}-{row[at]:g}"))), tuple(cells))


def _shown(aircraft: Aircraft, polar: Polar, at: int) -> Cell:
    if polar.ias is not None:
        return shown_as_entered(aircraft, polar.ias[at], polar, "target")
    tas = polar.tas[at] if polar.tas is not None else None
    cas = float(polar.cas[at]) if polar.cas is not None else _cas(aircraft, polar, float(tas or 0))
    formula = "indicated-from-calibrated"
    return at_cas(aircraft, cas, "target", formula, _at(aircraft, polar), polar.flaps)[0]


def _cas(aircraft: Aircraft, polar: Polar, tas: float) -> float:
    altitude = altitude_of(polar)
    oat = float(aircraft.standard_temperature(altitude))
    return float(aircraft.cas_from_tas(tas, altitude, oat))


# -- what follows from it ------------------------------------------------------------------------


@dataclass(frozen=True)
class _Flown:
    """A polar flown at a weight, or as given where it names none."""

    aircraft: Aircraft
    case: str
    polar: Polar
    weight: Figure | None

    @property
    def id(self) -> str:
        """Return what it holds for, with the weight that it is flown at."""
        if self.weight is None:
            return self.case
        return "/".join(filter(None, (self.setting_id, f"weight-{self.weight:g}")))

    @property
    def setting_id(self) -> str:
        """Return what it holds for but the weight."""
        polar = self.polar
        parts = [
            f"flaps-{slug(polar.flaps)}" if polar.flaps is not None else "",
            f"altitude-{polar.altitude:g}" if polar.altitude is not None else "",
            slug(polar.when) if polar.when else "",
        ]
        return "/".join(filter(None, parts))

    @property
    def heading(self) -> Message | None:
        """Return what it holds for in words, with the weight that it is flown at."""
        return self._at(self.weight)

    @property
    def setting(self) -> Message | None:
        """Return what it holds for in words but the weight."""
        return self._at(None)

    def _at(self, weight: Figure | None) -> Message | None:
        return conditions(self.aircraft, self.polar.model_copy(update={"weight": weight}))

    @property
    def inputs(self) -> Inputs:
        """Return what its speeds are reckoned from, whatever the wind and the air."""
        unit, at = self.aircraft.units.weight, _at(self.aircraft, self.polar)
        if self.weight is None or self.polar.weight is None:
            return at
        known = taking("known-weight", as_entered(self.polar.weight, unit), at[0].source)
        return known, taking("weight", as_entered(self.weight, unit)), *at

    def least_sink(self) -> Point | None:
        found = points(self.aircraft, self.polar, self.weight)
        return least_sink(found.speed, found.sink) if found else None

    def to_fly(self, wind: int = 0, sinking: float = 0.0) -> Point | None:
        """Return the best point in a wind along the course, kt, and air that sinks, m/s."""
        found = points(self.aircraft, self.polar, self.weight)
        if found is None:
            return None
        return speed_to_fly(found.speed, found.sink, float(to_si(-wind, "kt")), sinking)

    def speed_cells(self, point: Point | None, formula: str, inputs: Inputs) -> tuple[Cell, Cell]:
        """Return what the indicator shows at a point, and CAS, each marked as it has to be."""
        if point is None:
            return DASH, DASH
        aircraft, polar = self.aircraft, self.polar
        cas = _cas(aircraft, polar, float(from_si(point.speed, aircraft.units.speed)))
        shown, calibrated = at_cas(aircraft, cas, "target", formula, inputs, polar.flaps)
        beside = Cell(said=Message("polar-end")) if point.is_end else None
        is_outside = self._is_outside(shown.quantity.value if shown.quantity else math.nan, cas)
        if shown.is_dash:
            return BLANK, replace(calibrated, beyond=is_outside, beside=beside)
        return replace(shown, beyond=is_outside, beside=beside), calibrated

    def _is_outside(self, shown: float, cas: float) -> bool:
        """Whether a speed is above a limit in force, or below the stall."""
        aircraft, flaps = self.aircraft, self.polar.flaps or self.aircraft.flaps[0]
        altitude = altitude_of(self.polar)
        oat = float(aircraft.standard_temperature(altitude))
        if flaps in aircraft.stall_entries:
            weight = float(self.weight or aircraft.maximum_weight)
            if cas < aircraft.stall_cas(flaps, weight, 0.0) - 1e-9:
                return True
        return beyond_limit(aircraft, shown, cas, altitude, oat) or beyond_at_any_altitude(
            aircraft, shown, flaps
        )


def polar_curves(aircraft: Aircraft) -> tuple[PolarCurve, ...]:
    """Return what is drawn of an aircraft's polars: each as the manual gives it, in TAS."""
    unit, sink = aircraft.indicator_unit, aircraft.units.sink or "m/s"
    curves = []
    for polar in aircraft.definition.type.polar:
        found = points(aircraft, polar, polar.weight)
        if found is None:
            continue
        least, best = least_sink(*found), speed_to_fly(*found)
        assert best is not None
        speeds = [float(one) for one in found.speed]
        curves.append(
            PolarCurve(
                conditions(aircraft, polar),
                tuple(kept(float(from_si(one, unit))) for one in speeds),
                tuple(kept(float(from_si(one, sink))) for one in found.sink),
                speeds.index(least.speed),
                speeds.index(best.speed),
            )
        )
    return tuple(curves)


def _flown(aircraft: Aircraft) -> list[_Flown]:
    return [
        _Flown(aircraft, case, polar, weight)
        for case, polar in named_cases(aircraft.definition.type.polar)
        for weight in weights_of(aircraft, polar)
    ]


def _at(aircraft: Aircraft, polar: Polar) -> Inputs:
    """Return the altitude of a polar as a formula takes it, from the polar's figures."""
    unit = aircraft.units.altitude
    altitude = as_entered(polar.altitude, unit) if polar.altitude else Quantity(0.0, unit)
    return (taking("pressure-altitude", altitude, _source(aircraft, polar)),)


def _source(aircraft: Aircraft, polar: Polar) -> str:
    """Return the identifier that the figures of a polar begin with."""
    return aircraft.identifiers[polar.sink[0].place].rsplit("/", 2)[0]


# -- least sink and best glide -------------------------------------------------------------------


def polar_best_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the speeds of least sink and of best glide in still air, by weight."""
    flown = _flown(aircraft)
    if not flown:
        return None
    blocks = tuple(
        Block(name, alike[0].setting, tuple(Row(one.id or "polar", _best(one)) for one in alike))
        for name, alike in _by_setting(flown).items()
    )
    return Table(
        "polar-best",
        Message("title-polar-best"),
        Message("how-polar-best"),
        (
            Column("weight", Message("column-weight"), aircraft.units.weight),
            *_pair_columns(aircraft, "least-sink"),
            Column(
                "least-sink-sink",
                heading("column-sink-of", unit=Unit(aircraft.units.sink or "")),
                aircraft.units.sink or "",
                Message("group-least-sink"),
            ),
            *_pair_columns(aircraft, "best-glide"),
            Column(
                "best-glide-ratio",
                Message("column-glide-ratio"),
                group=Message("group-best-glide"),
            ),
        ),
        blocks,
        notes=tuple(_notes(aircraft, [row for block in blocks for row in block.rows])),
    )


def _by_setting(flown: list[_Flown]) -> dict[str, list[_Flown]]:
    """Return polars at their weights, those together that differ in nothing else."""
    found: dict[str, list[_Flown]] = {}
    for one in flown:
        found.setdefault(one.setting_id, []).append(one)
    return found


def _pair_columns(aircraft: Aircraft, name: str) -> tuple[Column, Column]:
    own, manual, group = aircraft.indicator_unit, aircraft.units.speed, Message(f"group-{name}")
    return (
        Column(
            f"{name}-indicated",
            heading("column-ias-of", unit=Unit(own)),
            own,
            group,
            beside=Message("polar-end-column"),
            main=True,
            shown=True,
        ),
        Column(f"{name}-cas", heading("column-cas-of", unit=Unit(manual)), manual, group),
    )


def _best(one: _Flown) -> tuple[Cell, ...]:
    slowest, farthest = one.least_sink(), one.to_fly()
    unit = one.aircraft.units.sink or "m/s"
    sink = float(from_si(slowest.sink, unit)) if slowest else math.nan
    ratio = farthest.ratio if farthest else math.nan
    return (
        _weight_cell(one),
        *one.speed_cells(slowest, "least-sink", one.inputs),
        computed(sink, unit, "least-sink", one.inputs, "minimum", _decimals(one.polar)),
        *one.speed_cells(farthest, "speed-to-fly", one.inputs),
        computed(ratio, "", "speed-to-fly", one.inputs, "maximum", 1),
    )


def _decimals(polar: Polar) -> int:
    """Return how many decimals the manual gives a polar's sinks with."""
    return max(len(figure.text.partition(".")[2]) for figure in polar.sink)


def _weight_cell(one: _Flown) -> Cell:
    if one.weight is None:
        return said(Message("polar-as-given"))
    return given(float(one.weight), one.aircraft.units.weight, one.weight.text)


# -- speed to fly --------------------------------------------------------------------------------


def speed_to_fly_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the speed to fly by wind along the course and by what the air does."""
    flown = _flown(aircraft)
    if not flown:
        return None
    unit = aircraft.units.sink or "m/s"
    blocks = tuple(
        Block(
            one.id,
            one.heading,
            tuple(
                Row("/".join(filter(None, (one.id, _air_id(air)))), _to_fly(one, air))
                for air in AIR[unit]
            ),
        )
        for one in flown
    )
    rows = [row for block in blocks for row in block.rows]
    return Table(
        "speed-to-fly",
        Message("title-speed-to-fly"),
        heading("how-speed-to-fly", unit=Unit(aircraft.indicator_unit)),
        (
            Column("air", Message("column-air"), unit, shown=True, words=True),
            *_wind_columns(aircraft),
        ),
        blocks,
        notes=tuple(_notes(aircraft, rows)),
    )


def _wind_columns(aircraft: Aircraft) -> list[Column]:
    unit = aircraft.indicator_unit
    beside = "km/h" if unit == "km/h" else "kt"
    return [
        Column(
            f"{wind_name(wind)}-{abs(wind)}" if wind else "still",
            wind_heading(abs(wind), beside) if wind else Message("column-no-wind"),
            unit,
            Message(f"group-{wind_name(wind)}" if wind else "group-no-wind"),
            beside=Message("polar-end-column"),
            shown=True,
        )
        for wind in WINDS
    ]


def _air_id(sinking: float) -> str:
    if not sinking:
        return "still"
    return f"{'sinking' if sinking > 0 else 'rising'}-{abs(sinking):g}"


def _to_fly(one: _Flown, sinking: float) -> tuple[Cell, ...]:
    unit = one.aircraft.units.sink or "m/s"
    air = _air(sinking, unit)
    cells = []
    for wind in WINDS:
        blows = Quantity(float(wind), "kt", entered=f"{wind:+d}" if wind else "0")
        inputs = (*one.inputs, taking("wind", blows), taking("air", air))
        point = one.to_fly(wind, float(to_si(sinking, unit)))
        shown, _ = one.speed_cells(point, "speed-to-fly", inputs)
        cells.append(DASH if shown is BLANK else shown)
    return (said(_air(sinking, "")), *cells)


def _air(sinking: float, unit: str) -> Message:
    """Say what the air does, with a unit where one is named."""
    if not sinking:
        return Message("air-still")
    moves = Quantity(abs(sinking), unit, entered=f"{abs(sinking):g}")
    return heading(f"air-{'sinking' if sinking > 0 else 'rising'}", speed=moves)


def _notes(aircraft: Aircraft, rows: Sequence[Row]) -> list[Message]:
    """Return what is to be known of speeds that come from a polar."""
    polars = aircraft.definition.type.polar
    cells = [cell for row in rows for cell in row.cells]
    notes = [Message("note-polar-points")]
    if any(polar.weight is not None for polar in polars):
        notes.append(Message("note-polar-weight"))
    notes.append(Message("note-polar-air"))
    if any(cell.beside for cell in cells):
        notes.append(Message("note-polar-end"))
    if any(cell.beyond for cell in cells):
        notes.append(Message("note-polar-outside"))
    if any(cell.is_dash for cell in cells):
        notes.append(Message("note-polar-dash"))
    if any(cell is BLANK for cell in cells):
        notes.append(Message("note-cas-only"))
    return [*notes, Message("note-polar-caution")]
