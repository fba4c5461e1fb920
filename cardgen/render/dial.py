"""The geometry of the airspeed indicator's face; its drawing is ``templates/dial.svg``."""

import itertools
import math
from dataclasses import dataclass

from cardgen.airframe.aircraft import Aircraft
from cardgen.render.markings import Scale, Shown, scale_for, shown_markings
from cardgen.units import convert

FIRST, SWEEP = 28.0, 304.0  # deg clockwise from the top: where the scale begins, and its span

# Inner and outer radius of each band; the bezel's is 124.5.
BANDS = {"white": (61.0, 73.5), "green": (75.5, 88.0), "yellow": (75.5, 88.0)}
_NARROW = (65.0, 69.5)  # the white band beyond full flaps
_NUMBERS, _NAMES, _INNER = 98.0, 59.0, 33.0  # radii that words stay outside of, or inside of
_NUMBER, _CAPTION = 14.4, 11.6  # sizes of type: 2.3 and 1.86 mm high on a dial 58 mm wide
_LETTER = 0.54  # width of a digit, and of a capital at the most, to the size of type
_STRIPE, _SLANT = 4.6, 6.0  # deg between the stripes of the yellow arc, and how far one leans


@dataclass(frozen=True)
class Tick:
    """A line of the scale, with a number on the long ones."""

    angle: float
    rank: str
    number: "Label | None"


@dataclass(frozen=True)
class Label:
    """Words centred on a point, turned clockwise by some degrees."""

    text: str
    x: float
    y: float
    size: float
    turn: float = 0.0


@dataclass(frozen=True)
class Arc:
    """A band between two radii, its stripes and its name, as SVG paths."""

    name: str
    path: str
    stripes: str
    label: Label | None


@dataclass(frozen=True)
class Line:
    """A line across the scale, and the speed's name beside it."""

    name: str
    angle: float
    label: Label | None


@dataclass(frozen=True)
class FlapLimit:
    """How far the white band goes on for less than full flaps."""

    path: str
    angle: float
    label: Label


@dataclass(frozen=True)
class Dial:
    """All that the drawing needs; `rim` is the scale's line, `inner` a second unit's scale."""

    unit: str
    ticks: tuple[Tick, ...]
    rim: str
    arcs: tuple[Arc, ...]
    lines: tuple[Line, ...]
    flaps: tuple[FlapLimit, ...]
    inner_unit: str
    inner: tuple[Tick, ...]
    description: str


def draw_dial(aircraft: Aircraft) -> Dial | None:
    """Return the dial of an aircraft, to its own scale, or None without markings."""
    shown = shown_markings(aircraft)
    if shown is None:
        return None
    scale = scale_for(shown)
    inner_unit = second_unit(aircraft)
    return Dial(
        shown.unit,
        tuple(
            _tick(_angle(scale, speed), rank, f"{speed}" if rank == "major" else "", _NUMBERS)
            for speed, rank in scale.divisions
        ),
        _along(FIRST, FIRST + SWEEP, 89.5),
        tuple(_arc(scale, shown, name) for name in shown.arcs),
        tuple(_line(scale, shown, name) for name in shown.lines),
        tuple(_flap_limits(scale, shown, roomy=not inner_unit)),
        inner_unit,
        tuple(_inner_ticks(scale, shown.unit, inner_unit)) if inner_unit else (),
        shown.description,
    )


def second_unit(aircraft: Aircraft) -> str:
    """Return the unit of the inner scale: knots on an mph indicator, or the manual's own."""
    if aircraft.indicator_unit == "mph":
        return "kt"
    return "" if aircraft.units.speed == aircraft.indicator_unit else aircraft.units.speed


def _angle(scale: Scale, speed: float) -> float:
    """Return degrees clockwise from the top."""
    return round(FIRST + SWEEP * scale.part(speed), 2)


def _tick(angle: float, rank: str, number: str, radius: float, size: float = _NUMBER) -> Tick:
    return Tick(angle, rank, _beside(number, angle, radius, size) if number else None)


def _beside(text: str, angle: float, radius: float, size: float) -> Label:
    """Return upright words that touch a circle from outside, or from inside if it is a small one.

    The nearer of their corners is as far from the circle at the sides as at
    the top.
    """
    turned = math.radians(angle)
    half = _LETTER * size * len(text) / 2
    reach = abs(math.sin(turned)) * half + abs(math.cos(turned)) * 0.36 * size
    away = reach if radius == _NUMBERS else -reach
    return Label(text, *_point(angle, radius + away), size)


