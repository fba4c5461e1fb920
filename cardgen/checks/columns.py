"""Columns and rows of a table in each other's place, told by what figures of each are like."""

from collections.abc import Iterator

from cardgen.airframe.aircraft import NORMAL, Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, OF_TABLES, Severity, Told, entered, rule, tell
from cardgen.definition.cruise import Cruise, cell_at
from cardgen.definition.places import Figure

_SEVERAL = 3
_LONG = 6  # figures of a calibration that tell what it is entered with
_SPREAD = 1.8  # of rpm in cruise, highest by lowest: common practice, and wide


@rule("calibration-entered", Severity.WARNING, "look-calibration", COMMON_PRACTICE, OF_TABLES)
def tables_are_entered_alike(aircraft: Aircraft) -> Iterator[Told]:
    """Where a manual's other tables are entered with multiples of 5, so is each, between its ends.

    Else it was made in another unit, or entered with the other row where that is round. A manual
    whose tables are not round, as one that was converted, has no such habit.
    """
    given = {table.given.place: table.given for table in aircraft.calibrations}
    tables = [one for one in given.values() if one.form[0] == "ias"]
    for one in tables:
        others = [ias for other in tables if other is not one for ias, _ in other.pairs[1:-1]]
        odd = [(ias, beside) for ias, beside in one.pairs[1:-1] if ias % 5]
        if not _are_round(others) or len(odd) < max(2, len(one.pairs) / 2 - 1):
            continue
        exchanged = one.form[1] == "cas" and not any(b % 5 for _, b in one.pairs[1:-1])
        if exchanged and one.place_of("ias") > one.place_of("cas"):
            continue  # the table is entered with CAS, as the manual may have it
        yield tell(
            odd[0][0].place,
            "finding-calibration-exchanged" if exchanged else "finding-calibration-entered",
            here=entered(odd[0][0]),
            beside=entered(odd[0][1]),
        )


def _are_round(figures: list[Figure]) -> bool:
    """Whether several figures are multiples of 5, but for one in ten."""
    return len(figures) >= _SEVERAL and sum(one % 5 == 0 for one in figures) >= 0.9 * len(figures)


@rule("calibration-turned", Severity.WARNING, "look-calibration", COMMON_PRACTICE, OF_TABLES)
def no_table_is_turned(aircraft: Aircraft) -> Iterator[Told]:
    """Where CAS alone is round between the ends, the errors are not those of a table turned over.

    A table may be made for round CAS. But as the lift coefficient grows, most static sources and
    pitot tubes make IAS fall behind CAS; by one that does the opposite, IAS and CAS were exchanged.
    A table that is typed with CAS in its first row is as the manual has it.
    """
    for one in {table.given.place: table.given for table in aircraft.calibrations}.values():
        if one.form != ("ias", "cas") or one.static_source != NORMAL:
            continue
        if one.place_of("ias") > one.place_of("cas") or len(one.pairs) < _LONG:
            continue
        odd = sum(ias % 5 != 0 for ias, _ in one.pairs[1:-1])
        (low, low_cas), (high, high_cas) = one.pairs[0], one.pairs[-1]
        turned = low > low_cas and high < high_cas
        if turned and odd >= 3 and not any(cas % 5 for _, cas in one.pairs[1:-1]):
            yield tell(
                low.place,
                "finding-calibration-turned",
                ias=entered(low),
                cas=entered(low_cas),
                high_ias=entered(high),
                high_cas=entered(high_cas),
            )


@rule("rpm-spread", Severity.WARNING, "look-cruise", COMMON_PRACTICE, OF_TABLES)
def cruise_is_flown_at_like_rpm(aircraft: Aircraft) -> Iterator[Told]:
    """The highest RPM of a cruise table is less than twice the lowest."""
    for cruise in aircraft.definition.cruise:
        cells = _column(cruise, "rpm")
        low, high = min(cells, default=None), max(cells, default=None)
        if low is not None and high is not None and high > _SPREAD * low > 0:
            yield tell(high.place, "finding-rpm-spread", low=entered(low), high=entered(high))


@rule("settings-recur", Severity.WARNING, "look-cruise", COMMON_PRACTICE, OF_TABLES)
def a_setting_stands_in_several_rows(aircraft: Aircraft) -> Iterator[Told]:
    """No manifold pressure stands in each row but once, beside a fuel flow that recurs.

    Nor is it finer than that, which is whole. Unless power recurs, which is what such a pressure is
    set for.
    """
    for cruise in aircraft.definition.cruise:
        pressure, flow = _column(cruise, "manifold pressure"), _column(cruise, "fuel flow")
        power, few = {*_column(cruise, "power")}, len(cruise.rows) / 3
        seldom = len({*pressure}) > 2 * few and not 0 < len(power) <= few
        seldom = seldom and any(one % 1 for one in pressure) and not any(one % 1 for one in flow)
        if seldom and 0 < len({*flow}) <= few and len(cruise.rows) > 5:
            yield tell(
                pressure[0].place,
                "finding-settings-recur",
                here=entered(pressure[0]),
                flow=entered(flow[0]),
            )


def _column(cruise: Cruise, name: str) -> list[Figure]:
    if name not in cruise.columns:
        return []
    cells = (cell_at(cruise, row, name) for row in cruise.rows)
    return [cell for cell in cells if cell is not None]
