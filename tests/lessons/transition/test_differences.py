"""Every rule of difference on two plain aircraft: what it says, and nothing the other way round."""

import json
from dataclasses import replace

import jsonschema
import pytest

from cardgen.cards.card import make_document
from cardgen.document.data import json_schema, transition_json, transition_of
from cardgen.document.transition import Transition
from cardgen.lessons.transition.differences import RULES
from cardgen.lessons.transition.sheet import transition
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.lessons.test_reckoning import BARE
from tests.plain import SPEEDS, TYPE
from tests.render.test_words import MADE_UP, unmarked

ARCS = {
    "white": {"from": 40, "to": 90},
    "green": {"from": 50, "to": 140},
    "yellow": {"from": 140, "to": 180},
    "red line": {"at": 180},
}
GEAR = {"speeds": {"VLE": {"ias": 130}, "VLO": {"gear": "down", "ias": 120}}}
BENCH = {
    "airframe": {
        "instrument correction": {
            "page": "bench card",
            "reads": "low then high",
            "indicated": [40, 100, 200],
            "add to indicated": [0, 2, 4],
        }
    },
    "markings": ARCS,
}
ALTERNATE = {"flaps": 0, "static source": "alternate", "ias": [50, 100, 150]}
GLIDER = {
    "kind": "glider",
    "flaps": [0],
    "calibration": TYPE["calibration"][:1],
    "speeds": {"VS0": None, "VNO": None, "VFE": None},
}
CRUISE = {"page": "5-1", "weight": 2000, "columns": ["altitude", "rpm", "tas"]}
TURBINE = {
    "kind": "turbine",
    "speeds": {"VNE": None, "VNO": None, "VMO": {"ias": 180}, "MMO": {"mach": 0.45}},
}


def speed(name, ias, **case):
    return {"speeds": {name: {"ias": ias, **case}}}


def alternate(*cas):
    return {"calibration": [*TYPE["calibration"], {**ALTERNATE, "cas": list(cas)}]}


