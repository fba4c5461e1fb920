"""V-speeds against each other."""

import itertools
import math
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.limits import crossover_altitude, vmo_and_mmo
from cardgen.checks.rule import Severity, rule
from cardgen.definition.model import SpeedEntry
from cardgen.definition.places import Fault, Place
from cardgen.units import convert

_LIMITS_PAGE = "the airspeed limitations in section 2 of the manual"
_FLOWN = ("VR", "VX", "VY", "VXSE", "VYSE", "VSSE", "best glide", "minimum sink", "approach")
_RISING = ("VS0", "VS1", "VFE", "VNO", "VNE")


def speed_of(aircraft: Aircraft, name: str, entry: SpeedEntry) -> float:
    """Return an entry's IAS, or where it has none its CAS; in the manual's unit."""
    if entry.ias is not None:
        return float(entry.ias)
    return aircraft.entry_cas(entry, aircraft.flaps_of(name, entry))


def place_of(entry: SpeedEntry) -> Place:
    """Return where the figure of an entry stands."""
    figures = (entry.ias, entry.cas, entry.tas, entry.mach, entry.times_VS0)
    return next((figure.place for figure in figures if figure is not None), entry.place)


def pairs(aircraft: Aircraft, name: str) -> list[tuple[float, SpeedEntry]]:
    """Return the figures of a V-speed, as IAS, with their entries."""
    entries = aircraft.definition.speeds.get(name, [])
    return [(speed_of(aircraft, name, entry), entry) for entry in entries if not entry.tas]


def _not_below(aircraft: Aircraft, low: str, high: str, *, equal: bool = False) -> Iterator[Fault]:
    """Find where the greatest figure of one speed is not below the least of another."""
    lows, highs = pairs(aircraft, low), pairs(aircraft, high)
    if not lows or not highs:
        return
    greatest, entry = max(lows, key=lambda pair: pair[0])
    least, _ = min(highs, key=lambda pair: pair[0])
    if greatest > least or (greatest == least and not equal):
        than = "at or below" if equal else "below"
        yield Fault(
            place_of(entry),
            f"{low} is {greatest:g} and {high} {least:g}; expected {low} {than} {high}",
        )


@rule("order-of-limits", Severity.ERROR, _LIMITS_PAGE, "14 CFR 1.2, the meanings of the speeds")
def limits_are_in_order(aircraft: Aircraft) -> Iterator[Fault]:
    """VS0 < VS1 < VFE < VNO < VNE, of those that the aircraft has."""
    found = [name for name in _RISING if name in aircraft.definition.speeds]
    for low, high in itertools.pairwise(found):
        if (low, high) == ("VS0", "VS1"):
            yield from _stalls_in_order(aircraft)
        elif (low, high) != ("VFE", "VNO"):
            yield from _not_below(aircraft, low, high)
    yield from _not_below(aircraft, "VNO", "VNE")
    yield from _not_below(aircraft, "VS1", "VMO")
    yield from _not_below(aircraft, "VFE", "VNE", equal=True)
    yield from _not_below(aircraft, "VFE", "VMO", equal=True)


def _stalls_in_order(aircraft: Aircraft) -> Iterator[Fault]:
    """Stall speed falls, or stays, as flaps extend."""
    entries = list(aircraft.stall_entries.items())
    for (less, a), (more, b) in itertools.pairwise(entries):
        if aircraft.entry_cas(b, more) > aircraft.entry_cas(a, less):
            yield Fault(
                place_of(b),
                f"the stall speed with flaps {more} is above that with flaps {less}; expected it "
                "to fall as flaps extend",
            )
    if "VS0" in aircraft.definition.speeds and "VS1" in aircraft.definition.speeds:
        landing = pairs(aircraft, "VS0")[0]
        clean = max(pairs(aircraft, "VS1"), key=lambda pair: pair[0])
        if landing[0] >= clean[0] and len(aircraft.flaps) > 1:
            yield Fault(
                place_of(landing[1]),
                f"VS0 is {landing[0]:g} and VS1 {clean[0]:g}; expected VS0 below VS1",
            )


@rule("flap-limits-fall", Severity.ERROR, "the flap limits in section 2", "common practice")
def flap_limits_fall_as_flaps_extend(aircraft: Aircraft) -> Iterator[Fault]:
    """VFE falls, or stays, from one flap setting to the next."""
    order = {flaps: i for i, flaps in enumerate(aircraft.flaps)}
    given = [pair for pair in pairs(aircraft, "VFE") if pair[1].flaps in order]
    given.sort(key=lambda pair: order[pair[1].flaps or ""])
    for (a, less), (b, more) in itertools.pairwise(given):
        if b > a:
            yield Fault(
                place_of(more),
                f"VFE is {b:g} with flaps {more.flaps} and {a:g} with flaps {less.flaps}; expected "
                "it to fall as flaps extend",
            )


