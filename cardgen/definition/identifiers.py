"""Names of what was copied from paper, whatever its order, line or wording.

The airspeed limit for flaps 10 is ``given/speeds/VFE/flaps-10/ias`` in every
file and every year, so that two revisions can be compared figure by figure.
"""

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from cardgen.definition.cruise import AIR, Cruise, axes, cell_at, set_at, told_apart
from cardgen.definition.fleet import AircraftDefinition
from cardgen.definition.group import Group
from cardgen.definition.model import (
    Arc,
    Calibration,
    InstrumentCorrection,
    Markings,
    SpeedEntry,
    Stall,
    Units,
    Weights,
    distance_unit,
)
from cardgen.definition.names import slug
from cardgen.definition.places import Figure

_FIGURES = ("ias", "cas", "tas", "mach", "times_VS0")


class Copied(NamedTuple):
    """A figure that was copied, its identifier, its unit, and the group that names its page."""

    id: str
    figure: Figure
    unit: str
    group: Group


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
    for cruise, parts in zip(definition.cruise, told_apart(definition.cruise), strict=True):
        yield from _cruise(cruise, "/".join(("cruise", *parts.values())), units)
    if definition.type.glide is not None:
        glide = definition.type.glide
        yield Copied("glide/ratio", glide.ratio, "", glide)
    if definition.type.crosswind is not None:
        crosswind = definition.type.crosswind
        yield Copied("crosswind/demonstrated", crosswind.demonstrated, units.speed, crosswind)
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


def _bench_card(card: InstrumentCorrection, unit: str) -> Iterator[Copied]:
    for shown, correction in zip(card.indicated, card.correction, strict=True):
        yield Copied(f"bench/{shown:g}/correction", correction, unit, card)
