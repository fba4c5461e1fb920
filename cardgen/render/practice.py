"""A practice sheet: a page that marks answers, its key, and both to print."""

from functools import partial

from cardgen.document.practice import Practice
from cardgen.render.handout import handout
from cardgen.render.press import Press
from cardgen.render.templates import Templates
from cardgen.words.practice import line

ASSETS = ("tokens.css", "practice.css", "practice.js")


def practice_pages(templates: Templates, sheet: Practice) -> dict[str, str]:
    """Return the page, the page of its key, and what they use, by name; they stand alone."""
    show = partial(templates.render, sheet=sheet, line=partial(line, templates.language))
    return {
        f"{sheet.file}.html": show("practice.html"),
        f"{sheet.file}-key.html": show("practice-key.html"),
        **{f"assets/{name}": templates.render(name) for name in ASSETS},
    }


def practice_pdfs(templates: Templates, sheet: Practice) -> dict[str, bytes]:
    """Return the questions and the key as PDFs, by name.

    Raises
    ------
    PdfError
        If Pango is not installed.
    """
    press = Press(templates.own)
    said = partial(line, templates.language)
    return {
        f"{sheet.file}{end}.pdf": handout(
            templates,
            press,
            "practice-sheet.html",
            (sheet.school, sheet.file, sheet.cardgen),
            sheet=sheet,
            key=bool(end),
            line=said,
        )
        for end in ("", "-key")
    }
