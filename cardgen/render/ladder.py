"""The indicator's markings along a straight scale, for narrow places. Patterns as on the dial."""

import itertools
from collections.abc import Iterator

from cardgen.document.record import Arc, FlapLimit, Head, Markings, Radial
from cardgen.layout.shapes import LADDER
from cardgen.render.markings import Scale, arc_of, described, is_symbol, scale_for
from cardgen.render.shapes import Drawing, Part, Shape, Words, line, polygon, short
from cardgen.words.language import Language

WIDTH, HEIGHT = LADDER
ENDS = _TOP, _BOTTOM = 26.0, 632.0  # of the scale; the unit stands above it
_RIM, _NUMBERS, _LEAD, _NAMES = 37.5, 28.0, 79.0, 80.5  # from the left
BANDS = {"green": (39.0, 56.0), "yellow": (39.0, 56.0), "white": (58.0, 75.0)}
_NARROW = (64.0, 69.0)  # the white band beyond full flaps
_LONG, _SHORT, _FLAPS = (30.0, 76.0), (30.0, 57.0), (58.0, 76.0)
_MARK = (25.0, 37.5)  # a line that the manual names, outside of the bands
_TIGHT, _TIGHT_FLAPS = (30.0, 57.0), (57.0, 76.0)
_BROKEN = ((30.0, 42.0), (46.5, 58.5), (63.0, 76.0))
_TICKS = {"major": (7.0, 2.4), "middle": (5.0, 1.4), "minor": (3.0, 0.9)}  # lengths and widths
_NUMBER, _CAPTION, _APART = 16.0, 13.6, 14.0  # sizes of type, and how far apart names stand
_LETTER = 0.57  # width of bold letters, to the size of type
_DOWN = (87.0, 102.0)  # the middles of the columns of names that are read downwards
_STRIPE, _SLANT = 9.0, 11.0


def draw_ladder(language: Language, markings: Markings, head: Head, grey: bool = False) -> Drawing:
    """Return the ladder of an aircraft, to its own scale."""
    scale = scale_for(markings)
    parts = [
        Words("unit", head.indicator_unit, 0.0, 12.0, 17.0, 700, "start"),
        *_flap_bands(scale, markings),
        *(part for arc in markings.arcs for part in _band(language, scale, markings, arc)),
        Shape("rim", f"M{_RIM} {_TOP:g}V{_BOTTOM:g}"),
        *_ticks(scale),
        *_marks(scale, markings, grey),
        *(part for one in markings.tightened for part in _tightened(scale, one)),
    ]
    said = described(language, markings, head.indicator_unit)
    return Drawing("ladder", (0.0, 0.0, WIDTH, HEIGHT), tuple(parts), said, size=_CAPTION)


def _y(scale: Scale, speed: float) -> float:
    return round(_BOTTOM - (_BOTTOM - _TOP) * scale.part(speed), 2)


def _ticks(scale: Scale) -> Iterator[Part]:
    for rank, speeds in scale.divisions.items():
        length, width = _TICKS[rank]
        ticks = (f"M{_RIM} {short(_y(scale, speed))}h{-length:g}" for speed in speeds)
        yield Shape(f"tick {rank}", "".join(ticks), width=width)
    for speed in scale.divisions["major"]:
        y = _y(scale, speed)
        yield Words("number", f"{speed}", _NUMBERS, y, _NUMBER, 600, "end", drop=5.6)


def _band(language: Language, scale: Scale, markings: Markings, arc: Arc) -> Iterator[Part]:
    left, right = BANDS[arc.name]
    bottom, top = _y(scale, arc.low), _y(scale, arc.high)
    name = language.say(f"drawing-{arc.name}")
    half = _CAPTION * 0.54 * len(name) / 2
    crossing = [_y(scale, one.at) for one in markings.lines if one.name != "red-line"]
    cuts = sorted([top, bottom, *(y for y in crossing if top < y < bottom)])
    low, high = max(itertools.pairwise(cuts), key=lambda part: part[1] - part[0])
    middle = round((low + high) / 2, 2) if high - low > 2 * half + 10 else None
    yield Shape(f"arc {arc.name}", _box(left, right, top, bottom), arc.name, width=1.2)
    if arc.name == "yellow":
        clear = (middle - half - 3, middle + half + 3) if middle is not None else None
        yield Shape("stripes yellow", _stripes(left, right, top, bottom, clear), width=3.4)
    if middle is not None:
        ink = "on-green" if arc.name == "green" else "ink"
        x = (left + right) / 2
        yield Words(
            f"band {arc.name}", name, x, middle, _CAPTION, 600, "middle", 4.0, turn=-90.0, ink=ink
        )


