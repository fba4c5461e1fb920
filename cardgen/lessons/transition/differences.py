"""What to mind in a second aircraft: each rule a function by a name.

A difference tells of what a pilot of the first would do wrong in the second.
"""

import math
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from cardgen.document.record import Message, Quantity, Value
from cardgen.document.rounding import kept, rounded
from cardgen.document.transition import Told
from cardgen.lessons.curves import ALTERNATE
from cardgen.lessons.transition.facts import CLEAN, Facts, Speed, is_number, marking_named
from cardgen.units import convert


class Pair(NamedTuple):
    """The aircraft flown so far, and the next."""

    first: Facts
    second: Facts

    def in_second(self, one: Speed) -> float:
        """Return a speed of the first, as printed, in the second's unit."""
        return float(convert(one.value, one.quantity.unit, self.second.unit))


Found = tuple[float, Message]  # how much of it differs, and what is said
Find = Callable[[Pair], Iterable[Found]]
RULES: dict[str, tuple[float, Find]] = {}

_LEAST = 1.0  # of the indicator's unit: what is less nobody flies by
_PAINTED_NEAR = 1.1  # times a limit: paint that is further off is that of another
_APPROACH = 1.3  # times the stall: common practice, where no approach speed is given


def differs(name: str, weight: float) -> Callable[[Find], Find]:
    """Register a function that finds differences; what is said of one is ``next-`` and the name.

    Parameters
    ----------
    name : str
    weight : float
        What all of it counts: a tenth less of a limit, by a weight of 3, is told before two
        tenths more of a cruising speed by a weight of 1. What is misread or forgotten as a whole,
        such as a unit or a landing gear, has a weight that nothing else reaches.
    """

    def register(find: Find) -> Find:
        RULES[name] = weight, find
        return find

    return register


def told(pair: Pair) -> tuple[Told, ...]:
    """Return what the rules find, the most dangerous first."""
    found = [
        Told(name, said, round(weight * size, 6))
        for name, (weight, find) in RULES.items()
        for size, said in find(pair)
    ]
    return tuple(sorted(found, key=lambda one: -one.danger))


# -- what is misread, or forgotten


@differs("another-unit", 100.0)
def _another_unit(pair: Pair) -> Iterator[Found]:
    first, second = pair.first.unit, pair.second.unit
    if first != second:
        one = Quantity(100.0, first)
        other = Quantity(kept(float(convert(100.0, first, second))), second)
        yield 1.0, _said("another-unit", one=one, other=other)


@differs("gear-retracts", 90.0)
def _gear_retracts(pair: Pair) -> Iterator[Found]:
    if not pair.second.retracts or pair.first.retracts:
        return
    most = pair.second.speeds.get("VLO gear-down") or pair.second.speeds.get("VLO")
    most = most or pair.second.speeds.get("VLE")
    up = pair.second.speeds.get("VLO gear-up")
    if most is None:
        yield 1.0, _said("gear-retracts")
    elif up is None or up.quantity.value == most.quantity.value:
        yield 1.0, _said("gear-retracts-below", speed=most.quantity)
    else:
        yield 1.0, _said("gear-retracts-both", speed=most.quantity, up=up.quantity)


@differs("one-engine-out", 80.0)
def _one_engine_out(pair: Pair) -> Iterator[Found]:
    control = pair.second.speeds.get("VMC")
    if control is not None and "VMC" not in pair.first.speeds:
        yield 1.0, _said("one-engine-out", speed=control.quantity)


@differs("no-engine", 80.0)
def _no_engine(pair: Pair) -> Iterator[Found]:
    if pair.second.head.kind == "glider" != pair.first.head.kind:
        yield 1.0, _said("no-engine")


@differs("flaps-now", 30.0)
def _flaps_now(pair: Pair) -> Iterator[Found]:
    first, second = (len(one.basis.flaps) > 1 for one in pair)
    if second and not first:
        yield 1.0, _said("flaps-now", settings=_settings(pair.second))


@differs("mach-limit", 20.0)
def _mach_limit(pair: Pair) -> Iterator[Found]:
    mach = pair.second.mach
    if mach is not None and pair.first.mach is None:
        yield 1.0, _said("mach-limit", mach=mach)


# -- limits and stalls


_OWN_WORDS = ("VFE full", "VNE", "VNO", "VA", "VLE")  # of which an instructor says what it means


@differs("lower-limit", 4.0)
def _lower_limit(pair: Pair) -> Iterator[Found]:
    """Of one speed, such as that for flaps, only where it is lowered most; not what paint says."""
    most: dict[str, Found] = {}
    painted = {(speed, limit) for speed, limit, _ in _painted_above(pair)}
    for key, one, other in _both(pair):
        speed = key.split(" ")[0]
        less = _less(pair, one, other)
        if other.quantity.sense == "maximum" and less > 0 and (speed, other.value) not in painted:
            own = f"-{key.replace(' ', '-')}" if key in _OWN_WORDS else ""
            found = less / other.value, _compared(f"lower-limit{own}", other, less, pair)
            most[speed] = max(most.get(speed, found), found, key=_size)
    yield from most.values()


