"""Fleets other than the demo's, which print what it does not: manuals as typed, and stress."""

import shutil
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from cardgen.document.record import Document
from tests.conftest import ROOT, STRESS, documents_of
from tests.sound.test_manuals import MANUALS, NAMES

FOLDERS = (STRESS, *(ROOT / "tests/definitions" / name for name in ("corrections", "cruise")))


def fleet_of_manuals(folder: Path) -> Path:
    """Put the manuals and their airframes together in a folder, as definitions of a fleet."""
    for part in ("types", "fleet"):
        (folder / part).mkdir()
    shutil.copy(MANUALS / "school.yaml", folder)
    for name in NAMES:
        shutil.copy(MANUALS / name / "type.yaml", folder / "types" / f"{name}.yaml")
        shutil.copy(MANUALS / name / "airframe.yaml", folder / "fleet" / f"{name}.yaml")
    return folder


@cache
def others() -> dict[str, Document]:
    """The documents of all of them by registration, which a process makes once."""
    with TemporaryDirectory() as folder:
        manuals = documents_of(fleet_of_manuals(Path(folder)))
    found = [*map(documents_of, FOLDERS), manuals]
    assert len({name for fleet in found for name in fleet}) == sum(map(len, found))
    return {name: one for fleet in found for name, one in fleet.items()}
