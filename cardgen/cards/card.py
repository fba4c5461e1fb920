"""A whole card: all that is published of one aircraft."""

from collections.abc import Callable
from dataclasses import dataclass

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.altitude_limits import altitude_limits_table
from cardgen.cards.calibration import calibration_table, indicated_table
from cardgen.cards.corrections import corrections_table
from cardgen.cards.cruise import cruise_at_table, cruise_table, economy_table
from cardgen.cards.speeds import markings_table, speeds_table
from cardgen.cards.stall import approach_table, manoeuvring_table, stall_table
from cardgen.cards.table import Gap, Table
from cardgen.cards.true_airspeed import (
    airspeed_for_tas_table,
    factor_table,
    rule_of_thumb_table,
    true_airspeed_table,
)
from cardgen.cards.wind import (
    crosswind_limit_table,
    crosswind_table,
    glide_table,
    ground_speed_table,
)
from cardgen.definition.model import School

CAUTIONS = (
    "Reference only: verify against the approved flight manual and the aircraft's own markings "
    "and placards.",
    "The manual, the operator's procedures and local rules prevail.",
    "Not for use in certification or dispatch.",
)

# A new table is one new line here, and one function that makes it: the table, or what is missing
# for it, or None where the kind of aircraft has none.
TABLES: tuple[Callable[[Aircraft, School], Table | Gap | None], ...] = (
    lambda aircraft, school: speeds_table(aircraft),
    lambda aircraft, school: markings_table(aircraft),
    altitude_limits_table,
    lambda aircraft, school: calibration_table(aircraft),
    lambda aircraft, school: indicated_table(aircraft),
    lambda aircraft, school: corrections_table(aircraft),
    lambda aircraft, school: stall_table(aircraft),
    lambda aircraft, school: manoeuvring_table(aircraft),
    lambda aircraft, school: approach_table(aircraft),
    true_airspeed_table,
    factor_table,
    rule_of_thumb_table,
    airspeed_for_tas_table,
    lambda aircraft, school: cruise_table(aircraft),
    cruise_at_table,
    lambda aircraft, school: economy_table(aircraft),
    lambda aircraft, school: ground_speed_table(aircraft),
    lambda aircraft, school: crosswind_table(aircraft),
    lambda aircraft, school: crosswind_limit_table(aircraft),
    lambda aircraft, school: glide_table(aircraft),
)


@dataclass(frozen=True)
class Card:
    """One aircraft's tables, and what was missing for others."""

    aircraft: Aircraft
    school: School
    tables: tuple[Table, ...]
    gaps: tuple[Gap, ...]

    @property
    def registration(self) -> str:
        """The aircraft's registration."""
        return self.aircraft.registration

    def table(self, name: str) -> Table | None:
        """Return the table of a name, where the card has it."""
        return next((table for table in self.tables if table.name == name), None)


def make_card(aircraft: Aircraft, school: School) -> Card:
    """Compute every table of an aircraft."""
    made = [make(aircraft, school) for make in TABLES]
    return Card(
        aircraft,
        school,
        tuple(table for table in made if isinstance(table, Table)),
        tuple(gap for gap in made if isinstance(gap, Gap)),
    )
