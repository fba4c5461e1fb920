"""Copying slips: each single wrong digit, each swap of two neighbours, in speeds and calibration.

Such slips are put into each demo type, in the place of a figure as it was read, and run through
the checks. DEVELOPERS.md says which slips pass, and why.
"""

import math
from collections.abc import Iterator
from typing import Any, NamedTuple

import pytest

from cardgen.checks.run import check_type
from cardgen.definition.fleet import unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import Block, DefinitionError, Figure
from cardgen.definition.reading import parse_yaml
from tests.conftest import DEMO

CAUGHT_AT_LEAST = 0.93  # of a type's slips; measured 0.935 to 0.947
FEW = 300  # of each type's
TYPES = sorted((DEMO / "types").glob("*.yaml"))


class Spot(NamedTuple):
    """Where a figure stands among what was read: in what, and under which key or number."""

    holder: Any
    at: Any

    @property
    def figure(self) -> Figure:
        return self.holder[self.at]


def spots(holder: Any) -> Iterator[Spot]:
    """Airspeeds, and the weights and altitudes that they are given for; not pages or flaps."""
    for at, value in holder.items() if isinstance(holder, dict) else enumerate(holder):
        if at in ("page", "flaps", "when"):
            continue
        if isinstance(value, Figure):
            yield Spot(holder, at)
        elif isinstance(value, dict | list):
            yield from spots(value)


def slips(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        if digit.isdigit():
            yield from (
                text[:i] + other + text[i + 1 :] for other in "0123456789" if other != digit
            )
            if text[i + 1 : i + 2].isdigit() and text[i + 1] != digit:
                yield text[:i] + text[i + 1] + digit + text[i + 2 :]


def all_slips(block: Block) -> list[tuple[Spot, str]]:
    found = [spot for key in ("speeds", "calibration") for spot in spots(block[key])]
    return [(spot, slip) for spot in found for slip in slips(spot.figure.text)]


def found(block: Block) -> set[tuple[str, int]] | None:
    """What is said of a type: rules and lines, or None where it cannot be read."""
    try:
        definition = validated(TypeDefinition, block)
    except DefinitionError:
        return None
    if next(iter(unphysical(definition)), None):
        return None
    return {(one.rule.name, one.place.line) for one in check_type("type", definition)}


def found_with(slip: str, spot: Spot, block: Block) -> set[tuple[str, int]] | None:
    """What is said of a type with a slip in the place of a figure."""
    right = spot.figure
    spot.holder[spot.at] = Figure(slip, right.place)
    try:
        return found(block)
    finally:
        spot.holder[spot.at] = right


def written(slip: str, spot: Spot, text: str) -> Block:
    """Read a file into which a slip was written."""
    figure, lines = spot.figure, text.split("\n")
    row, start = figure.place.line - 1, figure.place.column - 1
    end = start + len(figure.text)
    lines[row] = lines[row][:start] + slip + lines[row][end:]
    return parse_yaml("\n".join(lines).encode(), "type.yaml")


@pytest.mark.parametrize("path", TYPES, ids=lambda path: path.stem)
def test_most_slips_are_caught(path, sample):
    block = parse_yaml(path.read_bytes(), "type.yaml")
    everything, before = all_slips(block), found(block)
    assert len(everything) > 1000
    tried = sample("slips", everything, FEW)
    after = [found_with(slip, spot, block) for spot, slip in tried]
    caught = sum(one is None or not one <= before for one in after)
    assert caught / len(tried) >= CAUGHT_AT_LEAST - chance(len(tried), len(everything))


def chance(tried: int, whole: int) -> float:
    """By how much the share in a sample may fall short of the share in the whole: 3 sigma."""
    left = (whole - tried) / (whole - 1)
    return 3 * math.sqrt(CAUGHT_AT_LEAST * (1 - CAUGHT_AT_LEAST) / tried * left)


@pytest.mark.parametrize("path", TYPES, ids=lambda path: path.stem)
def test_a_slip_put_among_what_was_read_is_one_written_into_the_file(path, sample):
    text = path.read_text()
    block = parse_yaml(text.encode(), "type.yaml")
    for spot, slip in sample("slips written out", all_slips(block), 30):
        assert found_with(slip, spot, block) == found(written(slip, spot, text)), (spot, slip)
