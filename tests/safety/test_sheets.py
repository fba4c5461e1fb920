"""A PDF of hostile words: its title and its bookmarks are words, and it asks for nothing."""

import pikepdf
import pytest

from cardgen.render.templates import Templates
from tests.render.writing import write_aircraft_pdfs
from tests.safety.test_text import GLIDER, Made, hostile

__all__ = ["hostile"]
ORDERS = {"/JS", "/JavaScript", "/Launch", "/EmbeddedFiles", "/URI", "/OpenAction", "/AA"}


@pytest.mark.long
def test_a_pdf_has_no_action_no_script_and_no_file(hostile: Made, tmp_path):
    document = hostile.documents[GLIDER]
    write_aircraft_pdfs(tmp_path, Templates(), document)
    for path in sorted(tmp_path.glob("*.pdf")):
        with pikepdf.open(path) as pdf:
            with pdf.open_metadata() as about:
                assert GLIDER in about["dc:title"]
            assert str(pdf.docinfo["/Author"]) == hostile.fleet.school.name
            parts = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary)]
            keys = set().union(*(one.keys() for one in parts))
            assert len(keys) > 20
            assert not keys & ORDERS
