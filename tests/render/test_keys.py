"""The page of the keys, as a newcomer reads it."""

import html
import re

import pytest

from cardgen.cards.card import reference_document
from cardgen.definition.model import AirframeDefinition, School, TypeDefinition
from cardgen.definition.schema import sentences
from cardgen.definition.speeds import SPEEDS
from cardgen.render import page
from cardgen.render.templates import Templates
from tests.conftest import ROOT
from tests.definition.walked import groups_under


@pytest.fixture(scope="module")
def text(fleet) -> str:
    return page.keys_page(Templates(), reference_document(fleet.school))


def told(text: str) -> dict[str, str]:
    """What the page says of each key, by the anchor of its entry."""
    return dict(re.findall(r'<div id="([^"]+)">(<dt>.*?</dd>)</div>', text))


def anchor(group: type, key: str) -> str:
    name = re.sub("(?<!^)(?=[A-Z])", "-", group.__name__).lower()
    return f"{name}--{key.replace(' ', '-')}"


def test_the_page_names_every_key_that_the_model_knows(text):
    entries = told(text)
    models = (TypeDefinition, AirframeDefinition, School)
    groups = {group for model in models for group in groups_under(model)}
    assert len(groups) > 20
    wanted = set()
    for group in groups:
        for name, field in group.model_fields.items():
            place = anchor(group, field.alias)
            wanted.add(place)
            entry = html.unescape(entries[place])
            assert f"<dfn>{field.alias}</dfn>" in entry
            assert sentences(group)[name] in entry
            assert f"<code>{field.alias}: " in entry
            assert ("<b>needed</b>" in entry) == field.is_required()
    speeds = {f"v-speeds--{name.replace(' ', '-')}" for name in SPEEDS}
    assert set(entries) == wanted | speeds


def test_a_key_says_what_it_takes_and_in_which_unit(text):
    entries = told(text)
    for place, said in (
        ("speed-entry--ias", "a number or a range such as 70 to 80, in the unit of speed"),
        ("arc--to", "a number, in the unit of the markings"),
        ("cruise--rows", "a list: a list: a number or one of: n/a, -"),
        ("type-definition--cruise", "a group of keys or a list: a group of keys"),
        ("type-definition--other-speeds", "by name: a group of keys or a list: a group of keys"),
        ("stall--bank", "a list: a number, in degrees"),
        ("instrument-correction--add-to-true", "a list: a number, in the indicator's unit"),
        ("type-definition--kind", "one of: single-engine, multi-engine, glider, turbine"),
        ("manual--date", "a date"),
        ("manual--title", "words, 100 characters at most"),
        ("v-speeds--VA", "a group of keys or a list: a group of keys"),
        ("school--reference-speeds", "by name: a group of keys"),
    ):
        assert said in html.unescape(entries[place]), place


def test_links_lead_to_what_is_there(text):
    ids = re.findall(r'id="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    links = set(re.findall(r'href="#([^"]+)"', text))
    assert len(links) > 20
    assert links <= set(ids)


def test_the_fleets_page_and_the_readme_lead_there(pages):
    assert 'href="keys.html"' in (pages / "index.html").read_text()
    assert (pages / "keys.html").is_file()
    assert "(site/keys.html)" in (ROOT / "README.md").read_text()