# A rule's name: the first aircraft, the second, what is said; and by which rule the way back is
# told, where the same difference is one there too. Figures by hand from the plain aircraft.
UNIT = "The pointer reads in another unit: 100 kt is 115 mph on it. Read no figure of the old one."
CASES = {
    "another-unit": (
        {},
        {"airframe": {"indicator": {"unit": "mph"}}},
        UNIT,
        "another-unit",
    ),
    "gear-retracts": (
        {},
        GEAR,
        "The landing gear retracts: it is down before you land, and not lowered above 120 kt.",
        "gear-fixed",
    ),
    "one-engine-out": (
        {},
        {"kind": "multi-engine", "speeds": {"VMC": {"ias": 66}, "VYSE": {"ias": 85}}},
        "It has a second engine: with one out it is not held straight below VMC, 66 kt.",
        "",
    ),
    "no-engine": ({}, GLIDER, "It has no engine: every approach is the last.", "flaps-now"),
    "flaps-now": (GLIDER, {}, "It has flaps: 0, 20, 40.", "no-flaps"),
    "mach-limit": ({}, TURBINE, "High up a Mach number limits it: 0.45.", "limit-now"),
    "lower-limit": ({}, speed("VNE", 170), "Never above 170 kt: 10 kt less.", ""),
    "limit-now": (
        {},
        speed("VA", 110),
        "It has VA: not above 110 kt, where the old one has none.",
        "",
    ),
    "higher-stall": ({}, speed("VS0", 43), "It stalls faster: VS0 is 43 kt, 3 kt more.", ""),
    "higher-minimum": (
        speed("VR", 55),
        speed("VR", 60),
        "VR is higher: not below 60 kt, 5 kt more.",
        "",
    ),
    "paint-above-limit": (
        {"markings": ARCS},
        BENCH,
        "The paint says too much: VNO is 137 kt by the bench card, and painted at 140 kt.",
        "bench-gone",
    ),
    "indicator-off": (
        {"markings": ARCS},
        BENCH,
        "Its pointer stands low: at 200 kt it is 4 kt more by the bench card.",
        "bench-gone",
    ),
    "bench-gone": (
        BENCH,
        {"markings": ARCS},
        "It has no bench card: nothing is known of its indicator's own error.",
        "indicator-off",
    ),
    "other-correction": (
        speed("VREF", 60, flaps=40),
        {
            **speed("VREF", 60, flaps=40),
            "calibration": [
                *TYPE["calibration"][:2],
                {"flaps": 40, "ias": [40, 100], "cas": [40, 96]},
            ],
        },
        # 60 is a third of the way: 40 + 56 / 3 here, 46 + 56 / 3 there.
        "On the approach 60 kt on the pointer is 59 kt CAS; the old one has 65 kt there.",
        "other-correction",
    ),
    "alternate-source": (
        alternate(54, 100, 148),
        alternate(48, 90, 138),
        "On the alternate static source the pointer stands high: at 100 kt CAS is 10 kt less.",
        "",
    ),
    "slower-approach": (
        speed("VREF", 70),
        speed("VREF", 60),
        "Slower on the approach: VREF, 60 kt, 10 kt less; flown as the old one it floats.",
        "higher-minimum",
    ),
    "other-glide": (
        speed("best glide", 70),
        speed("best glide", 80),
        "Best glide is faster: 80 kt, 10 kt more.",
        "other-glide",
    ),
    "worse-glide": (
        {"glide": {"ratio": 12}},
        {"glide": {"ratio": 9}},
        "It glides less far: 9 to 1, not 12 to 1.",
        "",
    ),
    "lower-crosswind": (
        {"crosswind": {"demonstrated": 17}},
        {"crosswind": {"demonstrated": 12}},
        "Its demonstrated crosswind is lower: 12 kt, not 17 kt.",
        "",
    ),
    "other-flaps": (
        {},
        {
            "flaps": [0, 15, 40],
            "calibration": [
                {**one, "flaps": {20: 15}.get(one["flaps"], one["flaps"])}
                for one in TYPE["calibration"]
            ],
        },
        "Its flap settings are 0, 15, 40, not 0, 20, 40.",
        "other-flaps",
    ),
    "no-flaps": ({}, GLIDER, "It has no flaps.", "flaps-now"),
    "gear-fixed": (GEAR, {}, "Its landing gear is fixed.", "gear-retracts"),
    "faster-cruise": (
        {"cruise": {**CRUISE, "rows": [[2000, 2400, 100], [4000, 2400, 101]]}},
        {"cruise": {**CRUISE, "rows": [[2000, 2400, 130], [4000, 2400, 131]]}},
        "It cruises at up to 131 kt TAS, 30 kt more: plan further ahead.",
        "",
    ),
    "other-arcs": (
        {"markings": {name: one for name, one in ARCS.items() if name != "yellow"}},
        {"markings": ARCS},
        "Its dial has another mark: Yellow arc.",
        "other-arcs",
    ),
}


@pytest.fixture
def told(make):
    """What is told of two plain aircraft, by rule."""

    def told(first, second) -> dict[str, list[str]]:
        documents = [make_document(make(**one), BARE) for one in (first, second)]
        found: dict[str, list[str]] = {}
        for one in transition(*documents).told:
            found.setdefault(one.rule, []).append(ENGLISH.say(one.said))
        return found

    return told


def test_every_rule_has_a_case():
    assert CASES.keys() == RULES.keys()


@pytest.mark.parametrize("rule", CASES)
def test_a_rule_finds_its_difference_and_not_the_other_way_round(told, rule):
    first, second, said, back = CASES[rule]
    assert said in told(first, second).get(rule, [])
    returning = told(second, first)
    assert said not in [one for several in returning.values() for one in several]
    assert (rule in returning) == (rule == back)
    assert not back or back in returning


def test_two_alike_are_told_nothing_of(told):
    assert told({}, {}) == {}
    assert told(BENCH, BENCH) == {}


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ({"VFE": {"flaps": 40, "ias": 80}}, "Full flaps not above 80 kt: 10 kt less."),
        ({"VNO": {"ias": 130}}, "Above 130 kt in smooth air only: 10 kt less."),
    ],
)
def test_a_lower_limit_is_told_by_what_it_means(told, name, said):
    assert told({}, {"speeds": name})["lower-limit"] == [said]


