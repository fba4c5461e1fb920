"""The errors of instruments, in whichever form a manual or a bench prints them.

A table has two rows: what it is entered with, and beside it the right figures,
or what to add or to subtract. The key says which, so that no sign is guessed.
"""

import itertools
from collections.abc import Sequence
from decimal import Decimal
from typing import ClassVar, Literal, Self

from pydantic import ValidationInfo, model_validator

from cardgen.definition.group import (
    Date,
    Group,
    Label,
    Number,
    OneOrMoreSettings,
    Phrase,
    fault,
)
from cardgen.definition.lists import Row, rising, same_length
from cardgen.definition.places import Figure

Form = tuple[str, str]  # the fields of the row that a table is entered with, and of that beside it
Gear = Literal["up", "down"]
Source = Literal["normal", "alternate"]


def key_of(field: str) -> str:
    """Return the key of a field, as a definition has it."""
    return field.replace("_", " ")


def is_correction(field: str) -> bool:
    """Whether a row is to be added or subtracted, rather than the right figures themselves."""
    return field.startswith(("add_to", "subtract_from"))


def corrected(start: Figure, field: str, beside: Figure) -> Figure:
    """Return the figure that another one means, by what stands beside it.

    Examples
    --------
    >>> from cardgen.definition.places import Place
    >>> a, b = (Figure(text, Place("", 1, 1)) for text in ("80.5", "+2"))
    >>> [corrected(a, row, b).text for row in ("add_to_ias", "subtract_from_ias", "cas")]
    ['82.5', '78.5', '+2']
    """
    if not is_correction(field):
        return beside
    correction = Decimal(beside.text) * (1 if field.startswith("add_to") else -1)
    return Figure(f"{Decimal(start.text) + correction:f}", beside.place)


class TwoRows:
    """What the groups of two rows have in common; `FORMS` are those that a group may have."""

    FORMS: ClassVar[tuple[Form, ...]]

    @property
    def form(self) -> Form:
        """The fields of the two rows."""
        return next(one for one in self.FORMS if set(one) == self.given_rows)

    @property
    def pairs(self) -> list[tuple[Figure, Figure]]:
        """The two rows as they are printed, side by side."""
        start, beside = self.form
        return list(zip(getattr(self, start), getattr(self, beside), strict=True))

    @property
    def readings(self) -> list[tuple[Figure, Figure]]:
        """What an instrument shows, and what it should show; what is not printed is computed."""
        start, beside = self.form
        found = [(one, corrected(one, beside, other)) for one, other in self.pairs]
        return found if start in ("ias", "indicated") else [(shown, one) for one, shown in found]

    @property
    def differences(self) -> list[Figure]:
        """What is printed to be added or subtracted, or else how far off the right figures are."""
        if is_correction(self.form[1]):
            return [beside for _, beside in self.pairs]
        return [corrected(beside, "subtract_from", start) for start, beside in self.pairs]

    @property
    def given_rows(self) -> set[str]:
        """The fields of the rows that are printed."""
        rows = {row for form in self.FORMS for row in form}
        return {row for row in rows if getattr(self, row) is not None}


