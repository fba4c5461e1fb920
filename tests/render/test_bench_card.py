"""A bench card of +5 and of −5 at all points, on drawings, in tables and in print.

Paint does not move with a bench card; a maximum goes down with it and never up (the project's own
rules). +5 is to be added to the reading, so the pointer stands 5 lower than it should, and every
maximum with it; −5 would let it stand 5 higher, and lets no maximum.

The manual's figures are those of the YAML. Angles and heights are read from the drawings' paths,
by the ticks and numbers of their own scales.
"""

import math
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
import yaml

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.record import Document
from cardgen.render.drawings import drawings
from cardgen.render.templates import Templates
from cardgen.review.marks import marked
from tests.conftest import DEMO
from tests.reader import Card
from tests.render.printed import texts
from tests.render.writing import write_aircraft_pdfs

SVG = "{http://www.w3.org/2000/svg}"
MPH = 1852 / 1609.344  # in a knot, both by definition
ARCS = {"white": "white", "green": "green", "yellow": "yellow"}
LINES = {"red line": "red-line", "blue line": "blue-line", "red radial": "red-radial"}
MAXIMA = ("VNE", "VNO", "VFE", "VLE", "VLO", "VA")
BOTH = pytest.mark.parametrize("correction", [5, -5])
EACH = pytest.mark.parametrize("registration", ["ZZ-TUA", "ZZ-DUA"])


def numbers(text: str) -> list[float]:
    return [float(one) for one in re.findall(r"-?[\d.]+", text)]


def manual_of(registration: str) -> dict:
    airframe = yaml.safe_load((DEMO / "fleet" / f"{registration.lower()}.yaml").read_text("utf-8"))
    return yaml.safe_load((DEMO / "types" / f"{airframe['type']}.yaml").read_text("utf-8"))


def unit_of(registration: str) -> float:
    """The indicator's units in one of the manual's: ZZ-DUA has an mph indicator."""
    return MPH if registration == "ZZ-DUA" else 1.0


@pytest.fixture
def card(definitions: Path, registration: str, correction: int) -> Document:
    """The document of an airframe whose bench card says the same at all points."""
    path = definitions / "fleet" / f"{registration.lower()}.yaml"
    bench = {"page": "bench card", "indicated": [20, 300], "correction": [correction] * 2}
    path.write_text(path.read_text("utf-8") + yaml.safe_dump({"instrument correction": bench}))
    fleet = read_fleet(definitions)
    one = next(each for each in fleet.aircraft if each.registration == registration)
    return marked(make_document(Aircraft(one), fleet.school))


class Face:
    """A drawing: speeds read back from its paths by the scale that it draws."""

    def __init__(self, card: Document, name: str) -> None:
        self.tree = ElementTree.fromstring(drawings(Templates(), card)[name])
        self.round = name == "dial"
        ticks = [self.at(*ends[:2]) for ends in self.strokes("tick major")]
        groups = (group for group in self.tree.iter(f"{SVG}g") if group.get("class") == "number")
        said = [float(text.text) for group in groups for text in group.iter(f"{SVG}text")]
        assert len(ticks) == len(said) > 4
        self.first, self.last = ticks[0], ticks[-1]
        self.low, self.high = said[0], said[-1]

    def path(self, kind: str) -> str:
        (found,) = (one for one in self.tree.iter(f"{SVG}path") if one.get("class") == kind)
        return found.get("d")

    def strokes(self, kind: str) -> list[list[float]]:
        return [numbers(stroke) for stroke in self.path(kind).split("M")[1:]]

    def at(self, x: float, y: float) -> float:
        """How far along the scale a point is: degrees clockwise from the top, or height."""
        return math.degrees(math.atan2(x, -y)) % 360 if self.round else -y

    def speed(self, x: float, y: float) -> float:
        share = (self.at(x, y) - self.first) / (self.last - self.first)
        return self.low + share * (self.high - self.low)

    def arc(self, name: str) -> tuple[float, float]:
        """The speeds that a band is drawn between."""
        found = numbers(self.path(f"arc {name}"))
        corners = (found[0:2], found[7:9]) if self.round else (found[0:2], found[4:6])
        ends = [self.speed(*corner) for corner in corners]
        return min(ends), max(ends)

    def line(self, name: str) -> float:
        """The speed that a line is drawn across, whatever breaks it."""
        strokes = self.strokes(f"line {name}")
        return sum(self.speed(*ends[:2]) for ends in strokes) / len(strokes)


@EACH
@BOTH
@pytest.mark.parametrize("name", ["dial", "ladder"])
def test_no_bench_card_moves_the_paint(card, registration, name):
    face, markings, unit = (
        Face(card, name),
        manual_of(registration)["markings"],
        unit_of(registration),
    )
    for given, drawn in ARCS.items():
        ends = (markings[given]["from"] * unit, markings[given]["to"] * unit)
        assert face.arc(drawn) == pytest.approx(ends, abs=0.25), given
    seen = [given for given in LINES if given in markings]
    assert "red line" in seen
    for given in seen:
        at = markings[given]["at"] * unit
        assert face.line(LINES[given]) == pytest.approx(at, abs=0.25), given


