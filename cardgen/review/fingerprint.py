"""A short mark that changes whenever anything printed on a card changes."""

import hashlib
from collections.abc import Iterator

from cardgen.cards.card import Card
from cardgen.cards.table import Table

LENGTH = 8  # hexadecimal digits: one chance in four thousand million of a false match


def fingerprint(card: Card) -> str:
    """Return the fingerprint of a card's figures.

    Parameters
    ----------
    card : Card

    Returns
    -------
    str
        Two groups of four hexadecimal digits.

    Notes
    -----
    The start of the SHA-256 (FIPS 180-4) of what the sheets' heads say, of the
    remarks, and of the text of each cell and note of each table in order.
    """
    digest = hashlib.sha256()
    for part in (*_heads(card), *_texts(card.tables)):
        digest.update(part.encode() + b"\0")
    mark = digest.hexdigest()[:LENGTH].upper()
    return f"{mark[:4]}-{mark[4:]}"


def _heads(card: Card) -> Iterator[str]:
    definition = card.aircraft.definition
    manual, airframe = definition.type.manual, definition.airframe
    yield from (card.registration, definition.type.name, card.aircraft.indicator_unit)
    yield from (manual.title, manual.number, manual.revision, f"{manual.date}")
    yield airframe.serial or ""
    yield from airframe.remarks
    for supplement in airframe.supplements:
        yield from (supplement.title, supplement.number, supplement.revision or "")
    for gap in card.gaps:
        yield from (gap.title, gap.missing)


def _texts(tables: tuple[Table, ...]) -> Iterator[str]:
    for table in tables:
        yield table.name
        for column in table.columns:
            yield f"{column.name} {column.unit}"
        for block in table.blocks:
            yield block.heading
            for row in block.rows:
                for cell in row:
                    yield f"{cell.label} {cell.text}"
                    yield cell.also.text if cell.also else ""
        yield from table.notes
