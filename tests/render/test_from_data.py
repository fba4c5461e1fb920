"""From card.json alone, where nothing before the document can be imported, comes all of a site."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from cardgen.layout.formats import FORMATS
from tests.conftest import ROOT, printed
from tests.render.printed import texts
from tests.sampling import is_long

pytestmark = pytest.mark.xdist_group("press")  # so that a PDF is read once

KINDS = [one.file for one in FORMATS if is_long() or not one.night]  # by night are the same sheets

SCRIPT = """
import json
import sys
from importlib.abc import MetaPathFinder
from pathlib import Path

class Barred(MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        rooms = ("definition", "airframe", "air", "checks", "cards", "publish")
        if name.split(".")[:2] in [["cardgen", room] for room in rooms]:
            raise ImportError(f"{name} is barred")

sys.meta_path.insert(0, Barred())

from cardgen.document.data import from_json
from cardgen.document.record import Document, Shared
from cardgen.render import page, pdf
from cardgen.render.data import table_csv
from cardgen.render.templates import Templates
from tests.render.writing import write_aircraft_pdfs, write_tables_pdf

site, out, kinds, printed = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3], sys.argv[4:]
if kinds:
    pdf.FORMATS = [one for one in pdf.FORMATS if one.file in kinds.split()]
templates = Templates()

def write(folder, tables, html):
    folder.mkdir(parents=True)
    (folder / "index.html").write_text(html, encoding="utf-8", newline="\\n")
    for table in tables:
        text = table_csv(table, templates.language)
        (folder / f"{table.id}.csv").write_text(text, encoding="utf-8", newline="\\n")

presses = []
for path in sorted(site.glob("*/card.json")):
    document = from_json(path.read_text(encoding="utf-8"), Document)
    folder = out / document.head.registration
    write(folder, document.tables, page.aircraft_page(templates, document))
    if document.head.registration in printed:
        presses.append(write_aircraft_pdfs(folder, templates, document))
shared = from_json((site / "conversions/conversions.json").read_text(encoding="utf-8"), Shared)
write(out / "conversions", shared.tables, page.conversions_page(templates, shared))
if "conversions" in printed:
    write_tables_pdf(out / "conversions/conversions.pdf", templates, shared)
json.dump([[one.pages, one.layouts] for one in presses], sys.stdout)
"""


class Drawn(NamedTuple):
    """What came out, and of each aircraft how many pages were printed and how many laid out."""

    out: Path
    files: list[Path]
    presses: list[list[int]]


def drawn(site: Path, out: Path, kinds: list[str], *printed: str) -> Drawn:
    """Draw a site again from its data, in a process, a time zone and a hash seed of its own."""
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, site, out, " ".join(kinds), *printed],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "TZ": "Pacific/Auckland", "PYTHONHASHSEED": "7"},
    )
    assert done.returncode == 0, done.stderr
    files = [path for path in out.rglob("*") if path.is_file()]
    return Drawn(out, files, json.loads(done.stdout))


def different(site: Path, drawn: Drawn) -> list[str]:
    """Return the files that are not byte-identical to the site's."""
    names = [path.relative_to(drawn.out).as_posix() for path in drawn.files]
    return [one for one in names if (drawn.out / one).read_bytes() != (site / one).read_bytes()]


@pytest.fixture(scope="module")
def again(built, tmp_path_factory) -> Drawn:
    """The site's pages drawn again, and one aircraft's sheets."""
    return drawn(built, tmp_path_factory.mktemp("again") / "out", KINDS, "ZZ-WTR")


def test_pages_sheets_and_tables_are_drawn_from_the_data_alone(built, again, record_property):
    record_property("sampled", ("formats drawn from the data", len(KINDS), len(FORMATS)))
    files = again.files
    kinds = {suffix: sum(path.suffix == suffix for path in files) for suffix in (".html", ".csv")}
    assert kinds == {".html": len(printed(built)) + 1, ".csv": len(list(built.rglob("*.csv")))}
    assert {path.name for path in files if path.suffix == ".pdf"} == set(KINDS)
    assert different(built, again) == []


def test_each_sheet_is_laid_out_once(again):
    made = [one for one in FORMATS if one.file in KINDS and not one.two_up_of]
    count = sum(len(texts(again.out / "ZZ-WTR" / one.file)) for one in made)
    assert again.presses == [[count, count]]
    assert count >= sum(len(one.sheets) for one in made)


@pytest.mark.long
def test_all_sheets_are_drawn_from_the_data_alone(built, tmp_path):
    everything = [path.parent.name for path in built.glob("*/card.json")]
    found = drawn(built, tmp_path / "out", [], *everything, "conversions")
    pdfs = [path for path in found.files if path.suffix == ".pdf"]
    assert len(pdfs) == 5 * len(everything) + 1
    assert different(built, found) == []
