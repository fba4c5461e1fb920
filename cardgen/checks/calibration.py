"""Calibration tables against themselves and against the speeds."""

from collections.abc import Iterator, Sequence

import numpy as np

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.checks.speeds import place_of
from cardgen.definition.places import Figure
from cardgen.units import convert

_PAGE = "look-calibration"
_ROUNDING = 1.0  # of an entered IAS and CAS together, in the manual's unit


@rule("calibration-points", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def tables_have_enough_points(aircraft: Aircraft) -> Iterator[Told]:
    """A table has four points or more."""
    for table in aircraft.calibrations:
        if len(table.ias) < 4:
            count = about(len(table.ias))
            yield tell(table.place_of("ias"), "finding-calibration-points", count=count)


@rule("calibration-range", Severity.WARNING, _PAGE, "14 CFR 23.1323(b), before 23-64")
def tables_cover_the_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """A table reaches from 1.3 times its stall speed to VNE, VMO or its VFE."""
    for table in aircraft.calibrations:
        if table.static_source == ALTERNATE:
            continue
        flaps = table.flaps
        entry = aircraft.stall_entries.get(flaps)
        if entry is not None:
            low = 1.3 * aircraft.entry_cas(entry, flaps)
            if table.cas[0] > low:
                yield tell(
                    table.cas[0].place,
                    "finding-calibration-range-start",
                    start=entered(table.cas[0]),
                    expected=about(low),
                )
        top, name = _top(aircraft, flaps)
        if top is not None and table.ias[-1] < top:
            yield tell(
                table.ias[-1].place,
                "finding-calibration-range-end",
                end=entered(table.ias[-1]),
                speed=name,
                expected=digits(top),
            )


def _top(aircraft: Aircraft, flaps: str) -> tuple[float | None, str]:
    """Return the highest IAS that a flap setting is flown at."""
    retracted = flaps == aircraft.flaps[0]
    names = ("VNE", "VMO") if retracted else ("VFE",)
    for name in names:
        for entry in aircraft.definition.speeds.get(name, []):
            if entry.ias is not None and (retracted or entry.flaps == flaps):
                return float(entry.ias), name
    return None, ""


@rule("position-error", Severity.WARNING, _PAGE, "14 CFR 23.1323(b), before 23-64")
def position_error_is_small(aircraft: Aircraft) -> Iterator[Told]:
    """From 1.3 times the stall speed up, IAS and CAS differ by 3 % or 5 kt at the most."""
    five = float(convert(5.0, "kt", aircraft.units.speed))
    for table in aircraft.calibrations:
        flaps = table.flaps
        entry = aircraft.stall_entries.get(flaps)
        low = 1.3 * aircraft.entry_cas(entry, flaps) if entry is not None else 0.0
        off = [
            (abs(cas - ias) - max(0.03 * cas, five), ias, cas)
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
                most=about(abs(cas - ias) - over),
            )


@rule("calibration-smooth", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def points_lie_on_a_smooth_curve(aircraft: Aircraft) -> Iterator[Told]:
    """A point lies where the curve through its neighbours goes, within rounding."""
    for table in aircraft.calibrations:
        errors = [cas - ias for ias, cas in zip(table.ias, table.cas, strict=True)]
        worst = max(
            ((_off(table.ias, errors, i), i) for i in range(len(errors))),
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


def _off(x: Sequence[float], y: Sequence[float], i: int) -> float:
    """Return how far a point is off the parabola through its nearest three, over its rounding.

    Each figure may be half a unit off; the parabola's weights say how much of
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
    slack = 0.5 * (1.0 + sum(abs(weight) for weight in weights)) + 0.35
    return abs(y[i] - expected) / slack


@rule("calibration-round", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def points_between_the_ends_are_round(aircraft: Aircraft) -> Iterator[Told]:
    """Between its ends, a table gives one of its rows at multiples of 5."""
    for table in aircraft.calibrations:
        inner = table.ias[1:-1], table.cas[1:-1]
        counts = [sum(figure % 5 == 0 for figure in row) for row in inner]
        row = inner[0] if counts[0] >= counts[1] else inner[1]
        odd = [figure for figure in row if figure % 5]
        if 0 < len(odd) < len(row) / 2:
            for figure in odd:
                yield tell(figure.place, "finding-calibration-round", figure=entered(figure))


@rule("calibration-steps", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def tables_of_flap_settings_are_alike(aircraft: Aircraft) -> Iterator[Told]:
    """At one IAS, CAS differs by 4 kt at the most from flap setting to flap setting."""
    most = float(convert(4.0, "kt", aircraft.units.speed))
    clean = aircraft.calibration()
    if clean is None:
        return
    for table in aircraft.calibrations:
        if table is clean or table.static_source == ALTERNATE:
            continue
        others = np.asarray(aircraft.cas_from_ias(np.array(table.ias, dtype=float)))
        apart = np.nan_to_num(np.abs(np.array(table.cas, dtype=float) - others))
        worst = int(apart.argmax())
        if apart[worst] > most:
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
    """On the alternate static source CAS differs by 15 kt at the most, within the normal table."""
    most = float(convert(15.0, "kt", aircraft.units.speed))
    for table in aircraft.calibrations:
        if table.static_source != ALTERNATE:
            continue
        known = aircraft.calibration(table.flaps, gear=table.gear)
        if known is None:
            continue
        for ias, cas in zip(table.ias, table.cas, strict=True):
            normal = float(aircraft.cas_from_ias(float(ias), table.flaps, gear=table.gear))
            if ias > known.ias[-1] or abs(cas - normal) > most:
                yield tell(
                    ias.place, "finding-alternate-static", ias=entered(ias), cas=entered(cas)
                )


@rule("largest-error-low", Severity.NOTE, _PAGE, COMMON_PRACTICE)
def the_largest_error_is_at_low_speed(aircraft: Aircraft) -> Iterator[Told]:
    """The largest position error with flaps up stands in the lower half of the table."""
    table = aircraft.calibration()
    if table is None:
        return
    errors = [abs(cas - ias) for ias, cas in zip(table.ias, table.cas, strict=True)]
    largest = errors.index(max(errors))
    if table.ias[largest] > (table.ias[0] + table.ias[-1]) / 2:
        yield tell(
            table.cas[largest].place,
            "finding-largest-error-low",
            error=digits(errors[largest]),
            ias=entered(table.ias[largest]),
        )


@rule("speed-against-table", Severity.WARNING, _PAGE, "14 CFR 1.1, calibrated airspeed")
def speeds_agree_with_the_table(aircraft: Aircraft) -> Iterator[Told]:
    """IAS and CAS of each speed fit its calibration table, within rounding."""
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            if entry.ias is None or entry.cas is None:
                continue
            flaps = aircraft.flaps_of(name, entry)
            gear = aircraft.gear_of(name, entry)
            table = aircraft.calibration(flaps, gear=gear)
            if table is None:
                continue
            expected = float(aircraft.cas_from_ias(float(entry.ias), flaps, gear=gear))
            if expected != expected:
                yield _outside(name, entry.ias, table)
            elif abs(expected - entry.cas) > _ROUNDING:
                yield tell(
                    place_of(entry),
                    "finding-speed-against-table",
                    speed=name,
                    ias=entered(entry.ias),
                    cas=entered(entry.cas),
                    expected=about(expected, 1),
                    flaps=table.flaps,
                )


def _outside(name: str, ias: Figure, table: Calibrated) -> Told:
    return tell(
        ias.place,
        "finding-speed-against-table-outside",
        speed=name,
        ias=entered(ias),
        start=entered(table.ias[0]),
        end=entered(table.ias[-1]),
    )
