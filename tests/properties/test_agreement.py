"""The same question put to two tables of a card, or to a table and to reckoning, has one answer.

And what is above a limit in force in its case is marked, and nothing else is.
"""

import math
from collections.abc import Iterator

import pytest
from hypothesis import given, note

from cardgen.air.bounds import OutOfBoundsError
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.cruise_between import cruise_at_tables
from cardgen.definition.cruise import Cruise
from cardgen.definition.model import in_general
from cardgen.document.record import Cell, Column, Computed, Document, Row, Table
from cardgen.lessons.limits import AT_ALTITUDE
from cardgen.lessons.reckoning import Case, Reckoning, reckon
from cardgen.units import convert
from tests.properties.strategies import Sample, read, samples, yaml
from tests.sampling import examples

pytestmark = pytest.mark.xdist_group("random aircraft")  # so that each is made once

NEAR = 2e-5  # what is left of a value where a document keeps six decimals of each step
IN_FORCE = {*AT_ALTITUDE, "VFE"}


def near(value: float) -> object:
    return pytest.approx(value, abs=NEAR)


def cells(table: Table | None) -> Iterator[tuple[Row, Column, Cell]]:
    for row in table.rows if table else ():
        for column, cell in zip(table.columns, row.cells, strict=True):
            yield row, column, cell


def pairs(row: Row) -> list[tuple[Cell, Cell]]:
    """What the indicator shows and CAS, side by side behind the weight."""
    return list(zip(row.cells[1::2], row.cells[2::2], strict=True))


def own(document: Document, speed: float) -> float:
    return float(convert(speed, document.head.units.speed, document.head.indicator_unit))


def computed(cell: Cell) -> bool:
    return isinstance(cell.origin, Computed)


def flaps_by_id(document: Document, name: str) -> str:
    """The flap setting that an identifier was made of."""
    from cardgen.definition.names import slug

    return next(one for one in document.basis.flaps if slug(one) == name)


# -- one answer ----------------------------------------------------------------------------------


@examples(8, 500)
@given(samples())
def test_a_computed_stall_is_what_reckoning_indicates_for_its_cas(sample):
    """So is VA by weight, and VREF: all that is computed goes through the same tables."""
    document = sample.document
    for name, flaps in (("stall", ""), ("manoeuvring", document.basis.flaps[0])):
        table = document.table(name)
        for block in table.blocks if table else ():
            at = flaps or flaps_by_id(
                document, block.id.removeprefix("flaps-").partition("/gear-")[0]
            )
            for row in block.rows:
                for shown, cas in pairs(row):
                    if computed(shown) and shown.origin.formula != "indicated-airspeed":
                        case = Case("cas", own(document, cas.quantity.value), at)
                        answer = reckon(document, case).values["indicated_airspeed"]
                        note(f"{row.id} {answer} {shown.quantity.value} {cas.quantity.value}")
                        assert answer == near(shown.quantity.value), row.id


@examples(8, 500)
@given(samples())
def test_a_speed_by_weight_at_the_weight_it_is_given_for_is_that_of_the_speeds(sample):
    document, aircraft = sample.document, sample.aircraft
    speeds = {row.id: row for row in document.table("speeds").rows}
    for table_id, names in (("manoeuvring", ("VA", "VO")), ("approach", ("VREF",))):
        table = document.table(table_id)
        for row in table.rows if table else ():
            for name in names:
                for entry in in_general(aircraft.definition.speeds.get(name, [])):
                    weight = entry.weight or aircraft.maximum_weight
                    given_for = [
                        one.weight or aircraft.maximum_weight
                        for one in aircraft.definition.speeds[name]
                    ]
                    alone = given_for.count(weight) == 1
                    same = row.cells[0].quantity.value == float(weight)
                    if not (alone and same and entry.ias is not None) or (names[0] == "VA" and (
                        "VO" in aircraft.definition.speeds) != (name == "VO")):  # fmt: skip
                        continue
                    (found,) = (
                        one for key, one in speeds.items()
                        if one.subject == name and _is(one, entry, aircraft)
                    )  # fmt: skip
                    note(f"{row.id} {found.id}")
                    assert _value(row.cells[1]) == _value(found.cells[1])


def _is(row: Row, entry: object, aircraft: Aircraft) -> bool:
    """Whether a row of the speeds is that of an entry: of its very figure."""
    figures = (entry.ias, entry.cas)
    wanted = {aircraft.identifiers[one.place] for one in figures if one is not None}
    found = set()
    for cell in row.cells:
        if cell.origin is not None and not computed(cell):
            found.add(cell.origin.figure)
        if computed(cell):
            found |= {one.source for one in cell.origin.inputs}
    return bool(wanted & found)


def _value(cell: Cell) -> float | None:
    return cell.quantity.value if cell.quantity else None


