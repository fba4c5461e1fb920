"""Cards as CSV and JSON, one table row to a line."""

import csv
import io
import json
from collections.abc import Iterator
from typing import Any

from cardgen.cards.card import CAUTIONS, Card
from cardgen.cards.formulas import FORMULAS
from cardgen.cards.table import DASH, Cell, Computed, Entered, Table

DECIMALS = 6  # of unrounded values: finer than any figure, coarser than a processor's whims


def table_csv(table: Table) -> str:
    """Return a table as comma-separated values (RFC 4180), with a row of headings.

    Small figures get a column of their own; a gap is an empty field.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    beside = [any(row[i].also for row in table.rows) for i in range(len(table.columns))]
    blocked = any(block.heading for block in table.blocks)
    writer.writerow([*(["block"] if blocked else []), *_headings(table, beside)])
    for block in table.blocks:
        for row in block.rows:
            writer.writerow([*([block.heading] if blocked else []), *_fields(row, beside)])
    return out.getvalue()


def _headings(table: Table, beside: list[bool]) -> Iterator[str]:
    for column, has_also in zip(table.columns, beside, strict=True):
        yield f"{column.name} ({column.unit})" if column.unit else column.name
        if has_also:
            yield f"{column.name}: {column.also}"


def _fields(row: tuple[Cell, ...], beside: list[bool]) -> Iterator[str]:
    for cell, has_also in zip(row, beside, strict=True):
        yield _plain(cell)
        if has_also:
            yield _plain(cell.also) if cell.also else ""


def _plain(cell: Cell) -> str:
    if cell.text == DASH:
        return ""
    text = cell.text.replace("−", "-")
    text = text.replace(",", "") if cell.value is not None else text
    return f"{cell.label} {text}".lstrip()


def card_json(card: Card, fingerprint: str) -> str:
    """Return a card as JSON (RFC 8259): every table, each number with its origin.

    A cell is ``[text, unrounded, origin]`` and, where it has a small figure,
    that figure's cell as a fourth.
    """
    definition = card.aircraft.definition
    manual = definition.type.manual
    head = {
        "registration": card.registration,
        "type": definition.type.name,
        "kind": definition.type.kind,
        "serial": definition.airframe.serial,
        "school": card.school.name,
        "notice": card.school.notice,
        "cautions": CAUTIONS,
        "fingerprint": fingerprint,
        "manual": manual.model_dump(mode="json"),
        "indicator unit": card.aircraft.indicator_unit,
        "supplements": [
            f"{supplement.title} {supplement.number}"
            for supplement in definition.airframe.supplements
        ],
        "remarks": definition.airframe.remarks,
        "left off": {gap.title: gap.missing for gap in card.gaps},
    }
    return _document(head, card.tables)


def tables_json(tables: tuple[Table, ...]) -> str:
    """Return tables that serve every aircraft as JSON."""
    return _document({"cautions": CAUTIONS}, tables)


def _document(head: dict[str, Any], tables: tuple[Table, ...]) -> str:
    formulas = sorted({c.origin.formula for t in tables for c in _cells(t) if _is_computed(c)})
    head["formulas"] = {name: FORMULAS[name]._asdict() for name in formulas}
    lines = [f" {_dumps(key)}: {_dumps(value)}," for key, value in head.items()]
    bodies = ",\n".join(_table(table) for table in tables)
    return "{\n" + "\n".join(lines) + f'\n "tables": {{\n{bodies}\n }}\n}}\n'


def _table(table: Table) -> str:
    columns = [
        {"name": column.name, "unit": column.unit, "small figure": column.also}
        for column in table.columns
    ]
    rows = [
        f"    [{_dumps(block.heading)}, {', '.join(_dumps(_cell(cell)) for cell in row)}]"
        for block in table.blocks
        for row in block.rows
    ]
    return (
        f"  {_dumps(table.name)}: {{\n"
        f'   "title": {_dumps(table.title)},\n'
        f'   "notes": {_dumps(table.notes)},\n'
        f'   "columns": {_dumps(columns)},\n'
        f'   "rows": [\n' + ",\n".join(rows) + "\n   ]}"
    )


def _cell(cell: Cell) -> list[Any]:
    value = None if cell.value is None else round(cell.value, DECIMALS) + 0.0
    parts = [f"{cell.label} {cell.text}".lstrip(), value, _origin(cell)]
    return [*parts, _cell(cell.also)] if cell.also else parts


def _origin(cell: Cell) -> dict[str, Any] | None:
    origin = cell.origin
    if isinstance(origin, Entered):
        return {
            "file": origin.file,
            "line": origin.line,
            "document": origin.document,
            "page": origin.page,
        }
    if isinstance(origin, Computed):
        return {"formula": origin.formula, "inputs": origin.inputs}
    return None


def _cells(table: Table) -> Iterator[Any]:
    for row in table.rows:
        for cell in row:
            yield cell
            if cell.also:
                yield cell.also


def _is_computed(cell: Cell) -> bool:
    return isinstance(cell.origin, Computed)


def _dumps(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)
