"""What a page's script knows of a table's numbers: where each comes from, and its exact value.

A sentence stands once for a table, and what fills a blank of it once for as
many numbers as share it: on the table, the column, the block, the row, or on
the number alone. What stands in another cell of the row is read there. All of
it is JSON, so that no word that was entered can break it.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from cardgen.document.record import (
    Cell,
    Column,
    Computed,
    Document,
    Entered,
    Given,
    Message,
    Paper,
    Quantity,
    Table,
    Value,
)
from cardgen.render.scripts import compact
from cardgen.render.sentences import SPEED_UNITS, anchor, enough
from cardgen.words.language import Language

How = tuple[str, str, int]  # a unit, a sense, decimals
# Of a sentence: words, the number of a blank or -1 less a cell of the row, or a formula's title by
# its place among the formulas.
Part = str | int | dict[str, str]
Fills = dict[Hashable, dict[int, str]]  # what fills blanks, by a number or what numbers share
Ways = dict[tuple[int, bool], tuple[int, int]]  # how and sentence, of columns large and small


class Told(NamedTuple):
    """JSON for a table, its blocks and its rows; an empty string where nothing need be said.

    Attributes
    ----------
    table : str
        Sentences, ways of rounding, and what holds for whole columns.
    blocks, rows : list of str
        What fills blanks of sentences, for each.
    figures : dict of (int, bool) to str
        The numbers of each row, and the small ones beside them.
    """

    table: str
    blocks: list[str]
    rows: list[str]
    figures: dict[tuple[int, bool], str]


class Kind(NamedTuple):
    """Origins that one sentence serves: a formula, what it takes, the papers copied from.

    Of a paper it is known whether the page is named.
    """

    formula: str = ""
    inputs: tuple[str, ...] = ()
    papers: tuple[tuple[str, bool], ...] = ()


SILENT = Kind()


class Figure(NamedTuple):
    """A number, large or small, where it stands, and what its origin's sentence says."""

    column: int
    block: int
    row: int
    small: bool
    texts: tuple[str | None, ...]
    quantity: Quantity
    how: How | None
    kind: Kind
    values: tuple[str, ...]


class _Blank(str):
    """The number of a blank that numbers fill differently, and what follows it each time."""

    after = ""


class Formula(str):
    """The title of a formula, and its place among the formulas."""

    place = ""


_SHARED: dict[str, Callable[[Figure], int]] = {
    "column": lambda one: one.column,
    "block": lambda one: one.block,
    "row": lambda one: one.row,
}


def told(
    language: Language, table: Table, document: Document | None = None, switched: bool = True
) -> Told:
    """Return what a page says of a table's numbers.

    Parameters
    ----------
    language : Language
    table : Table
    document : Document, optional
        What the table is of, with what was copied from paper.
    switched : bool
        Whether the page has a switch of units, which needs exact values.
    """
    papers = document.head.papers if document else ()
    found = [
        one._replace(how=one.how if switched else None)
        for one in figures_of(language, table, document)
    ]
    kinds = list(dict.fromkeys((SILENT, *(one.kind for one in found))))
    hows = list(dict.fromkeys((None, *(one.how for one in found))))
    sentences, fills = _sentences(language, found, kinds, papers)
    ways = {
        (at, small): _usual(
            [
                (hows.index(one.how), kinds.index(one.kind))
                for one in found
                if (one.column, one.small) == (at, small)
            ]
        )
        for at in range(len(table.columns))
        for small in (False, True)
    }
    lines: dict[tuple[int, bool], list[Any]] = defaultdict(list)
    first = min((one.column for one in found if one.how or any(one.kind)), default=0)
    for one in found:
        if one.column < first:
            continue
        line = lines[one.row, one.small]
        before = range(first + len(line), one.column)
        line += ["" if any(ways[at, one.small]) else 0 for at in before]
        way = hows.index(one.how), kinds.index(one.kind)
        line.append(_entry(one, way, ways[one.column, one.small], fills[one]))
    whole = {
        "hows": [_plainly(how) for how in hows if how],
        "sentences": sentences[1:],
        **_columns(language, table, first, ways, fills),
    }
    return Told(
        _json(whole),
        [_json(fills["block", at]) for at, _ in enumerate(table.blocks)],
        [_json(fills["row", at]) for at, _ in enumerate(table.rows)],
        {at: _json(line) for at, line in lines.items()},
    )


def formulas_of(table: Table) -> list[str]:
    """Return the names of the formulas that a table's numbers were computed by."""
    cells = [cell for row in table.rows for cell in row.cells]
    every = [*cells, *(cell.beside for cell in cells if cell.beside)]
    found = [cell.origin.formula for cell in every if isinstance(cell.origin, Computed)]
    return list(dict.fromkeys(found))


def blanks(language: Language, name: str, *values: str) -> str:
    """Return the sentence of a page's script as JSON, with the numbers of its blanks.

    Examples
    --------
    >>> blanks(Language("en", {"found": "{shown} of {all}"}), "found", "shown", "all")
    '[0," of ",1]'
    """
    filled: dict[str, Value] = {value: _Blank(place) for place, value in enumerate(values)}
    return _json(_parts(language, Message(name, filled)))


