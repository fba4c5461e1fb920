"""Two documents side by side: what to mind, and every figure of both."""

from collections.abc import Iterator

from cardgen.document.record import Document, Message, Quantity, Unit
from cardgen.document.rounding import kept
from cardgen.document.transition import Beside, Flown, Line, Shown, Transition
from cardgen.lessons.curves import NORMAL
from cardgen.lessons.transition.differences import Pair, told
from cardgen.lessons.transition.facts import Facts, Speed, is_number, marking_named
from cardgen.units import UNITS, convert
from cardgen.words.numbers import number

_CORRECTED = (1.3, 1.6, 2.0, 2.5)  # times the stall: where corrections are held side by side


def transition(first: Document, second: Document) -> Transition:
    """Return what a pilot of one aircraft finds otherwise in another."""
    pair = Pair(Facts(first), Facts(second))
    tables = (_side_by_side(pair, name) for name in ("limits", "one-engine", "flown"))
    beside = (*tables, _dial(pair), _corrections(pair), _else(pair))
    return Transition(
        second.head.school,
        _flown(first),
        _flown(second),
        told(pair),
        tuple(one for one in beside if one.lines),
        cardgen=second.cardgen,
    )


def _flown(document: Document) -> Flown:
    head, mark = document.head, document.marks.card
    return Flown(head.registration, head.type, head.indicator_unit, head.manual, mark, head.remarks)


def _side_by_side(pair: Pair, block: str) -> Beside:
    """Return a block of the speeds of both: in the order of the second, then what it has not."""
    first, second = (
        {key: one for key, one in each.speeds.items() if one.block == block} for each in pair
    )
    keys = dict.fromkeys([*second, *first])
    lines = tuple(_speeds(pair, first.get(key), second.get(key)) for key in keys)
    return Beside(block, Message(f"block-{block}"), lines)


def _speeds(pair: Pair, one: Speed | None, other: Speed | None) -> Line:
    named = other or one
    assert named is not None
    name = named.name
    if one and other and one.name != other.name:
        name = Message("next-either", {"one": one.name, "other": other.name})
    more = None
    if one and other:
        more = pair.second.speed(other.value - pair.in_second(one))
    return _line(name, one.quantity if one else None, other.quantity if other else None, more)


def _line(name: Message, first: Shown, second: Shown, more: Quantity | None = None) -> Line:
    return Line(name, first, second, more, _printed(first) != _printed(second))


def _printed(shown: Shown) -> object:
    return (number(shown), shown.unit) if isinstance(shown, Quantity) else shown


def _dial(pair: Pair) -> Beside:
    """Return the arcs and lines of both."""
    first, second = (one.arcs() for one in pair)
    lines = [
        _line(Message("fact-reads"), _reads(pair.first), _reads(pair.second)),
        *(
            _line(
                marking_named(name),
                _span(pair.first, first.get(name)),
                _span(pair.second, second.get(name)),
            )
            for name in dict.fromkeys([*second, *first])
        ),
    ]
    return Beside("markings", Message("title-markings"), tuple(lines))


def _reads(facts: Facts) -> Message:
    return Message("unit", {"unit": Unit(facts.unit)})


def _span(facts: Facts, ends: tuple[float, float | None] | None) -> Shown:
    return None if ends is None else Quantity(kept(ends[0]), facts.unit, high=ends[1])


def _corrections(pair: Pair) -> Beside:
    """Return what to add for CAS at some speeds of the second, flaps in and fully out."""
    settings = (0, -1) if len(pair.second.basis.flaps) > 1 else (0,)
    lines = [
        line
        for at in settings
        for shown in _asked(pair.second)
        if (line := _corrected(pair, at, shown)) is not None
    ]
    return Beside("corrections", Message("next-corrections"), tuple(lines))


def _asked(facts: Facts) -> Iterator[float]:
    stall = facts.stall
    for times in _CORRECTED if stall else ():
        yield 5.0 * round(times * stall.value / 5.0) if stall else 0.0


def _corrected(pair: Pair, at: int, shown: float) -> Line | None:
    first, second = pair
    flaps = second.basis.flaps[at]
    here = second.error(shown, NORMAL, flaps)
    own = float(convert(shown, second.unit, first.unit))
    there = float(convert(first.error(own, NORMAL, first.basis.flaps[at]), first.unit, second.unit))
    if not is_number(here):
        return None
    setting = Message("flaps", {"flaps": flaps})
    name = Message("next-at", {"speed": second.speed(shown), "setting": setting})
    added = [second.speed(one, 1) if is_number(one) else None for one in (there, here)]
    more = second.speed(here - there, 1) if is_number(there) else None
    return _line(name, added[0], added[1], more)


def _else(pair: Pair) -> Beside:
    """Return what else is flown by: flaps, weight, cruise, glide, wind."""
    lines = [
        _line(Message("next-flaps"), _flaps(pair.first), _flaps(pair.second)),
        *(_figure(pair, Message(f"next-{name}"), *found) for name, *found in _figures(pair)),
    ]
    return Beside("else", Message("next-else"), tuple(lines))


def _flaps(facts: Facts) -> Message:
    return Message("several", {"parts": tuple(facts.basis.flaps)})


def _figures(pair: Pair) -> Iterator[tuple[str, Quantity | None, Quantity | None]]:
    for name, ask in (
        ("weight", lambda one: Quantity(one.basis.weights[0], one.head.units.weight)),
        ("cruise", lambda one: one.cruise),
        ("mach", lambda one: one.mach),
        ("glide", lambda one: one.given("glide/ratio")),
        ("crosswind", lambda one: one.given("crosswind/demonstrated")),
    ):
        first, second = (ask(one) for one in pair)
        if first is not None or second is not None:
            yield name, first, second


def _figure(pair: Pair, name: Message, first: Quantity | None, second: Quantity | None) -> Line:
    if first is None or second is None or not {first.unit, second.unit} <= UNITS.keys():
        return _line(name, first, second)
    more = second.value - float(convert(first.value, first.unit, second.unit))
    return _line(name, first, second, Quantity(kept(more), second.unit))
