"""How a group of keys becomes a typed object, and how its faults are told.

pydantic checks the types; what it finds is put into our words, at the place in
the file. Faults that pydantic has no place for, such as an unknown key, are
noted beside its own, so that all of a run are reported together.
"""

import functools
import re
from collections.abc import Iterable
from typing import Annotated, Any, ClassVar, Self, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    ModelWrapValidatorHandler,
    PrivateAttr,
    StringConstraints,
    ValidationError,
    ValidationInfo,
    WithJsonSchema,
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
    Span,
    near_match,
)
from cardgen.definition.reading import kind_of
from cardgen.units import UNITS

BLANK = "___"  # what a new file has where a figure is to be filled in


class _IsFigure:
    """Makes pydantic take a `Figure` as it is, and say what is wrong with anything else."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(figure)

    def __get_pydantic_json_schema__(self, schema: object, handler: object) -> dict[str, str]:
        return {"type": "number"}


class _IsFigureOrRange(_IsFigure):
    """Makes pydantic take a range too."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(_figure_or_range)

    def __get_pydantic_json_schema__(self, schema: object, handler: object) -> dict[str, Any]:
        return {"type": ["number", "string"], "maxLength": 40}


def _figure_or_range(value: object) -> Figure:
    return value if isinstance(value, Span) else figure(value)


def figure(value: object) -> Figure:
    """Return a number as it is; anything else is told by what is wrong with it."""
    if isinstance(value, Span):
        said = {"found": f"found {kind_of(value)}, expected one number"}
        raise PydanticCustomError("figure", "{found}", said)
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
    if value.lower() in {"yes", "no", "on", "off", "true", "false", "y", "n"}:
        return f"{said}; yes and no are words here"
    return said


def _first(value: object) -> object:
    """Return the first of a list, if all of it is words or numbers."""
    if isinstance(value, Rows) and value and all(isinstance(one, (str, Figure)) for one in value):
        return value[0]
    return value


def _words(value: object) -> object:
    if value == BLANK:
        raise PydanticCustomError("blank", "still blank")
    return value.text if isinstance(value, Figure) else value


def _text(most: int, pattern: str | None = None) -> tuple[object, ...]:
    """Return what makes words no longer than a sheet has room for."""
    told = {"type": ["string", "number"], "maxLength": most}
    return (
        StringConstraints(max_length=most, pattern=pattern),
        BeforeValidator(_words),
        WithJsonSchema(told if pattern is None else {**told, "pattern": pattern}),
    )


Number = Annotated[Figure, _IsFigure()]
NumberOrRange = Annotated[Figure, _IsFigureOrRange()]
Setting = Annotated[str, *_text(16)]  # of flaps
OneOrMoreSettings = Annotated[  # a list is for whoever lays them out; the first stands for it
    str,
    StringConstraints(max_length=16),
    BeforeValidator(lambda value: _words(_first(value))),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": ["string", "number"], "maxLength": 16},
                {
                    "type": "array",
                    "items": {"type": ["string", "number"], "maxLength": 16},
                    "minItems": 1,
                },
            ]
        }
    ),
]
Heading = Annotated[str, *_text(24)]  # of a column
Label = Annotated[str, *_text(40)]  # a page, a number, a revision
Phrase = Annotated[str, *_text(60)]
Title = Annotated[str, *_text(100)]
Sentence = Annotated[str, *_text(160)]
Paragraph = Annotated[str, *_text(300)]
Identifier = Annotated[str, *_text(300)]  # of a figure, which names all that it holds for
Registration = Annotated[str, *_text(16, r"^[A-Za-z0-9][A-Za-z0-9-]*$")]
Mark = Annotated[str, *_text(9, r"^[0-9A-F]{4}-[0-9A-F]{4}$")]


def fault(info: ValidationInfo, place: Place, message: str) -> None:
    """Note a fault beside pydantic's own, so that all of a run are reported together."""
    context: Any = info.context
    context["faults"].append(Fault(place, message))


Model = TypeVar("Model", bound="Group")


def _one_or_more(value: object) -> object:
    return [value] if isinstance(value, Block) else value


class _OneOrMore:
    """Says in a schema that a list of one may be left to be the one."""

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        several = handler(schema)
        return {"anyOf": [several["items"], several]}


OneOrMore = Annotated[list[Model], BeforeValidator(_one_or_more), _OneOrMore()]


class Group(BaseModel):
    """A group of keys, which remembers where it stands."""

    model_config = ConfigDict(
        frozen=True,
        extra="ignore",  # unknown keys are faults, found below, where they have a place
        alias_generator=lambda name: name.replace("_", " "),
        arbitrary_types_allowed=True,
        use_attribute_docstrings=True,
        json_schema_extra={"additionalProperties": False},
    )

    INSTEAD: ClassVar[dict[str, str]] = {}  # what to write for keys that there were once

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
        for key in data:
            if key in known:
                continue
            if key in cls.INSTEAD:
                fault(info, data.keys_at[key], f"unknown key {key}: {cls.INSTEAD[key]}")
                continue
            fault(
                info,
                data.keys_at[key],
                f"unknown key {key}, expected one of {', '.join(known)}{near_match(key, known)}",
            )
        for key, value in data.items():
            if value is None:
                said = f"{key}: found nothing; fill it in, or take the key out"
                fault(info, data.keys_at[key], said)
        group = handler(data)
        group._block = data
        return group

    @classmethod
    @functools.cache
    def keys(cls) -> tuple[str, ...]:
        """Return the keys that the group may have."""
        return tuple(field.alias or name for name, field in cls.model_fields.items())

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
    if error["input"] == BLANK:
        return Fault(place, f"{key}: still blank")
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
        case "too_long":
            return Fault(place, f"{key}: found too many, expected {context['max_length']} at most")
        case "string_too_long":
            said, most = len(error["input"]), context["max_length"]
            return Fault(place, f"{key}: found {said} characters, expected {most} at most")
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
