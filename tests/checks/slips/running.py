"""What the checks say of a type with a slip in it."""

from functools import cache
from pathlib import Path

from cardgen.checks.rule import Severity
from cardgen.checks.run import check_type
from cardgen.definition.fleet import unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import Block, DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.upgrading import upgraded

from .making import Slip, made, take_back

Found = set[tuple[str, int]]


def read(path: Path) -> Block:
    """Read a type's file in today's format."""
    return upgraded(TypeDefinition, parse_yaml(path.read_bytes(), "type.yaml"))


@cache
def typed(path: Path) -> tuple[Block, Found]:
    """A type as it was read, which whoever puts slips into it takes back, and what is found."""
    block = read(path)
    before = found(block)
    assert before is not None
    return block, before


def found(block: Block) -> Found | None:
    """What a type is warned of: rules and lines, or None where it cannot be read."""
    try:
        definition = validated(TypeDefinition, block)
    except DefinitionError:
        return None
    if next(iter(unphysical(definition)), None):
        return None
    return {
        (one.rule.name, one.place.line)
        for one in check_type("type", definition)
        if one.severity is not Severity.NOTE
    }


def is_caught(slip: Slip, block: Block, before: Found) -> bool:
    """Whether the checks say something more of a type once a slip is in it."""
    back = made(slip)
    try:
        after = found(block)
    finally:
        take_back(back)
    return after is None or not after <= before
