"""Load factor and stalling speed in turns, as FAA handbooks print them.

FAA-H-8083-25B, Pilot's Handbook of Aeronautical Knowledge, and FAA-H-8083-3, Airplane Flying
Handbook. The values are quoted from memory, but for the 3 G of a 70 degree bank.
"""

import pytest

from cardgen.air.load import load_factor, speed_ratio
from cardgen.units import to_si

# bank, degrees; load factor; rise of the stalling speed, per cent
CHART = [
    (30.0, 1.15, 7),
    (45.0, 1.41, 19),
    (60.0, 2.00, 41),
]


@pytest.mark.parametrize(("bank", "load", "rise"), CHART)
def test_load_factor(bank, load, rise):
    assert load_factor(to_si(bank, "deg")) == pytest.approx(load, abs=0.005)


@pytest.mark.parametrize(("bank", "load", "rise"), CHART)
def test_rise_of_the_stalling_speed(bank, load, rise):
    ratio = speed_ratio(1.0, load_factor(to_si(bank, "deg")))
    assert 100 * (ratio - 1) == pytest.approx(rise, abs=0.5)


def test_bank_of_70_degrees_is_about_3_g():
    # FAA-H-8083-3, steep turns: "approximately 3".
    assert load_factor(to_si(70.0, "deg")) == pytest.approx(3.0, abs=0.5)


def test_stall_of_60_kt_becomes_nearly_85_kt_at_60_degrees():
    # FAA-H-8083-3, steep turns. "Nearly": less than, and rounding to.
    stall = 60.0 * speed_ratio(1.0, load_factor(to_si(60.0, "deg")))
    assert 84.5 <= stall < 85.0


def test_stall_of_50_kt_becomes_100_kt_at_4_g():
    # FAA-H-8083-25B, load factors and stalling speeds.
    assert 50.0 * speed_ratio(1.0, 4.0) == pytest.approx(100.0, rel=1e-12)