class Calibration(TwoRows, Group):
    """How the airspeed system errs at one setting: a row of IAS or CAS, and one beside it."""

    FORMS: ClassVar[tuple[Form, ...]] = (
        ("ias", "cas"),
        ("ias", "add_to_ias"),
        ("ias", "subtract_from_ias"),
        ("ias", "normal_ias"),
        ("cas", "add_to_cas"),
        ("cas", "subtract_from_cas"),
    )

    flaps: OneOrMoreSettings | None = None
    """The flap setting, or a list of them; retracted where left out."""
    gear: Gear | None = None
    """Whether the landing gear is up or down; either where left out."""
    static_source: Source = "normal"
    """The static source: normal where left out."""
    page: Label | None = None
    """The page of the table."""
    when: Phrase | None = None
    """Conditions of the table, in a few words."""
    ias: Row | None = None
    """The row of indicated airspeeds, rising, in the unit of speed."""
    cas: Row | None = None
    """The row of calibrated airspeeds, one under each IAS, in the unit of speed."""
    add_to_ias: Row | None = None
    """What the manual says to add to each IAS, in the unit of speed, where it prints no CAS."""
    subtract_from_ias: Row | None = None
    """What it says to subtract from each IAS, in the unit of speed, where it prints no CAS."""
    normal_ias: Row | None = None
    """On the alternate source: the normal source's IAS, in the unit of speed, under each IAS."""
    add_to_cas: Row | None = None
    """What the manual says to add to each CAS, in the unit of speed, which gives IAS."""
    subtract_from_cas: Row | None = None
    """What the manual says to subtract from each CAS, in the unit of speed, which gives IAS."""
    gives: Literal["CAS", "normal IAS"] | None = None
    """What IAS and correction give: CAS where left out, or the IAS of the normal source."""

    def setting(self, flaps: Sequence[str]) -> tuple[str, str, str]:
        """Return the flap setting, of those of a type, the static source and the gear."""
        return self.flaps or flaps[0], self.static_source, self.gear or ""

    @property
    def is_by_normal_source(self) -> bool:
        """Whether it gives the normal source's IAS, which that source's table brings to CAS."""
        return self.normal_ias is not None or self.gives == "normal IAS"

    @model_validator(mode="after")
    def _two_rows(self, info: ValidationInfo) -> Self:
        if not _has_two_rows(self, info):
            return self
        _means_no_two_alike(self, info, "airspeed")
        if self.gives is not None and self.form not in self.FORMS[1:3]:
            said = "found gives, expected it beside add to ias or subtract from ias"
            fault(info, self.place_of("gives"), said)
        elif self.is_by_normal_source and self.static_source == "normal":
            at = self.place_of("gives" if self.gives else "normal ias")
            fault(info, at, "found normal IAS, expected it on the alternate static source only")
        return self


class BenchCard(TwoRows, Group):
    """What a bench test found of an instrument."""

    MEASURES: ClassVar[str]

    page: Label | None = None
    """Where the correction was found."""
    date: Date | None = None
    """The date of the bench test, as 2025-02-03."""
    reads: Literal["low", "high", "low then high", "high then low"] | None = None
    """How the instrument errs, where the card says it in words; the figures are held against it."""

    @model_validator(mode="after")
    def _two_rows(self, info: ValidationInfo) -> Self:
        if _has_two_rows(self, info):
            _means_no_two_alike(self, info, self.MEASURES)
        return self


class InstrumentCorrection(BenchCard):
    """What a bench test found of the airspeed indicator: a row of speeds, and one beside it."""

    MEASURES: ClassVar[str] = "airspeed"
    FORMS: ClassVar[tuple[Form, ...]] = (
        ("indicated", "true"),
        ("indicated", "add_to_indicated"),
        ("indicated", "subtract_from_indicated"),
        ("true", "add_to_true"),
        ("true", "subtract_from_true"),
    )
    INSTEAD: ClassVar[dict[str, str]] = {
        "correction": "write add to indicated or subtract from indicated, as the card means it",
    }

    indicated: Row | None = None
    """What the indicator shows, rising, in its own unit."""
    true: Row | None = None
    """What it should show, rising, in its own unit."""
    add_to_indicated: Row | None = None
    """What the card says to add to what is shown, in the indicator's unit."""
    subtract_from_indicated: Row | None = None
    """What the card says to subtract from what is shown, in the indicator's unit."""
    add_to_true: Row | None = None
    """What to add to the speed wanted, in the indicator's unit: the sum is to be shown."""
    subtract_from_true: Row | None = None
    """What to subtract from the speed wanted, in the indicator's unit: the rest is to be shown."""


