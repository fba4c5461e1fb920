"""From what the altimeter shows to pressure altitude; each figure worked by hand."""

import math

import pytest

from cardgen.air import airspeed, atmosphere
from cardgen.cards.card import reckonable
from cardgen.definition.group import validated
from cardgen.definition.model import School
from cardgen.definition.reading import parse_yaml
from cardgen.lessons.altimeter import Altimeter
from cardgen.lessons.lines import line
from cardgen.lessons.reckoning import Case, reckon
from cardgen.units import from_si, to_si
from cardgen.words.english import ENGLISH

BARE = validated(School, parse_yaml(b"name: Test school\nreference speeds: {}", "school.yaml"))
STANDARD = 101325.0  # Pa: with this set an altimeter shows pressure altitude

CARD = {"page": "sheet 4", "indicated": [0, 4000, 8000], "subtract from indicated": [0, 40, 60]}
SEA = {"flaps": 0, "altitude": 0, "page": "5-3", "ias": [50, 150], "add to indicated": [+20, -30]}
HIGH = {
    "flaps": 0,
    "altitude": 10000,
    "page": "5-3",
    "ias": [50, 150],
    "add to indicated": [+30, -50],
}
FORTY = {"flaps": 40, "ias": [50, 90], "subtract from indicated": [10, 50]}
ALTERNATE = {"static source": "alternate", "ias": [50, 150], "subtract from indicated": [100, 300]}
TABLES = {"altimeter correction": [SEA, HIGH, FORTY, ALTERNATE]}


def worked(aircraft, known="ias", speed=100.0, flaps="0", source="normal", **more):
    more = {"altimeter": Altimeter(4000.0, STANDARD), **more}
    return reckon(reckonable(aircraft, BARE), Case(known, speed, flaps, source, **more))


def pressure_altitude(*case, **more):
    return worked(*case, **more).values["pressure_altitude"]


def test_the_bench_card_comes_first_then_the_manual_at_the_ias(make):
    """4000 ft are 3960 by the card; at 100 kt between -5 at sea level and -10 at 10,000: -6.98."""
    plain = make(airframe={"altimeter correction": CARD}, **TABLES)
    assert pressure_altitude(plain) == pytest.approx(3960 - 5 - 5 * 0.396)


@pytest.mark.parametrize(
    ("case", "feet"),
    [
        ({"speed": 50.0}, 4000 + 20 + 10 * 0.4),  # between two altitudes
        ({"altimeter": Altimeter(0.0, STANDARD)}, -5.0),  # at one of them
        ({"altimeter": Altimeter(10000.0, STANDARD)}, 9990.0),
        ({"flaps": "40", "speed": 70.0}, 4000 - 30.0),  # a table for every altitude
        ({"source": "alternate", "flaps": "0"}, 3800.0),  # and one for every flap setting
    ],
)
def test_a_case_has_its_table(make, case, feet):
    calibration = [
        {"ias": [50, 100, 200], "cas": [54, 100, 196]},
        {"flaps": 40, "ias": [40, 100], "cas": [46, 102]},
        {"static source": "alternate", "ias": [50, 200], "cas": [50, 190]},
    ]
    assert pressure_altitude(make(calibration=calibration, **TABLES), **case) == pytest.approx(feet)


@pytest.mark.parametrize(
    "case",
    [
        {"speed": 160.0},  # beyond the table
        {"altimeter": Altimeter(10001.0, STANDARD)},  # above the highest altitude
        {"flaps": "20"},  # a setting that the source's tables leave out
        {"flaps": "40", "speed": 95.0},
    ],
)
def test_where_no_table_reaches_there_is_no_pressure_altitude(make, case):
    done = worked(make(**TABLES), **case, oat=10.0)
    assert done.values["pressure_altitude"] is done.values["true_airspeed"] is None
    assert any("altimeter's corrections do not reach" in ENGLISH.say(one) for one in done.notes)
    step = line(ENGLISH, done.altimeter[-1])
    assert step.number == "–"


def test_beyond_the_bench_card_there_is_none(make):
    plain = make(airframe={"altimeter correction": CARD})
    assert pressure_altitude(plain, altimeter=Altimeter(8001.0, STANDARD)) is None


def test_a_source_without_tables_has_no_correction(make):
    plain = make(**{"altimeter correction": [ALTERNATE]})
    done = worked(plain)
    assert done.values["pressure_altitude"] == pytest.approx(4000.0)
    assert said(done)[-1] == (
        "Altimeter correction", "+0 ft", "the manual gives none for this static source"
    )  # fmt: skip


