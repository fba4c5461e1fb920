"""The typed model of what a type's manual, an airframe and a school say.

One class for each group of keys; a key's name is the field's name with spaces.
The sentence under a field is its help, which the JSON Schema hands to editors.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Annotated, Any, ClassVar, Literal, Self, TypeVar

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    ValidationInfo,
    WithJsonSchema,
    model_validator,
)
from pydantic_core import PydanticCustomError

from cardgen.definition.acceptance import Acceptance
from cardgen.definition.corrections import (
    AltimeterCard,
    AltimeterCorrection,
    Calibration,
    InstrumentCorrection,
)
from cardgen.definition.cruise import Cruise, alike
from cardgen.definition.gliding import Glide, Polar, SinkUnit
from cardgen.definition.group import (
    Date,
    Group,
    Label,
    Mark,
    Number,
    NumberOrRange,
    OneOrMore,
    OneOrMoreSettings,
    Paragraph,
    Phrase,
    Registration,
    Sentence,
    Setting,
    Title,
    empty,
    fault,
    for_each_setting,
)
from cardgen.definition.lists import once
from cardgen.definition.places import (
    Block,
    Fault,
    Figure,
    Place,
    Span,
    nearest,
    offered,
    same_but_for_typing,
)
from cardgen.definition.reading import kind_of
from cardgen.definition.speeds import SPEEDS, Kind, Sense
from cardgen.definition.stalling import Stall
from cardgen.units import SpeedUnit

Format = Annotated[Number, WithJsonSchema({"type": "integer", "minimum": 1})]


class Manual(Group):
    """The manual that the figures were read from."""

    title: Title
    """What the manual is called on its cover."""
    number: Label | None = None
    """The manual's document or part number, where it has one."""
    revision: Label | None = None
    """The revision that the figures were read from, where the manual names one."""
    date: Date | None = None
    """The date of that revision, as 2024-05-31, where the manual is dated."""

    @property
    def name(self) -> str:
        """The manual by title and number."""
        return f"{self.title} {self.number or ''}".strip()


class Units(Group):
    """The units that the manual speaks."""

    speed: SpeedUnit
    """The unit of all airspeeds: kt, mph or km/h."""
    altitude: Literal["ft", "m"]
    """The unit of all altitudes: ft or m."""
    temperature: Literal["C", "F"] = "C"
    """The unit of all temperatures: C or F."""
    weight: Literal["lb", "kg"]
    """The unit of all weights: lb or kg."""
    fuel_flow: Literal["gal/h", "L/h", "lb/h", "kg/h"] | None = None
    """The unit of fuel flow, where the cruise table gives it."""
    distance: Literal["nm", "km", "mi"] | None = None
    """The unit of distances, such as range and glide: nm, km or mi for statute miles."""
    height: Literal["ft", "m"] | None = None
    """The unit of the height that a glide's distance is for, where it is not that of altitudes."""
    sink: SinkUnit | None = None
    """The unit of sink, where the manual gives a glide's or a polar: ft/min, m/s or kt."""

    @property
    def far(self) -> str:
        """The unit of distances glided: the manual's, or else one that goes with its altitudes."""
        return distance_unit(self) or ("NM" if self.altitude == "ft" else "km")

    @property
    def high(self) -> str:
        """The unit of heights glided from."""
        return self.height or self.altitude


def distance_unit(units: Units) -> str:
    """Return the unit of distances as the conversions name it; nothing where it is not stated."""
    return "NM" if units.distance == "nm" else units.distance or ""


class Weights(Group):
    """The weights that speeds are given at."""

    maximum: Number
    """The maximum weight, in the unit of weight."""
    others: list[Number] = Field(default_factory=empty)
    """Other weights, in the unit of weight, that speeds are tabulated for."""
    names: dict[Phrase, Number] = Field(default_factory=dict)
    """Further limits, in the unit of weight, by the manual's own names, such as ramp or landing."""
    page: Label | None = None
    """The page of the weight limits."""


