"""A manual's cruise tables: their keys, which of their columns are set, and which come of them."""

import functools
import itertools
from collections.abc import Iterator, Sequence
from typing import Annotated, Any, Self

from pydantic import (
    BeforeValidator,
    Field,
    PlainValidator,
    ValidationInfo,
    WithJsonSchema,
    model_validator,
)

from cardgen.definition.group import Group, Heading, Label, Number, empty, fault, figure
from cardgen.definition.names import slug
from cardgen.definition.places import Duration, Fault, Figure, Rows, near_match
from cardgen.units import SpeedUnit

AIR = ("isa", "oat")
POWER = ("rpm", "manifold pressure", "torque", "N1", "setting")
RESULTS = ("power", "ias", "tas", "fuel flow", "endurance", "range")
KNOWN = ("altitude", *AIR, *POWER, *RESULTS)
NOT_AVAILABLE = ("n/a", "-")


def _cell(value: object) -> Figure | None:
    return None if value in NOT_AVAILABLE else figure(value)


def _with_times(rows: object) -> object:
    """Make figures of hours and minutes, such as an endurance of 5:45."""
    for row in rows if isinstance(rows, Rows) else ():
        for n, value in enumerate(row if isinstance(row, Rows) else ()):
            if isinstance(value, str) and Duration.is_time(value):
                row[n] = Duration(value, row.items_at[n])
    return rows


Cell = Annotated[
    Figure | None,
    PlainValidator(_cell),
    WithJsonSchema({"anyOf": [{"type": "number"}, {"enum": [*NOT_AVAILABLE]}]}),
]
Row = list[Cell]


class Cruise(Group):
    """A cruise table of the manual, one line a row."""

    name: Label | None = None
    """What the manual calls the table, such as economy."""
    columns: list[Heading]
    """The names of the columns, in the order of the rows."""
    settings: list[Heading] = Field(default_factory=empty)
    """Columns of the manual's own name, or usual results such as power, that it is entered by."""
    results: list[Heading] = Field(default_factory=empty)
    """Columns of the manual's own name, or usual settings, that come of the others."""
    isa: Number | None = None
    """The difference from standard that all rows hold for, in the unit of temperature."""
    oat: Number | None = None
    """The outside air temperature that all rows hold for, in the unit of temperature."""
    tas_unit: SpeedUnit | None = None
    """The unit of TAS, where it is not the unit of speed."""
    rows: Annotated[list[Row], Field(min_length=1), BeforeValidator(_with_times)]
    """One line for each row of the manual's table; n/a where it gives no figure, 5:45 of hours."""
    weight: Number | None = None
    """The weight that the table holds for, in the unit of weight."""
    page: Label | None = None
    """The page of the table."""

    @functools.cached_property
    def column_numbers(self) -> dict[str, int]:
        """Where each column stands in a row."""
        return {name: n for n, name in enumerate(self.columns)}

    @model_validator(mode="after")
    def _columns_are_known(self, info: ValidationInfo) -> Self:
        at = self._block["columns"]
        for name, place in zip(self.columns, at.items_at, strict=True):
            if name not in (*KNOWN, *self.settings, *self.results):
                known = f"{', '.join(KNOWN)}, or one that settings or results name"
                said = f"unknown column {name}, expected one of {known}"
                fault(info, place, said + near_match(name, KNOWN))
            elif not slug(name):
                fault(info, place, f"found column {name}, expected Latin letters or digits in it")
        for name in ("altitude", "tas"):
            if name not in self.columns:
                fault(info, at.place, f"found no column {name}, expected one")
        if len(set(map(slug, self.columns))) < len(self.columns):
            fault(info, at.place, "found a column twice, expected each once")
        return self

    @model_validator(mode="after")
    def _columns_are_set_or_come_of_others(self, info: ValidationInfo) -> Self:
        for key, never in (("settings", ("altitude", *AIR, "tas")), ("results", ("altitude",))):
            names = getattr(self, key)
            for name, place in zip(names, self._items_at(key), strict=True):
                if name not in self.columns:
                    said = f"{key}: found {name}, expected one of the columns"
                    fault(info, place, said + near_match(name, self.columns))
                elif name in never:
                    fault(info, place, f"{key}: found {name}, which is never one of them")
                elif [*self.settings, *self.results].count(name) > 1:
                    fault(info, place, f"{key}: found {name} twice, expected it once in all")
        return self

    @model_validator(mode="after")
    def _one_temperature(self, info: ValidationInfo) -> Self:
        columns = [name for name in AIR if name in self.columns and name not in self.results]
        if len(columns) > 1:
            at = self._block["columns"].place
            fault(info, at, "found both isa and oat, expected one of them")
        said = [name for name in AIR if getattr(self, name) is not None]
        for name in said[0 if columns else 1 :]:
            beside = f"a column {columns[0]}" if columns else said[0]
            fault(info, self.place_of(name), f"{name}: found beside {beside}, expected one of them")
        return self

    @model_validator(mode="after")
    def _rows_are_whole(self, info: ValidationInfo) -> Self:
        entered = ("altitude", *self.settings, *(n for n in AIR if n not in self.results))
        block = self._block["rows"]
        for row, place, cells in zip(self.rows, block.items_at, block, strict=True):
            if len(row) != len(self.columns):
                fault(
                    info,
                    place,
                    f"the row has {len(row)} figures and there are {len(self.columns)} columns, "
                    "expected as many of each",
                )
            for name, one, at in zip(self.columns, row, cells.items_at, strict=False):
                if isinstance(one, Duration) and name not in ("endurance", *self.results):
                    fault(info, at, f"{name}: found the time {one.text}, expected a number")
                if one is None and name in entered:
                    fault(info, at, f"{name}: found no figure, expected one: rows are found by it")
        return self

    @functools.cached_property
    def set_columns(self) -> list[str]:
        """The columns that are set; see `settings`."""
        return _settings(self)

    def _items_at(self, key: str) -> Sequence[Any]:
        return self._block[key].items_at if key in self._block else ()


