"""Corrections as they are printed: which rows go together, in whose words the rest is told."""

import re

import pytest

from cardgen.definition.corrections import (
    AltimeterCard,
    AltimeterCorrection,
    Calibration,
    InstrumentCorrection,
)
from cardgen.definition.fleet import read_fleet
from cardgen.definition.group import Group, validated
from cardgen.definition.identifiers import copied
from cardgen.definition.model import AirframeDefinition
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.stalling import Stall
from cardgen.definition.upgrading import upgraded
from tests.conftest import ROOT

FORMS = ROOT / "tests/definitions/corrections"


def made(model: type[Group], text: str) -> Group:
    return validated(model, parse_yaml(text.encode(), "f.yaml"))


def faults(model: type[Group], text: str) -> list[str]:
    with pytest.raises(DefinitionError) as caught:
        made(model, text)
    return [str(one).removeprefix("f.yaml:") for one in caught.value.faults]


@pytest.mark.parametrize(
    ("model", "text", "readings"),
    [
        (Calibration, "ias: [50, 60]\ncas: [54, 62]", [(50, 54), (60, 62)]),
        (Calibration, "ias: [50, 60]\nadd to ias: [+4, 2]", [(50, 54), (60, 62)]),
        (Calibration, "ias: [50, 60]\nsubtract from ias: [-4, 2]", [(50, 54), (60, 58)]),
        (Calibration, "cas: [54, 62]\nadd to cas: [-4, -2]", [(50, 54), (60, 62)]),
        (Calibration, "cas: [54, 62]\nsubtract from cas: [4, 2]", [(50, 54), (60, 62)]),
        (InstrumentCorrection, "indicated: [80, 90]\ntrue: [82, 91]", [(80, 82), (90, 91)]),
        (
            InstrumentCorrection,
            "indicated: [80, 90]\nsubtract from indicated: [2, 1]",
            [(80, 78), (90, 89)],
        ),
        (InstrumentCorrection, "true: [80, 90]\nadd to true: [2, 1]", [(82, 80), (91, 90)]),
        (InstrumentCorrection, "true: [80, 90]\nsubtract from true: [2, 1]", [(78, 80), (89, 90)]),
        (AltimeterCard, "indicated: [0, 900]\nadd to indicated: [-30, 10]", [(0, -30), (900, 910)]),
    ],
)
def test_each_form_means_what_is_shown_and_what_should_be(model, text, readings):
    assert made(model, text).readings == readings


def test_a_sum_has_the_digits_of_its_parts():
    """In floating point 80.1 + 0.2 is 80.30000000000001."""
    card = made(InstrumentCorrection, "indicated: [80.1, 90]\nadd to indicated: [0.2, -0.10]")
    assert [true.text for _, true in card.readings] == ["80.3", "89.90"]


@pytest.mark.parametrize(
    ("model", "text", "said"),
    [
        (
            Calibration,
            "ias: [50, 60]",
            "found the rows ias, expected two of these: ias, cas; ias, ",
        ),
        (
            Calibration,
            "ias: [50, 60]\ncas: [51, 61]\nadd to ias: [1, 1]",
            "found the rows ias, cas, add to ias, expected two of these: ",
        ),
        (Calibration, "cas: [50, 60]\nadd to ias: [1, 1]", "found the rows cas, add to ias, exp"),
        (Calibration, "page: 1", "found the rows none, expected two of these: "),
        (InstrumentCorrection, "indicated: [1, 2]\nadd to true: [1, 2]", "found the rows indicat"),
        (AltimeterCorrection, "ias: [50, 60]", "found the rows ias, expected two of these: ias, a"),
    ],
)
def test_rows_that_do_not_go_together_are_told(model, text, said):
    (found,) = faults(model, text)
    assert found.startswith(f"1:1: {said}")


