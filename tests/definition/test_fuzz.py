"""Spoiled definitions, each made from its number: refused in words or read, never a traceback."""

import datetime
import random
import time
from pathlib import Path

import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.checks.rule import Severity
from cardgen.checks.run import check_airframe, check_type
from cardgen.definition.fleet import merged, misfits_of, unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import AirframeDefinition, School, TypeDefinition
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.upgrading import upgraded
from tests.conftest import DEMO

ROUNDS, FEW, SHARES = 20_000, 1_000, 8
CARD_EVERY = 40  # of those that are read without an error, one in this many is made a card
LONGEST = 2.0  # s
FILES = sorted(DEMO.rglob("*.yaml"))
MODELS = {"types": TypeDefinition, "fleet": AirframeDefinition, "aircraft": School}
SCRAPS = [b"{", b"}", b"[", b"]", b": ", b"- ", b"*a", b"&a ", b"!x ", b'"', b"'", b"|", b"\t"]
SCRAPS += [b"\x00", b"\xff", b"\xe2\x88\x92", b"\n", b"#", b"null", b"9" * 400, b"-1", b"0", b".5"]
SCRAPS += [
    b"no",
    b"12:30",
    b"1e400",
    b"?",
    b"<<: ",
    b"---\n",
    b"%",
    b"@",
    b"`",
    b"\r",
    b"NaN",
    b",",
]


def spoiled(content: bytes, chance: random.Random) -> bytes:
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        content = chance.choice(MUTATIONS)(content, chance)
    return content


def flip(content: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(content))
    return content[:at] + bytes([chance.randrange(256)]) + content[at + 1 :]


def cut(content: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(content))
    return content[:at] + content[at + chance.randrange(1, 30) :] or b" "


def insert(content: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(content))
    return content[:at] + chance.choice(SCRAPS) + content[at:]


def lines(content: bytes, chance: random.Random) -> bytes:
    rows = content.split(b"\n")
    a, b = chance.randrange(len(rows)), chance.randrange(len(rows))
    match chance.randrange(4):
        case 0:
            del rows[a]
        case 1:
            rows.insert(a, rows[b])
        case 2:
            rows[a], rows[b] = rows[b], rows[a]
        case 3:
            rows[a] = b"  " * chance.randrange(4) + rows[a].strip()
    return b"\n".join(rows) or b" "


def figure(content: bytes, chance: random.Random) -> bytes:
    digits = [i for i, byte in enumerate(content) if 48 <= byte <= 57]
    if not digits:
        return insert(content, chance)
    at = chance.choice(digits)
    return content[:at] + chance.choice([b"%d" % chance.randrange(10), *SCRAPS]) + content[at + 1 :]


MUTATIONS = (flip, cut, insert, lines, lines, figure, figure)


def read(file: Path, content: bytes, whole: dict[str, TypeDefinition], school: School, card: bool):
    """Take a spoiled file as far as the program takes it."""
    model = MODELS[file.parent.name]
    group = validated(model, upgraded(model, parse_yaml(content, file.name)))
    if isinstance(group, School):
        return
    if isinstance(group, TypeDefinition):
        if faults := list(unphysical(group)):
            raise DefinitionError(faults)
        found = list(check_type("spoiled", group))
        airframe = AirframeDefinition.model_construct(registration="ZZ-AAA", type="spoiled")
        aircraft = merged(group, airframe)
    elif group.type in whole:
        if faults := list(misfits_of(group, whole)):
            raise DefinitionError(faults)
        aircraft = merged(whole[group.type], group)
        found = list(check_airframe(aircraft, datetime.date(2026, 1, 1)))
    else:
        return
    if card and not any(one.severity is Severity.ERROR for one in found):
        make_document(Aircraft(aircraft), school)


@pytest.mark.parametrize("share", range(SHARES))
def test_a_spoiled_definition_is_read_or_refused_in_words(share, fleet, sample):
    originals = [(file, file.read_bytes()) for file in FILES]
    numbers = sample("spoiled definitions", range(share, ROUNDS, SHARES), FEW // SHARES)
    refused = 0
    for number in numbers:
        chance = random.Random(number)
        file, content = chance.choice(originals)
        worse = spoiled(content, chance)
        start = time.process_time()
        try:
            read(file, worse, fleet.types, fleet.school, number // SHARES % CARD_EVERY == 0)
        except DefinitionError as error:
            refused += bool(error.faults)
        except Exception as error:
            raise AssertionError(f"number {number}, {file.name}: {error!r}") from error
        assert time.process_time() - start < LONGEST, (number, file.name)
    assert refused > len(numbers) // 4  # the mutations do spoil


def bomb() -> bytes:
    rows = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    rows += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 40)]
    return "\n".join(rows).encode()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (bomb(), "found the alias"),
        (b"a: " + b"[" * 100 + b"]" * 100, "nested deeper than"),
        (b"a: " + b"{b: " * 100 + b"1" + b"}" * 100, "nested deeper than"),
        (b"a: 1\n" * 2_100_000, "at most 1 MiB"),
        (b"[" * 1_000_000, "nest"),
    ],
    ids=["alias bomb", "deep list", "deep mapping", "10 MB", "a million brackets"],
)
def test_what_would_exhaust_memory_is_refused_at_once(content, said):
    start = time.process_time()
    with pytest.raises(DefinitionError, match=said):
        parse_yaml(content, "type.yaml")
    assert time.process_time() - start < 1.0
