"""The pages in headless Chromium, from the file system and without a network."""

import gzip
import io
import itertools
import re
import subprocess
import unicodedata
from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from PIL import Image
from playwright.sync_api import expect

from cardgen.definition.fleet import read_fleet
from cardgen.definition.speeds import SPEEDS
from cardgen.document.data import from_json
from cardgen.document.record import (
    Asked,
    Column,
    Computed,
    Document,
    Entered,
    Finding,
    Gap,
    Index,
    Listed,
    Marks,
    Message,
    Paper,
    Signature,
    Table,
)
from cardgen.document.signature import VALID, state_of
from cardgen.render.page import aircraft_page, case_data, fleet_page
from cardgen.render.sentences import anchor
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.conftest import STRESS, documents_of
from tests.render.conftest import FEW, REGISTRATIONS, fresh, sized, unfold
from tests.sampling import some

pytestmark = pytest.mark.xdist_group("browser pages")

AIRCRAFT = [f"{registration}/index.html" for registration in REGISTRATIONS]
COMMON = [
    "next/index.html",
    "index.html",
    "conversions/index.html",
    "formulas.html",
    "glossary.html",
    "keys.html",
]
PAGES = [*COMMON, *AIRCRAFT]
SOME = some("pages", AIRCRAFT, [f"{name}/index.html" for name in FEW])
WORKED = ["calibration", "stall", "true-airspeed", "ground-speed", "crosswind-limit"]
CAUTIONS = [ENGLISH.say(f"caution-{n}") for n in (1, 2, 3)]


def url(pages, name: str) -> str:
    return (pages / name).as_uri()


# -- every page ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", some("pages", PAGES, [*COMMON, f"{FEW[0]}/index.html"]))
def test_a_page_opens_offline_and_does_not_scroll_sideways(visit, name):
    page, asked, wrong = visit(name)
    for width in (320, 360, 768, 1440):
        sized(page, width)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width
    assert asked
    assert all(one.startswith(("file:", "data:")) for one in asked)
    assert wrong == ()
    for caution in CAUTIONS:
        assert page.get_by_text(caution).is_visible()


def test_a_long_name_does_not_make_a_page_wider(phone, pages, documents, tmp_path):
    card = documents["ZZ-DUA"]
    head = replace(card.head, type="Greater Dunlin 160 Long-Range Amphibian Special")
    path = tmp_path / "ZZ-DUA" / "index.html"
    path.parent.mkdir()
    path.write_text(aircraft_page(Templates(), replace(card, head=head)), "utf-8")
    (tmp_path / "assets").symlink_to(pages / "assets")
    phone.goto(path.as_uri())
    assert phone.evaluate("document.documentElement.scrollWidth") == 360


