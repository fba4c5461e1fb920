"""Pages, CSV and JSON of a fleet: against an earlier commit, and of many against few.

The earlier commit builds the same definitions, which are its own demo's types: it is put beside
from git, with its own sources and the libraries of this run. In processor time of whole processes.
"""

import shutil
import subprocess
import tarfile
from pathlib import Path

import pytest

from tests.benchmarks.beside import seconds
from tests.conftest import DEMO, ROOT

EARLIER = "52e70dc"
FEW, MANY, EACH = 200, 2000, 5  # airframes, and types
MEMORY = 300  # MB

BUILD = """
import sys
from pathlib import Path
from cardgen.publish.build import build
build(Path(sys.argv[1]), Path(sys.argv[2]), lambda *_: None, pdfs=False)
"""
PEAK = """
import resource
assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss < int(sys.argv[3]) * 1024
"""


def fleet_of(folder: Path, demo: Path, airframes: int) -> Path:
    """Airframes of five types of a demo in turn, which differ in what they are called."""
    (folder / "fleet").mkdir(parents=True)
    shutil.copy(demo / "school.yaml", folder)
    shutil.copytree(demo / "types", folder / "types")
    types = sorted(path.stem for path in (demo / "types").glob("*.yaml"))
    assert len(types) == EACH
    for n in range(airframes):
        letters = "".join(chr(ord("A") + n // 26**place % 26) for place in (2, 1, 0))
        text = f'registration: ZZ-{letters}\ntype: {types[n % EACH]}\nserial: "{n}"\n'
        (folder / "fleet" / f"{letters}.yaml").write_text(text)
    return folder


@pytest.fixture
def taken(tmp_path):
    """What building a site takes, by a package of cardgen in a folder."""

    def of(definitions: Path, package: Path = ROOT, more: str = "", *given: str) -> float:
        site = tmp_path / "site"
        shutil.rmtree(site, ignore_errors=True)
        command = ("-c", BUILD + more, str(definitions), str(site), *given)
        return seconds(command, tmp_path, tmp_path / f"{package.name}-bytecode", package)

    return of


@pytest.fixture
def earlier(tmp_path) -> Path:
    """The earlier commit's files."""
    archive = tmp_path / "earlier.tar"
    command = ["git", "archive", "-o", str(archive), EARLIER]
    if subprocess.run(command, cwd=ROOT, capture_output=True).returncode:
        pytest.skip(f"{EARLIER} is not in this clone")
    with tarfile.open(archive) as files:
        files.extractall(tmp_path / "earlier", filter="data")
    return tmp_path / "earlier"


def test_a_sister_takes_less_than_a_quarter_of_the_first_of_its_type(
    taken, tmp_path, record_property
):
    none, first, sisters = (
        fleet_of(tmp_path / str(count), DEMO, count) for count in (1, 1 + EACH, 1 + 4 * EACH)
    )
    taken(none)
    alone = taken(none)
    one = (taken(first) - alone) / (EACH - 1)
    sister = (taken(sisters) - taken(first)) / (3 * EACH)
    record_property("measured", f"a sister takes {sister / one:.2f} of the first of its type")
    assert sister < one / 4


@pytest.mark.long
def test_a_fleet_takes_less_than_a_quarter_of_what_it_took(
    taken, earlier, tmp_path, record_property
):
    fleet = fleet_of(tmp_path / "fleet", earlier / "aircraft", FEW)
    measured = taken(fleet) / taken(fleet, earlier)
    record_property("measured", f"{FEW} airframes take {measured:.2f} of what {EARLIER} takes")
    assert measured < 0.25


@pytest.mark.long
def test_many_take_as_long_each_as_few_and_no_more_memory(taken, tmp_path, record_property):
    few, many = (fleet_of(tmp_path / f"{count}", DEMO, count) for count in (FEW, MANY))
    bound = str(MEMORY)
    measured = taken(many, ROOT, PEAK, bound) / taken(few, ROOT, PEAK, bound) / (MANY / FEW)
    record_property("measured", f"each of {MANY} takes {measured:.2f} of each of {FEW}")
    assert measured < 1.2
