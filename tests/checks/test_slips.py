"""Copying slips: each single wrong digit, each swap of two neighbours, in speeds and calibration.

Every such slip in every demo type is made and run through the checks.
DEVELOPERS.md says which slips pass, and why.
"""

from collections.abc import Iterator

import pytest

from cardgen.checks.run import check_type
from cardgen.definition.fleet import unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import DefinitionError, Figure
from cardgen.definition.reading import parse_yaml
from tests.conftest import DEMO

CAUGHT_AT_LEAST = 0.94  # of a type's slips; measured 0.948 to 0.960
TYPES = sorted((DEMO / "types").glob("*.yaml"))


def figures(node: object) -> Iterator[Figure]:
    """Airspeeds, and the weights and altitudes that they are given for; not pages or flaps."""
    if isinstance(node, Figure):
        yield node
    elif isinstance(node, dict):
        for key, value in node.items():
            if key not in ("page", "flaps", "when"):
                yield from figures(value)
    elif isinstance(node, list):
        for value in node:
            yield from figures(value)


def slips(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        if digit.isdigit():
            yield from (
                text[:i] + other + text[i + 1 :] for other in "0123456789" if other != digit
            )
            if text[i + 1 : i + 2].isdigit() and text[i + 1] != digit:
                yield text[:i] + text[i + 1] + digit + text[i + 2 :]


def found(text: str) -> set[tuple[str, int]] | None:
    """What is said of a type: rules and lines, or None where it cannot be read."""
    try:
        definition = validated(TypeDefinition, parse_yaml(text.encode(), "type.yaml"))
    except DefinitionError:
        return None
    if list(unphysical(definition)):
        return None
    return {(one.rule.name, one.place.line) for one in check_type("type", definition)}


@pytest.mark.parametrize("path", TYPES, ids=lambda path: path.stem)
def test_most_slips_are_caught(path):
    text = path.read_text()
    lines, whole, before = text.split("\n"), parse_yaml(text.encode(), "type.yaml"), found(text)
    made = caught = 0
    for figure in (one for key in ("speeds", "calibration") for one in figures(whole[key])):
        row, start = figure.place.line - 1, figure.place.column - 1
        for slip in slips(figure.text):
            spoiled = lines.copy()
            spoiled[row] = lines[row][:start] + slip + lines[row][start + len(figure.text) :]
            after = found("\n".join(spoiled))
            made += 1
            caught += after is None or not after <= before
    assert made > 1000
    assert caught / made >= CAUGHT_AT_LEAST
