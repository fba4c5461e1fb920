"""Each rule speaks of what it is for, in these words, and is silent about sound definitions."""

import datetime
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from cardgen.checks.rule import OF_AIRCRAFT, OF_AIRFRAME, OF_FLEET, OF_TABLES, Finding
from cardgen.checks.run import all_rules, check, check_type
from cardgen.definition.fleet import read_fleet, unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.upgrading import upgraded
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, ROOT

BROKEN = sorted((ROOT / "tests/definitions/broken").glob("*.yaml"))
SOUND = sorted((ROOT / "tests/definitions/sound").glob("*.yaml"))
TODAY = datetime.date(2026, 1, 1)


def _in_order(one: Finding) -> tuple[object, ...]:
    return one.place, one.rule.name, ENGLISH.say(one.message)


def said(content: bytes) -> Iterator[str]:
    """All that is said of a type's file, as its header states it."""
    try:
        definition = validated(TypeDefinition, upgraded(TypeDefinition, parse_yaml(content, "f")))
        if faults := list(unphysical(definition)):
            raise DefinitionError(faults)
    except DefinitionError as error:
        for place, message in error.faults:
            yield f"{place.line}:{place.column}: error: {message}"
        return
    for one in sorted(check_type("f", definition), key=_in_order):
        at = f"{one.place.line}:{one.place.column}"
        yield f"{at}: {one.severity.value}: {ENGLISH.say(one.message)} ({one.rule.name})"


def expected(path: Path) -> list[str]:
    return re.findall(r"^#   (\d+:\d+: .*)$", path.read_text(), re.MULTILINE)


def test_there_are_many_broken_files():
    assert len(BROKEN) >= 60


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_a_broken_file_is_told_in_these_words(path):
    wanted = expected(path)
    assert wanted
    assert list(said(path.read_bytes())) == wanted


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_every_rule_is_silent_about_a_sound_file(path):
    assert list(said(path.read_bytes())) == []


def test_every_rule_on_aircraft_has_a_broken_file():
    fired = {
        name for path in BROKEN for name in re.findall(r"\(([\w-]+)\)$", path.read_text(), re.M)
    }
    assert {rule.name for rule in (*OF_AIRCRAFT, *OF_TABLES)} <= fired


def test_rules_have_names_of_their_own_and_sources():
    rules = all_rules()
    assert len({rule.name for rule in rules}) == len(rules)
    assert all(rule.source and rule.look and rule.find.__doc__ for rule in rules)


@pytest.mark.parametrize("folder", [DEMO, ROOT / "tests/definitions/cruise"])
def test_a_sound_fleet_has_no_findings(folder):
    assert check(read_fleet(folder), TODAY) == ()


AIRFRAMES = {
    "manual-date": ("types/dunlin-160.yaml", "2023-05-12", "2031-05-12"),
    "bench-card-age": ("fleet/zz-dub.yaml", "2025-02-03", "2023-02-03"),
    "bench-card-size": ("fleet/zz-dub.yaml", "[+2, +2, +1,", "[+12, +9, +1,"),
    "bench-card-range": ("fleet/zz-dub.yaml", "130, 155]", "130, 140]"),
    "bench-card-smooth": ("fleet/zz-dub.yaml", "[+2, +2, +1,", "[+2, -2, +1,"),
    "bench-card-reach": ("fleet/zz-dub.yaml", "130, 155]", "130, 355]"),
    "bench-card-words": ("fleet/zz-dub.yaml", "add to indicated", "subtract from indicated"),
    "supplement-apart": ("fleet/zz-duc.yaml", "VS0: {ias: 36, cas: 44", "VS0: {ias: 26, cas: 30"),
    "sign-off-age": (
        "fleet/zz-tua.yaml",
        "serial:",
        "sign off: {by: An instructor, date: 2024-02-19, figures: 0000-0000}\nserial:",
    ),
    "type-unused": ("fleet/zz-tua.yaml", "turnstone-310", "dunlin-160"),
    "acceptance": (
        "fleet/zz-tua.yaml",
        "serial:",
        "accepted: [{rule: no-such-rule, reason: why not}]\nserial:",
    ),
}


@pytest.mark.parametrize("name", AIRFRAMES)
def test_rules_on_airframes_and_fleets_fire(definitions, name):
    file, old, new = AIRFRAMES[name]
    path = definitions / file
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new))
    assert name in {one.rule.name for one in check(read_fleet(definitions), TODAY)}


def test_every_rule_on_airframes_and_fleets_is_tried():
    assert {rule.name for rule in (*OF_AIRFRAME, *OF_FLEET)} <= set(AIRFRAMES)


@pytest.mark.parametrize(
    ("date", "told"),
    [
        ("2024-02-19", ["signed on 2024-02-19; Airplane flight manual TS310-AFM is of 2024-02-20, "
                        "expected a sign-off after it"]),
        ("2024-02-20", []),
        ("2025-12-31", []),
        ("2026-01-02", ["dated 2026-01-02, which is in the future"]),
    ],
)  # fmt: skip
def test_a_sign_off_is_held_against_the_manuals_date(definitions, date, told):
    path = definitions / "fleet/zz-tua.yaml"
    sign_off = f"sign off: {{by: An instructor, date: {date}, figures: 0000-0000}}\n"
    path.write_text(path.read_text() + sign_off)
    found = check(read_fleet(definitions), TODAY)
    said = [(one.rule.name, ENGLISH.say(one.message)) for one in found]
    assert said == [("sign-off-age", one) for one in told]


def test_a_speed_that_cannot_be_reckoned_is_called_unknown(definitions):
    path = definitions / "types/phalarope-9t.yaml"
    text = path.read_text()
    assert "[25000, 100, -15, 245, 366]" in text
    path.write_text(text.replace("-15, 245, 366]", "-15, 600, 366]"))
    said = [ENGLISH.say(one.message) for one in check(read_fleet(definitions), TODAY)]
    assert any(one.startswith("TAS 600 is CAS unknown here; expected between") for one in said)


def test_a_supplement_is_checked_where_it_is_laid_over(definitions):
    path = definitions / "fleet/zz-duc.yaml"
    path.write_text(path.read_text().replace("VS0: {ias: 36, cas: 44", "VS0: {ias: 63, cas: 44"))
    places = {one.place.file for one in check(read_fleet(definitions), TODAY)}
    assert places == {"fleet/zz-duc.yaml"}
