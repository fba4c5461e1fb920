"""What two documents of an aircraft print differently, by identifier.

Order is no difference: identifiers name a figure wherever it stands.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, replace
from typing import NamedTuple

from cardgen.document.comparison import Compared, Moved, Reworded, Words
from cardgen.document.record import (
    Block,
    Cell,
    Column,
    Document,
    Finding,
    Head,
    Message,
    Row,
    State,
    Table,
    Value,
)
from cardgen.document.signature import VALID, state_of, valid_to
from cardgen.review.marks import printed, told
from cardgen.words.headed import column_headed, row_headed


class At(NamedTuple):
    """A cell, and where it stands."""

    table: Table
    block: Block
    row: Row
    column: Column
    cell: Cell


def cells_of(document: Document) -> dict[str, At]:
    """Return the cells of a document by identifier, small figures after their large ones."""
    return {
        name: At(table, block, row, column, cell)
        for table in document.tables
        for block in table.blocks
        for row in block.rows
        for column, large in zip(table.columns, row.cells, strict=True)
        for name, cell in _both(f"{table.id}/{row.id}/{column.id}", large)
    }


def _both(name: str, cell: Cell) -> Iterator[tuple[str, Cell]]:
    yield name, cell
    if cell.beside is not None:
        yield f"{name}/beside", cell.beside


def moved_cells(before: Mapping[str, At], after: Mapping[str, At]) -> Iterator[Moved]:
    """Yield the cells that are printed differently, or that only one document prints.

    A row at 100 kt is none at 100 km/h: of such, the one is gone and the other new.
    """
    apart = set()
    for name, old in before.items():
        new = after.get(name)
        if new is not None:
            if old.cell == new.cell:
                continue
            if _units(old) == _units(new):
                if printed(old.cell) != printed(new.cell):
                    yield _moved(name, old, new)
                continue
            apart.add(name)
        if any(printed(old.cell)):
            yield _moved(name, old, None)
    for name, new in after.items():
        if (name not in before or name in apart) and any(printed(new.cell)):
            yield _moved(name, None, new)


def _units(at: At) -> list[str]:
    """Return the units of what heads a cell's row."""
    return [cell.quantity.unit for cell in at.row.cells[: at.table.stub] if cell.quantity]


def _moved(name: str, old: At | None, new: At | None) -> Moved:
    at = new or old
    assert at is not None
    return Moved(
        name,
        at.table.id,
        at.table.title,
        at.row.id,
        at.column.id,
        tuple(row_headed(at.table, at.block, at.row)),
        column_headed(at.column, name.endswith("/beside")),
        old and _bare(old.cell),
        new and _bare(new.cell),
        at.row.subject,
    )


def _bare(cell: Cell) -> Cell:
    return replace(cell, origin=None, beside=None)


def difference(before: Document, after: Document, cells: Iterable[Moved]) -> Compared:
    """Return what two documents print differently, where their cells have been compared."""
    head = after.head
    old_state = state_of(before.head, before.marks)
    new_state = state_of(head, after.marks)
    fell = old_state in VALID and new_state not in VALID
    standing = () if fell else _standing(before, after, old_state, new_state)
    found, settled, accepted = _findings(before.findings, after.findings)
    return Compared(
        head.registration,
        head.type,
        was=before.head.registration if before.head.registration != head.registration else "",
        cells=tuple(cells),
        said=(*standing, *_reworded(before, after)),
        found=found,
        settled=settled,
        accepted=accepted,
        signature=(old_state, new_state) if fell else None,
    )


def _standing(
    before: Document, after: Document, old_state: State, new_state: State
) -> Iterable[Reworded]:
    """Return what a card says of its signatures, where it says another thing of the same."""
    old, new = (_said(state) for state in (old_state, new_state))
    if old == new or (new_state in VALID and _signers(before.head) != _signers(after.head)):
        return ()
    return (Reworded(Message("compare-fact-standing"), old, new),)


def _said(state: State) -> Message:
    return Message(f"compare-state-{'signed' if state in VALID else state}")


def _signers(head: Head) -> str:
    return "; ".join(_listed(one.by, one.role, one.date) for one in head.signatures)


