"""The keys of the definitions, as the page of them tells newcomers."""

import functools

from cardgen.cards.cells import heading
from cardgen.definition.guide import Form, Key, Section, guide
from cardgen.definition.schema import FILES
from cardgen.document.record import DefinitionGroup, DefinitionKey, Message


def definition_keys() -> tuple[tuple[str, tuple[DefinitionGroup, ...]], ...]:
    """Return the groups of keys of each kind of file, each where it is met first."""
    told: set[str] = set()
    files = []
    for file in FILES:
        sections = [one for name, one in guide(file).items() if name not in told]
        told |= guide(file).keys()
        files.append((file.removesuffix(".json"), tuple(map(_group, sections))))
    return tuple(files)


def _group(section: Section) -> DefinitionGroup:
    return DefinitionGroup(
        _id(section.name), section.meaning, tuple(map(_key, section.keys)), section.under
    )


def _id(name: str) -> str:
    """Return the identifier of a group; that of a file is its name.

    Examples
    --------
    >>> _id("SpeedEntry"), _id("TypeDefinition")
    ('speed-entry', 'type-definition')
    """
    return "".join(f"-{one.lower()}" if one.isupper() else one for one in name).lstrip("-")


def _key(key: Key) -> DefinitionKey:
    return DefinitionKey(
        key.name,
        key.meaning,
        key.needed,
        tuple(map(_said, key.forms)),
        tuple(map(_id, key.groups)),
        key.unit,
        key.example,
    )


def _any(forms: tuple[Form, ...]) -> Message:
    """Say that any of some forms may stand there."""
    return functools.reduce(
        lambda one, other: heading("key-either", one=one, other=other), map(_said, forms)
    )


def _said(form: Form) -> Message:
    """Say what may stand under a key."""
    match form.what:
        case "words" if form.most:
            return heading("key-words-most", most=str(form.most))
        case "choice":
            return heading("key-choice", choices=form.choices)
        case "list":
            return heading("key-list", of=_any(form.of))
        case "names":
            return heading("key-names", of=_any(form.of))
    return Message(f"key-{form.what}")
