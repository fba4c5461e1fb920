"""Printed sheets, from cards and templates."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from cardgen.cards.card import Card
from cardgen.cards.table import Block, Table
from cardgen.definition.model import School
from cardgen.render.dial import draw_dial
from cardgen.render.templates import Templates

SHEETS = {"letter": ("5.5in", "8.5in"), "A4": ("148mm", "210mm")}  # half of the paper


class PdfError(Exception):
    """The system library that lays out pages is missing."""


def write_cards_pdf(
    path: Path, templates: Templates, school: School, cards: Sequence[tuple[Card, str]]
) -> None:
    """Write the kneeboard sheets of one card, or of a whole fleet.

    Parameters
    ----------
    path : Path
        The file to write.
    templates : Templates
    school : School
    cards : sequence of (Card, str)
        Cards with their fingerprints.

    Raises
    ------
    PdfError
        If Pango is not installed.
    """
    html = templates.render(
        "card.html",
        school=school,
        size=SHEETS[school.paper],
        cards=cards,
        dials={card.registration: draw_dial(card.aircraft) for card, _ in cards},
        halves=halves,
    )
    _write(path, html)


def write_tables_pdf(
    path: Path, templates: Templates, school: School, tables: Sequence[Table]
) -> None:
    """Write the sheets of the tables that serve every aircraft; see `write_cards_pdf`."""
    size = SHEETS[school.paper]
    _write(
        path,
        templates.render("card-conversions.html", school=school, size=size, conversions=tables),
    )


def halves(block: Block) -> tuple[Block, Block]:
    """Split rows into two columns of like length, keeping each speed's rows together."""
    rows = block.rows
    starts = [i for i in range(1, len(rows)) if rows[i][0].text != rows[i - 1][0].text]
    middle = min(starts, key=lambda i: (abs(2 * i - len(rows)), -i), default=len(rows))
    return replace(block, rows=rows[:middle]), replace(block, rows=rows[middle:])


def _write(path: Path, html: str) -> None:
    try:
        import weasyprint
    except OSError as error:
        raise PdfError(
            f"WeasyPrint cannot load the system library Pango ({error}); on Debian: "
            "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
        ) from error
    document = weasyprint.HTML(string=html, base_url=str(path.parent))
    document.write_pdf(path, pdf_variant="pdf/ua-1")
