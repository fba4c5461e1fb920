"""What YAML has and definitions have not, what would exhaust memory, and what does not show."""

import json
import time

import pytest

from cardgen.definition.fleet import read_fleet
from cardgen.definition.group import validated
from cardgen.definition.model import AirframeDefinition, TypeDefinition
from cardgen.definition.names import is_taken
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import LONGEST_TEXT, MOST_VALUES, parse_yaml
from cardgen.definition.upgrading import upgraded
from tests.conftest import ROOT


def said(content: str | bytes) -> str:
    content = content if isinstance(content, bytes) else content.encode()
    start = time.process_time()
    with pytest.raises(DefinitionError) as caught:
        parse_yaml(content, "t.yaml")
    assert time.process_time() - start < 1.0
    return str(caught.value)


@pytest.mark.parametrize(
    ("content", "wanted"),
    [
        ("a: &x 1\nb: *x", "2:4: found the alias *x; write the figures out"),
        ("a: !!float 1", "1:4: found the tag tag:yaml.org,2002:float; definitions have no tags"),
        ("a: !!python/object/apply:os.system [id]", "1:4: found the tag tag:yaml.org,2002:python"),
        ("!x a: 1", "1:1: found the tag !x"),
        ("a: {b: 1}\n<<: {c: 1}", "2:1: found the merge key <<"),
        ("a: 1\nb: 2\na: 3", "3:1: the key a stands on line 1 already"),
        ("? [a]\n: 1", "1:3: found a key that is not a word"),
        ("a: 1\n---\nb: 1", "2:1: found a second YAML document"),
        ("a: " + "[" * 21 + "]" * 21, "nested deeper than 20 levels"),
        ("a: " + "9" * 400, "1:4: found 400 digits, expected 20 at most"),
        ("a: [" + "0." + "1" * 400 + "]", "1:5: found 402 digits"),
        ("a: " + "x" * 900_000, f"1:4: found 900000 characters, expected {LONGEST_TEXT} at most"),
        ('"' + "x" * 900_000 + '": 1', "1:1: found 900000 characters"),
        ("a: [" + "1," * 50_000 + "1]", f"found more than {MOST_VALUES:,} keys and values"),
        ("a: [" + "1," * 201 + "]", "1:4: found 201 items, expected 200 at most"),
        ("a: [" + "{b: 1}," * 201 + "]", "1:4: found 201 items, expected 200 at most"),
        ("a: [" + "[1]," * 501 + "]", "1:4: found 501 items, expected 500 at most"),
        ("\n".join(f"k{n}: 1" for n in range(101)), "1:1: found 101 keys, expected 100 at most"),
    ],
)  # fmt: skip
def test_what_definitions_have_not(content, wanted):
    assert f"t.yaml:{wanted}" in said(content) or wanted in said(content)


@pytest.mark.parametrize(
    ("one", "name"),
    [
        ("\x00", "U+0000"),
        ("\x07", "U+0007"),
        ("\x1b", "U+001B"),
        ("\x7f", "U+007F"),
        ("\x85", "U+0085"),
        ("\x9b", "U+009B"),
        ("\xad", "U+00AD (soft hyphen)"),
        ("\u061c", "U+061C (arabic letter mark)"),
        ("\u200b", "U+200B (zero width space)"),
        ("\u200d", "U+200D (zero width joiner)"),
        ("\u2028", "U+2028 (line separator)"),
        ("\u202e", "U+202E (right-to-left override)"),
        ("\u2066", "U+2066 (left-to-right isolate)"),
        ("\u2060", "U+2060 (word joiner)"),
        ("\u3164", "U+3164 (hangul filler)"),
        ("\ufe0f", "U+FE0F (variation selector-16)"),
        ("\ufeff", "U+FEFF (zero width no-break space)"),
        ("\ue000", "U+E000"),
        ("\uffff", "U+FFFF"),
        ("\U000e0041", "U+E0041 (tag latin capital letter a)"),
    ],
)
def test_a_character_that_does_not_show_is_told_wherever_it_stands(one, name):
    """Typed as it is, in a comment too, or written out in quotation marks."""
    told = f"found the character {name}, expected characters that show"
    assert said(f"a: Te{one}al") == f"t.yaml:1:6: {told}"
    assert said(f"a: b # c{one}") == f"t.yaml:1:9: {told}"
    assert said(f'a: 1\nb: "Te\\U{ord(one):08x}al"') == f"t.yaml:2:4: {told}"
    assert said(f'"Te\\U{ord(one):08x}al": 1') == f"t.yaml:1:1: {told}"