@examples(8, 500)
@given(samples())
def test_calibration_both_ways_is_what_reckoning_says(sample):
    document = sample.document
    settings = {
        f"flaps-{_slug(one.flaps)}-{one.static_source}": (one.flaps, one.static_source)
        for one in document.basis.calibration
    }
    for name, known, result in (
        ("calibration", "ias", "calibrated_airspeed"),
        ("indicated", "cas", "indicated_airspeed"),
    ):
        for row, column, cell in cells(document.table(name)):
            if column.id in settings:
                start = row.cells[0].quantity.value
                start = start if known == "ias" else own(document, start)
                answer = reckon(document, Case(known, start, *settings[column.id])).values[result]
                if answer is None or cell.quantity is None:
                    assert _at_an_end(document, settings[column.id], answer, cell)
                else:
                    value = cell.quantity.value
                    value = own(document, value) if known == "ias" else value
                    assert answer == near(value), (row.id, column.id)


def _slug(flaps: str) -> str:
    from cardgen.definition.names import slug

    return slug(flaps)


def _at_an_end(document, setting, answer, cell) -> bool:
    """Neither has a value; or one has, at a table's very end, where the last digit decides."""
    if answer is None and cell.quantity is None:
        return True
    head = document.head
    return document.basis.bench is not None or head.indicator_unit != head.units.speed


def airs(document: Document, aircraft: Aircraft) -> Iterator[tuple[Row, Column, Cell, dict]]:
    """The cells of the true airspeed table with the air that each stands in."""
    for row, column, cell in cells(document.table("true-airspeed")):
        if column.id != "altitude" and cell.quantity is not None:
            yield row, column, cell, _air(aircraft, row, column)


def _air(aircraft: Aircraft, row: Row, column: Column) -> dict[str, float]:
    altitude = row.cells[0].quantity.value
    kind, _, figure = column.id.partition("-")
    oat = float(figure)
    if kind == "isa":
        oat += float(aircraft.standard_temperature(altitude))
    return {"pressure_altitude": altitude, "oat": oat}


@examples(8, 500)
@given(samples())
def test_true_airspeed_and_the_airspeed_for_it_are_what_reckoning_says(sample):
    document, aircraft = sample.document, sample.aircraft
    flaps = document.basis.flaps[0]
    for row, _, cell, air in airs(document, aircraft):
        shown = float(row.id.removeprefix("indicated-").partition("/")[0])
        worked = reckon(document, Case("ias", shown, flaps, **air))
        assert worked.values["true_airspeed"] == near(cell.quantity.value), row.id
    for row, column, cell in cells(document.table("airspeed-for-tas")):
        if column.id == "altitude" or cell.quantity is None:
            continue
        tas = float(row.id.removeprefix("tas-").partition("/")[0])
        worked = reckon(document, Case("tas", tas, flaps, **_air(aircraft, row, column)))
        answer = worked.values["indicated_airspeed"]
        assert answer is None or answer == near(cell.quantity.value), row.id


@examples(8, 500)
@given(samples())
def test_true_airspeed_and_the_factor_differ_by_compressibility_only(sample):
    """CAS times the factor is more than TAS above sea level, by no more than the note says."""
    document, aircraft = sample.document, sample.aircraft
    table = document.table("tas-factor")
    if table is None or document.table("true-airspeed") is None:
        return
    factors = {
        (row.cells[0].quantity.value, column.id): cell.quantity.value
        for row, column, cell in cells(table)
        if column.id != "altitude" and cell.quantity is not None
    }
    said = [one for one in table.notes if one.id == "note-compressibility"]
    most = said[0].values["most"].value if said else 0.0
    for row, column, cell, _ in airs(document, aircraft):
        shown = float(row.id.removeprefix("indicated-").partition("/")[0])
        cas = own(document, aircraft.cas_from_indicated(shown))
        factor = factors[row.cells[0].quantity.value, column.id]
        assert factor * cas - cell.quantity.value <= own(document, most) + 2e-4 + cas * 1e-6


@examples(8, 500)
@given(samples(cruise=True))
def test_cruise_read_at_the_manuals_own_rows_is_the_manuals_cruise(sample):
    """A school that asks for the very altitudes and temperatures of the manual gets its figures."""
    for at, cruise in enumerate(sample.aircraft.definition.cruise):
        hold_at_its_own_rows(sample, at, cruise)


def hold_at_its_own_rows(sample: Sample, at: int, cruise: Cruise) -> None:
    air = next((name for name in ("isa", "oat") if name in cruise.columns), None)
    levels = list(dict.fromkeys(row[cruise.columns.index("altitude")].text for row in cruise.rows))
    asked = {"altitude": levels}
    if air:
        column = cruise.columns.index(air)
        asked[air] = list(dict.fromkeys(row[column].text for row in cruise.rows))
    grid = {"ias": [100], "altitude": levels, "oat": [0], "cruise": asked}
    school = {"name": "Other school", "reference speeds": {sample.aircraft.kind: grid}}
    try:
        other = read({**sample.files, "school.yaml": yaml(school)})
    except Exception:  # an altitude that no aircraft of the kind reaches is refused
        return
    table = cruise_at_tables(other.aircraft, other.school)[at]
    if not isinstance(table, Table):
        return
    rows = [dict(zip(cruise.columns, row, strict=True)) for row in cruise.rows]
    for row, column, cell in cells(table):
        given = [
            one["tas"]
            for one in rows
            if row.id.endswith(f"altitude-{one['altitude']:g}")
            and column.id in ("held", f"{air}-{one.get(air, 0):g}")
        ]
        if given and column.id != "altitude" and cell.quantity is not None:
            near = [abs(cell.quantity.value - one) < 1e-5 for one in given if one is not None]
            assert any(near), (row.id, column.id)


