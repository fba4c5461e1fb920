"""What each cell of each table must be: one function a table.

A function gets the aircraft and the cell's place, and works the cell out from
the headings that a reader sees and the definitions. A new table is one new
function here, and one line in `CARD` or `CONVERSIONS`.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from . import physics
from .craft import NORMAL, Craft
from .definitions import Entry
from .expected import (
    BLANK,
    Expected,
    Place,
    computed,
    entered,
    heading,
    in_words,
    numbers,
    signed,
    spoken,
    words,
)
from .physics import DOWN, NEAREST, NOISE, UP, Number, convert, mp, number

# -- V-speeds and markings -----------------------------------------------------------------

# A speed not to be exceeded may only be printed lower, one not to fall below only higher.
SENSES = {
    **dict.fromkeys(("VA", "VO", "VRA", "VW", "VT", "VFE", "VLO", "VLE", "VNO"), DOWN),
    **dict.fromkeys(("VNE", "VMO", "MMO"), DOWN),
    **dict.fromkeys(("VS0", "VS1", "VMC", "VSSE", "VR", "VREF", "approach"), UP),
    **dict.fromkeys(("VX", "VY", "VXSE", "VYSE", "best glide", "minimum sink"), NEAREST),
}


def condition(craft: Craft, name: str, entry: Entry) -> list[str]:
    """Return what the words beside a V-speed must hold."""
    keys = ["gear", "weight", "altitude", "from altitude", "times VS0", "when", "tas", "mach"]
    if len(craft.definition.flaps) > 1:
        keys.append("flaps")
    if name in ("VS0", "VS1"):  # a stall speed never stands without its weight
        entry = {"weight": craft.definition.maximum, **entry}
    return [part for key in keys for part in entry.get(key, "").split()]


def entry_of(craft: Craft, name: str, when: str) -> Entry:
    """Return the V-speed whose condition the words state most fully."""
    said = spoken(when)
    fitting = [
        one
        for one in craft.definition.speeds[name]
        if all(part in said for part in condition(craft, name, one))
    ]
    fitting.sort(key=lambda one: len(condition(craft, name, one)))
    return fitting[-1]


def shown_at_ias(
    craft: Craft, ias: str, page: str | None, sense: str, within: bool = False
) -> Expected:
    """Expect the manual's IAS as typed, or where this pointer stands at it.

    Where it is to stay within, no bench card widens it.
    """
    if not craft.differs:
        return entered(ias, page, craft.indicator)
    shown = craft.shown_within(number(ias), sense) if within else craft.shown(number(ias))
    return computed(shown, sense, 0, craft.indicator)


def shown_at_cas(
    craft: Craft,
    cas: Number | None,
    sense: str,
    flaps: str | None = None,
) -> Expected:
    return computed(craft.shown(craft.ias_at(cas, flaps)), sense, 0, craft.indicator)


def speeds(craft: Craft, at: Place) -> Expected:
    name = at.row["speed"]
    entry, sense = entry_of(craft, name, at.row["when"]), SENSES[name]
    page = entry.get("page")
    if at.column == "indicated":
        if "ias" in entry:
            within = sense == DOWN or name == "VMC"
            return shown_at_ias(craft, entry["ias"], page, sense, within)
        if "times VS0" in entry:
            flaps = craft.usual_flaps(name, entry)
            return shown_at_cas(craft, craft.entry_cas(name, entry), sense, flaps)
        return BLANK  # a TAS or a Mach number is no place of the pointer
    if at.column == "ias":
        return entered(entry["ias"], page, craft.speed) if "ias" in entry else BLANK
    if at.column == "cas":
        if "cas" in entry:
            return entered(entry["cas"], page, craft.speed)
        if "ias" not in entry and "times VS0" not in entry:
            return BLANK
        return computed(craft.entry_cas(name, entry), sense, 0, craft.speed)
    return {
        "speed": words(name),
        "when": words(*condition(craft, name, entry)),
        "meaning": words(),
        "page": words(page),
    }[at.column]


# The arcs and lines by their titles: the key of the definition, and how its ends round.
# The yellow arc begins early rather than late; the blue line is flown.
MARKINGS = {
    "White arc": ("white", UP, DOWN),
    "Green arc": ("green", UP, DOWN),
    "Yellow arc": ("yellow", DOWN, DOWN),
    "Red line": ("red line", DOWN),
    "Blue line": ("blue line", NEAREST),
    "Lower red line": ("red radial", UP),
    "Yellow triangle": ("yellow triangle", UP),
}


def markings(craft: Craft, at: Place) -> Expected:
    key, *senses = MARKINGS[at.row["marking"]]
    marking = craft.definition.markings[key]
    ends = [marking[end] for end in ("from", "to", "at") if end in marking]
    page = marking.get("page")
    if at.column in ("marking", "meaning"):
        return words()
    if at.column == "page":
        return words(page)
    end = 0 if at.column.endswith("from") else 1
    if end >= len(ends):
        return BLANK
    if at.column.startswith("ias"):
        return entered(ends[end], page, craft.speed)
    if at.column.startswith("shown"):
        return shown_at_ias(craft, ends[end], page, senses[end], senses[end] == DOWN)
    if craft.indicator == craft.speed:  # paint does not move with a bench card
        return entered(ends[end], page, craft.indicator)
    return computed(craft.own(number(ends[end])), senses[end], 0, craft.indicator)


def altitude_limits(craft: Craft, at: Place) -> Expected:
    grid = {number(one) for one in craft.definition.grid["altitude"]}
    altitude = at.row_number("altitude")
    is_crossover = altitude not in grid
    if is_crossover:  # the one row that is not the school's
        altitude = craft.crossover()
    if at.column == "altitude":
        if is_crossover:
            return computed(altitude, DOWN, 0, craft.altitude)
        return heading(altitude, craft.altitude)
    oat = None
    if at.column == "limit-warm":
        standard = physics.standard_temperature(craft.metres(altitude))
        oat = physics.from_kelvin(standard + 20, craft.temperature)
    limit = craft.limit(altitude, oat)
    if limit is None:
        return words() if at.column == "by" else computed(None)
    entry = limit.entry
    if at.column == "by":
        return words(limit.name, entry.get("tas"), entry.get("mach"))
    if at.column == "mach":
        if "mach" in entry:
            return entered(entry["mach"], entry.get("page"))
        metres = craft.metres(altitude)
        mach = physics.mach_from_cas(convert(limit.cas, craft.speed, "m/s"), metres)
        return computed(mach, DOWN, 2)
    if at.column == "cas":
        if "cas" in entry:
            return entered(entry["cas"], entry.get("page"), craft.speed)
        return computed(limit.cas, DOWN, 0, craft.speed)
    if "ias" in entry:
        return shown_at_ias(craft, entry["ias"], entry.get("page"), DOWN, within=True)
    return shown_at_cas(craft, limit.cas, DOWN)


# -- the indicator ---------------------------------------------------------------------------


def _setting(craft: Craft, column: str) -> tuple[str, str]:
    """Return the flap setting and static source that a column is headed with."""
    flaps = re.search(r"flaps-(\w+)", column)
    known = flaps[1] if flaps and flaps[1] in craft.definition.flaps else craft.clean
    return known, "alternate" if "alternate" in column else NORMAL


def calibration(craft: Craft, at: Place) -> Expected:
    shown = at.row_number("indicated")
    if at.column == "indicated":
        return heading(shown, craft.indicator)
    flaps, source = _setting(craft, at.column)
    table = craft.definition.calibration[flaps, source]
    beyond = craft.is_beyond_flaps(shown, flaps)
    if not craft.differs:
        for ias, cas in zip(table.ias, table.cas, strict=True):
            if number(ias) == shown:
                return replace(entered(cas, table.page, craft.speed), beyond=beyond)
    cas = craft.cas(craft.ias(shown), flaps, source)
    beyond = beyond and cas is not None
    return computed(cas, NEAREST, 0, craft.speed, beyond=beyond)


def indicated(craft: Craft, at: Place) -> Expected:
    cas = at.row_number("cas")
    if at.column == "cas":
        return heading(cas, craft.speed)
    flaps, source = _setting(craft, at.column)
    shown = craft.shown(craft.ias_at(cas, flaps, source))
    beyond = craft.is_beyond_flaps(shown, flaps)
    return computed(shown, NEAREST, 0, craft.indicator, beyond=beyond)


def corrections(craft: Craft, at: Place) -> Expected:
    shown = at.row_number("indicated")
    if at.column == "indicated":
        return heading(shown, craft.indicator)
    ias = craft.ias(shown)
    flaps, source = _setting(craft, at.column)
    if at.column == "instrument":
        true = craft.own(ias)
        return in_words(None if true is None else true - shown, craft.indicator)
    here, normal = craft.cas(ias, flaps, source), craft.cas(ias, flaps)
    start = ias if source == NORMAL else normal
    if here is None or start is None:
        return in_words(None, craft.indicator)
    return in_words(craft.own(here - start), craft.indicator)


# -- speeds by weight --------------------------------------------------------------------------


def _weight(craft: Craft, at: Place) -> Expected:
    assert at.row["weight"] in craft.definition.weights
    return heading(at.row_number("weight"), craft.definition.units["weight"])


def _pair(at: Place, shown: Expected, cas: Expected) -> Expected:
    """Expect what the indicator shows, or CAS; blank where only CAS is known."""
    if at.column.endswith("cas"):
        return cas
    return BLANK if shown.kind == "dash" and cas.kind != "dash" else shown


def _as_given(craft: Craft, name: str, entry: Entry, at: Place, sense: str) -> Expected:
    """Expect a V-speed at the very weight that it is given for."""
    page = entry.get("page")
    shown = shown_at_ias(craft, entry["ias"], page, sense, sense == DOWN)
    if "cas" in entry:
        return _pair(at, shown, entered(entry["cas"], page, craft.speed))
    return _pair(at, shown, computed(craft.entry_cas(name, entry), sense, 0, craft.speed))


def _by_weight(
    craft: Craft, name: str, entry: Entry | None, weight: str, sense: str, at: Place
) -> Expected:
    if entry is None:
        return computed(None)
    if "ias" in entry and number(craft.weight_of(entry)) == number(weight):
        return _as_given(craft, name, entry, at, sense)
    cas = craft.at_weight(name, entry, weight)
    flaps = craft.usual_flaps(name, entry)
    shown = shown_at_cas(craft, cas, sense, flaps)
    return _pair(at, shown, computed(cas, sense, 0, craft.speed))


def _manual_stall(
    craft: Craft, flaps: str, weight: str, bank: Number, at: Place
) -> Expected | None:
    """Expect what the manual's own stall table has at a weight and bank, if it does."""
    stall = craft.definition.stall or {"rows": []}
    for row in stall["rows"]:
        known = row.get("weight", stall.get("weight"))
        if row.get("flaps", craft.clean) != flaps or number(known) != number(weight):
            continue
        for column, given in enumerate(stall["bank"]):
            if number(given) == bank:
                page = stall.get("page")
                cas = entered(row["cas"][column], page, craft.speed)
                if "ias" in row:
                    return _pair(at, shown_at_ias(craft, row["ias"][column], page, UP), cas)
                shown = shown_at_cas(craft, number(row["cas"][column]), UP, flaps)
                return _pair(at, shown, cas)
    return None


