"""Findings as SARIF 2.1.0 (OASIS), which hosts of repositories and editors show at their lines."""

import json
import os
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from urllib.parse import quote

from cardgen import __version__
from cardgen.checks.rule import Finding, Rule, Severity
from cardgen.words.language import Language

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}


def as_sarif(found: Iterable[Finding], folder: Path, language: Language) -> str:
    """Return findings as a log of one run; those that are accepted are suppressed in it."""
    found = list(found)
    rules = list({one.rule.name: one.rule for one in found}.values())
    names = [one.name for one in rules]
    driver = {
        "name": "cardgen",
        "version": __version__,
        "rules": [_rule(one, language) for one in rules],
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(one, names.index(one.rule.name), folder, language) for one in found],
    }
    log = {"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(log, indent=1, ensure_ascii=False)


def _rule(one: Rule, language: Language) -> dict[str, Any]:
    look, source = language.say(one.look), language.text(one.source)
    return {
        "id": one.name,
        "defaultConfiguration": {"level": _LEVELS[one.severity]},
        "shortDescription": {"text": one.name.replace("-", " ")},
        "help": {"text": language.say("report-look", look=look, source=source)},
    }


def _result(one: Finding, index: int, folder: Path, language: Language) -> dict[str, Any]:
    result = {
        "ruleId": one.rule.name,
        "ruleIndex": index,
        "level": _LEVELS[one.severity],
        "message": {"text": _plain(language.say(one.message))},
        "locations": [{"physicalLocation": _place(one, folder)}],
    }
    if one.accepted:
        result["suppressions"] = [{"kind": "inSource", "justification": one.accepted}]
    return result


def _plain(text: str) -> str:
    """Return words that have no placeholder and no link by SARIF 2.1.0, 3.11.5 and 3.11.6."""
    return re.sub(r"\[(?=[^\]]*\]\()", r"\\[", re.sub(r"([{}])", r"\1\1", text))


def _place(one: Finding, folder: Path) -> dict[str, Any]:
    path = folder / one.place.file
    uri = path.as_uri() if path.is_absolute() else quote(os.fsencode(path.as_posix()))
    region = {"startLine": one.place.line, "startColumn": one.place.column}
    return {"artifactLocation": {"uri": uri}, "region": region}
