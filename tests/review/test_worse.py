"""Which changes are for the worse: each that flies nearer to a limit or to the stall."""

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.review.difference import cells_of, moved_cells
from cardgen.review.worse import RULES, Changes, judged

ARCS = {
    "white": {"from": 40, "to": 90},
    "green": {"from": 50, "to": 140},
    "yellow": {"from": 140, "to": 180},
    "red line": {"at": 180},
}
TWIN = {"kind": "multi-engine", "speeds": {"VYSE": {"ias": 85}}}
TAS_TOO = [{"ias": 180}, {"tas": 200, "from altitude": 10000}]
TURBINE = {"kind": "turbine", "speeds": {"VNE": None, "VNO": None}}
BENCH = {"instrument correction": {"indicated": [40, 200], "correction": [0, 0]}}


def limit(name, before, after, case=None, **keys):
    """An aircraft whose speed is one, and another."""
    return [
        {**keys, "speeds": {**keys.get("speeds", {}), name: {**(case or {}), "ias": ias}}}
        for ias in (before, after)
    ]


def marks(**others):
    """Markings, and some of them otherwise; None takes one away."""
    after = {name: one for name, one in {**ARCS, **others}.items() if one is not None}
    return [{"markings": arcs} for arcs in (ARCS, after)]


def vne(*levels):
    rows = [{"ias": 180}, *({"ias": 160, "from altitude": level} for level in levels)]
    return {"speeds": {"VNE": rows}}


def stalls(first, then):
    rows = [
        {"flaps": 0, "ias": [50, 54], "cas": [54, 58]},
        {"flaps": 40, "ias": [40, 43], "cas": [46, 49]},
    ]
    changed = [{**rows[0], "ias": [50, then]}, rows[1]]
    assert rows[0]["ias"][1] == first
    return [{"stall": {"weight": 2000, "bank": [0, 30], "rows": one}} for one in (rows, changed)]