class Links(HTMLParser):
    """The links and the anchors of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.targets: list[str] = []
        self.anchors: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        self.targets += [found[key] for key in ("href", "src") if found.get(key)]
        self.anchors += [found["id"]] if found.get("id") else []


def test_links_lead_to_files_and_places_of_this_site(pages):
    known = {name: Links((pages / name).read_text()) for name in PAGES}
    for name, links in known.items():
        assert len(set(links.anchors)) == len(links.anchors), name
        for target in links.targets:
            if target.startswith("data:"):
                continue
            file, _, place = target.partition("#")
            path = ((pages / name).parent / file).resolve() if file else pages / name
            assert path.exists() or path.suffix == ".pdf", (name, target)
            if place:
                there = path.relative_to(pages.resolve() if file else pages).as_posix()
                assert place in known[there].anchors, (name, target)


def test_nothing_is_fetched_from_elsewhere(pages):
    for path in [*pages.rglob("*.html"), *pages.glob("assets/*")]:
        text = path.read_text().replace('xmlns="http://www.w3.org/2000/svg"', "")
        assert not re.search(r"https?:|//[a-z]|@import|@font-face", text), path


@pytest.mark.parametrize("name", SOME)
def test_a_page_is_light(pages, name):
    files = [pages / name, *(pages / "assets").iterdir(), *(pages / name).parent.glob("case.js")]
    assert (pages / "assets" / "page.js").stat().st_size < 20_000
    assert sum(path.stat().st_size for path in files) < 700_000
    assert sum(len(gzip.compress(path.read_bytes())) for path in files) < 80_000


def test_a_page_with_the_most_of_everything_is_light_with_its_document(pages):
    (card,) = documents_of(STRESS).values()
    text = aircraft_page(Templates(), card)
    assets = set(re.findall(r'"\.\./(assets/[^"]+)"', text))
    assert len(assets) > 8
    whole = [text.encode(), case_data(ENGLISH, card).encode()]
    whole += [(pages / name).read_bytes() for name in assets]
    assert sum(map(len, whole)) < 700_000
    assert sum(len(gzip.compress(one)) for one in whole) < 80_000


def test_one_row_of_a_table_is_one_line(pages):
    for name in PAGES:
        for line in (pages / name).read_text().splitlines():
            assert line.count("<tr") == line.count("</tr>") <= 1, (name, line)
            assert 'class=""' not in line, (name, line)


# -- what an aircraft's page begins with --------------------------------------------------------


BOXES = """() => Object.fromEntries(['#speeds-table', '.dial'].map((what) => {
  const { left, top, right, bottom } = document.querySelector(what).getBoundingClientRect();
  return [what, { left, top: top + scrollY, right, bottom: bottom + scrollY }];
}))"""


@pytest.mark.parametrize("name", SOME)
def test_speeds_and_dial_stand_side_by_side_on_a_wide_screen(visit, name):
    page = visit(name).page
    sized(page, 1440)
    speeds, dial = page.evaluate(BOXES).values()
    assert speeds["top"] < 450
    assert dial["left"] > speeds["right"]
    assert speeds["top"] - 150 < dial["top"] < speeds["top"] + 150


@pytest.mark.parametrize("name", SOME)
def test_what_the_indicator_shows_is_in_sight_on_a_phone_and_the_largest(visit, name):
    page = visit(name).page
    sized(page, 360)
    speeds, dial = page.evaluate(BOXES).values()
    assert speeds["top"] < 800
    assert dial["top"] > speeds["bottom"]
    numbers, others = page.evaluate(
        """() => {
          const size = (cell) => parseFloat(getComputedStyle(cell).fontSize);
          const main = [...document.querySelectorAll('#speeds-table td:nth-child(2)')];
          const cells = main.filter((cell) => cell.textContent);  // a TAS stands in words
          const others = [...document.querySelectorAll('td, th')];
          return [cells.map((cell) => {
            const range = document.createRange();
            range.selectNodeContents(cell);
            const { left, right } = range.getBoundingClientRect();
            return [cell.textContent, left, right, size(cell)];
          }), Math.max(...others.filter((cell) => !main.includes(cell)).map(size))];
        }"""
    )
    assert numbers
    for text, left, right, size in numbers:
        assert 0 < left < right < 360, text
        assert size >= 24 > others, text


@pytest.mark.parametrize("name", SOME)
def test_limits_stand_in_the_first_sight_of_a_small_phone(browser, pages, documents, name):
    """The first; the first three, where nothing was remarked on the aircraft."""
    seen = 1 if documents[name.split("/")[0]].head.remarks else 3
    with browser.new_context(viewport={"width": 360, "height": 680}) as context:
        page = context.new_page()
        page.goto(url(pages, name))
        rows = page.locator("#speeds-table tbody tr:not(.block)").all()[:seen]
        assert rows[0].locator("th").inner_text() in ("VNE", "VMO")
        for row in rows:
            box = row.bounding_box()
            assert box["y"] + box["height"] <= 680


@pytest.mark.parametrize("registration", some("pages", REGISTRATIONS, FEW))
def test_each_table_has_its_reading_rule_above_and_its_notes_below(
    desk, pages, documents, registration
):
    desk.goto(url(pages, f"{registration}/index.html"))
    found = desk.evaluate(
        """Object.fromEntries([...document.querySelectorAll('section.table')].map((section) => {
          const how = section.querySelector('.how');
          const table = section.querySelector('table');
          const above = how.getBoundingClientRect().bottom <= table.getBoundingClientRect().top;
          const csv = section.querySelector('a[href$=".csv"]').getAttribute('href');
          return [section.id, { how: how.innerText, above, csv, text: section.innerText }];
        }))"""
    )
    for table in documents[registration].tables:
        section = found[table.id]
        assert section["how"] == ENGLISH.say(table.how)
        assert section["above"]
        assert all(ENGLISH.say(note) in section["text"] for note in table.notes)
        assert section["csv"] == f"{table.id}.csv"


@pytest.mark.parametrize("registration", some("pages", REGISTRATIONS, FEW))
def test_the_main_tables_have_an_example_with_their_own_numbers(pages, documents, registration):
    text = (pages / registration / "index.html").read_text()
    for name in WORKED:
        table = documents[registration].table(name)
        assert table is not None
        section = text[text.index(f'<section id="{name}"') :]
        found = re.search(r'<p class="example"><b>Example</b> (.*?)</p>', section)
        assert found
        example = re.sub("<.*?>", "", found[1])
        assert example == ENGLISH.text(table.example)
        cells = {ENGLISH.figure(cell) for row in table.rows for cell in row.cells}
        read = [number for number in re.findall(r"\d[\d,.]*°?", example) if number in cells]
        assert len(read) >= 2, example


def test_findings_stand_near_the_top(documents):
    card = documents["ZZ-DUA"]
    found = (
        Finding("one", "warning", Message("given-mach", {"mach": "0.78"})),
        Finding("other", "note", Message("gear-up"), accepted="measured"),
    )
    bare = aircraft_page(Templates(), replace(card, findings=()))
    told = aircraft_page(Templates(), replace(card, findings=found))
    assert 'id="findings"' not in bare
    assert told.index("<strong>warning</strong> Mach 0.78") < told.index('id="speeds"')
    assert "<strong>note</strong> gear up <em>Accepted: measured</em>" in told


PRINTS = ["card.pdf", "card-2up.pdf", "card-night.pdf", "strip.pdf", "pocket.pdf"]


@pytest.mark.parametrize("name", SOME)
def test_all_that_is_printed_is_linked_and_the_links_line_up_on_a_phone(visit, name):
    page = visit(name).page
    sized(page, 360)
    links = page.locator(".prints a")
    assert [link.get_attribute("href") for link in links.all()] == PRINTS
    boxes = [link.bounding_box() for link in links.all()]
    assert (len({box["x"] for box in boxes}), len({box["y"] for box in boxes})) == (2, 3)
    assert Links(page.content()).targets.count("card.json") == 1


def test_the_whole_fleet_is_linked_from_the_index(pages):
    assert "fleet.pdf" in Links((pages / "index.html").read_text()).targets


DRAWN = {
    "markings": ["Airspeed indicator of", "Airspeed scale of"],
    "calibration": ["Calibration curve of"],
    "true-airspeed": ["True airspeed of"],
    "polar": ["Polar of"],
}


@pytest.mark.parametrize("name", SOME)
def test_each_drawing_stands_with_its_table_and_has_a_name_and_a_description(visit, name):
    found = visit(name).page.evaluate(
        """[...document.querySelectorAll('section.table')].map((section) => [
          section.id,
          [...section.querySelectorAll('svg[role=img]')].map((one) =>
            [one.querySelector('title').textContent, one.querySelector('desc').textContent]),
        ])"""
    )
    registration = name.split("/")[0]
    names = {table: [title for title, _ in drawings] for table, drawings in found if drawings}
    assert names == {
        table: [f"{what} {registration}" for what in whats]
        for table, whats in DRAWN.items()
        if table != "polar" or table in dict(found)
    }
    for _, drawings in found:
        assert all(len(described) > 40 for _, described in drawings)


def test_charts_stand_beside_their_tables_on_a_wide_screen_and_below_on_a_phone(visit):
    page = visit("ZZ-WTR/index.html").page
    for width, beside in ((1440, True), (360, False)):
        sized(page, width)
        for table in ("calibration", "true-airspeed"):
            frame = page.locator(f"#{table} .frame").bounding_box()
            chart = page.locator(f"#{table} .chart").bounding_box()
            assert (chart["x"] >= frame["x"] + frame["width"]) is beside
            assert (chart["y"] >= frame["y"] + frame["height"]) is not beside


def test_drawings_have_the_inks_of_each_theme(desk, pages):
    desk.goto(url(pages, "ZZ-TUA/index.html"))
    for theme in ("light", "dark", "night", "red"):
        inks, tokens = desk.evaluate(INKS, theme)
        assert set(inks) <= set(tokens), theme


INKS = """(theme) => {
  document.documentElement.dataset.theme = theme;
  const inks = [...document.querySelectorAll('svg *')].flatMap((part) => {
    const { fill, stroke } = getComputedStyle(part);
    const shown = part.tagName === 'text' ? [fill] : [part.matches('[fill]') && fill,
      part.matches('[stroke]') && stroke];
    return shown.filter((ink) => ink && ink !== 'none');
  });
  const probe = document.body.appendChild(document.createElement('i'));
  const named = ['ink', 'paper', 'rule', 'arc-white', 'on-white', 'arc-green', 'on-green',
    'arc-yellow', 'on-yellow', 'arc-red', 'arc-blue'];
  return [[...new Set(inks)], named.map((name) => {
    probe.style.color = `var(--${name})`;
    return getComputedStyle(probe).color;
  })];
}"""


def test_a_page_is_whole_without_its_drawings(documents):
    card = documents["ZZ-WHA"]
    bare = replace(card, basis=replace(card.basis, markings=None, errors=(), tas=()))
    page = aircraft_page(Templates(), bare)
    assert 'role="img"' not in page
    shown = re.sub("<noscript>.*?</noscript>", "", page[page.index("<main") :], flags=re.DOTALL)
    assert "<details" not in shown
    for table in card.tables:
        assert f'id="{table.id}-table"' in page


def test_why_the_manual_differs_is_said_once(pages):
    assert (pages / "ZZ-DUA" / "index.html").read_text().count("Why the manual") == 1


def test_a_changed_speed_says_what_the_manual_gives(definitions):
    path = definitions / "types" / "dunlin-160.yaml"
    text = path.read_text()
    changed = re.sub(r"  VS0: .*", "  VS0: {cas: 45, page: 5-9}", text, count=1)
    path.write_text(changed)
    page = aircraft_page(Templates(), fresh(read_fleet(definitions), "ZZ-DUC"))
    assert "SUP-12 changed VS0: the manual gives 45 kt CAS." in page


def test_what_is_left_off_says_what_is_missing(documents):
    gap = Gap("glide", Message("title-glide"), Message("missing-glide"))
    card = replace(documents["ZZ-WTR"], gaps=(gap,))
    page = aircraft_page(Templates(), card)
    for gap in card.gaps:
        said = f'<h2>{ENGLISH.say(gap.title)}</h2><p class="how">Left off: '
        assert f"{said}{ENGLISH.say(gap.missing)}.</p>" in page


# -- whether it is signed -----------------------------------------------------------------------


def test_an_unsigned_card_says_so_and_how_to_sign_it(documents):
    card = documents["ZZ-DUA"]
    page = aircraft_page(Templates(), replace(card, marks=Marks("AAAA-BBBB", "CCCC-DDDD")))
    assert '<p class="status"><strong>Not signed.</strong>' in page
    assert "<code>cardgen signoff ZZ-DUA --by NAME</code>" in page
    assert "Figures</dt> <dd>AAAA-BBBB</dd>" in page


@pytest.mark.parametrize(
    ("figures", "card", "said"),
    [
        ("F-1", "C-1", "Signed by A. Reader on 2026-01-31, for these figures.</p>"),
        ("F-1", "", "Signed by A. Reader on 2026-01-31, for these figures.</p>"),
        ("F-1", "C-0", "for these figures. What else the card says has changed since.</p>"),
        ("F-0", "C-1", "<strong>Out of date.</strong> A. Reader signed figures F-0 on 2026-01-31"),
    ],
)
def test_a_signed_card_says_whether_the_signature_holds(documents, figures, card, said):
    one = documents["ZZ-DUA"]
    signature = Signature("A. Reader", "2026-01-31", figures, card)
    head = replace(one.head, signatures=(signature,), asked=Asked())
    page = aircraft_page(Templates(), replace(one, head=head, marks=Marks("C-1", "F-1")))
    assert said in page
    assert ('class="status"' in page) == (figures == "F-0") == ('id="sign"' in page)


def test_the_fleets_page_names_the_cards_that_are_not_signed(documents):
    head = documents["ZZ-DUA"].head
    signature = Signature("A. Reader", "2026-01-31", "F-1")

    def listed(name: str, signed: Signature | None) -> Listed:
        manual, marks = Paper("manual", "Manual", "M-1"), Marks("C-1", "F-1")
        one = Listed(name, "Type", "glider", "kt", manual, marks)
        return replace(one, state="signed", signatures=(signed,)) if signed else one

    def page(*ones: Listed) -> str:
        return fleet_page(Templates(), Index(head.school, ones))

    assert "No instructor has released these cards." in page(listed("A", None), listed("B", None))
    some = page(listed("A", None), listed("B", signature), listed("C", None))
    assert "out of date:</strong> A, C. Compare" in some
    assert 'class="status"' not in page(listed("B", signature))


# -- tables -------------------------------------------------------------------------------------


def test_headings_stay_in_sight_where_a_wide_table_scrolls(phone, pages):
    phone.goto(url(pages, "ZZ-DUA/index.html"))
    unfold(phone)
    frame = phone.locator("#true-airspeed .frame")
    phone.wait_for_selector("#true-airspeed .frame.scrolls")
    frame.scroll_into_view_if_needed()
    frame.evaluate("(frame) => frame.scrollTo(150, 400)")
    outside = frame.bounding_box()
    head = phone.locator("#true-airspeed-table thead").bounding_box()
    assert head["y"] == pytest.approx(outside["y"], abs=1)
    first = phone.locator("#true-airspeed-table tbody th[scope=row]").nth(20).bounding_box()
    assert first["x"] == pytest.approx(outside["x"], abs=1)


def test_a_table_that_is_cut_fades_and_says_how_many_rows_are_below(phone, pages):
    phone.goto(url(pages, "ZZ-DUA/index.html"))
    unfold(phone)
    frame = phone.locator("#true-airspeed .frame")
    phone.wait_for_selector("#true-airspeed .frame.cut")
    rows = phone.locator("#true-airspeed-table tbody tr:not(.block)")
    note = phone.locator("#true-airspeed .frame + .rest")

    def below() -> int:
        edge = frame.bounding_box()["y"] + frame.bounding_box()["height"]
        boxes = rows.evaluate_all("(all) => all.map((row) => row.getBoundingClientRect().bottom)")
        return sum(bottom > edge + 1 for bottom in boxes)

    def mask() -> str:
        return frame.evaluate("(frame) => getComputedStyle(frame).maskImage")

    assert 0 < below() < rows.count()
    said = note.inner_text()
    assert said == f"Scroll the table for more rows: {below()}"
    assert "gradient" in mask()
    frame.evaluate("(frame) => frame.scrollTo(0, 300)")
    expect(note).not_to_have_text(said)
    assert note.inner_text() == f"Scroll the table for more rows: {below()}"
    frame.evaluate("(frame) => frame.scrollTo(0, frame.scrollHeight)")
    phone.wait_for_selector("#true-airspeed .frame:not(.cut)")
    assert below() == 0
    assert mask() == "none"
    assert not note.is_visible()


def test_no_other_table_is_cut(phone, pages):
    phone.goto(url(pages, "ZZ-DUA/index.html"))
    unfold(phone)
    phone.wait_for_selector(".frame.scrolls")
    for frame in phone.locator(".frame").all():
        whole, seen, cut = frame.evaluate(
            "(one) => [one.scrollHeight, one.clientHeight, one.matches('.cut')]"
        )
        assert cut is (whole > seen + 1)


def test_headings_stay_in_sight_where_a_long_table_fits(desk, pages):
    desk.goto(url(pages, "ZZ-DUB/index.html"))
    desk.wait_for_selector("#rule-of-thumb .frame.fits")
    row = desk.locator("#rule-of-thumb-table tbody tr").nth(30)
    row.evaluate("(row) => row.scrollIntoView()")
    head = desk.locator("#rule-of-thumb-table thead").bounding_box()
    assert head["y"] == pytest.approx(0, abs=1)


def test_the_row_and_the_column_in_hand_are_lit(desk, pages):
    desk.goto(url(pages, "ZZ-DUB/index.html"))
    cell = desk.locator("#true-airspeed-table tbody tr").nth(3).locator("td").nth(4)
    lit = desk.locator("#true-airspeed-table .lit")
    cell.hover()
    assert lit.count() == 1 + 8 + 35 - 1  # heading, row and column
    assert "20°C" in desk.locator("#true-airspeed-table thead .lit").inner_text()
    assert desk.locator(".here").count() == 1
    desk.mouse.move(0, 0)
    assert lit.count() == 0
    cell.click()
    desk.mouse.move(0, 0)
    assert lit.count() == 43  # the cell is in hand
    desk.keyboard.press("Escape")
    assert lit.count() == 0


def papers_of(origin: Entered | Computed, column: Column, card: Document) -> list[str]:
    """The papers that a figure was read from; a computed one's are those of what it takes."""
    if isinstance(origin, Entered):
        read = [(origin.paper, origin.page)]
    else:
        given = {one.id: (one.paper, one.page) for one in card.given if one.paper}
        read = [given[one.source] for one in origin.inputs if one.source in given]
        if column.shown or origin.formula == "indicated-airspeed":
            read += [(one.id, "") for one in card.head.papers if one.id == "bench-card"]
    names = {one.id: f"{one.title} {one.number}".strip() for one in card.head.papers}
    pages = (f"page {page} of " if page else "" for _, page in read)
    return list(
        dict.fromkeys(page + names[one] for page, (one, _) in zip(pages, read, strict=True))
    )


