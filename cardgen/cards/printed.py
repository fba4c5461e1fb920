"""Corrections as the manual and the bench print them, and beside each what it comes to."""

import math
from collections.abc import Iterator, Sequence

from cardgen.airframe.aircraft import Aircraft
from cardgen.airframe.calibrated import Calibrated
from cardgen.cards.calibration import setting_said
from cardgen.cards.cells import as_entered, computed, entered, given, heading, source, taking
from cardgen.cards.indicated import calibration_source
from cardgen.definition.corrections import (
    AltimeterCard,
    AltimeterCorrection,
    Calibration,
    InstrumentCorrection,
    corrected,
    key_of,
)
from cardgen.definition.identifiers import setting_id
from cardgen.definition.model import School
from cardgen.definition.names import slug
from cardgen.definition.places import Figure
from cardgen.document.record import BLANK, Block, Cell, Column, Input, Message, Row, Table

# The columns of the position error, in this order, as far as a manual prints or needs them.
_POSITION = (
    "add_to_ias",
    "subtract_from_ias",
    "normal_ias",
    "cas",
    "add_to_cas",
    "subtract_from_cas",
    "ias",
)
_READING = "corrected-reading"


def position_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the position error as a manual prints it that does not give IAS beside CAS."""
    tables = [one for one in aircraft.definition.calibration if one.form != ("ias", "cas")]
    if not tables:
        return None
    used = {row for one in tables for row in _rows_of(one)}
    rows = [row for row in _POSITION if row in used]
    unit = aircraft.units.speed
    blocks = tuple(_position_block(aircraft, one, rows) for one in tables)
    dashes = any(cell.is_dash for block in blocks for row in block.rows for cell in row.cells)
    return Table(
        "position",
        Message("title-position"),
        Message("how-position"),
        (
            Column("at", Message("column-at"), unit),
            *(Column(slug(key_of(row)), _headed(row), unit) for row in rows),
        ),
        blocks,
        notes=(Message("note-table-ends"),) if dashes else (),
    )


def _rows_of(table: Calibration) -> Iterator[str]:
    """Yield the rows that a table prints beside the one it is entered with, or that it gives."""
    start, beside = table.form
    yield beside
    yield "cas" if start == "ias" else "ias"
    if table.is_by_normal_source:
        yield "normal_ias"


def _headed(row: str) -> Message:
    return Message(f"column-row-{slug(key_of(row))}")


def _position_block(aircraft: Aircraft, table: Calibration, rows: Sequence[str]) -> Block:
    flaps, static_source, gear = table.setting(aircraft.flaps)
    start, _ = table.form
    name = setting_id(flaps, static_source, gear)
    setting = setting_said(aircraft, flaps, static_source, gear)
    known = next((one for one in aircraft.calibrations if one.given is table), None)
    return Block(
        name,
        heading("block-position", setting=setting, start=_headed(start)),
        tuple(
            Row(
                f"{name}/{start}-{one:g}",
                (
                    given(float(one), aircraft.units.speed, one.text),
                    *(_position(aircraft, table, known, one, other, row) for row in rows),
                ),
            )
            for one, other in table.pairs
        ),
    )


def _position(
    aircraft: Aircraft,
    table: Calibration,
    known: Calibrated | None,
    one: Figure,
    other: Figure,
    row: str,
) -> Cell:
    start, beside = table.form
    unit = aircraft.units.speed
    if row == beside:
        return entered(aircraft, other, table, unit)
    if row not in _rows_of(table):
        return BLANK
    at = taking(start, as_entered(one, unit), source(aircraft, other))
    if row == "normal_ias":
        return _sum(corrected(one, beside, other), unit, at)
    if row == "ias":
        value = float(corrected(one, beside, other))
        return computed(value, unit, "indicated-from-calibrated", (at,))
    inputs = [at]
    if table.is_by_normal_source:
        normal = corrected(one, beside, other)
        setting = table.setting(aircraft.flaps)
        by = calibration_source(aircraft, setting[0], gear=setting[2])
        inputs.append(taking("normal-ias", as_entered(normal, unit), by))
    value = float(known.curve.at(float(one))) if known else math.nan
    return computed(value, unit, "calibrated-airspeed", tuple(inputs))


# -- bench cards ---------------------------------------------------------------------------------


def instrument_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the airspeed indicator's bench card, if there is one."""
    card = aircraft.definition.airframe.instrument_correction
    return _card_table(aircraft, "instrument", card, aircraft.indicator_unit) if card else None


