"""The manuals' texts and the lists of their figures, which were made by hand, hold each other."""

import re
from pathlib import Path

import pytest

MANUALS = Path(__file__).parents[1] / "definitions" / "manuals"
NAMES = sorted(path.parent.name for path in MANUALS.glob("*/manual.txt"))
_WORDS = {"0": ("is right",), "no mark": ("has no mark",)}  # told in words
_TABULATED = ("calibration", "cruise", "position error", "alternate source", "polar", "stall")


def listed(name: str) -> list[list[str]]:
    lines = (MANUALS / name / "figures.txt").read_text().splitlines()
    return [[part.strip() for part in line.split("|")] for line in lines]


def stands_in(figure: str, text: str) -> bool:
    return re.search(rf"(?<![\d.,]){re.escape(figure)}(?!\d|[.,]\d)", text) is not None


def plain(text: str) -> str:
    """Return a text with no commas in its thousands."""
    return re.sub(r"(\d),(\d{3})", r"\1\2", text)


@pytest.mark.parametrize("name", NAMES)
def test_each_figure_of_a_list_stands_in_the_manual(name):
    text = (MANUALS / name / "manual.txt").read_text()
    for line in listed(name):
        assert len(line) == 5, line
        figure = line[3]
        told = any(words in text for words in _WORDS.get(figure, ()))
        assert stands_in(figure, text) or told, line


@pytest.mark.parametrize("name", NAMES)
def test_no_figure_stands_in_a_list_twice(name):
    lines = [tuple(line) for line in listed(name)]
    assert len(set(lines)) == len(lines)


@pytest.mark.parametrize("name", NAMES)
def test_a_manual_holds_few_figures_that_its_list_has_not(name):
    """Those are its date, its numbers, its chapters and pages."""
    text = (MANUALS / name / "manual.txt").read_text()
    told = " ".join(" ".join(line) for line in listed(name))
    head = "\n".join(text.splitlines()[:6])
    left = {
        number
        for number in re.findall(r"(?<![\w.,-])\d{2,3}(?![\w.,:-]|\s*/)", text)
        if not stands_in(number, told) and number not in head
    }
    assert not left, left


@pytest.mark.parametrize("name", NAMES)
def test_what_was_typed_leaves_no_figure_out(name):
    """Every figure of the list stands in the definition as printed, thousands without a comma."""
    typed = "\n".join(
        line.partition("#")[0]
        for file in ("type.yaml", "airframe.yaml")
        for line in (MANUALS / name / file).read_text().splitlines()
    )
    left = [
        line
        for line in listed(name)
        if line[3] not in _WORDS and not stands_in(plain(line[3]), plain(typed))
    ]
    assert not left


@pytest.mark.parametrize("name", NAMES)
def test_what_was_typed_holds_no_figure_that_the_manual_has_not(name):
    text = plain((MANUALS / name / "manual.txt").read_text())
    typed = plain((MANUALS / name / "type.yaml").read_text())
    body = typed[typed.index("speeds:") :]
    bare = re.sub(r"#.*|page: \S+|altitude: 0\b|isa: 0\b|bank: \[0\]", "", body)
    figures = re.findall(r"(?<![\w.-])[+-]?\d+(?:\.\d+)?(?![\w.])", bare)
    assert not {one for one in figures if not stands_in(one.lstrip("+-"), text)} - {"0"}
