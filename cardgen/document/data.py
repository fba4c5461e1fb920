"""Documents as JSON (RFC 8259) and back, one table row or copied figure to a line.

What is as a field's default is left out.
"""

import json
from collections.abc import Iterable
from functools import cache
from typing import Any, TypeVar

from pydantic import TypeAdapter

from cardgen.document.record import Document, Shared

AnyDocument = TypeVar("AnyDocument", Document, Shared)
SCHEMAS: dict[str, type[Document] | type[Shared]] = {"card.json": Document, "tables.json": Shared}


def to_json(document: Document | Shared) -> str:
    """Return a document as JSON; `from_json` gives it back.

    Parameters
    ----------
    document : Document or Shared

    Returns
    -------
    str
        Ends in a line feed.
    """
    plain = _adapter(type(document)).dump_python(document, mode="json", exclude_defaults=True)
    return "{\n" + ",\n".join(_member(name, value) for name, value in plain.items()) + "\n}\n"


def from_json(text: str | bytes, kind: type[AnyDocument]) -> AnyDocument:
    """Read a document.

    Parameters
    ----------
    text : str or bytes
    kind : type
        `Document` or `Shared`.

    Raises
    ------
    pydantic.ValidationError
        If the text is not such a document.
    """
    document: AnyDocument = _adapter(kind).validate_json(text)
    return document


def json_schema(name: str) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a kind of file, by its name in `SCHEMAS`."""
    schema = _adapter(SCHEMAS[name]).json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


@cache
def _adapter(kind: type[AnyDocument]) -> TypeAdapter[Any]:
    return TypeAdapter(kind)


def _member(name: str, value: Any) -> str:
    if name == "tables":
        return f' "tables": {_listed(map(_table, value), 1)}'
    if name in ("given", "gaps", "findings"):
        return f' "{name}": {_listed((f"  {_dumps(one)}" for one in value), 1)}'
    if isinstance(value, dict):
        return f' "{name}": {_joined((f"  {_dumps(k)}: {_dumps(v)}" for k, v in value.items()), 1)}'
    return f" {_dumps(name)}: {_dumps(value)}"


def _table(table: dict[str, Any]) -> str:
    members = []
    for name, value in table.items():
        if name == "blocks":
            value_said = _listed(map(_block, value), 3)
        elif name == "columns":
            value_said = _listed((f"    {_dumps(one)}" for one in value), 3)
        else:
            value_said = _dumps(value)
        members.append(f"   {_dumps(name)}: {value_said}")
    return f"  {_joined(members, 2)}"


def _block(block: dict[str, Any]) -> str:
    head = _dumps({name: value for name, value in block.items() if name != "rows"})
    rows = _listed((f"     {_dumps(row)}" for row in block["rows"]), 4)
    return f'    {head[:-1]}, "rows": {rows}}}'


def _listed(lines: Iterable[str], indent: int) -> str:
    return "[\n" + ",\n".join(lines) + f"\n{' ' * indent}]"


def _joined(lines: Iterable[str], indent: int) -> str:
    return "{\n" + ",\n".join(lines) + f"\n{' ' * indent}}}"


def _dumps(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)
