"""Glides and polars on the card, each answer worked by hand beside it.

The plain type's flaps 0 table is 54 at 50, 100 at 100, 196 at 200: in a polar given in CAS the
table matters only for what the indicator shows.
"""

import math
from copy import deepcopy

import pytest

from cardgen.airframe.gliding import points, weights_of
from cardgen.cards.card import make_document
from cardgen.cards.gliding import glide_table, gliding_table
from cardgen.cards.polar import polar_best_table, polar_table, speed_to_fly_table
from cardgen.cards.weights import weights_table
from cardgen.cards.wind import crosswind_limit_table, crosswind_table
from cardgen.definition.places import DefinitionError
from cardgen.document.data import from_json, to_json
from cardgen.document.record import Computed, Document, Entered
from cardgen.review.marks import marked
from cardgen.units import from_si
from tests.reader import Table

SINK = {"units": {"speed": "kt", "altitude": "ft", "weight": "lb", "sink": "ft/min"}}
POLAR = {
    "weight": 2000,
    "page": "5-3",
    "cas": [60, 75, 90, 120],
    "sink": [500, 520, 700, 1400],
}
HERE = None  # tables of one aircraft need no school


def texts(table, *columns):
    """Return the texts of a table's rows, in some of its columns."""
    read = Table(table)
    at = [[one.name for one in read.columns].index(name) for name in columns]
    return [[row[n].text for n in at] for row in read.rows]


def cell(table, row, column):
    """Return a cell by the identifier of its row and column."""
    at = [one.id for one in table.columns].index(column)
    return next(one.cells[at] for one in table.rows if one.id == row)


# -- glides --------------------------------------------------------------------------------------


def test_a_ratio_alone_needs_no_table_of_its_own(make):
    plain = make(glide={"ratio": 9.8, "page": "3-9"})
    assert gliding_table(plain, HERE) is None
    assert texts(glide_table(plain, HERE), "height", "distance")[0] == ["1000", "1.6"]


def test_a_distance_for_a_height_gives_a_ratio(make):
    """1.6 NM are 2963.2 m, 1000 ft 304.8 m: 9.7218, down to 9.7; and the manual's own distance."""
    units = {**SINK["units"], "distance": "nm"}
    glide = {"distance": 1.6, "for height": 1000, "ias": 70, "sink": 740, "page": "3-9"}
    plain = make(units=units, glide=glide)
    given = gliding_table(plain, HERE)
    assert texts(given, "ratio", "distance", "for-height", "indicated", "sink") == [
        ["9.7", "1.6", "1000", "70", "740"]
    ]
    ratio = cell(given, "glide", "ratio")
    assert isinstance(ratio.origin, Computed)
    assert ratio.quantity.value == pytest.approx(9.7218, abs=0.00005)
    assert isinstance(cell(given, "glide", "distance").origin, Entered)
    assert given.is_mixed
    rows = texts(glide_table(plain, HERE), "height", "distance")
    assert [rows[0], rows[9]] == [["1000", "1.6"], ["10,000", "16.0"]]


@pytest.mark.parametrize(
    ("unit", "distance", "ratio", "far"),
    [("nm", 1.0, "6.0", "NM"), ("km", 2.0, "6.5", "km"), ("mi", 1.2, "6.3", "mi")],
)
def test_distances_stand_in_the_manuals_own_unit(make, unit, distance, ratio, far):
    """1852, 2000 and 1931.2 m over 304.8 m are 6.076, 6.562 and 6.336."""
    units = {**SINK["units"], "distance": unit}
    plain = make(units=units, glide={"distance": distance, "for height": 1000})
    assert texts(gliding_table(plain, HERE), "ratio") == [[ratio]]
    found = glide_table(plain, HERE)
    assert found.columns[1].unit == far
    assert texts(found, "distance")[0] == [f"{distance:.1f}"]


