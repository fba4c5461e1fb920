"""What the guide says of the keys, against the model's own fields.

The fields are found from pydantic and Python's annotations (`walked.py`); the guide goes by the
JSON Schema.
"""

import datetime
import re
from typing import Any, Literal, get_args, get_origin

import pytest
from pydantic import BaseModel

from cardgen.definition.examples import USUAL
from cardgen.definition.group import validated
from cardgen.definition.guide import V_SPEEDS, Form, Key, guide
from cardgen.definition.model import AirframeDefinition, School, Supplement, TypeDefinition
from cardgen.definition.places import DefinitionError, Figure
from cardgen.definition.reading import parse_yaml
from cardgen.definition.schema import FILES, sentences
from cardgen.definition.speeds import SPEEDS
from tests.definition.walked import groups_under

FILE_OF = {TypeDefinition: "type.json", AirframeDefinition: "airframe.json", School: "school.json"}
# The oldest pydantic that serves gives a key its name only in a model that was built.
BUILT = {file: guide(file) for file in FILE_OF.values()}
GROUPS = [(file, group) for model, file in FILE_OF.items() for group in groups_under(model)]
KEYS = [
    pytest.param(file, group, field.alias, id=f"{file}-{group.__name__}-{field.alias}")
    for file, group in GROUPS
    for field in group.model_fields.values()
]
# Numbers without a unit: ratios, Mach numbers, versions, and rows whose columns say it.
PURE = {"mach", "times VS0", "ratio", "format", "Cruise.rows", "Signing.names", "Signing.months"}
# What may stand where a number may.
BESIDE_NUMBERS = {
    **{
        f"{group}.{key}": "range"
        for group in ("SpeedEntry", "NamedEntry")
        for key in ("ias", "cas")
    },
    "Cruise.rows": "n/a",
}


def field_of(group: type[BaseModel], alias: str):
    return next(one for one in group.model_fields.values() if one.alias == alias)


def name_of(group: type[BaseModel], alias: str) -> str:
    return next(name for name, one in group.model_fields.items() if one.alias == alias)


def key_of(file: str, group: type[BaseModel], alias: str) -> Key:
    return guide(file)[group.__name__].key(alias)


def test_all_kinds_of_files_are_told():
    assert set(FILE_OF.values()) == set(FILES)


@pytest.mark.parametrize("file", FILES)
def test_the_guide_has_each_group_of_the_model_and_no_other(file):
    wanted = {group.__name__ for at, group in GROUPS if at == file}
    assert set(guide(file)) - {V_SPEEDS} == wanted


@pytest.mark.parametrize(("file", "group"), GROUPS, ids=lambda one: getattr(one, "__name__", one))
def test_a_group_has_each_of_its_keys_and_says_which_are_needed(file, group):
    told = {key.name: key.needed for key in guide(file)[group.__name__].keys}
    fields = group.model_fields.values()
    assert told == {field.alias: field.is_required() for field in fields}


def test_each_v_speed_is_told_with_its_meaning():
    told = {key.name: key.meaning for key in guide("type.json")[V_SPEEDS].keys}
    assert set(told) == set(SPEEDS)
    for name, meaning in told.items():
        assert meaning.startswith(f"{SPEEDS[name].meaning}. For {SPEEDS[name].kinds[0]}")


@pytest.mark.parametrize(("file", "group", "alias"), KEYS)
def test_a_key_says_what_it_means_and_what_it_takes(file, group, alias):
    field, key = field_of(group, alias), key_of(file, group, alias)
    assert key.meaning == sentences(group)[name_of(group, alias)]
    assert key.meaning.endswith(".")
    beside = {BESIDE_NUMBERS.get(f"{group.__name__}.{alias}", "")} - {""}
    assert _kinds(key.forms) == {*_takes(field.annotation), *beside}


def _kinds(forms: tuple[Form, ...]) -> set[str]:
    """What a key takes in the end, below lists and names; a V-speed's group is told beside."""
    kinds = set()
    for form in forms:
        group = "SpeedEntry" if form.group == V_SPEEDS else form.group
        kinds |= _kinds(form.of) or {group or (form.choices or (form.what,))[0]}
    return kinds