# -- marks ---------------------------------------------------------------------------------------


def in_force(worked: Reckoning) -> set[str]:
    return {one.speed for one in worked.passed if one.binding}


@examples(8, 500)
@given(samples())
def test_what_is_above_a_limit_in_its_air_is_marked_and_nothing_else(sample):
    document, aircraft = sample.document, sample.aircraft
    flaps = document.basis.flaps[0]
    for row, column, cell, air in airs(document, aircraft):
        shown = float(row.id.removeprefix("indicated-").partition("/")[0])
        over = in_force(reckon(document, Case("ias", shown, flaps, **air)))
        if _unknown(document, aircraft, air):
            continue  # a limit that is not known there may be the lowest
        assert cell.beyond == bool(over), (row.id, column.id, over)
    for row, column, cell in cells(document.table("airspeed-for-tas")):
        if column.id == "altitude" or cell.quantity is None:
            continue
        air = _air(aircraft, row, column)
        worked = reckon(document, Case("ias", cell.quantity.value, flaps, **air))
        if not _unknown(document, aircraft, air) and not _on_the_edge(worked, document, cell):
            assert cell.beyond == bool(in_force(worked)), (row.id, column.id)


def _unknown(document: Document, aircraft: Aircraft, air: dict[str, float]) -> bool:
    from cardgen.airframe.limits import limit_at

    try:
        return limit_at(aircraft, air["pressure_altitude"], air["oat"]) is None
    except OutOfBoundsError:
        return True


def _on_the_edge(worked: Reckoning, document: Document, cell: Cell) -> bool:
    return any(abs(one.limit.value - cell.quantity.value) < 1e-4 for one in worked.passed)


@examples(8, 500)
@given(samples())
def test_without_an_altitude_what_is_above_the_highest_limit_is_marked(sample):
    """In calibration both ways and at the stall: above VNE or VMO anywhere, or the flaps' own."""
    document, aircraft = sample.document, sample.aircraft
    by_id = {f"flaps-{_slug(one)}": one for one in document.basis.flaps}
    for name in ("calibration", "indicated"):
        for row, column, cell in cells(document.table(name)):
            flaps = next((one for key, one in by_id.items()
                          if column.id in (f"{key}-normal", f"{key}-alternate")), None)  # fmt: skip
            if flaps is None or cell.quantity is None:
                continue
            shown = (row.cells[0] if name == "calibration" else cell).quantity.value
            assert cell.beyond == _above(aircraft, shown, flaps), (row.id, column.id)
    table = document.table("stall")
    for block in table.blocks if table else ():
        flaps = flaps_by_id(document, block.id.removeprefix("flaps-").partition("/gear-")[0])
        for row in block.rows:
            for shown, _ in pairs(row):
                if shown.quantity is not None:
                    value = shown.quantity.value
                    gear = block.id.partition("/gear-")[2]
                    assert shown.beyond == _above(aircraft, value, flaps, gear), row.id


_KEPT = 1e-6  # to which figures of a document are kept


def _above(aircraft: Aircraft, shown: float, flaps: str, gear: str = "") -> bool:
    """Worked apart from the cards: the greatest of VNE and VMO, and each VFE or VLE in force."""
    highest = -math.inf
    for name in ("VNE", "VMO", "MMO"):
        for entry in _in_general(aircraft, name):
            if entry.from_altitude is None:
                value = _most(aircraft, entry)
                highest = max(highest, value if not math.isnan(value) else -math.inf)
    over = highest > -math.inf and shown > highest + _KEPT
    if flaps != aircraft.flaps[0]:
        for entry in _in_general(aircraft, "VFE"):
            over |= entry.flaps == flaps and shown > _most(aircraft, entry) + _KEPT
    for entry in _in_general(aircraft, "VLE") if gear == "down" else ():
        over |= shown > _most(aircraft, entry) + _KEPT
    return over


def _in_general(aircraft: Aircraft, name: str) -> list:
    """A figure under a condition is none in general beside one of its flaps and gear without."""
    entries = aircraft.definition.speeds.get(name, [])
    plain = {
        (one.flaps, one.gear, bool(one.tas), bool(one.mach)) for one in entries if not one.when
    }
    return [
        one
        for one in entries
        if not one.when or (one.flaps, one.gear, bool(one.tas), bool(one.mach)) not in plain
    ]


def _most(aircraft: Aircraft, entry) -> float:
    if entry.ias is not None:
        shown = float(aircraft.indicated_from_ias(float(entry.ias)))
        plain = float(convert(float(entry.ias), aircraft.units.speed, aircraft.indicator_unit))
        return min(shown, plain)
    if entry.cas is not None:
        return float(
            aircraft.indicated_from_ias(aircraft.ias_from_cas(float(entry.cas), entry.flaps))
        )
    return math.nan
