"""How long the rules take on a large fleet, against reading it.

In processor time, of one process and one run after the other, so that what else the machine does
is in neither; and by the least of several.
"""

import datetime
import gc
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from cardgen.checks.rule import Severity
from cardgen.checks.run import check
from cardgen.definition.fleet import read_fleet
from tests.conftest import DEMO, drop_pairs
from tests.sampling import is_long

TYPES, AIRFRAMES = (20, 200) if is_long() else (5, 50)
ROUNDS, MOST = 3, 3.0
TODAY = datetime.date(2026, 1, 1)


@pytest.fixture(scope="module")
def large_fleet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Types and ten times as many airframes, copies of the demo's."""
    folder = tmp_path_factory.mktemp("large")
    shutil.copy(DEMO / "school.yaml", folder)
    (folder / "types").mkdir()
    (folder / "fleet").mkdir()
    drop_pairs(folder)
    types, airframes = (sorted((DEMO / name).glob("*.yaml")) for name in ("types", "fleet"))
    for n in range(TYPES):
        source = types[n % len(types)]
        shutil.copy(source, folder / "types" / f"{source.stem}-{n}.yaml")
    for n in range(AIRFRAMES):
        text = airframes[n % len(airframes)].read_text()
        own = next(line.split(": ")[1] for line in text.splitlines() if line.startswith("type:"))
        copies = [c for c in range(TYPES) if types[c % len(types)].stem == own]
        text = text.replace(
            f"type: {own}", f"type: {own}-{copies[n // len(airframes) % len(copies)]}"
        )
        registration = text.split("registration: ")[1].split("\n")[0]
        text = text.replace(registration, f"ZZ-{n:03d}")
        (folder / "fleet" / f"{n}.yaml").write_text(text)
    return folder


@pytest.fixture
def uncollected() -> Iterator[None]:
    """No garbage collection, whose time grows with all else that the tests have loaded."""
    gc.collect()
    gc.disable()
    yield
    gc.enable()


@pytest.mark.usefixtures("uncollected")
@pytest.mark.benchmark(timer=time.process_time)
def test_checking_takes_less_than_three_times_as_long_as_reading(
    benchmark, large_fleet, record_property
):
    assert len(list(large_fleet.rglob("*.yaml"))) == TYPES + AIRFRAMES + 1
    reading = []

    def read_first():
        start = time.process_time()
        fleet = read_fleet(large_fleet)
        reading.append(time.process_time() - start)
        return (fleet, TODAY), {}

    found = benchmark.pedantic(check, setup=read_first, rounds=ROUNDS)
    assert all(one.severity is Severity.NOTE for one in found)
    ratio = benchmark.stats.stats.min / min(reading)
    record_property("measured", f"checking a fleet takes {ratio:.1f} times reading it")
    assert ratio < MOST
