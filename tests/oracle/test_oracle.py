"""Every number on every card of the demo fleet against an oracle that shares no arithmetic.

The cells come from cardgen. What they must be is worked out in this folder,
from the YAML files and first principles, in forty digits.
"""

import ast
import re
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.cards.conversions import conversion_tables
from cardgen.definition.fleet import read_fleet
from cardgen.definition.identifiers import copied
from cardgen.document.record import Computed, Entered
from tests.conftest import documents_of
from tests.reader import Card, Cell, Column, Table

from . import completeness, physics
from .craft import NOT_AVAILABLE, Craft
from .definitions import CRUISE, FOLDERS, definition, folder_of, registrations
from .expected import Expected, Place, numbers, spoken
from .physics import NEAREST, UP, convert, number, printed
from .tables import CARD, CONVERSIONS, entry_of, settings

pytestmark = pytest.mark.xdist_group("oracle")  # so that cards are made and expected once

TOLERANCE = 1e-6  # of the cell's unit, before rounding
AT_LEAST = {"computed": 10000, "entered": 1200, "dash": 500, "blank": 300}  # in all tables together


@pytest.fixture(scope="module")
def cards():
    return {name: Card(one) for folder in FOLDERS for name, one in documents_of(folder).items()}


@cache
def craft(registration: str) -> Craft:
    return Craft(definition(registration))


