"""What is printed otherwise than on a card that somebody holds, figure by figure."""

import json
from collections.abc import Iterator
from typing import NamedTuple

from cardgen.document.record import Block, Cell, Document, Much, Row, SignedState, Table
from cardgen.words.headed import column_headed, row_headed
from cardgen.words.language import Language
from cardgen.words.numbers import CLOSE, DASH, symbol, with_unit

FEW = 40  # figures that are told one by one


class Then(NamedTuple):
    """A cell: what it is, what was printed there, and what is now."""

    what: str
    then: str
    now: str


def superseded(document: Document) -> tuple[SignedState, ...]:
    """Return the signed states of a card that it is in no longer, the last first, each card once.

    Of a signature that has no record only the mark is known.
    """
    found: dict[str, SignedState | None] = {document.marks.card: None, "": None}
    states = [*reversed(document.head.signed), *_unrecorded(document)]
    for one in states:
        found.setdefault(one.card, one)
    return tuple(one for one in found.values() if one)


def _unrecorded(document: Document) -> Iterator[SignedState]:
    for one in document.head.signatures:
        if one.held:
            yield SignedState(one.date, one.by, one.card, one.figures, one.role)


def then_and_now(language: Language, document: Document, state: SignedState) -> list[Then]:
    """Return what is printed otherwise now, in the order of the card.

    Of a table of which much is, only what changed most is told.

    Parameters
    ----------
    language : Language
    document : Document
        The card as it is now.
    state : SignedState
        As records have it.
    """
    much = {one.most: one for one in state.much}
    was = {**state.was, **{name: one.was for name, one in much.items()}}
    return [
        Then(
            _many(language, much.get(name))
            + f"{_row(language, table, block, row)}: {language.say(column_headed(column, small))}",
            _as_printed(language, was[name]),
            _now(language, cell),
        )
        for table in document.tables
        for block in table.blocks
        for row in block.rows
        for column, large in zip(table.columns, row.cells, strict=True)
        for name, cell, small in _both(f"{table.id}/{row.id}/{column.id}", large)
        if name in was
    ]


def _both(name: str, cell: Cell) -> Iterator[tuple[str, Cell, bool]]:
    yield name, cell, False
    if cell.beside is not None:
        yield f"{name}/beside", cell.beside, True


def _many(language: Language, much: Much | None) -> str:
    """Return how many figures of a table changed, of which one is told."""
    return f"{language.say('current-much', count=f'{much.count}')}: " if much else ""


def _row(language: Language, table: Table, block: Block, row: Row) -> str:
    said = [language.text(one) for one in row_headed(table, block, row)]
    if not row.subject:
        said.insert(0, language.say(table.title))
    return ", ".join(said)


def _as_printed(language: Language, text: str) -> str:
    """Return what a record's line says, as a card prints it.

    Examples
    --------
    >>> from cardgen.words.english import ENGLISH
    >>> [_as_printed(ENGLISH, said) for said in ("(15 C)", '"flaps up"', "-")]
    ['(15 °C)', 'flaps up', '–']
    """
    if text.startswith("["):
        return language.say("current-words")
    if text.startswith('"'):
        (words,) = json.loads(f"[{text}]")
        return f"{words}"
    if text in ("", "-"):
        return DASH if text else language.say("compare-nothing")
    number, gap, unit = text.strip("()").rpartition(" ")
    said = f"{number}{'' if unit in CLOSE else gap}{symbol(unit)}"
    return f"({said})" if text.startswith("(") else said


def _now(language: Language, cell: Cell) -> str:
    if cell.quantity is None:
        return language.say("compare-nothing") if cell.empty else language.figure(cell)
    said = with_unit(cell.quantity)
    return f"({said})" if cell.beyond else said
