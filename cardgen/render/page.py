"""Web pages, from cards and templates."""

from collections.abc import Sequence

from cardgen.cards.card import Card
from cardgen.cards.table import Table
from cardgen.definition.model import School
from cardgen.render.dial import draw_dial
from cardgen.render.templates import Templates

ASSETS = ("tokens.css", "page.css", "page.js")


def aircraft_page(templates: Templates, card: Card, fingerprint: str) -> str:
    """Return the page of one aircraft."""
    return templates.render(
        "aircraft.html",
        root="../",
        card=card,
        school=card.school,
        fingerprint=fingerprint,
        dial=draw_dial(card.aircraft),
    )


def fleet_page(templates: Templates, school: School, cards: Sequence[tuple[Card, str]]) -> str:
    """Return the index of a fleet; `cards` are cards with their fingerprints."""
    return templates.render("fleet.html", root="", school=school, cards=cards)


def conversions_page(templates: Templates, school: School, tables: Sequence[Table]) -> str:
    """Return the page of tables that serve every aircraft."""
    return templates.render("conversions.html", root="../", school=school, conversions=tables)


def formulas_page(templates: Templates, school: School) -> str:
    """Return the page that says how each number is made."""
    return templates.render("formulas.html", root="", school=school)