@cache
def lines(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines()


@cache
def where(registration: str) -> dict[str, tuple[Path, int]]:
    """The file and line of each figure of an aircraft, by its identifier."""
    definitions = {one.registration: one for one in read_fleet(folder_of(registration)).aircraft}
    return {
        one.id: (folder_of(registration) / one.figure.place.file, one.figure.place.line)
        for one in copied(definitions[registration])
    }


def kind_of(cell: Cell, column: Column) -> str:
    if isinstance(cell.origin, Computed):
        return "computed"
    if isinstance(cell.origin, Entered):
        return "entered"
    if column.words or cell.of.said is not None:
        return "words"
    if cell.value is not None:
        return "heading"
    return "dash" if cell.text else "blank"


def place(table: Table, heading: str, row: tuple[Cell, ...], column: Column) -> Place:
    """Return what a reader sees beside and above a cell."""
    read = {
        one.name: cell.text
        for n, (one, cell) in enumerate(zip(table.columns, row, strict=True))
        if n < table.stub or kind_of(cell, one) in ("heading", "words")
    }
    return Place(heading, column.name, read)


def disagreements(who: str, cell: Cell, expected: Expected, column: Column) -> list[str]:
    """Say in what a cell is not as expected."""
    found = []

    def same(what: str, is_: object, must_be: object) -> None:
        if is_ != must_be:
            found.append(f"{what} is {is_!r}, must be {must_be!r}")

    kind = kind_of(cell, column)
    same("kind", kind, expected.kind)
    if kind == "words":
        missing = set(expected.tokens) - set(spoken(cell.text))
        same("missing words", missing, set())
    elif kind == "heading":
        same("text", number(re.sub("°$", "", cell.text)), expected.value)
    else:
        same("text", cell.text, expected.text)
    if expected.value is None or cell.value is None:
        same("value", cell.value, expected.value)
    elif not abs(cell.value - expected.value) <= TOLERANCE:
        found.append(f"value is {cell.value!r}, must be {physics.mp.nstr(expected.value, 15)}")
    same("label", cell.label, expected.label)
    same("beyond", cell.beyond, expected.beyond)
    if expected.unit is not None:
        same("unit", column.unit, expected.unit)
    if isinstance(cell.origin, Entered):
        same("page", cell.origin.page, expected.page)
        file, line = where(who)[cell.origin.figure]
        figures = re.findall(r"[-+]?[\d.]+(?: to [\d.]+)?", lines(file)[line - 1])
        same("stands on its line", cell.text.replace("−", "-").replace(",", "") in figures, True)
    same("also", cell.also is not None, expected.also is not None)
    if cell.also is not None and expected.also is not None:
        found += [
            f"beside it, {one}"
            for one in disagreements(who, cell.also, replace(expected.also, unit=None), column)
        ]
    return found


def check(table: Table, oracle, who: str) -> None:
    """Hold each cell of a table against the oracle, and count them."""
    wrong, seen, cells = [], Counter(), 0
    for block in table.blocks:
        for row in block.rows:
            assert len(row) == len(table.columns)
            cells += len(row) + sum(cell.also is not None for cell in row)
            for column, cell in zip(table.columns, row, strict=True):
                at = place(table, block.heading, row, column)
                expected = oracle(at)
                seen[expected.kind] += 1
                if expected.also is not None:
                    seen[expected.also.kind] += 1
                wrong += [
                    f"{who} {table.name}, {block.heading or 'no heading'}, {at.row}, "
                    f"{column.name}: {one}"
                    for one in disagreements(who, cell, expected, column)
                ]
    assert not wrong, f"{len(wrong)} disagreements:\n" + "\n".join(wrong)
    assert seen.total() == cells
    assert seen["computed"] + seen["entered"] > 0


@pytest.mark.parametrize("registration", registrations())
def test_a_card_has_the_tables_it_must_have_and_each_has_an_oracle(cards, registration):
    names = [table.name for table in cards[registration].tables]
    assert len(names) == len(set(names))
    assert set(names) - CARD.keys() == set(), "a table without an oracle"
    assert set(names) == completeness.tables(craft(registration))


def test_every_aircraft_of_the_folder_has_a_card(cards):
    assert sorted(cards) == sorted(registrations())


@pytest.mark.parametrize("name", CARD)
@pytest.mark.parametrize("registration", registrations())
def test_every_cell_of_a_card(cards, registration, name):
    table = cards[registration].table(name)
    if table is None:
        assert name not in completeness.tables(craft(registration))
        return
    oracle = CARD[name]
    check(table, lambda at: oracle(craft(registration), at), registration)


def test_each_conversion_table_has_an_oracle():
    names = [table.id for table in conversion_tables()]
    assert sorted(names) == sorted(CONVERSIONS)


@pytest.mark.parametrize("name", CONVERSIONS)
def test_every_cell_of_a_conversion_table(name):
    table = next(one for one in map(Table, conversion_tables()) if one.name == name)
    check(table, CONVERSIONS[name], "conversions")


def test_there_are_as_many_cells_as_ever(cards):
    """A check of no cells would pass; this says how many there are to be checked."""
    tables = [
        *map(Table, conversion_tables()),
        *(one for card in cards.values() for one in card.tables),
    ]
    seen = Counter(
        kind_of(one, column)
        for table in tables
        for row in table.rows
        for column, cell in zip(table.columns, row, strict=True)
        for one in (cell, cell.also)
        if one is not None
    )
    assert {kind: seen[kind] for kind, least in AT_LEAST.items() if seen[kind] < least} == {}


@pytest.mark.parametrize("registration", registrations())
def test_no_row_is_left_off(cards, registration):
    for name, rows in completeness.rows(craft(registration)).items():
        table = cards[registration].table(name)
        found = []
        for block in table.blocks:
            for row in block.rows:
                stub = [number(cell.text) for cell in row[: table.stub]]
                found.append((tuple(map(number, numbers(block.heading))), tuple(stub)))
        assert sorted(found) == sorted(rows), name
    for name, oats in completeness.temperatures(craft(registration)).items():
        columns = cards[registration].table(name).columns[1:]
        assert [Place("", one.name, {}).column_number for one in columns] == oats, name


@pytest.mark.parametrize("registration", registrations())
def test_no_speed_and_no_marking_is_left_off(cards, registration):
    known = craft(registration).definition
    table = cards[registration].table("speeds")
    found = []
    for row in table.rows:
        at = place(table, "", row, table.columns[0]).row
        found.append(entry_of(craft(registration), at["speed"], at["when"]))
    held = [*known.speeds.values(), *known.others.values()]
    entries = [one for entries in held for one in entries]
    assert sorted(map(id, found)) == sorted(map(id, entries))
    assert len(list(cards[registration].table("markings").rows)) == len(known.markings)


@pytest.mark.parametrize("registration", registrations())
def test_every_figure_of_the_cruise_table_is_printed(cards, registration):
    table = cards[registration].table("cruise")
    if table is None:
        assert craft(registration).definition.cruise is None
        return
    rows = craft(registration).cruise_rows
    results = [one for one in rows[0] if one in ("power", "ias", "tas", "fuel flow")]
    shown = [cell for row in table.rows for cell in row if isinstance(cell.origin, Entered)]
    assert len(shown) == len(rows) * len(results)


@pytest.mark.parametrize("registration", registrations())
def test_every_point_of_the_polar_is_printed_and_flown_at_every_weight(cards, registration):
    known, one = craft(registration), cards[registration]
    if not known.definition.polars:
        assert one.table("polar") is None
        return
    assert len(list(one.table("polar").rows)) == completeness.points(known)
    blocks = [numbers(block.heading) for block in one.table("speed-to-fly").blocks]
    assert blocks == [[weight] for weight in known.definition.weights]
    for block in one.table("speed-to-fly").blocks:
        assert [row[0].text.split()[0] for row in block.rows] == ["up", "still", *["down"] * 3]


@pytest.mark.parametrize("registration", registrations())
def test_numbers_in_the_notes(cards, registration):
    """The worst that leaving out compressibility costs, and the most that a probe is warmed."""
    one = craft(registration)
    grid = one.definition.grid
    speeds = [one.cas(one.ias(shown)) for shown in one.round_speeds(grid["ias"])]
    worst, fastest, warmest = [], physics.Number(0), physics.Number(0)
    for cas in (cas for cas in speeds if cas is not None):
        for altitude in map(number, grid["altitude"]):
            metres = one.metres(altitude)
            mach = physics.mach_from_cas(convert(cas, one.speed, "m/s"), metres)
            for figure in map(number, grid["isa" if one.by_isa else "oat"]):
                oat = one.oat_of(altitude, figure)
                if not one.occurs(altitude, oat):
                    continue
                fastest = max(fastest, mach)
                factor = one.density_factor(altitude, oat)
                worst.append((factor * cas - one.tas(cas, altitude, oat), cas))
                kelvin = physics.kelvin(oat, one.temperature)
                warmest = max(warmest, physics.ram_rise(kelvin, mach))
    off, at = max(worst)
    said = " ".join(cards[registration].table("tas-factor").notes)
    assert re.search(rf"\b{printed(off, UP, 1)} {one.speed}\b", said), said
    assert re.search(rf"\bCAS {printed(at, NEAREST)} {one.speed}\b", said), said
    said = " ".join(cards[registration].table("true-airspeed").notes)
    if fastest > 0.3:
        assert re.search(rf"\b{printed(fastest, NEAREST, 2)}\b", said), said
        assert re.search(rf"\b{printed(warmest, UP)} °{one.temperature}", said), said
    else:
        assert "Mach" not in said


# Which of the definition's cruise tables each aircraft's is, by what the manual calls it.
SEVERAL = {
    "ZZ-AVA": {"for-best-power": 0, "for-economy": 1},
    "ZZ-DOT": {"for-weight-4600": 0, "for-weight-4000": 1},
}


@cache
def printed_cruise() -> dict[str, Card]:
    fleet = read_fleet(CRUISE)
    made = (make_document(Aircraft(one), fleet.school) for one in fleet.aircraft)
    return {one.head.registration: Card(one) for one in made}


def craft_of(registration: str, table: int) -> Craft:
    known = definition(registration)
    return Craft(replace(known, cruise=known.cruises[table]))


def test_each_of_several_cruise_tables_has_its_tables():
    assert sorted(SEVERAL) == sorted(registrations(CRUISE)) == sorted(printed_cruise())
    for registration, cruises in SEVERAL.items():
        found = {one.name for one in printed_cruise()[registration].tables}
        names = {f"{name}-{of}" for name in ("cruise", "cruise-at", "economy") for of in cruises}
        assert {one for one in found if "cruise" in one or "economy" in one} == names


@pytest.mark.parametrize("name", ["cruise", "cruise-at", "economy"])
@pytest.mark.parametrize(
    ("registration", "of"), [(one, of) for one, every in SEVERAL.items() for of in every]
)
def test_every_cell_and_row_of_several_cruise_tables(registration, of, name):
    one = craft_of(registration, SEVERAL[registration][of])
    table = printed_cruise()[registration].table(f"{name}-{of}")
    check(table, lambda at: CARD[name](one, at), registration)
    found = [
        (
            tuple(number(x) for x in numbers(block.heading)),
            tuple(number(cell.text) for cell in row[: table.stub]),
        )
        for block in table.blocks
        for row in block.rows
    ]
    assert sorted(found) == sorted(completeness.cruise_rows(one)[name])


@pytest.mark.parametrize("registration", SEVERAL)
def test_every_figure_of_several_cruise_tables_is_printed_and_held_by_the_mark(registration):
    """Counted in the file itself: what stands in its rows, less what they are entered by."""
    figures = 0
    for table in definition(registration).cruises:
        one = Craft(replace(definition(registration), cruise=table))
        keys = ["altitude", *settings(one), *filter(None, [one.cruise_air])]
        cells = [text for row in one.cruise_rows for name, text in row.items() if name not in keys]
        figures += sum(text not in NOT_AVAILABLE for text in cells)
    card = printed_cruise()[registration]
    shown = {
        cell.origin.figure
        for table in card.tables
        if table.name.startswith("cruise-for-")
        for row in table.rows
        for cell in row
        if isinstance(cell.origin, Entered)
    }
    assert len(shown) == figures
    assert shown <= {one.id for one in card.of.given}


def test_the_oracle_shares_no_arithmetic():
    for path in Path(__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            names = []
            if isinstance(node, ast.Import):
                names = [one.name for one in node.names]
            elif isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            for name in names:
                if name.split(".")[0] in ("cardgen", "numpy"):
                    assert path.name in ("test_oracle.py", "test_practice.py"), path
                    own = ("cardgen.airframe.aircraft", "cardgen.cards.", "cardgen.d")
                    if path.name == "test_practice.py":
                        own += ("cardgen.lessons.practice", "cardgen.words.english")
                    assert name.startswith(own), name
