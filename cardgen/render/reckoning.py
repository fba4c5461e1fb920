"""What a page reckons a case from: the document's curves and limits, beside it as a script.

A browser refuses to fetch from a disk, so each file gives its data a name.
"""

from collections.abc import Iterator
from dataclasses import asdict
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from cardgen.document.record import Basis, Document
from cardgen.render import calibration, dial, ladder, tas
from cardgen.render.axes import Axis
from cardgen.render.markings import scale_for
from cardgen.render.scripts import compact, member, of_members
from cardgen.units import convert
from cardgen.words.english import lessons, reckoning, teaching
from cardgen.words.language import Language
from cardgen.words.numbers import symbol

_LISTS = ("bounds", "calibration", "stall", "altimeter")  # a row to a line
_PLAIN = ("flaps", "weights", "bench", "altimeter_bench", "markings", "only_approved")
_DRAWN = ("white", "green", "yellow")
_FORMULAS = (  # of the steps
    *("correction", "altimeter-correction", "calibrated-airspeed", "indicated-from-calibrated"),
    *("true-airspeed", "wind-components", "ground-speed", "pressure-altitude"),
    *("density-altitude", "stall-speed"),
)
_ALSO = (
    *("given-cas", "gear-up", "gear-down", "list-separator"),
    *(f"drawing-{name}" for name in _DRAWN),
    *(f"formula-{name}" for name in _FORMULAS),
    *(name for name in teaching.WORDINGS if name.startswith("told-")),
)
WORDINGS = sorted({*lessons.WORDINGS, *reckoning.WORDINGS, *_ALSO})


def case_data(language: Language, document: Document) -> str:
    """Return the script that names what a document says of a case, one row to a line."""
    head, basis = document.head, _adapter().dump_python(document.basis, exclude_defaults=True)
    units = head.units
    said = {
        "registration": head.registration,
        "type": head.type,
        "mark": document.marks.card,
        "unit": head.indicator_unit,
        "units": {name: getattr(units, name) for name in ("speed", "altitude", "temperature")},
        **{name: basis.get(name) for name in _PLAIN},
        "drawn": dict(_drawn(language, document)),
    }
    said["units"]["weight"] = units.weight
    members = [member(name, value) for name, value in said.items()]
    for name in _LISTS:
        rows = ",\n".join(map(compact, basis.get(name, ())))
        members.append(f"{compact(name)}: [\n{rows}\n]" if rows else f"{compact(name)}: []")
    return f'"use strict";\nconst AIRCRAFT = {of_members(members)};\n'


def usual_case(document: Document) -> dict[str, Any]:
    """Return the case that a panel begins with, and what can be chosen in it."""
    head, basis = document.head, document.basis
    feet = head.units.altitude == "ft"
    middle = sum(basis.levels) / 2 if basis.levels else 5000.0 if feet else 1500.0
    has = {one.gear for one in basis.bounds} | {one.gear for one in basis.stall}
    has |= {one.gear for one in basis.calibration}
    return {
        "units": head.units,
        "temperature": symbol(head.units.temperature),
        "speed": _to(5.0, _middling(document)),
        "flaps": [(one, one) for one in basis.flaps],
        "gears": bool(has & {"up", "down"}),
        "sources": any(one.static_source == "alternate" for one in basis.calibration),
        "altitude": _to(500.0, middle),
        "setting": "29.92" if feet else "1013",
        "weight": f"{basis.weights[0]:g}",
        "far": next((one.id for one in document.tables if _is_far(one.id)), ""),
    }


def _middling(document: Document) -> float:
    """Return a speed in the middle of the green arc, or else of the table of clean flight."""
    markings, head = document.basis.markings, document.head
    for arc in markings.arcs if markings else ():
        if arc.name == "green":
            return (arc.low + arc.high) / 2
    ends = [(one.x[0] + one.x[-1]) / 2 for one in document.basis.calibration]
    unit = head.indicator_unit
    return float(convert(ends[0], head.units.speed, unit)) if ends else 100.0


def _to(step: float, value: float) -> str:
    return f"{step * round(value / step):.0f}"


def _is_far(table: str) -> bool:
    return table.startswith("cruise") or table in ("polar", "glide")


def wordings(language: Language) -> str:
    """Return the wordings that the page's script puts a case into words with, one to a line."""
    return of_members(member(name, language.wordings[name]) for name in WORDINGS)


def _drawn(language: Language, document: Document) -> Iterator[tuple[str, Any]]:
    """Yield where the drawings of the page have a speed, an error or an altitude."""
    markings = document.basis.markings
    if markings is not None and (markings.arcs or markings.lines):
        scale = scale_for(markings)
        yield "scale", [scale.first, scale.last]
        yield "dial", [dial.FIRST, dial.SWEEP]
        yield "ladder", ladder.ENDS
    for name, axes in (
        ("calibration", calibration.axes_of(language, document)),
        ("true-airspeed", tas.axes_of(document)),
    ):
        if axes is not None:
            yield name, [_ends(axis) for axis in axes]


def _ends(axis: Axis) -> list[float]:
    ends = asdict(axis)
    return [ends[name] for name in ("first", "last", "start", "end")]


@cache
def _adapter() -> TypeAdapter[Basis]:
    return TypeAdapter(Basis)
