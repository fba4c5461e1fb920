"""V-speeds against each other."""

import itertools
import math
from collections.abc import Iterable, Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import crossover_altitude, vmo_and_mmo
from cardgen.airframe.stalling import StallSpeed
from cardgen.checks.figures import (
    BY_TABLE,
    Given,
    habit,
    in_cas,
    in_ias,
    last_place,
    measures,
    place_of,
    plain,
    settings,
)
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.definition.model import SpeedEntry
from cardgen.document.record import Quantity
from cardgen.units import convert

_LIMITS_PAGE = "look-limitations"
_FLOWN = ("VR", "VX", "VY", "VXSE", "VYSE", "VSSE", "best glide", "minimum sink", "approach")


def _not_below(
    aircraft: Aircraft, low: str, high: str, *, equal: bool = False, slack: float = 0.0
) -> Iterator[Told]:
    """Find where a speed is not below another, but for a slack, under like conditions."""
    found = [
        pair
        for a, b in itertools.product(plain(aircraft, low), plain(aircraft, high))
        if _meet(a, b) and (pair := _wrong(aircraft, (low, a), (high, b), equal=equal)) is not None
    ]
    found = [(a, b) for a, b in found if a.value >= b.value + slack]
    if found:
        a, b = max(found, key=lambda pair: pair[0].value - pair[1].value)
        yield tell(
            a.place,
            "finding-not-at-or-below" if equal else "finding-not-below",
            low=low,
            greatest=digits(a.value),
            high=high,
            least=digits(b.value),
        )


def _meet(a: SpeedEntry, b: SpeedEntry) -> bool:
    """Whether no condition of two entries keeps them apart."""
    return all(
        None in (one, other) or one == other
        for one, other in ((a.weight, b.weight), (a.altitude, b.altitude))
    )


def _wrong(
    aircraft: Aircraft,
    low: tuple[str, SpeedEntry],
    high: tuple[str, SpeedEntry],
    *,
    equal: bool,
) -> tuple[Given, Given] | None:
    """Return two speeds where the first is not below the second.

    Where they were read in two calibration tables, however they are compared: IAS of one table
    may honestly be above that of another though CAS is not.
    """
    known = list(measures(aircraft, low, high))
    wrong = [pair for pair in known if not _is_below(*pair, equal=equal)]
    needed = 1 if _of_one_table(aircraft, low, high) else len(known)
    return wrong[0] if wrong and len(wrong) >= needed else None


def _of_one_table(
    aircraft: Aircraft, low: tuple[str, SpeedEntry], high: tuple[str, SpeedEntry]
) -> bool:
    flaps = {settings(aircraft, *one) for one in (low, high)}
    gear = any(one.gear for one in aircraft.calibrations) and {"VLO", "VLE"} & {low[0], high[0]}
    return len(flaps) == 1 and not gear


def _is_below(a: Given, b: Given, *, equal: bool) -> bool:
    slack = a.slack + b.slack
    return a.value <= b.value + slack if equal or slack else a.value < b.value


@rule("order-of-limits", Severity.ERROR, _LIMITS_PAGE, "14 CFR 1.2, the meanings of the speeds")
def limits_are_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """VS1 < VFE < VNE and VS1 < VNO < VNE, or VMO, of those that the aircraft has."""
    yield from _not_below(aircraft, "VS1", "VFE")
    yield from _not_below(aircraft, "VNO", "VNE")
    for high in ("VNO", "VNE", "VMO"):
        yield from _not_below(aircraft, "VS1", high)
    yield from _not_below(aircraft, "VFE", "VNE", equal=True)
    yield from _not_below(aircraft, "VFE", "VMO", equal=True)


@rule("stall-order", Severity.WARNING, "look-stall", COMMON_PRACTICE)
def the_stall_falls_as_flaps_extend(aircraft: Aircraft) -> Iterator[Told]:
    """At one weight, stall speed in CAS falls, or stays, as flaps extend.

    Not so VS0 of a glider, which has its airbrakes out.
    """
    known = [one for one in aircraft.stall_speeds if not math.isnan(one.calibrated)]
    if aircraft.kind == "glider":
        landing = aircraft.definition.speeds.get("VS0", [])
        known = [one for one in known if one.group not in landing]
    order = {flaps: n for n, flaps in enumerate(aircraft.flaps)}
    told = set()
    for less, more in itertools.product(known, known):
        figure = more.cas if more.cas is not None else more.ias
        if (
            figure is not None
            and order[less.flaps] < order[more.flaps]
            and less.weight == more.weight
            and less.calibrated + _stall_slack(less) + _stall_slack(more) < more.calibrated
            and figure.place not in told
        ):
            told.add(figure.place)
            yield tell(figure.place, "finding-stall-order", more=more.flaps, less=less.flaps)


