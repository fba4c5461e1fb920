"""How a PDF says by what it was made, and when: the same from run to run."""

import os
from datetime import UTC, datetime
from pathlib import Path

import pikepdf

_ALWAYS = 946_684_800  # seconds from 1970 to 2000: a date that says nothing


def saved(pdf: pikepdf.Pdf, path: Path, version: str, title: str = "") -> None:
    """Save a PDF, with identifiers by its content and the date of ``SOURCE_DATE_EPOCH`` if set.

    Parameters
    ----------
    pdf : pikepdf.Pdf
    path : Path
    version : str
        Of the program that made the document.
    title : str
        A new one, if any.
    """
    producer = f"cardgen {version}".rstrip()
    made = datetime.fromtimestamp(int(os.environ.get("SOURCE_DATE_EPOCH", _ALWAYS)), UTC)
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
        metadata["pdf:Producer"] = producer
        metadata["xmp:CreateDate"] = metadata["xmp:ModifyDate"] = made.isoformat()
        if title:
            metadata["dc:title"] = title
    pdf.docinfo.Producer = producer
    pdf.docinfo.CreationDate = pdf.docinfo.ModDate = f"{made:D:%Y%m%d%H%M%SZ}"
    if title:
        pdf.docinfo.Title = title
    pdf.save(
        path,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
        deterministic_id=True,
    )
