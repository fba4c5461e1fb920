"""Every key of the definitions, as the model has it: what newcomers are shown and begin from.

The model's JSON Schema is walked, so that a key is told as soon as there is one.
"""

import functools
import json
import re
from collections.abc import Iterator
from typing import Any, NamedTuple

from cardgen.definition import examples
from cardgen.definition.schema import FILES, schema

V_SPEEDS = "VSpeeds"  # what the schema says of each V-speed, as a group of its own


class Form(NamedTuple):
    """What may stand under a key.

    Attributes
    ----------
    what : str
        ``number``, ``range``, ``words``, ``date``, ``choice``, ``list``, ``names`` (keys of one's
        own, or of `choices`) or ``group``.
    most : int
        The characters that words may have.
    choices : tuple of str
    of : tuple of Form
        What each of a list, or under each name, may be.
    group : str
        The section that tells a group's keys.
    """

    what: str
    most: int = 0
    choices: tuple[str, ...] = ()
    of: "tuple[Form, ...]" = ()
    group: str = ""

    @property
    def groups(self) -> tuple[str, ...]:
        """The groups that stand under the key, however deep in lists and under names."""
        inner = (name for one in self.of for name in one.groups)
        return tuple(dict.fromkeys([self.group, *inner] if self.group else inner))


class Key(NamedTuple):
    """A key: what it means, what may stand under it, in which unit, and an example."""

    name: str
    meaning: str
    needed: bool
    forms: tuple[Form, ...]
    unit: str
    example: str

    @property
    def groups(self) -> tuple[str, ...]:
        """The groups that may stand under the key."""
        return tuple(dict.fromkeys(name for one in self.forms for name in one.groups))


class Section(NamedTuple):
    """A file or a group in it: its keys, and the keys that it stands under."""

    name: str
    meaning: str
    keys: tuple[Key, ...]
    under: tuple[str, ...] = ()

    def key(self, name: str) -> Key:
        """Return the key of a name."""
        return next(one for one in self.keys if one.name == name)


@functools.cache
def guide(file: str) -> dict[str, Section]:
    """Return the sections of a kind of file by name: itself, then its groups as they are met.

    Parameters
    ----------
    file : str
        A key of `cardgen.definition.schema.FILES`.

    Examples
    --------
    >>> next(iter(guide("school.json").values())).key("name").example
    'Reedmere Flying Club'
    """
    whole = json.loads(schema(file))
    groups: dict[str, Any] = {FILES[file].__name__: whole, **whole.get("$defs", {})}
    for group in [*groups.values()]:
        speeds = group.get("properties", {}).get("speeds", {})
        if "properties" in speeds:
            groups[V_SPEEDS] = speeds
    found: dict[str, Section] = {}
    _gather(FILES[file].__name__, (), groups, found)
    return found


def _gather(
    name: str, under: tuple[str, ...], groups: dict[str, Any], found: dict[str, Section]
) -> None:
    """Add a group, and then those that its keys lead to."""
    found[name] = section = _section(name, under, groups)
    for group in dict.fromkeys(one for key in section.keys for one in key.groups):
        if group not in found:
            leading = [key.name for key in section.keys if group in key.groups]
            leading = leading if len(leading) <= 4 else [leading[0], "…"]
            _gather(group, (*under, ", ".join(leading)), groups, found)


def _section(name: str, under: tuple[str, ...], groups: dict[str, Any]) -> Section:
    group = groups[name]
    needed = group.get("required", [])
    keys = (
        Key(
            key,
            about.get("description") or "",
            key in needed,
            tuple(_forms(about)),
            _unit(about.get("description") or ""),
            "",
        )
        for key, about in group["properties"].items()
    )
    made = tuple(one._replace(example=_example(name, one, groups)) for one in keys)
    return Section(name, group.get("description") or "", made, under)


def _forms(about: dict[str, Any]) -> Iterator[Form]:
    """Yield what a part of the schema allows; that it may be nothing is said by leaving it out."""
    if "$ref" in about:
        yield Form("group", group=about["$ref"].rpartition("/")[2])
    elif "anyOf" in about or "oneOf" in about:
        for one in about.get("anyOf") or about["oneOf"]:
            yield from _forms(one)
    elif "enum" in about or "const" in about:
        yield Form("choice", choices=tuple(map(str, about.get("enum", [about.get("const")]))))
    else:
        yield from _plain(about)


def _plain(about: dict[str, Any]) -> Iterator[Form]:
    match about.get("type"):
        case "array":
            yield Form("list", of=tuple(_forms(about.get("items", {}))))
        case "object" if "properties" in about:
            yield Form("group", group=V_SPEEDS)
        case "object":
            names = tuple(about.get("propertyNames", {}).get("enum", ()))
            yield Form("names", choices=names, of=tuple(_forms(about["additionalProperties"])))
        case "number" | "integer":
            yield Form("number")
        case "string" if about.get("format") in ("date", "range"):
            yield Form(about["format"])
        case "null":
            return
        case _:
            yield Form("words", most=about.get("maxLength", 0))


_UNIT = re.compile(
    r"\bin (?:the |its )?"
    r"(unit of (?:the )?\w+(?: flow)?|indicator's unit|own unit|degrees)"
)


def _unit(meaning: str) -> str:
    """Return the unit that a key's sentence names.

    Examples
    --------
    >>> _unit("The weight of the row, in the unit of weight."), _unit("The page of the table.")
    ('unit of weight', '')
    """
    found = _UNIT.search(meaning)
    return found[1] if found else ""


# -- examples --------------------------------------------------------------------------------------


def _example(group: str, key: Key, groups: dict[str, Any]) -> str:
    """Return what may stand under a key, as YAML."""
    return examples.known(group, key.name, key.forms[0].what) or _made(key, key.forms[0], groups)


def _made(key: Key, form: Form, groups: dict[str, Any]) -> str:
    match form.what:
        case "group":
            return _group(form.group, groups)
        case "list" if form.of[0].what == "number":
            return examples.numbers(key.unit)
        case "list":
            inner = examples.known("", key.name, form.of[0].what) or _made(key, form.of[0], groups)
            return f"[{inner}]"
        case "names":
            name = examples.NAMES.get(key.name, "name") if not form.choices else form.choices[0]
            return f"{{{name}: {_made(key, form.of[0], groups)}}}"
        case "choice":
            return form.choices[0]
        case "date":
            return "2024-05-31"
        case "number":
            return examples.number(key.unit)
    return "words"


def _group(name: str, groups: dict[str, Any]) -> str:
    """Return a group of the keys that it cannot be without, or of those that it usually has."""
    keys = groups[name]["properties"]
    wanted = examples.USUAL.get(name) or groups[name].get("required") or list(keys)[:1]
    wanted = [key for key in wanted if key in keys]
    section = _section(name, (), {**groups, name: {**groups[name], "properties": {
        key: keys[key] for key in wanted}}})  # fmt: skip
    return "{" + ", ".join(f"{key.name}: {key.example}" for key in section.keys) + "}"
