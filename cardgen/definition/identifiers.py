"""Names of what was copied from paper, whatever its order, line or wording.

The airspeed limit for flaps 10 is ``given/speeds/VFE/flaps-10/ias`` in every
file and every year, so that two revisions can be compared figure by figure.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple, TypeVar

from cardgen.definition.corrections import (
    AltimeterCard,
    AltimeterCorrection,
    Calibration,
    InstrumentCorrection,
    key_of,
)
from cardgen.definition.cruise import AIR, Cruise, axes, cell_at, set_at, told_apart
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.gliding import Glide, Polar
from cardgen.definition.group import Group
from cardgen.definition.model import (
    AnyEntry,
    Arc,
    Markings,
    OtherMark,
    SpeedEntry,
    StallEntry,
    Units,
    Weights,
    distance_unit,
)
from cardgen.definition.names import slug
from cardgen.definition.places import Block, Figure, Place, Rows
from cardgen.definition.stalling import Stall

_FIGURES = ("ias", "cas", "tas", "mach", "times_VS0", "sink", "less", "for_each")


class Copied(NamedTuple):
    """A figure that was copied, its identifier, its unit, and the group that names its page."""

    id: str
    figure: Figure
    unit: str
    group: Group


class Worded(NamedTuple):
    """Words that were copied, and on which figures hang: their identifier, and their group."""

    id: str
    words: str
    group: Group


_HELD_FOR = {
    "flaps": "flaps",
    "gear": "gear",
    "weight": "weight",
    "altitude": "altitude",
    "from_altitude": "from",
}


def case_of(group: SpeedEntry | Glide | Polar) -> str:
    """Return what a V-speed's figure, a glide or a polar holds for, as parts of an identifier.

    Examples
    --------
    >>> case_of(SpeedEntry.model_construct(flaps="10", weight=2310.0))
    'flaps-10/weight-2310'
    """
    parts = [
        f"{name}-{slug(value) if isinstance(value, str) else f'{value:g}'}"
        for key, name in _HELD_FOR.items()
        if (value := getattr(group, key, None)) is not None
    ]
    return "/".join(filter(None, [*parts, slug(group.when or "")]))


def each_once(identifiers: Iterable[str]) -> Iterator[str]:
    """Yield identifiers, with a number behind those that were there before.

    Examples
    --------
    >>> list(each_once(["VNE", "VA", "VNE", "", ""]))
    ['VNE', 'VA', 'VNE/2', '', '2']
    """
    seen: Counter[str] = Counter()
    for one in identifiers:
        seen[one] += 1
        yield one if seen[one] == 1 else "/".join(filter(None, (one, str(seen[one]))))


def named_entries(name: str, entries: list[AnyEntry]) -> list[tuple[str, AnyEntry]]:
    """Return a V-speed's figures with the identifiers of their cases, each once."""
    cases = ("/".join(filter(None, (slug(name), case_of(entry)))) for entry in entries)
    return list(zip(each_once(cases), entries, strict=True))


Gliding = TypeVar("Gliding", Glide, Polar)


def named_cases(groups: list[Gliding]) -> list[tuple[str, Gliding]]:
    """Return glides or polars with the identifiers of their cases, each once."""
    return list(zip(each_once(map(case_of, groups)), groups, strict=True))


def copied(definition: AircraftDefinition) -> Iterator[Copied]:
    """Yield every figure that was copied for an aircraft, supplements laid over its type."""
    return _given(_copied(definition))


def worded(definition: AircraftDefinition) -> Iterator[Worded]:
    """Yield the words that figures were copied with and that no identifier of theirs has.

    They are what a table holds for, which way a speed of the manual's own name bounds, what a
    mark of its own stands for, and what is known to have no mark.
    """
    return _given(_worded(definition))


AnyGiven = TypeVar("AnyGiven", Copied, Worded)


def _given(several: Iterable[AnyGiven]) -> Iterator[AnyGiven]:
    """Yield what was copied, each by its own identifier: with a number a row copied twice."""
    found = list(several)
    for one, identifier in zip(found, each_once(one.id for one in found), strict=True):
        yield one._replace(id=f"given/{identifier}")