def _arc(scale: Scale, shown: Shown, name: str) -> Arc:
    start, end = (_angle(scale, speed) for speed in shown.arcs[name])
    inner, outer = BANDS[name]
    radius = (inner + outer) / 2
    half = math.degrees(_LETTER * _CAPTION * len(name) / 2 / radius)  # of the band, for the label
    low, high = _widest(start, end, _crossing(scale, shown, name))
    middle = round((low + high) / 2, 2)
    label = None
    if high - low > 2 * half + 6:
        turn = middle - 180 if 90 < middle < 270 else middle
        label = Label(name, *_point(middle, radius), _CAPTION, round(turn, 2))
    stripes = ""
    if name == "yellow":
        stripes = _stripes(start, end, inner, outer, middle, half if label else 0.0)
    return Arc(name, _path(start, end, inner, outer), stripes, label)


def _crossing(scale: Scale, shown: Shown, name: str) -> list[float]:
    """Return where lines cross a band."""
    across = ["blue_line"] if name == "white" else ["blue_line", "red_radial", "yellow_triangle"]
    return [_angle(scale, shown.lines[line]) for line in across if line in shown.lines]


def _widest(start: float, end: float, crossing: list[float]) -> tuple[float, float]:
    """Return the widest part of a band that no line crosses."""
    cuts = sorted([start, end, *(at for at in crossing if start < at < end)])
    return max(itertools.pairwise(cuts), key=lambda part: part[1] - part[0])


def _stripes(
    start: float, end: float, inner: float, outer: float, middle: float, half: float
) -> str:
    """Return slanting strokes across a band, clear of its label."""
    count = max(1, int((end - start - _SLANT) / _STRIPE))
    gap = (end - start - _SLANT) / count
    strokes = []
    for n in range(count + 1):
        foot = start + n * gap
        if half and middle - half - _SLANT < foot < middle + half:
            continue
        (a, b), (c, d) = _point(foot, inner), _point(foot + _SLANT, outer)
        strokes.append(f"M{a} {b}L{c} {d}")
    return "".join(strokes)


def _line(scale: Scale, shown: Shown, name: str) -> Line:
    angle = _angle(scale, shown.lines[name])
    speed = shown.names[name]
    label = _beside(speed, angle, _NAMES, _CAPTION) if speed.isupper() else None
    return Line(name, angle, label)


def _flap_limits(scale: Scale, shown: Shown, roomy: bool) -> list[FlapLimit]:
    """Return the narrower bands beyond the white arc, each with its setting at the end."""
    limits, before = [], _angle(scale, shown.arcs["white"][1]) if shown.flaps else 0.0
    for setting, speed in shown.flaps:
        angle = _angle(scale, speed)
        said = f"flaps {setting}" if roomy and len(shown.flaps) == 1 else setting
        label = _beside(said, angle, _NAMES, _CAPTION)
        limits.append(FlapLimit(_path(before, angle, *_NARROW), angle, label))
        before = angle
    return limits


def _inner_ticks(scale: Scale, unit: str, inner_unit: str) -> list[Tick]:
    """Return the second unit's scale; every second tick has a number."""
    first, last = (
        float(convert(float(speed), unit, inner_unit)) for speed in (scale.first, scale.last)
    )
    step = scale.step if last - first <= 7 * scale.step else 2 * scale.step
    half = step // 2
    ticks = []
    for speed in range(half * math.ceil(first / half), math.floor(last) + 1, half):
        angle = _angle(scale, float(convert(float(speed), inner_unit, unit)))
        whole = speed % step == 0
        rank, number = ("major", f"{speed}") if whole else ("minor", "")
        ticks.append(_tick(angle, rank, number, _INNER, _CAPTION))
    return ticks


def _path(start: float, end: float, inner: float, outer: float) -> str:
    large = int(end - start > 180)
    (a, b), (c, d) = _point(start, outer), _point(end, outer)
    (e, f), (g, h) = _point(end, inner), _point(start, inner)
    return (
        f"M{a} {b}A{outer:g} {outer:g} 0 {large} 1 {c} {d}"
        f"L{e} {f}A{inner:g} {inner:g} 0 {large} 0 {g} {h}Z"
    )


def _along(start: float, end: float, radius: float) -> str:
    (a, b), (c, d) = _point(start, radius), _point(end, radius)
    return f"M{a} {b}A{radius:g} {radius:g} 0 {int(end - start > 180)} 1 {c} {d}"


def _point(angle: float, radius: float) -> tuple[float, float]:
    turned = math.radians(angle)
    return round(radius * math.sin(turned), 2), round(-radius * math.cos(turned), 2)
