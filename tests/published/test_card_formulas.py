"""The formulas of the cards against handbook figures, or worked by hand where none is published.

Sources: FAA-H-8083-25B, Pilot's Handbook of Aeronautical Knowledge (load factors, true airspeed,
crosswind component, from memory); ICAO Doc 7488; NASA RP-1046; 14 CFR 1.1.
"""

import math

import pytest

from cardgen.air import airspeed, atmosphere, load, wind
from cardgen.airframe.limits import crossover_altitude, limit_at
from cardgen.units import to_si
from tests.conftest import DEMO, documents_of
from tests.reader import Card


@pytest.fixture(scope="module")
def cards():
    return {name: Card(one) for name, one in documents_of(DEMO).items()}


def cell(card, table, row, column):
    """The cell of a table in the row with these headings, under a column's name."""
    found = card.table(table)
    index = [one.name for one in found.columns].index(column)
    return next(line for line in found.rows if tuple(c.text for c in line[: len(row)]) == row)[
        index
    ]


def test_stall_speed_in_a_60_degree_bank_is_1_41_times_as_high(cards):
    """FAA-H-8083-25B, chapter 5: load factor 2 at 60 degrees, stall speed 41 % higher."""
    level, steep = (
        cell(cards["ZZ-WHA"], "stall", ("2750",), f"bank-{bank}-cas") for bank in (0, 60)
    )
    assert steep.value / level.value == pytest.approx(1.414, abs=0.0005)


def test_manoeuvring_speed_at_four_fifths_of_the_weight(aircraft):
    """Worked by hand: 117 x sqrt(2200 / 2750) = 117 x sqrt(0.8) = 117 x 0.89443 = 104.65.

    The manual's own figure, 105 CAS at 2200 lb, is that to the nearest knot.
    """
    ratio = float(load.speed_ratio(2200 / 2750, 1.0))
    assert 117 * ratio == pytest.approx(104.65, abs=0.005)
    assert aircraft["ZZ-WHA"].manoeuvring_cas(2200) == 105


def test_approach_speed_is_1_3_vs0(cards):
    """Common practice; worked by hand: 1.3 x 64 = 83.2 CAS, printed as 84."""
    vref = cell(cards["ZZ-PHN"], "approach", ("9200",), "cas")
    assert vref.value == pytest.approx(83.2)
    assert vref.text == "84"


def test_crossover_altitude(aircraft):
    """Worked by hand from the definitions of ISA and of CAS: VMO 228 kt CAS, MMO 0.52.

    228 / 661.479 = 0.344682; squared, by 0.2: 0.0237612; 1.0237612 ** 3.5 = 1.085664.
    0.52 squared, by 0.2: 0.05408; 1.05408 ** 3.5 = 1.202424.
    Pressure ratio 0.085664 / 0.202424 = 0.423191.
    ISA: 0.423191 ** 0.190263 = 0.849070, so 288.15 / 0.0065 x 0.150930 = 6690.8 m = 21,952 ft;
    the sixth digit of the powers is worth some 2 ft.
    """
    assert crossover_altitude(aircraft["ZZ-PHN"]) == pytest.approx(21_952, abs=2)


def test_below_the_crossover_vmo_is_the_limit_and_above_it_mmo(aircraft):
    """NASA RP-1046: at a constant CAS the Mach number rises with altitude."""
    turbine = aircraft["ZZ-PHN"]
    altitude = crossover_altitude(turbine)
    assert limit_at(turbine, altitude - 100).name == "VMO"
    assert limit_at(turbine, altitude + 100).name == "MMO"


@pytest.mark.parametrize(("metres", "density_ratio"), [(4000, 0.6689), (6000, 0.5389)])
def test_a_tas_limit_falls_with_the_root_of_the_density(aircraft, metres, density_ratio):
    """Density ratios of ICAO Doc 7488, from memory. EAS is TAS x sqrt(density ratio) (14 CFR 1.1).

    Compressibility lifts CAS over EAS by less than 1 km/h at these speeds.
    """
    eas = 286 * math.sqrt(density_ratio)
    assert eas < limit_at(aircraft["ZZ-WTR"], metres).cas < eas + 1.0


def test_tas_factor_at_10_000_ft_standard():
    """FAA-H-8083-25B, chapter 8: 2 % for each 1,000 ft makes 1.20 at 10,000 ft.

    Exactly, 1 / sqrt(0.7385) = 1.1637; the density ratio is ICAO Doc 7488's, from memory.
    """
    pressure = atmosphere.pressure(3048.0)
    density = atmosphere.density(pressure, atmosphere.temperature(3048.0))
    factor = math.sqrt(atmosphere.SEA_LEVEL_DENSITY / density)
    assert factor == pytest.approx(1 / math.sqrt(0.7385), abs=0.0001)
    assert factor < 1.20


def test_ram_rise_at_mach_0_5():
    """Worked by hand: 0.2 x 0.5 squared = 5 % of the absolute temperature; of 260 K, 13 K."""
    assert float(airspeed.total_temperature(260.0, 0.5)) - 260.0 == pytest.approx(13.0)


def test_crosswind_at_30_degrees_is_half_the_wind(cards):
    """FAA-H-8083-25B, chapter 11, from memory: the sine of 30 degrees, so 15 kt across is 30 kt."""
    parts = wind.wind_components(math.radians(30), to_si(30.0, "kt"), 0.0)
    assert float(parts.crosswind) == pytest.approx(to_si(15.0, "kt"))
    assert cell(cards["ZZ-DUA"], "crosswind-limit", ("30°",), "wind").text == "30"


def test_glide_of_9_1_to_1_from_1000_ft(cards):
    """Worked by hand: 9,100 ft is 2,773.68 m, 1.4977 NM; rounded down to 1.4."""
    glide = cell(cards["ZZ-DUA"], "glide", ("1000",), "distance")
    assert glide.value == pytest.approx(1.4977, abs=0.00005)
    assert glide.text == "1.4"


def test_distance_on_a_gallon(cards):
    """Worked by hand, from the row 113 kt and 9.0 gal/h: 113 / 9.0 = 12.55; with 20 kt against it
    93 / 9.0 = 10.33; rounded down to 12.5 and 10.3.
    """
    dunlin = cards["ZZ-DUA"]
    assert cell(dunlin, "economy", ("2000", "2600"), "still").text == "12.5"
    assert cell(dunlin, "economy", ("2000", "2600"), "headwind-20").text == "10.3"
