"""The model as JSON Schema, for editors that help while a definition is written."""

import json
from typing import Any

from pydantic import BaseModel

from cardgen.definition.group import Group
from cardgen.definition.model import AirframeDefinition, School, TypeDefinition
from cardgen.definition.speeds import SPEEDS

FILES: dict[str, type[BaseModel]] = {
    "type.json": TypeDefinition,
    "airframe.json": AirframeDefinition,
    "school.json": School,
}
ONE_OR_MORE = ("glide", "polar")  # keys that may hold one group, or a list of such


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
        for key in ONE_OR_MORE:
            about = group.get("properties", {}).get(key)
            if about is not None:
                several = {"type": about.pop("type"), "items": about.pop("items")}
                about["anyOf"] = [several["items"], several]
    made["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def _describe(group: dict[str, Any]) -> None:
    """Give a sentence to the keys that stand for a group, which pydantic leaves without."""
    fields = {
        one.alias: one.description
        for model in Group.__subclasses__()
        if model.__name__ == group.get("title")
        for one in model.model_fields.values()
    }
    for key, about in group.get("properties", {}).items():
        about.setdefault("description", fields.get(key))


def _speeds(description: str) -> dict[str, Any]:
    """Name each V-speed, with its meaning, as one figure or a list of them."""
    entry = {"$ref": "#/$defs/SpeedEntry"}
    return {
        "type": "object",
        "description": description,
        "additionalProperties": False,
        "properties": {
            name: {
                "description": f"{speed.meaning}. For {', '.join(speed.kinds)}.",
                "anyOf": [entry, {"type": "array", "items": entry}],
            }
            for name, speed in SPEEDS.items()
        },
    }
