"""Copying slips by class, put among what was read of a type's file, as a copyist would make them.

A slip is one or more edits of parsed data: which key or number of what is given which value. It is
made, the checks are run, and it is taken back. `CLASSES` names the classes and what makes them.
"""

import itertools
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from cardgen.definition.places import Block, Figure, Rows, Span
from tests.sound.air import UNITS

from .tolerance import last_place, scatters, tolerance

ALIKE = {"1": "7", "7": "1", "5": "6", "6": "5", "3": "8", "8": "30", "0": "8"}
"""Which digits are misread for which: 1 and 7, 5 and 6, 3 and 8, 0 and 8."""
_WORDS = ("page", "flaps", "when", "name", "format", "manual", "accepted", "units", "weights")


class Edit(NamedTuple):
    """Where in parsed data another value stands."""

    holder: Any
    at: Any
    value: Any


class Slip(NamedTuple):
    """A slip: its edits, what it is in words, and whether it is more than rounding may be."""

    edits: tuple[Edit, ...]
    said: str
    beyond: bool = True


def made(slip: Slip) -> list[Edit]:
    """Make a slip, and return what takes it back."""
    back = [Edit(holder, at, holder[at]) for holder, at, _ in slip.edits]
    for holder, at, value in slip.edits:
        holder[at] = value
    return back


def take_back(edits: list[Edit]) -> None:
    for holder, at, value in edits:
        holder[at] = value


def spots(holder: Any) -> Iterator[tuple[Any, Any]]:
    """Yield where each figure stands that is no page, name, flap setting or weight limit."""
    for at, value in holder.items() if isinstance(holder, dict) else enumerate(holder):
        if at in _WORDS:
            continue
        if isinstance(value, Figure):
            if type(value) is Figure:  # ranges and times are read by rules of their own
                yield holder, at
        elif isinstance(value, dict | list):
            yield from spots(value)


def _instead(holder: Any, at: Any, text: str, scatter: dict[int, float]) -> Slip:
    """Return a slip by which a figure reads another text."""
    figure: Figure = holder[at]
    new = Figure(text, figure.place)
    beyond = abs(new - figure) > tolerance(holder, at, scatter)
    return Slip((Edit(holder, at, new),), f"{figure.text} as {text} at {figure.place.line}", beyond)


# -- figures ---------------------------------------------------------------------------------------


def wrong_digits(block: Block) -> Iterator[Slip]:
    """One digit another, or two neighbouring digits exchanged."""
    scatter = scatters(block)
    for holder, at in spots(block):
        text = holder[at].text
        for i, digit in enumerate(text):
            if not digit.isdigit():
                continue
            for other in "0123456789":
                if other != digit:
                    yield _instead(holder, at, text[:i] + other + text[i + 1 :], scatter)
            if text[i + 1 : i + 2].isdigit() and text[i + 1] != digit:
                yield _instead(holder, at, text[:i] + text[i + 1] + digit + text[i + 2 :], scatter)


def misread(block: Block) -> Iterator[Slip]:
    """A digit of a table or its axes taken for one that looks like it."""
    for part in tables(block):
        for holder, at in spots(part):
            text = holder[at].text
            for i, digit in enumerate(text):
                for other in ALIKE.get(digit, ""):
                    yield _instead(holder, at, text[:i] + other + text[i + 1 :], {})


def tables(block: Block) -> Iterator[Any]:
    for key in ("calibration", "altimeter correction", "stall", "cruise", "polar"):
        yield from listed(block, key)


def listed(block: Block, key: str) -> list[Any]:
    found = block.get(key, [])
    return found if isinstance(found, list) else [found]


# -- rows and columns ------------------------------------------------------------------------------


def columns_exchanged(block: Block) -> Iterator[Slip]:
    """The figures of two columns, or of two rows of a table that lies on its side."""
    for table in listed(block, "cruise"):
        for a, b in itertools.combinations(range(len(table["columns"])), 2):
            edits = tuple(
                Edit(row, at, row[other]) for row in table["rows"] for at, other in ((a, b), (b, a))
            )
            names = f"{table['columns'][a]} and {table['columns'][b]} of {table.place.line}"
            if any(row[a] != row[b] for row in table["rows"]):
                yield Slip(edits, names)
    for table in (*listed(block, "calibration"), *listed(block, "polar"), *_stall_rows(block)):
        given = [key for key, value in table.items() if isinstance(value, list) and key != "flaps"]
        for a, b in itertools.combinations(given, 2):
            if list(table[a]) != list(table[b]):
                edits = (Edit(table, a, table[b]), Edit(table, b, table[a]))
                yield Slip(edits, f"{a} and {b} of {table.place.line}")
    for entries in block["speeds"].values():
        for entry in entries if isinstance(entries, list) else [entries]:
            if {"ias", "cas"} <= entry.keys() and entry["ias"] != entry["cas"]:
                edits = (Edit(entry, "ias", entry["cas"]), Edit(entry, "cas", entry["ias"]))
                beyond = abs(entry["ias"] - entry["cas"]) > 1
                yield Slip(edits, f"ias and cas of {entry.place.line}", beyond)
    every = [
        entry
        for entries in block["speeds"].values()
        for entry in (entries if isinstance(entries, list) else [entries])
        if {"ias", "cas"} <= entry.keys()
    ]
    if every:
        yield Slip(
            tuple(
                Edit(entry, at, entry[other])
                for entry in every
                for at, other in (("ias", "cas"), ("cas", "ias"))
            ),
            "ias and cas of all speeds",
        )


