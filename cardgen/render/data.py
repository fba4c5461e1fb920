"""Tables as comma-separated values."""

import csv
import io
import re
from collections.abc import Iterator

from cardgen.document.once import Once, Same
from cardgen.document.record import Cell, Column, Table
from cardgen.words.language import Language

_written = Once[str]()


def table_csv(table: Table, language: Language) -> str:
    """Return a table as comma-separated values (RFC 4180), with a row of headings.

    Small figures get a column of their own; a gap is an empty field. Numbers
    are without commas, and with the minus sign of ASCII. Words that a spreadsheet
    would take for a formula have an apostrophe before them.
    """
    return _written.of(table, lambda: _csv(table, language), Same(language))


def _csv(table: Table, language: Language) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    beside = [any(row.cells[i].beside for row in table.rows) for i in range(len(table.columns))]
    blocked = any(block.heading for block in table.blocks)
    writer.writerow([*(["block"] if blocked else []), *_headings(table, beside, language)])
    for block in table.blocks:
        head = [inert(language.text(block.heading))] if blocked else []
        for row in block.rows:
            cells = zip(table.columns, row.cells, beside, strict=True)
            writer.writerow([*head, *_fields(list(cells), language)])
    return out.getvalue()


def _headings(table: Table, beside: list[bool], language: Language) -> Iterator[str]:
    for column, has_beside in zip(table.columns, beside, strict=True):
        yield inert(f"{column.id} ({column.unit})" if column.unit else column.id)
        if has_beside:
            yield f"{column.id}: {language.text(column.beside)}"


def _fields(cells: list[tuple[Column, Cell, bool]], language: Language) -> Iterator[str]:
    for column, cell, has_beside in cells:
        yield _plain(cell, column, language)
        if has_beside:
            yield _plain(cell.beside, column, language) if cell.beside else ""


def _plain(cell: Cell, column: Column, language: Language) -> str:
    if cell.is_dash:
        return ""
    text = language.figure(cell, column)
    if cell.quantity is None:
        return inert(text)
    text = text.replace("−", "-").replace(",", "")
    return f"{language.label(cell, column)} {text}".lstrip()


# What spreadsheets take for the beginning of a formula: OWASP, "CSV Injection" (from memory). Words
# of a definition have no tabs and line ends; full-width signs count in some.
_FORMULA = re.compile(r"\s*[=+\-@\t\r\n＝＋－＠]")
_NUMBER = re.compile(r"[-+]?[0-9]+(\.[0-9]+)?")


def inert(text: str) -> str:
    """Return text that a spreadsheet shows as it is; a number stays one, whatever its sign.

    Examples
    --------
    >>> inert("=1+1"), inert("-5"), inert("+0.5"), inert("-5+cmd|' /C calc'!A0")
    ("'=1+1", '-5', '+0.5', "'-5+cmd|' /C calc'!A0")
    """
    harmless = _NUMBER.fullmatch(text) or not _FORMULA.match(text)
    return text if harmless else f"'{text}"