def _findings(
    before: Iterable[Finding], after: Iterable[Finding]
) -> tuple[tuple[Finding, ...], ...]:
    """Return the findings that are new, gone, and accepted now."""
    old = {_found(one): one for one in before}
    new = {_found(one): one for one in after}
    return (
        tuple(one for name, one in new.items() if name not in old),
        tuple(one for name, one in old.items() if name not in new),
        tuple(
            one
            for name, one in new.items()
            if name in old and one.accepted and not old[name].accepted
        ),
    )


def _found(one: Finding) -> tuple[str, str]:
    return one.rule, told(one.message)


def _reworded(before: Document, after: Document) -> Iterator[Reworded]:
    old, new = dict(_facts(before)), dict(_facts(after))
    for name in (*old, *(name for name in new if name not in old)):
        was, now = old.get(name), new.get(name)
        if was == now or (name.startswith(_OF_CELLS) and (was is None or now is None)):
            continue  # or the cells are new, or gone, and told
        if was is None or now is None or told(was[1]) != told(now[1]):
            subject = (now or was or ("", ""))[0]
            assert isinstance(subject, Message)
            yield Reworded(subject, was and was[1], now and now[1])


Fact = tuple[str, tuple[Message, Words]]

_OF_CELLS = ("block/", "column/", "change/")  # told where both documents have it


def _facts(document: Document) -> Iterator[Fact]:
    """Yield what a card says outside its cells, by what tells it from all else that it says."""
    head = document.head
    words: dict[str, Words] = {
        "registration": head.registration,
        "type": head.type,
        "kind": Message(f"kind-{head.kind}"),
        "serial": head.serial,
        "indicator": head.indicator_unit,
        "school": head.school.name,
        "web-address": head.school.web_address,
        "notice": head.school.notice,
        "paper-size": head.school.paper,
        "punch-edge": head.school.punch_edge,
        "signature": _signers(head),
        "valid-to": valid_to(head, document.marks),
        "units": _listed(*asdict(head.units).values()),
    }
    for name, said in words.items():
        if said:
            yield name, (Message(f"compare-fact-{name}"), said)
    for one in head.signed:
        state = _listed(one.by, one.role, one.card)
        yield f"signed/{one.date}", (Message("compare-fact-state", {"date": one.date}), state)
    for pair in head.pairs:
        if pair.second == head.registration:
            title = Message("next-title", {"first": pair.first, "second": pair.second})
            yield f"pair/{pair.first}", (Message("compare-fact-pair"), title)
    for paper in head.papers:
        parts = (paper.title, paper.number, paper.revision, paper.date)
        said = Message("several", {"parts": tuple(filter(None, parts))})
        name = "/".join(("paper", paper.id.split("-")[0], paper.number or paper.title))
        if paper.id == "manual":
            name = "paper"
        yield name, (Message("compare-fact-paper"), said)
    for change in head.changes:
        if change.before:
            about: dict[str, Value] = {"speed": change.speed}
            before = Message("several", {"parts": change.before})
            name = f"change/{change.paper}/{change.speed}"
            yield name, (Message("compare-fact-change", about), before)
    for remark in head.remarks:
        yield f"remark/{remark}", (Message("compare-fact-remark"), remark)
    for gap in document.gaps:
        yield f"gap/{gap.table}", (Message("compare-fact-gap", {"title": gap.title}), gap.missing)
    for table in document.tables:
        yield from _notes(table)


def _listed(*several: str) -> str:
    return ", ".join(filter(None, several))


def _notes(table: Table) -> Iterator[Fact]:
    about: dict[str, Value] = {"title": table.title}
    yield f"title/{table.id}", (Message("compare-fact-title", about), table.title)
    yield f"how/{table.id}", (Message("compare-fact-how", about), table.how)
    if table.example is not None:
        yield f"example/{table.id}", (Message("compare-fact-example", about), table.example)
    for block in table.blocks:
        if block.heading is not None:
            yield (
                f"block/{table.id}/{block.id}",
                (Message("compare-fact-heading", about), block.heading),
            )
    for column in table.columns:
        headed = column_headed(column, small=False)
        yield f"column/{table.id}/{column.id}", (Message("compare-fact-heading", about), headed)
    seen: Counter[str] = Counter()
    for note in table.notes:
        seen[note.id] += 1
        name = f"note/{table.id}/{note.id}/{seen[note.id]}"
        yield name, (Message("compare-fact-note", about), note)
