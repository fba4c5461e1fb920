"""The definitions, read as text and laid together: airframe and supplements over type.

They are the demo's, and those that have every form of correction.

Every figure stays the text that was typed until it is reckoned with.
"""

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

import yaml

from .physics import Number, number

ROOT = Path(__file__).parents[2]
CRUISE = ROOT / "tests/definitions/cruise"  # with cruise tables as manuals print them
FOLDERS = tuple(ROOT / one for one in ("aircraft", "tests/definitions/corrections"))

Entry = dict[str, Any]
_CONDITIONS = ("flaps", "gear", "weight", "altitude", "from altitude")


@cache
def load(path: Path) -> Any:
    """Read a YAML file with every scalar as text, so that YAML decides nothing about it."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def registrations(*folders: Path) -> list[str]:
    """Return the aircraft of folders, or of all that every cell is held against."""
    found = [path for folder in folders or FOLDERS for path in sorted(folder.glob("fleet/*.yaml"))]
    return [load(path)["registration"] for path in found]


def folder_of(registration: str) -> Path:
    file = f"fleet/{registration.lower()}.yaml"
    return next(one for one in (*FOLDERS, CRUISE) if (one / file).is_file())


Setting = tuple[str, str, str]  # flaps, static source, and gear or nothing


@dataclass
class Calibration:
    """One table of the manual's position errors, as it is printed."""

    given: Entry

    @property
    def page(self) -> str | None:
        return self.given.get("page")

    @property
    def is_printed(self) -> bool:
        """Whether IAS and CAS are both the manual's own."""
        return "ias" in self.given and "cas" in self.given

    @property
    def by_normal_source(self) -> bool:
        return "normal ias" in self.given or self.given.get("gives") == "normal IAS"

    @cached_property
    def pairs(self) -> list[tuple[Number, Number]]:
        """IAS, and CAS or the IAS of the normal source."""
        given = self.given
        if "ias" not in given:
            return [(meant, cas) for cas, meant in meaning(given, "cas")]
        for row in ("cas", "normal ias"):
            if row in given:
                return list(zip(map(number, given["ias"]), map(number, given[row]), strict=True))
        return meaning(given, "ias")


def meaning(table: Entry, start: str) -> list[tuple[Number, Number]]:
    """Return the figures of a row, and each with what is added to it, or subtracted from it."""
    figures = list(map(number, table[start]))
    if f"add to {start}" in table:
        more = map(number, table[f"add to {start}"])
        return [(one, one + other) for one, other in zip(figures, more, strict=True)]
    less = map(number, table[f"subtract from {start}"])
    return [(one, one - other) for one, other in zip(figures, less, strict=True)]


def correction_key(table: Entry) -> str:
    """Return the key of the row that stands beside the one that a table is entered with."""
    known = ("add to", "subtract from")
    rows = [key for key in table if key.startswith(known)]
    return rows[0] if rows else "normal ias" if "normal ias" in table else "true"


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
    others: dict[str, list[Entry]]  # by the manual's own name
    markings: dict[str, dict[str, str]]
    calibration: dict[Setting, Calibration]
    altimeter: list[Entry]
    bench_card: Entry | None
    altimeter_card: Entry | None
    stall: dict[str, Any] | None
    cruise: dict[str, Any] | None  # the one that is asked, of all
    cruises: list[dict[str, Any]]
    names: dict[str, str]
    weight_page: str | None
    glides: list[Entry]
    polars: list[Entry]
    crosswind: dict[str, str] | None
    indicator_unit: str
    bench: list[tuple[Number, Number]] | None
    grid: dict[str, Any]


def definition(registration: str) -> Definition:
    folder = folder_of(registration)
    airframe = load(folder / "fleet" / f"{registration.lower()}.yaml")
    kind = load(folder / "types" / f"{airframe['type']}.yaml")
    flaps = kind.get("flaps", ["0"])
    cruises = _several(kind.get("cruise", []))
    weights = {kind["weights"]["maximum"], *kind["weights"].get("others", [])}
    found = Definition(
        registration=airframe["registration"],
        kind=kind["kind"],
        units={"temperature": "C", **kind["units"]},
        flaps=flaps,
        maximum=kind["weights"]["maximum"],
        weights=sorted(weights, key=number, reverse=True),
        speeds={name: _several(entries) for name, entries in kind["speeds"].items()},
        others={name: _several(one) for name, one in kind.get("other speeds", {}).items()},
        markings=dict(kind.get("markings", {})),
        calibration=_calibration(kind["calibration"], flaps),
        stall=kind.get("stall"),
        cruise=cruises[0] if cruises else None,
        cruises=cruises,
        names={"maximum": kind["weights"]["maximum"], **kind["weights"].get("names", {})},
        weight_page=kind["weights"].get("page"),
        glides=_several(kind.get("glide", [])),
        polars=_several(kind.get("polar", [])),
        crosswind=kind.get("crosswind"),
        indicator_unit=airframe.get("indicator", {}).get("unit", kind["units"]["speed"]),
        bench=_bench(airframe.get("instrument correction")),
        altimeter=kind.get("altimeter correction", []),
        bench_card=airframe.get("instrument correction"),
        altimeter_card=airframe.get("altimeter correction"),
        grid=load(folder / "school.yaml")["reference speeds"][kind["kind"]],
    )
    for supplement in airframe.get("supplements", []):
        _lay_over(found, supplement)
    return found


def _several(entries: Entry | list[Entry]) -> list[Entry]:
    return entries if isinstance(entries, list) else [entries]


def _calibration(tables: list[Entry], flaps: list[str]) -> dict[Setting, Calibration]:
    return {
        (
            one.get("flaps", flaps[0]),
            one.get("static source", "normal"),
            one.get("gear", ""),
        ): Calibration(one)
        for one in tables
    }


def _bench(card: Entry | None) -> list[tuple[Number, Number]] | None:
    """Return what the indicator shows, and what it should show."""
    if card is None:
        return None
    if "indicated" not in card:
        return [(shown, true) for true, shown in meaning(card, "true")]
    if "true" in card:
        return list(zip(map(number, card["indicated"]), map(number, card["true"]), strict=True))
    return meaning(card, "indicated")


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
    if "cruise" in supplement:
        found.cruises = _several(supplement["cruise"])
        found.cruise = found.cruises[0]


def _condition(entry: Entry) -> tuple[str | None, ...]:
    return tuple(entry.get(key) for key in _CONDITIONS)
