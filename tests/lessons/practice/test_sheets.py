"""Sheets of questions: the same by seed, none twice, every choice another and explained."""

from dataclasses import replace
from itertools import cycle

import pytest

from cardgen.cards.card import make_document, reckonable
from cardgen.document.practice import Practice
from cardgen.document.rounding import rounded
from cardgen.lessons.practice import kinds
from cardgen.lessons.practice.sheet import LEVELS, practice
from cardgen.words.english import ENGLISH
from cardgen.words.practice import line
from tests.conftest import DEMO, documents_of
from tests.lessons.test_reckoning import BARE
from tests.sampling import is_long
from tests.sound.fleets import others

SEEDS = 1000 if is_long() else 20


def sheets() -> list[Practice]:
    """A sheet of each seed, of aircraft of the demo and others, and of levels, in turn."""
    demo = zip(cycle(documents_of(DEMO).values()), cycle(LEVELS), range(SEEDS))
    rest = zip(cycle(others().values()), cycle(LEVELS), range(SEEDS))
    return [practice(*asked) for asked in (*demo, *rest)]


@pytest.fixture(scope="module")
def drawn() -> list[Practice]:
    return sheets()


@pytest.mark.sampled
def test_a_seed_gives_one_sheet(drawn):
    assert drawn == sheets()
    document = documents_of(DEMO)["ZZ-DUB"]
    first, other, longer = (
        practice(document, "solo", seed, count).questions
        for seed, count in ((1, 10), (2, 10), (1, 12))
    )
    assert first != other
    assert len(longer) == 12


@pytest.mark.sampled
def test_no_question_stands_twice_on_a_sheet(drawn):
    for sheet in drawn:
        asked = [ENGLISH.text(one.asked) for one in sheet.questions]
        assert len(set(asked)) == len(asked) == sheet.wanted


@pytest.mark.sampled
def test_every_kind_of_a_level_is_asked_before_any_twice(drawn):
    for sheet in drawn:
        left_out = {one.values["kind"].id for one in sheet.left_out}
        wanted = [one for one in LEVELS[sheet.level] if f"practice-kind-{one}" not in left_out]
        first = {one.kind for one in sheet.questions[: len(wanted)]}
        assert first >= set(wanted) or len(wanted) > sheet.wanted


@pytest.mark.sampled
def test_one_choice_is_right_and_every_other_says_its_own_mistake(drawn):
    for sheet in drawn:
        for question in sheet.questions:
            said = [ENGLISH.text(one.said) for one in question.choices]
            assert len(set(said)) == len(said) >= 3
            wrong = [one for one in question.choices if one.mistake]
            assert len(wrong) == len(said) - 1
            explained = [ENGLISH.text(one.mistake) for one in wrong]
            assert all(explained)
            if question.kind not in ("first-limit", "calibrated"):  # may be behind, or flaps, twice
                assert len(set(explained)) == len(explained)


@pytest.mark.sampled
def test_no_answer_is_near_an_edge_whichever_way_it_is_worked(drawn):
    for sheet in drawn:
        for question in sheet.questions:
            answer = question.answer
            if answer is None:
                continue
            places = [one / answer.place for one in (answer.value, *answer.ways)]
            assert len({rounded(one) for one in places}) == 1
            assert all(0.1 <= (one - 0.5) % 1.0 <= 0.9 for one in places)
            assert rounded(answer.value / answer.place, answer.sense) == rounded(places[0])


@pytest.mark.sampled
def test_every_line_of_every_key_is_said(drawn):
    for sheet in drawn:
        for question in sheet.questions:
            lines = [line(ENGLISH, one) for one in question.worked]
            assert lines
            assert all(one.name and one.figure for one in lines)


@pytest.mark.parametrize("level", LEVELS)
def test_an_aircraft_of_few_figures_is_asked_what_it_has_and_told_the_rest(make, level):
    whole = reckonable(make(), BARE)
    basis = replace(whole.basis, calibration=(), markings=None, stall=(), bounds=())
    sheet = practice(replace(whole, basis=basis), level, 1)
    said = [ENGLISH.say(one) for one in sheet.left_out]
    assert len(said) == len(LEVELS[level]) - len({one.kind for one in sheet.questions})
    assert all(one.startswith("Left out: ") for one in said)
    assert {one.kind for one in sheet.questions} <= {"pressure-altitude", "density-altitude"}


def test_a_manual_that_approves_no_other_manoeuvring_speed_is_not_asked_for_one(make):
    va = {"VA": {"ias": 110, "weight": 2000}}
    keys = {"weights": {"maximum": 2000, "others": [1500]}}
    for only, asked in (({}, True), ({"only approved": ["VA"]}, False)):
        document = make_document(make(va, **keys, **only), BARE)
        sheet = practice(document, "commercial", 1, 20)
        assert ("va-at-weight" in {one.kind for one in sheet.questions}) == asked


def test_kinds_are_named_and_levels_are_of_kinds():
    asked = {name for level in LEVELS.values() for name in level}
    assert asked == kinds.KINDS.keys()
    for name in asked:
        assert ENGLISH.has(f"practice-kind-{name}")
    for level in LEVELS:
        assert ENGLISH.has(f"practice-level-{level}")
