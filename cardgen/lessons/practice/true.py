"""From calibrated to true airspeed and back: by table, by factor, by the rule of thumb."""

import math
from typing import NamedTuple

from cardgen.document.practice import Answer, Question, Worked
from cardgen.document.record import Block, Cell, Column, Message, Quantity, Row, Table, Value
from cardgen.document.rounding import kept, rounded
from cardgen.lessons.practice import flying
from cardgen.lessons.practice.kinds import (
    Draw,
    LackingError,
    Wrong,
    chosen,
    is_plain,
    is_settled,
    kind,
    numbered,
    step,
    steps,
)
from cardgen.lessons.reckoning import Case

_PER_CENT = 0.02  # for each 1,000 ft: FAA-H-8083-25B, chapter 8, true airspeed
_AIR = {"oat", "isa"}  # what a column of air may be headed by


class Flown(NamedTuple):
    """An indication in some air, and what it comes to; speeds in the indicator's unit."""

    flaps: str
    shown: float
    altitude: float
    oat: float
    cas: float
    tas: float
    factor: float
    worked: list[Worked]

    @property
    def asked(self) -> dict[str, str | float]:
        """What it was drawn of."""
        return {
            "shown": self.shown,
            "flaps": self.flaps,
            "altitude": self.altitude,
            "oat": self.oat,
        }


def _flown(draw: Draw) -> Flown | None:
    """Return a case that is flown with flaps retracted."""
    table = draw.chain.table("")
    if table is None:
        raise LackingError("calibration")
    shown, (altitude, oat) = flying.pointer(draw, table, cruising=True), flying.air(draw)
    if math.isnan(shown):
        return None
    case = Case("ias", shown, table.flaps, pressure_altitude=altitude, oat=oat)
    done = draw.reckon(case)
    cas, tas = done.values["calibrated_airspeed"], done.values["true_airspeed"]
    if cas is None or tas is None or any(one.binding for one in done.passed):
        return None
    worked = steps(done, "indicated", "instrument", "position", "cas")
    by = flying.factor(draw, altitude, oat)
    return Flown(table.flaps, shown, altitude, oat, cas, tas, by, worked)


def _given(draw: Draw, one: Flown) -> dict[str, Value]:
    return {
        "speed": draw.speed(one.shown),
        "altitude": draw.altitude(one.altitude),
        "oat": draw.warmth(one.oat),
    }


@kind("true-by-factor")
def _by_factor(draw: Draw) -> Question | None:
    one = _flown(draw)
    if one is None:
        return None
    at_standard = flying.factor(draw, one.altitude, flying.standard(draw, one.altitude))
    by = rounded(one.factor, decimals=3)
    ways = (one.cas * one.factor, rounded(one.cas) * by, rounded(one.cas, decimals=1) * by)
    worked = [
        *one.worked,
        step("factor", Quantity(kept(one.factor), decimals=3), "factor"),
        step("true", draw.speed(one.tas, 1), "times"),
    ]
    return numbered(
        "true-by-factor",
        _given(draw, one),
        Answer(one.tas, draw.unit, ways=ways),
        [
            ("as-cas", one.shown * one.factor),
            ("no-temperature", one.cas * at_standard),
            ("divided", one.cas / one.factor),
            ("no-density", one.cas),
            ("backwards", (2 * one.shown - one.cas) * one.factor),
        ],
        worked,
        case=one.asked,
    )


@kind("to-indicate")
def _to_indicate(draw: Draw) -> Question | None:
    here = _flown(draw)
    if here is None:
        return None
    tas = rounded(here.tas)
    case = Case("tas", tas, here.flaps, pressure_altitude=here.altitude, oat=here.oat)
    done = draw.reckon(case)
    shown, cas = done.values["indicated_airspeed"], done.values["calibrated_airspeed"]
    if shown is None or cas is None:
        return None

    def pointer(cas: float) -> float:
        return draw.chain.shown_at_cas(draw.chain.manual(cas), here.flaps)

    at_standard = flying.factor(draw, here.altitude, flying.standard(draw, here.altitude))
    worked = [
        step("wanted", draw.speed(tas)),
        step("factor", Quantity(kept(here.factor), decimals=3), "factor"),
        step("cas-wanted", draw.speed(cas, 1), "divided"),
        *steps(done, "position", "instrument"),
        step("to-fly", draw.speed(shown, 1), "back"),
    ]
    by = rounded(here.factor, decimals=3)
    return numbered(
        "to-indicate",
        {**_given(draw, here), "speed": draw.speed(tas)},
        Answer(shown, draw.unit, ways=(pointer(rounded(tas / by)), pointer(tas / here.factor))),
        [
            ("cas-flown", cas),
            ("no-temperature", pointer(tas / at_standard)),
            ("multiplied", pointer(tas * here.factor)),
            ("no-density", pointer(tas)),
            ("backwards", 2 * cas - shown),
        ],
        worked,
        case={"tas": tas, **here.asked},
    )


