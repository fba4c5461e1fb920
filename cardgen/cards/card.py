"""The document of an aircraft: all that is published of it."""

from collections.abc import Callable, Sequence

from cardgen import __version__
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.altitude_limits import altitude_limits_table
from cardgen.cards.basis import basis_of
from cardgen.cards.calibration import calibration_table, indicated_table
from cardgen.cards.conversions import conversion_tables
from cardgen.cards.corrections import corrections_table
from cardgen.cards.cruise import cruise_tables
from cardgen.cards.cruise_between import cruise_at_tables, economy_tables
from cardgen.cards.examples import with_example
from cardgen.cards.formulas import FORMULAS
from cardgen.cards.gliding import glide_table, gliding_table
from cardgen.cards.glossary import GLOSSARY
from cardgen.cards.head import given_of, head_of, publisher
from cardgen.cards.keys import definition_keys
from cardgen.cards.polar import polar_best_table, polar_table, speed_to_fly_table
from cardgen.cards.printed import (
    altimeter_card_table,
    altimeter_table,
    instrument_table,
    position_table,
)
from cardgen.cards.speeds import markings_table, speeds_table
from cardgen.cards.stall import approach_table, manoeuvring_table, stall_table
from cardgen.cards.true_airspeed import (
    airspeed_for_tas_table,
    factor_table,
    rule_of_thumb_table,
    true_airspeed_table,
)
from cardgen.cards.weights import weights_table
from cardgen.cards.wind import (
    crosswind_limit_table,
    crosswind_table,
    ground_speed_table,
)
from cardgen.definition.model import School
from cardgen.document.record import (
    Document,
    Finding,
    Gap,
    Reference,
    Shared,
    Table,
)

Made = Table | Gap | None

# A new table is one new line here, and one function that makes it: the table, or what is missing
# for it, or None where the kind of aircraft has none; or a list where there may be several.
TABLES: tuple[Callable[[Aircraft, School], Made | list[Table | Gap]], ...] = (
    speeds_table,
    markings_table,
    altitude_limits_table,
    calibration_table,
    indicated_table,
    corrections_table,
    position_table,
    instrument_table,
    altimeter_table,
    altimeter_card_table,
    stall_table,
    manoeuvring_table,
    approach_table,
    true_airspeed_table,
    factor_table,
    rule_of_thumb_table,
    airspeed_for_tas_table,
    cruise_tables,
    cruise_at_tables,
    economy_tables,
    ground_speed_table,
    crosswind_table,
    crosswind_limit_table,
    gliding_table,
    glide_table,
    polar_table,
    polar_best_table,
    speed_to_fly_table,
    weights_table,
)


def make_document(
    aircraft: Aircraft, school: School, findings: tuple[Finding, ...] = ()
) -> Document:
    """Compute all that is published of an aircraft.

    Parameters
    ----------
    aircraft : Aircraft
    school : School
        Who publishes it, and what its tables are made for.
    findings : tuple of Finding
        What the checks found in it.
    """
    made = [one for make in TABLES for one in _several(make(aircraft, school))]
    return Document(
        head_of(aircraft, school),
        tuple(with_example(table) for table in made if isinstance(table, Table)),
        tuple(gap for gap in made if isinstance(gap, Gap)),
        basis_of(aircraft, school),
        tuple(given_of(aircraft)),
        findings,
        cardgen=__version__,
    )


def _several(made: Made | list[Table | Gap]) -> Sequence[Made]:
    return made if isinstance(made, list) else [made]


def reckonable(aircraft: Aircraft, school: School) -> Document:
    """Return a document without tables, from which any case can be reckoned."""
    head, basis = head_of(aircraft, school), basis_of(aircraft, school)
    return Document(head, (), (), basis, (), cardgen=__version__)


def shared_document(school: School) -> Shared:
    """Return the tables that serve every aircraft, as a school publishes them."""
    return Shared(publisher(school), conversion_tables(), cardgen=__version__)


def reference_document(school: School) -> Reference:
    """Return what explains the cards and the definitions: formulas, terms, keys."""
    return Reference(publisher(school), FORMULAS, GLOSSARY, __version__, definition_keys())
