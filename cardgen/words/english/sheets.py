"""English wordings: sheets."""

WORDINGS: dict[str, str] = {}
