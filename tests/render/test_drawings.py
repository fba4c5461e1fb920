"""The drawings: their geometry against the aircraft's figures, and their words and patterns."""

import itertools
import math
import re
import subprocess
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from cardgen.airframe.aircraft import Aircraft
from cardgen.definition.fleet import read_fleet
from cardgen.render.axes import axis
from cardgen.render.calibration import draw_calibration
from cardgen.render.dial import BANDS, FIRST, SWEEP, draw_dial
from cardgen.render.ladder import draw_ladder
from cardgen.render.markings import scale_for, shown_markings
from cardgen.render.tas import draw_tas
from cardgen.render.templates import FONTS, Templates
from tests.conftest import ROOT

SVG = "{http://www.w3.org/2000/svg}"
DEMO = ["ZZ-DUA", "ZZ-DUB", "ZZ-DUC", "ZZ-PHN", "ZZ-TUA", "ZZ-WHA", "ZZ-WHB", "ZZ-WTR"]


@pytest.fixture(scope="module")
def flying(aircraft):
    """The demo fleet and the aircraft that has the most of everything."""
    stress = read_fleet(ROOT / "tests" / "definitions" / "stress").aircraft[0]
    return {**aircraft, "stress": Aircraft(stress)}


ALL = [*DEMO, "stress"]


def drawn(name: str, drawing, **options) -> ElementTree.Element:
    """Return a drawing of a template as a tree; it is well-formed."""
    module = Templates().environment.get_template(name).module
    return ElementTree.fromstring(str(module.draw(drawing, "A title", **options)))


def drawings(flying, fleet, name):
    one = flying[name]
    yield "dial.svg", draw_dial(one)
    yield "ladder.svg", draw_ladder(one)
    yield "calibration.svg", draw_calibration(one)
    yield "tas.svg", draw_tas(one, fleet.school)


@pytest.mark.parametrize("name", ALL)
def test_each_drawing_says_in_words_what_it_shows(flying, fleet, name):
    for template, drawing in drawings(flying, fleet, name):
        tree = drawn(template, drawing)
        assert tree.get("role") == "img"
        assert tree.find(f"{SVG}title").text == "A title"
        assert tree.find(f"{SVG}desc").text == drawing.description
        assert not re.search(r"\d[.]\d{3,}", ElementTree.tostring(tree, "unicode")), template


def test_the_description_has_every_marking(flying):
    said = draw_dial(flying["ZZ-TUA"]).description
    assert said == (
        "white arc 57 to 120; green arc 65 to 163; yellow arc 163 to 203; flaps 10 to 150; "
        "red line 203; blue line 90; lower red line 62 kt"
    )


# -- the dial ------------------------------------------------------------------------------------


def ends_of(path: str) -> tuple[float, float]:
    """Return the angles, deg clockwise from the top, between which a band is drawn."""
    numbers = [float(x) for x in re.findall(r"-?[\d.]+", path)]
    (a, b), (c, d) = numbers[0:2], numbers[7:9]
    return tuple(math.degrees(math.atan2(x, -y)) % 360 for x, y in ((a, b), (c, d)))


@pytest.mark.parametrize("name", ALL)
def test_arcs_lines_and_numbers_stand_on_one_scale(flying, name):
    one = flying[name]
    dial, shown = draw_dial(one), shown_markings(one)
    scale = scale_for(shown)

    def angle(speed: float) -> float:
        return FIRST + SWEEP * (speed - scale.first) / (scale.last - scale.first)

    for arc in dial.arcs:
        assert ends_of(arc.path) == pytest.approx([angle(x) for x in shown.arcs[arc.name]], abs=0.1)
    for line in dial.lines:
        assert line.angle == pytest.approx(angle(shown.lines[line.name]), abs=0.01)
    for limit, (_, speed) in zip(dial.flaps, shown.flaps, strict=True):
        assert limit.angle == pytest.approx(angle(speed), abs=0.01)
    numbers = [tick for tick in dial.ticks if tick.number]
    assert 5 <= len(numbers) <= 12
    for tick in numbers:
        assert tick.angle == pytest.approx(angle(float(tick.number.text)), abs=0.01)


def test_an_mph_indicator_has_knots_inside(flying):
    dial = draw_dial(flying["ZZ-DUA"])
    assert (dial.unit, dial.inner_unit) == ("mph", "kt")
    outer = {float(tick.number.text): tick.angle for tick in dial.ticks if tick.number}
    per_mph = (outer[140] - outer[60]) / 80
    for tick in dial.inner:
        if tick.number:
            mph = float(tick.number.text) * 1852 / 1609.344
            assert tick.angle == pytest.approx(outer[60] + (mph - 60) * per_mph, abs=0.02)
    assert draw_dial(flying["ZZ-TUA"]).inner == ()


def test_the_same_bench_card_moves_no_painted_arc(flying):
    painted, bare = (draw_dial(flying[name]) for name in ("ZZ-DUB", "ZZ-WHA"))
    assert painted.description.startswith("white arc 38 to 79")
    assert bare.description.startswith("white arc 47 to 104")


