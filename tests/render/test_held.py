"""What each sheet must hold, by name, read in the text of its PDF."""

import itertools
import re

import pytest

from cardgen.document.data import from_json
from cardgen.document.record import Document
from cardgen.words.english import ENGLISH
from tests.conftest import PRINTED, printed_of
from tests.render.printed import texts
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("print")  # so that a PDF is read once

SHEET = re.compile(r"((?:[A-Z]\w+ and )?\w+(?: airspeed)?) · \d+ of \d+")  # its title
SPEEDS = ["speeds/limits", "speeds/flown"]
CALIBRATED = ["calibration", "indicated", "stall", "manoeuvring", "approach"]
WIND = ["ground-speed", "crosswind-limit", "glide", "tas-factor"]
POWERED = [SPEEDS, CALIBRATED, ["true-airspeed"], ["cruise", *WIND]]
TURBINE = [  # a limit that falls with altitude, weights that have names, glides of several cases
    [*SPEEDS, "altitude-limits", "weights"],
    *POWERED[1:3],
    ["cruise", *WIND, "gliding"],
]
GLIDER = [
    [*SPEEDS, "altitude-limits", "weights"],
    ["calibration", "indicated", "stall", "manoeuvring"],
    ["true-airspeed"],
    WIND,
    ["polar", "polar-best", "speed-to-fly"],
]
TWIN = [["speeds/limits", "speeds/one-engine", "speeds/flown"], *POWERED[1:]]
CARDS = {
    "ZZ-DUA": POWERED,
    "ZZ-DUB": POWERED,
    "ZZ-DUC": POWERED,
    "ZZ-PHN": TURBINE,
    "ZZ-TUA": TWIN,
    "ZZ-WHA": POWERED,
    "ZZ-WHB": POWERED,
    "ZZ-WTR": GLIDER,
}


def first(sheets: list[list[str]]) -> list[str]:
    """Return what a format of few sheets holds of a card's first."""
    return [one for one in sheets[0] if one != "weights"]


HELD = {
    "card.pdf": CARDS,
    "card-night.pdf": CARDS,
    "strip.pdf": {name: [first(sheets)] for name, sheets in CARDS.items()},
    "pocket.pdf": {
        name: [first(sheets), ["stall", "calibration"]] for name, sheets in CARDS.items()
    },
}
# How many of a table's columns, where not all.
WIDE = {
    ("pocket.pdf", "stall"): 3,
    ("strip.pdf", "altitude-limits"): 2,
    ("pocket.pdf", "altitude-limits"): 2,
}
COLUMNS = {  # of figures, of the V-speeds; the manual's IAS only where the indicator differs
    "card.pdf": ("indicated", "ias", "cas"),
    "card-night.pdf": ("indicated", "ias", "cas"),
    "strip.pdf": ("indicated",),
    "pocket.pdf": ("indicated",),
}


@pytest.mark.parametrize(
    "which",
    some(
        "aircraft's sheets",
        [f"{name} {kind}" for name in CARDS for kind in HELD],
        [f"{name} {kind}" for name in PRINTED for kind in printed_of(name) if kind in HELD],
    ),
)
def test_each_sheet_holds_its_tables(built, which):
    name, kind = which.split()
    document = from_json((built / name / "card.json").read_text("utf-8"), Document)
    by_sheet = itertools.groupby(texts(built / name / kind), lambda text: SHEET.search(text)[1])
    found = [" ".join(pages) for _, pages in by_sheet]
    assert len(found) == len(HELD[kind][name])
    for text, held in zip(found, HELD[kind][name], strict=True):
        missing = [one for one in held if not holds(text, document, one, kind)]
        assert missing == [], kind


def holds(page: str, document: Document, what: str, kind: str) -> bool:
    """Whether a page has a table's title, or a block's heading, and the first row's figures."""
    name, _, of = what.partition("/")
    table = document.table(name)
    block = next(block for block in table.blocks if of in ("", block.id))
    title = ENGLISH.say(block.heading if of else table.title)
    wanted = (
        COLUMNS[kind] if of else [column.id for column in table.columns[: WIDE.get((kind, name))]]
    )
    figures = [
        ENGLISH.figure(cell, column)
        for cell, column in zip(block.rows[0].cells, table.columns, strict=True)
        if column.id in wanted and not cell.empty
    ]
    return title in page and in_order(page, figures)


def in_order(page: str, figures: list[str]) -> bool:
    """Whether figures stand one behind another somewhere, but for small ones between them."""
    words = page.replace("(", "").replace(")", "").split()
    starts = [n for n, word in enumerate(words) if word == figures[0].split()[0]]
    return any(follow(words[n : n + 3 * len(figures) + 12], figures) for n in starts)


def follow(words: list[str], figures: list[str]) -> bool:
    waiting = iter(words)
    return all(part in waiting for figure in figures for part in figure.split())
