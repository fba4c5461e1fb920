"""What a page's script knows of a table's numbers: where each comes from, and its exact value.

A sentence stands once for a table, and what fills a blank of it once for as
many numbers as share it: on the column, the block, the row, or on the number
alone. All of it is JSON, so that no word that was entered can break it.
"""

import json
from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import Any, NamedTuple

from cardgen.document.record import (
    Cell,
    Column,
    Computed,
    Entered,
    Message,
    Paper,
    Quantity,
    Table,
    Value,
)
from cardgen.render.sentences import SPEED_UNITS, shortly
from cardgen.words.language import Language

Kind = tuple[str, ...]  # of origins that one sentence serves
How = tuple[str, str, int]  # a unit, a sense, decimals
Part = str | int  # of a sentence: words, or the number of a blank
Fills = dict[Hashable, dict[int, str]]  # what fills blanks, by a number or what numbers share


class Told(NamedTuple):
    """JSON for a table, its blocks and its rows; an empty string where nothing need be said.

    Attributes
    ----------
    table : str
        Sentences, ways of rounding, and what holds for a whole column.
    blocks, rows : list of str
        What fills blanks of sentences, for each.
    figures : dict of (int, bool) to str
        The numbers of each row, and the small ones beside them.
    """

    table: str
    blocks: list[str]
    rows: list[str]
    figures: dict[tuple[int, bool], str]


class _Figure(NamedTuple):
    """A number, large or small, where it stands, and what its origin's sentence says."""

    column: int
    block: int
    row: int
    small: bool
    quantity: Quantity
    how: How | None
    kind: Kind
    values: tuple[str, ...]


class _Blank(str):
    """What fills a blank that numbers fill differently."""


_SHARED: dict[str, Callable[[_Figure], int]] = {
    "table": lambda one: 0,
    "column": lambda one: one.column,
    "block": lambda one: one.block,
    "row": lambda one: one.row,
}


def told(
    language: Language, table: Table, papers: Sequence[Paper] = (), switched: bool = True
) -> Told:
    """Return what a page says of a table's numbers.

    Parameters
    ----------
    language : Language
    table : Table
    papers : sequence of Paper
        Those that figures were copied from.
    switched : bool
        Whether the page has a switch of units, which needs exact values.
    """
    found = [one._replace(how=one.how if switched else None) for one in _figures(language, table)]
    kinds = list(dict.fromkeys(((), *(one.kind for one in found))))
    hows = list(dict.fromkeys((None, *(one.how for one in found))))
    sentences, fills = _sentences(language, found, kinds, papers)
    columns = []
    lines: dict[tuple[int, bool], list[Any]] = defaultdict(list)
    for at, column in enumerate(table.columns):
        usual = []
        for small in (False, True):
            ones = [one for one in found if (one.column, one.small) == (at, small)]
            usual.append((_most(hows, [one.how for one in ones]),
                          _most(kinds, [one.kind for one in ones])))
            for one in ones:
                line = lines[one.row, small]
                line += [None] * (at - len(line))
                line.append(_entry(one, usual[small], hows, kinds, fills))
        columns.append(_column(column, usual, fills["column", at]))
    words = {"directions": [language.say("take-off"), language.say("add")]}
    directed = any(column.form == "direction" for column in table.columns)
    whole = {"hows": hows, "sentences": sentences, "columns": columns, **(words if directed else {})}
    return Told(
        _json(whole),
        [_json(fills["block", at]) if fills["block", at] else "" for at, _ in enumerate(table.blocks)],
        [_json(fills["row", at]) if fills["row", at] else "" for at, _ in enumerate(table.rows)],
        {at: _json(line) for at, line in lines.items()},
    )


def formulas_of(table: Table) -> list[str]:
    """Return the names of the formulas that a table's numbers were computed by."""
    cells = [cell for row in table.rows for cell in row.cells]
    every = [*cells, *(cell.beside for cell in cells if cell.beside)]
    found = [cell.origin.formula for cell in every if isinstance(cell.origin, Computed)]
    return list(dict.fromkeys(found))


def paper_message(paper: Paper) -> Message:
    """Return what a paper is called in a sentence."""
    named: dict[str, Value] = {"title": paper.title, "number": paper.number}
    return Message("paper" if paper.number else "paper-unnumbered", named)


def _figures(language: Language, table: Table) -> Iterator[_Figure]:
    row_at = 0
    for block_at, block in enumerate(table.blocks):
        for row in block.rows:
            for column_at, cell in enumerate(row.cells):
                for small, one in ((False, cell), (True, cell.beside)):
                    if one is not None and one.quantity is not None:
                        kind, values = _said(language, one)
                        if small and _alike(cell, one):
                            kind, values = (), ()
                        place = (column_at, block_at, row_at, small)
                        yield _Figure(*place, one.quantity, _how(one.quantity), kind, values)
            row_at += 1