def paper_message(paper: Paper) -> Message:
    """Return what a paper is called in a sentence."""
    if not paper.title:
        return Message(f"paper-{paper.id}")
    named: dict[str, Value] = {"title": paper.title, "number": paper.number}
    return Message("paper" if paper.number else "paper-unnumbered", named)


# -- numbers and their sentences


def figures_of(
    language: Language, table: Table, document: Document | None = None
) -> Iterator[Figure]:
    """Yield the numbers of a table, row by row, with what is said of each."""
    given = {one.id: one for one in document.given} if document else {}
    bench = any(one.id == "bench-card" for one in (document.head.papers if document else ()))
    said: dict[Quantity, str] = {}
    row_at = 0
    for block_at, block in enumerate(table.blocks):
        for row in block.rows:
            texts = tuple(
                None if cell.beyond else language.figure(cell, column)
                for cell, column in zip(row.cells, table.columns, strict=True)
            )
            for column_at, cell in enumerate(row.cells):
                for small, one in ((False, cell), (True, cell.beside)):
                    if one is None or one.quantity is None:
                        continue
                    kind, values = _said(language, one, given, said)
                    if bench and _by_bench_card(one, table.columns[column_at]) and not small:
                        kind = kind._replace(papers=(*kind.papers, ("bench-card", False)))
                    if small and _alike(cell, one):
                        kind, values = SILENT, ()
                    where = (column_at, block_at, row_at, small, texts)
                    yield Figure(*where, one.quantity, _how(one.quantity), kind, values)
            row_at += 1


def _alike(large: Cell, small: Cell) -> bool:
    """Whether a small figure comes from where the large one beside it does."""
    match large.origin, small.origin:
        case Computed(formula=one), Computed(formula=other):
            return one == other
        case Entered(paper=one, page=page), Entered(paper=other, page=at):
            return (one, bool(page)) == (other, bool(at))
    return False


def _by_bench_card(cell: Cell, column: Column) -> bool:
    """Whether a number was computed through the correction of the indicator."""
    match cell.origin:
        case Computed(formula=formula):
            return column.shown or formula == "indicated-airspeed"
    return False


def _said(
    language: Language, cell: Cell, given: Mapping[str, Given], said: dict[Quantity, str]
) -> tuple[Kind, tuple[str, ...]]:
    """Return which sentence says a number's origin, and what fills it."""
    match cell.origin:
        case Entered(paper=paper, page=page):
            return Kind(papers=((paper, bool(page)),)), (page,) if page else ()
        case Computed(formula=formula, inputs=inputs):
            names = tuple(one.name for one in inputs)
            values = tuple(_value(language, one.value, said) for one in inputs)
            copied = [given[one.source] for one in inputs if one.source in given]
            read = dict.fromkeys((one.paper, one.page) for one in copied if one.paper)
            papers = tuple((paper, bool(page)) for paper, page in read)
            return Kind(formula, names, papers), (*values, *(page for _, page in read if page))
    return SILENT, ()


def _value(language: Language, value: Value, said: dict[Quantity, str]) -> str:
    """Return what a formula took; a quantity is said once for all that took it."""
    if not isinstance(value, Quantity):
        return language.say("several", parts=value)
    if value not in said:
        said[value] = language.say("several", parts=value)
    return said[value]


def _how(quantity: Quantity) -> How | None:
    """Return how a number is converted and rounded, if it is a speed."""
    if quantity.unit not in SPEED_UNITS:
        return None
    return quantity.unit, quantity.sense, quantity.decimals


def _sentences(
    language: Language, found: Sequence[Figure], kinds: Sequence[Kind], papers: Sequence[Paper]
) -> tuple[list[list[Part]], Fills]:
    """Return each kind's sentence, and what fills its blanks, by what the numbers share."""
    named = {paper.id: paper_message(paper) for paper in papers}
    fills: Fills = defaultdict(dict)
    sentences: list[list[Part]] = []
    blank = 0
    for kind in kinds:
        ones = [one for one in found if one.kind == kind]
        values: list[str] = []
        for place, value in enumerate(ones[0].values if ones else ()):
            known = _known(ones, place, value)
            if known is not None:
                values.append(known)
                continue
            level = _level(ones, place)
            for one in ones:
                at = (level, _SHARED[level](one)) if level else one
                fills[at][blank] = one.values[place]
            values.append(_Blank(blank))
            blank += 1
        said = message_of(language, kind, values, named)
        sentences.append(_parts(language, said) if any(kind) else [])
    return sentences, fills


def _known(ones: Sequence[Figure], place: int, value: str) -> str | None:
    """Return what fills a blank of all numbers alike, or by another cell of their rows."""
    if all(one.values[place] == value for one in ones):
        return value
    for at, text in enumerate(ones[0].texts):
        after = value.removeprefix(text or "")
        if all(one.values[place] == f"{one.texts[at]}{after}" for one in ones):
            filled = _Blank(-1 - at)
            filled.after = after
            return filled
    return None


