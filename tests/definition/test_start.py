import re

import pytest

from cardgen.cli import main
from cardgen.definition.fleet import unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import AirframeDefinition, TypeDefinition
from cardgen.definition.reading import read_yaml
from cardgen.definition.speeds import KINDS

FILLED = {
    "title": "Handbook",
    "number": "AB-1",
    "revision": "2",
    "date": "2024-05-31",
    "maximum": "2000",
    "page": "2-1",
    "flaps": "30",
    "mach": "0.5",
    "serial": "17",
}


def filled(text: str) -> str:
    """Fill in the blanks of a new file."""
    lines = []
    for line in text.splitlines():
        if not line.lstrip().startswith("#"):
            line = line.replace("[0, ___]", "[0, 30]").replace(
                "[___, ___, ___, ___]", "[50, 80, 110, 140]"
            )
            line = re.sub(r"(\w+): (\"?)___", lambda m: f"{m[1]}: {m[2]}{_fill(m[1])}", line)
        lines.append(line)
    return "\n".join(lines)


def _fill(key: str) -> str:
    return FILLED.get(key, "60")


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_type_is_valid_once_its_blanks_are_filled(tmp_path, kind, capsys):
    command = ["start", "type", "Grebe 5", "--kind", kind, "--definitions", str(tmp_path)]
    assert main(command) == 0
    path = tmp_path / "types/grebe-5.yaml"
    assert "# " in path.read_text()
    path.write_text(filled(path.read_text()))
    definition = validated(TypeDefinition, read_yaml(path))
    assert definition.kind == kind
    assert list(unphysical(definition)) == []


def test_a_new_airframe_is_valid_once_its_blanks_are_filled(definitions):
    at = ["--definitions", str(definitions)]
    assert main(["start", "airframe", "ZZ-NEW", "--type", "dunlin-160", *at]) == 0
    path = definitions / "fleet/zz-new.yaml"
    path.write_text(filled(path.read_text()))
    assert validated(AirframeDefinition, read_yaml(path)).registration == "ZZ-NEW"
    assert main(["check", str(definitions)]) == 0


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


def test_blanks_are_named(tmp_path, definitions, capsys):
    at = ["--definitions", str(definitions)]
    main(["start", "type", "Grebe 5", "--kind", "glider", *at])
    assert main(["check", str(definitions)]) == 1
    said = capsys.readouterr().out
    assert "grebe-5.yaml:7:17: error: title: still blank" in said
    assert "\n                    ^\n" in said
