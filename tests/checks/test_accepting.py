"""What a definition accepts, it accepts at one figure and for the value that this has."""

import datetime
import re
from pathlib import Path

import pytest

from cardgen.checks.accepting import line_of
from cardgen.checks.rule import Finding, Severity
from cardgen.checks.run import check, findings_of
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.publish import report
from cardgen.words.english import ENGLISH

TODAY = datetime.date(2026, 1, 1)
TYPE, VORTEX, BENCH = "types/dunlin-160.yaml", "fleet/zz-duc.yaml", "fleet/zz-dub.yaml"
RED_LINE = "rule: markings-match, figure: markings/red-line/at, value: 150"


def changed(definitions: Path, file: str, old: str = "", new: str = "", more: str = "") -> None:
    path = definitions / file
    text = path.read_text()
    assert old in text
    path.write_text(f"{text.replace(old, new, 1)}{more}")


def accept(definitions: Path, *lines: str, file: str = TYPE) -> None:
    changed(definitions, file, more="".join(("accepted:\n", *(f"  - {one}\n" for one in lines))))


def found(definitions: Path) -> list[Finding]:
    return list(check(read_fleet(definitions), TODAY))


def said(definitions: Path) -> list[tuple[str, str, str]]:
    """What is found and not accepted: severity, rule and sentence."""
    return [
        (one.severity.value, one.rule.name, ENGLISH.say(one.message))
        for one in found(definitions)
        if not one.accepted
    ]


@pytest.fixture
def red_line(definitions: Path) -> Path:
    """Definitions of which a type's red line is not at VNE."""
    changed(definitions, TYPE, "red line: {at: 151", "red line: {at: 150")
    return definitions


@pytest.fixture
def two(red_line: Path) -> Path:
    """The same, and the green arc ends below VNO."""
    changed(red_line, TYPE, "to: 119", "to: 118")
    return red_line


@pytest.mark.parametrize("figure", ["markings/red-line/at", "given/markings/red-line/at"])
def test_a_finding_is_accepted_at_its_figure(red_line, figure):
    line = f"{{rule: markings-match, figure: {figure}, value: 150, reason: The placard says so.}}"
    accept(red_line, line)
    (one,) = found(red_line)
    assert (one.rule.name, one.severity) == ("markings-match", Severity.WARNING)
    assert one.accepted == "The placard says so."


def test_another_finding_of_the_same_rule_is_not_accepted(two):
    accept(two, f"{{{RED_LINE}, reason: The placard says so.}}")
    assert {one.accepted for one in found(two)} == {None, "The placard says so."}
    assert all("green arc" in sentence or "yellow" in sentence for _, _, sentence in said(two))


def test_a_figure_that_has_another_value_is_found_again_and_told(red_line):
    accept(red_line, f"{{{RED_LINE}, reason: The placard says so.}}")
    changed(red_line, TYPE, "red line: {at: 150", "red line: {at: 149")
    assert said(red_line) == [
        ("warning", "markings-match", "the red line is 149 and VNE 151; expected the same"),
        ("note", "acceptance-holds", "markings/red-line/at is 149, and was accepted at 150"),
    ]


def test_a_figure_written_otherwise_is_another(red_line):
    accept(
        red_line, "{rule: markings-match, figure: markings/red-line/at, value: 150.0, reason: x}"
    )
    rules = [rule for _, rule, _ in said(red_line)]
    assert rules == ["markings-match", "acceptance-holds"]


def test_an_acceptance_where_nothing_is_found_any_more_is_told(definitions):
    accept(definitions, f"{{{RED_LINE.replace('150', '151')}, reason: The placard says so.}}")
    assert said(definitions) == [
        (
            "note",
            "acceptance-holds",
            "markings-match finds nothing at markings/red-line/at; take the acceptance out",
        )
    ]


@pytest.mark.parametrize(
    ("figure", "told"),
    [
        ("marking/red-line/at", "; did you mean markings/red-line/at?"),
        ("given/markings/redline/at", "; did you mean markings/red-line/at?"),
        ("qwxyz", ""),
    ],
)
def test_an_acceptance_for_a_figure_that_is_gone_is_told(red_line, figure, told):
    accept(red_line, f"{{rule: markings-match, figure: {figure}, value: 150, reason: x}}")
    name = figure.removeprefix("given/")
    sentence = f"no figure {name} is copied here{told}"
    assert ("note", "acceptance-holds", sentence) in said(red_line)
    assert "markings-match" in {rule for _, rule, _ in said(red_line)}


def test_an_acceptance_of_an_unknown_rule_forbids_a_card(definitions):
    accept(definitions, f"{{{RED_LINE.replace('markings', 'marking', 1)}, reason: x}}")
    sentence = "marking-match is no rule that can be accepted"
    assert said(definitions) == [("error", "acceptance", sentence)]


def test_an_error_cannot_be_accepted(definitions):
    changed(definitions, TYPE, "VNO: {ias: 119, cas: 116", "VNO: {ias: 152, cas: 148")
    accept(definitions, "{rule: order-of-limits, figure: speeds/VNO/ias, value: 152, reason: x}")
    by_rule = {one.rule.name: one for one in found(definitions)}
    assert by_rule["order-of-limits"].accepted is None
    assert by_rule["acceptance"].severity is Severity.ERROR
    text = report.as_text([by_rule["order-of-limits"]], definitions, ENGLISH)
    assert "To accept" not in text


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("{rule: a, figure: b, reason: c}", "found figure and no value, expected both"),
        ("{rule: a, value: 1, reason: c}", "found value and no figure, expected both"),
        ("{rule: a, figure: b, value: 1}", "missing key reason"),
        (
            "{rule: a, figure: b, value: 1, reason: ___}",
            "found a blank, ___; fill in, or take the key out:\n      accepted: reason",
        ),
        ("{figure: b, value: 1, reason: c}", "missing key rule"),
    ],
)
def test_a_part_that_is_missing_is_told(definitions, line, told):
    accept(definitions, line)
    with pytest.raises(DefinitionError) as caught:
        read_fleet(definitions)
    assert [fault.message for fault in caught.value.faults] == [told]


