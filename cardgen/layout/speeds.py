"""V-speeds as lists with large figures, and the legend of the dial."""

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from cardgen.document.record import Cell, Column, Row, Table
from cardgen.layout.content import Content
from cardgen.layout.font import advance, lines, longest
from cardgen.layout.formats import SpeedList
from cardgen.layout.measures import BODY, CAPTION, FIRM, HAIR, SLACK, SPEED, STRONG, Measures
from cardgen.layout.placed import (
    LegendRow,
    PlacedLegend,
    PlacedSpeeds,
    SpeedGroup,
    SpeedRow,
)
from cardgen.words.numbers import DASH

SWATCHES = (
    "white",
    "flap-limit",
    "green",
    "yellow",
    "red-line",
    "blue-line",
    "red-radial",
    "yellow-triangle",
    "mark-line",
    "mark-triangle",
    "tightened",
)
_WORDS = ("meaning", "when")
_LEAST = 8.0  # mm, of what it is the speed of
_SHORT = 5.0  # of the size of type: what is no longer is not broken, such as flaps 10
_SWATCH = 8.5  # mm
_HEAD = 1.1  # from line to line of a heading
_NAMES = (0.0, 0.25, 0.5, 0.75, 1.0)  # of what names may give of their room to words beside them
_NO_BREAK = "\N{NO-BREAK SPACE}"


def least_width(content: Content, part: SpeedList, measures: Measures) -> float:
    """Return how wide a list must be at the least."""
    rows = _rows(content, part)
    table = content.table("speeds")
    if not rows or table is None:
        return 0.0
    wide = longest if part.broken else advance
    names = (wide(_name(content, table, row), 700) for row in rows)
    name = max(names) * measures.title + 2 * measures.speed_side + SLACK
    figures = _figure_widths(content, part, table, rows, measures)
    return name + _what_width(content, part, table, rows, measures) + sum(figures)


def _what_width(
    content: Content, part: SpeedList, table: Table, rows: Sequence[Row], measures: Measures
) -> float:
    separator = content.language.wordings["list-separator"]
    whats = [one for text in _whats(content, part, table, rows) for one in text.split(separator)]
    whole = (advance(text, measures.text) for text in whats)
    word = max(
        (
            wide if wide < _SHORT else longest(text, measures.text)
            for wide, text in zip(whole, whats, strict=True)
        ),
        default=0.0,
    )
    return max(_LEAST, word * measures.caption + 2 * measures.speed_side) if word else 0.0


def placed(
    content: Content, part: SpeedList, measures: Measures, width: float, half: int | None = None
) -> list[PlacedSpeeds]:
    """Return a block's speeds as a list, or the first or second half of them."""
    table = content.table("speeds")
    rows = _rows(content, part)
    if not rows or table is None:
        return []
    figures = _figure_widths(content, part, table, rows, measures)
    room = width - sum(figures) - _what_width(content, part, table, rows, measures)

    def of(name: float) -> tuple[tuple[float, ...], tuple[SpeedGroup, ...]]:
        widths = (name, width - name - sum(figures), *figures)
        return widths, tuple(_groups(content, part, table, rows, measures, widths))

    names = _name_widths(content, table, rows, measures, room)
    widths, groups = min(map(of, names), key=lambda made: sum(one.height for one in made[1]))
    if half is not None:
        middle = _middle(groups)
        groups = groups[:middle] if half == 0 else groups[middle:]
        if not groups:
            return []
    title = _title(content, part, table)
    headings = tuple(_headings(content, part, table))
    head = max(
        lines(title, measures.title, widths[0] + widths[1] - 2 * measures.speed_side, 700)
        * _HEAD
        * measures.title,
        *(
            lines(text, measures.caption, wide - 2 * measures.speed_side, 600)
            * _HEAD
            * measures.caption
            for text, wide in zip(headings, figures, strict=True)
        ),
    )
    return [
        PlacedSpeeds(
            title,
            headings,
            widths,
            groups,
            head + 2 * measures.speed_row + STRONG,
            measures.part,
        )
    ]


def ends(content: Content, part: SpeedList) -> Iterator[int]:
    """Yield after which rows a list may be divided: the last of each speed."""
    rows = _rows(content, part)
    for n, (row, following) in enumerate(itertools.pairwise(rows), start=1):
        if row.subject != following.subject:
            yield n
    yield len(rows)


def has_halves(content: Content, part: SpeedList) -> bool:
    """Whether a block has speeds of two names or more."""
    return part.halves and len({row.subject for row in _rows(content, part)}) > 1