@differs("limit-now", 2.0)
def _limit_now(pair: Pair) -> Iterator[Found]:
    for name in ("VNO", "VA", "VRA", "VB"):
        here = pair.second.speeds.get(name)
        if here is not None and name not in pair.first.speeds:
            yield 0.1, _said("limit-now", name=here.name, speed=here.quantity)


@differs("higher-stall", 5.0)
def _higher_stall(pair: Pair) -> Iterator[Found]:
    one, other = pair.first.stall, pair.second.stall
    if one and other and (more := -_less(pair, one, other)) > 0:
        yield more / other.value, _compared("higher-stall", other, more, pair)
    one, other = (each.speeds.get(f"VS1 {CLEAN}") for each in pair)
    both = one is not pair.first.stall and other is not pair.second.stall
    if both and one and other and (more := -_less(pair, one, other)) > 0:
        yield 0.3 * more / other.value, _compared("higher-stall", other, more, pair)


@differs("higher-minimum", 3.0)
def _higher_minimum(pair: Pair) -> Iterator[Found]:
    for key, one, other in _both(pair):
        is_stall = key.startswith("VS")
        if is_stall or other.quantity.sense != "minimum":
            continue
        if (more := -_less(pair, one, other)) > 0:
            yield more / other.value, _compared("higher-minimum", other, more, pair)


@differs("paint-above-limit", 6.0)
def _paint_above_limit(pair: Pair) -> Iterator[Found]:
    """A bench card lowers a limit below what is painted on the dial."""
    for speed, limit, painted in _painted_above(pair):
        name, unit = Message(f"speed-{speed}"), pair.second.unit
        shown = Quantity(limit, unit, sense="maximum")
        said = _said("paint-above-limit", name=name, limit=shown, painted=Quantity(painted, unit))
        yield (painted - limit) / painted, said


def _painted_above(pair: Pair) -> Iterator[tuple[str, float, float]]:
    """Yield the limits of the second that its paint is above, as printed, and the paint.

    Whoever flies with such paint at the same speed already knows.
    """
    before, markings = (one.basis.markings for one in pair)
    known = {one.speed for one in before.tightened} if before else set()
    ends = [end for span in pair.second.arcs().values() for end in span if end is not None]
    for one in markings.tightened if markings else ():
        limit = rounded(one.at, "maximum")
        near = [end for end in ends if limit + _LEAST <= end <= _PAINTED_NEAR * limit]
        if near and one.speed not in known:
            yield one.speed, limit, kept(min(near))


@differs("indicator-off", 4.0)
def _indicator_off(pair: Pair) -> Iterator[Found]:
    bench = pair.second.basis.bench
    if bench is None or pair.first.basis.bench is not None:
        return
    shown, by = max(
        ((x, y - x) for x, y in zip(bench.x, bench.y, strict=True)), key=lambda one: abs(one[1])
    )
    if abs(by) >= _LEAST:
        name = "indicator-low" if by > 0 else "indicator-high"
        at, off = pair.second.speed(shown), pair.second.speed(abs(by))
        yield abs(by) / shown, _said(name, speed=at, by=off)


@differs("bench-gone", 4.0)
def _bench_gone(pair: Pair) -> Iterator[Found]:
    if pair.first.basis.bench is not None and pair.second.basis.bench is None:
        yield 0.005, _said("bench-gone")


@differs("other-correction", 4.0)
def _other_correction(pair: Pair) -> Iterator[Found]:
    """How far IAS is from CAS where it matters most: on the approach, flaps fully out."""
    stall = pair.second.stall
    if stall is None:
        return
    approach = pair.second.approach
    shown = approach.value if approach else _APPROACH * stall.value
    here = pair.second.error(shown, flaps=pair.second.basis.flaps[-1])
    at = float(convert(shown, pair.second.unit, pair.first.unit))
    there = float(
        convert(
            pair.first.error(at, flaps=pair.first.basis.flaps[-1]),
            pair.first.unit,
            pair.second.unit,
        )
    )
    if is_number(here) and is_number(there) and abs(here - there) >= 2 * _LEAST:
        speed, cas, before = map(pair.second.speed, (shown, shown + here, shown + there))
        said = _said("other-correction", speed=speed, cas=cas, before=before)
        yield abs(here - there) / shown, said


