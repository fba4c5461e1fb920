import math

import pytest

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import reckonable
from cardgen.definition.group import validated
from cardgen.definition.model import School
from cardgen.definition.reading import parse_yaml
from cardgen.lessons import reckoning
from cardgen.lessons.lines import line
from cardgen.lessons.reckoning import RESULTS, Case, Reckoning
from cardgen.units import convert, from_si, to_si
from cardgen.words.english import ENGLISH

BARE = validated(School, parse_yaml(b"name: Test school\nreference speeds: {}", "school.yaml"))


def reckon(aircraft: Aircraft, case: Case) -> Reckoning:
    """Work a case from what the aircraft's document holds."""
    return reckoning.reckon(reckonable(aircraft, BARE), case)


def test_the_whole_way_from_indicator_to_ground(aircraft):
    case = Case("ias", 120.0, "0", "normal", 5500.0, 12.0, (240.0, 18.0), 280.0)
    worked = reckon(aircraft["ZZ-WHB"], case).values
    assert worked["instrument_correction"] == pytest.approx(2.0)
    cas = 119 + (138 - 119) * 2 / 20  # the manual's table between 120 and 140, at 122
    assert worked["calibrated_airspeed"] == pytest.approx(cas)
    tas = airspeed.tas_from_cas(
        to_si(cas, "kt"), atmosphere.pressure(to_si(5500.0, "ft")), to_si(12.0, "C")
    )
    assert worked["true_airspeed"] == pytest.approx(float(from_si(tas, "kt")))
    assert worked["headwind"] == pytest.approx(18 * 0.766044443)  # cos 40 deg, from tables
    assert worked["crosswind"] == pytest.approx(-18 * 0.642787610)  # sin 40 deg, from the left
    assert 270 < worked["heading"] < 280
    assert worked["ground_speed"] < worked["true_airspeed"]


def steps(worked):
    found = []
    for step in worked.steps:
        name, number, unit, reason = line(ENGLISH, step)
        found.append((name, f"{number} {unit}".strip(), reason))
    return found


def notes(worked):
    return list(map(ENGLISH.say, worked.notes))


def test_the_working_reads_as_a_pilot_would_write_it_down(aircraft):
    """The case above, line by line.

    Worked apart from the package: 5500 ft is 82 701 Pa, where 120.9 kt CAS is Mach 0.2021, 120.79
    kt EAS and, at 12 C, 132.97 kt TAS; its density is that of 6420 ft. The wind of 18 kt stands 40
    degrees left of the course: 13.79 kt ahead and 11.57 kt across. So the nose is 4.99 degrees left
    of 280, and sqrt(132.97^2 - 11.57^2) - 13.79 = 118.67 kt are left.
    """
    case = Case("ias", 120.0, "0", "normal", 5500.0, 12.0, (240.0, 18.0), 280.0)
    worked = reckon(aircraft["ZZ-WHB"], case)
    assert steps(worked) == [
        ("IAS", "120.0 kt", "given"),
        ("Instrument correction", "+2.0 kt", "bench card"),
        (
            "Position error correction",
            "−1.1 kt",
            "calibration table, flaps 0, normal static source, page 5-8",
        ),
        ("CAS", "120.9 kt", ""),
        (
            "Compressibility correction",
            "−0.1 kt",
            "impact pressure at a pressure altitude of 5500 ft",
        ),
        ("EAS", "120.8 kt", "Mach 0.202"),
        ("Density correction", "+12.2 kt", "density altitude 6420 ft"),
        ("TAS", "133.0 kt", ""),
        ("Wind", "18.0 kt", "from 240°"),
        ("Headwind", "13.8 kt", "along the course"),
        ("Crosswind", "11.6 kt", "from the left"),
        ("Heading", "275°", "into the wind"),
        ("Ground speed", "118.7 kt", ""),
    ]
    assert notes(worked) == []


