"""A folder of definitions, read whole, each airframe laid over its type."""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from cardgen.definition import ranges
from cardgen.definition.corrections import AltimeterCorrection, Calibration
from cardgen.definition.cruise import Cruise, alike, laid_over
from cardgen.definition.files import inside, read_in, records_in, unread, unread_in, unseen
from cardgen.definition.group import Group, validated
from cardgen.definition.model import (
    AirframeDefinition,
    AnyEntry,
    Markings,
    NamedEntry,
    School,
    SpeedEntry,
    StallEntry,
    Supplement,
    TypeDefinition,
    calibrated_twice,
    lacking_units,
    misfits,
)
from cardgen.definition.places import DefinitionError, Fault, Place, near_match
from cardgen.definition.reading import read_yaml
from cardgen.definition.sizes import too_large, too_many
from cardgen.definition.stalling import Stall, StallRow
from cardgen.definition.upgrading import upgraded

AnyGroup = TypeVar("AnyGroup", bound=Group)


@dataclass(frozen=True)
class Change:
    """A V-speed that a supplement changed, and what the manual said before."""

    supplement: Supplement
    speed: str
    before: list[SpeedEntry]
    after: list[SpeedEntry]


@dataclass(frozen=True)
class AircraftDefinition:
    """One airframe laid over its type: all that is known of one aircraft.

    Groups are those of the type, or of the last supplement that restates them.
    """

    airframe: AirframeDefinition
    type: TypeDefinition
    speeds: dict[str, list[SpeedEntry]]
    other_speeds: dict[str, list[NamedEntry]]
    markings: Markings | None
    calibration: list[Calibration]
    stall: Stall | None
    cruise: list[Cruise]
    changes: tuple[Change, ...] = ()
    altimeter_correction: tuple[AltimeterCorrection, ...] = ()

    @property
    def registration(self) -> str:
        """The aircraft's registration."""
        return self.airframe.registration


@dataclass(frozen=True)
class Fleet:
    """A school, its types by file name, and its aircraft in order of registration."""

    school: School
    types: dict[str, TypeDefinition]
    aircraft: tuple[AircraftDefinition, ...]

    def named(self, registrations: Collection[str]) -> list[AircraftDefinition]:
        """Return aircraft by their registrations, in whatever capitals; each once, as asked for.

        Raises
        ------
        UnknownAircraftError
            If there is none of a registration.
        """
        known = {one.registration.casefold(): one for one in self.aircraft}
        for name in registrations:
            if name.casefold() not in known:
                names = [one.registration for one in self.aircraft]
                raise UnknownAircraftError(_no_aircraft(name, names))
        return [known[name] for name in dict.fromkeys(map(str.casefold, registrations))]


class UnknownAircraftError(LookupError):
    """An aircraft is asked for that a fleet does not have."""


def read_fleet(folder: Path, whole: bool = True) -> Fleet:
    """Read a folder of definitions.

    Parameters
    ----------
    folder : Path
        Holds ``school.yaml``, ``types/*.yaml`` and ``fleet/*.yaml``.
    whole : bool, optional
        Whether all airframes stand there, which the school may name in pairs.

    Returns
    -------
    Fleet

    Raises
    ------
    DefinitionError
        With every fault in every file; places are relative to `folder`.
    """
    fleet, faults = read_sound(folder, whole)
    if faults or fleet is None:
        raise DefinitionError(faults)
    return fleet


