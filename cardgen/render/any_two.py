"""What the page of any two aircraft loads: an aircraft's traits, and the wordings that say them."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from cardgen.render.scripts import compact, member, of_members
from cardgen.words.english import transition
from cardgen.words.language import Language

_KINDS = ("speed-", "marking-", "block-limits", "block-flown", "block-one-engine", "gear-")
_ALSO = ("flaps", "several", "unit", "list-separator", "title-markings", "fact-reads")
_TERM = re.compile(r"\[([^\]]+)\](?:\([^)]+\))?")


def traits_data(traits: Mapping[str, Any]) -> str:
    """Return the script that adds an aircraft's traits to those of a page, one to a line."""
    members = of_members(member(name, value) for name, value in traits.items())
    return f'"use strict";\nTRAITS[{compact(traits["registration"])}] = {members};\n'


def wordings(language: Language) -> str:
    """Return the wordings of the next aircraft, one to a line; no term in them is a link."""
    said = ((name, _TERM.sub(r"\1", language.wordings[name])) for name in _names(language))
    return of_members(member(name, text) for name, text in said)


def _names(language: Language) -> Iterator[str]:
    own = (one for one in transition.WORDINGS if not one.startswith("next-any"))
    yield from sorted({*own, *_ALSO, *(one for one in language.wordings if one.startswith(_KINDS))})