def _worded(definition: AircraftDefinition) -> Iterator[Worded]:
    flaps = definition.type.flaps
    for name, entries in definition.other_speeds.items():
        for case, one in named_entries(name, entries):
            if one.sense != "target":
                yield Worded(f"speeds/{case}/sense", one.sense, one)
    if definition.markings is not None:
        yield from _worded_markings(definition.markings)
    for table in definition.calibration:
        if table.when is not None:
            at = setting_id(*table.setting(flaps))
            yield Worded(f"calibration/{at}/when", table.when, table)
    for correction in definition.altimeter_correction:
        if correction.when is not None:
            at = _altimeter_id(correction)
            yield Worded(f"altimeter/{at}/when", correction.when, correction)
    if definition.stall is not None and definition.stall.when is not None:
        yield Worded("stall/when", definition.stall.when, definition.stall)
    for at, cruise in _cruises(definition):
        if cruise.name is not None:
            yield Worded(f"{at}/name", cruise.name, cruise)


def _worded_markings(markings: Markings) -> Iterator[Worded]:
    for mark in markings.other_marks:
        at = f"markings/{_mark_id(mark)}"
        if mark.means is not None:
            yield Worded(f"{at}/means", mark.means, mark)
        if mark.shape != "line":
            yield Worded(f"{at}/shape", mark.shape, mark)
    without = (*(f"flaps {flaps}" for flaps in markings.flaps_not_marked), *markings.not_marked)
    if without:
        yield Worded("markings/not-marked", ", ".join(without), markings)


def short(identifier: str) -> str:
    """Return the identifier of a figure that was copied, as people write it.

    Examples
    --------
    >>> short("given/speeds/VNE/ias"), short("speeds/VNE/ias")
    ('speeds/VNE/ias', 'speeds/VNE/ias')
    """
    return identifier.removeprefix("given/")


def figures_at(definition: AircraftDefinition) -> dict[Place, tuple[Copied, ...]]:
    """Return the figures that stand at each place.

    At a figure's own place that is the figure; at that of a group, a list, an altitude or
    a weight, all figures of the least part of a file around it that has any. At a date or
    at words there is none.
    """
    figures = list(copied(definition))
    at: dict[Place, tuple[Copied, ...]] = {}
    for one in figures:
        at[one.figure.place] = (*at.get(one.figure.place, ()), one)
    for group in {id(one.group): one.group for one in figures}.values():
        _stand_in(group._block, dict(at), at)
    return at


def _stand_in(
    part: Block | Rows, own: dict[Place, tuple[Copied, ...]], at: dict[Place, tuple[Copied, ...]]
) -> tuple[list[Copied], list[Place]]:
    """Return the figures in a part of a file, and the places in it that are still without one."""
    inside: list[Copied] = []
    without = [part.place]
    for place, value in _parts(part):
        if isinstance(value, Block | Rows):
            figures, others = _stand_in(value, own, at)
        elif isinstance(value, Figure):
            figures, others = list(own.get(place, ())), [place]
        else:
            continue
        inside += figures
        without += others
    if not inside:
        return inside, without
    for place in without:
        at.setdefault(place, tuple(inside))
    return inside, []


def _parts(part: Block | Rows) -> Iterator[tuple[Place, object]]:
    if isinstance(part, Block):
        return ((part.values_at[key], value) for key, value in part.items())
    return zip(part.items_at, part, strict=True)


