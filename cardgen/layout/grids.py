"""Tables as they stand on a sheet: how wide their columns are, how high their rows."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cardgen.document.record import Block, Column, Table
from cardgen.layout.content import Content, at_columns
from cardgen.layout.font import advance, lines, longest
from cardgen.layout.formats import Grid
from cardgen.layout.measures import BODY, FIRM, HAIR, HEADING, SLACK, STRONG, THIN, Measures
from cardgen.layout.placed import Heading, PlacedGrid
from cardgen.words.language import Language
from cardgen.words.numbers import symbol

_FEW = 3  # columns in a part of a table, at the least
_EVERY = 5  # rows, there is a stronger rule
_HEAD = 1.1  # from line to line of a heading


@dataclass(frozen=True, slots=True)
class _Wide:
    """How wide a column must be, to the sizes of type of what stands in it."""

    figure: float
    label: float
    small: float
    heading: float
    pair: tuple[float, float]  # of what the large and the small figures are
    words: float  # of a column of words, all in one line
    rule: float = 0.0  # mm, at its side

    def least(self, measures: Measures) -> float:
        beside = measures.beside if self.small else 0.0
        body = self.figure * measures.type + self.label * measures.caption
        body += self.beside(measures) + beside
        named = sum(self.pair) * measures.caption + beside
        least = max(body, named, self.heading * measures.caption)
        return least + 2 * measures.side + self.rule

    def beside(self, measures: Measures) -> float:
        """Return how wide the small figures are, and what they are named."""
        return max(self.small * measures.type, self.pair[1] * measures.caption)

    def most(self, measures: Measures) -> float:
        whole = self.words * measures.type + 2 * measures.side + self.rule + SLACK
        return max(self.least(measures), whole)


def pieces(content: Content, part: Grid, measures: Measures) -> list[Table]:
    """Return a table in as many parts as a sheet's measures ask, each with the rows' headings."""
    table = content.table(part.table, part.first, part.rows)
    if table is None:
        return []
    stub, count = table.stub, len(table.columns)
    wide = -(-(count - stub) // measures.parts)
    if measures.parts == 1 or wide < _FEW:
        return [table]
    return [
        at_columns(table, [*range(stub), *range(start, min(start + wide, count))])
        for start in range(stub, count, wide)
    ]


def least_width(content: Content, part: Grid, measures: Measures) -> float:
    """Return how wide a table must be at the least, and its title."""
    tables = pieces(content, part, measures)
    widths = [
        sum(one.least(measures) for one in _wides(table, part.heavy, content, measures))
        for table in tables
    ]
    titles = (longest(content.language.say(table.title), 700) for table in tables[:1])
    return max([0.0, *widths, *(title * measures.title for title in titles)])


def title_width(content: Content, part: Grid, measures: Measures) -> float:
    """Return how wide a table's title is in one line."""
    table = content.table(part.table)
    if table is None:
        return 0.0
    return advance(content.language.say(table.title), 700) * measures.title + SLACK


def placed(content: Content, part: Grid, measures: Measures, width: float) -> list[PlacedGrid]:
    """Return a table of a width, in its parts."""
    return [
        _placed(table, part, content, measures, width * part.part, first=not n)
        for n, table in enumerate(pieces(content, part, measures))
    ]


def _placed(
    table: Table, part: Grid, content: Content, measures: Measures, width: float, first: bool
) -> PlacedGrid:
    wides = _wides(table, part.heavy, content, measures)
    widths = _widths(wides, measures, width)
    title = content.language.say(table.title) if first else ""
    headings = tuple(_headings(table, content.language))
    return PlacedGrid(
        table,
        title,
        headings,
        widths,
        tuple(one.beside(measures) + 0.02 for one in wides),
        frozenset(_edges(table)),
        part.heavy,
        _title_height(title, measures, width) + _head_height(headings, measures, widths),
        tuple(
            tuple(_heights(block, table, content.language, measures, widths))
            for block in table.blocks
        ),
        measures.part if first else measures.piece,
    )


def _wides(table: Table, heavy: bool, content: Content, measures: Measures) -> list[_Wide]:
    columns = tuple(column.id for column in table.columns)
    rows = tuple(row.id for row in table.rows)
    return content.once(
        (table.id, columns, rows, heavy, measures.night),
        lambda: [
            _wide(table, n, column, heavy, content.language, measures)
            for n, column in enumerate(table.columns)
        ],
    )


def _wide(
    table: Table, at: int, column: Column, heavy: bool, language: Language, measures: Measures
) -> _Wide:
    cells = [row.cells[at] for row in table.rows]
    in_stub = at < table.stub
    weight = 600 if in_stub else measures.main if heavy or column.main else measures.figures
    figures = [
        f"({language.figure(cell, column)})" if cell.beyond else language.figure(cell, column)
        for cell in cells
    ]
    of = longest if column.words else advance
    return _Wide(
        max((of(text, weight) for text in figures), default=0.0),
        max((_label(language.label(cell, column), measures) for cell in cells), default=0.0),
        max(
            (advance(language.figure(cell.beside), measures.text) for cell in cells if cell.beside),
            default=0.0,
        ),
        longest(_heading(table, column, language).whole, 600),
        _pair_widths(column, language),
        max((advance(text, weight) for text in figures), default=0.0) if column.words else 0.0,
        THIN if in_stub or at in _edges(table) or any(cell.beside for cell in cells) else 0.0,
    )


