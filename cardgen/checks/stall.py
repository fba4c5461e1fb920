"""The manual's stall table against the load-factor law and the stall speeds."""

from collections.abc import Iterator

from cardgen.air.load import load_factor, speed_ratio
from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import Severity, rule
from cardgen.definition.places import Fault
from cardgen.units import to_si

_PAGE = "the stall speeds in section 5 of the manual"


@rule("stall-by-bank", Severity.WARNING, _PAGE, "FAA-H-8083-25, chapter 5, load factors")
def stall_table_follows_the_load_factor(aircraft: Aircraft) -> Iterator[Fault]:
    """CAS in the stall table grows with the square root of the load factor, within 2 %."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        level = next((cas for cas, bank in zip(row.cas, stall.bank, strict=True) if not bank), None)
        if level is None:
            continue
        for cas, bank in zip(row.cas, stall.bank, strict=True):
            wanted = level * float(speed_ratio(1.0, load_factor(to_si(float(bank), "deg"))))
            if abs(cas - wanted) > max(1.0, 0.02 * wanted):
                yield Fault(
                    cas.place,
                    f"stall at {bank}° of bank is {cas} CAS; the load factor makes it {wanted:.0f}",
                )


@rule("stall-against-speeds", Severity.WARNING, _PAGE, "common practice")
def stall_table_agrees_with_the_stall_speeds(aircraft: Aircraft) -> Iterator[Fault]:
    """Without bank, the stall table gives VS0 and VS1."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        flaps = row.flaps or aircraft.flaps[0]
        entry = aircraft.stall_entries.get(flaps)
        if entry is None or (row.weight or stall.weight) != (
            entry.weight or aircraft.maximum_weight
        ):
            continue
        for key in ("ias", "cas"):
            table, speed = getattr(row, key), getattr(entry, key)
            if table is None or speed is None or stall.bank[0]:
                continue
            if table[0] != speed:
                yield Fault(
                    table[0].place,
                    f"the stall table gives {table[0]} {key.upper()} with flaps {flaps}, and the "
                    f"stall speed is {speed}",
                )


@rule("stall-against-table", Severity.WARNING, _PAGE, "14 CFR 1.1, calibrated airspeed")
def stall_table_agrees_with_the_calibration(aircraft: Aircraft) -> Iterator[Fault]:
    """IAS and CAS of the stall table fit the calibration table, within 1.5."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        for ias, cas in zip(row.ias or (), row.cas, strict=False):
            expected = float(aircraft.cas_from_ias(float(ias), row.flaps))
            if abs(expected - cas) > 1.5:  # false where the table has no value
                yield Fault(
                    ias.place,
                    f"IAS {ias} is CAS {expected:.1f} by the calibration table, and CAS {cas} here",
                )
