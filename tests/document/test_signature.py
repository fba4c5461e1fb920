"""Whether a card is signed, by all that have to, and until when."""

from dataclasses import replace

import pytest

from cardgen.document.record import Asked, Head, Marks, Paper, School, Signature, Units
from cardgen.document.signature import is_enough, months_after, state_of, valid_to

MARKS = Marks(card="AAAA-0001", figures="BBBB-0001")
ONE = Signature("P. Pipit", "2026-01-31", MARKS.figures, MARKS.card, "instructor")
TWO = replace(ONE, by="T. Teal", date="2026-02-28", role="")


def head(*signatures: Signature, asked: Asked = Asked()) -> Head:  # noqa: B008
    units = Units("kt", "ft", "C", "lb")
    papers = (Paper("manual", "Manual"),)
    named = Head("T-EST", "Type", "glider", "", "kt", units, School("A school"), papers)
    return replace(named, signatures=signatures, asked=asked)


def state(*signatures: Signature, asked: Asked = Asked()) -> str:  # noqa: B008
    return state_of(head(*signatures, asked=asked), MARKS)


def test_a_signature_holds_for_the_figures_that_were_signed():
    assert state() == "unsigned"
    assert state(ONE) == "signed"
    assert state(replace(ONE, card="")) == "signed"
    assert state(replace(ONE, card="AAAA-0002")) == "recomputed"
    assert state(replace(ONE, figures="BBBB-0002")) == "outdated"


def test_one_that_is_not_as_its_record_has_it_spoils_all():
    assert state(ONE, replace(TWO, held=False), asked=Asked(1)) == "doubtful"


def test_all_have_to_sign_that_the_school_asks_for():
    assert state(ONE, asked=Asked(2)) == "partial"
    assert state(ONE, TWO, asked=Asked(2)) == "signed"
    assert state(ONE, replace(ONE, date="2026-02-28"), asked=Asked(2)) == "partial"
    assert state(ONE, replace(TWO, figures="BBBB-0002"), asked=Asked(2)) == "partial"
    assert state(ONE, TWO, asked=Asked(2, ("instructor", "technician"))) == "partial"


@pytest.mark.parametrize(
    ("roles", "enough"),
    [
        (("instructor",), True),
        (("Instructor", "technician"), False),
        (("instructor", "instructor"), False),
    ],
)
def test_each_role_has_a_person(roles, enough):
    assert is_enough([(ONE.by, ONE.role), (TWO.by, TWO.role)], Asked(2, roles)) is enough


def test_a_signature_is_valid_for_the_schools_months_by_the_first_that_holds():
    asked = Asked(2, months=12)
    assert valid_to(head(ONE, TWO, asked=asked), MARKS) == "2027-01-31"
    stale = replace(ONE, date="2025-01-31", figures="BBBB-0002")
    assert valid_to(head(stale, TWO, asked=Asked(1, months=12)), MARKS) == "2027-02-28"
    assert valid_to(head(ONE, asked=asked), MARKS) == ""  # it is not signed by all
    assert valid_to(head(ONE, TWO), MARKS) == ""


@pytest.mark.parametrize(
    ("day", "months", "then"),
    [  # by the calendar
        ("2026-03-31", 1, "2026-04-30"),
        ("2027-02-28", 12, "2028-02-28"),
        ("2028-02-29", 12, "2029-02-28"),
        ("2026-11-15", 2, "2027-01-15"),
        ("9999-06-01", 12, "9999-06-01"),
    ],
)
def test_months_are_counted_to_the_same_day_or_the_last(day, months, then):
    assert months_after(day, months) == then