class SpeedEntry(Group):
    """One figure of a V-speed, with the condition it holds for."""

    ias: NumberOrRange | None = None
    """Indicated airspeed, in the unit of speed, as the manual prints it; a range as 70 to 80."""
    cas: NumberOrRange | None = None
    """Calibrated airspeed, in the unit of speed, as the manual prints it; a range as 70 to 80."""
    tas: Number | None = None
    """A limit that the manual gives as true airspeed, in the unit of speed."""
    mach: Number | None = None
    """A limit that the manual gives as Mach number."""
    times_VS0: Number | None = None  # noqa: N815 - the key is "times VS0"
    """A speed that the manual gives as a multiple of VS0, such as 1.3."""
    flaps: OneOrMoreSettings | None = None
    """The flap setting that the figure holds for, or a list of them."""
    gear: Literal["up", "down"] | None = None
    """Whether the landing gear is up or down."""
    weight: Number | None = None
    """The weight that the figure holds for, in the unit of weight."""
    altitude: Number | None = None
    """The pressure altitude that the figure holds at, in the unit of altitude."""
    from_altitude: Number | None = None
    """The pressure altitude from which the limit holds upward, in the unit of altitude."""
    less: Number | None = None
    """How much less it is, in the unit of speed, for each so much of altitude above its own."""
    for_each: Number | None = None
    """The height, in the unit of altitude, that it is so much less for each of."""
    between: Literal["interpolate"] | None = None
    """That the manual says to interpolate between its altitudes; else the lower row holds."""
    sink: Number | None = None
    """The sink at that speed, in the unit of sink, where the manual prints it beside it."""
    when: Phrase | None = None
    """Any other condition, in a few words; nothing is computed from it where another has none."""
    page: Label | None = None
    """The page that the figure was read from."""

    @model_validator(mode="before")
    @classmethod
    def _hyphens_are_ranges(cls, data: Any) -> Any:
        for key in ("ias", "cas") if isinstance(data, Block) else ():
            value = data.get(key)
            if isinstance(value, str) and Span.is_range(value):
                data[key] = Span(value, data.values_at[key])
        return data

    @model_validator(mode="after")
    def _has_a_figure(self, info: ValidationInfo) -> Self:
        speeds = ("ias", "cas", "tas", "mach", "times_VS0")
        if all(getattr(self, name) is None for name in speeds):
            fault(info, self.place, "found no speed, expected ias, cas, tas, mach or times VS0")
        falling = [self.less, self.for_each]
        if any(falling) and (None in falling or self.altitude is None):
            fault(info, self.place, "less goes with for each and altitude, expected all three")
        return self


class NamedEntry(SpeedEntry):
    """One figure of a speed that has no symbol, by the manual's own name."""

    sense: Sense = "target"
    """Whether it is a maximum, a minimum, or a target, which is flown: target where left out."""


class StallEntry(SpeedEntry):
    """A stall speed that only the manual's stall table prints."""


def sense_of(name: str, entry: SpeedEntry) -> Sense:
    """Return which way a speed's figure bounds."""
    return entry.sense if isinstance(entry, NamedEntry) else SPEEDS[name].sense


def printed(entry: SpeedEntry) -> Figure | None:
    """Return an entry's airspeed as printed: its IAS, or where it has none its CAS."""
    return entry.ias if entry.ias is not None else entry.cas


AnyEntry = TypeVar("AnyEntry", bound=SpeedEntry)


def in_general(entries: Iterable[AnyEntry]) -> list[AnyEntry]:
    """Return the figures of a speed, without those under a condition that are beside another.

    What the manual says for a case that only a pilot knows, such as a glider on
    tow, takes the place of no figure that holds without a condition for the
    same flaps and gear, and as high, in IAS or CAS, TAS or Mach number.
    """
    known = list(entries)
    plain = [one for one in known if one.when is None]
    return [one for one in known if one.when is None or not any(_covers(p, one) for p in plain)]


def _covers(plain: SpeedEntry, one: SpeedEntry) -> bool:
    alike = (plain.flaps, plain.gear) == (one.flaps, one.gear)
    alike &= (plain.tas is None, plain.mach is None) == (one.tas is None, one.mach is None)
    return alike and plain.from_altitude in (None, one.from_altitude)


Speeds = dict[str, Annotated[OneOrMore[SpeedEntry], AfterValidator(for_each_setting)]]