@pytest.mark.parametrize("name", ALL)
def test_words_on_the_dial_keep_clear_of_one_another(flying, name):
    dial = draw_dial(flying[name])
    labels = [tick.number for tick in (*dial.ticks, *dial.inner) if tick.number]
    labels += [line.label for line in dial.lines if line.label]
    labels += [limit.label for limit in dial.flaps]
    boxes = [
        (one.x - w, one.y - h, one.x + w, one.y + h, one.text)
        for one in labels
        for w, h in [(0.25 * one.size * len(one.text), 0.34 * one.size)]
    ]
    for i, (a, b, c, d, text) in enumerate(boxes):
        assert math.hypot(max(abs(a), abs(c)), max(abs(b), abs(d))) < 126, text
        for e, f, g, h, other in boxes[i + 1 :]:
            assert c < e or g < a or d < f or h < b, (text, other)


def test_type_on_the_dial_is_high_enough_at_58_mm(flying):
    tree = drawn("dial.svg", draw_dial(flying["ZZ-DUA"]))
    unit = 58 / 252
    for text in tree.iter(f"{SVG}text"):
        height = 0.698 * float(text.get("font-size")) * unit
        assert height >= (2.2 if text.get("class") == "number" else 1.8), text.text


def test_no_markings_no_dial_and_no_ladder(flying, definitions):
    path = definitions / "types" / "wheatear-15.yaml"
    text = path.read_text()
    start = text.index("markings:")
    path.write_text(text[:start] + text[text.index("calibration:") :])
    bare = Aircraft(read_fleet(definitions).aircraft[-1])
    assert bare.registration == "ZZ-WTR"
    assert draw_dial(bare) is None
    assert draw_ladder(bare) is None
    assert draw_calibration(bare) is not None


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
        f"src: url({FONTS.as_uri()}/IBMPlexSansCondensed-SemiBold.ttf) }}</style>{svg}"
    )
    weasyprint.HTML(string=html).write_pdf(folder / "one.pdf")
    subprocess.run(
        ["pdftoppm", "-r", "300", "-gray", "-singlefile", folder / "one.pdf", folder / "one"],
        check=True,
    )
    return np.asarray(Image.open(folder / "one.pgm"), dtype=float) / 255


def along(picture: np.ndarray, arc, radius: float) -> np.ndarray:
    """Return greys along the middle of a band, clear of its ends and its name."""
    start, end = ends_of(arc.path)
    turns = np.arange(start + 2, end - 2, 0.25)
    if arc.label is not None:
        middle = math.degrees(math.atan2(arc.label.x, -arc.label.y)) % 360
        turns = turns[np.abs(turns - middle) > 22]
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
def test_without_colour_each_arc_still_has_a_pattern_of_its_own(flying, tmp_path, name, grey):
    dial = draw_dial(flying[name])
    picture = grey_picture(drawn("dial.svg", dial, grey=grey), tmp_path, 58)
    found = {}
    for arc in dial.arcs:
        inner, outer = BANDS[arc.name]
        found[arc.name] = pattern(along(picture, arc, (inner + outer) / 2))
    expected = {"white": "hollow", "green": "solid", "yellow": "striped"}
    assert found == {arc: expected[arc] for arc in found}


def test_the_legend_names_every_pattern(flying):
    module = Templates().environment.get_template("dial.svg").module
    shapes = {}
    for name in ("White arc", "Green arc", "Yellow arc", "Red line", "Blue line", "Lower red line"):
        tree = ElementTree.fromstring(str(module.swatch(name, "what it looks like")))
        assert tree.find(f"{SVG}title").text == "what it looks like"
        bodies = [part for part in tree if part.tag != f"{SVG}title"]
        shapes[name] = [
            (part.tag, part.get("d"), part.get("height"), part.get("fill") == "none")
            for part in bodies
        ] + [len(bodies), bodies[0].get("fill") == "#ffffff"]
    assert len({str(one) for one in shapes.values()}) == len(shapes)


@pytest.mark.parametrize("name", ["ZZ-TUA", "ZZ-WTR"])
def test_grey_drawings_have_no_colour(flying, name):
    one = flying[name]
    for tree in (
        drawn("dial.svg", draw_dial(one), grey=True),
        drawn("ladder.svg", draw_ladder(one), grey=True),
    ):
        for part in tree.iter():
            for key in ("fill", "stroke"):
                assert part.get(key) in (None, "none", "#000000", "#ffffff")


@pytest.mark.parametrize("name", ALL)
def test_bands_that_touch_differ_and_carry_their_names(flying, name):
    for template, drawing in (
        ("dial.svg", draw_dial(flying[name])),
        ("ladder.svg", draw_ladder(flying[name])),
    ):
        tree = drawn(template, drawing)
        names = {text.text for text in tree.iter(f"{SVG}text") if "band" in text.get("class", "")}
        assert names == {arc for arc in ("white", "green", "yellow") if f"{arc} arc" in
                         drawing.description}  # fmt: skip
        stripes = [one for one in tree.iter(f"{SVG}path") if one.get("class") == "stripes yellow"]
        assert len(stripes) == ("yellow" in names)