def _copied(definition: AircraftDefinition) -> Iterator[Copied]:
    units, flaps = definition.type.units, definition.type.flaps
    yield from _weights(definition.type.weights, units.weight)
    for name, entries in definition.speeds.items():
        for case, entry in named_entries(name, entries):
            if not isinstance(entry, StallEntry):
                yield from _speed(case, entry, units)
    for name, named in definition.other_speeds.items():
        for case, one in named_entries(name, named):
            yield from _speed(case, one, units)
    if definition.markings is not None:
        yield from _markings(definition.markings, definition.markings.unit or units.speed)
    for table in definition.calibration:
        yield from _calibration(table, setting_id(*table.setting(flaps)), units.speed)
    for correction in definition.altimeter_correction:
        yield from _altimeter(correction, units.altitude)
    if definition.stall is not None:
        yield from _stall(definition.stall, flaps[0], units.speed)
    for at, cruise in _cruises(definition):
        yield from _cruise(cruise, at, units)
    for case, glide in named_cases(definition.type.glide):
        yield from _glide(case, glide, units)
    for case, polar in named_cases(definition.type.polar):
        yield from _polar(case, polar, units)
    if definition.type.crosswind is not None:
        crosswind = definition.type.crosswind
        unit = crosswind.unit or units.speed
        yield Copied("crosswind/demonstrated", crosswind.demonstrated, unit, crosswind)
    if definition.type.maximum_operating_altitude is not None:
        highest = definition.type.maximum_operating_altitude
        yield Copied("maximum-operating-altitude", highest.altitude, units.altitude, highest)
    if definition.airframe.instrument_correction is not None:
        indicator = definition.airframe.indicator
        unit = indicator.unit if indicator else units.speed
        yield from _bench_card(definition.airframe.instrument_correction, "bench", unit)
    if definition.airframe.altimeter_correction is not None:
        card = definition.airframe.altimeter_correction
        yield from _bench_card(card, "altimeter-bench", units.altitude)


def _weights(weights: Weights, unit: str) -> Iterator[Copied]:
    yield Copied("weights/maximum", weights.maximum, unit, weights)
    for one in weights.others:
        yield Copied(f"weights/{one:g}", one, unit, weights)
    for name, figure in weights.names.items():
        yield Copied(f"weights/{slug(name)}", figure, unit, weights)


def _speed(case: str, entry: SpeedEntry, units: Units) -> Iterator[Copied]:
    of = {"mach": "", "times_VS0": "", "sink": units.sink or "", "for_each": units.altitude}
    for key in _FIGURES:
        figure: Figure | None = getattr(entry, key)
        if figure is not None:
            at = f"speeds/{case}/{slug(key.replace('_', ' '))}"
            yield Copied(at, figure, of.get(key, units.speed), entry)


def _markings(markings: Markings, unit: str) -> Iterator[Copied]:
    for name in Markings.PAINTED:
        marking = getattr(markings, name)
        if marking is None:
            continue
        ends = ("from_", "to") if isinstance(marking, Arc) else ("at",)
        for end in ends:
            figure = getattr(marking, end)
            yield Copied(f"markings/{marking_id(name)}/{end.rstrip('_')}", figure, unit, marking)

    for mark in markings.other_marks:
        yield Copied(f"markings/{_mark_id(mark)}/at", mark.at, unit, mark)


def _mark_id(mark: OtherMark) -> str:
    return f"{slug(mark.name)}-{mark.at:g}"


def marking_id(name: str) -> str:
    """Return the identifier of a marking by the name of its field."""
    return name.replace("_", "-")


def setting_id(flaps: str, source: str, gear: str = "") -> str:
    """Return what a table of corrections holds for, as parts of an identifier.

    Examples
    --------
    >>> setting_id("10", "normal"), setting_id("10", "alternate", "down")
    ('10/normal', '10/alternate/gear-down')
    """
    return "/".join((slug(flaps), source, *([f"gear-{gear}"] if gear else [])))


def _calibration(table: Calibration, setting: str, unit: str) -> Iterator[Copied]:
    start, beside = (slug(key_of(row)) for row in table.form)
    if table.gives == "normal IAS":
        beside = f"{beside}-for-normal-ias"
    for one, other in table.pairs:
        yield Copied(f"calibration/{setting}/{one:g}/{start}", one, unit, table)
        yield Copied(f"calibration/{setting}/{one:g}/{beside}", other, unit, table)


