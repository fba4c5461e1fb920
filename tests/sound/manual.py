"""What the manual of a drawn aircraft prints, as the data of a type in today's format."""

import datetime
import itertools
import math
import random
from dataclasses import replace
from typing import Any

from .air import UNITS, air, cas_of_tas, tas_of_cas
from .craft import Craft
from .designs import KINDS, drawn
from .names import type_name
from .printed import Printed

Data = dict[str, Any]
_UNITS = {
    "glider": (("km/h", "m", "kg"), ("km/h", "m", "kg"), ("kt", "ft", "lb")),
    "single-engine": (
        ("kt", "ft", "lb"),
        ("kt", "ft", "kg"),
        ("mph", "ft", "lb"),
        ("km/h", "ft", "kg"),
    ),
    "multi-engine": (("kt", "ft", "lb"), ("kt", "ft", "kg"), ("mph", "ft", "lb")),
    "turbine": (("kt", "ft", "lb"), ("kt", "ft", "kg")),
}
_DENSE = {"gal/h": 3.785411784, "L/h": 1.0}  # litres in one
GEAR_UP = 0.004  # CD0 of an engine that stands still, its propeller feathered: from memory


def read(chance: random.Random) -> tuple[str, Printed]:
    """Draw an aircraft of some class, and the habits of its manual; a third round to 5."""
    name = chance.choice(tuple(KINDS))
    craft = drawn(chance, name)
    units = chance.choice(_UNITS[craft.kind])
    whole = round(craft.mass / UNITS[units[2]], -1)
    heavier = whole * UNITS[units[2]]
    craft = replace(craft, mass=heavier, loading=craft.loading * heavier / craft.mass)
    return name, Printed(craft, *units, step=5 if chance.random() < 1 / 3 else 1)


def manual(chance: random.Random, name: str, seen: Printed) -> Data:
    """Return what a type's file holds."""
    craft = seen.craft
    weights = sorted({seen.weigh(part) for part in (0.8, chance.uniform(0.86, 0.94))})
    maximum = round(craft.mass / UNITS[seen.weight])
    data: Data = {
        "name": type_name(chance),
        "kind": craft.kind,
        "manual": _manual(chance),
        "units": {"speed": seen.speed, "altitude": seen.altitude, "weight": seen.weight},
        "weights": {"maximum": maximum, "others": weights, "page": "2-6"},
    }
    if len(craft.flaps) > 1:
        data["flaps"] = [flap.name for flap in craft.flaps]
    if craft.kind == "glider":
        data["speeds"] = _of_glider(chance, seen, weights[0])
    else:
        data["speeds"] = _of_aeroplane(chance, name, seen, weights[0])
        data["stall"] = _stall(chance, seen, maximum)
    data["markings"] = markings(seen, data["speeds"])
    data["calibration"] = _calibration(chance, seen, weights[0])
    ratio = craft.glide()[1]
    data["glide"] = {"ratio": round(ratio, None if craft.kind == "glider" else 1), "page": "3-5"}
    # 14 CFR 23.233: at least 0.2 VS0.
    wind = max(chance.choice((10, 12, 15, 20)), 0.2 * craft.stall() / UNITS["kt"])
    data["crosswind"] = {
        "demonstrated": math.floor(wind * UNITS["kt"] / UNITS[seen.speed]),
        "page": "4-9",
    }
    if craft.kind == "turbine":
        data["maximum operating altitude"] = {"altitude": 25000, "page": "2-4"}
    _add_cruise(chance, seen, data, weights[-1])
    return data


def _manual(chance: random.Random) -> Data:
    return {
        "title": chance.choice(("Flight manual", "Pilot's handbook", "Owner's manual")),
        "number": f"{chance.choice('BDGKPTVZ')}{chance.randrange(100, 999)}",
        "revision": str(chance.randrange(1, 20)),
        "date": datetime.date(1955, 1, 1) + datetime.timedelta(chance.randrange(25_000)),
    }


def _on(page: str, *parts: Data, **conditions: Any) -> Data:
    return {
        **conditions,
        **{key: value for part in parts for key, value in part.items()},
        "page": page,
    }


