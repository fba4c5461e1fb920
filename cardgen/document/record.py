"""The record of one aircraft's card: all that page, sheets, drawings and data are made from.

Only plain data stands here: frozen dataclasses of numbers, symbols, words that
a definition held, and messages, which `cardgen.words` puts into sentences.

An identifier names a figure whatever its order or wording. Of a cell it is
``table/row/column``, such as ``speeds/VFE/flaps-10/indicated``; of a figure
that was copied from paper it begins with ``given/``.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from cardgen.document.rounding import Sense

# Whether a card is signed, see `signature.state_of`.
State = Literal["unsigned", "doubtful", "outdated", "partial", "recomputed", "signed"]

VERSION = 1  # of this record, and of its JSON Schema


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit that a sentence names without a number."""

    symbol: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit, and how it is printed.

    Attributes
    ----------
    value : float
        To six decimals; the lower end of a range.
    unit : str
        A key of `cardgen.units.UNITS`, a ratio of such as ``NM/gal``, or nothing.
    high : float, optional
        The upper end of a range.
    entered : str
        The number as it was entered; nothing for one that was computed.
    sense : str
        Which way it may be rounded.
    decimals : int
        Places after the point.
    """

    value: float
    unit: str = ""
    high: float | None = None
    entered: str = ""
    sense: Sense = "target"
    decimals: int = 0


@dataclass(frozen=True, slots=True)
class Message:
    """What a sentence or a heading says, by the identifier of its wording and what fills it.

    Attributes
    ----------
    id : str
        A key of the messages of a language.
    values : dict
        What fills its blanks: words that a definition held, symbols, units,
        quantities, other messages, or several of these.
    """

    id: str
    values: "dict[str, Value]" = field(default_factory=dict)


Value = str | Unit | Quantity | Message | tuple[str | Unit | Quantity | Message, ...]


@dataclass(frozen=True, slots=True)
class Entered:
    """The origin of a figure that was copied: its identifier, its paper, and the page of it."""

    figure: str
    paper: str
    page: str = ""


@dataclass(frozen=True, slots=True)
class Input:
    """What a formula was given.

    Attributes
    ----------
    name : str
        What it is, such as ``cas``; a message ``input-cas`` names it.
    value : Value
    source : str
        The identifier of the figure or of the cell, or of the group of
        figures, that it came from; nothing where the table itself sets it.
    """

    name: str
    value: Value
    source: str = ""


@dataclass(frozen=True, slots=True)
class Computed:
    """The origin of a figure that a formula gave."""

    formula: str
    inputs: tuple[Input, ...] = ()


@dataclass(frozen=True, slots=True)
class Cell:
    """A place in a table: a number, words, a dash, or nothing at all.

    Attributes
    ----------
    quantity : Quantity, optional
    said : str or Message, optional
        Words, entered or our own, where there is no number.
    empty : bool
        Nothing is printed; a cell that has neither number nor words is a dash.
    origin : Entered or Computed, optional
        Where the number comes from.
    beside : Cell, optional
        The same quantity said another way, printed small beside it.
    beyond : bool
        The number is above a limit in force in its case, or below the stall.
    """

    quantity: Quantity | None = None
    said: str | Message | None = None
    empty: bool = False
    origin: Entered | Computed | None = None
    beside: "Cell | None" = None
    beyond: bool = False

    @property
    def is_dash(self) -> bool:
        """Whether there is no value for what the cell stands for."""
        return self.quantity is None and self.said is None and not self.empty

    @property
    def is_computed(self) -> bool:
        """Whether a formula gave its number, rather than a paper."""
        return isinstance(self.origin, Computed)


DASH = Cell()
BLANK = Cell(empty=True)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Attributes
    ----------
    id : str
        Unique in the table.
    heading : Message
        As printed; with the unit behind it, unless the column stands in a group.
    unit : str
        Of the column's numbers.
    group : Message, optional
        Printed once above neighbouring columns of one group.
    large : Message, optional
        What the large figures of the column are, where it has small ones.
    beside : Message, optional
        What the small figures of the column are.
    beside_unit : str
    main : bool
        The column that is flown by.
    shown : bool
        What this aircraft's indicator shows: never converted.
    words : bool
        The column holds words, not numbers.
    form : str
        How numbers are written: ``plain``; ``signed``, with a plus; or
        ``direction``, with the word to add or to take off.
    """

    id: str
    heading: Message
    unit: str = ""
    group: Message | None = None
    large: Message | None = None
    beside: Message | None = None
    beside_unit: str = ""
    main: bool = False
    shown: bool = False
    words: bool = False
    form: str = "plain"


