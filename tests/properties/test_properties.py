"""What holds of every card, whatever the definition, held against thousands of random ones.

Where a test works a figure out again it does so in fractions, from the text of the definition.
"""

import csv
import io
import json
import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import assume, given, note
from hypothesis import strategies as st

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.stalling import of_gear
from cardgen.cards.air import Level, levels, occurs, warmths
from cardgen.definition.cruise import Cruise, Row, settings, temperature
from cardgen.definition.model import School, SpeedEntry
from cardgen.definition.names import slug
from cardgen.definition.places import Figure, Span
from cardgen.definition.speeds import SPEEDS
from cardgen.document.data import from_json, to_json
from cardgen.document.record import Computed, Document, Entered
from cardgen.document.rounding import Sense
from cardgen.render.data import table_csv
from cardgen.render.page import aircraft_page
from cardgen.render.templates import Templates
from cardgen.review.marks import card_mark, figures_mark, marked
from cardgen.words.english import ENGLISH
from tests import reader
from tests.properties.strategies import Sample, read, samples
from tests.reader import DASH, Cell, Table
from tests.sampling import examples

pytestmark = pytest.mark.xdist_group("random aircraft")  # so that each is made once

THERE_AND_BACK = 1e-9
NOISE = 1e-6  # of the last printed place: a document keeps six decimals
FLOAT = 1e-12  # what the arithmetic of a computed value leaves
SPEED = {"kt": Fraction(1852), "mph": Fraction("1609.344"), "km/h": Fraction(1000)}  # m/h


@dataclass(frozen=True)
class Card(reader.Card):
    """A card, and what it was made from."""

    aircraft: Aircraft
    school: School


def card_of(sample: Sample) -> Card:
    return Card(sample.document, sample.aircraft, sample.school)


# -- the definition, read again in fractions ---------------------------------------------------


def exact(figure: Figure | Level) -> Fraction:
    return Fraction(figure.entered.text if isinstance(figure, Level) else figure.text)


def between(at: Fraction, xs: list[Fraction], ys: list[Fraction]) -> Fraction | None:
    """Return y at x on a line through points; None outside them."""
    for left, right, low, high in zip(xs, xs[1:], ys, ys[1:], strict=False):
        if left <= at <= right:
            return low + (at - left) * (high - low) / (right - left)
    return None


def converted(speed: Fraction, source: str, target: str) -> Fraction:
    return speed * SPEED[source] / SPEED[target]


class Exact:
    """The same answers as an aircraft's, in fractions."""

    def __init__(self, aircraft: Aircraft) -> None:
        self.aircraft = aircraft
        self.unit, self.own = aircraft.units.speed, aircraft.indicator_unit
        given = aircraft.definition.airframe.instrument_correction
        readings = given.readings if given else []
        self.shown = [exact(shown) for shown, _ in readings]
        self.right = [exact(right) for _, right in readings]

    def ias_of(self, shown: Fraction) -> Fraction | None:
        right = between(shown, self.shown, self.right) if self.shown else shown
        return None if right is None else converted(right, self.own, self.unit)

    def shown_at(self, ias: Fraction | None) -> Fraction | None:
        if ias is None:
            return None
        right = self.manual(ias)
        return between(right, self.right, self.shown) if self.shown else right

    def manual(self, ias: Fraction) -> Fraction:
        """Return an IAS in the indicator's unit, without the bench card."""
        return converted(ias, self.unit, self.own)

    def _table(self, flaps: str, source: str) -> tuple[list[Fraction], list[Fraction]] | None:
        for table in self.aircraft.definition.calibration:
            if (table.flaps or self.aircraft.flaps[0], table.static_source) == (flaps, source):
                ias, cas = zip(*table.readings, strict=True)
                return [*map(exact, ias)], [*map(exact, cas)]
        return None

    def settings(self) -> list[tuple[str, str]]:
        every = [(one, source) for source in (NORMAL, ALTERNATE) for one in self.aircraft.flaps]
        return [setting for setting in every if self._table(*setting)]

    def cas_at(self, ias: Fraction | None, flaps: str, source: str = NORMAL) -> Fraction | None:
        table = self._table(flaps, source)
        return between(ias, *table) if table and ias is not None else None

    def ias_at(self, cas: Fraction, flaps: str, source: str = NORMAL) -> Fraction | None:
        table = self._table(flaps, source)
        return between(cas, table[1], table[0]) if table else None

    def meant_by(self, cas: float, flaps: str) -> Fraction:
        """Return the point of a table that a float stands beside, as 97.8 does; else the float."""
        points = (self._table(flaps, NORMAL) or ([], []))[1]
        return next((one for one in points if math.isclose(one, cas, rel_tol=FLOAT)), Fraction(cas))

    def deviation(self, altitude: Fraction, oat: Fraction) -> Fraction:
        """Return the difference from the standard atmosphere, in the manual's degrees."""
        units = self.aircraft.units
        metres = altitude * (Fraction("0.3048") if units.altitude == "ft" else 1)
        celsius = 15 - Fraction("0.0065") * min(metres, Fraction(11000))
        return oat - (celsius if units.temperature == "C" else celsius * 9 / 5 + 32)


