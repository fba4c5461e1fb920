"""What a lesson's drawing comes to, held to physics that shares no line with the package."""

import math
from dataclasses import replace

import pytest

from cardgen.document.record import Document, Quantity
from cardgen.document.teaching import Lesson, Teaching, Told
from cardgen.lessons.teaching.page import teaching
from cardgen.lessons.teaching.told import told
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of

KINDS = ["ZZ-DUB", "ZZ-TUA", "ZZ-PHN", "ZZ-WTR"]  # single, twin, turbine, glider
KNOT, FOOT = 1852 / 3600, 0.3048
SPEED = {"kt": KNOT, "mph": 1609.344 / 3600, "km/h": 1 / 3.6}
HEIGHT = {"ft": FOOT, "m": 1.0}


@pytest.fixture(scope="module")
def cards() -> dict[str, Document]:
    return documents_of(DEMO)


def lesson_of(card: Document, name: str) -> Lesson:
    return next(one for one in teaching(card).lessons if one.id == name)


def asked(card: Document, name: str, **state: float) -> Told:
    lesson = lesson_of(card, name)
    usual = {one.name: one.at for one in lesson.sliders}
    return told(card, name, lesson.given, {**usual, **state})


def static(metres: float) -> float:
    """Pressure below 11 km by the common form with its rounded constants (ICAO Doc 7488)."""
    return 101325 * (1 - 2.25577e-5 * metres) ** 5.25588


def impact(cas: float) -> float:
    """Impact pressure by the first terms of its series in speed (NASA RP-1046)."""
    mach = cas / 340.294
    return 0.5 * 1.225 * cas**2 * (1 + mach**2 / 4 + mach**4 / 40)


def value(one: object) -> float:
    assert isinstance(one, Quantity)
    return one.value


# -- the lessons ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", KINDS)
def test_each_kind_is_taught_all_that_its_figures_reach_for(cards, name):
    found = teaching(cards[name])
    names = [one.id for one in found.lessons]
    assert names == ["pressure", "blocked", "arcs", "position", "true", "wind"]
    assert found.gaps == ()
    assert [one.name.id for one in found.way if not one.way] == [
        f"term-{one}" for one in ("IAS", "CAS", "EAS", "TAS", "GS")
    ]


def test_an_aircraft_without_markings_or_speeds_says_what_is_left_out(cards):
    card = cards["ZZ-WTR"]
    bare = replace(
        card,
        tables=tuple(one for one in card.tables if one.id != "speeds"),
        basis=replace(card.basis, markings=None, levels=()),
    )
    found = teaching(bare)
    assert [one.id for one in found.lessons] == ["position"]
    assert [one.table for one in found.gaps] == ["pressure", "blocked", "arcs", "true", "wind"]
    assert found.own.id == "teach-own-none"
    assert found.way == ()


def test_sisters_with_the_same_figures_have_it_from_one_another(cards):
    card = cards["ZZ-WTR"]
    again = replace(card, head=replace(card.head, registration="ZZ-WTS"))
    assert teaching(again) is teaching(card)
    other = replace(card, head=replace(card.head, indicator_unit="kt"))
    assert teaching(other) is not teaching(card)


def test_every_sentence_can_be_said(cards):
    for card in cards.values():
        for lesson in teaching(card).lessons:
            assert all(ENGLISH.say(one) for one in (*lesson.told.said, *lesson.said))


# -- what the openings feel ----------------------------------------------------------------------


@pytest.mark.parametrize("name", KINDS)
def test_the_openings_feel_the_standard_atmosphere_and_what_stops_the_flow(cards, name):
    card = cards[name]
    lesson = lesson_of(card, "pressure")
    for cas in (lesson.sliders[0].first, lesson.sliders[0].last):
        for height in (0.0, lesson.sliders[1].last):
            found = asked(card, "pressure", cas=cas, altitude=height)
            outside = static(height * HEIGHT[card.head.units.altitude])
            more = impact(cas * SPEED[card.head.indicator_unit])
            assert value(found.labels["static"]) == pytest.approx(outside / 100, rel=2e-4)
            assert value(found.labels["total"]) == pytest.approx((outside + more) / 100, rel=2e-4)


