"""Calibration tables against themselves and against the speeds."""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.checks.figures import knots, last_place, off_a_table, settings, step
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
from cardgen.definition.model import SpeedEntry
from cardgen.definition.places import Figure, Span

_PAGE = "look-calibration"
_APART = 0.08  # of IAS, that CAS is off it where no table is of the setting: common practice


@rule("calibration-points", Severity.NOTE, _PAGE, COMMON_PRACTICE)
def tables_have_enough_points(aircraft: Aircraft) -> Iterator[Told]:
    """A table has four points or more."""
    for table in aircraft.calibrations:
        count = len(table.given.pairs)
        if count < 4:
            place = table.place_of(table.given.form[0])
            yield tell(place, "finding-calibration-points", count=about(count))


def _low(aircraft: Aircraft, table: Calibrated) -> float:
    """Return 1.3 times the stall speed of a table's setting, in CAS; not a number if unknown."""
    weight = float(aircraft.maximum_weight)
    return 1.3 * aircraft.stall_cas(table.flaps, weight, 0.0, table.gear)


@rule("calibration-range", Severity.WARNING, _PAGE, "14 CFR 23.1323(b), before 23-64")
def tables_cover_the_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """A table reaches from 1.3 times its stall speed to VNE, VMO or its VFE, but for one step."""
    for table in aircraft.calibrations:
        if table.static_source == ALTERNATE:
            continue
        ias, cas = table.ias, table.cas
        low = _low(aircraft, table)
        if cas[0] - (cas[1] - cas[0]) > low:
            yield tell(
                cas[0].place,
                "finding-calibration-range-start",
                start=entered(cas[0]),
                expected=about(low),
            )
        name, top = _top(aircraft, table)
        if top is not None and ias[-1] + (ias[-1] - ias[-2]) < top:
            yield tell(
                ias[-1].place,
                "finding-calibration-range-end",
                end=entered(ias[-1]),
                speed=name,
                expected=entered(top),
            )


def _top(aircraft: Aircraft, table: Calibrated) -> tuple[str, Figure | None]:
    """Return the highest IAS that a table's flap setting and gear are flown at."""
    retracted = table.flaps == aircraft.flaps[0]
    names = ("VNE", "VMO") if retracted else ("VFE",)
    if table.gear == "down" and "VLE" in aircraft.definition.speeds:
        names = ("VLE",) if retracted else ("VFE", "VLE")
    tops = [
        (name, max(known, key=float))
        for name in names
        if (known := list(_known(aircraft, name, None if retracted else table.flaps)))
    ]
    return min(tops, key=lambda one: float(one[1]), default=("", None))


def _known(aircraft: Aircraft, name: str, flaps: str | None) -> Iterator[Figure]:
    for entry in aircraft.definition.speeds.get(name, []):
        if entry.ias is not None and (name != "VFE" or entry.flaps == flaps):
            yield entry.ias


@rule(
    "position-error",
    Severity.WARNING,
    _PAGE,
    "14 CFR 23.1323(b), before 23-64; CS-22.1323 (from memory)",
)
def position_error_is_small(aircraft: Aircraft) -> Iterator[Told]:
    """From 1.3 times the stall speed up IAS and CAS differ by no more than the rules allow.

    That is 3 % or 5 kt, in a glider 5 % or 8 km/h, and half a unit by rounding.
    """
    for table in aircraft.calibrations:
        low = _low(aircraft, table)
        off = [
            (abs(cas - ias) - _allowed(aircraft, cas) - last_place(cas) / 2, ias, cas)
            for ias, cas in zip(table.ias, table.cas, strict=True)
            if table.static_source == NORMAL and cas >= low
        ]
        over, ias, cas = max(off, default=(0.0, table.ias[0], table.cas[0]))
        if over > 0:
            yield tell(
                cas.place,
                "finding-position-error",
                cas=entered(cas),
                ias=entered(ias),
                apart=digits(abs(cas - ias)),
                most=about(_allowed(aircraft, cas)),
            )


def _allowed(aircraft: Aircraft, cas: Figure) -> float:
    """Return how far IAS may be off a CAS by the rules."""
    share, least = (0.05, 8 / 1.852) if aircraft.kind == "glider" else (0.03, 5.0)
    return max(share * cas, knots(aircraft, least))


