"""Stall speed by weight and bank, and manoeuvring and approach speed by weight."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.cells import (
    any_blank,
    as_entered,
    entered,
    given,
    heading,
    reading,
    source,
    taking,
)
from cardgen.cards.indicated import (
    at_cas,
    beyond_at_any_altitude,
    calibrated,
    cas_input,
    shown_as_entered,
    speed,
)
from cardgen.definition.model import School, SpeedEntry, Stall, StallRow
from cardgen.definition.names import slug
from cardgen.definition.places import Figure
from cardgen.definition.speeds import SPEEDS
from cardgen.document.record import (
    BLANK,
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Input,
    Message,
    Quantity,
    Row,
    Table,
    Unit,
)

Pair = tuple[Cell, Cell]  # what the indicator shows, and CAS


def stall_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return stall speeds by flap setting, weight and bank."""
    stall = aircraft.definition.stall
    rows = stall.rows if stall else []
    tabulated = {row.flaps or aircraft.flaps[0] for row in rows}
    flaps = [one for one in aircraft.flaps if one in tabulated or _has_stall_cas(aircraft, one)]
    title = Message("title-stall")
    if not flaps:
        return Gap("stall", title, Message("missing-stall"))
    weights = {*_weights(aircraft), *(row.weight or stall.weight for row in rows if stall)}
    banks = sorted({float(bank) for bank in (*(stall.bank if stall else ()), *school.stall_banks)})
    blocks = tuple(_block(aircraft, one, sorted(weights, reverse=True), banks) for one in flaps)
    return Table(
        "stall",
        title,
        Message("how-stall"),
        (
            _weight_column(aircraft),
            *(column for bank in banks for column in _bank_columns(aircraft, bank)),
        ),
        blocks,
        notes=tuple(_stall_notes(aircraft, blocks)),
    )


def _stall_notes(aircraft: Aircraft, blocks: Sequence[Block]) -> list[Message]:
    notes = [Message("note-stall")]
    if any_blank(row for block in blocks for row in block.rows):
        notes.append(Message("note-cas-only"))
    if aircraft.kind != "glider" and len(aircraft.flaps) > 1:
        notes.append(heading("note-flaps-load-factor", bank=reading(_FLAPS_BANK, "deg")))
    return notes


# Where level flight reaches 2.0 g, the least that flaps out must stand: 14 CFR 23.345,
# before Amendment 23-64.
_FLAPS_BANK = math.degrees(math.acos(1 / 2.0))


def _bank_columns(aircraft: Aircraft, bank: float) -> tuple[Column, Column]:
    """Return the columns of a bank: what the indicator shows, and CAS."""
    group = heading("group-bank", bank=reading(bank, "deg"))
    shown, cas = _pair_columns(aircraft, f"bank-{bank:g}-")
    return replace(shown, group=group), replace(cas, group=group)


def _pair_columns(aircraft: Aircraft, name: str = "") -> tuple[Column, Column]:
    """Return a column of what the indicator shows and one of CAS, each headed with its unit."""
    own, manual = aircraft.indicator_unit, aircraft.units.speed
    return (
        Column(
            f"{name}indicated", heading("column-ias-of", unit=Unit(own)), own, main=True, shown=True
        ),
        Column(f"{name}cas", heading("column-cas-of", unit=Unit(manual)), manual),
    )


def _block(aircraft: Aircraft, flaps: str, weights: list[Figure], banks: list[float]) -> Block:
    """Return the rows of a flap setting; where its tables end is said once, in the heading."""
    rows, reached = [], True
    for weight in weights:
        pairs = [_stall(aircraft, flaps, weight, bank) for bank in banks]
        reached &= all(not shown.is_dash or cas.is_dash for shown, cas in pairs)
        cells = [cell for one in pairs for cell in _without_dash(_held(aircraft, one, flaps))]
        name = f"flaps-{slug(flaps)}/weight-{weight:g}"
        rows.append(Row(name, (_weight(aircraft, weight), *cells)))
    return Block(f"flaps-{slug(flaps)}", _block_heading(aircraft, flaps, reached), tuple(rows))


