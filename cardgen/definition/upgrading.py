"""Files of older formats, brought up to the model before they are validated.

A definition file says the version of its format under the key ``format``, and is of the first
where it says none. Keys are added and changed by one more step in `STEPS`, which does to a file
of the version before what a school would have to do by hand.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from pydantic import BaseModel

from cardgen.definition.places import Block, DefinitionError, Fault, Figure, Place, Rows


class Renamed(NamedTuple):
    """A key that has another name since."""

    at: Place
    name: str


class Listed(NamedTuple):
    """A mapping that is a list of groups since: its keys stand under one key, its values so too."""

    at: Place
    key: str
    value: str


Change = Renamed | Listed  # what a step does, as `renewing` does it to the file's text

# Given the model that the file is for, and its block to change; a key that moves takes its places.
Step = Callable[[type[BaseModel], Block], Iterable[Change]]


def rename(block: Block, key: str, name: str) -> Iterator[Change]:
    """Give a key of a block, if it is there, another name."""
    if key in block and name not in block:
        yield Renamed(block.keys_at[key], name)
        for by_key in (block, block.keys_at, block.values_at):
            by_key[name] = by_key.pop(key)


def list_out(block: Block, key: str, name: str, value_name: str) -> Iterator[Change]:
    """Make of a mapping under a key, if it is there, a list of groups of two keys."""
    old = block.get(key)
    if not isinstance(old, Block):
        return
    yield Listed(old.place, name, value_name)
    block[key] = rows = Rows(old.place)
    for said, value in old.items():
        group = Block(old.keys_at[said])
        group.update({name: said, value_name: value})
        group.keys_at.update(dict.fromkeys(group, group.place))
        group.values_at.update({name: group.place, value_name: old.values_at[said]})
        rows.append(group)
        rows.items_at.append(group.place)


def _second(model: type[BaseModel], block: Block) -> Iterator[Change]:
    """Bring format 1 up to 2.

    An acceptance may name its figure: {rule: reason} is a list of {rule, reason}.
    A bench card says which way its correction goes: format 1 had it to be added.
    """
    yield from list_out(block, "accepted", "rule", "reason")
    card = block.get("instrument correction")
    if isinstance(card, Block):
        yield from rename(card, "correction", "add to indicated")


STEPS: tuple[Step, ...] = (_second,)  # the first brings format 1 up to 2, the next 2 up to 3


def upgraded(model: type[BaseModel], block: Block) -> Block:
    """Bring the block of a file up to the model, from the format that it was written in.

    Parameters
    ----------
    model : type
        What the file defines: a type, an airframe or a school.
    block : Block
        From `read_yaml`; changed in place.

    Returns
    -------
    Block
        The same block, of today's format.

    Raises
    ------
    DefinitionError
        If the file is of a format that there is not, or not yet.
    """
    for step in STEPS[version_of(block) - 1 :]:
        list(step(model, block))
    return block


def version_of(block: Block) -> int:
    """Return the version of a file's format; what is no number at all is for the model to tell.

    Raises
    ------
    DefinitionError
        If there is no such format, or not yet.
    """
    said, newest = block.get("format"), len(STEPS) + 1
    if not isinstance(said, Figure):
        return 1
    if said < 1 or not said.is_integer():
        expected = "a whole number, 1 or more"
    elif said > newest:
        expected = f"{newest} or less: this file was written for a newer cardgen"
    else:
        return int(said)
    message = f"format: found {said.text}, expected {expected}"
    raise DefinitionError([Fault(block.values_at["format"], message)])
