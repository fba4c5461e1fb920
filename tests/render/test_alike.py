"""What sisters share is drawn once, and yet each page says what is of its own aircraft."""

from dataclasses import replace

import pytest

from cardgen.render.page import aircraft_page
from cardgen.render.templates import Templates
from tests.conftest import ROOT
from tests.render.conftest import fresh

OWN = {
    "table.html": ('<p class="how">', '<p class="how">{{ document.head.registration }}: '),
    "drawing.svg": ("<title>{{ title }}", "<title>{{ title|reverse }}"),
}


@pytest.fixture
def sisters(fleet):
    document = fresh(fleet, "ZZ-WTR")
    document = replace(document, head=replace(document.head, pairs=()))  # which name both
    return document, replace(document, head=replace(document.head, registration="ZZ-QQQ"))


def test_a_page_is_the_same_whether_a_sister_was_drawn_before(sisters):
    one, other = sisters
    templates = Templates()
    aircraft_page(templates, one)
    page = aircraft_page(templates, other)
    assert page == aircraft_page(Templates(), other)
    assert "ZZ-QQQ" in page
    assert one.head.registration not in page


@pytest.mark.parametrize("name", OWN)
def test_a_schools_own_template_may_say_what_is_of_one_aircraft(sisters, tmp_path, name):
    one, other = sisters
    text = (ROOT / "templates" / name).read_text()
    assert OWN[name][0] in text
    (tmp_path / name).write_text(text.replace(*OWN[name]))
    templates = Templates(tmp_path)
    before = aircraft_page(templates, one)
    said = {"table.html": "ZZ-QQQ: ", "drawing.svg": "QQQ-ZZ"}[name]
    assert said not in before
    after = aircraft_page(templates, other)
    assert after.count(said) == aircraft_page(Templates(tmp_path), other).count(said) > 1
    assert after == aircraft_page(Templates(tmp_path), other)