def test_each_of_several_glides_has_a_row_and_a_column(make):
    glides = [
        {"ratio": 9, "weight": 2000, "flaps": 0, "gear": "up"},
        {"ratio": 7, "flaps": 20, "when": "propeller windmilling", "cas": 100},
        {"ratio": 7, "flaps": 20, "when": "propeller windmilling", "cas": 102},
    ]
    plain = make(glide=glides)
    given = Table(gliding_table(plain, HERE))
    assert [row[0].text for row in given.rows] == [
        "flaps 0, gear up, 2000 lb",
        *["flaps 20, propeller windmilling"] * 2,
    ]
    assert texts(given.of, "indicated", "cas")[1] == ["99", "100"]  # 100 is 101 CAS, 45 is 50
    found = glide_table(plain, HERE)
    assert [one.id for one in found.columns] == [
        "height",
        "distance-flaps-0-gear-up-weight-2000",
        "distance-flaps-20-propeller-windmilling",
        "distance-flaps-20-propeller-windmilling-2",
    ]
    identifiers = set(plain.identifiers.values())
    assert {f"given/glide/flaps-20/propeller-windmilling{n}/cas" for n in ("", "/2")} <= identifiers


# -- weights and crosswind -----------------------------------------------------------------------


def test_named_weights_stand_as_entered(make):
    plain = make(weights={"maximum": 2000, "names": {"ramp": 2010, "zero fuel": 1850.5}})
    assert "given/weights/zero-fuel" in plain.identifiers.values()
    assert texts(weights_table(plain, HERE), "limit", "weight") == [
        ["maximum", "2000"],
        ["ramp", "2010"],
        ["zero fuel", "1850.5"],
    ]


def test_without_named_weights_there_is_no_table(make):
    assert weights_table(make(), HERE) is None


def test_a_crosswind_in_its_own_unit(make):
    """8 m/s are 28,800 m in the hour, 15.551 kt; with the wind at 90 degrees rounded down."""
    plain = make(crosswind={"demonstrated": 8, "unit": "m/s", "page": "4-8"})
    limit = Table(crosswind_limit_table(plain, HERE))
    assert limit.title == "Maximum demonstrated crosswind, 8 m/s"
    assert list(limit.rows)[-1][1].text == "15"
    beyond = {row[0].text: row[-1].beyond for row in Table(crosswind_table(plain, HERE)).rows}
    assert (beyond["15"], beyond["20"]) == (False, True)


# -- polars --------------------------------------------------------------------------------------


def test_a_polar_is_printed_as_entered(make):
    polar = {**POLAR, "cas": [60, 75, 90.0, 120], "sink": [500, 520, 700, 1400.5]}
    plain = make(**SINK, polar=polar)
    table = polar_table(plain, HERE)
    assert texts(table, "cas", "sink")[3] == ["120", "1400.5"]
    assert cell(table, "weight-2000/cas-75", "sink").origin.figure == (
        "given/polar/weight-2000/cas-75/sink"
    )
    # 75 CAS: 21 of 46 between 54 and 100, so 50 + 50 * 21 / 46 = 72.8
    assert cell(table, "weight-2000/cas-75", "indicated").quantity.value == pytest.approx(
        72.826, abs=0.001
    )


def test_least_sink_and_best_glide(make):
    """Ratios at sea level, 1 kt = 101.2686 ft/min: 60 over 4.937 kt is 12.15, 75 over 5.135 is
    14.61, 90 over 6.912 is 13.02. So 75 leads farthest and 60, the first point, sinks least.
    """
    table = polar_best_table(make(**SINK, polar=POLAR), HERE)
    row = "weight-2000"
    assert texts(table, "least-sink-cas", "best-glide-cas", "best-glide-ratio") == [
        ["60", "75", "14.6"]
    ]
    assert cell(table, row, "least-sink-sink").quantity.value == pytest.approx(500)
    assert cell(table, row, "least-sink-indicated").beside.said.id == "polar-end"
    assert cell(table, row, "best-glide-indicated").beside is None


def test_a_lighter_aircraft_flies_by_the_square_root(make):
    """At 1280 lb of 2000 the root of the ratio is 0.8: 60 CAS at 400 ft/min; the ratio stays."""
    weights = {"maximum": 2000, "others": [1280]}
    table = polar_best_table(make(**SINK, weights=weights, polar=POLAR), HERE)
    assert texts(table, "weight", "best-glide-cas", "best-glide-ratio", "least-sink-sink") == [
        ["2000", "75", "14.6", "500"],
        ["1280", "60", "14.6", "400"],
    ]
    inputs = {one.name: one for one in cell(table, "weight-1280", "best-glide-cas").origin.inputs}
    assert inputs["known-weight"].source == "given/polar/weight-2000"
    assert inputs["weight"].value.value == 1280


