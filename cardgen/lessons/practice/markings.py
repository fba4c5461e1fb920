"""What the arcs and lines on the indicator mean."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from cardgen.document.practice import Question, Worked
from cardgen.document.record import Markings, Message, Quantity, Value
from cardgen.document.rounding import rounded, senses_of_mark
from cardgen.lessons.practice.kinds import Draw, LackingError, Wrong, chosen, kind

_CLEAR = 2.0  # of the scale: the pointer stands as far as this from an arc's end
_ABOVE = 20  # of the scale: how far beyond the last mark it is drawn
# What an end of an arc stands for (14 CFR 23.1545), where the manual gives that very figure.
_ENDS = {
    ("white", "low"): ("VS0",),
    ("white", "high"): ("VFE",),
    ("green", "low"): ("VS1",),
    ("green", "high"): ("VNO", "VRA", "VB", "VMO"),
    ("yellow", "high"): ("VNE",),
}


class Stretch(NamedTuple):
    """A part of the scale between two ends of arcs, and the arcs that it stands in."""

    low: float
    high: float
    arcs: tuple[str, ...]
    beyond: bool = False


def _markings(draw: Draw) -> Markings:
    markings = draw.document.basis.markings
    if markings is None or not markings.arcs:
        raise LackingError("markings")
    return markings


def stretches(markings: Markings) -> list[Stretch]:
    """Return the parts of a scale, from its lowest arc to beyond its red line."""
    red = [one.at for one in markings.lines if one.name == "red-line"]
    ends = sorted({*(end for one in markings.arcs for end in (one.low, one.high)), *red})
    found = [
        Stretch(low, high, tuple(one.name for one in markings.arcs if one.low <= low < one.high))
        for low, high in pairwise(ends)
        if not red or low < min(red)
    ]
    beyond = [Stretch(min(red), min(red) + _ABOVE, (), beyond=True)] if red else []
    return [*(one for one in found if one.arcs), *beyond]


def _marked(draw: Draw, markings: Markings, at: float) -> Quantity:
    """Return where an end or a line is as the card prints it."""
    return draw.speed(_printed(markings, at))


def _printed(markings: Markings, at: float) -> float:
    for arc in markings.arcs:
        if (at, "maximum") in zip((arc.low, arc.high), senses_of_mark(arc.name), strict=True):
            return rounded(at, "maximum")
    for line in markings.lines:
        if line.at == at and not line.called:
            return rounded(at, senses_of_mark(line.name)[0])
    return rounded(at, "minimum")


@kind("arcs")
def _arcs(draw: Draw) -> Question | None:
    markings = _markings(draw)
    parts = stretches(markings)
    part = draw.one(parts)
    if part.high - part.low < 2 * _CLEAR + 1:
        return None
    shown = draw.whole(part.low + _CLEAR, part.high - _CLEAR)
    if _is_tightened(markings, shown):
        return None
    others = [one for one in parts if one.arcs != part.arcs or one.beyond != part.beyond]
    wrong = [_wrong(draw, markings, one) for one in others]
    draw.chance.shuffle(wrong)
    return chosen(
        "arcs",
        {"speed": draw.speed(shown)},
        (part.low, _told(part)),
        wrong,
        (_ends(draw, markings, part),),
        case={"shown": shown},
    )


def _is_tightened(markings: Markings, shown: float) -> bool:
    """Whether the pointer stands between a limit by the bench card and the paint."""
    ends = [end for one in markings.arcs for end in (one.low, one.high)]
    for limit in markings.tightened:
        painted = min((end for end in ends if end >= limit.at), default=limit.at)
        if limit.at - _CLEAR < shown < painted + _CLEAR:
            return True
    return False


def _told(part: Stretch) -> Message:
    if part.beyond:
        return Message("practice-beyond")
    meanings = tuple(Message(f"practice-arc-{name}") for name in part.arcs)
    if len(meanings) == 1:
        return Message("practice-one-arc", {"arc": meanings[0]})
    return Message("practice-two-arcs", {"one": meanings[0], "other": meanings[1]})


def _span(draw: Draw, markings: Markings, part: Stretch) -> Quantity:
    low, high = (_printed(markings, at) for at in (part.low, part.high))
    return Quantity(low, draw.unit, high=high)


def _wrong(draw: Draw, markings: Markings, part: Stretch) -> Wrong:
    if part.beyond:
        red = _marked(draw, markings, part.low)
        return Wrong("beyond", part.low, _told(part), (("speed", red),))
    return Wrong("arc", part.low, _told(part), (("span", _span(draw, markings, part)),))


def _ends(draw: Draw, markings: Markings, part: Stretch) -> Worked:
    if part.beyond:
        return Worked(Message("practice-step-red-line"), _marked(draw, markings, part.low))
    arcs = tuple(Message(f"marking-{name}") for name in part.arcs)
    return Worked(Message("practice-step-stretch", {"arcs": arcs}), _span(draw, markings, part))


class End(NamedTuple):
    """An end of an arc, or a line: where it is, and the V-speed that it stands for."""

    name: str
    at: float
    speed: str


def ends(draw: Draw, markings: Markings) -> Iterator[End]:
    """Yield the ends and lines that stand for a V-speed of this aircraft."""
    for arc in markings.arcs:
        for end, at in (("low", arc.low), ("high", arc.high)):
            for speed in _ENDS.get((arc.name, end), ()):
                if _gives(draw, speed, at):
                    yield End(f"{arc.name}-{end}", at, speed)
                    break
    for line in markings.lines:
        if line.speed in ("VNE", "VMO", "VYSE", "VMC"):
            yield End(line.name, line.at, line.speed)


def _gives(draw: Draw, speed: str, at: float) -> bool:
    """Whether the manual gives a V-speed as what is painted there."""
    own = (
        draw.chain.own(one.value)
        for one in draw.document.basis.bounds
        if one.speed == speed and one.quantity == "ias"
    )
    return any(math.isclose(one, at, abs_tol=0.5) for one in own)


@kind("arc-ends")
def _arc_ends(draw: Draw) -> Question | None:
    markings = _markings(draw)
    known = list(ends(draw, markings))
    asked = draw.one(known, "markings")
    others = _others(known, asked.speed)
    draw.chance.shuffle(others)
    where = Message(f"practice-end-{asked.name}")
    at = _marked(draw, markings, asked.at)
    named = [
        Wrong("end", one.at, Message(f"practice-means-{one.speed}"), _where(draw, markings, one))
        for one in others
    ]
    return chosen(
        "arc-ends",
        {"end": where, "speed": at},
        (asked.at, Message(f"practice-means-{asked.speed}")),
        named,
        (Worked(Message(f"speed-{asked.speed}"), at),),
        case={"speed": asked.speed, "shown": asked.at},
    )


def _where(draw: Draw, markings: Markings, one: End) -> tuple[tuple[str, Value], ...]:
    end = Message(f"practice-end-{one.name}")
    return ("end", end), ("speed", _marked(draw, markings, one.at))


def _others(known: Sequence[End], speed: str) -> list[End]:
    return [one for one in known if one.speed != speed]
