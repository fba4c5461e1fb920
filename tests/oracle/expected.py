"""What a cell must be, and what an oracle is told of the cell's place."""

import re
from dataclasses import dataclass

from .physics import NEAREST, Number, number, printed

DASH = "–"


def as_printed(typed: str) -> str:
    """Return a number as it was typed, with a true minus and commas from five digits on."""
    sign = "−" if typed.startswith("-") else "+" if typed.startswith("+") else ""
    whole, point, part = typed.lstrip("+-").partition(".")
    return sign + (f"{int(whole):,}" if len(whole) > 4 else whole) + point + part


def spoken(text: str) -> list[str]:
    """Return the words of a text, without commas between or within them."""
    return re.sub(r"(?<=\d),(?=\d{3})", "", text).replace(",", " ").split()


def numbers(text: str) -> list[str]:
    return re.findall(r"[-−+]?\d[\d,]*(?:\.\d+)?", text)


@dataclass(frozen=True)
class Place:
    """Where a cell stands: all that a reader of the printed table knows about it."""

    block: str  # the heading of its block
    column: str  # the name of its column
    row: dict[str, str]  # the texts of its row's headings and words, by column

    @property
    def block_number(self) -> Number:
        """The first number of the block's heading."""
        return number(numbers(self.block)[0])

    @property
    def column_number(self) -> Number:
        """The number that a column's identifier ends with."""
        return number(re.search(r"-(-?\d+(?:\.\d+)?)$", self.column)[1])

    def row_number(self, column: str) -> Number:
        return number(self.row[column.replace(" ", "-")])


@dataclass(frozen=True)
class Expected:
    """What a cell must be.

    `kind` is ``heading``, ``words``, ``blank``, ``dash``, ``entered`` or
    ``computed``. Words must hold each of `tokens`.
    """

    kind: str
    text: str = ""
    value: Number | None = None
    also: "Expected | None" = None
    label: str = ""
    beyond: bool = False
    page: str | None = None
    unit: str | None = None
    tokens: tuple[str, ...] = ()


BLANK = Expected("blank")


def heading(value: Number, unit: str | None = None) -> Expected:
    return Expected("heading", value=value, unit=unit)


def words(*tokens: str | None) -> Expected:
    split = [part for token in tokens if token for part in token.split()]
    return Expected("words", tokens=tuple(split))


def entered(
    text: str,
    page: str | None,
    unit: str | None = None,
    also: Expected | None = None,
    label: str = "",
) -> Expected:
    """Expect a figure of the manual as it was typed."""
    return Expected("entered", as_printed(text), number(text), also, label, page=page, unit=unit)


def computed(
    value: Number | None,
    sense: str = NEAREST,
    decimals: int = 0,
    unit: str | None = None,
    also: Expected | None = None,
    beyond: bool = False,
) -> Expected:
    """Expect a value as it rounds, or a dash where there is none."""
    if value is None:
        return Expected("dash", DASH, also=also, beyond=beyond, unit=unit)
    return Expected(
        "computed",
        as_printed(printed(value, sense, decimals).replace("−", "-")),
        value,
        also,
        beyond=beyond,
        unit=unit,
    )


def ranged_as_entered(text: str, page: str | None, unit: str) -> Expected:
    """Expect a range of the manual as it was typed."""
    return Expected("entered", text, number(text.split(" to ")[0]), page=page, unit=unit)


def ranged(ends: list[Number], sense: str, unit: str) -> Expected:
    """Expect a range whose ends are rounded as one figure is."""
    text = DASH.join(as_printed(printed(one, sense)) for one in ends)
    return Expected("computed", text, ends[0], unit=unit)


def signed(value: Number, unit: str) -> Expected:
    """Expect a difference with its sign, nought without."""
    found = printed(value, NEAREST)
    plus = "+" if value > 0 and found != "0" else ""
    return Expected("computed", plus + found, value, unit=unit)


def in_words(value: Number | None, unit: str) -> Expected:
    """Expect a correction to a tenth, its direction in words, nought without."""
    if value is None:
        return Expected("dash", DASH, unit=unit)
    found = printed(abs(value), NEAREST, 1)
    label = "" if found == "0.0" else "add" if value > 0 else "take off"
    return Expected("computed", found, value, label=label, unit=unit)
