"""A page's table as HTML, one row to a line, with what the page's script needs to know of it."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from markupsafe import Markup, escape

from cardgen.document.record import BLANK, Cell, Column, Document, Message, Row, Table
from cardgen.render.origins import Told, told
from cardgen.render.sentences import SPEED_UNITS, quoted
from cardgen.words.language import Language
from cardgen.words.numbers import symbol

Say = Callable[..., Markup]  # a message, and whether its speeds are converted
_UNDER = {"speeds": ("meaning", "when"), "markings": ("marking", "meaning")}


def narrowed(language: Language, table: Table) -> Table:
    """Return the table of airspeeds or of markings with some of its words beneath others.

    So it fits a phone, with what the indicator shows next to the name. Others stay as they are.
    """
    if table.id not in _UNDER:
        return table
    names = [column.id for column in table.columns]
    at, gone = (names.index(name) for name in _UNDER[table.id])

    def row_of(row: Row) -> Row:
        said, under = row.cells[at], row.cells[gone]
        if at and language.text(said.said).lower() == language.text(row.cells[0].said).lower():
            said = BLANK
        both = replace(said, beside=None if under.empty else under)
        cells = (both if i == at else one for i, one in enumerate(row.cells) if i != gone)
        return replace(row, cells=tuple(cells))

    return replace(
        table,
        columns=tuple(column for i, column in enumerate(table.columns) if i != gone),
        blocks=tuple(replace(one, rows=tuple(map(row_of, one.rows))) for one in table.blocks),
    )


def changed_in(document: Document, table: Table) -> frozenset[str]:
    """Return the cells of a table that changed since it was signed, by row and column.

    What stands beneath other words is marked with them.
    """
    within = f"{table.id}/"
    found = {one.removeprefix(within) for one in document.changed if one.startswith(within)}
    if table.id in _UNDER:
        above, under = _UNDER[table.id]
        ends = f"/{under}"
        found |= {f"{one.removesuffix(ends)}/{above}" for one in found if one.endswith(ends)}
    return frozenset(found)


def figures_table(
    language: Language,
    table: Table,
    say: Say,
    swatches: Callable[[str], Markup],
    term: Callable[[Markup, str], Markup],
    document: Document | None = None,
    switched: bool = True,
    changed: Collection[str] = (),
) -> Markup:
    """Return a table.

    Parameters
    ----------
    language : Language
    table : Table
    say : callable
        Puts a message into a sentence of the page.
    swatches : callable
        Draws a marking of the indicator.
    term : callable
        Links a V-speed to the glossary.
    document : Document, optional
        What the table is of, with what was copied from paper.
    switched : bool
        Whether the page has a switch of units.
    changed : collection of str
        The cells that are marked as changed; see `changed_in`.
    """
    known = told(language, table, document, switched)
    wide = f" stub-{table.stub}" if table.stub > 1 else ""
    head = Markup(
        '<table class="figures{}" id="{}-table"{}>\n<caption>{}</caption>\n<thead>\n{}\n</thead>\n'
    ).format(
        wide,
        table.id,
        Markup(_data("figures", known.table)),
        language.say(table.title),
        Markup("\n").join(_head(table, say)),
    )
    body = Markup("").join(_bodies(language, table, say, swatches, term, known, changed))
    return head + body + Markup("</table>\n")


# -- headings


def _head(table: Table, say: Say) -> Iterator[Markup]:
    groups = table.groups
    if not any(columns[0].group for columns in groups):
        yield _row("", (_heading(column, say) for column in table.columns))
        return
    yield _row(' class="groups"', (_group(columns, say) for columns in groups))
    under = (column for columns in groups if columns[0].group for column in columns)
    yield _row("", (_th("col", _name(column, say) + _pair(column, say)) for column in under))


def _group(columns: Sequence[Column], say: Say) -> Markup:
    first = columns[0]
    if first.group is None:
        return _th("col", _name(first, say) + _unit(first), ' rowspan="2"')
    said = Markup("<span>{}</span>").format(say(first.group, _is_converted(first)))
    return _th("colgroup", said, f' colspan="{len(columns)}"')


def _heading(column: Column, say: Say) -> Markup:
    return _th("col", _name(column, say) + _unit(column), _class(column.words and "words"))


def _name(column: Column, say: Say) -> Markup:
    return say(column.heading, _is_converted(column))


def _pair(column: Column, say: Say) -> Markup:
    """Return what a column's large figures are and what its small ones, if it has such."""
    if column.large is None or column.beside is None:
        return Markup("")
    both = (say(one, _is_converted(column)) for one in (column.large, column.beside))
    return Markup(' <span class="pair">{} <small>{}</small></span>').format(*both)


def _unit(column: Column) -> Markup:
    if not column.unit:
        return Markup("")
    speed = f' data-speed="{column.unit}"' if _is_converted(column) else ""
    return Markup(" <small{}>{}</small>").format(Markup(speed), symbol(column.unit))