def _stripes(
    left: float, right: float, top: float, bottom: float, clear: tuple[float, float] | None
) -> str:
    count = max(1, int((bottom - top - _SLANT) / _STRIPE))
    gap = (bottom - top - _SLANT) / count
    feet = [bottom - n * gap for n in range(count + 1)]
    if clear is not None:
        feet = [y for y in feet if y < clear[0] or y - _SLANT > clear[1]]
    return "".join(line([(left, y), (right, y - _SLANT)]) for y in feet)


def _flap_bands(scale: Scale, markings: Markings) -> Iterator[Part]:
    before = _y(scale, arc_of(markings, "white").high) if markings.flaps else 0.0
    for limit in markings.flaps:
        y = _y(scale, limit.at)
        yield Shape("flaps", _box(*_NARROW, y, before), "white", width=1.2)
        before = y


def _box(left: float, right: float, top: float, bottom: float) -> str:
    return polygon((left, top), (right, top), (right, bottom), (left, bottom))


def _marks(scale: Scale, markings: Markings, grey: bool) -> Iterator[Part]:
    """Return lines and flap limits from the top down, their names kept apart.

    A setting that is too long to stand beside its mark, such as TAKE-OFF, is read downwards in one
    of two columns.
    """
    free = [_TOP - _APART / 2] * len(_DOWN)  # from where each column has room
    marks: list[Radial | FlapLimit] = [*markings.lines, *markings.flaps]
    for one in sorted(marks, key=lambda mark: -mark.at):
        y = _y(scale, one.at)
        yield from _mark(one, y, grey)
        name = one.flaps if isinstance(one, FlapLimit) else one.speed
        if isinstance(one, FlapLimit) or is_symbol(name):
            start = _FLAPS[0] if isinstance(one, Radial) and one.name == "red-radial" else _LONG[1]
            long = _LETTER * _CAPTION * len(name)
            if long <= WIDTH - _NAMES:
                at = max(y, max(free) + _APART / 2)
                free = [at + _APART / 2] * len(free)
                yield Shape("lead", line([(start, y), (_LEAD, at)]), width=0.8)
                yield Words("name", name, _NAMES, at, _CAPTION, 700, drop=4.7, anchor="start")
            else:
                column = free.index(min(free))
                top = max(y - _APART / 2, free[column])
                free[column] = top + long + _APART / 2
                x = _DOWN[column]
                yield Shape("lead", line([(start, y), (x - _APART / 2, top + 2)]), width=0.8)
                yield Words("name down", name, x, top, _CAPTION, 700, "start", drop=4.7, turn=90)


def _mark(one: Radial | FlapLimit, y: float, grey: bool) -> Iterator[Part]:
    if isinstance(one, FlapLimit):
        yield Shape("flaps end", _across(y, _FLAPS), width=2.6)
        return
    kind = f"line {one.name}"
    if one.name in ("yellow-triangle", "mark-triangle"):
        fill = "yellow" if one.name == "yellow-triangle" else "paper"
        yield Shape(kind, polygon((28.0, y - 8), (28.0, y + 8), (45.0, y)), fill, width=1.5)
    elif one.name == "mark-line":
        yield Shape(kind, _across(y, _MARK), width=2.6)
    elif one.name == "blue-line":
        if grey:
            yield Shape("clear", _across(y, _SHORT), stroke="paper", width=10.0)
        path = "".join(_across(y, ends) for ends in _BROKEN)
        yield Shape(kind, path, stroke="blue", width=6.0)
    else:
        ends = _LONG if one.name == "red-line" else _SHORT
        yield Shape(kind, _across(y, ends), stroke="red", width=6.5)


def _tightened(scale: Scale, one: Radial) -> Iterator[Part]:
    path = _across(_y(scale, one.at), _TIGHT_FLAPS if one.speed == "VFE" else _TIGHT)
    yield Shape("clear", path, stroke="paper", width=7.0)
    yield Shape("line tightened", path, width=3.0)


def _across(y: float, ends: tuple[float, float]) -> str:
    return f"M{ends[0]:g} {short(y)}H{ends[1]:g}"
