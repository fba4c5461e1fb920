"""How long `check` takes, against reading the same YAML with PyYAML's C loader alone."""

import datetime
import gc
import shutil
import statistics
import timeit
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from cardgen.checks.rule import Severity
from cardgen.checks.run import check
from cardgen.definition.fleet import read_fleet
from tests.conftest import DEMO

TYPES, AIRFRAMES, MOST = 20, 200, 3.0


@pytest.fixture(scope="module")
def large_fleet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Twenty types and two hundred airframes, copies of the demo's."""
    folder = tmp_path_factory.mktemp("large")
    shutil.copy(DEMO / "school.yaml", folder)
    (folder / "types").mkdir()
    (folder / "fleet").mkdir()
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
def test_check_against_parsing_alone(benchmark, large_fleet):
    texts = [path.read_bytes() for path in large_fleet.rglob("*.yaml")]
    assert len(texts) == TYPES + AIRFRAMES + 1

    def parse() -> None:
        for text in texts:
            yaml.load(text, Loader=yaml.CSafeLoader)

    def check_all() -> None:
        found = check(read_fleet(large_fleet), datetime.date(2026, 1, 1))
        assert all(one.severity is Severity.NOTE for one in found)

    parsing: list[float] = []

    def parse_first() -> None:  # side by side, so that both meet the machine in the same state
        parsing.append(timeit.timeit(parse, number=1))

    benchmark.pedantic(check_all, setup=parse_first, rounds=20, warmup_rounds=1)
    times = benchmark.stats.stats.data
    ratio = statistics.median(a / b for a, b in zip(times, parsing[-len(times) :], strict=True))
    benchmark.extra_info["times parsing alone"] = ratio
    assert ratio < MOST
