"""Words have bounds: stated in the schemas, refused beyond, reached by the stress definitions."""

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from cardgen.definition.fleet import read_fleet
from cardgen.definition.places import DefinitionError
from cardgen.definition.schema import FILES, schema
from tests.conftest import ROOT

STRESS = ROOT / "tests" / "definitions" / "stress"
TYPE, AIRFRAME = "types/shearwater-4000.yaml", "fleet/zz-shearwater-12.yaml"


def texts(about: object, path: str = "") -> Iterator[tuple[str, dict]]:
    """Yield what a schema says of every text that is free."""
    if isinstance(about, list):
        for one in about:
            yield from texts(one, path)
    if not isinstance(about, dict):
        return
    kinds = about.get("type", ())
    words = "string" in ([kinds] if isinstance(kinds, str) else kinds)
    if words and not {"enum", "const"} & set(about) and about.get("format") != "date":
        yield path, about
    for key, inner in about.items():
        yield from texts(inner, f"{path}/{key}")


@pytest.mark.parametrize("name", FILES)
def test_every_free_text_has_a_bound_in_the_schema(name):
    found = dict(texts(json.loads(schema(name))))
    assert len(found) > 2
    assert [path for path, about in found.items() if "maxLength" not in about] == []


# A text of each kind that the stress definitions have, as long as it may be.
FULL = [
    ("school.yaml", "name", 100),
    ("school.yaml", "web address", 100),
    ("school.yaml", "notice", 300),
    (TYPE, "name", 60),
    (TYPE, "title", 100),
    (TYPE, "number", 40),
    (TYPE, "revision", 40),
    (TYPE, "when", 60),
    (TYPE, "page", 40),
    (TYPE, "flaps", 16),
    (AIRFRAME, "registration", 16),
    (AIRFRAME, "serial", 40),
    (AIRFRAME, "title", 100),
    (AIRFRAME, "number", 40),
    (AIRFRAME, "revision", 40),
    (AIRFRAME, "remarks", 160),
]


def held(data: object, key: str) -> Iterator[tuple[object, object]]:
    """Yield the groups and lists that have texts under a key, each with where in it."""
    if isinstance(data, dict):
        for name, value in data.items():
            if name == key and isinstance(value, str):
                yield data, name
            elif name == key and isinstance(value, list):
                yield from ((value, n) for n, one in enumerate(value) if isinstance(one, str))
            yield from held(value, key)
    elif isinstance(data, list):
        for one in data:
            yield from held(one, key)


@pytest.mark.parametrize(("file", "key", "bound"), FULL)
def test_one_letter_more_is_refused_at_its_place(tmp_path, file, key, bound):
    folder = tmp_path / "definitions"
    shutil.copytree(STRESS, folder)
    path = folder / file
    data = yaml.safe_load(path.read_text("utf-8"))
    group, at = max(held(data, key), key=lambda found: len(found[0][found[1]]))
    assert len(group[at]) == bound
    group[at] += "X"
    path.write_text(yaml.safe_dump(data, sort_keys=False), "utf-8")
    with pytest.raises(DefinitionError) as caught:
        read_fleet(folder)
    wanted = rf"{file}:\d+:\d+: {key}: found {bound + 1} characters, expected {bound} at most"
    assert any(re.fullmatch(wanted, one) for one in str(caught.value).splitlines())


def test_too_many_remarks_are_refused(tmp_path):
    folder = tmp_path / "definitions"
    shutil.copytree(STRESS, folder)
    path: Path = folder / AIRFRAME
    path.write_text(path.read_text("utf-8") + "  - One more.\n")
    with pytest.raises(DefinitionError, match="remarks: found too many, expected 6 at most"):
        read_fleet(folder)
