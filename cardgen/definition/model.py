"""The typed model of what a type's manual, an airframe and a school say.

One class for each group of keys; a key's name is the field's name with spaces.
"""

import datetime
import itertools
import re
from collections.abc import Iterable
from typing import Annotated, Any, ClassVar, Literal, Self, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    ModelWrapValidatorHandler,
    PrivateAttr,
    ValidationError,
    ValidationInfo,
    model_validator,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from cardgen.definition.places import (
    Block,
    DefinitionError,
    Fault,
    Figure,
    Place,
    Rows,
    near_match,
)
from cardgen.definition.reading import kind_of
from cardgen.definition.speeds import SPEEDS, Kind
from cardgen.units import UNITS, units_of


class _IsFigure:
    """Makes pydantic take a `Figure` as it is, and say what is wrong with anything else."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(_figure)

    def __get_pydantic_json_schema__(self, schema: object, handler: object) -> dict[str, str]:
        return {"type": "number"}


def _figure(value: object) -> Figure:
    if isinstance(value, Figure):
        return value
    raise PydanticCustomError("figure", "{found}", {"found": _not_a_number(value)})


def _not_a_number(value: object) -> str:
    """Name the slip that made a number unreadable."""
    said = f"found {kind_of(value)}, expected a number"
    if not isinstance(value, str):
        return said
    if re.fullmatch(r"[-+]?\d+,\d+", value):
        return f"{said}; write the decimal comma as a point: {value.replace(',', '.')}"
    if match := re.fullmatch(r"([-+]?[\d.]+)\s*([^\d\s].*)", value):
        unit = match[2].strip()
        if unit in UNITS or unit.lower() in {"kts", "knots", "feet", "lbs", "gph", "lph"}:
            return f"{said}; leave the unit out, it is declared once under units: {match[1]}"
    if re.fullmatch(r"[-+]?(?=.*\d)(?=.*[OoIlS])[\d.OoIlS]+", value):
        digits = value.translate(str.maketrans("OoIlS", "00115"))
        return f"{said}; a letter stands for a digit: {digits}?"
    if re.fullmatch(r"[-+]?[\d.]+", value):
        return f"{said}; leave the quotation marks out"
    return said


def _words(value: object) -> object:
    return value.text if isinstance(value, Figure) else value


Number = Annotated[Figure, _IsFigure()]
Words = Annotated[str, BeforeValidator(_words)]


def _fault(info: ValidationInfo, place: Place, message: str) -> None:
    """Note a fault beside pydantic's own, so that all of a run are reported together."""
    context: Any = info.context
    context["faults"].append(Fault(place, message))


Model = TypeVar("Model", bound="Group")


class Group(BaseModel):
    """A group of keys, which remembers where it stands."""

    model_config = ConfigDict(
        frozen=True,
        extra="ignore",  # unknown keys are faults, found below, where they have a place
        alias_generator=lambda name: name.replace("_", " "),
        arbitrary_types_allowed=True,
    )

    _block: Block = PrivateAttr()
    _document: str = PrivateAttr("")

    @model_validator(mode="wrap")
    @classmethod
    def _keep_places(
        cls, data: Any, handler: ModelWrapValidatorHandler[Self], info: ValidationInfo
    ) -> Self:
        if not isinstance(data, Block):
            said = f"found {kind_of(data)}, expected a group with {', '.join(cls.keys())}"
            raise PydanticCustomError("group", "{said}", {"said": said})
        known = cls.keys()
        for key in data.keys() - set(known):
            _fault(
                info,
                data.keys_at[key],
                f"unknown key {key}, expected one of {', '.join(known)}{near_match(key, known)}",
            )
        group = handler(data)
        group._block = data
        return group

    @classmethod
    def keys(cls) -> list[str]:
        """Return the keys that the group may have."""
        return [field.alias or name for name, field in cls.model_fields.items()]

    @property
    def place(self) -> Place:
        """Where the group stands."""
        return self._block.place

    @property
    def document(self) -> str:
        """The manual or supplement that the group was read from."""
        return self._document

    def place_of(self, key: str) -> Place:
        """Where the value of a key stands, or the group where it has none."""
        return self._block.values_at.get(key, self._block.place)


class Manual(Group):
    """The manual that the figures were read from."""

    title: Words
    number: Words
    revision: Words
    date: datetime.date


