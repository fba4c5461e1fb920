"""What figures are given for: weights and altitudes, and speeds by the manual's own names."""

import math
from collections import Counter
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.likely import likeliest
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, entered, rule, tell
from cardgen.definition.model import SpeedEntry, printed
from cardgen.definition.places import Figure, Span
from cardgen.units import convert

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
    chosen = [weights.maximum, *weights.others]  # the named, such as at the ramp, follow from these
    step = next((one for one in _ROUND if not any(known % one for known in chosen)), 1.0)
    given = list(dict.fromkeys(_weights(aircraft)))
    counts = Counter(float(weight) for _, weight in given)
    for group, weight in given:
        if weight in listed:
            continue
        here = {float(other) for name, other in given if name == group}
        same = [one for one in listed if len(one.text) == len(weight.text)]
        near = likeliest(weight, [one for one in same if one not in here] or same)
        likely = near if near is not None and _by_one_digit(weight, near) else None
        rows = {float(w) for name, w in given if name.startswith("stall ")}
        alone = len(rows if group.startswith("stall ") else here) < 2
        own = alone or counts[float(weight)] > 1 or (likely is not None and likely in here)
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
    """Where most altitudes are multiples of 100, one is; and of 500 where all others are.

    It begins with no 0, and is one that the kind of aircraft can have.
    """
    definition = aircraft.definition
    given = [
        altitude
        for speeds in (definition.speeds, definition.other_speeds)
        for entries in speeds.values()
        for one in entries
        for altitude in (one.altitude, one.from_altitude)
        if altitude is not None
    ]
    given += [one.altitude for one in definition.altimeter_correction if one.altitude is not None]
    most = definition.type.maximum_operating_altitude
    odd = [one for one in given if one % 500]
    alone = len(given) > 2 and len(odd) == 1
    rounded = sum(one % 100 == 0 for one in given) >= max(2.0, 0.75 * len(given))
    feet = 30_000.0 if aircraft.kind == "single-engine" else 51_000.0
    top = float(convert(feet, "ft", aircraft.units.altitude))
    for one in (*given, *([most.altitude] if most is not None else [])):
        padded = one.text.startswith("0") and len(one.text) > 1
        finer = bool(one % 100) and rounded
        if finer or (alone and one is odd[0]) or one > top or padded:
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
        float(figure)
        for name in ("VNE", "VMO")
        for one in aircraft.definition.speeds.get(name, [])
        if (figure := printed(one)) is not None
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


# What part a speed is of the stall of its flaps, or of any where it names none, in CAS or IAS:
# common practice, and wide. By words of the manual's own names, the first that is found.
_BY_USE = {
    "engine failure": (1.10, 1.75),
    "without engine": (1.15, 1.75),
    "balked": (1.05, 2.00),
    "go around": (1.05, 2.00),
    "go-around": (1.05, 2.00),
    "precautionary": (1.10, 1.90),
    "approach": (1.12, 2.10),
    "landing": (1.10, 1.90),
    "lift off": (0.95, 1.50),
    "unstick": (0.90, 1.50),
    "rotation": (0.90, 1.50),
    "launch by winch": (1.20, 2.20),
    "winch launch": (1.20, 2.20),
    "spin": (0.90, 1.40),
}
_OF_PARTS = ("gear", "light", "exten", "approach flap")  # whose limits may be called by such words


@rule("named-speed-use", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def named_speeds_fit_their_use(aircraft: Aircraft) -> Iterator[Told]:
    """A speed whose name says what it is for is as many times the stall as such speeds are."""
    for name, entries in aircraft.definition.other_speeds.items():
        use = next((words for words in _BY_USE if words in name.lower()), None)
        if any(part in name.lower() for part in _OF_PARTS):
            continue
        for one in entries:
            stalls = [*_stalls_of(aircraft, one)]
            if use is None or one.ias is None or one.sense != "target" or not stalls:
                continue
            low, high = _BY_USE[use][0] * min(stalls) - 1.0, _BY_USE[use][1] * max(stalls) + 1.0
            last = one.ias.high if isinstance(one.ias, Span) else one.ias
            if not low <= one.ias <= last <= high:
                yield tell(
                    one.ias.place,
                    "finding-named-speed-use",
                    speed=name,
                    value=entered(one.ias),
                    low=about(low),
                    high=about(high),
                )


@rule("emergency-descent", Severity.WARNING, "look-speeds", COMMON_PRACTICE)
def emergency_descents_are_flown_at_a_limit(aircraft: Aircraft) -> Iterator[Told]:
    """An emergency descent with the gear or flaps out is not flown one digit off their limit.

    Commonly it is flown at the limit, else at a round figure.
    """
    for name, entries in aircraft.definition.other_speeds.items():
        for one in entries if "emergency descent" in name.lower() else ():
            for measure in ("ias", "cas"):
                figure, limits = (
                    getattr(one, measure),
                    dict(_limits_of_parts(aircraft, one, measure)),
                )
                if figure is None or isinstance(figure, Span) or not figure % 5:
                    continue
                near = [at for at in limits if len(at.text) == len(figure.text)]
                likely = next((at for at in near if _by_one_digit(figure, at)), None)
                if likely is not None and float(figure) not in map(float, limits):
                    yield tell(
                        figure.place,
                        "finding-emergency-descent",
                        speed=name,
                        here=entered(figure),
                        limit=limits[likely],
                        value=entered(likely),
                    )


def _limits_of_parts(
    aircraft: Aircraft, flown: SpeedEntry, measure: str
) -> Iterator[tuple[Figure, str]]:
    """Yield the limits of what is out at a speed, in a measure: of the flaps, of the gear."""
    out = {"VFE": flown.flaps not in (None, aircraft.flaps[0]), "VLE": flown.gear == "down"}
    for name in (name for name, is_out in out.items() if is_out):
        for entry in aircraft.definition.speeds.get(name, []):
            figure: Figure | None = getattr(entry, measure)
            if figure is not None and (name != "VFE" or entry.flaps == flown.flaps):
                yield figure, name


@rule("glide-weights", Severity.WARNING, "look-glide-speeds", COMMON_PRACTICE)
def glides_are_told_for_the_weights_of_their_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """A weight of the glide alone is not one digit off one of the speed of best glide alone."""
    entries = aircraft.definition.speeds.get("best glide", [])
    speeds = [one.weight for one in entries if one.weight is not None]
    glides = [one.weight for one in aircraft.definition.type.glide if one.weight is not None]
    own = [one for one in speeds if one not in glides]
    for glide in (one for one in glides if one not in speeds):
        same = [one for one in own if len(one.text) == len(glide.text)]
        speed = next((one for one in same if _by_one_digit(glide, one)), None)
        if speed is not None:
            yield tell(
                glide.place,
                "finding-glide-weights",
                glide=entered(glide),
                speed=entered(speed),
            )


def _stalls_of(aircraft: Aircraft, entry: SpeedEntry) -> Iterator[float]:
    """Yield the stalls that a speed may be flown at, in IAS and in CAS: of its flaps, or of any."""
    known = [s for s in aircraft.stall_speeds if s.weight == aircraft.weight_of(entry)]
    for stall in [s for s in known if s.flaps == entry.flaps] or known:
        yield from (float(one) for one in (stall.ias, stall.cas) if one is not None)
