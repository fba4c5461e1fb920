"""The page that teaches: its script says and draws what Python does, and it prints whole."""

import io
import random
import re
from dataclasses import replace

import pdfplumber
import pytest

from cardgen.document.record import Document
from cardgen.document.teaching import Lesson
from cardgen.lessons.teaching.page import teaching
from cardgen.lessons.teaching.told import told
from cardgen.render.page import TEACHING, teaching_page
from cardgen.render.teaching import ends_of, label, moved, placed
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.sampling import SEED

pytestmark = pytest.mark.xdist_group("browser teaching")

KINDS = ["ZZ-DUA", "ZZ-TUA", "ZZ-PHN", "ZZ-WTR"]
EACH = 6  # states of each lesson
ASK = """([data, asked]) => {
  const said = language(WORDS);
  const lessons = taught(data);
  const text = (one) => (one.limit ? said.limitPassed(one.limit) : said.text(one));
  return asked.map(([lesson, given, ends, state]) => {
    const found = lessons[lesson](given, state);
    const labels = Object.entries(found.labels || {}).map(
      ([name, one]) => [name, one.id ? said.text(one) : said.withUnit(one)]);
    return {
      said: found.said.map(text),
      drawn: found.drawn,
      labels: Object.fromEntries(labels),
      ...redrawn(lesson, ends, found.drawn, given),
    };
  });
}"""


def states(lesson: Lesson, chance: random.Random) -> list[dict[str, float]]:
    """Return where the sliders may stand: as they do first, at both ends, and by chance."""
    found = [
        {one.name: getattr(one, end) for one in lesson.sliders} for end in ("at", "first", "last")
    ]
    for _ in range(EACH - len(found)):
        found.append(
            {
                one.name: one.first
                + one.step * chance.randint(0, round((one.last - one.first) / one.step))
                for one in lesson.sliders
            }
        )
    return found


def numbers(path: str) -> list[float]:
    return [float(one) for one in re.findall(r"-?\d+\.?\d*", path)]


def near(found: str, wanted: str) -> bool:
    """Whether two paths are alike to a tenth, by which halves of a tenth may be rounded apart."""
    a, b = numbers(found), numbers(wanted)
    alike = re.sub(r"[-\d. ]+", "", found) == re.sub(r"[-\d. ]+", "", wanted)
    return alike and len(a) == len(b) and all(abs(x - y) < 0.11 for x, y in zip(a, b, strict=True))


@pytest.mark.parametrize("name", KINDS)
def test_the_script_says_and_draws_what_python_does(visit, pages, documents, name):
    card = documents[name]
    chance, asked, wanted = random.Random(SEED), [], []
    for lesson in teaching(card).lessons:
        ends = ends_of(ENGLISH, card, lesson)
        for state in states(lesson, chance):
            asked.append([lesson.id, lesson.given, [list(one) for one in ends], state])
            wanted.append((lesson, ends, told(card, lesson.id, lesson.given, state)))
    page = visit(f"{name}/{TEACHING}").page
    data = page.evaluate("AIRCRAFT")
    for found, (lesson, ends, expected), one in zip(
        page.evaluate(ASK, [data, asked]), wanted, asked, strict=True
    ):
        assert found["said"] == [ENGLISH.say(message) for message in expected.said], one
        for part, values in expected.drawn.items():
            assert found["drawn"][part] == pytest.approx(values, rel=1e-9, abs=1e-6), one
        labels = {part: label(ENGLISH, words) for part, words in expected.labels.items()}
        assert {part: found["labels"].get(part) for part in found["labels"]} == {
            part: labels[part] for part in found["labels"]
        }, one
        paths = moved(lesson.id, ends, expected.drawn, lesson.given)
        assert found["paths"].keys() == paths.keys()
        for part, path in paths.items():
            assert near(found["paths"][part], path), (one, part, found["paths"][part], path)
        places = placed(lesson.id, ends, expected.drawn)
        assert {part: pytest.approx(at, abs=0.01) for part, at in places.items()} == {
            part: tuple(at) for part, at in found["places"].items()
        }


def test_what_the_script_shows_first_is_what_the_page_has(browser, visit, pages):
    """Opened without scripts it is whole: each drawing as it stands, and what it comes to."""
    with browser.new_context(java_script_enabled=False) as context:
        plain = context.new_page()
        plain.goto((pages / "ZZ-DUA" / TEACHING).as_uri())
        still = plain.locator(".told").all_inner_texts()
        assert len(still) == 6
        assert all(re.search(r"\d", one) for one in still)
        assert not plain.locator(".sliders").first.is_visible()
        assert plain.locator("noscript").count() == 1
        paths = [one.get_attribute("d") for one in plain.locator("path.move").all()]
    page = visit(f"ZZ-DUA/{TEACHING}").page
    assert page.locator(".told").all_inner_texts() == still
    drawn = [one.get_attribute("d") for one in page.locator("path.move").all()]
    assert len(drawn) == len(paths) == 15
    for found, wanted in zip(drawn, paths, strict=True):
        assert near(found or "", wanted or ""), (found, wanted)


