"""Web pages, from cards and templates."""

from collections.abc import Sequence
from dataclasses import replace

from cardgen.cards.card import Card
from cardgen.cards.speeds import as_given
from cardgen.cards.table import Cell, Table
from cardgen.definition.model import School
from cardgen.render.calibration import draw_calibration
from cardgen.render.dial import draw_dial
from cardgen.render.examples import worked_examples
from cardgen.render.ladder import draw_ladder
from cardgen.render.tas import draw_tas
from cardgen.render.templates import Templates
from cardgen.render.terms import first_uses

ASSETS = ("tokens.css", "page.css", "page.js")


def aircraft_page(
    templates: Templates, card: Card, fingerprint: str, findings: Sequence[object] = ()
) -> str:
    """Return the page of one aircraft; `findings` are what the checks found in it."""
    return templates.render(
        "aircraft.html",
        root="../",
        card=card,
        school=card.school,
        fingerprint=fingerprint,
        findings=findings,
        dial=draw_dial(card.aircraft),
        ladder=draw_ladder(card.aircraft),
        calibration=draw_calibration(card.aircraft),
        tas=draw_tas(card.aircraft, card.school),
        as_given=as_given,
        examples=worked_examples(card),
        linked=first_uses("../"),
        narrowed=narrowed,
    )


def fleet_page(templates: Templates, school: School, cards: Sequence[tuple[Card, str]]) -> str:
    """Return the index of a fleet; `cards` are cards with their fingerprints."""
    return templates.render("fleet.html", root="", school=school, cards=cards)


def conversions_page(templates: Templates, school: School, tables: Sequence[Table]) -> str:
    """Return the page of tables that serve every aircraft."""
    return templates.render(
        "conversions.html",
        root="../",
        school=school,
        conversions=tables,
        examples={},
        linked=first_uses("../"),
    )


def formulas_page(templates: Templates, school: School) -> str:
    """Return the page that says how each number is made."""
    return templates.render("formulas.html", root="", school=school, linked=first_uses(""))


def glossary_page(templates: Templates, school: School) -> str:
    """Return the page that says what the words mean."""
    return templates.render("glossary.html", root="", school=school)


def narrowed(table: Table) -> Table:
    """Return the table of airspeeds or of markings with some of its words beneath others.

    So it fits a phone, with what the indicator shows next to the name.
    """
    under, words = {"speeds": ("meaning", "when"), "markings": ("marking", "meaning")}[table.name]
    names = [column.name for column in table.columns]
    at, gone = names.index(under), names.index(words)

    def row_of(row: tuple[Cell, ...]) -> tuple[Cell, ...]:
        said = "" if at and row[at].text.lower() == row[0].text.lower() else row[at].text
        both = Cell(said, also=row[gone] if row[gone].text else None)
        return tuple(both if i == at else cell for i, cell in enumerate(row) if i != gone)

    return replace(
        table,
        columns=tuple(column for column in table.columns if column.name != words),
        blocks=tuple(replace(one, rows=tuple(map(row_of, one.rows))) for one in table.blocks),
    )