def _takes(annotation: Any):
    if annotation is Figure:
        yield "number"
    elif annotation is str:
        yield "words"
    elif annotation is datetime.date:
        yield "date"
    elif get_origin(annotation) is Literal:
        yield get_args(annotation)[0]
    elif isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation.__name__
    elif get_origin(annotation) is dict:
        yield from _takes(get_args(annotation)[1])
    elif hasattr(annotation, "__metadata__"):
        yield from _takes(annotation.__origin__)
    else:
        for inner in get_args(annotation):
            yield from _takes(inner)


@pytest.mark.parametrize(("file", "group", "alias"), KEYS)
def test_a_number_says_its_unit(file, group, alias):
    """Its sentence names it, or it stands among the pure numbers above."""
    key = key_of(file, group, alias)
    is_pure = alias in PURE or f"{group.__name__}.{alias}" in PURE
    assert bool(key.unit) == ("number" in _kinds(key.forms) and not is_pure), key.meaning


# -- examples --------------------------------------------------------------------------------------


# What a key needs beside it, and what it stands in place of.
WITH = {
    "Glide.distance": {"for height"},
    "Glide.for height": {"distance"},
    "Calibration.normal ias": {"static source"},
    "Calibration.gives": {"add to ias"},
    **{
        f"{group}.{key}": {"altitude", "less", "for each"}
        for group in ("SpeedEntry", "NamedEntry")
        for key in ("less", "for each")
    },
}
INSTEAD_OF = {"Cruise.oat": "isa"}


@pytest.mark.parametrize(("file", "group", "alias"), KEYS)
def test_an_example_loads(file, group, alias):
    """With the examples of the keys that its group cannot be without, or usually has."""
    keys = guide(file)[group.__name__].keys
    beside = beside_a_key(group, alias)
    wanted = [key for key in keys if key.needed or key.name in beside or key.name == alias]
    assert all(key.example for key in wanted)
    assert faults_of(group, "\n".join(f"{key.name}: {key.example}" for key in wanted)) == []


def beside_a_key(group: type[BaseModel], alias: str) -> set[str]:
    """The keys that stand beside one; of a table's rows only two that go together."""
    name = f"{group.__name__}.{alias}"
    usual = {*USUAL.get(group.__name__, ()), "flaps" if group is TypeDefinition else ""}
    usual -= {INSTEAD_OF.get(name, "")}
    forms = [{row.replace("_", " ") for row in form} for form in getattr(group, "FORMS", ())]
    own = {alias, *WITH.get(name, ())}
    rows = set().union(*forms)
    meant = own & rows or usual & rows
    return usual - rows | next((form for form in forms if meant <= form), set()) | own


@pytest.mark.parametrize("speed", SPEEDS)
@pytest.mark.parametrize("file", ["type.json", "airframe.json"])
def test_the_example_of_a_v_speed_loads(file, speed):
    """In a supplement, which has them all beside each other."""
    key = guide(file)[V_SPEEDS].key(speed)
    text = f"title: A\nnumber: B\nspeeds: {{{speed}: {key.example}}}"
    assert faults_of(Supplement, text) == []


def faults_of(group: type[BaseModel], text: str) -> list[str]:
    """What is wrong with a group but that it lacks some of a type's V-speeds."""
    try:
        validated(group, parse_yaml(text.encode(), "example.yaml"))
    except DefinitionError as error:
        said = [one.message for one in error.faults]
        return [one for one in said if not re.match(r"missing V\w+: a ", one)]
    return []


def test_a_bad_example_is_noticed():
    assert faults_of(TypeDefinition, "units: {speed: kts, altitude: ft, weight: lb}")
    assert faults_of(TypeDefinition, "calibration: [{ias: [50, 70], cas: [53]}]")
    assert faults_of(TypeDefinition, "no such key: 1")
