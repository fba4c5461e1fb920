"""The figures and curves that drawings show, and that any case can be reckoned from."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.airframe.limits import limit_at
from cardgen.cards.air import grid_of, levels
from cardgen.cards.indicated import shown_as_entered
from cardgen.cards.polar import polar_curves
from cardgen.cards.true_airspeed import round_speeds
from cardgen.definition.corrections import (
    AltimeterCard,
    AltimeterCorrection,
    InstrumentCorrection,
)
from cardgen.definition.group import Group
from cardgen.definition.identifiers import marking_id
from cardgen.definition.model import (
    Arc,
    Markings,
    RadialLine,
    School,
    SpeedEntry,
    in_general,
    sense_of,
)
from cardgen.definition.places import Figure
from cardgen.definition.speeds import SPEEDS
from cardgen.document import record
from cardgen.document.record import Basis, Bound, Curve, ErrorCurve, FlapLimit, Radial, TasLine
from cardgen.document.rounding import kept, rounded
from cardgen.units import Array, convert, convert_difference

DEVIATIONS = (-20.0, 0.0, 20.0)  # K, from the standard atmosphere, that TAS is drawn for
_LEVELS = 13  # altitudes of a line of TAS
_NAMED_BY = {  # the V-speed that a line stands for: the first of these that the aircraft has
    "red_line": ("VNE", "VMO"),
    "blue_line": ("VYSE",),
    "red_radial": ("VMC",),
    "yellow_triangle": ("approach",),
}


def basis_of(aircraft: Aircraft, school: School) -> Basis:
    """Return what is drawn of an aircraft, and what any case of it can be reckoned from."""
    weights = aircraft.definition.type.weights
    bench = aircraft.definition.airframe.instrument_correction
    altimeter = aircraft.definition.airframe.altimeter_correction
    grid = grid_of(aircraft, school)
    heights = [float(one) for one in levels(aircraft, grid)] if grid else []
    return Basis(
        flaps=aircraft.flaps,
        weights=tuple(float(one) for one in (weights.maximum, *weights.others)),
        bounds=tuple(bound for found in _entries(aircraft) for bound in _bounds(aircraft, *found)),
        calibration=tuple(map(_curve, aircraft.calibrations)),
        bench=_card(bench) if bench else None,
        stall=tuple(_stalls(aircraft)),
        markings=markings_of(aircraft),
        errors=tuple(
            curve
            for table in aircraft.calibrations
            if (curve := _error(aircraft, table)) is not None
        ),
        tas=tuple(_tas_lines(aircraft, school)),
        levels=(min(heights), max(heights)) if heights else (),
        altimeter=tuple(map(_altimeter, aircraft.definition.altimeter_correction)),
        altimeter_bench=_card(altimeter) if altimeter else None,
        polars=polar_curves(aircraft),
        only_approved=tuple(aircraft.definition.type.only_approved),
    )


def _entries(aircraft: Aircraft) -> Iterator[tuple[str, SpeedEntry, str]]:
    """Yield the speeds by name, the V-speeds in the order in which they are looked for.

    With each the condition in words under which it holds beside one that does in general.
    """
    speeds = aircraft.definition.speeds
    named: list[tuple[str, Sequence[SpeedEntry]]] = [
        *((name, speeds.get(name, [])) for name in SPEEDS),
        *aircraft.definition.other_speeds.items(),
    ]
    for name, entries in named:
        general = {id(one) for one in in_general(entries)}
        for one in entries:
            yield name, one, "" if id(one) in general else one.when or ""


def _bounds(aircraft: Aircraft, name: str, entry: SpeedEntry, when: str) -> list[Bound]:
    """Return what a V-speed says, once for each quantity that it is given as."""
    given = (("ias", entry.ias), ("cas", entry.cas), ("tas", entry.tas), ("mach", entry.mach))
    at = aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry)
    bounds = []
    for quantity, figure in given:
        if figure is not None and not (quantity == "cas" and entry.ias is not None):
            cas = math.nan
            if quantity == "cas" or (quantity == "ias" and (at[0] or entry.cas)):
                cas = aircraft.entry_cas(entry, *at)
            bounds.append(_bound(name, quantity, float(figure), cas, entry, when))
    if not bounds:
        cas = aircraft.entry_cas(entry, *at)
        if not math.isnan(cas):
            bounds.append(_bound(name, "cas", cas, cas, entry, when))
    return bounds


def _bound(
    name: str, quantity: str, value: float, cas: float, entry: SpeedEntry, when: str
) -> Bound:
    return Bound(
        name,
        sense_of(name, entry),
        quantity,
        kept(value),
        None if math.isnan(cas) else kept(cas),
        entry.flaps or "",
        entry.gear or "",
        _plain(entry.weight),
        _plain(entry.altitude),
        _plain(entry.from_altitude),
        entry.between is not None,
        kept(float(entry.less) / float(entry.for_each)) if entry.less and entry.for_each else 0.0,
        when=when,
    )


def _plain(figure: Figure | None) -> float | None:
    return None if figure is None else float(figure)


def _stalls(aircraft: Aircraft) -> Iterator[Bound]:
    """Yield the manual's stall speeds: without bank, then those in a bank."""
    for one in aircraft.stall_speeds:
        yield _stall(one.ias, one.calibrated, one.flaps, one.gear, one.weight)
    stall = aircraft.definition.stall
    for row in stall.rows if stall else ():
        for n, bank in enumerate(stall.bank if stall else ()):
            if bank:
                ias, cas = (figures[n] if figures else None for figures in (row.ias, row.cas))
                flaps, gear = row.flaps or aircraft.flaps[0], row.gear or ""
                known = math.nan if cas is None else float(cas)
                if cas is None and ias is not None:
                    known = float(aircraft.cas_from_ias(float(ias), flaps, gear=gear))
                assert stall is not None
                at = _stall(ias, known, flaps, gear, stall.weight_of(row))
                yield replace(at, bank=float(bank))