def _of_aeroplane(chance: random.Random, name: str, seen: Printed, lighter: int) -> Data:
    craft, last = seen.craft, len(seen.craft.flaps) - 1
    maximum, names = round(craft.mass / UNITS[seen.weight]), [flap.name for flap in craft.flaps]
    weights = ((maximum, 0.0), (lighter, seen.mass(lighter)))
    # A manual of a small aeroplane has VA; one of a turbine VO, by 14 CFR 23.1507 (from memory).
    manoeuvre = "VO" if craft.kind == "turbine" else "VA"
    speeds: Data = {
        "VS0": _on("5-9", seen.stall(last)),
        "VS1": [_on("5-9", seen.stall(n), flaps=names[n]) for n in range(last)],
        manoeuvre: [_on("2-3", seen.manoeuvring(mass), weight=at) for at, mass in weights],
        "VFE": [
            _on("2-3", seen.most(craft.flap_speeds[n - 1], n), flaps=names[n])
            for n in range(1, last + 1)
        ],
        # 1.3 VS0 by 14 CFR 23.73.
        "VREF": _on("4-3", seen.least(1.3 * craft.stall(last), last), flaps=names[last]),
        "best glide": [
            _on("3-4", seen.target(craft.glide(mass)[0]), weight=at, flaps=names[0])
            for at, mass in weights
        ],
        "VX": _climb(seen, craft.best_angle),
        "VY": _climb(seen, craft.best_rate),
    }
    rotation = 1.12 * craft.stall(1)
    if name == "twin":
        speeds |= _of_one_engine(chance, seen)
        # 14 CFR 23.51(a)(1): the greater of 1.05 VMC and 1.10 VS1.
        rotation = max(rotation, 1.06 * UNITS[seen.speed] * speeds["VMC"]["cas"])
    speeds["VR"] = _on("4-2", seen.least(rotation, 1), flaps=names[1])
    if craft.kind == "turbine":
        top = crossover_mach(craft, chance.uniform(5000, 7000))
        speeds |= {
            "VMO": _on("2-3", seen.most(craft.never_exceed)),
            "MMO": _on("2-3", {"mach": top}),
        }
    else:
        speeds["VNO"] = _on("2-3", seen.most(craft.cruise_speed))
        speeds["VNE"] = _on("2-3", seen.most(craft.never_exceed))
    if name != "fixed gear":
        down = seen.most(chance.uniform(0.84, 0.92) * craft.cruise_speed)
        up = seen.most(0.74 * craft.cruise_speed)
        speeds["VLE"] = _on("2-3", down)
        speeds["VLO"] = [_on("2-3", down, gear="down"), _on("2-3", up, gear="up")]
    return speeds


def crossover_mach(craft: Craft, height: float) -> float:
    """Return the Mach number, to a hundredth, that VMO is near a height."""
    here = air(height)
    return round(tas_of_cas(craft.never_exceed, here) / here.sound, 2)


def _of_one_engine(chance: random.Random, seen: Printed) -> Data:
    craft = seen.craft
    names = [flap.name for flap in craft.flaps]
    # 14 CFR 23.149(c): VMC is no more than 1.2 VS1.
    control = craft.stall() * chance.uniform(1.01, 1.05)
    return {
        "VMC": _on("2-3", seen.least(control), flaps=names[0]),
        "VSSE": _on("3-4", seen.least(1.13 * control)),
        "VXSE": _on("3-4", seen.target(craft.best_angle(0, 1, GEAR_UP))),
        "VYSE": _on("3-4", seen.target(craft.best_rate(0, 1, GEAR_UP))),
    }


def _climb(seen: Printed, best) -> list[Data] | Data:
    """Return a climb speed at sea level, and at a height where the aircraft climbs well yet."""
    top = seen.height(10000)
    at_sea = seen.target(best(0))
    if seen.craft.climb_rate(seen.craft.best_rate(top), top) < 1.0:
        return _on("4-2", at_sea)
    return [_on("4-2", at_sea, altitude=0), _on("4-2", seen.target(best(top)), altitude=10000)]