@pytest.mark.parametrize(
    ("known", "reasons"),
    [
        ("ias", {"IAS": "given", "CAS": "", "TAS": ""}),
        ("cas", {"IAS": "to fly", "CAS": "given", "TAS": ""}),
        ("tas", {"IAS": "to fly", "CAS": "", "TAS": "given"}),
    ],
)
def test_the_working_says_which_speed_was_given(aircraft, known, reasons):
    worked = reckon(aircraft["ZZ-WHB"], Case(known, 110.0, "0", "normal", 4000.0, 10.0))
    said = {name: reason for name, _, reason in steps(worked)}
    assert {name: said[name] for name in reasons} == reasons
    assert notes(worked) == []


@pytest.mark.parametrize(
    ("known", "name"), [("cas", "calibrated_airspeed"), ("tas", "true_airspeed")]
)
def test_what_is_given_comes_back_as_it_was_given(aircraft, known, name):
    """Not through knots and back, which would leave 101.10000000000001 or so of it."""
    for tenths in range(1000, 1200):
        case = Case(known, tenths / 10, "0", "normal", 3000.0, 10.0)
        assert reckon(aircraft["ZZ-DUA"], case).values[name] == tenths / 10


def test_the_corrections_add_up_to_the_way_from_indicated_to_true(aircraft):
    worked = reckon(aircraft["ZZ-DUB"], Case("cas", 100.0, "0", "normal", 9000.0, -20.0))
    said = {name: float(value[:-3].replace("−", "-")) for name, value, _ in steps(worked)}
    corrections = [said[name] for name in said if name.endswith("correction")]
    assert len(corrections) == 4
    assert said["IAS"] + sum(corrections) == pytest.approx(said["TAS"], abs=0.3)
    assert said["Density correction"] > 0


def test_flaps_and_static_source_choose_the_table(make):
    """At an indicated 60 kt, each table takes a different error out."""
    tables = [("0", "normal", 64, "A"), ("40", "normal", 63, "B"), ("0", "alternate", 62, "C")]
    one = make(
        calibration=[
            {
                "flaps": int(flaps),
                "static source": source,
                "page": page,
                "ias": [40, 60, 200],
                "cas": [41, cas, 200],
            }
            for flaps, source, cas, page in tables
        ]
    )
    for flaps, source, cas, page in tables:
        worked = reckon(one, Case("ias", 60.0, flaps, source))
        assert worked.values["calibrated_airspeed"] == pytest.approx(cas)
        reason = f"calibration table, flaps {flaps}, {source} static source, page {page}"
        assert steps(worked)[2] == ("Position error correction", f"+{cas - 60:.1f} kt", reason)
        back = reckon(one, Case("cas", float(cas), flaps, source))
        assert back.values["indicated_airspeed"] == pytest.approx(60.0)


def test_below_sea_level_compressibility_adds(make):
    """At -2000 ft, 195 kt CAS is Mach 0.2846 and 195.14 kt EAS."""
    worked = reckon(make(), Case("cas", 195.0, "0", pressure_altitude=-2000.0))
    said = {name: value for name, value, _ in steps(worked)}
    assert said["Compressibility correction"] == "+0.1 kt"
    assert said["EAS"] == "195.1 kt"


CARD = {"indicated": [40, 200], "correction": [0, 2]}


@pytest.mark.parametrize(
    ("airframe", "reason"),
    [
        ({}, "none is given for this indicator"),
        ({"instrument correction": CARD}, "bench card"),
        ({"instrument correction": {**CARD, "page": "shop report 7"}}, "shop report 7"),
    ],
)
def test_where_the_instrument_correction_comes_from(make, airframe, reason):
    worked = reckon(make(airframe=airframe), Case("ias", 120.0, "0"))
    value = "+1.0 kt" if airframe else "+0.0 kt"
    assert steps(worked)[1] == ("Instrument correction", value, reason)


