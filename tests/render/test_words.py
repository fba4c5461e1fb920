"""What templates are given, and that all a page says is put into words in one place."""

import json
import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from html.parser import HTMLParser
from pathlib import Path
from types import NoneType

import pytest
from markupsafe import Markup

from cardgen.cards.card import make_document, reference_document
from cardgen.cards.head import pairs_of
from cardgen.definition.speeds import SPEEDS
from cardgen.document import record
from cardgen.document.record import (
    Cell,
    Document,
    Entered,
    Gap,
    Head,
    Index,
    LeftOut,
    Message,
    Quantity,
    Reference,
    Shared,
    Unit,
)
from cardgen.document.signature import valid_to
from cardgen.document.teaching import Teaching
from cardgen.document.transition import Transition
from cardgen.lessons.teaching.page import teaching
from cardgen.lessons.transition.sheet import transition
from cardgen.lessons.transition.traits import traits
from cardgen.publish.making import index_of, listed_of
from cardgen.render import page
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.units import UNITS
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language
from cardgen.words.numbers import symbol
from tests.render.conftest import REGISTRATIONS, sized

pytestmark = pytest.mark.xdist_group("browser words")

SOME = ["ZZ-DUA", "ZZ-PHN", "ZZ-WTR"]
NEXT = "next/ZZ-WTR/ZZ-PHN/index.html"
TAUGHT = [f"{name}/{page.TEACHING}" for name in SOME]
LETTERS = set("pqctsaiMRTwΔγραδ") | {"sin", "cos"}  # of formulas, in any language
COMMON = ["index.html", "conversions/index.html", "formulas.html", "glossary.html", "keys.html"]
ANY = "next/index.html"
WORDS = ("words.js", "next-words.js")  # scripts of wordings
COMMON += [NEXT, ANY]


# -- what templates are given -------------------------------------------------------------------


@pytest.fixture(scope="module")
def reference(fleet) -> Reference:
    return reference_document(fleet.school)


@pytest.fixture(scope="module")
def index(fleet, documents) -> Index:
    listed = [listed_of(one) for name, one in documents.items() if name != "ZZ-DUB"]
    return index_of(fleet.school, listed, [LeftOut("ZZ-DUB")], pairs_of(fleet.school))


@pytest.fixture(scope="module")
def onward(documents) -> Transition:
    return transition(documents["ZZ-WTR"], documents["ZZ-PHN"])


@pytest.fixture(scope="module")
def drawn(documents, shared, index, reference, onward) -> tuple[dict[str, str], list[object]]:
    """Every page, drawn from documents that were read back, and all that templates were given."""
    given: list[object] = []
    render = Templates.render

    def watched(self, name, **values):
        given.append(values)
        return render(self, name, **values)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Templates, "render", watched)
        for name in page.ASSETS:
            Templates().render(name)
        drawn = {name: page.aircraft_page(Templates(), card) for name, card in documents.items()}
        drawn["conversions"] = page.conversions_page(Templates(), shared)
        page.fleet_page(Templates(), index)
        page.formulas_page(Templates(), reference)
        page.glossary_page(Templates(), reference)
        page.keys_page(Templates(), reference)
        page.next_page(Templates(), onward)
        for name in SOME:
            page.teaching_page(Templates(), documents[name], teaching(documents[name]))
        page.any_two_page(Templates(), index)
        page.left_out_page(Templates(), shared.school, documents["ZZ-WTR"].head.pairs[0])
    return drawn, given


def test_templates_are_given_nothing_but_what_documents_are_made_of(drawn):
    _, given = drawn
    kinds = {type(one) for one in walked(given)}
    plain = {str, Markup, int, float, bool, NoneType, dict, list, tuple, set}
    others = {one for one in kinds if one not in plain}
    assert {Document, Shared, Index, Reference, Head, Cell, Quantity} <= others
    of_documents = {record.__name__, Transition.__module__, Teaching.__module__}
    assert all(one.__module__ in of_documents for one in others), others


def walked(given: list[object]) -> Iterator[object]:
    """Yield all that there is in values, each once, however often templates were given it."""
    waiting, seen = [*given], set()
    while waiting:
        value = waiting.pop()
        if id(value) in seen:
            continue
        seen.add(id(value))
        yield value
        if is_dataclass(value):
            waiting += [getattr(value, field.name) for field in fields(value)]
        elif isinstance(value, dict):
            waiting += [*value.keys(), *value.values()]
        elif isinstance(value, list | tuple | set):
            waiting += value


