"""What is too much for one page, divided among as few as hold it, each as full as the others."""

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from cardgen.layout import speeds, words
from cardgen.layout.content import Content
from cardgen.layout.formats import (
    Beside,
    Caption,
    Drawing,
    Grid,
    Notes,
    Part,
    Remarks,
    Sheet,
    SpeedList,
    Stack,
)

Parts = tuple[Part | Beside, ...]
_Long = Grid | SpeedList | Remarks  # what may go on
Height = Callable[[Parts], float | None]

_EVERY = 5  # rows: a block that is too much for a page is divided where there is a stronger rule


def divided(sheet: Sheet, content: Content, height: Height) -> list[Parts]:
    """Return a sheet's parts by page.

    Parameters
    ----------
    sheet : Sheet
    content : Content
    height : callable
        Takes parts, and returns how high they are at the least; None if that
        is too much for a page.

    Notes
    -----
    Parts keep their order. One that fits on a page is not divided; a table
    that does not is divided between its blocks, or else between its rows,
    and a list between its speeds or its remarks. Notes stand with their tables.
    """
    if height(sheet.parts) is not None:
        return [sheet.parts]
    parts = sheet.divided or sheet.parts
    notes = [part for part in parts if isinstance(part, Notes)]

    def noted(group: Sequence[Part | Beside]) -> Parts:
        tables = set(_tables(group))
        held = [tuple(one for one in note.tables if one in tables) for note in notes]
        own = zip(notes, held, strict=True)
        return (*group, *(replace(note, tables=names) for note, names in own if names))

    pieces = [
        piece
        for part in parts
        if not isinstance(part, Notes)
        for piece in _pieces(part, content, lambda group: height(noted(group)))
    ]
    spans = _grouped(len(pieces), lambda start, end: height(noted(pieces[start:end])))
    return [noted(pieces[start:end]) for start, end in spans]


def _tables(parts: Sequence[Part | Beside]) -> Iterator[str]:
    for part in parts:
        match part:
            case Beside():
                yield from _tables([one for stack in part.stacks for one in stack.parts])
            case Grid():
                yield part.table
            case SpeedList():
                yield "speeds"


def _pieces(part: Part | Beside, content: Content, height: Height) -> Iterator[Part | Beside]:
    """Yield a part, or what it is divided into where it is too much for a page."""
    if height((part,)) is not None:
        yield part
    elif isinstance(part, Beside):
        yield from _apart(part, content, height)
    elif isinstance(part, Grid | SpeedList | Remarks):
        yield from _rows(part, content, height)
    elif not isinstance(part, Drawing):  # one that is higher than a page is left off
        yield part


def _apart(row: Beside, content: Content, height: Height) -> Iterator[Part | Beside]:
    """Yield a drawing with as much beside it as there is room for, then what else stood there."""
    pictures = [
        stack for stack in row.stacks if all(isinstance(one, Drawing) for one in stack.parts)
    ]
    others = [one for stack in row.stacks if stack not in pictures for one in stack.parts]
    pieces = [
        piece
        for one in others
        for piece in _pieces(one, content, height)
        if not isinstance(piece, Beside)
    ]

    def with_first(count: int) -> Beside:
        return replace(row, stacks=(*pictures, Stack(tuple(pieces[:count]))))

    count = len(pieces)
    while pictures and count and height((with_first(count),)) is None:
        count -= 1
    if pictures and count:
        yield with_first(count)
        yield from pieces[count:]
        return
    alone = [one for stack in pictures for one in stack.parts if height((one,)) is not None]
    yield from alone
    yield from (one for one in pieces if alone or not isinstance(one, Caption))


def _rows(part: _Long, content: Content, height: Height) -> Iterator[Part]:
    ends = [0, *_ends(part, content, height)]

    def piece(start: int, end: int) -> _Long:
        return replace(part, rows=(ends[start], ends[end]))

    count = len(ends) - 1
    for start, end in _grouped(count, lambda start, end: height((piece(start, end),))):
        yield piece(start, end)


def _ends(part: _Long, content: Content, height: Height) -> Iterator[int]:
    """Yield after which rows a part may be divided."""
    if isinstance(part, Remarks):
        yield from range(1, len(words.remarked(content)) + 1)
        return
    if isinstance(part, SpeedList):
        yield from speeds.ends(content, part)
        return
    table = content.table(part.table)
    before = 0
    for block in table.blocks if table else ():
        after = before + len(block.rows)
        if height((replace(part, rows=(before, after)),)) is None:
            yield from range(before + _EVERY, after, _EVERY)
        yield after
        before = after


def _grouped(count: int, height: Callable[[int, int], float | None]) -> list[tuple[int, int]]:
    """Return from where to where things stand on each page: on as few as can be, then as level.

    Examples
    --------
    >>> high = [3.0, 1.0, 1.0, 1.0]
    >>> _grouped(4, lambda a, b: sum(high[a:b]) if sum(high[a:b]) <= 4.0 else None)
    [(0, 1), (1, 4)]
    """
    best = [(0, 0.0, 0)]  # pages, the height of the fullest, and where the last begins
    for end in range(1, count + 1):
        ways = []
        for start in reversed(range(end)):
            high = height(start, end)
            if high is None and start + 1 < end:
                break
            pages, fullest, _ = best[start]
            ways.append((pages + 1, max(fullest, math.inf if high is None else high), start))
        best.append(min(ways))
    ends = [count] if count else []
    while ends and best[ends[-1]][2]:
        ends.append(best[ends[-1]][2])
    return list(itertools.pairwise([0, *reversed(ends)]))