def altimeter_card_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the altimeter's bench card, if there is one."""
    card = aircraft.definition.airframe.altimeter_correction
    return _card_table(aircraft, "altimeter-card", card, aircraft.units.altitude) if card else None


def _card_table(
    aircraft: Aircraft, name: str, card: InstrumentCorrection | AltimeterCard, unit: str
) -> Table:
    start, beside = card.form
    gives = "true" if start == "indicated" else "indicated"
    columns = dict.fromkeys((start, beside, gives))
    return Table(
        name,
        Message(f"title-{name}"),
        Message(f"how-{name}"),
        tuple(_card_column(name, row, unit) for row in columns),
        (
            Block(
                "",
                None,
                tuple(
                    Row(
                        f"{start}-{one:g}",
                        (
                            given(float(one), unit, one.text),
                            entered(aircraft, other, card, unit),
                            *(
                                []
                                if beside == gives
                                else [_means(aircraft, card, one, other, unit)]
                            ),
                        ),
                    )
                    for one, other in card.pairs
                ),
            ),
        ),
    )


def _card_column(name: str, row: str, unit: str) -> Column:
    shown = name == "instrument"  # speeds of this indicator, which no page converts
    return Column(
        slug(key_of(row)), Message(f"column-{name}-{slug(key_of(row))}"), unit, shown=shown
    )


def _means(
    aircraft: Aircraft,
    card: InstrumentCorrection | AltimeterCard,
    one: Figure,
    other: Figure,
    unit: str,
) -> Cell:
    start, beside = card.form
    name = "altitude-shown" if isinstance(card, AltimeterCard) else start
    at = taking(name, as_entered(one, unit), source(aircraft, other))
    return _sum(corrected(one, beside, other), unit, at)


def _sum(value: Figure, unit: str, at: Input) -> Cell:
    """Return a reading with its correction, with as many decimals as these have."""
    decimals = len(value.text.partition(".")[2])
    return computed(float(value), unit, _READING, (at,), decimals=decimals)


# -- the altimeter in flight ---------------------------------------------------------------------


def altimeter_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return what the manual says to add to the altitude shown, or to subtract from it."""
    tables = aircraft.definition.altimeter_correction
    if not tables:
        return None
    rows = [
        row for _, row in AltimeterCorrection.FORMS if any(one.form[1] == row for one in tables)
    ]
    at_altitudes = any(one.altitude is not None for one in tables)
    return Table(
        "altimeter",
        Message("title-altimeter"),
        Message("how-altimeter"),
        (
            Column("ias", Message("column-manual-ias"), aircraft.units.speed),
            *(_card_column("altimeter-card", row, aircraft.units.altitude) for row in rows),
        ),
        tuple(_altimeter_block(aircraft, one, rows) for one in tables),
        notes=(
            *((Message("note-altimeter-altitudes"),) if at_altitudes else ()),
            *(
                heading("note-when", setting=_altimeter_setting(aircraft, one), when=one.when)
                for one in tables
                if one.when
            ),
        ),
    )


def _altimeter_block(aircraft: Aircraft, table: AltimeterCorrection, rows: Sequence[str]) -> Block:
    flaps, static_source, altitude = table.setting
    name = setting_id(flaps or "all", static_source)
    said = _altimeter_setting(aircraft, table)
    if table.altitude is not None:
        name = f"{name}/altitude-{altitude:g}"
        level = as_entered(table.altitude, aircraft.units.altitude)
        said = heading("block-altimeter-altitude", setting=said, altitude=level)
    unit = aircraft.units.altitude
    return Block(
        name,
        said,
        tuple(
            Row(
                f"{name}/ias-{ias:g}",
                (
                    given(float(ias), aircraft.units.speed, ias.text),
                    *(
                        entered(aircraft, figure, table, unit) if row == table.form[1] else BLANK
                        for row in rows
                    ),
                ),
            )
            for ias, figure in table.pairs
        ),
    )


def _altimeter_setting(aircraft: Aircraft, table: AltimeterCorrection) -> Message:
    if table.flaps is not None:
        return setting_said(aircraft, table.flaps, table.static_source)
    return Message("column-alternate" if table.static_source == "alternate" else "column-normal")