@pytest.mark.parametrize("name", KINDS)
def test_a_blocked_source_errs_by_the_change_of_pressure(cards, name):
    """Too little above, too much below, and by as much as the pressure between the two heights."""
    card = cards[name]
    lesson = lesson_of(card, "blocked")
    unit, height = SPEED[card.head.indicator_unit], HEIGHT[card.head.units.altitude]
    true, at = lesson.given["cas"], lesson.given["altitude"]
    (slider,) = lesson.sliders
    for gained in (slider.first, slider.at, 0.0):
        shown = value(asked(card, "blocked", gained=gained).labels["shown"])
        less = static(at * height) - static((at + gained) * height)
        assert impact(shown * unit) == pytest.approx(impact(true * unit) - less, rel=3e-3)
        assert (shown > true) == (gained < 0)
        assert (shown < true) == (gained > 0)


def test_a_pointer_that_has_no_pressure_left_rests_at_its_stop(cards):
    found = asked(cards["ZZ-WTR"], "blocked", gained=100.0)
    assert value(found.labels["shown"]) == 0.0
    assert [one.id for one in found.said] == ["told-blocked-stop"]


@pytest.mark.parametrize("gained", [-50.0, 0.0, 20.0])
def test_what_is_said_of_a_blocked_source_is_what_it_shows(cards, gained):
    (said,) = asked(cards["ZZ-WTR"], "blocked", gained=gained).said
    ways = {-50.0: "too much", 0.0: "is right", 20.0: "too little"}
    assert ways[gained] in ENGLISH.say(said)


# -- arcs, and errors ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shown", "said"),
    [
        (40.0, "in the white arc"),
        (79.0, "in these arcs: white, green"),
        (80.0, "in the green arc"),
        (119.0, "in these arcs: green, yellow"),
        (151.0, "in the yellow arc"),
        (152.0, "above the red line"),
        (30.0, "outside all arcs"),
    ],
)
def test_the_pointer_stands_where_it_is_painted(cards, shown, said):
    """ZZ-DUB: white 38 to 79, green 45 to 119, yellow to the red line at 151."""
    found = asked(cards["ZZ-DUB"], "arcs", shown=shown)
    assert said in ENGLISH.say(found.said[0])


def test_a_limit_that_a_bench_card_tightens_is_named_below_the_paint(cards):
    """The bench card of ZZ-WHB puts VNE at 179, where the red line is painted at 182."""
    said = [[one.id for one in asked(cards["ZZ-WHB"], "arcs", shown=at).said] for at in (179, 180)]
    assert said == [["told-arc", "told-in-yellow"], ["told-arc", "told-in-yellow", "passed-VNE"]]


def test_a_gap_is_that_of_the_manuals_table(cards):
    """The glider's table begins with 64 IAS for 68 CAS, and ends with 255 for 251."""
    card = cards["ZZ-WTR"]
    assert asked(card, "position", ias=64.0).drawn["at"] == (64.0, 4.0)
    assert asked(card, "position", ias=255.0).drawn["at"] == (255.0, -4.0)
    outside = asked(card, "position", ias=60.0)
    assert outside.drawn["at"] == ()
    assert [one.id for one in outside.said] == ["note-indicated-outside"]


def test_a_limit_that_flaps_set_is_named(cards):
    """Flaps 35 of ZZ-DUA have a table to 80 kt, and a VFE of 79."""
    card = cards["ZZ-DUC"]
    slow, fast = (asked(card, "position", ias=one, setting=2.0) for one in (60.0, 80.0))
    assert [one.id for one in slow.said][2:] == []
    assert [one.id for one in fast.said][2:] == ["passed-VFE"]


