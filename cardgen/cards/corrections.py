"""What to add to or take off an indication, with the direction in words."""

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.cards.calibration import indicated_steps
from cardgen.cards.cells import computed, given, heading, reading, taking
from cardgen.cards.indicated import calibration_source
from cardgen.definition.model import School
from cardgen.definition.names import slug
from cardgen.document.record import Block, Cell, Column, Input, Message, Row, Table
from cardgen.units import convert


def corrections_table(aircraft: Aircraft, school: School) -> Table:
    """Return the instrument correction, the position error and the alternate source's effect."""
    unit = aircraft.indicator_unit
    bench = aircraft.definition.airframe.instrument_correction is not None
    flaps = [one for one in aircraft.flaps if aircraft.calibration(one)]
    alternates = [one for one in aircraft.flaps if aircraft.calibration(one, ALTERNATE)]
    columns = [
        Column("indicated", Message("column-ias"), unit, shown=True),
        *(
            [Column("instrument", Message("column-instrument"), unit, form="direction")]
            if bench
            else []
        ),
        *(_column(aircraft, "position", one) for one in flaps),
        *(_column(aircraft, "alternate", one) for one in alternates),
    ]
    rows = []
    for shown in indicated_steps(aircraft):
        cells = [_instrument(aircraft, shown)] if bench else []
        cells += [_position(aircraft, shown, one) for one in flaps]
        cells += [_alternate(aircraft, shown, one) for one in alternates]
        if any(cell.quantity is not None for cell in cells):
            rows.append(Row(f"indicated-{shown:g}", (given(shown, unit), *cells)))
    return Table(
        "corrections",
        Message("title-corrections"),
        Message("how-corrections"),
        tuple(columns),
        (Block("", None, tuple(rows)),),
        notes=tuple(_notes(bench, bool(alternates))),
    )


def _column(aircraft: Aircraft, what: str, flaps: str) -> Column:
    several = len(aircraft.flaps) > 1
    return Column(
        f"{what}-flaps-{slug(flaps)}",
        heading("column-flaps", flaps=flaps) if several else Message("column-all"),
        aircraft.indicator_unit,
        Message(f"group-{what}"),
        form="direction",
    )


def _instrument(aircraft: Aircraft, shown: float) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    corrected = float(convert(ias, aircraft.units.speed, aircraft.indicator_unit))
    return _correction(aircraft, corrected - shown, _shown(aircraft, shown, "given/bench"))


def _position(aircraft: Aircraft, shown: float, flaps: str) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    cas = float(aircraft.cas_from_ias(ias, flaps))
    at = _shown(aircraft, shown, calibration_source(aircraft, flaps))
    return _difference(aircraft, cas - ias, at, taking("flaps", flaps))


def _alternate(aircraft: Aircraft, shown: float, flaps: str) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    normal = float(aircraft.cas_from_ias(ias, flaps, NORMAL))
    alternate = float(aircraft.cas_from_ias(ias, flaps, ALTERNATE))
    at = _shown(aircraft, shown, calibration_source(aircraft, flaps, ALTERNATE))
    source = taking("static-source", Message("alternate"), calibration_source(aircraft, flaps))
    return _difference(aircraft, alternate - normal, at, taking("flaps", flaps), source)


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
