"""Where the figures of a table come from, as a list: for who reads a page without its script.

A line is a sentence that some columns have in common, in all rows or in those that it names. What
a formula takes is said with its value where that is one for all; what stands in the rows and the
headings, by its name.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from markupsafe import Markup, escape

from cardgen.document.record import Document, Message, Table
from cardgen.render.origins import (
    SILENT,
    Figure,
    Formula,
    Kind,
    figures_of,
    message_of,
    paper_message,
)
from cardgen.words.language import Language

Way = tuple[Kind, tuple[str, ...]]  # a sentence, and the pages in it
Line = tuple[Way, str]  # and the rows that it holds for, if not for all


class Listed(NamedTuple):
    """Which columns' figures come from where, and of which rows if not of all."""

    columns: str
    rows: str
    origin: Markup


def listed(
    language: Language, table: Table, document: Document | None = None, root: str = ""
) -> list[Listed]:
    """Return where a table's figures come from, in the order of its columns.

    Parameters
    ----------
    language : Language
    table : Table
    document : Document, optional
        What the table is of, with what was copied from paper.
    root : str
        The way from the page to the site's first folder.
    """
    papers = document.head.papers if document else ()
    named = {paper.id: paper_message(paper) for paper in papers}
    lines: dict[Line, list[Figure]] = defaultdict(list)
    for ones in _by_place(figures_of(language, table, document)):
        ways = _by_way(ones)
        for way, alike in ways.items():
            rows = _rows(language, table, ones, alike) if len(ways) > 1 else ""
            lines[way, rows] += alike
    return [
        Listed(
            _columns(language, table, alike),
            rows,
            _linked(
                language, message_of(language, kind, [*_values(kind, alike), *pages], named), root
            ),
        )
        for ((kind, pages), rows), alike in lines.items()
    ]


def _by_place(found: Iterator[Figure]) -> Iterable[list[Figure]]:
    """Return the numbers of each column, the large and the small ones."""
    places: dict[tuple[int, bool], list[Figure]] = defaultdict(list)
    for one in found:
        if one.kind != SILENT:
            places[one.column, one.small].append(one)
    return dict(sorted(places.items())).values()


def _by_way(ones: Sequence[Figure]) -> Mapping[Way, list[Figure]]:
    ways: dict[Way, list[Figure]] = defaultdict(list)
    for one in ones:
        ways[one.kind, one.values[len(one.kind.inputs) :]].append(one)
    return ways


def _values(kind: Kind, ones: Sequence[Figure]) -> Iterator[str | None]:
    """Yield what a formula takes, where it takes the same for all."""
    for at, _ in enumerate(kind.inputs):
        values = {one.values[at] for one in ones}
        yield values.pop() if len(values) == 1 else None


def _rows(language: Language, table: Table, ones: Sequence[Figure], alike: Sequence[Figure]) -> str:
    """Return which rows of a column have one sentence: whole blocks, or each by its name."""
    wanted, said = {one.row for one in alike}, list[str]()
    for at, block in enumerate(table.blocks):
        here = [one for one in ones if one.block == at and one.row in wanted]
        if not here:
            continue
        heading = language.text(block.heading)
        whole = len(here) == sum(one.block == at for one in ones)
        names = () if whole and heading else dict.fromkeys(one.texts[0] or "" for one in here)
        said.append(" ".join(filter(None, (heading, language.say("several", parts=tuple(names))))))
    return language.say("several", parts=tuple(said))


def _columns(language: Language, table: Table, alike: Sequence[Figure]) -> str:
    """Return the columns' names, that of a group before its first."""
    names, group = list[str](), ""
    for at, small in dict.fromkeys((one.column, one.small) for one in alike):
        column = table.columns[at]
        over, name = language.text(column.group), language.text(column.heading)
        named = f"{over} {name}" if over != group else name
        names.append(language.say("listed-small", column=named) if small else named)
        group = over
    return language.say("several", parts=tuple(names))


def _linked(language: Language, said: Message, root: str) -> Markup:
    """Return a sentence with its formulas linked to where they are explained."""
    return Markup("").join(
        Markup('<a href="{}formulas.html#{}">{}</a>').format(root, words.place, words)
        if isinstance(words := segment.text, Formula)
        else escape(words)
        for segment in language.segments(said)
    )
