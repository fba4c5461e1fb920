"""An aircraft made up for one test, so that its figures and the answers stand side by side."""

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.fleet import read_fleet

Make = Callable[..., Aircraft]

SCHOOL = {
    "name": "Test school",
    "reference speeds": {"single-engine": {"ias": [60], "altitude": [0], "oat": [0]}},
}
TYPE: dict[str, Any] = {
    "name": "Plain type",
    "kind": "single-engine",
    "manual": {"title": "Manual", "number": "M-1", "revision": "1", "date": date(2024, 1, 1)},
    "units": {"speed": "kt", "altitude": "ft", "weight": "lb"},
    "flaps": [0, 20, 40],
    "weights": {"maximum": 2000},
    "calibration": [
        {"flaps": 0, "ias": [50, 100, 200], "cas": [54, 100, 196]},
        {"flaps": 20, "ias": [45, 100], "cas": [50, 101]},
        {"flaps": 40, "ias": [40, 100], "cas": [46, 102]},
    ],
}
SPEEDS: dict[str, Any] = {
    "VS0": {"ias": 40, "cas": 46},
    "VS1": {"ias": 50, "cas": 54},
    "VFE": {"flaps": 40, "ias": 90},
    "VNO": {"ias": 140},
    "VNE": {"ias": 180},
}


@pytest.fixture
def make(tmp_path: Path) -> Make:
    """Make an aircraft of the plain type; keys given here replace its keys, None takes one away."""
    return maker(tmp_path)


def maker(folder: Path) -> Make:
    """What makes an aircraft of the plain type in a folder; see `make`."""

    def make(
        speeds: dict[str, Any] | None = None, airframe: dict[str, Any] | None = None, **keys: Any
    ) -> Aircraft:
        fleet = {"registration": "T-EST", "type": "plain", **(airframe or {})}
        stated = {**SPEEDS, **(speeds or {})}
        known = {name: entries for name, entries in stated.items() if entries is not None}
        for name, content in (
            ("school.yaml", SCHOOL),
            ("types/plain.yaml", {**TYPE, **keys, "speeds": known}),
            ("fleet/t-est.yaml", fleet),
        ):
            path = folder / name
            path.parent.mkdir(exist_ok=True)
            path.write_text(yaml.safe_dump(content, allow_unicode=True), "utf-8")
        return Aircraft(read_fleet(folder).aircraft[0])

    return make
