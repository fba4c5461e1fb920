"""Cruise performance as the manual gives it."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.air import isa_heading
from cardgen.cards.cells import as_entered, entered, given, heading, taking
from cardgen.cards.indicated import differs
from cardgen.definition import cruise as columns
from cardgen.definition.cruise import Cruise, Row, cell_at, set_at, told_apart
from cardgen.definition.model import School, distance_unit
from cardgen.definition.names import slug
from cardgen.definition.places import Figure
from cardgen.document import record
from cardgen.document.record import (
    DASH,
    Block,
    Cell,
    Column,
    Gap,
    Input,
    Message,
    Quantity,
    Table,
    Unit,
)

Setting = tuple[Figure, ...]  # a value for each of a table's settings
_UNITS = {"rpm": "rpm", "manifold pressure": "inHg", "torque": "%", "N1": "%", "power": "%"}
_NAMED = (*columns.POWER, *columns.RESULTS, *columns.AIR)  # with headings of their own
_SAID = (*columns.POWER, "power", "ias")  # as settings, with wordings of their own


@dataclass(frozen=True)
class Given:
    """A cruise table of an aircraft, and what tells it from others of the same aircraft."""

    aircraft: Aircraft
    cruise: Cruise
    parts: dict[str, str]

    @cached_property
    def settings(self) -> list[str]:
        """The columns that are set."""
        return columns.settings(self.cruise)

    @cached_property
    def tas_unit(self) -> str:
        """The unit of TAS."""
        return self.cruise.tas_unit or self.aircraft.units.speed

    @property
    def source(self) -> str:
        """The identifier of all that was copied of the table."""
        return "/".join(("given/cruise", *self.parts.values()))

    def id(self, name: str) -> str:
        """Return the identifier of a table that is made of this one."""
        return "-".join((name, *(("for", *self.parts.values()) if self.parts else ())))

    def title(self, name: str) -> Message:
        """Return the title of a table that is made of this one, which tells it from others."""
        own: list[Message | Quantity | str] = [self.cruise.name] if self.cruise.name else []
        if "weight" in self.parts and self.cruise.weight is not None:
            own.append(self._weight(self.cruise.weight))
        if "page" in self.parts and self.cruise.page:
            own.append(heading("title-at-page", page=self.cruise.page))
        title = Message(f"title-{name}")
        return heading("title-of", title=title, of=tuple(own)) if own else title

    def _weight(self, weight: Figure) -> Quantity:
        return as_entered(weight, self.aircraft.units.weight)

    def note(self, name: str) -> Message:
        """Return a note that names the table's weight, where its title does not."""
        if self.cruise.weight is None or "weight" in self.parts:
            return Message(name)
        return heading(f"{name}-weight", weight=self._weight(self.cruise.weight))

    def note_as_given(self) -> Message:
        """Return the note that names weight and page, and the table where there are several."""
        note = self.note("note-as-manual")
        if self.cruise.page:
            note = Message(f"{note.id}-page", {**note.values, "page": self.cruise.page})
        if not self.parts:
            return note
        return heading("note-of-table", table=self.title("cruise"), note=note)

    def dashes(self, name: str) -> list[Message]:
        """Return the note that says what a dash is, where the manual leaves out a figure."""
        return [Message(name)] if any(None in row for row in self.cruise.rows) else []

    def setting_of(self, row: Row) -> Setting:
        """Return what is set in a row."""
        return tuple(set_at(self.cruise, row, name) for name in self.settings)

    def unit(self, name: str) -> str:
        """Return the unit of a column; nothing for rpm, which its name says."""
        units = self.aircraft.units
        of = {
            **_UNITS,
            "rpm": "",
            "tas": self.tas_unit,
            "ias": units.speed,
            "fuel flow": units.fuel_flow or "",
            "endurance": "h",
            "range": distance_unit(units),
            "oat": units.temperature,
        }
        return of.get(name, "")

    def stub_columns(self) -> list[Column]:
        """Return the columns that the table is entered by."""
        return [
            Column("altitude", Message("column-pressure-altitude"), self.aircraft.units.altitude),
            *(Column(slug(name), self._name(name), self.unit(name)) for name in self.settings),
        ]

    def stub(self, altitude: Figure, setting: Setting) -> list[Cell]:
        """Return the cells that a row is entered by."""
        return [
            given(float(altitude), self.aircraft.units.altitude, altitude.text),
            *(
                given(float(figure), self.unit(name), figure.text)
                for name, figure in zip(self.settings, setting, strict=True)
            ),
        ]

    def row_id(self, altitude: Figure, setting: Setting) -> str:
        """Return the identifier of a row."""
        return "/".join((f"altitude-{altitude:g}", *self.setting_ids(setting)))

    def setting_ids(self, setting: Setting) -> list[str]:
        """Return what is set as parts of an identifier."""
        pairs = zip(self.settings, setting, strict=True)
        return [f"{slug(name)}-{figure:g}" for name, figure in pairs]

    def setting_said(self, setting: Setting) -> Message | None:
        """Say what is set as pilots do: 2400 rpm, 24 inHg."""
        parts = tuple(map(self._said, self.settings, setting))
        return Message("several", {"parts": parts}) if parts else None

    def setting_inputs(self, setting: Setting) -> Iterator[Input]:
        """Yield what is set as a formula takes it."""
        for name, figure in zip(self.settings, setting, strict=True):
            if name in _SAID:
                unit = _UNITS.get(name, self.unit(name))
                yield taking(slug(name).lower(), as_entered(figure, unit))
            else:
                yield taking("setting", self._said(name, figure))

    def _said(self, name: str, figure: Figure) -> Message:
        if name in _UNITS or name == "setting":
            value = Quantity(float(figure), entered=figure.text)
            return heading(f"setting-{slug(name)}", value=value)
        value = as_entered(figure, self.unit(name))
        if name == "ias":
            return heading("setting-ias", value=value)
        return Message("setting-own", {"name": name, "value": value})

    def _name(self, name: str) -> Message:
        if name == "ias" and differs(self.aircraft):
            return Message("column-manual-ias")
        return Message(f"column-{slug(name)}") if name in _NAMED else self._own(name)

    def name_of_result(self, name: str) -> Message:
        """Return the heading of a result, with its unit."""
        if name not in _NAMED:
            return self._own(name)
        own = "manual-ias" if name == "ias" and differs(self.aircraft) else slug(name)
        return heading(f"column-{own}-of", unit=Unit(self.unit(name)))

    def _own(self, name: str) -> Message:
        return Message("column-own", {"name": name})

    def temperature(self, air: str | None, figure: Figure | None) -> Message:
        """Return the heading of a temperature that rows hold for."""
        if air is None or figure is None:
            return Message("group-cruise")
        if air == "isa":
            return isa_heading(figure)
        return heading("oat", oat=as_entered(figure, self.aircraft.units.temperature))


