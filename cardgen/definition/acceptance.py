"""What a definition accepts of what the checks find."""

from typing import Self

from pydantic import ValidationInfo, model_validator

from cardgen.definition.group import Group, Identifier, Label, Sentence, fault


class Acceptance(Group):
    """A finding of the checks that is accepted: what the manual says, although a rule doubts it."""

    rule: Label
    """The rule's name, as check prints it."""
    figure: Identifier | None = None
    """The identifier of the figure that it is accepted for, as check prints it."""
    value: Label | None = None
    """The figure's value that is accepted; another is found again."""
    reason: Sentence
    """Why it is accepted, which the aircraft's page prints."""

    @model_validator(mode="after")
    def _a_figure_has_its_value(self, info: ValidationInfo) -> Self:
        for one, other in (("figure", "value"), ("value", "figure")):
            if getattr(self, one) is not None and getattr(self, other) is None:
                fault(info, self.place_of(one), f"found {one} and no {other}, expected both")
        return self
