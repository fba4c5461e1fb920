"""What may stand under a key of a definition, for the guide; all of it is invented.

A key that is not here has an example by its form and unit.
"""

# Under a key of a group, or under a key wherever it stands; as it is written in YAML.
_KEYS = {
    "name": "Dunlin 160",
    "School.name": "Reedmere Flying Club",
    "NextAircraft.from": "ZZ-DUB",
    "NextAircraft.to": "ZZ-WHB",
    "OtherMark.name": "white triangle",
    "Cruise.name": "economy",
    "title": "Pilot's handbook",
    "Supplement.title": "Vortex generators",
    "number": "DN160-H",
    "Supplement.number": "S-12",
    "revision": "6",
    "TypeDefinition.units": (
        "{speed: kt, altitude: ft, temperature: C, weight: lb, fuel flow: gal/h, "
        "distance: nm, sink: ft/min}"
    ),
    "TypeDefinition.flaps": "[0, 10, 35]",
    "flaps": "10",
    "maximum": "2310",
    "others": "[1900, 2100]",
    "names": "{ramp: 2318, landing: 2200}",
    "page": "2-3",
    "VNE": "{ias: 151, cas: 147, page: 2-3}",
    "VNO": "{ias: 119, cas: 116, page: 2-3}",
    "MMO": "{mach: 0.52, page: 2-3}",
    "VFE": "{flaps: 10, ias: 99, cas: 96, page: 2-3}",
    "when": "doors off",
    "Calibration.when": "heater on",
    "Glide.when": "propeller feathered",
    "times VS0": "1.3",
    "mach": "0.52",
    "from": "45",
    "to": "119",
    "at": "151",
    "OtherMark.at": "99",
    "means": "flaps 10",
    "from altitude": "10000",
    "cas": "94",
    "static source": "alternate",
    "Calibration.cas": "[53, 70, 88]",
    "add to ias": "[+3, 0, -2]",
    "subtract from ias": "[-3, 0, 2]",
    "normal ias": "[52, 71, 89]",
    "add to cas": "[-3, 0, +2]",
    "subtract from cas": "[3, 0, -2]",
    "AltimeterCorrection.add to indicated": "[-10, -25, -45]",
    "AltimeterCorrection.subtract from indicated": "[10, 25, 45]",
    "AltimeterCard.add to indicated": "[+20, 0, -30]",
    "AltimeterCard.subtract from indicated": "[-20, 0, 30]",
    "AltimeterCard.true": "[20, 4000, 7970]",
    "bank": "[0, 60]",
    "StallRow.ias": "[45, 64]",
    "StallRow.cas": "[50, 71]",
    "columns": "[altitude, power, rpm, tas]",
    "settings": "[power]",
    "results": "[rpm]",
    "isa": "0",
    "Cruise.rows": "[[2000, 65, 2350, 105], [4000, 65, 2400, 107]]",
    "ratio": "9.1",
    "Glide.distance": "1.5",
    "for height": "1000",
    "less": "4",
    "for each": "1000",
    "demonstrated": "15",
    "registration": "ZZ-DUB",
    "type": "dunlin-160",
    "serial": "1043",
    "InstrumentCorrection.page": "bench card",
    "AltimeterCard.page": "bench card",
    "true": "[52, 90, 129]",
    "add to indicated": "[+2, 0, -1]",
    "subtract from indicated": "[-2, 0, 1]",
    "add to true": "[-2, 0, +1]",
    "subtract from true": "[2, 0, -1]",
    "remarks": "[The fuel tap is stiff.]",
    "by": "The chief instructor",
    "role": "instructor",
    "Signing.names": "2",
    "Signing.roles": "[instructor]",
    "Signing.months": "24",
    "figures": "5B07-1BA0",
    "card": "389F-0845",
    "web address": "cards.reedmere.example",
    "notice": "For members only.",
    "Grid.ias": "[60, 90, 120]",
    "Grid.tas": "[90, 120]",
    "rule": "markings-match",
    "figure": "markings/red-line/at",
    "value": "151",
    "reason": "The placard says so.",
}

# Under a key of names, a name.
NAMES = {
    "reference speeds by type": "dunlin-160",
    "names": "ramp",
    "other speeds": "airbrakes",
}

# The keys that a group usually has, where none must stand in it, or beside those that must.
USUAL = {
    "Manual": ("title", "number", "revision", "date"),
    "SpeedEntry": ("ias", "cas", "page"),
    "NamedEntry": ("ias", "page", "sense"),
    "VSpeeds": ("VNE", "VNO"),
    "Markings": ("green", "red line"),
    "Calibration": ("ias", "cas"),
    "AltimeterCorrection": ("ias", "add to indicated"),
    "InstrumentCorrection": ("indicated", "add to indicated"),
    "AltimeterCard": ("indicated", "add to indicated"),
    "Stall": ("weight", "bank", "rows"),
    "StallRow": ("flaps", "ias", "cas"),
    "Cruise": ("columns", "isa", "rows"),
    "Glide": ("ratio", "ias"),
    "Polar": ("ias", "sink"),
    "Acceptance": ("rule", "figure", "value", "reason"),
    "GridUnits": ("speed", "altitude"),
    "Signing": ("names", "months"),
}

_BY_UNIT = {
    "unit of speed": ("95", "[50, 70, 90]"),
    "unit of altitude": ("8000", "[0, 4000, 8000]"),
    "unit of temperature": ("15", "[-10, 10, 30]"),
    "unit of weight": ("2100", "[1900, 2100]"),
    "unit of sink": ("640", "[130, 160, 280]"),
    "indicator's unit": ("90", "[50, 90, 130]"),
    "own unit": ("90", "[50, 90, 130]"),
    "degrees": ("30", "[0, 30, 60]"),
}


def known(group: str, key: str, what: str) -> str:
    """Return the example of a key of a group, if there is one for what may stand there."""
    own = _KEYS.get(f"{group}.{key}", "")
    said = own or _KEYS.get(key, "")
    is_list = said.startswith("[")
    return said if own or is_list == (what == "list") else ""


def number(unit: str) -> str:
    """Return a number in a unit."""
    return _BY_UNIT.get(unit, ("1", ""))[0]


def numbers(unit: str) -> str:
    """Return a list of numbers in a unit."""
    return _BY_UNIT.get(unit, ("", "[1, 2, 3]"))[1]
