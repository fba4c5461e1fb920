"""The indicator's markings against the speeds that they stand for."""

from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import Severity, rule
from cardgen.checks.speeds import pairs
from cardgen.definition.places import Fault, Figure

_PAGE = "the indicator markings in section 2 of the manual"


def _compare(
    aircraft: Aircraft, what: str, figure: Figure | None, name: str, *, least: bool
) -> Iterator[Fault]:
    """Find where an end of a marking is not the speed that it stands for."""
    found = [value for value, entry in pairs(aircraft, name) if not entry.from_altitude]
    if figure is None or not found:
        return
    speed = min(found) if least else max(found)
    if figure != speed:
        yield Fault(figure.place, f"the {what} is {figure} and {name} {speed:g}; expected the same")


@rule("markings-match", Severity.WARNING, _PAGE, "14 CFR 23.1545, before 23-64; CS-22.1545")
def markings_stand_for_the_speeds(aircraft: Aircraft) -> Iterator[Fault]:
    """Each end of an arc, and each line, is at its speed."""
    markings = aircraft.definition.markings
    if markings is None:
        return
    top = "VMO" if aircraft.kind == "turbine" else "VNE"
    if markings.white is not None:
        bottom = "VS0" if "VS0" in aircraft.definition.speeds else "VS1"
        yield from _compare(aircraft, "white arc's start", markings.white.from_, bottom, least=True)
        yield from _compare(aircraft, "white arc's end", markings.white.to, "VFE", least=True)
    if markings.yellow is not None:
        start = "VRA" if aircraft.kind == "glider" else "VNO"
        yield from _compare(
            aircraft, "yellow arc's start", markings.yellow.from_, start, least=True
        )
        yield from _compare(aircraft, "yellow arc's end", markings.yellow.to, top, least=False)
    if markings.red_line is not None:
        yield from _compare(aircraft, "red line", markings.red_line.at, top, least=False)
    if markings.blue_line is not None and aircraft.kind != "glider":
        yield from _compare(aircraft, "blue line", markings.blue_line.at, "VYSE", least=False)
    if markings.red_radial is not None:
        yield from _compare(aircraft, "lower red line", markings.red_radial.at, "VMC", least=False)
    if markings.yellow_triangle is not None:
        at = markings.yellow_triangle.at
        yield from _compare(aircraft, "yellow triangle", at, "approach", least=False)
    yield from _green(aircraft)


def _green(aircraft: Aircraft) -> Iterator[Fault]:
    """Hold the green arc against VS1 and VNO, in a glider 1.1 VS1 and VRA."""
    green = aircraft.definition.markings.green if aircraft.definition.markings else None
    if green is None:
        return
    if aircraft.kind == "glider":
        stall = max((value for value, _ in pairs(aircraft, "VS1")), default=0.0)
        if abs(green.from_ - 1.1 * stall) > 1.0:
            yield Fault(
                green.from_.place,
                f"the green arc's start is {green.from_} and 1.1 VS1 {1.1 * stall:.0f}; expected "
                "the same",
            )
        yield from _compare(aircraft, "green arc's end", green.to, "VRA", least=True)
        return
    clean = aircraft.stall_entries.get(aircraft.flaps[0])
    if clean is not None and clean.ias is not None and green.from_ != clean.ias:
        yield Fault(
            green.from_.place,
            f"the green arc's start is {green.from_} and VS1 {clean.ias}; expected the same",
        )
    end = "VMO" if aircraft.kind == "turbine" else "VNO"
    yield from _compare(aircraft, "green arc's end", green.to, end, least=True)


@rule("markings-order", Severity.ERROR, _PAGE, "common practice")
def arcs_run_upward(aircraft: Aircraft) -> Iterator[Fault]:
    """An arc ends above its start."""
    markings = aircraft.definition.markings
    if markings is None:
        return
    for name in ("white", "green", "yellow"):
        arc = getattr(markings, name)
        if arc is not None and arc.to <= arc.from_:
            yield Fault(arc.to.place, f"the {name} arc runs from {arc.from_} to {arc.to}")
