"""Heading and ground speed in a wind."""

import math
from typing import NamedTuple

from cardgen.air.bounds import OutOfBoundsError
from cardgen.air.wind import wind_components, wind_triangle
from cardgen.document.practice import Answer, Question, Worked
from cardgen.document.record import Quantity, Value
from cardgen.document.rounding import kept, rounded
from cardgen.lessons.practice import flying
from cardgen.lessons.practice.kinds import Draw, LackingError, heading, kind, numbered, step
from cardgen.units import convert, from_si, to_si

_OFF = (20.0, 160.0)  # degrees of wind off the course: less and more leave nothing to work


class Leg(NamedTuple):
    """A course in a wind; speeds in the indicator's unit, but the wind, which is in knots."""

    tas: float
    course: float
    blows_from: float
    knots: float
    wind: float
    head: float
    across: float
    drift: float
    ground: float

    @property
    def case(self) -> dict[str, str | float]:
        """What it was drawn of."""
        return {
            "tas": self.tas,
            "course": self.course,
            "from": self.blows_from,
            "wind": self.knots,
        }


def _leg(draw: Draw) -> Leg | None:
    table = draw.chain.table("")
    if table is None:
        raise LackingError("calibration")
    tas = flying.pointer(draw, table, cruising=True)
    course, blows_from = draw.whole(10, 360, 10), draw.whole(10, 360, 10)
    knots = draw.whole(10, 35, 5)
    wind = float(convert(knots, "kt", draw.unit))
    off = abs((blows_from - course + 180.0) % 360.0 - 180.0)
    if math.isnan(tas) or wind > tas / 3 or not _OFF[0] <= off <= _OFF[1]:
        return None
    angles = to_si(blows_from, "deg"), to_si(wind, draw.unit), to_si(course, "deg")
    head, across = (float(from_si(one, draw.unit)) for one in wind_components(*angles))
    try:
        held = wind_triangle(to_si(tas, draw.unit), angles[2], angles[0], angles[1])
    except OutOfBoundsError:
        return None
    drift = math.degrees(math.asin(across / tas))
    ground = float(from_si(held.ground_speed, draw.unit))
    return Leg(tas, course, blows_from, knots, wind, head, across, drift, ground)


def _asked(draw: Draw, leg: Leg) -> dict[str, Value]:
    return {
        "course": heading(leg.course),
        "tas": draw.speed(leg.tas),
        "from": heading(leg.blows_from),
        "wind": Quantity(leg.knots, "kt"),
    }


def _worked(draw: Draw, leg: Leg) -> list[Worked]:
    own = [] if draw.unit == "kt" else [step("wind", draw.speed(leg.wind, 1), "wind-unit")]
    sides = "right" if leg.across >= 0 else "left"
    angle = Quantity(abs((leg.blows_from - leg.course + 180.0) % 360.0 - 180.0), "deg")
    return [
        *own,
        step("angle", angle, f"from-{sides}"),
        step("headwind" if leg.head >= 0 else "tailwind", draw.speed(abs(leg.head), 1), "cosine"),
        step("crosswind", draw.speed(abs(leg.across), 1), "sine"),
        step("drift", Quantity(kept(abs(leg.drift)), "deg", decimals=1), f"into-{sides}"),
    ]


@kind("heading")
def _heading(draw: Draw) -> Question | None:
    leg = _leg(draw)
    if leg is None:
        return None
    whole_wind = math.degrees(math.asin(leg.wind / leg.tas))
    side = math.copysign(1.0, leg.across)
    by_whole = math.degrees(math.asin(rounded(leg.across) / leg.tas))
    held = leg.course + leg.drift
    ways = (leg.course + rounded(leg.drift), leg.course + by_whole)
    turn = -360.0 if min(held, *ways) >= 360.5 else 360.0 if max(held, *ways) < 0.5 else 0.0
    answer = Answer(held + turn, "deg", ways=tuple(one + turn for one in ways))
    last = step("heading", Quantity(kept(held % 360.0), "deg"), "course", "heading")
    return numbered(
        "heading",
        _asked(draw, leg),
        answer,
        [
            ("wrong-side", _round(leg.course - leg.drift)),
            ("no-drift", leg.course),
            ("whole-wind", _round(leg.course + side * whole_wind)),
        ],
        [*_worked(draw, leg), last],
        "heading",
        case=leg.case,
    )


def _round(degrees: float) -> float:
    return degrees % 360.0


def _whole_along(leg: Leg) -> float:
    """Return the ground speed of who takes all wind along the course; NaN of a wind abeam."""
    if rounded(leg.head) == 0.0:
        return math.nan
    return leg.tas - math.copysign(leg.wind, leg.head)


@kind("ground-speed")
def _ground_speed(draw: Draw) -> Question | None:
    leg = _leg(draw)
    if leg is None:
        return None
    along = math.sqrt(leg.tas**2 - leg.across**2)
    by_degrees = leg.tas * math.cos(math.radians(rounded(leg.drift)))
    ways = (by_degrees - leg.head, rounded(along) - rounded(leg.head))
    unit = [] if draw.unit == "kt" else [("wind-unit", along - leg.head * leg.knots / leg.wind)]
    last = step("ground-speed", draw.speed(leg.ground, 1), "ground")
    return numbered(
        "ground-speed",
        _asked(draw, leg),
        Answer(leg.ground, draw.unit, ways=ways),
        [
            ("blows-to", along + leg.head),
            *unit,
            ("whole-along", _whole_along(leg)),
            ("no-wind", leg.tas),
        ],
        [*_worked(draw, leg), step("along", draw.speed(along, 1), "along"), last],
        case=leg.case,
    )
