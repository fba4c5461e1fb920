"""A practice sheet as it is handed out: a page that marks answers, its key, and both to print."""

import io
import json
import re
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pikepdf
import pytest

from cardgen.cli import main
from cardgen.document.practice import Practice
from cardgen.lessons.practice.sheet import LEVELS, practice
from cardgen.render.practice import practice_pages, practice_pdfs
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.words.english import ENGLISH
from tests.browsing import PHONE
from tests.conftest import DEMO, documents_of
from tests.render.test_accessibility import ALL, asked, faults
from tests.render.test_words import MADE_UP, Said, entered, unmarked

pytestmark = pytest.mark.xdist_group("browser practice")

LETTER, A4 = (612.0, 792.0), (595.3, 841.9)  # pt
CAUTIONS = [ENGLISH.say(f"caution-{n}") for n in (1, 2, 3)]


@pytest.fixture(scope="module")
def sheet() -> Practice:
    return practice(marked(documents_of(DEMO)["ZZ-DUA"]), "commercial", 4)


@pytest.fixture(scope="module")
def folder(sheet, tmp_path_factory) -> Path:
    return written(practice_pages(Templates(), sheet), tmp_path_factory.mktemp("practice"))


def written(pages: dict[str, str], folder: Path) -> Path:
    for name, text in pages.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


# -- the page -------------------------------------------------------------------------------------


def test_the_page_marks_answers_and_says_each_mistake(sheet, folder, phone):
    phone.goto((folder / f"{sheet.file}.html").as_uri())
    assert phone.locator(".why:visible, .working:visible").count() == 0
    first = sheet.questions[0]
    for number, question in enumerate(sheet.questions[:-1], start=1):
        wrong = next(n for n, one in enumerate(question.choices, start=1) if one.mistake)
        right = next(n for n, one in enumerate(question.choices, start=1) if not one.mistake)
        ticked = wrong if number == 1 else right
        phone.locator(f'input[name="question-{number}"][value="{ticked}"]').check()
    phone.locator(".bar button").click()
    status = phone.locator("[role=status]").inner_text()
    assert status == f"{len(sheet.questions) - 2} of {len(sheet.questions)} right"
    said = phone.locator(".questions > li").all_inner_texts()
    mistake = next(one.mistake for one in first.choices if one.mistake)
    assert f"Not so. {ENGLISH.text(mistake)}" in said[0]
    assert "Right." in said[1]
    assert "Not so." not in said[1]
    assert "No answer." in said[-1]
    for shown, question in zip(said, sheet.questions, strict=True):
        assert ENGLISH.text(question.worked[-1].name) in shown
    phone.locator('input[name="question-1"]').nth(first.choices.index(first.right)).check()
    phone.locator(".bar button").click()
    assert "Not so." not in phone.locator(".questions > li").first.inner_text()
    assert (
        phone.locator(".marked label[data-right]")
        .first.inner_text()
        .endswith(ENGLISH.text(first.right.said))
    )


def test_without_scripts_the_key_is_a_page_of_its_own(sheet, folder, browser):
    with browser.new_context(java_script_enabled=False, viewport=PHONE) as context:
        page = context.new_page()
        page.goto((folder / f"{sheet.file}.html").as_uri())
        assert page.locator("button:visible, .why:visible, .working:visible").count() == 0
        assert page.locator("noscript").inner_text() == ENGLISH.say("practice-no-script")
        page.get_by_role("link", name=ENGLISH.say("practice-to-key")).click()
        assert page.url.endswith(f"{sheet.file}-key.html")
        said = page.locator("main").inner_text()
        for question in sheet.questions:
            assert ENGLISH.text(question.asked) in said
            assert f"{ENGLISH.text(question.right.said)}: Right." in said
        page.get_by_role("link", name=ENGLISH.say("practice-to-questions")).click()
        assert page.url.endswith(f"{sheet.file}.html")


def test_pages_break_no_rule_of_theirs_and_axe_finds_nothing(sheet, folder, browser):
    with browser.new_context(viewport=PHONE, offline=True) as context:
        page, said = context.new_page(), []
        page.on("console", lambda message: said.append(message.text))
        page.on("requestfailed", lambda request: said.append(request.url))
        for name in (f"{sheet.file}.html", f"{sheet.file}-key.html"):
            page.goto((folder / name).as_uri())
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
            if page.locator(".bar button").count():
                page.locator(".bar button").click()
            assert faults(asked(page, ALL)) == []
        assert said == []
    html = (folder / f"{sheet.file}.html").read_text("utf-8")
    assert re.search(r"Content-Security-Policy\" content=\"default-src 'none'; script-src", html)
    assert "style=" not in html


def test_pages_and_sheets_carry_the_cautions(sheet, folder):
    for name in (f"{sheet.file}.html", f"{sheet.file}-key.html"):
        html = (folder / name).read_text("utf-8")
        for caution in (*CAUTIONS, ENGLISH.say("practice-caution")):
            assert caution.replace("'", "&#39;") in html


