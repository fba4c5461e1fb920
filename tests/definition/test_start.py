import json
import re
import shutil
from collections import Counter
from pathlib import Path

import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.cli import main
from cardgen.definition.fleet import read_fleet, unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import (
    AirframeDefinition,
    Markings,
    School,
    TypeDefinition,
)
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml, read_yaml
from cardgen.definition.schema import sentences
from cardgen.definition.speeds import KINDS, SPEEDS
from cardgen.definition.upgrading import upgraded
from tests.conftest import keep
from tests.definition.test_fleet import faults
from tests.definition.walked import groups_under

FILLED = {
    "date": "2024-05-31",
    "flaps": "30",
    "mach": "0.5",
    "weight": "2000",
    "maximum": "2000",
    "altitude": "5000",
    "bank": "30",
}
WORD = re.compile(r"([\w ]+): (\[?)___")


def filled(text: str) -> str:
    """Fill in the blanks of a new file, those of its lines that are not taken out."""
    return "\n".join(
        line if line.lstrip().startswith("#") else _filled(line) for line in text.splitlines()
    )


def _filled(line: str) -> str:
    line = line.replace("[0, ___]", "[0, 30]").replace("[___, ___]", "[50, 140]")
    return WORD.sub(lambda found: f"{found[1]}: {found[2]}{FILLED.get(found[1].strip(), 60)}", line)


def started(folder: Path, *command: str) -> Path:
    """The file that a command writes."""
    before = {*folder.rglob("*.yaml")}
    assert main(["start", *command, "--definitions", str(folder)]) == 0
    (path,) = {*folder.rglob("*.yaml")} - before
    return path


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_type_is_valid_once_its_blanks_are_filled(tmp_path, kind):
    path = started(tmp_path, "type", "Grebe 5", "--kind", kind)
    assert path == tmp_path / "types/grebe-5.yaml"
    path.write_text(filled(path.read_text()))
    definition = validated(TypeDefinition, upgraded(TypeDefinition, read_yaml(path)))
    assert definition.kind == kind
    assert list(unphysical(definition)) == []


def test_a_new_airframe_is_valid_at_once(definitions):
    path = started(definitions, "airframe", "ZZ-NEW", "--type", "dunlin-160")
    assert path == definitions / "fleet/zz-new.yaml"
    assert validated(AirframeDefinition, read_yaml(path)).registration == "ZZ-NEW"
    assert main(["check", str(definitions)]) == 0


def test_a_new_school_is_valid_once_it_has_a_name(definitions):
    (definitions / "school.yaml").unlink()
    path = started(definitions, "school")
    assert path == definitions / "school.yaml"
    said = faults(definitions)
    assert said == [
        "school.yaml:4:7: found a blank, ___; fill in, or take the key out:\n      name"
    ]
    path.unlink()
    started(definitions, "school", "Teal: flying")
    fleet = read_fleet(definitions)
    assert fleet.school.name == "Teal: flying"
    assert set(fleet.school.reference_speeds) == {*KINDS}
    assert main(["check", str(definitions)]) == 0
    card = make_document(Aircraft(fleet.aircraft[0]), fleet.school)
    assert {"true-airspeed", "cruise-at"} <= {table.id for table in card.tables}


def test_a_new_school_tabulates_for_the_kinds_that_it_has(definitions):
    keep(definitions, "zz-wtr")
    (definitions / "school.yaml").unlink()
    (definitions / "types/bad.yaml").write_text("kind: [")
    school = validated(School, read_yaml(started(definitions, "school", "Teal")))
    assert list(school.reference_speeds) == ["glider"]


AFTER = re.compile(r"(?m)(?<=\S)  +# (.*)$")  # what a line says behind its key


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_type_shows_every_key_of_its_kind(tmp_path, kind):
    """Those of the model's own classes, and the V-speeds of the kind and of no other."""
    text = started(tmp_path, "type", "Grebe 5", "--kind", kind).read_text()
    shown = {one.strip() for one in re.findall(r"([\w ]+):", AFTER.sub("", text))}
    fields = (one for group in groups_under(TypeDefinition) for one in group.model_fields.values())
    wanted = {field.alias for field in fields}
    other = {name for name, kinds in Markings.KINDS.items() if kind not in kinds}
    assert wanted - other - shown == set()
    assert other & shown == set()
    own = {name for name, speed in SPEEDS.items() if kind in speed.kinds}
    assert own - shown == set()
    assert (set(SPEEDS) - own) & shown == set()


