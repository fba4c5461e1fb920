"""The version of a file's format: newer ones are refused by name, older ones brought up."""

import re
from collections.abc import Iterable

import pytest

from cardgen.definition import upgrading
from cardgen.definition.fleet import read_fleet
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import Block, DefinitionError
from cardgen.definition.upgrading import Change, rename

TYPE, AIRFRAME, SCHOOL = "types/dunlin-160.yaml", "fleet/zz-dua.yaml", "school.yaml"


def says(definitions, file: str, format: str) -> None:
    path = definitions / file
    path.write_text(f"{path.read_text()}format: {format}\n")


def faults(definitions) -> list[str]:
    with pytest.raises(DefinitionError) as caught:
        read_fleet(definitions)
    return [re.sub(r":\d+:", ":", str(fault), count=1) for fault in caught.value.faults]


@pytest.mark.parametrize("file", [TYPE, AIRFRAME, SCHOOL])
def test_a_newer_format_is_refused_by_name_and_nothing_else_of_that_file(definitions, file):
    (definitions / file).write_text("wing loading: 12\n")
    says(definitions, file, "3")
    found = [fault for fault in faults(definitions) if fault.startswith(file)]
    assert found == [
        f"{file}:9: format: found 3, expected 2 or less: this file was written for a newer cardgen"
    ]


@pytest.mark.parametrize("file", [TYPE, AIRFRAME, SCHOOL])
@pytest.mark.parametrize("format", ["1", "2"])
def test_a_file_may_say_its_format(definitions, fleet, file, format):
    says(definitions, file, format)
    found = read_fleet(definitions)
    assert [one.registration for one in found.aircraft] == [o.registration for o in fleet.aircraft]


@pytest.mark.parametrize(
    ("format", "said"),
    [
        ("0", "found 0, expected a whole number, 1 or more"),
        ("-1", "found -1, expected a whole number, 1 or more"),
        ("1.5", "found 1.5, expected a whole number, 1 or more"),
        ("9.5", "found 9.5, expected a whole number, 1 or more"),
        ("new", "found the words 'new', expected a number"),
        ('"1"', "found the words '1', expected a number; leave the quotation marks out"),
        ("", "found nothing; fill it in, or take the key out"),
    ],
)
def test_what_is_no_version_is_told(definitions, format, said):
    says(definitions, TYPE, format)
    assert [fault.split(": ", 1)[1] for fault in faults(definitions)] == [f"format: {said}"]


def demonstrated(model: type, block: Block) -> Iterable[Change]:
    """A made-up step: format 1 had the crosswind as a bare figure, format 2 has it in a group."""
    if model is TypeDefinition and "demonstrated crosswind" in block:
        group = Block(block.keys_at["demonstrated crosswind"])
        group["demonstrated"] = block.pop("demonstrated crosswind")
        group.keys_at["demonstrated"] = block.keys_at.pop("demonstrated crosswind")
        group.values_at["demonstrated"] = block.values_at.pop("demonstrated crosswind")
        block["crosswind"] = group
        block.keys_at["crosswind"] = block.values_at["crosswind"] = group.place
    return ()


def renamed(model: type, block: Block) -> Iterable[Change]:
    """A second one: format 3 has a key of format 2 under another name."""
    return rename(block, "label", "name") if model is TypeDefinition else ()


@pytest.fixture
def more_steps(monkeypatch):
    """Two steps more than there are."""
    monkeypatch.setattr(upgrading, "STEPS", (*upgrading.STEPS, demonstrated, renamed))


@pytest.fixture
def of_format_1(definitions, more_steps):
    """Definitions of which one type is of the format before the last two steps."""
    path = definitions / TYPE
    text = re.sub(r"(?m)^crosswind: .*", "demonstrated crosswind: 15", path.read_text())
    path.write_text(text.replace("name: Dunlin 160", "label: Dunlin 160"))
    return definitions


def test_an_older_file_is_brought_up_by_each_step_since(of_format_1):
    found = read_fleet(of_format_1).types["dunlin-160"]
    assert (found.name, found.crosswind.demonstrated.text) == ("Dunlin 160", "15")


def test_steps_of_before_a_files_format_are_left_out(of_format_1):
    says(of_format_1, TYPE, "3")
    assert any("unknown key demonstrated crosswind" in fault for fault in faults(of_format_1))


def test_a_file_of_the_newest_format_is_left_as_it_is(definitions, fleet, more_steps):
    says(definitions, TYPE, "4")
    assert read_fleet(definitions).types["dunlin-160"].name == fleet.types["dunlin-160"].name
    says(definitions, AIRFRAME, "5")
    assert "expected 4 or less" in faults(definitions)[0]


def test_a_fault_in_an_older_file_is_told_where_it_stands_there(of_format_1):
    path = of_format_1 / TYPE
    path.write_text(path.read_text().replace("crosswind: 15", "crosswind: 15 kt"))
    line = path.read_text().split("demonstrated crosswind")[0].count("\n") + 1
    with pytest.raises(DefinitionError) as caught:
        read_fleet(of_format_1)
    (fault,) = caught.value.faults
    assert str(fault).startswith(f"{TYPE}:{line}:25: demonstrated: found the words '15 kt'")
