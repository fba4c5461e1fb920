"""The page of a comparison, opened in a browser without a network: sheets before and now."""

import datetime
import re
import shutil
from collections import Counter
from dataclasses import replace

import pytest

from cardgen.layout.formats import HALVES
from cardgen.publish.comparing import compare
from cardgen.publish.states import working
from cardgen.render import comparison
from cardgen.render.comparison import comparison_page
from cardgen.render.onscreen import OnScreen, Pair
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO
from tests.render.conftest import sized
from tests.render.test_accessibility import RULES, asked, faults

pytestmark = pytest.mark.xdist_group("browser comparison")

OLD, NEW = "{ias: 251, cas: 247, page: 2-2}", "{ias: 246, cas: 242, page: 2-2}"
TODAY = datetime.date(2026, 1, 1)
MM = 96 / 25.4  # a millimetre in CSS pixels, by CSS Values 4


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    """The whole demo, its pairs named, and the same with one glider's VNE lowered."""
    head = shutil.copytree(DEMO, tmp_path_factory.mktemp("compared") / "aircraft")
    path = head / "types" / "wheatear-15.yaml"
    text = path.read_text()
    assert text.count(OLD) == 1
    path.write_text(text.replace(OLD, NEW))
    return compare(working(DEMO), working(head), TODAY)


@pytest.fixture(scope="module")
def html(found):
    return comparison_page(Templates(), found.comparison, found.marked())


@pytest.fixture(scope="module")
def opened(browser, html, tmp_path_factory):
    path = tmp_path_factory.mktemp("page") / "page.html"
    path.write_text(html, encoding="utf-8", newline="\n")
    with browser.new_context(offline=True) as context:
        page, asked_for, told = context.new_page(), [], []
        page.on("request", lambda request: asked_for.append(request.url))
        page.on("console", lambda message: told.append(message.text))
        page.goto(path.as_uri())
        page.evaluate("document.fonts.ready")
        yield page, [one for one in asked_for if not one.startswith("data:")], told


def framed(page, side: int) -> Counter[str]:
    """Return what stands in the cells of one side that are framed, brackets and all."""
    texts = page.locator(f".pair > figure:nth-child({side + 1}) .changed").all_inner_texts()
    return Counter(" ".join(text.split()) for text in texts if text.strip())


@pytest.mark.parametrize("side", [0, 1])
def test_each_figure_that_changed_is_framed_before_and_now(found, opened, side):
    """All that is framed has changed, and every figure that changed is framed on a sheet."""
    (one,) = found.comparison.aircraft
    wanted = Counter()
    for moved in one.cells:
        cell = (moved.before, moved.after)[side]
        said = ENGLISH.figure(cell) if cell else ""
        if said and not moved.id.endswith("/beside"):
            wanted[f"({said})" if cell.beyond else said] += 1
    assert sum(wanted.values()) > 10
    assert framed(opened[0], side) == wanted


def test_each_side_has_its_own_drawings(opened):
    """The code at a sheet's foot leads to the mark of that very card."""
    for pair in opened[0].locator(".pair").all():
        codes = pair.locator(".code svg").evaluate_all("all => all.map((one) => one.innerHTML)")
        assert len(set(codes)) == 2


def test_it_stands_alone_and_allows_no_style_but_its_own(opened, html):
    page, asked_for, told = opened
    assert len(asked_for) == 1
    assert told == []
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]*)"', html)
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert not re.search(r"<script| style=|(src|href)=\"(?!data:)|url\(\"(?!data:)", html)
    assert page.evaluate("""[...document.fonts].filter((one) => one.status == 'loaded').length""")
    # a style that somebody adds is refused
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<i style=\"color: red\">x</i>')")
    assert page.locator("i").evaluate("one => getComputedStyle(one).color") != "rgb(255, 0, 0)"
    page.evaluate("document.querySelector('i').remove()")
    told.clear()


