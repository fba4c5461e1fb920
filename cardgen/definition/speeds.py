"""The V-speeds: what each means, which way it bounds, and which kinds of aircraft have it.

Meanings follow 14 CFR 1.2 and, for gliders, CS-22, in words of our own. A new
speed is one new entry in `SPEEDS`.
"""

from enum import Enum
from typing import Literal, NamedTuple, get_args

Kind = Literal["single-engine", "multi-engine", "glider", "turbine"]
KINDS: tuple[str, ...] = get_args(Kind)


class Sense(Enum):
    """Which way a speed bounds, and so which way it may be rounded."""

    MAXIMUM = "not above"
    MINIMUM = "not below"
    TARGET = "fly"


class Speed(NamedTuple):
    """A speed that a manual gives."""

    meaning: str
    sense: Sense
    kinds: tuple[str, ...]
    required: tuple[str, ...] = ()


_AEROPLANES = ("single-engine", "multi-engine", "turbine")
_PISTON = ("single-engine", "multi-engine")

SPEEDS: dict[str, Speed] = {
    "VS0": Speed("Stall, landing configuration", Sense.MINIMUM, KINDS, _AEROPLANES),
    "VS1": Speed("Stall, as configured", Sense.MINIMUM, KINDS, KINDS),
    "VMC": Speed(
        "Minimum control, one engine out",
        Sense.MINIMUM,
        ("multi-engine", "turbine"),
        ("multi-engine",),
    ),
    "VSSE": Speed("Safe intentional one engine out", Sense.MINIMUM, ("multi-engine",)),
    "VR": Speed("Rotation", Sense.MINIMUM, _AEROPLANES),
    "VX": Speed("Best angle of climb", Sense.TARGET, _AEROPLANES),
    "VY": Speed("Best rate of climb", Sense.TARGET, _AEROPLANES),
    "VXSE": Speed("Best angle, one engine out", Sense.TARGET, ("multi-engine",)),
    "VYSE": Speed(
        "Best rate, one engine out", Sense.TARGET, ("multi-engine", "turbine"), ("multi-engine",)
    ),
    "best glide": Speed("Best glide", Sense.TARGET, KINDS),
    "minimum sink": Speed("Minimum sink", Sense.TARGET, ("glider",)),
    "approach": Speed("Approach, at maximum weight", Sense.MINIMUM, ("glider",)),
    "VREF": Speed("Landing reference", Sense.MINIMUM, _AEROPLANES),
    "VA": Speed("Manoeuvring", Sense.MAXIMUM, KINDS),
    "VO": Speed("Operating manoeuvring", Sense.MAXIMUM, _AEROPLANES),
    "VRA": Speed("Rough air", Sense.MAXIMUM, ("glider",)),
    "VW": Speed("Winch launch", Sense.MAXIMUM, ("glider",)),
    "VT": Speed("Aerotow", Sense.MAXIMUM, ("glider",)),
    "VFE": Speed("Flaps extended", Sense.MAXIMUM, KINDS, _AEROPLANES),
    "VLO": Speed("Landing gear operating", Sense.MAXIMUM, KINDS),
    "VLE": Speed("Landing gear extended", Sense.MAXIMUM, KINDS),
    "VNO": Speed("Maximum structural cruise", Sense.MAXIMUM, _PISTON, _PISTON),
    "VNE": Speed("Never exceed", Sense.MAXIMUM, (*_PISTON, "glider"), (*_PISTON, "glider")),
    "VMO": Speed("Maximum operating", Sense.MAXIMUM, ("turbine",), ("turbine",)),
    "MMO": Speed("Maximum operating Mach number", Sense.MAXIMUM, ("turbine",), ("turbine",)),
}
