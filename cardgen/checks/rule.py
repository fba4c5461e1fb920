"""What a rule is, what it finds, and what fills the messages that tell of it."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum

from cardgen.definition.identifiers import Copied
from cardgen.definition.places import Figure, Place
from cardgen.document.record import Message, Quantity, Value
from cardgen.document.rounding import kept, rounded

COMMON_PRACTICE = Message("source-common-practice")
Told = tuple[Place, Message]  # what is wrong, and where


class Severity(Enum):
    """What a finding leads to."""

    ERROR = "error"  # no card is made
    WARNING = "warning"  # said on the aircraft's page and in the report
    NOTE = "note"  # said in the report


@dataclass(frozen=True)
class Rule:
    """A rule: what it is called, how grave it is, where to look, and who says so.

    `look` is the identifier of a message; `source` is a citation, or a message.
    """

    name: str
    severity: Severity
    look: str
    source: str | Message
    find: Callable[..., Iterator[Told]]


@dataclass(frozen=True)
class Finding:
    """Something that a rule found.

    Attributes
    ----------
    rule : Rule
    place : Place
    message : Message
        What is wrong.
    about : str
        The file of the type or airframe that it was found for, which may accept it.
    figures : tuple of Copied
        The figures that stand at the place.
    accepted : str, optional
        The reason with which a definition accepts it.
    """

    rule: Rule
    place: Place
    message: Message
    about: str = ""
    figures: tuple[Copied, ...] = ()
    accepted: str | None = None

    @property
    def severity(self) -> Severity:
        """How grave the finding is."""
        return self.rule.severity


OF_AIRCRAFT: list[Rule] = []  # given an Aircraft: what a manual and its supplements say
OF_TABLES: list[Rule] = []  # given an Aircraft: what its tables say by themselves, or each other
OF_AIRFRAME: list[Rule] = []  # given an Aircraft and a date: what is said of one airframe
OF_FLEET: list[Rule] = []  # given a Fleet


def rule(
    name: str,
    severity: Severity,
    look: str,
    source: str | Message,
    of: list[Rule] = OF_AIRCRAFT,
) -> Callable[[Callable[..., Iterator[Told]]], Callable[..., Iterator[Told]]]:
    """Register a function as a rule.

    Parameters
    ----------
    name : str
        Short, by which a definition accepts the finding.
    severity : Severity
    look : str
        The message that says what to look at in the manual.
    source : str or Message
        The published rule, or `COMMON_PRACTICE`.
    of : list of Rule
        `OF_AIRCRAFT`, `OF_TABLES`, `OF_AIRFRAME` or `OF_FLEET`.
    """

    def register(find: Callable[..., Iterator[Told]]) -> Callable[..., Iterator[Told]]:
        of.append(Rule(name, severity, look, source, find))
        return find

    return register


def findings(rules: list[Rule], *subject: object) -> Iterator[Finding]:
    """Run rules on a subject."""
    for one in rules:
        for place, message in one.find(*subject):
            yield Finding(one, place, message)


def tell(place: Place, wording: str, **values: Value) -> Told:
    """Return what is wrong at a place, by its wording and what fills that."""
    return place, Message(wording, values)


def entered(figure: Figure, unit: str = "") -> Quantity:
    """Return a figure of a definition for a message."""
    return Quantity(kept(figure), unit, entered=figure.text)


def about(value: float, decimals: int = 0) -> Quantity | Message:
    """Return a computed number for a message, rounded: messages that read alike are alike.

    Examples
    --------
    >>> about(57.6)
    Quantity(value=58.0, unit='', high=None, entered='', sense='target', decimals=0)
    """
    if math.isnan(value):
        return Message("finding-no-value")
    return Quantity(rounded(float(value), "target", decimals), decimals=decimals)


def digits(value: float, count: int = 6) -> Quantity | Message:
    """Return a number for a message, with as many of its digits as say something.

    Examples
    --------
    >>> digits(91.0), digits(6.6789, 3)  # doctest: +ELLIPSIS
    (Quantity(value=91.0, ..., decimals=0), Quantity(value=6.68, ..., decimals=2))
    """
    fixed = f"{float(f'{value:.{count}g}'):f}".rstrip("0")
    return about(value, len(fixed.partition(".")[2]))
