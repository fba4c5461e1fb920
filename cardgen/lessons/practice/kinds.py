"""Kinds of question: what a kind is given, and what it makes of it.

A kind is a function with the decorator `kind` and a name. It is given a `Draw`, takes what it
needs from that by chance, and returns a question; None where what it drew makes no fair one, and
it is asked again; or it raises `LackingError` where the aircraft has no figures for it.
"""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from random import Random
from typing import NamedTuple, TypeVar

from cardgen.document.practice import Answer, Choice, Question, Worked
from cardgen.document.record import Document, Message, Quantity, Value
from cardgen.document.rounding import kept, rounded
from cardgen.lessons.curves import Chain
from cardgen.lessons.reckoning import Case, Reckoning, Step, reckon

EDGE = 0.1  # of the last place: no answer is nearer to where it would round the other way
_HAIR = 0.01  # of the last place: a mistake's value is nearer to no edge either
_MOST, _LEAST = 4, 3  # choices of a question
Thing = TypeVar("Thing")
Drawn = Mapping[str, str | float]  # what a question was drawn of, by name
Mistakes = Sequence[tuple[str, float]]  # by name, what each comes to


class Wrong(NamedTuple):
    """What a mistake leads to: where it stands in the order of choices, and what it says."""

    name: str
    place: float
    said: Message
    values: tuple[tuple[str, Value], ...] = ()  # that fill what is said of the mistake


class LackingError(Exception):
    """An aircraft has no figures for a kind of question; says what it lacks."""

    def __init__(self, name: str) -> None:
        self.message = Message(f"practice-lacks-{name}")


class Draw:
    """Chance, and the aircraft that a question is drawn from.

    Parameters
    ----------
    document : Document
    chance : Random
        Its order of numbers is the same for one seed, wherever it runs.
    """

    def __init__(self, document: Document, chance: Random) -> None:
        self.document = document
        self.chain = Chain(document)
        self.chance = chance
        self.unit = document.head.indicator_unit
        self.manual = document.head.units

    def one(self, several: Iterable[Thing], lacking: str = "figures") -> Thing:
        """Return one of several; an aircraft that has none lacks what is named."""
        known = list(several)
        if not known:
            raise LackingError(lacking)
        return known[self.chance.randrange(len(known))]

    def whole(self, least: float, most: float, step: int = 1) -> float:
        """Return a multiple of a step between two bounds."""
        first, last = math.ceil(least / step), math.floor(most / step)
        return float(step * self.chance.randint(first, max(first, last)))

    def reckon(self, case: Case) -> Reckoning:
        """Work a case."""
        return reckon(self.document, case)

    def speed(self, value: float, decimals: int = 0) -> Quantity:
        """Return a speed in the indicator's unit."""
        return Quantity(kept(value), self.unit, decimals=decimals)

    def altitude(self, value: float) -> Quantity:
        """Return an altitude in the manual's unit."""
        return Quantity(kept(value), self.manual.altitude)

    def warmth(self, value: float) -> Quantity:
        """Return a temperature in the manual's unit."""
        return Quantity(kept(value), self.manual.temperature)


Ask = Callable[[Draw], Question | None]
KINDS: dict[str, Ask] = {}


def kind(name: str) -> Callable[[Ask], Ask]:
    """Register a function that asks one kind of question.

    What it asks is the wording ``practice-ask-`` and its name, its name is ``practice-kind-``, and
    each mistake that a choice stands for is ``mistake-`` and the mistake's name.
    """

    def register(ask: Ask) -> Ask:
        KINDS[name] = ask
        return ask

    return register


def numbered(
    name: str,
    asked: dict[str, Value],
    answer: Answer,
    mistakes: Mistakes,
    worked: Iterable[Worked],
    form: str = "number",
    case: Drawn | None = None,
) -> Question | None:
    """Return a question for a number; None near an edge, or where mistakes come to no others.

    Parameters
    ----------
    name : str
        Of the kind.
    asked : dict
        What fills the question's blanks.
    answer : Answer
    mistakes : sequence
        What each mistake comes to, unrounded; those first that are made most.
    worked : iterable of Worked
    form : str
        How a choice is said: the wording ``practice-answer-`` and this.
    case : mapping, optional
        What it was drawn of.
    """
    if not is_settled(answer):
        return None
    others = [(one, printed(value, answer)) for one, value in mistakes if is_plain(value, answer)]
    right = printed(answer.value, answer)
    return chosen(
        name,
        asked,
        (right.value, _said(form, right)),
        [Wrong(one, wrong.value, _said(form, wrong)) for one, wrong in others if wrong.value >= 0],
        worked,
        answer,
        case=case,
    )


