"""The code of a sheet: it leads a telephone to the aircraft's page, which is told the card's mark.

A reader wants modules of a third of a millimetre at arm's length, and four of them clear around the
code (ISO/IEC 18004, from memory). At a page's edge the margin is clear.
"""

import re
from dataclasses import dataclass
from functools import lru_cache
from urllib.parse import quote

import segno

from cardgen.document.record import Document

MODULE = 0.34  # mm
_QUIET = 4  # modules
_ADDRESS = re.compile(  # a host without a scheme has a dot: "n/a" is no address
    r"((?P<scheme>https?://)|(?=[^/:]+\.[^/:.]))(?P<host>([^\s/?#:@.]+\.)*[^\s/?#:@.]+)(?P<port>:\d+)?"
    r"(?P<path>(/[^\s?#]*)?)"
)
_PAGE = re.compile(r"(/index\.html)?/*$")
Modules = tuple[tuple[bool, ...], ...]  # row by row; those that are black


@dataclass(frozen=True, slots=True)
class Code:
    """A code on a page: how wide and high it is, and what must be clear around it, in mm."""

    side: float
    clear: float = _QUIET * MODULE

    @property
    def height(self) -> float:
        """How high it is with what is clear above and below it."""
        return self.side + 2 * self.clear


def address_of(card: Document) -> str:
    """Return the address that a card's code has, or nothing where no school says where it is.

    What the school enters for its web address may also be words, and have no ``https://``.
    """
    found = _ADDRESS.fullmatch(card.head.school.web_address)
    if found is None:
        return ""
    try:
        host = found["host"].encode("idna").decode()
    except UnicodeError:
        return ""
    path = quote(_PAGE.sub("", found["path"]), safe="/%!$&'()*+,;=:@-._~")
    site = f"{found['scheme'] or 'https://'}{host}{found['port'] or ''}{path}"
    return f"{site}/{quote(card.head.registration)}/#card={card.marks.card}"


def code_of(card: Document | None) -> Code | None:
    """Return the code that a card has, if any."""
    address = address_of(card) if card else ""
    return Code(len(modules(address)) * MODULE) if address else None


@lru_cache(maxsize=64)
def modules(address: str) -> Modules:
    """Return the modules of an address's code, without what is clear around them."""
    rows = segno.make(address, error="l", micro=False).matrix
    return tuple(tuple(map(bool, row)) for row in rows)