@dataclass(frozen=True, slots=True)
class Row:
    """A row; `subject` is the V-speed or marking that it is about, in tables of such.

    With the table's and the column's, its identifier names a cell.
    """

    id: str
    cells: tuple[Cell, ...]
    subject: str = ""


@dataclass(frozen=True, slots=True)
class Block:
    """Rows under one heading, such as a flap setting; `id` is unique in the table."""

    id: str
    heading: Message | None
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, weakref_slot=True)
class Table:
    """A table of a card.

    Attributes
    ----------
    id : str
        Short, for file names and links.
    title : Message
    how : Message
        The reading rule: find ..., read ... across.
    columns : tuple of Column
    blocks : tuple of Block
        Each row has a cell for each column.
    stub : int
        How many leading columns are row headings.
    notes : tuple of Message
    example : Message, optional
        One number of the table, read aloud.
    """

    id: str
    title: Message
    how: Message
    columns: tuple[Column, ...]
    blocks: tuple[Block, ...]
    stub: int = 1
    notes: tuple[Message, ...] = ()
    example: Message | None = None

    @property
    def rows(self) -> Iterator[Row]:
        """All rows, whatever block they stand in."""
        for block in self.blocks:
            yield from block.rows

    @property
    def is_mixed(self) -> bool:
        """Whether some of its numbers were copied and others computed, so that each says which."""
        return self._kinds() == {True, False}

    @property
    def is_computed(self) -> bool:
        """Whether all of its numbers were computed."""
        return self._kinds() == {True}

    def _kinds(self) -> set[bool]:
        cells = [cell for row in self.rows for cell in row.cells[self.stub :]]
        return {cell.is_computed for cell in cells if cell.quantity and cell.origin}

    @property
    def groups(self) -> list[list[Column]]:
        """Columns, neighbours of one group together; one without a group stands alone."""
        found: list[list[Column]] = []
        for column in self.columns:
            if column.group and found and found[-1][0].group == column.group:
                found[-1].append(column)
            else:
                found.append([column])
        return found


@dataclass(frozen=True, slots=True)
class Gap:
    """A table that is left off, and what was missing for it."""

    table: str
    title: Message
    missing: Message


@dataclass(frozen=True, slots=True)
class Paper:
    """A document that figures were copied from: the manual, a supplement, a bench card.

    Attributes
    ----------
    id : str
        ``manual``, ``supplement-1`` and so on, or ``bench-card``.
    title, number, revision, date : str
        As entered; nothing where it has none.
    """

    id: str
    title: str
    number: str = ""
    revision: str = ""
    date: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """A V-speed that a supplement changed, and what stood before, each as a message."""

    paper: str
    speed: str
    before: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class School:
    """Who publishes, and on what paper."""

    name: str
    web_address: str = ""
    notice: str = ""
    paper: str = "letter"
    punch_edge: str = "left"


@dataclass(frozen=True, slots=True)
class Signature:
    """That somebody released a card: the mark of the copied figures then, and of the card.

    `held` is whether its record, where the aircraft has any, says the same.
    """

    by: str
    date: str
    figures: str
    card: str = ""
    role: str = ""
    held: bool = True


@dataclass(frozen=True, slots=True)
class Asked:
    """What a school asks of signatures: how many names, whose, and for how many months.

    `months` is 0 where they do not lapse.
    """

    names: int = 1
    roles: tuple[str, ...] = ()
    months: int = 0


