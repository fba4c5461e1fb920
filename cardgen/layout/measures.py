"""The sizes of type and the spaces of a sheet, in mm; ``measures.css`` takes them from here.

A character is read at 1/200 of its distance (FAA human factors guidance), and a card on a knee is
600 mm away: digits of a table are at least 3.0 mm high, those of limits higher. A pocket card is
held in the hand, 500 mm away.
"""

from dataclasses import dataclass

from cardgen.layout.font import advance

POINT = 25.4 / 72
LARGEST = 1.2  # how large type may be, to a format's smallest: digits are lower than any limit's
TIGHTEST, EASY, LOOSEST = 1.06, 1.12, 1.5  # from row to row, to the type
BODY, CAPTION, HEADING, SPEED, NOTE, SOURCE = 1.06, 1.12, 1.15, 1.0, 1.28, 1.25  # from line to line
HAIR, THIN, FIRM, STRONG = 0.12, 0.15, 0.25, 0.3  # rules
SLACK = 0.15  # more than words in one line need: an engine's rounding must not break them


def weight_of_words(night: bool) -> int:
    """Return how heavy words are: red light takes from thin ones."""
    return 500 if night else 400


@dataclass(frozen=True, slots=True)
class Sizes:
    """What a school may set: limits and tables to the size of type, captions in pt."""

    limit: float = 1.45
    table: float = 1.0
    caption: float = 7.5


@dataclass(frozen=True, slots=True)
class Measures:
    """The measures of one sheet.

    Attributes
    ----------
    type : float
        Size of a table's digits.
    lead : float
        From row to row, to the type.
    limit, caption : float
        Sizes of the large figures, and of small words.
    close : bool
        Whether cells stand closer.
    night : bool
        Whether type is heavier.
    parts : int
        In how many parts, below one another, tables of many columns stand.
    """

    type: float
    lead: float
    limit: float
    caption: float
    close: bool = False
    night: bool = False
    parts: int = 1

    @property
    def text(self) -> int:
        """The weight of words, as the face has it."""
        return weight_of_words(self.night)

    @property
    def figures(self) -> int:
        """The weight of a table's figures."""
        return 600 if self.night else 400

    @property
    def main(self) -> int:
        """The weight of the figures that are flown by."""
        return 700 if self.night else 600

    @property
    def title(self) -> float:
        """The size of a table's title and of a speed's name."""
        return 1.09 * self.type

    @property
    def under_title(self) -> float:
        """The space below a table's title."""
        return 0.06 * self.type

    @property
    def beside(self) -> float:
        """The space before them, which is a letter."""
        return advance(" ", self.figures) * self.type

    def before(self, small: str, width: float) -> float:
        """Return the space before a small figure, which ends where a width does, as all do."""
        return max(0.0, width - advance(small, self.text) * self.type)

    @property
    def block(self) -> float:
        """The size of the heading of a block of rows."""
        return 0.93 * self.type

    @property
    def over_block(self) -> float:
        """The space above it."""
        return 0.12 * self.type

    @property
    def remark(self) -> float:
        """The size of a remark."""
        return 0.9 * self.type

    @property
    def over_remark(self) -> float:
        """The space above it."""
        return 0.4 * self.type

    @property
    def row(self) -> float:
        """The space above and below a row's words."""
        return (self.lead - BODY) / 2 * self.type

    @property
    def speed_row(self) -> float:
        """The same in lists of speeds, and in the legend."""
        return (self.lead - 1.0) * 0.6 * self.type

    @property
    def side(self) -> float:
        """The space at the left and at the right of a cell."""
        return (0.12 if self.close else 0.25) * self.type

    @property
    def speed_side(self) -> float:
        """The same in lists of speeds, and in the legend."""
        return 0.18 * self.type

    @property
    def bar(self) -> float:
        """How wide the bar is beside what has changed, within the space at a cell's side."""
        return min(0.6, 0.9 * min(self.side, self.speed_side))

    @property
    def part(self) -> float:
        """The space between parts below one another."""
        return (3 * self.lead - 2.7) * self.type

    @property
    def piece(self) -> float:
        """The space between the parts of one table."""
        return 0.5 * self.type