def test_a_polar_serves_the_weights_up_to_its_own(make):
    lighter = {**POLAR, "weight": 1600, "cas": [55, 68, 82, 110], "sink": [450, 460, 640, 1250]}
    weights = {"maximum": 2000, "others": [1500, 1700]}
    table = polar_best_table(make(**SINK, weights=weights, polar=[POLAR, lighter]), HERE)
    known = {
        row.id: {one.name: one for one in row.cells[2].origin.inputs}["known-weight"].value.value
        for row in table.rows
    }
    assert known == {
        "weight-2000": 2000,
        "weight-1700": 2000,
        "weight-1600": 1600,
        "weight-1500": 1600,
    }


def served(make, weights, *polars):
    """Return the weights that each of some polars serves."""
    plain = make(**SINK, weights=weights, polar=[deepcopy({**POLAR, **one}) for one in polars])
    return [weights_of(plain, one) for one in plain.definition.type.polar]


def test_the_heaviest_polar_serves_what_is_heavier_too(make):
    weights = {"maximum": 2000, "others": [1500]}
    assert served(make, weights, {"weight": 1600}, {"weight": 1800}) == [
        [1600, 1500],
        [2000, 1800],
    ]


@pytest.mark.parametrize("other", [{"flaps": 20}, {"altitude": 5000}, {"when": "with ballast"}])
def test_polars_of_other_flaps_altitude_or_condition_are_no_rivals(make, other):
    """Each of them serves every weight."""
    weights = {"maximum": 2000, "others": [1500]}
    assert served(make, weights, {"weight": 1600}, {"weight": 1800, **other}) == [
        [2000, 1600, 1500],
        [2000, 1800, 1500],
    ]


def test_a_polar_that_says_no_weight_is_no_rival(make):
    unsaid = {key: value for key, value in POLAR.items() if key != "weight"}
    plain = make(
        **SINK, weights={"maximum": 2000, "others": [1500]}, polar=[POLAR, deepcopy(unsaid)]
    )
    found = [weights_of(plain, one) for one in plain.definition.type.polar]
    assert found == [[2000, 1500], [None]]


def test_of_two_polars_alike_the_first_serves(make):
    weights = {"maximum": 2000}
    assert served(make, weights, {}, {}) == [[2000], []]


def test_a_polar_in_ias_goes_through_the_table_of_its_flaps(make):
    """With flaps 40, 70 and 100 kt IAS are 74 and 102 kt CAS, in air at sea level TAS too."""
    polar = {"flaps": 40, "ias": [70, 100], "sink": [500, 900]}
    plain = make(**SINK, polar=polar)
    found = points(plain, plain.definition.type.polar[0], None)
    assert from_si(found.speed, "kt") == pytest.approx([74.0, 102.0])


def test_a_polar_is_as_it_is_given_where_no_weight_is_named(make):
    plain = make(**SINK, polar=POLAR)
    found = points(plain, plain.definition.type.polar[0], None)
    assert from_si(found.speed, "kt") == pytest.approx(POLAR["cas"])
    assert from_si(found.sink, "ft/min") == pytest.approx(POLAR["sink"])


def test_a_polar_without_a_weight_is_flown_as_it_is(make):
    polar = {key: value for key, value in POLAR.items() if key != "weight"}
    table = polar_best_table(
        make(**SINK, weights={"maximum": 2000, "others": [1280]}, polar=polar), HERE
    )
    assert texts(table, "weight", "best-glide-cas") == [["as given", "75"]]
    assert "square root" not in " ".join(Table(table).notes)
    fly = speed_to_fly_table(make(**SINK, polar=polar), HERE)
    assert [block.heading for block in fly.blocks] == [None]


