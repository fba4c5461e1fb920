"""When a PDF says that it was made.

SOURCE_DATE_EPOCH is a decimal number of seconds, and a value that is none ends a build; from
memory of its specification, reproducible-builds.org/specs/source-date-epoch.
"""

import pytest

from cardgen.render.stamp import epoch


@pytest.mark.parametrize("said", ["0", "1700000000", "99999999999"])
def test_seconds_are_taken(monkeypatch, said):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", said)
    assert epoch() == int(said)


@pytest.mark.parametrize("said", ["", "abc", "1e9", "-1", " 1", "1.5", "\u0663", "9" * 14])
def test_what_is_no_number_of_seconds_is_said(monkeypatch, said):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", said)
    with pytest.raises(OSError, match="expected whole seconds from 1970"):
        epoch()


def test_without_it_the_date_says_nothing(monkeypatch):
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    assert epoch() == 946_684_800  # 2000-01-01
