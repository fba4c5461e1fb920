"""The panel as a visitor uses it: by typing, by an address, by ear, on paper, without a network."""

import functools
import http.server
import io
import re
import threading

import pdfplumber
import pytest
from playwright.sync_api import Page

from cardgen.document.rounding import kept
from cardgen.lessons.lines import limit_passed
from cardgen.lessons.reckoning import Case, reckon
from cardgen.render.reckoning import WORDINGS
from cardgen.units import to_si
from cardgen.words.english import ENGLISH
from tests.conftest import ROOT

pytestmark = pytest.mark.xdist_group("browser panel")

CASE = (
    "known=tas&speed=140&flaps=0&gear=up&source=normal&height=altimeter&altitude=5500&setting=30.10"
    "&warmth=oat&temperature=12&from=240&wind=18&course=280&weight=2600&bank=30"
)


def opened(page, pages, name="ZZ-WHB", address=""):
    page.goto((pages / name / "index.html").as_uri() + address)
    return page.locator("#reckon")


def fill(field, value):
    """Type, and wait for what follows a key when no other does."""
    field.fill(value)
    field.page.evaluate("new Promise((done) => setTimeout(done, 100))")


def test_an_address_brings_its_case_and_the_whole_chain(desk, pages, documents):
    from cardgen.lessons.altimeter import Altimeter

    box = opened(desk, pages, address=f"#reckon?{CASE}")
    altimeter = Altimeter(5500.0, float(to_si(30.10, "inHg")))
    case = Case(
        "tas", 140.0, "0", oat=12.0, wind=(240.0, 18.0), course=280.0, gear="up",
        altimeter=altimeter, weight=2600.0, bank=30.0,
    )  # fmt: skip
    worked = reckon(documents["ZZ-WHB"], case)
    said = box.locator(".way li.speed b").all_inner_texts()
    names = ("indicated", "calibrated", "equivalent", "true")
    wanted = [worked.values[f"{name}_airspeed"] for name in names] + [worked.values["ground_speed"]]
    assert said == [f"{kept(value):.1f}" for value in wanted]
    steps = box.locator(".working").inner_text()
    for step in (*worked.steps, *worked.stall):
        assert ENGLISH.text(step.working) in steps.replace("\n", " ") or not step.working
    assert f"{worked.values['density_altitude']:.0f} ft" in steps
    limits = box.locator(".limits").inner_text()
    for one in worked.passed:
        assert limit_passed(ENGLISH, one) in limits
    assert "verify against the approved flight manual" in box.inner_text()


def test_what_is_typed_stands_in_the_address_and_moves_the_pointer(desk, pages):
    box = opened(desk, pages, "ZZ-DUC")
    turned = "document.querySelector('.face .dial .case').getAttribute('transform')"
    before = desk.evaluate(turned), box.locator("p.arc").inner_text()
    assert "?" not in desk.url  # the usual case needs no address
    fill(box.locator("input[name=speed]"), "140")
    assert "speed=140" in desk.url
    after = desk.evaluate(turned), box.locator("p.arc").inner_text()
    assert before[0] != after[0]
    assert "green" in before[1]
    assert "yellow" in after[1]  # 127 to 151 kt
    again = desk.url
    desk.goto("about:blank")
    desk.goto(again)
    assert box.locator("input[name=speed]").input_value() == "140"
    fill(box.locator("input[name=speed]"), "152")
    assert "above the red line" in box.locator("p.arc").inner_text()
    assert "Above VNE, 151 kt" in box.locator(".limits .beyond").inner_text()


def test_the_charts_show_the_point_where_the_case_stands(desk, pages):
    """At no wind and standard air the point of TAS lies left of it in warm air."""
    box = opened(desk, pages, "ZZ-DUC", "#reckon?known=ias&speed=100&altitude=6000&temperature=0")
    place = "document.querySelector('svg.tas .case').getAttribute('d').match(/M([\\d.]+)/)[1]"
    cold = float(desk.evaluate(place))
    fill(box.locator("input[name=temperature]"), "20")
    assert float(desk.evaluate(place)) > cold + 1
    assert desk.locator("svg.calibration .case").count() == 1
    fill(box.locator("input[name=altitude]"), "40000")  # above the chart
    assert desk.locator("svg.tas .case").count() == 0


def test_what_is_no_number_or_means_nothing_is_said_and_nothing_old_stands(desk, pages):
    box = opened(desk, pages, "ZZ-DUC")
    for name, value, said in (
        ("bank", "95", "Bank is no number that can be"),
        ("speed", "", "Airspeed is no number that can be"),
        ("altitude", "99999", "outside the standard atmosphere"),
    ):
        field = box.locator(f"input[name={name}]")
        old = field.input_value()
        field.fill(value)
        assert said in box.locator(".told").inner_text()
        assert box.locator(".way li").count() == 0
        field.fill(old)
        assert box.locator(".way li").count() > 5