def _stall_slack(stall: StallSpeed) -> float:
    """Return what rounding may take a stall speed off."""
    figure = stall.cas if stall.cas is not None else stall.ias
    assert figure is not None
    return last_place(figure) * (0.5 if stall.cas is not None else BY_TABLE)


@rule("flap-limits-fall", Severity.WARNING, "look-flap-limits", COMMON_PRACTICE)
def flap_limits_fall_as_flaps_extend(aircraft: Aircraft) -> Iterator[Told]:
    """VFE falls, or stays, from one flap setting to the next."""
    order = {flaps: i for i, flaps in enumerate(aircraft.flaps)}
    given = [one for one in plain(aircraft, "VFE") if one.flaps in order]
    given.sort(key=lambda one: order[one.flaps or ""])
    for less, more in itertools.pairwise(given):
        pair = _wrong(aircraft, ("VFE", more), ("VFE", less), equal=True)
        if pair is not None and _meet(less, more) and less.flaps != more.flaps:
            yield tell(
                pair[0].place,
                "finding-flap-limits-fall",
                more=more.flaps or "",
                more_limit=digits(pair[0].value),
                less=less.flaps or "",
                less_limit=digits(pair[1].value),
            )


@rule("manoeuvring-below-cruise", Severity.WARNING, _LIMITS_PAGE, "14 CFR 23.335(c), before 23-64")
def manoeuvring_speed_is_not_above_vno(aircraft: Aircraft) -> Iterator[Told]:
    """VA and VO are at or below VNO or VMO, a glider's below VNE.

    They may be one speed, which is rounded up for the one and down for the other.
    """
    for name in ("VA", "VO"):
        for above in ("VNO", "VMO"):
            rounding = 2 * habit(aircraft, name)
            yield from _not_below(aircraft, name, above, equal=True, slack=rounding)
        if aircraft.kind == "glider":
            yield from _not_below(aircraft, name, "VNE")


# -- speeds by weight ------------------------------------------------------------------------------


@rule("manoeuvring-by-weight", Severity.WARNING, _LIMITS_PAGE, "FAA-H-8083-25B, chapter 5")
def manoeuvring_speed_follows_weight(aircraft: Aircraft) -> Iterator[Told]:
    """VA at two weights is in the ratio of their square roots, within rounding."""
    for name in ("VA", "VO"):
        yield from _off_the_root(aircraft, name, 0.0)


@rule("glide-by-weight", Severity.WARNING, "look-glide-speeds", "FAA-H-8083-25B, chapter 5")
def glide_speed_follows_weight(aircraft: Aircraft) -> Iterator[Told]:
    """Best glide at two weights is in the ratio of their square roots, within 3 % and rounding."""
    yield from _off_the_root(aircraft, "best glide", 0.03)


def _off_the_root(aircraft: Aircraft, name: str, share: float) -> Iterator[Told]:
    """Find speeds that are not in the ratio of the roots of their weights to the first's.

    Each may be half a step off, or where it is rounded away from the stall a
    whole one, the same way as the other; and half a unit more as CAS. What is
    printed as CAS alone may have been chosen as a multiple of 5 in IAS.
    """
    for entries in _alike(aircraft.definition.speeds.get(name, [])):
        known = [one for entry in entries if (one := in_cas(aircraft, name, entry)) is not None]
        for one in known[1:]:
            first = known[0]
            ratio = math.sqrt(_weight(one) / _weight(first))
            wanted = first.value * ratio
            steps = habit(aircraft, name) if one.entry.ias is not None else 5.0
            slack = steps + (first.slack or 0.5) * ratio + (one.slack or 0.5)
            if abs(one.value - wanted) > slack + share * wanted:
                assert one.entry.weight is not None
                yield tell(
                    one.place,
                    "finding-by-weight",
                    speed=name,
                    weight=entered(one.entry.weight, aircraft.units.weight),
                    cas=about(one.value),
                    expected=about(wanted),
                )