def is_gap(cell: Cell) -> bool:
    """Whether a cell is a dash; a dash never has a value, and all else has."""
    assert (cell.text == DASH) == (cell.value is None) == (cell.origin is None), cell
    return cell.value is None


# -- there and back ----------------------------------------------------------------------------


def back(value: float) -> object:
    return pytest.approx(value, rel=THERE_AND_BACK)


@examples(10, 500)
@given(samples(), st.data())
def test_indicated_to_calibrated_and_back(sample, data):
    aircraft = sample.aircraft
    flaps = data.draw(st.sampled_from(aircraft.flaps))
    source = data.draw(st.sampled_from((NORMAL, ALTERNATE)))
    assume(table := aircraft.calibration(flaps, source))
    ends = [float(aircraft.indicated_from_ias(float(x))) for x in table.ias]
    inside = [x for x in ends if not math.isnan(x)]
    assume(inside)
    for share in data.draw(st.lists(st.floats(0.0, 1.0), min_size=1, max_size=5)):
        shown = min(inside) + share * (max(inside) - min(inside))
        ias = float(aircraft.ias_from_indicated(shown))
        cas = float(aircraft.cas_from_ias(ias, flaps, source))
        if math.isnan(cas):
            continue
        again = float(aircraft.ias_from_cas(cas, flaps, source))
        assert again == back(ias)
        assert float(aircraft.cas_from_ias(again, flaps, source)) == back(cas)
        reading = float(aircraft.indicated_from_ias(again))
        if not math.isnan(reading):
            assert reading == back(shown)


# -- rounding ----------------------------------------------------------------------------------

MARKINGS = {
    "White arc": ("minimum", "maximum"),
    "Green arc": ("minimum", "maximum"),
    "Yellow arc": ("maximum", "maximum"),
    "Red line": ("maximum",),
    "Lower red line": ("minimum",),
    "Yellow triangle": ("minimum",),
}
FIELDS = {
    "White arc": "white",
    "Green arc": "green",
    "Yellow arc": "yellow",
    "Red line": "red_line",
    "Blue line": "blue_line",
    "Lower red line": "red_radial",
    "Yellow triangle": "yellow_triangle",
}
BY_IAS = "indicated-airspeed"
DOWN = ("altitude-limits", "manoeuvring", "glide", "economy", "crosswind-limit")
UP = ("stall", "approach", "crosswind")


NAMED: dict[str, Sense] = {"window open": "maximum", "cruise climb": "target"}


def sense_of(table: Table, row: tuple[Cell, ...], column: int) -> Sense:
    """Return which way the number of a cell, and the small one beside it, is rounded."""
    if table.name == "speeds":
        return NAMED.get(row[0].text) or SPEEDS[row[0].text].sense
    if table.name == "markings":
        end = table.columns[column].name.rpartition("-")[2]
        return dict(zip(("from", "to"), MARKINGS.get(row[0].text, ()), strict=False)).get(
            end, "target"
        )
    column_name, of = table.columns[column].name, table.name.partition("-for-")[0]
    if of in DOWN or column_name in ("ratio", "best-glide-ratio"):
        return "maximum"
    if column_name == "least-sink-sink":
        return "minimum"
    return "minimum" if of in UP else "target"


