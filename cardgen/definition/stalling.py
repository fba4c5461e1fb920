"""The manual's own table of stall speeds."""

from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, ValidationInfo, model_validator

from cardgen.definition.group import (
    Group,
    Label,
    Number,
    OneOrMoreSettings,
    Phrase,
    fault,
    for_each_setting,
)
from cardgen.definition.lists import once
from cardgen.definition.places import Figure


class StallRow(Group):
    """Stall speeds at one flap setting, gear and weight, one for each bank."""

    flaps: OneOrMoreSettings | None = None
    """The flap setting of the row, or a list of them; retracted where left out."""
    gear: Literal["up", "down"] | None = None
    """Whether the landing gear is up or down."""
    weight: Number | None = None
    """The weight of the row, in the unit of weight, where it is not the table's."""
    ias: list[Number] | None = None
    """Indicated airspeeds at the stall, in the unit of speed, one for each bank."""
    cas: list[Number] | None = None
    """Calibrated airspeeds at the stall, in the unit of speed, one for each bank."""


class Stall(Group):
    """The manual's table of stall speeds by bank."""

    weight: Number | None = None
    """The weight that the table holds for, in the unit of weight, where its rows name none."""
    bank: Annotated[list[Number], Field(min_length=1)]
    """The angles of bank, in degrees."""
    page: Label | None = None
    """The page of the table."""
    when: Phrase | None = None
    """Conditions of the table, such as power idle, in a few words."""
    rows: Annotated[list[StallRow], Field(min_length=1), AfterValidator(for_each_setting)]
    """A row for each flap setting, gear and weight."""

    def weight_of(self, row: StallRow) -> Figure:
        """Return the weight that a row holds for."""
        weight = row.weight if row.weight is not None else self.weight
        assert weight is not None
        return weight

    @model_validator(mode="after")
    def _rows_are_whole(self, info: ValidationInfo) -> Self:
        once(self, info, "bank")
        for row in self.rows:
            for key in ("ias", "cas"):
                figures = getattr(row, key)
                if figures is not None and len(figures) != len(self.bank):
                    fault(
                        info,
                        row.place_of(key),
                        f"{key} has {len(figures)} figures and bank has {len(self.bank)}, "
                        "expected as many of each",
                    )
            if row.ias is None and row.cas is None:
                fault(info, row.place, "found no speed, expected ias, cas or both")
            if row.weight is None and self.weight is None:
                fault(info, row.place, "missing key weight: neither the row nor the table has one")
        return self
