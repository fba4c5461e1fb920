"""How PDFs are made: pages laid out once, and the same bytes from run to run."""

import io
import time
from dataclasses import dataclass

import pikepdf
import pytest

from cardgen import __version__
from cardgen.document.data import from_json
from cardgen.document.record import Shared
from cardgen.layout.content import Content
from cardgen.layout.formats import FORMATS
from cardgen.layout.measures import Sizes
from cardgen.layout.sheets import planned
from cardgen.render.drawings import drawings
from cardgen.render.pdf import write_aircraft_pdfs, write_tables_pdf
from cardgen.render.press import Press
from cardgen.render.templates import Templates
from cardgen.render.variables import settled
from tests.conftest import printed
from tests.render.printed import sheets, texts
from tests.render.test_print import document_of
from tests.sampling import is_long

pytestmark = pytest.mark.xdist_group("press")  # so that a PDF is read once


@pytest.fixture(scope="session")
def again(built, tmp_path_factory):
    """One aircraft's PDFs made again, in another folder, process and time zone; and the count.

    In a long run all of them: by night a card has the sheets that it has by day.
    """
    folder = tmp_path_factory.mktemp("again")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TZ", "Pacific/Auckland")
        time.tzset()
        made = [one for one in FORMATS if is_long() or not one.night]
        patch.setattr("cardgen.render.pdf.FORMATS", made)
        press = write_aircraft_pdfs(folder, Templates(), document_of(built, "ZZ-WTR"))
    time.tzset()
    return folder, press, made


def test_pdfs_are_the_same_from_run_to_run(built, again):
    folder, _, made = again
    for one in made:
        assert (folder / one.file).read_bytes() == (built / "ZZ-WTR" / one.file).read_bytes(), one


def test_each_sheet_is_laid_out_once(again):
    folder, press, made = again
    files = [one.file for one in made if not one.two_up_of]
    count = sum(len(texts(folder / file)) for file in files)
    assert press.layouts == press.pages == count >= sum(len(one.sheets) for one in made)


def test_sheets_are_printed_as_they_are_planned_at_first(built, sample):
    """Who was laid out twice has smaller type than the first plan; one in twenty, at the most."""
    count, others = 0, []
    templates = Templates()
    for name in sample("cards", printed(built), 2):
        document = document_of(built, name)
        content = Content(document, templates.language, drawings(templates, document).keys())
        for form in FORMATS:
            if form.two_up_of:
                continue
            pages = [page for plan in planned(form, content, Sizes()) for page in plan]
            found = sheets(built / name / form.file)
            assert len(pages) == len(found)
            for page, sheet in zip(pages, found, strict=True):
                count += 1
                sizes = {letter.size for letter in sheet.letters}
                wanted = {page.measures.type, page.measures.title}
                if not any(
                    size == pytest.approx(one, abs=0.001) for size in sizes for one in wanted
                ):
                    others.append((name, form.file, page.number))
    assert len(others) <= count / 20, others


@dataclass(frozen=True)
class Tall:
    """A page that is too high until it was planned so often."""

    name: str
    misses: int
    enough: int


def test_only_a_sheet_that_is_too_high_is_planned_smaller():
    asked = []

    def html(page: Tall) -> str:
        asked.append((page.name, page.misses))
        high = 8 if page.misses >= page.enough else 12
        return (
            "<html lang=en><title>-</title>"
            "<style>@page { size: 20mm 20mm; margin: 1mm } body { margin: 0 }</style>"
            + f"<div style='height: {high}mm'>-</div>"
            * 2
        )

    def plan(misses):
        first, second = misses or (0, 0)
        return [[Tall("one", first, 0)], [Tall("two", second, 2)]]

    press = Press()
    press.printed(html, plan)
    assert asked == [("one", 0), ("two", 0), ("two", 1), ("two", 2)]
    assert (press.pages, press.layouts) == (2, 4)


@pytest.mark.parametrize(
    "body",
    [
        "<p>One<ul><li>two</ul><ol><li>three</ol><table><tr><th>four<td>five</table>",
        "<p>One</p><ul><li>two</li></ul><ol><li>three</li></ol><table>\n<tbody><tr>"
        "<th>four<br/>and</th><td>five &lt; <svg xmlns='http://www.w3.org/2000/svg' width='9' "
        "viewBox='0 0 9 9'><title>six</title><path d='M1 1h5v5z'/></svg></td></tr></tbody></table>",
    ],
    ids=["loose", "well-formed"],
)
def test_a_page_is_drawn_as_weasyprint_by_itself_draws_it(monkeypatch, body):
    """By the style that it has for all HTML; and a style that pages share is parsed once."""
    import weasyprint

    parsed: list[str] = []
    css = weasyprint.CSS
    Press()
    monkeypatch.setattr(
        weasyprint,
        "CSS",
        lambda string, **rest: parsed.append(string) or css(string=string, **rest),
    )
    shared = (
        ":root { --ink: #999999; --size: 3mm; } @media screen { :root { --ink: #ff0000; } }"
        ":root { --ink: #123456; } /* :root { --ink: #00ff00; } */"
        f"p, li, td {{ color: var(--ink); margin: 1mm; orphans: {len(body)} }}"  # parsed anew
    )
    own = f"p {{ font-size: var(--size); border-top: 1mm solid var(--ink); orphans: {len(body)} }}"
    html = (
        f"<html lang='en'><head><title>-</title><style>{shared}</style><style>{own}</style></head>"
        f"<body>{body}</body></html>"
    )
    made = Press().printed(lambda page: html, lambda misses: [["first", "second"]])
    assert len(parsed) == len(settled([shared, own])) == 2
    assert not any("var(" in style for style in parsed)
    itself = weasyprint.HTML(string=html).write_pdf(pdf_variant="pdf/ua-1")
    with pikepdf.open(io.BytesIO(made)) as one, pikepdf.open(io.BytesIO(itself)) as other:
        drawn = [page.Contents.read_bytes() for page in (*one.pages, *other.pages)]
    assert len(drawn) == 3
    assert drawn[0] == drawn[2]


def test_a_pdf_names_its_maker_and_a_date_that_is_set(built, tmp_path, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    text = (built / "conversions" / "conversions.json").read_text("utf-8")
    press = write_tables_pdf(tmp_path / "conversions.pdf", Templates(), from_json(text, Shared))
    assert press.layouts == press.pages
    for path, date in (
        (tmp_path / "conversions.pdf", "20231114221320Z"),
        (built / "conversions" / "conversions.pdf", "20000101000000Z"),
        (built / "ZZ-DUA" / "card-2up.pdf", "20000101000000Z"),
        (built / "fleet.pdf", "20000101000000Z"),
    ):
        with pikepdf.open(path) as pdf, pdf.open_metadata() as metadata:
            assert str(pdf.docinfo.Producer) == f"cardgen {__version__}", path
            assert metadata["pdf:Producer"] == f"cardgen {__version__}"
            assert str(pdf.docinfo.CreationDate) == f"D:{date}"
            assert metadata["xmp:CreateDate"].replace("-", "").startswith(date[:8])
