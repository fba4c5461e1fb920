import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import settings

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.fleet import Fleet, read_fleet
from tests.plain import make

__all__ = ["make"]

settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.load_profile("repeatable")

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "aircraft"


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
    """The demo site with its PDFs."""
    from cardgen.publish.build import build

    return (
        made_once(
            tmp_path_factory,
            "built",
            lambda folder: build(DEMO, folder / "site", lambda done, total, what: None),
        )
        / "site"
    )