def _weight(one: Given) -> float:
    return float(one.entry.weight or 0.0)


def _alike(entries: Iterable[SpeedEntry]) -> Iterator[list[SpeedEntry]]:
    """Yield the entries that name a weight, by what else they hold for."""
    groups: dict[object, list[SpeedEntry]] = {}
    for one in entries:
        if one.weight is not None:
            groups.setdefault((one.flaps, one.gear, one.altitude, one.when), []).append(one)
    yield from groups.values()


# -- climb -----------------------------------------------------------------------------------------


@rule("climb-speeds", Severity.WARNING, "look-climb-speeds", COMMON_PRACTICE)
def climb_speeds_are_in_order_and_converge(aircraft: Aircraft) -> Iterator[Told]:
    """VX is at or below VY at each altitude, and they come together with altitude."""
    for slow, fast in (("VX", "VY"), ("VXSE", "VYSE")):
        yield from _climbs_part(aircraft, slow, fast)
        gaps = []
        for a, b in _climbs(aircraft, slow, fast):
            gaps.append((float(a.entry.altitude or 0.0), b.value - a.value, a))
            if a.value > b.value + a.slack + b.slack:
                yield tell(
                    a.place,
                    "finding-climb-speeds-order",
                    slow=slow,
                    slow_value=digits(a.value),
                    fast=fast,
                    fast_value=digits(b.value),
                )
        gaps.sort(key=lambda gap: gap[0])
        for (_, before, _), (_, after, one) in itertools.pairwise(gaps):
            if after > before + 2 * habit(aircraft, slow):  # four figures, each half a step off
                yield tell(
                    one.place,
                    "finding-climb-speeds-apart",
                    slow=slow,
                    fast=fast,
                    here=digits(after),
                    below=digits(before),
                )


def _climbs(aircraft: Aircraft, slow: str, fast: str) -> Iterator[tuple[Given, Given]]:
    """Yield two climb speeds of one altitude, weight and flap setting, in one measure."""
    speeds = aircraft.definition.speeds
    for a, b in itertools.product(speeds.get(slow, []), speeds.get(fast, [])):
        conditions = ((float(x.altitude or 0.0), x.weight, x.when) for x in (a, b))
        apart = None not in (a.flaps, b.flaps) and a.flaps != b.flaps
        if len(set(conditions)) == 1 and not apart:
            yield from itertools.islice(measures(aircraft, (slow, a), (fast, b)), 1)


def _climbs_part(aircraft: Aircraft, slow: str, fast: str) -> Iterator[Told]:
    """Find an altitude of one speed that stands in the place of another altitude of the other."""
    of_slow, of_fast = (
        {
            one.altitude: one
            for one in aircraft.definition.speeds.get(name, [])
            if one.altitude is not None
        }
        for name in (slow, fast)
    )
    alone = [altitude for altitude in of_slow if altitude not in of_fast]
    if len(of_slow) == len(of_fast) > len(alone) == 1:
        yield tell(alone[0].place, "finding-climb-speeds-part", slow=slow, fast=fast)


@rule("climb-by-altitude", Severity.NOTE, "look-climb-speeds", COMMON_PRACTICE)
def climb_speeds_change_steadily(aircraft: Aircraft) -> Iterator[Told]:
    """VX in IAS rises, VY falls with altitude, as power falls; a turbine's may not."""
    if aircraft.kind == "turbine":
        return
    for name, sign in (("VX", 1), ("VXSE", 1), ("VY", -1), ("VYSE", -1)):
        entries = aircraft.definition.speeds.get(name, [])
        known = [
            (float(one.altitude), given)
            for one in entries
            if one.altitude is not None and (given := in_ias(aircraft, name, one)) is not None
        ]
        known.sort(key=lambda pair: pair[0])
        for (_, a), (_, b) in itertools.pairwise(known):
            if (b.value - a.value) * sign < 0:
                way = (
                    "finding-climb-by-altitude-rise"
                    if sign > 0
                    else "finding-climb-by-altitude-fall"
                )
                values = {"below": digits(a.value), "here": digits(b.value)}
                yield tell(b.place, way, speed=name, **values)


