"""The typed model of what a type's manual, an airframe and a school say.

One class for each group of keys; a key's name is the field's name with spaces.
The sentence under a field is its help, which the JSON Schema hands to editors.
"""

import datetime
import itertools
from collections.abc import Sequence
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema, model_validator
from pydantic_core import PydanticCustomError

from cardgen.definition.group import (
    Group,
    Label,
    Mark,
    Number,
    Paragraph,
    Phrase,
    Registration,
    Sentence,
    Setting,
    Title,
    fault,
)
from cardgen.definition.places import (
    Block,
    Fault,
    Figure,
    Place,
    near_match,
    nearest,
    offered,
    same_but_for_typing,
)
from cardgen.definition.reading import kind_of
from cardgen.definition.speeds import SPEEDS, Kind
from cardgen.units import SpeedUnit

Format = Annotated[Number, WithJsonSchema({"type": "integer", "minimum": 1})]


class Manual(Group):
    """The manual that the figures were read from."""

    title: Title
    """What the manual is called on its cover."""
    number: Label
    """The manual's document or part number."""
    revision: Label
    """The revision that the figures were read from."""
    date: datetime.date
    """The date of that revision, as 2024-05-31."""


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


class Weights(Group):
    """The weights that speeds are given at."""

    maximum: Number
    """The maximum weight, in the unit of weight."""
    others: list[Number] = Field(default_factory=list)
    """Other weights, in the unit of weight, that speeds are tabulated for."""
    page: Label | None = None
    """The page of the weight limits."""


class SpeedEntry(Group):
    """One figure of a V-speed, with the condition it holds for."""

    ias: Number | None = None
    """Indicated airspeed, in the unit of speed, as the manual prints it."""
    cas: Number | None = None
    """Calibrated airspeed, in the unit of speed, as the manual prints it."""
    tas: Number | None = None
    """A limit that the manual gives as true airspeed, in the unit of speed."""
    mach: Number | None = None
    """A limit that the manual gives as Mach number."""
    times_VS0: Number | None = None  # noqa: N815 - the key is "times VS0"
    """A speed that the manual gives as a multiple of VS0, such as 1.3."""
    flaps: Setting | None = None
    """The flap setting that the figure holds for."""
    gear: Literal["up", "down"] | None = None
    """Whether the landing gear is up or down."""
    weight: Number | None = None
    """The weight that the figure holds for, in the unit of weight."""
    altitude: Number | None = None
    """The pressure altitude that the figure holds at, in the unit of altitude."""
    from_altitude: Number | None = None
    """The pressure altitude from which the limit holds upward, in the unit of altitude."""
    when: Phrase | None = None
    """Any other condition, in a few words."""
    page: Label | None = None
    """The page that the figure was read from."""

    @model_validator(mode="after")
    def _has_a_figure(self, info: ValidationInfo) -> Self:
        speeds = ("ias", "cas", "tas", "mach", "times_VS0")
        if all(getattr(self, name) is None for name in speeds):
            fault(info, self.place, "found no speed, expected ias, cas, tas, mach or times VS0")
        return self


def _one_or_more(value: object) -> object:
    return [value] if isinstance(value, Block) else value


Speeds = dict[str, Annotated[list[SpeedEntry], BeforeValidator(_one_or_more)]]


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


KnownSpeeds = Annotated[Speeds, BeforeValidator(_known_speeds)]


class Arc(Group):
    """An arc on the indicator, in IAS."""

    from_: Number = Field(alias="from")
    """Where the arc begins, in IAS, in the unit of speed."""
    to: Number
    """Where the arc ends, in IAS, in the unit of speed."""
    page: Label | None = None
    """The page of the marking."""


class RadialLine(Group):
    """A line across the indicator's scale, in IAS."""

    at: Number
    """Where the line stands, in IAS, in the unit of speed."""
    page: Label | None = None
    """The page of the marking."""


class Markings(Group):
    """What the manual prints for the indicator."""

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


def _same_length(group: Group, info: ValidationInfo, first: str, second: str) -> bool:
    a, b = (group._block[key] for key in (first, second))
    if len(a) == len(b):
        return True
    fault(
        info,
        group.place_of(second),
        f"{second} has {len(b)} figures and {first} has {len(a)}, expected as many of each",
    )
    return False


