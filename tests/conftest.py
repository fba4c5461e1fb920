import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import yaml
from filelock import FileLock

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.fleet import Fleet, read_fleet
from tests.plain import make
from tests.sampling import (
    is_long,
    pytest_collection_modifyitems,
    pytest_configure,
    pytest_terminal_summary,
    sample,
)

__all__ = [
    "make",
    "pytest_collection_modifyitems",
    "pytest_configure",
    "pytest_terminal_summary",
    "sample",
]

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "aircraft"
PRINTED = ["zz-dua", "zz-phn", "zz-tua", "zz-whb", "zz-wtr"]  # one of each type


@pytest.fixture(scope="session", autouse=True)
def cache_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Let commands keep what they make apart from what the user's keep."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def fleet() -> Fleet:
    return read_fleet(DEMO)


@pytest.fixture(scope="session")
def aircraft(fleet: Fleet) -> dict[str, Aircraft]:
    """The demo fleet by registration."""
    return {one.registration: Aircraft(one) for one in fleet.aircraft}


@pytest.fixture
def definitions(tmp_path: Path) -> Path:
    """A copy of the demo definitions that a test may spoil."""
    return Path(shutil.copytree(DEMO, tmp_path / "aircraft"))


def keep(definitions: Path, *airframes: str) -> Path:
    """Leave only these airframes, and their types, in a copy of the demo definitions."""
    kept = {definitions / "fleet" / f"{name}.yaml" for name in airframes}
    types = {yaml.safe_load(path.read_text())["type"] for path in kept}
    kept |= {definitions / "types" / f"{name}.yaml" for name in types}
    for path in {*definitions.glob("fleet/*.yaml"), *definitions.glob("types/*.yaml")} - kept:
        path.unlink()
    return definitions


@pytest.fixture
def one_aircraft(definitions: Path) -> Path:
    """Definitions of a fleet of one, ZZ-DUA, that a test may spoil."""
    return keep(definitions, "zz-dua")


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """Return a folder of a test run, made by the first of its processes that asks for it."""
    run = factory.getbasetemp()
    run = run.parent if run.name.startswith("popen-") else run
    folder, done = run / name, run / f"{name}.done"
    with FileLock(run / f"{name}.lock"):
        if not done.exists():
            folder.mkdir()
            make(folder)
            done.touch()
    return folder


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site with its PDFs: of an airframe of each type, or of all in a long run."""
    from cardgen.publish.build import build

    def make(folder: Path) -> None:
        definitions = Path(shutil.copytree(DEMO, folder / "aircraft"))
        if not is_long():
            keep(definitions, *PRINTED)
        build(definitions, folder / "site", lambda done, total, what: None)

    return made_once(tmp_path_factory, "built", make) / "site"


def printed(built: Path) -> list[str]:
    """The aircraft that have PDFs."""
    return sorted(path.parent.name for path in built.glob("*/card.json"))
