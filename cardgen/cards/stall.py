"""Stall speed by weight and bank, and manoeuvring speed by weight."""

import math

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.indicated import shown_as_entered, shown_at_cas, speed
from cardgen.cards.table import DASH, Block, Cell, Column, Gap, Inputs, Table, entered, given, words
from cardgen.definition.model import SpeedEntry, Stall, StallRow
from cardgen.definition.places import Figure
from cardgen.definition.speeds import Sense

BANKS = (0.0, 30.0, 45.0, 60.0)
_SMALL_CAS = "Small figures: CAS; beside a dash, the indicator's tables do not reach it."


def stall_table(aircraft: Aircraft) -> Table | Gap:
    """Return stall speeds by flap setting, weight and bank."""
    stall = aircraft.definition.stall
    rows = stall.rows if stall else []
    tabulated = {row.flaps or aircraft.flaps[0] for row in rows}
    flaps = [one for one in aircraft.flaps if one in tabulated or _has_stall_cas(aircraft, one)]
    if not flaps:
        return Gap("Stall speed", "VS0 and VS1 have no CAS, and no calibration table gives it")
    weights = {*_weights(aircraft), *(row.weight or stall.weight for row in rows if stall)}
    banks = [float(bank) for bank in stall.bank] if stall else list(BANKS)
    unit = aircraft.indicator_unit
    return Table(
        "stall",
        "Stall speed",
        "Find the flap setting and the weight, or the next heavier, at the left; read what the "
        "indicator shows at the stall under the bank of a level turn.",
        (
            Column("weight", "Weight", aircraft.units.weight),
            *(
                Column(f"bank {bank:g}", f"{bank:g}°", unit, f"Bank; {unit}", _beside(aircraft))
                for bank in banks
            ),
        ),
        tuple(
            Block(
                f"Flaps {one}" if len(aircraft.flaps) > 1 else "",
                tuple(
                    (_weight(weight), *(_stall(aircraft, one, weight, bank) for bank in banks))
                    for weight in sorted(weights, reverse=True)
                ),
            )
            for one in flaps
        ),
        notes=(_SMALL_CAS, "Stall: coordinated, level. Minima are rounded up, maxima down."),
    )


def _has_stall_cas(aircraft: Aircraft, flaps: str) -> bool:
    entry = aircraft.stall_entries.get(flaps)
    return entry is not None and not math.isnan(aircraft.entry_cas(entry, flaps))


def manoeuvring_table(aircraft: Aircraft) -> Table | Gap:
    """Return manoeuvring speeds by weight."""
    name = "VO" if "VO" in aircraft.definition.speeds else "VA"
    if name not in aircraft.definition.speeds:
        return Gap("Manoeuvring speed", "the definition gives neither VA nor VO")
    rows = []
    for weight in _weights(aircraft):
        cell = _manoeuvring(aircraft, name, weight)
        rows.append((_weight(weight), cell))
    return Table(
        "manoeuvring",
        f"{name} by weight",
        "Find the weight, or the next lighter, at the left; do not use full or abrupt controls "
        "above the speed beside it.",
        (
            Column("weight", "Weight", aircraft.units.weight),
            Column(name, name, aircraft.indicator_unit, also=_beside(aircraft)),
        ),
        (Block("", tuple(rows)),),
        notes=(_SMALL_CAS,),
    )


def _beside(aircraft: Aircraft) -> str:
    return f"CAS {aircraft.units.speed}"


def approach_table(aircraft: Aircraft) -> Table | Gap | None:
    """Return the landing reference speed by weight; None for a glider, which has none."""
    if aircraft.kind == "glider":
        return None
    entries = aircraft.definition.speeds.get("VREF", [])
    if not entries:
        return Gap("VREF by weight", "the definition gives no VREF")
    return Table(
        "approach",
        "VREF by weight",
        "Find the weight, or the next heavier, at the left; beside it is the speed to cross the "
        "threshold at with landing flaps, in calm air.",
        (
            Column("weight", "Weight", aircraft.units.weight),
            Column("VREF", "VREF", aircraft.indicator_unit, also=_beside(aircraft)),
        ),
        (
            Block(
                "",
                tuple(
                    (_weight(weight), _approach(aircraft, weight)) for weight in _weights(aircraft)
                ),
            ),
        ),
        notes=(_SMALL_CAS,),
    )


