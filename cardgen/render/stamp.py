"""How a PDF says by what it was made, and when: the same from run to run."""

import io
import os
import re
from datetime import UTC, datetime

import pikepdf

_ALWAYS = 946_684_800  # seconds from 1970 to 2000: a date that says nothing


def stamped(made: bytes, version: str) -> bytes:
    """Return a PDF that names its maker, with the date of ``SOURCE_DATE_EPOCH`` if that is set.

    Parameters
    ----------
    made : bytes
        The PDF.
    version : str
        Of the program that made the document.
    """
    producer = f"cardgen {version}".rstrip()
    day = datetime.fromtimestamp(epoch(), UTC)
    with pikepdf.open(io.BytesIO(made)) as pdf:
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
            metadata["pdf:Producer"] = producer
            metadata["xmp:CreateDate"] = metadata["xmp:ModifyDate"] = day.isoformat()
        pdf.docinfo.Producer = producer
        pdf.docinfo.CreationDate = pdf.docinfo.ModDate = f"{day:D:%Y%m%d%H%M%SZ}"
        return saved(pdf)


def epoch() -> int:
    """Return the seconds from 1970 that PDFs are dated with.

    Raises
    ------
    OSError
        If ``SOURCE_DATE_EPOCH`` is set to no such number, as its specification asks.
    """
    said = os.environ.get("SOURCE_DATE_EPOCH", f"{_ALWAYS}")
    if not re.fullmatch(r"\d{1,11}", said, re.ASCII):  # to the year 5138
        expected = "expected whole seconds from 1970, or nothing set"
        raise OSError(f"SOURCE_DATE_EPOCH is {said[:40]!r}, {expected}")
    return int(said)


def entitled(pdf: pikepdf.Pdf, title: str) -> pikepdf.Pdf:
    """Return a PDF with a title of its own."""
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
        metadata["dc:title"] = title
    pdf.docinfo.Title = title
    return pdf


def saved(pdf: pikepdf.Pdf) -> bytes:
    """Return a PDF as bytes, with an identifier by its content."""
    out = io.BytesIO()
    pdf.save(out, object_stream_mode=pikepdf.ObjectStreamMode.generate, deterministic_id=True)
    return out.getvalue()