def said_of(origin: Entered | Computed, column: Column, card: Document) -> str:
    papers = ", ".join(papers_of(origin, column, card))
    if isinstance(origin, Entered):
        return f"Entered: {papers}"
    said = ", ".join(
        f"{ENGLISH.say(f'input-{one.name}')} {ENGLISH.say('several', parts=one.value)}"
        for one in origin.inputs
    )
    entered = f". Entered: {papers}" if papers else ""
    return f"Computed: {ENGLISH.say(f'formula-{origin.formula}')}: {said}{entered}"


def expected_origins(table: Table, card: Document) -> Iterator[str]:
    """A cell's own origin, and its small figure's where that is alone or of another kind."""
    for row in table.rows:
        for cell, column in zip(row.cells, table.columns, strict=True):
            small = cell.beside.origin if cell.beside else None
            found = [said_of(one, column, card) for one in (cell.origin, small) if one]
            if len(found) == 2 and found[0][:30] != found[1][:30]:
                yield "{}. Small figure: {}".format(*found)
            elif found:
                yield found[0]


@pytest.mark.parametrize("registration", ["ZZ-DUC", "ZZ-PHN", "ZZ-WHB", "ZZ-WTR"])
def test_every_number_says_where_it_comes_from(visit, documents, registration):
    said = visit(f"{registration}/index.html").page.evaluate(
        """[...document.querySelectorAll('section.table table')].map((table) =>
          [table.id, [...table.querySelectorAll(':is(td, th)[data-o]')].map((cell) => {
            cell.dispatchEvent(new Event('focusin', { bubbles: true }));
            return document.getElementById('origin').textContent;
          })])"""
    )
    card = documents[registration]
    expected = [[f"{table.id}-table", list(expected_origins(table, card))] for table in card.tables]
    assert said == expected


