"""On the card: speeds by the manual's own name, ranges, one figure for several flap settings."""

import pytest

from cardgen.cards.card import make_document, reckonable
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.lessons.lines import limit_passed
from cardgen.lessons.reckoning import Case, reckon
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO

AIRBRAKES = {"airbrakes": {"ias": 120, "sense": "maximum", "page": "2-3"}}
BENCH = {"instrument correction": {"indicated": [30, 200], "correction": [2, 2]}}


@pytest.fixture
def school():
    return read_fleet(DEMO).school


def rows(document, table="speeds"):
    """Each row's figures and words as they are printed, by row and column."""
    made = document.table(table)
    return {
        row.id: {
            column.id: ENGLISH.figure(cell)
            for column, cell in zip(made.columns, row.cells, strict=True)
        }
        for row in made.rows
    }


def block_of(document, row):
    table = document.table("speeds")
    return next(block.id for block in table.blocks if row in [one.id for one in block.rows])


def test_a_speed_by_the_manuals_own_name_stands_where_its_sense_puts_it(make, school):
    other = {**AIRBRAKES, "cruise climb": {"ias": 85, "flaps": 0, "page": "4-4"}}
    document = make_document(make(**{"other speeds": other}), school)
    printed = rows(document)
    assert printed["airbrakes"]["speed"] == "airbrakes"
    assert printed["airbrakes"]["indicated"] == "120"
    assert printed["airbrakes"]["meaning"] == "not above"
    assert printed["airbrakes"]["page"] == "2-3"
    assert block_of(document, "airbrakes") == "limits"
    assert printed["cruise-climb/flaps-0"]["cas"] == "86"  # 85 is 85.7 between 50 and 100
    assert block_of(document, "cruise-climb/flaps-0") == "flown"


def test_nothing_is_usual_for_a_name_so_that_no_table_is_guessed(make, school):
    """The type has three flap settings, and the manual does not say which."""
    named = {"precautionary landing": {"ias": 60}}
    printed = rows(make_document(make(**{"other speeds": named}), school))
    assert printed["precautionary-landing"]["cas"] == ""
    given = {"precautionary landing": {"ias": 60, "cas": 63}}
    printed = rows(make_document(make(**{"other speeds": given}), school))
    assert printed["precautionary-landing"]["cas"] == "63"


@pytest.mark.parametrize(("sense", "is_said"), [("maximum", True), ("target", False)])
def test_a_named_maximum_is_said_when_it_is_passed(make, school, sense, is_said):
    named = {"window open": {"ias": 110, "sense": sense}}
    document = reckonable(make(**{"other speeds": named}), school)
    done = reckon(document, Case("ias", 111.0, "0"))
    said = [limit_passed(ENGLISH, one) for one in done.passed]
    assert ("Above window open, 110 kt." in said) == is_said
    assert not reckon(document, Case("ias", 110.0, "0")).passed


def test_a_range_is_printed_as_it_was_entered_and_computed_at_both_ends(make, school):
    """Between 50 and 100 kt IAS CAS is 54 to 100: 70 is 72.4, 80 is 81.6."""
    speeds = {"VY": {"ias": "70 to 80", "page": "4-1"}}
    printed = rows(make_document(make(speeds=speeds), school))["VY"]
    assert (printed["indicated"], printed["cas"]) == ("70 to 80", "72–82")
    printed = rows(make_document(make(speeds=speeds, airframe=BENCH), school))["VY"]
    assert (printed["indicated"], printed["ias"]) == ("68–78", "70 to 80")


@pytest.mark.parametrize("said", ["70 to 80", "70-80", "70–80"])
def test_a_range_may_be_written_as_manuals_print_it(make, school, said):
    printed = rows(make_document(make(speeds={"VY": {"ias": said}}), school))["VY"]
    assert (printed["indicated"], printed["cas"]) == (said, "72–82")


def test_no_other_weight_is_computed_from_a_range(make, school):
    speeds = {"VREF": {"ias": "70 to 80", "cas": "72 to 82"}}
    plain = make(speeds=speeds, weights={"maximum": 2000, "others": [1600]})
    assert "approach" in [gap.table for gap in make_document(plain, school).gaps]


@pytest.mark.parametrize("name", ["VNE", "VA", "VS0", "VMC", "VFE"])
def test_a_limit_is_no_range(make, name):
    entry = {"ias": "70 to 80", **({"flaps": 40} if name == "VFE" else {})}
    kind = {"kind": "multi-engine"} if name == "VMC" else {}
    with pytest.raises(DefinitionError, match=f"70 to 80, expected one number: {name} is a limit"):
        make(speeds={name: entry}, **kind)


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("80-70", "expected a number"),
        ("80 to 70", "expected a number"),
        ("70 to", "expected a number"),
    ],
)
def test_what_is_no_range_is_told(make, said, answer):
    with pytest.raises(DefinitionError, match=answer):
        make(speeds={"VY": {"ias": said}})


def test_one_figure_for_several_settings_is_a_row_for_each(make, school):
    speeds = {"VFE": [{"flaps": [20, 40], "ias": 90, "page": "2-3"}]}
    document = make_document(make(speeds=speeds), school)
    printed = rows(document)
    assert printed["VFE/flaps-20"]["indicated"] == printed["VFE/flaps-40"]["indicated"] == "90"
    copied = {one.id for one in document.given}
    assert {"given/speeds/VFE/flaps-20/ias", "given/speeds/VFE/flaps-40/ias"} <= copied
    for flaps in ("20", "40"):
        done = reckon(document, Case("ias", 91.0, flaps))
        assert [one.speed for one in done.passed] == ["VFE"]


def test_each_of_several_settings_must_be_the_types(make):
    with pytest.raises(DefinitionError, match="found 30, expected one of this type's, 0, 20, 40"):
        make(speeds={"VFE": [{"flaps": [20, 30], "ias": 90}]})


def test_a_v_speed_is_no_name_of_the_manuals_own(make):
    with pytest.raises(DefinitionError, match="VY stands under speeds"):
        make(**{"other speeds": {"VY": {"ias": 80}}})
    assert make(**{"other speeds": {"approach": {"ias": 80}}})  # which only gliders have


def test_a_name_is_as_long_as_a_sheet_has_room_for(make):
    with pytest.raises(DefinitionError, match="41 characters, expected 40 at most"):
        make(**{"other speeds": {"n" * 41: {"ias": 80}}})


def test_a_supplement_restates_a_named_speed(make, school):
    change = {"title": "Tall doors", "number": "S-1", "other speeds": {"airbrakes": {"ias": 100}}}
    plain = make(airframe={"supplements": [change]}, **{"other speeds": AIRBRAKES})
    document = make_document(plain, school)
    assert rows(document)["airbrakes"]["indicated"] == "100"
    assert [one.speed for one in document.head.changes] == ["airbrakes"]


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("turbine", ("VB", "VRA", "VXSE", "VSSE")),
        ("glider", ("VY", "VX")),
        ("single-engine", ("VB", "VRA")),
    ],
)
def test_speeds_that_some_aircraft_of_a_kind_have(make, school, kind, names):
    needed = {
        "turbine": {"VNO": None, "VNE": None, "VMO": {"ias": 180}, "MMO": {"mach": 0.4}},
        "glider": {"VNO": None},
    }
    speeds = {**needed.get(kind, {}), **{name: {"ias": 80} for name in names}}
    printed = rows(make_document(make(speeds=speeds, kind=kind), school))
    assert set(names) <= set(printed)
