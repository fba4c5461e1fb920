"""Which changes are for the worse: each rule a function by a name, the gravest first.

A change is for the worse where whoever flies by the new card is kept less far
from a limit, or from the stall, than by the old one.
"""

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from cardgen.document.comparison import Moved
from cardgen.document.record import Bound, Document, Quantity
from cardgen.units import UNITS, convert


class Changes(NamedTuple):
    """The cells that moved between two documents of an aircraft, and these."""

    cells: Sequence[Moved]
    before: Document
    after: Document


Find = Callable[[Changes], Iterable[Moved]]
RULES: dict[str, Find] = {}

_FIRST = ("VNE", "VMO", "MMO", "VNO", "VFE", "VLE", "VLO", "VA", "VO")  # as they are told
_LIMITS = ("speeds", "altitude-limits", "manoeuvring")  # tables of them
_STALL = ("VS0", "VS1")
_NOISE = 1e-6  # documents keep six decimals
_CONVERTED = 1e-5  # what of them is left where a number was in another unit


def worse(name: str) -> Callable[[Find], Find]:
    """Register a function that finds, among the cells that moved, those that did for the worse.

    What is said of them is the wording ``worse-`` and its name.
    """

    def register(find: Find) -> Find:
        RULES[name] = find
        return find

    return register


def judged(changes: Changes) -> list[Moved]:
    """Return the cells that moved, each with the first rule that finds it; the gravest first."""
    found: dict[tuple[str, bool], str] = {}
    for name, find in RULES.items():
        for one in find(changes):
            found.setdefault(_key(one), name)
    cells = [
        replace(one, worse=rule, grave=_grave(one, rule)) if rule else one
        for one in changes.cells
        for rule in [found.get(_key(one), "")]
    ]
    return sorted(cells, key=lambda one: (not one.worse, one.grave))


def _key(one: Moved) -> tuple[str, bool]:
    """Return what tells a cell from all others: one of its identifier may be gone, another new."""
    return one.id, one.before is None


def _grave(one: Moved, rule: str) -> int:
    """Return the place of a change for the worse: limits by speed, then what else, by rule."""
    limit = one.table == "speeds" and one.subject in _FIRST
    speed = _FIRST.index(one.subject) if limit else len(_FIRST)
    return speed * len(RULES) + list(RULES).index(rule)


# -- limits


@worse("raised-limit")
def _raised_limit(changes: Changes) -> Iterator[Moved]:
    for one in changes.cells:
        if one.table in _LIMITS and _sense(one) == "maximum" and _rise(one) > 0:
            yield one
    for old, new in _exchanged(changes, _level_and_case):
        if new.quantity in ("tas", "mach") and new.value > old.value:  # others have a number
            yield from _rows_of(changes, new)
    for one in changes.cells:
        if one.table == "weights" and _rise(one) > 0:
            yield one


@worse("later-altitude")
def _later_altitude(changes: Changes) -> Iterator[Moved]:
    for old, new in _exchanged(changes, _case):
        if (_level(new) or 0) > (_level(old) or 0):
            yield from _rows_of(changes, new)


@worse("limit-gone")
def _limit_gone(changes: Changes) -> Iterator[Moved]:
    """A limit of which none as strict holds in its case any more, or that limits nothing now."""
    return _bound_gone(changes, "maximum")


@worse("minimum-gone")
def _minimum_gone(changes: Changes) -> Iterator[Moved]:
    """A speed to keep above, likewise: a stall, an approach, a control speed."""
    return _bound_gone(changes, "minimum")


def _bound_gone(changes: Changes, sense: str) -> Iterator[Moved]:
    units = (changes.before.head.units.speed, changes.after.head.units.speed)
    gone = {
        old.speed
        for old in changes.before.basis.bounds
        if old.sense == sense
        and not any(_is_as_strict(new, old, units) for new in changes.after.basis.bounds)
    }
    rows = [one for one in changes.cells if one.table == "speeds" and one.before is not None]
    lost = [one for one in rows if one.after is None and one.subject in gone]
    numbers = {one.subject for one in lost if one.numbers[0] is not None}
    for one in lost:
        if one.numbers[0] is not None or (one.subject not in numbers and one.column == "when"):
            yield one
    was, now = (
        {(one.speed, one.sense) for one in document.basis.bounds}
        for document in (changes.before, changes.after)
    )
    turned = {speed for speed, kept in was - now if kept == sense}
    for one in rows:
        if one.after is not None and one.subject in turned and one.numbers == (None, None):
            yield one


@worse("limit-unknown")
def _limit_unknown(changes: Changes) -> Iterator[Moved]:
    """A limit, or a mark of one, of which the indicator's figure is not known any more."""
    for one in changes.cells:
        limit = one.table in (*_LIMITS, "markings") and _sense(one) in ("maximum", "minimum")
        if limit and one.after is not None and one.after.is_dash and one.numbers[0] is not None:
            yield one


@worse("marking-gone")
def _marking_gone(changes: Changes) -> Iterator[Moved]:
    markings = [table for table in changes.after.tables if table.id == "markings"]
    left = {row.id for table in markings for row in table.rows}
    for one in changes.cells:
        if one.table == "markings" and one.numbers[0] is not None and one.row not in left:
            yield one