def _of_glider(chance: random.Random, seen: Printed, lighter: int) -> Data:
    craft = seen.craft
    maximum = round(craft.mass / UNITS[seen.weight])
    rough = seen.most(craft.cruise_speed)
    # CS-22.335, from memory: VW at least 110 km/h, VT at least 125 km/h.
    winch = max(1.6 * craft.stall(), 110 / 3.6)
    tow = max(1.2 * winch, 125 / 3.6)
    speeds: Data = {
        "VS1": _on("5-2", seen.stall()),
        "minimum sink": _on("5-4", seen.target(craft.least_sink())),
        "best glide": [
            _on("5-4", seen.target(craft.glide(mass)[0]), weight=at)
            for at, mass in ((maximum, 0.0), (lighter, seen.mass(lighter)))
        ],
        "approach": _on("4-5", seen.least(1.35 * craft.stall())),
        "VA": _on("2-2", rough),
        "VRA": _on("2-2", rough),
        "VW": _on("2-2", seen.least(winch)),
        "VT": _on("2-2", seen.least(tow)),
    }
    dive = seen.most(craft.never_exceed)
    speeds["VNE"] = _on("2-2", dive)
    if chance.random() < 0.5:
        # Flutter goes by TAS: what VNE is at some height is held above it (common practice).
        height = 3000 if seen.altitude == "m" else 10000
        here = air(seen.height(height))
        limit = math.floor(tas_of_cas(dive["cas"] * UNITS[seen.speed], here) / UNITS[seen.speed])
        speeds["VNE"] = [
            _on("2-2", dive),
            _on("2-3", {"tas": limit, "from altitude": height}),
        ]
    return speeds


def _first(entries: Any) -> Data:
    return entries[0] if isinstance(entries, list) else entries


def markings(seen: Printed, speeds: Data, of: str = "ias") -> Data:
    """Return the arcs by 14 CFR 23.1545 before Amendment 23-64, and CS-22.1545, from memory."""
    stall = _first(speeds["VS1"])[of]
    if seen.craft.kind == "glider":
        cas = 1.1 * seen.craft.stall()
        low = seen.shown(cas) if of == "ias" else seen.speed_of(cas)
        normal, most = speeds["VRA"][of], _first(speeds["VNE"])[of]
        return {
            "green": _on("2-4", {"from": low, "to": normal}),
            "yellow": _on("2-4", {"from": normal, "to": most}),
            "red line": _on("2-4", {"at": most}),
            "yellow triangle": _on("2-4", {"at": speeds["approach"][of]}),
        }
    white = {"from": speeds["VS0"][of], "to": speeds["VFE"][-1][of]}
    if seen.craft.kind == "turbine":
        most = speeds["VMO"][of]
        return {"white": _on("2-4", white), "red line": _on("2-4", {"at": most})}
    normal, most = speeds["VNO"][of], speeds["VNE"][of]
    arcs = {
        "white": _on("2-4", white),
        "green": _on("2-4", {"from": stall, "to": normal}),
        "yellow": _on("2-4", {"from": normal, "to": most}),
        "red line": _on("2-4", {"at": most}),
    }
    if seen.craft.engines > 1:
        arcs["blue line"] = _on("2-4", {"at": speeds["VYSE"][of]})
        arcs["red radial"] = _on("2-4", {"at": speeds["VMC"][of]})
    return arcs


def _calibration(chance: random.Random, seen: Printed, lighter: int) -> list[Data]:
    craft, unit = seen.craft, UNITS[seen.speed]
    mass = seen.mass(lighter) if chance.random() < 0.5 else 0.0
    tables = []
    for n, flap in enumerate(craft.flaps):
        shown = points(seen, craft.stall(n, mass), craft.top(n), n)
        one = {"flaps": flap.name, "page": "5-7", "ias": shown, "cas": seen.calibrated(shown, n)}
        tables.append(one if len(craft.flaps) > 1 else {k: one[k] for k in ("page", "ias", "cas")})
    if craft.alternate and chance.random() < 0.7:
        low = craft.alternate_ias(1.2 * craft.stall()) / unit
        high = craft.alternate_ias(craft.cruise_speed) / unit
        shown = [*range(math.ceil(low / 10) * 10, math.floor(high / 10) * 10 + 1, 20)]
        tables.append(
            {
                "flaps": craft.flaps[0].name,
                "static source": "alternate",
                "page": "5-8",
                "ias": shown,
                "cas": seen.of_alternate(shown),
            }
        )
    return tables


def points(seen: Printed, low: float, high: float, setting: int) -> list[int]:
    """Return the IAS of a calibration table, from below the stall to the highest speed."""
    unit, craft = UNITS[seen.speed], seen.craft
    first = math.floor(craft.ias(low, setting) / unit)
    last = math.ceil(craft.ias(high, setting) / unit) + 4
    step = 10 if last - first < 110 else 20
    inner = range(math.ceil((first + 4) / 10) * 10, last - 3, step)
    return [first, *inner, last]


