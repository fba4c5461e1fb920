"""How PDFs are made: pages laid out once, and the same bytes from run to run."""

import io
from dataclasses import dataclass, replace

import pikepdf
import pytest

from cardgen import __version__
from cardgen.document.data import from_json
from cardgen.document.record import Document, Shared
from cardgen.layout.content import Content
from cardgen.layout.formats import FORMATS, Format
from cardgen.layout.measures import SOURCE, Sizes
from cardgen.layout.placed import (
    Page,
    PlacedBeside,
    PlacedDrawing,
    PlacedSpeeds,
    PlacedWords,
    stack_height,
)
from cardgen.layout.sheets import planned
from cardgen.render.drawings import drawings
from cardgen.render.pdf import pages_of
from cardgen.render.press import Press
from cardgen.render.templates import Templates
from cardgen.render.variables import settled
from tests.conftest import STRESS, documents_of
from tests.render.conftest import REGISTRATIONS
from tests.render.printed import sheets
from tests.render.test_print import KINDS, document_of
from tests.render.writing import write_tables_pdf
from tests.sampling import is_long
from tests.sound.fleets import others

pytestmark = pytest.mark.xdist_group("press")  # so that a PDF is read once


# Those that the tests of print read too.
FEW = ["ZZ-TUA card.pdf", "ZZ-WTR card-night.pdf", "ZZ-WTR strip.pdf", "ZZ-DUA pocket.pdf"]


def test_sheets_are_printed_as_they_are_planned_at_first(built, record_property):
    """Who was laid out twice has smaller type than the first plan."""
    smaller = []
    whole = [f"{name} {kind}" for name in REGISTRATIONS for kind in KINDS]
    tried = whole if is_long() else FEW
    record_property("sampled", ("formats as planned", len(tried), len(whole)))
    for name, kind in (one.split() for one in tried):
        pages, found = planned_first(document_of(built, name), kind), sheets(built / name / kind)
        assert len(pages) == len(found)
        for page, sheet in zip(pages, found, strict=True):
            sizes = {letter.size for letter in sheet.letters}
            wanted = {page.measures.type, page.measures.title}
            if not any(size == pytest.approx(one, abs=0.001) for size in sizes for one in wanted):
                smaller.append((name, kind, page.number))
    assert smaller == []


def test_on_a_strip_the_limits_stand_beside_the_ladder_and_no_sheet_has_words_alone(documents):
    """Of all aircraft but the one whose every word is as long as it may be."""
    below, bare = set(), set()
    for name, document in {**documents, **others()}.items():
        if name in documents_of(STRESS):
            continue
        pages = planned_first(document, "strip.pdf")
        first = next((one for one in pages[0].placed if isinstance(one, PlacedBeside)), None)
        stacks = [[type(one) for one in stack.placed] for stack in first.stacks] if first else []
        is_beside = [PlacedDrawing] in stacks and any(PlacedSpeeds in one for one in stacks)
        if document.basis.markings and not is_beside:
            below.add(name)
        if any({*map(type, page.placed)} <= {PlacedWords, PlacedDrawing} for page in pages):
            bare.add(name)
    assert (below, bare) == (set(), set())


@pytest.mark.parametrize("kind", [one.file for one in FORMATS if not one.two_up_of])
def test_what_stands_on_a_page_has_room_below_its_head(kind):
    """Of the aircraft with the longest registration, whose head is higher by fewer digits."""
    (document,) = documents_of(STRESS).values()
    for page in planned_first(document, kind):
        assert stack_height(page.placed) <= page.room, page.number


BETWEEN = 1.6 + 1.2  # mm, of ``templates/card.css``: over and under a sheet's body
AS_IT_IS = "as it is"
STATES = {
    AS_IT_IS: lambda head: head,
    "not signed": lambda head: replace(head, signatures=()),
    "without an address": lambda head: replace(
        head, school=replace(head.school, web_address="", notice="")
    ),
}


@pytest.mark.parametrize(
    ("name", "state"),
    [
        (name, state)
        for name in REGISTRATIONS
        for state in STATES
        if name == "ZZ-PHN" or state == AS_IT_IS
    ],
)
def test_heads_and_feet_are_no_higher_than_planned_and_hardly_lower(documents, name, state):
    """Of an empty sheet of each format; one, where kerning draws words onto a line, may be."""
    document = documents[name]
    document = replace(document, head=STATES[state](document.head))
    press = Press()
    found = {form.file: beyond(document, form, press) for form in FORMATS if not form.two_up_of}
    assert {file for file, lines in found.items() if lines > 0} == set()
    assert len([file for file, lines in found.items() if lines]) <= 1, found


@pytest.mark.parametrize(("name", "kind"), [("ZZ-TUA", "card-night.pdf"), ("ZZ-PHN", "strip.pdf")])
def test_heads_are_as_high_as_planned_whatever_their_words(documents, name, kind):
    """With titles of all lengths, some of which end where a line does."""
    document = documents[name]
    form = next(one for one in FORMATS if one.file == kind)
    found, press = {}, Press()
    for length in range(1, 25, 2):
        title = "Manual " + "i" * length
        manual, *others = document.head.papers
        head = replace(document.head, papers=(replace(manual, title=title), *others))
        found[title] = beyond(replace(document, head=head), form, press)
    assert {title for title, lines in found.items() if lines > 0} == set()
    assert len([title for title, lines in found.items() if lines]) <= 2, found


def beyond(document: Document, form: Format, press: Press) -> int:
    """By how many lines head and foot are higher than planned, at most one either way."""
    document = replace(document, tables=document.tables[:1])  # one table is soon planned
    made = pages_of(form, Templates(), document, frozenset())
    page = replace(next(iter(made.by_sheet.values()))[0], placed=(), room=20.0)
    taken = page.head.height + page.foot.height + page.top + page.bottom + BETWEEN + page.room
    line = SOURCE * page.measures.caption

    def pages_at(high: float) -> int:
        return len(press._laid_out(made.html(replace(page, height=high))).pages)

    return int(pages_at(taken + 0.1) > 1) - int(pages_at(taken + 0.1 - line) == 1)


def planned_first(document: Document, kind: str) -> list[Page]:
    templates = Templates()
    content = Content(document, templates.language, drawings(templates, document).keys())
    form = next(one for one in FORMATS if one.file == kind)
    return [page for plan in planned(form, content, Sizes()) for page in plan]


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
    shared = from_json(text, Shared)
    one = replace(shared, tables=shared.tables[:1])
    press = write_tables_pdf(tmp_path / "conversions.pdf", Templates(), one)
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
