"""Stall speed by weight and bank, and manoeuvring and approach speed by weight."""

import math
from dataclasses import replace

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.cells import as_entered, entered, given, heading, reading, source, taking
from cardgen.cards.indicated import cas_input, shown_as_entered, shown_at_cas, speed
from cardgen.definition.identifiers import slug
from cardgen.definition.model import School, SpeedEntry, Stall, StallRow
from cardgen.definition.places import Figure
from cardgen.document.record import (
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
from cardgen.document.rounding import Sense

BANKS = (0.0, 30.0, 45.0, 60.0)
_SMALL_CAS = Message("note-small-cas")


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
    banks = [float(bank) for bank in stall.bank] if stall else list(BANKS)
    unit = aircraft.indicator_unit
    return Table(
        "stall",
        title,
        Message("how-stall"),
        (
            _weight_column(aircraft),
            *(
                replace(
                    _shown_column(aircraft, f"bank-{bank:g}", _bank(bank)),
                    group=heading("group-bank", unit=Unit(unit)),
                )
                for bank in banks
            ),
        ),
        tuple(
            Block(
                f"flaps-{slug(one)}",
                heading("block-flaps", flaps=one) if len(aircraft.flaps) > 1 else None,
                tuple(
                    Row(
                        f"flaps-{slug(one)}/weight-{weight:g}",
                        (
                            _weight(aircraft, weight),
                            *(_stall(aircraft, one, weight, bank) for bank in banks),
                        ),
                    )
                    for weight in sorted(weights, reverse=True)
                ),
            )
            for one in flaps
        ),
        notes=(_SMALL_CAS, Message("note-stall")),
    )


def _bank(bank: float) -> Message:
    return heading("angle", angle=reading(bank, "deg"))


def _shown_column(aircraft: Aircraft, name: str, said: Message) -> Column:
    """Return a column of what the indicator shows, with CAS beside it."""
    return Column(
        name,
        said,
        aircraft.indicator_unit,
        beside=heading("beside-cas", unit=Unit(aircraft.units.speed)),
        beside_unit=aircraft.units.speed,
        shown=True,
    )


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
    return Table(
        "manoeuvring",
        heading("title-by-weight", speed=name),
        Message("how-manoeuvring"),
        (_weight_column(aircraft), _shown_column(aircraft, name, Message(f"speed-{name}"))),
        (_by_weight(aircraft, [_manoeuvring(aircraft, name, one) for one in _weights(aircraft)]),),
        notes=(_SMALL_CAS,),
    )


def approach_table(aircraft: Aircraft, school: School) -> Table | Gap | None:
    """Return the landing reference speed by weight; None for a glider, which has none."""
    if aircraft.kind == "glider":
        return None
    title = heading("title-by-weight", speed="VREF")
    if not aircraft.definition.speeds.get("VREF", []):
        return Gap("approach", title, Message("missing-approach"))
    return Table(
        "approach",
        title,
        Message("how-approach"),
        (_weight_column(aircraft), _shown_column(aircraft, "VREF", Message("speed-VREF"))),
        (_by_weight(aircraft, [_approach(aircraft, one) for one in _weights(aircraft)]),),
        notes=(_SMALL_CAS,),
    )


def _by_weight(aircraft: Aircraft, cells: list[Cell]) -> Block:
    rows = [
        Row(f"weight-{weight:g}", (_weight(aircraft, weight), cell))
        for weight, cell in zip(_weights(aircraft), cells, strict=True)
    ]
    return Block("", None, tuple(rows))


def _approach(aircraft: Aircraft, weight: Figure) -> Cell:
    entry = aircraft.anchor(float(weight), "VREF")
    if entry is None:
        return DASH
    if (entry.weight or aircraft.maximum_weight) == weight:
        found = _as_given(aircraft, entry, "minimum")
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
    return shown_at_cas(aircraft, cas, "minimum", "approach-speed", tuple(inputs), flaps)


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


def _stall(aircraft: Aircraft, flaps: str, weight: Figure, bank: float) -> Cell:
    found = _in_manual(aircraft, flaps, weight, bank)
    if found is not None:
        return found
    entry = aircraft.stall_entries.get(flaps)
    if entry is None:
        return DASH
    if bank == 0.0 and (entry.weight or aircraft.maximum_weight) == weight:
        found = _as_given(aircraft, entry, "minimum")
        if found is not None:
            return found
    if not _has_stall_cas(aircraft, flaps):
        return DASH
    cas = aircraft.stall_cas(flaps, float(weight), bank)
    inputs = (
        cas_input(aircraft, "vs", aircraft.entry_cas(entry, flaps), entry),
        _known_weight(aircraft, entry),
        taking("flaps", flaps),
        _weight_input(aircraft, weight),
        taking("bank", reading(bank, "deg")),
    )
    return shown_at_cas(aircraft, cas, "minimum", "stall-speed", inputs, flaps)


def _as_given(aircraft: Aircraft, entry: SpeedEntry, sense: Sense) -> Cell | None:
    """Return the cell of a V-speed at the weight that it is given for, if it has an IAS."""
    if entry.ias is None:
        return None
    unit = aircraft.units.speed
    cas = None
    if entry.cas is not None:
        cas = entered(aircraft, entry.cas, entry, unit, sense=sense)
    return shown_as_entered(aircraft, entry.ias, entry, sense, cas)


def _in_manual(aircraft: Aircraft, flaps: str, weight: Figure, bank: float) -> Cell | None:
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


def _stall_entered(aircraft: Aircraft, stall: Stall, row: StallRow, column: int) -> Cell:
    figure = row.cas[column]
    cas = entered(aircraft, figure, stall, aircraft.units.speed, sense="minimum")
    if row.ias is None:
        flaps = row.flaps or aircraft.flaps[0]
        inputs = (taking("cas", speed(float(figure), aircraft), source(aircraft, figure)),)
        formula = "indicated-from-calibrated"
        shown = shown_at_cas(aircraft, float(figure), "minimum", formula, inputs, flaps)
        return replace(shown, beside=cas)
    return shown_as_entered(aircraft, row.ias[column], stall, "minimum", cas)


def _manoeuvring(aircraft: Aircraft, name: str, weight: Figure) -> Cell:
    anchor = aircraft.anchor(float(weight), name)
    inputs = [_weight_input(aircraft, weight)]
    if anchor is not None:
        if (anchor.weight or aircraft.maximum_weight) == weight:
            found = _as_given(aircraft, anchor, "maximum")
            if found is not None:
                return found
        cas = aircraft.entry_cas(anchor)
        inputs += [cas_input(aircraft, slug(name).lower(), cas, anchor)]
        inputs += [_known_weight(aircraft, anchor)]
    cas = aircraft.manoeuvring_cas(float(weight), name)
    return shown_at_cas(aircraft, cas, "maximum", "manoeuvring-speed", tuple(inputs))
