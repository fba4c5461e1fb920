"""Advance widths against a PDF reader's, and where lines break."""

import pytest

from cardgen.layout.font import CUTS, advance, lines, longest


@pytest.mark.parametrize("weight", CUTS)
def test_all_digits_and_the_minus_sign_are_of_one_width(weight):
    widths = {advance(letter, weight) for letter in "0123456789−"}
    assert len(widths) == 1


def test_words_are_as_wide_as_their_letters():
    assert advance("1200 kt") == pytest.approx(4 * advance("0") + advance(" ") + advance("kt"))


def test_lines_break_behind_spaces_hyphens_and_the_parts_of_an_address():
    assert longest("one-engine") == advance("engine")
    assert longest("https://cards.example/card") == advance("cards.example/")


@pytest.mark.parametrize("text", ["km/h", "2024-01-05", "60–80", "flaps\N{NO-BREAK SPACE}10"])
def test_units_dates_ranges_and_what_is_tied_are_not_broken(text):
    assert longest(text) == advance(text)
    assert lines(text, 10.0, 1.01 * advance("0" * 4) * 10.0) >= 1


def test_a_word_that_just_fits_is_one_line_and_a_longer_one_is_more():
    width = 10.0 * advance("Approach,")
    assert lines("Approach,", 10.0, width) == 1
    assert lines("Approach, at", 10.0, width) == 2
    assert lines("Approach,", 10.0, 0.6 * width) == 2