def read_sound(folder: Path, whole: bool = True) -> tuple[Fleet | None, list[Fault]]:
    """Read a folder of definitions, and leave out what has faults, and what is of a type that has.

    Parameters are those of `read_fleet`.

    Returns
    -------
    Fleet or None
        None where the school's file cannot be read.
    list of Fault
        Every fault in every file.
    """
    faults: list[Fault] = []
    school = _read(School, folder, Path("school.yaml"), faults)
    types = {
        path.stem: _read(TypeDefinition, folder, path, faults)
        for path in _files(folder, "types", faults)
    }
    airframes = [
        _read(AirframeDefinition, folder, path, faults) for path in _files(folder, "fleet", faults)
    ]
    try:
        records_in(folder)  # they are read later
    except DefinitionError as error:
        faults += error.faults
    known = [airframe for airframe in airframes if airframe is not None]
    if not airframes:
        said = "found no airframe, expected fleet/*.yaml; write one: cardgen start airframe"
        faults.append(Fault(Place("fleet", 1, 1), said))
    faults += _unknown_types(known, types)
    faults += _repeated_registrations(known)
    faults += (fault for airframe in known for fault in misfits_of(airframe, types))
    faults += (fault for one in types.values() if one for fault in unphysical(one))
    faults += (fault for one in types.values() if one for fault in too_many(one))
    supplements = (one for airframe in known for one in airframe.supplements)
    faults += (fault for one in supplements for fault in too_many(one))
    faults += _grids(school, types)
    if whole and school is not None and len(known) == len(airframes):
        faults += _pairs(school, [one.registration for one in known])
    if school is None:
        return None, faults
    spoiled = {fault.place.file for fault in faults}
    sound = {
        name: definition
        for name, definition in types.items()
        if definition is not None and definition.place.file not in spoiled
    }
    for definition in sound.values():
        _attribute(definition, definition.manual.name)
    names = Counter(one.registration.casefold() for one in known)
    aircraft = sorted(
        (
            merged(sound[one.type], one)
            for one in known
            if one.type in sound
            and one.place.file not in spoiled
            and names[one.registration.casefold()] == 1
        ),
        key=_by_registration,
    )
    large = {one.registration: [*too_large(one, school)] for one in aircraft}
    aircraft = [one for one in aircraft if not large[one.registration]]
    faults += dict.fromkeys(fault for found in large.values() for fault in found)
    return Fleet(school, sound, tuple(aircraft)), faults


def unphysical(definition: TypeDefinition) -> Iterable[Fault]:
    """Find figures of a type that are out of any physical range."""
    return ranges.out_of_range(ranges.of_type(definition), definition.units)


def merged(definition: TypeDefinition, airframe: AirframeDefinition) -> AircraftDefinition:
    """Lay an airframe, with its supplements in order, over its type.

    A supplement that restates a stall speed takes away the manual's stall
    table, unless it brings its own: the old table no longer holds.
    """
    aircraft = AircraftDefinition(
        airframe,
        definition,
        dict(definition.speeds),
        dict(definition.other_speeds),
        definition.markings,
        definition.calibration,
        definition.stall,
        definition.cruise,
        altimeter_correction=tuple(definition.altimeter_correction),
    )
    for supplement in airframe.supplements:
        _attribute(supplement, f"{supplement.title} {supplement.number}")
        aircraft = _laid_over(aircraft, supplement)
    return _with_stall_speeds(aircraft)


def _with_stall_speeds(aircraft: AircraftDefinition) -> AircraftDefinition:
    """Give stall speeds that only the manual's table prints the names of V-speeds.

    Of each flap setting and gear the one at the heaviest weight.
    """
    stall, flaps = aircraft.stall, aircraft.type.flaps
    if stall is None or 0.0 not in stall.bank:
        return aircraft
    heaviest: dict[tuple[str, str | None], StallRow] = {}
    for row in stall.rows:
        at = row.flaps or flaps[0], row.gear
        known = heaviest.setdefault(at, row)
        if stall.weight_of(row) > stall.weight_of(known):
            heaviest[at] = row
    named: dict[str, list[SpeedEntry]] = {}
    for (setting, _), row in heaviest.items():
        name = "VS0" if len(flaps) > 1 and setting == flaps[-1] else "VS1"
        if name not in aircraft.speeds:
            named.setdefault(name, []).append(_stall_entry(stall, row, setting))
    return replace(aircraft, speeds={**aircraft.speeds, **named})


def _stall_entry(stall: Stall, row: StallRow, setting: str) -> StallEntry:
    level = [float(bank) for bank in stall.bank].index(0.0)
    entry = StallEntry.model_construct(
        ias=row.ias[level] if row.ias else None,
        cas=row.cas[level] if row.cas else None,
        flaps=setting,
        gear=row.gear,
        weight=stall.weight_of(row),
        page=stall.page,
    )
    entry._block, entry._document = row._block, stall.document
    return entry


def type_alone(name: str, definition: TypeDefinition) -> AircraftDefinition:
    """Return a type, by its file's name, as an aircraft of which nothing else is known."""
    nothing = AirframeDefinition.model_construct(
        registration="", type=name, supplements=[], remarks=[], accepted=[]
    )
    return merged(definition, nothing)