def test_an_origin_shows_on_focus_hover_and_tap(desk, pages):
    desk.goto(url(pages, "ZZ-DUC/index.html"))
    bar = desk.locator("#origin")
    assert bar.is_hidden()
    stall = desk.locator("#speeds tr", has=desk.get_by_role("rowheader", name="VS0"))
    stall.locator("td[data-o]").first.click()
    assert "page S12-3 of Vortex generators SUP-12" in bar.inner_text()
    desk.keyboard.press("Escape")
    assert bar.is_hidden()
    desk.locator("#true-airspeed td[data-o]").first.hover()
    assert "TAS from CAS" in bar.inner_text()
    desk.mouse.move(0, 0)
    assert "page S12-3" in bar.inner_text()  # of the cell that was clicked
    desk.locator("#stall td[data-o]").first.focus()
    assert "Entered: page" in bar.inner_text()
    desk.keyboard.press("ArrowRight")
    assert desk.evaluate("document.activeElement.cellIndex") == 2
    desk.keyboard.press("ArrowDown")
    assert desk.evaluate("document.activeElement.parentElement.rowIndex") == 4
    assert "Stall speed at a weight and bank" in bar.inner_text()


def test_a_term_is_linked_where_it_stands_first(pages):
    for name in AIRCRAFT:
        places = re.findall(
            r'<a class="term" href="../glossary.html#([^"]+)"', (pages / name).read_text()
        )
        assert len(set(places)) == len(places), name
        assert {"CAS", "TAS", "pressure-altitude", "OAT", "VS1", "best-glide"} <= set(places), name


