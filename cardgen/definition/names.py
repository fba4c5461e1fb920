"""Names that stand for themselves, and names as parts of identifiers, files and folders."""

import re

NORMAL, ALTERNATE = "normal", "alternate"  # sources of static pressure

# Folders of a site beside those of its aircraft; a test holds them to what a build makes.
_FOLDERS = {"assets", "conversions", "next", "schemas", "static"}
# Names that Windows keeps for devices, with any ending ("Naming Files, Paths, and Namespaces",
# from memory).
_DEVICES = {"con", "prn", "aux", "nul"} | {
    f"{port}{n}" for port in ("com", "lpt") for n in range(10)
}


def is_taken(name: str) -> bool:
    """Whether no aircraft's folder may have a name, in whatever capitals.

    Examples
    --------
    >>> is_taken("Conversions"), is_taken("NUL"), is_taken("ZZ-NUL")
    (True, True, False)
    """
    return name.casefold() in _FOLDERS | _DEVICES


def slug(text: str) -> str:
    """Return words as a part of an identifier.

    Examples
    --------
    >>> slug("best glide"), slug("storm window, closed")
    ('best-glide', 'storm-window-closed')
    """
    return re.sub(r"[^A-Za-z0-9.+−-]+", "-", text).strip("-")