def stall(craft: Craft, at: Place) -> Expected:
    if at.column == "weight":
        return _weight(craft, at)
    flaps = at.block.partition(";")[0].split()[-1] if at.block.startswith("Flaps") else craft.clean
    weight, bank = at.row["weight"], number(at.column.split("-")[1])
    own = _manual_stall(craft, flaps, weight, bank, at)
    if own is not None:
        return own
    name, entry = craft.stalls[flaps]
    if bank == 0:
        return _by_weight(craft, name, {**entry, "flaps": flaps}, weight, UP, at)
    cas = craft.stall_cas(flaps, weight, bank)
    shown = shown_at_cas(craft, cas, UP, flaps)
    return _pair(at, shown, computed(cas, UP, 0, craft.speed))


def manoeuvring(craft: Craft, at: Place) -> Expected:
    if at.column == "weight":
        return _weight(craft, at)
    name = "VO" if "VO" in craft.definition.speeds else "VA"
    weight = at.row["weight"]
    entry = craft.next_heavier(name, weight)
    return _by_weight(craft, name, entry, weight, SENSES[name], at)


def approach(craft: Craft, at: Place) -> Expected:
    if at.column == "weight":
        return _weight(craft, at)
    entry = craft.next_heavier("VREF", at.row["weight"])
    return _by_weight(craft, "VREF", entry, at.row["weight"], UP, at)


