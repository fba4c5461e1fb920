"""What a page reckons a case from: the document's curves, limits and weights, beside it as a script.

A browser refuses to fetch from a disk, so each file gives its data a name.
"""

import json
from collections.abc import Iterator
from dataclasses import asdict
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from cardgen.document.record import Basis, Document
from cardgen.render import calibration, dial, ladder, tas
from cardgen.render.axes import Axis
from cardgen.render.markings import scale_for
from cardgen.words.english import lessons, reckoning
from cardgen.words.language import Language

_LISTS = ("bounds", "calibration", "stall", "altimeter")  # a row to a line
_PLAIN = ("flaps", "weights", "bench", "altimeter_bench", "markings")
_ALSO = ("given-cas", "gear-up", "gear-down", "list-separator", "drawing-white", "drawing-green")
_ALSO += ("drawing-yellow", "formula-stall-speed", "formula-correction", "formula-true-airspeed")
_ALSO += ("formula-altimeter-correction", "formula-calibrated-airspeed", "formula-ground-speed")
_ALSO += ("formula-indicated-from-calibrated", "formula-wind-components")
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
    members = [f"{_json(name)}: {_json(value)}" for name, value in said.items()]
    for name in _LISTS:
        rows = ",\n".join(map(_json, basis.get(name, ())))
        members.append(f"{_json(name)}: [\n{rows}\n]" if rows else f"{_json(name)}: []")
    body = ",\n".join(members)
    return f'"use strict";\nconst AIRCRAFT = {{\n{body}\n}};\n'


def wordings(language: Language) -> str:
    """Return the wordings that the page's script puts a case into words with, one to a line."""
    said = (f"{_json(name)}: {_json(language.wordings[name])}" for name in WORDINGS)
    return "{\n" + ",\n".join(said) + "\n}"


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


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


@cache
def _adapter() -> TypeAdapter[Basis]:
    return TypeAdapter(Basis)