@dataclass(frozen=True, slots=True)
class Much:
    """A table, or a group of copied figures, of which much has changed: in short.

    Attributes
    ----------
    of : str
        The table; of copied figures, what their identifiers begin with.
    count : int
        How many figures are printed otherwise.
    most : str
        The one of them that changed most, by its identifier.
    was : str
        What was printed there.
    cells : dict of str to str
        The columns of each row that changed, by their identifiers, with blanks between.
    """

    of: str
    count: int
    most: str
    was: str
    cells: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SignedState:
    """A state of the card as it was signed, by its record.

    Attributes
    ----------
    date, by, role : str
    card, figures : str
        Its marks.
    complete : bool
        Whether with this signature all had signed it that the school asks for.
    changed : tuple of str
        What was printed otherwise in the state before: an identifier of each V-speed and table.
    was : dict of str to str
        What is printed otherwise now, as it was printed then, by identifier; nothing where there
        was no such figure.
    much : tuple of Much
        The tables of which too much is for that.
    """

    date: str
    by: str
    card: str
    figures: str
    role: str = ""
    complete: bool = True
    changed: tuple[str, ...] = ()
    was: dict[str, str] = field(default_factory=dict)
    much: tuple[Much, ...] = ()

    @property
    def moved(self) -> tuple[str, ...]:
        """The identifiers of all that is printed otherwise now."""
        cells = (
            f"{one.of}/{row}/{column}"
            for one in self.much
            for row, columns in one.cells.items()
            for column in columns.split()
        )
        return (*self.was, *(one.most for one in self.much), *cells)


@dataclass(frozen=True, slots=True)
class Units:
    """The units of the manual."""

    speed: str
    altitude: str
    temperature: str
    weight: str
    fuel_flow: str = ""
    sink: str = ""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two aircraft that a page tells the differences of: of a pilot of the first, in the second."""

    first: str
    second: str

    @property
    def folder(self) -> str:
        """Where that page stands in a site."""
        return f"next/{self.first}/{self.second}"


@dataclass(frozen=True, slots=True)
class Head:
    """What a card says of itself before any figure."""

    registration: str
    type: str
    kind: str
    serial: str
    indicator_unit: str
    units: Units
    school: School
    papers: tuple[Paper, ...]
    changes: tuple[Change, ...] = ()
    remarks: tuple[str, ...] = ()
    signatures: tuple[Signature, ...] = ()
    asked: Asked = Asked()
    signed: tuple[SignedState, ...] = ()
    pairs: tuple[Pair, ...] = ()

    @property
    def last_signed(self) -> SignedState | None:
        """The last state that all had signed; what changed since is marked."""
        return next((one for one in reversed(self.signed) if one.complete), None)

    @property
    def manual(self) -> Paper:
        """The manual; it is the first of the papers."""
        return self.papers[0]

    @property
    def supplements(self) -> tuple[Paper, ...]:
        """The supplements that are laid over the manual, in order."""
        return tuple(one for one in self.papers if one.id.startswith("supplement-"))


WORDED = ("/when", "/sense", "/means", "/shape", "/name", "/not-marked")  # words that are given


@dataclass(frozen=True, slots=True)
class Given:
    """What was copied from paper or set by the school: a figure or words, where it was read."""

    id: str
    value: str | Quantity
    paper: str = ""
    page: str = ""


@dataclass(frozen=True, slots=True)
class Curve:
    """A table that is read linearly between its points.

    Attributes
    ----------
    x, y : tuple of float
        Both rising, but what is to be added to an altimeter's reading.
    flaps, static_source, gear : str
        What a table holds for; nothing where it holds for all.
    page : str
    altitude : float, optional
        What a table of the altimeter is printed for.
    """

    x: tuple[float, ...]
    y: tuple[float, ...]
    flaps: str = ""
    static_source: str = ""
    page: str = ""
    gear: str = ""
    altitude: float | None = None


@dataclass(frozen=True, slots=True)
class Bound:
    """A V-speed, as given: what any case is held against.

    Attributes
    ----------
    speed : str
        ``VNE``, ``VS1`` and so on.
    sense : str
        Whether it bounds from above or below, or is flown.
    quantity : str
        What it is given as: ``ias``, ``cas``, ``tas`` or ``mach``.
    value : float
        In the manual's unit.
    cas : float, optional
        The same in CAS, in the manual's unit, where the tables reach.
    flaps, gear : str
    weight, altitude, from_altitude : float, optional
    interpolate : bool
        Whether the manual says to interpolate between its rows of altitude.
    less_per_altitude : float
        How much less it is for each unit of altitude above its own.
    bank : float
        deg; of a stall speed.
    when : str
        The condition in words under which it holds, where there is another
        figure that holds in general.
    """

    speed: str
    sense: Sense
    quantity: str
    value: float
    cas: float | None = None
    flaps: str = ""
    gear: str = ""
    weight: float | None = None
    altitude: float | None = None
    from_altitude: float | None = None
    interpolate: bool = False
    less_per_altitude: float = 0.0
    bank: float = 0.0
    when: str = ""


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc as painted, in the indicator's unit."""

    name: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Radial:
    """A line across the scale as painted, and the V-speed that it stands for, if any.

    `called` is what the manual calls a mark that has no usual name, and says that it means.
    """

    name: str
    at: float
    speed: str = ""
    called: str = ""


