"""WCAG 2.2 AA: what axe-core finds, contrast in four themes, and a walk by keyboard."""

import itertools

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.conftest import DEMO
from tests.render.conftest import sized, unfold
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("browser accessibility")

AIRCRAFT = sorted(f"{path.stem.upper()}/index.html" for path in (DEMO / "fleet").iterdir())
PAGES = [
    "index.html",
    "conversions/index.html",
    "formulas.html",
    "glossary.html",
    "keys.html",
    "next/ZZ-DUB/ZZ-WHB/index.html",
    "ZZ-DUB/how-it-works.html",
    "ZZ-WTR/how-it-works.html",
    "next/index.html",
    *AIRCRAFT,
]
SOME = some("pages", PAGES, ["index.html", "ZZ-WTR/index.html", "ZZ-DUB/how-it-works.html"])
THEMES = ["light", "dark", "night", "red"]
RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "rules": {"target-size": {"enabled": True}, "color-contrast": {"enabled": False}},
}
ALL = {"runOnly": RULES["runOnly"], "rules": {"target-size": {"enabled": True}}}
ALIKE = (
    "tbody tr:not(.block):nth-of-type(n + 3), tbody:nth-of-type(n + 2), dl > div:nth-of-type(n + 6)"
)


VIEWS = [" ".join(one) for one in itertools.product(PAGES, THEMES, ["360", "768", "1440"])]
SOME_VIEWS = some(
    "views",
    VIEWS,
    [
        "index.html red 360",
        "ZZ-DUB/index.html light 360",
        "conversions/index.html night 768",
        "formulas.html light 360",
        "glossary.html red 1440",
        "keys.html light 360",
        "keys.html dark 1440",
        "next/ZZ-DUB/ZZ-WHB/index.html night 360",
        "next/index.html red 360",
        "ZZ-WTR/index.html dark 360",
        "ZZ-WTR/how-it-works.html red 360",
    ],
)

# What axe cannot tell and leaves to an eye, by rule and reason, with what the eye found. Contrast
# of all text but that of drawings is measured below.
LOOKED_AT = {
    ("color-contrast", "imgNode"): "words of drawings: dark on light, or the other way, in each "
    "theme; those on a band have an ink of their own for it",
    ("color-contrast", "bgOverlap"): "headings over two rows, and numbers of drawings near an edge "
    "of a band: whole and on their own paper",
    ("color-contrast", "elmPartiallyObscured"): "cells at the edge of a frame that scrolls",
    ("color-contrast", "elmPartiallyObscuring"): "headings that stay while a table scrolls",
    ("color-contrast", "shortTextContent"): "numbers of one digit, dashes and arrows: as the "
    "numbers beside them",
    ("color-contrast", "nonBmp"): "letters and signs of formulas: as the words beside them",
    ("th-has-data-cells", ""): "headings of blocks: the rows of the block stand below each",
}


def asked(page, options) -> dict:
    """Ask axe what it finds, and not where all is well, which takes it most of its time."""
    told = {"preload": False, "resultTypes": ["violations", "incomplete"]}
    return Axe().run(page, options={**told, **options}).response


def faults(found) -> list[tuple[str, list]]:
    return [(one["id"], [node["target"] for node in one["nodes"]]) for one in found["violations"]]


def unsure(found) -> set[tuple[str, str]]:
    """Return what axe could not tell: rules, and why."""
    checks = (
        (one["id"], check["data"])
        for one in found["incomplete"]
        for node in one["nodes"]
        for check in (*node["any"], *node["all"], *node["none"])
    )
    return {
        (rule, (data.get("messageKey") or "") if isinstance(data, dict) else "")
        for rule, data in checks
    }


@pytest.mark.parametrize("name", SOME)
def test_axe_finds_nothing(visit, name):
    page = visit(name).page
    page.set_viewport_size({"width": 1440, "height": 900})
    assert faults(asked(page, RULES)) == []


@pytest.mark.parametrize("view", SOME_VIEWS)
def test_axe_finds_nothing_in_any_theme_and_width(desk, pages, view):
    """Rows of a block, blocks of a table and entries of a list are alike: it looks at the first."""
    name, theme, width = view.split()
    desk.set_viewport_size({"width": int(width), "height": 900})
    desk.goto((pages / name).as_uri())
    desk.evaluate("(theme) => (document.documentElement.dataset.theme = theme)", theme)
    unfold(desk)
    desk.evaluate(f"document.querySelectorAll('{ALIKE}').forEach((row) => row.remove())")
    found = asked(desk, ALL)
    assert faults(found) == []
    assert unsure(found) - set(LOOKED_AT) == set()


