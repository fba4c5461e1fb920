"""Documents as JSON (RFC 8259) and back, one table row or copied figure to a line.

What is as a field's default is left out. What formulas take stands once for
each table, and origins name it by its place in that list.
"""

import json
from collections.abc import Iterable, Iterator
from dataclasses import fields
from functools import cache, partial
from typing import Any, TypeVar

from pydantic import TypeAdapter

from cardgen.document.comparison import Comparison
from cardgen.document.once import Once, Same
from cardgen.document.record import Document, Shared, Table
from cardgen.document.transition import Transition

AnyDocument = TypeVar("AnyDocument", Document, Shared)
KINDS: dict[str, type[Document | Shared | Comparison | Transition]] = {
    "Document": Document,
    "Shared": Shared,
    "Comparison": Comparison,
    "Transition": Transition,
}
SCHEMAS = {  # the files of a site, and what `compare` prints
    "card.json": "Document",
    "conversions.json": "Shared",
    "comparison.json": "Comparison",
    "next.json": "Transition",
}

Plain = dict[str, Any]
_SISTERS = {"tables", "gaps", "basis", "given"}  # what they share
_written = Once[dict[str, str]]()
_DRAFT = "https://json-schema.org/draft/2020-12/schema"


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
    if isinstance(document, Document):
        same = (Same(one) for one in (document.tables, document.gaps, document.given))
        shared = _written.of(document.basis, partial(_of_sisters, document), *same)
    else:
        shared = _of_sisters(document)
    said = _members(document, exclude=_SISTERS) | shared
    members = (said[field.name] for field in fields(document) if field.name in said)
    return _joined(members, 0) + "\n"


def _of_sisters(document: Document | Shared) -> dict[str, str]:
    """Return the members of a document that its sisters have too."""
    tables = f' "tables": {_listed(map(_table, document.tables), 1)}'
    return _members(document, include=_SISTERS - {"tables"}) | {"tables": tables}


def _members(
    document: Document | Shared, include: set[str] | None = None, exclude: set[str] | None = None
) -> dict[str, str]:
    plain = _adapter(type(document).__name__).dump_python(
        document, mode="json", include=include, exclude=exclude, exclude_defaults=True
    )
    return {name: _member(name, value) for name, value in plain.items()}


def from_json(text: str | bytes, kind: type[AnyDocument]) -> AnyDocument:
    """Read a document.

    Parameters
    ----------
    text : str or bytes
    kind : type
        `Document` or `Shared`.

    Raises
    ------
    ValueError
        If the text is not such a document.
    """
    try:
        plain = json.loads(text, parse_constant=_no_number)
        for table in plain["tables"]:
            _spread_inputs(table)
    except (LookupError, TypeError, AttributeError, RecursionError) as error:
        raise ValueError(f"{error!r}") from None
    document: AnyDocument = _adapter(kind.__name__).validate_python(plain)
    return document


def _no_number(text: str) -> float:
    raise ValueError(text)


def comparison_json(comparison: Comparison) -> str:
    """Return a comparison as JSON; what is as a field's default is left out."""
    plain = _adapter("Comparison").dump_python(comparison, mode="json", exclude_defaults=True)
    return json.dumps(plain, indent=1, ensure_ascii=False)


def transition_json(transition: Transition) -> str:
    """Return a transition as JSON; `transition_of` gives it back."""
    plain = _adapter("Transition").dump_python(transition, mode="json", exclude_defaults=True)
    return json.dumps(plain, indent=1, ensure_ascii=False) + "\n"


def transition_of(text: str | bytes) -> Transition:
    """Read a transition.

    Raises
    ------
    pydantic.ValidationError
        If the text is not one.
    """
    transition: Transition = _adapter("Transition").validate_json(text)
    return transition


def json_schema(name: str) -> Plain:
    """Return the JSON Schema (draft 2020-12) of a kind of file, by its name in `SCHEMAS`."""
    schema = _adapter(SCHEMAS[name]).json_schema(mode="validation")
    parts = schema["$defs"]
    if "Table" not in parts:
        return {"$schema": _DRAFT, **schema}
    inputs = parts["Computed"]["properties"]["inputs"]
    parts["Table"]["properties"]["inputs"] = {**inputs, "title": "What formulas take"}
    inputs["items"] = {"type": "integer", "minimum": 0}
    return {"$schema": _DRAFT, **schema}


@cache
def _adapter(name: str) -> TypeAdapter[Any]:
    return TypeAdapter(Table if name == "Table" else KINDS[name])


def _origins(table: Plain) -> Iterator[Plain]:
    """Yield the origins of a table's computed cells that took something."""
    for block in table["blocks"]:
        for row in block["rows"]:
            for cell in row["cells"]:
                for one in (cell, cell.get("beside") or {}):
                    if (one.get("origin") or {}).get("inputs"):
                        yield one["origin"]


def _gather_inputs(table: Plain) -> None:
    """Put what a table's formulas take into one list, each once."""
    found: dict[str, int] = {}
    inputs: list[Plain] = []
    for origin in _origins(table):
        numbers = []
        for one in origin["inputs"]:
            key = repr(one)
            if key not in found:
                found[key] = len(inputs)
                inputs.append(one)
            numbers.append(found[key])
        origin["inputs"] = numbers
    if inputs:
        table["inputs"] = inputs


def _spread_inputs(table: Plain) -> None:
    """Put what formulas take back where it is taken."""
    inputs = table.pop("inputs", [])
    for origin in _origins(table):
        origin["inputs"] = [inputs[number] for number in origin["inputs"]]


def _member(name: str, value: Any) -> str:
    if name in ("given", "gaps", "findings"):
        return f' "{name}": {_listed((f"  {_dumps(one)}" for one in value), 1)}'
    if isinstance(value, dict):
        return f' "{name}": {_joined((f"  {_dumps(k)}: {_dumps(v)}" for k, v in value.items()), 1)}'
    return f" {_dumps(name)}: {_dumps(value)}"


def _table(table: Table) -> str:
    plain = _adapter("Table").dump_python(table, mode="json", exclude_defaults=True)
    _gather_inputs(plain)
    members = []
    for name, value in plain.items():
        if name == "blocks":
            value_said = _listed(map(_block, value), 3)
        elif name in ("columns", "inputs"):
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


_dumps = json.JSONEncoder(ensure_ascii=False).encode
