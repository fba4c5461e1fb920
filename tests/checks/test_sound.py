"""A true manual is not accused: sixteen that were typed, and as many as are drawn.

`tests/sound` draws aircraft by physics of their own and prints their manuals as manuals round; none
of them is wrong. `tests/definitions/manuals` holds manuals as texts, typed without arithmetic.
"""

import datetime
from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from cardgen.checks.rule import Finding, Severity
from cardgen.checks.run import check, of_aircraft
from cardgen.definition.fleet import read_fleet
from cardgen.words.english import ENGLISH
from tests.conftest import ROOT
from tests.sound.aircraft import aircraft, write
from tests.sound.fleets import fleet_of_manuals
from tests.sound.ranges import CLASSES, ERRORS
from tests.sound.test_manuals import NAMES

TODAY = datetime.date(2026, 1, 1)
SEEDS, FEW = range(1000), 60
ACCUSED_AT_MOST = 0.02  # of the aircraft


def accusations(found: list[Finding]) -> list[str]:
    """What is said in doubt of a figure; a note doubts none."""
    return [
        f"{one.place}: {ENGLISH.say(one.message)} ({one.rule.name})"
        for one in found
        if one.severity is not Severity.NOTE
    ]


@pytest.fixture(scope="module")
def manuals(tmp_path_factory):
    """The fleet of the manuals, and all that is found in it."""
    fleet = read_fleet(fleet_of_manuals(tmp_path_factory.mktemp("manuals")))
    return fleet, check(fleet, TODAY)


@pytest.mark.parametrize("name", NAMES)
def test_a_manual_that_is_right_is_not_accused(manuals, name):
    fleet, found = manuals
    (one,) = (one for one in fleet.aircraft if one.airframe.type == name)
    assert accusations(of_aircraft(found, one)) == []


@pytest.mark.parametrize("new_styles", [False, True], ids=["format 1", "new styles"])
def test_few_sound_aircraft_are_accused_and_none_is_refused(sample, record_property, new_styles):
    style = "new styles" if new_styles else "format 1"
    tried = sample(f"sound aircraft, {style}", SEEDS, FEW)
    kinds, accused = Counter(), Counter()
    for seed in tried:
        kind, found = of_seed(seed, new_styles)
        assert not [one for one in found if one.severity is Severity.ERROR], seed
        kinds[kind] += 1
        accused[kind] += bool(accusations(found))
    told = ", ".join(f"{kind} {accused[kind]} of {count}" for kind, count in sorted(kinds.items()))
    record_property("measured", f"sound aircraft accused, {style}: {told}")
    assert len(kinds) == 4
    assert accused.total() < ACCUSED_AT_MOST * len(tried), told


def of_seed(seed: int, new_styles: bool) -> tuple[str, list[Finding]]:
    """Return the kind of a drawn aircraft, and what is found in its files."""
    with TemporaryDirectory() as folder:
        fleet = read_fleet(write(aircraft(seed, new_styles), Path(folder)))
    (kind,) = (one.type.kind for one in fleet.aircraft)
    return kind, list(check(fleet, TODAY))


def test_the_ranges_are_told_to_contributors():
    text = (ROOT / "DEVELOPERS.md").read_text()
    for quantity in dict.fromkeys(one for ranges in CLASSES.values() for one in ranges):
        cells = [CLASSES[name].get(quantity) for name in CLASSES]
        unit = next(one.unit for one in cells if one)
        told = [f"{one.low:g} to {one.high:g}" if one else "" for one in cells]
        unit = f", {unit}" if unit and ";" not in unit else ""
        assert f"| {quantity}{unit} | {' | '.join(told)} |" in text
    for name, one in ERRORS.items():
        assert f"error {name} {one.low:.1%} to {one.high:.1%} {one.unit}".replace("%", " %") in text
