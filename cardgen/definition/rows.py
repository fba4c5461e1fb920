"""Rows of figures: as long as one another, rising, none twice."""

import itertools

from pydantic import ValidationInfo

from cardgen.definition.group import Group, fault
from cardgen.definition.places import Figure


def same_length(group: Group, info: ValidationInfo, first: str, second: str) -> bool:
    """Find two rows that should be as long as one another and are not."""
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
    """Find figures of a row that are not above those before them."""
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
