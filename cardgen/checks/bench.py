"""Bench cards, and supplements, against the aircraft that they are filed with."""

import datetime
import itertools
import math
from collections.abc import Callable, Iterable, Iterator

import numpy as np

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.figures import place_of
from cardgen.checks.fitting import stand_off
from cardgen.checks.likely import meant, step_of
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_AIRFRAME,
    Severity,
    Told,
    about,
    digits,
    entered,
    rule,
    tell,
)
from cardgen.units import convert

_PAGE = "look-bench-card"


@rule("bench-card-smooth", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_AIRFRAME)
def bench_cards_are_smooth(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """The corrections of an instrument lie on a curve; a sign that is another stands off it."""
    airframe = aircraft.definition.airframe
    for card in (airframe.instrument_correction, airframe.altimeter_correction):
        if card is None or len(card.pairs) < 5:
            continue
        at = np.array([one for one, _ in card.pairs], dtype=float)
        y = np.array(card.differences, dtype=float)
        scaled = (at - at.mean()) / (at[-1] - at[0])
        bases = [np.column_stack([scaled**power for power in range(count)]) for count in (2, 3)]
        step = max(1.0, step_of(card.differences))
        for off in stand_off(bases, y, step, max(1, len(y) // 4)):
            figure = card.pairs[off.number][1]
            beside = float(figure) + off.expected - float(y[off.number])
            likely = meant(figure, beside, 1.2 * step)
            yield tell(
                figure.place,
                "finding-curve-meant" if likely else "finding-curve",
                name=card.form[1].replace("_", " "),
                at=entered(card.pairs[off.number][0]),
                here=entered(figure),
                expected=digits(beside, 2),
                **({"meant": likely} if likely else {}),
            )


@rule("bench-card-words", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_AIRFRAME)
def a_bench_card_errs_as_it_says(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """Where a bench card says in words that an instrument reads low or high, its figures do."""
    airframe = aircraft.definition.airframe
    for card in (airframe.instrument_correction, airframe.altimeter_correction):
        if card is None or card.reads is None:
            continue
        off = [true - shown for shown, true in card.readings if true != shown]
        ways = [way for way, _ in itertools.groupby("low" if one > 0 else "high" for one in off)]
        if ways and ways != card.reads.split(" then "):
            yield tell(
                card.place_of("reads"),
                "finding-bench-card-words",
                said=card.reads,
                found=" then ".join(ways),
            )


@rule("bench-card-reach", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_AIRFRAME)
def a_bench_card_is_of_this_indicator(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """A bench card ends near the highest speed of the aircraft, from 0.94 to 1.2 of it.

    It begins near the lowest stall at the maximum weight: from 0.75 to 1.4 of it.
    """
    card = aircraft.definition.airframe.instrument_correction
    if card is None:
        return
    (first, _), (last, _) = card.readings[0], card.readings[-1]
    top, low = _shown(aircraft, max, _tops(aircraft)), _shown(aircraft, min, _stalls(aircraft))
    if not math.isnan(top) and not 0.94 <= last / top <= 1.2:
        yield tell(last.place, "finding-bench-card-reach", last=entered(last), top=about(top))
    elif not math.isnan(low) and not 0.75 <= first / low <= 1.4:
        yield tell(first.place, "finding-bench-card-start", first=entered(first), low=about(low))


def _tops(aircraft: Aircraft) -> Iterator[float]:
    for name in ("VNE", "VMO"):
        for entry in aircraft.definition.speeds.get(name, []):
            if entry.ias is not None:
                yield float(entry.ias)
            elif entry.cas is not None:
                yield float(aircraft.ias_from_cas(float(entry.cas)))


def _stalls(aircraft: Aircraft) -> Iterator[float]:
    for one in aircraft.stall_speeds:
        if one.weight == aircraft.maximum_weight:
            yield float(one.ias) if one.ias is not None else one.calibrated


def _shown(
    aircraft: Aircraft, of: Callable[[list[float]], float], speeds: Iterable[float]
) -> float:
    """Return the highest or the lowest of speeds in the indicator's unit; none if not known."""
    known = [one for one in speeds if not math.isnan(one)]
    own = of(known) if known else math.nan
    return float(convert(own, aircraft.units.speed, aircraft.indicator_unit))


@rule("supplement-apart", Severity.WARNING, "look-revisions", COMMON_PRACTICE, OF_AIRFRAME)
def supplements_change_little(aircraft: Aircraft, today: datetime.date) -> Iterator[Told]:
    """A supplement changes a speed by a fifth at the most; by more it is of another type."""
    for change in aircraft.definition.changes:
        for old, new in zip(change.before, change.after, strict=False):
            for key in ("ias", "cas"):
                before, after = getattr(old, key), getattr(new, key)
                if before and after and not 0.8 <= after / before <= 1.2:
                    yield tell(
                        place_of(new),
                        "finding-supplement-apart",
                        speed=change.speed,
                        after=entered(after),
                        before=entered(before),
                    )
