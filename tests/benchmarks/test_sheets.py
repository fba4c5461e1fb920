"""How long all PDFs of a few aircraft take, against WeasyPrint's bare way with the same sheets.

In processor time, one after the other: first all that a build prints, with tags, two-up sheets,
shared tables and the fleet's file; then the HTML of each of these sheets by
`HTML(string=...).write_pdf()`, in the same process, by fonts that are loaded. And a build of a
commit that laid each sheet out twice, beside one of this.
"""

import gc
import time
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest

from cardgen.cards.card import shared_document
from cardgen.definition.fleet import read_fleet
from cardgen.render.imposition import fleet_pdf
from cardgen.render.pdf import aircraft_pdfs, tables_pdf
from cardgen.render.press import Press
from cardgen.render.templates import Templates
from tests.benchmarks.beside import EARLIER, seconds
from tests.conftest import DEMO, ROOT
from tests.render.conftest import REGISTRATIONS, fresh

MOST = 1.25
FEW = ["ZZ-WTR"]  # a glider
BUILD = """
import sys
from pathlib import Path
from cardgen.publish.build import build
build(Path(sys.argv[1]), Path(sys.argv[2]), lambda *_: None, pdfs=bool(sys.argv[3]))
"""


class Recording(Templates):
    """Templates that keep the sheets which they have drawn."""

    def __init__(self) -> None:
        super().__init__()
        self.sheets: list[str] = []

    def render(self, name, **values):
        text = super().render(name, **values)
        if name == "card.html":
            self.sheets.append(text)
        return text


@pytest.fixture
def apart() -> Iterator[None]:
    """What else the tests have loaded is not searched for garbage meanwhile."""
    gc.collect()
    gc.freeze()
    yield
    gc.unfreeze()


@pytest.mark.usefixtures("apart")
@pytest.mark.benchmark(timer=time.process_time)
@pytest.mark.parametrize("names", [FEW, pytest.param(REGISTRATIONS, marks=pytest.mark.long)])
def test_all_pdfs_take_less_than_bare_weasyprint_and_a_quarter(benchmark, names, record_property):
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration

    fleet = read_fleet(DEMO)
    documents = [fresh(fleet, name) for name in names]
    shared = shared_document(fleet.school)
    templates = Recording()
    press = Press()

    def all_pdfs() -> list[bytes]:
        made = [dict(aircraft_pdfs(templates, document, press)) for document in documents]
        shared_tables = tables_pdf(templates, shared, press)
        whole = fleet_pdf((files["card.pdf"] for files in made), "Fleet")
        return [*(pdf for files in made for pdf in files.values()), shared_tables, whole]

    tables_pdf(templates, shared)
    fonts = FontConfiguration()
    weasyprint.HTML(string=templates.sheets[0]).write_pdf(font_config=fonts)
    templates.sheets.clear()
    made = benchmark.pedantic(all_pdfs, rounds=1)
    assert all(pdf.startswith(b"%PDF") for pdf in made)
    assert press.layouts == press.pages == len(templates.sheets) > 10 * len(names)
    start = time.process_time()
    for sheet in templates.sheets:
        weasyprint.HTML(string=sheet).write_pdf(font_config=fonts)
    bare = time.process_time() - start
    ratio = benchmark.stats.stats.median / bare
    record_property("measured", f"all PDFs take {ratio:.2f} of bare WeasyPrint")
    assert ratio < MOST


@pytest.mark.long
def test_a_sheet_takes_at_most_half_of_what_it_took(
    earlier, tmp_path, monkeypatch, record_property
):
    """All that is printed of either's own demo, as what a build with PDFs takes more."""

    def taken(package: Path, pdfs: str) -> float:
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / f"{package.name}-cache-{pdfs}"))
        site = tmp_path / f"{package.name}-{pdfs}"
        command = ("-c", BUILD, str(package / "aircraft"), str(site), pdfs)
        return seconds(command, tmp_path, tmp_path / f"{package.name}-bytecode", package)

    def each(package: Path) -> float:
        """Seconds of processor time for a sheet, two-up ones and the fleet's file with it."""
        more = -taken(package, "") + taken(package, "pdfs")
        sheets = 0
        for path in (tmp_path / f"{package.name}-pdfs").glob("*/*.pdf"):
            with pikepdf.open(path) as pdf:
                sheets += 0 if "2up" in path.name else len(pdf.pages)
        assert sheets > 50
        return more / sheets

    now, then = each(ROOT), each(earlier)
    record_property(
        "measured",
        f"a sheet takes {now / then:.2f} of what {EARLIER} takes ({now:.2f} and {then:.2f} s)",
    )
    assert now / then < 0.5
