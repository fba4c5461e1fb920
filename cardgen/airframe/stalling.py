"""The stall speeds that a manual gives, each at its flap setting, gear and weight."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cardgen.definition.model import SpeedEntry
from cardgen.definition.places import Figure
from cardgen.definition.stalling import Stall


@dataclass(frozen=True)
class StallSpeed:
    """A stall speed that the manual gives without bank.

    Attributes
    ----------
    flaps, gear : str
        `gear` is empty where the manual does not say.
    weight : Figure
    ias, cas : Figure, optional
        One of them, or both.
    calibrated : float
        CAS, in the manual's unit, as printed or by the calibration table; not a
        number where that does not reach.
    group : SpeedEntry or Stall
        What names the page.
    """

    flaps: str
    gear: str
    weight: Figure
    ias: Figure | None
    cas: Figure | None
    calibrated: float
    group: SpeedEntry | Stall


def of_gear(speeds: Iterable[StallSpeed], gear: str, usual: str) -> list[StallSpeed]:
    """Return the speeds of a gear, or else those of which the manual does not say.

    Where no gear is asked for, those come first, then those of the usual gear,
    then whichever there are.
    """
    known = list(speeds)
    for wanted in (gear, "") if gear else ("", usual):
        found = [one for one in known if one.gear == wanted]
        if found:
            return found
    return [] if gear else known


def next_heavier(speeds: Sequence[StallSpeed], weight: float) -> StallSpeed | None:
    """Return the speed at a weight, or at the next heavier one that is known in CAS."""
    heavier = [
        one for one in speeds if float(one.weight) >= weight and not math.isnan(one.calibrated)
    ]
    return min(heavier, key=lambda one: float(one.weight), default=None)
