"""A hostile text in every free field of every kind: shown as it was typed, and nothing more."""

import csv
import datetime
import io
import json
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.checks.run import check, errors, findings_of
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.document.data import from_json, to_json
from cardgen.document.record import Document
from cardgen.layout.formats import FORMATS
from cardgen.publish import report, rereading
from cardgen.publish.making import index_of, listed_of
from cardgen.publish.pages import asked
from cardgen.render import page
from cardgen.render.data import table_csv
from cardgen.render.drawings import drawings
from cardgen.render.pdf import pages_of
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.words.english import ENGLISH
from tests.conftest import ROOT
from tests.safety.hostile import Spoiling, every_field, write

TODAY = datetime.date(2026, 1, 1)
GLIDER = "ZZ-WTR"


class Made(NamedTuple):
    """What comes out of a folder of definitions."""

    folder: Path
    fleet: Fleet
    documents: dict[str, Document]
    put: list[str]  # the hostile texts
    fields: set[str]


@pytest.fixture(scope="module")
def hostile(tmp_path_factory) -> Made:
    folder, spoiling = tmp_path_factory.mktemp("hostile"), Spoiling()
    write(folder, spoiling)
    fleet = read_fleet(folder)
    found = check(fleet, TODAY)
    assert errors(found, ENGLISH) == []
    documents = {
        one.registration: marked(
            make_document(Aircraft(one), fleet.school, findings_of(found, one))
        )
        for one in fleet.aircraft
    }
    return Made(folder, fleet, documents, [*spoiling.put.values()], spoiling.fields)


def pages(made: Made) -> dict[str, str]:
    """Every page that has a word of a definition on it."""
    templates = Templates()
    found = {name: page.aircraft_page(templates, one) for name, one in made.documents.items()}
    found["fleet"] = page.fleet_page(
        templates, index_of(made.fleet.school, map(listed_of, made.documents.values()))
    )
    return found


def sheet_of(document: Document, file: str) -> str:
    """The HTML that one of an aircraft's files of sheets is laid out from."""
    (form,) = (one for one in FORMATS if one.file == file)
    made = pages_of(form, Templates(), document, frozenset())
    return "".join(made.html(one) for sheet in made.by_sheet.values() for one in sheet)


class Reader(HTMLParser):
    """Reads a page as a browser would: its elements, their attributes, its text."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.kinds: set[tuple[str, str]] = set()
        self.values: list[tuple[str, str]] = []
        self.said = ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.kinds |= {(tag, ""), *((tag, name) for name, _ in attrs)}
        self.values += [(name, value or "") for name, value in attrs]

    def handle_data(self, data):
        self.said += data

    def handle_comment(self, data):
        self.kinds.add(("comment", data))


@pytest.fixture(scope="module")
def read(hostile) -> list[Reader]:
    return [Reader(one) for one in pages(hostile).values()]


def kinds(*files: Path) -> set[tuple[str, str]]:
    """The elements and attributes of files, whose template expressions are left out."""
    texts = (re.sub(r"\{[%{#].*?[%}#]\}", "", one.read_text("utf-8")) for one in files)
    return {kind for text in texts for kind in Reader(text).kinds}


def test_every_free_text_is_one_that_would_do_harm(hostile):
    assert every_field() - hostile.fields == set()


def test_pages_have_the_elements_that_they_have_without(read):
    """Those of some of the demo's pages, as they were committed."""
    demo = [ROOT / "site" / name / "index.html" for name in (".", "ZZ-DUB", "ZZ-TUA", GLIDER)]
    wanted = kinds(ROOT / "templates/base.html", *demo)
    found = {kind for one in read for kind in one.kinds}
    assert ("script", "src") in found
    assert found - wanted == set()


def test_pages_have_no_script_and_no_style_of_their_own(read):
    for one in read:
        assert ("style", "") not in one.kinds
        assert {name for _, name in one.kinds if name == "style" or name.startswith("on")} == set()


def test_no_address_leads_off_the_site(read):
    addresses = {
        value for one in read for name, value in one.values if name in ("href", "src", "action")
    }
    assert len(addresses) > 20
    assert {one for one in addresses if re.match(r"\s*([\w.+-]+:|//)", one)} == {"data:,"}


