"""What to add to the indication to have CAS, drawn over the indication.

Lines differ in their dashes, the alternate static source in its open points.
"""

from collections.abc import Iterator, Sequence

from cardgen.document.record import Document, ErrorCurve, Message, Quantity, Unit
from cardgen.layout.shapes import CALIBRATION
from cardgen.render.axes import DASHES, TYPE, Axis, axis, drawn_axes, polyline
from cardgen.render.markings import listed
from cardgen.render.shapes import Drawing, Part, Shape, Words, pair, short
from cardgen.words.language import Language
from cardgen.words.numbers import number

WIDTH, HEIGHT = CALIBRATION
_LEFT, _RIGHT, _TOP, _BOTTOM, _FOOT = 34.0, 346.0, 8.0, 160.0, 187.0
_LETTER, _SAMPLE, _ROW = 6.1, 24.0, 15.0  # of the names above the chart
_FIRST_ROW, _AFTER_SAMPLE = 10.0, 4.0


def draw_calibration(language: Language, document: Document) -> Drawing | None:
    """Return the calibration curves of an aircraft, all in its indicator's unit.

    None where the indicator's bench card reaches none of the manual's tables.
    """
    curves, names = _named(language, document)
    if not curves:
        return None
    places, rows = _places(names)
    x, y = _axes(curves, rows)
    unit = Unit(document.head.indicator_unit)
    titles = (
        language.say("drawing-ias", unit=unit),
        language.say("drawing-cas-less-ias", unit=unit),
    )
    zero = y.at(0.0)
    parts = [
        *drawn_axes(x, y, titles, _FOOT),
        Shape("no-error", f"M{short(x.start)} {short(zero)}H{short(x.end)}", width=2.2),
        Words(
            "no-error", language.say("drawing-no-error"), x.end - 3, zero - 4, 11.5, anchor="end"
        ),
    ]
    for n, (curve, place) in enumerate(zip(curves, places, strict=True)):
        parts += _curve(x, y, curve, DASHES[n % len(DASHES)], place)
    for name, (left, top) in zip(names, places, strict=True):
        after = round(left + _SAMPLE + _AFTER_SAMPLE, 2)
        parts.append(Words("name", name, after, top, TYPE, 600, "start", 4.0))
    said = [Message("drawing-errors", {"unit": unit}), *map(_spoken, names, curves)]
    return Drawing(
        "chart calibration", (0.0, 0.0, WIDTH, HEIGHT), tuple(parts), listed(language, said)
    )


def axes_of(language: Language, document: Document) -> tuple[Axis, Axis] | None:
    """Return where the chart has an indication and its error; None where there is none."""
    curves, names = _named(language, document)
    return _axes(curves, _places(names)[1]) if curves else None


def _named(language: Language, document: Document) -> tuple[list[ErrorCurve], list[str]]:
    curves = [curve for curve in document.basis.errors if len(curve.shown) > 1]
    return curves, [_name(language, curve, document.basis.flaps) for curve in curves]


def _axes(curves: Sequence[ErrorCurve], rows: int) -> tuple[Axis, Axis]:
    across = [at for curve in curves for at in curve.shown]
    up = [-0.5, 0.5, *(at for curve in curves for at in curve.error)]
    x = axis(min(across), max(across), _LEFT, _RIGHT, 9)
    return x, axis(min(up), max(up), _BOTTOM, _TOP + _ROW * rows, 7)


def _curve(
    x: Axis, y: Axis, curve: ErrorCurve, dash: str, place: tuple[float, float]
) -> Iterator[Part]:
    """Yield a line and its points, and a sample of both before its name."""
    left, top = place
    points = list(zip(curve.shown, curve.error, strict=True))
    path = f"{polyline(x, y, points)}M{short(left)} {short(top)}h{short(_SAMPLE)}"
    dots = [(x.at(a), y.at(b)) for a, b in points] + [(left + _SAMPLE / 2, top)]
    dotted = "".join(f"M{pair(a, b)}h0" for a, b in dots)
    yield Shape("curve", path, width=1.4, dash=dash)
    yield Shape("dots", dotted, width=5.8, round=True)
    if curve.static_source == "alternate":
        yield Shape("dots hollow", dotted, stroke="paper", width=3.0, round=True)


def _name(language: Language, curve: ErrorCurve, flaps: tuple[str, ...]) -> str:
    setting = curve.flaps or flaps[0]
    name = Message("drawing-no-flaps")
    if len(flaps) > 1:
        name = Message("drawing-flaps", {"flaps": setting})
    if curve.gear:
        name = Message(f"drawing-gear-{curve.gear}", {"name": name})
    if curve.static_source != "alternate":
        return language.say(name)
    if setting == flaps[0] and not curve.gear:
        return language.say("drawing-alternate")
    return language.say("drawing-alternate-flaps", flaps=name)


def _places(names: Sequence[str]) -> tuple[list[tuple[float, float]], int]:
    """Set names in rows above the chart; return where each begins, and how many rows."""
    places, x, row = [], _LEFT, 0
    for name in names:
        width = _SAMPLE + _AFTER_SAMPLE + _LETTER * len(name) + 8
        if x + width > WIDTH and x > _LEFT:
            x, row = _LEFT, row + 1
        places.append((round(x, 2), _FIRST_ROW + _ROW * row))
        x += width
    return places, row + 1


def _spoken(name: str, curve: ErrorCurve) -> Message:
    ends = ("first", 0), ("last", -1)
    errors = {end: _signed(curve.error[at]) for end, at in ends}
    speeds = {f"{end}-speed".replace("-", "_"): Quantity(curve.shown[at]) for end, at in ends}
    return Message("drawing-curve", {"name": name, **errors, **speeds})


def _signed(error: float) -> str:
    """Return an error to a tenth, with its sign; a tenth's half and less is none."""
    said = number(Quantity(error, decimals=1))
    if not said.strip("−0."):
        return "0"
    return said if error < 0 else f"+{said}"