# -- format 1 ------------------------------------------------------------------------------


def test_an_acceptance_of_format_1_goes_on_and_is_told_what_to_write(two):
    changed(two, TYPE, more="accepted: {markings-match: 'Measured, so: yes.'}\n")
    accepted = [one for one in found(two) if one.accepted]
    assert len(accepted) >= 2
    assert {one.accepted for one in accepted} == {"Measured, so: yes."}
    ((severity, rule, sentence),) = said(two)
    assert (severity, rule) == ("note", "acceptance-holds")
    lines = re.findall(r"- (\{.*?\})(?=, - |$)", sentence)
    assert len(lines) == len(accepted)
    path = two / TYPE
    path.write_text(path.read_text().split("accepted:")[0])
    accept(two, *lines)
    assert said(two) == []
    assert {one.accepted for one in found(two)} == {"Measured, so: yes."}


def test_an_acceptance_of_format_1_that_finds_nothing_is_told(definitions):
    changed(definitions, TYPE, more="accepted:\n  markings-match: Measured.\n")
    sentence = "markings-match finds nothing; take the acceptance out"
    assert said(definitions) == [("note", "acceptance-holds", sentence)]


def test_what_stands_at_no_figure_is_accepted_without_one(definitions):
    """A date is no figure of the manual's."""
    changed(definitions, BENCH, "2025-02-03", "2023-02-03")
    accept(definitions, "{rule: bench-card-age, reason: The shop has it.}", file=BENCH)
    assert said(definitions) == []
    assert [one.accepted for one in found(definitions)] == ["The shop has it."]


# -- what check prints ---------------------------------------------------------------------

SLIPS = [
    (TYPE, "red line: {at: 151", "red line: {at: 150"),
    (TYPE, "79, 88, 98, 117", "79, 83, 98, 117"),
    (TYPE, "ias: 87, cas: 85", "ias: 87, cas: 58"),
    (TYPE, "VNE: {ias: 151, cas: 147, page: 2-3}", "VNE: {ias: 151, cas: 147}"),
    (BENCH, "[+2, +2, +1,", "[+12, +9, +1,"),
    (BENCH, "130, 155]", "130, 140]"),
    ("fleet/zz-duc.yaml", "VS0: {ias: 36, cas: 44, page: S12-3}", "VS0: {ias: 36, cas: 44}"),
]


@pytest.mark.parametrize("slip", SLIPS, ids=[new for _, _, new in SLIPS])
def test_the_printed_line_accepts_what_it_stands_under(definitions, capsys, slip):
    """Each line is pasted into the file that it is for, with a reason; then nothing is left."""
    changed(definitions, *slip)
    everything = found(definitions)
    assert everything
    text = report.as_text(everything, definitions, ENGLISH)
    printed = re.findall(r"To accept it, under accepted(?: in (\S+))?: - (.*)", text)
    assert len(printed) == sum(one.severity is not Severity.ERROR for one in everything)
    assert all(figure in line for figure in ("figure: ", "value: ") for _, line in printed)
    for file in {one.about for one in everything}:
        lines = [line_of(one)[2:] for one in everything if one.about == file]
        assert set(lines) <= {line for _, line in printed}
        accept(definitions, *(one.replace("___", "So it is.") for one in lines), file=file)
    assert said(definitions) == []


def test_every_figure_that_a_finding_names_is_one_of_the_documents(definitions):
    for slip in SLIPS:
        changed(definitions, *slip)
    for one in found(definitions):
        assert one.figures, one
        assert all(figure.id.startswith("given/") for figure in one.figures)


# -- type and airframe ---------------------------------------------------------------------


def of_supplement(definitions: Path) -> Path:
    """A supplement moves VNE of one airframe away from its type's red line."""
    changed(definitions, VORTEX, "speeds:\n", "speeds:\n      VNE: {ias: 140, page: S12-3}\n")
    return definitions


def test_what_a_supplement_causes_in_its_types_file_is_about_the_airframe(definitions):
    fleet = read_fleet(of_supplement(definitions))
    everything = check(fleet, TODAY)
    (one,) = [one for one in everything if one.rule.name == "markings-match"
              and "red line" in ENGLISH.say(one.message)]  # fmt: skip
    assert (one.place.file, one.about) == (TYPE, VORTEX)
    text = report.as_text([one], definitions, ENGLISH)
    assert f"To accept it, under accepted in {definitions / VORTEX}: - {{" in text
    pages = {each.registration for each in fleet.aircraft if findings_of(everything, each)}
    assert pages == {"ZZ-DUC"}


def test_an_airframe_accepts_nothing_for_its_type(red_line):
    """What is said of the type is accepted in the type's file, where all its airframes see it."""
    accept(red_line, f"{{{RED_LINE}, reason: mine}}", file=VORTEX)
    assert [rule for _, rule, _ in said(red_line)] == ["acceptance-holds", "markings-match"]
    accept(red_line, f"{{{RED_LINE}, reason: the type's}}")
    assert [rule for _, rule, _ in said(red_line)] == ["acceptance-holds"]


def test_a_type_accepts_for_its_airframes(definitions):
    changed(definitions, BENCH, "[+2, +2, +1,", "[+12, +9, +1,")
    lines = [line_of(one, "So it is.")[2:] for one in found(definitions)]
    accept(definitions, *lines)
    assert said(definitions) == []
