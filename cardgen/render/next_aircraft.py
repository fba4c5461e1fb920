"""From one aircraft to another, to print."""

from cardgen.document.transition import Transition
from cardgen.render.handout import handout
from cardgen.render.press import Press
from cardgen.render.templates import Templates


def next_pdf(templates: Templates, transition: Transition, press: Press | None = None) -> bytes:
    """Return the sheet of what to mind in an aircraft after another.

    Raises
    ------
    PdfError
        If Pango is not installed.
    """
    name = f"{transition.first.registration}-{transition.second.registration}"
    return handout(
        templates,
        press or Press(templates.own),
        "next-sheet.html",
        (transition.school, name, transition.cardgen),
        transition=transition,
    )