def _approach(aircraft: Aircraft, weight: Figure) -> Cell:
    entry = aircraft.anchor(float(weight), "VREF")
    if entry is None:
        return words(DASH)
    if (entry.weight or aircraft.maximum_weight) == weight:
        found = _as_given(aircraft, entry, Sense.MINIMUM)
        if found is not None:
            return found
    known = entry.weight or aircraft.maximum_weight
    flaps = entry.flaps or aircraft.flaps[-1]
    inputs: Inputs = {
        "VREF": f"{speed(aircraft.entry_cas(entry, flaps), aircraft, 1)} CAS at "
        f"{known.text} {aircraft.units.weight}",
        "weight": f"{weight.text} {aircraft.units.weight}",
    }
    if aircraft.control_cas:
        inputs["not below VMC"] = f"{speed(aircraft.control_cas, aircraft, 1)} CAS"
    cas = aircraft.approach_cas(float(weight))
    return shown_at_cas(aircraft, cas, Sense.MINIMUM, "approach speed", inputs, flaps)


def _weights(aircraft: Aircraft) -> list[Figure]:
    weights = aircraft.definition.type.weights
    return sorted({weights.maximum, *weights.others}, reverse=True)


def _weight(weight: Figure) -> Cell:
    return given(float(weight), weight.text)


def _stall(aircraft: Aircraft, flaps: str, weight: Figure, bank: float) -> Cell:
    found = _in_manual(aircraft, flaps, weight, bank)
    if found is not None:
        return found
    entry = aircraft.stall_entries.get(flaps)
    if entry is None:
        return words(DASH)
    if bank == 0.0 and (entry.weight or aircraft.maximum_weight) == weight:
        found = _as_given(aircraft, entry, Sense.MINIMUM)
        if found is not None:
            return found
    if not _has_stall_cas(aircraft, flaps):
        return words(DASH)
    cas = aircraft.stall_cas(flaps, float(weight), bank)
    inputs: Inputs = {
        "VS": speed(aircraft.entry_cas(entry, flaps), aircraft) + " CAS",
        "flaps": flaps,
        "weight": f"{weight.text} {aircraft.units.weight}",
        "bank": f"{bank:g}°",
    }
    return shown_at_cas(aircraft, cas, Sense.MINIMUM, "stall speed", inputs, flaps)


def _as_given(aircraft: Aircraft, entry: SpeedEntry, sense: Sense) -> Cell | None:
    """Return the cell of a V-speed at the weight that it is given for, if it has an IAS."""
    if entry.ias is None:
        return None
    cas = entered(entry.cas, entry) if entry.cas is not None else None
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
    inputs = {"CAS": f"{row.cas[column].text} {aircraft.units.speed}"}
    cas = entered(row.cas[column], stall)
    if row.ias is None:
        flaps = row.flaps or aircraft.flaps[0]
        computed_ias = shown_at_cas(
            aircraft,
            float(row.cas[column]),
            Sense.MINIMUM,
            "indicated from calibrated",
            inputs,
            flaps,
        )
        return Cell(computed_ias.text, computed_ias.value, computed_ias.origin, cas)
    return shown_as_entered(aircraft, row.ias[column], stall, Sense.MINIMUM, cas)


def _manoeuvring(aircraft: Aircraft, name: str, weight: Figure) -> Cell:
    anchor = aircraft.anchor(float(weight), name)
    if anchor is not None and (anchor.weight or aircraft.maximum_weight) == weight:
        found = _as_given(aircraft, anchor, Sense.MAXIMUM)
        if found is not None:
            return found
    inputs: Inputs = {"weight": f"{weight.text} {aircraft.units.weight}"}
    if anchor is not None:
        known = anchor.weight or aircraft.maximum_weight
        inputs[name] = (
            f"{speed(aircraft.entry_cas(anchor), aircraft)} CAS at "
            f"{known.text} {aircraft.units.weight}"
        )
    cas_value = aircraft.manoeuvring_cas(float(weight), name)
    return shown_at_cas(aircraft, cas_value, Sense.MAXIMUM, "manoeuvring speed", inputs)
