"""How far a figure may be off before anybody could tell: the one definition of a clear slip.

It asks nothing of the checks. Three figures are compared where a speed is held against a table:
its IAS, its CAS and the table's, each rounded by half a unit. So a slip of no more than 1.5 units
in the last place is one that honest rounding may be. A row of results that are all multiples of
10, as an altimeter's corrections, is rounded to that. And a speed that stands once, in one measure,
is told by physics no nearer than true aircraft scatter: by `SCATTER` of itself, to either side.
"""

import itertools
from collections.abc import Iterator
from typing import Any

from cardgen.definition.places import Block, Figure

ROUNDING = 1.5  # units in the last place: IAS, CAS and table, half a unit each
SCATTER = {  # half of what drawn aircraft differ by in it, against what tells it best, or less
    "VX": 0.05,
    "VY": 0.06,
    "best glide": 0.06,
    "VR": 0.05,
    "VYSE": 0.04,
    "VXSE": 0.04,
    "VSSE": 0.02,
    "minimum sink": 0.04,
    "approach": 0.03,
}
AGAINST = {  # what tells it best: another speed, or the stall with flaps up
    "VX": "stall",
    "VY": "best glide",
    "best glide": "VY",
    "VR": "stall",
    "VYSE": "best glide",
    "VXSE": "VYSE",
    "VSSE": "VMC",
    "minimum sink": "best glide",
    "approach": "stall",
}
CHOSEN = 0.05  # of a speed that a manual chooses: of its own name, of the winch, the tow
WIND = 0.2  # of a crosswind, which is what wind there was on the day: common practice
GLIDE = 0.05  # of a glide's ratio or distance, which is flown, and printed for a height
HEIGHT = 0.4  # of the altitude of a climb speed: by 10,000 ft it falls by 10 %, more or less by 4
WEIGHT = 0.25  # of what a cruise table holds for: a quarter of it is 2 % of TAS
WARMTH = 10.0  # the same of its temperature: 10 degrees are 1 % of TAS
_FEW = 4  # rows by altitude, that tell nothing of each other
_CLIMBS = ("VX", "VY", "VXSE", "VYSE")
_CHOSEN = ("VW", "VT", "winch minimum", "aerotow minimum")


def tolerance(holder: Any, at: Any, scatter: dict[int, float]) -> float:
    """Return how far a figure may be off before anybody could tell."""
    figure: Figure = holder[at]
    known = {"demonstrated": WIND, "ratio": GLIDE, "distance": GLIDE}
    share = scatter.get(id(holder), 0.0) if at in ("ias", "cas") else known.get(at, 0.0)
    if at == "altitude" and id(holder) in scatter:
        share = HEIGHT
    if "columns" in holder and at in ("weight", "isa", "oat"):
        return WEIGHT * abs(figure) if at == "weight" else WARMTH
    return 1.001 * ROUNDING * _unit(holder, figure) + share * abs(figure)


def scatters(block: Block) -> dict[int, float]:
    """Return by what part of itself each speed that stands once is uncertain, by its entry."""
    return {id(entry): share for entry, share in _alone(block)}


def _alone(block: Block) -> Iterator[tuple[Any, float]]:
    for group in ("speeds", "other speeds"):
        for name, entries in block.get(group, {}).items():
            usual = CHOSEN if group == "other speeds" or name in _CHOSEN else 0.0
            rows = entries if isinstance(entries, list) else [entries]
            by_altitude = name in _CLIMBS and len(rows) < _FEW
            for entry in rows if len(rows) == 1 or by_altitude else ():
                if not {"ias", "cas"} <= entry.keys():
                    yield entry, SCATTER.get(name, usual)


def _unit(holder: Any, figure: Figure) -> float:
    """Return what a figure is rounded to; rows that a table is entered by rise, and are exact."""
    if isinstance(holder, list) and len(holder) > 3 and all(type(one) is Figure for one in holder):
        rises = all(a < b for a, b in itertools.pairwise(holder))
        if not rises and all(one % 10 == 0 for one in holder):
            return 10.0
    return last_place(figure.text)


def last_place(text: str) -> float:
    """Return what one is worth in the last place of a figure; trailing zeros say nothing."""
    return 10.0 ** -len(text.partition(".")[2])