class AltimeterCard(BenchCard):
    """What a bench test found of the altimeter: a row of altitudes shown, and one beside it."""

    MEASURES: ClassVar[str] = "altitude"
    FORMS: ClassVar[tuple[Form, ...]] = (
        ("indicated", "true"),
        ("indicated", "add_to_indicated"),
        ("indicated", "subtract_from_indicated"),
    )

    indicated: Row | None = None
    """What the altimeter shows, rising, in the unit of altitude."""
    true: Row | None = None
    """What it should show, rising, in the unit of altitude."""
    add_to_indicated: Row | None = None
    """What the card says to add to what is shown, in the unit of altitude."""
    subtract_from_indicated: Row | None = None
    """What the card says to subtract from what is shown, in the unit of altitude."""


class AltimeterCorrection(TwoRows, Group):
    """What the altimeter reads wrong in flight: a row of IAS, and what to add or to subtract."""

    FORMS: ClassVar[tuple[Form, ...]] = (
        ("ias", "add_to_indicated"),
        ("ias", "subtract_from_indicated"),
    )

    flaps: OneOrMoreSettings | None = None
    """The flap setting, or a list of them; all that no other table names where left out."""
    static_source: Source = "normal"
    """The static source: normal where left out."""
    altitude: Number | None = None
    """The altitude that the table is for, in the unit of altitude; every one where left out."""
    page: Label | None = None
    """The page of the table."""
    when: Phrase | None = None
    """Conditions of the table, in a few words."""
    ias: Row
    """The row of indicated airspeeds, rising, in the unit of speed."""
    add_to_indicated: Row | None = None
    """What to add to the altitude shown, in the unit of altitude, one under each IAS."""
    subtract_from_indicated: Row | None = None
    """What to subtract from the altitude shown, in the unit of altitude, under each IAS."""

    @property
    def setting(self) -> tuple[str, str, float | None]:
        """The flap setting, the static source and the altitude."""
        altitude = None if self.altitude is None else float(self.altitude)
        return self.flaps or "", self.static_source, altitude

    @property
    def to_add(self) -> list[tuple[Figure, Figure]]:
        """Each IAS, and what is to be added at it to what is shown."""
        _, beside = self.form
        nothing = Figure("0", self.place)
        return [(ias, corrected(nothing, beside, figure)) for ias, figure in self.pairs]

    @model_validator(mode="after")
    def _two_rows(self, info: ValidationInfo) -> Self:
        _has_two_rows(self, info)
        return self


Printed = Calibration | BenchCard | AltimeterCorrection


def _has_two_rows(table: Printed, info: ValidationInfo) -> bool:
    """Whether two rows go together, as long as one another and rising; if not, it is told."""
    given = table.given_rows
    if not any(given == set(form) for form in table.FORMS):
        _tell_no_form(table, info, given)
        return False
    start, beside = table.form
    if not same_length(table, info, key_of(start), key_of(beside)):
        return False
    rising(info, key_of(start), getattr(table, start))
    if not is_correction(beside):
        rising(info, key_of(beside), getattr(table, beside))
    return True


def _tell_no_form(table: Printed, info: ValidationInfo, given: set[str]) -> None:
    keys = {key_of(row) for form in table.FORMS for row in form}
    told = (
        key in table.INSTEAD or (key in keys and value is None)
        for key, value in table._block.items()
    )
    if any(told):
        return
    found = ", ".join(key_of(row) for row in type(table).model_fields if row in given)
    forms = "; ".join(f"{key_of(one)}, {key_of(other)}" for one, other in table.FORMS)
    fault(info, table.place, f"found the rows {found or 'none'}, expected two of these: {forms}")


def _means_no_two_alike(table: Printed, info: ValidationInfo, what: str) -> None:
    """Find a correction by which a figure would mean the same as the one before, or less."""
    _, beside = table.form
    if not is_correction(beside):
        return
    means = [(start, corrected(start, beside, figure)) for start, figure in table.pairs]
    for (a, one), (b, other) in itertools.pairwise(means):
        if a < b and other <= one:
            said = f"{key_of(beside)}: two readings would mean the same {what}"
            fault(info, other.place, said)