def _known_speeds(value: Any, info: ValidationInfo) -> Any:
    if not isinstance(value, Block):
        raise PydanticCustomError(
            "group", "{said}", {"said": f"found {kind_of(value)}, expected V-speeds by name"}
        )
    for name in [name for name in value if name not in SPEEDS]:
        near = same_but_for_typing(name, SPEEDS)
        said = f"unknown speed {name}, expected one of {', '.join(SPEEDS)}"
        fault(info, value.keys_at[name], said + offered(near))
        if near is not None and near not in value:
            value.rename(name, near)
    return {name: entries for name, entries in value.items() if name in SPEEDS}


def _limits_are_one_figure(
    speeds: dict[str, list[AnyEntry]], info: ValidationInfo
) -> dict[str, list[AnyEntry]]:
    """Find ranges where one figure bounds."""
    for name, entries in speeds.items():
        for entry in entries:
            if not _may_be_a_range(name, entry):
                _find_ranges(name, entry, info)
    return speeds


def _may_be_a_range(name: str, entry: SpeedEntry) -> bool:
    return entry.sense != "maximum" if isinstance(entry, NamedEntry) else name in _RANGED


def _find_ranges(name: str, entry: SpeedEntry, info: ValidationInfo) -> None:
    for key in ("ias", "cas"):
        figure = getattr(entry, key)
        if isinstance(figure, Span):
            said = f"{key}: found the range {figure.text}, expected one number: {name} is a limit"
            fault(info, figure.place, said)


_RANGED = {
    *(name for name, speed in SPEEDS.items() if speed.sense == "target"),
    *("VREF", "approach", "VR"),
}
KnownSpeeds = Annotated[
    Speeds, BeforeValidator(_known_speeds), AfterValidator(_limits_are_one_figure)
]


def _names_fit(value: Any, info: ValidationInfo) -> Any:
    """Find names that are too long for a sheet."""
    for name in value if isinstance(value, Block) else ():
        if len(name) > LONGEST_NAME:
            said = f"found a name of {len(name)} characters, expected {LONGEST_NAME} at most"
            fault(info, value.keys_at[name], said)
    return value


LONGEST_NAME = 40
NamedSpeeds = Annotated[
    dict[str, Annotated[OneOrMore[NamedEntry], AfterValidator(for_each_setting)]],
    BeforeValidator(_names_fit),
    AfterValidator(_limits_are_one_figure),
]


class Arc(Group):
    """An arc on the indicator."""

    from_: Number = Field(alias="from")
    """Where the arc begins, in the unit of the markings."""
    to: Number
    """Where the arc ends, in the unit of the markings."""
    page: Label | None = None
    """The page of the marking."""


class RadialLine(Group):
    """A line across the indicator's scale."""

    at: Number
    """Where the line stands, in the unit of the markings."""
    page: Label | None = None
    """The page of the marking."""


class OtherMark(Group):
    """A mark on the indicator that has no usual meaning, as the manual names it."""

    name: Label
    """What the manual calls the mark, such as white triangle."""
    at: Number
    """Where the mark stands, in the unit of the markings."""
    shape: Literal["line", "triangle"] = "line"
    """What it is drawn as: a line across the scale, or a triangle beside it."""
    means: Phrase | None = None
    """What it stands for, such as flaps 10."""
    page: Label | None = None
    """The page of the marking."""


class Markings(Group):
    """What the manual prints for the indicator."""

    PAINTED: ClassVar[tuple[str, ...]] = (
        "white",
        "green",
        "yellow",
        "red_line",
        "blue_line",
        "red_radial",
        "yellow_triangle",
    )
    """The arcs and lines that have a usual meaning."""

    KINDS: ClassVar[dict[str, tuple[str, ...]]] = {
        "yellow": ("single-engine", "multi-engine", "glider"),
        "blue line": ("multi-engine", "turbine", "glider"),
        "red radial": ("multi-engine", "turbine"),
        "yellow triangle": ("glider",),
    }

    white: Arc | None = None
    """The arc of flap operation."""
    green: Arc | None = None
    """The arc of normal operation."""
    yellow: Arc | None = None
    """The arc of caution."""
    red_line: RadialLine | None = None
    """The line that is never to be passed."""
    blue_line: RadialLine | None = None
    """Best rate of climb with one engine out; in a glider the approach or climb mark."""
    red_radial: RadialLine | None = None
    """Minimum control speed with one engine out."""
    yellow_triangle: RadialLine | None = None
    """The lowest recommended approach speed of a glider."""
    other_marks: list[OtherMark] = Field(default_factory=empty)
    """Marks that the manual names, such as white triangles for flap settings."""
    flaps_not_marked: list[Setting] = Field(default_factory=empty)
    """Flap settings with a limit of their own that the indicator has no mark for."""
    not_marked: list[Phrase] = Field(default_factory=empty)
    """What else the manual says that the indicator has no mark for, in a few words."""
    speeds_are: Literal["IAS", "CAS"] = "IAS"
    """Whether the markings are painted at speeds in IAS or in CAS."""
    unit: SpeedUnit | None = None
    """The unit of the markings, where it is not the unit of speed."""