def _stall(ias: Figure | None, cas: float, flaps: str, gear: str, weight: Figure) -> Bound:
    known = None if math.isnan(cas) else kept(cas)
    quantity, value = ("cas", known or 0.0) if ias is None else ("ias", kept(float(ias)))
    return Bound("VS", "minimum", quantity, value, known, flaps, gear, float(weight))


def _curve(table: Calibrated) -> Curve:
    ias, cas = _kept(table.curve.x), _kept(table.curve.y)
    return Curve(ias, cas, table.flaps, table.static_source, table.page or "", table.gear)


def _card(card: InstrumentCorrection | AltimeterCard) -> Curve:
    """Return what an instrument shows, and what it should show."""
    shown, true = (tuple(kept(one) for one in row) for row in zip(*card.readings, strict=True))
    return Curve(shown, true, page=card.page or "")


def _altimeter(table: AltimeterCorrection) -> Curve:
    """Return what to add to the altitude shown, over IAS."""
    ias, add = (tuple(kept(one) for one in row) for row in zip(*table.to_add, strict=True))
    flaps, source, altitude = table.setting
    return Curve(ias, add, flaps, source, table.page or "", altitude=altitude)


# -- what is painted -----------------------------------------------------------------------------


def markings_of(aircraft: Aircraft) -> record.Markings | None:
    """Return what is painted on an aircraft's indicator, or None without markings.

    Arcs are painted where the manual has them, so that a bench card moves none of them.
    """
    markings = aircraft.definition.markings
    if markings is None:
        return None
    arcs, lines = [], []
    for name in Markings.PAINTED:
        marking = getattr(markings, name)
        if isinstance(marking, Arc):
            ends = (_marked(aircraft, marking.from_), _marked(aircraft, marking.to))
            arcs.append(record.Arc(marking_id(name), *ends))
        elif marking is not None:
            at = _marked(aircraft, marking.at)
            lines.append(Radial(marking_id(name), at, _stands_for(aircraft, name)))
    for mark in markings.other_marks:
        called = ", ".join(filter(None, (mark.name, mark.means)))
        lines.append(Radial(f"mark-{mark.shape}", _marked(aircraft, mark.at), called=called))
    if not arcs and not lines:
        return None
    flaps = _flap_limits(aircraft, markings, arcs)
    return record.Markings(tuple(arcs), tuple(lines), flaps, tuple(_tightened(aircraft)))


def _tightened(aircraft: Aircraft) -> Iterator[Radial]:
    """Yield the limits that a bench card tightens, each as its speed is printed."""
    markings, speeds = aircraft.definition.markings, aircraft.definition.speeds
    if aircraft.definition.airframe.instrument_correction is None or markings is None:
        return
    if aircraft.marked_in_cas or aircraft.marked_unit != aircraft.units.speed:
        return  # the table of markings has where the pointer stands
    white, green = markings.white, markings.green
    limits: list[tuple[str, Figure | None, Group | None]] = [
        ("VFE", white.to if white else None, white),
        ("VNO", green.to if green else None, green),
        *((one, line.at, line) for one, line in _limit_lines(aircraft)),
        *(("VFE", entry.ias, entry) for entry in speeds.get("VFE", []) if entry.flaps),
    ]
    told = set()
    for speed, ias, group in limits:
        if ias is None or group is None:
            continue
        sense = SPEEDS[speed].sense
        shown = shown_as_entered(aircraft, ias, group, sense, kept_within=True)
        if shown.quantity is None:
            continue
        at = rounded(shown.quantity.value, sense)
        if abs(at - _painted(aircraft, ias)) >= 1.0 and (speed, at) not in told:
            told.add((speed, at))
            yield Radial("tightened", at, speed)


