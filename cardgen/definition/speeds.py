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
_TWINS = ("multi-engine", "turbine")  # of turbines those with two engines

# In the order in which they are looked for: what is not to be exceeded, then what is flown.
SPEEDS: dict[str, Speed] = {
    "VNE": Speed("Never exceed", "maximum", (*_PISTON, "glider"), (*_PISTON, "glider")),
    "VMO": Speed("Maximum operating", "maximum", ("turbine",), ("turbine",)),
    "MMO": Speed("Maximum operating Mach number", "maximum", ("turbine",)),
    "VNO": Speed("Maximum structural cruise", "maximum", _PISTON),
    "VRA": Speed("Rough air", "maximum", KINDS),
    "VB": Speed("Maximum gust intensity", "maximum", _AEROPLANES),
    "VA": Speed("Manoeuvring", "maximum", KINDS),
    "VO": Speed("Operating manoeuvring", "maximum", _AEROPLANES),
    "VFE": Speed("Flaps extended", "maximum", KINDS, _AEROPLANES),
    "VLE": Speed("Landing gear extended", "maximum", KINDS),
    "VLO": Speed("Landing gear operating", "maximum", KINDS),
    "VW": Speed("Winch launch", "maximum", ("glider",)),
    "VT": Speed("Aerotow", "maximum", ("glider",)),
    "VS1": Speed("Stall, as configured", "minimum", KINDS, KINDS),
    "VS0": Speed("Stall, landing configuration", "minimum", KINDS, _AEROPLANES),
    "VMC": Speed(
        "Minimum control, one engine out",
        "minimum",
        _TWINS,
        ("multi-engine",),
    ),
    "VSSE": Speed("Safe intentional one engine out", "minimum", _TWINS),
    "VYSE": Speed("Best rate, one engine out", "target", _TWINS, ("multi-engine",)),
    "VXSE": Speed("Best angle, one engine out", "target", _TWINS),
    "best glide": Speed("Best glide", "target", KINDS),
    "VREF": Speed("Landing reference", "minimum", _AEROPLANES),
    "approach": Speed("Approach", "minimum", ("glider",)),
    "VY": Speed("Best rate of climb", "target", KINDS),
    "VX": Speed("Best angle of climb", "target", KINDS),
    "VR": Speed("Rotation", "minimum", _AEROPLANES),
    "minimum sink": Speed("Minimum sink", "target", ("glider",)),
    "winch minimum": Speed("Winch launch, at the least", "minimum", ("glider",)),
    "aerotow minimum": Speed("Aerotow, at the least", "minimum", ("glider",)),
}
