"""The drawings of the page that teaches, as they stand where the sliders do at first.

Parts of the kind ``move`` are those that `teaching.js` draws again by the same geometry.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from cardgen.document.once import Once, Same
from cardgen.document.record import Document, Message, Quantity, Unit
from cardgen.document.teaching import Lesson, Teaching
from cardgen.render.axes import TYPE, Axis, axis, drawn_axes
from cardgen.render.calibration import axes_of, draw_calibration
from cardgen.render.dial import FIRST, SWEEP, draw_dial
from cardgen.render.markings import scale_for
from cardgen.render.shapes import Drawing, Part, Shape, Words, line, polygon, short
from cardgen.words.language import Language
from cardgen.words.numbers import with_unit

Point = tuple[float, float]
Drawn = Mapping[str, tuple[float, ...]]
Ends = Sequence[Sequence[float]]  # from which values to which a drawing goes, and where these stand
BOX = (360.0, 200.0)
TRIANGLE = (260.0, 250.0)

# The instrument: middles of its face and its capsule, and what they reach.
_FACE, _RADIUS, _FROM, _SPAN = (284.0, 92.0), 40.0, -130.0, 260.0
_CAPSULE, _WIDTH, _FLAT, _SWELL = (203.0, 112.0), 36.0, 5.0, 30.0
_NEEDLE = ((-3.0, 8.0), (3.0, 8.0), (0.0, -35.0))
_DIAL_NEEDLE = ((-3.2, -46.0), (-2.4, -80.0), (0.0, -97.0), (2.4, -80.0), (3.2, -46.0))
_LEFT, _RIGHT, _TOP, _BOTTOM, _FOOT = 46.0, 346.0, 22.0, 170.0, 197.0  # of the chart of TAS
_START, _ROOM = (130.0, 236.0), 216.0  # where the wind triangle begins, and its height
_HEAD = ((0.0, 0.0), (-4.5, -10.0), (4.5, -10.0))  # of an arrow that points away from its start
_HEADS = {"air": (1, 0.62), "along": (2, 0.3), "wind": (3, 0.5)}  # how many, and where along it
_BESIDE = 52.0  # a label from the middle of its arrow


def draw_lessons(language: Language, document: Document, teaching: Teaching) -> dict[str, Drawing]:
    """Return the drawings of all lessons, by their identifiers; made once for sisters."""
    return _drawn.of(
        teaching,
        lambda: {one.id: _DRAWINGS[one.id](language, document, one) for one in teaching.lessons},
        Same(language),
    )


_drawn = Once[dict[str, Drawing]]()


def ends_of(language: Language, document: Document, lesson: Lesson) -> Ends:
    """Return from which values to which a drawing goes, and where on it these stand."""
    markings = document.basis.markings
    if lesson.id == "arcs" and markings is not None:
        scale = scale_for(markings)
        return [(scale.first, scale.last, FIRST, FIRST + SWEEP)]
    if lesson.id == "position":
        axes = axes_of(language, document)
        return [_ends(one) for one in axes or ()]
    if lesson.id == "true":
        return [_ends(one) for one in _axes(lesson)]
    if lesson.id == "wind":
        return [(0.0, lesson.most[0], 0.0, _ROOM)]
    fastest, impact = lesson.most
    return [(0.0, fastest, _FROM, _FROM + _SPAN), (0.0, impact, _FLAT, _SWELL)]


def _ends(one: Axis) -> tuple[float, ...]:
    return one.first, one.last, one.start, one.end


def moved(lesson: str, ends: Ends, drawn: Drawn, given: Mapping[str, float]) -> dict[str, str]:
    """Return the paths of the parts that move, by name; nothing for one that is not seen."""
    return _MOVED[lesson](ends, drawn, given)


def placed(lesson: str, ends: Ends, drawn: Drawn) -> dict[str, Point]:
    """Return where the labels stand that move with a drawing."""
    if lesson == "true":
        tas, altitude = drawn["at"]
        return {"tas": (_at(ends[0], tas), _at(ends[1], altitude) - 9.0)}
    if lesson != "wind":
        return {}
    tip, end = _tips(ends, drawn)
    way = -1.0 if tip[0] < _START[0] else 1.0
    middle = (tip[0] + _START[0]) / 2
    return {
        "air": (middle + way * _BESIDE, (tip[1] + _START[1]) / 2 + 12.0),
        "along": (_START[0] - way * _BESIDE, (end[1] + _START[1]) / 2),
        "wind": ((tip[0] + end[0]) / 2 + way * 28.0, (tip[1] + end[1]) / 2 - 8.0),
    }


# -- what moves ----------------------------------------------------------------------------------


def _at(ends: Sequence[float], value: float) -> float:
    first, last, start, end = ends
    return start + (value - first) / (last - first) * (end - start)


def _turned(points: Sequence[Point], degrees: float, about: Point = (0.0, 0.0)) -> list[Point]:
    """Return points turned clockwise, and moved to where their middle is to be."""
    turned = math.radians(degrees)
    cosine, sine = math.cos(turned), math.sin(turned)
    return [(about[0] + x * cosine - y * sine, about[1] + x * sine + y * cosine) for x, y in points]


def _moved_instrument(ends: Ends, drawn: Drawn, given: Mapping[str, float]) -> dict[str, str]:
    (shown,), (impact,) = drawn["shown"], drawn["impact"]
    x, y = _CAPSULE
    high = _at(ends[1], impact)
    needle = polygon(*_turned(_NEEDLE, _at(ends[0], shown), _FACE))
    left, right = short(x - _WIDTH), short(x + _WIDTH)
    round_ = f"{short(_WIDTH)} {short(high)} 0 0 1"
    return {
        "capsule": f"M{left} {short(y)}A{round_} {right} {short(y)}A{round_} {left} {short(y)}Z",
        "rod": line([(x, y - high), (x, _FACE[1]), _FACE]),
        "needle": needle,
    }


def _moved_arcs(ends: Ends, drawn: Drawn, given: Mapping[str, float]) -> dict[str, str]:
    (shown,) = drawn["at"]
    return {"needle": polygon(*_turned(_DIAL_NEEDLE, _at(ends[0], shown)))}


def _moved_position(ends: Ends, drawn: Drawn, given: Mapping[str, float]) -> dict[str, str]:
    if not drawn["at"]:
        return {"gap": "", "point": ""}
    ias, gap = drawn["at"]
    x, y, zero = _at(ends[0], ias), _at(ends[1], gap), _at(ends[1], 0.0)
    return {"gap": line([(x, zero), (x, y)]), "point": f"M{short(x)} {short(y)}h0"}


def _moved_true(ends: Ends, drawn: Drawn, given: Mapping[str, float]) -> dict[str, str]:
    across, up = ends
    tas, altitude = drawn["at"]
    x, y = _at(across, tas), _at(up, altitude)
    return {
        "curve": _curve(ends, drawn["curve"], given),
        "gap": line([(_at(across, drawn["cas"][0]), y), (x, y)]),
        "point": f"M{short(x)} {short(y)}h0",
    }


def _curve(ends: Ends, tas: Sequence[float], given: Mapping[str, float]) -> str:
    low, high, last = given["low"], given["high"], len(tas) - 1
    return line(
        (_at(ends[0], one), _at(ends[1], low + n * (high - low) / last))
        for n, one in enumerate(tas)
    )


def _moved_wind(ends: Ends, drawn: Drawn, given: Mapping[str, float]) -> dict[str, str]:
    tip, end = _tips(ends, drawn)
    return {
        "air": _arrow(_START, tip, *_HEADS["air"]),
        "along": _arrow(_START, end, *_HEADS["along"]),
        "wind": _arrow(tip, end, *_HEADS["wind"]),
    }


def _tips(ends: Ends, drawn: Drawn) -> tuple[Point, Point]:
    """Return where the arrows of TAS and of ground speed end."""
    across, along = drawn["air"]
    x, y = _START
    size = _at(ends[0], 1.0)
    return (x + across * size, y - along * size), (x, y - drawn["ground"][0] * size)


def _arrow(start: Point, end: Point, heads: int, middle: float) -> str:
    """Return an arrow, with so many heads at a part of it; nothing for one without length."""
    long = math.hypot(end[0] - start[0], end[1] - start[1])
    if long < 1.0:
        return ""
    degrees = math.degrees(math.atan2(end[0] - start[0], start[1] - end[1]))
    path = line([start, end])
    apart = min(8.0, long / (heads + 1))
    for n in range(heads):
        part = middle + (apart * (heads - 1) / 2 - apart * n + 5.0) / long
        at = (start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1]))
        path += polygon(*_turned([(x, -y) for x, y in _HEAD], degrees, at))
    return path


_MOVED: dict[str, Callable[[Ends, Drawn, Mapping[str, float]], dict[str, str]]] = {
    "pressure": _moved_instrument,
    "blocked": _moved_instrument,
    "arcs": _moved_arcs,
    "position": _moved_position,
    "true": _moved_true,
    "wind": _moved_wind,
}


# -- whole drawings ------------------------------------------------------------------------------


def _moving(language: Language, document: Document, lesson: Lesson, **looks: Shape) -> list[Part]:
    """Return the parts of a drawing that move, each as it looks, where they stand at first."""
    ends = ends_of(language, document, lesson)
    paths = moved(lesson.id, ends, lesson.told.drawn, lesson.given)
    return [replace(look, kind=f"move {name}", path=paths[name]) for name, look in looks.items()]


def _labels(language: Language, document: Document, lesson: Lesson) -> dict[str, str]:
    labels = lesson.told.labels
    return {name: label(language, one) for name, one in labels.items()}


def label(language: Language, one: Quantity | Message) -> str:
    """Return the words of a label."""
    return with_unit(one) if isinstance(one, Quantity) else language.say(one)


def _instrument(language: Language, document: Document, lesson: Lesson) -> Drawing:
    said = _labels(language, document, lesson)
    is_blocked = lesson.id == "blocked"
    look = Shape("", "", width=1.6)
    face = Shape("", "", "paper")
    capsule, rod, needle = _moving(
        language,
        document,
        lesson,
        capsule=replace(look, fill="white"),
        rod=replace(look, width=1.2, dash="3 2"),
        needle=replace(face, fill="ink", width=0.8),
    )
    parts: list[Part] = [
        Shape("case", "M150 12H350V188H150Z", "paper", width=2.2),
        Shape("pipe", "M60 58H150M84 150H128V112H167", width=1.6),
        Shape("skin", "M60 34V52M60 64V88", width=5.0),
        Shape("tube", "M26 144H84V156H26", width=2.2),
        Shape("flow", "M2 150h16m-5 -4l5 4l-5 4", width=1.2),
        capsule,
        rod,
        *_face(lesson),
        needle,
        Shape("pivot", f"M{_FACE[0]} {_FACE[1]}h0", width=7.0, round=True),
    ]
    if is_blocked:
        parts.append(Shape("stop", "M53 51l14 14m0 -14l-14 14", width=3.0))
    words = [
        (0.0, 24.0, language.say("teach-static"), "name"),
        (74.0, 82.0, said["static"], "move static"),
        (0.0, 176.0, language.say("teach-pitot"), "name"),
        (0.0, 192.0, said["total"], "move total"),
        (157.0, 28.0, language.say("teach-case"), "name"),
        (157.0, 43.0, said["case"], "move case"),
        (157.0, 165.0, language.say("teach-capsule"), "name"),
        (157.0, 180.0, said["total"], "move total"),
    ]
    parts += [Words(kind, text, x, y, TYPE, 600, "start") for x, y, text, kind in words]
    parts.append(Words("move shown", said["shown"], _FACE[0] + 8.0, 174.0, 17.0, 700))
    description = " ".join(language.say(one) for one in lesson.told.said)
    return Drawing(f"taught {lesson.id}", (0.0, 0.0, *BOX), tuple(parts), description)


def _face(lesson: Lesson) -> Iterator[Part]:
    """Yield the face's scale, with numbers at some of its ticks."""
    fastest = lesson.most[0]
    marks = axis(0.0, fastest, 0.0, 1.0, 6)
    values = [n * marks.step for n in range(int(fastest / marks.step) + 1)]
    ends = (0.0, fastest, _FROM, _FROM + _SPAN)
    ticks = "".join(
        line(_turned([(0.0, -_RADIUS), (0.0, -_RADIUS - 6.0)], _at(ends, one), _FACE))
        for one in values
    )
    (left,), (right,) = (
        _turned([(0.0, -_RADIUS)], degrees, _FACE) for degrees in (_FROM, _FROM + _SPAN)
    )
    circle = f"A{_RADIUS:g} {_RADIUS:g} 0 1 1 {short(right[0])} {short(right[1])}"
    yield Shape("scale", f"{line([left])}{circle}{ticks}", width=1.4)
    for one in values[::2] if len(values) > 5 else values:
        ((x, y),) = _turned([(0.0, -_RADIUS - 14.0)], _at(ends, one), _FACE)
        yield Words("number", f"{one:g}", round(x, 1), round(y, 1), 11.0, drop=4.0)


