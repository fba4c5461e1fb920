"""The indicator's markings against the speeds that they stand for."""

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.airframe.limits import limit_at
from cardgen.airframe.stalling import StallSpeed
from cardgen.checks.figures import BY_TABLE, last_place, step
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.definition.model import Arc, Markings, SpeedEntry
from cardgen.definition.places import Figure
from cardgen.document.record import Message
from cardgen.units import convert

_PAGE = "look-markings"
_ARCS = {
    "white": "finding-markings-order-white",
    "green": "finding-markings-order-green",
    "yellow": "finding-markings-order-yellow",
}


class _Stood(NamedTuple):
    """A speed that a marking may stand for, in the measure and unit of the markings."""

    name: str
    value: float
    slack: float  # by rounding, where it is not printed so


class _End(NamedTuple):
    """An end of a marking, and the speeds that it may stand for."""

    said: str
    figure: Figure
    speeds: list[_Stood]


@rule(
    "markings-match",
    Severity.WARNING,
    _PAGE,
    "14 CFR 23.1545, before 23-64 (from memory); CS-22.1545",
)
def markings_stand_for_the_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """Each end of an arc, and each line, is at its speed, where the manual gives that.

    In the measure and unit of the markings. Marks may be at multiples of 5 though speeds are not.
    """
    markings = aircraft.definition.markings
    if markings is None:
        return
    coarse = step(_painted(markings))
    coarse = coarse / 2 if coarse > 1 else 0.0
    for end in _ends(aircraft, markings):
        known = [one for one in end.speeds if not math.isnan(one.value)]
        off = [(abs(end.figure - one.value) - one.slack, one) for one in known]
        least, near = min(off, key=lambda pair: pair[0], default=(0.0, None))
        if near is not None and least > coarse + 1e-9:
            yield tell(
                end.figure.place,
                "finding-markings-match",
                end=Message(end.said),
                painted=entered(end.figure),
                speed=near.name,
                value=about(near.value) if near.slack else digits(near.value),
            )


def _painted(markings: Markings) -> Iterator[Figure]:
    for name in Markings.PAINTED:
        mark = getattr(markings, name)
        if mark is not None:
            yield from (mark.from_, mark.to) if isinstance(mark, Arc) else (mark.at,)


def _ends(aircraft: Aircraft, markings: Markings) -> Iterator[_End]:
    """Yield each end of an arc, and each line, with the speeds that it may stand for."""
    glider = aircraft.kind == "glider"
    top = list(_tops(aircraft))
    rough = "VRA" if glider or "VNO" not in aircraft.definition.speeds else "VNO"
    normal = list(_speeds(aircraft, rough))
    if (white := markings.white) is not None:
        landing = aircraft.flaps[-1:] if len(aircraft.flaps) > 1 else aircraft.flaps
        yield _End("finding-white-start", white.from_, list(_stalls(aircraft, "VS0", landing)))
        yield _End("finding-white-end", white.to, list(_speeds(aircraft, "VFE")))
    if (green := markings.green) is not None:
        clean = aircraft.flaps if glider else aircraft.flaps[:1]
        yield _End("finding-green-start", green.from_, list(_stalls(aircraft, "VS1", clean)))
        yield _End("finding-green-end", green.to, normal or top)
    if (yellow := markings.yellow) is not None:
        yield _End("finding-yellow-start", yellow.from_, normal)
        yield _End("finding-yellow-end", yellow.to, top)
    for name, said, speeds in (
        ("red_line", "finding-red-line", top),
        ("blue_line", "finding-blue-line", [] if glider else list(_speeds(aircraft, "VYSE"))),
        ("red_radial", "finding-lower-red-line", list(_speeds(aircraft, "VMC"))),
        ("yellow_triangle", "finding-yellow-triangle", list(_speeds(aircraft, "approach"))),
    ):
        if (line := getattr(markings, name)) is not None:
            yield _End(said, line.at, speeds)
    for mark in markings.other_marks:
        yield _End("finding-other-mark", mark.at, list(_of_setting(aircraft, mark.means or "")))


def _of_setting(aircraft: Aircraft, means: str) -> Iterator[_Stood]:
    """Yield VFE and the stalls of a flap setting that a mark is said to mean, as flaps 10."""
    _, found, named = means.partition("flaps ")
    if not found or named not in aircraft.flaps:
        return
    for entry in aircraft.definition.speeds.get("VFE", []):
        if aircraft.flaps_of("VFE", entry) == named:
            yield _stood(aircraft, "VFE", entry)
    for one in aircraft.stall_speeds:
        if one.flaps == named:
            yield _stood_for(aircraft, "VS1", (one.ias, one.cas), one.flaps, one.gear)


