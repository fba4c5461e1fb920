"""Where a page's numbers come from, said shortly.

The sentences that serve a whole table stand once on it; a cell has only what
fills its sentence, and the page's script puts the two together.
"""

from cardgen.cards.formulas import FORMULAS
from cardgen.cards.table import DASH, Cell, Computed, Entered, Table


def origin_sentences(table: Table) -> list[str]:
    """Return the sentences that say where a table's numbers come from, without their values.

    Each stands once, however many numbers it serves; ``{}`` holds the place of
    a value. What fills them is in `row_origins`.
    """
    found = [origin for cell in _cells(table) if (origin := _own_origin(cell))]
    return list(dict.fromkeys(map(_sentence, found)))


def row_origins(row: tuple[Cell, ...], sentences: list[str]) -> list[str]:
    """Return what fills the sentence of each cell in a row, nothing where a cell has no origin.

    Each is the sentence's place among `sentences`, then its values, with bars
    between. What is as in the cell before is left out, but for its bar.
    """
    told, before = [], [""]
    for cell in row:
        values = _told(_own_origin(cell), sentences)
        same = values[:1] == before[:1]
        new = ["" if value == old else value for value, old in zip(values, before, strict=False)]
        told.append("|".join(new if same else values))
        before = values or before
    return told


def small_origin(cell: Cell, sentences: list[str]) -> str:
    """Return the like of a small figure that comes from elsewhere than the large one beside it."""
    small = cell.also.origin if cell.also else None
    if small is None or cell.origin is None or _kind(small) == _kind(cell.origin):
        return ""
    return "|".join(_told(small, sentences))


def _kind(origin: Entered | Computed) -> str:
    return origin.formula if isinstance(origin, Computed) else _sentence(origin)


def _told(origin: Entered | Computed | None, sentences: list[str]) -> list[str]:
    match origin:
        case Entered(_, line, _, page):
            values = [page, f"{line}"] if page else [f"{line}"]
        case Computed(_, inputs):
            values = [value.partition(" ")[0] for value in inputs.values()]
        case _:
            return []
    return [f"{sentences.index(_sentence(origin))}", *(_barless(one) or DASH for one in values)]


def _sentence(origin: Entered | Computed) -> str:
    match origin:
        case Entered(file, _, document, page):
            where = f"page {{}} of {document}" if page else document
            return _barless(f"Entered: {where} ({file}, line {{}})")
        case Computed(formula, inputs):
            said = ", ".join(f"{name} {{}}{_after(value)}" for name, value in inputs.items())
            return _barless(f"Computed: {FORMULAS[formula].title}: {said}")


def _after(value: str) -> str:
    """Return what follows a value's first word, as a rule the unit, which a column shares."""
    return "".join(value.partition(" ")[1:])


def _barless(text: str) -> str:
    return text.replace("|", "/")


def formulas_of(table: Table) -> list[str]:
    """Return the names of the formulas that a table's numbers were computed by."""
    origins = [cell.origin for cell in _cells(table)]
    return list(dict.fromkeys(one.formula for one in origins if isinstance(one, Computed)))


def _own_origin(cell: Cell) -> Entered | Computed | None:
    """Return where a cell's number comes from, or its small figure's where that is alone."""
    return cell.origin or (cell.also.origin if cell.also else None)


def _cells(table: Table) -> list[Cell]:
    found = [cell for row in table.rows for cell in row]
    return [*found, *(cell.also for cell in found if cell.also)]
