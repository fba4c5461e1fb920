"""The printed sheets as things to be read, punched, cut and turned, measured on the PDFs.

Heights: a character is read at 1/200 of its distance (FAA human factors guidance); a card on a
knee is 600 mm away: figures of tables are at least 3.0 mm high, and limits higher. A pocket card is
held in the hand, 500 mm away.
"""

import itertools
import re
import shutil
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.data import from_json
from cardgen.document.record import Document, Signature
from cardgen.layout.font import advance
from cardgen.layout.formats import FORMATS
from cardgen.layout.measures import LARGEST
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from cardgen.words.english import ENGLISH
from tests.conftest import ROOT, STRESS, documents_of, made_once, printed_of, printing
from tests.render.printed import Letter, Sheet, overlaps, sheets, texts, words
from tests.render.writing import write_aircraft_pdfs
from tests.sampling import is_long, some

pytestmark = pytest.mark.xdist_group("print")  # so that a PDF is read once

CAPTION = 1.8  # mm: what is read before flight
TABLE = {"card.pdf": 3.0, "card-night.pdf": 3.0, "strip.pdf": 3.0, "pocket.pdf": 2.5}
LIMIT = {"card.pdf": 4.2, "card-night.pdf": 4.2, "strip.pdf": 3.65, "pocket.pdf": 3.05}
PUNCHED, FREE = 16.0, 6.0  # mm
HALF_LETTER, A5, A6 = (139.7, 215.9), (148.0, 210.0), (105.0, 148.0)
SIZES = {  # mm, on letter paper
    "card.pdf": HALF_LETTER,
    "card-night.pdf": HALF_LETTER,
    "strip.pdf": (279.4 / 3, 215.9),
    "pocket.pdf": (101.6, 152.4),
}
KINDS = list(SIZES)
CLEAR = dict.fromkeys(SIZES, (PUNCHED, FREE, FREE, FREE))  # left, right, top, bottom
CLEAR["pocket.pdf"] = (FREE, FREE, FREE, FREE)
DEMO = ["ZZ-DUA", "ZZ-DUB", "ZZ-DUC", "ZZ-PHN", "ZZ-TUA", "ZZ-WHA", "ZZ-WHB", "ZZ-WTR"]
NUMBERS = re.compile(r"[-+−–().,°%:\d\s]*\d(?:[-+−–().,°%:\d\s]|to)*")  # and ranges


@pytest.fixture(scope="session")
def stressed(tmp_path_factory) -> Path:
    """The PDFs of the aircraft that has the most of everything; those at night in a long run."""

    def write(folder: Path) -> None:
        with printing(*(one.file for one in FORMATS if not one.night)):
            write_aircraft_pdfs(folder, Templates(), stress_document())

    return made_once(tmp_path_factory, "stress", write)


def stress_document() -> Document:
    (stress,) = documents_of(STRESS).values()
    return marked(stress)


def document_of(built: Path, name: str) -> Document:
    if name == "stress":
        return stress_document()
    return from_json((built / name / "card.json").read_text(), Document)


def of(built: Path, stressed: Path, name: str) -> Path:
    return stressed if name == "stress" else built / name


CARDS = some("cards", DEMO, ["ZZ-DUA", "ZZ-WTR"])
EACH = ("name", "kind")
MOST = [
    pytest.param(*one.values[0].split(), marks=one.marks)
    for one in some(
        "sheets",
        [" ".join(one) for one in itertools.product([*DEMO, "stress"], SIZES)],
        [
            "ZZ-TUA card.pdf",
            "ZZ-WTR card-night.pdf",
            "ZZ-WTR strip.pdf",
            "ZZ-DUA pocket.pdf",
            "stress card.pdf",
            "stress strip.pdf",
            "stress pocket.pdf",
        ],
    )
]


