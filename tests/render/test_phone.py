"""A page made for a thumb, at 360 x 680: what is looked for, and how far away it is."""

import pytest

pytestmark = pytest.mark.xdist_group("browser phone")

WIDTH, HEIGHT = 360, 680
AIRCRAFT = ["ZZ-TUA", "ZZ-WHB", "ZZ-WTR"]  # the most limits, a bench card, a glider


@pytest.fixture
def small(browser):
    with browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}, has_touch=True) as made:
        yield made.new_page()


def bottom(page, row: str) -> float:
    """Where the row of a speed that begins so ends, in the window."""
    return page.evaluate(
        """(name) => [...document.querySelectorAll('#speeds-table tbody tr')]
          .find((row) => row.cells[0].textContent === name).getBoundingClientRect().bottom""",
        row,
    )


def in_view(page, locator) -> bool:
    """Whether something stands in the window, above the bar."""
    at, bar = locator.bounding_box(), page.locator(".bar").bounding_box()
    return at is not None and at["y"] >= 0 and at["y"] + at["height"] <= bar["y"]


def swipe(page) -> None:
    page.mouse.wheel(0, HEIGHT - 120)
    page.wait_for_timeout(120)


def test_from_the_index_vne_is_one_tap_away(small, pages):
    small.goto((pages / "index.html").as_uri())
    small.get_by_role("link", name="ZZ-TUA", exact=True).tap()
    small.wait_for_url("**/ZZ-TUA/index.html")
    assert bottom(small, "VNE") < HEIGHT - 60


@pytest.mark.parametrize(
    ("name", "speeds"),
    [("ZZ-TUA", ["VNE", "VNO", "VMC", "VS1", "VS0"]), ("ZZ-WHB", ["VNE", "VNO", "VS1", "VS0"])],
)
def test_what_bounds_a_flight_stands_in_the_first_screen_and_a_half(small, pages, name, speeds):
    small.goto((pages / name / "index.html").as_uri())
    for speed in speeds:
        assert bottom(small, speed) <= 1.5 * HEIGHT, speed


@pytest.mark.parametrize("name", [*AIRCRAFT, "ZZ-DUB"])  # and one that has changed since
def test_a_page_of_closed_folds_is_under_five_screens(small, pages, name):
    small.goto((pages / name / "index.html").as_uri())
    assert small.locator("section.folded").count() > 12
    assert small.evaluate("document.documentElement.scrollHeight") < 5 * HEIGHT
    assert small.evaluate("document.documentElement.scrollWidth") == WIDTH


def test_a_stall_speed_by_weight_flaps_and_bank_is_two_taps_and_a_swipe_away(small, pages):
    small.goto((pages / "ZZ-TUA/index.html").as_uri())
    small.locator(".bar").get_by_role("link", name="Stall").tap()
    small.locator("#stall .blocks button", has_text="35").tap()
    row = small.locator("#stall tbody:not(.off) tr:not(.block)").last
    if not in_view(small, row):
        swipe(small)
    assert in_view(small, row)
    assert small.locator("#stall tbody:visible").count() == 1


def test_a_true_airspeed_is_two_taps_and_a_swipe_away(small, pages):
    small.goto((pages / "ZZ-DUA/index.html").as_uri())
    small.locator(".bar").get_by_role("link", name="TAS").tap()
    small.locator("#true-airspeed .blocks button").last.tap()
    row = small.locator("#true-airspeed tbody:not(.off) tr:not(.block)").last
    if not in_view(small, row):
        swipe(small)
    assert in_view(small, row)


def test_a_manual_page_is_a_tap_away(small, pages):
    small.goto((pages / "ZZ-TUA/index.html").as_uri())
    small.locator("#speeds-table td[data-o]").first.tap()
    said = small.locator("#origin")
    assert "page 2-3" in said.inner_text()
    assert in_view(small, said)


def test_what_was_opened_is_open_the_next_time_and_links_open_what_they_lead_to(small, pages):
    small.goto((pages / "ZZ-DUA/index.html").as_uri())
    small.locator(".bar").get_by_role("link", name="Stall").tap()
    assert "folded" not in small.locator("#stall").get_attribute("class")
    small.goto((pages / "ZZ-DUB/index.html").as_uri())
    assert small.locator("#stall-table").is_visible()
    small.locator("#stall button.fold").tap()
    assert "folded" in small.locator("#stall").get_attribute("class")
    small.goto((pages / "ZZ-DUA/index.html").as_uri() + "#glide")
    assert "folded" in small.locator("#stall").get_attribute("class")
    assert small.locator("#glide button.fold").get_attribute("aria-expanded") == "true"


def test_any_table_is_found_by_typing_its_name(small, pages):
    small.goto((pages / "ZZ-DUA/index.html").as_uri())
    box = small.get_by_role("searchbox", name="Find a table")
    box.fill("cross")
    shown = small.locator(".tables > section[id]:visible h2").all_inner_texts()
    assert len(shown) == 2
    assert all("rosswind" in one for one in shown)
    box.press("Enter")
    assert "folded" not in small.locator("#crosswind").get_attribute("class")
    box.fill("no such table")
    assert small.locator(".tables-finder [role=status]").inner_text() == "No table of that name."


def test_a_search_in_the_page_opens_the_fold_that_has_it(small, pages):
    small.goto((pages / "ZZ-DUA/index.html").as_uri())
    small.evaluate(
        "document.querySelector('#glide .frame')"
        ".dispatchEvent(new Event('beforematch', { bubbles: true }))"
    )
    assert "folded" not in small.locator("#glide").get_attribute("class")


def test_a_desk_shows_all_tables_and_no_bar(desk, pages):
    desk.goto((pages / "ZZ-DUA/index.html").as_uri())
    assert desk.locator("section.folded").count() == 0
    assert not desk.locator(".bar").is_visible()
