"""What two documents say differently outside their cells, and by which figures a cell moved."""

import random
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.record import Asked, Finding, Message, Pair, Signature, SignedState
from cardgen.review.causes import Causes, recopied
from cardgen.review.difference import cells_of, difference, moved_cells
from cardgen.review.marks import card_mark, marked
from tests.conftest import DEMO, documents_of
from tests.sampling import is_long

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


def test_a_row_in_another_unit_is_another_row(document):
    one = document()
    cells = cells_of(one)
    name = next(name for name, at in cells.items() if name.startswith("calibration/"))
    row = cells[name].row
    stub = replace(row.cells[0], quantity=replace(row.cells[0].quantity, unit="km/h"))
    changed = [replace(one, quantity=replace(one.quantity, value=7.0)) if one.quantity else one
               for one in row.cells[1:]]  # fmt: skip
    turned = replace(row, cells=(stub, *changed))
    others = {
        name: at._replace(row=turned, cell=turned.cells[row.cells.index(at.cell)])
        if at.row is row
        else at
        for name, at in cells.items()
    }
    moved = list(moved_cells(cells, others))
    assert len(moved) == 2 * sum(at.row is row and not at.cell.is_dash for at in cells.values())
    assert len(moved) > 2
    assert all((each.before is None) != (each.after is None) for each in moved)
    assert len({(each.id, each.before is None) for each in moved}) == len(moved)


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


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        (
            {"by": "M"},
            ("compare-fact-signature", "N, examiner, 2026-01-02", "M, examiner, 2026-01-02"),
        ),
        (
            {"role": "chief"},
            ("compare-fact-signature", "N, examiner, 2026-01-02", "N, chief, 2026-01-02"),
        ),
        ({"date": "2026-01-03"}, ("compare-fact-valid-to", "2027-01-02", "2027-01-03")),
    ],
)
def test_who_signed_and_until_when_are_told(document, keys, told):
    one = document()
    signature = Signature("N", "2026-01-02", one.marks.figures, role="examiner")
    head = replace(one.head, signatures=(signature,), asked=Asked(months=12))
    before = replace(one, head=head)
    after = replace(one, head=replace(head, signatures=(replace(signature, **keys),)))
    assert told in said(before, after)


def test_a_period_that_a_school_sets_is_told(document):
    one = document()
    signature = Signature("N", "2026-01-02", one.marks.figures)
    before = replace(one, head=replace(one.head, signatures=(signature,)))
    after = replace(before, head=replace(before.head, asked=Asked(months=6)))
    assert said(before, after) == [("compare-fact-valid-to", None, "2026-07-02")]


def test_what_a_manual_has_for_a_speed_that_a_supplement_changed_is_told(document):
    one, two = (
        document(speeds={"VNO": {"ias": ias}}, airframe={"supplements": [SUPPLEMENT]})
        for ias in (140, 141)
    )
    ((name, before, after),) = said(one, two)
    assert name == "compare-fact-change"
    assert ["140" in str(before), "141" in str(after)] == [True, True]


def test_a_signed_state_and_a_pair_that_go_are_told(document):
    one = document()
    name = one.head.registration
    state = SignedState("2026-01-02", "N", "AAAA", "BBBB", "examiner")
    before = replace(one, head=replace(one.head, signed=(state,), pairs=(Pair("ZZ-AAA", name),)))
    assert [(name, was, now and 1) for name, was, now in said(before, one)] == [
        ("compare-fact-state", "N, examiner, AAAA", None),
        ("compare-fact-pair", Message("next-title", {"first": "ZZ-AAA", "second": name}), None),
    ]


def test_another_reason_why_a_card_is_not_signed_is_told(document):
    one = document()
    signature = Signature("N", "2026-01-02", one.marks.figures, held=False)
    doubtful = replace(one, head=replace(one.head, signatures=(signature,)))
    partial = replace(
        doubtful,
        head=replace(doubtful.head, signatures=(replace(signature, held=True),), asked=Asked(2)),
    )
    assert said(doubtful, partial) == [
        (
            "compare-fact-standing",
            Message("compare-state-doubtful"),
            Message("compare-state-partial"),
        )
    ]


def test_a_signature_that_holds_again_is_told(document):
    one = document()
    signature = Signature("N", "2026-01-02", "0000-0000")
    outdated = replace(one, head=replace(one.head, signatures=(signature,)))
    held = replace(signature, figures=one.marks.figures)
    signed = replace(one, head=replace(one.head, signatures=(held,)))
    assert said(outdated, signed) == [
        (
            "compare-fact-standing",
            Message("compare-state-outdated"),
            Message("compare-state-signed"),
        )
    ]
    assert [name for name, *_ in said(one, signed)] == ["compare-fact-signature"]


# -- whatever the card's mark is made of is told


def changed(one: object) -> Iterator[object]:
    """Yield a record as it is with each of its leaves changed, one at a time."""
    if isinstance(one, str):
        yield f"{one}1"
    elif isinstance(one, bool):
        yield not one
    elif isinstance(one, float):
        yield one + 1.0
    elif isinstance(one, tuple):
        for at, part in enumerate(one):
            yield from ((*one[:at], other, *one[at + 1 :]) for other in changed(part))
    elif isinstance(one, dict):
        for key, part in one.items():
            yield from ({**one, key: other} for other in changed(part))
    elif is_dataclass(one) and not isinstance(one, type):
        for field in fields(one):
            if field.name not in NOT_PRINTED:
                for other in changed(getattr(one, field.name)):
                    yield replace(one, **{field.name: other})


NOT_PRINTED = {"id", "origin", "form", "sense", "unit", "indicator_unit"}


@pytest.mark.sampled
@pytest.mark.parametrize("name", ["ZZ-DUB", "ZZ-PHN"])
def test_whatever_the_mark_of_a_card_is_made_of_is_told(name):
    one = marked(documents_of(DEMO)[name])
    others = [replace(one, head=other) for other in changed(one.head)]
    for at, table in enumerate(one.tables):
        before, after = one.tables[:at], one.tables[at + 1 :]
        of_table = list(changed(table))
        if not is_long():
            of_table = random.Random(7).sample(of_table, min(12, len(of_table)))
        others += [replace(one, tables=(*before, other, *after)) for other in of_table]
    cells, told = cells_of(one), 0
    for other in others:
        if card_mark(other) != one.marks.card:
            moved = list(moved_cells(cells, cells_of(other)))
            assert not difference(one, other, moved).is_empty
            told += 1
    assert told > 50


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
