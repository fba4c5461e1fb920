"""Any two aircraft in the browser: what its script finds is what Python does.

The documents are the demo's, the manuals' and the stress aircraft's, each after each other, and
those of two plain aircraft for each rule, both ways.
"""

import itertools
import json
import re

import pytest

from cardgen.cards.card import make_document
from cardgen.document.record import Document
from cardgen.lessons.transition.differences import RULES
from cardgen.lessons.transition.sheet import transition
from cardgen.lessons.transition.traits import traits
from cardgen.render.page import traits_data
from cardgen.words.english import ENGLISH
from cardgen.words.numbers import number
from tests.lessons.test_reckoning import BARE
from tests.lessons.transition.test_differences import CASES
from tests.sound.fleets import others

pytestmark = pytest.mark.xdist_group("browser any two")

PAGE = "next/index.html"
ASK = """([all, pairs]) => {
  const said = language(WORDS);
  const shown = (value) => (value ? said.say("next-shown", { value }) : null);
  return pairs.map(([one, other]) => {
    const found = transition(all[one], all[other]);
    return {
      told: found.told.map((each) => [each.rule, said.text(each.said), each.danger]),
      beside: found.beside.map(({ id, title, lines }) => [
        id, said.text(title), lines.map((line) => [
          said.text(line.name), shown(line.first), shown(line.second),
          line.more && said.number(line.more)])]),
    };
  });
}"""


def of_script(text: str) -> dict:
    """Return what an aircraft's script adds to the traits, which is JSON."""
    return json.loads(re.fullmatch(r'"use strict";\nTRAITS\[".+"\] = (\{.*\});\n', text, re.S)[1])


def by_python(first, second) -> dict:
    def shown(value):
        return None if value is None else ENGLISH.say("next-shown", value=value)

    found = transition(first, second)
    return {
        "told": [[one.rule, ENGLISH.text(one.said), one.danger] for one in found.told],
        "beside": [
            [
                one.id,
                ENGLISH.text(one.title),
                [
                    [
                        ENGLISH.text(line.name),
                        shown(line.first),
                        shown(line.second),
                        line.more and number(line.more),
                    ]
                    for line in one.lines
                ],
            ]
            for one in found.beside
        ],
    }


@pytest.fixture
def plain_pairs(make) -> dict[str, tuple[Document, Document]]:
    return {
        rule: tuple(make_document(make(**each), BARE) for each in (one, other))
        for rule, (one, other, *_) in CASES.items()
    }


def test_of_every_two_the_script_finds_the_same_in_the_same_order_and_words(
    visit, documents, plain_pairs
):
    cards = {**documents, **others()}
    pairs = list(itertools.permutations(sorted(cards), 2))
    assert len(pairs) == 31 * 30
    for rule, both in plain_pairs.items():
        ends = f"{rule} from", f"{rule} to"
        cards.update(zip(ends, both, strict=True))
        pairs += [ends, ends[::-1]]
    of_all = {name: of_script(traits_data(traits(card))) for name, card in cards.items()}
    found = visit(PAGE).page.evaluate(ASK, [of_all, pairs])
    rules = set()
    for (one, other), by_script in zip(pairs, found, strict=True):
        wanted = by_python(cards[one], cards[other])
        rules |= {rule for rule, *_ in wanted["told"]}
        dangers = [[told.pop() for told in each["told"]] for each in (by_script, wanted)]
        assert dangers[0] == pytest.approx(dangers[1], rel=1e-9, abs=2e-6), (one, other)
        assert by_script == wanted, (one, other)
    assert rules == set(RULES)


def test_two_that_are_chosen_stand_as_on_the_page_of_a_pair(context, pages, documents):
    page = context.new_page()
    page.goto((pages / PAGE).as_uri() + "#from=ZZ-WTR&to=ZZ-PHN")
    page.locator(".next .told").wait_for()
    made = context.new_page()
    made.goto((pages / "next/ZZ-WTR/ZZ-PHN/index.html").as_uri())
    for part in (".told", ".tables", ".how", ".status"):
        assert (
            page.locator(f".next {part}").inner_text() == made.locator(f"main {part}").inner_text()
        )


def test_choosing_another_changes_what_is_told_and_the_address(context, pages):
    page = context.new_page()
    page.goto((pages / PAGE).as_uri())
    page.locator(".next .told").wait_for()
    page.locator("[name=from]").select_option("ZZ-DUA")
    page.locator("[name=to]").select_option("ZZ-WHB")
    page.get_by_role("heading", name="From ZZ-DUA to ZZ-WHB").wait_for()
    assert page.url.endswith("#from=ZZ-DUA&to=ZZ-WHB")
    assert "another unit" in page.locator(".next .told li").first.inner_text()
    page.goto("about:blank")
    page.goto((pages / PAGE).as_uri() + "#from=ZZ-WHB&to=ZZ-DUA")
    page.get_by_role("heading", name="From ZZ-WHB to ZZ-DUA").wait_for()


def test_without_scripts_the_pairs_are_listed(browser, pages):
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto((pages / PAGE).as_uri())
        assert not page.locator("form.chosen").is_visible()
        assert page.get_by_role("link", name="From ZZ-WTR to ZZ-PHN").is_visible()
