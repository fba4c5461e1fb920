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
from .craft import NORMAL, NOT_AVAILABLE, Craft
from .definitions import Entry, correction_key, meaning
from .expected import (
    BLANK,
    Expected,
    Place,
    computed,
    entered,
    heading,
    in_words,
    numbers,
    ranged,
    ranged_as_entered,
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
    definition = craft.definition
    fitting = [
        one
        for one in definition.others.get(name) or definition.speeds[name]
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
    gear: str = "",
) -> Expected:
    shown = craft.shown(craft.ias_at(cas, flaps, NORMAL, gear))
    return computed(shown, sense, 0, craft.indicator)


def speeds(craft: Craft, at: Place) -> Expected:
    name = at.row["speed"]
    entry = entry_of(craft, name, at.row["when"])
    if name in craft.definition.others:
        return other_speed(craft, name, entry, at)
    sense = SENSES[name]
    page = entry.get("page")
    if at.column == "indicated":
        if "ias" in entry:
            within = sense == DOWN or name == "VMC"
            return shown_at_ias(craft, entry["ias"], page, sense, within)
        if "times VS0" in entry:
            flaps = craft.usual_flaps(name, entry)
            return shown_at_cas(craft, craft.entry_cas(name, entry), sense, flaps)
        if "cas" in entry:
            flaps, gear = craft.usual_flaps(name, entry), craft.gear_of(name, entry)
            shown = shown_at_cas(craft, number(entry["cas"]), sense, flaps, gear)
            return BLANK if shown.kind == "dash" else shown
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


def other_speed(craft: Craft, name: str, entry: Entry, at: Place) -> Expected:
    """Expect a speed by the manual's own name: nothing is usual for it, so no table is guessed."""
    sense = {"maximum": DOWN, "minimum": UP}.get(entry.get("sense", ""), NEAREST)
    page, bounds = entry.get("page"), {DOWN: "not above", UP: "not below"}
    if at.column == "indicated":
        if " to " not in entry["ias"]:
            return shown_at_ias(craft, entry["ias"], page, sense, sense == DOWN)
        if not craft.differs:
            return ranged_as_entered(entry["ias"], page, craft.indicator)
        ends = [craft.shown(number(one)) for one in entry["ias"].split(" to ")]
        return ranged(ends, sense, craft.indicator)
    if at.column == "ias":
        if " to " in entry["ias"]:
            return ranged_as_entered(entry["ias"], page, craft.speed)
        return entered(entry["ias"], page, craft.speed)
    if at.column == "cas":
        if "cas" in entry:
            return entered(entry["cas"], page, craft.speed)
        if "flaps" not in entry and len(craft.definition.flaps) > 1:
            return BLANK
        flaps = entry.get("flaps", craft.clean)
        ends = [craft.cas(number(one), flaps) for one in entry["ias"].split(" to ")]
        if len(ends) == 1:
            return computed(ends[0], sense, 0, craft.speed)
        return ranged(ends, sense, craft.speed)
    return {
        "speed": words(name),
        "when": words(*condition(craft, name, entry)),
        "meaning": words(bounds.get(sense)),
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


def _setting(craft: Craft, column: str) -> tuple[str, str, str]:
    """Return the flap setting, static source and gear that a column is headed with."""
    flaps, gear = re.search(r"flaps-(\w+)", column), re.search(r"gear-(\w+)", column)
    known = flaps[1] if flaps and flaps[1] in craft.definition.flaps else craft.clean
    return known, "alternate" if "alternate" in column else NORMAL, gear[1] if gear else ""


def calibration(craft: Craft, at: Place) -> Expected:
    shown = at.row_number("indicated")
    if at.column == "indicated":
        return heading(shown, craft.indicator)
    flaps, source, gear = _setting(craft, at.column)
    table = craft.definition.calibration[flaps, source, gear]
    beyond = craft.is_beyond_flaps(shown, flaps, gear)
    if not craft.differs and table.is_printed:
        for ias, cas in zip(table.given["ias"], table.given["cas"], strict=True):
            if number(ias) == shown:
                return replace(entered(cas, table.page, craft.speed), beyond=beyond)
    cas = craft.cas(craft.ias(shown), flaps, source, gear)
    beyond = beyond and cas is not None
    return computed(cas, NEAREST, 0, craft.speed, beyond=beyond)


def indicated(craft: Craft, at: Place) -> Expected:
    cas = at.row_number("cas")
    if at.column == "cas":
        return heading(cas, craft.speed)
    flaps, source, gear = _setting(craft, at.column)
    shown = craft.shown(craft.ias_at(cas, flaps, source, gear))
    beyond = craft.is_beyond_flaps(shown, flaps, gear)
    return computed(shown, NEAREST, 0, craft.indicator, beyond=beyond)


def corrections(craft: Craft, at: Place) -> Expected:
    shown = at.row_number("indicated")
    if at.column == "indicated":
        return heading(shown, craft.indicator)
    ias = craft.ias(shown)
    flaps, source, gear = _setting(craft, at.column)
    if at.column == "instrument":
        true = craft.own(ias)
        return in_words(None if true is None else true - shown, craft.indicator)
    here, normal = craft.cas(ias, flaps, source, gear), craft.cas(ias, flaps, NORMAL, gear)
    start = ias if source == NORMAL else normal
    if here is None or start is None:
        return in_words(None, craft.indicator)
    return in_words(craft.own(here - start), craft.indicator)


# -- corrections as they are printed -----------------------------------------------------------


def position(craft: Craft, at: Place) -> Expected:
    flaps, gear, source, start = _position_block(craft, at.block)
    value = at.row_number("at")
    if at.column == "at":
        return heading(value, craft.speed)
    table = craft.definition.calibration[flaps, source, gear]
    place = list(map(number, table.given[start])).index(value)
    printed_row = correction_key(table.given)
    column = at.column.replace("-", " ")
    if column == printed_row:
        return entered(table.given[printed_row][place], table.page, craft.speed)
    ias, meant = table.pairs[place]
    if column == "normal ias" and table.by_normal_source:
        return computed(meant, NEAREST, _decimals(table.given, start, place), craft.speed)
    if column == "cas" and start == "ias":
        return computed(craft.cas(ias, flaps, source, gear), NEAREST, 0, craft.speed)
    if column == "ias" and start == "cas":
        return computed(ias, NEAREST, 0, craft.speed)
    return BLANK


def _position_block(craft: Craft, block: str) -> tuple[str, str, str, str]:
    """Return the setting that a block's heading says, and what its first column is."""
    setting, _, start = block.partition("; at ")
    flaps = re.search(r"Flaps (\w+)", setting)
    gear = re.search(r"gear (up|down)", setting)
    source = "alternate" if "lternate" in setting else NORMAL
    row = "cas" if start == "CAS" else "ias"
    return flaps[1] if flaps else craft.clean, gear[1] if gear else "", source, row


def _decimals(table: Entry, start: str, place: int) -> int:
    """Return the decimals of a sum: as many as the one of its parts has that has more."""
    parts = (table[start][place], table[correction_key(table)][place])
    return max(len(one.partition(".")[2]) for one in parts)


def _card(card: Entry, at: Place, unit: str, start: str) -> Expected:
    value = at.row_number(start)
    if at.column == start:
        return heading(value, unit)
    row = correction_key(card)
    place = list(map(number, card[start])).index(value)
    if at.column.replace("-", " ") == row:
        return entered(card[row][place], card.get("page", ""), unit)
    return computed(meaning(card, start)[place][1], NEAREST, _decimals(card, start, place), unit)


def instrument(craft: Craft, at: Place) -> Expected:
    card = craft.definition.bench_card
    return _card(card, at, craft.indicator, "indicated" if "indicated" in card else "true")


def altimeter_card(craft: Craft, at: Place) -> Expected:
    return _card(craft.definition.altimeter_card, at, craft.altitude, "indicated")


def altimeter(craft: Craft, at: Place) -> Expected:
    ias = at.row_number("ias")
    if at.column == "ias":
        return heading(ias, craft.speed)
    setting, _, level = at.block.partition("; at ")
    flaps = re.search(r"Flaps (\w+)", setting)
    (table,) = (
        one
        for one in craft.definition.altimeter
        if one.get("flaps") == (flaps[1] if flaps else None)
        and one.get("static source", NORMAL) == ("alternate" if "lternate" in setting else NORMAL)
        and one.get("altitude") == (level.removesuffix(" ft").replace(",", "") or None)
    )
    row = correction_key(table)
    if at.column.replace("-", " ") != row:
        return BLANK
    place = list(map(number, table["ias"])).index(ias)
    return entered(table[row][place], table.get("page"), craft.altitude)


# -- speeds by weight --------------------------------------------------------------------------


def _weight(craft: Craft, at: Place) -> Expected:
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
    craft: Craft, flaps: str, gear: str, weight: str, bank: Number, at: Place
) -> Expected | None:
    """Expect what the manual's own stall table has at a weight and bank, if it does."""
    stall = craft.definition.stall or {"rows": []}
    for row in stall["rows"]:
        known = row.get("weight", stall.get("weight"))
        if (row.get("flaps", craft.clean), row.get("gear", "")) != (flaps, gear):
            continue
        if number(known) != number(weight):
            continue
        for column, given in enumerate(stall["bank"]):
            if number(given) == bank:
                ias, cas = (row[key][column] if key in row else None for key in ("ias", "cas"))
                return _stall_typed(craft, ias, cas, stall.get("page"), flaps, gear, at)
    return None


def _stall_typed(
    craft: Craft,
    ias: str | None,
    cas: str | None,
    page: str | None,
    flaps: str,
    gear: str,
    at: Place,
) -> Expected:
    """Expect a stall speed that is printed, and what is not printed of it by the tables."""
    if ias is None:
        shown = shown_at_cas(craft, number(cas), UP, flaps, gear)
    else:
        shown = shown_at_ias(craft, ias, page, UP)
    if cas is not None:
        return _pair(at, shown, entered(cas, page, craft.speed))
    known = craft.cas(number(ias), flaps, NORMAL, gear)
    return _pair(at, shown, computed(known, UP, 0, craft.speed))


def _stall_block(craft: Craft, block: str) -> tuple[str, str]:
    heading = block.partition(";")[0]
    flaps, gear = re.search(r"Flaps (\w+)", heading), re.search(r"gear (up|down)", heading)
    return flaps[1] if flaps else craft.clean, gear[1] if gear else ""


def stall(craft: Craft, at: Place) -> Expected:
    if at.column == "weight":
        return _weight(craft, at)
    flaps, gear = _stall_block(craft, at.block)
    weight, bank = at.row["weight"], number(at.column.split("-")[1])
    own = _manual_stall(craft, flaps, gear, weight, bank, at)
    if own is not None:
        return own
    same = [one for one in craft.stalls_of(flaps, gear) if number(one.weight) == number(weight)]
    if bank == 0 and same:
        given = same[0]
        return _stall_typed(craft, given.ias, given.cas, given.page, flaps, gear, at)
    cas = craft.stall_cas(flaps, weight, bank, gear)
    shown = shown_at_cas(craft, cas, UP, flaps, gear)
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

_NOT_SETTINGS = ("altitude", "isa", "oat", "power", "ias", "tas", "fuel flow", "endurance", "range")


def settings(craft: Craft) -> list[str]:
    """Return what is set, as these definitions say it: which usual column is a result too."""
    cruise = craft.definition.cruise
    set_, come = cruise.get("settings", []), cruise.get("results", [])
    return [
        one
        for one in cruise["columns"]
        if one not in come and (one in set_ or one not in _NOT_SETTINGS)
    ]


def _identifier(name: str) -> str:
    """Return a column's name as identifiers have it: letters, digits and hyphens between."""
    return "-".join(re.findall(r"[A-Za-z0-9.+]+", name))


def _cruise_row(craft: Craft, at: Place, air: Number | None) -> dict[str, str] | None:
    """Return the manual's row at the altitude and setting of the cell's row, at a temperature."""
    for row in craft.cruise_rows:
        keys = ["altitude", *settings(craft)]
        same = all(number(row[key]) == at.row_number(_identifier(key)) for key in keys)
        if same and (air is None or number(row[craft.cruise_air]) == air):
            return row
    return None


def _is_cruise_heading(craft: Craft, at: Place) -> bool:
    return at.column in map(_identifier, ("altitude", *settings(craft)))


def _cruise_heading(craft: Craft, at: Place) -> Expected:
    unit = craft.altitude if at.column == "altitude" else None
    return heading(at.row_number(at.column), unit)


def cruise(craft: Craft, at: Place) -> Expected:
    if _is_cruise_heading(craft, at):
        return _cruise_heading(craft, at)
    result, said, air = re.fullmatch(r"(.+?)-(?:(isa|oat)-(.+)|all)", at.column).groups()
    known = craft.definition.cruise
    if craft.cruise_air is None and said:  # the one temperature of all rows
        assert number(known[said]) == number(air)
        air = None
    row = _cruise_row(craft, at, None if air is None else number(air))
    (name,) = [one for one in known["columns"] if _identifier(one) == result]
    if row is None or row[name] in NOT_AVAILABLE:
        return computed(None)
    unit = {
        "tas": craft.cruise_unit,
        "ias": craft.speed,
        "fuel flow": craft.definition.units.get("fuel flow"),
        "power": "%",
        "endurance": "h",
        "range": {"nm": "NM"}.get(craft.definition.units.get("distance")),
    }
    return entered(row[name], known.get("page"), unit.get(name))


def cruise_at(craft: Craft, at: Place) -> Expected:
    if at.column == "altitude":
        return _altitude(craft, at)
    setting = dict(zip(settings(craft), numbers(at.block), strict=True))
    altitude, air = at.row_number("altitude"), {}
    if craft.cruise_air is not None:
        if (known := _air(craft, at)) is None:
            return BLANK
        air = {"oat": known[1], "isa": craft.isa_deviation(*known)}
    tas = craft.cruise("tas", setting, altitude, air)
    if tas is None:
        return computed(None)
    # Less fuel than it takes is the unsafe side.
    fuel = computed(craft.cruise("fuel flow", setting, altitude, air), UP, 1)
    return computed(tas, NEAREST, 0, craft.cruise_unit, fuel)


def economy(craft: Craft, at: Place) -> Expected:
    if _is_cruise_heading(craft, at):
        return _cruise_heading(craft, at)
    row = _cruise_row(craft, at, number("0") if craft.cruise_air else None)
    if row["tas"] in NOT_AVAILABLE or row["fuel flow"] in NOT_AVAILABLE:
        return computed(None)
    knots = convert(number(row["tas"]), craft.cruise_unit, "kt")
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
    way, _, rate = at.row["air"].partition("\N{NO-BREAK SPACE}")
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
    "position": position,
    "instrument": instrument,
    "altimeter": altimeter,
    "altimeter-card": altimeter_card,
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