def assert_clear(sheet: Sheet, left: float, right: float, top: float, bottom: float) -> None:
    """Hold that nothing is printed outside margins."""
    letters = [letter for letter in sheet.letters if letter.text.strip()]
    slack = 0.15
    for letter in letters:
        assert letter.left > left - slack, letter
        assert letter.right < sheet.width - right + slack, letter
        if letter.upright:
            assert letter.base - letter.digit > top - slack, letter
            assert letter.base + 0.25 * letter.size < sheet.height - bottom + 0.6, letter
    for x0, y0, x1, y1 in sheet.shapes:
        assert x0 > left - 0.5, (x0, y0, x1, y1)
        assert x1 < sheet.width - right + 0.5, (x0, y0, x1, y1)
        assert y0 > top - 0.5
        assert y1 < sheet.height - bottom + 0.5


@pytest.mark.parametrize(EACH, MOST)
def test_nothing_is_cut_or_printed_over_anything(built, stressed, name, kind):
    for sheet in sheets(of(built, stressed, name) / kind):
        assert (sheet.width, sheet.height) == pytest.approx(SIZES[kind], abs=0.01)
        assert_clear(sheet, *CLEAR[kind])
        assert overlaps(sheet) == []


@pytest.mark.parametrize(EACH, MOST)
def test_type_is_as_high_as_its_use_asks(built, stressed, name, kind):
    for sheet in sheets(of(built, stressed, name) / kind):
        for letter in sheet.letters:
            if letter.upright and (letter.text.isdigit() or letter.text.isupper()):
                assert letter.digit >= CAPTION, letter
        small = {
            cell.text
            for cell in sheet.cells()
            if NUMBERS.fullmatch(cell.text)
            and not is_column_heading(cell)
            and cell.lowest_digit < TABLE[kind] - 0.005
        }
        assert small == set()


def is_column_heading(cell) -> bool:
    return any(letter.within("THead") for letter in cell.letters)


@pytest.mark.parametrize(EACH, MOST)
def test_limits_and_flown_speeds_are_the_largest_numbers(built, stressed, name, kind):
    table = document_of(built, name).table("speeds")
    shown = [row.cells[1] for row in table.rows]
    wanted = sorted(ENGLISH.figure(cell) for cell in shown if not cell.empty)
    pages = sheets(of(built, stressed, name) / kind)
    cells = [cell for page in pages for cell in page.cells() if not cell.heading]
    figures = [
        "".join(letter.text for letter in cell.letters if letter.digit >= LIMIT[kind]).strip()
        for cell in cells
    ]
    assert sorted(text for text in figures if text) == wanted
    heights = [letter.digit for page in pages for letter in page.letters if letter.within("Table")]
    limits = [
        letter.digit for cell in cells for letter in cell.letters if letter.digit >= LIMIT[kind]
    ]
    assert max(heights) == pytest.approx(max(limits))


@pytest.mark.parametrize("name", CARDS)
def test_a_card_has_sheets_with_one_job_each_and_few_of_them(built, name):
    """As pages are counted: what is too much for one goes on, on as few as there can be."""
    document = document_of(built, name)
    jobs = ("Limits", "Calibrated airspeed", "True airspeed", "Ground speed")
    for kind in {"card.pdf", "card-night.pdf"} & {*printed_of(name)}:
        pages = texts(built / name / kind)
        assert len(pages) <= 10, kind
        firsts = [next(n for n, text in enumerate(pages) if words in text) for words in jobs]
        assert firsts == sorted(set(firsts)), (kind, document.head.type)


@pytest.mark.parametrize("name", CARDS)
def test_sheets_are_filled(built, name):
    """Space at the foot of a sheet is used for larger type, up to the largest."""
    largest = LARGEST * TABLE["card.pdf"]
    for page in sheets(built / name / "card.pdf"):
        foot = next(
            letter.base
            for letter in page.letters
            if letter.text == "R" and is_caution(page, letter)
        )
        last = max(letter.base for letter in page.letters if letter.base < foot - 3.0)
        digits = [letter.digit for cell in page.cells() for letter in cell.letters]
        assert foot - last < 45.0 or max(digits) > largest - 0.05, page.text[:60]


