"""Which tables and rows a card must have, so that nothing that is left off goes unseen."""

from collections.abc import Iterator
from itertools import product

from .craft import Craft
from .physics import DOWN, NEAREST, Number, number, printed
from .tables import settings

# The numbers of a block's heading, then those of the row's own headings.
Key = tuple[tuple[Number, ...], tuple[Number, ...]]

ALWAYS = {
    "speeds",
    "markings",
    "calibration",
    "indicated",
    "corrections",
    "stall",
    "manoeuvring",
    "true-airspeed",
    "tas-factor",
    "rule-of-thumb",
    "airspeed-for-tas",
    "ground-speed",
    "crosswind",
    "crosswind-limit",
    "glide",
}


def tables(craft: Craft) -> set[str]:
    """Return the names of the tables that a demo aircraft's card must have."""
    found = set(ALWAYS)
    known = craft.definition
    if any(not one.is_printed for one in known.calibration.values()):
        found.add("position")
    for table, printed_of in (
        ("instrument", known.bench_card),
        ("altimeter", known.altimeter),
        ("altimeter-card", known.altimeter_card),
    ):
        if printed_of:
            found.add(table)
    if craft.limits_change_with_altitude:
        found.add("altitude-limits")
    if craft.definition.kind != "glider":
        found |= {"approach", "cruise", "cruise-at", "economy"}
    if craft.definition.polars:
        found |= {"polar", "polar-best", "speed-to-fly"}
    if len(craft.definition.names) > 1:
        found.add("weights")
    if any(not {"ratio", "page"} >= one.keys() for one in craft.definition.glides):
        found.add("gliding")
    return found


def points(craft: Craft) -> int:
    """Return how many points the polars of an aircraft have."""
    return sum(len(one["sink"]) for one in craft.definition.polars)


def rows(craft: Craft) -> dict[str, list[Key]]:
    """Return the rows that each table must have, where definitions and school say so."""
    levels = _numbers(craft.definition.grid["altitude"])
    weights = _numbers(craft.definition.weights)
    reference = _reference_headings(craft)
    wanted = [(one,) for one in craft.round_speeds(craft.definition.grid["tas"])]
    found = {
        "stall": _under(
            [_flaps_heading(craft, one) for one, _ in craft.stall_settings], _stall_weights(craft)
        ),
        "manoeuvring": _under([()], weights),
        "true-airspeed": _under(reference, levels),
        "rule-of-thumb": _under(reference, levels),
        "tas-factor": _under([()], levels),
        "airspeed-for-tas": _under(wanted, levels),
    }
    found |= _printed(craft)
    if craft.limits_change_with_altitude:
        crossover = craft.crossover()
        more = [] if crossover is None else [number(printed(crossover, DOWN))]
        found["altitude-limits"] = _under([()], [*levels, *more])
    if craft.definition.polars:
        found["polar-best"] = _under([()], weights)
    if craft.definition.kind != "glider":
        found["approach"] = _under([()], weights)
        found |= cruise_rows(craft)
    return found


def _stall_weights(craft: Craft) -> list[Number]:
    return sorted({*_numbers(craft.definition.weights), *(number(one) for one in _given_at(craft))})


def _given_at(craft: Craft) -> Iterator[str]:
    """Yield the weights that the manual prints stall speeds for."""
    yield from (one.weight for one in craft.stalls)
    stall = craft.definition.stall or {"rows": []}
    yield from (row.get("weight", stall.get("weight")) for row in stall["rows"])


def _printed(craft: Craft) -> dict[str, list[Key]]:
    """Return a row for each figure of the tables of corrections."""
    known = craft.definition
    found: dict[str, list[Key]] = {}
    tables = [(flaps, one) for (flaps, *_), one in known.calibration.items() if not one.is_printed]
    if tables:
        found["position"] = [
            (_flaps_heading(craft, flaps), (number(value),))
            for flaps, one in tables
            for value in one.given["ias" if "ias" in one.given else "cas"]
        ]
    for name, card in (
        ("instrument", known.bench_card),
        ("altimeter-card", known.altimeter_card),
    ):
        if card:
            start = "indicated" if "indicated" in card else "true"
            found[name] = _under([()], _numbers(card[start]))
    if known.altimeter:
        found["altimeter"] = [
            (tuple(number(one[key]) for key in ("flaps", "altitude") if key in one), (ias,))
            for one in known.altimeter
            for ias in _numbers(one["ias"])
        ]
    return found


def cruise_rows(craft: Craft) -> dict[str, list[Key]]:
    """Return the rows that the tables of a cruise table must have."""
    names = settings(craft)
    given = [tuple(number(row[one]) for one in ("altitude", *names)) for row in craft.cruise_rows]
    set_to = list(dict.fromkeys(one[1:] for one in given))
    every = [((), one) for one in dict.fromkeys(given)]
    return {
        "cruise": every,
        "economy": every,
        "cruise-at": [row for row in _between(craft, set_to) if _holds(craft, *row)],
    }


def _between(craft: Craft, set_to: list[tuple[Number, ...]]) -> list[Key]:
    return _under(set_to, _numbers(craft.definition.grid["cruise"]["altitude"]))


def _holds(craft: Craft, setting: tuple[Number, ...], level: tuple[Number, ...]) -> bool:
    """Whether the manual's rows reach an altitude with a setting in any air that occurs."""
    altitude = level[0]
    by_name = {name: str(one) for name, one in zip(settings(craft), setting, strict=True)}
    if craft.cruise_air is None:
        return craft.cruise("tas", by_name, altitude, {}) is not None
    for figure in temperatures(craft)["cruise-at"]:
        oat = craft.oat_of(altitude, figure)
        if craft.occurs(altitude, oat):
            air = {"oat": oat, "isa": craft.isa_deviation(altitude, oat)}
            if craft.cruise("tas", by_name, altitude, air) is not None:
                return True
    return False


def temperatures(craft: Craft) -> dict[str, list[Number]]:
    """Return the temperatures, or differences from standard, that tables must have columns for."""
    key = "isa" if craft.by_isa else "oat"
    grids = ("true-airspeed", "tas-factor", "rule-of-thumb", "airspeed-for-tas")
    found = dict.fromkeys(grids, _numbers(craft.definition.grid[key]))
    if "cruise" in craft.definition.grid:
        found["cruise-at"] = _numbers(craft.definition.grid["cruise"][key])
    return found


def _numbers(texts: list[str]) -> list[Number]:
    return [number(one) for one in texts]


def _under(headings: list[tuple[Number, ...]], values: list[Number]) -> list[Key]:
    return [(one, (value,)) for one, value in product(headings, values)]


def _flaps_heading(craft: Craft, flaps: str) -> tuple[Number, ...]:
    return (number(flaps),) if len(craft.definition.flaps) > 1 else ()


def _reference_headings(craft: Craft) -> list[tuple[Number, ...]]:
    """Return each reference speed that the calibration reaches, and its CAS to a tenth."""
    shown = craft.round_speeds(craft.definition.grid["ias"])
    pairs = [(one, craft.cas(craft.ias(one))) for one in shown]
    return [(one, number(printed(cas, NEAREST, 1))) for one, cas in pairs if cas is not None]
