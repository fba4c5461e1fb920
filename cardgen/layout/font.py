"""How wide words are in the printed face, by its own advance widths, and where their lines break.

Kerning only draws letters nearer, so that words are never wider than here.
"""

import math
import re
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import fontpkg_ibm_plex_sans_condensed

FILES = Path(str(fontpkg_ibm_plex_sans_condensed.__file__)).parent / "files"
CUTS = {400: "Regular", 500: "Medium", 600: "SemiBold", 700: "Bold"}  # by weight
DESCENT = 0.125  # of the size: how far below the base line a line of that height reaches
KEPT = "\u2011"  # stands for a hyphen at which no line breaks
_UNKNOWN = 0.7  # of the size: a letter that the face does not have
_PARTS = re.compile(r"(?:[^ \-–/]|[-–]+(?=\d)|/+(?!\w{4}))*(?:[-–/]+| +|$)")  # not within km/h
_TEXTS = 20_000  # that are remembered: more than any one card has
_SLACK = 0.01  # of the size: an engine may round, and kern letters apart


def _opened(weight: int) -> Any:
    from fontTools.ttLib import TTFont

    return TTFont(FILES / f"IBMPlexSansCondensed-{CUTS[weight]}.ttf", lazy=True)


@cache
def _advances(weight: int) -> dict[str, float]:
    with _opened(weight) as font:
        widths, units = font["hmtx"], font["head"].unitsPerEm
        cut = {chr(code): widths[glyph][0] / units for code, glyph in font.getBestCmap().items()}
        return cut | {KEPT: cut["-"]}


@cache
def digit() -> float:
    """Return how high a digit is, to the size of its type: as high as a capital letter."""
    with _opened(400) as font:
        height, units = font["OS/2"].sCapHeight, font["head"].unitsPerEm
        return float(height / units)


@lru_cache(maxsize=_TEXTS)
def advance(text: str, weight: int = 400) -> float:
    """Return how wide words are, to the size of their type."""
    advances = _advances(weight)
    return sum(advances.get(letter, _UNKNOWN) for letter in text)


@lru_cache(maxsize=_TEXTS)
def longest(text: str, weight: int = 400) -> float:
    """Return how wide the widest part of words is that no line breaks, to the size of type."""
    return max((advance(part.rstrip(" "), weight) for part in _parts(text)), default=0.0)


def lines(text: str, size: float, width: float, weight: int = 400) -> int:
    """Return in how many lines words stand; size of type and width in mm.

    Examples
    --------
    >>> lines("", 3.0, 20.0), lines("00 00 00", 10.0, 23.9), lines("00 00 00", 10.0, 23.7)
    (0, 2, 3)
    """
    return lines_of(((text, weight),), size, width)


def broken(text: str, size: float, width: float, weight: int = 400) -> list[str]:
    """Return the lines of words; one that is alone wider than a line takes one here.

    Examples
    --------
    >>> broken("00 00 00", 10.0, 23.7)
    ['00', '00', '00']
    """
    room = width / size - _SLACK
    made: list[str] = []
    for part in _parts(text):
        if made and advance((made[-1] + part).rstrip(" "), weight) <= room:
            made[-1] += part
        else:
            made.append(part)
    return [line.rstrip(" ") for line in made]


def lines_of(
    texts: Iterable[tuple[str, int]],
    size: float,
    width: float,
    beside: int = 0,
    taken: float = 0.0,
) -> int:
    """Return in how many lines words stand that follow each other.

    Parameters
    ----------
    texts : iterable of (str, int)
        Words, each with their weight.
    size, width : float
    beside : int, optional
        How many lines stand beside something.
    taken : float, optional
        How much of their width it takes.
    """
    room = (width - (taken if beside else 0.0)) / size - _SLACK
    count, used = 0, 0.0
    for wide, bare in (part for text, weight in texts for part in _measured(text, weight)):
        if count == 0 or used + bare > room:
            count += max(1, math.ceil((bare - 2 * _SLACK) / room))
            used = 0.0
            room = (width - (taken if count <= beside else 0.0)) / size - _SLACK
        used += wide
    return count


@lru_cache(maxsize=_TEXTS)
def _measured(text: str, weight: int) -> tuple[tuple[float, float], ...]:
    """Return how wide the parts of words are that no line breaks, with the space behind them."""
    return tuple(
        (advance(part, weight), advance(part.rstrip(" "), weight)) for part in _parts(text)
    )


def _parts(text: str) -> Iterator[str]:
    """Yield words with what follows them, where a line may break."""
    return (part for part in _PARTS.findall(text) if part)