def legend(content: Content, measures: Measures, width: float) -> list[PlacedLegend]:
    """Return what the dial's bands and lines mean, if there is a dial."""
    table = content.table("markings")
    card = content.card
    if table is None or card is None or not has_legend(content):
        return []
    say = content.language.say
    headings = (say("sheet-key"), say("sheet-marking"), card.head.indicator_unit)
    rows = tuple(_legend_rows(content, table))
    at = max(advance(row.at, 600) for row in rows) * measures.type + 2 * measures.speed_side
    widths = (_SWATCH, width - _SWATCH - at, at)
    height = _HEAD * measures.caption + 2 * measures.speed_row + STRONG
    for row in rows:
        room = widths[1] - 2 * measures.speed_side
        count = lines(row.name, measures.type, room, measures.figures)
        height += count * BODY * measures.type + 2 * measures.speed_row + HAIR
    return [PlacedLegend(headings, widths, rows, height, 0.3 * measures.type)]


def has_legend(content: Content) -> bool:
    """Whether there is a dial, and paint on it."""
    return "dial" in content.drawings and content.table("markings") is not None


def _legend_rows(content: Content, table: Table) -> Iterator[LegendRow]:
    places = {column.id: n for n, column in enumerate(table.columns)}
    language = content.language
    markings = content.card.basis.markings if content.card else None
    for row in table.rows:
        ends = (row.cells[places[name]] for name in ("from", "to"))
        said = [language.figure(cell) for cell in ends if not cell.empty]
        name = language.figure(row.cells[places["marking"]])
        changed = any(f"markings/{row.id}/{end}" in content.changed for end in ("from", "to"))
        yield LegendRow(row.subject, name, f" {DASH} ".join(said), changed)
        if row.subject == "white" and markings and markings.flaps:
            yield LegendRow(
                "flap-limit", language.say("sheet-flap-limit"), language.say("sheet-see-vfe")
            )
    if markings and markings.tightened:
        yield LegendRow(
            "tightened", language.say("sheet-tightened"), language.say("sheet-see-limits")
        )


def _rows(content: Content, part: SpeedList) -> tuple[Row, ...]:
    table = content.table("speeds")
    blocks = table.blocks if table else ()
    rows = next((block.rows for block in blocks if block.id == part.block), ())
    return rows[slice(*part.rows)] if part.rows else rows


def _title(content: Content, part: SpeedList, table: Table) -> str:
    block = next(block for block in table.blocks if block.id == part.block)
    return content.language.text(block.heading)


def _figures(part: SpeedList, table: Table) -> Iterator[tuple[int, Column]]:
    """Yield the columns of figures that the list has, the indicated speed first."""
    for n, column in enumerate(table.columns):
        if column.id in part.columns and column.id not in ("speed", *_WORDS):
            yield n, column


def _headings(content: Content, part: SpeedList, table: Table) -> Iterator[str]:
    card = content.card
    shown = card.head.indicator_unit if card else ""
    for _, column in _figures(part, table):
        if column.shown or column.id == "indicated":
            yield f"{content.language.say('sheet-shown')} {shown}"
        elif column.id == "cas" and column.unit == shown:
            yield content.language.say("sheet-cas")
        else:
            yield f"{content.language.say(f'sheet-{column.id}')} {column.unit}"


def _figure_widths(
    content: Content, part: SpeedList, table: Table, rows: Sequence[Row], measures: Measures
) -> tuple[float, ...]:
    widths = []
    headings = _headings(content, part, table)
    for (n, column), heading in zip(_figures(part, table), headings, strict=True):
        large = column.id == "indicated"
        size, weight = (measures.limit, 700) if large else (measures.type, measures.text)
        cells = [row.cells[n] for row in rows]
        figure = max(advance(content.language.figure(cell, column), weight) for cell in cells)
        label = max(
            advance(f"{content.language.label(cell, column)} ", measures.text)
            if content.language.label(cell, column)
            else 0.0
            for cell in cells
        )
        wide = max(
            figure * size + label * measures.caption, longest(heading, 600) * measures.caption
        )
        widths.append(wide + 2 * measures.speed_side)
    return tuple(widths)


def _name(content: Content, table: Table, row: Row) -> str:
    return content.language.figure(row.cells[_at(table, "speed")])


def _name_widths(
    content: Content, table: Table, rows: Sequence[Row], measures: Measures, width: float
) -> list[float]:
    """Return how wide names may stand: the widest way first, which is as good as any not lower."""
    names = [_name(content, table, row) for row in rows]
    whole = max(advance(name, 700) for name in names) * measures.title
    least = max(longest(name, 700) for name in names) * measures.title
    around = 2 * measures.speed_side + SLACK
    most = max(least, min(whole, width - around))
    return [around + most - part * (most - least) for part in (_NAMES if least < most else (0.0,))]