def _alike(large: Cell, small: Cell) -> bool:
    """Whether a small figure comes from where the large one beside it does."""
    match large.origin, small.origin:
        case Computed(formula=one), Computed(formula=other):
            return one == other
        case Entered(paper=one, page=page), Entered(paper=other, page=at):
            return (one, bool(page)) == (other, bool(at))
    return False


def _said(language: Language, cell: Cell) -> tuple[Kind, tuple[str, ...]]:
    """Return which sentence says a number's origin, and what fills it."""
    match cell.origin:
        case Entered(paper=paper, page=page):
            return ("entered", paper, "page" if page else ""), (page,) if page else ()
        case Computed(formula=formula, inputs=inputs):
            names = tuple(one.name for one in inputs)
            values = tuple(language.say("origin-value", value=one.value) for one in inputs)
            return ("computed", formula, *names), values
    return (), ()


def _sentences(
    language: Language, found: Sequence[_Figure], kinds: Sequence[Kind], papers: Sequence[Paper]
) -> tuple[list[list[Part]], Fills]:
    """Return each kind's sentence, and what fills its blanks, by what the numbers share."""
    by_kind: dict[Kind, list[_Figure]] = defaultdict(list)
    for one in found:
        by_kind[one.kind].append(one)
    named = {paper.id: paper_message(paper) for paper in papers}
    sentences: list[list[Part]] = []
    fills: Fills = defaultdict(dict)
    blank = 0
    for kind in kinds:
        ones, values = by_kind[kind], []
        for place, value in enumerate(ones[0].values if kind else ()):
            level = _level(ones, place)
            if level == "table":
                values.append(value)
                continue
            values.append(_Blank(blank))
            for one in ones:
                at = one if level == "own" else (level, _SHARED[level](one))
                fills[at][blank] = one.values[place]
            blank += 1
        sentences.append(_parts(language, _message(kind, values, named)) if kind else [])
    return sentences, fills


def _level(ones: Sequence[_Figure], place: int) -> str:
    """Return how many numbers share what fills a blank: as many as may."""
    for level, group in _SHARED.items():
        known: dict[int, str] = {}
        if all(known.setdefault(group(one), one.values[place]) == one.values[place] for one in ones):
            return level
    return "own"


def _message(kind: Kind, values: Sequence[str], papers: dict[str, Message]) -> Message:
    sort, name, *names = kind
    if sort == "entered":
        if not values:
            return Message("origin-entered", {"paper": papers[name]})
        return Message("origin-entered-page", {"page": values[0], "paper": papers[name]})
    formula = Message(f"formula-{name}")
    if not names:
        return Message("origin-computed", {"formula": formula})
    inputs = tuple(
        Message("origin-input", {"name": Message(f"input-{input_name}"), "value": value})
        for input_name, value in zip(names, values, strict=True)
    )
    return Message("origin-computed-from", {"formula": formula, "inputs": inputs})


def _parts(language: Language, message: Message) -> list[Part]:
    parts: list[Part] = []
    for segment in language.segments(message):
        if isinstance(segment.text, _Blank):
            parts.append(int(segment.text))
        elif parts and isinstance(parts[-1], str):
            parts[-1] += segment.text
        else:
            parts.append(segment.text)
    return parts


def _how(quantity: Quantity) -> How | None:
    """Return how a number is converted and rounded, if it is a speed."""
    if quantity.unit not in SPEED_UNITS:
        return None
    return quantity.unit, quantity.sense, quantity.decimals


def _most(known: Sequence[Any], found: Sequence[Any]) -> int:
    """Return the place of what most have."""
    return known.index(Counter(found).most_common(1)[0][0]) if found else 0


def _column(
    column: Column, usual: Sequence[tuple[int, int]], blanks: dict[int, str]
) -> dict[str, Any]:
    """Return what holds for a column: ways and sentences by their places, and what is printed."""
    large, small = usual
    said = {
        "usual": large,
        "small": small if any(small) else None,
        "shown": 1 if column.shown else None,
        "form": column.form if column.form != "plain" else None,
        "blanks": blanks or None,
    }
    return {name: value for name, value in said.items() if value is not None}


def _entry(
    one: _Figure,
    usual: tuple[int, int],
    hows: Sequence[How | None],
    kinds: Sequence[Kind],
    fills: Fills,
) -> Any:
    """Return a number's value, how it is rounded, its sentence and what fills that; shortly."""
    quantity = one.quantity
    value: Any = None
    if one.how:
        high = quantity.high
        value = shortly(quantity.value)
        value = value if high is None else [value, shortly(high)]
    place = hows.index(one.how), kinds.index(one.kind)
    own = list(fills[one].values()) if one in fills else []
    entry = [
        value,
        *(None if at == most else at for at, most in zip(place, usual, strict=True)),
        *own,
    ]
    while entry and entry[-1] is None:
        entry.pop()
    return value if len(entry) == 1 and one.how and quantity.high is None else entry


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
