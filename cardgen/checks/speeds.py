"""V-speeds against each other."""

import itertools
import math
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import crossover_altitude, vmo_and_mmo
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.definition.model import SpeedEntry
from cardgen.definition.places import Place
from cardgen.document.record import Quantity
from cardgen.units import convert

_LIMITS_PAGE = "look-limitations"
_FLOWN = ("VR", "VX", "VY", "VXSE", "VYSE", "VSSE", "best glide", "minimum sink", "approach")
_RISING = ("VS0", "VS1", "VFE", "VNO", "VNE")


def speed_of(aircraft: Aircraft, name: str, entry: SpeedEntry) -> float:
    """Return an entry's IAS, or where it has none its CAS; in the manual's unit."""
    if entry.ias is not None:
        return float(entry.ias)
    at = aircraft.flaps_of(name, entry), aircraft.gear_of(name, entry)
    return aircraft.entry_cas(entry, *at)


def place_of(entry: SpeedEntry) -> Place:
    """Return where the figure of an entry stands."""
    figures = (entry.ias, entry.cas, entry.tas, entry.mach, entry.times_VS0)
    return next((figure.place for figure in figures if figure is not None), entry.place)


def pairs(aircraft: Aircraft, name: str) -> list[tuple[float, SpeedEntry]]:
    """Return the figures of a V-speed, as IAS, with their entries."""
    entries = aircraft.definition.speeds.get(name, [])
    return [(speed_of(aircraft, name, entry), entry) for entry in entries if not entry.tas]


def _not_below(aircraft: Aircraft, low: str, high: str, *, equal: bool = False) -> Iterator[Told]:
    """Find where the greatest figure of one speed is not below the least of another."""
    lows, highs = pairs(aircraft, low), pairs(aircraft, high)
    if not lows or not highs:
        return
    greatest, entry = max(lows, key=lambda pair: pair[0])
    least, _ = min(highs, key=lambda pair: pair[0])
    if greatest > least or (greatest == least and not equal):
        yield tell(
            place_of(entry),
            "finding-not-at-or-below" if equal else "finding-not-below",
            low=low,
            greatest=digits(greatest),
            high=high,
            least=digits(least),
        )


@rule("order-of-limits", Severity.ERROR, _LIMITS_PAGE, "14 CFR 1.2, the meanings of the speeds")
def limits_are_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """VS0 < VS1 < VFE < VNO < VNE, of those that the aircraft has."""
    found = [name for name in _RISING if name in aircraft.definition.speeds]
    for low, high in itertools.pairwise(found):
        if (low, high) == ("VS0", "VS1"):
            yield from _stalls_in_order(aircraft)
        elif (low, high) != ("VFE", "VNO"):
            yield from _not_below(aircraft, low, high)
    yield from _not_below(aircraft, "VS1", "VMO")
    yield from _not_below(aircraft, "VFE", "VNE", equal=True)
    yield from _not_below(aircraft, "VFE", "VMO", equal=True)


def _stalls_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """Stall speed falls, or stays, as flaps extend."""
    entries = list(aircraft.stall_entries.items())
    for (less, a), (more, b) in itertools.pairwise(entries):
        if aircraft.entry_cas(b, more) > aircraft.entry_cas(a, less):
            yield tell(place_of(b), "finding-order-of-limits-stall", more=more, less=less)
    if "VS0" in aircraft.definition.speeds and "VS1" in aircraft.definition.speeds:
        landing = pairs(aircraft, "VS0")[0]
        clean = max(pairs(aircraft, "VS1"), key=lambda pair: pair[0])
        if landing[0] >= clean[0] and len(aircraft.flaps) > 1:
            yield tell(
                place_of(landing[1]),
                "finding-not-below",
                low="VS0",
                greatest=digits(landing[0]),
                high="VS1",
                least=digits(clean[0]),
            )


@rule("flap-limits-fall", Severity.ERROR, "look-flap-limits", COMMON_PRACTICE)
def flap_limits_fall_as_flaps_extend(aircraft: Aircraft) -> Iterator[Told]:
    """VFE falls, or stays, from one flap setting to the next."""
    order = {flaps: i for i, flaps in enumerate(aircraft.flaps)}
    given = [pair for pair in pairs(aircraft, "VFE") if pair[1].flaps in order]
    given.sort(key=lambda pair: order[pair[1].flaps or ""])
    for (a, less), (b, more) in itertools.pairwise(given):
        if b > a:
            yield tell(
                place_of(more),
                "finding-flap-limits-fall",
                more=more.flaps or "",
                more_limit=digits(b),
                less=less.flaps or "",
                less_limit=digits(a),
            )