def _whats(content: Content, part: SpeedList, table: Table, rows: Iterable[Row]) -> list[str]:
    """Return what each row's speed is, in words, once for all measures that are tried."""
    return content.once(("what", part), lambda: list(_each_what(content, part, table, rows)))


def _each_what(
    content: Content, part: SpeedList, table: Table, rows: Iterable[Row]
) -> Iterator[str]:
    """Yield what each row's speed is, in words; a speed's meaning in its first row only."""
    separator = content.language.wordings["list-separator"]
    before = None
    for row in rows:
        said = {name: _said(content, row.cells[_at(table, name)]) for name in _WORDS}
        name = _name(content, table, row)
        again = row.subject == before or said["meaning"].casefold() == name.casefold()
        before = row.subject
        words = [
            said[column]
            for column in _WORDS
            if column in part.columns and said[column] and not (column == "meaning" and again)
        ]
        yield separator.join(words)


def _said(content: Content, cell: Cell) -> str:
    return "" if cell.is_dash else content.language.figure(cell)


def _groups(
    content: Content,
    part: SpeedList,
    table: Table,
    rows: Sequence[Row],
    measures: Measures,
    widths: tuple[float, ...],
) -> Iterator[SpeedGroup]:
    room = widths[1] - 2 * measures.speed_side
    separator = content.language.wordings["list-separator"]
    whats = (
        kept_together(text, separator, measures.caption, room, measures.text)
        for text in _whats(content, part, table, rows)
    )
    figures = list(_figures(part, table))
    told = zip(rows, whats, strict=True)
    for _, group in itertools.groupby(told, lambda one: one[0].subject):
        of_one = list(group)
        name = _name(content, table, of_one[0][0])
        own = [_row(content, *one, figures, measures, room) for one in of_one]
        yield _group(name, own, measures, widths[0])


def _group(name: str, rows: Sequence[SpeedRow], measures: Measures, width: float) -> SpeedGroup:
    """Return rows under their name, which stands in the middle of the first, if that is higher."""
    count = lines(name, measures.title, width - 2 * measures.speed_side, 700)
    high = count * _HEAD * measures.title
    above = max(measures.speed_row, (rows[0].height - high) / 2)
    first, *others = rows
    lacking = above + high - sum(row.height for row in rows)
    if lacking > 0:
        first = replace(first, height=first.height + lacking)
    return SpeedGroup(name, (first, *others), above, FIRM)


def _row(
    content: Content,
    row: Row,
    what: str,
    figures: Sequence[tuple[int, Column]],
    measures: Measures,
    room: float,
) -> SpeedRow:
    language = content.language
    (at, shown), *others = figures
    high = max(
        SPEED * measures.limit,
        BODY * measures.type,
        lines(what, measures.caption, room, measures.text) * CAPTION * measures.caption,
    )
    return SpeedRow(
        what,
        language.label(row.cells[at], shown),
        language.figure(row.cells[at], shown),
        tuple(language.figure(row.cells[n], column) for n, column in others),
        tuple(row.cells[n].is_computed for n, _ in figures),
        tuple(f"speeds/{row.id}/{column.id}" in content.changed for _, column in figures),
        any(f"speeds/{row.id}/{column}" in content.changed for column in _WORDS),
        high + 2 * measures.speed_row + HAIR,
    )


def kept_together(text: str, separator: str, size: float, width: float, weight: int) -> str:
    r"""Return a list in words whose parts stay in one line each, if that takes no more lines.

    Examples
    --------
    >>> kept_together("flaps 0, 00 lb", ", ", 10.0, 28.0, 400)
    'flaps\xa00, 00\xa0lb'
    """
    together = separator.join(
        part.replace(" ", _NO_BREAK) if advance(part, weight) * size < width else part
        for part in text.split(separator)
    )
    before, after = (lines(one, size, width, weight) for one in (text, together))
    return together if after <= before else text


def _middle(groups: Sequence[SpeedGroup]) -> int:
    """Return after how many groups to begin a second column, so that both are of like height."""
    whole = sum(group.height for group in groups)
    ends = list(itertools.accumulate(group.height for group in groups))[:-1]
    return 1 + min(range(len(ends)), key=lambda n: (max(ends[n], whole - ends[n]), -n), default=0)


def _at(table: Table, column: str) -> int:
    return next(n for n, one in enumerate(table.columns) if one.id == column)
