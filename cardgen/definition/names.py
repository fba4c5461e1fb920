"""Names as parts of identifiers."""

import re


def slug(text: str) -> str:
    """Return words as a part of an identifier.

    Examples
    --------
    >>> slug("best glide"), slug("storm window, closed")
    ('best-glide', 'storm-window-closed')
    """
    return re.sub(r"[^A-Za-z0-9.+−-]+", "-", text).strip("-")