def _stall_rows(block: Block) -> list[Any]:
    return list(block["stall"]["rows"]) if "stall" in block else []


def _results(table: Any) -> list[int]:
    """Return the places of the columns that are read, not entered with."""
    entered = {"altitude", "isa", "oat", "rpm", "manifold pressure", "torque", "N1"}
    entered |= set(map(str, table.get("settings", [])))
    entered -= set(map(str, table.get("results", [])))
    return [n for n, name in enumerate(table["columns"]) if name not in entered]


def _replaced(table: Any, n: int, new: list[Any]) -> list[Edit]:
    rows = table["rows"]
    return [Edit(rows[n], at, new[at]) for at in _results(table) if rows[n][at] != new[at]]


def rows_exchanged(block: Block) -> Iterator[Slip]:
    """The results of two neighbouring rows, or the figures of two cases of one speed."""
    for table in listed(block, "cruise"):
        rows = table["rows"]
        for n in range(len(rows) - 1):
            old = [list(rows[n]), list(rows[n + 1])]
            edits = _replaced(table, n, old[1]) + _replaced(table, n + 1, old[0])
            if edits:
                yield Slip(tuple(edits), f"rows {n} and {n + 1} of {table.place.line}",
                           _differ(old[0], old[1], _results(table)))  # fmt: skip
    groups = [*block["speeds"].values(), *block.get("other speeds", {}).values()]
    for entries in [*groups, _stall_rows(block)]:
        for a, b in itertools.pairwise(entries if isinstance(entries, list) else []):
            keys = [key for key in ("ias", "cas") if key in a and key in b and a[key] != b[key]]
            if keys:
                edits = tuple(
                    edit for key in keys for edit in (Edit(a, key, b[key]), Edit(b, key, a[key]))
                )
                yield Slip(edits, f"cases at {a.place.line} and {b.place.line}")
    for table in listed(block, "calibration"):
        for key, figures in table.items():
            if not isinstance(figures, list) or key == "flaps":
                continue
            for n, (a, b) in enumerate(itertools.pairwise(figures)):
                if a != b:
                    edits = (Edit(figures, n, b), Edit(figures, n + 1, a))
                    near = key.startswith(("add", "subtract")) and abs(a - b) <= 1
                    yield Slip(edits, f"{a.text} and {b.text} at {a.place.line}", not near)


def _differ(a: list[Any], b: list[Any], at: list[int]) -> bool:
    """Whether two rows differ in some figure by more than one in its last place."""
    return any(
        (a[n] is None) != (b[n] is None)
        or not isinstance(a[n], Figure)
        or not isinstance(b[n], Figure)
        or abs(a[n] - b[n]) > 1.001 * last_place(a[n].text)
        for n in at
    )


def shifted(block: Block) -> Iterator[Slip]:
    """A column moved up or down by one row, its end doubled; a row moved by one place."""
    for table in listed(block, "cruise"):
        rows = table["rows"]
        for at in range(len(table["columns"])):
            column = [row[at] for row in rows]
            for way, new in (
                ("down", [column[0], *column[:-1]]),
                ("up", [*column[1:], column[-1]]),
            ):
                edits = tuple(
                    Edit(row, at, one) for row, old, one in zip(rows, column, new, strict=True)
                    if old != one
                )  # fmt: skip
                beyond = any(_differ([a], [b], [0]) for a, b in zip(column, new, strict=True))
                if edits:
                    said = f"{table['columns'][at]} {way} of {table.place.line}"
                    yield Slip(edits, said, beyond)
        for n, row in enumerate(rows):
            for new in ([row[0], *row[:-1]], [*row[1:], row[-1]]):
                edits = tuple(Edit(row, at, one) for at, one in enumerate(new) if row[at] != one)
                yield Slip(edits, f"row {n} of {table.place.line}")
    lying = (*listed(block, "calibration"), *listed(block, "polar"), *_stall_rows(block))
    for table in lying:
        for key, figures in table.items():
            if isinstance(figures, list) and key != "flaps" and len(figures) > 1:
                for way, new in (
                    ("right", [figures[0], *figures[:-1]]),
                    ("left", [*figures[1:], figures[-1]]),
                ):
                    edits = tuple(
                        Edit(figures, n, one) for n, one in enumerate(new) if figures[n] != one
                    )
                    beyond = any(abs(one - figures[n]) > 1 for n, one in enumerate(new))
                    if edits:
                        yield Slip(edits, f"{key} {way} of {table.place.line}", beyond)


