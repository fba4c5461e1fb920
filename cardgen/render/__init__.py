"""Cards as HTML, PDF, CSV, JSON and drawings."""


class PdfError(Exception):
    """The system library that lays out pages is missing."""