def _rising(info: ValidationInfo, key: str, figures: list[Figure]) -> None:
    for before, after in itertools.pairwise(figures):
        if after <= before:
            fault(
                info, after.place, f"{key}: found {after.text} after {before.text}, expected more"
            )


def _once(group: Group, info: ValidationInfo, *keys: str) -> None:
    """Find what stands in a list twice."""
    for key in keys:
        values = getattr(group, key)
        for n, value in enumerate(values):
            if value in values[:n]:
                place = group._block[key].items_at[n]
                fault(info, place, f"{key}: found {value!s} twice, expected it once")


class Calibration(Group):
    """IAS and CAS side by side, for one flap setting and static source."""

    flaps: Setting | None = None
    """The flap setting; retracted where left out."""
    static_source: Literal["normal", "alternate"] = "normal"
    """The static source: normal where left out."""
    page: Label | None = None
    """The page of the table."""
    when: Phrase | None = None
    """Conditions of the table, in a few words."""
    ias: Annotated[list[Number], Field(min_length=2)]
    """The row of indicated airspeeds, rising, in the unit of speed."""
    cas: Annotated[list[Number], Field(min_length=2)]
    """The row of calibrated airspeeds, one under each IAS, in the unit of speed."""

    def setting(self, flaps: Sequence[str]) -> tuple[str, str]:
        """Return the flap setting, of those of a type, and the static source."""
        return self.flaps or flaps[0], self.static_source

    @model_validator(mode="after")
    def _pairs(self, info: ValidationInfo) -> Self:
        if _same_length(self, info, "ias", "cas"):
            _rising(info, "ias", self.ias)
            _rising(info, "cas", self.cas)
        return self


class StallRow(Group):
    """Stall speeds at one flap setting, one for each bank."""

    flaps: Setting | None = None
    """The flap setting of the row; retracted where left out."""
    weight: Number | None = None
    """The weight of the row, in the unit of weight, where it is not the table's."""
    ias: list[Number] | None = None
    """Indicated airspeeds at the stall, in the unit of speed, one for each bank."""
    cas: list[Number]
    """Calibrated airspeeds at the stall, in the unit of speed, one for each bank."""


class Stall(Group):
    """The manual's table of stall speeds by bank."""

    weight: Number
    """The weight that the table holds for, in the unit of weight."""
    bank: Annotated[list[Number], Field(min_length=1)]
    """The angles of bank, in degrees."""
    page: Label | None = None
    """The page of the table."""
    rows: Annotated[list[StallRow], Field(min_length=1)]
    """A row for each flap setting."""

    @model_validator(mode="after")
    def _as_many_as_banks(self, info: ValidationInfo) -> Self:
        _once(self, info, "bank")
        for row in self.rows:
            for key in ("ias", "cas"):
                figures = getattr(row, key)
                if figures is not None and len(figures) != len(self.bank):
                    fault(
                        info,
                        row.place_of(key),
                        f"{key} has {len(figures)} figures and bank has {len(self.bank)}, "
                        "expected as many of each",
                    )
        return self


CRUISE_SETTINGS = ("rpm", "manifold pressure", "torque", "N1", "setting")
CRUISE_AXES = ("altitude", "isa", "oat", *CRUISE_SETTINGS)
CRUISE_RESULTS = ("power", "ias", "tas", "fuel flow")


class Cruise(Group):
    """The manual's cruise table, one line a row."""

    columns: list[Label]
    """The names of the columns, in the order of the rows."""
    rows: Annotated[list[list[Number]], Field(min_length=1)]
    """One line for each row of the manual's table."""
    weight: Number | None = None
    """The weight that the table holds for, in the unit of weight."""
    page: Label | None = None
    """The page of the table."""

    @model_validator(mode="after")
    def _table(self, info: ValidationInfo) -> Self:
        known = (*CRUISE_AXES, *CRUISE_RESULTS)
        at = self._block["columns"]
        for name, place in zip(self.columns, at.items_at, strict=True):
            if name not in known:
                said = f"unknown column {name}, expected one of {', '.join(known)}"
                fault(info, place, said + near_match(name, known))
        for name in ("altitude", "tas"):
            if name not in self.columns:
                fault(info, at.place, f"found no column {name}, expected one")
        if len(set(self.columns)) < len(self.columns):
            fault(info, at.place, "found a column twice, expected each once")
        if "isa" in self.columns and "oat" in self.columns:
            fault(info, at.place, "found both isa and oat, expected one of them")
        for row, place in zip(self.rows, self._block["rows"].items_at, strict=True):
            if len(row) != len(self.columns):
                fault(
                    info,
                    place,
                    f"the row has {len(row)} figures and there are {len(self.columns)} columns, "
                    "expected as many of each",
                )
        return self


