"""A working in words, line by line."""

from typing import NamedTuple

from cardgen.lessons.reckoning import Step
from cardgen.words.language import Language
from cardgen.words.numbers import DASH, number, symbol


class Line(NamedTuple):
    """A step's name, its number, the unit of that, and its reason."""

    name: str
    number: str
    unit: str
    reason: str


def line(language: Language, step: Step) -> Line:
    """Return a step as it is printed."""
    name = language.say(f"step-{step.id}")
    reason = language.text(step.reason)
    if step.quantity is None:
        return Line(name, DASH, "", reason)
    said = number(step.quantity)
    if step.form == "heading":
        return Line(name, f"{said:0>3}°", "", reason)
    if step.form == "signed" and step.quantity.value >= 0:
        said = f"+{said}"
    return Line(name, said, symbol(step.quantity.unit), reason)
