"""Printed sheets, from cards and templates."""

import itertools
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from cardgen.cards.card import Card
from cardgen.cards.table import Block, Cell, Table
from cardgen.definition.model import School
from cardgen.render import calibration, tas
from cardgen.render.dial import draw_dial
from cardgen.render.fitting import Fit, Page, PdfError, Sheet, laid_out
from cardgen.render.imposition import two_up
from cardgen.render.ladder import draw_ladder
from cardgen.render.tags import finished
from cardgen.render.templates import Templates

__all__ = ["PdfError", "write_aircraft_pdfs", "write_tables_pdf"]

INCH = 25.4
Row = tuple[Cell, ...]
CARDS = {"letter": (5.5 * INCH, 8.5 * INCH), "A4": (148.0, 210.0)}  # mm; half of the paper
STRIPS = {"letter": (11 / 3 * INCH, 8.5 * INCH), "A4": (99.0, 210.0)}  # a third of it
_FEW = 3  # columns in a part of a table, at the least
PUNCHED, FREE = 16.0, 6.0  # mm kept clear: a 6 mm hole 12 mm from the edge and slack; any printer


def write_aircraft_pdfs(
    folder: Path, templates: Templates, school: School, card: Card, fingerprint: str
) -> None:
    """Write all that is printed for one aircraft.

    ``card.pdf``, the kneeboard sheets; ``card-2up.pdf``, the same two to a side
    of paper; ``card-night.pdf``, for a cockpit under red light, in black only
    and heavier; ``strip.pdf``, the speeds only.

    Parameters
    ----------
    folder : Path
        Where to write them.
    templates : Templates
    school : School
    card : Card
    fingerprint : str

    Raises
    ------
    PdfError
        If Pango is not installed.
    """
    fits = _write_card(folder / "card.pdf", templates, school, card, fingerprint)
    _write_card(folder / "card-night.pdf", templates, school, card, fingerprint, fits)
    _write_strip(folder / "strip.pdf", templates, school, card, fingerprint)
    shift = PUNCHED - FREE if school.punch_edge == "left" else 0.0
    two_up(folder / "card.pdf", folder / "card-2up.pdf", school.paper, shift)


def _write_card(
    path: Path,
    templates: Templates,
    school: School,
    card: Card,
    fingerprint: str,
    fits: Sequence[Fit] | None = None,
) -> list[Fit]:
    """Write the card, or by the day's fits the night's; return how sheets were fitted."""
    titles = {
        "speeds": "Speeds",
        "calibrated": "CAS and stall",
        "true": "True airspeed",
        "cruise": "Cruise and wind" if card.table("cruise") else "Wind and glide",
    }
    charts: dict[str, tuple[Any, float]] = {
        "calibrated": (calibration.draw_calibration(card.aircraft), calibration.SHAPE),
        "true": (tas.draw_tas(card.aircraft, school), tas.SHAPE),
    }
    given = {
        "card": card,
        "fingerprint": fingerprint,
        "titles": titles,
        "halves": halves,
        "in_parts": in_parts,
        "by_name": by_name,
        "unbroken": unbroken,
    }
    dial = draw_dial(card.aircraft)

    def sheet(name: str) -> Sheet:
        chart, shape = charts.get(name, (None, 0.0))

        def html(page: Page, drawn: bool) -> str:
            return templates.render(
                "card.html",
                school=school,
                sheet=name,
                page=page,
                dial=dial,
                chart=chart if drawn else None,
                night=fits is not None,
                **given,
            )

        return Sheet(html, shape if chart else 0.0)

    page = _page(school, CARDS, card.registration)
    pdf, found = laid_out(page, [sheet(name) for name in titles], fits)
    _write(path, pdf, card.registration)
    return found


def _write_strip(
    path: Path, templates: Templates, school: School, card: Card, fingerprint: str
) -> None:
    """Write a strip of a third of the paper with the speeds only."""
    ladder = draw_ladder(card.aircraft)

    def html(page: Page, _: bool) -> str:
        return templates.render(
            "strip.html",
            school=school,
            page=page,
            card=card,
            fingerprint=fingerprint,
            ladder=ladder,
            night=False,
            by_name=by_name,
            unbroken=unbroken,
        )

    pdf, _ = laid_out(_page(school, STRIPS, card.registration), [Sheet(html)])
    _write(path, pdf, card.registration)


def write_tables_pdf(
    path: Path, templates: Templates, school: School, tables: Sequence[Table]
) -> None:
    """Write the sheets of the tables that serve every aircraft; see `write_aircraft_pdfs`."""

    def html_of(table: Table) -> Callable[[Page, bool], str]:
        return lambda page, _: templates.render(
            "card-conversions.html",
            page=page,
            table=table,
            school=school,
            night=False,
            in_parts=in_parts,
        )

    sheets = [
        Sheet(html_of(replace(table, blocks=(block,))))
        for table in tables
        for block in table.blocks
    ]
    pdf, _ = laid_out(_page(school, CARDS, "Conversions"), sheets)
    _write(path, pdf, "conversions")


def halves(block: Block) -> tuple[Block, Block]:
    """Split rows into two columns of like length, keeping each speed's rows together."""
    rows = block.rows
    starts = [i for i in range(1, len(rows)) if rows[i][0].text != rows[i - 1][0].text]
    middle = min(starts, key=lambda i: (abs(2 * i - len(rows)), -i), default=len(rows))
    return replace(block, rows=rows[:middle]), replace(block, rows=rows[middle:])


def in_parts(table: Table, parts: int) -> list[Table]:
    """Split a table of many columns into tables of fewer, each with the rows' headings."""
    stub, count = table.stub, len(table.columns)
    wide = -(-(count - stub) // parts)
    if wide < _FEW:
        return [table]

    def of(row: Sequence[Any], start: int) -> tuple[Any, ...]:
        return (*row[:stub], *row[start : start + wide])

    return [
        replace(
            table,
            columns=of(table.columns, start),
            blocks=tuple(
                replace(one, rows=tuple(of(row, start) for row in one.rows)) for one in table.blocks
            ),
        )
        for start in range(stub, count, wide)
    ]


def by_name(block: Block) -> list[tuple[str, list[Row]]]:
    """Return rows with those of one speed together."""
    return [
        (name, list(rows)) for name, rows in itertools.groupby(block.rows, lambda row: row[0].text)
    ]


def unbroken(text: str) -> str:
    """Return words in which numbers stay in a line with what they belong to.

    Examples
    --------
    >>> unbroken("flaps 10, 2310 lb") == "flaps\N{NO-BREAK SPACE}10, 2310\N{NO-BREAK SPACE}lb"
    True
    """
    return re.sub(r"(?<=flaps) (?=\S)|(?<=\d) (?=(?:lb|kg|ft|m)\b)", "\N{NO-BREAK SPACE}", text)


def _page(school: School, sizes: dict[str, tuple[float, float]], name: str) -> Page:
    """Return a page that is clear where the school punches holes."""
    left = PUNCHED if school.punch_edge == "left" else FREE
    top = PUNCHED if school.punch_edge == "top" else FREE
    width, height = sizes[school.paper]
    return Page(width, height, left=left, right=FREE, top=top, bottom=FREE, name=name)


def _write(path: Path, pdf: bytes, name: str) -> None:
    finished(pdf, name).save(path)
