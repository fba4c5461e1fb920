"""Slips in what is said of one airframe: signs of its bench card, and another type's papers."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from cardgen.checks.run import check_airframe, check_type
from cardgen.definition.corrections import BenchCard, InstrumentCorrection
from cardgen.definition.fleet import AircraftDefinition, Fleet, merged, misfits_of
from cardgen.definition.places import Figure
from tests.checks.test_rules import TODAY

from .making import turned


class Filed(NamedTuple):
    """An airframe as it was filed wrongly."""

    definition: AircraftDefinition
    said: str


def wrong_signs(fleet: Fleet) -> Iterator[Filed]:
    """One sign of a bench card another."""
    for aircraft in fleet.aircraft:
        card = aircraft.airframe.instrument_correction
        for row, figures in _signed(card):
            for n, figure in enumerate(figures):
                if figure:
                    new = [*figures[:n], turned(figure), *figures[n + 1 :]]
                    yield _with(aircraft, card, {row: new}, f"{figure.text} turned")


def all_signs_turned(fleet: Fleet) -> Iterator[Filed]:
    """All of a bench card to the other side, which says in words to which the instrument errs.

    What is to be added was to be subtracted; or what is shown and what is true are exchanged.
    """
    for aircraft in fleet.aircraft:
        for name in ("instrument_correction", "altimeter_correction"):
            card = getattr(aircraft.airframe, name)
            if card is None or not any(card.differences):
                continue
            rows = card.form
            old = [getattr(card, row) for row in rows]
            new = (
                dict(zip(rows, reversed(old), strict=True))
                if rows[1] == "true"
                else {rows[1]: [turned(figure) for figure in old[1]]}
            )
            turned_over = card.model_copy(update={**new, "reads": in_words(card)})
            airframe = aircraft.airframe.model_copy(update={name: turned_over})
            yield Filed(replace(aircraft, airframe=airframe), f"{airframe.registration} turned")


def in_words(card: BenchCard) -> str:
    """What a bench card would say in words: how the instrument errs, low where more is true."""
    ways = ["low" if true > shown else "high" for shown, true in card.readings if true != shown]
    return " then ".join(way for n, way in enumerate(ways) if n == 0 or ways[n - 1] != way)


def papers_of_another_type(fleet: Fleet) -> Iterator[Filed]:
    """A bench card or a supplement filed with an airframe of another type."""
    for aircraft in fleet.aircraft:
        airframe = aircraft.airframe
        if airframe.instrument_correction is None and not airframe.supplements:
            continue
        for name, definition in fleet.types.items():
            if name == airframe.type:
                continue
            other = airframe.model_copy(update={"type": name})
            if next(iter(misfits_of(other, {**fleet.types})), None) is not None:
                yield Filed(replace(aircraft, airframe=other), "unread")
            else:
                yield Filed(merged(definition, other), f"{airframe.registration} as {name}")


def is_caught(filed: Filed) -> bool:
    """Whether the checks say something of an airframe that they do not say of its type."""
    if filed.said == "unread":
        return True
    known = check_type(filed.definition.airframe.type, filed.definition.type)
    of_type = {(one.place, one.rule.name) for one in known}
    found = check_airframe(filed.definition, TODAY)
    return any(
        (one.place, one.rule.name) not in of_type and one.severity.value != "note" for one in found
    )


def _signed(card: InstrumentCorrection | None) -> Iterator[tuple[str, list[Figure]]]:
    if card is not None and card.form[1] != "true":
        yield card.form[1], getattr(card, card.form[1])


def _with(
    aircraft: AircraftDefinition, card: object, rows: dict[str, list[Figure]], said: str
) -> Filed:
    assert isinstance(card, InstrumentCorrection)
    airframe = aircraft.airframe.model_copy(
        update={"instrument_correction": card.model_copy(update=rows)}
    )
    return Filed(replace(aircraft, airframe=airframe), said)