def test_each_key_of_a_new_file_is_explained_once(tmp_path):
    text = started(tmp_path, "type", "Grebe 5", "--kind", "single-engine").read_text()
    said = AFTER.findall(text)
    assert len(said) == len(text.splitlines()[4:])
    groups = groups_under(TypeDefinition)
    alike = Counter(one for group in groups for one in sentences(group).values())
    repeated = {one: count for one, count in Counter(said).items() if count > 1}
    assert {one for one, count in repeated.items() if count > alike[one]} == set()


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_taken_out_can_be_put_back(tmp_path, kind):
    """Each key behind a # is one of its group: with all put back no key is unknown or twice."""
    path = started(tmp_path, "type", "Grebe 5", "--kind", kind)
    head, body = path.read_text().splitlines()[:4], path.read_text().splitlines()[4:]
    back = [re.sub(r"^( *)# (?=[ \w-]+:)", r"\1", line) for line in body]
    with pytest.raises(DefinitionError) as caught:
        validated(TypeDefinition, parse_yaml("\n".join([*head, *back]).encode(), "new.yaml"))
    (only,) = [one.message for one in caught.value.faults]
    assert "fill in, or take the key out" in only


@pytest.mark.parametrize(
    "command", ["type Grebe --kind glider", "airframe ZZ-NEW --type dunlin-160", "school Teal"]
)
def test_the_schema_that_a_new_file_names_is_there(definitions, command):
    shutil.rmtree(definitions / "schemas")
    (definitions / "school.yaml").unlink()
    path = started(definitions, *command.split())
    schema = path.parent / path.read_text().splitlines()[0].split("$schema=")[1]
    assert schema.resolve().parent == (definitions / "schemas").resolve()
    assert json.loads(schema.read_text())["title"]


def test_a_schema_that_is_there_is_left_alone_unless_asked_for(definitions):
    schema = definitions / "schemas/type.json"
    schema.write_text("{}")
    started(definitions, "type", "Grebe", "--kind", "glider")
    assert schema.read_text() == "{}"
    assert main(["start", "--schema", "--definitions", str(definitions)]) == 0
    assert json.loads(schema.read_text())["title"] == "TypeDefinition"


def test_start_never_overwrites(definitions, capsys):
    before = (definitions / "fleet/zz-dua.yaml").read_text()
    at = ["--definitions", str(definitions)]
    assert main(["start", "airframe", "ZZ-DUA", "--type", "dunlin-160", *at]) == 2
    assert "is there already; nothing was written" in capsys.readouterr().err
    assert (definitions / "fleet/zz-dua.yaml").read_text() == before


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ("start", "say what to start"),
        ("start type", "needs a name"),
        ("start type Grebe", "needs --kind, one of single-engine"),
        ("start airframe ZZ-NEW --type dunlin-16", "did you mean dunlin-160"),
    ],
)
def test_start_says_what_it_needs(definitions, capsys, arguments, said):
    assert main([*arguments.split(), "--definitions", str(definitions)]) == 2
    assert said in capsys.readouterr().err


def test_blanks_are_named_in_one_message(definitions, capsys):
    started(definitions, "type", "Grebe 5", "--kind", "glider")
    capsys.readouterr()
    assert main(["check", str(definitions)]) == 1
    said = capsys.readouterr().out
    assert said.count("error") == 1
    first, *lines = said.splitlines()
    assert re.search(r"grebe-5.yaml:8:10: error: found \d+ blanks, ___; fill in, or take", first)
    assert "      manual: title, number, revision, date" in lines
    assert "      speeds: VNE ias, cas, page; VS1 ias, cas, page" in lines
    keys = [line.split(":")[0] for line in lines[:4]]
    assert len(keys) == len(set(keys)) == 4
    blanks = (definitions / "types/grebe-5.yaml").read_text()
    kept = [line for line in blanks.splitlines() if not line.lstrip().startswith("#")]
    assert f"found {sum(line.count('___') for line in kept)} blanks" in first


def test_other_slips_are_told_beside_blanks(definitions):
    path = started(definitions, "type", "Grebe 5", "--kind", "glider")
    path.write_text(path.read_text().replace("weight: kg", "weight: kgs"))
    found = faults(definitions)
    assert len(found) == 2
    assert any("found the words 'kgs'" in one for one in found)