def _dial(language: Language, document: Document, lesson: Lesson) -> Drawing:
    markings = document.basis.markings
    assert markings is not None
    dial = draw_dial(language, markings, document.head)
    needle = _moving(language, document, lesson, needle=Shape("", "", "ink", width=1.0))
    return replace(dial, parts=(*dial.parts, *needle))


def _calibration(language: Language, document: Document, lesson: Lesson) -> Drawing:
    chart = draw_calibration(language, document)
    assert chart is not None
    return replace(chart, parts=(*chart.parts, *_gap(language, document, lesson)))


def _gap(language: Language, document: Document, lesson: Lesson) -> list[Part]:
    """Return what a figure differs by, and the point where it stands."""
    return _moving(
        language,
        document,
        lesson,
        gap=Shape("", "", width=3.4),
        point=Shape("", "", width=11.0, round=True),
    )


def _axes(lesson: Lesson) -> tuple[Axis, Axis]:
    low, high = lesson.most
    across = axis(low, high, _LEFT, _RIGHT, 8)
    return across, axis(lesson.given["low"], lesson.given["high"], _BOTTOM, _TOP, 7)


def _tas(language: Language, document: Document, lesson: Lesson) -> Drawing:
    head = document.head
    x, y = _axes(lesson)
    cas = x.at(lesson.told.drawn["cas"][0])
    ends = ends_of(language, document, lesson)
    titles = (
        language.say("teach-tas-axis", unit=Unit(head.indicator_unit)),
        language.say("teach-altitude-axis", unit=Unit(head.units.altitude)),
    )
    last = x.at(lesson.still[-1])
    parts: list[Part] = [
        *drawn_axes(x, y, titles, _FOOT),
        Shape("cas", f"M{short(cas)} {_BOTTOM}V{_TOP}", width=1.6, dash="7 4"),
        Shape("isa", _curve(ends, lesson.still, lesson.given), width=1.2, dash="2 3"),
        Words("name", language.say("term-CAS"), cas, _TOP - 7, TYPE, 600, "middle"),
        Words("name", language.say("drawing-isa"), last, _TOP - 7, TYPE, 600, "middle"),
        *_moving(language, document, lesson, curve=Shape("", "", width=2.6)),
        *_gap(language, document, lesson),
    ]
    parts += _placed_labels(language, document, lesson, "end", 15.0)
    description = " ".join(language.say(one) for one in lesson.told.said)
    return Drawing("chart taught true", (0.0, 0.0, *BOX), tuple(parts), description)