def _block_heading(aircraft: Aircraft, flaps: str, reached: bool) -> Message | None:
    several = len(aircraft.flaps) > 1
    if reached:
        return heading("block-flaps", flaps=flaps) if several else None
    return heading("block-flaps-cas-only", flaps=flaps) if several else Message("block-cas-only")


def _held(aircraft: Aircraft, pair: Pair, flaps: str) -> Pair:
    """Mark what the indicator shows where that is above the limit for the flap setting."""
    shown, cas = pair
    if shown.quantity is None:
        return pair
    beyond = beyond_at_any_altitude(aircraft, shown.quantity.value, flaps)
    return replace(shown, beyond=beyond), cas


def _without_dash(pair: Pair) -> Pair:
    """Leave what the indicator shows blank where only CAS is known."""
    shown, cas = pair
    return (BLANK, cas) if shown.is_dash and not cas.is_dash else pair


def _weight_column(aircraft: Aircraft) -> Column:
    return Column("weight", Message("column-weight"), aircraft.units.weight)


def _has_stall_cas(aircraft: Aircraft, flaps: str) -> bool:
    entry = aircraft.stall_entries.get(flaps)
    return entry is not None and not math.isnan(aircraft.entry_cas(entry, flaps))


def manoeuvring_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return manoeuvring speeds by weight."""
    name = "VO" if "VO" in aircraft.definition.speeds else "VA"
    if name not in aircraft.definition.speeds:
        return Gap("manoeuvring", Message("title-manoeuvring"), Message("missing-manoeuvring"))
    return _by_weight_table(aircraft, "manoeuvring", name, _manoeuvring)


def approach_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return the landing reference speed by weight; None for a glider, which has none."""
    if aircraft.kind == "glider":
        return None
    title = heading("title-by-weight", speed="VREF")
    if not aircraft.definition.speeds.get("VREF", []):
        return Gap("approach", title, Message("missing-approach"))
    return _by_weight_table(aircraft, "approach", "VREF", _approach)


def _by_weight_table(
    aircraft: Aircraft,
    table: str,
    name: str,
    pair_at: Callable[[Aircraft, str, Figure], Pair],
) -> Table:
    """Return a V-speed by weight, as indicated and in CAS."""
    flaps = aircraft.flaps[-1] if name == "VREF" else aircraft.flaps[0]
    only_given = name in aircraft.definition.type.only_approved
    weights = _given_weights(aircraft, name) if only_given else _weights(aircraft)
    pairs = [pair_at(aircraft, name, weight) for weight in weights]
    rows = tuple(
        Row(
            f"weight-{weight:g}",
            (_weight(aircraft, weight), *_without_dash(_held(aircraft, pair, flaps))),
        )
        for weight, pair in zip(weights, pairs, strict=True)
    )
    reached = all(not shown.is_dash or cas.is_dash for shown, cas in pairs)
    notes = [] if reached else [Message("note-cas-only")]
    if only_given:
        notes.append(heading("note-only-approved", speed=name))
    return Table(
        table,
        heading("title-by-weight", speed=name),
        Message(f"how-{table}"),
        (_weight_column(aircraft), *_pair_columns(aircraft)),
        (Block("", None, rows),),
        notes=tuple(notes),
    )


def _given_weights(aircraft: Aircraft, name: str) -> list[Figure]:
    """Return the weights that the manual gives a V-speed for, heaviest first."""
    entries = aircraft.definition.speeds.get(name, [])
    return sorted({one.weight or aircraft.maximum_weight for one in entries}, reverse=True)


def _approach(aircraft: Aircraft, name: str, weight: Figure) -> Pair:
    entry = aircraft.anchor(float(weight), name)
    if entry is None:
        return DASH, DASH
    if (entry.weight or aircraft.maximum_weight) == weight:
        found = _as_given(aircraft, "VREF", entry)
        if found is not None:
            return found
    flaps = entry.flaps or aircraft.flaps[-1]
    inputs = [
        cas_input(aircraft, "vref", aircraft.entry_cas(entry, flaps), entry),
        _known_weight(aircraft, entry),
        _weight_input(aircraft, weight),
    ]
    if aircraft.control_cas:
        control = speed(aircraft.control_cas, aircraft, 1)
        inputs.append(taking("vmc", control, "given/speeds/VMC"))
    cas = aircraft.approach_cas(float(weight))
    return at_cas(aircraft, cas, "minimum", "approach-speed", tuple(inputs), flaps)


