"""The same aircraft in the ways of other manuals, in format 2: no figure of them is made anew here.

Each style is a function that rewrites one part of a type's data as some manuals print it. Which of
them a seed's manual has is drawn.
"""

import copy
import math
import random
from collections.abc import Callable
from typing import Any

from .air import UNITS, air, cas_of_tas, crossover, tas_of_cas
from .manual import markings
from .printed import Printed

Data = dict[str, Any]
_DISTANCES = {"kt": ("nm", 1852.0), "mph": ("mi", 1609.344), "km/h": ("km", 1000.0)}
Style = Callable[[random.Random, Printed, Data], None]


def restyled(
    chance: random.Random, seen: Printed, said: Data, airframe: Data, school: Data
) -> tuple[Data, Data, Data]:
    """Return a type, an airframe and a school in format 2, in styles that are drawn."""
    said, airframe, school = copy.deepcopy((said, airframe, school))
    for style in STYLES:
        if chance.random() < 0.6:
            style(chance, seen, said)
    _bench(chance, airframe)
    if chance.random() < 0.5:
        _own_grid(seen, said, airframe["type"], school)
    return tuple({"format": 2, **data} for data in (said, airframe, school))  # type: ignore[return-value]


def _differences(chance: random.Random, seen: Printed, said: Data) -> None:
    """A calibration table as what to add to IAS, or subtract, or subtract from CAS."""
    for table in said["calibration"]:
        if table.get("static source"):
            continue
        more = [c - i for i, c in zip(table["ias"], table["cas"], strict=True)]
        way = chance.choice(("pairs", "add to ias", "subtract from ias", "subtract from cas"))
        if way == "add to ias":
            table[way] = more
            del table["cas"]
        elif way == "subtract from ias":
            table[way] = [-one for one in more]
            del table["cas"]
        elif way == "subtract from cas":
            table[way] = more
            del table["ias"]


def _of_normal_source(chance: random.Random, seen: Printed, said: Data) -> None:
    """The alternate source as IAS of the normal one, or as what makes it so."""
    unit, craft = UNITS[seen.speed], seen.craft
    for table in said["calibration"]:
        if table.get("static source"):
            cas = [craft.cas_of_alternate(ias * unit) for ias in table["ias"]]
            normal = [seen.shown(one) for one in cas]
            del table["cas"]
            if chance.random() < 0.5:
                table["normal ias"] = normal
            else:
                less = [a - b for a, b in zip(table["ias"], normal, strict=True)]
                table |= {"subtract from ias": less, "gives": "normal IAS"}


def _above_the_stall(chance: random.Random, seen: Printed, said: Data) -> None:
    """Tables that begin above the stall, as many do."""
    for table in said["calibration"]:
        for key, figures in table.items():
            if isinstance(figures, list) and len(figures) > 5:
                table[key] = figures[2:]


def _gear(chance: random.Random, seen: Printed, said: Data) -> None:
    """Which way the gear is, where it can be raised."""
    if "VLE" in said["speeds"]:
        first = seen.craft.flaps[0].name
        for row in (*said["calibration"], *said["stall"]["rows"]):
            row["gear"] = "up" if row["flaps"] == first else "down"


def _several_settings(chance: random.Random, seen: Printed, said: Data) -> None:
    """VFE of several settings in one line: the lowest holds for all of them."""
    entries = said["speeds"].get("VFE", ())
    if len(entries) > 2:
        last = entries[-1]
        together = {**last, "flaps": [entries[-2]["flaps"], last["flaps"]]}
        said["speeds"]["VFE"] = [*entries[:-2], together]


def _one_of_the_two(chance: random.Random, seen: Printed, said: Data) -> None:
    """Speeds in IAS only, or limits in CAS only."""
    of, without = chance.choice((("ias", "cas"), ("cas", "ias")))
    for entries in said["speeds"].values():
        for entry in entries if isinstance(entries, list) else [entries]:
            if of in entry:
                entry.pop(without, None)


def _painted_in_cas(chance: random.Random, seen: Printed, said: Data) -> None:
    if seen.craft.kind != "glider" and all("cas" in one for one in _marked(said)):
        said["markings"] = {"speeds are": "CAS", **markings(seen, said["speeds"], "cas")}


def _marked(said: Data) -> list[Data]:
    names = ("VS0", "VS1", "VFE", "VNO", "VNE", "VMO", "VYSE", "VMC")
    every = [said["speeds"].get(name, []) for name in names]
    return [one for some in every for one in (some if isinstance(some, list) else [some])]