def is_caution(page, letter) -> bool:
    at = page.letters.index(letter)
    return "".join(one.text for one in page.letters[at : at + 9]) == "Reference"


# -- when there is too much for a sheet ----------------------------------------------------------


@pytest.mark.parametrize(
    "kind", some("sheets", KINDS, [one for one in KINDS if one != "card-night.pdf"])
)
def test_a_sheet_that_goes_on_keeps_its_headings(stressed, kind):
    pages = sheets(stressed / kind)
    assert len(pages) > {"strip.pdf": 1, "pocket.pdf": 2}.get(kind, 4)
    for number, page in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in page.text
        said = page.text.replace(" ", "")
        for told in ("ZZ-SHEARWATER-4K", "GS4000-LRA-AFM-0000117", "NOTSIGNED", "Referenceonly"):
            assert told in said
        cells = list(page.cells())
        figures = [cell for cell in cells if not cell.heading]
        if figures:
            first = min(cell.letters[0].base for cell in figures)
            heads = [cell.letters[0].base for cell in cells if is_column_heading(cell)]
            assert heads, f"page {number} begins with figures that have no headings"
            assert min(heads) < first + 0.1
        below = max((cell.letters[0].base for cell in figures), default=0.0)
        for cell in cells:
            if is_column_heading(cell) and len(figures):
                assert cell.letters[0].base < below, (number, cell.text, "heads nothing")


def test_all_that_the_card_has_is_printed(stressed):
    """Every row of every table of the sheets is somewhere on the stress card."""
    card = stress_document()
    pages = sheets(stressed / "card.pdf")
    counted = sum(1 for page in pages for cell in page.cells() if not cell.heading)
    on_sheets = ("calibration", "indicated", "stall", "manoeuvring", "approach", "true-airspeed")
    on_sheets += ("cruise", "ground-speed", "crosswind-limit", "glide", "tas-factor")
    least = sum(
        len(row.cells) - table.stub
        for table in card.tables
        if table.id in on_sheets
        for row in table.rows
    )
    assert counted >= least


# -- paper ---------------------------------------------------------------------------------------


def school_with(definitions: Path, old: str, new: str):
    path = definitions / "school.yaml"
    path.write_text(path.read_text().replace(old, new))
    fleet = read_fleet(definitions)
    glider = next(one for one in fleet.aircraft if one.registration == "ZZ-WTR")
    return marked(make_document(Aircraft(glider), fleet.school))


FULLEST = ("sheet-speeds", "sheet-true")


def test_a4_and_holes_along_the_top(definitions, tmp_path, only):
    only("card.pdf", "card-2up.pdf", "strip.pdf", "pocket.pdf", sheets=FULLEST)
    card = school_with(definitions, "paper: letter", "paper: A4\npunch edge: top")
    write_aircraft_pdfs(tmp_path, Templates(), card)
    for kind, size in (("card.pdf", A5), ("strip.pdf", (99.0, 210.0)), ("pocket.pdf", A6)):
        for sheet in sheets(tmp_path / kind):
            assert (sheet.width, sheet.height) == pytest.approx(size, abs=0.01)
            assert_clear(sheet, FREE, FREE, FREE if kind == "pocket.pdf" else PUNCHED, FREE)
    with pikepdf.open(tmp_path / "card-2up.pdf") as pdf:
        for page in pdf.pages:
            size = [float(side) / 72 * 25.4 for side in list(page.mediabox)[2:]]
            assert size == pytest.approx([297, 210], abs=0.01)


def found(sheet: Sheet, words: str) -> tuple[float, float]:
    """Return where words begin, in mm from the left and the top, whichever way up they are."""
    first = first_letter(sheet, words)
    return first.left, first.base


def first_letter(sheet: Sheet, words: str) -> Letter:
    """Return the letter at which words begin; a ligature is one letter of several characters."""
    text = "".join(letter.text for letter in sheet.letters)
    letters = [letter for letter in sheet.letters for _ in letter.text]
    return letters[text.index(words)]