def test_a_hectopascal_moves_the_pointer_by_what_the_square_law_says(cards):
    """Of CAS: dv = dp / (rho v), less than that as the speed itself grows; sea-level density."""
    said = asked(cards["ZZ-WTR"], "position", ias=255.0).said[1]
    by, cas = said.values["by"], 251.0 / 3.6
    assert value(by) == pytest.approx(100 / (1.225 * cas) * 3.6, rel=0.03)


# -- true airspeed and wind ----------------------------------------------------------------------


@pytest.mark.parametrize("name", ["ZZ-DUB", "ZZ-WTR"])
def test_tas_grows_as_the_root_of_the_density(cards, name):
    """At speeds where compressibility is nothing: TAS = CAS by the root of 1.225 over density."""
    card = cards[name]
    height, unit = HEIGHT[card.head.units.altitude], card.head.indicator_unit
    for altitude, isa in ((0.0, 0.0), (3000.0 / height, 20.0), (2000.0 / height, -30.0)):
        found = asked(card, "true", altitude=altitude, isa=isa)
        kelvin = 288.15 - 0.0065 * altitude * height + isa
        density = static(altitude * height) / (287.05 * kelvin)
        cas, (tas, _) = found.drawn["cas"][0], found.drawn["at"]
        assert tas == pytest.approx(cas * math.sqrt(1.225 / density), rel=2e-3), unit


@pytest.mark.parametrize("name", KINDS)
def test_the_point_stands_on_its_curve(cards, name):
    card = cards[name]
    given = lesson_of(card, "true").given
    curve = asked(card, "true", isa=10.0).drawn["curve"]
    for end, n in (("low", 0), ("high", -1)):
        tas, _ = asked(card, "true", altitude=given[end], isa=10.0).drawn["at"]
        assert curve[n] == pytest.approx(tas, abs=2e-6)


@pytest.mark.parametrize("blows", [(20.0, 10.0), (90.0, 15.0), (200.0, 5.0), (300.0, 20.0)])
def test_the_triangle_closes(cards, blows):
    """The arrow of TAS and that of the wind, put end to end, lie along the course."""
    card = cards["ZZ-TUA"]
    came, speed = blows
    found = asked(card, "wind", **{"from": came, "wind": speed})
    across, along = found.drawn["air"]
    (ground,) = found.drawn["ground"]
    assert across - speed * math.sin(math.radians(came)) == pytest.approx(0.0, abs=1e-5)
    assert along - speed * math.cos(math.radians(came)) == pytest.approx(ground, abs=1e-5)
    lesson = lesson_of(card, "true")
    at = {name: lesson_of(card, "wind").given[name] for name in ("altitude", "isa")}
    tas, _ = told(card, "true", lesson.given, at).drawn["at"]
    assert math.hypot(across, along) == pytest.approx(tas, rel=1e-6)
    turned = math.degrees(math.atan2(across, along)) % 360
    assert value(found.labels["heading"]) == math.floor(turned + 0.5)


def test_a_table_has_no_figure_above_a_limit(cards):
    """At 10,000 ft an MMO as low as this one is passed by VY, where lower down it is not."""
    card = cards["ZZ-PHN"]
    slow = tuple(
        replace(one, value=0.21) if one.quantity == "mach" else one for one in card.basis.bounds
    )
    held = replace(card, basis=replace(card.basis, bounds=slow))
    figures = lesson_of(held, "true").figures
    assert figures is not None
    known = [[cell is not None for cell in cells] for _, cells in figures.rows]
    assert known[0] == [True, True, True]
    assert known[-1] == [False, False, False]


def test_the_page_begins_with_the_first_speed_that_the_card_has(cards):
    def own(card: Document) -> Teaching:
        return teaching(card)

    assert ENGLISH.say(own(cards["ZZ-DUB"]).own).startswith("The figures begin with VY: ")
    assert "best glide" in ENGLISH.say(own(cards["ZZ-WTR"]).own)
