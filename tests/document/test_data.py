"""Documents as JSON: there and back, by the published schema, and without a sentence of ours."""

import json
import re
from dataclasses import fields, is_dataclass

import jsonschema
import pytest

from cardgen.cards.card import shared_document
from cardgen.document.data import SCHEMAS, from_json, json_schema, to_json
from cardgen.document.record import Document, Message, Shared
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.sampling import some

REGISTRATIONS = sorted(path.stem.upper() for path in DEMO.glob("fleet/*.yaml"))


@pytest.fixture(scope="module")
def documents():
    return documents_of(DEMO)


@pytest.mark.parametrize("registration", REGISTRATIONS)
def test_a_document_comes_back_as_it_was(documents, registration):
    document = documents[registration]
    assert from_json(to_json(document), Document) == document


@pytest.fixture(scope="module")
def validator():
    schema = json_schema("card.json")
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_shared_tables_come_back_as_they_were(fleet):
    shared = shared_document(fleet.school)
    assert from_json(to_json(shared), Shared) == shared


@pytest.mark.parametrize(
    "registration", some("documents by their schema", REGISTRATIONS, ["ZZ-DUB", "ZZ-TUA", "ZZ-WTR"])
)
def test_a_document_is_by_its_published_schema(documents, validator, registration):
    validator.validate(json.loads(to_json(documents[registration])))


def test_shared_tables_are_by_their_published_schema(fleet):
    jsonschema.validate(
        json.loads(to_json(shared_document(fleet.school))), json_schema("conversions.json")
    )


def test_the_schema_refuses_what_is_no_document(documents):
    plain = json.loads(to_json(documents["ZZ-DUA"]))
    plain["tables"][0]["columns"][0]["id"] = 7
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plain, json_schema("card.json"))
    assert set(SCHEMAS) == {"card.json", "conversions.json", "comparison.json", "next.json"}


def test_a_row_is_one_line(documents):
    for document in documents.values():
        lines = to_json(document).splitlines()
        begun = [line.strip().partition(', "cells"')[0] for line in lines if '"cells"' in line]
        rows = [row.id for table in document.tables for row in table.rows]
        assert begun == [f'{{"id": "{row}"' for row in rows]


def texts(value: object):
    """Every text of plain data."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from texts(one)


@pytest.mark.parametrize("registration", REGISTRATIONS)
def test_a_document_holds_no_sentence_that_the_definitions_did_not_hold(documents, registration):
    held = " ".join(
        " ".join(path.read_text().replace("\n", " ").split()) for path in DEMO.rglob("*.yaml")
    )
    facts = ("given/flaps", "given/units")
    plain = json.loads(to_json(documents[registration]))
    plain["given"] = [one for one in plain["given"] if one["id"] not in facts]
    for text in texts(plain):
        if " " in text:
            assert text in held, text


def messages(value: object):
    """Every message of a document, whatever it stands in."""
    if isinstance(value, Message):
        yield value
        yield from messages(tuple(value.values.values()))
    elif isinstance(value, tuple):
        for one in value:
            yield from messages(one)
    elif is_dataclass(value):
        for field in fields(value):
            yield from messages(getattr(value, field.name))


@pytest.mark.parametrize("registration", REGISTRATIONS)
def test_every_message_of_a_document_has_its_words(documents, registration):
    found = list(messages(documents[registration]))
    assert len(found) > 200
    for message in found:
        assert not re.search(r"[{}\[\]]", ENGLISH.say(message)), message


def test_values_are_kept_to_six_decimals(documents):
    for document in documents.values():
        for table in document.tables:
            for row in table.rows:
                for cell in row.cells:
                    if cell.quantity is not None:
                        assert cell.quantity.value == round(cell.quantity.value, 6)