def test_a_table_without_a_page_is_named_without_one(make):
    worked = reckon(make(), Case("ias", 120.0, "0"))
    assert steps(worked)[2][2] == "calibration table, flaps 0, normal static source"


def test_the_wind_is_named_for_where_it_comes_from(aircraft):
    said = {}
    for wind_from in (30.0, 150.0, 210.0, 330.0, 10.0, 190.0, 92.0):
        case = Case("ias", 100.0, "0", "normal", 0.0, 15.0, (wind_from, 20.0), 0.0)
        worked = {step[0]: step for step in steps(reckon(aircraft["ZZ-WHA"], case))}
        along = worked.get("Headwind") or worked["Tailwind"]
        cross = worked["Crosswind"]
        said[wind_from] = (along[0], along[1], cross[1], cross[2])
    assert said == {
        30.0: ("Headwind", "17.3 kt", "10.0 kt", "from the right"),
        150.0: ("Tailwind", "17.3 kt", "10.0 kt", "from the right"),
        210.0: ("Tailwind", "17.3 kt", "10.0 kt", "from the left"),
        330.0: ("Headwind", "17.3 kt", "10.0 kt", "from the left"),
        10.0: ("Headwind", "19.7 kt", "3.5 kt", "from the right"),
        190.0: ("Tailwind", "19.7 kt", "3.5 kt", "from the left"),
        92.0: ("Tailwind", "0.7 kt", "20.0 kt", "from the right"),
    }


def test_a_breath_of_wind_has_its_side_too(aircraft):
    """Half a knot, from 45 degrees to the right of the nose."""
    case = Case("ias", 100.0, "0", "normal", 0.0, 15.0, (45.0, 0.5), 0.0)
    said = [step for step in steps(reckon(aircraft["ZZ-WHA"], case)) if "wind" in step[0]]
    assert said == [
        ("Headwind", "0.4 kt", "along the course"),
        ("Crosswind", "0.4 kt", "from the right"),
    ]


@pytest.mark.parametrize("registration", ["ZZ-DUA", "ZZ-DUB", "ZZ-WHB", "ZZ-TUA"])
def test_from_tas_and_cas_back_to_what_to_indicate(aircraft, registration):
    one = aircraft[registration]
    forth = reckon(one, Case("ias", 110.0, "0", "normal", 8000.0, -5.0)).values
    for known, name in (("cas", "calibrated_airspeed"), ("tas", "true_airspeed")):
        back = reckon(one, Case(known, forth[name], "0", "normal", 8000.0, -5.0)).values
        for result in RESULTS[:9]:
            assert back[result] == pytest.approx(forth[result], rel=1e-9, abs=1e-9), result


def test_speeds_are_in_the_indicators_unit(aircraft):
    worked = reckon(aircraft["ZZ-DUA"], Case("ias", convert(90.0, "kt", "mph"), "0"))
    assert worked.units == {
        "speed": "mph",
        "altitude": "ft",
        "temperature": "C",
        "angle": "deg",
    }
    assert worked.values["calibrated_airspeed"] == pytest.approx(convert(88.0, "kt", "mph"))


def test_what_has_no_value_is_none_with_a_sentence(aircraft):
    worked = reckon(aircraft["ZZ-DUA"], Case("ias", 30.0, "0", "normal", 1000.0, 10.0))
    assert worked.values["indicated_airspeed"] == 30.0
    assert worked.values["calibrated_airspeed"] is None
    assert worked.values["true_airspeed"] is None
    assert worked.values["density_altitude"] is not None
    assert notes(worked) == [
        "IAS 30 mph lies outside the calibration table for flaps 0, normal static source "
        "(manual's IAS 43 to 155 kt)."
    ]
    said = {name: value for name, value, _ in steps(worked)}
    assert said["IAS"] == "30.0 mph"
    assert said["CAS"] == said["Position error correction"] == "–"