class Crosswind(Group):
    """The maximum demonstrated crosswind."""

    demonstrated: Number
    """The maximum demonstrated crosswind, in the unit of speed or in its own."""
    unit: Literal["kt", "mph", "km/h", "m/s"] | None = None
    """Its own unit: kt, mph, km/h or m/s; the unit of speed where left out."""
    page: Label | None = None
    """The page of the figure."""


class MaximumAltitude(Group):
    """How high the aircraft may be flown."""

    altitude: Number
    """The maximum operating pressure altitude, in the unit of altitude."""
    page: Label | None = None
    """The page of the figure."""


Calibrations = Annotated[list[Calibration], AfterValidator(for_each_setting)]
AltimeterCorrections = Annotated[list[AltimeterCorrection], AfterValidator(for_each_setting)]


class TypeDefinition(Group):
    """What the manual of a type says."""

    name: Phrase
    """What the type is called."""
    kind: Kind
    """The kind of aircraft, which says what speeds it has."""
    manual: Manual
    """The manual that the figures were read from."""
    units: Units
    """The units that the manual speaks."""
    flaps: list[Setting] = Field(default_factory=lambda: ["0"], min_length=1)
    """The flap settings, in order of extension; the first is retracted."""
    weights: Weights
    """The maximum weight, and others to tabulate for."""
    speeds: KnownSpeeds
    """The V-speeds by name; more than one figure as a list."""
    other_speeds: NamedSpeeds = Field(default_factory=dict)
    """Speeds by the manual's own name, each with the keys of a V-speed and a sense."""
    markings: Markings | None = None
    """What the manual prints for the airspeed indicator."""
    calibration: Annotated[Calibrations, Field(min_length=1)]
    """The manual's airspeed calibration tables."""
    altimeter_correction: AltimeterCorrections = Field(default_factory=empty)
    """The manual's tables of what to add to the altitude shown, or to subtract from it."""
    stall: Stall | None = None
    """The manual's table of stall speeds by bank, where it has one."""
    cruise: OneOrMore[Cruise] = Field(default_factory=empty)
    """The manual's cruise table, or several as a list."""
    glide: OneOrMore[Glide] = Field(default_factory=empty)
    """How far it glides; more than one as a list."""
    polar: OneOrMore[Polar] = Field(default_factory=empty)
    """The polar of a glider; more than one as a list."""
    crosswind: Crosswind | None = None
    """The demonstrated crosswind."""
    maximum_operating_altitude: MaximumAltitude | None = None
    """The maximum operating altitude, above which nothing is tabulated."""
    only_approved: list[Literal["VA", "VO", "VREF"]] = Field(default_factory=empty)
    """Speeds of which the manual approves only its own figures: none is computed for a weight."""
    accepted: list[Acceptance] = Field(default_factory=empty)
    """Findings of the checks that are accepted, each at its figure."""
    format: Format | None = None
    """The version of this file's format; 1 where left out."""

    @model_validator(mode="after")
    def _fits_its_kind(self, info: ValidationInfo) -> Self:
        context: Any = info.context
        context["faults"] += misfits(self, self.kind, self.flaps)
        at = self._block["speeds"].place
        for name, speed in SPEEDS.items():
            needed = self.kind in speed.required and (name != "VFE" or len(self.flaps) > 1)
            if needed and name not in self.speeds and not stall_gives(self, name):
                fault(info, at, f"missing {name}: a {self.kind} aircraft has one")
        return self

    @model_validator(mode="after")
    def _each_setting_stands_once(self, info: ValidationInfo) -> Self:
        once(self, info, "flaps")
        context: Any = info.context
        context["faults"] += calibrated_twice(self, self.flaps)
        return self

    @model_validator(mode="after")
    def _cruise_has_its_units(self, info: ValidationInfo) -> Self:
        context: Any = info.context
        context["faults"] += alike(self.cruise)
        for column, key in lacking_units(self.cruise, self.units):
            fault(info, self.units.place, f"missing key {key}: the cruise table gives {column}")
        return self

    @model_validator(mode="after")
    def _gliding_has_units(self, info: ValidationInfo) -> Self:
        for key, given in self._glided():
            if given and getattr(self.units, key) is None:
                fault(info, self.units.place, f"missing key {key}: the glide or polar gives it")
        return self

    def _glided(self) -> Iterator[tuple[str, bool]]:
        yield "distance", any(one.distance is not None for one in self.glide)
        yield "sink", bool(self.polar) or any(one.sink is not None for one in self.glide)


