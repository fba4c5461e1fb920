"""Figures that tell of each other: speeds in common proportions, and what physics ties together."""

import itertools
import math
from collections.abc import Iterator
from typing import NamedTuple

from cardgen.air import atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.gliding import ratio_of
from cardgen.checks.figures import measures, plain
from cardgen.checks.likely import last_place, step_of
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_TABLES,
    Severity,
    Told,
    about,
    digits,
    entered,
    rule,
    tell,
)
from cardgen.definition.corrections import AltimeterCorrection
from cardgen.definition.model import Arc, Markings, SpeedEntry
from cardgen.definition.places import Figure
from cardgen.units import convert, from_si, to_si

# What part of another a speed is: common practice, and wider than the polars of any one class. That
# it is not above the other where this ends at 1 is told by rules of its own.
_PARTS = {
    ("VX", "VY"): (0.64, 1.00),
    ("best glide", "VY"): (0.66, 1.15),
    ("VX", "best glide"): (0.70, 1.08),
    ("VR", "VX"): (0.70, 1.12),
    ("VREF", "best glide"): (0.64, 1.08),
    ("VXSE", "VYSE"): (0.82, 1.00),
    ("VYSE", "VY"): (0.72, 1.10),
    ("VSSE", "VYSE"): (0.73, 1.02),
    ("VYSE", "best glide"): (0.84, 1.15),
    ("VX", "VXSE"): (0.80, 1.06),
    ("minimum sink", "best glide"): (0.70, 0.98),
    ("approach", "best glide"): (0.88, 1.36),
    ("VW", "VT"): (0.60, 1.00),
}


