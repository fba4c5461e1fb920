"""True airspeed over altitude, three temperatures to each indication."""

from collections.abc import Iterable, Iterator, Sequence

from cardgen.document.record import Document, Message, Quantity, TasLine, Unit
from cardgen.document.rounding import kept
from cardgen.layout.shapes import TRUE_AIRSPEED
from cardgen.render.axes import TYPE, Axis, axis, drawn_axes, polyline
from cardgen.render.markings import listed
from cardgen.render.shapes import Drawing, Part, Shape, Words, polygon, short
from cardgen.words.language import Language
from cardgen.words.numbers import number

WIDTH, HEIGHT = TRUE_AIRSPEED
_LEFT, _RIGHT, _TOP, _BOTTOM, _FOOT = 46.0, 346.0, 22.0, 182.0, 209.0
_APART = 26.0  # from one indication's lines to the next; those between are not drawn
_DASHES = ("6 3", "", "1.8 2.4")  # colder than the standard atmosphere, standard, warmer
_SAMPLE, _SAMPLES_APART, _SAMPLES_AT = 22.0, 100.0, 9.0
_LABEL = (22.0, 13.0, 19.0, 8.5)  # width and height of its box, how far that and its foot are up


def draw_tas(language: Language, document: Document) -> Drawing | None:
    """Return the lines of an aircraft, or None where the school gives no reference speeds.

    A line ends at the altitude above which its speed would be past the limit.
    """
    lines, head = document.basis.tas, document.head
    standard = [one for one in lines if one.deviation == 0]
    axes = axes_of(document)
    if axes is None:
        return None
    x, y = axes
    unit, altitude = Unit(head.indicator_unit), Unit(head.units.altitude)
    titles = (
        language.say("drawing-tas", unit=unit),
        language.say("drawing-altitude", unit=altitude),
    )
    drawn = _apart(x, [one for one in standard if len(one.tas) > 1])
    parts = [*drawn_axes(x, y, titles, _FOOT)]
    shown = {one.shown for one in drawn}
    for deviation in sorted({one.deviation for one in lines}):
        alike = [one for one in lines if one.deviation == deviation and one.shown in shown]
        paths = [polyline(x, y, _sparse(one)) for one in alike if len(one.tas) > 1]
        parts.append(Shape("fan", "".join(paths), width=1.5, dash=_dash(deviation)))
    foot = y.at(document.basis.levels[0])
    starts = {number(_whole(one.shown)): x.at(one.tas[0]) for one in drawn}
    parts.append(
        Shape("clear", "".join(_box(at, foot) for at in starts.values()), "paper", width=0.0)
    )
    parts += [
        Words("indicated", said, at, round(foot - _LABEL[3], 2), TYPE, 700, "middle")
        for said, at in starts.items()
    ]
    parts += _samples(language, sorted({one.deviation for one in lines}), head.units.temperature)
    said = [Message("drawing-tas-described", {"unit": unit})]
    said += [_spoken(one, head.units.altitude) for one in standard if one.tas]
    return Drawing("chart tas", (0.0, 0.0, WIDTH, HEIGHT), tuple(parts), listed(language, said))


def axes_of(document: Document) -> tuple[Axis, Axis] | None:
    """Return where the chart has a TAS and an altitude; None where there is none."""
    lines, levels = document.basis.tas, document.basis.levels
    if not any(len(one.tas) > 1 for one in lines if one.deviation == 0):
        return None
    x = axis(*_ends(tas for one in lines for tas in one.tas), _LEFT, _RIGHT, 9)
    return x, axis(*_ends(levels), _BOTTOM, _TOP, 8)


def _ends(values: Iterable[float]) -> tuple[float, float]:
    known = list(values)
    return min(known), max(known)


def _apart(x: Axis, lines: Sequence[TasLine]) -> list[TasLine]:
    """Return those indications whose lines start far enough apart."""
    kept: list[TasLine] = []
    for one in lines:
        if not kept or x.at(one.tas[0]) - x.at(kept[-1].tas[0]) > _APART:
            kept.append(one)
    return kept


def _sparse(one: TasLine) -> list[tuple[float, float]]:
    """Return each third point and the last: lines bend so little that no more are seen."""
    points = list(zip(one.tas, one.altitude, strict=True))
    return [*points[:-1:3], points[-1]]


def _dash(deviation: float) -> str:
    return _DASHES[1 + (deviation > 0) - (deviation < 0)]


def _box(x: float, y: float) -> str:
    """Return paper for an indication to stand on where its lines start."""
    width, height, up, _ = _LABEL
    left, right, top = x - width / 2, x + width / 2, y - up
    return polygon((left, top), (right, top), (right, top + height), (left, top + height))


def _samples(language: Language, deviations: Sequence[float], unit: str) -> Iterator[Part]:
    """Yield how lines of each temperature are drawn."""
    for n, deviation in enumerate(deviations):
        x = _LEFT + _SAMPLES_APART * n
        path = f"M{short(x)} {short(_SAMPLES_AT)}h{short(_SAMPLE)}"
        yield Shape("sample", path, width=1.5, dash=_dash(deviation))
        name = language.say("drawing-isa")
        if deviation:
            by = Quantity(deviation, unit, entered=f"{_whole(deviation).value:+.0f}")
            name = language.say("drawing-isa-by", deviation=by)
        yield Words("name", name, x + _SAMPLE + 4, _SAMPLES_AT, TYPE, 600, "start", 4.0)


def _spoken(one: TasLine, unit: str) -> Message:
    return Message(
        "drawing-tas-line",
        {
            "shown": _whole(one.shown),
            "low": Quantity(one.tas[0]),
            "low_altitude": Quantity(one.altitude[0], unit),
            "high": Quantity(one.tas[-1]),
            "high_altitude": Quantity(one.altitude[-1], unit),
        },
    )


def _whole(value: float) -> Quantity:
    return Quantity(kept(value))
