import re

import pypdf
import pytest

from cardgen.cards.card import CAUTIONS

pytestmark = pytest.mark.xdist_group("site")

HALF_LETTER = (5.5 * 72, 8.5 * 72)


def pdfs(built):
    return sorted(built.rglob("*.pdf"))


def text_of(page) -> str:
    return re.sub(r"\s+", " ", page.extract_text())


def test_there_is_a_card_for_every_aircraft(built, aircraft):
    names = {path.relative_to(built).as_posix() for path in pdfs(built)}
    assert names == {
        "fleet.pdf",
        "conversions/conversions.pdf",
        *(f"{name}/card.pdf" for name in aircraft),
    }


def test_pages_are_half_letter_and_say_the_cautions(built):
    for path in pdfs(built):
        for page in pypdf.PdfReader(path).pages:
            assert (page.mediabox.width, page.mediabox.height) == HALF_LETTER, path
            text = text_of(page)
            for caution in CAUTIONS:
                assert caution in text, (path, page.page_number)
            assert "invented" in text


def test_each_sheet_names_its_aircraft_manual_and_figures(built, fleet):
    for one in fleet.aircraft:
        manual = one.type.manual
        reader = pypdf.PdfReader(built / one.registration / "card.pdf")
        assert len(reader.pages) == 4
        for number, page in enumerate(reader.pages, start=1):
            text = text_of(page)
            assert one.registration in text
            assert f"{manual.number}, revision {manual.revision}" in text
            assert re.search(r"Figures [0-9A-F]{4}-[0-9A-F]{4}", text)
            assert f"{number} of 4" in text
            assert "NOT SIGNED" in text


def test_the_fleets_pdf_has_a_bookmark_for_each_aircraft(built, aircraft):
    reader = pypdf.PdfReader(built / "fleet.pdf")
    assert [mark.title for mark in reader.outline if not isinstance(mark, list)] == sorted(aircraft)
    assert len(reader.pages) == 4 * len(aircraft)


def test_fonts_are_embedded_and_ours(built):
    reader = pypdf.PdfReader(built / "ZZ-DUA" / "card.pdf")
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            assert "IBM-Plex-Sans-Condensed" in font["/BaseFont"], font["/BaseFont"]


def test_a4_schools_get_a5(definitions, tmp_path):
    from cardgen.airframe.aircraft import Aircraft
    from cardgen.cards.card import make_card
    from cardgen.definition.fleet import read_fleet
    from cardgen.render.pdf import write_cards_pdf
    from cardgen.render.templates import Templates

    school = definitions / "school.yaml"
    school.write_text(school.read_text().replace("paper: letter", "paper: A4"))
    fleet = read_fleet(definitions)
    card = make_card(Aircraft(fleet.aircraft[0]), fleet.school)
    write_cards_pdf(tmp_path / "card.pdf", Templates(), fleet.school, [(card, "0000-0000")])
    for page in pypdf.PdfReader(tmp_path / "card.pdf").pages:
        millimetres = [float(side) / 72 * 25.4 for side in page.mediabox[2:]]
        assert millimetres == pytest.approx([148, 210], abs=0.1)
