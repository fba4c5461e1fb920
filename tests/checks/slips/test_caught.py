"""How many copying slips of each class the checks catch; DEVELOPERS.md says which pass, and why.

A class is all slips of its kind in every type of the demo and of `tests/definitions/manuals`. Of
each a run takes a fixed sample, and `pytest -m long` all.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import pytest

from cardgen.definition.fleet import read_fleet
from tests.checks.test_rules import said
from tests.conftest import DEMO, ROOT
from tests.sound.fleets import fleet_of_manuals

from . import airframes
from .making import CLASSES, Slip, direction_turned, made, take_back
from .running import found, is_caught, read, typed

TYPES = [
    *sorted((DEMO / "types").glob("*.yaml")),
    *sorted((ROOT / "tests/definitions/manuals").glob("*/type.yaml")),
]
FEW = 4  # of a class, of each type
# The shares that are held: of all slips, and of those beyond one in a figure's last place.
HELD = {
    "wrong digits": (0.90, 0.95),
    "misread": (0.91, 0.95),
    "columns exchanged": (0.99, 0.99),
    "rows exchanged": (0.91, 0.92),
    "shifted by one": (0.93, 0.94),
    "row left out": (0.95, 0.95),
    "row doubled": (0.95, 0.95),
    "of another case": (0.79, 0.88),
    "one speed in another unit": (0.90, 0.90),
    "table in another unit": (0.96, 0.96),
    "declared unit": (0.91, 0.91),
}


class Share(NamedTuple):
    """How many of some slips were caught; of several types, each counts as all that it has."""

    caught: float = 0.0
    tried: int = 0
    whole: float = 0.0

    def __add__(self, other: "Share") -> "Share":  # type: ignore[override]
        return Share(*(a + b for a, b in zip(self, other, strict=True)))  # type: ignore[arg-type]

    @property
    def part(self) -> float:
        return self.caught / self.whole if self.whole else 1.0


def of(results: Sequence[bool], whole: int) -> Share:
    return Share(whole * sum(results) / len(results), len(results), whole) if results else Share()


def at_least(share: Share, held: float) -> None:
    """Hold a share, less what chance may take of a sample: 3 sigma, for 2 figures' worth of it.

    Types have many slips or few, so that a sample of as many of each says less than its number.
    """
    left = 1 - share.tried / share.whole if share.whole else 0.0
    chance = 3 * math.sqrt(2 * held * (1 - held) / max(share.tried, 1) * left)
    assert share.part >= held - chance, share


@pytest.mark.parametrize("name", CLASSES)
def test_slips_are_caught(name, sample, record_property):
    every, beyond = Share(), Share()
    for path in TYPES:
        block, before = typed(path)
        slips = [*CLASSES[name](block)]
        tried = sample(f"slips, {name}", slips, min(FEW, len(slips)))
        caught = [is_caught(slip, block, before) for slip in tried]
        clear = [one for one, slip in zip(caught, tried, strict=True) if slip.beyond]
        every += of(caught, len(slips))
        beyond += of(clear, sum(slip.beyond for slip in slips))
    record_property("measured", f"{name} {100 * every.part:.0f} % caught")
    all_held, beyond_held = HELD[name]
    at_least(every, all_held)
    at_least(beyond, beyond_held)


def test_each_class_has_slips_of_most_types():
    counts = dict.fromkeys(CLASSES, 0)
    for path in TYPES:
        block, _ = typed(path)
        for name, make in CLASSES.items():
            counts[name] += next(iter(make(block)), None) is not None
    assert min(counts.values()) > len(TYPES) / 2
    assert set(HELD) == set(CLASSES)


@pytest.mark.parametrize(
    ("make", "held"),
    [
        (airframes.wrong_signs, 0.90),
        (airframes.all_signs_turned, 1.0),
        (airframes.papers_of_another_type, 0.95),
    ],
    ids=["a sign of a bench card", "all signs of a bench card", "papers of another type"],
)
def test_slips_of_airframes_are_caught(make, held, fleet, manuals, record_property):
    slips = [one for some in (fleet, manuals) for one in make(some)]
    caught = [airframes.is_caught(one) for one in slips]
    told = f"{make.__name__} {100 * sum(caught) / len(caught):.0f} % caught"
    record_property("measured", f"{told} of {len(caught)}")
    assert len(caught) > 5
    assert sum(caught) >= held * len(caught)


@pytest.fixture(scope="module")
def manuals(tmp_path_factory):
    """The fleet of the manuals."""
    return read_fleet(fleet_of_manuals(tmp_path_factory.mktemp("manuals")))


def test_the_direction_of_a_table_is_held(record_property):
    """Nine of ten: that for flaps down errs to both sides, as its table of airspeeds does."""
    caught = []
    for path in TYPES:
        block = read(path)
        before = found(block)
        caught += [is_caught(slip, block, before) for slip in direction_turned(block)]
    record_property("measured", f"directions of tables {sum(caught)} of {len(caught)} caught")
    assert len(caught) >= 10
    assert sum(caught) >= 0.9 * len(caught)


def test_a_slip_is_taken_back():
    """Whatever is tried leaves what was read as it was."""
    for path in TYPES[:3]:
        block = read(path)
        before, shown = found(block), repr(block)
        for make in CLASSES.values():
            for slip in [*make(block)][:5]:
                is_caught(slip, block, before or set())
        assert repr(block) == shown
        assert found(block) == before


def test_a_slip_put_among_what_was_read_is_one_written_into_the_file(sample):
    path = TYPES[0]
    text, block = path.read_text(), read(path)
    slips = [slip for slip in CLASSES["wrong digits"](block) if len(slip.edits) == 1]
    for slip in sample("slips written out", slips, 20):
        told = _told(slip, block)
        assert told == _said(written(slip, text)), slip.said


def written(slip: Slip, text: str) -> str:
    """Write a slip into a file's text."""
    ((holder, at, value),) = slip.edits
    old, lines = holder[at], text.split("\n")
    row, start = old.place.line - 1, old.place.column - 1
    lines[row] = lines[row][:start] + value.text + lines[row][start + len(old.text) :]
    return "\n".join(lines)


def _said(text: str) -> set[tuple[str, int]]:
    """Return rules and lines, as a reader of what is said has them."""
    lines = [*said(text.encode())]
    if not all(line.endswith(")") for line in lines):
        return set()
    warned = [line for line in lines if ": note: " not in line]
    return {(line.rpartition("(")[2][:-1], int(line.partition(":")[0])) for line in warned}


def _told(slip: Slip, block) -> set[tuple[str, int]]:
    back = made(slip)
    try:
        return found(block) or set()
    finally:
        take_back(back)
