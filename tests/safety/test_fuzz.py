"""Definitions, school files and command lines spoiled at random: what survives is built.

Each is made from its number, so that one that fails is made again. Where `test_fuzz.py` of the
definitions spoils bytes, this changes values, so that more of it survives and goes on to the pages.
"""

import copy
import datetime
import functools
import os
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.checks.run import check, errors, findings_of
from cardgen.cli import main
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.document.data import from_json, to_json
from cardgen.document.record import Document
from cardgen.layout.formats import FORMATS
from cardgen.publish import report
from cardgen.publish.build import build
from cardgen.render import page
from cardgen.render.data import table_csv
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.words.english import ENGLISH
from tests.safety import hostile
from tests.safety.test_text import sheet_of

TODAY = datetime.date(2026, 1, 1)
FOLDERS, SOME_FOLDERS = 2_000, 6  # of definitions
LINES, SOME_LINES = 2_400, 24
SHARES = 2
FILES = [form.file for form in FORMATS if not form.two_up_of]
AIRCRAFT = [
    ("wheatear-15", "zz-wtr"),
    ("sandpiper-250", "zz-spa"),
    ("avocet-180", "zz-ava"),
    ("shearwater-4000", "zz-shearwater-12"),
]
ODD: list[Any] = [
    *hostile.TEXTS,
    *hostile.SHORT,
    *(None, "", " ", "___", "~", "null", "no", "70 to 80", "80 to 70", "1:30", "9" * 30),
    *("x" * 2000, 10**15, -(10**15), 0, -0.0, -1, 1, 0.5, 1e-9, 1e9, 86400, True, False),
    *(1e300, float("inf"), float("nan"), [], [[]], {}, {"a": {}}, [1], ["a", "a"], {"<<": 1}),
    *({"": ""}, datetime.date(1, 1, 1), datetime.date(9999, 12, 31), "2024-02-30", "\x1b[31m"),
    *("９０", "٩", "1,000", "1.", ".5", "+5", "1e3", "0x10", "½", "−5", "é", "😀", "\u202e"),
]  # fmt: skip


@functools.cache
def originals(number: int) -> dict[str, Any]:
    """The files of one aircraft and its school, by name."""
    names = {"school", *AIRCRAFT[number]}
    found = {}
    for source, more in hostile.FILES.items():
        if source.stem in names:
            kind = "" if source.stem == "school" else f"{source.parent.name}/"
            data = yaml.safe_load(source.read_text("utf-8"))
            whole = {**data, **more}
            whole.pop("pairs", None)  # of which this is one alone
            found[f"{kind}{source.name}"] = whole
    return found


