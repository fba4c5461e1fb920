"""Names that stand for themselves, and names as parts of identifiers."""

import re

NORMAL, ALTERNATE = "normal", "alternate"  # sources of static pressure


def slug(text: str) -> str:
    """Return words as a part of an identifier.

    Examples
    --------
    >>> slug("best glide"), slug("storm window, closed")
    ('best-glide', 'storm-window-closed')
    """
    return re.sub(r"[^A-Za-z0-9.+−-]+", "-", text).strip("-")