def _level(ones: Sequence[Figure], place: int) -> str:
    """Return what those share that a blank is filled alike for; nothing if each has its own."""
    for level, group in _SHARED.items():
        seen: dict[int, str] = {}
        if all(seen.setdefault(group(one), one.values[place]) == one.values[place] for one in ones):
            return level
    return ""


def message_of(
    language: Language, kind: Kind, values: Sequence[str | None], named: dict[str, Message]
) -> Message:
    """Return a kind's sentence; an input without a value is said by its name alone."""
    pages = iter(values[len(kind.inputs) :])
    papers = tuple(
        Message("origin-page", {"page": next(pages) or "", "paper": named[paper]})
        if has_page
        else named[paper]
        for paper, has_page in kind.papers
    )
    entered = Message("origin-entered", {"papers": papers})
    if not kind.formula:
        return entered
    computed = _computed(language, kind, values)
    if not papers:
        return computed
    return Message("origin-computed-entered", {"computed": computed, "entered": entered})


def _computed(language: Language, kind: Kind, values: Sequence[str | None]) -> Message:
    formula = Formula(language.say(f"formula-{kind.formula}"))
    formula.place = anchor(kind.formula)
    if not kind.inputs:
        return Message("origin-computed", {"formula": formula})
    inputs = tuple(
        Message(f"input-{name}")
        if value is None
        else Message("origin-input", {"name": Message(f"input-{name}"), "value": value})
        for name, value in zip(kind.inputs, values, strict=False)
    )
    return Message("origin-computed-from", {"formula": formula, "inputs": inputs})


def _parts(language: Language, message: Message) -> list[Part]:
    """Return a sentence with its words joined and its blanks by number."""
    parts: list[Part] = []
    for segment in language.segments(message):
        words, last = segment.text, parts[-1] if parts else None
        if isinstance(words, Formula):
            parts.append({words.place: words})
            continue
        if isinstance(words, _Blank):
            parts.append(int(words))
            words, last = words.after, None
        if isinstance(last, str):
            parts[-1] = last + words
        elif words:
            parts.append(words)
    return parts


# -- how it is written


def _usual(ways: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """Return how most are rounded and which sentence most have, each by its place."""
    if not ways:
        return 0, 0
    how, sentence = (Counter(each).most_common(1)[0][0] for each in zip(*ways, strict=True))
    return how, sentence


def _plainly(how: How) -> list[str | int]:
    """Return a unit, a sense and decimals without those at the end that are usual."""
    unit, sense, decimals = how
    if decimals:
        return [unit, sense, decimals]
    return [unit] if sense == "target" else [unit, sense]


def _columns(
    language: Language, table: Table, first: int, ways: Ways, fills: Fills
) -> dict[str, Any]:
    """Return what holds for columns from the first with figures on; its last holds for the rest.

    What holds for none is left out.
    """
    at = range(first, len(table.columns))
    columns = table.columns[first:]
    filled = dict.fromkeys(blank for one in at for blank in fills["column", one])
    forms = ["" if column.form == "plain" else column.form for column in columns]
    said = {
        "first": first,
        "how": _short([ways[one, False][0] for one in at]),
        "sentence": _short([ways[one, False][1] for one in at]),
        "smallHow": _short([ways[one, True][0] for one in at]),
        "smallSentence": _short([ways[one, True][1] for one in at]),
        "shown": _short([int(column.shown) for column in columns]),
        "form": _short(forms),
        "blanks": {
            blank: _short([fills["column", one].get(blank, "") for one in at]) for blank in filled
        },
        "directions": [language.say("take-off"), language.say("add")]
        if "direction" in forms
        else [],
    }
    return {name: one for name, one in said.items() if one}


def _short(values: list[Any]) -> list[Any]:
    """Return values without those at the end that are as the one before; none if all are nothing.

    Examples
    --------
    >>> _short([0, 1, 1, 1]), _short([0, 0])
    ([0, 1], [])
    """
    while len(values) > 1 and values[-1] == values[-2]:
        values = values[:-1]
    return values if any(values) else []


def _entry(one: Figure, way: tuple[int, int], usual: tuple[int, int], own: dict[int, str]) -> Any:
    """Return a number's value, how it is rounded, its sentence and what fills that.

    What is as in most of its column is left out; a value that stands alone
    needs no list, and 0 stands for one that nothing converts. An empty string
    stands where a column has no number.
    """
    value: Any = None
    if one.how:
        low, high = one.quantity.value, one.quantity.high
        ends = [enough(end, one.quantity) for end in (low, high) if end is not None]
        value = ends[0] if high is None else ends
    differing = (None if at == most else at for at, most in zip(way, usual, strict=True))
    entry = [value, *differing]
    while entry and entry[-1] is None:
        entry.pop()
    entry = [*(entry or [value] * bool(own)), *own.values()]
    if not entry:
        return 0
    return value if entry == [value] and not isinstance(value, list) else entry


def _json(value: Any) -> str:
    return compact(value) if value else ""
