import shutil
from pathlib import Path

import pytest
from hypothesis import settings

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.fleet import Fleet, read_fleet

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


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site with its PDFs, built once; tests that use it belong to the group `site`."""
    from cardgen.publish.build import build

    out = tmp_path_factory.mktemp("built") / "site"
    build(DEMO, out, lambda done, total, what: None)
    return out
