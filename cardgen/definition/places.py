"""Where in a file something stands, and what is wrong there.

The reader hands on numbers and blocks that remember their place, so that an
error, and the origin of a printed number, can name file, line and column.
"""

import difflib
import re
from collections.abc import Iterable
from typing import Any, NamedTuple

_END, _TO = r"[0-9]+(?:\.[0-9]+)?", r"\s+to\s+|\s*[–-]\s*"
RANGE, LONGEST_RANGE = rf"({_END})(?:{_TO})({_END})", 40


class Place(NamedTuple):
    """A character in a file; line and column count from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Fault(NamedTuple):
    """One thing that is wrong in a definition, in a sentence."""

    place: Place
    message: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


class DefinitionError(Exception):
    """The definitions have faults; all that were found in one run.

    Attributes
    ----------
    faults : tuple of Fault
        In the order of their places.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__("\n".join(map(str, self.faults)))


class Figure(float):
    """A number from a definition, with the text it was entered as and its place."""

    __slots__ = ("place", "text")

    text: str
    place: Place

    def __new__(cls, text: str, place: Place) -> "Figure":
        """Take the number that `text` says, at `place`."""
        figure = super().__new__(cls, text)
        figure.text = text
        figure.place = place
        return figure

    def __getnewargs__(self) -> tuple[str, Place]:  # type: ignore[override]
        return self.text, self.place

    def __str__(self) -> str:
        return self.text


class Span(Figure):
    """A range from a definition, such as ``70 to 80``; as a number it is its lower end."""

    __slots__ = ("high",)

    high: Figure

    def __new__(cls, text: str, place: Place) -> "Span":
        """Take the range that `text` says, at `place`."""
        low, high = (part.strip() for part in re.split(_TO, text))
        span = float.__new__(cls, low)
        span.text = text
        span.place = place
        span.high = Figure(high, place)
        return span

    @staticmethod
    def is_range(text: str) -> bool:
        """Whether a text is a range of two numbers that rise."""
        ends = re.fullmatch(RANGE, text) if len(text) <= LONGEST_RANGE else None
        return ends is not None and float(ends[1]) < float(ends[2])


class Duration(Figure):
    """Hours and minutes from a definition, such as ``5:45``; as a number it is hours."""

    __slots__ = ()

    def __new__(cls, text: str, place: Place) -> "Duration":
        """Take the time that `text` says, at `place`."""
        hours, minutes = text.split(":")
        time = float.__new__(cls, int(hours) + int(minutes) / 60)
        time.text = text
        time.place = place
        return time

    @staticmethod
    def is_time(text: str) -> bool:
        """Whether a text is hours and minutes."""
        return re.fullmatch(r"[0-9]{1,2}:[0-5][0-9]", text) is not None


class Block(dict[str, Any]):
    """A YAML mapping; `keys_at` and `values_at` are the places of its keys and values."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place
        self.keys_at: dict[str, Place] = {}
        self.values_at: dict[str, Place] = {}

    def rename(self, key: str, name: str) -> None:
        """Take what stands under a key for what another should have."""
        self[name] = self.pop(key)
        self.keys_at[name], self.values_at[name] = self.keys_at[key], self.values_at[key]


class Rows(list[Any]):
    """A YAML sequence; `items_at` are the places of its items."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place
        self.items_at: list[Place] = []


def near_match(word: str, known: Iterable[str]) -> str:
    """Return a question that offers the known word nearest to a mistyped one, or nothing.

    Examples
    --------
    >>> near_match("calibraton", ["cruise", "calibration"])
    '; did you mean calibration?'
    >>> near_match("wing span", ["cruise", "calibration"])
    ''
    """
    return offered(nearest(word, known))


def offered(word: str | None) -> str:
    """Return a question that offers a word, if there is one."""
    return f"; did you mean {word}?" if word else ""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that is most like a mistyped one, if any is like it."""
    by_folded = {_folded(name): name for name in known}
    found = difflib.get_close_matches(_folded(word), by_folded, n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None


def same_but_for_typing(word: str, known: Iterable[str]) -> str | None:
    """Return the one known word that differs by no more than how it was typed.

    That is capitals, spaces and punctuation, a zero for the letter O, or one
    character too many at an end. Names of which a letter is the whole
    difference, such as VMC and VMO, are never taken for each other.

    Examples
    --------
    >>> same_but_for_typing("Vne", ["VNE", "VNO"]), same_but_for_typing("VFE1", ["VFE", "VLE"])
    ('VNE', 'VFE')
    >>> same_but_for_typing("VMD", ["VMC", "VMO"])
    """
    bare = _bare(word)
    for like in ({bare}, {bare[1:], bare[:-1]}):
        found = [name for name in known if _bare(name) in like]
        if found:
            return found[0] if len(found) == 1 else None
    return None


def _bare(word: str) -> str:
    return "".join(filter(str.isalnum, _folded(word)))


def _folded(word: str) -> str:
    """Make alike what is typed alike: capitals, and the letter O for a zero."""
    return word.casefold().replace("o", "0")
