"""How it works: from what moves the pointer to the speed over the ground, with own figures.

Each lesson has a drawing, which is printed as it stands where its sliders do at first.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from cardgen.air import airspeed
from cardgen.air.bounds import OutOfBoundsError
from cardgen.document.once import Once, Same
from cardgen.document.record import Document, ErrorCurve, Gap, Message, Quantity, Unit, Value
from cardgen.document.rounding import kept, rounded
from cardgen.document.teaching import Cells, Figures, Lesson, Link, Slider, Teaching
from cardgen.lessons.curves import ALTERNATE, NORMAL
from cardgen.lessons.reckoning import Case, reckon
from cardgen.lessons.teaching.told import (
    COURSE,
    NOTHING,
    at,
    by_a_hectopascal,
    direction,
    setting,
    shown_blocked,
    tas_line,
    told,
)
from cardgen.units import convert, to_si

OWN = (
    "VY",
    "best glide",
    "VREF",
    "VA",
    "VO",
)  # the speed that a page begins with: the first it has
_FROM = 300.0  # deg, the wind
_WARMER = {"C": 10.0, "F": 20.0}  # than standard, where the sliders stand first
_STRONGEST = 0.4  # wind to TAS
_SLOWER = 0.6  # what a blocked source leaves of CAS, where its slider stands first


def teaching(document: Document) -> Teaching:
    """Return what is taught of an aircraft, lesson by lesson; a gap where a figure is missing.

    Sisters, who have the very same figures, have it from one another.
    """
    head = document.head
    tables = (Same(document.table(name)) for name in ("speeds", "markings", "altitude-limits"))
    of_what = *tables, head.indicator_unit, head.units
    return _known.of(document.basis, lambda: _teaching(document), *of_what)


_known = Once[Teaching]()


def _teaching(document: Document) -> Teaching:
    lessons, gaps = [], []
    start = _start(document)
    for name, make in _LESSONS.items():
        lesson = _made(make, document, start)
        if lesson is None:
            missing = Message(f"teach-missing-{name}")
            gaps.append(Gap(name, Message(f"teach-title-{name}"), missing))
        else:
            lessons.append(lesson)
    own, way = (_own(document, start), _way(document, start)) if start else (None, ())
    return Teaching(own or Message("teach-own-none"), tuple(way), tuple(lessons), tuple(gaps))


# -- the case that a page begins with ------------------------------------------------------------


def _start(document: Document) -> Case | None:
    """Return a case of the aircraft's own speed, half way up, in air warmer than standard, in wind.

    None where it has no such speed that means a TAS.
    """
    low, high = _levels(document)
    step = _step(document)
    for ias in (speed for _, speed in _speeds(document)):
        middle = step * round((low + high) / 2 / step)
        case = at(document, "ias", ias, middle, _WARMER[document.head.units.temperature])
        tas = reckon(document, case).values["true_airspeed"]
        if tas is not None:
            wind = 5.0 * math.ceil(_strongest(document, tas) / 7.5)
            return replace(case, wind=(_FROM, wind), course=COURSE)
    return None


def _speeds(document: Document) -> Iterator[tuple[Message | str, float]]:
    """Yield its own speeds as the card prints them, by name; then the middle of the green arc."""
    table = document.table("speeds")
    rows = [row for block in table.blocks for row in block.rows] if table else []
    for name in OWN:
        for row in rows:
            quantity = row.cells[1].quantity
            if row.subject == name and quantity is not None and quantity.high is None:
                is_exact = bool(quantity.entered)
                shown = quantity.value if is_exact else rounded(quantity.value, quantity.sense)
                yield row.cells[0].said or name, shown
    markings = document.basis.markings
    for arc in markings.arcs if markings else ():
        if arc.name == "green":
            yield Message("teach-middle"), 5.0 * round((arc.low + arc.high) / 10)


def _own(document: Document, start: Case) -> Message:
    name = next(said for said, ias in _speeds(document) if ias == start.speed)
    units = document.head.units
    return Message(
        "teach-own",
        {
            "speed": name,
            "ias": Quantity(kept(start.speed), document.head.indicator_unit),
            "altitude": Quantity(start.pressure_altitude or 0.0, units.altitude),
            "isa": _isa_by(start.isa or 0.0, units.temperature),
            "from": direction((start.wind or (0.0, 0.0))[0]),
            "wind": Quantity((start.wind or (0.0, 0.0))[1], "kt"),
            "course": direction(COURSE),
        },
    )


def _way(document: Document, start: Case) -> Iterator[Link]:
    """Yield the figures from the pointer to the ground."""
    done, unit = reckon(document, start), document.head.indicator_unit
    steps = {step.id: step for step in done.steps}
    ways = {"instrument", "position", "compressibility", "density"}
    if document.basis.bench is None:
        del steps["instrument"]
    for name in ("indicated", "instrument", "position", "cas", "compressibility", "eas", "density"):
        if name in steps and (quantity := steps[name].quantity) is not None:
            if name in ways:
                yield Link(Message(f"reckon-way-{name}"), quantity, name)
            else:
                yield Link(
                    Message(f"term-{'IAS' if name == 'indicated' else name.upper()}"), quantity
                )
    tas, ground = done.values["true_airspeed"], done.values["ground_speed"]
    if tas is not None:
        yield Link(Message("term-TAS"), Quantity(kept(tas), unit, decimals=1))
    if tas is not None and ground is not None:
        added = Quantity(kept(ground - tas), unit, decimals=1)
        yield Link(Message("reckon-way-wind"), added, "wind")
        yield Link(Message("term-GS"), Quantity(kept(ground), unit, decimals=1))


# -- the lessons ---------------------------------------------------------------------------------

Make = Callable[[Document, Case | None], Lesson | None]


def _made(make: Make, document: Document, start: Case | None) -> Lesson | None:
    try:
        return make(document, start)
    except OutOfBoundsError:
        return None


def _pressure(document: Document, start: Case | None) -> Lesson | None:
    cas = _cas(document, start)
    if start is None or cas is None:
        return None
    slow, fast = _ends(document)
    low, high = _levels(document)
    unit, altitude = document.head.indicator_unit, document.head.units.altitude
    sliders = (
        Slider("cas", slow, fast, 1.0, min(max(_near(cas), slow), fast), unit),
        Slider("altitude", low, high, _step(document), start.pressure_altitude or low, altitude),
    )
    most = float(airspeed.impact_pressure_from_cas(to_si(fast, unit)))
    return _lesson(document, "pressure", sliders, {}, most=(fast, most))


def _blocked(document: Document, start: Case | None) -> Lesson | None:
    cas = _cas(document, start)
    if start is None or cas is None:
        return None
    unit, altitude = document.head.indicator_unit, document.head.units.altitude
    given = {"cas": _near(cas), "altitude": start.pressure_altitude or 0.0}
    step, last = (20.0, 400.0) if altitude == "ft" else (5.0, 100.0)
    shown = {gained: shown_blocked(document, given, gained) for gained in _range(-last, last, step)}
    first = max(gained for gained, speed in shown.items() if speed >= _SLOWER * given["cas"])
    sliders = (Slider("gained", -last, last, step, first, altitude),)
    places = (-last, -last / 2, 0.0, last / 2, last)
    figures = Figures(
        Message("teach-blocked-figures", {"unit": Unit(unit)}),
        Message("teach-gained"),
        tuple(_signed(one, altitude) for one in places),
        ((Message("teach-shown"), tuple(Quantity(shown[one], unit) for one in places)),),
    )
    fastest = max(shown.values())
    most = (fastest, float(airspeed.impact_pressure_from_cas(to_si(fastest, unit))))
    has = any(one.static_source == ALTERNATE for one in document.basis.calibration)
    said = Message("teach-alternate" if has else "teach-no-alternate")
    return _lesson(document, "blocked", sliders, given, most, said=(said,), figures=figures)


def _arcs(document: Document, start: Case | None) -> Lesson | None:
    markings = document.basis.markings
    if markings is None or not markings.arcs:
        return None
    ends = [one.at for one in markings.lines]
    ends += [end for arc in markings.arcs for end in (arc.low, arc.high)]
    low, high = 10.0 * math.floor(min(ends) / 10), 10.0 * math.ceil(max(ends) / 10)
    first = start.speed if start else (low + high) / 2
    sliders = (Slider("shown", low, high, 1.0, _near(first), document.head.indicator_unit),)
    by_altitude = document.table("altitude-limits") is not None
    said = [Message("teach-arcs-altitude")] if by_altitude else []
    said += [Message("teach-arcs-tightened")] if markings.tightened else []
    return _lesson(document, "arcs", sliders, {}, said=tuple(said))


def _position(document: Document, start: Case | None) -> Lesson | None:
    unit = document.head.indicator_unit
    tables = document.basis.calibration
    errors = [one for one in document.basis.errors if len(one.shown) > 1]
    clean = [one for one in errors if (one.flaps, one.static_source) == _clean(document)]
    if not clean:
        return None
    low, high = (
        math.ceil(min(one.shown[0] for one in errors)),
        math.floor(max(one.shown[-1] for one in errors)),
    )
    sliders = [Slider("ias", low, high, 1.0, math.ceil(clean[0].shown[0]), unit)]
    if len(tables) > 1:
        names = tuple(setting(document, one) for one in tables)
        sliders.append(Slider("setting", 0.0, len(names) - 1.0, 1.0, 0.0, names=names))
    rows = [
        (
            _named(document, one),
            tuple(
                Quantity(kept(speed), unit, decimals=1)
                for end in (0, -1)
                for speed in (one.shown[end], one.shown[end] + one.error[end])
            ),
        )
        for one in errors
    ]
    columns = tuple(Message(f"teach-{one}") for one in ("ias-slow", "cas", "ias-fast", "cas"))
    figures = Figures(
        Message("teach-position-figures", {"unit": Unit(unit)}),
        Message("teach-setting"),
        columns,
        tuple(rows),
    )
    return _lesson(
        document,
        "position",
        tuple(sliders),
        {},
        said=tuple(_of_position(document, clean[0].shown, clean[0].error)),
        figures=figures,
    )


def _named(document: Document, one: ErrorCurve) -> Message:
    """Return what a table holds for, as the drawing's lines are named."""
    name = Message("drawing-no-flaps")
    if len(document.basis.flaps) > 1:
        name = Message("drawing-flaps", {"flaps": one.flaps})
    if one.gear:
        name = Message(f"drawing-gear-{one.gear}", {"name": name})
    if one.static_source == ALTERNATE:
        return Message("drawing-alternate-flaps", {"flaps": name})
    return name