def computed_numbers(card: Card) -> Iterator[tuple[str, Cell, Sense]]:
    for table in card.tables:
        for row in table.rows:
            for column, cell in enumerate(row):
                sense = sense_of(table, row, column)
                fuel = table.name.startswith("cruise-at")
                for one, way in ((cell, sense), (cell.also, "minimum" if fuel else sense)):
                    if one and isinstance(one.origin, Computed):
                        yield table.name, one, way


@examples(10, 500)
@given(samples())
def test_a_maximum_is_not_rounded_up_nor_a_minimum_down(sample):
    for name, cell, sense in computed_numbers(card_of(sample)):
        lower = cell.text.partition("–")[0]  # of a range
        number = float(lower.replace("−", "-").replace(",", ""))
        if cell.label in ("add", "take off"):
            number = math.copysign(number, cell.value)
        place = 10.0 ** -len(cell.text.partition(".")[2])
        most = place / 2 if sense == "target" else place
        assert abs(number - cell.value) <= most + NOISE * place, (name, cell)
        if sense == "maximum":
            assert number <= cell.value + NOISE * place, (name, cell)
        if sense == "minimum":
            assert number >= cell.value - NOISE * place, (name, cell)


# -- the bench card ----------------------------------------------------------------------------


def entry_rows(card: Card) -> Iterator[tuple[str, SpeedEntry, tuple[Cell, ...]]]:
    """Return the V-speeds with their rows, in the order of the table."""
    definition = card.aircraft.definition
    speeds = {**definition.speeds, **definition.other_speeds}
    left = {name: iter(entries) for name, entries in speeds.items()}
    for row in card.table("speeds").rows:
        yield row[0].text, next(left[row[0].text]), row
    assert not [entry for entries in left.values() for entry in entries]


def tighter(cell: Cell, manual: Fraction, sense: Sense) -> None:
    """Hold that a cell is no wider than what the manual says, in the indicator's unit."""
    if is_gap(cell):
        return
    number, bound = float(cell.text), float(manual)
    inexact = 1e-6  # what a document leaves of a value
    if sense == "maximum":
        assert max(number - NOISE, cell.value - inexact) <= bound * (1 + FLOAT), cell
    if sense == "minimum":
        assert min(number + NOISE, cell.value + inexact) >= bound * (1 - FLOAT), cell


def as_shown(real: Exact, cell: Cell, figure: Figure, sense: Sense, kept_within: bool) -> None:
    """Hold that an entered speed is read through the bench card, and a maximum not above it."""
    if kept_within:
        tighter(cell, real.manual(exact(figure)), sense)
        return
    shown = real.shown_at(exact(figure))
    assert is_gap(cell) == (shown is None)
    if shown is not None:
        assert cell.value == pytest.approx(float(shown), abs=1e-6)


@examples(10, 500)
@given(samples())
def test_a_bench_card_only_tightens_a_limit_and_moves_all_else(sample):
    card = card_of(sample)
    real, markings = Exact(card.aircraft), card.aircraft.definition.markings
    for name, entry, row in entry_rows(card):
        if entry.ias is not None:
            if isinstance(entry.ias, Span):
                continue
            sense = NAMED.get(name) or SPEEDS[name].sense
            as_shown(real, row[1], entry.ias, sense, sense == "maximum" or name == "VMC")
    table = card.table("markings")
    for row in table.rows if table and markings else ():
        title, senses = row[0].text, MARKINGS.get(row[0].text, ("target",))
        marking = getattr(markings, FIELDS[title])
        ends = (marking.from_, marking.to) if title.endswith("arc") else (marking.at,)
        at = dict(zip((column.name for column in table.columns), row, strict=True))
        for end, figure, sense in zip(("from", "to"), ends, senses, strict=False):
            painted = float(real.manual(exact(figure)))
            assert at[end].value == pytest.approx(painted, abs=1e-6)
            if f"shown-{end}" in at:
                held = sense == "maximum" or FIELDS[title] == "red_radial"  # as VMC, above
                as_shown(real, at[f"shown-{end}"], figure, sense, held)


# -- true airspeed -----------------------------------------------------------------------------