# -- other limits ----------------------------------------------------------------------------------


@rule("control-speeds", Severity.WARNING, _LIMITS_PAGE, "14 CFR 23.149 and 23.66, before 23-64")
def control_speeds_are_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """VMC is below VYSE, and at or below VSSE."""
    yield from _not_below(aircraft, "VMC", "VYSE")
    yield from _not_below(aircraft, "VMC", "VSSE", equal=True)


@rule("gear-speeds", Severity.ERROR, _LIMITS_PAGE, "14 CFR 23.1515, before 23-64 (from memory)")
def gear_speeds_are_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """VLO is at or below VLE, as the gear is extended when it has moved, and VLE below VNE."""
    yield from _not_below(aircraft, "VLO", "VLE", equal=True)
    yield from _not_below(aircraft, "VLE", "VNE", equal=True)
    yield from _not_below(aircraft, "VLE", "VMO", equal=True)


@rule("glider-limits", Severity.ERROR, _LIMITS_PAGE, "CS-22.1505 to 22.1518 (from memory)")
def glider_limits_are_below_vne(aircraft: Aircraft) -> Iterator[Told]:
    """VW, VT and VRA are not above VNE, and the winch is above the stall."""
    for name in ("VW", "VT", "VRA"):
        yield from _not_below(aircraft, name, "VNE", equal=True)
    yield from _not_below(aircraft, "VS1", "VW")


@rule("winch-below-tow", Severity.WARNING, _LIMITS_PAGE, COMMON_PRACTICE)
def the_winch_is_no_faster_than_the_tow(aircraft: Aircraft) -> Iterator[Told]:
    """VW is at or below VT."""
    yield from _not_below(aircraft, "VW", "VT", equal=True)


@rule("tas-limit", Severity.WARNING, _LIMITS_PAGE, COMMON_PRACTICE)
def a_tas_limit_takes_over_from_the_ias_limit(aircraft: Aircraft) -> Iterator[Told]:
    """At the altitude that it holds from, a TAS limit is the IAS limit, within 5 %."""
    entries = aircraft.definition.speeds.get("VNE", [])
    low = [one for one in entries if one.tas is None and one.altitude is None]
    for entry in entries:
        if entry.tas is None or entry.from_altitude is None or not low:
            continue
        level = float(entry.from_altitude)
        oat = aircraft.standard_temperature(level)
        cas = float(aircraft.cas_from_tas(float(entry.tas), level, oat))
        known = aircraft.entry_cas(low[0])
        if abs(cas - known) > 0.05 * known:
            yield tell(
                entry.tas.place,
                "finding-tas-limit",
                tas=entered(entry.tas),
                altitude=entered(entry.from_altitude, aircraft.units.altitude),
                cas=about(cas),
                below=about(known),
            )


@rule("crossover", Severity.WARNING, _LIMITS_PAGE, COMMON_PRACTICE)
def vmo_and_mmo_meet_at_a_flyable_altitude(aircraft: Aircraft) -> Iterator[Told]:
    """The crossover of VMO and MMO lies between 5,000 and 40,000 ft."""
    pair = vmo_and_mmo(aircraft)
    if pair is None:
        return
    vmo, entry = pair
    feet = convert(crossover_altitude(aircraft), aircraft.units.altitude, "ft")
    if math.isnan(feet) and not math.isnan(aircraft.entry_cas(vmo)):
        yield tell(place_of(entry), "finding-crossover-nowhere")
    elif not 5_000 <= feet <= 40_000 and not math.isnan(feet):
        level = Quantity(float(round(float(feet))), "ft", entered=f"{feet:,.0f}")
        yield tell(place_of(entry), "finding-crossover", level=level)


@rule("cruise-margin", Severity.WARNING, _LIMITS_PAGE, "14 CFR 23.1505(b), before 23-64")
def vno_leaves_a_margin_to_vne(aircraft: Aircraft) -> Iterator[Told]:
    """VNO is at or below 0.89 VNE, within rounding."""
    for vno, vne in itertools.product(plain(aircraft, "VNO"), plain(aircraft, "VNE")):
        for a, b in itertools.islice(measures(aircraft, ("VNO", vno), ("VNE", vne)), 1):
            if a.value > 0.89 * b.value + habit(aircraft, "VNO") + a.slack + b.slack:
                yield tell(a.place, "finding-cruise-margin", share=about(a.value / b.value, 2))