def behind(point: tuple[float, float], sheet: Sheet) -> tuple[float, float]:
    """Return what lies behind a point of landscape paper that was flipped on its long edge.

    The long edge is horizontal; the paper turns about it, so that left stays
    left and what is near the top comes to lie behind what is near the bottom.
    """
    return point[0], sheet.height - point[1]


@pytest.mark.parametrize("name", some("cards two to a side", ["ZZ-DUA", "ZZ-WTR"], ["ZZ-WTR"]))
def test_behind_each_odd_sheet_is_its_even_one_turned_like_a_leaf(built, name):
    single = sheets(built / name / "card.pdf")
    sides = sheets(built / name / "card-2up.pdf")
    count = len(single)
    assert [(side.width, side.height) for side in sides] == [
        pytest.approx((279.4, 215.9), abs=0.01)
    ] * (2 * -(-count // 4))
    wide = HALF_LETTER[0]
    for odd in range(1, count + 1, 2):
        front, back = sides[(odd - 1) // 4 * 2 :][:2]
        left = 0.0 if odd % 4 == 1 else wide
        x, y = found(front, f"{odd} of {count}")
        own = found(single[odd - 1], f"{odd} of {count}")
        assert (x - left, y) == pytest.approx(own, abs=0.05)
        if odd == count:
            break
        # The even sheet is on the back of the same piece once the paper is cut down the middle.
        bx, _ = found(back, f"{odd + 1} of {count}")
        assert left < bx < left + wide
        # Turned like a leaf, about its long side, a point (u, v) of the back lies behind
        # (width - u, v) of the front. The back is moved by 10 mm for the holes.
        u, v = found(single[odd], f"{odd + 1} of {count}")
        width = wide - (u - 10.0)
        on_front = (left + width, v)
        assert found_turned(back, f"{odd + 1} of {count}") == pytest.approx(
            behind(on_front, front), abs=0.1
        )


def found_turned(sheet: Sheet, words: str) -> tuple[float, float]:
    """Return where words that stand upside down begin: at their right end, on their base line."""
    first = first_letter(sheet, words)
    return first.right, first.base


@pytest.mark.parametrize("name", some("cards two to a side", ["ZZ-DUA", "stress"], ["stress"]))
def test_holes_meet_no_print_on_either_side(built, stressed, name):
    wide = HALF_LETTER[0]
    sides = words(of(built, stressed, name) / "card-2up.pdf")
    assert all(sides)
    for word in itertools.chain(*sides):
        half = 0.0 if word.left < wide else wide
        assert word.left - half > PUNCHED - 0.15, word
        assert word.right - half < wide - FREE + 0.15, word


@pytest.mark.parametrize("name", some("cards two to a side", DEMO, ["ZZ-WTR"]))
def test_cut_marks_are_on_the_cut_and_touch_no_print(built, name):
    for side in sheets(built / name / "card-2up.pdf"):
        marks = [one for one in side.shapes if abs(one[0] - 139.7) < 0.1 and one[2] - one[0] < 0.5]
        assert len(marks) >= 3
        assert min(one[1] for one in marks) < 0.5
        assert max(one[3] for one in marks) > 215.4
        assert all(letter.right < 139.0 or letter.left > 140.4 for letter in side.letters)


def test_print_dialogues_are_told_which_sides(built):
    for kind, duplex in (("card.pdf", "/Simplex"), ("card-2up.pdf", "/DuplexFlipLongEdge")):
        with pikepdf.open(built / "ZZ-DUA" / kind) as pdf:
            assert str(pdf.Root.ViewerPreferences.Duplex) == duplex


def test_stress_card_two_up_holds_all_its_sheets(stressed):
    count = len(texts(stressed / "card.pdf"))
    sides = texts(stressed / "card-2up.pdf")
    assert len(sides) == 2 * -(-count // 4)
    for n, side in enumerate(sides):
        first = 4 * (n // 2) + 1 + n % 2
        for number in (first, first + 2):
            if number <= count:
                assert f"{number} of {count}" in side


# -- colour --------------------------------------------------------------------------------------


def luminance(colour: tuple[float, ...]) -> float:
    parts = colour * 3 if len(colour) == 1 else colour
    linear = [x / 12.92 if x <= 0.04045 else ((x + 0.055) / 1.055) ** 2.4 for x in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: tuple[float, ...], other: tuple[float, ...]) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


GREEN, PAPER = (0x12 / 255, 0x5A / 255, 0x30 / 255), (1.0, 1.0, 1.0)


@pytest.mark.parametrize("name", CARDS)
def test_everything_printed_has_a_contrast_of_seven(built, name):
    for kind in {"card.pdf", "strip.pdf", "pocket.pdf"} & {*printed_of(name)}:
        for page in sheets(built / name / kind):
            for letter in page.letters:
                white = luminance(letter.colour) > 0.9  # words in the green arc
                assert contrast(letter.colour, GREEN if white else PAPER) >= 7.0, letter


@pytest.mark.parametrize("name", some("night cards", DEMO, ["ZZ-WTR"]))
def test_the_night_card_has_no_colour(built, stressed, name):
    """Under red light red ink vanishes; whatever is printed is black, white or a grey rule."""
    operators = re.compile(rb"(?<![\w.])([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG|scn|SCN|sc|SC)\b")
    seen = 0
    with pikepdf.open(of(built, stressed, name) / "card-night.pdf") as pdf:
        streams = [one for one in pdf.objects if isinstance(one, pikepdf.Stream)]
        for stream in streams:
            if stream.get("/Type") in ("/Metadata", "/ObjStm", "/XRef") or "/Length1" in stream:
                continue
            for red, green, blue in operators.findall(stream.read_bytes()):
                seen += 1
                band = (float(red), float(green), float(blue))
                assert max(band) - min(band) < 0.03, band
    assert seen


@pytest.mark.parametrize("name", some("night cards", DEMO, ["ZZ-WTR"]))
def test_the_night_card_is_heavier(built, name):
    def weights(kind):
        return [
            letter.font
            for page in sheets(built / name / kind)
            for cell in page.cells()
            if NUMBERS.fullmatch(cell.text)
            for letter in cell.letters
        ]

    def bold(font):
        return "Bold" in font

    day, night = weights("card.pdf"), weights("card-night.pdf")
    # The others are those in a second unit beside them, in a cut of their own by night.
    assert len(day) == len(night)
    assert sum(map(bold, night)) > 1.5 * sum(map(bold, day))


def test_words_are_set_in_another_cut_by_night(built):
    """Told by the widths of letters, which both cuts have of their own."""
    for kind, weight, other in (("card.pdf", 400, 500), ("card-night.pdf", 500, 400)):
        seen = 0
        for letter in (one for page in sheets(built / "ZZ-WTR" / kind) for one in page.letters):
            plain = letter.upright and not ("Bold" in letter.font or "Italic" in letter.font)
            if plain and letter.text in "mnaeS":
                width = (letter.right - letter.left) / letter.size
                assert width == pytest.approx(advance(letter.text, weight), abs=0.0015)
                assert width != pytest.approx(advance(letter.text, other), abs=0.0015)
                seen += 1
        assert seen > 500


def test_the_fleet_and_conversions_keep_the_same_rules(built):
    for path in (built / "conversions" / "conversions.pdf",):
        for sheet in sheets(path):
            assert (sheet.width, sheet.height) == pytest.approx(HALF_LETTER, abs=0.01)
            assert_clear(sheet, PUNCHED, FREE, FREE, FREE)
            assert overlaps(sheet) == []
            for letter in sheet.letters:
                if letter.upright and letter.text.isdigit():
                    assert letter.digit >= CAPTION


@pytest.mark.parametrize(
    ("figures", "said"), [("own", "Signed 2026-01-31"), ("0000-0001", "OUT OF DATE")]
)
def test_a_sheet_says_whether_its_figures_are_signed(built, tmp_path, only, figures, said):
    kinds = {*KINDS} & {*only("strip.pdf", "pocket.pdf", sheets=["sheet-speeds"])}
    document = document_of(built, "ZZ-WTR")
    marks = document.marks
    signed_for = marks.figures if figures == "own" else figures
    signature = Signature("An instructor", "2026-01-31", signed_for, marks.card)
    signed = replace(document, head=replace(document.head, signatures=(signature,)))
    write_aircraft_pdfs(tmp_path, Templates(), signed)
    for kind in kinds:
        for page in texts(tmp_path / kind):
            assert said in page, kind
            assert "NOT SIGNED" not in page


def test_a_school_may_restyle_the_print(definitions, tmp_path, only):
    only("card.pdf", "strip.pdf", sheets=FULLEST)
    card = school_with(definitions, "paper: letter", "paper: letter")
    own = definitions / "templates"
    own.mkdir()
    shutil.copy(ROOT / "templates" / "tokens.css", own / "tokens.css")
    tokens = own / "tokens.css"
    tokens.write_text(tokens.read_text().replace("--print-limit: 1.45rem", "--print-limit: 1.7rem"))
    (own / "picture.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9v9z"/></svg>'
    )
    write_aircraft_pdfs(tmp_path, Templates(own), card)
    pages = sheets(tmp_path / "card.pdf")
    assert max(letter.digit for letter in pages[0].letters if letter.within("Table")) > 5.0
    for sheet in pages:
        assert_clear(sheet, PUNCHED, FREE, FREE, FREE)
        assert overlaps(sheet) == []
    counts = {"card.pdf": len(pages), "strip.pdf": 2}
    if is_long():
        counts["card-night.pdf"] = 0
    for kind, count in counts.items():
        with pikepdf.open(tmp_path / kind) as pdf:
            said = [str(one.get("/Alt", "")) for one in pdf.objects if is_figure(one)]
        assert said.count("Picture of Reedmere Flying Club") == count, kind


def is_figure(one: pikepdf.Object) -> bool:
    return isinstance(one, pikepdf.Dictionary) and one.get("/S") == "/Figure"


# -- what was copied and what was computed -------------------------------------------------------


def slanted(cell) -> bool:
    return any("Italic" in letter.font for letter in cell.letters if letter.text.isdigit())


@pytest.mark.parametrize("name", CARDS)
def test_computed_figures_are_in_italics_beside_copied_ones(built, name):
    """By the origin of each V-speed and stall speed; where italics stand, the sheet says why."""
    document = document_of(built, name)
    pages = sheets(built / name / "card.pdf")
    for table in (document.table("speeds"), document.table("stall")):
        if not table.is_mixed:
            continue
        wanted = {
            (ENGLISH.figure(cell, column), cell.is_computed)
            for row in table.rows
            for cell, column in zip(row.cells, table.columns, strict=True)
            if cell.quantity and cell.origin and not column.words
        }
        told = [page for page in pages if SHEETS[table.id] in page.text]
        found = {
            (cell.text.strip("()"), slanted(cell))
            for page in told
            for cell in page.cells()
            if not cell.heading and NUMBERS.fullmatch(cell.text)
        }
        assert wanted <= found, table.id
    mixed = [TITLES[table.id] for table in document.tables if table.is_mixed and table.id in TITLES]
    for page in pages:
        says = "Figures in italics are computed" in page.text
        if any(slanted(cell) for cell in page.cells()):
            assert says, page.text[:60]
        elif says:  # all that stand on this sheet are copied, others of their table are not
            assert any(title in page.text for title in mixed), page.text[:60]
    for table in document.tables:
        page = next((page for page in pages if TITLES.get(table.id, "\n") in page.text), None)
        if page and table.is_computed:
            assert "Computed throughout: " in page.text


SHEETS = {"speeds": "Speeds ·", "stall": "CAS and stall ·"}
TITLES = {
    "speeds": "Limits",
    "stall": "Stall speed",
    "true-airspeed": "True airspeed",
    "tas-factor": "TAS factor",
}
