import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.conftest import DEMO, keep, made_once
from tests.publish.built import Site, put_together


@pytest.fixture
def cold(definitions: Path, tmp_path: Path) -> Iterator[Site]:
    """A site of which nothing was made before."""
    keep(definitions, "zz-dua", "zz-dub", "zz-wtr")
    with put_together():
        yield Site(tmp_path)


@pytest.fixture(scope="session")
def warm(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A cache that has all of the site, so that tests need not make it each time."""

    def make(folder: Path) -> None:
        keep(Path(shutil.copytree(DEMO, folder / "aircraft")), "zz-dua", "zz-dub", "zz-wtr")
        with put_together():
            Site(folder).build()

    return made_once(tmp_path_factory, "warm", make) / "cache"


@pytest.fixture
def site(cold: Site, warm: Path) -> Site:
    shutil.copytree(warm, cold.cache)
    return cold
