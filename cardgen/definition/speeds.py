"""The V-speeds: what each means, which way it bounds, and which kinds of aircraft have it.

Meanings follow 14 CFR 1.2 and, for gliders, CS-22, in words of our own. A new
speed is one new entry in `SPEEDS`.
"""

from typing import Literal, NamedTuple, get_args

Kind = Literal["single-engine", "multi-engine", "glider", "turbine"]
KINDS: tuple[str, ...] = get_args(Kind)


Sense = Literal["maximum", "minimum", "target"]
"""Which way a speed bounds, and so which way it may be rounded."""


class Speed(NamedTuple):
    """A speed that a manual gives."""

    meaning: str
    sense: Sense
    kinds: tuple[str, ...]
    required: tuple[str, ...] = ()


_AEROPLANES = ("single-engine", "multi-engine", "turbine")
_PISTON = ("single-engine", "multi-engine")

SPEEDS: dict[str, Speed] = {
    "VS0": Speed("Stall, landing configuration", "minimum", KINDS, _AEROPLANES),
    "VS1": Speed("Stall, as configured", "minimum", KINDS, KINDS),
    "VMC": Speed(
        "Minimum control, one engine out",
        "minimum",
        ("multi-engine", "turbine"),
        ("multi-engine",),
    ),
    "VSSE": Speed("Safe intentional one engine out", "minimum", ("multi-engine",)),
    "VR": Speed("Rotation", "minimum", _AEROPLANES),
    "VX": Speed("Best angle of climb", "target", _AEROPLANES),
    "VY": Speed("Best rate of climb", "target", _AEROPLANES),
    "VXSE": Speed("Best angle, one engine out", "target", ("multi-engine",)),
    "VYSE": Speed(
        "Best rate, one engine out", "target", ("multi-engine", "turbine"), ("multi-engine",)
    ),
    "best glide": Speed("Best glide", "target", KINDS),
    "minimum sink": Speed("Minimum sink", "target", ("glider",)),
    "approach": Speed("Approach, at maximum weight", "minimum", ("glider",)),
    "VREF": Speed("Landing reference", "minimum", _AEROPLANES),
    "VA": Speed("Manoeuvring", "maximum", KINDS),
    "VO": Speed("Operating manoeuvring", "maximum", _AEROPLANES),
    "VRA": Speed("Rough air", "maximum", ("glider",)),
    "VW": Speed("Winch launch", "maximum", ("glider",)),
    "VT": Speed("Aerotow", "maximum", ("glider",)),
    "VFE": Speed("Flaps extended", "maximum", KINDS, _AEROPLANES),
    "VLO": Speed("Landing gear operating", "maximum", KINDS),
    "VLE": Speed("Landing gear extended", "maximum", KINDS),
    "VNO": Speed("Maximum structural cruise", "maximum", _PISTON, _PISTON),
    "VNE": Speed("Never exceed", "maximum", (*_PISTON, "glider"), (*_PISTON, "glider")),
    "VMO": Speed("Maximum operating", "maximum", ("turbine",), ("turbine",)),
    "MMO": Speed("Maximum operating Mach number", "maximum", ("turbine",), ("turbine",)),
}