@rule("manoeuvring-below-cruise", Severity.WARNING, _LIMITS_PAGE, "14 CFR 23.335(c), before 23-64")
def manoeuvring_speed_is_not_above_vno(aircraft: Aircraft) -> Iterator[Told]:
    """VA and VO are at or below VNO, VRA or VMO."""
    for name in ("VA", "VO"):
        for above in ("VNO", "VMO"):
            yield from _not_below(aircraft, name, above, equal=True)
        if aircraft.kind == "glider":
            yield from _not_below(aircraft, name, "VNE")


@rule("manoeuvring-by-weight", Severity.WARNING, _LIMITS_PAGE, "FAA-H-8083-25B, chapter 5")
def manoeuvring_speed_follows_weight(aircraft: Aircraft) -> Iterator[Told]:
    """VA at two weights is in the ratio of their square roots, within rounding."""
    for name in ("VA", "VO"):
        entries = aircraft.definition.speeds.get(name, [])
        for entry in entries[1:]:
            first = entries[0]
            if entry.weight is None or first.weight is None:
                continue
            wanted = aircraft.entry_cas(first) * (entry.weight / first.weight) ** 0.5
            if abs(aircraft.entry_cas(entry) - wanted) > 1.0:
                yield tell(
                    place_of(entry),
                    "finding-by-weight",
                    speed=name,
                    weight=entered(entry.weight, aircraft.units.weight),
                    cas=digits(aircraft.entry_cas(entry)),
                    expected=about(wanted),
                )


@rule("climb-speeds", Severity.WARNING, "look-climb-speeds", COMMON_PRACTICE)
def climb_speeds_are_in_order_and_converge(aircraft: Aircraft) -> Iterator[Told]:
    """VX is at or below VY at each altitude, and they come together with altitude."""
    for slow, fast in (("VX", "VY"), ("VXSE", "VYSE")):
        by_altitude = {
            float(entry.altitude or 0.0): value for value, entry in pairs(aircraft, fast)
        }
        gaps = []
        for value, entry in pairs(aircraft, slow):
            other = by_altitude.get(float(entry.altitude or 0.0))
            if other is None:
                if by_altitude:
                    yield tell(place_of(entry), "finding-climb-speeds-part", slow=slow, fast=fast)
                continue
            gaps.append((float(entry.altitude or 0.0), other - value, entry))
            if value > other:
                yield tell(
                    place_of(entry),
                    "finding-climb-speeds-order",
                    slow=slow,
                    slow_value=digits(value),
                    fast=fast,
                    fast_value=digits(other),
                )
        gaps.sort(key=lambda gap: gap[0])
        for (_, before, _), (_, after, entry) in itertools.pairwise(gaps):
            if after > before:
                yield tell(
                    place_of(entry),
                    "finding-climb-speeds-apart",
                    slow=slow,
                    fast=fast,
                    here=digits(after),
                    below=digits(before),
                )


@rule("climb-by-altitude", Severity.NOTE, "look-climb-speeds", COMMON_PRACTICE)
def climb_speeds_change_steadily(aircraft: Aircraft) -> Iterator[Told]:
    """VX in IAS rises, VY falls with altitude."""
    for name, sign in (("VX", 1), ("VXSE", 1), ("VY", -1), ("VYSE", -1)):
        given = sorted(
            (
                (float(e.altitude), value, e)
                for value, e in pairs(aircraft, name)
                if e.altitude is not None
            ),
            key=lambda one: one[0],
        )
        for (_, a, _), (_, b, entry) in itertools.pairwise(given):
            if (b - a) * sign < 0:
                way = (
                    "finding-climb-by-altitude-rise"
                    if sign > 0
                    else "finding-climb-by-altitude-fall"
                )
                yield tell(place_of(entry), way, speed=name, below=digits(a), here=digits(b))


@rule("control-speeds", Severity.ERROR, _LIMITS_PAGE, "14 CFR 23.149 and 23.66, before 23-64")
def control_speeds_are_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """VMC is below VYSE, and at or below VSSE."""
    yield from _not_below(aircraft, "VMC", "VYSE")
    yield from _not_below(aircraft, "VMC", "VSSE", equal=True)


@rule("gear-speeds", Severity.ERROR, _LIMITS_PAGE, "14 CFR 23.1515, before 23-64 (from memory)")
def gear_speeds_are_in_order(aircraft: Aircraft) -> Iterator[Told]:
    """VLO is at or below VLE."""
    yield from _not_below(aircraft, "VLO", "VLE", equal=True)
    yield from _not_below(aircraft, "VLE", "VNE", equal=True)
    yield from _not_below(aircraft, "VLE", "VMO", equal=True)