def chosen(
    name: str,
    asked: dict[str, Value],
    right: tuple[float, Message],
    mistakes: Iterable[Wrong],
    worked: Iterable[Worked],
    answer: Answer | None = None,
    wording: str = "",
    case: Drawn | None = None,
) -> Question | None:
    """Return a question of choices in order of a number; None where fewer than two mistakes differ.

    Parameters
    ----------
    right : (float, Message)
        Where the answer stands in the order, and what it says.
    mistakes : iterable of Wrong
    wording : str
        Of the question, where that is not the kind's.
    """
    choices = [(right[0], Choice(right[1]))]
    for one in mistakes:
        if len(choices) < _MOST and all(one.said != other.said for _, other in choices):
            why = Message(f"mistake-{one.name}", dict(one.values))
            choices.append((one.place, Choice(one.said, why, one.name)))
    if len(choices) < _LEAST:
        return None
    ordered = tuple(choice for _, choice in sorted(choices, key=lambda one: one[0]))
    question = Message(f"practice-ask-{wording or name}", asked)
    return Question(name, question, ordered, tuple(worked), answer, tuple((case or {}).items()))


def is_settled(answer: Answer) -> bool:
    """Whether an answer is the same whichever way it is worked, and near no edge of rounding."""
    if not _is_number(answer.value) or not all(map(_is_number, answer.ways)):
        return False
    values = (answer.value, *answer.ways)
    if any(abs(_beyond_half(one, answer)) < EDGE for one in values):
        return False
    upward = answer.sense == "minimum"
    if answer.sense != "target" and not _is_safe(_beyond_half(answer.value, answer), upward):
        return False
    return len({rounded(one / answer.place) for one in values}) == 1


def _beyond_half(value: float, answer: Answer) -> float:
    """Return how far a value is beyond the middle of two places, where rounding turns."""
    places = value / answer.place
    return places - math.floor(places) - 0.5


def _is_safe(beyond_half: float, upward: bool) -> bool:
    """Whether a card's rounding and the nearest are one, and not by a hair."""
    return (beyond_half > 0.0) == upward and abs(beyond_half) <= 0.5 - EDGE


def printed(value: float, answer: Answer) -> Quantity:
    """Return a number as an answer is printed: also another one, by the way that is asked for."""
    places = rounded(value / answer.place, answer.sense)
    return Quantity(kept(places * answer.place), answer.unit)


def _said(form: str, quantity: Quantity) -> Message:
    if form == "heading":
        return Message("practice-answer-heading", {"heading": heading(quantity.value)})
    return Message(f"practice-answer-{form}", {"number": quantity})


def heading(degrees: float) -> str:
    """Return a direction in three digits, as it is said; north is 360."""
    return f"{degrees % 360.0 or 360.0:03.0f}°"


def is_plain(value: float, answer: Answer) -> bool:
    """Whether a mistake's value is a number, and rounds one way only."""
    if not _is_number(value):
        return False
    turns = abs(_beyond_half(value, answer))  # how far it is from where rounding turns
    return (turns if answer.sense == "target" else 0.5 - turns) > _HAIR


def _is_number(value: float) -> bool:
    return not math.isnan(value)


def steps(done: Reckoning, *names: str) -> list[Worked]:
    """Return the steps of a working that are named, in their order."""
    return [_worked(one) for one in done.steps if one.id in names and not _is_nothing(one)]


def _is_nothing(step: Step) -> bool:
    """Whether a step only says that there is no bench card."""
    return step.id == "instrument" and not step.formula


def _worked(step: Step) -> Worked:
    name = Message(f"step-{step.id}")
    return Worked(name, step.quantity, step.form, step.reason, step.working)


def step(
    name: str, quantity: Quantity | None, reason: str = "", form: str = "plain", **values: Value
) -> Worked:
    """Return a line of a kind's own: ``practice-step-`` and its name, and why."""
    why = Message(f"practice-why-{reason}", values) if reason else None
    return Worked(Message(f"practice-step-{name}"), quantity, form, why)