@pytest.mark.parametrize("level", LEVELS)
def test_every_word_of_a_page_is_a_wording(level, tmp_path):
    """In a made-up language nothing is said outside its marks but names, units and letters."""
    document = marked(documents_of(DEMO)["ZZ-WTR"])
    sheet = practice(document, level, 3)
    pages = practice_pages(Templates(language=MADE_UP), sheet)
    own = unmarked(" ".join(entered(document)))
    own |= {"A", "B", "C", "D", "VA", "VO", "inHg", "hPa", "deg", "kt", level}
    for name, text in pages.items():
        if name.endswith(".html"):
            blanks = re.findall(r"data-marked='(.*?)'", text)
            written = [one for found in blanks for one in json.loads(found)]
            said = " ".join(map(str, [*Said(text).said, *written])).replace(sheet.mark, "")
            assert "⟦" in said
            given = f"{sheet.school.notice} {sheet.cardgen}"
            assert unmarked(said) - own <= set(re.findall(r"\w+", given))


# -- to print -------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def pdfs(sheet, tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("pdfs")
    for name, data in practice_pdfs(Templates(), sheet).items():
        (folder / name).write_bytes(data)
    return folder


def test_every_page_says_what_it_is_not_for(sheet, pdfs):
    for end in ("", "-key"):
        with pdfplumber.open(pdfs / f"{sheet.file}{end}.pdf") as pdf:
            for page in pdf.pages:
                said = " ".join(re.sub(r"\d+ / \d+", "", page.extract_text()).split())
                assert " ".join(CAUTIONS) in said
                assert (page.width, page.height) == LETTER
            said = " ".join(" ".join((page.extract_text() or "").split()) for page in pdf.pages)
        assert ENGLISH.say("practice-caution") in said
        for question in sheet.questions:
            assert ENGLISH.text(question.asked)[:40] in said
        assert ("Right." in said) == bool(end)


def test_nothing_overlaps_or_leaves_the_paper(sheet, pdfs):
    for end in ("", "-key"):
        with pdfplumber.open(pdfs / f"{sheet.file}{end}.pdf") as pdf:
            for page in pdf.pages:
                lines = page.extract_text_lines()
                assert min(one["x0"] for one in lines) >= 36
                assert max(one["x1"] for one in lines) <= page.width - 36
                assert max(one["bottom"] for one in lines) <= page.height - 18
                assert min(char["size"] for char in page.chars) >= 7.4


def test_a_question_and_its_choices_stand_on_one_page(sheet, pdfs):
    with pdfplumber.open(pdfs / f"{sheet.file}.pdf") as pdf:
        pages = [" ".join((page.extract_text() or "").split()) for page in pdf.pages]
    for question in sheet.questions:
        start = ENGLISH.text(question.asked)[:40]
        (page,) = (one for one in pages if start in one)
        for choice in question.choices:
            assert ENGLISH.text(choice.said) in page


def test_the_paper_is_the_schools_and_the_fonts_are_inside(sheet):
    metric = replace(sheet, school=replace(sheet.school, paper="A4"))
    (made, _) = practice_pdfs(Templates(), metric).values()
    with pikepdf.open(io.BytesIO(made)) as pdf:
        box = [float(one) for one in pdf.pages[0].MediaBox]
        assert (round(box[2], 1), round(box[3], 1)) == A4
        fonts = pdf.pages[0].Resources.Font
        assert all(
            "/FontFile2" in one.DescendantFonts[0].FontDescriptor
            or "/FontFile3" in one.DescendantFonts[0].FontDescriptor
            for one in map(fonts.__getitem__, fonts.keys())
        )
        assert str(pdf.docinfo.Title) == "ZZ-DUA practice, commercial"


# -- the command ----------------------------------------------------------------------------------


def run(out: Path, *options: str) -> int:
    return main(["practice", *options, "--out", str(out), "--definitions", str(DEMO)])


def test_one_seed_gives_the_same_files(sheet, folder, pdfs, tmp_path, capsys):
    assert run(tmp_path, "zz-dua", "--level", "commercial", "--seed", "4") == 0
    made = {path.name: path for path in tmp_path.rglob("*") if path.is_file()}
    before = {path.name: path for one in (folder, pdfs) for path in one.rglob("*.*")}
    assert made.keys() == before.keys()
    assert [name for name in made if made[name].read_bytes() != before[name].read_bytes()] == []
    name = "ZZ-DUA-commercial-4"
    files = {f"{name}{end}" for end in (".html", "-key.html", ".pdf", "-key.pdf")}
    assert made.keys() == {*files, "tokens.css", "practice.css", "practice.js"}
    assert str(tmp_path / f"{name}.pdf") in capsys.readouterr().out


def test_what_is_left_out_is_said(tmp_path, capsys):
    assert run(tmp_path, "ZZ-WTR", "--level", "instrument", "--no-pdf") == 0
    said = capsys.readouterr().out
    assert "Left out: Alternate static source; its manual gives no table for" in said
    assert [path.suffix for path in tmp_path.glob("*.*")] == [".html", ".html"]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["ZZ-NONE"], "no aircraft ZZ-NONE, expected one of ZZ-DUA"),
        (["ZZ-DUA", "--level", "third"], "invalid choice: 'third'"),
        (["ZZ-DUA", "--count", "0"], "0: expected a whole number from 1 to 40"),
        (["ZZ-DUA", "--seed", "-1"], "expected"),
    ],
)
def test_what_cannot_be_asked_is_said(tmp_path, capsys, options, said):
    assert misused(tmp_path, *options) == 2
    assert said in capsys.readouterr().err
    assert not any(tmp_path.iterdir())


def misused(out: Path, *options: str) -> object:
    try:
        return run(out, *options)
    except SystemExit as error:
        return error.code
