"""Findings that a definition accepts: each at its figure, and for the value that it has there."""

import difflib
import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from cardgen.checks.rule import Finding, Rule, Severity, tell
from cardgen.definition.acceptance import Acceptance
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.identifiers import Copied, copied, short
from cardgen.definition.slips import BLANK


def accepting(accepted: Sequence[Acceptance], found: Iterable[Finding]) -> Iterator[Finding]:
    """Mark what is accepted; an error cannot be."""
    for one in found:
        reason = next((each.reason for each in accepted if _accepts(each, one)), None)
        yield one if reason is None else replace(one, accepted=reason)


def _accepts(acceptance: Acceptance, one: Finding) -> bool:
    if acceptance.rule != one.rule.name or one.severity is Severity.ERROR:
        return False
    if acceptance.figure is None:
        return True
    return any(_named(acceptance) == _name(figure) for figure in one.figures)


def _named(acceptance: Acceptance) -> tuple[str, str]:
    return short(acceptance.figure or ""), acceptance.value or ""


def _name(one: Copied) -> tuple[str, str]:
    return short(one.id), one.figure.text


def doubtful(
    accepted: Iterable[Acceptance],
    known: set[str],
    found: Sequence[Finding],
    definition: AircraftDefinition,
) -> Iterator[Finding]:
    """Find acceptances that accept nothing, or that name no figure where one could be named.

    Parameters
    ----------
    accepted : iterable of Acceptance
        Those of a type, or of an airframe.
    known : set of str
        The names of the rules whose findings can be accepted.
    found : sequence of Finding
        What was found for the type or the airframe.
    definition : AircraftDefinition
        The airframe, or its type alone.
    """
    for one in accepted:
        covered = [each for each in found if _accepts(one, each)]
        if one.rule not in known:
            told = tell(one.place, "finding-acceptance", rule=one.rule)
            yield Finding(_UNKNOWN, *told)
        elif not covered:
            yield _idle(one, dict(map(_name, copied(definition))))
        elif one.figure is None and any(each.figures for each in covered):
            lines = ", ".join(line_of(each, one.reason) for each in covered)
            told = tell(one.place, "finding-acceptance-wide", rule=one.rule, lines=lines)
            yield Finding(_DOUBTFUL, *told)


def _idle(one: Acceptance, figures: dict[str, str]) -> Finding:
    """Say why an acceptance accepts nothing."""
    at, (figure, value) = one.place, _named(one)
    now = figures.get(figure)
    if one.figure is None:
        told = tell(at, "finding-acceptance-idle", rule=one.rule)
    elif now is None and (near := difflib.get_close_matches(figure, figures, n=1)):
        told = tell(at, "finding-acceptance-gone-near", figure=figure, near=near[0])
    elif now is None:
        told = tell(at, "finding-acceptance-gone", figure=figure)
    elif value != now:
        told = tell(at, "finding-acceptance-value", figure=figure, value=value, now=now)
    else:
        told = tell(at, "finding-acceptance-idle-there", rule=one.rule, figure=figure)
    return Finding(_DOUBTFUL, *told)


def line_of(one: Finding, reason: str = BLANK) -> str:
    """Return what accepts a finding, as a line of a definition to stand under ``accepted``."""
    said = {"rule": one.rule.name}
    if one.figures:
        said["figure"], said["value"] = _name(one.figures[0])
    said["reason"] = reason
    return f"- {{{', '.join(f'{key}: {_written(text)}' for key, text in said.items())}}}"


def _written(text: str) -> str:
    """Return words as YAML has them among others on a line: in quotes where they need them."""
    plain = re.fullmatch(r"[\w+−.][\w+−.;()/'-]*( [\w+−.;()/'-]+)*", text)
    return text if plain else json.dumps(text, ensure_ascii=False)


_UNKNOWN = Rule("acceptance", Severity.ERROR, "look-acceptance", "cardgen", lambda: iter(()))
_DOUBTFUL = Rule("acceptance-holds", Severity.NOTE, "look-accepted", "cardgen", lambda: iter(()))
