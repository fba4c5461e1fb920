"""What lists of a definition must keep: as many in one as in the other, rising, each once."""

import itertools
from typing import Annotated

from pydantic import Field, ValidationInfo

from cardgen.definition.group import Group, Number, fault
from cardgen.definition.places import Figure

Row = Annotated[list[Number], Field(min_length=2)]


def same_length(group: Group, info: ValidationInfo, first: str, second: str) -> bool:
    """Whether two rows, by their keys, have as many figures; if not, it is told."""
    a, b = (group._block[key] for key in (first, second))
    if len(a) == len(b):
        return True
    fault(
        info,
        group.place_of(second),
        f"{second} has {len(b)} figures and {first} has {len(a)}, expected as many of each",
    )
    return False


def rising(info: ValidationInfo, key: str, figures: list[Figure]) -> None:
    """Find a figure that is no more than the one before it."""
    for before, after in itertools.pairwise(figures):
        if after <= before:
            fault(
                info, after.place, f"{key}: found {after.text} after {before.text}, expected more"
            )


def once(group: Group, info: ValidationInfo, *keys: str) -> None:
    """Find what stands in a list twice."""
    for key in keys:
        values = getattr(group, key)
        for n, value in enumerate(values):
            if value in values[:n]:
                place = group._block[key].items_at[n]
                fault(info, place, f"{key}: found {value!s} twice, expected it once")