def _laid_over(aircraft: AircraftDefinition, supplement: Supplement) -> AircraftDefinition:
    speeds, changes = _restated(aircraft, supplement, aircraft.speeds, supplement.speeds)
    others, more = _restated(aircraft, supplement, aircraft.other_speeds, supplement.other_speeds)
    stalls = [one for name in ("VS0", "VS1") for one in supplement.speeds.get(name, [])]
    restalled = any(one.when is None for one in stalls)
    return replace(
        aircraft,
        speeds=speeds,
        other_speeds=others,
        markings=_markings_over(aircraft.markings, supplement.markings),
        calibration=_calibration_over(aircraft, supplement.calibration),
        stall=supplement.stall or (None if restalled else aircraft.stall),
        cruise=laid_over(aircraft.cruise, supplement.cruise),
        changes=(*aircraft.changes, *changes, *more),
        altimeter_correction=_altimeter_over(aircraft, supplement.altimeter_correction),
    )


def _restated(
    aircraft: AircraftDefinition,
    supplement: Supplement,
    speeds: dict[str, list[AnyEntry]],
    new: dict[str, list[AnyEntry]],
) -> tuple[dict[str, list[AnyEntry]], list[Change]]:
    """Return speeds with those of a supplement laid over them, and what it changed."""
    over, changes = dict(speeds), []
    for name, entries in new.items():
        before = speeds.get(name, [])
        gone = [
            old for old in before if any(_restates(aircraft.type, name, e, old) for e in entries)
        ]
        over[name] = [*entries, *(old for old in before if old not in gone)]
        changes.append(Change(supplement, name, [*gone], [*entries]))
    return over, changes


def _restates(definition: TypeDefinition, name: str, new: SpeedEntry, old: SpeedEntry) -> bool:
    """Whether an entry takes another's place: it holds in the same case, or in every case."""
    if new.when not in (None, old.when):
        return False
    usual = {"VS0": definition.flaps[-1], "VREF": definition.flaps[-1], "VS1": definition.flaps[0]}
    defaults = {"flaps": usual.get(name), "weight": definition.weights.maximum}
    for condition in ("flaps", "gear", "weight", "altitude", "from_altitude"):
        wanted, found = getattr(new, condition), getattr(old, condition)
        default = defaults.get(condition)
        if condition == "flaps":
            wanted = wanted or default
        if wanted is not None and wanted != (found if found is not None else default):
            return False
    return new.from_altitude is not None or old.from_altitude is None


def _markings_over(old: Markings | None, new: Markings | None) -> Markings | None:
    if old is None or new is None:
        return new or old
    restated = {name: getattr(new, name) for name in new.model_fields_set}
    return old.model_copy(update=restated)


def _calibration_over(aircraft: AircraftDefinition, new: list[Calibration]) -> list[Calibration]:
    flaps = aircraft.type.flaps
    restated = {table.setting(flaps) for table in new}

    def holds(old: Calibration) -> bool:
        *setting, gear = old.setting(flaps)
        return restated.isdisjoint({(*setting, gear), (*setting, "")})

    return [*new, *filter(holds, aircraft.calibration)]


def _altimeter_over(
    aircraft: AircraftDefinition, new: list[AltimeterCorrection]
) -> tuple[AltimeterCorrection, ...]:
    """Let a supplement's tables take the place of all that the manual has for their setting."""
    restated = {table.setting[:2] for table in new}
    kept = [old for old in aircraft.altimeter_correction if old.setting[:2] not in restated]
    return (*new, *kept)


def _attribute(group: Group, document: str) -> None:
    """Tell a group, and the groups in it, which document they were read from."""
    group._document = document
    for name in type(group).model_fields:
        for inner in _groups_in(getattr(group, name)):
            _attribute(inner, document)


def _groups_in(value: object) -> Iterable[Group]:
    if isinstance(value, Group):
        yield value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _groups_in(inner)
    elif isinstance(value, list) and value and not isinstance(value[0], float):
        for inner in value:
            yield from _groups_in(inner)


