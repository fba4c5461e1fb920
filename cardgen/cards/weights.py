"""The weights that the manual limits by name."""

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.cells import entered, heading, said, words_column
from cardgen.definition.model import School
from cardgen.definition.names import slug
from cardgen.definition.places import Figure
from cardgen.document.record import Block, Column, Message, Row, Table


def weights_table(aircraft: Aircraft, school: School) -> Table | None:
    """Return the maximum weight and those that have names; None where none has."""
    weights = aircraft.definition.type.weights
    if not weights.names:
        return None
    unit = aircraft.units.weight
    limits: list[tuple[str | Message, Figure]] = [(Message("weight-maximum"), weights.maximum)]
    rows = [
        Row(
            slug(name) if isinstance(name, str) else "maximum",
            (said(name), entered(aircraft, figure, weights, unit)),
        )
        for name, figure in (*limits, *weights.names.items())
    ]
    return Table(
        "weights",
        Message("title-weights"),
        Message("how-weights"),
        (
            words_column("limit"),
            Column("weight", Message("column-weight"), unit),
        ),
        (Block("", None, tuple(rows)),),
        notes=(heading("note-weights-page", page=weights.page),) if weights.page else (),
    )
