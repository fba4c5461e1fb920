"""Which limit comes first as the speed builds up in a descent."""

import math
from typing import NamedTuple

from cardgen.document.practice import Question, Worked
from cardgen.document.record import Message, Quantity, Value
from cardgen.lessons.limits import AT_ALTITUDE, Flying, passed
from cardgen.lessons.practice import flying
from cardgen.lessons.practice.kinds import Draw, Wrong, chosen, kind

_NAMED = ("VNE", "VMO", "MMO", "VNO", "VRA", "VA", "VO", "VFE", "VLE")
_IN_WORDS = ("VNO", "VRA", "VA", "VO")  # that one may be above, with care
_APART = 3.0  # of the indicator's unit: limits that are nearer to each other are not asked of


class Limit(NamedTuple):
    """A limit and what the indicator shows at it."""

    speed: str
    limit: Quantity


def limits(draw: Draw, flaps: str, gear: str, altitude: float | None) -> list[Limit]:
    """Return the limits of a setting, the slowest first."""
    oat = None if altitude is None else flying.standard(draw, altitude)
    over = passed(draw.chain, Flying(math.inf, math.nan, flaps, gear, altitude, oat))
    found: dict[str, Limit] = {}
    for one in over:
        limit = Limit(one.speed, one.limit)
        if one.speed in _NAMED and not one.as_cas:
            held = found.get(one.speed, limit)
            found[one.speed] = min(held, limit, key=lambda each: each.limit.value)
    return sorted(found.values(), key=lambda one: one.limit.value)


@kind("first-limit")
def _first_limit(draw: Draw) -> Question | None:
    basis = draw.document.basis
    flaps = draw.one((basis.flaps[0], *basis.flaps))
    gear = draw.one(_gears(draw))
    altitude = draw.whole(*_levels(draw)) if _by_altitude(draw) else None
    known = limits(draw, flaps, gear, altitude)
    ahead = draw.one(known, "limits")
    later = [one for one in known if one.limit.value > ahead.limit.value]
    behind = [one for one in known if one.limit.value < ahead.limit.value]
    start = max([one.limit.value for one in behind], default=0.0)
    low = max(start + _APART, ahead.limit.value - 15.0, _slowest(draw, flaps))
    high = ahead.limit.value - _APART
    if any(one.speed not in _IN_WORDS for one in behind):
        return None
    near = [one for one in later if one.limit.value < ahead.limit.value + _APART]
    if near or math.floor(high) < math.ceil(low):
        return None
    shown = draw.whole(low, high)
    wrong = [
        *(Wrong("later", one.limit.value, _said(one)) for one in later),
        *(Wrong("behind", one.limit.value, _said(one)) for one in behind),
        *_not_in_force(draw, flaps, gear, {one.speed for one in known}, shown),
    ]
    asked: dict[str, Value] = {"speed": draw.speed(shown), "setting": _setting(draw, flaps, gear)}
    if altitude is not None:
        asked["altitude"] = draw.altitude(altitude)
    return chosen(
        "first-limit",
        asked,
        (ahead.limit.value, _said(ahead)),
        wrong,
        [_line(one, one is ahead) for one in known],
        wording="first-limit" if altitude is None else "first-limit-at",
        case={
            "shown": shown,
            "flaps": flaps,
            "gear": gear,
            "altitude": "" if altitude is None else altitude,
            "speed": ahead.speed,
        },
    )


def _line(one: Limit, is_next: bool) -> Worked:
    why = Message("practice-why-next") if is_next else None
    return Worked(Message(f"speed-{one.speed}"), one.limit, reason=why)


def _said(one: Limit) -> Message:
    name = Message(f"speed-{one.speed}")
    return Message("practice-limit", {"name": name, "speed": one.limit})


def _gears(draw: Draw) -> tuple[str, ...]:
    """Return where the gear may be: nothing where it does not retract."""
    moves = any(one.speed in ("VLE", "VLO") for one in draw.document.basis.bounds)
    return ("up", "up", "down") if moves else ("",)


def _by_altitude(draw: Draw) -> bool:
    """Whether a limit of this aircraft hangs on the altitude."""
    return any(
        one.speed in AT_ALTITUDE
        and (one.altitude is not None or one.quantity in ("mach", "tas") or one.from_altitude)
        for one in draw.document.basis.bounds
    )


def _levels(draw: Draw) -> tuple[float, float, int]:
    levels = draw.document.basis.levels or (0.0, 10_000.0)
    return levels[0], levels[-1], 1000 if draw.manual.altitude == "ft" else 500


def _slowest(draw: Draw, flaps: str) -> float:
    """Return what the indicator shows a little above the stall."""
    stall = flying.stall(draw, flaps)
    if stall is None or stall.cas is None:
        return 0.0
    shown = draw.chain.shown_at_cas(1.2 * stall.cas, flaps)
    return 0.0 if math.isnan(shown) else shown


def _setting(draw: Draw, flaps: str, gear: str) -> Message:
    several = len(draw.document.basis.flaps) > 1
    name = "practice-setting" + ("-flaps" if several else "") + ("-gear" if gear else "")
    values: dict[str, Value] = {"flaps": flaps}
    return Message(name, {**values, "gear": Message(f"gear-{gear}")} if gear else values)


def _not_in_force(draw: Draw, flaps: str, gear: str, known: set[str], shown: float) -> list[Wrong]:
    """Return limits that do not hold in this setting: of flaps that are in, of gear that is up."""
    found = []
    for one in draw.document.basis.bounds:
        is_off = (one.speed == "VFE" and flaps == draw.document.basis.flaps[0]) or (
            one.speed == "VLE" and gear == "up"
        )
        if not is_off or one.speed in known or one.quantity != "ias":
            continue
        at = math.floor(min(draw.chain.own(one.value), draw.chain.shown_at_ias(one.value)) + 1e-6)
        limit = Limit(one.speed, draw.speed(at))
        if at > shown:
            found.append(Wrong(f"off-{one.speed}", at, _said(limit)))
    return found
