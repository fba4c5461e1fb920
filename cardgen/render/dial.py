"""The airspeed indicator's face, to the aircraft's own scale."""

import itertools
import math
from collections.abc import Iterator, Sequence

from cardgen.document.record import Arc, Head, Markings, Radial
from cardgen.layout.shapes import DIAL
from cardgen.render.markings import Scale, arc_of, described, is_symbol, scale_for
from cardgen.render.shapes import CAP, Drawing, Part, Shape, Words, line, pair, polygon
from cardgen.units import convert
from cardgen.words.language import Language

FIRST, SWEEP = 28.0, 304.0  # deg clockwise from the top: where the scale begins, and its span

# Inner and outer radius of each band, and those that ticks and lines go from and to.
BANDS = {"white": (61.0, 73.5), "green": (75.5, 88.0), "yellow": (75.5, 88.0)}
_NARROW = (65.0, 69.5)  # the white band beyond full flaps
_BEZEL, _RIM, _SECOND_RIM = 124.5, 89.5, 39.5
_LONG, _SHORT = (60.5, 97.0), (75.0, 97.0)  # the red line, and that of the slow end
_MARK = (89.5, 102.0)  # a line that the manual names, outside of the bands
_TIGHT, _TIGHT_FLAPS = (72.0, 97.0), (60.5, 75.0)  # those of a limit that a bench card tightens
_BROKEN = ((87.5, 97.0), (74.0, 83.5), (60.5, 70.0))
_TRIANGLE = ((-7.0, -97.5), (7.0, -97.5), (0.0, -83.0))
_TICKS = {"major": (7.0, 2.4), "middle": (5.0, 1.3), "minor": (3.0, 0.8)}  # lengths and widths
_SECOND_TICKS = {"major": (5.0, 1.3), "minor": (2.5, 0.8)}
_NUMBERS, _NAMES, _INNER = 98.0, 59.0, 33.0  # radii that words stay outside of, or inside of
_NUMBER, _CAPTION = 14.4, 11.6  # sizes of type: 2.3 and 1.86 mm high on a dial 58 mm wide
_FEW = 4  # letters of a setting that is said to be one of flaps
_LETTER = 0.54  # width of a digit, and of a capital at the most, to the size of type
_STRIPE, _SLANT = 4.6, 6.0  # deg between the stripes of the yellow arc, and how far one leans


def draw_dial(language: Language, markings: Markings, head: Head, grey: bool = False) -> Drawing:
    """Return the dial of an aircraft, to its own scale."""
    scale = scale_for(markings)
    inner_unit = second_unit(head)
    unit = head.indicator_unit
    bezel = f"M0 {-_BEZEL}a{_BEZEL} {_BEZEL} 0 1 0 .01 0Z"
    parts = [
        Shape("bezel", bezel, "paper", width=1.6),
        *_flap_limits(language, scale, markings, roomy=not inner_unit),
        *(part for arc in markings.arcs for part in _arc(language, scale, markings, arc)),
        Shape("rim", _along(FIRST, FIRST + SWEEP, _RIM), width=0.8),
        *_ticks(scale),
        *(part for one in markings.lines for part in _line(scale, one, grey)),
        *(part for one in markings.tightened for part in _tightened(scale, one)),
        *(_second_scale(scale, unit, inner_unit) if inner_unit else ()),
        *_units(unit, inner_unit),
    ]
    return Drawing(
        "dial",
        (-DIAL[0] / 2, -DIAL[1] / 2, *DIAL),
        tuple(parts),
        described(language, markings, unit),
        size=_CAPTION,
        anchor="middle",
    )


def second_unit(head: Head) -> str:
    """Return the unit of the inner scale: knots on an mph indicator, or the manual's own."""
    if head.indicator_unit == "mph":
        return "kt"
    return "" if head.units.speed == head.indicator_unit else head.units.speed


def _units(unit: str, inner_unit: str) -> Iterator[Words]:
    if inner_unit:
        yield Words("unit", unit, 0.0, -96.0, 22.0, 700)
        yield Words("unit inner", inner_unit, 0.0, 5.0, 15.0)
    else:
        yield Words("unit", unit, 0.0, 10.0, 34.0 if len(unit) < 4 else 26.0, 700)


