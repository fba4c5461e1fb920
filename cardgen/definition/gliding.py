"""What a manual says of gliding: distance for height, and the polar of a glider."""

from typing import Literal, Self

from pydantic import ValidationInfo, model_validator

from cardgen.definition.group import Group, Label, Number, Phrase, Setting, fault
from cardgen.definition.lists import Row, rising, same_length

SinkUnit = Literal["ft/min", "m/s", "kt"]


class Glide(Group):
    """How far the aircraft glides, and at what speed."""

    ratio: Number | None = None
    """Distance over height, as the manual gives it."""
    distance: Number | None = None
    """Distance glided for a height, where the manual gives that, in the unit of distance."""
    for_height: Number | None = None
    """The height that the distance is for, in the unit of altitude."""
    ias: Number | None = None
    """The indicated airspeed of the glide, in the unit of speed, as the manual prints it."""
    cas: Number | None = None
    """The calibrated airspeed of the glide, in the unit of speed, as the manual prints it."""
    sink: Number | None = None
    """The rate of descent in the glide, in the unit of sink, as the manual prints it."""
    weight: Number | None = None
    """The weight that the figures hold for, in the unit of weight."""
    flaps: Setting | None = None
    """The flap setting that the figures hold for."""
    gear: Literal["up", "down"] | None = None
    """Whether the landing gear is up or down."""
    when: Phrase | None = None
    """Any other condition, such as propeller feathered, in a few words."""
    page: Label | None = None
    """The page that the figures were read from."""

    @model_validator(mode="after")
    def _says_how_far(self, info: ValidationInfo) -> Self:
        if self.ratio is None and self.distance is None:
            fault(info, self.place, "found no glide, expected ratio, or distance and for height")
        if (self.distance is None) != (self.for_height is None):
            fault(info, self.place, "found one of distance and for height, expected both")
        return self


class Polar(Group):
    """The polar of a glider: the sink at each speed, as the manual prints it."""

    weight: Number | None = None
    """The weight that the polar holds for, in the unit of weight."""
    altitude: Number | None = None
    """The pressure altitude that it holds at, in the unit of altitude; sea level where left out."""
    flaps: Setting | None = None
    """The flap setting; retracted where left out."""
    when: Phrase | None = None
    """Any other condition, in a few words."""
    page: Label | None = None
    """The page of the polar."""
    ias: Row | None = None
    """The row of indicated airspeeds, rising, in the unit of speed."""
    cas: Row | None = None
    """The row of calibrated airspeeds, rising, in the unit of speed."""
    tas: Row | None = None
    """The row of true airspeeds, rising, in the unit of speed."""
    sink: Row
    """The row of sinks, one under each airspeed, in the unit of sink, without a minus sign."""

    @property
    def rows(self) -> dict[str, list[Number]]:
        """The rows of airspeeds that it has, by name."""
        found = {name: getattr(self, name) for name in ("ias", "cas", "tas")}
        return {name: row for name, row in found.items() if row is not None}

    @model_validator(mode="after")
    def _pairs(self, info: ValidationInfo) -> Self:
        if not self.rows:
            fault(info, self.place, "found no airspeeds, expected ias, cas or tas")
        for name, row in self.rows.items():
            if same_length(self, info, name, "sink"):
                rising(info, name, row)
        return self
