"""Whether a card that somebody holds is current: the code on its sheets, and the pages' answers.

Codes are read from pictures of the PDFs by another program than the one that makes them. What was
printed is read from the records of signed cards, what is now from the page's own JSON.
"""

import json
import re
import subprocess
from dataclasses import replace
from itertools import groupby
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

from cardgen.layout.code import Code, address_of, code_of, modules
from cardgen.words.english import ENGLISH
from tests.browsing import PHONE
from tests.conftest import DEMO

SITE = "https://cards.reedmere.example"  # in the demo's school.yaml
# A card of the demo that was signed more than once: as it was first, and as it is.
RECORD = next(one for one in DEMO.glob("signed/*") if len([*one.iterdir()]) > 1)
SIGNED = RECORD.name
OLD, *_, NOW = sorted(path.stem for path in RECORD.iterdir())


def stated(date: str, what: str) -> str:
    (found,) = re.findall(rf"(?m)^{what}: (.+)$", (RECORD / f"{date}.txt").read_text())
    return found


def mark_of(pages: Path, name: str) -> str:
    return json.loads((pages / name / "card.json").read_text())["marks"]["card"]


# -- the code


@pytest.fixture
def card(documents):
    return documents["ZZ-DUA"]


def at(card, address: str):
    school = replace(card.head.school, web_address=address)
    return replace(card, head=replace(card.head, school=school))


@pytest.mark.xdist_group("print")
@pytest.mark.parametrize("file", ["card.pdf", "pocket.pdf"])
def test_each_sheet_has_a_code_that_leads_to_the_page(built, tmp_path, file):
    path = built / "ZZ-DUA" / file
    subprocess.run(["pdftoppm", "-r", "150", "-gray", path, tmp_path / "sheet"], check=True)
    found = [
        [code.text for code in zxingcpp.read_barcodes(Image.open(picture))]
        for picture in sorted(tmp_path.glob("sheet*"))
    ]
    assert len(found) > 1
    assert found == [[f"{SITE}/ZZ-DUA/#card={mark_of(built, 'ZZ-DUA')}"]] * len(found)


def test_a_module_is_wide_enough_and_four_are_clear_around(card):
    code = code_of(card)
    assert code is not None
    count = len(modules(address_of(card)))
    assert code.side / count >= 0.33
    assert code.clear / (code.side / count) == pytest.approx(4)


def test_a_longer_address_has_more_room(card):
    long = code_of(at(card, f"https://{'cards.' * 12}example"))
    assert long is not None
    assert long.side > (code_of(card) or Code(0.0)).side


@pytest.mark.parametrize(
    "address",
    ["", "ask at the desk", "n/a", "N.A.", "https://", "cards.example/?all", "me@cards.example"],
)
def test_without_an_address_there_is_no_code(card, address):
    assert code_of(at(card, address)) is None


@pytest.mark.parametrize(
    ("address", "site"),
    [
        ("cards.example/our fleet/", ""),
        ("https://flüge.example/über", "https://xn--flge-1ra.example/%C3%BCber"),
        ("cards.example/a%20b/index.html", "https://cards.example/a%20b"),
        ("http://hangar:8080/cards//", "http://hangar:8080/cards"),
    ],
)
def test_an_address_has_no_letter_that_a_reader_may_take_for_another(card, address, site):
    """Letters beyond ASCII as RFC 3492 and RFC 3986 write them, both worked by hand."""
    assert address_of(at(card, address)).partition("/ZZ-DUA/")[0] == site


def test_an_address_as_one_types_it_gets_what_a_telephone_needs(card):
    assert address_of(at(card, "cards.example/fleet/")).startswith(
        "https://cards.example/fleet/ZZ-DUA/#card="
    )


# -- the aircraft's page


def answered(page, pages: Path, name: str, asked: str) -> str:
    page.goto("about:blank")
    page.goto(f"{(pages / name / 'index.html').as_uri()}{asked}")
    return page.locator(".current").inner_text()


@pytest.mark.xdist_group("browser current")
def test_a_page_says_whether_its_card_is_current(desk, pages):
    answered(desk, pages, SIGNED, "")
    assert desk.locator(".current").is_hidden()
    desk.clock.set_fixed_time("2027-01-01")
    assert stated(NOW, "card") == mark_of(pages, SIGNED)
    said = answered(desk, pages, SIGNED, f"#card={stated(NOW, 'card')}")
    assert said.startswith(ENGLISH.say("current"))
    said = answered(desk, pages, SIGNED, "#card=<b>1</b>")
    assert said.startswith(ENGLISH.say("current-unknown"))
    assert desk.locator(".current b").count() == 0
    said = answered(desk, pages, "ZZ-DUA", f"#card={mark_of(pages, 'ZZ-DUA')}")
    assert said.startswith(ENGLISH.say("current-not"))
    desk.clock.set_fixed_time("2028-03-03")  # two years on, as school.yaml has it
    said = answered(desk, pages, SIGNED, f"#card={stated(NOW, 'card')}")
    assert said.startswith(ENGLISH.say("current-lapsed"))
    desk.evaluate(f"location.hash = 'card={stated(OLD, 'card').lower()}'")
    desk.locator(".current table").wait_for()
    assert desk.locator(".current").inner_text().startswith(ENGLISH.say("current-superseded"))