def _altimeter(table: AltimeterCorrection, unit: str) -> Iterator[Copied]:
    at = _altimeter_id(table)
    if table.altitude is not None:
        yield Copied(f"altimeter/{at}/altitude", table.altitude, unit, table)
    beside = slug(key_of(table.form[1]))
    for ias, figure in table.pairs:
        yield Copied(f"altimeter/{at}/{ias:g}/{beside}", figure, unit, table)


def _altimeter_id(table: AltimeterCorrection) -> str:
    flaps, source, altitude = table.setting
    at = setting_id(flaps or "all", source)
    return at if table.altitude is None else f"{at}/altitude-{altitude:g}"


def _stall(stall: Stall, retracted: str, unit: str) -> Iterator[Copied]:
    for row in stall.rows:
        gear = f"/gear-{row.gear}" if row.gear else ""
        at = f"stall/flaps-{slug(row.flaps or retracted)}{gear}/weight-{stall.weight_of(row):g}"
        for key in ("ias", "cas"):
            for bank, figure in zip(stall.bank, getattr(row, key) or (), strict=False):
                yield Copied(f"{at}/bank-{bank:g}/{key}", figure, unit, stall)


def _cruises(definition: AircraftDefinition) -> Iterator[tuple[str, Cruise]]:
    """Yield the cruise tables, each with the beginning of its figures' identifiers."""
    for cruise, parts in zip(definition.cruise, told_apart(definition.cruise), strict=True):
        yield "/".join(("cruise", *parts.values())), cruise


def _cruise(cruise: Cruise, under: str, units: Units) -> Iterator[Copied]:
    of = {
        "tas": cruise.tas_unit or units.speed,
        "ias": units.speed,
        "fuel flow": units.fuel_flow or "",
        "power": "%",
        "endurance": "h",
        "range": distance_unit(units),
        **({"oat": units.temperature} if "oat" in cruise.results or cruise.oat is not None else {}),
    }
    if cruise.weight is not None:
        yield Copied(f"{under}/weight", cruise.weight, units.weight, cruise)
    for name in AIR:
        said: Figure | None = getattr(cruise, name)
        if said is not None:
            yield Copied(f"{under}/{name}", said, of.get(name, ""), cruise)
    keys = axes(cruise)
    for row in cruise.rows:
        where = "/".join(f"{slug(name)}-{set_at(cruise, row, name):g}" for name in keys)
        for name in cruise.columns:
            figure = cell_at(cruise, row, name)
            if name not in keys and figure is not None:
                yield Copied(f"{under}/{where}/{slug(name)}", figure, of.get(name, ""), cruise)


def _glide(case: str, glide: Glide, units: Units) -> Iterator[Copied]:
    of = {
        "ratio": "",
        "distance": units.far,
        "for_height": units.high,
        "ias": units.speed,
        "cas": units.speed,
        "sink": units.sink or "",
    }
    for name, unit in of.items():
        figure: Figure | None = getattr(glide, name)
        if figure is not None:
            at = "/".join(filter(None, ("glide", case, slug(name.replace("_", " ")))))
            yield Copied(at, figure, unit, glide)


def _polar(case: str, polar: Polar, units: Units) -> Iterator[Copied]:
    under = "/".join(filter(None, ("polar", case)))
    for name, row in polar.rows.items():
        for figure in row:
            yield Copied(f"{under}/{name}-{figure:g}", figure, units.speed, polar)
    first = next(iter(polar.rows))
    for at, figure in zip(polar.rows[first], polar.sink, strict=True):
        yield Copied(f"{under}/{first}-{at:g}/sink", figure, units.sink or "", polar)


def _bench_card(
    card: InstrumentCorrection | AltimeterCard, name: str, unit: str
) -> Iterator[Copied]:
    start, beside = card.form
    for one, other in card.pairs:
        at = f"{one:g}" if start == "indicated" else f"{start}-{one:g}"
        yield Copied(f"{name}/{at}/{_row_id(beside)}", other, unit, card)


def _row_id(field: str) -> str:
    """Return the identifier of a bench card's row; what is added keeps its name of format 1."""
    return "correction" if field == "add_to_indicated" else slug(key_of(field))
