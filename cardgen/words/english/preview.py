"""English wordings: what a preview shows that a site has not."""

WORDINGS: dict[str, str] = {
    "preview-title": "Preview",
    "preview-errors": "Errors in the definitions",
    "preview-until": (
        "Until they are mended, what they stand in is shown as it was before, or not at all."
    ),
    "preview-none": "{page} is not there yet",
}
