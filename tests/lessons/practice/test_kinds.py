"""Kinds whose key is words, worked by hand; kinds held to the reckoning and the card's tables."""

from collections.abc import Iterator
from random import Random

import pytest

from cardgen.cards.card import make_document
from cardgen.document.practice import Question
from cardgen.document.record import Document
from cardgen.lessons.practice import slow
from cardgen.lessons.practice.kinds import KINDS, Draw
from cardgen.lessons.reckoning import Case, reckon
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.lessons.test_reckoning import BARE

ARCS = {
    "white": {"from": 40, "to": 90},
    "green": {"from": 50, "to": 140},
    "yellow": {"from": 140, "to": 180},
    "red line": {"at": 180},
}


def drawn(document: Document, kind: str, times: int = 60) -> Iterator[Question]:
    draw = Draw(document, Random(7))
    yield from (one for _ in range(times) if (one := KINDS[kind](draw)) is not None)


@pytest.fixture
def plain(make) -> Document:
    return make_document(make({"VA": {"ias": 110}}, markings=ARCS), BARE)


def right(question: Question) -> str:
    return ENGLISH.text(question.right.said)


def mistakes(question: Question) -> dict[str, str]:
    return {
        ENGLISH.text(one.said): ENGLISH.text(one.mistake) for one in question.choices if one.mistake
    }


# By hand, from the arcs above: where the pointer stands, and what is said of it.
STRETCHES = [
    (40, 50, "in the white arc: flaps may be out"),
    (50, 90, "in the white arc: flaps may be out; in the green arc: normal operation"),
    (90, 140, "in the green arc: normal operation"),
    (140, 180, "in the yellow arc: smooth air only, and with caution"),
    (180, 300, "beyond the red line: never to be flown"),
]


def test_the_arcs_say_what_they_mean(plain):
    seen = set()
    for question in drawn(plain, "arcs"):
        shown = dict(question.case)["shown"]
        (said,) = (said for low, high, said in STRETCHES if low < shown < high)
        assert right(question) == said
        seen.add(said)
        for wrong, why in mistakes(question).items():
            low, high = next((low, high) for low, high, said in STRETCHES if said == wrong)
            at = f"above the red line, at {low} kt" if low == 180 else f"at {low}–{high} kt"
            assert why == f"So it is {at}."
    assert seen == {said for _, _, said in STRETCHES}


def test_a_pointer_stands_clear_of_the_ends_of_arcs(plain):
    shown = [dict(one.case)["shown"] for one in drawn(plain, "arcs")]
    ends = {end for low, high, _ in STRETCHES for end in (low, high)}
    assert min(abs(one - end) for one in shown for end in ends) >= 2


# 14 CFR 23.1545: the white arc from VS0 to VFE, the green from VS1 to VNO, the yellow to VNE.
ENDS = {40: "VS0", 90: "VFE", 50: "VS1", 140: "VNO", 180: "VNE"}


def test_the_ends_of_arcs_stand_for_speeds(plain):
    asked = {}
    for question in drawn(plain, "arc-ends"):
        shown = dict(question.case)["shown"]
        asked[shown] = right(question).partition(":")[0]
    assert asked == ENDS


def test_an_end_that_the_manual_gives_another_figure_for_is_not_asked(make):
    markings = {**ARCS, "white": {"from": 42, "to": 90}}
    document = make_document(make(markings=markings), BARE)
    asked = {dict(one.case)["shown"] for one in drawn(document, "arc-ends")}
    assert asked == {90.0, 50.0, 140.0, 180.0}


# By hand, from the plain aircraft: VA 110, VNO 140, VNE 180, and with flaps 40 VFE 90.
def test_the_first_limit_is_the_next_above_the_pointer(plain):
    limits = {"VA": 110, "VNO": 140, "VNE": 180}
    for question in drawn(plain, "first-limit"):
        case = dict(question.case)
        held = limits | ({"VFE": 90} if case["flaps"] == "40" else {})
        name, limit = min(
            ((name, at) for name, at in held.items() if at > case["shown"]),
            key=lambda one: one[1],
        )
        assert right(question) == f"{name}, {limit} kt"
        assert limit - case["shown"] >= 3
        for wrong, why in mistakes(question).items():
            other, at = wrong.removesuffix(" kt").split(", ")
            if other == "VFE" and case["flaps"] == "0":
                assert why.startswith("The flaps are in")
            else:
                assert why.startswith("That comes later" if float(at) > limit else "That is behind")


