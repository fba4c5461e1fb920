"""What figures are given for: weights and altitudes, and speeds by the manual's own names."""

import math
from collections import Counter
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.likely import likeliest
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, entered, rule, tell
from cardgen.definition.places import Figure, Span

_ROUND = (100.0, 50.0, 10.0, 5.0)


def _weights(aircraft: Aircraft) -> Iterator[tuple[str, Figure]]:
    """Yield each weight that something is given for, and the group that it stands in."""
    definition = aircraft.definition
    for speeds in (definition.speeds, definition.other_speeds):
        for name, entries in speeds.items():
            yield from ((name, one.weight) for one in entries if one.weight is not None)
    if definition.stall is not None:
        rows = definition.stall.rows
        yield from ((f"stall {row.flaps}", row.weight) for row in rows if row.weight is not None)
    kind = definition.type
    tables = (definition.stall, *definition.cruise, *kind.glide, *kind.polar)
    for n, table in enumerate(tables):
        weight: Figure | None = getattr(table, "weight", None)
        if weight is not None:
            yield f"{n}", weight


@rule("weight-misread", Severity.WARNING, "look-weights", COMMON_PRACTICE)
def weights_are_those_of_the_type(aircraft: Aircraft) -> Iterator[Told]:
    """A weight is not one digit off one that the type has, nor finer than all of these.

    In a group that gives it another figure for that, or as often as that, it may be one of its own.
    """
    weights = aircraft.definition.type.weights
    listed = [weights.maximum, *weights.others, *weights.names.values()]
    step = next((one for one in _ROUND if not any(known % one for known in listed)), 1.0)
    given = list(dict.fromkeys(_weights(aircraft)))
    counts = Counter(float(weight) for _, weight in given)
    for group, weight in given:
        if weight in listed:
            continue
        here = {float(other) for name, other in given if name == group}
        near = likeliest(weight, [one for one in listed if len(one.text) == len(weight.text)])
        likely = near if near is not None and _by_one_digit(weight, near) else None
        own = len(here) < 2 or counts[float(weight)] > 1 or (likely is not None and likely in here)
        if likely is not None and (weight % min(step, 50.0) or not own):
            yield tell(
                weight.place,
                "finding-weight-misread",
                weight=entered(weight, aircraft.units.weight),
                likely=entered(likely),
            )
        elif not 0.4 <= weight / weights.maximum <= 1.01:
            yield tell(
                weight.place,
                "finding-weight-of-maximum",
                weight=entered(weight, aircraft.units.weight),
                maximum=entered(weights.maximum),
            )


def _by_one_digit(one: Figure, other: Figure) -> bool:
    apart = [(a, b) for a, b in zip(one.text, other.text, strict=True) if a != b]
    return len(apart) == 1 or (len(apart) == 2 and apart[0] == apart[1][::-1])


@rule("altitude-odd", Severity.WARNING, "look-altitude", COMMON_PRACTICE)
def altitudes_are_round(aircraft: Aircraft) -> Iterator[Told]:
    """An altitude is a multiple of 100, and of 500 where all others of its kind are."""
    definition = aircraft.definition
    given = [
        altitude
        for speeds in (definition.speeds, definition.other_speeds)
        for entries in speeds.values()
        for one in entries
        for altitude in (one.altitude, one.from_altitude)
        if altitude is not None
    ]
    most = definition.type.maximum_operating_altitude
    odd = [one for one in given if one % 500]
    alone = len(given) > 2 and len(odd) == 1
    for one in (*given, *([most.altitude] if most is not None else [])):
        if one % 100 or (alone and one is odd[0]):
            yield tell(
                one.place,
                "finding-altitude-odd",
                altitude=entered(one, aircraft.units.altitude),
            )


@rule("glide-height", Severity.WARNING, "look-glide-speeds", COMMON_PRACTICE)
def glides_are_told_for_a_round_height(aircraft: Aircraft) -> Iterator[Told]:
    """A glide is told for a height of 1, 2 or 5 and zeros."""
    for glide in aircraft.definition.type.glide:
        height = glide.for_height
        if height is not None and height.text.rstrip("0") not in ("1", "2", "5"):
            yield tell(
                height.place, "finding-glide-height", height=entered(height, aircraft.units.high)
            )


@rule("named-speed", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def named_speeds_can_be_flown(aircraft: Aircraft) -> Iterator[Told]:
    """A speed by the manual's own name lies from 0.9 of the least stall to the highest limit."""
    stalls = [float(one.ias) for one in aircraft.stall_speeds if one.ias is not None]
    tops = [
        float(one.ias if one.ias is not None else one.cas)  # type: ignore[arg-type]
        for name in ("VNE", "VMO")
        for one in aircraft.definition.speeds.get(name, [])
        if one.ias is not None or one.cas is not None
    ]
    low, high = min(stalls, default=0.0), 1.03 * max(tops, default=math.inf)
    given = [
        (name, one.ias)
        for name, entries in aircraft.definition.other_speeds.items()
        for one in entries
        if one.ias is not None
    ]
    for name, figure in given:
        last = figure.high if isinstance(figure, Span) else figure
        if not 0.9 * low <= figure <= last <= high:
            yield tell(
                figure.place,
                "finding-named-speed",
                speed=name,
                value=entered(figure),
                low=about(low),
                high=about(high),
            )