def _weights(aircraft: Aircraft) -> list[Figure]:
    weights = aircraft.definition.type.weights
    return sorted({weights.maximum, *weights.others}, reverse=True)


def _weight(aircraft: Aircraft, weight: Figure) -> Cell:
    return given(float(weight), aircraft.units.weight, weight.text)


def _weight_input(aircraft: Aircraft, weight: Figure) -> Input:
    return taking("weight", _weighing(aircraft, weight), source(aircraft, weight))


def _known_weight(aircraft: Aircraft, entry: SpeedEntry) -> Input:
    """Return the weight that a V-speed is given for."""
    known = entry.weight or aircraft.maximum_weight
    return taking("known-weight", _weighing(aircraft, known), source(aircraft, known))


def _weighing(aircraft: Aircraft, weight: Figure) -> Quantity:
    return as_entered(weight, aircraft.units.weight)


def _stall(aircraft: Aircraft, flaps: str, weight: Figure, bank: float) -> Pair:
    found = _in_manual(aircraft, flaps, weight, bank)
    if found is not None:
        return found
    entry = aircraft.stall_entries.get(flaps)
    if entry is None:
        return DASH, DASH
    if bank == 0.0 and (entry.weight or aircraft.maximum_weight) == weight:
        name = "VS0" if flaps == aircraft.flaps[-1] else "VS1"
        found = _as_given(aircraft, name, entry)
        if found is not None:
            return found
    if not _has_stall_cas(aircraft, flaps):
        return DASH, DASH
    cas = aircraft.stall_cas(flaps, float(weight), bank)
    inputs = (
        cas_input(aircraft, "vs", aircraft.entry_cas(entry, flaps), entry),
        _known_weight(aircraft, entry),
        taking("flaps", flaps),
        _weight_input(aircraft, weight),
        taking("bank", reading(bank, "deg")),
    )
    return at_cas(aircraft, cas, "minimum", "stall-speed", inputs, flaps)


def _as_given(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Pair | None:
    """Return a V-speed at the weight that it is given for, if it has an IAS."""
    if entry.ias is None:
        return None
    sense = SPEEDS[name].sense
    shown = shown_as_entered(aircraft, entry.ias, entry, sense, sense == "maximum")
    return shown, calibrated(aircraft, name, entry)


def _in_manual(aircraft: Aircraft, flaps: str, weight: Figure, bank: float) -> Pair | None:
    """Return the cell of the manual's own stall table, where it has one."""
    stall = aircraft.definition.stall
    if stall is None:
        return None
    for row in stall.rows:
        at = row.weight or stall.weight
        if (row.flaps or aircraft.flaps[0]) == flaps and at == weight:
            for column, given_bank in enumerate(stall.bank):
                if given_bank == bank:
                    return _stall_entered(aircraft, stall, row, column)
    return None


def _stall_entered(aircraft: Aircraft, stall: Stall, row: StallRow, column: int) -> Pair:
    figure = row.cas[column]
    cas = entered(aircraft, figure, stall, aircraft.units.speed, sense="minimum")
    if row.ias is None:
        flaps = row.flaps or aircraft.flaps[0]
        inputs = (taking("cas", speed(float(figure), aircraft), source(aircraft, figure)),)
        formula = "indicated-from-calibrated"
        return at_cas(aircraft, float(figure), "minimum", formula, inputs, flaps)[0], cas
    return shown_as_entered(aircraft, row.ias[column], stall, "minimum"), cas


def _manoeuvring(aircraft: Aircraft, name: str, weight: Figure) -> Pair:
    anchor = aircraft.anchor(float(weight), name)
    inputs = [_weight_input(aircraft, weight)]
    if anchor is not None:
        if (anchor.weight or aircraft.maximum_weight) == weight:
            found = _as_given(aircraft, name, anchor)
            if found is not None:
                return found
        cas = aircraft.entry_cas(anchor)
        inputs += [cas_input(aircraft, slug(name).lower(), cas, anchor)]
        inputs += [_known_weight(aircraft, anchor)]
    cas = aircraft.manoeuvring_cas(float(weight), name)
    return at_cas(aircraft, cas, "maximum", "manoeuvring-speed", tuple(inputs))