@pytest.mark.parametrize("name", [*REGISTRATIONS, "conversions"])
def test_a_document_read_back_gives_the_very_page_of_the_build(pages, drawn, name):
    assert drawn[0][name] == (pages / name / "index.html").read_text("utf-8")


# -- a made-up language -------------------------------------------------------------------------

_BLANK = re.compile(r"(\{\w+(?::\w+)?\})|\[([^\]]+)\](?:\(([^)]+)\))?")


def made_up(wording: str) -> str:
    """Return a wording with its words a third longer, in marks all around its blanks."""
    parts, end = [], 0
    for found in _BLANK.finditer(wording):
        parts.append(in_marks(wording[end : found.start()]))
        blank, text, term = found.groups()
        parts.append(blank or f"[{in_marks(text)}]({term or text})")
        end = found.end()
    return "".join([*parts, in_marks(wording[end:])])


def in_marks(text: str) -> str:
    longer = re.sub(r"\w+", lambda word: word[0] + "ō" * math.ceil(len(word[0]) / 3), text)
    return f"⟦{longer}⟧" if re.search(r"\w", text) else text


MADE_UP = Language("x-long", {name: made_up(said) for name, said in ENGLISH.wordings.items()})


@pytest.fixture(scope="module")
def elsewhere(documents, shared, index, reference, onward, tmp_path_factory) -> Path:
    """Pages in the made-up language."""
    site = tmp_path_factory.mktemp("made-up")
    templates = Templates(language=MADE_UP)
    made = {
        **{f"{name}/index.html": page.aircraft_page(templates, documents[name]) for name in SOME},
        **{f"{name}/case.js": page.case_data(MADE_UP, documents[name]) for name in SOME},
        **{
            f"{name}/{page.TEACHING}": page.teaching_page(
                templates, documents[name], teaching(documents[name])
            )
            for name in SOME
        },
        "index.html": page.fleet_page(templates, index),
        "conversions/index.html": page.conversions_page(templates, shared),
        "formulas.html": page.formulas_page(templates, reference),
        "glossary.html": page.glossary_page(templates, reference),
        "keys.html": page.keys_page(templates, reference),
        NEXT: page.next_page(templates, onward),
        ANY: page.any_two_page(templates, index),
        **{f"{name}/traits.js": page.traits_data(traits(documents[name])) for name in SOME},
        **{f"assets/{name}": templates.render(name) for name in page.ASSETS},
    }
    for name, text in made.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text, "utf-8")
    return site


class Said(HTMLParser):
    """What a page says, to the eye, to the ear, and by its script."""

    SPOKEN = ("aria-label", "alt", "title", "content", "data-back", "data-none", "data-all")
    WRITTEN = (
        "figures",
        "n",
        "small",
        "blanks",
        "converted",
        "beside",
        "was",
        "both",
        "found",
        "rest",
        "names",
    )

    def __init__(self, text: str) -> None:
        super().__init__()
        self.said: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        for name, value in attrs:
            if name in self.SPOKEN and tag != "meta":
                self.said.append(value)
            elif name.removeprefix("data-") in self.WRITTEN and name.startswith("data-"):
                self.said += strings(json.loads(value))

    def handle_data(self, data):
        self.said.append(data)