class Glide(Group):
    """How far the aircraft glides."""

    ratio: Number
    """Distance over height, as the manual gives it."""
    page: Label | None = None
    """The page of the figure."""


class Crosswind(Group):
    """The maximum demonstrated crosswind."""

    demonstrated: Number
    """The maximum demonstrated crosswind, in the unit of speed."""
    page: Label | None = None
    """The page of the figure."""


class MaximumAltitude(Group):
    """How high the aircraft may be flown."""

    altitude: Number
    """The maximum operating pressure altitude, in the unit of altitude."""
    page: Label | None = None
    """The page of the figure."""


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
    markings: Markings | None = None
    """What the manual prints for the airspeed indicator."""
    calibration: Annotated[list[Calibration], Field(min_length=1)]
    """The manual's airspeed calibration tables."""
    stall: Stall | None = None
    """The manual's table of stall speeds by bank, where it has one."""
    cruise: Cruise | None = None
    """The manual's cruise table."""
    glide: Glide | None = None
    """The glide ratio."""
    crosswind: Crosswind | None = None
    """The demonstrated crosswind."""
    maximum_operating_altitude: MaximumAltitude | None = None
    """The maximum operating altitude, above which nothing is tabulated."""
    only_approved: list[Literal["VA", "VO", "VREF"]] = Field(default_factory=list)
    """Speeds of which the manual approves only its own figures: none is computed for a weight."""
    accepted: dict[str, Sentence] = Field(default_factory=dict)
    """Findings of the checks that are accepted: the rule's name and the reason."""
    format: Format | None = None
    """The version of this file's format; 1 where left out."""

    @model_validator(mode="after")
    def _fits_its_kind(self, info: ValidationInfo) -> Self:
        context: Any = info.context
        context["faults"] += misfits(self, self.kind, self.flaps)
        at = self._block["speeds"].place
        for name, speed in SPEEDS.items():
            needed = self.kind in speed.required and (name != "VFE" or len(self.flaps) > 1)
            if needed and name not in self.speeds:
                fault(info, at, f"missing {name}: a {self.kind} aircraft has one")
        return self

    @model_validator(mode="after")
    def _each_setting_stands_once(self, info: ValidationInfo) -> Self:
        _once(self, info, "flaps")
        context: Any = info.context
        context["faults"] += calibrated_twice(self, self.flaps)
        return self

    @model_validator(mode="after")
    def _fuel_flow_has_a_unit(self, info: ValidationInfo) -> Self:
        if self.cruise and "fuel flow" in self.cruise.columns and self.units.fuel_flow is None:
            fault(info, self.units.place, "missing key fuel flow: the cruise table gives it")
        return self


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
    if statement.markings is not None:
        at = statement.markings._block.keys_at
        faults += [
            Fault(at[name], f"the indicator of a {kind} aircraft has no {name}")
            for name, kinds in Markings.KINDS.items()
            if name in at and kind not in kinds
        ]
    groups: list[Any] = [*statement.calibration, *(statement.stall.rows if statement.stall else ())]
    groups += [entry for entries in statement.speeds.values() for entry in entries]
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
    """Find calibration tables for a setting that has one already."""
    seen: set[tuple[str, str]] = set()
    faults = []
    for table in statement.calibration:
        setting = table.setting(flaps)
        if setting in seen:
            said = f"found a second table for flaps {setting[0]}, {setting[1]} static source"
            faults.append(Fault(table.place, f"{said}, expected one"))
        seen.add(setting)
    return faults


class Indicator(Group):
    """The airspeed indicator of an airframe."""

    unit: SpeedUnit
    """The unit that the indicator reads."""


