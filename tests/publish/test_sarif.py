"""Findings as SARIF.

What a log must have: SARIF 2.1.0 (OASIS, 2020), from memory: 3.13 version and runs, 3.14.6 tool,
3.18 driver with a name, 3.27.5 to 3.27.12 results, 3.30.5 regions counted from 1, 3.49.3 rules with
an id.
"""

import datetime
import json
from pathlib import Path
from urllib.parse import unquote

import pytest

from cardgen.checks.run import check, of_faults
from cardgen.cli import main
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.publish.sarif import as_sarif
from cardgen.words.english import ENGLISH

LEVELS = {"none", "note", "warning", "error"}


def log_of(definitions: Path) -> dict:
    try:
        found = check(read_fleet(definitions), datetime.date(2026, 1, 1))
    except DefinitionError as error:
        found = of_faults(error.faults)
    return json.loads(as_sarif(found, definitions, ENGLISH))


def spoil(definitions: Path, old: str, new: str) -> None:
    path = definitions / "types/dunlin-160.yaml"
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new))


def assert_whole(log: dict) -> None:
    assert log["version"] == "2.1.0"
    for run in log["runs"]:
        driver = run["tool"]["driver"]
        assert driver["name"] == "cardgen"
        ids = [rule["id"] for rule in driver["rules"]]
        assert len({*ids}) == len(ids)
        for rule in driver["rules"]:
            assert rule["defaultConfiguration"]["level"] in LEVELS
            assert rule["help"]["text"]
        for result in run["results"]:
            assert result["message"]["text"]
            assert result["level"] in LEVELS
            assert ids[result["ruleIndex"]] == result["ruleId"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("red line: {at: 151", "red line: {at: 150"),  # a rule's
        ("ias: 151, cas", "ias: 15l, cas"),  # that cannot be read
    ],
)
def test_a_finding_stands_at_its_line_and_column(one_aircraft, old, new):
    spoil(one_aircraft, old, new)
    log = log_of(one_aircraft)
    assert_whole(log)
    (one, *_) = (one for one in log["runs"][0]["results"] if one["level"] != "note")
    place = one["locations"][0]["physicalLocation"]
    path = Path(unquote(place["artifactLocation"]["uri"]).removeprefix("file://"))
    line = path.read_text().splitlines()[place["region"]["startLine"] - 1]
    at = place["region"]["startColumn"] - 1
    assert new in line
    assert line[at:].startswith(("150", "15l"))


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("[here](https://evil.example)", r"\[here](https://evil.example)"),
        ("{0} of {1}", "{{0}} of {{1}}"),
        ("[1]", "[1]"),
    ],
)
def test_words_of_a_definition_are_no_link_and_no_placeholder(one_aircraft, typed, told):
    """SARIF 2.1.0, 3.11.5 and 3.11.6."""
    spoil(one_aircraft, "ias: 151, cas", f'ias: "{typed}", cas')
    log = log_of(one_aircraft)
    assert_whole(log)
    assert f"'{told}'" in log["runs"][0]["results"][0]["message"]["text"]


def test_an_accepted_finding_is_suppressed_with_its_reason(one_aircraft):
    spoil(one_aircraft, "red line: {at: 151", "red line: {at: 150")
    path = one_aircraft / "types/dunlin-160.yaml"
    line = "{rule: markings-match, figure: markings/red-line/at, value: 150, reason: As painted}"
    path.write_text(f"{path.read_text()}accepted:\n  - {line}\n")
    (one, *_) = log_of(one_aircraft)["runs"][0]["results"]
    assert one["suppressions"] == [{"kind": "inSource", "justification": "As painted"}]


def test_the_command_writes_it(one_aircraft, monkeypatch, capsys):
    monkeypatch.chdir(one_aircraft.parent)
    main(["check", "--format", "sarif"])
    log = json.loads(capsys.readouterr().out)
    assert_whole(log)
    uris = [
        one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        for one in log["runs"][0]["results"]
    ]
    assert uris == ["aircraft/fleet/zz-dua.yaml"]