def test_the_case_reads_as_one_sentence(desk, pages):
    box = opened(desk, pages, "ZZ-DUC", "#reckon?known=ias&speed=90&altitude=6000")
    said = desk.get_by_role("status").filter(has_text="IAS").inner_text()
    assert re.fullmatch(
        r"An IAS of 90 kt is a CAS of \d+ kt, and a TAS of \d+ kt at 6000 ft, which leaves \d+ kt "
        r"over the ground on a heading of \d{3}°; it passes no limit; the stall is at \d+ kt\.",
        said,
    )
    assert box.locator("input, select").count() == desk.evaluate(
        "[...document.querySelectorAll('#reckon :is(input, select)')]"
        ".filter((one) => one.labels.length).length"
    )


def test_too_slow_or_too_heavy_stands_out_and_no_limit_is_claimed_to_hold(desk, pages):
    address = "#reckon?known=ias&speed=61&flaps=10&altitude=2000&weight=4000"
    box = opened(desk, pages, "ZZ-TUA", address)
    said = box.locator(".told .care").all_inner_texts()
    assert [one.split(":")[0] for one in said if "62" in one or "3900" in one] == [
        "Below VMC, 62 kt",
        "Above the maximum weight, 3900 lb",
    ]
    spoken = desk.get_by_role("status").filter(has_text="IAS").inner_text()
    assert "no limit" not in spoken


def test_a_case_prints_on_one_sheet(desk, pages):
    opened(desk, pages, address=f"#reckon?{CASE}")
    desk.evaluate("window.print = () => {}")
    for format in ("A4", "Letter"):
        desk.locator("#reckon [name=print]").click()  # a page that was printed is as before
        with pdfplumber.open(io.BytesIO(desk.pdf(format=format))) as pdf:
            (sheet,) = pdf.pages
            text = sheet.extract_text()
        assert "ZZ-WHB" in text
        assert "Reference only: verify against the approved flight manual" in text
        assert "Density altitude" in text
        assert "140.0" in text
        assert "Indicator markings" not in text
    desk.evaluate("dispatchEvent(new Event('afterprint'))")
    assert "one-case" not in (desk.evaluate("document.documentElement.className"))


def test_without_scripts_there_is_no_panel_and_all_tables_stand_open(browser, pages):
    with browser.new_context(
        java_script_enabled=False, viewport={"width": 360, "height": 680}
    ) as c:
        page = c.new_page()
        page.goto((pages / "ZZ-DUC/index.html").as_uri())
        assert not page.locator("#reckon").is_visible()
        assert not page.locator(".bar .reckon").is_visible()
        for table in page.locator("table.figures").all():
            assert table.is_visible()


def test_every_wording_that_the_script_asks_for_is_carried():
    script = "".join((ROOT / "templates" / name).read_text() for name in ("panel.js", "reckon.js"))
    asked = set(re.findall(r'(?:say|message|tell|then)\("([a-z][\w-]+)"', script))
    asked |= set(re.findall(r'id: "([a-z]+-[\w-]+)"', script))
    formulas = set(re.findall(r'"((?:[a-z]+-)?(?:airspeed|components|correction|speed))"', script))
    asked |= {f"formula-{one}" for one in formulas if f"formula-{one}" in ENGLISH.wordings}
    assert len(asked) > 50
    assert {one for one in asked if one in ENGLISH.wordings} <= set(WORDINGS)
    assert {one for one in asked if one not in ENGLISH.wordings} <= {
        "step-setting",
        "isa-deviation",
    }
    assert not [one for one in WORDINGS if "[" in ENGLISH.wordings[one]]


def until(page: Page, said: str) -> None:
    """Wait until something is so of a page, whose policy bars waiting by a text of code."""
    while not page.evaluate(said):
        page.wait_for_timeout(20)


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *said: object) -> None:
        pass


def test_a_served_page_stands_when_the_network_is_gone_and_can_be_installed(browser, pages):
    """By the browser's own criteria, but that a test's visitor is a private one."""
    handler = functools.partial(Quiet, directory=str(pages))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        with browser.new_context() as context:
            page = context.new_page()
            site = f"http://127.0.0.1:{server.server_port}"
            page.goto(f"{site}/ZZ-DUC/index.html")
            page.evaluate("navigator.serviceWorker.ready.then(() => true)")
            kept = (
                "caches.keys().then((all) => all.length && caches.match('../assets/folds.js'))"
                ".then((one) => !!one && caches.match('../index.html')).then((one) => !!one)"
            )
            until(page, kept)
            session = context.new_cdp_session(page)
            told = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
            assert [one["errorId"] for one in told] in ([], ["in-incognito"])
            server.shutdown()
            server.server_close()
            page.reload()
            assert page.locator("#reckon .way li").count() > 5
            page.goto(f"{site}/index.html")
            assert page.locator(".fleet").is_visible()


def test_a_page_opened_as_a_file_registers_nothing(visit):
    found = visit("ZZ-WTR/index.html")
    assert found.page.locator("link[rel=manifest]").count() == 0
    assert not [one for one in found.asked if "worker" in one or "manifest" in one]
    assert found.wrong == ()
    assert found.page.locator("#reckon .way li").count() > 5