def _other_marks(chance: random.Random, seen: Printed, said: Data) -> None:
    """A triangle at VFE of the first flaps, and a setting that has no mark."""
    entries = said["speeds"].get("VFE", ())
    of = "cas" if said["markings"].get("speeds are") == "CAS" else "ias"
    if len(entries) > 1 and chance.random() < 0.6:
        first = entries[0]
        mark = {"name": "white triangle", "at": first[of], "means": f"flaps {first['flaps']}"}
        said["markings"]["other marks"] = [{**mark, "page": "2-4"}]
    elif len(entries) > 1:
        said["markings"]["not marked"] = [f"flaps {entries[0]['flaps']}"]


def _by_altitude(chance: random.Random, seen: Printed, said: Data) -> None:
    """VNE of a glider by altitude, as a TAS that is held; VMO of a turbine, as a Mach number is."""
    name = "VMO" if seen.craft.kind == "turbine" else "VNE"
    if seen.craft.kind not in ("turbine", "glider"):
        return
    entries, unit = said["speeds"][name], UNITS[seen.speed]
    first = entries[0] if isinstance(entries, list) else entries
    low, step = (2000, 1000) if seen.altitude == "m" else (6000, 3000)
    held = tas_of_cas(seen.craft.cas(first["ias"] * unit), air(seen.height(low)))
    if name == "VMO":
        meeting = crossover(first["cas"] * unit, said["speeds"]["MMO"]["mach"])
        low = math.floor(meeting / UNITS["ft"] / 1000) * 1000
    rows = [{**first, "altitude": low}]
    for altitude in range(low + step, low + 5 * step, step):
        here = air(seen.height(altitude))
        tas = held if name == "VNE" else said["speeds"]["MMO"]["mach"] * here.sound
        ias = math.floor(seen.craft.ias(cas_of_tas(tas, here)) / unit)
        rows.append({"ias": min(ias, rows[-1]["ias"]), "altitude": altitude, "page": "2-3"})
    if chance.random() < 0.5:
        rows = [{**row, "between": "interpolate"} for row in rows]
    said["speeds"][name] = rows


def _other_speeds(chance: random.Random, seen: Printed, said: Data) -> None:
    """Speeds by the names of the manual; those that are flown as ranges."""
    craft = seen.craft
    if craft.kind == "glider":
        said["other speeds"] = {
            "airbrakes": _on(seen.most(craft.cruise_speed), "2-2", sense="maximum"),
            "aerotow": {"ias": _range(seen, 1.6 * craft.stall()), "page": "4-5"},
        }
        return
    names = [flap.name for flap in craft.flaps]
    last = len(names) - 1
    best = craft.best_rate(0)
    glide = craft.glide()[0]
    said["other speeds"] = {
        "engine failure after take-off": [
            _on(seen.target(1.35 * craft.stall(1), 1), "3-2", flaps=names[1]),
            _on(seen.target(glide), "3-2", flaps=names[0]),
        ],
        "precautionary landing": _on(
            seen.least(1.3 * craft.stall(last), last), "3-3", flaps=names[-1]
        ),
        "cruise climb": {"ias": _range(seen, 1.1 * best), "page": "4-3"},
        "balked landing": _on(seen.least(1.25 * craft.stall(1), 1), "4-6", flaps=names[1]),
        "flapless approach": {"ias": _range(seen, 1.35 * craft.stall()), "page": "4-6"},
        "window open": _on(seen.most(0.8 * craft.cruise_speed), "2-3", sense="maximum"),
    }
    if "VLE" in said["speeds"]:
        down = said["speeds"]["VLE"]
        said["other speeds"]["emergency descent"] = {**down, "gear": "down", "page": "3-8"}


def _on(figures: Data, page: str, **conditions: Any) -> Data:
    return {"ias": figures["ias"], **conditions, "page": page}


def _range(seen: Printed, cas: float) -> str:
    low = round(seen.shown(cas) / 5) * 5
    return f"{low} to {low + (5 if seen.speed == 'kt' else 10)}"


def _more_v_speeds(chance: random.Random, seen: Printed, said: Data) -> None:
    """VB of a turbine: gust speeds lie between VA and VC (common practice)."""
    if seen.craft.kind == "turbine":
        manoeuvre = said["speeds"]["VO"][0]
        of = "ias" if "ias" in manoeuvre else "cas"
        said["speeds"]["VB"] = {of: round(1.12 * manoeuvre[of]), "page": "2-3"}


def _glide(chance: random.Random, seen: Printed, said: Data) -> None:
    """A glide told as a distance for a height, with its sink."""
    speed, ratio = seen.craft.glide()
    unit, long = _DISTANCES[seen.speed]
    far = ratio * seen.height(1000) / long
    distance = {"distance": round(far, 1 if far < 10 else None), "for height": 1000}
    said["units"]["distance"] = unit
    said["units"]["sink"] = chance.choice(("m/s", "ft/min"))
    sink = speed / ratio / UNITS[said["units"]["sink"]]
    sink = round(sink, 2) if said["units"]["sink"] == "m/s" else round(sink, -1)
    said["glide"] = [
        {**distance, "sink": sink, "weight": said["weights"]["maximum"], "page": "3-5"}
    ]


