"""What a build takes that has nothing to do, to what it takes to import two packages.

Processor time of processes of their own, the least of several in turn, so that what else the
machine does is left out. Documents, pages and sheets are blank here: their sizes do not matter to
a build that does not read them.
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
from tests.conftest import DEMO, ROOT
from tests.publish.built import Site, put_together

ROUNDS = 5
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
    files = sorted((DEMO / "fleet").glob("*.yaml"))
    for n in range(count):
        text = files[n % len(files)].read_text()
        registration = text.split("registration: ")[1].split("\n")[0]
        (folder / f"fleet/{n:04}.yaml").write_text(text.replace(registration, f"ZZ-{n:04}"))


@pytest.fixture
def quickly_made(monkeypatch):
    """Documents and pages that are made in no time: those of an aircraft with another name."""
    real = making.make_document
    known: dict[str, Document] = {}

    def make(aircraft, school, findings):
        kind = aircraft.definition.type.name
        if kind not in known:
            known[kind] = real(aircraft, school, findings)
        head = dataclasses.replace(known[kind].head, registration=aircraft.registration)
        return dataclasses.replace(known[kind], head=head)

    monkeypatch.setattr(making, "make_document", make)
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
    rounds = [(processor_time(MEASURE), processor_time(command)) for _ in range(ROUNDS)]
    measure, build = map(min, zip(*rounds, strict=True))
    ratio = build / measure
    what = f"a build of {airframes} with nothing to do takes {ratio:.1f} times importing two"
    record_property("measured", what)
    assert ratio < MOST + (MOST_OF_A_THOUSAND - MOST) * (airframes - 8) / 992