# -- true airspeed -----------------------------------------------------------------------------


def _altitude(craft: Craft, at: Place) -> Expected:
    return heading(at.row_number("altitude"), craft.altitude)


def _block_cas(craft: Craft, at: Place) -> Number:
    """Return the CAS of a block headed with what the indicator shows."""
    return craft.cas(craft.ias(at.block_number))


def _air(craft: Craft, at: Place) -> tuple[Number, Number] | None:
    """Return altitude and outside air temperature of a cell; None where such air does not occur."""
    altitude = at.row_number("altitude")
    oat = craft.oat_of(altitude, at.column_number)
    return (altitude, oat) if craft.occurs(altitude, oat) else None


def true_airspeed(craft: Craft, at: Place) -> Expected:
    if at.column == "altitude":
        return _altitude(craft, at)
    if (air := _air(craft, at)) is None:
        return BLANK
    cas = _block_cas(craft, at)
    tas = craft.tas(cas, *air)
    also = None
    if craft.indicator not in ("kt", craft.speed):
        also = computed(convert(tas, craft.speed, "kt"))
    beyond = craft.is_beyond(at.block_number, cas, *air)
    return computed(craft.own(tas), NEAREST, 0, craft.indicator, also, beyond)


def tas_factor(craft: Craft, at: Place) -> Expected:
    if at.column == "altitude":
        return _altitude(craft, at)
    if (air := _air(craft, at)) is None:
        return BLANK
    return computed(craft.density_factor(*air), NEAREST, 3)


