"""Web pages, from documents and templates."""

from typing import Any

from cardgen.document.record import (
    Document,
    Head,
    Index,
    Message,
    Pair,
    Reference,
    School,
    Shared,
)
from cardgen.document.teaching import Teaching
from cardgen.document.transition import Transition
from cardgen.layout.formats import FORMATS
from cardgen.render.any_two import traits_data as traits_data
from cardgen.render.drawings import drawings, drawn
from cardgen.render.reckoning import case_data as case_data
from cardgen.render.reckoning import usual_case
from cardgen.render.teaching import draw_lessons, ends_of
from cardgen.render.templates import Templates

ASSETS = (
    *("tokens.css", "page.css", "panel.css", "page.js", "offline.js", "air.js", "reckon.js"),
    *("words.js", "panel.js", "folds.js", "icon.svg", "next-words.js", "next.js", "next-any.js"),
    *("teaching.css", "teaching.js"),
)
TEACHING = "how-it-works.html"  # in an aircraft's folder
SERVED = ("worker.js", "manifest.webmanifest")  # in the first folder of a site


def aircraft_page(templates: Templates, document: Document) -> str:
    """Return the page of one aircraft."""
    return _page(
        templates,
        "aircraft.html",
        document.head.school,
        document.cardgen,
        root="../",
        switched=True,
        document=document,
        drawings=drawings(templates, document),
        prints=tuple(one.file.removesuffix(".pdf") for one in FORMATS),
        card_address=card_address(document.head),
        usual=usual_case(document),
    )


def teaching_page(templates: Templates, document: Document, teaching: Teaching) -> str:
    """Return the page that teaches how it works, with the figures of one aircraft."""
    language, registration = templates.language, document.head.registration
    return _page(
        templates,
        "teaching.html",
        document.head.school,
        document.cardgen,
        root="../",
        document=document,
        teaching=teaching,
        drawings={
            name: drawn(
                templates,
                drawing,
                Message(f"drawing-title-{name}", {"registration": registration}),
            )
            for name, drawing in draw_lessons(language, document, teaching).items()
        },
        ends={one.id: ends_of(language, document, one) for one in teaching.lessons},
    )


def card_address(head: Head) -> str:
    """Return where a card is found, as one types it."""
    site = head.school.web_address.rpartition("://")[2].rstrip("/")
    return "/".join(part for part in (site, head.registration, "card.pdf") if part)


def fleet_page(templates: Templates, index: Index) -> str:
    """Return the index of a fleet."""
    return _page(templates, "fleet.html", index.school, index.cardgen, index=index)


def next_page(templates: Templates, transition: Transition) -> str:
    """Return the page of what to mind in an aircraft after another."""
    return _page(
        templates,
        "next.html",
        transition.school,
        transition.cardgen,
        root="../../../",
        transition=transition,
    )


def any_two_page(templates: Templates, index: Index) -> str:
    """Return the page on which any two aircraft are chosen."""
    return _page(templates, "next-any.html", index.school, index.cardgen, root="../", index=index)


def left_out_page(templates: Templates, school: School, pair: Pair) -> str:
    """Return the page of a pair of which one has no card."""
    return _page(templates, "next-left-out.html", school, "", root="../../../", pair=pair)


def conversions_page(templates: Templates, shared: Shared) -> str:
    """Return the page of tables that serve every aircraft."""
    return _page(
        templates, "conversions.html", shared.school, shared.cardgen, root="../", shared=shared
    )


def formulas_page(templates: Templates, reference: Reference) -> str:
    """Return the page that says how each number is made."""
    return _page(
        templates, "formulas.html", reference.school, reference.cardgen, reference=reference
    )


def glossary_page(templates: Templates, reference: Reference) -> str:
    """Return the page that says what the words mean."""
    return _page(
        templates, "glossary.html", reference.school, reference.cardgen, reference=reference
    )


def keys_page(templates: Templates, reference: Reference) -> str:
    """Return the page of every key of the definitions."""
    return _page(templates, "keys.html", reference.school, reference.cardgen, reference=reference)


def _page(templates: Templates, name: str, school: School, cardgen: str, **values: Any) -> str:
    """Return a page; `seen` are the terms that it has linked to the glossary so far."""
    given = {"root": "", "switched": False, "seen": set(), **values}
    return templates.render(name, school=school, cardgen=cardgen, **given)