@rule("calibration-smooth", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def points_lie_on_a_smooth_curve(aircraft: Aircraft) -> Iterator[Told]:
    """A point lies where the curve through its neighbours goes, within rounding."""
    for table in aircraft.calibrations:
        errors = [float(cas) - float(ias) for ias, cas in zip(table.ias, table.cas, strict=True)]
        ias, step = [float(one) for one in table.ias], _printed_step(table)
        worst = max(
            ((_off(ias, errors, i, step), i) for i in range(len(errors))),
            default=(0.0, 0),
            key=lambda pair: pair[0],
        )
        if worst[0] > 1:
            i = worst[1]
            yield tell(
                table.cas[i].place,
                "finding-calibration-smooth",
                ias=entered(table.ias[i]),
                cas=entered(table.cas[i]),
            )


def _printed_step(table: Calibrated) -> float:
    """Return what a table rounds to what stands beside the speeds that it is entered with."""
    return step(beside for _, beside in table.given.pairs)


def _off(x: Sequence[float], y: Sequence[float], i: int, step: float) -> float:
    """Return how far a point is off the parabola through its nearest three, over its rounding.

    Each figure may be half a step off; the parabola's weights say how much of
    that reaches the point.
    """
    beside = range(max(i - 3, 0), min(i + 4, len(x)))  # x rises, so that no others are nearer
    others = sorted((abs(x[j] - x[i]), j) for j in beside if j != i)[:3]
    if len(others) < 3:
        return 0.0
    near = [j for _, j in others]
    weights = []
    for j in near:
        weight = 1.0
        for k in near:
            if k != j:
                weight *= (x[i] - x[k]) / (x[j] - x[k])
        weights.append(weight)
    expected = sum(weight * y[j] for weight, j in zip(weights, near, strict=True))
    slack = step * (0.5 * (1.0 + sum(abs(weight) for weight in weights)) + 0.35)
    return abs(y[i] - expected) / slack


@rule("calibration-round", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def points_between_the_ends_are_round(aircraft: Aircraft) -> Iterator[Told]:
    """Where all points of a row between its ends but one are multiples of 5, that one is too.

    Unless the other row has none that is off: a table of few points says nothing.
    """
    for table in aircraft.calibrations:
        odd = min(
            ([one for one in row[1:-1] if one % 5] for row in (table.ias, table.cas)), key=len
        )
        if len(odd) == 1 and len(table.ias) > 6:
            yield tell(odd[0].place, "finding-calibration-round", figure=entered(odd[0]))
    for one in aircraft.definition.altimeter_correction:
        odd = [ias for ias, _ in one.pairs if ias % 5]
        if len(odd) == 1 and len(one.pairs) > 3:
            yield tell(odd[0].place, "finding-calibration-round", figure=entered(odd[0]))
    for polar in aircraft.definition.type.polar:
        for row in polar.rows.values():
            odd = [one for one in row[1:-1] if one % 10]
            if len(odd) == 1 and odd[0] % 5 and len(row) > 6:
                yield tell(odd[0].place, "finding-calibration-round", figure=entered(odd[0]))


@rule("calibration-steps", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def tables_of_flap_settings_are_alike(aircraft: Aircraft) -> Iterator[Told]:
    """At one IAS, CAS differs by 4 kt and rounding at the most from flaps up to any setting.

    From 1.3 times the stall speed with flaps up: below it their errors grow each in its own way.
    """
    clean = aircraft.calibration()
    if clean is None:
        return
    low = _low(aircraft, clean)
    for table in aircraft.calibrations:
        if table is clean or table.static_source == ALTERNATE:
            continue
        others = np.asarray(aircraft.cas_from_ias(np.array(table.ias, dtype=float)))
        apart = np.nan_to_num(np.abs(np.array(table.cas, dtype=float) - others))
        apart[others < low] = 0.0
        worst = int(apart.argmax())
        if apart[worst] > knots(aircraft, 4.0) + last_place(table.cas[worst]):
            yield tell(
                table.cas[worst].place,
                "finding-calibration-steps",
                ias=entered(table.ias[worst]),
                cas=entered(table.cas[worst]),
                apart=about(apart[worst]),
                clean=about(others[worst]),
            )


@rule("alternate-static", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def the_alternate_source_changes_little(aircraft: Aircraft) -> Iterator[Told]:
    """On the alternate static source CAS differs by 15 kt at the most from the normal one's.

    Beyond the ends of the normal table its error is taken to stay as it is there.
    """
    for table in aircraft.calibrations:
        known = aircraft.calibration(table.flaps, gear=table.gear)
        if table.static_source != ALTERNATE or known is None:
            continue
        errors = [cas - ias for ias, cas in zip(known.ias, known.cas, strict=True)]
        for ias, cas in zip(table.ias, table.cas, strict=True):
            normal = ias + float(np.interp(ias, known.ias, errors))
            if abs(cas - normal) > knots(aircraft, 15.0):
                yield tell(
                    ias.place, "finding-alternate-static", ias=entered(ias), cas=entered(cas)
                )


@rule("largest-error-low", Severity.NOTE, _PAGE, COMMON_PRACTICE)
def the_largest_error_is_at_low_speed(aircraft: Aircraft) -> Iterator[Told]:
    """The largest position error with flaps up stands in the lower half of the table.

    Unless one there is as large, but for the rounding of both.
    """
    table = aircraft.calibration()
    if table is None:
        return
    middle = (table.ias[0] + table.ias[-1]) / 2
    errors = [(abs(cas - ias), ias, cas) for ias, cas in zip(table.ias, table.cas, strict=True)]
    error, ias, cas = max(errors, key=lambda one: one[0])
    low = max(one for one, at, _ in errors if at <= middle)
    if error > low + last_place(cas):
        yield tell(
            cas.place,
            "finding-largest-error-low",
            error=digits(error),
            ias=entered(ias),
        )


@rule("speed-against-table", Severity.WARNING, _PAGE, "14 CFR 1.1, calibrated airspeed")
def speeds_agree_with_the_table(aircraft: Aircraft) -> Iterator[Told]:
    """IAS and CAS of each speed fit the table of its flaps and gear, within rounding.

    Where VR or VMC names no setting, the table of any.
    """
    given: dict[str, list[SpeedEntry]] = {**aircraft.definition.speeds}
    given.update((name, [*named]) for name, named in aircraft.definition.other_speeds.items())
    for name, entries in given.items():
        for entry in entries:
            ias, cas = entry.ias, entry.cas
            if isinstance(ias, Span):
                continue
            tables = _tables(aircraft, name, entry)
            if ias is None or cas is None:
                continue
            if not tables and abs(cas - ias) > _APART * ias:
                yield tell(
                    cas.place,
                    "finding-speed-apart",
                    speed=name,
                    ias=entered(ias),
                    cas=entered(cas),
                )
            if not tables:
                continue
            over, table = min(
                ((_over(table, ias, cas), table) for table in tables), key=lambda one: one[0]
            )
            if over <= 0:
                continue
            if not table.ias[0] <= ias <= table.ias[-1]:
                yield _outside(name, ias, table)
            else:
                yield tell(
                    cas.place,
                    "finding-speed-against-table",
                    speed=name,
                    ias=entered(ias),
                    cas=entered(cas),
                    expected=about(float(table.curve.at(ias)), 1),
                    flaps=table.flaps,
                )


def _tables(aircraft: Aircraft, name: str, entry: SpeedEntry) -> list[Calibrated]:
    """Return the tables that a speed may have been read in; the gear of VLO and VLE moves."""
    flaps = settings(aircraft, name, entry)
    gear = entry.gear if name not in ("VLO", "VLE") else None
    return [
        one
        for one in aircraft.calibrations
        if one.flaps in flaps and one.static_source == NORMAL
        if gear is None or one.gear in (gear, "")
    ]


def _over(table: Calibrated, ias: Figure, cas: Figure) -> float:
    """Return by how much IAS and CAS are further off a table than is honest.

    A table need not begin at the stall (14 CFR 23.1323(b)). Below it the error goes on from that
    at its start, and changes by no more than half of the way; above it for a step, by a tenth.
    """
    at = min(max(ias, table.ias[0]), table.ias[-1])
    expected = ias - at + float(table.curve.at(float(at)))
    rounding = off_a_table(table, ias, cas)
    if ias < table.ias[0]:
        return abs(cas - expected) - rounding - (table.ias[0] - ias) / 2
    beyond = max(ias - table.ias[-1], 0.0)
    if beyond > table.ias[-1] - table.ias[-2]:
        return math.inf
    return abs(cas - expected) - rounding - beyond / 10


def _outside(name: str, ias: Figure, table: Calibrated) -> Told:
    return tell(
        ias.place,
        "finding-speed-against-table-outside",
        speed=name,
        ias=entered(ias),
        start=entered(table.ias[0]),
        end=entered(table.ias[-1]),
    )