WORSE = {
    "VNE": (*limit("VNE", 180, 185), "raised-limit", "speeds/VNE/indicated"),
    "VNE unknown": (
        {"airframe": BENCH},
        {"airframe": {"instrument correction": {"indicated": [40, 170], "correction": [0, 0]}}},
        "limit-unknown",
        "speeds/VNE/indicated",
    ),
    "VFE": (
        *limit("VFE", 90, 95, {"flaps": 40}),
        "raised-limit",
        "speeds/VFE/flaps-40/indicated",
    ),
    "VLE": (*limit("VLE", 120, 125), "raised-limit", "speeds/VLE/indicated"),
    "VLO": (
        *limit("VLO", 110, 115, {"gear": "down"}),
        "raised-limit",
        "speeds/VLO/gear-down/indicated",
    ),
    "VMO": (*limit("VMO", 160, 165, **TURBINE), "raised-limit", "speeds/VMO/indicated"),
    "VNO": (*limit("VNO", 140, 145), "raised-limit", "speeds/VNO/indicated"),
    "VA": (
        *limit("VA", 110, 112, {"weight": 2000}),
        "raised-limit",
        "speeds/VA/weight-2000/indicated",
    ),
    "stall": (*limit("VS1", 50, 48), "lowered-stall", "speeds/VS1/indicated"),
    "stall at a bank": (
        *stalls(54, 52),
        "lowered-stall",
        "stall/flaps-0/weight-2000/bank-30-indicated",
    ),
    "VMC": (*limit("VMC", 68, 66, **TWIN), "lowered-minimum", "speeds/VMC/indicated"),
    "VREF": (
        *limit("VREF", 65, 63, {"flaps": 40}),
        "lowered-minimum",
        "speeds/VREF/flaps-40/indicated",
    ),
    "altitude": (vne(10000), vne(12000), "later-altitude", "speeds/VNE/from-12000/indicated"),
    "limit gone": (
        *({"speeds": {"VA": entry}} for entry in ({"ias": 110}, None)),
        "limit-gone",
        "speeds/VA/indicated",
    ),
    "limit of a flap setting gone": (
        {"speeds": {"VFE": [{"flaps": 20, "ias": 95}, {"flaps": 40, "ias": 90}]}},
        {"speeds": {"VFE": [{"flaps": 40, "ias": 90}]}},
        "limit-gone",
        "speeds/VFE/flaps-20/indicated",
    ),
    "limit of one way of the gear gone": (
        {"speeds": {"VLO": [{"gear": "down", "ias": 120}, {"gear": "up", "ias": 110}]}},
        {"speeds": {"VLO": [{"gear": "down", "ias": 120}]}},
        "limit-gone",
        "speeds/VLO/gear-up/indicated",
    ),
    "limit high up gone": (
        *({"speeds": {"VNE": rows}} for rows in (TAS_TOO, TAS_TOO[:1])),
        "limit-gone",
        "speeds/VNE/from-10000/when",
    ),
    "minimum gone": (
        *(
            {**TWIN, "speeds": {**TWIN["speeds"], "VMC": {"ias": 68}, "VSSE": one}}
            for one in ({"ias": 76}, None)
        ),
        "minimum-gone",
        "speeds/VSSE/indicated",
    ),
    "red line gone": (
        *marks(**{"red line": None}),
        "marking-gone",
        "markings/red-line/from",
    ),
    "crosswind gone": (
        {"crosswind": {"demonstrated": 15}},
        {},
        "crosswind-gone",
        "crosswind-limit/angle-90/wind",
    ),
    "landing weight": (
        *({"weights": {"maximum": 2000, "names": {"landing": one}}} for one in (1900, 1950)),
        "raised-limit",
        "weights/landing/weight",
    ),
    "white arc": (*marks(white={"from": 40, "to": 95}), "widened-arc", "markings/white/to"),
    "green arc": (*marks(green={"from": 47, "to": 140}), "widened-arc", "markings/green/from"),
    "yellow arc": (
        *marks(yellow={"from": 145, "to": 180}),
        "widened-arc",
        "markings/yellow/from",
    ),
    "red line": (*marks(**{"red line": {"at": 185}}), "widened-arc", "markings/red-line/from"),
    "crosswind": (
        *({"crosswind": {"demonstrated": wind}} for wind in (15, 17)),
        "larger-crosswind",
        "crosswind-limit/angle-90/wind",
    ),
    "bracket": (
        *limit("VFE", 90, 105, {"flaps": 40}),
        "bracket-gone",
        "calibration/indicated-100/flaps-40-normal",
    ),
}


@pytest.fixture
def moved(make, tmp_path):
    """Compare two plain aircraft, each made with some keys."""

    def document(keys):
        return make_document(make(**keys), read_fleet(tmp_path).school)

    def moved(*sides):
        before, after = map(document, sides)
        cells = list(moved_cells(cells_of(before), cells_of(after)))
        return judged(Changes(cells, before, after))

    return moved


@pytest.mark.parametrize("case", WORSE)
def test_it_is_worse_and_the_other_way_round_it_is_not(moved, case):
    before, after, rule, cell = WORSE[case]
    found = {one.id: one.worse for one in moved(before, after)}
    assert found[cell] == rule
    back = moved(after, before)
    assert back
    assert [one for one in back if one.worse == rule] == []


@pytest.mark.parametrize("name", ["VNE", "VFE", "VLE", "VNO", "VA"])
def test_a_lowered_limit_is_in_no_way_worse(moved, name):
    before, after, *_ = WORSE[name]
    assert not any(one.worse for one in moved(after, before))


def test_a_limit_of_a_setting_that_is_called_otherwise_now_is_gone(moved):
    """What was 20 may be 25 now: nobody can say that it is the same."""
    speeds = {"VFE": [{"flaps": 20, "ias": 95}, {"flaps": 40, "ias": 90}]}
    other = {"VFE": [{"flaps": 25, "ias": 99}, {"flaps": 40, "ias": 90}]}
    tables = [{"flaps": flaps, "ias": [45, 100], "cas": [50, 101]} for flaps in (0, 40)]
    plain, new = (
        {"speeds": speeds},
        {"speeds": other, "flaps": [0, 25, 40], "calibration": tables},
    )
    found = {one.id: one.worse for one in moved({**plain, "calibration": tables}, new)}
    assert found["speeds/VFE/flaps-20/indicated"] == "limit-gone"


