"""Figures that keep a table from being smooth are found, and nothing else is."""

import numpy as np
import pytest

from cardgen.checks.fitting import stand_off

X = np.linspace(-1, 1, 12)
STRAIGHT, CURVED = (np.column_stack([X**n for n in range(count)]) for count in (2, 3))


def rounded(*wrong: tuple[int, float]) -> np.ndarray:
    """A parabola of 100 to 140, rounded to one, with slips in it."""
    y = np.round(120 + 15 * X + 5 * X**2)
    for at, more in wrong:
        y[at] += more
    return y


def test_rounding_is_no_slip():
    assert stand_off([STRAIGHT, CURVED], rounded(), 1.0, 1) == []


@pytest.mark.parametrize("at", range(12))
def test_a_slip_is_found_wherever_it_stands(at):
    ((number, expected),) = stand_off([STRAIGHT, CURVED], rounded((at, 9)), 1.0, 1)
    assert number == at
    assert expected == pytest.approx(rounded()[at], abs=1.5)


def test_two_slips_are_found_together():
    found = stand_off([STRAIGHT, CURVED], rounded((3, 9), (8, -7)), 1.0, 2)
    assert {one.number for one in found} == {3, 8}


def test_more_slips_than_there_may_be_are_left_alone():
    assert stand_off([CURVED], rounded((3, 9), (8, -7)), 1.0, 1) == []


def test_a_table_with_a_bend_of_its_own_is_left_alone():
    bent = np.round(np.where(X < 0, 100.0, 100 + 60 * X))
    assert stand_off([STRAIGHT, CURVED], bent, 1.0, 1) == []


def test_too_few_figures_say_nothing():
    assert stand_off([CURVED[:4]], rounded((1, 9))[:4], 1.0, 1) == []


def test_a_coarser_step_forgives_more():
    assert stand_off([CURVED], rounded((5, 6)), 1.0, 1) != []
    assert stand_off([CURVED], rounded((5, 6)), 10.0, 1) == []