@rule("manoeuvring-below-cruise", Severity.WARNING, _LIMITS_PAGE, "14 CFR 23.335(c), before 23-64")
def manoeuvring_speed_is_not_above_vno(aircraft: Aircraft) -> Iterator[Fault]:
    """VA and VO are at or below VNO, VRA or VMO."""
    for name in ("VA", "VO"):
        for above in ("VNO", "VMO"):
            yield from _not_below(aircraft, name, above, equal=True)
        if aircraft.kind == "glider":
            yield from _not_below(aircraft, name, "VNE")


@rule("manoeuvring-by-weight", Severity.WARNING, _LIMITS_PAGE, "FAA-H-8083-25, chapter 5")
def manoeuvring_speed_follows_weight(aircraft: Aircraft) -> Iterator[Fault]:
    """VA at two weights is in the ratio of their square roots, within rounding."""
    for name in ("VA", "VO"):
        entries = aircraft.definition.speeds.get(name, [])
        for entry in entries[1:]:
            first = entries[0]
            if entry.weight is None or first.weight is None:
                continue
            wanted = aircraft.entry_cas(first) * (entry.weight / first.weight) ** 0.5
            if abs(aircraft.entry_cas(entry) - wanted) > 1.0:
                yield Fault(
                    place_of(entry),
                    f"{name} at {entry.weight} {aircraft.units.weight} is "
                    f"{aircraft.entry_cas(entry):g} CAS; the square root of the weights makes it "
                    f"{wanted:.0f}",
                )


@rule("climb-speeds", Severity.WARNING, "the climb speeds in section 4", "common practice")
def climb_speeds_are_in_order_and_converge(aircraft: Aircraft) -> Iterator[Fault]:
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
                    yield Fault(place_of(entry), f"{slow} is given at altitudes that {fast} is not")
                continue
            gaps.append((float(entry.altitude or 0.0), other - value, entry))
            if value > other:
                yield Fault(
                    place_of(entry),
                    f"{slow} is {value:g} and {fast} {other:g}; expected {slow} lower",
                )
        gaps.sort(key=lambda gap: gap[0])
        for (_, before, _), (_, after, entry) in itertools.pairwise(gaps):
            if after > before:
                yield Fault(
                    place_of(entry),
                    f"{slow} and {fast} are {after:g} apart here and {before:g} lower down; "
                    "expected them to come together with altitude",
                )


@rule("climb-by-altitude", Severity.NOTE, "the climb speeds in section 4", "common practice")
def climb_speeds_change_steadily(aircraft: Aircraft) -> Iterator[Fault]:
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
                way = "rise" if sign > 0 else "fall"
                yield Fault(place_of(entry), f"{name} goes from {a:g} to {b:g}; expected a {way}")


@rule("control-speeds", Severity.ERROR, _LIMITS_PAGE, "14 CFR 23.149 and 23.66, before 23-64")
def control_speeds_are_in_order(aircraft: Aircraft) -> Iterator[Fault]:
    """VMC is below VYSE, and at or below VSSE."""
    yield from _not_below(aircraft, "VMC", "VYSE")
    yield from _not_below(aircraft, "VMC", "VSSE", equal=True)


@rule("gear-speeds", Severity.ERROR, _LIMITS_PAGE, "14 CFR 23.1515, before 23-64")
def gear_speeds_are_in_order(aircraft: Aircraft) -> Iterator[Fault]:
    """VLO is at or below VLE."""
    yield from _not_below(aircraft, "VLO", "VLE", equal=True)
    yield from _not_below(aircraft, "VLE", "VNE", equal=True)
    yield from _not_below(aircraft, "VLE", "VMO", equal=True)


@rule("glider-limits", Severity.ERROR, _LIMITS_PAGE, "CS-22.1505 to 22.1518")
def glider_limits_are_below_vne(aircraft: Aircraft) -> Iterator[Fault]:
    """VW, VT and VRA are below VNE; the winch is no faster than the tow."""
    for name in ("VW", "VT", "VRA"):
        yield from _not_below(aircraft, name, "VNE")
    yield from _not_below(aircraft, "VW", "VT", equal=True)
    yield from _not_below(aircraft, "VS1", "VW")


@rule("tas-limit", Severity.WARNING, _LIMITS_PAGE, "common practice")
def a_tas_limit_takes_over_from_the_ias_limit(aircraft: Aircraft) -> Iterator[Fault]:
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
            yield Fault(
                entry.tas.place,
                f"TAS {entry.tas} from {entry.from_altitude} {aircraft.units.altitude} is CAS "
                f"{cas:.0f} there, and VNE below is CAS {known:.0f}; expected about the same",
            )


@rule("crossover", Severity.WARNING, _LIMITS_PAGE, "common practice")
def vmo_and_mmo_meet_at_a_flyable_altitude(aircraft: Aircraft) -> Iterator[Fault]:
    """The crossover of VMO and MMO lies between 5,000 and 40,000 ft."""
    pair = vmo_and_mmo(aircraft)
    if pair is None:
        return
    vmo, entry = pair
    feet = convert(crossover_altitude(aircraft), aircraft.units.altitude, "ft")
    if math.isnan(feet) and not math.isnan(aircraft.entry_cas(vmo)):
        yield Fault(place_of(entry), "VMO and MMO meet outside the standard atmosphere")
    elif not 5_000 <= feet <= 40_000 and not math.isnan(feet):
        yield Fault(
            place_of(entry),
            f"VMO and MMO meet at {feet:,.0f} ft; expected between 5,000 and 40,000 ft",
        )