@EACH
@BOTH
@pytest.mark.parametrize("name", ["dial", "ladder"])
def test_a_tick_stands_at_each_limit_that_the_card_tightens(card, registration, correction, name):
    """Of the limits that are painted; none where the card would have let a maximum go up."""
    manual, unit = manual_of(registration), unit_of(registration)
    markings = manual["markings"]
    painted = [markings["white"]["to"], markings["green"]["to"], markings["red line"]["at"]]
    painted += [one["ias"] for one in manual["speeds"]["VFE"]]
    wanted = {expected(one, unit, correction) for one in painted} if correction > 0 else set()
    if "red radial" in markings and correction < 0:
        wanted = {markings["red radial"]["at"] - correction}
    face = Face(card, name)
    paths = [one.get("d") for one in face.tree.iter(f"{SVG}path")
             if one.get("class") == "line tightened"]  # fmt: skip
    drawn = sorted(face.speed(*numbers(path)[:2]) for path in paths)
    assert drawn == pytest.approx(sorted(wanted), abs=0.25)


def expected(figure: float, unit: float, correction: int) -> int:
    """A maximum as it is printed: no higher than the manual's, and rounded down."""
    return math.floor(figure * unit - max(correction, 0) + 1e-9)


@EACH
@BOTH
def test_a_maximum_goes_down_with_the_card_and_never_up(card, registration, correction):
    manual, unit = manual_of(registration), unit_of(registration)
    table = Card(card).table("speeds")
    shown = [column.name for column in table.columns].index("indicated")
    for name in MAXIMA:
        entries = manual["speeds"].get(name, [])
        entries = entries if isinstance(entries, list) else [entries]
        printed = [f"{expected(one['ias'], unit, correction)}" for one in entries]
        said = [row[shown].text for row in table.rows if row[0].text == name]
        assert said == printed, name


@EACH
@BOTH
def test_the_markings_say_the_paint_and_where_the_pointer_stands(card, registration, correction):
    """At the paint's upper ends and lines; the lower red line may only stand higher."""
    markings, unit = manual_of(registration)["markings"], unit_of(registration)
    table = Card(card).table("markings")
    names = [column.name for column in table.columns]
    rows = {row[0].text: dict(zip(names, row, strict=True)) for row in table.rows}
    for given, said in {"white": "White arc", "green": "Green arc", "yellow": "Yellow arc"}.items():
        row, painted = rows[said], markings[given]["to"] * unit
        assert row["to"].value == pytest.approx(painted)
        assert row["to"].text == f"{math.floor(painted + 1e-9)}"
        assert row["shown-to"].text == f"{expected(markings[given]['to'], unit, correction)}"
    red = rows["Red line"]
    assert red["from"].text == f"{math.floor(markings['red line']['at'] * unit + 1e-9)}"
    assert red["shown-from"].text == f"{expected(markings['red line']['at'], unit, correction)}"
    if "red radial" in markings:
        control = markings["red radial"]["at"]
        row = rows["Lower red line"]
        assert row["from"].text == f"{control}"
        assert row["shown-from"].text == f"{control + max(-correction, 0)}"


# The YAML's maxima of ZZ-TUA, with +5 and with −5, in the order of the sheets.
LIMITS = {
    5: [("VNE", 198), ("VNO", 158), ("VA", 128, 115), ("VFE", 145, 115), ("VLE", 135),
        ("VLO", 135, 106)],
    -5: [("VNE", 203), ("VNO", 163), ("VA", 133, 120), ("VFE", 150, 120), ("VLE", 140),
         ("VLO", 140, 111)],
}  # fmt: skip
LEGEND = (
    "White arc 57 – 120 Flap limit see VFE Green arc 65 – 163 Yellow arc 163 – 203 Red line 203 "
    "Blue line 90 Lower red line 62"
)
CONTROL = {5: 62, -5: 67}  # VMC, which no card may lower
SHEETS = ("card.pdf", "strip.pdf")


@BOTH
@pytest.mark.parametrize("registration", ["ZZ-TUA"])
def test_the_printed_sheets_say_the_same(card, correction, tmp_path, only):
    """Limits tightened, and the legend as painted; between a speed and its next no other figure."""
    only(*SHEETS, sheets=["sheet-speeds"])
    folder = tmp_path / "pdfs"
    folder.mkdir()
    write_aircraft_pdfs(folder, Templates(), card)
    words = {kind: " ".join(texts(folder / kind)) for kind in SHEETS}
    strip = r"(?:(?!\b\d{3}\b|V).)*"  # what stands before the figure: no speed, no other figure
    for kind, said in words.items():
        for name, *figures in LIMITS[correction]:
            before = strip if kind == "strip.pdf" else "[^V]*?"
            assert re.search(name + "".join(rf"{before}\b{one}\b" for one in figures), said), name
        assert re.search(rf"VMC [^V]*?\b{CONTROL[correction]}\b", said), kind
    assert LEGEND in words["card.pdf"]
