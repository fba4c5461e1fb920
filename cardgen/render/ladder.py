"""The indicator's markings along a straight scale; its drawing is ``templates/ladder.svg``."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass

from cardgen.airframe.aircraft import Aircraft
from cardgen.render.markings import Scale, Shown, scale_for, shown_markings

WIDTH, HEIGHT = 112.0, 640.0
_TOP, _BOTTOM = 26.0, 632.0  # of the scale; the unit stands above it
BANDS = {"green": (39.0, 56.0), "yellow": (39.0, 56.0), "white": (58.0, 75.0)}
_NARROW = (64.0, 69.0)  # the white band beyond full flaps
_CAPTION, _APART = 13.6, 14.0  # size of type, and how far apart names stand
_STRIPE, _SLANT = 9.0, 11.0


@dataclass(frozen=True)
class Rung:
    """A tick of the scale, with a number on the long ones."""

    y: float
    rank: str
    number: str


@dataclass(frozen=True)
class Band:
    """A straight arc: a box, its stripes, and where its name stands, if there is room."""

    name: str
    x: float
    y: float
    width: float
    height: float
    stripes: str
    middle: float | None


@dataclass(frozen=True)
class Mark:
    """A line across the scale or a flap limit, and its name, moved where names would meet."""

    kind: str
    y: float
    name: str
    name_y: float


@dataclass(frozen=True)
class Ladder:
    """All that the drawing needs."""

    unit: str
    rungs: tuple[Rung, ...]
    bands: tuple[Band, ...]
    marks: tuple[Mark, ...]
    description: str


def draw_ladder(aircraft: Aircraft) -> Ladder | None:
    """Return the ladder of an aircraft, to its own scale, or None without markings."""
    shown = shown_markings(aircraft)
    if shown is None:
        return None
    scale = scale_for(shown)
    return Ladder(
        shown.unit,
        tuple(
            Rung(_y(scale, speed), rank, f"{speed}" if rank == "major" else "")
            for speed, rank in scale.divisions
        ),
        (*_flap_bands(scale, shown), *(_band(scale, shown, name) for name in shown.arcs)),
        tuple(_marks(scale, shown)),
        shown.description,
    )


def _y(scale: Scale, speed: float) -> float:
    return round(_BOTTOM - (_BOTTOM - _TOP) * scale.part(speed), 2)


def _band(scale: Scale, shown: Shown, name: str) -> Band:
    left, right = BANDS[name]
    bottom, top = (_y(scale, speed) for speed in shown.arcs[name])
    half = _CAPTION * 0.54 * len(name) / 2
    crossing = [_y(scale, speed) for line, speed in shown.lines.items() if line != "red_line"]
    cuts = sorted([top, bottom, *(y for y in crossing if top < y < bottom)])
    low, high = max(itertools.pairwise(cuts), key=lambda part: part[1] - part[0])
    middle = round((low + high) / 2, 2) if high - low > 2 * half + 10 else None
    stripes = ""
    if name == "yellow":
        clear = (middle - half - 3, middle + half + 3) if middle is not None else None
        stripes = _stripes(left, right, top, bottom, clear)
    return Band(name, left, top, right - left, round(bottom - top, 2), stripes, middle)


def _stripes(
    left: float, right: float, top: float, bottom: float, clear: tuple[float, float] | None
) -> str:
    count = max(1, int((bottom - top - _SLANT) / _STRIPE))
    gap = (bottom - top - _SLANT) / count
    feet = [bottom - n * gap for n in range(count + 1)]
    if clear is not None:
        feet = [y for y in feet if y < clear[0] or y - _SLANT > clear[1]]
    return "".join(f"M{left} {y:.2f}L{right} {y - _SLANT:.2f}" for y in feet)


def _flap_bands(scale: Scale, shown: Shown) -> Iterable[Band]:
    left, right = _NARROW
    before = _y(scale, shown.arcs["white"][1]) if shown.flaps else 0.0
    for _, speed in shown.flaps:
        y = _y(scale, speed)
        yield Band("flaps", left, y, right - left, round(before - y, 2), "", None)
        before = y


def _marks(scale: Scale, shown: Shown) -> list[Mark]:
    """Return lines and flap limits from the top down, their names kept apart."""
    given = [(name, speed, shown.names[name]) for name, speed in shown.lines.items()]
    given += [("flaps", speed, setting) for setting, speed in shown.flaps]
    marks, lowest = [], _TOP - _APART
    for kind, speed, name in sorted(given, key=lambda mark: -mark[1]):
        y = _y(scale, speed)
        name = name if name.isupper() or kind == "flaps" else ""
        lowest = max(y, lowest + _APART) if name else lowest
        marks.append(Mark(kind, y, name, lowest if name else y))
    return marks