def cell_at(cruise: Cruise, row: Row, name: str) -> Figure | None:
    """Return what a row has in a column; None where the manual gives no figure."""
    return row[cruise.column_numbers[name]]


def set_at(cruise: Cruise, row: Row, name: str) -> Figure:
    """Return what a row has in a column that the table is entered by."""
    found = cell_at(cruise, row, name)
    assert found is not None, name
    return found


# -- which columns are what ------------------------------------------------------------------------


def axes(cruise: Cruise) -> list[str]:
    """Return the columns that a cruise table is entered with, in the order of reading."""
    air = temperature(cruise)
    return ["altitude", *([air] if air else []), *settings(cruise)]


def air_column(cruise: Cruise) -> str | None:
    """Return the column of temperatures that the rows hold for, if there is one."""
    own = (name for name in AIR if name in cruise.columns and name not in cruise.results)
    return next(own, None)


def temperature(cruise: Cruise) -> str | None:
    """Return the column of temperatures, if there is more than one to read between."""
    air = air_column(cruise)
    return air if air and len(set(_column(cruise, air))) > 1 else None


def held_temperature(cruise: Cruise) -> tuple[str, Figure] | None:
    """Return the one temperature that all rows hold for, and whether it is isa or oat."""
    for name in AIR:
        said: Figure | None = getattr(cruise, name)
        if said is not None:
            return name, said
    air = air_column(cruise)
    if air is None or temperature(cruise):
        return None
    return air, set_at(cruise, cruise.rows[0], air)


def results(cruise: Cruise) -> list[str]:
    """Return the columns that come of the others, in the manual's order."""
    others = ("altitude", air_column(cruise), *settings(cruise))
    return [name for name in cruise.columns if name not in others]


def settings(cruise: Cruise) -> list[str]:
    """Return the columns that are set, and held from one altitude to the next.

    Those are set that the definition names as settings. Of the usual ones, a
    power setting is what a manual repeats at several altitudes. What comes of
    it, such as the manifold pressure that gives 65 % power at each, is a
    result: of all sets of columns that tell the rows apart, the one whose
    values stand at the most altitudes is set; the fullest of those, with power
    itself only where nothing else serves.
    """
    return cruise.set_columns


