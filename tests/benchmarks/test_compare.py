"""How long a comparison takes: hardly more than making the documents that may differ.

In processor time, of one run together with what it is held against, and by the least or the median
of several.
"""

import datetime
import os
import shutil
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

from cardgen.cards.card import make_document, reckonable
from cardgen.publish import comparing
from cardgen.publish.comparing import compare
from cardgen.publish.states import working
from tests.benchmarks.beside import least
from tests.benchmarks.test_check import uncollected
from tests.conftest import DEMO, ROOT, drop_pairs

__all__ = ["uncollected"]

TYPES, OF_A_TYPE = 10, 10
MOST, MOST_START = 1.3, 3.0
TODAY = datetime.date(2026, 1, 1)


@pytest.fixture
def fleets(tmp_path: Path) -> tuple[Path, Path]:
    """A hundred airframes of ten types, and the same where one figure of one type is another."""
    before, after = tmp_path / "before", tmp_path / "after"
    (before / "fleet").mkdir(parents=True)
    (before / "types").mkdir()
    shutil.copy(DEMO / "school.yaml", before)
    drop_pairs(before)
    types = sorted((DEMO / "types").glob("*.yaml"))
    for n in range(TYPES):
        source = types[n % len(types)]
        name = f"{source.stem}-{n}"
        shutil.copy(source, before / "types" / f"{name}.yaml")
        for k in range(OF_A_TYPE):
            text = f'registration: ZZ-{n}{k:02}\ntype: {name}\nserial: "{n}{k:02}"\n'
            (before / "fleet" / f"{n}-{k}.yaml").write_text(text)
    shutil.copytree(before, after)
    path = after / "types" / "dunlin-160-0.yaml"
    text = path.read_text()
    assert "{flaps: 10, ias: 99, cas: 96, page: 2-3}" in text
    path.write_text(text.replace("flaps: 10, ias: 99, cas: 96", "flaps: 10, ias: 98, cas: 95"))
    return before, after


def test_a_comparison_makes_only_what_may_differ(fleets, monkeypatch):
    made = []

    def make(aircraft, *others):
        made.append(aircraft.registration)
        return reckonable(aircraft, others[0])  # without its tables, to be quick

    monkeypatch.setattr(comparing, "make_document", make)
    found = compare(working(fleets[0]), working(fleets[1]), TODAY).comparison
    assert made == [f"ZZ-0{k:02}" for k in range(OF_A_TYPE)] * 2
    assert [edit.aircraft for edit in found.edits] == [()]


@pytest.mark.long
@pytest.mark.usefixtures("uncollected")
def test_a_comparison_takes_hardly_longer_than_making_what_may_differ(
    fleets, monkeypatch, record_property
):
    spent = []

    def make(*arguments):
        start = time.process_time()
        document = make_document(*arguments)
        spent.append(time.process_time() - start)
        return document

    def ratio() -> float:
        spent.clear()
        start = time.process_time()
        found = compare(working(fleets[0]), working(fleets[1]), TODAY).comparison
        assert len(found.aircraft) == OF_A_TYPE
        assert len(spent) == 2 * OF_A_TYPE
        return (time.process_time() - start) / sum(spent)

    monkeypatch.setattr(comparing, "make_document", make)
    ratios = [ratio() for _ in range(5)]
    found = statistics.median(ratios)
    record_property("measured", f"comparing takes {found:.2f} times making the documents")
    assert found < MOST


def test_where_nothing_changed_it_takes_hardly_more_than_to_start(fleets, record_property):
    before, _ = fleets

    def started(*arguments: object) -> float:
        start = os.times()
        command = [sys.executable, "-m", "cardgen", *map(str, arguments)]
        subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
        end = os.times()
        return end.children_user - start.children_user + end.children_system - start.children_system

    compared, start = least(
        lambda: started("compare", before, before), lambda: started("check", "--help"), rounds=2
    )
    ratio = compared / start
    record_property("measured", f"comparing what is alike takes {ratio:.2f} times the start")
    assert ratio < MOST_START
