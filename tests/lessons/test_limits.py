"""A case says each limit that it passes, by one and not by one less; nothing else."""

import pytest

from cardgen.cards.card import reckonable
from cardgen.lessons.lines import limit_passed
from cardgen.lessons.reckoning import Case, reckon
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.plain import TYPE
from tests.sound.fleets import others

REGISTRATIONS = sorted(path.stem.upper() for path in DEMO.glob("fleet/*.yaml"))
SAID = ("VNE", "VMO", "VFE", "VNO", "VA", "VO", "VRA", "VW", "VT")


@pytest.fixture(scope="module")
def documents():
    return documents_of(DEMO)


def named(document, shown: float, flaps: str, **more) -> set[str]:
    """The limits that an indication passes."""
    return {one.speed for one in reckon(document, Case("ias", shown, flaps, **more)).passed}


def limits(document):
    """Each limit of the card as it is printed: its name, figure, flaps and gear."""
    table = document.table("speeds")
    columns = [column.id for column in table.columns]
    highest = {}
    for row in table.rows:
        cell = row.cells[columns.index("indicated")]
        flaps = row.id.partition("flaps-")[2].partition("/")[0] or document.basis.flaps[0]
        moved = row.id.partition("gear-")[2].partition("/")[0]
        if row.subject in (*SAID, "VLE", "VLO") and cell.quantity is not None:
            key = (row.subject, flaps, moved)
            highest[key] = max(highest.get(key, 0.0), cell.quantity.value)
    return [(*key, value) for key, value in highest.items()]


@pytest.mark.parametrize("registration", REGISTRATIONS)
def test_each_limit_of_the_card_is_said_from_one_above_it_on(documents, registration):
    document = documents[registration]
    found = limits(document)
    assert len(found) >= 4
    for name, flaps, moved, value in found:
        before = {"down": "up", "up": "down"}.get(moved, "down" if name == "VLE" else "")
        assert name in named(document, value + 1, flaps, gear=before), (name, flaps)
        assert name not in named(document, value - 1, flaps, gear=before), (name, flaps)
        assert name not in named(document, value, flaps, gear=before), (name, flaps)


def test_a_case_at_a_weight_is_told_the_manoeuvring_speed_that_the_card_has_there(documents):
    """The same question put to a table and to a case has one answer."""
    asked = 0
    for document in (*documents.values(), *others().values()):
        for row in table.rows if (table := document.table("manoeuvring")) else ():
            weight, shown = (row.cells[n].quantity for n in (0, 1))
            if shown is None or weight.value > document.basis.weights[0]:
                continue
            flaps, name = document.basis.flaps[0], table.title.values["speed"]
            at = [
                named(document, shown.value + more, flaps, weight=weight.value) for more in (0, 1)
            ]
            assert [name in one for one in at] == [False, True], (
                document.head.registration,
                row.id,
            )
            asked += 1
    assert asked > 40


def test_a_flap_limit_is_in_force_with_those_flaps_only(documents):
    document = documents["ZZ-DUA"]
    assert "VFE" in named(document, 120.0, "10")
    assert "VFE" not in named(document, 120.0, "0")


def test_gear_down_is_a_limit_only_where_the_gear_is_down(documents):
    document = documents["ZZ-WHA"]
    assert "VLE" in named(document, 131.0, "0", gear="down")
    assert "VLE" not in named(document, 131.0, "0", gear="up")
    assert "VLE" not in named(document, 131.0, "0")


def test_gear_that_is_up_may_be_lowered_and_gear_that_is_down_raised(documents):
    """Of ZZ-WHA the manual says VLO 130 kt to lower the gear and 107 kt to raise it."""

    def said(**gear: str) -> set[str]:
        worked = reckon(documents["ZZ-WHA"], Case("ias", 131.0, "0", **gear))
        return {limit_passed(ENGLISH, one) for one in worked.passed if one.speed == "VLO"}

    lowered = "Above VLO, 130 kt: the landing gear is not to be extended."
    raised = "Above VLO, 107 kt: the landing gear is not to be retracted."
    assert said(gear="up") == {lowered}
    assert said(gear="down") == {raised}
    assert said() == {lowered, raised}
    assert "VLO" not in named(documents["ZZ-WHA"], 120.0, "0", gear="up")


# -- made-up aircraft, each with a figure that the demo fleet has none of -------------------------


def test_a_limit_from_an_altitude_on_is_not_said_below_it(make, fleet):
    """VNE 180 kt, from 10,000 ft on 150 kt: at 160 kt only the second is passed, and only there."""
    speeds = {"VNE": [{"ias": 180}, {"ias": 150, "from altitude": 10000}]}
    document = reckonable(make(speeds), fleet.school)
    assert "VNE" not in named(document, 160.0, "0", pressure_altitude=9000.0)
    assert "VNE" not in named(document, 160.0, "0")
    assert "VNE" in named(document, 160.0, "0", pressure_altitude=10000.0)
    assert "VNE" not in named(document, 150.0, "0", pressure_altitude=10000.0)


