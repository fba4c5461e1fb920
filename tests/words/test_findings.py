"""What the checks find is said by the id of a wording: each has one, and each is used."""

import ast
import re
from collections.abc import Iterator

import pytest

from cardgen.checks.rule import Finding, Severity
from cardgen.checks.run import all_rules, check_type
from cardgen.definition.fleet import unphysical
from cardgen.definition.group import validated
from cardgen.definition.model import TypeDefinition
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.document.record import Message, Quantity, Unit
from cardgen.words.english import ENGLISH
from cardgen.words.english.findings import WORDINGS
from tests.conftest import ROOT

pytestmark = pytest.mark.xdist_group("findings")  # so that all is found once

SOURCES = [
    *(ROOT / "cardgen/checks").glob("*.py"),
    *(ROOT / "cardgen/publish" / name for name in ("report.py", "checking.py", "rereading.py")),
    ROOT / "cardgen/review/records.py",
]
BROKEN = sorted((ROOT / "tests/definitions/broken").glob("*.yaml"))
SYMBOL = re.compile(r"(\d\.\d )?V[A-Z0-9]+")


def trees() -> Iterator[ast.AST]:
    for path in SOURCES:
        yield from ast.walk(ast.parse(path.read_text()))


def texts(node: ast.AST) -> set[str]:
    """All ids that stand whole in a part of the source."""
    constants = (one.value for one in ast.walk(node) if isinstance(one, ast.Constant))
    return {
        text
        for text in constants
        if isinstance(text, str) and re.fullmatch(r"(finding|look|source|report)-[a-z-]+", text)
    }


def blanks(name: str) -> set[str]:
    return set(re.findall(r"\{(\w+)", WORDINGS[name]))


def findings(text: str) -> list[Finding]:
    try:
        definition = validated(TypeDefinition, parse_yaml(text.encode(), "f"))
    except DefinitionError:
        return []
    return [] if list(unphysical(definition)) else list(check_type("f", definition))


@pytest.fixture(scope="module")
def told() -> list[tuple[str, Finding]]:
    """All that is found in the broken files, each with its file's text."""
    return [(text, one) for text in (p.read_text() for p in BROKEN) for one in findings(text)]


def test_each_id_in_the_rules_has_a_wording_and_each_wording_a_use():
    severities = {f"severity-{one.value}" for one in Severity}
    assert set().union(*map(texts, trees())) | severities == set(WORDINGS)


def fills(name: str, given: set[str | None]) -> bool:
    """Whether a wording's blanks are filled; what `**` gives is held where it is told, below."""
    named = given - {None}
    return named <= blanks(name) if None in given else named == blanks(name)


def test_rules_give_what_their_wordings_have_blanks_for():
    calls = [
        one
        for one in trees()
        if isinstance(one, ast.Call) and isinstance(one.func, ast.Name) and one.func.id == "tell"
    ]
    said = [
        (name, {keyword.arg for keyword in call.keywords})
        for call in calls
        for name in texts(call.args[1])
    ]
    assert len(said) > 40
    assert [one for one in said if not fills(*one)] == []


def test_all_that_is_found_fills_its_wording(told):
    assert len({one.message.id for _, one in told}) > 40
    for _, one in told:
        assert set(one.message.values) == blanks(one.message.id)


def test_where_to_look_is_worded():
    for rule in all_rules():
        assert ENGLISH.say(rule.look)
        assert ENGLISH.text(rule.source)


def test_no_value_is_a_sentence_of_ours(told):
    for text, one in told:
        for value in one.message.values.values():
            assert isinstance(value, str | Quantity | Unit | Message)
            if isinstance(value, str) and not SYMBOL.fullmatch(value):
                assert value.lower() in text.lower(), one.message