def _settings(cruise: Cruise) -> list[str]:
    stated = tuple(cruise.settings)
    known = [name for name in (*POWER, "power") if _may_be_set(cruise, name)]
    sets = [
        (*stated, *one)
        for size in range(len(known) + 1)
        for one in itertools.combinations(known, size)
    ]
    apart = [one for one in sets if _tells_apart(cruise, one)]
    usual = (*stated, *(name for name in known if name != "power"))
    best = max(apart, key=lambda one: (_repeated(cruise, one), "power" not in one, len(one)),
               default=usual)  # fmt: skip
    order = [*POWER, "power", *cruise.columns]
    return sorted(best if _repeated(cruise, best) else usual, key=order.index)


def _may_be_set(cruise: Cruise, name: str) -> bool:
    """Whether a column that is not stated to be one may be a setting."""
    if name not in cruise.columns or name in (*cruise.settings, *cruise.results):
        return False
    return None not in _column(cruise, name)


def _column(cruise: Cruise, name: str) -> list[Figure | None]:
    return [cell_at(cruise, row, name) for row in cruise.rows]


def _tells_apart(cruise: Cruise, names: Sequence[str]) -> bool:
    air = air_column(cruise)
    keys = [_column(cruise, name) for name in ("altitude", *([air] if air else []), *names)]
    rows = list(zip(*keys, strict=True))
    return len(set(rows)) == len(rows)


def _repeated(cruise: Cruise, names: Sequence[str]) -> int:
    """Count the rows whose settings stand at another altitude too."""
    chosen = list(zip(*(_column(cruise, name) for name in names), strict=True)) or [()] * len(
        cruise.rows
    )
    altitudes: dict[tuple[Figure | None, ...], set[Figure | None]] = {}
    for setting, altitude in zip(chosen, _column(cruise, "altitude"), strict=True):
        altitudes.setdefault(setting, set()).add(altitude)
    return sum(len(altitudes[setting]) > 1 for setting in chosen)


# -- several tables --------------------------------------------------------------------------------


def told_apart(tables: Sequence[Cruise]) -> list[dict[str, str]]:
    """Return what tells each of several tables from the others; nothing of one that is alone.

    Its name, or else its weight, or else its page; or as many of these as it
    takes, each as a part of an identifier.
    """
    if len(tables) < 2:
        return [{} for _ in tables]
    known = [list(_parts(one)) for one in tables]
    return [dict(_shortest(parts, known)) for parts in known]


def _parts(cruise: Cruise) -> Iterator[tuple[str, str]]:
    if cruise.name and slug(cruise.name):
        yield "name", slug(cruise.name)
    if cruise.weight is not None:
        yield "weight", f"weight-{cruise.weight:g}"
    if cruise.page:
        yield "page", f"page-{slug(cruise.page)}"


def _shortest(
    parts: list[tuple[str, str]], known: list[list[tuple[str, str]]]
) -> list[tuple[str, str]]:
    """Return as many of a table's parts as no other table begins with."""
    for count in range(1, len(parts)):
        if sum(other[:count] == parts[:count] for other in known) == 1:
            return parts[:count]
    return parts


def alike(tables: Sequence[Cruise]) -> Iterator[Fault]:
    """Find tables that nothing tells from others, in whatever capitals: their files have names."""
    seen: list[dict[str, str]] = []
    for one, told in zip(tables, told_apart(tables), strict=True):
        parts = {name: value.casefold() for name, value in told.items()}
        if len(tables) > 1 and (not parts or parts in seen):
            said = "found a second cruise table like another, expected its own name, weight or page"
            yield Fault(one.place, said)
        seen.append(parts)


def laid_over(old: Sequence[Cruise], new: Sequence[Cruise]) -> list[Cruise]:
    """Return a supplement's tables in place of those of the same name and weight, or else of all.

    A table of a supplement that restates none of the manual's stands for the
    whole of what the manual says of cruise.
    """
    if not all(any(_restates(one, other) for other in old) for one in new):
        return [*new]
    return [*new, *(other for other in old if not any(_restates(one, other) for one in new))]


def _restates(new: Cruise, old: Cruise) -> bool:
    return new.name == old.name and new.weight in (None, old.weight)
