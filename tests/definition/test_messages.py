"""The mistakes that a newcomer makes, each answered where it stands and in one message."""

import itertools
import re

import pytest

from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import same_but_for_typing
from cardgen.definition.speeds import KINDS, SPEEDS
from tests.definition.test_fleet import DUNLIN, faults, spoil

VNO = "VNO: {ias: 119, cas: 116, page: 2-3}"
HEAVIEST = "weights: {maximum: 2310, others: [1700, 1900, 2100], page: 2-5}"
IN_BRACES = "weights: {maximum: %s, page: 2-5}"
A_LINE = "weights:\n  maximum: %s\n  page: 2-5"


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("2310,5", "write the decimal comma as a point: 2310.5"),
        ("2,310", "leave the comma out: 2310"),
        ("1,002,310", "leave the comma out: 1002310"),
        ("2 310", "leave the space out: 2310"),
        ("2'310", "leave the apostrophe out: 2310"),
        ("2_310", "leave the underscore out: 2310"),
        ("2310 lb", "leave the unit out, it is declared once under units: 2310"),
        ("2310lbs", "leave the unit out, it is declared once under units: 2310"),
        ("2,310 lb", "it is declared once under units; leave the comma out: 2310"),
        ("23l0", "a letter stands for a digit: 2310?"),
        ("231O", "a letter stands for a digit: 2310?"),
        ("'2310'", "leave the quotation marks out"),
        ("2.31e3", "write all its digits: 2310"),
        ("0x906", "write it in ordinary digits: 2310"),
        ("12:30", "a time does not stand here"),
        ("2023-05-12", "a date does not stand here"),
        ("no", "yes and no are words here"),
        ("n/a", "where the manual gives no figure, take the key out"),
        ("−5", "write the minus sign as a hyphen: -5"),
        ("heavy", "found the words 'heavy', expected a number"),
    ],
)
@pytest.mark.parametrize("around", [IN_BRACES, A_LINE], ids=["in braces", "on a line"])
def test_a_number_that_is_none_is_answered_once(definitions, around, written, meant):
    spoil(definitions / DUNLIN, HEAVIEST, around % written)
    (found,) = faults(definitions)
    assert found.endswith(meant), found
    assert re.match(r"types/dunlin-160.yaml:(8:20|9:12): maximum: found the words '", found)


@pytest.mark.parametrize(
    ("written", "found"),
    [
        ("86400", "the number 86400"),
        ("20230512", "the number 20230512"),
        ("'86400'", "the words '86400'"),
        ("2023-5-12", "the words '2023-5-12'"),
        ("2023-02-30", "the words '2023-02-30'"),
        ("12 May 2023", "the words '12 May 2023'"),
        ("2023-05-12T00:00:00", "the words '2023-05-12T00:00:00'"),
        ("[2023-05-12]", "a list"),
    ],
)
def test_a_date_is_written_in_full(definitions, written, found):
    spoil(definitions / DUNLIN, "date: 2023-05-12", f"date: {written}")
    (said,) = faults(definitions)
    assert said.endswith(f": date: found {found}, expected a date such as 2024-05-31"), said


@pytest.mark.parametrize("word", ["no", "1e5", "0x1F", "007", "12", "ON", "null-1", "1-2-3"])
def test_a_registration_needs_no_quotation_marks(definitions, word):
    spoil(definitions / "fleet/zz-dua.yaml", "ZZ-DUA", word)
    assert word in {one.registration for one in read_fleet(definitions).aircraft}


