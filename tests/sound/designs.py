"""An invented aircraft drawn from the ranges of its class, and sized by the airworthiness rules."""

import random
from dataclasses import replace

from .craft import Craft, Engine, Flap, with_limits
from .ranges import CLASSES, ERRORS, Range

KINDS = {
    "fixed gear": "single-engine",
    "retractable": "single-engine",
    "twin": "multi-engine",
    "turboprop": "turbine",
    "glider": "glider",
}
FLAPS = {
    "fixed gear": (
        ("0", "10", "35"),
        ("0", "15", "30"),
        ("0", "20", "40"),
        ("0", "10", "20", "40"),
    ),
    "retractable": (("0", "10", "40"), ("0", "10", "25", "40"), ("0", "15", "30")),
    "twin": (("0", "10", "40"), ("0", "15", "35"), ("0", "10", "25", "40")),
    "turboprop": (("0", "15", "35"), ("0", "20", "40"), ("0", "10", "20", "40")),
    "glider": (("0",),),
}
_KNOT = 1852 / 3600


def drawn(chance: random.Random, name: str) -> Craft:
    """Return an aircraft of a class."""

    def draw(quantity: str) -> float:
        return _draw(chance, CLASSES[name][quantity])

    craft = Craft(
        kind=KINDS[name],
        mass=draw("mass"),
        loading=draw("wing loading"),
        aspect=draw("aspect ratio"),
        oswald=draw("Oswald factor"),
        drag=draw("zero-lift drag"),
        idle_drag=0.0 if name == "glider" else draw("drag of a dead propeller"),
        flaps=_flaps(chance, name, draw),
        load_factor=draw("load factor"),
        alternate=0.0 if name == "glider" else _draw(chance, ERRORS["of the alternate source"]),
    )
    if name != "glider":
        count = 2 if name == "twin" else 1
        craft = replace(craft, engines=count, engine=_engine(name, craft, count, draw))
    return sized(craft, chance.uniform(1.0, 1.06))


def _draw(chance: random.Random, range_: Range) -> float:
    return chance.uniform(range_.low, range_.high)


def _flaps(chance: random.Random, name: str, draw) -> tuple[Flap, ...]:
    settings = chance.choice(FLAPS[name])
    clean, last = draw("CL max clean"), float(settings[-1])
    gain = draw("gain of full flaps") if last else 0.0
    at_stall, at_top = (
        _draw(chance, ERRORS[f"of IAS at the {end}"]) for end in ("stall", "highest speed")
    )
    # The first degrees of a flap give the most lift (textbooks, from memory).
    return tuple(
        Flap(
            setting,
            clean + gain * (float(setting) / last) ** 0.7 if last else clean,
            at_stall * (1 - 0.1 * n),
            at_top * 0.7**n,
        )
        for n, setting in enumerate(settings)
    )


def _engine(name: str, craft: Craft, count: int, draw) -> Engine:
    turbine, fixed = name == "turboprop", name == "fixed gear"
    return Engine(
        kind="turboprop" if turbine else "fixed" if fixed else "constant",
        power=craft.mass / draw("power loading") * 1000 / count,
        rpm=round(draw("rpm"), -2),
        efficiency=draw("propeller efficiency"),
        best_speed=craft.stall() * (2.3 if fixed else 2.5),
        consumption=draw("consumption") / 3.6e6,
        critical=5000.0 if turbine else 0.0,
        fuel_density=0.80 if turbine else 0.72,
    )


def sized(craft: Craft, margin: float) -> Craft:
    """Give an aircraft the speeds that its structure is built for, with so much to spare.

    14 CFR 23.335 and 23.1505, from memory: VC is at least 33 times the root of the wing loading in
    lb/ft2 but need not be above 0.9 VH, VD is 1.4 times the least VC, VNE 0.9 VD, and VNO no more
    than 0.89 VNE; flaps by 23.345: 1.4 VS or 1.8 VSF. Gliders by CS-22.335 have VA = VS root n,
    and here a VNE of 1.45 VA (common practice).
    """
    manoeuvre = manoeuvring(craft)
    if craft.kind == "glider":
        return with_limits(craft, manoeuvre, 1.42 * manoeuvre * margin, ())
    foot = craft.loading / 0.45359237 * 0.3048**2
    least = min(33 * foot**0.5 * _KNOT, 0.9 * craft.full_speed())
    cruise = max(least, 1.12 * manoeuvre) * margin
    dive = cruise if craft.kind == "turbine" else 0.9 * 1.4 * cruise
    flaps = tuple(
        max(1.4 * craft.stall(), 1.8 * craft.stall(n))
        * margin
        * (1 + 0.12 * (len(craft.flaps) - 1 - n))
        for n in range(1, len(craft.flaps))
    )
    return with_limits(craft, cruise, dive, flaps)


def manoeuvring(craft: Craft, mass: float = 0) -> float:
    """Return VA, VS root n (14 CFR 23.335(c), CS-22.335)."""
    return craft.stall(0, mass) * craft.load_factor**0.5