def rule_of_thumb(craft: Craft, at: Place) -> Expected:
    if at.column == "altitude":
        return _altitude(craft, at)
    if (air := _air(craft, at)) is None:
        return BLANK
    cas = _block_cas(craft, at)
    feet = convert(air[0], craft.altitude, "ft")
    rule = cas * (1 + 2 * feet / 1000 / 100)
    return signed(craft.own(rule - craft.tas(cas, *air)), craft.indicator)


def airspeed_for_tas(craft: Craft, at: Place) -> Expected:
    if at.column == "altitude":
        return _altitude(craft, at)
    if (air := _air(craft, at)) is None:
        return BLANK
    tas = convert(at.block_number, craft.indicator, craft.speed)
    cas = craft.cas_for_tas(tas, air[0], physics.kelvin(air[1], craft.temperature))
    shown = craft.shown(craft.ias_at(cas))
    beyond = craft.is_beyond(shown, cas, *air)
    return computed(shown, NEAREST, 0, craft.indicator, None, beyond)


# -- cruise ------------------------------------------------------------------------------------

_NOT_SETTINGS = ("altitude", "isa", "oat", "power", "ias", "tas", "fuel flow")


def settings(craft: Craft) -> list[str]:
    return [one for one in craft.definition.cruise["columns"] if one not in _NOT_SETTINGS]


def _cruise_row(craft: Craft, at: Place, isa: str) -> dict[str, str] | None:
    """Return the manual's row at the altitude and setting of the cell's row, at a temperature."""
    for row in craft.cruise_rows:
        keys = ["altitude", *settings(craft)]
        same = all(number(row[key]) == at.row_number(key) for key in keys)
        if same and number(row.get("isa", "0")) == number(isa):
            return row
    return None


def _cruise_heading(craft: Craft, at: Place) -> Expected:
    unit = craft.altitude if at.column == "altitude" else None
    return heading(at.row_number(at.column), unit)


