"""The rules that look for slips say nothing of sound aircraft, whose figures one physics made."""

import datetime

import pytest
import yaml

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks import bench, curves, exchanged, grids, plausible
from cardgen.checks.rule import OF_AIRCRAFT, OF_AIRFRAME, Rule, Severity, findings
from cardgen.definition.fleet import merged
from cardgen.definition.group import validated
from cardgen.definition.model import AirframeDefinition, TypeDefinition
from cardgen.definition.reading import parse_yaml
from cardgen.definition.upgrading import upgraded
from tests.sound import aircraft
from tests.sound.aircraft import _Plain

TODAY = datetime.date(2026, 1, 1)
SUBJECTS = {one.__name__ for one in (bench, curves, exchanged, grids, plausible)}
MANY, FEW = 1_000, 12


def mine(rules: list[Rule]) -> list[Rule]:
    return [one for one in rules if one.find.__module__ in SUBJECTS]


def is_accused(seed: int, new_styles: bool) -> bool:
    data = aircraft(seed, new_styles)
    ((_, said),) = data["types"].items()
    ((_, filed),) = data["fleet"].items()
    one = Aircraft(merged(_read(TypeDefinition, said), _read(AirframeDefinition, filed)))
    found = (
        *findings(mine(OF_AIRCRAFT), one),
        *findings(mine(OF_AIRFRAME), one, TODAY),
    )
    return any(told.severity is not Severity.NOTE for told in found)


def _read(model, data):
    text = yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True)
    return validated(model, upgraded(model, parse_yaml(text.encode(), "file.yaml")))


@pytest.mark.parametrize("new_styles", [False, True])
def test_sound_aircraft_are_hardly_ever_accused(new_styles, sample, record_property):
    """Fewer than 1 of 100."""
    tried = sample("sound aircraft", range(MANY), FEW)
    accused = [seed for seed in tried if is_accused(seed, new_styles)]
    record_property("figure", ("sound aircraft accused", f"{len(accused)} of {len(tried)}"))
    assert len(accused) <= max(1, 0.01 * len(tried)), accused


def test_there_are_rules_to_be_silent():
    assert len(mine(OF_AIRCRAFT)) > 20
    assert len(mine(OF_AIRFRAME)) > 2
