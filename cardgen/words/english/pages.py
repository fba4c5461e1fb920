"""English wordings: pages."""

WORDINGS: dict[str, str] = {}
