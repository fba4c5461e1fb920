"""The model as JSON Schema, for editors that help while a definition is written."""

import ast
import functools
import inspect
import itertools
import json
import sys
from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from cardgen.definition.group import Group
from cardgen.definition.model import LONGEST_NAME, AirframeDefinition, School, TypeDefinition
from cardgen.definition.speeds import SPEEDS

FILES: dict[str, type[BaseModel]] = {
    "type.json": TypeDefinition,
    "airframe.json": AirframeDefinition,
    "school.json": School,
}


@functools.cache
def schema(name: str) -> str:
    """Return the JSON Schema (draft 2020-12) of a kind of definition file.

    Parameters
    ----------
    name : str
        A key of `FILES`.

    Returns
    -------
    str
        With a sentence for each key.
    """
    made = FILES[name].model_json_schema(by_alias=True)
    for group in (made, *made.get("$defs", {}).values()):
        _describe(group)
        speeds = group.get("properties", {}).get("speeds")
        if speeds is not None:
            group["properties"]["speeds"] = _speeds(speeds["description"])
            named = group["properties"]["other speeds"]
            named["additionalProperties"] = _one_or_more("NamedEntry")
            named["propertyNames"] = {"maxLength": LONGEST_NAME}
    made["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def _describe(group: dict[str, Any]) -> None:
    """Give each key the sentence that stands under it in the model."""
    said = {
        model.model_fields[name].alias: sentence
        for model in _below(Group)
        if model.__name__ == group.get("title")
        for name, sentence in sentences(model).items()
        if name in model.model_fields  # and no constant
    }
    properties = group.get("properties", {})
    for key, about in properties.items():
        properties[key] = dict(sorted({"description": said.get(key), **about}.items()))


def _below(model: type[Group]) -> Iterator[type[Group]]:
    for one in model.__subclasses__():
        yield one
        yield from _below(one)


def sentences(model: type[Group]) -> dict[str, str]:
    """Return the sentences under a model's fields, as its source has them; its bases' too."""
    said: dict[str, str] = {}
    for one in reversed(model.__mro__):
        if issubclass(one, Group):
            said.update(_under_fields(_classes(one.__module__)[one.__name__]))
    return said


@functools.cache
def _classes(module: str) -> dict[str, ast.ClassDef]:
    """Return the source of a module's classes."""
    stated = ast.parse(inspect.getsource(sys.modules[module])).body
    return {one.name: one for one in stated if isinstance(one, ast.ClassDef)}


def _under_fields(stated: ast.ClassDef) -> Iterator[tuple[str, str]]:
    for field, under in itertools.pairwise(stated.body):
        match field, under:
            case (
                ast.AnnAssign(target=ast.Name(id=name)),
                ast.Expr(value=ast.Constant(value=str(sentence))),
            ):
                yield name, inspect.cleandoc(sentence)


def _speeds(description: str) -> dict[str, Any]:
    """Name each V-speed, with its meaning, as one figure or a list of them."""
    return {
        "type": "object",
        "description": description,
        "additionalProperties": False,
        "properties": {
            name: {
                "description": f"{speed.meaning}. For {', '.join(speed.kinds)}.",
                **_one_or_more("SpeedEntry"),
            }
            for name, speed in SPEEDS.items()
        },
    }


def _one_or_more(group: str) -> dict[str, Any]:
    entry = {"$ref": f"#/$defs/{group}"}
    return {"anyOf": [entry, {"type": "array", "items": entry}]}
