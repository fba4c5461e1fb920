"""Two short marks of a card: of all that is printed, and of what was copied from paper.

The card's mark is printed at its foot. A signature binds to the mark of the
figures: it holds until a copied figure or the paper it stands on changes,
whatever a school tabulates or a new release computes from them.
"""

import hashlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import asdict, replace
from functools import partial
from json.encoder import encode_basestring

from cardgen.document.once import Once, Same
from cardgen.document.record import (
    WORDED,
    Cell,
    Document,
    Given,
    Marks,
    Message,
    Paper,
    Quantity,
    Table,
)
from cardgen.words.numbers import number

LENGTH = 8  # hexadecimal digits: one chance in four thousand million of a false match
Part = tuple[str, ...]  # a name, and what stands there


def marked(document: Document) -> Document:
    """Return a document with its marks."""
    return replace(document, marks=Marks(card_mark(document), figures_mark(document)))


def card_mark(document: Document) -> str:
    """Return the mark of all that is printed of an aircraft.

    Parameters
    ----------
    document : Document

    Returns
    -------
    str
        Two groups of four hexadecimal digits.

    Notes
    -----
    The start of the SHA-256 (FIPS 180-4) of every printed figure with its unit
    and its brackets, by identifier and in the order of these, and of what the
    head says. Wording, order, layout and style do not change it.
    """
    tables = document.tables
    figures = _figures.of(document.basis, partial(_figures_of, tables), Same(tables))
    return _mark([*_written(fact_parts(document)), *figures])


def figures_mark(document: Document) -> str:
    """Return the mark of what was copied from paper, and of the papers and pages named."""
    papers, given = document.head.papers, document.given
    make = partial(mark_of_figures, papers, given)
    return _copied.of(document.basis, make, papers, Same(given))


def mark_of_figures(papers: tuple[Paper, ...], given: tuple[Given, ...]) -> str:
    """Return the mark of what was copied from some papers; see `figures_mark`."""
    return mark([*copied_parts(papers, given), *_papers(papers)])


def mark(parts: Iterable[Part]) -> str:
    """Return the mark of parts in the order of their identifiers, whatever order they came in."""
    return _mark(_written(parts))


Written = tuple[Part, str]  # a part of what is marked, and that as JSON
_figures = Once[list[Written]]()
_copied = Once[str]()


def _written(parts: Iterable[Part]) -> list[Written]:
    return [(part, f"[{', '.join(map(encode_basestring, part))}]") for part in parts]


def _mark(parts: Iterable[Written]) -> str:
    listed = ", ".join(said for _, said in sorted(parts))
    found = hashlib.sha256(f"[{listed}]".encode()).hexdigest()[:LENGTH].upper()
    return f"{found[:4]}-{found[4:]}"


def copied_parts(papers: tuple[Paper, ...], given: tuple[Given, ...]) -> list[Part]:
    """Return what the mark of the figures is made of, beside the papers: what was copied."""
    known = {one.id for one in papers}
    copied = ((one.id, told(one.value), one.paper, one.page) for one in given)
    return [one for one in copied if one[2] in known]


def fact_parts(document: Document) -> Iterator[Part]:
    """Yield what the head says, as a part of what the card's mark is made of."""
    head = document.head
    yield ("registration", head.registration)
    yield ("type", head.type)
    yield ("kind", head.kind)
    yield ("serial", head.serial)
    yield ("indicator", head.indicator_unit)
    yield ("units", *asdict(head.units).values())
    yield ("school", head.school.name, head.school.web_address, head.school.notice)
    for remark in head.remarks:
        yield ("remark", remark)
    for gap in document.gaps:
        yield ("left off", gap.table)
    for change in head.changes:
        yield ("change", change.paper, change.speed, *map(told, change.before))
    for one in document.given:
        if isinstance(one.value, str) and one.id.endswith(WORDED):
            yield ("words", one.id, one.value)
    yield from _papers(head.papers)


def _papers(papers: tuple[Paper, ...]) -> Iterator[Part]:
    for paper in papers:
        yield ("paper", paper.id, paper.title, paper.number, paper.revision, paper.date)


def figure_parts(document: Document) -> Iterator[Part]:
    """Yield what is printed in tables: figures in headings and notes, and each cell."""
    for table in document.tables:
        yield from _figures_in(table)


def _figures_of(tables: Iterable[Table]) -> list[Written]:
    return sorted(_written(one for table in tables for one in _figures_in(table)))


def _figures_in(table: Table) -> Iterator[Part]:
    for name, quantity in _said(table):
        yield (table.id, name, told(quantity))
    for row in table.rows:
        for column, cell in zip(table.columns, row.cells, strict=True):
            at = f"{table.id}/{row.id}/{column.id}"
            yield (at, *printed(cell))
            if cell.beside is not None:
                yield (f"{at}/beside", *printed(cell.beside))


def _said(table: Table) -> Iterator[tuple[str, Quantity]]:
    """Yield the figures in a table's headings and notes, each by what it fills."""
    messages = [table.title, *table.notes]
    messages += [block.heading for block in table.blocks if block.heading]
    messages += [part for one in table.columns for part in (one.heading, one.group) if part]
    for message in messages:
        yield from _quantities(message)


def _quantities(message: Message) -> Iterator[tuple[str, Quantity]]:
    for name, value in message.values.items():
        for one in value if isinstance(value, tuple) else (value,):
            if isinstance(one, Quantity):
                yield name, one
            elif isinstance(one, Message):
                yield from _quantities(one)


def printed(cell: Cell) -> tuple[str, ...]:
    """Return what a cell says in figures: a number, its unit, its brackets; words by their ids."""
    if cell.quantity is not None:
        beyond = "beyond" if cell.beyond else ""
        return (number(cell.quantity), cell.quantity.unit, beyond)
    if cell.said is not None:
        return (told(cell.said),)
    return ("",) if cell.empty else ("-",)


def told(value: object) -> str:
    """Return a value in a form that no wording changes."""
    match value:
        case Quantity():
            return f"{number(value)} {value.unit}".rstrip()
        case Message():
            return json.dumps([value.id, {name: told(one) for name, one in value.values.items()}])
        case tuple():
            return json.dumps([told(one) for one in value])
        case _:
            return str(getattr(value, "symbol", value))
