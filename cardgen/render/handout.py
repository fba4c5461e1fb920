"""Handouts: HTML that runs over as many pages of whole paper as it needs."""

from typing import Any

from cardgen.document.record import School
from cardgen.render.press import Press
from cardgen.render.stamp import stamped
from cardgen.render.tags import finish
from cardgen.render.templates import Templates

PAPERS = {"letter": "letter", "A4": "A4"}  # by what a school prints on, as CSS names them


def handout(
    templates: Templates,
    press: Press,
    template: str,
    head: tuple[School, str, str],
    **values: Any,
) -> bytes:
    """Return a template as a PDF.

    Parameters
    ----------
    templates : Templates
    press : Press
    template : str
    head : (School, str, str)
        Who publishes it; what its identifiers begin with; the version of the program.
    values
        What the template is given.
    """
    school, name, version = head
    html = templates.render(template, paper=PAPERS[school.paper], notice=school.notice, **values)
    return stamped(press.flowing(html, lambda pdf: finish(pdf, name)), version)
