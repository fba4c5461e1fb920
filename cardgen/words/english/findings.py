"""English wordings: findings."""

WORDINGS: dict[str, str] = {}