def _speeds(aircraft: Aircraft, name: str) -> Iterator[_Stood]:
    """Yield each figure of a speed: an indicator is marked for one flap setting, or altitude."""
    for entry in aircraft.definition.speeds.get(name, []):
        if entry.from_altitude is None and entry.tas is None and entry.mach is None:
            yield _stood(aircraft, name, entry)


def _tops(aircraft: Aircraft) -> Iterator[_Stood]:
    """Yield VNE, or VMO, which may stand at the lowest of VMO and MMO at any altitude.

    14 CFR 23.1545(d) before 23-64, from memory: unless the indicator shows how it varies.
    """
    if aircraft.kind != "turbine":
        yield from _speeds(aircraft, "VNE")
        return
    yield from _speeds(aircraft, "VMO")
    most = aircraft.definition.type.maximum_operating_altitude
    lowest = limit_at(aircraft, float(most.altitude)) if most is not None else None
    if lowest is not None:
        ias = float(aircraft.ias_from_cas(lowest.cas))
        value = lowest.cas if aircraft.marked_in_cas else ias
        yield _Stood(lowest.name, _as_marked(aircraft, value), 2 * BY_TABLE)


def _stalls(aircraft: Aircraft, name: str, flaps: Iterable[str]) -> Iterator[_Stood]:
    """Yield the stall speeds that an arc may begin at: at the maximum weight, by every gear.

    In a glider at 1.1 times the stall in CAS. A turbine with a VMO need not have arcs by these
    rules, and one that it has may begin at any of its stalls.
    """
    for one in aircraft.stall_speeds:
        if one.flaps not in flaps:
            continue
        if one.weight != aircraft.maximum_weight and aircraft.kind != "turbine":
            continue
        yield from (
            _above(aircraft, one)
            if aircraft.kind == "glider"
            else [_stood_for(aircraft, name, (one.ias, one.cas), one.flaps, one.gear)]
        )


def _above(aircraft: Aircraft, stall: StallSpeed) -> Iterator[_Stood]:
    """Yield 1.1 times a glider's stall speed, by which it is marked."""
    cas = 1.1 * stall.calibrated
    ias = float(aircraft.ias_from_cas(cas, stall.flaps, NORMAL, stall.gear))
    value = cas if aircraft.marked_in_cas else ias
    figure = stall.cas if stall.cas is not None else stall.ias
    rounding = last_place(figure) if figure is not None else 1.0
    # Half a unit of the mark, and 1.1 times that of the stall and of the table.
    name = "1.1 VS0" if stall.flaps == aircraft.flaps[-1] != aircraft.flaps[0] else "1.1 VS1"
    yield _Stood(name, _as_marked(aircraft, value), (0.5 + 1.1 * 1.0) * rounding)


def _stood(aircraft: Aircraft, name: str, entry: SpeedEntry) -> _Stood:
    setting = aircraft.usual_flaps(name, entry), aircraft.gear_of(name, entry)
    return _stood_for(aircraft, name, (entry.ias, entry.cas), *setting)


def _stood_for(
    aircraft: Aircraft,
    name: str,
    figures: tuple[Figure | None, Figure | None],
    flaps: str,
    gear: str,
) -> _Stood:
    """Return a speed as it is marked: as printed, or by the calibration table."""
    ias, cas = figures
    own, other = (cas, ias) if aircraft.marked_in_cas else (ias, cas)
    if own is not None:
        value, slack = _as_marked(aircraft, float(own)), 0.0
        if aircraft.marked_unit != aircraft.units.speed:
            slack = 0.5 + 0.5 * float(_as_marked(aircraft, last_place(own)))
        return _Stood(name, value, slack)
    if other is None:
        return _Stood(name, math.nan, 0.0)
    by_table = aircraft.cas_from_ias if aircraft.marked_in_cas else aircraft.ias_from_cas
    value = float(by_table(float(other), flaps, NORMAL, gear))
    slack = BY_TABLE * float(_as_marked(aircraft, last_place(other)))
    return _Stood(name, _as_marked(aircraft, value), max(slack, BY_TABLE))


def _as_marked(aircraft: Aircraft, speed: float) -> float:
    """Return a speed of the manual's in the unit of the markings."""
    return float(convert(speed, aircraft.units.speed, aircraft.marked_unit))


@rule("markings-order", Severity.ERROR, _PAGE, COMMON_PRACTICE)
def arcs_run_upward(aircraft: Aircraft) -> Iterator[Told]:
    """An arc ends above its start."""
    markings = aircraft.definition.markings
    if markings is None:
        return
    for name, said in _ARCS.items():
        arc = getattr(markings, name)
        if arc is not None and arc.to <= arc.from_:
            yield tell(arc.to.place, said, start=entered(arc.from_), end=entered(arc.to))
