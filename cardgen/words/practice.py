"""A practice sheet in words: the lines of a working."""

from typing import NamedTuple

from cardgen.document.practice import Worked
from cardgen.words.language import Language
from cardgen.words.numbers import MINUS, number, with_unit


class Line(NamedTuple):
    """A line of a working: what it is, its number, and where that comes from."""

    name: str
    figure: str
    why: str
    working: str


def line(language: Language, one: Worked) -> Line:
    """Return a line of a working as it is written on the board."""
    why, working = language.text(one.reason), language.text(one.working)
    return Line(language.say(one.name), _figure(one), why, working)


def _figure(one: Worked) -> str:
    if one.quantity is None:
        return ""
    if one.form == "heading":
        said = number(one.quantity)
        return "360°" if said == "0" else f"{said:0>3}°"
    said = with_unit(one.quantity)
    return f"+{said}" if one.form == "signed" and not said.startswith(MINUS) else said
