"""What of a document is held against another's: a speed by its name, whatever its weight."""

import math
from collections.abc import Iterator
from functools import cached_property

from cardgen.document.record import Cell, Curve, Document, Message, Quantity, Row, Table, Value
from cardgen.document.rounding import kept, rounded
from cardgen.lessons.curves import ALTERNATE, NORMAL, Chain, read
from cardgen.units import UNITS, convert

_ALIKE = {"VMO": "VNE", "VO": "VA"}  # that stand in one's place in aircraft of another kind
_BY_FLAPS, _BY_GEAR = ("VFE", "VS1"), ("VLO",)
FULL, CLEAN = "full", "clean"
_CALLED = "called "  # begins the name of a mark that is called as the manual calls it


class Speed:
    """A V-speed as the card prints it: what it is called, and what the indicator shows at it."""

    def __init__(self, block: str, name: Message, quantity: Quantity) -> None:
        self.block = block
        self.name = name
        self.quantity = quantity

    @property
    def value(self) -> float:
        """As printed: as it was entered, or rounded on the safe side."""
        if self.quantity.entered:
            return self.quantity.value
        return rounded(self.quantity.value, self.quantity.sense, self.quantity.decimals)


class Facts:
    """What is asked of a document."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.head = document.head
        self.unit = document.head.indicator_unit
        self.basis = document.basis
        self.chain = Chain(document)

    def own(self, quantity: Quantity) -> float:
        """Return a speed in this aircraft's indicator's unit."""
        return float(convert(quantity.value, quantity.unit, self.unit))

    def speed(self, value: float, decimals: int = 0) -> Quantity:
        """Return a speed that this aircraft's indicator may show."""
        return Quantity(kept(value), self.unit, decimals=decimals)

    @cached_property
    def speeds(self) -> dict[str, Speed]:
        """The speeds of its table by name and setting: of several weights the heaviest."""
        table, found = self.document.table("speeds"), dict[str, Speed]()
        for block in table.blocks if table else ():
            for row in block.rows:
                quantity = row.cells[1].quantity
                if quantity is None or quantity.high is not None:
                    continue
                key, name = self._named(row)
                found.setdefault(key, Speed(block.id, name, quantity))
        return found

    def _named(self, row: Row) -> tuple[str, Message]:
        said = row.cells[0].said
        symbol = said if isinstance(said, Message) else Message("next-own", {"name": said or ""})
        parts = row.id.split("/")[1:]
        subject = _ALIKE.get(row.subject, row.subject)
        if row.subject in _BY_FLAPS:
            return self._by_flaps(subject, symbol, parts)
        gear = next((one for one in parts if one in ("gear-up", "gear-down")), "")
        if row.subject in _BY_GEAR and gear:
            values: dict[str, Value] = {"name": symbol, "setting": Message(gear)}
            return f"{subject} {gear}", Message("next-of", values)
        return subject, symbol

    def _by_flaps(self, subject: str, symbol: Message, parts: list[str]) -> tuple[str, Message]:
        flaps = next((one.removeprefix("flaps-") for one in parts if one.startswith("flaps-")), "")
        settings = self.basis.flaps
        if flaps in ("", settings[0]):
            return f"{subject} {CLEAN}", symbol
        is_full = flaps == settings[-1]
        named = Message("next-full") if is_full else Message("flaps", {"flaps": flaps})
        name = Message("next-of", {"name": symbol, "setting": named})
        return f"{subject} {FULL if is_full else flaps}", name

    @property
    def stall(self) -> Speed | None:
        """The stall as it lands: flaps fully out, or of an aircraft without flaps as it is."""
        return self.speeds.get("VS0") or self.speeds.get(f"VS1 {CLEAN}")

    @property
    def approach(self) -> Speed | None:
        """What it is flown at before it lands."""
        return self.speeds.get("VREF") or self.speeds.get("approach")

    @property
    def retracts(self) -> bool:
        """Whether its landing gear does."""
        return any(one.speed in ("VLE", "VLO") for one in self.basis.bounds)

    @property
    def mach(self) -> Quantity | None:
        """Its limit by Mach number, if it has one."""
        found = [one.value for one in self.basis.bounds if one.quantity == "mach"]
        return Quantity(min(found), entered=f"{min(found):g}") if found else None

    def given(self, name: str) -> Quantity | None:
        """Return a figure that was copied, by its identifier."""
        for one in self.document.given:
            if one.id == f"given/{name}" and isinstance(one.value, Quantity):
                return one.value
        return None

    def arcs(self) -> dict[str, tuple[float, float | None]]:
        """Return the arcs and lines as painted, by what `marking_named` names."""
        markings = self.basis.markings
        if markings is None:
            return {}
        arcs: dict[str, tuple[float, float | None]] = {
            one.name: (one.low, one.high) for one in markings.arcs
        }
        for one in markings.lines:
            name = f"{_CALLED}{one.called}" if one.called else one.name
            arcs[f"{name}, {one.at:g}" if name in arcs else name] = one.at, None
        return arcs

    def error(self, shown: float, source: str = NORMAL, flaps: str = "") -> float:
        """Return what to add to an indication to have CAS; not a number outside the tables."""
        table = self.chain.table(flaps, source)
        cas = read(table, self.chain.ias(shown))
        return float(convert(cas, self.head.units.speed, self.unit)) - shown

    @property
    def alternate(self) -> Curve | None:
        """The table of its alternate static source, if it has one."""
        tables = (one for one in self.basis.calibration if one.static_source == ALTERNATE)
        return next(tables, None)

    @property
    def cruise(self) -> Quantity | None:
        """The highest TAS of its cruise tables, in its indicator's unit."""
        found = [
            float(convert(cell.quantity.value, cell.quantity.unit, self.unit))
            for table in self.document.tables
            if table.id == "cruise" or table.id.startswith("cruise-for-")
            for cell in _tas(table)
            if cell.quantity is not None and cell.quantity.unit in UNITS
        ]
        return self.speed(max(found)) if found else None


def _tas(table: Table) -> Iterator[Cell]:
    at = [n for n, one in enumerate(table.columns) if one.id.startswith("tas")]
    for row in table.rows:
        yield from (row.cells[n] for n in at)


def marking_named(name: str) -> Message:
    """Return what a marking of `Facts.arcs` is called."""
    if name.startswith(_CALLED):
        return Message("next-mark", {"words": name.removeprefix(_CALLED)})
    return Message(f"marking-{name}")


def is_number(value: float) -> bool:
    """Whether there is a value."""
    return not math.isnan(value)