@pytest.mark.parametrize("word", ["no", "1e5", "12:30", "0x1F", "1_000", "2024-01-31", "6.0", "~1"])
def test_words_are_what_was_typed(definitions, word):
    spoil(definitions / DUNLIN, 'revision: "6"', f"revision: {word}")
    assert read_fleet(definitions).types["dunlin-160"].manual.revision == word


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        # an unknown key, that of a group that must be there too
        ("\ncalibration:", "\ncalibraton:", r":45:1: unknown key calibraton, .*did you mean cal"),
        ("{demonstrated: 15,", "{demonstated: 15,", "unknown key demonstated, .*demonstrated\\?$"),
        ("ias: 151,", "ias:151,", "found ias:151, expected ias: 151; put a space behind the"),
        ("VNE:", "Vne:", "unknown speed Vne, .*; did you mean VNE\\?$"),
        # a tab, and other slips of the format
        ("  VS0: {", "\tVS0: {", r":11:1: found a tab, expected spaces"),
        ("name: Dunlin 160", "name: Dunlin: 160", "words with a colon stand in quotation marks"),
        ("name: Dunlin 160", "name: @Dunlin", "that begin with a sign stand in quotation marks"),
        ("name: Dunlin 160", "name: 'Dunlin", "or a quotation mark missing"),
        (VNO, VNO.replace(", cas", " cas"), "is a comma or a bracket missing"),
        ("ias: 80 to 90,", "ias: 80 to " + "0" * 40 + "90,", "ias: found the words '80 to 000"),
        # what a type or a kind has not
        ("{flaps: 35, ias: 79", "{flaps: 30, ias: 79", "found 30, .*type's, 0, 10, 35$"),
        ("{flaps: 35, ias: 79", "{flaps: 35 deg, ias: 79", "0, 10, 35; did you mean 35\\?$"),
        ("{flaps: 35, ias: 79", '{flaps: "35°", ias: 79', "0, 10, 35; did you mean 35\\?$"),
        (
            "  VNE: {",
            "  VYSE: {ias: 80, cas: 80, page: 2-3}\n  VNE: {",
            "a single-engine aircraft has no VYSE; multi-engine and turbine aircraft have it$",
        ),
    ],
)
def test_a_slip_is_answered_once(definitions, old, new, said):
    spoil(definitions / DUNLIN, old, new)
    (found,) = faults(definitions)
    assert re.search(said, found), found


def test_flap_settings_that_are_words_are_offered_when_nearly_right(definitions):
    path = definitions / DUNLIN
    names = {"0": "up", "10": "takeoff", "35": "landing"}
    for file in (path, *definitions.glob("fleet/zz-du*.yaml")):
        said = file.read_text().replace("[0, 10, 35]", "[up, takeoff, landing]")
        file.write_text(re.sub(r"flaps: (0|10|35)\b", lambda one: f"flaps: {names[one[1]]}", said))
    read_fleet(definitions)
    spoil(path, "{flaps: landing, ias: 79", "{flaps: lading, ias: 79")
    (found,) = faults(definitions)
    assert found.endswith(
        "expected one of this type's, up, takeoff, landing; did you mean landing?"
    )


def test_a_folder_without_a_school_is_told_how_to_begin(definitions):
    (definitions / "school.yaml").unlink()
    (found,) = faults(definitions)
    assert found.endswith("found no file; write one: cardgen start school")


# -- V-speeds are not offered for one another ------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("VSO", "VS0"),
        ("vs1", "VS1"),
        ("Vfe", "VFE"),
        ("V NE", "VNE"),
        ("V_NO", "VNO"),
        ("VN0", "VNO"),
        ("VMCA", "VMC"),
        ("VREF1", "VREF"),
        ("best-glide", "best glide"),
        ("Best Glide", "best glide"),
        ("VM", None),
        ("VS", None),
        ("VMD", None),
        ("VXSF", None),
        ("VKE", None),
    ],
)
def test_a_speed_is_offered_only_where_the_typing_is_the_difference(typed, offered):
    assert same_but_for_typing(typed, SPEEDS) == offered


def test_no_speed_is_offered_for_another():
    """Whichever of two a kind has, the other's name is never answered with it."""
    for name, other in itertools.permutations(SPEEDS, 2):
        assert same_but_for_typing(name, set(SPEEDS) - {name}) != other or (
            name.startswith(other) or other.startswith(name)
        ), (name, other)
    for name, other in (("VMC", "VMO"), ("VXSE", "VYSE"), ("VLE", "VFE"), ("VMO", "MMO")):
        assert same_but_for_typing(name, {other, *KINDS}) is None


def test_one_letter_changed_in_a_speed_offers_none_that_has_another_letter_there():
    """Of all names with one letter replaced, none is answered with a speed, but O and 0."""
    for name in (one for one in SPEEDS if one.isupper()):
        for at, letter in itertools.product(range(len(name)), "ABCDEFGHIJKLMNPQRSTUVWXYZ23456789"):
            typed = name[:at] + letter + name[at + 1 :]
            if typed not in SPEEDS:
                near = same_but_for_typing(typed, SPEEDS)
                zeros = (near or "").replace("O", "0"), typed.replace("O", "0")
                assert near is None or zeros[0] in zeros[1], (typed, near)


# -- pages -----------------------------------------------------------------------------------------


def test_a_page_left_out_is_no_error(definitions):
    path = definitions / DUNLIN
    path.write_text(re.sub(r", page: [\w-]+}|\n +page: .*", lambda found: "}" if found[0][-1] == "}"
                           else "", path.read_text()))  # fmt: skip
    assert "page" not in path.read_text()
    read_fleet(definitions)