def _of_position(
    document: Document, shown: tuple[float, ...], error: tuple[float, ...]
) -> Iterator[Message]:
    """Yield where the gap is largest, and what a hectopascal is at both ends of the table."""
    unit = document.head.indicator_unit
    largest = max(range(len(shown)), key=lambda n: (abs(error[n]), -n))
    gap = Quantity(kept(abs(error[largest])), unit, decimals=1)
    speed = Quantity(shown[largest], unit)
    end = {0: "-slow", len(shown) - 1: "-fast"}.get(largest, "")
    if abs(error[largest]) >= NOTHING:
        yield Message(f"teach-position-largest{end}", {"gap": gap, "speed": speed})
    slow, fast = shown[0] + error[0], shown[-1] + error[-1]
    values: dict[str, Value] = {
        "slow": Quantity(kept(slow), unit),
        "fast": Quantity(kept(fast), unit),
        "by_slow": by_a_hectopascal(slow, unit),
        "by_fast": by_a_hectopascal(fast, unit),
    }
    yield Message("teach-position-hectopascal", values)
    if document.basis.bench is not None:
        yield Message("teach-position-bench")


def _true(document: Document, start: Case | None) -> Lesson | None:
    if start is None:
        return None
    low, high = _levels(document)
    units = document.head.units
    warmer = _WARMER[units.temperature]
    last = 30.0 if units.temperature == "C" else 50.0
    sliders = (
        Slider(
            "altitude", low, high, _step(document), start.pressure_altitude or low, units.altitude
        ),
        Slider("isa", -last, last, warmer / 2, warmer, units.temperature),
    )
    given = {"ias": start.speed, "low": low, "high": high}
    lines = [tas_line(document, given, isa) for isa in (-last, 0.0, last)]
    known = [tas for line in lines for tas in line if not math.isnan(tas)]
    cas = _cas(document, start) or start.speed
    step = _step(document)
    heights = sorted({step * round((low + n * (high - low) / 4) / step) for n in range(5)})
    by = (-2 * warmer, 0.0, 2 * warmer)
    figures = Figures(
        Message(
            "teach-true-figures", {"ias": Quantity(kept(start.speed), document.head.indicator_unit)}
        ),
        Message("term-pressure-altitude"),
        tuple(_isa_by(one, units.temperature) for one in by),
        tuple(
            (Quantity(height, units.altitude), _tas_cells(document, start.speed, height, by))
            for height in heights
        ),
    )
    most = (min(cas, *known), max(known))
    return _lesson(document, "true", sliders, given, most, lines[1], figures=figures)


