"""Findings in words, for people and for machines."""

import json
from collections.abc import Iterable
from pathlib import Path

from cardgen.checks.accepting import line_of
from cardgen.checks.rule import Finding, Severity
from cardgen.checks.run import UNREADABLE
from cardgen.definition.files import content_of, inside
from cardgen.definition.identifiers import short
from cardgen.definition.places import DefinitionError
from cardgen.definition.shown import ORDER, escaped
from cardgen.document.record import Message
from cardgen.words.language import Language


def as_text(found: Iterable[Finding], folder: Path, language: Language) -> str:
    """Return findings for a terminal: place and sentence, the line with a caret, where to look.

    Parameters
    ----------
    found : iterable of Finding
    folder : Path
        The folder of the definitions; places are relative to it.
    language : Language
    """
    return escaped("\n".join(_as_text(one, folder, language) for one in found))


def _as_text(one: Finding, folder: Path, language: Language) -> str:
    name = "" if one.rule is UNREADABLE else f" ({one.rule.name})"
    said = f"{language.say(one.message)}{name}"
    lines = [f"{folder / str(one.place)}: {language.say(f'severity-{one.severity.value}')}: {said}"]
    lines += _pointed_at(one, folder)
    if one.rule is not UNREADABLE:
        look = Message(one.rule.look)
        lines.append(f"    {language.say('report-look', look=look, source=one.rule.source)}")
    if one.accepted:
        lines.append(f"    {language.say('report-accepted', reason=one.accepted)}")
    elif one.about and one.severity is not Severity.ERROR:
        lines.append(f"    {_to_accept(one, folder, language)}")
    return "\n".join(lines)


def _to_accept(one: Finding, folder: Path, language: Language) -> str:
    line = line_of(one)
    if one.about == one.place.file:
        return language.say("report-accept", line=line)
    return language.say("report-accept-elsewhere", file=str(folder / one.about), line=line)


def _pointed_at(one: Finding, folder: Path) -> list[str]:
    """Return the line that a finding is about, and a caret under its place."""
    path = Path(one.place.file)
    try:
        text = content_of(inside(folder, path), path.name).decode("utf-8-sig").splitlines()
        line = text[one.place.line - 1]
    except (OSError, UnicodeDecodeError, IndexError, DefinitionError):
        return []
    start = max(0, one.place.column - 61)  # of a very long line, the part around the place
    shown = line[start : start + 100]
    if not shown.strip() or not shown.isprintable() or ORDER.search(shown):
        return []
    return [f"    {shown}", f"    {' ' * (one.place.column - 1 - start)}^"]


def as_json(found: Iterable[Finding], folder: Path, language: Language) -> str:
    """Return findings as a JSON list."""
    return json.dumps(
        [
            {
                "severity": one.severity.value,
                "rule": one.rule.name,
                "file": (folder / one.place.file).as_posix(),
                "line": one.place.line,
                "column": one.place.column,
                "message": language.say(one.message),
                "look": language.say(one.rule.look),
                "source": language.text(one.rule.source),
                "figures": [short(figure.id) for figure in one.figures],
                "accepted": one.accepted,
            }
            for one in found
        ],
        indent=1,
        ensure_ascii=False,
    )


_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}


def as_annotations(found: Iterable[Finding], folder: Path, language: Language) -> str:
    """Return findings as workflow commands, which a hosted pull request shows at the line."""
    return "\n".join(
        f"::{_COMMANDS[one.severity]} file={_property((folder / one.place.file).as_posix())},"
        f"line={one.place.line},col={one.place.column},title={_property(one.rule.name)}::"
        + _data(language.say(one.message))
        for one in found
    )


def _data(text: str) -> str:
    """Escape text of a workflow command as the host does itself (from memory)."""
    lines = text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")
    return escaped(lines)


def _property(text: str) -> str:
    """Escape a property of a workflow command, which ends at a colon or a comma."""
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def summary(found: Iterable[Finding]) -> str:
    """Count findings by severity, those that are accepted apart."""
    found = list(found)
    counts = []
    for severity in Severity:
        count = sum(one.severity is severity and not one.accepted for one in found)
        counts.append(f"{count} {severity.value}{'' if count == 1 else 's'}")
    accepted = sum(one.accepted is not None for one in found)
    return ", ".join(counts) + (f", {accepted} accepted" if accepted else "")
