"""The manual's stall table against the load-factor law and the stall speeds."""

import itertools
from collections.abc import Iterator

from cardgen.air.load import load_factor, speed_ratio
from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.figures import last_place, off_a_table, step
from cardgen.checks.rule import COMMON_PRACTICE, Severity, Told, about, entered, rule, tell
from cardgen.definition.places import Figure
from cardgen.units import to_si

_PAGE = "look-stall"


@rule("stall-by-bank", Severity.WARNING, _PAGE, "FAA-H-8083-25B, chapter 5, load factors")
def stall_table_follows_the_load_factor(aircraft: Aircraft) -> Iterator[Told]:
    """CAS in the stall table grows with the square root of the load factor, within 2 %.

    Or as far as the rounding of the two figures goes.
    """
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
            ratio = float(speed_ratio(1.0, load_factor(to_si(float(bank), "deg"))))
            wanted = level * ratio
            rounding = 0.5 * (step(row.cas or ()) + last_place(level) * ratio)
            if abs(cas - wanted) > max(rounding, 0.02 * wanted) + 1e-9:
                yield tell(
                    cas.place,
                    "finding-stall-by-bank",
                    bank=entered(bank, "deg"),
                    cas=entered(cas),
                    expected=about(wanted),
                )


@rule("stall-against-speeds", Severity.WARNING, _PAGE, COMMON_PRACTICE)
def stall_table_agrees_with_the_stall_speeds(aircraft: Aircraft) -> Iterator[Told]:
    """Without bank, the stall table gives VS0 and VS1 of the same flaps, gear and weight."""
    stall = aircraft.definition.stall
    if stall is None or stall.bank[0]:
        return
    for row, name in itertools.product(stall.rows, ("VS1", "VS0")):
        for entry in aircraft.definition.speeds.get(name, []):
            flaps = row.flaps or aircraft.flaps[0]
            if (
                aircraft.usual_flaps(name, entry) != flaps
                or aircraft.weight_of(entry) != stall.weight_of(row)
                or row.gear not in (None, entry.gear)
                or entry.when is not None
            ):
                continue
            for key in ("ias", "cas"):
                table, speed = getattr(row, key), getattr(entry, key)
                if table is not None and speed is not None and _differ(table[0], speed):
                    yield tell(
                        table[0].place,
                        "finding-stall-against-speeds",
                        table=entered(table[0]),
                        measure=key.upper(),
                        flaps=flaps,
                        speed=entered(speed),
                    )


def _differ(one: Figure, other: Figure) -> bool:
    """Whether two figures are not one that was rounded to the last place of each."""
    fine, coarse = sorted((one, other), key=last_place)
    if last_place(fine) == last_place(coarse):
        return one != other
    return abs(fine - coarse) > last_place(coarse) / 2 + 1e-9


@rule("stall-against-table", Severity.WARNING, _PAGE, "14 CFR 1.1, calibrated airspeed")
def stall_table_agrees_with_the_calibration(aircraft: Aircraft) -> Iterator[Told]:
    """IAS and CAS of the stall table fit the calibration table, within rounding."""
    stall = aircraft.definition.stall
    if stall is None:
        return
    for row in stall.rows:
        table = aircraft.calibration(row.flaps, gear=row.gear or "")
        if table is None:
            continue
        for ias, cas in zip(row.ias or (), row.cas or (), strict=False):
            expected = float(table.curve.at(ias))
            if abs(expected - cas) > off_a_table(table, ias, cas):  # not where it has no value
                yield tell(
                    cas.place,
                    "finding-stall-against-table",
                    ias=entered(ias),
                    cas=entered(cas),
                    expected=about(expected, 1),
                )