class Plain(yaml.Dumper):
    """Writes what stands in two places twice."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def nodes(data: Any) -> Iterator[tuple[Any, Any]]:
    """Every group and list, with a key or place in it."""
    within = data.items() if isinstance(data, dict) else enumerate(data)
    for at, value in list(within):
        yield data, at
        if isinstance(value, dict | list):
            yield from nodes(value)


def spoil(data: Any, chance: random.Random) -> None:
    """Change one thing: its value, its key, its place, its number of times."""
    group, at = chance.choice([*nodes(data)])
    value = group[at]
    match chance.randrange(8):
        case 0 | 1 | 2 if isinstance(value, int | float) and not isinstance(value, bool):
            factor = chance.choice((0.5, 0.9, 0.99, 1.01, 1.1, 2, 10, -1))
            group[at] = chance.choice((round(value * factor, 2), round(value + 1, 2)))
        case 3:
            del group[at]
        case 4 if isinstance(group, list):
            group.insert(chance.randrange(len(group) + 1), copy.deepcopy(value))
        case 4:
            group[str(chance.choice(ODD))] = group.pop(at)
        case 5:
            other, there = chance.choice([*nodes(data)])
            group[at], other[there] = copy.deepcopy(other[there]), copy.deepcopy(value)
        case _:
            group[at] = copy.deepcopy(chance.choice(ODD))


def written(folder: Path, chance: random.Random) -> None:
    """Write a folder of one aircraft with one to three things changed in it."""
    files = copy.deepcopy(originals(chance.randrange(len(AIRCRAFT))))
    for _ in range(chance.choice((1, 1, 2, 3))):
        try:
            spoil(files[chance.choice([*files])], chance)
        except (IndexError, TypeError, KeyError, ValueError, RecursionError):
            continue  # the change before left nothing to change, or it cannot be made there
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        unicode = chance.random() < 0.5
        path.write_text(yaml.dump(data, Dumper=Plain, sort_keys=False, allow_unicode=unicode))


def build_all(fleet: Fleet, found: Any, chance: random.Random) -> None:
    """Make what a build makes, one kind of sheet up to its HTML."""
    templates, (one,) = Templates(), fleet.aircraft
    document = marked(make_document(Aircraft(one), fleet.school, findings_of(found, one)))
    assert from_json(to_json(document), Document) == document
    page.aircraft_page(templates, document)
    for table in document.tables:
        table_csv(table, ENGLISH)
    assert "<body>" in sheet_of(document, chance.choice(FILES))


@pytest.mark.parametrize("share", range(SHARES))
def test_a_spoiled_folder_is_refused_in_words_or_built(share, sample, tmp_path, record_property):
    numbers = sample("spoiled folders", range(share, FOLDERS, SHARES), SOME_FOLDERS // SHARES)
    built = 0
    for number in numbers:
        chance, folder = random.Random(number), tmp_path / str(number)
        written(folder, chance)
        try:
            fleet = read_fleet(folder)
            found = check(fleet, TODAY)
            report.as_text(found, folder, ENGLISH)
            if not errors(found, ENGLISH):
                build_all(fleet, found, chance)
                built += 1
        except DefinitionError as error:
            told = str(error)
            assert told
        except Exception as error:
            raise AssertionError(f"number {number}: {error!r}") from error
    assert len(numbers) < 50 or built > len(numbers) // 10
    record_property("measured", f"{built} of {len(numbers)} spoiled folders built")


WORDS = [
    *("build", "check", "reread", "start", "renew", "reckon", "school", "type", "airframe", "x"),
    *("--help", "--version", "--strict", "--untrusted", "--schema", "--json", "--", "-"),
    *("--format", "--out", "--definitions", "--document", "--kind", "--type", "--flaps", "--gear"),
    *("--ias", "--cas", "--tas", "--altitude", "--pressure-altitude", "--qnh", "--oat", "--isa"),
    *("--wind", "--course", "--static-source", "--print-completion", "bash", "tcsh", "--strict=1"),
    *("text", "json", "github", "glider", "single-engine", "dunlin-160", "ZZ-DUA", "zz-wtr", "up"),
    *("0", "90", "-1", "1013", "29.92", "240/18", "1e9", "nan", "inf", "6,000", "9" * 400, "2-3"),
    *("", " ", "\n", "a\x1b[31m", "\u202e", os.fsdecode(b"\xff"), "٩", "../..", "x" * 5000),
    *("AIRCRAFT", "OUT", "MISSING", *hostile.SHORT, "normal", "alternate", "2-3 to S1", "DN160-H"),
]  # fmt: skip
LIKELY = [
    ["reckon", "ZZ-DUA", "--ias", "90", "--pressure-altitude", "4000", "--oat", "10"],
    ["reckon", "ZZ-DUA", "--cas", "90", "--wind", "240/18", "--course", "280", "--json"],
    ["check", "AIRCRAFT", "--format", "text"],
    ["reread", "2-3", "--document", "DN160-H"],
    ["start", "type", "Grebe", "--kind", "glider", "--definitions", "NEW"],
    ["start", "school", "Teal", "--definitions", "NEW"],
    ["start", "airframe", "ZZ-NEW", "--type", "dunlin-160"],
    ["renew", "AIRCRAFT"],
    ["build", "AIRCRAFT", "--out", "OUT"],
]


def line(chance: random.Random) -> list[str]:
    """A command line that is nearly right, or one of any words."""
    if chance.random() < 0.3:
        return chance.choices(WORDS, k=chance.randrange(7))
    words = list(chance.choice(LIKELY))
    given = [at for at, word in enumerate(words) if at and not word.startswith("--")]
    if chance.random() < 0.2:
        return words
    if chance.random() < 0.7:
        values = [word for word in WORDS if not word.startswith("--")]
        words[chance.choice(given)] = chance.choice(values)
    else:
        words.insert(chance.randrange(len(words) + 1), chance.choice(WORDS))
    return words


@pytest.mark.parametrize("share", range(SHARES))
def test_a_command_line_is_done_or_refused_in_words(
    share, sample, one_aircraft, tmp_path, monkeypatch, capsys
):
    monkeypatch.setattr(
        "cardgen.commands.build.build",
        lambda folder, out, progress, pdfs, **more: build(folder, out, progress, False, **more),
    )
    monkeypatch.chdir(tmp_path)
    places = {"AIRCRAFT": "aircraft", "OUT": "out", "MISSING": "missing", "NEW": "new"}
    codes, files = set(), {*one_aircraft.rglob("*.yaml")}
    numbers = sample("command lines", range(share, LINES, SHARES), SOME_LINES // SHARES)
    for number in numbers:
        words = [places.get(word, word) for word in line(random.Random(number))]
        try:
            codes.add(main(words))
        except SystemExit as ended:
            codes.add(ended.code)
        except Exception as error:
            raise AssertionError(f"number {number}, {words}: {error!r}") from error
        for path in {*one_aircraft.rglob("*.yaml")} - files:
            path.unlink()
        told = capsys.readouterr()
        assert "Traceback" not in told.out + told.err
        assert "\x1b" not in told.out
    assert 2 in codes
    assert len(codes) > 1
    assert codes <= {0, 1, 2, 3}
