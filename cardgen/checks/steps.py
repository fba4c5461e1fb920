"""What tables are entered with: figures that go on evenly, and in sister tables alike."""

import itertools
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_TABLES,
    Severity,
    Told,
    digits,
    entered,
    rule,
    tell,
)
from cardgen.definition.corrections import corrected, is_correction
from cardgen.definition.places import Figure

_MANY = 5  # figures of a row that tell of its steps
_OTHERS = 3  # of its figures between the ends, that tell what it is rounded to


class _Row(NamedTuple):
    """What a table is entered with, and what its corrections make of that."""

    figures: list[Figure]
    beside: list[Figure]


def _entered(aircraft: Aircraft) -> Iterator[_Row]:
    """Yield the row that each calibration, altimeter table and polar is entered with."""
    for table in {table.given.place: table.given for table in aircraft.calibrations}.values():
        _, name = table.form
        printed = not is_correction(name)
        yield _Row(
            [one for one, _ in table.pairs],
            [] if printed else [corrected(one, name, other) for one, other in table.pairs],
        )
    definition = aircraft.definition
    rows = [[one for one, _ in table.pairs] for table in definition.altimeter_correction]
    rows += [list(row) for polar in definition.type.polar for row in polar.rows.values()]
    yield from (_Row(row, []) for row in rows)


@rule("row-steps", Severity.WARNING, "look-calibration", COMMON_PRACTICE, OF_TABLES)
def rows_go_on_evenly(aircraft: Aircraft) -> Iterator[Told]:
    """A figure stands in the middle of its neighbours, where the steps beside it are as wide.

    Nor is one between the ends finer than all others there, which are multiples of 10. Unless
    what a correction makes of it is round, for which the table was then made.
    """
    for row, beside in _entered(aircraft):
        for n in range(1, len(row) - 1):
            middle = (row[n - 1] + row[n + 1]) / 2
            if row[n] == middle or (beside and beside[n] % 5 == 0):
                continue
            if _is_step(row, n, middle):
                yield tell(
                    row[n].place,
                    "finding-row-steps",
                    here=entered(row[n]),
                    before=entered(row[n - 1]),
                    after=entered(row[n + 1]),
                    expected=digits(middle),
                )
            elif row[n] % 5 and _others_are(row, n, 10):
                yield tell(row[n].place, "finding-row-finer", here=entered(row[n]))


def _is_step(row: Sequence[Figure], n: int, middle: float) -> bool:
    """Whether a figure in the middle would make steps as wide as those beside it.

    That is one to either side, or two to one, in a row of multiples of 5.
    """
    step = middle - row[n - 1]
    steps = [b - a for a, b in itertools.pairwise(row)]
    before, after = steps[: n - 1][-2:], steps[n + 1 :][:2]
    beside = [before[-1:] + after[:1], before, after]
    return _others_are(row, n, 5) and any(some == [step, step] for some in beside)


def _others_are(row: Sequence[Figure], n: int, step: int) -> bool:
    """Whether several others between the ends are multiples of a step."""
    others = [one for m, one in enumerate(row[1:-1], 1) if m != n]
    return len(others) >= _OTHERS and not any(one % step for one in others)


@rule("sister-rows", Severity.WARNING, "look-calibration", COMMON_PRACTICE, OF_TABLES)
def sister_tables_are_entered_alike(aircraft: Aircraft) -> Iterator[Told]:
    """Of altimeter tables by altitude, and polars by weight, no row has one figure of its own.

    At the ends it may, as a table may begin or end elsewhere, but for one of three tables or more.
    """
    for rows in _sisters(aircraft):
        for row in rows:
            others = [one for one in rows if one is not row]
            usual = others[0]
            if len(row) < _MANY or any(list(one) != list(usual) for one in others):
                continue
            odd = [n for n, (a, b) in enumerate(zip(row, usual, strict=False)) if a != b]
            if len(row) != len(usual) or len(odd) != 1:
                continue
            (n,) = odd
            if len(others) > 1 or 0 < n < len(row) - 1:
                yield tell(
                    row[n].place,
                    "finding-sister-rows",
                    here=entered(row[n]),
                    other=entered(usual[n]),
                )


def _sisters(aircraft: Aircraft) -> Iterator[list[list[Figure]]]:
    """Yield the rows that several tables are entered with, which differ in one thing only."""
    alike: dict[object, list[list[Figure]]] = {}
    for table in aircraft.definition.altimeter_correction:
        alike.setdefault(table.setting[:2], []).append([one for one, _ in table.pairs])
    for polar in aircraft.definition.type.polar:
        for name, row in polar.rows.items():
            alike.setdefault((name, polar.flaps), []).append(list(row))
    yield from (rows for rows in alike.values() if len(rows) > 1)