@pytest.mark.parametrize(
    ("model", "text", "said"),
    [
        (
            Calibration,
            "ias: [50, 55]\nadd to ias: [9, 4]",
            "2:17: add to ias: two readings would mean the same airspeed",
        ),
        (
            AltimeterCard,
            "indicated: [0, 50]\nsubtract from indicated: [0, 60]",
            "2:30: subtract from indicated: two readings would mean the same altitude",
        ),
        (
            InstrumentCorrection,
            "indicated: [50, 60]\ntrue: [50, 50]",
            "2:12: true: found 50 after 50, expected more",
        ),
        (
            Calibration,
            "cas: [50, 60]\nadd to cas: [1]",
            "2:1: add to cas: found too few, expected 2 or more",
        ),
        (
            Calibration,
            "ias: [50, 60]\nadd to ias: [1, 2, 3]",
            "2:13: add to ias has 3 figures and ias has 2, expected as many of each",
        ),
        (
            Calibration,
            "ias: [50, 60]\nnormal ias: [49, 58]",
            "2:13: found normal IAS, expected it on the alternate static source only",
        ),
        (
            Calibration,
            "ias: [50, 60]\nadd to ias: [1, 2]\ngives: normal IAS",
            "3:8: found normal IAS, expected it on the alternate static source only",
        ),
        (
            Calibration,
            "ias: [50, 60]\ncas: [51, 62]\ngives: CAS",
            "3:8: found gives, expected it beside add to ias or subtract from ias",
        ),
        (
            Stall,
            "weight: 2000\nbank: [0]\nrows: [{flaps: 0}]",
            "3:8: found no speed, expected ias, cas or both",
        ),
        (
            Stall,
            "bank: [0]\nrows: [{ias: [50]}]",
            "2:8: missing key weight: neither the row nor the table has one",
        ),
    ],
)
def test_a_slip_is_told_at_its_place(model, text, said):
    (found,) = faults(model, text)
    assert re.sub(r"^2:\d+: (add to cas: found too few)", r"2:1: \1", found) == said


def test_a_row_that_is_empty_is_told_once():
    assert faults(Calibration, "ias: [50, 60]\ncas:") == [
        "2:1: cas: found nothing; fill it in, or take the key out"
    ]


# -- the bench card of format 1 ------------------------------------------------------------------

CARD = "registration: ZZ-A\ntype: t\ninstrument correction: {indicated: [50, 90], %s: [+2, -1]}\n"


def airframe(text: str) -> AirframeDefinition:
    return validated(
        AirframeDefinition, upgraded(AirframeDefinition, parse_yaml(text.encode(), "f"))
    )


@pytest.mark.parametrize("first", ["", "format: 1\n"])
def test_the_correction_of_format_1_is_to_be_added(first):
    old, new = airframe(first + CARD % "correction"), airframe(CARD % "add to indicated")
    assert old.instrument_correction.readings == new.instrument_correction.readings == [
        (50, 52), (90, 89)
    ]  # fmt: skip
    assert [one.text for one in old.instrument_correction.add_to_indicated] == ["+2", "-1"]


def test_in_format_2_a_correction_says_which_way_it_goes():
    with pytest.raises(DefinitionError) as caught:
        airframe("format: 2\n" + CARD % "correction")
    assert str(caught.value) == (
        "f:4:46: unknown key correction: write add to indicated or subtract from indicated, as "
        "the card means it"
    )


def test_a_fault_in_the_old_correction_is_told_where_it_stands():
    with pytest.raises(DefinitionError) as caught:
        airframe(CARD.replace("-1", "x") % "correction")
    (fault,) = caught.value.faults
    assert str(fault).startswith("f:3:63: add to indicated: found the words 'x'")


# -- what stands twice, and what is copied -------------------------------------------------------


def test_a_table_without_gear_meets_one_with_gear(make):
    given = [
        {"ias": [50, 100, 200], "cas": [54, 100, 196]},
        {"gear": "down", "ias": [50, 100], "cas": [54, 100]},
    ]
    with pytest.raises(DefinitionError, match="a second table for flaps 0, gear down, normal"):
        make(calibration=given)
    given[0]["gear"] = "up"
    assert len(make(calibration=given).calibrations) == 2


def test_an_altimeter_correction_stands_once_for_a_setting(make):
    def table(**more):
        return {"flaps": 20, "ias": [50, 100], "add to indicated": [10, 20], **more}

    assert make(**{"altimeter correction": [table(), table(altitude=5000)]})
    with pytest.raises(DefinitionError, match="a second altimeter correction for this setting"):
        make(**{"altimeter correction": [table(), table()]})
    with pytest.raises(DefinitionError, match="flaps: found 15, expected one of this type's"):
        make(**{"altimeter correction": [table(flaps=15)]})