def _unit(quantity: str, *more: str) -> Any:
    quantities = (quantity, *more)

    def check(value: str) -> str:
        known = [unit for name in quantities for unit in units_of(name)]
        if value not in known:
            message = f"found {value}, expected one of {', '.join(known)}"
            raise PydanticCustomError(
                "unit", "{said}", {"said": message + near_match(value, known)}
            )
        return value

    return Annotated[Words, BeforeValidator(check)]


class Units(Group):
    """The units that the manual speaks."""

    speed: Literal["kt", "mph", "km/h"]
    altitude: Literal["ft", "m"]
    temperature: Literal["C", "F"] = "C"
    weight: Literal["lb", "kg"]
    fuel_flow: Literal["gal/h", "L/h", "lb/h", "kg/h"] | None = None


class Weights(Group):
    """The weights that speeds are given at."""

    maximum: Number
    others: list[Number] = Field(default_factory=list)
    page: Words | None = None


class SpeedEntry(Group):
    """One figure of a V-speed, with the condition it holds for."""

    ias: Number | None = None
    cas: Number | None = None
    tas: Number | None = None
    mach: Number | None = None
    times_VS0: Number | None = None  # noqa: N815 - the key is "times VS0"
    flaps: Words | None = None
    gear: Literal["up", "down"] | None = None
    weight: Number | None = None
    altitude: Number | None = None
    from_altitude: Number | None = None
    when: Words | None = None
    page: Words | None = None

    @model_validator(mode="after")
    def _has_a_figure(self, info: ValidationInfo) -> Self:
        speeds = ("ias", "cas", "tas", "mach", "times_VS0")
        if all(getattr(self, name) is None for name in speeds):
            _fault(info, self.place, "found no speed, expected ias, cas, tas, mach or times VS0")
        for name in (*speeds, "weight"):
            figure = getattr(self, name)
            if figure is not None and figure <= 0:
                _fault(info, figure.place, f"{name}: found {figure.text}, expected more than 0")
        return self


def _one_or_more(value: object) -> object:
    return [value] if isinstance(value, Block) else value


Speeds = dict[str, Annotated[list[SpeedEntry], BeforeValidator(_one_or_more)]]


def _known_speeds(value: Any, info: ValidationInfo) -> Any:
    if not isinstance(value, Block):
        raise PydanticCustomError(
            "group", "{said}", {"said": f"found {kind_of(value)}, expected V-speeds by name"}
        )
    known = [name for name in value if name in SPEEDS]
    for name in value:
        if name not in SPEEDS:
            _fault(
                info,
                value.keys_at[name],
                f"unknown speed {name}, expected one of {', '.join(SPEEDS)}"
                + near_match(name, SPEEDS),
            )
    return {name: value[name] for name in known}


KnownSpeeds = Annotated[Speeds, BeforeValidator(_known_speeds)]


class Arc(Group):
    """An arc on the indicator, in IAS."""

    from_: Number = Field(alias="from")
    to: Number
    page: Words | None = None


class RadialLine(Group):
    """A line across the indicator's scale, in IAS."""

    at: Number
    page: Words | None = None


class Markings(Group):
    """What the manual prints for the indicator."""

    KINDS: ClassVar[dict[str, tuple[str, ...]]] = {
        "yellow": ("single-engine", "multi-engine", "glider"),
        "blue line": ("multi-engine", "turbine", "glider"),
        "red radial": ("multi-engine", "turbine"),
        "yellow triangle": ("glider",),
    }

    white: Arc | None = None
    green: Arc | None = None
    yellow: Arc | None = None
    red_line: RadialLine | None = None
    blue_line: RadialLine | None = None
    red_radial: RadialLine | None = None
    yellow_triangle: RadialLine | None = None


def _same_length(group: Group, info: ValidationInfo, first: str, second: str) -> bool:
    a, b = (group._block[key] for key in (first, second))
    if len(a) == len(b):
        return True
    _fault(
        info,
        group.place_of(second),
        f"{second} has {len(b)} figures and {first} has {len(a)}, expected as many of each",
    )
    return False


def _rising(info: ValidationInfo, key: str, figures: list[Figure]) -> None:
    for before, after in itertools.pairwise(figures):
        if after <= before:
            _fault(
                info, after.place, f"{key}: found {after.text} after {before.text}, expected more"
            )


class Calibration(Group):
    """IAS and CAS side by side, for one flap setting and static source."""

    flaps: Words | None = None
    static_source: Literal["normal", "alternate"] = "normal"
    page: Words | None = None
    when: Words | None = None
    ias: Annotated[list[Number], Field(min_length=2)]
    cas: Annotated[list[Number], Field(min_length=2)]

    @model_validator(mode="after")
    def _pairs(self, info: ValidationInfo) -> Self:
        if _same_length(self, info, "ias", "cas"):
            _rising(info, "ias", self.ias)
            _rising(info, "cas", self.cas)
        return self


