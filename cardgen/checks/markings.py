"""The indicator's markings against the speeds that they stand for."""

from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, digits, entered, rule, tell
from cardgen.checks.speeds import pairs
from cardgen.definition.places import Figure
from cardgen.document.record import Message, Quantity

_PAGE = "look-markings"
_ARCS = {
    "white": "finding-markings-order-white",
    "green": "finding-markings-order-green",
    "yellow": "finding-markings-order-yellow",
}


def _compare(
    aircraft: Aircraft, end: str, figure: Figure | None, name: str, *, least: bool
) -> Iterator[Told]:
    """Find where an end of a marking is not the speed that it stands for."""
    found = [value for value, entry in pairs(aircraft, name) if not entry.from_altitude]
    if figure is None or not found:
        return
    speed = min(found) if least else max(found)
    if figure != speed:
        yield _apart(end, figure, name, digits(speed))


def _apart(end: str, figure: Figure, speed: str, value: Quantity | Message) -> Told:
    """Tell that an end of a marking, named by a message, is not at its speed."""
    return tell(
        figure.place,
        "finding-markings-match",
        end=Message(end),
        painted=entered(figure),
        speed=speed,
        value=value,
    )


@rule(
    "markings-match",
    Severity.WARNING,
    _PAGE,
    "14 CFR 23.1545, before 23-64 (from memory); CS-22.1545",
)
def markings_stand_for_the_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """Each end of an arc, and each line, is at its speed."""
    markings = aircraft.definition.markings
    if markings is None:
        return
    top = "VMO" if aircraft.kind == "turbine" else "VNE"
    if markings.white is not None:
        bottom = "VS0" if "VS0" in aircraft.definition.speeds else "VS1"
        yield from _compare(
            aircraft, "finding-white-start", markings.white.from_, bottom, least=True
        )
        yield from _compare(aircraft, "finding-white-end", markings.white.to, "VFE", least=True)
    if markings.yellow is not None:
        start = "VRA" if aircraft.kind == "glider" else "VNO"
        yield from _compare(
            aircraft, "finding-yellow-start", markings.yellow.from_, start, least=True
        )
        yield from _compare(aircraft, "finding-yellow-end", markings.yellow.to, top, least=False)
    if markings.red_line is not None:
        yield from _compare(aircraft, "finding-red-line", markings.red_line.at, top, least=False)
    if markings.blue_line is not None and aircraft.kind != "glider":
        yield from _compare(
            aircraft, "finding-blue-line", markings.blue_line.at, "VYSE", least=False
        )
    if markings.red_radial is not None:
        yield from _compare(
            aircraft, "finding-lower-red-line", markings.red_radial.at, "VMC", least=False
        )
    if markings.yellow_triangle is not None:
        at = markings.yellow_triangle.at
        yield from _compare(aircraft, "finding-yellow-triangle", at, "approach", least=False)
    yield from _green(aircraft)


def _green(aircraft: Aircraft) -> Iterator[Told]:
    """Hold the green arc against VS1 and VNO, in a glider 1.1 VS1 and VRA."""
    green = aircraft.definition.markings.green if aircraft.definition.markings else None
    if green is None:
        return
    if aircraft.kind == "glider":
        stall = max((value for value, _ in pairs(aircraft, "VS1")), default=0.0)
        if abs(green.from_ - 1.1 * stall) > 1.0:
            yield _apart("finding-green-start", green.from_, "1.1 VS1", about(1.1 * stall))
        yield from _compare(aircraft, "finding-green-end", green.to, "VRA", least=True)
        return
    clean = aircraft.stall_entries.get(aircraft.flaps[0])
    if clean is not None and clean.ias is not None and green.from_ != clean.ias:
        yield _apart("finding-green-start", green.from_, "VS1", entered(clean.ias))
    end = "VMO" if aircraft.kind == "turbine" else "VNO"
    yield from _compare(aircraft, "finding-green-end", green.to, end, least=True)


@rule("markings-order", Severity.ERROR, _PAGE, COMMON_PRACTICE)
def arcs_run_upward(aircraft: Aircraft) -> Iterator[Told]:
    """An arc ends above its start."""
    markings = aircraft.definition.markings
    if markings is None:
        return
    for name, said in _ARCS.items():
        arc = getattr(markings, name)
        if arc is not None and arc.to <= arc.from_:
            yield tell(arc.to.place, said, start=entered(arc.from_), end=entered(arc.to))
