"""Characters that no text of a definition may have: they do not show, or turn others round.

A reviewer reads what shows. A bidirectional override makes a line read otherwise than it is, a
control character talks to the terminal, and one of no width makes two names look alike.
"""

import re
import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import PurePath  # not for who only asks for help

# That print nothing although they count as printable: Unicode's Default_Ignorable_Code_Point
# (DerivedCoreProperties.txt, from memory) less those that are control or format characters.
_BLANK = (
    "\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180d\u180f\u3164\ufe00-\ufe0f\uffa0"
    "\U000e0100-\U000e01ef"
)
_ODD = re.compile(r"[^\n\t -~]")
_NEVER = re.compile(f"[{_BLANK}]")
# What a host that runs workflows takes for an order: by itself at a line's start, or anywhere.
ORDER = re.compile(r"(?m)^(?P<blank>[^\S\n]*):(?=:)|#(?=#\[)")


def hidden(text: str) -> int | None:
    r"""Return where the first character stands that does not show; line ends and tabs may be.

    Examples
    --------
    >>> hidden("Teal\u202e"), hidden("Krick\u00e4nte, 5\u00a0kt"), hidden("\x1b[2J")
    (4, None, 0)
    """
    for found in _ODD.finditer(text):
        if not _shows(found[0]):
            return found.start()
    return None


def _shows(one: str) -> bool:
    if unicodedata.category(one) == "Zs":
        return True
    return one.isprintable() and not _NEVER.match(one)


def told(one: str) -> str:
    r"""Return what a message calls a character that does not show.

    Examples
    --------
    >>> told("\u202e"), told("\x1b")
    ('U+202E (right-to-left override)', 'U+001B')
    """
    name = unicodedata.name(one, "").lower()
    return f"U+{ord(one):04X}" + (f" ({name})" if name else "")


def escaped(text: str) -> str:
    r"""Return text for a terminal: what does not show is written out, but for line ends.

    So is what a host that runs workflows takes for an order: a line that begins with two colons,
    and two hashes with a bracket.

    Examples
    --------
    >>> escaped("a\x1b[31mb\u202e"), escaped("::error::b")
    ('a\\u001b[31mb\\u202e', '\\u003a:error::b')
    """
    text = ORDER.sub(_disarmed, text)
    if text.isascii() and text.replace("\n", "").isprintable():
        return text
    return "".join(
        one if one == "\n" or (_shows(one) and one != "\t") else f"\\u{ord(one):04x}"
        for one in text
    )


def _disarmed(order: re.Match[str]) -> str:
    return f"{order['blank'] or ''}\\u{ord(order[0][-1]):04x}"


def one_line(text: str) -> str:
    r"""Return text that was broken into lines, or has tabs, as a line of words.

    Examples
    --------
    >>> one_line("No spins.\n  Ever.\n"), one_line("5-7 ")
    ('No spins. Ever.', '5-7 ')
    """
    return re.sub(r"[\n\t ]+", " ", text).strip() if "\n" in text or "\t" in text else text


def path_told(path: "PurePath") -> str:
    r"""Return a path for a terminal, in one line.

    Examples
    --------
    >>> from pathlib import PurePath
    >>> path_told(PurePath("a\x1b[31m", "b\n.yaml"))
    'a\\u001b[31m/b\\n.yaml'
    """
    return escaped(path.as_posix()).replace("\n", "\\n")
