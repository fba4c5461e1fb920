"""From card.json alone, where nothing before the document can be imported, comes all of a site."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT, printed

pytestmark = pytest.mark.xdist_group("press")  # so that a PDF is read once

KINDS = ["strip.pdf", "pocket.pdf"]  # in CI, of the five that one press makes

SCRIPT = """
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

for path in sorted(site.glob("*/card.json")):
    document = from_json(path.read_text(encoding="utf-8"), Document)
    folder = out / document.head.registration
    write(folder, document.tables, page.aircraft_page(templates, document))
    if document.head.registration in printed:
        pdf.write_aircraft_pdfs(folder, templates, document)
shared = from_json((site / "conversions/conversions.json").read_text(encoding="utf-8"), Shared)
write(out / "conversions", shared.tables, page.conversions_page(templates, shared))
if "conversions" in printed:
    pdf.write_tables_pdf(out / "conversions/conversions.pdf", templates, shared)
"""


def drawn(site: Path, out: Path, kinds: list[str], *printed: str) -> list[Path]:
    """Draw a site again from its data in a process of its own; return what came out."""
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, site, out, " ".join(kinds), *printed],
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    assert done.returncode == 0, done.stderr
    return [path for path in out.rglob("*") if path.is_file()]


def same(site: Path, out: Path, files: list[Path]) -> list[str]:
    """Return the files that are not byte-identical to the site's."""
    return [
        path.relative_to(out).as_posix()
        for path in files
        if path.read_bytes() != (site / path.relative_to(out)).read_bytes()
    ]


def test_pages_sheets_and_tables_are_drawn_from_the_data_alone(built, tmp_path):
    files = drawn(built, tmp_path / "out", KINDS, "ZZ-WTR")
    kinds = {suffix: sum(path.suffix == suffix for path in files) for suffix in (".html", ".csv")}
    assert kinds == {".html": len(printed(built)) + 1, ".csv": len(list(built.rglob("*.csv")))}
    assert {path.name for path in files if path.suffix == ".pdf"} == set(KINDS)
    assert same(built, tmp_path / "out", files) == []


@pytest.mark.long
def test_all_sheets_are_drawn_from_the_data_alone(built, tmp_path):
    everything = [path.parent.name for path in built.glob("*/card.json")]
    files = drawn(built, tmp_path / "out", [], *everything, "conversions")
    assert len([path for path in files if path.suffix == ".pdf"]) == 5 * len(everything) + 1
    assert same(built, tmp_path / "out", files) == []
