"""Sixteen sound manuals, from the text to the card: each figure of the lists made by hand is there.

The lists were made of the texts before the format could say all that is in
them (`tests/definitions/manuals/*/figures.txt`); the definitions were typed
without arithmetic.
"""

import json
import re
from collections import Counter
from functools import cache

import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.data import to_json
from tests.sound.fleets import fleet_of_manuals
from tests.sound.test_manuals import NAMES, listed, plain

NO_FIGURE = {"n/a", "no mark"}  # told by a dash, and by a note


@pytest.fixture(scope="session")
def data(tmp_path_factory):
    """The data of each manual's card, as it is published and read back."""
    fleet = read_fleet(fleet_of_manuals(tmp_path_factory.mktemp("manuals")))

    @cache
    def of(name):
        (aircraft,) = (one for one in fleet.aircraft if one.airframe.type == name)
        return json.loads(to_json(make_document(Aircraft(aircraft), fleet.school)))

    return of


def copied(card) -> Counter:
    """How often each figure stands on each page among what was copied, its sign aside.

    A figure that others are entered by, such as what a bench card shows, is
    named by their identifiers; a phrase may hold figures too.
    """
    found = Counter()
    for one in card["given"]:
        value, page = one["value"], one.get("page", "")
        if one.get("paper") == "bench-card":
            page = "bench card"
        if isinstance(value, dict):
            found[page, unsigned(value["entered"])] += 1
            if match := re.search(r"(?:/|-)([\d.]+)/[a-z-]+$", one["id"]):
                found[page, match[1]] += 1
    return found


def unsigned(figure: str) -> str:
    return plain(figure).lstrip("+-")


@pytest.mark.parametrize("name", NAMES)
def test_each_figure_of_a_manual_is_found_on_its_card_as_printed(data, name):
    card = data(name)
    lines = [line for line in listed(name) if line[3] not in NO_FIGURE]
    have = copied(card)
    lost = []
    for (page, figure), count in Counter((line[0], unsigned(line[3])) for line in lines).items():
        said = [line for line in lines if (line[0], unsigned(line[3])) == (page, figure)]
        again = [one for one in said if _stands_on_another_page(one, lines)]
        if have[page, figure] < count - len(again) and not _in_words(figure, card):
            lost += said
    assert not lost


def _in_words(figure: str, card) -> bool:
    """Whether a condition that was typed as a phrase has a figure, such as 5 km/h more."""
    phrases = [
        note.get("values", {}).get("when")
        for table in card["tables"]
        for note in table.get("notes", ())
    ]
    return any(figure in phrase.split() for phrase in phrases if isinstance(phrase, str))


def _stands_on_another_page(line, lines) -> bool:
    """Whether a manual repeats a figure, which whoever copies it does not."""
    speed, figure = line[1].split(",")[0], line[3]
    return any(
        one[0] != line[0] and one[1].split(",")[0] == speed and one[3] == figure for one in lines
    )


@pytest.mark.parametrize("name", [name for name in NAMES if any("n/a" in x for x in listed(name))])
def test_a_figure_that_is_not_available_is_a_dash(data, name):
    dashes = sum(
        not cell
        for table in data(name)["tables"]
        if table["id"].startswith("cruise-for")
        for block in table["blocks"]
        for row in block["rows"]
        for cell in row["cells"]
    )
    assert dashes >= sum("n/a" in line for line in listed(name))
