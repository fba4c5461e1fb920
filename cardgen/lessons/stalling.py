"""The stall in a case, by the stall speeds of a document."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.air.load import load_factor, speed_ratio
from cardgen.document.record import Bound
from cardgen.lessons.curves import NORMAL, Chain
from cardgen.units import to_si


@dataclass(frozen=True)
class Stall:
    """The stall at a weight and bank; what is not known is not a number.

    Attributes
    ----------
    known : Bound, optional
        The manual's speed that it is as, or was reckoned from.
    load : float
        Load factor of the bank.
    shown : float
        What the indicator shows, in its own unit.
    cas : float
        In the manual's unit.
    given : bool
        Whether the manual gives it for this very weight and bank.
    heaviest : float
        Where nothing is known, the heaviest weight that it can be reckoned from; not a number
        where there is none.
    """

    known: Bound | None
    load: float
    shown: float = math.nan
    cas: float = math.nan
    given: bool = False
    heaviest: float = math.nan


def stall_of(
    chain: Chain, flaps: str, gear: str, weight: float, bank: float, source: str = NORMAL
) -> Stall:
    """Return the stall of a case, as the table of stall speeds prints it.

    Parameters
    ----------
    chain : Chain
    flaps, gear : str
    weight : float
        In the manual's unit.
    bank : float
        deg.
    source : str
        The static source, which is in what the indicator shows.

    Returns
    -------
    Stall
        As the manual gives it; or from the next heavier weight that it gives one for,
        times the square root of the ratio of weights and the load factor
        (FAA-H-8083-25B, chapter 5). Nothing above the heaviest.

    Raises
    ------
    OutOfBoundsError
        If the bank is negative or a right angle or more, or the weight not above zero.
    """
    load = float(load_factor(to_si(bank, "deg")))
    fitting = _of_gear(
        chain, [one for one in chain.document.basis.stall if one.flaps == flaps], gear
    )
    exact = [one for one in fitting if (one.weight, one.bank) == (weight, bank)]
    if exact:
        known = exact[-1]  # the rows of the manual's own table stand last
        cas = math.nan if known.cas is None else known.cas
        by_ias = known.quantity == "ias" and source == NORMAL
        shown = chain.shown_at_ias(known.value) if by_ias else math.nan
        if not by_ias:
            shown = chain.shown_at_cas(cas, flaps, source, gear)
        return Stall(known, load, shown, cas, given=True)
    level = [one for one in fitting if not one.bank and one.cas is not None]
    heavier = [one for one in level if (one.weight or 0.0) >= weight]
    next_heavier = min(heavier, key=lambda one: one.weight or 0.0, default=None)
    if next_heavier is None:
        heaviest = max((one.weight or 0.0 for one in level), default=math.nan)
        return Stall(None, load, heaviest=heaviest)
    share = weight / (next_heavier.weight or 0.0)
    cas = (next_heavier.cas or 0.0) * float(speed_ratio(share, load))
    return Stall(next_heavier, load, chain.shown_at_cas(cas, flaps, source, gear), cas)


def _of_gear(chain: Chain, speeds: Sequence[Bound], gear: str) -> list[Bound]:
    """Return the speeds of a gear, or those of which the manual does not say; else of the usual."""
    flaps = chain.document.basis.flaps
    extended = bool(speeds) and speeds[0].flaps == flaps[-1] != flaps[0]
    usual = "down" if extended else "up"
    for wanted in (gear, "") if gear else ("", usual):
        found = [one for one in speeds if one.gear == wanted]
        if found:
            return found
    return [] if gear else list(speeds)