def _angle(scale: Scale, speed: float) -> float:
    """Return degrees clockwise from the top."""
    return FIRST + SWEEP * scale.part(speed)


def _ticks(scale: Scale) -> Iterator[Part]:
    for rank, speeds in scale.divisions.items():
        length, width = _TICKS[rank]
        angles = [_angle(scale, speed) for speed in speeds]
        yield Shape(f"tick {rank}", _radial(angles, _RIM, _RIM + length), width=width)
    for speed in scale.divisions["major"]:
        yield _beside("number", f"{speed}", _angle(scale, speed), _NUMBERS, _NUMBER, 600)


def _beside(kind: str, text: str, angle: float, radius: float, size: float, weight: int) -> Words:
    """Return upright words that touch a circle from outside, or from inside if it is a small one.

    The nearer of their corners is as far from the circle at the sides as at
    the top.
    """
    turned = math.radians(angle)
    half = _LETTER * size * len(text) / 2
    reach = abs(math.sin(turned)) * half + abs(math.cos(turned)) * 0.36 * size
    away = reach if radius == _NUMBERS else -reach
    x, y = _point(angle, radius + away)
    return Words(kind, text, round(x, 2), round(y, 2), size, weight, drop=round(CAP * size, 2))


def _arc(language: Language, scale: Scale, markings: Markings, arc: Arc) -> Iterator[Part]:
    start, end = _angle(scale, arc.low), _angle(scale, arc.high)
    inner, outer = BANDS[arc.name]
    radius = (inner + outer) / 2
    name = language.say(f"drawing-{arc.name}")
    half = math.degrees(_LETTER * _CAPTION * len(name) / 2 / radius)  # of the band, for the label
    low, high = _widest(start, end, _crossing(scale, markings, arc.name))
    middle = (low + high) / 2
    labelled = high - low > 2 * half + 6
    yield Shape(f"arc {arc.name}", _band(start, end, inner, outer), arc.name, width=1.1)
    if arc.name == "yellow":
        stripes = _stripes(start, end, inner, outer, middle, half if labelled else 0.0)
        yield Shape("stripes yellow", stripes, width=2.8)
    if labelled:
        turn = middle - 180 if 90 < middle < 270 else middle
        x, y = (round(at, 2) for at in _point(middle, radius))
        ink = "on-green" if arc.name == "green" else "ink"
        yield Words(
            f"band {arc.name}", name, x, y, _CAPTION, 600, drop=3.0, turn=round(turn, 2), ink=ink
        )


def _crossing(scale: Scale, markings: Markings, name: str) -> list[float]:
    """Return where lines cross a band."""
    across = ["blue-line"]
    if name != "white":
        across += ["red-radial", "yellow-triangle", "mark-triangle"]
    return [_angle(scale, one.at) for one in markings.lines if one.name in across]


def _widest(start: float, end: float, crossing: Sequence[float]) -> tuple[float, float]:
    """Return the widest part of a band that no line crosses."""
    cuts = sorted([start, end, *(at for at in crossing if start < at < end)])
    return max(itertools.pairwise(cuts), key=lambda part: part[1] - part[0])


def _stripes(
    start: float, end: float, inner: float, outer: float, middle: float, half: float
) -> str:
    """Return slanting strokes across a band, clear of its label."""
    count = max(1, int((end - start - _SLANT) / _STRIPE))
    gap = (end - start - _SLANT) / count
    feet = [start + n * gap for n in range(count + 1)]
    if half:
        feet = [foot for foot in feet if not middle - half - _SLANT < foot < middle + half]
    return "".join(line([_point(foot, inner), _point(foot + _SLANT, outer)]) for foot in feet)