def lacking_units(tables: list[Cruise], units: Units) -> Iterator[tuple[str, str]]:
    """Yield the columns of cruise tables whose unit is not stated, and its key."""
    for column, key, unit in (
        ("fuel flow", "fuel flow", units.fuel_flow),
        ("range", "distance", units.distance),
    ):
        if unit is None and any(column in table.columns for table in tables):
            yield column, key


def stall_gives(definition: TypeDefinition, name: str) -> bool:
    """Whether the manual's stall table has a stall speed, so that it is not repeated."""
    if name not in ("VS0", "VS1") or definition.stall is None:
        return False
    wanted = definition.flaps[-1 if name == "VS0" else 0]
    settings = [row.flaps or definition.flaps[0] for row in definition.stall.rows]
    return wanted in settings and 0.0 in definition.stall.bank


def misfits(statement: "TypeDefinition | Supplement", kind: str, flaps: list[str]) -> list[Fault]:
    """Find speeds that a kind of aircraft has not, and flap settings that a type has not."""
    faults = [
        Fault(
            statement._block["speeds"].keys_at[name],
            f"a {kind} aircraft has no {name}; {' and '.join(SPEEDS[name].kinds)} aircraft have it",
        )
        for name in statement.speeds
        if kind not in SPEEDS[name].kinds
    ]
    faults += [
        Fault(statement._block["other speeds"].keys_at[name], f"{name} stands under speeds")
        for name in statement.other_speeds
        if name in SPEEDS and kind in SPEEDS[name].kinds
    ]
    if statement.markings is not None:
        at = statement.markings._block.keys_at
        faults += [
            Fault(
                statement.markings.place_of("flaps not marked"),
                f"flaps not marked: found {one}, expected one of this type's, {', '.join(flaps)}",
            )
            for one in statement.markings.flaps_not_marked
            if one not in flaps
        ]
        faults += [
            Fault(at[name], f"the indicator of a {kind} aircraft has no {name}")
            for name, kinds in Markings.KINDS.items()
            if name in at and kind not in kinds
        ]
    groups: list[Any] = [*statement.calibration, *(statement.stall.rows if statement.stall else ())]
    groups += statement.altimeter_correction
    if isinstance(statement, TypeDefinition):
        groups += [*statement.glide, *statement.polar]
    for speeds in (statement.speeds, statement.other_speeds):
        groups += [entry for entries in speeds.values() for entry in entries]
    for group in groups:
        if group.flaps is not None and group.flaps not in flaps:
            said = f"flaps: found {group.flaps}, expected one of this type's, {', '.join(flaps)}"
            near = offered(near_setting(group.flaps, flaps))
            faults.append(Fault(group.place_of("flaps"), said + near))
    return faults


def near_setting(setting: str, flaps: Sequence[str]) -> str | None:
    """Return the flap setting that another word was meant for: of numbers only the same one."""
    digits = _digits(setting)
    if digits:
        return next((one for one in flaps if _digits(one) == digits), None)
    return nearest(setting, [one for one in flaps if not _digits(one)])


def _digits(setting: str) -> str:
    return "".join(filter(str.isdigit, setting))