def _polar(chance: random.Random, seen: Printed, said: Data) -> None:
    if seen.craft.kind != "glider":
        return
    craft, unit = seen.craft, UNITS[seen.speed]
    said["units"].setdefault("sink", "m/s")
    low = math.ceil(seen.shown(1.1 * craft.stall()) / 5) * 5
    step = 20 if seen.speed == "km/h" else 10
    shown = [*range(low, seen.shown(craft.cruise_speed), step)]
    to = UNITS[said["units"]["sink"]]
    places = 2 if to == 1 else None
    said["polar"] = {
        "weight": said["weights"]["maximum"],
        "page": "5-5",
        "ias": shown,
        "sink": [round(craft.sink(craft.cas(ias * unit)) / to, places) for ias in shown],
    }


def _named_weights(chance: random.Random, seen: Printed, said: Data) -> None:
    maximum = said["weights"]["maximum"]
    if seen.craft.kind == "glider":
        pilot = 70 if seen.weight == "kg" else 154
        said["weights"]["names"] = {"least pilot": pilot}
    else:
        said["weights"]["names"] = {"ramp": maximum + 10, "landing": maximum - 50}


def _cruise(chance: random.Random, seen: Printed, said: Data) -> None:
    """Cruise tables one to a temperature, with endurance and range; or by OAT."""
    table = said.get("cruise")
    if table is None:
        return
    settings = [name for name in ("rpm", "manifold pressure", "torque") if name in table["columns"]]
    results = [name for name in ("power",) if name in table["columns"]]
    table |= {"settings": settings, "results": results}
    at = table["columns"].index("isa")
    if chance.random() < 0.4:
        table["columns"] = ["oat" if name == "isa" else name for name in table["columns"]]
        for row in table["rows"]:
            warmth = air(seen.height(row[0])).temperature - 273.15
            row[at] = round(row[at] + warmth)
        return
    said["units"]["distance"] = _DISTANCES[seen.speed][0]
    fuel = 4 * max(row[-1] for row in table["rows"])  # four hours of the thirstiest
    said["cruise"] = [
        _one_page(table, at, isa, fuel) for isa in sorted({r[at] for r in table["rows"]})
    ]


def _one_page(table: Data, at: int, isa: float, fuel: float) -> Data:
    columns = [name for name in table["columns"] if name != "isa"]
    rows = []
    for row in table["rows"]:
        if row[at] == isa:
            hours = fuel / row[-1]
            rows.append(
                [*row[:at], *row[at + 1 :], round(hours, 1), round(hours * row[-2] / 10) * 10]
            )
    name = f"ISA{isa:+d}" if isa else "standard"
    columns = [*columns, "endurance", "range"]
    return {**table, "name": name, "isa": isa, "columns": columns, "rows": rows}


def _crosswind(chance: random.Random, seen: Printed, said: Data) -> None:
    """The crosswind in another unit than the airspeeds."""
    other = "m/s" if seen.speed == "kt" else "kt"
    wind = said["crosswind"]["demonstrated"] * UNITS[seen.speed] / UNITS[other]
    said["crosswind"] |= {"demonstrated": math.floor(wind), "unit": other}


def _bench(chance: random.Random, airframe: Data) -> None:
    """A bench card as pairs, or as what to add, to what is shown or to what is true."""
    card = airframe.get("instrument correction")
    if card is None:
        return
    more = card.pop("correction")
    true = [a + b for a, b in zip(card["indicated"], more, strict=True)]
    way = chance.choice(("pairs", "add", "subtract", "to fly"))
    if way == "pairs":
        card["true"] = true
    elif way == "to fly":
        del card["indicated"]
        card |= {"true": true, "add to true": [-one for one in more]}
    elif way == "add":
        card["add to indicated"] = more
    else:
        card["subtract from indicated"] = [-one for one in more]


def _own_grid(seen: Printed, said: Data, name: str, school: Data) -> None:
    """A grid of the type's own, with its units, beside that of its kind."""
    units = {"speed": seen.speed, "altitude": seen.altitude, "temperature": "C"}
    grid = school["reference speeds"][seen.craft.kind]
    school["reference speeds by type"] = {name: {**grid, "units": units}}


STYLES: tuple[Style, ...] = (
    _gear,
    _painted_in_cas,
    _other_speeds,
    _other_marks,
    _more_v_speeds,
    _by_altitude,
    _several_settings,
    _one_of_the_two,
    _of_normal_source,
    _above_the_stall,
    _differences,
    _glide,
    _polar,
    _named_weights,
    _cruise,
    _crosswind,
)