def _tas_cells(document: Document, ias: float, height: float, by: tuple[float, ...]) -> Cells:
    """Return a row of TAS; none where a limit in force is passed."""
    cells = []
    for isa in by:
        done = reckon(document, at(document, "ias", ias, height, isa))
        tas = done.values["true_airspeed"]
        is_known = tas is not None and not any(one.binding for one in done.passed)
        cells.append(Quantity(kept(tas or 0.0), document.head.indicator_unit) if is_known else None)
    return tuple(cells)


def _wind(document: Document, start: Case | None) -> Lesson | None:
    if start is None or start.wind is None:
        return None
    unit = document.head.indicator_unit
    blows_from, speed = start.wind
    tas = reckon(document, start).values["true_airspeed"] or 0.0
    strongest = _strongest(document, tas)
    sliders = (
        Slider("from", 10.0, 360.0, 10.0, blows_from, "deg"),
        Slider("wind", 0.0, strongest, 1.0, speed, "kt"),
    )
    given = {
        "ias": start.speed,
        "altitude": start.pressure_altitude or 0.0,
        "isa": start.isa or 0.0,
    }
    winds = (360.0, 45.0, 90.0, 135.0, 180.0)
    found = [told(document, "wind", given, {"from": one, "wind": speed}).labels for one in winds]
    figures = Figures(
        Message("teach-wind-figures", {"wind": Quantity(speed, "kt"), "unit": Unit(unit)}),
        Message("teach-wind-from"),
        tuple(map(direction, winds)),
        (
            (Message("teach-heading"), _cells(found, "heading")),
            (Message("teach-ground"), _cells(found, "ground")),
        ),
    )
    most = (tas + float(convert(strongest, "kt", unit)),)
    return _lesson(document, "wind", sliders, given, most, figures=figures)


