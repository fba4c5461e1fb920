"""Markings that manuals give at speeds in CAS, in another unit, or by a name of their own."""

import pytest

from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.render.dial import draw_dial
from cardgen.render.ladder import draw_ladder
from cardgen.words.english import ENGLISH
from tests.cards.test_named_speeds import rows
from tests.conftest import DEMO

ARCS = {
    "white": {"from": 46, "to": 92, "page": "2-4"},
    "green": {"from": 54, "to": 138, "page": "2-4"},
    "red line": {"at": 176, "page": "2-4"},
}


@pytest.fixture
def school():
    return read_fleet(DEMO).school


def document(make, school, markings, **more):
    return make_document(make(markings={**ARCS, **markings}, **more), school)


def test_marks_in_cas_are_drawn_as_painted_and_the_pointer_is_told(make, school):
    """With full flaps 46 CAS is 40 IAS; clean 138 is 100 + 38/0.96, rounded down."""
    made = document(make, school, {"speeds are": "CAS"})
    assert [(arc.low, arc.high) for arc in made.basis.markings.arcs] == [(46, 92), (54, 138)]
    white, green = (rows(made, "markings")[name] for name in ("white", "green"))
    assert (white["from"], white["to"], white["shown-from"]) == ("46", "92", "40")
    assert (green["from"], green["shown-from"], green["shown-to"]) == ("54", "50", "139")
    said = [note.id for note in made.table("markings").notes]
    assert "note-paint-in-cas" in said
    assert "note-paint-and-bench-card" not in said


def test_marks_in_ias_tell_no_pointer_without_a_bench_card(make, school):
    assert "shown-from" not in rows(document(make, school, {}), "markings")["white"]


def test_marks_in_another_unit_are_painted_in_it(make, school):
    """On an mph indicator as entered; on one in knots 176 mph is 152.9, rounded down."""
    own = document(make, school, {"unit": "mph"}, airframe={"indicator": {"unit": "mph"}})
    assert rows(own, "markings")["red-line"]["from"] == "176"
    assert "ias-from" not in rows(own, "markings")["red-line"]
    knots = rows(document(make, school, {"unit": "mph"}), "markings")["red-line"]
    assert (knots["from"], knots["ias-from"]) == ("152", "176")
    given = {one.id: one.value for one in own.given}
    assert given["given/markings/red-line/at"].unit == "mph"


def test_a_mark_that_the_manual_names_is_drawn_and_listed(make, school):
    marks = [
        {"name": "white triangle", "at": 100, "shape": "triangle", "means": "flaps 20"},
        {"name": "black line", "at": 80},
    ]
    made = document(make, school, {"other marks": marks})
    row = rows(made, "markings")["white-triangle-100"]
    assert (row["marking"], row["from"], row["meaning"]) == ("white triangle", "100", "flaps 20")
    for draw in (draw_dial, draw_ladder):
        drawing = draw(ENGLISH, made.basis.markings, made.head)
        kinds = [part.kind for part in drawing.parts]
        assert kinds.count("line mark-triangle") == kinds.count("line mark-line") == 1
        assert "triangle 100" in drawing.description


def test_a_setting_without_a_mark_is_not_drawn(make, school):
    speeds = {"VFE": [{"flaps": 20, "ias": 110}, {"flaps": 40, "ias": 92}]}
    marked = document(make, school, {}, speeds=speeds)
    assert [one.flaps for one in marked.basis.markings.flaps] == ["20"]
    bare = document(make, school, {"flaps not marked": [20]}, speeds=speeds)
    assert bare.basis.markings.flaps == ()
    said = [ENGLISH.say(note) for note in bare.table("markings").notes]
    assert "No mark on the indicator: flaps 20." in said


def test_a_setting_without_a_mark_must_be_the_types(make):
    with pytest.raises(DefinitionError, match="flaps not marked: found 30, expected one of this"):
        make(markings={**ARCS, "flaps not marked": [30]})


def test_a_supplement_changes_what_it_names_and_leaves_the_rest(make, school):
    change = {"title": "Doors", "number": "S-1", "markings": {"red line": {"at": 150}}}
    airframe = {"supplements": [change]}
    made = document(make, school, {"speeds are": "CAS"}, airframe=airframe)
    assert rows(made, "markings")["red-line"]["from"] == "150"
    assert rows(made, "markings")["white"]["from"] == "46"
    assert "shown-from" in rows(made, "markings")["white"]