def terms() -> set[str]:
    """Return every term that a wording marks."""
    marked = (
        re.findall(r"\[([^\]]+)\](?:\(([^)]+)\))?", said) for said in ENGLISH.wordings.values()
    )
    return {anchor(term or text) for found in marked for text, term in found}


def test_the_glossary_explains_every_speed_and_term(pages):
    text = (pages / "glossary.html").read_text()
    assert len(terms()) > 15
    for place in {*terms(), *map(anchor, SPEEDS)}:
        entry = re.search(rf'<div id="{place}"><dt>.*?</dt><dd>(.*?)</dd></div>', text)
        assert entry, place
        assert len(re.sub("<.*?>", "", entry[1])) > 30, place


# -- without scripts ----------------------------------------------------------------------------


def test_everything_is_in_sight_without_scripts(browser, pages):
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(url(pages, "ZZ-DUA/index.html"))
        page.locator("#speeds .from summary").click()
        assert "page 2-3 of" in page.locator("#speeds .from").inner_text()
        assert (
            page.locator(".units, .theme, .converted, #origin").locator("visible=true").count() == 0
        )
        assert (
            page.locator("tbody tr").locator("visible=true").count()
            == page.locator("tbody tr").count()
        )
        page.goto(url(pages, "index.html"))
        assert page.locator(".finder").is_hidden()
        assert page.locator(".fleet tbody tr").locator("visible=true").count() == len(AIRCRAFT)


# -- the finder ---------------------------------------------------------------------------------


