"""What a rule is, and what it finds."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum

from cardgen.definition.places import Fault, Place


class Severity(Enum):
    """What a finding leads to."""

    ERROR = "error"  # no card is made
    WARNING = "warning"  # said on the aircraft's page and in the report
    NOTE = "note"  # said in the report


@dataclass(frozen=True)
class Rule:
    """A rule: what it is called, how grave it is, where to look, and who says so."""

    name: str
    severity: Severity
    look: str
    source: str
    find: Callable[..., Iterator[Fault]]


@dataclass(frozen=True)
class Finding:
    """Something that a rule found.

    Attributes
    ----------
    rule : Rule
    place : Place
    message : str
        One plain sentence on what is wrong.
    accepted : str, optional
        The reason with which a definition accepts it.
    """

    rule: Rule
    place: Place
    message: str
    accepted: str | None = None

    @property
    def severity(self) -> Severity:
        """How grave the finding is."""
        return self.rule.severity


OF_AIRCRAFT: list[Rule] = []  # given an Aircraft: what a manual and its supplements say
OF_AIRFRAME: list[Rule] = []  # given an Aircraft and a date: what is said of one airframe
OF_FLEET: list[Rule] = []  # given a Fleet


def rule(
    name: str,
    severity: Severity,
    look: str,
    source: str,
    of: list[Rule] = OF_AIRCRAFT,
) -> Callable[[Callable[..., Iterator[Fault]]], Callable[..., Iterator[Fault]]]:
    """Register a function as a rule.

    Parameters
    ----------
    name : str
        Short, by which a definition accepts the finding.
    severity : Severity
    look : str
        What to look at in the manual.
    source : str
        The published rule, or "common practice".
    of : list of Rule
        `OF_AIRCRAFT`, `OF_AIRFRAME` or `OF_FLEET`.
    """

    def register(find: Callable[..., Iterator[Fault]]) -> Callable[..., Iterator[Fault]]:
        of.append(Rule(name, severity, look, source, find))
        return find

    return register


def findings(rules: list[Rule], *subject: object) -> Iterator[Finding]:
    """Run rules on a subject."""
    for one in rules:
        for place, message in one.find(*subject):
            yield Finding(one, place, message)
