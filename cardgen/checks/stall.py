"""The manual's stall table against the load-factor law and the stall speeds."""

from collections.abc import Iterator

from cardgen.air.load import load_factor, speed_ratio
from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, entered, rule, tell
from cardgen.units import to_si

_PAGE = "look-stall"


@rule("stall-by-bank", Severity.WARNING, _PAGE, "FAA-H-8083-25B, chapter 5, load factors")
def stall_table_follows_the_load_factor(aircraft: Aircraft) -> Iterator[Told]:
    """CAS in the stall table grows with the square root of the load factor, within 2 %."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        level = next(
            (cas for cas, bank in zip(row.cas or (), stall.bank, strict=False) if not bank), None
        )
        if level is None:
            continue
        for cas, bank in zip(row.cas or (), stall.bank, strict=False):
            wanted = level * float(speed_ratio(1.0, load_factor(to_si(float(bank), "deg"))))
            if abs(cas - wanted) > max(1.0, 0.02 * wanted):
                yield tell(
                    cas.place,
                    "finding-stall-by-bank",
                    bank=entered(bank, "deg"),
                    cas=entered(cas),
                    expected=about(wanted),
                )


@rule("stall-against-speeds", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def stall_table_agrees_with_the_stall_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """Without bank, the stall table gives VS0 and VS1."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        flaps = row.flaps or aircraft.flaps[0]
        entry = aircraft.stall_entries.get(flaps)
        weight = None if entry is None else entry.weight or aircraft.maximum_weight
        if entry is None or stall.weight_of(row) != weight or row.gear not in (None, entry.gear):
            continue
        for key in ("ias", "cas"):
            table, speed = getattr(row, key), getattr(entry, key)
            if table is None or speed is None or stall.bank[0]:
                continue
            if table[0] != speed:
                yield tell(
                    table[0].place,
                    "finding-stall-against-speeds",
                    table=entered(table[0]),
                    measure=key.upper(),
                    flaps=flaps,
                    speed=entered(speed),
                )


@rule("stall-against-table", Severity.WARNING, _PAGE, "14 CFR 1.1, calibrated airspeed")
def stall_table_agrees_with_the_calibration(aircraft: Aircraft) -> Iterator[Told]:
    """IAS and CAS of the stall table fit the calibration table, within 1.5."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        for ias, cas in zip(row.ias or (), row.cas or (), strict=False):
            expected = float(aircraft.cas_from_ias(float(ias), row.flaps, gear=row.gear or ""))
            if abs(expected - cas) > 1.5:  # false where the table has no value
                yield tell(
                    ias.place,
                    "finding-stall-against-table",
                    ias=entered(ias),
                    cas=entered(cas),
                    expected=about(expected, 1),
                )
