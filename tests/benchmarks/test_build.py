"""What a build takes that has nothing to do, and the memory of one that makes all.

Times are processor time of processes of their own, the least of several in turn, to what it takes
to import two packages, so that what else the machine does is left out. Documents, pages and sheets
are blank in those: their sizes do not matter to a build that does not read them.
"""

import dataclasses
import resource
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from cardgen.document.record import Document
from cardgen.publish import making
from tests.benchmarks.beside import least
from tests.conftest import DEMO, ROOT, drop_pairs
from tests.publish.built import Site, put_together
from tests.sampling import is_long

MEASURE = [sys.executable, "-c", "import numpy, yaml"]
MOST, MOST_OF_A_THOUSAND = 2.5, 12.0  # times that, of the demo fleet and of 1,000 airframes


def processor_time(command: list[str]) -> float:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def large_fleet(folder: Path, count: int) -> None:
    """The demo's types, and as many airframes as wanted, copies of the demo's."""
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("zz-*.yaml"))
    drop_pairs(folder)
    files = sorted((DEMO / "fleet").glob("*.yaml"))
    for n in range(count):
        text = files[n % len(files)].read_text()
        registration = text.split("registration: ")[1].split("\n")[0]
        (folder / f"fleet/{n:04}.yaml").write_text(text.replace(registration, f"ZZ-{n:04}"))


@pytest.fixture
def quickly_made(monkeypatch):
    """Documents and pages that are made in no time: those of an aircraft with another name."""
    known: dict[str, Document] = {}

    class Quick(making.Sisters):
        def document(self, definition, findings=()):
            kind = definition.type.name
            if kind not in known:
                known[kind] = super().document(definition, findings)
            head = dataclasses.replace(known[kind].head, registration=definition.registration)
            return dataclasses.replace(known[kind], head=head)

    monkeypatch.setattr(making, "Sisters", Quick)
    monkeypatch.setattr(making, "check", lambda *_: ())
    monkeypatch.setattr("cardgen.publish.making.page.aircraft_page", lambda *_: "<!doctype html>")
    with put_together():
        yield


@pytest.mark.usefixtures("quickly_made")
@pytest.mark.parametrize("airframes", [8, 80, pytest.param(1000, marks=pytest.mark.long)])
def test_with_nothing_to_do_a_build_stops_soon(airframes, tmp_path, record_property):
    site = Site(tmp_path)
    large_fleet(site.definitions, airframes)
    files = len(site.build().made)
    assert files > 20 * airframes
    given = [str(site.definitions), "--out", str(site.out), "--cache", str(site.cache)]
    command = [sys.executable, "-m", "cardgen", "build", *given]
    said = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    assert f"0 files made, {files} reused" in said
    measure, build = least(
        lambda: processor_time(MEASURE),
        lambda: processor_time(command),
        rounds=5 if is_long() else 3,
    )
    ratio = build / measure
    what = f"a build of {airframes} with nothing to do takes {ratio:.1f} times importing two"
    record_property("measured", what)
    assert ratio < MOST + (MOST_OF_A_THOUSAND - MOST) * (airframes - 8) / 992


PEAKS = """
import sys
from pathlib import Path
from cardgen.publish.build import build


def peak(done, *_):
    lines = Path("/proc/self/status").read_text().splitlines()
    print(done, next(line.split()[1] for line in lines if line.startswith("VmHWM")))


build(Path(sys.argv[1]), Path(sys.argv[2]), peak, pdfs=False)
"""


def peaks(folder: Path, airframes: int) -> dict[int, float]:
    """The most memory that a build of a fleet has taken, in MB, by how many parts are made."""
    large_fleet(folder / "aircraft", airframes)
    command = [sys.executable, "-c", PEAKS, folder / "aircraft", folder / "site"]
    run = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True)
    return {int(done): int(said) / 1000 for done, said in map(str.split, run.stdout.splitlines())}


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="Linux tells a process's peak")
@pytest.mark.sampled
def test_memory_does_not_grow_with_the_fleet(tmp_path, record_property):
    """Of 2,000 airframes; in a short run by what more add to some, when what is kept is full."""
    few, many = (200, 2000) if is_long() else (72, 108)
    found = peaks(tmp_path, many)
    most = max(found.values())
    whole = most + (found[many] - found[few]) / (many - few) * (2000 - many)
    record_property("measured", f"2,000 airframes take {whole:.0f} MB, {many} take {most:.0f} MB")
    assert whole < 300