def cruise(craft: Craft, at: Place) -> Expected:
    if at.column.replace("-", " ") in ("altitude", *settings(craft)):
        return _cruise_heading(craft, at)
    result, isa = re.fullmatch(r"(.+?)-(?:isa-(.+)|all)", at.column).groups()
    result = result.replace("-", " ")
    row = _cruise_row(craft, at, isa or "0")
    if row is None:
        return computed(None)
    units = craft.definition.units
    unit = {"tas": craft.speed, "ias": craft.speed, "fuel flow": units.get("fuel flow")}
    return entered(row[result], craft.definition.cruise.get("page"), unit.get(result, "%"))


def cruise_at(craft: Craft, at: Place) -> Expected:
    if at.column == "altitude":
        return _altitude(craft, at)
    setting = dict(zip(settings(craft), numbers(at.block), strict=True))
    altitude = at.row_number("altitude")
    if (air := _air(craft, at)) is None:
        return BLANK
    isa = craft.isa_deviation(*air)
    tas = craft.cruise("tas", setting, altitude, isa)
    if tas is None:
        return computed(None)
    # Less fuel than it takes is the unsafe side.
    fuel = computed(craft.cruise("fuel flow", setting, altitude, isa), UP, 1)
    return computed(tas, NEAREST, 0, craft.speed, fuel)


def economy(craft: Craft, at: Place) -> Expected:
    if at.column.replace("-", " ") in ("altitude", *settings(craft)):
        return _cruise_heading(craft, at)
    row = _cruise_row(craft, at, "0")
    knots = convert(number(row["tas"]), craft.speed, "kt")
    fuel = craft.definition.units["fuel flow"]
    per = f"NM/{fuel.partition('/')[0]}"
    decimals = 1 if fuel == "gal/h" else 2
    return computed((knots + _along(at.column)) / number(row["fuel flow"]), DOWN, decimals, per)


# -- wind and glide ----------------------------------------------------------------------------


def _along(column: str) -> Number:
    """Return the wind along the course that a column is for, a tailwind above nought."""
    name, _, wind = column.partition("-")
    return {"headwind": -1, "tailwind": 1, "still": 0}[name] * number(wind or "0")


def ground_speed(craft: Craft, at: Place) -> Expected:
    unit, tas = "km/h" if craft.indicator == "km/h" else "kt", at.row_number("tas")
    if at.column == "tas":
        return heading(tas, unit)
    return computed(tas + convert(_along(at.column), "kt", unit), NEAREST, 0, unit)


def demonstrated(craft: Craft) -> Number:
    crosswind = craft.definition.crosswind
    return convert(number(crosswind["demonstrated"]), crosswind.get("unit", craft.speed), "kt")


def crosswind(craft: Craft, at: Place) -> Expected:
    unit, wind = "kt", at.row_number("wind")
    if at.column == "wind":
        return heading(wind, unit)
    across = wind * mp.sin(mp.radians(at.column_number))
    beyond = across > demonstrated(craft) + physics.NOISE
    return computed(across, UP, 0, unit, beyond=beyond)


def crosswind_limit(craft: Craft, at: Place) -> Expected:
    angle = number(at.row["angle"].removesuffix("°"))
    if at.column == "angle":
        return heading(angle)
    return computed(demonstrated(craft) / mp.sin(mp.radians(angle)), DOWN, 0, "kt")


def _glide_of(craft: Craft, when: str) -> Entry:
    """Return the glide whose condition stands in words."""
    (found,) = (one for one in craft.definition.glides if one.get("when", "glide") == when)
    return found


def _far(craft: Craft) -> str:
    own = craft.definition.units.get("distance")
    return {"nm": "NM"}.get(own, own) or {"ft": "NM", "m": "km"}[craft.altitude]


def glide(craft: Craft, at: Place) -> Expected:
    height = at.row_number("height")
    if at.column == "height":
        return heading(height, craft.altitude)
    when = at.column.removeprefix("distance").lstrip("-").replace("-", " ") or "glide"
    flown = height * craft.glide_ratio(_glide_of(craft, when))
    return computed(convert(flown, craft.altitude, _far(craft)), DOWN, 1, _far(craft))