def test_with_flaps_out_nobody_is_asked_above_their_limit(plain):
    cases = [dict(one.case) for one in drawn(plain, "first-limit", 200)]
    assert any(one["flaps"] == "40" for one in cases)
    assert all(one["shown"] < 90 for one in cases if one["flaps"] == "40")


def test_a_limit_by_mach_comes_first_high_up():
    """MMO 0.52 at 28 000 ft is 203 kt of CAS, below VMO; low down it is above it."""
    document = documents_of(DEMO)["ZZ-PHN"]
    found = {}
    for question in drawn(document, "first-limit", 120):
        case = dict(question.case)
        if case["speed"] in ("VMO", "MMO"):
            found.setdefault(case["speed"], []).append(case["altitude"])
    assert min(found["MMO"]) > max(found["VMO"])


# -- held to the reckoning ------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["heading", "ground-speed"])
def test_a_leg_is_what_the_reckoning_gives(kind):
    document = documents_of(DEMO)["ZZ-DUA"]
    for question in drawn(document, kind):
        case = dict(question.case)
        wind = (case["from"], case["wind"])
        done = reckon(
            document,
            Case("tas", case["tas"], "0", "normal", 0.0, 15.0, wind, case["course"]),
        )
        value = done.values[kind.replace("-", "_")]
        assert (question.answer.value - value) % 360.0 == pytest.approx(0.0, abs=1e-9) or (
            question.answer.value == pytest.approx(value, abs=1e-9)
        )


# -- held to the card's tables --------------------------------------------------------------------


def test_the_stall_in_a_bank_is_the_cards(monkeypatch):
    """At the banks and weights of the card, where it computes them itself."""
    document = documents_of(DEMO)["ZZ-DUC"]
    table = document.table("stall")
    held = 0
    for bank in (30.0, 45.0):
        monkeypatch.setattr(slow, "_BANKS", (bank,))
        for question in drawn(document, "stall-in-bank"):
            case = dict(question.case)
            row = next(
                one
                for one in table.rows
                if one.id == f"flaps-{case['flaps']}/weight-{case['weight']:g}"
            )
            at = [one.id for one in table.columns].index(f"bank-{bank:g}-indicated")
            if getattr(row.cells[at].origin, "formula", "") == "stall-speed":
                assert right(question) == f"{ENGLISH.figure(row.cells[at])} kt"
                held += 1
    assert held > 3


def test_manoeuvring_speed_is_the_cards(monkeypatch):
    """At the weights of the card for which it computes them itself."""
    held = 0
    for document in documents_of(DEMO).values():
        rows = document.table("manoeuvring").rows
        figures = {row.cells[0].quantity.value: row.cells[1] for row in rows}
        monkeypatch.setattr(Draw, "whole", lambda draw, *_, of=figures: draw.chance.choice([*of]))
        for question in drawn(document, "va-at-weight"):
            cell = figures[dict(question.case)["weight"]]
            assert right(question) == f"{ENGLISH.figure(cell)} {document.head.indicator_unit}"
            held += 1
    assert held > 10


def test_true_airspeed_by_the_table_is_what_stands_there():
    for name in ("ZZ-DUA", "ZZ-PHN"):
        document = documents_of(DEMO)[name]
        table, unit = document.table("true-airspeed"), document.head.indicator_unit
        for question in drawn(document, "true-by-table"):
            case = dict(question.case)
            row = next(one for one in table.rows if one.id == case["row"])
            at = [one.id for one in table.columns].index(case["column"])
            assert right(question) == f"{ENGLISH.figure(row.cells[at])} {unit}"
            assert row.id.startswith(f"indicated-{case['shown']:g}/")


def test_cas_is_what_the_calibration_table_has():
    document = documents_of(DEMO)["ZZ-DUA"]
    table, held = document.table("calibration"), 0
    for question in drawn(document, "calibrated", 250):
        case = dict(question.case)
        at = [one.id for one in table.columns].index(f"flaps-{case['flaps']}-normal")
        for row in table.rows:
            if row.id == f"indicated-{case['shown']:g}":
                assert right(question) == f"{ENGLISH.figure(row.cells[at])} kt"
                held += 1
    assert held > 5
