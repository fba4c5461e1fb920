"""Columns and rows of a table in each other's place, told by what figures of each are like."""

from collections.abc import Iterator

from cardgen.airframe.aircraft import Aircraft
from cardgen.checks.rule import COMMON_PRACTICE, OF_TABLES, Severity, Told, entered, rule, tell
from cardgen.definition.cruise import Cruise, cell_at
from cardgen.definition.places import Figure

_SPREAD = 1.8  # of rpm in cruise, highest by lowest: common practice, and wide


@rule("calibration-entered", Severity.WARNING, "look-calibration", COMMON_PRACTICE, OF_TABLES)
def tables_are_entered_with_round_figures(aircraft: Aircraft) -> Iterator[Told]:
    """Between its ends, a table is entered with multiples of 5, in the unit that it was made in.

    So it was made in another where most are not, or entered with the other row where that is round.
    """
    given = {table.given.place: table.given for table in aircraft.calibrations}
    for one in given.values():
        start, beside = one.form
        if start != "ias":
            continue
        inner = [(a, b) for a, b in one.pairs[1:-1] if a % 5]
        if len(inner) < max(2, len(one.pairs) / 2 - 1):
            continue
        exchanged = beside == "cas" and not any(b % 5 for _, b in one.pairs[1:-1])
        if exchanged and one.place_of(start) > one.place_of(beside):
            continue  # the table is entered with CAS, as the manual may have it
        yield tell(
            inner[0][0].place,
            "finding-calibration-exchanged" if exchanged else "finding-calibration-entered",
            here=entered(inner[0][0]),
            beside=entered(inner[0][1]),
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

    Unless power recurs, which is what such a pressure is set for.
    """
    for cruise in aircraft.definition.cruise:
        pressure, flow = _column(cruise, "manifold pressure"), _column(cruise, "fuel flow")
        power, few = {*_column(cruise, "power")}, len(cruise.rows) / 3
        seldom = len({*pressure}) > 2 * few and not 0 < len(power) <= few
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