def calibrated_twice(statement: "TypeDefinition | Supplement", flaps: list[str]) -> list[Fault]:
    """Find tables of corrections for a setting that has one already."""
    faults = []
    seen: list[tuple[str, str, str]] = []
    for table in statement.calibration:
        setting = table.setting(flaps)
        if any(settings_meet(setting, one) for one in seen):
            gear = f", gear {setting[2]}" if setting[2] else ""
            said = f"found a second table for flaps {setting[0]}{gear}, {setting[1]} static source"
            faults.append(Fault(table.place, f"{said}, expected one"))
        seen.append(setting)
    settings = [one.setting for one in statement.altimeter_correction]
    for n, (one, place) in enumerate(zip(settings, statement.altimeter_correction, strict=True)):
        if one in settings[:n]:
            said = f"found a second altimeter correction for this setting, {one[1]} static source"
            faults.append(Fault(place.place, f"{said}, expected one"))
    return faults


def settings_meet(one: tuple[str, str, str], other: tuple[str, str, str]) -> bool:
    """Whether two calibration tables hold for one flap setting, static source and gear."""
    return one[:2] == other[:2] and (one[2] == other[2] or not (one[2] and other[2]))


class Indicator(Group):
    """The airspeed indicator of an airframe."""

    unit: SpeedUnit
    """The unit that the indicator reads."""


class Supplement(Group):
    """A supplement to the manual, laid over the type."""

    title: Title
    """What the supplement is called."""
    number: Label
    """The supplement's number."""
    revision: Label | None = None
    """The revision of the supplement."""
    date: Date | None = None
    """The date of the supplement, as 2022-11-04."""
    speeds: KnownSpeeds = Field(default_factory=dict)
    """The V-speeds that it changes."""
    other_speeds: NamedSpeeds = Field(default_factory=dict)
    """The speeds by the manual's own name that it changes."""
    markings: Markings | None = None
    """The markings that it changes."""
    calibration: Calibrations = Field(default_factory=empty)
    """The calibration tables that it changes."""
    altimeter_correction: AltimeterCorrections = Field(default_factory=empty)
    """The altimeter's correction tables that it changes."""
    stall: Stall | None = None
    """Its stall table."""
    cruise: OneOrMore[Cruise] = Field(default_factory=empty)
    """Its cruise table, or several as a list."""


class SignOff(Group):
    """That an instructor has compared a card with the manual, and releases it."""

    by: Label
    """Who compared the card with the manual."""
    date: Date
    """The date of that, as 2026-01-31."""
    role: Label | None = None
    """What that person is at the school, where the school asks for it."""
    figures: Mark
    """The mark of the figures that were copied, from the card's page; others are not signed."""
    card: Mark | None = None
    """The mark of the card then, from its foot: it tells what is computed differently since."""


class AirframeDefinition(Group):
    """What differs in one airframe from its type."""

    registration: Registration
    """The registration: letters, digits and hyphens."""
    type: Title
    """The file name of the type, without its ending."""
    serial: Label | None = None
    """The serial number."""
    indicator: Indicator | None = None
    """The indicator, where it is not in the manual's unit."""
    instrument_correction: InstrumentCorrection | None = None
    """The indicator's bench card."""
    altimeter_correction: AltimeterCard | None = None
    """The altimeter's bench card."""
    supplements: list[Supplement] = Field(default_factory=empty)
    """Supplements to the manual, laid over it in order."""
    remarks: list[Sentence] = Field(default_factory=empty, max_length=6)
    """Remarks for the pilot, printed on the card."""
    sign_off: OneOrMore[SignOff] = Field(default_factory=empty, max_length=6)
    """Who has released the card, and for which figures; several as a list."""
    accepted: list[Acceptance] = Field(default_factory=empty)
    """Findings of the checks that are accepted, each at its figure."""
    format: Format | None = None
    """The version of this file's format; 1 where left out."""


class GridUnits(Group):
    """The units of what a school tabulates for, where they are not those of the type."""

    speed: SpeedUnit | None = None
    """The unit of these airspeeds; the type's where left out."""
    altitude: Literal["ft", "m"] | None = None
    """The unit of these altitudes; the type's where left out."""
    temperature: Literal["C", "F"] | None = None
    """The unit of these temperatures; the type's where left out."""