def test_a_gear_that_is_raised_at_less_than_it_is_lowered_at_is_told_both(told):
    ways = [{"gear": "down", "ias": 140}, {"gear": "up", "ias": 110}]
    found = told({}, {"speeds": {"VLE": {"ias": 150}, "VLO": ways}})
    assert found["gear-retracts"] == [
        "The landing gear retracts: it is down before you land, not lowered above 140 kt, and "
        "not raised above 110 kt."
    ]


def test_half_a_unit_is_no_difference(told):
    assert told({}, speed("VNE", 179.6)) == {}
    assert told({}, speed("VNE", 179)) == {"lower-limit": ["Never above 179 kt: 1 kt less."]}


def test_figures_are_held_in_the_seconds_unit(told):
    """VNE 180 kt is 207 mph; 170 kt is 195 mph, both as the card prints them, rounded down."""
    found = told({}, {**speed("VNE", 170), "airframe": {"indicator": {"unit": "mph"}}})
    assert found["lower-limit"] == ["Never above 195 mph: 12 mph less."]


def test_the_largest_part_of_a_limit_is_told_before_a_smaller(make):
    lower = {"VNE": {"ias": 170}, "VFE": {"flaps": 40, "ias": 70}, "VS0": {"ias": 48}}
    documents = [make_document(make(one), BARE) for one in ({}, lower)]
    said = [ENGLISH.say(one.said) for one in transition(*documents).told]
    assert said[0].startswith("Full flaps not above 70 kt: 20 kt")  # 20 / 70
    assert said[1].startswith("It stalls faster: VS0 is 48 kt, 8 kt")  # 8 / 48
    assert said[2].startswith("Never above 170 kt: 10 kt")  # 10 / 170


# -- the demo fleet, read as somebody would who goes from one to the other ------------------------


def first_five(first: str, second: str) -> list[str]:
    documents = documents_of(DEMO)
    return [
        ENGLISH.say(one.said) for one in transition(documents[first], documents[second]).told[:5]
    ]


def test_what_surprises_in_a_sister_with_a_bench_card_is_told_first():
    said = first_five("ZZ-WHA", "ZZ-WHB")
    assert sum(one.startswith("The paint says too much") for one in said) == 3  # VFE, VNO, VNE
    assert any("VS0 is 48 kt, 1 kt more" in one for one in said)


def test_what_surprises_a_glider_pilot_in_a_turboprop_is_told_first():
    said = first_five("ZZ-WTR", "ZZ-PHN")
    for part in ("another unit", "landing gear retracts", "It has flaps", "Mach", "VS0 is 60 kt"):
        assert any(part in one for one in said)


def test_what_surprises_a_glider_pilot_in_a_twin_is_told_first():
    """Of the demo's pairs this one's differences are the gravest."""
    said = first_five("ZZ-WTR", "ZZ-TUA")
    for part in ("another unit", "gear retracts", "second engine", "It has flaps", "VS0 is 57 kt"):
        assert any(part in one for one in said), part


def test_what_surprises_in_a_retractable_is_told_first_and_the_way_back_too():
    said = first_five("ZZ-DUB", "ZZ-WHB")
    assert said[0].startswith("The landing gear retracts")
    assert said[1] == "It stalls faster: VS0 is 48 kt, 12 kt more."
    assert first_five("ZZ-WHB", "ZZ-DUB")[0] == "Full flaps not above 78 kt: 24 kt less."


# -- side by side ---------------------------------------------------------------------------------


def side_by_side(found: Transition) -> dict[str, tuple[str, str, str]]:
    return {
        ENGLISH.text(line.name): tuple(
            "–" if one is None else ENGLISH.say("next-shown", value=one)
            for one in (line.first, line.second, line.more)
        )
        for beside in found.beside
        for line in beside.lines
    }


