"""The polar of a glider: sink over true airspeed, and the tangent of the best glide.

The tangent starts where nothing is flown and nothing sinks, so both axes do.
"""

from collections.abc import Iterator

from cardgen.document.record import Document, Message, PolarCurve, Quantity, Unit
from cardgen.layout.shapes import POLAR
from cardgen.render.axes import TYPE, Axis, axis, drawn_axes, polyline
from cardgen.render.markings import listed
from cardgen.render.shapes import Drawing, Part, Shape, Words, pair
from cardgen.words.language import Language

WIDTH, HEIGHT = POLAR
_LEFT, _RIGHT, _TOP, _BOTTOM, _FOOT = 34.0, 346.0, 12.0, 190.0, 217.0
_BELOW = 19.0  # a point, stands its name
_IN = 7.0  # the corner, stands what it holds for
_PAST = 1.45  # how far the tangent is drawn, to where it touches


def draw_polar(language: Language, document: Document) -> Drawing | None:
    """Return the first of the manual's polars, or None where it has none."""
    head = document.head
    if not document.basis.polars:
        return None
    curve = document.basis.polars[0]
    x = axis(0.0, curve.tas[-1], _LEFT, _RIGHT, 9)
    deep = axis(0.0, max(curve.sink), _TOP, _BOTTOM, 7)
    y = Axis(deep.last, deep.first, -deep.step, deep.end, deep.start)  # numbers at the foot
    unit, sink = Unit(head.indicator_unit), Unit(head.units.sink)
    titles = (language.say("drawing-tas", unit=unit), language.say("drawing-sink", unit=sink))
    said = [
        Message("drawing-polar-described", {"unit": sink}),
        _spoken(curve, head.indicator_unit, head.units.sink),
    ]
    parts = [*drawn_axes(x, y, titles, _FOOT), *_curve(x, y, curve), *_named(language, x, y, curve)]
    if curve.name is not None:
        what = language.say(curve.name)
        parts.append(Words("what", what, _LEFT + _IN, _BOTTOM - _IN, TYPE, 600, "start"))
    return Drawing("chart polar", (0.0, 0.0, WIDTH, HEIGHT), tuple(parts), listed(language, said))


def _curve(x: Axis, y: Axis, curve: PolarCurve) -> Iterator[Part]:
    """Yield a polar with its points, and its tangent."""
    points = list(zip(curve.tas, curve.sink, strict=True))
    speed, sink = points[curve.best]
    past = min(_PAST, x.last / speed)
    tangent = polyline(x, y, [(0.0, 0.0), (past * speed, past * sink)])
    yield Shape("tangent", tangent, width=1.0, dash="2.5 2.5")
    yield Shape("curve", polyline(x, y, points), width=1.6)
    dotted = "".join(f"M{pair(x.at(a), y.at(b))}h0" for a, b in points)
    yield Shape("dots", dotted, width=4.6, round=True)


def _named(language: Language, x: Axis, y: Axis, curve: PolarCurve) -> Iterator[Part]:
    """Yield the two points that matter, with the name of the one below it, of the other above."""
    least, best = ((curve.tas[at], curve.sink[at]) for at in (curve.least, curve.best))
    dotted = "".join(f"M{pair(x.at(a), y.at(b))}h0" for a, b in (least, best))
    yield Shape("named", dotted, width=8.0, round=True)
    below = y.at(least[1]) + _BELOW
    yield Words(
        "name", language.say("drawing-least-sink"), x.at(least[0]), below, TYPE, 600, "middle"
    )
    above = (y.at(0.0) + y.at(best[1])) / 2
    yield Words(
        "name", language.say("drawing-best-glide"), x.at(best[0]), above, TYPE, 600, "start", 4.0
    )


def _spoken(curve: PolarCurve, unit: str, sink: str) -> Message:
    least, best = curve.least, curve.best
    values = {
        "least": Quantity(curve.sink[least], sink, decimals=2),
        "slowest": Quantity(curve.tas[least], unit),
        "best": Quantity(curve.sink[best], sink, decimals=2),
        "farthest": Quantity(curve.tas[best], unit),
    }
    return Message("drawing-polar-curve", dict(values))