def strings(value: object) -> Iterator[str]:
    """Yield the words of a script's data, not the keys and units that it is written in."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        yield from (inner for one in value for inner in strings(one))
    elif isinstance(value, dict):
        for name, one in value.items():
            if name not in ("hows", "form"):
                yield from strings(one)


def unmarked(text: str) -> set[str]:
    """Return the words that stand outside of marks."""
    return set(re.findall(r"[^\W\d_]\w*", re.sub("⟦[^⟧]*⟧", " ", text)))


def entered(value: object) -> Iterator[str]:
    """Yield the words of a document that were entered, and units."""
    match value:
        case Message():
            yield from entered(list(value.values.values()))
        case str():
            yield value
        case Quantity() | Unit():
            unit = value.unit if isinstance(value, Quantity) else value.symbol
            said = value.entered if isinstance(value, Quantity) else ""  # such as 70 to 80
            yield f"{said} {unit} {symbol(unit)}"
        case Cell():
            yield from entered([value.said, value.quantity, value.origin, value.beside])
        case Entered():
            yield value.page
        case Gap():
            yield from entered([value.title, value.missing])
        case record.Computed():
            yield from entered([one.value for one in value.inputs])
        case record.Column():
            yield from entered([value.heading, value.group, value.unit])
        case record.Table():
            yield from entered([value.title, value.how, *value.notes, value.example])
            yield from entered(
                [*value.columns, *value.rows, *(one.heading for one in value.blocks)]
            )
        case record.Row():
            yield from entered(list(value.cells))
        case record.Paper():
            yield from (value.title, value.number, value.revision)
        case record.School():
            yield from (value.name, value.notice)
        case Head():
            yield from (value.registration, value.type, value.serial, *value.remarks)
            yield from (name for pair in value.pairs for name in (pair.first, pair.second))
            yield from entered([*value.papers, value.school, value.indicator_unit])
            yield from entered([*value.signatures, *value.signed])
        case record.Signature() | record.SignedState():
            yield from (value.by, value.role, value.date, value.figures, value.card)
        case Document():
            yield valid_to(value.head, value.marks)
            yield from entered([value.head, *value.tables, *value.gaps, *value.basis.flaps])
        case Transition():
            yield from entered(value.school)
            for one in (value.first, value.second):
                yield from (one.registration, one.type, one.mark, one.indicator_unit, *one.remarks)
            yield from entered([one.said for one in value.told])
            lines = [line for beside in value.beside for line in beside.lines]
            yield from entered([each for line in lines for each in (line.name, line.first)])
            yield from entered([each for line in lines for each in (line.second, line.more)])
        case Shared():
            yield from entered([value.school, *value.tables])
        case Index():
            yield from entered(value.school)
            yield from (one.registration for one in value.left_out)
            yield from (name for pair in value.pairs for name in (pair.first, pair.second))
            for one in value.aircraft:
                yield from (one.registration, one.type, one.marks.card, one.valid_to)
                yield from entered([one.manual, *one.signatures])
        case Reference():
            yield from entered([value.school, *(group for _, keys in value.keys for group in keys)])
        case record.DefinitionGroup():
            yield from entered([value.meaning, *value.under, *value.keys])
        case record.DefinitionKey():
            yield from entered([value.name, value.meaning, value.example, value.unit, *value.forms])
        case list() | tuple():
            yield from (inner for one in value for inner in entered(one))


def symbols() -> set[str]:
    names = {word for name in SPEEDS if name.isupper() for word in unmarked(name)}
    return names | {word for unit in UNITS for word in unmarked(f"{unit} {symbol(unit)}")}


@pytest.mark.parametrize("name", [*COMMON, *(f"{one}/index.html" for one in SOME), *TAUGHT])
def test_no_word_of_a_page_is_its_templates_own(
    elsewhere, documents, shared, index, reference, onward, name
):
    """What is not in marks was entered, or is a symbol of a speed or a unit."""
    known: object = documents.get(name.split("/")[0])
    if known is None:
        others = {"index.html": index, "conversions/index.html": shared, NEXT: onward, ANY: index}
        known = others.get(name, reference)
    allowed = {word for said in entered(known) for word in unmarked(said)} | symbols()
    if isinstance(known, Document):
        allowed |= unmarked(known.marks.card) | unmarked(known.marks.figures)
        allowed |= unmarked(page.card_address(known.head))
    if name in TAUGHT:
        allowed |= LETTERS
    said = Said((elsewhere / name).read_text("utf-8")).said
    assert any("⟦" in one for one in said)
    assert {word for one in said for word in unmarked(one)} - allowed == set()


def test_every_wording_can_be_made_up(documents):
    """The test above sees what it should: English has no marks at all."""
    card = documents["ZZ-DUA"]
    allowed = {word for said in entered(card) for word in unmarked(said)} | symbols()
    plain = Said(page.aircraft_page(Templates(), card)).said
    assert {"Airspeeds", "Computed", "Skip", "Converted"} <= {
        word for one in plain for word in unmarked(one)
    } - allowed


@pytest.mark.parametrize("name", [*COMMON, *(f"{one}/index.html" for one in SOME), *TAUGHT])
def test_longer_words_do_not_make_a_page_wider(desk, elsewhere, name):
    desk.goto((elsewhere / name).as_uri())
    for width in (360, 1440):
        sized(desk, width)
        assert desk.evaluate("document.documentElement.scrollWidth") <= width, width


def test_what_the_script_says_is_put_into_words_too(desk, elsewhere):
    desk.goto((elsewhere / "ZZ-DUA" / "index.html").as_uri())
    desk.locator('input[name=unit][value="km/h"]').check()
    desk.locator("#stall td[data-o]").nth(1).hover()  # CAS: what the indicator shows stays
    said = desk.locator("#origin").inner_text()
    assert said.startswith("⟦Printedōō")
    assert unmarked(said) <= {"kt", "mph", "Pilot", "s", "operating", "handbook", "DN160", "H"}
    for mark in desk.locator(".converted").all_inner_texts():
        assert unmarked(mark) <= {"km", "h"}
    desk.goto((elsewhere / "index.html").as_uri())
    status = desk.locator(".finder [role=status]")
    desk.locator("input[name=find]").fill("DUA")
    assert unmarked(status.inner_text()) == set()
    assert "⟦" in status.inner_text()
    desk.locator("input[name=find]").fill("no such aircraft")
    assert status.inner_text().startswith("⟦None")


def blanked(said: Iterable[str]) -> list[str]:
    """Return wordings without the names of their blanks."""
    return [re.sub(r"\{\w+(:\w+)?\}", "", one) for one in said]


def test_a_case_is_put_into_words_too(desk, elsewhere, documents):
    card = documents["ZZ-DUA"]
    allowed = {word for said in entered(card) for word in unmarked(said)} | symbols()
    allowed |= {word for one in card.basis.calibration for word in unmarked(one.page)}
    for case in ("known=ias&speed=180&bank=30", "known=cas&speed=90", "known=ias&speed=9"):
        desk.goto((elsewhere / "ZZ-DUA" / "index.html").as_uri() + f"#reckon?{case}")
        desk.reload()
        for part in (".way", ".told", ".spoken", ".working"):
            said = desk.locator(f"#reckon {part}").inner_text()
            assert "⟦" in said
            assert unmarked(said) - allowed == set(), (part, said)


def test_all_that_the_page_of_any_two_says_is_a_wording(desk, elsewhere, documents):
    both = [documents[name] for name in ("ZZ-WTR", "ZZ-PHN")]
    allowed = {word for card in both for said in entered(card) for word in unmarked(said)}
    known = [one for card in both for one in (card.head.registration, card.marks.card)]
    allowed |= symbols() | {word for one in known for word in unmarked(one)}
    desk.goto((elsewhere / ANY).as_uri() + "#from=ZZ-WTR&to=ZZ-PHN")
    desk.locator(".next .told").wait_for()
    said = desk.locator(".next").inner_text()
    assert said.count("⟦") > 50
    assert unmarked(said) - allowed == set()


def test_the_script_and_the_sheets_of_style_hold_no_words(elsewhere, pages):
    for name in page.ASSETS:
        own, other = ((site / "assets" / name).read_text() for site in (pages, elsewhere))
        if name in WORDS:  # which holds nothing else
            said = json.loads(other.partition("const WORDS = ")[2].rstrip(";\n"))
            assert set().union(*map(unmarked, blanked(said.values()))) == set()
            continue
        if name == "page.css":
            own, other = (re.sub(r"content: \"[^\"]*\"", "", one) for one in (own, other))
        assert own == other
    scripts = [name for name in page.ASSETS if name.endswith(".js") and name not in WORDS]
    script = "".join((pages / "assets" / name).read_text() for name in scripts)
    told = re.findall(r'"([^"\n]*)"|`([^`\n]*)`', re.sub(r"//.*", "", script))
    assert len(told) > 50
    capital = {one for pair in told for one in pair if re.match(r"\W*[A-Z][a-z]+\b", one)}
    assert capital == {"Arrow", "Enter", "Escape"}  # keys


def test_what_the_script_of_a_lesson_says_is_put_into_words_too(desk, elsewhere, documents):
    """Every told sentence, as sliders go from end to end."""
    desk.goto((elsewhere / TAUGHT[0]).as_uri())
    allowed = {word for said in entered(documents[SOME[0]]) for word in unmarked(said)} | symbols()
    said = desk.evaluate(
        """() => [...document.querySelectorAll('input[type=range]')].flatMap((input) =>
          [input.min, input.max, (+input.min + +input.max) / 2].map((at) => {
            input.value = at;
            input.dispatchEvent(new Event('input', { bubbles: true }));
            return input.closest('section').querySelector('figure').textContent;
          }))"""
    )
    assert len(set(said)) > 20
    assert {word for one in said for word in unmarked(one)} - allowed == set()


def test_a_school_may_put_its_own_template_in_place(documents, tmp_path):
    (tmp_path / "signed.html").write_text(
        "{% macro on_page(document) %}<p>{{ document.marks.card }}!</p>{% endmacro %}"
        "{% macro how(document) %}{% endmacro %}"
    )
    card = documents["ZZ-DUA"]
    assert f"<p>{card.marks.card}!</p>" in page.aircraft_page(Templates(tmp_path), card)


def test_a_fresh_document_and_its_json_give_one_page(aircraft, fleet, documents):
    made = marked(make_document(aircraft["ZZ-WTR"], fleet.school))
    assert page.aircraft_page(Templates(), made) == page.aircraft_page(
        Templates(), documents["ZZ-WTR"]
    )