class StallRow(Group):
    """Stall speeds at one flap setting, one for each bank."""

    flaps: Words | None = None
    weight: Number | None = None
    ias: list[Number] | None = None
    cas: list[Number]


class Stall(Group):
    """The manual's table of stall speeds by bank."""

    weight: Number
    bank: Annotated[list[Number], Field(min_length=1)]
    page: Words | None = None
    rows: list[StallRow]

    @model_validator(mode="after")
    def _as_many_as_banks(self, info: ValidationInfo) -> Self:
        for row in self.rows:
            for key in ("ias", "cas"):
                figures = getattr(row, key)
                if figures is not None and len(figures) != len(self.bank):
                    _fault(
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

    columns: list[Words]
    rows: list[list[Number]]
    weight: Number | None = None
    page: Words | None = None

    @model_validator(mode="after")
    def _table(self, info: ValidationInfo) -> Self:
        known = (*CRUISE_AXES, *CRUISE_RESULTS)
        at = self._block["columns"]
        for name, place in zip(self.columns, at.items_at, strict=True):
            if name not in known:
                said = f"unknown column {name}, expected one of {', '.join(known)}"
                _fault(info, place, said + near_match(name, known))
        for name in ("altitude", "tas"):
            if name not in self.columns:
                _fault(info, at.place, f"found no column {name}, expected one")
        if len(set(self.columns)) < len(self.columns):
            _fault(info, at.place, "found a column twice, expected each once")
        if "isa" in self.columns and "oat" in self.columns:
            _fault(info, at.place, "found both isa and oat, expected one of them")
        for row, place in zip(self.rows, self._block["rows"].items_at, strict=True):
            if len(row) != len(self.columns):
                _fault(
                    info,
                    place,
                    f"the row has {len(row)} figures and there are {len(self.columns)} columns, "
                    "expected as many of each",
                )
        return self


class Glide(Group):
    """How far the aircraft glides."""

    ratio: Number
    page: Words | None = None


class Crosswind(Group):
    """The maximum demonstrated crosswind."""

    demonstrated: Number
    page: Words | None = None


class TypeDefinition(Group):
    """What the manual of a type says."""

    name: Words
    kind: Kind
    manual: Manual
    units: Units
    flaps: list[Words] = Field(default_factory=lambda: ["0"], min_length=1)
    weights: Weights
    speeds: KnownSpeeds
    markings: Markings | None = None
    calibration: Annotated[list[Calibration], Field(min_length=1)]
    stall: Stall | None = None
    cruise: Cruise | None = None
    glide: Glide | None = None
    crosswind: Crosswind | None = None
    accepted: dict[str, Words] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _fits_its_kind(self, info: ValidationInfo) -> Self:
        context: Any = info.context
        context["faults"] += misfits(self, self.kind, self.flaps)
        at = self._block["speeds"].place
        for name, speed in SPEEDS.items():
            needed = self.kind in speed.required and (name != "VFE" or len(self.flaps) > 1)
            if needed and name not in self.speeds:
                _fault(info, at, f"missing {name}: a {self.kind} aircraft has one")
        return self

    @model_validator(mode="after")
    def _fuel_flow_has_a_unit(self, info: ValidationInfo) -> Self:
        if self.cruise and "fuel flow" in self.cruise.columns and self.units.fuel_flow is None:
            _fault(info, self.units.place, "missing key fuel flow: the cruise table gives it")
        return self


def misfits(statement: "TypeDefinition | Supplement", kind: str, flaps: list[str]) -> list[Fault]:
    """Find speeds that a kind of aircraft has not, and flap settings that a type has not."""
    faults = [
        Fault(statement._block["speeds"].keys_at[name], f"a {kind} aircraft has no {name}")
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
            faults.append(Fault(group.place_of("flaps"), said))
    return faults


class Indicator(Group):
    """The airspeed indicator of an airframe."""

    unit: Literal["kt", "mph", "km/h"]


class InstrumentCorrection(Group):
    """What a bench test says to add to what the indicator shows, in the indicator's unit."""

    page: Words | None = None
    date: datetime.date | None = None
    indicated: Annotated[list[Number], Field(min_length=2)]
    correction: Annotated[list[Number], Field(min_length=2)]

    @model_validator(mode="after")
    def _pairs(self, info: ValidationInfo) -> Self:
        if not _same_length(self, info, "indicated", "correction"):
            return self
        _rising(info, "indicated", self.indicated)
        pairs = list(zip(self.indicated, self.correction, strict=True))
        for (a, da), (b, db) in itertools.pairwise(pairs):
            if a < b and b + db <= a + da:
                _fault(info, db.place, "correction: two readings would mean the same airspeed")
        return self


class Supplement(Group):
    """A supplement to the manual, laid over the type."""

    title: Words
    number: Words
    revision: Words | None = None
    date: datetime.date | None = None
    speeds: KnownSpeeds = Field(default_factory=dict)
    markings: Markings | None = None
    calibration: list[Calibration] = Field(default_factory=list)
    stall: Stall | None = None
    cruise: Cruise | None = None


class AirframeDefinition(Group):
    """What differs in one airframe from its type."""

    registration: Annotated[Words, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9-]*$")]
    type: Words
    serial: Words | None = None
    indicator: Indicator | None = None
    instrument_correction: InstrumentCorrection | None = None
    supplements: list[Supplement] = Field(default_factory=list)
    remarks: list[Words] = Field(default_factory=list)
    accepted: dict[str, Words] = Field(default_factory=dict)


class CruiseGrid(Group):
    """Where the school wants the manual's cruise table read, in the units of the type."""

    altitude: Annotated[list[Number], Field(min_length=1)]
    oat: Annotated[list[Number], Field(min_length=1)]


class Grid(Group):
    """The values that true airspeed is tabulated for, in the units of the type."""

    ias: Annotated[list[Number], Field(min_length=1)]
    tas: list[Number] = Field(default_factory=list)
    altitude: Annotated[list[Number], Field(min_length=1)]
    oat: Annotated[list[Number], Field(min_length=1)]
    cruise: CruiseGrid | None = None


class School(Group):
    """Who publishes the cards, and how."""

    name: Words
    web_address: Words | None = None
    paper: Literal["letter", "A4"] = "letter"
    notice: Words | None = None
    reference_speeds: dict[Kind, Grid]


def validated(model: type[Model], block: Block) -> Model:
    """Make a typed group of a block.

    Parameters
    ----------
    model : type
        A subclass of `Group`.
    block : Block
        From `read_yaml`.

    Returns
    -------
    Group
        An instance of `model`.

    Raises
    ------
    DefinitionError
        With every fault that was found.
    """
    faults: list[Fault] = []
    try:
        group = model.model_validate(block, context={"faults": faults})
    except ValidationError as error:
        faults += (_translated(block, dict(one)) for one in error.errors(include_url=False))
    if faults:
        raise DefinitionError(faults)
    return group


def _translated(block: Block, error: dict[str, Any]) -> Fault:
    """Put an error of pydantic's into our words, at its place."""
    place, key = _located(block, error["loc"], missing=error["type"] == "missing")
    found = f"{key}: found {kind_of(error['input'])}, expected "
    context = error.get("ctx", {})
    match error["type"]:
        case "missing":
            return Fault(place, f"missing key {key}")
        case "figure" | "group" | "unit":
            return Fault(place, f"{key}: {error['msg']}" if key else error["msg"])
        case "literal_error":
            known = re.findall(r"'([^']*)'", context["expected"])
            return Fault(
                place, f"{found}one of {', '.join(known)}{near_match(str(error['input']), known)}"
            )
        case "too_short":
            return Fault(place, f"{key}: found too few, expected {context['min_length']} or more")
        case "list_type":
            return Fault(place, found + "a list")
        case "string_type" | "string_too_short":
            return Fault(place, found + "words")
        case "string_pattern_mismatch":
            return Fault(place, found + "letters, digits and hyphens")
        case kind if kind.startswith("date"):
            return Fault(place, found + "a date such as 2024-05-31")
    return Fault(place, f"{found}something else ({error['msg']})")


def _located(block: Block, loc: Iterable[int | str], missing: bool) -> tuple[Place, str]:
    """Find the place that pydantic's path leads to, and the last key on the way."""
    value: Any = block
    place, key = block.place, ""
    for step in loc:
        if isinstance(step, str) and step != "[key]":
            key = step
        if isinstance(value, Block) and step in value:
            place, value = value.values_at[str(step)], value[str(step)]
        elif isinstance(value, Rows) and isinstance(step, int):
            place, value = value.items_at[step], value[step]
    return place, key