def test_the_finder_finds_by_words_and_kind(desk, pages):
    desk.goto(url(pages, "index.html"))

    def shown() -> list[str]:
        return desk.locator(".fleet tbody tr:visible th").all_inner_texts()

    status = desk.locator(".finder [role=status]")
    assert shown() == REGISTRATIONS
    desk.get_by_label("Find").fill("dunlin zz-dub")
    assert shown() == ["ZZ-DUB"]
    assert status.inner_text() == f"1 of {len(REGISTRATIONS)}"
    desk.get_by_label("glider").check()
    assert shown() == []
    assert status.inner_text() == "None found."
    desk.get_by_label("Find").fill("")
    assert shown() == ["ZZ-WTR"]
    desk.get_by_label("Find").press("Enter")
    assert desk.url == url(pages, "index.html")
    desk.get_by_label("All").check()
    assert shown() == REGISTRATIONS


def test_the_finder_knows_a_registration_a_kind_and_a_unit_however_written(desk, pages):
    desk.goto(url(pages, "index.html"))
    for said, found in (
        ("ZZWHB", {"ZZ-WHB"}),
        ("zz  Whb ", {"ZZ-WHB"}),
        ("DUNLIN160", {"ZZ-DUA", "ZZ-DUB", "ZZ-DUC"}),
        ("twin", {"ZZ-TUA"}),
        ("TWIN engine", {"ZZ-TUA"}),
        ("kmh", {"ZZ-WTR"}),
        ("km/h", {"ZZ-WTR"}),
        ("glider KM / H", {"ZZ-WTR"}),
    ):
        desk.get_by_label("Find").fill(said)
        shown = desk.locator(".fleet tbody tr:visible th").all_inner_texts()
        assert set(shown) == found, said


# -- units: what is converted is in test_units.py ------------------------------------------------


def test_a_mach_number_is_no_speed_and_no_place_of_the_pointer(desk, pages):
    desk.goto(url(pages, "ZZ-PHN/index.html"))
    row = desk.locator("#speeds-table tr", has=desk.get_by_role("rowheader", name="MMO"))
    before = row.inner_text()
    assert "Mach 0.52" in before
    assert row.locator("td").first.inner_text() == ""
    desk.locator('input[name=unit][value="km/h"]').check()
    assert row.inner_text() == before


def test_units_are_never_kept(desk, pages):
    desk.goto(url(pages, "ZZ-DUA/index.html"))
    desk.locator('input[name=unit][value="km/h"]').check()
    desk.locator(".converted").first.get_by_role("button", name="As printed").click()
    assert desk.locator(".converted").count() == 0
    assert desk.locator("input[name=unit]").first.is_checked()
    desk.locator('input[name=unit][value="km/h"]').check()
    for name in ("ZZ-DUA", "ZZ-DUB"):
        desk.goto(url(pages, f"{name}/index.html"))
        assert desk.locator("input[name=unit]").first.is_checked()
        assert desk.locator(".converted").count() == 0


# -- themes -------------------------------------------------------------------------------------


def paper(page) -> str:
    return page.evaluate("getComputedStyle(document.documentElement).backgroundColor")


def test_the_theme_follows_the_device_until_one_is_chosen(context, pages):
    page = context.new_page()
    papers = {}
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.goto(url(pages, "index.html"))
        papers[scheme] = paper(page)
    assert papers["light"] == "rgb(255, 255, 255)"
    assert papers["dark"] != papers["light"]
    page.locator(".theme summary").click()
    page.get_by_label("Light").check()
    assert paper(page) == papers["light"]
    page.get_by_label("Night").check()
    page.goto(url(pages, "ZZ-DUA/index.html"))
    assert paper(page) == "rgb(0, 0, 0)"
    assert page.locator('meta[name="theme-color"]').get_attribute("content") == "#000000"
    page.locator(".theme summary").click()
    page.get_by_label("As the device").check()
    assert paper(page) == papers["dark"]
    page.reload()
    assert paper(page) == papers["dark"]


def test_the_theme_stands_before_the_first_line_is_drawn(pages):
    for name in PAGES:
        head = (pages / name).read_text().partition("<body>")[0]
        assert re.search(r'<script src="[./]*assets/page.js"></script>', head)


def test_pages_work_where_storage_is_barred(context, pages):
    page = context.new_page()
    wrong = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new Error('barred'); } })"
    )
    page.goto(url(pages, "ZZ-DUA/index.html"))
    page.locator(".theme summary").click()
    page.get_by_label("Night").check()
    assert paper(page) == "rgb(0, 0, 0)"
    assert wrong == []


DARK = some("pages", PAGES, ["index.html", "ZZ-WTR/index.html"])


SHADES = {"Night": 0.47, "Pure red": 0.0}  # of green and blue, to red


@pytest.mark.parametrize(
    "view",
    some(
        "pages at night",
        [f"{name} {theme}" for name in PAGES for theme in SHADES],
        ["index.html Pure red", "ZZ-WTR/index.html Night"],
    ),
)
def test_at_night_every_point_is_red_or_black(desk, pages, view):
    """However much is in hand: a choice, a number and its origin, words to find."""
    name, theme = view.split(maxsplit=1)
    shade = SHADES[theme]
    desk.set_viewport_size({"width": 1440, "height": 1600})
    desk.goto(url(pages, name))
    desk.locator(".theme summary").click()
    desk.get_by_label(theme).check()
    for what in ("input[name=unit][value=mph]", "td[data-o]"):
        if desk.locator(what).count():
            desk.locator(what).first.click()
    if desk.locator("input[type=search]").count():
        desk.locator("input[type=search]").fill("zz")
    desk.locator(".theme summary").click()
    shot = Image.open(io.BytesIO(desk.screenshot())).convert("RGB")
    for _, (red, green, blue) in shot.getcolors(1 << 24):
        assert max(green, blue) <= shade * red + (2 if shade else 0), (red, green, blue)


