"""Findings in words, for people and for machines."""

import datetime
import json
from pathlib import Path

import pytest

from cardgen.checks.rule import Finding
from cardgen.checks.run import check, errors, findings_of, of_faults
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import Fault, Place
from cardgen.document.record import Finding as Said
from cardgen.document.record import Message, Quantity
from cardgen.publish import report
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language

TODAY = datetime.date(2026, 1, 1)
ALIEN = Language("x", {name: f"«{said}»" for name, said in ENGLISH.wordings.items()})


def spoiled(definitions: Path, old: str, new: str, more: str = "") -> tuple[Finding, ...]:
    path = definitions / "types/dunlin-160.yaml"
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new) + more)
    return check(read_fleet(definitions), TODAY)


@pytest.fixture
def found(definitions: Path) -> tuple[Finding, ...]:
    """A red line that is not at VNE."""
    return spoiled(definitions, "red line: {at: 151", "red line: {at: 150")


def test_json_says_all_of_a_finding(found, definitions):
    (one,) = json.loads(report.as_json(found, definitions, ENGLISH))
    assert one.pop("line") > 1
    assert one == {
        "severity": "warning",
        "rule": "markings-match",
        "file": (definitions / "types/dunlin-160.yaml").as_posix(),
        "column": 18,
        "message": "the red line is 150 and VNE 151; expected the same",
        "look": "the indicator markings in section 2 of the manual",
        "source": "14 CFR 23.1545, before 23-64 (from memory); CS-22.1545",
        "figures": ["markings/red-line/at"],
        "accepted": None,
    }


def test_an_annotation_stands_on_one_line(definitions):
    place = Place("types/dunlin-160.yaml", 3, 7)
    said = report.as_annotations(of_faults([Fault(place, "5 % off\nhere")]), definitions, ENGLISH)
    file = (definitions / place.file).as_posix()
    assert said == f"::error file={file},line=3,col=7,title=definition::5 %25 off%0Ahere"


def test_a_fault_of_a_file_is_said_without_a_rule(definitions):
    place = Place("types/dunlin-160.yaml", 999_999, 1)
    said = report.as_text(of_faults([Fault(place, "unknown key")]), definitions, ENGLISH)
    assert said == f"{definitions / place.file}:999999:1: error: unknown key"


def test_another_language_says_it_all(found, definitions):
    head, *_, look, accept = report.as_text(found, definitions, ALIEN).splitlines()
    assert head.endswith(
        "«warning»: «the «red line» is 150 and VNE 151; expected the same» (markings-match)"
    )
    assert look == (
        "    «Look at «the indicator markings in section 2 of the manual». "
        "Rule: 14 CFR 23.1545, before 23-64 (from memory); CS-22.1545.»"
    )
    assert accept == (
        "    «To accept it, under accepted: "
        "- {rule: markings-match, figure: markings/red-line/at, value: 150, reason: ___}»"
    )


def test_errors_are_faults_in_words_and_warnings_none(definitions):
    found = spoiled(definitions, "VNO: {ias: 119, cas: 116", "VNO: {ias: 152, cas: 148")
    (fault,) = errors(found, ENGLISH)
    assert fault.message == "VNO is 152 and VNE 151; expected VNO below VNE (order-of-limits)"
    assert len(found) > 1


def test_a_document_has_the_warnings_of_its_own_files_and_no_place(definitions):
    accepted = (
        "accepted:\n  - {rule: markings-match, figure: markings/red-line/at, value: 150, "
        "reason: The placard says so.}\n"
    )
    found = spoiled(definitions, "red line: {at: 151", "# measured\n  red line: {at: 150", accepted)
    values = {
        "end": Message("finding-red-line"),
        "painted": Quantity(150.0, entered="150"),
        "speed": "VNE",
        "value": Quantity(151.0),
    }
    message = Message("finding-markings-match", values)
    expected = (Said("markings-match", "warning", message, "The placard says so."),)
    fleet = read_fleet(definitions)
    of_type = [one for one in fleet.aircraft if one.airframe.type == "dunlin-160"]
    assert len(of_type) > 1
    for one in fleet.aircraft:
        assert findings_of(found, one) == (expected if one in of_type else ())


def test_notes_are_for_the_report_only(definitions):
    path = definitions / "fleet/zz-dub.yaml"
    path.write_text(path.read_text().replace("2025-02-03", "2023-02-03"))
    fleet = read_fleet(definitions)
    found = check(fleet, TODAY)
    assert [one.rule.name for one in found] == ["bench-card-age"]
    assert [findings_of(found, one) for one in fleet.aircraft] == [()] * len(fleet.aircraft)


def test_the_summary_counts_what_is_accepted_apart(found):
    assert report.summary(found) == "0 errors, 1 warning, 0 notes"
