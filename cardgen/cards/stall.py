"""Stall speed by weight and bank, and manoeuvring and approach speed by weight."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.airframe.stalling import of_gear
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
    calibrated_at,
    cas_input,
    gear_input,
    shown_as_entered,
    speed,
)
from cardgen.definition.group import Group
from cardgen.definition.model import School, SpeedEntry
from cardgen.definition.names import slug
from cardgen.definition.places import Figure
from cardgen.definition.speeds import SPEEDS
from cardgen.definition.stalling import StallRow
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
    Value,
)

Pair = tuple[Cell, Cell]  # what the indicator shows, and CAS


def stall_table(aircraft: Aircraft, school: School) -> Table | Gap:
    """Return stall speeds by flap setting, gear, weight and bank."""
    stall = aircraft.definition.stall
    settings = [(one, gear) for one in aircraft.flaps for gear in _gears(aircraft, one)]
    title = Message("title-stall")
    if not settings:
        return Gap("stall", title, Message("missing-stall"))
    weights = {*_weights(aircraft), *(one.weight for one in aircraft.stall_speeds)}
    weights |= {stall.weight_of(row) for row in stall.rows} if stall else set()
    banks = sorted({float(bank) for bank in (*(stall.bank if stall else ()), *school.stall_banks)})
    heaviest = sorted(weights, reverse=True)
    blocks = tuple(_block(aircraft, one, gear, heaviest, banks) for one, gear in settings)
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


def _gears(aircraft: Aircraft, flaps: str) -> list[str]:
    """Return where the manual says that the gear is at a flap setting's stall speeds.

    Nothing stands for what it does not say; a V-speed that does not say serves those that do.
    """
    stall = aircraft.definition.stall
    rows = [one for one in (stall.rows if stall else ()) if _flaps(aircraft, one) == flaps]
    speeds = [one for one in aircraft.stall_speeds if one.flaps == flaps]
    printed = {one.gear or "" for one in rows}
    said = {one.gear for one in speeds if one.gear}
    if not printed and not said and all(math.isnan(one.calibrated) for one in speeds):
        return []
    return sorted(printed | said or {""}, key=("", "up", "down").index)


def _flaps(aircraft: Aircraft, row: StallRow) -> str:
    return row.flaps or aircraft.flaps[0]


def _stall_notes(aircraft: Aircraft, blocks: Sequence[Block]) -> list[Message]:
    rows = [row for block in blocks for row in block.rows]
    notes = [Message("note-stall")]
    if any_blank(rows):
        notes.append(Message("note-cas-only"))
    if any(_lacks_cas(row) for row in rows):
        notes.append(Message("note-ias-only"))
    stall = aircraft.definition.stall
    if stall is not None and stall.when:
        notes.append(heading("note-stall-when", when=stall.when))
    if aircraft.kind != "glider" and len(aircraft.flaps) > 1:
        notes.append(heading("note-flaps-load-factor", bank=reading(_FLAPS_BANK, "deg")))
    return notes


def _lacks_cas(row: Row) -> bool:
    """Whether the manual gives an IAS in a row that its calibration table does not reach."""
    pairs = zip(row.cells[1::2], row.cells[2::2], strict=True)
    return any(shown.quantity is not None and cas.is_dash for shown, cas in pairs)


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


def _block(
    aircraft: Aircraft, flaps: str, gear: str, weights: list[Figure], banks: list[float]
) -> Block:
    """Return the rows of a setting; where its tables end is said once, in the heading."""
    rows, reached = [], True
    name = f"flaps-{slug(flaps)}" + (f"/gear-{gear}" if gear else "")
    for weight in weights:
        pairs = [_stall(aircraft, flaps, gear, weight, bank) for bank in banks]
        reached &= all(not shown.is_dash or cas.is_dash for shown, cas in pairs)
        held = [_held(aircraft, one, flaps, gear) for one in pairs]
        cells = [cell for one in held for cell in _without_dash(one)]
        rows.append(Row(f"{name}/weight-{weight:g}", (_weight(aircraft, weight), *cells)))
    return Block(name, _block_heading(aircraft, flaps, gear, reached), tuple(rows))


def _block_heading(aircraft: Aircraft, flaps: str, gear: str, reached: bool) -> Message | None:
    several = len(aircraft.flaps) > 1
    if not several and not gear:
        return None if reached else Message("block-cas-only")
    name = "block-flaps" + ("-gear" if gear else "") + ("" if reached else "-cas-only")
    values: dict[str, Value] = {"gear": Message(f"gear-{gear}")} if gear else {}
    return Message(name, {"flaps": flaps, **values})


def _held(aircraft: Aircraft, pair: Pair, flaps: str, gear: str = "") -> Pair:
    """Mark what the indicator shows where that is above the limit for the flaps and gear."""
    shown, cas = pair
    if shown.quantity is None:
        return pair
    beyond = beyond_at_any_altitude(aircraft, shown.quantity.value, flaps, gear)
    return replace(shown, beyond=beyond), cas


def _without_dash(pair: Pair) -> Pair:
    """Leave what the indicator shows blank where only CAS is known."""
    shown, cas = pair
    return (BLANK, cas) if shown.is_dash and not cas.is_dash else pair


def _weight_column(aircraft: Aircraft) -> Column:
    return Column("weight", Message("column-weight"), aircraft.units.weight)


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
    if aircraft.anchor(0.0, "VREF") is None:
        return Gap("approach", title, Message("missing-approach-figure"))
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


def _stall(aircraft: Aircraft, flaps: str, gear: str, weight: Figure, bank: float) -> Pair:
    found = _in_manual(aircraft, flaps, gear, weight, bank)
    if found is not None:
        return found
    speeds = [one for one in aircraft.stall_speeds if one.flaps == flaps]
    known = of_gear(speeds, gear, aircraft.usual_gear(flaps))
    here = next((one for one in known if one.weight == weight), None)
    if here is not None and bank == 0.0:
        return _stall_given(aircraft, here.ias, here.cas, here.group, flaps, gear)
    anchor = aircraft.stall_anchor(flaps, float(weight), gear)
    if anchor is None:
        return DASH, DASH
    cas = aircraft.stall_cas(flaps, float(weight), bank, gear)
    figure = anchor.ias if anchor.cas is None else anchor.cas
    vs = speed(anchor.calibrated, aircraft, None if anchor.cas is not None else 1)
    inputs = (
        taking("vs", vs, source(aircraft, figure)),
        taking("known-weight", _weighing(aircraft, anchor.weight), source(aircraft, anchor.weight)),
        taking("flaps", flaps),
        *gear_input(aircraft, flaps, gear),
        _weight_input(aircraft, weight),
        taking("bank", reading(bank, "deg")),
    )
    return at_cas(aircraft, cas, "minimum", "stall-speed", inputs, flaps, gear=gear)


def _stall_given(
    aircraft: Aircraft,
    ias: Figure | None,
    cas: Figure | None,
    group: Group,
    flaps: str,
    gear: str,
) -> Pair:
    """Return a stall speed as the manual gives it; what it does not give, by the tables."""
    if ias is None:
        assert cas is not None
        inputs = (taking("cas", speed(float(cas), aircraft), source(aircraft, cas)),)
        formula = "indicated-from-calibrated"
        at = (flaps, NORMAL, gear)
        shown, _ = at_cas(aircraft, float(cas), "minimum", formula, inputs, *at)
    else:
        shown = shown_as_entered(aircraft, ias, group, "minimum")
    if cas is not None:
        unit = aircraft.units.speed
        return shown, entered(aircraft, cas, group, unit, sense="minimum")
    assert ias is not None
    known = float(aircraft.cas_from_ias(float(ias), flaps, NORMAL, gear))
    return shown, calibrated_at(aircraft, ias, known, "minimum", flaps, gear)


def _as_given(aircraft: Aircraft, name: str, entry: SpeedEntry) -> Pair | None:
    """Return a V-speed at the weight that it is given for, if it has an IAS."""
    if entry.ias is None:
        return None
    sense = SPEEDS[name].sense
    shown = shown_as_entered(aircraft, entry.ias, entry, sense, sense == "maximum")
    return shown, calibrated(aircraft, name, entry)


def _in_manual(
    aircraft: Aircraft, flaps: str, gear: str, weight: Figure, bank: float
) -> Pair | None:
    """Return the cell of the manual's own stall table, where it has one."""
    stall = aircraft.definition.stall
    banks = [float(one) for one in stall.bank] if stall else []
    if stall is None or bank not in banks:
        return None
    column = banks.index(bank)
    for row in stall.rows:
        setting = (_flaps(aircraft, row), row.gear or "", stall.weight_of(row))
        if setting == (flaps, gear, weight):
            ias, cas = (figures[column] if figures else None for figures in (row.ias, row.cas))
            return _stall_given(aircraft, ias, cas, stall, flaps, gear)
    return None


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
