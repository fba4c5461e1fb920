import re
from pathlib import Path

import pytest
import yaml

from cardgen.definition.fleet import AircraftDefinition, read_fleet
from cardgen.definition.places import DefinitionError


def spoil(file: Path, old: str, new: str) -> None:
    text = file.read_text()
    assert text.count(old) >= 1, old
    file.write_text(text.replace(old, new, 1))


def faults(folder: Path) -> list[str]:
    with pytest.raises(DefinitionError) as caught:
        read_fleet(folder)
    return [str(fault) for fault in caught.value.faults]


DUNLIN = "types/dunlin-160.yaml"


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        (
            DUNLIN,
            "calibration:",
            "calibraton:",
            r"dunlin-160.yaml:\d+:1: unknown key calibraton, .*did you mean calibration\?",
        ),
        (DUNLIN, "VNE:", "VNEE:", r":\d+:3: unknown speed VNEE, .*did you mean VNE\?"),
        (DUNLIN, "ias: 151,", "ias: 15l,", r":\d+:14: ias: found the words '15l'.*: 151\?"),
        (DUNLIN, "ias: 151,", "ias: 151 kt,", "leave the unit out.*: 151$"),
        (DUNLIN, "ias: 151,", 'ias: "151",', "leave the quotation marks out"),
        (DUNLIN, "kind: single-engine\n", "", "dunlin-160.yaml:3:1: missing key kind"),
        (DUNLIN, "single-engine", "single-motor", "found the words 'single-motor', expected one"),
        (DUNLIN, "speed: kt", "speed: kts", "expected one of kt, mph, km/h; did you mean kt"),
        (DUNLIN, "2023-05-12", "12.5.2023", "date: found .*, expected a date such as"),
        (
            DUNLIN,
            "cas: [49, 53, 61,",
            "cas: [49, 53,",
            r":\d+:10: cas has 9 figures and ias has 10",
        ),
        (DUNLIN, "cas: [49, 53, 61,", "cas: [49, 61, 53,", "cas: found 53 after 61, expected more"),
        (DUNLIN, "  VNE: {", "  VMO: {", "a single-engine aircraft has no VMO"),
        (DUNLIN, "  VNE: {", "  VLE: {", r":\d+:3: missing VNE: a single-engine aircraft"),
        (DUNLIN, "{flaps: 35, ias: 79", "{flaps: 30, ias: 79", "found 30, expected one of .*35"),
        (DUNLIN, "[ 2000, 2600, -20, 81, 113,  9.5]", "[2000, 2600, -20]", "the row has 3 figures"),
        (DUNLIN, "rpm, isa", "rmp, isa", "unknown column rmp, .*did you mean rpm"),
        (DUNLIN, "fuel flow: gal/h", "fuel flow: gph", "fuel flow: found the words 'gph'"),
        (DUNLIN, "bank: [0, 30, 45, 60]", "bank: [0, 30, 45]", "ias has 4 figures and bank has 3"),
        (DUNLIN, "VNE: {ias: 151", "VNE: {ias: -151", "ias: found -151, expected 15 to 600 kt"),
        (DUNLIN, "VNE: {ias: 151, cas: 147,", "VNE: {", "found no speed, expected ias, cas"),
        ("fleet/zz-dua.yaml", "type: dunlin-160", "type: dunlin-16", "did you mean dunlin-160"),
        ("fleet/zz-dub.yaml", "ZZ-DUB", "ZZ-DUA", "ZZ-DUA is in fleet/zz-dua.yaml already"),
        ("fleet/zz-dub.yaml", "ZZ-DUB", "../etc", "expected letters, digits and hyphens"),
        ("fleet/zz-dub.yaml", "[+2, +2,", "[+2, -20,", "two readings would mean the same airspeed"),
        ("fleet/zz-duc.yaml", "cas: 59, flaps: 35", "cas: 59, flaps: 40", "found 40"),
        ("school.yaml", "paper: letter", "paper: A3", "expected one of letter, A4"),
    ],
)
def test_a_slip_is_named_at_its_place(definitions, file, old, new, said):
    spoil(definitions / file, old, new)
    found = faults(definitions)
    assert any(re.search(said, fault) for fault in found), found
    assert all(re.match(r"[\w./-]+:\d+:\d+: ", fault) for fault in found)


