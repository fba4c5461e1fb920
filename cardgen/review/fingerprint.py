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
    The start of the SHA-256 (FIPS 180-4) of the registration, the manual's
    number and revision, and the text of each cell of each table in order.
    """
    manual = card.aircraft.definition.type.manual
    digest = hashlib.sha256()
    for part in (card.registration, manual.number, manual.revision, *_texts(card.tables)):
        digest.update(part.encode() + b"\0")
    mark = digest.hexdigest()[:LENGTH].upper()
    return f"{mark[:4]}-{mark[4:]}"


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