@differs("alternate-source", 2.0)
def _alternate_source(pair: Pair) -> Iterator[Found]:
    table, before = pair.second.alternate, pair.first.alternate
    if table is None:
        if before is not None:
            yield 0.01, _said("no-alternate-source")
        return
    ias = (table.x[0] + table.x[-1]) / 2
    shown = rounded(pair.second.chain.shown_at_ias(ias) / 10.0) * 10.0
    if not is_number(shown):
        return
    here = pair.second.error(shown, ALTERNATE, table.flaps)
    there = math.nan
    if before is not None:
        at = float(convert(shown, pair.second.unit, pair.first.unit))
        off = pair.first.error(at, ALTERNATE, before.flaps)
        there = float(convert(off, pair.first.unit, pair.second.unit))
    is_little = not abs(here) >= 2 * _LEAST
    if is_little or (is_number(there) and abs(here - there) < 2 * _LEAST):
        return
    name = "alternate-low" if here > 0 else "alternate-high"
    size = abs(here - (there if is_number(there) else 0.0)) / shown
    yield size, _said(name, speed=pair.second.speed(shown), by=pair.second.speed(abs(here)))


# -- how it is flown


@differs("slower-approach", 2.0)
def _slower_approach(pair: Pair) -> Iterator[Found]:
    one, other = pair.first.approach, pair.second.approach
    if one and other and (less := _less(pair, one, other)) > 0:
        yield less / other.value, _compared("slower-approach", other, less, pair)


@differs("other-glide", 2.0)
def _other_glide(pair: Pair) -> Iterator[Found]:
    one, other = (each.speeds.get("best glide") for each in pair)
    if one and other and abs(less := _less(pair, one, other)) > 0:
        name = "glide-slower" if less > 0 else "glide-faster"
        yield abs(less) / other.value, _compared(name, other, abs(less), pair)


@differs("worse-glide", 1.0)
def _worse_glide(pair: Pair) -> Iterator[Found]:
    one, other = (each.given("glide/ratio") for each in pair)
    if one and other and other.value < one.value:
        yield min(1.0, one.value / other.value - 1), _said("worse-glide", ratio=other, before=one)


@differs("lower-crosswind", 2.0)
def _lower_crosswind(pair: Pair) -> Iterator[Found]:
    one, other = (each.given("crosswind/demonstrated") for each in pair)
    if one is None or other is None:
        return
    before = float(convert(one.value, one.unit, other.unit))
    if other.value < before - 0.5:
        yield before / other.value - 1, _said("lower-crosswind", wind=other, before=one)


@differs("other-flaps", 1.0)
def _other_flaps(pair: Pair) -> Iterator[Found]:
    first, second = (one.basis.flaps for one in pair)
    if first != second and len(first) > 1 and len(second) > 1:
        yield (
            0.2,
            _said("other-flaps", settings=_settings(pair.second), before=_settings(pair.first)),
        )


@differs("no-flaps", 1.0)
def _no_flaps(pair: Pair) -> Iterator[Found]:
    if len(pair.first.basis.flaps) > 1 and len(pair.second.basis.flaps) == 1:
        yield 0.3, _said("no-flaps")


@differs("gear-fixed", 1.0)
def _gear_fixed(pair: Pair) -> Iterator[Found]:
    if pair.first.retracts and not pair.second.retracts:
        yield 0.2, _said("gear-fixed")


@differs("faster-cruise", 0.5)
def _faster_cruise(pair: Pair) -> Iterator[Found]:
    one, other = pair.first.cruise, pair.second.cruise
    if one is None or other is None:
        return
    more = other.value - pair.second.own(one)
    if more >= 5 * _LEAST:
        yield more / other.value, _said("faster-cruise", speed=other, by=pair.second.speed(more))


@differs("other-arcs", 0.5)
def _other_arcs(pair: Pair) -> Iterator[Found]:
    first, second = (one.arcs() for one in pair)
    for name in sorted(second.keys() - first.keys()) if first else ():
        yield 0.1, _said("arc-now", arc=marking_named(name))
    for name in sorted(first.keys() - second.keys()) if second else ():
        yield 0.1, _said("arc-gone", arc=marking_named(name))


# -- what the rules share


def _said(rule: str, /, **values: Value) -> Message:
    return Message(f"next-{rule}", values)


def _compared(name: str, other: Speed, by: float, pair: Pair) -> Message:
    return _said(name, name=other.name, speed=other.quantity, by=pair.second.speed(by))


def _size(one: Found) -> float:
    return one[0]


def _settings(facts: Facts) -> Value:
    return tuple(facts.basis.flaps)


def _both(pair: Pair) -> Iterator[tuple[str, Speed, Speed]]:
    """Yield the speeds that both have."""
    for key, other in pair.second.speeds.items():
        if key in pair.first.speeds:
            yield key, pair.first.speeds[key], other


def _less(pair: Pair, one: Speed, other: Speed) -> float:
    """Return how much less the second's is, as printed; nothing where nobody flies by that."""
    less = pair.in_second(one) - other.value
    return less if abs(less) >= _LEAST - 1e-9 else 0.0