def test_all_faults_of_a_run_are_reported_together(definitions):
    spoil(definitions / DUNLIN, "VNE:", "VNEE:")
    spoil(definitions / DUNLIN, "crosswind:", "crosswinds:")
    spoil(definitions / "fleet/zz-wha.yaml", "whimbrel-200r", "wimbrel")
    spoil(definitions / "school.yaml", "paper:", "papers:")
    found = "\n".join(faults(definitions))
    for part in ("VNEE", "crosswinds", "wimbrel", "papers"):
        assert part in found


def test_a_missing_school_is_an_error(definitions):
    (definitions / "school.yaml").unlink()
    assert faults(definitions) == [
        "school.yaml:1:1: found no file; write one: cardgen start school"
    ]


def test_an_empty_fleet_is_an_error(definitions):
    for file in (definitions / "fleet").iterdir():
        file.unlink()
    assert "found no airframe" in faults(definitions)[0]


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("fleet/zz-wtr.yml", "fleet/zz-wtr.yaml"),
        ("fleet/zz-wtr.YAML", "fleet/zz-wtr.yaml"),
        ("fleet/gliders/zz-wtr.yaml", "fleet/zz-wtr.yaml"),
        ("types/wheatear.yml", "types/wheatear.yaml"),
    ],
)
def test_a_definition_that_would_not_be_read_is_an_error(definitions, path, expected):
    whole = definitions / path
    whole.parent.mkdir(exist_ok=True)
    whole.write_text("registration: ZZ-NEW\n")
    with pytest.raises(DefinitionError, match=f"{path}.*is not read, expected it as {expected}"):
        read_fleet(definitions)


@pytest.mark.parametrize("name", [".zz-wtr.yaml", "._zz-wtr.yaml", "notes.txt", "zz-wtr.yaml~"])
def test_what_is_no_definition_is_left_alone(definitions, name):
    (definitions / "fleet" / name).write_bytes(b"\0\5\7")
    assert read_fleet(definitions).aircraft


def test_a_supplement_is_laid_over_the_type(fleet):
    plain, changed = (one for one in fleet.aircraft if one.registration in ("ZZ-DUA", "ZZ-DUC"))
    assert plain.speeds["VS0"][0].ias.text == "38"
    assert changed.speeds["VS0"][0].ias.text == "36"
    assert changed.speeds["VS0"][0].document == "Vortex generators SUP-12"
    assert changed.speeds["VNE"][0].document == "Pilot's operating handbook DN160-H"
    assert changed.markings.white.from_.text == "36"
    assert changed.markings.red_line.at.text == "151"
    assert [change.before[0].ias.text for change in changed.changes if change.speed == "VS0"] == [
        "38"
    ]


def test_a_supplement_that_restates_stall_speeds_drops_the_manuals_stall_table(fleet):
    plain, changed = (one for one in fleet.aircraft if one.registration in ("ZZ-DUA", "ZZ-DUC"))
    assert plain.stall is not None
    assert changed.stall is None


def laid_over(definitions, supplement: dict) -> AircraftDefinition:
    """ZZ-DUA's type, 2310 lb at the most and VA 96 kt there and 87 kt at 1900 lb, supplemented."""
    path = definitions / "fleet" / "zz-dua.yaml"
    content = yaml.safe_load(path.read_text())
    content["supplements"] = [{"title": "Tips", "number": "S-1", **supplement}]
    path.write_text(yaml.safe_dump(content, allow_unicode=True))
    return next(one for one in read_fleet(definitions).aircraft if one.registration == "ZZ-DUA")


def told(entries) -> list[tuple]:
    return [(one.weight, one.flaps, one.ias) for one in entries]


