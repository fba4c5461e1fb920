"""Which stall speeds are asked for a gear, where the manual gives some for either."""

from types import SimpleNamespace

import pytest

from cardgen.airframe.stalling import of_gear

UP, DOWN, EITHER = (SimpleNamespace(gear=gear) for gear in ("up", "down", ""))


@pytest.mark.parametrize(
    ("known", "gear", "found"),
    [
        ([UP, DOWN, EITHER], "down", [DOWN]),
        ([UP, EITHER], "down", [EITHER]),
        ([UP], "down", []),
        ([UP, DOWN, EITHER], "", [EITHER]),
        ([UP, DOWN], "", [UP]),
        ([DOWN], "", [DOWN]),
        ([DOWN, UP, UP], "up", [UP, UP]),
    ],
)
def test_that_of_the_gear_then_that_of_either_then_if_none_is_asked_the_usual_one(
    known, gear, found
):
    assert of_gear(known, gear, usual="up") == found
