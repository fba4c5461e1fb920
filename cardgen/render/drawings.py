"""The drawings of a card, and the markings of its key."""

from collections.abc import Iterable, Iterator
from dataclasses import fields
from itertools import groupby
from typing import TYPE_CHECKING, Any

from markupsafe import Markup, escape

from cardgen.document.once import Once, Same
from cardgen.document.record import Document, Message
from cardgen.render.calibration import draw_calibration
from cardgen.render.dial import draw_dial
from cardgen.render.ladder import draw_ladder
from cardgen.render.polar import draw_polar
from cardgen.render.shapes import LOOKS, Drawing, Part, Shape, Words
from cardgen.render.tas import draw_tas
from cardgen.words.language import Language

if TYPE_CHECKING:
    from cardgen.render.templates import Templates

_BAND = "M1 1.5h26v7h-26z"
_SWATCHES: dict[str, tuple[Shape, ...]] = {
    "white": (Shape("arc white", _BAND, "white"),),
    "green": (Shape("arc green", _BAND, "green"),),
    "yellow": (
        Shape("arc yellow", _BAND, "yellow"),
        Shape("stripes yellow", "M3 8.5l4-7M9 8.5l4-7M15 8.5l4-7M21 8.5l4-7", width=1.7),
    ),
    "red-line": (Shape("line red-line", "M1 5h26", stroke="red", width=4.5),),
    "blue-line": (Shape("line blue-line", "M1 5h7M10.5 5h7M20 5h7", stroke="blue", width=4.5),),
    "red-radial": (Shape("line red-radial", "M1 5h15", stroke="red", width=4.5),),
    "yellow-triangle": (Shape("line yellow-triangle", "M8 1h12l-6 8z", "yellow"),),
    "mark-line": (Shape("line mark-line", "M14 0.5v9", width=2.6),),
    "mark-triangle": (Shape("line mark-triangle", "M8 1h12l-6 8z", "paper"),),
    "tightened": (Shape("line tightened", "M14 0.5v9", width=2.6),),
    "flap-limit": (
        Shape("flaps", "M1 3.5h22v3h-22z", "white", width=0.9),
        Shape("flaps end", "M24 0.5v9", width=2.0),
    ),
}


def drawings(
    templates: "Templates", document: Document, grey: bool = False, alone: bool = False
) -> dict[str, Markup]:
    """Return the drawings of an aircraft as SVG.

    Parameters
    ----------
    templates : Templates
    document : Document
    grey : bool
        Whether to draw in black only.
    alone : bool
        Whether a drawing's title says all, as in a PDF, which knows nothing but titles.

    Returns
    -------
    dict of str to Markup
        ``dial``, ``ladder``, ``calibration``, ``true-airspeed`` and ``polar``, those that
        there is something to draw for.
    """
    registration = document.head.registration
    return {
        name: drawn(
            templates,
            drawing,
            Message(f"drawing-title-{name}", {"registration": registration}),
            grey,
            alone,
        )
        for name, drawing in geometry(templates.language, document, grey).items()
    }


def geometry(language: Language, document: Document, grey: bool = False) -> dict[str, Drawing]:
    """Return the drawings of an aircraft before they are put on paper."""
    of_what = Same(language), document.head.indicator_unit, document.head.units, grey
    return _geometries.of(document.basis, lambda: _geometry(language, document, grey), *of_what)


_geometries = Once[dict[str, Drawing]]()


def _geometry(language: Language, document: Document, grey: bool) -> dict[str, Drawing]:
    markings, head = document.basis.markings, document.head
    made: dict[str, Drawing | None] = {
        "calibration": draw_calibration(language, document),
        "true-airspeed": draw_tas(language, document),
        "polar": draw_polar(language, document),
    }
    if markings is not None and (markings.arcs or markings.lines):
        made["dial"] = draw_dial(language, markings, head, grey)
        made["ladder"] = draw_ladder(language, markings, head, grey)
    return {name: drawing for name, drawing in made.items() if drawing is not None}


def drawn(
    templates: "Templates",
    drawing: Drawing,
    title: Message,
    grey: bool = False,
    alone: bool = False,
) -> Markup:
    """Return a drawing as SVG."""
    said = templates.language.say(title)
    if alone:
        both = Message("drawing-titled", {"title": said, "description": drawing.description})
        said = templates.language.say(both)
    return _svg(templates, drawing, said, grey)


def swatch(templates: "Templates", name: str, grey: bool = False, alone: bool = False) -> Markup:
    """Return a marking of a key, by its name; one that stands alone says what it looks like."""
    drawing = Drawing("swatch", (0.0, 0.0, 28.0, 10.0), _SWATCHES[name])
    title = templates.language.say(f"swatch-{name}") if alone else ""
    return Markup("").join(_svg(templates, drawing, title, grey).splitlines())  # within a line


def _svg(templates: "Templates", drawing: Drawing, title: str, grey: bool) -> Markup:
    """Return a drawing as SVG, of which sisters have all but the title from one another."""
    if not templates.alike:
        return _rendered(templates, drawing, title, grey)
    untitled = templates.drawn.of(
        drawing,
        lambda: _rendered(templates, drawing, _TITLE if title else "", grey),
        *(grey, bool(title)),
    )
    return Markup(untitled.replace(_TITLE, escape(title)))


_TITLE = "\0"  # stands for a title, which cannot have it


def _rendered(templates: "Templates", drawing: Drawing, title: str, grey: bool) -> Markup:
    return Markup(
        templates.render(
            "drawing.svg",
            title=title,
            grey=grey,
            description=drawing.description,
            kind=drawing.kind,
            box=[_short(side) for side in drawing.box],
            size=_short(drawing.size),
            anchor=drawing.anchor,
            groups=[
                (_plain(alike[0]), [_plain(one) for one in alike])
                for alike in _groups(drawing.parts)
            ],
        ).strip()
    )


def _groups(parts: Iterable[Part]) -> Iterator[list[Part]]:
    """Yield neighbours that are drawn alike together."""
    for _, alike in groupby(parts, key=_looks):
        yield list(alike)


def _plain(part: Part) -> dict[str, Any]:
    """Return a part as words, with lengths to a hundredth."""
    values = {field.name: getattr(part, field.name) for field in fields(part)}
    plain = {
        name: _short(value) if isinstance(value, float) else value for name, value in values.items()
    }
    if isinstance(part, Words):
        plain["foot"] = _short(part.y + part.drop)
    return plain


def _short(value: float) -> str:
    return f"{round(value, 2):g}"


def _looks(part: Part) -> tuple[Any, ...]:
    return tuple(getattr(part, name) for name in LOOKS[type(part)])
