"""What stands on a page, each with its measures in mm: what templates of sheets are handed."""

from dataclasses import dataclass

from cardgen.document.record import Table
from cardgen.layout.code import Code
from cardgen.layout.measures import Measures


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of columns, its unit, and how many columns and rows of headings it spans.

    `pair` says below it what its large figures are and what its small ones.
    """

    text: str
    unit: str = ""
    columns: int = 1
    rows: int = 1
    words: bool = False
    pair: tuple[str, str] = ("", "")
    at: int = 0  # the column, of those of the table

    @property
    def whole(self) -> str:
        """The heading with its unit."""
        return f"{self.text} {self.unit}".rstrip()


@dataclass(frozen=True, slots=True)
class PlacedGrid:
    """A table, or some of its columns and rows.

    Attributes
    ----------
    title : str
        Nothing where it goes on from a part above.
    headings : tuple of tuple of Heading
    widths : tuple of float
        Of the columns.
    beside : tuple of float
        Of the small figures in them.
    edges : frozenset of int
        The columns before which a rule stands.
    heavy : bool
        Whether all its figures are as heavy as main ones.
    head : float
        How high what stands above its rows is.
    rows : tuple of tuple of float
        How high its rows are, by block, the block's heading first.
    """

    table: Table
    title: str
    headings: tuple[tuple[Heading, ...], ...]
    widths: tuple[float, ...]
    beside: tuple[float, ...]
    edges: frozenset[int]
    heavy: bool
    head: float
    rows: tuple[tuple[float, ...], ...]
    gap: float
    kind: str = "grid"

    @property
    def height(self) -> float:
        """How high it is."""
        return self.head + sum(map(sum, self.rows))


@dataclass(frozen=True, slots=True)
class SpeedRow:
    """A V-speed as listed: what it is the speed of, its figure, and small figures behind it."""

    what: str
    label: str
    figure: str
    small: tuple[str, ...]
    computed: tuple[bool, ...]  # the figure, and each small one
    changed: tuple[bool, ...]  # since it was signed, likewise
    reworded: bool  # and what it is the speed of
    height: float


@dataclass(frozen=True, slots=True)
class SpeedGroup:
    """The rows of one V-speed."""

    name: str
    rows: tuple[SpeedRow, ...]
    above: float  # of the name
    rule: float  # above them

    @property
    def height(self) -> float:
        """How high they are."""
        return self.rule + sum(row.height for row in self.rows)


@dataclass(frozen=True, slots=True)
class PlacedSpeeds:
    """A list of V-speeds; the columns are name, what, figure, and the small ones."""

    title: str
    headings: tuple[str, ...]
    widths: tuple[float, ...]
    groups: tuple[SpeedGroup, ...]
    head: float
    gap: float
    kind: str = "speeds"

    @property
    def height(self) -> float:
        """How high it is."""
        return self.head + sum(group.height for group in self.groups)


@dataclass(frozen=True, slots=True)
class PlacedDrawing:
    """A drawing, by its name."""

    name: str
    width: float
    height: float
    gap: float
    kind: str = "drawing"


@dataclass(frozen=True, slots=True)
class LegendRow:
    """A swatch's name, what it stands for, and where it is painted."""

    swatch: str
    name: str
    at: str
    changed: bool = False


@dataclass(frozen=True, slots=True)
class PlacedLegend:
    """What the dial's bands and lines mean; its columns are swatch, name and place."""

    headings: tuple[str, str, str]
    widths: tuple[float, float, float]
    rows: tuple[LegendRow, ...]
    height: float
    gap: float
    kind: str = "legend"


@dataclass(frozen=True, slots=True)
class PlacedWords:
    """Sentences: of a style ``note`` or ``remark``."""

    style: str
    sentences: tuple[str, ...]
    height: float
    gap: float
    kind: str = "words"


@dataclass(frozen=True, slots=True)
class PlacedStack:
    """What stands below one another, of a width."""

    width: float
    placed: "tuple[Placed, ...]"


@dataclass(frozen=True, slots=True)
class PlacedBeside:
    """Stacks beside one another."""

    stacks: tuple[PlacedStack, ...]
    between: float
    height: float
    gap: float
    kind: str = "beside"


Placed = PlacedGrid | PlacedSpeeds | PlacedDrawing | PlacedLegend | PlacedWords | PlacedBeside


def stack_height(placed: "tuple[Placed, ...] | list[Placed]") -> float:
    """Return how high parts below one another are; above the first there is no gap."""
    return sum(one.height + (one.gap if n else 0.0) for n, one in enumerate(placed))


@dataclass(frozen=True, slots=True)
class Head:
    """What a sheet says of itself at its top; sizes of type and heights are in mm.

    Attributes
    ----------
    name : str
        The aircraft's registration, or what the sheets are of.
    name_size : float
    type : str
        The type, if it stands in the first line.
    title : str
        The sheet's own, with its number.
    source : tuple of str
        Its lines.
    source_width : float
    state : str
        Whether it is signed.
    valid : bool
        Whether it is, for these figures.
    below : bool
        Whether that stands below the source.
    changed : str
        What has changed since it was signed.
    """

    name: str
    name_size: float
    type: str
    title: str
    source: tuple[str, ...]
    source_width: float
    state: str
    valid: bool
    below: bool
    changed: str
    height: float


@dataclass(frozen=True, slots=True)
class Foot:
    """The cautions, and whose figures these are; notice and program's version follow softly.

    Beside a code all of it is one paragraph.
    """

    cautions: str
    figures: str
    notice: str
    pictured: bool
    code: Code | None
    height: float


@dataclass(frozen=True, slots=True)
class Page:
    """A page: its size and margins, its measures, and what stands on it.

    `sheet` is the message of the title of its sheet; `changed` are the cells with a bar beside
    them, by identifier.
    """

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    measures: Measures
    head: Head
    foot: Foot
    room: float
    placed: tuple[Placed, ...]
    title: str
    author: str
    bookmark: str
    first: bool
    number: int
    sheet: str
    changed: frozenset[str] = frozenset()

    @property
    def is_marked(self) -> bool:
        """Whether a cell with a bar stands on it."""
        return any(_is_marked(one, self.changed) for one in self.placed)


def _is_marked(placed: Placed, changed: frozenset[str]) -> bool:
    match placed:
        case PlacedGrid(table=table):
            return any(
                f"{table.id}/{row.id}/{column.id}" in changed
                for row in table.rows
                for column in table.columns
            )
        case PlacedSpeeds(groups=groups):
            rows = (row for group in groups for row in group.rows)
            return any(row.reworded or any(row.changed) for row in rows)
        case PlacedLegend(rows=lines):
            return any(line.changed for line in lines)
        case PlacedBeside(stacks=stacks):
            return any(_is_marked(one, changed) for stack in stacks for one in stack.placed)
        case _:
            return False
