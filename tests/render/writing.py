"""Sheets written into a folder, with the press that has counted what it laid out."""

from pathlib import Path

from cardgen.document.record import Document, Shared
from cardgen.render.pdf import aircraft_pdfs, tables_pdf
from cardgen.render.press import Press
from cardgen.render.templates import Templates


def write_aircraft_pdfs(folder: Path, templates: Templates, document: Document) -> Press:
    press = Press(templates.own)
    for name, pdf in aircraft_pdfs(templates, document, press):
        (folder / name).write_bytes(pdf)
    return press


def write_tables_pdf(path: Path, templates: Templates, shared: Shared) -> Press:
    press = Press(templates.own)
    path.write_bytes(tables_pdf(templates, shared, press))
    return press