@pytest.mark.parametrize("turned", [("maximum", "minimum"), ("minimum", "maximum")])
def test_a_limit_that_bounds_the_other_way_is_gone(moved, turned):
    sides = ({"other speeds": {"storm window": {"ias": 105, "sense": one}}} for one in turned)
    found = {one.id: one.worse for one in moved(*sides)}
    kind = "limit" if turned[0] == "maximum" else "minimum"
    assert found["speeds/storm-window/meaning"] == f"{kind}-gone"


def test_a_row_that_another_covers_is_not_missed(moved):
    rows = [{"ias": 180}, {"ias": 185, "from altitude": 5000}]
    both, one = ({"speeds": {"VNE": some}} for some in (rows, rows[:1]))
    assert [each for each in moved(both, one) if each.worse] == []


def test_a_new_setting_is_not_a_raised_limit(moved):
    """Beside a limit that is raised, the row that is new is only new."""
    before = {"speeds": {"VFE": {"flaps": 40, "ias": 90}}}
    after = {"speeds": {"VFE": [{"flaps": 40, "ias": 91}, {"flaps": 20, "ias": 95}]}}
    found = {one.id: one.worse for one in moved(before, after)}
    assert found["speeds/VFE/flaps-40/indicated"] == "raised-limit"
    assert found["speeds/VFE/flaps-20/indicated"] == ""


def test_every_rule_has_a_case():
    assert {rule for _, _, rule, _ in WORSE.values()} == set(RULES)


def test_limits_stand_before_the_rest_and_vne_before_all(moved):
    before = {**vne(), "markings": ARCS}
    raised = {"VNE": {"ias": 185}, "VFE": {"flaps": 40, "ias": 95}, "VS1": {"ias": 48}}
    after = {"speeds": raised, "markings": {**ARCS, "red line": {"at": 185}}}
    found = moved(before, after)
    assert [one.subject for one in found if one.worse and one.column == "indicated"][:3] == [
        "VNE",
        "VFE",
        "VS1",
    ]
    assert found[0].id == "speeds/VNE/indicated"


def test_a_raised_tas_limit_that_no_pointer_shows_is_worse(moved):
    sides = [
        {"speeds": {"VNE": [{"ias": 180}, {"tas": tas, "from altitude": 9000}]}}
        for tas in (190, 195)
    ]
    found = {one.id: one.worse for one in moved(*sides)}
    assert found["speeds/VNE/from-9000/when"] == "raised-limit"


def test_of_a_row_without_a_number_what_it_says_is_told_once(moved):
    """Not its name and page, which a new row has too, nor what is blank in it."""
    later = [*TAS_TOO[:1], {**TAS_TOO[1], "from altitude": 12000}]
    cells = moved({"speeds": {"VNE": TAS_TOO}}, {"speeds": {"VNE": later}})
    rows = [one for one in cells if one.row.startswith("VNE/from")]
    assert {one.id: one.worse for one in rows if one.worse} == {
        "speeds/VNE/from-12000/when": "later-altitude",
        "speeds/VNE/from-10000/when": "limit-gone",
    }
    said = [side for one in rows for side in (one.before, one.after) if side]
    assert len(said) == len(rows)
    assert not any(side.empty for side in said)


@pytest.mark.parametrize(("old", "new"), [("kt", "mph"), ("mph", "kt"), ("kt", "km/h")])
def test_an_indicator_in_another_unit_is_for_the_worse_in_nothing(moved, old, new):
    """Nor does a column that is not needed then take a marking away."""
    before, after = (
        {
            "markings": ARCS,
            "speeds": {"VLE": {"ias": 137}},
            "airframe": {"indicator": {"unit": one}},
        }
        for one in (old, new)
    )
    cells = moved(before, after)
    assert cells
    assert {one.worse for one in cells} == {""}
