"""What to add to or take off an indication, with the direction in words."""

import math
from dataclasses import replace

from cardgen.airframe.aircraft import ALTERNATE, NORMAL, Aircraft
from cardgen.cards.calibration import indicated_steps
from cardgen.cards.indicated import differs
from cardgen.cards.table import Block, Cell, Column, Table, computed, given
from cardgen.units import convert


def corrections_table(aircraft: Aircraft) -> Table:
    """Return the instrument correction, the position error and the alternate source's effect."""
    unit = aircraft.indicator_unit
    bench = aircraft.definition.airframe.instrument_correction is not None
    flaps = [one for one in aircraft.flaps if aircraft.calibration(one)]
    alternates = [one for one in aircraft.flaps if aircraft.calibration(one, ALTERNATE)]
    several = len(aircraft.flaps) > 1
    columns = [
        Column("indicated", "Indicator shows" if differs(aircraft) else "IAS", unit),
        *([Column("instrument", "Instrument", unit)] if bench else []),
        *(
            Column(f"position, flaps {one}", f"Flaps {one}" if several else "All", unit, "Position")
            for one in flaps
        ),
        *(
            Column(
                f"alternate static, flaps {one}",
                f"Flaps {one}" if several else "All",
                unit,
                "Alternate static source",
            )
            for one in alternates
        ),
    ]
    rows = []
    for shown in indicated_steps(aircraft):
        cells = [_instrument(aircraft, shown)] if bench else []
        cells += [_position(aircraft, shown, one) for one in flaps]
        cells += [_alternate(aircraft, shown, one) for one in alternates]
        if any(cell.value is not None for cell in cells):
            rows.append((given(shown), *cells))
    return Table(
        "corrections",
        "Corrections",
        "Find what the indicator shows at the left; correct for the instrument, then for the "
        "position error, and on the alternate static source for that as well.",
        tuple(columns),
        (Block("", tuple(rows)),),
        notes=tuple(_notes(aircraft, bench, bool(alternates))),
    )


def _instrument(aircraft: Aircraft, shown: float) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    corrected = float(convert(ias, aircraft.units.speed, aircraft.indicator_unit))
    return _in_words(aircraft, corrected - shown, shown, {})


def _position(aircraft: Aircraft, shown: float, flaps: str) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    cas = float(aircraft.cas_from_ias(ias, flaps))
    return _difference(aircraft, cas - ias, shown, {"flaps": flaps})


def _alternate(aircraft: Aircraft, shown: float, flaps: str) -> Cell:
    ias = float(aircraft.ias_from_indicated(shown))
    normal = float(aircraft.cas_from_ias(ias, flaps, NORMAL))
    alternate = float(aircraft.cas_from_ias(ias, flaps, ALTERNATE))
    return _difference(
        aircraft, alternate - normal, shown, {"flaps": flaps, "static source": ALTERNATE}
    )


def _difference(aircraft: Aircraft, value: float, shown: float, inputs: dict[str, str]) -> Cell:
    own = float(convert(value, aircraft.units.speed, aircraft.indicator_unit))
    return _in_words(aircraft, own, shown, inputs)


def _in_words(aircraft: Aircraft, value: float, shown: float, inputs: dict[str, str]) -> Cell:
    """Return a correction as `add` or `take off`, so that no sign is misread."""
    shows = {"indicator shows": f"{shown:g} {aircraft.indicator_unit}", **inputs}
    cell = computed(value, "correction", shows, decimals=1)
    if math.isnan(value) or cell.text == "0.0":
        return cell
    return replace(cell, text=cell.text.lstrip("−"), label="add" if value > 0 else "take off")


def _notes(aircraft: Aircraft, bench: bool, alternate: bool) -> list[str]:
    notes = ["Add: the corrected airspeed is higher than shown. Take off: it is lower."]
    if bench:
        notes.append("Instrument: what the bench card says of this indicator.")
    else:
        notes.append("No bench card is given for this indicator: no instrument correction.")
    if alternate:
        notes.append(
            "Alternate static source: where it says take off, the indicator reads higher than on "
            "the normal source and the aircraft is slower than it seems."
        )
    return notes
