"""The drawings: their geometry against the documents' figures, and their words and patterns."""

import itertools
import math
import re
import subprocess
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import read_fleet
from cardgen.document.record import Document, FlapLimit
from cardgen.layout.font import FILES
from cardgen.layout.shapes import SHAPES
from cardgen.render.axes import axis
from cardgen.render.calibration import draw_calibration
from cardgen.render.dial import BANDS, FIRST, SWEEP
from cardgen.render.drawings import drawings, geometry, swatch
from cardgen.render.markings import scale_for
from cardgen.render.shapes import Shape, Words
from cardgen.render.tas import draw_tas
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO as DEMO_FLEET
from tests.conftest import STRESS, documents_of

SVG = "{http://www.w3.org/2000/svg}"
DEMO = ["ZZ-DUA", "ZZ-DUB", "ZZ-DUC", "ZZ-PHN", "ZZ-TUA", "ZZ-WHA", "ZZ-WHB", "ZZ-WTR"]
ALL = [*DEMO, "stress"]
NAMES = ["dial", "ladder", "calibration", "true-airspeed"]
MARKINGS = ["white", "green", "yellow", "red-line", "blue-line", "red-radial"]


@pytest.fixture(scope="module")
def flying(aircraft):
    """The demo fleet and the aircraft that has the most of everything."""
    return {**aircraft, "stress": Aircraft(read_fleet(STRESS).aircraft[0])}


@pytest.fixture(scope="module")
def cards():
    """Their documents."""
    (stress,) = documents_of(STRESS).values()
    return {**documents_of(DEMO_FLEET), "stress": stress}


def drawn(card: Document, **options) -> dict[str, ElementTree.Element]:
    """Return a card's drawings as trees; they are well-formed."""
    found = drawings(Templates(), card, **options)
    return {name: ElementTree.fromstring(drawing) for name, drawing in found.items()}


def shapes(drawing, kind: str) -> list[Shape]:
    return [part for part in drawing.named(kind) if isinstance(part, Shape)]


def words(drawing, kind: str) -> list[Words]:
    return [part for part in drawing.named(kind) if isinstance(part, Words)]