@pytest.mark.parametrize(
    ("speed", "new", "remains"),
    [
        # the case that is left out is the usual one, whichever of the two leaves it out
        ("VA", {"weight": 2310, "ias": 90}, [(2310, None, 90), (1900, None, 87)]),
        ("VA", {"weight": 1900, "ias": 80}, [(1900, None, 80), (2310, None, 96)]),
        ("VS1", {"flaps": 0, "ias": 44, "cas": 49}, [(None, "0", 44), (None, "10", 41)]),
        ("VS1", {"ias": 44, "cas": 49}, [(None, None, 44), (None, "10", 41)]),
        # what holds at every weight leaves none of the manual's
        ("VA", {"ias": 90}, [(None, None, 90)]),
        # a limit from an altitude up is one more
        ("VNE", {"tas": 150, "from altitude": 8000}, [(None, None, None), (None, None, 151)]),
    ],
)
def test_a_supplements_speed_takes_the_place_of_what_it_restates(definitions, speed, new, remains):
    found = laid_over(definitions, {"speeds": {speed: {"page": "S-1", **new}}})
    assert told(found.speeds[speed]) == remains


def test_a_supplements_calibration_takes_the_place_of_the_same_setting(definitions):
    """The manual's table for flaps 0 may leave the flaps out."""
    path = definitions / "types" / "dunlin-160.yaml"
    path.write_text(path.read_text().replace("- flaps: 0\n", "-\n", 1))
    table = {"flaps": 0, "page": "S-2", "ias": [40, 160], "cas": [45, 155]}
    found = laid_over(definitions, {"calibration": [table]}).calibration
    assert [one.page for one in found if one.flaps in (None, "0")
            and one.static_source == "normal"] == ["S-2"]  # fmt: skip


def test_a_supplements_cruise_needs_the_types_unit_of_fuel(definitions):
    path = definitions / "types" / "dunlin-160.yaml"
    content = yaml.safe_load(path.read_text())
    del content["units"]["fuel flow"], content["cruise"]
    path.write_text(yaml.safe_dump(content, allow_unicode=True))
    cruise = {"page": "S-3", "columns": ["altitude", "tas", "fuel flow"], "rows": [[0, 100, 8]]}
    with pytest.raises(DefinitionError, match="fuel flow: the type's units name none"):
        laid_over(definitions, {"cruise": cruise})


@pytest.mark.parametrize(
    ("pair", "said"),
    [
        ("{from: ZZ-DUB, to: ZZ-WHC}", r":40:24: no aircraft ZZ-WHC, .*did you mean ZZ-WH[AB]"),
        ("{from: zz-dua, to: ZZ-DUB}", r":40:12: no aircraft zz-dua, .*did you mean ZZ-DUA"),
        ("{from: ZZ-DUB, to: ZZ-DUB}", r":40:24: found ZZ-DUB again, expected another aircraft"),
        ("{from: ZZ-DUB, to: ZZ-WHB}", r":41:\d+: from ZZ-DUB to ZZ-WHB is named already"),
        ("{from: ZZ-DUB}", r":40:\d+: missing key to"),
    ],
)
def test_a_pair_that_cannot_be_is_told(definitions, pair, said):
    spoil(definitions / "school.yaml", "{from: ZZ-WHA, to: ZZ-WHB}", pair)
    (found,) = faults(definitions)
    assert re.search(said, found), found


def test_of_an_aircraft_that_cannot_be_read_no_pair_is_at_fault(definitions):
    spoil(definitions / "fleet/zz-whb.yaml", "format: 2", "format: two")
    assert [one for one in faults(definitions) if "school.yaml" in one] == []


@pytest.mark.parametrize("nothing", ['""', '" "'])
@pytest.mark.parametrize(
    ("file", "key", "words"),
    [
        ("fleet/zz-duc.yaml", "title", "Vortex generators"),
        ("types/dunlin-160.yaml", "page", "2-3"),
        ("types/dunlin-160.yaml", "revision", '"6"'),
        ("school.yaml", "name", "Reedmere Flying Club"),
    ],
)
def test_a_text_of_nothing_is_refused(definitions, file, key, words, nothing):
    spoil(definitions / file, f"{key}: {words}", f"{key}: {nothing}")
    (found,) = faults(definitions)
    assert f"{key}: found nothing, expected words" in found