def test_the_figures_of_both_stand_side_by_side():
    """As the two cards print them; the difference by hand, in the second's unit."""
    documents = documents_of(DEMO)
    found = side_by_side(transition(documents["ZZ-DUA"], documents["ZZ-WHA"]))
    assert found["VNE"] == ("173 mph", "182 kt", "32 kt")  # 173 mph is 150.3 kt
    assert found["VFE, flaps 20"] == ("–", "113 kt", "–")
    assert found["storm window"] == ("120 mph", "–", "–")
    assert found["Indicator reads"] == ("mph", "kt", "–")
    assert found["White arc"] == ("44–91 mph", "47–104 kt", "–")
    assert found["Flap settings"] == ("0, 10, 35", "0, 10, 20, 40", "–")
    assert found["Maximum weight"] == ("2310 lb", "2750 lb", "440 lb")


def test_a_line_that_is_printed_alike_is_no_difference():
    documents = documents_of(DEMO)
    found = transition(documents["ZZ-DUC"], documents["ZZ-DUC"])
    assert found.told == ()
    assert not any(line.differs for beside in found.beside for line in beside.lines)


def test_corrections_are_those_of_the_two_tables():
    """At 60 kt with flaps in the Dunlin's table has 61; the Whimbrel's has 64."""
    documents = documents_of(DEMO)
    found = transition(documents["ZZ-DUC"], documents["ZZ-WHA"])
    (corrections,) = (one for one in found.beside if one.id == "corrections")
    line = next(one for one in corrections.lines if ENGLISH.text(one.name) == "At 60 kt, flaps 0")
    assert ENGLISH.say("next-shown", value=line.first) == "1.0 kt"
    assert ENGLISH.say("next-shown", value=line.second) == "4.0 kt"


@pytest.mark.parametrize("rule", CASES)
def test_every_word_of_a_difference_is_a_wording(make, rule):
    first, second, *_ = CASES[rule]
    documents = [make_document(make(**one), BARE) for one in (first, second)]
    for one in transition(*documents).told:
        assert unmarked(MADE_UP.say(one.said)) <= {"kt", "mph"}


def test_a_transition_is_read_back_as_it_was_written():
    documents = documents_of(DEMO)
    found = transition(documents["ZZ-WTR"], documents["ZZ-PHN"])
    assert transition_of(transition_json(found)) == found
    jsonschema.validate(json.loads(transition_json(found)), json_schema("next.json"))
    marked = replace(found, told=())
    assert transition_of(transition_json(marked)) != found


def test_speeds_of_the_plain_aircraft_are_as_these_cases_take_them():
    assert (SPEEDS["VNE"], SPEEDS["VS0"]["ias"]) == ({"ias": 180}, 40)


def test_a_mark_without_a_usual_name_is_called_as_the_manual_calls_it(make):
    """Each of them stands beside those of the other aircraft, also of several that are alike."""
    marks = [
        {"name": "white triangle", "at": 110, "shape": "triangle", "means": "flaps 10"},
        {"name": "white triangle", "at": 95, "shape": "triangle", "means": "flaps 20"},
        {"name": "tick", "at": 80},
        {"name": "tick", "at": 70},
    ]
    first, second = (
        make_document(make(markings={**ARCS, **more}), BARE)
        for more in ({}, {"other marks": marks})
    )
    found = transition(first, second)
    now = [ENGLISH.say(one.said) for one in found.told if one.rule == "other-arcs"]
    assert now == [
        f"Its dial has another mark: {one}."
        for one in ("tick", "tick, 70", "white triangle, flaps 10", "white triangle, flaps 20")
    ]
    (dial,) = (one for one in found.beside if one.id == "markings")
    lines = {ENGLISH.text(one.name): one.second for one in dial.lines if one.first is None}
    assert {name: one and one.value for name, one in lines.items()} == {
        "tick": 80,
        "tick, 70": 70,
        "white triangle, flaps 10": 110,
        "white triangle, flaps 20": 95,
    }
    assert [one.rule for one in transition(second, first).told].count("other-arcs") == 4
