"""English wordings: the panel of a page that works a case."""

WORDINGS: dict[str, str] = {
    "reckon-out-of-bounds": "This case is outside the standard atmosphere, or faster than sound.",
}