def rows_left_out(block: Block) -> Iterator[Slip]:
    """A row of a grid: a cruise table of two axes or more, or of one whose steps are even.

    Only a row without which there is a hole. Whose altitude or setting no other row has leaves a
    smaller grid, as the end of an even row leaves a shorter one; and a row of n/a says nothing.
    """
    for table in listed(block, "cruise"):
        for n in range(len(table["rows"])):
            if _leaves_a_hole(table, n):
                yield Slip((Edit(table, "rows", _without(table["rows"], n)),),
                           f"row {n} of {table.place.line}")  # fmt: skip


def _leaves_a_hole(table: Any, n: int) -> bool:
    rows, results = table["rows"], _results(table)
    if not any(isinstance(rows[n][at], Figure) for at in results):
        return False
    entered = [at for at in range(len(table["columns"])) if at not in results]
    axes = [at for at in entered if len({row[at] for row in rows}) > 1]
    if len(axes) == 1:
        figures = sorted({float(row[axes[0]]) for row in rows})
        steps = {round(b - a, 6) for a, b in itertools.pairwise(figures)}
        return len(steps) == 1 and rows[n][axes[0]] not in (figures[0], figures[-1])
    recur = [at for at in axes if table["columns"][at] != "oat"]  # which may go with altitude
    return all(sum(row[at] == rows[n][at] for row in rows) > 1 for at in recur)


def _without(rows: Rows, n: int) -> Rows:
    new = Rows(rows.place)
    new.extend(row for m, row in enumerate(rows) if m != n)
    new.items_at = [place for m, place in enumerate(rows.items_at) if m != n]
    return new


def rows_doubled(block: Block) -> Iterator[Slip]:
    """A row of a cruise table typed twice, or its results again in the row below."""
    for table in listed(block, "cruise"):
        rows = table["rows"]
        for n in range(len(rows)):
            new = Rows(rows.place)
            new.extend([*rows[: n + 1], *rows[n:]])
            new.items_at = [*rows.items_at[: n + 1], *rows.items_at[n:]]
            yield Slip((Edit(table, "rows", new),), f"row {n} of {table.place.line} twice")
            if n:
                edits = tuple(_replaced(table, n, list(rows[n - 1])))
                if edits:
                    beyond = _differ(rows[n], rows[n - 1], _results(table))
                    yield Slip(edits, f"row {n} of {table.place.line} as the one above", beyond)


def of_another_case(block: Block) -> Iterator[Slip]:
    """A figure of another setting, weight or altitude: a neighbour's in its stead."""
    for table in listed(block, "cruise"):
        rows = table["rows"]
        results = _results(table)
        axes = [n for n in range(len(table["columns"])) if n not in results]
        for a, b in itertools.permutations(range(len(rows)), 2):
            apart = [n for n in axes if rows[a][n] != rows[b][n]]
            if len(apart) != 1 or not _are_next(rows, a, b, apart[0]):
                continue
            for at in results:
                if rows[a][at] != rows[b][at] and isinstance(rows[b][at], Figure):
                    beyond = _differ(rows[a], rows[b], [at])
                    said = f"{rows[a][at]} as {rows[b][at]}, {table['columns'][at]} of another row"
                    yield Slip((Edit(rows[a], at, rows[b][at]),), said, beyond)
    groups = [*block["speeds"].values(), *block.get("other speeds", {}).values()]
    for entries in [*groups, _stall_rows(block)]:
        for a, b in itertools.permutations(entries if isinstance(entries, list) else [], 2):
            for key in ("ias", "cas"):
                if key in a and key in b and a[key] != b[key]:
                    yield Slip((Edit(a, key, b[key]),), f"{key} of the case at {b.place.line}")


def _are_next(rows: Any, a: int, b: int, axis: int) -> bool:
    """Whether no other row's figure lies between those of two rows."""
    low, high = sorted((rows[a][axis], rows[b][axis]))
    return not any(low < row[axis] < high for row in rows)


