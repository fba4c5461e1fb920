"""A whole small fleet from a seed: a type, an airframe and a school, as plain data."""

import random
from pathlib import Path
from typing import Any

import yaml

from .manual import manual, read
from .printed import Printed
from .styles import restyled

Data = dict[str, Any]
_GRIDS: dict[str, Data] = {
    "single-engine": {"ias": [1.5, 1.8, 2.1], "altitude": [0, 2000, 4000, 8000]},
    "multi-engine": {"ias": [1.5, 1.8, 2.1], "altitude": [0, 2500, 5000, 10000]},
    "turbine": {"ias": [1.5, 1.9, 2.3], "altitude": [0, 5000, 15000, 25000]},
    "glider": {"ias": [1.2, 1.5, 2.0], "altitude": [0, 1000, 2000, 3000]},
}


def aircraft(seed: int, new_styles: bool = False) -> Data:
    """Return the files of a sound fleet of one, by folder and name.

    Parameters
    ----------
    seed : int
        The same seed gives the same aircraft, whatever its style.
    new_styles : bool
        In format 2, in some of the ways that manuals have of saying the same; else in format 1.

    Returns
    -------
    dict
        ``{"school": ..., "types": {name: ...}, "fleet": {name: ...}}``, each as its file holds it.
    """
    chance = random.Random(seed)
    name, seen = read(chance)
    said = manual(chance, name, seen)
    slug = said["name"].lower().replace(" ", "-")
    airframe = _airframe(chance, seed, slug, seen)
    school = _school(seen)
    if new_styles:
        said, airframe, school = restyled(random.Random(seed), seen, said, airframe, school)
    return {"school": school, "types": {slug: said}, "fleet": {f"zz-{seed}": airframe}}


def write(data: Data, folder: Path) -> Path:
    """Write a fleet as the files of a folder of definitions."""
    _dump(data["school"], folder / "school.yaml")
    for part in ("types", "fleet"):
        for name, one in data[part].items():
            _dump(one, folder / part / f"{name}.yaml")
    return folder


class _Plain(getattr(yaml, "CSafeDumper", yaml.SafeDumper)):  # type: ignore[misc]
    """Writes what stands twice twice."""

    def ignore_aliases(self, data: object) -> bool:
        return True


def _dump(data: Data, path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True))


def _airframe(chance: random.Random, seed: int, type_: str, seen: Printed) -> Data:
    data: Data = {
        "registration": f"ZZ-{seed}",
        "type": type_,
        "serial": str(chance.randrange(1, 999)),
    }
    if chance.random() < 0.4:
        low, high = seen.shown(seen.craft.stall()) - 5, seen.shown(seen.craft.never_exceed) + 5
        points = [round(low + (high - low) * n / 5) for n in range(6)]
        start, end = chance.uniform(-2, 2), chance.uniform(-3, 3)
        data["instrument correction"] = {
            "page": "bench card",
            "indicated": points,
            "correction": [round(start + (end - start) * n / 5) for n in range(6)],
        }
    return data


def _school(seen: Printed) -> Data:
    grid = dict(_GRIDS[seen.craft.kind])
    grid["ias"] = [round(seen.shown(seen.craft.stall()) * times) for times in grid["ias"]]
    if seen.altitude == "ft" and seen.craft.kind == "glider":
        grid["altitude"] = [0, 3000, 6000, 9000]
    return {
        "name": "Invented School of Flying",
        "reference speeds": {seen.craft.kind: {**grid, "oat": [-20, 0, 20]}},
    }