def test_true_airspeeds_of_a_polar_are_those_of_its_altitude(make):
    """At 10,000 ft TAS is 1.1637 times EAS (ICAO Doc 7488, from memory): 75 CAS is 87.2 TAS."""
    tas = [one * 1.1637 for one in POLAR["cas"]]
    polar = {**POLAR, "altitude": 10000, "tas": [round(one, 1) for one in tas]}
    del polar["cas"]
    table = polar_best_table(make(**SINK, polar=polar), HERE)
    assert cell(table, "altitude-10000/weight-2000", "best-glide-cas").quantity.value == (
        pytest.approx(75, abs=0.1)
    )
    printed = polar_table(make(**SINK, polar=polar), HERE)
    assert texts(printed, "tas") == [[f"{one:.1f}"] for one in tas]


def test_wind_and_air_move_the_speed(make):
    """In kt: sinks 4.937, 5.135, 6.912, 13.825. Into 30 kt: 30, 45, 60, 90 over them are 6.08,
    8.76, 8.68, 6.51: 75. In air down 200 ft/min, 1.975 kt, still: 8.68, 10.55, 10.13, 7.59: 75;
    into 30 kt: 4.34, 6.33, 6.75, 5.70: 90. With 20 kt behind: 80, 95, 110, 140 over the sinks
    are 16.2, 18.5, 15.9, 10.1: 75.
    """
    table = speed_to_fly_table(make(**SINK, polar=POLAR), HERE)
    cas = {75: 72.826, 90: 50 + 50 * 36 / 46}
    for row, column, expected in (
        ("still", "headwind-30", 75),
        ("sinking-200", "still", 75),
        ("sinking-200", "headwind-30", 90),
        ("still", "tailwind-20", 75),
    ):
        found = cell(table, f"weight-2000/{row}", column)
        assert found.quantity.value == pytest.approx(cas[expected], abs=0.001), (row, column)
        assert found.beside is None


def test_the_end_of_the_polar_is_said(make):
    table = speed_to_fly_table(make(**SINK, polar={**POLAR, "sink": [500, 505, 510, 515]}), HERE)
    assert cell(table, "weight-2000/still", "still").beside.said.id == "polar-end"
    assert any("End:" in note for note in Table(table).notes)


def test_air_that_carries_gives_a_dash(make):
    polar = {**POLAR, "sink": [90, 120, 300, 900]}
    table = speed_to_fly_table(make(**SINK, polar=polar), HERE)
    assert cell(table, "weight-2000/rising-100", "still").is_dash
    assert any("A dash: no tangent" in note for note in Table(table).notes)


def test_a_speed_above_the_limit_or_below_the_stall_stands_in_brackets(make):
    """VNE is 85 here, the stall at 2000 lb 79 CAS: 90 is too fast and 75 too slow, by the polar."""
    speeds = {"VNE": {"ias": 85, "cas": 86}, "VNO": {"ias": 80}, "VS1": {"ias": 77, "cas": 79}}
    table = speed_to_fly_table(make(speeds, **SINK, polar=POLAR), HERE)
    fast = cell(table, "weight-2000/sinking-200", "headwind-30")
    slow = cell(table, "weight-2000/still", "still")
    assert (round(fast.quantity.value, 1), fast.beyond) == (89.1, True)
    assert (round(slow.quantity.value, 1), slow.beyond) == (72.8, True)
    assert any("In brackets: above a limit there, or slower" in one for one in Table(table).notes)
    within = speed_to_fly_table(make(**SINK, polar=POLAR), HERE)
    assert not any(one.beyond for row in within.rows for one in row.cells)


def test_flaps_have_their_own_limit_and_stall(make):
    polar = {**POLAR, "flaps": 40, "cas": [50, 60, 70, 95], "sink": [500, 520, 700, 900]}
    table = speed_to_fly_table(make(**SINK, polar=polar), HERE)
    fast = cell(table, "flaps-40/weight-2000/sinking-600", "still")
    assert fast.quantity.value == pytest.approx(40 + 60 * 49 / 56)  # of 95 CAS: 92.5, VFE is 90
    assert fast.beyond


def test_points_that_the_calibration_table_does_not_reach_are_left_out(make):
    """IAS 45 has no CAS; the first point that has is then the end."""
    polar = {"weight": 2000, "ias": [45, 60, 80], "sink": [300, 500, 900]}
    table = polar_best_table(make(**SINK, polar=polar), HERE)
    assert texts(table, "best-glide-indicated") == [["60"]]
    assert cell(table, "weight-2000", "best-glide-indicated").beside.said.id == "polar-end"
    few = make(**SINK, polar={"weight": 2000, "ias": [45, 48, 60], "sink": [300, 500, 900]})
    assert texts(polar_best_table(few, HERE), "best-glide-indicated", "best-glide-ratio") == [
        ["–", "–"]
    ]


