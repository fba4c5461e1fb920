"""Rows of a cruise table beside others of one altitude, temperature or setting."""

from collections import Counter
from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.likely import is_one_slip, step_of
from cardgen.checks.rule import (
    COMMON_PRACTICE,
    OF_TABLES,
    Severity,
    Told,
    entered,
    rule,
    tell,
)
from cardgen.definition.cruise import (
    POWER,
    Cruise,
    Row,
    air_column,
    cell_at,
    set_at,
    settings,
)
from cardgen.definition.places import Figure

_PAGE = "look-cruise"
_MANY = 6  # rows that tell of a habit
_GROUP = 3  # rows of one setting that do
_Air = tuple[Figure | float, ...]


def _air_of(cruise: Cruise, row: Row) -> _Air:
    air = air_column(cruise)
    return set_at(cruise, row, "altitude"), set_at(cruise, row, air) if air else 0.0


def _set_of(cruise: Cruise, row: Row) -> tuple[Figure, ...]:
    return tuple(set_at(cruise, row, name) for name in settings(cruise))


@rule("cruise-settings-twice", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def an_engine_is_set_so_once(aircraft: Aircraft) -> Iterator[Told]:
    """What the engine is set to tells all rows of one air apart, if it does so but for two."""
    for cruise in aircraft.definition.cruise:
        names = [n for n in POWER if n in cruise.columns and n not in cruise.results]
        if not names or len(cruise.rows) < 2 * _MANY:
            continue
        seen: dict[object, list[Row]] = {}
        for row in cruise.rows:
            key = _air_of(cruise, row), tuple(cell_at(cruise, row, name) for name in names)
            seen.setdefault(key, []).append(row)
        again = [rows for rows in seen.values() if len(rows) > 1]
        if len(again) == 1 and len(again[0]) == 2 and not _is_set_by(cruise, names):
            first = next(one for one in again[0][1] if one is not None)
            yield tell(first.place, "finding-cruise-settings-twice")


def _is_set_by(cruise: Cruise, names: list[str]) -> bool:
    """Whether the manual names other settings, or these tell apart the rows as they stand."""
    return bool({*cruise.settings} - {*names}) or {*settings(cruise)} <= {*names}


@rule("column-with-setting", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def what_hangs_on_a_setting_does_so_in_all_rows(aircraft: Aircraft) -> Iterator[Told]:
    """Where fuel flow is one and the same at each setting or torque, no row has another."""
    for cruise in aircraft.definition.cruise:
        for name in ("torque", "power"):
            if not {name, "fuel flow"} <= {*cruise.columns} or len(cruise.rows) < _MANY:
                continue
            groups: dict[Figure, list[Figure]] = {}
            for row in cruise.rows:
                at, flow = (cell_at(cruise, row, one) for one in (name, "fuel flow"))
                if at is not None and flow is not None:
                    groups.setdefault(at, []).append(flow)
            several = {at: Counter(one) for at, one in groups.items() if len(one) >= _GROUP}
            odd = [(at, counts) for at, counts in several.items() if len(counts) > 1]
            if len(odd) != 1 or sum(map(Counter.total, several.values())) < _MANY:
                continue
            ((at, counts),) = odd
            (usual, count), *others = counts.most_common()
            if [n for _, n in others] == [1] and count > _GROUP - 1:
                flow = next(one for one in groups[at] if one == others[0][0])
                if abs(flow - usual) > 1.001 * step_of([*groups[at]]):
                    yield tell(
                        flow.place,
                        "finding-column-with-setting",
                        column="fuel flow",
                        here=entered(flow),
                        usual=entered(usual),
                        setting=name,
                        at=entered(at),
                    )


@rule("altitude-of-one-row", Severity.WARNING, _PAGE, COMMON_PRACTICE, OF_TABLES)
def no_altitude_is_parted_in_two(aircraft: Aircraft) -> Iterator[Told]:
    """Two altitudes of one row each, where all others have more, are one that was misread.

    That is where one is a digit off the other, and both rows together are as those of another.
    """
    for cruise in aircraft.definition.cruise:
        levels: dict[Figure, list[Row]] = {}
        for row in cruise.rows:
            levels.setdefault(set_at(cruise, row, "altitude"), []).append(row)
        once = [altitude for altitude, rows in levels.items() if len(rows) == 1]
        if len(once) != 2 or len(levels) < 3:
            continue
        one, other = sorted(once, key=_roundness)
        found = sorted(_entry(cruise, levels[at][0]) for at in once)
        alike = [rows for at, rows in levels.items() if at not in once]
        whole = any(sorted(_entry(cruise, row) for row in rows) == found for rows in alike)
        if whole and is_one_slip(one, other):
            yield tell(
                one.place,
                "finding-altitude-of-one-row",
                here=entered(one),
                other=entered(other),
            )


def _entry(cruise: Cruise, row: Row) -> tuple[float, ...]:
    return (*map(float, _air_of(cruise, row)[1:]), *map(float, _set_of(cruise, row)))


def _roundness(figure: Figure) -> int:
    """Return with how many zeros a figure ends: few where it is the likelier slip."""
    return len(figure.text) - len(figure.text.rstrip("0"))
