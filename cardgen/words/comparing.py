"""A comparison in words: what is alike told once, for all aircraft that it is told of."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from cardgen.document.comparison import Compared, Comparison, Edit, Known, Moved, Refigured, Words
from cardgen.document.record import Cell, Quantity
from cardgen.words.language import Language
from cardgen.words.numbers import CLOSE, number, symbol, with_unit

FEW = 3  # rows of a table, or figures of an edit, that are told one by one


class Worse(NamedTuple):
    """A change for the worse: what it is, of which aircraft, and by which edits."""

    said: str
    aircraft: tuple[str, ...]
    by: str


class Edited(NamedTuple):
    """An edit: its number, where it stands, on what page, and what was changed."""

    number: int
    where: str
    page: str
    said: str
    aircraft: tuple[str, ...]


class Line(NamedTuple):
    """A cell: its row, its column, what stood there and what stands there."""

    row: str
    column: str
    before: str
    after: str
    worse: str
    by: str


class Tabled(NamedTuple):
    """What changed in a table: in short, and each cell."""

    id: str
    title: str
    said: str
    lines: tuple[Line, ...]


class Told(NamedTuple):
    """What changed of some aircraft alike: in sentences, and in tables."""

    aircraft: tuple[str, ...]
    type: str
    said: tuple[str, ...]
    tables: tuple[Tabled, ...]


class Teller:
    """Tells a comparison in a language."""

    def __init__(self, language: Language, comparison: Comparison) -> None:
        self._language = language
        self._say = language.say
        self._of = comparison

    # -- sides, and all of it in a sentence

    def sides(self) -> str:
        """Return what was compared with what."""
        base, head = self._of.base, self._of.head
        said = self._say("compare-sides", base=base.name, head=head.name)
        if base.cardgen == head.cardgen:
            return said
        versions = self._say("compare-versions", base=base.cardgen, head=head.cardgen)
        return f"{said} {versions}"

    def verdict(self) -> str:
        """Return how many aircraft and numbers changed, and how many for the worse."""
        cells = [cell for one in self._of.aircraft for cell in one.cells]
        if not self._of.is_changed:
            return self._say("compare-same")
        return self._say(
            "compare-worse" if self._of.is_worse else "compare-changed",
            aircraft=self._count("aircraft", len(self._of.aircraft)),
            numbers=self._count("numbers", len(cells)),
            worse=f"{sum(bool(cell.worse) for cell in cells)}",
        )

    def unused(self) -> list[str]:
        """Return the types that no aircraft is of any longer."""
        return [self._say("compare-unused", file=one) for one in self._of.unused]

    def _count(self, what: str, count: int) -> str:
        one = "-one" if count == 1 else ""
        return self._say(f"compare-count-{what}{one}", count=f"{count:,}")

    # -- for the worse

    def worse(self, everything: bool = False) -> list[Worse]:
        """Return the changes for the worse, the gravest first, alike ones of aircraft together."""
        told: dict[tuple[int, str, str], list[str]] = {}
        for one in self._of.aircraft:
            cells = [cell for cell in one.cells if cell.worse]
            for line in self._worse(cells, everything):
                told.setdefault(line, []).append(one.registration)
        order = sorted(told, key=lambda line: line[0])
        return [Worse(said, tuple(told[grave, said, by]), by) for grave, said, by in order]

    def _worse(self, cells: Sequence[Moved], everything: bool) -> Iterator[tuple[int, str, str]]:
        """Yield the changes for the worse of an aircraft, those of a row or of a table in one."""
        together: dict[tuple[str, str], list[Moved]] = {}
        for cell in cells:
            row = cell.row if cell.subject or everything else ""
            together.setdefault((cell.worse, f"{cell.table}/{row}"), []).append(cell)
        for (rule, _), alike in together.items():
            one_row = len({cell.row for cell in alike}) == 1 and len(alike) <= FEW
            if everything or one_row or alike[0].subject:
                said = self._row(alike)
            else:
                said = f"{self._text(alike[0].title)}: {self._most(alike)}"
            yield alike[0].grave, f"{self._say(f'worse-{rule}')}: {said}", self.by(alike)

    def _row(self, cells: Sequence[Moved]) -> str:
        """Return the cells of one row: what it is, and each column's number before and now."""
        first = cells[0]
        row = self._headed(first)
        title, colon = ("", "") if first.subject else (f"{self._text(first.title)}, ", ":")
        figures = ", ".join(
            f"{self._text(one.heading)}{colon} {self._change(one)}" for one in cells
        )
        return f"{title}{row}: {figures}"

    def _most(self, cells: Sequence[Moved]) -> str:
        """Return how many numbers of a table changed, and which of them most."""
        most = max(cells, key=_size)
        example = f"{self._headed(most)}, {self._text(most.heading)}: {self._change(most)}"
        if len(cells) == 1:
            return example
        return self._say(
            "compare-most", numbers=self._count("numbers", len(cells)), example=example
        )

    # -- edits

    def edits(self, everything: bool = False) -> list[Edited]:
        """Return what was edited, line by line."""
        return [
            Edited(
                number,
                f"{one.file}:{one.line}" if one.file else "",
                self._page(one),
                self._edit(one.changes, everything),
                one.aircraft,
            )
            for number, one in enumerate(self._of.edits, start=1)
        ]

    def _page(self, one: Edit) -> str:
        paper = one.paper or self._say("report-bench-card")
        return self._say("report-page", document=paper, page=one.page) if one.page else one.paper

    def _edit(self, changes: Sequence[Refigured], everything: bool) -> str:
        said = []
        for parent, alike in groupby(changes, key=lambda one: one.name.rpartition("/")[0]):
            parts = [
                f"{one.name.rpartition('/')[2]}{self._what(one)} {self._refigured(one)}"
                for one in alike
            ]
            said.append(f"{parent}: {', '.join(parts)}" if parent else ", ".join(parts))
        if everything or len(said) <= FEW:
            return "; ".join(said)
        more = self._say("compare-more", count=f"{len(said) - FEW}")
        return "; ".join([*said[:FEW], more])

    def _what(self, one: Refigured) -> str:
        return f" ({self._say('compare-page')})" if one.what == "page" else ""

    def _refigured(self, one: Refigured) -> str:
        before, after = one.before, one.after
        if isinstance(before, Quantity) and isinstance(after, Quantity):
            same = before.unit == after.unit
            return f"{number(before) if same else with_unit(before)} → {with_unit(after)}"
        return self._one_side(_known(before), _known(after))

    def _one_side(self, before: str, after: str) -> str:
        """Return words that are new, or gone, or both: others."""
        if before and after:
            return f"{before} → {after}"
        return (
            self._say("compare-come", now=after) if after else self._say("compare-lost", was=before)
        )

    def by(self, cells: Iterable[Moved]) -> str:
        """Return what moved some cells: edits by number, or the program."""
        cells = list(cells)
        numbers = sorted({number for cell in cells for number in cell.edits})
        said = []
        if numbers:
            name = "compare-edit" if len(numbers) == 1 else "compare-edits"
            said.append(self._say(name, numbers=", ".join(map(str, numbers))))
        if any(cell.by_program for cell in cells):
            said.append(self._say("compare-program"))
        return ", ".join(said)

    def why(self, one: Moved) -> str:
        """Return why a cell is marked: that it is for the worse, and what moved it."""
        worse = self._say(f"worse-{one.worse}") if one.worse else ""
        return ", ".join(filter(None, (self._change(one), worse, self.by([one]))))

    # -- aircraft

    def aircraft(self) -> list[Told]:
        """Return what changed by aircraft; those of which it is the same together."""
        alike: dict[tuple[object, ...], list[str]] = {}
        for one in self._of.aircraft:
            what = (one.type, tuple(self._sentences(one)), tuple(self._tables(one)))
            alike.setdefault(what, []).append(one.registration)
        return [
            Told(tuple(names), type_, said, tables)  # type: ignore[arg-type]
            for (type_, said, tables), names in alike.items()
        ]

    def _sentences(self, one: Compared) -> Iterator[str]:
        if one.state != "changed":
            yield self._say(f"compare-{one.state}")
        if one.was:
            yield self._say("compare-renamed", was=one.was)
        if one.signature:
            old, new = (self._say(f"compare-state-{state}") for state in one.signature)
            yield self._say("compare-signature", before=old, after=new)
        for what in ("found", "settled", "accepted"):
            for finding in getattr(one, what):
                reason = f" {finding.accepted}" if finding.accepted else ""
                told = f"{self._say(finding.message)} ({finding.rule}){reason}"
                name = "found-accepted" if what == "found" and finding.accepted else what
                yield f"{self._say(f'compare-{name}')}: {told}"
        for fact in one.said:
            said = self._one_side(self._text(fact.before), self._text(fact.after))
            yield f"{self._say(fact.subject)}: {said}"

    def _tables(self, one: Compared) -> Iterator[Tabled]:
        tables: dict[str, list[Moved]] = {}
        for cell in one.cells:
            tables.setdefault(cell.table, []).append(cell)
        for name, cells in tables.items():
            by = self.by(cells)
            said = self._most(cells) + (f" ({by})" if by else "")
            lines = tuple(self._line(cell) for cell in cells)
            yield Tabled(name, self._text(cells[0].title), said, lines)

    def _line(self, one: Moved) -> Line:
        return Line(
            self._headed(one),
            self._text(one.heading),
            self._cell(one.before),
            self._cell(one.after),
            self._say(f"worse-{one.worse}") if one.worse else "",
            self.by([one]),
        )

    # -- cells

    def _text(self, said: Words | None) -> str:
        return self._language.text(said)

    def _headed(self, one: Moved) -> str:
        return ", ".join(map(self._text, one.headed)) or one.row

    def _change(self, one: Moved) -> str:
        """Return what a cell printed and prints; the unit once, where that is the same."""
        same = _unit(one.before) == _unit(one.after)
        return f"{self._cell(one.before, not same)} → {self._cell(one.after)}"

    def _cell(self, cell: Cell | None, with_unit: bool = True) -> str:
        """Return what a cell prints, with its brackets and its unit."""
        if cell is None or cell.empty:
            return self._say("compare-nothing")
        said = self._language.figure(cell)
        said = f"({said})" if cell.beyond else said
        return f"{said} {symbol(_unit(cell))}" if with_unit and _unit(cell) else said


def _size(one: Moved) -> tuple[int, float]:
    """Return how large a change is: of a number, of one that is new or gone, of words."""
    old, new = one.numbers
    if old is not None and new is not None:
        return 2, abs(new.value - old.value) / max(abs(old.value), 1e-6)
    return int(old is not new), 0.0


def _known(value: Known) -> str:
    return with_unit(value) if isinstance(value, Quantity) else value or ""


def _unit(cell: Cell | None) -> str:
    """Return the unit of a cell that stands apart from its number."""
    unit = cell.quantity.unit if cell and cell.quantity else ""
    return "" if unit in CLOSE else unit