# -- what is flown ---------------------------------------------------------------------------------


@rule("approach-margin", Severity.WARNING, "look-approach-speeds", COMMON_PRACTICE)
def approach_is_about_1_3_vs0(aircraft: Aircraft) -> Iterator[Told]:
    """VREF in CAS is between 1.25 and 1.5 times the stall of its flaps and weight, or VMC."""
    for entry in plain(aircraft, "VREF"):
        known = in_cas(aircraft, "VREF", entry)
        flaps, gear = aircraft.usual_flaps("VREF", entry), aircraft.gear_of("VREF", entry)
        stall = aircraft.stall_cas(flaps, float(aircraft.weight_of(entry)), 0.0, gear)
        if known is None or math.isnan(stall):
            continue
        slack = known.slack + habit(aircraft, "VREF") + 1 if entry.times_VS0 is None else 0.0
        most = max(1.5 * stall, aircraft.control_cas)
        if not 1.25 * stall - known.slack - 1 <= known.value <= most + slack:
            yield tell(known.place, "finding-approach-margin", times=about(known.value / stall, 2))


@rule("flown-speeds", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def flown_speeds_are_between_stall_and_limit(aircraft: Aircraft) -> Iterator[Told]:
    """VR, VX, VY, best glide and the like lie above 0.95 times their stall and below VNO."""
    end = next((name for name in ("VNO", "VRA", "VMO") if plain(aircraft, name)), None)
    for name in _FLOWN:
        for entry in aircraft.definition.speeds.get(name, []):
            known = in_cas(aircraft, name, entry)
            stall = _least_stall(aircraft, name, entry)
            most = in_cas(aircraft, end, plain(aircraft, end)[0]) if end else None
            if known is None or most is None or math.isnan(stall):
                continue
            if not 0.95 * stall - known.slack <= known.value <= most.value + known.slack + 1:
                yield tell(
                    known.place,
                    "finding-flown-speeds",
                    speed=name,
                    value=digits(known.value),
                    stall=about(stall),
                    end=digits(most.value),
                )


def _least_stall(aircraft: Aircraft, name: str, entry: SpeedEntry) -> float:
    """Return the least stall in CAS of the flaps that a speed may hold for, at its weight."""
    weight = float(aircraft.weight_of(entry))
    flaps = settings(aircraft, name, entry)
    known = [aircraft.stall_cas(one, weight, 0.0, entry.gear or "") for one in flaps]
    return min((one for one in known if not math.isnan(one)), default=math.nan)


# -- the conditions of speeds ----------------------------------------------------------------------


@rule("weights-known", Severity.NOTE, "look-weights", COMMON_PRACTICE)
def speeds_are_given_at_known_weights(aircraft: Aircraft) -> Iterator[Told]:
    """A weight that a speed is given for is one of the type's weights."""
    weights = aircraft.definition.type.weights
    known = {weights.maximum, *weights.others, *weights.names.values()}
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            if entry.weight is not None and entry.weight not in known:
                yield tell(
                    entry.weight.place,
                    "finding-weights-known",
                    speed=name,
                    weight=entered(entry.weight, aircraft.units.weight),
                )


@rule("altitudes-round", Severity.NOTE, "look-altitude", COMMON_PRACTICE)
def speeds_are_given_at_round_altitudes(aircraft: Aircraft) -> Iterator[Told]:
    """An altitude that a speed is given for is a multiple of 500."""
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            for altitude in (entry.altitude, entry.from_altitude):
                if altitude is not None and (altitude % 500 or not 0 <= altitude <= 50_000):
                    yield tell(
                        altitude.place,
                        "finding-altitudes-round",
                        speed=name,
                        altitude=entered(altitude, aircraft.units.altitude),
                    )


@rule("weights-of-a-kind", Severity.ERROR, "look-weights", COMMON_PRACTICE)
def weights_are_below_the_maximum(aircraft: Aircraft) -> Iterator[Told]:
    """No weight is above the maximum."""
    weights = aircraft.definition.type.weights
    for weight in weights.others:
        if weight > weights.maximum:
            yield tell(
                weight.place,
                "finding-weights-of-a-kind",
                weight=entered(weight),
                maximum=entered(weights.maximum),
            )
