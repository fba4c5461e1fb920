"""The key of every kind of question against the oracle; what each mistake leads to as well."""

import re
from dataclasses import replace
from functools import cache

import pytest

from cardgen.document.practice import Choice, Question
from cardgen.lessons.practice import kinds
from cardgen.lessons.practice.sheet import LEVELS, practice
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.sampling import is_long

from .craft import Craft
from .definitions import definition
from .physics import Number, mp
from .practice import KINDS

pytestmark = [pytest.mark.xdist_group("oracle"), pytest.mark.sampled]

IN_WORDS = {"arcs", "arc-ends", "first-limit", "true-by-table"}  # held in tests/lessons/practice
FLEET = sorted(path.stem.upper() for path in (DEMO / "fleet").iterdir())
SHEETS = [
    (name, level, seed)
    for seed in range(125 if is_long() else 3)
    for n, name in enumerate(FLEET)
    for level in [[*LEVELS][(n + seed) % len(LEVELS)]]
]


@cache
def craft(registration: str) -> Craft:
    return Craft(definition(registration))


@cache
def asked() -> list[tuple[str, Question]]:
    """Questions of sheets, each with its aircraft."""
    documents = documents_of(DEMO)
    return [
        (name, question)
        for name, level, seed in SHEETS
        for question in practice(documents[name], level, seed).questions
    ]


def said(choice: Choice) -> list[Number]:
    """The numbers of a choice; a rule that is too low is off by less than nothing."""
    text = ENGLISH.text(choice.said).replace(",", "")
    found = [Number(one.replace("−", "-")) for one in re.findall(r"−?\d+(?:\.\d+)?", text)]
    return [found[0], -found[1]] if "too little" in text else found


def rounded(value: Number, place: float, sense: str = "target") -> Number:
    places = value / place
    if sense == "target":
        return mp.floor(places + Number("0.5")) * place
    return {"maximum": mp.floor, "minimum": mp.ceil}[sense](places) * place


def check(name: str, question: Question) -> None:
    """Hold every choice of a question against what the oracle works for it."""
    expected = KINDS[question.kind](craft(name), dict(question.case))
    place = question.answer.place
    for choice in question.choices:
        values = [
            value
            for mistake, value in expected.items()
            if mistake.partition(" ")[0] == choice.name and value is not None
        ]
        pairs = [value if isinstance(value, tuple) else (value,) for value in values]
        sense = question.answer.sense
        wanted = [[rounded(one, place, sense) for one in pair] for pair in pairs]
        numbers = said(choice)
        if question.kind == "heading":
            numbers = [one % 360 for one in numbers]
            wanted = [[one % 360 for one in pair] for pair in wanted]
        if question.kind == "rule-of-thumb" and len(numbers) == 1:
            numbers.append(Number(0))
        assert numbers in wanted, (question.kind, choice.name, numbers, wanted)


def test_every_kind_has_an_oracle_and_every_kind_is_asked():
    assert KINDS.keys() | IN_WORDS == kinds.KINDS.keys()
    assert {question.kind for _, question in asked()} == kinds.KINDS.keys()


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_key_is_what_the_oracle_works(kind):
    found = [(name, one) for name, one in asked() if one.kind == kind]
    assert len(found) > 3
    for name, question in found:
        check(name, question)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_key_that_names_another_choice_is_found(kind):
    name, question = next(pair for pair in asked() if pair[1].kind == kind)
    right = question.right
    wrong = next(one for one in question.choices if one.mistake)
    swapped = {right.name: wrong.said, wrong.name: right.said}
    choices = (replace(one, said=swapped.get(one.name, one.said)) for one in question.choices)
    spoiled = replace(question, choices=tuple(choices))
    with pytest.raises(AssertionError, match=kind):
        check(name, spoiled)


# How far the true answer is from an edge of rounding, worked here and not taken from the sheet.
@pytest.mark.parametrize("kind", sorted(KINDS.keys() - {"rule-of-thumb"}))
def test_no_answer_is_within_a_tenth_of_an_edge(kind):
    for name, question in asked():
        if question.kind == kind:
            answer = question.answer
            value = KINDS[kind](craft(name), dict(question.case))[""] / answer.place
            part = value - mp.floor(value)
            assert abs(part - Number("0.5")) >= Number("0.0999")
            if answer.sense != "target":
                assert Number("0.0999") <= part <= Number("0.9001")
                assert (part > Number("0.5")) == (answer.sense == "minimum")