def test_where_the_indicator_is_not_known_only_cas_is(make):
    """A polar to 40 CAS, below the calibration table: CAS is printed, and IAS left blank."""
    polar = {**POLAR, "cas": [40, 45, 50], "sink": [500, 490, 700]}
    table = polar_best_table(make(**SINK, polar=polar), HERE)
    assert texts(table, "least-sink-indicated", "least-sink-cas") == [["", "45"]]
    assert any("only CAS is known" in note for note in Table(table).notes)
    assert cell(
        speed_to_fly_table(make(**SINK, polar=polar), HERE), "weight-2000/still", "still"
    ).is_dash


def test_an_indicator_in_another_unit_and_with_a_bench_card(make):
    """75 CAS is 72.826 IAS, 83.81 mph; the card adds 2, so the pointer stands at 81.8."""
    airframe = {
        "indicator": {"unit": "mph"},
        "instrument correction": {"indicated": [40, 250], "correction": [2, 2]},
    }
    plain = make(**SINK, airframe=airframe, polar=POLAR)
    found = cell(polar_best_table(plain, HERE), "weight-2000", "best-glide-indicated")
    assert found.quantity.value == pytest.approx(72.826 * 1.15078 - 2, abs=0.01)
    assert found.quantity.unit == "mph"


# -- what is needed, and what is kept ------------------------------------------------------------


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"polar": POLAR}, "missing key sink: the glide or polar gives it"),
        ({"glide": {"ratio": 9, "sink": 700}}, "missing key sink"),
        ({"glide": {"distance": 2, "for height": 1000}}, "missing key distance"),
        ({"glide": [{"page": "3-1"}]}, "found no glide, expected ratio, or distance"),
        ({"glide": {"ratio": 9, "flaps": 10}}, "flaps: found 10, expected one of this type's"),
    ],
)
def test_what_is_missing_is_told(make, keys, said):
    with pytest.raises(DefinitionError, match=said):
        make(**keys)


def test_every_figure_is_in_the_record_and_in_the_mark(make, fleet):
    keys = {
        "units": {**SINK["units"], "distance": "nm"},
        "weights": {"maximum": 2000, "names": {"least pilot": 120}},
        "glide": [{"ratio": 9}, {"distance": 1.6, "for height": 1000, "when": "windmilling"}],
        "polar": POLAR,
        "crosswind": {"demonstrated": 8, "unit": "m/s"},
    }
    document = marked(make_document(make(**keys), fleet.school))
    given = {one.id: one.value for one in document.given}
    assert given["given/crosswind/demonstrated"].unit == "m/s"
    assert given["given/weights/least-pilot"].entered == "120"
    assert given["given/glide/windmilling/for-height"].unit == "ft"
    assert {
        f"given/polar/weight-2000/cas-{one}{of}" for one in POLAR["cas"] for of in ("", "/sink")
    } <= set(given)
    assert from_json(to_json(document), Document) == document
    for name, spoiled in {
        "weights": {"maximum": 2000, "names": {"least pilot": 121}},
        "polar": {**POLAR, "sink": [500, 520, 700, 1401]},
        "crosswind": {"demonstrated": 8, "unit": "kt"},
        "glide": [{"ratio": 9}, {"distance": 1.6, "for height": 999, "when": "windmilling"}],
    }.items():
        other = marked(make_document(make(**{**keys, name: spoiled}), fleet.school))
        assert other.marks.figures != document.marks.figures, name


def test_what_is_drawn_is_what_is_printed(make, fleet):
    document = make_document(make(**SINK, polar=POLAR), fleet.school)
    (curve,) = document.basis.polars
    assert curve.sink == tuple(POLAR["sink"])
    assert curve.tas == pytest.approx(POLAR["cas"])  # at sea level
    assert (curve.least, curve.best) == (0, 1)
    assert not math.isnan(sum(curve.tas))