def points(path: str) -> list[tuple[float, float]]:
    """Return the points of a path of straight lines."""
    numbers = [float(one) for one in re.findall(r"-?[\d.]+", path)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def dial_of(card: Document, grey: bool = False):
    return geometry(ENGLISH, card, grey)["dial"]


@pytest.mark.parametrize("name", ALL)
def test_each_drawing_says_in_words_what_it_shows(cards, name):
    card = cards[name]
    made = geometry(ENGLISH, card)
    order = ["calibration", "true-airspeed", "polar", "dial", "ladder"]
    assert list(made) == sorted(made, key=order.index)
    assert set(made) == {*NAMES, *(["polar"] if card.table("polar") else [])}
    titles = {
        "dial": "Airspeed indicator of",
        "ladder": "Airspeed scale of",
        "calibration": "Calibration curve of",
        "true-airspeed": "True airspeed of",
        "polar": "Polar of",
    }
    for drawing, tree in drawn(card).items():
        assert tree.get("role") == "img"
        title = f"{titles[drawing]} {card.head.registration}"
        assert tree.find(f"{SVG}title").text == title
        assert tree.find(f"{SVG}desc").text == made[drawing].description
        assert not re.search(r"\d[.]\d{3,}", ElementTree.tostring(tree, "unicode")), drawing
    for drawing, tree in drawn(card, alone=True).items():
        said = f"{titles[drawing]} {card.head.registration}: {made[drawing].description}"
        assert tree.find(f"{SVG}title").text == said


def test_the_polar_is_drawn_by_its_points_and_its_tangent_from_nothing(cards):
    """Least sink is 0.69 m/s at IAS 83 and best glide 0.76 at 103, whose CAS is 103.7."""
    card = cards["ZZ-WTR"]
    drawing = geometry(ENGLISH, card)["polar"]
    (curve,), (tangent,) = drawing.named("curve"), drawing.named("tangent")
    drawn, straight = points(curve.path), points(tangent.path)
    assert len(drawn) == len(list(card.table("polar").rows)) == 16
    (left, top), (right, foot) = straight
    slope = (foot - top) / (right - left)
    # how far the tangent lies below each point: nowhere, and not at all where it touches
    over = [top + (x - left) * slope - y for x, y in drawn]
    assert max(over) < 0.4
    touches = drawn[5]
    assert over[5] == pytest.approx(0.0, abs=0.4)
    assert min(drawn, key=lambda point: point[1]) == drawn[2]
    number = {one.text: one.x for one in words(drawing, "number")}
    scale = (number["250"] - number["100"]) / 150
    assert touches[0] == pytest.approx(number["100"] + 3.7 * scale, abs=0.3)
    assert drawing.description.endswith(
        "least 0.69 m/s at 85 km/h, best glide 0.76 m/s at 104 km/h"
    )
    assert [one.text for one in words(drawing, "what")] == ["525 kg"]


def test_the_description_has_every_marking(cards):
    assert dial_of(cards["ZZ-TUA"]).description == (
        "white arc 57 to 120; green arc 65 to 163; yellow arc 163 to 203; flaps 10 to 150; "
        "red line 203; blue line 90; lower red line 62 kt"
    )


def test_drawings_are_made_of_the_documents_figures_alone(cards):
    card = cards["ZZ-DUB"]
    bare = replace(
        card,
        tables=(),
        given=(),
        basis=replace(card.basis, calibration=(), bounds=(), stall=(), weights=()),
    )
    assert drawings(Templates(), bare) == drawings(Templates(), card)


# -- the dial ------------------------------------------------------------------------------------


def ends_of(path: str) -> tuple[float, float]:
    """Return the angles, deg clockwise from the top, between which a band is drawn."""
    numbers = [float(x) for x in re.findall(r"-?[\d.]+", path)]
    (a, b), (c, d) = numbers[0:2], numbers[7:9]
    return angle_of(a, b), angle_of(c, d)


def angle_of(x: float, y: float) -> float:
    return math.degrees(math.atan2(x, -y)) % 360


def arcs_of(dial) -> dict[str, Shape]:
    return {part.kind.split()[1]: part for part in shapes(dial, "arc")}


@pytest.mark.parametrize("name", ALL)
def test_arcs_lines_and_numbers_stand_on_one_scale(cards, name):
    card = cards[name]
    dial, markings = dial_of(card), card.basis.markings
    scale = scale_for(markings)

    def angle(speed: float) -> float:
        return FIRST + SWEEP * (speed - scale.first) / (scale.last - scale.first)

    arcs = arcs_of(dial)
    assert set(arcs) == {arc.name for arc in markings.arcs}
    for arc in markings.arcs:
        ends = [angle(arc.low), angle(arc.high)]
        assert ends_of(arcs[arc.name].path) == pytest.approx(ends, abs=0.1)
    for line in markings.lines:
        (part,) = shapes(dial, f"line {line.name}")
        x, y = np.mean(points(part.path), axis=0)
        assert angle_of(x, y) == pytest.approx(angle(line.at), abs=0.1)
    limits = shapes(dial, "flaps end")
    for limit, part in zip(markings.flaps, limits, strict=True):
        assert angle_of(*points(part.path)[0]) == pytest.approx(angle(limit.at), abs=0.1)
    numbers = [part for part in words(dial, "number") if part.kind == "number"]
    assert 5 <= len(numbers) <= 12
    for number in numbers:
        at = angle_of(number.x, number.y)
        assert at == pytest.approx(angle(float(number.text)), abs=0.01)
    ranks = {rank: shapes(dial, f"tick {rank}")[0] for rank in ("major", "middle", "minor")}
    for rank, part in ranks.items():
        ticks = points(part.path)[::2]
        speeds = scale.divisions[rank]
        assert len(ticks) == len(speeds)
        for tick, speed in zip(ticks, speeds, strict=True):
            assert angle_of(*tick) == pytest.approx(angle(speed), abs=0.1)


def test_an_mph_indicator_has_knots_inside(cards):
    dial = dial_of(cards["ZZ-DUA"])
    assert [part.text for part in words(dial, "unit")] == ["mph", "kt"]
    numbers = words(dial, "number")
    outer = {float(one.text): angle_of(one.x, one.y) for one in numbers if one.kind == "number"}
    per_mph = (outer[140] - outer[60]) / 80
    inner = words(dial, "number inner")
    assert len(inner) > 3
    for one in inner:
        mph = float(one.text) * 1852 / 1609.344
        at = outer[60] + (mph - 60) * per_mph
        assert angle_of(one.x, one.y) == pytest.approx(at, abs=0.02)
    assert dial_of(cards["ZZ-TUA"]).named("inner") == []


def test_the_same_bench_card_moves_no_painted_arc(cards):
    painted, bare = (dial_of(cards[name]) for name in ("ZZ-DUB", "ZZ-WHA"))
    assert painted.description.startswith("white arc 38 to 79")
    assert bare.description.startswith("white arc 47 to 104")


@pytest.mark.parametrize("name", ALL)
def test_words_on_the_dial_keep_clear_of_one_another(cards, name):
    dial = dial_of(cards[name])
    labels = [*words(dial, "number"), *words(dial, "name")]
    boxes = [
        (one.x - w, one.y - h, one.x + w, one.y + h, one.text)
        for one in labels
        for w, h in [(0.25 * one.size * len(one.text), 0.34 * one.size)]
    ]
    for i, (a, b, c, d, text) in enumerate(boxes):
        assert math.hypot(max(abs(a), abs(c)), max(abs(b), abs(d))) < 126, text
        for e, f, g, h, other in boxes[i + 1 :]:
            assert c < e or g < a or d < f or h < b, (text, other)


def texts(tree: ElementTree.Element):
    """Yield the texts of a drawing, each with what its group and its drawing say of it."""
    for group in tree.iter(f"{SVG}g"):
        for text in group.iter(f"{SVG}text"):
            yield text, {**tree.attrib, **group.attrib}


def test_type_on_the_dial_is_high_enough_at_58_mm(cards):
    unit = 58 / 252
    found = list(texts(drawn(cards["ZZ-DUA"])["dial"]))
    assert len(found) > 10
    for text, look in found:
        height = 0.698 * float(look["font-size"]) * unit
        assert height >= (2.2 if look["class"] == "number" else 1.8), text.text


def test_no_markings_no_dial_and_no_ladder(fleet, definitions):
    path = definitions / "types" / "wheatear-15.yaml"
    text = path.read_text()
    start = text.index("markings:")
    path.write_text(text[:start] + text[text.index("calibration:") :])
    bare = Aircraft(read_fleet(definitions).aircraft[-1])
    assert bare.registration == "ZZ-WTR"
    found = drawings(Templates(), make_document(bare, fleet.school))
    assert set(found) == {"calibration", "true-airspeed", "polar"}


# -- black and white -----------------------------------------------------------------------------


def grey_picture(tree: ElementTree.Element, folder, width: int) -> np.ndarray:
    """Return a drawing as a printer without colour would show it, from 0 black to 1 white."""
    import weasyprint

    ElementTree.register_namespace("", SVG[1:-1])
    svg = ElementTree.tostring(tree, "unicode")
    html = (
        f"<style>@page {{ size: {width}mm {width}mm; margin: 0 }} body {{ margin: 0 }} "
        f"svg {{ display: block; width: {width}mm; height: {width}mm }} "
        f"@font-face {{ font-family: 'IBM Plex Sans Condensed'; font-weight: 600; "
        f"src: url({FILES.as_uri()}/IBMPlexSansCondensed-SemiBold.ttf) }}</style>{svg}"
    )
    weasyprint.HTML(string=html).write_pdf(folder / "one.pdf")
    subprocess.run(
        ["pdftoppm", "-r", "300", "-gray", "-singlefile", folder / "one.pdf", folder / "one"],
        check=True,
    )
    return np.asarray(Image.open(folder / "one.pgm"), dtype=float) / 255


def along(picture: np.ndarray, dial, name: str) -> np.ndarray:
    """Return greys along the middle of a band, clear of its ends and its name."""
    start, end = ends_of(arcs_of(dial)[name].path)
    turns = np.arange(start + 2, end - 2, 0.25)
    for label in words(dial, f"band {name}"):
        turns = turns[np.abs(turns - angle_of(label.x, label.y)) > 22]
    radius = sum(BANDS[name]) / 2
    scale = picture.shape[0] / 252
    x = (126 + radius * np.sin(np.radians(turns))) * scale
    y = (126 - radius * np.cos(np.radians(turns))) * scale
    return picture[y.astype(int), x.astype(int)]


def pattern(greys: np.ndarray) -> str:
    dark = (greys < 0.5).mean()
    if dark < 0.15:
        return "hollow"
    return "solid" if dark > 0.85 else "striped"


@pytest.mark.parametrize("grey", [False, True])
@pytest.mark.parametrize("name", ["ZZ-TUA", "ZZ-DUA", "ZZ-WTR"])
def test_without_colour_each_arc_still_has_a_pattern_of_its_own(cards, tmp_path, name, grey):
    card = cards[name]
    dial = dial_of(card, grey)
    picture = grey_picture(drawn(card, grey=grey)["dial"], tmp_path, 58)
    found = {arc: pattern(along(picture, dial, arc)) for arc in arcs_of(dial)}
    expected = {"white": "hollow", "green": "solid", "yellow": "striped"}
    assert found == {arc: expected[arc] for arc in found}


def test_the_legend_names_every_pattern():
    looks, names = {}, set()
    for name in (*MARKINGS, "yellow-triangle", "flap-limit"):
        tree = ElementTree.fromstring(swatch(Templates(), name, alone=True))
        names.add(tree.find(f"{SVG}title").text)
        bodies = list(tree.iter(f"{SVG}path"))
        looks[name] = [
            (part.get("d"), part.get("fill") == "none", part.get("stroke-width")) for part in bodies
        ] + [len(bodies), bodies[0].get("fill") == "#ffffff"]
    assert len({str(one) for one in looks.values()}) == len(looks) == len(names)


def test_a_swatch_beside_its_name_says_nothing_more():
    for name in MARKINGS:
        found = str(swatch(Templates(), name))
        assert 'aria-hidden="true"' in found
        assert "<title>" not in found


@pytest.mark.parametrize("name", ["ZZ-TUA", "ZZ-WTR"])
def test_grey_drawings_have_no_colour(cards, name):
    trees = drawn(cards[name], grey=True)
    swatches = [
        ElementTree.fromstring(swatch(Templates(), one, grey=True, alone=True)) for one in MARKINGS
    ]
    for tree in (trees["dial"], trees["ladder"], *swatches):
        for part in tree.iter():
            for key in ("fill", "stroke"):
                assert part.get(key) in (None, "none", "#000000", "#ffffff")


@pytest.mark.parametrize("name", ALL)
def test_bands_that_touch_differ_and_carry_their_names(cards, name):
    card = cards[name]
    for drawing, tree in drawn(card).items():
        if drawing not in ("dial", "ladder"):
            continue
        found = {text.text for text, look in texts(tree) if "band" in look["class"]}
        assert found == {arc.name for arc in card.basis.markings.arcs}
        stripes = [one for one in tree.iter(f"{SVG}path") if one.get("class") == "stripes yellow"]
        assert len(stripes) == ("yellow" in found)


# -- the ladder ----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ALL)
def test_the_ladder_is_straight_and_its_names_stand_apart(cards, name):
    card = cards[name]
    ladder = geometry(ENGLISH, card)["ladder"]
    rungs = [(float(one.text), one.y) for one in words(ladder, "number")]
    (low, bottom), (high, top) = rungs[0], rungs[-1]

    def y(speed: float) -> float:
        return bottom - (bottom - top) * (speed - low) / (high - low)

    for speed, at in rungs:
        assert at == pytest.approx(y(speed), abs=0.02)
    bands = arcs_of(ladder)
    for arc in card.basis.markings.arcs:
        ends = [at for _, at in points(bands[arc.name].path)]
        assert (min(ends), max(ends)) == pytest.approx((y(arc.high), y(arc.low)), abs=0.08)
    for line in card.basis.markings.lines:
        (part,) = shapes(ladder, f"line {line.name}")
        first = float(re.findall(r"-?[\d.]+", part.path)[1])
        off = 8 if line.name == "yellow-triangle" else 0
        assert first == pytest.approx(y(line.at) - off, abs=0.08)
    places = [one.y for one in words(ladder, "name")]
    assert all(b - a >= 13.99 for a, b in itertools.pairwise(places))
    assert all(0 < place < 640 for place in places)
    keep_clear(ladder)


def keep_clear(ladder) -> None:
    """Hold that names stand within a ladder and apart; those that are read downwards, too."""
    boxes = []
    for one in words(ladder, "name"):
        long, high = 0.57 * one.size * len(one.text), one.size
        across, down = (high, long) if one.turn else (long, high)
        x, y = (one.x - across / 2, one.y) if one.turn else (one.x, one.y - down / 2)
        boxes.append((x, y, x + across, y + down, one.text))
    for i, (a, b, c, d, text) in enumerate(boxes):
        assert 78 <= a <= c <= 112, text  # beside the bands
        assert 0 <= b <= d <= 640, text
        for e, f, g, h, other in boxes[i + 1 :]:
            assert c <= e or g <= a or d <= f or h <= b, (text, other)


def test_a_long_setting_is_read_downwards_and_whole(cards):
    """Where the ladder has room for four letters beside it, in one of two columns."""
    card = cards["ZZ-DUB"]
    settings = ("TAKE-OFF", "APPROACH", "10", "INTERMEDIATE 2", "half")
    flaps = tuple(FlapLimit(one, 125.0 - 4 * at) for at, one in enumerate(settings))
    basis = replace(card.basis, markings=replace(card.basis.markings, flaps=flaps))
    ladder = geometry(ENGLISH, replace(card, basis=basis))["ladder"]
    keep_clear(ladder)
    turned = {one.text: one.turn for one in words(ladder, "name")}
    assert {one: turned[one] for one in settings} == {
        "TAKE-OFF": 90, "APPROACH": 90, "10": 0, "INTERMEDIATE 2": 90, "half": 0,
    }  # fmt: skip


# -- charts --------------------------------------------------------------------------------------


def axes_of(chart) -> tuple[dict[float, float], dict[float, float]]:
    """Return where the numbers along a chart's two axes stand, by the numbers."""
    found = words(chart, "number")

    def at(one: Words) -> float:
        return float(one.text.replace(",", "").replace("−", "-"))

    return (
        {at(one): one.x for one in found if one.anchor == "middle"},
        {at(one): one.y for one in found if one.anchor == "end"},
    )


def along_axis(marks: dict[float, float], value: float) -> float:
    (a, start), *_, (b, end) = marks.items()
    return start + (value - a) / (b - a) * (end - start)


@pytest.mark.parametrize("name", ALL)
def test_calibration_curves_pass_through_the_manuals_points(cards, flying, name):
    one, card = flying[name], cards[name]
    chart = draw_calibration(ENGLISH, card)
    across, up = axes_of(chart)
    assert len(shapes(chart, "curve")) == len(one.definition.calibration)
    zero = float(shapes(chart, "no-error")[0].path.split()[1].partition("H")[0])
    assert zero == pytest.approx(along_axis(up, 0.0), abs=0.06)
    table = one.definition.calibration[0]
    dots = points(shapes(chart, "dots")[0].path.replace("h0", ""))
    for ias, cas in zip(table.ias, table.cas, strict=True):
        shown = float(one.indicated_from_ias(float(ias)))
        if math.isnan(shown):
            continue
        unit = {"mph": 1852 / 1609.344}.get(one.indicator_unit, 1.0)
        error = float(cas) * (unit if one.units.speed == "kt" else 1.0) - shown
        at = (along_axis(across, shown), along_axis(up, error))
        assert any(math.dist(at, point) < 0.2 for point in dots), (ias, cas)


def test_calibration_curves_differ_without_colour(cards):
    for name in ALL:
        chart = draw_calibration(ENGLISH, cards[name])
        hollow = {part.path for part in shapes(chart, "hollow")}
        dots = [part for part in shapes(chart, "dots") if part.kind == "dots"]
        curves = shapes(chart, "curve")
        looks = [(curve.dash, dot.path in hollow) for curve, dot in zip(curves, dots, strict=True)]
        assert len(set(looks)) == len(looks)


def lines_of(chart) -> list[list[list[tuple[float, float]]]]:
    """Return the lines of each temperature, and of each line its points."""
    return [[points(line) for line in part.path.split("M")[1:]] for part in shapes(chart, "fan")]


def test_tas_lines_are_true_airspeeds(cards, flying):
    one = flying["ZZ-DUB"]
    chart = draw_tas(ENGLISH, cards["ZZ-DUB"])
    across, up = axes_of(chart)
    assert [part.text for part in words(chart, "indicated")] == ["60", "75", "90", "105", "120"]
    assert [part.text for part in words(chart, "name")] == ["ISA −20 °C", "ISA", "ISA +20 °C"]
    cas = float(one.cas_from_ias(one.ias_from_indicated(90.0)))
    for lines, deviation in zip(lines_of(chart), (-20.0, 0.0, 20.0), strict=True):
        assert len(lines) == 5
        oat = float(one.standard_temperature(12000.0)) + deviation
        tas = float(one.tas_from_cas(np.float64(cas), np.float64(12000.0), np.float64(oat)))
        expected = (along_axis(across, tas), along_axis(up, 12000.0))
        assert lines[2][-1] == pytest.approx(expected, abs=0.06)


def test_tas_lines_end_at_the_limit(cards):
    """A line goes as far up as its document says, whatever the axis."""
    card = cards["ZZ-WTR"]
    fast = [one for one in card.basis.tas if one.deviation == 0][-1]
    cut = replace(fast, tas=fast.tas[:7], altitude=fast.altitude[:7])
    lines = tuple(cut if one is fast else one for one in card.basis.tas)
    chart = draw_tas(ENGLISH, replace(card, basis=replace(card.basis, tas=lines)))
    _, up = axes_of(chart)
    tops = [min(y for _, y in line) for line in lines_of(chart)[1]]
    assert tops[0] == pytest.approx(along_axis(up, 6000.0), abs=0.1)
    assert tops[-1] == pytest.approx(along_axis(up, 3000.0), abs=0.1)


def test_an_axis_has_few_round_numbers():
    for low, high in ((36.0, 155.0), (-4.7, 7.1), (0.0, 28000.0), (68.0, 260.0)):
        made = axis(low, high, 0.0, 300.0, 9)
        assert made.first <= low < high <= made.last
        assert 3 <= len(made.marks) <= 10


@pytest.mark.parametrize("name", ALL)
def test_nothing_is_drawn_outside_a_chart(cards, name):
    trees = drawn(cards[name])
    for drawing in ("calibration", "true-airspeed"):
        tree = trees[drawing]
        _, _, width, height = (float(x) for x in tree.get("viewBox").split())
        found = list(texts(tree))
        assert len(found) > 12
        for text, look in found:
            half = 0.24 * float(look["font-size"]) * len(text.text)
            x, y = float(text.get("x")), float(text.get("y"))
            left, right = {
                "middle": (x - half, x + half),
                "end": (x - 2 * half, x),
            }.get(look["text-anchor"], (x, x + 2 * half))
            assert left > -1, text.text
            assert right < width + 1, text.text
            assert 8 < y < height, text.text


def test_a_drawing_without_anything_to_draw_is_left_out(cards):
    card = cards["ZZ-DUB"]
    bare = replace(card, basis=replace(card.basis, markings=None, errors=(), tas=()))
    assert drawings(Templates(), bare) == {}


def test_each_drawing_has_the_size_that_sheets_are_laid_out_by(cards):
    for name, drawing in geometry(ENGLISH, cards["ZZ-DUB"]).items():
        assert drawing.box[2:] == SHAPES[name]