@worse("crosswind-gone")
def _crosswind_gone(changes: Changes) -> Iterator[Moved]:
    if any(table.id == "crosswind-limit" for table in changes.after.tables):
        return
    for one in changes.cells:
        if one.table == "crosswind-limit" and one.before is not None:
            yield one


@worse("widened-arc")
def _widened_arc(changes: Changes) -> Iterator[Moved]:
    for one in changes.cells:
        if one.table == "markings" and _less_safe(one):
            yield one


# -- the slow end


@worse("lowered-stall")
def _lowered_stall(changes: Changes) -> Iterator[Moved]:
    for one in changes.cells:
        stall = one.table == "stall" or one.subject in _STALL
        if stall and _sense(one) == "minimum" and _rise(one) < 0:
            yield one


@worse("lowered-minimum")
def _lowered_minimum(changes: Changes) -> Iterator[Moved]:
    for one in changes.cells:
        if one.table in ("speeds", "approach") and _sense(one) == "minimum" and _rise(one) < 0:
            yield one


# -- the rest


@worse("bracket-gone")
def _bracket_gone(changes: Changes) -> Iterator[Moved]:
    for one in changes.cells:
        was, now = one.before, one.after
        if was and now and was.beyond and now.quantity and not now.beyond:
            yield one


@worse("larger-crosswind")
def _larger_crosswind(changes: Changes) -> Iterator[Moved]:
    for one in changes.cells:
        if one.table == "crosswind-limit" and _rise(one) > 0:
            yield one


# -- figures of a cell


def _sense(one: Moved) -> str:
    was, now = one.numbers
    quantity = now or was
    return quantity.sense if quantity else ""


def _less_safe(one: Moved) -> bool:
    rise = _rise(one)
    return rise < 0 if _sense(one) == "minimum" else rise > 0 and _sense(one) == "maximum"


def _rise(one: Moved) -> float:
    """Return by how much a cell's number rises, in its unit before; nothing where one has none."""
    old, new = one.numbers
    if old is None or new is None:
        return 0.0
    rises = (_in(old.unit, new, at) - at_old for at, at_old in _ends(old))
    most = max(rises, key=abs)
    return most if abs(most) > _CONVERTED else 0.0


def _ends(old: Quantity) -> Iterator[tuple[str, float]]:
    yield "value", old.value
    if old.high is not None:
        yield "high", old.high


def _in(unit: str, quantity: Quantity, end: str) -> float:
    value = quantity.high if end == "high" and quantity.high is not None else quantity.value
    if unit == quantity.unit or not {unit, quantity.unit} <= UNITS.keys():
        return value
    return float(convert(value, quantity.unit, unit))


# -- bounds


def _case(one: Bound) -> tuple[object, ...]:
    return one.speed, one.quantity, one.flaps, one.gear, one.weight


def _level(one: Bound) -> float | None:
    return one.altitude if one.from_altitude is None else one.from_altitude


def _is_as_strict(new: Bound, old: Bound, units: tuple[str, str]) -> bool:
    """Whether a bound holds wherever another did, and allows no more."""
    cases = ((new.flaps, old.flaps), (new.gear, old.gear), (new.when, old.when))
    if new.speed != old.speed or new.sense != old.sense or new.quantity != old.quantity:
        return False
    if any(here not in ("", there) for here, there in cases):
        return False
    if new.altitude not in (None, old.altitude) or (_from(new) > _from(old)):
        return False
    value = new.value if new.quantity == "mach" else float(convert(new.value, units[1], units[0]))
    more = value - old.value if new.sense == "maximum" else old.value - value
    return more <= _NOISE


def _from(one: Bound) -> float:
    return -math.inf if one.from_altitude is None else one.from_altitude


def _level_and_case(one: Bound) -> tuple[object, ...]:
    return *_case(one), one.altitude, one.from_altitude


def _exchanged(
    changes: Changes, case: Callable[[Bound], tuple[object, ...]]
) -> Iterator[tuple[Bound, Bound]]:
    """Yield the maxima that are another now for the same case, in order of altitude."""
    old, new = (_maxima(one, case) for one in (changes.before, changes.after))
    for at, bounds in old.items():
        gone = [one for one in bounds if one not in new.get(at, [])]
        come = [one for one in new.get(at, []) if one not in bounds]
        yield from zip(gone, come, strict=False)


def _maxima(
    document: Document, case: Callable[[Bound], tuple[object, ...]]
) -> dict[tuple[object, ...], list[Bound]]:
    found = defaultdict(list)
    for one in sorted(document.basis.bounds, key=lambda bound: _level(bound) or 0):
        if one.sense == "maximum":
            found[case(one)].append(one)
    return found


def _rows_of(changes: Changes, bound: Bound) -> Iterator[Moved]:
    """Yield what moved in what a speed is printed with: its figures, if new, and when it holds."""
    for one in changes.cells:
        row = one.table == "speeds" and one.subject == bound.speed and one.after is not None
        is_new = one.before is None and one.numbers[1] is not None
        if row and (is_new or one.column == "when"):
            yield one
