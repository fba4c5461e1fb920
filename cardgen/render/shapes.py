"""What drawings are made of; ``templates/drawing.svg`` draws it.

Bands differ in pattern and carry their names, so that colour says nothing alone.
"""

from collections.abc import Iterable
from dataclasses import dataclass

ANCHORS = ("start", "middle", "end")
CAP = 0.35  # of a size of type: from the middle of a capital or a digit down to its foot


@dataclass(frozen=True)
class Shape:
    """A path.

    Attributes
    ----------
    kind : str
        Its classes, by which a stylesheet knows it.
    path : str
    fill, stroke : str
        Names of inks.
    width : float
        Of the stroke; 0 for none.
    dash : str
    round : bool
        Whether strokes have round ends, so that one without length is a dot.
    """

    kind: str
    path: str
    fill: str = "none"
    stroke: str = "ink"
    width: float = 1.0
    dash: str = ""
    round: bool = False


@dataclass(frozen=True)
class Words:
    """Words at a point, which is `drop` above their foot, turned clockwise by some degrees."""

    kind: str
    text: str
    x: float
    y: float
    size: float = 12.0
    weight: int = 400
    anchor: str = "middle"
    drop: float = 0.0
    turn: float = 0.0
    ink: str = "ink"


Part = Shape | Words
LOOKS: dict[type[Part], tuple[str, ...]] = {  # what neighbours share that are drawn together
    Shape: ("kind", "fill", "stroke", "width", "dash", "round"),
    Words: ("kind", "size", "weight", "anchor", "ink"),
}


@dataclass(frozen=True)
class Drawing:
    """A drawing: its box as ``x, y, width, height``, what is in it, and the same in words."""

    kind: str
    box: tuple[float, float, float, float]
    parts: tuple[Part, ...]
    description: str = ""
    size: float = 12.0
    anchor: str = "start"

    def named(self, kind: str) -> list[Part]:
        """Return the parts of a kind, such as ``arc green`` or any ``arc``."""
        wanted = set(kind.split())
        return [part for part in self.parts if wanted <= set(part.kind.split())]


def polygon(*points: tuple[float, float]) -> str:
    """Return a closed path through points."""
    return f"{line(points)}Z"


def line(points: Iterable[tuple[float, float]]) -> str:
    """Return a path through points.

    Examples
    --------
    >>> line([(0.0, 1.5), (-10.0, 2.25)])
    'M0 1.5L-10 2.2'
    """
    return "M" + "L".join(pair(x, y) for x, y in points)


def pair(x: float, y: float) -> str:
    """Return a point of a path; a minus sign keeps numbers apart as well as a space."""
    return f"{short(x)}{'' if short(y).startswith('-') else ' '}{short(y)}"


def short(value: float) -> str:
    """Return a length to a tenth: an eightieth of a millimetre on the largest of drawings."""
    return f"{round(value, 1) + 0.0:g}"