def _cells(found: list[Mapping[str, Quantity | Message]], name: str) -> Cells:
    return tuple(one if isinstance(one := each[name], Quantity) else None for each in found)


_LESSONS: dict[str, Make] = {
    "pressure": _pressure,
    "blocked": _blocked,
    "arcs": _arcs,
    "position": _position,
    "true": _true,
    "wind": _wind,
}


def _lesson(
    document: Document,
    name: str,
    sliders: tuple[Slider, ...],
    given: dict[str, float],
    most: tuple[float, ...] = (),
    still: tuple[float, ...] = (),
    said: tuple[Message, ...] = (),
    figures: Figures | None = None,
) -> Lesson:
    found = told(document, name, given, {one.name: one.at for one in sliders})
    return Lesson(
        name, sliders, given, found, tuple(map(kept, most)), tuple(map(kept, still)), said, figures
    )


# -- what sliders reach --------------------------------------------------------------------------


def _levels(document: Document) -> tuple[float, float]:
    """Return the lowest and the highest altitude that the school asks tables for, or wider."""
    low, high = (0.0, 10000.0) if document.head.units.altitude == "ft" else (0.0, 3000.0)
    asked = document.basis.levels
    if len(asked) == 2 and asked[1] - asked[0] >= 4 * _step(document):
        return asked[0], asked[1]
    return min((low, *asked)), max((high, *asked))


def _step(document: Document) -> float:
    return 500.0 if document.head.units.altitude == "ft" else 100.0


def _ends(document: Document) -> tuple[float, float]:
    """Return the CAS that flight without flaps is calibrated to, up to the end of the green arc."""
    unit, tables = document.head.indicator_unit, document.basis.calibration
    clean = next(one for one in tables if (one.flaps, one.static_source) == _clean(document))
    slow, fast = (
        float(convert(one, document.head.units.speed, unit)) for one in (clean.y[0], clean.y[-1])
    )
    markings = document.basis.markings
    arcs = markings.arcs if markings else ()
    fast = min([fast, *(arc.high for arc in arcs if arc.name == "green")])
    return 5.0 * math.ceil(slow / 5), 5.0 * math.floor(fast / 5)


def _strongest(document: Document, tas: float) -> float:
    """Return the strongest wind, in knots, that is far from holding the aircraft."""
    knots = float(convert(tas, document.head.indicator_unit, "kt"))
    return max(5.0, 5.0 * math.floor(_STRONGEST * knots / 5))


def _clean(document: Document) -> tuple[str, str]:
    return document.basis.flaps[0], NORMAL


def _cas(document: Document, start: Case | None) -> float | None:
    return reckon(document, start).values["calibrated_airspeed"] if start else None


def _near(value: float) -> float:
    return math.floor(value + 0.5)


def _range(first: float, last: float, step: float) -> Iterator[float]:
    for n in range(round((last - first) / step) + 1):
        yield first + n * step


def _signed(value: float, unit: str) -> Quantity:
    return Quantity(value, unit, entered=f"{value:+.0f}" if value else "0")


def _isa_by(isa: float, unit: str) -> Message:
    if not isa:
        return Message("drawing-isa")
    return Message("drawing-isa-by", {"deviation": _signed(isa, unit)})