@pytest.mark.parametrize(
    ("said", "halfway"),
    [({}, 140.0), ({"between": "interpolate"}, 160.0)],
    ids=["the lower of two rows", "interpolated"],
)
def test_a_limit_by_altitude_holds_between_the_manuals_rows(make, fleet, said, halfway):
    """180 kt at sea level and 140 kt at 10,000 ft; halfway between the figures are 160 kt."""
    speeds = {"VNE": [{"altitude": 0, "ias": 180}, {"altitude": 10000, "ias": 140, **said}]}
    document = reckonable(make(speeds), fleet.school)
    held = ((-500.0, 180.0), (0.0, 180.0), (5000.0, halfway), (10000.0, 140.0))
    for altitude, most in held:
        assert "VNE" not in named(document, most, "0", pressure_altitude=altitude)
        assert "VNE" in named(document, most + 0.01, "0", pressure_altitude=altitude)
    assert "VNE" not in named(document, 190.0, "0", pressure_altitude=11000.0)
    assert "VNE" in named(document, 181.0, "0")  # wherever that is
    assert "VNE" not in named(document, 180.0, "0")


def test_a_mach_limit_by_altitude_is_said_too(make, fleet):
    """Mach 0.2 at sea level is 132.3 kt CAS: 0.2 of 661.48 kt, the standard speed of sound there.

    Between IAS 100 and 200 CAS grows by 0.96, so it is IAS 133.6 kt.
    """
    mach = [{"altitude": 0, "mach": 0.2}, {"altitude": 10000, "mach": 0.2}]
    speeds = {"VNE": None, "VNO": None, "VMO": {"ias": 180}, "MMO": mach}
    document = reckonable(make(speeds, kind="turbine"), fleet.school)
    assert "MMO" not in named(document, 133.0, "0", pressure_altitude=0.0)
    assert "MMO" in named(document, 134.0, "0", pressure_altitude=0.0)


@pytest.mark.parametrize(("altitude", "is_above"), [(10000.0, False), (10001.0, True)])
def test_above_the_last_row_it_is_said_that_there_is_no_limit(make, fleet, altitude, is_above):
    speeds = {"VNE": [{"altitude": 0, "ias": 180}, {"altitude": 10000, "ias": 140}]}
    document = reckonable(make(speeds), fleet.school)
    done = reckon(document, Case("ias", 100.0, "0", pressure_altitude=altitude))
    said = [one for one in done.notes if one.id == "note-above-the-last-row"]
    assert bool(said) == is_above
    assert all(one.values["altitude"].value == 10000.0 for one in said)


def test_a_limit_that_falls_from_its_last_row_on_is_said(make, fleet):
    """160 kt up to 4,000 ft, then 4 kt less for each 1,000 ft: 150 kt at 6,500 ft."""
    rows = [{"altitude": 4000, "ias": 160, "less": 4, "for each": 1000}]
    document = reckonable(make({"VNE": rows}), fleet.school)
    for altitude, most in ((0.0, 160.0), (6500.0, 150.0)):
        assert "VNE" not in named(document, most, "0", pressure_altitude=altitude)
        assert "VNE" in named(document, most + 0.01, "0", pressure_altitude=altitude)
    assert not any("last-row" in one.id for one in reckon(
        document, Case("ias", 100.0, "0", pressure_altitude=9000.0)).notes)  # fmt: skip


def test_vno_by_altitude_is_that_of_the_altitude(make, fleet):
    speeds = {"VNO": [{"altitude": 0, "ias": 140}, {"altitude": 10000, "ias": 120}]}
    document = reckonable(make(speeds), fleet.school)
    assert "VNO" in named(document, 121.0, "0", pressure_altitude=5000.0)
    assert "VNO" not in named(document, 120.0, "0", pressure_altitude=5000.0)


def test_a_red_line_past_the_bench_cards_end_is_still_a_limit(make, fleet):
    """The bench card ends at 160 kt; nobody knows what is off at 180, where the paint is."""
    bench = {"instrument correction": {"indicated": [50, 160], "correction": [0, 0]}}
    document = reckonable(make(airframe=bench), fleet.school)
    assert "VNE" in named(document, 181.0, "0")
    assert "VNE" not in named(document, 180.0, "0")