# Every colour that something of the page could be drawn in, whether or not it is now.
COLOURS = """() => {
  const found = new Map();
  const names = ['color', 'background-color', 'border-top-color', 'border-right-color',
    'border-bottom-color', 'border-left-color', 'outline-color', 'text-decoration-color',
    'caret-color', 'accent-color', 'column-rule-color', 'scrollbar-color', 'box-shadow',
    'background-image', '-webkit-tap-highlight-color', 'fill', 'stroke'];
  for (const one of document.querySelectorAll(':not(title, desc)')) {
    const style = getComputedStyle(one);
    for (const name of names) {
      const said = [one.tagName, name, style.getPropertyValue(name)];
      found.set(said.join(), said);
    }
  }
  return [...found.values()];
}"""


@pytest.mark.parametrize("name", DARK)
def test_pure_red_has_no_colour_but_red(desk, pages, name):
    desk.goto(url(pages, name))
    desk.evaluate("document.documentElement.dataset.theme = 'red'")
    desk.evaluate(  # the fleet's picture, as a school may have one
        "document.querySelector('.school').insertAdjacentHTML('afterbegin', '<img alt=\"\">')"
    )
    assert not desk.locator(".school img").is_visible()
    if desk.locator("td[data-o]").count():
        desk.locator("td[data-o]").first.click()
    found = {tuple(one) for one in desk.evaluate(COLOURS)}
    reds = set()
    for tag, what, colour in found:
        for parts in re.findall(r"rgba?\(([^)]*)\)", colour):
            red, green, blue, *alpha = (float(part) for part in parts.split(","))
            assert green == blue == 0 or alpha == [0], (tag, what, colour)
            reds.add(red)
    assert {0.0, 255.0} <= reds