# The lowest contrast of text and of numbers in tables, one of each kind of element, and where.
MEASURE = """() => {
  const number = document.querySelector('td[data-o]');
  if (number) number.dispatchEvent(new Event('focusin', { bubbles: true }));  // lit cells as well

  const linear = (part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
  const parts = (colour) => colour.match(/[\\d.]+/g).map(Number);
  const light = (colour) => {
    const [r, g, b] = parts(colour).map((part) => linear(part / 255));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const clear = (colour) => parts(colour)[3] === 0;
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = getComputedStyle(at).backgroundColor;
      if (!clear(colour)) return colour;
    }
  };
  const contrast = (element) => {
    const two = [light(getComputedStyle(element).color), light(behind(element))];
    return (Math.max(...two) + 0.05) / (Math.min(...two) + 0.05);
  };
  const kindOf = (element) => {
    let said = element.matches(':hover') ? 'hover' : '';
    for (let at = element; at; at = at.parentElement) said += `<${at.tagName} ${at.className}`;
    return said;
  };
  const own = (element) => [...element.childNodes].some((n) => n.nodeType === 3 && n.data.trim());
  const texts = [...document.querySelectorAll('body *')].filter(
    (e) => own(e) && !e.closest('svg, script, noscript, [hidden]'));
  const lowest = (list) => [...new Map(list.map((e) => [kindOf(e), e])).values()]
    .map((e) => [contrast(e), e.outerHTML.slice(0, 90)])
    .sort((a, b) => a[0] - b[0])[0];
  const numbers = texts.filter((e) => e.closest('table') && /\\d/.test(e.textContent));
  return { text: lowest(texts), number: lowest(numbers) || [21, ''] };
}"""


@pytest.mark.parametrize("name", SOME)
def test_contrast_is_seven_for_numbers_and_more_than_four_for_text(visit, name):
    """Pure red has 5.25 on black, and all in it has that."""
    page = visit(name).page
    for theme in THEMES:
        page.evaluate("(theme) => (document.documentElement.dataset.theme = theme)", theme)
        found = page.evaluate(MEASURE)
        text, number = (5.25, 5.25) if theme == "red" else (4.5, 7)
        assert found["text"][0] >= text, (theme, found["text"])
        assert found["number"][0] >= number, (theme, found["number"])
    page.evaluate("delete document.documentElement.dataset.theme")


FOCUSED = """() => {
  const one = document.activeElement;
  if (one === document.body) return null;
  const at = one.getBoundingClientRect();
  const seen = document.elementFromPoint(
    Math.min(Math.max((at.left + at.right) / 2, 1), innerWidth - 1),
    Math.min(Math.max((at.top + at.bottom) / 2, 1), innerHeight - 1));
  const style = getComputedStyle(one);
  return {
    what: one.outerHTML.slice(0, 100),
    inside: at.bottom > 0 && at.top < innerHeight && at.right > 0 && at.left < innerWidth,
    uncovered: !!seen && (one.contains(seen) || seen.contains(one)),
    outlined: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
    ending: one.matches('footer *, main > :last-child *'),
  };
}"""


def walked(page) -> list[dict]:
    stops = []
    for _ in range(400):
        page.keyboard.press("Tab")
        stop = page.evaluate(FOCUSED)
        if stop is None:
            return stops
        stops.append(stop)
    raise AssertionError("the walk does not end")


@pytest.mark.parametrize(
    ("name", "width"),
    [
        pytest.param(one.values[0].split()[0], int(one.values[0].split()[1]), marks=one.marks)
        for one in some(
            "walks by keyboard",
            ["index.html 1440", "index.html 360", "ZZ-DUA/index.html 360"],
            ["index.html 1440", "ZZ-DUA/index.html 360"],
        )
    ],
)
def test_a_keyboard_reaches_all_and_sees_where_it_is(browser, pages, name, width):
    with browser.new_context(viewport={"width": width, "height": 800}) as context:
        page = context.new_page()
        page.goto((pages / name).as_uri())
        if page.locator("section.folded").count():
            unfold(page)
        stops = walked(page)
        assert "Skip to the figures" in stops[0]["what"]
        for stop in stops:
            assert stop["inside"], stop
            assert stop["uncovered"], stop
            assert stop["outlined"], stop
        said = " ".join(stop["what"] for stop in stops)
        wanted = ["summary"]
        wanted += ['type="search"', 'name="kind"', "ZZ-WTR/index.html", "fleet.pdf"]
        if name != "index.html":
            wanted = [
                "summary",
                'name="unit"',
                "card.pdf",
                "glossary.html#VS0",
                "glide.csv",
                "data-o",
            ]
        for what in wanted:
            assert what in said, what


def test_the_choice_of_theme_works_by_keyboard(desk, pages):
    desk.goto((pages / "index.html").as_uri())
    desk.locator(".theme summary").focus()
    desk.keyboard.press("Enter")
    desk.keyboard.press("Tab")
    desk.keyboard.press("ArrowDown")
    assert desk.evaluate("document.documentElement.dataset.theme") == "night"
    desk.keyboard.press("Escape")
    assert not desk.evaluate("document.querySelector('.theme').open")
    assert desk.evaluate("document.activeElement.tagName") == "SUMMARY"


def test_no_table_is_a_region_and_those_that_scroll_are_named_groups(desk, pages):
    """A region is a landmark; nineteen that repeat their tables' names hide the others."""
    desk.goto((pages / "ZZ-DUA/index.html").as_uri())
    for width in (360, 1440):
        sized(desk, width)
        hold_groups(desk, width)


def hold_groups(desk, width: int) -> None:
    desk.wait_for_selector(".frame:is(.fits, .scrolls)")
    assert desk.get_by_role("region").count() == 0
    scrolls, fits = desk.evaluate(
        """['scrolls', 'fits'].map((kind) => [...document.querySelectorAll('.frame.' + kind)].map(
          (one) => [one.getAttribute('role'), one.tabIndex, !!document.getElementById(
            one.getAttribute('aria-labelledby'))]))"""
    )
    assert all(one == ["group", 0, True] for one in scrolls)
    assert all(one == [None, -1, False] for one in fits)
    assert fits
    assert bool(scrolls) is (width == 360)
