"""Random cases of an aircraft, in and about its tables, and what Python makes of them."""

import random
from dataclasses import dataclass
from typing import Any

from cardgen.air.bounds import OutOfBoundsError
from cardgen.document.record import Document
from cardgen.lessons.altimeter import Altimeter
from cardgen.lessons.lines import limit_passed, line
from cardgen.lessons.reckoning import KNOWN, Case, Step, reckon
from cardgen.units import convert, from_si
from cardgen.words.english import ENGLISH


@dataclass(frozen=True)
class Asked:
    """A case, and the same as the page's script takes it."""

    case: Case

    @property
    def plain(self) -> dict[str, Any]:
        one = self.case
        altimeter = one.altimeter and {
            "shown": one.altimeter.shown,
            "setting": one.altimeter.setting,
        }
        return {
            "known": one.known,
            "speed": one.speed,
            "flaps": one.flaps,
            "source": one.static_source,
            "gear": one.gear,
            "pressureAltitude": one.pressure_altitude,
            "altimeter": altimeter,
            "oat": one.oat,
            "isa": one.isa,
            "wind": one.wind and list(one.wind),
            "course": one.course,
            "weight": one.weight,
            "bank": one.bank,
        }


def drawn(chance: random.Random, card: Document) -> Asked:
    """Draw a case: whole figures as often as others, some beyond the tables, some without air."""
    units, basis = card.head.units, card.basis

    def some(low: float, high: float) -> float:
        return round(chance.uniform(low, high), chance.choice((0, 0, 1, 6)))

    top = 1.1 * max((x for curve in basis.calibration for x in curve.x), default=150.0)
    ends = (-600.0, 9000.0) if chance.random() < 0.95 else (-6000.0, 21_000.0)
    level = some(*(float(from_si(metres, units.altitude)) for metres in ends))
    case: dict[str, Any] = {}
    way = chance.choice(("pressure", "pressure", "altimeter", "none"))
    if way == "pressure":
        case["pressure_altitude"] = level
    elif way == "altimeter":
        case["altimeter"] = Altimeter(level, some(96_000, 105_000))
    warmth = chance.choice(("oat", "isa", "isa", "none"))
    if warmth == "oat":
        case["oat"] = float(convert(some(-50, 45), "C", units.temperature))
    elif warmth == "isa":
        case["isa"] = some(-25, 25)
    if chance.random() < 0.7:
        case["wind"] = (some(0, 360), some(0, 60))
        case["course"] = some(0, 360)
    if chance.random() < 0.8:
        case["weight"] = chance.choice((*basis.weights, some(0.5, 1.1) * basis.weights[0]))
        case["bank"] = chance.choice((0.0, 15.0, 30.0, some(0, 75)))
    speed = some(0.15 * top, top)
    return Asked(
        Case(
            chance.choice(KNOWN),
            float(convert(speed, units.speed, card.head.indicator_unit)),
            chance.choice(basis.flaps),
            chance.choice(("normal", "normal", "alternate")),
            gear=chance.choice(("", "", "up", "down")),
            **case,
        )
    )


def answer(card: Document, case: Case) -> dict[str, Any] | None:
    """Return what Python makes of a case, in the words of the page; None of what means nothing."""
    try:
        worked = reckon(card, case)
    except OutOfBoundsError:
        return None
    return {
        "values": worked.values,
        "steps": [_step(one) for one in (*worked.altimeter, *worked.steps, *worked.stall)],
        "passed": [limit_passed(ENGLISH, one) for one in worked.passed],
        "binding": [one.binding for one in worked.passed],
        "inForce": [
            [one.speed, ENGLISH.say("given-cas", speed=one.limit)] for one in worked.in_force
        ],
        "notes": [ENGLISH.say(one) for one in worked.notes],
    }


def _step(one: Step) -> list[str]:
    return [*line(ENGLISH, one), ENGLISH.text(one.working), one.formula, one.page]