def test_in_pure_red_arcs_differ_without_a_shade(desk, pages):
    """White is hollow, green is whole, yellow has stripes: nothing but what is drawn tells them."""
    desk.goto(url(pages, "ZZ-DUA/index.html"))
    desk.evaluate("document.documentElement.dataset.theme = 'red'")
    lit = {}
    for name in ("White", "Green", "Yellow"):
        swatch = desk.locator("#markings-table tr", has_text=f"{name} arc").locator("svg")
        shot = Image.open(io.BytesIO(swatch.screenshot())).convert("RGB")
        middle = [shot.getpixel((x, shot.height // 2))[0] > 128 for x in range(shot.width)]
        across = middle[3:-3]
        changes = sum(one != after for one, after in itertools.pairwise(across))
        lit[name] = (sum(across) / len(across), changes)
    assert lit["Green"] == (1.0, 0)
    assert lit["White"][0] < 0.2
    assert 0.2 < lit["Yellow"][0] < 0.8
    assert lit["Yellow"][1] >= 4


# -- where a device forces its own colours --------------------------------------------------------


@pytest.fixture
def scheme() -> str:
    return "light"


@pytest.fixture(scope="module")
def forcing(browser):
    """A page of a device that shows everything in its own few colours."""
    size = {"width": 1280, "height": 900}
    with browser.new_context(viewport=size, forced_colors="active") as context:
        yield context.new_page()


@pytest.fixture
def forced(forcing, scheme):
    """The same for a new visitor, in light or dark."""
    forcing.bring_to_front()
    forcing.emulate_media(color_scheme=scheme, forced_colors="active")
    yield forcing
    forcing.evaluate("localStorage.clear()")
    forcing.mouse.move(-1, -1)


BOTH = pytest.mark.parametrize("scheme", some("forced schemes", ["light", "dark"], ["dark"]))


def ink(page, where) -> float:
    """Return which share of a place differs much from its commonest colour."""
    shot = Image.open(io.BytesIO(where.screenshot())).convert("L")
    counts = shot.getcolors()
    paper = max(counts)[1]
    return sum(count for count, shade in counts if abs(shade - paper) > 40) / sum(
        count for count, _ in counts
    )


@pytest.mark.parametrize(
    ("scheme", "theme"),
    [
        pytest.param(*one.values[0].split("/"), marks=one.marks)
        for one in some(
            "forced themes",
            [
                f"{on}/{by}"
                for on in ("light", "dark")
                for by in ("", "light", "dark", "night", "red")
            ],
            ["light/night", "dark/", "dark/red"],
        )
    ],
)
def test_the_choice_is_seen_in_forced_colours(forced, pages, theme):
    forced.goto(url(pages, "ZZ-WTR/index.html"))
    forced.evaluate("(theme) => theme && (document.documentElement.dataset.theme = theme)", theme)
    unit = forced.locator("input[name=unit]")
    assert ink(forced, unit.nth(0)) > 1.4 * ink(forced, unit.nth(1)) > 0
    forced.locator(".theme summary").click()
    choices = forced.locator("input[name=theme]")
    chosen = [ink(forced, one) for one in choices.all() if one.is_checked()]
    others = [ink(forced, one) for one in choices.all() if not one.is_checked()]
    assert min(chosen) > 1.4 * max(others) > 0


@BOTH
def test_the_number_in_hand_and_its_row_are_outlined_in_forced_colours(forced, pages):
    forced.goto(url(pages, "ZZ-DUA/index.html"))
    forced.locator("#stall td[data-o]").nth(1).hover()
    drawn = forced.evaluate(
        """['.here', '.lit:not(.here)', 'td:not(.lit)'].map((what) => {
          const style = getComputedStyle(document.querySelector(`#stall-table ${what}`));
          return [style.outlineStyle, parseFloat(style.outlineWidth)];
        })"""
    )
    assert drawn == [["solid", 3], ["dashed", 1], ["none", drawn[2][1]]]


@BOTH
def test_drawings_are_in_the_colours_of_the_device(forced, pages):
    forced.goto(url(pages, "ZZ-DUA/index.html"))
    inks = forced.evaluate(
        """() => {
          const probe = document.body.appendChild(document.createElement('i'));
          const one = (name) => ((probe.style.color = name), getComputedStyle(probe).color);
          const system = ['Canvas', 'CanvasText', 'GrayText', 'Highlight'].map(one);
          const paths = [...document.querySelectorAll('.dial path, .chart path')];
          const drawn = paths.flatMap((path) => {
            const { fill, stroke } = getComputedStyle(path);
            return [fill, stroke];
          });
          return [system, [...new Set(drawn)]];
        }"""
    )
    assert set(inks[1]) - {"none"} <= set(inks[0])
    assert len(set(inks[1]) - {"none"}) > 1


# -- on paper -----------------------------------------------------------------------------------


def sheets(page, **paper) -> list[str]:
    """Return what stands on each sheet that a page is printed on."""
    command = ["pdftotext", "-raw", "-", "-"]
    done = subprocess.run(command, input=page.pdf(**paper), capture_output=True, check=True)
    whole = unicodedata.normalize("NFKC", done.stdout.decode())  # ligatures are their letters
    return [re.sub(r"\s+", " ", text) for text in whole.split("\f")[:-1]]


@pytest.mark.parametrize("name", ["index.html", "ZZ-DUB/index.html", "conversions/index.html"])
def test_a_page_prints_on_white_with_its_cautions_on_each_sheet(desk, pages, name):
    desk.goto(url(pages, name))
    desk.evaluate("document.documentElement.dataset.theme = 'night'")
    for text in sheets(desk, format="Letter"):
        for caution in CAUTIONS:
            assert caution in text
        assert "As printed" not in text
        assert "Scroll" not in text
    desk.emulate_media(media="print")
    desk.set_viewport_size({"width": 725, "height": 900})  # a letter sheet between its margins
    assert paper(desk) == "rgb(255, 255, 255)"
    assert desk.evaluate(
        "[...document.querySelectorAll('.frame')].every((f) => f.scrollWidth <= f.clientWidth + 1)"
    )


def state_said(card: Document) -> str:
    state = state_of(card.head, card.marks)
    return "Signed by" if state in VALID else ENGLISH.say(state)


@pytest.mark.parametrize("name", SOME)
def test_an_aircrafts_page_prints_one_leaf_that_leads_to_the_card(desk, pages, documents, name):
    desk.goto(url(pages, name))
    card = documents[name.split("/")[0]]
    for format in ("A4", "Letter"):
        (text,) = sheets(desk, format=format)
        plain = text.replace(" ", "")
        assert state_said(card) in text
        assert f"cards.reedmere.example/{name.split('/')[0]}/card.pdf" in plain
        assert card.marks.card in text
        for table in card.tables:
            stands = table.id in ("speeds", "markings", "altitude-limits")
            assert (ENGLISH.text(table.title).replace(" ", "") in plain) is stands, table.id
        for row in card.table("speeds").rows:
            assert ENGLISH.figure(row.cells[1]) in text


LEAVES = itertools.product(
    ["ZZ-PHN/index.html", "conversions/index.html"], ["A4", "Letter"], ["upright", "landscape"]
)


@pytest.mark.parametrize(
    "leaf",
    some(
        "leaves",
        [" ".join(one) for one in LEAVES],
        [
            "ZZ-PHN/index.html A4 landscape",
            "conversions/index.html Letter upright",
            "conversions/index.html A4 landscape",
        ],
    ),
)
def test_no_printed_sheet_but_the_last_is_mostly_blank(desk, pages, leaf):
    name, format, turned = leaf.split()
    desk.goto(url(pages, name))
    cautions = sum(map(len, CAUTIONS))
    for text in sheets(desk, format=format, landscape=turned == "landscape")[:-1]:
        assert len(text) > cautions + 600, text


@pytest.mark.parametrize("name", ["ZZ-DUA", "ZZ-WHB"])
def test_computed_figures_are_marked_beside_copied_ones(pages, name):
    """Each table's marks against the origins in the document, cell by cell."""
    document = from_json((pages / name / "card.json").read_text("utf-8"), Document)
    text = (pages / name / "index.html").read_text("utf-8")
    mixed = [table for table in document.tables if table.is_mixed]
    assert {"speeds", "stall"} <= {table.id for table in mixed}
    for table in document.tables:
        drawn = re.search(rf'<table [^>]*id="{table.id}-table".*?</table>', text, re.S)[0]
        marked = drawn.count('computed">') + drawn.count("computed ")
        cells = [cell for row in table.rows for cell in row.cells[table.stub :]]
        wanted = sum(cell.is_computed for cell in cells) if table in mixed else 0
        assert marked == wanted, table.id
        section = text[text.index(drawn) : text.index(drawn) + len(drawn) + 4000].split("<section")[
            0
        ]
        assert ("Figures in italics are computed" in section) == (table in mixed), table.id
