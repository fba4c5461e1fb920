"""What templates of sheets are given, and that all a sheet says is put into words in one place."""

import re
from collections import Counter
from types import NoneType

import pytest
from markupsafe import Markup

from cardgen.definition.fleet import read_fleet
from cardgen.document import record
from cardgen.document.data import to_json
from cardgen.layout import code, measures, placed
from cardgen.render.data import table_csv
from cardgen.render.page import aircraft_page
from cardgen.render.press import Press
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.conftest import printed_of, printing
from tests.render.conftest import fresh
from tests.render.printed import overlaps, sheets, texts
from tests.render.test_print import KINDS, document_of
from tests.render.test_words import MADE_UP, entered, symbols, unmarked, walked
from tests.render.writing import write_aircraft_pdfs, write_tables_pdf
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("press")  # so that a PDF is read once

FEW = {"ZZ-PHN": ["pocket.pdf"], "ZZ-WTR": ["card.pdf", "strip.pdf"]}
SHEETS = some(
    "sheets in another language",
    [f"{name} {kind}" for name in FEW for kind in KINDS],
    [f"{name} {kind}" for name, kinds in FEW.items() for kind in kinds],
)


@pytest.fixture(scope="module")
def made_up(built, tmp_path_factory):
    """Sheets in the made-up language."""
    folder = tmp_path_factory.mktemp("made-up-sheets")
    for name, kinds in FEW.items():
        (folder / name).mkdir()
        with printing(*kinds):
            document = document_of(built, name)
            write_aircraft_pdfs(folder / name, Templates(language=MADE_UP), document)
    return folder


@pytest.mark.parametrize("which", SHEETS)
def test_no_word_of_a_sheet_is_a_templates_own(built, made_up, which):
    """What is not in marks was entered, or is a symbol of a speed or a unit."""
    name, kind = which.split()
    document = document_of(built, name)
    said = [*entered(document), document.head.school.web_address, document.marks.card]
    allowed = {word for one in said for word in unmarked(one)} | symbols()
    pages = texts(made_up / name / kind)
    assert all("⟦" in page for page in pages)
    assert unmarked(" ".join(pages)) - allowed == set()
    assert {"Speeds", "Limits", "Reference"} <= unmarked(texts(built / name / kind)[0]) - allowed


@pytest.mark.parametrize("which", SHEETS)
def test_longer_words_run_over_nothing(made_up, which):
    for sheet in sheets(made_up / which.replace(" ", "/")):
        assert max(one.right for one in sheet.letters if one.text.strip()) < sheet.width - 5.85
        assert max(one.base for one in sheet.letters if one.text.strip()) < sheet.height - 5.85
        assert overlaps(sheet) == []


def unprinted(monkeypatch, seen=lambda html: None) -> None:
    """Let sheets be drawn as HTML only."""

    def printed(self, html, plan, finish) -> bytes:
        for pages in plan([]):
            for page in pages:
                seen(html(page))
        return b""

    monkeypatch.setattr(Press, "printed", printed)
    monkeypatch.setattr("cardgen.render.pdf._two_up", lambda *_: b"")
    monkeypatch.setattr("cardgen.render.pdf.stamped", lambda pdf, version: pdf)


def test_templates_of_sheets_are_given_documents_and_plans(built, shared, tmp_path, monkeypatch):
    given: list[object] = []
    render = Templates.render

    def watched(self, name, **values):
        if name == "card.html":
            given.append(values)
        return render(self, name, **values)

    monkeypatch.setattr(Templates, "render", watched)
    unprinted(monkeypatch)
    for name in ("ZZ-TUA", "ZZ-WTR"):
        with printing(*printed_of(name)):
            write_aircraft_pdfs(tmp_path, Templates(), document_of(built, name))
    write_tables_pdf(tmp_path / "conversions.pdf", Templates(), shared)
    kinds = {type(one) for one in walked(given)}
    plain = {str, Markup, int, float, bool, NoneType, dict, list, tuple, frozenset}
    others = {one for one in kinds if one not in plain}
    assert {placed.Page, placed.PlacedGrid, record.Table, measures.Measures} <= others
    rooms = {record.__name__, placed.__name__, measures.__name__, code.__name__}
    assert {one.__module__ for one in others} == rooms
    count = sum(
        len(texts(built / name / kind))
        for name in ("ZZ-TUA", "ZZ-WTR")
        for kind in printed_of(name)
        if kind in KINDS
    )
    assert len(given) == count + len(texts(built / "conversions" / "conversions.pdf"))


def test_a_flap_settings_name_is_never_recased(definitions, tmp_path, monkeypatch):
    """On pages, in their data and on sheets it stands as its definition has it."""
    name = "lDg"
    for path in definitions.glob("*/*.yaml"):
        text = re.sub(r"^(flaps: \[.*)\b35\]", rf"\1{name}]", path.read_text(), flags=re.M)
        path.write_text(text.replace("flaps: 35", f"flaps: {name}"))
    card = fresh(read_fleet(definitions), "ZZ-DUB")
    said = [aircraft_page(Templates(), card), to_json(card)]
    said += [table_csv(table, ENGLISH) for table in card.tables]
    unprinted(monkeypatch, said.append)
    write_aircraft_pdfs(tmp_path, Templates(), card)
    found = Counter(re.findall(name, " ".join(said), flags=re.IGNORECASE))
    assert list(found) == [name]
    assert found[name] > 20
