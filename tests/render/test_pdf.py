"""The PDFs of the demo fleet as files: which there are, what each says, and for whom."""

import itertools
import re

import pikepdf
import pytest
from hypothesis import example, given
from hypothesis.strategies import characters, text
from tinycss2 import parse_one_component_value

from cardgen.render.templates import css
from cardgen.words.english import ENGLISH
from tests.conftest import printed, printed_of
from tests.render.printed import sheets, texts
from tests.sampling import is_long

pytestmark = pytest.mark.xdist_group("print")  # so that a PDF is read once

CAUTIONS = [ENGLISH.say(f"caution-{n}") for n in (1, 2, 3)]
KINDS = ("card.pdf", "card-2up.pdf", "card-night.pdf", "strip.pdf", "pocket.pdf")


def pdfs(built):
    return sorted(built.rglob("*.pdf"))


def test_there_is_a_set_for_every_aircraft(built, aircraft, record_property):
    found = printed(built)
    record_property("sampled", ("aircraft in print", len(found), len(aircraft)))
    names = {path.relative_to(built).as_posix() for path in pdfs(built)}
    assert names == {
        "fleet.pdf",
        "conversions/conversions.pdf",
        *(f"{name}/{kind}" for name in found for kind in printed_of(name)),
        *(path.relative_to(built).as_posix() for path in built.glob("next/*/*/next.pdf")),
    }
    assert "next/ZZ-WTR/ZZ-PHN/next.pdf" in names
    files = sum(len(printed_of(name)) for name in found)
    record_property("sampled", ("PDFs", files, len(aircraft) * len(KINDS)))


MOST = {"card.pdf": 10, "card-night.pdf": 10, "strip.pdf": 2, "pocket.pdf": 5}  # pages


def test_each_sheet_names_its_aircraft_manual_and_figures(built, fleet):
    for one in fleet.aircraft:
        if one.registration not in printed(built):
            continue
        manual = one.type.manual
        for kind in {*MOST} & {*printed_of(one.registration)}:
            pages = texts(built / one.registration / kind)
            count = len(pages)
            assert count <= MOST[kind], one.registration
            for number, page in enumerate(pages, start=1):
                assert one.registration in page
                assert f"{manual.number}, revision {manual.revision}" in page
                assert re.search(r"Figures [0-9A-F]{4}-[0-9A-F]{4}", page)
                assert f"{number} of {count}" in page
                assert re.search("NOT SIGNED|OUT OF DATE|Signed 20", page)
                assert "cards.reedmere.example" in page