@examples(10, 500)
@given(samples(), st.data())
def test_true_airspeed_grows_with_altitude_and_temperature(sample, data):
    aircraft = sample.aircraft
    metric, celsius = aircraft.units.altitude == "m", aircraft.units.temperature == "C"
    table = aircraft.calibrations[0]
    cas = data.draw(st.floats(float(table.cas[0]), float(table.cas[-1])))
    altitudes = st.floats(-300.0, 9000.0) if metric else st.floats(-1000.0, 30000.0)
    temperatures = st.floats(-60.0, 45.0) if celsius else st.floats(-76.0, 113.0)
    low, high = sorted(data.draw(st.tuples(altitudes, altitudes)))
    cold, warm = sorted(data.draw(st.tuples(temperatures, temperatures)))
    tas = float(aircraft.tas_from_cas(cas, low, cold))
    higher = float(aircraft.tas_from_cas(cas, high, cold))
    warmer = float(aircraft.tas_from_cas(cas, low, warm))
    assert higher > tas if high - low > 1e-3 else higher >= tas * (1 - 1e-12)
    assert warmer > tas if warm - cold > 1e-3 else warmer >= tas * (1 - 1e-12)


@examples(10, 500)
@given(samples())
def test_a_table_of_true_airspeed_grows_with_altitude_and_temperature(sample):
    table = card_of(sample).table("true-airspeed")
    for block in table.blocks if table else ():
        rows = sorted(block.rows, key=lambda row: row[0].value)
        temperatures = [float(column.name.partition("-")[2]) for column in table.columns[1:]]
        assert len({column.name.partition("-")[0] for column in table.columns[1:]}) == 1
        order = sorted(range(len(temperatures)), key=temperatures.__getitem__)
        grid = [[row[1 + i].value for i in order] for row in rows]
        for line in (*grid, *zip(*grid, strict=True)):
            known = [value for value in line if value is not None]
            assert known == sorted(known)


# -- outside a manual's table ------------------------------------------------------------------


@examples(10, 500)
@given(samples())
def test_calibrated_airspeed_is_a_dash_outside_the_manuals_table_only(sample):
    card = card_of(sample)
    real = Exact(card.aircraft)
    for row in card.table("calibration").rows:
        ias = real.ias_of(Fraction(row[0].value))
        for setting, cell in zip(real.settings(), row[1:], strict=True):
            note(f"{row[0]} {setting} {cell}")
            assert is_gap(cell) == (real.cas_at(ias, *setting) is None)
    for row in card.table("indicated").rows:
        cas = Fraction(row[0].value)
        for setting, cell in zip(real.settings(), row[1:], strict=True):
            note(f"{row[0]} {setting} {cell}")
            assert is_gap(cell) == (real.shown_at(real.ias_at(cas, *setting)) is None)


def stall_given(
    card: Card, flaps: str, gear: str, weight: float, bank: float
) -> tuple[Figure | None, Figure | None]:
    """Return the IAS and the CAS that the manual itself gives for a stall."""
    aircraft, stall = card.aircraft, card.aircraft.definition.stall
    for row in stall.rows if stall else ():
        at = row.flaps or aircraft.flaps[0], row.gear or "", float(stall.weight_of(row))
        banks = [float(one) for one in stall.bank]
        if at == (flaps, gear, weight) and bank in banks:
            column = banks.index(bank)
            return tuple(figures[column] if figures else None for figures in (row.ias, row.cas))
    known = of_gear([one for one in aircraft.stall_speeds if one.flaps == flaps], gear,
                    aircraft.usual_gear(flaps))  # fmt: skip
    for one in known if bank == 0 else ():
        if float(one.weight) == weight:
            return one.ias, one.cas
    return None, None


@examples(10, 500)
@given(samples())
def test_a_stall_is_blank_outside_the_manuals_tables_only(sample):
    card = card_of(sample)
    table, real = card.table("stall"), Exact(card.aircraft)
    assume(table)
    settings = {
        f"flaps-{slug(flaps)}" + (f"/gear-{gear}" if gear else ""): (flaps, gear)
        for flaps in card.aircraft.flaps
        for gear in ("", "up", "down")
    }
    banks = [float(c.name.split("-")[1]) for c in table.columns[1::2]]
    for of, block in zip(table.of.blocks, table.blocks, strict=True):
        flaps, gear = settings[of.id]
        for row in block.rows:
            weight = row[0].value
            for bank, cell, cas_cell in zip(banks, row[1::2], row[2::2], strict=True):
                note(f"{block.heading} {row[0]} {bank} {cell} {cas_cell}")
                ias, cas = stall_given(card, flaps, gear, weight, bank)
                if ias is not None:
                    shown = real.shown_at(exact(ias))
                elif cas is None and card.aircraft.stall_anchor(flaps, weight, gear) is None:
                    assert is_gap(cas_cell)
                    shown = None  # above the heaviest weight, or only in the manual's own table
                else:
                    found = exact(cas) if cas is not None else Fraction(cas_cell.value)
                    shown = real.shown_at(real.ias_at(found, flaps))
                assert (cell.value is None) == (shown is None)
                if cell.value is None:
                    assert is_gap(cell) if cas_cell.value is None else cell.text == ""