def _is_converted(column: Column) -> bool:
    """Whether the switch of units converts what a column's headings say."""
    return column.unit in SPEED_UNITS and not column.shown


# -- rows


def _bodies(
    language: Language,
    table: Table,
    say: Say,
    swatches: Callable[[str], Markup],
    term: Callable[[Markup, str], Markup],
    known: Told,
    changed: Collection[str],
) -> Iterator[Markup]:
    word = Markup(' <span class="unseen">{}</span>').format(language.say("signed-changed-cell"))
    edges = {columns[0].id for columns in table.groups if columns[0].group}
    edges.discard(table.columns[table.stub].id)
    classes = [
        (one.words and "words", one.id in edges and "edge", one.main and "main")
        for one in table.columns
    ]
    mixed = table.is_mixed

    def stub(row: Row, cell: Cell) -> Markup:
        said = _cell(language, cell, table.columns[0])
        if table.id == "markings":
            return swatches(row.subject) + Markup(" ") + said
        is_term = table.id == "speeds" and isinstance(cell.said, Message)  # not the manual's own
        return term(said, row.subject) if is_term else said

    def drawn(row: Row) -> Iterator[Markup]:
        for at, (cell, column) in enumerate(zip(row.cells, table.columns, strict=True)):
            if at == 0:
                yield _th("row", stub(row, cell), _class(column.words and "words"))
            elif at < table.stub:
                said = _cell(language, cell, column)
                yield _th("row", said, _class(column.words and "words"))
            else:
                mark = bool(changed) and f"{row.id}/{column.id}" in changed
                computed = mixed and cell.is_computed and "computed"
                names = _class(*classes[at], computed, mark and "changed")
                said = _cell(language, cell, column) + (word if mark else "")
                yield Markup(f"<td{names}>{said}</td>")

    place = 0
    for block, shared in zip(table.blocks, known.blocks, strict=True):
        yield Markup(f"<tbody{_data('blanks', shared)}>\n")
        if block.heading:
            yield Markup(
                '<tr class="block"><th scope="rowgroup" colspan="{}"><span>{}</span></th></tr>\n'
            ).format(len(table.columns), say(block.heading, True))
        for row, kind in zip(block.rows, _kinds(block.rows), strict=True):
            large, small = (known.figures.get((place, small), "") for small in (False, True))
            data = _data("n", large) + _data("small", small) + _data("blanks", known.rows[place])
            yield _row(_class(kind) + data, drawn(row)) + Markup("\n")
            place += 1
        yield Markup("</tbody>\n")


def _kinds(rows: Sequence[Row]) -> Iterator[str]:
    """Say under which rows a stronger rule stands, or none: each fifth, or between speeds."""
    for count, (row, after) in enumerate(pairwise([*rows, None]), start=1):
        if row is None or after is None:
            yield ""
        elif row.subject:
            yield "more" if row.subject == after.subject else ""
        else:
            yield "" if count % 5 else "fifth"


def _cell(language: Language, cell: Cell, column: Column) -> Markup:
    """Return what stands in a cell: a word before the number, the number, a small one beside it."""
    label = language.label(cell, column)
    before = f'<span class="label">{escape(label)} </span>' if label else ""
    said = escape(language.figure(cell, column))
    after = f" <small>{escape(language.figure(cell.beside))}</small>" if cell.beside else ""
    return Markup(f"{before}({said}){after}" if cell.beyond else f"{before}{said}{after}")


def _row(attributes: str, cells: Iterator[Markup]) -> Markup:
    return Markup(f"<tr{attributes}>{''.join(cells)}</tr>")


def _th(scope: str, said: str, attributes: str = "") -> Markup:
    return Markup(f'<th scope="{scope}"{attributes}>{said}</th>')


def _class(*names: str | bool) -> str:
    said = " ".join(name for name in names if isinstance(name, str) and name)
    return f' class="{said}"' if said else ""


def _data(name: str, value: str) -> str:
    return f" data-{name}='{quoted(value)}'" if value else ""


def breadth(language: Language, table: Table) -> float:
    """Return about how many digits wide a table is on a page."""
    small = 0.75  # of a digit, is a letter of a heading or of what stands small in a cell

    def wide(cell: Cell, column: Column) -> float:
        label = language.label(cell, column)
        beside = f" {language.figure(cell.beside)}" if cell.beside else ""
        number = language.figure(cell, column)
        width = len(number) - 0.5 * number.count(".") + cell.beyond
        return width + small * len(f"{label} " * bool(label) + beside)

    def widest(at: int, column: Column) -> float:
        heading = language.text(column.heading)
        heads = heading.split() if at < table.stub else [heading]
        cells = (wide(row.cells[at], column) for row in table.rows)
        return 1.6 + max([small * max(map(len, heads)), *cells])

    return sum(widest(at, column) for at, column in enumerate(table.columns))