class InstrumentCorrection(Group):
    """What a bench test says to add to what the indicator shows, in the indicator's unit."""

    page: Label | None = None
    """Where the correction was found."""
    date: datetime.date | None = None
    """The date of the bench test, as 2025-02-03."""
    indicated: Annotated[list[Number], Field(min_length=2)]
    """What the indicator shows, rising, in its own unit."""
    correction: Annotated[list[Number], Field(min_length=2)]
    """What to add at each, in the indicator's unit."""

    @model_validator(mode="after")
    def _pairs(self, info: ValidationInfo) -> Self:
        if not _same_length(self, info, "indicated", "correction"):
            return self
        _rising(info, "indicated", self.indicated)
        pairs = list(zip(self.indicated, self.correction, strict=True))
        for (a, da), (b, db) in itertools.pairwise(pairs):
            if a < b and b + db <= a + da:
                fault(info, db.place, "correction: two readings would mean the same airspeed")
        return self


class Supplement(Group):
    """A supplement to the manual, laid over the type."""

    title: Title
    """What the supplement is called."""
    number: Label
    """The supplement's number."""
    revision: Label | None = None
    """The revision of the supplement."""
    date: datetime.date | None = None
    """The date of the supplement, as 2022-11-04."""
    speeds: KnownSpeeds = Field(default_factory=dict)
    """The V-speeds that it changes."""
    markings: Markings | None = None
    """The markings that it changes."""
    calibration: list[Calibration] = Field(default_factory=list)
    """The calibration tables that it changes."""
    stall: Stall | None = None
    """Its stall table."""
    cruise: Cruise | None = None
    """Its cruise table."""


class SignOff(Group):
    """That an instructor has compared a card with the manual, and releases it."""

    by: Label
    """Who compared the card with the manual."""
    date: datetime.date
    """The date of that, as 2026-01-31."""
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
    supplements: list[Supplement] = Field(default_factory=list)
    """Supplements to the manual, laid over it in order."""
    remarks: list[Sentence] = Field(default_factory=list, max_length=6)
    """Remarks for the pilot, printed on the card."""
    sign_off: SignOff | None = None
    """Who has released the card, and for which figures."""
    accepted: dict[str, Sentence] = Field(default_factory=dict)
    """Findings of the checks that are accepted: the rule's name and the reason."""
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
    oat: list[Number] = Field(default_factory=list)
    """Outside air temperatures, in the unit of temperature."""
    isa: list[Number] = Field(default_factory=list)
    """Differences from the standard atmosphere, in the unit of temperature, instead of `oat`."""

    @model_validator(mode="after")
    def _each_once(self, info: ValidationInfo) -> Self:
        for key in ("altitude", "oat", "isa"):
            if key in self._block:
                _once(self, info, key)
        if self.oat and self.isa:
            fault(info, self.place_of("isa"), "found both oat and isa, expected one of them")
        return self


class CruiseGrid(Air):
    """Where the school wants the manual's cruise table read, in the units of its grid."""


class Grid(Air):
    """The values that true airspeed is tabulated for, in the units of the type."""

    ias: Annotated[list[Number], Field(min_length=1)]
    """Indicated airspeeds, in the unit of speed, that true airspeed is tabulated for."""
    tas: list[Number] = Field(default_factory=list)
    """True airspeeds, in the unit of speed, that the airspeed to indicate is tabulated for."""
    cruise: CruiseGrid | None = None
    """Where the manual's cruise table is read between its rows."""

    @model_validator(mode="after")
    def _speeds_once(self, info: ValidationInfo) -> Self:
        for key in ("ias", "tas"):
            if key in self._block:
                _once(self, info, key)
        return self

    @property
    def between(self) -> CruiseGrid | None:
        """Where the cruise table is read, in the units of this grid unless it has its own."""
        if self.cruise is None or self.cruise.units is not None:
            return self.cruise
        return self.cruise.model_copy(update={"units": self.units})


def _usual_banks() -> list[Figure]:
    return [Figure(bank, Place("", 1, 1)) for bank in ("0", "30", "45", "60")]


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
    stall_banks: list[Number] = Field(default_factory=_usual_banks)
    """Angles of bank that stall speeds are computed for, in degrees, beside the manual's own."""
    reference_speeds: dict[Kind, Grid] = Field(default_factory=dict)
    """What the tables are made for, by kind of aircraft, in the units of each type."""
    types: dict[str, Grid] = Field(default_factory=dict)
    """What the tables of a type are made for, by its file name, instead of its kind's."""
    format: Format | None = None
    """The version of this file's format; 1 where left out."""

    def grid(self, type_name: str, kind: Kind) -> Grid | None:
        """Return what the tables of a type are made for: its own grid, or that of its kind."""
        return self.types.get(type_name) or self.reference_speeds.get(kind)