def _stall(chance: random.Random, seen: Printed, maximum: int) -> Data:
    banks = chance.choice(((0, 30, 45, 60), (0, 20, 40, 60), (0, 30, 60)))
    rows = []
    for n, flap in enumerate(seen.craft.flaps):
        figures = [seen.stall(n, 0, bank) for bank in banks]
        row: Data = {"flaps": flap.name, "ias": [one["ias"] for one in figures]}
        rows.append({**row, "cas": [one["cas"] for one in figures]})
    return {"page": "5-9", "weight": maximum, "bank": [*banks], "rows": rows}


def _add_cruise(chance: random.Random, seen: Printed, data: Data, weight: int) -> None:
    """Add a cruise table, where the aircraft flies at the settings of one."""
    if seen.craft.engine is None:
        return
    columns, settings = _settings(chance, seen.craft)
    turbine = seen.craft.kind == "turbine"
    flow = (
        ("lb/h" if seen.weight == "lb" else "kg/h") if turbine else chance.choice(("gal/h", "L/h"))
    )
    mach = data["speeds"]["MMO"]["mach"] if turbine else 1.0
    rows = []
    heights = (10000, 15000, 20000, 25000) if turbine else (2000, 4000, 6000, 8000)
    for altitude, setting, isa in itertools.product(heights, settings, (-20, 0, 20)):
        power = _power(seen.craft, setting, seen.height(altitude), isa)
        tas = power and seen.craft.level_speed(power, seen.height(altitude), isa, seen.mass(weight))
        if tas and _is_cruise(seen.craft, tas, seen.height(altitude), isa, mach):
            brake = round(100 * power / seen.craft.engine.power / seen.craft.engines)
            fuel = _flow(seen.craft, power, flow)
            shown = [] if turbine else [brake]
            rows.append([altitude, *setting, isa, *shown, seen.speed_of(tas), fuel])
    if len({row[0] for row in rows}) > 1:
        results = ["tas", "fuel flow"] if turbine else ["power", "tas", "fuel flow"]
        data["units"]["fuel flow"] = flow
        data["cruise"] = {
            "page": "5-14",
            "weight": weight,
            "columns": ["altitude", *columns, "isa", *results],
            "rows": rows,
        }


def _settings(chance: random.Random, craft: Craft) -> tuple[list[str], list[tuple[float, ...]]]:
    if craft.kind == "turbine":
        return ["torque"], [(100,), (90,), (80,)]
    most = round(craft.engine.rpm)
    if craft.engine.kind == "fixed":
        return ["rpm"], [(most - 100,), (most - 250,), (most - 400,)]
    return ["rpm", "manifold pressure"], [(most - 100, 24), (most - 200, 22), (most - 300, 20)]


def _power(craft: Craft, setting: tuple[float, ...], height: float, isa: float) -> float:
    """Return the power of all engines in W, or none where a setting is not to be had.

    By propeller law with fixed pitch; by manifold pressure over the friction of the engine, and
    the root of the warmth of the air, with constant speed (textbooks, from memory).
    """
    engine, here = craft.engine, air(height, isa)
    whole = engine.power * craft.engines
    if engine.kind == "turboprop":
        power = engine.power * setting[0] / 100 * 0.9
        return power * craft.engines if power <= engine.available(here) else 0.0
    if engine.kind == "fixed":
        return whole * (setting[0] / engine.rpm) ** 2.7 * here.sigma**0.75
    if setting[1] * 3386.39 > 0.97 * here.pressure:
        return 0.0
    pull = (setting[1] - 3.2 + height / 2100) / 26.5
    warmth = (air(height).temperature / here.temperature) ** 0.5
    return whole * pull * setting[0] / engine.rpm * warmth


def _is_cruise(craft: Craft, tas: float, height: float, isa: float, mach: float) -> bool:
    """Whether a speed is clear of the stall, and within normal operation."""
    here = air(height, isa)
    slow, fast = 1.35 * craft.stall(), 0.99 * craft.cruise_speed
    return slow < cas_of_tas(tas, here) < fast and tas / here.sound < mach - 0.005


def _flow(craft: Craft, power: float, unit: str) -> float:
    hourly = power * craft.engine.consumption * 3600
    if unit in UNITS or unit.removesuffix("/h") in UNITS:
        return round(hourly / UNITS[unit.removesuffix("/h")])
    return round(hourly / craft.engine.fuel_density / _DENSE[unit], 1)