@pytest.mark.parametrize(
    ("name", "slider", "keys"),
    [
        ("pressure", "cas", "End"),
        ("blocked", "gained", "Home"),
        ("arcs", "shown", "End"),
        ("position", "setting", "End"),
        ("true", "isa", "Home"),
        ("wind", "from", "Home"),
    ],
)
def test_a_slider_moves_a_figure_by_keyboard(desk, pages, name, slider, keys):
    desk.goto((pages / "ZZ-TUA" / TEACHING).as_uri())
    section = desk.locator(f"section#{name}")
    before = section.locator(".told").inner_text()
    drawn = section.locator("path.move").evaluate_all("(all) => all.map((one) => one.outerHTML)")
    output = section.locator(f".slider:has(input[name={slider}]) output")
    stood = output.inner_text()
    section.locator(f"input[name={slider}]").focus()
    desk.keyboard.press(keys)
    assert output.inner_text() != stood
    assert section.locator(".told").inner_text() != before
    after = section.locator("path.move").evaluate_all("(all) => all.map((one) => one.outerHTML)")
    assert after != drawn
    spoken = section.locator(f"input[name={slider}]").get_attribute("aria-valuetext")
    assert spoken == output.inner_text()


def test_height_moves_the_pressures_and_not_the_pointer(desk, pages):
    desk.goto((pages / "ZZ-TUA" / TEACHING).as_uri())
    needle, total = (desk.locator(f"#pressure .move.{one}").first for one in ("needle", "total"))
    stood, felt = needle.get_attribute("d"), total.inner_html()
    desk.locator("#pressure input[name=altitude]").focus()
    desk.keyboard.press("End")
    assert needle.get_attribute("d") == stood
    assert total.inner_html() != felt


def test_what_moved_is_told_to_a_screen_reader_once_it_rests(desk, pages):
    desk.goto((pages / "ZZ-WTR" / TEACHING).as_uri())
    desk.locator("#true input[name=altitude]").focus()
    desk.keyboard.press("End")
    status = desk.locator("main [role=status]")
    status.filter(has_text="6000 m").wait_for(state="attached", timeout=5000)
    assert status.text_content() == " ".join(desk.locator("#true .told p").all_inner_texts())


def test_the_handout_has_each_lesson_and_no_slider(desk, pages):
    """As the browser prints it: a few pages, and where the sliders stood."""
    desk.goto((pages / "ZZ-DUA" / TEACHING).as_uri())
    desk.locator("#wind input[name=wind]").focus()
    desk.keyboard.press("Home")
    with pdfplumber.open(io.BytesIO(desk.pdf(format="Letter"))) as pdf:
        text = " ".join(one.extract_text() for one in pdf.pages)
        assert len(pdf.pages) <= 4
    text = " ".join(text.split())
    for name in ("pressure", "blocked", "arcs", "position", "true", "wind"):
        assert ENGLISH.say(f"teach-title-{name}") in text
    assert "at 0 kt: heading 360" in text
    assert ENGLISH.say("caution-1") in text
    assert ENGLISH.say("teach-move") not in text
    desk.emulate_media(media="print")
    assert not desk.locator(".sliders").first.is_visible()
    assert desk.evaluate(
        "[...document.querySelectorAll('figure, .frame')].every("
        "(one) => ['avoid', 'avoid-page'].includes(getComputedStyle(one).breakInside)"
        " || ['avoid'].includes(getComputedStyle(one.closest('.lesson')).breakInside))"
    )


@pytest.mark.parametrize("name", KINDS)
def test_a_page_is_small_and_as_wide_as_its_window(phone, pages, name):
    path = pages / name / TEACHING
    assert path.stat().st_size < 60_000
    phone.goto(path.as_uri())
    for width in (360, 1280):
        phone.set_viewport_size({"width": width, "height": 800})
        assert phone.evaluate("document.documentElement.scrollWidth") <= width
    assert phone.locator("math").count() >= 8


def test_each_lesson_names_its_source_and_common_practice_is_marked(pages, documents):
    html = (pages / "ZZ-DUA" / TEACHING).read_text("utf-8")
    for name in ("pressure", "blocked", "arcs", "position", "true", "wind"):
        section = html.split(f'id="{name}"')[1].split("</section>")[0]
        assert "Source: " in section
        assert re.search(r"FAA-H-8083-25B|ICAO Doc 7488|14 CFR", section)
    assert html.count('<p class="common"><strong>Common practice:</strong>') == 3


def test_the_page_is_reached_from_the_aircraft_and_the_index(visit):
    for name, link in (("ZZ-WTR/index.html", TEACHING), ("index.html", f"ZZ-WTR/{TEACHING}")):
        assert visit(name).page.locator(f'a[href="{link}"]').count() == 1


def test_an_aircraft_of_few_figures_says_what_is_left_out(documents):
    card: Document = documents["ZZ-WTR"]
    bare = replace(
        card,
        tables=tuple(one for one in card.tables if one.id != "speeds"),
        basis=replace(card.basis, markings=None),
    )
    html = teaching_page(Templates(), bare, teaching(bare))
    assert html.count('<section class="lesson"') == 6
    assert html.count("data-given=") == 1
    assert "Left off: the card has no markings." in html