def _limit_lines(aircraft: Aircraft) -> Iterator[tuple[str, RadialLine]]:
    """Yield the red lines, with the V-speeds that they stand for."""
    for name in ("red_line", "red_radial"):
        line = getattr(aircraft.definition.markings, name)
        speed = _stands_for(aircraft, name)
        if line is not None and speed:
            yield speed, line


def _stands_for(aircraft: Aircraft, line: str) -> str:
    """Return the V-speed that a line stands for, if the aircraft has it."""
    return next((one for one in _NAMED_BY[line] if one in aircraft.definition.speeds), "")


def _painted(aircraft: Aircraft, speed: Figure) -> float:
    """Return a speed of the manual's as the indicator's scale has it."""
    return kept(float(convert(float(speed), aircraft.units.speed, aircraft.indicator_unit)))


def _marked(aircraft: Aircraft, speed: Figure) -> float:
    """Return a marking as the indicator's scale has it."""
    return kept(float(convert(float(speed), aircraft.marked_unit, aircraft.indicator_unit)))


def _flap_limits(
    aircraft: Aircraft, markings: Markings, arcs: list[record.Arc]
) -> tuple[FlapLimit, ...]:
    """Return the flap settings with a limit of their own above the white arc, slowest first."""
    white = next((arc.high for arc in arcs if arc.name == "white"), math.inf)
    limits = [
        FlapLimit(entry.flaps, _painted(aircraft, speed))
        for entry in aircraft.definition.speeds.get("VFE", [])
        if entry.flaps is not None and entry.flaps not in markings.flaps_not_marked
        if (speed := entry.cas if aircraft.marked_in_cas else entry.ias) is not None
    ]
    above = [limit for limit in limits if limit.at > white + 0.5]
    return tuple(sorted(above, key=lambda limit: limit.at))


# -- what to add to the indication ---------------------------------------------------------------


def _error(aircraft: Aircraft, table: Calibrated) -> ErrorCurve | None:
    """Return indications and what to add to them, at every point where the curve bends.

    None where the indicator's bench card reaches less than two of them.
    """
    bench = aircraft.definition.airframe.instrument_correction
    readings = bench.readings if bench else []
    bends = np.array([float(one) for one, _ in readings], dtype=float)
    between = table.curve.at(aircraft.ias_from_indicated(bends))
    nodes = np.asarray(aircraft.indicated_from_ias(table.curve.x))
    shown, first = np.unique(np.concatenate([nodes, bends]), return_index=True)
    cas = np.concatenate([table.curve.y, np.asarray(between)])[first]
    cas = np.asarray(convert(cas, aircraft.units.speed, aircraft.indicator_unit))
    known = ~np.isnan(cas + shown)
    if known.sum() < 2:
        return None
    setting = (table.flaps, table.static_source)
    error = _kept(shown[known]), _kept((cas - shown)[known])
    return ErrorCurve(*setting, *error, table.gear)


def _kept(values: Array) -> tuple[float, ...]:
    return tuple(kept(float(value)) for value in values)


# -- true airspeed -------------------------------------------------------------------------------


def _tas_lines(aircraft: Aircraft, school: School) -> list[TasLine]:
    """Return the lines of an aircraft, each up to where its speed would be past the limit."""
    grid = grid_of(aircraft, school)
    if grid is None:
        return []
    known = [float(one) for one in levels(aircraft, grid)]
    if len(set(known)) < 2:
        return []
    heights = np.linspace(min(known), max(known), _LEVELS)
    lines = []
    for shown in round_speeds(aircraft, grid, grid.ias):
        cas = aircraft.cas_from_indicated(shown)
        if not math.isnan(cas):
            lines += [_line(aircraft, shown, cas, heights, kelvin) for kelvin in DEVIATIONS]
    return lines


def _line(aircraft: Aircraft, shown: float, cas: float, heights: Array, kelvin: float) -> TasLine:
    warmer = float(convert_difference(kelvin, "K", aircraft.units.temperature))
    oat = np.asarray(aircraft.standard_temperature(heights)) + warmer
    limits = [limit_at(aircraft, float(a), float(b)) for a, b in zip(heights, oat, strict=True)]
    within = np.array([limit is None or cas <= limit.cas + 1e-9 for limit in limits])
    tas = np.asarray(aircraft.tas_from_cas(np.full_like(heights, cas), heights, oat))
    within &= ~np.isnan(tas)
    last = len(heights) if within.all() else int(np.argmin(within))
    own = np.asarray(convert(tas, aircraft.units.speed, aircraft.indicator_unit))
    return TasLine(shown, kept(warmer), _kept(own[:last]), _kept(heights[:last]))