@rule("speed-pair", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def speeds_are_in_common_proportions(aircraft: Aircraft) -> Iterator[Told]:
    """A speed that is flown is such a part of another as it commonly is, in one measure."""
    for (name, other), (low, high) in _PARTS.items():
        for a, b in itertools.product(_flown(aircraft, name), _flown(aircraft, other)):
            if aircraft.weight_of(a) != aircraft.weight_of(b):
                continue
            for one, beside in itertools.islice(measures(aircraft, (name, a), (other, b)), 1):
                slack = 1.0 + one.slack + beside.slack
                above = high != 1 and one.value > high * beside.value + slack
                if above or one.value < low * beside.value - slack:
                    yield tell(
                        one.place,
                        "finding-speed-pair",
                        speed=name,
                        value=digits(one.value),
                        other=other,
                        beside=digits(beside.value),
                        low=about(low * beside.value),
                        high=about(high * beside.value),
                    )
                    return


def _flown(aircraft: Aircraft, name: str) -> list[SpeedEntry]:
    """Return what can be compared; a glide is flown without power, whatever else is said of it."""
    if name != "best glide":
        return plain(aircraft, name)
    return [one for one in aircraft.definition.speeds.get(name, []) if one.altitude is None]


# -- glides ----------------------------------------------------------------------------------------


@rule("minimum-sink", Severity.WARNING, "look-glide-speeds", "a polar's least sink is the least")
def the_least_sink_is_that_of_the_polar(aircraft: Aircraft) -> Iterator[Told]:
    """The minimum sink is that of a polar of its weight, within a tenth and rounding.

    Without a polar it is 0.72 to 1.03 of the sink at best glide: by a parabolic polar 0.88.
    """
    for entry in aircraft.definition.speeds.get("minimum sink", []):
        for low, high in _least_sinks(aircraft, entry) if entry.sink is not None else ():
            assert entry.sink is not None
            slack = last_place(entry.sink)
            if not low - slack <= entry.sink <= high + slack:
                yield tell(
                    entry.sink.place,
                    "finding-minimum-sink",
                    sink=entered(entry.sink, aircraft.units.sink or ""),
                    low=digits(low, 2),
                    high=digits(high, 2),
                )
                break


def _least_sinks(aircraft: Aircraft, entry: SpeedEntry) -> Iterator[tuple[float, float]]:
    """Yield between what a minimum sink lies, by each polar of its weight or else by its glide."""
    kind, polars = aircraft.definition.type, []
    for polar in kind.polar:
        if polar.weight == entry.weight and polar.flaps in (None, aircraft.flaps[0]):
            polars.append(float(min(polar.sink)))
    yield from ((0.9 * least, 1.1 * least) for least in polars)
    if polars:
        return
    speeds = aircraft.definition.speeds.get("best glide", [])
    for glide, at in itertools.product(kind.glide, speeds):
        if at.ias is None or not glide.weight == at.weight == entry.weight:
            continue
        down = float(to_si(float(at.ias), aircraft.units.speed)) / ratio_of(aircraft, glide)
        sink = float(from_si(down, aircraft.units.sink or "m/s"))
        yield 0.72 * sink, 1.03 * sink


@rule("glide-at-weights", Severity.WARNING, "look-glide-speeds", "FAA-H-8083-13A (from memory)")
def a_glide_is_as_flat_at_any_weight(aircraft: Aircraft) -> Iterator[Told]:
    """Weight changes the speed of the best glide, and its ratio by no more than 5 %."""
    first: dict[object, float] = {}
    for glide in aircraft.definition.type.glide:
        figure = glide.ratio if glide.ratio is not None else glide.distance
        assert figure is not None
        ratio = ratio_of(aircraft, glide)
        known = first.setdefault((glide.flaps, glide.gear, glide.when), ratio)
        if abs(ratio / known - 1) > 0.05 + last_place(figure) / figure:
            said = {"ratio": digits(ratio, 3), "other": digits(known, 3)}
            yield tell(figure.place, "finding-glide-at-weights", **said)


# -- instruments -----------------------------------------------------------------------------------


@rule(
    "altimeter-by-altitude",
    Severity.WARNING,
    "look-calibration",
    "NASA RP-1046, chapter 5 (from memory): an error of pressure is more feet in thinner air",
    OF_TABLES,
)
def altimeter_tables_grow_as_air_thins(aircraft: Aircraft) -> Iterator[Told]:
    """At one IAS an altimeter errs in the ratio of the densities, within a fifth and rounding."""
    known = [one for one in aircraft.definition.altimeter_correction if one.altitude is not None]
    for low, high in itertools.combinations(sorted(known, key=lambda one: one.setting), 2):
        if low.setting[:2] != high.setting[:2] or low.when != high.when:
            continue
        more = _density(aircraft, low) / _density(aircraft, high)
        below, step = dict(low.to_add), step_of([one for _, one in high.pairs])
        over = 0.0
        for (ias, add), (_, figure) in zip(high.to_add, high.pairs, strict=True):
            wanted = below.get(ias, math.nan) * more
            off = abs(add - wanted) - 0.5 * step * (1 + more) - 0.2 * abs(wanted)
            if off > over + 1e-9:
                over, worst, expected = off, (ias, figure), wanted if add == figure else -wanted
        if over > 0:
            ias, figure = worst
            yield tell(
                figure.place,
                "finding-altimeter-by-altitude",
                here=entered(figure),
                ias=entered(ias),
                expected=about(expected),
            )


def _density(aircraft: Aircraft, table: AltimeterCorrection) -> float:
    metres = to_si(float(table.altitude or 0.0), aircraft.units.altitude)
    return float(atmosphere.density(atmosphere.pressure(metres), atmosphere.temperature(metres)))


@rule("calibration-beyond", Severity.WARNING, "look-calibration", COMMON_PRACTICE)
def tables_end_near_the_limit(aircraft: Aircraft) -> Iterator[Told]:
    """Tables by airspeed, and polars, do not go far beyond VNE or VMO."""
    top, definition = _fastest(aircraft), aircraft.definition
    ends = [table.given.pairs[-1][0] for table in aircraft.calibrations]
    ends += [table.ias[-1] for table in definition.altimeter_correction]
    ends += [row[-1] for polar in definition.type.polar for row in polar.rows.values()]
    for end in dict.fromkeys(ends):
        if end > 1.2 * top:
            yield tell(end.place, "finding-calibration-beyond", end=entered(end), limit=about(top))


def _fastest(aircraft: Aircraft) -> float:
    """Return the highest of VNE and VMO, as printed."""
    limits = (*_entries(aircraft, "VNE"), *_entries(aircraft, "VMO"))
    given = [float(one) for entry in limits for one in (entry.ias, entry.cas) if one is not None]
    return max(given, default=math.inf)


def _entries(aircraft: Aircraft, name: str) -> list[SpeedEntry]:
    return aircraft.definition.speeds.get(name, [])


@rule("markings-range", Severity.WARNING, "look-markings", COMMON_PRACTICE)
def marks_lie_between_stall_and_limit(aircraft: Aircraft) -> Iterator[Told]:
    """A mark lies from a little below the least stall to VNE or VMO.

    The white and the green arc begin no higher than 1.3 times the stall with flaps up.
    """
    markings = aircraft.definition.markings
    if markings is None:
        return
    stalls = [one.calibrated for one in aircraft.stall_speeds if one.calibrated == one.calibrated]
    stalls += [float(one.ias) for one in aircraft.stall_speeds if one.ias is not None]
    low, start, high = (
        float(convert(one, aircraft.units.speed, aircraft.marked_unit))
        for one in (
            0.8 * min(stalls, default=0.0),
            1.3 * max(stalls, default=math.inf),
            1.03 * _fastest(aircraft),
        )
    )
    for figure, is_start in _marks(markings):
        most = min(start, high) if is_start else high
        if not low <= figure <= most:
            yield tell(
                figure.place,
                "finding-markings-range",
                here=entered(figure),
                low=about(low),
                high=about(most),
            )


def _marks(markings: Markings) -> Iterator[tuple[Figure, bool]]:
    """Yield each figure of the markings, and whether the white or green arc begins there."""
    for name in Markings.PAINTED:
        mark = getattr(markings, name)
        if isinstance(mark, Arc):
            yield mark.from_, name != "yellow"
            yield mark.to, False
        elif mark is not None:
            yield mark.at, False
    yield from ((other.at, False) for other in markings.other_marks)


# -- speeds by altitude ----------------------------------------------------------------------------


class _At(NamedTuple):
    """An IAS, and the altitude that it is given for."""

    altitude: float
    ias: Figure


def _by_altitude(aircraft: Aircraft, name: str) -> Iterator[tuple[_At, _At]]:
    """Yield IAS of one altitude and of the next above it, all else alike."""
    alike: dict[object, list[_At]] = {}
    for one in _entries(aircraft, name):
        if one.altitude is not None and one.ias is not None and one.when is None:
            case = alike.setdefault((one.weight, one.flaps, one.gear), [])
            case.append(_At(float(one.altitude), one.ias))
    for case in alike.values():
        yield from itertools.pairwise(sorted(case))


@rule("limit-by-altitude", Severity.WARNING, "look-limitations", "14 CFR 1.1, Mach number and TAS")
def limits_fall_as_air_thins(aircraft: Aircraft) -> Iterator[Told]:
    """VNE and VMO do not rise with altitude, and fall no more than a limit of TAS or Mach does.

    That is with the root of the pressure, within a fifth, as another limit may begin.
    """
    for name in ("VNE", "VMO"):
        for below, above in _by_altitude(aircraft, name):
            a, b = (
                float(atmosphere.pressure(to_si(one.altitude, aircraft.units.altitude)))
                for one in (below, above)
            )
            least = 0.8 * math.sqrt(b / a) * below.ias - last_place(above.ias)
            if not least <= above.ias <= below.ias:
                yield tell(
                    above.ias.place,
                    "finding-limit-by-altitude",
                    speed=name,
                    here=entered(above.ias),
                    below=entered(below.ias),
                    least=about(least),
                )


@rule("climb-rises", Severity.WARNING, "look-climb-speeds", COMMON_PRACTICE)
def the_best_climb_does_not_get_faster(aircraft: Aircraft) -> Iterator[Told]:
    """VY and VYSE in IAS do not rise with altitude by more than a twentieth, nor VX fall so."""
    if aircraft.kind == "turbine":
        return
    for name, way in (("VY", 1), ("VYSE", 1), ("VX", -1), ("VXSE", -1)):
        for below, above in _by_altitude(aircraft, name):
            if way * (above.ias - below.ias) > 0.05 * below.ias + 1:
                yield tell(
                    above.ias.place,
                    "finding-climb-rises",
                    speed=name,
                    here=entered(above.ias),
                    below=entered(below.ias),
                )
