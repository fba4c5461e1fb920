"""DEVELOPERS.md says what a new speed, unit, kind and rule take; here that is done, in a copy."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from tests.conftest import ROOT
from tests.plain import SCHOOL, TYPE

pytestmark = pytest.mark.xdist_group("how to add")  # so that the copy is made once

# What is inserted behind a line of a file: one entry in one place, and its words.
ADDITIONS = {
    "a V-speed": [
        (
            "cardgen/definition/speeds.py",
            "SPEEDS: dict[str, Speed] = {",
            '    "VQ": Speed("Quiet", "maximum", KINDS),',
        ),
        (
            "cardgen/words/english/tables.py",
            "WORDINGS: dict[str, str] = {",
            '    "speed-VQ": "VQ",\n    "meaning-VQ": "Quiet over houses",',
        ),
    ],
    "a speed unit": [
        (
            "cardgen/units.py",
            "UNITS: dict[str, Unit] = {",
            '    "fur/h": Unit("speed", Fraction("201.168") / 3600),',
        ),
        ("cardgen/units.py", 'SpeedUnit = Literal["kt", "mph", "km/h"]', None),
    ],
    "a kind": [
        ("cardgen/definition/speeds.py", 'Kind = Literal["single-engine",', None),
        (
            "cardgen/words/english/tables.py",
            "WORDINGS: dict[str, str] = {",
            '    "kind-gyroplane": "gyroplane",',
        ),
    ],
    "a rule": [
        (
            "cardgen/checks/speeds.py",
            "_FLOWN = (",
            None,
        ),
        (
            "cardgen/words/english/findings.py",
            "_FINDINGS = {",
            '    "finding-quiet": "VQ is {quiet} and VA {full}; expected VQ below VA",',
        ),
    ],
}
REPLACED = {
    'SpeedUnit = Literal["kt", "mph", "km/h"]': 'SpeedUnit = Literal["kt", "mph", "km/h", "fur/h"]',
    'Kind = Literal["single-engine",': 'Kind = Literal["gyroplane", "single-engine",',
}
RULE = '''

@rule("quiet", Severity.WARNING, "look-limitations", COMMON_PRACTICE)
def quiet_is_below_manoeuvring(aircraft: Aircraft) -> Iterator[Told]:
    """VQ is below VA."""
    for a, b in itertools.product(plain(aircraft, "VQ"), plain(aircraft, "VA")):
        for quiet, full in measures(aircraft, ("VQ", a), ("VA", b)):
            if quiet.value >= full.value:
                said = {"quiet": about(quiet.value), "full": about(full.value)}
                yield tell(quiet.place, "finding-quiet", **said)
'''


@pytest.fixture(scope="module")
def copy(tmp_path_factory) -> Path:
    """A copy of the program with all four additions."""
    folder = tmp_path_factory.mktemp("copy")
    ignored = shutil.ignore_patterns("__pycache__")
    for name in ("cardgen", "templates"):
        shutil.copytree(ROOT / name, folder / name, ignore=ignored)
    for edits in ADDITIONS.values():
        for file, anchor, added in edits:
            path = folder / file
            text = path.read_text(encoding="utf-8")
            assert text.count(anchor) == 1, (file, anchor)
            changed = f"{anchor}\n{added}" if added else REPLACED.get(anchor, anchor)
            path.write_text(text.replace(anchor, changed), encoding="utf-8")
    with (folder / "cardgen/checks/speeds.py").open("a", encoding="utf-8") as file:
        file.write(RULE)
    return folder


@pytest.fixture(scope="module")
def site(copy) -> Path:
    """The site of a gyroplane in furlongs an hour that has a VQ above its VA."""
    definitions = copy / "aircraft"
    grid = {"ias": [600], "altitude": [0, 5000], "oat": [0, 20]}
    units = {**TYPE["units"], "speed": "fur/h"}
    calibration = [{"ias": [300, 2000], "cas": [310, 1990]}]
    speeds = {"VS1": {"ias": 400}, "VA": {"ias": 1000}, "VQ": {"ias": 1100, "page": "2-1"}}
    own = {"kind": "gyroplane", "units": units, "flaps": [0], "speeds": speeds}
    for name, content in (
        ("school.yaml", {**SCHOOL, "reference speeds": {"gyroplane": grid}}),
        ("types/plain.yaml", {**TYPE, "calibration": calibration, **own}),
        ("fleet/t-est.yaml", {"registration": "T-EST", "type": "plain"}),
    ):
        path = definitions / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(yaml.safe_dump(content), encoding="utf-8")
    script = (
        "from pathlib import Path; from cardgen.publish.build import build; "
        "build(Path('aircraft'), Path('site'), lambda *_: None, pdfs=False)"
    )
    environment = {**os.environ, "PYTHONPATH": str(copy), "PYTHONWARNINGS": "error"}
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=copy, env=environment, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return copy / "site" / "T-EST"


def test_the_card_has_the_new_speed(site):
    rows = (site / "speeds.csv").read_text().splitlines()
    (found,) = (row for row in rows if ",VQ," in row)
    assert found == "Limits,VQ,1100,,Quiet over houses,1100,2-1"


def test_the_page_names_the_new_kind_unit_and_speed(site):
    page, index = (path.read_text() for path in (site / "index.html", site.parent / "index.html"))
    assert "Quiet over houses" in page
    assert "fur/h" in page
    assert "gyroplane" in index


def test_the_new_rule_finds_its_slip(site):
    document = json.loads((site / "card.json").read_text())
    (found,) = (one for one in document["findings"] if one["rule"] == "quiet")
    assert found["message"]["id"] == "finding-quiet"
    assert "VQ is 1100 and VA 1000; expected VQ below VA" in (site / "index.html").read_text()


def test_the_guide_names_each_file_that_an_addition_takes():
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for what, edits in ADDITIONS.items():
        for file, _, _ in edits:
            assert f"`{file}`" in guide, what