# -- the ladder ----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ALL)
def test_the_ladder_is_straight_and_its_names_stand_apart(flying, name):
    one = flying[name]
    ladder, shown = draw_ladder(one), shown_markings(one)
    rungs = [(float(rung.number), rung.y) for rung in ladder.rungs if rung.number]
    (low, bottom), (high, top) = rungs[0], rungs[-1]

    def y(speed: float) -> float:
        return bottom - (bottom - top) * (speed - low) / (high - low)

    for speed, at in rungs:
        assert at == pytest.approx(y(speed), abs=0.02)
    for band in ladder.bands:
        if band.name != "flaps":
            slow, fast = shown.arcs[band.name]
            assert (band.y, band.y + band.height) == pytest.approx((y(fast), y(slow)), abs=0.05)
    places = [mark.name_y for mark in ladder.marks if mark.name]
    assert all(b - a >= 13.99 for a, b in itertools.pairwise(places))
    assert all(0 < place < 640 for place in places)


# -- charts --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ALL)
def test_calibration_curves_pass_through_the_manuals_points(flying, name):
    one = flying[name]
    chart = draw_calibration(one)
    assert len(chart.curves) == len(one.definition.calibration)
    assert chart.zero == chart.y.at(0.0)
    table = one.definition.calibration[0]
    curve = chart.curves[0]
    for ias, cas in zip(table.ias, table.cas, strict=True):
        shown = float(one.indicated_from_ias(float(ias)))
        if math.isnan(shown):
            continue
        unit = {"mph": 1852 / 1609.344}.get(one.indicator_unit, 1.0)
        error = float(cas) * (unit if one.units.speed == "kt" else 1.0) - shown
        at = (chart.x.at(shown), chart.y.at(error))
        assert any(math.dist(at, point) < 0.2 for point in curve.points), (ias, cas)


def test_calibration_curves_differ_without_colour(flying):
    for name in ALL:
        looks = [(curve.dash, curve.alternate) for curve in draw_calibration(flying[name]).curves]
        assert len(set(looks)) == len(looks)


def test_tas_lines_are_true_airspeeds(flying, fleet):
    one = flying["ZZ-DUB"]
    chart = draw_tas(one, fleet.school)
    assert [fan.name for fan in chart.fans] == ["60", "75", "90", "105", "120"]
    assert [one.name for one in chart.temperatures] == ["ISA −20 °C", "ISA", "ISA +20 °C"]
    fan = chart.fans[2]
    cas = float(one.cas_from_ias(one.ias_from_indicated(90.0)))
    for line, deviation in zip(fan.lines, (-20.0, 0.0, 20.0), strict=True):
        x, y = (float(number) for number in line.path.rsplit("L", 1)[1].split())
        oat = float(one.standard_temperature(12000.0)) + deviation
        tas = float(one.tas_from_cas(np.float64(cas), np.float64(12000.0), np.float64(oat)))
        assert (x, y) == pytest.approx((chart.x.at(tas), chart.y.at(12000.0)), abs=0.06)


def test_tas_lines_end_at_the_limit(flying, fleet):
    """The glider's limit is a TAS above 3000 m: its fastest lines do not reach 6000 m."""
    chart = draw_tas(flying["ZZ-WTR"], fleet.school)
    tops = [
        min(float(p.split()[1]) for p in fan.lines[1].path[1:].split("L")) for fan in chart.fans
    ]
    assert tops[0] == pytest.approx(chart.y.at(6000.0), abs=0.1)


def test_an_axis_has_few_round_numbers():
    for low, high in ((36.0, 155.0), (-4.7, 7.1), (0.0, 28000.0), (68.0, 260.0)):
        made = axis(low, high, 0.0, 300.0, 9)
        assert made.first <= low < high <= made.last
        assert 3 <= len(made.marks) <= 10


def anchored(part: ElementTree.Element, anchor: str = "start"):
    """Yield the texts of a drawing, each with its anchor or that of the group it is in."""
    anchor = part.get("text-anchor", anchor)
    if part.tag == f"{SVG}text":
        yield part, anchor
    for inner in part:
        yield from anchored(inner, anchor)


@pytest.mark.parametrize("name", ALL)
def test_nothing_is_drawn_outside_a_chart(flying, fleet, name):
    for template, drawing in list(drawings(flying, fleet, name))[2:]:
        tree = drawn(template, drawing)
        _, _, width, height = (float(x) for x in tree.get("viewBox").split())
        for text, anchor in anchored(tree):
            half = 0.24 * float(text.get("font-size") or 12) * len(text.text)
            x, y = float(text.get("x")), float(text.get("y"))
            left, right = {
                "middle": (x - half, x + half),
                "end": (x - 2 * half, x),
            }.get(anchor, (x, x + 2 * half))
            assert left > -1, text.text
            assert right < width + 1, text.text
            assert 8 < y < height, text.text