@pytest.mark.xdist_group("browser current")
def test_a_superseded_card_is_told_what_is_printed_now(phone, pages):
    asked = f"#card={stated(OLD, 'card')}"
    assert answered(phone, pages, SIGNED, asked).startswith(ENGLISH.say("current-superseded"))
    lines = phone.locator(".current table:visible tbody tr")
    said = [
        (row.locator("td").nth(0).inner_text(), row.locator("td").nth(1).inner_text())
        for row in lines.all()
    ]
    wanted, many = changed(*(printed(RECORD / f"{date}.txt") for date in (OLD, NOW)))
    assert [plain(one) for one in said] == [plain(one) for one in wanted]
    assert many
    for count in many:
        assert ENGLISH.say("current-much", count=f"{count}") in lines.locator("..").inner_text()
    width = phone.evaluate("document.documentElement.scrollWidth")
    assert width <= PHONE["width"]


def changed(old: dict[str, str], new: dict[str, str]) -> tuple[list[tuple[str, str]], list[int]]:
    """What is printed otherwise: of a table with more than 20 such figures the greatest change.

    Behind it, how many figures each such table has.
    """
    names = [name for name, text in new.items() if old.get(name) != text]
    wanted, many = [], []
    for _, group in groupby(names, lambda name: name.split("/")[0]):
        of_table = list(group)
        if len(of_table) > 20:
            many.append(len(of_table))
            of_table = [max(of_table, key=lambda name: part_changed(old.get(name, ""), new[name]))]
        wanted += [(old.get(name, ""), new[name]) for name in of_table]
    return wanted, many


def part_changed(old: str, new: str) -> float:
    found = [re.match(r"\(?([\d.]+)", text) for text in (old, new)]
    if None in found:
        return 0.0
    was, now = (float(one[1]) for one in found)
    return abs(now - was) / max(was, 1e-6)


def printed(path: Path) -> dict[str, str]:
    """The figures of cells by identifier, as a record has them."""
    lines = [line.partition(": ")[::2] for line in path.read_text().splitlines()]
    return {
        name: text
        for name, text in lines
        if "/" in name and not name.startswith(("head/", "given/"))
    }


def plain(sides: tuple[str, str]) -> list[str]:
    """What stands on both sides, nothing by no word, and without the units' signs."""
    nothing = ENGLISH.say("compare-nothing")
    signs = re.compile("°|deg| ")
    return ["" if one == nothing else signs.sub("", one) for one in sides]


# -- the fleet's page


@pytest.mark.xdist_group("browser current")
def test_a_mark_that_is_typed_is_answered_for_the_whole_fleet(desk, pages):
    desk.goto((pages / "index.html").as_uri())
    desk.clock.set_fixed_time("2027-01-01")
    box, said = desk.locator(".asked input"), desk.locator(".asked [role=status]")
    now, old = stated(NOW, "card"), stated(OLD, "card")
    for typed in (now, now.lower(), now.replace("-", ""), f" {now.replace('-', ' ')} "):
        box.fill(typed)
        assert said.inner_text() == f"{ENGLISH.say('asked-current')} {SIGNED}"
    box.fill(old)
    assert said.inner_text() == f"{ENGLISH.say('asked-superseded')} {SIGNED}"
    assert said.locator("a:visible").get_attribute("href") == f"{SIGNED}/index.html#card={old}"
    box.fill(mark_of(pages, "ZZ-DUA"))
    assert said.inner_text() == f"{ENGLISH.say('asked-not')} ZZ-DUA"
    box.fill("0000-000Z")
    assert said.inner_text() == ENGLISH.say("asked-unknown")
    box.fill(now[:6])
    assert said.inner_text() == ENGLISH.say("asked-short")
    box.fill("")
    assert said.inner_text() == ""


@pytest.mark.parametrize(
    ("name", "said", "not_said"),
    [
        ("ZZ-PHN", "Print it again.", "No card of this aircraft is signed"),
        ("ZZ-DUB", "No card of this aircraft is signed as it is now", "Print it again."),
    ],
)
def test_a_superseded_card_is_printed_again_only_where_the_new_one_is_signed(
    pages, name, said, not_said
):
    text = (pages / name / "index.html").read_text("utf-8")
    (answer,) = re.findall(r"<strong>This card is superseded.*?</p>", text)[:1]
    assert said in answer
    assert not_said not in answer