def _pair_widths(column: Column, language: Language) -> tuple[float, float]:
    large, small = _pair(column, language)
    return advance(large, 600), advance(small, 600)


def _label(label: str, measures: Measures) -> float:
    return advance(f"{label} ", measures.text) if label else 0.0


def _widths(wides: Sequence[_Wide], measures: Measures, width: float) -> tuple[float, ...]:
    """Return columns' widths: what each needs, words in one line if they can, and all else alike.

    Examples
    --------
    >>> plain = Measures(4.0, 1.2, 7.0, 2.5)
    >>> wides = [_Wide(one, 0.0, 0.0, 0.5, (0.0, 0.0), 0.0) for one in (2.0, 1.0)]
    >>> _widths(wides, plain, 18.0), _widths(wides, plain, 24.0)
    ((10.0, 8.0), (12.0, 12.0))
    """
    widths = [one.least(measures) for one in wides]
    more = [one.most(measures) - least for one, least in zip(wides, widths, strict=True)]
    spare = max(0.0, width - sum(widths))
    given = min(1.0, spare / sum(more)) if sum(more) else 0.0
    widths = [least + given * extra for least, extra in zip(widths, more, strict=True)]
    return tuple(_levelled(widths, max(width, sum(widths))))


def _levelled(widths: Sequence[float], whole: float) -> list[float]:
    """Return widths that add up to a whole one, the narrowest raised to one level."""
    order = sorted(widths)
    spare = whole - sum(widths)
    level = order[0]
    for n, higher in enumerate([*order[1:], math.inf], start=1):
        step = min(higher - level, spare / n)
        level, spare = level + step, spare - step * n
        if spare <= 0.0:
            break
    return [max(one, level) for one in widths]


def _heading(table: Table, column: Column, language: Language, rows: int = 1) -> Heading:
    """Return a column's heading, with its unit where it stands in no group."""
    return Heading(
        language.say(column.heading),
        "" if column.group else symbol(column.unit),
        rows=rows,
        words=column.words,
        pair=_pair(column, language),
        at=table.columns.index(column),
    )


def _pair(column: Column, language: Language) -> tuple[str, str]:
    """Return what a column's large figures are and what its small ones, if it has such."""
    if column.large is None or column.beside is None:
        return "", ""
    return language.say(column.large), language.say(column.beside)


def _headings(table: Table, language: Language) -> Iterator[tuple[Heading, ...]]:
    if not any(column.group for column in table.columns):
        yield tuple(_heading(table, column, language) for column in table.columns)
        return
    groups = table.groups
    yield tuple(
        Heading(language.say(columns[0].group), columns=len(columns))
        if columns[0].group
        else _heading(table, columns[0], language, rows=2)
        for columns in groups
    )
    yield tuple(
        _heading(table, column, language)
        for columns in groups
        if columns[0].group
        for column in columns
    )


def _edges(table: Table) -> Iterator[int]:
    """Yield where a group of columns begins behind others of figures."""
    start = 0
    for columns in table.groups:
        if start > table.stub and columns[0].group:
            yield start
        start += len(columns)


def _title_height(title: str, measures: Measures, width: float) -> float:
    if not title:
        return 0.0
    count = lines(title, measures.title, width, 700)
    return count * HEADING * measures.title + measures.under_title


def _head_height(
    headings: tuple[tuple[Heading, ...], ...], measures: Measures, widths: tuple[float, ...]
) -> float:
    heights = [0.0] * len(headings)
    spanning = 0.0
    at = {0: 0, 1: 0}
    open_columns: list[int] = []
    for n, row in enumerate(headings):
        for heading in row:
            columns = range(at[0], at[0] + heading.columns) if n == 0 else [open_columns[at[1]]]
            room = sum(widths[column] for column in columns) - 2 * measures.side
            count = lines(heading.whole, measures.caption, room, 600)
            count += any(heading.pair)
            height = count * _HEAD * measures.caption + 2 * measures.row
            if heading.rows == len(headings):
                spanning = max(spanning, height + STRONG)
            else:
                heights[n] = max(heights[n], height + (STRONG if n + 1 == len(headings) else THIN))
            if n == 0:
                at[0] += heading.columns
                if heading.rows < len(headings):
                    open_columns.extend(columns)
            else:
                at[1] += 1
    return max(spanning, sum(heights))


def _heights(
    block: Block, table: Table, language: Language, measures: Measures, widths: tuple[float, ...]
) -> Iterator[float]:
    if block.heading:
        room = sum(widths) - 2 * measures.side
        count = lines(language.say(block.heading), measures.block, room, 700)
        yield count * BODY * measures.block + measures.over_block + measures.row
    words = {
        n: 600 if n < table.stub else measures.figures
        for n, column in enumerate(table.columns)
        if column.words
    }
    for n, row in enumerate(block.rows, start=1):
        count = max(
            (
                lines(
                    language.figure(row.cells[at], table.columns[at]),
                    measures.type,
                    widths[at] - 2 * measures.side,
                    weight,
                )
                for at, weight in words.items()
            ),
            default=1,
        )
        yield max(1, count) * BODY * measures.type + 2 * measures.row + under(n, len(block.rows))


def under(number: int, count: int) -> float:
    """Return how thick the rule below a row is: stronger below each fifth, and the last."""
    return FIRM if number == count or number % _EVERY == 0 else HAIR