# -- units -----------------------------------------------------------------------------------------


def _in_unit(figure: Figure, factor: float) -> Figure:
    places = len(figure.text.partition(".")[2])
    return Figure(f"{figure * factor:.{places}f}", figure.place)


_SPEEDS = ("kt", "mph", "km/h")


def one_speed_in_another_unit(block: Block) -> Iterator[Slip]:
    """An airspeed's IAS, its CAS, or both, in another unit."""
    unit = block["units"]["speed"]
    for other in _SPEEDS:
        factor = UNITS[unit] / UNITS[other]
        if other == unit:
            continue
        for entries in block["speeds"].values():
            for entry in entries if isinstance(entries, list) else [entries]:
                keys = [key for key in ("ias", "cas") if isinstance(entry.get(key), Figure)
                        and not isinstance(entry[key], Span)]  # fmt: skip
                for some in {(key,) for key in keys} | ({tuple(keys)} if keys else set()):
                    edits = tuple(Edit(entry, key, _in_unit(entry[key], factor)) for key in some)
                    yield Slip(edits, f"{some} at {entry.place.line} in {other}")


def tables_in_another_unit(block: Block) -> Iterator[Slip]:
    """The figures of a whole table in another unit of speed."""
    unit = block["units"]["speed"]
    for other in _SPEEDS:
        factor = UNITS[unit] / UNITS[other]
        if other == unit:
            continue
        for table in listed(block, "cruise"):
            at = table["columns"].index("tas")
            if "tas unit" not in table:
                edits = tuple(
                    Edit(row, at, _in_unit(row[at], factor))
                    for row in table["rows"]
                    if isinstance(row[at], Figure)
                )
                yield Slip(edits, f"TAS of {table.place.line} in {other}")
        for table in (*listed(block, "calibration"), *listed(block, "polar"), *_stall_rows(block)):
            edits = tuple(
                Edit(figures, n, _in_unit(one, factor))
                for key, figures in table.items()
                if isinstance(figures, list) and key not in ("flaps", "sink", "bank")
                for n, one in enumerate(figures)
            )
            yield Slip(edits, f"{table.place.line} in {other}")


DECLARED = {
    "speed": _SPEEDS,
    "altitude": ("ft", "m"),
    "weight": ("lb", "kg"),
    "temperature": ("C", "F"),
    "fuel flow": ("gal/h", "L/h", "lb/h", "kg/h"),
    "distance": ("nm", "km", "mi"),
    "sink": ("m/s", "kt", "ft/min"),
}


def declared_units(block: Block) -> Iterator[Slip]:
    """A unit that is declared wrong, of a quantity that the file has figures of."""
    units = block["units"]
    for key, names in DECLARED.items():
        for other in names:
            if other != units.get(key, other) and _is_used(block, key):
                yield Slip((Edit(units, key, other),), f"{key} declared {other}")


def _is_used(block: Block, key: str) -> bool:
    tables_ = listed(block, "cruise")
    columns = {str(name) for table in tables_ for name in table["columns"]}
    glides = listed(block, "glide")
    if key == "temperature":
        return "oat" in columns
    if key == "altitude":
        text = [entry for entries in block["speeds"].values()
                for entry in (entries if isinstance(entries, list) else [entries])]  # fmt: skip
        return bool(tables_) or any("altitude" in one or "from altitude" in one for one in text)
    if key == "distance":
        return "range" in columns or any("distance" in one for one in glides)
    if key == "sink":
        return "polar" in block or any("sink" in one for one in glides)
    return True


def direction_turned(block: Block) -> Iterator[Slip]:
    """All corrections of a table to be subtracted that are to be added, or the other way."""
    for table in (*listed(block, "calibration"), *listed(block, "altimeter correction")):
        for key, figures in table.items():
            if key.startswith(("add to", "subtract from")) and any(figures):
                new = [turned(figure) for figure in figures]
                yield Slip((Edit(table, key, new),), f"{key} of {table.place.line} turned")


def turned(figure: Figure) -> Figure:
    """Return a figure with the other sign."""
    bare = figure.text.lstrip("+-")
    return Figure(bare if figure < 0 else f"-{bare}", figure.place)


CLASSES: dict[str, Callable[[Block], Iterator[Slip]]] = {
    "wrong digits": wrong_digits,
    "misread": misread,
    "columns exchanged": columns_exchanged,
    "rows exchanged": rows_exchanged,
    "shifted by one": shifted,
    "row left out": rows_left_out,
    "row doubled": rows_doubled,
    "of another case": of_another_case,
    "one speed in another unit": one_speed_in_another_unit,
    "table in another unit": tables_in_another_unit,
    "declared unit": declared_units,
}