@pytest.mark.parametrize(
    ("case", "note"),
    [
        (
            Case("cas", 300.0, "0", "alternate"),
            "A CAS of 300.0 kt lies outside the calibration table for flaps 0, alternate static "
            "source (manual's IAS 45 to 140 kt) or the bench card.",
        ),
        (
            Case("ias", 60.5, "35", "alternate"),
            "IAS 60.5 kt has no partner: the manual gives no calibration table for flaps "
            "35, alternate static source.",
        ),
        (
            Case("ias", 100.0, "35"),
            "IAS 100 kt lies outside the calibration table for flaps 35, normal static "
            "source (manual's IAS 36 to 80 kt) or the bench card.",
        ),
    ],
)
def test_the_note_says_how_far_the_manual_reaches(aircraft, case, note):
    assert note in notes(reckon(aircraft["ZZ-DUB"], case))


def test_without_an_altitude_there_is_no_more_than_cas(aircraft):
    worked = reckon(aircraft["ZZ-WHA"], Case("ias", 100.0, "0", oat=10.0))
    assert notes(worked) == ["No altitude was given: true airspeed is left out."]
    assert [name for name in RESULTS if worked.values[name] is not None] == [
        "indicated_airspeed",
        "instrument_correction",
        "calibrated_airspeed",
    ]
    assert steps(worked)[-1][0] == "CAS"


def test_without_a_temperature_there_is_equivalent_airspeed_and_no_true(aircraft):
    worked = reckon(aircraft["ZZ-WHA"], Case("ias", 100.0, "0", pressure_altitude=8000.0))
    assert notes(worked) == ["No temperature was given: true airspeed is left out."]
    assert worked.values["pressure_altitude"] == 8000.0
    assert worked.values["mach"] is not None
    assert worked.values["equivalent_airspeed"] < worked.values["calibrated_airspeed"]
    for name in ("true_airspeed", "isa_deviation", "density_altitude"):
        assert worked.values[name] is None
    assert steps(worked)[-1][0] == "EAS"


def test_without_a_true_airspeed_the_wind_has_its_parts_and_no_more(aircraft):
    case = Case("ias", 100.0, "0", wind=(30.0, 20.0), course=0.0)
    worked = reckon(aircraft["ZZ-WHA"], case)
    assert notes(worked)[-1] == "Without a true airspeed there is no heading or ground speed."
    assert worked.values["headwind"] == pytest.approx(20 * math.sqrt(0.75))
    assert worked.values["crosswind"] == pytest.approx(10.0)
    assert worked.values["heading"] is worked.values["ground_speed"] is None
    assert steps(worked)[-1][0] == "Crosswind"


@pytest.mark.parametrize("given", [{"wind": (30.0, 20.0)}, {"course": 0.0}])
def test_a_wind_without_a_course_or_a_course_without_a_wind_gives_nothing(aircraft, given):
    case = Case("ias", 100.0, "0", "normal", 2000.0, 10.0, **given)
    worked = reckon(aircraft["ZZ-WHA"], case)
    assert notes(worked) == []
    for name in ("headwind", "crosswind", "heading", "ground_speed"):
        assert worked.values[name] is None
    assert steps(worked)[-1][0] == "TAS"


def test_a_wind_that_cannot_be_held_leaves_heading_and_ground_speed_out(aircraft):
    case = Case("ias", 60.0, "0", "normal", 0.0, 15.0, (90.0, 80.0), 0.0)
    worked = reckon(aircraft["ZZ-TUA"], Case(**{**case.__dict__, "speed": 70.0}))
    assert worked.values["crosswind"] == pytest.approx(80.0)
    assert worked.values["heading"] is None
    assert worked.values["ground_speed"] is None
    assert notes(worked)[0].startswith(
        "The wind cannot be held: the crosswind, 80.0 kt, is above the true airspeed"
    )
    assert notes(worked)[0].endswith("no heading holds this course.")
