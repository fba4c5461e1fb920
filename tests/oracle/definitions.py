"""The demo definitions, read as text and laid together: airframe and supplements over type.

Every figure stays the text that was typed until it is reckoned with.
"""

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

import yaml

from .physics import Number, number

FOLDER = Path(__file__).parents[2] / "aircraft"

Entry = dict[str, Any]
_CONDITIONS = ("flaps", "gear", "weight", "altitude", "from altitude")


@cache
def load(path: Path) -> Any:
    """Read a YAML file with every scalar as text, so that YAML decides nothing about it."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def registrations() -> list[str]:
    return [load(path)["registration"] for path in sorted(FOLDER.glob("fleet/*.yaml"))]


@dataclass
class Calibration:
    """One IAS and CAS table of the manual."""

    ias: list[str]
    cas: list[str]
    page: str | None

    @cached_property
    def pairs(self) -> list[tuple[Number, Number]]:
        return [(number(a), number(b)) for a, b in zip(self.ias, self.cas, strict=True)]


@dataclass
class Definition:
    """All that the documents say of one airframe."""

    registration: str
    kind: str
    units: dict[str, str]
    flaps: list[str]
    maximum: str
    weights: list[str]
    speeds: dict[str, list[Entry]]
    markings: dict[str, dict[str, str]]
    calibration: dict[tuple[str, str], Calibration]
    stall: dict[str, Any] | None
    cruise: dict[str, Any] | None
    names: dict[str, str]
    weight_page: str | None
    glides: list[Entry]
    polars: list[Entry]
    crosswind: dict[str, str] | None
    indicator_unit: str
    bench: list[tuple[Number, Number]] | None
    grid: dict[str, Any]


def definition(registration: str) -> Definition:
    airframe = load(FOLDER / "fleet" / f"{registration.lower()}.yaml")
    kind = load(FOLDER / "types" / f"{airframe['type']}.yaml")
    flaps = kind.get("flaps", ["0"])
    weights = {kind["weights"]["maximum"], *kind["weights"].get("others", [])}
    found = Definition(
        registration=airframe["registration"],
        kind=kind["kind"],
        units={"temperature": "C", **kind["units"]},
        flaps=flaps,
        maximum=kind["weights"]["maximum"],
        weights=sorted(weights, key=number, reverse=True),
        speeds={name: _several(entries) for name, entries in kind["speeds"].items()},
        markings=dict(kind.get("markings", {})),
        calibration=_calibration(kind["calibration"], flaps),
        stall=kind.get("stall"),
        cruise=kind.get("cruise"),
        names={"maximum": kind["weights"]["maximum"], **kind["weights"].get("names", {})},
        weight_page=kind["weights"].get("page"),
        glides=_several(kind.get("glide", [])),
        polars=_several(kind.get("polar", [])),
        crosswind=kind.get("crosswind"),
        indicator_unit=airframe.get("indicator", {}).get("unit", kind["units"]["speed"]),
        bench=_bench(airframe.get("instrument correction")),
        grid=load(FOLDER / "school.yaml")["reference speeds"][kind["kind"]],
    )
    for supplement in airframe.get("supplements", []):
        _lay_over(found, supplement)
    return found


def _several(entries: Entry | list[Entry]) -> list[Entry]:
    return entries if isinstance(entries, list) else [entries]


def _calibration(tables: list[Entry], flaps: list[str]) -> dict[tuple[str, str], Calibration]:
    return {
        (one.get("flaps", flaps[0]), one.get("static source", "normal")): Calibration(
            one["ias"], one["cas"], one.get("page")
        )
        for one in tables
    }


def _bench(card: Entry | None) -> list[tuple[Number, Number]] | None:
    """Return what the indicator shows, and what it should show."""
    if card is None:
        return None
    pairs = zip(map(number, card["indicated"]), map(number, card["correction"]), strict=True)
    return [(shown, shown + correction) for shown, correction in pairs]


def _lay_over(found: Definition, supplement: Entry) -> None:
    """Let a supplement restate what it names; a new stall speed ends the old stall table."""
    for name, entries in supplement.get("speeds", {}).items():
        new, old = _several(entries), found.speeds.get(name, [])
        restated = [_condition(one) for one in new]
        kept = [one for one in old if _condition(one) not in restated] if len(old) > 1 else []
        found.speeds[name] = [*new, *kept]
        if name in ("VS0", "VS1"):
            found.stall = None
    found.markings.update(supplement.get("markings", {}))
    found.calibration.update(_calibration(supplement.get("calibration", []), found.flaps))
    found.stall = supplement.get("stall", found.stall)
    found.cruise = supplement.get("cruise", found.cruise)


def _condition(entry: Entry) -> tuple[str | None, ...]:
    return tuple(entry.get(key) for key in _CONDITIONS)