def test_each_page_says_the_cautions_and_that_the_data_are_invented(built):
    for path in pdfs(built):
        two_up = path.name == "card-2up.pdf"
        count = len(texts(path.with_name("card.pdf"))) if two_up else 0
        for n, page in enumerate(texts(path)):
            on_front = 1 + (4 * (n // 2) + 2 < count)  # the last paper may have one sheet only
            on_back = (4 * (n // 2) + 1 < count) + (4 * (n // 2) + 3 < count)
            times = (on_back if n % 2 else on_front) if two_up else 1
            for words in (*CAUTIONS, "every figure here are invented"):
                assert page.count(words) == times, (path, words)


def outline(path):
    """Return a PDF's bookmarks: title, page and children."""
    with pikepdf.open(path) as pdf, pdf.open_outline() as marks:
        pages = {page.obj.objgen: n for n, page in enumerate(pdf.pages)}

        def read(items):
            return [
                (mark.title, pages[mark.destination[0].objgen], read(mark.children))
                for mark in items
            ]

        return read(marks.root)


def test_the_fleets_pdf_has_every_card_with_its_bookmarks(built):
    names = printed(built)
    starts = list(
        itertools.accumulate((len(texts(built / name / "card.pdf")) for name in names), initial=0)
    )
    found = outline(built / "fleet.pdf")
    assert [(title, page) for title, page, _ in found] == list(zip(names, starts[:-1], strict=True))
    for name, first, children in found:
        ((_, _, own),) = outline(built / name / "card.pdf")
        assert [(title, page - first) for title, page, _ in children] == [
            (title, page) for title, page, _ in own
        ]
        assert children[0][:2] == ("Speeds", first)
    with pikepdf.open(built / "fleet.pdf") as pdf:
        assert len(pdf.pages) == starts[-1]


def test_a_cards_bookmarks_lead_to_sheets_and_tables(built):
    ((_, _, children),) = outline(built / "ZZ-TUA/card.pdf")
    assert [title for title, *_ in children] == [
        "Speeds",
        "CAS and stall",
        "True airspeed",
        "Cruise and wind",
    ]
    pages = texts(built / "ZZ-TUA/card.pdf")
    (stall,) = (page for title, page, _ in children[1][2] if title == "Stall speed")
    assert "Stall speed" in pages[stall]
    ((_, _, on_paper),) = outline(built / "ZZ-TUA/card-2up.pdf")
    assert [page for _, page, _ in on_paper] == [
        2 * (page // 4) + page % 2 for _, page, _ in children
    ]


def test_fonts_are_embedded_and_ours(built):
    for path in pdfs(built):
        with pikepdf.open(path) as pdf:
            fonts = [
                one
                for one in pdf.objects
                if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/FontDescriptor"
            ]
            assert fonts, path
            for font in fonts:
                assert "IBM-Plex-Sans-Condensed" in str(font.FontName), path
                assert "/FontFile2" in font or "/FontFile3" in font, path


# -- what assistive technology is told: ISO 14289-1, as far as structure shows it ----------------


def elements(pdf):
    """Yield every tag, with the tags around it."""

    def walk(element, around):
        yield element, around
        for kid in element.get("/K", []):
            if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                yield from walk(kid, (*around, str(element.S)))

    yield from walk(pdf.Root.StructTreeRoot.K[0], ())


def test_pdfs_are_tagged(built):
    for path in pdfs(built):
        with pikepdf.open(path) as pdf:
            root = pdf.Root
            assert root.MarkInfo.Marked, path
            assert str(root.Lang) == "en"
            assert root.ViewerPreferences.DisplayDocTitle
            with pdf.open_metadata() as metadata:
                assert metadata["pdfuaid:part"] == "1"
                assert metadata["dc:title"] == str(pdf.docinfo.Title) != ""
            known = {bytes(name) for name in list(root.StructTreeRoot.IDTree.Names)[::2]}
            reached = set()
            for element, around in elements(pdf):
                reached.add(element.objgen)
                kind = str(element.S)
                if kind == "/Figure":
                    assert str(element.Alt), path
                    left, bottom, right, top = (float(x) for x in element.A.BBox)
                    box = element.Pg.MediaBox
                    assert 0 <= left < right <= float(box[2])
                    assert 0 <= bottom < top <= float(box[3])
                elif kind == "/TH":
                    assert str(element.A.Scope) in ("/Row", "/Column"), path
                    assert bytes(element.ID) in known
                elif kind == "/TD":
                    assert "/Table" in around
                    assert {bytes(one) for one in element.A.Headers} <= known
                elif kind == "/TR":
                    assert around[-1] in ("/THead", "/TBody"), (path, around)
            for marked in list(root.StructTreeRoot.ParentTree.Nums)[1::2]:
                for element in marked:
                    assert element.objgen in reached, path


STALL = "Flaps 35; blank: only CAS known"


def test_a_number_stands_under_all_its_headings(built):
    """A TAS knows its indication, altitude and temperature; a stall its flaps, weight and bank.

    Worked by hand: at 7,500 ft the ISA pressure ratio is 0.7565 and at -10 C the temperature
    ratio 0.9132, so the density ratio is 0.828 and 110 kt becomes 110 / sqrt(0.828) = 120.9 kt.
    """
    found = headings_of_cells(built / "ZZ-TUA/card.pdf")
    tas = {"TAS, kt, by outside air temperature", "IAS 110 kt, CAS 110.0 kt", "7500", "−10°C"}
    assert any(tas <= one for one in found["121"])
    assert any({STALL, "3600", "Bank 60°", "IASkt"} <= one for one in found["82"])
    assert any({STALL, "3600", "Bank 60°", "CASkt"} <= one for one in found["83"])
    assert any({"VA", "IAS kt"} <= one for one in found["133"])


def headings_of_cells(path):
    """Return, by each cell's text, what the cells of that text stand under."""
    texts, names, under = {}, {}, {}
    for page in sheets(path):
        for cell in page.cells():
            number = next(n for kind, n in cell.letters[0].tags if kind in ("TH", "TD"))
            texts[number] = cell.text
    with pikepdf.open(path) as pdf:
        for element, _ in elements(pdf):
            if str(element.S) == "/TH":
                names[bytes(element.ID)] = texts.get(element.objgen[0], "")
            elif str(element.S) == "/TD":
                under[element.objgen[0]] = [bytes(one) for one in element.A.Headers]
    found = {}
    for number, headings in under.items():
        found.setdefault(texts.get(number, ""), []).append({names[one] for one in headings})
    return found


def test_every_letter_is_tagged_and_lines_are_not_read(built):
    paths = [built / "ZZ-WTR/card.pdf", built / "ZZ-WHB/strip.pdf"]
    for path in [*paths, built / "fleet.pdf"] if is_long() else paths:
        for page in sheets(path):
            assert all(letter.tags for letter in page.letters if letter.text.strip()), path


def test_a_page_is_read_from_its_head_to_its_foot(built):
    with pikepdf.open(built / "ZZ-DUA/card.pdf") as pdf:
        kids = list(pdf.Root.StructTreeRoot.K[0].K)
    order = [next(n for n, page in enumerate(pages_of(kids)) if page == one.Pg.objgen)
             for one in kids]  # fmt: skip
    assert order == sorted(order)
    assert [str(one.S) for one in kids][:1] == ["/Div"]


def pages_of(kids):
    return list(dict.fromkeys(one.Pg.objgen for one in kids))


@example("ZZ-DUA; economy")
@given(text(characters(exclude_categories=["Cs"], exclude_characters="\0")))
def test_a_bookmarks_words_are_read_as_they_were_written(words):
    assert parse_one_component_value(css(words)).value == words