def _line(scale: Scale, one: Radial, grey: bool) -> Iterator[Part]:
    angle = _angle(scale, one.at)
    kind = f"line {one.name}"
    if one.name in ("yellow-triangle", "mark-triangle"):
        corners = (_turned(x, y, angle) for x, y in _TRIANGLE)
        fill = "yellow" if one.name == "yellow-triangle" else "paper"
        yield Shape(kind, polygon(*corners), fill, width=1.4)
    elif one.name == "mark-line":
        yield Shape(kind, _radial([angle], *_MARK), width=2.6)
    elif one.name == "blue-line":
        if grey:
            yield Shape("clear", _radial([angle], 74.0, 90.0), stroke="paper", width=10.0)
        path = "".join(_radial([angle], *ends) for ends in _BROKEN)
        yield Shape(kind, path, stroke="blue", width=5.0)
    else:
        ends = _LONG if one.name == "red-line" else _SHORT
        yield Shape(kind, _radial([angle], *ends), stroke="red", width=5.5)
    if is_symbol(one.speed):
        yield _beside("name", one.speed, angle, _NAMES, _CAPTION, 700)


def _tightened(scale: Scale, one: Radial) -> Iterator[Part]:
    """Return the tick of a limit that is nearer than the paint: black, clear of what it crosses."""
    path = _radial([_angle(scale, one.at)], *(_TIGHT_FLAPS if one.speed == "VFE" else _TIGHT))
    yield Shape("clear", path, stroke="paper", width=6.0)
    yield Shape("line tightened", path, width=2.6)


def _flap_limits(
    language: Language, scale: Scale, markings: Markings, roomy: bool
) -> Iterator[Part]:
    """Return the narrower bands beyond the white arc, each with its setting at the end."""
    if not markings.flaps:
        return
    before = _angle(scale, arc_of(markings, "white").high)
    for limit in markings.flaps:
        angle = _angle(scale, limit.at)
        yield Shape("flaps", _band(before, angle, *_NARROW), "white", width=0.9)
        yield Shape("flaps end", _radial([angle], *BANDS["white"]), width=2.2)
        said = limit.flaps
        if roomy and len(markings.flaps) == 1 and len(said) <= _FEW:
            said = language.say("drawing-flaps", flaps=limit.flaps)
        yield _beside("name", said, angle, _NAMES, _CAPTION, 600)
        before = angle


def _second_scale(scale: Scale, unit: str, inner_unit: str) -> Iterator[Part]:
    """Return the second unit's scale; every second tick has a number."""
    first, last = (
        float(convert(float(speed), unit, inner_unit)) for speed in (scale.first, scale.last)
    )
    step = scale.step if last - first <= 7 * scale.step else 2 * scale.step
    half = step // 2
    ranks: dict[str, dict[int, float]] = {"major": {}, "minor": {}}
    for speed in range(half * math.ceil(first / half), math.floor(last) + 1, half):
        at = _angle(scale, float(convert(float(speed), inner_unit, unit)))
        ranks["minor" if speed % step else "major"][speed] = at
    for rank, angles in ranks.items():
        length, width = _SECOND_TICKS[rank]
        path = _radial(list(angles.values()), _SECOND_RIM, _SECOND_RIM + length)
        yield Shape(f"tick inner {rank}", path, width=width)
    for speed, angle in ranks["major"].items():
        yield _beside("number inner", f"{speed}", angle, _INNER, _CAPTION, 400)


def _band(start: float, end: float, inner: float, outer: float) -> str:
    back = _along(end, start, inner).replace("M", "L", 1)
    return f"{_along(start, end, outer)}{back}Z"


def _along(start: float, end: float, radius: float) -> str:
    """Return a path along a circle, clockwise if it ends beyond its start."""
    large, way = int(abs(end - start) > 180), int(end > start)
    (a, b), (c, d) = _point(start, radius), _point(end, radius)
    return f"{line([(a, b)])}A{radius:g} {radius:g} 0 {large} {way} {pair(c, d)}"


def _radial(angles: Sequence[float], inner: float, outer: float) -> str:
    return "".join(line([_point(angle, inner), _point(angle, outer)]) for angle in angles)


def _point(angle: float, radius: float) -> tuple[float, float]:
    return _turned(0.0, -radius, angle)


def _turned(x: float, y: float, angle: float) -> tuple[float, float]:
    """Return a point turned clockwise about the middle."""
    turned = math.radians(angle)
    cosine, sine = math.cos(turned), math.sin(turned)
    return x * cosine - y * sine, x * sine + y * cosine
