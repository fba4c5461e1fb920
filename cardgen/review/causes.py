"""Which copied figures moved a cell, by what its origin says that it was made from."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from cardgen.document.comparison import Known, Moved
from cardgen.document.record import Cell, Computed, Entered, Given, Paper
from cardgen.review.difference import At
from cardgen.review.marks import told

_BENCH, _CURVES = "given/bench", "given/calibration"
# What a formula also goes by: CAS by the tables of corrections, IAS by the bench card.
_ALSO = {
    "approach-speed": (_CURVES, _BENCH, "given/speeds/VS0"),
    "indicated-airspeed": (_BENCH,),
    "least-sink": (_CURVES, _BENCH),
    "manoeuvring-speed": (_CURVES, _BENCH),
    "speed-to-fly": (_CURVES, _BENCH),
    "stall-speed": (_CURVES, _BENCH),
}
# What a bracket, a dash and the reach of a table hang on, and no origin names.
_OTHERS = ("given/stall", "given/calibration", "given/markings", "given/weights", "given/crosswind")
_BRACKETS = (*(f"given/speeds/{one}" for one in ("VNE", "VMO", "MMO", "VFE", "VLE")), *_OTHERS)
_BOUNDS = ("given/speeds", *_OTHERS)


class Recopied(NamedTuple):
    """A figure that was copied otherwise: its value, or the page or the paper it stands on."""

    id: str
    before: Given | None
    after: Given | None

    @property
    def is_page(self) -> bool:
        """Whether its value is the same."""
        return bool(self.before and self.after) and self.values[0] == self.values[1]

    @property
    def values(self) -> tuple[Known, Known]:
        """What it was, and what it is."""
        old, new = (one.value if one else None for one in (self.before, self.after))
        return old, new


def recopied(
    before: tuple[Iterable[Given], Iterable[Paper]], after: tuple[Iterable[Given], Iterable[Paper]]
) -> Iterator[Recopied]:
    """Yield what was copied otherwise, from what was copied and the papers that it stands on."""
    old, new = _known(*before), _known(*after)
    for name in (*old, *(name for name in new if name not in old)):
        was, now = old.get(name), new.get(name)
        if was is None or now is None or was[1] != now[1]:
            yield Recopied(name, was and was[0], now and now[0])


def _known(
    given: Iterable[Given], papers: Iterable[Paper]
) -> dict[str, tuple[Given, tuple[str, ...]]]:
    """Return what was copied by identifier, with what tells one copy from another.

    A paper is known by what it is called: its identifier only counts them.
    """
    called = {one.id: _called(one) for one in papers}
    return {one.id: (one, (told(one.value), one.page, *called.get(one.paper, ()))) for one in given}


def _called(paper: Paper) -> tuple[str, ...]:
    return (paper.number or paper.title,) if paper.id.startswith("supplement") else (paper.id,)


class Causes:
    """What the cells of two documents were made from.

    Parameters
    ----------
    before, after : mapping of str to At
        Their cells by identifier.
    changed : iterable of str
        The identifiers of the figures that were copied otherwise.
    alone : bool
        Whether nothing but these can have moved a cell, such as another version of the program.
    """

    def __init__(
        self,
        before: Mapping[str, At],
        after: Mapping[str, At],
        changed: Iterable[str],
        alone: bool = True,
    ) -> None:
        self._sides = (before, after)
        self._known: tuple[dict[str, frozenset[str]], ...] = ({}, {})
        self._rows: tuple[dict[int, frozenset[str]], ...] = ({}, {})
        self._changed = tuple(changed)
        self._alone = alone

    def of(self, one: Moved) -> frozenset[str]:
        """Return which of the changed figures moved a cell; all of them where nothing tells."""
        sources = frozenset().union(*(self._sources(side, one) for side in (0, 1)))
        found = frozenset(name for name in self._changed if _within(name, sources))
        return found or frozenset(self._changed if self._alone else ())

    def _sources(self, side: int, one: Moved) -> frozenset[str]:
        at = self._sides[side].get(one.id)
        if at is None:
            return frozenset()
        found = self._needs(side, one.id)
        if one.before is None or one.after is None:
            found |= {_group(name) for name in found | self._row(side, at)}
        if at.table.id == "speeds":
            found |= {f"given/speeds/{at.row.id}"}
        if at.cell.origin is None:
            found |= self._row(side, at) | {"given/weights"}
        elif getattr(at.cell.origin, "formula", "") == "calibrated-airspeed":
            found |= self._row(side, at)
        found |= frozenset(_bounds(one))
        return found

    def _row(self, side: int, at: At) -> frozenset[str]:
        """Return what any cell of a row was made from, which tells of words and of stubs."""
        known = self._rows[side]
        if id(at.row) not in known:
            names = (f"{at.table.id}/{at.row.id}/{column.id}" for column in at.table.columns)
            known[id(at.row)] = frozenset().union(*(self._needs(side, name) for name in names))
        return known[id(at.row)]

    def _needs(self, side: int, name: str) -> frozenset[str]:
        """Return the figures, and groups of figures, that a cell was made from in the end."""
        known, cells = self._known[side], self._sides[side]
        if name not in known:
            known[name] = frozenset()  # where a cell's origin led back to it
            if name in cells:
                known[name] = frozenset().union(*self._followed(side, cells[name].cell))
        return known[name]

    def _followed(self, side: int, cell: Cell) -> Iterator[frozenset[str]]:
        for source in _sources(cell):
            is_cell = source in self._sides[side]
            yield self._needs(side, source) if is_cell else frozenset((source,))


def _sources(cell: Cell) -> Iterator[str]:
    match cell.origin:
        case Entered(figure=figure):
            yield figure
        case Computed(formula=formula, inputs=inputs):
            yield from _ALSO.get(formula, ())
            for source in filter(None, (one.source for one in inputs)):
                yield source
                if source.startswith(f"{_CURVES}/"):  # of these flaps, whatever source and gear
                    yield from ("/".join(source.split("/")[:3]), _BENCH)


def _group(name: str) -> str:
    """Return what a figure may be there for: others of its V-speed, or else of its kind."""
    parts = name.split("/")
    return "/".join(parts[: 3 if parts[:2] == ["given", "speeds"] else 2])


def _within(name: str, sources: frozenset[str]) -> bool:
    """Whether a figure is one of some sources, or in a group that is."""
    parts = name.split("/")
    return any("/".join(parts[:end]) in sources for end in range(2, len(parts) + 1))


def _bounds(one: Moved) -> Iterable[str]:
    """Return what moved whether a cell is there, has a number at all, or has brackets."""
    old, new = one.before, one.after
    if old is None or new is None:
        return () if one.subject else _BOUNDS
    if (old.quantity is None) != (new.quantity is None):
        return _BOUNDS
    return _BRACKETS if old.beyond != new.beyond else ()