@dataclass(frozen=True, slots=True)
class FlapLimit:
    """A flap setting with a limit of its own above the white arc."""

    flaps: str
    at: float


@dataclass(frozen=True, slots=True)
class Markings:
    """What is painted on the indicator, in its unit; flap limits from the slowest.

    `tightened` are the limits that a bench card puts elsewhere than the paint
    does, which it does not move.
    """

    arcs: tuple[Arc, ...] = ()
    lines: tuple[Radial, ...] = ()
    flaps: tuple[FlapLimit, ...] = ()
    tightened: tuple[Radial, ...] = ()


@dataclass(frozen=True, slots=True)
class ErrorCurve:
    """What to add to the indication to have CAS, at each point where that bends."""

    flaps: str
    static_source: str
    shown: tuple[float, ...]
    error: tuple[float, ...]
    gear: str = ""


@dataclass(frozen=True, slots=True)
class TasLine:
    """TAS over altitude at one indication and deviation from the standard atmosphere.

    Attributes
    ----------
    shown : float
        What the indicator shows.
    deviation : float
        In the manual's unit of temperature.
    tas : tuple of float
        In the indicator's unit, as far up as the speed is within the limit.
    altitude : tuple of float
        In the manual's unit.
    """

    shown: float
    deviation: float
    tas: tuple[float, ...]
    altitude: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class PolarCurve:
    """A polar in still air at the weight and altitude that it holds for.

    Attributes
    ----------
    name : Message, optional
        What it holds for.
    tas : tuple of float
        In the indicator's unit, rising.
    sink : tuple of float
        In the manual's unit of sink.
    least, best : int
        Which of its points has the least sink, and which the best glide.
    """

    name: Message | None
    tas: tuple[float, ...]
    sink: tuple[float, ...]
    least: int
    best: int