def tables_of(aircraft: Aircraft) -> list[Given]:
    """Return an aircraft's cruise tables."""
    tables = aircraft.definition.cruise
    return [
        Given(aircraft, one, parts) for one, parts in zip(tables, told_apart(tables), strict=True)
    ]


def cruise_tables(aircraft: Aircraft, school: School) -> list[Table | Gap]:
    """Return the manual's cruise tables; none for a glider that has none."""
    tables = tables_of(aircraft)
    if not tables and aircraft.kind != "glider":
        return [Gap("cruise", Message("title-cruise"), Message("missing-cruise"))]
    return [_as_given(one) for one in tables]


def _as_given(of: Given) -> Table:
    """Return the manual's rows, side by side for each temperature."""
    cruise = of.cruise
    air, temperatures = _temperatures(cruise)
    return Table(
        of.id("cruise"),
        of.title("cruise"),
        Message("how-cruise"),
        (
            *of.stub_columns(),
            *(
                Column(
                    f"{slug(name)}-{air or 'all'}" + (f"-{at:g}" if at is not None else ""),
                    of.name_of_result(name),
                    of.unit(name),
                    of.temperature(air, at),
                    main=name == "tas",
                )
                for at in temperatures
                for name in columns.results(cruise)
            ),
        ),
        tuple(
            Block(f"altitude-{altitude:g}", None, tuple(_rows(of, altitude)))
            for altitude in sorted({set_at(cruise, row, "altitude") for row in cruise.rows})
        ),
        stub=1 + len(of.settings),
        notes=(of.note_as_given(), *of.dashes("note-not-available")),
    )


def _temperatures(cruise: Cruise) -> tuple[str | None, list[Figure | None]]:
    """Return whether rows hold for isa or oat, and the temperatures that they hold for."""
    air = columns.air_column(cruise)
    if air:
        return air, [*sorted({set_at(cruise, row, air) for row in cruise.rows})]
    held = columns.held_temperature(cruise)
    return (held[0], [held[1]]) if held else (None, [None])


def _rows(of: Given, altitude: Figure) -> Iterator[record.Row]:
    cruise = of.cruise
    air, (_, temperatures) = columns.air_column(cruise), _temperatures(cruise)
    found: dict[Setting, list[Row]] = {}
    for row in cruise.rows:
        if set_at(cruise, row, "altitude") == altitude:
            found.setdefault(of.setting_of(row), []).append(row)
    for setting, rows in found.items():
        cells = of.stub(altitude, setting)
        for at in temperatures:
            same = [one for one in rows if air is None or set_at(cruise, one, air) == at]
            cells += (
                _result(of, same[0], name) if same else DASH for name in columns.results(cruise)
            )
        yield record.Row(of.row_id(altitude, setting), tuple(cells))


def _result(of: Given, row: Row, name: str) -> Cell:
    figure = cell_at(of.cruise, row, name)
    return DASH if figure is None else entered(of.aircraft, figure, of.cruise, of.unit(name))