@rule("glider-limits", Severity.ERROR, _LIMITS_PAGE, "CS-22.1505 to 22.1518 (from memory)")
def glider_limits_are_below_vne(aircraft: Aircraft) -> Iterator[Told]:
    """VW, VT and VRA are below VNE; the winch is no faster than the tow."""
    for name in ("VW", "VT", "VRA"):
        yield from _not_below(aircraft, name, "VNE")
    yield from _not_below(aircraft, "VW", "VT", equal=True)
    yield from _not_below(aircraft, "VS1", "VW")


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
    """VNO is at or below 0.89 VNE."""
    vno, vne = pairs(aircraft, "VNO"), pairs(aircraft, "VNE")
    if vno and vne and vno[0][0] > 0.89 * vne[0][0]:
        share = about(vno[0][0] / vne[0][0], 2)
        yield tell(place_of(vno[0][1]), "finding-cruise-margin", share=share)


@rule("approach-margin", Severity.WARNING, "look-approach-speeds", COMMON_PRACTICE)
def approach_is_about_1_3_vs0(aircraft: Aircraft) -> Iterator[Told]:
    """VREF in CAS is between 1.25 and 1.35 times VS0."""
    landing = aircraft.flaps[-1]
    if landing not in aircraft.stall_entries:
        return
    stall = aircraft.entry_cas(aircraft.stall_entries[landing], landing)
    for entry in aircraft.definition.speeds.get("VREF", []):
        if entry.weight is not None and entry.weight != aircraft.maximum_weight:
            continue
        times = aircraft.entry_cas(entry, landing) / stall
        if not math.isnan(times) and not 1.25 <= times <= 1.35:
            yield tell(place_of(entry), "finding-approach-margin", times=about(times, 2))


@rule("flown-speeds", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def flown_speeds_are_between_stall_and_limit(aircraft: Aircraft) -> Iterator[Told]:
    """VR, VX, VY, best glide and the like lie above 0.95 VS1 and below the green arc's end."""
    stalls = pairs(aircraft, "VS1")
    ends = pairs(aircraft, "VNO") or pairs(aircraft, "VRA") or pairs(aircraft, "VMO")
    if not stalls or not ends:
        return
    clean = max(value for value, _ in stalls)
    end = min(value for value, _ in ends)
    for name in _FLOWN:
        for value, entry in pairs(aircraft, name):
            if not 0.95 * clean * _by_weight(aircraft, entry) <= value <= end:
                yield tell(
                    place_of(entry),
                    "finding-flown-speeds",
                    speed=name,
                    value=digits(value),
                    stall=digits(clean),
                    end=digits(end),
                )


def _by_weight(aircraft: Aircraft, entry: SpeedEntry) -> float:
    weight = float(entry.weight or aircraft.maximum_weight)
    return math.sqrt(weight / float(aircraft.maximum_weight))


@rule("glide-by-weight", Severity.WARNING, "look-glide-speeds", "FAA-H-8083-25B, chapter 5")
def glide_speed_follows_weight(aircraft: Aircraft) -> Iterator[Told]:
    """Best glide at two weights is in the ratio of their square roots, within 3 %."""
    entries = aircraft.definition.speeds.get("best glide", [])
    weighed = [(entry, entry.weight) for entry in entries if entry.weight is not None]
    for entry, weight in weighed[1:]:
        first, known = weighed[0]
        wanted = aircraft.entry_cas(first) * (weight / known) ** 0.5
        found = aircraft.entry_cas(entry)
        if abs(found - wanted) > 0.03 * wanted:
            yield tell(
                place_of(entry),
                "finding-by-weight",
                speed="best glide",
                weight=entered(weight, aircraft.units.weight),
                cas=about(found),
                expected=about(wanted),
            )


@rule("weights-known", Severity.WARNING, "look-weights", COMMON_PRACTICE)
def speeds_are_given_at_known_weights(aircraft: Aircraft) -> Iterator[Told]:
    """A weight that a speed is given for is one of the type's weights."""
    weights = aircraft.definition.type.weights
    known = {weights.maximum, *weights.others}
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            if entry.weight is not None and entry.weight not in known:
                yield tell(
                    entry.weight.place,
                    "finding-weights-known",
                    speed=name,
                    weight=entered(entry.weight, aircraft.units.weight),
                )


@rule("altitudes-round", Severity.WARNING, "look-altitude", COMMON_PRACTICE)
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