def _triangle(language: Language, document: Document, lesson: Lesson) -> Drawing:
    look = Shape("", "", "ink", width=1.8)
    parts: list[Part] = [
        Shape("course", f"M{_START[0]} {_START[1]}V8", stroke="rule", width=1.2, dash="5 4"),
        *_moving(
            language,
            document,
            lesson,
            along=replace(look, width=1.8, dash="9 3"),
            air=replace(look, width=2.8),
            wind=look,
        ),
        *_placed_labels(language, document, lesson, "middle", 13.0),
    ]
    description = " ".join(language.say(one) for one in lesson.told.said)
    return Drawing("taught wind", (0.0, 0.0, *TRIANGLE), tuple(parts), description)


def _placed_labels(
    language: Language, document: Document, lesson: Lesson, anchor: str, size: float
) -> Iterator[Words]:
    said = _labels(language, document, lesson)
    ends = ends_of(language, document, lesson)
    for name, (x, y) in placed(lesson.id, ends, lesson.told.drawn).items():
        at = round(x, 1), round(y, 1)
        yield Words(f"move at-{name}", said[name], *at, size, 700, anchor)


_DRAWINGS: dict[str, Callable[[Language, Document, Lesson], Drawing]] = {
    "pressure": _instrument,
    "blocked": _instrument,
    "arcs": _dial,
    "position": _calibration,
    "true": _tas,
    "wind": _triangle,
}