def test_a_surrogate_is_no_text():
    assert said('a: "\\ud800"').startswith("t.yaml:1:")
    assert "is not UTF-8 text" in said(b"a: \xed\xa0\x80")


def test_words_of_other_scripts_stay_and_lines_become_one():
    block = parse_yaml(
        "a: Grünau, Ørsted, Ελλάδα, 東京, 5 kt\nb: |\n  No\n  spins.\n".encode(), "t"
    )
    assert block["a"] == "Grünau, Ørsted, Ελλάδα, 東京, 5 kt"
    assert block["b"] == "No spins."
    assert parse_yaml(b'a: "b\\tc\\n"', "t")["a"] == "b c"


@pytest.mark.parametrize("digits", ["９０", "٩٠", "90०", "９0 to 95"])
def test_digits_are_those_of_ascii(definitions, digits):
    path = definitions / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("VNO: {ias: 119,", f"VNO: {{ias: {digits},"))
    with pytest.raises(
        DefinitionError, match=f"ias: found the words '{digits}', expected a number"
    ):
        read_fleet(definitions)


@pytest.mark.parametrize(
    "date", ["86400", "0", '"86400"', "1.5", "2024-13-45", "２０２４-01-01", "[1]"]
)
def test_a_date_is_a_date(definitions, date):
    path = definitions / "types/dunlin-160.yaml"
    path.write_text(path.read_text().replace("date: 2023-05-12", f"date: {date}"))
    with pytest.raises(DefinitionError, match=r"date: found .*expected a date such as 2024-05-31"):
        read_fleet(definitions)


@pytest.mark.parametrize("bank", ["90", "1000000000000000", "-1"])
def test_an_angle_of_bank_is_one_that_is_flown(definitions, bank):
    path = definitions / "school.yaml"
    path.write_text(f"{path.read_text()}stall banks: [0, {bank}]\n")
    with pytest.raises(DefinitionError, match=f"stall banks: found {bank}, expected 0 to 80"):
        read_fleet(definitions)


# -- registrations


def registered(name: str) -> str:
    block = parse_yaml(f"registration: {json.dumps(name)}\ntype: x\n".encode(), "f.yaml")
    return validated(AirframeDefinition, block).registration


TAKEN = [
    "conversions",
    "Conversions",
    "assets",
    "next",
    "schemas",
    "CON",
    "nul",
    "com1",
    "LPT9",
    "aux",
]


@pytest.mark.parametrize("name", TAKEN)
def test_a_registration_is_no_folder_of_the_site_and_no_device(name):
    with pytest.raises(DefinitionError, match=f"1:15: registration: found {name}, expected an"):
        registered(name)


BAD = ["index.html", "..", "a/b", "ZZ\\", "-x", "ZZ A", "ＺＺ", "", "ZZ:A"]


@pytest.mark.parametrize("name", BAD)
def test_a_registration_is_letters_digits_and_hyphens(name):
    with pytest.raises(DefinitionError, match=r"registration: found .*expected letters, digits"):
        registered(name)


def test_a_registration_is_no_longer_than_a_file_name_may_be():
    assert registered("Z" * 16)
    with pytest.raises(DefinitionError, match="found 17 characters, expected 16 at most"):
        registered("Z" * 17)


def test_registrations_that_differ_in_capitals_are_one(definitions):
    path = definitions / "fleet/zz-new.yaml"
    path.write_text("registration: zz-dua\ntype: dunlin-160\n")
    with pytest.raises(DefinitionError, match=r"zz-dua is in fleet/zz-dua.yaml already"):
        read_fleet(definitions)


def test_tables_of_names_that_differ_in_capitals_would_have_one_file():
    text = (ROOT / "tests/definitions/cruise/types/avocet-180.yaml").read_text("utf-8")
    text = text.replace("name: best power", "name: Economy")
    block = parse_yaml(text.encode(), "types/t.yaml")
    with pytest.raises(DefinitionError, match="found a second cruise table like another"):
        validated(TypeDefinition, upgraded(TypeDefinition, block))


def test_every_folder_of_a_site_that_is_no_aircrafts_is_taken():
    folders = [path for path in (ROOT / "site").iterdir() if path.is_dir()]
    others = [path.name for path in folders if not (path / "card.json").exists()]
    assert sorted(others) == ["assets", "conversions", "next", "schemas"]
    assert [name for name in others if not is_taken(name)] == []