class Air(Group):
    """The altitudes and temperatures that a table is made for, in the units of the type."""

    units: GridUnits | None = None
    """The units of these values, where they are not those of the type."""
    altitude: Annotated[list[Number], Field(min_length=1)]
    """Pressure altitudes, in the unit of altitude."""
    oat: list[Number] = Field(default_factory=empty, max_length=30)
    """Outside air temperatures, in the unit of temperature."""
    isa: list[Number] = Field(default_factory=empty, max_length=30)
    """Differences from the standard atmosphere, in the unit of temperature, instead of `oat`."""

    @model_validator(mode="after")
    def _eachonce(self, info: ValidationInfo) -> Self:
        for key in ("altitude", "oat", "isa"):
            if key in self._block:
                once(self, info, key)
        if self.oat and self.isa:
            fault(info, self.place_of("isa"), "found both oat and isa, expected one of them")
        return self


class CruiseGrid(Air):
    """Where the school wants the manual's cruise table read, in the units of its grid."""


class Grid(Air):
    """The values that true airspeed is tabulated for, in the units of the type."""

    ias: Annotated[list[Number], Field(min_length=1)]
    """Indicated airspeeds, in the unit of speed, that true airspeed is tabulated for."""
    tas: list[Number] = Field(default_factory=empty)
    """True airspeeds, in the unit of speed, that the airspeed to indicate is tabulated for."""
    cruise: CruiseGrid | None = None
    """Where the manual's cruise table is read between its rows."""

    @model_validator(mode="after")
    def _speedsonce(self, info: ValidationInfo) -> Self:
        for key in ("ias", "tas"):
            if key in self._block:
                once(self, info, key)
        return self

    @property
    def between(self) -> CruiseGrid | None:
        """Where the cruise table is read, in the units of this grid unless it has its own."""
        if self.cruise is None or self.cruise.units is not None:
            return self.cruise
        return self.cruise.model_copy(update={"units": self.units})


def _usual_banks() -> list[Figure]:
    return [Figure(bank, Place("", 1, 1)) for bank in ("0", "30", "45", "60")]


class Signing(Group):
    """What a school asks of the signatures of a card."""

    names: Number | None = None
    """How many people have to sign a card; 1 where left out."""
    roles: list[Label] = Field(default_factory=empty, max_length=6)
    """Roles of people of whom each has to sign it."""
    months: Number | None = None
    """After how many months a signature lapses; never where left out."""

    @model_validator(mode="after")
    def _whole(self, info: ValidationInfo) -> Self:
        for key, most in (("names", 6), ("months", 120)):
            figure = getattr(self, key)
            if figure is not None and (figure != int(figure) or not 1 <= figure <= most):
                said = f"{key}: found {figure.text}, expected a whole number from 1 to {most}"
                fault(info, figure.place, said)
        return self


class NextAircraft(Group):
    """Two aircraft of the fleet, of which pilots of one go on to the other."""

    from_: Registration = Field(alias="from")
    """The registration of the aircraft flown so far."""
    to: Registration
    """The registration of the next one."""


class School(Group):
    """Who publishes the cards, and how."""

    name: Title
    """The publisher of the cards."""
    web_address: Title | None = None
    """Where the current cards are published."""
    paper: Literal["letter", "A4"] = "letter"
    """The paper that cards are cut from: half of letter, or half of A4."""
    punch_edge: Literal["left", "top"] = "left"
    """The edge of a card that holes are punched along, which print keeps clear of."""
    notice: Paragraph | None = None
    """A sentence printed on every page and sheet."""
    stall_banks: list[Number] = Field(default_factory=_usual_banks, max_length=12)
    """Angles of bank that stall speeds are computed for, in degrees, beside the manual's own."""
    reference_speeds: dict[Kind, Grid] = Field(default_factory=dict)
    """What the tables are made for, by kind of aircraft, in the units of each type."""
    reference_speeds_by_type: dict[str, Grid] = Field(default_factory=dict)
    """What the tables of a type are made for, by its file name, instead of its kind's."""
    signing: Signing | None = None
    """What is asked of the signatures of a card: how many, by whom, for how long."""
    pairs: list[NextAircraft] = Field(default_factory=empty)
    """Which aircraft a page and a sheet are made for, of what to mind in the second."""
    format: Format | None = None
    """The version of this file's format; 1 where left out."""

    def grid(self, type_name: str, kind: Kind) -> Grid | None:
        """Return what the tables of a type are made for: its own grid, or that of its kind."""
        return self.reference_speeds_by_type.get(type_name) or self.reference_speeds.get(kind)
