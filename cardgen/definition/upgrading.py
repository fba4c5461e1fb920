"""Files of older formats, brought up to the model before they are validated.

A definition file says the version of its format under the key ``format``, and is of the first
where it says none. Keys are added and changed by one more step in `STEPS`, which does to a file
of the version before what a school would have to do by hand.
"""

from collections.abc import Callable

from pydantic import BaseModel

from cardgen.definition.model import AirframeDefinition
from cardgen.definition.places import Block, DefinitionError, Fault, Figure

# Given the model that the file is for, and its block to change; a key that moves takes its places.
Step = Callable[[type[BaseModel], Block], None]


def _to_2(model: type[BaseModel], block: Block) -> None:
    """Say which way the correction of a bench card goes: format 1 had it to be added."""
    card = block.get("instrument correction")
    if model is AirframeDefinition and isinstance(card, Block):
        _rename(card, "correction", "add to indicated")


def _rename(block: Block, old: str, new: str) -> None:
    """Give a key another name, at the same place; one that has that name already is left."""
    if old in block and new not in block:
        block[new] = block.pop(old)
        block.keys_at[new] = block.keys_at.pop(old)
        block.values_at[new] = block.values_at.pop(old)


STEPS: tuple[Step, ...] = (_to_2,)  # the first brings format 1 up to 2, the next 2 up to 3


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
    for step in STEPS[_version(block) - 1 :]:
        step(model, block)
    return block


def _version(block: Block) -> int:
    """Return the version of a file's format; what is no number at all is for the model to tell."""
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
