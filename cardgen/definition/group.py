"""How a group of keys becomes a typed object, and how its faults are told.

pydantic checks the types; what it finds is put into our words, at the place in
the file. Faults that pydantic has no place for, such as an unknown key, are
noted beside its own, so that all of a run are reported together.
"""

import datetime
import functools
import re
from collections.abc import Iterator, Sequence
from typing import Annotated, Any, ClassVar, Self, TypeVar

from pydantic import (
    AfterValidator,
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

from cardgen.definition.names import is_taken
from cardgen.definition.places import (
    LONGEST_RANGE,
    RANGE,
    Block,
    DefinitionError,
    Fault,
    Figure,
    Place,
    Rows,
    Span,
    near_match,
    nearest,
    offered,
)
from cardgen.definition.reading import kind_of
from cardgen.definition.slips import BLANK, remedy_for


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
        words = {"type": "string", "format": "range", "pattern": f"^{RANGE}$"}
        return {"anyOf": [{"type": "number"}, {**words, "maxLength": LONGEST_RANGE}]}


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
    return said + remedy_for(value) if isinstance(value, str) else said


def _first(value: object) -> object:
    """Return the first of a list, if all of it is words or numbers."""
    if isinstance(value, Rows) and value and all(isinstance(one, (str, Figure)) for one in value):
        return value[0]
    return value


def _words(value: object) -> object:
    if value == BLANK:
        raise PydanticCustomError("blank", "still blank")
    return value.text if isinstance(value, Figure) else value


def _some_words(value: object) -> object:
    """Refuse words that are none: who has none leaves the key out."""
    if isinstance(value, str) and not value.strip():
        said = "found nothing, expected words"
        raise PydanticCustomError("taken", "{said}", {"said": said})
    return _words(value)


def _date(value: object) -> object:
    """Take a date as it is written in full; pydantic would take seconds since 1970 too."""
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value, re.ASCII):
        return value
    raise PydanticCustomError("date", "no date")


class _Text:
    """Makes pydantic take words no longer than a sheet has room for, and a number for its text."""

    def __init__(self, most: int, pattern: str | None = None) -> None:
        self.most, self.pattern = most, pattern

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        words = core_schema.str_schema(max_length=self.most, pattern=self.pattern)
        own = _words if self.pattern else _some_words  # a pattern says what is expected
        return core_schema.no_info_before_validator_function(own, words)

    def __get_pydantic_json_schema__(self, schema: object, handler: object) -> dict[str, Any]:
        told = {"type": ["string", "number"], "minLength": 1, "maxLength": self.most}
        return told if self.pattern is None else {**told, "pattern": self.pattern}


def _free(registration: str) -> str:
    """Refuse a registration that cannot name a folder of the site."""
    if is_taken(registration):
        said = f"found {registration}, expected another: no folder of a site may have that name"
        raise PydanticCustomError("taken", "{said}", {"said": said})
    return registration


Number = Annotated[Figure, _IsFigure()]
NumberOrRange = Annotated[Figure, _IsFigureOrRange()]
Date = Annotated[datetime.date, BeforeValidator(_date)]
Setting = Annotated[str, _Text(16)]  # of flaps
OneOrMoreSettings = Annotated[  # a list is for whoever lays them out; the first stands for it
    str,
    StringConstraints(max_length=16),
    BeforeValidator(lambda value: _some_words(_first(value))),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": ["string", "number"], "minLength": 1, "maxLength": 16},
                {
                    "type": "array",
                    "items": {"type": ["string", "number"], "minLength": 1, "maxLength": 16},
                    "minItems": 1,
                },
            ]
        }
    ),
]
Heading = Annotated[str, _Text(24)]  # of a column
Label = Annotated[str, _Text(40)]  # a page, a number, a revision
Phrase = Annotated[str, _Text(60)]
Title = Annotated[str, _Text(100)]
Sentence = Annotated[str, _Text(160)]
Paragraph = Annotated[str, _Text(300)]
Identifier = Annotated[str, _Text(300)]  # of a figure, which names all that it holds for
Registration = Annotated[str, _Text(16, r"^[A-Za-z0-9][A-Za-z0-9-]*$"), AfterValidator(_free)]
Mark = Annotated[str, _Text(9, r"^[0-9A-F]{4}-[0-9A-F]{4}$")]


def fault(info: ValidationInfo, place: Place, message: str) -> None:
    """Note a fault beside pydantic's own, so that all of a run are reported together."""
    context: Any = info.context
    context["faults"].append(Fault(place, message))


Model = TypeVar("Model", bound="Group")