@rule("cruise-margin", Severity.WARNING, _LIMITS_PAGE, "14 CFR 23.1505(b), before 23-64")
def vno_leaves_a_margin_to_vne(aircraft: Aircraft) -> Iterator[Fault]:
    """VNO is at or below 0.89 VNE."""
    vno, vne = pairs(aircraft, "VNO"), pairs(aircraft, "VNE")
    if vno and vne and vno[0][0] > 0.89 * vne[0][0]:
        yield Fault(
            place_of(vno[0][1]),
            f"VNO is {vno[0][0] / vne[0][0]:.2f} of VNE; expected 0.89 at the most",
        )


@rule("approach-margin", Severity.WARNING, "the approach speeds in section 4", "common practice")
def approach_is_about_1_3_vs0(aircraft: Aircraft) -> Iterator[Fault]:
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
            yield Fault(place_of(entry), f"VREF is {times:.2f} times VS0; expected about 1.3")


@rule("flown-speeds", Severity.WARNING, "the speeds in sections 3 and 4", "common practice")
def flown_speeds_are_between_stall_and_limit(aircraft: Aircraft) -> Iterator[Fault]:
    """VR, VX, VY, best glide and the like lie above 0.95 VS1 and below the green arc's end."""
    stalls = pairs(aircraft, "VS1")
    ends = pairs(aircraft, "VNO") or pairs(aircraft, "VRA") or pairs(aircraft, "VMO")
    if not stalls or not ends:
        return
    clean = max(value for value, _ in stalls)
    end = min(value for value, _ in ends)
    for name in (
        "VR",
        "VX",
        "VY",
        "VXSE",
        "VYSE",
        "VSSE",
        "best glide",
        "minimum sink",
        "approach",
    ):
        for value, entry in pairs(aircraft, name):
            if not 0.95 * clean * _by_weight(aircraft, entry) <= value <= end:
                yield Fault(
                    place_of(entry),
                    f"{name} is {value:g}; expected between the stall at {clean:g} and {end:g}",
                )


def _by_weight(aircraft: Aircraft, entry: SpeedEntry) -> float:
    weight = float(entry.weight or aircraft.maximum_weight)
    return math.sqrt(weight / float(aircraft.maximum_weight))


@rule(
    "glide-by-weight", Severity.WARNING, "the glide speeds in section 3", "FAA-H-8083-25, chapter 5"
)
def glide_speed_follows_weight(aircraft: Aircraft) -> Iterator[Fault]:
    """Best glide at two weights is in the ratio of their square roots, within 3 %."""
    entries = [e for e in aircraft.definition.speeds.get("best glide", []) if e.weight is not None]
    for entry in entries[1:]:
        first = entries[0]
        ratio = (float(entry.weight or 1) / float(first.weight or 1)) ** 0.5
        wanted = aircraft.entry_cas(first) * ratio
        found = aircraft.entry_cas(entry)
        if abs(found - wanted) > 0.03 * wanted:
            yield Fault(
                place_of(entry),
                f"best glide at {entry.weight} {aircraft.units.weight} is {found:.0f} CAS; the "
                f"square root of the weights makes it {wanted:.0f}",
            )


@rule("weights-known", Severity.WARNING, "the weight limits in section 2", "common practice")
def speeds_are_given_at_known_weights(aircraft: Aircraft) -> Iterator[Fault]:
    """A weight that a speed is given for is one of the type's weights."""
    weights = aircraft.definition.type.weights
    known = {weights.maximum, *weights.others}
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            if entry.weight is not None and entry.weight not in known:
                yield Fault(
                    entry.weight.place,
                    f"{name} is given at {entry.weight} {aircraft.units.weight}, which is not "
                    "among the weights of the type",
                )


@rule("altitudes-round", Severity.WARNING, "the altitude beside the speed", "common practice")
def speeds_are_given_at_round_altitudes(aircraft: Aircraft) -> Iterator[Fault]:
    """An altitude that a speed is given for is a multiple of 500."""
    for name, entries in aircraft.definition.speeds.items():
        for entry in entries:
            for altitude in (entry.altitude, entry.from_altitude):
                if altitude is not None and (altitude % 500 or not 0 <= altitude <= 50_000):
                    yield Fault(
                        altitude.place,
                        f"{name} is given at {altitude} {aircraft.units.altitude}; expected a "
                        "round altitude",
                    )


@rule("weights-of-a-kind", Severity.ERROR, "the weight limits in section 2", "common practice")
def weights_are_below_the_maximum(aircraft: Aircraft) -> Iterator[Fault]:
    """No weight is above the maximum."""
    weights = aircraft.definition.type.weights
    for weight in weights.others:
        if weight > weights.maximum:
            yield Fault(weight.place, f"{weight} is above the maximum weight, {weights.maximum}")
