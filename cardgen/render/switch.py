"""What a page's switch of units may convert, and which way it rounds."""

import re

from markupsafe import Markup, escape

from cardgen.cards.table import Cell, Column, Table
from cardgen.definition.speeds import SPEEDS, Sense

SPEED_UNITS = ("kt", "mph", "km/h")
_SPEED = re.compile(rf"(?<![\w.])(?:\d+(?:\.\d+)? )?(?:{'|'.join(SPEED_UNITS)})\b")

# Which way a page may round a table's speeds that it converts, where not to the nearest.
_SENSES = {
    "altitude-limits": Sense.MAXIMUM,
    "stall": Sense.MINIMUM,
    "manoeuvring": Sense.MAXIMUM,
    "approach": Sense.MINIMUM,
    "crosswind": Sense.MINIMUM,
    "crosswind-limit": Sense.MAXIMUM,
}
# The same of a marking's two ends; of all others the lower is a minimum and the upper a maximum.
_END_SENSES = {
    "Yellow arc": (Sense.MAXIMUM, Sense.MAXIMUM),  # caution begins early rather than late
    "Red line": (Sense.MAXIMUM, Sense.MAXIMUM),
    "Blue line": (Sense.TARGET, Sense.TARGET),
}


def convertible(text: str) -> Markup:
    """Mark the speeds and the units of speed in words, for a page's switch of units.

    Examples
    --------
    >>> str(convertible("read CAS, kt"))
    'read CAS, <span data-speed>kt</span>'
    """
    return Markup(_SPEED.sub(r"<span data-speed>\g<0></span>", str(escape(text))))


def sense_of(
    table: Table, row: tuple[Cell, ...] | None = None, column: Column | None = None
) -> str:
    """Return which way a table's, a row's or a cell's speeds may be rounded; nothing if either.

    A page that converts a speed for reading rounds it by this.
    """
    if row is None:
        sense = _SENSES.get(table.name)
    elif column is None:
        sense = SPEEDS[row[0].text].sense if row[0].text in SPEEDS else None
    elif table.name == "markings" and column.unit:
        ends = _END_SENSES.get(row[0].text, (Sense.MINIMUM, Sense.MAXIMUM))
        sense = ends[column.name.endswith("to")]
    else:
        sense = None
    return sense.name.lower() if sense in {Sense.MINIMUM, Sense.MAXIMUM} else ""
