"""The panel: the page's script reckons as Python does, and what it shows."""

import itertools
import json
import math
import random
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page

from cardgen.document.record import Document
from cardgen.render.page import case_data
from cardgen.words.english import ENGLISH
from tests.lessons.cases import Asked, answer, drawn
from tests.render.conftest import REGISTRATIONS
from tests.sampling import SEED, is_long
from tests.sound.fleets import others

pytestmark = pytest.mark.xdist_group("browser reckoning")

Cards = Mapping[str, Document]
REL, ABS = 1e-9, 1e-9  # of a value, and of one that is nothing but the noise of arithmetic
ASK = """([all, asked]) => {
  const said = language(WORDS);
  const made = Object.entries(all).map(([name, data]) => [name, reckoner(data)]);
  const ways = Object.fromEntries(made);
  const step = (one) => [...said.line(one), said.text(one.working), one.formula, one.page];
  return asked.map(([name, given]) => {
    let worked;
    try {
      worked = ways[name](given);
    } catch (error) {
      if (error instanceof air.OutOfBounds) return null;
      throw error;
    }
    return {
      values: worked.values,
      steps: [...worked.altimeter, ...worked.steps, ...worked.stall].map(step),
      passed: worked.passed.map(said.limitPassed),
      binding: worked.passed.map((one) => one.binding),
      inForce: worked.inForce.map((one) => [
        one.speed, said.say('given-cas', { speed: one.limit })]),
      notes: worked.notes.map(said.text),
    };
  });
}"""


def data_of(text: str) -> dict:
    """Return what a page's script of data names, which is JSON."""
    return json.loads(re.fullmatch(r'"use strict";\nconst AIRCRAFT = (\{.*\});\n', text, re.S)[1])


def published(pages: Path, cards: Cards) -> dict:
    """Return what stands beside the pages of aircraft for their scripts."""
    return {name: data_of((pages / name / "case.js").read_text("utf-8")) for name in cards}


def asked_of(cards: Cards, count: int) -> list:
    chance, names = random.Random(SEED), itertools.cycle(sorted(cards))
    return [(name, drawn(chance, cards[name])) for name in itertools.islice(names, count)]


@pytest.mark.sampled
def test_the_pages_script_reckons_as_python_does(visit, pages, documents, record_property):
    """Values to a part in a thousand million, and every printed figure and sentence the same."""
    count = 5000 if is_long() else 200
    record_property("sampled", ("cases reckoned in the browser", count, 5000))
    data = published(pages, documents)
    page = visit(f"{REGISTRATIONS[0]}/index.html").page
    refused = refused_alike(page, documents, data, asked_of(documents, count))
    assert 0 < refused < count / 10


@pytest.mark.sampled
def test_it_does_so_of_other_manuals(visit, record_property):
    count = 5000 if is_long() else 200
    record_property("sampled", ("cases of other manuals reckoned in the browser", count, 5000))
    cards = others()
    data = {name: data_of(case_data(ENGLISH, one)) for name, one in cards.items()}
    page = visit(f"{REGISTRATIONS[0]}/index.html").page
    assert refused_alike(page, cards, data, asked_of(cards, count)) < count / 10


# A key changes one thing of a case, whereupon the script reckons anew but what hangs on it.
TOGETHER = [
    *(["speed"], ["known"], ["flaps"], ["static_source"], ["gear"], ["weight", "bank"]),
    *(["pressure_altitude", "altimeter"], ["oat", "isa"], ["wind", "course"]),
]


def keyed(cards: Cards, count: int) -> list:
    """Return cases of each aircraft, of which one differs from the next in one thing."""
    chance, asked = random.Random(SEED), []
    for name, card in cards.items():
        case = drawn(chance, card).case
        for _ in range(count):
            other = drawn(chance, card).case
            case = replace(case, **{one: getattr(other, one) for one in chance.choice(TOGETHER)})
            asked.append((name, Asked(case)))
    return asked


@pytest.mark.sampled
def test_it_does_so_key_by_key(visit, pages, documents, record_property):
    count = 500 if is_long() else 25
    record_property("sampled", ("keys of an aircraft reckoned in the browser", count, 500))
    data = published(pages, documents)
    page = visit(f"{REGISTRATIONS[0]}/index.html").page
    asked = keyed(documents, count)
    assert refused_alike(page, documents, data, asked) < len(asked) / 2


def refused_alike(page: Page, cards: Cards, data: dict, asked: list) -> int:
    """Hold what a page makes of cases to what Python does; return how many both refuse."""
    told = page.evaluate(ASK, [data, [[name, one.plain] for name, one in asked]])
    refused = 0
    for (name, one), found in zip(asked, told, strict=True):
        wanted = answer(cards[name], one.case)
        if wanted is None or found is None:
            assert wanted is found, (name, one.case)
            refused += 1
            continue
        for value, expected in wanted.pop("values").items():
            hold(found["values"][value], expected, (name, value, one.case))
        del found["values"]
        assert found == wanted, (name, one.case)
    return refused


def hold(found: float | None, wanted: float | None, of: Sequence) -> None:
    if found is None or wanted is None:
        assert found is wanted, of
    else:
        assert math.isclose(found, wanted, rel_tol=REL, abs_tol=ABS), (*of, found, wanted)