def test_a_static_source_that_reads_low_passes_a_limit_early(make, fleet):
    """VNE 180 kt is CAS 176.8 kt, which this alternate source shows as 171.8 kt."""
    alternate = {"flaps": 0, "static source": "alternate", "ias": [50, 200], "cas": [55, 205]}
    tables = [*TYPE["calibration"], alternate]
    document = reckonable(make(calibration=tables), fleet.school)
    assert "VNE" in named(document, 172.0, "0", static_source="alternate")
    assert "VNE" not in named(document, 171.0, "0", static_source="alternate")
    assert "VNE" not in named(document, 172.0, "0")


@pytest.mark.parametrize("registration", ["ZZ-PHN", "ZZ-WTR"])
@pytest.mark.parametrize("column", ["limit", "limit-warm"])
def test_the_limit_by_altitude_is_the_tables(documents, aircraft, registration, column):
    document = documents[registration]
    table = document.table("altitude-limits")
    columns = [one.id for one in table.columns]
    if column not in columns:
        return
    seen = 0
    for row in table.rows:
        altitude = row.cells[0].quantity.value
        limit = row.cells[columns.index(column)].quantity.value
        oat = float(aircraft[registration].standard_temperature(altitude))
        air = {"pressure_altitude": altitude, "oat": oat + (20 if column == "limit-warm" else 0)}
        names = {"VNE", "VMO", "MMO"}
        assert named(document, limit + 0.01, document.basis.flaps[0], **air) & names
        assert not named(document, limit - 0.01, document.basis.flaps[0], **air) & names
        seen += 1
    assert seen >= 7


def test_limits_in_force_are_named_first_and_told_apart(documents):
    worked = reckon(documents["ZZ-DUA"], Case("ias", 175.0, "10", "normal", 2000.0, 10.0))
    assert [one.binding for one in worked.passed] == [True, True, False, False, False]
    assert [one.speed for one in worked.passed][-1] == "storm window"
    said = [limit_passed(ENGLISH, one) for one in worked.passed]
    assert "Above VNE, 173 mph: never to be exceeded." in said
    assert "Above VFE for flaps 10, 113 mph." in said
    assert any(one.startswith("Above VA, ") and "lower when lighter" in one for one in said)


@pytest.mark.parametrize("registration", REGISTRATIONS)
def test_brackets_of_the_true_airspeed_table_and_reckoning_agree(documents, registration):
    """What the table brackets passes a limit in force, and what it does not passes none."""
    document = documents[registration]
    head = document.head
    table = document.table("true-airspeed")
    names = {"VNE", "VMO", "MMO"}
    marked = 0
    for block in table.blocks:
        shown = block.heading.values["shown"].value
        for row in block.rows:
            altitude = row.cells[0].quantity.value
            for column, cell in list(zip(table.columns, row.cells, strict=True))[1:]:
                if cell.quantity is None:
                    continue
                warmth = float(column.id.split("-", 1)[1])
                if column.id.startswith("isa"):
                    metres = altitude * (0.3048 if head.units.altitude == "ft" else 1.0)
                    warmth += 15.0 - 0.0065 * min(metres, 11000.0)
                air = {"pressure_altitude": altitude, "oat": warmth}
                over = named(document, shown, document.basis.flaps[0], **air) & names
                assert bool(over) == cell.beyond, (row.id, column.id)
                marked += cell.beyond
    assert (marked > 0) == (registration == "ZZ-PHN")


def test_a_limit_in_cas_says_so(documents):
    """CAS 155 kt is outside ZZ-DUA's table; of VNE the manual gives CAS 147 kt beside IAS 151."""
    worked = reckon(documents["ZZ-DUA"], Case("cas", 155.0 * 1.852 / 1.609344, "0"))
    said = [limit_passed(ENGLISH, one) for one in worked.passed]
    assert said[0] == "Above VNE, 147 kt CAS: never to be exceeded."


def test_the_working_shows_two_rows_and_the_arithmetic(documents):
    worked = reckon(documents["ZZ-WHB"], Case("ias", 110.0, "0"))
    told = [ENGLISH.say(step.working) for step in worked.steps if step.working]
    assert told == [
        "100 is 101 and 120 is 122: 101 + (110 − 100) ÷ (120 − 100) × (122 − 101) = 111.5 kt",
        "100 is 101 and 120 is 119: 101 + (111.5 − 100) ÷ (120 − 100) × (119 − 101) = 111.4 kt",
    ]


@pytest.mark.parametrize(
    ("shown", "flaps", "speed"),
    [(61.0, "10", "62"), (62.0, "10", ""), (61.0, "0", "62"), (200.0, "0", "")],
)
def test_below_the_minimum_control_speed_is_said(shown, flaps, speed):
    done = reckon(documents_of(DEMO)["ZZ-TUA"], Case("ias", shown, flaps))
    said = [ENGLISH.say(one) for one in done.notes if one.id == "note-below-VMC"]
    wanted = f"Below VMC, {speed} kt: with an engine failed it may not be kept straight."
    assert said == ([wanted] if speed else [])
