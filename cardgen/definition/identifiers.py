"""Names of what was copied from paper, whatever its order, line or wording.

The airspeed limit for flaps 10 is ``given/speeds/VFE/flaps-10/ias`` in every
file and every year, so that two revisions can be compared figure by figure.
"""

import re
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple, TypeVar

from cardgen.definition.cruise import axes
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.gliding import Glide, Polar
from cardgen.definition.group import Group
from cardgen.definition.model import (
    Arc,
    Calibration,
    Cruise,
    InstrumentCorrection,
    Markings,
    SpeedEntry,
    Stall,
    Units,
    Weights,
)
from cardgen.definition.places import Figure

_FIGURES = ("ias", "cas", "tas", "mach", "times_VS0")


class Copied(NamedTuple):
    """A figure that was copied, its identifier, its unit, and the group that names its page."""

    id: str
    figure: Figure
    unit: str
    group: Group


def slug(text: str) -> str:
    """Return words as a part of an identifier.

    Examples
    --------
    >>> slug("best glide"), slug("storm window, closed")
    ('best-glide', 'storm-window-closed')
    """
    return re.sub(r"[^A-Za-z0-9.+−-]+", "-", text).strip("-")


def case_of(entry: SpeedEntry) -> str:
    """Return what a V-speed's figure holds for, as parts of an identifier.

    Examples
    --------
    >>> case_of(SpeedEntry.model_construct(flaps="10", weight=2310.0))
    'flaps-10/weight-2310'
    """
    parts = [
        f"flaps-{slug(entry.flaps)}" if entry.flaps is not None else "",
        f"gear-{entry.gear}" if entry.gear else "",
        f"weight-{entry.weight:g}" if entry.weight is not None else "",
        f"altitude-{entry.altitude:g}" if entry.altitude is not None else "",
        f"from-{entry.from_altitude:g}" if entry.from_altitude is not None else "",
        slug(entry.when) if entry.when else "",
    ]
    return "/".join(part for part in parts if part)


def named_entries(name: str, entries: list[SpeedEntry]) -> list[tuple[str, SpeedEntry]]:
    """Return a V-speed's figures with the identifiers of their cases, each once."""
    seen: Counter[str] = Counter()
    named = []
    for entry in entries:
        case = "/".join(filter(None, (slug(name), case_of(entry))))
        seen[case] += 1
        named.append((case if seen[case] == 1 else f"{case}/{seen[case]}", entry))
    return named


Gliding = TypeVar("Gliding", Glide, Polar)


def named_cases(groups: list[Gliding]) -> list[tuple[str, Gliding]]:
    """Return glides or polars with the identifiers of their cases, each once."""
    seen: Counter[str] = Counter()
    named = []
    for group in groups:
        case = _gliding_case(group)
        seen[case] += 1
        again = str(seen[case]) if seen[case] > 1 else ""
        named.append(("/".join(filter(None, (case, again))), group))
    return named


def _gliding_case(group: Glide | Polar) -> str:
    parts = [
        f"{key}-{slug(str(value)) if isinstance(value, str) else f'{value:g}'}"
        for key in ("flaps", "gear", "weight", "altitude")
        if (value := getattr(group, key, None)) is not None
    ]
    return "/".join([*parts, *([slug(group.when)] if group.when else [])])


def copied(definition: AircraftDefinition) -> Iterator[Copied]:
    """Yield every figure that was copied for an aircraft, supplements laid over its type."""
    seen: Counter[str] = Counter()
    for one in _copied(definition):
        seen[one.id] += 1
        again = f"/{seen[one.id]}" if seen[one.id] > 1 else ""  # such as a row copied twice
        yield one._replace(id=f"given/{one.id}{again}")


def _copied(definition: AircraftDefinition) -> Iterator[Copied]:
    units, flaps = definition.type.units, definition.type.flaps
    yield from _weights(definition.type.weights, units.weight)
    for name, entries in definition.speeds.items():
        for case, entry in named_entries(name, entries):
            yield from _speed(case, entry, units.speed)
    if definition.markings is not None:
        yield from _markings(definition.markings, units.speed)
    for table in definition.calibration:
        yield from _calibration(table, "/".join(map(slug, table.setting(flaps))), units.speed)
    if definition.stall is not None:
        yield from _stall(definition.stall, flaps[0], units.speed)
    if definition.cruise is not None:
        yield from _cruise(definition.cruise, units.speed, units.fuel_flow or "")
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
        yield from _bench_card(definition.airframe.instrument_correction, unit)


def _weights(weights: Weights, unit: str) -> Iterator[Copied]:
    yield Copied("weights/maximum", weights.maximum, unit, weights)
    for one in weights.others:
        yield Copied(f"weights/{one:g}", one, unit, weights)
    for name, figure in weights.names.items():
        yield Copied(f"weights/{slug(name)}", figure, unit, weights)


def _speed(case: str, entry: SpeedEntry, unit: str) -> Iterator[Copied]:
    for key in _FIGURES:
        figure: Figure | None = getattr(entry, key)
        if figure is not None:
            of = "" if key in ("mach", "times_VS0") else unit
            yield Copied(f"speeds/{case}/{slug(key.replace('_', ' '))}", figure, of, entry)


def _markings(markings: Markings, unit: str) -> Iterator[Copied]:
    for name in Markings.model_fields:
        marking = getattr(markings, name)
        if marking is None:
            continue
        ends = ("from_", "to") if isinstance(marking, Arc) else ("at",)
        for end in ends:
            figure = getattr(marking, end)
            yield Copied(f"markings/{marking_id(name)}/{end.rstrip('_')}", figure, unit, marking)


def marking_id(name: str) -> str:
    """Return the identifier of a marking by the name of its field."""
    return name.replace("_", "-")


def _calibration(table: Calibration, setting: str, unit: str) -> Iterator[Copied]:
    for ias, cas in zip(table.ias, table.cas, strict=True):
        yield Copied(f"calibration/{setting}/{ias:g}/ias", ias, unit, table)
        yield Copied(f"calibration/{setting}/{ias:g}/cas", cas, unit, table)


def _stall(stall: Stall, retracted: str, unit: str) -> Iterator[Copied]:
    for row in stall.rows:
        weight = row.weight or stall.weight
        for key in ("ias", "cas"):
            for bank, figure in zip(stall.bank, getattr(row, key) or (), strict=False):
                at = f"stall/flaps-{slug(row.flaps or retracted)}/weight-{weight:g}/bank-{bank:g}"
                yield Copied(f"{at}/{key}", figure, unit, stall)


def _cruise(cruise: Cruise, speed: str, fuel: str) -> Iterator[Copied]:
    units = {"tas": speed, "ias": speed, "fuel flow": fuel, "power": "%"}
    keys = axes(cruise)
    for row in cruise.rows:
        by_name = dict(zip(cruise.columns, row, strict=True))
        at = "/".join(f"{slug(name)}-{by_name[name]:g}" for name in keys)
        for name in cruise.columns:
            if name not in keys:
                unit = units.get(name, "")
                yield Copied(f"cruise/{at}/{slug(name)}", by_name[name], unit, cruise)


def _glide(case: str, glide: Glide, units: Units) -> Iterator[Copied]:
    of = {
        "ratio": "",
        "distance": units.far,
        "for_height": units.altitude,
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


def _bench_card(card: InstrumentCorrection, unit: str) -> Iterator[Copied]:
    for shown, correction in zip(card.indicated, card.correction, strict=True):
        yield Copied(f"bench/{shown:g}/correction", correction, unit, card)
