"""What may stand under a key of a definition, for the guide; all of it is invented.

A key that is not here has an example by its form and unit.
"""

# Under a key of a group, or under a key wherever it stands; as it is written in YAML.
_KEYS = {
    "name": "Dunlin 160",
    "School.name": "Reedmere Flying Club",
    "title": "Pilot's handbook",
    "Supplement.title": "Vortex generators",
    "number": "DN160-H",
    "Supplement.number": "S-12",
    "revision": "6",
    "TypeDefinition.flaps": "[0, 10, 35]",
    "flaps": "10",
    "maximum": "2310",
    "others": "[1900, 2100]",
    "page": "2-3",
    "VNE": "{ias: 151, cas: 147, page: 2-3}",
    "VNO": "{ias: 119, cas: 116, page: 2-3}",
    "MMO": "{mach: 0.52, page: 2-3}",
    "VFE": "{flaps: 10, ias: 99, cas: 96, page: 2-3}",
    "when": "doors off",
    "times VS0": "1.3",
    "mach": "0.52",
    "from": "45",
    "to": "119",
    "at": "151",
    "from altitude": "10000",
    "accepted": "{page-named: The manual has no page numbers.}",
    "cas": "94",
    "Calibration.cas": "[53, 70, 88]",
    "bank": "[0, 60]",
    "StallRow.ias": "[45, 64]",
    "StallRow.cas": "[50, 71]",
    "columns": "[altitude, rpm, isa, tas]",
    "Cruise.rows": "[[2000, 2400, 0, 105], [4000, 2400, 0, 106]]",
    "ratio": "9.1",
    "demonstrated": "15",
    "registration": "ZZ-DUB",
    "type": "dunlin-160",
    "serial": "1043",
    "InstrumentCorrection.page": "bench card",
    "correction": "[+2, 0, -1]",
    "remarks": "[The fuel tap is stiff.]",
    "by": "The chief instructor",
    "figures": "5B07-1BA0",
    "card": "389F-0845",
    "web address": "cards.reedmere.example",
    "notice": "For members only.",
    "Grid.ias": "[60, 90, 120]",
    "Grid.tas": "[90, 120]",
    "reason": "As the manual prints it.",
    "rule": "page-named",
}

# Under a key of names, a name.
NAMES = {
    "reference speeds by type": "dunlin-160",
    "names": "ramp",
    "other speeds": "airbrakes",
}

# The keys that a group usually has, where none must stand in it.
USUAL = {
    "SpeedEntry": ("ias", "cas", "page"),
    "VSpeeds": ("VNE", "VNO"),
    "Markings": ("green", "red line"),
    "Calibration": ("ias", "cas"),
    "StallRow": ("flaps", "ias", "cas"),
    "GridUnits": ("speed", "altitude"),
}

_BY_UNIT = {
    "unit of speed": ("95", "[50, 70, 90]"),
    "unit of altitude": ("8000", "[0, 4000, 8000]"),
    "unit of temperature": ("15", "[-10, 10, 30]"),
    "unit of weight": ("2100", "[1900, 2100]"),
    "unit of fuel flow": ("8.5", "[8.5, 9]"),
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
