"""English wordings: reference."""

WORDINGS: dict[str, str] = {}