def test_words_are_read_as_they_were_typed(hostile, read):
    """In the page's text, or in what its script puts there as text."""
    said = [one.said + "".join(value for _, value in one.values) for one in read]
    school = hostile.fleet.school
    for one in said:
        assert school.notice in one
        assert school.name in one
    for document, one in zip(hostile.documents.values(), said, strict=False):
        words = [*document.head.remarks, document.head.type, document.head.manual.title]
        assert [text for text in words if text not in one] == []


def test_what_the_script_reads_is_json_in_which_titles_stand_whole(hostile, read):
    """The origin of a number names its paper, whatever braces and quotation marks that has."""
    said = [
        json.loads(value)
        for one in read
        for name, value in one.values
        if name in ("data-figures", "data-n", "data-small", "data-blanks", "data-rest")
    ]
    assert len(said) > 100
    sentences = json.dumps(said, ensure_ascii=False)
    manuals = [one.manual.title for one in hostile.fleet.types.values()]
    assert [
        one for one in manuals if json.dumps(one, ensure_ascii=False)[1:-1] not in sentences
    ] == []


def test_json_gives_back_every_word(hostile):
    texts = {name: to_json(one) for name, one in hostile.documents.items()}
    assert from_json(texts[GLIDER], Document) == hostile.documents[GLIDER]
    said = " ".join(texts.values())
    told = [json.dumps(one, ensure_ascii=False)[1:-1] in said for one in hostile.put]
    assert sum(told) > 0.9 * len(told)


def test_no_cell_is_run_by_a_spreadsheet(hostile):
    """Read back by another reader of CSV; a number is one to it as to us."""
    cells = [
        cell
        for document in hostile.documents.values()
        for table in document.tables
        for row in csv.reader(io.StringIO(table_csv(table, ENGLISH)))
        for cell in row
    ]
    risky = {one for one in cells if one.lstrip()[:1] in tuple("=+-@\t\r＝＋－＠")}
    assert [one for one in risky if not re.fullmatch(r"[-+]\d+(\.\d+)?[°]?", one)] == []
    assert {one for one in cells if re.fullmatch(r"-\d+", one)}
    assert {one[1] for one in cells if re.match(r"'[=+@-]", one)} == set("=+-@")


def test_drawings_are_xml_with_nothing_added(hostile):
    drawn = drawings(Templates(), hostile.documents[GLIDER], alone=True)
    elements = [one for svg in drawn.values() for one in ElementTree.fromstring(svg).iter()]
    found = {(one.tag.rpartition("}")[2], name) for one in elements for name in one.attrib}
    assert len(elements) > 100
    assert {tag for tag, _ in found} == {"svg", "g", "path", "text"}
    assert {name for _, name in found if name == "style" or name.startswith("on")} == set()


def test_sheets_have_the_elements_and_styles_that_they_have_without(hostile):
    """The elements are those that stand in the two templates."""
    found = Reader(sheet_of(hostile.documents[GLIDER], "card.pdf"))
    wanted = kinds(ROOT / "templates/card.html", ROOT / "templates/drawing.svg")
    wanted |= {("table", "class"), ("table", "style")}  # that a macro writes
    assert found.kinds - wanted == set()
    styles = [value for name, value in found.values if name == "style"]
    assert len(styles) > 20
    plain = r'(; )?([a-z-]+: (\d+(\.\d+)?(mm)?|"([\w ]|\\[0-9a-f]{1,6} )*"))'
    assert [one for one in styles if not re.fullmatch(rf"({plain})+", one)] == []
    assert [value for name, value in found.values if name in ("src", "href")] == []


@pytest.mark.parametrize("form", ["text", "json", "github"])
def test_reports_order_nothing(hostile, form):
    write = {"text": report.as_text, "json": report.as_json, "github": report.as_annotations}
    found = check(hostile.fleet, TODAY)
    said = write[form](found, hostile.folder, ENGLISH)
    assert len(said.splitlines()) >= len(found) > 3
    assert [one for one in said if not (one.isprintable() or one == "\n")] == []
    if form == "json":
        json.loads(said)
    else:
        begun = [line for line in said.splitlines() if line.lstrip().startswith("::")]
        assert len(begun) == (len(found) if form == "github" else 0)


def test_what_is_to_be_read_again_orders_nothing(hostile):
    wanted = asked("2-3", [])
    found = rereading.to_reread(hostile.fleet, wanted)
    said = rereading.as_text(found, wanted, hostile.folder, ENGLISH)
    assert found
    assert [one for one in said if not (one.isprintable() or one == "\n")] == []