def said(done):
    return [(one.name, f"{one.number} {one.unit}".strip(), one.reason)
            for one in (line(ENGLISH, step) for step in done.altimeter)]  # fmt: skip


def test_each_step_says_where_it_comes_from(make):
    plain = make(airframe={"altimeter correction": CARD}, **TABLES)
    done = worked(plain)
    assert said(done) == [
        ("Altimeter shows", "4000 ft", "given"),
        ("Altimeter's bench card", "−40 ft", "sheet 4"),
        (
            "Altimeter correction",
            "−7 ft",
            "altimeter correction, flaps 0, normal static source, page 5-3",
        ),
    ]
    assert [(one.formula, one.page) for one in done.altimeter] == [
        ("", ""),
        ("altimeter-correction", "sheet 4"),
        ("altimeter-correction", "5-3"),
    ]


def test_without_any_correction_nothing_is_said_of_one(make):
    done = worked(make())
    assert done.altimeter == []
    assert done.values["pressure_altitude"] == pytest.approx(4000.0)


def test_the_setting_is_taken_off_after_the_corrections(make):
    """145,366 ft * (1 - (1003.25 / 1013.25) ** 0.190284) = 274.1 ft (ICAO Doc 7488)."""
    plain = make(airframe={"altimeter correction": CARD})
    found = pressure_altitude(plain, altimeter=Altimeter(4000.0, 100325.0))
    lower = float(atmosphere.pressure_altitude_from_setting(to_si(3960.0, "ft"), 100325.0))
    assert found == pytest.approx(float(from_si(lower, "ft")))
    assert found - 3960 == pytest.approx(274.1, abs=0.2)


def test_the_ias_is_that_of_a_cas_too(make):
    """CAS 77 is IAS 75 with flaps up: +7.5 and +10 ft at 75 kt, +8.5 at 4000 ft."""
    assert pressure_altitude(make(**TABLES), "cas", 77.0) == pytest.approx(4008.5)


@pytest.mark.parametrize("air", [{"oat": 5.0}, {"isa": -3.0}])
def test_of_a_tas_the_ias_is_that_at_the_altitude_that_it_leads_to(make, air):
    """Held against itself: at what was found, the TAS has the IAS that the correction is for."""
    done = worked(make(**TABLES), "tas", 120.0, **air)
    feet = done.values["pressure_altitude"]
    oat = air.get("oat")
    if oat is None:
        oat = 15.0 - 0.0019812 * feet - 3.0
    pressure = atmosphere.pressure(to_si(feet, "ft"))
    cas = from_si(airspeed.cas_from_tas(to_si(120.0, "kt"), pressure, to_si(oat, "C")), "kt")
    ias = 100 + (float(cas) - 100) / 0.96 if cas > 100 else 50 + (float(cas) - 54) / 0.92
    share = (ias - 50) / 100
    low, high = 20 - 50 * share, 30 - 80 * share
    assert feet == pytest.approx(4000 + low + 0.4 * (high - low), abs=1e-3)
    assert done.values["indicated_airspeed"] == pytest.approx(ias)


def test_a_difference_from_standard_is_one_at_the_corrected_altitude(make):
    plain = make(airframe={"altimeter correction": CARD})
    done = worked(plain, isa=10.0)
    assert done.values["isa_deviation"] == pytest.approx(10.0)
    assert not math.isnan(done.values["true_airspeed"])


def test_the_gear_has_its_table_and_is_named(make):
    tables = [
        {"gear": "up", "ias": [50, 100], "cas": [54, 100]},
        {"gear": "down", "page": "5-2", "ias": [50, 100], "cas": [56, 103]},
    ]
    plain = make(calibration=tables)
    by_gear = {gear: worked(plain, gear=gear) for gear in ("up", "down", "")}
    found = {gear: one.values["calibrated_airspeed"] for gear, one in by_gear.items()}
    assert found == {"up": 100.0, "down": 103.0, "": 100.0}
    reasons = {gear: ENGLISH.text(one.steps[2].reason) for gear, one in by_gear.items()}
    assert reasons[""] == reasons["up"]
    assert reasons == {
        "": "calibration table, flaps 0, gear up, normal static source",
        "up": "calibration table, flaps 0, gear up, normal static source",
        "down": "calibration table, flaps 0, gear down, normal static source, page 5-2",
    }
