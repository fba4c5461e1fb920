"""Pages, CSV and JSON of a fleet: against an earlier commit, and of many against few.

The earlier commit builds the same definitions, which are its own demo's types: it is put beside
from git, with its own sources and the libraries of this run. In processor time.
"""

import shutil
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from cardgen.publish.build import build
from tests.benchmarks.beside import EARLIER, least, seconds
from tests.conftest import DEMO, ROOT, drop_pairs

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


def fleet_of(folder: Path, demo: Path, types: int, each: int) -> Path:
    """Airframes of the first types of a demo, in turn, which differ in what they are called."""
    (folder / "fleet").mkdir(parents=True)
    (folder / "types").mkdir()
    shutil.copy(demo / "school.yaml", folder)
    drop_pairs(folder)
    paths = sorted((demo / "types").glob("*.yaml"))
    assert len(paths) == EACH
    for path in paths[:types]:
        shutil.copy(path, folder / "types")
    for n in range(types * each):
        letters = "".join(chr(ord("A") + n // 26**place % 26) for place in (2, 1, 0))
        text = f'registration: ZZ-{letters}\ntype: {paths[n % types].stem}\nserial: "{n}"\n'
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


def test_a_sister_takes_less_than_a_tenth_of_the_first_of_its_type(tmp_path, record_property):
    """In one process, which has built a site before."""

    def building(types: int, sisters: int) -> Callable[[], float]:
        fleet = fleet_of(tmp_path / f"{types}-{sisters}", DEMO, types, sisters)

        def take() -> float:
            start = time.process_time()
            build(fleet, tmp_path / "site", pdfs=False, fresh=True)
            return time.process_time() - start

        return take

    first = building(1, 1)
    first()
    one, two, all_of_them = least(first, building(2, 1), building(2, 10), rounds=3)
    measured = (all_of_them - two) / 18 / (two - one)
    record_property("measured", f"a sister takes {measured:.2f} of the first of its type")
    assert measured < 0.1


@pytest.mark.long
def test_a_fleet_takes_less_than_a_quarter_of_what_it_took(
    taken, earlier, tmp_path, record_property
):
    """The least of three, where the first has written the bytecode."""
    fleet = fleet_of(tmp_path / "fleet", earlier / "aircraft", EACH, FEW // EACH)
    now, then = least(lambda: taken(fleet), lambda: taken(fleet, earlier), rounds=3)
    record_property("measured", f"{FEW} airframes take {now / then:.2f} of what {EARLIER} takes")
    assert now / then < 0.25


@pytest.mark.long
def test_many_take_as_long_each_as_few_and_no_more_memory(taken, tmp_path, record_property):
    few, many = (fleet_of(tmp_path / f"{n}", DEMO, EACH, n // EACH) for n in (FEW, MANY))
    bound = str(MEMORY)
    first, whole = least(
        lambda: taken(few, ROOT, PEAK, bound), lambda: taken(many, ROOT, PEAK, bound), rounds=2
    )
    measured = whole / first / (MANY / FEW)
    record_property("measured", f"each of {MANY} takes {measured:.2f} of each of {FEW}")
    assert measured < 1.2