@dataclass(frozen=True, slots=True, weakref_slot=True)
class Basis:
    """The figures and curves that drawings show, and that any case can be reckoned from.

    Attributes
    ----------
    flaps : tuple of str
        The flap settings in order of extension; the first is retracted.
    weights : tuple of float
        The maximum weight, then the others that tables are made for.
    bounds : tuple of Bound
    calibration : tuple of Curve
        IAS to CAS, in the manual's unit; of those for one flap setting and static
        source the one of the usual gear first.
    bench : Curve, optional
        What the indicator shows to what it should show, in its own unit.
    stall : tuple of Bound
        The manual's stall speeds, those of its own table last; others are
        computed from those in CAS without bank.
    markings : Markings, optional
    errors : tuple of ErrorCurve
        In the indicator's unit.
    tas : tuple of TasLine
    levels : tuple of float
        The lowest and the highest altitude that the lines were asked for.
    altimeter : tuple of Curve
        Manual's IAS to what is to be added to the altitude shown.
    altimeter_bench : Curve, optional
        What the altimeter shows to what it should show.
    polars : tuple of PolarCurve
    only_approved : tuple of str
        V-speeds by weight that hold at the weights they are given for only.
    """

    flaps: tuple[str, ...]
    weights: tuple[float, ...]
    bounds: tuple[Bound, ...]
    calibration: tuple[Curve, ...]
    bench: Curve | None
    stall: tuple[Bound, ...]
    markings: Markings | None
    errors: tuple[ErrorCurve, ...]
    tas: tuple[TasLine, ...]
    levels: tuple[float, ...] = ()
    altimeter: tuple[Curve, ...] = ()
    altimeter_bench: Curve | None = None
    polars: tuple[PolarCurve, ...] = ()
    only_approved: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check found: the rule, how grave it is, and what fills its message.

    Attributes
    ----------
    rule : str
    severity : str
        ``error``, ``warning`` or ``note``.
    message : Message
    accepted : str
        The reason with which a definition accepts it.
    """

    rule: str
    severity: str
    message: Message
    accepted: str = ""


@dataclass(frozen=True, slots=True)
class Marks:
    """Two short marks: of all that is printed, and of what was copied from paper."""

    card: str = ""
    figures: str = ""


@dataclass(frozen=True, slots=True)
class Document:
    """All that is published of one aircraft.

    Attributes
    ----------
    version : int
        Of this record.
    cardgen : str
        The version of the program that made it.
    """

    head: Head
    tables: tuple[Table, ...]
    gaps: tuple[Gap, ...]
    basis: Basis
    given: tuple[Given, ...]
    findings: tuple[Finding, ...] = ()
    marks: Marks = Marks()
    version: int = VERSION
    cardgen: str = ""

    @property
    def changed(self) -> frozenset[str]:
        """The cells that print something else than when all had signed, and their small figures.

        Each is named by the identifier of the cell.
        """
        last = self.head.last_signed
        names = (one.removesuffix("/beside") for one in (last.moved if last else ()))
        return frozenset(
            one for one in names if "/" in one and not one.startswith(("head/", "given/"))
        )

    def table(self, name: str) -> Table | None:
        """Return the table of a name, where the card has it."""
        return next((table for table in self.tables if table.id == name), None)


@dataclass(frozen=True, slots=True)
class Shared:
    """The tables that serve every aircraft."""

    school: School
    tables: tuple[Table, ...]
    version: int = VERSION
    cardgen: str = ""


@dataclass(frozen=True, slots=True)
class Listed:
    """One aircraft of a fleet, as the index lists it.

    `changed` is since it was signed, and `before` the marks of the cards that it had when signed.
    """

    registration: str
    type: str
    kind: str
    indicator_unit: str
    manual: Paper
    marks: Marks
    state: State = "unsigned"
    signatures: tuple[Signature, ...] = ()
    valid_to: str = ""
    changed: bool = False
    before: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeftOut:
    """An aircraft of a fleet that has no card, since its definition has faults."""

    registration: str


@dataclass(frozen=True, slots=True)
class Index:
    """A fleet: who publishes it, what is in it, and what had to be left out."""

    school: School
    aircraft: tuple[Listed, ...]
    cardgen: str = ""
    left_out: tuple[LeftOut, ...] = ()
    pairs: tuple[Pair, ...] = ()


@dataclass(frozen=True, slots=True)
class Term:
    """An entry of the glossary; `sense` is that of a V-speed."""

    id: str
    sense: str = ""


@dataclass(frozen=True, slots=True)
class DefinitionKey:
    """A key of the definitions.

    Attributes
    ----------
    name, meaning : str
    needed : bool
        Whether its group cannot be without it.
    forms : tuple of Message
        What may stand under it.
    groups : tuple of str
        The groups that may stand under it, by the identifiers of their own entries.
    unit : str
        The unit of its figures, in the words of its meaning.
    example : str
        What may stand under it, as YAML.
    """

    name: str
    meaning: str
    needed: bool
    forms: tuple[Message, ...]
    groups: tuple[str, ...]
    unit: str
    example: str


@dataclass(frozen=True, slots=True)
class DefinitionGroup:
    """A group of keys of the definitions, and the keys that lead to it in its file."""

    id: str
    meaning: str
    keys: tuple[DefinitionKey, ...]
    under: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Reference:
    """What explains the cards and the definitions.

    Attributes
    ----------
    formulas : tuple of str
    glossary : tuple
        Its sections by name.
    keys : tuple
        The groups of keys of each kind of definition file, each group once.
    """

    school: School
    formulas: tuple[str, ...] = ()
    glossary: tuple[tuple[str, tuple[Term, ...]], ...] = ()
    cardgen: str = ""
    keys: tuple[tuple[str, tuple[DefinitionGroup, ...]], ...] = ()
