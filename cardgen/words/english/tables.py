"""English wordings: tables."""

WORDINGS: dict[str, str] = {}