def reaches(cruise: Cruise, at: dict[str, Fraction]) -> bool:
    """Whether a cruise table has TAS at a point: one axis after another, as its note says."""
    axes = ["altitude", *(n for n in (temperature(cruise),) if n), *settings(cruise)]

    def reach(rows: list[Row], left: list[str]) -> bool:
        if not left:
            return rows[0][cruise.columns.index("tas")] is not None
        column, wanted = cruise.columns.index(left[0]), at[left[0]]
        levels = {exact(row[column]) for row in rows}
        brackets = {max((x for x in levels if x <= wanted), default=None)}
        brackets.add(min((x for x in levels if x >= wanted), default=None))
        if None in brackets:
            return False
        return all(
            reach([row for row in rows if exact(row[column]) == level], left[1:])
            for level in brackets
        )

    return reach(cruise.rows, axes)


@examples(10, 500)
@given(samples(cruise=True))
def test_cruise_is_a_dash_outside_the_manuals_rows_only(sample):
    card = card_of(sample)
    tables = card.aircraft.definition.cruise
    names = [f"-for-{one.name.replace(' ', '-')}" if len(tables) > 1 else "" for one in tables]
    for cruise, name in zip(tables, names, strict=True):
        hold_as_given(card, cruise, name)


def hold_as_given(card: Card, cruise: Cruise, of: str) -> None:
    set_by = settings(cruise)
    rows = [
        {
            name: one if one is None else exact(one)
            for name, one in zip(cruise.columns, row, strict=True)
        }
        for row in cruise.rows
    ]
    results = [n for n in cruise.columns if n not in ("altitude", "isa", "oat", *set_by)]
    air = next((name for name in ("isa", "oat") if name in cruise.columns), None)
    degrees = sorted({row[air] for row in rows}) if air else [None]
    for line in card.table(f"cruise{of}").rows:
        at = dict(zip(("altitude", *set_by), (Fraction(x.value) for x in line), strict=False))
        here = [row for row in rows if all(row[name] == x for name, x in at.items())]
        columns = [(degree, name) for degree in degrees for name in results]
        for (degree, name), cell in zip(columns, line[1 + len(set_by) :], strict=True):
            given_there = [row[name] for row in here if air is None or row[air] == degree]
            assert is_gap(cell) == (not given_there or given_there[0] is None)
            assert cell.value is None or cell.value == float(given_there[0])
    hold_between(card, cruise, rows, set_by, of)


def hold_between(
    card: Card, cruise: Cruise, rows: list[dict[str, Fraction]], set_by: list[str], of: str
) -> None:
    """Hold that a figure stands between the rows exactly where they reach, in air that occurs."""
    real, grid = Exact(card.aircraft), card.school.reference_speeds.get(card.aircraft.kind)
    table = card.table(f"cruise-at{of}")
    left = dict(rows_by_id(table)) if table else {}
    columns = [column.name for column in table.columns[1:]] if table else []
    for combination in dict.fromkeys(tuple(row[name] for name in set_by) for row in rows):
        for level in levels(card.aircraft, grid.cruise) if grid and grid.cruise else ():
            at = {"altitude": exact(level), **dict(zip(set_by, combination, strict=True))}
            wanted = set()
            for warmth in warmths(card.aircraft, grid.cruise) if temperature(cruise) else (None,):
                if warmth and not occurs(card.aircraft, float(level), warmth):
                    continue
                degree = exact(warmth.figure) if warmth else Fraction(0)
                standard = real.deviation(exact(level), Fraction(0))
                by_isa = warmth is not None and warmth.by_isa
                at["oat"] = degree - standard if by_isa else degree
                at["isa"] = degree if by_isa else degree + standard
                if reaches(cruise, at):
                    wanted.add(warmth.id if warmth else "held")
            setting = [f"{slug(n)}-{float(x):g}" for n, x in zip(set_by, combination, strict=True)]
            row = left.pop("/".join((*setting, f"altitude-{level:g}")), None)
            note(f"{at} {wanted} {row}")
            cells = zip(columns, row[1:], strict=True) if row else ()
            assert {name for name, cell in cells if cell.value is not None} == wanted
    assert not left