def gliding(craft: Craft, at: Place) -> Expected:
    one = _glide_of(craft, at.row["glide-when"])
    page = one.get("page")
    if at.column == "ratio" and "ratio" not in one:
        return computed(craft.glide_ratio(one), DOWN, 1)
    if at.column in ("glide-when", "page"):
        return words(one.get("when") if at.column == "glide-when" else page)
    if at.column == "indicated" and "ias" in one:
        return shown_at_ias(craft, one["ias"], page, NEAREST)
    units = {"distance": _far(craft), "for-height": craft.altitude}
    units |= {"sink": craft.definition.units.get("sink"), "cas": craft.speed, "ias": craft.speed}
    key = at.column.replace("-", " ")
    return entered(one[key], page, units.get(at.column)) if key in one else BLANK


def weights(craft: Craft, at: Place) -> Expected:
    name = at.row["limit"]
    if at.column == "weight":
        page = craft.definition.weight_page
        return entered(craft.definition.names[name], page, craft.definition.units["weight"])
    return words(name)


# -- the polar -----------------------------------------------------------------------------------


def polar(craft: Craft, at: Place) -> Expected:
    (one,) = craft.definition.polars
    row = one["ias"].index(at.row["indicated"])
    if at.column == "indicated":
        return shown_at_ias(craft, one["ias"][row], one.get("page"), NEAREST)
    return entered(one["sink"][row], one.get("page"), craft.definition.units["sink"])


def _flattest(
    points: list[tuple[Number, Number]], headwind: Number, sinking: Number
) -> tuple[Number, Number, bool] | None:
    """Return speed and ratio of the flattest path over the ground, and if it ends the polar.

    It is looked for between the points too, where a straight line has none that is flatter.
    """
    if min(sink + sinking for _, sink in points) <= 0 or points[-1][0] <= headwind:
        return None
    fine = [points[0]]
    for (v, s), (w, t) in pairwise(points):
        fine += [(v + (w - v) * n / 8, s + (t - s) * n / 8) for n in range(1, 9)]
    ratio = max((v - headwind) / (s + sinking) for v, s in fine)
    speed = max(v for v, s in points if (v - headwind) / (s + sinking) > ratio * (1 - NOISE))
    return speed, ratio, speed in (points[0][0], points[-1][0])


def _at_speed(
    craft: Craft, at: Place, weight: str, speed: Number, is_end: bool, of_cas: bool = False
) -> Expected:
    (one,) = craft.definition.polars
    cas = craft.glide_cas(one, speed)
    shown = craft.shown(craft.ias_at(cas))
    if of_cas:
        return computed(cas, NEAREST, 0, craft.speed)
    beyond = craft.is_outside_polar(one, weight, shown, cas)
    also = words("end") if is_end else None
    return computed(shown, NEAREST, 0, craft.indicator, also, beyond)


def polar_best(craft: Craft, at: Place) -> Expected:
    if at.column == "weight":
        return _weight(craft, at)
    weight = at.row["weight"]
    points = craft.polar(craft.definition.polars[0], weight)
    of_cas = at.column.endswith("cas")
    if at.column.startswith("least-sink"):
        least = min(sink for _, sink in points)
        speed = max(v for v, sink in points if sink < least * (1 + NOISE))
        if at.column.endswith("sink-sink"):
            unit = craft.definition.units["sink"]
            decimals = max(len(one.partition(".")[2]) for one in craft.definition.polars[0]["sink"])
            return computed(convert(least, "m/s", unit), UP, decimals, unit)
        is_end = speed in (points[0][0], points[-1][0])
        return _at_speed(craft, at, weight, speed, is_end, of_cas)
    speed, ratio, is_end = _flattest(points, Number(0), Number(0))
    if at.column.endswith("ratio"):
        return computed(ratio, DOWN, 1)
    return _at_speed(craft, at, weight, speed, is_end, of_cas)


def speed_to_fly(craft: Craft, at: Place) -> Expected:
    if at.column == "air":
        return words()
    way, _, rate = at.row["air"].partition(" ")
    moves = {"still": 0, "up": -1, "down": 1}[way] * number(rate or "0")
    weight = numbers(at.block)[0]
    found = _flattest(
        craft.polar(craft.definition.polars[0], weight),
        convert(-_along(at.column), "kt", "m/s"),
        convert(moves, craft.definition.units["sink"], "m/s"),
    )
    if found is None:
        return computed(None, unit=craft.indicator)
    speed, _, is_end = found
    return _at_speed(craft, at, weight, speed, is_end)


