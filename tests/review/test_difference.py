"""What two documents say differently outside their cells, and by which figures a cell moved."""

from dataclasses import replace

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.record import Finding, Message, Signature
from cardgen.review.causes import Causes, recopied
from cardgen.review.difference import cells_of, difference, moved_cells
from cardgen.review.marks import marked

SUPPLEMENT = {
    "title": "Winglets",
    "number": "S-1",
    "date": "2024-05-04",
    "speeds": {"VNO": {"ias": 130}},
}


@pytest.fixture
def document(make, tmp_path):
    def document(**keys):
        return marked(make_document(make(**keys), read_fleet(tmp_path).school))

    return document


def said(before, after):
    return [(one.subject.id, one.before, one.after) for one in difference(before, after, ()).said]


def test_two_documents_of_one_aircraft_differ_in_nothing(document):
    one, other = document(), document()
    assert list(moved_cells(cells_of(one), cells_of(other))) == []
    assert difference(one, other, ()).is_empty


def test_the_program_that_made_it_is_no_difference(document):
    one = document()
    assert difference(one, replace(one, cardgen="another"), ()).is_empty


def test_a_signature_falls_with_a_figure(document):
    one = document()
    signature = Signature("N", "2026-01-02", one.marks.figures)
    signed = replace(one, head=replace(one.head, signatures=(signature,)))
    other = document(speeds={"VNE": {"ias": 175}})
    outdated = replace(signed, marks=other.marks)
    assert difference(signed, outdated, ()).signature == ("signed", "outdated")
    assert difference(signed, one, ()).signature == ("signed", "unsigned")
    assert difference(one, signed, ()).signature is None
    assert difference(outdated, signed, ()).signature is None


def test_findings_are_new_gone_or_accepted(document):
    one = document()
    finding = Finding("vne", "warning", Message("finding-vne", {"speed": "VNE"}))
    found = replace(one, findings=(finding,))
    accepted = replace(one, findings=(replace(finding, accepted="It says so."),))
    assert difference(one, found, ()).found == (finding,)
    assert difference(found, one, ()).settled == (finding,)
    assert difference(found, accepted, ()).accepted == accepted.findings
    assert difference(accepted, accepted, ()).is_empty


def test_words_of_the_head_and_notes_are_told(document):
    one = document()
    two = document(airframe={"serial": "7", "remarks": ["Worn."], "supplements": [SUPPLEMENT]})
    told = said(one, two)
    assert ("compare-fact-serial", None, "7") in told
    assert ("compare-fact-remark", None, "Worn.") in told
    assert "compare-fact-paper" in {name for name, *_ in told}


def test_a_page_is_a_change_of_the_same_figure(document):
    one, two = (document(speeds={"VNE": {"ias": 180, "page": page}}) for page in ("2-3", "2-4"))
    changed = list(recopied((one.given, one.head.papers), (two.given, two.head.papers)))
    assert [(each.id, each.is_page) for each in changed] == [("given/speeds/VNE/ias", True)]
    moved = list(moved_cells(cells_of(one), cells_of(two)))
    assert [each.id for each in moved] == ["speeds/VNE/page"]


def test_a_supplement_before_another_only_counts_it_anew(document):
    """What stands in the second of two supplements is what stood in the first."""
    first = {**SUPPLEMENT, "title": "Doors", "number": "S-0", "speeds": {"VA": {"ias": 100}}}
    one = document(airframe={"supplements": [SUPPLEMENT]})
    two = document(airframe={"supplements": [first, SUPPLEMENT]})
    changed = recopied((one.given, one.head.papers), (two.given, two.head.papers))
    assert [each.id for each in changed] == ["given/speeds/VA/ias"]


def test_each_of_two_edits_is_named_for_its_own_cells(document):
    one = document()
    two = document(speeds={"VNE": {"ias": 175}, "VFE": {"flaps": 40, "ias": 85}})
    before, after = cells_of(one), cells_of(two)
    changed = [
        each.id for each in recopied((one.given, one.head.papers), (two.given, two.head.papers))
    ]
    causes = Causes(before, after, changed)
    named = {each.id: causes.of(each) for each in moved_cells(before, after)}
    assert named["speeds/VNE/indicated"] == {"given/speeds/VNE/ias"}
    assert named["speeds/VFE/flaps-40/indicated"] == {"given/speeds/VFE/flaps-40/ias"}


def test_where_nothing_tells_all_edits_are_named(document):
    one = document()
    two = document(speeds={"VNE": {"ias": 175}})
    before, after = cells_of(one), cells_of(two)
    moved = next(iter(moved_cells(before, after)))
    assert Causes(before, after, ["given/other/1", "given/other/2"]).of(moved) == {
        "given/other/1",
        "given/other/2",
    }