def for_each_setting(groups: list[Model]) -> list[Model]:
    """Return a group for each flap setting that it was given for."""
    return [one for group in groups for one in _by_setting(group)]


def _by_setting(group: Model) -> list[Model]:
    flaps = group._block.get("flaps")
    if not isinstance(flaps, Rows):
        return [group]
    return [group.model_copy(update={"flaps": f"{one}"}) for one in flaps]


Loc = Sequence[int | str]  # a path of pydantic's


def _one_or_more(value: object) -> object:
    return [value] if isinstance(value, Block) else value


def empty() -> list[Any]:
    """Return what a list is that was left out; pydantic is slow to understand `list` itself."""
    return []


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
        defer_build=True,  # of the groups within a file; they are built with it
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
            if isinstance(data, str) and re.fullmatch(r"[\w ]+:\S.*", data):
                said += f"; put a space behind the colon: {data.replace(':', ': ', 1)}"
            raise PydanticCustomError("group", "{said}", {"said": said})
        _note_unknown(cls, data, info)
        known = cls.keys()
        for key, value in data.items():
            if value is None and key in known:
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

    @classmethod
    @functools.cache
    def needed(cls) -> tuple[str, ...]:
        """Return the keys that the group cannot be without."""
        fields = cls.model_fields.items()
        return tuple(field.alias or name for name, field in fields if field.is_required())

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


def _note_unknown(group: type[Group], block: Block, info: ValidationInfo) -> None:
    """Note the keys that a group has not; one that is nearly a missing key is taken for that."""
    known = group.keys()
    for key in [key for key in block if key not in known]:
        if re.fullmatch(r"[^:\s]+:\S+", key) and block[key] is None:
            said = f"{key.replace(':', ': ', 1)}; put a space behind the colon"
            fault(info, block.keys_at[key], f"found {key}, expected {said}")
            continue
        if key in group.INSTEAD:
            fault(info, block.keys_at[key], f"unknown key {key}: {group.INSTEAD[key]}")
            continue
        near = nearest(key, known)
        said = f"unknown key {key}, expected one of {', '.join(known)}"
        fault(info, block.keys_at[key], said + offered(near))
        if near is not None and near not in block and near in group.needed():
            block.rename(key, near)


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
        errors = [dict(one) for one in error.errors(include_url=False)]
        blanks = [one["loc"] for one in errors if one["input"] == BLANK]
        faults += (_translated(block, one) for one in errors if one["input"] != BLANK)
        faults += _still_blank(block, blanks)
    if faults:
        raise DefinitionError(faults)
    return group


def _translated(block: Block, error: dict[str, Any]) -> Fault:
    """Put an error of pydantic's into our words, at its place."""
    place, keys = _located(block, error["loc"])
    key = keys[-1] if keys else ""
    found = f"{key}: found {kind_of(error['input'])}, expected "
    context = error.get("ctx", {})
    match error["type"]:
        case "missing":
            return Fault(place, f"missing key {key}")
        case "figure" | "group" | "unit" | "taken":
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


def _still_blank(block: Block, blanks: Sequence[Any]) -> Iterator[Fault]:
    """Tell all blanks of a file at once: a line for each of its keys, at the first of them."""
    found = sorted(_located(block, loc) for loc in blanks)
    if not found:
        return
    of: dict[str, dict[str, list[str]]] = {}
    for _, (top, *keys) in found:
        inner = of.setdefault(top, {}).setdefault(" ".join(keys[:-1]), [])
        inner += [key for key in keys[-1:] if key not in inner]
    count = "a blank" if len(found) == 1 else f"{len(found)} blanks"
    lines = "".join(f"\n      {top}{_listed(inner)}" for top, inner in of.items())
    yield Fault(found[0][0], f"found {count}, ___; fill in, or take the key out:{lines}")


def _listed(keys: dict[str, list[str]]) -> str:
    """Say which keys of a group are blank, those of each group in it together."""
    parts = (f"{group} {', '.join(names)}".strip() for group, names in keys.items())
    said = "; ".join(part for part in parts if part)
    return f": {said}" if said else ""


def _located(block: Block, loc: Loc) -> tuple[Place, list[str]]:
    """Find the place that pydantic's path leads to, and the keys on the way."""
    value: Any = block
    place, keys = block.place, []
    for step in loc:
        if isinstance(value, Block) and step in value:
            place, value = value.values_at[str(step)], value[str(step)]
            keys.append(str(step))
        elif isinstance(value, Rows) and isinstance(step, int):
            place, value = value.items_at[step], value[step]
        elif isinstance(value, Block) and isinstance(step, str) and step != "[key]":
            keys.append(step)  # a missing one
    return place, keys
