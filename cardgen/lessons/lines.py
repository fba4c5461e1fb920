"""A working in words, line by line."""

from collections.abc import Callable
from typing import NamedTuple

from cardgen.document.record import Message, Value
from cardgen.lessons.limits import Passed
from cardgen.lessons.reckoning import Step
from cardgen.words.language import Language
from cardgen.words.numbers import DASH, MINUS, number, symbol


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
        return Line(name, "360°" if said == "0" else f"{said:0>3}°", "", reason)
    if step.form == "signed" and not said.startswith(MINUS):
        said = f"+{said}"
    return Line(name, said, symbol(step.quantity.unit), reason)


def limit_passed(language: Language, one: Passed) -> str:
    """Return a sentence that names a limit and what passing it means."""
    return language.say(limit_message(one, language.has))


def limit_message(one: Passed, has: Callable[[str], bool]) -> Message:
    """Return what names a limit, of the wordings that there are."""
    limit = Message("given-cas", {"speed": one.limit}) if one.as_cas else one.limit
    values: dict[str, Value] = {"limit": limit, "flaps": one.bound.flaps}
    moving = f"-{one.bound.gear}" if one.speed == "VLO" and one.bound.gear else ""
    name = f"passed-{one.speed}{moving}"
    said = Message(name, values)
    if not has(name):
        said = Message("passed-other", {**values, "speed": one.speed})
    if not one.bound.when:
        return said
    return Message("passed-when", {"passed": said, "when": one.bound.when})