@kind("rule-of-thumb")
def _rule_of_thumb(draw: Draw) -> Question | None:
    one = _flown(draw)
    if one is None:
        return None
    more = 1 + _PER_CENT * flying.thousands(draw, one.altitude)
    rule = one.cas * more
    exact = Answer(one.tas, draw.unit, ways=(rounded(one.cas) * one.factor,))
    by_rule = Answer(rule, draw.unit, ways=(rounded(one.cas) * more,))
    off = Answer(rule - one.tas, draw.unit, ways=(rounded(rule) - rounded(one.tas),))
    if not all(map(is_settled, (exact, by_rule, off))) or abs(off.value) < 0.5:
        return None
    standard = flying.standard(draw, one.altitude)
    cold = draw.reckon(
        Case("ias", one.shown, one.flaps, pressure_altitude=one.altitude, oat=standard)
    ).values["true_airspeed"]
    wrong = [
        ("sign", rule, -off.value),
        ("as-cas", one.shown * more, one.shown * more - one.tas),
        ("no-temperature", rule, rule - (cold or math.nan)),
        ("less", one.cas * (2 - more), one.cas * (2 - more) - one.tas),
    ]
    worked = [
        *one.worked,
        step("rule", draw.speed(rule, 1), "rule", thousands=_thousands(draw, one.altitude)),
        step("factor", Quantity(kept(one.factor), decimals=3), "factor"),
        step("true", draw.speed(one.tas, 1), "times"),
        step("off", draw.speed(off.value, 1), "off", "signed"),
    ]
    return chosen(
        "rule-of-thumb",
        _given(draw, one),
        (_order(rule, off.value), _pair(draw, rule, off.value)),
        [
            Wrong(name, _order(value, by), _pair(draw, value, by))
            for name, value, by in wrong
            if is_plain(value, by_rule) and is_plain(by, off)
        ],
        worked,
        off,
        case=one.asked,
    )


def _order(rule: float, off: float) -> float:
    return rule + off / 1000.0


def _thousands(draw: Draw, altitude: float) -> Quantity:
    feet = flying.thousands(draw, altitude)
    return Quantity(kept(feet), decimals=1 if draw.manual.altitude == "ft" else 2)


def _pair(draw: Draw, rule: float, off: float) -> Message:
    by = rounded(off)
    name = "practice-rule-" + ("high" if by > 0 else "low" if by < 0 else "right")
    return Message(name, {"rule": draw.speed(rounded(rule)), "off": draw.speed(abs(by))})


class Place(NamedTuple):
    """A cell of a table of air."""

    block: Block
    row: Row
    column: Column
    cell: Cell
    at: tuple[int, int]


def _cells(table: Table) -> list[Place]:
    return [
        Place(block, row, column, cell, (n, k))
        for block in table.blocks
        for n, row in enumerate(block.rows)
        for k, (column, cell) in enumerate(zip(table.columns, row.cells, strict=True))
        if k >= table.stub and cell.quantity is not None and not cell.beyond
    ]


@kind("true-by-table")
def _by_table(draw: Draw) -> Question | None:
    table = draw.document.table("true-airspeed")
    if table is None:
        raise LackingError("table")
    place = draw.one(_cells(table), "table")
    tas = place.cell.quantity
    inputs = _inputs(place)
    shown = _shown(place.block)
    if (
        tas is None
        or not _AIR & inputs.keys()
        or "pressure-altitude" not in inputs
        or shown is None
    ):
        return None
    air: dict[str, Value] = {"altitude": inputs["pressure-altitude"], "air": _air(inputs)}
    wrong = [
        ("row-below", _value(place, 1, 0)),
        ("row-above", _value(place, -1, 0)),
        ("column-right", _value(place, 0, 1)),
        ("column-left", _value(place, 0, -1)),
    ]
    draw.chance.shuffle(wrong)
    worked = [
        step("block", Quantity(shown.value, draw.unit)),
        step("row", inputs["pressure-altitude"]),
        step("true", tas, "under", air=_air(inputs)),
    ]
    return numbered(
        "true-by-table",
        {"speed": Quantity(shown.value, draw.unit), **air},
        Answer(tas.value, tas.unit),
        [*wrong[:2], ("as-tas", shown.value), *wrong[2:]],
        worked,
        case={"shown": shown.value, "row": place.row.id, "column": place.column.id},
    )


def _shown(block: Block) -> Quantity | None:
    value = block.heading.values.get("shown") if block.heading else None
    return value if isinstance(value, Quantity) else None


def _inputs(place: Place) -> dict[str, Quantity]:
    """Return what a cell of a table was computed of."""
    origin = place.cell.origin
    inputs = getattr(origin, "inputs", ())
    return {one.name: one.value for one in inputs if isinstance(one.value, Quantity)}


def _air(inputs: dict[str, Quantity]) -> Message:
    if "oat" in inputs:
        return Message("practice-oat", {"oat": inputs["oat"]})
    off = inputs["isa"]
    return Message("practice-isa", {"isa": off})


def _value(place: Place, down: int, right: int) -> float:
    row, column = place.at[0] + down, place.at[1] + right
    if not (0 <= row < len(place.block.rows) and 1 <= column < len(place.row.cells)):
        return math.nan
    quantity = place.block.rows[row].cells[column].quantity
    return math.nan if quantity is None else quantity.value
