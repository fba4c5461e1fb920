"""The record of a practice sheet: questions from one aircraft's numbers, and the key to them.

Only plain data, as in `cardgen.document.record`: page and sheets are made from it alone.
"""

from dataclasses import dataclass

from cardgen.document.record import Message, Paper, Quantity, School
from cardgen.document.rounding import Sense


@dataclass(frozen=True, slots=True)
class Choice:
    """What may be ticked; `mistake` says which mistake leads there, and is None where it is right.

    Attributes
    ----------
    said : Message
    mistake : Message, optional
    name : str
        The mistake's name; nothing where it is right.
    """

    said: Message
    mistake: Message | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Worked:
    """A line of the working.

    Attributes
    ----------
    name : Message
    quantity : Quantity, optional
    form : str
        ``plain``, ``signed`` or ``heading``.
    reason : Message, optional
        Where the number comes from.
    working : Message, optional
        The arithmetic.
    """

    name: Message
    quantity: Quantity | None = None
    form: str = "plain"
    reason: Message | None = None
    working: Message | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """A number that was asked for, unrounded.

    Attributes
    ----------
    value : float
    unit : str
    place : float
        What it is rounded to a multiple of.
    sense : str
        Which way a card rounds it.
    ways : tuple of float
        What a careful pilot comes to who rounds on the way, or works by a rule.
    """

    value: float
    unit: str
    place: float = 1.0
    sense: Sense = "target"
    ways: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """A question, what may be ticked, and its working.

    Attributes
    ----------
    kind : str
    asked : Message
    choices : tuple of Choice
        One of them is right.
    worked : tuple of Worked
    answer : Answer, optional
        None where no number is asked for.
    case : tuple of (str, str or float)
        What it was drawn of, by name, for whoever checks it.
    """

    kind: str
    asked: Message
    choices: tuple[Choice, ...]
    worked: tuple[Worked, ...]
    answer: Answer | None = None
    case: tuple[tuple[str, str | float], ...] = ()

    @property
    def right(self) -> Choice:
        """The choice that is right."""
        return next(one for one in self.choices if one.mistake is None)


@dataclass(frozen=True, slots=True)
class Practice:
    """A sheet of questions of one aircraft.

    Attributes
    ----------
    registration, type, indicator_unit : str
    school : School
    manual : Paper
    mark : str
        Of the card that the figures stand on.
    level : str
    seed, wanted : int
        By what it was drawn, and how many questions were asked for.
    questions : tuple of Question
    left_out : tuple of Message
        A sentence for each kind of question that the aircraft has no figures for.
    """

    registration: str
    type: str
    indicator_unit: str
    school: School
    manual: Paper
    mark: str
    level: str
    seed: int
    wanted: int
    questions: tuple[Question, ...]
    left_out: tuple[Message, ...] = ()
    cardgen: str = ""

    @property
    def file(self) -> str:
        """What the names of its files begin with."""
        return f"{self.registration}-{self.level}-{self.seed}"