# -- conversions -------------------------------------------------------------------------------


def _units(at: Place, decimals: int) -> Expected:
    value = at.row_number("number")
    if at.column == "number":
        return heading(value)
    start, unit = ({"kmh": "km/h"}.get(one, one) for one in at.column.split("-"))
    return computed(convert(value, start, unit), NEAREST, decimals, unit)


def whole_units(at: Place) -> Expected:
    return _units(at, 0)


def tenths_of_units(at: Place) -> Expected:
    return _units(at, 1)


def _pressure_altitude(at: Place, unit: str) -> Expected:
    setting = at.row_number("setting")
    if at.column == "setting":
        return heading(setting, unit)
    metres = physics.pressure_altitude(convert(setting, unit, "Pa"))
    return computed(convert(metres, "m", at.column), NEAREST, 0, at.column)


def pressure_altitude_inhg(at: Place) -> Expected:
    return _pressure_altitude(at, "inHg")


def pressure_altitude_hpa(at: Place) -> Expected:
    return _pressure_altitude(at, "hPa")


def standard_atmosphere(at: Place) -> Expected:
    feet = at.row_number("altitude")
    if at.column == "altitude":
        return heading(feet, "ft")
    metres = convert(feet, "ft", "m")
    if at.column in ("C", "F"):
        warmth = physics.from_kelvin(physics.standard_temperature(metres), at.column)
        return computed(warmth, NEAREST, 1, at.column)
    pressure = convert(physics.standard_pressure(metres), "Pa", at.column)
    return computed(pressure, NEAREST, {"hPa": 1, "inHg": 2}[at.column], at.column)


def density_altitude(at: Place) -> Expected:
    feet = at.row_number("altitude")
    if at.column == "altitude":
        return heading(feet, "ft")
    oat = physics.kelvin(at.column_number, "C")
    metres = physics.density_altitude(convert(feet, "ft", "m"), oat)
    return computed(convert(metres, "m", "ft"), NEAREST, 0, "ft")


def wind_components(at: Place) -> Expected:
    wind = at.row_number("wind")
    if at.column == "wind":
        return heading(wind)
    angle = mp.radians(at.column_number)
    return computed(wind * mp.sin(angle), UP, also=computed(wind * mp.cos(angle), DOWN))


def time(at: Place) -> Expected:
    distance = at.row_number("distance")
    if at.column == "distance":
        return heading(distance, "NM")
    return computed(60 * distance / at.column_number, UP, 0, "min")


CARD: dict[str, Callable[[Craft, Place], Expected]] = {
    "speeds": speeds,
    "markings": markings,
    "altitude-limits": altitude_limits,
    "calibration": calibration,
    "indicated": indicated,
    "corrections": corrections,
    "stall": stall,
    "manoeuvring": manoeuvring,
    "approach": approach,
    "true-airspeed": true_airspeed,
    "tas-factor": tas_factor,
    "rule-of-thumb": rule_of_thumb,
    "airspeed-for-tas": airspeed_for_tas,
    "cruise": cruise,
    "cruise-at": cruise_at,
    "economy": economy,
    "ground-speed": ground_speed,
    "crosswind": crosswind,
    "crosswind-limit": crosswind_limit,
    "glide": glide,
    "gliding": gliding,
    "polar": polar,
    "polar-best": polar_best,
    "speed-to-fly": speed_to_fly,
    "weights": weights,
}

CONVERSIONS: dict[str, Callable[[Place], Expected]] = {
    "speed-units": whole_units,
    "fuel-units": tenths_of_units,
    "weight-units": whole_units,
    "distance-units": tenths_of_units,
    "height-units": whole_units,
    "pressure-altitude-inhg": pressure_altitude_inhg,
    "pressure-altitude-hpa": pressure_altitude_hpa,
    "standard-atmosphere": standard_atmosphere,
    "density-altitude": density_altitude,
    "crosswind": wind_components,
    "time": time,
}