def test_sheets_stand_side_by_side_and_one_under_the_other_on_a_phone(opened):
    page = opened[0]
    for width, beside in ((1280, True), (1100, True), (360, False), (320, False)):
        sized(page, width)
        assert page.evaluate("document.documentElement.scrollWidth") == width
        for pair in page.locator(".pair").all():
            old, new = (one.bounding_box() for one in pair.locator("figure").all())
            assert (old["y"] == new["y"]) == beside
            assert (old["x"] == new["x"]) != beside
            for sheet in pair.locator(".printed").all():
                box = sheet.bounding_box()
                assert box["x"] + box["width"] <= width


def test_a_sheet_is_as_large_as_it_is_printed_and_holds_all_that_stands_on_it(opened, found):
    page = opened[0]
    sized(page, 1100)
    width, height = HALVES[found.documents["ZZ-WTR"][0].head.school.paper]
    for sheet in page.locator(".printed").all():
        box = sheet.bounding_box()
        assert box["width"] < width * MM
        assert box["height"] == pytest.approx((height - 2 * 6 + 2 * 3) * MM, abs=3 * MM)
        assert sheet.evaluate("one => one.scrollWidth <= one.clientWidth")
        right = sheet.evaluate(
            "one => Math.max(...[...one.querySelectorAll('td, th, p, svg')]"
            ".map((part) => part.getBoundingClientRect().right))"
        )
        assert right <= box["x"] + box["width"]


@pytest.mark.parametrize("media", [{"forced_colors": "active"}, {"color_scheme": "dark"}])
def test_a_frame_is_seen_without_its_colour(opened, media):
    page = opened[0]
    page.emulate_media(**media)
    frame = page.locator(".printed .changed").first
    style, wide, ink, paper = frame.evaluate(
        "one => { const style = getComputedStyle(one); const sheet = "
        "getComputedStyle(one.closest('.printed')); return [style.outlineStyle, "
        "style.outlineWidth, style.outlineColor, sheet.backgroundColor] }"
    )
    assert style == "solid"
    assert float(wide.removesuffix("px")) > 1.5  # 2, or what a screen has next to it
    assert luminance(ink) != pytest.approx(luminance(paper), abs=0.6)
    page.emulate_media(forced_colors="null", color_scheme="null")


def luminance(colour: str) -> float:
    return sum(map(int, re.findall(r"\d+", colour)[:3])) / 3 / 255


@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing(opened, width):
    page = opened[0]
    sized(page, width)
    assert faults(asked(page, RULES)) == []


def test_of_many_aircraft_only_the_first_have_their_sheets(found, monkeypatch):
    """As many as may be drawn; what changed of the others stands by table, in short."""
    monkeypatch.setattr(comparison, "DRAWN", 1)
    (one,) = found.comparison.aircraft
    other = replace(one, registration="ZZ-OTHER", cells=one.cells[:2])
    many = replace(found.comparison, aircraft=(one, other))
    pair = found.marked()[one.registration]
    made = comparison_page(Templates(), many, {one.registration: pair, "ZZ-OTHER": pair})
    first, second = made.split("<summary><h3>")[1:]
    assert first.count('class="pair"') >= 1
    assert second.count('class="pair"') == 0
    assert "Airspeeds: 2 entries; most: VNE" in second
    assert "Sheets are drawn of the first 1" in made


def test_the_page_of_a_hundred_aircraft_stays_small(found, monkeypatch):
    """Each changed in its own way: sheets of ten, and of each of the others a line."""
    monkeypatch.setattr(OnScreen, "pairs", lambda *_: iter([Pair(None, None)]))
    (one,) = found.comparison.aircraft
    names = [f"ZZ-{n:03}" for n in range(100)]
    alone = [
        replace(one, registration=name, cells=(replace(one.cells[0], row=name, headed=(name,)),))
        for name in names
    ]
    many = replace(found.comparison, aircraft=tuple(alone))
    pair = found.documents[one.registration]
    made = comparison_page(Templates(), many, dict.fromkeys(names, pair))
    assert made.count('class="pair"') == comparison.DRAWN == 10
    assert all(name in made for name in names)
    assert len(made) < 100_000
