"""What to add to or take off an indication, with the direction in words."""

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.cards.calibration import indicated_steps, setting_said, tables_in_order
from cardgen.cards.cells import computed, given, reading, taking
from cardgen.cards.indicated import calibration_source, gear_input
from cardgen.definition.model import School
from cardgen.definition.names import slug
from cardgen.document.record import Block, Cell, Column, Input, Message, Row, Table
from cardgen.units import convert


def corrections_table(aircraft: Aircraft, school: School) -> Table:
    """Return the instrument correction, the position error and the alternate source's effect."""
    unit = aircraft.indicator_unit
    bench = aircraft.definition.airframe.instrument_correction is not None
    tables = tables_in_order(aircraft)
    normal = [one for one in tables if one.static_source == NORMAL]
    alternate = [one for one in tables if one.static_source == ALTERNATE]
    columns = [
        Column("indicated", Message("column-ias"), unit, shown=True),
        *(
            [Column("instrument", Message("column-instrument"), unit, form="direction")]
            if bench
            else []
        ),
        *(_column(aircraft, "position", one) for one in normal),
        *(_column(aircraft, "alternate", one) for one in alternate),
    ]
    rows = []
    for shown in indicated_steps(aircraft):
        cells = [_instrument(aircraft, shown)] if bench else []
        cells += [_position(aircraft, shown, one) for one in normal]
        cells += [_alternate(aircraft, shown, one) for one in alternate]
        if any(cell.quantity is not None for cell in cells):
            rows.append(Row(f"indicated-{shown:g}", (given(shown, unit), *cells)))
    return Table(
        "corrections",
        Message("title-corrections"),
        Message("how-corrections"),
        tuple(columns),
        (Block("", None, tuple(rows)),),
        notes=tuple(_notes(bench, bool(alternate))),
    )


def _column(aircraft: Aircraft, what: str, table: Calibrated) -> Column:
    gear = f"-gear-{table.gear}" if table.gear else ""
    return Column(
        f"{what}-flaps-{slug(table.flaps)}{gear}",
        setting_said(aircraft, table.flaps, NORMAL, table.gear),
        aircraft.indicator_unit,
        Message(f"group-{what}"),
        form="direction",
    )


def _instrument(aircraft: Aircraft, shown: float) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    corrected = float(convert(ias, aircraft.units.speed, aircraft.indicator_unit))
    return _correction(aircraft, corrected - shown, _shown(aircraft, shown, "given/bench"))


def _position(aircraft: Aircraft, shown: float, table: Calibrated) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    cas = float(table.curve.at(ias))
    at = calibration_source(aircraft, table.flaps, gear=table.gear)
    return _difference(aircraft, cas - ias, _shown(aircraft, shown, at), *_setting(aircraft, table))


def _alternate(aircraft: Aircraft, shown: float, table: Calibrated) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    normal = float(aircraft.cas_from_ias(ias, table.flaps, NORMAL, table.gear))
    alternate = float(table.curve.at(ias))
    at = calibration_source(aircraft, table.flaps, ALTERNATE, table.gear)
    by = calibration_source(aircraft, table.flaps, gear=table.gear)
    inputs = (*_setting(aircraft, table), taking("static-source", Message("alternate"), by))
    return _difference(aircraft, alternate - normal, _shown(aircraft, shown, at), *inputs)


def _setting(aircraft: Aircraft, table: Calibrated) -> tuple[Input, ...]:
    gear = gear_input(aircraft, table.flaps, table.gear, table.static_source)
    return taking("flaps", table.flaps), *gear


def _shown(aircraft: Aircraft, shown: float, source: str) -> Input:
    return taking("indicated", reading(shown, aircraft.indicator_unit), source)


def _difference(aircraft: Aircraft, value: float, *inputs: Input) -> Cell:
    own = float(convert(value, aircraft.units.speed, aircraft.indicator_unit))
    return _correction(aircraft, own, *inputs)


def _correction(aircraft: Aircraft, value: float, *inputs: Input) -> Cell:
    return computed(value, aircraft.indicator_unit, "correction", inputs, decimals=1)


def _notes(bench: bool, alternate: bool) -> list[Message]:
    notes = [Message("note-add-and-take-off")]
    notes.append(Message("note-bench-card" if bench else "note-no-bench-card"))
    if alternate:
        notes.append(Message("note-alternate"))
    return notes