def _files(folder: Path, name: str, faults: list[Fault]) -> list[Path]:
    """Return the files of one of its folders; those whose names do not show are told.

    So are those that would not be read, since nobody would miss an aircraft that is not there.
    """
    try:
        found, others = read_in(folder, name), unread_in(folder, name)
    except DefinitionError as error:
        faults += error.faults
        return []
    faults += map(unread, others)
    odd = {path: fault for path in found if (fault := unseen(path))}
    faults += odd.values()
    return [path for path in found if path not in odd]


def _read(model: type[AnyGroup], folder: Path, path: Path, faults: list[Fault]) -> AnyGroup | None:
    name = path.as_posix()
    try:
        return validated(model, upgraded(model, read_yaml(inside(folder, path), name)))
    except FileNotFoundError:
        faults.append(
            Fault(Place(name, 1, 1), f"found no file; write one: cardgen start {path.stem}")
        )
    except OSError as error:
        faults.append(Fault(Place(name, 1, 1), f"cannot be read: {error.strerror}"))
    except DefinitionError as error:
        faults += error.faults
    return None


def _unknown_types(
    airframes: list[AirframeDefinition], types: dict[str, TypeDefinition | None]
) -> Iterable[Fault]:
    for airframe in airframes:
        if airframe.type not in types:
            known = ", ".join(types) or "none, there are no files in types/"
            said = f"type: found {airframe.type}, expected one of {known}"
            yield Fault(airframe.place_of("type"), said + near_match(airframe.type, types))


def _repeated_registrations(airframes: list[AirframeDefinition]) -> Iterable[Fault]:
    first: dict[str, AirframeDefinition] = {}
    for airframe in airframes:
        other = first.setdefault(airframe.registration.casefold(), airframe)
        if other is not airframe:
            said = f"registration: {airframe.registration} is in {other.place.file} already"
            yield Fault(airframe.place_of("registration"), said)


def misfits_of(
    airframe: AirframeDefinition, types: dict[str, TypeDefinition | None]
) -> Iterable[Fault]:
    """Find what a supplement says that does not fit the airframe's type."""
    definition = types.get(airframe.type)
    if definition is None:
        return
    yield from ranges.out_of_range(ranges.of_bench_card(airframe), definition.units)
    for supplement in airframe.supplements:
        yield from misfits(supplement, definition.kind, definition.flaps)
        yield from calibrated_twice(supplement, definition.flaps)
        yield from ranges.out_of_range(ranges.of_supplement(supplement), definition.units)
        yield from alike(supplement.cruise)
        for column, key in lacking_units(supplement.cruise, definition.units):
            said = f"{column}: the type's units name none, expected {key} among them"
            yield Fault(supplement.place_of("cruise"), said)


def _grids(school: School | None, types: dict[str, TypeDefinition | None]) -> Iterable[Fault]:
    """Find what a school tabulates that no aircraft can do, and for a type that there is not."""
    if school is None:
        return
    yield from ranges.of_school(school)
    for name, definition in types.items():
        if definition is not None and (grid := school.grid(name, definition.kind)):
            yield from ranges.of_grid(grid, definition.units)
    for name in school.reference_speeds_by_type:
        if name not in types:
            known = ", ".join(types) or "none, there are no files in types/"
            said = f"reference speeds by type: found {name}, expected one of {known}"
            said += near_match(name, types)
            yield Fault(school._block["reference speeds by type"].keys_at[name], said)


def _pairs(school: School, registrations: list[str]) -> Iterable[Fault]:
    """Find pairs of an aircraft that there is not, of one with itself, and those named twice."""
    seen: set[tuple[str, str]] = set()
    for pair in school.pairs:
        for key, name in (("from", pair.from_), ("to", pair.to)):
            if name not in registrations:
                yield Fault(pair.place_of(key), _no_aircraft(name, sorted(registrations)))
        names = pair.from_, pair.to
        if pair.from_ == pair.to:
            yield Fault(pair.place_of("to"), f"found {pair.to} again, expected another aircraft")
        elif names in seen:
            yield Fault(pair.place, f"from {pair.from_} to {pair.to} is named already")
        seen.add(names)


def _no_aircraft(name: str, known: Sequence[str]) -> str:
    return f"no aircraft {name}, expected one of {', '.join(known)}{near_match(name, known)}"


def _by_registration(aircraft: AircraftDefinition) -> str:
    return aircraft.registration