@pytest.mark.parametrize(
    ("key", "figures", "said"),
    [
        ("calibration", {"ias": [50, 150], "add to ias": [-60, 2]}, "add to ias: found -60, expec"),
        (
            "altimeter correction",
            {"ias": [50, 150], "add to indicated": [0, 2001]},
            "add to indicated: found 2001, expected -2000 to 2000 ft",
        ),
        (
            "altimeter correction",
            {"altitude": 70000, "ias": [50, 150], "add to indicated": [0, 1]},
            "altitude: found 70000",
        ),
    ],
)
def test_a_correction_out_of_any_range_is_told(make, key, figures, said):
    with pytest.raises(DefinitionError, match=said):
        make(**{key: [figures]})


def test_the_altimeters_bench_card_is_held_to_its_range(make):
    card = {"indicated": [0, 5000], "true": [0, 7500]}
    with pytest.raises(DefinitionError, match="true: found 2500, expected -2000 to 2000 ft"):
        make(airframe={"altimeter correction": card})


def test_every_figure_is_copied_as_it_was_typed_each_by_a_name_of_its_own():
    """Each number of the YAML but those that only head a row, which the names have."""
    spa = next(one for one in read_fleet(FORMS).aircraft if one.registration == "ZZ-SPA")
    found = {one.id.removeprefix("given/"): (one.figure.text, one.unit) for one in copied(spa)}
    assert found["calibration/0/normal/gear-up/100/subtract-from-ias"] == ("+0.5", "kt")
    assert found["calibration/0/normal/gear-down/60/cas"] == ("65", "kt")
    assert found["calibration/20/normal/115/add-to-cas"] == ("1.5", "kt")
    assert found["calibration/0/alternate/gear-up/70/normal-ias"] == ("68", "kt")
    at = "calibration/0/alternate/gear-down/72/subtract-from-ias-for-normal-ias"
    assert found[at] == ("3", "kt")
    assert found["altimeter/0/normal/altitude-0/60/add-to-indicated"] == ("+20", "ft")
    assert found["altimeter/all/alternate/70/subtract-from-indicated"] == ("40", "ft")
    assert found["bench/120/subtract-from-indicated"] == ("+2", "kt")
    assert found["altimeter-bench/-1000/subtract-from-indicated"] == ("-15", "ft")
    assert found["stall/flaps-0/gear-down/weight-4000/bank-60/ias"] == ("87", "kt")
    assert found["stall/flaps-0/gear-up/weight-3400/bank-0/cas"] == ("59", "kt")


def test_what_is_added_keeps_its_name_so_that_signatures_hold(make):
    """Format 1 had it as `correction`; a signature binds to the names of figures."""
    card = {"indicated": [50, 90], "add to indicated": [2, -1]}
    plain = make(airframe={"instrument correction": card})
    found = [one.id for one in copied(plain.definition) if "bench" in one.id]
    assert found == ["given/bench/50/correction", "given/bench/90/correction"]


def test_a_supplement_restates_the_tables_of_its_setting(make):
    manual = [
        {"flaps": 20, "ias": [50, 100], "add to indicated": [10, 20]},
        {"flaps": 20, "altitude": 5000, "ias": [50, 100], "add to indicated": [15, 30]},
        {"static source": "alternate", "ias": [50, 100], "add to indicated": [1, 2]},
    ]
    new = {"flaps": 20, "ias": [50, 100], "subtract from indicated": [7, 9]}
    supplement = {"title": "S", "number": "1", "altimeter correction": [new]}
    plain = make(airframe={"supplements": [supplement]}, **{"altimeter correction": manual})
    found = [(one.setting, one.form[1]) for one in plain.definition.altimeter_correction]
    assert found == [
        (("20", "normal", None), "subtract_from_indicated"),
        (("", "alternate", None), "add_to_indicated"),
    ]


def test_a_supplements_calibration_takes_the_place_of_what_it_meets(make):
    manual = [
        {"gear": gear, "ias": [50, 100, 200], "cas": [54, 100, 196]} for gear in ("up", "down")
    ]
    for gear, kept in (({"gear": "up"}, ["up", "down"]), ({}, [None])):
        new = {**gear, "ias": [50, 200], "add to ias": [3, -3]}
        supplement = {"title": "S", "number": "1", "calibration": [new]}
        plain = make(airframe={"supplements": [supplement]}, calibration=manual)
        found = [one for one in plain.definition.calibration if one.flaps is None]
        assert [one.gear for one in found] == kept
        assert found[0].form == ("ias", "add_to_ias")
