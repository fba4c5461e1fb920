"""The JSON Schemas against the demo files, with a validator from outside the project."""

import json

import jsonschema
import pytest
import yaml

from cardgen.definition.schema import FILES, schema
from cardgen.definition.speeds import SPEEDS
from tests.conftest import DEMO, ROOT

FOLDERS = {"type.json": "types/*.yaml", "airframe.json": "fleet/*.yaml", "school.json": "*.yaml"}


class Words(yaml.SafeLoader):
    """Reads dates as the words that they are in JSON."""


Words.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if not tag.endswith(":timestamp")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def loaded(path):
    return yaml.load(path.read_text(), Loader=Words)


@pytest.mark.parametrize("name", FILES)
def test_the_committed_schema_is_what_the_model_gives(name):
    """Run `cardgen start --schema` where this fails."""
    assert (DEMO / "schemas" / name).read_text() == schema(name)


@pytest.mark.parametrize("folder", [DEMO, ROOT / "tests/definitions/cruise"])
@pytest.mark.parametrize("name", FILES)
def test_sound_files_are_valid(name, folder):
    validator = jsonschema.Draft202012Validator(json.loads(schema(name)))
    paths = sorted(folder.glob(FOLDERS[name]))
    assert paths
    for path in paths:
        assert list(validator.iter_errors(loaded(path))) == [], path


def test_a_mistyped_key_is_invalid():
    validator = jsonschema.Draft202012Validator(json.loads(schema("type.json")))
    definition = loaded(DEMO / "types/dunlin-160.yaml")
    definition["speeds"]["VNEE"] = definition["speeds"].pop("VNE")
    definition["calibration"][0]["iass"] = []
    assert len(list(validator.iter_errors(definition))) == 2


def test_every_key_has_a_sentence_and_every_speed_its_meaning():
    for name in FILES:
        whole = json.loads(schema(name))
        for group in (whole, *whole["$defs"].values()):
            for key, about in group.get("properties", {}).items():
                assert about.get("description", "").endswith("."), (name, key)
    speeds = json.loads(schema("type.json"))["properties"]["speeds"]["properties"]
    assert set(speeds) == set(SPEEDS)


@pytest.mark.parametrize("path", [*DEMO.rglob("*.yaml")], ids=lambda path: path.stem)
def test_demo_files_name_their_schema_for_editors(path):
    first = path.read_text().splitlines()[0]
    assert first.startswith("# yaml-language-server: $schema=")
    assert (path.parent / first.split("=")[1]).is_file()