def rows_by_id(table: Table) -> Iterator[tuple[str, tuple[Cell, ...]]]:
    for of, block in zip(table.of.blocks, table.blocks, strict=True):
        yield from zip((row.id for row in of.rows), block.rows, strict=True)


# -- as entered --------------------------------------------------------------------------------


def numbers(card: Card) -> Iterator[tuple[Table, int, Cell]]:
    for table in card.tables:
        for row in table.rows:
            for column, cell in enumerate(row):
                yield table, column, cell
                if cell.also:
                    yield table, column, cell.also


@examples(10, 500)
@given(samples())
def test_an_entered_figure_is_printed_as_it_stands_in_the_file(sample):
    places = {name: place for place, name in sample.aircraft.identifiers.items()}
    for table, _, cell in numbers(card_of(sample)):
        if isinstance(cell.origin, Entered):
            place = places[cell.origin.figure]
            written = sample.line(place.file, place.line)
            assert cell.text.replace(",", "") == written.replace("-", "−"), (table.name, cell)
            assert cell.value == pytest.approx(float(written.partition(" to ")[0]), abs=1e-6)


# -- whole cards -------------------------------------------------------------------------------


def refuse(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON")


TEMPLATES = Templates()


@examples(10, 500)
@given(samples())
def test_a_card_is_whole_and_can_be_drawn(sample):
    card = card_of(sample)
    assert len({table.name for table in card.tables}) == len(card.tables)
    for table in card.tables:
        assert len({column.name for column in table.columns}) == len(table.columns), table.name
        for row in table.rows:
            assert len(row) == len(table.columns), table.name
    for table, column, cell in numbers(card):
        assert cell.value is None or math.isfinite(cell.value), (table.name, cell)
        headed = column < table.stub and cell.origin is None
        assert cell.value is None or cell.origin is not None or headed, (table.name, cell)
    document = marked(card.of)
    data = json.loads(to_json(document), parse_constant=refuse)
    assert [table["id"] for table in data["tables"]] == [table.name for table in card.tables]
    assert from_json(to_json(document), Document) == document
    for table in card.tables:
        lines = list(csv.reader(io.StringIO(table_csv(table.of, ENGLISH)), strict=True))
        assert len(lines) == 1 + len(list(table.rows))
        assert {len(line) for line in lines} == {len(lines[0])}, table.name
    page = aircraft_page(TEMPLATES, document)
    assert page.count("<table") == len(card.tables)


# -- marks -------------------------------------------------------------------------------------


def printed_figures(aircraft: Aircraft) -> list[Figure]:
    """Return the figures of V-speeds that the table of airspeeds prints."""
    found = []
    for entry in (one for entries in aircraft.definition.speeds.values() for one in entries):
        figures = (entry.ias, entry.cas, entry.tas, entry.mach, entry.times_VS0, entry.weight)
        found += [figure for figure in figures if figure is not None]
    return found


@examples(10, 500)
@given(samples(), st.data())
def test_marks_are_the_same_again_and_others_for_another_speed(sample, data):
    one, again = card_of(sample).of, card_of(read(sample.files)).of
    assert (card_mark(one), figures_mark(one)) == (card_mark(again), figures_mark(again))
    figure = data.draw(st.sampled_from(printed_figures(sample.aircraft)))
    more = f"{figure.text}1" if "." in figure.text else f"{float(figure) + 1:g}"
    lines = sample.files[figure.place.file].split("\n")
    start = figure.place.column - 1
    line = lines[figure.place.line - 1]
    assert line[start:] == figure.text
    lines[figure.place.line - 1] = line[:start] + more
    changed = read({**sample.files, figure.place.file: "\n".join(lines)})
    other = card_of(changed).of
    assert card_mark(other) != card_mark(one)
    assert figures_mark(other) != figures_mark(one)
