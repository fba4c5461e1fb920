"""Data as a page's script has them: short, one member to a line, so that a change reads well."""

import json
from collections.abc import Iterable


def compact(value: object) -> str:
    """Return a value as JSON without blanks."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def member(name: str, value: object) -> str:
    """Return a member of an object."""
    return f"{compact(name)}: {compact(value)}"


def of_members(members: Iterable[str]) -> str:
    """Return an object of some members, one to a line."""
    return "{\n" + ",\n".join(members) + "\n}"
